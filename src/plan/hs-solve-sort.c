// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Copies a problem row by row in the order of ids. */

#include "hs-solve-sort.h"

#include <string.h>

typedef const char *(*GetId) (const HsProblem *problem, guint index);

/* From what an index is to what it shall be. */
typedef struct
{
  const guint *vans;
  const guint *calls;
  const guint *counters;
  const guint *parts;
} Map;

static const char *
van_id (const HsProblem *problem, guint index)
{
  return hs_problem_get_van (problem, index)->id;
}

static const char *
call_id (const HsProblem *problem, guint index)
{
  return hs_problem_get_call (problem, index)->id;
}

static const char *
counter_id (const HsProblem *problem, guint index)
{
  return hs_problem_get_counter (problem, index)->id;
}

static const char *
part_id (const HsProblem *problem, guint index)
{
  return g_ptr_array_index (problem->parts, index);
}

/* (transfer full): the indexes of @n rows in the order of their ids. */
static guint *
sort_rows (const HsProblem *problem, guint n, GetId get_id)
{
  guint *order = g_new (guint, n + 1);

  for (guint i = 0; i < n; i++)
    {
      guint at = i;

      for (; at > 0 && strcmp (get_id (problem, order[at - 1]), get_id (problem, i)) > 0; at--)
        order[at] = order[at - 1];
      order[at] = i;
    }
  return order;
}

/* (transfer full): where each of @n rows stands in @order. */
static guint *
invert (const guint *order, guint n)
{
  guint *places = g_new (guint, n + 1);

  for (guint i = 0; i < n; i++)
    places[order[i]] = i;
  return places;
}

static void
copy_parts (GArray *to, const GArray *from, const guint *part_places)
{
  for (guint k = 0; k < from->len; k++)
    g_array_append_val (to, part_places[g_array_index (from, guint, k)]);
}

static void
copy_skills (GPtrArray *to, const GPtrArray *from)
{
  for (guint k = 0; k < from->len; k++)
    g_ptr_array_add (to, g_strdup (g_ptr_array_index (from, k)));
}

static void
copy_van (HsProblem *to, const HsVan *van, const guint *part_places)
{
  HsVan *copy = hs_problem_add_van (to, van->id);

  copy->start = van->start;
  copy->end = van->end;
  copy->leave_from_seconds = van->leave_from_seconds;
  copy->leave_to_seconds = van->leave_to_seconds;
  copy->home_by_seconds = van->home_by_seconds;
  copy->break_seconds = van->break_seconds;
  copy->break_span = van->break_span;
  copy_parts (copy->carries, van->carries, part_places);
  copy_skills (copy->skills, van->skills);
}

static void
copy_call (HsProblem *to, const HsCall *call, const guint *van_places, const guint *part_places)
{
  HsCall *copy = hs_problem_add_call (to, call->id, call->place, call->service_seconds);

  g_array_append_vals (copy->windows, call->windows->data, call->windows->len);
  copy_parts (copy->needs, call->needs, part_places);
  copy_skills (copy->skills, call->skills);
  if (call->van != HS_PROBLEM_ANY_VAN)
    copy->van = (int) van_places[call->van];
}

static void
copy_counter (HsProblem *to, const HsCounter *counter, const guint *part_places)
{
  HsCounter *copy = hs_problem_add_counter (to, counter->id, counter->place, counter->service_seconds);

  g_array_append_vals (copy->hours, counter->hours->data, counter->hours->len);
  for (guint part = 0; part < counter->cents->len; part++)
    hs_counter_sell (copy, part_places[part], hs_counter_cents (counter, part));
}

static void
copy_rest (HsProblem *to, const HsProblem *problem)
{
  memcpy (to->drive_seconds->data, problem->drive_seconds->data, problem->drive_seconds->len * sizeof (gint32));
  memcpy (to->drive_millimiles->data, problem->drive_millimiles->data,
          problem->drive_millimiles->len * sizeof (gint64));
  to->minute_cents = problem->minute_cents;
  to->mile_cents = problem->mile_cents;
  to->spare_seconds = problem->spare_seconds;
}

