// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The visits of a job and its labor clock. A job may take several visits; the clock runs from arriving to leaving and
 * stands still in pauses, so that a trip for a part in mid-call is not sold as labor. Refuses to pause a clock that
 * does not run. When the machine's clock was put back, what happens later is stamped no earlier: the key that stamps it
 * is pressed at the curb, where nobody mends a clock. That it was is kept, for such a visit has no minutes
 * (hs-visit-minutes.c).
 */

#include "hs-job-op.h"
#include "hs-ops-private.h"
#include "hs-visit-private.h"
#include "hs-visit-row.h"

/* The latest visit if it is not over yet; %NULL if there is none. */
static gboolean
load_open_visit (HsStore *store, const char *job_id, HsVisitRow **ret_visit, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;
  const HsVisitRow *last;

  *ret_visit = NULL;
  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return FALSE;
  last = visits->len == 0 ? NULL : g_ptr_array_index (visits, visits->len - 1);
  if (last != NULL && last->left_at == HS_INSTANT_NONE)
    *ret_visit = hs_visit_row_copy (last);
  return TRUE;
}

gboolean
hs_visit_load_arrived (HsStore *store, const char *job_id, HsVisitRow **ret_visit, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;
  const HsVisitRow *found = NULL;

  *ret_visit = NULL;
  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return FALSE;
  for (guint i = 0; i < visits->len; i++)
    {
      const HsVisitRow *visit = g_ptr_array_index (visits, i);

      if (visit->arrived_at != HS_INSTANT_NONE)
        found = visit;
    }
  if (found != NULL)
    *ret_visit = hs_visit_row_copy (found);
  return TRUE;
}

static gboolean
load_open_pause (HsStore *store, const char *visit_id, HsPauseRow **ret_pause, GError **error)
{
  g_autoptr (GPtrArray) pauses = NULL;

  *ret_pause = NULL;
  if (!hs_pause_row_list_of (store, visit_id, &pauses, error))
    return FALSE;
  for (guint i = 0; i < pauses->len; i++)
    {
      const HsPauseRow *pause = g_ptr_array_index (pauses, i);

      if (pause->to_at == HS_INSTANT_NONE)
        {
          *ret_pause = hs_pause_row_copy (pause);
          break;
        }
    }
  return TRUE;
}

gboolean
hs_visit_clock_runs (HsStore *store, const char *job_id, gboolean *ret_runs, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsPauseRow) pause = NULL;

  if (!load_open_visit (store, job_id, &visit, error)
      || (visit != NULL && !load_open_pause (store, visit->id, &pause, error)))
    return FALSE;
  *ret_runs = visit != NULL && visit->arrived_at != HS_INSTANT_NONE && pause == NULL;
  return TRUE;
}

static gboolean
save_end (HsStore *store, HsPauseRow *pause, HsInstant now, GError **error)
{
  pause->to_at = MAX (now, pause->from_at);
  return hs_pause_row_save (store, pause, error);
}

static gboolean
end_pause (HsStore *store, const HsVisitRow *visit, HsInstant now, GError **error)
{
  g_autoptr (HsPauseRow) pause = NULL;

  if (!load_open_pause (store, visit->id, &pause, error))
    return FALSE;
  if (pause == NULL)
    return TRUE;
  return save_end (store, pause, now, error)
         && (now >= pause->from_at || hs_visit_keep_put_back (store, visit, now, error));
}

static gboolean
start_pause (HsStore *store, const char *visit_id, const char *why, HsInstant now, GError **error)
{
  g_autoptr (HsPauseRow) open = NULL;
  g_autoptr (HsPauseRow) pause = hs_pause_row_new ();

  if (!load_open_pause (store, visit_id, &open, error))
    return FALSE;
  if (open != NULL)
    return TRUE;
  hs_row_set (&pause->visit_id, visit_id);
  hs_row_set (&pause->why, why);
  pause->from_at = now;
  return hs_pause_row_save (store, pause, error);
}

/* A visit that stood still when the owner left was over when the clock stopped. */
static gboolean
close_visit (HsStore *store, HsVisitRow *visit, HsInstant now, GError **error)
{
  g_autoptr (HsPauseRow) pause = NULL;

  if (visit == NULL)
    return TRUE;
  if (!load_open_pause (store, visit->id, &pause, error))
    return FALSE;
  visit->left_at = MAX (pause != NULL ? pause->from_at : now, MAX (visit->rolling_at, visit->arrived_at));
  if (pause != NULL ? !save_end (store, pause, now, error)
                    : now < visit->arrived_at && !hs_visit_keep_put_back (store, visit, now, error))
    return FALSE;
  return hs_visit_row_save (store, visit, error);
}

static gboolean
open_visit (HsStore *store, const char *job_id, HsInstant rolling_at, HsInstant arrived_at, GError **error)
{
  g_autoptr (HsVisitRow) visit = hs_visit_row_new ();

  hs_row_set (&visit->job_id, job_id);
  visit->rolling_at = rolling_at;
  visit->arrived_at = arrived_at;
  return hs_visit_row_save (store, visit, error);
}

static gboolean
arrive (HsStore *store, const char *job_id, HsVisitRow *visit, HsInstant now, GError **error)
{
  if (visit == NULL)
    return open_visit (store, job_id, HS_INSTANT_NONE, now, error);
  if (visit->arrived_at != HS_INSTANT_NONE)
    return end_pause (store, visit, now, error);
  visit->arrived_at = MAX (now, visit->rolling_at);
  return hs_visit_row_save (store, visit, error);
}

