// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The parts of the solver of rounds, each alone, against every round of small problems: a bound is never above the
 * cheapest, no leg of a cheaper round is ever taken out, and what search makes is a round that costs what it says. */

#include "hs-tour-branch.h"
#include "hs-tour-label.h"
#include "hs-tour-places.h"
#include "tour-trial.h"

#include <string.h>

#define TRIALS 120

static const HsTourHow plain = { NULL, NULL, 5 };

static HsTourProblem *
next_problem (GRand *rand, guint trial, guint least)
{
  static const gint32 mosts[] = { 2, 20, 5000 };
  guint n = least + trial % (8 - least);

  return tour_trial_problem (rand, n, (TourKind) (trial % 4), mosts[trial % 3]);
}

/* Orders 1 < 2 < 3 and 4 apart, six nodes. */
static HsTourProblem *
chain_problem (void)
{
  HsTourProblem *problem = hs_tour_problem_new (6);

  for (guint i = 0; i < 6; i++)
    for (guint j = 0; j < 6; j++)
      hs_tour_problem_set_cost (problem, i, j, (gint32) (10 * i + j));
  hs_tour_problem_add_order (problem, 1, 2);
  hs_tour_problem_add_order (problem, 2, 3);
  return problem;
}

static void
test_frame_orders (void)
{
  g_autoptr (HsTourProblem) problem = chain_problem ();
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  static const guint barred[][2] = { { 2, 1 }, { 3, 2 }, { 3, 1 }, { 1, 3 }, { 0, 2 }, { 0, 3 }, { 1, 0 }, { 2, 0 } };
  static const guint open[][2] = { { 0, 1 }, { 0, 4 }, { 1, 2 }, { 2, 3 }, { 3, 0 }, { 4, 1 }, { 1, 4 }, { 3, 4 } };

  g_assert_true (frame->ordered);
  g_assert_false (frame->symmetric);
  g_assert_true (hs_tour_frame_is_before (frame, 1, 3));
  g_assert_false (hs_tour_frame_is_before (frame, 3, 1));
  g_assert_false (hs_tour_frame_is_before (frame, 4, 5));
  for (guint i = 0; i < G_N_ELEMENTS (barred); i++)
    {
      g_assert_cmpint (hs_tour_frame_cost (frame, barred[i][0], barred[i][1]), ==, HS_TOUR_NO_LEG);
      g_assert_cmpint (hs_tour_frame_cost (frame, open[i][0], open[i][1]), ==,
                       (gint32) (10 * open[i][0] + open[i][1]));
    }
  for (guint i = 0; i < 6; i++)
    g_assert_cmpint (hs_tour_frame_cost (frame, i, i), ==, HS_TOUR_NO_LEG);
}

static void
note_legs (const HsTourProblem *problem, const guint *order, gpointer data)
{
  guint8 *used = data;

  for (guint i = 0; i < problem->n; i++)
    used[order[i] * problem->n + order[(i + 1) % problem->n]] = 1;
}

/* A leg is barred exactly when no round has it. */
static void
test_frame_legs (void)
{
  GRand *rand = g_rand_new_with_seed (11);

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = next_problem (rand, trial, 3);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      guint8 used[TOUR_TRIAL_MOST * TOUR_TRIAL_MOST] = { 0 };

      tour_trial_each (problem, note_legs, used);
      for (guint i = 0; i < problem->n * problem->n; i++)
        if (used[i])
          g_assert_cmpint (frame->costs[i], ==, problem->costs[i]);
      g_assert_cmpint (frame->symmetric, ==, trial % 4 == TOUR_ALIKE);
    }
  g_rand_free (rand);
}

