// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The quick search from a tour in time, by kicks and by rebuilding: what it answers is driven by a judge that shares
 * nothing with it, is never worse than where it began, and on problems small enough to know it is nearly always a best
 * one. */

#include "hs-tsptw-quick.h"

#include "tsptw-orders.h"

/* @few, @many: enough for small problems and for middling ones */
typedef struct
{
  const char *name;
  gboolean (*run) (HsTsptwQuick *quick, guint count);
  guint few;
  guint many;
} Way;

static const Way ways[] = {
  { "kicks", hs_tsptw_quick_run, 200, 2000 },
  { "rounds", hs_tsptw_quick_rebuild, 1000, 10000 },
};

typedef struct
{
  const TsptwShape *shape;
  const Way *way;
} Case;

typedef struct
{
  gboolean found;
  gint64 least;
  gint64 most;
  guint16 worst[HS_TSPTW_MAX_NODES];
} Range;

/* The best and the worst tour. */
static void
take_range (const TsptwTour *tour, gpointer data)
{
  Range *range = data;
  gint64 cost = tsptw_orders_cost (tour, HS_TSPTW_TRAVEL);

  if (!range->found || cost > range->most)
    {
      range->most = cost;
      memcpy (range->worst, &tour->stops[1], (tour->n - 1) * sizeof (guint16));
    }
  range->least = range->found ? MIN (range->least, cost) : cost;
  range->found = TRUE;
}

static HsTsptwQuick *
make_quick (const HsTsptw *problem, guint32 seed, HsPlanGiveUp give_up, gpointer data)
{
  g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
  HsTsptwHow how = { give_up, data, seed, HS_TSPTW_TRAVEL };

  return hs_tsptw_quick_new (problem, frame, &how);
}

/* What the best tour costs, by the judge. */
static gint64
drive_best (const HsTsptw *problem, const HsTsptwQuick *quick)
{
  guint16 order[HS_TSPTW_MAX_NODES];

  hs_tsptw_quick_get_best (quick, order);
  return tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, order);
}

/* From the worst tour of small problems to the best. */
static void
test_small (gconstpointer data)
{
  const Case *row = data;
  const TsptwShape *shape = row->shape;
  g_autoptr (GRand) rand = g_rand_new_with_seed (91);
  guint solvable = 0;
  guint best = 0;
  guint better = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, shape);
      g_autoptr (HsTsptwQuick) quick = NULL;
      Range range = { 0 };
      gint64 cost;

      if (tsptw_orders_each (problem, FALSE, take_range, &range) == 0)
        continue;
      quick = make_quick (problem, i, NULL, NULL);
      hs_tsptw_quick_start_from (quick, range.worst);
      cost = drive_best (problem, quick);
      g_assert_cmpint (cost, >=, range.least);
      g_assert_cmpint (cost, <=, range.most);
      g_assert_true (row->way->run (quick, row->way->few));
      cost = drive_best (problem, quick);
      g_assert_cmpint (cost, >=, range.least);
      solvable++;
      best += cost == range.least;
      better += range.least < range.most;
    }
  g_assert_cmpint (solvable, >, shape->problems / 4);
  g_assert_cmpint (better, >, solvable / 3);
  g_assert_cmpint (best * 10, >=, solvable * 9);
}

static gboolean
stop_soon (gpointer data)
{
  guint *left = data;

  return (*left)-- <= 1;
}

/* The proven best. */
static gboolean
solve (const HsTsptw *problem, HsTsptwAnswer *answer)
{
  HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_TRAVEL };

  g_assert_true (hs_tsptw_solve (problem, &how, answer, NULL));
  return answer->status == HS_PLAN_OPTIMAL;
}

/* Swaps stops anyhow, as long as the judge allows it. */
static gint64
shuffle (const HsTsptw *problem, GRand *rand, guint16 *order)
{
  for (guint i = 0; i < 500; i++)
    {
      guint at = (guint) g_rand_int_range (rand, 0, (gint32) problem->n_nodes - 2);
      guint16 stop = order[at];

      order[at] = order[at + 1];
      order[at + 1] = stop;
      if (tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, order) >= 0)
        continue;
      order[at + 1] = order[at];
      order[at] = stop;
    }
  return tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, order);
}

