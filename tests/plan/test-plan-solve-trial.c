// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Random small days against trying everything. */

#include "hs-solve.h"
#include "answer-check.h"
#include "random-day.h"
#include "solve-trial.h"

#include <stdlib.h>

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

static const RandomKind kinds[] = {
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
  { "skills", 150, 4, 1, 2, 5, 240, 20, TRUE, TRUE },
  { "three-vans-skills", 60, 4, 0, 3, 5, 240, 20, FALSE, TRUE },
  { "nights", 150, 4, 2, 1, 5, 240, 50, TRUE, FALSE, TRUE },
  { "two-vans-nights", 100, 4, 1, 2, 5, 120, 50, FALSE, TRUE, TRUE },
};

static void
test_kind (gconstpointer data)
{
  const RandomKind *kind = data;
  const char *wish = g_getenv ("HS_TRIAL_DAYS");
  guint days = wish != NULL ? (guint) atoi (wish) : kind->days;

  for (guint32 seed = 0; seed < days; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = random_day (rand, kind);

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
