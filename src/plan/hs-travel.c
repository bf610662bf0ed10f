// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Full drive tables from what is known and, for the rest, an estimate marked as a guess. It refuses to guess between
 * places when it does not know where they are. What own trips say is in hs-travel-own.c. */

#include "hs-travel.h"

#include "hs-geodesic.h"
#include "hs-plan-error.h"
#include "hs-travel-own.h"
#include "hs-travel-private.h"

#include <math.h>
#include <string.h>

#define METERS_PER_MILE 1609.344
#define MAX_SECONDS (10 * 24 * 3600)
#define MAX_MILLIMILES G_GINT64_CONSTANT (1000000000)

void
hs_travel_estimate (double straight_meters, const HsTravelRules *rules, gint32 *ret_seconds, gint64 *ret_millimiles)
{
  gboolean is_short = straight_meters < rules->short_meters;
  gint32 percent = is_short ? rules->short_detour_percent : rules->detour_percent;
  double road_meters = straight_meters * percent / 100.0;
  gint32 kmh = is_short                                      ? rules->short_kmh
               : straight_meters > rules->long_meters ? rules->long_kmh
                                                             : rules->medium_kmh;

  *ret_seconds = (gint32) floor (road_meters * 3.6 / kmh + 0.5);
  *ret_millimiles = (gint64) floor (road_meters * 1000.0 / METERS_PER_MILE + 0.5);
}

gint64
hs_travel_miles (gint32 seconds, gint32 kmh)
{
  return (gint64) floor (seconds * (double) kmh / 3.6 * 1000.0 / METERS_PER_MILE + 0.5);
}

static gboolean
refuse (GError **error, const char *field, const char *what)
{
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "%s: %s", field, what);
  return FALSE;
}

static gboolean
check_rules (const HsTravelRules *rules, GError **error)
{
  if (rules->short_meters < 0 || rules->long_meters < rules->short_meters)
    return refuse (error, "rules.long_meters", "long drives must begin where short ones have ended");
  if (rules->short_detour_percent < 100 || rules->detour_percent < 100)
    return refuse (error, "rules.detour_percent", "no road is shorter than the straight line");
  if (rules->short_detour_percent > 1000 || rules->detour_percent > 1000)
    return refuse (error, "rules.detour_percent", "is too large");
  if (rules->short_kmh < 1 || rules->medium_kmh < 1 || rules->long_kmh < 1)
    return refuse (error, "rules.kmh", "speeds must be above zero");
  if (rules->hop_seconds < 0 || rules->hop_millimiles < 0)
    return refuse (error, "rules.hop_seconds", "is below zero");
  return TRUE;
}

static gboolean
check_places (const HsTravelPlace *places, guint n_places, GError **error)
{
  if (n_places == 0 || n_places > HS_DAY_MAX_PLACES)
    return refuse (error, "places", "must be from 1 to 256");
  for (guint i = 0; i < n_places; i++)
    {
      g_autofree char *field = g_strdup_printf ("places[%u]", i);

      if (places[i].has_position && !(fabs (places[i].latitude) <= 90.0 && fabs (places[i].longitude) <= 180.0))
        return refuse (error, field, "its position is off the globe");
    }
  return TRUE;
}

static gboolean
check_figures (const char *list, guint index, guint n_places, guint from, guint to, gint32 seconds, gint64 millimiles,
               GError **error)
{
  g_autofree char *field = g_strdup_printf ("%s[%u]", list, index);

  if (from >= n_places || to >= n_places)
    return refuse (error, field, "no such place");
  if (seconds < 0 || millimiles < 0)
    return refuse (error, field, "is below zero");
  if (seconds > MAX_SECONDS || millimiles > MAX_MILLIMILES)
    return refuse (error, field, "is too large");
  return TRUE;
}

/* The time of day at which a place is driven to. */
static int
band_to (const HsTravelKnown *known, guint to)
{
  return known->place_bands != NULL ? known->place_bands[to] : known->band;
}

gboolean
hs_travel_check (const HsTravelKnown *known, const HsTravelRules *rules, GError **error)
{
  if (!check_rules (rules, error) || !check_places (known->places, known->n_places, error))
    return FALSE;
  for (guint k = 0; k < known->n_pairs; k++)
    {
      const HsTravelPair *pair = &known->pairs[k];

      if (!check_figures ("pairs", k, known->n_places, pair->from, pair->to, pair->seconds, pair->millimiles, error))
        return FALSE;
    }
  for (guint k = 0; k < known->n_trips; k++)
    {
      const HsTravelTrip *trip = &known->trips[k];

      if (!check_figures ("trips", k, known->n_places, trip->from, trip->to, trip->seconds, MAX (trip->millimiles, 0),
                          error))
        return FALSE;
      if (trip->band < HS_TRAVEL_ANY_BAND || trip->band >= HS_TRAVEL_N_BANDS)
        return refuse (error, "trips", "no such time of day");
    }
  for (guint i = 0; i < known->n_places; i++)
    {
      int band = band_to (known, i);

      if (band < HS_TRAVEL_ANY_BAND || band >= HS_TRAVEL_N_BANDS)
        return refuse (error, "band", "no such time of day");
    }
  return TRUE;
}

static HsTravel *
travel_new (guint n_places)
{
  HsTravel *travel = g_new0 (HsTravel, 1);

  travel->n_places = n_places;
  travel->legs = g_new0 (HsTravelLeg, n_places * n_places);
  return travel;
}

HsTravel *
hs_travel_copy (const HsTravel *travel)
{
  HsTravel *copy;

  if (travel == NULL)
    return NULL;
  copy = travel_new (travel->n_places);
  memcpy (copy->legs, travel->legs, travel->n_places * travel->n_places * sizeof (HsTravelLeg));
  return copy;
}

