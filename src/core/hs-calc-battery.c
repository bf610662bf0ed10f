// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for batteries: charge, acid, load, charging, draw, ratings, date codes. */

#include "hs-calc-private.h"

#include "hs-acid.h"
#include "hs-battery-code.h"
#include "hs-core-error.h"
#include "hs-drain.h"
#include "hs-rating.h"

#include <math.h>

#define SUBJECT "Battery"

#define ACID_TABLE "US Army TM 5-3820-256-24-4 Table 2"
#define MAKER_TABLE "Battery-maker table at 80 °F (26.7 °C)"
#define AGM_TABLE "Vehicle maker's AGM table"
#define SPREAD_WATCH "US Army TM 9-6140-200-14 ¶4-7 (0.025)"
#define SPREAD_OUTSIDE "US Army TM 5-3740-214-14 (0.050; a cell below 1.150)"
#define HALF_CCA "Carmaker workshop manuals (half the CCA for 15 s)"
#define LOAD_GATE "US Army TM 5-3805-262-20 p. 5-142; carmaker manuals (75 % or more)"
#define FREEZES_AT_7 "US Army TM 5-4210-230-14&P-1 (a discharged battery freezes at -7 °C)"
#define USUAL_SHARE "GM bulletin (no start after about 40 % of the Ah)"
#define RESERVE_RULE "GM bulletin (Ah = reserve minutes x 0.6)"
#define PEUKERT "Peukert's law with the 20 h rating"
#define SLOPE "Battery-education text (-18 mV/°C for 12 V)"
#define EYES "Eye protection on. No sparks or flames near a battery that was just charged."
#define SWAPPED "leads swapped or battery reversed: stop"

#define LEAST_LOAD_PERCENT 75
#define FLAT_PERCENT 25
#define FREEZES_FLAT_CELSIUS (-7)
#define USUAL_SETPOINT_VOLTS 14.4
#define GRAVITY_LEAST 1.0
#define GRAVITY_MOST 1.4

#define FAHRENHEIT_OR_CELSIUS                                                                                         \
  { .id = "fahrenheit", .label = "Temperature", .kind = HS_CALC_NUMBER, .unit = "°F", .least = -80, .most = 180,      \
    .either = 1 },                                                                                                    \
  { .id = "celsius", .label = "Temperature", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -62, .most = 82,          \
    .either = 1 }

#define CAPACITY                                                                                                      \
  { .id = "ah", .label = "Rating, 20 h", .kind = HS_CALC_NUMBER, .unit = "Ah", .least = 1, .most = 1000,              \
    .either = 1 },                                                                                                    \
  { .id = "rc", .label = "Reserve capacity", .kind = HS_CALC_NUMBER, .unit = "min", .least = 1, .most = 2000,         \
    .either = 1 }

#define SHARE                                                                                                         \
  { .id = "share", .label = "Share that may be gone", .kind = HS_CALC_NUMBER, .decimals = 1, .least = 0.01,           \
    .most = 1, .usual = "0.4" }

static double
fahrenheit_of (const HsCalcInput *input)
{
  return hs_calc_has (input, "fahrenheit") ? hs_calc_number (input, "fahrenheit")
                                           : hs_acid_fahrenheit (hs_calc_number (input, "celsius"));
}

/* Amp-hours as given or from reserve capacity. */
static double
amp_hours_of (const HsCalcInput *input, HsCalcResult *result)
{
  if (hs_calc_has (input, "ah"))
    return hs_calc_number (input, "ah");
  hs_calc_cite (result, RESERVE_RULE, HS_SURE_SECONDARY);
  return hs_drain_amp_hours_of_reserve (hs_calc_number (input, "rc"));
}

static int
whole_celsius (const HsCalcInput *input)
{
  return (int) floor (hs_calc_number (input, "celsius"));
}

/* How sure the volts are: both ends, the upper one alone, or nothing. */
static void
put_charge_bounds (HsCalcResult *result, HsBatteryKind kind, double volts, double percent)
{
  HsBatteryCharge charge = hs_battery_charge (kind, (gint64) floor (volts * 1000));
  double low = NAN;
  double high = NAN;

  if (!isnan (percent))
    {
      low = fmax (percent - HS_BATTERY_CHARGE_SURE_PERCENT, 0);
      high = fmin (percent + HS_BATTERY_CHARGE_SURE_PERCENT, 100);
    }
  else if (charge.at_most)
    {
      low = 0;
      high = charge.per_mille / 10.0;
    }
  hs_calc_put_number (result, "low_percent", "At least", low, "%", 0);
  hs_calc_put_number (result, "high_percent", "At most", high, "%", 0);
}

