// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Finding a job and moving it from stage to stage. A move asks the rules of core first, so that the answer says what to
 * do, then stamps the visit and saves both in one transaction. Refuses what the rules and the book refuse.
 */

#include "hs-job-op.h"

#include "hs-bill-private.h"
#include "hs-call-off.h"
#include "hs-day-plan.h"
#include "hs-ident.h"
#include "hs-job-life.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-repair-op.h"
#include "hs-safety-private.h"
#include "hs-settings-op.h"
#include "hs-text.h"
#include "hs-visit-private.h"

HsStage
hs_job_next_stage (HsStage from)
{
  HsStage next = from;

  hs_stage_next (from, &next);
  return next;
}

/* `a21` and `A 21` mean A-0021, or a job whose number was written with fewer zeros. */
static gboolean
find_spelled (HsStore *store, const char *number, HsJobRow **ret_job, GError **error)
{
  static const struct
  {
    const char *dash;
    int digits;
  } forms[] = { { "-", 4 }, { "-", 3 }, { "-", 2 }, { "-", 1 }, { "", 1 } };
  g_autoptr (GError) missing = NULL;
  char letter;
  int count;

  if (hs_job_row_find (store, number, ret_job, &missing))
    return TRUE;
  for (guint i = 0; hs_job_number_parse (number, &letter, &count, NULL) && i < G_N_ELEMENTS (forms); i++)
    {
      g_autofree char *spelled = g_strdup_printf ("%c%s%0*d", letter, forms[i].dash, forms[i].digits, count);

      if (!hs_ops_is_not_found (missing))
        break;
      g_clear_error (&missing);
      if (hs_job_row_find (store, spelled, ret_job, &missing))
        return TRUE;
    }
  g_propagate_error (error, g_steal_pointer (&missing));
  return FALSE;
}

char *
hs_job_find (HsBook *book, const char *number, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GError) missing = NULL;

  if (find_spelled (hs_book_get_store (book), number, &job, &missing))
    return g_strdup (job->id);
  if (hs_ops_only_missing (&missing, error))
    hs_ops_not_found (error, "There is no job %s in this book.", number);
  return NULL;
}

static gboolean
check_promise (const HsJobRow *job, GError **error)
{
  if (job->day != HS_DATE_NONE)
    return TRUE;
  return hs_ops_refuse (error, "%s has no day yet; give it a day and a window first.", job->number);
}

typedef struct
{
  HsStageFacts facts;
  HsJobChain *chain;
  char *tries;
  char *safety;
} Facts;

static void
facts_clear (Facts *facts)
{
  g_clear_pointer (&facts->chain, hs_job_chain_free);
  g_free (facts->tries);
  g_free (facts->safety);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Facts, facts_clear)

static gboolean
load_facts (HsBook *book, const HsJobRow *job, const char *reason, Facts *facts, GError **error)
{
  gboolean has_reason = !hs_text_is_blank (reason);

  if (!hs_job_row_facts (hs_book_get_store (book), job->id, &facts->facts, error))
    return FALSE;
  facts->chain = hs_job_chain_load (book, job->id, error);
  if (facts->chain == NULL || !hs_safety_dup_open (hs_book_get_store (book), job, &facts->safety, error)
      || !hs_complaint_stays (book, job->id, &facts->tries, error))
    return FALSE;
  facts->facts.open_safety = facts->safety;
  facts->facts.complaint_stays = facts->tries;
  facts->facts.open_ends = facts->chain->open;
  if (!hs_settings_get_int (book, "overrun_cents", &facts->facts.overrun_cents, error))
    return FALSE;
  facts->facts.currency = hs_book_get_currency (book);
  facts->facts.has_leaving_reason |= has_reason;
  facts->facts.has_unproven_reason |= has_reason;
  return TRUE;
}

