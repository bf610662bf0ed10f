// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Lower bounds that cost next to nothing. The distance is bounded by an assignment: every customer has one next stop, a
 * van in time for it, and what forbids short rings is left out. All numbers are whole, so that the bound holds
 * exactly. */

#include "hs-vrptw-bound.h"

#include "hs-assign.h"

/* Beyond so many customers and vans together the assignment would take longer than it is worth. */
#define MOST_NODES 600

/* Whether a van that serves @first as soon as it can is in time for @second. */
static gboolean
can_follow (const HsVrptw *problem, guint first, guint second)
{
  const HsVrptwStop *stops = problem->stops;
  gint64 start = MAX (stops[first].ready, stops[0].ready + hs_vrptw_leg (problem, 0, first));
  gint64 next = MAX (start + stops[first].service + hs_vrptw_leg (problem, first, second), stops[second].ready);

  return start <= stops[first].due && next <= stops[second].due
         && next + stops[second].service + hs_vrptw_leg (problem, second, 0) <= stops[0].due;
}

static gboolean
can_share (const HsVrptw *problem, guint a, guint b)
{
  return problem->stops[a].demand + problem->stops[b].demand <= problem->capacity
         && (can_follow (problem, a, b) || can_follow (problem, b, a));
}

/* How many customers, @seed among them, of whom no two can share a route; taken greedily, so it may be too few. */
static guint
apart_from (const HsVrptw *problem, guint seed, guint *apart)
{
  guint count = 0;

  apart[count++] = seed;
  for (guint stop = 1; stop <= problem->n; stop++)
    {
      gboolean alone = TRUE;

      for (guint i = 0; i < count && alone; i++)
        alone = stop != apart[i] && !can_share (problem, stop, apart[i]);
      if (alone)
        apart[count++] = stop;
    }
  return count;
}

static guint
vans_for_load (const HsVrptw *problem)
{
  gint64 load = 0;

  for (guint stop = 1; stop <= problem->n; stop++)
    load += problem->stops[stop].demand;
  if (load == 0)
    return 1;
  return (guint) ((load + problem->capacity - 1) / problem->capacity);
}

guint
hs_vrptw_least_vans (const HsVrptw *problem)
{
  g_autofree guint *apart = g_new (guint, problem->n + 1);
  guint least = vans_for_load (problem);

  for (guint seed = 1; seed <= problem->n; seed++)
    least = MAX (least, apart_from (problem, seed, apart));
  return least;
}

/* What it takes to go from one node to the next. A van may stay at home if there are more than needed. */
static gint64
next_leg (const HsVrptw *problem, guint from, guint to, guint least_vans)
{
  guint a = from < problem->n ? from + 1 : 0;
  guint b = to < problem->n ? to + 1 : 0;

  if (a == 0 && b == 0)
    return from == to && from - problem->n >= least_vans ? 0 : HS_ASSIGN_NEVER;
  if (a != 0 && b != 0
      && (a == b || problem->stops[a].demand + problem->stops[b].demand > problem->capacity
          || !can_follow (problem, a, b)))
    return HS_ASSIGN_NEVER;
  return hs_vrptw_leg (problem, a, b);
}

/* Nodes 0 … n − 1 are the customers, those from n on a van at home each. */
static gint64 *
next_legs (const HsVrptw *problem, guint n, guint least_vans)
{
  gint64 *legs = g_new (gint64, n * n);

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      legs[i * n + j] = next_leg (problem, i, j, least_vans);
  return legs;
}

gint64
hs_vrptw_least_distance (const HsVrptw *problem, guint least_vans, HsPlanGiveUp give_up, gpointer user_data)
{
  guint n = problem->n + MIN (problem->vans, problem->n);
  g_autofree gint64 *legs = NULL;
  g_autofree gint64 *row_prices = NULL;
  g_autofree gint64 *column_prices = NULL;
  gint64 least = 0;

  if (n > MOST_NODES)
    return 0;
  legs = next_legs (problem, n, least_vans);
  row_prices = g_new (gint64, n);
  column_prices = g_new (gint64, n);
  if (!hs_assign (legs, n, give_up, user_data, row_prices, column_prices))
    return 0;
  for (guint i = 0; i < n; i++)
    least += row_prices[i] + column_prices[i];
  return MAX (least, 0);
}
