// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Miles put down by the rate of their day, exactly; the rates are those of the IRS. */

#include "reference-test.h"

#include "hs-mileage.h"

static const struct
{
  const char *id;
  const char *date;
  gint64 thousandths;
  gint64 cents;
  gboolean stale;
} rows[] = {
  { "MIL-1", "2022-06-30", 100000, 5850, FALSE },
  { "MIL-1", "2022-07-01", 100000, 6250, FALSE },
  { "MIL-2", "2026-02-10", 37400, 2712, FALSE },
  { "MIL-3", "2024-12-31", 10000, 670, FALSE },
  { "MIL-3", "2025-01-01", 10000, 700, FALSE },
  { "the first day", "2015-01-01", 1000, 58, FALSE },
  { "the last year", "2026-12-31", 1000, 73, FALSE },
  { "a year later", "2027-01-01", 1000, 73, TRUE },
  { "20 × 0.725 are 1.45 cents", "2026-02-10", 20, 1, FALSE },
  { "40 × 0.725 are 2.9 cents", "2026-02-10", 40, 3, FALSE },
  { "nothing", "2026-02-10", 0, 0, FALSE },
};

static void
test_rows (void)
{
  g_autoptr (HsReference) reference = shipped_reference ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      gboolean stale;
      gint64 cents;
      const HsMileageRate *rate = hs_mileage_rate_on (reference, day (rows[i].date), &stale, &error);

      g_test_message ("%s %s", rows[i].id, rows[i].date);
      g_assert_no_error (error);
      g_assert_true (hs_mileage_cents (rate->centicents, rows[i].thousandths, 3, &cents, &error));
      g_assert_cmpint (cents, ==, rows[i].cents);
      g_assert_cmpint (stale, ==, rows[i].stale);
    }
}

static void
test_refused (void)
{
  g_autoptr (HsReference) reference = shipped_reference ();
  g_autoptr (HsReference) empty = hs_reference_new (&(HsReferenceTables) { 0 }, NULL);
  g_autoptr (GError) error = NULL;
  gboolean stale;
  gint64 cents = 99;

  assert_bad_value (hs_mileage_rate_on (reference, day ("2014-12-31"), &stale, &error) != NULL, &error,
                    "the first mileage rate is of 2015-01-01");
  assert_bad_value (hs_mileage_rate_on (empty, day ("2026-01-01"), &stale, &error) != NULL, &error,
                    "there are no mileage rates");
  assert_bad_value (hs_mileage_cents (7250, G_MAXINT64, 3, &cents, &error), &error, "too large");
  g_assert_cmpint (cents, ==, 99);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mileage/rows", test_rows);
  g_test_add_func ("/mileage/refused", test_refused);
  return g_test_run ();
}
