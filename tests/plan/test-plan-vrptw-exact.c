// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Proof for few customers: cases worked out by hand, larger ones against the search, and what stays the same when a
 * problem is told in another way. Everything that can be tried is tried in test-plan-vrptw.c. */

#include "hs-vrptw-exact.h"

#include "hs-vrptw-answer.h"
#include "hs-vrptw-cool.h"

#include "vrptw-judge.h"

#define UNIT G_GINT64_CONSTANT (1000000)

static HsVrptwPlan *
prove (const HsVrptw *problem, HsVrptwAim aim)
{
  HsVrptwHow how = { .aim = aim };
  HsVrptwPlan *plan = NULL;

  g_assert_true (hs_vrptw_exact (problem, &how, &plan));
  judge_plan (problem, plan);
  g_assert_cmpint (plan->bound, ==, plan->cost);
  g_assert_cmpuint (plan->states, >, 0);
  return plan;
}

/* A problem whose legs are written down instead of measured: home and three customers. */
static HsVrptw *
with_legs (const gint64 legs[4][4], const gint64 windows[4][2])
{
  HsVrptw *problem = hs_vrptw_new (3);

  problem->capacity = 3;
  problem->vans = 3;
  for (guint i = 0; i < 4; i++)
    {
      problem->stops[i].demand = i > 0;
      problem->stops[i].ready = windows[i][0];
      problem->stops[i].due = windows[i][1];
      for (guint j = 0; j < 4; j++)
        problem->legs[i * 4 + j] = legs[i][j];
    }
  return problem;
}

static void
expect_route (const HsVrptwPlan *plan, guint index, const guint *stops, guint count)
{
  const GArray *route = hs_vrptw_get_route (plan, index);

  g_assert_cmpmem (route->data, route->len * sizeof (guint), stops, count * sizeof (guint));
}

/* One van, three customers, all legs written down; windows leave ever fewer orders. */
static void
test_waits (void)
{
  /* 1-2-3 is 10 + 1 + 9; 2-1-3 is 2 + 1 + 20. Then home from 3: 5. */
  static const gint64 legs[4][4] = { { 0, 10, 2, 5 }, { 10, 0, 1, 20 }, { 2, 1, 0, 9 }, { 5, 20, 9, 0 } };
  static const struct
  {
    gint64 windows[4][2];
    guint order[3];
    gint64 cost;
    guint served;
  } rows[] = {
    /* nothing asked: 1-2-3 or the same backwards */
    { { { 0, 99 }, { 0, 90 }, { 0, 90 }, { 0, 90 } }, { 1, 2, 3 }, 25, 3 },
    /* 1 opens late: 1-2-3 comes to 3 at 40, 2-1-3 at 50, and 3-2-1 to 1 at 46 */
    { { { 0, 99 }, { 30, 45 }, { 0, 90 }, { 36, 45 } }, { 1, 2, 3 }, 25, 3 },
    /* 2 has to be early: only 2-1-3 (28), 2-3-1 (2 + 9 + 20 + 10 = 41), 3 after 11 */
    { { { 0, 99 }, { 0, 90 }, { 0, 2 }, { 0, 90 } }, { 2, 1, 3 }, 28, 3 },
    /* 2 early and 3 before 1 */
    { { { 0, 99 }, { 31, 90 }, { 0, 2 }, { 0, 11 } }, { 2, 3, 1 }, 41, 3 },
    /* 2 early, 3 too early after it: one stays unserved, the shortest pair is 2-1 (13) */
    { { { 0, 99 }, { 0, 90 }, { 0, 2 }, { 0, 10 } }, { 1, 2, 0 }, 13, 2 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsVrptw) problem = with_legs (legs, rows[i].windows);
      HsVrptwHow how = { 0 };
      g_autoptr (HsVrptwPlan) plan = NULL;

      problem->vans = 1;
      g_assert_true (hs_vrptw_exact (problem, &how, &plan));
      g_assert_cmpint (plan->cost, ==, rows[i].cost);
      g_assert_cmpuint (3 - plan->unserved->len, ==, rows[i].served);
      g_assert_cmpint (plan->status, ==, rows[i].served == 3 ? HS_PLAN_OPTIMAL : HS_PLAN_IMPOSSIBLE);
      g_assert_cmpuint (plan->routes->len, ==, 1);
      if (i == 1 || i == 2 || i == 3)
        expect_route (plan, 0, rows[i].order, 3);
    }
}

