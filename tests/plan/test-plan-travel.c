// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Straight lines against published check values, the estimate at its steps, and which source wins. */

#include "hs-travel.h"

#include "hs-plan-error.h"

#include <math.h>

static const HsTravelRules default_rules = HS_TRAVEL_RULES_INIT;

/* Haversine with R = 6,371,008.8 m; the last pair is Flinders Peak to Buninyong. */
static void
test_straight (void)
{
  static const struct
  {
    double a[2];
    double b[2];
    double meters;
  } rows[] = {
    { { 40.6, -73.8 }, { 51.6, -0.5 }, 5536892.0 },
    { { 48.8566, 2.3522 }, { 51.5074, -0.1278 }, 343556.5 },
    { { 40.7128, -74.0060 }, { 34.0522, -118.2437 }, 3935751.7 },
    { { 52.52, 13.405 }, { 48.1351, 11.582 }, 504416.0 },
    { { -37.95103341666667, 144.42486788888889 }, { -37.65282113888889, 143.92649552777777 }, 54925.5 },
    { { 12.0, 34.0 }, { 12.0, 34.0 }, 0.0 },
    { { 0.0, 0.0 }, { 0.0, 180.0 }, G_PI * HS_TRAVEL_EARTH_METERS },
    { { 0.0, 179.5 }, { 0.0, -179.5 }, G_PI * HS_TRAVEL_EARTH_METERS / 180.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double there = hs_travel_straight_meters (rows[i].a[0], rows[i].a[1], rows[i].b[0], rows[i].b[1]);
      double back = hs_travel_straight_meters (rows[i].b[0], rows[i].b[1], rows[i].a[0], rows[i].a[1]);

      g_assert_cmpfloat_with_epsilon (there, rows[i].meters, 0.06);
      g_assert_cmpfloat_with_epsilon (there, back, 1e-6);
    }
}

/* ZIP-1, ZIP-2: centroids of the postal areas 90210 and 10001 as the US Census Bureau's 2021 gazetteer prints them, and
 * their distance, 3,948.39 km or 2,453.41 mi, worked out beside it. */
static void
test_postal_areas (void)
{
  double meters = hs_travel_straight_meters (34.100517, -118.41463, 40.75065, -73.997293);

  g_assert_cmpfloat_with_epsilon (meters, 3948390, 5);
  g_assert_cmpfloat_with_epsilon (meters / 1609.344, 2453.41, 0.005);
}

/* By hand: 3 km × 1.4 = 4.2 km, at 30 km/h 504 s, 2.610 mi; 5 km × 1.3 at 40; 40 km × 1.3 at 70. */
static void
test_estimate (void)
{
  static const struct
  {
    double meters;
    gint32 seconds;
    gint64 millimiles;
  } rows[] = {
    { 0.0, 0, 0 },           { 3000.0, 504, 2610 },      { 4999.0, 840, 4349 },     { 5000.0, 585, 4039 },
    { 20000.0, 2340, 16156 }, { 20001.0, 1337, 16156 },   { 40000.0, 2674, 32311 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint32 seconds = -1;
      gint64 millimiles = -1;

      hs_travel_estimate (rows[i].meters, &default_rules, &seconds, &millimiles);
      g_assert_cmpint (seconds, ==, rows[i].seconds);
      g_assert_cmpint (millimiles, ==, rows[i].millimiles);
    }
}

static void
test_settings (void)
{
  HsTravelRules rules = { 1000, 2000, 200, 150, 10, 20, 36, 60, 500 };
  gint32 seconds;
  gint64 millimiles;

  hs_travel_estimate (900.0, &rules, &seconds, &millimiles);
  g_assert_cmpint (seconds, ==, 648);
  hs_travel_estimate (2000.0, &rules, &seconds, &millimiles);
  g_assert_cmpint (seconds, ==, 540);
  hs_travel_estimate (2400.0, &rules, &seconds, &millimiles);
  g_assert_cmpint (seconds, ==, 360);
}

static const HsTravelPlace three_places[] = {
  { "T", TRUE, 40.0, -75.0 },
  { "Q", TRUE, 40.02, -75.0 },
  { "S", FALSE, 0.0, 0.0 },
};

static void
assert_leg (const HsTravel *travel, guint from, guint to, gint32 seconds, gint64 millimiles, gboolean guess)
{
  guint cell = from * travel->n_places + to;

  g_assert_cmpint (travel->seconds[cell], ==, seconds);
  g_assert_cmpint (travel->millimiles[cell], ==, millimiles);
  g_assert_cmpint (travel->guess[cell], ==, guess);
}

/* Q is 2,223.9 m (0.02° of a great circle) from T: × 1.4 = 3,113.5 m, at 30 km/h 374 s, 1.935 mi. */
static void
test_fill (void)
{
  static const HsTravelPair pairs[] = {
    { 0, 2, 1260, 11200, 9 }, { 2, 0, 1300, 11300, 5 }, { 1, 2, 1440, 12600, 4 }, { 2, 2, 360, 2000, 0 },
  };
  g_autoptr (HsTravel) travel = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDay) day = hs_day_new (3);

  hs_travel_fill (three_places, 3, pairs, G_N_ELEMENTS (pairs), &default_rules, &travel, &error);
  g_assert_no_error (error);
  assert_leg (travel, 0, 2, 1260, 11200, FALSE);
  assert_leg (travel, 2, 0, 1300, 11300, FALSE);
  assert_leg (travel, 1, 2, 1440, 12600, TRUE);
  assert_leg (travel, 2, 1, 1440, 12600, TRUE);
  assert_leg (travel, 0, 1, 374, 1935, TRUE);
  assert_leg (travel, 1, 0, 374, 1935, TRUE);
  assert_leg (travel, 0, 0, 300, 1000, TRUE);
  assert_leg (travel, 2, 2, 360, 2000, TRUE);
  hs_travel_apply (travel, day);
  g_assert_cmpint (g_array_index (day->drive_seconds, gint32, 2), ==, 1260);
  g_assert_cmpint (g_array_index (day->drive_millimiles, gint64, 6), ==, 11300);
  g_assert_true (hs_day_check (day, NULL));
}

static void
test_unknown_pair (void)
{
  static const HsTravelPair pairs[] = { { 0, 2, 1260, 11200, 9 } };
  g_autoptr (GError) error = NULL;
  HsTravel *travel = NULL;

  g_assert_false (hs_travel_fill (three_places, 3, pairs, 1, &default_rules, &travel, &error));
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_NO_TRAVEL);
  g_assert_true (g_str_has_prefix (error->message, "Q,S: "));
  g_assert_nonnull (g_strstr_len (error->message, -1, "S has no position"));
  g_assert_null (travel);
}

