// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The search for good rounds: what it keeps is a round and never gets worse, under any prices, for the same seed the
 * same, and whenever it is told to stop. */

#include "hs-tour-search.h"

#include "tour-judge.h"

#include <string.h>

static void
check_search (const HsTourProblem *problem, const HsTourSearch *search)
{
  guint n = problem->n;
  g_autofree guint16 *order = g_new (guint16, n);

  tour_check_round (problem, search->best);
  g_assert_cmpint (search->best_cost, ==, tour_add_up (problem, search->best));
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpuint (search->at[search->tour[i]], ==, i);
      order[i] = search->tour[(search->at[0] + i) % n];
    }
  tour_check_round (problem, order);
  g_assert_cmpint (search->cost - search->added, ==, tour_add_up (problem, order));
  g_assert_cmpint (search->cost - search->added, >=, search->best_cost);
}

static void
test_never_worse (gconstpointer data)
{
  static const gint32 mosts[] = { 0, 1, 30, 5000, HS_TOUR_MAX_COST };
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);
  guint found = 0;

  for (guint trial = 0; trial < 100; trial++)
    {
      guint n = 1 + trial % 13;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, mosts[trial % G_N_ELEMENTS (mosts)]);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      HsTourHow how = { NULL, NULL, trial };
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);
      gint64 least = tour_cheapest (problem);

      check_search (problem, search);
      for (guint run = 0; run < 5; run++)
        {
          gint64 before = search->best_cost;
          gboolean better = hs_tour_search_run (search, run * 20, 0);

          check_search (problem, search);
          g_assert_cmpint (better, ==, search->best_cost < before);
          g_assert_cmpint (search->best_cost, <=, before);
          g_assert_cmpint (search->best_cost, >=, least);
        }
      found += search->best_cost == least;
    }
  g_assert_cmpuint (found, >, 80);
  g_rand_free (rand);
}

/* Always the nearest that may come next: 0 → 2 → 1 → 3 by hand; too few nodes to improve anything. */
static void
test_begin (void)
{
  static const struct
  {
    HsTourOrder order;
    guint16 wanted[4];
  } rows[] = {
    { { 0, 1 }, { 0, 2, 1, 3 } },
    { { 3, 1 }, { 0, 2, 3, 1 } },
    { { 1, 2 }, { 0, 3, 1, 2 } },
    { { 3, 2 }, { 0, 3, 1, 2 } },
  };

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      static const gint32 costs[16] = { 0, 8, 5, 6, 1, 0, 1, 9, 1, 2, 0, 3, 1, 4, 7, 0 };
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (4);
      g_autoptr (HsTourFrame) frame = NULL;
      g_autoptr (HsTourSearch) search = NULL;
      HsTourHow how = { NULL, NULL, 1 };

      memcpy (problem->costs, costs, sizeof costs);
      hs_tour_problem_add_order (problem, rows[r].order.earlier, rows[r].order.later);
      frame = hs_tour_frame_new (problem);
      search = hs_tour_search_new (frame, &how);
      g_assert_cmpmem (search->best, sizeof rows[r].wanted, rows[r].wanted, sizeof rows[r].wanted);
      g_assert_false (hs_tour_search_run (search, 50, 0));
      check_search (problem, search);
    }
}

static HsTourSearch *
searched (const HsTourFrame *frame, guint32 seed, guint kicks)
{
  HsTourHow how = { NULL, NULL, seed };
  HsTourSearch *search = hs_tour_search_new (frame, &how);

  hs_tour_search_run (search, kicks, 0);
  return search;
}

/* The same seed gives the same, also in two runs of half the length; another seed soon goes other ways. */
static void
test_seed (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 11);
  guint other_ways = 0;

  for (guint trial = 0; trial < 10; trial++)
    {
      gsize bytes = 30 * sizeof (guint16);
      g_autoptr (HsTourProblem) problem = tour_random (rand, 30, kind, 1000);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) once = searched (frame, trial, 40);
      g_autoptr (HsTourSearch) again = searched (frame, trial, 40);
      g_autoptr (HsTourSearch) other = searched (frame, trial + 100, 40);

      g_assert_cmpint (once->best_cost, ==, again->best_cost);
      g_assert_cmpmem (once->best, bytes, again->best, bytes);
      g_assert_cmpmem (once->tour, bytes, again->tour, bytes);
      other_ways += memcmp (once->tour, other->tour, bytes) != 0;
    }
  g_assert_cmpuint (other_ways, >, kind == TOUR_WAY_WITH_ORDERS ? 0 : 3);
  g_rand_free (rand);
}

