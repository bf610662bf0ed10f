// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Goes between the routes of several vans and the day of one. Use it where a solution is to keep locks or hours, which
 * only the day of one van knows. Who serves which call and what is bought where stays as it is.
 */

#include "hs-day-route.h"

#include "hs-day-hours.h"

static void
find_stops (HsDayRoute *self)
{
  for (guint i = self->first; i < self->route->stops->len; i++)
    {
      const HsRouteStop *stop = &g_array_index (self->route->stops, HsRouteStop, i);

      if (stop->kind != HS_ROUTE_BREAK)
        g_array_append_val (self->stops, *stop);
    }
}

/* A counter may be passed twice, but a day has each id once. */
static void
add_stops (HsDayRoute *self)
{
  const HsDay *built = self->problem->build->day;

  for (guint i = 0; i < self->stops->len; i++)
    {
      const HsDayStop *like = hs_day_get_stop (built, hs_day_route_built_stop (self, i));
      gboolean again = hs_day_find_stop (self->day, like->id) != HS_DAY_NO_STOP;
      g_autofree char *id = again ? g_strdup_printf ("%s %u", like->id, i) : g_strdup (like->id);
      guint stop = hs_day_add_stop (self->day, id, like->kind, like->place, like->service_seconds);

      for (guint k = 0; k < like->spans->len; k++)
        hs_day_add_span (self->day, stop, g_array_index (like->spans, HsDaySpan, k).from_seconds,
                         g_array_index (like->spans, HsDaySpan, k).to_seconds);
    }
}

void
hs_day_route_init (HsDayRoute *self, const HsDayProblem *problem, HsSolution *solution, HsRoute *route,
                   const HsDay *rules)
{
  *self = (HsDayRoute) { problem, solution, route, rules->under_way ? 1 : 0, NULL, NULL };
  self->stops = g_array_new (FALSE, FALSE, sizeof (HsRouteStop));
  self->day = hs_day_copy (rules);
  g_ptr_array_set_size (self->day->stops, 0);
  find_stops (self);
  add_stops (self);
}

void
hs_day_route_clear (HsDayRoute *self)
{
  hs_day_free (self->day);
  g_array_unref (self->stops);
}

const HsRouteStop *
hs_day_route_get_stop (const HsDayRoute *self, guint index)
{
  return &g_array_index (self->stops, HsRouteStop, index);
}

guint
hs_day_route_built_stop (const HsDayRoute *self, guint index)
{
  const HsRouteStop *stop = hs_day_route_get_stop (self, index);
  const GArray *built = stop->kind == HS_ROUTE_CALL ? self->problem->calls : self->problem->counters;

  return g_array_index (built, guint, stop->index);
}

/* Taking a plan ---------------------------------------------------------------------------------------------------- */

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

static gint32
least_spare (const HsSolution *solution)
{
  gint32 spare = HS_PLAN_NO_LIMIT;

  for (guint i = 0; i < solution->routes->len; i++)
    for (guint k = 0; k < hs_solution_get_route (solution, i)->stops->len; k++)
      {
        const HsRouteStop *stop = &g_array_index (hs_solution_get_route (solution, i)->stops, HsRouteStop, k);

        if (stop->kind == HS_ROUTE_CALL)
          spare = MIN (spare, stop->slack_seconds);
      }
  return spare;
}

void
hs_day_route_take (HsDayRoute *self, const HsPlan *plan)
{
  const HsProblem *problem = self->problem->problem;
  HsRoute *route = self->route;

  g_return_if_fail (plan->stops->len == self->stops->len);
  self->solution->cost_units -= route_units (route, problem);
  g_array_set_size (route->stops, self->first);
  add_break (plan, HS_PLAN_BREAK_FIRST, route->stops);
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlanStop *timed = hs_plan_get_stop (plan, i);
      HsRouteStop stop = *hs_day_route_get_stop (self, timed->stop);

      stop.arrive_seconds = timed->arrive_seconds;
      stop.start_seconds = timed->start_seconds;
      stop.depart_seconds = timed->depart_seconds;
      stop.slack_seconds = timed->slack_seconds;
      g_array_append_val (route->stops, stop);
      if (stop.kind == HS_ROUTE_CALL)
        hs_solution_set_late (self->solution, stop.index, timed->late_seconds);
      add_break (plan, (int) i, route->stops);
    }
  route->leave_seconds = plan->leave_seconds;
  route->home_seconds = plan->home_seconds;
  route->drive_seconds = plan->drive_seconds;
  route->drive_millimiles = plan->drive_millimiles;
  route->wait_seconds = plan->wait_seconds;
  self->solution->cost_units += route_units (route, problem);
  self->solution->cost_cents = hs_cost_cents (self->solution->cost_units);
  self->solution->spare_seconds = least_spare (self->solution);
}

/* When leaving so late no break is owed any more. */
static gint32
rested_from (const HsDay *rules)
{
  gint32 first = rules->break_span.from_seconds;

  if (!rules->under_way)
    return MAX (rules->leave_from_seconds, first + rules->break_seconds);
  if (rules->leave_from_seconds <= rules->break_span.to_seconds - rules->break_seconds)
    return MAX (rules->leave_from_seconds, first) + rules->break_seconds;
  return G_MAXINT32;
}

gint32
hs_day_route_break_late (const HsDay *rules, const HsRoute *route)
{
  gint32 last = rules->break_span.to_seconds - rules->break_seconds;

  if (rules->break_seconds == 0)
    return 0;
  for (guint i = 0; i < route->stops->len; i++)
    {
      const HsRouteStop *stop = &g_array_index (route->stops, HsRouteStop, i);

      if (stop->kind == HS_ROUTE_BREAK)
        return MAX (0, stop->start_seconds - last);
    }
  return route->leave_seconds < rested_from (rules) ? MAX (0, route->home_seconds - last) : 0;
}

/* Hours ------------------------------------------------------------------------------------------------------------ */

gboolean
hs_day_route_time (HsDayRoute *self, guint8 *left, GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (self->problem->build, hs_day_copy (self->day));
  g_autoptr (HsPlan) plan = NULL;
  guint n = self->stops->len;
  guint order[HS_DAY_MAX_STOPS];

  if (n > HS_DAY_MAX_STOPS || (n == 0 && self->first == 0))
    return TRUE;
  for (guint i = 0; i < n; i++)
    order[i] = i;
  if (!hs_day_hours_time (view, order, n, self->route->leave_seconds, &plan, error))
    return FALSE;
  hs_day_hours_add (view, plan, left);
  hs_day_route_take (self, plan);
  return TRUE;
}
