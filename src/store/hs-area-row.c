// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Areas and the drives between them. A drive is one row for both ways: the smaller code stands first, whoever asks. */

#include "hs-area-row.h"

#include <string.h>

#include "hs-table.h"

static const HsColumn area_columns[] = {
  HS_TEXT (HsAreaRow, id),
  HS_TEXT (HsAreaRow, name),
  HS_TEXT (HsAreaRow, signal),
  HS_REAL (HsAreaRow, lat),
  HS_REAL (HsAreaRow, lon),
};

static const HsTable area_table = {
  HS_TABLE (HsAreaRow, "area", "area", area_columns),
};

static const HsColumn travel_columns[] = {
  HS_TEXT (HsTravelRow, id),
  HS_TEXT (HsTravelRow, from_id),
  HS_TEXT (HsTravelRow, to_id),
  HS_INT (HsTravelRow, seconds),
  HS_INT (HsTravelRow, millimiles),
  HS_INT_OR (HsTravelRow, samples, 0),
};

/* Puts the two codes in order, and takes over the row of the pair if there is one. */
static gboolean
travel_before_save (HsStore *store, gconstpointer old, gpointer row, GError **error)
{
  HsTravelRow *travel = row;

  if (travel->from_id != NULL && travel->to_id != NULL && strcmp (travel->from_id, travel->to_id) > 0)
    {
      char *swapped = travel->from_id;

      travel->from_id = travel->to_id;
      travel->to_id = swapped;
    }
  return TRUE;
}

static const HsTable travel_table = {
  HS_TABLE (HsTravelRow, "travel", "drive", travel_columns),
  .before_save = travel_before_save,
};

HS_DEFINE_ROW (HsAreaRow, hs_area_row, area_table)

gboolean
hs_area_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &area_table, (GDestroyNotify) hs_area_row_free, ret_rows, error,
                        "ORDER BY seq", "");
}

HsTravelRow *
hs_travel_row_new (void)
{
  return hs_table_new (&travel_table);
}

void
hs_travel_row_free (HsTravelRow *row)
{
  hs_table_free (&travel_table, row);
}

HsTravelRow *
hs_travel_row_copy (const HsTravelRow *row)
{
  return hs_table_copy (&travel_table, row);
}

gboolean
hs_travel_row_load (HsStore *store, const char *id, HsTravelRow **ret_row, GError **error)
{
  return hs_table_load (store, &travel_table, id, (gpointer *) ret_row, error);
}

gboolean
hs_travel_row_delete (HsStore *store, const char *id, GError **error)
{
  return hs_table_delete (store, &travel_table, id, error);
}

/* A pair has one row: without an id, the row that is there is the one that is meant. */
gboolean
hs_travel_row_save (HsStore *store, HsTravelRow *row, GError **error)
{
  g_autoptr (HsTravelRow) there = NULL;

  if (row->id == NULL && row->from_id != NULL && row->to_id != NULL)
    {
      if (!hs_table_find (store, &travel_table, (gpointer *) &there, error,
                          "WHERE from_id = min (?1, ?2) AND to_id = max (?1, ?2)", "tt", row->from_id, row->to_id))
        return FALSE;
      hs_row_set (&row->id, there == NULL ? NULL : there->id);
    }
  return hs_table_save (store, &travel_table, row, error);
}

gboolean
hs_travel_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &travel_table, (GDestroyNotify) hs_travel_row_free, ret_rows, error,
                        "ORDER BY seq", "");
}

gboolean
hs_travel_row_find (HsStore *store, const char *from_id, const char *to_id, HsTravelRow **ret_row, GError **error)
{
  g_autofree char *called = g_strdup_printf ("%s to %s", from_id, to_id);

  return hs_table_need (store, &travel_table, (gpointer *) ret_row, error, called,
                        "WHERE from_id = min (?1, ?2) AND to_id = max (?1, ?2)", "tt", from_id, to_id);
}
