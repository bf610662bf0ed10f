// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Reads the day of all vans out of the book, for sharing its calls: who could take what, what each van has on board,
 * where a van is that is under way. Reads only. Refuses a day that is over, and a book in which there is nothing to
 * share.
 */

#include "hs-share-private.h"

#include "hs-day-source.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-plan-row.h"
#include "hs-say.h"
#include "hs-stock-row.h"
#include "hs-van-row.h"

/* The place where a van is that has begun: it is there at once, and nothing else leads there. */
#define BEGUN_SECONDS (5 * 24 * 3600)
#define NEVER_SECONDS (9 * 24 * 3600)

static void
van_free (gpointer data)
{
  HsShareVan *van = data;

  g_free (van->id);
  g_free (van->letter);
  g_ptr_array_unref (van->past);
  hs_day_free (van->day);
  hs_day_standing_free (van->standing);
  g_array_unref (van->order);
  hs_plan_free (van->plan);
  g_free (van);
}

HsShareNote *
hs_share_note_new (const char *number, const char *what)
{
  HsShareNote *note = g_new0 (HsShareNote, 1);

  note->number = g_strdup (number);
  note->what = g_strdup (what);
  return note;
}

void
hs_share_note_free (HsShareNote *note)
{
  g_free (note->number);
  g_free (note->what);
  g_free (note);
}

static HsShareCase *
case_new (void)
{
  HsShareCase *self = g_new0 (HsShareCase, 1);

  self->vans = g_ptr_array_new_with_free_func (van_free);
  self->van_of = g_array_new (FALSE, FALSE, sizeof (guint));
  self->late = g_array_new (FALSE, FALSE, sizeof (gint32));
  self->was = g_array_new (FALSE, FALSE, sizeof (guint));
  self->stays = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_share_note_free);
  return self;
}

void
hs_share_case_free (HsShareCase *self)
{
  if (self == NULL)
    return;
  hs_day_problem_free (self->problem);
  hs_day_build_free (self->build);
  hs_day_facts_free (self->facts);
  g_ptr_array_unref (self->vans);
  g_array_unref (self->van_of);
  g_array_unref (self->late);
  g_array_unref (self->was);
  g_ptr_array_unref (self->stays);
  g_free (self->digest);
  g_free (self);
}

/* Looking up ------------------------------------------------------------------------------------------------------- */

const char *
hs_share_case_row_id (const HsShareCase *self, guint stop)
{
  const HsDayStopRef *ref = &g_array_index (self->build->refs, HsDayStopRef, stop);

  return ref->call != NULL ? ref->call->job_id : ref->counter->supplier_id;
}

gboolean
hs_share_case_is_locked (const HsShareVan *van, const char *row_id)
{
  guint row;

  return van->standing != NULL
         && g_ptr_array_find_with_equal_func (van->standing->rows, row_id, g_str_equal, &row)
         && g_array_index (van->standing->locked, gboolean, row);
}

int
hs_share_call_index (const HsShareCase *self, guint stop)
{
  for (guint i = 0; i < self->problem->calls->len; i++)
    if (g_array_index (self->problem->calls, guint, i) == stop)
      return (int) i;
  return -1;
}

/* A job of no van belongs to the first. */
static guint
van_of_job (const HsShareCase *self, const char *van_id)
{
  for (guint v = 0; v < self->vans->len; v++)
    if (g_strcmp0 (((HsShareVan *) g_ptr_array_index (self->vans, v))->id, van_id) == 0)
      return v;
  return 0;
}

/* Loading ---------------------------------------------------------------------------------------------------------- */

static gboolean
load_vans (HsShareCase *self, HsStore *store, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_van_row_list (store, &rows, error))
    return FALSE;
  if (rows->len < 2)
    g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                         "The book has only one van, so there is nobody to share the calls with: add a van first");
  else if (rows->len > HS_PROBLEM_MAX_VANS)
    g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                 "The book has %u vans; calls can be shared among %d at most", rows->len, HS_PROBLEM_MAX_VANS);
  for (guint i = 0; rows->len >= 2 && i < rows->len; i++)
    {
      HsShareVan *van = g_new0 (HsShareVan, 1);

      van->id = g_strdup (((HsVanRow *) g_ptr_array_index (rows, i))->id);
      van->letter = g_strdup (((HsVanRow *) g_ptr_array_index (rows, i))->letter);
      van->rolled_at = HS_INSTANT_NONE;
      van->past = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_plan_stop_row_free);
      van->order = g_array_new (FALSE, FALSE, sizeof (guint));
      g_ptr_array_add (self->vans, van);
    }
  return rows->len >= 2 && rows->len <= HS_PROBLEM_MAX_VANS;
}

