// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calculators of who a vehicle is, as they are typed: worked tests by their ids, with 2026-11-25 as today. The
 * rules of VINs are 49 CFR 565.15, those of codes SAE J2012 and ISO 15031-6 as summed up in engineering texts. */

#include "calc-test.h"

#include "hs-calc-private.h"

#define ROWS(rows) rows, G_N_ELEMENTS (rows)

static void
test_vin_shown (void)
{
  static const CalcShown rows[] = {
    { "VIN-1", "vin vin=1M8GDM9AXKP042788", "check", "valid" },
    { "VIN-1", "vin vin=1M8GDM9AXKP042788", "expected", "X" },
    { "VIN-1: a bus may be either", "vin vin=1M8GDM9AXKP042788", "years", "1989, 2019" },
    { "a truck may be either", "vin vin=1FTFW1ET9DFC10312", "years", "1983, 2013" },
    { "VIN-1", "vin vin=1M8GDM9AXKP042788", "region", "North America (USA)" },
    { "VIN-1", "vin vin=1M8GDM9AXKP042788", "maker", "MOTOR COACH INDUSTRIES, INC." },
    { "VIN-1", "vin vin=1M8GDM9AXKP042788", "type", "bus" },
    { "VIN-1", "vin vin=1M8GDM9AXKP042788", "suggestions", "–" },
    { "VIN-1 as it is typed", "vin vin=1m8-gdm9a~xkp042788", "check", "valid" },
    { "VIN-2", "vin vin=11111111111111111", "check", "valid" },
    { "VIN-3", "vin vin=1G4AH59H45G118341", "check", "valid" },
    { "VIN-3: the sample of the regulation", "vin vin=1G4AH59H?5G118341", "expected", "4" },
    { "VIN-3", "vin vin=1G4AH59H?5G118341", "suggestions", "1G4AH59H45G118341" },
    { "VIN-3: a car, position 7 a digit", "vin vin=1G4AH59H45G118341", "years", "2005" },
    { "VIN-4", "vin vin=LJCPCBLCX11000237", "check", "valid" },
    { "VIN-4", "vin vin=LJCPCBLCX11000237", "region", "Asia (China)" },
    { "VIN-4", "vin vin=LJCPCBLCX11000237", "years", "2001" },
    { "VIN-5", "vin vin=5GZCZ43D13S812715", "check", "valid" },
    { "VIN-5", "vin vin=5GZCZ43D13S812715", "years", "2003" },
    { "VIN-5", "vin vin=5GZCZ43D13S812715", "type", "mpv" },
    { "VIN-7", "vin vin=1M8GDM9AXKP042778", "check", "wrong" },
    { "VIN-7", "vin vin=1M8GDM9AXKP042778", "expected", "7" },
    { "neighbors swapped", "vin vin=5GZCZ43D13S812751", "suggestions", "5GZCZ43D13S812715" },
    { "VIN-8", "vin vin=WVWZZZ1JZ3W386752", "check", "not_used" },
    { "VIN-8", "vin vin=WVWZZZ1JZ3W386752", "expected", "9" },
    { "VIN-8", "vin vin=WVWZZZ1JZ3W386752", "maker", "VOLKSWAGEN AG" },
    { "VIN-8", "vin vin=WVWZZZ1JZ3W386752", "maker_country", "Germany" },
    { "VIN-8", "vin vin=WVWZZZ1JZ3W386752", "years", "2003" },
    { "VIN-8", "vin vin=WVWZZZ1JZ3W386752", "suggestions", "–" },
    { "REG-1", "vin vin=7FA11111111111111", "region", "North America (USA)" },
    { "REG-2", "vin vin=7A511111111111111", "region", "Oceania (New Zealand)" },
    { "REG-3", "vin vin=WVW11111111111111", "region", "Europe (Germany)" },
    { "no country is known", "vin vin=GA111111111111111", "region", "Africa" },
    { "nobody's", "vin vin=01111111111111111", "region", "–" },
    { "a small maker", "vin vin=1A9BE20201N753123", "maker", "A & E TRAILERS" },
    { "A22: no year coded", "vin vin=WVWZZZ1JZ0W386752", "years", "–" },
    { "no maker of that number", "vin vin=11111111111111111", "maker", "–" },
    { "no maker of that number", "vin vin=11111111111111111", "type", "–" },
  };

  assert_calc_shown (ROWS (rows));
}

