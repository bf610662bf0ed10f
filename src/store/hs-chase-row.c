// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* People to call, and trips for the mileage log. */

#include "hs-chase-row.h"

#include "hs-table.h"

static const HsColumn chase_columns[] = {
  HS_TEXT (HsChaseRow, id),
  HS_TEXT (HsChaseRow, kind),
  HS_TEXT (HsChaseRow, vehicle_id),
  HS_TEXT (HsChaseRow, customer_id),
  HS_TEXT (HsChaseRow, job_id),
  HS_DATE (HsChaseRow, due_on),
  HS_DATE (HsChaseRow, done_on),
  HS_TEXT (HsChaseRow, outcome),
};

static const HsTable chase_table = {
  HS_TABLE (HsChaseRow, "chase", "call to make", chase_columns),
};

static const HsColumn trip_columns[] = {
  HS_TEXT (HsTripRow, id),
  HS_TEXT (HsTripRow, van_id),
  HS_DATE (HsTripRow, on_date),
  HS_TEXT (HsTripRow, from_area_id),
  HS_TEXT (HsTripRow, to_area_id),
  HS_INT (HsTripRow, odometer_start),
  HS_INT (HsTripRow, odometer_end),
  HS_INT (HsTripRow, millimiles),
  HS_INT (HsTripRow, seconds),
  HS_TEXT (HsTripRow, purpose),
  HS_TEXT (HsTripRow, job_id),
  HS_INT (HsTripRow, left_at),
};

static const HsTable trip_table = {
  HS_TABLE (HsTripRow, "trip", "trip", trip_columns),
};

HS_DEFINE_ROW (HsChaseRow, hs_chase_row, chase_table)
HS_DEFINE_ROW (HsTripRow, hs_trip_row, trip_table)

gboolean
hs_chase_row_list_due (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &chase_table, (GDestroyNotify) hs_chase_row_free, ret_rows, error,
                        "WHERE done_on IS NULL AND (?1 IS NULL OR due_on <= ?1) ORDER BY due_on, seq", "d", day);
}

gboolean
hs_chase_row_find_open (HsStore *store, const char *job_id, const char *kind, HsDate day, HsChaseRow **ret_row,
                        GError **error)
{
  return hs_table_find (store, &chase_table, (gpointer *) ret_row, error,
                        "WHERE done_on IS NULL AND job_id IS ?1 AND kind = ?2 AND due_on = ?3 ORDER BY seq LIMIT 1",
                        "ttd", job_id, kind, day);
}

gboolean
hs_trip_row_list (HsStore *store, HsDate from, HsDate to, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &trip_table, (GDestroyNotify) hs_trip_row_free, ret_rows, error,
                        "WHERE on_date BETWEEN ?1 AND ?2 ORDER BY on_date, seq", "dd", from, to);
}

gboolean
hs_trip_row_list_timed (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &trip_table, (GDestroyNotify) hs_trip_row_free, ret_rows, error,
                        "WHERE from_area_id IS NOT NULL AND to_area_id IS NOT NULL AND seconds IS NOT NULL"
                        " ORDER BY on_date, seq", "");
}
