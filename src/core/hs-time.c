// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Moments and the clock on the wall: for appointments and for what a day's plan counts in. The zone is always
 * handed in; nothing here asks what time it is. Refuses times without an offset when no zone is given, and leap
 * seconds. */

#include "hs-time.h"

#include "hs-core-error.h"

/* No zone has ever been further than this from UTC. */
#define FARTHEST_OFFSET (16 * 3600)

static int
interval_at (GTimeZone *zone, gint64 instant)
{
  return g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, instant);
}

int
hs_instant_offset (GTimeZone *zone, HsInstant instant)
{
  return g_time_zone_get_offset (zone, interval_at (zone, instant));
}

/* The first instant at which the clock shows more than @wall, when no instant shows @wall itself. */
static HsInstant
end_of_gap (GTimeZone *zone, gint64 wall)
{
  gint64 before = wall - FARTHEST_OFFSET;
  gint64 after = wall + FARTHEST_OFFSET;

  while (after - before > 1)
    {
      gint64 middle = before + (after - before) / 2;

      if (middle + hs_instant_offset (zone, middle) > wall)
        after = middle;
      else
        before = middle;
    }
  return after;
}

/* @wall: the clock's reading as if it were UTC. */
static HsInstant
instant_from_wall (GTimeZone *zone, gint64 wall)
{
  int last = interval_at (zone, wall + FARTHEST_OFFSET);

  for (int interval = interval_at (zone, wall - FARTHEST_OFFSET); interval <= last; interval++)
    {
      gint64 instant = wall - g_time_zone_get_offset (zone, interval);

      if (interval_at (zone, instant) == interval)
        return instant;
    }
  return end_of_gap (zone, wall);
}

static gboolean
two_digits (const char *text, int most, int *ret_number)
{
  if (!g_ascii_isdigit (text[0]) || !g_ascii_isdigit (text[1]))
    return FALSE;
  *ret_number = (text[0] - '0') * 10 + (text[1] - '0');
  return *ret_number <= most;
}

/* Reads `HH:MM` or `HH:MM:SS` at @text and says what is behind it. */
static gboolean
wall_clock_at (const char *text, int *ret_seconds, const char **ret_rest)
{
  int hour, minute, second = 0;

  if (!two_digits (text, 23, &hour) || text[2] != ':' || !two_digits (text + 3, 59, &minute))
    return FALSE;
  text += 5;
  if (*text == ':')
    {
      if (!two_digits (text + 1, 59, &second))
        return FALSE;
      text += 3;
    }
  *ret_seconds = hour * 3600 + minute * 60 + second;
  *ret_rest = text;
  return TRUE;
}

/* Reads `Z` or `±hh:mm`, which must be all of @text. */
static gboolean
offset_at (const char *text, int *ret_offset)
{
  int hours, minutes;

  if (g_str_equal (text, "Z"))
    {
      *ret_offset = 0;
      return TRUE;
    }
  if ((text[0] != '+' && text[0] != '-') || !two_digits (text + 1, 15, &hours) || text[3] != ':'
      || !two_digits (text + 4, 59, &minutes) || text[6] != '\0')
    return FALSE;
  *ret_offset = (hours * 3600 + minutes * 60) * (text[0] == '-' ? -1 : 1);
  return TRUE;
}

gboolean
hs_instant_parse (const char *text, GTimeZone *zone, HsInstant *ret_instant, GError **error)
{
  char day[11] = { 0 };
  HsDate date;
  int seconds, offset = 0;
  const char *rest;
  gint64 wall;

  g_strlcpy (day, text, sizeof day);
  if (strlen (text) < 16 || (text[10] != 'T' && text[10] != ' ') || !wall_clock_at (text + 11, &seconds, &rest)
      || (*rest != '\0' && !offset_at (rest, &offset)))
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a day and time: write it like 2026-03-10T06:45 or 2026-03-10T06:45:00-04:00", text);
      return FALSE;
    }
  if (!hs_date_parse (day, &date, error))
    return FALSE;
  if (*rest == '\0' && zone == NULL)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” does not say where: put Z or an offset such as -04:00 behind it", text);
      return FALSE;
    }
  wall = (gint64) date * HS_SECONDS_PER_DAY + seconds;
  *ret_instant = *rest == '\0' ? instant_from_wall (zone, wall) : wall - offset;
  return TRUE;
}

static gint64
floor_days (gint64 seconds)
{
  gint64 days = seconds / HS_SECONDS_PER_DAY;

  return seconds % HS_SECONDS_PER_DAY < 0 ? days - 1 : days;
}

/* Day and clock of a wall reading, with `T` between; empty outside the calendar. */
static char *
format_wall (gint64 wall, const char *behind)
{
  gint64 days = floor_days (wall);
  g_autofree char *day = NULL;
  int seconds;

  if (days <= G_MININT32 || days > G_MAXINT32)
    return g_strdup ("");
  seconds = (int) (wall - days * HS_SECONDS_PER_DAY);
  day = hs_date_format ((HsDate) days);
  if (*day == '\0')
    return g_steal_pointer (&day);
  return g_strdup_printf ("%sT%02d:%02d:%02d%s", day, seconds / 3600, seconds / 60 % 60, seconds % 60, behind);
}

char *
hs_instant_format (HsInstant instant)
{
  return format_wall (instant, "Z");
}

char *
hs_instant_format_local (GTimeZone *zone, HsInstant instant)
{
  int offset;
  g_autofree char *behind = NULL;

  if (instant == HS_INSTANT_NONE)
    return g_strdup ("");
  offset = hs_instant_offset (zone, instant);
  behind = g_strdup_printf ("%c%02d:%02d", offset < 0 ? '-' : '+', ABS (offset) / 3600, ABS (offset) / 60 % 60);
  return format_wall (instant + offset, behind);
}

HsInstant
hs_instant_from_local (GTimeZone *zone, HsDate date, int minutes)
{
  g_return_val_if_fail (date != HS_DATE_NONE, HS_INSTANT_NONE);
  return instant_from_wall (zone, (gint64) date * HS_SECONDS_PER_DAY + (gint64) minutes * 60);
}

void
hs_instant_to_local (GTimeZone *zone, HsInstant instant, HsDate *ret_date, int *ret_seconds_of_day)
{
  gint64 wall, days;

  g_return_if_fail (instant != HS_INSTANT_NONE);
  wall = instant + hs_instant_offset (zone, instant);
  days = floor_days (wall);
  if (ret_date != NULL)
    *ret_date = (HsDate) CLAMP (days, G_MININT32, G_MAXINT32);
  if (ret_seconds_of_day != NULL)
    *ret_seconds_of_day = (int) (wall - days * HS_SECONDS_PER_DAY);
}

gboolean
hs_clock_parse (const char *text, int *ret_minutes, GError **error)
{
  gsize length = strlen (text);
  g_autofree char *padded = length == 4 ? g_strconcat ("0", text, NULL) : g_strdup (text);
  int hour, minute;

  if (strlen (padded) != 5 || padded[2] != ':' || !two_digits (padded, 24, &hour)
      || !two_digits (padded + 3, 59, &minute) || hour * 60 + minute > HS_MINUTES_PER_DAY)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a time of day: write hours and minutes like 08:30, up to 24:00", text);
      return FALSE;
    }
  *ret_minutes = hour * 60 + minute;
  return TRUE;
}

char *
hs_clock_format (int minutes)
{
  if (minutes < 0)
    return g_strdup_printf ("-%02d:%02d", -minutes / 60, -minutes % 60);
  return g_strdup_printf ("%02d:%02d", minutes / 60, minutes % 60);
}
