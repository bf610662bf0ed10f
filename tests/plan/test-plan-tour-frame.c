// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the search sees of a round: closed orders and usable legs against all rounds there are, near nodes, cost. */

#include "tour-judge.h"

#include <string.h>

#define MOST 8

/* What all rounds together have: each leg that any uses, and each pair of nodes that any visits in this order. */
typedef struct
{
  guint n;
  gboolean leg[MOST][MOST];
  gboolean earlier[MOST][MOST];
} All;

static void
take_in (const guint16 *order, gint64 cost, gpointer data)
{
  All *all = data;

  for (guint i = 0; i < all->n; i++)
    {
      all->leg[order[i]][order[(i + 1) % all->n]] = TRUE;
      for (guint k = i + 1; k < all->n; k++)
        all->earlier[order[i]][order[k]] = TRUE;
    }
}

static gboolean
has_bit (const HsTourFrame *frame, const guint64 *rows, guint row, guint bit)
{
  return (rows[row * frame->words + bit / 64] >> bit % 64 & 1) != 0;
}

/* A node comes before another exactly if no round visits them the other way; a leg is there exactly if a round has
 * it. */
static void
test_closed (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 21);

  for (guint trial = 0; trial < 120; trial++)
    {
      guint n = 2 + trial % (MOST - 1);
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 1000);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      All all = { n, { { FALSE } }, { { FALSE } } };

      tour_each_round (problem, take_in, &all);
      for (guint i = 0; i < n; i++)
        for (guint j = 0; j < n; j++)
          {
            gboolean before = i > 0 && j > 0 && i != j && !all.earlier[j][i];
            gint32 cost = all.leg[i][j] ? problem->costs[i * n + j] : HS_TOUR_NO_LEG;

            g_assert_cmpint (hs_tour_frame_cost (frame, i, j), ==, i == j ? HS_TOUR_NO_LEG : cost);
            g_assert_cmpint (hs_tour_frame_is_before (frame, i, j), ==, before);
            g_assert_cmpint (has_bit (frame, frame->before, j, i), ==, before);
            g_assert_cmpint (has_bit (frame, frame->after, i, j), ==, before);
          }
    }
  g_rand_free (rand);
}

static void
test_flags (void)
{
  static const struct
  {
    gint32 back;
    HsTourOrder order;
    gboolean symmetric;
    gboolean ordered;
  } rows[] = {
    { 5, { 0, 0 }, TRUE, FALSE },
    { 6, { 0, 0 }, FALSE, FALSE },
    /* Orders behind node 0 say nothing; others take the symmetry away, whatever legs cost. */
    { 5, { 0, 2 }, TRUE, FALSE },
    { 5, { 1, 2 }, FALSE, TRUE },
    { 6, { 2, 1 }, FALSE, TRUE },
  };

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (4);
      g_autoptr (HsTourFrame) frame = NULL;

      for (guint i = 0; i < 16; i++)
        problem->costs[i] = 5;
      hs_tour_problem_set_cost (problem, 3, 1, rows[r].back);
      if (rows[r].order.later != 0)
        hs_tour_problem_add_order (problem, rows[r].order.earlier, rows[r].order.later);
      frame = hs_tour_frame_new (problem);
      g_assert_cmpint (frame->symmetric, ==, rows[r].symmetric);
      g_assert_cmpint (frame->ordered, ==, rows[r].ordered);
      g_assert_cmpuint (frame->words, ==, 1);
      g_assert_cmpuint (frame->n_near, ==, 3);
    }
}

/* A chain over more nodes than a word has bits: each node waits for all below it, and only one leg leads on. */
static void
test_chain (void)
{
  guint n = 150;
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (n);
  g_autoptr (HsTourFrame) frame = NULL;

  /* The last link first, so that what follows must be drawn over many steps. */
  for (guint i = n - 1; i > 1; i--)
    hs_tour_problem_add_order (problem, i - 1, i);
  frame = hs_tour_frame_new (problem);
  g_assert_cmpuint (frame->words, ==, 3);
  for (guint i = 1; i < n; i++)
    for (guint j = 1; j < n; j++)
      g_assert_cmpint (hs_tour_frame_is_before (frame, i, j), ==, i < j);
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      g_assert_cmpint (hs_tour_frame_cost (frame, i, j) != HS_TOUR_NO_LEG, ==, j == (i + 1) % n);
  for (guint w = 0; w < frame->words; w++)
    {
      g_assert_cmpuint (frame->before[w], ==, 0);
      g_assert_cmpuint (frame->after[w], ==, 0);
    }
}

