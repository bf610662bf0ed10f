// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The frame that every calculator stands in, tried on one made for the test: what it takes, what it refuses and in
 * which words, how results are kept; and, over all that are shipped, that each says who says so. */

#include "check-test.h"
#include "core-test.h"

#include "hs-calc.h"

#include <math.h>

static const HsCalcKey trial_keys[] = {
  { .id = "volts", .label = "Volts", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2, .least = 0, .most = 20,
    .below = "leads swapped: stop" },
  { .id = "share", .label = "Share", .kind = HS_CALC_NUMBER, .least = 0.1, .most = 1, .usual = "0.4" },
  { .id = "kind", .label = "Kind", .kind = HS_CALC_CHOICE, .choices = "flooded|AGM", .optional = TRUE },
  { .id = "cells", .label = "Cells", .kind = HS_CALC_NUMBERS, .least = 1, .most = 2, .optional = TRUE },
  { .id = "cost", .label = "Cost", .kind = HS_CALC_MONEY, .least = 0, .most = 1000, .optional = TRUE },
  { .id = "amounts", .label = "Amounts", .kind = HS_CALC_AMOUNTS, .least = -10, .most = 10, .optional = TRUE },
  { .id = "on", .label = "On", .kind = HS_CALC_DATE, .usual = "today" },
  { .id = "code", .label = "Code", .kind = HS_CALC_TEXT, .optional = TRUE },
  { .id = "mm", .label = "Millimeters", .kind = HS_CALC_NUMBER, .least = 0, .most = 9, .either = 1 },
  { .id = "inch", .label = "Inches", .kind = HS_CALC_NUMBER, .least = 0, .most = 9, .either = 1 },
  { .id = NULL },
};

/* Gives back what it was given, so that the frame's reading and writing is seen. */
static gboolean
trial_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  gsize n_cells, n_amounts;
  const double *cells = hs_calc_numbers (input, "cells", &n_cells);
  const gint64 *amounts = hs_calc_scaled_list (input, "amounts", &n_amounts);
  HsConditions conditions = HS_CONDITIONS_INIT;

  hs_calc_put_number (result, "volts", "Volts", hs_calc_number (input, "volts"), "V", 2);
  hs_calc_put_integer (result, "exact", "Exact", hs_calc_scaled (input, "volts"), NULL);
  hs_calc_put_number (result, "share", "Share", hs_calc_number (input, "share"), NULL, 1);
  hs_calc_put_integer (result, "kind", "Kind", hs_calc_choice (input, "kind"), NULL);
  hs_calc_put_number (result, "last_cell", "Last cell", n_cells > 0 ? cells[n_cells - 1] : NAN, NULL, 3);
  hs_calc_put_money (result, "cost", "Cost", hs_calc_scaled (input, "cost"));
  hs_calc_put_integers (result, "amounts", "Amounts", amounts, n_amounts);
  hs_calc_put_date (result, "on", "On", hs_calc_date (input, "on"));
  hs_calc_put_text (result, "code", "Code", hs_calc_text (input, "code"));
  hs_calc_put_boolean (result, "metric", "Metric", hs_calc_has (input, "mm"));
  hs_calc_judge (scene, result, "ripple", hs_calc_number (input, "volts"), &conditions);
  if (g_strcmp0 (hs_calc_text (input, "code"), "no") == 0)
    {
      g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "code: there is no such code.");
      return FALSE;
    }
  return TRUE;
}

static const HsCalc trial = {
  .name = "trial", .title = "Trial", .subject = "Trial", .help = "Gives back what it is given.",
  .example = "volts=1 mm=2", .keys = trial_keys, .run = trial_run,
};

static HsCalcScene
scene_of (HsChecks *checks)
{
  return (HsCalcScene) { .checks = checks, .currency = "USD", .today = day ("2026-11-25") };
}

static HsCalcResult *
run (const char *line, GError **error)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  HsCalcScene scene = scene_of (checks);
  g_auto (GStrv) words = g_strsplit (line, " ", -1);

  return hs_calc_run (&trial, &scene, (const char *const *) words, error);
}

