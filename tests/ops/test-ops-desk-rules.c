// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The desk's ops one rule at a time: days of owners, figures of odometers, references of credits, words of people to
 * call and of trips. What is refused leaves no trace in the log of changes. */

#include "hs-desk-op.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"

#include <string.h>

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "customers", "name,phone\nIris Fenn,555-0190\n", 1, 0, 0);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  hs_ops_test_import_ok (test, "cores",
                         "supplier,part,deposit,paid_on,where_now\nLarch & Weir,BW-55,18.00,2026-03-01,in the van\n"
                         "Larch & Weir,BW-55,45.00,2026-02-01,lost\nLarch & Weir,GP-20D,5.00,2026-02-02,at base\n",
                         3, 0, 0);
  return test;
}

static char *
vehicle (HsOpsTest *test)
{
  return hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 5508'");
}

static char *
customer (HsOpsTest *test, const char *name)
{
  g_autofree char *sql = g_strdup_printf ("SELECT id FROM customer WHERE name = '%s'", name);

  return hs_ops_test_id (test, sql);
}

static HsDate
day (const char *text)
{
  HsDate date = HS_DATE_NONE;

  g_assert_true (hs_date_parse (text, &date, NULL));
  return date;
}

static void
check_untouched (HsOpsTest *test, gint64 seen)
{
  g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, seen);
}

/* The import made Teo the owner since the day of the import, 2026-03-10; a day before that moves it back. */
static void
test_owner_days (void)
{
  static const struct
  {
    const char *owner;
    const char *on;
    const char *said; /* NULL: taken */
    const char *present_from;
    gint64 owners;
  } rows[] = {
    { "Teo Calloway", "2026-03-10", NULL, "2026-03-10", 1 },
    { "Teo Calloway", "2026-03-11", NULL, "2026-03-10", 1 },
    { "Teo Calloway", "2021-03-01", NULL, "2021-03-01", 1 },
    { "Nadira Quell", "2021-02-28", "An owner does not leave before taking over", "2021-03-01", 1 },
    { "Nadira Quell", "2025-08-17", NULL, "2025-08-17", 2 },
    { "Iris Fenn", "2025-08-16", "An owner does not leave before taking over", "2025-08-17", 2 },
    { "Iris Fenn", "2025-08-17", NULL, "2025-08-17", 3 },
    { "Teo Calloway", "2026-03-01", NULL, "2026-03-01", 4 },
  };
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *vehicle_id = vehicle (test);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *owner = customer (test, rows[i].owner);
      g_autofree char *present
          = g_strdup_printf ("ownership WHERE vehicle_id = '%s' AND to_date IS NULL AND from_date = '%s'", vehicle_id,
                             rows[i].present_from);
      g_autofree char *all = g_strdup_printf ("ownership WHERE vehicle_id = '%s'", vehicle_id);
      g_autoptr (GError) error = NULL;

      hs_owner_change (test->book, vehicle_id, owner, day (rows[i].on), HS_OPS_TEST_NOW, &error);
      if (rows[i].said != NULL)
        hs_ops_test_refused (&error, rows[i].said);
      g_assert_no_error (error);
      hs_ops_test_one (test, present);
      g_assert_cmpint (hs_ops_test_count (test, all), ==, rows[i].owners);
    }
}

