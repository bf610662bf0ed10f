// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was recommended and what the customer chose, and how far the customer lets the job go. */

#include "hs-advice-row.h"

#include "hs-table.h"

static const HsColumn advice_columns[] = {
  HS_TEXT (HsAdviceRow, id),
  HS_TEXT (HsAdviceRow, job_id),
  HS_TEXT (HsAdviceRow, finding_id),
  HS_TEXT (HsAdviceRow, option_group),
  HS_INT (HsAdviceRow, rank),
  HS_TEXT (HsAdviceRow, wording),
  HS_INT (HsAdviceRow, price_cents),
  HS_TEXT_OR (HsAdviceRow, choice, "open"),
  HS_TEXT (HsAdviceRow, risk_told),
  HS_TEXT (HsAdviceRow, decided_by),
  HS_INT (HsAdviceRow, decided_at),
  HS_TEXT (HsAdviceRow, means),
  HS_DATE (HsAdviceRow, chase_on),
  HS_BYTES (HsAdviceRow, signature),
};

static const HsTable advice_table = {
  HS_TABLE (HsAdviceRow, "advice", "recommendation", advice_columns),
};

static const HsColumn advice_line_columns[] = {
  HS_TEXT (HsAdviceLineRow, id),
  HS_TEXT (HsAdviceLineRow, advice_id),
  HS_TEXT (HsAdviceLineRow, kind),
  HS_TEXT (HsAdviceLineRow, what),
  HS_INT_OR (HsAdviceLineRow, quantity_milli, 1000),
  HS_INT_OR (HsAdviceLineRow, cost_cents, 0),
  HS_INT_OR (HsAdviceLineRow, price_cents, 0),
  HS_INT_OR (HsAdviceLineRow, tax_cents, 0),
  HS_TEXT (HsAdviceLineRow, part_id),
};

static const HsTable advice_line_table = {
  HS_TABLE (HsAdviceLineRow, "advice_line", "line of an option", advice_line_columns),
};

static const HsColumn go_ahead_columns[] = {
  HS_TEXT (HsGoAheadRow, id),
  HS_TEXT (HsGoAheadRow, job_id),
  HS_INT (HsGoAheadRow, ceiling_cents),
  HS_TEXT (HsGoAheadRow, by_whom),
  HS_INT (HsGoAheadRow, at),
  HS_TEXT (HsGoAheadRow, means),
  HS_BYTES (HsGoAheadRow, signature),
};

static const HsTable go_ahead_table = {
  HS_TABLE (HsGoAheadRow, "go_ahead", "go-ahead", go_ahead_columns),
};

HS_DEFINE_ROW (HsAdviceRow, hs_advice_row, advice_table)
HS_DEFINE_ROW (HsAdviceLineRow, hs_advice_line_row, advice_line_table)
HS_DEFINE_ROW (HsGoAheadRow, hs_go_ahead_row, go_ahead_table)

gboolean
hs_advice_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &advice_table, (GDestroyNotify) hs_advice_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY option_group, rank, seq", "t", job_id);
}

gboolean
hs_advice_line_row_list_of (HsStore *store, const char *advice_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &advice_line_table, (GDestroyNotify) hs_advice_line_row_free, ret_rows, error,
                        "WHERE advice_id = ?1 ORDER BY seq", "t", advice_id);
}

gboolean
hs_advice_line_row_sum (HsStore *store, const char *advice_id, guint *ret_n_lines, gint64 *ret_cents, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "SELECT count (*), ifnull (sum (price_cents + tax_cents), 0) FROM advice_line"
                                        " WHERE advice_id = ?1", "t", advice_id);
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  *ret_n_lines = (guint) hs_sql_int (query, 0);
  *ret_cents = hs_sql_int (query, 1);
  return TRUE;
}

gboolean
hs_go_ahead_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &go_ahead_table, (GDestroyNotify) hs_go_ahead_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}
