// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of what is known about vehicles: odometers, parts that are or were on them, and readings of jobs. Refuses an
 * odometer that would be asked about beside the vehicle (hs-odometer-op.h), a second battery in one place, a warranty
 * swap that finds nothing to stand in for, and a reading in another unit than its check's.
 */

#include "hs-battery.h"
#include "hs-check.h"
#include "hs-import-row.h"
#include "hs-installed-row.h"
#include "hs-odometer-row.h"
#include "hs-odometer-op.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"
#include "hs-reading-row.h"
#include "hs-vehicle-row.h"

#include <string.h>

enum
{
  ODOMETER_PLATE,
  ODOMETER_DATE,
  ODOMETER_VALUE,
};

static const HsImportColumn odometer_columns[] = {
  [ODOMETER_PLATE] = { "plate", HS_IMPORT_PLATE, TRUE },
  [ODOMETER_DATE] = { "date", HS_IMPORT_DATE, TRUE },
  [ODOMETER_VALUE] = { "value", HS_IMPORT_WHOLE, TRUE, 0, HS_ODOMETER_MOST },
};

static gboolean
is_known (GPtrArray *rows, HsDate date, gint64 value)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      if (row->on_date == date && row->value == value)
        return TRUE;
    }
  return FALSE;
}

/* What would be a question beside the vehicle has nobody to answer it here. */
static gboolean
check_odometer (HsImportRun *run, const HsOdometerRow *row, GPtrArray *rows, GError **error)
{
  const HsOdometer now = { row->on_date, row->value };
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (GError) odd = NULL;

  if (!hs_vehicle_row_load (run->store, row->vehicle_id, &vehicle, error))
    return FALSE;
  if (hs_odometer_question (vehicle, rows, NULL, &now, &odd))
    return TRUE;
  return hs_ops_refuse (error, "%s A file gives no reason: that goes beside the odometer of a call.", odd->message);
}

static HsImportOutcome
save_odometer (HsImportRun *run)
{
  g_autoptr (HsOdometerRow) row = hs_odometer_row_new ();
  g_autoptr (GPtrArray) rows = NULL;
  GError *error = NULL;

  row->on_date = (HsDate) run->values[ODOMETER_DATE].number;
  row->value = run->values[ODOMETER_VALUE].number;
  if (!hs_import_find_vehicle (run, ODOMETER_PLATE, &row->vehicle_id))
    return HS_IMPORT_BAD;
  if (!hs_odometer_row_list_of (run->store, row->vehicle_id, &rows, &error))
    return hs_import_fault_error (run, ODOMETER_PLATE, error);
  if (is_known (rows, row->on_date, row->value))
    return HS_IMPORT_UNCHANGED;
  if (!check_odometer (run, row, rows, &error))
    return hs_import_fault_error (run, ODOMETER_VALUE, error);
  hs_odometer_row_save (run->store, row, &error);
  return hs_import_outcome (run, TRUE, TRUE, error);
}

const HsImportKind hs_import_odometer
    = { "odometer", odometer_columns, G_N_ELEMENTS (odometer_columns), save_odometer };

enum
{
  INSTALLED_PLATE,
  INSTALLED_WHAT,
  INSTALLED_DATE,
  INSTALLED_PLACE,
  INSTALLED_PART,
  INSTALLED_ODOMETER,
  INSTALLED_KNOWN_BY,
  INSTALLED_FROM,
  INSTALLED_MONTHS,
  INSTALLED_MILES,
  INSTALLED_MAKER,
  INSTALLED_AH,
  INSTALLED_CCA,
  INSTALLED_BATTERY_KIND,
  INSTALLED_REMOVED_ON,
  INSTALLED_STANDS_IN,
};

