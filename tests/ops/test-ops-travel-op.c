// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long a drive takes, by its source, between places of every sort; how the day hears of it; how far off it is. */

#include "hs-travel-op.h"

#include "hs-day-build.h"
#include "ops-town.h"

#include <string.h>

/* X and Y have positions 0.02° of latitude apart and no drive in the table: 2,221 m, × 1.4 at 30 km/h 373 s, 1.932 mi
 * (test-plan-travel.c). Z has nothing. */
static OpsTown *
start (void)
{
  OpsTown *town = ops_town_new ();

  ops_town_set (town, "base_area", "T");
  ops_town_add (town, "areas",
                "code,name,position\nX,Far Moor,\"40.0, -75.0\"\nY,Near Moor,\"40.02, -75.0\"\nZ,Low Moor,\n");
  return town;
}

/* @n trips between two areas on days of their own, each leaving at @clock. */
static void
drive_often (OpsTown *town, const char *from, const char *to, guint n, const char *clock, const char *minutes)
{
  g_autoptr (GString) csv = g_string_new ("from,to,left,minutes,miles\n");

  for (guint i = 0; i < n; i++)
    g_string_append_printf (csv, "%s,%s,2026-02-%02uT%s,%s,2.5\n", from, to, i + 1, clock, minutes);
  ops_town_add (town, "trips", csv->str);
}

static void
assert_drive (OpsTown *town, const char *from, const char *to, int at, gint64 seconds, gint64 millimiles,
              const char *source)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsKnownDrive) drive = hs_known_drive_ask (town->book, from, to, at, NULL, 0, &error);

  g_assert_no_error (error);
  g_assert_cmpint (drive->leg.seconds, ==, seconds);
  g_assert_cmpint (drive->leg.millimiles, ==, millimiles);
  g_assert_cmpstr (hs_travel_source_id (drive->leg.source), ==, source);
}

static void
test_sources (void)
{
  static const struct
  {
    const char *from;
    const char *to;
    gint64 seconds;
    gint64 millimiles;
    const char *source;
  } rows[] = {
    { "T", "H", 720, 5000, "table" },
    { "Highcroft", "t", 720, 5000, "table" },
    { "T", "T", 240, 1000, "table" },
    { "X", "Y", 373, 1932, "guess" },
    { "40.0,-75.0", "Near Moor", 373, 1932, "guess" },
    { "geo:40,-75", "40°1'12\"N 75°W", 373, 1932, "guess" },
    { "X", "X", 300, 1000, "guess" },
    { "40,-75", "40.0, -75.0", 300, 1000, "guess" },
    { "Z", "Z", 300, 1000, "guess" },
    { "Kingpost Parts Counter", "Larch & Weir Auto Electrical", 540, 3200, "table" },
  };
  g_autoptr (OpsTown) town = start ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_drive (town, rows[i].from, rows[i].to, -1, rows[i].seconds, rows[i].millimiles, rows[i].source);
}

/* Three trips of 10 min pull 373 s to 509 s and 1.932 mi to 2.273 mi; five are heard alone. In the morning they are
 * heard the more: 509.2 + 2/4 of 90.8 is 554.6 s. */
static void
test_own_trips (void)
{
  g_autoptr (OpsTown) town = start ();

  drive_often (town, "X", "Y", 3, "08:00", "10");
  assert_drive (town, "X", "Y", -1, 509, 2273, "few_trips");
  assert_drive (town, "Y", "X", -1, 509, 2273, "few_trips");
  assert_drive (town, "X", "Y", 8 * 60, 555, 2386, "few_trips");
  assert_drive (town, "X", "Y", 12 * 60, 509, 2273, "few_trips");
  assert_drive (town, "Y", "X", 8 * 60, 509, 2273, "few_trips");
  drive_often (town, "X", "Y", 5, "08:00", "10");
  assert_drive (town, "X", "Y", -1, 600, 2500, "own_trips");
  drive_often (town, "X", "Y", 5, "16:00", "20");
  assert_drive (town, "X", "Y", 16 * 60, 1200, 2500, "own_trips");
  assert_drive (town, "X", "Y", 8 * 60, 600, 2500, "own_trips");
  assert_drive (town, "X", "Y", 24 * 60, 900, 2500, "own_trips");
}

