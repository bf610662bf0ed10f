// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The search for days of any size: what it gives is a plan, never a worse one, and the same again from the same
 * seed. */

#include "hs-solve-large.h"

#include "plan-text-day.h"

#include <time.h>

static const HsSolveTerms loose = { FALSE, 200, 200, G_MAXINT32, G_MAXINT32 };
static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;

/* A day that nobody stops. */
#define PATIENT { NULL, NULL, 1000000, FALSE, FALSE, 0 }

static void
test_is_a_plan (void)
{
  static const guint sizes[] = { 0, 1, 2, 9, 40, 120 };
  static const guint rounds[] = { 0, 1, 30 };

  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (guint r = 0; r < G_N_ELEMENTS (rounds); r++)
      {
        g_autoptr (HsProblem) problem = text_busy_day (sizes[s], s);
        g_autoptr (HsSolveFrame) frame = text_frame (problem);
        HsExact exact = PATIENT;
        HsScore score = HS_SCORE_WORST;
        HsPath path = { 0 };

        g_assert_true (hs_solve_large (&exact, frame, &loose, rounds[r], 1, &score, &path));
        text_assert_score (frame, &score, &path);
        g_assert_false (exact.cut);
      }
}

/* What must not be left out, late or both is not; where that can't be had, nothing is touched. */
static void
test_terms (void)
{
  static const struct
  {
    const char *day;
    HsSolveTerms terms;
    gboolean found;
    const char *path;
  } rows[] = {
    { "minutes 0 10 / 10 0; van a 0 0 08:00-17:00; call A 1 30 09:00-10:00", HS_SOLVE_TERMS_STRICT, TRUE, "A" },
    { "minutes 0 10 / 10 0; van a 0 0 08:00-17:00; call A 1 30 07:00-08:00", HS_SOLVE_TERMS_STRICT, FALSE, "" },
    { "minutes 0 10 / 10 0; van a 0 0 08:00-17:00; call A 1 30 07:00-08:00", { FALSE, 1, 0, 600, 600 }, TRUE, "A" },
    { "minutes 0 10 / 10 0; van a 0 0 08:00-17:00; call A 1 30 07:00-08:00", { FALSE, 1, 0, 599, 600 }, FALSE, "" },
    { "minutes 0 10 / 10 0; van a 0 0 08:00-17:00; call A 1 30 07:00-08:00", { FALSE, 1, 1, 599, 599 }, TRUE, "" },
    { "minutes 0 10 / 10 0; van a 0 0 08:00-08:30; call A 1 30", { FALSE, 1, 0, 0, 0 }, FALSE, "" },
    { "minutes 0 10 / 10 0; van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call A 1 30 van b", HS_SOLVE_TERMS_STRICT,
      TRUE, "/ A" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProblem) problem = text_day (rows[i].day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autofree char *words = NULL;
      HsExact exact = PATIENT;
      const HsScore worst = HS_SCORE_WORST;
      HsScore score = worst;
      HsPath path = { 0 };

      g_assert_cmpint (hs_solve_large (&exact, frame, &rows[i].terms, 20, 1, &score, &path), ==, rows[i].found);
      words = text_path_words (frame, &path);
      g_assert_cmpstr (words, ==, rows[i].path);
      g_assert_cmpint (hs_score_compare (&score, &worst) == 0, ==, !rows[i].found);
    }
}

/* On days that can be searched whole: never better than the best, mostly as good, and never worse than what it is
 * given. */
static void
test_against_whole (void)
{
  guint n_days = 0;
  guint n_best = 0;

  for (guint32 seed = 0; seed < 40; seed++)
    {
      g_autoptr (HsProblem) problem = text_busy_day (6, seed);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      HsExact exact = PATIENT;
      HsScore best = HS_SCORE_WORST;
      HsScore kept;
      HsScore score = HS_SCORE_WORST;
      HsPath path = { 0 };
      HsPath other = { 0 };

      if (!hs_exact_run (&exact, frame, NULL, &strict, 0, &best, &path, NULL))
        continue;
      kept = best;
      g_assert_false (hs_solve_large (&exact, frame, &strict, 50, seed, &kept, &other));
      g_assert_cmpint (hs_score_compare (&kept, &best), ==, 0);
      g_assert_cmpuint (other.n_stops, ==, 0);
      if (hs_solve_large (&exact, frame, &strict, 500, seed, &score, &other))
        text_assert_score (frame, &score, &other);
      g_assert_cmpint (hs_score_compare (&score, &best), >=, 0);
      n_days++;
      n_best += score.units == best.units;
    }
  g_assert_cmpuint (n_days, >, 5);
  g_assert_cmpuint (n_best * 10, >=, n_days * 9);
}

static char *
run_seed (const HsSolveFrame *frame, guint32 seed, guint rounds, HsScore *ret_score)
{
  HsExact exact = PATIENT;
  HsPath path = { 0 };

  *ret_score = (HsScore) HS_SCORE_WORST;
  g_assert_true (hs_solve_large (&exact, frame, &loose, rounds, seed, ret_score, &path));
  return text_path_words (frame, &path);
}

static void
test_seeds (void)
{
  g_autoptr (HsProblem) problem = text_busy_day (25, 2);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  guint n_different = 0;

  for (guint32 seed = 0; seed < 6; seed++)
    {
      HsScore score;
      HsScore again_score;
      HsScore next_score;
      g_autofree char *words = run_seed (frame, seed, 40, &score);
      g_autofree char *again = run_seed (frame, seed, 40, &again_score);
      g_autofree char *next = run_seed (frame, seed + 1, 40, &next_score);

      g_assert_cmpstr (words, ==, again);
      g_assert_cmpint (hs_score_compare (&score, &again_score), ==, 0);
      n_different += !g_str_equal (words, next);
    }
  g_assert_cmpuint (n_different, >, 0);
}

/* Searching improves on the plan that it begins with. */
static void
test_improves (void)
{
  guint n_better = 0;

  for (guint32 seed = 0; seed < 5; seed++)
    {
      g_autoptr (HsProblem) problem = text_busy_day (24, seed);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      HsScore first;
      HsScore later;
      g_autofree char *words = run_seed (frame, seed, 0, &first);
      g_autofree char *searched = run_seed (frame, seed, 150, &later);

      n_better += hs_score_compare (&later, &first) < 0;
      g_assert_cmpuint (later.dropped, <=, first.dropped);
      g_assert_nonnull (words);
      g_assert_nonnull (searched);
    }
  g_assert_cmpuint (n_better, >=, 4);
}

static gboolean
count_down (gpointer data)
{
  guint *left = data;

  if (*left == 0)
    return TRUE;
  (*left)--;
  return FALSE;
}

/* Told to stop at any moment it has a plan, if only one made in a hurry; what comes after is no worse than it. */
static void
test_cut (void)
{
  for (guint asks = 0; asks < 60; asks += 7)
    {
      g_autoptr (HsProblem) problem = text_busy_day (25, asks);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      guint left = asks;
      HsExact exact = { count_down, &left, 1000000, FALSE, FALSE, 0 };
      HsScore score = HS_SCORE_WORST;
      HsScore first = HS_SCORE_WORST;
      HsPath path = { 0 };

      g_assert_true (hs_solve_large (&exact, frame, &loose, 0, 1, &first, &path));
      text_assert_score (frame, &first, &path);
      left = asks;
      exact.cut = FALSE;
      g_assert_true (hs_solve_large (&exact, frame, &loose, 100000, 1, &score, &path));
      g_assert_true (exact.cut);
      text_assert_score (frame, &score, &path);
      g_assert_cmpint (hs_score_compare (&score, &first), <=, 0);
    }
}

static gboolean
enough (gpointer data)
{
  return TRUE;
}

/* Seconds of the processor for the first plan. */
static double
time_first (const HsSolveFrame *frame, HsPlanGiveUp give_up, HsScore *ret_score)
{
  HsExact exact = { give_up, NULL, 1000000, FALSE, FALSE, 0 };
  HsPath path = { 0 };
  clock_t began = clock ();

  *ret_score = (HsScore) HS_SCORE_WORST;
  g_assert_true (hs_solve_large (&exact, frame, &loose, 0, 1, ret_score, &path));
  text_assert_score (frame, ret_score, &path);
  return (double) (clock () - began) / CLOCKS_PER_SEC;
}

/* As many calls as a day may have, short ones with a part each, so that rounds are long and errands come between. */
static HsProblem *
full_day (void)
{
  HsProblem *problem = text_day ("minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; cost 160 42; "
                                 "van a 0 0 08:00-20:00; van b 3 3 08:00-20:00; "
                                 "counter C 1 5 08:00-20:00 sells x=900; counter D 2 10 07:00-20:00 sells x=400");

  for (guint i = 0; i < HS_PROBLEM_MAX_CALLS; i++)
    {
      g_autofree char *id = g_strdup_printf ("call %03u", i);
      HsCall *call = hs_problem_add_call (problem, id, i * 7 % 4, 300);
      guint part = 0;

      g_array_append_val (call->needs, part);
    }
  return problem;
}

/* Where time is over before there is any plan, the first one takes a small part of the time that it would have had, and
 * is worth less for it. */
static void
test_hurry (void)
{
  g_autoptr (HsProblem) problem = full_day ();
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsScore patient;
  HsScore hurried;
  double long_seconds = time_first (frame, NULL, &patient);
  double short_seconds = time_first (frame, enough, &hurried);

  g_test_message ("%.3f s, and %.3f s in a hurry", long_seconds, short_seconds);
  g_assert_cmpfloat (short_seconds * 6, <, long_seconds);
  g_assert_cmpint (hs_score_compare (&patient, &hurried), <, 0);
}

/* How many of the words of @before come in @after in their order. */
static guint
count_kept (const char *before, const char *after)
{
  g_auto (GStrv) words = g_strsplit (before, " ", -1);
  const char *at = after;
  guint n = 0;

  for (guint i = 0; words[i] != NULL && at != NULL; i++)
    {
      at = strstr (at, words[i]);
      n += at != NULL;
    }
  return n;
}

/* With no rounds a plan to begin with stays as it is, but for what it left out, or can't keep. */
static void
test_from (void)
{
  g_autoptr (HsProblem) problem = text_day (
      "minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; cost 100 0; van a 0 0 08:00-17:00; "
      "van b 0 0 08:00-17:00; call A 1 30; call B 2 30; call C 3 30 08:40-08:40; call D 3 30 08:40-08:40; "
      "call E 3 30 08:40-08:40");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  static const struct
  {
    const char *start;
    guint kept;
    guint words;
  } rows[] = {
    { "C A B / D", 5, 5 },
    { "B A / C", 4, 5 },
    { "/", 1, 5 },
    /* A makes C late; then all of that van is put in again. */
    { "A C B / D", 1, 5 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsExact exact = PATIENT;
      HsPath start;
      HsPath most = { 0 };
      HsPath path = { 0 };
      HsScore score = HS_SCORE_WORST;
      g_autofree char *words = NULL;
      g_auto (GStrv) list = NULL;

      text_path (frame, rows[i].start, "08:00 08:00", &start);
      g_assert_false (hs_solve_large_from (&exact, frame, &strict, 0, 1, &start, &most, &score, &path));
      g_assert_cmpuint (path.n_stops, ==, 0);
      words = text_path_words (frame, &most);
      list = g_strsplit (words, " ", -1);
      g_assert_cmpuint (g_strv_length (list), ==, rows[i].words);
      g_assert_cmpuint (count_kept (rows[i].start, words), >=, rows[i].kept);
      /* Late is better than left out. */
      g_assert_true (hs_solve_large_from (&exact, frame, &loose, 0, 1, &most, NULL, &score, &path));
      g_assert_cmpuint (score.missed, ==, 1);
      g_assert_cmpuint (score.dropped, ==, 0);
      text_assert_score (frame, &score, &path);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-large/is-a-plan", test_is_a_plan);
  g_test_add_func ("/plan/solve-large/terms", test_terms);
  g_test_add_func ("/plan/solve-large/against-whole", test_against_whole);
  g_test_add_func ("/plan/solve-large/seeds", test_seeds);
  g_test_add_func ("/plan/solve-large/improves", test_improves);
  g_test_add_func ("/plan/solve-large/cut", test_cut);
  g_test_add_func ("/plan/solve-large/hurry", test_hurry);
  g_test_add_func ("/plan/solve-large/from", test_from);
  return g_test_run ();
}
