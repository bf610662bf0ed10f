// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve.h"

/* Whether an answer is one: every rule of the day is looked at anew, from the plain numbers of the problem, with
 * nothing of the planner. It does not say whether the answer is a good one. Returns (transfer full) the first rule that
 * is broken, or NULL. */
char *answer_fault (const HsProblem *problem, const HsSolution *solution);