static void
test_vin (void)
{
  static const CalcRow rows[] = {
    { "VIN-1", "vin vin=1M8GDM9AXKP042788", NULL, 0, 0, CALC_W, "comes back every 30 years" },
    /* A truck of that maker may be light or heavy; position 7 is E. */
    { "a light truck", "vin vin=1FTFW1ET9DFC10312", NULL, 0, 0, CALC_W, "of 10,000 lb (4536 kg) or less, it is 2013." },
    { "a light truck", "vin vin=1FTFW13T1DFC10312", NULL, 0, 0, CALC_O, "of 10,000 lb (4536 kg) or less, it is 1983." },
    { "VIN-7", "vin vin=1M8GDM9AXKP042778", NULL, 0, 0, CALC_O, "Position 9 is X, but the other characters make it 7" },
    { "VIN-8: not wrong", "vin vin=WVWZZZ1JZ3W386752", NULL, 0, 0, CALC_C, "need not have a check digit" },
    { "VIN-3", "vin vin=1G4AH59H?5G118341", NULL, 0, 0, CALC_O, "If the rest is read right, position 9 is 4" },
    { "VIN-5 says who told the era", "vin vin=5GZCZ43D13S812715", NULL, 0, 0, CALC_W, "565.15(b)" },
    { "A22", "vin vin=WVWZZZ1JZ0W386752", NULL, 0, 0, CALC_C, "No model year is coded" },
    { "U is no year", "vin vin=WVWZZZ1JZUW386752", NULL, 0, 0, CALC_C, "Position 10 is U, which is no model year" },
    { "not built yet", "vin vin=1G4AH5AH1Y1183410", NULL, 0, 0, CALC_O, "not built yet" },
    { "S typed for 5", "vin vin=SGZCZ43D13S812715", NULL, 0, 0, CALC_C, "5GZCZ43D13S812715 would add up" },
    { "no maker", "vin vin=11111111111111111", NULL, 0, 0, CALC_W, "has no maker 111" },
  };
  static const CalcRefusal refused[] = {
    { "vin vin=1M8GDM9AXKPO42788", "vin: “1M8GDM9AXKPO42788” is not a VIN: it never has I, O or Q" },      /* VIN-9 */
    { "vin vin=1M8GDM9AXKPO42788", "1M8GDM9AXKP042788, whose check digit is right" },
    { "vin vin=1M8GDM9AXKP04278", "it has 16 characters, a VIN has 17" },                               /* VIN-10 */
    { "vin vin=1M8GDM9AXKP04278", "before 1981" },
    { "vin vin=1M8GDM9A_KP042788", "letters A to Z and digits only" },
    { "vin vin=", "vin is missing" },
    { "vin", "vin is missing" },
  };

  assert_calc_rows (ROWS (rows));
  assert_calc_refusals (ROWS (refused));
}

/* A bus is neither, so nothing is said about light ones. */
static void
test_vin_bus (void)
{
  g_autoptr (HsCalcResult) bus = calc_run ("vin vin=1M8GDM9AXKP042788", NULL);

  g_assert_null (strstr (hs_calc_result_get_because (bus), "10,000 lb"));
}

/* How many years there are, as numbers; the shown text alone would hide a text list. */
static void
test_vin_lists (void)
{
  g_autoptr (HsCalcResult) bus = calc_run ("vin vin=1M8GDM9AXKP042788", NULL);
  g_autoptr (HsCalcResult) none = calc_run ("vin vin=WVWZZZ1JZ0W386752", NULL);
  const HsCalcItem *years = hs_calc_result_lookup (bus, "years");

  g_assert_cmpint (years->shape, ==, HS_CALC_IS_INTEGERS);
  g_assert_cmpuint (years->integers->len, ==, 2);
  g_assert_cmpint (g_array_index (years->integers, gint64, 1), ==, 2019);
  g_assert_cmpuint (hs_calc_result_lookup (none, "years")->integers->len, ==, 0);
  g_assert_cmpint (hs_calc_result_lookup (none, "suggestions")->shape, ==, HS_CALC_IS_TEXTS);
}

