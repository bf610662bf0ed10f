// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `solve FILE`: a day of calls, counters and vans. */

#include "hs-solve-out.h"

#include "hs-day-file.h"
#include "hs-decimal.h"
#include "hs-solve.h"

#include <glib/gi18n.h>

/* Of the search for trips: about half of the time. */
#define WORK_A_SECOND 4e8

static char *
clock_text (gint32 seconds)
{
  if (seconds % 60 == 0)
    return g_strdup_printf ("%02d:%02d", seconds / 3600, seconds / 60 % 60);
  return g_strdup_printf ("%02d:%02d:%02d", seconds / 3600, seconds / 60 % 60, seconds % 60);
}

/* The file names no currency. */
static char *
cents_text (gint64 cents)
{
  return hs_decimal_format (cents, 2);
}

static void
write_clock (HsJsonOut *out, const char *name, gint32 seconds)
{
  g_autofree char *text = clock_text (seconds);

  hs_json_out_string (out, name, text);
}

static const char *
stop_id (const HsProblem *problem, const HsRouteStop *stop)
{
  if (stop->kind == HS_ROUTE_BREAK)
    return "break";
  if (stop->kind == HS_ROUTE_COUNTER)
    return hs_problem_get_counter (problem, stop->index)->id;
  return hs_problem_get_call (problem, stop->index)->id;
}

static void
write_stop (HsJsonOut *out, const HsProblem *problem, const HsRouteStop *stop)
{
  static const char *const kinds[] = {
    [HS_ROUTE_CALL] = "call",
    [HS_ROUTE_COUNTER] = "counter",
    [HS_ROUTE_BREAK] = "break",
  };

  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "kind", kinds[stop->kind]);
  hs_json_out_string (out, "id", stop_id (problem, stop));
  write_clock (out, "arrive", stop->arrive_seconds);
  write_clock (out, "start", stop->start_seconds);
  write_clock (out, "depart", stop->depart_seconds);
  hs_cli_json_minutes (out, "slack_minutes", stop->slack_seconds);
  hs_json_out_end_object (out);
}

static void
write_route (HsJsonOut *out, const HsProblem *problem, const HsRoute *route)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "van", hs_problem_get_van (problem, route->van)->id);
  write_clock (out, "leave", route->leave_seconds);
  write_clock (out, "home", route->home_seconds);
  hs_json_out_decimal (out, "miles", route->drive_millimiles, 3);
  hs_cli_json_minutes (out, "drive_minutes", route->drive_seconds);
  hs_cli_json_minutes (out, "wait_minutes", route->wait_seconds);
  hs_json_out_begin_array (out, "stops");
  for (guint i = 0; i < route->stops->len; i++)
    write_stop (out, problem, &g_array_index (route->stops, HsRouteStop, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static void
write_bought (HsJsonOut *out, const HsProblem *problem, const HsBought *bought)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "part", g_ptr_array_index (problem->parts, bought->part));
  hs_json_out_string (out, "counter", hs_problem_get_counter (problem, bought->counter)->id);
  hs_json_out_string (out, "van", hs_problem_get_van (problem, bought->van)->id);
  hs_json_out_string (out, "call", hs_problem_get_call (problem, bought->call)->id);
  hs_json_out_integer (out, "cents", bought->cents);
  hs_json_out_end_object (out);
}

