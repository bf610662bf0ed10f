// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is believed of the causes, the repairs alone in their best order, and the refined one-step rule (Jensen and
 * others 2001, AI EDAM 15:321–333). */

#include "hs-belief.h"

#include <math.h>

#define TIE 1e-9
/* Of weights over minutes that differ by no more than what scaling and summing lose, neither goes first. */
#define ALIKE 1e-12

static void
add_up (HsBelief *belief)
{
  belief->sum = 0;
  for (guint i = 0; i < belief->n_causes; i++)
    belief->sum += belief->w[i];
}

static void
scale (HsBelief *belief)
{
  for (guint i = 0; i < belief->n_causes; i++)
    belief->w[i] /= belief->sum;
  add_up (belief);
}

HsBelief
hs_belief_without (const HsBelief *belief, guint cause)
{
  HsBelief next = *belief;

  next.w[cause] = 0;
  add_up (&next);
  return next;
}

HsBelief
hs_belief_after (const HsCauseModel *model, const HsBelief *belief, guint check, guint result)
{
  guint n_results = hs_cause_model_get_n_results (model, check);
  const double *chances = hs_cause_model_get_chances (model, check);
  HsBelief next = *belief;

  for (guint i = 0; i < belief->n_causes; i++)
    next.w[i] *= chances[i * n_results + result];
  next.done |= G_GUINT64_CONSTANT (1) << check;
  add_up (&next);
  return next;
}

gboolean
hs_belief_is_done (const HsBelief *belief, guint check)
{
  return (belief->done & G_GUINT64_CONSTANT (1) << check) != 0;
}

static double
repair_minutes (const HsCauseModel *model, guint cause)
{
  return hs_cause_model_get_cause (model, cause)->repair_minutes;
}

gboolean
hs_belief_begin (const HsCauseModel *model, const HsSeen *seen, HsBelief *ret_belief)
{
  HsBelief belief = { .n_causes = hs_cause_model_get_n_causes (model) };

  for (guint i = 0; i < belief.n_causes; i++)
    belief.w[i] = seen->ruled_out & 1u << i ? 0 : hs_cause_model_get_cause (model, i)->weight;
  add_up (&belief);
  for (guint i = 0; i < hs_cause_model_get_n_checks (model) && belief.sum > 0; i++)
    if (seen->results[i] != 0)
      {
        scale (&belief);
        belief = hs_belief_after (model, &belief, i, seen->results[i] - 1);
      }
  if (belief.sum <= 0)
    return FALSE;
  scale (&belief);
  *ret_belief = belief;
  return TRUE;
}

/* --- Repairs alone --------------------------------------------------------------------------------------------- */

/* goes_before: whether the repair of @a goes before that of @b, by weight over minutes, one of no minutes first. */
static gboolean
goes_before (const HsCauseModel *model, const HsBelief *belief, guint a, guint b)
{
  double left = belief->w[a] * repair_minutes (model, b);
  double right = belief->w[b] * repair_minutes (model, a);

  return fabs (left - right) > ALIKE * (left + right) ? left > right : a < b;
}

/* repairs_in_order: (out) (array) @ret_order: the causes that are left, best repair first. Returns: how many. */
guint
hs_belief_repairs_in_order (const HsCauseModel *model, const HsBelief *belief, guint *ret_order)
{
  guint n = 0;

  for (guint cause = 0; cause < belief->n_causes; cause++)
    if (belief->w[cause] > 0)
      {
        guint at = n++;

        for (; at > 0 && goes_before (model, belief, cause, ret_order[at - 1]); at--)
          ret_order[at] = ret_order[at - 1];
        ret_order[at] = cause;
      }
  return n;
}

double
hs_belief_repairs_cost (const HsCauseModel *model, const HsBelief *belief)
{
  guint order[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n = hs_belief_repairs_in_order (model, belief, order);
  double sum = belief->sum;
  double cost = 0;

  for (guint i = 0; i < n; i++)
    {
      cost += repair_minutes (model, order[i]) * sum;
      sum -= belief->w[order[i]];
    }
  return cost;
}

/* --- The refined one-step rule --------------------------------------------------------------------------------- */

/* ask_now: the rule's own figure: @check now, and repairs alone after it. */
double
hs_belief_ask_now (const HsCauseModel *model, const HsBelief *belief, guint check)
{
  double cost = hs_cause_model_get_check_minutes (model, check) * belief->sum;

  for (guint result = 0; result < hs_cause_model_get_n_results (model, check); result++)
    {
      HsBelief next = hs_belief_after (model, belief, check, result);

      cost += hs_belief_repairs_cost (model, &next);
    }
  return cost;
}

double
hs_belief_repair_now (const HsCauseModel *model, const HsBelief *belief, guint cause)
{
  HsBelief failed = hs_belief_without (belief, cause);

  return repair_minutes (model, cause) * belief->sum + hs_belief_repairs_cost (model, &failed);
}

HsNextStep
hs_belief_rule_step (const HsCauseModel *model, const HsBelief *belief)
{
  guint order[HS_CAUSE_MODEL_MAX_CAUSES];
  HsNextStep step = { .minutes = hs_belief_repairs_cost (model, belief) };
  double hair = TIE * belief->sum;
  double first_minutes;
  HsBelief failed;

  hs_belief_repairs_in_order (model, belief, order);
  step.index = order[0];
  first_minutes = repair_minutes (model, order[0]);
  failed = hs_belief_without (belief, order[0]);
  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if (!hs_belief_is_done (belief, i))
      {
        double now = hs_belief_ask_now (model, belief, i);
        double later = first_minutes * belief->sum + hs_belief_ask_now (model, &failed, i);

        if (now < step.minutes - hair && now <= later + hair)
          step = (HsNextStep) { .is_check = TRUE, .index = i, .minutes = now };
      }
  return step;
}
