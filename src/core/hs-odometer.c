// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a vehicle drives in a day and when that makes upkeep due: for the list of people to call. Says "not enough
 * to say" rather than guess from readings that are close together, and refuses an odometer that runs backward. */

#include "hs-odometer.h"

#include "hs-core-error.h"
#include "hs-decimal.h"

static gboolean
refuse (GError **error, const char *reason)
{
  g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_REFUSED, reason);
  return FALSE;
}

/* The newest reading up to @latest; on one day the higher one. NULL if there is none. */
static const HsOdometer *
newest_until (const HsOdometer *readings, gsize n_readings, gint64 latest)
{
  const HsOdometer *newest = NULL;

  for (gsize i = 0; i < n_readings; i++)
    {
      const HsOdometer *reading = &readings[i];

      if (reading->date > latest)
        continue;
      if (newest == NULL || reading->date > newest->date
          || (reading->date == newest->date && reading->value > newest->value))
        newest = reading;
    }
  return newest;
}

gboolean
hs_odometer_pace (const HsOdometer *readings, gsize n_readings, HsOdometerPace *ret_pace, GError **error)
{
  const HsOdometer *last = newest_until (readings, n_readings, G_MAXINT32);
  const HsOdometer *earlier = NULL;

  if (last != NULL)
    earlier = newest_until (readings, n_readings, (gint64) last->date - HS_ODOMETER_LEAST_DAYS);
  if (earlier == NULL)
    return refuse (error, "not enough to say: two odometer readings at least 30 days apart are needed");
  if (earlier->value > last->value)
    return refuse (error, "not enough to say: the odometer fell between the last two readings");
  *ret_pace = (HsOdometerPace) { *last, last->value - earlier->value, (gint64) last->date - earlier->date };
  return TRUE;
}

gint64
hs_odometer_pace_tenths (const HsOdometerPace *pace)
{
  gint64 tenths = 0;

  hs_ratio_half_up (pace->distance, 10, pace->days, &tenths);
  return tenths;
}

gint64
hs_odometer_predict (const HsOdometerPace *pace, HsDate date)
{
  gint64 days = MAX ((gint64) date - pace->last.date, 0);
  gint64 driven;

  if (__builtin_mul_overflow (days, pace->distance, &driven)
      || __builtin_add_overflow (driven / pace->days, pace->last.value, &driven))
    return G_MAXINT64;
  return driven;
}

HsDate
hs_odometer_due_on (const HsOdometerPace *pace, gint64 due_value)
{
  gint64 left = due_value - pace->last.value;
  gint64 days;

  if (left <= 0)
    return pace->last.date;
  if (pace->distance == 0 || __builtin_mul_overflow (left, pace->days, &days))
    return HS_DATE_NONE;
  days /= pace->distance;
  return days > G_MAXINT32 ? HS_DATE_NONE : hs_date_add_days (pace->last.date, (int) days);
}

HsOdometerStep
hs_odometer_step (const HsOdometer *earlier, const HsOdometer *later)
{
  gint64 days = MAX ((gint64) later->date - earlier->date, 1);

  if (later->value < earlier->value)
    return HS_ODOMETER_STEP_FELL;
  return later->value - earlier->value > days * HS_ODOMETER_MOST_A_DAY ? HS_ODOMETER_STEP_JUMPED
                                                                        : HS_ODOMETER_STEP_FINE;
}

/* In its first year and the one after a vehicle may be new. */
gboolean
hs_odometer_is_low (gint64 value, int years)
{
  if (years < 0)
    return value < HS_ODOMETER_LEAST;
  return years >= 2 && value < (gint64) years * HS_ODOMETER_LEAST_A_YEAR;
}
