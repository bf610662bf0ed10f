// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Exact decimals: nothing rounded, nothing guessed, no locale. */

#include "hs-decimal.h"

#include "core-test.h"

static void
test_parse_accepts (void)
{
  static const struct
  {
    const char *text;
    guint decimals;
    gint64 scaled;
  } rows[] = {
    { "33.3", 3, 33300 },
    { "33.3", 1, 333 },
    { "0", 0, 0 },
    { "0", 9, 0 },
    { "-0", 2, 0 },
    { "-4", 2, -400 },
    { ".5", 1, 5 },
    { "5.", 1, 50 },
    { "0012.40", 2, 1240 },
    { "12.40", 1, 124 },
    { "12.4000000000000", 1, 124 },
    { "12.000", 0, 12 },
    { "  7.25\t", 2, 725 },
    { "9223372036854775807", 0, G_MAXINT64 },
    { "-9223372036854775807", 0, -G_MAXINT64 },
    { "92233720368547758.07", 2, G_MAXINT64 },
    /* RFC 8259 §6: a double would turn this into …992. */
    { "9007199254740993", 0, G_GINT64_CONSTANT (9007199254740993) },
    { "0.000000001", 9, 1 },
    { "1.609344", 6, 1609344 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 scaled = 4711;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_decimal_parse (rows[i].text, rows[i].decimals, &scaled, &error));
      g_assert_no_error (error);
      g_assert_cmpint (scaled, ==, rows[i].scaled);
    }
}

static void
test_parse_refuses (void)
{
  static const struct
  {
    const char *text;
    guint decimals;
    const char *words;
  } rows[] = {
    { "", 2, "nothing is written here" },
    { "   ", 2, "nothing is written here" },
    { "12,5", 2, "write a point" },
    { "1,234.50", 2, "nothing between thousands" },
    { "1e3", 2, "without an exponent" },
    { "1E3", 2, "without an exponent" },
    { "2.5e-1", 2, "without an exponent" },
    { "NaN", 2, "only plain numbers" },
    { "nan", 2, "only plain numbers" },
    { "inf", 2, "only plain numbers" },
    { "-Infinity", 2, "only plain numbers" },
    { "+5", 2, "plus sign" },
    { "0x1F", 0, "only digits and one point" },
    { "1.2.3", 2, "only digits and one point" },
    { "1 000", 0, "only digits and one point" },
    { "1'000", 0, "only digits and one point" },
    { "$5", 2, "only digits and one point" },
    { "5 V", 2, "only digits and one point" },
    { "--5", 0, "only digits and one point" },
    { "5-", 0, "only digits and one point" },
    { "-", 0, "only digits and one point" },
    { ".", 2, "only digits and one point" },
    { "-.", 2, "only digits and one point" },
    { "١٢", 0, "only digits and one point" },
    { "12.405", 2, "only 2 decimals are kept" },
    { "12.45", 1, "only 1 decimal is kept" },
    { "12.5", 0, "only whole numbers are kept" },
    { "9223372036854775808", 0, "too large" },
    { "-9223372036854775808", 0, "too large" },
    { "92233720368547758.08", 2, "too large" },
    { "99999999999999999999999999", 0, "too large" },
    { "9999999999999999", 9, "too large" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 scaled = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_decimal_parse (rows[i].text, rows[i].decimals, &scaled, &error), &error, rows[i].words);
      g_assert_cmpint (scaled, ==, 4711);
    }
}

