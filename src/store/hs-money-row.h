// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsLineRow:
 * @kind: `labor`, `part`, `call_out`, `core_deposit`, `discount`, `sundry`, `goodwill`
 * @quantity_milli: thousandths
 * @cost_cents: of the whole line
 * @price_cents: of the whole line, without tax
 * @tax_cents: of the whole line
 * @advice_line_id: (nullable): the line of a picked option that it came of
 */
typedef struct
{
  char *id;
  char *job_id;
  char *kind;
  char *what;
  gint64 quantity_milli;
  gint64 cost_cents;
  gint64 price_cents;
  gint64 tax_cents;
  char *installed_part_id;
  char *advice_line_id;
} HsLineRow;

HS_DECLARE_ROW (HsLineRow, hs_line_row)
gboolean hs_line_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/**
 * HsInvoiceRow:
 * @credits_id: (nullable): of a credit, the invoice that it puts right
 * @frozen: the text that was handed over
 * @sha256: of @frozen
 *
 * Added once, never changed or removed. A job has one invoice; a later fix is a credit.
 */
typedef struct
{
  char *id;
  char *number;
  char *job_id;
  char *credits_id;
  HsDate issued_on;
  HsDate due_on;
  gint64 net_cents;
  gint64 tax_cents;
  gint64 total_cents;
  char *frozen;
  char *sha256;
} HsInvoiceRow;

HS_DECLARE_ROW (HsInvoiceRow, hs_invoice_row)

/* hs_invoice_row_list_of: of a job: the invoice, then its credits. */
gboolean hs_invoice_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/* hs_invoice_row_list_unpaid: invoices of jobs that owe something, longest due first. */
gboolean hs_invoice_row_list_unpaid (HsStore *store, guint limit, GPtrArray **ret_rows, GError **error);

/* hs_invoice_row_list: newest first. */
gboolean hs_invoice_row_list (HsStore *store, guint limit, GPtrArray **ret_rows, GError **error);

/**
 * HsPaymentRow:
 * @how: `cash`, `card`, `transfer`, `check`, `account`
 * @taken: %FALSE: still to be taken (a card without signal); counts as unpaid
 * @fee_cents: what the card costs
 */
typedef struct
{
  char *id;
  char *job_id;
  HsInstant at;
  gint64 cents;
  char *how;
  gboolean taken;
  gint64 fee_cents;
  char *ref;
} HsPaymentRow;

HS_DECLARE_ROW (HsPaymentRow, hs_payment_row)
gboolean hs_payment_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/**
 * HsJobSums:
 * @price_cents: of the lines without tax
 * @tax_cents: of the lines
 * @cost_cents: of the lines
 * @ceiling_cents: of the latest go-ahead, 0 if there is none
 * @invoiced_cents: invoice and credits with tax
 * @paid_cents: taken payments
 */
typedef struct
{
  gint64 price_cents;
  gint64 tax_cents;
  gint64 cost_cents;
  gint64 ceiling_cents;
  gint64 invoiced_cents;
  gint64 paid_cents;
} HsJobSums;

gboolean hs_job_sums_load (HsStore *store, const char *job_id, HsJobSums *ret_sums, GError **error);

G_END_DECLS
