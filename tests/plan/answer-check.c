// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#include "answer-check.h"

#define UNITS 3000

/* What is counted while the routes are walked along. */
typedef struct
{
  const HsProblem *problem;
  const HsSolution *solution;
  GArray *times_served;
  gint64 units;
  gint32 spare;
} Check;

/* Where a van is on its walk. */
typedef struct
{
  const HsRoute *route;
  const HsVan *van;
  guint place;
  gint32 time;
  gint32 drive;
  gint32 wait;
  gint64 millimiles;
  gint32 breaks;
  guint32 seen;
  GArray *units_used;
} Walk;

#define FAULT_UNLESS(holds) \
  G_STMT_START \
  { \
    if (!(holds)) \
      return "broken: " #holds; \
  } \
  G_STMT_END

static gboolean
is_inside (const GArray *spans, gint32 from, gint32 to)
{
  const HsDaySpan *span = (const HsDaySpan *) spans->data;

  for (guint i = 0; i < spans->len; i++)
    if (from >= span[i].from_seconds && to <= span[i].to_seconds)
      return TRUE;
  return FALSE;
}

static gint32
last_second (const HsProblem *problem, const HsCall *call)
{
  gint32 last = call->windows->len == 0 ? 24 * 3600 : G_MININT32;

  for (guint v = 0; call->windows->len == 0 && v < problem->vans->len; v++)
    last = MAX (last, hs_problem_get_van (problem, v)->home_by_seconds);
  for (guint i = 0; i < call->windows->len; i++)
    last = MAX (last, g_array_index (call->windows, HsDaySpan, i).to_seconds);
  return last;
}

/* The most that @start can be put off within one window; how late it is, below zero, outside of all. */
static gint32
room_left (const HsProblem *problem, const HsCall *call, gint32 start)
{
  gint32 last = last_second (problem, call);
  gint32 most = -1;

  if (call->windows->len == 0)
    return last - start;
  for (guint i = 0; i < call->windows->len; i++)
    {
      const HsDaySpan *span = &g_array_index (call->windows, HsDaySpan, i);

      if (span->from_seconds <= start && start <= span->to_seconds)
        most = MAX (most, span->to_seconds - start);
    }
  return most >= 0 ? most : last - start;
}

static void
walk_to (const Check *check, Walk *walk, guint place)
{
  guint cell = walk->place * check->problem->n_places + place;
  gint32 seconds = g_array_index (check->problem->drive_seconds, gint32, cell);

  walk->time += seconds;
  walk->drive += seconds;
  walk->millimiles += g_array_index (check->problem->drive_millimiles, gint64, cell);
  walk->place = place;
}

static const HsTrouble *
find_trouble (const GPtrArray *troubles, guint call)
{
  for (guint i = 0; i < troubles->len; i++)
    if (((const HsTrouble *) g_ptr_array_index (troubles, i))->call == call)
      return g_ptr_array_index (troubles, i);
  return NULL;
}

static gboolean
may_go (const HsVan *van, guint index, const HsCall *call)
{
  guint found = 0;

  for (guint i = 0; i < call->skills->len; i++)
    for (guint k = 0; k < van->skills->len; k++)
      if (g_str_equal (call->skills->pdata[i], van->skills->pdata[k]))
        {
          found++;
          break;
        }
  return found == call->skills->len && (call->van < 0 || (guint) call->van == index);
}

/* Takes the parts of @call from what was bought for it at counters seen before, the rest from the van. */
static const char *
check_parts (Check *check, Walk *walk, guint index)
{
  const HsCall *call = hs_problem_get_call (check->problem, index);
  guint n_parts = check->problem->parts->len;
  g_autofree gint32 *wanted = g_new0 (gint32, n_parts + 1);

  for (guint k = 0; k < call->needs->len; k++)
    wanted[g_array_index (call->needs, guint, k)]++;
  for (guint b = 0; b < check->solution->bought->len; b++)
    {
      const HsBought *bought = &g_array_index (check->solution->bought, HsBought, b);

      if (bought->call != index)
        continue;
      FAULT_UNLESS (bought->van == walk->route->van);
      FAULT_UNLESS ((walk->seen >> bought->counter & 1) != 0);
      FAULT_UNLESS (bought->cents >= 0);
      FAULT_UNLESS (bought->cents
                    == hs_counter_cents (hs_problem_get_counter (check->problem, bought->counter), bought->part));
      FAULT_UNLESS (--wanted[bought->part] >= 0);
      check->units += bought->cents * UNITS;
    }
  for (guint p = 0; p < n_parts; p++)
    g_array_index (walk->units_used, gint32, p) += wanted[p];
  return NULL;
}

