// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The demo's figures, as the business that it tells of adds them up by hand. */

#include "hs-area-row.h"
#include "hs-core-row.h"
#include "hs-customer-row.h"
#include "hs-date.h"
#include "hs-demo.h"
#include "hs-installed-row.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-ops-test.h"
#include "hs-stock-row.h"
#include "hs-part-row.h"
#include "hs-van-row.h"
#include "hs-vehicle-row.h"
#include "hs-visit-row.h"
#include "hs-warranty.h"

static HsOpsTest *test;

static HsJobRow *
load_job (const char *number)
{
  HsJobRow *job = NULL;
  GError *error = NULL;

  hs_job_row_find (hs_book_get_store (test->book), number, &job, &error);
  g_assert_no_error (error);
  return job;
}

static void
test_clock (void)
{
  g_assert_cmpint (hs_demo_get_now (), ==, HS_OPS_TEST_NOW);
}

static void
test_totals (void)
{
  static const struct
  {
    const char *number;
    gint64 total;
    gint64 owed;
  } rows[] = {
    { "A-0001", 21101, 0 }, { "A-0002", 19286, 0 }, { "A-0003", 32119, 0 }, { "A-0004", 42691, 0 },
    { "A-0005", 21926, 0 }, { "A-0006", 33763, 0 }, { "A-0007", 44611, 0 }, { "A-0008", 24586, 0 },
    { "A-0009", 0, 0 },     { "A-0010", 18451, 0 }, { "A-0011", 18487, 0 }, { "A-0012", 16310, 0 },
    { "A-0013", 15379, 0 }, { "A-0014", 23482, 0 }, { "A-0015", 0, 0 },     { "A-0016", 19853, 0 },
    { "A-0017", 29246, 0 }, { "A-0018", 13200, 0 }, { "A-0019", 36163, 36163 }, { "A-0020", 52094, 0 },
  };
  gint64 total = 0;
  gint64 net = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsJobRow) job = load_job (rows[i].number);
      g_autoptr (GPtrArray) invoices = NULL;
      const HsInvoiceRow *invoice;

      g_assert_cmpstr (job->stage, ==, "squared");
      g_assert_cmpint (job->owed_cents, ==, rows[i].owed);
      g_assert_true (hs_invoice_row_list_of (hs_book_get_store (test->book), job->id, &invoices, NULL));
      g_assert_cmpuint (invoices->len, ==, 1);
      invoice = g_ptr_array_index (invoices, 0);
      g_assert_cmpint (invoice->total_cents, ==, rows[i].total);
      total += invoice->total_cents;
      net += invoice->net_cents;
    }
  g_assert_cmpint (total, ==, 482748);
  g_assert_cmpint (net, ==, 465480);
}

static void
test_february (void)
{
  gint64 net = 0;
  gint64 tax = 0;
  gint64 cost = 0;
  gint64 fees = 0;
  gint64 seconds = 0;

  for (int i = 13; i <= 20; i++)
    {
      g_autofree char *number = g_strdup_printf ("A-%04d", i);
      g_autoptr (HsJobRow) job = load_job (number);
      g_autoptr (GPtrArray) payments = NULL;
      g_autoptr (GPtrArray) visits = NULL;
      HsJobSums sums;

      g_assert_true (hs_job_sums_load (hs_book_get_store (test->book), job->id, &sums, NULL));
      g_assert_true (hs_payment_row_list_of (hs_book_get_store (test->book), job->id, &payments, NULL));
      g_assert_true (hs_visit_row_list_of (hs_book_get_store (test->book), job->id, &visits, NULL));
      g_assert_cmpuint (visits->len, ==, 1);
      const HsVisitRow *visit = g_ptr_array_index (visits, 0);
      net += sums.price_cents;
      tax += sums.tax_cents;
      cost += sums.cost_cents;
      seconds += visit->left_at - visit->arrived_at + visit->drive_seconds + visit->paper_seconds;
      for (guint j = 0; j < payments->len; j++)
        fees += ((HsPaymentRow *) g_ptr_array_index (payments, j))->fee_cents;
    }
  g_assert_cmpint (net, ==, 183120);
  g_assert_cmpint (tax, ==, 6297);
  g_assert_cmpint (cost, ==, 49250);
  g_assert_cmpint (fees, ==, 1010);
  g_assert_cmpint (seconds, ==, 883 * 60);
}

