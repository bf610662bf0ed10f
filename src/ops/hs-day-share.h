// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-plan.h"

G_BEGIN_DECLS

/* Who takes which call of a day. A case holds everything that is known of the day; solving it asks no book and may be
 * done in any thread; what comes out can be accepted as long as the day is still what it was.
 *
 * Free are the promised calls of all vans that have not begun. What has begun or is done stays where it is, and its van
 * goes on from there; today nobody leaves before now. A call that is locked in an accepted order stays with its van and
 * keeps its place number as far as the rest allows. A call with a part already in its van stays there, too, for the
 * part would have to be handed over. Otherwise an accepted order is only what a proposal is compared with. Penciled
 * jobs are left alone. */

typedef struct _HsShareCase HsShareCase;

void hs_share_case_free (HsShareCase *of);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsShareCase, hs_share_case_free)

/**
 * hs_share_case_load:
 *
 * Reads the calls of all vans and the plans that stand for them.
 *
 * Refuses with %HS_OPS_ERROR_REFUSED a day that is over and a book that has only one van, or more than the planner can
 * plan for.
 */
HsShareCase *hs_share_case_load (HsBook *book, HsDate day, HsInstant now, GError **error);

typedef enum
{
  HS_SHARE_CALL,
  HS_SHARE_COUNTER,
  HS_SHARE_BREAK,
} HsShareKind;

/**
 * HsShareStop:
 * @id: the job's number or the supplier's name
 * @row_id: the job's or the supplier's id; %NULL for a break
 * @from_van: (nullable): letter of the van that has the call now, where that is another one
 * @locked: as in the order that stands
 * @window_from, @window_to, @spare_seconds: as in #HsPlannedStop
 */
typedef struct
{
  HsShareKind kind;
  char *id;
  char *row_id;
  char *area;
  char *words;
  char *from_van;
  HsInstant arrive;
  HsInstant start;
  HsInstant depart;
  HsInstant window_from;
  HsInstant window_to;
  gint64 spare_seconds;
  gboolean locked;
} HsShareStop;

/**
 * HsShareRoute: one van's day, or what is still ahead of it.
 * @leave, @home: %HS_INSTANT_NONE for a van that stays
 * @begun: the van is under way; its stops are those still to come
 * @stops: (element-type HsShareStop)
 */
typedef struct
{
  char *van_id;
  char *van;
  HsInstant leave;
  HsInstant home;
  gint64 drive_seconds;
  gint64 millimiles;
  gboolean begun;
  GPtrArray *stops;
} HsShareRoute;

/** HsShareMove: a call that changes vans; @from and @to are letters, %NULL for no van. */
typedef struct
{
  char *job_id;
  char *number;
  char *from_id;
  char *from;
  char *to_id;
  char *to;
} HsShareMove;

/** HsShareNote: what is to be known about the call @number, in words. */
typedef struct
{
  char *number;
  char *what;
} HsShareNote;

/**
 * HsShareSum: what all vans do together.
 * @seconds: away
 * @cents: with the parts that may be bought at several counters
 * @spare_seconds: least of all calls; %HS_PLAN_NO_LIMIT if none has a window end
 */
typedef struct
{
  gint64 seconds;
  gint64 millimiles;
  gint64 cents;
  gint64 spare_seconds;
} HsShareSum;

/**
 * HsSharePlan: a proposal.
 * @status: %HS_PLAN_IMPOSSIBLE: it is proven that not every promise can be kept, whoever goes
 * @proven: nothing better exists in any respect, with locked stops where they stand, also with each drive at its
 *   fastest hour
 * @bound_cents: no plan that keeps as much costs less; 0 while that is not known
 * @total: of the proposal
 * @standing: of the plans that stand
 * @routes: (element-type HsShareRoute): one a van, in the order of the vans
 * @moves: (element-type HsShareMove): in the order of the new routes
 * @parts: (element-type HsShareNote): what becomes of the parts of calls that change vans: asked for or laid aside, or
 *   no longer from the same place
 * @stays: (element-type HsShareNote): calls that were not free, and why
 * @broken: (element-type HsBrokenPromise): what is not kept
 * @mended: (element-type HsBrokenPromise): what the plans that stand break, or break more
 * @worse: (element-type HsBrokenPromise): what they keep, or break less
 * @left_out: (element-type HsBrokenPromise): calls and counters that cannot be planned at all
 */
typedef struct
{
  HsDate day;
  HsPlanStatus status;
  gboolean proven;
  gint64 bound_cents;
  guint64 states;
  HsShareSum total;
  HsShareSum standing;
  GPtrArray *routes;
  GPtrArray *moves;
  GPtrArray *parts;
  GPtrArray *stays;
  GPtrArray *broken;
  GPtrArray *mended;
  GPtrArray *worse;
  GPtrArray *left_out;
  /*< private >*/
  char *digest;
} HsSharePlan;

void hs_share_plan_free (HsSharePlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSharePlan, hs_share_plan_free)

/**
 * HsShareHow:
 * @give_up: (nullable): asked now and then whether to stop with the best so far
 * @found: (nullable): told of each better proposal, which belongs to the caller
 * @seed: of the random numbers
 */
typedef struct
{
  HsPlanGiveUp give_up;
  void (*found) (HsSharePlan *plan, gpointer user_data);
  gpointer user_data;
  guint32 seed;
} HsShareHow;

/**
 * hs_share_solve:
 *
 * Shares the calls so that most promises are kept and, of such plans, the cheapest is driven; see hs_solve (). A case
 * may be solved by several threads at once.
 *
 * Returns: (transfer full): the best proposal
 */
HsSharePlan *hs_share_solve (const HsShareCase *of, const HsShareHow *how, GError **error);

/* hs_share_plan_gap_cents: how much cheaper the best can be at most; -1: not known. */
gint64 hs_share_plan_gap_cents (const HsSharePlan *plan);

/**
 * hs_share_accept:
 *
 * Gives every call its van and lets each van's order stand, in one transaction. What stood before is kept in the book's
 * log of changes. Refused when anything of the day has changed since the proposal was made, when there is nothing in
 * it, and when a call would be served by nobody.
 */
gboolean hs_share_accept (HsBook *book, const HsSharePlan *plan, HsInstant now, GError **error);

/* hs_share_can_take_back: whether a proposal of @day was accepted, by whomever and whenever, and not taken back. */
gboolean hs_share_can_take_back (HsBook *book, HsDate day, gboolean *ret_can, GError **error);

/**
 * hs_share_take_back:
 *
 * Puts vans and orders of @day back to what they were before a proposal was accepted last; done again, what was
 * accepted before that. Refused when there is nothing to take back, when the day is over, and when one of the calls or
 * orders has changed since.
 *
 * Returns: (transfer full) (element-type HsShareMove): the calls that changed vans by it
 */
GPtrArray *hs_share_take_back (HsBook *book, HsDate day, HsInstant now, GError **error);

G_END_DECLS
