// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Pricing a job at the book's rates: labor from the visits beside the work that was agreed (hs-bill-clock.c), parts by
 * bands, the tax once per invoice and shared out to the lines. Goodwill stands as the full price and a matching minus.
 * Refuses to price a job that is squared up.
 */

#include "hs-bill-private.h"
#include "hs-job-life.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-price.h"
#include "hs-settings-op.h"

gboolean
hs_bill_banded (HsBook *book, gint64 cost_cents, gint64 *ret_price_cents, GError **error)
{
  g_autofree char *text = hs_settings_dup (book, "markup_bands", error);
  int decimals = hs_currency_decimals (hs_book_get_currency (book));
  g_autoptr (GArray) bands = text == NULL ? NULL : hs_price_bands_parse (text, (guint) decimals, error);

  return bands != NULL
         && hs_price_banded ((const HsPriceBand *) (gpointer) bands->data, bands->len, cost_cents, ret_price_cents,
                             error);
}

gboolean
hs_bill_labor (HsBook *book, gint64 minutes, gint64 *ret_cents, GError **error)
{
  HsLaborTerms terms = { .step_minutes = 15 };

  return hs_settings_get_int (book, "call_out_cents", &terms.call_out_cents, error)
         && hs_settings_get_int (book, "call_out_minutes", &terms.included_minutes, error)
         && hs_settings_get_int (book, "quarter_hour_cents", &terms.step_cents, error)
         && hs_price_labor (&terms, minutes, ret_cents, error);
}

gboolean
hs_bill_tax (HsBook *book, const gint64 *taxed_cents, gsize n_lines, gint64 *ret_line_tax_cents,
             gint64 *ret_total_cents, GError **error)
{
  gint64 rate_per_million;

  /* Percent with four decimals is parts per million. */
  return hs_settings_get_scaled (book, "tax_percent", 4, &rate_per_million, error)
         && hs_price_tax (rate_per_million, taxed_cents, n_lines, ret_line_tax_cents, ret_total_cents, error);
}

gboolean
hs_job_estimate (HsBook *book, gint64 minutes, const gint64 *costs, gsize n_costs, gint64 *ret_net_cents,
                 gint64 *ret_tax_cents, GError **error)
{
  g_autofree gint64 *prices = g_new0 (gint64, n_costs + 1);
  g_autofree gint64 *taxes = g_new0 (gint64, n_costs + 1);
  gint64 net_cents;
  gint64 tax_cents;

  for (gsize i = 0; i < n_costs; i++)
    if (!hs_bill_banded (book, costs[i], &prices[i], error))
      return FALSE;
  if (!hs_bill_tax (book, prices, n_costs, taxes, &tax_cents, error)
      || !hs_bill_labor (book, minutes, &prices[n_costs], error)
      || !hs_money_sum (prices, n_costs + 1, &net_cents, error))
    return FALSE;
  if (ret_net_cents != NULL)
    *ret_net_cents = net_cents;
  if (ret_tax_cents != NULL)
    *ret_tax_cents = tax_cents;
  return TRUE;
}

static gboolean
is_kind (const HsLineRow *line, const char *kind)
{
  return g_str_equal (line->kind, kind);
}

gboolean
hs_bill_is_gift (const HsLineRow *line)
{
  return line->advice_line_id == NULL && is_kind (line, "goodwill");
}

gboolean
hs_bill_is_given (GPtrArray *lines)
{
  for (guint i = 0; i < lines->len; i++)
    if (hs_bill_is_gift (g_ptr_array_index (lines, i)))
      return TRUE;
  return FALSE;
}

/* What was agreed is nothing that the clock says anew. */
static gboolean
is_own_line (const HsLineRow *line)
{
  return hs_bill_is_gift (line) || (line->advice_line_id == NULL && is_kind (line, "labor"));
}

/* Takes away what pricing writes itself; the rest was entered and stays. */
static gboolean
drop_own_lines (HsStore *store, GPtrArray *lines, GError **error)
{
  for (guint i = lines->len; i > 0; i--)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i - 1);

      if (!is_own_line (line))
        continue;
      if (!hs_line_row_delete (store, line->id, error))
        return FALSE;
      g_ptr_array_remove_index (lines, i - 1);
    }
  return TRUE;
}

static char *
say_labor (const HsBillOwn *own)
{
  /* On the house: how long it took nobody said. */
  if (own->unclocked_at != HS_INSTANT_NONE)
    return g_strdup ("Call-out and work on site");
  if (own->agreed && own->own_minutes == 0)
    return own->called_out ? g_strdup_printf ("%" G_GINT64_FORMAT " min on site, at the price that was agreed",
                                              own->minutes)
                           : g_strdup ("Call-out");
  if (own->agreed)
    return g_strdup_printf ("Call-out and %" G_GINT64_FORMAT " min on site before the work that was agreed",
                            own->own_minutes);
  return g_strdup_printf (own->called_out ? "%" G_GINT64_FORMAT " min on site"
                                          : "Call-out and %" G_GINT64_FORMAT " min on site", own->own_minutes);
}

