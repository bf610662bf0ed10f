// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Random small days against trying everything. */

#include "hs-solve.h"
#include "answer-check.h"
#include "solve-trial.h"

#include <stdlib.h>

typedef struct
{
  const char *name;
  guint days;
  guint calls;
  guint counters;
  guint vans;
  gint32 step_minutes;
  guint window_minutes;
  guint break_percent;
  gboolean metric;
} Kind;

static gint32
pick (GRand *rand, gint32 from, gint32 to)
{
  return g_rand_int_range (rand, from, to + 1);
}

static void
fill_tables (HsProblem *problem, GRand *rand, const Kind *kind)
{
  guint n = problem->n_places;
  gint32 x[16];
  gint32 y[16];

  for (guint i = 0; i < n; i++)
    {
      x[i] = pick (rand, 0, 25);
      y[i] = pick (rand, 0, 25);
    }
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        gint32 minutes = kind->metric ? ABS (x[i] - x[j]) + ABS (y[i] - y[j]) + (i == j ? 2 : 0) : pick (rand, 0, 40);

        hs_problem_set_leg (problem, i, j, minutes * 60, kind->metric ? minutes * 500 : pick (rand, 0, 200) * 100);
      }
}

static void
add_windows (GArray *windows, GRand *rand, const Kind *kind)
{
  guint n = pick (rand, 0, 5) == 0 ? 2 : 1;

  if (pick (rand, 0, 6) == 0)
    return;
  for (guint i = 0; i < n; i++)
    {
      gint32 from = pick (rand, 7 * 12, 16 * 12) * 300;
      HsDaySpan span = { from, from + pick (rand, 0, (gint32) kind->window_minutes / 5) * 300 };

      g_array_append_val (windows, span);
    }
}

static void
add_vans (HsProblem *problem, GRand *rand, const Kind *kind, guint n_parts)
{
  for (guint v = 0; v < kind->vans; v++)
    {
      g_autofree char *id = g_strdup_printf ("van %u", v);
      HsVan *van = hs_problem_add_van (problem, id);

      van->start = (guint) pick (rand, 0, (gint32) problem->n_places - 1);
      van->end = pick (rand, 0, 2) == 0 ? (guint) pick (rand, 0, (gint32) problem->n_places - 1) : van->start;
      van->leave_from_seconds = pick (rand, 7 * 4, 9 * 4) * 900;
      van->home_by_seconds = pick (rand, 13 * 4, 19 * 4) * 900;
      van->leave_to_seconds = pick (rand, 0, 1) == 0 ? van->home_by_seconds : van->leave_from_seconds + 3600;
      for (gint32 k = pick (rand, 0, 2); k > 0; k--)
        {
          guint part = (guint) pick (rand, 0, (gint32) n_parts - 1);

          g_array_append_val (van->carries, part);
        }
      if (pick (rand, 1, 100) > (gint32) kind->break_percent)
        continue;
      van->break_seconds = pick (rand, 2, 9) * 300;
      van->break_span.from_seconds = pick (rand, 10 * 12, 13 * 12) * 300;
      van->break_span.to_seconds = van->break_span.from_seconds + van->break_seconds + pick (rand, 0, 18) * 300;
    }
}

static void
add_calls (HsProblem *problem, GRand *rand, const Kind *kind, guint n_parts)
{
  for (guint i = 0; i < kind->calls; i++)
    {
      g_autofree char *id = g_strdup_printf ("call %u", i);
      HsCall *call = hs_problem_add_call (problem, id, (guint) pick (rand, 0, (gint32) problem->n_places - 1),
                                          pick (rand, 1, 18) * 300);

      add_windows (call->windows, rand, kind);
      for (gint32 k = pick (rand, 0, 5) - 3; k > 0; k--)
        {
          guint part = (guint) pick (rand, 0, (gint32) n_parts - 1);

          g_array_append_val (call->needs, part);
        }
      if (kind->vans > 1 && pick (rand, 0, 4) == 0)
        call->van = pick (rand, 0, (gint32) kind->vans - 1);
    }
}

static void
add_counters (HsProblem *problem, GRand *rand, const Kind *kind, guint n_parts)
{
  for (guint c = 0; c < kind->counters; c++)
    {
      g_autofree char *id = g_strdup_printf ("counter %u", c);
      HsCounter *counter = hs_problem_add_counter (
          problem, id, (guint) pick (rand, 0, (gint32) problem->n_places - 1), pick (rand, 1, 3) * 300);
      gint32 noon = pick (rand, 11 * 4, 13 * 4) * 900;
      HsDaySpan morning = { pick (rand, 7 * 4, 9 * 4) * 900, noon };
      HsDaySpan evening = { noon + pick (rand, 0, 6) * 900, pick (rand, 15 * 4, 18 * 4) * 900 };

      g_array_append_val (counter->hours, morning);
      g_array_append_val (counter->hours, evening);
      for (guint part = 0; part < n_parts; part++)
        if (pick (rand, 0, 3) > 0)
          hs_counter_sell (counter, part, pick (rand, 10, 60) * 100);
    }
}

