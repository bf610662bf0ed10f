// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Many customers and like vans: legs, what is refused, small problems against everything that can be tried, larger ones
 * against a judge of their own, and what happens when the search is cut. */

#include "hs-vrptw.h"

#include "hs-plan-error.h"
#include "hs-vrptw-bound.h"
#include "hs-vrptw-cool.h"

#include "vrptw-judge.h"

#define UNIT G_GINT64_CONSTANT (1000000)

static const HsVrptwAim aims[] = { HS_VRPTW_DISTANCE, HS_VRPTW_VEHICLES };

static HsVrptwPlan *
solve (const HsVrptw *problem, const HsVrptwHow *how)
{
  HsVrptwPlan *plan = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_vrptw_solve (problem, how, &plan, &error));
  g_assert_no_error (error);
  judge_plan (problem, plan);
  return plan;
}

/* Straight lines rounded up at the sixth place; the roots to nine places are from the tables. */
static void
test_measure (void)
{
  static const struct
  {
    gint64 a[2];
    gint64 b[2];
    gint64 leg;
  } rows[] = {
    { { 0, 0 }, { 3 * UNIT, 4 * UNIT }, 5 * UNIT },
    { { 0, 0 }, { 0, 0 }, 0 },
    { { -1 * UNIT, -1 * UNIT }, { 0, 0 }, 1414214 },         /* 1.414213562 */
    { { 7 * UNIT, 0 }, { 6 * UNIT, 2 * UNIT }, 2236068 },    /* 2.236067977 */
    { { 0, 0 }, { 1 * UNIT, 3 * UNIT }, 3162278 },           /* 3.162277660 */
    { { 10 * UNIT, 5 * UNIT }, { 0, 5 * UNIT }, 10 * UNIT },
    { { 1, 0 }, { 0, 0 }, 1 },
    { { 1, 1 }, { 0, 0 }, 2 },
    { { -300000 * UNIT, 0 }, { 0, 400000 * UNIT }, 500000 * UNIT },
    { { -300000 * UNIT, 0 }, { 1, 400000 * UNIT }, 500000 * UNIT + 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsVrptw) problem = hs_vrptw_new (1);

      problem->stops[0].x = rows[i].a[0];
      problem->stops[0].y = rows[i].a[1];
      problem->stops[1].x = rows[i].b[0];
      problem->stops[1].y = rows[i].b[1];
      hs_vrptw_measure (problem);
      g_assert_cmpint (hs_vrptw_leg (problem, 0, 1), ==, rows[i].leg);
      g_assert_cmpint (hs_vrptw_leg (problem, 1, 0), ==, rows[i].leg);
      g_assert_cmpint (hs_vrptw_leg (problem, 0, 0), ==, 0);
      g_assert_cmpint (hs_vrptw_leg (problem, 1, 1), ==, 0);
    }
}

/* Rounding up keeps the straight way shortest. */
static void
test_no_short_cuts (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (HsVrptw) problem = judge_random (rand, 30, 0, FALSE);

  for (guint a = 0; a <= 30; a++)
    for (guint b = 0; b <= 30; b++)
      for (guint c = 0; c <= 30; c++)
        g_assert_cmpint (hs_vrptw_leg (problem, a, c), <=,
                         hs_vrptw_leg (problem, a, b) + hs_vrptw_leg (problem, b, c));
}

typedef void (*Spoil) (HsVrptw *problem);

static void spoil_vans (HsVrptw *problem) { problem->vans = 0; }
static void spoil_capacity (HsVrptw *problem) { problem->capacity = -1; }
static void spoil_size (HsVrptw *problem) { problem->n = HS_VRPTW_MAX_CUSTOMERS + 1; }
static void spoil_demand (HsVrptw *problem) { problem->stops[2].demand = -1; }
static void spoil_ready (HsVrptw *problem) { problem->stops[2].ready = -1; }
static void spoil_service (HsVrptw *problem) { problem->stops[1].service = -1; }
static void spoil_due (HsVrptw *problem) { problem->stops[1].due = problem->stops[1].ready - 1; }
static void spoil_far (HsVrptw *problem) { problem->stops[1].x = HS_VRPTW_MOST + 1; }
static void spoil_home (HsVrptw *problem) { problem->stops[0].service = 1; }
static void spoil_load (HsVrptw *problem) { problem->stops[0].demand = 1; }

