// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Visits of which the labor clock has no minutes, since the machine's clock was put back between their stamps: one of
 * them is before the one that it comes after, or later than now. Where what happened was stamped no earlier, so that
 * the stamps stand in order, a pause that begins before the arrival keeps what the clock said. Their minutes are never
 * guessed; the owner types them, and the stamps are moved so far apart. Refuses minutes where the clock has its own,
 * and those of a job that is squared up.
 */

#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-ops-private.h"
#include "hs-visit-private.h"
#include "hs-visit-row.h"

#define MOST_MINUTES (7 * HS_MINUTES_PER_DAY)

/* Of a visit that was closed in a pause it does not matter when the pause would have ended. */
gboolean
hs_visit_is_unclocked (const HsVisitRow *visit, GPtrArray *pauses, HsInstant now)
{
  HsInstant last = visit->arrived_at;

  if (visit->arrived_at == HS_INSTANT_NONE)
    return FALSE;
  for (guint i = 0; i < pauses->len; i++)
    {
      const HsPauseRow *pause = g_ptr_array_index (pauses, i);

      if (pause->from_at < last)
        return TRUE;
      last = pause->to_at == HS_INSTANT_NONE || pause->from_at == visit->left_at ? pause->from_at : pause->to_at;
    }
  return (visit->left_at != HS_INSTANT_NONE ? visit->left_at : now) < last;
}

gboolean
hs_visit_keep_put_back (HsStore *store, const HsVisitRow *visit, HsInstant now, GError **error)
{
  g_autoptr (HsPauseRow) mark = hs_pause_row_new ();

  hs_row_set (&mark->visit_id, visit->id);
  hs_row_set (&mark->why, "the machine's clock was put back");
  mark->from_at = MIN (now, visit->arrived_at - 1);
  mark->to_at = visit->arrived_at;
  return hs_pause_row_save (store, mark, error);
}

guint
hs_visit_count_pauses (const HsVisitRow *visit, GPtrArray *pauses)
{
  guint n_pauses = 0;

  for (guint i = 0; i < pauses->len; i++)
    {
      const HsPauseRow *pause = g_ptr_array_index (pauses, i);

      n_pauses += pause->from_at >= visit->arrived_at || pause->to_at != visit->arrived_at;
    }
  return n_pauses;
}

gboolean
hs_visit_load_unclocked (HsStore *store, const char *job_id, HsInstant now, HsInstant until, HsVisitRow **ret_visit,
                         GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;

  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return FALSE;
  *ret_visit = NULL;
  for (guint i = 0; i < visits->len && *ret_visit == NULL; i++)
    {
      const HsVisitRow *visit = g_ptr_array_index (visits, i);
      g_autoptr (GPtrArray) pauses = NULL;

      if (!hs_pause_row_list_of (store, visit->id, &pauses, error))
        return FALSE;
      if (visit->arrived_at < until && hs_visit_is_unclocked (visit, pauses, now))
        *ret_visit = hs_visit_row_copy (visit);
    }
  return TRUE;
}

/* The minutes are without pauses. One that lasts goes on from now. */
static gboolean
drop_pauses (HsStore *store, const HsVisitRow *visit, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) pauses = NULL;

  if (!hs_pause_row_list_of (store, visit->id, &pauses, error))
    return FALSE;
  for (guint i = 0; i < pauses->len; i++)
    {
      HsPauseRow *pause = g_ptr_array_index (pauses, i);
      gboolean lasts = pause->to_at == HS_INSTANT_NONE && visit->left_at == HS_INSTANT_NONE;

      pause->from_at = now;
      if (!(lasts ? hs_pause_row_save (store, pause, error) : hs_pause_row_delete (store, pause->id, error)))
        return FALSE;
    }
  return TRUE;
}

/* One that is not over runs on from there. One that is over and took none was no visit: nobody came to the vehicle. */
static void
move_stamps (HsVisitRow *visit, gint64 minutes, HsInstant now)
{
  if (visit->left_at == HS_INSTANT_NONE)
    {
      visit->arrived_at = now - 60 * minutes;
      if (visit->rolling_at != HS_INSTANT_NONE)
        visit->rolling_at = MIN (visit->rolling_at, visit->arrived_at);
    }
  else if (minutes > 0)
    visit->left_at = visit->arrived_at + 60 * minutes;
  else
    visit->arrived_at = HS_INSTANT_NONE;
}

static gboolean
set_minutes (HsStore *store, const char *job_id, gint64 minutes, HsInstant now, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error)
      || !hs_visit_load_unclocked (store, job_id, now, G_MAXINT64, &visit, error))
    return FALSE;
  if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return hs_ops_refuse (error, "%s is squared up; the minutes of its visits stay as they are.", job->number);
  if (visit == NULL)
    return hs_ops_refuse (error, "The labor clock of %s has the minutes of every visit; none are to be typed.",
                          job->number);
  if (!drop_pauses (store, visit, now, error))
    return FALSE;
  move_stamps (visit, minutes, now);
  return hs_visit_row_save (store, visit, error);
}

gboolean
hs_visit_set_minutes (HsBook *book, const char *job_id, gint64 minutes, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (minutes < 0 || minutes > MOST_MINUTES)
    return hs_ops_refuse (error, "Minutes at the vehicle are from 0 to %d; type them without seconds.", MOST_MINUTES);
  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "minutes at the vehicle: %" G_GINT64_FORMAT, minutes);
  return hs_store_end (store, set_minutes (store, job_id, minutes, now, error), error);
}
