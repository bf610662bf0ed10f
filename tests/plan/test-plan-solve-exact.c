// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the search over sets of calls finds, what it proves, and what it says when it is stopped. */

#include "hs-solve-exact.h"

#include "plan-text-day.h"

#define ALL 5000000

/* Each is worse than the one before. */
static const HsScore scores[] = {
  { 0, 0, 0, 100, 50, 20 },
  { 0, 0, 0, 100, 50, 19 },
  { 0, 0, 0, 100, 51, 99 },
  { 0, 0, 0, 101, 1, 99 },
  { 0, 0, 1, 1, 1, 99 },
  { 1, 0, 900, 1, 1, 99 },
  { 1, 1, 0, 1, 1, 99 },
  { 2, 0, 0, 1, 1, 99 },
  HS_SCORE_WORST,
};

static void
test_scores (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (scores); i++)
    for (guint j = 0; j < G_N_ELEMENTS (scores); j++)
      g_assert_cmpint (hs_score_compare (&scores[i], &scores[j]), ==, i < j ? -1 : i > j);
}

#define LINE3 "minutes 0 10 20 / 10 0 10 / 20 10 0; cost 100 0; "
#define EVEN4 "minutes 0 30 30 30 / 30 0 30 30 / 30 30 0 30 / 30 30 30 0; cost 100 0; "
#define VAN "van a 0 0 08:00-17:00; "

/* Worked out by hand; @cents as if nothing were rounded. @path: NULL where there is no plan under the terms. */
static const struct
{
  const char *day;
  HsSolveTerms terms;
  const char *path;
  HsScore score;
} finds[] = {
  { LINE3 VAN "call A 1 30 09:00-10:00", HS_SOLVE_TERMS_STRICT, "A", { 0, 0, 0, 5000, 9 * 60 + 40, 8 * 60 + 50 } },
  { LINE3 VAN "call A 1 30 09:00-10:00; call B 2 20 09:00-09:30", HS_SOLVE_TERMS_STRICT, "B A",
    { 0, 0, 0, 9000, 10 * 60 + 10, 8 * 60 + 40 } },
  { LINE3 VAN "call A 1 30 09:00-09:20; call B 2 20 09:00-09:30", HS_SOLVE_TERMS_STRICT, NULL, { 0, 0, 0, 0, 0, 0 } },
  { LINE3 VAN "call A 1 30 09:00-09:20; call B 2 20 09:00-09:30", { FALSE, 1, 0, 600, 600 }, "B A",
    { 1, 0, 10, 9000, 10 * 60 + 10, 8 * 60 + 40 } },
  /* Less lateness than that is not to be had, nor each call less late. */
  { LINE3 VAN "call A 1 30 09:00-09:20; call B 2 20 09:00-09:30", { FALSE, 1, 0, 599, 600 }, NULL, { 0, 0, 0, 0, 0,
    0 } },
  { LINE3 VAN "call A 1 30 09:00-09:20; call B 2 20 09:00-09:30", { FALSE, 1, 0, 600, 599 }, NULL, { 0, 0, 0, 0, 0,
    0 } },
  /* One may be left out: B costs 60 min, A 50. */
  { LINE3 VAN "call A 1 30 09:00-09:20; call B 2 20 09:00-09:30", { FALSE, 1, 1, 0, 0 }, "A",
    { 1, 1, 0, 5000, 9 * 60 + 40, 8 * 60 + 50 } },
  { LINE3 "van a 0 0 08:00-08:30; call A 1 30", HS_SOLVE_TERMS_STRICT, NULL, { 0, 0, 0, 0, 0, 0 } },
  { LINE3 "van a 0 0 08:00-08:30; call A 1 30", { FALSE, 1, 1, 0, 0 }, "", { 1, 1, 0, 0, 0, 0 } },
  /* All that is asked is what can be kept: no money, leaving first thing. */
  { LINE3 VAN "call A 1 30 09:00-09:20; call B 2 20 09:00-09:30", HS_SOLVE_TERMS_OPEN, "B A",
    { 1, 0, 10, 0, 10 * 60 + 10, 8 * 60 } },
  { LINE3 "van a 0 0 08:00-17:00; van b 2 2 08:00-17:00; call A 1 30 09:00-09:20; call B 2 20 09:00-09:10",
    HS_SOLVE_TERMS_STRICT, "A / B", { 0, 0, 0, 7000, 9 * 60 + 40 + 9 * 60 + 20, 8 * 60 + 50 + 9 * 60 } },
  { LINE3 "van a 0 0 08:00-17:00; van b 2 2 08:00-17:00; call B 2 20 09:00-09:10", HS_SOLVE_TERMS_STRICT, "/ B",
    { 0, 0, 0, 2000, 9 * 60 + 20, 9 * 60 } },
  { LINE3 "van a 0 0 08:00-17:00 break 30 11:30-13:30; call A 1 60 11:00-11:00; call B 2 60 13:00-13:30",
    HS_SOLVE_TERMS_STRICT, "A break B", { 0, 0, 0, 21000, 14 * 60 + 20, 10 * 60 + 50 } },
  { LINE3 VAN "call A 1 30 needs x; call B 2 30 needs x; counter C 1 5 08:00-17:00 sells x=500; "
    "counter D 2 5 08:00-17:00 sells x=100", HS_SOLVE_TERMS_STRICT, "D B A", { 0, 0, 0, 10700, 9 * 60 + 45, 8 * 60 } },
};

