// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for circuits: drops, cables, fuses, relays, starter and alternator. Limits are the catalog's wherever it
 * has a check. */

#include "hs-calc-private.h"

#include "hs-cable.h"
#include "hs-circuit.h"
#include "hs-core-error.h"
#include "hs-drop.h"
#include "hs-fuse.h"
#include "hs-relay.h"
#include "hs-starter.h"
#include "hs-words.h"

#include <math.h>

#define SUBJECT "Circuits"
#define HEAVY_SOURCE "US Army TM 10-3930-671-24 p. F-303 (0.20 V per 100 A)"
#define COLORS_SOURCE "Trade charts of fuse colors"

/* The fuse of that family and rating; NULL with the reason. */
static const HsFuse *
find_fuse (HsFuseBody body, double amps, GError **error)
{
  const HsFuse *fuse = NULL;
  g_autofree char *ratings = hs_fuse_dup_ratings (body, NULL);
  g_autofree char *rating = hs_calc_number_text (amps);

  if (amps * 1000 == floor (amps * 1000))
    fuse = hs_fuse_lookup (body, (int) (amps * 1000));
  if (fuse == NULL)
    hs_core_bad_value (error, "rating: there is no such fuse of %s A. It takes %s.", rating, ratings);
  return fuse;
}

static void
cite_resistance (HsCalcResult *result, const HsFuse *fuse)
{
  if (fuse->seen)
    hs_calc_cite (result, "A published reading of this fuse agrees with its typical resistance", HS_SURE_SECONDARY);
  else
    hs_calc_cite (result, "Typical resistances of cold fuses; no datasheet was read", HS_SURE_MEMORY);
}

/* 0.0 mV is not "no current": it is less than the meter can show. */
static void
fusedraw_zero (const HsCalcScene *scene, HsCalcResult *result, const HsFuse *fuse)
{
  double floor_milliamps = hs_fuse_draw_milliamps (fuse, HS_FUSE_METER_MILLIVOLTS);
  g_autofree char *text = hs_calc_rounded_text (floor_milliamps, 0);
  const HsCheck *check = hs_checks_lookup (scene->checks, "draw_by_fuse");
  HsReading reading = { .kind = HS_READING_VALUE, .finer = HS_DECIMAL_MOST - check->decimals };
  const HsConditions conditions = HS_CONDITIONS_INIT;
  HsVerdict verdict;

  reading.value = (gint64) nearbyint (floor_milliamps / 1000 * (double) hs_decimal_power (HS_DECIMAL_MOST));
  verdict = hs_check_verdict (scene->checks, check, &conditions, NULL, &reading);
  hs_calc_verdict (result, verdict == HS_VERDICT_WITHIN ? verdict : HS_VERDICT_CANNOT_TELL, NULL);
  hs_calc_say (result, "That is less than a meter can show: 0.1 mV across this fuse is %s mA.", text);
  if (verdict != HS_VERDICT_WITHIN)
    hs_calc_advise (result, "Use a clamp meter, or a meter that shows hundredths of a millivolt.");
}

static void
fusedraw_judge (const HsCalcScene *scene, HsCalcResult *result, const HsFuse *fuse, double millivolts)
{
  double milliamps = hs_fuse_draw_milliamps (fuse, millivolts);
  const HsConditions conditions = HS_CONDITIONS_INIT;

  hs_calc_put_number (result, "milliamps", "Current through the fuse", milliamps, "mA", 0);
  hs_calc_put_number (result, "milliohms", "Typical resistance of the fuse", fuse->milliohms, "mΩ", 2);
  cite_resistance (result, fuse);
  if (millivolts <= 0)
    fusedraw_zero (scene, result, fuse);
  else if (milliamps > fuse->milliamps)
    {
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      hs_calc_say (result, "That would be more than the fuse carries.");
      hs_calc_advise (result, "See that the meter is on millivolts. A blown fuse shows the battery's voltage.");
    }
  else
    hs_calc_judge (scene, result, "draw_by_fuse", milliamps / 1000, &conditions);
}