static void
test_trouble (void)
{
  static const CalcShown rows[] = {
    { "DTC-1", "trouble hex=0133", "code", "P0133" },
    { "DTC-2", "trouble hex=0420", "code", "P0420" },
    { "DTC-3", "trouble hex=4133", "code", "C0133" },
    { "DTC-4", "trouble hex=8133", "code", "B0133" },
    { "DTC-5", "trouble hex=C100", "code", "U0100" },
    { "DTC-6", "trouble hex=C158", "code", "U0158" },
    { "DTC-7", "trouble hex=D158", "code", "U1158" },
    { "DTC-7", "trouble hex=d158", "scope", "maker" },
    { "DTC-8", "trouble hex=E03E", "code", "U203E" },
    { "DTC-9", "trouble hex=3FFF", "code", "P3FFF" },
    { "DTC-9", "trouble hex=3FFF", "scope", "generic" },
    { "DTC-10", "trouble hex=0000", "code", "–" },
    { "DTC-10", "trouble hex=0000", "scope", "no code" },
    { "DTC-11", "trouble code=P0133", "hex", "0133" },
    { "DTC-11", "trouble code=p~0133", "code", "P0133" },
    { "B12", "trouble code=U0073", "hex", "C073" },
    { "B12", "trouble code=B1000", "hex", "9000" },
    { "B12", "trouble hex=0143", "code", "P0143" },
    { "A11", "trouble code=U3001", "scope", "maker or reserved" },
    { "C3", "trouble code=C3001", "scope", "reserved" },
    { "system", "trouble code=C0001", "system", "chassis" },
    { "the short list", "trouble code=P0562", "meaning", "System voltage too low" },
    { "not in the short list", "trouble code=P0134", "meaning", "–" },
  };
  static const CalcRow said[] = {
    { "the short list", "trouble code=P0562", NULL, 0, 0, CALC_NO, "System voltage too low. | Battery at rest" },
    { "DTC-10", "trouble hex=0000", NULL, 0, 0, CALC_NO, "no code is stored" },
    { "generic", "trouble code=P0134", NULL, 0, 0, CALC_NO, "under fuel and air" },
    { "generic, third character a letter", "trouble code=P0A80", NULL, 0, 0, CALC_NO, "the same on every make" },
    { "maker", "trouble code=P1234", NULL, 0, 0, CALC_NO, "Only the maker" },
    { "either", "trouble code=U3001", NULL, 0, 0, CALC_NO, "Only the maker" },
    { "reserved", "trouble code=B3001", NULL, 0, 0, CALC_NO, "Nobody has given it a meaning" },
  };
  static const CalcRefusal refused[] = {
    { "trouble code=P4133", "code: “P4133” is not a trouble code: its second character is 0, 1, 2 or 3" },  /* DTC-11 */
    { "trouble hex=13", "hex: “13” is not a trouble code" },
    { "trouble code=P0133 hex=0133", "Give only one of code, hex." },
    { "trouble", "One of these is missing: code, hex." },
  };
  static const CalcSure sure[] = {
    { "trouble code=P0562", HS_SURE_SECONDARY },
    { "trouble code=P0560", HS_SURE_MEMORY },
    { "trouble code=P1234", HS_SURE_SECONDARY },
  };

  assert_calc_shown (ROWS (rows));
  assert_calc_rows (ROWS (said));
  assert_calc_refusals (ROWS (refused));
  assert_calc_sure (ROWS (sure));
}

