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

G_END_DECLS