/* Each owner left on the day on which the next one came. */
static void
test_owner_chain (void)
{
  static const char *const owners[][2] = { { "Teo Calloway", "2020-01-01" },
                                           { "Nadira Quell", "2022-02-02" },
                                           { "Iris Fenn", "2024-04-04" } };
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *vehicle_id = vehicle (test);

  for (gsize i = 0; i < G_N_ELEMENTS (owners); i++)
    {
      g_autofree char *owner = customer (test, owners[i][0]);

      g_assert_true (hs_owner_change (test->book, vehicle_id, owner, day (owners[i][1]), HS_OPS_TEST_NOW, NULL));
    }
  for (gsize i = 0; i < G_N_ELEMENTS (owners); i++)
    {
      g_autofree char *until = i + 1 == G_N_ELEMENTS (owners) ? g_strdup ("IS NULL")
                                                              : g_strdup_printf ("= '%s'", owners[i + 1][1]);
      g_autofree char *found
          = g_strdup_printf ("ownership JOIN customer ON customer.id = ownership.customer_id "
                             "WHERE customer.name = '%s' AND from_date = '%s' AND to_date %s",
                             owners[i][0], owners[i][1], until);

      hs_ops_test_one (test, found);
    }
}

static void
test_owner_unknown (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *vehicle_id = vehicle (test);
  g_autofree char *teo = customer (test, "Teo Calloway");
  gint64 seen = hs_ops_test_count (test, "change_log");
  GError *error = NULL;

  g_assert_false (hs_owner_change (test->book, vehicle_id, "nobody", day ("2026-03-10"), HS_OPS_TEST_NOW, &error));
  hs_ops_test_refused (&error, "not in the book");
  g_assert_false (hs_owner_change (test->book, "nothing", teo, day ("2026-03-10"), HS_OPS_TEST_NOW, &error));
  hs_ops_test_refused (&error, "not in the book");
  check_untouched (test, seen);
}

/* A figure may stay or grow with the days; a fall needs a reason and then counts no more. */
static void
test_odometer (void)
{
  static const struct
  {
    const char *on;
    gint64 value;
    const char *doubted;
    const char *said; /* NULL: taken */
  } rows[] = {
    { "2025-09-02", 81400, NULL, NULL },
    { "2025-12-11", 94400, NULL, NULL },
    { "2025-12-12", 94400, NULL, NULL },
    { "2025-10-10", 81400, NULL, NULL },
    { "2025-10-11", 94400, NULL, NULL },
    { "2025-10-10", 81399, NULL, "It showed 81400 mi on 2025-09-02" },
    { "2025-10-10", 94401, NULL, "It showed 94400 mi on" },
    { "2026-01-01", 94399, NULL, "give the reason" },
    { "2026-01-01", 94399, "", "give the reason" },
    { "2026-01-01", 94399, "  ", "give the reason" },
    { "2026-01-01", 12, "cluster changed", NULL },
    { "2026-01-02", 94399, NULL, "It showed 94400 mi on" },
    { "2026-01-02", 94401, NULL, NULL },
    { "2026-01-01", -1, "cluster changed", "0 or more" },
    { "2025-09-02", 81400, NULL, "is in the book already" },
    { "2025-09-01", 0, NULL, NULL },
  };
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *vehicle_id = vehicle (test);
  gint64 taken = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 seen = hs_ops_test_count (test, "change_log");
      g_autoptr (GError) error = NULL;

      hs_odometer_add (test->book, vehicle_id, NULL, day (rows[i].on), rows[i].value, rows[i].doubted,
                       HS_OPS_TEST_NOW, &error);
      if (rows[i].said == NULL)
        {
          g_assert_no_error (error);
          taken++;
        }
      else
        {
          hs_ops_test_refused (&error, rows[i].said);
          check_untouched (test, seen);
        }
      g_assert_cmpint (hs_ops_test_count (test, "odometer"), ==, taken);
    }
  hs_ops_test_one (test, "odometer WHERE doubted = 'cluster changed' AND value = 12");
}

static void
test_odometer_of_job (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *vehicle_id = vehicle (test);
  g_autofree char *job_id = hs_job_find (test->book, "a1", NULL);
  GError *error = NULL;

  g_assert_true (hs_odometer_add (test->book, vehicle_id, job_id, day ("2026-03-10"), 81400, NULL, HS_OPS_TEST_NOW,
                                  NULL));
  hs_ops_test_one (test, "odometer WHERE value = 81400 AND job_id = (SELECT id FROM job WHERE number = 'A-0001')");
  g_assert_false (hs_odometer_add (test->book, "nothing", NULL, day ("2026-03-10"), 5, NULL, HS_OPS_TEST_NOW, &error));
  hs_ops_test_refused (&error, "no vehicle");
}

