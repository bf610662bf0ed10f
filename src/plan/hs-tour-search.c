// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Iterated local search over one round. Random, but the same for the same seed as long as nobody cuts it short. */

#include "hs-tour-search.h"

#include <string.h>

#define LONGEST_KICK 50
#define KICK_TRIES 20
#define ASK_EVERY 64
#define LEAST_NODES 5
#define WORSE_LEGS 4
#define MOST_PRICE ((gint64) 500000000 * HS_TOUR_SCALE)

gboolean
hs_tour_search_gives_up (HsTourSearch *search)
{
  if (!search->cut && search->give_up != NULL)
    search->cut = search->give_up (search->user_data);
  return search->cut;
}

void
hs_tour_queue_add (HsTourSearch *search, guint node)
{
  guint n = search->frame->n;

  if (search->queued[node])
    return;
  search->queued[node] = 1;
  search->queue[(search->queue_from + search->queue_length++) % n] = (guint16) node;
}

int
hs_tour_queue_take (HsTourSearch *search)
{
  guint node;

  if (search->queue_length == 0)
    return -1;
  node = search->queue[search->queue_from];
  search->queue_from = (search->queue_from + 1) % search->frame->n;
  search->queue_length--;
  search->queued[node] = 0;
  return (int) node;
}

static void
number_nodes (HsTourSearch *search)
{
  for (guint i = 0; i < search->frame->n; i++)
    search->at[search->tour[i]] = (guint16) i;
}

static void
put (HsTourSearch *search, guint place, guint16 node)
{
  guint n = search->frame->n;

  if (place >= n)
    place -= n;
  search->tour[place] = node;
  search->at[node] = (guint16) place;
}

void
hs_tour_exchange (HsTourSearch *search, guint from, guint middle, guint to)
{
  guint n = search->frame->n;
  guint first = middle - from;
  guint second = to - middle;
  guint16 *hold = search->saved + n;

  for (guint i = 0; i < first + second; i++)
    hold[i] = search->tour[(from + i) % n];
  for (guint i = 0; i < second; i++)
    put (search, from + i, hold[first + i]);
  for (guint i = 0; i < first; i++)
    put (search, from + second + i, hold[i]);
}

/* Whether nothing in the stretch [@from, @middle) must come before something in [@middle, @to). */
static gboolean
may_exchange (const HsTourSearch *search, guint from, guint middle, guint to)
{
  for (guint i = from; i < middle; i++)
    for (guint j = middle; j < to; j++)
      if (hs_tour_frame_is_before (search->frame, search->tour[i], search->tour[j]))
        return FALSE;
  return TRUE;
}

/* Always the cheapest that may come next. */
static void
begin_nearest (HsTourSearch *search)
{
  const HsTourFrame *frame = search->frame;
  guint n = frame->n;
  g_autofree guint *waits = g_new0 (guint, n);
  g_autofree guint8 *used = g_new0 (guint8, n);
  guint last = 0;

  for (guint j = 1; j < n; j++)
    for (guint w = 0; w < frame->words; w++)
      waits[j] += (guint) __builtin_popcountll (frame->before[j * frame->words + w]);
  used[0] = 1;
  search->tour[0] = 0;
  for (guint k = 1; k < n; k++)
    {
      guint next = 0;

      for (guint j = 1; j < n; j++)
        if (!used[j] && waits[j] == 0
            && (next == 0 || hs_tour_frame_cost (frame, last, j) < hs_tour_frame_cost (frame, last, next)))
          next = j;
      used[next] = 1;
      search->tour[k] = (guint16) next;
      for (guint j = 1; j < n; j++)
        waits[j] -= hs_tour_frame_is_before (frame, next, j);
      last = next;
    }
}

static void
improve (HsTourSearch *search)
{
  if (search->frame->symmetric)
    hs_tour_improve_alike (search);
  else
    hs_tour_improve_stretches (search);
}

/* Where the round was kept from is turned so that node 0 stands first. */
static void
keep_best (HsTourSearch *search)
{
  guint n = search->frame->n;

  search->best_cost = search->cost - search->added;
  for (guint i = 0; i < n; i++)
    search->best[i] = search->tour[(search->at[0] + i) % n];
}

