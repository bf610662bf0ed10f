// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-frame.h"

G_BEGIN_DECLS

/* A frame as a search goes through it: forward from leaving the depot, or backward from being home, with time running
 * the other way (private to this layer). A search need not know which of the two it is. */

/**
 * HsTsptwStep: a leg to a stop.
 * @limit: latest time at which it can be taken
 * @cost: what it adds; the search sets it
 */
typedef struct
{
  gint64 drive;
  gint64 limit;
  gint64 cost;
  guint16 to;
} HsTsptwStep;

/**
 * HsTsptwWay:
 * @possible: whether the frame was; otherwise its times may lie outside the day
 * @from, @to: when a node can be served, in the time of the way
 * @start: when the depot is left
 * @end: when it must be reached
 * @shift: the problem's time is @shift − the way's time where @backward
 * @steps, @first_step: the legs out of each node to stops, those that can be taken latest first
 * @home: the leg to the depot from each node, or %HS_TSPTW_FAR
 * @lates, @first_late: for each node, by rising limit; whoever is there after a limit misses all nodes of the set of
 *   @missed with the same index
 * @before: what comes before each node on this way
 */
typedef struct
{
  guint n;
  guint words;
  gboolean backward;
  gboolean possible;
  gint64 shift;
  gint64 start;
  gint64 end;
  gint64 *from;
  gint64 *to;
  gint64 *home;
  gint64 *near_home;
  HsTsptwStep *steps;
  guint first_step[HS_TSPTW_MAX_NODES + 1];
  gint64 *lates;
  guint64 *missed;
  guint first_late[HS_TSPTW_MAX_NODES + 1];
  guint64 *before;
} HsTsptwWay;

HsTsptwWay *hs_tsptw_way_new (const HsTsptwFrame *frame, gboolean backward);

void hs_tsptw_way_free (HsTsptwWay *way);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptwWay, hs_tsptw_way_free)

/** hs_tsptw_way_missed: the stops that can't be reached any more from @node at @time, or %NULL when all can. */
static inline const guint64 *
hs_tsptw_way_missed (const HsTsptwWay *way, guint node, gint64 time)
{
  guint low = way->first_late[node];
  guint high = way->first_late[node + 1];

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (way->lates[middle] < time)
        low = middle + 1;
      else
        high = middle;
    }
  return low == way->first_late[node] ? NULL : way->missed + (gsize) (low - 1) * way->words;
}

G_END_DECLS
