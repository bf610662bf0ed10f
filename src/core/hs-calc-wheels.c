// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for engine, brakes, tires and torque. Limits are the catalog's wherever it has a check. */

#include "hs-calc-private.h"

#include "hs-brake.h"
#include "hs-coolant.h"
#include "hs-core-error.h"
#include "hs-engine.h"
#include "hs-tire.h"
#include "hs-unit.h"
#include "hs-wheel.h"

#include <math.h>

#define SUBJECT "Engine and wheels"
#define WHOLE 1000000000
#define PRESSURE_UNITS "psi|kPa|bar"
#define MILES_MOST 10000000

static gboolean
is_verdict (const HsCalcResult *result, HsVerdict asked)
{
  HsVerdict verdict;

  return hs_calc_result_get_verdict (result, &verdict) && verdict == asked;
}

/* The rule of 100 psi beside the shares of the catalog: it can only be tried where the unit is known. */
static void
compression_least (const HsCalcInput *input, HsCalcResult *result, gint64 lowest)
{
  static const struct
  {
    const char *shown;
    gint64 least;
  } rules[] = {
    { "100 psi", HS_COMPRESSION_LEAST_PSI * (gint64) WHOLE },
    { "690 kPa", HS_COMPRESSION_LEAST_KPA * (gint64) WHOLE },
    { "6.9 bar", HS_COMPRESSION_LEAST_KPA * (gint64) WHOLE / 100 },
  };
  int unit = hs_calc_choice (input, "unit");

  if (unit < 0)
    hs_calc_say (result, "That none may be below 100 psi (690 kPa) was not tried: no unit was given.");
  else if (lowest >= rules[unit].least)
    hs_calc_say (result, "None is below %s.", rules[unit].shown);
  else if (is_verdict (result, HS_VERDICT_WITHIN))
    {
      hs_calc_verdict (result, HS_VERDICT_DEPENDS, "makers differ");
      hs_calc_say (result, "But one is below %s, which one maker does not accept.", rules[unit].shown);
    }
  else if (is_verdict (result, HS_VERDICT_DEPENDS))
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, NULL);
      hs_calc_say (result, "One is below %s, so it keeps to neither rule.", rules[unit].shown);
    }
}

static void
compression_wet (const gint64 *dry, const gint64 *wet, gsize lowest, HsCalcResult *result)
{
  static const char *const meanings[] = {
    [HS_WET_RINGS] = "Oil seals the lowest one: rings, piston or bore.",
    [HS_WET_VALVES] = "Oil changes nothing in the lowest one: valves or seats, or the head gasket with a low neighbor.",
    [HS_WET_UNCLEAR] = "Oil raises the lowest one a little: test it for leaks with air.",
  };

  if (dry[lowest] == 0)
    hs_calc_say (result, "Where there is nothing dry, oil tells nothing: look for an open valve or a hole.");
  else
    hs_calc_say (result, "%s", meanings[hs_compression_wet (dry[lowest], wet[lowest])]);
}

static gboolean
compression_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  const HsConditions conditions = HS_CONDITIONS_INIT;
  gsize n, n_wet;
  const gint64 *values = hs_calc_scaled_list (input, "values", &n);
  const gint64 *wet = hs_calc_scaled_list (input, "wet", &n_wet);
  HsCompression found;

  if (!hs_compression_compare (values, n, &found))
    return hs_core_bad_value (error,
                              "values: at least two cylinders are compared, and one of them must have pressure.");
  if (n_wet > 0 && n_wet != n)
    return hs_core_bad_value (error, "wet: as many cylinders as values has, in the same order.");
  hs_calc_put_number (result, "lowest_percent", "Lowest of highest", found.lowest_percent, "%", 1);
  hs_calc_put_integer (result, "lowest_cylinder", "Which is lowest", (gint64) found.lowest + 1, NULL);
  hs_calc_put_number (result, "least_75", "75 % of the highest", found.least_75 / WHOLE, NULL, 1);
  hs_calc_put_number (result, "least_70", "70 % of the highest", found.least_70 / WHOLE, NULL, 1);
  hs_calc_judge_pair (scene, result, "compression", values[found.lowest], values[found.highest], &conditions);
  compression_least (input, result, values[found.lowest]);
  if (found.neighbors_low)
    hs_calc_say (result, "Two that stand side by side are low: the head gasket between them.");
  if (n_wet > 0)
    compression_wet (values, wet, found.lowest, result);
  return TRUE;
}

