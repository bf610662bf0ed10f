// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* More of what readings mean: cells, answers in words, circuits, brakes, tires, engine, and limits that ask where the
 * meter was, how long one waited or how heavy the vehicle is. Expected verdicts are read off the named texts. */

#include "check-rows.h"

#define FULL(kind) { .battery_kind = kind, .full_charge = HS_YES }
#define WAITED(minutes) { .battery_kind = HS_BATTERY_UNKNOWN, .has_waited = TRUE, .waited_minutes = minutes }
#define GAS(n) { .battery_kind = HS_BATTERY_UNKNOWN, .fuel = "gas", .cylinders = n }
#define FUEL(kind) { .battery_kind = HS_BATTERY_UNKNOWN, .fuel = kind }
#define HEAVY(known) { .battery_kind = HS_BATTERY_UNKNOWN, .heavy = known }
#define FLUID(kind) { .battery_kind = HS_BATTERY_UNKNOWN, .brake_fluid = kind }
#define COOLANT(kind) { .battery_kind = HS_BATTERY_UNKNOWN, .coolant = kind }

/* Spread: 0.025 by TM 9-6140-200-14, 0.050 by TM 5-3740-214-14; a cell below 1.150 by the latter; 1.225 is 75 % by TM
 * 5-3820-256-24-4 Table 2. CELL-4: 1.265 1.260 1.262 1.235 1.264 1.263 have a spread of 0.030. */
