// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What a vehicle has lived through, told to the one who owns it now. History follows the vehicle: faults, readings and
 * parts of all its jobs are here. Money and phone follow the person: of jobs for anybody else there is no price, no
 * name, and nothing that was arranged with them. Reads only.
 */

#include "hs-history.h"

#include "hs-advice-row.h"
#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-job-day.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-odometer-row.h"
#include "hs-ops-error.h"
#include "hs-say.h"
#include "hs-plate-op.h"
#include "hs-search.h"
#include "hs-vehicle-name.h"
#include "hs-job-why.h"

#include <string.h>

typedef struct
{
  HsBook *book;
  HsStore *store;
  HsHistory *history;
  const char *owner_id;
  HsInstant now;
  HsDate today;
} HsHistoryMake;

static void
history_reading_free (gpointer data)
{
  HsHistoryReading *reading = data;

  g_free (reading->name);
  g_free (reading->before);
  g_free (reading->before_verdict);
  g_free (reading->before_word);
  g_free (reading->after);
  g_free (reading->after_verdict);
  g_free (reading->after_word);
  g_free (reading);
}

static void
history_entry_free (gpointer data)
{
  HsHistoryEntry *entry = data;

  g_free (entry->title);
  g_free (entry->detail);
  g_free (entry->job_id);
  g_free (entry->job_number);
  g_free (entry->stage);
  g_ptr_array_unref (entry->readings);
  g_ptr_array_unref (entry->parts);
  g_ptr_array_unref (entry->advice);
  g_free (entry);
}

void
hs_history_free (HsHistory *history)
{
  if (history == NULL)
    return;
  g_free (history->vehicle_id);
  g_free (history->plate);
  g_free (history->vehicle);
  g_free (history->engine);
  g_free (history->customer);
  g_free (history->phone);
  g_free (history->area);
  hs_battery_fact_free (history->battery);
  g_ptr_array_unref (history->entries);
  g_free (history);
}

static HsHistoryEntry *
add_entry (HsHistoryMake *make, HsHistoryKind kind, HsDate day)
{
  HsHistoryEntry *entry = g_new0 (HsHistoryEntry, 1);

  entry->kind = kind;
  entry->day = day;
  entry->total_cents = -1;
  entry->readings = g_ptr_array_new_with_free_func (history_reading_free);
  entry->parts = g_ptr_array_new_with_free_func (g_free);
  entry->advice = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (make->history->entries, entry);
  return entry;
}

/* Readings --------------------------------------------------------------------------------------------------------- */

static char *
reading_name (const HsReadingResult *result)
{
  return result->place != NULL ? g_strdup_printf ("%s, %s", result->name, result->place) : g_strdup (result->name);
}

static HsHistoryReading *
find_reading (HsHistoryEntry *entry, const char *name)
{
  for (guint i = 0; i < entry->readings->len; i++)
    {
      HsHistoryReading *reading = g_ptr_array_index (entry->readings, i);

      if (g_str_equal (reading->name, name))
        return reading;
    }
  return NULL;
}

static void
put_reading (HsHistoryEntry *entry, const HsReadingResult *result, gboolean after)
{
  g_autofree char *name = reading_name (result);
  HsHistoryReading *reading = find_reading (entry, name);

  if (reading == NULL)
    {
      reading = g_new0 (HsHistoryReading, 1);
      reading->name = g_strdup (name);
      g_ptr_array_add (entry->readings, reading);
    }
  g_free (after ? reading->after : reading->before);
  g_free (after ? reading->after_verdict : reading->before_verdict);
  g_free (after ? reading->after_word : reading->before_word);
  *(after ? &reading->after : &reading->before) = g_strdup (result->value_text);
  *(after ? &reading->after_verdict : &reading->before_verdict) = g_strdup (result->verdict);
  *(after ? &reading->after_word : &reading->before_word) = g_strdup (result->word);
}

