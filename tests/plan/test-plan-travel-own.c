// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What own trips make of a drive, worked out by hand: medians, few trips and many, both ways and one way, time of day,
 * the table's samples, miles; and how far off each source is on trips that are held out. */

#include "hs-travel-own.h"

#include "hs-plan-error.h"

#include <math.h>

static const HsTravelRules rules = HS_TRAVEL_RULES_INIT;

/* The estimate from T to Q is 373 s and 1.932 mi (test-plan-travel.c); S has no position. */
static const HsTravelPlace places[] = {
  { "T", TRUE, 40.0, -75.0 },
  { "Q", TRUE, 40.02, -75.0 },
  { "S", FALSE, 0.0, 0.0 },
};

enum
{
  MORNING,
  MIDDAY,
  AFTERNOON,
  NIGHT,
  ANY = HS_TRAVEL_ANY_BAND,
};

static void
test_median (void)
{
  static const struct
  {
    gint64 values[6];
    guint n;
    gint64 median;
  } rows[] = {
    { { 7 }, 1, 7 },
    { { 9, 4 }, 2, 7 },
    { { 4, 8 }, 2, 6 },
    { { 3, 1, 2 }, 3, 2 },
    { { 100, 1, 2, 3 }, 4, 3 },
    { { 5, 5, 1, 9, 5 }, 5, 5 },
    { { 0, 0, 0, 1, 1, 1 }, 6, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (gint64));

      g_array_append_vals (values, rows[i].values, rows[i].n);
      g_assert_cmpint (hs_travel_median (values), ==, rows[i].median);
    }
}

static HsTravelLeg
leg_of (const HsTravelKnown *known, guint from, guint to)
{
  g_autoptr (HsTravel) travel = NULL;
  g_autoptr (GError) error = NULL;

  hs_travel_fill (known, &rules, &travel, &error);
  g_assert_no_error (error);
  return hs_travel_get_leg (travel, from, to);
}

/* T to Q, by the number of trips of 600 s; each moves 373 s by a fifth of the difference, 227 s: 45.4 s. */
static void
test_few_and_many (void)
{
  static const struct
  {
    guint n;
    gint32 seconds;
    gboolean guess;
    HsTravelSource source;
  } rows[] = {
    { 0, 373, TRUE, HS_TRAVEL_GUESS }, { 1, 418, TRUE, HS_TRAVEL_FEW },  { 2, 464, TRUE, HS_TRAVEL_FEW },
    { 3, 509, TRUE, HS_TRAVEL_FEW },   { 4, 555, TRUE, HS_TRAVEL_FEW },  { 5, 600, FALSE, HS_TRAVEL_OWN },
    { 9, 600, FALSE, HS_TRAVEL_OWN },
  };
  HsTravelTrip trips[9];

  for (guint i = 0; i < G_N_ELEMENTS (trips); i++)
    trips[i] = (HsTravelTrip) { 0, 1, ANY, 600, -1 };
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsTravelKnown known = { places, 2, .trips = trips, .n_trips = rows[i].n, .band = ANY };
      HsTravelLeg leg = leg_of (&known, 0, 1);

      g_assert_cmpint (leg.seconds, ==, rows[i].seconds);
      g_assert_cmpint (leg.guess, ==, rows[i].guess);
      g_assert_cmpint (leg.source, ==, rows[i].source);
      g_assert_cmpint (leg.trips, ==, rows[i].n);
      g_assert_cmpint (leg.millimiles, ==, 1932);
      g_assert_cmpint (leg_of (&known, 1, 0).seconds, ==, rows[i].seconds);
    }
}

/* Both ways make one median, 500; out in the morning there are five trips of their own, back only two: 500 + 1/4 of
 * (700 - 500) = 550. Trips at a time that is not known count for the pair alone. */