/* A second table, for kinds that it holds for. */
static void
put_army_charge (HsCalcResult *result, HsBatteryKind kind, double volts)
{
  gboolean flooded = kind == HS_BATTERY_FLOODED || kind == HS_BATTERY_EFB;

  hs_calc_put_number (result, "army_percent", "By a coarse Army table",
                      flooded ? hs_battery_army_percent (volts) : (double) NAN, "%", 0);
  if (flooded)
    hs_calc_cite (result, "US Army TM 5-3805-262-20 p. 5-142 (coarse)", HS_SURE_OFFICIAL);
}

/* Volts as they would be at 80 °F by one maker's table, for whoever wants that. */
static double
corrected_volts (const HsCalcInput *input, HsCalcResult *result)
{
  double volts = hs_acid_volts_at_80_fahrenheit (hs_calc_number (input, "volts"),
                                                 hs_acid_fahrenheit (hs_calc_number (input, "celsius")));
  g_autofree char *text = hs_calc_rounded_text (volts, 3);

  hs_calc_say (result, "At 80 °F it would be %s V by one maker's table; other sources differ by 3 to 20 times.", text);
  hs_calc_cite (result, "Battery-maker table (0.024 V for 10 °F); sources conflict", HS_SURE_SECONDARY);
  return volts;
}

static gboolean
run_charge (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  static const HsBatteryKind kinds[] = { HS_BATTERY_FLOODED, HS_BATTERY_EFB, HS_BATTERY_AGM, HS_BATTERY_LITHIUM };
  HsConditions conditions = HS_CONDITIONS_INIT;
  HsBatteryKind kind = kinds[hs_calc_choice (input, "kind")];
  gboolean correct = hs_calc_choice (input, "correct") == 1;
  double volts = hs_calc_number (input, "volts");
  double percent = NAN;

  if (correct && !hs_calc_has (input, "celsius"))
    return hs_core_bad_value (error, "celsius: the volts can only be corrected for a temperature that is known.");
  if (correct)
    volts = corrected_volts (input, result);
  conditions.battery_kind = kind;
  conditions.has_temperature = hs_calc_has (input, "celsius");
  conditions.celsius = conditions.has_temperature ? whole_celsius (input) : 0;
  hs_battery_charge_percent (kind, volts, &percent);
  hs_calc_put_number (result, "percent", "State of charge", percent, "%", 0);
  put_charge_bounds (result, kind, volts, percent);
  put_army_charge (result, kind, volts);
  hs_calc_judge (scene, result, "battery_rest", volts, &conditions);
  if (kind == HS_BATTERY_AGM && isnan (percent))
    hs_calc_say (result, "Below 12.0 V the table gives 25 %% at most and no figure.");
  if (kind != HS_BATTERY_LITHIUM)
    hs_calc_cite (result, kind == HS_BATTERY_AGM ? AGM_TABLE : MAKER_TABLE, HS_SURE_SECONDARY);
  if (kind == HS_BATTERY_EFB)
    hs_calc_cite (result, "EFB read as flooded", HS_SURE_PRACTICE);
  return TRUE;
}

static const HsCalcKey charge_keys[] = {
  { .id = "kind", .label = "Kind of battery", .kind = HS_CALC_CHOICE, .choices = "flooded|EFB|AGM|lithium" },
  { .id = "volts", .label = "Volts at rest", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2, .least = 0,
    .most = 20, .below = SWAPPED },
  { .id = "celsius", .label = "Temperature of the battery", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -60,
    .most = 80, .optional = TRUE },
  { .id = "correct", .label = "Correct the volts to 80 °F", .kind = HS_CALC_CHOICE, .choices = "no|yes",
    .usual = "no" },
  HS_CALC_KEYS_END,
};

static gboolean
run_gravity (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double sg80 = hs_acid_gravity_at_80_fahrenheit (hs_calc_number (input, "sg"), fahrenheit_of (input));

  hs_calc_put_number (result, "sg80", "Gravity at 80 °F", sg80, NULL, 3);
  hs_calc_put_number (result, "percent", "State of charge", hs_acid_percent_of_gravity (sg80), "%", 0);
  hs_calc_put_number (result, "volts", "Volts at rest, about", hs_acid_volts_of_gravity (sg80), "V", 2);
  hs_calc_cite (result, "US Army TM 5-3820-256-24-4 fig. 7 (0.004 for 10 °F)", HS_SURE_OFFICIAL);
  hs_calc_cite (result, "6 x (gravity + 0.84), to 0.08 V", HS_SURE_MEMORY);
  hs_calc_say (result, "The volts are a cross-check only, to 0.08 V.");
  return TRUE;
}

