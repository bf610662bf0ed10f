// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A job that comes to nothing: canceled, nobody there, or gone on arrival, with its fee and its reason in one step.
 * What stands on the bill beside the fee and was not put in goes off it; the fee is squared up like any bill. Refuses a
 * way that is none of these, a fee below nothing, and a stage from which nothing can be called off. */

#include "hs-call-off.h"

#include "hs-bill-private.h"
#include "hs-job-op.h"
#include "hs-money-row.h"
#include "hs-ops-private.h"
#include "hs-settings-op.h"

static gboolean
read_how (const char *how, const char **ret_how, GError **error)
{
  if (!hs_ops_word (HS_WORDS_CALLED_OFF_HOW, how, NULL, ret_how, error))
    return FALSE;
  return *ret_how != NULL || hs_ops_refuse (error, "How was it called off: canceled, no-show or gone on arrival?");
}

gboolean
hs_call_off_fee (HsBook *book, const char *how, gint64 *ret_cents, GError **error)
{
  g_autofree char *key = NULL;
  const char *how_id;

  if (!read_how (how, &how_id, error))
    return FALSE;
  key = g_strdup_printf ("%s_fee_cents", how_id);
  return hs_settings_get_int (book, key, ret_cents, error);
}

static char *
say_line (const char *how)
{
  return g_strdup_printf ("Called off: %s", hs_words_label (HS_WORDS_CALLED_OFF_HOW, how));
}

gboolean
hs_call_off_drop_lines (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (line->installed_part_id == NULL && !hs_line_row_delete (store, line->id, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
add_fee (HsStore *store, const char *job_id, const char *how, gint64 fee_cents, GError **error)
{
  g_autoptr (HsLineRow) line = hs_line_row_new ();

  if (fee_cents == 0)
    return TRUE;
  hs_row_set (&line->job_id, job_id);
  hs_row_set (&line->kind, "call_out");
  line->what = say_line (how);
  line->price_cents = fee_cents;
  return hs_line_row_save (store, line, error);
}

static gboolean
call_off (HsBook *book, const char *job_id, const char *how, gint64 fee_cents, const char *reason, HsInstant now,
          GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;

  hs_ops_note (store, job_id, "called off: %s", hs_words_label (HS_WORDS_CALLED_OFF_HOW, how));
  if (!hs_job_move_stage (book, job_id, HS_STAGE_CALLED_OFF, reason, now, error)
      || !hs_call_off_drop_lines (store, job_id, error)
      || !hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  hs_row_set (&job->called_off_how, how);
  return hs_job_row_save (store, job, error) && add_fee (store, job_id, how, fee_cents, error);
}

gboolean
hs_job_call_off (HsBook *book, const char *job_id, const char *how, gint64 fee_cents, const char *reason,
                 HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *how_id;

  if (!read_how (how, &how_id, error))
    return FALSE;
  if (fee_cents == HS_FEE_AS_SET && !hs_call_off_fee (book, how_id, &fee_cents, error))
    return FALSE;
  if (fee_cents < 0)
    return hs_ops_refuse (error, "A fee is not less than nothing.");
  if (hs_ops_blank_to_null (reason) == NULL)
    return hs_ops_refuse (error, "Why was it called off? A few words will do.");
  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, call_off (book, job_id, how_id, fee_cents, reason, now, error), error);
}
