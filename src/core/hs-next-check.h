// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cause-model.h"

G_BEGIN_DECLS

/*
 * Which check, or which repair, comes next: the first step of the policy with the least expected minutes until the
 * fault is gone. With V the least expected minutes from what is believed now,
 *
 *   V = least of  repair c: R(c) + (1 − b(c)) × V without c      (R(c) alone if c is the last cause)
 *                 check k:  M(k) + Σ over results r of P(r) × V after r
 *
 * (Heckerman, Breese and Rommelse 1995; Jensen and others 2001, AI EDAM 15:321–333). Small models are searched to the
 * end and the answer is exact. Where that would take too long the refined one-step rule of Jensen and others answers:
 * a check is worth it when asking it now beats both the repairs alone and asking it after the likeliest repair.
 */

/**
 * HsSeen:
 * @ruled_out: one bit for each cause that its own repair did not cure, or that is ruled out otherwise
 * @results: for each check the result that came out plus 1, or 0 while it is not done
 */
typedef struct
{
  guint32 ruled_out;
  guint8 results[HS_CAUSE_MODEL_MAX_CHECKS];
} HsSeen;

/**
 * HsNextStep:
 * @is_check: a check; else the repair of a cause
 * @index: of the check or the cause
 * @minutes: expected until the fault is gone if this is done first, and the best afterwards
 */
typedef struct
{
  gboolean is_check;
  guint index;
  double minutes;
} HsNextStep;

/**
 * HsNext:
 * @beliefs: of each cause given what was seen; their sum is 1
 * @steps: every first step that makes sense, the best first; equal ones: repairs before checks, checks that tell
 *   nothing any more last, then the lower index
 * @exact: the minutes of @steps are those of the best policy; else they are the one-step rule's own estimate
 * @repairs_minutes: expected when no check is done and repairs go in the best order
 * @repairs_order: causes in that order: descending belief over minutes, equal ones by the lower index
 * @n_left: causes that are still possible, the length of @repairs_order
 * @n_states: states that the search opened
 */
typedef struct
{
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
  HsNextStep steps[HS_CAUSE_MODEL_MAX_CAUSES + HS_CAUSE_MODEL_MAX_CHECKS];
  guint n_steps;
  gboolean exact;
  double repairs_minutes;
  guint repairs_order[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n_left;
  guint n_states;
} HsNext;

/* What answers between two key presses: a few milliseconds of search. */
#define HS_NEXT_STATES 600
/* With at most six causes and six checks left until the best policy is known, however long that takes: a tenth of a
 * second with four noisy results a check, seconds with eight, minutes with fifteen. Else for a second or two. */
#define HS_NEXT_TO_THE_END G_MAXUINT

/**
 * hs_next_check:
 * @seen: what is known so far
 * @max_states: how many states the exact search may open before the rule answers, commonly %HS_NEXT_STATES, or
 *   %HS_NEXT_TO_THE_END
 *
 * Weighs every first step. Ties are those within 1e-9 minutes.
 *
 * Returns: %TRUE and @ret_next, or %FALSE with %HS_CORE_ERROR when no cause of the model can have given what was seen
 */
gboolean hs_next_check (const HsCauseModel *model,
                        const HsSeen *seen,
                        guint max_states,
                        HsNext *ret_next,
                        GError **error);

/* hs_next_chance: how likely @result of @check is from what is believed now. */
double hs_next_chance (const HsCauseModel *model, const HsNext *next, guint check, guint result);

/**
 * HsPolicy:
 * @step: what to do here, with the minutes that are expected from here to the end
 * @next: (array length=n_next): after a check, one for each of its results, %NULL where that can't come out; after a
 *   repair of a cause that was not the last, the one for "not cured"; else none
 * @chances: (array length=n_next): of each
 *
 * What to do whatever comes out, as a tree.
 */
typedef struct HsPolicy HsPolicy;
struct HsPolicy
{
  HsNextStep step;
  guint n_next;
  HsPolicy *next[HS_CAUSE_MODEL_MAX_RESULTS];
  double chances[HS_CAUSE_MODEL_MAX_RESULTS];
};

/**
 * hs_next_policy:
 * @max_states: as for hs_next_check(); where the exact search gives way, the policy is the rule's
 * @max_steps: how many steps the tree may have
 *
 * Returns: (transfer full) (nullable): the policy from @seen on; %NULL if it has more steps or nothing fits
 */
HsPolicy *hs_next_policy (const HsCauseModel *model, const HsSeen *seen, guint max_states, guint max_steps);
void hs_policy_free (HsPolicy *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPolicy, hs_policy_free)

/**
 * hs_next_rule_minutes:
 * @max_states: how many states may be opened
 *
 * The true expected minutes of following the refined one-step rule from @seen to the end, which is at least the best
 * policy's. (The rule's own figure in #HsNext is an estimate that looks one check ahead.)
 *
 * Returns: the minutes, or a negative number if @max_states were not enough or nothing fits
 */
double hs_next_rule_minutes (const HsCauseModel *model, const HsSeen *seen, guint max_states);

/**
 * hs_next_list_minutes:
 * @checks: (array length=n_checks): a fixed list of checks
 * @max_states: how many states may be opened
 *
 * The true expected minutes of doing the checks of a list in their order until one cause is left or the list ends,
 * and then the repairs in their best order: what a paper check list costs.
 *
 * Returns: the minutes, or a negative number if @max_states were not enough or nothing fits
 */
double hs_next_list_minutes (const HsCauseModel *model, const HsSeen *seen, const guint *checks, guint n_checks,
                             guint max_states);

/**
 * hs_next_minutes:
 * @max_states: as for hs_next_check()
 * @max_steps: how often hs_next_check() may be asked
 *
 * The true expected minutes of doing at every step what hs_next_check() puts first.
 *
 * Returns: the minutes, or a negative number if @max_steps were not enough or nothing fits
 */
double hs_next_minutes (const HsCauseModel *model, const HsSeen *seen, guint max_states, guint max_steps);

G_END_DECLS
