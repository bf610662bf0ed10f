// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Parts that a job installed: what is noted of each, how long it is covered, and how it is corrected or taken out. */

#include "ops-repair.h"

#include "hs-undo.h"

#include <string.h>

static const HsFittedPart *
only_part (const HsRepair *repair)
{
  g_assert_cmpuint (repair->parts->len, ==, 1);
  return g_ptr_array_index (repair->parts, 0);
}

/* All that can be said of a battery, and what follows from it. 24 months from 2026-03-10; 12,000 miles on 63,000; at 40
 * miles a day those are driven in 300 days, on 2027-01-04. */
static void
test_fit (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .part_number = "BW-55", .from_van = TRUE, .cost_cents = 6200, .why = "due",
                                 .serial = "77-1204", .date_stamp = "C5", .supplier_bill = "K-881",
                                 .maker = "Brackwater", .warranty_millimiles = 12000000, .odometer = 63000,
                                 .old_part = "goes back as a core", .looks = TRUE };
  g_autofree char *id = bay_fit (&bay, &entry);
  g_autoptr (HsRepair) repair = bay_load (&bay);
  const HsFittedPart *part = only_part (repair);

  g_assert_cmpstr (part->id, ==, id);
  g_assert_cmpstr (part->number, ==, "BW-55");
  g_assert_cmpstr (part->serial, ==, "77-1204");
  g_assert_cmpstr (part->bill, ==, "K-881");
  g_assert_cmpstr (part->made, ==, "March 2025");
  g_assert_cmpstr (part->why, ==, "due");
  g_assert_cmpstr (part->why_said, ==, "the old one was due");
  g_assert_cmpstr (part->old_part, ==, "core");
  g_assert_cmpint (part->odometer, ==, 63000);
  g_assert_cmpint (part->cover_until, ==, hs_date_from_ymd (2028, 3, 10));
  g_assert_cmpint (part->cover_odometer, ==, 75000);
  g_assert_cmpint (part->cover_expected, ==, hs_date_from_ymd (2027, 1, 4));
  g_assert_cmpstr (part->cover, ==,
                   "Covered to March 10, 2028 or 75,000 miles on the odometer, whichever comes first.");
  hs_ops_test_one (bay.test, "odometer WHERE value = 63000 AND on_date = '2026-03-10'");
}

static void
test_cover_swap (void)
{
  g_auto (Bay) bay = bay_start ();
  HsInstallEntry entry = { .what = "battery 55 Ah", .why = "due", .warranty_months = 36 };
  g_autofree char *first = hs_part_install (bay.book, bay.job, &entry, hs_ops_test_at ("2025-05-14T10:00"), NULL);
  g_autofree char *second = NULL;
  g_autoptr (HsRepair) repair = NULL;
  const HsFittedPart *part;

  entry.warranty_swap = TRUE;
  second = bay_fit (&bay, &entry);
  repair = bay_load (&bay);
  part = g_ptr_array_index (repair->parts, 1);
  g_assert_nonnull (first);
  g_assert_true (part->swap);
  g_assert_cmpstr (part->cover, ==,
                   "Covered to May 14, 2028; it runs from May 14, 2025, when the first one went in.");
}

static void
test_fit_refused (void)
{
  static const struct
  {
    HsInstallEntry entry;
    const char *said;
  } rows[] = {
    { { .what = "relay", .warranty_months = 601 }, "Months of cover: write 0 to 600" },
    { { .what = "relay", .warranty_months = -1 }, "Months of cover" },
    { { .what = "relay", .warranty_millimiles = -1 }, "Miles of cover" },
    { { .what = "relay", .odometer = 10000000 }, "Odometer: write what it shows" },
    { { .what = "relay", .odometer = 60999 }, "61000" },
    { { .what = "relay", .odometer = 6300000 }, "The reason goes beside the odometer of the call." },
    { { .what = "relay", .old_part = "eaten" }, "eaten" },
    { { .what = "relay", .why = "bored" }, "bored" },
  };
  g_auto (Bay) bay = bay_start ();
  gint64 seen = hs_ops_test_count (bay.test, "change_log");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_part_install (bay.book, bay.job, &rows[i].entry, NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
      g_assert_cmpint (hs_ops_test_count (bay.test, "change_log"), ==, seen);
    }
}

