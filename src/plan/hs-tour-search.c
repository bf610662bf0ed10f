// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Iterated local search over one round. Random, but the same for the same seed as long as nobody cuts it short. */

#include "hs-tour-search.h"

#include <string.h>

#define LONGEST_KICK 50
#define LONGEST_ORDERED_KICK 12
#define KICK_TRIES 20
#define ASK_EVERY 64
#define LEAST_NODES 5

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

  search->best_cost = search->cost;
  for (guint i = 0; i < n; i++)
    search->best[i] = search->tour[(search->at[0] + i) % n];
}

static gboolean
pick_kick (HsTourSearch *search, guint *ret_from, guint *ret_middle, guint *ret_to)
{
  const HsTourFrame *frame = search->frame;
  guint n = frame->n;
  guint longest = frame->ordered ? LONGEST_ORDERED_KICK : LONGEST_KICK;

  for (guint i = 0; i < KICK_TRIES; i++)
    {
      guint most = MIN (longest, (n - 2) / 2);
      guint first = (guint) g_rand_int_range (search->rand, 1, (gint32) most + 1);
      guint second = (guint) g_rand_int_range (search->rand, 1, (gint32) most + 1);
      guint past = n - (frame->symmetric ? 0 : first + second) + 1;
      guint from = (guint) g_rand_int_range (search->rand, 1, (gint32) past);

      if (frame->ordered && !may_exchange (search, from, from + first, from + first + second))
        {
          longest = MAX (longest - 1, 2);
          continue;
        }
      *ret_from = from;
      *ret_middle = from + first;
      *ret_to = from + first + second;
      return TRUE;
    }
  return FALSE;
}

static gboolean
kick (HsTourSearch *search)
{
  const HsTourFrame *frame = search->frame;
  guint n = frame->n;
  guint from;
  guint middle;
  guint to;
  guint ends[6];

  if (!pick_kick (search, &from, &middle, &to))
    return FALSE;
  ends[0] = search->tour[from - 1];
  ends[1] = search->tour[from % n];
  ends[2] = search->tour[(middle - 1) % n];
  ends[3] = search->tour[middle % n];
  ends[4] = search->tour[(to - 1) % n];
  ends[5] = search->tour[to % n];
  search->cost += (gint64) hs_tour_frame_cost (frame, ends[0], ends[3]) + hs_tour_frame_cost (frame, ends[4], ends[1])
                  + hs_tour_frame_cost (frame, ends[2], ends[5]) - hs_tour_frame_cost (frame, ends[0], ends[1])
                  - hs_tour_frame_cost (frame, ends[2], ends[3]) - hs_tour_frame_cost (frame, ends[4], ends[5]);
  hs_tour_exchange (search, from, middle, to);
  for (guint i = 0; i < 6; i++)
    hs_tour_queue_add (search, ends[i]);
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
      if (search->cost <= cost)
        {
          if (search->cost < search->best_cost)
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
  g_free (search->best);
  g_free (search->tour);
  g_free (search->at);
  g_free (search->saved);
  g_free (search->queue);
  g_free (search->queued);
  g_free (search);
}
