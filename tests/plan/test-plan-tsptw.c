// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One vehicle with windows: every answer is driven by a checker of its own, and small problems are compared with trying
 * every order at every leave time. */

#include "hs-plan-error.h"
#include "hs-tsptw.h"

#include "tsptw-trial.h"

#include <string.h>

static const HsTsptwObjective objectives[] = { HS_TSPTW_TRAVEL, HS_TSPTW_MAKESPAN, HS_TSPTW_DURATION };

static HsTsptwAnswer
solve (const HsTsptw *problem, HsTsptwObjective objective, HsPlanGiveUp give_up, gpointer data)
{
  HsTsptwHow how = { give_up, data, 7, objective };
  HsTsptwAnswer answer;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_tsptw_solve (problem, &how, &answer, &error));
  g_assert_no_error (error);
  g_assert_cmpint (answer.status == HS_PLAN_OPTIMAL && !answer.found, ==, FALSE);
  if (answer.found)
    g_assert_cmpint (tsptw_trial_drive (problem, objective, answer.order), ==, answer.cost);
  return answer;
}

static void
compare_with_all_orders (const HsTsptw *problem, guint number)
{
  for (guint i = 0; i < G_N_ELEMENTS (objectives); i++)
    {
      gint64 least = tsptw_trial_try_all (problem, objectives[i]);
      HsTsptwAnswer answer = solve (problem, objectives[i], NULL, NULL);

      g_test_message ("problem %u objective %u", number, objectives[i]);
      g_assert_cmpint (answer.found, ==, least >= 0);
      g_assert_cmpint (answer.status, ==, least >= 0 ? HS_PLAN_OPTIMAL : HS_PLAN_IMPOSSIBLE);
      if (least < 0)
        continue;
      g_assert_cmpint (answer.cost, ==, least);
      g_assert_cmpint (answer.bound, ==, least);
    }
}

static void
test_all_orders (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (4711 + shape->stops);
  guint impossible = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, shape);

      compare_with_all_orders (problem, i);
      impossible += tsptw_trial_try_all (problem, HS_TSPTW_TRAVEL) < 0;
    }
  if (shape->some_impossible)
    g_assert_cmpint (impossible, >, shape->problems / 20);
  g_assert_cmpint (impossible, <, shape->problems);
}

/* No stop, and one stop that is reached too late or just in time. */
static void
test_smallest (void)
{
  g_autoptr (HsTsptw) alone = hs_tsptw_new (1);
  g_autoptr (HsTsptw) pair = hs_tsptw_new (2);
  HsTsptwAnswer answer;

  alone->from[0] = 5;
  alone->to[0] = 9;
  answer = solve (alone, HS_TSPTW_TRAVEL, NULL, NULL);
  g_assert_true (answer.found && answer.status == HS_PLAN_OPTIMAL);
  g_assert_cmpint (answer.cost, ==, 0);
  answer = solve (alone, HS_TSPTW_MAKESPAN, NULL, NULL);
  g_assert_cmpint (answer.cost, ==, 5);

  pair->to[0] = 100;
  pair->drive[1] = 30;
  pair->drive[2] = 45;
  pair->from[1] = 50;
  pair->to[1] = 55;
  g_assert_cmpint (solve (pair, HS_TSPTW_TRAVEL, NULL, NULL).cost, ==, 75);
  g_assert_cmpint (solve (pair, HS_TSPTW_MAKESPAN, NULL, NULL).cost, ==, 95);
  g_assert_cmpint (solve (pair, HS_TSPTW_DURATION, NULL, NULL).cost, ==, 75);
  pair->to[0] = 95;
  g_assert_cmpint (solve (pair, HS_TSPTW_TRAVEL, NULL, NULL).status, ==, HS_PLAN_OPTIMAL);
  pair->to[0] = 94;
  g_assert_cmpint (solve (pair, HS_TSPTW_TRAVEL, NULL, NULL).status, ==, HS_PLAN_IMPOSSIBLE);
  pair->to[0] = 100;
  pair->from[1] = 0;
  pair->to[1] = 29;
  g_assert_cmpint (solve (pair, HS_TSPTW_DURATION, NULL, NULL).status, ==, HS_PLAN_IMPOSSIBLE);
}