static void
write_trouble (HsJsonOut *out, const HsProblem *problem, const HsTrouble *trouble, gboolean late)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "id", hs_problem_get_call (problem, trouble->call)->id);
  if (late)
    hs_cli_json_minutes (out, "late_minutes", trouble->late_seconds);
  hs_json_out_string (out, "why", trouble->why);
  hs_json_out_begin_array (out, "conflicts");
  for (guint i = 0; i < trouble->conflicts->len; i++)
    hs_json_out_string (out, NULL, hs_problem_get_call (problem, g_array_index (trouble->conflicts, guint, i))->id);
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "mends");
  for (guint i = 0; i < trouble->mends->len; i++)
    hs_json_out_string (out, NULL, g_ptr_array_index (trouble->mends, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static void
write_lists (HsJsonOut *out, const HsProblem *problem, const HsSolution *solution)
{
  hs_json_out_begin_array (out, "routes");
  for (guint i = 0; i < solution->routes->len; i++)
    write_route (out, problem, hs_solution_get_route (solution, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "bought");
  for (guint i = 0; i < solution->bought->len; i++)
    write_bought (out, problem, &g_array_index (solution->bought, HsBought, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "unserved");
  for (guint i = 0; i < solution->unserved->len; i++)
    write_trouble (out, problem, hs_solution_get_unserved (solution, i), FALSE);
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "broken");
  for (guint i = 0; i < solution->broken->len; i++)
    write_trouble (out, problem, hs_solution_get_broken (solution, i), TRUE);
  hs_json_out_end_array (out);
}

static void
print_json (const HsProblem *problem, const HsSolution *solution, double seconds)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();

  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "status", hs_solve_status (solution->status));
  hs_json_out_integer (out, "cost_cents", solution->cost_cents);
  hs_json_out_integer (out, "bound_cents", solution->bound_cents);
  hs_json_out_decimal (out, "seconds", (gint64) (seconds * 1e6), 6);
  hs_json_out_integer (out, "states", (gint64) solution->states);
  write_lists (out, problem, solution);
  if (solution->spare_seconds == HS_PLAN_NO_LIMIT)
    hs_json_out_null (out, "spare_minutes");
  else
    hs_cli_json_minutes (out, "spare_minutes", solution->spare_seconds);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_route (const HsProblem *problem, const HsRoute *route)
{
  g_autofree char *van = hs_cli_one_line (hs_problem_get_van (problem, route->van)->id);
  g_autofree char *leave = clock_text (route->leave_seconds);
  g_autofree char *home = clock_text (route->home_seconds);
  g_autofree char *miles = hs_cli_miles_text (route->drive_millimiles);

  hs_cli_print (_("Van %s: leave %s, home %s, %s mi\n"), van, leave, home, miles);
  for (guint i = 0; i < route->stops->len; i++)
    {
      const HsRouteStop *stop = &g_array_index (route->stops, HsRouteStop, i);
      g_autofree char *id = hs_cli_one_line (stop_id (problem, stop));
      g_autofree char *start = clock_text (stop->start_seconds);
      g_autofree char *depart = clock_text (stop->depart_seconds);

      hs_cli_print ("  %s–%s  %s\n", start, depart, id);
    }
}

static void
print_bought (const HsProblem *problem, const HsBought *bought)
{
  g_autofree char *part = hs_cli_one_line (g_ptr_array_index (problem->parts, bought->part));
  g_autofree char *call = hs_cli_one_line (hs_problem_get_call (problem, bought->call)->id);
  g_autofree char *counter = hs_cli_one_line (hs_problem_get_counter (problem, bought->counter)->id);
  g_autofree char *price = cents_text (bought->cents);

  hs_cli_print (_("  Buy %s for %s at %s: %s\n"), part, call, counter, price);
}

static void
print_trouble (const HsProblem *problem, const HsTrouble *trouble)
{
  g_autofree char *id = hs_cli_one_line (hs_problem_get_call (problem, trouble->call)->id);
  g_autofree char *why = hs_cli_one_line (trouble->why);

  if (trouble->late_seconds > 0)
    hs_cli_print (_("  %s: %d min late: %s\n"), id, (trouble->late_seconds + 59) / 60, why);
  else
    hs_cli_print (_("  %s: not served: %s\n"), id, why);
  for (guint i = 0; i < trouble->mends->len; i++)
    {
      g_autofree char *mend = hs_cli_one_line (g_ptr_array_index (trouble->mends, i));

      hs_cli_print (_("    would mend it: %s\n"), mend);
    }
}

static void
print_latest (const HsProblem *problem, const HsSolution *solution)
{
  const HsTrouble *latest = NULL;
  g_autofree char *id = NULL;

  for (guint i = 0; i < solution->broken->len; i++)
    if (latest == NULL || hs_solution_get_broken (solution, i)->late_seconds > latest->late_seconds)
      latest = hs_solution_get_broken (solution, i);
  if (latest == NULL)
    return;
  id = hs_cli_one_line (hs_problem_get_call (problem, latest->call)->id);
  hs_cli_print (_("Latest: %d min late at %s\n"), (latest->late_seconds + 59) / 60, id);
}

static void
print_spare (const HsProblem *problem, const HsSolution *solution)
{
  if (solution->spare_seconds < 0)
    print_latest (problem, solution);
  else if (solution->spare_seconds != HS_PLAN_NO_LIMIT)
    hs_cli_print (_("Least spare time: %d min\n"), (int) (solution->spare_seconds / 60));
}

static void
print_text (const HsProblem *problem, const HsSolution *solution, double seconds)
{
  g_autofree char *cost = cents_text (solution->cost_cents);
  g_autofree char *bound = cents_text (solution->bound_cents);

  hs_cli_print (_("%s: %s, at least %s; %.3f s\n"), hs_solve_status_words (solution->status), cost, bound, seconds);
  print_spare (problem, solution);
  for (guint i = 0; i < solution->routes->len; i++)
    print_route (problem, hs_solution_get_route (solution, i));
  for (guint i = 0; i < solution->bought->len; i++)
    print_bought (problem, &g_array_index (solution->bought, HsBought, i));
  for (guint i = 0; i < solution->broken->len; i++)
    print_trouble (problem, hs_solution_get_broken (solution, i));
  for (guint i = 0; i < solution->unserved->len; i++)
    print_trouble (problem, hs_solution_get_unserved (solution, i));
}

/* A tenth of the time is for reasons. */
static gboolean
searched_enough (gpointer data)
{
  const HsSolveJob *job = data;

  return hs_solve_job_gives_up (data) || hs_solve_job_seconds (job) >= job->limit_seconds * 0.9;
}

gboolean
hs_solve_out_day (HsSolveJob *job, GError **error)
{
  HsSolveHow how = { hs_solve_job_gives_up, job, job->seed, TRUE, 0, searched_enough,
                     .max_work = (guint64) (job->limit_seconds * WORK_A_SECOND) };
  g_autoptr (HsProblem) problem = hs_day_file_parse (job->text, job->length, error);
  g_autoptr (HsSolution) solution = NULL;

  if (problem == NULL || !hs_solve (problem, &how, &solution, error))
    return FALSE;
  if (job->cli->json)
    print_json (problem, solution, hs_solve_job_seconds (job));
  else
    print_text (problem, solution, hs_solve_job_seconds (job));
  return TRUE;
}
