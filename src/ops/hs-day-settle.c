// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Hours in the problems of several vans and of counters. Use it wherever hs_solve () decides something about a day of
 * the book. A place that two vans leave at different times of day has the longer drives of both while it is searched,
 * but each van is driven by its own clock in the end.
 */

#include "hs-day-settle.h"

#include "hs-day-drives.h"
#include "hs-day-hours.h"
#include "hs-day-route.h"

#include <string.h>

/* Problems that are solved before the best of them has to do. */
#define MAX_ROUNDS 4

/* Other drives ----------------------------------------------------------------------------------------------------- */

/* The place of the day that a place of the problem stands for: behind those of the day come the places at which vans
 * begin that are under way. */
static guint
day_place (const HsDaySettle *settle, guint place)
{
  const HsProblem *problem = settle->problem->problem;

  if (place < settle->problem->build->day->n_places)
    return place;
  for (guint v = 0; v < problem->vans->len; v++)
    if (hs_problem_get_van (problem, v)->start == place)
      return settle->rules[v]->start_place;
  g_assert_not_reached ();
}

/* However late it is, a van that is under way goes home. */
static gint32
home_by (const HsDaySettle *settle, guint v, const HsTravel *travel)
{
  const HsVan *van = hs_problem_get_van (settle->problem->problem, v);
  const HsDay *rules = settle->rules[v];

  if (!rules->under_way)
    return van->home_by_seconds;
  return MAX (van->home_by_seconds, rules->leave_from_seconds
                                      + hs_travel_get_leg (travel, rules->start_place, rules->end_place).seconds);
}

/* The problem with the drives of @travel. It shares the rest with it: free with free_driven (). */
static HsProblem *
new_driven (const HsDaySettle *settle, const HsTravel *travel)
{
  const HsProblem *problem = settle->problem->problem;
  HsProblem *driven = g_memdup2 (problem, sizeof *problem);
  guint n = problem->n_places;

  driven->drive_seconds = g_array_copy (problem->drive_seconds);
  driven->drive_millimiles = g_array_copy (problem->drive_millimiles);
  driven->vans = g_ptr_array_new_with_free_func (g_free);
  for (guint from = 0; from < n; from++)
    for (guint to = 0; to < travel->n_places; to++)
      {
        HsTravelLeg leg = hs_travel_get_leg (travel, day_place (settle, from), to);

        hs_problem_set_leg (driven, from, to, leg.seconds, leg.millimiles);
      }
  for (guint v = 0; v < problem->vans->len; v++)
    {
      HsVan *van = g_memdup2 (hs_problem_get_van (problem, v), sizeof (HsVan));

      van->home_by_seconds = home_by (settle, v, travel);
      g_ptr_array_add (driven->vans, van);
    }
  return driven;
}

static void
free_driven (HsProblem *driven)
{
  g_array_unref (driven->drive_seconds);
  g_array_unref (driven->drive_millimiles);
  g_ptr_array_unref (driven->vans);
  g_free (driven);
}

/* Comparing -------------------------------------------------------------------------------------------------------- */

/* What counts of a solution, in this order; less is better. A late break is a broken promise, too. */
typedef struct
{
  gint64 marks[6];
} Merit;

static Merit
merit_of (const HsDaySettle *settle, const HsSolution *solution)
{
  gint32 asked = settle->problem->problem->spare_seconds;
  Merit merit = { { solution->broken->len + solution->unserved->len, solution->unserved->len, 0,
                    -(gint64) MIN (solution->spare_seconds, asked), solution->cost_units, 0 } };

  for (guint i = 0; i < solution->broken->len; i++)
    merit.marks[2] += hs_solution_get_broken (solution, i)->late_seconds;
  for (guint i = 0; i < solution->routes->len; i++)
    {
      const HsRoute *route = hs_solution_get_route (solution, i);
      gint32 late = hs_day_route_break_late (settle->rules[route->van], route);

      merit.marks[0] += late > 0;
      merit.marks[2] += late;
      merit.marks[5] += route->home_seconds;
    }
  return merit;
}

/* Of the first @n marks. */
static int
compare_merits (const Merit *a, const Merit *b, guint n)
{
  for (guint i = 0; i < n; i++)
    if (a->marks[i] != b->marks[i])
      return a->marks[i] < b->marks[i] ? -1 : 1;
  return 0;
}

#define KEPT 3
#define ALL G_N_ELEMENTS (((Merit *) NULL)->marks)

gboolean
hs_day_settle_is_better (const HsDaySettle *settle, const HsSolution *a, const HsSolution *b)
{
  Merit left = merit_of (settle, a), right = merit_of (settle, b);

  return compare_merits (&left, &right, ALL) < 0;
}

/* Whether both vans and stops are the same. */
static gboolean
same_routes (const HsSolution *a, const HsSolution *b)
{
  if (a->routes->len != b->routes->len)
    return FALSE;
  for (guint i = 0; i < a->routes->len; i++)
    {
      const HsRoute *left = hs_solution_get_route (a, i), *right = hs_solution_get_route (b, i);

      if (left->van != right->van || left->stops->len != right->stops->len)
        return FALSE;
      for (guint k = 0; k < left->stops->len; k++)
        {
          const HsRouteStop *one = &g_array_index (left->stops, HsRouteStop, k);
          const HsRouteStop *other = &g_array_index (right->stops, HsRouteStop, k);

          if (one->kind != other->kind || one->index != other->index)
            return FALSE;
        }
    }
  return TRUE;
}

/* Rounds ----------------------------------------------------------------------------------------------------------- */

