// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a reading means on its vehicle: each condition that is written beside it, the battery and the other readings of
 * the job, limits of its own, and a check that this version does not know. */

#include "hs-board.h"
#include "hs-history.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-reading-row.h"
#include "hs-settings-op.h"

#include <string.h>

static HsOpsTest *
start (const char *fuel, const char *battery_kind, const char *ah, const char *cca)
{
  HsOpsTest *test = hs_ops_test_open ();
  g_autofree char *vehicle
      = g_strdup_printf ("plate,owner_phone,fuel,battery_kind,battery_ah,battery_cca\nTDM 4409,555-0115,%s,%s,%s,%s\n",
                         fuel, battery_kind, ah, cca);

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "vehicles", vehicle, 1, 0, 0);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 4409\n"
                         "A-0002,555-0115,no vehicle,\n",
                         2, 0, 0);
  return test;
}

static HsReadingResult *
judge (HsOpsTest *test, const char *check, const char *text, const char *conditions)
{
  g_autofree char *vehicle = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 4409'");
  HsReadingEntry entry = { .check = check, .text = text, .conditions = conditions, .at = HS_INSTANT_NONE };
  GError *error = NULL;
  HsReadingResult *result = hs_reading_judge (test->book, vehicle, &entry, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  return result;
}

static HsReadingResult *
add (HsOpsTest *test, const char *number, const char *check, const char *text, const char *phase, int minutes)
{
  g_autofree char *id = hs_job_find (test->book, number, NULL);
  HsReadingEntry entry = { .check = check, .text = text, .phase = phase, .at = HS_OPS_TEST_NOW + 60 * minutes };
  GError *error = NULL;
  HsReadingResult *result = hs_reading_add (test->book, id, &entry, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  return result;
}

typedef struct
{
  const char *check;
  const char *text;
  const char *conditions;
  const char *verdict;
  const char *word; /* NULL: not held here */
} Judged;

/* On a flooded 60 Ah battery of 540 A in a gas car. */
static const Judged flooded[] = {
  { "battery_rest", "12.40", NULL, "within", NULL },
  { "battery_rest", "12.39", NULL, "watch", "charge" },
  { "battery_rest", "12.20", NULL, "watch", "charge" },
  { "battery_rest", "12.19", NULL, "watch", "charge and test" },
  { "battery_rest", "12.75", NULL, "within", NULL },
  { "battery_rest", "12.76", NULL, "watch", "surface charge" },
  { "battery_rest", "-12.40", NULL, "outside", "reversed" },
  { "battery_rest", "12.60", "just_charged:yes", "cannot_tell", "wait" },
  { "battery_rest", "12.60", "just_charged:no", "within", NULL },
  { "battery_rest", "12.60", "JUST_CHARGED:yes", "cannot_tell", "wait" },
  { "battery_rest", "12.60", " just_charged : YES ", "cannot_tell", "wait" },
  { "battery_rest", "10.50", "full_charge:yes", "outside", "cell suspect" },
  { "battery_rest", "10.50", "full_charge:no", "outside", "flat" },
  { "battery_rest", "12.30", "full_charge:yes", "watch", "recheck" },
  { "battery_rest", "11.95", "temperature:-7", "outside", "may be frozen" },
  { "battery_rest", "11.95", "temperature:-6", "watch", "charge and test" },
  { "battery_rest", "11.95", "temperature:20F", "outside", "may be frozen" },
  { "battery_rest", "11.95", "in the sun; temperature:-9; loaded:no", "outside", "may be frozen" },
  { "battery_strength", "432", NULL, "within", NULL },
  { "battery_strength", "431", NULL, "watch", "watch" },
  { "battery_strength", "378", NULL, "watch", "watch" },
  { "battery_strength", "377", NULL, "outside", "replace" },
  { "load_test", "9.60", "temperature:21", "within", NULL },
  { "load_test", "9.59", "temperature:21", "outside", NULL },
  { "load_test", "8.50", "temperature:-18", "within", NULL },
  { "load_test", "9.00", "temperature:-19", "cannot_tell", NULL },
  { "load_test", "9.00", NULL, "cannot_tell", NULL },
  { "load_test", "9.60", NULL, "within", NULL },
  { "load_test", "8.49", NULL, "outside", NULL },
  { "cranking", "9.60", "temperature:21", "within", NULL },
  { "cranking", "9.50", "temperature:21", "depends", NULL },
  { "cranking", "8.00", "temperature:21", "depends", NULL },
  { "cranking", "7.99", "temperature:21", "outside", NULL },
  { "charging", "13.50", NULL, "within", NULL },
  { "charging", "14.70", NULL, "within", NULL },
  { "charging", "13.49", NULL, "watch", NULL },
  { "charging", "13.00", NULL, "watch", NULL },
  { "charging", "12.99", NULL, "outside", NULL },
  { "charging", "15.50", NULL, "watch", NULL },
  { "charging", "15.51", NULL, "outside", NULL },
  { "sleeping_draw", "0.050", NULL, "within", NULL },
};

/* On a 70 Ah AGM battery. */
static const Judged agm[] = {
  { "battery_rest", "12.60", NULL, "within", NULL },
  { "battery_rest", "12.59", NULL, "watch", "charge" },
  { "battery_rest", "12.39", NULL, "watch", "charge and test" },
  { "battery_rest", "13.20", NULL, "within", NULL },
  { "battery_rest", "13.21", NULL, "watch", "surface charge" },
  { "battery_rest", "12.00", "temperature:-10", "watch", "charge and test" },
  { "battery_rest", "11.99", "temperature:-10", "outside", "may be frozen" },
  { "battery_strength", "608", NULL, "within", NULL },
  { "battery_strength", "607", NULL, "watch", NULL },
};

static const Judged lithium[] = {
  { "battery_rest", "13.10", NULL, "cannot_tell", NULL },
  { "battery_strength", "700", NULL, "cannot_tell", NULL },
};

static void
check_all (HsOpsTest *test, const Judged *rows, gsize n)
{
  for (gsize i = 0; i < n; i++)
    {
      g_autoptr (HsReadingResult) result = judge (test, rows[i].check, rows[i].text, rows[i].conditions);

      if (g_strcmp0 (result->verdict, rows[i].verdict) != 0)
        g_test_message ("%s %s (%s)", rows[i].check, rows[i].text, rows[i].conditions);
      g_assert_cmpstr (result->verdict, ==, rows[i].verdict);
      if (rows[i].word != NULL)
        g_assert_cmpstr (result->word, ==, rows[i].word);
      g_assert_cmpstr (result->why, !=, "");
      g_assert_null (result->place);
    }
}

static void
test_flooded (void)
{
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");

  check_all (test, flooded, G_N_ELEMENTS (flooded));
}

static void
test_agm (void)
{
  g_autoptr (HsOpsTest) test = start ("diesel", "AGM", "70", "760");

  check_all (test, agm, G_N_ELEMENTS (agm));
}

static void
test_lithium (void)
{
  g_autoptr (HsOpsTest) test = start ("gas", "lithium", "60", "760");

  check_all (test, lithium, G_N_ELEMENTS (lithium));
}

/* Without a vehicle, or on one of which nothing is known, what depends on the battery cannot be told. */
static void
test_nothing_known (void)
{
  static const char *const checks[][3] = {
    { "battery_rest", "12.60", "cannot_tell" },
    { "battery_strength", "400", "cannot_tell" },
    { "charging", "14.20", "within" },
  };
  g_autoptr (HsOpsTest) test = start ("", "", "", "");

  for (gsize i = 0; i < G_N_ELEMENTS (checks); i++)
    {
      HsReadingEntry entry = { .check = checks[i][0], .text = checks[i][1], .at = HS_INSTANT_NONE };
      g_autoptr (HsReadingResult) on_it = judge (test, checks[i][0], checks[i][1], NULL);
      g_autoptr (HsReadingResult) alone = hs_reading_judge (test->book, NULL, &entry, HS_OPS_TEST_NOW, NULL);

      g_assert_cmpstr (on_it->verdict, ==, checks[i][2]);
      g_assert_cmpstr (alone->verdict, ==, checks[i][2]);
    }
}

/* The charge in percent along the table 11.89, 12.06, 12.24, 12.45, 12.65: 12.05 is 24 %, 12.30 is 57 %. */
static void
test_charge (void)
{
  static const char *const rows[][2] = {
    { "11.89", "0 %" },  { "12.05", "24 %" }, { "12.06", "25 %" }, { "12.24", "50 %" },
    { "12.30", "57 %" }, { "12.45", "75 %" }, { "12.42", "71 %" }, { "12.65", "100 %" },
  };
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsReadingResult) result = judge (test, "battery_rest", rows[i][0], NULL);

      g_assert_cmpstr (result->note, ==, rows[i][1]);
    }
}

