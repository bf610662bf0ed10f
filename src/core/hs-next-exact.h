// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cause-model.h"

G_BEGIN_DECLS

/*
 * The search for the best policy of a cause model that is small enough to be searched to the end. Costs here are
 * unscaled: expected minutes times the sum of the weights.
 */

/* What a state's key has room for: a bit for a cause, four for a check. */
#define HS_NEXT_EXACT_CAUSES 16
#define HS_NEXT_EXACT_CHECKS 12

typedef struct HsNextExact HsNextExact;

/**
 * hs_next_exact_new:
 * @weights: (array): of each cause of @model, what was seen so far included; 0: can't be
 * @done: a bit for each check of @model that is done or not to be had
 * @max_states: how many states may be opened
 *
 * Returns: (transfer full) (nullable): the search, which borrows @model; %NULL if there are more causes of weight above
 *   0 or more checks left than it can hold
 */
HsNextExact *hs_next_exact_new (const HsCauseModel *model,
                                const double *weights,
                                guint64 done,
                                guint max_states);
void hs_next_exact_free (HsNextExact *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsNextExact, hs_next_exact_free)

/* hs_next_exact_go_back: to where the search began, and on from there by what came out or was repaired in vain. */
void hs_next_exact_go_back (HsNextExact *self);
void hs_next_exact_go_without (HsNextExact *self, guint cause);
void hs_next_exact_go_after (HsNextExact *self, guint check, guint result);

/* hs_next_exact_repair, hs_next_exact_check: the cost from here of beginning with the repair of @cause or with @check,
 * and the best from there on. @cause has a weight and @check is not done. Means nothing once the search gave up. */
double hs_next_exact_repair (HsNextExact *self, guint cause);
double hs_next_exact_check (HsNextExact *self, guint check);

/* hs_next_exact_best: the first step of the best policy from here; equal ones: repairs before checks, then the lower
 * index. At least one cause is left. Means nothing once the search gave up. */
void hs_next_exact_best (HsNextExact *self, gboolean *ret_is_check, guint *ret_index);

/* hs_next_exact_gave_up: whether the states that it may open did not suffice. */
gboolean hs_next_exact_gave_up (const HsNextExact *self);
guint hs_next_exact_get_n_states (const HsNextExact *self);

G_END_DECLS
