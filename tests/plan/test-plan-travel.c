// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The estimate at its steps, which source wins where, and what is refused. */

#include "hs-travel.h"

#include "hs-plan-error.h"

#include <math.h>

static const HsTravelRules default_rules = HS_TRAVEL_RULES_INIT;

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

  g_assert_cmpint (travel->legs[cell].seconds, ==, seconds);
  g_assert_cmpint (travel->legs[cell].millimiles, ==, millimiles);
  g_assert_cmpint (travel->legs[cell].guess, ==, guess);
}

/* Q is 2,220.70 m (0.02° of the meridian; GeodSolve) from T: × 1.4 = 3,109.0 m, at 30 km/h 373 s, 1.932 mi. */
static void
test_fill (void)
{
  static const HsTravelPair pairs[] = {
    { 0, 2, 1260, 11200, 9 }, { 2, 0, 1300, 11300, 5 }, { 1, 2, 1440, 12600, 4 }, { 2, 2, 360, 2000, 0 },
  };
  const HsTravelKnown known = { three_places, 3, pairs, G_N_ELEMENTS (pairs), .band = HS_TRAVEL_ANY_BAND };
  g_autoptr (HsTravel) travel = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDay) day = hs_day_new (3);

  hs_travel_fill (&known, &default_rules, &travel, &error);
  g_assert_no_error (error);
  assert_leg (travel, 0, 2, 1260, 11200, FALSE);
  assert_leg (travel, 2, 0, 1300, 11300, FALSE);
  assert_leg (travel, 1, 2, 1440, 12600, TRUE);
  assert_leg (travel, 2, 1, 1440, 12600, TRUE);
  assert_leg (travel, 0, 1, 373, 1932, TRUE);
  assert_leg (travel, 1, 0, 373, 1932, TRUE);
  assert_leg (travel, 0, 0, 300, 1000, TRUE);
  assert_leg (travel, 2, 2, 360, 2000, TRUE);
  g_assert_cmpint (hs_travel_get_leg (travel, 0, 2).source, ==, HS_TRAVEL_TABLED);
  g_assert_cmpint (hs_travel_get_leg (travel, 0, 1).source, ==, HS_TRAVEL_GUESS);
  g_assert_cmpint (hs_travel_get_leg (travel, 0, 1).trips, ==, 0);
  hs_travel_apply (travel, day);
  g_assert_cmpint (g_array_index (day->drive_seconds, gint32, 2), ==, 1260);
  g_assert_cmpint (g_array_index (day->drive_millimiles, gint64, 6), ==, 11300);
  g_assert_true (hs_day_check (day, NULL));
}

/* Roads speak where the table does not, each way for itself if it has its own, and they are no guess. */
static void
test_roads (void)
{
  static const HsTravelPair pairs[] = {
    { 0, 1, 500, 2500, 0, HS_TRAVEL_ROADS }, { 1, 0, 520, 2600, 0, HS_TRAVEL_ROADS },
    { 0, 2, 1500, 9000, 0, HS_TRAVEL_ROADS }, { 0, 2, 1260, 11200, 5, HS_TRAVEL_TABLED },
    { 2, 1, 800, 7000, 0, HS_TRAVEL_ROADS },
  };
  static const struct
  {
    guint from;
    guint to;
    gint32 seconds;
    gint64 millimiles;
    HsTravelSource source;
  } rows[] = {
    { 0, 1, 500, 2500, HS_TRAVEL_ROADS },  { 1, 0, 520, 2600, HS_TRAVEL_ROADS },
    { 0, 2, 1260, 11200, HS_TRAVEL_TABLED }, { 2, 0, 1260, 11200, HS_TRAVEL_TABLED },
    { 2, 1, 800, 7000, HS_TRAVEL_ROADS },  { 1, 2, 800, 7000, HS_TRAVEL_ROADS },
  };
  const HsTravelKnown known = { three_places, 3, pairs, G_N_ELEMENTS (pairs), .band = HS_TRAVEL_ANY_BAND };
  g_autoptr (HsTravel) travel = NULL;
  g_autoptr (GError) error = NULL;

  hs_travel_fill (&known, &default_rules, &travel, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      assert_leg (travel, rows[i].from, rows[i].to, rows[i].seconds, rows[i].millimiles, FALSE);
      g_assert_cmpint (hs_travel_get_leg (travel, rows[i].from, rows[i].to).source, ==, rows[i].source);
    }
}

