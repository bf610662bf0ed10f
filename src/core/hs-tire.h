// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-date.h"

G_BEGIN_DECLS

/* 1/32 in is 0.79375 mm exactly. */

/* hs_tire_mm_of_32nds: both × 10^9, exact but for what lies behind the ninth place (dropped). */
gint64 hs_tire_mm_of_32nds (gint64 thirtyseconds);

/* hs_tire_32nds_of_mm: @mm in 1/32 in, unrounded. */
double hs_tire_32nds_of_mm (double mm);

/**
 * HsTireWeek:
 * @from: a Sunday
 * @to: the Saturday after it
 *
 * The week in which a tire was made.
 */
typedef struct
{
  HsDate from;
  HsDate to;
} HsTireWeek;

/**
 * hs_tire_week:
 * @year: four digits
 * @week: 1 to 53
 * @ret_week: (out): untouched on failure
 *
 * Week 01 is the first full week of the year, Sunday to Saturday; the last one may run into the next year by at most
 * six days (49 CFR 574.5(b)(3)). These are not the weeks of ISO 8601.
 *
 * Returns: %FALSE if the year has no such week
 */
gboolean hs_tire_week (int year, int week, HsTireWeek *ret_week);

/**
 * HsTireCode:
 * @made: the newest week that the code can mean
 * @three_digits: from before July 2000, and the decade is not told
 * @has_older: it can also be ten years older
 * @older: the same week ten years before
 *
 * What a date code means.
 */
typedef struct
{
  HsTireWeek made;
  gboolean three_digits;
  gboolean has_older;
  HsTireWeek older;
} HsTireCode;

/* Symbols of a tire identification number without the letters DOT (49 CFR 574.5(a), since 2015); older ones have
 * fewer. */
#define HS_TIRE_TIN_SYMBOLS 13

/**
 * hs_tire_code_parse:
 * @text: `3523`, or a whole identification number with or without DOT, blanks and hyphens: its last four digits count,
 *   its last three if they stand alone or behind a letter
 * @today: the code must not be later
 * @ret_code: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Four digits are week and year since 2000. Three digits are week and last digit of a year before July 2000 (64 FR
 * 36807): the newest reading and the one ten years before it.
 *
 * Returns: %TRUE if it is a date that can be
 */
gboolean hs_tire_code_parse (const char *text, HsDate today, HsTireCode *ret_code, GError **error);

/* Look at it every year from the first age on, replace it at the second (maker advice, common practice). */
#define HS_TIRE_INSPECT_YEARS 5
#define HS_TIRE_REPLACE_YEARS 10

/**
 * hs_tire_miles_left:
 * @new_mm: when it was new, or at an earlier measurement
 * @now_mm: now
 * @least_mm: at which it is replaced
 * @miles: driven between both measurements
 *
 * For tread and linings alike: (now − least) / (worn / miles).
 *
 * Returns: miles, 0 if it is at its end, or NaN if nothing has worn off, so that nothing can be said
 */
double hs_tire_miles_left (double new_mm, double now_mm, double least_mm, double miles);

G_END_DECLS
