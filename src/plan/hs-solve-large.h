// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-drive.h"
#include "hs-solve-exact.h"

G_BEGIN_DECLS

/**
 * hs_solve_large:
 * @rounds: how often to take calls out and put them back
 * @seed: of the random numbers
 * @best: the best known so far and what comes out
 *
 * Improves a plan of any size by taking neighboring calls out of it and putting them back where they cost least,
 * accepting worse plans less and less (ruin and recreate under simulated annealing). Calls that find no place under
 * @terms are left out and count as missed and dropped. Proves nothing. With no rounds it builds one plan and does not
 * ask whether to give up.
 *
 * Returns: whether something under @terms that is better than @best was found
 */
gboolean hs_solve_large (HsExact *exact, const HsSolveFrame *frame, const HsSolveTerms *terms, guint rounds,
                         guint32 seed, HsScore *best, HsPath *path);

/**
 * hs_solve_large_from:
 * @start: (nullable): a plan to begin with, which may leave out calls; its orders are driven anew, and what does not
 *   fit @terms any more is put in again like what is left out
 * @ret_most: (out) (optional): the plan that left out the fewest calls, whether it counts under @terms or not
 *
 * hs_solve_large () from a plan, and to one that is not yet whole.
 */
gboolean hs_solve_large_from (HsExact *exact, const HsSolveFrame *frame, const HsSolveTerms *terms, guint rounds,
                              guint32 seed, const HsPath *start, HsPath *ret_most, HsScore *best, HsPath *path);

G_END_DECLS
