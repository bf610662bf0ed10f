// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was told and picked on a job, for its page and for the command line, with how far the go-ahead reaches and what
 * was declined on the vehicle before. Reads only. */

#include "hs-choice-private.h"

#include "hs-bill-private.h"
#include "hs-customer-row.h"
#include "hs-money-row.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"

#define ONE 1000

static void
line_free (HsChoiceLine *line)
{
  g_free (line->id);
  g_free (line->kind);
  g_free (line->what);
  g_free (line->part_number);
  g_free (line);
}

static void
choice_free (HsChoice *choice)
{
  g_free (choice->id);
  g_free (choice->group);
  g_free (choice->rank);
  g_free (choice->wording);
  g_free (choice->risk);
  g_free (choice->choice);
  g_free (choice->by);
  g_free (choice->means);
  g_clear_pointer (&choice->signature, g_bytes_unref);
  g_clear_pointer (&choice->lines, g_ptr_array_unref);
  g_free (choice);
}

static void
go_ahead_free (HsGoAhead *yes)
{
  g_free (yes->by);
  g_free (yes->means);
  g_clear_pointer (&yes->signature, g_bytes_unref);
  g_free (yes);
}

void
hs_job_choices_free (HsJobChoices *choices)
{
  if (choices == NULL)
    return;
  g_clear_pointer (&choices->choices, g_ptr_array_unref);
  g_clear_pointer (&choices->go_aheads, g_ptr_array_unref);
  g_clear_pointer (&choices->declined, g_ptr_array_unref);
  hs_go_ahead_room_free (choices->room);
  g_free (choices->room_words);
  g_free (choices->customer);
  g_free (choices);
}

/* Options ---------------------------------------------------------------------------------------------------------- */

static HsChoiceLine *
line_new (HsStore *store, const HsAdviceLineRow *row, GError **error)
{
  HsChoiceLine *line = g_new0 (HsChoiceLine, 1);
  g_autoptr (HsPartRow) part = NULL;

  if (row->part_id != NULL && !hs_part_row_load (store, row->part_id, &part, error))
    {
      line_free (line);
      return NULL;
    }
  line->id = g_strdup (row->id);
  line->kind = g_strdup (row->kind);
  line->what = g_strdup (row->what);
  line->part_number = part == NULL ? NULL : g_strdup (part->number);
  line->minutes = g_str_equal (row->kind, "labor") && row->quantity_milli != ONE ? row->quantity_milli / ONE : 0;
  line->quantity_milli = row->quantity_milli;
  line->cost_cents = row->cost_cents;
  line->price_cents = row->price_cents;
  line->tax_cents = row->tax_cents;
  return line;
}

static gboolean
fill_lines (HsStore *store, HsChoice *choice, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_advice_line_row_list_of (store, choice->id, &rows, error))
    return FALSE;
  choice->lines = g_ptr_array_new_with_free_func ((GDestroyNotify) line_free);
  for (guint i = 0; i < rows->len; i++)
    {
      HsChoiceLine *line = line_new (store, g_ptr_array_index (rows, i), error);

      if (line == NULL)
        return FALSE;
      g_ptr_array_add (choice->lines, line);
    }
  return TRUE;
}

static HsChoice *
choice_new (const HsAdviceRow *row, guint number)
{
  HsChoice *choice = g_new0 (HsChoice, 1);
  gsize n_ranks;
  const HsWord *ranks = hs_words_get (HS_WORDS_RANK, &n_ranks);

  choice->number = number;
  choice->id = g_strdup (row->id);
  choice->group = g_strdup (row->option_group);
  choice->rank = row->rank >= 1 && row->rank <= (gint64) n_ranks ? g_strdup (ranks[row->rank - 1].id) : NULL;
  choice->wording = g_strdup (row->wording);
  choice->risk = g_strdup (row->risk_told);
  choice->no_risk = row->risk_told != NULL && g_str_has_prefix (row->risk_told, HS_CHOICE_NO_RISK);
  choice->price_cents = row->price_cents;
  choice->choice = g_strdup (row->choice);
  choice->by = g_strdup (row->decided_by);
  choice->means = g_strdup (row->means);
  choice->at = row->decided_at;
  choice->call_on = row->chase_on;
  choice->signature = row->signature == NULL ? NULL : g_bytes_ref (row->signature);
  return choice;
}

/* Against the first of the group, which does most. */
static void
weigh (GPtrArray *choices, HsChoice *choice)
{
  for (guint i = 0; choice->group != NULL && i < choices->len; i++)
    {
      const HsChoice *first = g_ptr_array_index (choices, i);

      if (g_strcmp0 (first->group, choice->group) != 0)
        continue;
      if (first != choice && choice->price_cents < first->price_cents)
        {
          choice->less_cents = first->price_cents - choice->price_cents;
          choice->in_all_cents = first->price_cents + choice->price_cents;
        }
      return;
    }
}

