// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What stood before a shared day was accepted, and taking it back. It is kept in the book's log of changes, one entry a
 * day that was accepted and one for each time that it was taken back, so that it outlives the program, and the window
 * and the command line can take back each other's. Refuses what was changed again since. Parts are not moved: what lies
 * in a van or is laid aside stays where it is.
 */

#include "hs-share-private.h"

#include "hs-job-row.h"
#include "hs-log-row.h"
#include "hs-ops-error.h"
#include "hs-plan-row.h"
#include "hs-van-row.h"

#define DEED "day_share"

/* Calls that changed vans: job, number, from ("" for none), to; then of each van: the order before, and in one text the
 * one that came of it. */
#define UNDO_TYPE "(a(ssss)a(sm(xxa(ssbxxx))s))"

gboolean
hs_share_undo_keep (HsStore *store, HsDate day, GVariantBuilder *moves, GVariantBuilder *vans, GError **error)
{
  g_autofree char *date = hs_date_format (day);
  g_autoptr (GVariant) undo = g_variant_ref_sink (g_variant_new (UNDO_TYPE, moves, vans));
  g_autofree char *text = g_variant_print (undo, FALSE);

  return hs_log_row_add_deed (store, DEED, date, "added", text, error);
}

/* @ret_text: (nullable): what was kept last and is not taken back yet */
static gboolean
find_undo (HsStore *store, HsDate day, char **ret_text, GError **error)
{
  g_autofree char *date = hs_date_format (day);
  g_autoptr (GPtrArray) log = NULL;
  g_autoptr (GPtrArray) open = g_ptr_array_new ();

  if (!hs_log_row_list_of (store, DEED, date, &log, error))
    return FALSE;
  for (guint i = 0; i < log->len; i++)
    {
      const HsLogRow *row = g_ptr_array_index (log, i);

      if (g_str_equal (row->act, "added"))
        g_ptr_array_add (open, row->became);
      else if (open->len > 0)
        g_ptr_array_set_size (open, (int) open->len - 1);
    }
  *ret_text = open->len > 0 ? g_strdup (g_ptr_array_index (open, open->len - 1)) : NULL;
  return TRUE;
}

gboolean
hs_share_can_take_back (HsBook *book, HsDate day, gboolean *ret_can, GError **error)
{
  g_autofree char *text = NULL;

  if (!find_undo (hs_book_get_store (book), day, &text, error))
    return FALSE;
  *ret_can = text != NULL;
  return TRUE;
}

/* Taking back ------------------------------------------------------------------------------------------------------ */

static gboolean
refuse (GError **error, const char *message)
{
  g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, message);
  return FALSE;
}

static gboolean
set_letter (HsStore *store, const char *van_id, char **letter, GError **error)
{
  g_autoptr (HsVanRow) van = NULL;

  if (van_id == NULL)
    return TRUE;
  if (!hs_van_row_load (store, van_id, &van, error))
    return FALSE;
  hs_row_set (letter, van->letter);
  return TRUE;
}

static gboolean
restore_job (HsStore *store, GVariant *move, GPtrArray *back, GError **error)
{
  const char *job_id, *number, *from_id, *to_id;
  g_autoptr (HsJobRow) job = NULL;
  HsShareMove *moved;

  g_variant_get (move, "(&s&s&s&s)", &job_id, &number, &from_id, &to_id);
  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  if (g_strcmp0 (job->van_id, to_id) != 0 || !g_str_equal (job->stage, hs_stage_id (HS_STAGE_PROMISED)))
    {
      g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                   "%s has gone on since the calls were shared, so that cannot be taken back", number);
      return FALSE;
    }
  moved = g_new0 (HsShareMove, 1);
  g_ptr_array_add (back, moved);
  moved->job_id = g_strdup (job_id);
  moved->number = g_strdup (number);
  moved->from_id = g_strdup (to_id);
  moved->to_id = *from_id != '\0' ? g_strdup (from_id) : NULL;
  hs_row_set (&job->van_id, moved->to_id);
  return set_letter (store, moved->from_id, &moved->from, error)
         && set_letter (store, moved->to_id, &moved->to, error) && hs_job_row_save (store, job, error);
}

static gboolean
restore_order (HsStore *store, GVariant *van, HsDate day, GError **error)
{
  const char *van_id, *became;
  g_autoptr (GVariant) order = NULL;
  g_autofree char *now = NULL;

  g_variant_get (van, "(&s@m(xxa(ssbxxx))&s)", &van_id, &order, &became);
  now = hs_share_order_describe (store, van_id, day, error);
  if (now == NULL)
    return FALSE;
  if (!g_str_equal (now, became))
    return refuse (error, "Another order was accepted since the calls were shared, so that cannot be taken back");
  return hs_share_order_put (store, van_id, day, order, error);
}

static gboolean
restore (HsStore *store, HsDate day, GVariant *undo, GPtrArray *back, GError **error)
{
  g_autoptr (GVariant) moves = g_variant_get_child_value (undo, 0);
  g_autoptr (GVariant) vans = g_variant_get_child_value (undo, 1);
  g_autofree char *date = hs_date_format (day);

  for (gsize i = 0; i < g_variant_n_children (moves); i++)
    {
      g_autoptr (GVariant) move = g_variant_get_child_value (moves, i);

      if (!restore_job (store, move, back, error))
        return FALSE;
    }
  for (gsize i = 0; i < g_variant_n_children (vans); i++)
    {
      g_autoptr (GVariant) van = g_variant_get_child_value (vans, i);

      if (!restore_order (store, van, day, error))
        return FALSE;
    }
  return hs_log_row_add_deed (store, DEED, date, "removed", NULL, error);
}

static gboolean
take_back (HsBook *book, HsDate day, HsInstant now, GPtrArray *back, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *text = NULL;
  g_autoptr (GVariant) undo = NULL;

  if (!hs_share_check_day (book, day, now, error) || !find_undo (store, day, &text, error))
    return FALSE;
  if (text == NULL)
    return refuse (error, "No shared calls of this day were accepted: there is nothing to take back");
  undo = g_variant_parse (G_VARIANT_TYPE (UNDO_TYPE), text, NULL, NULL, NULL);
  if (undo == NULL)
    return refuse (error, "What stood before the calls were shared can no longer be read, so that cannot be taken "
                          "back: plan each van anew");
  return restore (store, day, undo, back, error);
}

GPtrArray *
hs_share_take_back (HsBook *book, HsDate day, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) back = g_ptr_array_new_with_free_func (hs_share_move_free);

  if (!hs_store_begin (store, now, error) || !hs_store_end (store, take_back (book, day, now, back, error), error))
    return NULL;
  return g_steal_pointer (&back);
}