static const HsImportColumn installed_columns[] = {
  [INSTALLED_PLATE] = { "plate", HS_IMPORT_PLATE, TRUE },
  [INSTALLED_WHAT] = { "what", HS_IMPORT_TEXT, TRUE },
  [INSTALLED_DATE] = { "date", HS_IMPORT_DATE, TRUE },
  [INSTALLED_PLACE] = { "place", HS_IMPORT_TEXT },
  [INSTALLED_PART] = { "part", HS_IMPORT_TEXT },
  [INSTALLED_ODOMETER] = { "odometer", HS_IMPORT_WHOLE, FALSE, 0, 10000000 },
  [INSTALLED_KNOWN_BY] = { "known_by", HS_IMPORT_WORD, .words = HS_WORDS_KNOWN_BY },
  [INSTALLED_FROM] = { "warranty_from", HS_IMPORT_DATE },
  [INSTALLED_MONTHS] = { "warranty_months", HS_IMPORT_WHOLE, FALSE, 0, 1200 },
  [INSTALLED_MILES] = { "warranty_miles", HS_IMPORT_THOUSANDTHS, FALSE, 0, G_GINT64_CONSTANT (10000000000) },
  [INSTALLED_MAKER] = { "maker", HS_IMPORT_TEXT },
  [INSTALLED_AH] = { "ah", HS_IMPORT_THOUSANDTHS, FALSE, 1, 10000 * 1000 },
  [INSTALLED_CCA] = { "cca", HS_IMPORT_WHOLE, FALSE, 1, 100000 },
  [INSTALLED_BATTERY_KIND] = { "battery_kind", HS_IMPORT_WORD, .words = HS_WORDS_BATTERY_KIND },
  [INSTALLED_REMOVED_ON] = { "removed_on", HS_IMPORT_DATE },
  [INSTALLED_STANDS_IN] = { "stands_in_for_date", HS_IMPORT_DATE },
};

static gboolean
is_battery (HsImportRun *run)
{
  return run->values[INSTALLED_AH].given || run->values[INSTALLED_CCA].given
         || run->values[INSTALLED_BATTERY_KIND].given || hs_battery_is_named (run->values[INSTALLED_WHAT].text);
}

static gboolean
same_place (const char *a, const char *b)
{
  return a == NULL || b == NULL ? a == b : g_ascii_strcasecmp (a, b) == 0;
}

/* The row of this key: what, on which day, and where if the file says so; one without a place takes it on. */
static const HsInstalledRow *
pick_installed (HsImportRun *run, GPtrArray *rows)
{
  const HsImportValue *place = &run->values[INSTALLED_PLACE];
  const HsInstalledRow *placeless = NULL;

  for (guint i = 0; i < rows->len; i++)
    {
      const HsInstalledRow *row = g_ptr_array_index (rows, i);

      if (row->installed_on != (HsDate) run->values[INSTALLED_DATE].number
          || !g_str_equal (row->what, run->values[INSTALLED_WHAT].text))
        continue;
      if (!place->given || same_place (row->place, place->text))
        return row;
      if (row->place == NULL && placeless == NULL)
        placeless = row;
    }
  return placeless;
}

/* The part it stands in for: of the same kind, installed that day; else the one whose cover began that day. */
static const HsInstalledRow *
pick_first (GPtrArray *rows, const HsInstalledRow *swap, HsDate day)
{
  const HsInstalledRow *by_cover = NULL;

  for (guint i = 0; i < rows->len; i++)
    {
      const HsInstalledRow *row = g_ptr_array_index (rows, i);

      if (g_strcmp0 (row->kind, swap->kind) != 0 || g_strcmp0 (row->id, swap->id) == 0)
        continue;
      if (row->installed_on == day)
        return row;
      if (row->warranty_from == day && by_cover == NULL)
        by_cover = row;
    }
  return by_cover;
}

