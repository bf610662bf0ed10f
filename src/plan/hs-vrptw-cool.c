// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Simulated annealing over ruin and refill. First every customer gets into a route; where vans are few, those that were
 * left out often weigh more, so that the search goes round in no circle. For fewest vans, routes are then given up one
 * after the other for a share of the rounds. What is left of the rounds goes into distance.
 *
 * Heat is counted in mean legs of the first plan, so that a problem in feet cools as the same one in miles does. */

#include "hs-vrptw-cool.h"

#define HEAT_FIRST 2.0
#define HEAT_LAST 0.07
#define ROUNDS_BETWEEN_LOOKS 256
/* Rounds for each customer that one cooling takes at least, where there are enough for more than one. */
#define ROUNDS_A_TURN 4000
/* The share of the rounds after which no more vans are given up. */
#define SHARE_FOR_VANS 0.4
/* A clock reading this far ahead of the rounds does not yet count: the first reading holds the reading of the file. */
#define CLOCK_LEEWAY 0.03

/* A round looks at every place for each customer that it puts back, so its time grows with the customers. */
guint64
hs_vrptw_rounds (guint n, double seconds)
{
  double a_second = MIN (4000.0 * (n + 1), 24e6 / (n + 20));

  return (guint64) MAX (a_second * seconds, 1);
}

HsCool *
hs_cool_new (const HsVrptw *problem, const HsVrptwHow *how)
{
  HsCool *cool = g_new0 (HsCool, 1);
  guint n_routes = MIN (problem->vans, problem->n);

  cool->problem = problem;
  cool->how = how;
  cool->ruin = hs_ruin_new (problem, how->seed);
  cool->fleet = hs_fleet_new (problem, n_routes);
  cool->missed = g_new0 (guint64, problem->n + 1);
  cool->rounds = how->rounds > 0 ? how->rounds : HS_VRPTW_ROUNDS;
  cool->best = g_new (guint32, problem->n + n_routes);
  cool->best_out = G_MAXUINT;
  return cool;
}

void
hs_cool_free (HsCool *cool)
{
  if (cool == NULL)
    return;
  hs_ruin_free (cool->ruin);
  hs_fleet_free (cool->fleet);
  g_free (cool->missed);
  g_free (cool->best);
  g_free (cool);
}

static gboolean
is_better (const HsCool *cool)
{
  const HsFleet *fleet = cool->fleet;
  guint vans;

  if (fleet->n_out != cool->best_out)
    return fleet->n_out < cool->best_out;
  if (cool->how->aim == HS_VRPTW_VEHICLES)
    {
      vans = hs_fleet_count (fleet);
      if (vans != cool->best_vans)
        return vans < cool->best_vans;
    }
  return fleet->cost < cool->best_cost;
}

/* Keeps the plan in play if it is the best so far. */
static void
keep_best (HsCool *cool)
{
  const HsFleet *fleet = cool->fleet;

  if (!is_better (cool))
    return;
  cool->best_out = fleet->n_out;
  cool->best_cost = fleet->cost;
  cool->best_len = 0;
  cool->best_vans = 0;
  for (guint r = 0; r < fleet->n_routes; r++)
    {
      const HsFleetRoute *route = &fleet->routes[r];

      for (guint k = 1; k <= route->len; k++)
        cool->best[cool->best_len++] = route->steps[k].stop;
      if (route->len > 0)
        {
          cool->best[cool->best_len++] = 0;
          cool->best_vans++;
        }
    }
}

/* Puts the best plan back into play, in the first routes. */
static void
play_best (HsCool *cool)
{
  HsFleet *fleet = cool->fleet;
  guint route = 0;
  guint place = 1;

  for (guint r = 0; r < fleet->n_routes; r++)
    if (fleet->routes[r].len > 0)
      hs_fleet_remove (fleet, r, 1, fleet->routes[r].len);
  for (guint i = 0; i < cool->best_len; i++)
    if (cool->best[i] == 0)
      {
        route++;
        place = 1;
      }
    else
      hs_fleet_insert (fleet, cool->best[i], route, place++);
}

/* How far the search is, by rounds or by the clock, whichever is further. Asks whether to give up. */
static void
look_up (HsCool *cool)
{
  const HsVrptwHow *how = cool->how;
  double used;

  cool->progress = MAX (cool->progress, (double) cool->round / (double) cool->rounds);
  if (how->used != NULL)
    {
      used = how->used (how->user_data);
      cool->progress = MAX (cool->progress, (used - CLOCK_LEEWAY) / (1 - CLOCK_LEEWAY));
    }
  cool->gave_up = cool->gave_up || (how->give_up != NULL && how->give_up (how->user_data));
}

static gboolean
is_over (const HsCool *cool)
{
  return cool->gave_up || cool->progress >= 1;
}

static guint64
weigh (const HsCool *cool, const guint32 *out, guint n_out)
{
  guint64 weight = 0;

  for (guint i = 0; i < n_out; i++)
    weight += cool->missed[out[i]] + 1;
  return weight;
}

