// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* One day to be planned, as plain data: where the places are from each other, which calls are promised when, which
 * counters must be stopped at, and what an hour and a mile cost. Fill one in, then hand it to hs_plan_solve () or
 * hs_squeeze_offers (). Every time is in seconds that really pass since the day's local midnight, so that a day on
 * which the clocks change is the caller's business and not ours. */

#define HS_DAY_MAX_STOPS 64

/* Ten days: as long as a day can be. */
#define HS_DAY_NO_HOME_BY (10 * 24 * 3600)
#define HS_DAY_MAX_PLACES 256
#define HS_DAY_MAX_SPANS 24
#define HS_DAY_NO_STOP (-1)

/* Cost is counted in 1/3000 of a cent, in which a second at a whole number of cents a minute and a thousandth of a mile
 * at a whole number of cents a mile are both whole. */
#define HS_COST_UNITS 3000

/* Stands for the break where a stop is asked for. */
#define HS_DAY_BREAK (-2)

/**
 * HsDaySpan:
 * @from_seconds: first second that counts, since local midnight
 * @to_seconds: last second that counts; not before @from_seconds
 */
typedef struct
{
  gint32 from_seconds;
  gint32 to_seconds;
} HsDaySpan;

/**
 * HsDayStopKind:
 * @HS_DAY_STOP_CALL: a promised call; its work must start inside one of its spans, arriving early waits
 * @HS_DAY_STOP_COUNTER: a parts counter; the stop must start and end inside one open span
 */
typedef enum
{
  HS_DAY_STOP_CALL,
  HS_DAY_STOP_COUNTER,
} HsDayStopKind;

/**
 * HsDayStop:
 * @id: what the owner knows it by: a job number, a supplier's name; unique in the day
 * @kind: call or counter
 * @place: index of the place it is at
 * @service_seconds: time spent there
 * @shut: the counter does not open on this day (then @spans is empty); never set for a call
 * @spans: (element-type HsDaySpan): promised windows or opening hours, in any order; those that overlap or touch are
 *   read as one. Empty: any time, unless @shut
 * @after: bit set of the stops (by index) that must come earlier: the counters that have this call's parts
 * @number: place number from 1 that the owner locked it to, counted over the stops that can be stopped at; 0: free
 * @shut_on: (nullable): the day as the reason names it, "2026-03-10: Founders' Day"; only sentences use it
 */
typedef struct
{
  char *id;
  HsDayStopKind kind;
  guint place;
  gint32 service_seconds;
  gboolean shut;
  GArray *spans;
  guint64 after;
  guint number;
  char *shut_on;
} HsDayStop;

/**
 * HsDay:
 * @n_places: number of places, the side of both tables
 * @drive_seconds: (element-type gint32): n_places × n_places, row = from, column = to; asymmetric allowed; the
 *   diagonal is the hop between two stops at the same place
 * @drive_millimiles: (element-type gint64): the same shape, in thousandths of a mile
 * @start_place: where the van stands in the morning
 * @end_place: where it goes at the end
 * @leave_from_seconds: earliest leave
 * @leave_to_seconds: latest leave
 * @home_by_seconds: latest arrival at @end_place; %HS_DAY_NO_HOME_BY: whenever
 * @minute_cents: what a minute away costs
 * @mile_cents: what a mile costs
 * @spare_seconds: spare time asked: every call should start at least this long before its window ends
 * @break_seconds: how long the break is; 0: none
 * @break_span: the break lies wholly inside it
 * @under_way: the day has begun, so that no break can have been had before @leave_from_seconds
 * @change_seconds: where clocks are changed in the night or the day: from when on; only sentences use it
 * @change_by_seconds: how much more the clocks show from then on; 0 on all other days
 * @stops: (element-type HsDayStop): up to %HS_DAY_MAX_STOPS
 *
 * A break is owed only where it could be had neither before leaving nor after coming home. It is taken where the van
 * stands, at the stop just done. Where that cannot be, it is had at home, late, and counts as a stop that is late.
 *
 * Free with hs_day_free (). Fields may be set at will; hs_day_check () says whether they make a day.
 */
typedef struct
{
  guint n_places;
  GArray *drive_seconds;
  GArray *drive_millimiles;
  guint start_place;
  guint end_place;
  gint32 leave_from_seconds;
  gint32 leave_to_seconds;
  gint32 home_by_seconds;
  gint64 minute_cents;
  gint64 mile_cents;
  gint32 spare_seconds;
  gint32 break_seconds;
  HsDaySpan break_span;
  gboolean under_way;
  gint32 change_seconds;
  gint32 change_by_seconds;
  GPtrArray *stops;
} HsDay;

