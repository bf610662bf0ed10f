// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-frame.h"

G_BEGIN_DECLS

/* Makes a tour that keeps all windows drive less (private to this layer). It never leaves such tours, and so looks only
 * at the few legs that a move changes before it asks whether the windows hold; that makes it many times as quick as a
 * search that has to weigh lateness. It proves nothing, and knows no other objective. */

typedef struct _HsTsptwQuick HsTsptwQuick;

/**
 * hs_tsptw_quick_new:
 * @frame: copied: what is taken away from it later need not hold for tours on the way to a better one
 */
HsTsptwQuick *hs_tsptw_quick_new (const HsTsptw *problem, const HsTsptwFrame *frame, const HsTsptwHow *how);

void hs_tsptw_quick_free (HsTsptwQuick *quick);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptwQuick, hs_tsptw_quick_free)

/**
 * hs_tsptw_quick_start_from:
 * @order: stops of a tour that keeps all windows and orders
 *
 * Goes on from @order, if that drives less than its own best.
 */
void hs_tsptw_quick_start_from (HsTsptwQuick *quick, const guint16 *order);

/**
 * hs_tsptw_quick_run:
 * @kicks: so many times a piece of the tour is disturbed and mended again; what is made worse by it is accepted less
 *   and less
 *
 * Returns: FALSE when it was told to give up
 */
gboolean hs_tsptw_quick_run (HsTsptwQuick *quick, guint kicks);

/**
 * hs_tsptw_quick_rebuild:
 * @rounds: so many times stops near each other are taken out of the tour and put back where they cost least; what is
 *   made worse by it is accepted less and less
 *
 * Gets from one good tour to another that is far from it, where hs_tsptw_quick_run() only looks around.
 *
 * Returns: FALSE when it was told to give up
 */
gboolean hs_tsptw_quick_rebuild (HsTsptwQuick *quick, guint rounds);

/** hs_tsptw_quick_get_best: the stops of the tour that drives least; hs_tsptw_quick_start_from() comes first. */
void hs_tsptw_quick_get_best (const HsTsptwQuick *quick, guint16 *order);

G_END_DECLS
