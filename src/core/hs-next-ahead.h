// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-next-check.h"

G_BEGIN_DECLS

/**
 * hs_next_step_minutes:
 * @step: a check that is not done, or the repair of a cause that is possible
 * @max_states: how many states may be opened
 *
 * The true expected minutes of doing @step and following the refined one-step rule from there to the end. Doing at
 * every step what is least by this is never dearer than the rule, for the rule's own step is among them (one step of
 * policy improvement, Howard 1960).
 *
 * Returns: the minutes, or a negative number if @max_states were not enough or nothing fits
 */
double hs_next_step_minutes (const HsCauseModel *model, const HsSeen *seen, const HsNextStep *step, guint max_states);

/**
 * hs_next_look_ahead:
 * @n_steps: how many of the first steps of @next are looked at
 * @max_states: for each of them
 * @next: (inout): what hs_next_check() gave for @seen
 *
 * Where the rule answered, puts the true minutes of the most promising steps in the place of its estimates, and the
 * steps in order. An exact answer stays as it is.
 */
void hs_next_look_ahead (const HsCauseModel *model, const HsSeen *seen, guint n_steps, guint max_states, HsNext *next);

G_END_DECLS