static void
test_refused (void)
{
  static const struct
  {
    Spoil spoil;
    const char *message;
  } rows[] = {
    { spoil_vans, "there is no van" },
    { spoil_capacity, "the capacity is below zero or above a million" },
    { spoil_size, "more than 1000 customers" },
    { spoil_demand, "stops[2]: a number is below zero" },
    { spoil_ready, "stops[2]: a number is below zero" },
    { spoil_service, "stops[1]: a number is below zero" },
    { spoil_due, "stops[1]: the window ends before it starts" },
    { spoil_far, "stops[1]: a number is above a million" },
    { spoil_home, "stops[0]: home takes neither load nor service" },
    { spoil_load, "stops[0]: home takes neither load nor service" },
  };
  HsVrptwHow how = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (7);
      g_autoptr (HsVrptw) problem = judge_random (rand, 2, 20, FALSE);
      g_autoptr (GError) error = NULL;
      HsVrptwPlan *plan = NULL;

      g_assert_true (hs_vrptw_check (problem, NULL));
      rows[i].spoil (problem);
      g_assert_false (hs_vrptw_solve (problem, &how, &plan, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, rows[i].message);
      g_assert_null (plan);
      problem->n = 2;
    }
}

static void
set_stop (HsVrptw *problem, guint index, gint64 x, gint64 demand, gint64 ready, gint64 due, gint64 service)
{
  problem->stops[index]
    = (HsVrptwStop){ x * UNIT, 0, demand * UNIT, ready * UNIT, due * UNIT, service * UNIT };
}

/* Two customers, ten to the left and ten to the right of home: 40 whatever is done. One van can do both by 45 if the
 * left one is first; it may then be too late or too full for that. */
static void
test_by_hand (void)
{
  static const struct
  {
    guint vans;
    gint64 capacity;
    gint64 left[3];
    gint64 right[3];
    HsPlanStatus status;
    guint routes;
    guint unserved;
    gint64 cost;
  } rows[] = {
    /* demand, ready, due of the left and of the right */
    { 1, 10, { 5, 0, 60 }, { 5, 0, 60 }, HS_PLAN_OPTIMAL, 1, 0, 40 },
    { 1, 10, { 5, 0, 10 }, { 5, 0, 32 }, HS_PLAN_OPTIMAL, 1, 0, 40 },
    { 1, 10, { 5, 0, 10 }, { 5, 0, 31 }, HS_PLAN_IMPOSSIBLE, 1, 1, 20 },
    { 2, 10, { 5, 0, 10 }, { 5, 0, 31 }, HS_PLAN_OPTIMAL, 2, 0, 40 },
    { 1, 10, { 5, 0, 60 }, { 6, 0, 60 }, HS_PLAN_IMPOSSIBLE, 1, 1, 20 },
    { 2, 10, { 5, 0, 60 }, { 6, 0, 60 }, HS_PLAN_OPTIMAL, 2, 0, 40 },
    { 2, 10, { 5, 0, 60 }, { 11, 0, 60 }, HS_PLAN_IMPOSSIBLE, 1, 1, 20 },
    { 2, 10, { 5, 0, 9 }, { 5, 0, 60 }, HS_PLAN_IMPOSSIBLE, 1, 1, 20 },
    { 2, 10, { 5, 98, 99 }, { 5, 0, 60 }, HS_PLAN_IMPOSSIBLE, 1, 1, 20 },
    { 2, 10, { 5, 88, 99 }, { 5, 0, 60 }, HS_PLAN_OPTIMAL, 1, 0, 40 },
    { 2, 4, { 5, 0, 60 }, { 5, 0, 60 }, HS_PLAN_IMPOSSIBLE, 0, 2, 0 },
  };
  HsVrptwHow how = { .aim = HS_VRPTW_VEHICLES };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsVrptw) problem = hs_vrptw_new (2);
      g_autoptr (HsVrptwPlan) plan = NULL;

      problem->vans = rows[i].vans;
      problem->capacity = rows[i].capacity * UNIT;
      set_stop (problem, 0, 0, 0, 0, 100, 0);
      set_stop (problem, 1, -10, rows[i].left[0], rows[i].left[1], rows[i].left[2], 2);
      set_stop (problem, 2, 10, rows[i].right[0], rows[i].right[1], rows[i].right[2], 2);
      hs_vrptw_measure (problem);
      plan = solve (problem, &how);
      g_assert_cmpint (plan->status, ==, rows[i].status);
      g_assert_cmpuint (plan->routes->len, ==, rows[i].routes);
      g_assert_cmpuint (plan->unserved->len, ==, rows[i].unserved);
      g_assert_cmpint (plan->cost, ==, rows[i].cost * UNIT);
      g_assert_cmpint (plan->bound, ==, plan->cost);
    }
}

