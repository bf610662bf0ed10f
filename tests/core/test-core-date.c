// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days: the calendar of ISO 8601, the ends of months, ages. */

#include "hs-date.h"

#include "core-test.h"

static void
test_parse_accepts (void)
{
  /* Days since the Unix epoch: 1970-01-01 is 0; the others by POSIX seconds since the Epoch ÷ 86400. */
  static const struct
  {
    const char *text;
    HsDate date;
  } rows[] = {
    { "1970-01-01", 0 },
    { "1969-12-31", -1 },
    { "1970-03-01", 59 },
    { "1972-02-29", 789 },
    { "2000-01-01", 10957 },
    { "2000-02-29", 11016 },
    { "2001-09-09", 11574 },
    { "2026-03-10", 20522 },
    { "2038-01-19", 24855 },
    { "0001-01-01", -719162 },
    { "9999-12-31", 2932896 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *back = hs_date_format (rows[i].date);

      g_assert_cmpint (day (rows[i].text), ==, rows[i].date);
      g_assert_cmpstr (back, ==, rows[i].text);
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
    { "", "is not a date" },
    { "2026", "is not a date" },
    { "2026-3-10", "is not a date" },
    { "10/03/2026", "is not a date" },
    { "2026-03-10 ", "is not a date" },
    { " 2026-03-10", "is not a date" },
    { "2026-03-1O", "is not a date" },
    { "2026/03/10", "is not a date" },
    { "20260310", "is not a date" },
    { "2026-03-10T00:00", "is not a date" },
    { "+026-03-10", "is not a date" },
    { "２026-03-10", "is not a date" },
    { "2026-00-10", "there is no day" },
    { "2026-13-01", "there is no day" },
    { "2026-02-29", "there is no day" },
    { "1900-02-29", "there is no day" },
    { "2026-04-31", "there is no day" },
    { "2026-01-00", "there is no day" },
    { "2026-01-32", "there is no day" },
    { "0000-01-01", "there is no day" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsDate date = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_date_parse (rows[i].text, &date, &error), &error, rows[i].words);
      g_assert_cmpint (date, ==, 4711);
    }
}

static void
test_ymd (void)
{
  static const struct
  {
    int year, month, day;
    const char *text;
  } rows[] = {
    { 2026, 3, 10, "2026-03-10" },
    { 2000, 2, 29, "2000-02-29" },
    { 1, 1, 1, "0001-01-01" },
    { 9999, 12, 31, "9999-12-31" },
    { 1900, 2, 29, "" },
    { 0, 1, 1, "" },
    { 10000, 1, 1, "" },
    { 2026, 0, 1, "" },
    { 2026, 13, 1, "" },
    { 2026, -1, 1, "" },
    { 2026, 1, 0, "" },
    { 2026, 1, 257, "" },
    { -2026, 1, 1, "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsDate date = hs_date_from_ymd (rows[i].year, rows[i].month, rows[i].day);
      g_autofree char *text = hs_date_format (date);
      int year, month, day_of_month;

      g_assert_cmpstr (text, ==, rows[i].text);
      if (*rows[i].text == '\0')
        {
          g_assert_cmpint (date, ==, HS_DATE_NONE);
          continue;
        }
      hs_date_to_ymd (date, &year, &month, &day_of_month);
      g_assert_cmpint (year, ==, rows[i].year);
      g_assert_cmpint (month, ==, rows[i].month);
      g_assert_cmpint (day_of_month, ==, rows[i].day);
      hs_date_to_ymd (date, NULL, NULL, NULL);
    }
}

static void
test_days_in_month (void)
{
  /* The Gregorian rule: every fourth year, not every hundredth, but every four hundredth. */
  static const int rows[][3] = {
    { 2026, 1, 31 }, { 2026, 2, 28 }, { 2024, 2, 29 }, { 1900, 2, 28 }, { 2000, 2, 29 }, { 2026, 4, 30 },
    { 2026, 12, 31 }, { 1, 1, 31 }, { 9999, 12, 31 }, { 2026, 0, 0 }, { 2026, 13, 0 }, { 0, 1, 0 }, { 10000, 1, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_date_days_in_month (rows[i][0], rows[i][1]), ==, rows[i][2]);
}

static void
test_add_months (void)
{
  static const struct
  {
    const char *from;
    int months;
    const char *to;
  } rows[] = {
    /* Warranty ends as worked out by hand for the usual cases of a clamped month end. */
    { "2024-02-29", 12, "2025-02-28" },
    { "2024-08-31", 6, "2025-02-28" },
    { "2026-03-15", 24, "2028-03-15" },
    { "2026-01-31", 1, "2026-02-28" },
    { "2024-01-31", 1, "2024-02-29" },
    { "2024-05-14", 36, "2027-05-14" },
    { "2025-09-02", 36, "2028-09-02" },
    { "2023-10-05", 24, "2025-10-05" },
    { "2023-02-21", 36, "2026-02-21" },
    { "2026-03-31", -1, "2026-02-28" },
    { "2026-01-15", -1, "2025-12-15" },
    { "2026-12-15", 1, "2027-01-15" },
    { "2026-03-10", 0, "2026-03-10" },
    { "9998-12-31", 12, "9999-12-31" },
    { "0001-02-28", -1, "0001-01-28" },
    { "0001-01-31", -1, "" },
    { "9999-12-01", 1, "" },
    { "2026-03-10", G_MAXINT, "" },
    { "2026-03-10", G_MININT, "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *to = hs_date_format (hs_date_add_months (day (rows[i].from), rows[i].months));

      g_assert_cmpstr (to, ==, rows[i].to);
    }
  g_assert_cmpint (hs_date_add_months (HS_DATE_NONE, 1), ==, HS_DATE_NONE);
}

static void
test_add_days (void)
{
  static const struct
  {
    const char *from;
    int days;
    const char *to;
  } rows[] = {
    /* Core deposits: day bought + the supplier's days. */
    { "2026-01-26", 45, "2026-03-12" },
    { "2026-02-12", 45, "2026-03-29" },
    { "2026-02-24", 60, "2026-04-25" },
    { "2026-03-02", 45, "2026-04-16" },
    { "2026-02-09", 30, "2026-03-11" },
    { "2026-03-01", -1, "2026-02-28" },
    { "2024-03-01", -1, "2024-02-29" },
    { "9999-12-31", 1, "" },
    { "0001-01-01", -1, "" },
    { "2026-03-10", G_MAXINT, "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *to = hs_date_format (hs_date_add_days (day (rows[i].from), rows[i].days));

      g_assert_cmpstr (to, ==, rows[i].to);
    }
  g_assert_cmpint (hs_date_add_days (HS_DATE_NONE, 1), ==, HS_DATE_NONE);
}

static void
test_months_between (void)
{
  static const struct
  {
    const char *from;
    const char *to;
    int months;
  } rows[] = {
    /* The battery of the demo: installed 5 October 2023, asked about on 10 March 2026. */
    { "2023-10-05", "2026-03-10", 29 },
    { "2023-10-10", "2026-03-10", 29 },
    { "2023-10-11", "2026-03-10", 28 },
    { "2026-01-31", "2026-02-28", 1 },
    { "2026-01-31", "2026-02-27", 0 },
    { "2024-02-29", "2025-02-28", 12 },
    { "2026-03-10", "2026-03-10", 0 },
    { "2026-03-10", "2026-04-09", 0 },
    { "2026-03-10", "2026-04-10", 1 },
    { "2026-04-10", "2026-03-10", -1 },
    { "2026-03-11", "2026-03-10", 0 },
    { "2000-01-01", "2026-01-01", 312 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_date_months_between (day (rows[i].from), day (rows[i].to)), ==, rows[i].months);
}

static void
test_weekday (void)
{
  static const struct
  {
    const char *text;
    int weekday;
  } rows[] = {
    /* ISO 8601 week dates: 2021-01-03 = 2020-W53-7, 2026-11-25 = 2026-W48-3. */
    { "2021-01-03", 7 },
    { "2026-11-25", 3 },
    { "2026-03-10", 2 },
    { "1970-01-01", 4 },
    { "2000-01-01", 6 },
    { "2026-03-09", 1 },
    { "2026-03-13", 5 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_date_weekday (day (rows[i].text)), ==, rows[i].weekday);
}

static void
test_format_none (void)
{
  static const HsDate rows[] = { HS_DATE_NONE, HS_DATE_NONE + 1, -719163, 2932897, G_MAXINT32 };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_date_format (rows[i]);

      g_assert_cmpstr (text, ==, "");
    }
}

/* Every day of four centuries, as one cycle of the Gregorian calendar has 146,097 of them. */
static void
test_cycle (void)
{
  HsDate first = day ("1800-01-01");
  HsDate last = day ("2200-01-01");

  g_assert_cmpint (last - first, ==, 146097);
  for (HsDate date = first; date < last; date++)
    {
      int year, month, day_of_month;

      hs_date_to_ymd (date, &year, &month, &day_of_month);
      g_assert_cmpint (hs_date_from_ymd (year, month, day_of_month), ==, date);
      g_assert_cmpint (hs_date_weekday (date + 1), ==, hs_date_weekday (date) % 7 + 1);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/date/parse-accepts", test_parse_accepts);
  g_test_add_func ("/date/parse-refuses", test_parse_refuses);
  g_test_add_func ("/date/ymd", test_ymd);
  g_test_add_func ("/date/days-in-month", test_days_in_month);
  g_test_add_func ("/date/add-months", test_add_months);
  g_test_add_func ("/date/add-days", test_add_days);
  g_test_add_func ("/date/months-between", test_months_between);
  g_test_add_func ("/date/weekday", test_weekday);
  g_test_add_func ("/date/format-none", test_format_none);
  g_test_add_func ("/date/cycle", test_cycle);
  return g_test_run ();
}