static void
test_time_of_day (void)
{
  static const HsTravelTrip trips[] = {
    { 0, 1, MORNING, 610, -1 }, { 0, 1, MORNING, 650, -1 }, { 0, 1, MORNING, 640, -1 }, { 0, 1, MORNING, 630, -1 },
    { 0, 1, MORNING, 620, -1 }, { 1, 0, MORNING, 700, -1 }, { 1, 0, MORNING, 700, -1 }, { 0, 1, MIDDAY, 400, -1 },
    { 0, 1, MIDDAY, 390, -1 },  { 1, 0, MIDDAY, 380, -1 },  { 1, 0, MIDDAY, 370, -1 },  { 0, 1, ANY, 360, -1 },
    { 0, 1, ANY, 500, -1 },     { 0, 1, ANY, 350, -1 },     { 1, 0, ANY, 340, -1 },
  };
  static const struct
  {
    int band;
    guint from;
    gint32 seconds;
  } rows[] = {
    { ANY, 0, 500 },    { ANY, 1, 500 },     { MORNING, 0, 630 },   { MORNING, 1, 550 }, { MIDDAY, 0, 474 },
    { MIDDAY, 1, 469 }, { AFTERNOON, 0, 500 }, { NIGHT, 1, 500 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsTravelKnown known
          = { places, 2, .trips = trips, .n_trips = G_N_ELEMENTS (trips), .band = rows[i].band };
      HsTravelLeg leg = leg_of (&known, rows[i].from, 1 - rows[i].from);

      g_assert_cmpint (leg.seconds, ==, rows[i].seconds);
      g_assert_cmpint (leg.source, ==, HS_TRAVEL_OWN);
      g_assert_false (leg.guess);
      g_assert_cmpint (leg.trips, ==, 15);
    }
}

/* Trips at one time of day lean on the pair's figure of the whole day, and that on the estimate of 373 s; rounded once,
 * at the end: of n trips of 601 s in the morning, k of them this way,
 * w = 373 + n/5 of 228 and the drive is w + (k-1)/4 of (601 - w). */
static void
test_hour_leans (void)
{
  static const struct
  {
    guint there;
    guint back;
    gint32 seconds;
    HsTravelSource source;
    gboolean guess;
  } rows[] = {
    { 1, 0, 419, HS_TRAVEL_FEW, TRUE },   /* w 418.6; one is chance */
    { 0, 1, 419, HS_TRAVEL_FEW, TRUE },
    { 1, 1, 464, HS_TRAVEL_FEW, TRUE },   /* w 464.2 */
    { 2, 0, 498, HS_TRAVEL_FEW, TRUE },   /* w 464.2, then 498.4 */
    { 3, 0, 555, HS_TRAVEL_FEW, TRUE },   /* w 509.8, then 555.4 */
    { 2, 2, 567, HS_TRAVEL_FEW, TRUE },   /* w 555.4, then 566.8 */
    { 4, 0, 590, HS_TRAVEL_FEW, TRUE },   /* w 555.4, then 589.6 */
    { 1, 4, 601, HS_TRAVEL_OWN, FALSE },
    { 5, 0, 601, HS_TRAVEL_OWN, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsTravelTrip trips[5];
      guint n = rows[i].there + rows[i].back;
      HsTravelKnown known = { places, 2, .trips = trips, .n_trips = n, .band = MORNING };
      HsTravelLeg leg;

      for (guint k = 0; k < n; k++)
        trips[k] = k < rows[i].there ? (HsTravelTrip) { 0, 1, MORNING, 601, -1 }
                                     : (HsTravelTrip) { 1, 0, MORNING, 601, -1 };
      leg = leg_of (&known, 0, 1);
      g_assert_cmpint (leg.seconds, ==, rows[i].seconds);
      g_assert_cmpint (leg.source, ==, rows[i].source);
      g_assert_cmpint (leg.guess, ==, rows[i].guess);
      g_assert_cmpuint (leg.trips, ==, n);
      g_assert_cmpuint (leg.hour_trips, ==, rows[i].there);
      g_assert_cmpint (leg.base, ==, HS_TRAVEL_GUESS);
      known.band = NIGHT;
      g_assert_cmpuint (leg_of (&known, 0, 1).hour_trips, ==, 0);
    }
}

/* An even count has its middle between two seconds, which is not rounded before it is weighed: two trips of 603 and 604
 * s are 603.5. Over roads of 500 s that is 541.4 s for the day, and 556.9 in the morning, where rounding at each step
 * would say 542 and 558. */
static void
test_rounded_once (void)
{
  static const HsTravelPair pair = { 0, 1, 500, 2000, 0, HS_TRAVEL_ROADS };
  static const HsTravelTrip trips[] = { { 0, 1, MORNING, 603, -1 }, { 0, 1, MORNING, 604, -1 } };
  HsTravelKnown known = { places, 2, &pair, 1, trips, G_N_ELEMENTS (trips), ANY };

  g_assert_cmpint (leg_of (&known, 0, 1).seconds, ==, 541);
  known.band = MORNING;
  g_assert_cmpint (leg_of (&known, 0, 1).seconds, ==, 557);
  g_assert_cmpint (leg_of (&known, 0, 1).base, ==, HS_TRAVEL_ROADS);
}

/* Each place may be driven to at its own time: to Q in the morning, back to T at midday. */
static void
test_place_bands (void)
{
  static const int bands[] = { MIDDAY, MORNING };
  static const int bad[] = { MIDDAY, HS_TRAVEL_N_BANDS };
  HsTravelKnown known = { places, 2, .band = ANY, .place_bands = bands };
  HsTravel *none = NULL;
  HsTravelTrip trips[10];

  for (guint i = 0; i < G_N_ELEMENTS (trips); i++)
    trips[i] = i < 5 ? (HsTravelTrip) { 0, 1, MORNING, 600, -1 } : (HsTravelTrip) { 1, 0, MIDDAY, 800, -1 };
  known.trips = trips;
  known.n_trips = G_N_ELEMENTS (trips);
  g_assert_cmpint (leg_of (&known, 0, 1).seconds, ==, 600);
  g_assert_cmpint (leg_of (&known, 1, 0).seconds, ==, 800);
  known.place_bands = NULL;
  g_assert_cmpint (leg_of (&known, 0, 1).seconds, ==, 700);
  known.place_bands = bad;
  g_assert_false (hs_travel_fill (&known, &rules, &none, NULL));
}

/* The table says 1,000 s and 10.0 mi with some samples; two trips of 1,500 s and 12.0 mi come to it. With one sample: n
 * is 3, the median 1,500: 1,000 + 3/5 of 500. With two and three samples: 4 and 5 trips of the median 1,250 and 1,000.
 */
static void
test_table (void)
{
  static const HsTravelTrip trips[] = { { 0, 2, MIDDAY, 1500, 12000 }, { 2, 0, MIDDAY, 1500, 12000 } };
  static const struct
  {
    guint samples;
    gint32 seconds;
    gint64 millimiles;
    gboolean guess;
    HsTravelSource source;
  } rows[] = {
    { 0, 1200, 10800, TRUE, HS_TRAVEL_FEW },   { 1, 1300, 11200, TRUE, HS_TRAVEL_FEW },
    { 2, 1200, 10800, TRUE, HS_TRAVEL_FEW },   { 3, 1000, 10000, FALSE, HS_TRAVEL_FEW },
    { 5, 1000, 10000, FALSE, HS_TRAVEL_TABLED }, { 8, 1000, 10000, FALSE, HS_TRAVEL_TABLED },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsTravelPair pairs[] = {
        { 0, 2, 1000, 10000, rows[i].samples }, { 1, 2, 900, 9000, 5 }, { 0, 1, 300, 2000, 5 }, { 2, 2, 60, 100, 5 },
      };
      const HsTravelKnown known
          = { places, 3, pairs, G_N_ELEMENTS (pairs), trips, G_N_ELEMENTS (trips), ANY };
      HsTravelLeg leg = leg_of (&known, 0, 2);

      g_assert_cmpint (leg.seconds, ==, rows[i].seconds);
      g_assert_cmpint (leg.millimiles, ==, rows[i].millimiles);
      g_assert_cmpint (leg.guess, ==, rows[i].guess);
      g_assert_cmpint (leg.source, ==, rows[i].source);
      g_assert_cmpint (leg.trips, ==, 2);
    }
}

/* Many trips outvote the table: 3 samples of 1,000 s and five trips of 1,500 s. */
static void
test_outvoted_table (void)
{
  static const HsTravelPair pair = { 0, 1, 1000, 10000, 3 };
  HsTravelTrip trips[5];

  for (guint i = 0; i < G_N_ELEMENTS (trips); i++)
    trips[i] = (HsTravelTrip) { 1, 0, ANY, 1500, 9000 };
  {
    const HsTravelKnown known = { places, 2, &pair, 1, trips, G_N_ELEMENTS (trips), ANY };
    HsTravelLeg leg = leg_of (&known, 0, 1);

    g_assert_cmpint (leg.seconds, ==, 1500);
    g_assert_cmpint (leg.millimiles, ==, 9000);
    g_assert_cmpint (leg.source, ==, HS_TRAVEL_OWN);
  }
}

/* Few trips lean on roads without becoming a guess: 500 s + 1/5 of 100 s. */
static void
test_lean_on_roads (void)
{
  static const HsTravelPair pair = { 0, 1, 500, 2500, 0, HS_TRAVEL_ROADS };
  static const HsTravelTrip trip = { 0, 1, NIGHT, 600, 3000 };
  const HsTravelKnown known = { places, 2, &pair, 1, &trip, 1, ANY };
  HsTravelLeg leg = leg_of (&known, 0, 1);

  g_assert_cmpint (leg.seconds, ==, 520);
  g_assert_cmpint (leg.millimiles, ==, 2600);
  g_assert_cmpint (leg.source, ==, HS_TRAVEL_FEW);
  g_assert_false (leg.guess);
}

/* Nothing else is known about S: its one trip speaks, as a guess; 900 s at 40 km/h are 10 km, 6.214 mi, unless the trip
 * tells its miles. A hop inside a place is a pair like others. */
static void
test_nothing_else (void)
{
  static const struct
  {
    gint64 told;
    gint64 millimiles;
  } rows[] = { { -1, 6214 }, { 7000, 7000 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsTravelTrip trips[] = {
        { 2, 0, MIDDAY, 900, rows[i].told },
        { 1, 2, MIDDAY, 900, rows[i].told },
        { 2, 2, MIDDAY, 100, -1 },
      };
      const HsTravelKnown known = { places, 3, .trips = trips, .n_trips = 3, .band = ANY };
      HsTravelLeg leg = leg_of (&known, 0, 2);

      g_assert_cmpint (leg.seconds, ==, 900);
      g_assert_cmpint (leg.millimiles, ==, rows[i].millimiles);
      g_assert_cmpint (leg.source, ==, HS_TRAVEL_FEW);
      g_assert_cmpint (leg.base, ==, HS_TRAVEL_OWN);
      g_assert_true (leg.guess);
      g_assert_cmpint (leg_of (&known, 2, 2).seconds, ==, 260);
      g_assert_cmpint (leg_of (&known, 2, 2).millimiles, ==, 1000);
    }
}

static void
assert_errors (const HsTravelScore *score, HsTravelSource source, guint count, gint64 median)
{
  g_assert_cmpint (score->errors[source]->len, ==, count);
  if (count > 0)
    g_assert_cmpint (hs_travel_median (score->errors[source]), ==, median);
}

/* Six trips of 600 s between T and Q, one of 700: the estimate of 373 s is off by 227 six times; roads of 650 s by 50
 * each time; with the others known, 600 are off by 0, and the one of 700 by 100. */
static void
test_held_out (void)
{
  static const HsTravelPair pair = { 1, 0, 650, 2500, 0, HS_TRAVEL_ROADS };
  HsTravelTrip trips[7];
  HsTravelScore score;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (trips); i++)
    trips[i] = (HsTravelTrip) { i % 2, 1 - i % 2, ANY, i == 3 ? 700 : 600, -1 };
  {
    const HsTravelKnown known = { places, 3, &pair, 1, trips, G_N_ELEMENTS (trips), ANY };

    hs_travel_score_init (&score);
    g_assert_true (hs_travel_score_add (&score, &known, &rules, &error));
    assert_errors (&score, HS_TRAVEL_GUESS, 7, 227);
    assert_errors (&score, HS_TRAVEL_ROADS, 7, 50);
    assert_errors (&score, HS_TRAVEL_OWN, 7, 0);
    assert_errors (&score, HS_TRAVEL_FEW, 0, 0);
    assert_errors (&score, HS_TRAVEL_TABLED, 0, 0);
    g_assert_cmpint (g_array_index (score.errors[HS_TRAVEL_OWN], gint64, 6), ==, 100);
    hs_travel_score_clear (&score);
  }
}

/* Two trips to S of 900 and 1,000 s: nobody but the other trip says anything. With a table of 950 s and one sample, the
 * other trip and the sample have the median 925 or 975, and lean: 950 + 2/5 of ±25. */
static void
test_held_out_few (void)
{
  static const HsTravelTrip trips[] = { { 0, 2, MIDDAY, 900, -1 }, { 2, 0, MIDDAY, 1000, -1 } };
  static const HsTravelTrip lonely = { 0, 2, MIDDAY, 900, -1 };
  static const HsTravelPair pair = { 2, 0, 950, 5000, 1 };
  const HsTravelKnown bare = { places, 3, .trips = trips, .n_trips = 2, .band = ANY };
  const HsTravelKnown tabled = { places, 3, &pair, 1, trips, 2, ANY };
  const HsTravelKnown single = { places, 3, .trips = &lonely, .n_trips = 1, .band = ANY };
  HsTravelScore score;

  hs_travel_score_init (&score);
  g_assert_true (hs_travel_score_add (&score, &bare, &rules, NULL));
  assert_errors (&score, HS_TRAVEL_FEW, 2, 100);
  assert_errors (&score, HS_TRAVEL_GUESS, 0, 0);
  g_assert_true (hs_travel_score_add (&score, &single, &rules, NULL));
  assert_errors (&score, HS_TRAVEL_FEW, 2, 100);
  hs_travel_score_clear (&score);

  hs_travel_score_init (&score);
  g_assert_true (hs_travel_score_add (&score, &tabled, &rules, NULL));
  assert_errors (&score, HS_TRAVEL_TABLED, 2, 50);
  assert_errors (&score, HS_TRAVEL_FEW, 2, 60);
  hs_travel_score_clear (&score);
}

static void
test_held_out_refused (void)
{
  static const HsTravelTrip trip = { 0, 7, MIDDAY, 900, -1 };
  const HsTravelKnown known = { places, 3, .trips = &trip, .n_trips = 1, .band = ANY };
  g_autoptr (GError) error = NULL;
  HsTravelScore score;

  hs_travel_score_init (&score);
  g_assert_false (hs_travel_score_add (&score, &known, &rules, &error));
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
  hs_travel_score_clear (&score);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/travel-own/median", test_median);
  g_test_add_func ("/plan/travel-own/few-and-many", test_few_and_many);
  g_test_add_func ("/plan/travel-own/time-of-day", test_time_of_day);
  g_test_add_func ("/plan/travel-own/hour-leans", test_hour_leans);
  g_test_add_func ("/plan/travel-own/rounded-once", test_rounded_once);
  g_test_add_func ("/plan/travel-own/place-bands", test_place_bands);
  g_test_add_func ("/plan/travel-own/table", test_table);
  g_test_add_func ("/plan/travel-own/outvoted-table", test_outvoted_table);
  g_test_add_func ("/plan/travel-own/lean-on-roads", test_lean_on_roads);
  g_test_add_func ("/plan/travel-own/nothing-else", test_nothing_else);
  g_test_add_func ("/plan/travel-own/held-out", test_held_out);
  g_test_add_func ("/plan/travel-own/held-out-few", test_held_out_few);
  g_test_add_func ("/plan/travel-own/held-out-refused", test_held_out_refused);
  return g_test_run ();
}