/* No slip, no credit: the core stays where it was. */
static void
test_credit (void)
{
  static const char *const blank[] = { NULL, "", " ", "\t\n" };
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *in_van = hs_ops_test_id (test, "SELECT id FROM core WHERE where_now = 'in_the_van'");
  g_autofree char *lost = hs_ops_test_id (test, "SELECT id FROM core WHERE where_now = 'lost'");
  gint64 seen = hs_ops_test_count (test, "change_log");
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (blank); i++)
    {
      g_assert_false (hs_core_credit (test->book, in_van, day ("2026-03-10"), blank[i], HS_OPS_TEST_NOW, &error));
      hs_ops_test_refused (&error, "needs the reference of its credit slip");
    }
  check_untouched (test, seen);
  hs_ops_test_one (test, "core WHERE where_now = 'in_the_van' AND credit_ref IS NULL AND credited_on IS NULL");
  g_assert_true (hs_core_credit (test->book, lost, day ("2026-03-11"), "CR-5521", HS_OPS_TEST_NOW, &error));
  hs_ops_test_one (test, "core WHERE where_now = 'credited' AND credit_ref = 'CR-5521' AND deposit_cents = 4500 "
                         "AND credited_on = '2026-03-11'");
  g_assert_cmpint (hs_ops_test_count (test, "core WHERE where_now <> 'credited'"), ==, 2);
}

/* Every reason to call, by id and as people write it; without one it is asked how the vehicle runs. */
static void
test_follow_up_words (void)
{
  static const char *const kinds[][2] = {
    { "declined_work", "declined_work" },
    { "Declined work", "declined_work" },
    { "aging_battery", "aging_battery" },
    { "ageing battery", "aging_battery" },
    { "upkeep due", "upkeep_due" },
    { "UNPAID", "unpaid" },
    { "re-torque", "retorque" },
    { "how is it running", "how_is_it_running" },
    { NULL, "how_is_it_running" },
    { " ", "how_is_it_running" },
    { "core deposit", "core_deposit" },
    { "deposit", "core_deposit" },
    { "part to return", "part_return" },
    { "part_return", "part_return" },
  };
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *job_id = hs_job_find (test->book, "A-0001", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      HsDate due = day ("2026-03-12") + (HsDate) i;
      g_autofree char *due_text = hs_date_format (due);
      g_autofree char *id = hs_follow_up_add (test->book, job_id, kinds[i][0], due, HS_OPS_TEST_NOW, NULL);
      g_autofree char *found
          = g_strdup_printf ("chase WHERE id = '%s' AND kind = '%s' AND due_on = '%s' AND done_on IS NULL AND "
                             "customer_id = (SELECT id FROM customer WHERE name = 'Teo Calloway') AND "
                             "vehicle_id = (SELECT id FROM vehicle WHERE plate = 'TDM 5508')",
                             id, kinds[i][1], due_text);

      hs_ops_test_one (test, found);
    }
}

