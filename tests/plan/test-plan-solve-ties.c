// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plans worth the same: the ids decide, and never the order in which a day was written down. */

#include "hs-solve-ties.h"

#include "plan-text-day.h"

#include <string.h>

/* @path and @leaves: a plan that is as good as any, or but for stops for nothing; @settled: what it turns into, %NULL
 * for the latter; @by_van: where it is not known to be the best, %NULL for the same */
typedef struct
{
  const char *name;
  const char *day;
  const char *path;
  const char *leaves;
  const char *settled;
  const char *by_van;
} Row;

#define EVEN "minutes 0 10 10 10 / 10 0 10 10 / 10 10 0 10 / 10 10 10 0; cost 100 50; "
#define MILES "miles 0 5 5 5 / 5 0 5 5 / 5 5 0 5 / 5 5 5 0; "

static const Row rows[] = {
  { "alike", EVEN MILES "van a 0 0 08:00-17:00; call C 1 10; call A 2 10; call B 3 10", "C A B", "08:00", "A B C" },
  { "right-already", EVEN MILES "van a 0 0 08:00-17:00; call A 1 10; call B 2 10", "A B", "08:00", "A B" },
  { "one", EVEN MILES "van a 0 0 08:00-17:00; call A 1 10", "A", "08:00", "A" },
  { "a-window-says-otherwise", EVEN MILES "van a 0 0 08:00-17:00; call A 1 10 08:25-08:55; call B 2 10 08:00-08:15; "
    "call C 3 10", "B C A", "08:00", "B A C" },
  { "cost-says-otherwise", "minutes 0 10 20 / 10 0 10 / 20 10 0; miles 0 1 9 / 1 0 1 / 2 9 0; cost 100 50; "
    "van a 0 0 08:00-17:00; call A 2 10; call B 1 10", "B A", "08:00", "B A" },
  { "home-says-otherwise", EVEN "van a 0 0 08:00-17:00; call A 1 30 09:00-12:00; call B 2 10", "B A", "08:40", "B A" },
  { "counters-too", EVEN MILES "van a 0 0 08:00-17:00; call X 2 10; call Y 2 10 needs p; "
    "counter W 2 10 08:00-17:00 sells p=100", "X W Y", "08:00", "W X Y" },
  { "the-part-comes-first", EVEN MILES "van a 0 0 08:00-17:00; call X 2 10; call A 2 10 needs p; "
    "counter W 2 10 08:00-17:00 sells p=100", "X W A", "08:00", "W A X" },
  { "a-unit-for-the-earliest", EVEN MILES "van a 0 0 08:00-17:00 carries p; call A 2 10 needs p; call B 2 10 needs p; "
    "counter W 2 0 08:00-17:00 sells p=100", "B W A", "08:00", "A W B" },
  { "breaks-too", EVEN MILES "van a 0 0 08:00-17:00 break 30 08:00-09:30; call X 2 10 08:10-08:15; "
    "call C 2 10; call A 2 60", "X break A C", "08:00", "X C break A" },
  /* Home early enough to have it there; the same before leaving; and neither. */
  { "a-break-at-home", EVEN MILES "van a 0 0 08:00-17:00 break 30 08:00-12:00; call A 1 10; call B 2 10", "A break B",
    "08:00", NULL, "A B" },
  { "a-break-before-leaving", EVEN MILES "cost 0 50; van a 0 0 08:00-17:00 break 10 08:00-09:00; "
    "call A 1 10 08:20-08:25; call B 2 50 08:50-09:00", "A break B", "08:00", NULL, "A B" },
  { "a-break-as-well-at-home", EVEN MILES "cost 0 50; van a 0 0 08:00-17:00 break 10 08:00-12:00; "
    "call a 1 10 08:10-08:10; call c 2 10 09:00-09:00", "a break c", "08:00", NULL, "a c" },
  { "no-time-for-it-at-home", EVEN MILES "van a 0 0 08:00-17:00 break 30 08:10-08:55; call A 1 10 08:10-08:10; "
    "call B 2 10", "A break B", "08:00", "A break B" },
  { "home-is-earlier-with-it", EVEN MILES "cost 0 50; van a 0 0 08:00-17:00 break 10 08:20-08:35; call A 1 10; "
    "call B 2 10", "A break B", "08:00", "A break B" },
  { "two-vans", EVEN MILES "van a 0 0 08:00-17:00; van b 1 1 08:00-17:00; call D 2 10 van a; call C 2 10 van a; "
    "call B 2 10 van b; call A 2 10 van b", "D C / B A", "08:00 08:00", "C D / A B" },
  { "the-first-van-stays", EVEN MILES "van a 0 0 08:00-17:00; van b 1 1 08:00-17:00; call B 2 10; call A 2 10",
    "/ B A", "08:00 08:00", "A B", "/ A B" },
  { "the-second-van-stays", EVEN MILES "van a 0 0 08:00-17:00; van b 1 1 08:00-17:00; call B 2 10; call A 2 10",
    "B A", "08:00", "A B" },
  { "a-counter-for-nothing", EVEN MILES "van a 0 0 08:00-17:00; call Y 2 10; call Z 2 10 08:40-08:50; "
    "counter A 2 10 08:00-17:00; counter B 2 0 08:00-17:00", "B Y A Z", "08:00", NULL, "Y Z" },
  /* Of vans that are alike those go whose ids come first, each with what comes first. */
  { "alike-stays", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call A 1 10", "A", "08:00 08:00", "A" },
  { "alike-first", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call A 1 10", "/ A", "08:00 08:00", "A" },
  { "alike-both", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call A 1 10 08:10-08:10; "
    "call B 2 10 08:10-08:10; call C 3 10 08:30-08:30", "B C / A", "08:00 08:00", "A C / B", "A / B C" },
  { "alike-deal", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call B 1 10 08:10-08:10; "
    "call A 2 10 08:30-08:30; call C 3 10 08:10-08:10", "C / B A", "08:00 08:00", "B A / C" },
  { "alike-but-one", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00 skills gas; van c 0 0 08:00-17:00; "
    "call A 1 10 08:10-08:10; call B 2 10 08:10-08:10 skills gas; call C 3 10 08:10-08:10", "C / B / A",
    "08:00 08:00 08:00", "A / B / C" },
  { "not-alike", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-16:00; call A 1 10 08:10-08:10; "
    "call B 2 10 08:10-08:10", "B / A", "08:00 08:00", "A / B", "B / A" },
  { "only-for-one", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-16:00; call A 1 10 08:10-08:10 van b; "
    "call B 2 10 08:10-08:10; call C 3 10 08:30-08:30", "B / A C", "08:00 08:00", "B C / A", "B / A C" },
  { "late-all-the-same", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call C 1 10 08:00-08:00; "
    "call B 2 10 08:00-08:00; call A 3 10 09:00-09:00", "C A / B", "08:00 08:00", "B A / C", "B / C A" },
  { "nothing", EVEN MILES "van a 0 0 08:00-17:00; call A 1 10", "", "08:00", "" },
};

/* Without the "/" at the end, which a path may have or not. */
static char *
bare (char *words)
{
  g_autofree char *owned = words;

  while (g_str_has_suffix (words, "/") || g_str_has_suffix (words, " "))
    words[strlen (words) - 1] = '\0';
  return g_steal_pointer (&owned);
}

static void
test_row (gconstpointer data)
{
  static const HsSolveTerms terms = { FALSE, 2, 2, 3600, 3600 };
  const Row *row = data;
  g_autoptr (HsProblem) problem = text_day (row->day);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolveBound) bound = NULL;
  HsExact exact = { 0 };

  hs_solve_frame_trim (frame, 0);
  bound = hs_solve_bound_new (frame);
  for (guint way = 0; way < 3; way++)
    {
      g_autofree char *settled = NULL;
      HsPath path;

      if (way < 2 && row->settled == NULL)
        continue;
      text_path (frame, row->path, row->leaves, &path);
      hs_solve_ties_settle (&exact, frame, way > 0 ? bound : NULL, &terms, way < 2, &path);
      settled = bare (text_path_words (frame, &path));
      g_assert_cmpstr (settled, ==, way == 2 && row->by_van != NULL ? row->by_van : row->settled);
    }
}

/* Every 2048 steps it is asked whether to go on. */
static gboolean
count_asked (gpointer data)
{
  (*(guint *) data)++;
  return FALSE;
}

/* Forty calls that are all alike, and one that has to be the first, with or without a break that belongs before
 * leaving: it takes few steps. */
static void
test_many (gconstpointer data)
{
  static const HsSolveTerms terms = { FALSE, 1, 0, 36000, 36000 };
  g_autoptr (GString) day = g_string_new ("minutes 0 10 / 10 0; cost 100 0; van a 0 0 08:00-17:00 "
                                          "break 10 08:00-08:30");
  g_autoptr (GString) words = g_string_new (GPOINTER_TO_INT (data) ? "Z" : "Z break");
  g_autoptr (GString) ordered = g_string_new ("Z");
  g_autoptr (HsProblem) problem = NULL;
  g_autoptr (HsSolveFrame) frame = NULL;
  g_autofree char *settled = NULL;
  guint asked = 0;
  HsExact exact = { .give_up = count_asked, .user_data = &asked };
  HsPath path;

  for (guint i = 40; i > 0; i--)
    {
      g_string_append_printf (day, "; call A%02u 1 5", i);
      g_string_append_printf (words, " A%02u", i);
      g_string_append_printf (ordered, " A%02u", 41 - i);
    }
  g_string_append (day, "; call Z 1 5 08:10-08:20");
  problem = text_day (day->str);
  frame = text_frame (problem);
  hs_solve_frame_trim (frame, 0);
  text_path (frame, words->str, "08:00", &path);
  hs_solve_ties_settle (&exact, frame, NULL, &terms, GPOINTER_TO_INT (data), &path);
  g_assert_cmpuint (asked, <=, 5);
  settled = bare (text_path_words (frame, &path));
  g_assert_cmpstr (settled, ==, ordered->str);
  g_assert_cmpint (path.leave[0], ==, text_clock ("08:10"));
}

/* Places on a ring, each with a call, as good in one direction as in the other; the call that comes first by id is far
 * from where both begin, and too much would have to be gone through to see that no good round begins there. So the
 * order stays, but for a break that belongs at home. */
static HsProblem *
ring_day (guint n)
{
  g_autoptr (GString) day = g_string_new ("minutes");

  for (guint i = 0; i < n; i++)
    {
      for (guint j = 0; j < n; j++)
        {
          guint steps = i < j ? j - i : i - j;

          g_string_append_printf (day, " %u", 3 * MIN (steps, n - steps));
        }
      if (i + 1 < n)
        g_string_append (day, " /");
    }
  g_string_append (day, "; cost 100 0; van a 0 0 08:00-18:00 break 10 08:00-18:00");
  for (guint i = 1; i < n; i++)
    g_string_append_printf (day, "; call A%02u %u 2", i * 17 % n, i);
  return text_day (day->str);
}

/* It gives up after ten million steps. */
static void
test_too_many (gconstpointer data)
{
  static const HsSolveTerms terms = HS_SOLVE_TERMS_STRICT;
  const guint n = 41;
  g_autoptr (HsProblem) problem = ring_day (n);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (GString) words = g_string_new (NULL);
  g_autofree char *round = NULL;
  g_autofree char *settled = NULL;
  guint asked = 0;
  HsExact exact = { .give_up = count_asked, .user_data = &asked };
  HsPath path;

  for (guint i = 1; i < n; i++)
    g_string_append_printf (words, "%sA%02u", i > 1 ? " " : "", i * 17 % n);
  round = g_strdup (words->str);
  g_string_insert (words, 3, " break");
  hs_solve_frame_trim (frame, 0);
  text_path (frame, words->str, "08:00", &path);
  hs_solve_ties_settle (&exact, frame, NULL, &terms, GPOINTER_TO_INT (data), &path);
  g_assert_cmpuint (asked, <=, 10000000 / 2048 + 1);
  settled = bare (text_path_words (frame, &path));
  g_assert_cmpstr (settled, ==, round);
}

/* A day's calls and counters in another order. */
static void
turn (GPtrArray *array, GRand *rand)
{
  for (guint i = array->len; i > 1; i--)
    {
      guint k = (guint) g_rand_int_range (rand, 0, (gint32) i);
      gpointer kept = array->pdata[i - 1];

      array->pdata[i - 1] = array->pdata[k];
      array->pdata[k] = kept;
    }
}

/* Whatever the order of the file, the routes are the same, to the second. */
static void
test_turned (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);

  for (guint n = 0; n < 60; n++)
    {
      g_autoptr (GString) day = g_string_new (EVEN MILES "van a 0 0 08:00-17:00 break 20 11:00-12:00");
      g_autofree char *first = NULL;

      for (guint i = 0; i < 5; i++)
        g_string_append_printf (day, "; call %c%d %d 15%s%s", 'A' + g_rand_int_range (rand, 0, 5), i,
                                g_rand_int_range (rand, 1, 4), g_rand_boolean (rand) ? " 10:00-12:30" : "",
                                g_rand_boolean (rand) ? " needs p" : "");
      g_string_append (day, "; counter M 1 5 08:00-17:00 sells p=100; counter B 2 5 08:00-17:00 sells p=100");
      for (guint k = 0; k < 4; k++)
        {
          g_autoptr (HsProblem) problem = text_day (day->str);
          g_autoptr (HsSolution) solution = NULL;
          g_autofree char *routes = NULL;

          turn (problem->calls, rand);
          turn (problem->counters, rand);
          solution = text_solve (problem, FALSE);
          routes = text_routes (problem, solution);
          if (first == NULL)
            first = g_strdup (routes);
          g_assert_cmpstr (routes, ==, first);
        }
    }
}

