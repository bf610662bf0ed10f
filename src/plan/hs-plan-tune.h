// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan-search.h"

G_BEGIN_DECLS

/* Betters a whole order by moving stops about, and settles ties by ids (private to this layer). */

/* An order that puts parts first, keeps locked stops in place and otherwise goes by when each promise ends. Returns
 * FALSE where locks and parts-first cannot be joined in any order. */
gboolean hs_tune_begin (const HsFrame *frame, guint *ret_order);

/* Moves runs of one to three stops and swaps pairs as long as that makes the order better under @terms. @best is the
 * finish of @order (HS_FINISH_WORST if it has none under the terms) and is kept up to date. */
void hs_tune_order (HsSearch *search, const HsFrame *frame, const HsTerms *terms, HsFinish *best, guint *order);

/* Of all orders that finish exactly as @best at its leave time, finds the first by ids. Exact unless search->cut, or
 * search->bit because there were too many to try; then @order stays as it is. */
void hs_ties_settle (HsSearch *search, const HsFrame *frame, const HsBound *bound, const HsFinish *best, guint *order);

G_END_DECLS