static gboolean
set_swap (HsImportRun *run, GPtrArray *rows, HsInstalledRow *row)
{
  const HsImportValue *first_day = &run->values[INSTALLED_STANDS_IN];
  const HsImportValue *from = &run->values[INSTALLED_FROM];
  const HsInstalledRow *first;
  gboolean changed;

  if (!first_day->given)
    return FALSE;
  first = pick_first (rows, row, (HsDate) first_day->number);
  if (first == NULL)
    hs_import_fault (run, INSTALLED_STANDS_IN, "no such part was installed on this vehicle on %s", first_day->text);
  else if (from->given && from->number != first->warranty_from)
    {
      g_autofree char *kept = hs_date_format (first->warranty_from);

      hs_import_fault (run, INSTALLED_FROM, "a warranty swap keeps the first date, %s; this row says %s", kept,
                       from->text);
    }
  if (run->row_bad)
    return FALSE;
  changed = hs_import_set_id (&row->stands_in_for_id, first->id);
  changed |= row->warranty_from != first->warranty_from;
  row->warranty_from = first->warranty_from;
  return changed;
}

static gboolean
fill_key (HsImportRun *run, HsInstalledRow *row)
{
  const HsImportValue *values = run->values;
  gboolean changed = hs_import_set_text (&row->what, &values[INSTALLED_WHAT]);

  changed |= hs_import_set_date (&row->installed_on, &values[INSTALLED_DATE]);
  changed |= hs_import_set_text (&row->place, &values[INSTALLED_PLACE]);
  if (is_battery (run))
    changed |= hs_import_set_id (&row->kind, "battery");
  return changed;
}

/* Cover starts on the day of installation unless the file says otherwise. */
static gboolean
fill_cover (HsImportRun *run, HsInstalledRow *row, gboolean is_new)
{
  const HsImportValue *values = run->values;
  gboolean changed = hs_import_set_number (&row->warranty_months, &values[INSTALLED_MONTHS]);

  if (is_new)
    row->warranty_from = row->installed_on;
  if (!values[INSTALLED_STANDS_IN].given)
    changed |= hs_import_set_date (&row->warranty_from, &values[INSTALLED_FROM]);
  changed |= hs_import_set_number (&row->warranty_millimiles, &values[INSTALLED_MILES]);
  return changed;
}

static gboolean
fill_installed (HsImportRun *run, HsInstalledRow *row, gboolean is_new)
{
  const HsImportValue *values = run->values;
  gboolean changed = fill_key (run, row);

  if (is_new && !values[INSTALLED_KNOWN_BY].given)
    hs_row_set (&row->known_by, "not_known");
  changed |= hs_import_set_word (&row->known_by, &values[INSTALLED_KNOWN_BY]);
  changed |= fill_cover (run, row, is_new);
  changed |= hs_import_set_number (&row->installed_odometer, &values[INSTALLED_ODOMETER]);
  changed |= hs_import_set_text (&row->maker, &values[INSTALLED_MAKER]);
  changed |= hs_import_set_thousandths (&row->battery_ah, &values[INSTALLED_AH]);
  changed |= hs_import_set_number (&row->battery_cca, &values[INSTALLED_CCA]);
  changed |= hs_import_set_word (&row->battery_kind, &values[INSTALLED_BATTERY_KIND]);
  changed |= hs_import_set_date (&row->removed_on, &values[INSTALLED_REMOVED_ON]);
  return changed;
}

/* One battery on a vehicle, unless their places are known and differ. */
static gboolean
check_one_battery (HsImportRun *run, GPtrArray *rows, const HsInstalledRow *battery)
{
  if (g_strcmp0 (battery->kind, "battery") != 0 || battery->removed_on != HS_DATE_NONE)
    return TRUE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsInstalledRow *row = g_ptr_array_index (rows, i);
      g_autofree char *since = NULL;

      if (g_strcmp0 (row->kind, "battery") != 0 || row->removed_on != HS_DATE_NONE
          || g_strcmp0 (row->id, battery->id) == 0)
        continue;
      if (row->place != NULL && battery->place != NULL && !same_place (row->place, battery->place))
        continue;
      since = hs_date_format (row->installed_on);
      return hs_import_refuse (run, INSTALLED_REMOVED_ON,
                               "this vehicle has a battery since %s (%s); give that one its removed_on first", since,
                               row->what);
    }
  return TRUE;
}