static void
test_readiness (void)
{
  static const CalcShown rows[] = {
    { "RDY-1", "readiness hex=83076504", "lamp", "yes" },
    { "RDY-1", "readiness hex=83~07~65~04", "codes", "3" },
    { "RDY-1", "readiness hex=83076504", "ignition", "spark" },
    { "RDY-1", "readiness hex=83076504", "supported",
      "misfire, fuel system, components, catalyst, evaporative system, oxygen sensor, oxygen sensor heater" },
    { "RDY-1", "readiness hex=83076504", "not_ready", "evaporative system" },
    { "a diesel", "readiness hex=000FEB40", "ignition", "compression" },
    { "a diesel", "readiness hex=000FEB40", "not_ready", "particulate filter" },
    { "all ready", "readiness hex=00076500", "not_ready", "–" },
    { "1996", "readiness hex=00076504 year=1996", "allowance", "2" },
    { "2000", "readiness hex=00076504 year=2000", "allowance", "2" },
    { "2001", "readiness hex=00076504 year=2001", "allowance", "1" },
    { "a diesel", "readiness hex=000FEB40 year=2010", "allowance", "–" },
  };
  static const CalcRow said[] = {
    { "RDY-1: 40 CFR 85.2207", "readiness hex=83076504", NULL, 0, 0, CALC_O, "fails the federal inspection rule" },
    { "lamp alone", "readiness hex=80076500", NULL, 0, 0, CALC_C, "without a code stored" },
    { "open", "readiness hex=00076504", NULL, 0, 0, CALC_D, "Not ready is not a fail" },
    { "open", "readiness hex=00076504", NULL, 0, 0, CALC_D, "taking the battery off" },
    { "ready", "readiness hex=00076500", NULL, 0, 0, CALC_W, NULL },
    { "codes stored, lamp off", "readiness hex=02076500", NULL, 0, 0, CALC_W, NULL },
    { "A10", "readiness hex=00076504 year=2003", NULL, 0, 0, CALC_D, "California" },
    { "a diesel", "readiness hex=000FEB40 year=2010", NULL, 0, 0, CALC_D, "states differ" },
  };
  static const CalcRefusal refused[] = {
    { "readiness hex=8307", "hex: “8307” is not an answer to PID 01" },
    { "readiness hex=83076504 year=1995", "year: 1995 is out of range. It takes 1996 to 2039." },
  };

  assert_calc_shown (ROWS (rows));
  assert_calc_rows (ROWS (said));
  assert_calc_refusals (ROWS (refused));
}

static void
test_odometer (void)
{
  static const CalcRow rows[] = {
    /* 13,000 miles in 100 days; 89 days later another 11,570. */
    { "a taxi", "odometer from=2025-09-02 was=81400 on=2025-12-11 now=94400 ask=2026-03-10", "miles_per_day", 130, 0,
      CALC_NO, NULL },
    { "a taxi", "odometer from=2025-09-02 was=81400 on=2025-12-11 now=94400 ask=2026-03-10", "expected", 105970, 0,
      CALC_NO, NULL },
    { "days", "odometer from=2025-09-02 was=81400 on=2025-12-11 now=94400", "days", 100, 0, CALC_NO, NULL },
    { "unrounded", "odometer from=2026-01-01 was=0 on=2026-02-02 now=1000", "miles_per_day", 31.25, 0, CALC_NO, NULL },
    { "29 days are too few", "odometer from=2026-01-01 was=0 on=2026-01-30 now=900", "miles_per_day", CALC_NONE, 0,
      CALC_C, "at least 30 days" },
    { "fell", "odometer from=2025-09-02 was=81400 on=2025-12-11 now=81399", "miles", -1, 0, CALC_O,
      "less than before" },
    { "fell", "odometer from=2025-09-02 was=81400 on=2025-12-11 now=8140", "expected", CALC_NONE, 0, CALC_O, "fell" },
    { "a digit too many", "odometer from=2025-09-02 was=81400 on=2025-12-11 now=944000", "miles_per_day", CALC_NONE, 0,
      CALC_O, "more than 1000 miles for each day" },
  };
  static const CalcRefusal refused[] = {
    { "odometer from=2025-12-11 was=1 on=2025-12-10 now=2", "on: the later reading is before the earlier one" },
    { "odometer from=2025-12-11 was=1.5 now=2", "was: leave the tenths" },
    { "odometer from=2025-12-11 was=1 now=2.5", "now: leave the tenths" },
    { "odometer from=2025-12-11 was=1 now=12345678", "now: 12345678 is out of range" },
    { "odometer from=2025-12-11 was=-1 now=2", "was: -1 is out of range" },
  };

  assert_calc_rows (ROWS (rows));
  assert_calc_refusals (ROWS (refused));
}

