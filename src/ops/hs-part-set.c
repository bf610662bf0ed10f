// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * A part that a job installed, corrected field by field, or taken out again. Refuses what cannot be, naming the field
 * and what to write instead; a part of another vehicle's life, or of a squared job, stays as it is.
 */

#include "hs-repair-private.h"

#include "hs-bill-private.h"
#include "hs-choice-private.h"
#include "hs-decimal.h"
#include "hs-desk-op.h"
#include "hs-finding-row.h"
#include "hs-money-row.h"
#include "hs-need-row.h"
#include "hs-odometer-op.h"
#include "hs-ops-private.h"
#include "hs-stock-row.h"
#include "hs-text.h"

#include <string.h>

#define MOST_MONTHS 600
#define MOST_MILES G_GINT64_CONSTANT (1000000)

const char *const hs_part_fields[]
    = { "what", "place", "serial", "date_code", "maker", "bill", "months", "miles", "odometer", "why", "old", "cost",
        NULL };

typedef struct
{
  HsBook *book;
  HsStore *store;
  HsJobRow *job;
  HsInstalledRow *row;
  HsInstant now;
  gboolean past_ceiling; /* that its price passes the go-ahead was told */
} Change;

static void
change_clear (Change *change)
{
  hs_job_row_free (change->job);
  hs_installed_row_free (change->row);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Change, change_clear)

gboolean
hs_part_check_months (gint64 months, GError **error)
{
  if (months >= 0 && months <= MOST_MONTHS)
    return TRUE;
  return hs_ops_refuse (error, "Months of cover: write 0 to %d, 0 for none.", MOST_MONTHS);
}

gboolean
hs_part_check_millimiles (gint64 millimiles, GError **error)
{
  if (millimiles >= 0 && millimiles <= MOST_MILES * 1000)
    return TRUE;
  return hs_ops_refuse (error, "Miles of cover: write 0 to 1000000, 0 for none.");
}

static gboolean
load_change (Change *change, const char *part_id, GError **error)
{
  if (!hs_installed_row_load (change->store, part_id, &change->row, error))
    return FALSE;
  if (change->row->job_id == NULL)
    return hs_ops_refuse (error, "No job of this book installed “%s”.", change->row->what);
  return hs_job_row_load (change->store, change->row->job_id, &change->job, error);
}

static gboolean
read_whole (const char *field, const char *text, gint64 *ret_value, GError **error)
{
  g_autoptr (GError) wrong = NULL;

  *ret_value = 0;
  if (hs_text_is_blank (text) || hs_decimal_parse (text, 0, ret_value, &wrong))
    return TRUE;
  return hs_ops_refuse (error, "%s: “%s” is not a whole number; write digits alone.", field, text);
}

static gboolean
set_number (Change *change, const char *field, const char *text, GError **error)
{
  gint64 value;

  if (g_str_equal (field, "months"))
    {
      if (!read_whole ("Months of cover", text, &value, error) || !hs_part_check_months (value, error))
        return FALSE;
      if (change->row->stands_in_for_id != NULL)
        return hs_ops_refuse (error, "“%s” stands in for one under warranty and keeps the cover of that one.",
                              change->row->what);
      change->row->warranty_months = value;
      return TRUE;
    }
  if (g_str_equal (field, "miles"))
    {
      if (!read_whole ("Miles of cover", text, &value, error)
          || !hs_part_check_millimiles (CLAMP (value, -1, MOST_MILES + 1) * 1000, error))
        return FALSE;
      change->row->warranty_millimiles = value == 0 ? HS_INT_NONE : value * 1000;
      return TRUE;
    }
  if (!read_whole ("Odometer", text, &value, error))
    return FALSE;
  change->row->installed_odometer = value == 0 ? HS_INT_NONE : value;
  return value == 0 || hs_odometer_note (change->book, change->job, value, change->now, error);
}

