// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The tree of the bound: against every tree there is, and its conclusions about legs against every round. */

#include "tour-judge.h"

#include <string.h>

#define MOST 7

/* The cheapest of all trees over the nodes but node 0, with the legs at node 0, tried one after the other. Legs that
 * are forced come first, however dear. */
typedef struct
{
  const HsTourTree *tree;
  guint forced;
  gint64 weight;
  gboolean found;
} Grown;

static gint64
weight_of (const HsTourTree *tree, guint leg)
{
  const HsTourLeg *end = &tree->legs[leg];
  guint n = tree->n;
  gint64 coming = tree->target == 2 ? tree->prices[end->head] : tree->prices[n + end->head];

  return end->cost * (gint64) HS_TOUR_SCALE + tree->prices[end->tail] + coming;
}

static void
offer (Grown *grown, guint forced, gint64 weight)
{
  if (grown->found && (forced < grown->forced || (forced == grown->forced && weight >= grown->weight)))
    return;
  grown->found = TRUE;
  grown->forced = forced;
  grown->weight = weight;
}

/* Adds the best two legs of node 0: one each way where the direction counts. */
static void
add_start (Grown *grown, guint forced, gint64 weight)
{
  const HsTourTree *tree = grown->tree;

  for (guint a = 0; a < tree->n_legs; a++)
    for (guint b = 0; b < tree->n_legs; b++)
      {
        const HsTourLeg *first = &tree->legs[a];
        const HsTourLeg *second = &tree->legs[b];
        gboolean fits = tree->target == 1 ? first->tail == 0 && second->head == 0
                                          : a < b && (first->tail == 0 || first->head == 0)
                                              && (second->tail == 0 || second->head == 0);

        if (fits && tree->state[a] != HS_TOUR_LEG_OUT && tree->state[b] != HS_TOUR_LEG_OUT)
          offer (grown, forced + (tree->state[a] == HS_TOUR_LEG_FORCED) + (tree->state[b] == HS_TOUR_LEG_FORCED),
                 weight + weight_of (tree, a) + weight_of (tree, b));
      }
}

/* @part: which piece each node belongs to so far. */
static void
try_legs (Grown *grown, guint from, guint missing, const guint8 *part, guint forced, gint64 weight)
{
  const HsTourTree *tree = grown->tree;

  if (missing == 0)
    {
      add_start (grown, forced, weight);
      return;
    }
  for (guint a = from; a < tree->n_legs; a++)
    {
      guint8 joined[MOST];
      guint tail = tree->legs[a].tail;
      guint head = tree->legs[a].head;

      if (tail == 0 || head == 0 || tree->state[a] == HS_TOUR_LEG_OUT || part[tail] == part[head])
        continue;
      for (guint i = 0; i < tree->n; i++)
        joined[i] = part[i] == part[head] ? part[tail] : part[i];
      try_legs (grown, a + 1, missing - 1, joined, forced + (tree->state[a] == HS_TOUR_LEG_FORCED),
                weight + weight_of (tree, a));
    }
}

static Grown
grow_all (const HsTourTree *tree)
{
  static const guint8 apart[MOST] = { 0, 1, 2, 3, 4, 5, 6 };
  Grown grown = { tree, 0, 0, FALSE };

  try_legs (&grown, 0, tree->n - 2, apart, 0, 0);
  for (guint p = 0; p < tree->n_prices; p++)
    grown.weight -= tree->prices[p] * (tree->target == 2 ? 2 : 1);
  return grown;
}

static void
draw_prices (HsTourTree *tree, GRand *rand, gint32 most)
{
  for (guint p = 0; p < tree->n_prices; p++)
    tree->prices[p] = g_rand_int_range (rand, -most * HS_TOUR_SCALE, most * HS_TOUR_SCALE + 1);
}

static void
draw_state (HsTourTree *tree, GRand *rand, gint32 forced, gint32 out)
{
  for (guint a = 0; a < tree->n_legs; a++)
    {
      gint32 draw = g_rand_int_range (rand, 0, 100);

      tree->state[a] = draw < forced ? HS_TOUR_LEG_FORCED : draw < forced + out ? HS_TOUR_LEG_OUT : HS_TOUR_LEG_FREE;
    }
}

