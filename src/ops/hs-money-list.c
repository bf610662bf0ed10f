// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Invoices as plain lines, with what was paid on them. A credit changes the line of the invoice that it puts right and
 * has none of its own. Reads only. */

#include "hs-board.h"

#include "hs-customer-row.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-vehicle-row.h"

void
hs_money_row_free (HsMoneyRow *row)
{
  if (row == NULL)
    return;
  g_free (row->job_id);
  g_free (row->number);
  g_free (row->customer);
  g_free (row->plate);
  g_free (row);
}

static gboolean
fill_job (HsStore *store, HsMoneyRow *row, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (!hs_job_row_load (store, row->job_id, &job, error)
      || !hs_customer_row_load (store, job->customer_id, &customer, error)
      || (job->vehicle_id != NULL && !hs_vehicle_row_load (store, job->vehicle_id, &vehicle, error)))
    return FALSE;
  row->customer = g_strdup (customer->name);
  row->plate = vehicle != NULL ? g_strdup (vehicle->plate) : NULL;
  return TRUE;
}

static gboolean
add_row (HsStore *store, GPtrArray *rows, const HsInvoiceRow *invoice, GError **error)
{
  HsMoneyRow *row = g_new0 (HsMoneyRow, 1);
  HsJobSums sums;

  g_ptr_array_add (rows, row);
  row->job_id = g_strdup (invoice->job_id);
  row->number = g_strdup (invoice->number);
  row->issued_on = invoice->issued_on;
  row->due_on = invoice->due_on;
  if (!hs_job_sums_load (store, invoice->job_id, &sums, error))
    return FALSE;
  row->total_cents = sums.invoiced_cents;
  row->paid_cents = sums.paid_cents;
  return fill_job (store, row, error);
}

static int
compare_rows (gconstpointer a, gconstpointer b)
{
  const HsMoneyRow *left = *(HsMoneyRow *const *) a;
  const HsMoneyRow *right = *(HsMoneyRow *const *) b;

  if (left->issued_on != right->issued_on)
    return left->issued_on > right->issued_on ? -1 : 1;
  return g_strcmp0 (right->number, left->number);
}

GPtrArray *
hs_money_list (HsBook *book, gboolean unpaid_only, guint limit, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) invoices = NULL;
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_money_row_free);

  if (!(unpaid_only ? hs_invoice_row_list_unpaid (store, limit, &invoices, error)
                    : hs_invoice_row_list (store, limit, &invoices, error)))
    return NULL;
  for (guint i = 0; i < invoices->len; i++)
    {
      const HsInvoiceRow *invoice = g_ptr_array_index (invoices, i);

      if (invoice->credits_id == NULL && !add_row (store, rows, invoice, error))
        return NULL;
    }
  g_ptr_array_sort (rows, compare_rows);
  return g_steal_pointer (&rows);
}