static const HsCalcKey compression_keys[] = {
  { .id = "values", .label = "Each cylinder, in order", .kind = HS_CALC_NUMBERS, .least = 0, .most = 9999,
    .below = "a gauge shows no less than nothing" },
  { .id = "unit", .label = "Unit", .kind = HS_CALC_CHOICE, .choices = PRESSURE_UNITS, .optional = TRUE },
  { .id = "wet", .label = "The same with oil, 15 ml each", .kind = HS_CALC_NUMBERS, .least = 0, .most = 9999,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
cooling_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  static const char *const ids[] = { "psi", "kpa", "bar" };
  const HsConditions conditions = HS_CONDITIONS_INIT;
  const HsUnit *unit = hs_unit_lookup (ids[hs_calc_choice (input, "unit")]);
  double start = hs_calc_number (input, "start");
  double end = hs_calc_number (input, "end");
  double lost = hs_cooling_lost (start, end);
  double bar;

  if (hs_calc_has (input, "cap") && start > hs_calc_number (input, "cap"))
    return hs_core_bad_value (error, "start: never pump it above the cap's rating; more can burst a radiator.");
  if (!hs_unit_convert (lost, unit, hs_unit_lookup ("bar"), &bar, error))
    return FALSE;
  hs_calc_put_number (result, "lost", "Lost", lost, unit->name, 1);
  hs_calc_judge (scene, result, "cooling_pressure_lost", bar, &conditions);
  if (end > start)
    hs_calc_say (result, "It rose: it was still warming up, so repeat it cold.");
  if (hs_calc_has (input, "cap") && start < hs_calc_number (input, "cap"))
    hs_calc_advise (result, "Pump it up to what stands on the cap.");
  return TRUE;
}

static const HsCalcKey cooling_keys[] = {
  { .id = "start", .label = "Pumped up to", .kind = HS_CALC_NUMBER, .decimals = 1, .least = 0, .most = 400 },
  { .id = "end", .label = "After 10 minutes", .kind = HS_CALC_NUMBER, .decimals = 1, .least = 0, .most = 400 },
  { .id = "unit", .label = "Unit", .kind = HS_CALC_CHOICE, .choices = PRESSURE_UNITS, .usual = "psi" },
  { .id = "cap", .label = "Rating on the cap", .kind = HS_CALC_NUMBER, .decimals = 1, .least = 0.1, .most = 400,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

static void
coolant_judge (const HsCalcInput *input, HsCalcResult *result, double celsius)
{
  gboolean asked = hs_calc_has (input, "coldest");

  if (hs_calc_number (input, "percent") < HS_COOLANT_LEAST_PERCENT)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, "too weak");
      hs_calc_say (result, "Below 30 %% there is no protection from corrosion.");
      hs_calc_advise (result, "Drain some and fill up with concentrate of the same kind.");
      hs_calc_cite (result, "US Army TM 5-3820-245-14&P (at least 30 %)", HS_SURE_OFFICIAL);
    }
  else if (asked && celsius > hs_calc_number (input, "coldest"))
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, "may freeze");
      hs_calc_say (result, "It freezes before the coldest weather that is expected.");
      hs_calc_advise (result, "Make it stronger, never over 60 %%.");
    }
  else
    {
      hs_calc_verdict (result, HS_VERDICT_WITHIN, NULL);
      hs_calc_say (result, asked ? "It stands the coldest weather that is expected." : "It protects from corrosion.");
    }
}

