// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Moments and clocks on the wall, above all on the two days of a year when clocks change. */

#include "hs-time.h"

#include "core-test.h"

static GTimeZone *
new_york (void)
{
  GTimeZone *zone = g_time_zone_new_identifier ("America/New_York");

  g_assert_nonnull (zone);
  return zone;
}

static HsInstant
instant (const char *text)
{
  HsInstant parsed;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_instant_parse (text, NULL, &parsed, &error));
  g_assert_no_error (error);
  return parsed;
}

static void
test_parse_accepts (void)
{
  static const struct
  {
    const char *text;
    HsInstant instant;
  } rows[] = {
    { "1970-01-01T00:00:00Z", 0 },
    { "1970-01-01T00:00Z", 0 },
    { "1969-12-31T23:59:59Z", -1 },
    /* RFC 3339 §5.8: 20 minutes and 50 seconds after the 23rd hour of April 12th, 1985, and the same with an offset. */
    { "1985-04-12T23:20:50Z", 482196050 },
    { "1996-12-19T16:39:57-08:00", 851042397 },
    { "1996-12-20T00:39:57Z", 851042397 },
    /* POSIX: 2^31 - 1 and 10^9 seconds. */
    { "2038-01-19T03:14:07Z", 2147483647 },
    { "2001-09-09T01:46:40Z", 1000000000 },
    /* RFC 9562 appendix A.6: 2022-02-22T19:22:22Z. */
    { "2022-02-22T19:22:22Z", 1645557742 },
    { "2022-02-22T14:22:22-05:00", 1645557742 },
    { "2026-03-10T10:45:00Z", 1773139500 },
    { "2026-03-10 06:45-04:00", 1773139500 },
    { "2026-03-10T16:15:00+05:30", 1773139500 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsInstant parsed = 4711;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_instant_parse (rows[i].text, NULL, &parsed, &error));
      g_assert_no_error (error);
      g_assert_cmpint (parsed, ==, rows[i].instant);
    }
}

static void
test_parse_refuses (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "", "is not a day and time" },
    { "2026-03-10", "is not a day and time" },
    { "2026-03-10T", "is not a day and time" },
    { "2026-03-10T6:45Z", "is not a day and time" },
    { "2026-03-10T06.45Z", "is not a day and time" },
    { "2026-03-10T24:00Z", "is not a day and time" },
    { "2026-03-10T06:60Z", "is not a day and time" },
    { "2026-12-31T23:59:60Z", "is not a day and time" },
    { "2026-03-10T06:45:1Z", "is not a day and time" },
    { "2026-03-10T06:45:00+0400", "is not a day and time" },
    { "2026-03-10T06:45:00+16:00", "is not a day and time" },
    { "2026-03-10T06:45:00+04:60", "is not a day and time" },
    { "2026-03-10T06:45:00+04:00 ", "is not a day and time" },
    { "2026-03-10T06:45:00z", "is not a day and time" },
    { "2026-03-10T06:45Zulu", "is not a day and time" },
    { "2022-02-22T14:22:22.000-05:00", "is not a day and time" },
    { "2026-03-10_06:45:00Z", "is not a day and time" },
    { "2026-02-30T06:45:00Z", "there is no day" },
    { "2026-3-100T06:45:00Z", "is not a date" },
    { "2026-03-10T06:45:00", "does not say where" },
    { "2026-03-10T06:45", "does not say where" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsInstant parsed = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_instant_parse (rows[i].text, NULL, &parsed, &error), &error, rows[i].words);
      g_assert_cmpint (parsed, ==, 4711);
    }
}

/* What clocks in New York showed and what instant that was (tz database: EST is -5, EDT -4 from 07:00Z on the second
 * Sunday of March to 06:00Z on the first Sunday of November; the cases of RFC 5545 §3.3.5 are 2007's). */
static void
test_parse_in_zone (void)
{
  static const struct
  {
    const char *wall;
    const char *instant;
  } rows[] = {
    { "2026-03-10T06:45", "2026-03-10T10:45:00Z" },
    { "2026-01-15T12:00", "2026-01-15T17:00:00Z" },
    { "2026-07-15T12:00", "2026-07-15T16:00:00Z" },
    { "2026-03-08T01:59:59", "2026-03-08T06:59:59Z" },
    { "2026-03-08T02:00", "2026-03-08T07:00:00Z" },
    { "2026-03-08T02:30", "2026-03-08T07:00:00Z" },
    { "2026-03-08T02:59:59", "2026-03-08T07:00:00Z" },
    { "2026-03-08T03:00", "2026-03-08T07:00:00Z" },
    { "2026-03-08T03:01", "2026-03-08T07:01:00Z" },
    { "2026-11-01T00:59:59", "2026-11-01T04:59:59Z" },
    { "2026-11-01T01:00", "2026-11-01T05:00:00Z" },
    { "2026-11-01T01:30", "2026-11-01T05:30:00Z" },
    { "2026-11-01T01:59:59", "2026-11-01T05:59:59Z" },
    { "2026-11-01T02:00", "2026-11-01T07:00:00Z" },
    { "2007-11-04T01:30", "2007-11-04T05:30:00Z" },
    { "2026-03-10T06:45Z", "2026-03-10T06:45:00Z" },
    { "2026-11-01T01:30-05:00", "2026-11-01T06:30:00Z" },
  };
  g_autoptr (GTimeZone) zone = new_york ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsInstant parsed;
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_instant_parse (rows[i].wall, zone, &parsed, &error));
      g_assert_no_error (error);
      text = hs_instant_format (parsed);
      g_assert_cmpstr (text, ==, rows[i].instant);
    }
}

