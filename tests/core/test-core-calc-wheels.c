// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calculators for engine, brakes, tires and torque as they are typed: worked tests by their ids, edges of limits,
 * and refusals. */

#include "calc-test.h"

#include "hs-calc-private.h"

#define ROWS(rows) rows, G_N_ELEMENTS (rows)

/* Manuals of 1992, 1997 and 2012: 75 %. Another maker 2006: 70 % and 100 psi (690 kPa); it prints 725 for 1035 kPa. */
static void
test_compression (void)
{
  static const CalcRow rows[] = {
    { "CMP-1", "compression values=150,148,152,110 unit=psi", "lowest_percent", 72.368, 0.001, CALC_D,
      "None is below 100 psi" },
    { "CMP-1", "compression values=150,148,152,110", "lowest_percent", 72.368, 0.001, CALC_D, "no unit was given" },
    { "CMP-2", "compression values=1035,800 unit=kPa", "least_70", 724.5, 1e-9, CALC_W, "690 kPa" },
    { "which one", "compression values=150,148,152,110", "lowest_cylinder", 4, 0, CALC_D, NULL },
    { "exactly 75 %", "compression values=152,114 unit=psi", "lowest_percent", 75, 1e-9, CALC_W, NULL },
    { "a hair below", "compression values=152,113.999", NULL, 0, 0, CALC_D, NULL },
    { "unrounded", "compression values=599,449", "lowest_percent", 74.96, 0.005, CALC_D, NULL },
    { "exactly 70 %", "compression values=160,112 unit=psi", "lowest_percent", 70, 1e-9, CALC_D, NULL },
    { "below 70 %", "compression values=160,111.9 unit=psi", NULL, 0, 0, CALC_O, NULL },
    { "70 % but below 100 psi", "compression values=130,95 unit=psi", NULL, 0, 0, CALC_O, "neither rule" },
    { "exactly 100 psi", "compression values=140,100 unit=psi", NULL, 0, 0, CALC_D, "None is below 100 psi" },
    { "the same without a unit", "compression values=130,95", NULL, 0, 0, CALC_D, "no unit" },
    { "690 kPa", "compression values=950,690 unit=kPa", NULL, 0, 0, CALC_D, "None is below" },
    { "689 kPa", "compression values=950,689 unit=kPa", NULL, 0, 0, CALC_O, "neither rule" },
    { "6.9 bar", "compression values=9.5,6.9 unit=bar", NULL, 0, 0, CALC_D, "None is below 6.9 bar" },
    { "6.89 bar", "compression values=9.5,6.89 unit=bar", NULL, 0, 0, CALC_O, "neither rule" },
    { "alike but all low", "compression values=95,92,94 unit=psi", NULL, 0, 0, CALC_D, "one maker does not accept" },
    { "two neighbors", "compression values=150,90,95,150 unit=psi", NULL, 0, 0, CALC_O, "head gasket between them" },
    { "wet: rises", "compression values=150,90,150,150 wet=155,130,155,155", NULL, 0, 0, CALC_O, "rings" },
    { "wet: stays", "compression values=150,90,150,150 wet=155,91,155,155", NULL, 0, 0, CALC_O, "valves" },
    { "wet: a little", "compression values=150,90,150,150 wet=155,96,155,155", NULL, 0, 0, CALC_O, "leaks with air" },
    { "wet: nothing dry", "compression values=150,0,150,150 wet=155,40,155,155", "lowest_percent", 0, 0, CALC_O,
      "oil tells nothing" },
  };

  assert_calc_rows (ROWS (rows));
}

static void
test_cooling (void)
{
  static const CalcRow rows[] = {
    { "holds", "cooling start=15 end=15 cap=15", "lost", 0, 0, CALC_W, NULL },
    { "leaks", "cooling start=15 end=13.5 cap=15", "lost", 1.5, 1e-9, CALC_O, "wet places" },
    { "a little in bar", "cooling start=1.1 end=1.09 unit=bar", "lost", 0.01, 1e-9, CALC_O, NULL },
    { "kPa", "cooling start=110 end=110 unit=kPa", "lost", 0, 0, CALC_W, NULL },
    { "rose", "cooling start=15 end=16", "lost", 0, 0, CALC_W, "repeat it cold" },
    { "not up to the cap", "cooling start=12 end=12 cap=15", "lost", 0, 0, CALC_W, "Pump it up" },
  };

  assert_calc_rows (ROWS (rows));
}