static void
test_taken (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCalcResult) result =
    run ("volts=12.345678901 kind=agm cells=1.265,1.26 cost=37.4 amounts=1.00,-2.5 mm=0.5 code=x", &error);
  HsVerdict verdict;

  g_assert_no_error (error);
  g_assert_cmpfloat (hs_calc_result_lookup (result, "volts")->number, ==, 12.345678901);
  g_assert_cmpstr (hs_calc_result_lookup (result, "volts")->shown, ==, "12.35 V");
  g_assert_cmpint (hs_calc_result_lookup (result, "exact")->integer, ==, 12345678901);
  g_assert_cmpfloat (hs_calc_result_lookup (result, "share")->number, ==, 0.4);
  g_assert_cmpint (hs_calc_result_lookup (result, "kind")->integer, ==, 1);
  g_assert_cmpfloat (hs_calc_result_lookup (result, "last_cell")->number, ==, 1.26);
  g_assert_cmpint (hs_calc_result_lookup (result, "cost")->integer, ==, 3740);
  g_assert_cmpstr (hs_calc_result_lookup (result, "cost")->shown, ==, "37.40");
  g_assert_cmpstr (hs_calc_result_lookup (result, "amounts")->shown, ==, "100, -250");
  g_assert_cmpstr (hs_calc_result_lookup (result, "on")->shown, ==, "2026-11-25");
  g_assert_cmpstr (hs_calc_result_lookup (result, "code")->texts[0], ==, "x");
  g_assert_cmpint (hs_calc_result_lookup (result, "metric")->integer, ==, 1);
  g_assert_true (hs_calc_result_get_verdict (result, &verdict));
  g_assert_cmpint (verdict, ==, HS_VERDICT_OUTSIDE);
  g_assert_null (hs_calc_result_lookup (result, "no such result"));
}

static void
test_left_out (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCalcResult) result = run ("volts=0.05 inch=1 kind= on=2026-01-02", &error);

  g_assert_no_error (error);
  g_assert_cmpint (hs_calc_result_lookup (result, "kind")->integer, ==, -1);
  g_assert_cmpint (hs_calc_result_lookup (result, "last_cell")->shape, ==, HS_CALC_IS_NONE);
  g_assert_cmpstr (hs_calc_result_lookup (result, "last_cell")->shown, ==, "–");
  g_assert_cmpint (hs_calc_result_lookup (result, "code")->shape, ==, HS_CALC_IS_NONE);
  g_assert_cmpint (hs_calc_result_lookup (result, "metric")->integer, ==, 0);
  g_assert_cmpstr (hs_calc_result_lookup (result, "on")->shown, ==, "2026-01-02");
}

/* What is refused, and the words that must be in the reason. */
static const struct
{
  const char *line;
  HsCoreError code;
  const char *words;
} refused[] = {
  { "mm=1", HS_CORE_ERROR_REFUSED, "volts is missing" },
  { "volts= mm=1", HS_CORE_ERROR_REFUSED, "volts is missing" },
  { "volts=1", HS_CORE_ERROR_REFUSED, "One of these is missing: mm, inch." },
  { "volts=1 mm=1 inch=1", HS_CORE_ERROR_REFUSED, "only one of mm, inch" },
  { "volts=1 volts=2 mm=1", HS_CORE_ERROR_REFUSED, "volts is given twice" },
  { "volt=1 mm=1", HS_CORE_ERROR_REFUSED, "Its keys are volts, share" },
  { "12.4 mm=1", HS_CORE_ERROR_REFUSED, "is no key=value" },
  { "volts=12,4 mm=1", HS_CORE_ERROR_BAD_VALUE, "write a point" },
  { "volts=12,4 mm=1", HS_CORE_ERROR_BAD_VALUE, "It takes 0 to 20 V." },
  { "volts=1e1 mm=1", HS_CORE_ERROR_BAD_VALUE, "exponent" },
  { "volts=1e999 mm=1", HS_CORE_ERROR_BAD_VALUE, "exponent" },
  { "volts=nan mm=1", HS_CORE_ERROR_BAD_VALUE, "volts: " },
  { "volts=inf mm=1", HS_CORE_ERROR_BAD_VALUE, "volts: " },
  { "volts=12V mm=1", HS_CORE_ERROR_BAD_VALUE, "volts: " },
  { "volts=12400 mm=1", HS_CORE_ERROR_BAD_VALUE, "12400 is out of range. It takes 0 to 20 V." },
  { "volts=-0.1 mm=1", HS_CORE_ERROR_BAD_VALUE, "leads swapped: stop" },
  { "volts=99999999999999999999 mm=1", HS_CORE_ERROR_BAD_VALUE, "too large" },
  { "volts=1 mm=1 share=0.05", HS_CORE_ERROR_BAD_VALUE, "share: 0.05 is out of range. It takes 0.1 to 1." },
  { "volts=1 mm=1 kind=gel", HS_CORE_ERROR_BAD_VALUE, "none of flooded, AGM" },
  { "volts=1 mm=1 cells=1.2,,1.3", HS_CORE_ERROR_BAD_VALUE, "cells: " },
  { "volts=1 mm=1 cells=1.2,3", HS_CORE_ERROR_BAD_VALUE, "numbers with commas between, each 1 to 2" },
  { "volts=1 mm=1 cost=1.005", HS_CORE_ERROR_BAD_VALUE, "only 2 decimals" },
  { "volts=1 mm=1 cost=-1", HS_CORE_ERROR_BAD_VALUE, "out of range" },
  { "volts=1 mm=1 on=2026-02-30", HS_CORE_ERROR_BAD_VALUE, "on: " },
  { "volts=1 mm=1 on=25.11.2026", HS_CORE_ERROR_BAD_VALUE, "on: " },
  { "volts=1 mm=1 code=no", HS_CORE_ERROR_BAD_VALUE, "no such code" },
};

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCalcResult) result = run (refused[i].line, &error);

      assert_refused (result != NULL, &error, refused[i].code, refused[i].words);
    }
}

