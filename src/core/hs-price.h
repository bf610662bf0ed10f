// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define HS_PER_MILLION 1000000

/**
 * HsPriceBand:
 * @width_cents: how much of the cost this band takes, counted from where the one before ends; 0 = all the rest
 * @times_thousandths: sale price per cost, in thousandths: 1600 is ×1.6
 *
 * One step of a banded markup. The last band has @width_cents 0 and no other has.
 */
typedef struct
{
  gint64 width_cents;
  gint64 times_thousandths;
} HsPriceBand;

/**
 * hs_price_bands_parse:
 * @text: bands in order, `10.00 x2.0, 40.00 x1.6, 100.00 x1.4, rest x1.25`, or shorter `10:2,40:1.6,100:1.4,rest:1.25`
 * @decimals: decimals of the currency
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the band
 *
 * Returns: (transfer full) (element-type HsPriceBand): an array that hs_price_bands_check() accepts, or %NULL
 */
GArray *hs_price_bands_parse (const char *text, guint decimals, GError **error);

/* hs_price_bands_format: (transfer full): the text that hs_price_bands_parse() reads back. */
char *hs_price_bands_format (const HsPriceBand *bands, gsize n_bands, guint decimals);

/**
 * hs_price_bands_check:
 *
 * Refuses no band at all, a width below 1, a factor below 0.001, and a "rest" anywhere but at the end.
 *
 * Returns: %TRUE if the price can be worked out for every cost
 */
gboolean hs_price_bands_check (const HsPriceBand *bands, gsize n_bands, GError **error);

/**
 * hs_price_banded:
 * @bands: (array length=n_bands): accepted by hs_price_bands_check()
 * @cost_cents: cost of one piece now, 0 or more
 * @ret_price_cents: (out): rounded once, halves up; untouched on failure
 *
 * Each band's factor applies only to the part of the cost inside the band, so that a dearer part never sells for
 * less than a cheaper one.
 *
 * Returns: %FALSE for a negative cost, bad bands or a price out of range
 */
gboolean hs_price_banded (const HsPriceBand *bands, gsize n_bands, gint64 cost_cents, gint64 *ret_price_cents,
                          GError **error);

/**
 * HsLaborTerms:
 * @call_out_cents: asked for coming at all
 * @included_minutes: covered by the call-out
 * @step_minutes: time is sold in started steps of this length
 * @step_cents: price of one step
 */
typedef struct
{
  gint64 call_out_cents;
  gint64 included_minutes;
  gint64 step_minutes;
  gint64 step_cents;
} HsLaborTerms;

/**
 * hs_price_labor:
 * @terms: the owner's terms
 * @minutes: on site, all visits added up, 0 or more
 * @ret_cents: (out): call-out + ⌈(minutes − included) / step⌉ × step price; untouched on failure
 *
 * Returns: %FALSE for negative minutes, a step below one minute or a sum out of range
 */
gboolean hs_price_labor (const HsLaborTerms *terms, gint64 minutes, gint64 *ret_cents, GError **error);

/**
 * hs_price_tax:
 * @rate_per_million: 8 % is 80000, 8.875 % is 88750
 * @line_cents: (array length=n_lines): net amount of each taxed line, negative for a credit; 0 for an untaxed one
 * @ret_line_tax_cents: (out caller-allocates) (array length=n_lines): each line's share; untouched on failure
 * @ret_total_cents: (out) (optional): the tax of the invoice; untouched on failure
 *
 * The tax is rounded once, on the sum of the lines, halves up (a seller may compute per invoice: Streamlined Sales
 * and Use Tax Agreement §324). It is handed to the lines by largest remainder, the earlier line first where
 * remainders are equal, so that the shares add up to the cent.
 *
 * Returns: %FALSE for a negative rate or sums out of range
 */
gboolean hs_price_tax (gint64 rate_per_million, const gint64 *line_cents, gsize n_lines, gint64 *ret_line_tax_cents,
                       gint64 *ret_total_cents, GError **error);

/**
 * hs_price_card_fee:
 * @amount_cents: what the card is charged; 0 costs nothing
 * @rate_per_million: 2.7 % is 27000
 * @fixed_cents: asked for each payment
 * @ret_fee_cents: (out): rounded once, halves up; untouched on failure
 *
 * Returns: %FALSE for negative arguments or a fee out of range
 */
gboolean hs_price_card_fee (gint64 amount_cents, gint64 rate_per_million, gint64 fixed_cents, gint64 *ret_fee_cents,
                            GError **error);

/* hs_price_margin_per_mille: share of the sale that is not cost, rounded, halves up; 0 if nothing was asked. */
gint64 hs_price_margin_per_mille (gint64 cost_cents, gint64 price_cents);

/**
 * hs_price_from_margin:
 * @margin: share of the price that is not cost, of %HS_PERCENT_WHOLE
 * @ret_price_cents: (out): cost ÷ (1 − margin), rounded once, halves up; untouched on failure
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE for a margin of 100 % or more, or a price out of range
 */
gboolean hs_price_from_margin (gint64 cost_cents, gint64 margin, gint64 *ret_price_cents, GError **error);

/**
 * hs_price_from_markup:
 * @markup: what is put on the cost, of %HS_PERCENT_WHOLE
 * @ret_price_cents: (out): cost × (1 + markup), rounded once, halves up; untouched on failure
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE if that is out of range
 */
gboolean hs_price_from_markup (gint64 cost_cents, gint64 markup, gint64 *ret_price_cents, GError **error);

/* hs_price_markup_per_mille: what was put on the cost, per cost, rounded, halves up; 0 if it cost nothing. */
gint64 hs_price_markup_per_mille (gint64 cost_cents, gint64 price_cents);

G_END_DECLS
