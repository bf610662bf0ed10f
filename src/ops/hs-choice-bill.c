// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What a yes does to the bill: the lines of the option become lines of the job, so that the ceiling counts them, and
 * its parts are needed. A part that is on the bill already, because it was installed first, is not charged twice.
 * Another answer takes it all off again. Refuses to take off what is on the vehicle.
 */

#include "hs-choice-private.h"

#include "hs-bill-private.h"
#include "hs-chase-row.h"
#include "hs-desk-op.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-need-row.h"
#include "hs-ops-private.h"
#include "hs-text.h"

gboolean
hs_choice_becomes (const HsLineRow *line, const char *kind, const char *what)
{
  return line->advice_line_id == NULL && g_str_equal (line->kind, "part") && g_str_equal (kind, "part")
         && hs_bill_same_words (line->what, what);
}

gboolean
hs_bill_same_words (const char *one, const char *other)
{
  g_autofree char *one_folded = hs_text_fold (one);
  g_autofree char *other_folded = hs_text_fold (other);

  return g_str_equal (one_folded, other_folded);
}

static gboolean
waits_for (HsStore *store, const HsLineRow *line, const char *part_id, const char *what, gboolean *ret_waits,
           GError **error)
{
  g_autoptr (HsAdviceLineRow) option = NULL;

  *ret_waits = FALSE;
  if (line->installed_part_id != NULL || !g_str_equal (line->kind, "part"))
    return TRUE;
  if (line->advice_line_id == NULL)
    {
      *ret_waits = hs_bill_same_words (line->what, what);
      return TRUE;
    }
  if (!hs_advice_line_row_load (store, line->advice_line_id, &option, error))
    return FALSE;
  *ret_waits = (part_id != NULL && g_strcmp0 (option->part_id, part_id) == 0) || hs_bill_same_words (line->what, what);
  return TRUE;
}

gboolean
hs_bill_claim_line (HsStore *store, const char *job_id, const char *part_id, const char *what, HsLineRow **ret_line,
                    GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;
  gboolean waits = FALSE;

  *ret_line = NULL;
  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len && !waits; i++)
    {
      if (!waits_for (store, g_ptr_array_index (lines, i), part_id, what, &waits, error))
        return FALSE;
      if (waits)
        *ret_line = hs_line_row_copy (g_ptr_array_index (lines, i));
    }
  return TRUE;
}

/* The line of the bill that the option's line becomes: one that is there already, or a new one. */
static HsLineRow *
line_for (GPtrArray *lines, const char *job_id, const HsAdviceLineRow *option)
{
  HsLineRow *line;

  for (guint i = 0; i < lines->len; i++)
    if (g_strcmp0 (((const HsLineRow *) g_ptr_array_index (lines, i))->advice_line_id, option->id) == 0)
      return hs_line_row_copy (g_ptr_array_index (lines, i));
  for (guint i = 0; i < lines->len; i++)
    if (hs_choice_becomes (g_ptr_array_index (lines, i), option->kind, option->what))
      return hs_line_row_copy (g_ptr_array_index (lines, i));
  line = hs_line_row_new ();
  hs_row_set (&line->job_id, job_id);
  hs_row_set (&line->kind, option->kind);
  hs_row_set (&line->what, option->what);
  line->cost_cents = option->cost_cents;
  return line;
}

static gboolean
need_part (HsStore *store, const char *job_id, const HsAdviceLineRow *option, GError **error)
{
  g_autoptr (GPtrArray) needs = NULL;
  g_autoptr (HsNeedRow) need = hs_need_row_new ();

  if (option->part_id == NULL || !g_str_equal (option->kind, "part"))
    return TRUE;
  if (!hs_need_row_list_of (store, job_id, &needs, error))
    return FALSE;
  for (guint i = 0; i < needs->len; i++)
    {
      const HsNeedRow *there = g_ptr_array_index (needs, i);

      if (g_str_equal (there->part_id, option->part_id) && !g_str_equal (there->state, "dropped"))
        return TRUE;
    }
  hs_row_set (&need->job_id, job_id);
  hs_row_set (&need->part_id, option->part_id);
  hs_row_set (&need->advice_line_id, option->id);
  need->quantity_milli = option->quantity_milli;
  return hs_money_ratio (option->cost_cents, 1000, option->quantity_milli, &need->quoted_cents, error)
         && hs_need_row_save (store, need, error);
}

