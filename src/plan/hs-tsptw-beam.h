// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-pass.h"

G_BEGIN_DECLS

/**
 * hs_tsptw_beam_run:
 * @way: forward
 * @ask: as for an exact search, with @tails; @max_labels is not looked at
 * @width: so many paths are kept for each number of stops
 * @order: (out): the stops
 *
 * Builds tours stop by stop, all paths at the same number of stops together, and keeps those that promise the cheapest
 * end (private to this layer). It finds good tours where the exact search would keep too much, and proves nothing.
 *
 * Returns: whether a tour within the budget was found
 */
gboolean hs_tsptw_beam_run (HsTsptwWay *way, const HsTsptwAsk *ask, guint width, guint16 *order);

G_END_DECLS
