// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-way.h"

G_BEGIN_DECLS

/* With more stops there are too many sets of them. */
#define HS_TSPTW_FEW_STOPS 20

/**
 * HsTsptwFew: what is asked, and what came out.
 * @budget: a tour that drives more is of no interest
 * @max_paths: of all lengths together, so many are kept
 * @states: (out): the paths that were kept
 * @found: (out): whether there is a tour within the budget
 * @order: (out): the stops of the one that drives least
 */
typedef struct
{
  gint64 budget;
  guint32 max_paths;
  HsPlanGiveUp give_up;
  gpointer user_data;
  guint64 states;
  gboolean found;
  guint16 order[HS_TSPTW_FEW_STOPS];
} HsTsptwFew;

/**
 * hs_tsptw_few_run:
 * @way: forward, of a frame that is possible and has at most %HS_TSPTW_FEW_STOPS stops
 *
 * Goes through all sets of stops that a path can have served, one size after the other, and keeps for each set and last
 * stop the paths that are earlier than all that drive less (private to this layer). It asks for no bound, and so is for
 * problems with few stops whose windows are too wide for one.
 *
 * Returns: whether it went to its end, which proves that no tour within the budget drives less than the one found, or
 * that there is none
 */
gboolean hs_tsptw_few_run (const HsTsptwWay *way, HsTsptwFew *few);

G_END_DECLS
