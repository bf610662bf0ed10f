// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The most decimals that the functions here take. */
#define HS_DECIMAL_MOST 9

/**
 * hs_decimal_parse:
 * @text: digits with at most one point: `33.3`, `-4`, `.5`, `0012.40`; blanks around it are skipped
 * @decimals: how many places the scaled integer keeps, 0 to %HS_DECIMAL_MOST
 * @ret_scaled: (out): value × 10^@decimals, exact; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Never rounds and never looks at the locale. Refuses a comma, an exponent, a plus sign, NaN and infinity, more
 * decimals than @decimals (zeros at the end are not counted) and anything outside 64 bits, each with its own reason.
 *
 * Returns: %TRUE if @text is such a number
 */
gboolean hs_decimal_parse (const char *text, guint decimals, gint64 *ret_scaled, GError **error);

/**
 * hs_decimal_format:
 *
 * Returns: (transfer full): @scaled with all of its @decimals, `12.40`
 */
char *hs_decimal_format (gint64 scaled, guint decimals);

/**
 * hs_decimal_format_short:
 *
 * Returns: (transfer full): like hs_decimal_format() without zeros at the end, `12.4`, `60`
 */
char *hs_decimal_format_short (gint64 scaled, guint decimals);

/* hs_decimal_power: 10^@decimals. */
gint64 hs_decimal_power (guint decimals);

/**
 * hs_ratio_half_up:
 * @value: any integer
 * @numerator: any integer
 * @denominator: greater than 0
 * @ret_result: (out): @value × @numerator / @denominator, rounded once, halves away from zero; untouched on failure
 *
 * Halves go away from zero so that a credit mirrors the charge it takes back.
 *
 * Returns: %FALSE if a product or the result does not fit into 64 bits, or @denominator is not positive
 */
gboolean hs_ratio_half_up (gint64 value, gint64 numerator, gint64 denominator, gint64 *ret_result);

G_END_DECLS
