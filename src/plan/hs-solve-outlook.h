// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"

G_BEGIN_DECLS

/* What the rest of one van's day costs at the very least over the prizes of the calls that it still serves, from every
 * stop and every time on (private to this layer). Time counts in steps of some seconds, a stop remembers only some of
 * the calls done, and what is on board is enough for all; but for that it is exact: windows, waiting, counters, what
 * they sell, and the break are all looked at. */

typedef struct _HsOutlook HsOutlook;

/**
 * hs_solve_outlook_new:
 * @frame: with its windows as they are trimmed now, all kept
 * @near: (nullable): for each node a set of @n_words words: of the calls that may be remembered there; %NULL: all
 * @max_cells: so many of 4 bytes; the more, the closer to the truth
 *
 * Returns: (transfer full) (nullable): to be filled; %NULL where it would take more, or where a call takes no time
 */
HsOutlook *hs_solve_outlook_new (const HsSolveFrame *frame, guint van, const guint64 *near, guint n_words,
                                 gsize max_cells);
void hs_solve_outlook_free (HsOutlook *outlook);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsOutlook, hs_solve_outlook_free)

/* For @prizes, one a call, in the frame's units; below zero is allowed. FALSE if @exact gives up: nothing may be asked
 * then. */
gboolean hs_solve_outlook_fill (HsOutlook *outlook, HsExact *exact, const gint64 *prizes);

/* How many seconds are one step, and how many cells there are. */
gint32 hs_solve_outlook_width (const HsOutlook *outlook);
gsize hs_solve_outlook_cells (const HsOutlook *outlook);

/**
 * hs_solve_outlook_least:
 * @node: a call or a counter, where the van is
 * @memory: the calls that must not come again, in words
 * @seen: counters it has been at, and whether it had its break
 * @ready: free at the earliest
 * @flat, @slope: free at t it costs max (@flat, @slope + t × second) so far
 *
 * Returns: what the whole costs at least over the prizes of the calls that come; %HS_SOLVE_NO_UNITS where it can't be
 *   home in time
 */
gint64 hs_solve_outlook_least (const HsOutlook *outlook, guint node, const guint64 *memory, guint32 seen, gint32 ready,
                               gint64 flat, gint64 slope);

/**
 * hs_solve_outlook_root:
 * @ret_visits: (out): how often the trip serves each call that costs least in the table
 *
 * Returns: what a trip costs at least over the prizes of its calls; %HS_SOLVE_NO_UNITS if there is none
 */
gint64 hs_solve_outlook_root (const HsOutlook *outlook, guint *ret_visits);

G_END_DECLS