static gboolean
coolant_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
             GError **error G_GNUC_UNUSED)
{
  HsCoolantKind kind = (HsCoolantKind) hs_calc_choice (input, "kind");
  HsCoolantSource source;
  double celsius;

  if (hs_coolant_freezes (kind, hs_calc_number (input, "percent"), &celsius, &source))
    {
      hs_calc_put_number (result, "celsius", "Freezes at", celsius, "°C", 1);
      hs_calc_put_number (result, "fahrenheit", "Freezes at", celsius * 1.8 + 32, "°F", 1);
      hs_calc_cite (result, source.text, source.sure);
      coolant_judge (input, result, celsius);
      return TRUE;
    }
  hs_calc_put_none (result, "celsius", "Freezes at");
  hs_calc_verdict (result, HS_VERDICT_OUTSIDE, "too strong");
  hs_calc_say (result, "Never over 60 %%: more concentrate freezes sooner and carries less heat.");
  hs_calc_advise (result, "Drain some and fill up with clean water.");
  hs_calc_cite (result, "Tractor maker's operator manual 2013; US Army TM 5-3820-245-14&P (over 67 %)",
                HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey coolant_keys[] = {
  { .id = "kind", .label = "Glycol: ethylene or propylene", .kind = HS_CALC_CHOICE, .choices = HS_COOLANT_KINDS },
  { .id = "percent", .label = "Concentrate by volume", .kind = HS_CALC_NUMBER, .unit = "%", .least = 0, .most = 100 },
  { .id = "coldest", .label = "Coldest weather expected", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -60,
    .most = 40, .optional = TRUE },
  HS_CALC_KEYS_END,
};

static void
pads_rules (HsCalcResult *result, double thinnest)
{
  if (thinnest < HS_BRAKE_UK_MM)
    {
      hs_calc_say (result, "The UK inspection fails below 1.5 mm.");
      hs_calc_cite (result, "UK testers' manual 3.5(f) as quoted", HS_SURE_SECONDARY);
    }
  if (thinnest < HS_BRAKE_US_HEAVY_BONDED_MM)
    {
      hs_calc_say (result, "Over 10,000 lb a bonded lining or pad must have 1/16 in (1.6 mm).");
      hs_calc_cite (result, "49 CFR 570.59(c)", HS_SURE_OFFICIAL);
    }
  if (thinnest < HS_BRAKE_US_MM)
    {
      hs_calc_say (result, "The US rule up to 10,000 lb is 1/32 in (0.8 mm).");
      hs_calc_cite (result, "49 CFR 570.5", HS_SURE_MEMORY);
    }
}

static gboolean
pads_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error G_GNUC_UNUSED)
{
  const HsConditions conditions = HS_CONDITIONS_INIT;
  gsize n;
  const gint64 *values = hs_calc_scaled_list (input, "mm", &n);
  HsBrakePads pads = hs_brake_pads (values, n);
  double thinnest = (double) values[pads.thinnest] / WHOLE;

  hs_calc_put_number (result, "thinnest", "Thinnest", thinnest, "mm", 1);
  hs_calc_put_number (result, "spread", "Between thickest and thinnest", (double) pads.spread / WHOLE, "mm", 1);
  hs_calc_judge (scene, result, "pad_left", thinnest, &conditions);
  pads_rules (result, thinnest);
  if (pads.spread <= HS_BRAKE_SPREAD_MM * (gint64) WHOLE)
    return TRUE;
  if (is_verdict (result, HS_VERDICT_WITHIN))
    hs_calc_verdict (result, HS_VERDICT_WATCH, "uneven");
  hs_calc_say (result, "They are more than 2 mm apart.");
  hs_calc_advise (result, "Free the slides and try the caliper before new ones go in.");
  hs_calc_cite (result, "Common practice (2 mm apart)", HS_SURE_PRACTICE);
  return TRUE;
}

static const HsCalcKey pads_keys[] = {
  { .id = "mm", .label = "Each lining of the axle, without its plate", .kind = HS_CALC_NUMBERS, .unit = "mm",
    .decimals = 1, .least = 0, .most = 30 },
  HS_CALC_KEYS_END,
};

static gboolean
rotor_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
           GError **error G_GNUC_UNUSED)
{
  gint64 left = hs_calc_scaled (input, "mm") - hs_calc_scaled (input, "least");

  hs_calc_put_number (result, "left", "Above the least", (double) left / WHOLE, "mm", 2);
  hs_calc_cite (result, "49 CFR 570.59(b): the least thickness embossed on the rotor", HS_SURE_OFFICIAL);
  if (left < 0)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, NULL);
      hs_calc_say (result, "It is thinner than the least thickness cast on it.");
      hs_calc_advise (result, "Replace both rotors of the axle, with pads.");
      return TRUE;
    }
  hs_calc_verdict (result, HS_VERDICT_WITHIN, NULL);
  hs_calc_say (result, "It keeps to the least thickness cast on it.");
  return TRUE;
}