/* Whether the change since the mark is kept. */
static gboolean
accept (HsCool *cool, double heat)
{
  const HsFleet *fleet = cool->fleet;
  guint64 now;
  guint64 before;

  if (fleet->n_out > 0 || fleet->n_marked_out > 0)
    {
      now = weigh (cool, fleet->out, fleet->n_out);
      before = weigh (cool, fleet->marked_out, fleet->n_marked_out);
      for (guint i = 0; i < fleet->n_out; i++)
        cool->missed[fleet->out[i]]++;
      if (now != before)
        return now < before;
    }
  return (double) (fleet->cost - fleet->marked_cost) < -heat * log (hs_ruin_share (cool->ruin));
}

static void
play_round (HsCool *cool, guint n_routes, double heat)
{
  hs_fleet_mark (cool->fleet);
  hs_ruin_take_out (cool->ruin, cool->fleet);
  hs_ruin_put_back (cool->ruin, cool->fleet, n_routes);
  cool->round++;
  if (!accept (cool, heat))
    hs_fleet_take_back (cool->fleet);
}

static double
heat_at (double unit, double share)
{
  return unit * HEAT_FIRST * pow (HEAT_LAST / HEAT_FIRST, CLAMP (share, 0, 1));
}

/* Until nobody is left out, at most up to @share of the whole. */
static gboolean
fit_all (HsCool *cool, guint n_routes, double unit, double share)
{
  while (cool->fleet->n_out > 0 && !is_over (cool) && cool->progress < share)
    {
      for (guint i = 0; i < ROUNDS_BETWEEN_LOOKS && cool->fleet->n_out > 0; i++)
        {
          play_round (cool, n_routes, heat_at (unit, 0.5));
          keep_best (cool);
        }
      look_up (cool);
    }
  return cool->fleet->n_out == 0;
}

/* The route whose customers are easiest to place elsewhere, as far as is known. */
static guint
easiest_route (const HsCool *cool)
{
  const HsFleet *fleet = cool->fleet;
  guint64 least = G_MAXUINT64;
  guint easiest = 0;

  for (guint r = 0; r < fleet->n_routes; r++)
    {
      const HsFleetRoute *route = &fleet->routes[r];
      guint64 weight = 0;

      if (route->len == 0)
        continue;
      for (guint k = 1; k <= route->len; k++)
        weight += cool->missed[route->steps[k].stop] + 1;
      if (weight < least)
        {
          least = weight;
          easiest = r;
        }
    }
  return easiest;
}

/* Gives up vans for as long as the rest can take their customers. The best plan has the fewest vans found. */
static guint
give_up_vans (HsCool *cool, guint least_vans, double unit)
{
  guint vans = cool->best_vans;

  while (vans > least_vans && !is_over (cool) && cool->progress < SHARE_FOR_VANS)
    {
      guint route;

      play_best (cool);
      route = easiest_route (cool);
      hs_fleet_remove (cool->fleet, route, 1, cool->fleet->routes[route].len);
      hs_fleet_swap (cool->fleet, route, vans - 1);
      hs_fleet_mark (cool->fleet);
      if (!fit_all (cool, vans - 1, unit, SHARE_FOR_VANS))
        break;
      vans = cool->best_vans;
    }
  return vans;
}

/* Several times from hot to cold where the rounds are enough for it: which valley the search ends in is luck, and the
 * best of some is better than one gone through slowly. */
static void
shorten (HsCool *cool, guint n_routes, double unit)
{
  double began = cool->progress;
  guint64 left = cool->rounds - MIN (cool->round, cool->rounds);
  double turns = (double) MAX (left / (ROUNDS_A_TURN * cool->problem->n), 1);

  while (!is_over (cool))
    {
      double turn = turns * (cool->progress - began) / (1 - began);
      double heat = heat_at (unit, turn - floor (turn));

      for (guint i = 0; i < ROUNDS_BETWEEN_LOOKS && cool->round < cool->rounds; i++)
        {
          play_round (cool, n_routes, heat);
          keep_best (cool);
        }
      look_up (cool);
    }
}

void
hs_cool_run (HsCool *cool, guint least_vans)
{
  HsFleet *fleet = cool->fleet;
  guint n_routes = fleet->n_routes;
  double unit;

  cool->ruin->overlooks = FALSE;
  hs_ruin_put_back (cool->ruin, fleet, n_routes);
  cool->ruin->overlooks = TRUE;
  keep_best (cool);
  unit = (double) fleet->cost / (cool->problem->n + cool->best_vans);
  look_up (cool);
  if (!fit_all (cool, n_routes, unit, 1))
    return;
  if (cool->how->aim == HS_VRPTW_VEHICLES)
    {
      n_routes = give_up_vans (cool, least_vans, unit);
      play_best (cool);
    }
  shorten (cool, n_routes, unit);
}
