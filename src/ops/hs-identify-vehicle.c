// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Plate and VIN held against the vehicle on record, so that the history of a sister van is not read by mistake. Refuses
 * what does not agree unless a reason is given, and a VIN that was misread by its form.
 */

#include "hs-identify-op.h"

#include "hs-data.h"
#include "hs-ident.h"
#include "hs-ops-private.h"
#include "hs-plate-op.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"
#include "hs-vin.h"

/* Blanks and dashes in a VIN need some room. */
#define MOST_TYPED 60

static gboolean
load_vehicle (HsStore *store, const HsJobRow *job, HsVehicleRow **ret_vehicle, GError **error)
{
  if (job->vehicle_id != NULL)
    return hs_vehicle_row_load (store, job->vehicle_id, ret_vehicle, error);
  return hs_ops_refuse (error, "Which vehicle is it? Write down the plate of %s first.", job->number);
}

/* Why the record changed stays with the vehicle. */
static void
remember (HsVehicleRow *vehicle, HsDate today, const char *what, const char *why)
{
  g_autofree char *day = hs_date_format (today);
  g_autofree char *old = g_steal_pointer (&vehicle->note);

  vehicle->note = hs_text_is_blank (old) ? g_strdup_printf ("%s: %s: %s", day, what, why)
                                         : g_strdup_printf ("%s\n%s: %s: %s", old, day, what, why);
}

/* Plate ------------------------------------------------------------------------------------------------------------ */

static gboolean
take_vehicle (HsStore *store, HsJobRow *job, const char *plate, HsIdentified *ret_how, GError **error)
{
  HsPlateHint hint = { NULL, job->customer_id, NULL };
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (!hs_plate_find_vehicle (store, plate, &hint, &vehicle, error))
    return FALSE;
  *ret_how = vehicle != NULL ? HS_IDENTIFIED_AGREES : HS_IDENTIFIED_WRITTEN;
  if (vehicle == NULL)
    {
      vehicle = hs_vehicle_row_new ();
      vehicle->plate = hs_plate_dup_bare (plate, error);
      if (vehicle->plate == NULL || !hs_vehicle_row_save (store, vehicle, error))
        return FALSE;
    }
  hs_row_set (&job->vehicle_id, vehicle->id);
  return hs_job_row_save (store, job, error);
}

static const char *
name_of (const HsVehicleRow *vehicle)
{
  return vehicle->plate != NULL ? vehicle->plate : "one without a plate";
}

/* @ret_bare: the plate as it is read, if it is nobody else's. A plate of several is asked about, but for the vehicle of
 * the call. */
static gboolean
check_stranger (HsStore *store, const HsJobRow *job, const HsVehicleRow *vehicle, const char *plate, char **ret_bare,
                GError **error)
{
  HsPlateHint hint = { vehicle->id, job->customer_id, NULL };
  g_autoptr (HsVehicleRow) found = NULL;
  g_autofree char *bare = NULL;
  g_autofree char *key = NULL;

  if (!hs_plate_find_vehicle (store, plate, &hint, &found, error))
    return FALSE;
  if (found != NULL && g_str_equal (found->id, vehicle->id))
    {
      *ret_bare = g_strdup (vehicle->plate);
      return TRUE;
    }
  if (found == NULL && (bare = hs_plate_dup_bare (plate, error)) == NULL)
    return FALSE;
  if (found != NULL)
    return hs_ops_refuse (error, "“%s” is another vehicle of this book; this call is for %s. If that one stands here, "
                                 "write “%s” into the call.", plate, name_of (vehicle), plate);
  key = hs_plate_normalize (bare);
  if (g_strcmp0 (vehicle->plate_key, key) == 0)
    return hs_ops_refuse (error, "“%s” is a vehicle that this book does not have yet; this call is for %s. If that one "
                                 "stands here, write “%s” into the call.", plate, name_of (vehicle), plate);
  *ret_bare = g_steal_pointer (&bare);
  return TRUE;
}

static gboolean
change_plate (HsStore *store, HsVehicleRow *vehicle, const char *plate, HsDate today, const char *why, GError **error)
{
  g_autoptr (HsOldPlateRow) old = hs_old_plate_row_new ();

  hs_row_set (&old->vehicle_id, vehicle->id);
  hs_row_set (&old->plate, vehicle->plate);
  hs_row_set (&old->plate_state, vehicle->plate_state);
  old->until = today;
  hs_row_set (&vehicle->plate, plate);
  remember (vehicle, today, "plate changed", why);
  return hs_old_plate_row_save (store, old, error) && hs_vehicle_row_save (store, vehicle, error);
}

