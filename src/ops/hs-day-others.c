// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Other ways to drive a day, and what each would cost. Use it where the owner asks why the order is as it is. Each is
 * planned at its best, so that the answer is fair to it.
 */

#include "hs-day-others.h"

#include "hs-day-choose.h"
#include "hs-day-hours.h"
#include "hs-day-solve.h"

void
hs_day_other_free (HsDayOther *other)
{
  if (other == NULL)
    return;
  g_free (other->id);
  g_ptr_array_unref (other->breaks);
  g_free (other);
}

static HsDayOther *
other_new (HsDayOtherKind kind, const char *id)
{
  HsDayOther *other = g_new0 (HsDayOther, 1);

  other->kind = kind;
  other->id = g_strdup (id);
  other->breaks = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  return other;
}

/* First ------------------------------------------------------------------------------------------------------------ */

static gint32
late_in (const HsPlan *plan, int stop)
{
  for (guint i = 0; i < plan->broken->len; i++)
    if (hs_plan_get_broken (plan, i)->stop == stop)
      return MAX (1, hs_plan_get_broken (plan, i)->late_seconds);
  return 0;
}

static HsDayOther *
compare_plans (const HsDaySolved *solved, const HsPlan *other_plan, const char *id)
{
  const HsPlan *plan = solved->plan;
  HsDayOther *other = other_new (HS_DAY_OTHER_FIRST, id);

  other->adds_seconds = (other_plan->home_seconds - other_plan->leave_seconds)
                        - (plan->home_seconds - plan->leave_seconds);
  other->adds_millimiles = other_plan->drive_millimiles - plan->drive_millimiles;
  other->adds_cents = hs_cost_cents (other_plan->cost_units - plan->cost_units);
  for (guint i = 0; i < other_plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (other_plan, i);

      if (MAX (1, broken->late_seconds) > late_in (plan, broken->stop))
        g_ptr_array_add (other->breaks,
                         hs_day_solved_broken (solved, broken->stop, broken->late_seconds, broken->why));
    }
  return other;
}

static gboolean
add_first (GPtrArray *others, const HsDaySolved *solved, guint first, GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (solved->build, hs_day_copy (solved->build->day));
  g_autoptr (HsPlan) plan = NULL;
  HsDay *day = view->day;

  for (guint i = 0; i < day->stops->len; i++)
    {
      hs_day_lock_stop (day, i, 0);
      if (i != first && hs_day_get_stop (day, i)->kind == HS_DAY_STOP_CALL)
        hs_day_add_after (day, i, first);
    }
  if (!hs_plan_solve (day, NULL, NULL, &plan, error) || !hs_day_hours_settle (view, &plan, error))
    return FALSE;
  g_ptr_array_add (others, compare_plans (solved, plan, hs_day_get_stop (day, first)->id));
  return TRUE;
}

/* What is done stays done, and nothing can come before it. */
static gboolean
is_ahead (const HsDaySolved *solved, guint stop)
{
  const HsDayCall *call = g_array_index (solved->build->refs, HsDayStopRef, stop).call;

  return call != NULL && call->stage == HS_STAGE_PROMISED;
}

static gboolean
add_firsts (GPtrArray *others, const HsDaySolved *solved, GError **error)
{
  gboolean is_first = TRUE;

  for (guint i = 0; i < solved->plan->stops->len; i++)
    {
      guint stop = hs_plan_get_stop (solved->plan, i)->stop;

      if (hs_day_get_stop (solved->build->day, stop)->kind != HS_DAY_STOP_CALL)
        continue;
      if (!is_ahead (solved, stop))
        return TRUE;
      if (!is_first && !add_first (others, solved, stop, error))
        return FALSE;
      is_first = FALSE;
    }
  return TRUE;
}

/* Without ---------------------------------------------------------------------------------------------------------- */

static gint64
away_seconds (const HsSolution *solution)
{
  gint64 seconds = 0;

  for (guint i = 0; i < solution->routes->len; i++)
    {
      const HsRoute *route = hs_solution_get_route (solution, i);

      seconds += route->home_seconds - route->leave_seconds;
    }
  return seconds;
}

static gint64
drive_millimiles (const HsSolution *solution)
{
  gint64 millimiles = 0;

  for (guint i = 0; i < solution->routes->len; i++)
    millimiles += hs_solution_get_route (solution, i)->drive_millimiles;
  return millimiles;
}

