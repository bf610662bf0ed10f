// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Grows the tree of the bound, moves its prices, and draws conclusions about legs. */

#include "hs-tour-tree.h"

#include <string.h>

#define NEVER (G_MAXINT64 / 4)
#define FORCED_FIRST (G_GINT64_CONSTANT (1) << 60)
#define NO_LEG_CHOSEN G_MAXUINT
#define PATIENCE 5
#define MANY_LEGS 50000
#define ASK_EVERY 16

static void
index_legs (HsTourTree *tree)
{
  memset (tree->first, 0, (tree->n + 1) * sizeof *tree->first);
  for (guint a = 0; a < tree->n_legs; a++)
    {
      tree->first[tree->legs[a].tail]++;
      tree->first[tree->legs[a].head]++;
    }
  for (guint i = 1; i <= tree->n; i++)
    tree->first[i] += tree->first[i - 1];
  for (guint a = tree->n_legs; a > 0; a--)
    {
      tree->touching[--tree->first[tree->legs[a - 1].tail]] = a - 1;
      tree->touching[--tree->first[tree->legs[a - 1].head]] = a - 1;
    }
}

static void
collect_legs (HsTourTree *tree)
{
  const HsTourFrame *frame = tree->frame;
  gsize n = frame->n;

  tree->legs = g_new (HsTourLeg, frame->symmetric ? n * (n - 1) / 2 : n * (n - 1));
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < (frame->symmetric ? i : n); j++)
      if (hs_tour_frame_cost (frame, i, j) != HS_TOUR_NO_LEG)
        tree->legs[tree->n_legs++] = (HsTourLeg){ (guint16) i, (guint16) j, hs_tour_frame_cost (frame, i, j) };
}

HsTourTree *
hs_tour_tree_new (const HsTourFrame *frame)
{
  HsTourTree *tree = g_new0 (HsTourTree, 1);
  guint n = frame->n;

  tree->frame = frame;
  tree->n = n;
  tree->target = frame->symmetric ? 2 : 1;
  tree->n_prices = frame->symmetric ? n : 2 * n;
  collect_legs (tree);
  tree->state = g_new0 (guint8, tree->n_legs);
  tree->first = g_new (guint, n + 1);
  tree->touching = g_new (guint, 2 * (gsize) tree->n_legs);
  tree->prices = g_new0 (gint64, tree->n_prices);
  tree->best_prices = g_new0 (gint64, tree->n_prices);
  tree->degrees = g_new0 (gint32, tree->n_prices);
  tree->momentum = g_new0 (gint32, tree->n_prices);
  tree->chosen = g_new (guint, n);
  tree->weights = g_new (gint64, tree->n_legs);
  tree->nearest = g_new (gint64, n);
  tree->by = g_new (guint, n);
  tree->left = g_new (guint16, n);
  tree->parent = g_new (guint16, n);
  tree->depth = g_new (guint16, n);
  tree->replace = g_new (gint64, n);
  index_legs (tree);
  return tree;
}

void
hs_tour_tree_free (HsTourTree *tree)
{
  if (tree == NULL)
    return;
  g_free (tree->legs);
  g_free (tree->state);
  g_free (tree->first);
  g_free (tree->touching);
  g_free (tree->prices);
  g_free (tree->best_prices);
  g_free (tree->degrees);
  g_free (tree->momentum);
  g_free (tree->chosen);
  g_free (tree->weights);
  g_free (tree->nearest);
  g_free (tree->by);
  g_free (tree->left);
  g_free (tree->parent);
  g_free (tree->depth);
  g_free (tree->replace);
  g_free (tree);
}

static void
weigh_legs (HsTourTree *tree)
{
  const gint64 *coming = tree->target == 2 ? tree->prices : tree->prices + tree->n;

  for (guint a = 0; a < tree->n_legs; a++)
    tree->weights[a] = (gint64) tree->legs[a].cost * HS_TOUR_SCALE + tree->prices[tree->legs[a].tail]
                       + coming[tree->legs[a].head];
}

/* A forced leg is always taken before one that is not. */
static inline gint64
key_of (const HsTourTree *tree, guint leg)
{
  return tree->weights[leg] - (tree->state[leg] == HS_TOUR_LEG_FORCED ? FORCED_FIRST : 0);
}

static inline guint
other_end (const HsTourTree *tree, guint leg, guint node)
{
  return tree->legs[leg].tail == node ? tree->legs[leg].head : tree->legs[leg].tail;
}

static void
reach_from (HsTourTree *tree, guint node)
{
  for (guint k = tree->first[node]; k < tree->first[node + 1]; k++)
    {
      guint leg = tree->touching[k];
      guint other = other_end (tree, leg, node);
      gint64 key;

      if (tree->state[leg] == HS_TOUR_LEG_OUT || tree->by[other] == NO_LEG_CHOSEN - 1)
        continue;
      key = key_of (tree, leg);
      if (key < tree->nearest[other])
        {
          tree->nearest[other] = key;
          tree->by[other] = leg;
        }
    }
}