/* @given: it is on the house, however long it took. */
static gboolean
add_labor (HsBook *book, const HsJobRow *job, gboolean given, HsInstant now, GPtrArray *lines, GError **error)
{
  g_autoptr (HsLineRow) line = hs_line_row_new ();
  HsBillOwn own;

  if (!hs_bill_own_work (book, job->id, lines, now, &own, error))
    return FALSE;
  if (own.unclocked_at != HS_INSTANT_NONE && !given)
    return hs_bill_refuse_unclocked (book, job->number, own.unclocked_at, own.unclocked_left_at, error);
  hs_row_set (&line->job_id, job->id);
  hs_row_set (&line->kind, "labor");
  line->what = say_labor (&own);
  line->price_cents = own.cents;
  g_ptr_array_add (lines, g_steal_pointer (&line));
  return TRUE;
}

/* What the customer said yes to keeps its price. */
static gboolean
price_parts (HsBook *book, GPtrArray *lines, GError **error)
{
  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *line = g_ptr_array_index (lines, i);

      if (is_kind (line, "part") && line->advice_line_id == NULL
          && !hs_bill_banded (book, line->cost_cents, &line->price_cents, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_bill_is_taxed (const char *kind)
{
  return g_str_equal (kind, "part");
}

/* What was given for nothing takes off what the lines before it come to, never more, and the tax that they have now;
 * an option's own goodwill is a price without tax. */
static gboolean
credit_tax (GPtrArray *lines, GError **error)
{
  HsJobSums before = { 0 };

  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *line = g_ptr_array_index (lines, i);

      if (hs_bill_is_gift (line))
        {
          gint64 given_cents = CLAMP (-line->price_cents, 0, MAX (before.price_cents, 0));
          gint64 tax_cents = 0;

          if (given_cents > 0
              && !hs_money_ratio (before.tax_cents, given_cents, before.price_cents, &tax_cents, error))
            return FALSE;
          line->price_cents = -given_cents;
          line->tax_cents = -tax_cents;
        }
      before.price_cents += line->price_cents;
      before.tax_cents += line->tax_cents;
    }
  return TRUE;
}

gboolean
hs_bill_tax_lines (HsBook *book, GPtrArray *lines, GError **error)
{
  g_autofree gint64 *taxed = g_new0 (gint64, lines->len);
  g_autofree gint64 *taxes = g_new0 (gint64, lines->len);

  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      taxed[i] = hs_bill_is_taxed (line->kind) ? line->price_cents : 0;
    }
  if (!hs_bill_tax (book, taxed, lines->len, taxes, NULL, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *line = g_ptr_array_index (lines, i);

      line->tax_cents = taxes[i];
    }
  return credit_tax (lines, error);
}

static void
add_goodwill (const char *job_id, const char *why, GPtrArray *lines)
{
  HsLineRow *line = hs_line_row_new ();

  hs_row_set (&line->job_id, job_id);
  hs_row_set (&line->kind, "goodwill");
  line->what = g_strdup_printf ("Goodwill: %s", why);
  line->price_cents = line->tax_cents = 0;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *other = g_ptr_array_index (lines, i);

      line->price_cents -= other->price_cents;
      line->tax_cents -= other->tax_cents;
    }
  g_ptr_array_add (lines, line);
}

static gboolean
save_lines (HsStore *store, GPtrArray *lines, GError **error)
{
  for (guint i = 0; i < lines->len; i++)
    if (!hs_line_row_save (store, g_ptr_array_index (lines, i), error))
      return FALSE;
  return TRUE;
}

gboolean
hs_bill_tax_job (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;

  return hs_line_row_list_of (store, job_id, &lines, error) && hs_bill_tax_lines (book, lines, error)
         && save_lines (store, lines, error);
}

static gboolean
price_job (HsBook *book, const HsJobRow *job, const char *goodwill, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;
  gboolean given = hs_ops_blank_to_null (goodwill) != NULL;

  if (!hs_line_row_list_of (store, job->id, &lines, error) || !drop_own_lines (store, lines, error)
      || !price_parts (book, lines, error) || !add_labor (book, job, given, now, lines, error)
      || !hs_bill_tax_lines (book, lines, error))
    return FALSE;
  if (given)
    add_goodwill (job->id, goodwill, lines);
  return save_lines (store, lines, error);
}

static gboolean
price_open_job (HsBook *book, const char *job_id, const char *goodwill, HsInstant now, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (hs_book_get_store (book), job_id, &job, error))
    return FALSE;
  if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return hs_ops_refuse (error, "%s is squared up; its invoice stays as it is. Write a credit.", job->number);
  if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_CALLED_OFF)))
    return hs_ops_refuse (error, "%s is called off; only its fee is charged. Take it up again to price it.",
                          job->number);
  return price_job (book, job, goodwill, now, error);
}

gboolean
hs_job_price (HsBook *book, const char *job_id, const char *goodwill, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_undo_note (store, job_id, "priced");
  return hs_store_end (store, price_open_job (book, job_id, goodwill, now, error), error);
}
