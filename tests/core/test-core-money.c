// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Money in minor units, as ISO 4217 counts them. */

#include "hs-money.h"

#include "core-test.h"

static void
test_decimals (void)
{
  /* ISO 4217 list one of 2024-06-25; what shops round cash to (CHF, HUF, ISK) is another matter. */
  static const struct
  {
    const char *code;
    int decimals;
  } rows[] = {
    { "USD", 2 }, { "EUR", 2 }, { "GBP", 2 }, { "AUD", 2 }, { "CAD", 2 }, { "CHF", 2 }, { "AFN", 2 }, { "HUF", 2 },
    { "MXN", 2 }, { "NZD", 2 }, { "ZAR", 2 }, { "AED", 2 }, { "ZMW", 2 }, { "JPY", 0 }, { "ISK", 0 }, { "KRW", 0 },
    { "CLP", 0 }, { "XPF", 0 }, { "BIF", 0 }, { "UGX", 0 }, { "BHD", 3 }, { "IQD", 3 }, { "KWD", 3 }, { "TND", 3 },
    { "OMR", 3 }, { "CLF", 4 }, { "UYW", 4 }, { "usd", -1 }, { "US", -1 }, { "USDX", -1 }, { "", -1 }, { "XYZ", -1 },
    { "D A", -1 }, { "SD ", -1 }, { NULL, -1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_currency_decimals (rows[i].code), ==, rows[i].decimals);
}

/* The whole list: every code that has minor units, by how many; metals, units of account and test codes have none. */
static void
test_decimals_all (void)
{
  static const struct
  {
    int decimals;
    guint n;
    const char *codes;
  } rows[] = {
    { 0, 17, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF" },
    { 3, 7, "BHD IQD JOD KWD LYD OMR TND" },
    { 4, 2, "CLF UYW" },
    { 2, 140, "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD "
              "CDF CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP "
              "GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL "
              "MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN "
              "QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD "
              "TWD TZS UAH USD USN UYU UZS VED VES WST XCD YER ZAR ZMW ZWG" },
    { -1, 13, "XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XX" "X" },
  };
  guint known = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (GStrv) codes = g_strsplit (rows[i].codes, " ", -1);

      g_assert_cmpuint (g_strv_length (codes), ==, rows[i].n);
      for (guint j = 0; codes[j] != NULL; j++)
        g_assert_cmpint (hs_currency_decimals (codes[j]), ==, rows[i].decimals);
    }
  for (guint i = 0; i < 26 * 26 * 26; i++)
    {
      const char code[] = { (char) ('A' + i / 676), (char) ('A' + i / 26 % 26), (char) ('A' + i % 26), '\0' };

      known += hs_currency_decimals (code) >= 0;
    }
  g_assert_cmpuint (known, ==, 17 + 7 + 2 + 140);
}

/* CUR-1: 1234 minor units by the currency. */
static void
test_minor_units (void)
{
  static const struct
  {
    const char *currency;
    const char *shown;
  } rows[] = {
    { "JPY", "1234" }, { "BHD", "1.234" }, { "USD", "12.34" }, { "CLF", "0.1234" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *shown = hs_money_format (1234, rows[i].currency);

      g_assert_cmpstr (shown, ==, rows[i].shown);
    }
}

static void
test_parse (void)
{
  static const struct
  {
    const char *text;
    const char *currency;
    gint64 minor;
    const char *words;
  } rows[] = {
    { "1234.50", "USD", 123450, NULL },
    { "1234.5", "USD", 123450, NULL },
    { "1234", "USD", 123400, NULL },
    { "-12.34", "USD", -1234, NULL },
    { "0.00", "USD", 0, NULL },
    { "1234", "JPY", 1234, NULL },
    { "1.234", "BHD", 1234, NULL },
    { "1234.00", "JPY", 1234, NULL },
    { "1.0001", "CLF", 10001, NULL },
    { "1234.505", "USD", 0, "amount in USD" },
    { "1234.505", "USD", 0, "only 2 decimals are kept" },
    { "1.5", "JPY", 0, "only whole numbers" },
    { "1,234.50", "USD", 0, "nothing between thousands" },
    { "$5", "USD", 0, "only digits" },
    { "", "USD", 0, "nothing is written" },
    { "5.00", "US", 0, "is not a currency" },
    { "5.00", NULL, 0, "is not a currency" },
    { "5.00", "usd", 0, "three capital letters" },
    { "92233720368547758.08", "USD", 0, "too large" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 minor = 4711;
      g_autoptr (GError) error = NULL;
      gboolean accepted = hs_money_parse (rows[i].text, rows[i].currency, &minor, &error);

      if (rows[i].words != NULL)
        {
          assert_bad_value (accepted, &error, rows[i].words);
          g_assert_cmpint (minor, ==, 4711);
          continue;
        }
      g_assert_no_error (error);
      g_assert_cmpint (minor, ==, rows[i].minor);
    }
}

static void
test_format (void)
{
  static const struct
  {
    gint64 minor;
    const char *currency;
    const char *plain;
    const char *grouped;
  } rows[] = {
    { 1234, "JPY", "1234", "1,234" },
    { 1234, "BHD", "1.234", "1.234" },
    { 1234, "USD", "12.34", "12.34" },
    { 0, "USD", "0.00", "0.00" },
    { 5, "USD", "0.05", "0.05" },
    { -5, "USD", "-0.05", "-0.05" },
    { 99999, "USD", "999.99", "999.99" },
    { 100000, "USD", "1000.00", "1,000.00" },
    { -100000, "USD", "-1000.00", "-1,000.00" },
    { -99999, "USD", "-999.99", "-999.99" },
    { 123456789, "USD", "1234567.89", "1,234,567.89" },
    { 123456789, "JPY", "123456789", "123,456,789" },
    { -123456, "JPY", "-123456", "-123,456" },
    { 482748, "XYZ", "4827.48", "4,827.48" },
    { 482748, NULL, "4827.48", "4,827.48" },
    { G_MININT64, "USD", "-92233720368547758.08", "-92,233,720,368,547,758.08" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *plain = hs_money_format (rows[i].minor, rows[i].currency);
      g_autofree char *grouped = hs_money_format_grouped (rows[i].minor, rows[i].currency);

      g_assert_cmpstr (plain, ==, rows[i].plain);
      g_assert_cmpstr (grouped, ==, rows[i].grouped);
    }
}

/* Streamlined Sales and Use Tax Agreement §324: to the third decimal, up where it is more than 4, never twice. */
static void
test_ratio (void)
{
  static const struct
  {
    gint64 amount, per_million, result;
  } rows[] = {
    { 3030, 82500, 250 },
    { 1010, 82500, 83 },
    { 7, 65000, 0 },
    { 100, 65000, 7 },
    { 1999, 72500, 145 },
    { 12995, 88750, 1153 },
    { 20640, 80000, 1651 },
    { -100, 65000, -7 },
    { 0, 80000, 0 },
  };
  gint64 result = 4711;
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (hs_money_ratio (rows[i].amount, rows[i].per_million, 1000000, &result, &error));
      g_assert_no_error (error);
      g_assert_cmpint (result, ==, rows[i].result);
    }
  result = 4711;
  assert_bad_value (hs_money_ratio (G_MAXINT64, 3, 2, &result, &error), &error, "too large to be money");
  g_assert_cmpint (result, ==, 4711);
}

static void
test_sum (void)
{
  static const gint64 amounts[] = { 20400, 20640, 1651 };
  static const gint64 high[] = { G_MAXINT64, 1 };
  static const gint64 low[] = { G_MININT64, -1 };
  gint64 sum = 4711;
  g_autoptr (GError) error = NULL;

  /* A call of 110 minutes with a starter and a strap: 204.00 + 206.40 + 16.51 = 426.91. */
  g_assert_true (hs_money_sum (amounts, G_N_ELEMENTS (amounts), &sum, &error));
  g_assert_cmpint (sum, ==, 42691);
  g_assert_true (hs_money_sum (NULL, 0, &sum, &error));
  g_assert_cmpint (sum, ==, 0);
  sum = 4711;
  assert_bad_value (hs_money_sum (high, 2, &sum, &error), &error, "too large");
  assert_bad_value (hs_money_sum (low, 2, &sum, &error), &error, "too large");
  g_assert_cmpint (sum, ==, 4711);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/money/decimals", test_decimals);
  g_test_add_func ("/money/decimals-all", test_decimals_all);
  g_test_add_func ("/money/minor-units", test_minor_units);
  g_test_add_func ("/money/parse", test_parse);
  g_test_add_func ("/money/format", test_format);
  g_test_add_func ("/money/ratio", test_ratio);
  g_test_add_func ("/money/sum", test_sum);
  return g_test_run ();
}
