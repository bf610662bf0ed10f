// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day.h"

G_BEGIN_DECLS

/* Drive times and distances between places, from the best that is known: the owner's trips, the owner's table, roads,
 * and an estimate, marked as a guess. The estimate is the straight line on the ellipsoid × a detour factor, at a speed
 * by length; all of them are settings. */

/* Below this many own trips a drive leans on what would be said without them; a tabled pair with fewer is a guess. */
#define HS_TRAVEL_SURE_SAMPLES 5

/* Any time of day. */
#define HS_TRAVEL_ANY_BAND (-1)
#define HS_TRAVEL_N_BANDS 4

/**
 * HsTravelSource: where the minutes of a drive come from.
 * @HS_TRAVEL_TABLED: the owner's table
 * @HS_TRAVEL_ROADS: a route over the roads of a map
 * @HS_TRAVEL_GUESS: the estimate
 * @HS_TRAVEL_FEW: fewer than %HS_TRAVEL_SURE_SAMPLES own trips, leaning on one of the above
 * @HS_TRAVEL_OWN: the median of own trips
 */
typedef enum
{
  HS_TRAVEL_TABLED,
  HS_TRAVEL_ROADS,
  HS_TRAVEL_GUESS,
  HS_TRAVEL_FEW,
  HS_TRAVEL_OWN,
} HsTravelSource;

/**
 * HsTravelPlace:
 * @code: what the owner calls it; named in errors
 * @has_position: whether @latitude and @longitude are known
 * @latitude: degrees north
 * @longitude: degrees east
 */
typedef struct
{
  const char *code;
  gboolean has_position;
  double latitude;
  double longitude;
} HsTravelPlace;

/**
 * HsTravelPair:
 * @from: index of a place
 * @to: index of a place; the same as @from: the hop between two stops inside it
 * @seconds: drive time
 * @millimiles: distance, thousandths of a mile
 * @samples: how many own trips stand behind it; they weigh as much in the median as trips that are told one by one
 * @source: %HS_TRAVEL_TABLED goes before %HS_TRAVEL_ROADS, and that before %HS_TRAVEL_GUESS: an estimate by other
 *   means than the straight line
 *
 * Holds for both ways, unless the other way has a pair of its own.
 */
typedef struct
{
  guint from;
  guint to;
  gint32 seconds;
  gint64 millimiles;
  guint samples;
  HsTravelSource source;
} HsTravelPair;

/**
 * HsTravelTrip:
 * @from: index of a place
 * @to: index of a place
 * @band: of hs_travel_band(), by the clock on the wall at leaving; %HS_TRAVEL_ANY_BAND if that is not known
 * @seconds: drive time
 * @millimiles: distance, or below zero if it is not known
 *
 * One drive that really was.
 */
typedef struct
{
  guint from;
  guint to;
  int band;
  gint32 seconds;
  gint64 millimiles;
} HsTravelTrip;

/**
 * HsTravelRules:
 * @short_meters: straight lines below this are short
 * @long_meters: straight lines beyond this are long
 * @short_detour_percent: road ÷ straight line, short
 * @detour_percent: road ÷ straight line, else
 * @short_kmh: speed, short
 * @medium_kmh: speed, in between
 * @long_kmh: speed, long
 * @hop_seconds: guess for two stops inside one place
 * @hop_millimiles: guess for two stops inside one place
 */
typedef struct
{
  gint32 short_meters;
  gint32 long_meters;
  gint32 short_detour_percent;
  gint32 detour_percent;
  gint32 short_kmh;
  gint32 medium_kmh;
  gint32 long_kmh;
  gint32 hop_seconds;
  gint64 hop_millimiles;
} HsTravelRules;

/**
 * HS_TRAVEL_RULES_INIT:
 *
 * Starting values: 1.4 below 5 km, else 1.3; 30, 40 and, beyond 20 km, 70 km/h; a hop is 5 min and 1.0 mi.
 */
#define HS_TRAVEL_RULES_INIT { 5000, 20000, 140, 130, 30, 40, 70, 300, 1000 }

/**
 * HsTravelKnown:
 * @places: (array length=n_places): the places
 * @pairs: (array length=n_pairs): from the table and from roads; the last of two rows for the same pair and way wins
 * @trips: (array length=n_trips): own trips in any order
 * @band: the time of day that is asked for, or %HS_TRAVEL_ANY_BAND
 * @place_bands: (nullable) (array length=n_places): in its place, the time of day at which each place is driven to
 */