static const HsCalcKey gravity_keys[] = {
  { .id = "sg", .label = "Gravity as read", .kind = HS_CALC_NUMBER, .decimals = 3, .least = GRAVITY_LEAST,
    .most = GRAVITY_MOST },
  FAHRENHEIT_OR_CELSIUS,
  HS_CALC_KEYS_END,
};

/* In scaled integers: a spread of exactly 0.025 is within. */
static HsVerdict
cells_verdict (gint64 spread, gint64 least)
{
  double power = (double) hs_decimal_power (HS_DECIMAL_MOST);

  if (spread > llround (HS_ACID_SPREAD_OUTSIDE * power) || least < llround (HS_ACID_LEAST_CELL * power))
    return HS_VERDICT_OUTSIDE;
  return spread > llround (HS_ACID_SPREAD_WATCH * power) ? HS_VERDICT_WATCH : HS_VERDICT_WITHIN;
}

static gboolean
run_cells (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double power = (double) hs_decimal_power (HS_DECIMAL_MOST);
  gint64 spread, least;
  gsize n_cells;
  const gint64 *cells = hs_calc_scaled_list (input, "sg", &n_cells);
  HsVerdict verdict;

  if (n_cells < 2 || n_cells > 12)
    {
      g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                           "sg: write the gravity of 2 to 12 cells with commas between, 1.265,1.260.");
      return FALSE;
    }
  spread = hs_acid_spread (cells, n_cells, &least);
  verdict = cells_verdict (spread, least);
  hs_calc_put_number (result, "spread", "Spread", (double) spread / power, NULL, 3);
  hs_calc_put_number (result, "weakest", "Weakest cell", (double) least / power, NULL, 3);
  hs_calc_verdict (result, verdict, verdict == HS_VERDICT_OUTSIDE ? "replace" : NULL);
  hs_calc_say (result, verdict == HS_VERDICT_WITHIN   ? "The cells are alike."
                       : verdict == HS_VERDICT_WATCH  ? "One manual calls a spread over 0.025 unserviceable, another "
                                                        "one over 0.050."
                                                      : "A cell is bad.");
  hs_calc_advise (result, "It counts on a fully charged battery: charge, let it rest, read all cells again.");
  hs_calc_cite (result, SPREAD_WATCH, HS_SURE_OFFICIAL);
  hs_calc_cite (result, SPREAD_OUTSIDE, HS_SURE_OFFICIAL);
  return TRUE;
}

static const HsCalcKey cells_keys[] = {
  { .id = "sg", .label = "Gravity of each cell", .kind = HS_CALC_NUMBERS, .decimals = 3, .least = GRAVITY_LEAST,
    .most = GRAVITY_MOST },
  HS_CALC_KEYS_END,
};

/* The printed step for that temperature, out of the catalog's own table. */
static double
load_limit (const HsCalcScene *scene, const HsConditions *conditions)
{
  const HsCheck *check = hs_checks_lookup (scene->checks, "load_test");
  g_autoptr (GArray) bands = hs_check_dup_bands (scene->checks, check, conditions, NULL);
  const HsCheckBand *lowest = bands->len > 1 ? &g_array_index (bands, HsCheckBand, 0) : NULL;

  return lowest == NULL ? NAN : (double) lowest->high / (double) hs_decimal_power (check->decimals);
}

static void
judge_load (const HsCalcScene *scene, const HsCalcInput *input, const HsConditions *conditions, double limit,
            HsCalcResult *result)
{
  if (hs_calc_has (input, "percent") && hs_calc_number (input, "percent") < LEAST_LOAD_PERCENT)
    {
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, "charge first");
      hs_calc_say (result, "The test is not valid below 75 %% of charge.");
      hs_calc_advise (result, "Charge it to 75 %% or more, then test again.");
      hs_calc_cite (result, LOAD_GATE, HS_SURE_OFFICIAL);
      return;
    }
  if (hs_calc_has (input, "volts") || isnan (limit))
    hs_calc_judge (scene, result, "load_test", hs_calc_number (input, "volts"), conditions);
  if (!hs_calc_has (input, "percent"))
    hs_calc_advise (result, "It counts only from 75 %% of charge (12.4 V at rest) on.");
}

/* The other rule that is printed, where the amp-hours are known. */
static void
put_load_by_hours (const HsCalcInput *input, HsCalcResult *result)
{
  if (!hs_calc_has (input, "ah"))
    {
      hs_calc_put_none (result, "amps_by_hours", "By another manual, 3 x Ah");
      return;
    }
  hs_calc_put_number (result, "amps_by_hours", "By another manual, 3 x Ah",
                      hs_rating_load_amps_by_hours (hs_calc_number (input, "ah")), "A", 0);
  hs_calc_say (result, "At 3 x Ah a good battery shows 9 V or more after 15 seconds.");
  hs_calc_cite (result, "US Army TM 5-3805-263-14&P-2 (3 x Ah, at most 500 A)", HS_SURE_OFFICIAL);
}

