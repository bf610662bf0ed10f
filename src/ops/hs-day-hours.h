// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-build.h"
#include "hs-plan.h"

G_BEGIN_DECLS

/* A drive takes as long as it takes at the hour at which it is begun, and that hour hangs on the order. So a day is
 * planned, its drives are set to the hours at which the plan begins them, and it is planned again, until the order
 * stays; some rounds at most. Every order that came up is timed at its own hours, and the best of them is the plan:
 * also where two orders take turns, each of which would be the better one at the hours of the other.
 *
 * A place that is left twice, at different times of day, has the longer drives both times; so has one whose time of day
 * flips with the drives themselves. No drive is ever planned shorter than the book says for its hour. An hour
 * counts for a drive by the own trips that were begun in it, from the second on, see hs_travel_fill (); without such
 * nothing changes. */

/**
 * hs_day_hours_settle:
 * @build: its day is left with the drives of the plan
 * @plan: (inout) (transfer full): the day as planned to begin with; then as it is at its hours
 *
 * Where the hours matter a plan is called the best only if it is as good as the best would be with each drive at its
 * fastest hour; else orders were weighed at each other's hours, and it is %HS_PLAN_BEST_FOUND.
 */
gboolean hs_day_hours_settle (HsDayBuild *build, HsPlan **plan, GError **error);

/**
 * hs_day_hours_drive:
 * @build: its day is left with the drives of the plan
 *
 * As hs_plan_drive_order (), each drive at its hour.
 */
gboolean hs_day_hours_drive (HsDayBuild *build, const guint *order, guint n_order, gint32 leave_seconds,
                             HsPlan **ret_plan, GError **error);

/**
 * hs_day_hours_time:
 * @build: of which the hours matter; its day may be left with other drives
 * @like_seconds: about when to leave
 *
 * @order at its best, each drive at its hour: as hs_day_hours_drive (), left for when it is best.
 */
gboolean hs_day_hours_time (HsDayBuild *build, const guint *order, guint n_order, gint32 like_seconds,
                            HsPlan **ret_plan, GError **error);

/* hs_day_hours_add: adds to @left, as of hs_day_drives_set (), when @plan leaves each place. */
void hs_day_hours_add (const HsDayBuild *build, const HsPlan *plan, guint8 *left);

/**
 * hs_day_hours_may_leave:
 * @day: a day on the places of @build
 * @kept: only plans that keep each promise of it count
 * @left: (array): a place each: the times of day at which @day may leave it come to it, as bits of hs_travel_band ()
 */
void hs_day_hours_may_leave (const HsDayBuild *build, const HsDay *day, gboolean kept, guint8 *left);

/* hs_day_hours_leg: the drive between two places that is begun then. */
HsTravelLeg hs_day_hours_leg (const HsDayBuild *build, guint from, guint to, gint32 leave_seconds);

G_END_DECLS
