// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days without a clock: for what stands on paper with a date. Refuses days that do not exist and years outside
 * 1…9999; a moment in time is an HsInstant instead. The calendar itself is GLib's. */

#include "hs-date.h"

#include "hs-core-error.h"

/* 1970-01-01 in GDate's count, where 0001-01-01 is 1. */
#define EPOCH_JULIAN 719163
#define LAST_YEAR 9999

static HsDate
date_from_gdate (const GDate *gdate)
{
  return (HsDate) g_date_get_julian (gdate) - EPOCH_JULIAN;
}

static gboolean
gdate_from_date (HsDate date, GDate *ret_gdate)
{
  gint64 julian = (gint64) date + EPOCH_JULIAN;

  if (date == HS_DATE_NONE || julian < 1 || date > hs_date_from_ymd (LAST_YEAR, 12, 31))
    return FALSE;
  g_date_clear (ret_gdate, 1);
  g_date_set_julian (ret_gdate, (guint32) julian);
  return TRUE;
}

static gboolean
digits_at (const char *text, int n, int *ret_number)
{
  int number = 0;

  for (int i = 0; i < n; i++)
    {
      if (!g_ascii_isdigit (text[i]))
        return FALSE;
      number = number * 10 + (text[i] - '0');
    }
  *ret_number = number;
  return TRUE;
}

gboolean
hs_date_parse (const char *text, HsDate *ret_date, GError **error)
{
  int year, month, day;
  HsDate date;

  if (strlen (text) != 10 || text[4] != '-' || text[7] != '-' || !digits_at (text, 4, &year)
      || !digits_at (text + 5, 2, &month) || !digits_at (text + 8, 2, &day))
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a date: write year, month and day like 2026-03-10", text);
      return FALSE;
    }
  date = hs_date_from_ymd (year, month, day);
  if (date == HS_DATE_NONE)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "there is no day %s: check month and day", text);
      return FALSE;
    }
  *ret_date = date;
  return TRUE;
}

char *
hs_date_format (HsDate date)
{
  GDate gdate;

  if (!gdate_from_date (date, &gdate))
    return g_strdup ("");
  return g_strdup_printf ("%04d-%02d-%02d", g_date_get_year (&gdate), g_date_get_month (&gdate),
                          g_date_get_day (&gdate));
}

HsDate
hs_date_from_ymd (int year, int month, int day)
{
  GDate gdate;

  if (year < 1 || year > LAST_YEAR || month < 1 || month > 12 || day < 1 || day > 31
      || !g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year))
    return HS_DATE_NONE;
  g_date_clear (&gdate, 1);
  g_date_set_dmy (&gdate, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
  return date_from_gdate (&gdate);
}

void
hs_date_to_ymd (HsDate date, int *ret_year, int *ret_month, int *ret_day)
{
  GDate gdate;

  g_return_if_fail (gdate_from_date (date, &gdate));
  if (ret_year != NULL)
    *ret_year = g_date_get_year (&gdate);
  if (ret_month != NULL)
    *ret_month = g_date_get_month (&gdate);
  if (ret_day != NULL)
    *ret_day = g_date_get_day (&gdate);
}

int
hs_date_days_in_month (int year, int month)
{
  if (month < 1 || month > 12 || year < 1 || year > LAST_YEAR)
    return 0;
  return g_date_get_days_in_month ((GDateMonth) month, (GDateYear) year);
}

HsDate
hs_date_add_months (HsDate date, int months)
{
  int year, month, day;
  gint64 count;

  if (date == HS_DATE_NONE)
    return HS_DATE_NONE;
  hs_date_to_ymd (date, &year, &month, &day);
  count = (gint64) year * 12 + (month - 1) + months;
  if (count < 12 || count >= (gint64) (LAST_YEAR + 1) * 12)
    return HS_DATE_NONE;
  year = (int) (count / 12);
  month = (int) (count % 12) + 1;
  return hs_date_from_ymd (year, month, MIN (day, hs_date_days_in_month (year, month)));
}

HsDate
hs_date_add_days (HsDate date, int days)
{
  gint64 sum = (gint64) date + days;

  if (date == HS_DATE_NONE || sum < hs_date_from_ymd (1, 1, 1) || sum > hs_date_from_ymd (LAST_YEAR, 12, 31))
    return HS_DATE_NONE;
  return (HsDate) sum;
}

int
hs_date_months_between (HsDate from, HsDate to)
{
  int from_year, from_month, to_year, to_month, months;

  if (to < from)
    return -hs_date_months_between (to, from);
  hs_date_to_ymd (from, &from_year, &from_month, NULL);
  hs_date_to_ymd (to, &to_year, &to_month, NULL);
  months = (to_year - from_year) * 12 + to_month - from_month;
  return hs_date_add_months (from, months) > to ? months - 1 : months;
}

int
hs_date_weekday (HsDate date)
{
  GDate gdate;

  g_return_val_if_fail (gdate_from_date (date, &gdate), 0);
  return g_date_get_weekday (&gdate);
}