HsSorted *
hs_sorted_new (const HsProblem *problem)
{
  HsSorted *sorted = g_new0 (HsSorted, 1);
  HsProblem *to = hs_problem_new (problem->n_places);
  g_autofree guint *van_places = NULL;
  g_autofree guint *part_places = NULL;

  sorted->problem = to;
  sorted->vans = sort_rows (problem, problem->vans->len, van_id);
  sorted->calls = sort_rows (problem, problem->calls->len, call_id);
  sorted->counters = sort_rows (problem, problem->counters->len, counter_id);
  sorted->parts = sort_rows (problem, problem->parts->len, part_id);
  van_places = invert (sorted->vans, problem->vans->len);
  part_places = invert (sorted->parts, problem->parts->len);
  copy_rest (to, problem);
  for (guint p = 0; p < problem->parts->len; p++)
    hs_problem_part (to, part_id (problem, sorted->parts[p]));
  for (guint v = 0; v < problem->vans->len; v++)
    copy_van (to, hs_problem_get_van (problem, sorted->vans[v]), part_places);
  for (guint i = 0; i < problem->calls->len; i++)
    copy_call (to, hs_problem_get_call (problem, sorted->calls[i]), van_places, part_places);
  for (guint c = 0; c < problem->counters->len; c++)
    copy_counter (to, hs_problem_get_counter (problem, sorted->counters[c]), part_places);
  return sorted;
}

void
hs_sorted_free (HsSorted *sorted)
{
  if (sorted == NULL)
    return;
  hs_problem_free (sorted->problem);
  g_free (sorted->vans);
  g_free (sorted->calls);
  g_free (sorted->counters);
  g_free (sorted->parts);
  g_free (sorted);
}

static void
map_route (HsRoute *route, const Map *map)
{
  route->van = map->vans[route->van];
  for (guint k = 0; k < route->stops->len; k++)
    {
      HsRouteStop *stop = &g_array_index (route->stops, HsRouteStop, k);

      if (stop->kind == HS_ROUTE_CALL)
        stop->index = map->calls[stop->index];
      else if (stop->kind == HS_ROUTE_COUNTER)
        stop->index = map->counters[stop->index];
    }
}

static void
map_troubles (GPtrArray *troubles, const Map *map)
{
  for (guint i = 0; i < troubles->len; i++)
    {
      HsTrouble *trouble = g_ptr_array_index (troubles, i);

      trouble->call = map->calls[trouble->call];
      for (guint k = 0; k < trouble->conflicts->len; k++)
        g_array_index (trouble->conflicts, guint, k) = map->calls[g_array_index (trouble->conflicts, guint, k)];
    }
}

static void
map_solution (HsSolution *solution, const Map *map)
{
  for (guint r = 0; r < solution->routes->len; r++)
    map_route (g_ptr_array_index (solution->routes, r), map);
  for (guint i = 0; i < solution->bought->len; i++)
    {
      HsBought *bought = &g_array_index (solution->bought, HsBought, i);

      bought->part = map->parts[bought->part];
      bought->counter = map->counters[bought->counter];
      bought->van = map->vans[bought->van];
      bought->call = map->calls[bought->call];
    }
  map_troubles (solution->unserved, map);
  map_troubles (solution->broken, map);
}

void
hs_sorted_restore (const HsSorted *sorted, HsSolution *solution)
{
  const Map map = { sorted->vans, sorted->calls, sorted->counters, sorted->parts };

  map_solution (solution, &map);
}

void
hs_sorted_apply (const HsSorted *sorted, HsSolution *solution)
{
  g_autofree guint *vans = invert (sorted->vans, sorted->problem->vans->len);
  g_autofree guint *calls = invert (sorted->calls, sorted->problem->calls->len);
  g_autofree guint *counters = invert (sorted->counters, sorted->problem->counters->len);
  g_autofree guint *parts = invert (sorted->parts, sorted->problem->parts->len);
  const Map map = { vans, calls, counters, parts };

  map_solution (solution, &map);
}