static gboolean
check_dates (HsImportRun *run)
{
  const HsImportValue *values = run->values;
  gint64 installed = values[INSTALLED_DATE].number;

  if (values[INSTALLED_REMOVED_ON].given && values[INSTALLED_REMOVED_ON].number < installed)
    hs_import_fault (run, INSTALLED_REMOVED_ON, "%s is before it was installed, %s",
                     values[INSTALLED_REMOVED_ON].text, values[INSTALLED_DATE].text);
  if (values[INSTALLED_FROM].given && values[INSTALLED_FROM].number > installed)
    hs_import_fault (run, INSTALLED_FROM, "%s is after it was installed, %s", values[INSTALLED_FROM].text,
                     values[INSTALLED_DATE].text);
  if (installed > run->today)
    hs_import_fault (run, INSTALLED_DATE, "%s is still to come", values[INSTALLED_DATE].text);
  return !run->row_bad;
}

static HsImportOutcome
save_installed_row (HsImportRun *run, GPtrArray *rows, const char *vehicle_id, const char *part_id)
{
  const HsInstalledRow *known = pick_installed (run, rows);
  g_autoptr (HsInstalledRow) row = known == NULL ? hs_installed_row_new () : hs_installed_row_copy (known);
  GError *error = NULL;
  gboolean changed = hs_import_set_id (&row->vehicle_id, vehicle_id);

  changed |= hs_import_set_id (&row->part_id, part_id);
  changed |= fill_installed (run, row, known == NULL);
  changed |= set_swap (run, rows, row);
  if (run->row_bad || !check_one_battery (run, rows, row))
    return HS_IMPORT_BAD;
  if (changed)
    hs_installed_row_save (run->store, row, &error);
  return hs_import_outcome (run, known == NULL, changed, error);
}

static HsImportOutcome
save_installed (HsImportRun *run)
{
  const HsImportValue *values = run->values;
  g_autofree char *vehicle_id = NULL;
  g_autofree char *part_id = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  GError *error = NULL;

  if (!check_dates (run) | !hs_import_find_vehicle (run, INSTALLED_PLATE, &vehicle_id)
      | !hs_import_find_part (run, INSTALLED_PART, &part_id))
    return HS_IMPORT_BAD;
  if (!hs_import_claim (run, INSTALLED_WHAT,
                        g_strdup_printf ("%s\n%s\n%" G_GINT64_FORMAT "\n%s", vehicle_id, values[INSTALLED_WHAT].text,
                                         values[INSTALLED_DATE].number, values[INSTALLED_PLACE].text)))
    return HS_IMPORT_BAD;
  if (!hs_installed_row_list_of_vehicle (run->store, vehicle_id, &rows, &error))
    return hs_import_fault_error (run, INSTALLED_PLATE, error);
  return save_installed_row (run, rows, vehicle_id, part_id);
}

const HsImportKind hs_import_installed
    = { "installed", installed_columns, G_N_ELEMENTS (installed_columns), save_installed };

enum
{
  READING_JOB,
  READING_CHECK,
  READING_VALUE,
  READING_UNIT,
  READING_PHASE,
  READING_AT,
};

static const HsImportColumn reading_columns[] = {
  [READING_JOB] = { "job", HS_IMPORT_TEXT, TRUE },
  [READING_CHECK] = { "check", HS_IMPORT_TEXT, TRUE },
  [READING_VALUE] = { "value", HS_IMPORT_TEXT, TRUE },
  [READING_UNIT] = { "unit", HS_IMPORT_TEXT },
  [READING_PHASE] = { "phase", HS_IMPORT_WORD, .words = HS_WORDS_PHASE },
  [READING_AT] = { "at", HS_IMPORT_TEXT },
};

