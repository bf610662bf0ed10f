// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Prices are moved by the subgradient method; they may be anything, so doubles do no harm here: what a price proves is
 * computed in whole numbers. */

#include "hs-tsptw-bound.h"

#define PATIENCE 6
#define LEAST_PACE 0.02
#define INERTIA 0.6
#define LATER_PACE 0.5
#define LEAST_ROUNDS 6
#define LONGEST_CYCLE 6
#define LEAST_GAP 1024.0

static guint64 *
memory_of (HsTsptwBound *bound, guint node)
{
  return bound->memory[bound->n_levels - 1] + node * bound->words;
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
static void
remember (HsTsptwBound *bound, const HsTsptwFrame *frame, guint count)
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

/* The cycle that ends at each position of the path, as the number of stops from one visit to the next; 0: none. */
static guint
measure_cycles (const HsTsptwBound *bound, guint *cycles)
{
  guint last_at[HS_TSPTW_MAX_NODES] = { 0 };
  guint shortest = G_MAXUINT;

  for (guint i = 0; i < bound->n_order; i++)
    {
      guint node = bound->order[i];

      cycles[i] = last_at[node] == 0 ? 0 : i + 1 - last_at[node];
      if (cycles[i] > 0)
        shortest = MIN (shortest, cycles[i]);
      last_at[node] = i + 1;
    }
  return shortest;
}

gboolean
hs_tsptw_bound_break_cycles (HsTsptwBound *bound)
{
  guint cycles[G_N_ELEMENTS (bound->order)];
  guint longest = MAX (measure_cycles (bound, cycles), LONGEST_CYCLE);
  gboolean broken = FALSE;

  for (guint i = 0; i < bound->n_order; i++)
    for (guint back = 1; cycles[i] <= longest && back < cycles[i]; back++)
      {
        hs_set_add (memory_of (bound, bound->order[i - back]), bound->order[i]);
        broken = TRUE;
      }
  return broken;
}

static gint64
sum_prizes (const gint64 *prize, guint n)
{
  gint64 sum = 0;

  for (guint i = 1; i < n; i++)
    sum += prize[i];
  return sum;
}

gint64
hs_tsptw_bound_sum (const HsTsptwBound *bound)
{
  return sum_prizes (bound->best_prize, bound->n);
}

HsTsptwBound *
hs_tsptw_bound_new (const HsTsptwFrame *frame, gint64 scale)
{
  HsTsptwBound *bound = g_new0 (HsTsptwBound, 1);

  bound->n = frame->n;
  bound->words = frame->words;
  bound->scale = scale;
  bound->units = -HS_TSPTW_FAR;
  return bound;
}

void
hs_tsptw_bound_free (HsTsptwBound *bound)
{
  if (bound == NULL)
    return;
  for (guint level = 0; level < bound->n_levels; level++)
    g_free (bound->memory[level]);
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

/* Looks for paths whose cost with all prizes is at most @limit. */
static HsTsptwPass *
run (HsTsptwBound *bound, HsTsptwWay *way, guint level, const HsTsptwTails *tails, gint64 limit)
{
  HsTsptwAsk ask = {
    .memory = bound->memory[level],
    .scale = bound->scale,
    .prize = bound->prize,
    .tails = tails,
    .budget = tails == NULL ? HS_TSPTW_FAR : limit - sum_prizes (bound->prize, bound->n),
    .max_labels = level == 0 ? bound->max_labels : MIN (bound->max_labels, 3 * bound->enough_labels),
    .give_up = bound->give_up,
    .user_data = bound->user_data,
  };
  HsTsptwPass *pass = hs_tsptw_pass_run (way, &ask);

  bound->states += pass->n_labels;
  return pass;
}

HsTsptwPass *
hs_tsptw_bound_climb (HsTsptwBound *bound, HsTsptwWay *last, HsTsptwWay *other, gint64 limit)
{
  g_autoptr (HsTsptwPass) pass = NULL;

  for (guint level = 0; level < bound->n_levels; level++)
    {
      g_autoptr (HsTsptwTails) tails = NULL;
      gboolean is_last_way = (bound->n_levels - 1 - level) % 2 == 0;

      if (pass != NULL)
        tails = hs_tsptw_pass_make_tails (pass);
      g_clear_pointer (&pass, hs_tsptw_pass_free);
      pass = run (bound, is_last_way ? last : other, level, tails, limit);
      if (!pass->complete || pass->last == 0)
        break;
    }
  return g_steal_pointer (&pass);
}

/* Finds the cheapest path. Looking for cheap ones first costs little, and not finding one is progress. */
static HsTsptwPass *
price (HsTsptwBound *bound, HsTsptwWay *forward, HsTsptwWay *backward)
{
  gint64 step = MAX ((bound->target - bound->units) / 8, 1);
  gint64 limit;

  if (bound->units > 0)
    step = MIN (step, MAX (bound->units / 200, 1));
  limit = bound->units + step;
  if (bound->target >= HS_TSPTW_FAR || bound->n_levels == 1)
    limit = bound->target;
  while (TRUE)
    {
      HsTsptwPass *pass = hs_tsptw_bound_climb (bound, forward, backward, MIN (limit, bound->target));

      if (!pass->complete || pass->last != 0 || limit >= bound->target)
        return pass;
      hs_tsptw_pass_free (pass);
      bound->units = limit;
      memcpy (bound->best_prize, bound->prize, sizeof bound->prize);
      step *= 2;
      limit += step;
    }
}

void
hs_tsptw_bound_deepen (HsTsptwBound *bound, const HsTsptwFrame *frame, guint count)
{
  guint level;

  if (bound->n_levels == HS_TSPTW_BOUND_MAX_LEVELS)
    g_free (bound->memory[--bound->n_levels - 1]), bound->memory[bound->n_levels - 1] = bound->memory[bound->n_levels];
  level = bound->n_levels;
  bound->memory[level] = level == 0 ? g_new0 (guint64, bound->n * bound->words)
                                    : g_memdup2 (bound->memory[level - 1], bound->n * bound->words * sizeof (guint64));
  bound->n_levels++;
  remember (bound, frame, count);
}

void
hs_tsptw_bound_back_to_best (HsTsptwBound *bound)
{
  memcpy (bound->prize, bound->best_prize, sizeof bound->prize);
  memset (bound->drift, 0, sizeof bound->drift);
}

/* What a path that was found proves; whether it proves more than was known. */
static gboolean
take_path (HsTsptwBound *bound, const HsTsptwPass *pass, gint64 *ret_units)
{
  *ret_units = pass->cost + sum_prizes (bound->prize, bound->n);
  bound->n_order = MIN (hs_tsptw_pass_trace (pass, bound->order, G_N_ELEMENTS (bound->order)),
                        G_N_ELEMENTS (bound->order));
  if (*ret_units <= bound->units)
    return FALSE;
  bound->units = *ret_units;
  memcpy (bound->best_prize, bound->prize, sizeof bound->prize);
  return TRUE;
}

HsTsptwBoundEnd
hs_tsptw_bound_improve (HsTsptwBound *bound, HsTsptwWay *forward, HsTsptwWay *backward, guint rounds)
{
  double pace = bound->n_levels > 1 ? LATER_PACE : 1.0;
  guint waited = 0;

  hs_tsptw_bound_back_to_best (bound);
  for (guint round = 0; round < rounds && pace > LEAST_PACE; round++)
    {
      g_autoptr (HsTsptwPass) pass = price (bound, forward, backward);
      gint64 units;

      if (pass->cut)
        return HS_TSPTW_BOUND_CUT;
      if (!pass->complete && round == 0)
        return HS_TSPTW_BOUND_FULL;
      if (!pass->complete)
        {
          pace /= 2;
          hs_tsptw_bound_back_to_best (bound);
          continue;
        }
      if (pass->last == 0)
        {
          memcpy (bound->best_prize, bound->prize, sizeof bound->prize);
          return HS_TSPTW_BOUND_PROVEN;
        }
      if (take_path (bound, pass, &units))
        waited = 0;
      else if (++waited % PATIENCE == 0)
        {
          pace /= 2;
          hs_tsptw_bound_back_to_best (bound);
          continue;
        }
      if (units > bound->target)
        return HS_TSPTW_BOUND_PROVEN;
      if (!move_prizes (bound, units, pace))
        return HS_TSPTW_BOUND_TOUR;
      if (bound->n_levels == 1)
        continue;
      if (pass->n_labels > bound->enough_labels && round >= LEAST_ROUNDS)
        break;
      if (pass->n_labels <= bound->enough_labels / 2)
        hs_tsptw_bound_break_cycles (bound);
    }
  hs_tsptw_bound_back_to_best (bound);
  return HS_TSPTW_BOUND_GOES_ON;
}
