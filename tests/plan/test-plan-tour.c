// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Rounds against trying every order, and what holds for every answer, also for one that was cut short. */

#include "tour-trial.h"

#include "hs-plan-error.h"

#include <string.h>

#define RING(node) "node " node " is in, or behind, a ring of nodes that must each come before the next"

/* What holds for every answer. */
static void
check_tour (const HsTourProblem *problem, const HsTour *tour)
{
  guint8 seen[HS_TOUR_MAX_NODES] = { 0 };

  g_assert_cmpuint (tour->n, ==, problem->n);
  g_assert_cmpuint (tour->order[0], ==, 0);
  for (guint i = 0; i < tour->n; i++)
    {
      g_assert_cmpuint (tour->order[i], <, tour->n);
      g_assert_cmpuint (seen[tour->order[i]]++, ==, 0);
    }
  g_assert_true (tour_trial_keeps_orders (problem, tour->order));
  g_assert_cmpint (tour->cost, ==, tour_trial_add_up (problem, tour->order));
  g_assert_cmpint (tour->cost, ==, hs_tour_problem_cost (problem, tour->order));
  g_assert_cmpint (tour->bound, <=, tour->cost);
  g_assert_cmpint (tour->status, ==, tour->bound == tour->cost ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND);
}

static HsTour *
solve (const HsTourProblem *problem, guint32 seed)
{
  HsTourHow how = { NULL, NULL, seed };
  HsTour *tour = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_tour_solve (problem, &how, &tour, &error));
  g_assert_no_error (error);
  check_tour (problem, tour);
  return tour;
}

/* Small numbers make many rounds alike in cost, large ones make every leg count. */
static void
test_every_order (gconstpointer data)
{
  static const gint32 mosts[] = { 1, 4, 30, 1000, HS_TOUR_MAX_COST };
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);

  for (guint trial = 0; trial < 300; trial++)
    {
      guint n = 1 + trial % (trial % 10 == 0 ? TOUR_TRIAL_MOST : 7);
      g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, n, kind, mosts[trial % G_N_ELEMENTS (mosts)]);
      g_autoptr (HsTour) tour = solve (problem, trial);

      g_assert_cmpint (tour->cost, ==, tour_trial_cheapest (problem));
      g_assert_cmpint (tour->status, ==, HS_PLAN_OPTIMAL);
    }
  g_rand_free (rand);
}

static gboolean
give_up_after (gpointer data)
{
  guint *left = data;

  if (*left == 0)
    return TRUE;
  (*left)--;
  return FALSE;
}

/* Whenever it is told to stop, what comes out is a round that keeps to the orders, and a bound that is true. */
static void
test_cut (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 100);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 24, kind, 100);
  g_autoptr (HsTour) whole = solve (problem, 1);

  g_assert_cmpint (whole->status, ==, HS_PLAN_OPTIMAL);
  for (guint asks = 0; asks < 400; asks += 1 + asks / 4)
    {
      guint left = asks;
      HsTourHow how = { give_up_after, &left, 1 };
      g_autoptr (HsTour) tour = NULL;

      g_assert_true (hs_tour_solve (problem, &how, &tour, NULL));
      check_tour (problem, tour);
      g_assert_cmpint (tour->cost, >=, whole->cost);
      g_assert_cmpint (tour->bound, <=, whole->cost);
    }
  g_rand_free (rand);
}

static void
test_same_answer (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 200);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 20, kind, 50);
  g_autoptr (HsTour) first = solve (problem, 7);
  g_autoptr (HsTour) again = solve (problem, 7);

  g_assert_cmpint (first->cost, ==, again->cost);
  g_assert_cmpuint (first->states, ==, again->states);
  g_assert_cmpmem (first->order, first->n * sizeof *first->order, again->order, again->n * sizeof *again->order);
  g_rand_free (rand);
}

/* On a circle of places the round along it is the shortest: legs are the steps between them, either way. */
static void
test_circle (void)
{
  static const guint sizes[] = { 5, 10, 40, 101, 250 };

  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    {
      guint n = sizes[s];
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (n);
      g_autoptr (HsTour) tour = NULL;

      for (guint i = 0; i < n; i++)
        for (guint j = 0; j < n; j++)
          {
            /* Shuffled by a factor that has no common divisor with any of the sizes. */
            guint apart = (i * 7 + n - j * 7 % n) % n;

            hs_tour_problem_set_cost (problem, i, j, (gint32) MIN (apart, n - apart) * 10);
          }
      tour = solve (problem, 1);
      g_assert_cmpint (tour->cost, ==, 10 * (gint64) n);
      g_assert_cmpint (tour->status, ==, HS_PLAN_OPTIMAL);
    }
}

