// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What may be known about a vehicle and a moment, beside a reading: for limits that depend on it, for asking only what
 * is needed, and for what is written beside a reading. Refuses a condition that does not exist and an answer that it
 * does not take, so that a slip is never passed over as "not known". */

#include "hs-condition.h"

#include "hs-core-error.h"
#include "hs-decimal.h"

#define UNKNOWN "unknown"

#define A_WORD(key, id, label, words) [key] = { key, id, label, HS_CONDITION_WORD, "", 0, 0, 0, words }
#define YES_NO(key, id, label) [key] = { key, id, label, HS_CONDITION_YES_NO, "", 0, 0, 0, 0 }
#define NUMBER(key, id, label, unit, decimals, least, most) \
  [key] = { key, id, label, HS_CONDITION_NUMBER, unit, decimals, least, most, 0 }

static const HsCondition kinds[HS_N_CONDITIONS] = {
  A_WORD (HS_CONDITION_BATTERY_KIND, "battery_kind", "Kind of battery", HS_WORDS_BATTERY_KIND),
  A_WORD (HS_CONDITION_FUEL, "fuel", "Fuel", HS_WORDS_FUEL),
  NUMBER (HS_CONDITION_TEMPERATURE, "temperature", "Temperature of the battery or the air", "°C", 0, -60, 120),
  NUMBER (HS_CONDITION_REST, "rest", "Battery at rest before it was charged or tested", "V", 3, -20000, 20000),
  YES_NO (HS_CONDITION_JUST_CHARGED, "just_charged", "Charged or driven within the last hour"),
  YES_NO (HS_CONDITION_FULL_CHARGE, "full_charge", "Charged fully before this"),
  YES_NO (HS_CONDITION_SMART_CHARGING, "smart_charging", "The vehicle varies its charging"),
  YES_NO (HS_CONDITION_LOADED, "loaded", "The circuit carried its current"),
  A_WORD (HS_CONDITION_PLACE, "place", "Where the drop was measured", HS_WORDS_DROP_PLACE),
  NUMBER (HS_CONDITION_RATED_CCA, "rated_cca", "CCA on the battery's label", "A", 0, 50, 2500),
  NUMBER (HS_CONDITION_CYLINDERS, "cylinders", "Cylinders of the engine", "", 0, 1, 16),
  A_WORD (HS_CONDITION_ENGINE, "engine", "What the engine did", HS_WORDS_ENGINE),
  A_WORD (HS_CONDITION_METER_AT, "meter_at", "Where the meter was", HS_WORDS_METER_AT),
  NUMBER (HS_CONDITION_WAITED, "waited", "Waited since it was shut or switched off", "min", 0, 0, 20160),
  YES_NO (HS_CONDITION_HEAVY, "heavy", "The vehicle may weigh more than 10,000 lb"),
  A_WORD (HS_CONDITION_BRAKE_FLUID, "brake_fluid", "Kind of brake fluid", HS_WORDS_BRAKE_FLUID),
  A_WORD (HS_CONDITION_COOLANT, "coolant", "Kind of coolant", HS_WORDS_COOLANT),
};

const HsCondition *
hs_condition_get (HsConditionKey key)
{
  return &kinds[key];
}

const HsCondition *
hs_condition_lookup (const char *id)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (g_ascii_strcasecmp (kinds[i].id, id) == 0)
      return &kinds[i];
  return NULL;
}

static gboolean
read_known (HsKnown known, gint64 *ret_value)
{
  *ret_value = known;
  return known != HS_NOT_KNOWN;
}

static gboolean
read_word (HsConditionKey key, const char *word, gint64 *ret_value)
{
  *ret_value = word == NULL ? -1 : hs_words_index (kinds[key].words, word);
  return *ret_value >= 0;
}

static gboolean
read_number (gboolean is_known, gint64 number, gint64 *ret_value)
{
  *ret_value = number;
  return is_known;
}