/* Prices change every round by the same; only what looks cheap changes. Legs that are out begin no move. */
static void
test_reprice (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 21);

  for (guint trial = 0; trial < 40; trial++)
    {
      guint n = 5 + trial % 9;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 500);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      HsTourHow how = { NULL, NULL, trial };
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      const gint64 *coming = frame->symmetric ? tree->prices : tree->prices + n;
      gint64 before;

      for (guint p = 0; p < tree->n_prices; p++)
        tree->prices[p] = g_rand_int_range (rand, -300, 300) * HS_TOUR_SCALE;
      for (guint a = 0; a < tree->n_legs; a++)
        tree->state[a] = g_rand_int_range (rand, 0, 4) == 0 ? HS_TOUR_LEG_OUT : HS_TOUR_LEG_FREE;
      hs_tour_search_run (search, 10, 0);
      before = search->best_cost;
      hs_tour_search_reprice (search, tree);
      check_search (problem, search);
      for (guint a = 0; a < tree->n_legs; a++)
        {
          guint i = tree->legs[a].tail;
          guint j = tree->legs[a].head;

          g_assert_cmpint (hs_tour_search_cost (search, i, j), ==,
                           problem->costs[i * n + j] + (tree->prices[i] + coming[j]) / HS_TOUR_SCALE);
          for (guint k = 0; k < search->n_near && tree->state[a] == HS_TOUR_LEG_OUT; k++)
            g_assert_cmpuint (search->near[i * search->n_near + k], !=, j);
        }
      hs_tour_search_run (search, 60, 0);
      check_search (problem, search);
      g_assert_cmpint (search->best_cost, <=, before);
      g_assert_cmpint (search->best_cost, >=, tour_cheapest (problem));
    }
  g_rand_free (rand);
}

/* Prices that would not fit are left alone, every one of them. */
static void
test_large_prices (void)
{
  GRand *rand = g_rand_new_with_seed (31);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 8, TOUR_ONE_WAY, HS_TOUR_MAX_COST);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  HsTourHow how = { NULL, NULL, 1 };

  for (guint p = 0; p < 16; p++)
    for (int sign = -1; sign <= 1; sign += 2)
      {
        g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);
        g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);

        for (guint i = 0; i < 16; i++)
          tree->prices[i] = 5 * HS_TOUR_SCALE;
        tree->prices[p] = sign * G_GINT64_CONSTANT (600000000) * HS_TOUR_SCALE;
        hs_tour_search_reprice (search, tree);
        g_assert_cmpint (search->added, ==, 0);
        g_assert_cmpmem (search->costs, 64 * sizeof (gint32), frame->costs, 64 * sizeof (gint32));
        check_search (problem, search);
      }
  g_rand_free (rand);
}

/* Goes on from a better round that somebody else has found, and never comes back behind it. */
static void
test_restart (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 41);

  for (guint trial = 0; trial < 20; trial++)
    {
      g_autoptr (HsTourProblem) problem = tour_random (rand, 25, kind, 1000);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) good = searched (frame, trial, 400);
      g_autoptr (HsTourSearch) search = searched (frame, trial + 1, 0);

      g_assert_cmpint (good->best_cost, <=, search->best_cost);
      memcpy (search->best, good->best, 25 * sizeof *good->best);
      search->best_cost = good->best_cost;
      hs_tour_search_restart (search);
      g_assert_cmpint (search->cost, ==, good->best_cost);
      check_search (problem, search);
      hs_tour_search_run (search, 50, 0);
      check_search (problem, search);
      g_assert_cmpint (search->best_cost, <=, good->best_cost);
    }
  g_rand_free (rand);
}

/* With as much as is asked for already there, it does not begin. */
static void
test_enough (void)
{
  GRand *rand = g_rand_new_with_seed (51);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 60, TOUR_ONE_WAY, 1000);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourSearch) search = searched (frame, 1, 0);
  g_autofree guint16 *before = g_memdup2 (search->tour, 60 * sizeof *before);
  gint64 enough;

  g_assert_false (hs_tour_search_run (search, 1000, search->best_cost));
  g_assert_cmpmem (search->tour, 60 * sizeof *before, before, 60 * sizeof *before);
  enough = search->best_cost - 1;
  g_assert_true (hs_tour_search_run (search, 100000, enough));
  g_assert_cmpint (search->best_cost, <=, enough);
  g_rand_free (rand);
}

static void
test_cut (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 61);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 300, kind, 1000);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);

  for (guint asks = 0; asks < 12; asks++)
    {
      guint left = asks;
      HsTourHow how = { tour_give_up_after, &left, 1 };
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);

      check_search (problem, search);
      hs_tour_search_run (search, 2000, 0);
      check_search (problem, search);
      g_assert_true (search->cut);
      /* Once it has been told, it stays told. */
      left = 100;
      g_assert_true (hs_tour_search_gives_up (search));
      g_assert_cmpuint (left, ==, 100);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-search/never-worse", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_never_worse);
  g_test_add_func ("/tour-search/begin", test_begin);
  tour_add_test ("/tour-search/seed", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_seed);
  tour_add_test ("/tour-search/reprice", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_reprice);
  g_test_add_func ("/tour-search/large-prices", test_large_prices);
  tour_add_test ("/tour-search/restart", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_restart);
  g_test_add_func ("/tour-search/enough", test_enough);
  tour_add_test ("/tour-search/cut", TOUR_ALIKE, TOUR_ORDERED, test_cut);
  hs_tour_search_free (NULL);
  return g_test_run ();
}