gboolean
hs_day_settle_time (const HsDaySettle *settle, HsSolution *solution, guint8 *left, GError **error)
{
  if (!hs_day_drives_tell_hours (settle->problem->build))
    return TRUE;
  for (guint i = 0; i < solution->routes->len; i++)
    {
      HsRoute *route = g_ptr_array_index (solution->routes, i);
      HsDayRoute at;
      gboolean timed;

      hs_day_route_init (&at, settle->problem, solution, route, settle->rules[route->van]);
      timed = hs_day_route_time (&at, left, error);
      hs_day_route_clear (&at);
      if (!timed)
        return FALSE;
    }
  return TRUE;
}

/* @tried: (element-type HsSolution): what came up, driven at its hours; @best: one of them */
typedef struct
{
  const HsDaySettle *settle;
  HsDayBuild *view;
  GPtrArray *tried;
  HsSolution *best;
} Rounds;

/* Solves with the drives of the view. @ret_floor: (optional): the solution before it is driven at its hours.
 * @ret_new: whether it was not tried before; @left: when its places are left */
static gboolean
try_drives (Rounds *rounds, guint8 *left, HsSolution **ret_floor, gboolean *ret_new, GError **error)
{
  const HsDaySettle *settle = rounds->settle;
  HsProblem *driven = new_driven (settle, rounds->view->travel);
  g_autoptr (HsSolution) solution = NULL;
  gboolean solved = settle->solve (driven, settle->user_data, &solution, error);

  free_driven (driven);
  if (!solved)
    return FALSE;
  if (ret_floor != NULL)
    *ret_floor = hs_solution_copy (solution);
  memset (left, 0, rounds->view->places->len);
  if ((settle->finish != NULL && !settle->finish (solution, settle->user_data, error))
      || !hs_day_settle_time (settle, solution, left, error))
    return FALSE;
  for (guint i = 0; i < rounds->tried->len; i++)
    if (same_routes (g_ptr_array_index (rounds->tried, i), solution))
      {
        *ret_new = FALSE;
        return TRUE;
      }
  *ret_new = TRUE;
  if (rounds->best == NULL || hs_day_settle_is_better (settle, solution, rounds->best))
    rounds->best = solution;
  g_ptr_array_add (rounds->tried, g_steal_pointer (&solution));
  return TRUE;
}

static gboolean
gives_up (const HsDaySettle *settle)
{
  return settle->give_up != NULL && settle->give_up (settle->user_data);
}

static gboolean
go_round (Rounds *rounds, GError **error)
{
  g_autofree guint8 *left = g_new0 (guint8, rounds->view->places->len);
  gboolean is_new = TRUE;

  for (guint round = 0; is_new && round < MAX_ROUNDS && (round == 0 || !gives_up (rounds->settle)); round++)
    {
      hs_day_drives_set (rounds->view, left);
      if (!try_drives (rounds, left, NULL, &is_new, error))
        return FALSE;
    }
  return TRUE;
}

/* What cannot be kept with each drive at its fastest cannot be kept at all. */
static void
set_status (HsSolution *best, const HsSolution *floor)
{
  if (best->broken->len + best->unserved->len == 0)
    best->status = best->proven ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND;
  else
    best->status = floor != NULL && floor->status == HS_PLAN_IMPOSSIBLE ? HS_PLAN_IMPOSSIBLE : HS_PLAN_BEST_FOUND;
}

/* What is as good as the best with each drive at its fastest is the best. */
static gboolean
prove (Rounds *rounds, GError **error)
{
  g_autofree guint8 *left = g_new0 (guint8, rounds->view->places->len);
  g_autoptr (HsSolution) floor = NULL;
  gboolean is_new;
  Merit merit, least;

  if (!gives_up (rounds->settle))
    {
      gboolean kept = rounds->best->broken->len + rounds->best->unserved->len == 0;

      hs_day_hours_may_leave (rounds->view, rounds->view->day, kept, left);
      for (guint v = 0; v < rounds->settle->problem->problem->vans->len; v++)
        hs_day_hours_may_leave (rounds->view, rounds->settle->rules[v], kept, left);
      hs_day_drives_set_fastest (rounds->view, left);
      if (!try_drives (rounds, left, &floor, &is_new, error))
        return FALSE;
    }
  rounds->best->proven = FALSE;
  rounds->best->bound_cents = 0;
  if (floor != NULL)
    {
      merit = merit_of (rounds->settle, rounds->best);
      least = merit_of (rounds->settle, floor);
      rounds->best->proven = floor->proven && compare_merits (&merit, &least, ALL) <= 0;
      rounds->best->bound_cents = compare_merits (&merit, &least, KEPT) <= 0 ? floor->bound_cents : 0;
    }
  set_status (rounds->best, floor);
  return TRUE;
}

static gboolean
settle_hours (const HsDaySettle *settle, HsSolution **ret_solution, GError **error)
{
  const HsDayBuild *build = settle->problem->build;
  g_autoptr (HsDayBuild) view = hs_day_build_view (build, hs_day_copy (build->day));
  g_autoptr (GPtrArray) tried = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_solution_free);
  Rounds rounds = { settle, view, tried, NULL };

  if (!go_round (&rounds, error) || !prove (&rounds, error))
    return FALSE;
  *ret_solution = hs_solution_copy (rounds.best);
  return TRUE;
}

gboolean
hs_day_settle (const HsDaySettle *settle, HsSolution **ret_solution, GError **error)
{
  g_autoptr (HsSolution) solution = NULL;

  if (hs_day_drives_tell_hours (settle->problem->build))
    return settle_hours (settle, ret_solution, error);
  if (!settle->solve (settle->problem->problem, settle->user_data, &solution, error)
      || (settle->finish != NULL && !settle->finish (solution, settle->user_data, error)))
    return FALSE;
  *ret_solution = g_steal_pointer (&solution);
  return TRUE;
}
