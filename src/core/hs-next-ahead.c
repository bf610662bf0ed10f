// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The true minutes of a first step, where the model is too large to be searched to the end: use it so that what is
 * shown beside a fixed list means the same as the list's minutes do. */

#include "hs-next-ahead.h"

#include "hs-next-rule.h"

#include <stdlib.h>

#define TIE 1e-9

/* Costs are of a belief with a sum of 1, so that they are minutes. */
static double
repair_first (HsNextRule *rule, const HsCauseModel *model, const HsBelief *belief, guint cause, guint *budget)
{
  HsBelief next = hs_belief_without (belief, cause);

  return hs_cause_model_get_cause (model, cause)->repair_minutes
         + hs_next_rule_cost (rule, &next, hs_next_path_without (0, cause), budget);
}

static double
check_first (HsNextRule *rule, const HsCauseModel *model, const HsBelief *belief, guint check, guint *budget)
{
  double minutes = hs_cause_model_get_check_minutes (model, check);

  for (guint result = 0; result < hs_cause_model_get_n_results (model, check); result++)
    {
      HsBelief next = hs_belief_after (model, belief, check, result);

      minutes += hs_next_rule_cost (rule, &next, hs_next_path_after (0, check, result), budget);
    }
  return minutes;
}

/* Below 0: @max_states were not enough. */
static double
step_first (HsNextRule *rule, const HsCauseModel *model, const HsBelief *belief, const HsNextStep *step,
            guint max_states)
{
  guint budget = max_states;
  double minutes = (step->is_check ? check_first : repair_first) (rule, model, belief, step->index, &budget);

  return budget > 0 ? minutes : -1;
}

double
hs_next_step_minutes (const HsCauseModel *model, const HsSeen *seen, const HsNextStep *step, guint max_states)
{
  g_autoptr (HsNextRule) rule = hs_next_rule_new (model);
  HsBelief belief;

  return hs_belief_begin (model, seen, &belief) ? step_first (rule, model, &belief, step, max_states) : -1;
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
  g_autoptr (HsNextRule) rule = NULL;
  HsBelief belief;

  if (next->exact || !hs_belief_begin (model, seen, &belief))
    return;
  rule = hs_next_rule_new (model);
  for (guint i = 0; i < n_steps && i < next->n_steps; i++)
    {
      double minutes = step_first (rule, model, &belief, &next->steps[i], max_states);

      if (minutes >= 0)
        next->steps[i].minutes = minutes;
    }
  qsort (next->steps, next->n_steps, sizeof next->steps[0], compare_steps);
}