static gboolean
fusedraw_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsFuseBody body = (HsFuseBody) hs_calc_choice (input, "body");
  const HsFuse *fuse = find_fuse (body, hs_calc_number (input, "rating"), error);

  if (fuse == NULL)
    return FALSE;
  if (fuse->milliohms > 0)
    {
      fusedraw_judge (scene, result, fuse, hs_calc_number (input, "millivolts"));
      hs_calc_say (result, "Give or take 15 %%; a fuse without a rating stamped on it tells nothing.");
      return TRUE;
    }
  hs_calc_put_none (result, "milliamps", "Current through the fuse");
  hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
  hs_calc_say (result, "The resistance of this fuse is not known, so its millivolts tell no current.");
  hs_calc_advise (result, "Use a clamp meter on the wire.");
  cite_resistance (result, fuse);
  return TRUE;
}

static const HsCalcKey fusedraw_keys[] = {
  { .id = "body", .label = "Family", .kind = HS_CALC_CHOICE, .choices = "mini|regular|maxi" },
  { .id = "rating", .label = "Rating stamped on it", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0.5, .most = 120 },
  { .id = "millivolts", .label = "Across its test points", .kind = HS_CALC_NUMBER, .unit = "mV", .decimals = 1,
    .least = 0, .most = 20000, .below = "the probes are the other way round: swap them" },
  HS_CALC_KEYS_END,
};

static gboolean
fusecolor_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsFuseBody body = (HsFuseBody) hs_calc_choice (input, "body");
  const char *color = hs_calc_text (input, "color");
  g_autofree char *ratings = color == NULL ? NULL : hs_fuse_dup_ratings (body, color);
  const HsFuse *fuse;

  if (color == NULL)
    {
      g_auto (GStrv) colors = NULL;

      fuse = find_fuse (body, hs_calc_number (input, "rating"), error);
      if (fuse == NULL)
        return FALSE;
      colors = g_strsplit (fuse->colors, "|", -1);
      hs_calc_put_texts (result, "colors", "Color, the usual one first", (const char *const *) colors);
    }
  else if (*ratings == '\0')
    return hs_core_bad_value (error, "color: no fuse of that family is known to be “%s”.", color);
  else
    {
      g_auto (GStrv) amps = g_strsplit (ratings, ", ", -1);

      hs_calc_put_texts (result, "ratings", "Ratings in A", (const char *const *) amps);
    }
  hs_calc_put_text (result, "family", "Family", hs_fuse_body_text (body));
  hs_calc_say (result, "Always read the number: the same color is another rating in another family.");
  hs_calc_advise (result, "Replace it with the same family and rating only; never bridge it.");
  hs_calc_cite (result, COLORS_SOURCE, HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey fusecolor_keys[] = {
  { .id = "body", .label = "Family", .kind = HS_CALC_CHOICE, .choices = HS_FUSE_BODIES },
  { .id = "rating", .label = "Rating", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0.5, .most = 120, .either = 1 },
  { .id = "color", .label = "Color", .kind = HS_CALC_TEXT, .either = 1 },
  HS_CALC_KEYS_END,
};

/* What a blade fuse of @rating does at @amps. */
static void
put_opening (HsCalcResult *result, double amps, double rating)
{
  HsFuseOpening opening = hs_fuse_opening (amps / rating);
  g_autofree char *percent = hs_calc_rounded_text (amps / rating * 100, 0);
  g_autofree char *most = hs_calc_number_text (opening.most_seconds);

  hs_calc_put_number (result, "fuse_percent", "Of the fuse's rating", amps / rating * 100, "%", 0);
  hs_calc_put_number (result, "opens_after", "It may open after", opening.least_seconds, "s", 2);
  hs_calc_put_number (result, "open_by", "It is open by",
                      opening.most_seconds < 0 ? (double) NAN : opening.most_seconds, "s", 2);
  if (opening.most_seconds < 0)
    hs_calc_say (result, "At %s %% of its rating a blade fuse may hold for good.", percent);
  else
    hs_calc_say (result, "At %s %% of its rating a blade fuse opens within %s s.", percent, most);
  hs_calc_cite (result, "Gates of blade fuses, ISO 8820-3 and SAE J1284 as remembered", HS_SURE_MEMORY);
}

static gboolean
fuseopen_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
              GError **error G_GNUC_UNUSED)
{
  put_opening (result, hs_calc_number (input, "amps"), hs_calc_number (input, "rating"));
  hs_calc_advise (result, "Find out what drew it before a new one goes in.");
  return TRUE;
}

