// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-frame.h"

G_BEGIN_DECLS

/* Searches for good tours by moving stops and turning pieces round, with kicks in between (private to this layer).
 * It first makes the tour less late, then cheaper; it proves nothing. */

typedef struct _HsTsptwLocal HsTsptwLocal;

/** hs_tsptw_local_new: both @problem and @frame are borrowed. */
HsTsptwLocal *hs_tsptw_local_new (const HsTsptw *problem, const HsTsptwFrame *frame, const HsTsptwHow *how);

void hs_tsptw_local_free (HsTsptwLocal *local);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptwLocal, hs_tsptw_local_free)

/**
 * hs_tsptw_local_run:
 * @kicks: so many kicks
 *
 * Returns: FALSE when it was told to give up
 */
gboolean hs_tsptw_local_run (HsTsptwLocal *local, guint kicks);

/** hs_tsptw_local_start_from: goes on from @order, when that is better than its own best. */
void hs_tsptw_local_start_from (HsTsptwLocal *local, const guint16 *order);

/** hs_tsptw_local_get_best: the best tour in time; FALSE when there is none yet. */
gboolean hs_tsptw_local_get_best (const HsTsptwLocal *local, guint16 *order, gint64 *ret_cost);

G_END_DECLS
