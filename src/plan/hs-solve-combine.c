// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which trips together serve each call once: all choices, one call after the other, as far as prizes say that something
 * cheaper can come of it. */

#include "hs-solve-combine.h"

#include <stdlib.h>
#include <string.h>

#define WORDS ((HS_PROBLEM_MAX_CALLS + 63) / 64)
#define MAX_STEPS 400000
#define ASK_EVERY 4096

typedef struct
{
  guint64 calls[WORDS];
  gint64 over;
  guint trip;
  guint kind;
} Piece;

/* @with: (element-type Piece): for each call the pieces that serve it, least over their prizes first
 * @order: of calls, those with the fewest pieces first
 * @least: over prizes, of any piece, or 0 */
typedef struct
{
  const HsCombine *combine;
  GArray **with;
  guint *order;
  gint64 least;
  guint64 done[WORDS];
  guint used[HS_PROBLEM_MAX_VANS];
  guint n_free;
  guint depth;
  guint now[HS_PROBLEM_MAX_VANS];
  guint best[HS_PROBLEM_MAX_VANS];
  guint n_best;
  gint64 below;
  guint steps;
} Search;

static gboolean
fill_piece (const HsTrip *trip, Piece *piece)
{
  for (guint k = 0; k < trip->n_calls; k++)
    {
      guint64 bit = G_GUINT64_CONSTANT (1) << trip->calls[k] % 64;

      if ((piece->calls[trip->calls[k] / 64] & bit) != 0)
        return FALSE;
      piece->calls[trip->calls[k] / 64] |= bit;
    }
  return TRUE;
}

static int
compare_pieces (gconstpointer a, gconstpointer b)
{
  const Piece *left = a;
  const Piece *right = b;

  if (left->over != right->over)
    return left->over < right->over ? -1 : 1;
  return left->trip < right->trip ? -1 : left->trip > right->trip;
}

static void
fill_pieces (Search *search)
{
  const HsCombine *combine = search->combine;

  for (guint t = 0; t < combine->trips->len; t++)
    {
      const HsTrip *trip = &g_array_index (combine->trips, HsTrip, t);
      Piece piece = { .over = trip->over, .trip = t, .kind = trip->van };

      if (!fill_piece (trip, &piece))
        continue;
      search->least = MIN (search->least, piece.over);
      for (guint k = 0; k < trip->n_calls; k++)
        g_array_append_val (search->with[trip->calls[k]], piece);
    }
  for (guint i = 0; i < combine->n_calls; i++)
    {
      guint at = i;

      g_array_sort (search->with[i], compare_pieces);
      for (; at > 0 && search->with[search->order[at - 1]]->len > search->with[i]->len; at--)
        search->order[at] = search->order[at - 1];
      search->order[at] = i;
    }
}

static gboolean
is_over (Search *search)
{
  if (search->steps < MAX_STEPS && ++search->steps % ASK_EVERY == 0 && hs_exact_gives_up (search->combine->exact))
    search->steps = MAX_STEPS;
  return search->steps >= MAX_STEPS;
}

static gboolean
fits (const Search *search, const Piece *piece)
{
  for (guint w = 0; w < WORDS; w++)
    if ((search->done[w] & piece->calls[w]) != 0)
      return FALSE;
  return search->used[piece->kind] < search->combine->members[piece->kind];
}

static void
turn (Search *search, const Piece *piece)
{
  for (guint w = 0; w < WORDS; w++)
    search->done[w] ^= piece->calls[w];
}

/* @total: the prizes of all calls and what the pieces chosen cost over theirs. */
static void
go_on (Search *search, guint from, gint64 total)
{
  guint call;

  while (from < search->combine->n_calls
         && (search->done[search->order[from] / 64] >> search->order[from] % 64 & 1) != 0)
    from++;
  if (from == search->combine->n_calls)
    {
      if (total >= search->below)
        return;
      search->below = total;
      search->n_best = search->depth;
      memcpy (search->best, search->now, sizeof search->best);
      return;
    }
  call = search->order[from];
  for (guint k = 0; search->n_free > 0 && k < search->with[call]->len; k++)
    {
      const Piece *piece = &g_array_index (search->with[call], Piece, k);

      if (total + piece->over + (search->n_free - 1) * search->least >= search->below || is_over (search))
        return;
      if (!fits (search, piece))
        continue;
      turn (search, piece);
      search->used[piece->kind]++;
      search->n_free--;
      search->now[search->depth++] = piece->trip;
      go_on (search, from + 1, total + piece->over);
      search->depth--;
      search->n_free++;
      search->used[piece->kind]--;
      turn (search, piece);
    }
}

guint
hs_solve_combine (const HsCombine *combine, guint *ret_chosen)
{
  Search search = { combine };
  gint64 total = 0;

  search.with = g_new (GArray *, combine->n_calls + 1);
  search.order = g_new (guint, combine->n_calls + 1);
  search.below = combine->below;
  for (guint i = 0; i < combine->n_calls; i++)
    {
      search.with[i] = g_array_new (FALSE, FALSE, sizeof (Piece));
      total += combine->prizes[i];
    }
  for (guint k = 0; k < combine->n_kinds; k++)
    search.n_free += combine->members[k];
  fill_pieces (&search);
  go_on (&search, 0, total);
  for (guint i = 0; i < combine->n_calls; i++)
    g_array_unref (search.with[i]);
  g_free (search.with);
  g_free (search.order);
  memcpy (ret_chosen, search.best, search.n_best * sizeof (guint));
  return search.n_best;
}