/* Ethylene: Army tables below 30 %, tractor maker 2013 above; propylene: handbook of chemistry. */
static void
test_coolant (void)
{
  static const CalcRow rows[] = {
    { "COOL-1", "coolant kind=pg percent=43", "celsius", -24.26, 1e-9, CALC_W, "Handbook" },
    { "COOL-2", "coolant kind=eg percent=45", "celsius", -30.5, 1e-9, CALC_W, "Tractor maker" },
    { "30 %", "coolant kind=eg percent=30", "celsius", -15, 1e-9, CALC_W, NULL },
    { "40 %", "coolant kind=eg percent=40", "celsius", -24, 1e-9, CALC_W, NULL },
    { "50 %", "coolant kind=eg percent=50", "celsius", -37, 1e-9, CALC_W, NULL },
    { "60 %", "coolant kind=EG percent=60", "celsius", -52, 1e-9, CALC_W, NULL },
    { "18.75 % is 20 °F", "coolant kind=eg percent=18.75", "fahrenheit", 20, 1e-9, CALC_O, "corrosion" },
    { "25 % is 10 °F", "coolant kind=eg percent=25", "fahrenheit", 10, 1e-9, CALC_O, "TM 5-3820-245-14&P" },
    { "water", "coolant kind=eg percent=0", "celsius", 0, 0, CALC_O, "concentrate" },
    { "just below 30 %", "coolant kind=pg percent=29.999", NULL, 0, 0, CALC_O, "corrosion" },
    { "too strong", "coolant kind=eg percent=60.1", "celsius", CALC_NONE, 0, CALC_O, "Never over 60 %" },
    { "concentrate", "coolant kind=pg percent=100", "celsius", CALC_NONE, 0, CALC_O, "Never over 60 %" },
    { "PG at its end", "coolant kind=pg percent=60", "celsius", -49, 1e-9, CALC_W, "Tractor maker" },
    { "warm enough", "coolant kind=eg percent=50 coldest=-37", NULL, 0, 0, CALC_W, "stands the coldest" },
    { "too cold for it", "coolant kind=eg percent=50 coldest=-37.1", NULL, 0, 0, CALC_O, "freezes before" },
  };
  g_autoptr (HsCalcResult) result = calc_run ("coolant kind=eg percent=20", NULL);

  assert_calc_rows (ROWS (rows));
  g_assert_cmpstr (hs_calc_result_get_word (result), ==, "too weak");
  g_assert_cmpstr (hs_calc_result_get_sure (result), ==, HS_SURE_OFFICIAL);
}

