// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Date codes of batteries. Gives every month that a code can mean rather than the likeliest; refuses what no scheme
 * reads and what would lie in the future. */

#include "hs-battery-code.h"

#include "hs-core-error.h"

#include <string.h>

#define DECADES_BACK 2
/* Codes of one digit are looked for back from today; none is older than that. */
#define FIRST_TODAY 1950

/* The months of a letter by the two schemes, 0 if it has none. */
typedef struct
{
  int without_i;
  int with_i;
} LetterMonths;

static gboolean
refuse (GError **error, const char *text, const char *reason)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is no battery date code: %s", text, reason);
  return FALSE;
}

static LetterMonths
months_of (char letter)
{
  int plain = letter - 'A' + 1;
  LetterMonths months = { 0 };

  if (letter < 'I')
    months.without_i = plain;
  else if (letter > 'I' && letter <= 'M')
    months.without_i = plain - 1;
  if (letter <= 'L')
    months.with_i = plain;
  return months;
}

void
hs_battery_code_clear (HsBatteryCode *code)
{
  g_clear_pointer (&code->months, g_array_unref);
  g_clear_pointer (&code->older, g_array_unref);
}

static void
add_month (GArray *array, int year, int month)
{
  HsDate first = hs_date_from_ymd (year, month, 1);

  for (guint i = 0; i < array->len; i++)
    if (g_array_index (array, HsDate, i) == first)
      return;
  g_array_append_val (array, first);
}

/* The newest year ending in @digit in which @month has begun by @today. */
static int
newest_year (int digit, int month, HsDate today)
{
  int year;

  hs_date_to_ymd (today, &year, NULL, NULL);
  while (year % 10 != digit || hs_date_from_ymd (year, month, 1) > today)
    year--;
  return year;
}

static int
compare_dates (const void *a, const void *b)
{
  HsDate left = *(const HsDate *) a;
  HsDate right = *(const HsDate *) b;

  return left < right ? -1 : left > right;
}

static int
compare_newest_first (const void *a, const void *b)
{
  return compare_dates (b, a);
}

/* Both readings of one letter. Where only one of them has begun this year, the other one is ten years older. */
static void
add_letter (HsBatteryCode *code, char letter, int digit, HsDate today)
{
  LetterMonths months = months_of (letter);
  int candidates[] = { months.without_i, months.with_i };
  int newest = 0;

  for (guint i = 0; i < G_N_ELEMENTS (candidates); i++)
    if (candidates[i] != 0)
      newest = MAX (newest, newest_year (digit, candidates[i], today));
  for (guint i = 0; i < G_N_ELEMENTS (candidates); i++)
    {
      if (candidates[i] == 0)
        continue;
      if (hs_date_from_ymd (newest, candidates[i], 1) <= today)
        add_month (code->months, newest, candidates[i]);
      for (int back = 1; back <= DECADES_BACK; back++)
        add_month (code->older, newest - 10 * back, candidates[i]);
    }
  g_array_sort (code->months, compare_dates);
  g_array_sort (code->older, compare_newest_first);
}

static gboolean
two_digits (const char *text, int *ret_number)
{
  if (!g_ascii_isdigit (text[0]) || !g_ascii_isdigit (text[1]))
    return FALSE;
  *ret_number = (text[0] - '0') * 10 + text[1] - '0';
  return TRUE;
}

/* Month and the last two digits of a year of this century: no battery of the last one is still looked at. */
static gboolean
add_numeric (HsBatteryCode *code, const char *text, int month, int year, HsDate today, GError **error)
{
  int full = 2000 + year;

  if (month < 1 || month > 12)
    return refuse (error, text, "the month must be 01 to 12");
  if (hs_date_from_ymd (full, month, 1) > today)
    return refuse (error, text, "that month is still to come");
  add_month (code->months, full, month);
  return TRUE;
}

/* `3/25`, `03/2025`, `0325`. */
static gboolean
read_numeric (HsBatteryCode *code, const char *text, HsDate today, GError **error)
{
  g_auto (GStrv) sides = g_strsplit (text, "/", 2);
  g_autofree char *joined = NULL;
  int month, year;

  if (g_strv_length (sides) == 2)
    {
      gsize years = strlen (sides[1]);

      if (years != 1 && years != 2 && !(years == 4 && g_str_has_prefix (sides[1], "20")))
        return refuse (error, text, "write month and year like 03/25");
      joined = g_strdup_printf ("%s%s%s%s", strlen (sides[0]) == 1 ? "0" : "", sides[0], years == 1 ? "0" : "",
                                sides[1] + (years == 4 ? 2 : 0));
    }
  else
    joined = g_strdup (text);
  if (strlen (joined) != 4 || !two_digits (joined, &month) || !two_digits (joined + 2, &year))
    return refuse (error, text, "write a letter and a digit like C5, or month and year like 03/25");
  code->scheme = "month and year in digits";
  return add_numeric (code, text, month, year, today, error);
}

/* `C5`, `5C`, `24C`. */
static gboolean
read_letter (HsBatteryCode *code, const char *text, HsDate today, GError **error)
{
  gsize length = strlen (text);
  gboolean letter_first = g_ascii_isalpha (text[0]);
  char letter = letter_first ? text[0] : text[length - 1];
  const char *digits = letter_first ? text + 1 : text;
  int year;

  if (letter > 'M')
    return refuse (error, text, "the letters of the months end with M");
  if (length == 2 && g_ascii_isdigit (*digits))
    {
      code->scheme = letter_first ? "letter of the month, last digit of the year"
                                  : "last digit of the year, letter of the month";
      add_letter (code, letter, *digits - '0', today);
      return TRUE;
    }
  if (length != 3 || letter_first || !two_digits (digits, &year))
    return refuse (error, text, "write a letter and a digit like C5, or month and year like 03/25");
  code->scheme = "last two digits of the year, letter of the month";
  for (int i = 0; i < 2; i++)
    {
      LetterMonths months = months_of (letter);
      int month = i == 0 ? months.without_i : months.with_i;

      if (month != 0 && hs_date_from_ymd (2000 + year, month, 1) <= today)
        add_month (code->months, 2000 + year, month);
    }
  return code->months->len > 0 ? TRUE : refuse (error, text, "that month is still to come");
}

gboolean
hs_battery_code_parse (const char *text, HsDate today, HsBatteryCode *ret_code, GError **error)
{
  g_auto (HsBatteryCode) code = { 0 };
  g_auto (GStrv) pieces = g_strsplit_set (text, " -.", -1);
  g_autofree char *joined = g_strjoinv (NULL, pieces);
  g_autofree char *bare = g_ascii_strup (joined, -1);
  gsize length = strlen (bare);
  gboolean lettered = length > 0 && (g_ascii_isalpha (bare[0]) || g_ascii_isalpha (bare[length - 1]));

  code.months = g_array_new (FALSE, FALSE, sizeof (HsDate));
  code.older = g_array_new (FALSE, FALSE, sizeof (HsDate));
  if (length == 0)
    return refuse (error, text, "nothing is written here");
  if (today < hs_date_from_ymd (FIRST_TODAY, 1, 1))
    return refuse (error, text, "today must be in 1950 or later");
  if (!(lettered ? read_letter : read_numeric) (&code, bare, today, error))
    return FALSE;
  *ret_code = code;
  code = (HsBatteryCode) { 0 };
  return TRUE;
}
