// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Squaring a job up and being paid. Squaring freezes the invoice as a text with its SHA-256, so that what was handed
 * over can be shown word for word. Refuses a job that was not priced or only in part, a payment
 * without an invoice, and more money than is owed.
 */

#include "hs-bill-private.h"
#include "hs-customer-row.h"
#include "hs-draft-row.h"
#include "hs-job-life.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-photo-file.h"
#include "hs-price.h"
#include "hs-settings-op.h"
#include "hs-visit-row.h"

static gboolean
add_invoice (HsBook *book, const HsJobRow *job, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsInvoiceRow) invoice = hs_invoice_row_new ();
  g_autoptr (HsCustomerRow) customer = NULL;
  HsJobSums sums;

  if (!hs_customer_row_load (store, job->customer_id, &customer, error)
      || !hs_job_sums_load (store, job->id, &sums, error))
    return FALSE;
  hs_row_set (&invoice->number, job->number);
  hs_row_set (&invoice->job_id, job->id);
  invoice->issued_on = hs_ops_today (book, now);
  invoice->due_on = hs_date_add_days (invoice->issued_on, (int) customer->terms_days);
  invoice->net_cents = sums.price_cents;
  invoice->tax_cents = sums.tax_cents;
  invoice->total_cents = sums.price_cents + sums.tax_cents;
  invoice->frozen = hs_bill_freeze (book, job, invoice->issued_on, invoice->due_on, error);
  if (invoice->frozen == NULL)
    return FALSE;
  invoice->sha256 = g_compute_checksum_for_string (G_CHECKSUM_SHA256, invoice->frozen, -1);
  return hs_invoice_row_save (store, invoice, error);
}

/* The paper work of a job belongs to its last visit. */
static gboolean
add_paper (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) visits = NULL;
  HsVisitRow *visit;
  gint64 minutes;

  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return FALSE;
  if (visits->len == 0)
    return TRUE;
  visit = g_ptr_array_index (visits, visits->len - 1);
  if (visit->paper_seconds != HS_INT_NONE)
    return TRUE;
  if (!hs_settings_get_int (book, "paper_minutes", &minutes, error))
    return FALSE;
  visit->paper_seconds = 60 * minutes;
  return hs_visit_row_save (store, visit, error);
}

/* A gift of nothing is no price. */
static gboolean
is_empty (GPtrArray *lines)
{
  for (guint i = 0; i < lines->len; i++)
    if (!g_str_equal (((const HsLineRow *) g_ptr_array_index (lines, i))->kind, "goodwill"))
      return FALSE;
  return TRUE;
}

/* What was picked is on the bill before the job is priced; the work by the clock is not. What was called off without a
 * word on how would be told from a repair by nothing. */
gboolean
hs_bill_check_priced (HsBook *book, const HsJobRow *job, GPtrArray *lines, const HsBillClock *clock, GError **error)
{
  g_autofree char *more = hs_money_format_grouped (clock->more_cents, hs_book_get_currency (book));
  const HsLineRow *unpriced;

  if (clock->unclocked_at != HS_INSTANT_NONE)
    return hs_bill_refuse_unclocked (book, job->number, clock->unclocked_at, clock->unclocked_left_at, error);
  if (is_empty (lines))
    return hs_ops_refuse (error, "%s has no price yet; price it first, even if it is on the house.", job->number);
  if (hs_job_row_is_called_off (job) && job->called_off_how == NULL)
    return hs_ops_refuse (error, "%s does not say how it was called off. Take it up again and call it off as canceled, "
                                 "no-show or gone on arrival.", job->number);
  if (!hs_bill_find_unpriced (hs_book_get_store (book), lines, &unpriced, error))
    return FALSE;
  if (unpriced != NULL)
    return hs_ops_refuse (error, "“%s” on the bill of %s has no price yet. Write down what it cost, 0 where nothing is "
                                 "charged for it.", unpriced->what, job->number);
  return clock->more_cents == 0
         || hs_ops_refuse (error, "%s is not priced to the end: by the clock %s more is not on the bill. Price it "
                                  "first, even if it is on the house.", job->number, more);
}

