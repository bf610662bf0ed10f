// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The header Retry-After. Whatever is not to the letter of RFC 9110 counts as not said. */

#include "hs-retry-after.h"

#include <string.h>

static const char *const months[]
  = { "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec" };
static const char *const days[] = { "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun" };
static const char *const long_days[]
  = { "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday" };

typedef struct
{
  int year;
  int month;
  int day;
  int hour;
  int minute;
  int second;
} Parts;

/* Each take_… moves on behind what it found. */
static gboolean
take (const char **at, const char *what)
{
  gsize length = strlen (what);

  if (strncmp (*at, what, length) != 0)
    return FALSE;
  *at += length;
  return TRUE;
}

static gboolean
take_digits (const char **at, guint n, int *ret_value)
{
  int value = 0;

  for (guint i = 0; i < n; i++)
    {
      if (!g_ascii_isdigit ((*at)[i]))
        return FALSE;
      value = value * 10 + (*at)[i] - '0';
    }
  *at += n;
  *ret_value = value;
  return TRUE;
}

static gboolean
take_one_of (const char **at, const char *const *words, guint n, int *ret_index)
{
  for (guint i = 0; i < n; i++)
    if (take (at, words[i]))
      {
        *ret_index = (int) i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
take_month (const char **at, Parts *parts)
{
  int index;

  if (!take_one_of (at, months, G_N_ELEMENTS (months), &index))
    return FALSE;
  parts->month = index + 1;
  return TRUE;
}

static gboolean
take_clock (const char **at, Parts *parts)
{
  return take_digits (at, 2, &parts->hour) && take (at, ":") && take_digits (at, 2, &parts->minute) && take (at, ":")
         && take_digits (at, 2, &parts->second);
}

static gboolean
read_fixed (const char *at, Parts *parts)
{
  int day;

  return take_one_of (&at, days, G_N_ELEMENTS (days), &day) && take (&at, ", ") && take_digits (&at, 2, &parts->day)
         && take (&at, " ") && take_month (&at, parts) && take (&at, " ") && take_digits (&at, 4, &parts->year)
         && take (&at, " ") && take_clock (&at, parts) && g_str_equal (at, " GMT");
}

static gboolean
read_dashed (const char *at, HsInstant now, Parts *parts)
{
  int day;
  HsDate today;
  int this_year;

  if (!(take_one_of (&at, long_days, G_N_ELEMENTS (long_days), &day) && take (&at, ", ")
        && take_digits (&at, 2, &parts->day) && take (&at, "-") && take_month (&at, parts) && take (&at, "-")
        && take_digits (&at, 2, &parts->year) && take (&at, " ") && take_clock (&at, parts)
        && g_str_equal (at, " GMT")))
    return FALSE;
  today = (HsDate) (now / HS_SECONDS_PER_DAY);
  hs_date_to_ymd (today, &this_year, NULL, NULL);
  parts->year += this_year - this_year % 100;
  if (parts->year > this_year + 50)
    parts->year -= 100;
  return TRUE;
}

static gboolean
read_spaced (const char *at, Parts *parts)
{
  int day;

  return take_one_of (&at, days, G_N_ELEMENTS (days), &day) && take (&at, " ") && take_month (&at, parts)
         && take (&at, " ")
         && (take (&at, " ") ? take_digits (&at, 1, &parts->day) : take_digits (&at, 2, &parts->day)) && take (&at, " ")
         && take_clock (&at, parts) && take (&at, " ") && take_digits (&at, 4, &parts->year) && *at == '\0';
}

gboolean
hs_http_date_parse (const char *text, HsInstant now, HsInstant *ret_instant)
{
  Parts parts = { 0 };
  HsDate date;

  if (!read_fixed (text, &parts) && !read_dashed (text, now, &parts) && !read_spaced (text, &parts))
    return FALSE;
  date = hs_date_from_ymd (parts.year, parts.month, parts.day);
  /* A leap second is the last of its minute. */
  if (date == HS_DATE_NONE || parts.hour > 23 || parts.minute > 59 || parts.second > 60)
    return FALSE;
  *ret_instant = (HsInstant) date * HS_SECONDS_PER_DAY + parts.hour * 3600 + parts.minute * 60 + MIN (parts.second, 59);
  return TRUE;
}

/* One or more digits and nothing else; what would not fit is as long as may be. */
static gboolean
read_seconds (const char *text, gint64 *ret_seconds)
{
  gint64 seconds = 0;

  if (*text == '\0')
    return FALSE;
  for (; *text != '\0'; text++)
    {
      if (!g_ascii_isdigit (*text))
        return FALSE;
      seconds = MIN (seconds * 10 + *text - '0', HS_RETRY_AFTER_MOST_SECONDS);
    }
  *ret_seconds = seconds;
  return TRUE;
}

HsInstant
hs_retry_after_parse (const char *text, HsInstant now)
{
  g_autofree char *bare = text == NULL ? NULL : g_strstrip (g_strdup (text));
  gint64 seconds;
  HsInstant at;

  if (bare == NULL)
    return HS_INSTANT_NONE;
  if (read_seconds (bare, &seconds))
    return now + seconds;
  if (!hs_http_date_parse (bare, now, &at))
    return HS_INSTANT_NONE;
  return MIN (at, now + HS_RETRY_AFTER_MOST_SECONDS);
}