static const HsCalcKey rotor_keys[] = {
  { .id = "mm", .label = "Thinnest of eight points", .kind = HS_CALC_NUMBER, .unit = "mm", .decimals = 2, .least = 0,
    .most = 80 },
  { .id = "least", .label = "MIN TH cast on it", .kind = HS_CALC_NUMBER, .unit = "mm", .decimals = 2, .least = 0.1,
    .most = 80 },
  HS_CALC_KEYS_END,
};

static void
fluid_boiling (HsCalcResult *result, const HsBrakeFluid *fluid, double celsius)
{
  hs_calc_cite (result, "49 CFR 571.116", fluid->official ? HS_SURE_OFFICIAL : HS_SURE_SECONDARY);
  if (celsius < fluid->wet_celsius)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, NULL);
      hs_calc_say (result, "It boils sooner than %s may when it is wet.", fluid->name);
      hs_calc_advise (result, "Change it.");
      return;
    }
  hs_calc_verdict (result, HS_VERDICT_WITHIN, NULL);
  hs_calc_say (result, celsius < fluid->dry_celsius ? "It has taken up water, but boils late enough."
                                                   : "It boils like a new one.");
}

static gboolean
fluid_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error G_GNUC_UNUSED)
{
  const HsBrakeFluid *fluid = hs_brake_fluid_get_nth ((guint) hs_calc_choice (input, "grade"));
  const HsConditions conditions = HS_CONDITIONS_INIT;

  hs_calc_put_integer (result, "dry_celsius", "A new one boils at", fluid->dry_celsius, "°C");
  hs_calc_put_integer (result, "wet_celsius", "A wet one may not boil below", fluid->wet_celsius, "°C");
  if (hs_calc_has (input, "water"))
    hs_calc_judge (scene, result, "brake_fluid", hs_calc_number (input, "water"), &conditions);
  else
    fluid_boiling (result, fluid, hs_calc_number (input, "celsius"));
  return TRUE;
}

static const HsCalcKey fluid_keys[] = {
  { .id = "grade", .label = "Grade on the cap", .kind = HS_CALC_CHOICE, .choices = HS_BRAKE_FLUIDS },
  { .id = "celsius", .label = "Boils at", .kind = HS_CALC_NUMBER, .unit = "°C", .least = 50, .most = 400, .either = 1 },
  { .id = "water", .label = "Water by the tester", .kind = HS_CALC_NUMBER, .unit = "%", .decimals = 1, .least = 0,
    .most = 20, .either = 1 },
  HS_CALC_KEYS_END,
};

/* Between the US limit and that of the EU the law of the place decides. */
static void
tread_judge_car (const HsCalcScene *scene, HsCalcResult *result, gint64 mm)
{
  const gint64 us = hs_tire_mm_of_32nds (2 * (gint64) WHOLE);
  const HsConditions conditions = HS_CONDITIONS_INIT;

  if (mm < us || mm >= (gint64) (16 * (gint64) WHOLE / 10))
    {
      hs_calc_judge (scene, result, "tread", (double) mm / WHOLE, &conditions);
      return;
    }
  hs_calc_verdict (result, HS_VERDICT_DEPENDS, "laws differ");
  hs_calc_say (result, "It keeps to 2/32 in (1.5875 mm), the limit of US states, but not to the 1.6 mm of the EU and "
                       "the UK.");
  hs_calc_advise (result, "Replace it now: it is at its end by any law.");
  hs_calc_cite (result, "Md. COMAR 11.22.04.06 (2/32 in); Directive 89/459/EEC (1.6 mm)", HS_SURE_SECONDARY);
}

static void
tread_judge_heavy (HsCalcResult *result, gint64 mm, gint64 least, const char *shown)
{
  gboolean good = mm >= least;

  hs_calc_verdict (result, good ? HS_VERDICT_WITHIN : HS_VERDICT_OUTSIDE, NULL);
  hs_calc_say (result, "Over 10,000 lb the limit there is %s.", shown);
  if (!good)
    hs_calc_advise (result, "Tell the customer that it must be replaced, and write down that you did.");
  hs_calc_cite (result, "49 CFR 570.62(a)", HS_SURE_OFFICIAL);
}

