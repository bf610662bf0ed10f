// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"

G_BEGIN_DECLS

/* One more call on a day that is already planned: where it fits, what it adds, and whom it would make late. Leave time
 * and order stay as accepted, but a van with nothing else to do leaves when it is best; hs_squeeze_replan () times the
 * whole day anew instead. */

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
 * hs_squeeze_offers:
 * @day: the day as planned, without the new call
 * @plan: the accepted plan of @day
 * @call: the new call; its place is one of the day's, its @after may name stops of the day
 * @ret_offers: (out) (transfer full) (element-type HsSqueezeOffer): one offer for each position, those that break
 *   nothing first, then cheapest, then earliest position
 *
 * Fails with %HS_PLAN_ERROR_BAD_DAY when the day, the plan's order or the call is bad ("call.spans[0]: …").
 */
gboolean hs_squeeze_offers (const HsDay *day, const HsPlan *plan, const HsDayStop *call, GPtrArray **ret_offers,
                            GError **error);

/**
 * hs_squeeze_replan:
 * @ret_plan: (out) (transfer full): the enlarged day planned anew, leave time and order free; the new call has the
 *   index just after the day's last stop
 *
 * Fails as hs_plan_solve () does.
 */
gboolean hs_squeeze_replan (const HsDay *day, const HsDayStop *call, HsPlanGiveUp give_up, gpointer user_data,
                            HsPlan **ret_plan, GError **error);

G_END_DECLS