static gboolean
put_line (HsStore *store, const char *job_id, GPtrArray *lines, const HsAdviceLineRow *option, gboolean proven,
          GError **error)
{
  g_autoptr (HsLineRow) line = line_for (lines, job_id, option);

  /* However many of the options have it, there was one. */
  if (line->id == NULL && g_str_equal (option->kind, "call_out") && hs_choice_called_out (lines, proven))
    return TRUE;
  hs_row_set (&line->advice_line_id, option->id);
  line->quantity_milli = option->quantity_milli;
  line->price_cents = option->price_cents;
  return hs_line_row_save (store, line, error)
         && (line->installed_part_id != NULL || need_part (store, job_id, option, error));
}

gboolean
hs_bill_has_call_out (GPtrArray *lines)
{
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (g_str_equal (line->kind, "call_out") && line->advice_line_id != NULL)
        return TRUE;
    }
  return FALSE;
}

gboolean
hs_choice_called_out (GPtrArray *lines, gboolean proven)
{
  for (guint i = 0; proven && i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (g_str_equal (line->kind, "labor") && line->advice_line_id == NULL && line->price_cents > 0)
        return TRUE;
    }
  return hs_bill_has_call_out (lines);
}

static gboolean
is_proven (HsStore *store, const char *job_id, gboolean *ret_proven, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  *ret_proven = hs_choice_is_proven (job);
  return TRUE;
}

gboolean
hs_choice_is_proven (const HsJobRow *job)
{
  return g_str_equal (job->stage, hs_stage_id (HS_STAGE_PROVEN));
}

static gboolean
brings_work (GPtrArray *options)
{
  for (guint i = 0; i < options->len; i++)
    if (hs_bill_is_work_kind (((const HsAdviceLineRow *) g_ptr_array_index (options, i))->kind))
      return TRUE;
  return FALSE;
}

gboolean
hs_choice_ousts (GPtrArray *bill, gboolean works, gboolean proven, const HsLineRow *line)
{
  return works && !proven && g_str_equal (line->kind, "labor") && line->advice_line_id == NULL
         && !hs_bill_is_given (bill);
}

