// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tires: tread in both units, the week in which one was made, and how far the tread will still go. Refuses a date code
 * that cannot be, rather than read it as another one. */

#include "hs-tire.h"

#include "hs-core-error.h"

#include <math.h>
#include <string.h>

#define SUNDAY 7
#define MM_PER_32ND 0.79375

/* Fewer symbols are no identification number, whole or of a retread. */
#define TIN_LEAST 7

/* Codes had three digits until then. */
#define LAST_DECADE_OF_THREE 1990
#define FOUR_DIGITS_YEAR 2000
#define FOUR_DIGITS_MONTH 7

gint64
hs_tire_mm_of_32nds (gint64 thirtyseconds)
{
  /* × 0.79375 = × 127 / 160; whole parts first, so that nothing overflows. */
  return thirtyseconds / 160 * 127 + thirtyseconds % 160 * 127 / 160;
}

double
hs_tire_32nds_of_mm (double mm)
{
  return mm / MM_PER_32ND;
}

gboolean
hs_tire_week (int year, int week, HsTireWeek *ret_week)
{
  HsDate new_year = hs_date_from_ymd (year, 1, 1);
  HsDate from;
  int year_of_from;

  if (new_year == HS_DATE_NONE || week < 1 || week > 53)
    return FALSE;
  from = new_year + (SUNDAY - hs_date_weekday (new_year)) + 7 * (week - 1);
  hs_date_to_ymd (from, &year_of_from, NULL, NULL);
  if (year_of_from != year)
    return FALSE;
  *ret_week = (HsTireWeek) { from, from + 6 };
  return TRUE;
}

/* How many digits @text ends in. */
static gsize
count_last_digits (const char *text)
{
  gsize length = strlen (text);
  gsize digits = 0;

  while (digits < length && g_ascii_isdigit (text[length - 1 - digits]))
    digits++;
  return digits;
}

/* Letters and digits alone, without DOT in front; NULL if there is anything else. @ret_last: how many stand in the last
 * group. */
static char *
squeeze (const char *text, gsize *ret_last)
{
  g_autoptr (GString) symbols = g_string_new (NULL);
  gsize last = 0;

  for (const char *c = text; *c != '\0'; c++)
    if (*c == ' ' || *c == '-')
      last = 0;
    else if (!g_ascii_isalnum (*c))
      return NULL;
    else
      {
        g_string_append_c (symbols, g_ascii_toupper (*c));
        last++;
      }
  if (g_str_has_prefix (symbols->str, "DOT"))
    g_string_erase (symbols, 0, 3);
  *ret_last = MIN (last, symbols->len);
  return g_strdup (symbols->str);
}

/* The date group of @text; NULL with the reason. */
static char *
find_digits (const char *text, GError **error)
{
  gsize last = 0;
  g_autofree char *symbols = squeeze (text, &last);
  gsize length = symbols == NULL ? 0 : strlen (symbols);
  gsize digits = symbols == NULL ? 0 : count_last_digits (symbols);

  if (length > HS_TIRE_TIN_SYMBOLS)
    {
      hs_core_bad_value (error, "“%s” has more than %d symbols. Read the number behind DOT again", text,
                         HS_TIRE_TIN_SYMBOLS);
      return NULL;
    }
  if (digits < 3 || (digits == length && length > 4 && length < TIN_LEAST))
    {
      hs_core_bad_value (error, "“%s” does not end in a date. It takes four digits, week and year, like 3523",
                         text);
      return NULL;
    }
  if (digits == 3 || (last == 3 && length > 4))
    return g_strdup (symbols + length - 3);
  return g_strdup (symbols + length - 4);
}

static int
number_of (const char *digits, gsize n)
{
  int number = 0;

  for (gsize i = 0; i < n; i++)
    number = number * 10 + (digits[i] - '0');
  return number;
}

static gboolean
has_three_digits (const HsTireWeek *week)
{
  return week->from < hs_date_from_ymd (FOUR_DIGITS_YEAR, FOUR_DIGITS_MONTH, 1);
}

/* 2000 had three digits in its first half; else the newest is in the nineties. */
static gboolean
parse_three (const char *digits, HsTireCode *ret_code, GError **error)
{
  int week = number_of (digits, 2);
  int year = LAST_DECADE_OF_THREE + (digits[2] - '0');
  HsTireCode code = { .three_digits = TRUE };

  if (year == LAST_DECADE_OF_THREE && hs_tire_week (FOUR_DIGITS_YEAR, week, &code.made)
      && has_three_digits (&code.made))
    year = FOUR_DIGITS_YEAR;
  if (!hs_tire_week (year, week, &code.made) && !hs_tire_week (year - 10, week, &code.made))
    return hs_core_bad_value (error, "“%s”: neither %d nor %d had a week %02d", digits, year, year - 10, week);
  code.has_older = hs_tire_week (year - 10, week, &code.older) && code.older.from != code.made.from;
  *ret_code = code;
  return TRUE;
}

static gboolean
parse_four (const char *digits, HsDate today, HsTireCode *ret_code, GError **error)
{
  int week = number_of (digits, 2);
  int year = FOUR_DIGITS_YEAR + number_of (digits + 2, 2);
  HsTireCode code = { .has_older = FALSE };
  g_autofree char *day = NULL;

  if (!hs_tire_week (year, week, &code.made))
    return hs_core_bad_value (error,
                              "“%s”: %d has no week %02d. Weeks count from 01, the first full week from Sunday",
                              digits, year, week);
  if (code.made.from > today)
    {
      day = hs_date_format (code.made.from);
      return hs_core_bad_value (error,
                                "“%s” begins on %s, which is still to come. Read it again: week first, then year",
                                digits, day);
    }
  *ret_code = code;
  return TRUE;
}

gboolean
hs_tire_code_parse (const char *text, HsDate today, HsTireCode *ret_code, GError **error)
{
  g_autofree char *digits = find_digits (text, error);

  if (digits == NULL)
    return FALSE;
  return strlen (digits) == 3 ? parse_three (digits, ret_code, error) : parse_four (digits, today, ret_code, error);
}

double
hs_tire_miles_left (double new_mm, double now_mm, double least_mm, double miles)
{
  if (new_mm <= now_mm)
    return (double) NAN;
  return MAX ((now_mm - least_mm) / ((new_mm - now_mm) / miles), 0);
}