/** hs_cost_units: of time away and miles. */
static inline gint64
hs_cost_units (gint64 seconds, gint64 minute_cents, gint64 millimiles, gint64 mile_cents)
{
  return seconds * minute_cents * (HS_COST_UNITS / 60) + millimiles * mile_cents * (HS_COST_UNITS / 1000);
}

/** hs_cost_cents: rounded once, half up, also below zero (−0.5 is 0). */
static inline gint64
hs_cost_cents (gint64 units)
{
  gint64 sum = units + HS_COST_UNITS / 2;

  return sum >= 0 ? sum / HS_COST_UNITS : -((-sum + HS_COST_UNITS - 1) / HS_COST_UNITS);
}

/**
 * hs_day_new:
 * @n_places: number of places
 *
 * A day with no stops, all legs zero, leaving at any second from 0 to 86400 and home by 86400, all rates zero.
 *
 * Returns: (transfer full): the day
 */
HsDay *hs_day_new (guint n_places);

/**
 * hs_day_copy:
 *
 * Returns: (transfer full): a copy that shares nothing with @day
 */
HsDay *hs_day_copy (const HsDay *day);

/**
 * hs_day_free:
 * @day: (nullable) (transfer full): a day
 */
void hs_day_free (HsDay *day);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDay, hs_day_free)

/**
 * hs_day_set_leg:
 *
 * Sets the drive from one place to another, that way only. Both must be below n_places.
 */
void hs_day_set_leg (HsDay *day, guint from, guint to, gint32 seconds, gint64 millimiles);

static inline gint32
hs_day_leg_seconds (const HsDay *day, guint from, guint to)
{
  return g_array_index (day->drive_seconds, gint32, from * day->n_places + to);
}

static inline gint64
hs_day_leg_millimiles (const HsDay *day, guint from, guint to)
{
  return g_array_index (day->drive_millimiles, gint64, from * day->n_places + to);
}

/**
 * hs_day_add_stop:
 *
 * Returns: the index of the new stop, which has no spans (any time) and nothing before it
 */
guint hs_day_add_stop (HsDay *day, const char *id, HsDayStopKind kind, guint place, gint32 service_seconds);

/**
 * hs_day_add_span:
 *
 * Adds a promised window or opening hours, in seconds since local midnight, to stop @stop.
 */
void hs_day_add_span (HsDay *day, guint stop, gint32 from_seconds, gint32 to_seconds);

/**
 * hs_day_shut_stop:
 * @day_words: (nullable): the day as the reason names it; %NULL: "this day"
 *
 * Says that counter @stop does not open on this day.
 */
void hs_day_shut_stop (HsDay *day, guint stop, const char *day_words);

/**
 * hs_day_add_after:
 *
 * Says that @earlier must be stopped at before @stop.
 */
void hs_day_add_after (HsDay *day, guint stop, guint earlier);

/**
 * hs_day_lock_stop:
 * @number: from 1, or 0 to free it
 *
 * Says that @stop has to be the @number-th stop of the order. Where that cannot be joined with what must come earlier,
 * the day is planned without any lock and says so.
 */
void hs_day_lock_stop (HsDay *day, guint stop, guint number);

/**
 * hs_day_get_stop:
 *
 * Returns: (transfer none): the stop at @index
 */
const HsDayStop *hs_day_get_stop (const HsDay *day, guint index);

/**
 * hs_day_find_stop:
 *
 * Returns: the index of the stop called @id, or %HS_DAY_NO_STOP
 */
int hs_day_find_stop (const HsDay *day, const char *id);

/**
 * hs_day_check:
 * @error: names the field and what is wrong with it, e.g. "stops[2].spans[0]: ends before it starts"
 *
 * Whether the numbers make a day: table sizes, signs, indexes, spans the right way round, ids present and unique.
 * Times and drives reach up to ten days, rates to 10,000,000 cents, distances to 1,000,000 miles, so that no sum can
 * overflow. A day that nobody can drive is still a day. Fails with %HS_PLAN_ERROR_BAD_DAY.
 */
gboolean hs_day_check (const HsDay *day, GError **error);

G_END_DECLS