static void
test_settings (void)
{
  g_autoptr (OpsTown) town = start ();

  ops_town_set (town, "short_kmh", "60");
  ops_town_set (town, "short_detour_percent", "100");
  ops_town_set (town, "hop_minutes", "2");
  ops_town_set (town, "hop_miles", "0.3");
  /* 2,220.7 m at 60 km/h are 133 s and 1.380 mi. */
  assert_drive (town, "X", "Y", -1, 133, 1380, "guess");
  assert_drive (town, "X", "X", -1, 120, 300, "guess");
}

static void
test_refused (void)
{
  static const struct
  {
    const char *from;
    const char *to;
    const char *said;
  } rows[] = {
    { "X", "Z", "Low Moor has no position" },
    { "Far End", "X", "There is no place “Far End”" },
    { "X", "Far End", "There is no place “Far End”" },
    { "95,0", "X", "a latitude lies between" },
  };
  g_autoptr (OpsTown) town = start ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_known_drive_ask (town->book, rows[i].from, rows[i].to, -1, NULL, 0, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, rows[i].said));
    }
}

static HsDayBuild *
build_day (OpsTown *town, HsDayFacts **ret_facts, const char *extra)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsVanRow) van = hs_day_find_van (town->book, NULL, &error);
  HsDayBuild *build;

  *ret_facts = hs_day_facts_load (town->book, ops_town_day ("2026-03-10"), van, NULL, extra, NULL, &error);
  g_assert_no_error (error);
  build = hs_day_build (*ret_facts, extra, &error);
  g_assert_no_error (error);
  return build;
}

static void
assert_leg (const HsDayBuild *build, const char *from, const char *to, gint64 seconds, HsTravelSource source)
{
  HsTravelLeg leg = hs_travel_get_leg (build->travel, (guint) hs_day_build_place (build, from),
                                       (guint) hs_day_build_place (build, to));

  g_assert_cmpint (leg.seconds, ==, seconds);
  g_assert_cmpint (leg.source, ==, source);
}

/* The plan of a day hears of own trips, of a base that is a position, and of a call at one. */
static void
test_day (void)
{
  g_autoptr (OpsTown) town = start ();
  g_autoptr (HsDayFacts) facts = NULL;
  g_autoptr (HsDayBuild) build = NULL;

  ops_town_set (town, "base_area", "geo:40.02,-75");
  ops_town_add (town, "jobs",
                "number,customer_phone,words,stage,area,day,window_from,window_to,minutes\n"
                "A-0001,555-0115,hums,promised,X,2026-03-10,08:00,10:00,30\n"
                "A-0002,555-0117,hums,promised,Z,2026-03-10,09:00,12:00,30\n");
  drive_often (town, "X", "Z", 5, "08:00", "11");
  drive_often (town, "\"40.02, -75\"", "Z", 2, "08:00", "15");
  build = build_day (town, &facts, NULL);
  g_assert_cmpuint (build->left_out->len, ==, 0);
  assert_leg (build, "40.02000,-75.00000", "X", 373, HS_TRAVEL_GUESS);
  assert_leg (build, "X", "Z", 660, HS_TRAVEL_OWN);
  assert_leg (build, "Z", "X", 660, HS_TRAVEL_OWN);
  assert_leg (build, "Z", "40.02000,-75.00000", 900, HS_TRAVEL_FEW);
}

/* Five trips of 10 min in the morning and five of 20 in the afternoon: a window within one time of day hears its own, a
 * wider one, or two that differ, the median of all, 15 min. The way home may be at any time. */