static void
test_from_local (void)
{
  static const struct
  {
    const char *date;
    int minutes;
    const char *instant;
  } rows[] = {
    { "2026-03-10", 0, "2026-03-10T04:00:00Z" },
    { "2026-03-10", 405, "2026-03-10T10:45:00Z" },
    { "2026-03-08", 119, "2026-03-08T06:59:00Z" },
    { "2026-03-08", 150, "2026-03-08T07:00:00Z" },
    { "2026-03-08", 180, "2026-03-08T07:00:00Z" },
    { "2026-03-08", 1440, "2026-03-09T04:00:00Z" },
    { "2026-11-01", 90, "2026-11-01T05:30:00Z" },
    { "2026-11-01", 120, "2026-11-01T07:00:00Z" },
    { "2026-11-01", 1440, "2026-11-02T05:00:00Z" },
    { "2026-11-01", 1530, "2026-11-02T06:30:00Z" },
    { "2026-03-10", -60, "2026-03-10T03:00:00Z" },
  };
  g_autoptr (GTimeZone) zone = new_york ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_instant_format (hs_instant_from_local (zone, day (rows[i].date), rows[i].minutes));

      g_assert_cmpstr (text, ==, rows[i].instant);
    }
}

static void
test_to_local (void)
{
  static const struct
  {
    const char *instant;
    const char *date;
    int seconds;
    const char *local;
  } rows[] = {
    { "2026-03-10T10:45:00Z", "2026-03-10", 24300, "2026-03-10T06:45:00-04:00" },
    { "2026-03-10T03:59:59Z", "2026-03-09", 86399, "2026-03-09T23:59:59-04:00" },
    { "2026-03-08T06:59:59Z", "2026-03-08", 7199, "2026-03-08T01:59:59-05:00" },
    { "2026-03-08T07:00:00Z", "2026-03-08", 10800, "2026-03-08T03:00:00-04:00" },
    { "2026-11-01T05:30:00Z", "2026-11-01", 5400, "2026-11-01T01:30:00-04:00" },
    { "2026-11-01T06:30:00Z", "2026-11-01", 5400, "2026-11-01T01:30:00-05:00" },
    { "1970-01-01T00:00:00Z", "1969-12-31", 68400, "1969-12-31T19:00:00-05:00" },
  };
  g_autoptr (GTimeZone) zone = new_york ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsInstant moment = instant (rows[i].instant);
      HsDate date;
      int seconds;
      g_autofree char *local = hs_instant_format_local (zone, moment);

      hs_instant_to_local (zone, moment, &date, &seconds);
      g_assert_cmpint (date, ==, day (rows[i].date));
      g_assert_cmpint (seconds, ==, rows[i].seconds);
      g_assert_cmpstr (local, ==, rows[i].local);
      g_assert_cmpint (instant (local), ==, moment);
      hs_instant_to_local (zone, moment, NULL, NULL);
    }
}

