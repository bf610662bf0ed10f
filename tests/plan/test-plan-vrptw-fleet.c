// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Routes in play: after any row of changes, and after taking them back, every figure is what a fresh count gives. */

#include "hs-vrptw-ruin.h"

#include "vrptw-judge.h"

/* Counts @route anew from its stops alone. Returns its length. */
static gint64
recount_route (const HsFleet *fleet, guint route)
{
  const HsVrptw *problem = fleet->problem;
  const HsFleetRoute *row = &fleet->routes[route];
  gint64 free_at = problem->stops[0].ready;
  gint64 latest = problem->stops[0].due;
  gint64 length = 0;
  gint64 load = 0;

  g_assert_cmpuint (row->steps[0].stop, ==, 0);
  g_assert_cmpuint (row->steps[row->len + 1].stop, ==, 0);
  for (guint k = 1; k <= row->len + 1; k++)
    {
      const HsVrptwStop *stop = &problem->stops[row->steps[k].stop];
      gint64 leg = hs_vrptw_leg (problem, row->steps[k - 1].stop, row->steps[k].stop);

      g_assert_cmpint (row->steps[k - 1].leg, ==, leg);
      g_assert_cmpint (free_at + leg, <=, stop->due);
      length += leg;
      load += stop->demand;
      free_at = MAX (free_at + leg, stop->ready) + stop->service;
      g_assert_cmpint (row->steps[k].free_at, ==, free_at);
    }
  g_assert_cmpint (row->load, ==, load);
  g_assert_cmpint (load, <=, problem->capacity);
  for (guint k = row->len; k > 0; k--)
    {
      const HsVrptwStop *stop = &problem->stops[row->steps[k].stop];

      latest = MIN (stop->due, latest - row->steps[k].leg - stop->service);
      g_assert_cmpint (row->steps[k].latest, ==, latest);
      g_assert_cmpuint (fleet->route_of[row->steps[k].stop], ==, route);
      g_assert_cmpuint (fleet->place_of[row->steps[k].stop], ==, k);
    }
  return length;
}

static void
recount (const HsFleet *fleet)
{
  guint n_in = 0;
  guint n_used = 0;
  gint64 cost = 0;

  for (guint r = 0; r < fleet->n_routes; r++)
    {
      cost += recount_route (fleet, r);
      n_in += fleet->routes[r].len;
      n_used += fleet->routes[r].len > 0;
    }
  g_assert_cmpint (fleet->cost, ==, cost);
  g_assert_cmpuint (n_in + fleet->n_out, ==, fleet->problem->n);
  g_assert_cmpuint (hs_fleet_count (fleet), ==, n_used);
  for (guint i = 0; i < fleet->n_out; i++)
    {
      g_assert_cmpuint (fleet->route_of[fleet->out[i]], ==, HS_FLEET_OUT);
      g_assert_cmpuint (fleet->place_of[fleet->out[i]], ==, i);
    }
}

/* All that a fleet says, as text. */
static char *
write_down (const HsFleet *fleet)
{
  GString *text = g_string_new (NULL);

  for (guint r = 0; r < fleet->n_routes; r++)
    {
      for (guint k = 1; k <= fleet->routes[r].len; k++)
        g_string_append_printf (text, " %u", fleet->routes[r].steps[k].stop);
      g_string_append (text, " /");
    }
  for (guint i = 0; i < fleet->n_out; i++)
    g_string_append_printf (text, " %u", fleet->out[i]);
  return g_string_free (text, FALSE);
}

static void
test_rounds (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint p = 0; p < 12; p++)
    {
      guint n = 3 + p * 5;
      g_autoptr (HsVrptw) problem = judge_random (rand, n, p % 4 * 30, FALSE);
      g_autoptr (HsFleet) fleet = hs_fleet_new (problem, n);
      g_autoptr (HsRuin) ruin = hs_ruin_new (problem, p);

      recount (fleet);
      g_assert_cmpuint (fleet->n_out, ==, n);
      ruin->overlooks = FALSE;
      hs_ruin_put_back (ruin, fleet, n);
      g_assert_cmpuint (fleet->n_out, ==, 0);
      recount (fleet);
      for (guint i = 0; i < 200; i++)
        {
          g_autofree char *before = write_down (fleet);
          gint64 cost = fleet->cost;

          hs_fleet_mark (fleet);
          hs_ruin_take_out (ruin, fleet);
          g_assert_cmpuint (fleet->n_out, >, 0);
          recount (fleet);
          hs_ruin_put_back (ruin, fleet, n);
          recount (fleet);
          if (i % 3 == 0)
            {
              g_autofree char *after = NULL;

              hs_fleet_take_back (fleet);
              after = write_down (fleet);
              g_assert_cmpstr (after, ==, before);
              g_assert_cmpint (fleet->cost, ==, cost);
              recount (fleet);
            }
        }
    }
}

/* Out of few routes some customers stay out; taking back restores those that were out, in their order. */
static void
test_left_out (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);
  g_autoptr (HsVrptw) problem = judge_random (rand, 50, 40, FALSE);
  g_autoptr (HsFleet) fleet = hs_fleet_new (problem, 5);
  g_autoptr (HsRuin) ruin = hs_ruin_new (problem, 9);

  hs_ruin_put_back (ruin, fleet, 3);
  g_assert_cmpuint (fleet->n_out, >, 0);
  g_assert_cmpuint (hs_fleet_count (fleet), ==, 3);
  for (guint i = 0; i < 100; i++)
    {
      g_autofree char *before = write_down (fleet);
      g_autofree char *after = NULL;

      hs_fleet_mark (fleet);
      hs_ruin_take_out (ruin, fleet);
      hs_ruin_put_back (ruin, fleet, 3 + i % 3);
      recount (fleet);
      hs_fleet_take_back (fleet);
      after = write_down (fleet);
      g_assert_cmpstr (after, ==, before);
      recount (fleet);
    }
}

