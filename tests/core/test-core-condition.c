// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Conditions as they are written beside a reading: each is read, and a slip is refused by name. */

#include "core-test.h"
#include "hs-condition.h"

static void
test_kinds (void)
{
  for (int i = 0; i < HS_N_CONDITIONS; i++)
    {
      const HsCondition *kind = hs_condition_get ((HsConditionKey) i);
      g_autofree char *loud = g_ascii_strup (kind->id, -1);

      g_assert_cmpint (kind->key, ==, i);
      g_assert_true (hs_condition_lookup (kind->id) == kind);
      g_assert_true (hs_condition_lookup (loud) == kind);
      g_assert_cmpstr (kind->label, !=, "");
      if (kind->entry == HS_CONDITION_NUMBER)
        g_assert_cmpint (kind->least, <, kind->most);
      if (kind->entry == HS_CONDITION_WORD)
        g_assert_nonnull (hs_words_get (kind->words, NULL));
    }
  g_assert_null (hs_condition_lookup ("weather"));
  g_assert_null (hs_condition_lookup (""));
}

/* Nothing is known of a moment that nobody asked about. */
static void
test_nothing_known (void)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  gint64 value;

  for (int i = 0; i < HS_N_CONDITIONS; i++)
    g_assert_false (hs_conditions_read (&conditions, (HsConditionKey) i, &value));
}

static void
test_put (void)
{
  static const struct
  {
    const char *text;
    HsConditionKey key;
    gint64 value;
  } rows[] = {
    { "battery_kind:AGM", HS_CONDITION_BATTERY_KIND, HS_BATTERY_AGM },
    { "battery_kind:flooded", HS_CONDITION_BATTERY_KIND, HS_BATTERY_FLOODED },
    { "fuel:diesel", HS_CONDITION_FUEL, 1 },
    { "fuel:petrol", HS_CONDITION_FUEL, 0 },
    { "temperature:-3", HS_CONDITION_TEMPERATURE, -3 },
    { "temperature: -3 C", HS_CONDITION_TEMPERATURE, -3 },
    { "temperature:-3 °C", HS_CONDITION_TEMPERATURE, -3 },
    { "temperature:-3°c", HS_CONDITION_TEMPERATURE, -3 },
    /* 20 °F = -6.67 °C, 0 °F = -17.8 °C, 32 °F = 0 °C, 70 °F = 21.1 °C. */
    { "temperature:20F", HS_CONDITION_TEMPERATURE, -7 },
    { "temperature:0 °F", HS_CONDITION_TEMPERATURE, -18 },
    { "temperature:32 f", HS_CONDITION_TEMPERATURE, 0 },
    { "temperature:70F", HS_CONDITION_TEMPERATURE, 21 },
    { "temperature:-60", HS_CONDITION_TEMPERATURE, -60 },
    { "temperature:120", HS_CONDITION_TEMPERATURE, 120 },
    { "rest:12.4", HS_CONDITION_REST, 12400 },
    { "rest:12.398", HS_CONDITION_REST, 12398 },
    { "just_charged:yes", HS_CONDITION_JUST_CHARGED, HS_YES },
    { "JUST_CHARGED: NO ", HS_CONDITION_JUST_CHARGED, HS_NO },
    { "full_charge:yes", HS_CONDITION_FULL_CHARGE, HS_YES },
    { "smart_charging:no", HS_CONDITION_SMART_CHARGING, HS_NO },
    { "loaded:no", HS_CONDITION_LOADED, HS_NO },
    { "place:ground", HS_CONDITION_PLACE, 6 },
    { "place:starter positive", HS_CONDITION_PLACE, 7 },
    { "rated_cca:540", HS_CONDITION_RATED_CCA, 540 },
    { "cylinders:6", HS_CONDITION_CYLINDERS, 6 },
    { "engine:idling", HS_CONDITION_ENGINE, 2 },
    { "meter_at:stud", HS_CONDITION_METER_AT, 1 },
    { "waited:75", HS_CONDITION_WAITED, 75 },
    { "heavy:no", HS_CONDITION_HEAVY, HS_NO },
    { "brake_fluid:DOT 4", HS_CONDITION_BRAKE_FLUID, 1 },
    { "brake_fluid:dot5.1", HS_CONDITION_BRAKE_FLUID, 3 },
    { "coolant:PG", HS_CONDITION_COOLANT, 1 },
    { "in the sun; temperature:-9; on the lift", HS_CONDITION_TEMPERATURE, -9 },
    { "temperature:-9; temperature:4", HS_CONDITION_TEMPERATURE, 4 },
    { ";; loaded : yes ;", HS_CONDITION_LOADED, HS_YES },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsConditions conditions = HS_CONDITIONS_INIT;
      g_autoptr (GError) error = NULL;
      gint64 value = 0;

      g_assert_true (hs_conditions_put (rows[i].text, &conditions, &error));
      g_assert_no_error (error);
      g_assert_true (hs_conditions_read (&conditions, rows[i].key, &value));
      g_assert_cmpint (value, ==, rows[i].value);
      for (int other = 0; other < HS_N_CONDITIONS; other++)
        g_assert_true (hs_conditions_read (&conditions, (HsConditionKey) other, &value)
                       == (other == (int) rows[i].key));
    }
}

