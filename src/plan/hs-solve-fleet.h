// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-drive.h"

G_BEGIN_DECLS

/**
 * hs_solve_fleet:
 * @terms: that all promises are kept, and that money counts
 * @max_work: as in hs_solve_trips_new ()
 * @best: the best known plan and what comes out
 * @floor: (inout): no plan under the terms costs less; only ever raised
 * @ret_prizes: (out) (nullable): about what each call costs
 *
 * Bounds from below what a day costs, by prices for the calls at which no trip of any van is worth its while: what all
 * calls are worth at such prices is what any plan costs at least. Whole numbers throughout where it counts. The trips
 * that come up are put together to better plans where they fit. For days of any size; where trips take too long to
 * search, the floor stays low.
 *
 * Returns: whether a better plan was found
 */
gboolean hs_solve_fleet (HsExact *exact, const HsSolveFrame *frame, const HsSolveTerms *terms, guint64 max_work,
                         HsScore *best, HsPath *path, gint64 *floor, gint64 *ret_prizes);

G_END_DECLS