/* What a grown tree says of itself. */
static void
check_grown (const HsTourTree *tree)
{
  gint32 degrees[2 * MOST] = { 0 };
  gint64 value = 0;
  gboolean is_round = TRUE;

  for (guint k = 0; k < tree->n; k++)
    {
      const HsTourLeg *leg = &tree->legs[tree->chosen[k]];

      g_assert_cmpint (leg->tail == 0 || leg->head == 0, ==, k + 2 >= tree->n);
      degrees[leg->tail]++;
      degrees[tree->target == 2 ? leg->head : tree->n + leg->head]++;
      value += weight_of (tree, tree->chosen[k]);
    }
  for (guint p = 0; p < tree->n_prices; p++)
    {
      g_assert_cmpint (tree->degrees[p], ==, degrees[p]);
      is_round = is_round && degrees[p] == (tree->target == 2 ? 2 : 1);
      value -= tree->prices[p] * (tree->target == 2 ? 2 : 1);
    }
  g_assert_cmpint (tree->value, ==, value);
  g_assert_cmpint (hs_tour_tree_is_round (tree), ==, is_round);
}

static void
test_grow (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);
  guint none = 0;

  for (guint trial = 0; trial < 150; trial++)
    {
      guint n = 3 + trial % (kind == TOUR_ALIKE ? 4 : 3);
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 20);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      Grown grown;

      draw_prices (tree, rand, trial % 3 == 0 ? 0 : 15);
      draw_state (tree, rand, trial % 4 * 8, trial % 5 * 12);
      grown = grow_all (tree);
      g_assert_cmpint (hs_tour_tree_grow (tree), ==, grown.found);
      none += !grown.found;
      if (!grown.found)
        continue;
      check_grown (tree);
      g_assert_cmpint (tree->value, ==, grown.weight);
    }
  g_assert_cmpuint (none, >, 5);
  g_assert_cmpuint (none, <, 100);
  g_rand_free (rand);
}

/* Under any prices, with anything decided, no round that keeps to it is cheaper than the tree. */
static void
test_below (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 61);

  for (guint trial = 0; trial < 200; trial++)
    {
      guint n = 3 + trial % 5;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 1 + (gint32) trial * 5);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      gint64 least;

      draw_prices (tree, rand, (gint32) trial * 3);
      draw_state (tree, rand, trial % 3 * 4, trial % 4 * 7);
      least = tour_cheapest_with (problem, tree, tree->state);
      if (hs_tour_tree_grow (tree))
        g_assert_cmpint (hs_tour_tree_bound (tree), <=, least);
      else
        g_assert_cmpint (least, ==, G_MAXINT64);
    }
  g_rand_free (rand);
}

static void
test_climb (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 71);
  guint higher = 0;

  for (guint trial = 0; trial < 100; trial++)
    {
      guint n = 3 + trial % 5;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 100);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      gint64 least = tour_cheapest_with (problem, tree, tree->state);
      gint64 begin;

      draw_prices (tree, rand, trial % 2 == 0 ? 0 : 20);
      g_assert_true (hs_tour_tree_grow (tree));
      begin = tree->value;
      g_assert_true (hs_tour_tree_climb (tree, least + trial % 3, trial % 50, trial % 7 == 0 ? 30 : 150));
      g_assert_cmpint (tree->value, >=, begin);
      g_assert_cmpint (hs_tour_tree_bound (tree), <=, least);
      check_grown (tree);
      higher += tree->value > begin;
      /* Then prices cancel out. With orders it may be a round that does not keep them. */
      if (kind < TOUR_ORDERED && hs_tour_tree_is_round (tree))
        g_assert_cmpint (tree->value, ==, least * HS_TOUR_SCALE);
    }
  g_assert_cmpuint (higher, >, 30);
  g_rand_free (rand);
}

/* On a circle of places a tree is a round as soon as it is grown: n legs of one step each, and nothing is cheaper. */
static void
test_circle (void)
{
  for (guint n = 3; n < 40; n += 4)
    {
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (n);
      g_autoptr (HsTourFrame) frame = NULL;
      g_autoptr (HsTourTree) tree = NULL;

      for (guint i = 0; i < n; i++)
        for (guint j = 0; j < n; j++)
          hs_tour_problem_set_cost (problem, i, j, 3 * (gint32) MIN ((i + n - j) % n, (j + n - i) % n));
      frame = hs_tour_frame_new (problem);
      tree = hs_tour_tree_new (frame);
      g_assert_cmpuint (tree->n_legs, ==, n * (n - 1) / 2);
      g_assert_true (hs_tour_tree_climb (tree, 4 * n, 10, 100));
      g_assert_true (hs_tour_tree_is_round (tree));
      g_assert_cmpint (hs_tour_tree_bound (tree), ==, 3 * n);
    }
}

