// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw.h"

G_BEGIN_DECLS

/**
 * hs_tsptw_leave_close:
 * @how: its objective is not looked at
 * @answer: (inout): the tour with the least time away so far, if any; better ones take its place, and what was searched
 *   is added to its states
 *
 * Goes through the times at which the depot can be left, with the first time at which one can be home again for each
 * (private to this layer). Whoever leaves later is home no earlier, so one such pair speaks for all later times at
 * which as little as the best time away would bring nobody home sooner: these are passed over.
 *
 * Returns: whether it is proven that no tour is away for less time than @answer says, or, where @answer has none, that
 * there is none; FALSE also when it was told to give up
 */
gboolean hs_tsptw_leave_close (const HsTsptw *problem, const HsTsptwHow *how, HsTsptwAnswer *answer);

G_END_DECLS