static void
test_frame_near (void)
{
  static const gint32 costs[16] = { HS_TOUR_NO_LEG, 9, 3, 7, 1, HS_TOUR_NO_LEG, 1, 0, HS_TOUR_NO_LEG, 5,
                                    HS_TOUR_NO_LEG, HS_TOUR_NO_LEG, HS_TOUR_NO_LEG, HS_TOUR_NO_LEG, HS_TOUR_NO_LEG,
                                    HS_TOUR_NO_LEG };
  guint16 near[8];
  static const guint16 expected[8] = { 2, 3, 3, 0, 1, 1, 3, 3 };

  hs_tour_frame_fill_near (costs, 4, 2, near);
  for (guint i = 0; i < 8; i++)
    g_assert_cmpuint (near[i], ==, expected[i]);
}

static void
check_best (const HsTourProblem *problem, const HsTourSearch *search)
{
  guint order[TOUR_TRIAL_MOST];

  for (guint i = 0; i < problem->n; i++)
    order[i] = search->best[i];
  g_assert_cmpuint (order[0], ==, 0);
  g_assert_true (tour_trial_keeps_orders (problem, order));
  g_assert_cmpint (search->best_cost, ==, tour_trial_add_up (problem, order));
}

static void
test_search (void)
{
  GRand *rand = g_rand_new_with_seed (12);
  guint found = 0;

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = next_problem (rand, trial, 5);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
      gint64 first = search->best_cost;
      gint64 best = tour_trial_cheapest (problem);

      check_best (problem, search);
      g_assert_cmpint (hs_tour_search_run (search, 300, 0), ==, search->best_cost < first);
      check_best (problem, search);
      g_assert_cmpint (search->best_cost, >=, best);
      found += search->best_cost == best;
    }
  /* Search proves nothing, but on seven nodes it all but always finds the cheapest. */
  g_assert_cmpuint (found, >=, TRIALS * 9 / 10);
  g_rand_free (rand);
}

/* Enough is enough: a search that may stop at what it has does not kick at all. */
static void
test_search_enough (void)
{
  GRand *rand = g_rand_new_with_seed (13);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 9, TOUR_ONE_WAY, 100);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
  gint64 before = search->best_cost;

  g_assert_false (hs_tour_search_run (search, 1000, before));
  g_assert_cmpint (search->best_cost, ==, before);
  g_rand_free (rand);
}

/* Stretches 2 3 and 4 5 6 of 0 … 8 change places. */
static void
test_exchange (void)
{
  GRand *rand = g_rand_new_with_seed (14);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 9, TOUR_ONE_WAY, 100);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
  static const guint16 expected[9] = { 0, 1, 4, 5, 6, 2, 3, 7, 8 };

  for (guint i = 0; i < 9; i++)
    search->tour[i] = search->at[i] = (guint16) i;
  hs_tour_exchange (search, 2, 4, 7);
  for (guint i = 0; i < 9; i++)
    {
      g_assert_cmpuint (search->tour[i], ==, expected[i]);
      g_assert_cmpuint (search->at[expected[i]], ==, i);
    }
  g_rand_free (rand);
}

static void
test_queue (void)
{
  GRand *rand = g_rand_new_with_seed (15);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 9, TOUR_ALIKE, 100);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);

  g_assert_cmpint (hs_tour_queue_take (search), ==, -1);
  hs_tour_queue_add (search, 3);
  hs_tour_queue_add (search, 5);
  hs_tour_queue_add (search, 3);
  g_assert_cmpint (hs_tour_queue_take (search), ==, 3);
  hs_tour_queue_add (search, 3);
  g_assert_cmpint (hs_tour_queue_take (search), ==, 5);
  g_assert_cmpint (hs_tour_queue_take (search), ==, 3);
  g_assert_cmpint (hs_tour_queue_take (search), ==, -1);
  g_rand_free (rand);
}

/* Whatever the prices are: no round costs less than the tree says. */
static void
test_tree_any_prices (void)
{
  GRand *rand = g_rand_new_with_seed (16);

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = next_problem (rand, trial, 4);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      gint64 best = tour_trial_cheapest (problem);

      for (guint round = 0; round < 20; round++)
        {
          g_assert_true (hs_tour_tree_grow (tree));
          g_assert_cmpint (hs_tour_tree_bound (tree), <=, best);
          for (guint p = 0; p < tree->n_prices; p++)
            tree->prices[p] += g_rand_int_range (rand, -20000, 20001);
        }
      g_assert_true (hs_tour_tree_climb (tree, best, 200, 100));
      g_assert_cmpint (hs_tour_tree_bound (tree), <=, best);
    }
  g_rand_free (rand);
}