/* Days to no-start: 60 Ah × share / (A × 24): 0.31 A at 40 % are 3.2; half the share is half the days. */
static void
test_usable_share (void)
{
  static const char *const rows[][3] = {
    { "40", "0.310", "3.2 days to no-start" },   { "40", "0.024", "41.7 days to no-start" },
    { "20", "0.310", "1.6 days to no-start" },   { "80", "0.310", "6.5 days to no-start" },
    { "50", "1.000", "1.3 days to no-start" },   { "100", "0.025", "100.0 days to no-start" },
  };
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsReadingResult) result = NULL;

      g_assert_true (hs_settings_set (test->book, "battery_usable_percent", rows[i][0], HS_OPS_TEST_NOW, NULL));
      result = judge (test, "sleeping_draw", rows[i][1], NULL);
      g_assert_cmpstr (result->note, ==, rows[i][2]);
    }
}

/* The volts at rest of the same job and phase decide whether a strength may be judged, the latest of them first. */
static void
test_rest_of_the_job (void)
{
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");
  g_autoptr (HsReadingResult) alone = add (test, "A-0001", "battery_strength", "300", "before", 0);
  g_autoptr (HsReadingResult) low = add (test, "A-0001", "battery_rest", "12.00", "before", 1);
  g_autoptr (HsReadingResult) flat = add (test, "A-0001", "battery_strength", "300", "before", 2);
  g_autoptr (HsReadingResult) full = add (test, "A-0001", "battery_rest", "12.60", "before", 3);
  g_autoptr (HsReadingResult) charged = add (test, "A-0001", "battery_strength", "300", "before", 4);
  g_autoptr (HsReadingResult) after = add (test, "A-0001", "battery_strength", "500", "after", 5);
  g_autoptr (HsReadingResult) drained = add (test, "A-0001", "battery_rest", "12.10", "after", 6);
  g_autoptr (HsReadingResult) late = add (test, "A-0001", "battery_strength", "500", "after", 7);

  g_assert_cmpstr (alone->verdict, ==, "outside");
  g_assert_cmpstr (flat->verdict, ==, "cannot_tell");
  g_assert_cmpstr (flat->word, ==, "charge first");
  g_assert_cmpstr (charged->verdict, ==, "outside");
  g_assert_cmpstr (after->verdict, ==, "within");
  g_assert_cmpstr (late->verdict, ==, "cannot_tell");
}

