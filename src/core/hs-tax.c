// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sales tax on lines or on their sum, rounded once: for working out what another seller's bill should say, and for an
 * owner whose state wants it by the line. Refuses a negative rate and sums that do not fit. */

#include "hs-tax.h"

#include "hs-core-error.h"
#include "hs-money.h"

static gboolean
per_line (gint64 rate, const gint64 *line_cents, gsize n_lines, gint64 *ret_tax_cents, GError **error)
{
  g_autofree gint64 *taxes = g_new (gint64, n_lines + 1);

  for (gsize i = 0; i < n_lines; i++)
    if (!hs_money_ratio (line_cents[i], rate, HS_PERCENT_WHOLE, &taxes[i], error))
      return FALSE;
  return hs_money_sum (taxes, n_lines, ret_tax_cents, error);
}

gboolean
hs_tax_total (HsTaxBasis basis, gint64 rate, const gint64 *line_cents, gsize n_lines, gint64 *ret_tax_cents,
              GError **error)
{
  gint64 net;

  if (rate < 0)
    {
      g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "a tax rate cannot be less than nothing");
      return FALSE;
    }
  if (basis == HS_TAX_PER_LINE)
    return per_line (rate, line_cents, n_lines, ret_tax_cents, error);
  return hs_money_sum (line_cents, n_lines, &net, error)
         && hs_money_ratio (net, rate, HS_PERCENT_WHOLE, ret_tax_cents, error);
}
