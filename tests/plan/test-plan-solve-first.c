// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What plans are worth, which of two stops comes first, and that a search that is ended early leaves the plan as it
 * was. That what it finds is the first is tried in test-plan-solve-ties-trial. */

#include "hs-solve-first.h"

#include "plan-text-day.h"

#include <string.h>

#define EVEN "minutes 0 10 10 10 / 10 0 10 10 / 10 10 0 10 / 10 10 10 0; cost 100 50; "
#define PATIENT { NULL, NULL, 1000000, FALSE, FALSE, 0 }

static int
sign (int order)
{
  return order < 0 ? -1 : order > 0;
}

static void
test_compare (void)
{
  /* In this order. */
  static const char *const ids[] = { "B", "a", "b2", "bread", "break", "c", "/" };
  g_autoptr (HsProblem) problem = text_day (EVEN "van v 0 0 08:00-17:00; call c 1 1; call a 1 1; call b2 1 1; "
                                                 "counter B 1 1; counter bread 1 1");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    for (guint k = 0; k < G_N_ELEMENTS (ids); k++)
      {
        HsPath one;
        HsPath other;

        text_path (frame, ids[i], "", &one);
        text_path (frame, ids[k], "", &other);
        g_assert_cmpint (sign (hs_solve_first_compare_stops (frame, one.stops[0], other.stops[0])), ==,
                         sign ((int) i - (int) k));
      }
}

/* Any plan of the search over sets is worth what that says. */
static void
test_rate (void)
{
  guint n_rated = 0;

  for (guint32 seed = 0; seed < 120; seed++)
    {
      const HsSolveTerms terms = { FALSE, seed % 3, seed % 3 / 2, 90000, 90000 };
      g_autoptr (HsProblem) problem = text_busy_day (5, seed);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      HsExact exact = PATIENT;
      HsScore best = HS_SCORE_WORST;
      HsScore score;
      HsPath path;
      HsPath rated;

      if (!hs_exact_run (&exact, frame, NULL, &terms, 10, &best, &path, NULL))
        continue;
      rated = path;
      memset (rated.leave, 0, sizeof rated.leave);
      memset (rated.home, 0, sizeof rated.home);
      g_assert_true (hs_solve_first_rate (frame, &terms, &rated, &score));
      g_assert_cmpint (hs_score_compare (&score, &best), <=, 0);
      text_assert_score (frame, &score, &rated);
      n_rated++;
    }
  g_assert_cmpuint (n_rated, >, 60);
}

/* What can't be driven under the terms is not rated, and stays as it is. */
static void
test_rate_no (void)
{
  static const char *const paths[] = { "A B", "B", "B A" };
  static const HsSolveTerms terms = HS_SOLVE_TERMS_STRICT;
  g_autoptr (HsProblem) problem = text_day (EVEN "van v 0 0 08:00-17:00; call A 1 60 09:00-09:00; "
                                                 "call B 2 10 09:00-09:30 needs x; "
                                                 "counter C 3 10 08:00-08:30 sells x=5");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsScore score = { .units = 77 };
  HsPath path;

  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      text_path (frame, paths[i], "08:01", &path);
      g_assert_false (hs_solve_first_rate (frame, &terms, &path, &score));
      g_assert_cmpint (path.leave[0], ==, text_clock ("08:01"));
      g_assert_cmpint (score.units, ==, 77);
    }
  text_path (frame, "C B", "08:01", &path);
  g_assert_true (hs_solve_first_rate (frame, &terms, &path, &score));
  g_assert_cmpuint (score.dropped, ==, 1);
  g_assert_cmpuint (score.missed, ==, 1);
  g_assert_cmpuint (score.stops, ==, 2);
}

static const char knot[] = EVEN "van a 0 0 08:00-17:00; van b 0 0 08:00-16:00; call A 1 10 08:30-08:50; "
                                "call B 2 10 08:10-08:30; call C 3 10 08:10-08:30; call D 1 10 08:10-09:30; "
                                "call E 2 10 08:50-09:00; call F 3 10 08:50-09:00";

