// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"

G_BEGIN_DECLS

/* The last word between plans that are worth the same (private to this layer). */

/**
 * hs_solve_ties_settle:
 * @path: a plan under @terms, as the windows of @frame are trimmed
 *
 * Puts the stops of each van into the order whose ids come first, of all orders that serve the same calls at the same
 * cost, leave and home. A van with so many stops that not all orders can be gone through in a moment keeps the one it
 * has. Of vans that are alike in everything those go whose ids come first, and the trip whose ids come first is that of
 * the first.
 */
void hs_solve_ties_settle (const HsSolveFrame *frame, const HsSolveTerms *terms, HsPath *path);

G_END_DECLS
