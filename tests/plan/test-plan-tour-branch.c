// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Branch and bound over legs: the cheapest round even from a bad start, and a true bound whenever it ends. */

#include "hs-tour-branch.h"

#include "tour-judge.h"

#include <string.h>

/* A problem with all that the proof needs, and a best round that nobody has looked for a cheap one in. */
typedef struct
{
  HsTourProblem *problem;
  HsTourFrame *frame;
  HsTourSearch *search;
  HsTourTree *tree;
  HsTourBranch branch;
  gint64 least;
  guint left;
} Case;

static void
case_init (Case *c, GRand *rand, guint n, TourKind kind, gint32 most)
{
  HsTourHow how = { tour_give_up_after, &c->left, 1 };

  memset (c, 0, sizeof *c);
  c->left = G_MAXUINT;
  c->problem = tour_random (rand, n, kind, most);
  c->frame = hs_tour_frame_new (c->problem);
  c->search = hs_tour_search_new (c->frame, &how);
  c->tree = hs_tour_tree_new (c->frame);
  c->branch = (HsTourBranch){ c->search, c->tree, .most_nodes = 1000000 };
  c->least = tour_cheapest (c->problem);
  tour_first_round (c->problem, c->search->best);
  c->search->best_cost = tour_add_up (c->problem, c->search->best);
}

static void
case_clear (Case *c)
{
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
}

static void
test_proof (gconstpointer data)
{
  static const gint32 mosts[] = { 1, 6, 100, 5000, HS_TOUR_MAX_COST };
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);
  guint branched = 0;

  for (guint trial = 0; trial < 150; trial++)
    {
      gint64 root;
      Case c;

      case_init (&c, rand, 3 + trial % 9, kind, mosts[trial % G_N_ELEMENTS (mosts)]);
      root = hs_tour_branch_root (&c.branch);
      g_assert_cmpint (root, <=, c.least);
      check_best (&c);
      g_assert_true (hs_tour_branch_run (&c.branch));
      check_best (&c);
      g_assert_cmpint (c.search->best_cost, ==, c.least);
      branched += c.branch.nodes > 1;
      case_clear (&c);
    }
  g_assert_cmpuint (branched, >, 10);
  g_rand_free (rand);
}

/* The larger ones, against the judge's sets of nodes. */
static void
test_more_nodes (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 11);

  for (guint trial = 0; trial < 12; trial++)
    {
      Case c;

      case_init (&c, rand, 12 + trial % 3, kind, trial % 2 == 0 ? 30 : 10000);
      g_assert_cmpint (hs_tour_branch_root (&c.branch), <=, c.least);
      g_assert_true (hs_tour_branch_run (&c.branch));
      check_best (&c);
      g_assert_cmpint (c.search->best_cost, ==, c.least);
      case_clear (&c);
    }
  g_rand_free (rand);
}

/* Ended after a few branches: what is open is never above the cheapest round, and the round is one. */
static void
test_few_branches (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 21);
  guint ended_early = 0;

  for (guint trial = 0; trial < 60; trial++)
    {
      Case c;

      case_init (&c, rand, 9 + trial % 4, kind, 3 + (gint32) trial);
      c.branch.most_nodes = 1 + trial % 5;
      hs_tour_branch_root (&c.branch);
      if (hs_tour_branch_run (&c.branch))
        g_assert_cmpint (c.search->best_cost, ==, c.least);
      else
        {
          ended_early++;
          g_assert_cmpint (c.branch.open, <=, c.least);
          g_assert_cmpuint (c.branch.nodes, >=, c.branch.most_nodes);
        }
      check_best (&c);
      case_clear (&c);
    }
  g_assert_cmpuint (ended_early, >, 3);
  g_rand_free (rand);
}

static void
test_cut (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 31);

  for (guint asks = 0; asks < 60; asks++)
    {
      Case c;
      gint64 root;

      case_init (&c, rand, 11, kind, 40);
      c.left = asks;
      c.tree->give_up = tour_give_up_after;
      c.tree->user_data = &c.left;
      root = hs_tour_branch_root (&c.branch);
      g_assert_cmpint (root, <=, c.least);
      if (hs_tour_branch_run (&c.branch))
        g_assert_cmpint (c.search->best_cost, ==, c.least);
      else
        g_assert_cmpint (c.branch.open, <=, c.least);
      check_best (&c);
      case_clear (&c);
    }
  g_rand_free (rand);
}

/* A round that is known already to be the cheapest: the proof may only confirm it. */
static void
test_confirm (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 41);

  for (guint trial = 0; trial < 20; trial++)
    {
      g_autofree guint16 *known = NULL;
      Case c;

      case_init (&c, rand, 10, kind, 200);
      hs_tour_branch_root (&c.branch);
      g_assert_true (hs_tour_branch_run (&c.branch));
      known = g_memdup2 (c.search->best, 10 * sizeof *known);
      hs_tour_tree_free (c.tree);
      c.tree = hs_tour_tree_new (c.frame);
      c.branch = (HsTourBranch){ c.search, c.tree, .most_nodes = 1000000 };
      g_assert_cmpint (hs_tour_branch_root (&c.branch), <=, c.least);
      g_assert_true (hs_tour_branch_run (&c.branch));
      g_assert_cmpmem (known, 10 * sizeof *known, c.search->best, 10 * sizeof *known);
      case_clear (&c);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-branch/proof", TOUR_ALIKE, TOUR_ONE_WAY, test_proof);
  tour_add_test ("/tour-branch/more-nodes", TOUR_ALIKE, TOUR_ONE_WAY, test_more_nodes);
  tour_add_test ("/tour-branch/few-branches", TOUR_ALIKE, TOUR_ONE_WAY, test_few_branches);
  tour_add_test ("/tour-branch/cut", TOUR_ALIKE, TOUR_ONE_WAY, test_cut);
  tour_add_test ("/tour-branch/confirm", TOUR_ALIKE, TOUR_ONE_WAY, test_confirm);
  return g_test_run ();
}
