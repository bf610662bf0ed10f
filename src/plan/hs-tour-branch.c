// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Depth-first branch and bound over legs. The search for better rounds goes on beside it, since every better round cuts
 * branches off. */

#include "hs-tour-branch.h"

#include <string.h>

#define ROOT_ROUNDS 6
#define ROOT_STEPS 500
#define FEW_STEPS 20
#define MANY_LEGS 60000
#define MOST_ASSIGNED 600
#define NODE_STEPS 20
#define NODE_ROUNDS 3
#define KICK_EVERY 8
#define KICKS 100

static gboolean
is_beaten (const HsTourBranch *branch)
{
  return hs_tour_tree_bound (branch->tree) >= branch->search->best_cost;
}

/* The legs to near nodes and those of the best round alone, as a frame that a tree can be grown over. */
static HsTourFrame *
make_sparse (const HsTourSearch *search)
{
  const HsTourFrame *frame = search->frame;
  guint n = frame->n;
  HsTourFrame *sparse = g_new0 (HsTourFrame, 1);

  sparse->n = n;
  sparse->symmetric = frame->symmetric;
  sparse->costs = g_new (gint32, (gsize) n * n);
  for (gsize i = 0; i < (gsize) n * n; i++)
    sparse->costs[i] = HS_TOUR_NO_LEG;
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k <= frame->n_near; k++)
      {
        guint from = k == 0 ? search->best[i] : i;
        guint to = k == 0 ? search->best[(i + 1) % n] : frame->near_out[i * frame->n_near + k - 1];

        sparse->costs[(gsize) from * n + to] = hs_tour_frame_cost (frame, from, to);
        if (frame->symmetric)
          sparse->costs[(gsize) to * n + from] = hs_tour_frame_cost (frame, from, to);
      }
  return sparse;
}

/* Where there are very many legs, good prices are found over few of them; any prices give a bound over all. */
static void
climb_sparse (HsTourBranch *branch)
{
  HsTourTree *tree = branch->tree;
  g_autoptr (HsTourFrame) sparse = make_sparse (branch->search);
  g_autoptr (HsTourTree) small = hs_tour_tree_new (sparse);

  small->give_up = tree->give_up;
  small->user_data = tree->user_data;
  memcpy (small->prices, tree->prices, tree->n_prices * sizeof *tree->prices);
  if (hs_tour_tree_climb (small, branch->search->best_cost, ROOT_STEPS, 200))
    memcpy (tree->prices, small->prices, tree->n_prices * sizeof *tree->prices);
}

gint64
hs_tour_branch_root (HsTourBranch *branch)
{
  HsTourTree *tree = branch->tree;
  HsTourSearch *search = branch->search;
  gint64 last = G_MININT64 / 2;
  guint percent = 200;
  guint steps = tree->n_legs > MANY_LEGS ? FEW_STEPS : ROOT_STEPS;

  if (tree->target == 1 && !branch->assigned && tree->n <= MOST_ASSIGNED)
    hs_tour_tree_assign (tree);
  if (steps == FEW_STEPS && !branch->assigned)
    climb_sparse (branch);
  branch->assigned = TRUE;
  for (guint i = 0; i < ROOT_ROUNDS; i++)
    {
      guint decided;

      if (!hs_tour_tree_climb (tree, search->best_cost, steps, percent))
        return search->best_cost;
      if (is_beaten (branch) || hs_tour_search_gives_up (search))
        break;
      decided = hs_tour_tree_tighten (tree, search->best_cost);
      if (!hs_tour_branch_settle (tree))
        return search->best_cost;
      hs_tour_tree_pack (tree);
      if (tree->value - last < HS_TOUR_SCALE / 8 && decided == 0)
        break;
      last = tree->value;
      percent = MAX (percent * 9 / 10, 20);
    }
  return hs_tour_tree_bound (tree);
}

/* The tree is a round: its legs in order. */
static void
keep_round (HsTourBranch *branch)
{
  HsTourTree *tree = branch->tree;
  HsTourSearch *search = branch->search;
  guint n = tree->n;
  g_autofree guint8 *used = g_new0 (guint8, n);
  gint64 cost = 0;
  guint node = 0;

  for (guint k = 0; k < n; k++)
    cost += tree->legs[tree->chosen[k]].cost;
  if (cost >= search->best_cost)
    return;
  search->best_cost = cost;
  for (guint k = 0; k < n; k++)
    {
      guint next = 0;

      search->best[k] = (guint16) node;
      used[node] = 1;
      for (guint c = 0; c < n; c++)
        {
          const HsTourLeg *leg = &tree->legs[tree->chosen[c]];

          if (leg->tail == node && !used[leg->head])
            next = leg->head;
          else if (tree->target == 2 && leg->head == node && !used[leg->tail])
            next = leg->tail;
        }
      node = next;
    }
}

