// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Dynamic programming over sets of nodes, alone and with either bound: the cheapest round, and a true floor when it
 * ends early. */

#include "hs-tour-label.h"

#include "tour-judge.h"

#include <string.h>

#define ROOM ((gsize) 100 << 20)

/* Which bounds the states are weighed with. */
typedef enum
{
  ALONE = 0,
  WITH_TREE = 1,
  WITH_PLACES = 2,
} Bounds;

typedef struct
{
  HsTourProblem *problem;
  HsTourFrame *frame;
  HsTourSearch *search;
  HsTourTree *tree;
  HsTourPlaces *places;
  HsTourLabels labels;
  gint64 least;
  guint left;
} Case;

/* Begins with the cheapest round that a search finds, or with one that nobody has looked for a cheap one in. */
static void
case_init (Case *c, GRand *rand, guint n, TourKind kind, gint32 most, Bounds bounds, gboolean good)
{
  HsTourHow how = { tour_give_up_after, &c->left, 1 };

  memset (c, 0, sizeof *c);
  c->left = G_MAXUINT;
  c->problem = tour_random (rand, n, kind, most);
  c->frame = hs_tour_frame_new (c->problem);
  c->search = hs_tour_search_new (c->frame, &how);
  c->least = tour_cheapest (c->problem);
  if (!good)
    {
      tour_first_round (c->problem, c->search->best);
      c->search->best_cost = tour_add_up (c->problem, c->search->best);
    }
  c->labels = (HsTourLabels){ .search = c->search, .most_bytes = ROOM };
  if (bounds & WITH_TREE)
    {
      c->labels.tree = c->tree = hs_tour_tree_new (c->frame);
      g_assert_true (hs_tour_tree_climb (c->tree, c->search->best_cost, 60, 100));
      hs_tour_tree_tighten (c->tree, c->search->best_cost);
    }
  if (bounds & WITH_PLACES)
    {
      c->labels.places = c->places = hs_tour_places_new (c->frame);
      hs_tour_places_climb (c->places, c->search, 60);
    }
}

static void
case_clear (Case *c)
{
  hs_tour_places_free (c->places);
  hs_tour_tree_free (c->tree);
  hs_tour_search_free (c->search);
  hs_tour_frame_free (c->frame);
  hs_tour_problem_free (c->problem);
}

static void
check_best (const Case *c)
{
  tour_check_round (c->problem, c->search->best);
  g_assert_cmpint (c->search->best_cost, ==, tour_add_up (c->problem, c->search->best));
  g_assert_cmpint (c->search->best_cost, >=, c->least);
  g_assert_cmpint (c->labels.floor, <=, c->least);
}

static void
test_proof (gconstpointer data)
{
  static const gint32 mosts[] = { 1, 6, 100, 5000, HS_TOUR_MAX_COST };
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);

  for (guint trial = 0; trial < 160; trial++)
    {
      Bounds bounds = trial % 4;
      guint n = trial % 8 == 0 ? 1 + trial / 8 % 3 : 3 + trial % 9;
      Case c;

      case_init (&c, rand, n, kind, mosts[trial % G_N_ELEMENTS (mosts)], n < 3 ? ALONE : bounds, trial % 3 == 0);
      g_assert_true (hs_tour_labels_run (&c.labels));
      check_best (&c);
      g_assert_cmpint (c.search->best_cost, ==, c.least);
      g_assert_cmpint (c.labels.floor, ==, c.least);
      g_assert_false (c.labels.full);
      case_clear (&c);
    }
  g_rand_free (rand);
}

static void
test_more_nodes (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 11);

  for (guint trial = 0; trial < 8; trial++)
    {
      Case c;

      case_init (&c, rand, 13 + trial % 2, kind, 1000, WITH_TREE | (trial % 2 == 0 ? WITH_PLACES : 0), FALSE);
      g_assert_true (hs_tour_labels_run (&c.labels));
      check_best (&c);
      g_assert_cmpint (c.search->best_cost, ==, c.least);
      case_clear (&c);
    }
  g_rand_free (rand);
}

/* Bounds only take states away. */
static void
test_fewer_states (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  guint64 states[4] = { 0 };

  for (Bounds bounds = ALONE; bounds <= (WITH_TREE | WITH_PLACES); bounds++)
    {
      GRand *rand = g_rand_new_with_seed (kind + 21);

      for (guint trial = 0; trial < 10; trial++)
        {
          Case c;

          case_init (&c, rand, 10, kind, 300, bounds, TRUE);
          g_assert_true (hs_tour_labels_run (&c.labels));
          states[bounds] += c.labels.states;
          case_clear (&c);
        }
      g_rand_free (rand);
    }
  g_assert_cmpuint (states[WITH_TREE], <, states[ALONE]);
  g_assert_cmpuint (states[WITH_PLACES], <=, states[ALONE]);
  g_assert_cmpuint (states[WITH_TREE | WITH_PLACES], <=, states[WITH_TREE]);
}