static gboolean
run_load (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  double cca = hs_calc_number (input, "cca");
  double limit;

  conditions.has_temperature = TRUE;
  conditions.celsius = whole_celsius (input);
  limit = load_limit (scene, &conditions);
  hs_calc_put_number (result, "amps", "Load for 15 seconds", hs_rating_load_amps (cca), "A", 0);
  hs_calc_put_number (result, "limit_volts", "Least volts at the end", limit, "V", 1);
  hs_calc_put_number (result, "amps_by_tens", "Rounded down by one maker", hs_rating_load_amps_by_tens (cca), "A", 0);
  put_load_by_hours (input, result);
  judge_load (scene, input, &conditions, limit, result);
  hs_calc_cite (result, HALF_CCA, HS_SURE_SECONDARY);
  hs_calc_cite (result, "US Army TM 5-4210-230-14&P-1 Table 5 (read as steps)", HS_SURE_OFFICIAL);
  return TRUE;
}

static const HsCalcKey load_keys[] = {
  { .id = "cca", .label = "Rated CCA", .kind = HS_CALC_NUMBER, .unit = "A", .least = 50, .most = 2500 },
  { .id = "celsius", .label = "Temperature of the battery", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -60,
    .most = 80 },
  { .id = "volts", .label = "Volts at the end", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2, .least = 0,
    .most = 15, .below = SWAPPED, .optional = TRUE },
  { .id = "percent", .label = "State of charge before", .kind = HS_CALC_NUMBER, .unit = "%", .least = 0, .most = 100,
    .optional = TRUE },
  { .id = "ah", .label = "Rating, 20 h", .kind = HS_CALC_NUMBER, .unit = "Ah", .least = 1, .most = 1000,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

/* Outside if it may be frozen where it stands: below the table's point, or flat from -7 °C down. */
static void
judge_frozen (double percent, double freezes, double ambient, HsCalcResult *result)
{
  gboolean flat = percent <= FLAT_PERCENT;
  gboolean frozen = ambient <= freezes || (flat && ambient <= FREEZES_FLAT_CELSIUS);

  hs_calc_verdict (result, frozen ? HS_VERDICT_OUTSIDE : HS_VERDICT_WITHIN, frozen ? "may be frozen" : NULL);
  if (!frozen)
    hs_calc_say (result, "It stands the cold of that place.");
  else if (ambient <= freezes)
    hs_calc_say (result, "That place is as cold as where its acid freezes, or colder than that.");
  else
    hs_calc_say (result, "A flat battery may freeze there.");
  if (frozen)
    hs_calc_advise (result, "Do not charge or jump it. Let it thaw at room temperature, then charge and test.");
}

static gboolean
run_freezing (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  gboolean by_gravity = hs_calc_has (input, "sg");
  double percent = by_gravity ? hs_acid_percent_of_gravity (hs_calc_number (input, "sg"))
                              : hs_calc_number (input, "percent");
  double freezes = by_gravity ? hs_acid_freezes_at_gravity (hs_calc_number (input, "sg"))
                              : hs_acid_freezes_at_percent (percent);

  hs_calc_put_number (result, "celsius", "Freezes at", freezes, "°C", 1);
  hs_calc_put_number (result, "fahrenheit", "Freezes at", hs_acid_fahrenheit (freezes), "°F", 0);
  if (hs_calc_has (input, "ambient"))
    judge_frozen (percent, freezes, hs_calc_number (input, "ambient"), result);
  if (percent <= FLAT_PERCENT)
    hs_calc_say (result, "Flat batteries have frozen from -7 °C down; another manual says -12 °C.");
  hs_calc_cite (result, ACID_TABLE, HS_SURE_OFFICIAL);
  hs_calc_cite (result, FREEZES_AT_7, HS_SURE_OFFICIAL);
  return TRUE;
}

static const HsCalcKey freezing_keys[] = {
  { .id = "percent", .label = "State of charge", .kind = HS_CALC_NUMBER, .unit = "%", .least = 0, .most = 100,
    .either = 1 },
  { .id = "sg", .label = "Gravity at 80 °F", .kind = HS_CALC_NUMBER, .decimals = 3, .least = GRAVITY_LEAST,
    .most = GRAVITY_MOST, .either = 1 },
  { .id = "ambient", .label = "Where it stands", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -60, .most = 60,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
run_charging (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsConditions conditions = HS_CONDITIONS_INIT;

  conditions.smart_charging = hs_calc_choice (input, "kind") == 1 ? HS_YES : HS_NO;
  conditions.has_temperature = hs_calc_has (input, "celsius");
  conditions.celsius = conditions.has_temperature ? whole_celsius (input) : 0;
  hs_calc_judge (scene, result, "charging", hs_calc_number (input, "volts"), &conditions);
  if (!conditions.has_temperature)
    return TRUE;
  hs_calc_put_number (result, "setpoint_volts", "14.40 V at 25 °C becomes",
                      hs_rating_charging_volts (USUAL_SETPOINT_VOLTS, hs_calc_number (input, "celsius")), "V", 2);
  hs_calc_cite (result, SLOPE, HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey charging_keys[] = {
  { .id = "volts", .label = "Volts at the posts, running", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2,
    .least = 0, .most = 20, .below = SWAPPED },
  { .id = "kind", .label = "Regulation", .kind = HS_CALC_CHOICE, .choices = "conventional|managed" },
  { .id = "celsius", .label = "Temperature of the battery", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -60,
    .most = 80, .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
run_setpoint (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  hs_calc_put_number (result, "volts", "Charging volts",
                      hs_rating_charging_volts (hs_calc_number (input, "volts"), hs_calc_number (input, "celsius")),
                      "V", 2);
  hs_calc_cite (result, SLOPE, HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey setpoint_keys[] = {
  { .id = "volts", .label = "Set-point at 25 °C", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2, .least = 10,
    .most = 20 },
  { .id = "celsius", .label = "Temperature of the battery", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -60,
    .most = 80 },
  HS_CALC_KEYS_END,
};

static gboolean
run_ripple (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsConditions conditions = HS_CONDITIONS_INIT;

  hs_calc_judge (scene, result, "ripple", hs_calc_number (input, "volts"), &conditions);
  hs_calc_say (result, "At the alternator's stud training pages accept 0.25 or 0.30 V.");
  hs_calc_cite (result, "Two training pages (at the stud)", HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey ripple_keys[] = {
  { .id = "volts", .label = "AC volts at the posts", .kind = HS_CALC_NUMBER, .unit = "V AC", .decimals = 2,
    .least = 0, .most = 10 },
  HS_CALC_KEYS_END,
};

static gboolean
run_parasitic (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  double amps = hs_calc_number (input, "amps");
  double ah = amp_hours_of (input, result);

  hs_calc_put_number (result, "days", "Days to no-start", hs_drain_days (ah, hs_calc_number (input, "share"), amps),
                      "days", 1);
  hs_calc_put_number (result, "usable_ah", "Amp-hours that may go", ah * hs_calc_number (input, "share"), "Ah", 1);
  if (hs_calc_has (input, "rc"))
    hs_calc_put_number (result, "maker_milliamps", "One maker's limit, RC / 4",
                        hs_drain_maker_milliamps (hs_calc_number (input, "rc")), "mA", 1);
  hs_calc_judge (scene, result, "sleeping_draw", amps, &conditions);
  if (amps <= 0)
    hs_calc_say (result, "Without a draw only self-discharge empties it.");
  hs_calc_cite (result, USUAL_SHARE, HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey parasitic_keys[] = {
  { .id = "amps", .label = "Draw, all asleep", .kind = HS_CALC_NUMBER, .unit = "A", .decimals = 3, .least = 0,
    .most = 50, .below = "turn the clamp meter round" },
  CAPACITY,
  SHARE,
  HS_CALC_KEYS_END,
};

static gboolean
run_flat (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  double amps = hs_drain_amps (amp_hours_of (input, result), hs_calc_number (input, "share"),
                               hs_calc_number (input, "days"));

  hs_calc_put_number (result, "amps", "Draw that does that", amps, "A", 3);
  hs_calc_judge (scene, result, "sleeping_draw", amps, &conditions);
  hs_calc_advise (result, "Measure the draw and see whether it fits.");
  hs_calc_cite (result, USUAL_SHARE, HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey flat_keys[] = {
  { .id = "days", .label = "Flat after", .kind = HS_CALC_NUMBER, .unit = "days", .decimals = 1, .least = 0.01,
    .most = 1000 },
  CAPACITY,
  SHARE,
  HS_CALC_KEYS_END,
};

static gboolean
run_runtime (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double ah = hs_calc_number (input, "ah");
  double amps = hs_calc_number (input, "amps");

  hs_calc_put_number (result, "hours", "Runs for",
                      hs_drain_hours (ah, hs_calc_number (input, "k"), amps), "h", 2);
  hs_calc_put_number (result, "plain_hours", "By amp-hours alone", ah / amps, "h", 2);
  if (amps < ah / HS_DRAIN_RATED_HOURS)
    hs_calc_say (result, "Below the 20 h rate the law promises more than the label: count on Ah / A.");
  hs_calc_cite (result, PEUKERT, HS_SURE_DERIVED);
  hs_calc_cite (result, "Exponents: flooded 1.2 to 1.3, AGM 1.05 to 1.15", HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey runtime_keys[] = {
  { .id = "ah", .label = "Rating, 20 h", .kind = HS_CALC_NUMBER, .unit = "Ah", .least = 1, .most = 1000 },
  { .id = "k", .label = "Peukert's exponent", .kind = HS_CALC_NUMBER, .decimals = 2, .least = 1, .most = 2 },
  { .id = "amps", .label = "Load", .kind = HS_CALC_NUMBER, .unit = "A", .decimals = 1, .least = 0.001,
    .most = 2500 },
  HS_CALC_KEYS_END,
};

static gboolean
run_reserve (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double rc = hs_calc_number (input, "rc");

  hs_calc_put_number (result, "ah_at_25", "Given at 25 A", hs_drain_amp_hours_at_25 (rc), "Ah", 1);
  hs_calc_put_number (result, "ah", "20 h rating, estimate", hs_drain_amp_hours_of_reserve (rc), "Ah", 1);
  hs_calc_put_number (result, "ah_other", "By another rule, estimate", hs_drain_amp_hours_of_reserve_other (rc), "Ah",
                      1);
  hs_calc_put_number (result, "ah_peukert", "By Peukert's law, estimate",
                      hs_drain_amp_hours_by_peukert (rc, hs_calc_number (input, "k")), "Ah", 1);
  hs_calc_say (result, "Only the first figure is exact; the 20 h ratings are estimates.");
  hs_calc_cite (result, RESERVE_RULE, HS_SURE_SECONDARY);
  hs_calc_cite (result, "Web page (RC / 2 + 16), weak", HS_SURE_SECONDARY);
  hs_calc_cite (result, PEUKERT, HS_SURE_DERIVED);
  return TRUE;
}

static const HsCalcKey reserve_keys[] = {
  { .id = "rc", .label = "Reserve capacity", .kind = HS_CALC_NUMBER, .unit = "min", .least = 1, .most = 2000 },
  { .id = "k", .label = "Peukert's exponent", .kind = HS_CALC_NUMBER, .decimals = 2, .least = 1, .most = 2,
    .usual = "1.2" },
  HS_CALC_KEYS_END,
};

static gboolean
run_selfdischarge (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double lost;

  if (!hs_acid_lost_a_day (fahrenheit_of (input), &lost))
    {
      hs_calc_put_none (result, "sg", "Gravity then");
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      hs_calc_say (result, "The manual gives figures from 50 to 100 °F (10 to 38 °C) only.");
    }
  else
    hs_calc_put_number (result, "sg", "Gravity then",
                        hs_calc_number (input, "sg") - lost * hs_calc_number (input, "days"), NULL, 3);
  hs_calc_cite (result, "US Army TM 9-6140-200-14 (the first ten days)", HS_SURE_OFFICIAL);
  return TRUE;
}

static const HsCalcKey selfdischarge_keys[] = {
  { .id = "sg", .label = "Gravity now", .kind = HS_CALC_NUMBER, .decimals = 3, .least = GRAVITY_LEAST,
    .most = GRAVITY_MOST },
  { .id = "days", .label = "Stands for", .kind = HS_CALC_NUMBER, .unit = "days", .least = 0, .most = 10 },
  FAHRENHEIT_OR_CELSIUS,
  HS_CALC_KEYS_END,
};

static gboolean
run_coldpower (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double percent = NAN;

  hs_acid_cranking_percent (fahrenheit_of (input), &percent);
  hs_calc_put_number (result, "percent", "Cranking power, full battery", percent, "%", 0);
  if (isnan (percent))
    {
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      hs_calc_say (result, "The manual's figures end at 0 °F (-18 °C).");
    }
  hs_calc_cite (result, "US Army TM 5-1185", HS_SURE_OFFICIAL);
  return TRUE;
}

static const HsCalcKey coldpower_keys[] = { FAHRENHEIT_OR_CELSIUS, HS_CALC_KEYS_END };

static void
put_span (HsCalcResult *result, const char *low_id, const char *high_id, const char *low_label,
          const char *high_label, HsRatingSpan span)
{
  hs_calc_put_number (result, low_id, low_label, span.low, "A", 0);
  hs_calc_put_number (result, high_id, high_label, span.high, "A", 0);
}

static gboolean
run_rating (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double amps = hs_calc_number (input, "amps");
  HsRatingSpan sae = { amps, amps };

  switch (hs_calc_choice (input, "standard"))
    {
    case 0:
      sae = hs_rating_sae_of_din (amps);
      hs_calc_cite (result, "Battery maker's sheet (SAE = 1.5 x DIN + 40); older factors 1.67 to 1.7",
                    HS_SURE_SECONDARY);
      break;
    case 1:
      sae = hs_rating_sae_of_en (amps);
      hs_calc_cite (result, "Two pages (EN1 is 0.92 to 1.0 of SAE)", HS_SURE_SECONDARY);
      break;
    case 2:
      sae = hs_rating_sae_of_ca (amps);
      hs_calc_cite (result, "Training page (x 0.77); x 0.8 from memory", HS_SURE_MEMORY);
      break;
    default:
      put_span (result, "en_low", "en_high", "EN, from", "EN, to", hs_rating_en_of_sae (amps));
      put_span (result, "ca_low", "ca_high", "CA or MCA, from", "CA or MCA, to", hs_rating_ca_of_sae (amps));
      hs_calc_cite (result, "Two pages (EN1 is 0.92 to 1.0 of SAE)", HS_SURE_SECONDARY);
      hs_calc_cite (result, "Training page (x 1.3); x 1.25 from memory", HS_SURE_MEMORY);
      break;
    }
  put_span (result, "sae_low", "sae_high", "SAE CCA, from", "SAE CCA, to", sae);
  hs_calc_say (result, "This is an estimate: the standards are different tests.");
  return TRUE;
}

static const HsCalcKey rating_keys[] = {
  { .id = "standard", .label = "On the label", .kind = HS_CALC_CHOICE, .choices = "DIN|EN|CA|SAE" },
  { .id = "amps", .label = "Amps", .kind = HS_CALC_NUMBER, .unit = "A", .least = 50, .most = 2500 },
  HS_CALC_KEYS_END,
};

/* Dates as `YYYY-MM`, at most six of them. */
static void
put_months (HsCalcResult *result, const char *id, const char *label, const GArray *dates)
{
  g_auto (GStrv) texts = g_new0 (char *, dates->len + 1);

  for (guint i = 0; i < dates->len; i++)
    {
      int year, month;

      hs_date_to_ymd (g_array_index (dates, HsDate, i), &year, &month, NULL);
      texts[i] = g_strdup_printf ("%04d-%02d", year, month);
    }
  hs_calc_put_texts (result, id, label, (const char *const *) texts);
}

static gboolean
run_batterycode (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsDate today = hs_calc_date (input, "today");
  g_auto (HsBatteryCode) code = { 0 };
  g_autoptr (GError) broken = NULL;

  if (!hs_battery_code_parse (hs_calc_text (input, "code"), today, &code, &broken))
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "code: %s.", broken->message);
      return FALSE;
    }
  put_months (result, "months", "Made in", code.months);
  put_months (result, "older", "Or in an earlier decade", code.older);
  hs_calc_put_integer (result, "age_months", "Age",
                       hs_date_months_between (g_array_index (code.months, HsDate, 0), today), "months");
  hs_calc_say (result, "Read as %s.", code.scheme);
  if (code.months->len > 1)
    hs_calc_say (result, "Some makers skip the letter I and some do not: ask which month it is.");
  hs_calc_cite (result, "Technician training module p. 27; variants from several pages", HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey batterycode_keys[] = {
  { .id = "code", .label = "Code on the case", .kind = HS_CALC_TEXT },
  { .id = "today", .label = "Today", .kind = HS_CALC_DATE, .usual = "today" },
  HS_CALC_KEYS_END,
};

static gboolean
run_tray (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  const HsRatingGroup *group = hs_rating_group (hs_calc_text (input, "group"));
  HsTrayFit fit;

  if (group == NULL)
    {
      g_autofree char *ids = hs_rating_group_ids ();

      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "group: “%s” is none of %s.",
                   hs_calc_text (input, "group"), ids);
      return FALSE;
    }
  fit = hs_rating_tray_fit (group, hs_calc_number (input, "length"), hs_calc_number (input, "width"),
                            hs_calc_number (input, "height"));
  hs_calc_put_integer (result, "length", "Longest", group->length, "mm");
  hs_calc_put_integer (result, "width", "Widest", group->width, "mm");
  hs_calc_put_integer (result, "height", "Highest", group->height, "mm");
  hs_calc_verdict (result,
                   fit == HS_TRAY_FITS        ? HS_VERDICT_WITHIN
                   : fit == HS_TRAY_TOO_LARGE ? HS_VERDICT_OUTSIDE
                                              : HS_VERDICT_DEPENDS,
                   fit == HS_TRAY_FITS ? "fits" : fit == HS_TRAY_TOO_LARGE ? "too large" : "measure");
  hs_calc_say (result, fit == HS_TRAY_MEASURE ? "Lists of this size differ in length."
                                              : "By the largest sides listed.");
  hs_calc_advise (result, "Posts, hold-down and kind matter as much as size; R means reversed posts.");
  hs_calc_cite (result, "Web chart of BCI group sizes", HS_SURE_SECONDARY);
  return TRUE;
}

#define TRAY_SIDE(side, words)                                                                                         \
  { .id = side, .label = words, .kind = HS_CALC_NUMBER, .unit = "mm", .least = 50, .most = 1000 }

static const HsCalcKey tray_keys[] = {
  { .id = "group", .label = "Group size", .kind = HS_CALC_TEXT },
  TRAY_SIDE ("length", "Tray, length"),
  TRAY_SIDE ("width", "Tray, width"),
  TRAY_SIDE ("height", "Room above, height"),
  HS_CALC_KEYS_END,
};

const HsCalc hs_calc_battery[] = {
  { "charge", "State of charge", SUBJECT, "State of charge from volts at rest, to a tenth at best.",
    "kind=flooded volts=12.35", EYES, "battery_rest", "volts", charge_keys, run_charge },
  { "gravity", "Specific gravity", SUBJECT, "Gravity as it would be at 80 °F.", "sg=1.250 fahrenheit=20",
    "Acid: eye protection and gloves on, water within reach.", NULL, NULL, gravity_keys, run_gravity },
  { "cells", "Cells of a battery", SUBJECT, "How far apart the cells are.",
    "sg=1.265,1.260,1.262,1.235,1.264,1.263", "Acid: eye protection and gloves on, water within reach.", NULL, NULL,
    cells_keys, run_cells },
  { "load", "Load test", SUBJECT, "Load and least volts for a load test.", "cca=650 celsius=21 volts=9.8",
    "Eye protection on. Never load a frozen, cracked or leaking battery.", "load_test", "volts", load_keys, run_load },
  { "freezing", "Freezing", SUBJECT, "Where the acid freezes.", "percent=40",
    "Never charge or jump a frozen battery.", NULL, NULL, freezing_keys, run_freezing },
  { "charging", "Charging", SUBJECT, "Whether it charges, by volts with the engine running.",
    "volts=14.2 kind=conventional",
    "Never unplug the battery of a running car. Keep clear of belt and fan; no running engine in a closed garage.",
    "charging", "volts", charging_keys, run_charging },
  { "setpoint", "Charging volts by temperature", SUBJECT, "What a regulator should give in cold and heat.",
    "volts=14.40 celsius=0",
    "Stop charging if it gets hot, swells or smells of sulfur. Lithium is never charged below freezing.", NULL, NULL,
    setpoint_keys, run_setpoint },
  { "ripple", "Charging ripple", SUBJECT, "Whether the alternator's rectifier is sound.", "volts=0.25",
    "Keep clear of belt and fan; no running engine in a closed garage.", "ripple", "volts", ripple_keys, run_ripple },
  { "parasitic", "Days to no-start", SUBJECT, "How long a sleeping draw leaves a start in the battery.",
    "amps=0.31 ah=60",
    "Keys outside before anything is disconnected. Never crank or turn the key on with an ammeter in series.",
    "sleeping_draw", "amps", parasitic_keys, run_parasitic },
  { "flat", "Draw behind a flat battery", SUBJECT, "The steady draw that empties it in so many days.",
    "days=7 ah=60", NULL, NULL, NULL, flat_keys, run_flat },
  { "runtime", "Run time", SUBJECT, "How long a battery carries a load, by Peukert's law.", "ah=60 k=1.2 amps=10",
    NULL, NULL, NULL, runtime_keys, run_runtime },
  { "reserve", "Reserve capacity", SUBJECT, "Reserve minutes in amp-hours.", "rc=120", NULL, NULL, NULL,
    reserve_keys, run_reserve },
  { "rating", "Cold cranking ratings", SUBJECT, "What a rating of one standard is about in another.",
    "standard=DIN amps=360", NULL, NULL, NULL, rating_keys, run_rating },
  { "selfdischarge", "Self-discharge", SUBJECT, "Gravity after standing for some days.",
    "sg=1.265 days=10 fahrenheit=100", NULL, NULL, NULL, selfdischarge_keys, run_selfdischarge },
  { "coldpower", "Cranking power in the cold", SUBJECT, "What is left of a full battery's power.", "fahrenheit=0",
    NULL, NULL, NULL, coldpower_keys, run_coldpower },
  { "batterycode", "Battery date code", SUBJECT, "When a battery was made, with every reading that is possible.",
    "code=J4", NULL, NULL, NULL, batterycode_keys, run_batterycode },
  { "tray", "Battery tray", SUBJECT, "Whether a group size fits a tray.", "group=35 length=232 width=177 height=226",
    "Rings off; no metal across the posts.", NULL, NULL, tray_keys, run_tray },
  HS_CALC_SHELF_END,
};
