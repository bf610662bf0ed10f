// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsDate:
 *
 * A day without a clock or a zone: days since 1970-01-01 in the proleptic Gregorian calendar, years 1 to 9999.
 * For dates on paper (invoices, warranties, purchases). For a moment use #HsInstant.
 */
typedef gint32 HsDate;

/* No date known. Smaller than every real date; never do sums with it. */
#define HS_DATE_NONE G_MININT32

/**
 * hs_date_parse:
 * @text: exactly `YYYY-MM-DD` (ISO 8601), nothing before or after it
 * @ret_date: (out): the day; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE with what is wrong and how to write it
 *
 * Returns: %TRUE if @text names a day that exists
 */
gboolean hs_date_parse (const char *text, HsDate *ret_date, GError **error);

/**
 * hs_date_format:
 *
 * Returns: (transfer full): `YYYY-MM-DD`, or an empty string for %HS_DATE_NONE
 */
char *hs_date_format (HsDate date);

/**
 * hs_date_from_ymd:
 *
 * Returns: the day, or %HS_DATE_NONE if there is no such day in the years 1 to 9999
 */
HsDate hs_date_from_ymd (int year, int month, int day);

/**
 * hs_date_to_ymd:
 * @date: a day, not %HS_DATE_NONE
 * @ret_year: (out) (optional): 1 to 9999
 * @ret_month: (out) (optional): 1 to 12
 * @ret_day: (out) (optional): 1 to 31
 */
void hs_date_to_ymd (HsDate date, int *ret_year, int *ret_month, int *ret_day);

/* hs_date_days_in_month: 28 to 31, or 0 if @month is not 1 to 12. */
int hs_date_days_in_month (int year, int month);

/**
 * hs_date_add_months:
 * @date: a day
 * @months: how many, may be negative
 *
 * The same day of the month, or the last day of a shorter month: 31 January + 1 month is 28 (or 29) February.
 *
 * Returns: the day, or %HS_DATE_NONE if @date is none or the sum leaves the years 1 to 9999
 */
HsDate hs_date_add_months (HsDate date, int months);

/**
 * hs_date_add_days:
 *
 * Returns: the day, or %HS_DATE_NONE if @date is none or the sum leaves the years 1 to 9999
 */
HsDate hs_date_add_days (HsDate date, int days);

/**
 * hs_date_months_between:
 * @from: the earlier day
 * @to: the later day
 *
 * Age in months as people count it: the most months that can be added to @from without passing @to.
 *
 * Returns: whole months; if @to is before @from, those from @to to @from with a minus
 */
int hs_date_months_between (HsDate from, HsDate to);

/* hs_date_weekday: 1 = Monday … 7 = Sunday (ISO 8601). */
int hs_date_weekday (HsDate date);

G_END_DECLS
