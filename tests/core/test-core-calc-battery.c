// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The battery's calculators on worked examples, by the ids of the tables they stand in. TM is a US Army technical
 * manual; what has no manual is a battery maker's or carmaker's text, or common practice, as the result says. */

#include "calc-test.h"

#include "hs-calc-private.h"

static void
test_charge (void)
{
  static const CalcRow rows[] = {
    { "OCV-1", "charge kind=flooded volts=12.35", "percent", 63.0952, 1e-4, CALC_A, "low" },
    { "OCV-2", "charge kind=flooded volts=12.10", "percent", 30.5556, 1e-4, CALC_A, "charge and test" },
    { "OCV-3", "charge kind=flooded volts=12.80", "percent", 100, 1e-9, CALC_A, "surface charge" },
    { "OCV-4", "charge kind=AGM volts=12.45", "percent", 62.5, 1e-9, CALC_A, "charge" },
    { "OCV-5", "charge kind=AGM volts=12.70", "percent", 87.5, 1e-9, CALC_W, NULL },
    { "uncertain", "charge kind=AGM volts=12.70", "low_percent", 77.5, 1e-9, CALC_W, NULL },
    { "uncertain", "charge kind=AGM volts=12.70", "high_percent", 97.5, 1e-9, CALC_W, NULL },
    { "never over 100", "charge kind=flooded volts=12.65", "high_percent", 100, 1e-9, CALC_W, NULL },
    { "never below 0", "charge kind=flooded volts=11.90", "low_percent", 0, 1e-9, CALC_A, NULL },
    { "AGM band", "charge kind=AGM volts=11.99", "percent", CALC_NONE, 0, CALC_O, "25 % at most" },
    { "AGM band", "charge kind=AGM volts=11.99", "low_percent", 0, 1e-9, CALC_O, NULL },
    { "AGM band", "charge kind=AGM volts=11.99", "high_percent", 25, 1e-9, CALC_O, NULL },
    { "lithium", "charge kind=lithium volts=13.1", "percent", CALC_NONE, 0, CALC_C, "maker" },
    { "lithium", "charge kind=lithium volts=13.1", "low_percent", CALC_NONE, 0, CALC_C, NULL },
    { "lithium", "charge kind=lithium volts=13.1", "high_percent", CALC_NONE, 0, CALC_C, NULL },
    /* TM 5-3805-262-20 p. 5-142: 11.7 V or less 0 %, 12.0 25, 12.2 50, 12.4 75, 12.6 or more 100. */
    { "OCV-6", "charge kind=flooded volts=12.10", "army_percent", 37.5, 1e-9, CALC_A, "5-3805-262-20" },
    { "its ends", "charge kind=EFB volts=12.60", "army_percent", 100, 1e-9, CALC_W, NULL },
    { "its ends", "charge kind=flooded volts=11.70", "army_percent", 0, 1e-9, CALC_O, NULL },
    { "not for AGM", "charge kind=AGM volts=12.45", "army_percent", CALC_NONE, 0, CALC_A, NULL },
    /* SG-3: one maker's table, only if asked for: 12.40 V read at 20 °F is 12.256 V, 51.9 %. */
    { "SG-3", "charge kind=flooded volts=12.40 celsius=-6.666666667 correct=yes", "percent", 51.9, 0.05, CALC_A,
      "12.256" },
    { "SG-3, not asked for", "charge kind=flooded volts=12.40 celsius=-6.666666667", "percent", 69.047619, 1e-5, CALC_W,
      NULL },
    { "corrected only cold or hot", "charge kind=flooded volts=12.40 celsius=26.666666667 correct=yes", "percent",
      69.047619, 1e-5, CALC_W, NULL },
    { "EFB", "charge kind=efb volts=12.45", "percent", 75, 1e-9, CALC_W, NULL },
    { "CELL-2", "charge kind=flooded volts=10.5", "percent", 0, 1e-9, CALC_O, "dead" },
    { "CELL-3", "charge kind=flooded volts=0.4", "percent", 0, 1e-9, CALC_O, "something still on" },
    { "FRZ-3", "charge kind=flooded volts=11.9 celsius=-12", "percent", 1.470588, 1e-5, CALC_O, "may be frozen" },
    { "not rounded", "charge kind=flooded volts=12.3999", NULL, 0, 0, CALC_A, "low" },
    { "not rounded", "charge kind=flooded volts=12.4", NULL, 0, 0, CALC_W, NULL },
  };

  assert_calc_rows (rows, G_N_ELEMENTS (rows));
}