static const HsCalcKey fuseopen_keys[] = {
  { .id = "amps", .label = "Current", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0, .most = 20000 },
  { .id = "rating", .label = "Rating of the fuse", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0.5, .most = 600 },
  HS_CALC_KEYS_END,
};

static void
drop_look_closer (const HsCalcInput *input, HsCalcResult *result, HsDropPlace place)
{
  HsVerdict verdict;

  if (!hs_calc_result_get_verdict (result, &verdict) || verdict != HS_VERDICT_WITHIN
      || !hs_drop_is_heavy (place, hs_calc_scaled (input, "volts"), hs_calc_scaled (input, "amps")))
    return;
  hs_calc_verdict (result, HS_VERDICT_WATCH, "look closer");
  hs_calc_say (result, "But it is more than 0.20 V per 100 A.");
  hs_calc_advise (result, "Go along it: the place with the most volts is the place.");
  hs_calc_cite (result, HEAVY_SOURCE, HS_SURE_OFFICIAL);
}

static gboolean
drop_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error G_GNUC_UNUSED)
{
  HsDropPlace place = (HsDropPlace) hs_calc_choice (input, "place");
  double volts = hs_calc_number (input, "volts");
  double amps = hs_calc_number (input, "amps");
  HsConditions conditions = HS_CONDITIONS_INIT;

  conditions.place = hs_words_get (HS_WORDS_DROP_PLACE, NULL)[place].id;
  if (hs_calc_has (input, "amps"))
    conditions.loaded = amps > 0 ? HS_YES : HS_NO;
  if (amps > 0)
    hs_calc_put_number (result, "milliohms", "Resistance", hs_drop_milliohms (volts, amps), "mΩ", 2);
  else
    hs_calc_put_none (result, "milliohms", "Resistance");
  hs_calc_judge (scene, result, "drop", volts, &conditions);
  if (conditions.loaded == HS_NO)
    hs_calc_say (result, "The circuit must carry current.");
  else if (conditions.loaded == HS_NOT_KNOWN)
    hs_calc_advise (result, "It counts only while the circuit carries its current.");
  drop_look_closer (input, result, place);
  return TRUE;
}

static const HsCalcKey drop_keys[] = {
  { .id = "volts", .label = "Voltage drop", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2, .least = 0, .most = 16,
    .below = "the probes are the other way round: swap them" },
  { .id = "amps", .label = "Current at that moment", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0, .most = 5000,
    .optional = TRUE },
  { .id = "place", .label = "Measured over", .kind = HS_CALC_CHOICE, .choices = HS_DROP_PLACES },
  HS_CALC_KEYS_END,
};

/* Milliohms per meter at 20 °C by what was given, with who says so; 0 with the reason. */
static double
cable_resistance (const HsCalcInput *input, HsCalcResult *result, double *ret_mm2, GError **error)
{
  gboolean tinned = hs_calc_choice (input, "strands") == 1;
  double mm2 = hs_calc_number (input, "mm2");
  double listed = hs_cable_class5_milliohms_per_meter (hs_calc_scaled (input, "mm2") / 1000, tinned);
  int awg;

  if (hs_calc_has (input, "awg"))
    {
      g_autoptr (GError) broken = NULL;

      if (!hs_cable_awg_parse (hs_calc_text (input, "awg"), &awg, &broken))
        {
          hs_core_bad_value (error, "awg: %s.", broken->message);
          return 0;
        }
      mm2 = hs_cable_awg_mm2 (awg);
      hs_calc_cite (result, "ASTM B258 (wire diameters); copper 1/58 ohm mm²/m (IEC 1913)", HS_SURE_SECONDARY);
    }
  else if (listed > 0)
    {
      hs_calc_say (result, "The most that IEC 60228 class 5 allows for this size.");
      hs_calc_cite (result, "IEC 60228 class 5, as cable pages print it", HS_SURE_SECONDARY);
    }
  else
    {
      hs_calc_say (result, "This size is not in the table, so it is taken as solid copper of that area.");
      hs_calc_cite (result, "Copper 1/58 ohm mm²/m (IEC 1913), divided by the area", HS_SURE_SECONDARY);
    }
  *ret_mm2 = mm2;
  return hs_calc_has (input, "mm2") && listed > 0 ? listed : hs_cable_milliohms_per_meter (mm2);
}

