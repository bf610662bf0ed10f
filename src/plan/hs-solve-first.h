// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"

G_BEGIN_DECLS

/* Of all plans that are worth the same the one that is first by ids (private to this layer). Plans are compared van
 * after van in the order of the frame, stop after stop; a van's way home comes after every id. */

/* strcmp () of the ids of two stops of paths; a break is "break", and %HS_PATH_CLOSE comes last. */
int hs_solve_first_compare_stops (const HsSolveFrame *frame, guint8 a, guint8 b);

/* What @path is worth under @terms, with the best leave times, which it is given. FALSE, and nothing is changed, where
 * it can't be driven. */
gboolean hs_solve_first_rate (const HsSolveFrame *frame, const HsSolveTerms *terms, HsPath *path, HsScore *ret_score);

/**
 * hs_solve_first_find:
 * @exact: (nullable): whom to ask when to give up
 * @bound: (nullable): as the windows of @frame are trimmed
 * @tries: (inout): how many steps may be looked at
 * @path: a plan of up to 60 calls; to be the first, it has to be one than which none under @terms is better
 *
 * Turns @path into the first of those that are as good; where there are better ones, into one that is no worse. Where
 * the tries are used up or it is told to give up, @path stays.
 *
 * Returns: whether it is known to be the first
 */
gboolean hs_solve_first_find (HsExact *exact, const HsSolveFrame *frame, const HsSolveBound *bound,
                              const HsSolveTerms *terms, guint *tries, HsPath *path);

G_END_DECLS
