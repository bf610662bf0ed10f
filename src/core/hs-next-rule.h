// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-belief.h"

G_BEGIN_DECLS

/*
 * What following the refined one-step rule to the end costs. What was worked out of a state is kept, for it is reached
 * in many orders: make one for all that is asked from one belief.
 */
typedef struct HsNextRule HsNextRule;

/* hs_next_rule_new: borrows @model. */
HsNextRule *hs_next_rule_new (const HsCauseModel *model);
void hs_next_rule_free (HsNextRule *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsNextRule, hs_next_rule_free)

/**
 * HsNextPath:
 *
 * How a state was reached from the belief that all costs of an #HsNextRule count from: the results that came out and
 * the repairs done in vain, in any order. All zero: that belief itself.
 */
typedef guint64 HsNextPath;

HsNextPath hs_next_path_without (HsNextPath path, guint cause);
HsNextPath hs_next_path_after (HsNextPath path, guint check, guint result);

/**
 * hs_next_rule_cost:
 * @belief: at @path
 * @budget: (inout): how many states may still be opened; 0 after the call: they were not enough
 *
 * Returns: the expected minutes from there to the end, times the sum of @belief
 */
double hs_next_rule_cost (HsNextRule *self, const HsBelief *belief, HsNextPath path, guint *budget);

G_END_DECLS