gboolean
hs_conditions_read (const HsConditions *conditions, HsConditionKey key, gint64 *ret_value)
{
  switch (key)
    {
    case HS_CONDITION_BATTERY_KIND:
      return read_number (conditions->battery_kind != HS_BATTERY_UNKNOWN, conditions->battery_kind, ret_value);
    case HS_CONDITION_FUEL:
      return read_word (key, conditions->fuel, ret_value);
    case HS_CONDITION_TEMPERATURE:
      return read_number (conditions->has_temperature, conditions->celsius, ret_value);
    case HS_CONDITION_REST:
      return read_number (conditions->has_rest, conditions->rest_millivolts, ret_value);
    case HS_CONDITION_JUST_CHARGED:
      return read_known (conditions->just_charged, ret_value);
    case HS_CONDITION_FULL_CHARGE:
      return read_known (conditions->full_charge, ret_value);
    case HS_CONDITION_SMART_CHARGING:
      return read_known (conditions->smart_charging, ret_value);
    case HS_CONDITION_LOADED:
      return read_known (conditions->loaded, ret_value);
    case HS_CONDITION_PLACE:
      return read_word (key, conditions->place, ret_value);
    case HS_CONDITION_RATED_CCA:
      return read_number (conditions->rated_cca > 0, conditions->rated_cca, ret_value);
    case HS_CONDITION_CYLINDERS:
      return read_number (conditions->cylinders > 0, conditions->cylinders, ret_value);
    case HS_CONDITION_ENGINE:
      return read_word (key, conditions->engine, ret_value);
    case HS_CONDITION_METER_AT:
      return read_word (key, conditions->meter_at, ret_value);
    case HS_CONDITION_WAITED:
      return read_number (conditions->has_waited, conditions->waited_minutes, ret_value);
    case HS_CONDITION_HEAVY:
      return read_known (conditions->heavy, ret_value);
    case HS_CONDITION_BRAKE_FLUID:
      return read_word (key, conditions->brake_fluid, ret_value);
    case HS_CONDITION_COOLANT:
    default:
      return read_word (key, conditions->coolant, ret_value);
    }
}

/* An answer: a number, an HsKnown or the place of a word; @known is FALSE for `unknown`. */
typedef struct
{
  gboolean known;
  gint64 value;
} Answer;

static const char *
word_of (HsConditionKey key, const Answer *answer)
{
  return answer->known ? hs_words_get (kinds[key].words, NULL)[answer->value].id : NULL;
}

static HsKnown
known_of (const Answer *answer)
{
  return answer->known ? (HsKnown) answer->value : HS_NOT_KNOWN;
}

/* The words and the yes-or-nos. */
static void
put_choice (HsConditionKey key, const Answer *answer, HsConditions *conditions)
{
  HsKnown *knowns[HS_N_CONDITIONS] = {
    [HS_CONDITION_JUST_CHARGED] = &conditions->just_charged,
    [HS_CONDITION_FULL_CHARGE] = &conditions->full_charge,
    [HS_CONDITION_SMART_CHARGING] = &conditions->smart_charging,
    [HS_CONDITION_LOADED] = &conditions->loaded,
    [HS_CONDITION_HEAVY] = &conditions->heavy,
  };
  const char **words[HS_N_CONDITIONS] = {
    [HS_CONDITION_FUEL] = &conditions->fuel,
    [HS_CONDITION_PLACE] = &conditions->place,
    [HS_CONDITION_ENGINE] = &conditions->engine,
    [HS_CONDITION_METER_AT] = &conditions->meter_at,
    [HS_CONDITION_BRAKE_FLUID] = &conditions->brake_fluid,
    [HS_CONDITION_COOLANT] = &conditions->coolant,
  };

  if (knowns[key] != NULL)
    *knowns[key] = known_of (answer);
  else if (words[key] != NULL)
    *words[key] = word_of (key, answer);
}

static void
put_answer (HsConditionKey key, const Answer *answer, HsConditions *conditions)
{
  gint64 number = answer->known ? answer->value : 0;

  switch (key)
    {
    case HS_CONDITION_BATTERY_KIND:
      conditions->battery_kind = answer->known ? (HsBatteryKind) answer->value : HS_BATTERY_UNKNOWN;
      break;
    case HS_CONDITION_TEMPERATURE:
      conditions->has_temperature = answer->known;
      conditions->celsius = (int) number;
      break;
    case HS_CONDITION_REST:
      conditions->has_rest = answer->known;
      conditions->rest_millivolts = number;
      break;
    case HS_CONDITION_RATED_CCA:
      conditions->rated_cca = number;
      break;
    case HS_CONDITION_CYLINDERS:
      conditions->cylinders = (int) number;
      break;
    case HS_CONDITION_WAITED:
      conditions->has_waited = answer->known;
      conditions->waited_minutes = (int) number;
      break;
    default:
      put_choice (key, answer, conditions);
      break;
    }
}

