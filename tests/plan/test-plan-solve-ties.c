// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plans worth the same: the ids decide, and never the order in which a day was written down. */

#include "hs-solve-ties.h"

#include "plan-text-day.h"

#include <string.h>

/* @path and @leaves: a plan that is as good as any; @settled: what it turns into */
typedef struct
{
  const char *name;
  const char *day;
  const char *path;
  const char *leaves;
  const char *settled;
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
    "08:00", "A B" },
  { "a-break-before-leaving", EVEN MILES "cost 0 50; van a 0 0 08:00-17:00 break 10 08:00-09:00; "
    "call A 1 10 08:20-08:25; call B 2 50 08:50-09:00", "A break B", "08:00", "A B" },
  { "a-break-as-well-at-home", EVEN MILES "cost 0 50; van a 0 0 08:00-17:00 break 10 08:00-12:00; "
    "call a 1 10 08:10-08:10; call c 2 10 09:00-09:00", "a break c", "08:00", "a c" },
  { "no-time-for-it-at-home", EVEN MILES "van a 0 0 08:00-17:00 break 30 08:10-08:55; call A 1 10 08:10-08:10; "
    "call B 2 10", "A break B", "08:00", "A break B" },
  { "home-is-earlier-with-it", EVEN MILES "cost 0 50; van a 0 0 08:00-17:00 break 10 08:20-08:35; call A 1 10; "
    "call B 2 10", "A break B", "08:00", "A break B" },
  { "two-vans", EVEN MILES "van a 0 0 08:00-17:00; van b 1 1 08:00-17:00; call D 2 10 van a; call C 2 10 van a; "
    "call B 2 10 van b; call A 2 10 van b", "D C / B A", "08:00 08:00", "C D / A B" },
  { "the-first-van-stays", EVEN MILES "van a 0 0 08:00-17:00; van b 1 1 08:00-17:00; call B 2 10; call A 2 10",
    "/ B A", "08:00 08:00", "/ A B" },
  { "the-second-van-stays", EVEN MILES "van a 0 0 08:00-17:00; van b 1 1 08:00-17:00; call B 2 10; call A 2 10",
    "B A", "08:00", "A B" },
  /* Of vans that are alike those go whose ids come first, each with what comes first. */
  { "alike-stays", EVEN MILES "van b 0 0 08:00-17:00; van a 0 0 08:00-17:00; call A 1 10", "A", "08:00 08:00", "/ A" },
  { "alike-first", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call A 1 10", "/ A", "08:00 08:00", "A" },
  { "alike-both", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call B 1 10; call A 2 10; call C 3 10",
    "C B / A", "08:00 08:00", "A / B C" },
  { "alike-but-one", EVEN MILES "van c 0 0 08:00-17:00; van b 0 0 08:00-17:00 skills gas; van a 0 0 08:00-17:00; "
    "call A 1 10; call B 2 10 skills gas; call C 3 10", "A / B / C", "08:00 08:00 08:00", "C / B / A" },
  { "not-alike", EVEN MILES "van a 0 0 08:00-17:00; van b 0 0 08:00-16:00; call A 1 10; call B 2 10", "B / A",
    "08:00 08:00", "B / A" },
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
  static const HsSolveTerms terms = { FALSE, 0, 0, 0, 0 };
  const Row *row = data;
  g_autoptr (HsProblem) problem = text_day (row->day);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autofree char *settled = NULL;
  HsPath path;

  hs_solve_frame_trim (frame, 0);
  text_path (frame, row->path, row->leaves, &path);
  hs_solve_ties_settle (frame, &terms, &path);
  settled = bare (text_path_words (frame, &path));
  g_assert_cmpstr (settled, ==, row->settled);
}

/* Forty calls that are all alike, and one that has to be the first. Where something may be late, that is not seen at
 * once, there are more orders than can be gone through, and the plan stays as it is. Neither takes long. */
static void
test_many (gconstpointer data)
{
  const gboolean patient = GPOINTER_TO_INT (data);
  HsSolveTerms terms = { FALSE, patient ? 0 : 1, 0, 36000, 36000 };
  g_autoptr (GString) day = g_string_new ("minutes 0 10 / 10 0; cost 100 0; van a 0 0 08:00-17:00");
  g_autoptr (GString) words = g_string_new ("Z");
  g_autoptr (GString) ordered = g_string_new ("Z");
  g_autoptr (HsProblem) problem = NULL;
  g_autoptr (HsSolveFrame) frame = NULL;
  g_autofree char *settled = NULL;
  HsPath path;
  gint64 began;

  for (guint i = 40; i > 0; i--)
    {
      g_string_append_printf (day, "; call A%02u 1 5", i);
      g_string_append_printf (words, " A%02u", i);
      g_string_append_printf (ordered, " A%02u", 41 - i);
    }
  g_string_append (day, "; call Z 1 5 08:00-08:10");
  problem = text_day (day->str);
  frame = text_frame (problem);
  hs_solve_frame_trim (frame, 0);
  text_path (frame, words->str, "08:00", &path);
  began = g_get_monotonic_time ();
  hs_solve_ties_settle (frame, &terms, &path);
  g_assert_cmpint (g_get_monotonic_time () - began, <, 10 * G_USEC_PER_SEC);
  settled = bare (text_path_words (frame, &path));
  g_assert_cmpstr (settled, ==, patient ? ordered->str : words->str);
}

/* A break that belongs before leaving goes there, and the van leaves after it, though the orders can't be gone through
 * and the rest stays as it is. */
static void
test_many_after_a_break (void)
{
  static const HsSolveTerms terms = { FALSE, 1, 0, 36000, 36000 };
  g_autoptr (GString) day = g_string_new ("minutes 0 10 / 10 0; van a 0 0 08:00-17:00 break 10 08:00-08:30");
  g_autoptr (GString) words = g_string_new (NULL);
  g_autofree char *with_break = NULL;
  g_autoptr (HsProblem) problem = NULL;
  g_autoptr (HsSolveFrame) frame = NULL;
  g_autofree char *settled = NULL;
  HsPath path;

  for (guint i = 40; i > 0; i--)
    {
      g_string_append_printf (day, "; call A%02u 1 5", i);
      g_string_append_printf (words, " A%02u", i);
    }
  g_string_append (day, "; call Z 1 5 08:10-08:25");
  problem = text_day (day->str);
  frame = text_frame (problem);
  hs_solve_frame_trim (frame, 0);
  with_break = g_strconcat ("Z break", words->str, NULL);
  g_string_prepend (words, "Z");
  text_path (frame, with_break, "08:00", &path);
  hs_solve_ties_settle (frame, &terms, &path);
  settled = bare (text_path_words (frame, &path));
  g_assert_cmpstr (settled, ==, words->str);
  g_assert_cmpint (path.leave[0], ==, text_clock ("08:10"));
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
  g_test_add_data_func ("/plan/solve-ties/too-many", GINT_TO_POINTER (FALSE), test_many);
  g_test_add_func ("/plan/solve-ties/many-after-a-break", test_many_after_a_break);
  g_test_add_func ("/plan/solve-ties/turned", test_turned);
  return g_test_run ();
}