static int
compare_costs (const void *a, const void *b)
{
  gint32 left = *(const gint32 *) a;
  gint32 right = *(const gint32 *) b;

  return (left > right) - (left < right);
}

/* One row of near nodes against the whole row of costs, sorted: the cheapest ones, each node once. */
static void
check_near (const gint32 *costs, guint n, guint n_near, guint node, const guint16 *near)
{
  g_autofree gint32 *sorted = g_memdup2 (costs, n * sizeof *costs);
  g_autofree guint8 *seen = g_new0 (guint8, n);

  qsort (sorted, n, sizeof *sorted, compare_costs);
  for (guint k = 0; k < n_near; k++)
    if (sorted[0] == HS_TOUR_NO_LEG)
      g_assert_cmpuint (near[k], ==, node);
    else if (sorted[k] == HS_TOUR_NO_LEG)
      g_assert_cmpuint (near[k], ==, near[0]);
    else
      {
        g_assert_cmpuint (near[k], <, n);
        g_assert_cmpint (costs[near[k]], ==, sorted[k]);
        g_assert_cmpuint (seen[near[k]]++, ==, 0);
      }
}

static void
test_near (void)
{
  static const guint sizes[] = { 2, 3, 5, 10, 11, 12, 40 };
  GRand *rand = g_rand_new_with_seed (31);

  for (guint trial = 0; trial < 140; trial++)
    {
      guint n = sizes[trial % G_N_ELEMENTS (sizes)];
      guint n_near = MIN (HS_TOUR_NEAR, n - 1);
      g_autofree gint32 *costs = g_new (gint32, n * n);
      g_autofree guint16 *near = g_new (guint16, n * n_near);

      /* From rows that are full to rows with few legs and with none. */
      for (guint i = 0; i < n; i++)
        for (guint j = 0; j < n; j++)
          costs[i * n + j] = i == j || g_rand_int_range (rand, 0, 10) < (gint32) (i % 11)
                               ? HS_TOUR_NO_LEG
                               : g_rand_int_range (rand, 0, trial % 2 == 0 ? 4 : 1000);
      hs_tour_frame_fill_near (costs, n, n_near, near);
      for (guint i = 0; i < n; i++)
        check_near (&costs[i * n], n, n_near, i, &near[i * n_near]);
    }
  g_rand_free (rand);
}

static void
test_near_of_frame (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 41);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 30, kind, 500);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);

  g_assert_cmpuint (frame->n_near, ==, HS_TOUR_NEAR);
  for (guint i = 0; i < 30; i++)
    check_near (&frame->costs[i * 30], 30, HS_TOUR_NEAR, i, &frame->near_out[i * HS_TOUR_NEAR]);
  g_rand_free (rand);
}

static void
same_cost (const guint16 *order, gint64 cost, gpointer data)
{
  g_assert_cmpint (hs_tour_frame_round (data, order), ==, cost);
}

static void
test_round (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 51);

  for (guint n = 1; n < 7; n++)
    {
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, HS_TOUR_MAX_COST);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);

      tour_each_round (problem, same_cost, frame);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-frame/closed", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_closed);
  g_test_add_func ("/tour-frame/flags", test_flags);
  g_test_add_func ("/tour-frame/chain", test_chain);
  g_test_add_func ("/tour-frame/near", test_near);
  tour_add_test ("/tour-frame/near-of-frame", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_near_of_frame);
  tour_add_test ("/tour-frame/round", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_round);
  hs_tour_frame_free (NULL);
  return g_test_run ();
}
