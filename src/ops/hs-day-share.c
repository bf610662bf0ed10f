// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Shares the calls of a day among the vans. Use it where the owner asks who should take which. It only proposes:
 * hs-share-accept.c writes.
 */

#include "hs-day-share.h"

#include "hs-share-private.h"

/* 240 MB: it shares the machine with a window. */
#define MAX_LABELS 3000000

typedef struct
{
  const HsShareCase *of;
  const HsShareHow *how;
  const HsSolution *to_beat;
} Asking;

static gboolean
give_up (gpointer data)
{
  const Asking *asking = data;

  return asking->how->give_up != NULL && asking->how->give_up (asking->how->user_data);
}

static void
found (const HsSolution *solution, gpointer data)
{
  const Asking *asking = data;

  if (asking->to_beat == NULL || hs_day_problem_keeps_more (solution, asking->to_beat))
    asking->how->found (hs_share_describe (asking->of, solution), asking->how->user_data);
}

static gboolean
must_be_home (const HsProblem *problem)
{
  for (guint v = 0; v < problem->vans->len; v++)
    if (hs_problem_get_van (problem, v)->home_by_seconds < HS_DAY_NO_HOME_BY)
      return TRUE;
  return FALSE;
}

/* The same day with vans that may come home at any time. */
static gboolean
solve_late (const HsProblem *problem, const HsSolveHow *how, HsSolution **ret_solution, GError **error)
{
  HsProblem late = *problem;
  gboolean solved;

  late.vans = g_ptr_array_new_with_free_func (g_free);
  for (guint v = 0; v < problem->vans->len; v++)
    {
      HsVan *van = g_memdup2 (hs_problem_get_van (problem, v), sizeof (HsVan));

      van->home_by_seconds = HS_DAY_NO_HOME_BY;
      g_ptr_array_add (late.vans, van);
    }
  solved = hs_solve (&late, how, ret_solution, error);
  g_ptr_array_unref (late.vans);
  return solved;
}

/* Home in time, unless promises can only be kept by coming home late: the owner would rather. */
static gboolean
solve (const HsShareCase *of, const HsShareHow *how, HsSolution **ret_solution, GError **error)
{
  const HsProblem *problem = of->problem->problem;
  Asking asking = { of, how, NULL };
  const HsSolveHow ask = { .give_up = give_up, .user_data = &asking, .seed = how->seed, .explain = TRUE,
                           .max_labels = MAX_LABELS, .found = how->found != NULL ? found : NULL };
  g_autoptr (HsSolution) solution = NULL;
  g_autoptr (HsSolution) late = NULL;

  if (!hs_solve (problem, &ask, &solution, error))
    return FALSE;
  asking.to_beat = solution;
  if (solution->broken->len + solution->unserved->len > 0 && must_be_home (problem) && !give_up (&asking)
      && !solve_late (problem, &ask, &late, error))
    return FALSE;
  if (late != NULL && hs_day_problem_keeps_more (late, solution))
    *ret_solution = g_steal_pointer (&late);
  else
    *ret_solution = g_steal_pointer (&solution);
  return TRUE;
}

HsSharePlan *
hs_share_solve (const HsShareCase *of, const HsShareHow *how, GError **error)
{
  g_autoptr (HsSolution) solution = NULL;

  if (!solve (of, how, &solution, error) || !hs_share_keep_locks (of, solution, error))
    return NULL;
  return hs_share_describe (of, solution);
}

gint64
hs_share_plan_gap_cents (const HsSharePlan *plan)
{
  if (plan->proven)
    return 0;
  return plan->bound_cents > 0 ? MAX (0, plan->total.cents - plan->bound_cents) : -1;
}
