// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which check or repair next, from a model of causes and what was seen: the exact search where the model is small, the
 * refined one-step rule elsewhere; the same as a tree; and beside them what a fixed list would cost. */

#include "hs-next-check.h"

#include "hs-belief.h"
#include "hs-core-error.h"
#include "hs-next-exact.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TIE 1e-9
/* A model of no more is searched to the end, if asked for; a larger one up to so many states. */
#define SMALL_CAUSES 6
#define SMALL_CHECKS 6
#define LARGE_STATES 250000
#define HOPELESS 128

/* --- Every first step ------------------------------------------------------------------------------------------ */

static int
compare_kinds (const void *left, const void *right)
{
  const HsNextStep *a = left;
  const HsNextStep *b = right;

  if (a->is_check != b->is_check)
    return a->is_check ? 1 : -1;
  return a->index < b->index ? -1 : a->index > b->index;
}

static int
compare_steps (const void *left, const void *right)
{
  const HsNextStep *a = left;
  const HsNextStep *b = right;

  return a->minutes != b->minutes ? (a->minutes < b->minutes ? -1 : 1) : compare_kinds (left, right);
}

/* is_idle: whether @step is a check of which each result is as likely under all causes that are left. */
static gboolean
is_idle (const HsCauseModel *model, const HsBelief *belief, const HsNextStep *step)
{
  gsize row = step->is_check ? hs_cause_model_get_n_results (model, step->index) : 0;
  const double *chances = step->is_check ? hs_cause_model_get_chances (model, step->index) : NULL;
  const double *first = NULL;

  for (guint i = 0; step->is_check && i < belief->n_causes; i++)
    if (belief->w[i] > 0 && first == NULL)
      first = chances + i * row;
    else if (belief->w[i] > 0 && memcmp (chances + i * row, first, sizeof *chances * row) != 0)
      return FALSE;
  return step->is_check;
}

/* put_idle_last: of steps that are equal. */
static void
put_idle_last (const HsCauseModel *model, const HsBelief *belief, HsNextStep *steps, guint n_steps)
{
  guint n_done = 0;

  for (guint i = 0; i < n_steps; i++)
    {
      HsNextStep step = steps[i - n_done];

      if (!is_idle (model, belief, &step))
        continue;
      memmove (steps + i - n_done, steps + i - n_done + 1, sizeof step * (n_steps - 1 - (i - n_done)));
      steps[n_steps - 1] = step;
      n_done++;
    }
}

/* sort_steps: the best first; those within a tie of the first of them are equal. */
static void
sort_steps (const HsCauseModel *model, const HsBelief *belief, HsNextStep *steps, guint n_steps)
{
  qsort (steps, n_steps, sizeof *steps, compare_steps);
  for (guint from = 0, to; from < n_steps; from = to)
    {
      for (to = from + 1; to < n_steps && steps[to].minutes - steps[from].minutes <= TIE; to++)
        continue;
      qsort (steps + from, to - from, sizeof *steps, compare_kinds);
      put_idle_last (model, belief, steps + from, to - from);
    }
}

/* list_steps: every repair of a cause that is left and every check not done, without their minutes. */
static void
list_steps (const HsCauseModel *model, const HsBelief *belief, HsNext *next)
{
  next->n_steps = 0;
  for (guint i = 0; i < belief->n_causes; i++)
    if (belief->w[i] > 0)
      next->steps[next->n_steps++] = (HsNextStep) { .index = i };
  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if (!hs_belief_is_done (belief, i))
      next->steps[next->n_steps++] = (HsNextStep) { .is_check = TRUE, .index = i };
}

/* is_hopeless: whether a search of so many states will hardly come to its end, so that it is not begun. Of all sets of
 * causes and all results together the search opened no more than one in HOPELESS on the models that are shipped. */
static gboolean
is_hopeless (const HsCauseModel *model, const HsBelief *belief, guint n_left, guint max_states)
{
  double most = ldexp (1, (int) n_left);

  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if (!hs_belief_is_done (belief, i))
      most *= hs_cause_model_get_n_results (model, i) + 1;
  return most / HOPELESS > max_states;
}

