// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-date.h"

G_BEGIN_DECLS

/**
 * HsInstant:
 *
 * A moment: seconds since 1970-01-01T00:00:00Z. Appointments are kept as instants beside the zone they were made in.
 */
typedef gint64 HsInstant;

/* No moment known. Smaller than every real instant; never do sums with it. */
#define HS_INSTANT_NONE G_MININT64

#define HS_SECONDS_PER_DAY 86400
#define HS_MINUTES_PER_DAY 1440

/**
 * hs_instant_parse:
 * @text: ISO 8601: `2026-03-10T06:45`, `2026-03-10T06:45:30`, either with `Z`, `+hh:mm` or `-hh:mm` behind it;
 *   a space is accepted for the `T`; fractions of a second are refused
 * @zone: (nullable): where a text without an offset is meant; %NULL refuses such a text
 * @ret_instant: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Returns: %TRUE if @text is a moment
 */
gboolean hs_instant_parse (const char *text, GTimeZone *zone, HsInstant *ret_instant, GError **error);

/**
 * hs_instant_format:
 *
 * Returns: (transfer full): `2026-03-10T10:45:00Z`, or an empty string for %HS_INSTANT_NONE or outside years 1 to 9999
 */
char *hs_instant_format (HsInstant instant);

/**
 * hs_instant_format_local:
 *
 * Returns: (transfer full): the clock on the wall there, with its offset: `2026-03-10T06:45:00-04:00`
 */
char *hs_instant_format_local (GTimeZone *zone, HsInstant instant);

/**
 * hs_instant_from_local:
 * @zone: where the clock hangs
 * @date: a day, not %HS_DATE_NONE
 * @minutes: what the clock on the wall shows, minutes after midnight; 1440 is the next midnight, more rolls on
 *
 * When clocks jump forward and the time is skipped, this is the first instant after the gap. When clocks go back and
 * the time comes twice, this is the earlier one.
 *
 * Returns: the moment
 */
HsInstant hs_instant_from_local (GTimeZone *zone, HsDate date, int minutes);

/**
 * hs_instant_to_local:
 * @ret_date: (out) (optional): the day on the wall there
 * @ret_seconds_of_day: (out) (optional): 0 to 86399, what the clock shows (not the seconds since midnight on days
 *   when clocks change)
 */
void hs_instant_to_local (GTimeZone *zone, HsInstant instant, HsDate *ret_date, int *ret_seconds_of_day);

/* hs_instant_offset: seconds east of UTC that @zone keeps at @instant. */
int hs_instant_offset (GTimeZone *zone, HsInstant instant);

/**
 * hs_clock_parse:
 * @text: `HH:MM`, 00:00 to 24:00; `H:MM` is accepted
 * @ret_minutes: (out): 0 to 1440; untouched on failure
 *
 * Returns: %TRUE if @text is a time of day
 */
gboolean hs_clock_parse (const char *text, int *ret_minutes, GError **error);

/**
 * hs_clock_format:
 * @minutes: 0 to 1440; more is shown as it is (25:10), so that a plan past midnight stays readable
 *
 * Returns: (transfer full): `HH:MM`
 */
char *hs_clock_format (int minutes);

G_END_DECLS