/* A leg of the tree at a node that has too many, the one that is dearest to do without. */
static int
pick_leg (const HsTourTree *tree)
{
  gint64 most = -1;
  int pick = -1;

  for (guint k = 0; k < tree->n; k++)
    {
      guint leg = tree->chosen[k];
      guint head = hs_tour_tree_head_price (tree, tree->legs[leg].head);

      if (tree->state[leg] != HS_TOUR_LEG_FREE || tree->replace[k] <= most
          || (tree->degrees[tree->legs[leg].tail] <= (gint32) tree->target
              && tree->degrees[head] <= (gint32) tree->target))
        continue;
      most = tree->replace[k];
      pick = (int) leg;
    }
  return pick;
}

static gboolean
tree_keeps_state (const HsTourTree *tree)
{
  guint forced = 0;
  guint forced_in = 0;

  for (guint a = 0; a < tree->n_legs; a++)
    forced += tree->state[a] == HS_TOUR_LEG_FORCED;
  for (guint k = 0; k < tree->n; k++)
    {
      if (tree->state[tree->chosen[k]] == HS_TOUR_LEG_OUT)
        return FALSE;
      forced_in += tree->state[tree->chosen[k]] == HS_TOUR_LEG_FORCED;
    }
  return forced == forced_in;
}

/* Bounds this branch. FALSE if it holds nothing better. */
static gboolean
bound_branch (HsTourBranch *branch)
{
  HsTourTree *tree = branch->tree;

  if (!hs_tour_branch_settle (tree))
    return FALSE;
  for (guint i = 0; i < NODE_ROUNDS; i++)
    {
      if (!hs_tour_tree_climb (tree, branch->search->best_cost, NODE_STEPS, i == 0 ? 60 : 30) || is_beaten (branch))
        return FALSE;
      if (hs_tour_tree_is_round (tree))
        return TRUE;
      hs_tour_tree_tighten (tree, branch->search->best_cost);
      if (!hs_tour_branch_settle (tree))
        return FALSE;
      if (tree_keeps_state (tree))
        return TRUE;
    }
  if (!hs_tour_tree_grow (tree) || is_beaten (branch))
    return FALSE;
  hs_tour_tree_tighten (tree, branch->search->best_cost);
  return TRUE;
}

static void
search_beside (HsTourBranch *branch)
{
  if (++branch->nodes % KICK_EVERY == 0)
    hs_tour_search_run (branch->search, KICKS, 0);
  if (branch->nodes >= branch->most_nodes)
    branch->search->cut = TRUE;
  hs_tour_search_gives_up (branch->search);
}

static void
explore (HsTourBranch *branch, gint64 floor)
{
  HsTourTree *tree = branch->tree;
  g_autofree guint8 *state = NULL;
  g_autofree gint64 *prices = NULL;
  gint64 bound;
  int leg;

  if (!branch->search->cut)
    search_beside (branch);
  if (branch->search->cut)
    {
      branch->open = MIN (branch->open, floor);
      return;
    }
  if (!bound_branch (branch))
    return;
  if (hs_tour_tree_is_round (tree))
    {
      keep_round (branch);
      return;
    }
  bound = hs_tour_tree_bound (tree);
  leg = pick_leg (tree);
  if (leg < 0)
    {
      branch->open = MIN (branch->open, bound);
      return;
    }
  state = g_memdup2 (tree->state, tree->n_legs);
  prices = g_memdup2 (tree->prices, tree->n_prices * sizeof *prices);
  tree->state[leg] = HS_TOUR_LEG_OUT;
  explore (branch, bound);
  memcpy (tree->state, state, tree->n_legs);
  memcpy (tree->prices, prices, tree->n_prices * sizeof *prices);
  if (bound >= branch->search->best_cost)
    return;
  tree->state[leg] = HS_TOUR_LEG_FORCED;
  explore (branch, bound);
}

gboolean
hs_tour_branch_run (HsTourBranch *branch)
{
  gint64 bound = hs_tour_tree_bound (branch->tree);

  branch->open = G_MAXINT64;
  explore (branch, bound);
  return branch->open >= branch->search->best_cost;
}