static void
test_acid (void)
{
  static const CalcRow rows[] = {
    { "SG-1", "gravity sg=1.250 fahrenheit=20", "sg80", 1.226, 1e-9, CALC_NO, NULL },
    { "SG-2", "gravity sg=1.250 fahrenheit=100", "sg80", 1.258, 1e-9, CALC_NO, NULL },
    { "SG-1 in °C", "gravity sg=1.250 celsius=-6.666666667", "sg80", 1.226, 1e-9, CALC_NO, NULL },
    { "table", "gravity sg=1.190 fahrenheit=80", "percent", 50, 1e-6, CALC_NO, NULL },
    { "CELL-4", "cells sg=1.265,1.260,1.262,1.235,1.264,1.263", "spread", 0.030, 1e-9, CALC_A, "0.025" },
    { "CELL-4", "cells sg=1.265,1.260,1.262,1.235,1.264,1.263", "weakest", 1.235, 1e-9, CALC_A, "charge" },
    { "on 0.025", "cells sg=1.265,1.240", "spread", 0.025, 1e-9, CALC_W, NULL },
    { "over 0.025", "cells sg=1.265,1.2399", "spread", 0.0251, 1e-9, CALC_A, NULL },
    { "on 0.050", "cells sg=1.265,1.215", "spread", 0.050, 1e-9, CALC_A, NULL },
    { "over 0.050", "cells sg=1.265,1.214", "spread", 0.051, 1e-9, CALC_O, "replace" },
    { "below 1.150", "cells sg=1.150,1.149", "spread", 0.001, 1e-9, CALC_O, "replace" },
    { "on 1.150", "cells sg=1.150,1.151", "spread", 0.001, 1e-9, CALC_W, NULL },
    { "FRZ-1", "freezing percent=40", "celsius", -21.66, 1e-9, CALC_NO, NULL },
    { "FRZ-2", "freezing sg=1.170", "celsius", -19.757143, 1e-6, CALC_NO, NULL },
    { "FRZ-3", "freezing percent=0 ambient=-12", "celsius", -9.4, 1e-9, CALC_O, "thaw" },
    { "from -7 on", "freezing percent=25 ambient=-7", "celsius", -15, 1e-9, CALC_O, "thaw" },
    { "half full", "freezing percent=50 ambient=-7", "celsius", -26.1, 1e-9, CALC_W, NULL },
    { "half full", "freezing percent=50 ambient=-26.1", "celsius", -26.1, 1e-9, CALC_O, "thaw" },
    { "says why", "freezing percent=50 ambient=-26.1", NULL, 0, 0, CALC_O, "colder than" },
    { "says why", "freezing percent=25 ambient=-7", NULL, 0, 0, CALC_O, "A flat battery" },
    { "says why", "freezing percent=50 ambient=-7", NULL, 0, 0, CALC_W, "stands the cold" },
    { "SD-1", "selfdischarge sg=1.265 days=10 fahrenheit=100", "sg", 1.240, 1e-9, CALC_NO, NULL },
    { "no row", "selfdischarge sg=1.265 days=10 celsius=0", "sg", CALC_NONE, 0, CALC_C, "50 to 100" },
    { "TM 5-1185", "coldpower fahrenheit=0", "percent", 40, 1e-9, CALC_NO, NULL },
    { "TM 5-1185", "coldpower fahrenheit=-10", "percent", CALC_NONE, 0, CALC_C, "0 °F" },
  };

  assert_calc_rows (rows, G_N_ELEMENTS (rows));
}