static gboolean
cable_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double mm2 = 0;
  double cold = cable_resistance (input, result, &mm2, error);
  double warm = hs_cable_warm (cold, hs_calc_number (input, "celsius"));
  double meters = hs_calc_number (input, "meters");

  if (cold <= 0)
    return FALSE;
  hs_calc_put_number (result, "volts", "Lost on the way", hs_cable_drop_volts (warm, meters,
                                                                             hs_calc_number (input, "amps")), "V", 3);
  hs_calc_put_number (result, "milliohms_per_meter", "Per meter", warm, "mΩ", 3);
  hs_calc_put_number (result, "milliohms", "All of it", warm * meters, "mΩ", 2);
  hs_calc_put_number (result, "mm2", "Area", mm2, "mm²", 2);
  hs_calc_say (result, "A sound cable loses this much; clearly more means green strands or a loose end.");
  hs_calc_cite (result, "Copper gains 0.393 % per degree", HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey cable_keys[] = {
  { .id = "awg", .label = "Wire size, AWG", .kind = HS_CALC_TEXT, .either = 1 },
  { .id = "mm2", .label = "Wire size, mm²", .kind = HS_CALC_NUMBER, .unit = "mm²", .decimals = 2, .least = 0.05,
    .most = 500, .either = 1 },
  { .id = "meters", .label = "Length of conductor, out and back", .kind = HS_CALC_NUMBER, .unit = "m", .decimals = 1,
    .least = 0, .most = 1000 },
  { .id = "amps", .label = "Current", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0, .most = 5000 },
  { .id = "celsius", .label = "Temperature of the cable", .kind = HS_CALC_NUMBER, .unit = "°C", .least = -50,
    .most = 200, .usual = "20" },
  { .id = "strands", .label = "Strands", .kind = HS_CALC_CHOICE, .choices = "plain|tinned", .usual = "plain" },
  HS_CALC_KEYS_END,
};

static void
surge_judge (HsCalcResult *result, double source, double battery, double amps)
{
  g_autofree char *text = hs_calc_rounded_text (fabs (amps), 0);

  if (battery < 0)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, "reversed: stop");
      hs_calc_say (result, "Reversed, both voltages add and only the resistance limits the current: %s A.", text);
      hs_calc_advise (result, "Do not connect it. Ask what was connected, by whom and how; look at the main fuse, the "
                              "alternator's diodes and every module.");
    }
  else if (source > HS_CIRCUIT_12_VOLT_MOST)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, "never mix");
      hs_calc_say (result, "That is no 12 V source; only the resistance limits the current: %s A.", text);
      hs_calc_advise (result, "Do not connect it. Use a 12 V source, or one battery of the set.");
    }
  else if (amps < 0)
    {
      hs_calc_verdict (result, HS_VERDICT_WATCH, "other way");
      hs_calc_say (result, "The battery is higher than the source, so it drives %s A into the source.", text);
      hs_calc_advise (result, "Charge the source first.");
    }
  else if (amps > HS_CIRCUIT_MAIN_FUSE_LEAST)
    {
      hs_calc_verdict (result, HS_VERDICT_WATCH, "let it charge first");
      hs_calc_say (result, "%s A flow at once; main fuses of cars are %d to %d A.", text, HS_CIRCUIT_MAIN_FUSE_LEAST,
                   HS_CIRCUIT_MAIN_FUSE_MOST);
      hs_calc_advise (result,
                      "Clamp on the posts, not on the fuse block, and let the donor charge it for 5 to 10 min.");
    }
  else
    {
      hs_calc_verdict (result, HS_VERDICT_WITHIN, NULL);
      hs_calc_say (result, "%s A flow at once.", text);
    }
}