/* Where nobody said the place of one in its group, the dearer stand before the cheaper, and none becomes the first by
 * being new. */
static void
place (GPtrArray *rows, HsAdviceRow *row)
{
  guint at = rows->len;

  for (guint i = rows->len; row->option_group != NULL && row->rank == HS_INT_NONE && i > 0; i--)
    {
      const HsAdviceRow *other = g_ptr_array_index (rows, i - 1);

      if (g_strcmp0 (other->option_group, row->option_group) == 0 && other->price_cents < row->price_cents)
        at = i - 1;
    }
  g_ptr_array_insert (rows, (int) at, row);
}

/* (transfer container): group by group; first those whose place was said. */
static GPtrArray *
place_all (GPtrArray *rows)
{
  GPtrArray *placed = g_ptr_array_new ();
  guint from = 0;

  while (from < rows->len)
    {
      const char *group = ((const HsAdviceRow *) g_ptr_array_index (rows, from))->option_group;
      guint to = from;

      while (to < rows->len
             && g_strcmp0 (((const HsAdviceRow *) g_ptr_array_index (rows, to))->option_group, group) == 0)
        to++;
      for (guint said = 2; said > 0; said--)
        for (guint i = from; i < to; i++)
          if ((((const HsAdviceRow *) g_ptr_array_index (rows, i))->rank != HS_INT_NONE) == (said == 2))
            place (placed, g_ptr_array_index (rows, i));
      from = to;
    }
  return placed;
}

static gboolean
fill_options (HsStore *store, const char *job_id, HsJobChoices *job, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GPtrArray) placed = NULL;

  if (!hs_advice_row_list_of (store, job_id, &rows, error))
    return FALSE;
  placed = place_all (rows);
  for (guint i = 0; i < placed->len; i++)
    {
      HsChoice *choice = choice_new (g_ptr_array_index (placed, i), i + 1);

      g_ptr_array_add (job->choices, choice);
      if (!fill_lines (store, choice, error))
        return FALSE;
    }
  for (guint i = 0; i < job->choices->len; i++)
    weigh (job->choices, g_ptr_array_index (job->choices, i));
  return TRUE;
}

/* What a yes would bring ------------------------------------------------------------------------------------------- */

static gboolean
comes_of_group (const HsJobChoices *job, const HsChoice *choice, const HsLineRow *line)
{
  for (guint i = 0; line->advice_line_id != NULL && i < job->choices->len; i++)
    {
      const HsChoice *other = g_ptr_array_index (job->choices, i);

      if (other != choice && (choice->group == NULL || g_strcmp0 (other->group, choice->group) != 0))
        continue;
      for (guint k = 0; k < other->lines->len; k++)
        if (g_str_equal (((const HsChoiceLine *) g_ptr_array_index (other->lines, k))->id, line->advice_line_id))
          return TRUE;
    }
  return FALSE;
}

static gboolean
becomes (const HsChoice *choice, const HsLineRow *line)
{
  for (guint i = 0; i < choice->lines->len; i++)
    {
      const HsChoiceLine *mine = g_ptr_array_index (choice->lines, i);

      if (hs_choice_becomes (line, mine->kind, mine->what))
        return TRUE;
    }
  return FALSE;
}

static gboolean
brings_work (const HsChoice *choice)
{
  for (guint i = 0; i < choice->lines->len; i++)
    if (hs_bill_is_work_kind (((const HsChoiceLine *) g_ptr_array_index (choice->lines, i))->kind))
      return TRUE;
  return FALSE;
}

static void
add_line (GPtrArray *lines, const HsChoiceLine *mine)
{
  HsLineRow *line = hs_line_row_new ();

  hs_row_set (&line->kind, mine->kind);
  hs_row_set (&line->advice_line_id, mine->id);
  line->quantity_milli = mine->quantity_milli;
  line->price_cents = mine->price_cents;
  line->tax_cents = 0;
  g_ptr_array_add (lines, line);
}

/* As a yes would put it there; see hs_choice_on_bill(). */
static void
add_lines_of (GPtrArray *lines, const HsChoice *choice, gboolean proven)
{
  gboolean called_out = hs_choice_called_out (lines, proven);

  for (guint i = 0; i < choice->lines->len; i++)
    {
      const HsChoiceLine *mine = g_ptr_array_index (choice->lines, i);

      if (!called_out || !g_str_equal (mine->kind, "call_out"))
        add_line (lines, mine);
    }
}

