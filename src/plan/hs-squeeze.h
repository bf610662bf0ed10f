// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"

G_BEGIN_DECLS

/* One more call on a day that is already planned: where it fits, what it adds, and whom it would make late. Leave time
 * and order stay as accepted, but a van with nothing else to do leaves when it is best. */

/**
 * HsSqueezeBreak:
 * @stop: index of the stop that breaks, the new call having the index just after the day's last stop;
 *   %HS_DAY_NO_STOP for getting home in time; %HS_DAY_BREAK for the break
 * @id: (transfer none): its id, owned by the offer; "home" for getting home, "break" for the break
 * @late_seconds: how late it becomes; 0 where lateness is not the trouble (parts fetched after the call)
 * @why: plain words for the owner
 */
typedef struct
{
  int stop;
  char *id;
  gint32 late_seconds;
  char *why;
} HsSqueezeBreak;

/**
 * HsSqueezeOffer:
 * @after: index of the stop it comes after, %HS_DAY_NO_STOP for first
 * @position: position in the new order, 0 for first
 * @after_id: (nullable): id of that stop, NULL for first
 * @break_after: where the break is then, as in #HsPlan, counted over the new order
 * @arrive_seconds: when the van gets to the new call
 * @start_seconds: when its work starts
 * @home_seconds: when the day then ends
 * @adds_seconds: away longer by this much
 * @adds_millimiles: miles added, in thousandths; may be below zero on asymmetric tables
 * @adds_cents: cost added, rounded once, half up
 * @adds_units: the same, exact, in 1/3000 of a cent
 * @spare_seconds: least slack over all calls then
 * @free_from_seconds, @free_to_seconds: when work may start there, whatever window was asked for, without breaking
 *   anything; the second is the latest whole minute after the first; −1 and −1 if there is no such time
 * @breaks: (element-type HsSqueezeBreak): what becomes late that was in time before, or later than it was; empty if no
 *   promise breaks
 */
typedef struct
{
  int after;
  guint position;
  char *after_id;
  int break_after;
  gint32 arrive_seconds;
  gint32 start_seconds;
  gint32 home_seconds;
  gint32 adds_seconds;
  gint64 adds_millimiles;
  gint64 adds_cents;
  gint64 adds_units;
  gint32 spare_seconds;
  gint32 free_from_seconds;
  gint32 free_to_seconds;
  GPtrArray *breaks;
} HsSqueezeOffer;

/**
 * HsSqueezeClock:
 * @drive: as hs_plan_drive_order (), each drive at its hour; the order is good. It may change the drives of @day.
 *   (transfer full)
 * @solve: as hs_plan_solve (), likewise. (transfer full)
 * @same_hours: whether two plans of one order begin each drive at the same time of day
 *
 * For days whose drives hang on the hour at which they are begun.
 */
typedef struct
{
  HsPlan *(*drive) (HsDay *day, const guint *order, guint n_order, gint32 leave_seconds, gpointer user_data);
  HsPlan *(*solve) (HsDay *day, gpointer user_data);
  gboolean (*same_hours) (HsDay *day, const HsPlan *a, const HsPlan *b, gpointer user_data);
  gpointer user_data;
} HsSqueezeClock;

/**
 * hs_squeeze_offers:
 * @day: the day as planned, without the new call
 * @plan: the accepted plan of @day
 * @call: the new call; its place is one of the day's, its @after may name stops of the day
 * @clock: (nullable): the hours of the drives, where they matter
 * @ret_offers: (out) (transfer full) (element-type HsSqueezeOffer): one offer for each position, those that break
 *   nothing first, then cheapest, then earliest position
 *
 * Fails with %HS_PLAN_ERROR_BAD_DAY when the day, the plan's order or the call is bad ("call.spans[0]: …").
 */
gboolean hs_squeeze_offers (const HsDay *day, const HsPlan *plan, const HsDayStop *call, const HsSqueezeClock *clock,
                            GPtrArray **ret_offers, GError **error);

G_END_DECLS