/* A triangle: the tree is the round itself, whatever way round. */
static void
test_tree_triangle (void)
{
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (3);
  g_autoptr (HsTourFrame) frame = NULL;
  g_autoptr (HsTourTree) tree = NULL;

  for (guint i = 0; i < 3; i++)
    for (guint j = 0; j < 3; j++)
      hs_tour_problem_set_cost (problem, i, j, (gint32) (i + j));
  frame = hs_tour_frame_new (problem);
  tree = hs_tour_tree_new (frame);
  g_assert_cmpuint (tree->n_legs, ==, 3);
  g_assert_true (hs_tour_tree_grow (tree));
  g_assert_true (hs_tour_tree_is_round (tree));
  g_assert_cmpint (hs_tour_tree_bound (tree), ==, 1 + 2 + 3);
  tree->state[0] = HS_TOUR_LEG_OUT;
  g_assert_false (hs_tour_tree_grow (tree));
}

typedef struct
{
  const HsTourTree *tree;
  gint64 enough;
  guint checked;
} Kept;

static guint8
state_between (const HsTourTree *tree, guint from, guint to)
{
  for (guint a = 0; a < tree->n_legs; a++)
    if ((tree->legs[a].tail == from && tree->legs[a].head == to)
        || (tree->target == 2 && tree->legs[a].tail == to && tree->legs[a].head == from))
      return tree->state[a];
  return HS_TOUR_LEG_OUT;
}

/* A round cheaper than enough still has all of its legs, and has all forced ones. */
static void
check_kept (const HsTourProblem *problem, const guint *order, gpointer data)
{
  Kept *kept = data;
  guint n_forced = 0;

  if (tour_trial_add_up (problem, order) >= kept->enough)
    return;
  for (guint i = 0; i < problem->n; i++)
    {
      guint8 state = state_between (kept->tree, order[i], order[(i + 1) % problem->n]);

      g_assert_cmpint (state, !=, HS_TOUR_LEG_OUT);
      n_forced += state == HS_TOUR_LEG_FORCED;
    }
  for (guint a = 0; a < kept->tree->n_legs; a++)
    n_forced -= kept->tree->state[a] == HS_TOUR_LEG_FORCED;
  g_assert_cmpuint (n_forced, ==, 0);
  kept->checked++;
}

static void
test_tighten (void)
{
  GRand *rand = g_rand_new_with_seed (17);
  guint decided = 0;
  guint checked = 0;

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = next_problem (rand, trial, 5);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      Kept kept = { tree, tour_trial_cheapest (problem) + 1 + trial % 5, 0 };

      if (tree->target == 1)
        hs_tour_tree_assign (tree);
      for (guint round = 0; round < 3; round++)
        {
          g_assert_true (hs_tour_tree_climb (tree, kept.enough, 30, 100));
          decided += hs_tour_tree_tighten (tree, kept.enough);
          tour_trial_each (problem, check_kept, &kept);
          g_assert_true (hs_tour_branch_settle (tree));
          tour_trial_each (problem, check_kept, &kept);
          hs_tour_tree_pack (tree);
          tour_trial_each (problem, check_kept, &kept);
        }
      checked += kept.checked;
    }
  g_assert_cmpuint (decided, >, 1000);
  g_assert_cmpuint (checked, >=, 9 * TRIALS);
  g_rand_free (rand);
}

static void
try_assignments (const HsTourFrame *frame, guint row, guint used, gint64 cost, gint64 *best)
{
  if (row == frame->n)
    {
      *best = MIN (*best, cost);
      return;
    }
  for (guint j = 0; j < frame->n; j++)
    if ((used >> j & 1) == 0 && hs_tour_frame_cost (frame, row, j) != HS_TOUR_NO_LEG)
      try_assignments (frame, row + 1, used | 1u << j, cost + hs_tour_frame_cost (frame, row, j), best);
}

