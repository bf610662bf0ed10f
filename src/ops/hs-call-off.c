// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A job that comes to nothing: canceled, nobody there, or gone on arrival, with its fee and its reason in one step.
 * What stands on the bill beside the fee and was not put in goes off it, and comes back when the job is taken up again;
 * the fee is squared up like any bill. Refuses a way that is none of these, a fee below nothing, and a stage from which
 * nothing can be called off. */

#include "hs-call-off.h"

#include "hs-bill-private.h"
#include "hs-choice-private.h"
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

static gboolean
is_given (const HsLineRow *line)
{
  return g_str_equal (line->kind, "goodwill") || g_str_equal (line->kind, "discount");
}

/* (nullable): the option that the line comes of. */
static gboolean
find_option (HsStore *store, const HsLineRow *line, char **ret_option_id, GError **error)
{
  g_autoptr (HsAdviceLineRow) row = NULL;

  *ret_option_id = NULL;
  if (line->advice_line_id == NULL)
    return TRUE;
  if (!hs_advice_line_row_load (store, line->advice_line_id, &row, error))
    return FALSE;
  *ret_option_id = g_strdup (row->advice_id);
  return TRUE;
}

/* What was put in, the deposit on its old one, and what was given on it: of an option only beside a part of the same
 * option. */
static gboolean
find_stays (HsStore *store, GPtrArray *lines, const HsLineRow *line, gboolean *ret_stays, GError **error)
{
  g_autofree char *option = NULL;

  *ret_stays = line->installed_part_id != NULL;
  if (*ret_stays || !(is_given (line) || g_str_equal (line->kind, "core_deposit")))
    return TRUE;
  if (!find_option (store, line, &option, error))
    return FALSE;
  for (guint i = 0; i < lines->len && !*ret_stays; i++)
    {
      const HsLineRow *other = g_ptr_array_index (lines, i);
      g_autofree char *of = NULL;

      if (!find_option (store, other, &of, error))
        return FALSE;
      *ret_stays = other->installed_part_id != NULL && (option == NULL || g_strcmp0 (of, option) == 0);
    }
  return TRUE;
}

static gboolean
drop_undone (HsStore *store, GPtrArray *lines, GError **error)
{
  for (guint i = lines->len; i > 0; i--)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i - 1);
      gboolean stays;

      if (!find_stays (store, lines, line, &stays, error))
        return FALSE;
      if (stays)
        continue;
      if (!hs_line_row_delete (store, line->id, error))
        return FALSE;
      g_ptr_array_remove_index (lines, i - 1);
    }
  return TRUE;
}

/* Nothing is given on work that was not done. The goodwill of a price covers the lines that stood there when it
 * was given, a discount whatever stays. */
static void
trim_given (GPtrArray *lines)
{
  HsJobSums before = { 0 };
  HsJobSums rest = { 0 };

  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      rest.price_cents += is_given (line) ? 0 : line->price_cents;
    }
  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *line = g_ptr_array_index (lines, i);
      gboolean goodwill = line->advice_line_id == NULL && g_str_equal (line->kind, "goodwill");

      if (is_given (line))
        {
          line->price_cents = MAX (line->price_cents, -(goodwill ? before.price_cents : rest.price_cents));
          line->tax_cents = MAX (line->tax_cents, -before.tax_cents);
          rest.price_cents += line->price_cents;
        }
      before.price_cents += line->price_cents;
      before.tax_cents += line->tax_cents;
    }
}

static gboolean
save_rest (HsStore *store, HsLineRow *line, GError **error)
{
  return is_given (line) && line->price_cents == 0 ? hs_line_row_delete (store, line->id, error)
                                                   : hs_line_row_save (store, line, error);
}

gboolean
hs_call_off_drop_lines (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (store, job_id, &lines, error) || !drop_undone (store, lines, error)
      || !hs_bill_tax_lines (book, lines, error))
    return FALSE;
  trim_given (lines);
  for (guint i = 0; i < lines->len; i++)
    if (!save_rest (store, g_ptr_array_index (lines, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
drop_fee (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (g_str_equal (line->kind, "call_out") && line->advice_line_id == NULL
          && !hs_line_row_delete (store, line->id, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_call_off_take_up (HsBook *book, const HsJobRow *job, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) options = NULL;

  /* Only moved off the road, it has no fee. */
  if (job->called_off_how != NULL && !drop_fee (store, job->id, error))
    return FALSE;
  if (!hs_advice_row_list_of (store, job->id, &options, error))
    return FALSE;
  for (guint i = 0; i < options->len; i++)
    {
      const HsAdviceRow *option = g_ptr_array_index (options, i);

      if (g_str_equal (option->choice, "yes") && !hs_choice_on_bill (book, option, error))
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
