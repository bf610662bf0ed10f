// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Routes in play: putting customers in, taking them out, and taking all of that back. Every step carries the earliest
 * time its van is free and the latest it may come; a change runs along the route only as far as it changes these. It
 * trusts its callers: a customer that does not fit must not be put in. */

#include "hs-vrptw-fleet.h"

static const HsVrptwStop *
stop_of (const HsFleet *fleet, const HsFleetStep *step)
{
  return &fleet->problem->stops[step->stop];
}

/* Sets what follows from the row of stops, of which places @first to @last are new. */
static void
refresh (HsFleet *fleet, HsFleetRoute *route, guint first, guint last)
{
  HsFleetStep *steps = route->steps;

  for (guint k = first; k <= route->len + 1; k++)
    {
      const HsVrptwStop *stop = stop_of (fleet, &steps[k]);
      gint64 free_at = MAX (stop->ready, steps[k - 1].free_at + steps[k - 1].leg) + stop->service;

      if (k > last && free_at == steps[k].free_at)
        break;
      steps[k].free_at = free_at;
    }
  for (guint k = last; k > 0; k--)
    {
      const HsVrptwStop *stop = stop_of (fleet, &steps[k]);
      gint64 latest = MIN (stop->due, steps[k + 1].latest - steps[k].leg - stop->service);

      if (k < first && latest == steps[k].latest)
        break;
      steps[k].latest = latest;
    }
}

static void
number_places (HsFleet *fleet, guint route, guint from)
{
  const HsFleetRoute *row = &fleet->routes[route];

  for (guint k = from; k <= row->len; k++)
    {
      fleet->place_of[row->steps[k].stop] = k;
      fleet->route_of[row->steps[k].stop] = route;
    }
}

static void
put_out (HsFleet *fleet, guint stop)
{
  fleet->route_of[stop] = HS_FLEET_OUT;
  fleet->place_of[stop] = fleet->n_out;
  fleet->out[fleet->n_out++] = stop;
}

static void
clear_route (HsFleet *fleet, HsFleetRoute *route)
{
  const HsVrptwStop *home = &fleet->problem->stops[0];

  route->len = 0;
  route->load = 0;
  route->steps[0] = (HsFleetStep){ home->ready, home->due, 0, 0 };
  route->steps[1] = (HsFleetStep){ home->ready, home->due, 0, 0 };
}

HsFleet *
hs_fleet_new (const HsVrptw *problem, guint n_routes)
{
  HsFleet *fleet = g_new0 (HsFleet, 1);
  gsize stride = problem->n + 2;

  fleet->problem = problem;
  fleet->n_routes = n_routes;
  fleet->routes = g_new0 (HsFleetRoute, n_routes);
  fleet->saved = g_new0 (HsFleetRoute, n_routes);
  fleet->memory = g_new (HsFleetStep, 2 * n_routes * stride);
  fleet->route_of = g_new0 (guint32, problem->n + 1);
  fleet->place_of = g_new0 (guint32, problem->n + 1);
  fleet->out = g_new (guint32, problem->n + 1);
  fleet->marked_out = g_new (guint32, problem->n + 1);
  fleet->touched = g_new (guint, n_routes);
  for (guint r = 0; r < n_routes; r++)
    {
      fleet->routes[r].steps = fleet->memory + 2 * r * stride;
      fleet->saved[r].steps = fleet->memory + (2 * r + 1) * stride;
      clear_route (fleet, &fleet->routes[r]);
    }
  for (guint stop = 1; stop <= problem->n; stop++)
    put_out (fleet, stop);
  hs_fleet_mark (fleet);
  return fleet;
}

void
hs_fleet_free (HsFleet *fleet)
{
  if (fleet == NULL)
    return;
  g_free (fleet->routes);
  g_free (fleet->saved);
  g_free (fleet->memory);
  g_free (fleet->route_of);
  g_free (fleet->place_of);
  g_free (fleet->out);
  g_free (fleet->marked_out);
  g_free (fleet->touched);
  g_free (fleet);
}

void
hs_fleet_mark (HsFleet *fleet)
{
  fleet->mark++;
  fleet->n_touched = 0;
  fleet->marked_cost = fleet->cost;
  fleet->n_marked_out = fleet->n_out;
  memcpy (fleet->marked_out, fleet->out, fleet->n_out * sizeof *fleet->out);
}

