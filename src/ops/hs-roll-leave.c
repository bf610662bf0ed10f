// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The van rolls to one job, or begins at it, while it is still at another: a labor clock must not run on where
 * nobody works. What is not done there is never left without the owner's word; what is tested good is over when the
 * van leaves. Another van's job is none of this one's. A clock that stands already is no matter either: it was left
 * open on purpose.
 */

#include "hs-roll-op.h"

#include "hs-customer-row.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"
#include "hs-van-row.h"
#include "hs-visit-private.h"

void
hs_roll_left_free (HsRollLeft *left)
{
  g_free (left->job_id);
  g_free (left->number);
  g_free (left->who);
  g_free (left);
}

/* A job without a van is the first one's. */
static const char *
van_of (const HsJobRow *job, GPtrArray *vans)
{
  if (job->van_id != NULL || vans->len == 0)
    return job->van_id;
  return ((const HsVanRow *) g_ptr_array_index (vans, 0))->id;
}

static HsRollLeft *
left_of (HsBook *book, const HsJobRow *job, HsInstant now, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;
  HsRollLeft *left;
  gint64 seconds;

  if (!hs_customer_row_load (hs_book_get_store (book), job->customer_id, &customer, error)
      || !hs_visit_seconds (book, job->id, now, &seconds, error))
    return NULL;
  left = g_new0 (HsRollLeft, 1);
  left->job_id = g_strdup (job->id);
  left->number = g_strdup (job->number);
  left->who = g_strdup (customer->name);
  left->seconds = seconds;
  left->done = g_str_equal (job->stage, hs_stage_id (HS_STAGE_PROVEN));
  return left;
}

/* Adds those in @stage. */
static gboolean
add_left (HsBook *book, const HsJobRow *rolling, GPtrArray *vans, HsStage stage, HsInstant now, GPtrArray *lefts,
          GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) ids = NULL;

  if (!hs_job_row_ids (store, hs_stage_id (stage), &ids, error))
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (HsJobRow) job = NULL;
      HsRollLeft *left;
      gboolean runs;

      if (!hs_job_row_load (store, g_ptr_array_index (ids, i), &job, error)
          || !hs_visit_clock_runs (store, job->id, &runs, error))
        return FALSE;
      if (!runs || g_str_equal (job->id, rolling->id) || g_strcmp0 (van_of (job, vans), van_of (rolling, vans)) != 0)
        continue;
      left = left_of (book, job, now, error);
      if (left == NULL)
        return FALSE;
      g_ptr_array_add (lefts, left);
    }
  return TRUE;
}

GPtrArray *
hs_roll_left_list (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lefts = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_roll_left_free);
  g_autoptr (GPtrArray) vans = NULL;
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_van_row_list (store, &vans, error)
      || !add_left (book, job, vans, HS_STAGE_ON_SITE, now, lefts, error)
      || !add_left (book, job, vans, HS_STAGE_PROVEN, now, lefts, error))
    return NULL;
  return g_steal_pointer (&lefts);
}

static gboolean
refuse_left (const HsRollLeft *left, GError **error)
{
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_LEAVES_OPEN,
               "%s, %s, is still at the vehicle and its labor clock runs. Finish it first, or leave it open and stop"
               " its clock.",
               left->number, left->who);
  return FALSE;
}

static gboolean
stop_clocks (HsBook *book, const char *job_id, HsStage to, GPtrArray *lefts, gboolean leave, HsInstant now,
             GError **error)
{
  g_autoptr (GString) stopped = g_string_new (NULL);

  for (guint i = 0; i < lefts->len; i++)
    {
      const HsRollLeft *left = g_ptr_array_index (lefts, i);

      if (!left->done && !leave)
        return refuse_left (left, error);
      if (!hs_visit_pause (book, left->job_id, now, error))
        return FALSE;
      g_string_append_printf (stopped, "%s%s", i > 0 ? ", " : "", left->number);
    }
  if (lefts->len > 0)
    hs_ops_note (hs_book_get_store (book), job_id, "%s, labor clock stopped: %s",
                 to == HS_STAGE_ROLLING ? "rolling" : "at the vehicle", stopped->str);
  return TRUE;
}

static gboolean
go (HsBook *book, const char *job_id, HsStage to, const char *reason, gboolean leave, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) lefts = NULL;

  if (!hs_job_check_move (book, job_id, to, reason, error))
    return FALSE;
  lefts = hs_roll_left_list (book, job_id, now, error);
  return lefts != NULL && stop_clocks (book, job_id, to, lefts, leave, now, error)
         && hs_job_move_stage (book, job_id, to, reason, now, error);
}

static gboolean
go_in_one (HsBook *book, const char *job_id, HsStage to, const char *reason, gboolean leave, HsInstant now,
           GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "stage: %s", hs_stage_label (to));
  return hs_store_end (store, go (book, job_id, to, reason, leave, now, error), error);
}

gboolean
hs_roll (HsBook *book, const char *job_id, const char *reason, gboolean leave, HsInstant now, GError **error)
{
  return go_in_one (book, job_id, HS_STAGE_ROLLING, reason, leave, now, error);
}

gboolean
hs_arrive (HsBook *book, const char *job_id, const char *reason, gboolean leave, HsInstant now, GError **error)
{
  return go_in_one (book, job_id, HS_STAGE_ON_SITE, reason, leave, now, error);
}
