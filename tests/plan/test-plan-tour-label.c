// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Dynamic programming over rounds: whole or narrow, what it calls proven is the cheapest round, and what it calls a
 * floor is one, also where many states promise just as much. */

#include "hs-tour-label.h"
#include "tour-judge.h"

static const guint widths[] = { 0, 1, 2, 3, 5, 20 };
static const HsTourHow how = { NULL, NULL, 1 };
static guint n_narrow_proofs;

/* Begins with the first round there is, so that whatever is better must come from here. */
static HsTourSearch *
begin_search (const HsTourProblem *problem, const HsTourFrame *frame)
{
  HsTourSearch *search = hs_tour_search_new (frame, &how);

  tour_first_round (problem, search->best);
  search->best_cost = tour_add_up (problem, search->best);
  return search;
}

static void
check_width (const HsTourProblem *problem, guint width, gboolean with_tree, gint64 cheapest)
{
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourSearch) search = begin_search (problem, frame);
  g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
  HsTourLabels labels = { .search = search, .width = width, .most_bytes = 1 << 24, .floor = 0 };
  gint64 first = search->best_cost;
  gboolean proven;

  if (with_tree && hs_tour_tree_climb (tree, search->best_cost, 20, 100))
    labels.tree = tree;
  proven = hs_tour_labels_run (&labels);
  tour_check_round (problem, search->best);
  g_assert_cmpint (search->best_cost, ==, tour_add_up (problem, search->best));
  g_assert_cmpint (search->best_cost, <=, first);
  g_assert_cmpint (labels.floor, <=, cheapest);
  g_assert_false (labels.full);
  g_assert_true (proven || width > 0);
  if (!proven)
    return;
  g_assert_cmpint (search->best_cost, ==, cheapest);
  g_assert_cmpint (labels.floor, ==, cheapest);
  n_narrow_proofs += width > 0;
}

/* Legs from 0 to 5 make many states promise as much as others. */
static void
test_widths (gconstpointer data)
{
  n_narrow_proofs = 0;
  for (guint32 seed = 0; seed < 60; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsTourProblem) problem = tour_random (rand, 3 + seed % 5, GPOINTER_TO_UINT (data),
                                                       seed % 3 > 0 ? 5 : 1000);
      gint64 cheapest = tour_cheapest (problem);

      for (guint w = 0; w < G_N_ELEMENTS (widths); w++)
        check_width (problem, widths[w], seed % 2 == 0, cheapest);
    }
  g_assert_cmpuint (n_narrow_proofs, >, 20);
}

/* Without room for its states it says so, and its floor holds. */
static void
test_full (gconstpointer data)
{
  guint n_full = 0;

  for (guint32 seed = 0; seed < 20; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsTourProblem) problem = tour_random (rand, 8, GPOINTER_TO_UINT (data), 1000);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) search = begin_search (problem, frame);
      HsTourLabels labels = { .search = search, .most_bytes = 1, .floor = 0 };

      n_full += !hs_tour_labels_run (&labels) && labels.full;
      tour_check_round (problem, search->best);
      g_assert_cmpint (labels.floor, <=, tour_cheapest (problem));
    }
  g_assert_cmpuint (n_full, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-label/widths", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_widths);
  tour_add_test ("/tour-label/full", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_full);
  return g_test_run ();
}