static gboolean
oust (HsStore *store, const char *job_id, gboolean works, gboolean proven, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (hs_choice_ousts (lines, works, proven, line) && !hs_line_row_delete (store, line->id, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_choice_on_bill (HsBook *book, const HsAdviceRow *row, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) options = NULL;
  gboolean proven;

  if (!hs_advice_line_row_list_of (store, row->id, &options, error)
      || !is_proven (store, row->job_id, &proven, error)
      || !oust (store, row->job_id, brings_work (options), proven, error))
    return FALSE;
  for (guint i = 0; i < options->len; i++)
    {
      g_autoptr (GPtrArray) lines = NULL;

      if (!hs_line_row_list_of (store, row->job_id, &lines, error)
          || !put_line (store, row->job_id, lines, g_ptr_array_index (options, i), proven, error))
        return FALSE;
    }
  return options->len == 0 || hs_bill_tax_job (book, row->job_id, error);
}

static gboolean
comes_of (GPtrArray *options, const char *line_id)
{
  for (guint i = 0; line_id != NULL && i < options->len; i++)
    if (g_str_equal (((const HsAdviceLineRow *) g_ptr_array_index (options, i))->id, line_id))
      return TRUE;
  return FALSE;
}

/* A need that a counter knows of stays, for somebody has to talk to the counter. */
static gboolean
drop_needs (HsStore *store, const char *job_id, GPtrArray *options, GError **error)
{
  g_autoptr (GPtrArray) needs = NULL;

  if (!hs_need_row_list_of (store, job_id, &needs, error))
    return FALSE;
  for (guint i = 0; i < needs->len; i++)
    {
      HsNeedRow *need = g_ptr_array_index (needs, i);

      if (!comes_of (options, need->advice_line_id))
        continue;
      hs_row_set (&need->advice_line_id, NULL);
      if (g_str_equal (need->state, "wanted") ? !hs_need_row_delete (store, need->id, error)
                                              : !hs_need_row_save (store, need, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_choice_off_bill (HsBook *book, const HsAdviceRow *row, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) options = NULL;
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_advice_line_row_list_of (store, row->id, &options, error)
      || !hs_line_row_list_of (store, row->job_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (!comes_of (options, line->advice_line_id))
        continue;
      if (line->installed_part_id != NULL)
        return hs_ops_refuse (error, "“%s” of “%s” is on the vehicle already, so the yes stays. Take the part back "
                                     "first.", line->what, row->wording);
      if (!hs_line_row_delete (store, line->id, error))
        return FALSE;
    }
  return drop_needs (store, row->job_id, options, error) && hs_bill_tax_job (book, row->job_id, error);
}

static gboolean
put_call_out_of (HsStore *store, const HsAdviceRow *row, GPtrArray *lines, gboolean proven, GError **error)
{
  g_autoptr (GPtrArray) options = NULL;

  if (!hs_advice_line_row_list_of (store, row->id, &options, error))
    return FALSE;
  for (guint i = 0; i < options->len; i++)
    {
      const HsAdviceLineRow *option = g_ptr_array_index (options, i);

      if (g_str_equal (option->kind, "call_out") && !put_line (store, row->job_id, lines, option, proven, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_choice_put_call_out (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) rows = NULL;
  gboolean proven;

  if (!hs_advice_row_list_of (store, job_id, &rows, error) || !is_proven (store, job_id, &proven, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (rows, i);
      g_autoptr (GPtrArray) lines = NULL;

      if (!g_str_equal (row->choice, "yes"))
        continue;
      if (!hs_line_row_list_of (store, job_id, &lines, error))
        return FALSE;
      if (hs_bill_has_call_out (lines) || hs_bill_is_given (lines))
        return TRUE;
      if (!put_call_out_of (store, row, lines, proven, error))
        return FALSE;
    }
  return TRUE;
}

/* People to call --------------------------------------------------------------------------------------------------- */

static gboolean
other_on_day (HsStore *store, const HsAdviceRow *row, HsDate day, gboolean *ret_other, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_advice_row_list_of (store, row->job_id, &rows, error))
    return FALSE;
  *ret_other = FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *other = g_ptr_array_index (rows, i);

      *ret_other |= !g_str_equal (other->id, row->id) && other->chase_on == day;
    }
  return TRUE;
}

static gboolean
drop_call (HsStore *store, const HsAdviceRow *row, HsDate day, GError **error)
{
  g_autoptr (HsChaseRow) call = NULL;
  gboolean other;

  if (!other_on_day (store, row, day, &other, error)
      || !hs_chase_row_find_open (store, row->job_id, "declined_work", day, &call, error))
    return FALSE;
  return other || call == NULL || hs_chase_row_delete (store, call->id, error);
}

gboolean
hs_choice_call (HsBook *book, const HsAdviceRow *row, HsDate old_day, HsInstant now, GError **error)
{
  g_autofree char *id = NULL;

  if (old_day == row->chase_on)
    return TRUE;
  if (old_day != HS_DATE_NONE && !drop_call (hs_book_get_store (book), row, old_day, error))
    return FALSE;
  if (row->chase_on == HS_DATE_NONE)
    return TRUE;
  id = hs_follow_up_add (book, row->job_id, "declined_work", row->chase_on, now, error);
  return id != NULL;
}
