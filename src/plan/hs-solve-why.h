// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"
#include "hs-solve.h"

G_BEGIN_DECLS

/* Why a day can't be kept, and what would mend it, in plain words (private to this layer). */

/* Finds the calls that some van can serve, as far as skills and parts go, into @ret_calls; adds the others with their
 * reason to @unserved. Returns how many. */
guint hs_solve_why_in_play (const HsProblem *problem, GPtrArray *unserved, guint *ret_calls);

/* Fills in the reasons of all calls that are late or not served and have none yet. */
void hs_solve_why_explain (HsExact *exact, const HsProblem *problem, HsSolution *solution);

G_END_DECLS