/* A detour over a stop may be shorter than the leg itself; the leg is still driven as tabled. */
static void
test_legs_as_tabled (void)
{
  g_autoptr (HsTsptw) problem = hs_tsptw_new (4);
  HsTsptwAnswer answer;

  for (guint i = 0; i < 4; i++)
    {
      problem->to[i] = 1000;
      for (guint j = 0; j < 4; j++)
        problem->drive[i * 4 + j] = 10;
    }
  problem->drive[0 * 4 + 3] = 100;
  problem->to[3] = 20;
  problem->to[1] = 10;
  answer = solve (problem, HS_TSPTW_TRAVEL, NULL, NULL);
  g_assert_cmpint (answer.cost, ==, 40);
  problem->to[1] = 1000;
  hs_tsptw_add_before (problem, 3, 1);
  hs_tsptw_add_before (problem, 3, 2);
  g_assert_cmpint (solve (problem, HS_TSPTW_TRAVEL, NULL, NULL).status, ==, HS_PLAN_IMPOSSIBLE);
  problem->to[3] = 100;
  g_assert_cmpint (solve (problem, HS_TSPTW_TRAVEL, NULL, NULL).cost, ==, 130);
}

static void
test_refused (void)
{
  static const struct
  {
    gint64 leg;
    gint64 from;
    gint64 to;
    HsTsptwPair pair;
    const char *field;
  } rows[] = {
    { -1, 0, 9, { 1, 2 }, "drive[1]" },
    { HS_TSPTW_MAX_VALUE + 1, 0, 9, { 1, 2 }, "drive[1]" },
    { 1, -1, 9, { 1, 2 }, "window[2]" },
    { 1, 0, HS_TSPTW_MAX_VALUE + 1, { 1, 2 }, "window[2]" },
    { 1, 9, 8, { 1, 2 }, "window[2]: ends before it begins" },
    { 1, 0, 9, { 0, 2 }, "before[0]" },
    { 1, 0, 9, { 1, 0 }, "before[0]" },
    { 1, 0, 9, { 3, 1 }, "before[0]" },
    { 1, 0, 9, { 1, 3 }, "before[0]" },
    { 1, 0, 9, { 2, 2 }, "before[0]" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsTsptw) problem = hs_tsptw_new (3);
      g_autoptr (GError) error = NULL;
      HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_TRAVEL };
      HsTsptwAnswer answer = { .cost = 1234 };

      problem->drive[1] = rows[i].leg;
      problem->from[2] = rows[i].from;
      problem->to[2] = rows[i].to;
      hs_tsptw_add_before (problem, rows[i].pair.first, rows[i].pair.then);
      g_assert_false (hs_tsptw_solve (problem, &how, &answer, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_nonnull (strstr (error->message, rows[i].field));
      g_assert_cmpint (answer.cost, ==, 1234);
    }
}

/* Orders that go round are impossible, not endless. */
static void
test_orders_in_a_ring (void)
{
  g_autoptr (HsTsptw) problem = hs_tsptw_new (4);

  for (guint i = 0; i < 4; i++)
    problem->to[i] = 1000;
  hs_tsptw_add_before (problem, 1, 2);
  hs_tsptw_add_before (problem, 2, 3);
  g_assert_cmpint (solve (problem, HS_TSPTW_TRAVEL, NULL, NULL).status, ==, HS_PLAN_OPTIMAL);
  hs_tsptw_add_before (problem, 3, 1);
  g_assert_cmpint (solve (problem, HS_TSPTW_TRAVEL, NULL, NULL).status, ==, HS_PLAN_IMPOSSIBLE);
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

/* Told to stop at any moment, it has a tour in time and a bound that is not above it. */
static void
test_cut (void)
{
  static const TsptwShape shape = { .stops = 40, .side = 50, .width = 150 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (99);
  g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &shape);

  for (guint i = 0; i < G_N_ELEMENTS (objectives); i++)
    for (guint patience = 0; patience < 40; patience += patience < 8 ? 1 : 8)
      {
        guint left = patience;
        HsTsptwAnswer answer = solve (problem, objectives[i], count_down, &left);

        g_assert_true (answer.found || patience == 0);
        g_assert_cmpint (answer.status, !=, HS_PLAN_IMPOSSIBLE);
        if (answer.found)
          g_assert_cmpint (answer.bound, <=, answer.cost);
      }
}

/* A stop every ten minutes, three minutes apart, each open for five. They can only be reached in turn, and at the first
 * one can be fifteen minutes after the depot opened. With two stops at one moment nothing can be done. */
static void
test_many_in_turn (void)
{
  guint n = HS_TSPTW_MAX_NODES;
  g_autoptr (HsTsptw) problem = hs_tsptw_new (n);
  const gint64 least[] = { 3 * n, 10 * (n - 1) + 3, 10 * (n - 1) + 3 - 12 };

  for (guint i = 0; i < n * n; i++)
    problem->drive[i] = 3;
  for (guint i = 1; i < n; i++)
    {
      problem->from[i] = 10 * i;
      problem->to[i] = 10 * i + 5;
    }
  problem->to[0] = 10 * n;
  for (guint i = 0; i < G_N_ELEMENTS (objectives); i++)
    {
      HsTsptwAnswer answer = solve (problem, objectives[i], NULL, NULL);

      g_assert_cmpint (answer.status, ==, HS_PLAN_OPTIMAL);
      g_assert_cmpint (answer.cost, ==, least[objectives[i]]);
      for (guint stop = 1; stop < n; stop++)
        g_assert_cmpint (answer.order[stop - 1], ==, stop);
    }
  problem->from[n - 2] = problem->to[n - 2] = problem->from[n - 1] = problem->to[n - 1];
  g_assert_cmpint (solve (problem, HS_TSPTW_TRAVEL, NULL, NULL).status, ==, HS_PLAN_IMPOSSIBLE);
}

/* As many stops as the largest public sets have: a tour in time, whole, whenever it is told to stop. */
static void
test_many_cut (void)
{
  static const TsptwShape shape = { .stops = 400, .side = 50, .width = 200 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (400);
  g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &shape);

  for (guint i = 0; i < G_N_ELEMENTS (objectives); i++)
    {
      guint left = 200;
      HsTsptwAnswer answer = solve (problem, objectives[i], count_down, &left);

      g_assert_true (answer.found);
      g_assert_cmpint (answer.bound, <=, answer.cost);
    }
}

static void
test_same_again (void)
{
  static const TsptwShape shape = { .stops = 25, .side = 50, .width = 90 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint round = 0; round < 5; round++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &shape);

      for (guint i = 0; i < G_N_ELEMENTS (objectives); i++)
        {
          HsTsptwAnswer first = solve (problem, objectives[i], NULL, NULL);
          HsTsptwAnswer again = solve (problem, objectives[i], NULL, NULL);

          g_assert_cmpint (first.status, ==, HS_PLAN_OPTIMAL);
          g_assert_cmpint (first.states, ==, again.states);
          g_assert_cmpmem (first.order, sizeof first.order, again.order, sizeof again.order);
        }
    }
}

int
main (int argc, char **argv)
{
  static const TsptwShape shapes[] = {
    { "symmetric", 6, 20, 60, 150, TRUE, FALSE, FALSE, 0, 0 },
    { "narrow", 7, 20, 25, 60, TRUE, FALSE, FALSE, 0, 0 },
    { "asymmetric", 6, 15, 40, 150, TRUE, TRUE, FALSE, 0, 0 },
    { "no-triangle", 6, 15, 50, 150, TRUE, TRUE, TRUE, 0, 0 },
    { "missing-legs", 6, 15, 60, 150, TRUE, TRUE, TRUE, 25, 0 },
    { "orders", 6, 15, 80, 150, TRUE, TRUE, FALSE, 0, 3 },
    { "legs-of-nothing", 6, 1, 4, 100, TRUE, TRUE, TRUE, 0, 0 },
    { "small", 3, 20, 40, 150, TRUE, TRUE, TRUE, 10, 1 },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw/all-orders/%s", shapes[i].name);

      g_test_add_data_func (path, &shapes[i], test_all_orders);
    }
  g_test_add_func ("/tsptw/smallest", test_smallest);
  g_test_add_func ("/tsptw/legs-as-tabled", test_legs_as_tabled);
  g_test_add_func ("/tsptw/refused", test_refused);
  g_test_add_func ("/tsptw/orders-in-a-ring", test_orders_in_a_ring);
  g_test_add_func ("/tsptw/cut", test_cut);
  g_test_add_func ("/tsptw/many-in-turn", test_many_in_turn);
  g_test_add_func ("/tsptw/many-cut", test_many_cut);
  g_test_add_func ("/tsptw/same-again", test_same_again);
  return g_test_run ();
}