/* Turned round on the way: nobody was there. */
static gboolean
take_back (HsStore *store, HsVisitRow *visit, HsInstant now, GError **error)
{
  if (visit != NULL && visit->arrived_at == HS_INSTANT_NONE)
    return hs_visit_row_delete (store, visit->id, error);
  return close_visit (store, visit, now, error);
}

gboolean
hs_visit_follow_move (HsStore *store, const char *job_id, HsStage from, HsStage to, HsInstant now, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;

  if (!load_open_visit (store, job_id, &visit, error))
    return FALSE;
  switch (to)
    {
    case HS_STAGE_CALLED_IN:
    case HS_STAGE_PENCILED:
    case HS_STAGE_PROMISED:
      return take_back (store, visit, now, error);
    case HS_STAGE_ROLLING:
      return take_back (store, visit, now, error) && open_visit (store, job_id, now, HS_INSTANT_NONE, error);
    case HS_STAGE_ON_SITE:
      return arrive (store, job_id, visit, now, error);
    case HS_STAGE_WAITING_PART:
    case HS_STAGE_WAITING_YES:
      return visit == NULL || start_pause (store, visit->id, hs_stage_label (to), now, error);
    case HS_STAGE_PROVEN:
      return visit == NULL || end_pause (store, visit, now, error);
    case HS_STAGE_SQUARED:
    case HS_STAGE_CALLED_OFF:
    case HS_STAGE_TURNED_AWAY:
      return close_visit (store, visit, now, error);
    }
  g_assert_not_reached ();
}

static gboolean
load_running_visit (HsStore *store, const char *job_id, HsVisitRow **ret_visit, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;

  if (!load_open_visit (store, job_id, &visit, error))
    return FALSE;
  if (visit == NULL || visit->arrived_at == HS_INSTANT_NONE)
    return hs_ops_refuse (error, "The labor clock does not run; nobody is at the vehicle.");
  *ret_visit = g_steal_pointer (&visit);
  return TRUE;
}

gboolean
hs_visit_pause (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsVisitRow) visit = NULL;

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_undo_note (store, job_id, "labor clock stopped");
  return hs_store_end (store, load_running_visit (store, job_id, &visit, error)
                                && start_pause (store, visit->id, NULL, now, error), error);
}

gboolean
hs_visit_resume (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsVisitRow) visit = NULL;

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_undo_note (store, job_id, "labor clock started");
  return hs_store_end (store, load_running_visit (store, job_id, &visit, error)
                                && end_pause (store, visit, now, error), error);
}

static gboolean
save_drive (HsStore *store, const char *job_id, gint64 seconds, gint64 millimiles, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;
  g_autoptr (HsVisitRow) visit = NULL;

  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return FALSE;
  if (visits->len == 0)
    return hs_ops_refuse (error, "This job has no visit yet.");
  visit = hs_visit_row_copy (g_ptr_array_index (visits, visits->len - 1));
  visit->drive_seconds = seconds;
  visit->drive_millimiles = millimiles;
  return hs_visit_row_save (store, visit, error);
}

gboolean
hs_visit_drive (HsBook *book, const char *job_id, gint64 seconds, gint64 millimiles, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (seconds < 0 || millimiles < 0)
    return hs_ops_refuse (error, "A drive takes no less than nothing.");
  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_undo_note (store, job_id, "drive");
  return hs_store_end (store, save_drive (store, job_id, seconds, millimiles, error), error);
}

static gint64
count_seconds (const HsVisitRow *visit, GPtrArray *pauses, HsInstant end)
{
  gint64 seconds = MAX (0, end - visit->arrived_at);

  for (guint i = 0; i < pauses->len; i++)
    {
      const HsPauseRow *pause = g_ptr_array_index (pauses, i);
      HsInstant until = pause->to_at != HS_INSTANT_NONE ? MIN (pause->to_at, end) : end;

      seconds -= MAX (0, until - MAX (pause->from_at, visit->arrived_at));
    }
  return seconds;
}

/* @until: what came later is cut off. */
static gboolean
add_seconds (HsStore *store, const HsVisitRow *visit, HsInstant now, HsInstant until, gint64 *seconds, GError **error)
{
  HsInstant end = visit->left_at != HS_INSTANT_NONE ? visit->left_at : now;
  g_autoptr (GPtrArray) pauses = NULL;

  if (visit->arrived_at == HS_INSTANT_NONE)
    return TRUE;
  if (!hs_pause_row_list_of (store, visit->id, &pauses, error))
    return FALSE;
  if (!hs_visit_is_unclocked (visit, pauses, now))
    *seconds += count_seconds (visit, pauses, MIN (end, until));
  return TRUE;
}

gboolean
hs_visit_add_seconds (HsStore *store, const HsVisitRow *visit, HsInstant now, gint64 *seconds, GError **error)
{
  return add_seconds (store, visit, now, G_MAXINT64, seconds, error);
}

gboolean
hs_visit_seconds (HsBook *book, const char *job_id, HsInstant now, gint64 *ret_seconds, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) visits = NULL;
  gint64 seconds = 0;

  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return FALSE;
  for (guint i = 0; i < visits->len; i++)
    if (!hs_visit_add_seconds (store, g_ptr_array_index (visits, i), now, &seconds, error))
      return FALSE;
  *ret_seconds = seconds;
  return TRUE;
}

gboolean
hs_visit_seconds_until (HsBook *book, const char *job_id, HsInstant until, gint64 *ret_seconds, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) visits = NULL;
  gint64 seconds = 0;

  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return FALSE;
  for (guint i = 0; i < visits->len; i++)
    if (!add_seconds (store, g_ptr_array_index (visits, i), G_MAXINT64, until, &seconds, error))
      return FALSE;
  *ret_seconds = seconds;
  return TRUE;
}
