// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A reading as it is typed or stands in a file: for the number pad and for imports. Refuses what the check is not
 * likely to show, so that a slipped digit is caught while the probe is still on; whoever was asked and says that the
 * meter does show it has it read all the same. */

#include "hs-check-private.h"

#include "hs-core-error.h"
#include "hs-decimal.h"

#define OVER_RANGE "over range"
#define NOT_MEASURED "not measured"

/* As many digits as are ever kept of a figure, wherever its point stands: what is worked out from it must not overflow.
 */
#define MOST_SCALED 999999999

static gboolean
is_likely (const HsCheck *check, gint64 value)
{
  return value >= check->least && value <= check->most;
}

/* @sure: somebody was asked already. */
static gboolean
in_range (const HsCheck *check, gint64 value, gboolean sure, GError **error)
{
  g_autofree char *shown = NULL;
  g_autofree char *least = NULL;
  g_autofree char *most = NULL;

  if (is_likely (check, value))
    return TRUE;
  if (value < -MOST_SCALED || value > MOST_SCALED)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: no more than 9 digits are kept. Type it again",
                   check->name);
      return FALSE;
    }
  if (sure)
    return TRUE;
  shown = hs_decimal_format (value, check->decimals);
  least = hs_decimal_format (check->least, check->decimals);
  most = hs_decimal_format (check->most, check->decimals);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               "%s: %s %s cannot be, it lies between %s and %s. Type it again; digits without a point fill the "
               "decimals", check->name, shown, check->unit, least, most);
  return FALSE;
}

/* The first number of a pair is part of the second. */
static gboolean
pair_check (const HsCheck *check, gint64 value, gint64 of, gboolean sure, HsReading *ret_reading, GError **error)
{
  if (of < 1 || value > of)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "%s: the first number is part of the second, like 5 of 5", check->name);
      return FALSE;
    }
  if (!in_range (check, value, sure, error) || !in_range (check, of, sure, error))
    return FALSE;
  *ret_reading = (HsReading) { HS_READING_VALUE, value, of };
  return TRUE;
}

/* @decimals: of both as they are written; 0 for digits that fill the decimals. */
static gboolean
pair_parse (const HsCheck *check, const char *first, const char *second, guint decimals, gboolean sure,
            HsReading *ret_reading, GError **error)
{
  gint64 value, of;

  return hs_decimal_parse (first, decimals, &value, error) && hs_decimal_parse (second, decimals, &of, error)
         && pair_check (check, value, of, sure, ret_reading, error);
}

static gboolean
number_parse (const HsCheck *check, const char *text, guint decimals, gboolean sure, HsReading *ret_reading,
              GError **error)
{
  gint64 value;

  if (!hs_decimal_parse (text, decimals, &value, error) || !in_range (check, value, sure, error))
    return FALSE;
  *ret_reading = (HsReading) { HS_READING_VALUE, value, 0 };
  return TRUE;
}

static gboolean
is_digits (const char *text)
{
  return *text != '\0' && strspn (text, "0123456789") == strlen (text);
}

/* `55`, `6190` or `9.12`; where the check has decimals a point would be one of them, so that all digits are typed:
 * `11901262`. */
static gboolean
pair_read_pad (const HsCheck *check, const char *keys, gboolean sure, HsReading *ret_reading, GError **error)
{
  const char *point = check->decimals == 0 ? strchr (keys, '.') : NULL;
  gsize length = strlen (keys);
  g_autofree char *first = NULL;

  if (point == NULL && is_digits (keys) && length % 2 == 0)
    point = keys + length / 2;
  if (point == NULL && check->decimals > 0)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "%s: type both numbers without points and with as many digits, 11901262 for 11.90 of 12.62",
                   check->name);
      return FALSE;
    }
  if (point == NULL)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "%s: type both numbers, 55 for 5 of 5, or with a point between them, 9.12 for 9 of 12", check->name);
      return FALSE;
    }
  first = g_strndup (keys, (gsize) (point - keys));
  return pair_parse (check, first, *point == '.' ? point + 1 : point, 0, sure, ret_reading, error);
}

