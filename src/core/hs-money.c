// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Money as whole minor units of one currency: for every amount that the book keeps. Refuses currency signs,
 * grouping and more decimals than the currency has, so that nothing is ever rounded while it is read. */

#include "hs-money.h"

#include "hs-core-error.h"
#include "hs-decimal.h"

/* ISO 4217 list one of 2024-06-25: currencies and funds by their number of minor unit digits; metals, units of
 * account and test codes have none. */
static const struct
{
  int decimals;
  const char *codes;
} minor_units[] = {
  { 2, "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE "
       "CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD "
       "HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU "
       "MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG "
       "SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST "
       "XCD YER ZAR ZMW ZWG" },
  { 0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF" },
  { 3, "BHD IQD JOD KWD LYD OMR TND" },
  { 4, "CLF UYW" },
};

static gboolean
is_code (const char *code)
{
  return strlen (code) == 3 && g_ascii_isupper (code[0]) && g_ascii_isupper (code[1]) && g_ascii_isupper (code[2]);
}

int
hs_currency_decimals (const char *code)
{
  if (code == NULL || !is_code (code))
    return -1;
  for (gsize i = 0; i < G_N_ELEMENTS (minor_units); i++)
    if (strstr (minor_units[i].codes, code) != NULL)
      return minor_units[i].decimals;
  return -1;
}

/* For showing: an amount must stay readable even where the currency is not on the list. */
static guint
shown_decimals (const char *currency)
{
  int decimals = hs_currency_decimals (currency);

  return decimals < 0 ? 2 : (guint) decimals;
}

gboolean
hs_money_parse (const char *text, const char *currency, gint64 *ret_minor, GError **error)
{
  int decimals = hs_currency_decimals (currency);

  if (decimals < 0)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a currency that is known: write three capital letters such as USD",
                   currency == NULL ? "" : currency);
      return FALSE;
    }
  if (!hs_decimal_parse (text, (guint) decimals, ret_minor, error))
    {
      g_prefix_error (error, "amount in %s: ", currency);
      return FALSE;
    }
  return TRUE;
}

char *
hs_money_format (gint64 minor, const char *currency)
{
  return hs_decimal_format (minor, shown_decimals (currency));
}

char *
hs_money_format_grouped (gint64 minor, const char *currency)
{
  g_autofree char *plain = hs_money_format (minor, currency);
  GString *grouped = g_string_new (plain);
  gsize first = plain[0] == '-' ? 1 : 0;

  for (gsize at = strcspn (plain, "."); at > first + 3; at -= 3)
    g_string_insert_c (grouped, (gssize) at - 3, ',');
  return g_string_free (grouped, FALSE);
}

static gboolean
refuse_size (GError **error)
{
  g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                       "the sum is too large to be money: check the amounts for a slipped digit");
  return FALSE;
}

gboolean
hs_money_ratio (gint64 amount, gint64 numerator, gint64 denominator, gint64 *ret_amount, GError **error)
{
  return hs_ratio_half_up (amount, numerator, denominator, ret_amount) || refuse_size (error);
}

gboolean
hs_money_sum (const gint64 *amounts, gsize n_amounts, gint64 *ret_sum, GError **error)
{
  gint64 sum = 0;

  for (gsize i = 0; i < n_amounts; i++)
    if (__builtin_add_overflow (sum, amounts[i], &sum))
      return refuse_size (error);
  *ret_sum = sum;
  return TRUE;
}
