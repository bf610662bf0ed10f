// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The parts that jobs need. */

#include "hs-need-row.h"

#include "hs-table.h"

static const HsColumn need_columns[] = {
  HS_TEXT (HsNeedRow, id),
  HS_TEXT (HsNeedRow, job_id),
  HS_TEXT (HsNeedRow, part_id),
  HS_INT_OR (HsNeedRow, quantity_milli, 1000),
  HS_INT_OR (HsNeedRow, sure_percent, 100),
  HS_TEXT (HsNeedRow, supplier_id),
  HS_INT (HsNeedRow, quoted_cents),
  HS_TEXT_OR (HsNeedRow, state, "wanted"),
  HS_DATE (HsNeedRow, need_by),
  HS_TEXT (HsNeedRow, counter_note),
  HS_TEXT (HsNeedRow, advice_line_id),
};

static const HsTable need_table = {
  HS_TABLE (HsNeedRow, "need", "need", need_columns),
};

HS_DEFINE_ROW (HsNeedRow, hs_need_row, need_table)

gboolean
hs_need_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &need_table, (GDestroyNotify) hs_need_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_need_row_list_day (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &need_table, (GDestroyNotify) hs_need_row_free, ret_rows, error,
                        "JOIN job j ON j.id = need.job_id WHERE j.day = ?1"
                        " AND j.stage NOT IN ('called_off', 'turned_away', 'squared') ORDER BY need.seq", "d", day);
}
