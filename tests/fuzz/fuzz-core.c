// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The readers of core against bent text, built with the address and undefined-behavior sanitizers: the number pad, the
 * catalog of checks, positions, and every calculator with its codes, VINs, dates and numbers. Nothing may crash, and
 * what is taken must keep its promises: in range, read back the same, never a number that is not one. */

#include "fuzz-mutate.h"

#include "../core/check-test.h"
#include "../core/reference-test.h"

#include "hs-calc.h"
#include "hs-geo.h"

#include <math.h>

/* What was typed is either refused with a reason, or lies in the check's range and reads back as it was told. */
static void
assert_reading_holds (const HsCheck *check, gboolean taken, const HsReading *reading, const GError *error)
{
  g_autofree char *text = NULL;
  HsReading again = { 0 };

  g_assert_true (taken == (error == NULL));
  if (!taken)
    {
      g_assert_cmpstr (error->message, !=, "");
      return;
    }
  if (reading->kind != HS_READING_VALUE)
    return;
  g_assert_cmpint (reading->value, >=, check->least);
  g_assert_cmpint (reading->value, <=, check->most);
  text = hs_check_format (check, reading);
  g_assert_true (hs_check_parse (check, text, &again, NULL));
  g_assert_cmpint (again.value, ==, reading->value);
  g_assert_cmpint (again.of, ==, reading->of);
}

static void
test_pad (void)
{
  static const char *const typed[] = { "1242", "12.42", "/", "*", "-7", "55", "9.12", "5 of 5", "61/90", "over range" };
  g_autoptr (HsChecks) checks = shipped_checks ();
  g_autoptr (GRand) rand = fuzz_rand_new ();
  const HsCheck *check;

  for (guint round = fuzz_rounds (300); round > 0; round--)
    for (guint i = 0; (check = hs_checks_get_nth (checks, i)) != NULL; i++)
      {
        g_autofree char *text = fuzz_bend (rand, typed[g_rand_int_range (rand, 0, G_N_ELEMENTS (typed))], 3);
        g_autoptr (GError) pad_error = NULL;
        g_autoptr (GError) text_error = NULL;
        HsReading reading = { 0 };
        gboolean taken;

        if (check->entry != HS_CHECK_NUMBER && check->entry != HS_CHECK_PAIR)
          continue;
        taken = hs_check_read_pad (check, text, &reading, &pad_error);
        assert_reading_holds (check, taken, &reading, pad_error);
        taken = hs_check_parse (check, text, &reading, &text_error);
        assert_reading_holds (check, taken, &reading, text_error);
      }
}

/* A catalog that is taken can be judged by from end to end. */
static void
judge_all (HsChecks *checks)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  const HsCheck *check;

  conditions.battery_kind = HS_BATTERY_FLOODED;
  conditions.has_temperature = TRUE;
  conditions.celsius = 4;
  for (guint i = 0; (check = hs_checks_get_nth (checks, i)) != NULL; i++)
    for (guint step = 0; check->entry == HS_CHECK_NUMBER && step < 3; step++)
      {
        HsReading reading = { .kind = HS_READING_VALUE };
        g_auto (HsJudgment) judgment = { 0 };

        reading.value = step == 0 ? check->least : step == 1 ? check->most : check->least / 2 + check->most / 2;
        hs_check_judge (checks, check, &conditions, NULL, &reading, &judgment);
        g_assert_nonnull (judgment.why);
        g_assert_nonnull (judgment.source);
      }
}

static void
test_catalog (void)
{
  g_autoptr (GRand) rand = fuzz_rand_new ();
  g_autofree char *good = NULL;
  guint taken = 0;

  g_assert_true (g_file_get_contents (HS_TEST_CHECKS_INI, &good, NULL, NULL));
  for (guint round = fuzz_rounds (150); round > 0; round--)
    {
      g_autofree char *text = fuzz_bend (rand, good, 2);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (text, -1, &error);

      g_auto (GStrv) changes = NULL;
      g_autoptr (GError) edit_error = NULL;
      g_autoptr (HsChecks) edited = NULL;

      g_assert_true ((checks == NULL) == (error != NULL));
      if (checks != NULL)
        judge_all (checks);
      taken += checks != NULL;
      edited = hs_checks_new_edited (good, strlen (good), text, strlen (text), &changes, &edit_error);
      g_assert_true ((edited == NULL) == (edit_error != NULL));
      g_assert_true ((edited == NULL) == (changes == NULL));
      if (edited != NULL)
        judge_all (edited);
    }
  /* Bent sentences are still sentences: some catalogs must have got as far as the judge. */
  g_assert_cmpuint (taken, >, 0);
}

/* The tables that people write: refused with a reason, or whole. */
static void
test_reference (void)
{
  static const char *const names[] = { "trouble-codes.ini", "mileage.ini", "deposits.ini" };
  g_autoptr (GRand) rand = fuzz_rand_new ();

  for (guint round = fuzz_rounds (150); round > 0; round--)
    for (guint i = 0; i < G_N_ELEMENTS (names); i++)
      {
        g_autoptr (GBytes) good = shipped_table (names[i]);
        g_autofree char *bent = fuzz_bend (rand, g_bytes_get_data (good, NULL), 2);
        g_autoptr (GBytes) bytes = g_bytes_new (bent, strlen (bent));
        HsReferenceTables tables = { 0 };
        g_autoptr (GError) error = NULL;
        g_autoptr (HsReference) reference = NULL;

        *(i == 0 ? &tables.trouble_codes : i == 1 ? &tables.mileage : &tables.deposits) = bytes;
        reference = hs_reference_new (&tables, &error);
        g_assert_true ((reference == NULL) == (error != NULL));
      }
}

