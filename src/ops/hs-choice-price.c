// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What an option costs: parts by bands from what they cost, work by the minutes of all its lines together, the tax
 * rounded once over the option as it would be on an invoice. Refuses a part without a cost or a price, and work without
 * minutes or a price.
 */

#include "hs-choice-private.h"

#include "hs-bill-private.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"
#include "hs-price.h"
#include "hs-settings-op.h"

#define ONE 1000
#define MOST_MINUTES (7 * 24 * 60)

/* A line ----------------------------------------------------------------------------------------------------------- */

/* A part by its number, which may also stand where the words do. */
static gboolean
load_part (HsBook *book, const HsChoiceLineEntry *entry, HsPartRow **ret_part, GError **error)
{
  const char *number = hs_ops_blank_to_null (entry->part_number);
  const char *words = hs_ops_blank_to_null (entry->what);
  g_autoptr (GError) missing = NULL;

  if ((number == NULL && (words == NULL || g_strcmp0 (entry->kind, "part") != 0))
      || hs_part_row_find (hs_book_get_store (book), number != NULL ? number : words, ret_part, &missing))
    return TRUE;
  if (!hs_ops_only_missing (&missing, error))
    return FALSE;
  return number == NULL
         || hs_ops_not_found (error, "There is no part %s in the book. Import it, or write the line in words.", number);
}

static gboolean
latest_cost (HsBook *book, const HsPartRow *part, gint64 *ret_cents, GError **error)
{
  g_autoptr (GPtrArray) prices = NULL;

  if (!hs_price_row_list_latest (hs_book_get_store (book), part->id, &prices, error))
    return FALSE;
  if (prices->len > 0)
    *ret_cents = ((const HsPriceRow *) g_ptr_array_index (prices, 0))->cost_cents;
  return TRUE;
}

static gboolean
price_part (HsBook *book, const HsChoiceLineEntry *entry, const HsPartRow *part, HsAdviceLineRow *row, GError **error)
{
  gint64 cost_cents = entry->cost_cents;
  gint64 each_cents;

  if (cost_cents == HS_INT_NONE && part != NULL && !latest_cost (book, part, &cost_cents, error))
    return FALSE;
  if (cost_cents == HS_INT_NONE && entry->price_cents == HS_INT_NONE)
    return hs_ops_refuse (error, "What does “%s” cost? Write its cost, and its price follows, or write its price.",
                          row->what);
  if (cost_cents == HS_INT_NONE)
    cost_cents = 0;
  if (cost_cents < 0)
    return hs_ops_refuse (error, "The cost of “%s” is not less than nothing.", row->what);
  return hs_money_ratio (cost_cents, row->quantity_milli, ONE, &row->cost_cents, error)
         && (entry->price_cents != HS_INT_NONE
             || (hs_bill_banded (book, cost_cents, &each_cents, error)
                 && hs_money_ratio (each_cents, row->quantity_milli, ONE, &row->price_cents, error)));
}

static gboolean
price_labor (const HsChoiceLineEntry *entry, HsAdviceLineRow *row, GError **error)
{
  if (entry->price_cents != HS_INT_NONE && entry->minutes == 0)
    return TRUE;
  if (entry->minutes <= 0 || entry->minutes > MOST_MINUTES)
    return hs_ops_refuse (error, "How many minutes does “%s” take? Write 1 to %d, or a price without minutes.",
                          row->what, MOST_MINUTES);
  if (entry->price_cents != HS_INT_NONE)
    return hs_ops_refuse (error, "“%s” has minutes and a price; write one of them.", row->what);
  row->quantity_milli = entry->minutes * ONE;
  return TRUE;
}

/* What takes off is written as what it takes off. */
static gboolean
price_other (HsBook *book, const HsChoiceLineEntry *entry, const HsPartRow *part, HsAdviceLineRow *row, GError **error)
{
  if (g_str_equal (row->kind, "call_out") && entry->price_cents == HS_INT_NONE)
    return hs_settings_get_int (book, "call_out_cents", &row->price_cents, error);
  if (g_str_equal (row->kind, "core_deposit") && entry->price_cents == HS_INT_NONE && part != NULL)
    {
      row->price_cents = part->core_deposit_cents;
      return TRUE;
    }
  if (entry->price_cents == HS_INT_NONE)
    return hs_ops_refuse (error, "What is the price of “%s”?", row->what);
  if (g_str_equal (row->kind, "discount") || g_str_equal (row->kind, "goodwill"))
    row->price_cents = -ABS (entry->price_cents);
  else if (entry->price_cents < 0)
    return hs_ops_refuse (error, "The price of “%s” is not less than nothing; write a discount.", row->what);
  return TRUE;
}

