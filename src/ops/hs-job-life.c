// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was answered, what was told and picked, and how far the customer's yes goes. Each entry is one transaction.
 * Refuses words that are not on the closed lists. */

#include "hs-job-life.h"

#include "hs-choice-private.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-visit-row.h"

static gboolean
save_asked (HsStore *store, const char *job_id, const char *question, const char *answer, HsInstant now,
            GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsAskedRow) asked = hs_asked_row_new ();

  if (!hs_asked_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAskedRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->question, question))
        hs_row_set (&asked->id, row->id);
    }
  hs_row_set (&asked->job_id, job_id);
  hs_row_set (&asked->question, question);
  hs_row_set (&asked->answer, answer);
  asked->at = now;
  return hs_asked_row_save (store, asked, error);
}

gboolean
hs_asked_add (HsBook *book, const char *job_id, const char *question, const char *answer, HsInstant now,
              GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (hs_ops_blank_to_null (question) == NULL || hs_ops_blank_to_null (answer) == NULL)
    return hs_ops_refuse (error, "A question and its answer both need words.");
  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "answer: %s", question);
  return hs_store_end (store, save_asked (store, job_id, question, answer, now, error), error);
}

static HsAdviceRow *
advice_of_entry (const HsAdviceEntry *entry, GError **error)
{
  g_autoptr (HsAdviceRow) row = hs_advice_row_new ();
  const char *choice;
  const char *means;

  if (!hs_ops_word (HS_WORDS_CHOICE, entry->choice, "open", &choice, error)
      || !hs_ops_word (HS_WORDS_MEANS, entry->means, NULL, &means, error))
    return NULL;
  hs_row_set (&row->choice, choice);
  hs_row_set (&row->means, means);
  hs_row_set (&row->option_group, hs_ops_blank_to_null (entry->group));
  hs_row_set (&row->wording, entry->wording == NULL ? "" : entry->wording);
  hs_row_set (&row->risk_told, hs_ops_blank_to_null (entry->risk));
  hs_row_set (&row->decided_by, hs_ops_blank_to_null (entry->by));
  if (entry->rank > 0)
    row->rank = entry->rank;
  row->price_cents = entry->price_cents;
  row->decided_at = entry->at;
  row->chase_on = entry->chase_on;
  return g_steal_pointer (&row);
}

/* An option costs what its lines come to with tax; a price of its own has to agree. */
static gboolean
set_price (HsBook *book, const HsAdviceEntry *entry, HsAdviceRow *row, GError **error)
{
  g_autofree char *said = NULL;
  g_autofree char *summed = NULL;
  gint64 sum = 0;

  if (entry->n_lines == 0)
    return TRUE;
  for (gsize i = 0; i < entry->n_lines; i++)
    sum += entry->lines[i].price_cents + entry->lines[i].tax_cents;
  row->price_cents = sum;
  if (entry->price_cents == 0 || entry->price_cents == sum)
    return TRUE;
  said = hs_money_format (entry->price_cents, hs_book_get_currency (book));
  summed = hs_money_format (sum, hs_book_get_currency (book));
  return hs_ops_refuse (error, "“%s” was priced at %s, but its lines come to %s with tax. Correct one of them.",
                        row->wording, said, summed);
}

static gboolean
save_line (HsStore *store, const char *advice_id, const HsAdviceLineEntry *entry, GError **error)
{
  g_autoptr (HsAdviceLineRow) row = hs_advice_line_row_new ();
  const char *kind;

  if (!hs_ops_word (HS_WORDS_LINE_KIND, entry->kind, "labor", &kind, error))
    return FALSE;
  hs_row_set (&row->advice_id, advice_id);
  hs_row_set (&row->kind, kind);
  hs_row_set (&row->what, entry->what == NULL ? "" : entry->what);
  row->quantity_milli = entry->quantity_milli == 0 ? 1000 : entry->quantity_milli;
  row->cost_cents = entry->cost_cents;
  row->price_cents = entry->price_cents;
  row->tax_cents = entry->tax_cents;
  return hs_advice_line_row_save (store, row, error);
}

static gboolean
save_advice (HsBook *book, const HsAdviceEntry *entry, HsAdviceRow *row, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_advice_row_save (store, row, error))
    return FALSE;
  for (gsize i = 0; i < entry->n_lines; i++)
    if (!save_line (store, row->id, &entry->lines[i], error))
      return FALSE;
  return hs_choice_call (book, row, HS_DATE_NONE, now, error);
}

char *
hs_advice_add (HsBook *book, const char *job_id, const HsAdviceEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsAdviceRow) row = advice_of_entry (entry, error);

  if (row == NULL || !set_price (book, entry, row, error) || !hs_store_begin (store, now, error))
    return NULL;
  hs_ops_note (store, job_id, "choice: %s", row->wording);
  hs_row_set (&row->job_id, job_id);
  if (!hs_store_end (store, save_advice (book, entry, row, now, error), error))
    return NULL;
  return g_strdup (row->id);
}
