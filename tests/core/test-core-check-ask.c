// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is still worth asking before a reading is judged: only what a limit that may still apply wants to know, and,
 * with the reading there, only what could change its verdict. */

#include "check-test.h"

#define CHECK "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=1\nleast=0\nmost=20\n"
#define GOOD "bands=within\nwhy1=A.\nsource=We\ntag=memory\n"
#define BAD "bands=outside\nwhy1=B.\nnext1=C.\nsource=We\ntag=memory\n"
#define SPLIT "bands=within 5.0 outside\nwhy1=A.\nwhy2=B.\nsource=We\ntag=memory\n"
#define NOT_VALID "bands=cannot_tell\nwhy1=A.\ninvalid=yes\nsource=We\ntag=memory\n"

static char *
join (GPtrArray *list)
{
  GString *ids = g_string_new (NULL);

  for (guint i = 0; i < list->len; i++)
    g_string_append_printf (ids, "%s%s", i == 0 ? "" : " ", ((const HsCondition *) g_ptr_array_index (list, i))->id);
  return g_string_free (ids, FALSE);
}

static void
assert_wanted (HsChecks *checks, const char *id, const char *known, const HsOwnLimits *own, const char *text,
               const char *expected)
{
  const HsCheck *check = the_check (checks, id);
  HsConditions conditions = HS_CONDITIONS_INIT;
  g_autoptr (GPtrArray) wanted = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *ids = NULL;
  HsReading reading;

  g_assert_true (hs_conditions_put (known, &conditions, &error));
  g_assert_no_error (error);
  g_assert_true (text == NULL || hs_check_parse (check, text, &reading, &error));
  wanted = hs_check_dup_wanted (checks, check, &conditions, own, text == NULL ? NULL : &reading);
  ids = join (wanted);
  if (!g_str_equal (ids, expected))
    g_error ("%s, %s, %s: wants “%s”, not “%s”", id, known, text, ids, expected);
}

static void
test_by_hand (void)
{
  static const struct
  {
    const char *limits;
    const char *known;
    const char *text;
    const char *wanted;
  } rows[] = {
    { "", "", NULL, "" },
    { "[limit a x]\n" GOOD, "", NULL, "" },
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" BAD, "", NULL, "fuel" },
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" BAD, "fuel:gas", NULL, "" },
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" BAD, "fuel:diesel", NULL, "" },
    /* What fails already needs nothing more; what stands behind a limit that applies for certain cannot. */
    { "[limit a x]\nwhen=fuel:gas; loaded:yes\n" GOOD "[limit a y]\n" BAD, "fuel:diesel", NULL, "" },
    { "[limit a x]\nwhen=fuel:gas; loaded:yes\n" GOOD "[limit a y]\n" BAD, "fuel:gas", NULL, "loaded" },
    { "[limit a x]\n" GOOD "[limit a y]\nwhen=fuel:gas\n" BAD, "", NULL, "" },
    { "[limit a x]\nwhen=fuel:unknown\n" GOOD "[limit a y]\nwhen=temperature:1..\n" BAD, "", NULL,
      "fuel temperature" },
    { "[limit a x]\nwhen=fuel:unknown\n" GOOD "[limit a y]\nwhen=temperature:1..\n" BAD, "fuel:gas", NULL,
      "temperature" },
    /* With the reading: whoever says the same does not matter. */
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" SPLIT, "", "4.0", "" },
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" SPLIT, "", "6.0", "fuel" },
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\nwhen=loaded:yes\n" BAD "[limit a z]\n" SPLIT, "", "4.0",
      "loaded" },
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" SPLIT, "", "not measured", "" },
    { "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" SPLIT, "", "over range", "" },
    /* A table by temperature that judges alike in all its rows asks nothing. */
    { "[limit a x]\nwhen=temperature:unknown\nbands=outside 1.0 cannot_tell 5.0 within\nwhy1=A.\nwhy2=B.\nwhy3=C.\n"
      "source=We\ntag=memory\n[limit a y]\nwhen=temperature:0..\nbands=outside step within\nsteps=0 1.0; 20 5.0\n"
      "why1=A.\nwhy2=B.\nsource=We\ntag=memory\n", "", "6.0", "" },
    { "[limit a x]\nwhen=temperature:unknown\nbands=outside 1.0 cannot_tell 5.0 within\nwhy1=A.\nwhy2=B.\nwhy3=C.\n"
      "source=We\ntag=memory\n[limit a y]\nwhen=temperature:0..\nbands=outside step within\nsteps=0 1.0; 20 5.0\n"
      "why1=A.\nwhy2=B.\nsource=We\ntag=memory\n", "", "3.0", "temperature" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strconcat (CHECK, rows[i].limits, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (text, -1, &error);

      g_assert_no_error (error);
      assert_wanted (checks, "a", rows[i].known, NULL, rows[i].text, rows[i].wanted);
    }
}

/* The order is the one of `asks`, then of the conditions themselves. */
static void
test_order (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsChecks) checks = hs_checks_new_from_data (
      CHECK "asks=loaded; fuel\n[limit a x]\nwhen=temperature:1..; fuel:gas; loaded:yes\n" GOOD, -1, &error);
  const HsCheck *check = the_check (checks, "a");

  g_assert_no_error (error);
  g_assert_cmpuint (check->n_asks, ==, 3);
  g_assert_cmpint (check->asks[0], ==, HS_CONDITION_LOADED);
  g_assert_cmpint (check->asks[1], ==, HS_CONDITION_FUEL);
  g_assert_cmpint (check->asks[2], ==, HS_CONDITION_TEMPERATURE);
  assert_wanted (checks, "a", "", NULL, NULL, "loaded fuel temperature");
}