static void
test_day_bands (void)
{
#define CALL(number, window) number ",555-0115,hums,promised,Y,2026-03-10," window ",30\n"
  static const struct
  {
    const char *calls;
    gint64 seconds;
  } rows[] = {
    { CALL ("A-0001", "08:00,09:30"), 600 },
    { CALL ("A-0001", "08:00,09:31"), 900 },
    { CALL ("A-0001", "06:00,06:00"), 600 },
    { CALL ("A-0001", "05:59,06:30"), 900 },
    { CALL ("A-0001", "15:00,19:00"), 1200 },
    { CALL ("A-0001", ","), 900 },
    { CALL ("A-0001", "00:00,24:00"), 900 },
    { CALL ("A-0001", "08:00,09:00") CALL ("A-0002", "06:30,08:30"), 600 },
    { CALL ("A-0001", "08:00,09:00") CALL ("A-0002", "16:00,18:00"), 900 },
    { CALL ("A-0001", "08:00,09:00") CALL ("A-0002", "16:00,18:00") CALL ("A-0003", "16:00,18:00"), 900 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = start ();
      g_autofree char *csv = g_strconcat ("number,customer_phone,words,stage,area,day,window_from,window_to,minutes\n",
                                          rows[i].calls, NULL);
      g_autoptr (HsDayFacts) facts = NULL;
      g_autoptr (HsDayBuild) build = NULL;

      ops_town_set (town, "base_area", "X");
      drive_often (town, "X", "Y", 5, "08:00", "10");
      drive_often (town, "X", "Y", 5, "16:00", "20");
      ops_town_add (town, "jobs", csv);
      build = build_day (town, &facts, NULL);
      assert_leg (build, "X", "Y", rows[i].seconds, HS_TRAVEL_OWN);
      assert_leg (build, "Y", "X", 900, HS_TRAVEL_OWN);
    }
#undef CALL
}

/* A call that is squeezed in may stand at a position that the book has never heard of. */
static void
test_day_extra (void)
{
  g_autoptr (OpsTown) town = start ();
  g_autoptr (HsDayFacts) facts = NULL;
  g_autoptr (HsDayBuild) build = NULL;

  ops_town_set (town, "base_area", "X");
  ops_town_add (town, "jobs",
                "number,customer_phone,words,stage,area,day,window_from,window_to,minutes\n"
                "A-0001,555-0115,hums,promised,X,2026-03-10,08:00,10:00,30\n");
  build = build_day (town, &facts, "40.02 N, 75.0 W");
  assert_leg (build, "X", "40.02 N, 75.0 W", 373, HS_TRAVEL_GUESS);
}

static void
assert_accuracy (const HsTravelAccuracy *accuracy, HsTravelSource source, guint count, gint64 off_seconds)
{
  g_assert_cmpuint (accuracy->count[source], ==, count);
  g_assert_cmpint (accuracy->off_seconds[source], ==, off_seconds);
}

/* Three trips of 600 s from X to Y, foretold from the other two: 373 + 2/5 of 227 is 463.8, and in the morning
 * 463.8 + 1/4 of 136.2 is 498: 102 off. Six of 780 s from T to H, where the table says 720. */
static void
test_accuracy (void)
{
  g_autoptr (OpsTown) town = start ();
  HsTravelAccuracy accuracy;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_travel_accuracy (town->book, &accuracy, &error));
  g_assert_cmpuint (accuracy.trips, ==, 0);
  for (HsTravelSource source = HS_TRAVEL_TABLED; source <= HS_TRAVEL_OWN; source++)
    assert_accuracy (&accuracy, source, 0, -1);
  drive_often (town, "X", "Y", 3, "08:00", "10");
  drive_often (town, "T", "H", 6, "08:00", "13");
  drive_often (town, "X", "Z", 1, "08:00", "13");
  g_assert_true (hs_travel_accuracy (town->book, &accuracy, &error));
  g_assert_cmpuint (accuracy.trips, ==, 10);
  assert_accuracy (&accuracy, HS_TRAVEL_GUESS, 3, 227);
  assert_accuracy (&accuracy, HS_TRAVEL_FEW, 3, 102);
  assert_accuracy (&accuracy, HS_TRAVEL_TABLED, 6, 60);
  assert_accuracy (&accuracy, HS_TRAVEL_OWN, 6, 0);
  assert_accuracy (&accuracy, HS_TRAVEL_ROADS, 0, -1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/travel-op/sources", test_sources);
  g_test_add_func ("/ops/travel-op/own-trips", test_own_trips);
  g_test_add_func ("/ops/travel-op/settings", test_settings);
  g_test_add_func ("/ops/travel-op/refused", test_refused);
  g_test_add_func ("/ops/travel-op/day", test_day);
  g_test_add_func ("/ops/travel-op/day-bands", test_day_bands);
  g_test_add_func ("/ops/travel-op/day-extra", test_day_extra);
  g_test_add_func ("/ops/travel-op/accuracy", test_accuracy);
  return g_test_run ();
}
