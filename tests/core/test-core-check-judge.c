// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What readings mean, against printed tables, figures decided for this trade, and the readings of the demo. US Army
 * technical manuals (TM) are named where a limit is theirs. */

#include "check-rows.h"

/* Limits: flooded 12.40 within, 12.20 to 12.39 charge, below charge and test, below 11.89 (0 %) flat; AGM 12.60, 12.40
 * and 12.00. Volts alone never condemn a battery, so that what can still be charged is no fault. */
static void
test_battery_rest (void)
{
  static const JudgeRow rows[] = {
    { "battery_rest", "12.42", FLOODED, W, NULL, "71 %" },
    { "battery_rest", "12.40", FLOODED, W, NULL, "69 %" },
    { "battery_rest", "12.39", FLOODED, A, "charge", "68 %" },
    { "battery_rest", "12.31", FLOODED, A, "charge", "58 %" },
    { "battery_rest", "12.20", FLOODED, A, "charge", "44 %" },
    { "battery_rest", "12.19", FLOODED, A, "charge and test", "43 %" },
    { "battery_rest", "12.05", FLOODED, A, "charge and test", "24 %" },
    { "battery_rest", "11.89", FLOODED, A, "charge and test", "0 %" },
    { "battery_rest", "11.88", FLOODED, O, "flat", "0 %" },
    { "battery_rest", "11.42", FLOODED, O, "flat", "0 %" },
    { "battery_rest", "0.40", FLOODED, O, NULL, "0 %" },
    { "battery_rest", "-12.40", FLOODED, O, "reversed", "0 %" },
    { "battery_rest", "12.68", FLOODED, W, NULL, "100 %" },
    { "battery_rest", "12.80", FLOODED, A, "surface charge", "100 %" },
    { "battery_rest", "12.42", EFB, W, NULL, "71 %" },
    { "battery_rest", "12.30", EFB, A, "charge", "57 %" },
    { "battery_rest", "12.60", AGM, W, NULL, "75 %" },
    { "battery_rest", "12.84", AGM, W, NULL, "100 %" },
    { "battery_rest", "12.59", AGM, A, "charge", "74 %" },
    { "battery_rest", "12.40", AGM, A, "charge", "58 %" },
    { "battery_rest", "12.39", AGM, A, "charge and test", "58 %" },
    { "battery_rest", "12.00", AGM, A, "charge and test", "25 %" },
    { "battery_rest", "11.99", AGM, O, "flat", "at most 25 %" },
    { "battery_rest", "10.48", AGM, O, "flat", "at most 25 %" },
    { "battery_rest", "13.30", AGM, A, "surface charge", "100 %" },
    { "battery_rest", "-0.10", AGM, O, "reversed", "at most 25 %" },
    { "battery_rest", "13.10", LITHIUM, C, NULL, NULL },
    { "battery_rest", "12.42", UNKNOWN, C, NULL, NULL },
    { "battery_rest", "over range", FLOODED, C, "over range", NULL },
    { "battery_rest", "not measured", FLOODED, C, NULL, NULL },
    { "battery_rest", "12.65", { .battery_kind = HS_BATTERY_FLOODED, .just_charged = HS_YES }, C, "wait", NULL },
    { "battery_rest", "12.65", { .battery_kind = HS_BATTERY_FLOODED, .just_charged = HS_NO }, W, NULL, "100 %" },
    /* CELL-1, CELL-2: a dead cell: 10.0 to 10.8 V after a full charge; the same as found only asks for a charge. */
    { "battery_rest", "10.50", { .battery_kind = HS_BATTERY_FLOODED, .full_charge = HS_YES }, O, "cell suspect",
      "0 %" },
    { "battery_rest", "12.30", { .battery_kind = HS_BATTERY_FLOODED, .full_charge = HS_YES }, A, "recheck", "57 %" },
    { "battery_rest", "12.50", { .battery_kind = HS_BATTERY_FLOODED, .full_charge = HS_YES }, W, NULL, "81 %" },
    { "battery_rest", "10.50", FLOODED, O, "flat", "0 %" },
    /* TM 5-4210-230-14&P-1: a discharged battery freezes at -7 °C. */
    { "battery_rest", "11.89", { .battery_kind = HS_BATTERY_FLOODED, .has_temperature = TRUE, .celsius = -12 }, O,
      "may be frozen", "0 %" },
    { "battery_rest", "11.89", { .battery_kind = HS_BATTERY_FLOODED, .has_temperature = TRUE, .celsius = -7 }, O,
      "may be frozen", "0 %" },
    { "battery_rest", "11.89", { .battery_kind = HS_BATTERY_FLOODED, .has_temperature = TRUE, .celsius = -6 }, A,
      "charge and test", "0 %" },
    { "battery_rest", "12.30", { .battery_kind = HS_BATTERY_FLOODED, .has_temperature = TRUE, .celsius = -12 }, A,
      "charge", "57 %" },
    { "battery_rest", "11.90", { .battery_kind = HS_BATTERY_AGM, .has_temperature = TRUE, .celsius = -12 }, O,
      "may be frozen", "at most 25 %" },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* 80 % of rated CCA and more is sound, 70 to 79 watch, below replace; charge first under 12.40 V. The share says of
 * what it is one. */
static void
test_battery_strength (void)
{
  static const JudgeRow rows[] = {
    { "battery_strength", "432", { .rated_cca = 540 }, W, NULL, "80 % of rated CCA (540 A)" },
    { "battery_strength", "431", { .rated_cca = 540 }, A, NULL, "79.8 % of rated CCA (540 A)" },
    { "battery_strength", "378", { .rated_cca = 540 }, A, NULL, "70 % of rated CCA (540 A)" },
    { "battery_strength", "377", { .rated_cca = 540 }, O, "replace", "69.8 % of rated CCA (540 A)" },
    { "battery_strength", "167", { .rated_cca = 540 }, O, "replace", "30.9 % of rated CCA (540 A)" },
    { "battery_strength", "430", { .rated_cca = 540, .has_rest = TRUE, .rest_millivolts = 12310 }, C, "charge first",
      "79.6 % of rated CCA (540 A)" },
    { "battery_strength", "432", { .rated_cca = 540, .has_rest = TRUE, .rest_millivolts = 12400 }, W, NULL,
      "80 % of rated CCA (540 A)" },
    { "battery_strength", "432", { .rated_cca = 0 }, C, NULL, NULL },
    { "battery_strength", "432", { .rated_cca = 540, .battery_kind = HS_BATTERY_LITHIUM }, C, NULL,
      "80 % of rated CCA (540 A)" },
    { "battery_health", "80", FLOODED, W, NULL, NULL },
    { "battery_health", "79", FLOODED, A, NULL, NULL },
    { "battery_health", "70", FLOODED, A, NULL, NULL },
    { "battery_health", "62", FLOODED, O, "replace", NULL },
    { "battery_health", "31", { .has_rest = TRUE, .rest_millivolts = 11420 }, C, "charge first", NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* TM 5-4210-230-14&P-1 Table 5, read as steps: the row at or below the battery's temperature. */
static void
test_load (void)
{
  static const JudgeRow rows[] = {
    { "load_test", "9.80", AT_C (21), W, NULL, NULL },
    { "load_test", "9.60", AT_C (21), W, NULL, NULL },
    { "load_test", "9.59", AT_C (21), O, NULL, NULL },
    { "load_test", "9.60", AT_C (40), W, NULL, NULL },
    /* At 18 °C the step is 9.5 V and the straight line 9.54 V. */
    { "load_test", "9.54", AT_C (18), W, NULL, NULL },
    { "load_test", "9.50", AT_C (18), A, "borderline", NULL },
    { "load_test", "9.49", AT_C (18), O, NULL, NULL },
    /* At -4 °C the step is 8.9 V and the straight line 9.0 V. */
    { "load_test", "8.95", AT_C (-4), A, "borderline", NULL },
    { "load_test", "8.89", AT_C (-4), O, NULL, NULL },
    { "load_test", "9.00", AT_C (-4), W, NULL, NULL },
    { "load_test", "9.50", AT_C (16), W, NULL, NULL },
    { "load_test", "9.40", AT_C (10), W, NULL, NULL },
    { "load_test", "9.30", AT_C (4), W, NULL, NULL },
    { "load_test", "9.10", AT_C (-1), W, NULL, NULL },
    { "load_test", "8.90", AT_C (-7), W, NULL, NULL },
    { "load_test", "8.70", AT_C (-12), W, NULL, NULL },
    { "load_test", "8.50", AT_C (-18), W, NULL, NULL },
    { "load_test", "8.49", AT_C (-18), O, NULL, NULL },
    { "load_test", "9.60", AT_C (-19), C, NULL, NULL },
    { "load_test", "9.60", AT_C (-25), C, NULL, NULL },
    { "load_test", "9.60", FLOODED, W, NULL, NULL },
    { "load_test", "9.20", FLOODED, C, NULL, NULL },
    { "load_test", "8.40", FLOODED, O, NULL, NULL },
    { "load_test", "9.20", { .has_rest = TRUE, .rest_millivolts = 12280, .has_temperature = TRUE, .celsius = 21 }, C,
      "charge first", NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* 9.6 V by a carmaker (gas); TM 5-3895-382-24 Table 29: 8–10, 7–9, 6–8 V by temperature. */
static void
test_cranking (void)
{
  static const JudgeRow rows[] = {
    { "cranking", "9.60", ENGINE ("gas", 21), W, NULL, NULL },
    { "cranking", "10.60", ENGINE ("gas", 10), W, NULL, NULL },
    { "cranking", "9.59", ENGINE ("gas", 21), D, "makers differ", NULL },
    { "cranking", "8.00", ENGINE ("gas", 27), D, "makers differ", NULL },
    { "cranking", "7.99", ENGINE ("gas", 21), O, NULL, NULL },
    { "cranking", "9.60", ENGINE ("gas", 35), W, NULL, NULL },
    { "cranking", "9.00", ENGINE ("gas", 0), W, NULL, NULL },
    { "cranking", "8.90", ENGINE ("gas", 9), D, "makers differ", NULL },
    { "cranking", "6.99", ENGINE ("gas", -7), O, NULL, NULL },
    { "cranking", "8.00", ENGINE ("gas", -8), W, NULL, NULL },
    { "cranking", "7.00", ENGINE ("gas", -23), D, "makers differ", NULL },
    { "cranking", "5.99", ENGINE ("gas", -20), O, NULL, NULL },
    { "cranking", "9.60", ENGINE ("gas", -24), C, NULL, NULL },
    { "cranking", "8.00", ENGINE ("diesel", 21), W, NULL, NULL },
    { "cranking", "7.99", ENGINE ("diesel", 21), O, NULL, NULL },
    { "cranking", "7.00", ENGINE ("diesel", 0), W, NULL, NULL },
    { "cranking", "6.99", ENGINE ("diesel", 0), O, NULL, NULL },
    { "cranking", "6.00", ENGINE ("diesel", -20), W, NULL, NULL },
    { "cranking", "5.99", ENGINE ("diesel", -20), O, NULL, NULL },
    { "cranking", "9.00", ENGINE ("hybrid", 21), D, "makers differ", NULL },
    { "cranking", "9.00", ENGINE (NULL, 21), D, "makers differ", NULL },
    { "cranking", "9.00", ENGINE ("electric", 21), C, NULL, NULL },
    { "cranking", "9.60", { .fuel = "gas" }, W, NULL, NULL },
    { "cranking", "9.00", { .fuel = "gas" }, C, NULL, NULL },
    { "cranking", "5.90", { .fuel = "gas" }, O, NULL, NULL },
    { "starter_draw", "164", { .fuel = "gas" }, D, "makers differ", NULL },
    { "starter_draw", "300", { .fuel = "diesel" }, D, "makers differ", NULL },
    { "starter_draw", "186", UNKNOWN, D, "makers differ", NULL },
    { "starter_draw", "0", { .fuel = "electric" }, C, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* TM 5-3820-256-24-4, 12 V cranking circuit: whole feed side 0.5, ground side 0.2, cable 0.1 / 0.2, switches 0.1 / 0.2
 * / 0.3, connection 0.0; TM 5-3895-382-24 Table 30: - side of a worn diesel 0.7. */
static void
test_drops (void)
{
  static const JudgeRow rows[] = {
    { "drop_feed", "0.31", UNKNOWN, W, NULL, NULL },
    { "drop_feed", "0.50", UNKNOWN, W, NULL, NULL },
    { "drop_feed", "0.51", UNKNOWN, O, NULL, NULL },
    { "drop_feed", "0.05", { .loaded = HS_NO }, C, NULL, NULL },
    { "drop_feed", "0.05", { .loaded = HS_YES }, W, NULL, NULL },
    { "drop_ground", "0.20", { .fuel = "gas" }, W, NULL, NULL },
    { "drop_ground", "0.22", { .fuel = "gas" }, O, NULL, NULL },
    { "drop_ground", "2.10", { .fuel = "gas" }, O, NULL, NULL },
    { "drop_ground", "0.22", { .fuel = "diesel" }, D, "makers differ", NULL },
    { "drop_ground", "0.70", { .fuel = "diesel" }, D, "makers differ", NULL },
    { "drop_ground", "0.71", { .fuel = "diesel" }, O, NULL, NULL },
    { "drop_ground", "0.22", UNKNOWN, O, NULL, NULL },
    { "drop_ground", "0.05", { .loaded = HS_NO }, C, NULL, NULL },
    { "drop_joint", "0.00", UNKNOWN, W, NULL, NULL },
    { "drop_joint", "0.05", UNKNOWN, D, "makers differ", NULL },
    { "drop_joint", "0.10", UNKNOWN, D, "makers differ", NULL },
    { "drop_joint", "0.11", UNKNOWN, O, NULL, NULL },
    { "drop_joint", "0.00", { .loaded = HS_NO }, C, NULL, NULL },
    { "drop_cable", "0.10", UNKNOWN, W, NULL, NULL },
    { "drop_cable", "0.20", UNKNOWN, D, NULL, NULL },
    { "drop_cable", "0.21", UNKNOWN, O, NULL, NULL },
    { "drop_cable", "0.21", { .loaded = HS_NO }, C, NULL, NULL },
    { "drop_switch", "0.10", UNKNOWN, W, NULL, NULL },
    { "drop_switch", "0.30", UNKNOWN, D, NULL, NULL },
    { "drop_switch", "0.40", UNKNOWN, O, NULL, NULL },
    { "drop_switch", "0.40", { .loaded = HS_NO }, C, NULL, NULL },
    { "drop_charging_feed", "0.20", UNKNOWN, W, NULL, NULL },
    { "drop_charging_feed", "0.21", UNKNOWN, A, "check", NULL },
    { "drop_charging_feed", "0.50", UNKNOWN, A, "check", NULL },
    { "drop_charging_feed", "0.51", UNKNOWN, O, NULL, NULL },
    { "drop_charging_ground", "0.20", UNKNOWN, W, NULL, NULL },
    { "drop_charging_ground", "0.21", UNKNOWN, O, NULL, NULL },
    { "relay_drop", "0.02", UNKNOWN, W, NULL, NULL },
    { "relay_drop", "0.25", UNKNOWN, A, "worn", NULL },
    { "relay_drop", "2.60", UNKNOWN, O, NULL, NULL },
    { "relay_feed", "12.61", UNKNOWN, W, NULL, NULL },
    { "relay_feed", "11.40", UNKNOWN, A, "low", NULL },
    { "relay_feed", "0.00", UNKNOWN, O, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* One check for every place: the limits of US Army TM 5-3820-256-24-4 (12 V cranking circuit), NAVEDTRA 14050 and TM
 * 5-3895-382-24 Table 30; the charging side by a carmaker's manual and training text. */
static void
test_drop_by_place (void)
{
  static const JudgeRow rows[] = {
    { "drop", "0.00", AT ("connection"), W, NULL, NULL },
    { "drop", "0.01", AT ("connection"), D, "makers differ", NULL },
    { "drop", "0.10", AT ("connection"), D, "makers differ", NULL },
    { "drop", "0.11", AT ("connection"), O, NULL, NULL },
    { "drop", "0.10", AT ("short-cable"), W, NULL, NULL },
    { "drop", "0.11", AT ("short-cable"), O, NULL, NULL },
    { "drop", "0.20", AT ("cable"), W, NULL, NULL },
    { "drop", "0.21", AT ("cable"), O, NULL, NULL },
    { "drop", "0.10", AT ("mechanical-switch"), W, NULL, NULL },
    { "drop", "0.11", AT ("mechanical-switch"), O, NULL, NULL },
    { "drop", "0.20", AT ("solenoid-switch"), W, NULL, NULL },
    { "drop", "0.21", AT ("solenoid-switch"), O, NULL, NULL },
    { "drop", "0.30", AT ("magnetic-switch"), W, NULL, NULL },
    { "drop", "0.31", AT ("magnetic-switch"), O, NULL, NULL },
    { "drop", "0.20", AT ("ground"), W, NULL, NULL },
    { "drop", "0.22", AT ("ground"), O, NULL, NULL },
    { "drop", "0.50", AT ("starter-positive"), W, NULL, NULL },
    { "drop", "0.51", AT ("starter-positive"), O, NULL, NULL },
    { "drop", "0.20", AT ("starter-negative"), W, NULL, NULL },
    { "drop", "0.21", AT ("starter-negative"), O, NULL, NULL },
    { "drop", "0.70", { .fuel = "diesel", .place = "starter-negative" }, D, "makers differ", NULL },
    { "drop", "0.71", { .fuel = "diesel", .place = "starter-negative" }, O, NULL, NULL },
    { "drop", "0.20", AT ("charging-positive"), W, NULL, NULL },
    { "drop", "0.50", AT ("charging-positive"), A, "check", NULL },
    { "drop", "0.51", AT ("charging-positive"), O, NULL, NULL },
    { "drop", "0.20", AT ("charging-negative"), W, NULL, NULL },
    { "drop", "0.21", AT ("charging-negative"), O, NULL, NULL },
    { "drop", "0.05", AT (NULL), C, NULL, NULL },
    { "drop", "0.51", AT (NULL), O, NULL, NULL },
    { "drop_circuit", "0.50", UNKNOWN, W, NULL, NULL },
    { "drop_circuit", "0.51", UNKNOWN, D, "makers differ", NULL },
    { "drop_circuit", "1.00", UNKNOWN, D, "makers differ", NULL },
    { "drop_circuit", "1.01", UNKNOWN, O, NULL, NULL },
    { "drop_circuit", "0.10", { .loaded = HS_NO }, C, NULL, NULL },
    { "drop_control", "1.00", UNKNOWN, W, NULL, NULL },
    { "drop_control", "1.01", UNKNOWN, O, NULL, NULL },
    { "drop_control", "0.10", { .loaded = HS_NO }, C, NULL, NULL },
    { "drop", "0.05", { .place = "ground", .loaded = HS_NO }, C, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* Conventional charging: 13.5 to 14.7 within, 13.0 to 13.5 and 14.7 to 15.5 watch. Output: 85 % of the rating. */
static void
test_charging (void)
{
  static const JudgeRow rows[] = {
    { "charging", "14.20", UNKNOWN, W, NULL, NULL },
    { "charging", "13.50", UNKNOWN, W, NULL, NULL },
    { "charging", "14.70", UNKNOWN, W, NULL, NULL },
    { "charging", "13.49", UNKNOWN, A, "low", NULL },
    { "charging", "13.00", UNKNOWN, A, "low", NULL },
    { "charging", "12.99", UNKNOWN, O, "not charging", NULL },
    { "charging", "12.40", UNKNOWN, O, "not charging", NULL },
    { "charging", "14.71", UNKNOWN, A, "high", NULL },
    { "charging", "15.50", UNKNOWN, A, "high", NULL },
    { "charging", "15.60", UNKNOWN, O, "overcharging", NULL },
    { "charging", "12.70", { .smart_charging = HS_YES }, C, "add load", NULL },
    { "charging", "13.80", { .smart_charging = HS_YES }, W, NULL, NULL },
    { "charging", "15.60", { .smart_charging = HS_YES }, D, NULL, NULL },
    { "charging", "16.01", { .smart_charging = HS_YES }, O, NULL, NULL },
    { "charging", "12.70", { .smart_charging = HS_NO }, O, "not charging", NULL },
    { "charging_output", "61 of 90", UNKNOWN, O, NULL, "67.8 % of 90 A" },
    { "charging_output", "84 of 90", UNKNOWN, W, NULL, "93.3 % of 90 A" },
    { "charging_output", "85 of 100", UNKNOWN, W, NULL, "85 % of 100 A" },
    { "charging_output", "84 of 100", UNKNOWN, O, NULL, "84 % of 100 A" },
    { "charging_output", "424 of 499", UNKNOWN, O, NULL, "85 % of 499 A" },
    { "ripple", "0.07", UNKNOWN, W, NULL, NULL },
    { "ripple", "0.10", UNKNOWN, W, NULL, NULL },
    { "ripple", "0.25", UNKNOWN, A, "suspect", NULL },
    { "ripple", "0.50", UNKNOWN, A, "suspect", NULL },
    { "ripple", "0.60", UNKNOWN, O, "rectifier", NULL },
    { "ripple", "1.10", UNKNOWN, O, "rectifier", NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* 60 Ah with 40 % to use: 0.31 A is 3.2 days, 0.024 A 41.7; the limit is 0.05 A once asleep. */
static void
test_sleeping_draw (void)
{
  static const JudgeRow rows[] = {
    { "sleeping_draw", "0.31", { .capacity_milliamp_hours = 60000 }, O, NULL, "3.2 days to no-start" },
    { "sleeping_draw", "0.024", { .capacity_milliamp_hours = 60000 }, W, NULL, "41.7 days to no-start" },
    { "sleeping_draw", "0.31", { .capacity_milliamp_hours = 60000, .usable_percent = 80 }, O, NULL,
      "6.5 days to no-start" },
    { "sleeping_draw", "0.050", UNKNOWN, W, NULL, NULL },
    { "sleeping_draw", "0.051", UNKNOWN, O, NULL, NULL },
    { "sleeping_draw", "0.000", { .capacity_milliamp_hours = 60000 }, W, NULL, NULL },
    { "draw_unplugged", "0.022", { .capacity_milliamp_hours = 45000 }, W, NULL, "34.1 days to no-start" },
    { "draw_unplugged", "0.310", UNKNOWN, O, NULL, NULL },
    { "draw_by_fuse", "0.311", { .capacity_milliamp_hours = 60000 }, O, NULL, NULL },
    { "draw_by_fuse", "0.013", UNKNOWN, W, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

static void
test_the_rest (void)
{
  static const JudgeRow rows[] = {
    { "fuse_or_lead", "0.1", UNKNOWN, W, NULL, NULL },
    { "fuse_or_lead", "250.0", UNKNOWN, O, NULL, NULL },
    { "fuse_or_lead", "over range", UNKNOWN, O, "over range", NULL },
    { "glow_plug", "0.6", UNKNOWN, W, NULL, NULL },
    { "glow_plug", "0.1", UNKNOWN, A, NULL, NULL },
    { "glow_plug", "8.0", UNKNOWN, O, NULL, NULL },
    { "glow_plug", "over range", UNKNOWN, O, "over range", NULL },
    { "glow_plug", "not measured", UNKNOWN, C, NULL, NULL },
    { "pad_left", "11.5", UNKNOWN, W, NULL, NULL },
    { "pad_left", "3.0", UNKNOWN, W, NULL, NULL },
    { "pad_left", "2.9", UNKNOWN, O, NULL, NULL },
    { "pad_left", "1.1", UNKNOWN, O, NULL, NULL },
    { "pad_left", "0.7", UNKNOWN, O, "worn out", NULL },
    { "rotor_thickness", "22.00", UNKNOWN, C, NULL, NULL },
    { "brake_fluid", "1.0", UNKNOWN, W, NULL, NULL },
    { "brake_fluid", "3.0", UNKNOWN, W, NULL, NULL },
    { "brake_fluid", "3.1", UNKNOWN, O, NULL, NULL },
    { "tread", "3.0", UNKNOWN, W, NULL, NULL },
    { "tread", "1.6", UNKNOWN, A, "plan it", NULL },
    { "tread", "1.5", UNKNOWN, O, NULL, NULL },
    { "wheel_nuts", "110", UNKNOWN, C, NULL, NULL },
    { "cooling_pressure_lost", "0.0", UNKNOWN, W, NULL, NULL },
    { "cooling_pressure_lost", "0.3", UNKNOWN, O, NULL, NULL },
    { "cooling_pressure_lost", "1.0", UNKNOWN, O, NULL, NULL },
    { "coolant_volts", "0.10", UNKNOWN, W, NULL, NULL },
    { "coolant_volts", "0.20", UNKNOWN, D, "makers differ", NULL },
    { "coolant_volts", "0.31", UNKNOWN, O, NULL, NULL },
    /* 110 of 152 psi are 72.4 %: fails the 75 % rule, passes the 70 % one. */
    { "compression", "110 of 152", UNKNOWN, D, "makers differ", "72.4 % of 152 psi" },
    { "compression", "114 of 152", UNKNOWN, W, NULL, "75 % of 152 psi" },
    { "compression", "449 of 599", UNKNOWN, D, "makers differ", "75 % of 599 psi" },
    { "compression", "105 of 152", UNKNOWN, O, NULL, "69.1 % of 152 psi" },
    { "fuel_water", "0", UNKNOWN, W, NULL, NULL },
    { "fuel_water", "180", UNKNOWN, O, NULL, NULL },
    { "fuel_pressure", "50.0", UNKNOWN, C, NULL, NULL },
    { "fuel_pressure", "2.0", UNKNOWN, C, NULL, NULL },
    { "fuel_pressure", "1.9", UNKNOWN, C, NULL, NULL },
    { "fuel_pressure", "1.8", UNKNOWN, O, "next to none", NULL },
    { "fuel_pressure", "0.0", UNKNOWN, O, "next to none", NULL },
    { "starts_good", "5 of 5", UNKNOWN, W, NULL, NULL },
    { "starts_good", "12 of 12", UNKNOWN, W, NULL, NULL },
    { "starts_good", "4 of 5", UNKNOWN, O, NULL, NULL },
    { "starts_good", "98 of 99", UNKNOWN, O, NULL, NULL },
  };

  judge_rows (rows, G_N_ELEMENTS (rows));
}

/* Only pads that are as good as gone stop the vehicle by themselves. */
static void
test_do_not_drive (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    gboolean stop;
  } rows[] = {
    { "pad_left", "0.0", TRUE }, { "pad_left", "0.7", TRUE }, { "pad_left", "0.8", FALSE },
    { "pad_left", "5.0", FALSE }, { "tread", "0.5", FALSE }, { "cooling_pressure_lost", "1.0", FALSE },
  };
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (HsJudgment) judgment = { 0 };

      judge_text (checks, rows[i].check, rows[i].text, &nothing_known, NULL, &judgment);
      g_assert_cmpint (judgment.do_not_drive, ==, rows[i].stop);
    }
}

/* Limit, source and how sure that is stand beside the verdict. */
static void
test_who_says_so (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    HsConditions conditions;
    const char *limit;
    const char *source;
    const char *tag;
  } rows[] = {
    { "battery_rest", "12.42", FLOODED, "12.40 V or more", "TM 5-3805-262-20", "common practice" },
    { "battery_rest", "12.42", AGM, "12.60 V or more", "AGM table", "common practice" },
    { "battery_strength", "430", { .rated_cca = 540 }, "80.0 % or more", "conductance testers", "common practice" },
    { "drop_feed", "0.31", UNKNOWN, "0.50 V or less", "TM 5-3820-256-24-4", "official text" },
    { "charging", "14.20", UNKNOWN, "13.50 to 14.70 V", "Trade-school page", "secondary text" },
    { "ripple", "0.07", UNKNOWN, "0.10 V AC or less", "sources conflict", "derived" },
    { "sleeping_draw", "0.31", UNKNOWN, "0.050 A or less", "once asleep", "common practice" },
    { "cranking", "9.60", ENGINE ("gas", 21), "9.60 V or more", "Table 29", "secondary text" },
    { "load_test", "9.60", AT_C (18), "9.54 V or more", "Table 5", "official text" },
    { "starter_draw", "164", { .fuel = "diesel" }, "200 to 400 A, or the maker's figure", "Common practice",
      "common practice" },
    { "battery_rest", "12.42", UNKNOWN, "", "differ by 0.2 V", "secondary text" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (HsJudgment) judgment = { 0 };

      judge_text (checks, rows[i].check, rows[i].text, &rows[i].conditions, NULL, &judgment);
      g_assert_cmpstr (judgment.limit, ==, rows[i].limit);
      g_assert_nonnull (strstr (judgment.source, rows[i].source));
      g_assert_cmpstr (judgment.tag, ==, rows[i].tag);
    }
}

/* The vehicle's own limits outrank the catalog, also where the catalog cannot tell. */
static void
test_own_limits (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    HsOwnLimits own;
    HsVerdict verdict;
    const char *limit;
    const char *why;
  } rows[] = {
    { "charging", "12.70", { TRUE, 1220, TRUE, 1550, "maker's manual" }, W, "12.20 to 15.50 V", "keeps to" },
    { "charging", "12.20", { TRUE, 1220, TRUE, 1550, "maker's manual" }, W, "12.20 to 15.50 V", "keeps to" },
    { "charging", "15.50", { TRUE, 1220, TRUE, 1550, "maker's manual" }, W, "12.20 to 15.50 V", "keeps to" },
    { "charging", "12.19", { TRUE, 1220, TRUE, 1550, "maker's manual" }, O, "12.20 to 15.50 V", "below the owner" },
    { "charging", "15.51", { TRUE, 1220, TRUE, 1550, "maker's manual" }, O, "12.20 to 15.50 V", "above the owner" },
    { "rotor_thickness", "21.90", { TRUE, 2200, FALSE, 0, "cast on it" }, O, "22.00 mm or more", "below" },
    { "rotor_thickness", "22.00", { TRUE, 2200, FALSE, 0, "cast on it" }, W, "22.00 mm or more", "keeps to" },
    { "sleeping_draw", "0.031", { FALSE, 0, TRUE, 30, "maker" }, O, "0.030 A or less", "above" },
    { "sleeping_draw", "0.030", { FALSE, 0, TRUE, 30, "maker" }, W, "0.030 A or less", "keeps to the owner's limit" },
    { "sleeping_draw", "0.030", { FALSE, 0, TRUE, 30, "sheet", HS_LIMIT_MAKER }, W, "0.030 A or less",
      "keeps to the maker's value" },
    { "sleeping_draw", "0.031", { FALSE, 0, TRUE, 30, "sheet", HS_LIMIT_MAKER }, O, "0.030 A or less",
      "above the maker's value" },
    { "charging", "12.19", { TRUE, 1220, FALSE, 0, "sheet", HS_LIMIT_MAKER }, O, "12.20 V or more",
      "below the maker's value" },
  };
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (HsJudgment) judgment = { 0 };

      judge_text (checks, rows[i].check, rows[i].text, &nothing_known, &rows[i].own, &judgment);
      g_assert_cmpint (judgment.verdict, ==, rows[i].verdict);
      g_assert_cmpstr (judgment.limit, ==, rows[i].limit);
      g_assert_cmpstr (judgment.source, ==, rows[i].own.source);
      g_assert_cmpstr (judgment.tag, ==, hs_limit_whose_word (rows[i].own.whose));
      g_assert_cmpint (judgment.whose, ==, rows[i].own.whose);
      g_assert_nonnull (strstr (judgment.why, rows[i].why));
    }
}

/* Own limits that say nothing leave the catalog in charge; what was not measured is not judged by them either. */
static void
test_own_limits_aside (void)
{
  static const HsOwnLimits empty = { FALSE, 0, FALSE, 0, "nobody" };
  static const HsOwnLimits narrow = { TRUE, 1220, TRUE, 1230, "maker" };
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };
  g_autoptr (HsChecks) checks = shipped_checks ();
  g_auto (HsJudgment) first = { 0 };
  g_auto (HsJudgment) second = { 0 };
  g_auto (HsJudgment) third = { 0 };

  judge_text (checks, "charging", "14.20", &nothing_known, &empty, &first);
  g_assert_cmpint (first.verdict, ==, HS_VERDICT_WITHIN);
  g_assert_cmpstr (first.tag, ==, "secondary text");
  judge_text (checks, "charging", "not measured", &nothing_known, &narrow, &second);
  g_assert_cmpint (second.verdict, ==, HS_VERDICT_CANNOT_TELL);
  judge_text (checks, "charging", "over range", &nothing_known, &narrow, &third);
  g_assert_cmpint (third.verdict, ==, HS_VERDICT_CANNOT_TELL);
}

static void
assert_bands (GArray *bands, const char *expected)
{
  GString *found = g_string_new (NULL);

  for (guint i = 0; i < bands->len; i++)
    {
      HsCheckBand band = g_array_index (bands, HsCheckBand, i);

      g_string_append (found, hs_verdict_id (band.verdict));
      if (band.high != G_MAXINT64)
        g_string_append_printf (found, " %" G_GINT64_FORMAT " ", band.high);
    }
  g_assert_cmpstr (found->str, ==, expected);
  g_string_free (found, TRUE);
}

/* What a gauge draws, in the unit of the check. */
static void
test_bands (void)
{
  static const struct
  {
    const char *check;
    HsConditions conditions;
    HsOwnLimits own;
    const char *bands;
  } rows[] = {
    { "charging", UNKNOWN, { 0 }, "outside 1300 watch 1350 within 1470 watch 1550 outside" },
    { "charging", UNKNOWN, { TRUE, 1220, TRUE, 1550, "x" }, "outside 1220 within 1550 outside" },
    { "charging", UNKNOWN, { TRUE, 1220, FALSE, 0, "x" }, "outside 1220 within" },
    { "charging", UNKNOWN, { FALSE, 0, TRUE, 1550, "x" }, "within 1550 outside" },
    { "battery_strength", { .rated_cca = 540 }, { 0 }, "outside 378 watch 432 within" },
    { "battery_strength", UNKNOWN, { 0 }, "" },
    { "sleeping_draw", UNKNOWN, { 0 }, "within 50 outside" },
    { "load_test", AT_C (-4), { 0 }, "outside 890 watch 900 within" },
    { "starter_draw", UNKNOWN, { 0 }, "depends" },
    { "charging_output", UNKNOWN, { 0 }, "" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GArray) bands = hs_check_dup_bands (checks, the_check (checks, rows[i].check), &rows[i].conditions,
                                                     &rows[i].own);

      assert_bands (bands, rows[i].bands);
    }
}

static void
test_makers (void)
{
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };
  static const gint64 expected[] = { 25, 30, 35, 50 };
  g_autoptr (HsChecks) checks = shipped_checks ();
  g_autoptr (GArray) makers = hs_check_dup_makers (checks, the_check (checks, "sleeping_draw"), &nothing_known);
  g_autoptr (GArray) none = hs_check_dup_makers (checks, the_check (checks, "tread"), &nothing_known);

  g_assert_cmpmem (makers->data, makers->len * sizeof (gint64), expected, sizeof expected);
  g_assert_cmpuint (none->len, ==, 0);
}

#define CHECK "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=1\nleast=0\nmost=99\n"

/* The limit is where the last verdict that is within ends, however many reasons lie between. */
static void
test_limit_over_bands (void)
{
  static const struct
  {
    const char *bands;
    const char *sentences;
    const char *limit;
  } rows[] = {
    { "outside 3.0 within 4.0 within", "why1=A.\nwhy2=B.\nwhy3=C.\n", "3.0 V or more" },
    { "within 1.0 within 2.0 outside", "why1=A.\nwhy2=B.\nwhy3=C.\n", "2.0 V or less" },
    { "outside 1.0 within 2.0 within 3.0 watch", "why1=A.\nwhy2=B.\nwhy3=C.\nwhy4=D.\n", "1.0 to 3.0 V" },
    { "outside 1.0 watch 2.0 outside", "why1=A.\nwhy2=B.\nwhy3=C.\n", "" },
  };
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (CHECK "[limit a x]\nbands=%s\n%ssource=We\ntag=memory\n",
                                               rows[i].bands, rows[i].sentences);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (text, -1, &error);
      g_auto (HsJudgment) judgment = { 0 };

      g_assert_no_error (error);
      judge_text (checks, "a", "5", &nothing_known, NULL, &judgment);
      g_assert_cmpstr (judgment.limit, ==, rows[i].limit);
    }
}

/* Where no limit fits the conditions, nothing is guessed. */
static void
test_no_limit_fits (void)
{
  static const char text[] = CHECK "[limit a x]\nwhen=loaded:yes\nbands=within\nwhy1=A.\nsource=We\ntag=memory\n";
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };
  g_autoptr (HsChecks) checks = hs_checks_new_from_data (text, -1, NULL);
  g_auto (HsJudgment) judgment = { 0 };
  g_autoptr (GArray) bands = NULL;
  g_autoptr (GArray) makers = NULL;

  judge_text (checks, "a", "5", &nothing_known, NULL, &judgment);
  g_assert_cmpint (judgment.verdict, ==, HS_VERDICT_CANNOT_TELL);
  g_assert_nonnull (strstr (judgment.why, "no limit for these conditions"));
  bands = hs_check_dup_bands (checks, the_check (checks, "a"), &nothing_known, NULL);
  makers = hs_check_dup_makers (checks, the_check (checks, "a"), &nothing_known);
  g_assert_cmpuint (bands->len, ==, 0);
  g_assert_cmpuint (makers->len, ==, 0);
}

/* The first limit whose conditions hold is the one; what is not known matches only "unknown". */
static void
test_when (void)
{
  static const struct
  {
    const char *when;
    HsConditions conditions;
    gboolean holds;
  } rows[] = {
    { "", UNKNOWN, TRUE },
    { "battery_kind:AGM", AGM, TRUE },
    { "battery_kind:AGM", FLOODED, FALSE },
    { "battery_kind:flooded,AGM", FLOODED, TRUE },
    { "battery_kind:unknown", UNKNOWN, TRUE },
    { "fuel:gas", { .fuel = "gas" }, TRUE },
    { "fuel:gas", { .fuel = "diesel" }, FALSE },
    { "fuel:gas", { .fuel = NULL }, FALSE },
    { "fuel:unknown", { .fuel = NULL }, TRUE },
    { "fuel:unknown", { .fuel = "gas" }, FALSE },
    { "fuel:gas,unknown", { .fuel = NULL }, TRUE },
    { "fuel:unknown", { .fuel = "steam" }, TRUE },
    { "temperature:10..27", AT_C (10), TRUE },
    { "temperature:10..27", AT_C (27), TRUE },
    { "temperature:10..27", AT_C (9), FALSE },
    { "temperature:10..27", AT_C (28), FALSE },
    { "temperature:..-7", AT_C (-7), TRUE },
    { "temperature:..-7", AT_C (-6), FALSE },
    { "temperature:0..", AT_C (0), TRUE },
    { "temperature:..", AT_C (99), TRUE },
    { "temperature:..", UNKNOWN, FALSE },
    { "temperature:unknown", UNKNOWN, TRUE },
    { "temperature:unknown", AT_C (0), FALSE },
    { "temperature:0..,unknown", AT_C (1), TRUE },
    { "rest:..12.39", { .has_rest = TRUE, .rest_millivolts = 12390 }, TRUE },
    { "rest:..12.39", { .has_rest = TRUE, .rest_millivolts = 12400 }, FALSE },
    { "rest:..12.39", UNKNOWN, FALSE },
    { "rest:unknown", UNKNOWN, TRUE },
    { "just_charged:yes", { .just_charged = HS_YES }, TRUE },
    { "just_charged:yes", { .just_charged = HS_NO }, FALSE },
    { "just_charged:yes", UNKNOWN, FALSE },
    { "just_charged:no,unknown", UNKNOWN, TRUE },
    { "full_charge:yes", { .full_charge = HS_YES }, TRUE },
    { "full_charge:no", { .full_charge = HS_YES }, FALSE },
    { "smart_charging:yes", { .smart_charging = HS_YES }, TRUE },
    { "smart_charging:unknown", { .smart_charging = HS_NO }, FALSE },
    { "loaded:no", { .loaded = HS_NO }, TRUE },
    { "loaded:no", { .loaded = HS_YES }, FALSE },
    { "place:ground", { .place = "ground" }, TRUE },
    { "place:ground,cable", { .place = "cable" }, TRUE },
    { "place:ground", { .place = "cable" }, FALSE },
    { "place:ground", UNKNOWN, FALSE },
    { "place:unknown", UNKNOWN, TRUE },
    { "loaded:no; fuel:gas", { .loaded = HS_NO, .fuel = "gas" }, TRUE },
    { "loaded:no; fuel:gas", { .loaded = HS_NO, .fuel = "diesel" }, FALSE },
    { "loaded:no; fuel:gas;", { .loaded = HS_YES, .fuel = "gas" }, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (CHECK "[limit a x]\nwhen=%s\nbands=within\nwhy1=A.\nsource=We\n"
                                                     "tag=memory\n[limit a y]\nbands=outside\nwhy1=B.\nnext1=C.\n"
                                                     "source=We\ntag=memory\n", rows[i].when);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (text, -1, &error);
      g_auto (HsJudgment) judgment = { 0 };

      g_assert_no_error (error);
      judge_text (checks, "a", "5", &rows[i].conditions, NULL, &judgment);
      g_assert_cmpint (judgment.verdict, ==, rows[i].holds ? HS_VERDICT_WITHIN : HS_VERDICT_OUTSIDE);
    }
}

/* On a limit the better of both sides counts, whichever side it is. */
static void
test_on_the_limit (void)
{
  static const struct
  {
    const char *bands;
    const char *verdicts;
  } rows[] = {
    { "outside 5.0 within", "outside within within" },
    { "within 5.0 outside", "within within outside" },
    { "watch 5.0 depends", "watch watch depends" },
    { "depends 5.0 watch", "depends watch watch" },
    { "cannot_tell 5.0 outside", "cannot_tell cannot_tell outside" },
    { "outside 5.0 cannot_tell", "outside cannot_tell cannot_tell" },
    { "depends 5.0 cannot_tell", "depends depends cannot_tell" },
  };
  static const char *const readings[] = { "4.9", "5.0", "5.1" };
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf (CHECK "[limit a x]\nbands=%s\nwhy1=A.\nwhy2=B.\nsource=We\ntag=memory\n",
                                               rows[i].bands);
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (text, -1, NULL);
      g_auto (GStrv) verdicts = g_strsplit (rows[i].verdicts, " ", -1);

      g_assert_nonnull (checks);
      for (gsize j = 0; j < G_N_ELEMENTS (readings); j++)
        {
          g_auto (HsJudgment) judgment = { 0 };

          judge_text (checks, "a", readings[j], &nothing_known, NULL, &judgment);
          g_assert_cmpstr (hs_verdict_id (judgment.verdict), ==, verdicts[j]);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-judge/battery-rest", test_battery_rest);
  g_test_add_func ("/check-judge/battery-strength", test_battery_strength);
  g_test_add_func ("/check-judge/load", test_load);
  g_test_add_func ("/check-judge/cranking", test_cranking);
  g_test_add_func ("/check-judge/drops", test_drops);
  g_test_add_func ("/check-judge/drop-by-place", test_drop_by_place);
  g_test_add_func ("/check-judge/charging", test_charging);
  g_test_add_func ("/check-judge/sleeping-draw", test_sleeping_draw);
  g_test_add_func ("/check-judge/the-rest", test_the_rest);
  g_test_add_func ("/check-judge/do-not-drive", test_do_not_drive);
  g_test_add_func ("/check-judge/limit-over-bands", test_limit_over_bands);
  g_test_add_func ("/check-judge/who-says-so", test_who_says_so);
  g_test_add_func ("/check-judge/own-limits", test_own_limits);
  g_test_add_func ("/check-judge/own-limits-aside", test_own_limits_aside);
  g_test_add_func ("/check-judge/bands", test_bands);
  g_test_add_func ("/check-judge/makers", test_makers);
  g_test_add_func ("/check-judge/no-limit-fits", test_no_limit_fits);
  g_test_add_func ("/check-judge/when", test_when);
  g_test_add_func ("/check-judge/on-the-limit", test_on_the_limit);
  return g_test_run ();
}