static gboolean
identify_plate (HsStore *store, HsJobRow *job, const char *plate, const char *why, HsDate today, HsIdentified *ret_how,
                GError **error)
{
  g_autofree char *key = hs_plate_normalize (plate == NULL ? "" : plate);
  g_autofree char *said = hs_ops_said_back (plate);
  g_autofree char *bare = NULL;
  g_autofree char *bare_key = NULL;
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (*key == '\0')
    return hs_ops_refuse (error, "“%s” is no plate.", said);
  hs_ops_note (store, job->id, "plate: %s", plate);
  if (job->vehicle_id == NULL)
    return take_vehicle (store, job, plate, ret_how, error);
  if (!load_vehicle (store, job, &vehicle, error)
      || !check_stranger (store, job, vehicle, plate, &bare, error))
    return FALSE;
  *ret_how = vehicle->plate == NULL ? HS_IDENTIFIED_WRITTEN : HS_IDENTIFIED_AGREES;
  bare_key = hs_plate_normalize (bare);
  if (g_strcmp0 (vehicle->plate_key, bare_key) == 0)
    return TRUE;
  if (vehicle->plate == NULL)
    {
      hs_row_set (&vehicle->plate, bare);
      return hs_vehicle_row_save (store, vehicle, error);
    }
  if (why == NULL)
    return hs_ops_doubts (error, "On record it carries %s, not “%s”. Another vehicle, or new plates? Write the "
                                 "other plate into the call, or give the reason for the new one.",
                          vehicle->plate, said);
  *ret_how = HS_IDENTIFIED_CORRECTED;
  return change_plate (store, vehicle, bare, today, why, error);
}

gboolean
hs_identify_plate (HsBook *book, const char *job_id, const char *plate, const char *why, HsInstant now,
                   HsIdentified *ret_how, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  HsIdentified how = HS_IDENTIFIED_AGREES;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_store_begin (store, now, error)
      || !hs_store_end (store, identify_plate (store, job, plate, hs_ops_blank_to_null (why), hs_ops_today (book, now),
                                               &how, error), error))
    return FALSE;
  if (ret_how != NULL)
    *ret_how = how;
  return TRUE;
}

/* VIN -------------------------------------------------------------------------------------------------------------- */

static gboolean
refuse_check_digit (const char *vin, GError **error)
{
  g_autoptr (HsReference) reference = hs_data_load_reference (NULL);
  g_auto (GStrv) likely = hs_vin_suggest (vin, reference);
  g_autofree char *meant = g_strjoinv (", ", likely);

  if (likely[0] != NULL)
    return hs_ops_doubts (error, "%s: the check digit should be %c, so a sign was misread. Perhaps %s? Read it again, "
                                 "or give the reason.", vin, hs_vin_check_digit (vin), meant);
  return hs_ops_doubts (error, "%s: the check digit should be %c, so a sign was misread. Read it again, or give the "
                               "reason.", vin, hs_vin_check_digit (vin));
}

/* A whole VIN is judged by its form; of an end it can be said that it is long enough and has no I, O or Q. */
static gboolean
read_vin (const char *text, const char *why, char **ret_vin, GError **error)
{
  g_autofree char *vin = hs_vin_normalize (text, NULL);
  gsize length = vin == NULL ? HS_VIN_LENGTH : strlen (vin);

  if (strlen (text) > MOST_TYPED)
    return hs_ops_refuse (error, "A VIN has 17 signs; this has %" G_GSIZE_FORMAT ". Read it again.", strlen (text));
  if (length >= HS_VIN_LENGTH)
    {
      g_clear_pointer (&vin, g_free);
      if (!hs_vin_read (text, &vin, error))
        return FALSE;
      if (why == NULL && hs_vin_check (vin) == HS_VIN_WRONG)
        return refuse_check_digit (vin, error);
    }
  else if (length < HS_IDENTITY_VIN_TAIL)
    return hs_ops_refuse (error, "The last %d signs of the VIN at least; “%s” are %u.", HS_IDENTITY_VIN_TAIL, vin,
                          (guint) length);
  else if (why == NULL && strpbrk (vin, "IOQ") != NULL)
    return hs_ops_doubts (error, "A VIN has no I, O or Q; “%s” may have 1 or 0 there. Read it again, or give the "
                                 "reason for an old chassis number.", vin);
  *ret_vin = g_steal_pointer (&vin);
  return TRUE;
}

