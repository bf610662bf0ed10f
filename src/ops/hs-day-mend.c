// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Ways out of a day that can't be kept. Use it where the owner has read what breaks and asks what to do. It looks only
 * as long as somebody waits for an answer, so that on large days some ways are not found; what it says was tried.
 */

#include "hs-day-mend.h"

#include "hs-day-drives.h"
#include "hs-day-mend-hours.h"
#include "hs-day-mend-parts.h"
#include "hs-day-problem.h"
#include "hs-day-settle.h"
#include "hs-plan-mend.h"
#include "hs-share-private.h"
#include "hs-van-row.h"

#include <string.h>

/* As for choosing counters: half a second at the most, for all other vans together and for this one. */
#define MAX_LABELS 300000
#define MAX_ASKS 2000

typedef struct
{
  const HsShareCase *of;
  guint asks;
} Asking;

void
hs_day_mend_free (HsDayMend *mend)
{
  g_free (mend->id);
  g_free (mend->what);
  g_free (mend);
}

static void G_GNUC_PRINTF (3, 4)
add_mend (GPtrArray *mends, const char *id, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_ptr_array_add (mends, hs_day_mend_new (id, g_strdup_vprintf (format, args)));
  va_end (args);
}

static gboolean
is_enough (gpointer data)
{
  return ++((Asking *) data)->asks > MAX_ASKS;
}

/* Another van ------------------------------------------------------------------------------------------------------ */

static gboolean
solve (const HsProblem *problem, gpointer data, HsSolution **ret_solution, GError **error)
{
  const HsSolveHow how = { .seed = 1, .max_labels = MAX_LABELS, .give_up = is_enough, .user_data = data };

  return hs_day_problem_solve (problem, &how, NULL, ret_solution, error);
}

static gboolean
finish (HsSolution *solution, gpointer data, GError **error)
{
  return hs_share_keep_locks (((Asking *) data)->of, solution, error);
}

/* The call of the case behind a job, or -1. */
static int
find_call (const HsShareCase *of, const char *job_id)
{
  for (guint i = 0; i < of->problem->calls->len; i++)
    if (g_str_equal (hs_day_problem_call_of (of->problem, i)->job_id, job_id))
      return (int) i;
  return -1;
}

/* The day with @call on van @v and all others where they are. */
static gboolean
solve_with (HsShareCase *of, Asking *asking, guint call, guint v, HsSolution **ret_solution, GError **error)
{
  const HsDay *rules[HS_PROBLEM_MAX_VANS];
  const HsDaySettle settle = { of->problem, rules, solve, finish, is_enough, asking };
  GPtrArray *calls = of->problem->problem->calls;
  g_autofree int *before = g_new (int, of->van_of->len);
  gboolean solved;

  for (guint i = 0; i < of->vans->len; i++)
    rules[i] = ((const HsShareVan *) g_ptr_array_index (of->vans, i))->day;
  for (guint i = 0; i < of->van_of->len; i++)
    {
      HsCall *it = g_ptr_array_index (calls, i);

      before[i] = it->van;
      it->van = (int) (i == call ? v : g_array_index (of->van_of, guint, i));
    }
  solved = hs_day_settle (&settle, ret_solution, error);
  for (guint i = 0; i < of->van_of->len; i++)
    ((HsCall *) g_ptr_array_index (calls, i))->van = before[i];
  return solved;
}

/* Whether @call is in time and nobody is later than under the plans that stand. */
static gboolean
is_mended (const HsShareCase *of, guint call, const HsSolution *solution)
{
  for (guint i = 0; i < solution->unserved->len; i++)
    {
      guint other = hs_solution_get_unserved (solution, i)->call;

      if (other == call || other >= of->late->len || g_array_index (of->late, gint32, other) != HS_SHARE_UNSERVED)
        return FALSE;
    }
  for (guint i = 0; i < solution->broken->len; i++)
    {
      const HsTrouble *late = hs_solution_get_broken (solution, i);

      if (late->call == call || late->call >= of->late->len
          || late->late_seconds > g_array_index (of->late, gint32, late->call))
        return FALSE;
    }
  return TRUE;
}