static void
test_load (void)
{
  static const CalcRow rows[] = {
    { "LOAD-1", "load cca=650 celsius=21", "amps", 325, 1e-9, CALC_NO, "75 %" },
    { "LOAD-2", "load cca=770 celsius=21", "amps_by_tens", 380, 1e-9, CALC_NO, NULL },
    { "LOAD-3", "load cca=650 celsius=21 volts=9.8", "limit_volts", 9.6, 1e-9, CALC_W, "75 %" },
    { "LOAD-4", "load cca=650 celsius=18", "limit_volts", 9.5, 1e-9, CALC_NO, NULL },
    { "LOAD-5", "load cca=650 celsius=-4 volts=8.95 percent=100", "limit_volts", 8.9, 1e-9, CALC_A, "borderline" },
    { "LOAD-6", "load cca=650 celsius=-25 volts=9.9 percent=100", "limit_volts", CALC_NONE, 0, CALC_C, "Warm" },
    { "LOAD-6", "load cca=650 celsius=-25", "limit_volts", CALC_NONE, 0, CALC_C, "Warm" },
    { "LOAD-7", "load cca=650 celsius=21 volts=9.2 percent=55", "amps", 325, 1e-9, CALC_C, "Charge it" },
    /* TM 5-3805-263-14&P-2: 3 × Ah, at most 500 A, at least 9 V. */
    { "3 × Ah", "load cca=650 celsius=21 ah=60", "amps_by_hours", 180, 1e-9, CALC_NO, "9 V" },
    { "3 × Ah", "load cca=650 celsius=21 ah=200", "amps_by_hours", 500, 1e-9, CALC_NO, "5-3805-263-14" },
    { "no Ah", "load cca=650 celsius=21", "amps_by_hours", CALC_NONE, 0, CALC_NO, NULL },
    { "on 75 %", "load cca=650 celsius=21 volts=9.6 percent=75", "amps", 325, 1e-9, CALC_W, NULL },
    { "below", "load cca=650 celsius=21 volts=9.59 percent=75", "amps", 325, 1e-9, CALC_O, NULL },
    { "20.9 °C is not 21", "load cca=650 celsius=20.9", "limit_volts", 9.5, 1e-9, CALC_NO, NULL },
    { "-18 °C", "load cca=650 celsius=-18", "limit_volts", 8.5, 1e-9, CALC_NO, NULL },
    { "-18.1 °C", "load cca=650 celsius=-18.1", "limit_volts", CALC_NONE, 0, CALC_C, NULL },
  };

  assert_calc_rows (rows, G_N_ELEMENTS (rows));
}

static void
test_charging (void)
{
  static const CalcRow rows[] = {
    { "CHG-1", "charging volts=14.2 kind=conventional", NULL, 0, 0, CALC_W, NULL },
    { "CHG-2", "charging volts=12.4 kind=conventional", NULL, 0, 0, CALC_O, "not charging" },
    { "CHG-3", "charging volts=12.7 kind=managed", NULL, 0, 0, CALC_C, "read the codes" },
    { "CHG-4", "charging volts=15.6 kind=conventional celsius=20", NULL, 0, 0, CALC_O, "overcharg" },
    { "CHG-5", "setpoint volts=14.40 celsius=0", "volts", 14.85, 1e-9, CALC_NO, NULL },
    { "CHG-5", "setpoint volts=14.40 celsius=35", "volts", 14.22, 1e-9, CALC_NO, NULL },
    { "CHG-5", "charging volts=14.2 kind=conventional celsius=-10", "setpoint_volts", 15.03, 1e-9, CALC_W, NULL },
    { "RIP-1", "ripple volts=0.07", NULL, 0, 0, CALC_W, "stud" },
    { "RIP-1", "ripple volts=0.25", NULL, 0, 0, CALC_A, "suspect" },
    { "RIP-1", "ripple volts=0.60", NULL, 0, 0, CALC_O, "rectifier" },
  };

  assert_calc_rows (rows, G_N_ELEMENTS (rows));
}

