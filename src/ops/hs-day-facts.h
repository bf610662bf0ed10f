// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-day-short.h"
#include "hs-hours.h"
#include "hs-own-trip.h"
#include "hs-stage.h"
#include "hs-travel.h"
#include "hs-van-row.h"

G_BEGIN_DECLS

/* What the book knows about one day of one van, loaded once and then asked by the plan, by squeezing in and by the
 * parts run: the calls, the parts they need and where each comes from, the counters, the roads, the owner's rules. */

/* A call without minutes of its own is planned with this much work. */
#define HS_DAY_ASSUMED_SECONDS 3600

/**
 * HsDayCall:
 * @van_id: (nullable): of the job; %NULL is the first van
 * @has_position: whether the place of the job itself, else the customer it is at, has one
 * @spot: (nullable): code of that position among the areas of the facts
 * @window_from, @window_to: %HS_INSTANT_NONE where the promise leaves it open
 * @service_seconds: the work expected
 * @assumed: nobody said how long; %HS_DAY_ASSUMED_SECONDS stands in
 */
typedef struct
{
  char *job_id;
  char *number;
  char *area;
  char *plate;
  char *vehicle;
  char *customer;
  char *words;
  char *access_note;
  char *van_id;
  gboolean has_position;
  double latitude;
  double longitude;
  char *spot;
  HsStage stage;
  HsInstant window_from;
  HsInstant window_to;
  gint64 service_seconds;
  gboolean assumed;
  gboolean high_voltage;
} HsDayCall;

/**
 * HsDaySource: where a need's part comes from.
 * @HS_DAY_SOURCE_COUNTER: from the counter @supplier_id
 * @HS_DAY_SOURCE_VAN: the van has it, and nobody earlier takes it
 * @HS_DAY_SOURCE_NOWHERE: no counter lists it and the van has none
 */
typedef enum
{
  HS_DAY_SOURCE_COUNTER,
  HS_DAY_SOURCE_VAN,
  HS_DAY_SOURCE_NOWHERE,
} HsDaySource;

/** HsDayOffer: a counter that lists a part and opens on the day, with its latest price. */
typedef struct
{
  char *supplier_id;
  gint64 unit_cents;
} HsDayOffer;

/**
 * HsDayNeed:
 * @call: index of its call in the facts
 * @unit_cents: quoted, else the counter's latest price, else -1
 * @offers: (element-type HsDayOffer): the counters to choose from, where the owner named none; of them @supplier_id is
 *   the cheapest until a plan chooses
 */
typedef struct
{
  char *id;
  guint call;
  char *part_id;
  char *part;
  char *number;
  gint64 quantity_milli;
  int sure_percent;
  char *state;
  HsDaySource source;
  char *supplier_id;
  gint64 unit_cents;
  gint64 core_deposit_cents;
  GPtrArray *offers;
} HsDayNeed;

/**
 * HsDayCounter: a counter to stop at.
 * @wanted: a need sends the van there; else it stands in the plan that was kept, or is one of those to choose from
 * @spans: (element-type HsOpenSpan): of all weekdays; none at all and not @shut: its hours are not known, and any time
 *   will do
 * @apart: the book says something of this very day: the spans of its weekday are those of the day
 * @shut: what it says is that the counter does not open
 * @words: (nullable): and why, "Founders' Day"
 */
typedef struct
{
  char *supplier_id;
  char *name;
  char *area;
  gint64 stop_seconds;
  gboolean wanted;
  GArray *spans;
  gboolean apart;
  gboolean shut;
  char *words;
} HsDayCounter;

/**
 * HsDayRules: the owner's settings, times as minutes of the day.
 * @home_by: 1440 if the owner did not say
 * @break_minutes: length of the break; 0: none
 */
typedef struct
{
  char *base_area;
  int leave_from;
  int leave_to;
  int home_by;
  gint64 spare_seconds;
  gint64 minute_cents;
  gint64 mile_cents;
  gint64 break_minutes;
  int break_from;
  int break_to;
} HsDayRules;

/**
 * HsDayArea: an area, with a position if the book has one for it or for a customer in it; or the position of a call.
 * @within: (nullable): code of the area that the position of a call lies in
 */
typedef struct
{
  char *code;
  char *name;
  char *signal;
  char *within;
  gboolean has_position;
  double latitude;
  double longitude;
} HsDayArea;

/** HsDayRoad: a drive that the book knows, one way; the other way too unless it has a road of its own. */
typedef struct
{
  char *from;
  char *to;
  gint64 seconds;
  gint64 millimiles;
  guint samples;
  HsTravelSource source;
} HsDayRoad;

