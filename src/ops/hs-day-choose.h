// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-problem.h"

G_BEGIN_DECLS

/* Where the parts of a day are bought. A need with a counter of its own is fetched there; for the others the way and
 * the price decide together. Both change where the needs in the facts come from, and leave only the counters that the
 * day then stops at. */

/**
 * hs_day_choose_anew:
 * @facts: as loaded, with every counter that might have something
 * @extra_area: (nullable): as in hs_day_build ()
 *
 * Chooses for the day as it is planned anew: what is kept first, then way and parts together the cheapest. A need of a
 * call that can't be served stays with the cheapest counter.
 */
gboolean hs_day_choose_anew (HsDayFacts *facts, const char *extra_area, GError **error);

/**
 * hs_day_choose_kept:
 * @rows: (element-type utf8): job and supplier ids of the accepted order
 *
 * Chooses along an order that stands: for each call the cheapest of the counters before it; what none of them has
 * stays with the cheapest of all.
 */
void hs_day_choose_kept (HsDayFacts *facts, GPtrArray *rows);

/**
 * hs_day_choose_without:
 * @supplier_id: a counter that is left out, or %NULL
 * @ret_problem: (out) (transfer full) (optional): what was solved; as long as the build
 * @ret_solution: (out) (transfer full): the day without it, with its parts; the facts stay as they are
 *
 * What would be if a counter were not there. Needs that only it has are then nobody's.
 */
gboolean hs_day_choose_without (const HsDayBuild *build, const char *supplier_id, HsDayProblem **ret_problem,
                                HsSolution **ret_solution, GError **error);

G_END_DECLS