static void
fill_value (const HsCheck *check, const HsReading *reading, const char *text, HsReadingRow *row)
{
  row->decimals = check->decimals;
  row->over_range = reading->kind == HS_READING_OVER_RANGE;
  if (reading->kind == HS_READING_NOT_MEASURED)
    hs_row_set (&row->not_measured_why, "not measured");
  if (reading->kind != HS_READING_VALUE)
    return;
  if (!hs_check_has_number (check))
    {
      row->answer = hs_check_dup_answer (check, text, NULL);
      return;
    }
  row->value = reading->value;
  if (check->entry == HS_CHECK_PAIR)
    row->of_value = reading->of;
}

static gboolean
read_reading (HsImportRun *run, HsReadingRow *row)
{
  const HsImportValue *values = run->values;
  HsChecks *checks = hs_book_get_checks (run->book);
  const HsCheck *check = hs_checks_lookup (checks, values[READING_CHECK].text);
  HsReading reading;
  GError *error = NULL;

  if (check == NULL)
    return hs_import_refuse (run, READING_CHECK, "there is no check “%s”", values[READING_CHECK].text);
  if (values[READING_UNIT].given && g_ascii_strcasecmp (values[READING_UNIT].text, check->unit) != 0)
    return hs_import_refuse (run, READING_UNIT, "%s is read in %s, not in %s", check->id, check->unit,
                             values[READING_UNIT].text);
  if (!hs_check_parse (check, values[READING_VALUE].text, &reading, &error))
    return hs_import_refuse_error (run, READING_VALUE, error);
  hs_row_set (&row->check_id, check->id);
  hs_row_set (&row->unit, check->unit);
  hs_row_set (&row->phase, values[READING_PHASE].given ? values[READING_PHASE].word : "before");
  fill_value (check, &reading, values[READING_VALUE].text, row);
  return TRUE;
}

static gboolean
read_time (HsImportRun *run, HsReadingRow *row)
{
  GError *error = NULL;

  row->taken_at = run->now;
  if (!run->values[READING_AT].given)
    return TRUE;
  if (!hs_instant_parse (run->values[READING_AT].text, hs_book_get_zone (run->book), &row->taken_at, &error))
    return hs_import_refuse_error (run, READING_AT, error);
  if (row->taken_at > run->now + HS_SECONDS_PER_DAY)
    return hs_import_refuse (run, READING_AT, "%s is still to come", run->values[READING_AT].text);
  return TRUE;
}

static gboolean
is_same_reading (const HsReadingRow *a, const HsReadingRow *b, gboolean with_time)
{
  return g_str_equal (a->check_id, b->check_id) && g_str_equal (a->phase, b->phase) && a->value == b->value
         && a->of_value == b->of_value && a->over_range == b->over_range
         && (a->not_measured_why == NULL) == (b->not_measured_why == NULL) && g_strcmp0 (a->answer, b->answer) == 0
         && (!with_time || a->taken_at == b->taken_at);
}

static HsImportOutcome
save_reading (HsImportRun *run)
{
  g_autoptr (HsReadingRow) row = hs_reading_row_new ();
  g_autoptr (GPtrArray) rows = NULL;
  GError *error = NULL;

  if (!hs_import_find_job (run, READING_JOB, &row->job_id) | !read_reading (run, row) | !read_time (run, row))
    return HS_IMPORT_BAD;
  if (!hs_reading_row_list_of (run->store, row->job_id, &rows, &error))
    return hs_import_fault_error (run, READING_JOB, error);
  for (guint i = 0; i < rows->len; i++)
    if (is_same_reading (g_ptr_array_index (rows, i), row, run->values[READING_AT].given))
      return HS_IMPORT_UNCHANGED;
  hs_reading_row_save (run->store, row, &error);
  return hs_import_outcome (run, TRUE, TRUE, error);
}

const HsImportKind hs_import_readings
    = { "readings", reading_columns, G_N_ELEMENTS (reading_columns), save_reading };
