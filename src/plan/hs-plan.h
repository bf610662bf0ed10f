// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day.h"

G_BEGIN_DECLS

/* The planned day: in which order, when to leave, when to be where, and what it costs. Exact up to twelve stops by
 * dynamic programming over sets of stops; above that the same search keeps to a budget and says so.
 *
 * What counts, in this order: most stops in time; least lateness; home in time; the asked spare, or else as much of it
 * as can be had; cheapest (compared before rounding); home earliest; leave latest; ids of the stops in order. */

/* The slack of a stop that has no window end, and the spare of a day without any. */
#define HS_PLAN_NO_LIMIT G_MAXINT32

/* Where the break is not after a stop. */
#define HS_PLAN_BREAK_FIRST (-1)
#define HS_PLAN_NO_BREAK (-2)

/* Up to this many stops the answer is always exact, unless the search was told to give up. */
#define HS_PLAN_EXACT_STOPS 12

/**
 * HsPlanStatus:
 * @HS_PLAN_OPTIMAL: everything in time, and proven that nothing better exists
 * @HS_PLAN_BEST_FOUND: the search was cut short; in one van's order everything is in time, with several vans it is not
 *   proven that what breaks has to
 * @HS_PLAN_IMPOSSIBLE: something cannot be kept; the best order is given all the same
 */
typedef enum
{
  HS_PLAN_OPTIMAL,
  HS_PLAN_BEST_FOUND,
  HS_PLAN_IMPOSSIBLE,
} HsPlanStatus;

/**
 * HsPlanStop:
 * @stop: index of the stop in the day
 * @arrive_seconds: when the van gets there
 * @start_seconds: when work or the counter starts
 * @depart_seconds: when it is done
 * @wait_seconds: start − arrive
 * @drive_seconds: of the leg that leads here
 * @drive_millimiles: of the leg that leads here
 * @slack_seconds: calls: end of the window it starts in (or, when late, of its last one) − start; below zero when
 *   late; %HS_PLAN_NO_LIMIT for counters and calls at any time
 * @window: the span it starts in, or, when late, its last one; 0, 0 without spans
 * @late_seconds: how long after the last second at which it could still start; 0 in time
 */
typedef struct
{
  guint stop;
  gint32 arrive_seconds;
  gint32 start_seconds;
  gint32 depart_seconds;
  gint32 wait_seconds;
  gint32 drive_seconds;
  gint64 drive_millimiles;
  gint32 slack_seconds;
  HsDaySpan window;
  gint32 late_seconds;
} HsPlanStop;

/**
 * HsPlanBroken:
 * @stop: index of the stop in the day, %HS_DAY_NO_STOP for getting home in time, or %HS_DAY_BREAK
 * @late_seconds: how late in this plan; 0 where lateness is not the trouble (a counter that is shut)
 * @why: plain words for the owner
 */
typedef struct
{
  int stop;
  gint32 late_seconds;
  char *why;
} HsPlanBroken;

/**
 * HsPlan:
 * @stops: (element-type HsPlanStop): the stops in order; without those that cannot be stopped at at all (shut
 *   counters), which stand in @broken
 * @leave_seconds: when to leave
 * @home_seconds: when to be back; with nothing to stop at the van does not move and this is @leave_seconds, unless the
 *   day is under way
 * @spare_seconds: least slack over all calls; %HS_PLAN_NO_LIMIT if none has a window end
 * @break_after: position in @stops of the stop after which the break is taken; %HS_PLAN_BREAK_FIRST: before the first
 *   (on a day under way); %HS_PLAN_NO_BREAK: none on the road
 * @break_start_seconds, @break_end_seconds: of a break on the road
 * @break_late_seconds: how long after its last second the break could start, at home; 0 in time or not owed
 * @cost_cents: minutes away and miles at their rates, rounded once, half up
 * @cost_units: the same, exact, in 1/3000 of a cent
 * @proven: whether the search was finished, so that nothing better exists (also for an impossible day)
 * @states: how many states (set of stops done, where the van is, what it has cost so far) the search kept
 * @broken: (element-type HsPlanBroken): what cannot be kept; empty unless %HS_PLAN_IMPOSSIBLE
 *
 * Free with hs_plan_free ().
 */
typedef struct
{
  HsPlanStatus status;
  GArray *stops;
  gint32 leave_seconds;
  gint32 home_seconds;
  gint32 drive_seconds;
  gint64 drive_millimiles;
  gint32 wait_seconds;
  gint32 spare_seconds;
  int break_after;
  gint32 break_start_seconds;
  gint32 break_end_seconds;
  gint32 break_late_seconds;
  gint64 cost_cents;
  gint64 cost_units;
  gboolean proven;
  guint64 states;
  GPtrArray *broken;
} HsPlan;

/**
 * HsPlanGiveUp:
 *
 * Asked now and then during a search; returning %TRUE ends it with the best found so far.
 */
typedef gboolean (*HsPlanGiveUp) (gpointer user_data);

/**
 * hs_plan_solve:
 * @day: the day
 * @give_up: (nullable): asked now and then whether to stop
 * @ret_plan: (out) (transfer full): the plan
 *
 * Plans the day. Rules: legs are driven as tabled; a stop starts as soon as it may (with spare asked, not in the last
 * seconds of a window that would leave less: it then waits for the next); leaving is free within the leave times.
 * Fails with %HS_PLAN_ERROR_BAD_DAY only when hs_day_check () does; a day that cannot be kept is an answer.
 */
gboolean hs_plan_solve (const HsDay *day, HsPlanGiveUp give_up, gpointer user_data, HsPlan **ret_plan, GError **error);

/**
 * hs_plan_drive_order:
 * @order: stop indexes, each at most once
 * @leave_seconds: when to leave
 *
 * Drives a given order at a given leave time: each stop starts as soon as it may, late ones at once; a break that is
 * owed is put where it makes least late and the day end earliest. Whether parts come first is not looked at; a counter
 * that is shut all day is driven to at any time, and stands in @broken. The plan's status is %HS_PLAN_BEST_FOUND, or
 * %HS_PLAN_IMPOSSIBLE with @broken filled but no reasons searched ("8 min late").
 *
 * Fails with %HS_PLAN_ERROR_BAD_DAY when the day or an index is bad.
 */
gboolean hs_plan_drive_order (const HsDay *day, const guint *order, guint n_order, gint32 leave_seconds,
                              HsPlan **ret_plan, GError **error);

/**
 * hs_plan_get_stop:
 *
 * Returns: (transfer none): the stop at position @position of the order
 */
const HsPlanStop *hs_plan_get_stop (const HsPlan *plan, guint position);

/**
 * hs_plan_get_broken:
 *
 * Returns: (transfer none): the broken promise at @index
 */
const HsPlanBroken *hs_plan_get_broken (const HsPlan *plan, guint index);

/**
 * hs_plan_free:
 * @plan: (nullable) (transfer full): a plan
 */
void hs_plan_free (HsPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPlan, hs_plan_free)

G_END_DECLS