void
hs_travel_free (HsTravel *travel)
{
  if (travel == NULL)
    return;
  g_free (travel->legs);
  g_free (travel);
}

HsTravelLeg
hs_travel_pair_leg (const HsTravelPair *pair)
{
  gboolean guess = pair->source == HS_TRAVEL_GUESS
                   || (pair->source == HS_TRAVEL_TABLED && pair->samples < HS_TRAVEL_SURE_SAMPLES);

  return (HsTravelLeg) { pair->seconds, pair->millimiles, guess, pair->source, pair->source, 0, 0 };
}

gboolean
hs_travel_guess_leg (const HsTravelPlace *places, guint from, guint to, const HsTravelRules *rules,
                     HsTravelLeg *ret_leg)
{
  const HsTravelPlace *a = &places[from];
  const HsTravelPlace *b = &places[to];

  if (from != to && (!a->has_position || !b->has_position))
    return FALSE;
  *ret_leg = (HsTravelLeg) { rules->hop_seconds, rules->hop_millimiles, TRUE, HS_TRAVEL_GUESS, HS_TRAVEL_GUESS, 0, 0 };
  if (from != to)
    hs_travel_estimate (hs_geodesic_meters (a->latitude, a->longitude, b->latitude, b->longitude), rules,
                        &ret_leg->seconds, &ret_leg->millimiles);
  return TRUE;
}

/* For each cell the pair that speaks for it: guesses below roads below the table, both ways below each way that has its
 * own. */
static const HsTravelPair **
choose_pairs (const HsTravelKnown *known)
{
  const HsTravelPair **chosen = g_new0 (const HsTravelPair *, known->n_places * known->n_places);
  static const HsTravelSource order[] = { HS_TRAVEL_GUESS, HS_TRAVEL_ROADS, HS_TRAVEL_TABLED };

  for (guint i = 0; i < 2 * G_N_ELEMENTS (order); i++)
    for (guint k = 0; k < known->n_pairs; k++)
      {
        const HsTravelPair *pair = &known->pairs[k];
        guint from = i % 2 == 0 ? pair->to : pair->from;
        guint to = i % 2 == 0 ? pair->from : pair->to;

        if (pair->source == order[i / 2])
          chosen[from * known->n_places + to] = pair;
      }
  return chosen;
}

static gboolean
no_travel (const HsTravelPlace *a, const HsTravelPlace *b, GError **error)
{
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_NO_TRAVEL,
               "%s,%s: the drive is not known, and it cannot be estimated because %s has no position; "
               "give its minutes and miles, or say where it is",
               a->code, b->code, a->has_position ? b->code : a->code);
  return FALSE;
}

static gboolean
fill_cell (HsTravel *travel, const HsTravelOwn *own, const HsTravelPair *pair, guint from, guint to,
           const HsTravelRules *rules, GError **error)
{
  const HsTravelPlace *places = own->known->places;
  gboolean has_before = TRUE;
  HsTravelLeg before;

  if (pair != NULL)
    before = hs_travel_pair_leg (pair);
  else
    has_before = hs_travel_guess_leg (places, from, to, rules, &before);
  if (!hs_travel_own_blend (own, from, to, band_to (own->known, to), has_before ? &before : NULL,
                            pair != NULL && pair->source == HS_TRAVEL_TABLED ? pair : NULL,
                            &travel->legs[from * travel->n_places + to]))
    return no_travel (&places[from], &places[to], error);
  return TRUE;
}

gboolean
hs_travel_fill (const HsTravelKnown *known, const HsTravelRules *rules, HsTravel **ret_travel, GError **error)
{
  g_autoptr (HsTravel) travel = NULL;
  g_autofree const HsTravelPair **pairs = NULL;
  HsTravelOwn own;
  gboolean filled = TRUE;

  if (!hs_travel_check (known, rules, error))
    return FALSE;
  travel = travel_new (known->n_places);
  pairs = choose_pairs (known);
  hs_travel_own_init (&own, known, rules);
  for (guint from = 0; from < known->n_places && filled; from++)
    for (guint to = 0; to < known->n_places && filled; to++)
      filled = fill_cell (travel, &own, pairs[from * known->n_places + to], from, to, rules, error);
  hs_travel_own_clear (&own);
  if (filled)
    *ret_travel = g_steal_pointer (&travel);
  return filled;
}

HsTravelLeg
hs_travel_get_leg (const HsTravel *travel, guint from, guint to)
{
  return travel->legs[from * travel->n_places + to];
}

int
hs_travel_band (int seconds_of_day)
{
  static const int ends[] = { 6 * 3600, 9 * 3600 + 1800, 15 * 3600, 19 * 3600 };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (seconds_of_day < ends[i])
      return i == 0 ? HS_TRAVEL_N_BANDS - 1 : (int) i - 1;
  return HS_TRAVEL_N_BANDS - 1;
}

const char *
hs_travel_source_id (HsTravelSource source)
{
  static const char *const ids[] = { "table", "roads", "guess", "few_trips", "own_trips" };

  return ids[source];
}

void
hs_travel_apply (const HsTravel *travel, HsDay *day)
{
  g_return_if_fail (travel->n_places == day->n_places);
  for (guint from = 0; from < travel->n_places; from++)
    for (guint to = 0; to < travel->n_places; to++)
      {
        const HsTravelLeg *leg = &travel->legs[from * travel->n_places + to];

        hs_day_set_leg (day, from, to, leg->seconds, leg->millimiles);
      }
}