/* What a picked option put on the bill is the part's line; it is not charged twice. */
static void
test_fit_after_option (void)
{
  static const HsAdviceLineEntry lines[] = { { .kind = "part", .what = "Drive belt", .price_cents = 4240 } };
  g_auto (Bay) bay = bay_start ();
  const HsAdviceEntry option = { .wording = "Belt", .choice = "open", .at = HS_INSTANT_NONE, .lines = lines,
                                 .n_lines = 1, .chase_on = HS_DATE_NONE };
  const HsInstallEntry entry = { .what = "drive belt", .why = "due", .cost_cents = 2400 };
  g_autofree char *advice = hs_advice_add (bay.book, bay.job, &option, NOW, NULL);
  g_autofree char *id = NULL;

  g_assert_nonnull (advice);
  hs_ops_test_run (bay.test, "INSERT INTO line (id, job_id, kind, what, quantity_milli, price_cents, advice_line_id)"
                             " SELECT 'l1', job.id, 'part', 'Drive belt', 1000, 4240, advice_line.id"
                             " FROM job, advice_line");
  id = bay_fit (&bay, &entry);
  hs_ops_test_one (bay.test, "line WHERE kind = 'part'");
  hs_ops_test_one (bay.test, "line WHERE id = 'l1' AND price_cents = 4240 AND installed_part_id IS NOT NULL");
  g_assert_true (hs_part_remove (bay.book, id, NOW, NULL));
  hs_ops_test_one (bay.test, "line WHERE id = 'l1' AND installed_part_id IS NULL");
}

/* Field by field: what is typed, and what the book then holds. */
static void
test_set (void)
{
  static const struct
  {
    const char *field;
    const char *text;
    const char *stands;
  } rows[] = {
    { "what", "heater relay", "what = 'heater relay'" },
    { "place", "fuse box", "place = 'fuse box'" },
    { "place", " ", "place IS NULL" },
    { "serial", "9-1", "serial = '9-1'" },
    { "date_code", "0325", "date_stamp = '0325'" },
    { "maker", "Coldpost", "maker = 'Coldpost'" },
    { "bill", "K-1", "supplier_bill = 'K-1'" },
    { "months", "24", "warranty_months = 24" },
    { "months", "", "warranty_months = 0" },
    { "miles", "12000", "warranty_millimiles = 12000000" },
    { "miles", "0", "warranty_millimiles IS NULL" },
    { "odometer", "63000", "installed_odometer = 63000" },
    { "odometer", "", "installed_odometer IS NULL" },
    { "why", "due", "replaced_why = 'due' AND replaced_finding_id IS NULL AND told_at IS NULL" },
    { "why", "not known", "replaced_why = 'not_known' AND told_at IS NOT NULL" },
    { "why", "failed", "replaced_why = 'failed' AND replaced_finding_id IS NOT NULL AND told_at IS NULL" },
    { "why", "Welded shut", "replaced_why = 'failed' AND replaced_finding_id IS NOT NULL" },
    { "why", "", "replaced_why IS NULL AND replaced_finding_id IS NULL" },
    { "old", "handed over", "old_part = 'handed_over'" },
    { "old", "", "old_part IS NULL" },
  };
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .what = "relay" };
  g_autofree char *cause = bay_find (&bay, "welded shut", "cause", NULL);
  g_autofree char *id = bay_fit (&bay, &entry);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *where = g_strdup_printf ("installed_part WHERE %s", rows[i].stands);
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_part_set (bay.book, id, rows[i].field, rows[i].text, NOW, &error));
      g_assert_no_error (error);
      hs_ops_test_one (bay.test, where);
    }
  /* One step each but for the one that says the same in other words; the first of them is taken back last. */
  for (gsize i = 1; i < G_N_ELEMENTS (rows); i++)
    g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
  hs_ops_test_one (bay.test, "installed_part WHERE what = 'relay' AND serial IS NULL AND warranty_months = 0");
}

static void
test_set_refused (void)
{
  static const struct
  {
    const char *field;
    const char *text;
    const char *said;
  } rows[] = {
    { "what", " ", "A part needs a name" },
    { "months", "two", "Months of cover: “two” is not a whole number" },
    { "months", "601", "write 0 to 600" },
    { "miles", "1000001", "Miles of cover: write 0 to 1000000" },
    { "miles", "-5", "Miles of cover" },
    { "miles", "-9223372036854775807", "Miles of cover" },
    { "odometer", "63000.5", "Odometer: “63000.5” is not a whole number" },
    { "odometer", "10000000", "Odometer: write what it shows" },
    { "odometer", "60000", "61000" },
    { "why", "failed", "There are: “welded shut”, “heater left on”" },
    { "why", "gremlins", "“gremlins” is no finding of A-0001. Write failed, due, none before or not known" },
    { "old", "sold", "“sold” is not a whereabouts of an old part" },
    { "color", "red", "A part has no field “color”" },
  };
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .what = "relay" };
  g_autofree char *one = bay_find (&bay, "welded shut", "cause", NULL);
  g_autofree char *two = bay_find (&bay, "heater left on", "cause", NULL);
  g_autofree char *id = bay_fit (&bay, &entry);
  gint64 seen = hs_ops_test_count (bay.test, "change_log");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_part_set (bay.book, id, rows[i].field, rows[i].text, NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
      g_assert_cmpint (hs_ops_test_count (bay.test, "change_log"), ==, seen);
    }
}

