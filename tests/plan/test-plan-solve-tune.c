// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Prizes for the calls of one van: what they say a day costs at least, against going through all of it. */

#include "hs-solve-tune.h"

#include "hs-solve-outlook.h"
#include "plan-text-day.h"
#include "random-day.h"

#define PATIENT { NULL, NULL, 1000000, FALSE, FALSE, 0 }

static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;

static const RandomKind kinds[] = {
  { "calls-alone", 200, 5, 0, 1, 5, 480, 0, TRUE },
  { "counters", 50, 4, 2, 1, 5, 480, 0, TRUE },
  { "no-metric", 50, 4, 2, 1, 5, 480, 0, FALSE },
  { "breaks", 50, 4, 1, 1, 5, 480, 80, TRUE },
};

/* A day that can be kept, and what it costs. */
static gboolean
find_best (const HsSolveFrame *frame, HsScore *ret_best)
{
  HsExact exact = PATIENT;
  HsPath path;

  *ret_best = (HsScore) HS_SCORE_WORST;
  return hs_exact_run (&exact, frame, NULL, &strict, 0, ret_best, &path, NULL);
}

static void
assert_floor (const HsSolveFrame *frame, gint64 known, gint64 best, gint64 guess, gint64 *ret_floor)
{
  HsExact exact = PATIENT;
  gint64 prizes[HS_PROBLEM_MAX_CALLS];
  guint visits[HS_PROBLEM_MAX_CALLS];
  g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, 0, NULL, 0, 800000);
  gint64 sum;

  for (guint i = 0; i < frame->n_calls; i++)
    prizes[i] = guess;
  *ret_floor = 17;
  g_assert_true (hs_solve_tune (&exact, frame, known, ret_floor, prizes));
  g_assert_cmpint (*ret_floor, <=, best);
  g_assert_cmpint (*ret_floor, >=, 17);
  /* It is what the prizes say. */
  g_assert_true (hs_solve_outlook_fill (outlook, &exact, prizes));
  sum = hs_solve_outlook_root (outlook, visits);
  for (guint i = 0; i < frame->n_calls; i++)
    sum += prizes[i];
  g_assert_cmpint (*ret_floor, ==, MAX (17, MIN (sum, known)));
}

/* With a closer look the search finds the same, down to the last tie, in no more states. */
static void
assert_same_best (const HsSolveFrame *frame, const HsScore *best)
{
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
  HsExact exact = PATIENT;
  HsScore scores[] = { *best, *best };
  gint64 prizes[HS_PROBLEM_MAX_CALLS] = { 0 };
  guint64 states[2];
  gint64 floor = 0;
  HsPath path;

  g_assert_cmpint (hs_solve_bound_outlook (bound, 0, 0, 0, 0, 0, 0), ==, 0);
  for (guint i = 0; i < 2; i++)
    {
      exact.states = 0;
      scores[i].leaves--;
      g_assert_true (hs_exact_run (&exact, frame, bound, &strict, 0, &scores[i], &path, NULL));
      g_assert_cmpint (hs_score_compare (&scores[i], best), ==, 0);
      text_assert_score (frame, &scores[i], &path);
      states[i] = exact.states;
      g_assert_true (hs_solve_tune (&exact, frame, best->units, &floor, prizes));
      g_assert_true (hs_solve_bound_look (bound, &exact, prizes));
    }
  g_assert_cmpuint (states[1], <=, states[0]);
}

static void
test_kind (gconstpointer data)
{
  const RandomKind *kind = data;
  double share = 0;
  guint n_kept = 0;

  for (guint32 seed = 0; seed < kind->days; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = random_day (rand, kind);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      HsScore best;
      gint64 floor;

      if (!find_best (frame, &best) || best.units == 0)
        continue;
      assert_floor (frame, best.units, best.units, best.units / kind->calls / 2, &floor);
      share += (double) floor / (double) best.units;
      assert_floor (frame, best.units * 5 / 4, best.units, -30000 * HS_COST_UNITS, &floor);
      assert_same_best (frame, &best);
      n_kept++;
    }
  g_test_message ("%s: %u days, %.3f", kind->name, n_kept, share / n_kept);
  g_assert_cmpuint (n_kept, >, 10);
  g_assert_cmpfloat (share, >, 0.9 * n_kept);
}

/* Each call lies on the one way round: nothing is left open. */
static void
test_meets (void)
{
  g_autoptr (HsProblem) problem
      = text_day ("minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; cost 1 0; van a 0 0 08:00-17:00; "
                  "call A 1 10; call B 2 20; call D 3 30");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  gint64 floor;

  assert_floor (frame, 120 * HS_COST_UNITS, 120 * HS_COST_UNITS, 0, &floor);
  g_assert_cmpint (floor, >, 119 * HS_COST_UNITS);
}

/* Only one van's day is looked at. */
static void
test_several_vans (void)
{
  g_autoptr (HsProblem) problem = text_busy_day (5, 1);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
  const gint64 prizes[5] = { 0 };
  HsExact exact = PATIENT;

  g_assert_false (hs_solve_bound_look (bound, &exact, prizes));
  g_assert_cmpint (hs_solve_bound_outlook (bound, 0, 0, 0, 0, 0, 0), ==, 0);
}

static gboolean
give_up (gpointer data)
{
  guint *left = data;

  return (*left)-- == 0;
}

static void
test_refuses (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 90 / 90 0; cost 1 0; van a 0 0 08:00-10:00; call A 1 10");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsProblem) busy = text_day (
      "minutes 0 9 / 9 0; cost 1 0; van a 0 0 08:00-17:00; call A 1 10; call B 1 10");
  g_autoptr (HsSolveFrame) busy_frame = text_frame (busy);
  guint left = 3;
  HsExact patient = PATIENT;
  HsExact exact = { give_up, &left, 1000000, FALSE, FALSE, 0 };
  gint64 prizes[] = { 5, 6 };
  gint64 floor = 3;

  /* No trip can be driven. */
  g_assert_false (hs_solve_tune (&patient, frame, 1000, &floor, prizes));
  /* It was told to stop. */
  g_assert_false (hs_solve_tune (&exact, busy_frame, 1000, &floor, prizes));
  g_assert_true (exact.cut);
  g_assert_cmpint (floor, ==, 3);
  g_assert_cmpint (prizes[0] + prizes[1], ==, 11);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-tune/%s", kinds[i].name);

      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  g_test_add_func ("/plan/solve-tune/meets", test_meets);
  g_test_add_func ("/plan/solve-tune/several-vans", test_several_vans);
  g_test_add_func ("/plan/solve-tune/refuses", test_refuses);
  return g_test_run ();
}
