// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A reading as it is typed with one hand, and as it stands in a file. */

#include "check-test.h"

static void
test_pad (void)
{
  static const struct
  {
    const char *check;
    const char *keys;
    HsReadingKind kind;
    gint64 value;
    gint64 of;
    const char *text;
  } rows[] = {
    /* 1, 2, 4, 2, Enter on a volts field stores 12.42 V. */
    { "battery_rest", "1242", HS_READING_VALUE, 1242, 0, "12.42" },
    { "battery_rest", "12.42", HS_READING_VALUE, 1242, 0, "12.42" },
    { "battery_rest", "12.4", HS_READING_VALUE, 1240, 0, "12.40" },
    { "battery_rest", "12.", HS_READING_VALUE, 1200, 0, "12.00" },
    { "drop_feed", ".4", HS_READING_VALUE, 40, 0, "0.40" },
    { "drop_feed", "5", HS_READING_VALUE, 5, 0, "0.05" },
    { "drop_feed", "0", HS_READING_VALUE, 0, 0, "0.00" },
    { "battery_rest", " 1242 ", HS_READING_VALUE, 1242, 0, "12.42" },
    { "coolant_freeze", "-12", HS_READING_VALUE, -12, 0, "-12" },
    { "battery_rest", "/", HS_READING_OVER_RANGE, 0, 0, "over range" },
    { "battery_rest", "*", HS_READING_NOT_MEASURED, 0, 0, "not measured" },
    { "battery_rest", "over range", HS_READING_OVER_RANGE, 0, 0, "over range" },
    { "battery_rest", " Not measured", HS_READING_NOT_MEASURED, 0, 0, "not measured" },
    { "starts_good", "9 of 12", HS_READING_VALUE, 9, 12, "9 of 12" },
    { "battery_strength", "430", HS_READING_VALUE, 430, 0, "430" },
    { "sleeping_draw", "310", HS_READING_VALUE, 310, 0, "0.310" },
    { "sleeping_draw", "24", HS_READING_VALUE, 24, 0, "0.024" },
    { "sleeping_draw", "0.31", HS_READING_VALUE, 310, 0, "0.310" },
    { "pad_left", "11", HS_READING_VALUE, 11, 0, "1.1" },
    { "fuel_water", "180", HS_READING_VALUE, 180, 0, "180" },
    { "glow_plug", "/", HS_READING_OVER_RANGE, 0, 0, "over range" },
    { "starts_good", "55", HS_READING_VALUE, 5, 5, "5 of 5" },
    { "starts_good", "1212", HS_READING_VALUE, 12, 12, "12 of 12" },
    { "starts_good", "9.12", HS_READING_VALUE, 9, 12, "9 of 12" },
    { "starts_good", "11", HS_READING_VALUE, 1, 1, "1 of 1" },
    { "starts_good", "05", HS_READING_VALUE, 0, 5, "0 of 5" },
    { "starts_good", "*", HS_READING_NOT_MEASURED, 0, 0, "not measured" },
    { "charging_output", "6190", HS_READING_VALUE, 61, 90, "61 of 90" },
    { "charging_output", "84.120", HS_READING_VALUE, 84, 120, "84 of 120" },
    { "volts_through", "11901262", HS_READING_VALUE, 1190, 1262, "11.90 of 12.62" },
    { "volts_through", "11.90 of 12.62", HS_READING_VALUE, 1190, 1262, "11.90 of 12.62" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheck *check = the_check (checks, rows[i].check);
      HsReading reading = { 0 };
      HsReading back = { 0 };
      g_autofree char *text = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_check_read_pad (check, rows[i].keys, &reading, &error));
      g_assert_no_error (error);
      g_assert_cmpint (reading.kind, ==, rows[i].kind);
      g_assert_cmpint (reading.value, ==, rows[i].value);
      g_assert_cmpint (reading.of, ==, rows[i].of);
      text = hs_check_format (check, &reading);
      g_assert_cmpstr (text, ==, rows[i].text);
      g_assert_true (hs_check_parse (check, text, &back, &error));
      g_assert_cmpint (back.kind, ==, reading.kind);
      g_assert_cmpint (back.value, ==, reading.value);
      g_assert_cmpint (back.of, ==, reading.of);
    }
}

