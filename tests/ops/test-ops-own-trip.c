// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which drives the book learns from: stamps of visits, the mileage log, and neither twice; and drives that come in as a
 * file. Times of day are those of the clock on the wall, also on the days when it is changed. */

#include "hs-own-trip.h"

#include "hs-desk-op.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"

#include <string.h>

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_run (test, "INSERT INTO setting (id, value) VALUES ('base_area', 'T');"
                         "INSERT INTO area (id, name) VALUES ('O', 'Old Market')");
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,area\nA-0001,555-0115,hums,H\nA-0002,555-0117,clicks,O\n"
                         "A-0003,555-0115,leaks,H\n",
                         3, 0, 0);
  return test;
}

static void
add_stamp (GString *sql, const char *text)
{
  if (g_str_equal (text, "-"))
    g_string_append (sql, ", NULL");
  else
    g_string_append_printf (sql, ", %" G_GINT64_FORMAT, hs_ops_test_at (text));
}

/* A visit by clock times in New York, "-" for a stamp that is missing. */
static void
visit (HsOpsTest *test, const char *number, const char *rolling, const char *arrived, const char *left)
{
  g_autoptr (GString) sql = g_string_new ("INSERT INTO visit (id, rolling_at, arrived_at, left_at, job_id)"
                                          " SELECT lower (hex (randomblob (8)))");

  add_stamp (sql, rolling);
  add_stamp (sql, arrived);
  add_stamp (sql, left);
  g_string_append_printf (sql, ", id FROM job WHERE number = '%s'", number);
  hs_ops_test_run (test, sql->str);
}

/* "T>H 720 -1 band" of each drive, in order. */
static void
assert_trips (HsOpsTest *test, const char *expected)
{
  g_autoptr (GPtrArray) trips = NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  hs_own_trip_list (test->book, &trips, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < trips->len; i++)
    {
      const HsOwnTrip *trip = g_ptr_array_index (trips, i);

      g_string_append_printf (text, "%s%s>%s %d %d %d", i > 0 ? "; " : "", trip->from, trip->to, (int) trip->seconds,
                              (int) trip->millimiles, trip->band);
    }
  g_assert_cmpstr (text->str, ==, expected);
}

