// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The search on problems whose best plan is known because they were built around it, and what may not matter to it:
 * the unit, the side of the map, where home lies. */

#include "hs-vrptw-cool.h"

#include "hs-vrptw-bound.h"

#include "vrptw-judge.h"

#define UNIT G_GINT64_CONSTANT (1000000)

static const HsVrptwAim aims[] = { HS_VRPTW_DISTANCE, HS_VRPTW_VEHICLES };

static HsVrptwPlan *
search (const HsVrptw *problem, HsVrptwAim aim, guint32 seed, guint64 rounds)
{
  HsVrptwHow how = { .rounds = rounds, .seed = seed, .aim = aim };
  HsVrptwPlan *plan = NULL;

  g_assert_true (hs_vrptw_solve (problem, &how, &plan, NULL));
  judge_plan (problem, plan);
  return plan;
}

/* @arms streets of @length customers each, straight out from home in a cross: each street is one load, its customers
 * one after the other on the way out. Home to the end and back for every street is the least there can be. */
static HsVrptw *
streets (guint arms, guint length)
{
  static const gint64 ways[4][2] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
  HsVrptw *problem = hs_vrptw_new (arms * length);

  problem->vans = arms + 3;
  problem->capacity = length * UNIT;
  problem->stops[0].due = 10000 * UNIT;
  for (guint i = 0; i < arms * length; i++)
    {
      HsVrptwStop *stop = &problem->stops[i + 1];
      gint64 out = 10 * (i / arms + 1);

      stop->x = ways[i % arms][0] * out * UNIT;
      stop->y = ways[i % arms][1] * out * UNIT;
      stop->demand = UNIT;
      stop->due = 5000 * UNIT;
      stop->service = UNIT;
    }
  hs_vrptw_measure (problem);
  return problem;
}

static void
test_streets (void)
{
  for (guint arms = 2; arms <= 4; arms++)
    for (guint a = 0; a < G_N_ELEMENTS (aims); a++)
      {
        guint length = 16 - 2 * arms;
        g_autoptr (HsVrptw) problem = streets (arms, length);
        g_autoptr (HsVrptwPlan) plan = search (problem, aims[a], arms, 20000);

        g_assert_cmpuint (plan->routes->len, ==, arms);
        g_assert_cmpint (plan->cost, ==, (gint64) arms * 2 * 10 * length * UNIT);
        g_assert_cmpuint (plan->unserved->len, ==, 0);
      }
}

/* Rounds to be driven one after the other in time: @chains of customers, each to be served at its own moment. Whoever
 * leaves a chain comes late or drives further, so the chains are the best plan. */
static HsVrptw *
chains (guint n_chains, guint length)
{
  HsVrptw *problem = hs_vrptw_new (n_chains * length);

  problem->vans = n_chains;
  problem->capacity = length * UNIT;
  problem->stops[0].due = 100000 * UNIT;
  for (guint i = 0; i < n_chains * length; i++)
    {
      HsVrptwStop *stop = &problem->stops[i + 1];
      guint chain = i % n_chains;
      guint step = i / n_chains;

      stop->x = 100 * (gint64) (chain + 1) * UNIT;
      stop->y = 10 * (gint64) step * UNIT;
      stop->demand = UNIT;
      stop->ready = (1000 + 10 * (gint64) step) * UNIT;
      stop->due = stop->ready + 2 * UNIT;
    }
  hs_vrptw_measure (problem);
  return problem;
}

static void
test_chains (void)
{
  for (guint n_chains = 2; n_chains <= 6; n_chains++)
    {
      guint length = 24 / n_chains;
      g_autoptr (HsVrptw) problem = chains (n_chains, length);
      g_autoptr (HsVrptwPlan) plan = search (problem, HS_VRPTW_DISTANCE, n_chains, 5000);
      gint64 cost = 0;

      for (guint chain = 0; chain < n_chains; chain++)
        {
          guint last = n_chains * (length - 1) + chain + 1;

          cost += hs_vrptw_leg (problem, 0, chain + 1) + 10 * (gint64) (length - 1) * UNIT
                  + hs_vrptw_leg (problem, last, 0);
        }
      g_assert_cmpint (plan->cost, ==, cost);
      g_assert_cmpuint (plan->routes->len, ==, n_chains);
      g_assert_cmpuint (hs_vrptw_least_vans (problem), ==, n_chains);
      for (guint r = 0; r < n_chains; r++)
        {
          const GArray *route = hs_vrptw_get_route (plan, r);

          g_assert_cmpuint (route->len, ==, length);
          for (guint k = 0; k < route->len; k++)
            g_assert_cmpuint (g_array_index (route, guint, k), ==, k * n_chains + r + 1);
        }
    }
}

/* One van less than chains: the search serves as many as the others can take, and says who is left. */
static void
test_chain_too_many (void)
{
  g_autoptr (HsVrptw) problem = chains (4, 6);
  g_autoptr (HsVrptwPlan) plan = NULL;

  problem->vans = 3;
  plan = search (problem, HS_VRPTW_DISTANCE, 1, 5000);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->unserved->len, ==, 6);
  g_assert_cmpint (plan->bound, ==, 0);
}