/* The number pad has no point in the right place and no comma: the key's decimals and any sign between will do. */
static void
test_typed (void)
{
  static const struct
  {
    const char *key;
    const char *typed;
    const char *text;
  } rows[] = {
    { "volts", "1242", "12.42" },
    { "volts", "12.4", "12.4" },
    { "volts", "5", "0.05" },
    { "volts", "42", "0.42" },
    { "volts", "-5", "-0.05" },
    { "volts", "", "" },
    { "volts", " 1242 ", "12.42" },
    { "volts", "12,4", "12,4" },
    { "volts", "12V", "12V" },
    { "share", "1", "1" },
    { "code", "1242", "1242" },
    { "cells", "1.2/1.3", "1.2,1.3" },
    { "cells", "1.2+1.3", "1.2,1.3" },
    { "cells", "1.2 , 1.3", "1.2,1.3" },
    { "cells", "1.2;", "1.2" },
    { "volts", "9999999999999", "9999999999999" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_calc_key_dup_typed (hs_calc_find_key (&trial, rows[i].key), rows[i].typed);

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

/* A currency has its own decimals: ISO 4217 gives the yen none and the Bahraini dinar three. */
static void
test_currency (void)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  HsCalcScene scene = scene_of (checks);
  g_autoptr (GError) error = NULL;
  const char *const yen[] = { "volts=1", "mm=1", "cost=12.5", NULL };
  const char *const dinar[] = { "volts=1", "mm=1", "cost=1.234", NULL };
  g_autoptr (HsCalcResult) result = NULL;

  scene.currency = "JPY";
  assert_bad_value (hs_calc_run (&trial, &scene, yen, &error) != NULL, &error, "cost: ");
  scene.currency = "BHD";
  result = hs_calc_run (&trial, &scene, dinar, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_calc_result_lookup (result, "cost")->integer, ==, 1234);
}

/* A limit is not moved by rounding to what a meter shows: 0.1004 V of ripple is over 0.10 V. */
static void
test_judged_unrounded (void)
{
  static const struct
  {
    const char *line;
    HsVerdict verdict;
  } rows[] = {
    { "volts=0.1 mm=1", HS_VERDICT_WITHIN },  { "volts=0.1004 mm=1", HS_VERDICT_WATCH },
    { "volts=0.5 mm=1", HS_VERDICT_WATCH },   { "volts=0.500000001 mm=1", HS_VERDICT_OUTSIDE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCalcResult) result = run (rows[i].line, &error);
      HsVerdict verdict;

      g_assert_no_error (error);
      g_assert_true (hs_calc_result_get_verdict (result, &verdict));
      g_assert_cmpint (verdict, ==, rows[i].verdict);
      g_assert_cmpstr (hs_calc_result_get_limit (result), ==, "0.10 V AC or less");
    }
}

static gboolean
cites_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
           GError **error G_GNUC_UNUSED)
{
  g_assert_true (hs_calc_has (input, "mm"));
  hs_calc_cite (result, "Table 2", HS_SURE_OFFICIAL);
  hs_calc_cite (result, "a datasheet", HS_SURE_MEMORY);
  hs_calc_cite (result, "Table 2", HS_SURE_SECONDARY);
  hs_calc_say (result, "It is %d.", 1);
  hs_calc_say (result, "It stays so.");
  hs_calc_advise (result, "Look again.");
  return TRUE;
}

/* Of several sources each is told once, and the least sure of them counts. */
static void
test_cites (void)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  HsCalcScene scene = scene_of (checks);
  HsCalc cites = trial;
  const char *const words[] = { "volts=1", "mm=1", NULL };
  g_autoptr (HsCalcResult) result = NULL;

  cites.run = cites_run;
  result = hs_calc_run (&cites, &scene, words, NULL);
  g_assert_cmpstr (hs_calc_result_get_source (result), ==, "Table 2; a datasheet");
  g_assert_cmpstr (hs_calc_result_get_sure (result), ==, "memory");
  g_assert_cmpstr (hs_calc_result_get_because (result), ==, "It is 1. It stays so.");
  g_assert_cmpstr (hs_calc_result_get_next (result), ==, "Look again.");
  g_assert_false (hs_calc_result_get_verdict (result, NULL));
}

