// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The true cost of the refined one-step rule: followed to the end of every branch. A model of so many causes and checks
 * that a path has no room for them is followed without keeping anything. */

#include "hs-next-rule.h"

#define CAUSES 16
#define RESULT_BITS 4
#define CHECKS 12
/* A quarter of a megabyte; one state takes the place of another. */
#define SLOTS (1u << 14)

G_STATIC_ASSERT (CAUSES + RESULT_BITS * CHECKS == 64);
G_STATIC_ASSERT (HS_CAUSE_MODEL_MAX_RESULTS < 1 << RESULT_BITS);

typedef struct
{
  HsNextPath path; /* 0: free; the start itself is not worth a slot */
  double cost;
} Known;

struct HsNextRule
{
  const HsCauseModel *model;
  Known *known; /* (nullable): where paths have no room */
};

HsNextRule *
hs_next_rule_new (const HsCauseModel *model)
{
  HsNextRule *self = g_new0 (HsNextRule, 1);

  self->model = model;
  if (hs_cause_model_get_n_causes (model) <= CAUSES && hs_cause_model_get_n_checks (model) <= CHECKS)
    self->known = g_new0 (Known, SLOTS);
  return self;
}

void
hs_next_rule_free (HsNextRule *self)
{
  if (self == NULL)
    return;
  g_free (self->known);
  g_free (self);
}

HsNextPath
hs_next_path_without (HsNextPath path, guint cause)
{
  return cause < CAUSES ? path | G_GUINT64_CONSTANT (1) << cause : path;
}

HsNextPath
hs_next_path_after (HsNextPath path, guint check, guint result)
{
  return check < CHECKS ? path | (HsNextPath) (result + 1) << (CAUSES + RESULT_BITS * check) : path;
}

/* slot_of: (nullable): where what is known of @path is kept or may be. */
static Known *
slot_of (const HsNextRule *self, HsNextPath path)
{
  guint64 hash = path * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15);

  return self->known != NULL && path != 0 ? &self->known[(hash ^ hash >> 32) & (SLOTS - 1)] : NULL;
}

static double
follow (HsNextRule *self, const HsBelief *belief, HsNextPath path, guint *budget)
{
  HsNextStep step = hs_belief_rule_step (self->model, belief);
  HsBelief next;
  double cost;

  if (!step.is_check)
    {
      next = hs_belief_without (belief, step.index);
      return hs_cause_model_get_cause (self->model, step.index)->repair_minutes * belief->sum
             + hs_next_rule_cost (self, &next, hs_next_path_without (path, step.index), budget);
    }
  cost = hs_cause_model_get_check_minutes (self->model, step.index) * belief->sum;
  for (guint result = 0; result < hs_cause_model_get_n_results (self->model, step.index); result++)
    {
      next = hs_belief_after (self->model, belief, step.index, result);
      cost += hs_next_rule_cost (self, &next, hs_next_path_after (path, step.index, result), budget);
    }
  return cost;
}

double
hs_next_rule_cost (HsNextRule *self, const HsBelief *belief, HsNextPath path, guint *budget)
{
  Known *known = slot_of (self, path);
  double cost;

  if (belief->sum <= 0 || *budget == 0)
    return 0;
  if (known != NULL && known->path == path)
    return known->cost;
  --*budget;
  cost = follow (self, belief, path, budget);
  if (known != NULL && *budget > 0)
    *known = (Known){ path, cost };
  return cost;
}

double
hs_next_rule_minutes (const HsCauseModel *model, const HsSeen *seen, guint max_states)
{
  g_autoptr (HsNextRule) rule = hs_next_rule_new (model);
  guint budget = max_states;
  double minutes;
  HsBelief belief;

  if (!hs_belief_begin (model, seen, &belief))
    return -1;
  minutes = hs_next_rule_cost (rule, &belief, 0, &budget);
  return budget > 0 ? minutes : -1;
}