/* What was read at rest afterwards says nothing about a strength taken before it. */
static void
test_later_rest (void)
{
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");
  g_autofree char *id = hs_job_find (test->book, "A-0001", NULL);
  g_autoptr (HsReadingResult) strong = add (test, "A-0001", "battery_strength", "500", "before", 5);
  g_autoptr (HsReadingResult) drained = add (test, "A-0001", "battery_rest", "12.00", "before", 6);
  g_autoptr (GPtrArray) sheet = hs_job_sheet (test->book, id, "before", HS_OPS_TEST_NOW, NULL);

  g_assert_cmpstr (strong->verdict, ==, "within");
  g_assert_cmpstr (drained->verdict, ==, "watch");
  g_assert_cmpuint (sheet->len, ==, 2);
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (sheet, i);
      gboolean strength = g_str_equal (result->check, "battery_strength");

      g_assert_cmpstr (result->verdict, ==, strength ? "within" : "watch");
    }
}

/* Before the repair the old battery counts, after it the new one; on a later day only the new one. */
static void
test_battery_of_the_phase (void)
{
  static const struct
  {
    const char *phase;
    int days;
    const char *verdict;
  } rows[] = {
    { "before", 0, "within" }, { "after", 0, "watch" }, { "before", -1, "within" },
    { "after", -1, "within" }, { "before", 1, "watch" }, { "after", 1, "watch" },
  };
  g_autoptr (HsOpsTest) test = start ("gas", "unknown", "", "");

  hs_ops_test_import_ok (test, "installed",
                         "plate,what,date,battery_kind,removed_on\nTDM 4409,battery,2020-01-01,flooded,2026-03-10\n"
                         "TDM 4409,battery AGM,2026-03-10,AGM,\n",
                         2, 0, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsReadingResult) result
          = add (test, "A-0001", "battery_rest", "12.50", rows[i].phase, rows[i].days * 24 * 60);

      g_assert_cmpstr (result->verdict, ==, rows[i].verdict);
    }
}