/* What is taken back is not known any more; what is not named stays. */
static void
test_unknown (void)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  gint64 value;

  g_assert_true (hs_conditions_put ("battery_kind:AGM; temperature:4; loaded:yes; fuel:gas; cylinders:4; waited:5;"
                                    "rest:12; rated_cca:500; place:cable", &conditions, NULL));
  g_assert_true (hs_conditions_put ("battery_kind:unknown; temperature:unknown; loaded:Unknown; fuel:unknown;"
                                    "waited:unknown; rest:unknown; rated_cca:unknown; place:unknown",
                                    &conditions, NULL));
  for (int i = 0; i < HS_N_CONDITIONS; i++)
    g_assert_true (hs_conditions_read (&conditions, (HsConditionKey) i, &value) == (i == HS_CONDITION_CYLINDERS));
  g_assert_true (hs_conditions_put ("battery_kind:not known", &conditions, NULL));
  g_assert_cmpint (conditions.battery_kind, ==, HS_BATTERY_UNKNOWN);
}

static void
test_refuses (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "weather:wet", "there is no condition “weather”; there are: battery_kind, fuel, temperature, rest" },
    { "note: it is 5:30", "there is no condition “note”" },
    { ":yes", "there is no condition “”" },
    { "temperature", "temperature: write the answer behind a colon" },
    { "loaded", "loaded: write the answer behind a colon" },
    { "temperature:", "temperature: “” cannot be; it takes -60 to 120 °C" },
    { "temperature:cold", "temperature: “cold” cannot be" },
    { "temperature:1e3", "temperature: “1e3” cannot be" },
    { "temperature:4.5", "temperature: “4.5” cannot be" },
    { "temperature:-61", "temperature: “-61” cannot be" },
    { "temperature:121", "temperature: “121” cannot be" },
    { "temperature:400F", "temperature: “400F” cannot be" },
    { "temperature:9223372036854775807F", "cannot be" },
    { "temperature:F", "temperature: “F” cannot be" },
    { "temperature:nan", "temperature: “nan” cannot be" },
    { "rest:12,4", "rest: “12,4” cannot be; it takes -20 to 20 V" },
    { "rest:12400", "rest: “12400” cannot be" },
    { "rated_cca:0", "rated_cca: “0” cannot be; it takes 50 to 2500 A" },
    { "cylinders:0", "cylinders: “0” cannot be; it takes 1 to 16" },
    { "cylinders:17", "cylinders: “17” cannot be" },
    { "waited:-1", "waited: “-1” cannot be; it takes 0 to 20160 min" },
    { "loaded:perhaps", "loaded: “perhaps” cannot be; it takes yes or no" },
    { "loaded:", "loaded: “” cannot be" },
    { "fuel:coal", "fuel: “coal”" },
    { "place:trunk", "place: “trunk”" },
    { "battery_kind:nickel", "battery_kind: “nickel”" },
    { "temperature:4; loaded:perhaps", "loaded:" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsConditions conditions = HS_CONDITIONS_INIT;
      g_autoptr (GError) error = NULL;
      gint64 value;

      assert_bad_value (hs_conditions_put (rows[i].text, &conditions, &error), &error, rows[i].words);
      for (int key = 0; key < HS_N_CONDITIONS; key++)
        g_assert_false (hs_conditions_read (&conditions, (HsConditionKey) key, &value));
    }
}

/* What stands in a book already is taken as far as it goes. */
static void
test_put_what_can (void)
{
  HsConditions conditions = HS_CONDITIONS_INIT;

  hs_conditions_put_what_can ("weather:wet; temperature:cold; loaded:yes; place:trunk; cylinders:4", &conditions);
  g_assert_cmpint (conditions.loaded, ==, HS_YES);
  g_assert_cmpint (conditions.cylinders, ==, 4);
  g_assert_false (conditions.has_temperature);
  g_assert_null (conditions.place);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/condition/kinds", test_kinds);
  g_test_add_func ("/condition/nothing-known", test_nothing_known);
  g_test_add_func ("/condition/put", test_put);
  g_test_add_func ("/condition/unknown", test_unknown);
  g_test_add_func ("/condition/refuses", test_refuses);
  g_test_add_func ("/condition/put-what-can", test_put_what_can);
  return g_test_run ();
}
