// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What follows from decided legs without any costs. */

#include "hs-tour-branch.h"

#include <string.h>

#define NOBODY G_MAXUINT16

/* How many legs that use a price are forced and how many are not out. */
typedef struct
{
  guint16 forced;
  guint16 usable;
} Count;

static inline gboolean
uses_price (const HsTourTree *tree, guint leg, guint price)
{
  return tree->legs[leg].tail == price || hs_tour_tree_head_price (tree, tree->legs[leg].head) == price;
}

static void
count_legs (const HsTourTree *tree, Count *counts)
{
  memset (counts, 0, tree->n_prices * sizeof *counts);
  for (guint a = 0; a < tree->n_legs; a++)
    {
      guint head = hs_tour_tree_head_price (tree, tree->legs[a].head);

      if (tree->state[a] == HS_TOUR_LEG_OUT)
        continue;
      counts[tree->legs[a].tail].usable++;
      counts[head].usable++;
      counts[tree->legs[a].tail].forced += tree->state[a] == HS_TOUR_LEG_FORCED;
      counts[head].forced += tree->state[a] == HS_TOUR_LEG_FORCED;
    }
}

static gboolean
decide_rest (HsTourTree *tree, guint price, HsTourLegState state)
{
  guint node = price % tree->n;
  gboolean any = FALSE;

  for (guint k = tree->first[node]; k < tree->first[node + 1]; k++)
    {
      guint leg = tree->touching[k];

      if (tree->state[leg] != HS_TOUR_LEG_FREE || !uses_price (tree, leg, price))
        continue;
      tree->state[leg] = (guint8) state;
      any = TRUE;
    }
  return any;
}

/* FALSE if a node can't have its legs. */
static gboolean
settle_counts (HsTourTree *tree, Count *counts, gboolean *ret_any)
{
  count_legs (tree, counts);
  for (guint price = 0; price < tree->n_prices; price++)
    {
      const Count *count = &counts[price];

      if (count->forced > tree->target || count->usable < tree->target)
        return FALSE;
      if (count->forced == count->usable)
        continue;
      if (count->forced == tree->target)
        *ret_any |= decide_rest (tree, price, HS_TOUR_LEG_OUT);
      else if (count->usable == tree->target)
        *ret_any |= decide_rest (tree, price, HS_TOUR_LEG_FORCED);
    }
  return TRUE;
}

/* The forced legs as paths: each node's one or two neighbors; where legs have a direction, [0] is the next node and
 * [1] the one before. */
static void
link_paths (const HsTourTree *tree, guint16 (*links)[2])
{
  memset (links, 0xff, tree->n * sizeof *links);
  for (guint a = 0; a < tree->n_legs; a++)
    {
      guint16 tail = tree->legs[a].tail;
      guint16 head = tree->legs[a].head;

      if (tree->state[a] != HS_TOUR_LEG_FORCED)
        continue;
      if (tree->target == 1)
        {
          links[tail][0] = head;
          links[head][1] = tail;
          continue;
        }
      links[tail][links[tail][0] != NOBODY] = head;
      links[head][links[head][0] != NOBODY] = tail;
    }
}

static guint
walk_path (guint16 (*links)[2], guint8 *seen, guint from, guint *ret_length)
{
  guint before = NOBODY;
  guint node = from;

  for (*ret_length = 1;; (*ret_length)++)
    {
      guint next = links[node][0] != before ? links[node][0] : links[node][1];

      seen[node] = 1;
      if (next == NOBODY || seen[next])
        return node;
      before = node;
      node = next;
    }
}

static gboolean
forbid_leg (HsTourTree *tree, guint tail, guint head)
{
  gboolean any = FALSE;

  for (guint k = tree->first[tail]; k < tree->first[tail + 1]; k++)
    {
      const HsTourLeg *leg = &tree->legs[tree->touching[k]];

      if (tree->state[tree->touching[k]] != HS_TOUR_LEG_FREE
          || !((leg->tail == tail && leg->head == head)
               || (tree->target == 2 && leg->tail == head && leg->head == tail)))
        continue;
      tree->state[tree->touching[k]] = HS_TOUR_LEG_OUT;
      any = TRUE;
    }
  return any;
}

/* The two ends of a forced path must not be joined before it has all nodes. */
static gboolean
settle_paths (HsTourTree *tree, guint16 (*links)[2], guint8 *seen, gboolean *ret_any)
{
  link_paths (tree, links);
  memset (seen, 0, tree->n);
  for (guint i = 0; i < tree->n; i++)
    {
      guint end;
      guint length;

      if (seen[i] || links[i][1] != NOBODY || links[i][0] == NOBODY)
        continue;
      end = walk_path (links, seen, i, &length);
      if (length < tree->n)
        *ret_any |= forbid_leg (tree, end, i);
    }
  for (guint i = 0; i < tree->n; i++)
    if (!seen[i] && links[i][0] != NOBODY)
      {
        guint length;

        walk_path (links, seen, i, &length);
        return length == tree->n;
      }
  return TRUE;
}

gboolean
hs_tour_branch_settle (HsTourTree *tree)
{
  g_autofree Count *counts = g_new (Count, tree->n_prices);
  g_autofree guint16 (*links)[2] = g_malloc (tree->n * sizeof *links);
  g_autofree guint8 *seen = g_new (guint8, tree->n);
  gboolean any = TRUE;

  while (any)
    {
      any = FALSE;
      if (!settle_counts (tree, counts, &any) || !settle_paths (tree, links, seen, &any))
        return FALSE;
    }
  return TRUE;
}
