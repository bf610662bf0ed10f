// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What a reading means on its vehicle: the conditions are put together from the vehicle, from the battery that was on
 * it that day, from the other readings of the job, and from conditions that were written beside it ("temperature:-3;
 * just_charged:yes"). Core judges; this file only gathers.
 */

#include "hs-reading-private.h"

#include "hs-decimal.h"
#include "hs-drain.h"
#include "hs-installed-row.h"
#include "hs-ops-private.h"
#include "hs-own-limit.h"
#include "hs-settings-op.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"
#include "hs-words.h"

#include <math.h>
#include <string.h>

void
hs_reading_result_free (HsReadingResult *result)
{
  if (result == NULL)
    return;
  char **const texts[] = { &result->id,         &result->check, &result->name,    &result->how,
                           &result->caution,    &result->phase, &result->place,   &result->unit,
                           &result->value_text, &result->word,  &result->verdict, &result->why,
                           &result->limit,      &result->next,  &result->source,  &result->note,
                           &result->sure,       &result->whose, &result->answer,  &result->why_not };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free (*texts[i]);
  g_strfreev (result->then);
  g_strfreev (result->wanted);
  g_free (result);
}

HsReadingResult *
hs_reading_result_of_check (const HsCheck *check, const char *phase)
{
  HsReadingResult *result = g_new0 (HsReadingResult, 1);

  result->check = g_strdup (check->id);
  result->name = g_strdup (check->name);
  result->how = g_strdup (check->how);
  result->caution = g_strdup (check->caution);
  result->unit = g_strdup (check->unit);
  result->phase = g_strdup (phase);
  result->at = HS_INSTANT_NONE;
  return result;
}

/* The battery that a reading of that day and phase was taken on: before the repair the old one, after it the new. */
static const HsInstalledRow *
battery_of_day (GPtrArray *rows, HsDate day, gboolean before)
{
  const HsInstalledRow *found = NULL;

  for (guint i = 0; i < rows->len; i++)
    {
      const HsInstalledRow *row = g_ptr_array_index (rows, i);
      gboolean there = row->installed_on <= day && (row->removed_on == HS_DATE_NONE || row->removed_on >= day);

      if (g_strcmp0 (row->kind, "battery") != 0 || !there || (before && row->installed_on == day))
        continue;
      if (found == NULL || row->installed_on > found->installed_on)
        found = row;
    }
  return found;
}

static void
put_battery (const char *kind, double ah, gint64 cca, HsConditions *conditions)
{
  if (kind != NULL)
    hs_battery_kind_parse (kind, &conditions->battery_kind, NULL);
  if (!isnan (ah) && ah > 0)
    conditions->capacity_milliamp_hours = (gint64) llround (ah * 1000);
  if (cca > 0)
    conditions->rated_cca = cca;
}

void
hs_reading_ground_clear (HsReadingGround *ground)
{
  g_clear_pointer (&ground->vehicle, hs_vehicle_row_free);
  g_clear_pointer (&ground->installed, g_ptr_array_unref);
  g_clear_pointer (&ground->limits, g_ptr_array_unref);
  ground->loaded = FALSE;
}

/* @own: the ground of one reading alone. Returns: (nullable): what @scene lends, or that, with all that the book knows
 * of the vehicle. */
static HsReadingGround *
stand_on (const HsReadingScene *scene, HsReadingGround *own, GError **error)
{
  HsReadingGround *ground = scene->ground != NULL ? scene->ground : own;
  HsStore *store = hs_book_get_store (scene->book);

  if (ground->loaded)
    return ground;
  hs_reading_ground_clear (ground);
  if (!hs_settings_get_int (scene->book, "battery_usable_percent", &ground->usable_percent, error))
    return NULL;
  if (scene->vehicle_id != NULL
      && (!hs_vehicle_row_load (store, scene->vehicle_id, &ground->vehicle, error)
          || !hs_installed_row_list_of_vehicle (store, scene->vehicle_id, &ground->installed, error)
          || (ground->limits = hs_own_limit_list (scene->book, scene->vehicle_id, error)) == NULL))
    return NULL;
  ground->loaded = TRUE;
  return ground;
}

static void
gather_vehicle (const HsReadingScene *scene, const HsReadingGround *ground, const HsReadingRow *row,
                HsConditions *conditions)
{
  const HsVehicleRow *vehicle = ground->vehicle;
  const HsInstalledRow *battery;

  if (vehicle == NULL)
    return;
  put_battery (vehicle->battery_kind, vehicle->battery_ah, vehicle->battery_cca, conditions);
  battery = battery_of_day (ground->installed, hs_ops_today (scene->book, row->taken_at),
                            g_str_equal (row->phase, "before"));
  if (battery != NULL)
    put_battery (battery->battery_kind, battery->battery_ah, battery->battery_cca, conditions);
  conditions->fuel = vehicle->fuel;
}

/* The battery's volts at rest from the same job and phase, the latest that is not later than the reading. */
static void
gather_rest (const HsReadingScene *scene, const HsReadingRow *row, HsConditions *conditions)
{
  for (guint i = 0; scene->job_readings != NULL && i < scene->job_readings->len; i++)
    {
      const HsReadingRow *other = g_ptr_array_index (scene->job_readings, i);

      if (!g_str_equal (other->check_id, "battery_rest") || !g_str_equal (other->phase, row->phase)
          || other->value == HS_INT_NONE || other->taken_at > row->taken_at || other->decimals != 2)
        continue;
      conditions->has_rest = TRUE;
      conditions->rest_millivolts = other->value * 10;
    }
}

/* The kind of battery is that of the vehicle: told beside one reading of the job and phase, it is known to all. */
static void
gather_kind (const HsReadingScene *scene, const HsReadingRow *row, HsConditions *conditions)
{
  for (guint i = 0; scene->job_readings != NULL && i < scene->job_readings->len; i++)
    {
      const HsReadingRow *other = g_ptr_array_index (scene->job_readings, i);
      HsConditions told = HS_CONDITIONS_INIT;

      if (conditions->battery_kind != HS_BATTERY_UNKNOWN)
        return;
      if (other->conditions == NULL || !g_str_equal (other->phase, row->phase))
        continue;
      hs_conditions_put_what_can (other->conditions, &told);
      conditions->battery_kind = told.battery_kind;
    }
}

/* The place that a drop was measured over may stand as the place of the reading. */
static void
gather_place (const HsReadingRow *row, HsConditions *conditions)
{
  if (row->place != NULL)
    hs_words_parse (HS_WORDS_DROP_PLACE, row->place, &conditions->place, NULL);
}

gboolean
hs_reading_of_row (const HsCheck *check, const HsReadingRow *row, HsReading *ret_reading)
{
  HsReading reading = { .kind = HS_READING_VALUE };

  if (row->answer != NULL)
    return !hs_check_has_number (check) && hs_check_parse (check, row->answer, ret_reading, NULL);
  if (row->over_range)
    reading.kind = HS_READING_OVER_RANGE;
  else if (row->value == HS_INT_NONE)
    reading.kind = HS_READING_NOT_MEASURED;
  else
    {
      reading.value = row->value;
      reading.of = row->of_value == HS_INT_NONE ? 0 : row->of_value;
    }
  *ret_reading = reading;
  return reading.kind == HS_READING_NOT_MEASURED || hs_check_has_number (check);
}

static void
put_value (HsReadingResult *result, const HsCheck *check, const HsReading *reading, const HsReadingRow *row)
{
  g_autofree char *text = hs_check_format (check, reading);
  gboolean bare = reading->kind != HS_READING_VALUE || g_str_equal (check->unit, "count");

  result->id = g_strdup (row->id);
  result->place = g_strdup (row->place);
  result->at = row->taken_at;
  result->answer = g_strdup (row->answer);
  result->why_not = g_strdup (row->not_measured_why);
  result->has_value = reading->kind == HS_READING_VALUE && row->answer == NULL;
  result->value = result->has_value ? (double) reading->value / (double) hs_decimal_power (check->decimals) : 0;
  if (row->answer != NULL)
    result->value_text = g_strdup (row->answer);
  else
    result->value_text = bare ? g_strdup (text) : g_strdup_printf ("%s %s", text, check->unit);
}

static void
put_judgment (HsReadingResult *result, const HsJudgment *judgment)
{
  result->verdict = g_strdup (hs_verdict_id (judgment->verdict));
  result->word = g_strdup (judgment->do_not_drive ? HS_DO_NOT_DRIVE_WORD : judgment->word);
  result->why = g_strdup (judgment->why);
  result->limit = g_strdup (judgment->limit);
  result->source = g_strdup (judgment->source);
  result->sure = g_strdup (judgment->tag);
  result->whose = g_strdup (hs_limit_whose_id (judgment->whose));
  result->next = hs_text_is_blank (judgment->next) ? NULL : g_strdup (judgment->next);
  result->note = g_strdup (judgment->figure);
  result->then = g_strdupv (judgment->then);
}

/* What is still to be asked, by ids; %NULL if nothing is. */
static char **
dup_wanted_ids (HsChecks *checks, const HsCheck *check, const HsConditions *conditions, const HsOwnLimits *own,
                const HsReading *reading)
{
  g_autoptr (GPtrArray) wanted = hs_check_dup_wanted (checks, check, conditions, own, reading);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  for (guint i = 0; i < wanted->len; i++)
    g_strv_builder_add (builder, ((const HsCondition *) g_ptr_array_index (wanted, i))->id);
  return wanted->len > 0 ? g_strv_builder_end (builder) : NULL;
}

static void
gather (const HsReadingScene *scene, const HsReadingGround *ground, const HsReadingRow *row, HsConditions *conditions)
{
  gather_vehicle (scene, ground, row, conditions);
  conditions->usable_percent = ground->usable_percent;
  gather_rest (scene, row, conditions);
  gather_kind (scene, row, conditions);
  gather_place (row, conditions);
  if (row->conditions != NULL)
    hs_conditions_put_what_can (row->conditions, conditions);
}

gboolean
hs_reading_battery_of (const HsReadingScene *scene, const HsReadingRow *row, double *ret_amp_hours, double *ret_share,
                       GError **error)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  g_auto (HsReadingGround) own = { 0 };
  const HsReadingGround *ground = stand_on (scene, &own, error);

  if (ground == NULL)
    return FALSE;
  gather (scene, ground, row, &conditions);
  *ret_amp_hours = (double) conditions.capacity_milliamp_hours / 1000;
  *ret_share = conditions.usable_percent > 0 ? (double) conditions.usable_percent / 100 : HS_DRAIN_USUAL_SHARE;
  return TRUE;
}

