// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * When the work of an option was agreed: since its yes, or since that of the option of its group that it is picked
 * instead of; and the spans of a yes that was taken back or ousted by a pick, for it was one as long as it stood. The
 * option has forgotten those, so that the log keeps them, each with its step: what was undone took nothing back. All
 * within a transaction.
 */

#include "hs-choice-private.h"

#include "hs-log-row.h"
#include "hs-undo.h"

/* Stands in the log where other entries have their table. */
#define AGREED "agreed"

/* Minutes of an option or a price for its work, not the way there. */
static gboolean
has_labor (HsStore *store, const HsAdviceRow *row, gboolean *ret_labor, GError **error)
{
  g_autoptr (GPtrArray) options = NULL;

  if (!hs_advice_line_row_list_of (store, row->id, &options, error))
    return FALSE;
  *ret_labor = FALSE;
  for (guint i = 0; i < options->len; i++)
    *ret_labor |= g_str_equal (((const HsAdviceLineRow *) g_ptr_array_index (options, i))->kind, "labor");
  return TRUE;
}

static gboolean
is_beside (const HsAdviceRow *other, const HsAdviceRow *row)
{
  return row->option_group != NULL && g_strcmp0 (other->option_group, row->option_group) == 0;
}

gboolean
hs_choice_agreed_at (HsStore *store, const HsAdviceRow *row, HsInstant *at, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  gboolean labor;

  if (g_str_equal (row->choice, "yes"))
    {
      *at = row->decided_at;
      return TRUE;
    }
  if (!has_labor (store, row, &labor, error) || !hs_advice_row_list_of (store, row->job_id, &rows, error))
    return FALSE;
  for (guint i = 0; labor && i < rows->len; i++)
    {
      const HsAdviceRow *other = g_ptr_array_index (rows, i);
      gboolean worked;

      if (!is_beside (other, row) || !g_str_equal (other->choice, "yes"))
        continue;
      if (!has_labor (store, other, &worked, error))
        return FALSE;
      if (worked)
        *at = MIN (*at, other->decided_at);
    }
  return TRUE;
}

gboolean
hs_choice_note_taken_back (HsStore *store, const HsAdviceRow *row, HsInstant now, GError **error)
{
  g_autofree char *span = NULL;
  gboolean labor;
  gint64 step;

  if (!has_labor (store, row, &labor, error) || !hs_log_row_next_step (store, &step, error))
    return FALSE;
  span = g_strdup_printf ("%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %" G_GINT64_FORMAT, row->decided_at,
                          MAX (now, row->decided_at), step);
  return !labor || hs_log_row_add_deed (store, AGREED, row->id, "removed", span, error);
}

/* As hs_choice_note_taken_back() writes it. */
static gboolean
read_span (const char *text, HsChoiceSpan *ret_span, gint64 *ret_step)
{
  g_auto (GStrv) parts = g_strsplit (text != NULL ? text : "", " ", 3);
  HsChoiceSpan span;

  if (g_strv_length (parts) != 3
      || !g_ascii_string_to_signed (parts[0], 10, G_MININT64, G_MAXINT64, &span.from, NULL)
      || !g_ascii_string_to_signed (parts[1], 10, G_MININT64, G_MAXINT64, &span.to, NULL)
      || !g_ascii_string_to_signed (parts[2], 10, G_MININT64, G_MAXINT64, ret_step, NULL))
    return FALSE;
  *ret_span = span;
  return TRUE;
}

static gboolean
stands (GPtrArray *steps, gint64 seq)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const HsUndoStep *step = g_ptr_array_index (steps, i);

      if (step->seq == seq)
        return step->undone_at == HS_INSTANT_NONE;
    }
  return FALSE;
}

static gboolean
list_spans (HsStore *store, const char *option_id, GPtrArray *steps, GArray *spans, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_log_row_list_of (store, AGREED, option_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      HsChoiceSpan span;
      gint64 step;

      if (read_span (((const HsLogRow *) g_ptr_array_index (rows, i))->became, &span, &step) && stands (steps, step))
        g_array_append_val (spans, span);
    }
  return TRUE;
}

gboolean
hs_choice_list_taken_back (HsStore *store, const HsAdviceRow *row, GArray *spans, GError **error)
{
  g_autoptr (GPtrArray) steps = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_undo_list (store, row->job_id, &steps, error)
      || !hs_advice_row_list_of (store, row->job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *other = g_ptr_array_index (rows, i);

      if ((g_str_equal (other->id, row->id) || is_beside (other, row))
          && !list_spans (store, other->id, steps, spans, error))
        return FALSE;
    }
  return TRUE;
}