/* The finding that @text names by its id or its words; without one, the only cause there is. */
static gboolean
find_reason (const Change *change, const char *text, char **ret_id, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GString) causes = g_string_new (NULL);
  const HsFindingRow *only = NULL;
  guint n = 0;

  if (!hs_finding_row_list_of (change->store, change->job->id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsFindingRow *row = g_ptr_array_index (rows, i);
      g_autofree char *folded = hs_text_fold (row->what);
      g_autofree char *wanted = hs_text_fold (text);

      if (g_str_equal (row->id, text) || g_str_equal (folded, wanted))
        {
          *ret_id = g_strdup (row->id);
          return TRUE;
        }
      if (!g_str_equal (row->role, "cause") && !g_str_equal (row->role, "seen"))
        continue;
      g_string_append_printf (causes, "%s“%s”", n++ > 0 ? ", " : "", row->what);
      only = row;
    }
  if (!g_str_equal (text, "failed"))
    return hs_ops_refuse (error, "Why the old one went: “%s” is no finding of %s. Write failed, due, none before or "
                                 "not known, or a finding's words.", text, change->job->number);
  if (n == 0)
    return hs_ops_refuse (error, "Why did the old one fail? Write that down under “Why it failed” first, or say "
                                 "not known and tell the customer.");
  if (n > 1)
    return hs_ops_refuse (error, "Which finding says why the old one failed? There are: %s.", causes->str);
  *ret_id = g_strdup (only->id);
  return TRUE;
}

static gboolean
set_why (Change *change, const char *text, GError **error)
{
  HsInstalledRow *row = change->row;
  g_autofree char *finding_id = NULL;
  const char *why = NULL;

  if (!hs_text_is_blank (text) && !hs_words_parse (HS_WORDS_REPLACED_WHY, text, &why, NULL))
    why = "failed";
  if (g_strcmp0 (why, "failed") == 0
      && !find_reason (change, hs_words_index (HS_WORDS_REPLACED_WHY, text) < 0 ? text : "failed", &finding_id, error))
    return FALSE;
  hs_row_set (&row->replaced_why, why);
  hs_row_set (&row->replaced_finding_id, finding_id);
  row->told_at = g_strcmp0 (why, "not_known") == 0 ? change->now : HS_INSTANT_NONE;
  return TRUE;
}

/* The price follows; one that would pass the ceiling says by how much first. */
static gboolean
set_cost (Change *change, const char *text, GError **error)
{
  const HsInstalledRow *row = change->row;
  gint64 before_cents;

  if (!hs_go_ahead_short (change->book, change->job->id, change->now, &before_cents, error)
      || !hs_bill_set_cost (change->book, change->job->id, row->id, row->what, text, error))
    return FALSE;
  return change->past_ceiling
         || hs_go_ahead_check_past (change->book, change->job->id, row->what, before_cents, change->now, error);
}

static gboolean
set_field (Change *change, const char *field, const char *text, GError **error)
{
  HsInstalledRow *row = change->row;
  const struct
  {
    const char *field;
    char **place;
  } texts[] = {
    { "what", &row->what },   { "place", &row->place }, { "serial", &row->serial },
    { "date_code", &row->date_stamp }, { "maker", &row->maker }, { "bill", &row->supplier_bill },
  };
  const char *old_part;

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (g_str_equal (texts[i].field, field))
      {
        if (i == 0 && hs_text_is_blank (text))
          return hs_ops_refuse (error, "What was installed? A part needs a name.");
        hs_row_set (texts[i].place, hs_ops_blank_to_null (text));
        return TRUE;
      }
  if (g_str_equal (field, "cost"))
    return set_cost (change, text, error);
  if (g_str_equal (field, "why"))
    return set_why (change, text, error);
  if (!g_str_equal (field, "old"))
    return set_number (change, field, text, error);
  if (!hs_ops_word (HS_WORDS_OLD_PART, hs_ops_blank_to_null (text), NULL, &old_part, error))
    return FALSE;
  hs_row_set (&row->old_part, old_part);
  return TRUE;
}

static gboolean
set_part (Change *change, const char *part_id, const char *field, const char *text, GError **error)
{
  if (!load_change (change, part_id, error))
    return FALSE;
  hs_ops_note (change->store, change->job->id, "%s: %s", change->row->what, field);
  return set_field (change, field, text == NULL ? "" : text, error)
         && hs_installed_row_save (change->store, change->row, error);
}

static gboolean
set_once (Change *change, const char *part_id, const char *field, const char *text, GError **error)
{
  if (!g_strv_contains (hs_part_fields, field))
    return hs_ops_refuse (error, "A part has no field “%s”.", field);
  if (!hs_store_begin (change->store, change->now, error))
    return FALSE;
  return hs_store_end (change->store, set_part (change, part_id, field, text, error), error);
}

gboolean
hs_part_set (HsBook *book, const char *part_id, const char *field, const char *text, HsInstant now, GError **error)
{
  g_auto (Change) change = { .book = book, .store = hs_book_get_store (book), .now = now };

  return set_once (&change, part_id, field, text, error);
}

