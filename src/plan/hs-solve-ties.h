// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"

G_BEGIN_DECLS

/* The last word between plans that are worth the same (private to this layer). */

/**
 * hs_solve_ties_settle:
 * @bound: (nullable): as the windows of @frame are trimmed
 * @is_best: no plan under @terms is better than @path in anything that has to do with times, money or stops
 * @path: a plan under @terms, as the windows of @frame are trimmed
 *
 * Turns @path into the first by ids of all plans that are worth the same; the vans of @frame are in the order of their
 * ids. Where it is not known to be the best, or so many are worth the same that they can't be gone through in a moment,
 * each van keeps its calls: stops that are of no use are left out, trips of vans that are alike in everything are dealt
 * out by ids, and each van's stops are put into the first order that is worth the same; where that too takes too long,
 * a van's order stays.
 */
void hs_solve_ties_settle (HsExact *exact, const HsSolveFrame *frame, const HsSolveBound *bound,
                           const HsSolveTerms *terms, gboolean is_best, HsPath *path);

G_END_DECLS