/* Whole numbers of cost, rounded up: a round costs whole numbers. Never below 0. */
static void
test_rounding (void)
{
  static const struct
  {
    gint64 value;
    gint64 bound;
  } rows[] = {
    { 0, 0 }, { -1, 0 }, { -HS_TOUR_SCALE * 7, 0 }, { 1, 1 }, { HS_TOUR_SCALE, 1 }, { HS_TOUR_SCALE + 1, 2 },
    { 5 * HS_TOUR_SCALE - 1, 5 }, { 5 * HS_TOUR_SCALE, 5 },
  };
  HsTourTree tree = { .n = 3 };

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      tree.value = rows[r].value;
      g_assert_cmpint (hs_tour_tree_bound (&tree), ==, rows[r].bound);
    }
}

typedef struct
{
  const HsTourTree *tree;
  guint8 *before;
  gint64 enough;
  guint n_kept;
} Tight;

/* A round that kept to what was decided and is cheaper than what is to be beaten must still keep to it. */
static void
still_kept (const guint16 *order, gint64 cost, gpointer data)
{
  Tight *tight = data;

  if (cost >= tight->enough || !tour_keeps_state (tight->tree, tight->before, order))
    return;
  g_assert_true (tour_keeps_state (tight->tree, tight->tree->state, order));
  tight->n_kept++;
}

static void
test_tighten (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 81);
  guint all_decided = 0;
  guint all_kept = 0;

  for (guint trial = 0; trial < 200; trial++)
    {
      guint n = 4 + trial % 4;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 60);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      gint64 enough = tour_cheapest (problem) + trial % 5 * 8;
      g_autofree guint8 *before = NULL;
      Tight tight = { tree, NULL, enough, 0 };
      guint decided = 0;

      draw_state (tree, rand, trial % 2 * 4, trial % 3 * 6);
      before = tight.before = g_memdup2 (tree->state, tree->n_legs);
      /* Where no round keeps to what is decided, anything may follow. */
      if (tour_cheapest_with (problem, tree, before) == G_MAXINT64)
        continue;
      g_assert_true (hs_tour_tree_climb (tree, enough, 40, 100));
      all_decided += hs_tour_tree_tighten (tree, enough);
      for (guint a = 0; a < tree->n_legs; a++)
        {
          decided += tree->state[a] != before[a];
          g_assert_true (before[a] == HS_TOUR_LEG_FREE || tree->state[a] == before[a]);
        }
      tour_each_round (problem, still_kept, &tight);
      all_kept += tight.n_kept;
    }
  g_assert_cmpuint (all_decided, >, 200);
  g_assert_cmpuint (all_kept, >, 50);
  g_rand_free (rand);
}

/* What a leg of the tree is worth: grown once more without it, the tree is dearer by exactly that. */
static void
test_replace (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 91);
  guint looked_at = 0;

  for (guint trial = 0; trial < 100; trial++)
    {
      guint n = 4 + trial % 10;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 60);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      g_autofree guint *chosen = NULL;
      g_autofree gint64 *replace = NULL;
      gint64 value;

      draw_prices (tree, rand, 10);
      draw_state (tree, rand, 0, trial % 3 * 10);
      if (!hs_tour_tree_grow (tree))
        continue;
      value = tree->value;
      hs_tour_tree_tighten (tree, G_MAXINT64 / HS_TOUR_SCALE / 16);
      chosen = g_memdup2 (tree->chosen, n * sizeof *chosen);
      replace = g_memdup2 (tree->replace, n * sizeof *replace);
      for (guint k = 0; k < n; k++)
        {
          guint8 kept = tree->state[chosen[k]];

          tree->state[chosen[k]] = HS_TOUR_LEG_OUT;
          if (hs_tour_tree_grow (tree))
            g_assert_cmpint (tree->value - value, ==, replace[k]);
          else
            g_assert_cmpint (kept, ==, HS_TOUR_LEG_FORCED);
          tree->state[chosen[k]] = kept;
          looked_at++;
        }
    }
  g_assert_cmpuint (looked_at, >, 300);
  g_rand_free (rand);
}

