// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-own-limit.h"
#include "hs-page.h"

G_BEGIN_DECLS

/** A limit for one vehicle: least, most, who says so, and whether it is the maker's value or the owner's own. The
 * maker's wins wherever both stand. */
#define HS_TYPE_LIMIT_WINDOW (hs_limit_window_get_type ())
G_DECLARE_FINAL_TYPE (HsLimitWindow, hs_limit_window, HS, LIMIT_WINDOW, AdwWindow)

/**
 * hs_limit_window_present:
 * @page: the page over which it lies
 * @check: one that gives a number; the catalog's, which outlives the window
 * @limits: (nullable) (element-type HsOwnLimit): those that the vehicle has
 *
 * Returns: (transfer none): the window, shown
 */
HsLimitWindow *hs_limit_window_present (HsPage *page, const char *vehicle_id, const HsCheck *check,
                                        GPtrArray *limits);

/** hs_limit_window_fill: as if it were typed: digits without a point fill the decimals. */
void hs_limit_window_fill (HsLimitWindow *self, const char *low, const char *high, const char *source,
                           gboolean maker);

G_END_DECLS