/* (transfer full): the clock on the wall when work on @call starts. */
static char *
start_of (const HsShareCase *of, guint call, const HsSolution *solution)
{
  for (guint i = 0; i < solution->routes->len; i++)
    for (guint k = 0; k < hs_solution_get_route (solution, i)->stops->len; k++)
      {
        const HsRouteStop *stop = &g_array_index (hs_solution_get_route (solution, i)->stops, HsRouteStop, k);
        int seconds;

        if (stop->kind != HS_ROUTE_CALL || stop->index != call)
          continue;
        hs_instant_to_local (of->facts->zone, of->facts->starts_at + stop->start_seconds, NULL, &seconds);
        return hs_clock_format (seconds / 60);
      }
  return g_strdup ("");
}

static gboolean
try_vans (GPtrArray *mends, HsShareCase *of, Asking *asking, guint call, GError **error)
{
  for (guint v = 0; v < of->vans->len; v++)
    {
      const HsCall *it = hs_problem_get_call (of->problem->problem, call);
      g_autoptr (HsSolution) solution = NULL;
      g_autofree char *start = NULL;

      if (v == g_array_index (of->van_of, guint, call) || it->van != HS_PROBLEM_ANY_VAN)
        continue;
      if (!solve_with (of, asking, call, v, &solution, error))
        return FALSE;
      if (!is_mended (of, call, solution))
        continue;
      start = start_of (of, call, solution);
      add_mend (mends, it->id, "van %s can take %s: work starts at %s",
                ((const HsShareVan *) g_ptr_array_index (of->vans, v))->letter, it->id, start);
    }
  return TRUE;
}

static const HsDayCall *
broken_call (const HsDaySolved *solved, guint index)
{
  int stop = hs_plan_get_broken (solved->plan, index)->stop;

  return stop >= 0 ? g_array_index (solved->build->refs, HsDayStopRef, stop).call : NULL;
}

static gboolean
add_vans (GPtrArray *mends, HsBook *book, const HsDaySolved *solved, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) vans = NULL;
  g_autoptr (HsShareCase) of = NULL;
  Asking asking = { NULL, 0 };

  if (!hs_van_row_list (hs_book_get_store (book), &vans, error))
    return FALSE;
  if (vans->len < 2 || vans->len > HS_PROBLEM_MAX_VANS || now >= solved->facts->ends_at)
    return TRUE;
  of = hs_share_case_load (book, solved->facts->day, now != HS_INSTANT_NONE ? now : solved->facts->starts_at, error);
  if (of == NULL)
    return FALSE;
  asking.of = of;
  for (guint i = 0; i < solved->plan->broken->len; i++)
    {
      const HsDayCall *call = broken_call (solved, i);
      int index = call != NULL ? find_call (of, call->job_id) : -1;

      if (index >= 0 && !try_vans (mends, of, &asking, (guint) index, error))
        return FALSE;
    }
  return TRUE;
}

/* This van --------------------------------------------------------------------------------------------------------- */

/* Nobody starts before now, nor again: what the planner says of starting earlier is no way out then. */
static gboolean
is_too_late (const HsDaySolved *solved, HsInstant now, const char *what)
{
  static const char start[] = "start ";
  gint64 minutes;

  if (!g_str_has_prefix (what, start))
    return FALSE;
  if (now == HS_INSTANT_NONE || solved->build->day->under_way)
    return solved->build->day->under_way;
  minutes = g_ascii_strtoll (what + strlen (start), NULL, 10);
  return solved->facts->starts_at + solved->build->day->leave_from_seconds - 60 * minutes < now;
}

static void
add_troubles (GPtrArray *mends, const HsDaySolved *solved, const HsDayProblem *problem, GPtrArray *troubles,
              const char *id, HsInstant now)
{
  for (guint i = 0; i < troubles->len; i++)
    {
      const HsTrouble *trouble = g_ptr_array_index (troubles, i);
      const char *number = hs_problem_get_call (problem->problem, trouble->call)->id;

      if (id != NULL)
        g_ptr_array_add (mends, hs_day_mend_new (id, hs_mend_drop (number)));
      for (guint k = 0; k < trouble->mends->len; k++)
        if (!is_too_late (solved, now, g_ptr_array_index (trouble->mends, k)))
          add_mend (mends, id != NULL ? id : number, "%s", (const char *) g_ptr_array_index (trouble->mends, k));
    }
}

static gboolean
has_locks (const HsDay *day)
{
  for (guint i = 0; i < day->stops->len; i++)
    if (hs_day_get_stop (day, i)->number != 0)
      return TRUE;
  return FALSE;
}

/* No order mends what is not late: there a counter is shut. */
static const HsPlanBroken *
find_broken (const HsDaySolved *solved, gboolean is_home)
{
  for (guint i = 0; i < solved->plan->broken->len; i++)
    if ((hs_plan_get_broken (solved->plan, i)->stop == HS_DAY_NO_STOP) == is_home
        && hs_plan_get_broken (solved->plan, i)->late_seconds > 0)
      return hs_plan_get_broken (solved->plan, i);
  return NULL;
}