static void
assert_key_whole (const HsCalc *calc, const HsCalcKey *key)
{
  g_autofree char *range = hs_calc_key_dup_range (key);

  g_test_message ("%s %s", calc->name, key->id);
  g_assert_true (key->label != NULL && *key->label != '\0' && *range != '\0');
  g_assert_true (hs_calc_find_key (calc, key->id) == key);
  g_assert_true (key->kind != HS_CALC_CHOICE || key->choices != NULL);
  g_assert_true (key->either == 0 || key->usual == NULL);
  if (key->kind <= HS_CALC_AMOUNTS)
    g_assert_cmpfloat (key->least, <, key->most);
}

/* Whatever is shipped has its words, keys of its own and, where its reading can be stored, a check that exists. */
static void
test_shipped_whole (void)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  const HsCalc *calc;

  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    {
      g_assert_true (hs_calc_lookup (calc->name) == calc);
      g_assert_true (calc->title != NULL && calc->subject != NULL && calc->help != NULL && calc->example != NULL);
      g_assert_true (g_str_has_suffix (calc->help, "."));
      g_assert_true ((calc->check == NULL) == (calc->check_key == NULL));
      g_assert_true (calc->check == NULL || hs_checks_lookup (checks, calc->check) != NULL);
      g_assert_true (calc->check_key == NULL || hs_calc_find_key (calc, calc->check_key) != NULL);
      for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
        assert_key_whole (calc, key);
    }
  g_assert_null (hs_calc_lookup ("no such calculator"));
}

/* Work that can hurt says so before the meter goes on: each of these has its reason in a manual or in practice. */
static void
test_cautions (void)
{
  static const struct
  {
    const char *name, *words;
  } rows[] = {
    { "charge", "Eye protection" },      { "gravity", "gloves" },
    { "cells", "gloves" },               { "load", "frozen, cracked or leaking" },
    { "freezing", "Never charge or jump a frozen" },
    { "charging", "Never unplug" },      { "setpoint", "smells of sulfur" },
    { "setpoint", "Lithium" },           { "ripple", "belt and fan" },
    { "ripple", "closed garage" },       { "parasitic", "ammeter in series" },
    { "parasitic", "Keys outside" },     { "tray", "Rings off" },
    { "fuseopen", "short behind a main fuse" },
    { "drop", "Parking brake" },         { "drop", "Rings" },
    { "surge", "override" },             { "surge", "24 V" },
    { "starter", "cool 2 min" },         { "starter", "ammeter in series" },
    { "alternator", "closed garage" },   { "compression", "no oil into it" },
    { "compression", "goes through skin" },
    { "cooling", "Never open it hot" },  { "cooling", "Fans may start" },
    { "coolant", "poison" },             { "pads", "Pump the pedal" },
    { "brakefluid", "hot" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCalc *calc = hs_calc_lookup (rows[i].name);

      g_test_message ("%s: %s", rows[i].name, rows[i].words);
      g_assert_nonnull (calc);
      g_assert_nonnull (calc->caution);
      g_assert_nonnull (strstr (calc->caution, rows[i].words));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc/taken", test_taken);
  g_test_add_func ("/calc/left-out", test_left_out);
  g_test_add_func ("/calc/refused", test_refused);
  g_test_add_func ("/calc/typed", test_typed);
  g_test_add_func ("/calc/currency", test_currency);
  g_test_add_func ("/calc/judged-unrounded", test_judged_unrounded);
  g_test_add_func ("/calc/cites", test_cites);
  g_test_add_func ("/calc/shipped-whole", test_shipped_whole);
  g_test_add_func ("/calc/cautions", test_cautions);
  return g_test_run ();
}