/* A van more is worth its way: two customers on opposite sides, tied by windows to one moment each. */
static void
test_vans_against_distance (void)
{
  static const gint64 legs[4][4] = { { 0, 1, 1, 1 }, { 1, 0, 5, 5 }, { 1, 5, 0, 5 }, { 1, 5, 5, 0 } };
  static const gint64 windows[4][2] = { { 0, 99 }, { 0, 90 }, { 0, 90 }, { 0, 90 } };
  HsVrptwHow how = { .aim = HS_VRPTW_DISTANCE };
  g_autoptr (HsVrptw) problem = with_legs (legs, windows);
  g_autoptr (HsVrptwPlan) shortest = NULL;
  g_autoptr (HsVrptwPlan) fewest = NULL;

  g_assert_true (hs_vrptw_exact (problem, &how, &shortest));
  how.aim = HS_VRPTW_VEHICLES;
  g_assert_true (hs_vrptw_exact (problem, &how, &fewest));
  g_assert_cmpuint (shortest->routes->len, ==, 3);
  g_assert_cmpint (shortest->cost, ==, 6);
  g_assert_cmpuint (fewest->routes->len, ==, 1);
  g_assert_cmpint (fewest->cost, ==, 12);
}

/* Up to twelve customers: the search, which knows nothing of the proof, is never ahead of it. */
static void
test_against_search (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (61);
  guint same = 0;

  for (guint i = 0; i < 24; i++)
    {
      HsVrptwAim aim = i % 2 == 0 ? HS_VRPTW_DISTANCE : HS_VRPTW_VEHICLES;
      HsVrptwHow how = { .rounds = 8000, .seed = i, .aim = aim };
      g_autoptr (HsVrptw) problem = judge_random (rand, 8 + i % 5, i % 3 * 40, FALSE);
      g_autoptr (HsVrptwPlan) plan = prove (problem, aim);
      g_autoptr (HsCool) cool = hs_cool_new (problem, &how);

      g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
      hs_cool_run (cool, 1);
      g_assert_cmpuint (cool->best_out, ==, 0);
      if (aim == HS_VRPTW_VEHICLES)
        {
          g_assert_cmpuint (cool->best_vans, >=, plan->routes->len);
          if (cool->best_vans > plan->routes->len)
            continue;
        }
      g_assert_cmpint (cool->best_cost, >=, plan->cost);
      same += cool->best_cost == plan->cost;
    }
  g_assert_cmpuint (same, >=, 22);
}

/* The same customers in another order: the same cost. */
static void
test_renumbered (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (67);

  for (guint i = 0; i < 60; i++)
    {
      guint n = 3 + i % 6;
      HsVrptwAim aim = i % 2 == 0 ? HS_VRPTW_DISTANCE : HS_VRPTW_VEHICLES;
      g_autoptr (HsVrptw) problem = judge_random (rand, n, i % 3 * 30, i % 4 == 0);
      g_autoptr (HsVrptw) turned = hs_vrptw_new (n);
      g_autoptr (HsVrptwPlan) one = NULL;
      g_autoptr (HsVrptwPlan) other = NULL;

      turned->vans = problem->vans;
      turned->capacity = problem->capacity;
      turned->stops[0] = problem->stops[0];
      for (guint stop = 1; stop <= n; stop++)
        turned->stops[n + 1 - stop] = problem->stops[stop];
      hs_vrptw_measure (turned);
      one = prove (problem, aim);
      other = prove (turned, aim);
      g_assert_cmpint (one->cost, ==, other->cost);
      g_assert_cmpuint (one->unserved->len, ==, other->unserved->len);
      if (aim == HS_VRPTW_VEHICLES)
        g_assert_cmpuint (one->routes->len, ==, other->routes->len);
    }
}