static gboolean
surge_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
           GError **error G_GNUC_UNUSED)
{
  double source = hs_calc_number (input, "source_volts");
  double battery = hs_calc_number (input, "battery_volts");
  double amps = hs_circuit_surge_amps (source, battery, hs_calc_number (input, "milliohms"));

  hs_calc_put_number (result, "amps", "Current at once", amps, "A", 0);
  hs_calc_cite (result, "Ohm's law, (source - battery) / resistance", HS_SURE_DERIVED);
  surge_judge (result, source, battery, amps);
  if (hs_calc_has (input, "fuse"))
    put_opening (result, fabs (amps), hs_calc_number (input, "fuse"));
  return TRUE;
}

static const HsCalcKey surge_keys[] = {
  { .id = "source_volts", .label = "Source", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 1, .least = 0,
    .most = 60, .below = "swap the meter leads; if the battery is reversed, write its volts with the minus" },
  { .id = "battery_volts", .label = "Battery, minus if it is reversed", .kind = HS_CALC_NUMBER, .unit = "V",
    .decimals = 1, .least = -30, .most = 60 },
  { .id = "milliohms", .label = "Both batteries, leads and clamps", .kind = HS_CALC_NUMBER, .unit = "mΩ", .least = 0.1,
    .most = 100000 },
  { .id = "fuse", .label = "Main fuse", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0.5, .most = 600,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
relay_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
           GError **error G_GNUC_UNUSED)
{
  double volts = hs_calc_number (input, "volts");
  double ohms = hs_calc_number (input, "ohms");

  hs_calc_put_number (result, "amps", "Coil current", hs_relay_coil_amps (volts, ohms), "A", 3);
  hs_calc_cite (result, "Relay note (60 to 80 ohm); data sheet of one 12 V relay (75 ohm, pulls in at 8 V or less)",
                HS_SURE_SECONDARY);
  if (volts < HS_RELAY_PICK_UP_VOLTS)
    {
      hs_calc_verdict (result, HS_VERDICT_WATCH, "low");
      hs_calc_say (result, "It may not pull in below 8 V.");
      hs_calc_advise (result, "Go back along both sides of the coil, 86 and 85.");
    }
  else if (ohms < HS_RELAY_COIL_LEAST_OHMS || ohms > HS_RELAY_COIL_MOST_OHMS)
    {
      hs_calc_verdict (result, HS_VERDICT_WATCH, "compare");
      hs_calc_say (result, "Coils of usual 12 V relays have 60 to 80 ohm; others exist.");
      hs_calc_advise (result, "Compare it with another relay of the same number.");
    }
  else
    {
      hs_calc_verdict (result, HS_VERDICT_WITHIN, NULL);
      hs_calc_say (result, "The coil is like that of usual 12 V relays, 60 to 80 ohm.");
    }
  return TRUE;
}

static const HsCalcKey relay_keys[] = {
  { .id = "volts", .label = "Across the coil, 86 to 85", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 1,
    .least = 0, .most = 20, .below = "the probes are the other way round: swap them" },
  { .id = "ohms", .label = "Coil", .kind = HS_CALC_NUMBER, .unit = "ohm", .least = 1, .most = 10000 },
  HS_CALC_KEYS_END,
};

static gboolean
contact_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error G_GNUC_UNUSED)
{
  double volts = hs_calc_number (input, "volts");
  double amps = hs_calc_number (input, "amps");
  const HsConditions conditions = HS_CONDITIONS_INIT;

  hs_calc_put_number (result, "milliohms", "Resistance", hs_drop_milliohms (volts, amps), "mΩ", 2);
  hs_calc_put_number (result, "new_volts", "A new contact loses", hs_relay_new_contact_volts (amps), "V", 3);
  hs_calc_cite (result, "Relay data sheet (new contact: 50 mV at 10 A)", HS_SURE_SECONDARY);
  hs_calc_judge (scene, result, "relay_drop", volts, &conditions);
  return TRUE;
}

static const HsCalcKey contact_keys[] = {
  { .id = "volts", .label = "From 30 to 87, load on", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2, .least = 0,
    .most = 20, .below = "the probes are the other way round: swap them" },
  { .id = "amps", .label = "Current of the load", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0.01, .most = 500 },
  HS_CALC_KEYS_END,
};

