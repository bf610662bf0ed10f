// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What is read off the vehicle and heard beside it. Refuses an odometer that is no whole number, that falls or that
 * jumped further than anybody drives, unless a reason is given; such a reading is kept and does not count.
 */

#include "hs-identify-op.h"

#include "hs-decimal.h"
#include "hs-odometer-op.h"
#include "hs-odometer-row.h"
#include "hs-odometer.h"
#include "hs-ops-private.h"
#include "hs-text.h"
#include "hs-vehicle-name.h"
#include "hs-vehicle-row.h"


void
hs_identity_free (HsIdentity *identity)
{
  if (identity == NULL)
    return;
  g_free (identity->vehicle_id);
  g_free (identity->plate);
  g_free (identity->plate_state);
  g_free (identity->vehicle);
  g_free (identity->vin);
  g_free (identity->unit);
  g_free (identity->doubted);
  g_free (identity->saw_it);
  g_free (identity->words);
  g_free (identity);
}

/* The odometer on the vehicle's list ------------------------------------------------------------------------------- */

typedef struct
{
  const HsOdometerRow *own;  /* of this job */
  const HsOdometerRow *last; /* the newest that counts, of any other job or none */
} Odometers;

static Odometers
find_odometers (GPtrArray *rows, const char *job_id)
{
  Odometers found = { NULL, NULL };

  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      if (g_strcmp0 (row->job_id, job_id) == 0)
        found.own = row;
      else if (row->doubted == NULL)
        found.last = row;
    }
  return found;
}

/* What lies after this job is not "last time"; it is when an old job is looked at. */
static void
drop_later (Odometers *found, GPtrArray *rows, const char *job_id)
{
  if (found->own == NULL)
    return;
  found->last = NULL;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      if (g_strcmp0 (row->job_id, job_id) != 0 && row->doubted == NULL && row->on_date <= found->own->on_date)
        found->last = row;
    }
}

static void
fill_odometer (HsIdentity *identity, const Odometers *found)
{
  if (found->own != NULL)
    {
      identity->odometer = found->own->value;
      identity->doubted = g_strdup (found->own->doubted);
    }
  if (found->last != NULL)
    {
      identity->last_value = found->last->value;
      identity->last_on = found->last->on_date;
    }
  if (found->own == NULL || found->last == NULL || found->own->doubted != NULL
      || found->own->on_date <= found->last->on_date)
    return;
  hs_ratio_half_up (found->own->value - found->last->value, 10, found->own->on_date - found->last->on_date,
                    &identity->a_day_tenths);
}

/* Loading ---------------------------------------------------------------------------------------------------------- */

static gboolean
fill_vehicle (HsStore *store, const HsJobRow *job, HsIdentity *identity, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  Odometers found;

  if (job->vehicle_id == NULL)
    return TRUE;
  if (!hs_vehicle_row_load (store, job->vehicle_id, &vehicle, error)
      || !hs_odometer_row_list_of (store, job->vehicle_id, &rows, error))
    return FALSE;
  identity->vehicle_id = g_strdup (vehicle->id);
  identity->plate = g_strdup (vehicle->plate);
  identity->plate_state = g_strdup (vehicle->plate_state);
  identity->vin = g_strdup (vehicle->vin);
  identity->vehicle = hs_vehicle_name (vehicle);
  identity->unit = g_strdup (vehicle->odometer_unit);
  found = find_odometers (rows, job->id);
  drop_later (&found, rows, job->id);
  fill_odometer (identity, &found);
  return TRUE;
}

HsIdentity *
hs_identity_load (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsIdentity) identity = g_new0 (HsIdentity, 1);
  g_autoptr (HsJobRow) job = NULL;

  identity->odometer = identity->last_value = identity->a_day_tenths = HS_INT_NONE;
  identity->last_on = HS_DATE_NONE;
  if (!hs_job_row_load (store, job_id, &job, error) || !fill_vehicle (store, job, identity, error))
    return NULL;
  identity->saw_it = g_strdup (job->saw_it);
  identity->words = g_strdup (job->words);
  return g_steal_pointer (&identity);
}