static void
test_nobody (void)
{
  g_autoptr (HsVrptw) problem = hs_vrptw_new (0);
  HsVrptwHow how = { 0 };
  g_autoptr (HsVrptwPlan) plan = solve (problem, &how);

  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpuint (plan->routes->len, ==, 0);
  g_assert_cmpint (plan->cost, ==, 0);
}

static void
expect_best (const HsVrptw *problem, HsVrptwAim aim)
{
  HsVrptwHow how = { .aim = aim };
  Verdict best = judge_best (problem, aim);
  g_autoptr (HsVrptwPlan) plan = solve (problem, &how);

  g_assert_cmpuint (problem->n - plan->unserved->len, ==, best.served);
  g_assert_cmpint (plan->cost, ==, best.cost);
  if (aim == HS_VRPTW_VEHICLES)
    g_assert_cmpuint (plan->routes->len, ==, best.vans);
  g_assert_cmpint (plan->status, ==, best.served == problem->n ? HS_PLAN_OPTIMAL : HS_PLAN_IMPOSSIBLE);
  g_assert_cmpint (plan->bound, ==, plan->cost);
}

/* 600 small problems, both aims, against everything that can be tried. */
static void
test_exhaustive (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  guint impossible = 0;

  for (guint i = 0; i < 600; i++)
    {
      guint n = 1 + i % 6;
      gboolean tight = i % 3 == 0;
      g_autoptr (HsVrptw) problem = judge_random (rand, n, i % 4 * 25, tight);

      impossible += judge_best (problem, HS_VRPTW_DISTANCE).served < n;
      for (guint a = 0; a < G_N_ELEMENTS (aims); a++)
        expect_best (problem, aims[a]);
    }
  g_assert_cmpuint (impossible, >, 20);
  g_assert_cmpuint (impossible, <, 300);
}

/* What the search itself finds where the proof is at hand: never better, and with some rounds nearly always as good. */
static void
test_search_small (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);
  guint same = 0;

  for (guint i = 0; i < 120; i++)
    {
      HsVrptwHow how = { .rounds = 6000, .seed = i, .aim = aims[i % 2] };
      g_autoptr (HsVrptw) problem = judge_random (rand, 4 + i % 4, i % 3 * 40, FALSE);
      g_autoptr (HsCool) cool = NULL;
      Verdict best = judge_best (problem, how.aim);

      g_assert_cmpuint (best.served, ==, problem->n);
      cool = hs_cool_new (problem, &how);
      hs_cool_run (cool, hs_vrptw_least_vans (problem));
      g_assert_cmpuint (cool->best_out, ==, 0);
      g_assert_cmpuint (hs_vrptw_least_vans (problem), <=, best.vans);
      if (how.aim == HS_VRPTW_VEHICLES && cool->best_vans > best.vans)
        continue;
      g_assert_cmpint (cool->best_cost, >=, best.cost);
      same += cool->best_cost == best.cost;
    }
  g_assert_cmpuint (same, >=, 117);
}

