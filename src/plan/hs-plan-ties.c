// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The last tie-break. Money, home and leave time are known to be the best; which orders reach them, and which of those
 * comes first by ids? A depth-first trial in the order of ids at the fixed leave time: the first that gets through is
 * the answer, or the first of those for each place of the break. What was seen to fail is kept, and whatever is no
 * better than that fails too. */

#include "hs-plan-tune.h"

#include <string.h>

/* Where the search itself is exact, ties get all the tries they could want; above, a second's worth. */
#define MAX_TRIES 20000000
#define MAX_TRIES_LARGE 500000

typedef struct
{
  guint64 done;
  guint last;
  gint64 time;
  gint64 units;
  gint64 late;
  guint broken;
} HsPlace;

typedef struct
{
  HsSearch *search;
  const HsFrame *frame;
  const HsBound *bound;
  const HsFinish *best;
  gint64 max_units;
  int break_after;
  GHashTable *failed;
  guint order[HS_DAY_MAX_STOPS];
  guint depth;
  guint tries;
  guint max_tries;
} HsTies;

static guint
place_hash (gconstpointer key)
{
  const HsPlace *place = key;
  guint64 mix = (place->done * 67 + place->last) * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  return (guint) (mix >> 32);
}

static gboolean
place_equal (gconstpointer a, gconstpointer b)
{
  const HsPlace *left = a;
  const HsPlace *right = b;

  return left->done == right->done && left->last == right->last;
}

static gboolean
is_no_better (const HsPlace *place, const HsPlace *failed)
{
  return place->time >= failed->time && place->units >= failed->units && place->late >= failed->late
         && place->broken >= failed->broken;
}

static gboolean
ties_has_failed (const HsTies *ties, const HsPlace *place)
{
  GArray *failed = g_hash_table_lookup (ties->failed, place);

  for (guint i = 0; failed != NULL && i < failed->len; i++)
    if (is_no_better (place, &g_array_index (failed, HsPlace, i)))
      return TRUE;
  return FALSE;
}

static void
ties_remember_failed (HsTies *ties, const HsPlace *place)
{
  GArray *failed = g_hash_table_lookup (ties->failed, place);

  if (failed == NULL)
    {
      failed = g_array_new (FALSE, FALSE, sizeof (HsPlace));
      g_hash_table_insert (ties->failed, g_memdup2 (place, sizeof *place), failed);
    }
  for (guint i = failed->len; i > 0; i--)
    if (is_no_better (&g_array_index (failed, HsPlace, i - 1), place))
      g_array_remove_index_fast (failed, i - 1);
  g_array_append_val (failed, *place);
  ties->search->states++;
}

/* Whether what is left can still lead to the finish. */
static gboolean
ties_may_arrive (const HsTies *ties, const HsPlace *place)
{
  const HsFrame *frame = ties->frame;
  guint broken = place->broken;
  gint64 late = place->late;

  if (!hs_frame_doom (frame, place->done, place->last, place->time, &broken, &late) || broken > ties->best->broken
      || late > ties->best->late)
    return FALSE;
  return place->time + hs_bound_seconds (ties->bound, frame, place->done, place->last) <= ties->best->home
         && place->units + hs_bound_units (ties->bound, frame, place->done, place->last) <= ties->max_units;
}

/* Drives on to stop @i; FALSE where the finish can no longer be reached. */
static gboolean
ties_step (const HsTies *ties, const HsPlace *place, guint i, HsPlace *ret_next)
{
  const HsFrame *frame = ties->frame;
  HsPlace next = { place->done | HS_FRAME_BIT (i), i };
  gint64 start;
  gint64 late;

  if (!hs_frame_start (frame, i, place->time + hs_frame_seconds (frame, place->last, i), &start, &late))
    return FALSE;
  next.time = start + frame->stops[i].service;
  next.units = place->units + hs_frame_units (frame, place->last, i);
  next.late = place->late + late;
  next.broken = place->broken + (late > 0);
  if ((int) ties->depth == ties->break_after)
    {
      if (next.time > frame->break_last)
        return FALSE;
      next.time = MAX (next.time, frame->break_first) + frame->break_seconds;
    }
  *ret_next = next;
  return ties_may_arrive (ties, &next);
}