static void
test_draw (void)
{
  static const CalcRow rows[] = {
    { "PAR-1", "parasitic amps=0.050 rc=120", "days", 24, 1e-9, CALC_W, NULL },
    { "PAR-2", "parasitic amps=0.250 rc=120", "days", 4.8, 1e-9, CALC_O, "awake" },
    { "PAR-3", "parasitic amps=0.020 rc=100", "maker_milliamps", 25, 1e-9, CALC_W, NULL },
    { "story 20", "parasitic amps=0.31 ah=60", "days", 3.225806, 1e-6, CALC_O, NULL },
    { "story 20", "parasitic amps=0.024 ah=60", "days", 41.666667, 1e-6, CALC_W, NULL },
    { "share", "parasitic amps=0.5 ah=60 share=1", "days", 5, 1e-9, CALC_O, NULL },
    { "no draw", "parasitic amps=0 ah=60", "days", CALC_NONE, 0, CALC_W, "self-discharge" },
    { "on the limit", "parasitic amps=0.05 ah=60", NULL, 0, 0, CALC_W, NULL },
    { "over it", "parasitic amps=0.0500001 ah=60", NULL, 0, 0, CALC_O, NULL },
    { "reverse", "flat days=3.225806452 ah=60", "amps", 0.31, 1e-9, CALC_O, "Measure" },
    { "reverse", "flat days=24 rc=120", "amps", 0.050, 1e-9, CALC_W, NULL },
    { "PEU-1", "runtime ah=60 k=1.2 amps=10", "hours", 4.72, 0.005, CALC_NO, NULL },
    { "PEU-1", "runtime ah=60 k=1.2 amps=10", "plain_hours", 6, 1e-9, CALC_NO, NULL },
    { "PEU-2", "runtime ah=60 k=1.2 amps=3", "hours", 20, 1e-9, CALC_NO, NULL },
    { "PEU-3", "runtime ah=60 k=1.2 amps=25", "hours", 94.2 / 60, 1e-3, CALC_NO, NULL },
    { "PEU-4", "runtime ah=100 k=1.2 amps=5", "hours", 20, 1e-9, CALC_NO, NULL },
    { "slower", "runtime ah=100 k=1.2 amps=2", "plain_hours", 50, 1e-9, CALC_NO, "count on" },
    { "RC-1", "reserve rc=120", "ah_at_25", 50, 1e-9, CALC_NO, "estimate" },
    { "RC-1", "reserve rc=120", "ah", 72, 1e-9, CALC_NO, NULL },
    { "RC-2", "reserve rc=120", "ah_peukert", 73.4, 0.05, CALC_NO, NULL },
    { "RC-3", "reserve rc=90", "ah_at_25", 37.5, 1e-9, CALC_NO, NULL },
  };

  assert_calc_rows (rows, G_N_ELEMENTS (rows));
}

static void
test_labels (void)
{
  static const CalcRow rows[] = {
    { "CONV-1", "rating standard=DIN amps=360", "sae_low", 580, 1e-9, CALC_NO, "estimate" },
    { "CONV-1", "rating standard=DIN amps=360", "sae_high", 612, 1e-9, CALC_NO, NULL },
    { "EN", "rating standard=en amps=460", "sae_high", 500, 1e-9, CALC_NO, NULL },
    { "CA", "rating standard=CA amps=1000", "sae_low", 770, 1e-9, CALC_NO, NULL },
    { "SAE", "rating standard=SAE amps=500", "en_low", 460, 1e-9, CALC_NO, NULL },
    { "SAE", "rating standard=SAE amps=1000", "ca_high", 1300, 1e-9, CALC_NO, NULL },
    { "GRP-1", "tray group=35 length=232 width=177 height=226", "length", 230, 0, CALC_W, "fits" },
    { "GRP-1", "tray group=24 length=232 width=177 height=226", NULL, 0, 0, CALC_O, "too large" },
    { "GRP-1", "tray group=65 length=232 width=177 height=226", NULL, 0, 0, CALC_O, "too large" },
    { "48", "tray group=48 length=320 width=180 height=200", NULL, 0, 0, CALC_D, "measure" },
    { "DC-1", "batterycode code=C5", "age_months", 20, 0, CALC_NO, NULL },
    { "DC-3", "batterycode code=J4", "age_months", 26, 0, CALC_NO, "ask" },
  };
  g_autoptr (HsCalcResult) result = calc_run ("batterycode code=J4", NULL);

  assert_calc_rows (rows, G_N_ELEMENTS (rows));
  g_assert_cmpstr (hs_calc_result_lookup (result, "months")->shown, ==, "2024-09, 2024-10");
  g_assert_cmpint (hs_calc_result_lookup (result, "months")->shape, ==, HS_CALC_IS_TEXTS);
}

