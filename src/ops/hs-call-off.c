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
#include "hs-log-row.h"
#include "hs-money-row.h"
#include "hs-ops-private.h"
#include "hs-settings-op.h"

/* Under this the log says of an option that it is charged though the bill before it was on the house. */
#define NOT_GIVEN "not given"

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

  *ret_stays = line->installed_part_id != NULL || hs_bill_is_gift (line);
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

      if (is_given (line))
        {
          gint64 most = hs_bill_is_gift (line) ? before.price_cents : rest.price_cents;

          line->price_cents = MAX (line->price_cents, -most);
          line->tax_cents = MAX (line->tax_cents, -before.tax_cents);
          rest.price_cents += line->price_cents;
        }
      before.price_cents += line->price_cents;
      before.tax_cents += line->tax_cents;
    }
}

/* That it was on the house is known by the line also where nothing of it is left. */
static gboolean
save_rest (HsStore *store, HsLineRow *line, GError **error)
{
  if (is_given (line) && !hs_bill_is_gift (line) && line->price_cents == 0)
    return hs_line_row_delete (store, line->id, error);
  return hs_line_row_save (store, line, error);
}

/* A yes that came after all of it was given was not given; that is known by its place on the bill, which its lines lose
 * now. */
static gboolean
log_not_given (HsStore *store, GPtrArray *lines, GError **error)
{
  gboolean behind = FALSE;

  for (guint i = 0; hs_bill_is_given (lines) && i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);
      g_autofree char *option = NULL;

      behind |= hs_bill_is_gift (line);
      if (!find_option (store, line, &option, error)
          || (option != NULL && !hs_log_row_add_deed (store, NOT_GIVEN, option, behind ? "added" : "removed", NULL,
                                                      error)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
was_given (HsStore *store, const char *option_id, gboolean *ret_given, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_log_row_list_of (store, NOT_GIVEN, option_id, &rows, error))
    return FALSE;
  *ret_given = rows->len == 0
               || g_str_equal (((const HsLogRow *) g_ptr_array_index (rows, rows->len - 1))->act, "removed");
  return TRUE;
}

gboolean
hs_call_off_drop_lines (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (store, job_id, &lines, error) || !log_not_given (store, lines, error)
      || !drop_undone (store, lines, error)
      || !hs_bill_tax_lines (book, lines, error))
    return FALSE;
  trim_given (lines);
  for (guint i = 0; i < lines->len; i++)
    if (!save_rest (store, g_ptr_array_index (lines, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
is_fee (const HsLineRow *line)
{
  return g_str_equal (line->kind, "call_out") && line->advice_line_id == NULL;
}

static gboolean
drop_fee (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    if (is_fee (g_ptr_array_index (lines, i))
        && !hs_line_row_delete (store, ((const HsLineRow *) g_ptr_array_index (lines, i))->id, error))
      return FALSE;
  return TRUE;
}

gboolean
hs_call_off_charged (HsBook *book, const char *job_id, gint64 *ret_cents, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;
  g_autoptr (HsJobRow) job = NULL;
  gint64 cents = 0;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  for (guint i = 0; job->called_off_how != NULL && i < lines->len; i++)
    if (is_fee (g_ptr_array_index (lines, i)))
      cents += ((const HsLineRow *) g_ptr_array_index (lines, i))->price_cents;
  *ret_cents = cents;
  return TRUE;
}

gboolean
hs_call_off_drop_empty (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (hs_bill_is_gift (line) && line->price_cents == 0 && !hs_line_row_delete (store, line->id, error))
        return FALSE;
    }
  return TRUE;
}

/* Those that were on the house, or those that came after it. */
static gboolean
put_yes_back (HsBook *book, const char *job_id, gboolean given, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) options = NULL;

  if (!hs_advice_row_list_of (store, job_id, &options, error))
    return FALSE;
  for (guint i = 0; i < options->len; i++)
    {
      const HsAdviceRow *option = g_ptr_array_index (options, i);
      gboolean was;

      if (!g_str_equal (option->choice, "yes"))
        continue;
      if (!was_given (store, option->id, &was, error)
          || (was == given && !hs_choice_on_bill (book, option, error)))
        return FALSE;
    }
  return TRUE;
}

/* What came back in @lines since @before; @ret_goodwill: (nullable): the line by which all of it is on the house. */
static HsJobSums
sum_back (GPtrArray *before, GPtrArray *lines, HsLineRow **ret_goodwill)
{
  HsJobSums back = { 0 };

  *ret_goodwill = NULL;
  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *line = g_ptr_array_index (lines, i);

      if (hs_bill_is_gift (line))
        *ret_goodwill = line;
      else
        {
          back.price_cents += line->price_cents;
          back.tax_cents += line->tax_cents;
        }
    }
  for (guint i = 0; i < before->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (before, i);

      back.price_cents -= hs_bill_is_gift (line) ? 0 : line->price_cents;
      back.tax_cents -= hs_bill_is_gift (line) ? 0 : line->tax_cents;
    }
  return back;
}

static gboolean
has_line (GPtrArray *lines, const char *id)
{
  for (guint i = 0; i < lines->len; i++)
    if (g_str_equal (((const HsLineRow *) g_ptr_array_index (lines, i))->id, id))
      return TRUE;
  return FALSE;
}

/* What was put in after it was given stays behind the goodwill. */
static gboolean
move_behind (HsStore *store, GPtrArray *before, GPtrArray *lines, GError **error)
{
  gboolean behind = FALSE;

  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);
      g_autoptr (HsLineRow) moved = hs_line_row_copy (line);

      g_clear_pointer (&moved->id, g_free);
      if (behind && has_line (before, line->id)
          && !(hs_line_row_delete (store, line->id, error) && hs_line_row_save (store, moved, error)))
        return FALSE;
      behind |= hs_bill_is_gift (line);
    }
  return TRUE;
}

/* Written anew, for goodwill takes off what stands before it. */
static gboolean
give_again (HsBook *book, const char *job_id, GPtrArray *before, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;
  g_autoptr (HsLineRow) anew = hs_line_row_new ();
  HsLineRow *goodwill;
  HsJobSums back;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  back = sum_back (before, lines, &goodwill);
  if (goodwill == NULL || back.price_cents <= 0)
    return TRUE;
  hs_row_set (&anew->job_id, job_id);
  hs_row_set (&anew->kind, goodwill->kind);
  hs_row_set (&anew->what, goodwill->what);
  anew->price_cents = goodwill->price_cents - back.price_cents;
  anew->tax_cents = goodwill->tax_cents - back.tax_cents;
  return hs_line_row_delete (store, goodwill->id, error) && hs_line_row_save (store, anew, error)
         && move_behind (store, before, lines, error) && hs_bill_tax_job (book, job_id, error);
}

gboolean
hs_call_off_take_up (HsBook *book, const HsJobRow *job, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) before = NULL;

  /* Only moved off the road, it has no fee. */
  if (job->called_off_how != NULL && !drop_fee (store, job->id, error))
    return FALSE;
  return hs_line_row_list_of (store, job->id, &before, error) && put_yes_back (book, job->id, TRUE, error)
         && give_again (book, job->id, before, error) && put_yes_back (book, job->id, FALSE, error);
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
