// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* In which order a day is written down does not matter: neither to the plan, nor to what is told on the way, nor to
 * reasons. */

#include "hs-solve-sort.h"

#include "answer-check.h"
#include "plan-text-day.h"

#include <string.h>

static void
note_told (const HsSolution *solution, gpointer data)
{
  GPtrArray *told = data;

  g_ptr_array_add (told, text_routes (told->pdata[0], solution));
}

/* (transfer full): all that is said of the day, in words. */
static char *
say_all (HsProblem *problem)
{
  g_autoptr (GPtrArray) told = g_ptr_array_new ();
  const HsSolveHow how = { .user_data = told, .seed = 1, .explain = TRUE, .max_labels = 100000, .found = note_told };
  g_autoptr (HsSolution) solution = NULL;
  GString *words = g_string_new (NULL);
  g_autofree char *bought = NULL;
  g_autofree char *broken = NULL;
  g_autofree char *unserved = NULL;
  g_autofree char *fault = NULL;

  g_ptr_array_add (told, problem);
  g_assert_true (hs_solve (problem, &how, &solution, NULL));
  fault = answer_fault (problem, solution);
  g_assert_cmpstr (fault, ==, NULL);
  g_assert_cmpuint (told->len, >, 1);
  for (guint i = 1; i < told->len; i++)
    {
      g_string_append_printf (words, "%s\n", (char *) told->pdata[i]);
      g_free (told->pdata[i]);
    }
  bought = text_bought (problem, solution);
  broken = text_troubles (problem, solution->broken);
  unserved = text_troubles (problem, solution->unserved);
  g_string_append_printf (words, "%s\n%s\n%s\n%d %d", bought, broken, unserved, solution->status, solution->proven);
  for (guint i = 0; i < solution->broken->len; i++)
    {
      g_autofree char *conflicts = text_calls (problem, hs_solution_get_broken (solution, i)->conflicts);

      g_string_append_printf (words, "\n%s: %s", hs_solution_get_broken (solution, i)->why, conflicts);
    }
  return g_string_free (words, FALSE);
}

static void
test_any_order (void)
{
  static const guint sizes[] = { 3, 6, 9, 20 };
  guint n_days = 0;

  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (guint32 seed = 0; seed < (sizes[s] < 20 ? 6 : 1); seed++)
      {
        g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
        g_autoptr (HsProblem) problem = text_busy_day (sizes[s], seed);
        g_autoptr (HsProblem) other = text_busy_day (sizes[s], seed);
        g_autofree char *words = say_all (problem);
        g_autofree char *others = NULL;

        text_shuffle (rand, other);
        others = say_all (other);
        g_assert_cmpstr (others, ==, words);
        n_days++;
      }
  g_assert_cmpuint (n_days, ==, 19);
}

/* There and back again is where it was. */
static void
test_back (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 20 / 10 0 10 / 20 10 0; cost 100 0; van z 0 0 08:00-17:00; "
                                            "van a 0 0 08:00-17:00; call D 1 30 08:10-08:10 needs y van z; "
                                            "call B 2 30 08:20-08:20; call A 2 30 08:20-08:20; "
                                            "counter L 0 5 07:00-17:00 sells x=5,y=6; "
                                            "counter K 1 5 07:00-17:00 sells y=7");
  g_autoptr (HsSorted) sorted = hs_sorted_new (problem);
  g_autoptr (HsSolution) solution = text_solve (problem, TRUE);
  g_autofree char *before = text_routes (problem, solution);
  g_autofree char *there = NULL;
  g_autofree char *after = NULL;

  g_assert_cmpstr (hs_problem_get_call (sorted->problem, 0)->id, ==, "A");
  g_assert_cmpint (hs_problem_get_call (sorted->problem, 2)->van, ==, 1);
  g_assert_cmpuint (sorted->vans[0], ==, 1);
  g_assert_cmpuint (sorted->calls[2], ==, 0);
  g_assert_cmpuint (sorted->counters[0], ==, 1);
  hs_sorted_apply (sorted, solution);
  there = text_routes (sorted->problem, solution);
  g_assert_cmpstr (there, ==, before);
  hs_sorted_restore (sorted, solution);
  after = text_routes (problem, solution);
  g_assert_cmpstr (after, ==, before);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-sort/any-order", test_any_order);
  g_test_add_func ("/plan/solve-sort/back", test_back);
  return g_test_run ();
}
