// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Exact decimal numbers as scaled integers: for money, miles and readings, which must never pass through a double
 * or through the locale. Refuses what would have to be rounded or guessed. */

#include "hs-decimal.h"

#include "hs-core-error.h"

static gboolean
refuse (GError **error, const char *text, const char *reason)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is not a number that can be used: %s", text,
               reason);
  return FALSE;
}

gint64
hs_decimal_power (guint decimals)
{
  gint64 power = 1;

  g_return_val_if_fail (decimals <= HS_DECIMAL_MOST, 1);
  while (decimals-- > 0)
    power *= 10;
  return power;
}

/* Why a text with a sign that is not a digit cannot be read. */
static const char *
reason_for (const char *number)
{
  if (strchr (number, ',') != NULL)
    return "write a point for decimals and nothing between thousands, like 1234.5";
  if (g_ascii_strncasecmp (number, "nan", 3) == 0 || g_ascii_strncasecmp (number, "inf", 3) == 0)
    return "only plain numbers are kept";
  if (strpbrk (number, "eE") != NULL && g_ascii_isdigit (number[0]))
    return "write all digits, without an exponent";
  if (number[0] == '+')
    return "leave the plus sign away";
  return "only digits and one point may stand here";
}

/* Splits digits[.digits] and counts; FALSE if anything else stands there. */
static gboolean
measure (const char *number, gsize *ret_whole, gsize *ret_places)
{
  gsize whole = strspn (number, "0123456789");
  gsize places = 0;

  if (number[whole] == '.')
    {
      places = strspn (number + whole + 1, "0123456789");
      if (number[whole + 1 + places] != '\0')
        return FALSE;
    }
  else if (number[whole] != '\0')
    return FALSE;
  *ret_whole = whole;
  *ret_places = places;
  return whole + places > 0;
}

static gboolean
push_digit (guint64 *magnitude, int digit)
{
  return g_uint64_checked_mul (magnitude, *magnitude, 10) && g_uint64_checked_add (magnitude, *magnitude, digit);
}

static gboolean
scale (const char *number, gsize whole, gsize places, guint decimals, guint64 *ret_magnitude)
{
  guint64 magnitude = 0;
  gboolean fits = TRUE;

  for (gsize i = 0; i < whole; i++)
    fits = fits && push_digit (&magnitude, number[i] - '0');
  for (gsize i = 0; i < decimals; i++)
    fits = fits && push_digit (&magnitude, i < places ? number[whole + 1 + i] - '0' : 0);
  *ret_magnitude = magnitude;
  return fits;
}

gboolean
hs_decimal_parse (const char *text, guint decimals, gint64 *ret_scaled, GError **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  const char *number = trimmed;
  gboolean negative = *number == '-';
  gsize whole, places;
  guint64 magnitude;

  g_return_val_if_fail (decimals <= HS_DECIMAL_MOST, FALSE);
  if (*trimmed == '\0')
    return refuse (error, text, "nothing is written here");
  if (negative)
    number++;
  if (!measure (number, &whole, &places))
    return refuse (error, text, reason_for (number));
  while (places > decimals && number[whole + places] == '0')
    places--;
  if (places > decimals)
    {
      g_autofree char *reason = g_strdup_printf (decimals == 0 ? "only whole numbers are kept (%u decimals)"
                                                 : decimals == 1 ? "only %u decimal is kept"
                                                                 : "only %u decimals are kept", decimals);

      return refuse (error, text, reason);
    }
  if (!scale (number, whole, places, decimals, &magnitude) || magnitude > (guint64) G_MAXINT64)
    return refuse (error, text, "it is too large");
  *ret_scaled = negative ? -(gint64) magnitude : (gint64) magnitude;
  return TRUE;
}

/* |@value|, also for the one value that has no positive twin. */
static guint64
magnitude_of (gint64 value)
{
  return value < 0 ? -(guint64) value : (guint64) value;
}

char *
hs_decimal_format (gint64 scaled, guint decimals)
{
  guint64 power = (guint64) hs_decimal_power (decimals);
  guint64 magnitude = magnitude_of (scaled);
  const char *sign = scaled < 0 ? "-" : "";

  if (decimals == 0)
    return g_strdup_printf ("%s%" G_GUINT64_FORMAT, sign, magnitude);
  return g_strdup_printf ("%s%" G_GUINT64_FORMAT ".%0*" G_GUINT64_FORMAT, sign, magnitude / power, (int) decimals,
                          magnitude % power);
}

char *
hs_decimal_format_short (gint64 scaled, guint decimals)
{
  while (decimals > 0 && scaled % 10 == 0)
    {
      scaled /= 10;
      decimals--;
    }
  return hs_decimal_format (scaled, decimals);
}

gboolean
hs_ratio_half_up (gint64 value, gint64 numerator, gint64 denominator, gint64 *ret_result)
{
  guint64 product, quotient, rest, divisor;
  gboolean negative = (value < 0) != (numerator < 0);

  if (denominator <= 0 || !g_uint64_checked_mul (&product, magnitude_of (value), magnitude_of (numerator)))
    return FALSE;
  divisor = (guint64) denominator;
  quotient = product / divisor;
  rest = product % divisor;
  if (rest >= divisor - rest)
    quotient++;
  if (quotient > (guint64) G_MAXINT64)
    return FALSE;
  *ret_result = negative ? -(gint64) quotient : (gint64) quotient;
  return TRUE;
}