static gboolean
check_move (HsBook *book, const HsJobRow *job, HsStage from, HsStage to, const char *reason, GError **error)
{
  g_auto (Facts) facts = { 0 };

  if (!load_facts (book, job, reason, &facts, error) || !hs_stage_check_move (from, to, &facts.facts, error))
    return FALSE;
  return to != HS_STAGE_PROMISED || check_promise (job, error);
}

gboolean
hs_job_why_not (HsBook *book, const char *job_id, HsStage to, const char *reason, HsStageWhyNot *ret_why_not,
                GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_auto (Facts) facts = { 0 };
  HsStage from;

  if (!hs_job_row_load (hs_book_get_store (book), job_id, &job, error) || !hs_stage_parse (job->stage, &from, error)
      || !load_facts (book, job, reason, &facts, error))
    return FALSE;
  *ret_why_not = hs_stage_why_not (from, to, &facts.facts);
  return TRUE;
}

gboolean
hs_job_check_move (HsBook *book, const char *job_id, HsStage to, const char *reason, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  HsStage from;

  return hs_job_row_load (hs_book_get_store (book), job_id, &job, error) && hs_stage_parse (job->stage, &from, error)
         && check_move (book, job, from, to, reason, error);
}

/* It is not charged for having been called off; the step says so. */
static gboolean
take_up (HsBook *book, const HsJobRow *job, HsStage to, GError **error)
{
  gint64 fee_cents;
  g_autofree char *fee = NULL;

  if (!hs_call_off_charged (book, job->id, &fee_cents, error) || !hs_call_off_take_up (book, job, error))
    return FALSE;
  fee = hs_money_format_grouped (fee_cents, hs_book_get_currency (book));
  if (fee_cents > 0)
    hs_ops_note (hs_book_get_store (book), job->id, "stage: %s, without the fee of %s", hs_stage_label (to), fee);
  return TRUE;
}

static gboolean
move_stage (HsBook *book, const char *job_id, HsStage to, const char *reason, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  HsStage from;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_stage_parse (job->stage, &from, error)
      || !check_move (book, job, from, to, reason, error))
    return FALSE;
  if (from == HS_STAGE_PROMISED && (to == HS_STAGE_ROLLING || to == HS_STAGE_ON_SITE)
      && !hs_day_plan_begin (book, job_id, now, error))
    return FALSE;
  if (from == HS_STAGE_CALLED_OFF && to != HS_STAGE_SQUARED && !take_up (book, job, to, error))
    return FALSE;
  if (to == HS_STAGE_CALLED_OFF && !hs_call_off_drop_lines (book, job_id, error))
    return FALSE;
  if (to == HS_STAGE_PROVEN && !hs_bill_drop_outrun (book, job, now, error))
    return FALSE;
  return hs_visit_follow_move (store, job_id, from, to, now, error)
         && hs_job_row_move (store, job_id, to, hs_ops_blank_to_null (reason), error);
}

gboolean
hs_job_move_stage (HsBook *book, const char *job_id, HsStage to, const char *reason, HsInstant now, GError **error)
{
  if (to == HS_STAGE_SQUARED)
    return hs_job_square (book, job_id, now, error);
  return hs_job_move_stage_raw (book, job_id, to, reason, now, error);
}

gboolean
hs_job_move_stage_raw (HsBook *book, const char *job_id, HsStage to, const char *reason, HsInstant now,
                       GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "stage: %s", hs_stage_label (to));
  return hs_store_end (store, move_stage (book, job_id, to, reason, now, error), error);
}

static gboolean
set_group (HsBook *book, const char *job_id, const char *group, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  hs_row_set (&job->complaint_group, group);
  return hs_job_row_save (store, job, error);
}

gboolean
hs_job_set_group (HsBook *book, const char *job_id, const char *group, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_ops_check_group (book, group, error) || !hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "complaint group: %s", hs_checks_lookup_group (hs_book_get_checks (book), group)->name);
  return hs_store_end (store, set_group (book, job_id, group, error), error);
}