/* A book may hold readings of a check, or answers, that this version does not know: they are shown as they were
 * written. */
static HsReadingResult *
unknown_check (const HsReadingRow *row)
{
  HsCheck check = { .id = row->check_id, .name = row->check_id, .unit = row->unit == NULL ? (char *) "" : row->unit };
  HsReadingResult *result = hs_reading_result_of_check (&check, row->phase);
  g_autofree char *number = NULL;

  result->id = g_strdup (row->id);
  result->place = g_strdup (row->place);
  result->at = row->taken_at;
  result->verdict = g_strdup (hs_verdict_id (HS_VERDICT_CANNOT_TELL));
  result->word = g_strdup (hs_verdict_word (HS_VERDICT_CANNOT_TELL));
  result->why = g_strdup_printf (row->answer == NULL
                                   ? "This version has no check “%s”; the reading stands as it was written."
                                   : "This version does not know this answer to “%s”; it stands as it was written.",
                                 row->check_id);
  result->answer = g_strdup (row->answer);
  if (row->answer != NULL)
    {
      result->value_text = g_strdup (row->answer);
      return result;
    }
  if (row->value == HS_INT_NONE)
    {
      result->value_text = g_strdup (row->over_range ? "over range" : "not measured");
      return result;
    }
  number = hs_decimal_format (row->value, (guint) row->decimals);
  result->has_value = TRUE;
  result->value = (double) row->value / (double) hs_decimal_power ((guint) row->decimals);
  result->value_text = g_strchomp (g_strdup_printf ("%s %s", number, check.unit));
  return result;
}

