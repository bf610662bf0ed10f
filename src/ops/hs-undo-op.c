// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Takes back the last step of the book and does it again. Finding the step and turning it is one transaction, so that
 * two windows never take back each other's without saying so. It refuses what hs-undo.h refuses, and asks before it
 * touches what was done on another day.
 */

#include "hs-undo-op.h"

#include "hs-job-row.h"
#include "hs-undo.h"

void
hs_taken_back_free (HsTakenBack *taken)
{
  if (taken == NULL)
    return;
  g_free (taken->job_id);
  g_free (taken->number);
  g_free (taken->what);
  g_free (taken->kept);
  g_free (taken);
}

gboolean
hs_undo_mark (HsBook *book, gint64 *ret_mark, GError **error)
{
  g_autoptr (HsUndoStep) step = NULL;

  if (!hs_undo_newest (hs_book_get_store (book), FALSE, &step, error))
    return FALSE;
  *ret_mark = step != NULL ? step->seq : 0;
  return TRUE;
}

static HsTakenBack *
describe (HsStore *store, const HsUndoStep *step, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  HsTakenBack *taken;

  if (!hs_job_row_load (store, step->job_id, &job, error))
    return NULL;
  taken = g_new0 (HsTakenBack, 1);
  taken->job_id = g_strdup (step->job_id);
  taken->number = g_strdup (job->number);
  taken->what = g_strdup (step->what);
  taken->at = step->at;
  taken->mark = step->seq;
  return taken;
}

/* Takes @step back or does it again. */
static gboolean
turn (HsStore *store, const HsUndoStep *step, gboolean back, HsInstant now, HsTakenBack *taken, GError **error)
{
  g_autoptr (HsUndoStep) turned = NULL;

  if (!(back ? hs_undo_last (store, step->job_id, now, &turned, error)
             : hs_undo_again (store, step->job_id, now, &turned, error)))
    return FALSE;
  taken->kept = g_strdup (turned->kept);
  return TRUE;
}

/* @ret_taken stays %NULL if there is nothing. */
static gboolean
take_back (HsStore *store, gint64 after, gint64 asked, HsInstant now, HsTakenBack **ret_taken, GError **error)
{
  g_autoptr (HsUndoStep) step = NULL;

  if (!hs_undo_newest (store, FALSE, &step, error))
    return FALSE;
  if (step == NULL || step->seq <= after)
    return TRUE;
  *ret_taken = describe (store, step, error);
  if (*ret_taken == NULL)
    return FALSE;
  (*ret_taken)->done = now - step->at <= HS_TAKE_BACK_SECONDS || step->seq == asked;
  return !(*ret_taken)->done || turn (store, step, TRUE, now, *ret_taken, error);
}

static gboolean
do_again (HsStore *store, HsInstant now, HsTakenBack **ret_taken, GError **error)
{
  g_autoptr (HsUndoStep) step = NULL;

  if (!hs_undo_newest (store, TRUE, &step, error))
    return FALSE;
  if (step == NULL)
    return TRUE;
  *ret_taken = describe (store, step, error);
  if (*ret_taken == NULL)
    return FALSE;
  (*ret_taken)->done = TRUE;
  return turn (store, step, FALSE, now, *ret_taken, error);
}

HsTakenBack *
hs_take_back (HsBook *book, gint64 after, gint64 asked, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsTakenBack) taken = NULL;

  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, take_back (store, after, asked, now, &taken, error), error))
    return NULL;
  return g_steal_pointer (&taken);
}

HsTakenBack *
hs_do_again (HsBook *book, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsTakenBack) taken = NULL;

  if (!hs_store_begin (store, now, error) || !hs_store_end (store, do_again (store, now, &taken, error), error))
    return NULL;
  return g_steal_pointer (&taken);
}