/**
 * HsDayFacts:
 * @van_id, @van: the van, and its letter
 * @next_van: (nullable): letter of the van after it, in a ring; %NULL where the book has only one
 * @starts_at: first instant of the local day
 * @ends_at: first instant of the next one
 * @travel: how drives are guessed that the book does not know
 * @calls: (element-type HsDayCall): by start of the window, those without one last, then by number
 * @needs: (element-type HsDayNeed): of the calls, in their order
 * @counters: (element-type HsDayCounter): by name
 * @areas: (element-type HsDayArea)
 * @roads: (element-type HsDayRoad)
 * @trips: (element-type HsOwnTrip): all drives that were
 * @shorts: (element-type HsDayShort): what the van has less of than it should keep
 * @penciled: (element-type utf8): numbers of jobs of the day that are not promised yet
 * @unproven_choice: other counters might do better; not all could be weighed
 */
typedef struct
{
  HsDate day;
  char *van_id;
  char *van;
  char *next_van;
  HsInstant starts_at;
  HsInstant ends_at;
  GTimeZone *zone;
  HsDayRules rules;
  HsTravelRules travel;
  GPtrArray *calls;
  GPtrArray *needs;
  GPtrArray *counters;
  GPtrArray *areas;
  GPtrArray *roads;
  GPtrArray *trips;
  GPtrArray *shorts;
  GPtrArray *penciled;
  gboolean unproven_choice;
} HsDayFacts;

/* hs_day_facts_new: nothing known yet but when the day begins and ends. */
HsDayFacts *hs_day_facts_new (GTimeZone *zone, HsDate day);
void hs_day_facts_free (HsDayFacts *facts);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayFacts, hs_day_facts_free)

/** HsDayInstead: a part bought at another counter than the book says, to see what would come of it. */
typedef struct
{
  const char *need_id;
  const char *supplier_id;
  gint64 unit_cents;
} HsDayInstead;

/**
 * hs_day_facts_load:
 * @van: (transfer none) (nullable): whose day; %NULL: the calls of all vans, whose parts come from counters or, where
 *   they are in a van already, from there: nothing is said of any van's stock
 * @keep: (nullable) (element-type utf8): ids of jobs and suppliers of the plan that stands: such a call belongs to the
 *   day although it has begun or is done, such a counter although nothing is wanted there any more
 * @extra_area: (nullable): one more area whose place on the map may be asked for
 * @instead: (nullable): what is to be taken to stand in the book
 */
HsDayFacts *hs_day_facts_load (HsBook *book, HsDate day, const HsVanRow *van, GPtrArray *keep, const char *extra_area,
                               const HsDayInstead *instead, GError **error);

/**
 * hs_day_find_van:
 * @letter: a van's letter, or %NULL for the book's (hs_book_set_van ()), which is the first unless set
 */
HsVanRow *hs_day_find_van (HsBook *book, const char *letter, GError **error);

/* hs_day_facts_know_road: whether the book has a drive between two areas, whichever way, tabled or driven. */
gboolean hs_day_facts_know_road (const HsDayFacts *facts, const char *a, const char *b);

/* hs_day_facts_want: sets which counters are wanted from where the needs are to come from. */
void hs_day_facts_want (HsDayFacts *facts);

/* hs_day_facts_drop_unwanted: leaves only counters that are wanted or that @keep names; (nullable) as in loading. */
void hs_day_facts_drop_unwanted (HsDayFacts *facts, GPtrArray *keep);

HsDayCall *hs_day_call_new (void);
HsDayNeed *hs_day_need_new (void);

/* hs_day_need_offer: adds a counter to choose from. */
void hs_day_need_offer (HsDayNeed *need, const char *supplier_id, gint64 unit_cents);

HsDayCounter *hs_day_counter_new (void);
HsDayArea *hs_day_area_new (void);
HsDayRoad *hs_day_road_new (void);

/* hs_day_call_place: (transfer none) (nullable): code of the call's own position, else of its area. */
const char *hs_day_call_place (const HsDayCall *call);

/* hs_day_facts_find_area: (transfer none) (nullable): by code. */
const HsDayArea *hs_day_facts_find_area (const HsDayFacts *facts, const char *code);

/* hs_day_facts_find_counter: (transfer none) (nullable): by the supplier's id. */
const HsDayCounter *hs_day_facts_find_counter (const HsDayFacts *facts, const char *supplier_id);

G_END_DECLS