static gboolean
add_readings (HsHistoryMake *make, HsHistoryEntry *entry, const char *phase, GError **error)
{
  g_autoptr (GPtrArray) sheet = hs_job_sheet (make->book, entry->job_id, phase, make->now, error);

  if (sheet == NULL)
    return FALSE;
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (sheet, i);

      if (result->value_text != NULL)
        put_reading (entry, result, g_str_equal (phase, "after"));
    }
  return TRUE;
}

/* Jobs ------------------------------------------------------------------------------------------------------------- */

static gboolean
add_parts (HsHistoryMake *make, HsHistoryEntry *entry, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_installed_row_list_of_job (make->store, entry->job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsInstalledRow *row = g_ptr_array_index (rows, i);

      g_ptr_array_add (entry->parts, g_strdup_printf ("%s%s%s%s", row->what, row->maker != NULL ? ", " : "",
                                                      row->maker != NULL ? row->maker : "",
                                                      row->stands_in_for_id != NULL ? " (warranty swap)" : ""));
    }
  return TRUE;
}

static char *
say_advice (const HsAdviceRow *row, HsDate today)
{
  g_autofree char *chase = hs_say_day_short (row->chase_on, today);

  if (g_str_equal (row->choice, "no"))
    return g_strdup_printf ("%s: declined", row->wording);
  if (g_str_equal (row->choice, "open"))
    return g_strdup_printf ("%s: no answer yet", row->wording);
  return row->chase_on != HS_DATE_NONE ? g_strdup_printf ("%s: put off, call on %s", row->wording, chase)
                                       : g_strdup_printf ("%s: put off", row->wording);
}

static gboolean
add_advice (HsHistoryMake *make, HsHistoryEntry *entry, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_advice_row_list_of (make->store, entry->job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (rows, i);

      if (!g_str_equal (row->choice, "yes"))
        g_ptr_array_add (entry->advice, say_advice (row, make->today));
    }
  return TRUE;
}

static gboolean
fill_total (HsHistoryMake *make, HsHistoryEntry *entry, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;
  HsJobSums sums;

  if (!hs_line_row_list_of (make->store, entry->job_id, &lines, error))
    return FALSE;
  if (lines->len == 0)
    return TRUE;
  if (!hs_job_sums_load (make->store, entry->job_id, &sums, error))
    return FALSE;
  entry->total_cents = sums.price_cents + sums.tax_cents;
  return TRUE;
}

static gboolean
add_job (HsHistoryMake *make, const HsJobRow *job, GError **error)
{
  gboolean own = make->owner_id != NULL && g_str_equal (job->customer_id, make->owner_id);
  HsHistoryEntry *entry;
  HsStage stage;
  HsDate day;

  if (!hs_stage_parse (job->stage, &stage, error))
    return FALSE;
  if (!own && (hs_job_row_is_called_off (job) || stage == HS_STAGE_TURNED_AWAY))
    return TRUE;
  if (!hs_job_day (make->book, job, &day, error))
    return FALSE;
  entry = add_entry (make, HS_HISTORY_JOB, day);
  entry->title = g_strdup (job->words);
  entry->job_id = g_strdup (job->id);
  entry->job_number = g_strdup (job->number);
  entry->stage = g_strdup (job->stage);
  if (!hs_job_why_load (make->book, job->id, &entry->detail, error) || !add_parts (make, entry, error)
      || !add_readings (make, entry, "before", error) || !add_readings (make, entry, "after", error))
    return FALSE;
  return !own || (add_advice (make, entry, error) && fill_total (make, entry, error));
}

static gboolean
add_jobs (HsHistoryMake *make, GError **error)
{
  g_autoptr (GPtrArray) jobs = NULL;

  if (!hs_job_row_list_of_vehicle (make->store, make->history->vehicle_id, &jobs, error))
    return FALSE;
  for (guint i = 0; i < jobs->len; i++)
    if (!add_job (make, g_ptr_array_index (jobs, i), error))
      return FALSE;
  return TRUE;
}

/* Owners and odometer ---------------------------------------------------------------------------------------------- */

