// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Field by field: what was shown, what is wanted, what stands in the book by now. The book is looked at in the
 * transaction that writes, so that nothing slips in between. It refuses what hs_call_take() refuses.
 */

#include "hs-call-merge.h"

#include "hs-board.h"
#include "hs-job-life.h"
#include "hs-ops-private.h"
#include "hs-visit-row.h"

typedef struct
{
  const char *id;
  const char *label;
  const char *mine;
  const char *was;
  const char *theirs;
  const char **merged;
} Field;

void
hs_call_clash_free (HsCallClash *clash)
{
  if (clash == NULL)
    return;
  g_free (clash->field);
  g_free (clash->theirs);
  g_free (clash->mine);
  g_free (clash);
}

/* Nothing and nothing but blanks are the same. */
static gboolean
is_same (const char *a, const char *b)
{
  return g_strcmp0 (hs_ops_blank_to_null (a), hs_ops_blank_to_null (b)) == 0;
}

/* Beside what was kept there before. */
static gboolean
keep_theirs (HsBook *book, const char *job_id, const Field *field, HsInstant now, GError **error)
{
  g_autofree char *question = g_strdup_printf ("%s, as another device had it", field->label);
  g_autofree char *answer = g_strdup (field->theirs);
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_asked_row_list_of (hs_book_get_store (book), job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAskedRow *row = g_ptr_array_index (rows, i);

      if (!g_str_equal (row->question, question))
        continue;
      g_free (answer);
      answer = g_strdup_printf ("%s · %s", row->answer, field->theirs);
    }
  return hs_asked_add (book, job_id, question, answer, now, error);
}

static gboolean
merge_field (HsBook *book, const char *job_id, const Field *field, HsInstant now, GPtrArray *clashes, GError **error)
{
  HsCallClash *clash;

  if (is_same (field->mine, field->was))
    *field->merged = field->theirs;
  if (is_same (field->mine, field->was) || is_same (field->theirs, field->was) || is_same (field->theirs, field->mine)
      || hs_ops_blank_to_null (field->theirs) == NULL)
    return TRUE;
  clash = g_new0 (HsCallClash, 1);
  clash->field = g_strdup (field->id);
  clash->theirs = g_strdup (field->theirs);
  clash->mine = g_strdup (field->mine != NULL ? field->mine : "");
  g_ptr_array_add (clashes, clash);
  return keep_theirs (book, job_id, field, now, error);
}

static char *
say_minutes (int minutes)
{
  return minutes > 0 ? g_strdup_printf ("%d", minutes) : NULL;
}

static gboolean
merge_minutes (HsBook *book, const HsCallSlip *slip, const HsCallSlip *was, int theirs, HsCallSlip *merged,
               HsInstant now, GPtrArray *clashes, GError **error)
{
  g_autofree char *mine_text = say_minutes (slip->minutes);
  g_autofree char *was_text = say_minutes (was->minutes);
  g_autofree char *theirs_text = say_minutes (theirs);
  const char *text = mine_text;
  const Field field = { "minutes", "Minutes of work", mine_text, was_text, theirs_text, &text };

  if (!merge_field (book, slip->job_id, &field, now, clashes, error))
    return FALSE;
  merged->minutes = text == theirs_text ? theirs : slip->minutes;
  return TRUE;
}

static gboolean
merge (HsBook *book, const HsCallSlip *slip, const HsCallSlip *was, HsInstant now, GPtrArray *clashes, GError **error)
{
  g_autoptr (HsJobView) view = hs_job_view_load (book, slip->job_id, now, error);
  HsCallSlip merged = *slip;
  const char *name;
  g_autofree char *id = NULL;

  if (view == NULL)
    return FALSE;
  name = hs_call_is_placeholder (view->tag->customer, view->phone) ? NULL : view->tag->customer;
  {
    const Field fields[] = {
      { "phone", "Phone", slip->phone, was->phone, view->phone, &merged.phone },
      { "name", "Name", slip->name, was->name, name, &merged.name },
      { "words", "What the caller says", slip->words, was->words, view->tag->words, &merged.words },
      { "plate", "Plate", slip->plate, was->plate, view->tag->plate, &merged.plate },
      { "street", "Street", slip->street, was->street, view->street, &merged.street },
    };

    for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
      if (!merge_field (book, slip->job_id, &fields[i], now, clashes, error))
        return FALSE;
  }
  if (!merge_minutes (book, slip, was, view->tag->minutes, &merged, now, clashes, error))
    return FALSE;
  id = hs_call_take (book, &merged, now, error);
  return id != NULL;
}

gboolean
hs_call_merge (HsBook *book, const HsCallSlip *slip, const HsCallSlip *was, HsInstant now, GPtrArray **ret_clashes,
               GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) clashes = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_call_clash_free);

  g_return_val_if_fail (slip->job_id != NULL, FALSE);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, slip->job_id, "call slip");
  if (!hs_store_end (store, merge (book, slip, was, now, clashes, error), error))
    return FALSE;
  *ret_clashes = g_steal_pointer (&clashes);
  return TRUE;
}
