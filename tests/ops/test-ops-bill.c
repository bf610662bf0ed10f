// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The bill: the story of 110 minutes and two parts, ceilings, goodwill, squaring and being paid. */

#include "hs-go-ahead.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-repair-op.h"
#include "hs-settings-op.h"

#include <string.h>

#define MINUTE 60

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *id;
} Bill;

/* On site for 110 minutes with two parts on: at 8 % it comes to 426.91. */
static Bill
bill_start (void)
{
  Bill bill = { .test = hs_ops_test_open () };
  HsInstallEntry starter = { .what = "starter, rebuilt", .cost_cents = 11800, .why = "due" };
  HsInstallEntry shield = { .what = "heat shield", .cost_cents = 1450, .why = "none_before" };
  HsReadingEntry proof = { .check = "starts_good", .text = "5 of 5", .phase = "after", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) result = NULL;

  bill.book = bill.test->book;
  hs_ops_test_fill (bill.test);
  g_assert_true (hs_settings_set (bill.book, "tax_percent", "8", HS_OPS_TEST_NOW, NULL));
  hs_ops_test_import_ok (bill.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0117,hums,TDM 7717,2026-03-10\n", 1, 0,
                         0);
  bill.id = hs_job_find (bill.book, "A-0001", NULL);
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_ROLLING, NULL, HS_OPS_TEST_NOW, NULL));
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_ON_SITE, NULL, HS_OPS_TEST_NOW, NULL));
  g_free (hs_part_install (bill.book, bill.id, &starter, HS_OPS_TEST_NOW, NULL));
  g_free (hs_part_install (bill.book, bill.id, &shield, HS_OPS_TEST_NOW, NULL));
  result = hs_reading_add (bill.book, bill.id, &proof, HS_OPS_TEST_NOW, NULL);
  g_assert_nonnull (result);
  return bill;
}

static void
bill_clear (Bill *bill)
{
  hs_ops_test_close (bill->test);
  g_free (bill->id);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bill, bill_clear)

static HsInstant
at (int minutes)
{
  return HS_OPS_TEST_NOW + minutes * MINUTE;
}

static void
prove (Bill *bill)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_move_stage (bill->book, bill->id, HS_STAGE_PROVEN, NULL, at (110), &error));
  g_assert_no_error (error);
}

static void
price (Bill *bill, const char *goodwill)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_price (bill->book, bill->id, goodwill, at (110), &error));
  g_assert_no_error (error);
}

static void
check_sums (Bill *bill, gint64 net, gint64 tax)
{
  HsJobSums sums;

  g_assert_true (hs_job_sums_load (hs_book_get_store (bill->book), bill->id, &sums, NULL));
  g_assert_cmpint (sums.price_cents, ==, net);
  g_assert_cmpint (sums.tax_cents, ==, tax);
}

static void
test_price (void)
{
  g_auto (Bill) bill = bill_start ();

  price (&bill, NULL);
  check_sums (&bill, 41040, 1651);
  g_assert_cmpint (hs_ops_test_count (bill.test, "line WHERE kind = 'labor' AND price_cents = 20400 AND tax_cents = 0"),
                   ==, 1);
  g_assert_cmpint (hs_ops_test_count (bill.test, "line WHERE price_cents = 17920"), ==, 1);
  price (&bill, NULL);
  g_assert_cmpint (hs_ops_test_count (bill.test, "line"), ==, 3);
  check_sums (&bill, 41040, 1651);
}

static void
test_goodwill (void)
{
  g_auto (Bill) bill = bill_start ();

  price (&bill, "our own work");
  check_sums (&bill, 0, 0);
  g_assert_cmpint (hs_ops_test_count (bill.test, "line WHERE kind = 'goodwill' AND price_cents = -41040 "
                                                 "AND tax_cents = -1651 AND what LIKE '%our own work'"),
                   ==, 1);
  price (&bill, NULL);
  check_sums (&bill, 41040, 1651);
}

/* Parts of 206.40 on the house at 8 %, squared up at 10 %: they are taxed with 20.64, and so much is taken off again. A
 * lamp of 8.00 that is put in afterwards was not given: it pays its own 0.80. */
static void
test_goodwill_rate (void)
{
  const HsInstallEntry lamp = { .what = "lamp", .cost_cents = 400, .why = "due" };
  g_auto (Bill) bill = bill_start ();
  g_autoptr (HsGoAheadRoom) room = NULL;
  g_autoptr (GError) error = NULL;

  price (&bill, "our own work");
  prove (&bill);
  g_assert_true (hs_settings_set (bill.book, "tax_percent", "10", HS_OPS_TEST_NOW, NULL));
  room = hs_go_ahead_check (bill.book, bill.id, NULL, 0, at (110), &error);
  g_assert_no_error (error);
  g_assert_cmpint (room->total_cents, ==, 0);
  g_free (hs_part_install (bill.book, bill.id, &lamp, at (110), &error));
  g_assert_no_error (error);
  g_assert_true (hs_go_ahead_add (bill.book, bill.id, 880, "Nadira", "phone", at (110), NULL));
  hs_job_square (bill.book, bill.id, at (110), &error);
  g_assert_no_error (error);
  hs_ops_test_one (bill.test, "line WHERE kind = 'goodwill' AND price_cents = -41040 AND tax_cents = -2064");
  hs_ops_test_one (bill.test, "line WHERE what = 'lamp' AND price_cents = 800 AND tax_cents = 80");
  hs_ops_test_one (bill.test, "invoice WHERE net_cents = 800 AND tax_cents = 80 AND total_cents = 880");
}

