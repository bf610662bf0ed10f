// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * A shared day in instants and words: each van's route, which calls change vans, what becomes of their parts, what is
 * kept and what is not, against the plans that stand. Refuses nothing.
 */

#include "hs-share-private.h"

#include "hs-say.h"

static void
stop_free (gpointer data)
{
  HsShareStop *stop = data;

  g_free (stop->id);
  g_free (stop->row_id);
  g_free (stop->area);
  g_free (stop->words);
  g_free (stop->from_van);
  g_free (stop);
}

static void
route_free (gpointer data)
{
  HsShareRoute *route = data;

  g_free (route->van_id);
  g_free (route->van);
  g_ptr_array_unref (route->stops);
  g_free (route);
}

void
hs_share_move_free (gpointer data)
{
  HsShareMove *move = data;

  if (move == NULL)
    return;
  g_free (move->job_id);
  g_free (move->number);
  g_free (move->from_id);
  g_free (move->from);
  g_free (move->to_id);
  g_free (move->to);
  g_free (move);
}

void
hs_share_plan_free (HsSharePlan *plan)
{
  if (plan == NULL)
    return;
  g_ptr_array_unref (plan->routes);
  g_ptr_array_unref (plan->moves);
  g_ptr_array_unref (plan->parts);
  g_ptr_array_unref (plan->stays);
  g_ptr_array_unref (plan->broken);
  g_ptr_array_unref (plan->mended);
  g_ptr_array_unref (plan->worse);
  g_ptr_array_unref (plan->left_out);
  g_free (plan->digest);
  g_free (plan);
}

static HsSharePlan *
plan_new (const HsShareCase *of)
{
  HsSharePlan *plan = g_new0 (HsSharePlan, 1);

  plan->day = of->facts->day;
  plan->standing = of->standing;
  plan->digest = g_strdup (of->digest);
  plan->routes = g_ptr_array_new_with_free_func (route_free);
  plan->moves = g_ptr_array_new_with_free_func (hs_share_move_free);
  plan->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_share_note_free);
  plan->stays = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_share_note_free);
  plan->broken = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  plan->mended = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  plan->worse = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  plan->left_out = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  return plan;
}

static const HsShareVan *
get_van (const HsShareCase *of, guint v)
{
  return g_ptr_array_index (of->vans, v);
}

/* Behind the calls of the day come those with which vans begin that are under way. */
static gboolean
is_of_day (const HsShareCase *of, guint call)
{
  return call < of->problem->calls->len;
}

/* Whose route is whose --------------------------------------------------------------------------------------------- */

static const HsRoute *
find_route (const HsSolution *solution, guint v)
{
  for (guint i = 0; i < solution->routes->len; i++)
    if (hs_solution_get_route (solution, i)->van == v)
      return hs_solution_get_route (solution, i);
  return NULL;
}

static gboolean
carries (const HsVan *van, guint part)
{
  for (guint i = 0; i < van->carries->len; i++)
    if (g_array_index (van->carries, guint, i) == part)
      return TRUE;
  return FALSE;
}

/* Whether it is the same for @route which of two vans drives it. */
static gboolean
is_indifferent (const HsShareCase *of, const HsRoute *route, const HsVan *a, const HsVan *b)
{
  for (guint k = 0; route != NULL && k < route->stops->len; k++)
    {
      const HsRouteStop *stop = &g_array_index (route->stops, HsRouteStop, k);
      const HsCall *call;

      if (stop->kind != HS_ROUTE_CALL)
        continue;
      call = hs_problem_get_call (of->problem->problem, stop->index);
      if (call->van != HS_PROBLEM_ANY_VAN)
        return FALSE;
      for (guint n = 0; n < call->needs->len; n++)
        if (carries (a, g_array_index (call->needs, guint, n)) || carries (b, g_array_index (call->needs, guint, n)))
          return FALSE;
    }
  return TRUE;
}

static gboolean
are_alike (const HsVan *a, const HsVan *b)
{
  return a->start == b->start && a->end == b->end && a->leave_from_seconds == b->leave_from_seconds
         && a->leave_to_seconds == b->leave_to_seconds && a->home_by_seconds == b->home_by_seconds
         && a->break_seconds == b->break_seconds && a->break_span.from_seconds == b->break_span.from_seconds
         && a->break_span.to_seconds == b->break_span.to_seconds;
}

