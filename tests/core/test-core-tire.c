// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tires: tread in both units, weeks and codes against 49 CFR 574.5 and printed examples, miles left. */

#include "core-test.h"
#include "hs-decimal.h"
#include "hs-tire.h"

#include <math.h>

#define TODAY "2026-11-25"

/* TYR-2: 2/32 in are 1.5875 mm, to the last digit. */
static void
test_tread (void)
{
  static const struct
  {
    const char *thirtyseconds;
    const char *mm;
  } rows[] = {
    { "2", "1.5875" }, { "1", "0.79375" }, { "4", "3.175" }, { "10", "7.9375" }, { "32", "25.4" }, { "0", "0" },
    { "2.5", "1.984375" }, { "0.000000001", "0" }, { "100", "79.375" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 thirtyseconds, mm;

      g_assert_true (hs_decimal_parse (rows[i].thirtyseconds, HS_DECIMAL_MOST, &thirtyseconds, NULL));
      g_assert_true (hs_decimal_parse (rows[i].mm, HS_DECIMAL_MOST, &mm, NULL));
      g_assert_cmpint (hs_tire_mm_of_32nds (thirtyseconds), ==, mm);
    }
  g_assert_cmpfloat_with_epsilon (hs_tire_32nds_of_mm (1.5875), 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_tire_32nds_of_mm (1.6), 2.015748, 1e-6);
}

/* Each week begins on a Sunday; the example of the regulation is 0109: 2009-01-04 to 2009-01-10. */
static void
test_weeks (void)
{
  static const struct
  {
    int year, week;
    const char *from, *to;
  } rows[] = {
    { 2009, 1, "2009-01-04", "2009-01-10" },  { 2023, 35, "2023-08-27", "2023-09-02" },
    { 2023, 1, "2023-01-01", "2023-01-07" },  { 2023, 53, "2023-12-31", "2024-01-06" },
    { 2024, 1, "2024-01-07", "2024-01-13" },  { 2024, 52, "2024-12-29", "2025-01-04" },
    { 2000, 53, "2000-12-31", "2001-01-06" }, { 2028, 53, "2028-12-31", "2029-01-06" },
  };
  static const struct
  {
    int year, week;
  } none[] = { { 2025, 53 }, { 2024, 53 }, { 2025, 0 }, { 2025, 54 }, { 2025, -1 }, { 0, 1 }, { 10000, 1 } };
  HsTireWeek week = { 1, 2 };

  for (guint i = 0; i < G_N_ELEMENTS (none); i++)
    g_assert_false (hs_tire_week (none[i].year, none[i].week, &week));
  g_assert_cmpint (week.from, ==, 1);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (hs_tire_week (rows[i].year, rows[i].week, &week));
      g_assert_cmpint (week.from, ==, day (rows[i].from));
      g_assert_cmpint (week.to, ==, day (rows[i].to));
      g_assert_cmpint (hs_date_weekday (week.from), ==, 7);
    }
}

/* The rule in other words, over a century: a year's weeks are those whose Sunday lies in it, without a gap between
 * years, and every day belongs to the week that a code for it would name. */
static void
test_weeks_without_gap (void)
{
  HsTireWeek week;
  HsDate next = day ("2000-01-02");

  for (int year = 2000; year < 2100; year++)
    {
      int n = 1;

      for (; hs_tire_week (year, n, &week); n++)
        {
          g_assert_cmpint (week.from, ==, next);
          g_assert_cmpint (week.to - week.from, ==, 6);
          next = week.to + 1;
        }
      g_assert_cmpint (n - 1, >=, 52);
      g_assert_cmpint (n - 1, <=, 53);
      g_assert_cmpint (week.to - hs_date_from_ymd (year, 12, 31), <=, 6);
    }
}

/* Each code from 2000 until today reads back as the week that it was made from; each later one is refused. */
static void
test_codes_by_week (void)
{
  HsDate today = day (TODAY);

  for (int year = 2000; year < 2100; year++)
    for (int n = 1; n <= 53; n++)
      {
        g_autofree char *text = g_strdup_printf ("%02d%02d", n, year % 100);
        g_autoptr (GError) error = NULL;
        HsTireWeek week = { 0 };
        HsTireCode code;
        gboolean can_be = hs_tire_week (year, n, &week) && week.from <= today;

        g_assert_cmpint (hs_tire_code_parse (text, today, &code, &error), ==, can_be);
        if (can_be)
          g_assert_cmpint (code.made.from, ==, week.from);
        else
          g_assert_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE);
      }
}

/* Three digits name a year that ends in the third, before July 2000; both readings are ten years apart. */
static void
test_codes_of_three (void)
{
  for (int digit = 0; digit < 10; digit++)
    for (int n = 1; n <= 52; n++)
      {
        g_autofree char *text = g_strdup_printf ("%02d%d", n, digit);
        HsTireCode code;
        int newer, older;

        g_assert_true (hs_tire_code_parse (text, day (TODAY), &code, NULL));
        g_assert_true (code.three_digits && code.has_older);
        g_assert_cmpint (code.made.from, <, day ("2000-07-01"));
        hs_date_to_ymd (code.made.from, &newer, NULL, NULL);
        hs_date_to_ymd (code.older.from, &older, NULL, NULL);
        g_assert_cmpint (newer % 10, ==, digit);
        g_assert_cmpint (newer - older, ==, 10);
        g_assert_cmpint (newer, >=, 1990);
      }
}

