// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-plan.h"
#include "hs-stage.h"
#include "hs-travel.h"

G_BEGIN_DECLS

/**
 * HsPlannedStop:
 * @is_counter: a parts counter, else a call
 * @id: the job's number or the supplier's name
 * @row_id: the job's or the supplier's id in the book
 * @area: area's code
 * @arrive, @start, @depart: instants
 * @window_from, @window_to: the promise; %HS_INSTANT_NONE for a counter
 * @wait_seconds: between @arrive and @start
 * @spare_seconds: @window_to − @start, below zero when late; -1 for a counter and where nothing was promised
 * @note: where its parts come from, what is odd about it; for a counter what is picked up; may be %NULL
 * @drive_seconds, @drive_millimiles: of the leg that leads here
 * @guess: that leg is a guess
 * @leg: what is known of that drive, and where its minutes come from
 * @locked: the owner locked this stop in its place
 * @stage: of a call; %HS_STAGE_PROMISED for a counter
 * @also_short: (element-type HsAlsoShort): of a counter; each part at the cheapest counter of the day only
 * @break_from, @break_to: the break that is taken here when it is done; %HS_INSTANT_NONE elsewhere
 */
typedef struct
{
  gboolean is_counter;
  char *id;
  char *row_id;
  char *area;
  char *plate;
  char *vehicle;
  char *customer;
  char *words;
  char *note;
  HsInstant arrive;
  HsInstant start;
  HsInstant depart;
  HsInstant window_from;
  HsInstant window_to;
  gint64 wait_seconds;
  gint64 spare_seconds;
  gint64 drive_seconds;
  gint64 drive_millimiles;
  gboolean guess;
  HsTravelLeg leg;
  gboolean locked;
  HsStage stage;
  GPtrArray *also_short;
  HsInstant break_from;
  HsInstant break_to;
} HsPlannedStop;

/**
 * HsAlsoShort: what the van has less of than it should keep, at a counter of the day that lists it.
 * @quantity_milli: thousandths that are missing
 * @cents: what they cost there; -1 if not known
 * @left_milli, @keep_milli: thousandths that there are, and that there should be
 */
typedef struct
{
  char *part;
  char *number;
  gint64 quantity_milli;
  gint64 cents;
  gint64 left_milli;
  gint64 keep_milli;
} HsAlsoShort;

/** HsBrokenPromise: @late_seconds is -1 when the call cannot be planned at all; @why says so in words. */
typedef struct
{
  char *id;
  gint64 late_seconds;
  char *why;
} HsBrokenPromise;

/**
 * HsDayRing: a customer who is reached in the last ten minutes of a promise.
 * @id: the call's number
 * @who: may be %NULL
 * @phone: %NULL if none is known
 * @spare_seconds: from arriving to the end of the promise, from 0 on
 * @why: "arrives 1 min before the promise ends"
 */
typedef struct
{
  char *id;
  char *who;
  char *phone;
  gint64 spare_seconds;
  char *why;
} HsDayRing;

/**
 * HsCounterSpan: open hours of a counter of this day, for the time strip.
 */
typedef struct
{
  char *supplier;
  HsInstant opens;
  HsInstant shuts;
} HsCounterSpan;

/**
 * HsShutPart: a part for a call ahead whose counter is shut when the van is there, or does not open on the day at all.
 * @number: of the call
 * @opens: when the counter opens next; %HS_INSTANT_NONE if nobody knows
 */
typedef struct
{
  char *supplier_id;
  char *supplier;
  char *part;
  char *job_id;
  char *number;
  HsInstant opens;
} HsShutPart;

/**
 * HsDayPlan:
 * @van_id, @van: whose day it is; the van's letter
 * @next_van: (nullable): letter of the van to look at next; %NULL where there is only one
 * @status: %HS_PLAN_IMPOSSIBLE whenever something stands in @broken
 * @proven: nothing better exists, neither in order nor in counters; also of what can't be kept as a whole
 * @leave, @home: %HS_INSTANT_NONE on a day without stops
 * @spare_seconds: least spare time over all calls, -1 if none has a window end
 * @spare_at: the call that has it, %NULL if none
 * @asked_spare_seconds: the setting `spare_minutes`
 * @stops: (element-type HsPlannedStop)
 * @broken: (element-type HsBrokenPromise)
 * @spans: (element-type HsCounterSpan)
 * @break_from, @break_to: the break on the road, %HS_INSTANT_NONE where there is none
 * @shut: (element-type HsShutPart): in the order of the calls
 * @penciled: (element-type utf8): numbers of penciled jobs of the day, which the plan leaves out
 * @ring: (element-type HsDayRing): whom to ring once the day has begun, in the order of the stops ahead; the broken
 *   promises say so themselves
 * @home_drive_seconds: the last leg
 * @accepted: this order is the one that the owner accepted, not a fresh one
 * @home_by: when the owner wants to be home (the setting `home_by`); %HS_INSTANT_NONE if that was not said
 * @home_late_seconds: how long after it the plan is home, since promises go first; 0: in time
 */