/* 40 km/h for 27 minutes is 18 km, 11.185 mi. */
static void
test_miles (void)
{
  g_assert_cmpint (hs_travel_miles (1620, 40), ==, 11185);
  g_assert_cmpint (hs_travel_miles (0, 40), ==, 0);
}

static void
test_bands (void)
{
  static const struct
  {
    int seconds;
    int band;
  } rows[] = {
    { 0, 3 },         { 21599, 3 },     { 21600, 0 },    { 34199, 0 },    { 34200, 1 },
    { 53999, 1 },     { 54000, 2 },     { 68399, 2 },    { 68400, 3 },    { 86399, 3 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_travel_band (rows[i].seconds), ==, rows[i].band);
}

static void
test_source_ids (void)
{
  static const char *const ids[] = { "table", "roads", "guess", "few_trips", "own_trips" };

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    g_assert_cmpstr (hs_travel_source_id ((HsTravelSource) i), ==, ids[i]);
}

static void
test_unknown_pair (void)
{
  static const HsTravelPair pairs[] = { { 0, 2, 1260, 11200, 9 } };
  const HsTravelKnown known = { three_places, 3, pairs, 1, .band = HS_TRAVEL_ANY_BAND };
  g_autoptr (GError) error = NULL;
  HsTravel *travel = NULL;

  g_assert_false (hs_travel_fill (&known, &default_rules, &travel, &error));
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_NO_TRAVEL);
  g_assert_true (g_str_has_prefix (error->message, "Q,S: "));
  g_assert_nonnull (g_strstr_len (error->message, -1, "S has no position"));
  g_assert_null (travel);
}

static void
assert_refused_day (const HsTravelKnown *known, const HsTravelRules *rules, const char *message)
{
  g_autoptr (GError) error = NULL;
  HsTravel *travel = NULL;

  g_assert_false (hs_travel_fill (known, rules, &travel, &error));
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
  if (message != NULL)
    g_assert_cmpstr (error->message, ==, message);
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
    { { 0, 1, 1, G_MAXINT64, 1 }, "pairs[0]: is too large" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsTravelKnown known = { three_places, 3, &rows[i].pair, 1, .band = HS_TRAVEL_ANY_BAND };

      assert_refused_day (&known, &default_rules, rows[i].message);
    }
}

static void
test_refused_trips (void)
{
  static const struct
  {
    HsTravelTrip trip;
    const char *message;
  } rows[] = {
    { { 0, 3, 0, 1, 1 }, "trips[0]: no such place" },
    { { 3, 0, 0, 1, 1 }, "trips[0]: no such place" },
    { { 0, 1, 0, -1, 1 }, "trips[0]: is below zero" },
    { { 0, 1, 0, G_MAXINT32, 1 }, "trips[0]: is too large" },
    { { 0, 1, 4, 1, 1 }, "trips: no such time of day" },
    { { 0, 1, -2, 1, 1 }, "trips: no such time of day" },
  };
  static const int bands[] = { -2, 4 };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsTravelKnown known
          = { three_places, 3, .trips = &rows[i].trip, .n_trips = 1, .band = HS_TRAVEL_ANY_BAND };

      assert_refused_day (&known, &default_rules, rows[i].message);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bands); i++)
    {
      const HsTravelKnown known = { three_places, 3, .band = bands[i] };

      assert_refused_day (&known, &default_rules, "band: no such time of day");
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
  const HsTravelKnown known = { three_places, 2, .band = HS_TRAVEL_ANY_BAND };
  const HsTravelKnown bad[] = {
    { nowhere, 1, .band = HS_TRAVEL_ANY_BAND },
    { not_a_number, 1, .band = HS_TRAVEL_ANY_BAND },
    { nowhere, 0, .band = HS_TRAVEL_ANY_BAND },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_refused_day (&known, &rows[i], NULL);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    assert_refused_day (&bad[i], &default_rules, NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/travel/estimate", test_estimate);
  g_test_add_func ("/plan/travel/settings", test_settings);
  g_test_add_func ("/plan/travel/fill", test_fill);
  g_test_add_func ("/plan/travel/roads", test_roads);
  g_test_add_func ("/plan/travel/miles", test_miles);
  g_test_add_func ("/plan/travel/bands", test_bands);
  g_test_add_func ("/plan/travel/source-ids", test_source_ids);
  g_test_add_func ("/plan/travel/unknown-pair", test_unknown_pair);
  g_test_add_func ("/plan/travel/refused-pairs", test_refused_pairs);
  g_test_add_func ("/plan/travel/refused-trips", test_refused_trips);
  g_test_add_func ("/plan/travel/refused-settings", test_refused_settings);
  return g_test_run ();
}
