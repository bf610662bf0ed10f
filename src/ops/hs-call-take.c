// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Taking a call: customer, vehicle and job in one transaction, while the phone is at the ear. A known phone is that
 * customer, a known plate that vehicle. Refuses a slip without words, one that says neither who calls nor from where,
 * a return visit that names no earlier job, and a window that no clock will show.
 */

#include "hs-area-row.h"
#include "hs-call-merge.h"
#include "hs-call-name.h"
#include "hs-customer-row.h"
#include "hs-geo.h"
#include "hs-ident.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-private.h"
#include "hs-plate-op.h"
#include "hs-spot.h"
#include "hs-phone.h"
#include "hs-reach.h"
#include "hs-settings-op.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"

#include <string.h>

/* The code of an area, or a position. */
static gboolean
check_area (HsStore *store, const char *code, GError **error)
{
  g_autoptr (HsAreaRow) area = NULL;
  g_autoptr (GError) missing = NULL;

  if (hs_text_is_blank (code) || hs_geo_is_meant (code) || hs_area_row_load (store, code, &area, &missing))
    return TRUE;
  if (g_error_matches (missing, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND))
    return hs_ops_refuse (error, "The book has no area “%s”", code);
  g_propagate_error (error, g_steal_pointer (&missing));
  return FALSE;
}

static gboolean
check_slip (HsBook *book, const HsCallSlip *slip, GError **error)
{
  if (hs_text_is_blank (slip->words))
    return hs_ops_refuse (error, "Write down what the caller says; a few words will do.");
  if (hs_text_is_blank (slip->phone) && hs_text_is_blank (slip->name))
    return hs_ops_refuse (error, "Who calls? Write down a phone number or a name.");
  if (!hs_text_is_blank (slip->phone) && !hs_phone_check (slip->phone, error))
    return FALSE;
  if (slip->minutes < 0)
    return hs_ops_refuse (error, "The work cannot take less than no time.");
  if ((slip->window_from >= 0 || slip->window_to >= 0) && slip->day == HS_DATE_NONE)
    return hs_ops_refuse (error, "A window of which day? Fill in the day.");
  if (slip->window_to >= 0 && slip->window_to < slip->window_from)
    return hs_ops_refuse (error, "The window ends before it starts.");
  if (!check_area (hs_book_get_store (book), slip->area, error))
    return FALSE;
  return hs_text_is_blank (slip->group) || hs_ops_check_group (book, slip->group, error);
}

static gboolean
find_customer (HsStore *store, const HsCallSlip *slip, HsCustomerRow **ret_customer, GError **error)
{
  g_autoptr (GPtrArray) customers = NULL;

  *ret_customer = NULL;
  if (hs_text_is_blank (slip->phone) ? !hs_customer_row_list_by_name (store, slip->name, &customers, error)
                                     : !hs_customer_row_list_by_phone (store, slip->phone, &customers, error))
    return FALSE;
  if (customers->len > 0)
    *ret_customer = hs_customer_row_copy (g_ptr_array_index (customers, 0));
  return TRUE;
}

static gboolean
add_phone (HsStore *store, const HsCustomerRow *customer, const char *shown, GError **error)
{
  g_autoptr (HsPhoneRow) phone = hs_phone_row_new ();

  if (hs_text_is_blank (shown))
    return TRUE;
  hs_row_set (&phone->customer_id, customer->id);
  hs_row_set (&phone->shown, shown);
  return hs_phone_row_save (store, phone, error);
}

#define PLACEHOLDER "Caller "

gboolean
hs_call_is_placeholder (const char *name, const char *phone)
{
  return name != NULL && phone != NULL && g_str_has_prefix (name, PLACEHOLDER)
         && g_str_equal (name + strlen (PLACEHOLDER), phone);
}

/* A name that nobody had said yet is said now. */
static gboolean
name_customer (HsStore *store, const HsCallSlip *slip, HsCustomerRow *customer, GError **error)
{
  g_autoptr (GPtrArray) phones = NULL;
  gboolean stands_in = FALSE;

  if (hs_text_is_blank (slip->name) || g_str_equal (slip->name, customer->name))
    return TRUE;
  if (!hs_phone_row_list_of (store, customer->id, &phones, error))
    return FALSE;
  for (guint i = 0; i < phones->len; i++)
    stands_in = stands_in
                || hs_call_is_placeholder (customer->name, ((const HsPhoneRow *) g_ptr_array_index (phones, i))->shown);
  if (!stands_in)
    return TRUE;
  hs_row_set (&customer->name, slip->name);
  return hs_customer_row_save (store, customer, error);
}