static HsVrptw *
change (const HsVrptw *problem, gint64 scale, gboolean mirrored, gint64 shift)
{
  HsVrptw *changed = hs_vrptw_new (problem->n);

  changed->vans = problem->vans;
  changed->capacity = problem->capacity;
  for (guint i = 0; i <= problem->n; i++)
    {
      const HsVrptwStop *stop = &problem->stops[i];
      gint64 x = (mirrored ? stop->y : stop->x) * scale + shift;
      gint64 y = (mirrored ? stop->x : stop->y) * scale - shift;

      changed->stops[i]
        = (HsVrptwStop){ x, y, stop->demand, stop->ready * scale, stop->due * scale, stop->service * scale };
    }
  hs_vrptw_measure (changed);
  return changed;
}

/* The same map moved or mirrored gives the same plan to the letter; in another unit a plan as long but for the last
 * place of each leg. */
static void
test_same_map (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (79);

  for (guint i = 0; i < 4; i++)
    {
      g_autoptr (HsVrptw) problem = judge_random (rand, 25 + i, i * 30, FALSE);
      g_autoptr (HsVrptw) moved = change (problem, 1, i % 2 == 0, 1234567);
      g_autoptr (HsVrptw) finer = change (problem, 64, FALSE, 0);
      g_autoptr (HsVrptwPlan) plan = search (problem, HS_VRPTW_DISTANCE, i, 10000);
      g_autoptr (HsVrptwPlan) same = search (moved, HS_VRPTW_DISTANCE, i, 10000);
      g_autoptr (HsVrptwPlan) large = search (finer, HS_VRPTW_DISTANCE, i, 10000);

      g_assert_cmpint (same->cost, ==, plan->cost);
      g_assert_cmpuint (same->routes->len, ==, plan->routes->len);
      for (guint r = 0; r < plan->routes->len; r++)
        {
          const GArray *one = hs_vrptw_get_route (plan, r);
          const GArray *other = hs_vrptw_get_route (same, r);

          g_assert_cmpmem (one->data, one->len * sizeof (guint), other->data, other->len * sizeof (guint));
        }
      g_assert_cmpint (large->cost, >, 62 * plan->cost);
      g_assert_cmpint (large->cost, <, 66 * plan->cost);
    }
}

/* The best plan is kept as it was found: what is written down adds up to what is said of it, whenever one looks. */
static void
test_best_is_kept (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (83);

  for (guint i = 0; i < 12; i++)
    {
      HsVrptwHow how = { .rounds = 300 * (i + 1), .seed = i, .aim = aims[i % 2] };
      g_autoptr (HsVrptw) problem = judge_random (rand, 30, i * 8, FALSE);
      g_autoptr (HsCool) cool = hs_cool_new (problem, &how);
      gint64 cost = 0;
      guint here = 0;
      guint vans = 0;
      guint served = 0;

      problem->vans = 30;
      hs_cool_run (cool, hs_vrptw_least_vans (problem));
      for (guint k = 0; k < cool->best_len; k++)
        {
          cost += hs_vrptw_leg (problem, here, cool->best[k]);
          here = cool->best[k];
          vans += here == 0;
          served += here != 0;
        }
      g_assert_cmpuint (here, ==, 0);
      g_assert_cmpint (cost, ==, cool->best_cost);
      g_assert_cmpuint (vans, ==, cool->best_vans);
      g_assert_cmpuint (served + cool->best_out, ==, problem->n);
      g_assert_cmpuint (cool->round, <=, cool->rounds);
    }
}

/* However few the rounds, what a longer search keeps is never worse than what it kept on the way: the first plan is
 * the same for one seed. */
static void
test_never_worse (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (89);

  for (guint i = 0; i < 5; i++)
    {
      g_autoptr (HsVrptw) problem = judge_random (rand, 35, i * 20, FALSE);
      g_autoptr (HsVrptwPlan) first = search (problem, HS_VRPTW_DISTANCE, i, 1);

      for (guint64 rounds = 500; rounds < 5000; rounds += 1500)
        {
          g_autoptr (HsVrptwPlan) later = search (problem, HS_VRPTW_DISTANCE, i, rounds);

          g_assert_cmpint (later->cost, <=, first->cost);
          g_assert_cmpuint (later->states, ==, rounds);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vrptw-cool/streets", test_streets);
  g_test_add_func ("/vrptw-cool/chains", test_chains);
  g_test_add_func ("/vrptw-cool/chain-too-many", test_chain_too_many);
  g_test_add_func ("/vrptw-cool/same-map", test_same_map);
  g_test_add_func ("/vrptw-cool/best-is-kept", test_best_is_kept);
  g_test_add_func ("/vrptw-cool/never-worse", test_never_worse);
  return g_test_run ();
}