/* Ids of the jobs of the day that have begun or are done. */
static GPtrArray *
begun_ids (GPtrArray *jobs)
{
  GPtrArray *ids = g_ptr_array_new ();

  for (guint i = 0; i < jobs->len; i++)
    {
      const HsJobRow *job = g_ptr_array_index (jobs, i);
      HsStage stage;

      if (hs_stage_parse (job->stage, &stage, NULL) && stage > HS_STAGE_PROMISED
          && stage <= HS_STAGE_CALLED_OFF)
        g_ptr_array_add (ids, job->id);
    }
  return ids;
}

static gboolean
load_facts (HsShareCase *self, HsBook *book, HsDate day, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (GPtrArray) begun = NULL;

  if (!hs_job_row_list_day (hs_book_get_store (book), day, NULL, &jobs, error))
    return FALSE;
  begun = begun_ids (jobs);
  self->facts = hs_day_facts_load (book, day, NULL, begun, NULL, NULL, error);
  self->build = self->facts != NULL ? hs_day_build (self->facts, NULL, error) : NULL;
  return self->build != NULL && hs_share_case_find_past (self, book, jobs, now, error);
}

/* The problem ------------------------------------------------------------------------------------------------------ */

/* What its begun calls still need is not for others. */
static void
reserve_stock (const HsShareCase *self, guint v, GPtrArray *stock)
{
  for (guint i = 0; i < self->facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (self->facts->needs, i);
      const HsDayCall *call = g_ptr_array_index (self->facts->calls, need->call);

      if (call->stage != HS_STAGE_PROMISED && need->source != HS_DAY_SOURCE_VAN
          && van_of_job (self, call->van_id) == v)
        hs_day_source_take (stock, need);
    }
}

static gboolean
add_vans (HsShareCase *self, HsStore *store, GError **error)
{
  for (guint v = 0; v < self->vans->len; v++)
    {
      const HsShareVan *of = g_ptr_array_index (self->vans, v);
      HsVan *van = hs_day_problem_add_van (self->problem, of->letter, of->day);
      g_autoptr (GPtrArray) stock = NULL;

      if (!hs_stock_row_list (store, of->id, &stock, error))
        return FALSE;
      reserve_stock (self, v, stock);
      hs_day_problem_add_stock (self->problem, van, stock);
    }
  return TRUE;
}

/* A table with @more places at the end, which are as far from the others as @like says and can't be driven to. */
static void
grow_tables (HsProblem *problem, const GArray *like)
{
  guint old = problem->n_places;
  guint n = old + like->len;
  g_autoptr (HsProblem) grown = hs_problem_new (n);
  GArray *seconds = problem->drive_seconds;
  GArray *millimiles = problem->drive_millimiles;

  for (guint from = 0; from < n; from++)
    for (guint to = 0; to < n; to++)
      {
        guint row = from < old ? from : g_array_index (like, guint, from - old);

        if (to < old)
          hs_problem_set_leg (grown, from, to, g_array_index (seconds, gint32, row * old + to),
                              g_array_index (millimiles, gint64, row * old + to));
        else if (from != to)
          hs_problem_set_leg (grown, from, to, NEVER_SECONDS, 0);
      }
  problem->drive_seconds = g_steal_pointer (&grown->drive_seconds);
  problem->drive_millimiles = g_steal_pointer (&grown->drive_millimiles);
  grown->drive_seconds = seconds;
  grown->drive_millimiles = millimiles;
  grown->n_places = old;
  problem->n_places = n;
}

