// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Ways out of a day whose drives hang on the hour. Use it instead of the mends of hs_solve (), which reckons at one set
 * of drives: a call less or another window moves all that comes after it, and an earlier start may fall into another
 * time of day. Each way is tried as a day of its own, so that on large days some are not found.
 */

#include "hs-day-mend-hours.h"

#include "hs-day-mend-parts.h"
#include "hs-day-route.h"
#include "hs-day-settle.h"
#include "hs-plan-mend.h"

/* As for choosing counters. */
#define MAX_LABELS 300000
#define MAX_ASKS 2000
#define MAX_MOVE_MINUTES (12 * 60)

typedef struct
{
  const HsDaySolved *solved;
  gint32 home_by;
  guint asks;
} Trying;

/* What is changed for a trial. @left_out: stops, as bits; @moved: the stop whose windows end later, or
 * %HS_DAY_NO_STOP */
typedef struct
{
  guint64 left_out;
  int moved;
  gint32 later_minutes;
  gint32 earlier_minutes;
} Change;

/* What comes of it. @broken: stops that are late or not served, as bits */
typedef struct
{
  guint64 broken;
  gboolean break_is_late;
  gboolean home_is_late;
} Outcome;

static gboolean
is_enough (gpointer data)
{
  return ++((Trying *) data)->asks > MAX_ASKS;
}

static gboolean
solve (const HsProblem *problem, gpointer data, HsSolution **ret_solution, GError **error)
{
  const HsSolveHow how = { .seed = 1, .max_labels = MAX_LABELS, .give_up = is_enough, .user_data = data };

  return hs_solve (problem, &how, ret_solution, error);
}

/* (transfer full): the day with the change. A van that has begun is taken for one that starts where it is. */
static HsDay *
changed_day (const Trying *trying, const Change *change)
{
  HsDay *day = hs_day_copy (trying->solved->build->day);

  day->under_way = FALSE;
  day->home_by_seconds = MAX (trying->home_by, day->leave_from_seconds);
  day->leave_from_seconds -= 60 * change->earlier_minutes;
  if (change->moved != HS_DAY_NO_STOP)
    {
      GArray *spans = hs_day_get_stop (day, (guint) change->moved)->spans;

      for (guint i = 0; i < spans->len; i++)
        g_array_index (spans, HsDaySpan, i).to_seconds += 60 * change->later_minutes;
    }
  return day;
}

static void
leave_out (HsDayProblem *problem, guint64 stops)
{
  for (guint i = problem->calls->len; i > 0; i--)
    if ((stops & ((guint64) 1 << g_array_index (problem->calls, guint, i - 1))) != 0)
      {
        g_array_remove_index (problem->calls, i - 1);
        g_ptr_array_remove_index (problem->problem->calls, i - 1);
      }
}

static guint64
stop_bits (const HsDayProblem *problem, GPtrArray *troubles)
{
  guint64 bits = 0;

  for (guint i = 0; i < troubles->len; i++)
    bits |= (guint64) 1 << g_array_index (problem->calls, guint, ((HsTrouble *) g_ptr_array_index (troubles, i))->call);
  return bits;
}

static void
judge (const HsDayProblem *problem, const HsDay *rules, const HsSolution *solution, Outcome *ret_outcome)
{
  *ret_outcome = (Outcome) { stop_bits (problem, solution->broken) | stop_bits (problem, solution->unserved) };
  for (guint i = 0; i < solution->routes->len; i++)
    {
      const HsRoute *route = hs_solution_get_route (solution, i);

      ret_outcome->home_is_late |= route->home_seconds > rules->home_by_seconds;
      ret_outcome->break_is_late |= hs_day_route_break_late (rules, route) > 0;
    }
}

static gboolean
try_change (Trying *trying, const Change *change, Outcome *ret_outcome, GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (trying->solved->build, changed_day (trying, change));
  g_autoptr (HsDayProblem) problem = hs_day_problem_new (view, NULL, FALSE);
  const HsDay *rules[] = { view->day };
  const HsDaySettle settle = { problem, rules, solve, NULL, is_enough, trying };
  g_autoptr (HsSolution) solution = NULL;

  hs_day_problem_add_van (problem, "van", view->day);
  hs_day_problem_add_calls (problem);
  leave_out (problem, change->left_out);
  if (!hs_day_settle (&settle, &solution, error))
    return FALSE;
  judge (problem, view->day, solution, ret_outcome);
  return TRUE;
}

static gboolean
keeps_all (const Outcome *outcome)
{
  return outcome->broken == 0 && !outcome->break_is_late && !outcome->home_is_late;
}

static gboolean
find_keeps (Trying *trying, const Change *change, gboolean *ret_keeps, GError **error)
{
  Outcome outcome;

  if (!try_change (trying, change, &outcome, error))
    return FALSE;
  *ret_keeps = keeps_all (&outcome);
  return TRUE;
}

