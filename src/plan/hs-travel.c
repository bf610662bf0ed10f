// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Full drive tables from what is known and, for the rest, an estimate marked as a guess. It refuses to guess between
 * places when it does not know where they are. */

#include "hs-travel.h"

#include "hs-plan-error.h"

#include <math.h>
#include <string.h>

#define METERS_PER_MILE 1609.344
#define MAX_SECONDS (10 * 24 * 3600)
#define MAX_MILLIMILES G_GINT64_CONSTANT (1000000000)

double
hs_travel_straight_meters (double latitude_a, double longitude_a, double latitude_b, double longitude_b)
{
  double radian = G_PI / 180.0;
  double up = sin ((latitude_b - latitude_a) * radian / 2.0);
  double across = sin ((longitude_b - longitude_a) * radian / 2.0);
  double h = up * up + cos (latitude_a * radian) * cos (latitude_b * radian) * across * across;

  return 2.0 * HS_TRAVEL_EARTH_METERS * asin (sqrt (MIN (h, 1.0)));
}

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
check_pairs (const HsTravelPair *pairs, guint n_pairs, guint n_places, GError **error)
{
  for (guint k = 0; k < n_pairs; k++)
    {
      const HsTravelPair *pair = &pairs[k];
      g_autofree char *field = g_strdup_printf ("pairs[%u]", k);

      if (pair->from >= n_places || pair->to >= n_places)
        return refuse (error, field, "no such place");
      if (pair->seconds < 0 || pair->millimiles < 0)
        return refuse (error, field, "is below zero");
      if (pair->seconds > MAX_SECONDS || pair->millimiles > MAX_MILLIMILES)
        return refuse (error, field, "is too large");
    }
  return TRUE;
}

static HsTravel *
travel_new (guint n_places)
{
  HsTravel *travel = g_new0 (HsTravel, 1);

  travel->n_places = n_places;
  travel->seconds = g_new0 (gint32, n_places * n_places);
  travel->millimiles = g_new0 (gint64, n_places * n_places);
  travel->guess = g_new0 (guint8, n_places * n_places);
  return travel;
}

void
hs_travel_free (HsTravel *travel)
{
  if (travel == NULL)
    return;
  g_free (travel->seconds);
  g_free (travel->millimiles);
  g_free (travel->guess);
  g_free (travel);
}

static void
put_pair (HsTravel *travel, guint from, guint to, const HsTravelPair *pair)
{
  guint cell = from * travel->n_places + to;

  travel->seconds[cell] = pair->seconds;
  travel->millimiles[cell] = pair->millimiles;
  travel->guess[cell] = pair->samples < HS_TRAVEL_SURE_SAMPLES;
}

/* Both ways first, then each way that has a pair of its own over it. */
static void
put_pairs (HsTravel *travel, const HsTravelPair *pairs, guint n_pairs, guint8 *known)
{
  for (guint k = 0; k < n_pairs; k++)
    {
      put_pair (travel, pairs[k].to, pairs[k].from, &pairs[k]);
      known[pairs[k].to * travel->n_places + pairs[k].from] = 1;
    }
  for (guint k = 0; k < n_pairs; k++)
    {
      put_pair (travel, pairs[k].from, pairs[k].to, &pairs[k]);
      known[pairs[k].from * travel->n_places + pairs[k].to] = 1;
    }
}

static gboolean
guess_pair (HsTravel *travel, const HsTravelPlace *places, guint from, guint to, const HsTravelRules *rules,
            GError **error)
{
  guint cell = from * travel->n_places + to;
  const HsTravelPlace *a = &places[from];
  const HsTravelPlace *b = &places[to];

  travel->guess[cell] = 1;
  if (from == to)
    {
      travel->seconds[cell] = rules->hop_seconds;
      travel->millimiles[cell] = rules->hop_millimiles;
      return TRUE;
    }
  if (!a->has_position || !b->has_position)
    {
      g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_NO_TRAVEL,
                   "%s,%s: the drive is not known, and it cannot be estimated because %s has no position; "
                   "give its minutes and miles, or say where it is",
                   a->code, b->code, a->has_position ? b->code : a->code);
      return FALSE;
    }
  hs_travel_estimate (hs_travel_straight_meters (a->latitude, a->longitude, b->latitude, b->longitude), rules,
                      &travel->seconds[cell], &travel->millimiles[cell]);
  return TRUE;
}

gboolean
hs_travel_fill (const HsTravelPlace *places, guint n_places, const HsTravelPair *pairs, guint n_pairs,
                const HsTravelRules *rules, HsTravel **ret_travel, GError **error)
{
  g_autoptr (HsTravel) travel = NULL;
  g_autofree guint8 *known = NULL;

  if (!check_rules (rules, error) || !check_places (places, n_places, error)
      || !check_pairs (pairs, n_pairs, n_places, error))
    return FALSE;
  travel = travel_new (n_places);
  known = g_new0 (guint8, n_places * n_places);
  put_pairs (travel, pairs, n_pairs, known);
  for (guint from = 0; from < n_places; from++)
    for (guint to = 0; to < n_places; to++)
      if (!known[from * n_places + to] && !guess_pair (travel, places, from, to, rules, error))
        return FALSE;
  *ret_travel = g_steal_pointer (&travel);
  return TRUE;
}

void
hs_travel_apply (const HsTravel *travel, HsDay *day)
{
  g_return_if_fail (travel->n_places == day->n_places);
  for (guint from = 0; from < travel->n_places; from++)
    for (guint to = 0; to < travel->n_places; to++)
      {
        guint cell = from * travel->n_places + to;

        hs_day_set_leg (day, from, to, travel->seconds[cell], travel->millimiles[cell]);
      }
}