static const char *
check_call (Check *check, Walk *walk, const HsRouteStop *stop)
{
  const HsCall *call = hs_problem_get_call (check->problem, stop->index);
  const HsTrouble *trouble = find_trouble (check->solution->broken, stop->index);
  gint32 room = room_left (check->problem, call, stop->start_seconds);

  FAULT_UNLESS (may_go (walk->van, walk->route->van, call));
  FAULT_UNLESS (stop->depart_seconds == stop->start_seconds + call->service_seconds);
  FAULT_UNLESS (stop->slack_seconds == room);
  FAULT_UNLESS ((room < 0) == (trouble != NULL));
  FAULT_UNLESS (trouble == NULL || trouble->late_seconds == -room);
  FAULT_UNLESS (room >= 0 || stop->start_seconds == stop->arrive_seconds);
  FAULT_UNLESS (++g_array_index (check->times_served, guint, stop->index) == 1);
  check->spare = MIN (check->spare, room);
  return check_parts (check, walk, stop->index);
}

static const char *
check_counter (Check *check, Walk *walk, const HsRouteStop *stop)
{
  const HsCounter *counter = hs_problem_get_counter (check->problem, stop->index);

  FAULT_UNLESS (stop->depart_seconds == stop->start_seconds + counter->service_seconds);
  FAULT_UNLESS (is_inside (counter->hours, stop->start_seconds, stop->depart_seconds));
  FAULT_UNLESS (is_inside (counter->hours, stop->start_seconds + stop->slack_seconds,
                           stop->depart_seconds + stop->slack_seconds));
  walk->seen |= 1u << stop->index;
  return NULL;
}

static const char *
check_break (Walk *walk, const HsRouteStop *stop)
{
  FAULT_UNLESS (walk->breaks++ == 0);
  FAULT_UNLESS (walk->van->break_seconds > 0);
  FAULT_UNLESS (stop->depart_seconds == stop->start_seconds + walk->van->break_seconds);
  FAULT_UNLESS (stop->start_seconds >= walk->van->break_span.from_seconds);
  FAULT_UNLESS (stop->depart_seconds <= walk->van->break_span.to_seconds);
  return NULL;
}

static const char *
check_stop (Check *check, Walk *walk, const HsRouteStop *stop)
{
  const char *fault = NULL;

  if (stop->kind == HS_ROUTE_CALL)
    walk_to (check, walk, hs_problem_get_call (check->problem, stop->index)->place);
  if (stop->kind == HS_ROUTE_COUNTER)
    walk_to (check, walk, hs_problem_get_counter (check->problem, stop->index)->place);
  FAULT_UNLESS (stop->arrive_seconds == walk->time);
  FAULT_UNLESS (stop->start_seconds >= stop->arrive_seconds);
  walk->wait += stop->start_seconds - stop->arrive_seconds;
  walk->time = stop->depart_seconds;
  if (stop->kind == HS_ROUTE_CALL)
    fault = check_call (check, walk, stop);
  else if (stop->kind == HS_ROUTE_COUNTER)
    fault = check_counter (check, walk, stop);
  else
    fault = check_break (walk, stop);
  return fault;
}

static const char *
check_home (Check *check, const Walk *walk)
{
  const HsRoute *route = walk->route;
  const HsVan *van = walk->van;
  gboolean before = route->leave_seconds - van->break_seconds >= van->break_span.from_seconds;
  gboolean after = route->home_seconds + van->break_seconds <= van->break_span.to_seconds;

  FAULT_UNLESS (route->home_seconds == walk->time);
  FAULT_UNLESS (route->home_seconds <= van->home_by_seconds);
  FAULT_UNLESS (route->drive_seconds == walk->drive);
  FAULT_UNLESS (route->drive_millimiles == walk->millimiles);
  FAULT_UNLESS (route->wait_seconds == walk->wait);
  FAULT_UNLESS (van->break_seconds == 0 || walk->breaks > 0 || before || after);
  for (guint p = 0; p < check->problem->parts->len; p++)
    {
      gint32 on_board = 0;

      for (guint k = 0; k < van->carries->len; k++)
        on_board += g_array_index (van->carries, guint, k) == p;
      FAULT_UNLESS (g_array_index (walk->units_used, gint32, p) <= on_board);
    }
  check->units += (route->home_seconds - route->leave_seconds) * check->problem->minute_cents * UNITS / 60;
  check->units += walk->millimiles * check->problem->mile_cents * (UNITS / 1000);
  return NULL;
}