/* Reading the odometer --------------------------------------------------------------------------------------------- */

/* "104,500 mi" without its separators and its unit; a unit that is not the vehicle's stays, and is refused as text. */
static char *
dup_digits (const char *text, const char *unit)
{
  g_autoptr (GString) digits = g_string_new (NULL);
  g_autofree char *trimmed = g_strstrip (g_ascii_strdown (text, -1));

  if (g_str_has_suffix (trimmed, unit))
    trimmed[strlen (trimmed) - strlen (unit)] = '\0';
  for (const char *sign = trimmed; *sign != '\0'; sign++)
    if (*sign != ',' && *sign != ' ' && *sign != '\'')
      g_string_append_c (digits, *sign);
  return g_string_free (g_steal_pointer (&digits), FALSE);
}

static gboolean
read_odometer (const HsVehicleRow *vehicle, const char *text, gint64 *ret_value, GError **error)
{
  g_autofree char *digits = dup_digits (text == NULL ? "" : text, vehicle->odometer_unit);
  g_autofree char *said = hs_ops_said_back (text);
  gint64 value = 0;

  for (const char *sign = digits; *sign != '\0' && value <= HS_ODOMETER_MOST; sign++)
    value = g_ascii_isdigit (*sign) ? value * 10 + (*sign - '0') : G_MAXINT32;
  if (*digits == '\0' || value == G_MAXINT32)
    return hs_ops_refuse (error, "The odometer is a whole number of %s as it shows, like 104500; “%s” is none.",
                          vehicle->odometer_unit, said);
  if (value > HS_ODOMETER_MOST)
    return hs_ops_refuse (error, "No odometer shows “%s”; seven digits at most. Read it again.", said);
  *ret_value = value;
  return TRUE;
}

static gboolean
save_odometer (HsStore *store, const HsJobRow *job, const char *text, const char *why, HsDate today, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (HsOdometerRow) row = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GError) odd = NULL;
  HsOdometer reading = { .date = today };
  Odometers found;

  if (!hs_vehicle_row_load (store, job->vehicle_id, &vehicle, error)
      || !read_odometer (vehicle, text, &reading.value, error)
      || !hs_odometer_row_list_of (store, vehicle->id, &rows, error))
    return FALSE;
  found = find_odometers (rows, job->id);
  if (!hs_odometer_question_read (vehicle, rows, found.own, &reading, &odd) && why == NULL)
    {
      g_propagate_error (error, g_steal_pointer (&odd));
      return FALSE;
    }
  row = found.own != NULL ? hs_odometer_row_copy (found.own) : hs_odometer_row_new ();
  hs_row_set (&row->vehicle_id, vehicle->id);
  hs_row_set (&row->job_id, job->id);
  hs_row_set (&row->doubted, odd != NULL ? why : NULL);
  row->on_date = today;
  row->value = reading.value;
  hs_ops_note (store, job->id, "odometer: %" G_GINT64_FORMAT, reading.value);
  return hs_odometer_row_save (store, row, error);
}

gboolean
hs_identify_odometer (HsBook *book, const char *job_id, const char *text, const char *why, HsInstant now,
                      GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  if (job->vehicle_id == NULL)
    return hs_ops_refuse (error, "Whose odometer? Write down the plate of %s first.", job->number);
  if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return hs_ops_refuse (error, "%s is squared up; its odometer stays as it was read.", job->number);
  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, save_odometer (store, job, text, hs_ops_blank_to_null (why), hs_ops_today (book, now),
                                             error), error);
}

/* Seen to happen --------------------------------------------------------------------------------------------------- */

gboolean
hs_identify_saw_it (HsBook *book, const char *job_id, const char *saw_it, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  const char *id;

  if (!hs_ops_word (HS_WORDS_SAW_IT, saw_it, NULL, &id, error) || !hs_job_row_load (store, job_id, &job, error)
      || !hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "saw it happen: %s", id != NULL ? id : "not said");
  hs_row_set (&job->saw_it, id);
  return hs_store_end (store, hs_job_row_save (store, job, error), error);
}
