// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The drives that were, for foretelling those to come: the mileage log and the stamps of the visits brought together.
 * Reads only. Where a van came from is taken for known only if nothing speaks against it.
 */

#include "hs-own-trip.h"

#include "hs-chase-row.h"
#include "hs-drive-row.h"
#include "hs-settings-op.h"

typedef struct
{
  GTimeZone *zone;
  char *base;
  GPtrArray *trips;
  GHashTable *stamped;
} Gather;

HsOwnTrip *
hs_own_trip_new (const char *from, const char *to, int band, gint64 seconds, gint64 millimiles)
{
  HsOwnTrip *trip = g_new0 (HsOwnTrip, 1);

  trip->from = g_strdup (from);
  trip->to = g_strdup (to);
  trip->band = band;
  trip->seconds = seconds;
  trip->millimiles = millimiles;
  return trip;
}

void
hs_own_trip_free (HsOwnTrip *trip)
{
  if (trip == NULL)
    return;
  g_free (trip->from);
  g_free (trip->to);
  g_free (trip);
}

static HsDate
local_day (const Gather *gather, HsInstant at)
{
  HsDate day;

  hs_instant_to_local (gather->zone, at, &day, NULL);
  return day;
}

static int
band_of (const Gather *gather, HsInstant at)
{
  int seconds;

  if (at == HS_INSTANT_NONE)
    return HS_TRAVEL_ANY_BAND;
  hs_instant_to_local (gather->zone, at, NULL, &seconds);
  return hs_travel_band (seconds);
}

/* (nullable): the area where the van was when it rolled, if that is known. */
static const char *
start_of (const Gather *gather, const HsDriveRow *drive)
{
  gint64 gap;

  if (drive->by_counter)
    return NULL;
  if (drive->before_at == HS_INSTANT_NONE
      || local_day (gather, drive->before_at) != local_day (gather, drive->rolling_at))
    return *gather->base != '\0' ? gather->base : NULL;
  if (drive->before_left_at == HS_INSTANT_NONE)
    return NULL;
  gap = drive->rolling_at - drive->before_left_at;
  return gap >= 0 && gap <= HS_OWN_TRIP_GAP_SECONDS ? drive->before_id : NULL;
}

/* A drive of a job on a day between two areas, for finding it again in the log. */
static char *
drive_key (const char *job_id, const char *from, const char *to, HsDate day)
{
  return g_strdup_printf ("%s\n%s\n%s\n%d", job_id, from, to, (int) day);
}

static void
add_drive (Gather *gather, const HsDriveRow *drive)
{
  gint64 seconds = drive->arrived_at - drive->rolling_at;
  const char *from = start_of (gather, drive);
  HsOwnTrip *trip;

  if (from == NULL || seconds < HS_OWN_TRIP_LEAST_SECONDS || seconds > HS_OWN_TRIP_MOST_SECONDS)
    return;
  trip = hs_own_trip_new (from, drive->to_id, band_of (gather, drive->rolling_at), seconds, -1);
  g_ptr_array_add (gather->trips, trip);
  g_hash_table_insert (gather->stamped,
                       drive_key (drive->job_id, from, drive->to_id, local_day (gather, drive->rolling_at)), trip);
}

static void
add_logged (Gather *gather, const HsTripRow *row)
{
  g_autofree char *key = row->job_id == NULL
                           ? NULL
                           : drive_key (row->job_id, row->from_area_id, row->to_area_id, row->on_date);
  HsOwnTrip *same = key == NULL ? NULL : g_hash_table_lookup (gather->stamped, key);

  if (same != NULL)
    {
      same->millimiles = row->millimiles;
      g_hash_table_remove (gather->stamped, key);
    }
  else if (row->seconds > 0 && row->seconds <= HS_SECONDS_PER_DAY)
    g_ptr_array_add (gather->trips, hs_own_trip_new (row->from_area_id, row->to_area_id,
                                                     band_of (gather, row->left_at), row->seconds, row->millimiles));
}

static gboolean
gather_all (Gather *gather, HsStore *store, GError **error)
{
  g_autoptr (GPtrArray) drives = NULL;
  g_autoptr (GPtrArray) logged = NULL;

  if (!hs_drive_row_list (store, &drives, error) || !hs_trip_row_list_timed (store, &logged, error))
    return FALSE;
  for (guint i = 0; i < drives->len; i++)
    add_drive (gather, g_ptr_array_index (drives, i));
  for (guint i = 0; i < logged->len; i++)
    add_logged (gather, g_ptr_array_index (logged, i));
  return TRUE;
}

gboolean
hs_own_trip_list (HsBook *book, GPtrArray **ret_trips, GError **error)
{
  g_autoptr (GPtrArray) trips = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_own_trip_free);
  g_autoptr (GHashTable) stamped = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *base = hs_settings_dup (book, "base_area", error);
  Gather gather = { hs_book_get_zone (book), base, trips, stamped };

  if (base == NULL || !gather_all (&gather, hs_book_get_store (book), error))
    return FALSE;
  *ret_trips = g_steal_pointer (&trips);
  return TRUE;
}