/* Of two parts at 8 % the heat shield of 27.20 is taken out again after all was given; the credit is for what it
 * credits, and no more. */
static void
test_goodwill_after_removal (void)
{
  g_auto (Bill) bill = bill_start ();
  g_autoptr (GError) error = NULL;
  g_autofree char *shield = NULL;

  price (&bill, "our own work");
  shield = hs_ops_test_id (bill.test, "SELECT id FROM installed_part WHERE what = 'heat shield'");
  g_assert_true (hs_part_remove (bill.book, shield, at (110), &error));
  check_sums (&bill, 0, 0);
  /* 179.20 × 0.08 = 14.34 */
  hs_ops_test_one (bill.test, "line WHERE kind = 'goodwill' AND price_cents = -38320 AND tax_cents = -1434");
}

static void
test_estimate (void)
{
  static const gint64 costs[] = { 11800, 1450 };
  g_auto (Bill) bill = bill_start ();
  gint64 net = 0;
  gint64 tax = 0;

  g_assert_true (hs_job_estimate (bill.book, 110, costs, G_N_ELEMENTS (costs), &net, &tax, NULL));
  g_assert_cmpint (net, ==, 41040);
  g_assert_cmpint (tax, ==, 1651);
  g_assert_true (hs_job_estimate (bill.book, 30, NULL, 0, &net, &tax, NULL));
  g_assert_cmpint (net, ==, 6000);
  g_assert_cmpint (tax, ==, 0);
  g_assert_true (hs_job_estimate (bill.book, 31, NULL, 0, &net, NULL, NULL));
  g_assert_cmpint (net, ==, 8400);
  g_assert_false (hs_job_estimate (bill.book, -1, NULL, 0, &net, &tax, NULL));
}

/* A part of 50.00 sells for 84.00, one of 51.00 for 85.40: never less for more. */
static void
test_bands (void)
{
  static const gint64 rows[][2] = { { 5000, 8400 }, { 5100, 8540 }, { 11800, 17920 }, { 0, 0 }, { 1, 2 } };
  g_auto (Bill) bill = bill_start ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 net = 0;

      g_assert_true (hs_job_estimate (bill.book, 0, &rows[i][0], 1, &net, NULL, NULL));
      g_assert_cmpint (net - 6000, ==, rows[i][1]);
    }
}

static void
refuse_square (Bill *bill, const char *said)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_job_square (bill->book, bill->id, at (110), &error));
  g_assert_nonnull (error);
  if (strstr (error->message, said) == NULL)
    g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, said));
  g_assert_cmpint (hs_ops_test_count (bill->test, "invoice"), ==, 0);
  g_assert_cmpint (hs_ops_test_count (bill->test, "job WHERE stage = 'squared'"), ==, 0);
}

/* The ceiling stops the job; a new yes lets it go on, and both stay. */
static void
test_ceiling (void)
{
  g_auto (Bill) bill = bill_start ();

  price (&bill, NULL);
  prove (&bill);
  refuse_square (&bill, "");
  g_assert_true (hs_go_ahead_add (bill.book, bill.id, 42000, "Nadira", "phone", at (20), NULL));
  refuse_square (&bill, "6.91");
  g_assert_true (hs_go_ahead_add (bill.book, bill.id, 42691, "Nadira", "phone", at (100), NULL));
  g_assert_true (hs_job_square (bill.book, bill.id, at (110), NULL));
  g_assert_cmpint (hs_ops_test_count (bill.test, "go_ahead"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (bill.test, "invoice WHERE total_cents = 42691 AND net_cents = 41040 "
                                                 "AND issued_on = '2026-03-10' AND due_on = '2026-03-24'"),
                   ==, 1);
  g_assert_cmpint (hs_ops_test_count (bill.test, "visit WHERE paper_seconds = 600 AND left_at - arrived_at = 6600"),
                   ==, 1);
}

static void
test_open_choice (void)
{
  g_auto (Bill) bill = bill_start ();
  HsAdviceEntry advice
      = { .wording = "Battery too", .choice = "open", .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE };
  g_autofree char *id = hs_advice_add (bill.book, bill.id, &advice, at (30), NULL);

  g_assert_nonnull (id);
  price (&bill, NULL);
  prove (&bill);
  g_assert_true (hs_go_ahead_add (bill.book, bill.id, 50000, "Nadira", "phone", at (20), NULL));
  refuse_square (&bill, "");
}

static void
test_unpriced (void)
{
  g_auto (Bill) bill = bill_start ();
  g_autoptr (GError) error = NULL;

  hs_ops_test_import_ok (bill.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0002,555-0117,hums,TDM 7717,2026-03-10\n", 1, 0,
                         0);
  g_free (bill.id);
  bill.id = hs_job_find (bill.book, "A-0002", NULL);
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_ROLLING, NULL, at (100), NULL));
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_ON_SITE, NULL, at (100), NULL));
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_PROVEN, "drove off", at (110), &error));
  refuse_square (&bill, "price it first");
}