/* What is out is gone, the rest is as before, in its order, and the tree grows to the same value. */
static void
test_pack (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 101);

  for (guint trial = 0; trial < 60; trial++)
    {
      g_autoptr (HsTourProblem) problem = tour_random (rand, 8, kind, 60);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      g_autofree HsTourLeg *legs = NULL;
      g_autofree guint8 *state = NULL;
      guint n_legs = tree->n_legs;
      gboolean grown;
      gint64 value;
      guint kept = 0;

      draw_prices (tree, rand, 30);
      draw_state (tree, rand, 3, (gint32) trial);
      grown = hs_tour_tree_grow (tree);
      value = tree->value;
      legs = g_memdup2 (tree->legs, n_legs * sizeof *legs);
      state = g_memdup2 (tree->state, n_legs);
      hs_tour_tree_pack (tree);
      for (guint a = 0; a < n_legs; a++)
        if (state[a] != HS_TOUR_LEG_OUT)
          {
            g_assert_cmpmem (&tree->legs[kept], sizeof *legs, &legs[a], sizeof *legs);
            g_assert_cmpint (tree->state[kept++], ==, state[a]);
          }
      g_assert_cmpuint (tree->n_legs, ==, kept);
      g_assert_cmpint (hs_tour_tree_grow (tree), ==, grown);
      if (grown)
        g_assert_cmpint (tree->value, ==, value);
    }
  g_rand_free (rand);
}

/* Each node's list has exactly the legs that touch it. */
static void
test_touching (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 111);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 20, kind, 60);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
  guint listed = 0;

  g_assert_cmpuint (tree->target, ==, kind == TOUR_ALIKE ? 2 : 1);
  g_assert_cmpuint (tree->n_prices, ==, kind == TOUR_ALIKE ? 20 : 40);
  for (guint a = 0; a < tree->n_legs; a++)
    g_assert_cmpint (tree->legs[a].cost, ==, problem->costs[tree->legs[a].tail * 20 + tree->legs[a].head]);
  for (guint i = 0; i < 20; i++)
    for (guint k = tree->first[i]; k < tree->first[i + 1]; k++, listed++)
      g_assert_true (tree->legs[tree->touching[k]].tail == i || tree->legs[tree->touching[k]].head == i);
  g_assert_cmpuint (listed, ==, 2 * tree->n_legs);
  for (guint i = 0; i < 20; i++)
    for (guint k = tree->first[i] + 1; k < tree->first[i + 1]; k++)
      g_assert_cmpuint (tree->touching[k], >, tree->touching[k - 1]);
  g_rand_free (rand);
}

/* Told to stop at once or later, it leaves a tree that is grown, and a bound that is true. */
static void
test_cut (void)
{
  GRand *rand = g_rand_new_with_seed (121);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 7, TOUR_ONE_WAY, 1000);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  gint64 least = tour_cheapest (problem);

  for (guint asks = 0; asks < 12; asks++)
    {
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      guint left = asks;

      tree->give_up = tour_give_up_after;
      tree->user_data = &left;
      g_assert_true (hs_tour_tree_climb (tree, least * 2, 150, 100));
      check_grown (tree);
      g_assert_cmpint (hs_tour_tree_bound (tree), <=, least);
      /* Asked first of all: then no price has moved yet. */
      for (guint p = 0; p < tree->n_prices && asks == 0; p++)
        g_assert_cmpint (tree->prices[p], ==, 0);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-tree/grow", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_grow);
  tour_add_test ("/tour-tree/below", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_below);
  tour_add_test ("/tour-tree/climb", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_climb);
  g_test_add_func ("/tour-tree/circle", test_circle);
  g_test_add_func ("/tour-tree/rounding", test_rounding);
  tour_add_test ("/tour-tree/tighten", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_tighten);
  tour_add_test ("/tour-tree/replace", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_replace);
  tour_add_test ("/tour-tree/pack", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_pack);
  tour_add_test ("/tour-tree/touching", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_touching);
  g_test_add_func ("/tour-tree/cut", test_cut);
  hs_tour_tree_free (NULL);
  return g_test_run ();
}
