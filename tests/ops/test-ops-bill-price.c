// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Prices by the book's own rates: bands over every cent, quarter hours, tax by invoice, and other rates than the usual.
 * The figures are worked out here by the rules in words, not by the code that is tried. */

#include "hs-bill-private.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

static void
set (HsOpsTest *test, const char *key, const char *value)
{
  g_autoptr (GError) error = NULL;

  hs_settings_set (test->book, key, value, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
}

static gint64
part_price (HsOpsTest *test, gint64 cost_cents)
{
  g_autoptr (GError) error = NULL;
  gint64 with = 0;
  gint64 without = 0;

  g_assert_true (hs_job_estimate (test->book, 0, &cost_cents, 1, &with, NULL, &error));
  g_assert_true (hs_job_estimate (test->book, 0, NULL, 0, &without, NULL, &error));
  g_assert_no_error (error);
  return with - without;
}

/* First 10.00 at ×2.0, next 40.00 at ×1.6, next 100.00 at ×1.4, the rest at ×1.25, in hundredths of a cent. */
static gint64
by_hand (gint64 cost_cents)
{
  gint64 sum = 200 * MIN (cost_cents, 1000);

  if (cost_cents > 1000)
    sum += 160 * (MIN (cost_cents, 5000) - 1000);
  if (cost_cents > 5000)
    sum += 140 * (MIN (cost_cents, 15000) - 5000);
  if (cost_cents > 15000)
    sum += 125 * (cost_cents - 15000);
  return (sum + 50) / 100;
}

/* Every cent from 0.01 to 500.00: the sum by hand, and never less for more. */
static void
test_every_cent (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  gint64 before = 0;

  for (gint64 cost = 1; cost <= 50000; cost++)
    {
      gint64 price = -1;

      g_assert_true (hs_bill_banded (test->book, cost, &price, NULL));
      g_assert_cmpint (price, ==, by_hand (cost));
      g_assert_cmpint (price, >, before);
      before = price;
    }
}

static void
test_printed_prices (void)
{
  static const gint64 rows[][2] = {
    { 0, 0 },         { 1000, 2000 },   { 1001, 2002 },   { 1450, 2720 },   { 5000, 8400 },   { 5100, 8540 },
    { 6200, 10080 },  { 11800, 17920 }, { 15000, 22400 }, { 15001, 22401 }, { 50000, 66150 },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (part_price (test, rows[i][0]), ==, rows[i][1]);
}

/* The call-out covers 30 min; then 24.00 for each started quarter hour. */
static void
test_labor (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gint64 minutes = 0; minutes <= 500; minutes++)
    {
      gint64 quarters = minutes <= 30 ? 0 : (minutes - 30 + 14) / 15;
      gint64 net = 0;
      gint64 tax = -1;

      g_assert_true (hs_job_estimate (test->book, minutes, NULL, 0, &net, &tax, NULL));
      g_assert_cmpint (net, ==, 6000 + 2400 * quarters);
      g_assert_cmpint (tax, ==, 0);
    }
}

/* 110 min, parts costing 118.00 and 14.50: 204.00 + 206.40 + 16.51 = 426.91. */
static void
test_story (void)
{
  static const gint64 costs[] = { 11800, 1450 };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  gint64 net = 0;
  gint64 tax = 0;

  set (test, "tax_percent", "8");
  g_assert_true (hs_job_estimate (test->book, 110, costs, 2, &net, &tax, NULL));
  g_assert_cmpint (net, ==, 20400 + 20640);
  g_assert_cmpint (tax, ==, 1651);
  g_assert_cmpint (net + tax, ==, 42691);
}

/* Tax is on parts, once per invoice, half a cent upward; three lines of 2.02 are taxed as 6.06. */
static void
test_tax (void)
{
  static const struct
  {
    const char *percent;
    gint64 costs[3];
    gsize n;
    gint64 tax;
  } rows[] = {
    { "8", { 101, 101, 101 }, 3, 48 },      /* 606 × 0.08 = 48.48 */
    { "8", { 103, 0, 0 }, 1, 16 },          /* 206 × 0.08 = 16.48 */
    { "8", { 5000, 0, 0 }, 1, 672 },        /* 8400 × 0.08 */
    { "8.875", { 5000, 0, 0 }, 1, 746 },    /* 745.5 */
    { "6.25", { 1000, 0, 0 }, 1, 125 },     /* 2000 × 0.0625 */
    { "0", { 5000, 0, 0 }, 1, 0 },
    { "100", { 5000, 0, 0 }, 1, 8400 },
    { "0.0001", { 50000, 50000, 50000 }, 3, 0 }, /* 198450 / 1000000 = 0.2 */
    { "8", { 0, 0, 0 }, 0, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();
      gint64 tax = -1;

      set (test, "tax_percent", rows[i].percent);
      g_assert_true (hs_job_estimate (test->book, 30, rows[i].costs, rows[i].n, NULL, &tax, NULL));
      g_assert_cmpint (tax, ==, rows[i].tax);
    }
}

/* Each rate is the book's own. */
static void
test_own_rates (void)
{
  static const struct
  {
    const char *key;
    const char *value;
    gint64 net; /* of 61 min and a part of 60.00 */
  } rows[] = {
    { NULL, NULL, 6000 + 3 * 2400 + 9800 },
    { "call_out_cents", "7500", 7500 + 3 * 2400 + 9800 },
    { "call_out_minutes", "60", 7500 + 1 * 2400 + 9800 },
    { "quarter_hour_cents", "3000", 7500 + 1 * 3000 + 9800 },
    { "markup_bands", "rest x1.5", 7500 + 1 * 3000 + 9000 },
    { "markup_bands", "20.00 x3, rest x1.0", 7500 + 1 * 3000 + 6000 + 4000 },
    { "call_out_minutes", "0", 7500 + 5 * 3000 + 6000 + 4000 },
    { "call_out_cents", "0", 5 * 3000 + 6000 + 4000 },
    { "quarter_hour_cents", "0", 6000 + 4000 },
  };
  const gint64 cost = 6000;
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 net = 0;

      if (rows[i].key != NULL)
        set (test, rows[i].key, rows[i].value);
      g_assert_true (hs_job_estimate (test->book, 61, &cost, 1, &net, NULL, NULL));
      g_assert_cmpint (net, ==, rows[i].net);
    }
}

/* Nothing comes out of a time or a cost below nothing, or of a sum that is more than a number holds. */
static void
test_refused (void)
{
  static const struct
  {
    gint64 minutes;
    gint64 costs[2];
  } rows[] = {
    { -1, { 100, 100 } },
    { 30, { -1, 100 } },
    { 30, { 100, -1 } },
    { 30, { G_MAXINT64, 100 } },
    { 30, { G_MAXINT64 / 2, G_MAXINT64 / 2 } },
    { G_MAXINT64, { 100, 100 } },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      gint64 net = 17;
      gint64 tax = 18;

      g_assert_false (hs_job_estimate (test->book, rows[i].minutes, rows[i].costs, 2, &net, &tax, &error));
      g_assert_nonnull (error);
      g_assert_cmpint (net, ==, 17);
      g_assert_cmpint (tax, ==, 18);
    }
}

/* What a job's lines say after pricing: the same figures, the tax shared out to the parts alone. */
static void
test_lines (void)
{
  static const HsInstallEntry entries[] = {
    { .what = "relay", .cost_cents = 101, .why = "none_before" },
    { .what = "fuse", .cost_cents = 101, .why = "none_before" },
    { .what = "clip", .cost_cents = 101, .why = "none_before" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = NULL;

  hs_ops_test_fill (test);
  set (test, "tax_percent", "8");
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0117,hums,TDM 7717,2026-03-10\n", 1, 0,
                         0);
  id = hs_job_find (test->book, "A-0001", NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      g_autofree char *installed = hs_part_install (test->book, id, &entries[i], HS_OPS_TEST_NOW, NULL);

      g_assert_nonnull (installed);
    }
  g_assert_true (hs_job_price (test->book, id, NULL, HS_OPS_TEST_NOW, NULL));
  g_assert_cmpint (hs_ops_test_count (test, "line WHERE kind = 'part' AND price_cents = 202 AND tax_cents = 16"), ==,
                   3);
  hs_ops_test_one (test, "line WHERE kind = 'labor' AND price_cents = 6000 AND tax_cents = 0");
  set (test, "tax_percent", "8.3");
  g_assert_true (hs_job_price (test->book, id, NULL, HS_OPS_TEST_NOW, NULL));
  /* 606 × 0.083 = 50.3: 50 cents are 16 + 17 + 17. */
  hs_ops_test_one (test, "line WHERE kind = 'part' AND tax_cents = 16");
  g_assert_cmpint (hs_ops_test_count (test, "line WHERE kind = 'part' AND tax_cents = 17"), ==, 2);
  set (test, "markup_bands", "rest x1");
  g_assert_true (hs_job_price (test->book, id, NULL, HS_OPS_TEST_NOW, NULL));
  g_assert_cmpint (hs_ops_test_count (test, "line WHERE kind = 'part' AND price_cents = 101"), ==, 3);
  g_assert_cmpint (hs_ops_test_count (test, "line"), ==, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/price/every-cent", test_every_cent);
  g_test_add_func ("/price/printed", test_printed_prices);
  g_test_add_func ("/price/labor", test_labor);
  g_test_add_func ("/price/story", test_story);
  g_test_add_func ("/price/tax", test_tax);
  g_test_add_func ("/price/own-rates", test_own_rates);
  g_test_add_func ("/price/refused", test_refused);
  g_test_add_func ("/price/lines", test_lines);
  return g_test_run ();
}