static void
test_pad_refuses (void)
{
  static const struct
  {
    const char *check;
    const char *keys;
    const char *words;
  } rows[] = {
    { "battery_rest", "", "nothing is written here" },
    { "battery_rest", "12420", "Battery at rest: 124.20 V cannot be, it lies between -20.00 and 16.00" },
    { "battery_rest", "-2001", "-20.01 V cannot be" },
    { "battery_rest", "126", "Battery at rest: 1.26 V is hardly ever so low, it is 6.00 or more. Type it again" },
    { "battery_rest", "-12.42", "-12.42 V is hardly ever so low" },
    { "charging", "142", "1.42 V is hardly ever so low, it is 6.00 or more" },
    { "battery_rest", "12.425", "only 2 decimals" },
    { "battery_rest", "12.4.2", "only digits and one point" },
    { "battery_rest", "12,42", "write a point" },
    { "battery_rest", "//", "only digits and one point" },
    { "battery_rest", "*1", "only digits and one point" },
    { "battery_rest", "12 4", "only digits and one point" },
    { "battery_rest", "99999999999999999999", "too large" },
    { "cranking", "-1", "-0.01 V cannot be, it lies between 0.00" },
    { "wheel_nuts", "0", "0 N·m cannot be, it lies between 20 and 800" },
    { "starts_good", "", "type both numbers" },
    { "starts_good", "5", "type both numbers" },
    { "starts_good", "555", "type both numbers" },
    { "starts_good", "5-5", "type both numbers" },
    { "starts_good", "65", "the first number is part of the second" },
    { "starts_good", "00", "the first number is part of the second" },
    { "starts_good", "5.", "nothing is written here" },
    { "starts_good", ".5", "nothing is written here" },
    { "starts_good", "5.100", "100 count cannot be" },
    { "starts_good", "-5.5", "cannot be" },
    { "charging_output", "1.2.3", "only whole numbers" },
    { "volts_through", "11.901262", "type both numbers without points" },
    { "volts_through", "9981003", "11901262 for 11.90 of 12.62" },
    { "volts_through", "12621190", "the first number is part of the second" },
    { "volts_through", "11902262", "it lies between 0.00 and 16.00" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsReading reading = { HS_READING_OVER_RANGE, 4711, 4711 };
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_check_read_pad (the_check (checks, rows[i].check), rows[i].keys, &reading, &error), &error,
                        rows[i].words);
      g_assert_cmpint (reading.kind, ==, HS_READING_OVER_RANGE);
      g_assert_cmpint (reading.value, ==, 4711);
      g_assert_cmpint (reading.of, ==, 4711);
    }
}

/* Whoever was asked about a slip and keeps it has it read as it was keyed, with a point or without; what is no reading
 * at all stays refused. 999999999 is the most that nine digits can be. */
static void
test_pad_sure (void)
{
  static const struct
  {
    const char *check;
    const char *keys;
    const char *text; /* NULL: refused */
    const char *words;
  } rows[] = {
    { "battery_rest", "124.2", "124.20", "124.20 V cannot be" },
    { "battery_rest", "12420", "124.20", "124.20 V cannot be" },
    { "battery_rest", "58.", "58.00", "58.00 V cannot be" },
    { "battery_rest", "126", "1.26", "1.26 V is hardly ever so low" },
    { "battery_rest", "-1242", "-12.42", "-12.42 V is hardly ever so low" },
    { "battery_rest", "-2001", "-20.01", "-20.01 V cannot be" },
    { "fluid_boiling", "900", "900", "900 °C cannot be" },
    { "coolant_freeze", "37", "37", "37 °C cannot be" },
    { "starts_good", "5.100", "5 of 100", "100 count cannot be" },
    { "volts_through", "11902262", "11.90 of 22.62", "22.62 V cannot be" },
    { "cranking", "999999999", "9999999.99", "9999999.99 V cannot be" },
    { "cranking", "1000000000", NULL, "no more than 9 digits are kept" },
    { "cranking", "12.425", NULL, "only 2 decimals" },
    { "starts_good", "65", NULL, "the first number is part of the second" },
    { "key_turn", "9", NULL, "“9” is no answer" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheck *check = the_check (checks, rows[i].check);
      HsReading reading = { HS_READING_OVER_RANGE, 4711, 4711 };
      g_autofree char *text = NULL;
      g_autoptr (GError) unasked = NULL;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_check_read_pad (check, rows[i].keys, &reading, &unasked), &unasked, rows[i].words);
      if (rows[i].text == NULL)
        {
          assert_bad_value (hs_check_read_pad_sure (check, rows[i].keys, &reading, &error), &error, rows[i].words);
          g_assert_cmpint (reading.value, ==, 4711);
          continue;
        }
      g_assert_true (hs_check_read_pad_sure (check, rows[i].keys, &reading, &error));
      text = hs_check_format (check, &reading);
      g_assert_cmpstr (text, ==, rows[i].text);
      g_assert_false (hs_check_is_likely (check, &reading));
    }
}

