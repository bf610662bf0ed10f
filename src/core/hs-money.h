// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A percent is kept with so many decimals, and a whole in that unit: 8.25 % is 8250000 of 100000000. */
#define HS_PERCENT_DECIMALS 6
#define HS_PERCENT_WHOLE G_GINT64_CONSTANT (100000000)

/**
 * hs_currency_decimals:
 * @code: three capital letters, ISO 4217
 *
 * Minor units as ISO 4217 lists them, list one of 2024-06-25 (not the rounding that shops use for cash).
 *
 * Returns: 0, 2, 3 or 4; −1 if the code is not known here
 */
int hs_currency_decimals (const char *code);

/**
 * hs_money_parse:
 * @text: an amount such as `1234.50`, without a currency sign and without grouping
 * @currency: ISO 4217 code
 * @ret_minor: (out): the amount in minor units (cents); untouched on failure
 *
 * Returns: %TRUE if @text is an amount in that currency
 */
gboolean hs_money_parse (const char *text, const char *currency, gint64 *ret_minor, GError **error);

/**
 * hs_money_format:
 *
 * Returns: (transfer full): `1234.50`: always all decimals of @currency; an unknown currency is shown with two
 */
char *hs_money_format (gint64 minor, const char *currency);

/**
 * hs_money_format_grouped:
 *
 * Returns: (transfer full): `1,234.50`, for reading; hs_money_parse() refuses it
 */
char *hs_money_format_grouped (gint64 minor, const char *currency);

/**
 * hs_money_ratio:
 * @amount: minor units
 * @numerator: e.g. parts per million of a tax
 * @denominator: greater than 0
 * @ret_amount: (out): rounded once, halves away from zero; untouched on failure
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE if the sum is too large to be money
 */
gboolean hs_money_ratio (gint64 amount, gint64 numerator, gint64 denominator, gint64 *ret_amount, GError **error);

/**
 * hs_money_sum:
 * @amounts: (array length=n_amounts): minor units
 * @ret_sum: (out): untouched on failure
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE if the sum does not fit
 */
gboolean hs_money_sum (const gint64 *amounts, gsize n_amounts, gint64 *ret_sum, GError **error);

G_END_DECLS