static gboolean
ties_arrives (const HsTies *ties, const HsPlace *place)
{
  const HsFrame *frame = ties->frame;
  gint64 home = place->time + hs_frame_seconds (frame, place->last, frame->n + 1);
  gboolean owes = ties->break_after == HS_PLAN_NO_BREAK && ties->best->leave < frame->rested_from;
  gint64 rest_late = owes ? MAX (0, home - frame->break_last) : 0;

  return home <= ties->best->home && place->late + rest_late <= ties->best->late
         && place->broken + (rest_late > 0) <= ties->best->broken
         && place->units + hs_frame_units (frame, place->last, frame->n + 1) <= ties->max_units;
}

static gboolean
ties_try (HsTies *ties, const HsPlace *place)
{
  const HsFrame *frame = ties->frame;

  if (place->done == frame->all)
    return ties_arrives (ties, place);
  for (guint rank = 0; rank < frame->n; rank++)
    {
      guint i = frame->by_id[rank];
      HsPlace next;

      if ((place->done & HS_FRAME_BIT (i)) != 0 || !hs_frame_may_follow (frame, place->done, i))
        continue;
      if (++ties->tries > ties->max_tries || (ties->tries % 1024 == 0 && hs_search_gives_up (ties->search)))
        return FALSE;
      if (!ties_step (ties, place, i, &next) || ties_has_failed (ties, &next))
        continue;
      ties->order[ties->depth++] = i;
      if (ties_try (ties, &next))
        return TRUE;
      ties->depth--;
      if (ties->tries > ties->max_tries || ties->search->cut)
        return FALSE;
      ties_remember_failed (ties, &next);
    }
  return FALSE;
}

static gboolean
comes_first (const HsFrame *frame, const guint *a, const guint *b)
{
  for (guint k = 0; k < frame->n; k++)
    if (a[k] != b[k])
      return frame->stops[a[k]].id_rank < frame->stops[b[k]].id_rank;
  return FALSE;
}

/* The first order with the break where ties->break_after says, if it is the first @found or comes before @order. */
static gboolean
ties_settle_at (HsTies *ties, gboolean found, guint *order)
{
  HsPlace begin = { 0, ties->frame->n, ties->best->leave };

  ties->depth = 0;
  g_hash_table_remove_all (ties->failed);
  if (!ties_try (ties, &begin))
    return FALSE;
  if (!found || comes_first (ties->frame, ties->order, order))
    memcpy (order, ties->order, ties->frame->n * sizeof (guint));
  return TRUE;
}

void
hs_ties_settle (HsSearch *search, const HsFrame *frame, const HsBound *bound, const HsFinish *best, guint *order)
{
  HsTies ties = { search, frame, bound, best };
  gboolean found = FALSE;
  gboolean owes = best->leave < frame->rested_from;

  if (hs_search_gives_up (search))
    return;
  ties.max_tries = frame->n <= HS_PLAN_EXACT_STOPS ? MAX_TRIES : MAX_TRIES_LARGE;
  ties.max_units = best->units - (best->home - best->leave) * frame->second_units;
  ties.failed = g_hash_table_new_full (place_hash, place_equal, g_free, (GDestroyNotify) g_array_unref);
  ties.break_after = HS_PLAN_NO_BREAK;
  found = ties_settle_at (&ties, found, order);
  for (ties.break_after = 0; owes && ties.break_after < (int) frame->n; ties.break_after++)
    found |= ties_settle_at (&ties, found, order);
  if (ties.tries > ties.max_tries)
    search->bit = TRUE;
  g_hash_table_unref (ties.failed);
}
