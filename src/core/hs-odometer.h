// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-date.h"

G_BEGIN_DECLS

/* Readings closer together than this say nothing about a day's distance. */
#define HS_ODOMETER_LEAST_DAYS 30

/**
 * HsOdometer:
 * @date: when it was read
 * @value: whole miles (or kilometers), 0 or more
 */
typedef struct
{
  HsDate date;
  gint64 value;
} HsOdometer;

/**
 * HsOdometerPace:
 * @last: the newest reading
 * @distance: driven in @days
 * @days: %HS_ODOMETER_LEAST_DAYS or more
 *
 * What a vehicle drives, kept as a fraction so that nothing is rounded on the way.
 */
typedef struct
{
  HsOdometer last;
  gint64 distance;
  gint64 days;
} HsOdometerPace;

/**
 * hs_odometer_pace:
 * @readings: (array length=n_readings): undoubted readings, in any order
 * @ret_pace: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_REFUSED "not enough to say"
 *
 * Compares the newest reading with the newest one at least %HS_ODOMETER_LEAST_DAYS before it.
 *
 * Returns: %FALSE if there are no two such readings or the odometer fell between them
 */
gboolean hs_odometer_pace (const HsOdometer *readings, gsize n_readings, HsOdometerPace *ret_pace, GError **error);

/* hs_odometer_pace_tenths: distance a day in tenths, rounded, halves up. */
gint64 hs_odometer_pace_tenths (const HsOdometerPace *pace);

/* hs_odometer_predict: the value expected on @date, floored; the last reading for a day before it. */
gint64 hs_odometer_predict (const HsOdometerPace *pace, HsDate date);

/**
 * hs_odometer_due_on:
 * @due_value: odometer at which upkeep is due
 *
 * Returns: the day on which it gets there, floored; the day of the last reading if it is there already;
 *   %HS_DATE_NONE if the vehicle stands still
 */
HsDate hs_odometer_due_on (const HsOdometerPace *pace, gint64 due_value);

/* More a day than this nobody drives: a slipped digit, another vehicle, or kilometers taken for miles. */
#define HS_ODOMETER_MOST_A_DAY 1000

/**
 * HsOdometerStep:
 * @HS_ODOMETER_STEP_FINE: it can be
 * @HS_ODOMETER_STEP_FELL: it shows less than before
 * @HS_ODOMETER_STEP_JUMPED: more than %HS_ODOMETER_MOST_A_DAY for each day between
 */
typedef enum
{
  HS_ODOMETER_STEP_FINE,
  HS_ODOMETER_STEP_FELL,
  HS_ODOMETER_STEP_JUMPED,
} HsOdometerStep;

/* hs_odometer_step: what to think of a reading after another; one day at least counts as driven. */
HsOdometerStep hs_odometer_step (const HsOdometer *earlier, const HsOdometer *later);

/* Less a year than this hardly anybody drives, and a vehicle of unknown age has been driven this far. */
#define HS_ODOMETER_LEAST_A_YEAR 100
#define HS_ODOMETER_LEAST 10

/* hs_odometer_is_low: a first reading that can hardly be; @years: since its model year, −1: not known. */
gboolean hs_odometer_is_low (gint64 value, int years);

G_END_DECLS