/* How many calls of @route change vans if @v drives it. */
static int
count_moves (const HsShareCase *of, const HsRoute *route, guint v)
{
  int n = 0;

  for (guint k = 0; route != NULL && k < route->stops->len; k++)
    {
      const HsRouteStop *stop = &g_array_index (route->stops, HsRouteStop, k);

      n += stop->kind == HS_ROUTE_CALL && is_of_day (of, stop->index)
           && g_array_index (of->van_of, guint, stop->index) != v;
    }
  return n;
}

/* Vans that are alike may change routes; it is done as long as fewer calls then change vans. */
static void
match_routes (const HsShareCase *of, const HsSolution *solution, const HsRoute **routes)
{
  const HsProblem *problem = of->problem->problem;
  guint n = of->vans->len;

  for (guint v = 0; v < n; v++)
    routes[v] = find_route (solution, v);
  for (guint k = 0; k < n * n * n; k++)
    {
      guint v = k / n % n;
      guint w = k % n;
      const HsVan *a = hs_problem_get_van (problem, v);
      const HsVan *b = hs_problem_get_van (problem, w);
      const HsRoute *swap = routes[v];

      if (v >= w || !are_alike (a, b) || !is_indifferent (of, routes[v], a, b)
          || !is_indifferent (of, routes[w], a, b)
          || count_moves (of, routes[v], w) + count_moves (of, routes[w], v)
                 >= count_moves (of, routes[v], v) + count_moves (of, routes[w], w))
        continue;
      routes[v] = routes[w];
      routes[w] = swap;
    }
}

/* Parts ------------------------------------------------------------------------------------------------------------ */

static void G_GNUC_PRINTF (3, 4)
add_part (HsSharePlan *plan, const char *number, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_ptr_array_add (plan->parts, hs_share_note_new (number, what));
}

/* The counter at which @call gets @part, or %HS_SHARE_STOCK. */
static guint
bought_at (const HsSolution *solution, guint call, guint part)
{
  for (guint i = 0; i < solution->bought->len; i++)
    {
      const HsBought *bought = &g_array_index (solution->bought, HsBought, i);

      if (bought->call == call && bought->part == part)
        return bought->counter;
    }
  return HS_SHARE_STOCK;
}

static char *
dup_source (const HsShareCase *of, guint source, guint v)
{
  if (source == HS_SHARE_STOCK)
    return g_strdup_printf ("what van %s has", get_van (of, v)->letter);
  if (source == HS_SHARE_NOWHERE)
    return g_strdup ("nowhere");
  return g_strdup (hs_day_problem_counter_of (of->problem, source)->name);
}

static const char *
reserved_word (const HsDayNeed *need)
{
  if (g_str_equal (need->state, "laid_aside"))
    return "laid aside";
  return g_str_equal (need->state, "asked_for") ? "asked for" : NULL;
}

/* A part that the owner named a counter for. */
static void
note_named (HsSharePlan *plan, const HsShareCase *of, const HsDayNeed *need, const char *number, guint to)
{
  const HsDayCounter *counter = hs_day_facts_find_counter (of->facts, need->supplier_id);
  const char *reserved = reserved_word (need);
  g_autofree char *part = hs_say_part (need->part);

  if (reserved != NULL && counter != NULL)
    add_part (plan, number, "%s, %s at %s: van %s has to pick it up", part, reserved, counter->name,
              get_van (of, to)->letter);
}

static void
note_open (HsSharePlan *plan, const HsShareCase *of, const HsSolution *solution, guint call, guint part, guint to)
{
  guint index = hs_day_problem_find_need (of->problem, part, call);
  guint from = g_array_index (of->van_of, guint, call);
  const char *number = hs_day_problem_call_of (of->problem, call)->number;
  g_autofree char *was = NULL, *is = NULL, *name = NULL;
  guint source;
  const HsDayNeed *need;

  if (index == HS_DAY_NO_NEED)
    return;
  need = g_ptr_array_index (of->facts->needs, index);
  source = bought_at (solution, call, part);
  was = dup_source (of, g_array_index (of->was, guint, index), from);
  is = dup_source (of, source, to);
  name = hs_say_part (need->part);
  if (reserved_word (need) != NULL)
    add_part (plan, number, "%s, %s: van %s gets it from %s", name, reserved_word (need), get_van (of, to)->letter, is);
  else if (!g_str_equal (was, is))
    add_part (plan, number, "%s: from %s instead of %s", name, is, was);
}

