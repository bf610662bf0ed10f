// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Keying readings: how they are read, what they mean on their vehicle, the sheet, and what is refused. */

#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-reading-row.h"
#include "hs-vehicle-row.h"

#include <math.h>
#include <string.h>

static char *
start (HsOpsTest *test)
{
  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "vehicles",
                         "plate,owner_phone,fuel,battery_kind,battery_ah,battery_cca\n"
                         "TDM 5508,555-0115,gas,flooded,60,540\n",
                         0, 1, 0);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  return hs_job_find (test->book, "A-0001", NULL);
}

static char *
vehicle_of (HsOpsTest *test)
{
  g_autoptr (GPtrArray) vehicles = NULL;

  g_assert_true (hs_vehicle_row_list_by_plate (hs_book_get_store (test->book), "TDM 5508", &vehicles, NULL));
  return g_strdup (((HsVehicleRow *) g_ptr_array_index (vehicles, 0))->id);
}

static HsReadingResult *
key (HsOpsTest *test, const char *job_id, const char *check, const char *keyed, const char *phase)
{
  HsReadingEntry entry = { .check = check, .keyed = keyed, .phase = phase, .at = HS_INSTANT_NONE };
  GError *error = NULL;
  HsReadingResult *result = hs_reading_add (test->book, job_id, &entry, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  g_assert_nonnull (result);
  return result;
}

/* 1 2 4 2 Enter. */
static void
test_number_pad (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (HsReadingResult) result = key (test, id, "battery_rest", "1242", NULL);

  g_assert_cmpstr (result->value_text, ==, "12.42 V");
  g_assert_true (result->has_value);
  g_assert_cmpfloat_with_epsilon (result->value, 12.42, 1e-9);
  g_assert_cmpstr (result->verdict, ==, "within");
  g_assert_cmpstr (result->word, ==, "within");
  g_assert_cmpstr (result->note, ==, "71 %");
  g_assert_cmpstr (result->phase, ==, "before");
  g_assert_cmpstr (result->unit, ==, "V");
  g_assert_cmpint (result->at, ==, HS_OPS_TEST_NOW);
  g_assert_cmpint (hs_ops_test_count (test, "reading"), ==, 1);
}

static void
test_parasitic (void)
{
  static const struct
  {
    const char *keyed;
    const char *verdict;
    const char *note;
  } rows[] = {
    { "0.31", "outside", "3.2 days to no-start" },
    { "0.024", "within", "41.7 days to no-start" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsReadingResult) result = key (test, id, "sleeping_draw", rows[i].keyed, "before");

      g_assert_cmpstr (result->verdict, ==, rows[i].verdict);
      g_assert_cmpstr (result->note, ==, rows[i].note);
    }
}

/* A weak battery is judged by its charge first: flat, it is charged and tested again. */
static void
test_rest_decides (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (HsReadingResult) flat = key (test, id, "battery_rest", "1205", "before");
  g_autoptr (HsReadingResult) first = key (test, id, "battery_strength", "211", "before");
  g_autoptr (HsReadingResult) charged = key (test, id, "battery_rest", "1264", "after");
  g_autoptr (HsReadingResult) again = key (test, id, "battery_strength", "211", "after");

  g_assert_cmpstr (first->verdict, ==, "cannot_tell");
  g_assert_cmpstr (again->verdict, ==, "outside");
  g_assert_cmpstr (flat->verdict, !=, charged->verdict);
}

/* The battery that was on the vehicle counts, not what belongs in it. */
static void
test_battery_of_the_day (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (HsReadingResult) flooded = key (test, id, "battery_rest", "1245", "before");
  g_autoptr (HsReadingResult) agm = NULL;

  hs_ops_test_import_ok (test, "installed",
                         "plate,what,date,battery_kind,ah,cca\nTDM 5508,battery,2025-01-01,AGM,70,760\n", 1, 0, 0);
  agm = key (test, id, "battery_rest", "1245", "before");
  g_assert_cmpstr (flooded->verdict, ==, "within");
  g_assert_cmpstr (agm->verdict, ==, "watch");
}

static void
test_conditions (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autofree char *vehicle_id = vehicle_of (test);
  HsReadingEntry entry = { .check = "battery_rest", .text = "12.60", .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) calm = hs_reading_judge (test->book, vehicle_id, &entry, HS_OPS_TEST_NOW, NULL);
  g_autoptr (HsReadingResult) charged = NULL;
  g_autoptr (HsReadingResult) cold = NULL;

  entry.conditions = "just_charged:yes; in the sun";
  charged = hs_reading_judge (test->book, vehicle_id, &entry, HS_OPS_TEST_NOW, NULL);
  entry.conditions = "temperature: -10";
  entry.text = "11.95";
  cold = hs_reading_judge (test->book, vehicle_id, &entry, HS_OPS_TEST_NOW, NULL);
  g_assert_cmpstr (calm->verdict, ==, "within");
  g_assert_cmpstr (charged->verdict, ==, "cannot_tell");
  g_assert_cmpstr (cold->word, ==, "may be frozen");
  g_assert_cmpint (hs_ops_test_count (test, "reading"), ==, 0);
}

static void
test_own_limits (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (HsCheckOwnRow) own = hs_check_own_row_new ();
  HsStore *store = hs_book_get_store (test->book);
  g_autoptr (HsReadingResult) usual = key (test, id, "charging", "1500", "after");
  g_autoptr (HsReadingResult) result = NULL;

  own->vehicle_id = vehicle_of (test);
  hs_row_set (&own->check_id, "charging");
  hs_row_set (&own->source, "maker's sheet");
  own->low = 1280;
  own->high = 1510;
  g_assert_true (hs_store_begin (store, HS_OPS_TEST_NOW, NULL));
  g_assert_true (hs_store_end (store, hs_check_own_row_save (store, own, NULL), NULL));
  result = key (test, id, "charging", "1500", "after");
  g_assert_cmpstr (usual->verdict, ==, "watch");
  g_assert_cmpstr (result->verdict, ==, "within");
  g_assert_cmpstr (result->source, ==, "maker's sheet");
}

static void
test_kinds_of_reading (void)
{
  static const struct
  {
    const char *check;
    const char *keyed;
    const char *shown;
    gboolean has_value;
  } rows[] = {
    { "glow_plug", "/", "over range", FALSE },
    { "starts_good", "55", "5 of 5", TRUE },
    { "charging_output", "6190", "61 of 90 A", TRUE },
    { "battery_rest", "*", "not measured", FALSE },
    { "sleeping_draw", "22", "0.022 A", TRUE },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsReadingEntry entry = { .check = rows[i].check,
                               .keyed = rows[i].keyed,
                               .why_not = "the post is corroded",
                               .at = HS_INSTANT_NONE };
      g_autoptr (GError) error = NULL;
      g_autoptr (HsReadingResult) result = hs_reading_add (test->book, id, &entry, HS_OPS_TEST_NOW, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (result->value_text, ==, rows[i].shown);
      g_assert_true (result->has_value == rows[i].has_value);
    }
}

/* 124.2 V is asked about once, wherever it is keyed; whoever is sure has it in the book. */
static void
test_sure (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  HsReadingEntry entry = { .check = "battery_rest", .keyed = "12420", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (GError) refused = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_reading_add (test->book, id, &entry, HS_OPS_TEST_NOW, &refused));
  g_assert_nonnull (strstr (refused->message, "124.20 V cannot be, it lies between -20.00 and 16.00"));
  entry.sure = TRUE;
  result = hs_reading_add (test->book, id, &entry, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (result->value_text, ==, "124.20 V");
  entry.keyed = "1.2.4";
  g_assert_null (hs_reading_add (test->book, id, &entry, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (strstr (error->message, "only digits and one point"));
}

static void
test_refused (void)
{
  static const struct
  {
    HsReadingEntry entry;
    const char *said;
  } rows[] = {
    { { .check = "moon_phase", .keyed = "1", .at = HS_INSTANT_NONE }, "moon_phase" },
    { { .check = NULL, .keyed = "1", .at = HS_INSTANT_NONE }, "no check" },
    { { .check = "battery_rest", .keyed = "", .at = HS_INSTANT_NONE }, "" },
    { { .check = "battery_rest", .keyed = "9999", .at = HS_INSTANT_NONE }, "" },
    { { .check = "battery_rest", .keyed = "1242", .unit = "A", .at = HS_INSTANT_NONE }, "is read in V, not in A" },
    { { .check = "battery_rest", .keyed = "1242", .phase = "soon", .at = HS_INSTANT_NONE }, "soon" },
    { { .check = "battery_rest", .keyed = "*", .at = HS_INSTANT_NONE }, "Say why" },
    { { .check = "battery_rest", .text = "twelve", .at = HS_INSTANT_NONE }, "twelve" },
    { { .check = "starts_good", .keyed = "5", .at = HS_INSTANT_NONE }, "" },
    { { .check = "battery_rest", .keyed = "1242", .conditions = "weather:wet", .at = HS_INSTANT_NONE },
      "Conditions: there is no condition “weather”; there are: battery_kind, fuel, temperature" },
    { { .check = "battery_rest", .keyed = "1242", .conditions = "hot; temperature:warm", .at = HS_INSTANT_NONE },
      "Conditions: temperature: “warm” cannot be; it takes -60 to 120 °C." },
    { { .check = "battery_rest", .keyed = "1242", .conditions = "loaded", .at = HS_INSTANT_NONE },
      "Conditions: loaded: write the answer behind a colon" },
    { { .check = "drop", .keyed = "31", .conditions = "place:trunk", .at = HS_INSTANT_NONE }, "Conditions: place: " },
    { { .check = "key_turn", .keyed = "9", .at = HS_INSTANT_NONE }, "Key turned to start: “9” is no answer" },
    { { .check = "key_turn", .text = "over range", .at = HS_INSTANT_NONE }, "“over range” is no answer" },
    { { .check = "key_turn", .keyed = "*", .at = HS_INSTANT_NONE }, "Say why" },
    { { .check = "trouble_codes", .keyed = "P0562 P4133", .at = HS_INSTANT_NONE }, "Trouble codes: " },
    { { .check = "battery_code", .text = "  ", .at = HS_INSTANT_NONE }, "Battery date code: write it down" },
    { { .check = "key_turn", .keyed = "1", .unit = "V", .at = HS_INSTANT_NONE }, "is read in answer, not in V" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_reading_add (test->book, id, &rows[i].entry, HS_OPS_TEST_NOW, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, rows[i].said));
    }
  g_assert_cmpint (hs_ops_test_count (test, "reading"), ==, 0);
}

static void
test_remove (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (HsReadingResult) result = key (test, id, "battery_rest", "1242", "before");
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_reading_remove (test->book, result->id, HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (test, "reading"), ==, 0);
  g_assert_false (hs_reading_remove (test->book, result->id, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (error);
}

/* The group's checks in order, read or not; then whatever else was read. */
static void
test_sheet (void)
{
  static const char *const expected[] = { "battery_rest", "battery_strength", "cranking", "drop_feed",
                                          "drop_ground",  "starter_draw",     "key_turn", "dash_lamps",
                                          "trouble_codes", "glow_plug",       "glow_plug" };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  HsReadingEntry plug = { .check = "glow_plug", .keyed = "/", .place = "plug 3", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) old = key (test, id, "battery_rest", "1100", "before");
  g_autoptr (HsReadingResult) rest = key (test, id, "battery_rest", "1242", "before");
  g_autoptr (HsReadingResult) after = key (test, id, "battery_rest", "1264", "after");
  g_autoptr (HsReadingResult) third = hs_reading_add (test->book, id, &plug, HS_OPS_TEST_NOW, NULL);
  g_autoptr (HsReadingResult) second = NULL;
  g_autoptr (GPtrArray) sheet = NULL;

  plug.place = "plug 2";
  plug.keyed = "0.7";
  second = hs_reading_add (test->book, id, &plug, HS_OPS_TEST_NOW, NULL);
  g_assert_true (hs_job_set_group (test->book, id, "will_not_start", HS_OPS_TEST_NOW, NULL));
  sheet = hs_job_sheet (test->book, id, "before", HS_OPS_TEST_NOW, NULL);
  g_assert_cmpuint (sheet->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (sheet, i);

      g_assert_cmpstr (result->check, ==, expected[i]);
      g_assert_true ((result->value_text != NULL) == (i == 0 || i >= 9));
      g_assert_cmpstr (result->name, !=, "");
      g_assert_cmpstr (result->how, !=, "");
    }
  g_assert_cmpstr (((HsReadingResult *) g_ptr_array_index (sheet, 0))->value_text, ==, "12.42 V");
  g_assert_cmpstr (((HsReadingResult *) g_ptr_array_index (sheet, 9))->place, ==, "plug 3");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading/number-pad", test_number_pad);
  g_test_add_func ("/reading/parasitic", test_parasitic);
  g_test_add_func ("/reading/rest-decides", test_rest_decides);
  g_test_add_func ("/reading/battery-of-the-day", test_battery_of_the_day);
  g_test_add_func ("/reading/conditions", test_conditions);
  g_test_add_func ("/reading/own-limits", test_own_limits);
  g_test_add_func ("/reading/kinds-of-reading", test_kinds_of_reading);
  g_test_add_func ("/reading/sure", test_sure);
  g_test_add_func ("/reading/refused", test_refused);
  g_test_add_func ("/reading/remove", test_remove);
  g_test_add_func ("/reading/sheet", test_sheet);
  return g_test_run ();
}
