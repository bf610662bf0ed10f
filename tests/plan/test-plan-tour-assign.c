// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The cheapest assignment of next nodes: against every one that there is. */

#include "tour-judge.h"

/* The cheapest of all assignments of another next node to every node, with usable legs only. */
static void
try_next (const HsTourFrame *frame, guint row, guint taken, gint64 cost, gint64 *best)
{
  guint n = frame->n;

  if (row == n)
    {
      *best = MIN (*best, cost);
      return;
    }
  for (guint j = 0; j < n; j++)
    {
      gint32 leg = hs_tour_frame_cost (frame, row, j);

      if ((taken >> j & 1) == 0 && leg != HS_TOUR_NO_LEG)
        try_next (frame, row + 1, taken | 1u << j, cost + leg, best);
    }
}

/* What the prices alone say: by them no leg is cheaper than nothing, and their sum is the bound. */
static gint64
sum_prices (const HsTourTree *tree)
{
  gint64 sum = 0;

  for (guint a = 0; a < tree->n_legs; a++)
    g_assert_cmpint (tree->legs[a].cost * (gint64) HS_TOUR_SCALE + tree->prices[tree->legs[a].tail]
                       + tree->prices[tree->n + tree->legs[a].head],
                     >=, 0);
  for (guint p = 0; p < tree->n_prices; p++)
    sum -= tree->prices[p];
  return sum;
}

/* No prices with which no leg costs less than nothing can sum up to more than the cheapest assignment; these do to just
 * as much, and the tree that grows under them is worth no less. */
static void
test_every_one (gconstpointer data)
{
  static const gint32 mosts[] = { 1, 10, 1000, HS_TOUR_MAX_COST };
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);

  for (guint trial = 0; trial < 120; trial++)
    {
      guint n = 3 + trial % 6;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, mosts[trial % G_N_ELEMENTS (mosts)]);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      gint64 least = G_MAXINT64;

      if (frame->symmetric)
        continue;
      try_next (frame, 0, 0, 0, &least);
      hs_tour_tree_assign (tree);
      g_assert_cmpint (sum_prices (tree), ==, least * HS_TOUR_SCALE);
      g_assert_true (hs_tour_tree_grow (tree));
      g_assert_cmpint (tree->value, >=, least * HS_TOUR_SCALE);
      g_assert_cmpint (hs_tour_tree_bound (tree), <=, tour_cheapest (problem));
    }
  g_rand_free (rand);
}

/* Three nodes that go round for 1 a leg, and three others: two rings for 6 together, though a round must cost more. */
static void
test_two_rings (void)
{
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (6);
  g_autoptr (HsTourFrame) frame = NULL;
  g_autoptr (HsTourTree) tree = NULL;

  for (guint i = 0; i < 6; i++)
    for (guint j = 0; j < 6; j++)
      hs_tour_problem_set_cost (problem, i, j, j == i / 3 * 3 + (i + 1) % 3 ? 1 : 50);
  frame = hs_tour_frame_new (problem);
  tree = hs_tour_tree_new (frame);
  hs_tour_tree_assign (tree);
  g_assert_cmpint (sum_prices (tree), ==, 6 * HS_TOUR_SCALE);
  g_assert_cmpint (tour_cheapest (problem), ==, 104);
  g_assert_true (hs_tour_tree_grow (tree));
  /* The tree must leave each ring once: at least one leg of 50 in place of one of 1. */
  g_assert_cmpint (hs_tour_tree_bound (tree), >=, 55);
  g_assert_cmpint (hs_tour_tree_bound (tree), <=, 104);
}

/* Along the circle every next node costs k + 1 from node k; anything else costs a lot. */
static void
test_large (void)
{
  guint n = 300;
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (n);
  g_autoptr (HsTourFrame) frame = NULL;
  g_autoptr (HsTourTree) tree = NULL;

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      hs_tour_problem_set_cost (problem, i, j, j == (i + 1) % n ? (gint32) i + 1 : 100000);
  frame = hs_tour_frame_new (problem);
  tree = hs_tour_tree_new (frame);
  hs_tour_tree_assign (tree);
  g_assert_cmpint (sum_prices (tree), ==, (gint64) n * (n + 1) / 2 * HS_TOUR_SCALE);
  g_assert_true (hs_tour_tree_grow (tree));
  g_assert_cmpint (hs_tour_tree_bound (tree), ==, n * (n + 1) / 2);
}

/* Cut short it leaves the prices as they were; whatever prices there are, the tree stays below every round. */
static void
test_cut (void)
{
  static const guint asks[] = { 0, 1, 39, 40, 41 };
  GRand *rand = g_rand_new_with_seed (5);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 40, TOUR_ONE_WAY, 1000);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);

  /* Asked before each of 40 rows. */
  for (guint k = 0; k < G_N_ELEMENTS (asks); k++)
    {
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      guint left = asks[k];
      gboolean moved = FALSE;

      tree->give_up = tour_give_up_after;
      tree->user_data = &left;
      hs_tour_tree_assign (tree);
      for (guint p = 0; p < tree->n_prices; p++)
        moved |= tree->prices[p] != 0;
      g_assert_cmpint (moved, ==, asks[k] >= 40);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-assign/every-one", TOUR_ONE_WAY, TOUR_WAY_WITH_ORDERS, test_every_one);
  g_test_add_func ("/tour-assign/two-rings", test_two_rings);
  g_test_add_func ("/tour-assign/large", test_large);
  g_test_add_func ("/tour-assign/cut", test_cut);
  return g_test_run ();
}