static void
test_counts (void)
{
  g_assert_cmpint (hs_ops_test_count (test, "job"), ==, 26);
  g_assert_cmpint (hs_ops_test_count (test, "job WHERE stage = 'promised'"), ==, 6);
  g_assert_cmpint (hs_ops_test_count (test, "installed_part"), ==, 28);
  g_assert_cmpint (hs_ops_test_count (test, "customer"), ==, 12);
  g_assert_cmpint (hs_ops_test_count (test, "vehicle"), ==, 15);
  g_assert_cmpint (hs_ops_test_count (test, "travel WHERE samples = 8"), ==, 21);
  g_assert_cmpint (hs_ops_test_count (test, "trip"), ==, 40);
  g_assert_cmpint (hs_ops_test_count (test, "chase"), ==, 9);
  g_assert_cmpint (hs_ops_test_count (test, "advice"), ==, 6);
  g_assert_cmpint (hs_ops_test_count (test, "need"), ==, 5);
  g_assert_cmpint (hs_ops_test_count (test, "return_part WHERE amount_cents = 4650 AND last_day = '2026-03-11'"), ==,
                   1);
}

static void
test_cores (void)
{
  g_autoptr (GPtrArray) open = NULL;
  gint64 owed = 0;
  gint64 in_hand = 0;

  g_assert_true (hs_core_row_list (hs_book_get_store (test->book), TRUE, &open, NULL));
  for (guint i = 0; i < open->len; i++)
    {
      const HsCoreRow *core = g_ptr_array_index (open, i);

      owed += core->deposit_cents;
      if (!g_str_equal (core->where_now, "on_the_vehicle"))
        in_hand += core->deposit_cents;
    }
  g_assert_cmpint (owed, ==, 9900);
  g_assert_cmpint (in_hand, ==, 8100);
  g_assert_cmpint (((HsCoreRow *) g_ptr_array_index (open, 0))->due_on, ==, hs_date_from_ymd (2026, 3, 12));
}

static void
test_swap (void)
{
  HsStore *store = hs_book_get_store (test->book);
  g_autoptr (GPtrArray) vehicles = NULL;
  g_autoptr (GPtrArray) batteries = NULL;

  g_assert_true (hs_vehicle_row_list_by_plate (store, "tdm2218", &vehicles, NULL));
  g_assert_cmpuint (vehicles->len, ==, 1);
  g_assert_true (hs_installed_row_list_batteries (store, ((HsVehicleRow *) g_ptr_array_index (vehicles, 0))->id,
                                                  &batteries, NULL));
  g_assert_cmpuint (batteries->len, ==, 1);
  const HsInstalledRow *battery = g_ptr_array_index (batteries, 0);
  HsWarranty warranty = { battery->warranty_from, (int) battery->warranty_months, -1, 0 };
  g_assert_cmpint (battery->installed_on, ==, hs_date_from_ymd (2025, 9, 2));
  g_assert_cmpint (hs_warranty_last_day (&warranty), ==, hs_date_from_ymd (2027, 5, 14));
  g_assert_cmpint (battery->installed_odometer, ==, 81400);
}

static void
test_owners (void)
{
  HsStore *store = hs_book_get_store (test->book);
  g_autoptr (GPtrArray) vehicles = NULL;
  g_autoptr (GPtrArray) owners = NULL;

  g_assert_true (hs_vehicle_row_list_by_plate (store, "TDM 8816", &vehicles, NULL));
  g_assert_true (hs_ownership_row_list_of (store, ((HsVehicleRow *) g_ptr_array_index (vehicles, 0))->id, &owners,
                                           NULL));
  g_assert_cmpuint (owners->len, ==, 2);
  const HsOwnershipRow *now = g_ptr_array_index (owners, 0);
  const HsOwnershipRow *before = g_ptr_array_index (owners, 1);
  g_assert_cmpint (now->from_date, ==, hs_date_from_ymd (2025, 8, 17));
  g_assert_cmpint (before->from_date, ==, hs_date_from_ymd (2021, 3, 1));
  g_assert_cmpint (before->to_date, ==, hs_date_from_ymd (2025, 8, 17));
}

