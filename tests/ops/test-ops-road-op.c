// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Drives over roads by a map that is made up: north takes 100 s a hundredth of a degree, south 200 s, always 1 mile;
 * no road leads beyond 50 degrees. What is kept, what is driven again, and who hears of it. */

#include "hs-road-op.h"

#include "hs-day-build.h"
#include "hs-travel-op.h"
#include "ops-town.h"

#include <math.h>

typedef struct
{
  guint driven;
  gboolean broken;
} FakeMap;

static gboolean
fake_drive (gpointer data, double from_latitude, double from_longitude, double to_latitude, double to_longitude,
            gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles, GError **error)
{
  FakeMap *map = data;
  double north = to_latitude - from_latitude;

  if (map->broken)
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_FAILED, "the map is torn");
      return FALSE;
    }
  map->driven++;
  *ret_found = fabs (to_latitude) <= 50 && fabs (from_latitude) <= 50;
  *ret_seconds = llround (fabs (north) * 100 * (north > 0 ? 100 : 200));
  *ret_millimiles = 1000;
  return TRUE;
}

static HsRoadSource
source_of (FakeMap *map, const char *stamp)
{
  return (HsRoadSource) { "motorcar", stamp, fake_drive, map };
}

/* X and Y are 0.02° apart, W lies beyond all roads, Z nowhere; the town's other areas have no position. */
static OpsTown *
start (void)
{
  OpsTown *town = ops_town_new ();

  ops_town_set (town, "base_area", "X");
  ops_town_add (town, "areas",
                "code,name,position\nX,Far Moor,\"40.0, -75.0\"\nY,Near Moor,\"40.02, -75.0\"\n"
                "W,White Moor,\"60.0, -75.0\"\nZ,Low Moor,\n");
  return town;
}

static guint
fill (OpsTown *town, FakeMap *map, const char *stamp)
{
  HsRoadSource source = source_of (map, stamp);
  g_autoptr (GError) error = NULL;
  guint driven = G_MAXUINT;

  hs_road_fill (town->book, &source, ops_town_now (town), &driven, &error);
  g_assert_no_error (error);
  return driven;
}

static void
assert_drive (OpsTown *town, const char *from, const char *to, const HsRoadSource *map, gint64 seconds,
              const char *source)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsKnownDrive) drive = hs_known_drive_ask (town->book, from, to, -1, map, ops_town_now (town), &error);

  g_assert_no_error (error);
  g_assert_cmpint (drive->leg.seconds, ==, seconds);
  g_assert_cmpstr (hs_travel_source_id (drive->leg.source), ==, source);
}

/* Three places, both ways; a second time nothing is driven, another map drives all anew. */
static void
test_fill (void)
{
  g_autoptr (OpsTown) town = start ();
  FakeMap map = { 0 };

  g_assert_cmpuint (fill (town, &map, "m1"), ==, 6);
  g_assert_cmpuint (fill (town, &map, "m1"), ==, 0);
  g_assert_cmpuint (map.driven, ==, 6);
  assert_drive (town, "X", "Y", NULL, 200, "roads");
  assert_drive (town, "Y", "X", NULL, 400, "roads");
  assert_drive (town, "40.02,-75.0", "40.0 N 75.0 W", NULL, 400, "roads");
  assert_drive (town, "X", "X", NULL, 300, "guess");
  assert_drive (town, "T", "H", NULL, 720, "table");
  ops_town_add (town, "areas", "code,name,position\nV,Vale,\"40.05, -75.0\"\n");
  g_assert_cmpuint (fill (town, &map, "m1"), ==, 6);
  g_assert_cmpuint (fill (town, &map, "m2"), ==, 12);
  assert_drive (town, "X", "V", NULL, 500, "roads");
}

/* Where no road leads, the estimate stands in. */
static void
test_no_road (void)
{
  g_autoptr (OpsTown) town = start ();
  FakeMap map = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsKnownDrive) drive = NULL;

  fill (town, &map, "m1");
  drive = hs_known_drive_ask (town->book, "X", "W", -1, NULL, 0, &error);
  g_assert_no_error (error);
  g_assert_cmpint (drive->leg.source, ==, HS_TRAVEL_GUESS);
  g_assert_true (drive->leg.guess);
}