/* One visit by its stamps: from the base, in its band; too short and too long are no drives. */
static void
test_first_of_the_day (void)
{
  static const struct
  {
    const char *rolling;
    const char *arrived;
    const char *expected;
  } rows[] = {
    { "2026-03-09T08:00", "2026-03-09T08:12", "T>H 720 -1 0" },
    { "2026-03-09T09:30", "2026-03-09T09:45", "T>H 900 -1 1" },
    { "2026-03-09T18:59", "2026-03-09T19:20", "T>H 1260 -1 2" },
    { "2026-03-09T23:50", "2026-03-10T00:05", "T>H 900 -1 3" },
    { "2026-03-09T08:00", "2026-03-09T08:01", "T>H 60 -1 0" },
    { "2026-03-09T08:00", "2026-03-09T11:00", "T>H 10800 -1 0" },
    { "2026-03-09T08:00:00", "2026-03-09T08:00:59", "" },
    { "2026-03-09T08:00:00", "2026-03-09T11:00:01", "" },
    { "-", "2026-03-09T08:12", "" },
    { "2026-03-09T08:00", "-", "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = start ();

      visit (test, "A-0001", rows[i].rolling, rows[i].arrived, "-");
      assert_trips (test, rows[i].expected);
    }
}

/* The day on which clocks go forward, 2026-03-08: 01:50 to 03:05 took a quarter of an hour. When they go back, on
 * 2026-11-01, the second 01:30 is an hour and a half after the first 01:00. Bands follow the wall all year. */
static void
test_clock_changes (void)
{
  static const struct
  {
    const char *rolling;
    const char *arrived;
    const char *expected;
  } rows[] = {
    { "2026-03-08T01:50", "2026-03-08T03:05", "T>H 900 -1 3" },
    { "2026-11-01T01:00-04:00", "2026-11-01T01:30-05:00", "T>H 5400 -1 3" },
    { "2026-03-07T06:00", "2026-03-07T06:10", "T>H 600 -1 0" },
    { "2026-03-09T06:00", "2026-03-09T06:10", "T>H 600 -1 0" },
    { "2026-03-09T05:59", "2026-03-09T06:09", "T>H 600 -1 3" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = start ();

      visit (test, "A-0001", rows[i].rolling, rows[i].arrived, "-");
      assert_trips (test, rows[i].expected);
    }
}

/* The second visit of a day, after one at H until 09:00. */
static void
test_next_of_the_day (void)
{
  static const struct
  {
    const char *left;
    const char *rolling;
    const char *arrived;
    const char *expected;
  } rows[] = {
    { "2026-03-09T09:00", "2026-03-09T09:00", "2026-03-09T09:10", "T>H 720 -1 0; H>O 600 -1 0" },
    { "2026-03-09T09:00", "2026-03-09T09:15", "2026-03-09T09:25", "T>H 720 -1 0; H>O 600 -1 0" },
    { "2026-03-09T09:00", "2026-03-09T09:16", "2026-03-09T09:25", "T>H 720 -1 0" },
    { "2026-03-09T09:00", "2026-03-09T08:59", "2026-03-09T09:25", "T>H 720 -1 0" },
    { "-", "2026-03-09T09:00", "2026-03-09T09:10", "T>H 720 -1 0" },
    { "2026-03-09T09:00", "2026-03-10T09:00", "2026-03-10T09:10", "T>H 720 -1 0; T>O 600 -1 0" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = start ();

      visit (test, "A-0001", "2026-03-09T08:00", "2026-03-09T08:12", rows[i].left);
      visit (test, "A-0002", rows[i].rolling, rows[i].arrived, "-");
      assert_trips (test, rows[i].expected);
    }
}

static void
test_without_a_base (void)
{
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_run (test, "DELETE FROM setting WHERE id = 'base_area'");
  visit (test, "A-0001", "2026-03-09T08:00", "2026-03-09T08:12", "2026-03-09T09:00");
  visit (test, "A-0002", "2026-03-09T09:00", "2026-03-09T09:10", "-");
  assert_trips (test, "H>O 600 -1 0");
}

/* Nobody knows how long the counter took. */
static void
test_counter_between (void)
{
  g_autoptr (HsOpsTest) test = start ();

  visit (test, "A-0001", "2026-03-09T08:00", "2026-03-09T08:12", "2026-03-09T09:00");
  visit (test, "A-0002", "2026-03-09T09:00", "2026-03-09T09:40", "-");
  hs_ops_test_run (test, "INSERT INTO day_plan (id, van_id, day, leave_at, home_at, accepted_at)"
                         " SELECT 'p', id, '2026-03-09', 1, 2, 3 FROM van;"
                         "INSERT INTO day_stop (id, plan_id, position, supplier_id)"
                         " SELECT 's1', 'p', 1, id FROM supplier LIMIT 1;"
                         "INSERT INTO day_stop (id, plan_id, position, job_id)"
                         " SELECT 's2', 'p', 2, id FROM job WHERE number = 'A-0002'");
  assert_trips (test, "T>H 720 -1 0");
}

static void
log_trip (HsOpsTest *test, const char *from, const char *to, gint64 seconds, const char *left, const char *number)
{
  g_autofree char *sql = g_strdup_printf ("SELECT id FROM job WHERE number = '%s'", number != NULL ? number : "");
  g_autofree char *job = number != NULL ? hs_ops_test_id (test, sql) : NULL;
  g_autoptr (GError) error = NULL;
  HsTripEntry entry = { .on = hs_date_from_ymd (2026, 3, 9), .from = from, .to = to, .seconds = seconds,
                        .millimiles = 5000, .purpose = "job", .job_id = job,
                        .left_at = left != NULL ? hs_ops_test_at (left) : 0 };

  hs_trip_add (test->book, &entry, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
}

/* Written down: with and without a moment, without a time, and for the drive that was stamped. */
static void
test_log (void)
{
  g_autoptr (HsOpsTest) test = start ();

  log_trip (test, "T", "O", 480, "2026-03-09T16:00", NULL);
  log_trip (test, "O", "T", 490, NULL, NULL);
  log_trip (test, "O", "T", 0, NULL, NULL);
  log_trip (test, NULL, "T", 500, NULL, NULL);
  assert_trips (test, "T>O 480 5000 2; O>T 490 5000 -1");
  visit (test, "A-0001", "2026-03-09T08:00", "2026-03-09T08:12", "-");
  log_trip (test, "T", "H", 700, NULL, "A-0001");
  log_trip (test, "H", "T", 710, NULL, "A-0001");
  assert_trips (test, "T>H 720 5000 0; T>O 480 5000 2; O>T 490 5000 -1; H>T 710 5000 -1");
  log_trip (test, "T", "H", 730, NULL, "A-0001");
  assert_trips (test, "T>H 720 5000 0; T>O 480 5000 2; O>T 490 5000 -1; H>T 710 5000 -1; T>H 730 5000 -1");
}

/* A position that is logged becomes an area of its own. */
static void
test_log_positions (void)
{
  g_autoptr (HsOpsTest) test = start ();

  log_trip (test, "T", "geo:41.2034,-74.5312;u=20", 480, NULL, NULL);
  log_trip (test, "41°12'12.24\"N 74°31'52.32\"W", "T", 500, NULL, NULL);
  assert_trips (test, "T>41.20340,-74.53120 480 5000 -1; 41.20340,-74.53120>T 500 5000 -1");
  hs_ops_test_one (test, "area WHERE id = '41.20340,-74.53120' AND name = id AND lat = 41.2034 AND lon = -74.5312");
}

/* Stamps as the owner gives them, by moving a job on. */
static void
test_moves (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *id = hs_ops_test_id (test, "SELECT id FROM job WHERE number = 'A-0001'");
  static const struct
  {
    HsStage stage;
    const char *at;
  } moves[] = {
    { HS_STAGE_PENCILED, "2026-03-09T07:00" },
    { HS_STAGE_PROMISED, "2026-03-09T07:01" },
    { HS_STAGE_ROLLING, "2026-03-09T08:00" },
    { HS_STAGE_ON_SITE, "2026-03-09T08:13" },
  };
  g_autoptr (GError) error = NULL;

  hs_ops_test_run (test, "UPDATE job SET day = '2026-03-09', window_from = 1773057600, window_to = 1773064800,"
                         " zone = 'America/New_York'");
  for (guint i = 0; i < G_N_ELEMENTS (moves); i++)
    {
      hs_job_move_stage (test->book, id, moves[i].stage, NULL, hs_ops_test_at (moves[i].at), &error);
      g_assert_no_error (error);
    }
  assert_trips (test, "T>H 780 -1 0");
}

/* The file: its moment is of the book's zone, known rows add nothing, another length changes them. */
static void
test_file (void)
{
  static const char head[] = "from,to,left,minutes,miles,van,purpose\n";
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *rows = g_strconcat (head, "T,H,2026-03-09T08:20,14,5.0,A,job\n"
                                       "Highcroft,T,2026-03-09T19:05Z,12.5,5,,\n"
                                       "T,\"41.2034, -74.5312\",2026-03-09T16:10,9,2.4,,parts\n", NULL);
  g_autofree char *other = g_strconcat (head, "T,H,2026-03-09T12:20Z,15,5.0,,\n", NULL);

  hs_ops_test_import_ok (test, "trips", rows, 3, 0, 0);
  hs_ops_test_import_ok (test, "trips", rows, 0, 0, 3);
  assert_trips (test, "T>H 840 5000 0; H>T 750 5000 2; T>41.20340,-74.53120 540 2400 2");
  hs_ops_test_one (test, "trip WHERE purpose = 'parts' AND on_date = '2026-03-09'");
  hs_ops_test_import_ok (test, "trips", other, 0, 1, 0);
  assert_trips (test, "T>H 900 5000 0; H>T 750 5000 2; T>41.20340,-74.53120 540 2400 2");
  g_assert_cmpint (hs_ops_test_count (test, "trip WHERE purpose = 'job'"), ==, 2);
}

static void
test_file_refused (void)
{
  static const struct
  {
    const char *row;
    const char *fault;
  } rows[] = {
    { "T,Nowhere,2026-03-09T08:20,14,5.0", "to: there is no area “Nowhere”" },
    { "T,\"95, 10\",2026-03-09T08:20,14,5.0", "to: “95, 10”: a latitude lies between" },
    { "T,H,yesterday,14,5.0", "left: " },
    { "T,H,2026-03-09,14,5.0", "left: " },
    { "T,H,2026-03-09T08:20,0.5,5.0", "minutes: " },
    { "T,H,2026-03-09T08:20,1441,5.0", "minutes: " },
    { "T,H,2026-03-09T08:20,14,-1", "miles: " },
    { "T,H,2026-03-09T08:20,14,", "miles: " },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = start ();
      g_autofree char *text = g_strconcat ("from,to,left,minutes,miles\n", rows[i].row, "\n", NULL);
      g_autofree char *said = g_strconcat ("trips.csv:2: ", rows[i].fault, NULL);
      g_autofree char *faults = NULL;

      g_assert_false (hs_ops_test_import (test, "trips", text, NULL, &faults));
      if (!g_str_has_prefix (faults, said))
        g_error ("“%s” is not “%s”", faults, said);
      assert_trips (test, "");
    }
}

static void
test_file_van (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *faults = NULL;

  g_assert_false (hs_ops_test_import (test, "trips", "from,to,left,minutes,miles,van\nT,H,2026-03-09T08:20,14,5.0,C\n",
                                      NULL, &faults));
  g_assert_true (g_str_has_prefix (faults, "trips.csv:2: van: "));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/own-trip/first-of-the-day", test_first_of_the_day);
  g_test_add_func ("/ops/own-trip/clock-changes", test_clock_changes);
  g_test_add_func ("/ops/own-trip/next-of-the-day", test_next_of_the_day);
  g_test_add_func ("/ops/own-trip/without-a-base", test_without_a_base);
  g_test_add_func ("/ops/own-trip/counter-between", test_counter_between);
  g_test_add_func ("/ops/own-trip/log", test_log);
  g_test_add_func ("/ops/own-trip/log-positions", test_log_positions);
  g_test_add_func ("/ops/own-trip/moves", test_moves);
  g_test_add_func ("/ops/own-trip/file", test_file);
  g_test_add_func ("/ops/own-trip/file-refused", test_file_refused);
  g_test_add_func ("/ops/own-trip/file-van", test_file_van);
  return g_test_run ();
}