static const char *
check_route (Check *check, const HsRoute *route)
{
  g_autoptr (GArray) units_used = g_array_new (FALSE, TRUE, sizeof (gint32));
  const HsVan *van = hs_problem_get_van (check->problem, route->van);
  Walk walk = { .route = route, .van = van, .place = van->start, .time = route->leave_seconds };
  const char *fault = NULL;

  g_array_set_size (units_used, check->problem->parts->len);
  walk.units_used = units_used;
  FAULT_UNLESS (route->stops->len > 0);
  FAULT_UNLESS (route->leave_seconds >= van->leave_from_seconds);
  FAULT_UNLESS (route->leave_seconds <= van->leave_to_seconds);
  for (guint k = 0; fault == NULL && k < route->stops->len; k++)
    fault = check_stop (check, &walk, &g_array_index (route->stops, HsRouteStop, k));
  walk_to (check, &walk, van->end);
  return fault != NULL ? fault : check_home (check, &walk);
}

/* Every call is either driven to or told not to be; nothing is told late that isn't, or bought for nobody. */
static const char *
check_lists (const Check *check)
{
  const HsSolution *solution = check->solution;

  for (guint i = 0; i < check->problem->calls->len; i++)
    {
      guint served = g_array_index (check->times_served, guint, i);

      FAULT_UNLESS ((served == 0) == (find_trouble (solution->unserved, i) != NULL));
      FAULT_UNLESS (served == 1 || find_trouble (solution->broken, i) == NULL);
    }
  for (guint b = 0; b < solution->bought->len; b++)
    FAULT_UNLESS (g_array_index (check->times_served, guint, g_array_index (solution->bought, HsBought, b).call) == 1);
  return NULL;
}

static const char *
check_sums (const Check *check)
{
  const HsSolution *solution = check->solution;
  guint troubles = solution->unserved->len + solution->broken->len;

  FAULT_UNLESS (solution->cost_units == check->units);
  FAULT_UNLESS (solution->cost_cents == (check->units + UNITS / 2) / UNITS);
  FAULT_UNLESS (solution->bound_cents <= solution->cost_cents);
  FAULT_UNLESS (solution->spare_seconds == check->spare);
  FAULT_UNLESS (solution->status != HS_PLAN_OPTIMAL || troubles == 0);
  FAULT_UNLESS (solution->status != HS_PLAN_OPTIMAL || solution->proven);
  FAULT_UNLESS (solution->status != HS_PLAN_IMPOSSIBLE || troubles > 0);
  FAULT_UNLESS (!solution->proven || solution->bound_cents == solution->cost_cents);
  return NULL;
}

static const HsVan *
van_of (const HsProblem *problem, const HsSolution *solution, guint route)
{
  return hs_problem_get_van (problem, hs_solution_get_route (solution, route)->van);
}

char *
answer_fault (const HsProblem *problem, const HsSolution *solution)
{
  g_autoptr (GArray) times_served = g_array_new (FALSE, TRUE, sizeof (guint));
  Check check = { problem, solution, times_served, 0, HS_PLAN_NO_LIMIT };
  const char *fault = NULL;

  g_array_set_size (times_served, problem->calls->len);
  for (guint r = 0; fault == NULL && r < solution->routes->len; r++)
    {
      if (r > 0 && strcmp (van_of (problem, solution, r)->id, van_of (problem, solution, r - 1)->id) <= 0)
        fault = "a van has two routes, or they are out of order";
      else
        fault = check_route (&check, hs_solution_get_route (solution, r));
    }
  if (fault == NULL)
    fault = check_lists (&check);
  if (fault == NULL)
    fault = check_sums (&check);
  return g_strdup (fault);
}
