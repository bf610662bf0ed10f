// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Lower bounds: never above the best there is, exactly what the relaxation gives when everything is tried, and proof
 * where windows leave no room. */

#include "hs-vrptw-bound.h"

#include "vrptw-judge.h"

#define UNIT G_GINT64_CONSTANT (1000000)
#define NEVER (G_MAXINT64 / 4)
#define MOST_NODES 9

/* Every way to give each stop and each van at home a next one, tried in turn. A van may come next to itself (it stays)
 * if more than @least leave; a customer next to another one if a van that comes from home could do both and be back. */
typedef struct
{
  const HsVrptw *problem;
  guint n_nodes;
  guint least;
  gboolean taken[MOST_NODES];
  gint64 best;
} Rings;

static gboolean
both_in_time (const HsVrptw *problem, guint a, guint b)
{
  const HsVrptwStop *home = &problem->stops[0];
  const HsVrptwStop *first = &problem->stops[a];
  const HsVrptwStop *second = &problem->stops[b];
  gint64 now = MAX (home->ready + hs_vrptw_leg (problem, 0, a), first->ready);

  if (now > first->due || first->demand + second->demand > problem->capacity)
    return FALSE;
  now = MAX (now + first->service + hs_vrptw_leg (problem, a, b), second->ready);
  return now <= second->due && now + second->service + hs_vrptw_leg (problem, b, 0) <= home->due;
}

static gint64
ring_leg (const Rings *rings, guint from, guint to)
{
  guint n = rings->problem->n;
  guint a = from < n ? from + 1 : 0;
  guint b = to < n ? to + 1 : 0;

  if (a == 0 && b == 0)
    return from == to && from >= n + rings->least ? 0 : NEVER;
  if (a == 0 || b == 0)
    return hs_vrptw_leg (rings->problem, a, b);
  return a != b && both_in_time (rings->problem, a, b) ? hs_vrptw_leg (rings->problem, a, b) : NEVER;
}

static void
try_rings (Rings *rings, guint node, gint64 sofar)
{
  if (sofar >= rings->best)
    return;
  if (node == rings->n_nodes)
    {
      rings->best = sofar;
      return;
    }
  for (guint to = 0; to < rings->n_nodes; to++)
    {
      gint64 leg = rings->taken[to] ? NEVER : ring_leg (rings, node, to);

      if (leg == NEVER)
        continue;
      rings->taken[to] = TRUE;
      try_rings (rings, node + 1, sofar + leg);
      rings->taken[to] = FALSE;
    }
}

static gint64
least_rings (const HsVrptw *problem, guint least)
{
  Rings rings = { problem, problem->n + MIN (problem->vans, problem->n), least, { FALSE }, NEVER };

  g_assert_cmpuint (rings.n_nodes, <=, MOST_NODES);
  try_rings (&rings, 0, 0);
  return rings.best == NEVER ? 0 : rings.best;
}

/* 900 problems of up to five customers and four vans. */
static void
test_all_rings (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (53);
  guint none = 0;

  for (guint i = 0; i < 900; i++)
    {
      g_autoptr (HsVrptw) problem = judge_random (rand, 1 + i % 5, i % 4 * 20, i % 2 == 0);
      gint64 bound;
      guint least;

      problem->vans = MIN (problem->vans, 4);
      least = i % 3 == 0 ? 0 : 1;
      bound = hs_vrptw_least_distance (problem, least, NULL, NULL);
      g_assert_cmpint (bound, ==, least_rings (problem, least));
      none += bound == 0;
    }
  g_assert_cmpuint (none, >, 0);
  g_assert_cmpuint (none, <, 450);
}

/* Never above the best there is, and not idle: over all problems more than half of it. */
static void
test_below_best (void)
{
  static const HsVrptwAim aims[] = { HS_VRPTW_DISTANCE, HS_VRPTW_VEHICLES };
  g_autoptr (GRand) rand = g_rand_new_with_seed (59);
  gint64 bounds = 0;
  gint64 costs = 0;

  for (guint i = 0; i < 400; i++)
    {
      g_autoptr (HsVrptw) problem = judge_random (rand, 2 + i % 5, i % 3 * 20, i % 4 == 0);
      Verdict best = judge_best (problem, aims[i % 2]);
      guint least = hs_vrptw_least_vans (problem);
      gint64 bound;

      if (best.served < problem->n)
        continue;
      bound = hs_vrptw_least_distance (problem, least, NULL, NULL);
      g_assert_cmpuint (least, <=, best.vans);
      g_assert_cmpint (bound, >, 0);
      g_assert_cmpint (bound, <=, best.cost);
      bounds += bound;
      costs += best.cost;
    }
  g_assert_cmpint (bounds, >, costs / 2);
}

/* Customers on a line, each to be served at one moment only, one after the other: there is but one order for one van,
 * and two vans can only be worse. */