static gboolean
is_known_sure (const char *sure)
{
  static const char *const sures[] = {
    HS_SURE_OFFICIAL, HS_SURE_DERIVED, HS_SURE_SECONDARY, HS_SURE_PRACTICE, HS_SURE_MEMORY, NULL,
  };

  return g_strv_contains (sures, sure);
}

static void
assert_result_holds (const HsCalc *calc, const HsCalcResult *result)
{
  if (*hs_calc_result_get_source (result) == '\0' || !is_known_sure (hs_calc_result_get_sure (result)))
    g_error ("%s does not say who says so", calc->name);
  for (guint i = 0; i < hs_calc_result_get_length (result); i++)
    {
      const HsCalcItem *item = hs_calc_result_get_nth (result, i);

      g_assert_true (item->shape != HS_CALC_IS_NUMBER || isfinite (item->number));
      g_assert_nonnull (item->shown);
      g_assert_true (g_utf8_validate (item->shown, -1, NULL));
    }
}

static void
run_bent (const HsCalc *calc, const HsCalcScene *scene, GRand *rand)
{
  g_auto (GStrv) words = g_strsplit (calc->example, " ", -1);
  guint which = (guint) g_rand_int_range (rand, 0, (gint32) g_strv_length (words));
  char *value = strchr (words[which], '=');
  g_autofree char *bent = fuzz_bend (rand, value + 1, 3);
  g_autofree char *key = g_strndup (words[which], (gsize) (value - words[which]));
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCalcResult) result = NULL;

  g_free (words[which]);
  words[which] = g_strdup_printf ("%s=%s", key, bent);
  result = hs_calc_run (calc, scene, (const char *const *) words, &error);
  g_assert_true ((result == NULL) == (error != NULL));
  if (result != NULL)
    assert_result_holds (calc, result);
  else
    g_assert_cmpstr (error->message, !=, "");
}

static void
test_calc (void)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  g_autoptr (GRand) rand = fuzz_rand_new ();
  g_autoptr (HsReference) reference = shipped_reference ();
  HsCalcScene scene = {
    .checks = checks, .reference = reference, .currency = "USD", .today = day ("2026-11-25"),
  };
  const HsCalc *calc;

  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    for (guint round = fuzz_rounds (400); round > 0; round--)
      run_bent (calc, &scene, rand);
}

/* A position that is taken is on the globe, is meant as one, and reads back as the place that it is printed as. */
static void
assert_position_holds (const char *text, const HsGeo *geo)
{
  g_autofree char *shown = hs_geo_format (geo->latitude, geo->longitude);
  g_autofree char *link = hs_geo_format_uri (geo->latitude, geo->longitude);
  HsGeo again, linked;

  g_assert_true (hs_geo_is_meant (text));
  g_assert_true (fabs (geo->latitude) <= 90 && geo->longitude > -180 && geo->longitude <= 180);
  g_assert_true (hs_geo_parse (shown, &again, NULL));
  g_assert_true (hs_geo_parse (link, &linked, NULL));
  g_assert_cmpfloat (fabs (again.latitude - geo->latitude), <=, 0.000006);
  g_assert_cmpfloat (again.latitude, ==, linked.latitude);
  g_assert_cmpfloat (again.longitude, ==, linked.longitude);
}

static void
test_position (void)
{
  static const char *const written[] = {
    "geo:48.2010,16.3695,183",  "geo:66,30;u=6.500;FOo=this%2dthat",      "geo:48.198634,16.371648;crs=wgs84;u=40",
    "40.7128, -74.0060",        "40°42'46\"N 74°0'22\"W",                 "N 40 42 46 W 74 0 22",
    "40° 42.768′ N 74° 0.36′ W", "33.8568 S 151.2153 E", "40:42:46, -74:0:22", "+40.7128-74.006",
  };
  g_autoptr (GRand) rand = fuzz_rand_new ();

  for (guint i = 0; i < G_N_ELEMENTS (written); i++)
    for (guint round = fuzz_rounds (2000); round > 0; round--)
      {
        g_autofree char *text = fuzz_bend (rand, written[i], 3);
        g_autoptr (GError) error = NULL;
        HsGeo geo;
        gboolean taken = hs_geo_parse (text, &geo, &error);

        g_assert_true (taken == (error == NULL));
        if (taken)
          assert_position_holds (text, &geo);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fuzz/pad", test_pad);
  g_test_add_func ("/fuzz/catalog", test_catalog);
  g_test_add_func ("/fuzz/reference", test_reference);
  g_test_add_func ("/fuzz/calc", test_calc);
  g_test_add_func ("/fuzz/position", test_position);
  return g_test_run ();
}
