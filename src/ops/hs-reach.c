// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * When a customer can be reached, and clock times that can be promised. Use it wherever a window is set. Refuses a
 * clock time that does not exist on its day; a window outside the customer's hours is a person's choice, and logged.
 */

#include "hs-reach.h"

#include "hs-customer-row.h"
#include "hs-log-row.h"
#include "hs-ops-private.h"
#include "hs-time.h"

/* Seconds since the midnight that began @day: beyond 86,400 on the next day. */
static gint64
wall_seconds (GTimeZone *zone, HsDate day, HsInstant instant)
{
  HsDate date;
  int seconds;

  hs_instant_to_local (zone, instant, &date, &seconds);
  return ((gint64) date - day) * HS_SECONDS_PER_DAY + seconds;
}

static HsDate
day_of (GTimeZone *zone, HsInstant instant)
{
  HsDate day;

  hs_instant_to_local (zone, instant, &day, NULL);
  return day;
}

static char *
clock_of (gint64 seconds)
{
  return hs_clock_format ((int) (seconds / 60 > HS_MINUTES_PER_DAY ? seconds / 60 - HS_MINUTES_PER_DAY : seconds / 60));
}

/* "14:00 to 16:00"; with one end "after 14:00" or "by 16:00". */
static char *
say_window (HsInstant from, HsInstant to, gint64 from_seconds, gint64 to_seconds)
{
  g_autofree char *from_clock = clock_of (from_seconds);
  g_autofree char *to_clock = clock_of (to_seconds);

  if (from == HS_INSTANT_NONE)
    return g_strdup_printf ("by %s", to_clock);
  if (to == HS_INSTANT_NONE)
    return g_strdup_printf ("after %s", from_clock);
  return g_strdup_printf ("%s to %s", from_clock, to_clock);
}

/* %NULL: the window lies within the hours. What it leaves open breaks nothing. */
static char *
override_of (GTimeZone *zone, const HsJobRow *job, const HsCustomerRow *customer)
{
  gint64 opens = customer->reach_from_minutes == HS_INT_NONE ? 0 : customer->reach_from_minutes * 60;
  gint64 shuts
      = customer->reach_to_minutes == HS_INT_NONE ? HS_SECONDS_PER_DAY : customer->reach_to_minutes * 60;
  gboolean any_hour = customer->reach_from_minutes == HS_INT_NONE && customer->reach_to_minutes == HS_INT_NONE;
  gboolean has_from = job->window_from != HS_INSTANT_NONE, has_to = job->window_to != HS_INSTANT_NONE;
  /* 24:00 is the end of its day. */
  HsDate day = day_of (zone, has_from ? job->window_from : job->window_to - 1);
  gint64 from = has_from ? wall_seconds (zone, day, job->window_from) : 0;
  gint64 to = has_to ? wall_seconds (zone, day, job->window_to) : 0;

  if (any_hour || ((!has_from || (from >= opens && from <= shuts)) && (!has_to || (to >= opens && to <= shuts))))
    return NULL;

  g_autofree char *window = say_window (job->window_from, job->window_to, from, to);
  g_autofree char *opens_clock = clock_of (opens);
  g_autofree char *shuts_clock = clock_of (shuts);
  return g_strdup_printf ("%s is outside the hours at which %s can be reached, %s to %s", window, customer->name,
                          opens_clock, shuts_clock);
}

gboolean
hs_reach_log (HsBook *book, const HsJobRow *job, char **ret_note, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autofree char *note = NULL;

  if (job->window_from != HS_INSTANT_NONE || job->window_to != HS_INSTANT_NONE)
    {
      if (!hs_customer_row_load (store, job->customer_id, &customer, error))
        return FALSE;
      note = override_of (hs_book_get_zone (book), job, customer);
    }
  if (note != NULL && !hs_log_row_add_override (store, "job", job->id, "window_outside_reach", note, error))
    return FALSE;
  if (ret_note != NULL)
    *ret_note = g_steal_pointer (&note);
  return TRUE;
}

gboolean
hs_reach_instant (GTimeZone *zone, HsDate day, int minutes, HsInstant *ret_instant, GError **error)
{
  HsInstant instant = hs_instant_from_local (zone, day, minutes);
  g_autofree char *clock = NULL;

  if (wall_seconds (zone, day, instant) == 60 * (gint64) minutes)
    {
      *ret_instant = instant;
      return TRUE;
    }
  clock = hs_clock_format (minutes % HS_MINUTES_PER_DAY);
  return hs_ops_refuse (error, "%s does not exist on that day; clocks go forward then", clock);
}
