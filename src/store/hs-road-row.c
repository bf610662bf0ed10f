// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Drives over the roads of a map, kept for the next time. They stay out of the log of changes: a map can always be
 * driven on again. */

#include "hs-road-row.h"

#include "hs-table.h"

static const HsColumn road_columns[] = {
  HS_TEXT (HsRoadRow, id),
  HS_TEXT (HsRoadRow, from_place),
  HS_TEXT (HsRoadRow, to_place),
  HS_TEXT (HsRoadRow, profile),
  HS_TEXT (HsRoadRow, stamp),
  HS_INT (HsRoadRow, seconds),
  HS_INT (HsRoadRow, millimiles),
};

static const HsTable road_table = {
  HS_TABLE (HsRoadRow, "road_drive", "drive over roads", road_columns),
  .unlogged = TRUE,
};

HS_DEFINE_ROW (HsRoadRow, hs_road_row, road_table)

gboolean
hs_road_row_list (HsStore *store, const char *profile, const char *stamp, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &road_table, (GDestroyNotify) hs_road_row_free, ret_rows, error,
                        "WHERE profile = ?1 AND stamp = ?2 ORDER BY seq", "tt", profile, stamp);
}

gboolean
hs_road_row_put (HsStore *store, HsRoadRow *row, GError **error)
{
  g_autoptr (HsRoadRow) there = NULL;

  if (!hs_table_find (store, &road_table, (gpointer *) &there, error,
                      "WHERE from_place = ?1 AND to_place = ?2 AND profile = ?3", "ttt", row->from_place,
                      row->to_place, row->profile))
    return FALSE;
  hs_row_set (&row->id, there == NULL ? NULL : there->id);
  return hs_road_row_save (store, row, error);
}