static void
test_middling (gconstpointer data)
{
  const Case *row = data;
  const TsptwShape *shape = row->shape;
  g_autoptr (GRand) rand = g_rand_new_with_seed (92);
  guint solvable = 0;
  guint best = 0;
  guint worse_begins = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, shape);
      g_autoptr (HsTsptwQuick) quick = NULL;
      HsTsptwAnswer least;
      gint64 begin, cost;

      solve (problem, &least);
      if (least.status == HS_PLAN_IMPOSSIBLE)
        continue;
      g_assert_cmpint (least.status, ==, HS_PLAN_OPTIMAL);
      begin = shuffle (problem, rand, least.order);
      quick = make_quick (problem, i, NULL, NULL);
      hs_tsptw_quick_start_from (quick, least.order);
      g_assert_true (row->way->run (quick, row->way->many));
      cost = drive_best (problem, quick);
      g_assert_cmpint (cost, >=, least.cost);
      g_assert_cmpint (cost, <=, begin);
      solvable++;
      best += cost == least.cost;
      worse_begins += begin > least.cost;
    }
  g_assert_cmpint (solvable, >=, shape->problems / 2);
  g_assert_cmpint (worse_begins * 2, >, solvable);
  g_assert_cmpint (best * 10, >=, solvable * 9);
}

/* The best is kept however often it is begun from something worse, and told to stop. */
static void
test_keeps_best (gconstpointer data)
{
  const Way *way = data;
  static const TsptwShape shape = { "best", 25, 40, 200, 1, FALSE, FALSE, FALSE, 0, 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (93);
  g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, &shape);
  g_autoptr (HsTsptwQuick) quick = NULL;
  HsTsptwAnswer first;
  guint questions = 3;
  gint64 cost = G_MAXINT64;

  g_assert_true (solve (problem, &first));
  shuffle (problem, rand, first.order);
  quick = make_quick (problem, 5, stop_soon, &questions);
  for (guint i = 0; i < 4; i++)
    {
      gint64 now;

      hs_tsptw_quick_start_from (quick, first.order);
      questions = i + 1;
      g_assert_false (way->run (quick, 1000000));
      g_assert_cmpint (questions, ==, 0);
      now = drive_best (problem, quick);
      g_assert_cmpint (now, >, 0);
      g_assert_cmpint (now, <=, cost);
      cost = now;
    }
}

static void
test_same_again (gconstpointer data)
{
  const Way *way = data;
  static const TsptwShape shape = { "again", 40, 40, 200, 1, FALSE, TRUE, FALSE, 0, 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (94);
  g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, &shape);
  guint16 order[2][HS_TSPTW_MAX_NODES] = { 0 };
  HsTsptwAnswer first;

  g_assert_true (solve (problem, &first));
  shuffle (problem, rand, first.order);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (HsTsptwQuick) quick = make_quick (problem, 7, NULL, NULL);

      hs_tsptw_quick_start_from (quick, first.order);
      g_assert_true (way->run (quick, way->few));
      hs_tsptw_quick_get_best (quick, order[i]);
    }
  g_assert_cmpmem (order[0], sizeof order[0], order[1], sizeof order[1]);
}

/* With one stop, two, and three there is little to move. */
static void
test_tiny (gconstpointer data)
{
  const Way *way = data;
  static const gint64 legs[] = { 0, 5, 9, 4, 5, 0, 2, 7, 9, 2, 0, 3, 4, 7, 3, 0 };

  for (guint n = 2; n <= 4; n++)
    {
      g_autoptr (HsTsptw) problem = hs_tsptw_new (n);
      g_autoptr (HsTsptwQuick) quick = NULL;
      Range range = { 0 };

      for (guint i = 0; i < n; i++)
        {
          problem->to[i] = 100;
          for (guint j = 0; j < n; j++)
            problem->drive[i * n + j] = legs[i * 4 + j];
        }
      g_assert_cmpint (tsptw_orders_each (problem, FALSE, take_range, &range), >, 0);
      quick = make_quick (problem, 1, NULL, NULL);
      hs_tsptw_quick_start_from (quick, range.worst);
      g_assert_true (way->run (quick, way->few));
      g_assert_cmpint (drive_best (problem, quick), ==, range.least);
    }
}

/* Spokes of a few stops each, with nothing that asks for any order. A tour that goes from spoke to spoke all the time
 * has the stops of each all over the day. */