/* A ring of customers around home, each pair of neighbors closer than anything else: best is known by construction.
 * Four clusters far from each other, five customers each on one spot, loads for exactly one cluster a van. */
static void
test_clusters (void)
{
  static const gint64 at[4][2] = { { 100, 0 }, { -100, 0 }, { 0, 100 }, { 0, -100 } };

  for (guint a = 0; a < G_N_ELEMENTS (aims); a++)
    {
      HsVrptwHow how = { .rounds = 20000, .seed = 3, .aim = aims[a] };
      g_autoptr (HsVrptw) problem = hs_vrptw_new (20);
      g_autoptr (HsVrptwPlan) plan = NULL;

      problem->vans = 10;
      problem->capacity = 50 * UNIT;
      problem->stops[0].due = 1000 * UNIT;
      for (guint i = 0; i < 20; i++)
        problem->stops[i + 1] = (HsVrptwStop){ at[i % 4][0] * UNIT, at[i % 4][1] * UNIT, 10 * UNIT, 0, 500 * UNIT, 0 };
      hs_vrptw_measure (problem);
      plan = solve (problem, &how);
      g_assert_cmpint (plan->cost, ==, 800 * UNIT);
      g_assert_cmpuint (plan->routes->len, ==, 4);
      g_assert_cmpuint (hs_vrptw_least_vans (problem), ==, 4);
    }
}

/* Three customers at the same time far apart need three vans; with two the answer says that it cannot be done. */
static void
test_too_few_vans (void)
{
  g_autoptr (HsVrptw) problem = hs_vrptw_new (14);
  HsVrptwHow how = { .rounds = 3000, .seed = 1 };
  g_autoptr (HsVrptwPlan) plan = NULL;

  problem->capacity = 100 * UNIT;
  problem->stops[0].due = 1000 * UNIT;
  for (guint i = 1; i <= 14; i++)
    problem->stops[i] = (HsVrptwStop){ (gint64) i * 10 * UNIT, 0, UNIT, 0, 800 * UNIT, 0 };
  for (guint i = 0; i < 3; i++)
    problem->stops[4 + 5 * i].ready = problem->stops[4 + 5 * i].due = 300 * UNIT;
  hs_vrptw_measure (problem);
  g_assert_cmpuint (hs_vrptw_least_vans (problem), ==, 3);
  problem->vans = 2;
  plan = solve (problem, &how);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->unserved->len, ==, 1);
  problem->vans = 3;
  g_clear_pointer (&plan, hs_vrptw_plan_free);
  plan = solve (problem, &how);
  g_assert_cmpint (plan->status, ==, HS_PLAN_BEST_FOUND);
  g_assert_cmpuint (plan->unserved->len, ==, 0);
}

/* A customer that nobody can serve is named by its own number, the others are served all the same. */
static void
test_out_of_reach (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);
  g_autoptr (HsVrptw) problem = judge_random (rand, 30, 60, FALSE);
  HsVrptwHow how = { .rounds = 2000 };
  g_autoptr (HsVrptwPlan) plan = NULL;

  problem->stops[9].demand = problem->capacity + 1;
  problem->stops[21].ready = problem->stops[21].due = problem->stops[0].due;
  plan = solve (problem, &how);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->unserved->len, ==, 2);
  g_assert_cmpuint (g_array_index (plan->unserved, guint, 0), ==, 9);
  g_assert_cmpuint (g_array_index (plan->unserved, guint, 1), ==, 21);
}

typedef struct
{
  guint asked;
  guint patience;
  double used;
} Clock;

static gboolean
runs_out (gpointer data)
{
  Clock *clock = data;

  return ++clock->asked > clock->patience;
}

static double
half_used (gpointer data)
{
  Clock *clock = data;

  return clock->used += 0.05;
}

/* Told to give up at any moment, it still hands over a plan that can be driven and serves everyone. Proof, bound and
 * search each ask once more at most. */
