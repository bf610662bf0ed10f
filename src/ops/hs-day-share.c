// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Shares the calls of a day among the vans. Use it where the owner asks who should take which. It only proposes:
 * hs-share-accept.c writes.
 */

#include "hs-day-share.h"

#include "hs-day-drives.h"
#include "hs-day-settle.h"
#include "hs-share-private.h"

/* 240 MB: it shares the machine with a window. */
#define MAX_LABELS 3000000

/* @to_beat: (nullable): what is home in time, while a later plan is looked for
 * @told: (nullable): the last proposal that was told */
typedef struct
{
  const HsShareCase *of;
  const HsShareHow *how;
  const HsDaySettle *settle;
  const HsSolution *to_beat;
  HsSolution *told;
} Asking;

static gboolean
give_up (gpointer data)
{
  const Asking *asking = data;

  return asking->how->give_up != NULL && asking->how->give_up (asking->how->user_data);
}

/* Proposals are told with the times that they would have: each drive at its hour. One that is no better at its hours
 * than what was told before is not told. */
static void
found (const HsSolution *solution, gpointer data)
{
  Asking *asking = data;
  g_autoptr (HsSolution) timed = NULL;
  g_autofree guint8 *left = g_new0 (guint8, asking->of->build->places->len);

  if (asking->to_beat != NULL && !hs_day_problem_keeps_more (solution, asking->to_beat))
    return;
  timed = hs_solution_copy (solution);
  if (!hs_day_settle_time (asking->settle, timed, left, NULL)
      || (hs_day_drives_tell_hours (asking->of->build) && asking->told != NULL
          && !hs_day_settle_is_better (asking->settle, timed, asking->told)))
    return;
  asking->how->found (hs_share_describe (asking->of, timed), asking->how->user_data);
  hs_solution_free (asking->told);
  asking->told = g_steal_pointer (&timed);
}

static void
beat (const HsSolution *solution, gpointer data)
{
  ((Asking *) data)->to_beat = solution;
}

static gboolean
solve (const HsProblem *problem, gpointer data, HsSolution **ret_solution, GError **error)
{
  Asking *asking = data;
  const HsSolveHow ask = { .give_up = give_up, .user_data = asking, .seed = asking->how->seed, .explain = TRUE,
                           .max_labels = MAX_LABELS, .found = asking->how->found != NULL ? found : NULL };

  asking->to_beat = NULL;
  return hs_day_problem_solve (problem, &ask, beat, ret_solution, error);
}

static gboolean
finish (HsSolution *solution, gpointer data, GError **error)
{
  return hs_share_keep_locks (((Asking *) data)->of, solution, error);
}

HsSharePlan *
hs_share_solve (const HsShareCase *of, const HsShareHow *how, GError **error)
{
  const HsDay *rules[HS_PROBLEM_MAX_VANS];
  HsDaySettle settle = { of->problem, rules, solve, finish, give_up };
  Asking asking = { of, how, &settle, NULL, NULL };
  g_autoptr (HsSolution) solution = NULL;
  gboolean solved;

  for (guint v = 0; v < of->vans->len; v++)
    rules[v] = ((HsShareVan *) g_ptr_array_index (of->vans, v))->day;
  settle.user_data = &asking;
  solved = hs_day_settle (&settle, &solution, error);
  hs_solution_free (asking.told);
  return solved ? hs_share_describe (of, solution) : NULL;
}

gint64
hs_share_plan_gap_cents (const HsSharePlan *plan)
{
  if (plan->proven)
    return 0;
  return plan->bound_cents > 0 ? MAX (0, plan->total.cents - plan->bound_cents) : -1;
}