static void
note_parts (HsSharePlan *plan, const HsShareCase *of, const HsSolution *solution, guint index, guint to)
{
  const HsCall *call = hs_problem_get_call (of->problem->problem, index);
  const HsDayCall *known = hs_day_problem_call_of (of->problem, index);

  for (guint k = 0; k < call->needs->len; k++)
    note_open (plan, of, solution, index, g_array_index (call->needs, guint, k), to);
  for (guint i = 0; i < of->facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (of->facts->needs, i);

      if (g_ptr_array_index (of->facts->calls, need->call) == known && need->source == HS_DAY_SOURCE_COUNTER
          && need->offers->len == 0)
        note_named (plan, of, need, known->number, to);
    }
}

/* Routes ----------------------------------------------------------------------------------------------------------- */

static void
add_move (HsSharePlan *plan, const HsShareCase *of, const HsDayCall *call, guint from, guint to)
{
  HsShareMove *move = g_new0 (HsShareMove, 1);

  move->job_id = g_strdup (call->job_id);
  move->number = g_strdup (call->number);
  move->from_id = g_strdup (get_van (of, from)->id);
  move->from = g_strdup (get_van (of, from)->letter);
  move->to_id = g_strdup (get_van (of, to)->id);
  move->to = g_strdup (get_van (of, to)->letter);
  g_ptr_array_add (plan->moves, move);
}

static void
describe_call (HsSharePlan *plan, const HsShareCase *of, const HsSolution *solution, HsShareStop *stop, guint index,
               guint v)
{
  const HsDayCall *call = hs_day_problem_call_of (of->problem, index);
  guint from = g_array_index (of->van_of, guint, index);

  stop->id = g_strdup (call->number);
  stop->row_id = g_strdup (call->job_id);
  stop->area = g_strdup (call->area);
  stop->words = g_strdup (call->words);
  stop->window_from = call->window_from;
  stop->window_to = call->window_to;
  if (call->window_to != HS_INSTANT_NONE)
    {
      stop->spare_seconds = call->window_to - stop->start;
      plan->total.spare_seconds = MIN (plan->total.spare_seconds, stop->spare_seconds);
    }
  if (from == v)
    return;
  stop->from_van = g_strdup (get_van (of, from)->letter);
  add_move (plan, of, call, from, v);
  note_parts (plan, of, solution, index, v);
}

static void
add_stop (HsSharePlan *plan, const HsShareCase *of, const HsSolution *solution, HsShareRoute *route,
          const HsRouteStop *timed, guint v)
{
  HsInstant begin = of->facts->starts_at;
  HsShareStop *stop;

  if (timed->kind == HS_ROUTE_CALL && !is_of_day (of, timed->index))
    return;
  stop = g_new0 (HsShareStop, 1);
  stop->arrive = begin + timed->arrive_seconds;
  stop->start = begin + timed->start_seconds;
  stop->depart = begin + timed->depart_seconds;
  stop->window_from = stop->window_to = HS_INSTANT_NONE;
  stop->spare_seconds = -1;
  g_ptr_array_add (route->stops, stop);
  if (timed->kind == HS_ROUTE_BREAK)
    {
      stop->kind = HS_SHARE_BREAK;
      return;
    }
  if (timed->kind == HS_ROUTE_CALL)
    describe_call (plan, of, solution, stop, timed->index, v);
  else
    {
      const HsDayCounter *counter = hs_day_problem_counter_of (of->problem, timed->index);

      stop->kind = HS_SHARE_COUNTER;
      stop->id = g_strdup (counter->name);
      stop->row_id = g_strdup (counter->supplier_id);
      stop->area = g_strdup (counter->area);
    }
  stop->locked = hs_share_case_is_locked (get_van (of, v), stop->row_id);
}