/* Three neighboring stretches: @ret_ends are the places where they begin, and the one where the last has ended. */
static gboolean
pick_kick (HsTourSearch *search, guint *ret_ends)
{
  const HsTourFrame *frame = search->frame;
  guint n = frame->n;
  guint longest = MIN (LONGEST_KICK, (n - 1) / 3);

  for (guint i = 0; i < KICK_TRIES; i++)
    {
      guint most = (guint) g_rand_int_range (search->rand, 1, (gint32) longest + 1);
      guint length = 0;
      guint past;

      for (guint k = 0; k < 3; k++)
        {
          ret_ends[k] = length;
          length += (guint) g_rand_int_range (search->rand, 1, (gint32) most + 1);
        }
      past = n - (frame->symmetric ? 0 : length) + 1;
      ret_ends[0] = (guint) g_rand_int_range (search->rand, 1, (gint32) past);
      ret_ends[1] += ret_ends[0];
      ret_ends[2] += ret_ends[0];
      ret_ends[3] = ret_ends[0] + length;
      if (!frame->ordered
          || (may_exchange (search, ret_ends[0], ret_ends[1], ret_ends[3])
              && may_exchange (search, ret_ends[1], ret_ends[2], ret_ends[3])))
        return TRUE;
      longest = MAX (longest / 2, 1);
    }
  return FALSE;
}

/* The double bridge: the three stretches in the reverse order, none of them turned. It is no move of the local
 * improvement, which could undo it at once. */
static gboolean
kick (HsTourSearch *search)
{
  guint n = search->frame->n;
  guint ends[4];
  guint nodes[8];

  if (!pick_kick (search, ends))
    return FALSE;
  for (guint k = 0; k < 4; k++)
    {
      nodes[2 * k] = search->tour[(ends[k] - 1) % n];
      nodes[2 * k + 1] = search->tour[ends[k] % n];
      search->cost -= hs_tour_search_cost (search, nodes[2 * k], nodes[2 * k + 1]);
    }
  search->cost += (gint64) hs_tour_search_cost (search, nodes[0], nodes[5])
                  + hs_tour_search_cost (search, nodes[6], nodes[3]) + hs_tour_search_cost (search, nodes[4], nodes[1])
                  + hs_tour_search_cost (search, nodes[2], nodes[7]);
  hs_tour_exchange (search, ends[0], ends[1], ends[3]);
  hs_tour_exchange (search, ends[0], ends[0] + ends[2] - ends[1], ends[0] + ends[3] - ends[1]);
  for (guint k = 0; k < 8; k++)
    hs_tour_queue_add (search, nodes[k]);
  return TRUE;
}

HsTourSearch *
hs_tour_search_new (const HsTourFrame *frame, const HsTourHow *how)
{
  HsTourSearch *search = g_new0 (HsTourSearch, 1);
  guint n = frame->n;

  search->frame = frame;
  search->give_up = how->give_up;
  search->user_data = how->user_data;
  search->rand = g_rand_new_with_seed (how->seed);
  search->costs = g_memdup2 (frame->costs, (gsize) n * n * sizeof *frame->costs);
  search->n_near = frame->n_near;
  search->near = g_memdup2 (frame->near_out, (gsize) n * frame->n_near * sizeof *frame->near_out);
  search->best = g_new (guint16, n);
  search->tour = g_new (guint16, n);
  search->at = g_new (guint16, n);
  search->saved = g_new (guint16, 2 * n);
  search->queue = g_new (guint16, n);
  search->queued = g_new0 (guint8, n);
  begin_nearest (search);
  number_nodes (search);
  search->cost = hs_tour_frame_round (frame, search->tour);
  keep_best (search);
  if (n >= LEAST_NODES)
    {
      for (guint i = 0; i < n; i++)
        hs_tour_queue_add (search, search->tour[i]);
      improve (search);
      keep_best (search);
    }
  return search;
}