#define SPOKES 8
#define DEEP 4

static HsTsptw *
make_spokes (void)
{
  HsTsptw *problem = hs_tsptw_new (SPOKES * DEEP + 1);
  guint n = problem->n_nodes;

  for (guint i = 0; i < n; i++)
    {
      guint spoke = i == 0 ? SPOKES : (i - 1) / DEEP;
      gint64 out = i == 0 ? 0 : 10 + (i - 1) % DEEP;

      problem->to[i] = 10000;
      for (guint j = 0; j < n; j++)
        {
          guint other = j == 0 ? SPOKES : (j - 1) / DEEP;
          gint64 other_out = j == 0 ? 0 : 10 + (j - 1) % DEEP;

          problem->drive[i * n + j] = spoke == other ? ABS (out - other_out) : out + other_out;
        }
    }
  return problem;
}

/* Each spoke has to be driven out and back, and a tour with each driven once is the best there is. */
static void
test_spokes (gconstpointer data)
{
  const Way *way = data;
  g_autoptr (HsTsptw) problem = make_spokes ();
  gint64 least = 2 * SPOKES * (10 + DEEP - 1);

  for (guint32 seed = 1; seed <= 5; seed++)
    {
      g_autoptr (HsTsptwQuick) quick = make_quick (problem, seed, NULL, NULL);
      guint16 order[HS_TSPTW_MAX_NODES];

      for (guint i = 0; i < SPOKES * DEEP; i++)
        order[i] = (guint16) (1 + (i % SPOKES) * DEEP + i / SPOKES);
      g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, order), >, 3 * least);
      hs_tsptw_quick_start_from (quick, order);
      g_assert_true (way->run (quick, way->many));
      g_assert_cmpint (drive_best (problem, quick), ==, least);
    }
}

static void
add_shapes (const TsptwShape *shapes, guint n_shapes, const char *name, GTestDataFunc test, const Way *way)
{
  for (guint i = 0; i < n_shapes; i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw-quick/%s/%s/%s", way->name, name, shapes[i].name);
      Case *row = g_new (Case, 1);

      *row = (Case){ &shapes[i], way };
      g_test_add_data_func_full (path, row, test, g_free);
    }
}

static void
add_test (const char *name, GTestDataFunc test, const Way *way)
{
  g_autofree char *path = g_strdup_printf ("/tsptw-quick/%s/%s", way->name, name);

  g_test_add_data_func (path, way, test);
}

int
main (int argc, char **argv)
{
  static const TsptwShape small[] = {
    { "narrow", 7, 20, 40, 60, FALSE, FALSE, FALSE, 0, 0 },
    { "wide", 7, 20, 200, 60, FALSE, FALSE, FALSE, 0, 0 },
    { "asymmetric", 7, 20, 80, 60, FALSE, TRUE, FALSE, 0, 0 },
    { "no-triangle", 6, 20, 60, 60, TRUE, TRUE, TRUE, 0, 0 },
    { "missing-legs", 6, 12, 90, 60, FALSE, TRUE, TRUE, 15, 0 },
    { "orders", 7, 15, 90, 60, FALSE, TRUE, FALSE, 0, 2 },
  };
  static const TsptwShape middling[] = {
    { "thirty", 30, 50, 80, 10, FALSE, FALSE, FALSE, 0, 0 },
    { "wide", 25, 50, 200, 10, FALSE, FALSE, FALSE, 0, 0 },
    { "asymmetric", 30, 50, 80, 10, FALSE, TRUE, FALSE, 0, 0 },
    { "no-triangle", 25, 50, 80, 10, FALSE, TRUE, TRUE, 0, 0 },
    { "orders", 25, 50, 300, 10, FALSE, TRUE, FALSE, 0, 1 },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      add_shapes (small, G_N_ELEMENTS (small), "small", test_small, &ways[i]);
      add_shapes (middling, G_N_ELEMENTS (middling), "middling", test_middling, &ways[i]);
      add_test ("spokes", test_spokes, &ways[i]);
      add_test ("keeps-best", test_keeps_best, &ways[i]);
      add_test ("same-again", test_same_again, &ways[i]);
      add_test ("tiny", test_tiny, &ways[i]);
    }
  return g_test_run ();
}