static void
own_limits (HsOpsTest *test, const char *check, gint64 low, gint64 high)
{
  HsStore *store = hs_book_get_store (test->book);
  g_autoptr (HsCheckOwnRow) own = hs_check_own_row_new ();
  g_autoptr (GError) error = NULL;

  own->vehicle_id = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 4409'");
  hs_row_set (&own->check_id, check);
  hs_row_set (&own->source, "maker's sheet");
  own->low = low;
  own->high = high;
  g_assert_true (hs_store_begin (store, HS_OPS_TEST_NOW, NULL));
  g_assert_true (hs_store_end (store, hs_check_own_row_save (store, own, &error), &error));
}

/* The vehicle's own limits outrank the catalog, for their check alone; one of the two may be open. */
static void
test_own_limits (void)
{
  static const Judged rows[] = {
    { "charging", "12.80", NULL, "within", NULL },      { "charging", "15.10", NULL, "within", NULL },
    { "charging", "12.79", NULL, "outside", NULL },     { "charging", "15.11", NULL, "outside", NULL },
    { "sleeping_draw", "0.080", NULL, "within", NULL }, { "sleeping_draw", "0.081", NULL, "outside", NULL },
    { "cranking", "10.00", NULL, "within", NULL },      { "cranking", "9.99", NULL, "outside", NULL },
    { "battery_rest", "12.30", NULL, "watch", NULL },
  };
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");

  own_limits (test, "charging", 1280, 1510);
  own_limits (test, "sleeping_draw", HS_INT_NONE, 80);
  own_limits (test, "cranking", 1000, HS_INT_NONE);
  check_all (test, rows, G_N_ELEMENTS (rows));
  g_autoptr (HsReadingResult) own = judge (test, "charging", "14.00", NULL);
  g_autoptr (HsReadingResult) usual = judge (test, "battery_rest", "12.50", NULL);
  g_assert_cmpstr (own->source, ==, "maker's sheet");
  g_assert_cmpstr (usual->source, !=, "maker's sheet");
}

/* A reading whose check has left the catalog: written by a later or an earlier version. */
static void
add_unknown (HsOpsTest *test)
{
  hs_ops_test_run (test,
                   "INSERT INTO check_kind (id, name, unit, decimals) VALUES ('noise', 'Noise', 'dB', 1);"
                   "INSERT INTO reading (id, job_id, check_id, unit, decimals, place, value, phase, taken_at)"
                   " SELECT 'r1', id, 'noise', 'dB', 1, 'hub', 623, 'before', 1773139500 FROM job"
                   " WHERE number = 'A-0001';"
                   "INSERT INTO reading (id, job_id, check_id, unit, decimals, place, over_range, phase, taken_at)"
                   " SELECT 'r2', id, 'noise', 'dB', 1, 'belt', 1, 'before', 1773139560 FROM job"
                   " WHERE number = 'A-0001';"
                   "INSERT INTO reading (id, job_id, check_id, unit, decimals, not_measured_why, phase, taken_at)"
                   " SELECT 'r3', id, 'noise', 'dB', 1, 'too loud', 'before', 1773139620 FROM job"
                   " WHERE number = 'A-0001'");
}

