// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Prices are moved by the subgradient method; they may be anything, so doubles do no harm here: what a price proves is
 * computed in whole numbers. */

#include "hs-tsptw-bound.h"

#define PATIENCE 6
#define LEAST_PACE 0.02
#define INERTIA 0.6
#define LEAST_GAP 1024.0

static guint64 *
memory_of (HsTsptwBound *bound, guint node)
{
  return bound->memory + node * bound->words;
}

/* Whether a path can leave @node for @other and come back. */
static gboolean
can_return (const HsTsptwFrame *frame, guint node, guint other)
{
  guint n = frame->n;
  gint64 out = frame->near[node * n + other];
  gint64 back = frame->near[other * n + node];

  if (node == other || hs_set_has (hs_tsptw_frame_before (frame, node), other)
      || hs_set_has (hs_tsptw_frame_after (frame, node), other) || out >= HS_TSPTW_FAR || back >= HS_TSPTW_FAR)
    return FALSE;
  return MAX (frame->from[other] + back, frame->from[node]) <= frame->to[node];
}

typedef struct
{
  gint64 way;
  guint other;
} Neighbor;

static int
compare_neighbors (const void *a, const void *b)
{
  const Neighbor *left = a;
  const Neighbor *right = b;

  if (left->way != right->way)
    return left->way < right->way ? -1 : 1;
  return (int) left->other - (int) right->other;
}

/* Stops that cost no time to come back from are always remembered, or paths would go round for ever. */
void
hs_tsptw_bound_remember (HsTsptwBound *bound, const HsTsptwFrame *frame, guint count)
{
  Neighbor neighbors[HS_TSPTW_MAX_NODES];

  for (guint node = 1; node < bound->n; node++)
    {
      guint n_neighbors = 0;

      hs_set_add (memory_of (bound, node), node);
      for (guint other = 1; other < bound->n; other++)
        if (can_return (frame, node, other))
          neighbors[n_neighbors++]
              = (Neighbor){ frame->near[node * frame->n + other] + frame->near[other * frame->n + node], other };
      qsort (neighbors, n_neighbors, sizeof (Neighbor), compare_neighbors);
      for (guint i = 0; i < n_neighbors && (i < count || neighbors[i].way == 0); i++)
        hs_set_add (memory_of (bound, node), neighbors[i].other);
    }
}

gboolean
hs_tsptw_bound_break_cycles (HsTsptwBound *bound)
{
  guint last_at[HS_TSPTW_MAX_NODES] = { 0 };
  gboolean broken = FALSE;

  for (guint i = 0; i < bound->n_order; i++)
    {
      guint node = bound->order[i];

      for (guint j = last_at[node]; last_at[node] != 0 && j < i; j++)
        {
          hs_set_add (memory_of (bound, bound->order[j]), node);
          broken = TRUE;
        }
      last_at[node] = i + 1;
    }
  return broken;
}

gint64
hs_tsptw_bound_sum (const HsTsptwBound *bound)
{
  gint64 sum = 0;

  for (guint i = 1; i < bound->n; i++)
    sum += bound->best_prize[i];
  return sum;
}

HsTsptwBound *
hs_tsptw_bound_new (const HsTsptwFrame *frame, gint64 scale)
{
  HsTsptwBound *bound = g_new0 (HsTsptwBound, 1);

  bound->n = frame->n;
  bound->words = frame->words;
  bound->scale = scale;
  bound->memory = g_new0 (guint64, frame->n * frame->words);
  bound->units = G_MININT64;
  return bound;
}

void
hs_tsptw_bound_free (HsTsptwBound *bound)
{
  if (bound == NULL)
    return;
  g_free (bound->memory);
  g_free (bound);
}

/* Moves prizes toward one visit each; FALSE when each stop is visited once already. */
static gboolean
move_prizes (HsTsptwBound *bound, gint64 units, double pace)
{
  int visits[HS_TSPTW_MAX_NODES] = { 0 };
  double length = 0;
  double step;
  gboolean differs = FALSE;

  for (guint i = 0; i < bound->n_order; i++)
    visits[bound->order[i]]++;
  for (guint i = 1; i < bound->n; i++)
    {
      differs |= visits[i] != 1;
      bound->drift[i] = INERTIA * bound->drift[i] + (1 - visits[i]);
      length += bound->drift[i] * bound->drift[i];
    }
  if (!differs)
    return FALSE;
  step = pace * MAX ((double) (bound->aim - units), LEAST_GAP) / MAX (length, 1.0);
  for (guint i = 1; i < bound->n; i++)
    bound->prize[i] += (gint64) floor (step * bound->drift[i] + 0.5);
  return TRUE;
}

static HsTsptwPass *
price (HsTsptwBound *bound, HsTsptwWay *way)
{
  HsTsptwAsk ask = {
    .memory = bound->memory,
    .scale = bound->scale,
    .prize = bound->prize,
    .budget = G_MAXINT64,
    .max_labels = bound->max_labels,
    .give_up = bound->give_up,
    .user_data = bound->user_data,
  };
  HsTsptwPass *pass = hs_tsptw_pass_run (way, &ask);

  bound->states += pass->n_labels;
  return pass;
}

HsTsptwBoundEnd
hs_tsptw_bound_improve (HsTsptwBound *bound, HsTsptwWay *way, guint rounds)
{
  double pace = 1.0;
  guint waited = 0;

  memset (bound->drift, 0, sizeof bound->drift);
  for (guint round = 0; round < rounds && pace > LEAST_PACE; round++)
    {
      g_autoptr (HsTsptwPass) pass = price (bound, way);
      gint64 units = pass->cost;

      if (!pass->complete)
        return pass->cut ? HS_TSPTW_BOUND_CUT : HS_TSPTW_BOUND_FULL;
      if (pass->last == 0)
        return HS_TSPTW_BOUND_PROVEN;
      for (guint i = 1; i < bound->n; i++)
        units += bound->prize[i];
      bound->n_order = MIN (hs_tsptw_pass_trace (pass, bound->order, G_N_ELEMENTS (bound->order)),
                            G_N_ELEMENTS (bound->order));
      if (units > bound->units)
        {
          bound->units = units;
          memcpy (bound->best_prize, bound->prize, sizeof bound->prize);
          waited = 0;
        }
      else if (++waited % PATIENCE == 0)
        {
          pace /= 2;
          memcpy (bound->prize, bound->best_prize, sizeof bound->prize);
          memset (bound->drift, 0, sizeof bound->drift);
          continue;
        }
      if (units > bound->target)
        return HS_TSPTW_BOUND_PROVEN;
      if (!move_prizes (bound, units, pace))
        return HS_TSPTW_BOUND_TOUR;
    }
  memcpy (bound->prize, bound->best_prize, sizeof bound->prize);
  return HS_TSPTW_BOUND_GOES_ON;
}
