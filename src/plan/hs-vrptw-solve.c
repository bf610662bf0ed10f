// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Puts the pieces together: customers that nobody can serve are set aside, few customers are proven, many are searched
 * for. */

#include "hs-vrptw-answer.h"
#include "hs-vrptw-bound.h"
#include "hs-vrptw-cool.h"
#include "hs-vrptw-exact.h"

/* The problem with only the customers of @keep; customer i of it is customer keep[i − 1] of @problem. */
static HsVrptw *
narrow (const HsVrptw *problem, const GArray *keep)
{
  HsVrptw *narrowed = hs_vrptw_new (keep->len);
  gsize side = (gsize) keep->len + 1;

  narrowed->vans = problem->vans;
  narrowed->capacity = problem->capacity;
  for (guint i = 0; i < side; i++)
    {
      guint from = i == 0 ? 0 : g_array_index (keep, guint, i - 1);

      narrowed->stops[i] = problem->stops[from];
      for (guint j = 0; j < side; j++)
        narrowed->legs[i * side + j] = hs_vrptw_leg (problem, from, j == 0 ? 0 : g_array_index (keep, guint, j - 1));
    }
  return narrowed;
}

static GArray *
servable (const HsVrptw *problem)
{
  GArray *keep = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint stop = 1; stop <= problem->n; stop++)
    if (hs_fleet_can_serve (problem, stop))
      g_array_append_val (keep, stop);
  return keep;
}

/* What is proven of a plan that serves as many as @plan does. */
static void
set_status (const HsVrptw *problem, const HsVrptwHow *how, guint least_vans, gint64 bound, HsVrptwPlan *plan)
{
  gboolean fewest = how->aim == HS_VRPTW_DISTANCE || plan->routes->len == least_vans;

  plan->status = least_vans > problem->vans ? HS_PLAN_IMPOSSIBLE : HS_PLAN_BEST_FOUND;
  if (plan->unserved->len > 0)
    return;
  plan->bound = bound;
  if (plan->cost == bound && fewest)
    plan->status = HS_PLAN_OPTIMAL;
}

static HsVrptwPlan *
search (const HsVrptw *problem, const HsVrptwHow *how)
{
  g_autoptr (HsCool) cool = hs_cool_new (problem, how);
  HsVrptwPlan *plan = hs_vrptw_answer_new ();
  guint least_vans = hs_vrptw_least_vans (problem);
  gint64 bound = hs_vrptw_least_distance (problem, least_vans, how->give_up, how->user_data);
  guint first = 0;

  hs_cool_run (cool, least_vans);
  for (guint i = 0; i < cool->best_len; i++)
    if (cool->best[i] == 0)
      {
        hs_vrptw_answer_add (plan, cool->best + first, i - first);
        first = i + 1;
      }
  hs_vrptw_answer_close (problem, plan);
  plan->states = cool->round;
  set_status (problem, how, least_vans, bound, plan);
  return plan;
}

/* The answer to the narrowed problem, with the numbers of the whole one. */
static HsVrptwPlan *
widen (const HsVrptw *problem, const GArray *keep, const HsVrptwPlan *narrow_plan)
{
  HsVrptwPlan *plan = hs_vrptw_answer_new ();
  g_autofree guint32 *stops = g_new (guint32, keep->len + 1);

  for (guint r = 0; r < narrow_plan->routes->len; r++)
    {
      const GArray *route = hs_vrptw_get_route (narrow_plan, r);

      for (guint i = 0; i < route->len; i++)
        stops[i] = g_array_index (keep, guint, g_array_index (route, guint, i) - 1);
      hs_vrptw_answer_add (plan, stops, route->len);
    }
  hs_vrptw_answer_close (problem, plan);
  plan->status = keep->len < problem->n ? HS_PLAN_IMPOSSIBLE : narrow_plan->status;
  plan->bound = narrow_plan->bound;
  plan->states = narrow_plan->states;
  return plan;
}

gboolean
hs_vrptw_solve (const HsVrptw *problem, const HsVrptwHow *how, HsVrptwPlan **ret_plan, GError **error)
{
  g_autoptr (GArray) keep = NULL;
  g_autoptr (HsVrptw) narrowed = NULL;
  g_autoptr (HsVrptwPlan) plan = NULL;

  if (!hs_vrptw_check (problem, error))
    return FALSE;
  keep = servable (problem);
  narrowed = narrow (problem, keep);
  if (keep->len == 0)
    plan = hs_vrptw_answer_new ();
  else if (keep->len > HS_VRPTW_EXACT_CUSTOMERS || !hs_vrptw_exact (narrowed, how, &plan))
    plan = search (narrowed, how);
  *ret_plan = widen (problem, keep, plan);
  return TRUE;
}