#define GRID_PLACES 19
#define N_GRID_DAYS 2

/* Sixteen calls and two counters on a grid of four minutes, in windows of eight hours: too much to be gone through in a
 * moment, and full of plans that are worth the same. */
static char *
grid_day (guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  GString *day = g_string_new (NULL);
  int x[GRID_PLACES], y[GRID_PLACES];

  for (guint i = 0; i < GRID_PLACES; i++)
    {
      x[i] = g_rand_int_range (rand, 0, 9);
      y[i] = g_rand_int_range (rand, 0, 9);
    }
  for (guint i = 0; i < GRID_PLACES; i++)
    for (guint k = 0; k < GRID_PLACES; k++)
      g_string_append_printf (day, "%s%d", k > 0 ? " " : i > 0 ? " / " : "minutes ",
                              4 * (ABS (x[i] - x[k]) + ABS (y[i] - y[k])));
  g_string_append (day, "; cost 100 0; van a 0 0 07:00-22:00");
  for (guint i = 0; i < GRID_PLACES - 3; i++)
    {
      int from = g_rand_int_range (rand, 8, 11);

      g_string_append_printf (day, "; call %c %d %d %02d:00-%02d:00%s", 'A' + i, i + 1,
                              5 * g_rand_int_range (rand, 2, 5), from, from + 8, i < 3 ? " needs p" : "");
    }
  g_string_append_printf (day, "; counter X %d 5 08:00-12:00 sells p=500; counter Y %d 5 10:00-17:00 sells p=500",
                          GRID_PLACES - 2, GRID_PLACES - 1);
  return g_string_free (day, FALSE);
}