static HsProblem *
new_day (GRand *rand, const Kind *kind)
{
  HsProblem *problem = hs_problem_new ((guint) pick (rand, 3, 6));
  guint n_parts = 3;

  for (guint part = 0; part < n_parts; part++)
    {
      g_autofree char *name = g_strdup_printf ("part %u", part);

      hs_problem_part (problem, name);
    }
  problem->minute_cents = pick (rand, 0, 8) == 0 ? 0 : 160;
  problem->mile_cents = pick (rand, 0, 8) == 0 ? 0 : 42;
  problem->spare_seconds = pick (rand, 0, 1) * pick (rand, 0, 12) * 300;
  fill_tables (problem, rand, kind);
  add_vans (problem, rand, kind, n_parts);
  add_calls (problem, rand, kind, n_parts);
  add_counters (problem, rand, kind, n_parts);
  return problem;
}

static Trial
trial_of (const HsProblem *problem, const HsSolution *solution)
{
  Trial trial = { 0, solution->unserved->len, 0, MIN (solution->spare_seconds, problem->spare_seconds),
                  solution->cost_units, 0, 0 };

  trial.missed = solution->unserved->len + solution->broken->len;
  for (guint i = 0; i < solution->broken->len; i++)
    trial.late += hs_solution_get_broken (solution, i)->late_seconds;
  for (guint i = 0; i < solution->routes->len; i++)
    {
      trial.homes += hs_solution_get_route (solution, i)->home_seconds;
      trial.leaves += hs_solution_get_route (solution, i)->leave_seconds;
    }
  return trial;
}

static void
assert_best (const HsProblem *problem, guint32 seed)
{
  HsSolveHow how = { NULL, NULL, 1, FALSE };
  g_autoptr (HsSolution) solution = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *fault = NULL;
  Trial best = trial_best (problem);
  Trial found;

  g_assert_true (hs_solve (problem, &how, &solution, &error));
  g_assert_no_error (error);
  fault = answer_fault (problem, solution);
  g_assert_cmpstr (fault, ==, NULL);
  found = trial_of (problem, solution);
  if (trial_compare (&found, &best) != 0)
    g_test_message ("seed %u: missed %u/%u dropped %u/%u late %d/%d spare %d/%d units %" G_GINT64_FORMAT
                    "/%" G_GINT64_FORMAT " homes %d/%d leaves %d/%d",
                    seed, found.missed, best.missed, found.dropped, best.dropped, (int) found.late, (int) best.late,
                    (int) found.spare, (int) best.spare, found.units, best.units, (int) found.homes,
                    (int) best.homes, (int) found.leaves, (int) best.leaves);
  g_assert_cmpint (trial_compare (&found, &best), ==, 0);
  g_assert_true (solution->proven);
  g_assert_cmpint (solution->status, ==, best.missed > 0 ? HS_PLAN_IMPOSSIBLE : HS_PLAN_OPTIMAL);
  g_assert_cmpint (solution->bound_cents, ==, solution->cost_cents);
}

static const Kind kinds[] = {
  { "calls-alone", 300, 5, 0, 1, 5, 180, 0, TRUE },
  { "seven-calls", 12, 7, 0, 1, 5, 240, 0, TRUE },
  { "narrow", 300, 5, 1, 1, 5, 60, 0, TRUE },
  { "wide", 200, 5, 1, 1, 5, 300, 0, TRUE },
  { "counters", 200, 4, 2, 1, 5, 240, 0, TRUE },
  { "three-counters", 60, 3, 3, 1, 5, 240, 0, TRUE },
  { "no-metric", 200, 4, 2, 1, 5, 240, 0, FALSE },
  { "breaks", 300, 4, 1, 1, 5, 240, 80, TRUE },
  { "two-vans", 200, 4, 1, 2, 5, 120, 30, TRUE },
  { "two-vans-no-metric", 100, 4, 1, 2, 5, 120, 30, FALSE },
  { "three-vans", 100, 4, 0, 3, 5, 90, 20, TRUE },
};

static void
test_kind (gconstpointer data)
{
  const Kind *kind = data;
  const char *wish = g_getenv ("HS_TRIAL_DAYS");
  guint days = wish != NULL ? (guint) atoi (wish) : kind->days;

  for (guint32 seed = 0; seed < days; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = new_day (rand, kind);

      assert_best (problem, seed);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve/trial/%s", kinds[i].name);

      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  return g_test_run ();
}