static void
test_swap (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);
  g_autoptr (HsVrptw) problem = judge_random (rand, 20, 40, FALSE);
  g_autoptr (HsFleet) fleet = hs_fleet_new (problem, 20);
  g_autoptr (HsRuin) ruin = hs_ruin_new (problem, 1);
  gint64 cost;
  guint len;

  hs_ruin_put_back (ruin, fleet, 20);
  cost = fleet->cost;
  len = fleet->routes[0].len;
  hs_fleet_swap (fleet, 0, 19);
  recount (fleet);
  g_assert_cmpuint (fleet->routes[19].len, ==, len);
  g_assert_cmpuint (fleet->routes[0].len, ==, 0);
  g_assert_cmpint (fleet->cost, ==, cost);
}

/* A lone customer is put where it adds least: a line of three, the middle one last. */
static void
test_cheapest_place (void)
{
  static const gint64 at[] = { 0, 10, 30, 20, -5 };
  g_autoptr (HsVrptw) problem = hs_vrptw_new (4);
  g_autoptr (HsFleet) fleet = NULL;
  g_autoptr (HsRuin) ruin = NULL;

  problem->stops[0].due = 1000;
  for (guint i = 1; i <= 4; i++)
    problem->stops[i] = (HsVrptwStop){ at[i], 0, 1, 0, 900, 0 };
  problem->capacity = 4;
  hs_vrptw_measure (problem);
  fleet = hs_fleet_new (problem, 1);
  ruin = hs_ruin_new (problem, 1);
  ruin->overlooks = FALSE;
  hs_fleet_insert (fleet, 1, 0, 1);
  hs_fleet_insert (fleet, 2, 0, 2);
  hs_ruin_put_back (ruin, fleet, 1);
  recount (fleet);
  g_assert_cmpuint (fleet->n_out, ==, 0);
  g_assert_cmpint (fleet->cost, ==, 70);
  g_assert_cmpuint (fleet->place_of[3] + fleet->place_of[2], ==, fleet->place_of[4] == 1 ? 7 : 5);
}

/* Random numbers: in range, spread out, the same for the same seed. */
static void
test_random (void)
{
  g_autoptr (HsVrptw) problem = hs_vrptw_new (2);
  g_autoptr (HsRuin) ruin = hs_ruin_new (problem, 12);
  g_autoptr (HsRuin) twin = hs_ruin_new (problem, 12);
  guint count[10] = { 0 };
  double sum = 0;

  for (guint i = 0; i < 20000; i++)
    {
      guint value = hs_ruin_below (ruin, 10);
      double share = hs_ruin_share (ruin);

      g_assert_cmpuint (value, <, 10);
      g_assert_cmpfloat (share, >, 0);
      g_assert_cmpfloat (share, <=, 1);
      g_assert_cmpuint (hs_ruin_below (twin, 10), ==, value);
      g_assert_true (hs_ruin_share (twin) == share);
      count[value]++;
      sum += share;
    }
  for (guint i = 0; i < 10; i++)
    {
      g_assert_cmpuint (count[i], >, 1800);
      g_assert_cmpuint (count[i], <, 2200);
    }
  g_assert_cmpfloat (sum / 20000, >, 0.49);
  g_assert_cmpfloat (sum / 20000, <, 0.51);
}

static void
test_can_serve (void)
{
  static const struct
  {
    HsVrptwStop stop;
    gboolean can;
  } rows[] = {
    { { 10, 0, 5, 0, 50, 0 }, TRUE },    { { 10, 0, 6, 0, 50, 0 }, FALSE },  { { 10, 0, 5, 0, 10, 0 }, TRUE },
    { { 10, 0, 5, 0, 9, 0 }, FALSE },    { { 10, 0, 5, 90, 95, 0 }, TRUE },  { { 10, 0, 5, 91, 95, 0 }, FALSE },
    { { 10, 0, 5, 0, 50, 80 }, TRUE },   { { 10, 0, 5, 0, 50, 81 }, FALSE }, { { 51, 0, 5, 0, 99, 0 }, FALSE },
    { { 50, 0, 5, 0, 99, 0 }, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsVrptw) problem = hs_vrptw_new (1);

      problem->capacity = 5;
      problem->stops[0].due = 100;
      problem->stops[1] = rows[i].stop;
      hs_vrptw_measure (problem);
      g_assert_cmpint (hs_fleet_can_serve (problem, 1), ==, rows[i].can);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vrptw-fleet/rounds", test_rounds);
  g_test_add_func ("/vrptw-fleet/left-out", test_left_out);
  g_test_add_func ("/vrptw-fleet/swap", test_swap);
  g_test_add_func ("/vrptw-fleet/cheapest-place", test_cheapest_place);
  g_test_add_func ("/vrptw-fleet/random", test_random);
  g_test_add_func ("/vrptw-fleet/can-serve", test_can_serve);
  return g_test_run ();
}
