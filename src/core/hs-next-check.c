// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which check or repair next, from a model of causes and what was seen: the exact search where the model is small, the
 * refined one-step rule elsewhere, and beside them what a fixed list would cost. Beliefs are carried unscaled: w(c) is
 * the weight of cause c times the chances of all that came out, W their sum, and a cost is W times minutes. */

#include "hs-next-check.h"

#include "hs-core-error.h"
#include "hs-next-exact.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TIE 1e-9
/* A model of no more is searched to the end. */
#define SMALL_CAUSES 6
#define SMALL_CHECKS 6

typedef struct
{
  guint n_causes;
  double w[HS_CAUSE_MODEL_MAX_CAUSES];
  double sum;
  guint64 done; /* a bit for each check */
} Belief;

static void
add_up (Belief *belief)
{
  belief->sum = 0;
  for (guint i = 0; i < belief->n_causes; i++)
    belief->sum += belief->w[i];
}

static void
scale (Belief *belief)
{
  for (guint i = 0; i < belief->n_causes; i++)
    belief->w[i] /= belief->sum;
  add_up (belief);
}

static Belief
without (const Belief *belief, guint cause)
{
  Belief next = *belief;

  next.w[cause] = 0;
  add_up (&next);
  return next;
}

static Belief
after (const HsCauseModel *model, const Belief *belief, guint check, guint result)
{
  guint n_results = hs_cause_model_get_n_results (model, check);
  const double *chances = hs_cause_model_get_chances (model, check);
  Belief next = *belief;

  for (guint i = 0; i < belief->n_causes; i++)
    next.w[i] *= chances[i * n_results + result];
  next.done |= G_GUINT64_CONSTANT (1) << check;
  add_up (&next);
  return next;
}

static gboolean
is_done (const Belief *belief, guint check)
{
  return (belief->done & G_GUINT64_CONSTANT (1) << check) != 0;
}

static double
repair_minutes (const HsCauseModel *model, guint cause)
{
  return hs_cause_model_get_cause (model, cause)->repair_minutes;
}

