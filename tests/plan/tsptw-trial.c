// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Drives an order stop by stop, at every leave time where that is free. */

#include "tsptw-trial.h"

/* When it is home after leaving at @leave; −1 if something is not kept. */
static gint64
drive_at (const HsTsptw *problem, const guint16 *order, gint64 leave, gint64 *driven)
{
  guint n = problem->n_nodes;
  gint64 clock = leave;

  *driven = 0;
  for (guint i = 0; i < n && n > 1; i++)
    {
      guint from = i == 0 ? 0 : order[i - 1];
      guint to = i == n - 1 ? 0 : order[i];
      gint64 leg = problem->drive[from * n + to];

      if (leg == HS_TSPTW_NO_LEG || clock + leg > problem->to[to])
        return -1;
      *driven += leg;
      clock += leg;
      if (to != 0 && clock < problem->from[to])
        clock = problem->from[to];
    }
  return clock;
}

static gboolean
is_an_order (const HsTsptw *problem, const guint16 *order)
{
  guint place[HS_TSPTW_MAX_NODES] = { 0 };

  for (guint i = 0; i + 1 < problem->n_nodes; i++)
    {
      if (order[i] == 0 || order[i] >= problem->n_nodes || place[order[i]] != 0)
        return FALSE;
      place[order[i]] = i + 1;
    }
  for (guint i = 0; i < problem->before->len; i++)
    {
      HsTsptwPair pair = g_array_index (problem->before, HsTsptwPair, i);

      if (place[pair.first] > place[pair.then])
        return FALSE;
    }
  return TRUE;
}

gint64
tsptw_trial_drive (const HsTsptw *problem, HsTsptwObjective objective, const guint16 *order)
{
  gint64 least = -1;
  gint64 last = objective == HS_TSPTW_DURATION ? problem->to[0] : problem->from[0];

  if (!is_an_order (problem, order))
    return -1;
  for (gint64 leave = problem->from[0]; leave <= last; leave++)
    {
      gint64 driven;
      gint64 home = drive_at (problem, order, leave, &driven);
      gint64 cost = objective == HS_TSPTW_TRAVEL ? driven : objective == HS_TSPTW_MAKESPAN ? home : home - leave;

      if (home < 0)
        break;
      if (least < 0 || cost < least)
        least = cost;
    }
  return least;
}

static gint64
try_rest (const HsTsptw *problem, HsTsptwObjective objective, guint16 *order, guint fixed, gint64 least)
{
  gint64 cost;

  if (fixed + 1 < problem->n_nodes)
    {
      for (guint i = fixed; i + 1 < problem->n_nodes; i++)
        {
          guint16 stop = order[i];

          order[i] = order[fixed];
          order[fixed] = stop;
          least = try_rest (problem, objective, order, fixed + 1, least);
          order[fixed] = order[i];
          order[i] = stop;
        }
      return least;
    }
  cost = tsptw_trial_drive (problem, objective, order);
  return cost >= 0 && (least < 0 || cost < least) ? cost : least;
}

gint64
tsptw_trial_try_all (const HsTsptw *problem, HsTsptwObjective objective)
{
  guint16 order[HS_TSPTW_MAX_NODES];

  for (guint i = 0; i + 1 < problem->n_nodes; i++)
    order[i] = (guint16) (i + 1);
  return try_rest (problem, objective, order, 0, -1);
}

static gint64
random_leg (GRand *rand, const TsptwShape *shape, const gint32 *x, const gint32 *y, guint from, guint to)
{
  gint64 leg;

  if ((guint) g_rand_int_range (rand, 0, 100) < shape->missing)
    return HS_TSPTW_NO_LEG;
  if (shape->legs_anyhow)
    return g_rand_int_range (rand, 0, shape->side + 1);
  leg = ABS (x[from] - x[to]) + ABS (y[from] - y[to]);
  return shape->asymmetric && from < to ? leg + 1 + leg / 3 : leg;
}

/* Windows lie round the times of the tour that goes through the stops as they are numbered. */
static void
lay_windows (HsTsptw *problem, GRand *rand, const TsptwShape *shape)
{
  gint64 clock = 0;

  for (guint i = 1; i <= shape->stops; i++)
    {
      gint64 leg = hs_tsptw_get_drive (problem, i - 1, i);
      gint64 before = g_rand_int_range (rand, 0, shape->width / 2 + 1);

      if (shape->some_impossible)
        clock = g_rand_int_range (rand, 0, (gint32) shape->stops * shape->side);
      else
        clock += leg == HS_TSPTW_NO_LEG ? 0 : leg;
      problem->from[i] = MAX (clock - before, 0);
      problem->to[i] = clock + g_rand_int_range (rand, 0, shape->width / 2 + 1);
    }
  problem->from[0] = shape->some_impossible ? g_rand_int_range (rand, 0, shape->side / 2 + 1) : 0;
  problem->to[0] = clock + shape->width + 2 * shape->side + (shape->some_impossible ? shape->side : 0);
}

HsTsptw *
tsptw_trial_make (GRand *rand, const TsptwShape *shape)
{
  HsTsptw *problem = hs_tsptw_new (shape->stops + 1);
  gint32 x[HS_TSPTW_MAX_NODES], y[HS_TSPTW_MAX_NODES];
  guint n = problem->n_nodes;

  for (guint i = 0; i < n; i++)
    {
      x[i] = g_rand_int_range (rand, 0, shape->side + 1);
      y[i] = g_rand_int_range (rand, 0, shape->side + 1);
    }
  for (guint from = 0; from < n; from++)
    for (guint to = 0; to < n; to++)
      if (from != to)
        problem->drive[from * n + to] = random_leg (rand, shape, x, y, from, to);
  lay_windows (problem, rand, shape);
  for (guint i = 0; i < shape->orders; i++)
    {
      guint first = (guint) g_rand_int_range (rand, 1, (gint32) n);
      guint then = (guint) g_rand_int_range (rand, 1, (gint32) n);

      if (first != then)
        hs_tsptw_add_before (problem, first, then);
    }
  return problem;
}
