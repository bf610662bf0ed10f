// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-build.h"

G_BEGIN_DECLS

/* What is behind a van on a day that has begun. Where it is taken from: a visit's stamps. Under way, the drive takes as
 * long as tabled but is not over before now, and counters before the call are still to come; on site, the work takes as
 * long as guessed but is not over before now; between two stops she leaves now. A counter before a call that was
 * reached is done, unless it was shut all the while. Calls that were passed over are still ahead. */

/**
 * HsPastStop:
 * @timed: with the times that are known, the others reckoned back from what came next
 * @spans: (element-type HsDaySpan): what was promised, or the counter's hours
 */
typedef struct
{
  HsDayStopRef ref;
  guint place;
  HsPlanStop timed;
  GArray *spans;
} HsPastStop;

/**
 * HsDayPast:
 * @stops: (element-type HsPastStop)
 * @under_way: the van drives; the first call ahead is where it goes to
 * @place, @time_seconds: from where and when the van can go on
 * @leave_seconds: when the van left
 * @drive_seconds, @drive_millimiles: between the stops of the past
 * @rested: no break is owed any more
 * @break_after: index in @stops, or %HS_PLAN_NO_BREAK for a break that is not behind
 */
typedef struct
{
  GArray *stops;
  gboolean under_way;
  guint place;
  gint32 time_seconds;
  gint32 leave_seconds;
  gint32 drive_seconds;
  gint64 drive_millimiles;
  gboolean rested;
  int break_after;
  gint32 break_start_seconds;
  gint32 break_end_seconds;
} HsDayPast;

void hs_day_past_free (HsDayPast *past);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayPast, hs_day_past_free)

/**
 * hs_day_past_cut:
 * @build: the whole day; afterwards only what is still ahead, in the order in which it comes
 * @plan: the accepted order, driven
 * @ret_past: (out) (transfer full): what is behind; %NULL where the van is not late and nothing has begun
 *
 * Parts that a reached call lacks because its counter was shut stand in build->nowhere.
 */
gboolean hs_day_past_cut (HsDayBuild *build, const HsPlan *plan, HsStore *store, HsInstant now, HsDayPast **ret_past,
                          GError **error);

G_END_DECLS