/* A point too few or too many, another unit, a digit twice: such a slip is asked about, an odd reading of a vehicle
 * that is broken is not. */
static void
test_slips (void)
{
  static const struct
  {
    const char *check;
    const char *odd;
    const char *slip;
  } rows[] = {
    { "battery_rest", "690", "126" },
    { "battery_rest", "1048", "12600" },
    { "battery_rest", "1580", "1860" },
    { "battery_strength", "62", "48" },
    { "battery_strength", "1450", "5600" },
    { "battery_case_drain", "640", "4000" },
    { "load_test", "31", "1400" },
    { "bounce_back", "420", "1420" },
    { "bounce_back", "420", "124" },
    { "cranking", "1190", "9600" },
    { "cranking", "310", "104" },
    { "starter_draw", "1100", "1640" },
    { "charging", "920", "14200" },
    { "charging", "1710", "1840" },
    { "charging", "920", "142" },
    { "fob_cell", "180", "30" },
    { "ripple", "110", "900" },
    { "sleeping_draw", "4400", "31." },
    { "sleeping_draw", "440", "31000" },
    { "draw_unplugged", "31", "31." },
    { "draw_by_fuse", "22", "22." },
    { "key_off_volts", "1260", "12600" },
    { "relay_feed", "1260", "12600" },
    { "relay_drop", "260", "2600" },
    { "volts_through", "11901262", "11901690" },
    { "rotor_thickness", "890", "221" },
    { "rotor_thickness", "4200", "22100" },
    { "rotor_runout", "45", "120" },
    { "brake_fluid", "62", "310" },
    { "tread", "186", "210" },
    { "tread_uneven", "62", "320" },
    { "tire_age", "224", "2019." },
    { "wheel_nuts", "25", "11" },
    { "wheel_nuts", "650", "1100" },
    { "fuel_water", "750", "1800" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheck *check = the_check (checks, rows[i].check);
      HsReading odd = { 0 }, slip = { 0 };

      g_assert_true (hs_check_read_pad_sure (check, rows[i].odd, &odd, NULL));
      g_assert_true (hs_check_read_pad_sure (check, rows[i].slip, &slip, NULL));
      if (!hs_check_is_likely (check, &odd) || hs_check_is_likely (check, &slip))
        g_error ("%s: %s is to be likely, %s is not", rows[i].check, rows[i].odd, rows[i].slip);
    }
}

/* On the ends of what is likely, and a step behind them. */
static void
test_likely (void)
{
  static const struct
  {
    const char *check;
    HsReading reading;
    gboolean likely;
  } rows[] = {
    { "battery_rest", { HS_READING_VALUE, 1600, 0, 0 }, TRUE },
    { "battery_rest", { HS_READING_VALUE, 1601, 0, 0 }, FALSE },
    { "battery_rest", { HS_READING_VALUE, 600, 0, 0 }, TRUE },
    { "battery_rest", { HS_READING_VALUE, 599, 0, 0 }, FALSE },
    { "battery_rest", { HS_READING_VALUE, -1242, 0, 0 }, FALSE },
    { "bounce_back", { HS_READING_VALUE, 200, 0, 0 }, TRUE },
    { "bounce_back", { HS_READING_VALUE, 199, 0, 0 }, FALSE },
    { "cranking", { HS_READING_VALUE, 200, 0, 0 }, TRUE },
    { "cranking", { HS_READING_VALUE, 199, 0, 0 }, FALSE },
    { "charging", { HS_READING_VALUE, 600, 0, 0 }, TRUE },
    { "charging", { HS_READING_VALUE, 599, 0, 0 }, FALSE },
    { "fob_cell", { HS_READING_VALUE, 100, 0, 0 }, TRUE },
    { "fob_cell", { HS_READING_VALUE, 99, 0, 0 }, FALSE },
    { "battery_rest", { HS_READING_OVER_RANGE, 0, 0, 0 }, TRUE },
    { "wheel_nuts", { HS_READING_NOT_MEASURED, 0, 0, 0 }, TRUE },
    { "starts_good", { HS_READING_VALUE, 5, 99, 0 }, TRUE },
    { "starts_good", { HS_READING_VALUE, 5, 100, 0 }, FALSE },
    { "key_turn", { HS_READING_VALUE, 3, 0, 0 }, TRUE },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_true (hs_check_is_likely (the_check (checks, rows[i].check), &rows[i].reading) == rows[i].likely);
}

static void
test_parse (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    HsReadingKind kind;
    gint64 value;
    gint64 of;
  } rows[] = {
    { "battery_rest", "12", HS_READING_VALUE, 1200, 0 },
    { "battery_rest", "12.42", HS_READING_VALUE, 1242, 0 },
    { "battery_rest", " 12.4 ", HS_READING_VALUE, 1240, 0 },
    { "battery_rest", "OVER RANGE", HS_READING_OVER_RANGE, 0, 0 },
    { "battery_rest", " not measured ", HS_READING_NOT_MEASURED, 0, 0 },
    { "sleeping_draw", "0.31", HS_READING_VALUE, 310, 0 },
    { "starts_good", "5 of 5", HS_READING_VALUE, 5, 5 },
    { "starts_good", "5/5", HS_READING_VALUE, 5, 5 },
    { "starts_good", "12 OF 12", HS_READING_VALUE, 12, 12 },
    { "charging_output", "61 of 90", HS_READING_VALUE, 61, 90 },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsReading reading = { 0 };
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_check_parse (the_check (checks, rows[i].check), rows[i].text, &reading, &error));
      g_assert_no_error (error);
      g_assert_cmpint (reading.kind, ==, rows[i].kind);
      g_assert_cmpint (reading.value, ==, rows[i].value);
      g_assert_cmpint (reading.of, ==, rows[i].of);
    }
}

