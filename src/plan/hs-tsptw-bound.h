// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-pass.h"

G_BEGIN_DECLS

/* How little a tour can cost (private to this layer). Paths that may come back to stops or leave some out are priced:
 * each visit of a stop gives a prize back, and each stop's prize is paid once. Prizes rise for stops that the cheapest
 * path leaves out and fall for those it visits again and again. For any prizes the cheapest path's cost plus all prizes
 * is a bound on every tour. */

/**
 * HsTsptwBound:
 * @scale: cost units for each unit of driving
 * @prize, @best_prize: now, and where the bound was best
 * @memory: a set for each node
 * @units: the best bound, in cost units
 * @target: in cost units; a bound above it proves that there is no tour worth having
 * @aim: where the bound is expected to end, for the length of steps
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
  guint64 *memory;
  gint64 units;
  gint64 target;
  gint64 aim;
  gsize max_labels;
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

/** hs_tsptw_bound_remember: lets each node's paths remember its @count nearest stops, besides what they remember. */
void hs_tsptw_bound_remember (HsTsptwBound *bound, const HsTsptwFrame *frame, guint count);

/** hs_tsptw_bound_break_cycles: lets paths remember what the last cheapest path forgot; FALSE if it forgot nothing. */
gboolean hs_tsptw_bound_break_cycles (HsTsptwBound *bound);

/**
 * hs_tsptw_bound_improve:
 * @rounds: so many prices at most
 *
 * Returns: %HS_TSPTW_BOUND_PROVEN when the bound is above the target; %HS_TSPTW_BOUND_TOUR when the cheapest path is
 * a tour, which is then a best one
 */
HsTsptwBoundEnd hs_tsptw_bound_improve (HsTsptwBound *bound, HsTsptwWay *way, guint rounds);

/** hs_tsptw_bound_sum: of all best prizes. */
gint64 hs_tsptw_bound_sum (const HsTsptwBound *bound);

G_END_DECLS