/* One whom the book knows under another name stays so; what was said stands with the job. */
static gboolean
keep_name (HsBook *book, const HsCallSlip *slip, const HsJobRow *job, HsInstant now, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (hs_text_is_blank (slip->name) || hs_text_is_blank (slip->phone))
    return TRUE;
  if (!hs_customer_row_load (hs_book_get_store (book), job->customer_id, &customer, error))
    return FALSE;
  return g_str_equal (slip->name, customer->name)
         || hs_asked_add (book, job->id, HS_CALL_NAME_QUESTION, slip->name, now, error);
}

static gboolean
add_customer (HsStore *store, const HsCallSlip *slip, HsCustomerRow **ret_customer, GError **error)
{
  g_autoptr (HsCustomerRow) customer = hs_customer_row_new ();

  if (hs_text_is_blank (slip->name))
    customer->name = g_strconcat (PLACEHOLDER, slip->phone, NULL);
  else
    hs_row_set (&customer->name, slip->name);
  hs_row_set (&customer->street, hs_ops_blank_to_null (slip->street));
  if (!hs_text_is_blank (slip->area) && !hs_spot_area_id (store, slip->area, &customer->area_id, error))
    return FALSE;
  if (!hs_customer_row_save (store, customer, error) || !add_phone (store, customer, slip->phone, error))
    return FALSE;
  *ret_customer = g_steal_pointer (&customer);
  return TRUE;
}

/* An owner that the book does not know yet is the caller. */
static gboolean
own_vehicle (HsBook *book, const char *vehicle_id, const char *customer_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOwnershipRow) present = NULL;
  g_autoptr (HsOwnershipRow) first = NULL;

  if (!hs_ownership_row_present (store, vehicle_id, &present, error))
    return FALSE;
  if (present != NULL)
    return TRUE;
  first = hs_ownership_row_new ();
  hs_row_set (&first->vehicle_id, vehicle_id);
  hs_row_set (&first->customer_id, customer_id);
  first->from_date = hs_ops_today (book, now);
  return hs_ownership_row_save (store, first, error);
}

static gboolean
find_vehicle (HsStore *store, const HsCallSlip *slip, const HsJobRow *job, HsVehicleRow **ret_vehicle, GError **error)
{
  HsPlateHint hint = { job->vehicle_id, job->customer_id, slip->make };
  g_autofree char *plate = hs_plate_normalize (slip->plate);
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (*plate == '\0')
    return hs_ops_refuse (error, "“%s” is no plate.", slip->plate);
  if (!hs_plate_find_vehicle (store, slip->plate, &hint, &vehicle, error))
    return FALSE;
  if (vehicle != NULL)
    {
      *ret_vehicle = g_steal_pointer (&vehicle);
      return TRUE;
    }
  vehicle = hs_vehicle_row_new ();
  vehicle->plate = hs_plate_dup_bare (slip->plate, error);
  if (vehicle->plate == NULL)
    return FALSE;
  hs_row_set (&vehicle->make, hs_ops_blank_to_null (slip->make));
  hs_row_set (&vehicle->model, hs_ops_blank_to_null (slip->model));
  if (!hs_vehicle_row_save (store, vehicle, error))
    return FALSE;
  *ret_vehicle = g_steal_pointer (&vehicle);
  return TRUE;
}

static gboolean
fill_vehicle (HsBook *book, const HsCallSlip *slip, HsJobRow *job, HsInstant now, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (hs_text_is_blank (slip->plate))
    return TRUE;
  if (!find_vehicle (hs_book_get_store (book), slip, job, &vehicle, error))
    return FALSE;
  hs_row_set (&job->vehicle_id, vehicle->id);
  return own_vehicle (book, vehicle->id, job->customer_id, now, error);
}

static gboolean
fill_customer (HsStore *store, const HsCallSlip *slip, HsJobRow *job, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (!find_customer (store, slip, &customer, error)
      || (customer != NULL ? !name_customer (store, slip, customer, error)
                           : !add_customer (store, slip, &customer, error)))
    return FALSE;
  hs_row_set (&job->customer_id, customer->id);
  if (!hs_text_is_blank (slip->area))
    {
      g_clear_pointer (&job->area_id, g_free);
      return hs_spot_area_id (store, slip->area, &job->area_id, error);
    }
  if (job->area_id == NULL)
    hs_row_set (&job->area_id, customer->area_id);
  return TRUE;
}