static void
test_parse_refuses (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    const char *words;
  } rows[] = {
    { "battery_rest", "", "nothing is written here" },
    { "battery_rest", "1242", "1242.00 V cannot be" },
    { "battery_rest", "12.42 V", "only digits" },
    { "battery_rest", "12.425", "only 2 decimals" },
    { "battery_rest", "/", "only digits" },
    { "battery_rest", "high", "only digits" },
    { "battery_rest", "NaN", "only plain numbers" },
    { "starts_good", "5", "write both numbers like 5 of 5" },
    { "starts_good", "55", "write both numbers like 5 of 5" },
    { "starts_good", "6 of 5", "the first number is part of the second" },
    { "starts_good", "5 of", "write both numbers" },
    { "starts_good", "5/", "nothing is written here" },
    { "starts_good", "five of 5", "only digits" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsReading reading = { HS_READING_OVER_RANGE, 4711, 4711 };
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_check_parse (the_check (checks, rows[i].check), rows[i].text, &reading, &error), &error,
                        rows[i].words);
      g_assert_cmpint (reading.value, ==, 4711);
    }
}

/* The six readings of a car that will not start, with the words of the demo: 40 presses of the pad at most. */
static void
test_few_presses (void)
{
  static const char *const keys[] = { "1205", "248", "890", "31", "210", "164" };
  g_autoptr (HsChecks) checks = shipped_checks ();
  const HsCheckGroup *group = hs_checks_lookup_group (checks, "will_not_start");
  gsize presses = 0;

  g_assert_nonnull (group);
  g_assert_cmpuint (g_strv_length ((char **) group->check_ids), >=, G_N_ELEMENTS (keys));
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      HsReading reading;

      g_assert_true (hs_check_read_pad (the_check (checks, group->check_ids[i]), keys[i], &reading, NULL));
      presses += strlen (keys[i]) + 1;
    }
  g_assert_cmpuint (presses, <=, 40);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-pad/pad", test_pad);
  g_test_add_func ("/check-pad/pad-refuses", test_pad_refuses);
  g_test_add_func ("/check-pad/pad-sure", test_pad_sure);
  g_test_add_func ("/check-pad/likely", test_likely);
  g_test_add_func ("/check-pad/slips", test_slips);
  g_test_add_func ("/check-pad/parse", test_parse);
  g_test_add_func ("/check-pad/parse-refuses", test_parse_refuses);
  g_test_add_func ("/check-pad/few-presses", test_few_presses);
  return g_test_run ();
}