static void
add_order (GPtrArray *mends, const HsDaySolved *solved)
{
  int stop = find_broken (solved, FALSE)->stop;
  const char *id = stop >= 0 ? hs_day_get_stop (solved->build->day, (guint) stop)->id : "break";

  if (solved->accepted)
    add_mend (mends, id, "plan the day anew: another order keeps every promise");
  else if (has_locks (solved->build->day))
    add_mend (mends, id, "free the locked stops: another order keeps every promise");
}

/* @ret_keeps_all: no mend is needed but another order */
static gboolean
add_own (GPtrArray *mends, const HsDaySolved *solved, gint32 home_by, const char *id, HsInstant now,
         gboolean *ret_keeps_all, GError **error)
{
  g_autoptr (HsDayProblem) problem = hs_day_problem_new (solved->build, NULL, FALSE);
  HsVan *van = hs_day_problem_add_van (problem, "van", solved->build->day);
  Asking asking = { NULL, 0 };
  const HsSolveHow how
      = { .seed = 1, .max_labels = MAX_LABELS, .give_up = is_enough, .user_data = &asking, .explain = TRUE };
  g_autoptr (HsSolution) solution = NULL;

  van->home_by_seconds = MAX (home_by, van->leave_from_seconds);
  hs_day_problem_add_calls (problem);
  if (!hs_solve (problem->problem, &how, &solution, error))
    return FALSE;
  add_troubles (mends, solved, problem, solution->broken, id, now);
  add_troubles (mends, solved, problem, solution->unserved, id, now);
  *ret_keeps_all = solution->broken->len + solution->unserved->len == 0;
  return TRUE;
}

static gboolean
has_calls_ahead (const HsDaySolved *solved)
{
  for (guint i = 0; i < solved->build->refs->len; i++)
    {
      const HsDayCall *call = g_array_index (solved->build->refs, HsDayStopRef, i).call;

      if (call != NULL && call->stage == HS_STAGE_PROMISED)
        return TRUE;
    }
  return FALSE;
}

/* @home_by: when the van has to be home; with @id, which is then "home", the mends are of that */
static gboolean
add_ways (GPtrArray *mends, const HsDaySolved *solved, gint32 home_by, const char *id, HsInstant now, GError **error)
{
  gboolean timed = hs_day_drives_tell_hours (solved->build);
  gboolean keeps_all;

  if (!has_calls_ahead (solved))
    return TRUE;
  if (!(timed ? hs_day_mend_add_timed : add_own) (mends, solved, home_by, id, now, &keeps_all, error))
    return FALSE;
  /* Of a van that has begun it is only known about what it is at other hours. */
  if (keeps_all && id == NULL && !(timed && solved->build->day->under_way))
    add_order (mends, solved);
  return TRUE;
}

/* A call that a van is rolling to is none of those that can still be put elsewhere, but the van has to get there. */
static gboolean
add_this_van (GPtrArray *mends, const HsDaySolved *solved, HsInstant now, GError **error)
{
  gboolean home = find_broken (solved, TRUE) != NULL;

  if (solved->past != NULL && solved->past->under_way)
    return TRUE;
  if (find_broken (solved, FALSE) != NULL
      && !add_ways (mends, solved, home ? HS_DAY_NO_HOME_BY : solved->build->day->home_by_seconds, NULL, now, error))
    return FALSE;
  return !home || add_ways (mends, solved, solved->build->day->home_by_seconds, "home", now, error);
}

GPtrArray *
hs_day_mends (HsBook *book, HsDate day, const char *van, gboolean anew, HsInstant now, GError **error)
{
  const HsDayAsk ask = { book, day, van, anew ? HS_DAY_FRESH : HS_DAY_STANDING, now };
  g_autoptr (HsDaySolved) solved = hs_day_solve (book, day, van, ask.how, NULL, now, error);
  g_autoptr (GPtrArray) mends = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_day_mend_free);

  if (solved == NULL)
    return NULL;
  if (!hs_day_mend_add_parts (mends, &ask, solved, error))
    return NULL;
  if (solved->plan->broken->len > 0
      && (!add_vans (mends, book, solved, now, error) || !add_this_van (mends, solved, now, error)))
    return NULL;
  return g_steal_pointer (&mends);
}