typedef struct
{
  const HsTravelPlace *places;
  guint n_places;
  const HsTravelPair *pairs;
  guint n_pairs;
  const HsTravelTrip *trips;
  guint n_trips;
  int band;
  const int *place_bands;
} HsTravelKnown;

/**
 * HsTravelLeg:
 * @seconds: drive time
 * @millimiles: distance
 * @guess: an estimate, or too few own trips
 * @source: where the minutes come from
 * @base: what would be said without own trips, on which few of them lean; %HS_TRAVEL_OWN where nothing would be
 * @trips: own trips of the pair, both ways and at any time
 * @hour_trips: those of them that go this way at the time of day that was asked for
 *
 * One cell of the tables.
 */
typedef struct
{
  gint32 seconds;
  gint64 millimiles;
  gboolean guess;
  HsTravelSource source;
  HsTravelSource base;
  guint trips;
  guint hour_trips;
} HsTravelLeg;

/**
 * HsTravel:
 * @n_places: side of the table
 * @legs: (array): n_places × n_places, row = from
 */
typedef struct
{
  guint n_places;
  HsTravelLeg *legs;
} HsTravel;

/**
 * hs_travel_band:
 * @seconds_of_day: what the clock on the wall shows at leaving
 *
 * Returns: 0: 06:00 to 09:30, 1: to 15:00, 2: to 19:00, 3: the rest
 */
int hs_travel_band (int seconds_of_day);

/* hs_travel_source_id: `table`, `roads`, `guess`, `few_trips`, `own_trips`. */
const char *hs_travel_source_id (HsTravelSource source);

/**
 * hs_travel_estimate:
 * @straight_meters: straight line, 0 or more
 * @rules: the settings
 * @ret_seconds: (out): drive time, rounded half up
 * @ret_millimiles: (out): road distance, rounded half up
 */
void hs_travel_estimate (double straight_meters, const HsTravelRules *rules, gint32 *ret_seconds,
                         gint64 *ret_millimiles);

/* hs_travel_miles: thousandths of a mile that are driven in a time at a speed, rounded half up. */
gint64 hs_travel_miles (gint32 seconds, gint32 kmh);

/**
 * hs_travel_fill:
 * @known: what is known
 * @rules: the settings for the rest
 * @ret_travel: (out) (transfer full): full tables
 *
 * Each drive is found in steps. P, what would be said without own trips: the table, else roads, else the estimate.
 * Then the trips of the pair, both ways and at any time, n of them with the median m (the pair's @samples weigh as that
 * many trips of its figure): from %HS_TRAVEL_SURE_SAMPLES on m itself, below P + (m - P) × n / 5, so that the first
 * trips move the figure little by little. Then, if a band is asked for, the trips this way in this band in the same
 * manner, with the outcome of the step before as P: k of them with the median h make it P + (h - P) × (k - 1) / 4,
 * since one trip at an hour is chance and speaks for the day alone. Miles go the same way with the trips whose miles
 * are known. Medians of even counts are the middle between both; nothing is rounded before the end, and then half up to
 * seconds and thousandths of a mile. Without any P the median stands in for it, below five trips it is a guess, and
 * miles that no trip tells are what the medium speed makes of the minutes.
 *
 * Fails with %HS_PLAN_ERROR_NO_TRAVEL, naming the pair, when nothing is known and one of its places has no position;
 * with %HS_PLAN_ERROR_BAD_DAY when a pair or a trip names an unknown place or is below zero, a position is off the
 * globe, or the settings make no sense.
 */
gboolean hs_travel_fill (const HsTravelKnown *known, const HsTravelRules *rules, HsTravel **ret_travel,
                         GError **error);

/* hs_travel_get_leg: the drive between two places of the tables. */
HsTravelLeg hs_travel_get_leg (const HsTravel *travel, guint from, guint to);

/**
 * hs_travel_apply:
 *
 * Copies the tables into @day, which must have as many places.
 */
void hs_travel_apply (const HsTravel *travel, HsDay *day);

/* hs_travel_copy: (transfer full) (nullable): of @travel, which may be %NULL. */
HsTravel *hs_travel_copy (const HsTravel *travel);

/**
 * hs_travel_free:
 * @travel: (nullable) (transfer full): tables
 */
void hs_travel_free (HsTravel *travel);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTravel, hs_travel_free)

G_END_DECLS