static gint64
late_of (const HsSolution *solution, guint call)
{
  for (guint i = 0; i < solution->broken->len; i++)
    if (hs_solution_get_broken (solution, i)->call == call)
      return hs_solution_get_broken (solution, i)->late_seconds;
  return 0;
}

static gboolean
is_unserved (const HsSolution *solution, guint call)
{
  for (guint i = 0; i < solution->unserved->len; i++)
    if (hs_solution_get_unserved (solution, i)->call == call)
      return TRUE;
  return FALSE;
}

static const char *
number_of (const HsDayProblem *problem, guint call)
{
  return hs_day_problem_call_of (problem, call)->number;
}

static void
add_breaks (HsDayOther *other, const HsDayProblem *problem, const HsSolution *with, const HsSolution *without)
{
  for (guint i = 0; i < without->unserved->len; i++)
    {
      guint call = hs_solution_get_unserved (without, i)->call;

      if (!is_unserved (with, call))
        g_ptr_array_add (other->breaks, hs_broken_promise_new (number_of (problem, call), 0,
                                                               "no other counter has its parts in time"));
    }
  for (guint i = 0; i < without->broken->len; i++)
    {
      const HsTrouble *trouble = hs_solution_get_broken (without, i);
      g_autofree char *why = NULL;

      if (trouble->late_seconds <= late_of (with, trouble->call))
        continue;
      why = g_strdup_printf ("%d min late", (int) ((trouble->late_seconds + 59) / 60));
      g_ptr_array_add (other->breaks,
                       hs_broken_promise_new (number_of (problem, trouble->call), trouble->late_seconds, why));
    }
}

static gboolean
add_without (GPtrArray *others, const HsDayBuild *build, const HsSolution *with, const HsDayCounter *counter,
             GError **error)
{
  g_autoptr (HsDayProblem) problem = NULL;
  g_autoptr (HsSolution) without = NULL;
  HsDayOther *other;

  if (!hs_day_choose_without (build, counter->supplier_id, &problem, &without, error))
    return FALSE;
  other = other_new (HS_DAY_OTHER_WITHOUT, counter->name);
  other->adds_seconds = away_seconds (without) - away_seconds (with);
  other->adds_millimiles = drive_millimiles (without) - drive_millimiles (with);
  other->adds_cents = hs_cost_cents (without->cost_units - with->cost_units);
  add_breaks (other, problem, with, without);
  g_ptr_array_add (others, other);
  return TRUE;
}

/* Asked of the day with all counters that might have something, not only those that the plan goes to. */
static gboolean
add_withouts (GPtrArray *others, HsBook *book, const HsDaySolved *solved, GError **error)
{
  g_autoptr (HsVanRow) van = hs_day_find_van (book, solved->facts->van, error);
  g_autoptr (HsDayFacts) facts = NULL;
  g_autoptr (HsDayBuild) build = NULL;
  g_autoptr (HsSolution) with = NULL;

  if (van == NULL)
    return FALSE;
  facts = hs_day_facts_load (book, solved->facts->day, van, NULL, NULL, NULL, error);
  build = facts != NULL ? hs_day_build (facts, NULL, error) : NULL;
  if (build == NULL || !hs_day_choose_without (build, NULL, NULL, &with, error))
    return FALSE;
  for (guint i = 0; i < solved->plan->stops->len; i++)
    {
      guint stop = hs_plan_get_stop (solved->plan, i)->stop;
      const HsDayCounter *counter = g_array_index (solved->build->refs, HsDayStopRef, stop).counter;

      if (counter != NULL && hs_day_facts_find_counter (facts, counter->supplier_id) != NULL
          && !add_without (others, build, with, counter, error))
        return FALSE;
    }
  return TRUE;
}

GPtrArray *
hs_day_others (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error)
{
  g_autoptr (HsDaySolved) solved = hs_day_solve (book, day, van, HS_DAY_STANDING, NULL, now, error);
  g_autoptr (GPtrArray) others = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_day_other_free);

  if (solved == NULL || !add_firsts (others, solved, error) || !add_withouts (others, book, solved, error))
    return NULL;
  return g_steal_pointer (&others);
}
