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

/* What stands behind the last cause is nobody's: it is neither copied nor read. */
static void
copy_head (const HsBelief *belief, HsBelief *ret_copy)
{
  ret_copy->n_causes = belief->n_causes;
  ret_copy->done = belief->done;
  ret_copy->sum = 0;
}

HsBelief
hs_belief_without (const HsBelief *belief, guint cause)
{
  HsBelief next;

  copy_head (belief, &next);
  for (guint i = 0; i < belief->n_causes; i++)
    {
      next.w[i] = i == cause ? 0 : belief->w[i];
      next.sum += next.w[i];
    }
  return next;
}

HsBelief
hs_belief_after (const HsCauseModel *model, const HsBelief *belief, guint check, guint result)
{
  guint n_results = hs_cause_model_get_n_results (model, check);
  const double *chances = hs_cause_model_get_chances (model, check) + result;
  HsBelief next;

  copy_head (belief, &next);
  next.done |= G_GUINT64_CONSTANT (1) << check;
  for (guint i = 0; i < belief->n_causes; i++)
    {
      next.w[i] = belief->w[i] * chances[i * n_results];
      next.sum += next.w[i];
    }
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

/* A cause that is left. */
typedef struct
{
  double w;
  double minutes;
  guint cause;
} Left;

/* goes_before: whether the repair of @a goes before that of @b, by weight over minutes, one of no minutes first. Of
 * equal ones, which stand in the order of their index when they come in, neither does. */
static gboolean
goes_before (const Left *a, const Left *b)
{
  double left = a->w * b->minutes;
  double right = b->w * a->minutes;

  return left - right > ALIKE * (left + right);
}

/* put_in_order: puts @one behind those of @left that go before it. */
static inline void
put_in_order (Left *left, guint *n_left, Left one)
{
  guint at = (*n_left)++;

  for (; at > 0 && goes_before (&one, &left[at - 1]); at--)
    left[at] = left[at - 1];
  left[at] = one;
}

static guint
list_left (const HsCauseModel *model, const HsBelief *belief, Left *ret_left)
{
  guint n = 0;

  for (guint cause = 0; cause < belief->n_causes; cause++)
    if (belief->w[cause] > 0)
      put_in_order (ret_left, &n, (Left){ belief->w[cause], repair_minutes (model, cause), cause });
  return n;
}

static double
cost_in_order (const Left *left, guint n, double sum)
{
  double cost = 0;

  for (guint i = 0; i < n; i++)
    {
      cost += left[i].minutes * sum;
      sum -= left[i].w;
    }
  return cost;
}

/* repairs_in_order: (out) (array) @ret_order: the causes that are left, best repair first. Returns: how many. */
guint
hs_belief_repairs_in_order (const HsCauseModel *model, const HsBelief *belief, guint *ret_order)
{
  Left left[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n = list_left (model, belief, left);

  for (guint i = 0; i < n; i++)
    ret_order[i] = left[i].cause;
  return n;
}

double
hs_belief_repairs_cost (const HsCauseModel *model, const HsBelief *belief)
{
  Left left[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n = list_left (model, belief, left);

  return cost_in_order (left, n, belief->sum);
}

/* --- The refined one-step rule --------------------------------------------------------------------------------- */

/* ask: @check now, and repairs alone after it, of the causes of @left; or a number of at least @enough that it costs at
 * least. What comes out changes their order little, so that they are put in order again from where they stand. */
static double
ask (const HsCauseModel *model, const Left *left, guint n_left, double sum, guint check, double enough)
{
  guint n_results = hs_cause_model_get_n_results (model, check);
  const double *chances = hs_cause_model_get_chances (model, check);
  double cost = hs_cause_model_get_check_minutes (model, check) * sum;

  for (guint result = 0; result < n_results && cost < enough; result++)
    {
      Left after[HS_CAUSE_MODEL_MAX_CAUSES];
      double after_sum = 0;
      guint n = 0;

      for (guint i = 0; i < n_left; i++)
        {
          double w = left[i].w * chances[left[i].cause * n_results + result];

          after_sum += w;
          if (w > 0)
            put_in_order (after, &n, (Left){ w, left[i].minutes, left[i].cause });
        }
      cost += cost_in_order (after, n, after_sum);
    }
  return cost;
}

/* ask_now: the rule's own figure: @check now, and repairs alone after it. */
double
hs_belief_ask_now (const HsCauseModel *model, const HsBelief *belief, guint check)
{
  Left left[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n = list_left (model, belief, left);

  return ask (model, left, n, belief->sum, check, INFINITY);
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
  Left left[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n = list_left (model, belief, left);
  HsNextStep step = { .index = left[0].cause, .minutes = cost_in_order (left, n, belief->sum) };
  double hair = TIE * belief->sum;

  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if (!hs_belief_is_done (belief, i))
      {
        double now = ask (model, left, n, belief->sum, i, step.minutes - hair);
        double later;

        if (now >= step.minutes - hair)
          continue;
        later = left[0].minutes * belief->sum + ask (model, left + 1, n - 1, belief->sum - left[0].w, i, now);
        if (now <= later + hair)
          step = (HsNextStep) { .is_check = TRUE, .index = i, .minutes = now };
      }
  return step;
}
