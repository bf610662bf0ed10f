// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsTaxBasis:
 * @HS_TAX_PER_LINE: each line's tax is rounded, then they are added up
 * @HS_TAX_PER_INVOICE: the lines are added up, then the tax is rounded
 *
 * A seller may compute either way and stays with it (Streamlined Sales and Use Tax Agreement §324).
 */
typedef enum
{
  HS_TAX_PER_LINE,
  HS_TAX_PER_INVOICE,
} HsTaxBasis;

/**
 * hs_tax_total:
 * @rate: of %HS_PERCENT_WHOLE: 8.25 % is 8250000; 0 or more
 * @line_cents: (array length=n_lines): net amounts, negative for a credit
 * @ret_tax_cents: (out): untouched on failure
 *
 * Rounds once, halves away from zero, never from an already rounded figure: 0.07 at 6.5 % is 0.00455 and 0.00, not
 * 0.005 and 0.01 (§324 as enacted: R.I. Gen. Laws 44-18.1-25, K.S.A. 79-3676 and others). For what an invoice keeps
 * with each of its lines see hs_price_tax().
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE for a negative rate or sums out of range
 */
gboolean hs_tax_total (HsTaxBasis basis, gint64 rate, const gint64 *line_cents, gsize n_lines, gint64 *ret_tax_cents,
                       GError **error);

G_END_DECLS