/* Without tables the arithmetic still works, and says nothing about makers and meanings. */
static void
test_without_tables (void)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  HsCalcScene scene = { .checks = checks, .currency = "USD", .today = day (CALC_TODAY) };
  const char *const vin[] = { "vin=5GZCZ43D13S812715", NULL };
  const char *const code[] = { "code=P0562", NULL };
  g_autoptr (HsCalcResult) by_vin = hs_calc_run (hs_calc_lookup ("vin"), &scene, vin, NULL);
  g_autoptr (HsCalcResult) by_code = hs_calc_run (hs_calc_lookup ("trouble"), &scene, code, NULL);

  g_assert_cmpint (hs_calc_result_lookup (by_vin, "maker")->shape, ==, HS_CALC_IS_NONE);
  g_assert_cmpstr (hs_calc_result_lookup (by_vin, "check")->shown, ==, "valid");
  g_assert_cmpint (hs_calc_result_lookup (by_code, "meaning")->shape, ==, HS_CALC_IS_NONE);
  g_assert_cmpstr (hs_calc_result_lookup (by_code, "scope")->shown, ==, "generic");
}

static void
test_names (void)
{
  static const CalcNames rows[] = {
    { "vin", "vin", "check expected years region maker maker_country type suggestions" },
    { "trouble", "code hex", "code hex scope system meaning" },
    { "readiness", "hex year", "lamp codes ignition supported not_ready" },
    { "odometer", "from was on now ask", "miles days miles_per_day expected" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_calc_names (&rows[i]);
}

/* The model year moves with the calendar: next year's is the newest that can be on the road. */
static void
test_vin_today (void)
{
  static const struct
  {
    const char *today;
    const char *years;
  } rows[] = {
    { "2017-12-31", "1989" }, { "2018-01-01", "1989, 2019" }, { "2026-11-25", "1989, 2019" },
    { "2039-01-01", "1989, 2019" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();
  g_autoptr (HsReference) reference = shipped_reference ();
  const char *const words[] = { "vin=1M8GDM9AXKP042788", NULL };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsCalcScene scene = {
        .checks = checks, .reference = reference, .currency = "USD", .today = day (rows[i].today),
      };
      g_autoptr (HsCalcResult) result = hs_calc_run (hs_calc_lookup ("vin"), &scene, words, NULL);

      g_assert_cmpstr (hs_calc_result_lookup (result, "years")->shown, ==, rows[i].years);
    }
}

/* The word in the box, and how sure each answer is: of several sources the least sure counts. */
static void
test_words (void)
{
  static const struct
  {
    const char *line;
    const char *word;
  } rows[] = {
    { "vin vin=1M8GDM9AXKP042788", "adds up" },
    { "vin vin=1M8GDM9AXKP042778", "misread" },
    { "vin vin=WVWZZZ1JZ3W386752", "no check digit" },
    { "odometer from=2025-09-02 was=81400 on=2025-12-11 now=81399", "fell" },
    { "odometer from=2025-09-02 was=81400 on=2025-12-11 now=944000", "jumped" },
  };
  static const CalcSure sure[] = {
    { "vin vin=1M8GDM9AXKP042788", HS_SURE_SECONDARY },
    { "readiness hex=83076504", HS_SURE_SECONDARY },
    { "odometer from=2025-09-02 was=81400 on=2025-12-11 now=94400", HS_SURE_DERIVED },
    { "odometer from=2025-09-02 was=81400 on=2025-12-11 now=944000", HS_SURE_PRACTICE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsCalcResult) result = calc_run (rows[i].line, NULL);

      g_assert_cmpstr (hs_calc_result_get_word (result), ==, rows[i].word);
    }
  assert_calc_sure (ROWS (sure));
}

static void
test_examples (void)
{
  assert_calc_examples (hs_calc_identity);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc-identity/vin-shown", test_vin_shown);
  g_test_add_func ("/calc-identity/vin", test_vin);
  g_test_add_func ("/calc-identity/vin-bus", test_vin_bus);
  g_test_add_func ("/calc-identity/vin-lists", test_vin_lists);
  g_test_add_func ("/calc-identity/trouble", test_trouble);
  g_test_add_func ("/calc-identity/readiness", test_readiness);
  g_test_add_func ("/calc-identity/odometer", test_odometer);
  g_test_add_func ("/calc-identity/without-tables", test_without_tables);
  g_test_add_func ("/calc-identity/names", test_names);
  g_test_add_func ("/calc-identity/vin-today", test_vin_today);
  g_test_add_func ("/calc-identity/words", test_words);
  g_test_add_func ("/calc-identity/examples", test_examples);
  return g_test_run ();
}