/* search_new: (nullable): the exact search of what is left, if it can be had. */
static HsNextExact *
search_new (const HsCauseModel *model, const HsBelief *belief, guint max_states)
{
  guint order[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n_left = hs_belief_repairs_in_order (model, belief, order);
  guint n_checks = 0;
  gboolean is_small;

  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    n_checks += !hs_belief_is_done (belief, i);
  is_small = n_left <= SMALL_CAUSES && n_checks <= SMALL_CHECKS;
  if (max_states == HS_NEXT_TO_THE_END && !is_small)
    max_states = LARGE_STATES;
  if (!is_small && is_hopeless (model, belief, n_left, max_states))
    return NULL;
  return hs_next_exact_new (model, belief->w, belief->done, max_states);
}

/* weigh_exactly: every first step followed by the best. Returns: whether the search came to its end. */
static gboolean
weigh_exactly (const HsCauseModel *model, const HsBelief *belief, guint max_states, HsNext *next)
{
  g_autoptr (HsNextExact) exact = search_new (model, belief, max_states);

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
weigh_by_rule (const HsCauseModel *model, const HsBelief *belief, HsNext *next)
{
  HsNextStep best = hs_belief_rule_step (model, belief);

  for (guint i = 0; i < next->n_steps; i++)
    {
      HsNextStep *step = &next->steps[i];

      step->minutes = step->is_check ? hs_belief_ask_now (model, belief, step->index)
                                     : hs_belief_repair_now (model, belief, step->index);
    }
  sort_steps (model, belief, next->steps, next->n_steps);
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
  HsBelief belief;

  if (!hs_belief_begin (model, seen, &belief))
    return hs_core_bad_value (error, "seen: no cause on the list can have given all of this together; look at the "
                                     "readings again, or for a cause that is not on the list");
  memcpy (next.beliefs, belief.w, sizeof next.beliefs);
  next.repairs_minutes = hs_belief_repairs_cost (model, &belief);
  next.n_left = hs_belief_repairs_in_order (model, &belief, next.repairs_order);
  list_steps (model, &belief, &next);
  next.exact = weigh_exactly (model, &belief, max_states, &next);
  if (next.exact)
    sort_steps (model, &belief, next.steps, next.n_steps);
  else
    weigh_by_rule (model, &belief, &next);
  *ret_next = next;
  return TRUE;
}

double
hs_next_chance (const HsCauseModel *model, const HsNext *next, guint check, guint result)
{
  guint n_results = hs_cause_model_get_n_results (model, check);
  double chance = 0;

  for (guint cause = 0; cause < hs_cause_model_get_n_causes (model); cause++)
    chance += next->beliefs[cause] * hs_cause_model_get_chances (model, check)[cause * n_results + result];
  return chance;
}

/* --- The policy as a tree -------------------------------------------------------------------------------------- */

typedef struct
{
  const HsCauseModel *model;
  HsNextExact *exact; /* (nullable): else the rule chooses */
  guint budget;
} Choice;

/* choose: the step at @belief, to which @path led from where the search began. */
static HsNextStep
choose (const Choice *choice, const HsBelief *belief, const HsSeen *path)
{
  HsNextStep step = { 0 };

  if (choice->exact == NULL)
    return hs_belief_rule_step (choice->model, belief);
  hs_next_exact_go_back (choice->exact);
  for (guint i = 0; i < belief->n_causes; i++)
    if (path->ruled_out & 1u << i)
      hs_next_exact_go_without (choice->exact, i);
  for (guint i = 0; i < hs_cause_model_get_n_checks (choice->model); i++)
    if (path->results[i] != 0)
      hs_next_exact_go_after (choice->exact, i, path->results[i] - 1);
  hs_next_exact_best (choice->exact, &step.is_check, &step.index);
  return step;
}

static HsPolicy *grow (Choice *choice, const HsBelief *belief, const HsSeen *path);

/* grow_on: the branch of @self to @next. Returns: whether there was room for it. */
static gboolean
grow_on (Choice *choice, HsPolicy *self, const HsBelief *belief, const HsBelief *next, const HsSeen *path)
{
  guint at = self->n_next++;

  self->chances[at] = next->sum / belief->sum;
  if (next->sum <= 0)
    return TRUE;
  self->next[at] = grow (choice, next, path);
  if (self->next[at] == NULL)
    return FALSE;
  self->step.minutes += self->chances[at] * self->next[at]->step.minutes;
  return TRUE;
}

static gboolean
grow_repair (Choice *choice, HsPolicy *self, const HsBelief *belief, const HsSeen *path)
{
  HsBelief next = hs_belief_without (belief, self->step.index);
  HsSeen seen = *path;

  self->step.minutes = hs_cause_model_get_cause (choice->model, self->step.index)->repair_minutes;
  seen.ruled_out |= 1u << self->step.index;
  return next.sum <= 0 || grow_on (choice, self, belief, &next, &seen);
}

static gboolean
grow_check (Choice *choice, HsPolicy *self, const HsBelief *belief, const HsSeen *path)
{
  guint check = self->step.index;
  HsSeen seen = *path;

  self->step.minutes = hs_cause_model_get_check_minutes (choice->model, check);
  for (guint result = 0; result < hs_cause_model_get_n_results (choice->model, check); result++)
    {
      HsBelief next = hs_belief_after (choice->model, belief, check, result);

      seen.results[check] = result + 1;
      if (!grow_on (choice, self, belief, &next, &seen))
        return FALSE;
    }
  return TRUE;
}

static HsPolicy *
grow (Choice *choice, const HsBelief *belief, const HsSeen *path)
{
  g_autoptr (HsPolicy) self = NULL;

  if (choice->budget == 0)
    return NULL;
  choice->budget--;
  self = g_new0 (HsPolicy, 1);
  self->step = choose (choice, belief, path);
  if (!(self->step.is_check ? grow_check : grow_repair) (choice, self, belief, path))
    return NULL;
  return g_steal_pointer (&self);
}

HsPolicy *
hs_next_policy (const HsCauseModel *model, const HsSeen *seen, guint max_states, guint max_steps)
{
  Choice choice = { .model = model, .budget = max_steps };
  g_autoptr (HsNextExact) exact = NULL;
  HsSeen path = { 0 };
  HsBelief belief;
  HsPolicy *policy;

  if (!hs_belief_begin (model, seen, &belief))
    return NULL;
  choice.exact = exact = search_new (model, &belief, max_states);
  policy = grow (&choice, &belief, &path);
  if (exact == NULL || !hs_next_exact_gave_up (exact))
    return policy;
  hs_policy_free (policy);
  choice = (Choice){ .model = model, .budget = max_steps };
  return grow (&choice, &belief, &path);
}

void
hs_policy_free (HsPolicy *self)
{
  for (guint i = 0; self != NULL && i < self->n_next; i++)
    hs_policy_free (self->next[i]);
  g_free (self);
}

/* --- A fixed list ---------------------------------------------------------------------------------------------- */

static double
list_cost (const HsCauseModel *model, const HsBelief *belief, const guint *checks, guint n_checks, guint *budget)
{
  guint order[HS_CAUSE_MODEL_MAX_CAUSES];
  double cost;

  if (belief->sum <= 0 || *budget == 0)
    return 0;
  --*budget;
  if (n_checks == 0 || hs_belief_repairs_in_order (model, belief, order) == 1)
    return hs_belief_repairs_cost (model, belief);
  if (hs_belief_is_done (belief, checks[0]))
    return list_cost (model, belief, checks + 1, n_checks - 1, budget);
  cost = hs_cause_model_get_check_minutes (model, checks[0]) * belief->sum;
  for (guint result = 0; result < hs_cause_model_get_n_results (model, checks[0]); result++)
    {
      HsBelief next = hs_belief_after (model, belief, checks[0], result);

      cost += list_cost (model, &next, checks + 1, n_checks - 1, budget);
    }
  return cost;
}

double
hs_next_list_minutes (const HsCauseModel *model, const HsSeen *seen, const guint *checks, guint n_checks,
                      guint max_states)
{
  guint budget = max_states;
  double minutes;
  HsBelief belief;

  if (!hs_belief_begin (model, seen, &belief))
    return -1;
  minutes = list_cost (model, &belief, checks, n_checks, &budget);
  return budget > 0 ? minutes : -1;
}

/* --- What asking at every step costs --------------------------------------------------------------------------- */

/* asked_cost: the minutes from @seen on, times its chance. */
static double
asked_cost (const HsCauseModel *model, const HsSeen *seen, guint max_states, guint *budget)
{
  HsSeen after = *seen;
  double cost = 0;
  HsNext next;

  if (*budget == 0 || !hs_next_check (model, seen, max_states, &next, NULL))
    return 0;
  --*budget;
  if (next.exact)
    return next.steps[0].minutes;
  if (!next.steps[0].is_check)
    {
      guint cause = next.steps[0].index;

      after.ruled_out |= 1u << cause;
      return hs_cause_model_get_cause (model, cause)->repair_minutes
             + (1 - next.beliefs[cause]) * asked_cost (model, &after, max_states, budget);
    }
  for (guint result = 0; result < hs_cause_model_get_n_results (model, next.steps[0].index); result++)
    {
      double chance = hs_next_chance (model, &next, next.steps[0].index, result);

      after.results[next.steps[0].index] = result + 1;
      if (chance > 0)
        cost += chance * asked_cost (model, &after, max_states, budget);
    }
  return cost + hs_cause_model_get_check_minutes (model, next.steps[0].index);
}

double
hs_next_minutes (const HsCauseModel *model, const HsSeen *seen, guint max_states, guint max_steps)
{
  guint budget = max_steps;
  double minutes;
  HsBelief belief;

  if (!hs_belief_begin (model, seen, &belief))
    return -1;
  minutes = asked_cost (model, seen, max_states, &budget);
  return budget > 0 ? minutes : -1;
}