HsReadingResult *
hs_reading_judge_row (const HsReadingScene *scene, const HsReadingRow *row, GError **error)
{
  HsChecks *checks = hs_book_get_checks (scene->book);
  const HsCheck *check = hs_checks_lookup (checks, row->check_id);
  HsConditions conditions = HS_CONDITIONS_INIT;
  const HsOwnLimit *own;
  g_auto (HsJudgment) judgment = { 0 };
  g_auto (HsReadingGround) alone = { 0 };
  const HsReadingGround *ground;
  HsReading reading;
  HsReadingResult *result;

  if (check == NULL || !hs_reading_of_row (check, row, &reading))
    return unknown_check (row);
  ground = stand_on (scene, &alone, error);
  if (ground == NULL)
    return NULL;
  gather (scene, ground, row, &conditions);
  own = hs_own_limit_find (ground->limits, check->id);
  hs_check_judge (checks, check, &conditions, own != NULL ? &own->limits : NULL, &reading, &judgment);
  result = hs_reading_result_of_check (check, row->phase);
  put_value (result, check, &reading, row);
  put_judgment (result, &judgment);
  result->wanted = dup_wanted_ids (checks, check, &conditions, own != NULL ? &own->limits : NULL, &reading);
  return result;
}

char *
hs_reading_result_say (const HsReadingResult *result)
{
  return g_strdup_printf ("%s %s%s%s", result->name, result->value_text, result->note != NULL ? ", " : "",
                          result->note != NULL ? result->note : "");
}

static const HsReadingRow *
find_row (const HsReadingScene *scene, const char *reading_id)
{
  for (guint i = 0; i < scene->job_readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->job_readings, i);

      if (g_str_equal (row->id, reading_id))
        return row;
    }
  return NULL;
}

gboolean
hs_reading_dup_bands (const HsReadingScene *scene, const char *reading_id, const HsCheck **ret_check,
                      GArray **ret_bands, GError **error)
{
  const HsReadingRow *row = find_row (scene, reading_id);
  HsChecks *checks = hs_book_get_checks (scene->book);
  const HsCheck *check = row != NULL ? hs_checks_lookup (checks, row->check_id) : NULL;
  HsConditions conditions = HS_CONDITIONS_INIT;
  g_auto (HsReadingGround) alone = { 0 };
  const HsReadingGround *ground;
  const HsOwnLimit *own;

  *ret_check = check;
  if (check == NULL || check->entry != HS_CHECK_NUMBER)
    {
      *ret_bands = g_array_new (FALSE, FALSE, sizeof (HsCheckBand));
      return TRUE;
    }
  ground = stand_on (scene, &alone, error);
  if (ground == NULL)
    return FALSE;
  gather (scene, ground, row, &conditions);
  own = hs_own_limit_find (ground->limits, check->id);
  *ret_bands = hs_check_dup_bands (checks, check, &conditions, own != NULL ? &own->limits : NULL);
  return TRUE;
}