/* Prim's way, from node 1, without node 0. */
static gboolean
grow_branches (HsTourTree *tree)
{
  guint n_left = tree->n - 2;
  guint node = 1;

  for (guint i = 0; i < tree->n; i++)
    {
      tree->nearest[i] = NEVER;
      tree->by[i] = NO_LEG_CHOSEN;
    }
  for (guint i = 0; i < n_left; i++)
    tree->left[i] = (guint16) (i + 2);
  tree->by[0] = NO_LEG_CHOSEN - 1;
  tree->by[1] = NO_LEG_CHOSEN - 1;
  tree->parent[1] = 1;
  tree->depth[1] = 0;
  for (guint k = 0; n_left > 0; k++)
    {
      guint pick = 0;

      reach_from (tree, node);
      for (guint i = 1; i < n_left; i++)
        if (tree->nearest[tree->left[i]] < tree->nearest[tree->left[pick]])
          pick = i;
      node = tree->left[pick];
      if (tree->by[node] == NO_LEG_CHOSEN)
        return FALSE;
      tree->chosen[k] = tree->by[node];
      tree->parent[node] = (guint16) other_end (tree, tree->by[node], node);
      tree->depth[node] = (guint16) (tree->depth[tree->parent[node]] + 1);
      tree->by[node] = NO_LEG_CHOSEN - 1;
      tree->left[pick] = tree->left[--n_left];
    }
  return TRUE;
}

/* The two legs of node 0: one each way, or the two cheapest. */
static gboolean
join_start (HsTourTree *tree)
{
  guint *pair = &tree->chosen[tree->n - 2];

  pair[0] = pair[1] = NO_LEG_CHOSEN;
  for (guint k = tree->first[0]; k < tree->first[1]; k++)
    {
      guint leg = tree->touching[k];
      guint which = tree->target == 2 || tree->legs[leg].tail == 0 ? 0 : 1;
      gint64 key = key_of (tree, leg);

      if (tree->state[leg] == HS_TOUR_LEG_OUT)
        continue;
      if (pair[which] == NO_LEG_CHOSEN || key < key_of (tree, pair[which]))
        {
          if (tree->target == 2)
            pair[1] = pair[0];
          pair[which] = leg;
        }
      else if (tree->target == 2 && (pair[1] == NO_LEG_CHOSEN || key < key_of (tree, pair[1])))
        pair[1] = leg;
    }
  return pair[0] != NO_LEG_CHOSEN && pair[1] != NO_LEG_CHOSEN;
}

gboolean
hs_tour_tree_grow (HsTourTree *tree)
{
  gint64 value = 0;

  weigh_legs (tree);
  if (!grow_branches (tree) || !join_start (tree))
    return FALSE;
  memset (tree->degrees, 0, tree->n_prices * sizeof *tree->degrees);
  for (guint k = 0; k < tree->n; k++)
    {
      guint leg = tree->chosen[k];

      value += tree->weights[leg];
      tree->degrees[tree->legs[leg].tail]++;
      tree->degrees[hs_tour_tree_head_price (tree, tree->legs[leg].head)]++;
    }
  for (guint p = 0; p < tree->n_prices; p++)
    value -= tree->prices[p] * tree->target;
  tree->value = value;
  return TRUE;
}

gint64
hs_tour_tree_bound (const HsTourTree *tree)
{
  if (tree->value <= 0)
    return 0;
  return (tree->value + HS_TOUR_SCALE - 1) / HS_TOUR_SCALE;
}

gboolean
hs_tour_tree_is_round (const HsTourTree *tree)
{
  for (guint p = 0; p < tree->n_prices; p++)
    if (tree->degrees[p] != (gint32) tree->target)
      return FALSE;
  return TRUE;
}

/* One step against what is used too much or too little, with some of the step before it. */
static void
move_prices (HsTourTree *tree, gint64 step)
{
  for (guint p = 0; p < tree->n_prices; p++)
    {
      tree->momentum[p] = 7 * (tree->degrees[p] - (gint32) tree->target) + 3 * tree->momentum[p] / 10;
      tree->prices[p] += step * tree->momentum[p] / 10;
    }
}

/* How far the gap says that prices should move. */
static gint64
first_step (const HsTourTree *tree, gint64 gap, guint percent)
{
  gint64 norm = 0;

  for (guint p = 0; p < tree->n_prices; p++)
    norm += (gint64) (tree->degrees[p] - (gint32) tree->target) * (tree->degrees[p] - (gint32) tree->target);
  return MAX (gap / MAX (norm, 1) * percent / 100, 1);
}

static gboolean
gives_up (const HsTourTree *tree, guint step)
{
  return tree->give_up != NULL && (tree->n_legs > MANY_LEGS || step % ASK_EVERY == 0)
         && tree->give_up (tree->user_data);
}

