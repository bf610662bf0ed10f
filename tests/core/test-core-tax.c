// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tax by the line and by the invoice, rounded once: Streamlined Sales and Use Tax Agreement §324 as enacted in R.I.
 * Gen. Laws 44-18.1-25, N.D.C.C. 57-39.4-25, K.S.A. 79-3676. */

#include "core-test.h"

#include "hs-money.h"
#include "hs-tax.h"

static const struct
{
  const char *id;
  gint64 rate;
  gint64 per_line;
  gint64 per_invoice;
  gsize n_lines;
  gint64 lines[4];
} rows[] = {
  { "TAX-1: 3 × 10.10 at 8.25 %", 8250000, 249, 250, 3, { 1010, 1010, 1010 } },
  { "TAX-2: 0.07 at 6.5 % is 0.00455", 6500000, 0, 0, 1, { 7 } },
  { "TAX-3: 1.00 at 6.5 %", 6500000, 7, 7, 1, { 100 } },
  { "TAX-4: 19.99 at 7.25 %", 7250000, 145, 145, 1, { 1999 } },
  { "TAX-5: 129.95 at 8.875 %", 8875000, 1153, 1153, 1, { 12995 } },
  { "four lines of half a cent each", 5000000, 4, 2, 4, { 10, 10, 10, 10 } },
  { "a hair below a half", 4999999, 0, 0, 1, { 10 } },
  { "no tax", 0, 0, 0, 2, { 1010, 99999 } },
  { "no lines", 8250000, 0, 0, 0, { 0 } },
  { "a credit mirrors its charge", 6500000, -7, -7, 1, { -100 } },
  { "charge and credit", 6500000, 0, 0, 2, { 100, -100 } },
  { "more than everything", 250000000, 250, 250, 1, { 100 } },
  { "six decimals count", 8250001, 83, 83, 1, { 1000 } },
};

static void
test_rows (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 tax;

      g_test_message ("%s", rows[i].id);
      g_assert_true (hs_tax_total (HS_TAX_PER_LINE, rows[i].rate, rows[i].lines, rows[i].n_lines, &tax, &error));
      g_assert_cmpint (tax, ==, rows[i].per_line);
      g_assert_true (hs_tax_total (HS_TAX_PER_INVOICE, rows[i].rate, rows[i].lines, rows[i].n_lines, &tax, &error));
      g_assert_cmpint (tax, ==, rows[i].per_invoice);
      g_assert_no_error (error);
    }
}

static void
test_refused (void)
{
  const gint64 huge[] = { G_MAXINT64, G_MAXINT64 };
  gint64 tax = 99;

  for (HsTaxBasis basis = HS_TAX_PER_LINE; basis <= HS_TAX_PER_INVOICE; basis++)
    {
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_tax_total (basis, -1, huge, 1, &tax, &error), &error, "less than nothing");
      assert_bad_value (hs_tax_total (basis, HS_PERCENT_WHOLE, huge, 2, &tax, &error), &error, "too large");
      assert_bad_value (hs_tax_total (basis, HS_PERCENT_WHOLE, huge, 1, &tax, &error), &error, "too large");
    }
  g_assert_cmpint (tax, ==, 99);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tax/rows", test_rows);
  g_test_add_func ("/tax/refused", test_refused);
  return g_test_run ();
}
