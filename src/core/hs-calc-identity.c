// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for who a vehicle is, how far it went and what its codes say. */

#include "hs-calc-private.h"

#include "hs-core-error.h"
#include "hs-odometer.h"
#include "hs-readiness.h"
#include "hs-trouble.h"
#include "hs-vin.h"

#define SUBJECT "Identity"
#define MOST_MILES 9999999
#define RULE_SOURCE "49 CFR 565.15"
#define REGION_SOURCE "ISO 3780 as public tables print it, borne out by the registry of makers"
#define YEAR_SOURCE "Year codes of 49 CFR 565.15 as several copies print them"
#define ERA_SOURCE "49 CFR 565.15(b), Federal Register of 2008-04-30"
#define CODE_SOURCE "SAE J2012 and ISO 15031-6 as two engineering texts sum them up"
#define MONITOR_SOURCE "SAE J1979 as an encyclopaedia prints it"
#define LAMP_SOURCE "40 CFR 85.2207"
#define ALLOWANCE_SOURCE "Federal guidance as repeated by several pages"

/* What the reader of a text says, with the key before it. */
static gboolean
refuse_key (GError **error, const char *key, const GError *reason)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: %s.", key, reason->message);
  return FALSE;
}

static int
year_of (HsDate date)
{
  int year;

  hs_date_to_ymd (date, &year, NULL, NULL);
  return year;
}

static void
vin_check (const char *vin, HsCalcResult *result)
{
  static const HsVerdict verdicts[] = { HS_VERDICT_WITHIN, HS_VERDICT_OUTSIDE, HS_VERDICT_CANNOT_TELL };
  static const char *const words[] = { "adds up", "misread", "no check digit" };
  HsVinCheck check = hs_vin_check (vin);
  const char expected[] = { hs_vin_check_digit (vin), '\0' };

  hs_calc_put_text (result, "check", "Check digit", hs_vin_check_id (check));
  hs_calc_put_text (result, "expected", "Position 9 should be", expected);
  hs_calc_verdict (result, verdicts[check], words[check]);
  hs_calc_cite (result, RULE_SOURCE, HS_SURE_OFFICIAL);
  if (check == HS_VIN_VALID)
    hs_calc_say (result, "Position 9 is %s, as the other characters make it.", expected);
  if (check == HS_VIN_WRONG && vin[8] == HS_VIN_UNREADABLE)
    hs_calc_say (result, "If the rest is read right, position 9 is %s.", expected);
  else if (check == HS_VIN_WRONG)
    {
      hs_calc_say (result, "Position 9 is %c, but the other characters make it %s: something was misread.", vin[8],
                   expected);
      hs_calc_advise (result, "Read it again from the plate, not from paper.");
    }
  if (check == HS_VIN_NOT_USED)
    hs_calc_say (result, "Outside North America and China a VIN need not have a check digit; if this vehicle was built "
                 "for North America, position 9 would be %s and not %c.", expected, vin[8]);
}

/* Why it can be either year, and which it is if the vehicle turns out to be a light one. */
static void
say_both (const char *vin, HsMakerType type, const gint64 years[2], HsCalcResult *result)
{
  HsVinEra light = hs_vin_era (vin, HS_MAKER_MPV);

  hs_calc_say (result, "The year code comes back every 30 years, and position 7 tells which only on cars, multipurpose "
               "vehicles and light trucks for North America.");
  if ((type == HS_MAKER_TRUCK || type == HS_MAKER_INCOMPLETE || type == HS_MAKER_NO_TYPE) && light != HS_VIN_ERA_OPEN)
    hs_calc_say (result, "If this is one, of 10,000 lb (4536 kg) or less, it is %" G_GINT64_FORMAT ".",
                 years[light == HS_VIN_ERA_LATE ? 1 : 0]);
}

static void
vin_years (const char *vin, HsMakerType type, int newest, HsCalcResult *result)
{
  HsVinEra era = hs_vin_era (vin, type);
  gint64 years[2];
  guint n_years = hs_vin_years (vin, era, newest, years);

  hs_calc_put_integers (result, "years", "Model year", years, n_years);
  hs_calc_cite (result, YEAR_SOURCE, HS_SURE_SECONDARY);
  if (era != HS_VIN_ERA_OPEN)
    hs_calc_cite (result, ERA_SOURCE, HS_SURE_OFFICIAL);
  if (n_years == 0)
    hs_calc_say (result, vin[9] == '0' ? "No model year is coded (0)." : "Position 10 is %c, which is no model year.",
                 vin[9]);
  if (n_years == 2)
    say_both (vin, type, years, result);
  if (n_years == 1 && years[0] > newest)
    hs_calc_say (result, "That model year is not built yet: position 7 or 10 was misread.");
}