/* A van that is under way begins with a call of its own that is over at once, so that its way home counts. */
static void
begin_vans (HsShareCase *self)
{
  HsProblem *problem = self->problem->problem;
  g_autoptr (GArray) like = g_array_new (FALSE, FALSE, sizeof (guint));
  guint place = problem->n_places;

  for (guint v = 0; v < self->vans->len; v++)
    {
      const HsShareVan *of = g_ptr_array_index (self->vans, v);
      HsVan *van = g_ptr_array_index (problem->vans, v);
      HsDaySpan span = { of->time, of->time + BEGUN_SECONDS };
      g_autofree char *id = g_strdup_printf ("van %s", of->letter);
      HsCall *call;

      if (!of->begun)
        continue;
      g_array_append_val (like, of->place);
      call = hs_problem_add_call (problem, id, place, 0);
      g_array_append_val (call->windows, span);
      call->van = (int) v;
      van->start = place++;
      /* However late it is, it goes home. */
      van->home_by_seconds
          = MAX (van->home_by_seconds,
                 of->time + g_array_index (problem->drive_seconds, gint32, of->place * problem->n_places + van->end));
    }
  if (like->len > 0)
    grow_tables (problem, like);
}

/* Staying ---------------------------------------------------------------------------------------------------------- */

/* The first part of a call that is in its van already; %NULL if none is. */
static const char *
find_loaded (const HsShareCase *self, const HsDayCall *call, GPtrArray *ticks)
{
  for (guint i = 0; i < self->facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (self->facts->needs, i);

      if (g_ptr_array_index (self->facts->calls, need->call) != call)
        continue;
      if (need->source == HS_DAY_SOURCE_VAN)
        return need->part;
      for (guint k = 0; k < ticks->len; k++)
        {
          const HsTickRow *tick = g_ptr_array_index (ticks, k);

          if (g_str_equal (tick->kind, "pick_up") && g_str_equal (tick->row_id, need->id))
            return need->part;
        }
    }
  return NULL;
}

static gboolean
hold_calls (HsShareCase *self, HsStore *store, GError **error)
{
  g_autoptr (GPtrArray) ticks = NULL;

  if (!hs_tick_row_list (store, self->facts->day, &ticks, error))
    return FALSE;
  for (guint i = 0; i < self->problem->calls->len; i++)
    {
      const HsDayCall *call = hs_day_problem_call_of (self->problem, i);
      guint v = van_of_job (self, call->van_id);
      const HsShareVan *van = g_ptr_array_index (self->vans, v);
      const char *part = find_loaded (self, call, ticks);
      g_autofree char *what = NULL;

      g_array_append_val (self->van_of, v);
      if (part != NULL)
        {
          g_autofree char *name = hs_say_part (part);

          what = g_strdup_printf ("stays with van %s: %s is in that van already", van->letter, name);
        }
      else if (hs_share_case_is_locked (van, call->job_id))
        what = g_strdup_printf ("stays with van %s: it is locked in its order", van->letter);
      if (what == NULL)
        continue;
      ((HsCall *) g_ptr_array_index (self->problem->problem->calls, i))->van = (int) v;
      g_ptr_array_add (self->stays, hs_share_note_new (call->number, what));
    }
  return TRUE;
}

static gboolean
fill_case (HsShareCase *self, HsBook *book, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  self->problem = hs_day_problem_new (self->build, NULL, TRUE);
  if (!hs_share_case_meet (self, book, now, error) || !add_vans (self, store, error))
    return FALSE;
  hs_day_problem_add_calls (self->problem);
  if (!hs_share_case_stand (self, error) || !hold_calls (self, store, error))
    return FALSE;
  begin_vans (self);
  self->digest = hs_share_case_digest (self);
  return hs_problem_check (self->problem->problem, error);
}

gboolean
hs_share_check_day (HsBook *book, HsDate day, HsInstant now, GError **error)
{
  if (now < hs_instant_from_local (hs_book_get_zone (book), day, HS_MINUTES_PER_DAY))
    return TRUE;
  g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "This day is over: its calls were driven");
  return FALSE;
}

HsShareCase *
hs_share_case_load (HsBook *book, HsDate day, HsInstant now, GError **error)
{
  g_autoptr (HsShareCase) self = case_new ();

  if (!hs_share_check_day (book, day, now, error))
    return NULL;
  if (!load_vans (self, hs_book_get_store (book), error) || !load_facts (self, book, day, now, error)
      || !fill_case (self, book, now, error))
    return NULL;
  return g_steal_pointer (&self);
}