static void
test_stock (void)
{
  HsStore *store = hs_book_get_store (test->book);
  g_autoptr (HsVanRow) van = NULL;
  g_autoptr (HsPartRow) part = NULL;
  g_autoptr (HsStockRow) stock = NULL;

  g_assert_true (hs_van_row_find (store, "A", &van, NULL));
  g_assert_cmpint (van->next_number, ==, 27);
  g_assert_true (hs_part_row_find (store, "BW-45", &part, NULL));
  g_assert_true (hs_stock_row_find (store, van->id, part->id, &stock, NULL));
  g_assert_cmpint (stock->quantity_milli, ==, 1000);
}

static void
test_verdicts (void)
{
  g_autoptr (HsJobRow) job = load_job ("A-0012");
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) sheet = hs_job_sheet (test->book, job->id, "before", HS_OPS_TEST_NOW, &error);
  gboolean over = FALSE;

  g_assert_no_error (error);
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (sheet, i);

      if (g_str_equal (result->check, "glow_plug") && g_strcmp0 (result->place, "plug 3") == 0)
        {
          over = TRUE;
          g_assert_cmpstr (result->value_text, ==, "over range");
          g_assert_cmpstr (result->verdict, ==, "outside");
        }
    }
  g_assert_true (over);
}

static void
test_where (void)
{
  g_autoptr (GError) error = NULL;
  HsWhere *where = hs_where_load (test->book, &error);

  g_assert_no_error (error);
  g_assert_nonnull (where);
  g_assert_cmpstr (where->job_number, ==, "A-0026");
  g_assert_cmpstr (where->page, ==, "call");
  g_assert_cmpstr (where->field, ==, "ask:key_holder");
  hs_where_free (where);
}

static void
test_refuses_to_overwrite (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_demo_make (test->path, &test->user, &error));
  g_assert_nonnull (error);
  g_assert_cmpint (hs_ops_test_count (test, "job"), ==, 26);
}

static void
test_frozen (void)
{
  g_autoptr (HsJobRow) job = load_job ("A-0009");
  g_autoptr (GPtrArray) invoices = NULL;

  g_assert_true (hs_invoice_row_list_of (hs_book_get_store (test->book), job->id, &invoices, NULL));
  const HsInvoiceRow *invoice = g_ptr_array_index (invoices, 0);
  g_autofree char *sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, invoice->frozen, -1);
  g_assert_cmpstr (invoice->sha256, ==, sum);
  g_assert_nonnull (g_strstr_len (invoice->frozen, -1, "\"84.00\""));
  g_assert_nonnull (g_strstr_len (invoice->frozen, -1, "\"-84.00\""));
  g_assert_null (g_strstr_len (invoice->frozen, -1, "cost"));
}

int
main (int argc, char **argv)
{
  GError *error = NULL;
  int result;

  g_test_init (&argc, &argv, NULL);
  test = hs_ops_test_folder ();
  test->book = hs_demo_make (test->path, &test->user, &error);
  if (error != NULL)
    g_test_message ("%s", error->message);
  g_assert_no_error (error);
  g_test_add_func ("/demo/clock", test_clock);
  g_test_add_func ("/demo/totals", test_totals);
  g_test_add_func ("/demo/february", test_february);
  g_test_add_func ("/demo/counts", test_counts);
  g_test_add_func ("/demo/cores", test_cores);
  g_test_add_func ("/demo/swap", test_swap);
  g_test_add_func ("/demo/owners", test_owners);
  g_test_add_func ("/demo/stock", test_stock);
  g_test_add_func ("/demo/verdicts", test_verdicts);
  g_test_add_func ("/demo/where", test_where);
  g_test_add_func ("/demo/refuses-to-overwrite", test_refuses_to_overwrite);
  g_test_add_func ("/demo/frozen", test_frozen);
  result = g_test_run ();
  hs_ops_test_close (test);
  return result;
}
