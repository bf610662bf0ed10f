// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What is written down beside the jobs: a vehicle that changes hands, an odometer, a core that is credited, somebody to
 * call, a trip. Refuses an odometer that falls without a reason and a credit without its reference.
 */

#include "hs-desk-op.h"

#include "hs-chase-row.h"
#include "hs-core-row.h"
#include "hs-odometer-op.h"
#include "hs-odometer.h"
#include "hs-ops-private.h"
#include "hs-spot.h"
#include "hs-vehicle-row.h"

static gboolean
change_owner (HsStore *store, const char *vehicle_id, const char *customer_id, HsDate on, GError **error)
{
  g_autoptr (HsOwnershipRow) present = NULL;
  g_autoptr (HsOwnershipRow) first = NULL;

  if (!hs_ownership_row_present (store, vehicle_id, &present, error))
    return FALSE;
  if (present != NULL && !g_str_equal (present->customer_id, customer_id))
    return hs_ownership_row_hand_over (store, vehicle_id, customer_id, on, error);
  if (present != NULL)
    {
      present->from_date = present->from_date == HS_DATE_NONE ? on : MIN (present->from_date, on);
      return hs_ownership_row_save (store, present, error);
    }
  first = hs_ownership_row_new ();
  hs_row_set (&first->vehicle_id, vehicle_id);
  hs_row_set (&first->customer_id, customer_id);
  first->from_date = on;
  return hs_ownership_row_save (store, first, error);
}

gboolean
hs_owner_change (HsBook *book, const char *vehicle_id, const char *customer_id, HsDate on, HsInstant now,
                 GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, hs_ops_note_vehicle (store, vehicle_id, "owner", error)
                                && change_owner (store, vehicle_id, customer_id, on, error), error);
}

static gboolean
check_odometer (HsStore *store, const char *vehicle_id, HsDate on, gint64 value, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  HsOdometer reading = { on, value };

  return hs_vehicle_row_load (store, vehicle_id, &vehicle, error)
         && hs_odometer_row_list_of (store, vehicle_id, &rows, error)
         && hs_odometer_question_read (vehicle, rows, NULL, &reading, error);
}

gboolean
hs_odometer_add (HsBook *book, const char *vehicle_id, const char *job_id, HsDate on, gint64 value,
                 const char *doubted, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsOdometerRow) row = hs_odometer_row_new ();

  if (value < 0)
    return hs_ops_refuse (error, "An odometer shows 0 or more.");
  hs_row_set (&row->vehicle_id, vehicle_id);
  hs_row_set (&row->job_id, job_id);
  hs_row_set (&row->doubted, hs_ops_blank_to_null (doubted));
  row->on_date = on;
  row->value = value;
  if (row->doubted == NULL && !check_odometer (store, vehicle_id, on, value, error))
    return FALSE;
  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "odometer: %" G_GINT64_FORMAT, value);
  return hs_store_end (store, hs_odometer_row_save (store, row, error), error);
}

static gboolean
credit_core (HsStore *store, const char *core_id, HsDate on, const char *reference, GError **error)
{
  g_autoptr (HsCoreRow) core = NULL;

  if (!hs_core_row_load (store, core_id, &core, error))
    return FALSE;
  hs_row_set (&core->where_now, "credited");
  hs_row_set (&core->credit_ref, reference);
  core->handed_in_on = core->credited_on = on;
  return hs_core_row_save (store, core, error);
}

gboolean
hs_core_credit (HsBook *book, const char *core_id, HsDate on, const char *reference, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (hs_ops_blank_to_null (reference) == NULL)
    return hs_ops_refuse (error, "A credited core needs the reference of its credit slip.");
  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, credit_core (store, core_id, on, reference, error), error);
}

static gboolean
save_follow_up (HsStore *store, HsChaseRow *row, const char *job_id, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsChaseRow) listed = NULL;

  if (!hs_job_row_load (store, job_id, &job, error)
      || !hs_chase_row_find_open (store, job_id, row->kind, row->due_on, &listed, error))
    return FALSE;
  if (listed != NULL)
    {
      hs_row_set (&row->id, listed->id);
      return TRUE;
    }
  hs_row_set (&row->job_id, job->id);
  hs_row_set (&row->customer_id, job->customer_id);
  hs_row_set (&row->vehicle_id, job->vehicle_id);
  return hs_chase_row_save (store, row, error);
}

char *
hs_follow_up_add (HsBook *book, const char *job_id, const char *kind, HsDate due, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsChaseRow) row = hs_chase_row_new ();
  const char *kind_id;

  if (!hs_ops_word (HS_WORDS_FOLLOW_UP, kind, "how_is_it_running", &kind_id, error)
      || !hs_store_begin (store, now, error))
    return NULL;
  hs_row_set (&row->kind, kind_id);
  row->due_on = due;
  if (!hs_store_end (store, save_follow_up (store, row, job_id, error), error))
    return NULL;
  return g_strdup (row->id);
}

static gboolean
finish_follow_up (HsStore *store, const char *id, HsDate on, const char *outcome, GError **error)
{
  g_autoptr (HsChaseRow) row = NULL;

  if (!hs_chase_row_load (store, id, &row, error))
    return FALSE;
  row->done_on = on;
  hs_row_set (&row->outcome, outcome);
  return hs_chase_row_save (store, row, error);
}

gboolean
hs_follow_up_done (HsBook *book, const char *follow_up_id, HsDate on, const char *outcome, HsInstant now,
                   GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (hs_ops_blank_to_null (outcome) == NULL)
    return hs_ops_refuse (error, "What was said? A call that is done has an outcome.");
  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, finish_follow_up (store, follow_up_id, on, outcome, error), error);
}

static gboolean
set_ends (HsStore *store, const HsTripEntry *entry, HsTripRow *row, GError **error)
{
  return (entry->from == NULL || hs_spot_area_id (store, entry->from, &row->from_area_id, error))
         && (entry->to == NULL || hs_spot_area_id (store, entry->to, &row->to_area_id, error));
}

gboolean
hs_trip_add (HsBook *book, const HsTripEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsTripRow) row = hs_trip_row_new ();
  g_autoptr (HsVanRow) van = NULL;
  const char *purpose;

  if (entry->seconds < 0 || entry->millimiles < 0)
    return hs_ops_refuse (error, "A trip takes no less than nothing.");
  if (!hs_ops_word (HS_WORDS_PURPOSE, entry->purpose, "job", &purpose, error)
      || !hs_ops_van (book, entry->van, &van, error) || !hs_store_begin (store, now, error))
    return FALSE;
  hs_row_set (&row->van_id, van->id);
  hs_row_set (&row->purpose, purpose);
  hs_row_set (&row->job_id, entry->job_id);
  row->on_date = entry->on;
  row->seconds = entry->seconds;
  row->millimiles = entry->millimiles;
  row->left_at = entry->left_at == 0 ? HS_INSTANT_NONE : entry->left_at;
  return hs_store_end (store, set_ends (store, entry, row, error) && hs_trip_row_save (store, row, error), error);
}
