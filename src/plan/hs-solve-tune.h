// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"

G_BEGIN_DECLS

/**
 * hs_solve_tune:
 * @frame: of one van, with its windows as they are trimmed now, all kept
 * @best_units: what the best known plan costs
 * @floor: (inout): no plan costs less; only ever raised
 * @prizes: (inout): one a call: about what it costs to serve; to begin with what is thought, which may be anything
 *
 * Finds prizes at which the trip that costs least over them serves each call about once: a call that it leaves out is
 * worth more, one that it serves twice is worth less. At whatever prizes, their sum and what the trip costs over them
 * is what any plan costs at least.
 *
 * Returns: FALSE if it can't be done, or not before it was time to stop
 */
gboolean hs_solve_tune (HsExact *exact, const HsSolveFrame *frame, gint64 best_units, gint64 *floor, gint64 *prizes);

G_END_DECLS
