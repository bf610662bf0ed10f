// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The true minutes of a first step, where the model is too large to be searched to the end: use it so that what is
 * shown beside a fixed list means the same as the list's minutes do. */

#include "hs-next-ahead.h"

#include "hs-belief.h"

#include <stdlib.h>

#define TIE 1e-9

static double
repair_first (const HsCauseModel *model, const HsSeen *seen, const HsBelief *belief, guint cause, guint max_states)
{
  double minutes = hs_cause_model_get_cause (model, cause)->repair_minutes;
  HsBelief next = hs_belief_without (belief, cause);
  HsSeen after = *seen;
  double rest;

  if (next.sum <= 0)
    return minutes;
  after.ruled_out |= 1u << cause;
  rest = hs_next_rule_minutes (model, &after, max_states);
  return rest < 0 ? -1 : minutes + next.sum / belief->sum * rest;
}

static double
check_first (const HsCauseModel *model, const HsSeen *seen, const HsBelief *belief, guint check, guint max_states)
{
  double minutes = hs_cause_model_get_check_minutes (model, check);
  HsSeen after = *seen;

  for (guint result = 0; result < hs_cause_model_get_n_results (model, check); result++)
    {
      HsBelief next = hs_belief_after (model, belief, check, result);
      double rest;

      if (next.sum <= 0)
        continue;
      after.results[check] = (guint8) (result + 1);
      rest = hs_next_rule_minutes (model, &after, max_states);
      if (rest < 0)
        return -1;
      minutes += next.sum / belief->sum * rest;
    }
  return minutes;
}

double
hs_next_step_minutes (const HsCauseModel *model, const HsSeen *seen, const HsNextStep *step, guint max_states)
{
  HsBelief belief;

  if (!hs_belief_begin (model, seen, &belief))
    return -1;
  return (step->is_check ? check_first : repair_first) (model, seen, &belief, step->index, max_states);
}

/* As in #HsNext: equal ones: repairs before checks, then the lower index. */
static int
compare_steps (const void *a, const void *b)
{
  const HsNextStep *left = a;
  const HsNextStep *right = b;

  if (left->minutes < right->minutes - TIE)
    return -1;
  if (left->minutes > right->minutes + TIE)
    return 1;
  if (left->is_check != right->is_check)
    return left->is_check ? 1 : -1;
  return left->index < right->index ? -1 : left->index > right->index;
}

void
hs_next_look_ahead (const HsCauseModel *model, const HsSeen *seen, guint n_steps, guint max_states, HsNext *next)
{
  if (next->exact)
    return;
  for (guint i = 0; i < n_steps && i < next->n_steps; i++)
    {
      double minutes = hs_next_step_minutes (model, seen, &next->steps[i], max_states);

      if (minutes >= 0)
        next->steps[i].minutes = minutes;
    }
  qsort (next->steps, next->n_steps, sizeof next->steps[0], compare_steps);
}
