// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-next-check.h"

G_BEGIN_DECLS

/**
 * HsBelief:
 * @w: of each cause its weight times the chances of all that came out, unscaled; 0: can't be
 * @sum: of @w
 * @done: a bit for each check that is done
 *
 * Costs are unscaled like the weights: expected minutes times @sum.
 */
typedef struct
{
  guint n_causes;
  double w[HS_CAUSE_MODEL_MAX_CAUSES];
  double sum;
  guint64 done;
} HsBelief;

/* hs_belief_begin: what is believed once all of @seen is known, with a sum of 1. Returns: whether anything fits. */
gboolean hs_belief_begin (const HsCauseModel *model, const HsSeen *seen, HsBelief *ret_belief);
HsBelief hs_belief_without (const HsBelief *belief, guint cause);
HsBelief hs_belief_after (const HsCauseModel *model, const HsBelief *belief, guint check, guint result);
gboolean hs_belief_is_done (const HsBelief *belief, guint check);

/* hs_belief_repairs_in_order: (out) (array) @ret_order: the causes that are left, best repair first: by weight over
 * minutes, one of no minutes before all, equal ones by the lower index. Returns: how many. */
guint hs_belief_repairs_in_order (const HsCauseModel *model, const HsBelief *belief, guint *ret_order);
/* hs_belief_repairs_cost: of the repairs alone in that order. */
double hs_belief_repairs_cost (const HsCauseModel *model, const HsBelief *belief);

/* hs_belief_ask_now, hs_belief_repair_now: of @check or the repair of @cause now and repairs alone after it: the figure
 * that the one-step rule goes by. */
double hs_belief_ask_now (const HsCauseModel *model, const HsBelief *belief, guint check);
double hs_belief_repair_now (const HsCauseModel *model, const HsBelief *belief, guint cause);

/* hs_belief_rule_step: what the rule does, with its own figure for it; at least one cause is left. A check if that is
 * better than the repairs alone and no worse than asking it after the first of them has failed; of several the best. */
HsNextStep hs_belief_rule_step (const HsCauseModel *model, const HsBelief *belief);

G_END_DECLS