static gboolean
parse (const HsCheck *check, const char *text, gboolean sure, HsReading *ret_reading, GError **error)
{
  g_autofree char *written = g_strstrip (g_ascii_strdown (text, -1));
  g_auto (GStrv) sides = NULL;

  if ((g_str_equal (written, OVER_RANGE) && hs_check_has_number (check)) || g_str_equal (written, NOT_MEASURED))
    {
      *ret_reading = (HsReading) { *written == 'o' ? HS_READING_OVER_RANGE : HS_READING_NOT_MEASURED, 0, 0 };
      return TRUE;
    }
  if (!hs_check_has_number (check))
    {
      g_autofree char *answer = g_strstrip (g_strdup (text));

      return hs_check_read_answer (check, answer, ret_reading, error);
    }
  if (check->entry != HS_CHECK_PAIR)
    return number_parse (check, written, check->decimals, sure, ret_reading, error);
  sides = g_strsplit (written, strchr (written, '/') != NULL ? "/" : " of ", 2);
  if (g_strv_length (sides) != 2)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: write both numbers like 5 of 5", check->name);
      return FALSE;
    }
  return pair_parse (check, sides[0], sides[1], check->decimals, sure, ret_reading, error);
}

static gboolean
read_pad (const HsCheck *check, const char *keys, gboolean sure, HsReading *ret_reading, GError **error)
{
  g_autofree char *typed = g_strstrip (g_strdup (keys));
  gboolean has_point = strchr (typed, '.') != NULL;
  gboolean in_words = strchr (typed, ' ') != NULL;

  if ((g_str_equal (typed, "/") && hs_check_has_number (check)) || g_str_equal (typed, "*"))
    {
      *ret_reading = (HsReading) { *typed == '/' ? HS_READING_OVER_RANGE : HS_READING_NOT_MEASURED, 0, 0 };
      return TRUE;
    }
  if (!hs_check_has_number (check) || in_words)
    return parse (check, typed, sure, ret_reading, error);
  if (check->entry == HS_CHECK_PAIR)
    return pair_read_pad (check, typed, sure, ret_reading, error);
  /* Digits without a point are the scaled value itself. */
  return number_parse (check, typed, has_point ? check->decimals : 0, sure, ret_reading, error);
}

/* It can be, but a digit that was left out is more likely. */
static gboolean
ask_below (const HsCheck *check, const HsReading *reading, GError **error)
{
  g_autofree char *shown = hs_check_format (check, reading);
  g_autofree char *least = hs_decimal_format (check->asked_below, check->decimals);

  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               "%s: %s %s is hardly ever so low, it is %s or more. Type it again; digits without a point fill the "
               "decimals", check->name, shown, check->unit, least);
  return FALSE;
}

gboolean
hs_check_read_pad (const HsCheck *check, const char *keys, HsReading *ret_reading, GError **error)
{
  HsReading reading;

  if (!read_pad (check, keys, FALSE, &reading, error))
    return FALSE;
  if (!hs_check_is_likely (check, &reading))
    return ask_below (check, &reading, error);
  *ret_reading = reading;
  return TRUE;
}

gboolean
hs_check_read_pad_sure (const HsCheck *check, const char *keys, HsReading *ret_reading, GError **error)
{
  return read_pad (check, keys, TRUE, ret_reading, error);
}

gboolean
hs_check_parse (const HsCheck *check, const char *text, HsReading *ret_reading, GError **error)
{
  return parse (check, text, FALSE, ret_reading, error);
}

gboolean
hs_check_is_likely (const HsCheck *check, const HsReading *reading)
{
  return reading->kind != HS_READING_VALUE || !hs_check_has_number (check)
         || (reading->value >= check->asked_below && is_likely (check, reading->value)
             && (check->entry != HS_CHECK_PAIR || is_likely (check, reading->of)));
}

char *
hs_check_format (const HsCheck *check, const HsReading *reading)
{
  g_autofree char *value = NULL;
  g_autofree char *of = NULL;

  if (reading->kind == HS_READING_OVER_RANGE)
    return g_strdup (OVER_RANGE);
  if (reading->kind == HS_READING_NOT_MEASURED)
    return g_strdup (NOT_MEASURED);
  if (check->entry == HS_CHECK_CHOICE)
    return g_strdup (check->answers[reading->value - 1]);
  if (check->entry == HS_CHECK_TEXT)
    return g_strdup ("");
  value = hs_decimal_format (reading->value, check->decimals);
  if (check->entry != HS_CHECK_PAIR)
    return g_steal_pointer (&value);
  of = hs_decimal_format (reading->of, check->decimals);
  return g_strdup_printf ("%s of %s", value, of);
}