typedef struct
{
  HsDate day;
  char *van_id;
  char *van;
  char *next_van;
  HsPlanStatus status;
  gboolean proven;
  HsInstant leave;
  HsInstant home;
  gint64 drive_seconds;
  gint64 millimiles;
  gint64 spare_seconds;
  char *spare_at;
  gint64 asked_spare_seconds;
  gint64 cost_cents;
  guint64 states;
  gint64 home_drive_seconds;
  HsInstant break_from;
  HsInstant break_to;
  gboolean accepted;
  HsInstant home_by;
  gint64 home_late_seconds;
  GPtrArray *stops;
  GPtrArray *broken;
  GPtrArray *ring;
  GPtrArray *spans;
  GPtrArray *shut;
  GPtrArray *penciled;
} HsDayPlan;

void hs_day_plan_free (HsDayPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayPlan, hs_day_plan_free)

/**
 * hs_day_plan_make:
 * @van: a van's letter, or %NULL for the first
 *
 * @now: on the day itself nobody leaves before it, and what an accepted order has behind it stays; %HS_INSTANT_NONE: as
 *   in the morning
 *
 * Plans a day anew: today's promised calls and the counters that the parts run needs. Stops that are locked in the plan
 * that stands keep their place number. Reads only.
 */
HsDayPlan *hs_day_plan_make (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error);

/** hs_day_plan_accept: keeps order and leave time as the plan that stands, with its locked stops. */
gboolean hs_day_plan_accept (HsBook *book, const HsDayPlan *plan, HsInstant now, GError **error);

/**
 * hs_day_plan_begin:
 * @job_id: a job that is about to begin
 *
 * Accepts the plan of the job's van as it is @now, where the job is of today and none stands: once the day has begun,
 * its order is kept. A day that can't be planned is left alone.
 */
gboolean hs_day_plan_begin (HsBook *book, const char *job_id, HsInstant now, GError **error);

/**
 * hs_day_plan_standing:
 * @now: as in hs_day_plan_make ()
 *
 * The accepted plan timed again on today's rows, with calls promised since in the cheapest place that makes nobody
 * late; a fresh one where none stands or a call fits nowhere. On the day itself it is the plan as the day really goes:
 * what is done stands with its real times, and the rest is driven from where the van is and when it can go on, see
 * hs_day_past_cut (). A promise that can't be kept any more stands in `broken` with whom to ring; the first of them
 * breaks first. Reads only.
 */
HsDayPlan *hs_day_plan_standing (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error);

/**
 * hs_day_plan_of_job:
 *
 * Returns: (transfer full) (nullable): what stands for today in the van that has the job, as hs_day_plan_standing ();
 *   the first van's if the job has none
 */
HsDayPlan *hs_day_plan_of_job (HsBook *book, const char *job_id, HsInstant now, GError **error);

/** hs_day_plan_find_stop: where a job stands in @stops; how many these are if nowhere. */
guint hs_day_plan_find_stop (const HsDayPlan *plan, const char *job_id);

/**
 * hs_day_plan_find_other:
 * @plan: of a day planned anew
 * @ret_other: (out) (transfer full) (nullable): the plan that was accepted, as in hs_day_plan_standing (), where it has
 *   another order or another time to leave; %NULL if none stands or it is the same
 */
gboolean hs_day_plan_find_other (HsBook *book, const HsDayPlan *plan, HsInstant now, HsDayPlan **ret_other,
                                 GError **error);

/**
 * hs_day_plan_next:
 *
 * Where the van is to be next: behind the last call that has begun; but while that one is driven to, at a counter right
 * before it, as long as its stop is not over @now.
 *
 * Returns: index in @stops; how many these are if none is left
 */
guint hs_day_plan_next (const HsDayPlan *plan, HsInstant now);

/** hs_day_plan_lock: locks or frees one stop of the standing plan; a locked stop keeps its place on re-planning. */
gboolean hs_day_plan_lock (HsBook *book, HsDate day, const char *van, const char *stop_id, gboolean locked,
                           HsInstant now, GError **error);

/**
 * HsOffer: where one more call fits.
 * @van: letter of the van, %NULL where the book has only one
 * @free_from, @free_to: when work may be promised to start there without breaking anything, in whole minutes, within
 *   the window that was asked for; %HS_INSTANT_NONE if there is no such time
 * @after: id of the stop before it, also of one that is behind the van; %NULL: first of the day
 * @replanned: the whole day was timed anew
 * @leave: when to leave on a day timed anew; else %HS_INSTANT_NONE: as the plan that stands
 * @breaks: (element-type HsBrokenPromise)
 */
typedef struct
{
  char *van;
  char *after;
  HsInstant leave;
  HsInstant start;
  HsInstant free_from;
  HsInstant free_to;
  gint64 adds_seconds;
  gint64 adds_millimiles;
  gint64 adds_cents;
  HsInstant home;
  gboolean replanned;
  GPtrArray *breaks;
} HsOffer;

void hs_offer_free (HsOffer *offer);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsOffer, hs_offer_free)

/**
 * hs_day_squeeze:
 * @area: code of the new call's area
 * @service_seconds: how long the work takes
 * @window_from, @window_to: minutes of the day
 * @van: a van's letter, or %NULL for each van of the book
 * @replan: also offer the day planned anew
 * @now: as in hs_day_plan_make (): nothing is offered before it, and what has begun stays as it is
 *
 * Returns: (transfer full) (element-type HsOffer): cheapest unbroken first, then what breaks a promise.
 */
GPtrArray *hs_day_squeeze (HsBook *book, HsDate day, const char *van, const char *area, gint64 service_seconds,
                           int window_from, int window_to, gboolean replan, HsInstant now, GError **error);

G_END_DECLS