/* A vehicle's own limits need no conditions, but for whether the test is valid at all. */
static void
test_own (void)
{
  static const HsOwnLimits own = { TRUE, 50, FALSE, 0, "we", HS_LIMIT_OWNER };
  g_autoptr (HsChecks) checks = hs_checks_new_from_data (
      CHECK "[limit a n]\nwhen=loaded:no\n" NOT_VALID "[limit a x]\nwhen=fuel:gas\n" GOOD "[limit a y]\n" BAD, -1,
      NULL);
  static const HsConditions idle = { .battery_kind = HS_BATTERY_UNKNOWN, .loaded = HS_NO };
  static const HsConditions busy = { .battery_kind = HS_BATTERY_UNKNOWN, .loaded = HS_YES };
  g_auto (HsJudgment) not_valid = { 0 };
  g_auto (HsJudgment) valid = { 0 };

  assert_wanted (checks, "a", "", NULL, NULL, "fuel loaded");
  assert_wanted (checks, "a", "", &own, NULL, "loaded");
  assert_wanted (checks, "a", "", &own, "6.0", "loaded");
  assert_wanted (checks, "a", "loaded:yes", &own, NULL, "");
  judge_text (checks, "a", "6.0", &idle, &own, &not_valid);
  judge_text (checks, "a", "6.0", &busy, &own, &valid);
  g_assert_cmpint (not_valid.verdict, ==, HS_VERDICT_CANNOT_TELL);
  g_assert_cmpint (not_valid.whose, ==, HS_LIMIT_CATALOG);
  g_assert_cmpint (valid.verdict, ==, HS_VERDICT_WITHIN);
  g_assert_cmpint (valid.whose, ==, HS_LIMIT_OWNER);
}

/* The shipped catalog. */
static void
test_shipped (void)
{
  static const HsOwnLimits own = { TRUE, 400, FALSE, 0, "we", HS_LIMIT_MAKER };
  static const struct
  {
    const char *check;
    const char *known;
    const char *text;
    const char *wanted;
  } rows[] = {
    { "drop", "loaded:yes", NULL, "place fuel" },
    { "drop", "loaded:yes; place:ground", NULL, "" },
    { "drop", "loaded:yes; place:starter-negative", NULL, "fuel" },
    { "drop", "loaded:yes; place:starter-negative", "0.10", "" },
    { "drop", "loaded:yes; place:starter-negative", "0.30", "fuel" },
    { "load_test", "rest:12.6", "9.20", "temperature" },
    /* From -19 °C down the table has ended, whatever was read. */
    { "load_test", "rest:12.6", "9.60", "temperature" },
    { "load_test", "rest:12.6", "8.40", "temperature" },
    { "load_test", "rest:12.6; temperature:21", NULL, "" },
    { "load_test", "rest:12.2", NULL, "" },
    { "battery_strength", "rest:12.6; battery_kind:AGM", NULL, "rated_cca" },
    { "battery_strength", "rest:12.6; battery_kind:AGM; rated_cca:540", "400", "" },
    { "tread", "", "2.0", "heavy" },
    { "tread", "", "3.5", "" },
    { "tread", "", "1.0", "" },
    { "starter_draw", "fuel:gas", "160", "" },
    { "starter_draw", "fuel:gas", "260", "cylinders" },
    { "starter_draw", "fuel:diesel", NULL, "" },
    { "ripple", "", "0.20", "meter_at" },
    { "ripple", "", "0.07", "" },
    { "sleeping_draw", "", "0.310", "waited" },
    { "sleeping_draw", "", "0.024", "" },
    { "rotor_thickness", "", NULL, "" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();
  const HsCheck *check;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_wanted (checks, rows[i].check, rows[i].known, NULL, rows[i].text, rows[i].wanted);
  assert_wanted (checks, "battery_strength", "rest:12.6", &own, NULL, "");
  for (guint i = 0; (check = hs_checks_get_nth (checks, i)) != NULL; i++)
    assert_wanted (checks, check->id,
                   "battery_kind:AGM; fuel:gas; temperature:20; rest:12.6; just_charged:no; full_charge:no;"
                   "smart_charging:no; loaded:yes; place:cable; rated_cca:540; cylinders:4; engine:raised;"
                   "meter_at:battery; waited:90; heavy:no; brake_fluid:DOT4; coolant:EG", NULL, NULL, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-ask/by-hand", test_by_hand);
  g_test_add_func ("/check-ask/order", test_order);
  g_test_add_func ("/check-ask/own", test_own);
  g_test_add_func ("/check-ask/shipped", test_shipped);
  return g_test_run ();
}