static void
test_follow_up_done (void)
{
  static const char *const blank[] = { NULL, "", "  " };
  g_autoptr (HsOpsTest) test = start ();
  g_autofree char *job_id = hs_job_find (test->book, "A-0001", NULL);
  g_autofree char *id = hs_follow_up_add (test->book, job_id, "unpaid", day ("2026-03-12"), HS_OPS_TEST_NOW, NULL);
  gint64 seen = hs_ops_test_count (test, "change_log");
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (blank); i++)
    {
      g_assert_false (hs_follow_up_done (test->book, id, day ("2026-03-12"), blank[i], HS_OPS_TEST_NOW, &error));
      hs_ops_test_refused (&error, "What was said?");
    }
  g_assert_false (hs_follow_up_done (test->book, "nothing", day ("2026-03-12"), "paid", HS_OPS_TEST_NOW, &error));
  g_clear_error (&error);
  g_assert_null (hs_follow_up_add (test->book, "nothing", "unpaid", day ("2026-03-12"), HS_OPS_TEST_NOW, &error));
  g_clear_error (&error);
  check_untouched (test, seen);
  g_assert_true (hs_follow_up_done (test->book, id, day ("2026-03-13"), "promised for Friday", HS_OPS_TEST_NOW, NULL));
  hs_ops_test_one (test, "chase WHERE done_on = '2026-03-13' AND outcome = 'promised for Friday'");
}

static void
test_trip_words (void)
{
  static const char *const purposes[][2] = {
    { "job", "job" },          { NULL, "job" },          { "Parts", "parts" },
    { "supplies", "supplies" }, { "PRIVATE", "private" }, { "other business", "other_business" },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (gsize i = 0; i < G_N_ELEMENTS (purposes); i++)
    {
      HsTripEntry entry = { .van = i % 2 == 0 ? NULL : "a",
                            .on = day ("2026-03-10"),
                            .from = "T",
                            .to = i == 0 ? "T" : "H",
                            .seconds = (gint64) i * 60,
                            .millimiles = (gint64) i * 100,
                            .purpose = purposes[i][0] };
      g_autofree char *found
          = g_strdup_printf ("trip WHERE seconds = %d AND millimiles = %d AND purpose = '%s' AND on_date = "
                             "'2026-03-10' AND van_id = (SELECT id FROM van WHERE letter = 'A')",
                             (int) i * 60, (int) i * 100, purposes[i][1]);

      g_assert_true (hs_trip_add (test->book, &entry, HS_OPS_TEST_NOW, NULL));
      hs_ops_test_one (test, found);
    }
}

static void
test_trip_refused (void)
{
  static const struct
  {
    HsTripEntry entry;
    const char *said;
  } rows[] = {
    { { .from = "T", .to = "H", .seconds = -1, .purpose = "job" }, "no less than nothing" },
    { { .from = "T", .to = "H", .millimiles = -1, .purpose = "job" }, "no less than nothing" },
    { { .from = "T", .to = "H", .purpose = "fishing" }, "fishing" },
    { { .from = "T", .to = "Z", .purpose = "job" }, "not in the book" },
    { { .from = "Z", .to = "T", .purpose = "job" }, "not in the book" },
    { { .from = "T", .to = "H", .purpose = "job", .van = "C" }, "no van “C”" },
    { { .from = "T", .to = "H", .purpose = "job", .job_id = "nothing" }, "not in the book" },
  };
  g_autoptr (HsOpsTest) test = start ();
  gint64 seen = hs_ops_test_count (test, "change_log");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsTripEntry entry = rows[i].entry;
      g_autoptr (GError) error = NULL;

      entry.on = day ("2026-03-10");
      g_assert_false (hs_trip_add (test->book, &entry, HS_OPS_TEST_NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  check_untouched (test, seen);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/rules/owner-days", test_owner_days);
  g_test_add_func ("/desk/rules/owner-chain", test_owner_chain);
  g_test_add_func ("/desk/rules/owner-unknown", test_owner_unknown);
  g_test_add_func ("/desk/rules/odometer", test_odometer);
  g_test_add_func ("/desk/rules/odometer-of-job", test_odometer_of_job);
  g_test_add_func ("/desk/rules/credit", test_credit);
  g_test_add_func ("/desk/rules/follow-up-words", test_follow_up_words);
  g_test_add_func ("/desk/rules/follow-up-done", test_follow_up_done);
  g_test_add_func ("/desk/rules/trip-words", test_trip_words);
  g_test_add_func ("/desk/rules/trip-refused", test_trip_refused);
  return g_test_run ();
}
