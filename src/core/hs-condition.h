// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-battery.h"
#include "hs-words.h"

G_BEGIN_DECLS

/**
 * HsKnown:
 *
 * A yes-or-no that nobody may have asked about.
 */
typedef enum
{
  HS_NOT_KNOWN,
  HS_NO,
  HS_YES,
} HsKnown;

/**
 * HsConditions:
 * @battery_kind: of the vehicle
 * @rated_cca: amps on the battery's label, 0 = not known
 * @capacity_milliamp_hours: 20 h rating, 0 = not known
 * @usable_percent: for days to no-start, 0 = 40
 * @fuel: (nullable): id of %HS_WORDS_FUEL
 * @has_temperature: @celsius is known
 * @celsius: of the battery, or of the air where it stood
 * @has_rest: @rest_millivolts is known
 * @rest_millivolts: of the battery before it was charged or tested
 * @just_charged: charged or driven within the last hour, surface charge still on
 * @full_charge: charged fully before this reading
 * @smart_charging: the vehicle varies its charging voltage
 * @loaded: the circuit carried its current while it was measured
 * @place: (nullable): where a drop was measured, id of %HS_WORDS_DROP_PLACE
 * @cylinders: of the engine, 0 = not known
 * @engine: (nullable): what the engine did meanwhile, id of %HS_WORDS_ENGINE
 * @meter_at: (nullable): where ripple was read, id of %HS_WORDS_METER_AT
 * @has_waited: @waited_minutes is known
 * @waited_minutes: since it was shut, switched off or taken off the charger
 * @heavy: the vehicle may weigh more than 10,000 lb
 * @brake_fluid: (nullable): id of %HS_WORDS_BRAKE_FLUID
 * @coolant: (nullable): id of %HS_WORDS_COOLANT
 *
 * What is known about the vehicle and the moment. All zero means "nothing known" but for the battery's kind: use
 * %HS_CONDITIONS_INIT.
 */
typedef struct
{
  HsBatteryKind battery_kind;
  gint64 rated_cca;
  gint64 capacity_milliamp_hours;
  gint64 usable_percent;
  const char *fuel;
  gboolean has_temperature;
  int celsius;
  gboolean has_rest;
  gint64 rest_millivolts;
  HsKnown just_charged;
  HsKnown full_charge;
  HsKnown smart_charging;
  HsKnown loaded;
  const char *place;
  int cylinders;
  const char *engine;
  const char *meter_at;
  gboolean has_waited;
  int waited_minutes;
  HsKnown heavy;
  const char *brake_fluid;
  const char *coolant;
} HsConditions;

#define HS_CONDITIONS_INIT ((HsConditions) { .battery_kind = HS_BATTERY_UNKNOWN })

/**
 * HsConditionKey:
 *
 * What a limit may ask about before it applies; hs_condition_get() describes each.
 */
typedef enum
{
  HS_CONDITION_BATTERY_KIND,
  HS_CONDITION_FUEL,
  HS_CONDITION_TEMPERATURE,
  HS_CONDITION_REST,
  HS_CONDITION_JUST_CHARGED,
  HS_CONDITION_FULL_CHARGE,
  HS_CONDITION_SMART_CHARGING,
  HS_CONDITION_LOADED,
  HS_CONDITION_PLACE,
  HS_CONDITION_RATED_CCA,
  HS_CONDITION_CYLINDERS,
  HS_CONDITION_ENGINE,
  HS_CONDITION_METER_AT,
  HS_CONDITION_WAITED,
  HS_CONDITION_HEAVY,
  HS_CONDITION_BRAKE_FLUID,
  HS_CONDITION_COOLANT,
} HsConditionKey;

#define HS_N_CONDITIONS (HS_CONDITION_COOLANT + 1)

/**
 * HsConditionEntry:
 * @HS_CONDITION_WORD: one of a list of words
 * @HS_CONDITION_YES_NO: yes or no
 * @HS_CONDITION_NUMBER: a number
 *
 * How a condition is entered.
 */
typedef enum
{
  HS_CONDITION_WORD,
  HS_CONDITION_YES_NO,
  HS_CONDITION_NUMBER,
} HsConditionEntry;

/**
 * HsCondition:
 * @id: as it is written: `temperature`
 * @label: what to ask: "Temperature of the battery or the air"
 * @unit: of a number, else empty
 * @decimals, @least, @most: of a number; both ends scaled by the decimals
 * @words: of a word
 *
 * One condition, for asking.
 */
typedef struct
{
  HsConditionKey key;
  const char *id;
  const char *label;
  HsConditionEntry entry;
  const char *unit;
  guint decimals;
  gint64 least;
  gint64 most;
  HsWords words;
} HsCondition;

/* hs_condition_get: (transfer none) */
const HsCondition *hs_condition_get (HsConditionKey key);

/* hs_condition_lookup: (transfer none) (nullable): by its id; letter case makes no difference. */
const HsCondition *hs_condition_lookup (const char *id);

/**
 * hs_conditions_read:
 * @ret_value: (out): a number scaled by the condition's decimals, an #HsKnown, or the place of a word in its list
 *
 * Returns: %TRUE if it is known
 */
gboolean hs_conditions_read (const HsConditions *conditions, HsConditionKey key, gint64 *ret_value);

/**
 * hs_conditions_put:
 * @text: as it is written beside a reading: `temperature:-3; loaded:yes`; a part without a colon is a remark and says
 *   nothing here
 * @conditions: (inout): what is written is put over what is known; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the condition and what it takes
 *
 * A temperature is in Celsius, or in Fahrenheit with an F behind it. `unknown` takes back what is known.
 *
 * Returns: %TRUE if each part is understood
 */
gboolean hs_conditions_put (const char *text, HsConditions *conditions, GError **error);

/* hs_conditions_put_what_can: like hs_conditions_put(), passing over parts that are not understood; for what already
 * stands in a book. */
void hs_conditions_put_what_can (const char *text, HsConditions *conditions);

G_END_DECLS