/* Every depth in 1/32 in comes back from its millimeters. */
static void
test_tread_back (void)
{
  for (int hundredths = 0; hundredths <= 4000; hundredths++)
    {
      gint64 thirtyseconds = (gint64) hundredths * 10000000;
      double mm = (double) hs_tire_mm_of_32nds (thirtyseconds) / 1e9;

      g_assert_cmpfloat_with_epsilon (hs_tire_32nds_of_mm (mm), hundredths / 100.0, 1e-8);
      g_assert_cmpfloat_with_epsilon (mm, hundredths / 100.0 * 25.4 / 32, 2e-9);
    }
}

static const struct
{
  const char *text;
  const char *from, *to, *older;
} codes[] = {
  { "3523", "2023-08-27", "2023-09-02", "" },  /* TYR-3 */
  { "0126", "2026-01-04", "2026-01-10", "" },  /* TYR-4; the ISO week would begin on 2025-12-29 */
  { "5225", "2025-12-28", "2026-01-03", "" },  /* TYR-5 */
  { "0301", "2001-01-21", "2001-01-27", "" },  /* TYR-6 */
  { "031", "1991-01-20", "1991-01-26", "1981-01-18" },  /* TYR-7, two carmakers' manuals: 1981 or 1991 */
  { "DOT U2LL LMLR 3523", "2023-08-27", "2023-09-02", "" },
  { "dot u2ll lmlr 3523", "2023-08-27", "2023-09-02", "" },
  { "DOTU2LLLMLR3523", "2023-08-27", "2023-09-02", "" },
  { "1AB 2CD3EF 3523", "2023-08-27", "2023-09-02", "" },
  { "DOT U2-LL-LMLR-3523", "2023-08-27", "2023-09-02", "" },
  { "35 23", "2023-08-27", "2023-09-02", "" },
  { "DOT 3523", "2023-08-27", "2023-09-02", "" },
  { "DOT U2LL LML5 031", "1991-01-20", "1991-01-26", "1981-01-18" },
  { "U2LLLMLR031", "1991-01-20", "1991-01-26", "1981-01-18" },
  { "DOT031", "1991-01-20", "1991-01-26", "1981-01-18" },
  { "100", "2000-03-05", "2000-03-11", "1990-03-11" },
  { "270", "1990-07-08", "1990-07-14", "1980-07-06" },
  { "4726", "2026-11-22", "2026-11-28", "" },
};

static void
test_codes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (codes); i++)
    {
      g_autoptr (GError) error = NULL;
      HsTireCode code;

      g_test_message ("%s", codes[i].text);
      g_assert_true (hs_tire_code_parse (codes[i].text, day (TODAY), &code, &error));
      g_assert_no_error (error);
      g_assert_cmpint (code.made.from, ==, day (codes[i].from));
      g_assert_cmpint (code.made.to, ==, day (codes[i].to));
      g_assert_cmpint (code.has_older, ==, *codes[i].older != '\0');
      g_assert_cmpint (code.three_digits, ==, code.made.from < day ("2000-07-01"));
      if (code.has_older)
        g_assert_cmpint (code.older.from, ==, day (codes[i].older));
    }
}

static void
test_codes_refused (void)
{
  static const struct
  {
    const char *text, *words;
  } rows[] = {
    { "0023", "no week 00" },         { "5325", "2025 has no week 53" },     { "5423", "no week 54" },
    { "9923", "no week 99" },         { "4826", "2026-11-29, which is still to come" },
    { "0127", "still to come" },      { "3599", "still to come" },           { "001", "neither 1991 nor 1981" },
    { "541", "neither 1991 nor 1981" }, { "", "does not end in a date" },    { "23", "does not end in a date" },
    { "12345", "does not end in a date" }, { "DOT U2LL LMLR", "does not end in a date" },
    { "352X", "does not end in a date" },  { "DOT", "does not end in a date" }, { "35/23", "does not end in a date" },
    { "３５２３", "does not end in a date" }, { "DOT ABCD EFGH IJKL 3523", "more than 13 symbols" },
    { "-3523.", "does not end in a date" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      HsTireCode code = { .made = { 1, 2 } };

      g_test_message ("%s", rows[i].text);
      assert_bad_value (hs_tire_code_parse (rows[i].text, day (TODAY), &code, &error), &error, rows[i].words);
      g_assert_cmpint (code.made.from, ==, 1);
    }
}

/* 8 mm new, 5 now after 30,000 miles, 1.6 at the end: 3.4 mm at 3 mm in 30,000 miles are 34,000. */
static void
test_miles_left (void)
{
  g_assert_cmpfloat_with_epsilon (hs_tire_miles_left (8, 5, 1.6, 30000), 34000, 1e-6);
  g_assert_cmpfloat_with_epsilon (hs_tire_miles_left (12, 6, 3, 20000), 10000, 1e-6);
  g_assert_cmpfloat (hs_tire_miles_left (8, 1.6, 1.6, 30000), ==, 0);
  g_assert_cmpfloat (hs_tire_miles_left (8, 1.0, 1.6, 30000), ==, 0);
  g_assert_true (isnan (hs_tire_miles_left (8, 8, 1.6, 30000)));
  g_assert_true (isnan (hs_tire_miles_left (7, 8, 1.6, 30000)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tire/tread", test_tread);
  g_test_add_func ("/tire/weeks", test_weeks);
  g_test_add_func ("/tire/weeks-without-gap", test_weeks_without_gap);
  g_test_add_func ("/tire/codes-by-week", test_codes_by_week);
  g_test_add_func ("/tire/codes-of-three", test_codes_of_three);
  g_test_add_func ("/tire/tread-back", test_tread_back);
  g_test_add_func ("/tire/codes", test_codes);
  g_test_add_func ("/tire/codes-refused", test_codes_refused);
  g_test_add_func ("/tire/miles-left", test_miles_left);
  return g_test_run ();
}
