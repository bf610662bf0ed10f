// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of drives that were, one a row: where from, where to, when, how long and how far. They teach the book how long
 * drives take, and stand in the mileage log. Refuses a drive that takes no time and a moment that is none.
 */

#include "hs-chase-row.h"
#include "hs-import-row.h"
#include "hs-ops-private.h"

enum
{
  TRIP_FROM,
  TRIP_TO,
  TRIP_LEFT,
  TRIP_MINUTES,
  TRIP_MILES,
  TRIP_VAN,
  TRIP_PURPOSE,
};

static const HsImportColumn trip_columns[] = {
  [TRIP_FROM] = { "from", HS_IMPORT_TEXT, TRUE },
  [TRIP_TO] = { "to", HS_IMPORT_TEXT, TRUE },
  [TRIP_LEFT] = { "left", HS_IMPORT_TEXT, TRUE },
  [TRIP_MINUTES] = { "minutes", HS_IMPORT_THOUSANDTHS, TRUE, 1000, 1440 * 1000 },
  [TRIP_MILES] = { "miles", HS_IMPORT_THOUSANDTHS, TRUE, 0, 10000 * 1000 },
  [TRIP_VAN] = { "van", HS_IMPORT_TEXT },
  [TRIP_PURPOSE] = { "purpose", HS_IMPORT_WORD, .words = HS_WORDS_PURPOSE },
};

/* A drive is known by its van, its moment and its ends. */
static gboolean
find_trip (HsImportRun *run, const HsTripRow *wanted, HsTripRow **ret_trip, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_trip_row_list (run->store, wanted->on_date, wanted->on_date, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsTripRow *row = g_ptr_array_index (rows, i);

      if (row->left_at == wanted->left_at && g_str_equal (row->van_id, wanted->van_id)
          && g_strcmp0 (row->from_area_id, wanted->from_area_id) == 0
          && g_strcmp0 (row->to_area_id, wanted->to_area_id) == 0)
        *ret_trip = hs_trip_row_copy (row);
    }
  return TRUE;
}

static gboolean
read_ends (HsImportRun *run, HsTripRow *trip)
{
  return hs_import_find_area (run, TRIP_FROM, &trip->from_area_id)
         & hs_import_find_area (run, TRIP_TO, &trip->to_area_id);
}

static gboolean
read_van (HsImportRun *run, HsTripRow *trip)
{
  const HsImportValue *value = &run->values[TRIP_VAN];
  g_autoptr (HsVanRow) van = NULL;
  GError *error = NULL;

  if (!hs_ops_van (run->book, value->given ? value->text : NULL, &van, &error))
    return hs_import_refuse_error (run, TRIP_VAN, error);
  hs_row_set (&trip->van_id, van->id);
  return TRUE;
}

static gboolean
read_moment (HsImportRun *run, HsTripRow *trip)
{
  GTimeZone *zone = hs_book_get_zone (run->book);
  GError *error = NULL;

  if (!hs_instant_parse (run->values[TRIP_LEFT].text, zone, &trip->left_at, &error))
    return hs_import_refuse_error (run, TRIP_LEFT, error);
  hs_instant_to_local (zone, trip->left_at, &trip->on_date, NULL);
  return TRUE;
}

static gboolean
fill_trip (const HsImportRun *run, HsTripRow *trip)
{
  const HsImportValue *values = run->values;
  gboolean changed = hs_import_set_seconds (&trip->seconds, &values[TRIP_MINUTES]);

  changed |= hs_import_set_number (&trip->millimiles, &values[TRIP_MILES]);
  changed |= hs_import_set_word (&trip->purpose, &values[TRIP_PURPOSE]);
  return changed;
}

static HsImportOutcome
save_trip (HsImportRun *run)
{
  g_autoptr (HsTripRow) trip = hs_trip_row_new ();
  g_autoptr (HsTripRow) known = NULL;
  GError *error = NULL;
  gboolean changed;

  if (!read_ends (run, trip) | !read_van (run, trip) | !read_moment (run, trip))
    return HS_IMPORT_BAD;
  if (!hs_import_claim (run, TRIP_LEFT,
                        g_strdup_printf ("%s\n%" G_GINT64_FORMAT "\n%s\n%s", trip->van_id, trip->left_at,
                                         trip->from_area_id, trip->to_area_id)))
    return HS_IMPORT_BAD;
  if (!find_trip (run, trip, &known, &error))
    return hs_import_fault_error (run, TRIP_LEFT, error);
  if (known == NULL)
    hs_row_set (&trip->purpose, "job");
  changed = fill_trip (run, known != NULL ? known : trip);
  if (changed)
    hs_trip_row_save (run->store, known != NULL ? known : trip, &error);
  return hs_import_outcome (run, known == NULL, changed, error);
}

const HsImportKind hs_import_trips = { "trips", trip_columns, G_N_ELEMENTS (trip_columns), save_trip };
