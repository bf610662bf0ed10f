// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour-frame.h"
#include "hs-tour-tree.h"

G_BEGIN_DECLS

/* Looks for a good round (private to this layer): a nearest-neighbor start, then kicks, each followed by local
 * improvement and kept unless it is worse. Legs alike both ways: 2-opt and or-opt; else: exchange of two neighboring
 * stretches, which turns nothing round, with orders kept. */

/**
 * HsTourSearch:
 * @costs: what the moves go by: the frame's costs, or those with prices of the bound added, which changes every round
 *   by the same: @added
 * @near: n × @n_near: the cheapest nodes to go to under @costs, cheapest first
 * @best: the best round so far, node 0 first
 * @best_cost: what it costs
 * @cut: it was told to give up
 */
typedef struct
{
  const HsTourFrame *frame;
  gint32 *costs;
  gint64 added;
  guint n_near;
  guint16 *near;
  HsPlanGiveUp give_up;
  gpointer user_data;
  GRand *rand;
  guint16 *best;
  gint64 best_cost;
  gboolean cut;
  guint16 *tour;
  guint16 *at;
  guint16 *saved;
  gint64 cost;
  guint16 *queue;
  guint8 *queued;
  guint queue_from;
  guint queue_length;
} HsTourSearch;

/* Starts with a first round and improves it. @frame must outlive it. */
HsTourSearch *hs_tour_search_new (const HsTourFrame *frame, const HsTourHow *how);
void hs_tour_search_free (HsTourSearch *search);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTourSearch, hs_tour_search_free)

/* Goes on under the prices of @tree, with only the legs that it has not taken out to begin moves with: it then sees
 * what is cheap for the whole round instead of for one leg. Prices too large to add are left alone. */
void hs_tour_search_reprice (HsTourSearch *search, const HsTourTree *tree);

/* Goes on from @best, which somebody else may have made better. */
void hs_tour_search_restart (HsTourSearch *search);

static inline gint32
hs_tour_search_cost (const HsTourSearch *search, guint from, guint to)
{
  return search->costs[(gsize) from * search->frame->n + to];
}

/* Kicks up to @kicks times; ends early when told to give up or at a cost of @enough. Returns whether @best became
 * better. */
gboolean hs_tour_search_run (HsTourSearch *search, guint64 kicks, gint64 enough);

/* Whether it is time to stop. */
gboolean hs_tour_search_gives_up (HsTourSearch *search);

/* Private between the parts of the search: improves @tour from the nodes in the queue until nothing does. */
void hs_tour_improve_alike (HsTourSearch *search);
void hs_tour_improve_stretches (HsTourSearch *search);
void hs_tour_queue_add (HsTourSearch *search, guint node);
int hs_tour_queue_take (HsTourSearch *search);

/* Exchanges the stretches [@from, @middle) and [@middle, @to) of the tour. */
void hs_tour_exchange (HsTourSearch *search, guint from, guint middle, guint to);

G_END_DECLS