gboolean
hs_part_set_past_ceiling (HsBook *book, const char *part_id, const char *field, const char *text, HsInstant now,
                          GError **error)
{
  g_auto (Change) change = { .book = book, .store = hs_book_get_store (book), .now = now, .past_ceiling = TRUE };

  return set_once (&change, part_id, field, text, error);
}

/* Taking out --------------------------------------------------------------------------------------------------------*/

/* A line that a picked option put on the bill stays there; it only is no longer this part's. */
static gboolean
drop_line (const Change *change, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;

  if (!hs_line_row_list_of (change->store, change->job->id, &lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *line = g_ptr_array_index (lines, i);

      if (g_strcmp0 (line->installed_part_id, change->row->id) != 0)
        continue;
      if (line->advice_line_id == NULL)
        return hs_line_row_delete (change->store, line->id, error);
      hs_row_set (&line->installed_part_id, NULL);
      return hs_line_row_save (change->store, line, error);
    }
  return TRUE;
}

/* What came out of the van on this job goes back into it. */
static gboolean
give_back (const Change *change, GError **error)
{
  g_autoptr (GPtrArray) moves = NULL;
  gint64 out_milli = 0;
  g_autoptr (HsStockMoveRow) back = hs_stock_move_row_new ();

  if (change->row->part_id == NULL)
    return TRUE;
  if (!hs_stock_move_row_list_of (change->store, change->row->part_id, &moves, error))
    return FALSE;
  for (guint i = 0; i < moves->len; i++)
    {
      const HsStockMoveRow *move = g_ptr_array_index (moves, i);

      if (g_strcmp0 (move->job_id, change->job->id) == 0 && g_str_equal (move->why, "installed"))
        {
          out_milli -= move->quantity_milli;
          hs_row_set (&back->van_id, move->van_id);
        }
    }
  if (out_milli < 1000)
    return TRUE;
  hs_row_set (&back->part_id, change->row->part_id);
  hs_row_set (&back->why, "installed");
  hs_row_set (&back->job_id, change->job->id);
  back->quantity_milli = 1000;
  back->cost_cents = 0;
  back->at = change->now;
  return hs_stock_move_row_save (change->store, back, error);
}

static gboolean
want_again (const Change *change, GError **error)
{
  g_autoptr (GPtrArray) needs = NULL;

  if (change->row->part_id == NULL)
    return TRUE;
  if (!hs_need_row_list_of (change->store, change->job->id, &needs, error))
    return FALSE;
  for (guint i = 0; i < needs->len; i++)
    {
      HsNeedRow *need = g_ptr_array_index (needs, i);

      if (!g_str_equal (need->part_id, change->row->part_id) || !g_str_equal (need->state, "installed"))
        continue;
      hs_row_set (&need->state, "in_the_van");
      return hs_need_row_save (change->store, need, error);
    }
  return TRUE;
}

/* The one that went when this one came: the newest that this job took off. */
static gboolean
put_old_back (const Change *change, GError **error)
{
  const HsInstalledRow *row = change->row;
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_installed_row_list_of_vehicle (change->store, row->vehicle_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      HsInstalledRow *old = g_ptr_array_index (rows, i);

      if (g_strcmp0 (old->removed_job_id, change->job->id) != 0 || !hs_repair_is_same_place (old, row))
        continue;
      old->removed_on = HS_DATE_NONE;
      hs_row_set (&old->removed_job_id, NULL);
      return hs_installed_row_save (change->store, old, error);
    }
  return TRUE;
}

static gboolean
remove_part (Change *change, const char *part_id, GError **error)
{
  if (!load_change (change, part_id, error))
    return FALSE;
  if (change->row->removed_on != HS_DATE_NONE)
    return hs_ops_refuse (error, "“%s” was taken off the vehicle later; it stays on record.", change->row->what);
  hs_ops_note (change->store, change->job->id, "not installed: %s", change->row->what);
  return drop_line (change, error) && hs_bill_tax_job (change->book, change->job->id, error)
         && give_back (change, error) && want_again (change, error)
         && hs_installed_row_delete (change->store, part_id, error) && put_old_back (change, error);
}

gboolean
hs_part_remove (HsBook *book, const char *part_id, HsInstant now, GError **error)
{
  g_auto (Change) change = { .book = book, .store = hs_book_get_store (book), .now = now };

  if (!hs_store_begin (change.store, now, error))
    return FALSE;
  return hs_store_end (change.store, remove_part (&change, part_id, error), error);
}
