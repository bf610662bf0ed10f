// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Core deposits with the old units they wait for, and parts that go back to a counter. */

#include "hs-core-row.h"

#include "hs-table.h"

static const HsColumn core_columns[] = {
  HS_TEXT (HsCoreRow, id),
  HS_TEXT (HsCoreRow, supplier_id),
  HS_TEXT (HsCoreRow, part_id),
  HS_TEXT (HsCoreRow, job_id),
  HS_INT (HsCoreRow, deposit_cents),
  HS_DATE (HsCoreRow, paid_on),
  HS_DATE (HsCoreRow, due_on),
  HS_TEXT_OR (HsCoreRow, where_now, "on_the_vehicle"),
  HS_DATE (HsCoreRow, handed_in_on),
  HS_DATE (HsCoreRow, credited_on),
  HS_TEXT (HsCoreRow, credit_ref),
  HS_INT_OR (HsCoreRow, charged_cents, 0),
};

static const HsTable core_table = {
  HS_TABLE (HsCoreRow, "core", "core", core_columns),
};

static const HsColumn return_columns[] = {
  HS_TEXT (HsReturnRow, id),
  HS_TEXT (HsReturnRow, supplier_id),
  HS_TEXT (HsReturnRow, part_id),
  HS_TEXT (HsReturnRow, job_id),
  HS_INT_OR (HsReturnRow, quantity_milli, 1000),
  HS_INT (HsReturnRow, amount_cents),
  HS_DATE (HsReturnRow, bought_on),
  HS_DATE (HsReturnRow, last_day),
  HS_DATE (HsReturnRow, handed_in_on),
  HS_DATE (HsReturnRow, credited_on),
  HS_TEXT (HsReturnRow, credit_ref),
};

static const HsTable return_table = {
  HS_TABLE (HsReturnRow, "return_part", "return", return_columns),
};

HS_DEFINE_ROW (HsCoreRow, hs_core_row, core_table)
HS_DEFINE_ROW (HsReturnRow, hs_return_row, return_table)

gboolean
hs_core_row_list (HsStore *store, gboolean open_only, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &core_table, (GDestroyNotify) hs_core_row_free, ret_rows, error,
                        "WHERE ?1 = 0 OR where_now NOT IN ('credited', 'customer_kept_it', 'lost')"
                        " ORDER BY due_on NULLS LAST, seq", "i", (gint64) open_only);
}

gboolean
hs_return_row_list (HsStore *store, gboolean open_only, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &return_table, (GDestroyNotify) hs_return_row_free, ret_rows, error,
                        "WHERE ?1 = 0 OR handed_in_on IS NULL ORDER BY last_day NULLS LAST, seq",
                        "i", (gint64) open_only);
}