static gboolean
terminal_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
              GError **error G_GNUC_UNUSED)
{
  const char *meaning = hs_relay_terminal (hs_calc_text (input, "number"));

  hs_calc_put_text (result, "meaning", "Meaning", meaning);
  hs_calc_cite (result, "Relay note citing DIN 72552", HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey terminal_keys[] = {
  { .id = "number", .label = "Number on the pin", .kind = HS_CALC_CHOICE, .choices = HS_RELAY_TERMINALS },
  HS_CALC_KEYS_END,
};

/* What stands on the screen for a finding of the starter. */
static const struct
{
  HsVerdict verdict;
  const char *word;
  const char *why;
  const char *next;
} starter_texts[] = {
  [HS_STARTER_NORMAL] = { HS_VERDICT_WITHIN, NULL, "It turns well and draws no more than sources print.", "" },
  [HS_STARTER_MUCH] = { HS_VERDICT_DEPENDS, "sources differ", "It turns well, but draws more than one source prints.",
                        "Look up the maker's figure; thick oil and cold raise it." },
  [HS_STARTER_BINDS] = { HS_VERDICT_OUTSIDE, "binds", "Much current and little movement: engine or starter drags, or "
                         "the starter is shorted.", "Turn the engine by hand, then test the starter alone." },
  [HS_STARTER_RESISTANCE] = { HS_VERDICT_WATCH, "resistance", "Little current and little movement: there is "
                              "resistance in the circuit.", "Do both drops while it cranks: + side and - side." },
  [HS_STARTER_BATTERY] = { HS_VERDICT_WATCH, "battery first", "The battery gives way at a small current.",
                           "Charge it and test its strength, then crank again." },
  [HS_STARTER_CONTROL] = { HS_VERDICT_WATCH, "control side", "Nothing flows and the battery stays up: the control "
                           "circuit does not switch.", "Measure at the small terminal with the key turned." },
  [HS_STARTER_OPEN] = { HS_VERDICT_DEPENDS, "measure more", "The current is neither high nor low for it.",
                        "Test the battery's strength and do both drops." },
};

static gboolean
starter_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result,
             GError **error G_GNUC_UNUSED)
{
  static const int cylinders[] = { 4, 6, 8 };
  const HsStarterDraw *draw = hs_starter_draw (cylinders[hs_calc_choice (input, "cylinders")]);
  double volts = hs_calc_has (input, "volts") ? hs_calc_number (input, "volts") : (double) NAN;
  HsStarterCrank crank = (HsStarterCrank) hs_calc_choice (input, "crank");
  HsStarterFinding finding = hs_starter_find (draw, crank, hs_calc_number (input, "amps"), volts);

  hs_calc_put_integer (result, "usual_below", "Usually below", draw->usual_below, "A");
  hs_calc_put_integer (result, "most", "At most, by the stricter source", draw->low_most, "A");
  hs_calc_put_integer (result, "other_most", "At most, by another source", draw->high_most, "A");
  hs_calc_verdict (result, starter_texts[finding].verdict, starter_texts[finding].word);
  hs_calc_say (result, "%s", starter_texts[finding].why);
  if (*starter_texts[finding].next != '\0')
    hs_calc_advise (result, "%s", starter_texts[finding].next);
  hs_calc_cite (result, "Textbook page and another page on warm gas engines, which differ; carmaker manual 2004",
                HS_SURE_SECONDARY);
  return TRUE;
}

static const HsCalcKey starter_keys[] = {
  { .id = "cylinders", .label = "Cylinders, gas engine", .kind = HS_CALC_CHOICE, .choices = "4|6|8" },
  { .id = "amps", .label = "Steady current, cranking", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0, .most = 2500 },
  { .id = "crank", .label = "It turns", .kind = HS_CALC_CHOICE, .choices = HS_STARTER_CRANKS },
  { .id = "volts", .label = "Across the posts, cranking", .kind = HS_CALC_NUMBER, .unit = "V", .decimals = 2,
    .least = 0, .most = 20, .optional = TRUE, .below = "leads swapped or battery reversed: stop" },
  HS_CALC_KEYS_END,
};

static gboolean
alternator_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error G_GNUC_UNUSED)
{
  const HsConditions conditions = HS_CONDITIONS_INIT;

  hs_calc_put_number (result, "percent", "Of its rating", hs_circuit_share_percent (hs_calc_number (input, "amps"),
                                                                                  hs_calc_number (input, "rated")),
                      "%", 1);
  hs_calc_judge_pair (scene, result, "charging_output", hs_calc_scaled (input, "amps"),
                      hs_calc_scaled (input, "rated"), &conditions);
  hs_calc_say (result, "Practice asks for 85 to 90 %% at 2,000 to 2,500 rpm with all loads on.");
  return TRUE;
}