gboolean
hs_tour_tree_climb (HsTourTree *tree, gint64 enough, guint steps, guint percent)
{
  gint64 wanted = (enough - 1) * HS_TOUR_SCALE + 1;
  gint64 length = 0;
  gint64 best = G_MININT64;
  guint patience = MAX (steps / 20, PATIENCE);
  guint idle = 0;

  memset (tree->momentum, 0, tree->n_prices * sizeof *tree->momentum);
  for (guint step = 0;; step++)
    {
      if (!hs_tour_tree_grow (tree))
        return FALSE;
      if (step == 0)
        length = first_step (tree, wanted - tree->value, percent);
      idle++;
      if (tree->value > best)
        {
          best = tree->value;
          idle = 0;
          memcpy (tree->best_prices, tree->prices, tree->n_prices * sizeof *tree->prices);
        }
      if (step == steps || tree->value >= wanted || hs_tour_tree_is_round (tree) || gives_up (tree, step))
        break;
      if (idle == patience)
        {
          length = MAX (length * 7 / 10, 1);
          idle = 0;
        }
      move_prices (tree, length);
    }
  if (tree->value >= best)
    return TRUE;
  memcpy (tree->prices, tree->best_prices, tree->n_prices * sizeof *tree->prices);
  return hs_tour_tree_grow (tree);
}

/* A leg outside the tree closes a ring with it: any free leg of the ring may make room. Returns what that costs at
 * the least; NEVER if the whole ring is forced. */
static gint64
close_ring (HsTourTree *tree, guint leg)
{
  guint a = tree->legs[leg].tail;
  guint b = tree->legs[leg].head;
  gint64 weight = tree->weights[leg];
  gint64 most = -NEVER;

  while (a != b)
    {
      guint node = tree->depth[a] >= tree->depth[b] ? a : b;
      guint place = tree->by[node];
      guint chosen = tree->chosen[place];

      if (tree->state[chosen] != HS_TOUR_LEG_FORCED)
        {
          most = MAX (most, tree->weights[chosen]);
          tree->replace[place] = MIN (tree->replace[place], weight - tree->weights[chosen]);
        }
      if (node == a)
        a = tree->parent[a];
      else
        b = tree->parent[b];
    }
  return most == -NEVER ? NEVER : weight - most;
}

static gint64
change_start (HsTourTree *tree, guint leg)
{
  guint place = tree->n - 2;
  gint64 least = NEVER;

  for (guint which = 0; which < 2; which++)
    {
      guint chosen = tree->chosen[place + which];
      gint64 more = tree->weights[leg] - tree->weights[chosen];

      if (tree->state[chosen] == HS_TOUR_LEG_FORCED
          || (tree->target == 1 && (tree->legs[leg].tail == 0) != (which == 0)))
        continue;
      tree->replace[place + which] = MIN (tree->replace[place + which], more);
      least = MIN (least, more);
    }
  return least;
}

/* Lets @by say where in @chosen the leg to the parent stands, and marks the chosen legs. */
static void
locate_chosen (HsTourTree *tree, guint8 *in_tree)
{
  for (guint k = 0; k < tree->n; k++)
    {
      const HsTourLeg *leg = &tree->legs[tree->chosen[k]];

      in_tree[tree->chosen[k]] = 1;
      tree->replace[k] = NEVER;
      if (k < tree->n - 2)
        tree->by[tree->depth[leg->tail] > tree->depth[leg->head] ? leg->tail : leg->head] = k;
    }
}

guint
hs_tour_tree_tighten (HsTourTree *tree, gint64 enough)
{
  gint64 room = (enough - 1) * HS_TOUR_SCALE - tree->value;
  g_autofree guint8 *in_tree = g_new0 (guint8, tree->n_legs);
  guint decided = 0;

  locate_chosen (tree, in_tree);
  for (guint leg = 0; leg < tree->n_legs; leg++)
    {
      gboolean at_start = tree->legs[leg].tail == 0 || tree->legs[leg].head == 0;

      if (tree->state[leg] == HS_TOUR_LEG_OUT || in_tree[leg])
        continue;
      if ((at_start ? change_start (tree, leg) : close_ring (tree, leg)) > room)
        {
          tree->state[leg] = HS_TOUR_LEG_OUT;
          decided++;
        }
    }
  for (guint k = 0; k < tree->n; k++)
    if (tree->replace[k] > room && tree->state[tree->chosen[k]] == HS_TOUR_LEG_FREE)
      {
        tree->state[tree->chosen[k]] = HS_TOUR_LEG_FORCED;
        decided++;
      }
  return decided;
}

void
hs_tour_tree_pack (HsTourTree *tree)
{
  guint kept = 0;

  for (guint a = 0; a < tree->n_legs; a++)
    if (tree->state[a] != HS_TOUR_LEG_OUT)
      {
        tree->legs[kept] = tree->legs[a];
        tree->state[kept++] = tree->state[a];
      }
  tree->n_legs = kept;
  index_legs (tree);
}
