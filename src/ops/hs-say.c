// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Days and spans in plain English, made by hand so that neither the locale nor the clock of the machine has a say.
 * Use it for sentences that go back to the owner with an operation's result. It refuses nothing: %HS_DATE_NONE
 * becomes an empty text.
 */

#include "hs-say.h"

#include <string.h>

#define SAY_YEAR_DAYS 180
#define SAY_LEFT_DAYS 7
#define SAY_AGO_DAYS 31
#define SAY_LAST_MONTHS 11

static const char *const say_months[] = {
  "January", "February", "March", "April", "May", "June",
  "July", "August", "September", "October", "November", "December",
};

char *
hs_say_day_full (HsDate day)
{
  int year, month, day_of_month;

  if (day == HS_DATE_NONE)
    return g_strdup ("");
  hs_date_to_ymd (day, &year, &month, &day_of_month);
  return g_strdup_printf ("%s %d, %d", say_months[month - 1], day_of_month, year);
}

char *
hs_say_month (HsDate day)
{
  int year, month;

  if (day == HS_DATE_NONE)
    return g_strdup ("");
  hs_date_to_ymd (day, &year, &month, NULL);
  return g_strdup_printf ("%s %d", say_months[month - 1], year);
}

char *
hs_say_day_short (HsDate day, HsDate today)
{
  int year, month, day_of_month;

  if (day == HS_DATE_NONE)
    return g_strdup ("");
  hs_date_to_ymd (day, &year, &month, &day_of_month);
  if (today != HS_DATE_NONE && ABS (day - today) <= SAY_YEAR_DAYS)
    return g_strdup_printf ("%.3s %d", say_months[month - 1], day_of_month);
  return g_strdup_printf ("%.3s %d, %d", say_months[month - 1], day_of_month, year);
}

char *
hs_say_months (int months)
{
  if (months < 1)
    return g_strdup ("less than a month");
  return months == 1 ? g_strdup ("1 month") : g_strdup_printf ("%d months", months);
}

char *
hs_say_days_left (HsDate last_day, HsDate today)
{
  g_autofree char *day = hs_say_day_short (last_day, today);

  if (last_day == HS_DATE_NONE)
    return g_strdup ("");
  if (last_day < today)
    return g_strdup_printf ("overdue since %s", day);
  if (last_day == today)
    return g_strdup ("last day today");
  if (last_day == today + 1)
    return g_strdup ("last day tomorrow");
  if (last_day - today <= SAY_LEFT_DAYS)
    return g_strdup_printf ("%d days left, %s", last_day - today, day);
  return g_strdup_printf ("due %s", day);
}

char *
hs_say_ended (HsDate ended_on, HsDate today)
{
  g_autofree char *month = hs_say_month (ended_on);
  int end_month, day_of_month;

  if (ended_on == HS_DATE_NONE)
    return g_strdup ("");
  hs_date_to_ymd (ended_on, NULL, &end_month, &day_of_month);
  if (today - ended_on == 1)
    return g_strdup ("yesterday");
  if (today - ended_on <= SAY_AGO_DAYS)
    return g_strdup_printf ("%d days ago, on %s %d", today - ended_on, say_months[end_month - 1], day_of_month);
  if (hs_date_months_between (ended_on, today) < SAY_LAST_MONTHS)
    return g_strdup_printf ("last %s", say_months[end_month - 1]);
  return g_strdup_printf ("in %s", month);
}

char *
hs_say_part (const char *name)
{
  char *words = g_strndup (name, strcspn (name, ",("));

  return g_strstrip (words);
}
