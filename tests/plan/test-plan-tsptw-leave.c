// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* When to leave so as to be away least: compared with trying every order at every time, and by hand. */

#include "hs-tsptw-leave.h"

#include "tsptw-orders.h"

static void
take_least (const TsptwTour *tour, gpointer data)
{
  gint64 *least = data;

  *least = MIN (*least, tsptw_orders_cost (tour, HS_TSPTW_DURATION));
}

static void
check_closed (const HsTsptw *problem, const HsTsptwAnswer *answer, gint64 least)
{
  g_assert_cmpint (answer->found, ==, least < G_MAXINT64);
  if (!answer->found)
    return;
  g_assert_cmpint (answer->cost, ==, least);
  g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_DURATION, answer->order), ==, least);
}

/* From nothing, and from the best tour itself. */
static void
test_small (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (81);
  HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_DURATION };
  guint solvable = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, shape);
      HsTsptwAnswer answer = { 0 };
      gint64 least = G_MAXINT64;

      tsptw_orders_each (problem, TRUE, take_least, &least);
      g_assert_true (hs_tsptw_leave_close (problem, &how, &answer));
      check_closed (problem, &answer, least);
      solvable += answer.found;
      g_assert_true (hs_tsptw_leave_close (problem, &how, &answer));
      check_closed (problem, &answer, least);
    }
  g_assert_cmpint (solvable, >, shape->problems / 4);
}

/* Two stops an hour from the depot and from each other, and windows of the depot and the stops. Where the second stop
 * opens late, one drives to the first as late as it lets one. */
static void
test_by_hand (void)
{
  static const struct
  {
    gint64 windows[3][2];
    gboolean found;
    gint64 away;
  } rows[] = {
    { { { 0, 1440 }, { 0, 1440 }, { 0, 1440 } }, TRUE, 180 },
    { { { 0, 1440 }, { 480, 500 }, { 600, 700 } }, TRUE, 220 },
    { { { 0, 1440 }, { 480, 500 }, { 560, 700 } }, TRUE, 180 },
    { { { 0, 1440 }, { 480, 480 }, { 900, 900 } }, TRUE, 540 },
    { { { 0, 400 }, { 480, 480 }, { 900, 900 } }, FALSE, 0 },
    { { { 300, 1440 }, { 330, 350 }, { 500, 700 } }, FALSE, 0 },
    { { { 300, 1440 }, { 330, 370 }, { 500, 700 } }, TRUE, 250 },
    { { { 0, 960 }, { 480, 500 }, { 900, 900 } }, TRUE, 520 },
    { { { 0, 959 }, { 480, 500 }, { 900, 900 } }, FALSE, 0 },
  };
  static const gint64 legs[] = { 0, 60, 60, 60, 0, 60, 60, 60, 0 };
  HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_DURATION };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_orders_problem (3, legs, rows[i].windows);
      HsTsptwAnswer answer = { 0 };

      g_assert_true (hs_tsptw_leave_close (problem, &how, &answer));
      g_assert_cmpint (answer.found, ==, rows[i].found);
      if (rows[i].found)
        g_assert_cmpint (answer.cost, ==, rows[i].away);
      g_assert_true (hs_tsptw_solve (problem, &how, &answer, NULL));
      g_assert_cmpint (answer.status, ==, rows[i].found ? HS_PLAN_OPTIMAL : HS_PLAN_IMPOSSIBLE);
      g_assert_cmpint (answer.bound, ==, rows[i].away);
    }
}

static gboolean
stop (gpointer data)
{
  guint *left = data;

  if (*left == 0)
    return TRUE;
  --*left;
  return FALSE;
}

/* Told to stop it proves nothing, unless it was done by then, and keeps what it was given. */
static void
test_stopped (void)
{
  static const TsptwShape shape = { "long", 30, 40, 120, 1, FALSE, FALSE, FALSE, 0, 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (82);
  g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, &shape);
  HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_DURATION };
  HsTsptwAnswer best = { 0 };

  g_assert_true (hs_tsptw_leave_close (problem, &how, &best));
  g_assert_true (best.found);
  for (guint questions = 0; questions < 3; questions++)
    {
      HsTsptwAnswer answer = best;
      guint left = questions;

      how.give_up = stop;
      how.user_data = &left;
      g_assert_false (hs_tsptw_leave_close (problem, &how, &answer));
      g_assert_cmpint (answer.cost, ==, best.cost);
      g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_DURATION, answer.order), ==, best.cost);
    }
}

/* Waiting that can't be avoided: what is driven is far below the time away, and yet it is proven. */
static void
test_proven (void)
{
  static const TsptwShape shape = { "waits", 30, 40, 60, 1, FALSE, FALSE, FALSE, 0, 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (83);

  for (guint i = 0; i < 4; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, &shape);
      HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_TRAVEL };
      HsTsptwAnswer travel, answer;
      guint waits = 0;

      for (guint node = 0; node < problem->n_nodes; node++)
        {
          problem->from[node] *= node == 0 ? 1 : 2;
          problem->to[node] *= 2;
          waits += problem->from[node] > 0;
        }
      g_assert_cmpint (waits, >, 10);
      g_assert_true (hs_tsptw_solve (problem, &how, &travel, NULL));
      how.objective = HS_TSPTW_DURATION;
      g_assert_true (hs_tsptw_solve (problem, &how, &answer, NULL));
      g_assert_cmpint (answer.status, ==, HS_PLAN_OPTIMAL);
      g_assert_cmpint (answer.bound, ==, answer.cost);
      g_assert_cmpint (answer.cost, >, travel.cost);
      g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_DURATION, answer.order), ==, answer.cost);
    }
}

int
main (int argc, char **argv)
{
  static const TsptwShape shapes[] = {
    { "narrow", 5, 20, 40, 40, FALSE, FALSE, FALSE, 0, 0 },
    { "asymmetric", 5, 20, 80, 40, FALSE, TRUE, FALSE, 0, 0 },
    { "no-triangle", 5, 20, 60, 60, TRUE, TRUE, TRUE, 0, 0 },
    { "missing-legs", 5, 12, 60, 60, FALSE, TRUE, TRUE, 15, 0 },
    { "orders", 5, 15, 70, 40, FALSE, TRUE, FALSE, 0, 2 },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw-leave/small/%s", shapes[i].name);

      g_test_add_data_func (path, &shapes[i], test_small);
    }
  g_test_add_func ("/tsptw-leave/by-hand", test_by_hand);
  g_test_add_func ("/tsptw-leave/stopped", test_stopped);
  g_test_add_func ("/tsptw-leave/proven", test_proven);
  return g_test_run ();
}
