// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-pass.h"

G_BEGIN_DECLS

/* How little a tour can cost (private to this layer). Paths that may come back to stops or leave some out are priced:
 * each visit of a stop gives a prize back, and each stop's prize is paid once. Prizes rise for stops that the cheapest
 * path leaves out and fall for those it visits again and again. For any prizes the cheapest path's cost plus all prizes
 * is a bound on every tour. */

#define HS_TSPTW_BOUND_MAX_LEVELS 8

/**
 * HsTsptwBound:
 * @scale: cost units for each unit of driving
 * @prize, @best_prize: now, and where the bound was best
 * @memory: for each level a set for each node: what paths that are there remember
 * @units: the best bound, in cost units
 * @target: in cost units; a bound above it proves that there is no tour worth having
 * @aim: where the bound is expected to end, for the length of steps
 * @enough_labels: with more than so many in a search it is time for another level
 * @order: the stops of the last cheapest path, @n_order of them
 */
typedef struct
{
  guint n;
  guint words;
  gint64 scale;
  gint64 prize[HS_TSPTW_MAX_NODES];
  gint64 best_prize[HS_TSPTW_MAX_NODES];
  double drift[HS_TSPTW_MAX_NODES];
  guint64 *memory[HS_TSPTW_BOUND_MAX_LEVELS];
  guint n_levels;
  gint64 units;
  gint64 target;
  gint64 aim;
  gsize max_labels;
  gsize enough_labels;
  HsPlanGiveUp give_up;
  gpointer user_data;
  guint64 states;
  guint n_order;
  guint16 order[4 * HS_TSPTW_MAX_NODES];
} HsTsptwBound;

typedef enum
{
  HS_TSPTW_BOUND_GOES_ON,
  HS_TSPTW_BOUND_PROVEN,
  HS_TSPTW_BOUND_TOUR,
  HS_TSPTW_BOUND_FULL,
  HS_TSPTW_BOUND_CUT,
} HsTsptwBoundEnd;

HsTsptwBound *hs_tsptw_bound_new (const HsTsptwFrame *frame, gint64 scale);

void hs_tsptw_bound_free (HsTsptwBound *bound);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptwBound, hs_tsptw_bound_free)

/**
 * hs_tsptw_bound_deepen:
 *
 * From now on each price is searched with one level more, in which paths remember also the @count nearest stops of each
 * node, and what is added later; the levels before it spare that search most of its work when the target is close. At
 * least one level is needed.
 */
void hs_tsptw_bound_deepen (HsTsptwBound *bound, const HsTsptwFrame *frame, guint count);

/**
 * hs_tsptw_bound_climb:
 * @last: the way of the last search; the searches before it take both in turn
 * @limit: in cost units; paths that cost more, with all prizes, are of no interest
 *
 * Searches at the prizes as they are, level by level: each search remembers more than the one before, goes the other
 * way, and is spared all paths that could not become cheap enough even for that one.
 *
 * Returns: (transfer full): the last search that was needed: when it ended and found nothing, no tour is within the
 * limit
 */
HsTsptwPass *hs_tsptw_bound_climb (HsTsptwBound *bound, HsTsptwWay *last, HsTsptwWay *other, gint64 limit);

/** hs_tsptw_bound_back_to_best: takes the best prizes again. */
void hs_tsptw_bound_back_to_best (HsTsptwBound *bound);

/** hs_tsptw_bound_break_cycles: lets paths remember what the last cheapest path forgot; FALSE if it forgot nothing. */
gboolean hs_tsptw_bound_break_cycles (HsTsptwBound *bound);

/**
 * hs_tsptw_bound_improve:
 * @rounds: so many prices at most
 *
 * Returns: %HS_TSPTW_BOUND_PROVEN when the bound is above the target; %HS_TSPTW_BOUND_TOUR when the cheapest path is
 * a tour, which is then a best one
 */
HsTsptwBoundEnd hs_tsptw_bound_improve (HsTsptwBound *bound, HsTsptwWay *forward, HsTsptwWay *backward, guint rounds);

/** hs_tsptw_bound_sum: of all best prizes. */
gint64 hs_tsptw_bound_sum (const HsTsptwBound *bound);

G_END_DECLS