/* The best plan of @problem that the search comes upon. */
static void
find_best (const HsSolveFrame *frame, const HsSolveBound *bound, HsPath *path)
{
  static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  HsExact exact = PATIENT;
  HsScore best = HS_SCORE_WORST;

  g_assert_true (hs_exact_run (&exact, frame, bound, &strict, 0, &best, path, NULL));
}

/* However many tries it has, it finds the first plan or leaves the one that it was given. */
static void
test_tries (void)
{
  static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  g_autoptr (HsProblem) problem = text_day (knot);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autofree char *given = NULL;
  g_autofree char *first = NULL;
  guint needed = 100000;
  HsPath known;
  HsPath path;

  find_best (frame, NULL, &known);
  given = text_path_words (frame, &known);
  path = known;
  g_assert_true (hs_solve_first_find (NULL, frame, NULL, &strict, &needed, &path));
  needed = 100000 - needed;
  first = text_path_words (frame, &path);
  g_assert_cmpstr (first, !=, given);
  g_assert_cmpuint (needed, >, 20);
  for (guint tries = 0; tries < needed + 20; tries++)
    {
      guint left = tries;
      g_autofree char *words = NULL;

      path = known;
      g_assert_cmpint (hs_solve_first_find (NULL, frame, NULL, &strict, &left, &path), ==, tries > needed);
      words = text_path_words (frame, &path);
      g_assert_cmpstr (words, ==, tries > needed ? first : given);
      g_assert_cmpuint (left, ==, tries > needed ? tries - needed : 0);
    }
}

/* With a bound it comes to the same, in fewer tries; from any plan that is as good; and again from the first. */
static void
test_same (void)
{
  static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  g_autoptr (HsProblem) problem = text_day (knot);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
  guint plain = 100000;
  guint bounded = 100000;
  guint again = 100000;
  HsPath path;
  HsPath other;
  HsScore score;
  HsScore other_score;

  find_best (frame, NULL, &path);
  find_best (frame, bound, &other);
  g_assert_true (hs_solve_first_find (NULL, frame, NULL, &strict, &plain, &path));
  g_assert_true (hs_solve_first_find (NULL, frame, bound, &strict, &bounded, &other));
  g_assert_cmpmem (path.stops, path.n_stops, other.stops, other.n_stops);
  g_assert_cmpuint (bounded, >, plain);
  g_assert_true (hs_solve_first_find (NULL, frame, bound, &strict, &again, &other));
  g_assert_cmpmem (path.stops, path.n_stops, other.stops, other.n_stops);
  g_assert_true (hs_solve_first_rate (frame, &strict, &path, &score));
  text_assert_score (frame, &score, &path);
  g_assert_true (hs_solve_first_rate (frame, &strict, &other, &other_score));
  g_assert_cmpint (hs_score_compare (&score, &other_score), ==, 0);
}

static gboolean
count_down (gpointer data)
{
  guint *left = data;

  return *left == 0 || --*left == 0;
}

/* Told to give up before it begins, or when it asks. */
static void
test_give_up (void)
{
  static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  g_autoptr (HsProblem) problem = text_day (knot);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsExact cut = { .cut = TRUE };
  guint asks = 1;
  HsExact asking = { count_down, &asks, 1000000, FALSE, FALSE, 0 };
  guint tries = 100000;
  HsPath known;
  HsPath path;

  find_best (frame, NULL, &known);
  path = known;
  g_assert_false (hs_solve_first_find (&cut, frame, NULL, &strict, &tries, &path));
  g_assert_cmpmem (path.stops, path.n_stops, known.stops, known.n_stops);
  g_assert_cmpuint (tries, ==, 99999);
  g_assert_false (hs_solve_first_find (&asking, frame, NULL, &strict, &tries, &path));
  g_assert_true (asking.cut);
  g_assert_cmpuint (tries, ==, 99998);
  g_assert_cmpmem (path.stops, path.n_stops, known.stops, known.n_stops);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-first/compare", test_compare);
  g_test_add_func ("/plan/solve-first/rate", test_rate);
  g_test_add_func ("/plan/solve-first/rate-no", test_rate_no);
  g_test_add_func ("/plan/solve-first/tries", test_tries);
  g_test_add_func ("/plan/solve-first/same", test_same);
  g_test_add_func ("/plan/solve-first/give-up", test_give_up);
  return g_test_run ();
}