static gboolean
tread_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error G_GNUC_UNUSED)
{
  gboolean metric = hs_calc_has (input, "mm");
  gint64 mm = metric ? hs_calc_scaled (input, "mm") : hs_tire_mm_of_32nds (hs_calc_scaled (input, "thirtyseconds"));

  hs_calc_put_number (result, "mm", "Tread", (double) mm / WHOLE, "mm", 2);
  hs_calc_put_number (result, "thirtyseconds", "Tread",
                      metric ? hs_tire_32nds_of_mm ((double) mm / WHOLE) : hs_calc_number (input, "thirtyseconds"),
                      "/32 in", 2);
  switch (hs_calc_choice (input, "vehicle"))
    {
    case 1:
      tread_judge_heavy (result, mm, hs_tire_mm_of_32nds (4 * (gint64) WHOLE), "4/32 in on front wheels");
      break;
    case 2:
      tread_judge_heavy (result, mm, hs_tire_mm_of_32nds (2 * (gint64) WHOLE), "2/32 in but on front wheels");
      break;
    default:
      tread_judge_car (scene, result, mm);
      break;
    }
  return TRUE;
}

static const HsCalcKey tread_keys[] = {
  { .id = "mm", .label = "Thinnest place", .kind = HS_CALC_NUMBER, .unit = "mm", .decimals = 1, .least = 0, .most = 30,
    .either = 1 },
  { .id = "thirtyseconds", .label = "Thinnest place", .kind = HS_CALC_NUMBER, .unit = "/32 in", .decimals = 0,
    .least = 0, .most = 40, .either = 1 },
  { .id = "vehicle", .label = "Vehicle; heavy is over 10,000 lb", .kind = HS_CALC_CHOICE,
    .choices = "car|heavy-front|heavy-other", .usual = "car" },
  HS_CALC_KEYS_END,
};

static void
tirecode_judge (HsCalcResult *result, const HsTireCode *code, gboolean three_digits, HsDate today)
{
  int months = hs_date_months_between (code->made.from, today);

  if (three_digits || months >= 12 * HS_TIRE_REPLACE_YEARS)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, "too old");
      hs_calc_say (result, three_digits ? "Three digits are from before July 2000, whichever decade it is: too old."
                                        : "It is 10 years old or more.");
      hs_calc_advise (result, "Replace it, whatever its tread.");
    }
  else if (months >= 12 * HS_TIRE_INSPECT_YEARS)
    {
      hs_calc_verdict (result, HS_VERDICT_WATCH, "look every year");
      hs_calc_say (result, "It is over 5 years old: have it looked at every year, replace it by 10.");
    }
  else
    {
      hs_calc_verdict (result, HS_VERDICT_WITHIN, NULL);
      hs_calc_say (result, "It is less than 5 years old.");
    }
  hs_calc_cite (result, "Maker advice on tire age (5 and 10 years)", HS_SURE_PRACTICE);
}

static gboolean
tirecode_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsDate today = hs_calc_date (input, "today");
  g_autoptr (GError) broken = NULL;
  g_autofree char *older = NULL;
  HsTireCode code;

  if (!hs_tire_code_parse (hs_calc_text (input, "code"), today, &code, &broken))
    return hs_core_bad_value (error, "code: %s.", broken->message);
  if (code.made.from > today)
    return hs_core_bad_value (error, "today: the tire would be made after that day.");
  older = code.has_older ? hs_date_format (code.older.from) : NULL;
  hs_calc_put_date (result, "from", "Made from", code.made.from);
  hs_calc_put_date (result, "to", "to", code.made.to);
  hs_calc_put_integer (result, "age_days", "Age", today - code.made.from, "days");
  hs_calc_put_texts (result, "older", "Or the week from", (const char *const[]) { older, NULL });
  if (older != NULL)
    hs_calc_say (result, "It is of the week from %s, or of the one from %s.",
                 hs_calc_result_lookup (result, "from")->shown, older);
  tirecode_judge (result, &code, code.three_digits, today);
  hs_calc_cite (result, "49 CFR 574.5(b)(3) as quoted (weeks from Sunday, 01 is the first full one)",
                HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey tirecode_keys[] = {
  { .id = "code", .label = "Last four digits behind DOT", .kind = HS_CALC_TEXT },
  { .id = "today", .label = "On", .kind = HS_CALC_DATE, .usual = "today" },
  HS_CALC_KEYS_END,
};

static void
wear_put_due (HsCalcResult *result, HsDate today, double miles_left, double per_day)
{
  double days = floor (miles_left / per_day);
  gboolean fits = days < G_MAXINT16 * 10.0;

  hs_calc_put_number (result, "days_left", "Days left", days, "days", 0);
  hs_calc_put_date (result, "due", "At its end about", fits ? hs_date_add_days (today, (int) days) : HS_DATE_NONE);
}

static gboolean
wear_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error G_GNUC_UNUSED)
{
  double now = hs_calc_number (input, "now");
  double least = hs_calc_number (input, "least");
  double left = hs_tire_miles_left (hs_calc_number (input, "new"), now, least, hs_calc_number (input, "miles"));

  hs_calc_put_number (result, "miles_left", "Miles left", left, "mi", 0);
  hs_calc_cite (result, "Straight line: what is left by what has worn off in those miles", HS_SURE_DERIVED);
  if (isnan (left))
    {
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      hs_calc_say (result, "Nothing has worn off, so nothing can be said.");
      hs_calc_advise (result, "Check which was measured first, or measure again later.");
      return TRUE;
    }
  if (now <= least)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, "at its end");
      hs_calc_say (result, "It is at its end.");
    }
  if (hs_calc_has (input, "per_day"))
    wear_put_due (result, scene->today, left, hs_calc_number (input, "per_day"));
  return TRUE;
}