/* Zones that make trouble: half-hour offsets, a half-hour change, the farthest east and west, a rule without a name. */
static void
test_other_zones (void)
{
  static const struct
  {
    const char *zone;
    const char *date;
    int minutes;
    const char *instant;
  } rows[] = {
    { "UTC", "2026-03-10", 405, "2026-03-10T06:45:00Z" },
    { "Asia/Kolkata", "2026-03-10", 405, "2026-03-10T01:15:00Z" },
    { "Pacific/Kiritimati", "2026-03-10", 0, "2026-03-09T10:00:00Z" },
    { "Pacific/Pago_Pago", "2026-03-10", 0, "2026-03-10T11:00:00Z" },
    /* Lord Howe Island goes from +10:30 to +11 at 2 on the first Sunday of October. */
    { "Australia/Lord_Howe", "2026-10-04", 135, "2026-10-03T15:30:00Z" },
    { "Australia/Lord_Howe", "2026-10-04", 150, "2026-10-03T15:30:00Z" },
    { "Europe/London", "2026-03-29", 90, "2026-03-29T01:00:00Z" },
    { "Europe/London", "2026-10-25", 90, "2026-10-25T00:30:00Z" },
    { "-05:00", "2026-03-10", 0, "2026-03-10T05:00:00Z" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (rows[i].zone);
      g_autofree char *text = NULL;

      g_assert_nonnull (zone);
      text = hs_instant_format (hs_instant_from_local (zone, day (rows[i].date), rows[i].minutes));
      g_assert_cmpstr (text, ==, rows[i].instant);
    }
}

/* Each minute of a year that a clock shows leads back to itself, and to the earlier one where it comes twice. */
static void
test_year_of_minutes (void)
{
  g_autoptr (GTimeZone) zone = new_york ();
  HsInstant first = instant ("2026-01-01T05:00:00Z");
  HsInstant last = instant ("2027-01-01T05:00:00Z");
  guint twice = 0;

  for (HsInstant moment = first; moment < last; moment += 60)
    {
      HsDate date;
      int seconds;
      HsInstant back;

      hs_instant_to_local (zone, moment, &date, &seconds);
      back = hs_instant_from_local (zone, date, seconds / 60);
      if (back != moment)
        {
          g_assert_cmpint (back, ==, moment - 3600);
          twice++;
        }
    }
  g_assert_cmpuint (twice, ==, 60);
}

static void
test_offset (void)
{
  g_autoptr (GTimeZone) zone = new_york ();

  g_assert_cmpint (hs_instant_offset (zone, instant ("2026-03-08T06:59:59Z")), ==, -5 * 3600);
  g_assert_cmpint (hs_instant_offset (zone, instant ("2026-03-08T07:00:00Z")), ==, -4 * 3600);
}

static void
test_format_edges (void)
{
  static const struct
  {
    HsInstant instant;
    const char *text;
  } rows[] = {
    { HS_INSTANT_NONE, "" },
    { G_MAXINT64, "" },
    { G_GINT64_CONSTANT (-62135596800), "0001-01-01T00:00:00Z" },
    { G_GINT64_CONSTANT (-62135596801), "" },
    { G_GINT64_CONSTANT (253402300799), "9999-12-31T23:59:59Z" },
    { G_GINT64_CONSTANT (253402300800), "" },
  };
  g_autoptr (GTimeZone) zone = new_york ();
  g_autofree char *none = hs_instant_format_local (zone, HS_INSTANT_NONE);

  g_assert_cmpstr (none, ==, "");
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_instant_format (rows[i].instant);

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

static void
test_clock (void)
{
  static const struct
  {
    const char *text;
    int minutes;
    const char *back;
  } rows[] = {
    { "00:00", 0, "00:00" },
    { "08:31", 511, "08:31" },
    { "8:31", 511, "08:31" },
    { "12:30", 750, "12:30" },
    { "23:59", 1439, "23:59" },
    { "24:00", 1440, "24:00" },
  };
  g_autofree char *late = hs_clock_format (1510);
  g_autofree char *early = hs_clock_format (-15);

  g_assert_cmpstr (late, ==, "25:10");
  g_assert_cmpstr (early, ==, "-00:15");
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int minutes;
      g_autofree char *back = NULL;

      g_assert_true (hs_clock_parse (rows[i].text, &minutes, NULL));
      g_assert_cmpint (minutes, ==, rows[i].minutes);
      back = hs_clock_format (minutes);
      g_assert_cmpstr (back, ==, rows[i].back);
    }
}

static void
test_clock_refuses (void)
{
  static const char *const rows[] = {
    "", "8", "8:3", "08:60", "24:01", "25:00", "08.30", "08:30:00", "-8:30", " 8:30", "08:30 ", "ab:cd", "8:30pm",
    ":830",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int minutes = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_clock_parse (rows[i], &minutes, &error), &error, "is not a time of day");
      g_assert_cmpint (minutes, ==, 4711);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/time/parse-accepts", test_parse_accepts);
  g_test_add_func ("/time/parse-refuses", test_parse_refuses);
  g_test_add_func ("/time/parse-in-zone", test_parse_in_zone);
  g_test_add_func ("/time/from-local", test_from_local);
  g_test_add_func ("/time/to-local", test_to_local);
  g_test_add_func ("/time/other-zones", test_other_zones);
  g_test_add_func ("/time/year-of-minutes", test_year_of_minutes);
  g_test_add_func ("/time/offset", test_offset);
  g_test_add_func ("/time/format-edges", test_format_edges);
  g_test_add_func ("/time/clock", test_clock);
  g_test_add_func ("/time/clock-refuses", test_clock_refuses);
  return g_test_run ();
}