static void
vin_region (const char *vin, HsCalcResult *result)
{
  const char *region = hs_vin_region (vin);
  const char *country = hs_vin_country (vin);
  g_autofree char *both = *country == '\0' ? g_strdup (region) : g_strdup_printf ("%s (%s)", region, country);

  hs_calc_put_text (result, "region", "Built in", *both == '\0' ? NULL : both);
  hs_calc_cite (result, REGION_SOURCE, HS_SURE_SECONDARY);
}

static void
vin_maker (const HsMaker *maker, const char *wmi, HsCalcResult *result)
{
  hs_calc_put_text (result, "maker", "Maker", maker == NULL ? NULL : maker->name);
  hs_calc_put_text (result, "maker_country", "Maker's address",
                    maker == NULL || *maker->country == '\0' ? NULL : maker->country);
  hs_calc_put_text (result, "type", "Built as",
                    maker == NULL || maker->type == HS_MAKER_NO_TYPE ? NULL : hs_maker_type_label (maker->type));
  if (maker == NULL)
    hs_calc_say (result, "The registry of the US has no maker %s.", wmi);
  else
    hs_calc_cite (result, HS_REFERENCE_MAKERS_SOURCE, HS_SURE_OFFICIAL);
}

static gboolean
vin_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  g_autofree char *vin = NULL;
  g_autofree char *wmi = NULL;
  g_auto (GStrv) suggestions = NULL;
  g_autoptr (GError) broken = NULL;
  const HsMaker *maker = NULL;

  if (!hs_vin_read (hs_calc_text (input, "vin"), &vin, &broken))
    return refuse_key (error, "vin", broken);
  wmi = hs_vin_dup_wmi (vin);
  if (scene->reference != NULL)
    maker = hs_reference_lookup_maker (scene->reference, wmi);
  vin_check (vin, result);
  vin_years (vin, maker == NULL ? HS_MAKER_NO_TYPE : maker->type, year_of (scene->today) + 1, result);
  vin_region (vin, result);
  vin_maker (maker, wmi, result);
  suggestions = hs_vin_suggest (vin, scene->reference);
  hs_calc_put_texts (result, "suggestions", "May have been meant", (const char *const *) suggestions);
  if (suggestions[0] != NULL && hs_vin_check (vin) == HS_VIN_NOT_USED)
    hs_calc_advise (result, "Look at the first character again: %s would add up.", suggestions[0]);
  return TRUE;
}

static const HsCalcKey vin_keys[] = {
  { .id = "vin", .label = "VIN", .kind = HS_CALC_TEXT },
  HS_CALC_KEYS_END,
};

/* What nobody but the maker can say is said to be so. */
static void
trouble_meaning (const HsTroubleEntry *entry, guint16 value, HsCalcResult *result)
{
  HsTroubleScope scope = hs_trouble_scope (value);
  const char *part = hs_trouble_part_label (value);

  hs_calc_put_text (result, "meaning", "It means", entry == NULL ? NULL : entry->meaning);
  if (entry != NULL)
    {
      hs_calc_say (result, "%s.", entry->meaning);
      hs_calc_cite (result, entry->source, entry->sure);
      if (*entry->next != '\0')
        hs_calc_advise (result, "%s.", entry->next);
      return;
    }
  if (scope == HS_TROUBLE_PADDING)
    hs_calc_say (result, "0000 only fills an answer up: no code is stored.");
  if (scope == HS_TROUBLE_GENERIC && part != NULL)
    hs_calc_say (result, "Its third character puts it under %s.", part);
  if (scope == HS_TROUBLE_GENERIC)
    hs_calc_advise (result, "It means the same on every make, but the short list does not have it: look it up in the "
                    "maker's text.");
  if (scope == HS_TROUBLE_MAKER || scope == HS_TROUBLE_MAKER_OR_RESERVED)
    hs_calc_advise (result, "Only the maker of the vehicle says what it means: look it up for this make.");
  if (scope == HS_TROUBLE_RESERVED)
    hs_calc_say (result, "Nobody has given it a meaning: read the codes again.");
}

static gboolean
trouble_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  gboolean by_hex = hs_calc_has (input, "hex");
  const char *key = by_hex ? "hex" : "code";
  g_autofree char *code = NULL;
  g_autofree char *hex = NULL;
  g_autoptr (GError) broken = NULL;
  const HsTroubleEntry *entry = NULL;
  guint16 value;

  if (!(by_hex ? hs_trouble_parse_hex : hs_trouble_parse) (hs_calc_text (input, key), &value, &broken))
    return refuse_key (error, key, broken);
  code = hs_trouble_format (value);
  hex = g_strdup_printf ("%04X", (guint) value);
  if (scene->reference != NULL)
    entry = hs_reference_lookup_trouble (scene->reference, code);
  hs_calc_put_text (result, "code", "Code", value == 0 ? NULL : code);
  hs_calc_put_text (result, "hex", "Two bytes", hex);
  hs_calc_put_text (result, "scope", "Meaning given by", hs_trouble_scope_label (hs_trouble_scope (value)));
  hs_calc_put_text (result, "system", "System", value == 0 ? NULL : hs_trouble_system_label (value));
  hs_calc_cite (result, CODE_SOURCE, HS_SURE_SECONDARY);
  trouble_meaning (entry, value, result);
  return TRUE;
}

