// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Parts counters: their terms, when they are open by the week and on days apart, and their bills. */

#include "hs-supplier-row.h"

#include "hs-table.h"

static const HsColumn supplier_columns[] = {
  HS_TEXT (HsSupplierRow, id),
  HS_TEXT (HsSupplierRow, name),
  HS_TEXT (HsSupplierRow, area_id),
  HS_TEXT (HsSupplierRow, phone),
  HS_TEXT (HsSupplierRow, account),
  HS_TEXT (HsSupplierRow, terms),
  HS_INT (HsSupplierRow, return_days),
  HS_INT_OR (HsSupplierRow, restock_basis_points, 0),
  HS_INT (HsSupplierRow, core_days),
  HS_INT_OR (HsSupplierRow, stop_seconds, 600),
  HS_TEXT (HsSupplierRow, note),
};

static const HsTable supplier_table = {
  HS_TABLE (HsSupplierRow, "supplier", "supplier", supplier_columns),
};

static const HsColumn hours_columns[] = {
  HS_TEXT (HsHoursRow, id),
  HS_TEXT (HsHoursRow, supplier_id),
  HS_INT (HsHoursRow, weekday),
  HS_INT (HsHoursRow, opens_minutes),
  HS_INT (HsHoursRow, shuts_minutes),
};

static const HsTable hours_table = {
  HS_TABLE (HsHoursRow, "supplier_hours", "opening", hours_columns),
};

static const HsColumn counter_day_columns[] = {
  HS_TEXT (HsCounterDayRow, id),
  HS_TEXT (HsCounterDayRow, supplier_id),
  HS_DATE (HsCounterDayRow, on_date),
  HS_INT (HsCounterDayRow, opens_minutes),
  HS_INT (HsCounterDayRow, shuts_minutes),
  HS_TEXT (HsCounterDayRow, words),
};

static const HsTable counter_day_table = {
  HS_TABLE (HsCounterDayRow, "counter_day", "day apart", counter_day_columns),
};

static const HsColumn bill_columns[] = {
  HS_TEXT (HsSupplierBillRow, id),
  HS_TEXT (HsSupplierBillRow, supplier_id),
  HS_TEXT (HsSupplierBillRow, ref),
  HS_DATE (HsSupplierBillRow, on_date),
  HS_INT (HsSupplierBillRow, cents),
  HS_DATE (HsSupplierBillRow, due_on),
  HS_DATE (HsSupplierBillRow, paid_on),
};

static const HsTable bill_table = {
  HS_TABLE (HsSupplierBillRow, "supplier_bill", "bill", bill_columns),
};

HS_DEFINE_ROW (HsSupplierRow, hs_supplier_row, supplier_table)
HS_DEFINE_ROW (HsHoursRow, hs_hours_row, hours_table)
HS_DEFINE_ROW (HsCounterDayRow, hs_counter_day_row, counter_day_table)
HS_DEFINE_ROW (HsSupplierBillRow, hs_supplier_bill_row, bill_table)

gboolean
hs_supplier_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &supplier_table, (GDestroyNotify) hs_supplier_row_free, ret_rows, error,
                        "ORDER BY seq", "");
}

gboolean
hs_supplier_row_find (HsStore *store, const char *name, HsSupplierRow **ret_row, GError **error)
{
  return hs_table_need (store, &supplier_table, (gpointer *) ret_row, error, name,
                        "WHERE name = ?1", "t", name);
}

gboolean
hs_hours_row_list_of (HsStore *store, const char *supplier_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &hours_table, (GDestroyNotify) hs_hours_row_free, ret_rows, error,
                        "WHERE ?1 IS NULL OR supplier_id = ?1 ORDER BY supplier_id, weekday, opens_minutes",
                        "t", supplier_id);
}

gboolean
hs_counter_day_row_list_on (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &counter_day_table, (GDestroyNotify) hs_counter_day_row_free, ret_rows, error,
                        "WHERE on_date = ?1 ORDER BY supplier_id, opens_minutes", "d", day);
}

gboolean
hs_counter_day_row_list_from (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &counter_day_table, (GDestroyNotify) hs_counter_day_row_free, ret_rows, error,
                        "WHERE on_date >= ?1 ORDER BY on_date, supplier_id, opens_minutes", "d", day);
}

gboolean
hs_supplier_bill_row_list_of (HsStore *store, const char *supplier_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &bill_table, (GDestroyNotify) hs_supplier_bill_row_free, ret_rows, error,
                        "WHERE supplier_id = ?1 ORDER BY on_date, seq", "t", supplier_id);
}