static void
test_cut (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (19);

  for (guint i = 0; i < 60; i++)
    {
      Clock clock = { 0, i / 2, 0 };
      HsVrptwHow how = { runs_out, NULL, &clock, i, 0, aims[i % 2] };
      g_autoptr (HsVrptw) problem = judge_random (rand, 5 + i, 50, FALSE);
      g_autoptr (HsVrptwPlan) plan = solve (problem, &how);

      g_assert_cmpuint (plan->unserved->len, ==, 0);
      g_assert_cmpuint (clock.asked, <=, clock.patience + 3);
      if (problem->n > HS_VRPTW_EXACT_CUSTOMERS)
        g_assert_cmpint (plan->status, ==, HS_PLAN_BEST_FOUND);
    }
}

/* A clock that runs ahead of the rounds ends the search before they are done; one that does not is no matter. */
static void
test_clock (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  g_autoptr (HsVrptw) problem = judge_random (rand, 40, 60, FALSE);
  Clock clock = { 0, 0, 0 };
  HsVrptwHow how = { NULL, half_used, &clock, 1, 1000000, HS_VRPTW_DISTANCE };
  HsVrptwHow plain = { NULL, NULL, NULL, 1, 4096, HS_VRPTW_DISTANCE };
  HsVrptwHow slow = { NULL, half_used, &clock, 1, 4096, HS_VRPTW_DISTANCE };
  g_autoptr (HsVrptwPlan) hurried = solve (problem, &how);
  g_autoptr (HsVrptwPlan) left_alone = NULL;
  g_autoptr (HsVrptwPlan) in_time = NULL;

  g_assert_cmpuint (hurried->states, <, 10000);
  g_assert_cmpuint (hurried->states, >, 1000);
  left_alone = solve (problem, &plain);
  g_assert_cmpuint (left_alone->states, ==, 4096);
  clock.used = -0.05;
  in_time = solve (problem, &slow);
  g_assert_cmpuint (in_time->states, ==, 4096);
  g_assert_cmpint (in_time->cost, ==, left_alone->cost);
}

static void
expect_same (const HsVrptwPlan *a, const HsVrptwPlan *b)
{
  g_assert_cmpint (a->cost, ==, b->cost);
  g_assert_cmpuint (a->routes->len, ==, b->routes->len);
  for (guint r = 0; r < a->routes->len; r++)
    {
      const GArray *left = hs_vrptw_get_route (a, r);
      const GArray *right = hs_vrptw_get_route (b, r);

      g_assert_cmpmem (left->data, left->len * sizeof (guint), right->data, right->len * sizeof (guint));
    }
}

static void
test_same_again (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (29);
  guint differ = 0;

  for (guint i = 0; i < 6; i++)
    {
      HsVrptwHow how = { .rounds = 1500, .seed = i, .aim = aims[i % 2] };
      g_autoptr (HsVrptw) problem = judge_random (rand, 60, i * 20, FALSE);
      g_autoptr (HsVrptwPlan) once = solve (problem, &how);
      g_autoptr (HsVrptwPlan) again = solve (problem, &how);
      g_autoptr (HsVrptwPlan) other = NULL;

      expect_same (once, again);
      how.seed += 100;
      other = solve (problem, &how);
      differ += other->cost != once->cost;
    }
  g_assert_cmpuint (differ, >, 0);
}

/* More rounds pay: over some problems the long search is ahead of the short one by a clear margin. */
static void
test_rounds_pay (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  gint64 few = 0;
  gint64 many = 0;

  for (guint i = 0; i < 5; i++)
    {
      HsVrptwHow how = { .rounds = 256, .seed = i };
      g_autoptr (HsVrptw) problem = judge_random (rand, 80, i * 25, FALSE);
      g_autoptr (HsVrptwPlan) a = solve (problem, &how);
      g_autoptr (HsVrptwPlan) b = NULL;

      how.rounds = 20000;
      b = solve (problem, &how);
      few += a->cost;
      many += b->cost;
    }
  g_assert_cmpint (many, <, few - few / 50);
}

