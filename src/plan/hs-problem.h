// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day.h"

G_BEGIN_DECLS

/* A day of one or several vans, as plain data: what is promised when, which counter sells which part at which price,
 * what each van has on board. Fill one in, then hand it to hs_solve (). Times are seconds that really pass since the
 * local midnight. */

#define HS_PROBLEM_MAX_CALLS 200
#define HS_PROBLEM_MAX_COUNTERS 16
#define HS_PROBLEM_MAX_VANS 8
#define HS_PROBLEM_MAX_PARTS 1000

/* Of the parts that a van carries or a call needs, and of the skills that either has. */
#define HS_PROBLEM_MAX_UNITS 64
#define HS_PROBLEM_ANY_VAN (-1)
#define HS_PROBLEM_NOT_SOLD (-1)

/**
 * HsVan:
 * @id: unique among the vans
 * @start: place where it stands in the morning
 * @end: place where it goes at the end
 * @leave_from_seconds: earliest leave
 * @leave_to_seconds: latest leave
 * @home_by_seconds: must be at @end by then
 * @carries: (element-type guint): a part for each unit on board
 * @skills: (element-type utf8): what its crew can do
 * @break_seconds: how long the break is; 0: none
 * @break_span: the break lies wholly inside it
 *
 * A break is owed only where it could be had neither before leaving nor after coming home. It is taken where the van
 * stands, at the stop just done.
 */
typedef struct
{
  char *id;
  guint start;
  guint end;
  gint32 leave_from_seconds;
  gint32 leave_to_seconds;
  gint32 home_by_seconds;
  GArray *carries;
  GPtrArray *skills;
  gint32 break_seconds;
  HsDaySpan break_span;
} HsVan;

/**
 * HsCall:
 * @id: unique among calls and counters
 * @place: where it is
 * @service_seconds: how long the work takes
 * @windows: (element-type HsDaySpan): work must start inside one of them, arriving early waits; empty: the whole day
 * @needs: (element-type guint): a part for each unit that the work uses up
 * @van: index of the only van that may serve it, or %HS_PROBLEM_ANY_VAN
 * @skills: (element-type utf8): what the crew has to be able to do
 */
typedef struct
{
  char *id;
  guint place;
  gint32 service_seconds;
  GArray *windows;
  GArray *needs;
  int van;
  GPtrArray *skills;
} HsCall;

/**
 * HsCounter:
 * @id: unique among calls and counters
 * @place: where it is
 * @service_seconds: how long a stop takes
 * @hours: (element-type HsDaySpan): a stop starts and ends inside one of them; empty: always shut
 * @cents: (element-type gint64): price of each part of the problem, or %HS_PROBLEM_NOT_SOLD
 */
typedef struct
{
  char *id;
  guint place;
  gint32 service_seconds;
  GArray *hours;
  GArray *cents;
} HsCounter;

/**
 * HsProblem:
 * @n_places: side of both tables
 * @drive_seconds: (element-type gint32): n_places × n_places, row = from; asymmetric allowed; the diagonal is the hop
 *   between two stops at one place
 * @drive_millimiles: (element-type gint64): the same shape, thousandths of a mile
 * @minute_cents: what a minute away costs
 * @mile_cents: what a mile costs
 * @spare_seconds: every call should start at least this long before its window ends
 * @parts: (element-type utf8): names of the parts
 * @vans: (element-type HsVan)
 * @calls: (element-type HsCall)
 * @counters: (element-type HsCounter)
 *
 * Free with hs_problem_free ().
 */
typedef struct
{
  guint n_places;
  GArray *drive_seconds;
  GArray *drive_millimiles;
  gint64 minute_cents;
  gint64 mile_cents;
  gint32 spare_seconds;
  GPtrArray *parts;
  GPtrArray *vans;
  GPtrArray *calls;
  GPtrArray *counters;
} HsProblem;

/**
 * hs_problem_new:
 *
 * A problem without vans, calls, counters and parts; all legs and rates are zero.
 *
 * Returns: (transfer full): the problem
 */
HsProblem *hs_problem_new (guint n_places);

/**
 * hs_problem_free:
 * @problem: (nullable) (transfer full): a problem
 */
void hs_problem_free (HsProblem *problem);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsProblem, hs_problem_free)

/** hs_problem_part: the index of the part called @name, which is added where it is not known yet. */
guint hs_problem_part (HsProblem *problem, const char *name);

/* Each adds one at the end, with nothing in its lists, and returns it: (transfer none). A van may leave and be home at
 * any second of the day. Add counters after all parts are known, or set prices with hs_counter_sell (). */
HsVan *hs_problem_add_van (HsProblem *problem, const char *id);
HsCall *hs_problem_add_call (HsProblem *problem, const char *id, guint place, gint32 service_seconds);
HsCounter *hs_problem_add_counter (HsProblem *problem, const char *id, guint place, gint32 service_seconds);

/** hs_counter_sell: says that @counter sells @part. */
void hs_counter_sell (HsCounter *counter, guint part, gint64 cents);

/** hs_counter_cents: what @part costs there, or %HS_PROBLEM_NOT_SOLD. */
gint64 hs_counter_cents (const HsCounter *counter, guint part);

const HsVan *hs_problem_get_van (const HsProblem *problem, guint index);
const HsCall *hs_problem_get_call (const HsProblem *problem, guint index);
const HsCounter *hs_problem_get_counter (const HsProblem *problem, guint index);

/** hs_problem_set_leg: the drive from one place to another, that way only; both below n_places. */
void hs_problem_set_leg (HsProblem *problem, guint from, guint to, gint32 seconds, gint64 millimiles);

/** hs_problem_may_serve: whether @van has the skills for @call and is not kept from it. */
gboolean hs_problem_may_serve (const HsProblem *problem, guint van, guint call);

/**
 * hs_problem_check:
 * @error: names the field and what is wrong with it, e.g. "calls[2].windows[0]: ends before it starts"
 *
 * Whether the numbers make a problem: sizes, signs, indexes, spans the right way round, ids present and unique. Fails
 * with %HS_PLAN_ERROR_BAD_DAY. A day that nobody can drive is still a problem.
 */
gboolean hs_problem_check (const HsProblem *problem, GError **error);

G_END_DECLS
