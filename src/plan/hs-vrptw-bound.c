// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Lower bounds that cost next to nothing. */

#include "hs-vrptw-bound.h"

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
