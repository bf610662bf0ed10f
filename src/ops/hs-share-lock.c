// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Locked stops in a shared day. Who takes which call is decided without looking at place numbers; a van with locked
 * stops is then driven in the best order that has them at their places. That order is no longer proven to be the best
 * of all, but what it costs at the least still holds.
 */

#include "hs-share-private.h"

/* @stops: (element-type HsRouteStop): of @route that have a place in @day: not that with which a van begins that is
 * under way, and no break; @first: how many come before them */
typedef struct
{
  const HsShareCase *of;
  const HsSolution *solution;
  const HsShareVan *van;
  HsRoute *route;
  GArray *stops;
  guint first;
  HsDay *day;
} Locks;

static const HsRouteStop *
get_stop (const Locks *locks, guint index)
{
  return &g_array_index (locks->stops, HsRouteStop, index);
}

/* The stop of the built day behind a stop of the route. */
static guint
built_stop (const HsShareCase *of, const HsRouteStop *stop)
{
  const GArray *stops = stop->kind == HS_ROUTE_CALL ? of->problem->calls : of->problem->counters;

  return g_array_index (stops, guint, stop->index);
}

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
  return row + 1 > locks->van->past->len ? MIN (row + 1 - locks->van->past->len, locks->day->stops->len) : 0;
}

static void
add_stops (Locks *locks)
{
  const HsDay *built = locks->of->build->day;

  for (guint i = 0; i < locks->stops->len; i++)
    {
      const HsDayStop *like = hs_day_get_stop (built, built_stop (locks->of, get_stop (locks, i)));
      guint stop = hs_day_add_stop (locks->day, like->id, like->kind, like->place, like->service_seconds);

      for (guint k = 0; k < like->spans->len; k++)
        hs_day_add_span (locks->day, stop, g_array_index (like->spans, HsDaySpan, k).from_seconds,
                         g_array_index (like->spans, HsDaySpan, k).to_seconds);
    }
}

static void
join_parts (Locks *locks)
{
  for (guint i = 0; i < locks->solution->bought->len; i++)
    {
      const HsBought *bought = &g_array_index (locks->solution->bought, HsBought, i);
      int call = HS_DAY_NO_STOP, counter = HS_DAY_NO_STOP;

      for (guint k = 0; k < locks->stops->len; k++)
        {
          const HsRouteStop *stop = get_stop (locks, k);

          if (stop->kind == HS_ROUTE_CALL && stop->index == bought->call)
            call = (int) k;
          if (stop->kind == HS_ROUTE_COUNTER && stop->index == bought->counter)
            counter = (int) k;
        }
      if (bought->van == locks->route->van && call >= 0 && counter >= 0)
        hs_day_add_after (locks->day, (guint) call, (guint) counter);
    }
}

static void
make_day (Locks *locks)
{
  locks->day = hs_day_copy (locks->van->day);
  g_ptr_array_set_size (locks->day->stops, 0);
  add_stops (locks);
  join_parts (locks);
  for (guint i = 0; i < locks->stops->len; i++)
    hs_day_lock_stop (locks->day, i,
                      number_of (locks, hs_share_case_row_id (locks->of, built_stop (locks->of, get_stop (locks, i)))));
}

static void
find_stops (Locks *locks)
{
  locks->first = locks->van->begun ? 1 : 0;
  locks->stops = g_array_new (FALSE, FALSE, sizeof (HsRouteStop));
  for (guint i = locks->first; i < locks->route->stops->len; i++)
    {
      const HsRouteStop *stop = &g_array_index (locks->route->stops, HsRouteStop, i);

      if (stop->kind != HS_ROUTE_BREAK)
        g_array_append_val (locks->stops, *stop);
    }
}

static void
set_late (HsSolution *solution, guint call, gint32 late_seconds)
{
  for (guint i = solution->broken->len; i > 0; i--)
    {
      HsTrouble *trouble = g_ptr_array_index (solution->broken, i - 1);

      if (trouble->call != call)
        continue;
      if (late_seconds == 0)
        g_ptr_array_remove_index (solution->broken, i - 1);
      else
        trouble->late_seconds = late_seconds;
      return;
    }
  if (late_seconds > 0)
    g_ptr_array_add (solution->broken, hs_trouble_new (call, late_seconds));
}

static gint64
route_units (const HsRoute *route, const HsProblem *problem)
{
  return hs_cost_units (route->home_seconds - route->leave_seconds, problem->minute_cents, route->drive_millimiles,
                        problem->mile_cents);
}

static void
add_break (const HsPlan *plan, int after, GArray *stops)
{
  HsRouteStop stop = { HS_ROUTE_BREAK, 0, plan->break_start_seconds, plan->break_start_seconds,
                       plan->break_end_seconds, 0 };

  if (plan->break_after == after)
    g_array_append_val (stops, stop);
}

/* Puts the order of @plan into the route. */
static void
take_plan (Locks *locks, HsSolution *solution, const HsPlan *plan)
{
  const HsProblem *problem = locks->of->problem->problem;
  HsRoute *route = locks->route;

  solution->cost_units -= route_units (route, problem);
  g_array_set_size (route->stops, locks->first);
  add_break (plan, HS_PLAN_BREAK_FIRST, route->stops);
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlanStop *timed = hs_plan_get_stop (plan, i);
      HsRouteStop stop = *get_stop (locks, timed->stop);

      stop.arrive_seconds = timed->arrive_seconds;
      stop.start_seconds = timed->start_seconds;
      stop.depart_seconds = timed->depart_seconds;
      stop.slack_seconds = timed->slack_seconds;
      g_array_append_val (route->stops, stop);
      if (stop.kind == HS_ROUTE_CALL)
        set_late (solution, stop.index, timed->late_seconds);
      add_break (plan, (int) i, route->stops);
    }
  route->leave_seconds = plan->leave_seconds;
  route->home_seconds = plan->home_seconds;
  route->drive_seconds = plan->drive_seconds;
  route->drive_millimiles = plan->drive_millimiles;
  route->wait_seconds = plan->wait_seconds;
  solution->cost_units += route_units (route, problem);
}

/* Whether every locked stop is where it belongs already. */
static gboolean
locks_hold (const Locks *locks)
{
  for (guint i = 0; i < locks->day->stops->len; i++)
    {
      guint number = hs_day_get_stop (locks->day, i)->number;

      if (number != 0 && number != i + 1)
        return FALSE;
    }
  return TRUE;
}

static void
locks_clear (Locks *locks)
{
  hs_day_free (locks->day);
  g_array_unref (locks->stops);
}

static gboolean
keep_van (const HsShareCase *of, HsSolution *solution, HsRoute *route, GError **error)
{
  Locks locks = { of, solution, g_ptr_array_index (of->vans, route->van), route };
  g_autoptr (HsPlan) plan = NULL;
  gboolean solved = TRUE;

  if (count_locks (locks.van) == 0)
    return TRUE;
  find_stops (&locks);
  make_day (&locks);
  if (!locks_hold (&locks))
    solved = hs_plan_solve (locks.day, NULL, NULL, &plan, error);
  if (plan != NULL && plan->stops->len == locks.stops->len)
    {
      take_plan (&locks, solution, plan);
      solution->proven = FALSE;
      solution->cost_cents = hs_cost_cents (solution->cost_units);
      if (solution->status == HS_PLAN_OPTIMAL)
        solution->status = HS_PLAN_BEST_FOUND;
    }
  locks_clear (&locks);
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
