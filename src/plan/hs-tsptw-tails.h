// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-way.h"

G_BEGIN_DECLS

/* How a path can end: from each node the paths to the depot that a search the other way kept, cheapest first (private
 * to this layer). */

/**
 * HsTsptwTail:
 * @latest: the latest time at which it can begin
 * @cost: in units, the prize of its node taken off as often as it is there
 */
typedef struct
{
  gint64 cost;
  gint64 latest;
  guint32 set;
} HsTsptwTail;

/**
 * HsTsptwTails:
 * @tails, @first: of each node
 * @sets: the stops that each remembers, without its node
 * @stairs, @first_stair: of each node, indexes of the tails that can begin later than all cheaper ones
 * @prize: as the search had it
 */
typedef struct
{
  guint words;
  HsTsptwTail *tails;
  guint64 *sets;
  guint32 *stairs;
  guint32 first[HS_TSPTW_MAX_NODES + 1];
  guint32 first_stair[HS_TSPTW_MAX_NODES + 1];
  gint64 prize[HS_TSPTW_MAX_NODES];
} HsTsptwTails;

/**
 * hs_tsptw_tails_reach:
 * @budget: what a path may still cost
 * @ret_tail: (out): the cheapest end that is not too late
 *
 * Returns: whether a path at @node at @time can end within @budget, not looking at what it remembers
 */
gboolean hs_tsptw_tails_reach (const HsTsptwTails *tails, guint node, gint64 time, gint64 budget, guint32 *ret_tail);

/**
 * hs_tsptw_tails_find:
 * @set: what the path remembers
 * @tail: (inout): as hs_tsptw_tails_reach() found it; the cheapest end that was found
 *
 * Returns: whether it can end so without coming back to what it remembers
 */
gboolean hs_tsptw_tails_find (const HsTsptwTails *tails, guint node, gint64 time, const guint64 *set, gint64 budget,
                              guint32 *tail);

void hs_tsptw_tails_free (HsTsptwTails *tails);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptwTails, hs_tsptw_tails_free)

G_END_DECLS