/* Common practice 3 mm; UK 1.5 mm; 49 CFR 570.59(c) 1/16 in bonded over 10,000 lb; 1/32 in below. */
static void
test_brakes (void)
{
  static const CalcRow rows[] = {
    { "even", "pads mm=6,6.5,6,6", "thinnest", 6, 0, CALC_W, NULL },
    { "2 mm apart", "pads mm=6,8", "spread", 2, 1e-9, CALC_W, NULL },
    { "more than 2 mm apart", "pads mm=6,8.1", "spread", 2.1, 1e-9, CALC_A, "slides" },
    { "worn and uneven", "pads mm=2.5,8", "thinnest", 2.5, 0, CALC_O, "slides" },
    { "UK", "pads mm=1.4", NULL, 0, 0, CALC_O, "UK inspection" },
    { "1/16 in", "pads mm=1.55", NULL, 0, 0, CALC_O, "49 CFR 570.59(c)" },
    { "1/32 in", "pads mm=0.7,0.9", NULL, 0, 0, CALC_O, "49 CFR 570.5" },
    { "exactly the least", "rotor mm=22.00 least=22.00", "left", 0, 0, CALC_W, "570.59(b)" },
    { "below it", "rotor mm=21.99 least=22.00", "left", -0.01, 1e-9, CALC_O, "both rotors" },
    { "above it", "rotor mm=22.41 least=22", "left", 0.41, 1e-9, CALC_W, NULL },
    { "DOT 4 wet is 311 °F", "brakefluid grade=dot4 celsius=155", "wet_celsius", 155, 0, CALC_W, "taken up water" },
    { "DOT 4 below", "brakefluid grade=dot4 celsius=154.9", "dry_celsius", 230, 0, CALC_O, "Change it" },
    { "DOT 3", "brakefluid grade=dot3 celsius=139", "wet_celsius", 140, 0, CALC_O, "DOT 3" },
    { "DOT 5.1 new", "brakefluid grade=dot5.1 celsius=260", "wet_celsius", 180, 0, CALC_W, "like a new one" },
    { "water 2 %", "brakefluid grade=dot4 water=2.0", NULL, 0, 0, CALC_W, NULL },
    { "water over 3 %", "brakefluid grade=dot4 water=3.1", NULL, 0, 0, CALC_O, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

/* US states 2/32 in, EU and UK 1.6 mm, advice at 3.0 mm; over 10,000 lb 49 CFR 570.62(a): 4/32 and 2/32 in. */
static void
test_tread (void)
{
  static const CalcRow rows[] = {
    { "TYR-1", "tread mm=1.59", "thirtyseconds", 2.00315, 1e-5, CALC_D, "1.6 mm" },
    { "TYR-2", "tread thirtyseconds=2.00", "mm", 1.5875, 0, CALC_D, "2/32 in" },
    { "exactly 2/32", "tread mm=1.5875", "thirtyseconds", 2, 1e-12, CALC_D, NULL },
    { "below", "tread mm=1.587499999", NULL, 0, 0, CALC_O, "must be replaced" },
    { "exactly 1.6", "tread mm=1.6", NULL, 0, 0, CALC_A, NULL },
    { "just below 1.6", "tread mm=1.599999999", NULL, 0, 0, CALC_D, NULL },
    { "just below 3", "tread mm=2.999999999", NULL, 0, 0, CALC_A, NULL },
    { "exactly 3", "tread mm=3.0", NULL, 0, 0, CALC_W, NULL },
    { "new", "tread thirtyseconds=10", "mm", 7.9375, 0, CALC_W, NULL },
    { "bald", "tread thirtyseconds=0", "mm", 0, 0, CALC_O, NULL },
    { "heavy, front", "tread thirtyseconds=4 vehicle=heavy-front", "mm", 3.175, 0, CALC_W, "570.62(a)" },
    { "heavy, front, below", "tread thirtyseconds=3.9 vehicle=heavy-front", NULL, 0, 0, CALC_O, "4/32" },
    { "heavy, others", "tread thirtyseconds=2 vehicle=heavy-other", NULL, 0, 0, CALC_W, "2/32" },
    { "heavy, others, below", "tread mm=1.58 vehicle=heavy-other", NULL, 0, 0, CALC_O, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

/* Weeks run from Sunday, 01 is the first full one (49 CFR 574.5(b)(3)); before July 2000 three digits. */
static void
test_tirecode (void)
{
  static const struct
  {
    const char *id, *line, *from, *to, *older;
    int age_days;
    HsVerdict verdict;
  } rows[] = {
    { "TYR-3", "tirecode code=3523 today=2026-11-25", "2023-08-27", "2023-09-02", "–", 1186, HS_VERDICT_WITHIN },
    { "TYR-4", "tirecode code=0126 today=2026-11-25", "2026-01-04", "2026-01-10", "–", 325, HS_VERDICT_WITHIN },
    { "TYR-5", "tirecode code=5225", "2025-12-28", "2026-01-03", "–", 332, HS_VERDICT_WITHIN },
    { "TYR-6", "tirecode code=0301", "2001-01-21", "2001-01-27", "–", 9439, HS_VERDICT_OUTSIDE },
    { "TYR-7", "tirecode code=031", "1991-01-20", "1991-01-26", "1981-01-18", 13093, HS_VERDICT_OUTSIDE },
    { "whole", "tirecode code=DOT~U2LL~LMLR~3523", "2023-08-27", "2023-09-02", "–", 1186, HS_VERDICT_WITHIN },
    { "today is its first day", "tirecode code=3523 today=2023-08-27", "2023-08-27", "2023-09-02", "–", 0,
      HS_VERDICT_WITHIN },
    { "one day short of 5 years", "tirecode code=3523 today=2028-08-26", "2023-08-27", "2023-09-02", "–", 1826,
      HS_VERDICT_WITHIN },
    { "5 years", "tirecode code=3523 today=2028-08-27", "2023-08-27", "2023-09-02", "–", 1827, HS_VERDICT_WATCH },
    { "one day short of 10", "tirecode code=3523 today=2033-08-26", "2023-08-27", "2023-09-02", "–", 3652,
      HS_VERDICT_WATCH },
    { "10 years", "tirecode code=3523 today=2033-08-27", "2023-08-27", "2023-09-02", "–", 3653, HS_VERDICT_OUTSIDE },
  };

  static const CalcRow said[] = {
    { "TYR-7", "tirecode code=031", NULL, 0, 0, CALC_O, "from 1991-01-20, or of the one from 1981-01-18" },
    { "TYR-7", "tirecode code=031", NULL, 0, 0, CALC_O, "too old" },
    { "TYR-4", "tirecode code=0126", NULL, 0, 0, CALC_W, "574.5(b)(3)" },
  };

  assert_calc_rows (ROWS (said));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCalcResult) result = calc_run (rows[i].line, &error);
      HsVerdict verdict;

      g_test_message ("%s", rows[i].id);
      g_assert_no_error (error);
      g_assert_cmpstr (hs_calc_result_lookup (result, "from")->shown, ==, rows[i].from);
      g_assert_cmpstr (hs_calc_result_lookup (result, "to")->shown, ==, rows[i].to);
      g_assert_cmpstr (hs_calc_result_lookup (result, "older")->shown, ==, rows[i].older);
      g_assert_cmpint (hs_calc_result_lookup (result, "age_days")->integer, ==, rows[i].age_days);
      g_assert_true (hs_calc_result_get_verdict (result, &verdict));
      g_assert_cmpint (verdict, ==, rows[i].verdict);
    }
}

static void
test_wear (void)
{
  static const CalcRow rows[] = {
    { "tread", "wear new=8 now=5 least=1.6 miles=30000", "miles_left", 34000, 1e-6, CALC_NO, "Straight line" },
    { "pads", "wear new=12 now=6 least=3 miles=20000", "miles_left", 10000, 1e-6, CALC_NO, NULL },
    { "days", "wear new=12 now=6 least=3 miles=20000 per_day=33", "days_left", 303, 0, CALC_NO, NULL },
    { "at its end", "wear new=8 now=1.6 least=1.6 miles=30000", "miles_left", 0, 0, CALC_O, "at its end" },
    { "beyond it", "wear new=8 now=1 least=1.6 miles=30000", "miles_left", 0, 0, CALC_O, NULL },
    { "nothing worn", "wear new=8 now=8 least=1.6 miles=30000", "miles_left", CALC_NONE, 0, CALC_C, "Nothing" },
    { "swapped", "wear new=5 now=8 least=1.6 miles=30000", "miles_left", CALC_NONE, 0, CALC_C, "measured first" },
  };
  g_autoptr (HsCalcResult) due = calc_run ("wear new=12 now=6 least=3 miles=20000 per_day=33", NULL);
  g_autoptr (HsCalcResult) never = calc_run ("wear new=12 now=11.999 least=3 miles=10000000 per_day=0.1", NULL);

  assert_calc_rows (ROWS (rows));
  g_assert_cmpint (day (hs_calc_result_lookup (due, "due")->shown), ==, day (CALC_TODAY) + 303);
  g_assert_cmpint (hs_calc_result_lookup (never, "due")->shape, ==, HS_CALC_IS_NONE);
}

static void
test_torque (void)
{
  static const CalcRow rows[] = {
    { "TRQ-1", "torque lbfft=80", "nm", 108.47, 0.005, CALC_NO, "Crosswise" },
    { "TRQ-1", "torque nm=100", "lbfft", 73.76, 0.005, CALC_NO, "maker's torque" },
    { "as given", "torque lbfft=80", "lbfft", 80, 0, CALC_NO, NULL },
    { "as given", "torque nm=100", "nm", 100, 0, CALC_NO, NULL },
    { "one", "torque lbfft=1", "nm", 1.3558179483314004, 1e-15, CALC_NO, "NIST" },
    { "25 mi", "torque nm=100 odometer=81250", "recheck_from", 81275, 0, CALC_NO, "25 mi" },
    { "50 mi", "torque nm=100 odometer=81250", "recheck_to", 81300, 0, CALC_NO, NULL },
    { "100 mi", "torque nm=100 odometer=81250", "recheck_latest", 81350, 0, CALC_NO, NULL },
    { "psi", "units value=100 from=psi to=kpa", "result", 689.4757293168, 1e-9, CALC_NO, NULL },
    { "°F", "units value=-40 from=fahrenheit to=celsius", "result", -40, 1e-9, CALC_NO, NULL },
    { "liters", "units value=1 from=gal to=liter", "result", 3.785411784, 1e-12, CALC_NO, NULL },
  };

  assert_calc_rows (ROWS (rows));
}

/* How sure each is: of several sources the least sure counts, and memory is called memory. */
static void
test_sure (void)
{
  static const CalcSure rows[] = {
    { "compression values=150,140 unit=psi", HS_SURE_SECONDARY },
    { "cooling start=15 end=15", HS_SURE_PRACTICE },
    { "coolant kind=eg percent=30", HS_SURE_OFFICIAL },
    { "coolant kind=eg percent=29", HS_SURE_OFFICIAL },
    { "coolant kind=eg percent=31", HS_SURE_SECONDARY },
    { "coolant kind=pg percent=29", HS_SURE_SECONDARY },
    { "coolant kind=eg percent=80", HS_SURE_SECONDARY },
    { "pads mm=6", HS_SURE_PRACTICE },
    { "pads mm=0.7", HS_SURE_MEMORY },
    { "rotor mm=22 least=21", HS_SURE_OFFICIAL },
    { "brakefluid grade=dot4 celsius=200", HS_SURE_OFFICIAL },
    { "brakefluid grade=dot3 celsius=200", HS_SURE_SECONDARY },
    { "brakefluid grade=dot3 water=1", HS_SURE_PRACTICE },
    { "tread mm=1.59", HS_SURE_SECONDARY },
    { "tread mm=4 vehicle=heavy-front", HS_SURE_OFFICIAL },
    { "tirecode code=3523", HS_SURE_PRACTICE },
    { "wear new=8 now=5 least=1.6 miles=30000", HS_SURE_DERIVED },
    { "torque nm=100", HS_SURE_SECONDARY },
    { "units value=1 from=psi to=kpa", HS_SURE_DERIVED },
  };

  assert_calc_sure (ROWS (rows));
}

static void
test_refused (void)
{
  static const CalcRefusal rows[] = {
    { "compression values=150", "at least two cylinders" },
    { "compression values=0,0,0", "one of them must have pressure" },
    { "compression values=150,-1", "a gauge shows no less than nothing" },
    { "compression values=150,140 wet=160", "as many cylinders" },
    { "compression values=150,140 unit=atm", "none of psi, kPa, bar" },
    { "compression values=150;140", "values: " },
    { "compression", "values is missing" },
    { "cooling start=16 end=15 cap=15", "never pump it above" },
    { "cooling start=15", "end is missing" },
    { "coolant kind=oat percent=50", "none of eg, pg" },
    { "coolant kind=eg percent=-1", "It takes 0 to 100 %." },
    { "coolant kind=eg percent=101", "It takes 0 to 100 %." },
    { "coolant kind=eg percent=0,5", "write a point" },
    { "pads mm=", "mm is missing" },
    { "pads mm=60", "out of range" },
    { "rotor mm=22 least=0", "It takes 0.1 to 80 mm" },
    { "brakefluid grade=dot6 celsius=200", "none of dot3" },
    { "brakefluid grade=dot4", "celsius, water" },
    { "brakefluid grade=dot4 celsius=200 water=1", "only one of celsius, water" },
    { "tread", "mm, thirtyseconds" },
    { "tread mm=3 thirtyseconds=4", "only one of mm, thirtyseconds" },
    { "tread mm=-1", "It takes 0 to 30 mm." },
    { "tread mm=3mm", "mm: " },
    { "tirecode code=0023", "code: “0023”: 2023 has no week 00" },
    { "tirecode code=5325", "no week 53" },
    { "tirecode code=4826", "still to come" },
    { "tirecode code=3523 today=2023-08-26", "still to come" },
    { "tirecode code=031 today=1985-01-01", "would be made after that day" },
    { "tirecode code=DOT~ABCD", "does not end in a date" },
    { "tirecode code=3523 today=2026-02-30", "today: " },
    { "tirecode", "code is missing" },
    { "wear new=8 now=5 least=1.6 miles=0", "It takes 1 to" },
    { "torque", "lbfft, nm" },
    { "torque nm=-5", "out of range" },
    { "units value=1 from=psi to=nm", "cannot be the other" },
    { "units value=1 from=psi to=furlong", "none of lbfft" },
  };

  assert_calc_refusals (ROWS (rows));
}

static void
test_examples (void)
{
  assert_calc_examples (hs_calc_wheels);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc-wheels/compression", test_compression);
  g_test_add_func ("/calc-wheels/cooling", test_cooling);
  g_test_add_func ("/calc-wheels/coolant", test_coolant);
  g_test_add_func ("/calc-wheels/brakes", test_brakes);
  g_test_add_func ("/calc-wheels/tread", test_tread);
  g_test_add_func ("/calc-wheels/tirecode", test_tirecode);
  g_test_add_func ("/calc-wheels/wear", test_wear);
  g_test_add_func ("/calc-wheels/torque", test_torque);
  g_test_add_func ("/calc-wheels/sure", test_sure);
  g_test_add_func ("/calc-wheels/refused", test_refused);
  g_test_add_func ("/calc-wheels/examples", test_examples);
  return g_test_run ();
}
