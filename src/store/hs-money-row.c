// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Lines, invoices and payments of jobs. The file refuses to touch what a squared job charged, and any invoice ever. */

#include "hs-money-row.h"

#include "hs-outbox-row.h"
#include "hs-table.h"

static const HsColumn line_columns[] = {
  HS_TEXT (HsLineRow, id),
  HS_TEXT (HsLineRow, job_id),
  HS_TEXT (HsLineRow, kind),
  HS_TEXT (HsLineRow, what),
  HS_INT_OR (HsLineRow, quantity_milli, 1000),
  HS_INT_OR (HsLineRow, cost_cents, 0),
  HS_INT (HsLineRow, price_cents),
  HS_INT_OR (HsLineRow, tax_cents, 0),
  HS_TEXT (HsLineRow, installed_part_id),
  HS_TEXT (HsLineRow, advice_line_id),
};

static const HsTable line_table = {
  HS_TABLE (HsLineRow, "line", "line", line_columns),
};

static const HsColumn invoice_columns[] = {
  HS_TEXT (HsInvoiceRow, id),
  HS_TEXT (HsInvoiceRow, number),
  HS_TEXT (HsInvoiceRow, job_id),
  HS_TEXT (HsInvoiceRow, credits_id),
  HS_DATE (HsInvoiceRow, issued_on),
  HS_DATE (HsInvoiceRow, due_on),
  HS_INT (HsInvoiceRow, net_cents),
  HS_INT (HsInvoiceRow, tax_cents),
  HS_INT (HsInvoiceRow, total_cents),
  HS_TEXT (HsInvoiceRow, frozen),
  HS_TEXT (HsInvoiceRow, sha256),
};

static const HsColumn payment_columns[] = {
  HS_TEXT (HsPaymentRow, id),
  HS_TEXT (HsPaymentRow, job_id),
  HS_INT (HsPaymentRow, at),
  HS_INT (HsPaymentRow, cents),
  HS_TEXT (HsPaymentRow, how),
  HS_FLAG_OR (HsPaymentRow, taken, TRUE),
  HS_INT_OR (HsPaymentRow, fee_cents, 0),
  HS_TEXT (HsPaymentRow, ref),
};

/* What is invoiced and not paid stands on the job, so that the unpaid ones are found without reading all. */
static gboolean
refresh_owed (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  query = hs_sql_new (store, error,
                      "UPDATE job SET owed_cents ="
                      " (SELECT ifnull (sum (total_cents), 0) FROM invoice WHERE job_id = ?1)"
                      " - CASE WHEN EXISTS (SELECT 1 FROM invoice WHERE job_id = ?1)"
                      "   THEN (SELECT ifnull (sum (cents), 0) FROM payment WHERE job_id = ?1 AND taken = 1)"
                      "   ELSE 0 END"
                      " WHERE id = ?1", "t", job_id);
  return hs_sql_run (query, error);
}

/* What comes in after a job was squared up is posted; before that its next stage tells of it. */
static gboolean
post_if_squared (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "SELECT stage = 'squared' FROM job WHERE id = ?1", "t", job_id);
  gint64 squared = 0;

  return hs_sql_one_int (query, 0, &squared, error)
         && (squared != 1 || store->bulk || hs_outbox_row_queue (store, job_id, error));
}

static gboolean
money_changed (HsStore *store, const char *job_id, GError **error)
{
  return refresh_owed (store, job_id, error) && post_if_squared (store, job_id, error);
}

static gboolean
invoice_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  return money_changed (store, ((const HsInvoiceRow *) (row != NULL ? row : old))->job_id, error);
}

static gboolean
payment_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  const HsPaymentRow *before = old;
  const HsPaymentRow *payment = row;
  gboolean moved = before != NULL && (payment == NULL || !g_str_equal (before->job_id, payment->job_id));

  return (!moved || money_changed (store, before->job_id, error))
         && (payment == NULL || money_changed (store, payment->job_id, error));
}

static const HsTable invoice_table = {
  HS_TABLE (HsInvoiceRow, "invoice", "invoice", invoice_columns),
  .after_change = invoice_after_change,
};

static const HsTable payment_table = {
  HS_TABLE (HsPaymentRow, "payment", "payment", payment_columns),
  .after_change = payment_after_change,
};

HS_DEFINE_ROW (HsLineRow, hs_line_row, line_table)
HS_DEFINE_ROW (HsInvoiceRow, hs_invoice_row, invoice_table)
HS_DEFINE_ROW (HsPaymentRow, hs_payment_row, payment_table)

gboolean
hs_line_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &line_table, (GDestroyNotify) hs_line_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_invoice_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &invoice_table, (GDestroyNotify) hs_invoice_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

/* The index of what is owed answers only to `<> 0`, and the plus keeps the planner from walking every invoice by its
 * due day. */
gboolean
hs_invoice_row_list_unpaid (HsStore *store, guint limit, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &invoice_table, (GDestroyNotify) hs_invoice_row_free, ret_rows, error,
                        "WHERE job_id IN (SELECT id FROM job WHERE owed_cents <> 0 AND owed_cents > 0)"
                        " AND credits_id IS NULL ORDER BY +due_on, seq LIMIT ?1", "i", (gint64) limit);
}

gboolean
hs_invoice_row_list (HsStore *store, guint limit, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &invoice_table, (GDestroyNotify) hs_invoice_row_free, ret_rows, error,
                        "ORDER BY seq DESC LIMIT ?1", "i", (gint64) limit);
}

gboolean
hs_payment_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &payment_table, (GDestroyNotify) hs_payment_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_job_sums_load (HsStore *store, const char *job_id, HsJobSums *ret_sums, GError **error)
{
  g_autoptr (HsSql) query = NULL;
  gboolean row;

  query = hs_sql_new (store, error,
                      "SELECT ifnull (sum (price_cents), 0), ifnull (sum (tax_cents), 0),"
                      " ifnull (sum (cost_cents), 0),"
                      " ifnull ((SELECT ceiling_cents FROM go_ahead WHERE job_id = ?1 ORDER BY seq DESC LIMIT 1), 0),"
                      " ifnull ((SELECT sum (total_cents) FROM invoice WHERE job_id = ?1), 0),"
                      " ifnull ((SELECT sum (cents) FROM payment WHERE job_id = ?1 AND taken = 1), 0)"
                      " FROM line WHERE job_id = ?1", "t", job_id);
  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  ret_sums->price_cents = hs_sql_int (query, 0);
  ret_sums->tax_cents = hs_sql_int (query, 1);
  ret_sums->cost_cents = hs_sql_int (query, 2);
  ret_sums->ceiling_cents = hs_sql_int (query, 3);
  ret_sums->invoiced_cents = hs_sql_int (query, 4);
  ret_sums->paid_cents = hs_sql_int (query, 5);
  return TRUE;
}