static gboolean
refuse_number (const HsCondition *kind, const char *text, GError **error)
{
  g_autofree char *least = hs_decimal_format_short (kind->least, kind->decimals);
  g_autofree char *most = hs_decimal_format_short (kind->most, kind->decimals);

  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: “%s” cannot be; it takes %s to %s%s%s", kind->id,
               text, least, most, *kind->unit == '\0' ? "" : " ", kind->unit);
  return FALSE;
}

/* `-3`, and of a temperature also `-3 °C` and `27 F`: degrees, to the nearest whole one. */
static gboolean
number_parse (const HsCondition *kind, const char *text, gint64 *ret_value, GError **error)
{
  g_autofree char *digits = g_strdup (text);
  gboolean fahrenheit = FALSE;
  gsize length;

  if (kind->key == HS_CONDITION_TEMPERATURE && *digits != '\0')
    {
      length = strlen (digits);
      fahrenheit = g_ascii_toupper (digits[length - 1]) == 'F';
      if (fahrenheit || g_ascii_toupper (digits[length - 1]) == 'C')
        digits[length - 1] = '\0';
      g_strchomp (digits);
      if (g_str_has_suffix (digits, "°"))
        digits[strlen (digits) - strlen ("°")] = '\0';
      g_strchomp (digits);
    }
  if (!hs_decimal_parse (digits, kind->decimals, ret_value, NULL)
      || (fahrenheit && (ABS (*ret_value) > 1000 || !hs_ratio_half_up (*ret_value - 32, 5, 9, ret_value)))
      || *ret_value < kind->least || *ret_value > kind->most)
    return refuse_number (kind, text, error);
  return TRUE;
}

static gboolean
answer_parse (const HsCondition *kind, const char *text, Answer *ret_answer, GError **error)
{
  Answer answer = { TRUE, 0 };
  int index = 0;

  if (g_ascii_strcasecmp (text, UNKNOWN) == 0)
    answer.known = FALSE;
  else if (kind->entry == HS_CONDITION_NUMBER && !number_parse (kind, text, &answer.value, error))
    return FALSE;
  else if (kind->entry == HS_CONDITION_YES_NO)
    {
      answer.value = g_ascii_strcasecmp (text, "yes") == 0 ? HS_YES : HS_NO;
      if (answer.value == HS_NO && g_ascii_strcasecmp (text, "no") != 0)
        {
          g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: “%s” cannot be; it takes yes or no",
                       kind->id, text);
          return FALSE;
        }
    }
  else if (kind->entry == HS_CONDITION_WORD)
    {
      if (!hs_words_parse_index (kind->words, text, &index, error))
        {
          g_prefix_error (error, "%s: ", kind->id);
          return FALSE;
        }
      answer.value = index;
      answer.known = kind->key != HS_CONDITION_BATTERY_KIND || index != HS_BATTERY_UNKNOWN;
    }
  *ret_answer = answer;
  return TRUE;
}

static gboolean
refuse_key (const char *id, GError **error)
{
  g_autoptr (GString) known = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    g_string_append_printf (known, "%s%s", i == 0 ? "" : ", ", kinds[i].id);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "there is no condition “%s”; there are: %s", id,
               known->str);
  return FALSE;
}

static gboolean
put_part (const char *part, HsConditions *conditions, GError **error)
{
  g_auto (GStrv) sides = g_strsplit (part, ":", 2);
  const HsCondition *kind = hs_condition_lookup (g_strstrip (sides[0]));
  Answer answer;

  if (sides[1] == NULL)
    {
      if (kind == NULL)
        return TRUE;
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: write the answer behind a colon", kind->id);
      return FALSE;
    }
  if (kind == NULL)
    return refuse_key (sides[0], error);
  if (!answer_parse (kind, g_strstrip (sides[1]), &answer, error))
    return FALSE;
  put_answer (kind->key, &answer, conditions);
  return TRUE;
}

gboolean
hs_conditions_put (const char *text, HsConditions *conditions, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);
  HsConditions put = *conditions;

  for (guint i = 0; parts[i] != NULL; i++)
    if (*g_strstrip (parts[i]) != '\0' && !put_part (parts[i], &put, error))
      return FALSE;
  *conditions = put;
  return TRUE;
}

void
hs_conditions_put_what_can (const char *text, HsConditions *conditions)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);

  for (guint i = 0; parts[i] != NULL; i++)
    if (*g_strstrip (parts[i]) != '\0')
      put_part (parts[i], conditions, NULL);
}
