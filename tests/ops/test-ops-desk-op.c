// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is written down beside the jobs: owners, odometers, cores, people to call, trips. */

#include "hs-chase-row.h"
#include "hs-core-row.h"
#include "hs-customer-row.h"
#include "hs-desk-op.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-vehicle-row.h"

#include <string.h>

static char *
vehicle_of (HsOpsTest *test)
{
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (hs_vehicle_row_list_by_plate (hs_book_get_store (test->book), "TDM 5508", &rows, NULL));
  return g_strdup (((HsVehicleRow *) g_ptr_array_index (rows, 0))->id);
}

static char *
customer_of (HsOpsTest *test, const char *phone)
{
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (hs_customer_row_list_by_phone (hs_book_get_store (test->book), phone, &rows, NULL));
  return g_strdup (((HsCustomerRow *) g_ptr_array_index (rows, 0))->id);
}

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  hs_ops_test_import_ok (test, "cores", "supplier,part,deposit,paid_on\nLarch & Weir,BW-55,18.00,2026-03-01\n", 1, 0,
                         0);
  return test;
}

static void
test_owner (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *vehicle_id = vehicle_of (test);
  g_autofree char *teo = customer_of (test, "555-0115");
  g_autofree char *nadira = customer_of (test, "555-0117");
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_owner_change (test->book, vehicle_id, teo, hs_date_from_ymd (2020, 1, 1), HS_OPS_TEST_NOW, &error));
  g_assert_cmpint (hs_ops_test_count (test, "ownership WHERE from_date = '2020-01-01'"), ==, 1);
  g_assert_true (hs_owner_change (test->book, vehicle_id, teo, hs_date_from_ymd (2024, 1, 1), HS_OPS_TEST_NOW, &error));
  g_assert_cmpint (hs_ops_test_count (test, "ownership WHERE from_date = '2020-01-01'"), ==, 1);
  g_assert_true (hs_owner_change (test->book, vehicle_id, nadira, hs_date_from_ymd (2025, 8, 17), HS_OPS_TEST_NOW,
                                  &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (test, "ownership WHERE to_date = '2025-08-17'"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "ownership WHERE from_date = '2025-08-17' AND to_date IS NULL"), ==, 1);
  g_assert_false (hs_owner_change (test->book, vehicle_id, teo, hs_date_from_ymd (2025, 1, 1), HS_OPS_TEST_NOW,
                                   &error));
  g_assert_nonnull (error);
}

static void
test_odometer (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *vehicle_id = vehicle_of (test);
  HsDate day = hs_date_from_ymd (2026, 3, 1);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_odometer_add (test->book, vehicle_id, NULL, day, 81400, NULL, HS_OPS_TEST_NOW, &error));
  g_assert_false (hs_odometer_add (test->book, vehicle_id, NULL, day + 5, 81399, NULL, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (hs_odometer_add (test->book, vehicle_id, NULL, day - 5, 81401, NULL, HS_OPS_TEST_NOW, &error));
  g_clear_error (&error);
  g_assert_false (hs_odometer_add (test->book, vehicle_id, NULL, day + 5, -1, NULL, HS_OPS_TEST_NOW, &error));
  g_clear_error (&error);
  g_assert_true (hs_odometer_add (test->book, vehicle_id, NULL, day + 5, 12, "cluster changed", HS_OPS_TEST_NOW,
                                  &error));
  g_assert_true (hs_odometer_add (test->book, vehicle_id, NULL, day + 6, 81500, NULL, HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (test, "odometer"), ==, 3);
}

static void
test_core (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autoptr (GPtrArray) cores = NULL;
  g_autoptr (GError) error = NULL;
  HsDate day = hs_date_from_ymd (2026, 3, 10);
  const char *id;

  g_assert_true (hs_core_row_list (hs_book_get_store (test->book), TRUE, &cores, NULL));
  id = ((HsCoreRow *) g_ptr_array_index (cores, 0))->id;
  g_assert_false (hs_core_credit (test->book, id, day, " ", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_true (hs_core_credit (test->book, id, day, "CR-1", HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (test, "core WHERE where_now = 'credited' AND credit_ref = 'CR-1' "
                                            "AND handed_in_on = '2026-03-10' AND credited_on = '2026-03-10'"),
                   ==, 1);
  g_assert_false (hs_core_credit (test->book, "nothing", day, "CR-1", HS_OPS_TEST_NOW, &error));
}

static void
test_follow_up (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *job_id = hs_job_find (test->book, "A-0001", NULL);
  HsDate due = hs_date_from_ymd (2026, 3, 12);
  g_autoptr (GPtrArray) open = NULL;
  g_autoptr (GPtrArray) none = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *id
      = hs_follow_up_add (test->book, job_id, "declined work", due, HS_OPS_TEST_NOW, &error);

  g_autofree char *same = hs_follow_up_add (test->book, job_id, "declined work", due, HS_OPS_TEST_NOW, NULL);

  g_assert_no_error (error);
  g_assert_nonnull (id);
  g_assert_cmpstr (same, ==, id);
  g_assert_true (hs_chase_row_list_due (hs_book_get_store (test->book), due, &open, NULL));
  g_assert_cmpuint (open->len, ==, 1);
  const HsChaseRow *row = g_ptr_array_index (open, 0);
  g_assert_cmpstr (row->kind, ==, "declined_work");
  g_assert_nonnull (row->customer_id);
  g_assert_nonnull (row->vehicle_id);
  g_assert_false (hs_follow_up_done (test->book, id, due, "", HS_OPS_TEST_NOW, &error));
  g_clear_error (&error);
  g_assert_true (hs_follow_up_done (test->book, id, due, "booked", HS_OPS_TEST_NOW, &error));
  g_assert_true (hs_chase_row_list_due (hs_book_get_store (test->book), due, &none, NULL));
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_null (hs_follow_up_add (test->book, job_id, "gossip", due, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (strstr (error->message, "gossip"));
}

static void
test_trip (void)
{
  static const HsTripEntry bad[] = {
    { .on = 20522, .from = "T", .to = "H", .seconds = -1, .millimiles = 1, .purpose = "job" },
    { .on = 20522, .from = "T", .to = "H", .seconds = 1, .millimiles = -1, .purpose = "job" },
    { .on = 20522, .from = "T", .to = "H", .seconds = 1, .millimiles = 1, .purpose = "fun" },
    { .on = 20522, .from = "T", .to = "X", .seconds = 1, .millimiles = 1, .purpose = "job" },
    { .on = 20522, .from = "T", .to = "H", .seconds = 1, .millimiles = 1, .purpose = "job", .van = "Z" },
  };
  HsTripEntry good = { .on = 20522, .from = "T", .to = "H", .seconds = 720, .millimiles = 5000, .purpose = "parts" };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_trip_add (test->book, &bad[i], HS_OPS_TEST_NOW, &error));
      g_assert_nonnull (error);
    }
  g_assert_true (hs_trip_add (test->book, &good, HS_OPS_TEST_NOW, NULL));
  g_assert_cmpint (hs_ops_test_count (test, "trip WHERE seconds = 720 AND millimiles = 5000 AND purpose = 'parts'"),
                   ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "trip"), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/owner", test_owner);
  g_test_add_func ("/desk/odometer", test_odometer);
  g_test_add_func ("/desk/core", test_core);
  g_test_add_func ("/desk/follow-up", test_follow_up);
  g_test_add_func ("/desk/trip", test_trip);
  return g_test_run ();
}
