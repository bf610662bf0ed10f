// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Locked stops in a shared day. Who takes which call is decided without looking at place numbers; a van with locked
 * stops is then driven in the best order that has them at their places. That order is no longer proven to be the best
 * of all, but what it costs at the least still holds.
 */

#include "hs-share-private.h"

#include "hs-day-hours.h"
#include "hs-day-route.h"

typedef struct
{
  const HsShareCase *of;
  const HsShareVan *van;
  HsDayRoute at;
} Locks;

static guint
count_locks (const HsShareVan *van)
{
  guint n = 0;

  for (guint i = 0; van->standing != NULL && i < van->standing->locked->len; i++)
    n += g_array_index (van->standing->locked, gboolean, i);
  return n;
}

/* The place number of a locked row among what is still ahead; 0 if it is not locked. */
static guint
number_of (const Locks *locks, const char *row_id)
{
  const HsDayStanding *standing = locks->van->standing;
  guint row;

  if (!hs_share_case_is_locked (locks->van, row_id)
      || !g_ptr_array_find_with_equal_func (standing->rows, row_id, g_str_equal, &row))
    return 0;
  return row + 1 > locks->van->past->len ? MIN (row + 1 - locks->van->past->len, locks->at.day->stops->len) : 0;
}

static void
join_parts (Locks *locks)
{
  for (guint i = 0; i < locks->at.solution->bought->len; i++)
    {
      const HsBought *bought = &g_array_index (locks->at.solution->bought, HsBought, i);
      int call = HS_DAY_NO_STOP, counter = HS_DAY_NO_STOP;

      for (guint k = 0; k < locks->at.stops->len; k++)
        {
          const HsRouteStop *stop = hs_day_route_get_stop (&locks->at, k);

          if (stop->kind == HS_ROUTE_CALL && stop->index == bought->call)
            call = (int) k;
          if (stop->kind == HS_ROUTE_COUNTER && stop->index == bought->counter)
            counter = (int) k;
        }
      if (bought->van == locks->at.route->van && call >= 0 && counter >= 0)
        hs_day_add_after (locks->at.day, (guint) call, (guint) counter);
    }
}

static void
lock_stops (Locks *locks)
{
  join_parts (locks);
  for (guint i = 0; i < locks->at.stops->len; i++)
    hs_day_lock_stop (locks->at.day, i,
                      number_of (locks, hs_share_case_row_id (locks->of, hs_day_route_built_stop (&locks->at, i))));
}

/* Whether every locked stop is where it belongs already. */
static gboolean
locks_hold (const Locks *locks)
{
  for (guint i = 0; i < locks->at.day->stops->len; i++)
    {
      guint number = hs_day_get_stop (locks->at.day, i)->number;

      if (number != 0 && number != i + 1)
        return FALSE;
    }
  return TRUE;
}

static gboolean
plan_van (const Locks *locks, HsPlan **ret_plan, GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (locks->of->build, hs_day_copy (locks->at.day));

  return hs_plan_solve (view->day, NULL, NULL, ret_plan, error) && hs_day_hours_settle (view, ret_plan, error);
}

static gboolean
keep_van (const HsShareCase *of, HsSolution *solution, HsRoute *route, GError **error)
{
  Locks locks = { of, g_ptr_array_index (of->vans, route->van) };
  g_autoptr (HsPlan) plan = NULL;
  gboolean solved = TRUE;

  if (count_locks (locks.van) == 0)
    return TRUE;
  hs_day_route_init (&locks.at, of->problem, solution, route, locks.van->day);
  lock_stops (&locks);
  if (!locks_hold (&locks))
    solved = plan_van (&locks, &plan, error);
  if (plan != NULL && plan->stops->len == locks.at.stops->len)
    {
      hs_day_route_take (&locks.at, plan);
      solution->proven = FALSE;
      if (solution->status == HS_PLAN_OPTIMAL)
        solution->status = HS_PLAN_BEST_FOUND;
    }
  hs_day_route_clear (&locks.at);
  return solved;
}

gboolean
hs_share_keep_locks (const HsShareCase *of, HsSolution *solution, GError **error)
{
  for (guint i = 0; i < solution->routes->len; i++)
    if (!keep_van (of, solution, g_ptr_array_index (solution->routes, i), error))
      return FALSE;
  return TRUE;
}