static void
add_call_out_of (GPtrArray *lines, const HsChoice *other)
{
  for (guint i = 0; i < other->lines->len; i++)
    if (g_str_equal (((const HsChoiceLine *) g_ptr_array_index (other->lines, i))->kind, "call_out"))
      add_line (lines, g_ptr_array_index (other->lines, i));
}

/* See hs_choice_put_call_out(). */
static void
add_call_out (const HsJobChoices *job, const HsChoice *choice, GPtrArray *lines, gboolean proven)
{
  for (guint i = 0; i < job->choices->len && !hs_choice_called_out (lines, proven); i++)
    {
      const HsChoice *other = g_ptr_array_index (job->choices, i);

      if (g_str_equal (other->choice, "yes") && (choice->group == NULL || g_strcmp0 (other->group, choice->group) != 0))
        add_call_out_of (lines, other);
    }
}

/* One that is on it already changes nothing. */
static GPtrArray *
bill_with (const HsJobChoices *job, const HsChoice *choice, GPtrArray *bill, gboolean proven)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_line_row_free);
  gboolean is_on = g_str_equal (choice->choice, "yes");
  gboolean works = brings_work (choice);

  for (guint i = 0; i < bill->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (bill, i);

      if (is_on
          || (!comes_of_group (job, choice, line) && !becomes (choice, line)
              && !hs_choice_ousts (bill, works, proven, line)))
        g_ptr_array_add (lines, hs_line_row_copy (line));
    }
  if (is_on)
    return lines;
  add_lines_of (lines, choice, proven);
  if (!hs_bill_is_given (bill))
    add_call_out (job, choice, lines, proven);
  return lines;
}

static gboolean
fill_would (HsBook *book, const HsJobRow *row, HsJobChoices *job, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) bill = NULL;

  if (!hs_line_row_list_of (hs_book_get_store (book), row->id, &bill, error))
    return FALSE;
  for (guint i = 0; i < job->choices->len; i++)
    {
      HsChoice *choice = g_ptr_array_index (job->choices, i);
      g_autoptr (GPtrArray) lines = bill_with (job, choice, bill, hs_choice_is_proven (row));
      HsGoAheadRoom room = *job->room;

      if (!hs_go_ahead_weigh (book, row, lines, NULL, 0, now, &room, error))
        return FALSE;
      choice->would_cents = room.total_cents;
      choice->would_short_cents = room.short_cents;
    }
  return TRUE;
}

/* The job -----------------------------------------------------------------------------------------------------------*/

static gboolean
fill_go_aheads (HsStore *store, const char *job_id, HsJobChoices *job, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_go_ahead_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsGoAheadRow *row = g_ptr_array_index (rows, i);
      HsGoAhead *yes = g_new0 (HsGoAhead, 1);

      yes->ceiling_cents = row->ceiling_cents;
      yes->by = g_strdup (row->by_whom);
      yes->means = g_strdup (row->means);
      yes->at = row->at;
      yes->signature = row->signature == NULL ? NULL : g_bytes_ref (row->signature);
      g_ptr_array_add (job->go_aheads, yes);
    }
  return TRUE;
}

static gboolean
fill_head (HsStore *store, const HsJobRow *row, HsJobChoices *job, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (!hs_customer_row_load (store, row->customer_id, &customer, error))
    return FALSE;
  job->customer = g_strdup (customer->name);
  job->squared = g_str_equal (row->stage, hs_stage_id (HS_STAGE_SQUARED));
  return TRUE;
}

HsJobChoices *
hs_job_choices_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobChoices) job = g_new0 (HsJobChoices, 1);
  g_autoptr (HsJobRow) row = NULL;

  job->choices = g_ptr_array_new_with_free_func ((GDestroyNotify) choice_free);
  job->go_aheads = g_ptr_array_new_with_free_func ((GDestroyNotify) go_ahead_free);
  if (!hs_job_row_load (store, job_id, &row, error) || !fill_head (store, row, job, error)
      || !fill_options (store, job_id, job, error) || !fill_go_aheads (store, job_id, job, error)
      || !hs_declined_list (book, row, now, &job->declined, error))
    return NULL;
  job->room = hs_go_ahead_check (book, job_id, NULL, 0, now, error);
  if (job->room == NULL)
    return NULL;
  job->room_words = hs_go_ahead_room_say (book, job->room);
  return fill_would (book, row, job, now, error) ? g_steal_pointer (&job) : NULL;
}

const HsChoice *
hs_job_choices_find (const HsJobChoices *choices, guint number)
{
  return number >= 1 && number <= choices->choices->len ? g_ptr_array_index (choices->choices, number - 1) : NULL;
}
