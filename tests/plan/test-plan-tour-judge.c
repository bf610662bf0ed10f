// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The judge of rounds on problems that can be checked in the head, and its two ways of counting against each other. */

#include "tour-judge.h"

#include <string.h>

typedef struct
{
  guint n_rounds;
  gint64 least;
  gint64 most;
} Seen;

static void
see (const guint16 *order, gint64 cost, gpointer data)
{
  Seen *seen = data;

  g_assert_cmpuint (order[0], ==, 0);
  seen->n_rounds++;
  seen->least = MIN (seen->least, cost);
  seen->most = MAX (seen->most, cost);
}

/* (n − 1)! rounds; an order between two nodes leaves half of them, a chain of three a sixth, a chain of all one. */
static void
test_counts (void)
{
  static const struct
  {
    guint n;
    HsTourOrder orders[3];
    guint n_rounds;
  } rows[] = {
    { 1, { { 0, 0 } }, 1 },
    { 2, { { 0, 0 } }, 1 },
    { 3, { { 0, 0 } }, 2 },
    { 5, { { 0, 0 } }, 24 },
    { 7, { { 0, 0 } }, 720 },
    { 5, { { 2, 1 } }, 12 },
    { 5, { { 3, 1 }, { 1, 4 } }, 4 },
    { 5, { { 1, 2 }, { 3, 4 } }, 6 },
    { 5, { { 0, 2 }, { 0, 3 } }, 24 },
    { 4, { { 3, 2 }, { 2, 1 } }, 1 },
    { 6, { { 1, 5 }, { 2, 5 }, { 3, 5 } }, 30 },
  };

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (rows[r].n);
      Seen seen = { 0, G_MAXINT64, G_MININT64 };

      for (guint k = 0; k < 3; k++)
        if (rows[r].orders[k].later != 0)
          hs_tour_problem_add_order (problem, rows[r].orders[k].earlier, rows[r].orders[k].later);
      tour_each_round (problem, see, &seen);
      g_assert_cmpuint (seen.n_rounds, ==, rows[r].n_rounds);
      g_assert_cmpint (seen.least, ==, 0);
      g_assert_cmpint (seen.most, ==, 0);
    }
}

/* Legs 1 along 0 → 1 → 2 → 3 → 0 and 10 else: 4 along it, 40 where nothing of it is used, as in 0 → 3 → 2 → 1 → 0. */
static void
test_costs (void)
{
  static const guint16 along[] = { 0, 1, 2, 3 };
  static const guint16 against[] = { 0, 3, 2, 1 };
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (4);
  Seen seen = { 0, G_MAXINT64, G_MININT64 };

  for (guint i = 0; i < 4; i++)
    for (guint j = 0; j < 4; j++)
      hs_tour_problem_set_cost (problem, i, j, j == (i + 1) % 4 ? 1 : 10);
  g_assert_cmpint (tour_add_up (problem, along), ==, 4);
  g_assert_cmpint (tour_add_up (problem, against), ==, 40);
  tour_each_round (problem, see, &seen);
  g_assert_cmpint (seen.least, ==, 4);
  g_assert_cmpint (seen.most, ==, 40);
  g_assert_cmpint (tour_cheapest (problem), ==, 4);
  /* With 3 before 2 neither 2 → 3 nor 3 → 0 can be used, and of 0 → 1 and 1 → 2 only one: three dear legs. */
  hs_tour_problem_add_order (problem, 3, 2);
  g_assert_cmpint (tour_cheapest (problem), ==, 31);
}

static void
test_two_ways (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 11);

  for (guint trial = 0; trial < 60; trial++)
    {
      guint n = 1 + trial % 8;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, trial % 2 == 0 ? 5 : 1000);
      g_autofree guint16 *first = g_new (guint16, n);
      Seen seen = { 0, G_MAXINT64, G_MININT64 };

      g_assert_true (hs_tour_problem_check (problem, NULL));
      tour_each_round (problem, see, &seen);
      g_assert_cmpuint (seen.n_rounds, >, 0);
      g_assert_cmpint (tour_cheapest (problem), ==, seen.least);
      tour_first_round (problem, first);
      tour_check_round (problem, first);
      g_assert_cmpint (tour_add_up (problem, first), >=, seen.least);
      g_assert_cmpint (tour_add_up (problem, first), <=, seen.most);
    }
  g_rand_free (rand);
}

/* Which kinds are alike both ways, and which have orders. */
static void
test_kinds (void)
{
  static const struct
  {
    TourKind kind;
    gboolean alike;
    gboolean ordered;
  } rows[] = {
    { TOUR_ALIKE, TRUE, FALSE },
    { TOUR_ONE_WAY, FALSE, FALSE },
    { TOUR_ORDERED, FALSE, TRUE },
    { TOUR_WAY_WITH_ORDERS, FALSE, TRUE },
  };
  GRand *rand = g_rand_new_with_seed (1);

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      gboolean alike = TRUE;
      guint n_orders = 0;

      for (guint trial = 0; trial < 10; trial++)
        {
          g_autoptr (HsTourProblem) problem = tour_random (rand, 8, rows[r].kind, 100000);

          n_orders += problem->orders->len;
          for (guint i = 0; i < 64; i++)
            alike = alike && problem->costs[i] == problem->costs[i % 8 * 8 + i / 8];
        }
      g_assert_cmpint (alike, ==, rows[r].alike);
      g_assert_cmpint (n_orders > 0, ==, rows[r].ordered);
    }
  g_rand_free (rand);
}

static void
test_patience (void)
{
  guint left = 2;

  g_assert_false (tour_give_up_after (&left));
  g_assert_false (tour_give_up_after (&left));
  g_assert_true (tour_give_up_after (&left));
  g_assert_true (tour_give_up_after (&left));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tour-judge/counts", test_counts);
  g_test_add_func ("/tour-judge/costs", test_costs);
  tour_add_test ("/tour-judge/two-ways", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_two_ways);
  g_test_add_func ("/tour-judge/kinds", test_kinds);
  g_test_add_func ("/tour-judge/patience", test_patience);
  return g_test_run ();
}