static HsVrptw *
line_of (guint n)
{
  HsVrptw *problem = hs_vrptw_new (n);

  problem->vans = 3;
  problem->capacity = 100 * UNIT;
  problem->stops[0].due = 40 * (n + 1) * UNIT;
  for (guint i = 1; i <= n; i++)
    problem->stops[i] = (HsVrptwStop){ 10 * i * UNIT, 0, UNIT, 20 * i * UNIT, 20 * i * UNIT, UNIT };
  hs_vrptw_measure (problem);
  return problem;
}

static void
test_proof (void)
{
  static const HsVrptwAim aims[] = { HS_VRPTW_DISTANCE, HS_VRPTW_VEHICLES };

  for (guint n = HS_VRPTW_EXACT_CUSTOMERS + 1; n < 40; n += 5)
    for (guint a = 0; a < G_N_ELEMENTS (aims); a++)
      {
        HsVrptwHow how = { .rounds = 1000, .seed = n, .aim = aims[a] };
        g_autoptr (HsVrptw) problem = line_of (n);
        g_autoptr (HsVrptwPlan) plan = NULL;

        g_assert_true (hs_vrptw_solve (problem, &how, &plan, NULL));
        judge_plan (problem, plan);
        g_assert_cmpint (plan->cost, ==, 20 * n * UNIT);
        g_assert_cmpint (plan->bound, ==, plan->cost);
        g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
      }
}

/* Two at each moment: two vans, so that one van less is never proven or claimed. */
static void
test_pairs (void)
{
  HsVrptwHow how = { .rounds = 1000, .aim = HS_VRPTW_VEHICLES };
  g_autoptr (HsVrptw) problem = line_of (20);
  g_autoptr (HsVrptwPlan) plan = NULL;

  for (guint i = 2; i <= 20; i += 2)
    problem->stops[i].ready = problem->stops[i].due = problem->stops[i - 1].ready;
  g_assert_cmpuint (hs_vrptw_least_vans (problem), ==, 2);
  g_assert_true (hs_vrptw_solve (problem, &how, &plan, NULL));
  judge_plan (problem, plan);
  g_assert_cmpuint (plan->routes->len, ==, 2);
}

static void
test_least_vans (void)
{
  static const struct
  {
    gint64 capacity;
    gint64 demand;
    guint least;
  } rows[] = {
    { 100, 1, 1 }, { 20, 1, 1 }, { 19, 1, 2 }, { 10, 1, 2 }, { 9, 1, 3 }, { 100, 0, 1 }, { 0, 0, 1 }, { 8, 8, 20 },
    { 15, 8, 20 }, { 16, 8, 10 }, { 17, 8, 10 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsVrptw) problem = line_of (20);

      problem->capacity = rows[i].capacity * UNIT;
      for (guint stop = 1; stop <= 20; stop++)
        problem->stops[stop].demand = rows[i].demand * UNIT;
      g_assert_cmpuint (hs_vrptw_least_vans (problem), ==, rows[i].least);
    }
}

static gboolean
after_some (gpointer data)
{
  guint *left = data;

  return (*left)-- == 0;
}

/* Told to give up at any of its rows, or too large: no bound is claimed. */
static void
test_none (void)
{
  g_autoptr (HsVrptw) problem = line_of (20);
  g_autoptr (HsVrptw) large = line_of (600);
  guint left = 23;

  g_assert_cmpint (hs_vrptw_least_distance (problem, 1, after_some, &left), ==, 400 * UNIT);
  for (guint i = 0; i < 23; i++)
    {
      left = i;
      g_assert_cmpint (hs_vrptw_least_distance (problem, 1, after_some, &left), ==, 0);
    }
  g_assert_cmpint (hs_vrptw_least_distance (large, 1, NULL, NULL), ==, 0);
}

/* A plan that leaves someone out has no bound: what it would bound is another plan. */
static void
test_left_out (void)
{
  HsVrptwHow how = { .rounds = 1000 };
  g_autoptr (HsVrptw) problem = line_of (20);
  g_autoptr (HsVrptwPlan) plan = NULL;

  problem->capacity = 6 * UNIT;
  g_assert_true (hs_vrptw_solve (problem, &how, &plan, NULL));
  judge_plan (problem, plan);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->unserved->len, ==, 2);
  g_assert_cmpint (plan->bound, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vrptw-bound/all-rings", test_all_rings);
  g_test_add_func ("/vrptw-bound/below-best", test_below_best);
  g_test_add_func ("/vrptw-bound/proof", test_proof);
  g_test_add_func ("/vrptw-bound/pairs", test_pairs);
  g_test_add_func ("/vrptw-bound/least-vans", test_least_vans);
  g_test_add_func ("/vrptw-bound/none", test_none);
  g_test_add_func ("/vrptw-bound/left-out", test_left_out);
  return g_test_run ();
}
