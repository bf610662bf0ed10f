// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Few stops gone through set by set: what comes out is compared with trying every order, under every budget that makes
 * a difference. */

#include "hs-tsptw-caps.h"
#include "hs-tsptw-few.h"

#include "tsptw-orders.h"

#define ALL_PATHS 4000000

static void
run (const HsTsptw *problem, HsTsptwFew *few, gboolean complete)
{
  g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
  g_autoptr (HsTsptwWay) way = hs_tsptw_way_new (frame, FALSE);

  few->found = FALSE;
  if (frame->possible)
    g_assert_cmpint (hs_tsptw_few_run (way, few), ==, complete);
}

/* One that is found within @budget is a best one. */
static void
check (const HsTsptw *problem, gint64 budget, gint64 least)
{
  HsTsptwFew few = { .budget = budget, .max_paths = ALL_PATHS };

  run (problem, &few, TRUE);
  g_assert_cmpint (few.found, ==, least >= 0 && least <= budget);
  if (few.found)
    g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, few.order), ==, least);
}

static void
test_random (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (17 + shape->stops);
  guint solvable = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, shape);
      gint64 least = tsptw_trial_try_all (problem, HS_TSPTW_TRAVEL);

      check (problem, HS_TSPTW_FAR - 1, least);
      if (least < 0)
        continue;
      check (problem, least, least);
      check (problem, least - 1, least);
      check (problem, least + shape->side / 2, least);
      solvable++;
    }
  g_assert_cmpint (solvable, >, shape->problems / 8);
}

/* All stops at any time of a day but one, at which the vehicle waits long. */
static HsTsptw *
make_wide (guint stops)
{
  guint n = stops + 1;
  HsTsptw *problem = hs_tsptw_new (n);
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint i = 0; i < n * n; i++)
    problem->drive[i] = g_rand_int_range (rand, 50, 100);
  for (guint i = 0; i < n; i++)
    problem->to[i] = 100000;
  problem->from[1] = 10000;
  problem->to[1] = 10100;
  return problem;
}

/* The most stops that it takes: the whole search and this one agree. */
static void
test_most_stops (void)
{
  g_autoptr (HsTsptw) problem = make_wide (HS_TSPTW_FEW_STOPS);
  HsTsptwCaps caps = hs_tsptw_caps_usual;
  HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_TRAVEL };
  HsTsptwAnswer answer;

  caps.few_paths = 0;
  g_assert_true (hs_tsptw_solve_capped (problem, &how, &caps, &answer, NULL));
  g_assert_cmpint (answer.status, ==, HS_PLAN_OPTIMAL);
  check (problem, answer.cost, answer.cost);
  check (problem, answer.cost - 1, answer.cost);
}

/* With too few paths nothing is said, also not that there is no tour. */
static void
test_max_paths (void)
{
  g_autoptr (HsTsptw) problem = make_wide (12);
  HsTsptwFew few = { .budget = HS_TSPTW_FAR - 1, .max_paths = 100 };

  run (problem, &few, FALSE);
  g_assert_false (few.found);
  g_assert_cmpint (few.states, >, 100);
}

static gboolean
stop_at_once (gpointer data)
{
  guint *asked = data;

  (*asked)++;
  return TRUE;
}

static void
test_give_up (void)
{
  g_autoptr (HsTsptw) problem = make_wide (12);
  guint asked = 0;
  HsTsptwFew few = { HS_TSPTW_FAR - 1, ALL_PATHS, stop_at_once, &asked };

  run (problem, &few, FALSE);
  g_assert_false (few.found);
  g_assert_cmpint (asked, ==, 1);
}

int
main (int argc, char **argv)
{
  static const TsptwShape shapes[] = {
    { "one", 1, 20, 60, 20, TRUE, TRUE, TRUE, 0, 0 },
    { "wide", 6, 20, 100, 60, FALSE, FALSE, FALSE, 0, 0 },
    { "narrow", 6, 20, 30, 60, TRUE, FALSE, FALSE, 0, 0 },
    { "no-triangle", 6, 20, 80, 60, FALSE, TRUE, TRUE, 0, 0 },
    { "missing-legs", 5, 15, 80, 100, FALSE, TRUE, TRUE, 30, 0 },
    { "orders", 6, 20, 100, 60, FALSE, TRUE, TRUE, 0, 3 },
    { "legs-of-nothing", 6, 1, 6, 60, FALSE, TRUE, TRUE, 0, 0 },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw-few/random/%s", shapes[i].name);

      g_test_add_data_func (path, &shapes[i], test_random);
    }
  g_test_add_func ("/tsptw-few/most-stops", test_most_stops);
  g_test_add_func ("/tsptw-few/max-paths", test_max_paths);
  g_test_add_func ("/tsptw-few/give-up", test_give_up);
  return g_test_run ();
}
