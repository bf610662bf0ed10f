// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What of a job goes to the telephone: from the customer, the place, the plan and the bill, each left out where it is
 * not known. */

#include "hs-hand-off-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-store-error.h"
#include "ops-demo.h"

static HsHandOff *
load (HsBook *book, const char *job_id)
{
  g_autoptr (GError) error = NULL;
  HsHandOff *hand_off = hs_hand_off_load (book, job_id, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  return hand_off;
}

/* The demo morning: A-0021 is with Marguerite Stane at O; she waits for it from 08:00. */
static void
test_demo (void)
{
  g_autofree char *job = ops_demo_job ("A-0021");
  g_autoptr (HsHandOff) hand_off = load (ops_demo_book (), job);

  g_assert_cmpstr (hand_off->number, ==, "A-0021");
  g_assert_cmpstr (hand_off->customer, ==, "Marguerite Stane");
  g_assert_cmpstr (hand_off->plate, ==, "TDM 1315");
  g_assert_nonnull (hand_off->phone);
  g_assert_nonnull (hand_off->address);
  g_assert_cmpint (hand_off->arrive, >, HS_OPS_TEST_NOW);
  g_assert_cmpint (hand_off->arrive, <, HS_OPS_TEST_NOW + 10 * 3600);
  g_assert_cmpint (hand_off->cents, ==, 0);
}

/* A-0013 was billed: 153.79 with tax; it is no stop of today. */
static void
test_priced (void)
{
  g_autofree char *job = ops_demo_job ("A-0013");
  g_autoptr (HsHandOff) hand_off = load (ops_demo_book (), job);

  g_assert_cmpint (hand_off->cents, ==, 15379);
  g_assert_cmpint (hand_off->arrive, ==, HS_INSTANT_NONE);
}

static void
test_places (void)
{
  static const struct
  {
    const char *number, *street, *area, *address, *position;
  } rows[] = {
    { "A-0001", "4 Quay Street", "T", "4 Quay Street, Tannery Row", NULL },
    { "A-0002", "", "H", "Highcroft", NULL },
    { "A-0003", "", "\"40.71280,-74.00600\"", NULL, "geo:40.7128,-74.006" },
    { "A-0004", "9 Hill Road", "\"-33.85680,151.21530\"", "9 Hill Road", "geo:-33.8568,151.2153" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *csv
          = g_strdup_printf ("number,customer_phone,words,day,area\n%s,555-0117,hums,2026-03-10,%s\n",
                             rows[i].number, rows[i].area);
      g_autofree char *sql
          = g_strdup_printf ("UPDATE job SET street = '%s' WHERE number = '%s'", rows[i].street, rows[i].number);
      g_autoptr (HsHandOff) hand_off = NULL;
      g_autofree char *id = NULL;

      hs_ops_test_import_ok (test, "jobs", csv, 1, 0, 0);
      hs_ops_test_run (test, sql);
      id = hs_job_find (test->book, rows[i].number, NULL);
      hand_off = load (test->book, id);
      g_assert_cmpstr (hand_off->address, ==, rows[i].address);
      g_assert_cmpstr (hand_off->position, ==, rows[i].position);
      g_assert_cmpstr (hand_off->customer, ==, "Nadira Quell");
      g_assert_cmpstr (hand_off->phone, ==, "555-0117");
      g_assert_null (hand_off->plate);
    }
}

static void
test_nothing (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_hand_off_load (ops_demo_book (), "nothing", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
  hs_hand_off_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/hand-off/demo", test_demo);
  g_test_add_func ("/ops/hand-off/priced", test_priced);
  g_test_add_func ("/ops/hand-off/places", test_places);
  g_test_add_func ("/ops/hand-off/nothing", test_nothing);
  return ops_demo_run ();
}
