// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What squaring a job up would freeze, and what stands against it, told before it is done. Use it wherever somebody is
 * asked. Reads only; hs_job_square() has the last word.
 */

#include "hs-square.h"

#include "hs-advice-row.h"
#include "hs-bill-private.h"
#include "hs-customer-row.h"
#include "hs-job-life.h"
#include "hs-ops-private.h"

void
hs_square_outlook_free (HsSquareOutlook *outlook)
{
  if (outlook == NULL)
    return;
  g_free (outlook->number);
  g_free (outlook->unproved_why);
  g_free (outlook->refusal);
  hs_repair_free (outlook->repair);
  g_free (outlook);
}

const char *
hs_job_block_place (HsStageWhyNot why_not)
{
  switch (why_not)
    {
    case HS_STAGE_OPEN_SAFETY:
      return "safety";
    case HS_STAGE_NO_PROOF:
      return "read-after";
    case HS_STAGE_COMPLAINT_STAYS:
    case HS_STAGE_OPEN_END:
      return "why";
    case HS_STAGE_PART_WITHOUT_REASON:
      return "after";
    case HS_STAGE_OPEN_CHOICE:
    case HS_STAGE_OVER_CEILING:
      return "choices";
    case HS_STAGE_MAY_MOVE:
    case HS_STAGE_SAME:
    case HS_STAGE_SHUT_FOR_GOOD:
    case HS_STAGE_NO_SUCH_MOVE:
    case HS_STAGE_NO_LEAVING_REASON:
    default:
      return NULL;
    }
}

static gboolean
fill_choices (HsStore *store, const char *job_id, HsSquareOutlook *outlook, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_advice_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const char *choice = ((const HsAdviceRow *) g_ptr_array_index (rows, i))->choice;

      outlook->n_yes += g_str_equal (choice, "yes");
      outlook->n_no += g_str_equal (choice, "no");
      outlook->n_later += g_str_equal (choice, "later");
    }
  return TRUE;
}

static gboolean
fill_due (HsBook *book, const HsJobRow *job, HsInstant now, HsSquareOutlook *outlook, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (!hs_customer_row_load (hs_book_get_store (book), job->customer_id, &customer, error))
    return FALSE;
  outlook->due_on = hs_date_add_days (hs_ops_today (book, now), (int) customer->terms_days);
  return TRUE;
}

static gboolean
has_work (GPtrArray *lines)
{
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (hs_bill_is_work (line) || g_str_equal (line->kind, "goodwill"))
        return TRUE;
    }
  return FALSE;
}

static gboolean
fill_work (HsBook *book, const HsJobRow *job, GPtrArray *lines, const HsBillClock *clock, HsInstant now,
           HsSquareOutlook *outlook, GError **error)
{
  HsBillOwn own;

  if (!hs_bill_own_work (book, job->id, lines, now, &own, error))
    return FALSE;
  outlook->minutes = own.minutes;
  outlook->work_cents = own.cents;
  outlook->no_work = outlook->stage != HS_STAGE_CALLED_OFF && !has_work (lines);
  outlook->may_price
      = clock->unclocked_at == HS_INSTANT_NONE && (outlook->no_work || clock->more_cents > 0);
  return TRUE;
}

/* The same questions, in the same order, as squaring up asks them. */
static gboolean
fill_refusal (HsBook *book, const HsJobRow *job, GPtrArray *lines, const HsBillClock *clock, HsSquareOutlook *outlook,
              GError **error)
{
  const char *reason = outlook->stage == HS_STAGE_CALLED_OFF ? job->called_off_why : NULL;
  HsStageWhyNot why_not;
  g_autoptr (GError) refused = NULL;

  if (!hs_job_why_not (book, job->id, HS_STAGE_SQUARED, reason, &why_not, error))
    return FALSE;
  if (why_not != HS_STAGE_MAY_MOVE)
    outlook->place = hs_job_block_place (why_not);
  else
    outlook->place = "bill";
  if (!hs_job_check_move (book, job->id, HS_STAGE_SQUARED, reason, &refused)
      || !hs_bill_check_priced (book, job, lines, clock, &refused))
    outlook->refusal = g_strdup (refused->message);
  else
    outlook->place = NULL;
  return TRUE;
}

static gboolean
fill (HsBook *book, const HsJobRow *job, HsInstant now, HsSquareOutlook *outlook, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobView) view = hs_job_view_load (book, job->id, now, error);
  g_autoptr (GPtrArray) lines = NULL;
  HsBillClock clock;

  if (view == NULL || !hs_line_row_list_of (store, job->id, &lines, error)
      || !hs_bill_clock (book, job, lines, now, &clock, error))
    return FALSE;
  outlook->number = g_strdup (job->number);
  outlook->stage = view->tag->stage;
  outlook->net_cents = view->net_cents;
  outlook->tax_cents = view->tax_cents;
  outlook->paid_cents = view->paid_cents;
  outlook->unproved_why = g_strdup (job->unproved_why);
  if (outlook->stage != HS_STAGE_CALLED_OFF
      && (outlook->repair = hs_repair_load (book, job->id, view, now, error)) == NULL)
    return FALSE;
  return fill_choices (store, job->id, outlook, error) && fill_due (book, job, now, outlook, error)
         && fill_work (book, job, lines, &clock, now, outlook, error)
         && fill_refusal (book, job, lines, &clock, outlook, error);
}

HsSquareOutlook *
hs_square_outlook_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  g_autoptr (HsSquareOutlook) outlook = g_new0 (HsSquareOutlook, 1);
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (hs_book_get_store (book), job_id, &job, error) || !fill (book, job, now, outlook, error))
    return NULL;
  return g_steal_pointer (&outlook);
}
