// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tries orders stop by stop and goes on with those that are still in time. */

#include "tsptw-orders.h"

typedef struct
{
  const HsTsptw *problem;
  TsptwVisit visit;
  gpointer data;
  TsptwTour tour;
  gboolean done[HS_TSPTW_MAX_NODES];
  guint count;
} Walk;

static gboolean
asks_for (const HsTsptw *problem, const gboolean *done, guint stop)
{
  for (guint i = 0; i < problem->before->len; i++)
    {
      HsTsptwPair pair = g_array_index (problem->before, HsTsptwPair, i);

      if (pair.then == stop && !done[pair.first])
        return TRUE;
    }
  return FALSE;
}

/* Puts @to at @position; FALSE when it is reached too late or not at all. */
static gboolean
go_on (Walk *walk, guint position, guint to)
{
  const HsTsptw *problem = walk->problem;
  TsptwTour *tour = &walk->tour;
  gint64 leg = problem->drive[tour->stops[position - 1] * problem->n_nodes + to];
  gint64 reached;

  if (leg == HS_TSPTW_NO_LEG)
    return FALSE;
  reached = tour->start[position - 1] + leg;
  if (reached > problem->to[to])
    return FALSE;
  tour->stops[position] = (guint16) to;
  tour->start[position] = to == 0 ? reached : MAX (reached, problem->from[to]);
  tour->driven[position] = tour->driven[position - 1] + leg;
  return TRUE;
}

static void
try_from (Walk *walk, guint position)
{
  guint n = walk->problem->n_nodes;

  if (position == n)
    {
      if (!go_on (walk, n, 0))
        return;
      walk->count++;
      if (walk->visit != NULL)
        walk->visit (&walk->tour, walk->data);
      return;
    }
  for (guint stop = 1; stop < n; stop++)
    if (!walk->done[stop] && !asks_for (walk->problem, walk->done, stop) && go_on (walk, position, stop))
      {
        walk->done[stop] = TRUE;
        try_from (walk, position + 1);
        walk->done[stop] = FALSE;
      }
}

guint
tsptw_orders_each (const HsTsptw *problem, gboolean any_leave, TsptwVisit visit, gpointer data)
{
  g_autofree Walk *walk = g_new0 (Walk, 1);
  gint64 last = any_leave ? problem->to[0] : problem->from[0];

  walk->problem = problem;
  walk->visit = visit;
  walk->data = data;
  walk->tour.n = problem->n_nodes;
  for (gint64 leave = problem->from[0]; leave <= last; leave++)
    {
      guint before = walk->count;

      walk->tour.start[0] = leave;
      try_from (walk, 1);
      if (walk->count == before)
        break;
    }
  return walk->count;
}

gint64
tsptw_orders_cost (const TsptwTour *tour, HsTsptwObjective objective)
{
  if (objective == HS_TSPTW_TRAVEL)
    return tour->driven[tour->n];
  return objective == HS_TSPTW_MAKESPAN ? tour->start[tour->n] : tour->start[tour->n] - tour->start[0];
}

HsTsptw *
tsptw_orders_problem (guint n_nodes, const gint64 *legs, const gint64 (*windows)[2])
{
  HsTsptw *problem = hs_tsptw_new (n_nodes);

  memcpy (problem->drive, legs, n_nodes * n_nodes * sizeof (gint64));
  for (guint i = 0; i < n_nodes; i++)
    {
      problem->from[i] = windows[i][0];
      problem->to[i] = windows[i][1];
    }
  return problem;
}

HsTsptw *
tsptw_orders_random (GRand *rand, const TsptwShape *shape)
{
  HsTsptw *problem = tsptw_trial_make (rand, shape);
  guint n = problem->n_nodes;

  for (guint i = 0; i < n * n; i++)
    if (i % (n + 1) != 0 && problem->drive[i] == 0)
      problem->drive[i] = 1;
  return problem;
}
