// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calculators for circuits as they are typed: worked tests by their ids, edges of limits, and refusals. US Army
 * technical manuals (TM) are named where a limit is theirs. */

#include "calc-test.h"

#include "hs-calc-private.h"

#define ROWS(rows) rows, G_N_ELEMENTS (rows)

static void
test_fusedraw (void)
{
  static const CalcRow rows[] = {
    /* Training site: 130 mA. Trade magazine, June 2017: 218 and 22 mA. */
    { "FUSE-1", "fusedraw body=regular rating=10 millivolts=1.0", "milliamps", 130, 0.5, CALC_O, "published reading" },
    { "FUSE-2", "fusedraw body=mini rating=15 millivolts=1.0", "milliamps", 218, 0.5, CALC_O, "15 %" },
    { "FUSE-3", "fusedraw body=mini rating=15 millivolts=0.1", "milliamps", 22, 0.5, CALC_W, "sleeps" },
    { "FUSE-4", "fusedraw body=regular rating=10 millivolts=0.0", "milliamps", 0, 0, CALC_W,
      "0.1 mV across this fuse is "
      "13 mA" },
    { "0.0 mV hides more than the limit", "fusedraw body=regular rating=40 millivolts=0", "milliamps", 0, 0, CALC_C,
      "69 mA" },
    { "exactly 50 mA", "fusedraw body=regular rating=2 millivolts=2.675", "milliamps", 50, 1e-9, CALC_W, NULL },
    { "a hair over", "fusedraw body=regular rating=2 millivolts=2.67501", "milliamps", 50.000187, 1e-6, CALC_O, NULL },
    { "7.5 A", "fusedraw body=regular rating=7.5 millivolts=1.09", "milliamps", 100, 1e-9, CALC_O, "no datasheet" },
    { "its resistance is told", "fusedraw body=mini rating=20 millivolts=1", "milliohms", 3.2, 0, CALC_O, NULL },
    { "no resistance is known", "fusedraw body=maxi rating=40 millivolts=1", "milliamps", CALC_NONE, 0, CALC_C,
      "clamp meter" },
    { "nor at 0 mV", "fusedraw body=maxi rating=40 millivolts=0", "milliamps", CALC_NONE, 0, CALC_C, "not known" },
    { "nor of a small one", "fusedraw body=mini rating=3 millivolts=1", "milliamps", CALC_NONE, 0, CALC_C,
      "not known" },
    { "blown: the battery stands across it", "fusedraw body=mini rating=10 millivolts=12400", NULL, 0, 0, CALC_C,
      "blown" },
    { "just what it carries", "fusedraw body=regular rating=10 millivolts=77", "milliamps", 10000, 1e-6, CALC_O, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

static void
test_fusecolor (void)
{
  static const struct
  {
    const char *line, *key, *shown;
  } rows[] = {
    { "fusecolor body=regular rating=7.5", "colors", "brown" },
    { "fusecolor body=maxi rating=40", "colors", "orange, amber" },
    { "fusecolor body=torpedo rating=8", "colors", "white" },
    { "fusecolor body=regular color=brown", "ratings", "7.5, 35" },
    { "fusecolor body=regular color=brown", "family", "Regular blade, type C, 19.1 × 5.1 × 18.5 mm" },
    { "fusecolor body=torpedo color=red", "ratings", "16" },
    { "fusecolor body=maxi color=red", "ratings", "50" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCalcResult) result = calc_run (rows[i].line, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (hs_calc_result_lookup (result, rows[i].key)->shown, ==, rows[i].shown);
      g_assert_nonnull (strstr (hs_calc_result_get_because (result), "read the number"));
      g_assert_cmpstr (hs_calc_result_get_sure (result), ==, HS_SURE_SECONDARY);
    }
}

static void
test_fuseopen (void)
{
  static const CalcRow rows[] = {
    { "twice", "fuseopen amps=30 rating=15", "opens_after", 0.15, 0, CALC_NO, "200 % of its rating a blade fuse opens "
      "within 5 s" },
    { "twice", "fuseopen amps=30 rating=15", "open_by", 5, 0, CALC_NO, "as remembered" },
    { "110 %", "fuseopen amps=16.5 rating=15", "open_by", CALC_NONE, 0, CALC_NO, "may hold for good" },
    { "135 %", "fuseopen amps=13.5 rating=10", "open_by", 600, 0, CALC_NO, NULL },
    { "six times", "fuseopen amps=60 rating=10", "open_by", 0.1, 0, CALC_NO, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

/* VD-1 to VD-4, then each place on its limit and a hundredth above it. */
static void
test_drop (void)
{
  static const CalcRow rows[] = {
    { "VD-1", "drop volts=0.45 amps=180 place=starter-positive", "milliohms", 2.5, 1e-12, CALC_A, "0.20 V per 100 A" },
    { "VD-2", "drop volts=0.40 place=mechanical-switch", "milliohms", CALC_NONE, 0, CALC_O, NULL },
    { "VD-2", "drop volts=0.40 place=solenoid-switch", NULL, 0, 0, CALC_O, NULL },
    { "VD-2", "drop volts=0.40 place=magnetic-switch", NULL, 0, 0, CALC_O, NULL },
    { "VD-3", "drop volts=0.22 amps=60 place=ground", "milliohms", 3.7, 0.05, CALC_O, "Clean" },
    { "VD-4", "drop volts=0.00 amps=0 place=cable", "milliohms", CALC_NONE, 0, CALC_C, "must carry current" },
    { "VD-4", "drop volts=0.40 amps=0 place=cable", "milliohms", CALC_NONE, 0, CALC_C, "must carry current" },
    { "TM 5-3820-256-24-4", "drop volts=0.00 place=connection", NULL, 0, 0, CALC_W, NULL },
    { "tables 0.0, practice 0.1", "drop volts=0.01 place=connection", NULL, 0, 0, CALC_D, "0.1 V" },
    { "tables 0.0, practice 0.1", "drop volts=0.10 place=connection", NULL, 0, 0, CALC_D, "0.0 V" },
    { "", "drop volts=0.11 place=connection", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.10 place=short-cable", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.11 place=short-cable", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.20 place=cable", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.21 place=cable", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.200000001 place=cable", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.10 place=mechanical-switch", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.11 place=mechanical-switch", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.20 place=solenoid-switch", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.21 place=solenoid-switch", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.30 place=magnetic-switch", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.31 place=magnetic-switch", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.20 place=ground", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.50 place=starter-positive", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.51 place=starter-positive", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.20 place=starter-negative", NULL, 0, 0, CALC_W, NULL },
    { "worn diesel, TM 5-3895-382-24", "drop volts=0.50 place=starter-negative", NULL, 0, 0, CALC_O, "0.7 V" },
    { "carmaker 2009", "drop volts=0.20 place=charging-positive", NULL, 0, 0, CALC_W, NULL },
    { "carmaker 2009", "drop volts=0.21 place=charging-positive", NULL, 0, 0, CALC_A, NULL },
    { "older figure", "drop volts=0.50 place=charging-positive", NULL, 0, 0, CALC_A, NULL },
    { "", "drop volts=0.51 place=charging-positive", NULL, 0, 0, CALC_O, NULL },
    { "", "drop volts=0.20 place=charging-negative", NULL, 0, 0, CALC_W, NULL },
    { "", "drop volts=0.21 place=charging-negative", NULL, 0, 0, CALC_O, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

/* 0.20 V per 100 A: on the starter's sides always, elsewhere from 100 A on; exactly at it is still good. */
static void
test_drop_heavy (void)
{
  static const CalcRow rows[] = {
    { "nobody said that it was loaded", "drop volts=0.05 place=ground", NULL, 0, 0, CALC_W, "only while the circuit" },
    { "0.36 at 180", "drop volts=0.36 amps=180 place=starter-positive", NULL, 0, 0, CALC_W, NULL },
    { "just above", "drop volts=0.3601 amps=180 place=starter-positive", NULL, 0, 0, CALC_A, "But it is more" },
    { "small starter", "drop volts=0.15 amps=60 place=starter-negative", NULL, 0, 0, CALC_A, "But it is more" },
    { "0.12 at 60", "drop volts=0.12 amps=60 place=starter-negative", NULL, 0, 0, CALC_W, NULL },
    { "below 100 A", "drop volts=0.20 amps=60 place=cable", NULL, 0, 0, CALC_W, NULL },
    { "at 100 A", "drop volts=0.20 amps=100 place=cable", NULL, 0, 0, CALC_W, NULL },
    { "over 100 A", "drop volts=0.30 amps=120 place=magnetic-switch", NULL, 0, 0, CALC_A, "But it is more" },
    { "outside stays outside", "drop volts=0.60 amps=180 place=starter-positive", NULL, 0, 0, CALC_O, NULL },
    { "depends stays so", "drop volts=0.05 amps=20 place=connection", NULL, 0, 0, CALC_D, NULL },
    { "no amps, nothing to compare", "drop volts=0.45 place=starter-positive", NULL, 0, 0, CALC_W, NULL },
  };
  g_autoptr (HsCalcResult) result = calc_run ("drop volts=0.45 amps=180 place=starter-positive", NULL);

  assert_calc_rows (ROWS (rows));
  g_assert_cmpstr (hs_calc_result_get_word (result), ==, "look closer");
  g_assert_cmpstr (hs_calc_result_get_limit (result), ==, "0.50 V or less");
  g_assert_nonnull (strstr (hs_calc_result_get_source (result), "TM 10-3930-671-24"));
}

static void
test_cable (void)
{
  static const CalcRow rows[] = {
    { "WIRE-1", "cable awg=18 meters=1 amps=1", "milliohms_per_meter", 20.95, 0.005, CALC_NO, "ASTM B258" },
    { "WIRE-1", "cable awg=18 meters=1 amps=1", "mm2", 0.823, 0.0005, CALC_NO, NULL },
    { "WIRE-2", "cable awg=16 meters=6 amps=5", "volts", 0.395, 0.0005, CALC_NO, "sound cable" },
    { "WIRE-2", "cable awg=16 meters=6 amps=5 celsius=60", "volts", 0.457, 0.0005, CALC_NO, "0.393 %" },
    { "WIRE-3", "cable awg=2 meters=2 amps=180", "volts", 0.185, 0.0005, CALC_NO, NULL },
    { "WIRE-4", "cable mm2=2.5 meters=6 amps=10", "volts", 0.479, 0.0005, CALC_NO, "IEC 60228 class 5" },
    { "4/0", "cable awg=4/0 meters=1 amps=1", "mm2", 107.22, 0.005, CALC_NO, NULL },
    { "1/0", "cable awg=1/0 meters=10 amps=100", "milliohms", 3.224, 0.001, CALC_NO, NULL },
    { "a listed size is the standard's most", "cable mm2=16.0 meters=1 amps=1000", "volts", 1.21, 1e-9, CALC_NO,
      "most" },
    { "tinned", "cable mm2=16 meters=1 amps=1000 strands=tinned", "volts", 1.24, 1e-9, CALC_NO, NULL },
    { "tinned ends at 35", "cable mm2=50 meters=1 amps=58 strands=tinned", "volts", 0.02, 1e-9, CALC_NO, "not in the" },
    { "not listed: copper by area", "cable mm2=3 meters=6 amps=29", "volts", 1, 1e-9, CALC_NO, "solid copper" },
    { "cold", "cable mm2=3 meters=6 amps=29 celsius=-20", "volts", 0.8428, 1e-9, CALC_NO, NULL },
    { "no current", "cable awg=16 meters=6 amps=0", "volts", 0, 0, CALC_NO, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

static void
test_surge (void)
{
  static const CalcRow rows[] = {
    { "JMP-1", "surge source_volts=12.6 battery_volts=-12.0 milliohms=24", "amps", 1025, 1e-9, CALC_O,
      "Do not connect" },
    { "24 V pack", "surge source_volts=28 battery_volts=12 milliohms=30", "amps", 533.333, 0.001, CALC_O, "no 12 V" },
    { "16 V is still a 12 V source", "surge source_volts=16 battery_volts=15 milliohms=100", "amps", 10, 1e-9,
      CALC_W, NULL },
    { "ordinary", "surge source_volts=12.6 battery_volts=11.4 milliohms=24", "amps", 50, 1e-9, CALC_W, "50 A flow" },
    { "flat", "surge source_volts=14.4 battery_volts=10.5 milliohms=30", "amps", 130, 1e-9, CALC_A, "5 to 10 min" },
    { "other way", "surge source_volts=10 battery_volts=12.4 milliohms=24", "amps", -100, 1e-9, CALC_A,
      "into the source" },
    { "main fuse of 150 A", "surge source_volts=12.6 battery_volts=-12 milliohms=24 fuse=150", "fuse_percent", 683.333,
      0.001, CALC_O, "opens within 0.1 s" },
    { "a hair below zero is reversed", "surge source_volts=12 battery_volts=-0.1 milliohms=24", NULL, 0, 0, CALC_O,
      "Reversed" },
  };

  assert_calc_rows (ROWS (rows));
}

static void
test_relay (void)
{
  static const CalcRow rows[] = {
    { "RLY-1", "relay volts=13.5 ohms=75", "amps", 0.18, 1e-12, CALC_W, "60 to 80 ohm" },
    { "ends of the usual", "relay volts=12 ohms=60", "amps", 0.2, 1e-12, CALC_W, NULL },
    { "ends of the usual", "relay volts=12 ohms=80", "amps", 0.15, 1e-12, CALC_W, NULL },
    { "low ohms", "relay volts=12 ohms=59", NULL, 0, 0, CALC_A, "another relay" },
    { "many ohms", "relay volts=12 ohms=120", "amps", 0.1, 1e-12, CALC_A, "another relay" },
    { "low volts", "relay volts=7.9 ohms=75", NULL, 0, 0, CALC_A, "not pull in" },
    { "8 V", "relay volts=8 ohms=75", NULL, 0, 0, CALC_W, NULL },
    { "new contact, relay data sheet", "contact volts=0.05 amps=10", "new_volts", 0.05, 1e-12, CALC_W, "50 mV" },
    { "its resistance", "contact volts=0.05 amps=10", "milliohms", 5, 1e-9, CALC_W, NULL },
    { "worn", "contact volts=0.2 amps=10", "milliohms", 20, 1e-9, CALC_A, NULL },
    { "bad", "contact volts=0.31 amps=10", NULL, 0, 0, CALC_O, NULL },
  };
  g_autoptr (HsCalcResult) result = calc_run ("terminal number=87A", NULL);

  assert_calc_rows (ROWS (rows));
  g_assert_nonnull (strstr (hs_calc_result_lookup (result, "meaning")->shown, "closed while the coil is off"));
  g_assert_nonnull (strstr (hs_calc_result_get_source (result), "DIN 72552"));
}

static void
test_starter (void)
{
  static const CalcRow rows[] = {
    { "STR-1", "starter cylinders=4 amps=260 crank=slow", "most", 185, 0, CALC_O, "engine or starter drags" },
    { "STR-2", "starter cylinders=4 amps=60 crank=slow volts=12.3", NULL, 0, 0, CALC_A, "both drops" },
    { "the other source", "starter cylinders=6 amps=120 crank=normal", "other_most", 250, 0, CALC_W, "which differ" },
    { "usual", "starter cylinders=8 amps=120 crank=normal", "usual_below", 150, 0, CALC_W, NULL },
    { "much, but turns", "starter cylinders=4 amps=190 crank=normal", NULL, 0, 0, CALC_D, "maker's figure" },
    { "neither", "starter cylinders=4 amps=150 crank=slow", NULL, 0, 0, CALC_D, "strength" },
    { "control side", "starter cylinders=4 amps=0 crank=none volts=12.6", NULL, 0, 0, CALC_A, "small terminal" },
    { "battery", "starter cylinders=4 amps=40 crank=none volts=7.5", NULL, 0, 0, CALC_A, "Charge it" },
  };

  assert_calc_rows (ROWS (rows));
}

static void
test_alternator (void)
{
  static const CalcRow rows[] = {
    { "below", "alternator amps=110 rated=130", "percent", 84.615, 0.001, CALC_O, "85 to 90 %" },
    { "exactly 85 %", "alternator amps=110.5 rated=130", "percent", 85, 1e-9, CALC_W, NULL },
    { "a hair below", "alternator amps=110.499 rated=130", "percent", 84.999, 0.001, CALC_O, NULL },
    { "unrounded", "alternator amps=424 rated=499", "percent", 84.97, 0.005, CALC_O, NULL },
    { "all of it", "alternator amps=130 rated=130", "percent", 100, 0, CALC_W, NULL },
    { "nothing", "alternator amps=0 rated=130", "percent", 0, 0, CALC_O, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

/* How sure each is: of several sources the least sure counts, and memory is called memory. */
static void
test_sure (void)
{
  static const CalcSure rows[] = {
    { "fusedraw body=regular rating=5 millivolts=1", HS_SURE_MEMORY },
    { "fusedraw body=maxi rating=40 millivolts=1", HS_SURE_MEMORY },
    { "fusedraw body=mini rating=15 millivolts=1", HS_SURE_PRACTICE },
    { "fusedraw body=mini rating=15 millivolts=0", HS_SURE_SECONDARY },
    { "fusecolor body=mini rating=15", HS_SURE_SECONDARY },
    { "fuseopen amps=20 rating=10", HS_SURE_MEMORY },
    { "drop volts=0.5 place=starter-positive", HS_SURE_OFFICIAL },
    { "drop volts=0.45 amps=180 place=starter-positive", HS_SURE_OFFICIAL },
    { "drop volts=0.1 place=charging-negative", HS_SURE_SECONDARY },
    { "cable awg=16 meters=6 amps=5", HS_SURE_SECONDARY },
    { "cable mm2=2.5 meters=6 amps=5", HS_SURE_SECONDARY },
    { "surge source_volts=12 battery_volts=11 milliohms=24", HS_SURE_DERIVED },
    { "surge source_volts=12 battery_volts=11 milliohms=24 fuse=80", HS_SURE_MEMORY },
    { "relay volts=12 ohms=75", HS_SURE_SECONDARY },
    { "contact volts=0.05 amps=10", HS_SURE_SECONDARY },
    { "terminal number=30", HS_SURE_SECONDARY },
    { "starter cylinders=4 amps=100 crank=slow", HS_SURE_SECONDARY },
    { "alternator amps=100 rated=100", HS_SURE_PRACTICE },
  };

  assert_calc_sure (ROWS (rows));
}

static void
test_refused (void)
{
  static const CalcRefusal rows[] = {
    { "fusedraw body=regular rating=12 millivolts=1", "no such fuse of 12 A. It takes 0.5, 1, 2" },
    { "fusedraw body=maxi rating=10 millivolts=1", "no such fuse of 10 A. It takes 20, 25" },
    { "fusedraw body=mini rating=7.4999 millivolts=1", "no such fuse" },
    { "fusedraw body=torpedo rating=8 millivolts=1", "none of mini, regular, maxi" },
    { "fusedraw body=mini rating=10 millivolts=-0.3", "swap them" },
    { "fusedraw body=mini rating=10 millivolts=0,3", "write a point" },
    { "fusedraw body=mini rating=10A millivolts=1", "rating: " },
    { "fusedraw body=mini millivolts=1", "rating is missing" },
    { "fusecolor body=mini", "rating, color" },
    { "fusecolor body=mini color=mauve", "no fuse of that family is known to be “mauve”" },
    { "fuseopen amps=1 rating=0", "out of range" },
    { "drop volts=-0.2 place=cable", "swap them" },
    { "drop volts=0.2 place=wire", "none of connection, short-cable" },
    { "drop volts=0.2", "place is missing" },
    { "drop volts=0.2 place=cable amps=-5", "out of range" },
    { "drop volts=45 place=cable", "It takes 0 to 16 V." },
    { "drop volts=nan place=cable", "volts: " },
    { "cable awg=40 meters=1 amps=1", "awg: “40” is no wire size" },
    { "cable awg=16 mm2=2.5 meters=1 amps=1", "only one of awg, mm2" },
    { "cable meters=1 amps=1", "One of these is missing: awg, mm2" },
    { "cable mm2=0 meters=1 amps=1", "It takes 0.05 to 500 mm²" },
    { "cable awg=16 meters=-1 amps=1", "out of range" },
    { "cable awg=16 meters=1 amps=1 celsius=400", "It takes -50 to 200 °C." },
    { "surge source_volts=12 battery_volts=12 milliohms=0", "It takes 0.1 to" },
    { "surge source_volts=-12 battery_volts=12 milliohms=24", "swap the meter leads" },
    { "relay volts=12 ohms=0", "It takes 1 to" },
    { "contact volts=0.1 amps=0", "It takes 0.01" },
    { "terminal number=88", "none of 30, 85" },
    { "starter cylinders=5 amps=100 crank=slow", "none of 4, 6, 8" },
    { "starter cylinders=4 amps=100 crank=slow volts=-12", "stop" },
    { "alternator amps=100 rated=0", "out of range" },
  };

  assert_calc_refusals (ROWS (rows));
}

static void
test_examples (void)
{
  assert_calc_examples (hs_calc_circuit);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc-circuit/fusedraw", test_fusedraw);
  g_test_add_func ("/calc-circuit/fusecolor", test_fusecolor);
  g_test_add_func ("/calc-circuit/fuseopen", test_fuseopen);
  g_test_add_func ("/calc-circuit/drop", test_drop);
  g_test_add_func ("/calc-circuit/drop-heavy", test_drop_heavy);
  g_test_add_func ("/calc-circuit/cable", test_cable);
  g_test_add_func ("/calc-circuit/surge", test_surge);
  g_test_add_func ("/calc-circuit/relay", test_relay);
  g_test_add_func ("/calc-circuit/starter", test_starter);
  g_test_add_func ("/calc-circuit/alternator", test_alternator);
  g_test_add_func ("/calc-circuit/sure", test_sure);
  g_test_add_func ("/calc-circuit/refused", test_refused);
  g_test_add_func ("/calc-circuit/examples", test_examples);
  return g_test_run ();
}