/* Owners come present one first; the earliest one is no change. */
static void
add_owner_changes (HsHistoryMake *make, GPtrArray *owners)
{
  for (guint i = 0; i + 1 < owners->len; i++)
    {
      const HsOwnershipRow *owner = g_ptr_array_index (owners, i);
      HsHistoryEntry *entry;

      if (owner->from_date == HS_DATE_NONE)
        continue;
      entry = add_entry (make, HS_HISTORY_OWNER, owner->from_date);
      if (owner->to_date == HS_DATE_NONE)
        {
          entry->title = g_strdup_printf ("New owner: %s", make->history->customer);
          entry->detail = g_strdup ("History stays with the vehicle; the owner before is not shown.");
        }
      else
        {
          entry->title = g_strdup ("Changed hands");
        }
    }
}

static char *
say_odometer (gint64 value, const char *unit)
{
  GString *text = g_string_new (NULL);

  g_string_printf (text, "%" G_GINT64_FORMAT, value);
  for (gssize at = (gssize) text->len - 3; at > 0; at -= 3)
    g_string_insert_c (text, at, ',');
  g_string_prepend (text, "Odometer ");
  g_string_append_printf (text, " %s", unit);
  return g_string_free (text, FALSE);
}

static gboolean
add_odometer (HsHistoryMake *make, const char *unit, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_odometer_row_list_of (make->store, make->history->vehicle_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);
      HsHistoryEntry *entry = add_entry (make, HS_HISTORY_ODOMETER, row->on_date);

      entry->title = say_odometer (row->value, unit);
      if (row->doubted != NULL)
        entry->detail = g_strdup_printf ("Doubted: %s", row->doubted);
    }
  return TRUE;
}

/* ------------------------------------------------------------------------------------------------------------------ */

static gboolean
fill_owner (HsHistoryMake *make, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autoptr (GPtrArray) phones = NULL;
  g_autoptr (HsAreaRow) area = NULL;

  if (make->owner_id == NULL)
    return TRUE;
  if (!hs_customer_row_load (make->store, make->owner_id, &customer, error)
      || !hs_phone_row_list_of (make->store, make->owner_id, &phones, error)
      || (customer->area_id != NULL && !hs_area_row_load (make->store, customer->area_id, &area, error)))
    return FALSE;
  make->history->customer = g_strdup (customer->name);
  if (phones->len > 0)
    make->history->phone = g_strdup (((HsPhoneRow *) g_ptr_array_index (phones, 0))->shown);
  if (area != NULL)
    make->history->area = g_strdup (area->name);
  return TRUE;
}

static gboolean
fill_battery (HsHistoryMake *make, GError **error)
{
  GError *failure = NULL;

  make->history->battery = hs_battery_fact_load (make->book, make->history->vehicle_id, make->today, &failure);
  if (failure == NULL)
    return TRUE;
  g_propagate_error (error, failure);
  return FALSE;
}

/* Newest first; on one day the owner change stands above the job, the job above the odometer read on it. */
static int
compare_entries (gconstpointer a, gconstpointer b)
{
  static const int rank[] = { [HS_HISTORY_OWNER] = 0, [HS_HISTORY_JOB] = 1, [HS_HISTORY_ODOMETER] = 2 };
  const HsHistoryEntry *left = *(HsHistoryEntry *const *) a;
  const HsHistoryEntry *right = *(HsHistoryEntry *const *) b;

  if (left->day != right->day)
    return left->day > right->day ? -1 : 1;
  if (left->kind != right->kind)
    return rank[left->kind] - rank[right->kind];
  return g_strcmp0 (right->job_number, left->job_number);
}

static HsHistory *
history_new (const HsVehicleRow *vehicle)
{
  HsHistory *history = g_new0 (HsHistory, 1);

  history->vehicle_id = g_strdup (vehicle->id);
  history->plate = g_strdup (vehicle->plate);
  history->vehicle = hs_vehicle_name (vehicle);
  history->engine = g_strdup (vehicle->engine);
  history->high_voltage = vehicle->high_voltage;
  history->entries = g_ptr_array_new_with_free_func (history_entry_free);
  return history;
}