/* Asked with a map at hand, a drive is driven once; the map of the book is then that one. */
static void
test_ask (void)
{
  g_autoptr (OpsTown) town = start ();
  FakeMap map = { 0 };
  HsRoadSource first = source_of (&map, "m1");
  HsRoadSource second = source_of (&map, "m2");

  assert_drive (town, "X", "Y", NULL, 373, "guess");
  assert_drive (town, "X", "Y", &first, 200, "roads");
  assert_drive (town, "X", "Y", &first, 200, "roads");
  g_assert_cmpuint (map.driven, ==, 1);
  assert_drive (town, "X", "Y", NULL, 200, "roads");
  assert_drive (town, "Y", "X", NULL, 200, "roads");
  assert_drive (town, "Y", "X", &first, 400, "roads");
  assert_drive (town, "X", "40.03,-75.0", &second, 300, "roads");
  g_assert_cmpuint (map.driven, ==, 3);
  assert_drive (town, "X", "Y", NULL, 373, "guess");
  assert_drive (town, "T", "H", &second, 720, "table");
  g_assert_cmpuint (map.driven, ==, 3);
}

static void
test_torn (void)
{
  g_autoptr (OpsTown) town = start ();
  FakeMap map = { 0, TRUE };
  HsRoadSource source = source_of (&map, "m1");
  g_autoptr (GError) error = NULL;
  guint driven = 7;

  g_assert_false (hs_road_fill (town->book, &source, ops_town_now (town), &driven, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_FAILED);
  g_assert_cmpuint (driven, ==, 7);
  g_clear_error (&error);
  g_assert_null (hs_known_drive_ask (town->book, "X", "Y", -1, &source, ops_town_now (town), &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_FAILED);
  assert_drive (town, "X", "Y", NULL, 373, "guess");
}

/* The plan of a day drives on the map too; own trips still go first. */
static void
test_day (void)
{
  g_autoptr (OpsTown) town = start ();
  FakeMap map = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsVanRow) van = hs_day_find_van (town->book, NULL, &error);
  g_autoptr (HsDayFacts) facts = NULL;
  g_autoptr (HsDayBuild) build = NULL;
  HsTravelLeg there, back;

  ops_town_add (town, "jobs",
                "number,customer_phone,words,stage,area,day,window_from,window_to,minutes\n"
                "A-0001,555-0115,hums,promised,Y,2026-03-10,08:00,10:00,30\n");
  fill (town, &map, "m1");
  ops_town_add (town, "trips", "from,to,left,minutes,miles\nX,Y,2026-03-09T08:00,10,2.0\n");
  facts = hs_day_facts_load (town->book, ops_town_day ("2026-03-10"), van, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  build = hs_day_build (facts, NULL, &error);
  g_assert_no_error (error);
  there = hs_travel_get_leg (build->travel, 0, 1);
  back = hs_travel_get_leg (build->travel, 1, 0);
  /* 200 s + 1/5 of 400, 400 s + 1/5 of 200, both from the one trip of 600 s. */
  g_assert_cmpint (there.seconds, ==, 280);
  g_assert_cmpint (back.seconds, ==, 440);
  g_assert_cmpint (there.source, ==, HS_TRAVEL_FEW);
  g_assert_false (there.guess);
}

/* X to Y took 300 s, the map says 200 and the estimate 373. */
static void
test_accuracy (void)
{
  g_autoptr (OpsTown) town = start ();
  FakeMap map = { 0 };
  HsTravelAccuracy accuracy;
  g_autoptr (GError) error = NULL;

  fill (town, &map, "m1");
  ops_town_add (town, "trips", "from,to,left,minutes,miles\nX,Y,2026-03-09T08:00,5,2.0\n");
  g_assert_true (hs_travel_accuracy (town->book, &accuracy, &error));
  g_assert_cmpuint (accuracy.count[HS_TRAVEL_ROADS], ==, 1);
  g_assert_cmpint (accuracy.off_seconds[HS_TRAVEL_ROADS], ==, 100);
  g_assert_cmpint (accuracy.off_seconds[HS_TRAVEL_GUESS], ==, 73);
  g_assert_cmpuint (accuracy.count[HS_TRAVEL_FEW], ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/road-op/fill", test_fill);
  g_test_add_func ("/ops/road-op/no-road", test_no_road);
  g_test_add_func ("/ops/road-op/ask", test_ask);
  g_test_add_func ("/ops/road-op/torn", test_torn);
  g_test_add_func ("/ops/road-op/day", test_day);
  g_test_add_func ("/ops/road-op/accuracy", test_accuracy);
  return g_test_run ();
}