/* Keeps @route as it was at the mark, once. */
static void
touch (HsFleet *fleet, guint route)
{
  HsFleetRoute *now = &fleet->routes[route];
  HsFleetRoute *saved = &fleet->saved[route];

  if (now->saved_in == fleet->mark)
    return;
  now->saved_in = fleet->mark;
  saved->len = now->len;
  saved->load = now->load;
  memcpy (saved->steps, now->steps, (now->len + 2) * sizeof *now->steps);
  fleet->touched[fleet->n_touched++] = route;
}

void
hs_fleet_take_back (HsFleet *fleet)
{
  fleet->n_out = 0;
  for (guint i = 0; i < fleet->n_marked_out; i++)
    put_out (fleet, fleet->marked_out[i]);
  for (guint i = 0; i < fleet->n_touched; i++)
    {
      guint route = fleet->touched[i];
      HsFleetRoute now = fleet->routes[route];

      fleet->routes[route] = fleet->saved[route];
      fleet->routes[route].saved_in = 0;
      fleet->saved[route] = now;
      number_places (fleet, route, 1);
    }
  fleet->cost = fleet->marked_cost;
  fleet->n_touched = 0;
}

void
hs_fleet_remove (HsFleet *fleet, guint route, guint place, guint count)
{
  HsFleetRoute *row = &fleet->routes[route];
  HsFleetStep *steps = row->steps;
  gint64 gone = 0;
  gint64 leg;

  touch (fleet, route);
  for (guint k = place - 1; k < place + count; k++)
    gone += steps[k].leg;
  for (guint k = place; k < place + count; k++)
    {
      row->load -= stop_of (fleet, &steps[k])->demand;
      put_out (fleet, steps[k].stop);
    }
  memmove (steps + place, steps + place + count, (row->len + 2 - place - count) * sizeof *steps);
  row->len -= count;
  leg = hs_vrptw_leg (fleet->problem, steps[place - 1].stop, steps[place].stop);
  steps[place - 1].leg = leg;
  fleet->cost += leg - gone;
  number_places (fleet, route, place);
  refresh (fleet, row, place, place - 1);
}

void
hs_fleet_insert (HsFleet *fleet, guint stop, guint route, guint place)
{
  HsFleetRoute *row = &fleet->routes[route];
  HsFleetStep *steps = row->steps;
  guint32 last = fleet->out[--fleet->n_out];
  gint64 gone;

  touch (fleet, route);
  fleet->out[fleet->place_of[stop]] = last;
  fleet->place_of[last] = fleet->place_of[stop];
  memmove (steps + place + 1, steps + place, (row->len + 2 - place) * sizeof *steps);
  row->len++;
  row->load += fleet->problem->stops[stop].demand;
  gone = steps[place - 1].leg;
  steps[place].stop = stop;
  steps[place - 1].leg = hs_vrptw_leg (fleet->problem, steps[place - 1].stop, stop);
  steps[place].leg = hs_vrptw_leg (fleet->problem, stop, steps[place + 1].stop);
  fleet->cost += steps[place - 1].leg + steps[place].leg - gone;
  number_places (fleet, route, place);
  refresh (fleet, row, place, place);
}

void
hs_fleet_swap (HsFleet *fleet, guint a, guint b)
{
  HsFleetRoute kept = fleet->routes[a];

  fleet->routes[a] = fleet->routes[b];
  fleet->routes[b] = kept;
  number_places (fleet, a, 1);
  number_places (fleet, b, 1);
  hs_fleet_mark (fleet);
}

gboolean
hs_fleet_can_serve (const HsVrptw *problem, guint stop)
{
  const HsVrptwStop *home = &problem->stops[0];
  const HsVrptwStop *there = &problem->stops[stop];
  gint64 leg = hs_vrptw_leg (problem, 0, stop);
  gint64 start = MAX (home->ready + leg, there->ready);

  return there->demand <= problem->capacity && start <= there->due && start + there->service + leg <= home->due;
}

guint
hs_fleet_count (const HsFleet *fleet)
{
  guint count = 0;

  for (guint r = 0; r < fleet->n_routes; r++)
    count += fleet->routes[r].len > 0;
  return count;
}
