// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What was declined on the vehicle's earlier jobs, for it may be why the vehicle is back, and what it cost to come
 * back. Use it when a job is opened. It looks as far back as a return visit may be, and only at this vehicle. Refuses a
 * return visit to a job on another vehicle, to itself, or to a later one.
 */

#include "hs-choice-private.h"

#include "hs-money-row.h"
#include "hs-ops-private.h"
#include "hs-settings-op.h"

void
hs_declined_free (HsDeclined *declined)
{
  g_free (declined->job_id);
  g_free (declined->number);
  g_free (declined->wording);
  g_free (declined->choice);
  g_free (declined->risk);
  g_free (declined->by);
  g_free (declined->picked);
  g_free (declined->return_why);
  g_free (declined);
}

static HsDate
day_of (HsBook *book, const HsJobRow *job, HsInstant now)
{
  return job->day != HS_DATE_NONE ? job->day : hs_ops_today (book, now);
}

/* What was picked of the same group, or alone of all. */
static const char *
find_picked (GPtrArray *rows, const HsAdviceRow *declined)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->choice, "yes") && g_strcmp0 (row->option_group, declined->option_group) == 0)
        return row->wording;
    }
  return NULL;
}

static HsDeclined *
declined_new (const HsJobRow *job, const HsJobRow *earlier, const HsAdviceRow *row, const char *picked)
{
  HsDeclined *declined = g_new0 (HsDeclined, 1);

  declined->job_id = g_strdup (earlier->id);
  declined->number = g_strdup (earlier->number);
  declined->day = earlier->day;
  declined->wording = g_strdup (row->wording);
  declined->choice = g_strdup (row->choice);
  declined->risk = g_strdup (row->risk_told);
  declined->by = g_strdup (row->decided_by);
  declined->price_cents = row->price_cents;
  declined->picked = g_strdup (picked);
  declined->follows = g_strcmp0 (job->follows_job_id, earlier->id) == 0;
  declined->return_why = declined->follows ? g_strdup (job->return_why) : NULL;
  return declined;
}

/* Doing it in two visits against doing it at once. */
static void
weigh (HsDeclined *declined, const HsJobSums *earlier, const HsJobSums *now)
{
  gint64 here_cents = now->price_cents + now->tax_cents;

  declined->paid_cents = earlier->invoiced_cents;
  declined->in_all_cents = declined->paid_cents + (here_cents > 0 ? here_cents : declined->price_cents);
  declined->extra_cents = MAX (0, declined->in_all_cents - declined->price_cents);
}

static gboolean
add_declined (HsStore *store, const HsJobRow *job, const HsJobRow *earlier, int days, GPtrArray *list, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  HsJobSums sums, sums_here;

  if (!hs_advice_row_list_of (store, earlier->id, &rows, error)
      || !hs_job_sums_load (store, earlier->id, &sums, error) || !hs_job_sums_load (store, job->id, &sums_here, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (rows, i);
      const char *picked = find_picked (rows, row);
      HsDeclined *declined;

      if (!g_str_equal (row->choice, "no") && !g_str_equal (row->choice, "later"))
        continue;
      declined = declined_new (job, earlier, row, picked);
      declined->days = days;
      weigh (declined, &sums, &sums_here);
      g_ptr_array_add (list, declined);
    }
  return TRUE;
}

gboolean
hs_declined_list (HsBook *book, const HsJobRow *job, HsInstant now, GPtrArray **ret_declined, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_declined_free);
  g_autoptr (GPtrArray) jobs = NULL;
  gint64 most_days;

  if (!hs_settings_get_int (book, "return_visit_days", &most_days, error)
      || (job->vehicle_id != NULL && !hs_job_row_list_of_vehicle (store, job->vehicle_id, &jobs, error)))
    return FALSE;
  for (guint i = 0; jobs != NULL && i < jobs->len; i++)
    {
      const HsJobRow *earlier = g_ptr_array_index (jobs, i);
      int days = earlier->day == HS_DATE_NONE ? -1 : day_of (book, job, now) - earlier->day;

      if (g_str_equal (earlier->id, job->id) || days < 0 || days > most_days
          || !g_str_equal (earlier->stage, hs_stage_id (HS_STAGE_SQUARED)) || hs_job_row_is_called_off (earlier))
        continue;
      if (!add_declined (store, job, earlier, days, list, error))
        return FALSE;
    }
  *ret_declined = g_steal_pointer (&list);
  return TRUE;
}

/* The return visit ------------------------------------------------------------------------------------------------- */

static gboolean
check_follow (HsBook *book, const HsJobRow *job, const HsJobRow *earlier, HsInstant now, GError **error)
{
  if (g_str_equal (job->id, earlier->id))
    return hs_ops_refuse (error, "%s is no return visit to itself.", job->number);
  if (job->vehicle_id == NULL || g_strcmp0 (job->vehicle_id, earlier->vehicle_id) != 0)
    return hs_ops_refuse (error, "%s was on another vehicle than %s; a return visit is on the same one.",
                          earlier->number, job->number);
  if (earlier->day != HS_DATE_NONE && earlier->day > day_of (book, job, now))
    return hs_ops_refuse (error, "%s is later than %s; a return visit follows an earlier job.", earlier->number,
                          job->number);
  return TRUE;
}

static gboolean
follow (HsBook *book, const char *job_id, const char *earlier_id, const char *why, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsJobRow) earlier = NULL;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_job_row_load (store, earlier_id, &earlier, error)
      || !check_follow (book, job, earlier, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "return visit to %s: %s", earlier->number, hs_words_label (HS_WORDS_RETURN_WHY, why));
  hs_row_set (&job->kind, "return_visit");
  hs_row_set (&job->follows_job_id, earlier_id);
  hs_row_set (&job->return_why, why);
  return hs_job_row_save (store, job, error);
}

gboolean
hs_job_follow (HsBook *book, const char *job_id, const char *earlier_id, const char *why, HsInstant now,
               GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *why_id;

  return hs_ops_word (HS_WORDS_RETURN_WHY, why, "not_decided", &why_id, error) && hs_store_begin (store, now, error)
         && hs_store_end (store, follow (book, job_id, earlier_id, why_id, now, error), error);
}
