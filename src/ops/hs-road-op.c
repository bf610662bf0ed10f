// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Drives over roads, kept in the book by positions and what drives, with the stamp of their map: driving anew takes
 * milliseconds each, and a plan asks for hundreds. A map with another stamp makes all of them void at once.
 */

#include "hs-road-op.h"

#include "hs-area-row.h"
#include "hs-geo.h"
#include "hs-road-row.h"
#include "hs-setting-row.h"

#define STAMP_KEY "roads_stamp"
#define PROFILE_KEY "roads_profile"

struct _HsRoadBook
{
  GPtrArray *rows;
  GHashTable *by_ends;
};

static char *
ends_key (const char *from, const char *to)
{
  return g_strdup_printf ("%s %s", from, to);
}

static HsRoadBook *
road_book_new (GPtrArray *rows)
{
  HsRoadBook *roads = g_new0 (HsRoadBook, 1);

  roads->rows = rows;
  roads->by_ends = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsRoadRow *row = g_ptr_array_index (rows, i);

      g_hash_table_insert (roads->by_ends, ends_key (row->from_place, row->to_place), (gpointer) row);
    }
  return roads;
}

void
hs_road_book_free (HsRoadBook *roads)
{
  if (roads == NULL)
    return;
  g_hash_table_unref (roads->by_ends);
  g_ptr_array_unref (roads->rows);
  g_free (roads);
}

gboolean
hs_road_book_is_empty (const HsRoadBook *roads)
{
  return roads->rows->len == 0;
}

/* Of one map. */
static HsRoadBook *
load_map (HsStore *store, const char *profile, const char *stamp, GError **error)
{
  GPtrArray *rows = NULL;

  return hs_road_row_list (store, profile, stamp, &rows, error) ? road_book_new (rows) : NULL;
}

HsRoadBook *
hs_road_book_load (HsBook *book, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *stamp = NULL;
  g_autofree char *profile = NULL;

  if (!hs_setting_row_get (store, STAMP_KEY, &stamp, error)
      || !hs_setting_row_get (store, PROFILE_KEY, &profile, error))
    return NULL;
  if (stamp == NULL || profile == NULL)
    return road_book_new (g_ptr_array_new_with_free_func ((GDestroyNotify) hs_road_row_free));
  return load_map (store, profile, stamp, error);
}

static const HsRoadRow *
find_row (const HsRoadBook *roads, double from_latitude, double from_longitude, double to_latitude,
          double to_longitude)
{
  g_autofree char *from = hs_geo_format (from_latitude, from_longitude);
  g_autofree char *to = hs_geo_format (to_latitude, to_longitude);
  g_autofree char *key = ends_key (from, to);

  return g_hash_table_lookup (roads->by_ends, key);
}

gboolean
hs_road_book_find (const HsRoadBook *roads, double from_latitude, double from_longitude, double to_latitude,
                   double to_longitude, HsTravelPair *ret_pair)
{
  const HsRoadRow *row = find_row (roads, from_latitude, from_longitude, to_latitude, to_longitude);

  if (row == NULL || row->seconds == HS_INT_NONE)
    return FALSE;
  *ret_pair = (HsTravelPair) { 0, 1, (gint32) row->seconds, row->millimiles, 0, HS_TRAVEL_ROADS };
  return TRUE;
}

/* Driving ---------------------------------------------------------------------------------------------------------- */

/* Drives from @from to @to unless @roads has it; a new drive is added to @driven. */
static gboolean
drive_one (const HsRoadSource *source, const HsRoadBook *roads, const HsSpot *from, const HsSpot *to, GPtrArray *driven,
           GError **error)
{
  g_autoptr (HsRoadRow) row = NULL;
  gboolean found = FALSE;
  gint64 seconds = 0, millimiles = 0;

  if (find_row (roads, from->latitude, from->longitude, to->latitude, to->longitude) != NULL)
    return TRUE;
  if (!source->drive (source->data, from->latitude, from->longitude, to->latitude, to->longitude, &found, &seconds,
                      &millimiles, error))
    return FALSE;
  row = hs_road_row_new ();
  row->from_place = hs_geo_format (from->latitude, from->longitude);
  row->to_place = hs_geo_format (to->latitude, to->longitude);
  hs_row_set (&row->profile, source->profile);
  hs_row_set (&row->stamp, source->stamp);
  row->seconds = found ? seconds : HS_INT_NONE;
  row->millimiles = found ? millimiles : HS_INT_NONE;
  g_ptr_array_add (driven, g_steal_pointer (&row));
  return TRUE;
}

static gboolean
put_all (HsStore *store, const HsRoadSource *source, GPtrArray *driven, GError **error)
{
  if (!hs_setting_row_put (store, STAMP_KEY, source->stamp, error)
      || !hs_setting_row_put (store, PROFILE_KEY, source->profile, error))
    return FALSE;
  for (guint i = 0; i < driven->len; i++)
    if (!hs_road_row_put (store, g_ptr_array_index (driven, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
keep (HsBook *book, const HsRoadSource *source, GPtrArray *driven, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, put_all (store, source, driven, error), error);
}

gboolean
hs_road_drive (HsBook *book, const HsRoadSource *source, const HsSpot *from, const HsSpot *to, HsInstant now,
               GError **error)
{
  g_autoptr (GPtrArray) driven = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_road_row_free);
  g_autoptr (HsRoadBook) roads = NULL;

  if (hs_book_is_read_only (book) || !from->has_position || !to->has_position)
    return TRUE;
  roads = load_map (hs_book_get_store (book), source->profile, source->stamp, error);
  return roads != NULL && drive_one (source, roads, from, to, driven, error)
         && keep (book, source, driven, now, error);
}

/* (element-type HsSpot): the areas that have a position. */
static GPtrArray *
placed_areas (HsBook *book, GError **error)
{
  g_autoptr (GPtrArray) spots = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_spot_free);
  g_autoptr (GPtrArray) areas = NULL;

  if (!hs_area_row_list (hs_book_get_store (book), &areas, error))
    return NULL;
  for (guint i = 0; i < areas->len; i++)
    {
      g_autoptr (HsSpot) spot = hs_spot_find (book, ((const HsAreaRow *) g_ptr_array_index (areas, i))->id, error);

      if (spot == NULL)
        return NULL;
      if (spot->has_position)
        g_ptr_array_add (spots, g_steal_pointer (&spot));
    }
  return g_steal_pointer (&spots);
}

static gboolean
drive_all (const HsRoadSource *source, const HsRoadBook *roads, GPtrArray *spots, GPtrArray *driven, GError **error)
{
  for (guint i = 0; i < spots->len; i++)
    for (guint j = 0; j < spots->len; j++)
      if (i != j
          && !drive_one (source, roads, g_ptr_array_index (spots, i), g_ptr_array_index (spots, j), driven, error))
        return FALSE;
  return TRUE;
}

gboolean
hs_road_fill (HsBook *book, const HsRoadSource *source, HsInstant now, guint *ret_driven, GError **error)
{
  g_autoptr (GPtrArray) driven = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_road_row_free);
  g_autoptr (GPtrArray) spots = placed_areas (book, error);
  g_autoptr (HsRoadBook) roads = NULL;

  if (spots == NULL)
    return FALSE;
  roads = load_map (hs_book_get_store (book), source->profile, source->stamp, error);
  if (roads == NULL || !drive_all (source, roads, spots, driven, error) || !keep (book, source, driven, now, error))
    return FALSE;
  *ret_driven = driven->len;
  return TRUE;
}