static gboolean
fill_words (const HsChoiceLineEntry *entry, const HsPartRow *part, HsAdviceLineRow *row, GError **error)
{
  gboolean of_part = part != NULL || entry->cost_cents != HS_INT_NONE;
  const char *kind;
  const char *what = hs_ops_blank_to_null (entry->what);

  if (!hs_ops_word (HS_WORDS_LINE_KIND, entry->kind, of_part ? "part" : "labor", &kind, error))
    return FALSE;
  hs_row_set (&row->kind, kind);
  if (part != NULL && (what == NULL || g_str_equal (what, part->number)))
    what = part->name;
  if (what == NULL && g_str_equal (kind, "part"))
    return hs_ops_refuse (error, "Which part is it? Write it down, or name one of the catalog by its number.");
  row->what = g_strstrip (g_strdup (what != NULL ? what : hs_words_label (HS_WORDS_LINE_KIND, kind)));
  if (part != NULL)
    hs_row_set (&row->part_id, part->id);
  return TRUE;
}

gboolean
hs_choice_price_line (HsBook *book, const HsChoiceLineEntry *entry, HsAdviceLineRow *row, GError **error)
{
  g_autoptr (HsPartRow) part = NULL;

  if (!load_part (book, entry, &part, error) || !fill_words (entry, part, row, error))
    return FALSE;
  if (entry->quantity_milli < 0)
    return hs_ops_refuse (error, "How many of “%s”? More than none.", row->what);
  row->quantity_milli = entry->quantity_milli == 0 ? ONE : entry->quantity_milli;
  row->price_cents = entry->price_cents == HS_INT_NONE ? 0 : entry->price_cents;
  if (g_str_equal (row->kind, "part"))
    return (entry->price_cents == HS_INT_NONE || entry->price_cents >= 0
            || hs_ops_refuse (error, "The price of “%s” is not less than nothing; write a discount.", row->what))
           && price_part (book, entry, part, row, error);
  if (g_str_equal (row->kind, "labor"))
    return price_labor (entry, row, error);
  return price_other (book, entry, part, row, error);
}

/* The option ------------------------------------------------------------------------------------------------------- */

static gboolean
is_by_minutes (const HsAdviceLineRow *line)
{
  return g_str_equal (line->kind, "labor") && line->quantity_milli != ONE;
}

/* A call-out among the lines covers the first minutes; without one, every started step counts. */
static gboolean
load_terms (HsBook *book, GPtrArray *lines, HsLaborTerms *ret_terms, GError **error)
{
  HsLaborTerms terms = { .step_minutes = 15 };

  if (!hs_settings_get_int (book, "quarter_hour_cents", &terms.step_cents, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    if (g_str_equal (((const HsAdviceLineRow *) g_ptr_array_index (lines, i))->kind, "call_out")
        && !hs_settings_get_int (book, "call_out_minutes", &terms.included_minutes, error))
      return FALSE;
  *ret_terms = terms;
  return TRUE;
}

/* Each line of work costs what it adds to those before it, so that together they are rounded up once. */
static gboolean
price_work (HsBook *book, GPtrArray *lines, GError **error)
{
  HsLaborTerms terms;
  gint64 minutes = 0;
  gint64 before_cents = 0;
  gint64 cents;

  if (!load_terms (book, lines, &terms, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      HsAdviceLineRow *line = g_ptr_array_index (lines, i);

      if (!is_by_minutes (line))
        continue;
      minutes += line->quantity_milli / ONE;
      if (!hs_price_labor (&terms, minutes, &cents, error))
        return FALSE;
      line->price_cents = cents - before_cents;
      before_cents = cents;
    }
  return TRUE;
}

static gboolean
tax_lines (HsBook *book, GPtrArray *lines, gint64 *ret_sum_cents, GError **error)
{
  g_autofree gint64 *taxed = g_new0 (gint64, lines->len + 1);
  g_autofree gint64 *taxes = g_new0 (gint64, lines->len + 1);
  g_autofree gint64 *all = g_new0 (gint64, 2 * lines->len + 1);

  for (guint i = 0; i < lines->len; i++)
    {
      const HsAdviceLineRow *line = g_ptr_array_index (lines, i);

      taxed[i] = hs_bill_is_taxed (line->kind) ? line->price_cents : 0;
    }
  if (!hs_bill_tax (book, taxed, lines->len, taxes, NULL, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      HsAdviceLineRow *line = g_ptr_array_index (lines, i);

      line->tax_cents = all[2 * i] = taxes[i];
      all[2 * i + 1] = line->price_cents;
    }
  return hs_money_sum (all, 2 * lines->len, ret_sum_cents, error);
}

gboolean
hs_choice_reprice (HsBook *book, HsAdviceRow *row, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_advice_line_row_list_of (store, row->id, &lines, error) || !price_work (book, lines, error)
      || !tax_lines (book, lines, &row->price_cents, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    if (!hs_advice_line_row_save (store, g_ptr_array_index (lines, i), error))
      return FALSE;
  return hs_advice_row_save (store, row, error);
}