static void
test_format (void)
{
  static const struct
  {
    gint64 scaled;
    guint decimals;
    const char *text;
    const char *shortest;
  } rows[] = {
    { 0, 0, "0", "0" },
    { 0, 2, "0.00", "0" },
    { 5, 2, "0.05", "0.05" },
    { -5, 2, "-0.05", "-0.05" },
    { 1240, 2, "12.40", "12.4" },
    { 6000, 2, "60.00", "60" },
    { 33300, 3, "33.300", "33.3" },
    { 70, 0, "70", "70" },
    { G_MAXINT64, 2, "92233720368547758.07", "92233720368547758.07" },
    { G_MININT64, 2, "-92233720368547758.08", "-92233720368547758.08" },
    { G_MININT64, 0, "-9223372036854775808", "-9223372036854775808" },
    { 1, 9, "0.000000001", "0.000000001" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_decimal_format (rows[i].scaled, rows[i].decimals);
      g_autofree char *shortest = hs_decimal_format_short (rows[i].scaled, rows[i].decimals);

      g_assert_cmpstr (text, ==, rows[i].text);
      g_assert_cmpstr (shortest, ==, rows[i].shortest);
    }
}

static void
test_round_trip (void)
{
  for (guint decimals = 0; decimals <= HS_DECIMAL_MOST; decimals++)
    for (gint64 scaled = -100003; scaled <= 100003; scaled += 7)
      {
        g_autofree char *text = hs_decimal_format (scaled, decimals);
        g_autofree char *shortest = hs_decimal_format_short (scaled, decimals);
        gint64 back;

        g_assert_true (hs_decimal_parse (text, decimals, &back, NULL));
        g_assert_cmpint (back, ==, scaled);
        g_assert_true (hs_decimal_parse (shortest, decimals, &back, NULL));
        g_assert_cmpint (back, ==, scaled);
      }
}

static void
test_power (void)
{
  g_assert_cmpint (hs_decimal_power (0), ==, 1);
  g_assert_cmpint (hs_decimal_power (3), ==, 1000);
  g_assert_cmpint (hs_decimal_power (9), ==, 1000000000);
}

static void
test_ratio (void)
{
  static const struct
  {
    gint64 value, numerator, denominator, result;
  } rows[] = {
    { 10, 1, 4, 3 },
    { 9, 1, 4, 2 },
    { 1, 1, 2, 1 },
    { -1, 1, 2, -1 },
    { 1, -1, 2, -1 },
    { -1, -1, 2, 1 },
    { -3, 1, 4, -1 },
    { 0, 5, 7, 0 },
    { 7, 0, 7, 0 },
    { 2, 1, 3, 1 },
    { 1, 1, 3, 0 },
    { G_MAXINT64, 1, 1, G_MAXINT64 },
    { G_MAXINT64, 2, G_MAXINT64, 2 },
    { 1, 1, G_MAXINT64, 0 },
    /* A mileage of 37.4 miles at 72.5 cents is 27.115: binary floating point gives 27.11, exact sums 27.12. */
    { 374, 725, 100, 2712 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 result = 4711;

      g_assert_true (hs_ratio_half_up (rows[i].value, rows[i].numerator, rows[i].denominator, &result));
      g_assert_cmpint (result, ==, rows[i].result);
    }
}

static void
test_ratio_refuses (void)
{
  static const gint64 rows[][3] = {
    { 1, 1, 0 }, { 1, 1, -1 }, { G_MAXINT64, 3, 1 }, { G_MAXINT64, G_MAXINT64, G_MAXINT64 }, { G_MININT64, 1, 1 },
    { G_MAXINT64, 2, 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 result = 4711;

      g_assert_false (hs_ratio_half_up (rows[i][0], rows[i][1], rows[i][2], &result));
      g_assert_cmpint (result, ==, 4711);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/decimal/parse-accepts", test_parse_accepts);
  g_test_add_func ("/decimal/parse-refuses", test_parse_refuses);
  g_test_add_func ("/decimal/format", test_format);
  g_test_add_func ("/decimal/round-trip", test_round_trip);
  g_test_add_func ("/decimal/power", test_power);
  g_test_add_func ("/decimal/ratio", test_ratio);
  g_test_add_func ("/decimal/ratio-refuses", test_ratio_refuses);
  return g_test_run ();
}