/* Fewest vans really are fewer where distance would rather send more, and never more. */
static void
test_fewest_vans (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (37);
  guint by_distance = 0;
  guint by_vans = 0;

  for (guint i = 0; i < 6; i++)
    {
      HsVrptwHow how = { .rounds = 8000, .seed = i };
      g_autoptr (HsVrptw) problem = judge_random (rand, 40, 40, FALSE);
      g_autoptr (HsVrptwPlan) shortest = solve (problem, &how);
      g_autoptr (HsVrptwPlan) fewest = NULL;

      how.aim = HS_VRPTW_VEHICLES;
      fewest = solve (problem, &how);
      g_assert_cmpuint (fewest->routes->len, <=, shortest->routes->len);
      g_assert_cmpuint (fewest->routes->len, >=, hs_vrptw_least_vans (problem));
      by_distance += shortest->routes->len;
      by_vans += fewest->routes->len;
    }
  g_assert_cmpuint (by_vans, <, by_distance);
}

/* With exactly as many vans as the fewest found, a search for distance finds room for everyone as well. */
static void
test_few_vans_fit (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);

  for (guint i = 0; i < 4; i++)
    {
      HsVrptwHow how = { .rounds = 30000, .seed = i, .aim = HS_VRPTW_VEHICLES };
      g_autoptr (HsVrptw) problem = judge_random (rand, 30, 80, FALSE);
      g_autoptr (HsVrptwPlan) fewest = solve (problem, &how);
      g_autoptr (HsVrptwPlan) plan = NULL;

      problem->vans = fewest->routes->len;
      how.aim = HS_VRPTW_DISTANCE;
      plan = solve (problem, &how);
      g_assert_cmpuint (plan->unserved->len, ==, 0);
      g_assert_cmpuint (plan->routes->len, ==, problem->vans);
    }
}

static void
test_large (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (43);
  g_autoptr (HsVrptw) problem = judge_random (rand, 400, 30, FALSE);
  HsVrptwHow how = { .rounds = 2000 };
  g_autoptr (HsVrptwPlan) plan = solve (problem, &how);

  g_assert_cmpuint (plan->unserved->len, ==, 0);
}

static void
test_rounds (void)
{
  g_assert_cmpuint (hs_vrptw_rounds (100, 0.0000001), ==, 1);
  for (guint n = 1; n < 1000; n += 37)
    {
      guint64 one = hs_vrptw_rounds (n, 1);

      g_assert_cmpuint (one, >, 1000);
      g_assert_cmpuint (hs_vrptw_rounds (n, 10), >=, 9 * one);
      g_assert_cmpuint (hs_vrptw_rounds (n, 10), <=, 11 * one);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vrptw/measure", test_measure);
  g_test_add_func ("/vrptw/no-short-cuts", test_no_short_cuts);
  g_test_add_func ("/vrptw/refused", test_refused);
  g_test_add_func ("/vrptw/by-hand", test_by_hand);
  g_test_add_func ("/vrptw/nobody", test_nobody);
  g_test_add_func ("/vrptw/exhaustive", test_exhaustive);
  g_test_add_func ("/vrptw/search-small", test_search_small);
  g_test_add_func ("/vrptw/clusters", test_clusters);
  g_test_add_func ("/vrptw/too-few-vans", test_too_few_vans);
  g_test_add_func ("/vrptw/out-of-reach", test_out_of_reach);
  g_test_add_func ("/vrptw/cut", test_cut);
  g_test_add_func ("/vrptw/clock", test_clock);
  g_test_add_func ("/vrptw/same-again", test_same_again);
  g_test_add_func ("/vrptw/rounds-pay", test_rounds_pay);
  g_test_add_func ("/vrptw/fewest-vans", test_fewest_vans);
  g_test_add_func ("/vrptw/few-vans-fit", test_few_vans_fit);
  g_test_add_func ("/vrptw/large", test_large);
  g_test_add_func ("/vrptw/rounds", test_rounds);
  return g_test_run ();
}