/* Only a few states of each layer are gone on with: it may miss the cheapest round, but must know that. */
static void
test_narrow (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 31);
  guint unproven = 0;

  for (guint trial = 0; trial < 80; trial++)
    {
      gint64 before;
      Case c;

      case_init (&c, rand, 8 + trial % 4, kind, trial % 3 == 0 ? 4 : 100, trial % 4, FALSE);
      before = c.search->best_cost;
      c.labels.width = 1 + trial % 7;
      if (hs_tour_labels_run (&c.labels))
        g_assert_cmpint (c.search->best_cost, ==, c.least);
      else
        unproven++;
      check_best (&c);
      g_assert_cmpint (c.search->best_cost, <=, before);
      g_assert_false (c.labels.full);
      /* Wider and wider, it gets there. */
      c.labels.width = 0;
      g_assert_true (hs_tour_labels_run (&c.labels));
      g_assert_cmpint (c.search->best_cost, ==, c.least);
      case_clear (&c);
    }
  g_assert_cmpuint (unproven, >, 5);
  g_rand_free (rand);
}

/* With too little room it says so, and what it says to be a floor is one. */
static void
test_full (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 41);
  guint full = 0;

  for (guint trial = 0; trial < 40; trial++)
    {
      Case c;

      case_init (&c, rand, 12, kind, 100, trial % 4, FALSE);
      c.labels.most_bytes = (gsize) 1 << (trial % 20);
      g_assert_cmpint (hs_tour_labels_run (&c.labels), ==, !c.labels.full);
      full += c.labels.full;
      check_best (&c);
      if (!c.labels.full)
        g_assert_cmpint (c.search->best_cost, ==, c.least);
      case_clear (&c);
    }
  g_assert_cmpuint (full, >, 5);
  g_assert_cmpuint (full, <, 40);
  g_rand_free (rand);
}

static void
test_cut (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  guint cut = 0;

  for (guint asks = 0; asks < 40; asks++)
    {
      GRand *rand = g_rand_new_with_seed (kind + 51);
      Case c;

      case_init (&c, rand, 12, kind, 100, asks % 4, FALSE);
      c.left = asks / 4;
      if (hs_tour_labels_run (&c.labels))
        g_assert_cmpint (c.search->best_cost, ==, c.least);
      else
        {
          g_assert_true (c.search->cut);
          g_assert_false (c.labels.full);
          cut++;
        }
      check_best (&c);
      case_clear (&c);
      g_rand_free (rand);
    }
  g_assert_cmpuint (cut, >=, 4);
}

/* Three nodes and an order, all of it in the head: 0 → 2 → 1 → 0 costs 20 + 6 + 10; the other way is not allowed. */
static void
test_by_hand (void)
{
  static const gint32 costs[9] = { 0, 1, 20, 10, 0, 1, 1, 6, 0 };
  static const guint16 wanted[3] = { 0, 2, 1 };
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (3);
  g_autoptr (HsTourFrame) frame = NULL;
  g_autoptr (HsTourSearch) search = NULL;
  HsTourHow how = { NULL, NULL, 1 };
  HsTourLabels labels = { .most_bytes = ROOM };

  memcpy (problem->costs, costs, sizeof costs);
  hs_tour_problem_add_order (problem, 2, 1);
  frame = hs_tour_frame_new (problem);
  labels.search = search = hs_tour_search_new (frame, &how);
  search->best_cost = 1000;
  g_assert_true (hs_tour_labels_run (&labels));
  g_assert_cmpint (search->best_cost, ==, 36);
  g_assert_cmpmem (search->best, sizeof wanted, wanted, sizeof wanted);
  /* One state after each of the nodes, node 0 included. */
  g_assert_cmpuint (labels.states, ==, 3);
}

/* Prices of nodes that are behind stay as they are; with hardly anything left, all do. */
static void
test_retune (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 61);
  guint moved = 0;

  for (guint done = 1; done < 12; done++)
    {
      gint64 weights[144];
      gint64 going[12];
      gint64 coming[12];
      Case c;

      case_init (&c, rand, 12, kind, 100, ALONE, FALSE);
      for (guint i = 0; i < 144; i++)
        weights[i] = c.frame->costs[i] == HS_TOUR_NO_LEG ? HS_TOUR_FAR : 0;
      for (guint i = 0; i < 12; i++)
        going[i] = coming[i] = i + 5;
      hs_tour_labels_retune (c.search, weights, done, going, coming);
      for (guint k = 0; k < 12; k++)
        {
          guint node = c.search->best[k];
          gboolean same_going = going[node] == node + 5;
          gboolean same_coming = coming[node] == node + 5;

          g_assert_true (same_going || (k >= done && 12 - done >= 4));
          g_assert_true (same_coming || ((k >= done || node == 0) && 12 - done >= 4));
          moved += !same_going || !same_coming;
        }
      case_clear (&c);
    }
  g_assert_cmpuint (moved, >, 10);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-states/proof", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_proof);
  tour_add_test ("/tour-states/more-nodes", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_more_nodes);
  tour_add_test ("/tour-states/fewer-states", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_fewer_states);
  tour_add_test ("/tour-states/narrow", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_narrow);
  tour_add_test ("/tour-states/full", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_full);
  tour_add_test ("/tour-states/cut", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_cut);
  g_test_add_func ("/tour-states/by-hand", test_by_hand);
  tour_add_test ("/tour-states/retune", TOUR_ONE_WAY, TOUR_WAY_WITH_ORDERS, test_retune);
  return g_test_run ();
}
