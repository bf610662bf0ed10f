// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour-frame.h"

G_BEGIN_DECLS

/* The bound of Held and Karp (Operations Research 18, 1970; Mathematical Programming 1, 1971), private to this layer:
 * the cheapest tree over all nodes but node 0, with one leg to and one from node 0, under prices that push every node
 * toward the right number of legs. Where legs differ both ways every node has a price for coming and one for going, and
 * the tree does not look at the direction. All of it in whole numbers, so that no margin is needed. */

#define HS_TOUR_SCALE 1024

/* What is decided about a leg. */
typedef enum
{
  HS_TOUR_LEG_FREE,
  HS_TOUR_LEG_FORCED,
  HS_TOUR_LEG_OUT,
} HsTourLegState;

typedef struct
{
  guint16 tail;
  guint16 head;
  gint32 cost;
} HsTourLeg;

/**
 * HsTourTree:
 * @n_legs: those that may still be used when it was last packed
 * @state: (array length=n_legs): what is decided, #HsTourLegState
 * @first, @touching: each node's legs: @touching[@first[i]] to @touching[@first[i + 1] − 1], in numbers of legs
 * @n_prices: n, or 2 n where legs differ both ways: first for going, then for coming
 * @prices: (array length=n_prices)
 * @degrees: (array length=n_prices): how many legs of the tree use each price
 * @target: how many should: 2, or 1
 * @chosen: (array length=n): the legs of the tree; the last two are those of node 0
 * @value: what the tree says: no round that keeps to @state costs less than this ÷ %HS_TOUR_SCALE
 * @give_up: (nullable): asked while climbing, which then ends early
 * @replace: (array length=n): what the tree costs more without that leg, after hs_tour_tree_tighten ()
 */
typedef struct
{
  const HsTourFrame *frame;
  guint n;
  guint n_legs;
  HsTourLeg *legs;
  guint8 *state;
  guint *first;
  guint *touching;
  guint n_prices;
  guint target;
  gint64 *prices;
  gint32 *degrees;
  guint *chosen;
  gint64 value;
  HsPlanGiveUp give_up;
  gpointer user_data;
  gint64 *replace;
  gint64 *weights;
  gint64 *nearest;
  guint *by;
  guint16 *left;
  guint16 *parent;
  guint16 *depth;
  gint64 *best_prices;
  gint32 *momentum;
} HsTourTree;

/* With all legs of the frame, free, and all prices 0. At least 3 nodes. */
HsTourTree *hs_tour_tree_new (const HsTourFrame *frame);
void hs_tour_tree_free (HsTourTree *tree);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTourTree, hs_tour_tree_free)

static inline guint
hs_tour_tree_head_price (const HsTourTree *tree, guint head)
{
  return tree->target == 2 ? head : tree->n + head;
}

/* For legs that may differ both ways: begins with the prices of the cheapest assignment of a next node to every node,
 * which alone makes the tree worth as much as that. */
void hs_tour_tree_assign (HsTourTree *tree);

/* Under the prices as they are. FALSE if no round keeps to what is decided. */
gboolean hs_tour_tree_grow (HsTourTree *tree);

/**
 * hs_tour_tree_climb:
 * @enough: what a round costs that is to be beaten
 * @steps: how often to change the prices
 * @percent: how far the first step goes; 100: as far as the gap says
 *
 * Moves the prices to where the bound is highest, and grows the tree there. Ends early when @enough is reached
 * or the tree is a round.
 *
 * Returns: FALSE if no round keeps to what is decided
 */
gboolean hs_tour_tree_climb (HsTourTree *tree, gint64 enough, guint steps, guint percent);

/* The bound in whole numbers of cost. */
gint64 hs_tour_tree_bound (const HsTourTree *tree);

/* Whether the tree is a round: every price used as often as it should be. */
gboolean hs_tour_tree_is_round (const HsTourTree *tree);

/**
 * hs_tour_tree_tighten:
 * @enough: as above
 *
 * Takes out the legs that a round cheaper than @enough can't use, and forces those that it must use; the tree must
 * have been grown. Fills @replace for the legs of the tree: what the tree costs more without that leg.
 *
 * Returns: how many legs it decided
 */
guint hs_tour_tree_tighten (HsTourTree *tree, gint64 enough);

/* Forgets the legs that are out; the tree must be grown anew. */
void hs_tour_tree_pack (HsTourTree *tree);

G_END_DECLS