/* What rests on memory or on conflicting pages says so. */
static void
test_sure (void)
{
  static const struct
  {
    const char *line;
    const char *sure;
    const char *source;
  } rows[] = {
    { "rating standard=CA amps=1000", HS_SURE_MEMORY, "memory" },
    { "freezing percent=40", HS_SURE_OFFICIAL, "TM 5-3820-256-24-4" },
    { "cells sg=1.2,1.3", HS_SURE_OFFICIAL, "TM 9-6140-200-14" },
    { "charge kind=flooded volts=12.5", HS_SURE_PRACTICE, "Battery-maker table" },
    { "parasitic amps=0.03 rc=100", HS_SURE_PRACTICE, "GM bulletin" },
    { "runtime ah=60 k=1.2 amps=3", HS_SURE_SECONDARY, "Peukert" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsCalcResult) result = calc_run (rows[i].line, NULL);

      g_assert_cmpstr (hs_calc_result_get_sure (result), ==, rows[i].sure);
      g_assert_nonnull (strstr (hs_calc_result_get_source (result), rows[i].source));
    }
}

static void
test_refused (void)
{
  static const CalcRefusal rows[] = {
    { "charge kind=flooded volts=-12.4", "leads swapped or battery reversed: stop" },
    { "charging volts=-14 kind=managed", "leads swapped" },
    { "charge kind=gel volts=12", "flooded, EFB, AGM, lithium" },
    { "charge kind=flooded volts=12 correct=yes", "celsius: " },
    { "charge kind=flooded volts=12420", "0 to 20 V" },
    { "gravity sg=1250 fahrenheit=80", "sg: 1250 is out of range" },
    { "cells sg=1.265", "2 to 12 cells" },
    { "cells sg=1.265,1265", "out of range" },
    { "freezing percent=101", "0 to 100 %" },
    { "load cca=49 celsius=20", "50 to 2500 A" },
    { "parasitic amps=-0.05 ah=60", "turn the clamp meter round" },
    { "parasitic amps=0.05 ah=60 share=40", "share: 40 is out of range" },
    { "flat days=0 ah=60", "days: 0 is out of range" },
    { "runtime ah=60 k=0.9 amps=5", "k: 0.9 is out of range" },
    { "runtime ah=60 k=1.2 amps=0", "amps: 0 is out of range" },
    { "batterycode code=Z9", "code: " },
    { "tray group=99 length=232 width=177 height=226", "none of 24, 27" },
  };

  assert_calc_refusals (rows, G_N_ELEMENTS (rows));
}

static void
test_examples (void)
{
  assert_calc_examples (hs_calc_battery);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc-battery/charge", test_charge);
  g_test_add_func ("/calc-battery/acid", test_acid);
  g_test_add_func ("/calc-battery/load", test_load);
  g_test_add_func ("/calc-battery/charging", test_charging);
  g_test_add_func ("/calc-battery/draw", test_draw);
  g_test_add_func ("/calc-battery/labels", test_labels);
  g_test_add_func ("/calc-battery/sure", test_sure);
  g_test_add_func ("/calc-battery/refused", test_refused);
  g_test_add_func ("/calc-battery/examples", test_examples);
  return g_test_run ();
}