static void
test_refused_pairs (void)
{
  static const struct
  {
    HsTravelPair pair;
    const char *message;
  } rows[] = {
    { { 0, 3, 1, 1, 1 }, "pairs[0]: no such place" },
    { { 3, 0, 1, 1, 1 }, "pairs[0]: no such place" },
    { { 0, 1, -1, 1, 1 }, "pairs[0]: is below zero" },
    { { 0, 1, 1, -1, 1 }, "pairs[0]: is below zero" },
    { { 0, 1, G_MAXINT32, 1, 1 }, "pairs[0]: is too large" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      HsTravel *travel = NULL;

      g_assert_false (hs_travel_fill (three_places, 3, &rows[i].pair, 1, &default_rules, &travel, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, rows[i].message);
    }
}

static void
test_refused_settings (void)
{
  static const HsTravelRules rows[] = {
    { 5000, 4000, 140, 130, 30, 40, 70, 300, 1000 }, { -1, 20000, 140, 130, 30, 40, 70, 300, 1000 },
    { 5000, 20000, 99, 130, 30, 40, 70, 300, 1000 }, { 5000, 20000, 140, 2000, 30, 40, 70, 300, 1000 },
    { 5000, 20000, 140, 130, 0, 40, 70, 300, 1000 }, { 5000, 20000, 140, 130, 30, 40, -70, 300, 1000 },
    { 5000, 20000, 140, 130, 30, 40, 70, -1, 1000 },
  };
  static const HsTravelPlace nowhere[] = { { "X", TRUE, 91.0, 0.0 } };
  static const HsTravelPlace not_a_number[] = { { "X", TRUE, NAN, 0.0 } };
  HsTravel *travel = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_travel_fill (three_places, 2, NULL, 0, &rows[i], &travel, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
    }
  g_assert_false (hs_travel_fill (nowhere, 1, NULL, 0, &default_rules, &travel, NULL));
  g_assert_false (hs_travel_fill (not_a_number, 1, NULL, 0, &default_rules, &travel, NULL));
  g_assert_false (hs_travel_fill (nowhere, 0, NULL, 0, &default_rules, &travel, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/travel/straight", test_straight);
  g_test_add_func ("/plan/travel/postal-areas", test_postal_areas);
  g_test_add_func ("/plan/travel/estimate", test_estimate);
  g_test_add_func ("/plan/travel/settings", test_settings);
  g_test_add_func ("/plan/travel/fill", test_fill);
  g_test_add_func ("/plan/travel/unknown-pair", test_unknown_pair);
  g_test_add_func ("/plan/travel/refused-pairs", test_refused_pairs);
  g_test_add_func ("/plan/travel/refused-settings", test_refused_settings);
  return g_test_run ();
}