static void
check_unknown (const HsReadingResult *result, const char *place, const char *value_text)
{
  g_assert_cmpstr (result->check, ==, "noise");
  g_assert_cmpstr (result->name, ==, "noise");
  g_assert_cmpstr (result->place, ==, place);
  g_assert_cmpstr (result->value_text, ==, value_text);
  g_assert_cmpstr (result->verdict, ==, "cannot_tell");
  g_assert_cmpstr (result->word, ==, "cannot tell");
  g_assert_nonnull (strstr (result->why, "no check “noise”"));
  g_assert_cmpstr (result->unit, ==, "dB");
}

static void
test_unknown_on_sheet (void)
{
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");
  g_autofree char *id = hs_job_find (test->book, "A-0001", NULL);
  g_autoptr (HsReadingResult) rest = add (test, "A-0001", "battery_rest", "12.42", "before", 0);
  g_autoptr (GPtrArray) sheet = NULL;
  g_autoptr (GError) error = NULL;
  const HsReadingResult *first;

  add_unknown (test);
  sheet = hs_job_sheet (test->book, id, "before", HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (sheet->len, ==, 4);
  g_assert_cmpstr (((HsReadingResult *) g_ptr_array_index (sheet, 0))->value_text, ==, "12.42 V");
  first = g_ptr_array_index (sheet, 1);
  check_unknown (first, "hub", "62.3 dB");
  g_assert_true (first->has_value);
  g_assert_cmpfloat_with_epsilon (first->value, 62.3, 1e-9);
  g_assert_cmpint (first->at, ==, HS_OPS_TEST_NOW);
  g_assert_cmpstr (first->id, ==, "r1");
  check_unknown (g_ptr_array_index (sheet, 2), "belt", "over range");
  check_unknown (g_ptr_array_index (sheet, 3), NULL, "not measured");
  g_assert_false (((HsReadingResult *) g_ptr_array_index (sheet, 2))->has_value);
}

/* It hides neither the job's page nor the vehicle's history. */
static void
test_unknown_elsewhere (void)
{
  g_autoptr (HsOpsTest) test = start ("gas", "flooded", "60", "540");
  g_autofree char *id = hs_job_find (test->book, "A-0001", NULL);
  g_autofree char *vehicle = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 4409'");
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobView) view = NULL;
  g_autoptr (HsHistory) history = NULL;
  const HsHistoryEntry *entry;

  add_unknown (test);
  view = hs_job_view_load (test->book, id, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (view->readings->len, ==, 3);
  history = hs_history_load (test->book, vehicle, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (history->entries->len, ==, 1);
  entry = g_ptr_array_index (history->entries, 0);
  g_assert_cmpuint (entry->readings->len, ==, 3);
  g_assert_cmpstr (((HsHistoryReading *) g_ptr_array_index (entry->readings, 0))->before, ==, "62.3 dB");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/flooded", test_flooded);
  g_test_add_func ("/judge/agm", test_agm);
  g_test_add_func ("/judge/lithium", test_lithium);
  g_test_add_func ("/judge/nothing-known", test_nothing_known);
  g_test_add_func ("/judge/charge", test_charge);
  g_test_add_func ("/judge/usable-share", test_usable_share);
  g_test_add_func ("/judge/rest-of-the-job", test_rest_of_the_job);
  g_test_add_func ("/judge/later-rest", test_later_rest);
  g_test_add_func ("/judge/battery-of-the-phase", test_battery_of_the_phase);
  g_test_add_func ("/judge/own-limits", test_own_limits);
  g_test_add_func ("/judge/unknown-on-sheet", test_unknown_on_sheet);
  g_test_add_func ("/judge/unknown-elsewhere", test_unknown_elsewhere);
  return g_test_run ();
}
