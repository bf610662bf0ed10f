// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day.h"

G_BEGIN_DECLS

/* Drive times and distances between places: what the owner's book knows, and an estimate, marked as a guess, for what
 * it does not. The estimate is the straight line on a sphere × a detour factor, at a speed by length; all of them are
 * settings. */

/* Mean radius of the Earth (IUGG R1), meters. */
#define HS_TRAVEL_EARTH_METERS 6371008.8

/* Below this many own trips a known pair still counts as a guess. */
#define HS_TRAVEL_SURE_SAMPLES 5

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
 * @samples: how many own trips stand behind it
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
} HsTravelPair;

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
 * HsTravel:
 * @n_places: side of the tables
 * @seconds: (array): n_places × n_places, row = from
 * @millimiles: (array): the same shape
 * @guess: (array): the same shape; 1 where it is a guess (an estimate, or too few own trips)
 */
typedef struct
{
  guint n_places;
  gint32 *seconds;
  gint64 *millimiles;
  guint8 *guess;
} HsTravel;

/**
 * hs_travel_straight_meters:
 *
 * Haversine distance on a sphere of %HS_TRAVEL_EARTH_METERS between two points in degrees.
 */
double hs_travel_straight_meters (double latitude_a, double longitude_a, double latitude_b, double longitude_b);

/**
 * hs_travel_estimate:
 * @straight_meters: straight line, 0 or more
 * @rules: the settings
 * @ret_seconds: (out): drive time, rounded half up
 * @ret_millimiles: (out): road distance, rounded half up
 */
void hs_travel_estimate (double straight_meters, const HsTravelRules *rules, gint32 *ret_seconds,
                         gint64 *ret_millimiles);

/**
 * hs_travel_fill:
 * @places: (array length=n_places): the places
 * @pairs: (array length=n_pairs): what is known; the last of two rows for the same pair and way wins
 * @rules: the settings for the rest
 * @ret_travel: (out) (transfer full): full tables
 *
 * Fails with %HS_PLAN_ERROR_NO_TRAVEL, naming the pair, when it is not known and one of its places has no position;
 * with %HS_PLAN_ERROR_BAD_DAY when a pair names an unknown place or is below zero, a position is off the globe, or the
 * settings make no sense.
 */
gboolean hs_travel_fill (const HsTravelPlace *places, guint n_places, const HsTravelPair *pairs, guint n_pairs,
                         const HsTravelRules *rules, HsTravel **ret_travel, GError **error);

/**
 * hs_travel_apply:
 *
 * Copies the tables into @day, which must have as many places.
 */
void hs_travel_apply (const HsTravel *travel, HsDay *day);

/**
 * hs_travel_free:
 * @travel: (nullable) (transfer full): tables
 */
void hs_travel_free (HsTravel *travel);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTravel, hs_travel_free)

G_END_DECLS