static void
test_set_without_finding (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .what = "relay" };
  g_autofree char *id = bay_fit (&bay, &entry);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_part_set (bay.book, id, "why", "failed", NOW, &error));
  hs_ops_test_refused (&error, "Write that down under “Why it failed” first");
}

/* Two batteries out of the van on one job, the second in place of the first: taken out again, all is as it was. */
static void
test_remove (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry old = { .what = "battery 45 Ah", .why = "due" };
  const HsInstallEntry entry = { .part_number = "BW-55", .from_van = TRUE, .cost_cents = 6200, .why = "due" };
  g_autofree char *first = bay_fit (&bay, &old);
  g_autofree char *id = bay_fit (&bay, &entry);

  hs_ops_test_one (bay.test, "stock WHERE quantity_milli = 1000");
  hs_ops_test_one (bay.test, "installed_part WHERE removed_on = '2026-03-10'");
  hs_ops_test_one (bay.test, "need WHERE state = 'installed'");
  g_assert_true (hs_part_remove (bay.book, id, NOW, NULL));
  hs_ops_test_one (bay.test, "stock WHERE quantity_milli = 2000");
  hs_ops_test_one (bay.test, "installed_part WHERE removed_on IS NULL AND what = 'battery 45 Ah'");
  hs_ops_test_one (bay.test, "need WHERE state = 'in_the_van'");
  hs_ops_test_one (bay.test, "line");
  g_assert_true (hs_undo_last (hs_book_get_store (bay.book), bay.job, NOW, NULL, NULL));
  hs_ops_test_one (bay.test, "installed_part WHERE removed_on IS NULL AND what = 'battery 55 Ah flooded'");
  g_assert_cmpint (hs_ops_test_count (bay.test, "line"), ==, 2);
}

/* The one that it took the place of is back on, and none before that; also where only one of both names its place. */
static void
test_remove_latest (void)
{
  static const char *const places[][3]
      = { { NULL, NULL, NULL }, { NULL, NULL, "trunk" }, { "Trunk", "trunk", "TRUNK" } };

  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_auto (Bay) bay = bay_start ();
      g_autofree char *id = NULL;

      g_free (bay_fit (&bay, &(HsInstallEntry) { .what = "battery 45 Ah", .place = places[i][0] }));
      g_free (bay_fit (&bay, &(HsInstallEntry) { .what = "battery 55 Ah", .place = places[i][1] }));
      id = bay_fit (&bay, &(HsInstallEntry) { .what = "battery 60 Ah", .place = places[i][2] });
      g_assert_true (hs_part_remove (bay.book, id, NOW, NULL));
      hs_ops_test_one (bay.test, "installed_part WHERE removed_on IS NULL");
      hs_ops_test_one (bay.test, "installed_part WHERE removed_on IS NULL AND what = 'battery 55 Ah'");
    }
}

static void
test_remove_refused (void)
{
  g_auto (Bay) bay = bay_start ();
  const HsInstallEntry entry = { .what = "battery 45 Ah", .why = "due" };
  g_autofree char *first = bay_fit (&bay, &entry);
  g_autofree char *second = bay_fit (&bay, &entry);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_part_remove (bay.book, first, NOW, &error));
  hs_ops_test_refused (&error, "“battery 45 Ah” was taken off the vehicle later");
  hs_ops_test_run (bay.test, "INSERT INTO installed_part (id, vehicle_id, what, installed_on, known_by)"
                             " SELECT 'p', vehicle_id, 'radio', '2020-01-01', 'customer_says' FROM job");
  g_assert_false (hs_part_remove (bay.book, "p", NOW, &error));
  hs_ops_test_refused (&error, "No job of this book installed “radio”");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/repair/fit", test_fit);
  g_test_add_func ("/repair/cover-swap", test_cover_swap);
  g_test_add_func ("/repair/fit-refused", test_fit_refused);
  g_test_add_func ("/repair/fit-after-option", test_fit_after_option);
  g_test_add_func ("/repair/set", test_set);
  g_test_add_func ("/repair/set-refused", test_set_refused);
  g_test_add_func ("/repair/set-without-finding", test_set_without_finding);
  g_test_add_func ("/repair/remove", test_remove);
  g_test_add_func ("/repair/remove-latest", test_remove_latest);
  g_test_add_func ("/repair/remove-refused", test_remove_refused);
  return g_test_run ();
}
