// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"
#include "hs-solve.h"

G_BEGIN_DECLS

/* From a path of the search to a plan for people (private to this layer). */

HsSolution *hs_solution_new (void);

/* Drives @path anew, second by second, and fills routes, parts, costs, spare and what is broken, without reasons. */
void hs_solution_write (HsSolution *solution, const HsSolveFrame *frame, const HsPath *path);

void hs_trouble_free (gpointer trouble);

G_END_DECLS