static void
add_route (HsSharePlan *plan, const HsShareCase *of, const HsSolution *solution, const HsRoute *timed, guint v)
{
  HsShareRoute *route = g_new0 (HsShareRoute, 1);

  route->van_id = g_strdup (get_van (of, v)->id);
  route->van = g_strdup (get_van (of, v)->letter);
  route->begun = get_van (of, v)->begun;
  route->leave = route->home = HS_INSTANT_NONE;
  route->stops = g_ptr_array_new_with_free_func (stop_free);
  g_ptr_array_add (plan->routes, route);
  if (timed == NULL)
    return;
  for (guint k = 0; k < timed->stops->len; k++)
    add_stop (plan, of, solution, route, &g_array_index (timed->stops, HsRouteStop, k), v);
  route->leave = of->facts->starts_at + timed->leave_seconds;
  route->home = of->facts->starts_at + timed->home_seconds;
  route->drive_seconds = timed->drive_seconds;
  route->millimiles = timed->drive_millimiles;
  plan->total.seconds += timed->home_seconds - timed->leave_seconds;
  plan->total.millimiles += timed->drive_millimiles;
}

/* Promises --------------------------------------------------------------------------------------------------------- */

static char *
dup_lateness (gint32 late)
{
  if (late == HS_SHARE_UNSERVED)
    return g_strdup ("served by nobody");
  return late > 0 ? g_strdup_printf ("%d min late", (late + 59) / 60) : g_strdup ("kept");
}

static void
add_broken (GPtrArray *to, const HsShareCase *of, const HsTrouble *trouble, gint64 late_seconds)
{
  g_autofree char *late = dup_lateness (late_seconds < 0 ? HS_SHARE_UNSERVED : (gint32) late_seconds);

  g_ptr_array_add (to, hs_broken_promise_new (hs_problem_get_call (of->problem->problem, trouble->call)->id,
                                              late_seconds, trouble->why != NULL ? trouble->why : late));
}

/* How late @solution is at each call. */
static gint32 *
lateness (HsSharePlan *plan, const HsShareCase *of, const HsSolution *solution)
{
  gint32 *late = g_new0 (gint32, of->problem->problem->calls->len + 1);

  for (guint i = 0; i < solution->broken->len; i++)
    {
      const HsTrouble *trouble = hs_solution_get_broken (solution, i);

      late[trouble->call] = MAX (1, trouble->late_seconds);
      add_broken (plan->broken, of, trouble, late[trouble->call]);
    }
  for (guint i = 0; i < solution->unserved->len; i++)
    {
      const HsTrouble *trouble = hs_solution_get_unserved (solution, i);

      late[trouble->call] = HS_SHARE_UNSERVED;
      add_broken (plan->broken, of, trouble, -1);
    }
  return late;
}

static void
compare_promises (HsSharePlan *plan, const HsShareCase *of, const gint32 *late)
{
  for (guint i = 0; i < of->problem->calls->len; i++)
    {
      gint32 before = g_array_index (of->late, gint32, i);
      g_autofree char *was = dup_lateness (before);
      g_autofree char *is = dup_lateness (late[i]);
      g_autofree char *why = g_strdup_printf ("%s instead of %s", is, was);
      gint64 seconds = late[i] == HS_SHARE_UNSERVED ? -1 : late[i];

      if (late[i] != before)
        g_ptr_array_add (late[i] < before ? plan->mended : plan->worse,
                         hs_broken_promise_new (hs_day_problem_call_of (of->problem, i)->number, seconds, why));
    }
}

HsSharePlan *
hs_share_describe (const HsShareCase *of, const HsSolution *solution)
{
  HsSharePlan *plan = plan_new (of);
  g_autofree gint32 *late = lateness (plan, of, solution);
  const HsRoute *routes[HS_PROBLEM_MAX_VANS];

  plan->status = solution->status;
  plan->proven = solution->proven;
  plan->bound_cents = solution->bound_cents;
  plan->states = solution->states;
  plan->total.cents = solution->cost_cents;
  plan->total.spare_seconds = HS_PLAN_NO_LIMIT;
  match_routes (of, solution, routes);
  for (guint v = 0; v < of->vans->len; v++)
    add_route (plan, of, solution, routes[v], v);
  compare_promises (plan, of, late);
  for (guint i = 0; i < of->stays->len; i++)
    {
      const HsShareNote *note = g_ptr_array_index (of->stays, i);

      g_ptr_array_add (plan->stays, hs_share_note_new (note->number, note->what));
    }
  for (guint i = 0; i < of->build->left_out->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (of->build->left_out, i);

      g_ptr_array_add (plan->left_out, hs_broken_promise_new (broken->id, broken->late_seconds, broken->why));
    }
  return plan;
}