HsHistory *
hs_history_load (HsBook *book, const char *vehicle_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (GPtrArray) owners = NULL;
  g_autoptr (HsHistory) history = NULL;
  HsHistoryMake make = { book, store, NULL, NULL, now, HS_DATE_NONE };

  if (!hs_vehicle_row_load (store, vehicle_id, &vehicle, error)
      || !hs_ownership_row_list_of (store, vehicle_id, &owners, error))
    return NULL;
  history = history_new (vehicle);
  make.history = history;
  hs_instant_to_local (hs_book_get_zone (book), now, &make.today, NULL);
  if (owners->len > 0 && ((HsOwnershipRow *) g_ptr_array_index (owners, 0))->to_date == HS_DATE_NONE)
    make.owner_id = ((HsOwnershipRow *) g_ptr_array_index (owners, 0))->customer_id;
  if (!fill_owner (&make, error) || !fill_battery (&make, error) || !add_jobs (&make, error)
      || !add_odometer (&make, vehicle->odometer_unit, error))
    return NULL;
  add_owner_changes (&make, owners);
  g_ptr_array_sort (history->entries, compare_entries);
  return g_steal_pointer (&history);
}

/* Which vehicle is meant ------------------------------------------------------------------------------------------- */

static char *
refuse_many (GPtrArray *vehicles, const char *words, GError **error)
{
  g_autoptr (GString) plates = g_string_new (NULL);

  for (guint i = 0; i < vehicles->len; i++)
    {
      const HsVehicleRow *vehicle = g_ptr_array_index (vehicles, i);

      g_string_append_printf (plates, "%s%s", i > 0 ? ", " : "", vehicle->plate != NULL ? vehicle->plate : "no plate");
    }
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "“%s” fits several vehicles (%s): say which plate", words,
               plates->str);
  return NULL;
}

static gboolean
vehicles_of_phone (HsStore *store, const char *words, GPtrArray **ret_vehicles, GError **error)
{
  g_autoptr (GPtrArray) customers = NULL;

  if (!hs_customer_row_list_by_phone (store, words, &customers, error))
    return FALSE;
  if (customers->len == 1)
    return hs_vehicle_row_list_owned (store, ((HsCustomerRow *) g_ptr_array_index (customers, 0))->id, ret_vehicles,
                                      error);
  *ret_vehicles = g_ptr_array_new ();
  return TRUE;
}

static gboolean
vehicles_of_search (HsStore *store, const char *words, GPtrArray **ret_vehicles, GError **error)
{
  g_autoptr (GPtrArray) hits = NULL;
  g_autoptr (GPtrArray) vehicles = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_vehicle_row_free);

  if (!hs_search (store, words, 6, &hits, error))
    return FALSE;
  for (guint i = 0; i < hits->len; i++)
    {
      const HsSearchHit *hit = g_ptr_array_index (hits, i);
      HsVehicleRow *vehicle = NULL;

      if (hit->vehicle_id == NULL)
        continue;
      if (!hs_vehicle_row_load (store, hit->vehicle_id, &vehicle, error))
        return FALSE;
      g_ptr_array_add (vehicles, vehicle);
    }
  *ret_vehicles = g_steal_pointer (&vehicles);
  return TRUE;
}

char *
hs_history_find_vehicle (HsBook *book, const char *words, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) vehicles = NULL;
  g_autoptr (HsVehicleRow) named = NULL;
  HsPlateHint hint = { NULL, NULL, NULL };

  if (!hs_plate_find_vehicle (store, words, &hint, &named, error))
    return NULL;
  if (named != NULL)
    return g_strdup (named->id);
  if (!vehicles_of_phone (store, words, &vehicles, error))
    return NULL;
  if (vehicles->len == 0)
    {
      g_clear_pointer (&vehicles, g_ptr_array_unref);
      if (!vehicles_of_search (store, words, &vehicles, error))
        return NULL;
    }
  if (vehicles->len == 1)
    return g_strdup (((HsVehicleRow *) g_ptr_array_index (vehicles, 0))->id);
  if (vehicles->len > 1)
    return refuse_many (vehicles, words, error);
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND, "No vehicle is found by “%s”: try a plate or a phone",
               words);
  return NULL;
}