/* Whether all costs with their prices stay well inside 32 bits; prices are rounded down to whole cost. */
static gboolean
add_prices (HsTourSearch *search, const HsTourTree *tree)
{
  guint n = tree->n;
  const gint64 *coming = tree->prices + (tree->target == 1 ? n : 0);
  g_autofree gint64 *going_whole = g_new (gint64, n);
  g_autofree gint64 *coming_whole = g_new (gint64, n);
  gint64 added = 0;

  for (guint i = 0; i < n; i++)
    {
      if (ABS (tree->prices[i]) > MOST_PRICE || ABS (coming[i]) > MOST_PRICE)
        return FALSE;
      going_whole[i] = tree->prices[i] / HS_TOUR_SCALE;
      coming_whole[i] = coming[i] / HS_TOUR_SCALE;
      added += going_whole[i] + coming_whole[i];
    }
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      if (search->costs[i * n + j] != HS_TOUR_NO_LEG)
        search->costs[i * n + j] += (gint32) (going_whole[i] + coming_whole[j]);
  search->cost += added;
  search->added += added;
  return TRUE;
}

void
hs_tour_search_reprice (HsTourSearch *search, const HsTourTree *tree)
{
  guint n = search->frame->n;
  g_autofree gint32 *kept = NULL;

  memcpy (search->costs, search->frame->costs, (gsize) n * n * sizeof *search->costs);
  search->cost -= search->added;
  search->added = 0;
  if (!add_prices (search, tree))
    return;
  kept = g_new (gint32, (gsize) n * n);
  for (gsize i = 0; i < (gsize) n * n; i++)
    kept[i] = HS_TOUR_NO_LEG;
  for (guint a = 0; a < tree->n_legs; a++)
    {
      guint i = tree->legs[a].tail;
      guint j = tree->legs[a].head;

      if (tree->state[a] == HS_TOUR_LEG_OUT)
        continue;
      kept[i * n + j] = hs_tour_search_cost (search, i, j);
      if (tree->target == 2)
        kept[j * n + i] = kept[i * n + j];
    }
  hs_tour_frame_fill_near (kept, n, search->n_near, search->near);
}

/* By how much a kick may leave the round worse: up to a few legs of usual length at first, nothing at the end. Without
 * that the search never gets away from where it is. */
static gint64
allowance (HsTourSearch *search, guint64 left, guint64 kicks)
{
  gint64 most = search->best_cost / search->frame->n * WORSE_LEGS * (gint64) (left * 100 / kicks) / 100;

  return g_rand_int_range (search->rand, 0, 1000) * most / 1000;
}

void
hs_tour_search_restart (HsTourSearch *search)
{
  memcpy (search->tour, search->best, search->frame->n * sizeof *search->tour);
  number_nodes (search);
  search->cost = search->best_cost + search->added;
}

gboolean
hs_tour_search_run (HsTourSearch *search, guint64 kicks, gint64 enough)
{
  guint n = search->frame->n;
  gint64 before = search->best_cost;

  for (guint64 k = 0; k < kicks && n >= LEAST_NODES && search->best_cost > enough; k++)
    {
      gint64 cost = search->cost;

      if (k % ASK_EVERY == 0 && hs_tour_search_gives_up (search))
        break;
      memcpy (search->saved, search->tour, n * sizeof *search->tour);
      if (!kick (search))
        continue;
      improve (search);
      if (search->cost <= cost + allowance (search, kicks - k, kicks))
        {
          if (search->cost - search->added < search->best_cost)
            keep_best (search);
          continue;
        }
      memcpy (search->tour, search->saved, n * sizeof *search->tour);
      number_nodes (search);
      search->cost = cost;
    }
  return search->best_cost < before;
}

void
hs_tour_search_free (HsTourSearch *search)
{
  if (search == NULL)
    return;
  g_rand_free (search->rand);
  g_free (search->costs);
  g_free (search->near);
  g_free (search->best);
  g_free (search->tour);
  g_free (search->at);
  g_free (search->saved);
  g_free (search->queue);
  g_free (search->queued);
  g_free (search);
}