/* A plan that is proven does not depend on the random numbers that it was searched with, down to its ids. */
static void
test_seeds (gconstpointer data)
{
  g_autofree char *day = grid_day (GPOINTER_TO_UINT (data));
  g_autofree char *first = NULL;

  for (guint seed = 1; seed <= 3; seed++)
    {
      g_autoptr (HsProblem) problem = text_day (day);
      g_autoptr (HsSolution) solution = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *routes = NULL;
      const HsSolveHow how = { .seed = seed };

      g_assert_true (hs_solve (problem, &how, &solution, &error));
      g_assert_no_error (error);
      g_assert_cmpint (solution->status, ==, HS_PLAN_OPTIMAL);
      routes = text_routes (problem, solution);
      if (first == NULL)
        first = g_strdup (routes);
      g_assert_cmpstr (routes, ==, first);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-ties/%s", rows[i].name);

      g_test_add_data_func (path, &rows[i], test_row);
    }
  g_test_add_data_func ("/plan/solve-ties/many", GINT_TO_POINTER (TRUE), test_many);
  g_test_add_data_func ("/plan/solve-ties/many-by-van", GINT_TO_POINTER (FALSE), test_many);
  g_test_add_data_func ("/plan/solve-ties/too-many", GINT_TO_POINTER (TRUE), test_too_many);
  g_test_add_data_func ("/plan/solve-ties/too-many-by-van", GINT_TO_POINTER (FALSE), test_too_many);
  g_test_add_func ("/plan/solve-ties/turned", test_turned);
  for (guint i = 0; i < N_GRID_DAYS; i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-ties/seeds/%u", i);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_seeds);
    }
  return g_test_run ();
}