/* What makes a problem looser never makes its plan worse. */
static void
test_looser (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);

  for (guint i = 0; i < 80; i++)
    {
      guint n = 2 + i % 6;
      g_autoptr (HsVrptw) problem = judge_random (rand, n, 25, TRUE);
      g_autoptr (HsVrptwPlan) before = prove (problem, HS_VRPTW_DISTANCE);
      g_autoptr (HsVrptwPlan) after = NULL;
      guint stop = 1 + i % n;

      switch (i % 4)
        {
        case 0:
          problem->vans++;
          break;
        case 1:
          problem->capacity += 20 * UNIT;
          break;
        case 2:
          problem->stops[stop].due += 20 * UNIT;
          break;
        default:
          problem->stops[stop].ready = 0;
          break;
        }
      after = prove (problem, HS_VRPTW_DISTANCE);
      g_assert_cmpuint (after->unserved->len, <=, before->unserved->len);
      if (after->unserved->len == before->unserved->len)
        g_assert_cmpint (after->cost, <=, before->cost);
    }
}

static gboolean
after_some (gpointer data)
{
  guint *left = data;

  return (*left)-- == 0;
}

/* Told to give up, it hands over nothing rather than half a proof. */
static void
test_give_up (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  g_autoptr (HsVrptw) problem = judge_random (rand, 12, 60, FALSE);
  guint finished = 0;

  for (guint i = 0; i < 70; i++)
    {
      guint left = i;
      HsVrptwHow how = { .give_up = after_some, .user_data = &left };
      g_autoptr (HsVrptwPlan) plan = NULL;

      if (hs_vrptw_exact (problem, &how, &plan))
        finished++;
      else
        g_assert_null (plan);
    }
  g_assert_cmpuint (finished, >, 0);
  g_assert_cmpuint (finished, <, 20);
}

static void
test_answer (void)
{
  static const guint32 first[] = { 3, 1 };
  static const guint32 second[] = { 2 };
  static const guint32 expected[] = { 2 };
  static const gint64 legs[4][4] = { { 0, 1, 2, 4 }, { 1, 0, 8, 16 }, { 2, 8, 0, 32 }, { 4, 16, 32, 0 } };
  static const gint64 windows[4][2] = { { 0, 99 }, { 0, 90 }, { 0, 90 }, { 0, 90 } };
  g_autoptr (HsVrptw) problem = with_legs (legs, windows);
  g_autoptr (HsVrptwPlan) plan = hs_vrptw_answer_new ();
  g_autoptr (HsVrptwPlan) part = hs_vrptw_answer_new ();

  hs_vrptw_answer_add (plan, first, 2);
  hs_vrptw_answer_add (plan, second, 1);
  hs_vrptw_answer_close (problem, plan);
  g_assert_cmpint (plan->cost, ==, 4 + 16 + 1 + 2 + 2);
  g_assert_cmpuint (plan->unserved->len, ==, 0);
  expect_route (plan, 0, expected, 1);
  expect_route (plan, 1, first, 2);
  hs_vrptw_answer_add (part, second, 1);
  hs_vrptw_answer_close (problem, part);
  g_assert_cmpint (part->cost, ==, 4);
  g_assert_cmpuint (part->unserved->len, ==, 2);
  g_assert_cmpuint (g_array_index (part->unserved, guint, 0), ==, 1);
  g_assert_cmpuint (g_array_index (part->unserved, guint, 1), ==, 3);
  hs_vrptw_plan_free (NULL);
  hs_vrptw_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vrptw-exact/waits", test_waits);
  g_test_add_func ("/vrptw-exact/vans-against-distance", test_vans_against_distance);
  g_test_add_func ("/vrptw-exact/against-search", test_against_search);
  g_test_add_func ("/vrptw-exact/renumbered", test_renumbered);
  g_test_add_func ("/vrptw-exact/looser", test_looser);
  g_test_add_func ("/vrptw-exact/give-up", test_give_up);
  g_test_add_func ("/vrptw-exact/answer", test_answer);
  return g_test_run ();
}