/* begin: what is believed once all of @seen is known, scaled to a sum of 1. Returns: whether anything fits. */
static gboolean
begin (const HsCauseModel *model, const HsSeen *seen, Belief *ret_belief)
{
  Belief belief = { .n_causes = hs_cause_model_get_n_causes (model) };

  for (guint i = 0; i < belief.n_causes; i++)
    belief.w[i] = seen->ruled_out & 1u << i ? 0 : hs_cause_model_get_cause (model, i)->weight;
  add_up (&belief);
  for (guint i = 0; i < hs_cause_model_get_n_checks (model) && belief.sum > 0; i++)
    if (seen->results[i] != 0)
      {
        scale (&belief);
        belief = after (model, &belief, i, seen->results[i] - 1);
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
goes_before (const HsCauseModel *model, const Belief *belief, guint a, guint b)
{
  double left = belief->w[a] * repair_minutes (model, b);
  double right = belief->w[b] * repair_minutes (model, a);

  return left != right ? left > right : a < b;
}

/* repairs_in_order: (out) (array) @ret_order: the causes that are left, best repair first. Returns: how many. */
static guint
repairs_in_order (const HsCauseModel *model, const Belief *belief, guint *ret_order)
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

static double
repairs_cost (const HsCauseModel *model, const Belief *belief)
{
  guint order[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n = repairs_in_order (model, belief, order);
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
static double
ask_now (const HsCauseModel *model, const Belief *belief, guint check)
{
  double cost = hs_cause_model_get_check_minutes (model, check) * belief->sum;

  for (guint result = 0; result < hs_cause_model_get_n_results (model, check); result++)
    {
      Belief next = after (model, belief, check, result);

      cost += repairs_cost (model, &next);
    }
  return cost;
}

static double
repair_now (const HsCauseModel *model, const Belief *belief, guint cause)
{
  Belief failed = without (belief, cause);

  return repair_minutes (model, cause) * belief->sum + repairs_cost (model, &failed);
}

/* rule_step: a check if that is better than the repairs alone and no worse than asking it after the first of them has
 * failed; of several the best; else the first repair. */
static HsNextStep
rule_step (const HsCauseModel *model, const Belief *belief)
{
  guint order[HS_CAUSE_MODEL_MAX_CAUSES];
  HsNextStep step = { .minutes = repairs_cost (model, belief) };
  double hair = TIE * belief->sum;
  double first_minutes;
  Belief failed;

  repairs_in_order (model, belief, order);
  step.index = order[0];
  first_minutes = repair_minutes (model, order[0]);
  failed = without (belief, order[0]);
  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if (!is_done (belief, i))
      {
        double now = ask_now (model, belief, i);
        double later = first_minutes * belief->sum + ask_now (model, &failed, i);

        if (now < step.minutes - hair && now <= later + hair)
          step = (HsNextStep) { .is_check = TRUE, .index = i, .minutes = now };
      }
  return step;
}

/* rule_cost: of following the rule to the end; @budget is what may still be opened. */
static double
rule_cost (const HsCauseModel *model, const Belief *belief, guint *budget)
{
  HsNextStep step;
  Belief next;
  double cost;

  if (belief->sum <= 0 || *budget == 0)
    return 0;
  --*budget;
  step = rule_step (model, belief);
  if (!step.is_check)
    {
      next = without (belief, step.index);
      return repair_minutes (model, step.index) * belief->sum + rule_cost (model, &next, budget);
    }
  cost = hs_cause_model_get_check_minutes (model, step.index) * belief->sum;
  for (guint result = 0; result < hs_cause_model_get_n_results (model, step.index); result++)
    {
      next = after (model, belief, step.index, result);
      cost += rule_cost (model, &next, budget);
    }
  return cost;
}

double
hs_next_rule_minutes (const HsCauseModel *model, const HsSeen *seen, guint max_states)
{
  guint budget = max_states;
  double minutes;
  Belief belief;

  if (!begin (model, seen, &belief))
    return -1;
  minutes = rule_cost (model, &belief, &budget);
  return budget > 0 ? minutes : -1;
}

/* --- Every first step ------------------------------------------------------------------------------------------ */

static int
compare_steps (const void *left, const void *right)
{
  const HsNextStep *a = left;
  const HsNextStep *b = right;

  if (fabs (a->minutes - b->minutes) > TIE)
    return a->minutes < b->minutes ? -1 : 1;
  if (a->is_check != b->is_check)
    return a->is_check ? 1 : -1;
  return a->index < b->index ? -1 : a->index > b->index;
}

/* list_steps: every repair of a cause that is left and every check not done, without their minutes. */
static void
list_steps (const HsCauseModel *model, const Belief *belief, HsNext *next)
{
  next->n_steps = 0;
  for (guint i = 0; i < belief->n_causes; i++)
    if (belief->w[i] > 0)
      next->steps[next->n_steps++] = (HsNextStep) { .index = i };
  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if (!is_done (belief, i))
      next->steps[next->n_steps++] = (HsNextStep) { .is_check = TRUE, .index = i };
}

/* weigh_exactly: every first step followed by the best. Returns: whether the search came to its end. */
static gboolean
weigh_exactly (const HsCauseModel *model, const Belief *belief, guint max_states, HsNext *next)
{
  gboolean is_small = next->n_left <= SMALL_CAUSES && next->n_steps - next->n_left <= SMALL_CHECKS;
  g_autoptr (HsNextExact) exact = hs_next_exact_new (model, belief->w, belief->done, is_small ? G_MAXUINT : max_states);

  if (exact == NULL)
    return FALSE;
  for (guint i = 0; i < next->n_steps && !hs_next_exact_gave_up (exact); i++)
    next->steps[i].minutes = next->steps[i].is_check ? hs_next_exact_check (exact, next->steps[i].index)
                                                     : hs_next_exact_repair (exact, next->steps[i].index);
  next->n_states = hs_next_exact_get_n_states (exact);
  return !hs_next_exact_gave_up (exact);
}

/* weigh_by_rule: the rule's own figures; what the rule would do stands first. */
static void
weigh_by_rule (const HsCauseModel *model, const Belief *belief, HsNext *next)
{
  HsNextStep best = rule_step (model, belief);

  for (guint i = 0; i < next->n_steps; i++)
    {
      HsNextStep *step = &next->steps[i];

      step->minutes = step->is_check ? ask_now (model, belief, step->index) : repair_now (model, belief, step->index);
    }
  qsort (next->steps, next->n_steps, sizeof *next->steps, compare_steps);
  for (guint i = 0; i < next->n_steps; i++)
    if (next->steps[i].is_check == best.is_check && next->steps[i].index == best.index)
      {
        memmove (next->steps + 1, next->steps, sizeof *next->steps * i);
        next->steps[0] = best;
        return;
      }
}

gboolean
hs_next_check (const HsCauseModel *model, const HsSeen *seen, guint max_states, HsNext *ret_next, GError **error)
{
  HsNext next = { 0 };
  Belief belief;

  if (!begin (model, seen, &belief))
    return hs_core_bad_value (error, "seen: no cause on the list can have given all of this together; look at the "
                                     "readings again, or for a cause that is not on the list");
  memcpy (next.beliefs, belief.w, sizeof next.beliefs);
  next.repairs_minutes = repairs_cost (model, &belief);
  next.n_left = repairs_in_order (model, &belief, next.repairs_order);
  list_steps (model, &belief, &next);
  next.exact = weigh_exactly (model, &belief, max_states, &next);
  if (next.exact)
    qsort (next.steps, next.n_steps, sizeof *next.steps, compare_steps);
  else
    weigh_by_rule (model, &belief, &next);
  *ret_next = next;
  return TRUE;
}

/* --- A fixed list ---------------------------------------------------------------------------------------------- */

static double
list_cost (const HsCauseModel *model, const Belief *belief, const guint *checks, guint n_checks)
{
  guint order[HS_CAUSE_MODEL_MAX_CAUSES];
  double cost;

  if (belief->sum <= 0)
    return 0;
  if (n_checks == 0 || repairs_in_order (model, belief, order) == 1)
    return repairs_cost (model, belief);
  if (is_done (belief, checks[0]))
    return list_cost (model, belief, checks + 1, n_checks - 1);
  cost = hs_cause_model_get_check_minutes (model, checks[0]) * belief->sum;
  for (guint result = 0; result < hs_cause_model_get_n_results (model, checks[0]); result++)
    {
      Belief next = after (model, belief, checks[0], result);

      cost += list_cost (model, &next, checks + 1, n_checks - 1);
    }
  return cost;
}

double
hs_next_list_minutes (const HsCauseModel *model, const HsSeen *seen, const guint *checks, guint n_checks)
{
  Belief belief;

  if (!begin (model, seen, &belief))
    return -1;
  return list_cost (model, &belief, checks, n_checks);
}
