// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Readings, and what the book has to know of their checks. The file refuses another unit than the check's, and a value
 * that is over range. */

#include "hs-reading-row.h"

#include "hs-table.h"

static const HsColumn check_kind_columns[] = {
  HS_TEXT (HsCheckKindRow, id),
  HS_TEXT (HsCheckKindRow, name),
  HS_TEXT (HsCheckKindRow, unit),
  HS_INT_OR (HsCheckKindRow, decimals, 0),
};

static const HsTable check_kind_table = {
  HS_TABLE (HsCheckKindRow, "check_kind", "check", check_kind_columns),
};

static const HsColumn check_own_columns[] = {
  HS_TEXT (HsCheckOwnRow, id),
  HS_TEXT (HsCheckOwnRow, vehicle_id),
  HS_TEXT (HsCheckOwnRow, check_id),
  HS_TEXT_OR (HsCheckOwnRow, whose, "owner"),
  HS_INT (HsCheckOwnRow, low),
  HS_INT (HsCheckOwnRow, high),
  HS_TEXT (HsCheckOwnRow, source),
};

static const HsTable check_own_table = {
  HS_TABLE (HsCheckOwnRow, "check_own", "own limit", check_own_columns),
};

static const HsColumn reading_columns[] = {
  HS_TEXT (HsReadingRow, id),
  HS_TEXT (HsReadingRow, job_id),
  HS_TEXT (HsReadingRow, finding_id),
  HS_TEXT (HsReadingRow, check_id),
  HS_TEXT (HsReadingRow, unit),
  HS_INT_OR (HsReadingRow, decimals, 0),
  HS_TEXT (HsReadingRow, place),
  HS_INT (HsReadingRow, value),
  HS_INT (HsReadingRow, of_value),
  HS_FLAG (HsReadingRow, over_range),
  HS_TEXT (HsReadingRow, answer),
  HS_TEXT (HsReadingRow, not_measured_why),
  HS_TEXT (HsReadingRow, phase),
  HS_TEXT (HsReadingRow, conditions),
  HS_INT (HsReadingRow, taken_at),
};

static const HsTable reading_table = {
  HS_TABLE (HsReadingRow, "reading", "reading", reading_columns),
};

HS_DEFINE_ROW (HsCheckKindRow, hs_check_kind_row, check_kind_table)
HS_DEFINE_ROW (HsCheckOwnRow, hs_check_own_row, check_own_table)
HS_DEFINE_ROW (HsReadingRow, hs_reading_row, reading_table)

gboolean
hs_check_kind_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &check_kind_table, (GDestroyNotify) hs_check_kind_row_free, ret_rows, error,
                        "ORDER BY seq", "");
}

gboolean
hs_check_own_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &check_own_table, (GDestroyNotify) hs_check_own_row_free, ret_rows, error,
                        "WHERE vehicle_id = ?1 ORDER BY seq", "t", vehicle_id);
}

gboolean
hs_reading_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &reading_table, (GDestroyNotify) hs_reading_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_reading_row_list_latest (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &reading_table, (GDestroyNotify) hs_reading_row_free, ret_rows, error,
                        "WHERE seq IN (SELECT max (r.seq) FROM reading r JOIN job j ON j.id = r.job_id"
                        " WHERE j.vehicle_id = ?1 GROUP BY r.check_id, r.phase) ORDER BY seq", "t", vehicle_id);
}