/* From the prices of the assignment the tree is worth at least as much as the cheapest assignment. */
static void
test_assign (void)
{
  GRand *rand = g_rand_new_with_seed (18);

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      TourKind kind = trial % 2 == 0 ? TOUR_ONE_WAY : TOUR_WAY;
      g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 4 + trial % 4, kind, 50);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      gint64 assignment = G_MAXINT64;

      try_assignments (frame, 0, 0, 0, &assignment);
      hs_tour_tree_assign (tree);
      g_assert_true (hs_tour_tree_grow (tree));
      g_assert_cmpint (hs_tour_tree_bound (tree), >=, assignment);
      g_assert_cmpint (hs_tour_tree_bound (tree), <=, tour_trial_cheapest (problem));
    }
  g_rand_free (rand);
}

static guint
leg_between (const HsTourTree *tree, guint a, guint b)
{
  for (guint k = 0; k < tree->n_legs; k++)
    if (MIN (tree->legs[k].tail, tree->legs[k].head) == a && MAX (tree->legs[k].tail, tree->legs[k].head) == b)
      return k;
  g_assert_not_reached ();
}

/* Five nodes, legs alike: what must follow, by hand. */
static void
test_settle (void)
{
  static const struct
  {
    guint forced[4][2];
    guint n_forced;
    guint out[4][2];
    guint n_out;
    gboolean possible;
    guint then[2];
    HsTourLegState state;
  } rows[] = {
    /* Two legs at 0 are forced: the others at 0 are out. */
    { { { 0, 1 }, { 0, 2 } }, 2, { { 0 } }, 0, TRUE, { 0, 3 }, HS_TOUR_LEG_OUT },
    /* 1 – 0 – 2 must not close. */
    { { { 0, 1 }, { 0, 2 } }, 2, { { 0 } }, 0, TRUE, { 1, 2 }, HS_TOUR_LEG_OUT },
    /* Only two legs are left at 4. */
    { { { 0 } }, 0, { { 0, 4 }, { 1, 4 } }, 2, TRUE, { 2, 4 }, HS_TOUR_LEG_FORCED },
    /* Nothing follows. */
    { { { 0, 1 } }, 1, { { 2, 3 } }, 1, TRUE, { 0, 2 }, HS_TOUR_LEG_FREE },
    /* Only one leg is left at 4. */
    { { { 0 } }, 0, { { 0, 4 }, { 1, 4 }, { 2, 4 } }, 3, FALSE, { 0, 1 }, HS_TOUR_LEG_FREE },
    /* Three legs at 0. */
    { { { 0, 1 }, { 0, 2 }, { 0, 3 } }, 3, { { 0 } }, 0, FALSE, { 0, 1 }, HS_TOUR_LEG_FREE },
    /* A ring of three. */
    { { { 0, 1 }, { 1, 2 }, { 0, 2 } }, 3, { { 0 } }, 0, FALSE, { 0, 1 }, HS_TOUR_LEG_FREE },
    /* A path of all five closes. */
    { { { 0, 1 }, { 1, 2 }, { 2, 3 }, { 3, 4 } }, 4, { { 0 } }, 0, TRUE, { 0, 4 }, HS_TOUR_LEG_FORCED },
  };

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (5);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);

      for (guint k = 0; k < rows[r].n_forced; k++)
        tree->state[leg_between (tree, rows[r].forced[k][0], rows[r].forced[k][1])] = HS_TOUR_LEG_FORCED;
      for (guint k = 0; k < rows[r].n_out; k++)
        tree->state[leg_between (tree, rows[r].out[k][0], rows[r].out[k][1])] = HS_TOUR_LEG_OUT;
      g_assert_cmpint (hs_tour_branch_settle (tree), ==, rows[r].possible);
      if (rows[r].possible)
        g_assert_cmpint (tree->state[leg_between (tree, rows[r].then[0], rows[r].then[1])], ==, rows[r].state);
    }
}