/* (nullable): why nothing was tested, of a job of which only the fee is charged; it stands on the invoice. */
static char *
dup_called_off (const HsJobRow *job)
{
  if (!g_str_equal (job->stage, hs_stage_id (HS_STAGE_CALLED_OFF)))
    return NULL;
  return g_strdup_printf ("called off: %s", job->called_off_why);
}

/* The rules of the stages come first, then the price; the clock is read before it stops. */
static gboolean
move_priced (HsBook *book, const HsJobRow *job, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;
  g_autofree char *why = dup_called_off (job);
  HsBillClock clock;

  return hs_line_row_list_of (hs_book_get_store (book), job->id, &lines, error)
         && hs_bill_clock (book, job, lines, now, &clock, error)
         && hs_job_move_stage_raw (book, job->id, HS_STAGE_SQUARED, why, now, error)
         && hs_bill_check_priced (book, job, lines, &clock, error);
}

/* One that is squared up already is refused by the rules of the stages. */
static gboolean
tax_open_job (HsBook *book, const HsJobRow *job, GError **error)
{
  if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return TRUE;
  return (!hs_job_row_is_called_off (job) || hs_call_off_drop_empty (hs_book_get_store (book), job->id, error))
         && hs_bill_tax_job (book, job->id, error);
}

static gboolean
square_job (HsBook *book, const HsJobRow *job, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) squared = NULL;
  guint n_files;

  /* What was put in after the bill was taxed last is taxed as well; the lines are frozen by the move. */
  if (!tax_open_job (book, job, error) || !move_priced (book, job, now, error)
      || !hs_job_row_load (store, job->id, &squared, error))
    return FALSE;
  /* With the job's steps go the photos that only they could bring back. */
  return add_invoice (book, squared, now, error) && add_paper (book, job->id, error)
         && hs_draft_row_settle (store, job->id, NULL, NULL, error) && hs_photo_file_sweep (store, &n_files, error);
}

gboolean
hs_job_square (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, hs_job_row_load (store, job_id, &job, error) && square_job (book, job, now, error),
                       error);
}

static gboolean
fill_fee (HsBook *book, HsPaymentRow *payment, GError **error)
{
  gint64 rate_per_million;
  gint64 fixed_cents;

  payment->fee_cents = 0;
  if (!g_str_equal (payment->how, "card"))
    return TRUE;
  return hs_settings_get_scaled (book, "card_fee_percent", 4, &rate_per_million, error)
         && hs_settings_get_int (book, "card_fee_cents", &fixed_cents, error)
         && hs_price_card_fee (payment->cents, rate_per_million, fixed_cents, &payment->fee_cents, error);
}

static gboolean
check_payment (HsBook *book, const HsJobRow *job, gint64 cents, GError **error)
{
  const char *currency = hs_book_get_currency (book);
  g_autofree char *owed = hs_money_format (job->owed_cents, currency);

  if (cents <= 0)
    return hs_ops_refuse (error, "A payment is more than nothing.");
  if (!g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return hs_ops_refuse (error, "%s has no invoice yet; square it up first.", job->number);
  if (cents > job->owed_cents)
    return hs_ops_refuse (error, "%s owes %s, not more.", job->number, owed);
  return TRUE;
}

static gboolean
pay (HsBook *book, const char *job_id, gint64 cents, const char *how_id, HsInstant at, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsPaymentRow) payment = hs_payment_row_new ();
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error) || !check_payment (book, job, cents, error))
    return FALSE;
  hs_row_set (&payment->job_id, job_id);
  hs_row_set (&payment->how, how_id);
  payment->cents = cents;
  payment->at = at;
  payment->taken = TRUE;
  return fill_fee (book, payment, error) && hs_payment_row_save (store, payment, error);
}

/* What is owed is looked up inside the transaction: the same money may come in at another program. */
gboolean
hs_payment_add (HsBook *book, const char *job_id, gint64 cents, const char *how, HsInstant at, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *how_id;

  if (!hs_ops_word (HS_WORDS_PAID_HOW, how, "cash", &how_id, error) || !hs_store_begin (store, at, error))
    return FALSE;
  return hs_store_end (store, pay (book, job_id, cents, how_id, at, error), error);
}
