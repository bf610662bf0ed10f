// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-drive.h"

G_BEGIN_DECLS

/* One van's trips, each call worth a prize of its own (private to this layer): which trip costs least over the prizes
 * of the calls that it serves? A trip may come back to a call that it has forgotten: each stop remembers only calls
 * near it. So the answer is not above the true one, and the fewer are remembered the sooner it is had. */

typedef struct _HsTrips HsTrips;

/**
 * HsTripsCare:
 * @HS_TRIPS_HASTY: of the ways to a stop only those that are free early and cheap are looked at
 * @HS_TRIPS_ROUGH: those also that left late; not those that only have other calls behind them
 * @HS_TRIPS_WHOLE: all that can lead to the least
 */
typedef enum
{
  HS_TRIPS_HASTY,
  HS_TRIPS_ROUGH,
  HS_TRIPS_WHOLE,
} HsTripsCare;

/**
 * HsTrip:
 * @units: what it costs, as in #HsClose, without prizes
 * @over: @units less the prizes
 * @calls: in order; one can stand twice
 */
typedef struct
{
  guint van;
  gint64 units;
  gint64 over;
  guint n_calls;
  guint8 calls[HS_PROBLEM_MAX_CALLS];
} HsTrip;

/* For the windows of @frame as they are trimmed now, all kept; each stop remembers its @n_near nearest calls. All
 * searches together compare about @max_work ways with others; some 800 million take a second. */
HsTrips *hs_solve_trips_new (const HsSolveFrame *frame, guint n_near, guint64 max_work);
void hs_solve_trips_free (HsTrips *trips);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTrips, hs_solve_trips_free)

/* Makes the stops between a call that @trip serves twice remember it. FALSE if it serves none twice. */
gboolean hs_solve_trips_remind (HsTrips *trips, const HsTrip *trip);

/**
 * hs_solve_trips_run:
 * @prizes: one a call, in the frame's units; below zero is allowed
 * @ret_least: (out): no trip of @van costs less over its prizes, if searched whole; 0 at most, for a van can stay
 * @ret_trips: (element-type HsTrip): trips of @van that cost less than @below over their prizes, at most two for each
 *   last call, are added
 *
 * Returns: whether the search came through; @ret_least is not set otherwise
 */
gboolean hs_solve_trips_run (HsTrips *trips, HsExact *exact, guint van, const gint64 *prizes, gint64 below,
                             HsTripsCare care, gint64 *ret_least, GArray *ret_trips);

G_END_DECLS
