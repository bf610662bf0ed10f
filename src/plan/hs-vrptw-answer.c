// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Writes a plan down: routes ordered by their first customer, so that the same plan always reads the same. The
 * distance is summed up anew from the legs, not taken from the search. */

#include "hs-vrptw-answer.h"

HsVrptwPlan *
hs_vrptw_answer_new (void)
{
  HsVrptwPlan *plan = g_new0 (HsVrptwPlan, 1);

  plan->routes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  plan->unserved = g_array_new (FALSE, FALSE, sizeof (guint));
  return plan;
}

void
hs_vrptw_plan_free (HsVrptwPlan *plan)
{
  if (plan == NULL)
    return;
  g_ptr_array_unref (plan->routes);
  g_array_unref (plan->unserved);
  g_free (plan);
}

const GArray *
hs_vrptw_get_route (const HsVrptwPlan *plan, guint index)
{
  return g_ptr_array_index (plan->routes, index);
}

void
hs_vrptw_answer_add (HsVrptwPlan *plan, const guint32 *stops, guint count)
{
  GArray *route = g_array_sized_new (FALSE, FALSE, sizeof (guint), count);

  for (guint i = 0; i < count; i++)
    {
      guint stop = stops[i];

      g_array_append_val (route, stop);
    }
  g_ptr_array_add (plan->routes, route);
}

static int
compare_routes (gconstpointer a, gconstpointer b)
{
  const GArray *left = *(GArray *const *) a;
  const GArray *right = *(GArray *const *) b;
  guint first = g_array_index (left, guint, 0);
  guint second = g_array_index (right, guint, 0);

  return first < second ? -1 : first > second;
}

static gint64
route_length (const HsVrptw *problem, const GArray *route)
{
  gint64 length = 0;
  guint here = 0;

  for (guint i = 0; i < route->len; i++)
    {
      guint next = g_array_index (route, guint, i);

      length += hs_vrptw_leg (problem, here, next);
      here = next;
    }
  return length + hs_vrptw_leg (problem, here, 0);
}

void
hs_vrptw_answer_close (const HsVrptw *problem, HsVrptwPlan *plan)
{
  g_autofree gboolean *served = g_new0 (gboolean, problem->n + 1);

  g_ptr_array_sort (plan->routes, compare_routes);
  plan->cost = 0;
  for (guint r = 0; r < plan->routes->len; r++)
    {
      const GArray *route = hs_vrptw_get_route (plan, r);

      plan->cost += route_length (problem, route);
      for (guint i = 0; i < route->len; i++)
        served[g_array_index (route, guint, i)] = TRUE;
    }
  for (guint stop = 1; stop <= problem->n; stop++)
    if (!served[stop])
      g_array_append_val (plan->unserved, stop);
}