static void
test_cells (void)
{
  static const JudgeRow rows[] = {
    { "gravity_spread", "0.030", FLOODED, A, "warn", NULL },
    { "gravity_spread", "0.025", FLOODED, W, NULL, NULL },
    { "gravity_spread", "0.026", FLOODED, A, "warn", NULL },
    { "gravity_spread", "0.050", FULL (HS_BATTERY_FLOODED), A, "warn", NULL },
    { "gravity_spread", "0.051", FULL (HS_BATTERY_FLOODED), O, NULL, NULL },
    { "gravity_spread", "0.051", { .full_charge = HS_NO }, C, "charge first", NULL },
    { "gravity_spread", "0.000", AGM, C, "sealed", NULL },
    { "battery_gravity", "1.265", FULL (HS_BATTERY_FLOODED), W, NULL, NULL },
    { "battery_gravity", "1.225", FULL (HS_BATTERY_FLOODED), W, NULL, NULL },
    { "battery_gravity", "1.224", FULL (HS_BATTERY_FLOODED), A, NULL, NULL },
    { "battery_gravity", "1.150", FULL (HS_BATTERY_EFB), A, NULL, NULL },
    { "battery_gravity", "1.149", FULL (HS_BATTERY_FLOODED), O, NULL, NULL },
    { "battery_gravity", "1.120", FLOODED, A, "charge", NULL },
    { "battery_gravity", "1.225", FLOODED, W, NULL, NULL },
    { "battery_gravity", "1.265", LITHIUM, C, "sealed", NULL },
    /* Technician training: 0.5 V or more from post to case top discharges it. */
    { "battery_case_drain", "0.49", FLOODED, W, NULL, NULL },
    { "battery_case_drain", "0.50", FLOODED, O, NULL, NULL },
    { "battery_case_drain", "0.00", UNKNOWN, W, NULL, NULL },
    /* 11.2 V by a bulletin of 1999, half charge within 5 min (12.24 V, AGM 12.3 V) by a manual of 2002. */
    { "bounce_back", "12.24", FLOODED, W, NULL, NULL },
    { "bounce_back", "12.23", FLOODED, D, "makers differ", NULL },
    { "bounce_back", "11.20", FLOODED, D, "makers differ", NULL },
    { "bounce_back", "11.19", FLOODED, O, NULL, NULL },
    { "bounce_back", "12.29", AGM, D, "makers differ", NULL },
    { "bounce_back", "12.30", AGM, W, NULL, NULL },
    { "bounce_back", "12.30", LITHIUM, C, NULL, NULL },
    /* TM 9-6115-730-24: three hours of rest after a full charge, for AGM. */
    { "battery_rest", "12.90", { .battery_kind = HS_BATTERY_AGM, .full_charge = HS_YES, .has_waited = TRUE,
                                 .waited_minutes = 179 }, C, "wait", NULL },
    { "battery_rest", "12.90", { .battery_kind = HS_BATTERY_AGM, .full_charge = HS_YES, .has_waited = TRUE,
                                 .waited_minutes = 180 }, W, NULL, "100 %" },
    { "battery_look", "sound and tight", UNKNOWN, W, NULL, NULL },
    { "battery_look", "2", UNKNOWN, A, NULL, NULL },
    { "battery_look", "3", UNKNOWN, O, NULL, NULL },
    { "battery_look", "4", UNKNOWN, A, NULL, NULL },
    { "battery_look", "5", UNKNOWN, O, NULL, NULL },
    { "battery_look", "swollen or cracked", UNKNOWN, O, NULL, NULL },
    { "battery_label", "AGM, 760 A SAE, 70 Ah", UNKNOWN, W, "noted", NULL },
    { "battery_code", "C5", UNKNOWN, W, "noted", NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

static void
test_starting (void)
{
  static const JudgeRow rows[] = {
    { "key_turn", "silent", UNKNOWN, O, NULL, NULL },
    { "key_turn", "one click", UNKNOWN, O, NULL, NULL },
    { "key_turn", "fast clicks", FUEL ("gas"), O, NULL, NULL },
    { "key_turn", "4", FUEL ("diesel"), O, NULL, NULL },
    { "key_turn", "5", UNKNOWN, O, NULL, NULL },
    { "key_turn", "6", UNKNOWN, O, NULL, NULL },
    { "key_turn", "7", UNKNOWN, W, NULL, NULL },
    { "key_turn", "1", FUEL ("electric"), C, NULL, NULL },
    { "key_turn", "7", FUEL ("electric"), W, NULL, NULL },
    { "key_turn", "not measured", UNKNOWN, C, NULL, NULL },
    { "dash_lamps", "1", UNKNOWN, W, NULL, NULL },
    { "dash_lamps", "2", UNKNOWN, A, NULL, NULL },
    { "dash_lamps", "3", UNKNOWN, O, NULL, NULL },
    { "dash_lamps", "dim", UNKNOWN, O, NULL, NULL },
    { "dash_lamps", "none", UNKNOWN, O, NULL, NULL },
    /* TM 5-2420-230-24-2 p. 13-33: 1.0 V in the solenoid's control circuit. */
    { "starter_control", "1.00", UNKNOWN, W, NULL, NULL },
    { "starter_control", "1.01", UNKNOWN, O, NULL, NULL },
    { "starter_control", "0.20", { .loaded = HS_NO }, C, NULL, NULL },
    /* STR-1: 4 cylinders, 260 A; a textbook allows 185 A, practice 200 A. STR-2: 60 A. Six: 200 and 250 A. */
    { "starter_draw", "260", GAS (4), O, NULL, NULL },
    { "starter_draw", "60", GAS (4), D, "makers differ", NULL },
    { "starter_draw", "186", GAS (4), D, "makers differ", NULL },
    { "starter_draw", "200", GAS (3), D, "makers differ", NULL },
    { "starter_draw", "201", GAS (4), O, NULL, NULL },
    { "starter_draw", "250", GAS (6), D, "makers differ", NULL },
    { "starter_draw", "251", GAS (5), O, NULL, NULL },
    { "starter_draw", "320", GAS (8), D, "makers differ", NULL },
    { "starter_draw", "260", GAS (0), D, "makers differ", NULL },
    { "starter_draw", "260", { .fuel = "diesel", .cylinders = 4 }, D, "makers differ", NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* Ripple: at the stud 0.25 V by one course, 0.30 V by another. Sleeping draw: makers wait 5 to 75 minutes. */
static void
test_where_and_when (void)
{
  static const JudgeRow rows[] = {
    { "ripple", "0.25", { .meter_at = "stud" }, W, NULL, NULL },
    { "ripple", "0.26", { .meter_at = "stud" }, D, "makers differ", NULL },
    { "ripple", "0.30", { .meter_at = "stud" }, D, "makers differ", NULL },
    { "ripple", "0.31", { .meter_at = "stud" }, O, "rectifier", NULL },
    { "ripple", "0.07", { .meter_at = "battery" }, W, NULL, NULL },
    { "ripple", "0.25", { .meter_at = "battery" }, A, "suspect", NULL },
    { "ripple", "0.60", { .meter_at = "battery" }, O, "rectifier", NULL },
    { "charging", "12.60", { .engine = "off" }, C, "not running", NULL },
    { "charging", "9.80", { .engine = "cranking" }, C, "not running", NULL },
    { "charging", "12.60", { .engine = "raised" }, O, "not charging", NULL },
    { "charging", "14.20", { .engine = "idling" }, W, NULL, NULL },
    { "sleeping_draw", "0.310", WAITED (5), C, "wait", NULL },
    { "sleeping_draw", "0.310", WAITED (29), C, "wait", NULL },
    { "sleeping_draw", "0.310", WAITED (30), D, "makers differ", NULL },
    { "sleeping_draw", "0.310", WAITED (74), D, "makers differ", NULL },
    { "sleeping_draw", "0.310", WAITED (75), O, NULL, NULL },
    { "sleeping_draw", "0.050", WAITED (5), W, NULL, NULL },
    { "sleeping_draw", "0.051", WAITED (40), D, "makers differ", NULL },
    { "key_off_volts", "0.10", UNKNOWN, W, NULL, NULL },
    { "key_off_volts", "0.11", UNKNOWN, A, "leak", NULL },
    { "key_off_volts", "1.00", UNKNOWN, A, "leak", NULL },
    { "key_off_volts", "12.50", UNKNOWN, O, NULL, NULL },
    { "fob_cell", "3.10", UNKNOWN, W, NULL, NULL },
    { "fob_cell", "3.00", UNKNOWN, W, NULL, NULL },
    { "fob_cell", "2.99", UNKNOWN, A, "used", NULL },
    { "fob_cell", "2.70", UNKNOWN, A, "used", NULL },
    { "fob_cell", "2.69", UNKNOWN, O, NULL, NULL },
    /* RLY-1: 75 ohm. A relay maker's note: 60 to 80 ohm. */
    { "relay_coil", "75.0", UNKNOWN, W, NULL, NULL },
    { "relay_coil", "60.0", UNKNOWN, W, NULL, NULL },
    { "relay_coil", "59.9", UNKNOWN, A, "low", NULL },
    { "relay_coil", "80.1", UNKNOWN, A, "high", NULL },
    { "relay_coil", "20.0", UNKNOWN, A, "low", NULL },
    { "relay_coil", "19.9", UNKNOWN, O, "shorted", NULL },
    { "relay_coil", "over range", UNKNOWN, O, "over range", NULL },
    { "main_fuse", "1", UNKNOWN, W, NULL, NULL },
    { "main_fuse", "2", UNKNOWN, O, NULL, NULL },
    { "main_fuse", "3", UNKNOWN, O, NULL, NULL },
    { "belt", "1", UNKNOWN, W, NULL, NULL },
    { "belt", "2", UNKNOWN, A, NULL, NULL },
    { "belt", "3", UNKNOWN, O, NULL, NULL },
    { "belt", "4", UNKNOWN, O, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* 49 CFR 570.59(c), over 10,000 lb: 1/32 in over the fastener, 1/16 in bonded; below that states differ, 1/32 or 2/32.
 * 49 CFR 571.116: wet boiling points 140, 155, 180 °C. 49 CFR 570.62(a): 4/32 in front, 2/32 in elsewhere. */
static void
test_brakes_and_tires (void)
{
  static const JudgeRow rows[] = {
    { "pad_right", "3.0", UNKNOWN, W, NULL, NULL },
    { "pad_right", "2.9", UNKNOWN, O, NULL, NULL },
    { "pad_difference", "2.0", UNKNOWN, W, NULL, NULL },
    { "pad_difference", "2.1", UNKNOWN, O, NULL, NULL },
    { "lining_riveted", "0.8", HEAVY (HS_YES), W, NULL, NULL },
    { "lining_riveted", "0.8", HEAVY (HS_NO), D, "states differ", NULL },
    { "lining_riveted", "1.6", UNKNOWN, W, NULL, NULL },
    { "lining_bonded", "1.6", HEAVY (HS_YES), W, NULL, NULL },
    { "lining_bonded", "1.2", HEAVY (HS_NO), D, "states differ", NULL },
    { "lining_bonded", "1.2", UNKNOWN, D, "states differ", NULL },
    { "lining_bonded", "1.6", HEAVY (HS_NO), W, NULL, NULL },
    { "rotor_runout", "0.05", UNKNOWN, W, NULL, NULL },
    { "rotor_runout", "0.06", UNKNOWN, D, "makers differ", NULL },
    { "rotor_runout", "0.11", UNKNOWN, O, NULL, NULL },
    { "fluid_boiling", "140", FLUID ("DOT3"), W, NULL, NULL },
    { "fluid_boiling", "139", FLUID ("DOT3"), O, NULL, NULL },
    { "fluid_boiling", "155", FLUID ("DOT4"), W, NULL, NULL },
    { "fluid_boiling", "154", FLUID ("DOT4"), O, NULL, NULL },
    { "fluid_boiling", "180", FLUID ("DOT5.1"), W, NULL, NULL },
    { "fluid_boiling", "179", FLUID ("DOT5"), O, NULL, NULL },
    { "fluid_boiling", "160", UNKNOWN, C, NULL, NULL },
    { "fluid_boiling", "139", UNKNOWN, O, NULL, NULL },
    { "fluid_boiling", "180", UNKNOWN, W, NULL, NULL },
    { "tread", "3.2", HEAVY (HS_YES), W, NULL, NULL },
    { "tread", "3.1", HEAVY (HS_YES), D, "front or rear", NULL },
    { "tread", "1.6", HEAVY (HS_YES), D, "front or rear", NULL },
    { "tread", "1.5", HEAVY (HS_YES), O, NULL, NULL },
    { "tread", "3.1", HEAVY (HS_NO), W, NULL, NULL },
    { "tread_uneven", "1.0", UNKNOWN, W, NULL, NULL },
    { "tread_uneven", "1.1", UNKNOWN, A, "look closer", NULL },
    { "tread_uneven", "2.1", UNKNOWN, O, NULL, NULL },
    { "tire_age", "5.0", UNKNOWN, W, NULL, NULL },
    { "tire_age", "5.1", UNKNOWN, A, "look yearly", NULL },
    { "tire_age", "10.0", UNKNOWN, A, "look yearly", NULL },
    { "tire_age", "10.1", UNKNOWN, O, NULL, NULL },
    { "tire_code", "DOT ABCD 3523", UNKNOWN, W, "noted", NULL },
    { "tire_pressure", "33", UNKNOWN, C, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* Half and half freezes at -37 °C (ethylene) or -33 °C (propylene) by a tractor maker, 30 % at -15 °C by TM
 * 5-3895-382-24 or -12.8 °C by a handbook; 60 % at -54 °C is the best of ethylene. */
static void
test_engine (void)
{
  static const JudgeRow rows[] = {
    { "coolant_freeze", "-37", COOLANT ("EG"), W, NULL, NULL },
    { "coolant_freeze", "-54", COOLANT ("EG"), W, NULL, NULL },
    { "coolant_freeze", "-55", COOLANT ("EG"), O, "too strong", NULL },
    { "coolant_freeze", "-36", COOLANT ("EG"), D, "how cold is it here", NULL },
    { "coolant_freeze", "-15", COOLANT ("EG"), D, "how cold is it here", NULL },
    { "coolant_freeze", "-14", COOLANT ("EG"), O, NULL, NULL },
    { "coolant_freeze", "-33", COOLANT ("PG"), W, NULL, NULL },
    { "coolant_freeze", "-32", COOLANT ("PG"), D, "how cold is it here", NULL },
    { "coolant_freeze", "-13", COOLANT ("PG"), D, "how cold is it here", NULL },
    { "coolant_freeze", "-12", COOLANT ("PG"), O, NULL, NULL },
    { "coolant_freeze", "-37", UNKNOWN, W, NULL, NULL },
    { "coolant_freeze", "-36", UNKNOWN, D, "how cold is it here", NULL },
    { "coolant_freeze", "-12", UNKNOWN, O, NULL, NULL },
    { "coolant_freeze", "0", UNKNOWN, O, NULL, NULL },
    { "oil_level", "1", UNKNOWN, W, NULL, NULL },
    { "oil_level", "2", UNKNOWN, O, NULL, NULL },
    { "oil_level", "3", UNKNOWN, O, NULL, NULL },
    { "oil_level", "5", UNKNOWN, O, NULL, NULL },
    { "trouble_codes", "none", UNKNOWN, W, NULL, NULL },
    { "trouble_codes", "P0562", UNKNOWN, A, "look them up", NULL },
    { "trouble_codes", "P0562 U0100 C0133", UNKNOWN, A, "look them up", NULL },
    { "wet_test", "rises", FUEL ("gas"), O, "rings", NULL },
    { "wet_test", "2", UNKNOWN, O, "valves", NULL },
    { "wet_test", "3", UNKNOWN, O, "head gasket", NULL },
    { "wet_test", "1", FUEL ("diesel"), C, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* Volts in and out: what the first of a pair has less than the second, each border and each band; and the same where a
 * share would say another thing. */
static void
test_volts_through (void)
{
  static const JudgeRow rows[] = {
    { "volts_through", "12.62 of 12.62", UNKNOWN, W, NULL, "0.00 V lost" },
    { "volts_through", "12.42 of 12.62", UNKNOWN, W, NULL, "0.20 V lost" },
    { "volts_through", "12.41 of 12.62", UNKNOWN, A, "recheck", "0.21 V lost" },
    { "volts_through", "12.12 of 12.62", UNKNOWN, A, "recheck", "0.50 V lost" },
    { "volts_through", "12.11 of 12.62", UNKNOWN, O, NULL, "0.51 V lost" },
    { "volts_through", "0.00 of 12.62", UNKNOWN, O, NULL, "12.62 V lost" },
    { "volts_through", "0.30 of 0.50", UNKNOWN, W, NULL, "0.20 V lost" },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* What it takes to ask again what could not be measured without power, and the walk round with the key off. */
static void
test_power (void)
{
  static const JudgeRow rows[] = {
    { "power_back", "1", UNKNOWN, W, NULL, NULL }, { "power_back", "2", UNKNOWN, W, NULL, NULL },
    { "power_back", "3", UNKNOWN, A, NULL, NULL }, { "power_back", "4", UNKNOWN, O, NULL, NULL },
    { "walk_round", "1", UNKNOWN, W, NULL, NULL }, { "walk_round", "2", UNKNOWN, O, NULL, NULL },
    { "walk_round", "3", UNKNOWN, O, NULL, NULL }, { "walk_round", "4", UNKNOWN, O, NULL, NULL },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  judge_rows (rows, G_N_ELEMENTS (rows));
  g_assert_nonnull (strstr (hs_checks_lookup (checks, "power_back")->how, "short before a new main fuse"));
  g_assert_nonnull (strstr (hs_checks_lookup (checks, "power_back")->caution, "only once the fault is known"));
  g_assert_nonnull (strstr (hs_checks_lookup (checks, "walk_round")->caution, "Fans may start with the key off"));
}

/* Beside pads: linings below the last limit, milky oil and a torn belt stop the vehicle. */
static void
test_do_not_drive (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    HsKnown heavy;
  } rows[] = {
    { "pad_right", "0.7", HS_NOT_KNOWN },     { "lining_riveted", "0.7", HS_YES }, { "lining_riveted", "0.7", HS_NO },
    { "lining_bonded", "1.5", HS_YES },       { "lining_bonded", "0.7", HS_NO },   { "oil_level", "4", HS_NOT_KNOWN },
    { "belt", "missing or torn", HS_NOT_KNOWN },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsConditions conditions = { .battery_kind = HS_BATTERY_UNKNOWN, .heavy = rows[i].heavy };
      g_auto (HsJudgment) judgment = { 0 };

      judge_text (checks, rows[i].check, rows[i].text, &conditions, NULL, &judgment);
      g_assert_true (judgment.do_not_drive);
      g_assert_cmpint (judgment.verdict, ==, HS_VERDICT_OUTSIDE);
    }
}

/* Slips are caught where they are typed: in the box of the pad, with its decimals. What is rare, such as a battery that
 * was charged the wrong way round, is asked about with them and taken of whoever is sure. */
static void
test_ranges (void)
{
  static const struct
  {
    const char *check;
    const char *keys;
    gboolean taken;
    gboolean sure; /* not taken unasked, and then taken */
  } rows[] = {
    { "battery_rest", "1242", TRUE },    { "battery_rest", "-1240", FALSE, TRUE },
    { "battery_rest", "40", FALSE, TRUE },
    { "battery_rest", "12420", FALSE },  { "cranking", "962", TRUE },        { "cranking", "9620", FALSE },
    { "battery_gravity", "1226", TRUE }, { "battery_gravity", "1.265", TRUE }, { "battery_gravity", "122", FALSE },
    { "battery_gravity", "12260", FALSE }, { "gravity_spread", "30", TRUE },  { "gravity_spread", "1265", FALSE },
    { "starter_draw", "164", TRUE },     { "starter_draw", "16400", FALSE }, { "sleeping_draw", "310", TRUE },
    { "sleeping_draw", "0.31", TRUE },   { "sleeping_draw", "310000", FALSE }, { "charging", "1420", TRUE },
    { "charging", "14200", FALSE },      { "charging", "-1420", FALSE },     { "drop", "31", TRUE },
    { "drop", "3100", FALSE },           { "fuse_or_lead", "22000000", TRUE }, { "pad_left", "115", TRUE },
    { "pad_left", "1150", FALSE },       { "tread", "16", TRUE },            { "tread", "160", TRUE },
    { "tread", "1600", FALSE },          { "coolant_freeze", "-37", TRUE },  { "coolant_freeze", "37", FALSE },
    { "fob_cell", "300", TRUE },         { "fob_cell", "3000", FALSE },      { "tire_age", "35", TRUE },
    { "tire_age", "3523", FALSE },       { "fluid_boiling", "155", TRUE },   { "fluid_boiling", "15", FALSE },
    { "tire_pressure", "33", TRUE },     { "tire_pressure", "230", FALSE },  { "key_turn", "3", TRUE },
    { "key_turn", "8", FALSE },          { "trouble_codes", "P0133", TRUE }, { "trouble_codes", "P4133", FALSE },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      HsReading reading;

      if (hs_check_read_pad (the_check (checks, rows[i].check), rows[i].keys, &reading, &error) != rows[i].taken)
        g_error ("%s %s: %s", rows[i].check, rows[i].keys, error == NULL ? "taken" : error->message);
      if (rows[i].sure)
        g_assert_true (hs_check_read_pad_sure (the_check (checks, rows[i].check), rows[i].keys, &reading, NULL));
    }
}

/* What is seen, heard and felt beside the causes of a complaint; all of it common practice. A fan on the belt spins
 * loose when cold and grips when hot; the piston that goes back once its bleeder is open is held by the hose. */
static void
test_eye_and_ear (void)
{
  static const JudgeRow rows[] = {
    { "security_lamp", "1", UNKNOWN, W, NULL, NULL },
    { "security_lamp", "2", UNKNOWN, O, NULL, NULL },
    { "security_lamp", "3", UNKNOWN, C, NULL, NULL },
    { "starter_trigger", "1", UNKNOWN, W, NULL, NULL },
    { "starter_trigger", "2", UNKNOWN, A, NULL, NULL },
    { "starter_trigger", "3", UNKNOWN, O, NULL, NULL },
    { "pump_hum", "1", UNKNOWN, W, NULL, NULL },
    { "pump_hum", "2", UNKNOWN, O, NULL, NULL },
    { "pump_hum", "3", UNKNOWN, A, NULL, NULL },
    { "spark", "1", UNKNOWN, W, NULL, NULL },
    { "spark", "2", UNKNOWN, O, NULL, NULL },
    { "spark", "3", UNKNOWN, O, NULL, NULL },
    { "spark", "4", UNKNOWN, C, NULL, NULL },
    { "rpm_signal", "1", UNKNOWN, W, NULL, NULL },
    { "rpm_signal", "2", UNKNOWN, O, NULL, NULL },
    { "rpm_signal", "3", UNKNOWN, A, NULL, NULL },
    { "vehicle_use", "1", UNKNOWN, W, NULL, NULL },
    { "vehicle_use", "2", UNKNOWN, A, NULL, NULL },
    { "vehicle_use", "3", UNKNOWN, A, NULL, NULL },
    { "vehicle_use", "4", UNKNOWN, A, NULL, NULL },
    { "alternator_plug", "1", UNKNOWN, W, NULL, NULL },
    { "alternator_plug", "2", UNKNOWN, O, NULL, NULL },
    { "alternator_plug", "3", UNKNOWN, O, NULL, NULL },
    { "alternator_plug", "4", UNKNOWN, O, NULL, NULL },
    { "coolant_level", "1", UNKNOWN, W, NULL, NULL },
    { "coolant_level", "2", UNKNOWN, A, NULL, NULL },
    { "coolant_level", "3", UNKNOWN, O, NULL, NULL },
    { "coolant_level", "4", UNKNOWN, O, NULL, NULL },
    { "fan_runs", "1", UNKNOWN, W, NULL, NULL },
    { "fan_runs", "2", UNKNOWN, O, NULL, NULL },
    { "fan_runs", "3", UNKNOWN, W, NULL, NULL },
    { "fan_runs", "4", UNKNOWN, O, NULL, NULL },
    { "hoses_warm", "1", UNKNOWN, W, NULL, NULL },
    { "hoses_warm", "2", UNKNOWN, O, NULL, NULL },
    { "hoses_warm", "3", UNKNOWN, O, NULL, NULL },
    { "hoses_warm", "4", UNKNOWN, O, NULL, NULL },
    { "block_test", "1", UNKNOWN, W, NULL, NULL },
    { "block_test", "2", UNKNOWN, O, NULL, NULL },
    { "wheel_heat", "1", UNKNOWN, W, NULL, NULL },
    { "wheel_heat", "2", UNKNOWN, O, NULL, NULL },
    { "wheel_heat", "3", UNKNOWN, O, NULL, NULL },
    { "caliper_slides", "1", UNKNOWN, W, NULL, NULL },
    { "caliper_slides", "2", UNKNOWN, O, NULL, NULL },
    { "caliper_slides", "3", UNKNOWN, O, NULL, NULL },
    { "caliper_slides", "4", UNKNOWN, O, NULL, NULL },
    { "brake_look", "1", UNKNOWN, W, NULL, NULL },
    { "brake_look", "2", UNKNOWN, O, NULL, NULL },
    { "brake_look", "3", UNKNOWN, A, NULL, NULL },
    { "brake_look", "4", UNKNOWN, O, NULL, NULL },
    { "wheel_play", "1", UNKNOWN, W, NULL, NULL },
    { "wheel_play", "2", UNKNOWN, O, NULL, NULL },
    { "wheel_play", "3", UNKNOWN, O, NULL, NULL },
    { "cuts_when", "1", UNKNOWN, A, NULL, NULL },
    { "cuts_when", "2", UNKNOWN, A, NULL, NULL },
    { "cuts_when", "3", UNKNOWN, A, NULL, NULL },
    { "cuts_when", "4", UNKNOWN, A, NULL, NULL },
    { "wiggle", "1", UNKNOWN, W, NULL, NULL },
    { "wiggle", "2", UNKNOWN, O, NULL, NULL },
    { "coolant_level", "empty", UNKNOWN, O, NULL, NULL },
    { "vehicle_use", "daily, longer trips", UNKNOWN, W, NULL, NULL },
    { "spark", "diesel, no spark to test", UNKNOWN, C, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-more/cells", test_cells);
  g_test_add_func ("/check-more/starting", test_starting);
  g_test_add_func ("/check-more/where-and-when", test_where_and_when);
  g_test_add_func ("/check-more/brakes-and-tires", test_brakes_and_tires);
  g_test_add_func ("/check-more/engine", test_engine);
  g_test_add_func ("/check-more/volts-through", test_volts_through);
  g_test_add_func ("/check-more/power", test_power);
  g_test_add_func ("/check-more/do-not-drive", test_do_not_drive);
  g_test_add_func ("/check-more/ranges", test_ranges);
  g_test_add_func ("/check-more/eye-and-ear", test_eye_and_ear);
  return g_test_run ();
}