/* Telling ---------------------------------------------------------------------------------------------------------- */

/* The fewest minutes up to @most that mend it, or 0. */
static gboolean
find_shift (Trying *trying, const Change *change, gboolean later, gint32 most, gint32 *ret_minutes, GError **error)
{
  gint32 low = 0;
  gint32 high = most + 1;

  for (gint32 minutes = most; minutes > low; minutes = low + (high - low) / 2)
    {
      Change shifted = *change;
      gboolean keeps;

      *(later ? &shifted.later_minutes : &shifted.earlier_minutes) = minutes;
      if (!find_keeps (trying, &shifted, &keeps, error))
        return FALSE;
      *(keeps ? &high : &low) = minutes;
    }
  *ret_minutes = high <= most ? high : 0;
  return TRUE;
}

/* Nobody starts before now, and who has begun does not start again. */
static gint32
most_earlier (const HsDaySolved *solved, HsInstant now)
{
  gint32 leave_from = solved->build->day->leave_from_seconds;

  if (solved->build->day->under_way)
    return 0;
  if (now == HS_INSTANT_NONE || now < solved->facts->starts_at)
    return leave_from / 60;
  return (gint32) CLAMP ((solved->facts->starts_at + leave_from - now) / 60, 0, leave_from / 60);
}

static gboolean
is_droppable (const HsDaySolved *solved, guint stop, guint64 broken)
{
  const HsDayCall *call = g_array_index (solved->build->refs, HsDayStopRef, stop).call;

  return (broken & ((guint64) 1 << stop)) == 0 && call != NULL && call->stage == HS_STAGE_PROMISED;
}

static gboolean
add_drops (GPtrArray *mends, Trying *trying, const char *id, guint64 broken, guint64 left_out, GError **error)
{
  const HsDaySolved *solved = trying->solved;

  for (guint i = 0; i < solved->build->refs->len; i++)
    {
      const Change change = { left_out | ((guint64) 1 << i), HS_DAY_NO_STOP, 0, 0 };
      gboolean keeps;

      if (!is_droppable (solved, i, broken))
        continue;
      if (!find_keeps (trying, &change, &keeps, error))
        return FALSE;
      if (keeps)
        g_ptr_array_add (mends, hs_day_mend_new (id, hs_mend_drop (hs_day_get_stop (solved->build->day, i)->id)));
    }
  return TRUE;
}

/* What lets @stop be kept with all that is kept; %HS_DAY_NO_STOP: the break or coming home. */
static gboolean
add_ways (GPtrArray *mends, Trying *trying, const char *id, int stop, guint64 broken, HsInstant now, GError **error)
{
  Change change = { broken, stop, 0, 0 };
  gint32 later = 0, earlier;

  if (stop != HS_DAY_NO_STOP)
    change.left_out &= ~((guint64) 1 << stop);
  if (!add_drops (mends, trying, id, broken, change.left_out, error)
      || (stop != HS_DAY_NO_STOP && !find_shift (trying, &change, TRUE, MAX_MOVE_MINUTES, &later, error))
      || !find_shift (trying, &change, FALSE, most_earlier (trying->solved, now), &earlier, error))
    return FALSE;
  if (later > 0)
    g_ptr_array_add (mends, hs_day_mend_new (id, hs_mend_move (hs_day_get_stop (trying->solved->build->day,
                                                                                (guint) stop)->id, later)));
  if (earlier > 0)
    g_ptr_array_add (mends, hs_day_mend_new (id, hs_mend_start (earlier)));
  return TRUE;
}

gboolean
hs_day_mend_add_timed (GPtrArray *mends, const HsDaySolved *solved, gint32 home_by, const char *id, HsInstant now,
                       gboolean *ret_keeps_all, GError **error)
{
  const Change none = { 0, HS_DAY_NO_STOP, 0, 0 };
  Trying trying = { solved, home_by, 0 };
  Outcome outcome;
  const char *late;

  if (!try_change (&trying, &none, &outcome, error))
    return FALSE;
  for (guint i = 0; i < solved->build->refs->len; i++)
    {
      const char *number = hs_day_get_stop (solved->build->day, i)->id;

      if ((outcome.broken & ((guint64) 1 << i)) == 0)
        continue;
      if (id != NULL)
        g_ptr_array_add (mends, hs_day_mend_new (id, hs_mend_drop (number)));
      if (!add_ways (mends, &trying, id != NULL ? id : number, (int) i, outcome.broken, now, error))
        return FALSE;
    }
  *ret_keeps_all = keeps_all (&outcome);
  late = id != NULL && outcome.home_is_late ? id : outcome.break_is_late ? "break" : NULL;
  return outcome.broken != 0 || late == NULL || add_ways (mends, &trying, late, HS_DAY_NO_STOP, 0, now, error);
}