static void
square (Bill *bill)
{
  price (bill, NULL);
  prove (bill);
  g_assert_true (hs_go_ahead_add (bill->book, bill->id, 42691, "Nadira", "phone", at (20), NULL));
  g_assert_true (hs_job_square (bill->book, bill->id, at (110), NULL));
}

static void
test_squared_stays (void)
{
  g_auto (Bill) bill = bill_start ();
  HsFindingEntry finding = { .what = "late thought", .role = "seen" };
  HsReadingEntry reading = { .check = "charging", .text = "14.1", .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;

  square (&bill);
  g_assert_false (hs_job_price (bill.book, bill.id, NULL, at (120), &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_false (hs_job_move_stage (bill.book, bill.id, HS_STAGE_ON_SITE, NULL, at (120), &error));
  g_clear_error (&error);
  g_assert_false (hs_job_square (bill.book, bill.id, at (120), &error));
  g_clear_error (&error);
  g_assert_null (hs_finding_add (bill.book, bill.id, &finding, at (120), &error));
  g_clear_error (&error);
  g_assert_null (hs_reading_add (bill.book, bill.id, &reading, at (120), &error));
  g_clear_error (&error);
  g_assert_false (hs_go_ahead_add (bill.book, bill.id, 99999, "Nadira", "phone", at (120), &error));
  check_sums (&bill, 41040, 1651);
}

static void
test_frozen (void)
{
  g_auto (Bill) bill = bill_start ();
  g_autoptr (GPtrArray) invoices = NULL;
  const HsInvoiceRow *invoice;
  g_autofree char *sum = NULL;

  square (&bill);
  g_assert_true (hs_invoice_row_list_of (hs_book_get_store (bill.book), bill.id, &invoices, NULL));
  invoice = g_ptr_array_index (invoices, 0);
  sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, invoice->frozen, -1);
  g_assert_cmpstr (invoice->sha256, ==, sum);
  g_assert_nonnull (strstr (invoice->frozen, "\"total\":\"426.91\""));
  g_assert_nonnull (strstr (invoice->frozen, "\"starter, rebuilt\""));
  g_assert_nonnull (strstr (invoice->frozen, "\"value\":\"5 of 5\""));
  g_assert_nonnull (strstr (invoice->frozen, "\"customer\":\"Nadira Quell\""));
  g_assert_null (strstr (invoice->frozen, "118.00"));
  g_assert_null (strstr (invoice->frozen, "0117"));
}

static void
test_payment (void)
{
  g_auto (Bill) bill = bill_start ();
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_payment_add (bill.book, bill.id, 100, "cash", at (110), &error));
  g_assert_nonnull (strstr (error->message, "no invoice yet"));
  g_clear_error (&error);
  square (&bill);
  g_assert_false (hs_payment_add (bill.book, bill.id, 42692, "cash", at (110), &error));
  g_assert_nonnull (strstr (error->message, "owes 426.91, not more"));
  g_clear_error (&error);
  g_assert_false (hs_payment_add (bill.book, bill.id, 0, "cash", at (110), &error));
  g_clear_error (&error);
  g_assert_false (hs_payment_add (bill.book, bill.id, 100, "shells", at (110), &error));
  g_clear_error (&error);
  g_assert_true (hs_payment_add (bill.book, bill.id, 12691, "cash", at (110), &error));
  g_assert_true (hs_payment_add (bill.book, bill.id, 30000, "card", at (111), &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (bill.test, "payment WHERE how = 'cash' AND fee_cents = 0"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (bill.test, "payment WHERE how = 'card' AND fee_cents = 820"), ==, 1);
  g_assert_false (hs_payment_add (bill.book, bill.id, 1, "cash", at (112), &error));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bill/price", test_price);
  g_test_add_func ("/bill/goodwill", test_goodwill);
  g_test_add_func ("/bill/goodwill-rate", test_goodwill_rate);
  g_test_add_func ("/bill/goodwill-after-removal", test_goodwill_after_removal);
  g_test_add_func ("/bill/estimate", test_estimate);
  g_test_add_func ("/bill/bands", test_bands);
  g_test_add_func ("/bill/ceiling", test_ceiling);
  g_test_add_func ("/bill/open-choice", test_open_choice);
  g_test_add_func ("/bill/unpriced", test_unpriced);
  g_test_add_func ("/bill/squared-stays", test_squared_stays);
  g_test_add_func ("/bill/frozen", test_frozen);
  g_test_add_func ("/bill/payment", test_payment);
  return g_test_run ();
}