static void
test_finds (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (finds); i++)
    {
      g_autoptr (HsProblem) problem = text_day (finds[i].day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsSolveBound) bound = finds[i].terms.flat ? NULL : hs_solve_bound_new (frame);
      g_autofree char *words = NULL;
      HsExact exact = { NULL, NULL, ALL, FALSE, FALSE, 0 };
      HsScore score = HS_SCORE_WORST;
      HsPath path = { 0 };

      g_assert_cmpint (hs_exact_run (&exact, frame, bound, &finds[i].terms, 0, &score, &path, NULL), ==,
                       finds[i].path != NULL);
      g_assert_false (exact.cut || exact.full);
      if (finds[i].path == NULL)
        continue;
      words = text_path_words (frame, &path);
      g_assert_cmpstr (words, ==, finds[i].path);
      g_assert_cmpuint (score.missed, ==, finds[i].score.missed);
      g_assert_cmpuint (score.dropped, ==, finds[i].score.dropped);
      g_assert_cmpint (score.late, ==, finds[i].score.late * 60);
      g_assert_cmpint (score.units, ==, finds[i].score.units * HS_COST_UNITS);
      g_assert_cmpint (score.homes, ==, finds[i].score.homes * 60);
      g_assert_cmpint (score.leaves, ==, finds[i].score.leaves * 60);
    }
}

/* Asked for better than the best there is, it finds nothing, and that is the proof. */
static void
test_proof (void)
{
  g_autoptr (HsProblem) problem = text_busy_day (7, 4);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
  HsSolveTerms terms = { FALSE, 7, 7, G_MAXINT32, G_MAXINT32 };
  HsExact exact = { NULL, NULL, ALL, FALSE, FALSE, 0 };
  HsScore best = HS_SCORE_WORST;
  HsScore other;
  HsPath path = { 0 };
  HsPath again = { 0 };
  gint64 floor = 0;

  g_assert_true (hs_exact_run (&exact, frame, bound, &terms, 0, &best, &path, &floor));
  other = best;
  g_assert_false (hs_exact_run (&exact, frame, bound, &terms, 0, &other, &again, &floor));
  g_assert_cmpint (hs_score_compare (&best, &other), ==, 0);
  g_assert_cmpuint (again.n_stops, ==, 0);
  other.leaves--;
  g_assert_true (hs_exact_run (&exact, frame, bound, &terms, 0, &other, &again, &floor));
  g_assert_cmpint (hs_score_compare (&best, &other), ==, 0);
  other = best;
  other.units++;
  g_assert_true (hs_exact_run (&exact, frame, bound, &terms, 0, &other, &again, &floor));
  g_assert_cmpint (hs_score_compare (&best, &other), ==, 0);
}

/* A day of twelve calls in wide windows, which takes some thousands of steps; all can be kept. */
static HsProblem *
wide_day (void)
{
  HsProblem *problem = text_day ("minutes 0 11 23 31 / 12 2 17 29 / 25 13 3 7 / 33 21 9 1; miles 0 4 9 13 / 5 1 6 12 / "
                                 "10 5 1 3 / 14 8 3 0; cost 160 42; van a 0 0 07:00-20:00");

  for (guint i = 0; i < 12; i++)
    {
      g_autofree char *id = g_strdup_printf ("call %u", i);
      HsCall *call = hs_problem_add_call (problem, id, (i * 7) % 4, 60 * (10 + i * 5 % 17));
      HsDaySpan window = { 3600 * (7 + i % 3), 3600 * (15 + i % 4) };

      g_array_append_val (call->windows, window);
    }
  return problem;
}

/* However few ways it keeps, what it finds is a plan, and what it calls the floor is below the best. */
static void
test_widths (void)
{
  static const guint widths[] = { 0, 1, 2, 5, 20, 100 };
  const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  g_autoptr (HsProblem) problem = wide_day ();
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
  gint64 best = 0;
  guint64 states = 0;

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      HsExact exact = { NULL, NULL, ALL, FALSE, FALSE, 0 };
      HsScore score = HS_SCORE_WORST;
      HsPath path = { 0 };
      gint64 floor = 0;
      gboolean found = hs_exact_run (&exact, frame, bound, &strict, widths[i], &score, &path, &floor);

      g_assert_true (found || widths[i] == 1);
      if (i == 0)
        {
          best = score.units;
          states = exact.states;
          g_assert_cmpint (floor, ==, best);
        }
      g_assert_cmpint (score.units, >=, best);
      g_assert_cmpint (floor, <=, best);
      g_assert_cmpint (floor, >, 0);
      if (widths[i] == 1)
        g_assert_cmpuint (exact.states, <, states);
    }
}