static const HsCalcKey wear_keys[] = {
  { .id = "new", .label = "When it was new, or earlier", .kind = HS_CALC_NUMBER, .unit = "mm", .decimals = 1,
    .least = 0, .most = 60 },
  { .id = "now", .label = "Now", .kind = HS_CALC_NUMBER, .unit = "mm", .decimals = 1, .least = 0, .most = 60 },
  { .id = "least", .label = "Replaced at", .kind = HS_CALC_NUMBER, .unit = "mm", .decimals = 1, .least = 0,
    .most = 60 },
  { .id = "miles", .label = "Driven since", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 1, .most = MILES_MOST },
  { .id = "per_day", .label = "Miles a day", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0.1, .most = 2000,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
torque_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
            GError **error G_GNUC_UNUSED)
{
  gboolean metric = hs_calc_has (input, "nm");
  double given = hs_calc_number (input, metric ? "nm" : "lbfft");
  gint64 odometer = (gint64) hs_calc_number (input, "odometer");

  hs_calc_put_number (result, "nm", "Torque", metric ? given : given * HS_UNIT_NM_PER_LBFFT, "N·m", 1);
  hs_calc_put_number (result, "lbfft", "Torque", metric ? given / HS_UNIT_NM_PER_LBFFT : given, "lbf·ft", 1);
  hs_calc_say (result, "Only the vehicle maker's torque counts.");
  hs_calc_advise (result, "Crosswise, twice round; try them again after 25 to 50 miles, at latest after 100.");
  hs_calc_cite (result, "NIST SP 811 (1 lbf·ft is 1.3558179483314004 N·m)", HS_SURE_DERIVED);
  hs_calc_cite (result, "Carmaker 2020 (25 mi), tire maker (30 mi), another carmaker (within 100 mi), truck makers "
                        "(50 to 100 mi)", HS_SURE_SECONDARY);
  if (!hs_calc_has (input, "odometer"))
    return TRUE;
  hs_calc_put_integer (result, "recheck_from", "Try again from", odometer + HS_WHEEL_RECHECK_FROM_MILES, "mi");
  hs_calc_put_integer (result, "recheck_to", "to", odometer + HS_WHEEL_RECHECK_TO_MILES, "mi");
  hs_calc_put_integer (result, "recheck_latest", "At latest", odometer + HS_WHEEL_RECHECK_LATEST_MILES, "mi");
  return TRUE;
}

static const HsCalcKey torque_keys[] = {
  { .id = "lbfft", .label = "Torque", .kind = HS_CALC_NUMBER, .unit = "lbf·ft", .least = 0, .most = 2000, .either = 1 },
  { .id = "nm", .label = "Torque", .kind = HS_CALC_NUMBER, .unit = "N·m", .least = 0, .most = 2700, .either = 1 },
  { .id = "odometer", .label = "Odometer", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0, .most = MILES_MOST,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
units_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  const HsUnit *from = hs_unit_get_nth ((guint) hs_calc_choice (input, "from"));
  const HsUnit *to = hs_unit_get_nth ((guint) hs_calc_choice (input, "to"));
  g_autoptr (GError) broken = NULL;
  double value;

  if (!hs_unit_convert (hs_calc_number (input, "value"), from, to, &value, &broken))
    return hs_core_bad_value (error, "to: %s.", broken->message);
  hs_calc_put_number (result, "result", "Result", value, to->name, 3);
  hs_calc_cite (result, "NIST SP 811, exact factors", HS_SURE_DERIVED);
  return TRUE;
}

static const HsCalcKey units_keys[] = {
  { .id = "value", .label = "Value", .kind = HS_CALC_NUMBER, .least = -1000000, .most = 1000000 },
  { .id = "from", .label = "From", .kind = HS_CALC_CHOICE, .choices = HS_UNITS },
  { .id = "to", .label = "To", .kind = HS_CALC_CHOICE, .choices = HS_UNITS },
  HS_CALC_KEYS_END,
};

#define GROUND_CAUTION "Hard ground, chocks, stands. Pump the pedal before the vehicle moves."

const HsCalc hs_calc_wheels[] = {
  { .name = "compression", .title = "Compression", .subject = SUBJECT,
    .help = "How alike the cylinders are, dry and with oil.", .example = "values=150,148,152,110 unit=psi",
    .caution = "Fuel and ignition off. Diesel: no oil into it, it may fire; injection pressure goes through skin, "
               "leave its lines alone.",
    .keys = compression_keys, .run = compression_run },
  { .name = "cooling", .title = "Cooling pressure", .subject = SUBJECT,
    .help = "What a cooling system lost in 10 minutes, cold.", .example = "start=15 end=15 cap=15",
    .caution = "Never open it hot. Fans may start with the key off.", .keys = cooling_keys, .run = cooling_run },
  { .name = "coolant", .title = "Coolant freezes at", .subject = SUBJECT,
    .help = "Where a mixture of glycol and water freezes.", .example = "kind=eg percent=45",
    .caution = "Open it cold only. Coolant is poison: wipe up what is spilled.", .keys = coolant_keys,
    .run = coolant_run },
  { .name = "pads", .title = "Brake linings", .subject = SUBJECT,
    .help = "The thinnest lining of an axle and how even they are.", .example = "mm=6.0,5.5,7.0,6.5",
    .caution = GROUND_CAUTION, .keys = pads_keys, .run = pads_run },
  { .name = "rotor", .title = "Brake rotor", .subject = SUBJECT,
    .help = "Compares a rotor with the least thickness cast on it.", .example = "mm=22.41 least=22.00",
    .caution = GROUND_CAUTION, .check = "rotor_thickness", .check_key = "mm", .keys = rotor_keys, .run = rotor_run },
  { .name = "brakefluid", .title = "Brake fluid", .subject = SUBJECT,
    .help = "Judges a brake fluid by its boiling point or its water.", .example = "grade=dot4 celsius=170",
    .caution = "Brake fluid eats paint. The tip of a boiling tester is hot.", .check = "brake_fluid",
    .check_key = "water", .keys = fluid_keys, .run = fluid_run },
  { .name = "tread", .title = "Tread", .subject = SUBJECT, .help = "Tread in both units, and whether it is legal.",
    .example = "thirtyseconds=3", .check = "tread", .check_key = "mm", .keys = tread_keys, .run = tread_run },
  { .name = "tirecode", .title = "Tire date", .subject = SUBJECT, .help = "The week in which a tire was made.",
    .example = "code=3523", .keys = tirecode_keys, .run = tirecode_run },
  { .name = "wear", .title = "Miles left", .subject = SUBJECT, .help = "How far tread or lining will still go.",
    .example = "new=8 now=5 least=1.6 miles=30000", .keys = wear_keys, .run = wear_run },
  { .name = "torque", .title = "Wheel torque", .subject = SUBJECT,
    .help = "Torque in both units, and when to try the nuts again.", .example = "lbfft=80", .check = "wheel_nuts",
    .check_key = "nm", .keys = torque_keys, .run = torque_run },
  { .name = "units", .title = "Units", .subject = SUBJECT,
    .help = "Converts torque, pressure, length, distance, volume and temperature.",
    .example = "value=36 from=psi to=bar", .keys = units_keys, .run = units_run },
  HS_CALC_SHELF_END,
};