/* One way costs 1, the other 100: the round must go the cheap way, and orders against it cost one dear leg. */
static void
test_one_way (void)
{
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (60);
  g_autoptr (HsTour) free_tour = NULL;
  g_autoptr (HsTour) ordered = NULL;

  for (guint i = 0; i < 60; i++)
    for (guint j = 0; j < 60; j++)
      hs_tour_problem_set_cost (problem, i, j, j == (i + 1) % 60 ? 1 : 100);
  free_tour = solve (problem, 1);
  g_assert_cmpint (free_tour->cost, ==, 60);
  g_assert_cmpint (free_tour->status, ==, HS_PLAN_OPTIMAL);
  for (guint i = 0; i < 60; i++)
    g_assert_cmpuint (free_tour->order[i], ==, i);
  /* 41 before 40: 0 … 39, 41 … 59, 40, 0 takes three dear legs; nothing takes fewer than three. */
  hs_tour_problem_add_order (problem, 41, 40);
  ordered = solve (problem, 1);
  g_assert_cmpint (ordered->cost, ==, 57 + 300);
}

static void
test_refused (void)
{
  static const struct
  {
    HsTourOrder orders[3];
    gint32 cost;
    const char *message;
  } rows[] = {
    { { { 1, 2 }, { 2, 3 }, { 3, 1 } }, 1, RING ("2") },
    { { { 2, 2 }, { 0, 1 }, { 0, 1 } }, 1, RING ("3") },
    { { { 1, 0 }, { 0, 1 }, { 0, 1 } }, 1, "node 2 can't come before node 1, where the round starts" },
    { { { 1, 9 }, { 0, 1 }, { 0, 1 } }, 1, "an order names a node that does not exist" },
    { { { 9, 1 }, { 0, 1 }, { 0, 1 } }, 1, "an order names a node that does not exist" },
    { { { 1, 2 }, { 0, 1 }, { 0, 1 } }, -1, "the leg from node 4 to node 1 is not from 0 to 1000000000" },
    { { { 1, 2 }, { 0, 1 }, { 0, 1 } }, HS_TOUR_MAX_COST + 1,
      "the leg from node 4 to node 1 is not from 0 to 1000000000" },
    { { { 1, 2 }, { 1, 3 }, { 2, 3 } }, 1, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (4);
      g_autoptr (HsTour) tour = NULL;
      g_autoptr (GError) error = NULL;
      HsTourHow how = { NULL, NULL, 1 };

      for (guint k = 0; k < 3; k++)
        hs_tour_problem_add_order (problem, rows[i].orders[k].earlier, rows[i].orders[k].later);
      hs_tour_problem_set_cost (problem, 3, 0, rows[i].cost);
      if (rows[i].message == NULL)
        {
          g_assert_true (hs_tour_solve (problem, &how, &tour, &error));
          continue;
        }
      g_assert_false (hs_tour_solve (problem, &how, &tour, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, rows[i].message);
      g_assert_null (tour);
    }
}

static void
test_sizes (void)
{
  g_autoptr (HsTourProblem) none = hs_tour_problem_new (0);
  g_autoptr (HsTourProblem) many = hs_tour_problem_new (HS_TOUR_MAX_NODES + 1);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_tour_problem_check (none, NULL));
  g_assert_false (hs_tour_problem_check (many, &error));
  g_assert_cmpstr (error->message, ==, "there must be 1 to 2000 nodes");
  hs_tour_problem_free (NULL);
  hs_tour_free (NULL);
}

int
main (int argc, char **argv)
{
  static const char *const kinds[] = { "alike", "one-way", "ordered", "way-with-orders" };

  g_test_init (&argc, &argv, NULL);
  for (guint kind = 0; kind < G_N_ELEMENTS (kinds); kind++)
    {
      g_autofree char *every = g_strconcat ("/tour/every-order/", kinds[kind], NULL);
      g_autofree char *cut = g_strconcat ("/tour/cut/", kinds[kind], NULL);
      g_autofree char *same = g_strconcat ("/tour/same-answer/", kinds[kind], NULL);

      g_test_add_data_func (every, GUINT_TO_POINTER (kind), test_every_order);
      g_test_add_data_func (cut, GUINT_TO_POINTER (kind), test_cut);
      g_test_add_data_func (same, GUINT_TO_POINTER (kind), test_same_answer);
    }
  g_test_add_func ("/tour/circle", test_circle);
  g_test_add_func ("/tour/one-way", test_one_way);
  g_test_add_func ("/tour/refused", test_refused);
  g_test_add_func ("/tour/sizes", test_sizes);
  return g_test_run ();
}