/* Stopped by the number of labels: it says so, keeps what it had, and a new run starts afresh. */
static void
test_full (void)
{
  static const gsize most[] = { 0, 1, 10, 100, 1000 };
  const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  g_autoptr (HsProblem) problem = wide_day ();
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
  HsExact exact = { NULL, NULL, ALL, FALSE, FALSE, 0 };
  HsScore best = HS_SCORE_WORST;
  HsPath path = { 0 };
  gint64 floor = 0;

  g_assert_true (hs_exact_run (&exact, frame, bound, &strict, 0, &best, &path, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (most); i++)
    {
      HsScore score = HS_SCORE_WORST;

      exact.max_labels = most[i];
      hs_exact_run (&exact, frame, bound, &strict, 0, &score, &path, &floor);
      g_assert_true (exact.full);
      g_assert_false (exact.cut);
      g_assert_cmpint (floor, <=, best.units);
      g_assert_cmpint (floor, >=, hs_solve_bound_root (bound));
    }
  exact.max_labels = ALL;
  g_assert_false (hs_exact_run (&exact, frame, bound, &strict, 0, &best, &path, &floor));
  g_assert_false (exact.full);
  g_assert_cmpint (floor, ==, best.units);
}

static gboolean
count_asked (gpointer data)
{
  guint *asked = data;

  return ++*asked >= 2;
}

/* Told to stop at the second time of asking: it asks no more, in later runs neither. */
static void
test_cut (void)
{
  const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  g_autoptr (HsProblem) problem = wide_day ();
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  guint asked = 0;
  HsExact exact = { count_asked, &asked, ALL, FALSE, FALSE, 0 };
  HsScore score = HS_SCORE_WORST;
  HsPath path = { 0 };
  gint64 floor = G_MAXINT64;

  hs_exact_run (&exact, frame, NULL, &strict, 0, &score, &path, &floor);
  g_assert_true (exact.cut);
  g_assert_false (exact.full);
  g_assert_cmpuint (asked, ==, 2);
  g_assert_cmpint (floor, <, score.units);
  g_assert_true (hs_exact_gives_up (&exact));
  score = (HsScore) HS_SCORE_WORST;
  g_assert_false (hs_exact_run (&exact, frame, NULL, &strict, 0, &score, &path, &floor));
  g_assert_cmpuint (asked, ==, 2);
}

static void
test_gives_up (void)
{
  guint asked = 0;
  HsExact nobody = { NULL, NULL, ALL, FALSE, FALSE, 0 };
  HsExact asking = { count_asked, &asked, ALL, FALSE, FALSE, 0 };

  g_assert_false (hs_exact_gives_up (&nobody));
  nobody.cut = TRUE;
  g_assert_true (hs_exact_gives_up (&nobody));
  g_assert_false (hs_exact_gives_up (&asking));
  g_assert_true (hs_exact_gives_up (&asking));
  g_assert_true (hs_exact_gives_up (&asking));
  g_assert_cmpuint (asked, ==, 2);
}

/* What it counts on the way is what comes out when the path is driven by the clock. */
static void
test_path (void)
{
  const HsSolveTerms terms[] = { { FALSE, 6, 6, G_MAXINT32, G_MAXINT32 }, { FALSE, 6, 0, G_MAXINT32, G_MAXINT32 },
                                 { FALSE, 2, 2, 0, 0 } };
  guint n_found = 0;

  for (guint32 seed = 0; seed < 120; seed++)
    {
      g_autoptr (HsProblem) problem = text_busy_day (6, seed);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
      HsExact exact = { NULL, NULL, ALL, FALSE, FALSE, 0 };
      HsScore score = HS_SCORE_WORST;
      HsPath path = { 0 };

      if (!hs_exact_run (&exact, frame, bound, &terms[seed % 3], seed / 3 % 3 * 10, &score, &path, NULL))
        continue;
      text_assert_score (frame, &score, &path);
      n_found++;
    }
  g_assert_cmpuint (n_found, >, 60);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-exact/scores", test_scores);
  g_test_add_func ("/plan/solve-exact/finds", test_finds);
  g_test_add_func ("/plan/solve-exact/proof", test_proof);
  g_test_add_func ("/plan/solve-exact/widths", test_widths);
  g_test_add_func ("/plan/solve-exact/full", test_full);
  g_test_add_func ("/plan/solve-exact/cut", test_cut);
  g_test_add_func ("/plan/solve-exact/gives-up", test_gives_up);
  g_test_add_func ("/plan/solve-exact/path", test_path);
  return g_test_run ();
}