static const HsCalcKey trouble_keys[] = {
  { .id = "code", .label = "Code", .kind = HS_CALC_TEXT, .either = 1 },
  { .id = "hex", .label = "Two bytes", .kind = HS_CALC_TEXT, .either = 1 },
  HS_CALC_KEYS_END,
};

static void
put_monitors (const HsReadiness *readiness, HsCalcResult *result)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new ();
  g_autoptr (GPtrArray) open = g_ptr_array_new ();

  for (guint i = 0; i < readiness->n_monitors; i++)
    {
      g_ptr_array_add (all, (gpointer) readiness->monitors[i].name);
      if (!readiness->monitors[i].ready)
        g_ptr_array_add (open, (gpointer) readiness->monitors[i].name);
    }
  g_ptr_array_add (all, NULL);
  g_ptr_array_add (open, NULL);
  hs_calc_put_texts (result, "supported", "Self-tests it has", (const char *const *) all->pdata);
  hs_calc_put_texts (result, "not_ready", "Not run yet", (const char *const *) open->pdata);
}

static void
judge_readiness (const HsReadiness *readiness, HsCalcResult *result)
{
  guint n_open = hs_readiness_count_open (readiness);

  if (readiness->lamp && readiness->n_codes > 0)
    {
      hs_calc_verdict (result, HS_VERDICT_OUTSIDE, NULL);
      hs_calc_say (result, "The lamp is on with codes stored (%u): that fails the federal inspection rule.",
                   readiness->n_codes);
      hs_calc_cite (result, LAMP_SOURCE, HS_SURE_OFFICIAL);
    }
  else if (readiness->lamp)
    {
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      hs_calc_say (result, "The lamp is commanded on without a code stored: read all control units.");
    }
  else
    hs_calc_verdict (result, n_open == 0 ? HS_VERDICT_WITHIN : HS_VERDICT_DEPENDS, NULL);
  if (n_open > 0)
    {
      hs_calc_say (result, "Not ready is not a fail; how many may be open is for the state to say.");
      hs_calc_advise (result, "Clearing codes or taking the battery off sets all of them back: drive it before an "
                      "inspection.");
    }
}

/* Two for model years 1996 to 2000, one from 2001: what states start from, and some change. */
static void
put_allowance (const HsReadiness *readiness, int year, HsCalcResult *result)
{
  int allowance = year <= 2000 ? 2 : 1;

  if (readiness->compression)
    {
      hs_calc_put_none (result, "allowance", "May be open");
      hs_calc_say (result, "For diesels states differ too much for a figure.");
      return;
    }
  hs_calc_put_integer (result, "allowance", "May be open", allowance, NULL);
  hs_calc_say (result, "Federal guidance lets %d be open for that year; California lets one for 1996 to 1999 and "
               "from 2000 only the evaporative system.", allowance);
  hs_calc_cite (result, ALLOWANCE_SOURCE, HS_SURE_SECONDARY);
}

static gboolean
readiness_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  g_autoptr (GError) broken = NULL;
  HsReadiness readiness;

  if (!hs_readiness_parse (hs_calc_text (input, "hex"), &readiness, &broken))
    return refuse_key (error, "hex", broken);
  hs_calc_put_boolean (result, "lamp", "Lamp commanded on", readiness.lamp);
  hs_calc_put_integer (result, "codes", "Codes stored", readiness.n_codes, NULL);
  hs_calc_put_text (result, "ignition", "Ignition", readiness.compression ? "compression" : "spark");
  put_monitors (&readiness, result);
  hs_calc_cite (result, MONITOR_SOURCE, HS_SURE_SECONDARY);
  judge_readiness (&readiness, result);
  if (hs_calc_has (input, "year"))
    put_allowance (&readiness, (int) hs_calc_number (input, "year"), result);
  return TRUE;
}