static const HsCalcKey alternator_keys[] = {
  { .id = "amps", .label = "Measured, all loads on", .kind = HS_CALC_NUMBER, .unit = "A", .least = 0, .most = 500 },
  { .id = "rated", .label = "Rating on its label", .kind = HS_CALC_NUMBER, .unit = "A", .least = 1, .most = 500 },
  HS_CALC_KEYS_END,
};

#define CRANK_CAUTION "Parking brake on, wheels chocked, out of gear. Rings and watch off."

const HsCalc hs_calc_circuit[] = {
  { .name = "fusedraw", .title = "Current from millivolts across a fuse", .subject = SUBJECT,
    .help = "What a fuse carries while everything sleeps, without opening the circuit.",
    .example = "body=regular rating=10 millivolts=1.0", .keys = fusedraw_keys, .run = fusedraw_run },
  { .name = "fusecolor", .title = "Fuse colors", .subject = SUBJECT,
    .help = "Which color a rating has, or which ratings a color may be.", .example = "body=maxi rating=40",
    .keys = fusecolor_keys, .run = fusecolor_run },
  { .name = "fuseopen", .title = "How long a fuse holds", .subject = SUBJECT,
    .help = "How soon a blade fuse opens at a current.", .example = "amps=30 rating=15",
    .caution = "Look for a short behind a main fuse before a new one goes in.", .keys = fuseopen_keys,
    .run = fuseopen_run },
  { .name = "drop", .title = "Voltage drop", .subject = SUBJECT,
    .help = "Judges a voltage drop by its place and gives its resistance.",
    .example = "volts=0.45 amps=180 place=starter-positive", .caution = CRANK_CAUTION, .check = "drop",
    .check_key = "volts", .keys = drop_keys, .run = drop_run },
  { .name = "cable", .title = "What a cable loses", .subject = SUBJECT,
    .help = "Volts that a sound copper cable loses; meters count out and back.", .example = "awg=16 meters=6 amps=5",
    .keys = cable_keys, .run = cable_run },
  { .name = "surge", .title = "Current of a wrong connection", .subject = SUBJECT,
    .help = "What a stiff or reversed source drives through a battery.",
    .example = "source_volts=12.6 battery_volts=-12.0 milliohms=24",
    .caution = "Never jump a frozen, cracked, leaking or reversed battery; never mix 12 and 24 V. A booster's override "
               "only when the fault is known. Eye protection on.",
    .keys = surge_keys, .run = surge_run },
  { .name = "relay", .title = "Relay coil", .subject = SUBJECT,
    .help = "What the coil draws, and whether it is like that of usual relays.", .example = "volts=13.5 ohms=75",
    .keys = relay_keys, .run = relay_run },
  { .name = "contact", .title = "Relay contact", .subject = SUBJECT,
    .help = "Judges what a relay's contact loses beside a new one.", .example = "volts=0.05 amps=10",
    .check = "relay_drop", .check_key = "volts", .keys = contact_keys, .run = contact_run },
  { .name = "terminal", .title = "Relay terminals", .subject = SUBJECT,
    .help = "What the number on a relay's pin means.", .example = "number=87a", .keys = terminal_keys,
    .run = terminal_run },
  { .name = "starter", .title = "Starter draw", .subject = SUBJECT,
    .help = "Where to look next by current and movement.", .example = "cylinders=4 amps=260 crank=slow",
    .caution = CRANK_CAUTION " Crank 15 s at most, then cool 2 min. Never crank with an ammeter in series.",
    .check = "starter_draw", .check_key = "amps", .keys = starter_keys, .run = starter_run },
  { .name = "alternator", .title = "Alternator output", .subject = SUBJECT,
    .help = "What share of its rating the alternator gives.", .example = "amps=110 rated=130",
    .caution = "Keep clear of belt and fan; no running engine in a closed garage.", .keys = alternator_keys,
    .run = alternator_run },
  HS_CALC_SHELF_END,
};
