// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Writing options down: their words, their place in a group, their lines. Refuses to change what was answered, so that
 * an answer always stands beside what it was given to.
 */

#include "hs-choice-private.h"

#include "hs-decimal.h"
#include "hs-ops-private.h"

#define ONE 1000

static gboolean
read_rank (const char *text, gint64 *ret_rank, GError **error)
{
  gint64 rank;
  int index;

  if (hs_ops_blank_to_null (text) == NULL)
    {
      *ret_rank = HS_INT_NONE;
      return TRUE;
    }
  if (g_ascii_isdigit (*text))
    {
      if (!hs_decimal_parse (text, 0, &rank, error))
        return FALSE;
      *ret_rank = rank;
      return (rank >= 1 && rank <= 99) || hs_ops_refuse (error, "A place in a group is 1 to 99, not %s.", text);
    }
  if (!hs_words_parse_index (HS_WORDS_RANK, text, &index, error))
    return FALSE;
  *ret_rank = index + 1;
  return TRUE;
}

static void
set_text (char **field, const char *text)
{
  g_autofree char *trimmed = NULL;

  if (text == NULL)
    return;
  trimmed = g_strstrip (g_strdup (text));
  hs_row_set (field, *trimmed == '\0' ? NULL : trimmed);
}

static gboolean
fill_option (const HsChoiceEntry *entry, HsAdviceRow *row, GError **error)
{
  g_autofree char *wording = g_strdup (entry->wording);

  if (entry->rank != NULL && !read_rank (entry->rank, &row->rank, error))
    return FALSE;
  set_text (&row->option_group, entry->group);
  set_text (&row->risk_told, entry->risk);
  set_text (&row->finding_id, entry->finding_id);
  if (wording != NULL)
    hs_row_set (&row->wording, g_strstrip (wording));
  if (hs_ops_blank_to_null (row->wording) == NULL)
    return hs_ops_refuse (error, "What is recommended? An option needs words.");
  return TRUE;
}

static gboolean
check_open (const HsAdviceRow *row, GError **error)
{
  if (g_str_equal (row->choice, "open"))
    return TRUE;
  return hs_ops_refuse (error, "“%s” was answered with %s. Take the answer back first, then change it.", row->wording,
                        hs_words_label (HS_WORDS_CHOICE, row->choice));
}

static gboolean
load_open (HsStore *store, const char *choice_id, HsAdviceRow **ret_row, GError **error)
{
  g_autoptr (HsAdviceRow) row = NULL;

  if (!hs_advice_row_load (store, choice_id, &row, error) || !check_open (row, error))
    return FALSE;
  *ret_row = g_steal_pointer (&row);
  return TRUE;
}

static gboolean
add_line (HsBook *book, const HsAdviceRow *row, const HsChoiceLineEntry *entry, HsAdviceLineRow *line, GError **error)
{
  hs_row_set (&line->advice_id, row->id);
  return hs_choice_price_line (book, entry, line, error)
         && hs_advice_line_row_save (hs_book_get_store (book), line, error);
}

/* The other one may be answered; then it keeps what it was answered with, and its group if it has one. */
static gboolean
stand_beside (HsStore *store, const char *other_id, HsAdviceRow *row, GError **error)
{
  g_autoptr (HsAdviceRow) other = NULL;

  if (other_id == NULL)
    return TRUE;
  if (!hs_advice_row_load (store, other_id, &other, error))
    return FALSE;
  if (!g_str_equal (other->job_id, row->job_id))
    return hs_ops_refuse (error, "“%s” is an option of another job.", other->wording);
  if (other->option_group != NULL)
    {
      hs_row_set (&row->option_group, other->option_group);
      return TRUE;
    }
  if (row->option_group == NULL)
    hs_row_set (&row->option_group, other->wording);
  if (!check_open (other, error))
    return FALSE;
  hs_row_set (&other->option_group, row->option_group);
  return hs_advice_row_save (store, other, error);
}

static gboolean
add_option (HsBook *book, HsAdviceRow *row, const HsChoiceEntry *entry, const HsChoiceLineEntry *lines, gsize n_lines,
            GError **error)
{
  if (!stand_beside (hs_book_get_store (book), entry->beside, row, error)
      || !hs_advice_row_save (hs_book_get_store (book), row, error))
    return FALSE;
  for (gsize i = 0; i < n_lines; i++)
    {
      g_autoptr (HsAdviceLineRow) line = hs_advice_line_row_new ();

      if (!add_line (book, row, &lines[i], line, error))
        return FALSE;
    }
  return hs_choice_reprice (book, row, error);
}

char *
hs_choice_add (HsBook *book, const char *job_id, const HsChoiceEntry *entry, const HsChoiceLineEntry *lines,
               gsize n_lines, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsAdviceRow) row = hs_advice_row_new ();

  row->price_cents = 0;
  if (!fill_option (entry, row, error) || !hs_store_begin (store, now, error))
    return NULL;
  hs_ops_note (store, job_id, "choice: %s", row->wording);
  hs_row_set (&row->job_id, job_id);
  if (!hs_store_end (store, add_option (book, row, entry, lines, n_lines, error), error))
    return NULL;
  return g_strdup (row->id);
}