/* Branching alone, also from a first round that nobody has improved. */
static void
test_branch (void)
{
  GRand *rand = g_rand_new_with_seed (19);

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 5 + trial % 4, (TourKind) (trial % 2), 9 + trial);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      HsTourBranch branch = { search, tree, .most_nodes = 100000 };
      gint64 best = tour_trial_cheapest (problem);
      gint64 root = hs_tour_branch_root (&branch);

      g_assert_cmpint (root, <=, best);
      if (root < search->best_cost)
        g_assert_true (hs_tour_branch_run (&branch));
      check_best (problem, search);
      g_assert_cmpint (search->best_cost, ==, best);
    }
  g_rand_free (rand);
}

/* Told to look at few branches only, its bound still is one. */
static void
test_branch_cut (void)
{
  GRand *rand = g_rand_new_with_seed (20);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 40, TOUR_ALIKE, 1000);
  g_autoptr (HsTour) whole = NULL;

  g_assert_true (hs_tour_solve (problem, &plain, &whole, NULL));
  g_assert_cmpint (whole->status, ==, HS_PLAN_OPTIMAL);
  for (guint most = 1; most < 20; most++)
    {
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      HsTourBranch branch = { search, tree, .most_nodes = most };
      gint64 root = hs_tour_branch_root (&branch);

      g_assert_cmpint (root, <=, whole->cost);
      if (root < search->best_cost && !hs_tour_branch_run (&branch))
        g_assert_cmpint (branch.open, <=, whole->cost);
      g_assert_cmpuint (branch.nodes, <=, most);
      g_assert_cmpint (search->best_cost, >=, whole->cost);
    }
  g_rand_free (rand);
}

/* With and without its bounds, whole and narrow. */
static void
test_labels (void)
{
  GRand *rand = g_rand_new_with_seed (21);
  guint proven = 0;

  for (guint trial = 0; trial < 4 * TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = next_problem (rand, trial, 5);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      g_autoptr (HsTourPlaces) places = hs_tour_places_new (frame);
      HsTourLabels labels = { search, .most_bytes = 100 << 20 };
      gint64 best = tour_trial_cheapest (problem);
      gboolean whole;

      if (tree->target == 1)
        hs_tour_tree_assign (tree);
      g_assert_true (hs_tour_tree_climb (tree, search->best_cost, 50, 100));
      hs_tour_tree_tighten (tree, search->best_cost);
      hs_tour_places_climb (places, search, 50);
      labels.tree = trial / 4 % 2 == 0 ? tree : NULL;
      labels.places = trial / 8 % 2 == 0 ? places : NULL;
      labels.width = trial / 16 % 3;
      whole = hs_tour_labels_run (&labels);
      check_best (problem, search);
      g_assert_cmpint (labels.floor, <=, best);
      g_assert_true (labels.width > 0 || whole);
      if (whole)
        g_assert_cmpint (search->best_cost, ==, best);
      proven += whole;
    }
  g_assert_cmpuint (proven, >, 2 * TRIALS);
  g_rand_free (rand);
}

/* Memory is counted: with next to none it ends early and says so. */
static void
test_labels_full (void)
{
  GRand *rand = g_rand_new_with_seed (22);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 24, TOUR_ORDERED, 1000);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
  HsTourLabels labels = { search, .most_bytes = 1 << 20 };
  g_autoptr (HsTour) whole = NULL;

  g_assert_true (hs_tour_solve (problem, &plain, &whole, NULL));
  g_assert_false (hs_tour_labels_run (&labels));
  g_assert_true (labels.full);
  g_assert_cmpint (labels.floor, <=, whole->cost);
  g_assert_cmpint (search->best_cost, >=, whole->cost);
  g_rand_free (rand);
}