static gboolean
fill_kind (HsBook *book, const HsCallSlip *slip, HsJobRow *job, GError **error)
{
  const char *kind;
  const char *why;

  if (!hs_ops_word (HS_WORDS_JOB_KIND, slip->kind, NULL, &kind, error)
      || !hs_ops_word (HS_WORDS_RETURN_WHY, slip->return_why, NULL, &why, error))
    return FALSE;
  if (kind != NULL || job->kind == NULL)
    hs_row_set (&job->kind, kind == NULL ? "repair" : kind);
  if (slip->follows != NULL)
    {
      g_free (job->follows_job_id);
      job->follows_job_id = hs_job_find (book, slip->follows, error);
      if (job->follows_job_id == NULL)
        return FALSE;
    }
  if (!g_str_equal (job->kind, "return_visit"))
    return TRUE;
  if (job->follows_job_id == NULL)
    return hs_ops_refuse (error, "A return visit names the earlier job that it returns to.");
  if (why != NULL || job->return_why == NULL)
    hs_row_set (&job->return_why, why == NULL ? "not_decided" : why);
  return TRUE;
}

/* An end that was not said stays open. */
static gboolean
fill_end (HsBook *book, HsDate day, int minutes, HsInstant *ret_end, GError **error)
{
  *ret_end = HS_INSTANT_NONE;
  return minutes < 0 || hs_reach_instant (hs_book_get_zone (book), day, minutes, ret_end, error);
}

static gboolean
fill_window (HsBook *book, const HsCallSlip *slip, HsJobRow *job, GError **error)
{
  g_autofree char *zone_id = hs_settings_dup (book, "zone", error);

  if (zone_id == NULL)
    return FALSE;
  hs_row_set (&job->zone, zone_id);
  job->day = slip->day;
  if (slip->minutes > 0)
    job->guess_seconds = 60 * (gint64) slip->minutes;
  return fill_end (book, slip->day, slip->window_from, &job->window_from, error)
         && fill_end (book, slip->day, slip->window_to, &job->window_to, error);
}

static gboolean
start_job (HsBook *book, const HsCallSlip *slip, HsJobRow *job, HsInstant now, GError **error)
{
  g_autoptr (HsVanRow) van = NULL;

  if (!hs_ops_van (book, slip->van, &van, error))
    return FALSE;
  hs_row_set (&job->van_id, van->id);
  hs_row_set (&job->stage, hs_stage_id (HS_STAGE_CALLED_IN));
  job->called_at = now;
  return TRUE;
}

static gboolean
fill_job (HsBook *book, const HsCallSlip *slip, HsJobRow *job, HsInstant now, GError **error)
{
  hs_row_set (&job->words, slip->words);
  if (!hs_text_is_blank (slip->group))
    hs_row_set (&job->complaint_group, slip->group);
  if (!hs_text_is_blank (slip->street))
    hs_row_set (&job->street, slip->street);
  return fill_customer (hs_book_get_store (book), slip, job, error) && fill_vehicle (book, slip, job, now, error)
         && fill_kind (book, slip, job, error) && fill_window (book, slip, job, error);
}

/* Only a window that this slip sets is a choice of its own. */
static gboolean
save_job (HsBook *book, HsJobRow *job, HsInstant was_from, HsInstant was_to, GError **error)
{
  if (!hs_job_row_save (hs_book_get_store (book), job, error))
    return FALSE;
  return (job->window_from == was_from && job->window_to == was_to) || hs_reach_log (book, job, NULL, error);
}

static gboolean
take_call (HsBook *book, const HsCallSlip *slip, HsInstant now, char **ret_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  HsInstant was_from, was_to;

  if (slip->job_id != NULL)
    {
      if (!hs_job_row_load (store, slip->job_id, &job, error))
        return FALSE;
      if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
        return hs_ops_refuse (error, "%s is squared up; what the call said stays as it is. A new call makes a new job.",
                              job->number);
    }
  else
    {
      job = hs_job_row_new ();
      if (!start_job (book, slip, job, now, error))
        return FALSE;
    }
  was_from = job->window_from;
  was_to = job->window_to;
  if (!fill_job (book, slip, job, now, error)
      || (job->number == NULL && !hs_van_row_take_number (store, job->van_id, &job->number, error))
      || !save_job (book, job, was_from, was_to, error) || !keep_name (book, slip, job, now, error))
    return FALSE;
  *ret_id = g_strdup (job->id);
  return TRUE;
}

char *
hs_call_take (HsBook *book, const HsCallSlip *slip, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *id = NULL;

  if (!check_slip (book, slip, error) || !hs_store_begin (store, now, error))
    return NULL;
  hs_undo_note (store, slip->job_id, "call slip");
  if (!hs_store_end (store, take_call (book, slip, now, &id, error), error))
    return NULL;
  return g_steal_pointer (&id);
}