static const HsCalcKey readiness_keys[] = {
  { .id = "hex", .label = "Answer to PID 01", .kind = HS_CALC_TEXT },
  { .id = "year", .label = "Model year", .kind = HS_CALC_NUMBER, .least = 1996, .most = 2039, .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
odometer_read (const HsCalcInput *input, HsOdometer *ret_earlier, HsOdometer *ret_later, GError **error)
{
  static const char *const ids[] = { "was", "now" };

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    if (hs_calc_scaled (input, ids[i]) % hs_decimal_power (HS_DECIMAL_MOST) != 0)
      {
        g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: leave the tenths of the odometer out.",
                     ids[i]);
        return FALSE;
      }
  *ret_earlier = (HsOdometer) { hs_calc_date (input, "from"), (gint64) hs_calc_number (input, "was") };
  *ret_later = (HsOdometer) { hs_calc_date (input, "on"), (gint64) hs_calc_number (input, "now") };
  if (ret_later->date >= ret_earlier->date)
    return TRUE;
  g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                       "on: the later reading is before the earlier one.");
  return FALSE;
}

static void
put_pace (const HsOdometer readings[2], HsDate ask, HsCalcResult *result)
{
  HsOdometerPace pace;
  g_autoptr (GError) reason = NULL;

  if (hs_odometer_step (&readings[0], &readings[1]) != HS_ODOMETER_STEP_FINE
      || !hs_odometer_pace (readings, 2, &pace, &reason))
    {
      hs_calc_put_none (result, "miles_per_day", "A day");
      hs_calc_put_none (result, "expected", "Expected then");
      if (reason != NULL)
        hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      if (reason != NULL)
        hs_calc_say (result, "Two readings at least %d days apart are needed to tell what it does in a day.",
                     HS_ODOMETER_LEAST_DAYS);
      return;
    }
  hs_calc_put_number (result, "miles_per_day", "A day", (double) pace.distance / (double) pace.days, "mi", 1);
  hs_calc_put_integer (result, "expected", "Expected then", hs_odometer_predict (&pace, ask), "mi");
}

static gboolean
odometer_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsOdometer readings[2];
  HsOdometerStep step;

  if (!odometer_read (input, &readings[0], &readings[1], error))
    return FALSE;
  step = hs_odometer_step (&readings[0], &readings[1]);
  hs_calc_put_integer (result, "miles", "Driven", readings[1].value - readings[0].value, "mi");
  hs_calc_put_integer (result, "days", "Days", (gint64) readings[1].date - readings[0].date, NULL);
  put_pace (readings, hs_calc_date (input, "ask"), result);
  hs_calc_cite (result, "Two readings of the odometer", HS_SURE_DERIVED);
  if (step == HS_ODOMETER_STEP_FINE)
    return TRUE;
  hs_calc_verdict (result, HS_VERDICT_OUTSIDE, step == HS_ODOMETER_STEP_FELL ? "fell" : "jumped");
  hs_calc_cite (result, "No vehicle does more than 1000 miles a day", HS_SURE_PRACTICE);
  if (step == HS_ODOMETER_STEP_FELL)
    hs_calc_say (result, "It shows less than before.");
  else
    hs_calc_say (result, "That is more than %d miles for each day between.", HS_ODOMETER_MOST_A_DAY);
  hs_calc_advise (result, "A typing slip, a changed cluster, another vehicle, or kilometers for miles: ask.");
  return TRUE;
}

static const HsCalcKey odometer_keys[] = {
  { .id = "from", .label = "Earlier day", .kind = HS_CALC_DATE },
  { .id = "was", .label = "It showed", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0, .most = MOST_MILES },
  { .id = "on", .label = "Later day", .kind = HS_CALC_DATE, .usual = "today" },
  { .id = "now", .label = "It shows", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0, .most = MOST_MILES },
  { .id = "ask", .label = "Day asked about", .kind = HS_CALC_DATE, .usual = "today" },
  HS_CALC_KEYS_END,
};

const HsCalc hs_calc_identity[] = {
  { .name = "vin", .title = "What a VIN says", .subject = SUBJECT,
    .help = "Checks a VIN, tells model year, region and maker, and what may have been meant.",
    .example = "vin=1M8GDM9AXKP042788", .keys = vin_keys, .run = vin_run },
  { .name = "trouble", .title = "Trouble code", .subject = SUBJECT,
    .help = "Reads a trouble code both ways and tells who gives it its meaning.", .example = "code=P0562",
    .keys = trouble_keys, .run = trouble_run },
  { .name = "readiness", .title = "Ready for inspection", .subject = SUBJECT,
    .help = "Tells lamp, codes and which self-tests have not run from the answer to PID 01.",
    .example = "hex=83076504", .keys = readiness_keys, .run = readiness_run },
  { .name = "odometer", .title = "Miles a day", .subject = SUBJECT,
    .help = "Compares two odometer readings and expects a third.",
    .example = "from=2025-09-02 was=81400 on=2025-12-11 now=94400 ask=2026-03-10", .keys = odometer_keys,
    .run = odometer_run },
  HS_CALC_SHELF_END,
};