/* The bound over places, also at prices in between; and what is left from each place, against every round. */
static void
test_places (void)
{
  GRand *rand = g_rand_new_with_seed (23);

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = next_problem (rand, trial, 4);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
      g_autoptr (HsTourPlaces) places = hs_tour_places_new (frame);
      gint64 best = tour_trial_cheapest (problem);
      gint64 last = G_MININT64;

      for (guint steps = 0; steps < 40; steps += 13)
        {
          hs_tour_places_climb (places, search, steps);
          g_assert_cmpint (places->bound, <=, best * HS_TOUR_SCALE);
          g_assert_cmpint (places->bound, >=, last);
          last = places->bound;
        }
      for (guint k = 0; k < problem->n; k++)
        {
          gint64 rest = 0;

          for (guint i = k; i < problem->n; i++)
            {
              guint to = i + 1 < problem->n ? search->best[i + 1] : 0;

              rest += (gint64) problem->costs[search->best[i] * problem->n + to] * HS_TOUR_SCALE + places->prices[to];
            }
          g_assert_cmpint (places->rest[k * problem->n + search->best[k]], <=, rest);
        }
    }
  g_rand_free (rand);
}

/* The search goes on under prices: what it says still is what rounds cost, also after a second set of prices. */
static void
test_reprice (void)
{
  GRand *rand = g_rand_new_with_seed (24);

  for (guint trial = 0; trial < TRIALS; trial++)
    {
      g_autoptr (HsTourProblem) problem = next_problem (rand, trial, 5);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);

      for (guint round = 0; round < 3; round++)
        {
          for (guint p = 0; p < tree->n_prices; p++)
            tree->prices[p] = g_rand_int_range (rand, -30 * HS_TOUR_SCALE, 30 * HS_TOUR_SCALE);
          hs_tour_search_reprice (search, tree);
          hs_tour_search_run (search, 100, 0);
          check_best (problem, search);
          hs_tour_search_restart (search);
          g_assert_cmpint (search->cost - search->added, ==, search->best_cost);
        }
      g_assert_cmpint (search->best_cost, >=, tour_trial_cheapest (problem));
    }
  g_rand_free (rand);
}

/* Prices too large for 32 bits are left alone. */
static void
test_reprice_large (void)
{
  GRand *rand = g_rand_new_with_seed (25);
  g_autoptr (HsTourProblem) problem = tour_trial_problem (rand, 8, TOUR_ONE_WAY, 100);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &plain);
  g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);

  tree->prices[3] = (gint64) 2000000000 * HS_TOUR_SCALE;
  hs_tour_search_reprice (search, tree);
  g_assert_cmpint (search->added, ==, 0);
  for (guint j = 0; j < 8; j++)
    g_assert_cmpint (hs_tour_search_cost (search, 3, j), ==, hs_tour_frame_cost (frame, 3, j));
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tour-parts/frame-orders", test_frame_orders);
  g_test_add_func ("/tour-parts/frame-legs", test_frame_legs);
  g_test_add_func ("/tour-parts/frame-near", test_frame_near);
  g_test_add_func ("/tour-parts/search", test_search);
  g_test_add_func ("/tour-parts/search-enough", test_search_enough);
  g_test_add_func ("/tour-parts/exchange", test_exchange);
  g_test_add_func ("/tour-parts/queue", test_queue);
  g_test_add_func ("/tour-parts/tree-any-prices", test_tree_any_prices);
  g_test_add_func ("/tour-parts/tree-triangle", test_tree_triangle);
  g_test_add_func ("/tour-parts/tighten", test_tighten);
  g_test_add_func ("/tour-parts/assign", test_assign);
  g_test_add_func ("/tour-parts/settle", test_settle);
  g_test_add_func ("/tour-parts/branch", test_branch);
  g_test_add_func ("/tour-parts/branch-cut", test_branch_cut);
  g_test_add_func ("/tour-parts/labels", test_labels);
  g_test_add_func ("/tour-parts/labels-full", test_labels_full);
  g_test_add_func ("/tour-parts/places", test_places);
  g_test_add_func ("/tour-parts/reprice", test_reprice);
  g_test_add_func ("/tour-parts/reprice-large", test_reprice_large);
  return g_test_run ();
}