static gboolean
ends_agree (const char *record, const char *vin)
{
  gsize length = MIN (strlen (record), strlen (vin));

  return g_str_equal (record + strlen (record) - length, vin + strlen (vin) - length);
}

static gboolean
refuse_vin (const HsVehicleRow *vehicle, const char *record, const char *vin, GError **error)
{
  g_autofree char *is = hs_vin_tail (record, HS_IDENTITY_VIN_TAIL);
  g_autofree char *read = hs_vin_tail (vin, HS_IDENTITY_VIN_TAIL);

  return hs_ops_doubts (error, "The VIN on record for %s ends in %s, this one in %s: another vehicle, or a slip. Look "
                               "at both; write the right plate into the call, or give the reason and the record is "
                               "corrected.", vehicle->plate != NULL ? vehicle->plate : "this vehicle", is, read);
}

static gboolean
check_length (const HsVehicleRow *vehicle, const char *vin, const char *why, GError **error)
{
  gsize length = strlen (vin);

  if (why != NULL || length <= HS_IDENTITY_VIN_LONGEST_TAIL || length >= HS_VIN_LENGTH
      || (vehicle->year != HS_INT_NONE && vehicle->year < HS_VIN_FIRST_YEAR))
    return TRUE;
  return hs_ops_doubts (error, "A VIN has %d signs since model year %d (49 CFR 565); this has %" G_GSIZE_FORMAT
                               ". Read all of it, or the last %d to %d, or give the reason.",
                        HS_VIN_LENGTH, HS_VIN_FIRST_YEAR, length, HS_IDENTITY_VIN_TAIL, HS_IDENTITY_VIN_LONGEST_TAIL);
}

static gboolean
save_vin (HsStore *store, HsVehicleRow *vehicle, const char *vin, const char *why, HsDate today, HsIdentified *ret_how,
          GError **error)
{
  g_autofree char *record = vehicle->vin == NULL ? g_strdup ("") : hs_vin_normalize (vehicle->vin, NULL);

  *ret_how = HS_IDENTIFIED_AGREES;
  if (record != NULL && ends_agree (record, vin))
    {
      if (strlen (vin) <= strlen (record))
        return TRUE;
      if (!check_length (vehicle, vin, why, error))
        return FALSE;
      *ret_how = HS_IDENTIFIED_WRITTEN;
    }
  else if (!check_length (vehicle, vin, why, error))
    return FALSE;
  else if (why == NULL)
    return refuse_vin (vehicle, record != NULL ? record : vehicle->vin, vin, error);
  else
    {
      *ret_how = HS_IDENTIFIED_CORRECTED;
      remember (vehicle, today, "VIN corrected", why);
    }
  hs_row_set (&vehicle->vin, vin);
  return hs_vehicle_row_save (store, vehicle, error);
}

static gboolean
identify_vin (HsStore *store, const HsJobRow *job, const char *text, const char *why, HsDate today,
              HsIdentified *ret_how, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autofree char *vin = NULL;
  g_autofree char *tail = NULL;

  if (!load_vehicle (store, job, &vehicle, error) || !read_vin (text == NULL ? "" : text, why, &vin, error))
    return FALSE;
  tail = hs_vin_tail (vin, HS_IDENTITY_VIN_TAIL);
  hs_ops_note (store, job->id, "VIN: %s", tail);
  return save_vin (store, vehicle, vin, why, today, ret_how, error);
}

gboolean
hs_identify_vin (HsBook *book, const char *job_id, const char *vin, const char *why, HsInstant now,
                 HsIdentified *ret_how, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  HsIdentified how = HS_IDENTIFIED_AGREES;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_store_begin (store, now, error)
      || !hs_store_end (store, identify_vin (store, job, vin, hs_ops_blank_to_null (why), hs_ops_today (book, now),
                                             &how, error), error))
    return FALSE;
  if (ret_how != NULL)
    *ret_how = how;
  return TRUE;
}