static gboolean
change_option (HsStore *store, const char *choice_id, const HsChoiceEntry *entry, GError **error)
{
  g_autoptr (HsAdviceRow) row = NULL;

  if (!load_open (store, choice_id, &row, error) || !fill_option (entry, row, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "choice changed: %s", row->wording);
  return hs_advice_row_save (store, row, error);
}

gboolean
hs_choice_change (HsBook *book, const char *choice_id, const HsChoiceEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, change_option (store, choice_id, entry, error), error);
}

static gboolean
remove_option (HsStore *store, const char *choice_id, GError **error)
{
  g_autoptr (HsAdviceRow) row = NULL;
  g_autoptr (GPtrArray) lines = NULL;

  if (!load_open (store, choice_id, &row, error) || !hs_advice_line_row_list_of (store, choice_id, &lines, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "choice removed: %s", row->wording);
  for (guint i = 0; i < lines->len; i++)
    if (!hs_advice_line_row_delete (store, ((const HsAdviceLineRow *) g_ptr_array_index (lines, i))->id, error))
      return FALSE;
  return hs_advice_row_delete (store, row->id, error);
}

gboolean
hs_choice_remove (HsBook *book, const char *choice_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, remove_option (store, choice_id, error), error);
}

static gboolean
find_line (HsStore *store, const char *choice_id, const char *line_id, HsAdviceLineRow **ret_line, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;

  *ret_line = NULL;
  if (line_id == NULL)
    return TRUE;
  if (!hs_advice_line_row_list_of (store, choice_id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len && *ret_line == NULL; i++)
    if (g_str_equal (((const HsAdviceLineRow *) g_ptr_array_index (lines, i))->id, line_id))
      *ret_line = hs_advice_line_row_copy (g_ptr_array_index (lines, i));
  return TRUE;
}

/* The price of minutes follows the option's other lines. */
static gboolean
is_same_line (const HsAdviceLineRow *one, const HsAdviceLineRow *other)
{
  gboolean by_minutes = g_str_equal (one->kind, "labor") && one->quantity_milli != ONE;

  return g_str_equal (one->kind, other->kind) && g_str_equal (one->what, other->what)
         && one->quantity_milli == other->quantity_milli && one->cost_cents == other->cost_cents
         && g_strcmp0 (one->part_id, other->part_id) == 0 && (by_minutes || one->price_cents == other->price_cents);
}

/* Sent again, because nobody knew yet that it had arrived; what was typed since is not lost without a word. */
static gboolean
check_same (HsBook *book, const HsAdviceLineRow *there, const HsChoiceLineEntry *entry, GError **error)
{
  g_autoptr (HsAdviceLineRow) again = hs_advice_line_row_new ();
  g_autoptr (HsAdviceRow) row = NULL;

  if (!hs_choice_price_line (book, entry, again, error)
      || !hs_advice_row_load (hs_book_get_store (book), there->advice_id, &row, error))
    return FALSE;
  return is_same_line (again, there)
         || hs_ops_refuse (error, "“%s” of “%s” was written down otherwise before. Open the option again, look at the "
                                  "line, and write it anew if it is wrong.", there->what, row->wording);
}

static gboolean
add_line_to (HsBook *book, const char *choice_id, const HsChoiceLineEntry *entry, HsAdviceLineRow *line, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsAdviceLineRow) there = NULL;
  g_autoptr (HsAdviceRow) row = NULL;

  hs_row_set (&line->id, entry->id);
  if (!find_line (store, choice_id, entry->id, &there, error))
    return FALSE;
  if (there != NULL)
    return check_same (book, there, entry, error);
  if (!load_open (store, choice_id, &row, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "choice: %s", row->wording);
  if (!add_line (book, row, entry, line, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "choice “%s”: %s", row->wording, line->what);
  return hs_choice_reprice (book, row, error);
}

char *
hs_choice_line_add (HsBook *book, const char *choice_id, const HsChoiceLineEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsAdviceLineRow) line = hs_advice_line_row_new ();

  if (!hs_store_begin (store, now, error))
    return NULL;
  if (!hs_store_end (store, add_line_to (book, choice_id, entry, line, error), error))
    return NULL;
  return g_strdup (line->id);
}

static gboolean
remove_line (HsBook *book, const char *line_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsAdviceLineRow) line = NULL;
  g_autoptr (HsAdviceRow) row = NULL;

  if (!hs_advice_line_row_load (store, line_id, &line, error) || !load_open (store, line->advice_id, &row, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "choice “%s” without %s", row->wording, line->what);
  return hs_advice_line_row_delete (store, line->id, error) && hs_choice_reprice (book, row, error);
}

gboolean
hs_choice_line_remove (HsBook *book, const char *line_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, remove_line (book, line_id, error), error);
}
