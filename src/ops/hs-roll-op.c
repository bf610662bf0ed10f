// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What rolling to a call would bring, told before it is done: promises to others that it breaks, counters that are
 * shut, and a vehicle that is left with its labor clock running. The stage is moved, the day timed as it then goes,
 * and the move rolled back, so that what is said here is what the day would say afterwards.
 */

#include "hs-roll-op.h"

#include "hs-customer-row.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-ops-private.h"

static void
roll_break_free (gpointer data)
{
  HsRollBreak *broken = data;

  g_free (broken->number);
  g_free (broken->who);
  g_free (broken->phone);
  g_free (broken);
}

void
hs_roll_outlook_free (HsRollOutlook *outlook)
{
  if (outlook == NULL)
    return;
  g_ptr_array_unref (outlook->breaks);
  g_ptr_array_unref (outlook->shut);
  g_ptr_array_unref (outlook->left);
  hs_day_plan_free (outlook->plan);
  g_free (outlook);
}

gboolean
hs_roll_outlook_is_clear (const HsRollOutlook *outlook)
{
  return outlook->breaks->len == 0 && outlook->shut->len == 0 && outlook->left->len == 0;
}

/* What was meant for another day, or for none yet, is driven to today all the same: its parts and everybody else's
 * promises hang on today's roads. */
static gboolean
bring_to_today (HsBook *book, const char *job_id, HsInstant now)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, NULL))
    return FALSE;
  if (job->day == hs_ops_today (book, now))
    return TRUE;
  job->day = hs_ops_today (book, now);
  job->window_from = job->window_to = HS_INSTANT_NONE;
  return hs_job_row_save (store, job, NULL);
}

static HsDayPlan *
plan_rolling (HsBook *book, const char *job_id, HsInstant now)
{
  HsStore *store = hs_book_get_store (book);
  HsDayPlan *plan = NULL;

  if (!hs_store_begin (store, now, NULL))
    return NULL;
  if (hs_job_move_stage (book, job_id, HS_STAGE_ROLLING, NULL, now, NULL) && bring_to_today (book, job_id, now))
    plan = hs_day_plan_of_job (book, job_id, now, NULL);
  hs_store_rollback (store);
  return plan;
}

static gint64
late_of (const HsDayPlan *plan, const char *number)
{
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, i);

      if (g_str_equal (broken->id, number))
        return MAX (0, broken->late_seconds);
    }
  return 0;
}

static gboolean
find_phone (HsStore *store, const char *job_id, char **ret_phone, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) phones = NULL;

  if (!hs_job_row_load (store, job_id, &job, error)
      || !hs_phone_row_list_of (store, job->customer_id, &phones, error))
    return FALSE;
  *ret_phone = phones->len > 0 ? g_strdup (((HsPhoneRow *) g_ptr_array_index (phones, 0))->shown) : NULL;
  return TRUE;
}

/* Later by less than a minute is not later. */
static gboolean
fill_breaks (HsRollOutlook *outlook, HsStore *store, const HsDayPlan *before, GError **error)
{
  for (guint i = 0; i < outlook->plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (outlook->plan->stops, i);
      gint64 late = stop->is_counter ? 0 : late_of (outlook->plan, stop->id);
      HsRollBreak *broken;

      if (late == 0 || late - late_of (before, stop->id) < 60)
        continue;
      broken = g_new0 (HsRollBreak, 1);
      g_ptr_array_add (outlook->breaks, broken);
      broken->number = g_strdup (stop->id);
      broken->who = g_strdup (stop->customer);
      broken->by = stop->window_to;
      broken->late_seconds = late;
      if (!find_phone (store, stop->row_id, &broken->phone, error))
        return FALSE;
    }
  return TRUE;
}

/* Whether the counter is one of those right before the call. */
static gboolean
is_on_way (const HsDayPlan *plan, guint at, const char *supplier_id)
{
  while (at > 0 && at <= plan->stops->len)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, --at);

      if (!stop->is_counter)
        return FALSE;
      if (g_str_equal (stop->row_id, supplier_id))
        return TRUE;
    }
  return FALSE;
}

static void
fill_shut (HsRollOutlook *outlook, const char *job_id)
{
  guint at = hs_day_plan_find_stop (outlook->plan, job_id);

  for (guint i = 0; i < outlook->plan->shut->len; i++)
    {
      HsShutPart *part = g_ptr_array_index (outlook->plan->shut, i);

      if (g_str_equal (part->job_id, job_id)
          || (at < outlook->plan->stops->len && is_on_way (outlook->plan, at, part->supplier_id)))
        g_ptr_array_add (outlook->shut, part);
    }
}

static void
fill_wait (HsRollOutlook *outlook, const char *job_id)
{
  guint at = hs_day_plan_find_stop (outlook->plan, job_id);
  const HsPlannedStop *stop;

  if (at == outlook->plan->stops->len)
    return;
  stop = g_ptr_array_index (outlook->plan->stops, at);
  outlook->wait_seconds = stop->wait_seconds;
  outlook->begins = stop->start;
  outlook->before_promise = stop->start == stop->window_from;
}

/* What is done is left without a word. */
static gboolean
fill_left (HsRollOutlook *outlook, HsBook *book, const char *job_id, HsStage to, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) left = NULL;

  if (!hs_job_check_move (book, job_id, to, NULL, NULL))
    return TRUE;
  left = hs_roll_left_list (book, job_id, now, error);
  while (left != NULL && left->len > 0)
    {
      HsRollLeft *first = g_ptr_array_steal_index (left, 0);

      if (first->done)
        hs_roll_left_free (first);
      else
        g_ptr_array_add (outlook->left, first);
    }
  return left != NULL;
}

/* With what would be left, and nothing else yet. */
static HsRollOutlook *
outlook_new (HsBook *book, const char *job_id, HsStage to, HsInstant now, GError **error)
{
  g_autoptr (HsRollOutlook) outlook = g_new0 (HsRollOutlook, 1);

  outlook->breaks = g_ptr_array_new_with_free_func (roll_break_free);
  outlook->shut = g_ptr_array_new ();
  outlook->left = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_roll_left_free);
  return fill_left (outlook, book, job_id, to, now, error) ? g_steal_pointer (&outlook) : NULL;
}

HsRollOutlook *
hs_arrive_outlook_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  return outlook_new (book, job_id, HS_STAGE_ON_SITE, now, error);
}

HsRollOutlook *
hs_roll_outlook_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  g_autoptr (HsRollOutlook) outlook = outlook_new (book, job_id, HS_STAGE_ROLLING, now, error);
  g_autoptr (HsDayPlan) before = NULL;

  if (outlook == NULL)
    return NULL;
  before = hs_day_plan_of_job (book, job_id, now, NULL);
  if (before != NULL)
    outlook->plan = plan_rolling (book, job_id, now);
  if (outlook->plan == NULL)
    return g_steal_pointer (&outlook);
  fill_shut (outlook, job_id);
  fill_wait (outlook, job_id);
  if (!fill_breaks (outlook, hs_book_get_store (book), before, error))
    return NULL;
  return g_steal_pointer (&outlook);
}
