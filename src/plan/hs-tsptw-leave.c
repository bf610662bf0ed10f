// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Proves how short a time away can be, also where waiting can't be avoided and what is driven says little about it. */

#include "hs-tsptw-leave.h"

#include <string.h>

static HsTsptw *
copy_problem (const HsTsptw *problem)
{
  HsTsptw *copy = hs_tsptw_new (problem->n_nodes);
  guint n = problem->n_nodes;

  copy->decimals = problem->decimals;
  memcpy (copy->drive, problem->drive, n * n * sizeof (gint64));
  memcpy (copy->from, problem->from, n * sizeof (gint64));
  memcpy (copy->to, problem->to, n * sizeof (gint64));
  if (problem->before->len > 0)
    g_array_append_vals (copy->before, problem->before->data, problem->before->len);
  return copy;
}

static void
take_tour (const HsTsptw *problem, const HsTsptwAnswer *tour, HsTsptwAnswer *answer)
{
  gint64 away;

  if (!tour->found || !hs_tsptw_drive_order (problem, HS_TSPTW_DURATION, tour->order, &away)
      || (answer->found && away >= answer->cost))
    return;
  answer->found = TRUE;
  answer->cost = away;
  memcpy (answer->order, tour->order, sizeof answer->order);
}

gboolean
hs_tsptw_leave_close (const HsTsptw *problem, const HsTsptwHow *how, HsTsptwAnswer *answer)
{
  g_autoptr (HsTsptw) later = copy_problem (problem);
  HsTsptwHow home_first = *how;

  home_first.objective = HS_TSPTW_MAKESPAN;
  while (later->from[0] <= problem->to[0])
    {
      HsTsptwAnswer first;
      gint64 next;

      if (!hs_tsptw_solve (later, &home_first, &first, NULL))
        return FALSE;
      answer->states += first.states;
      if (first.status == HS_PLAN_IMPOSSIBLE)
        return TRUE;
      take_tour (problem, &first, answer);
      if (!answer->found)
        return FALSE;
      next = first.bound - answer->cost + 1;
      if (next <= later->from[0] || (how->give_up != NULL && how->give_up (how->user_data)))
        return FALSE;
      later->from[0] = next;
    }
  return TRUE;
}
