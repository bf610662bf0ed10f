// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-reference.h"

G_BEGIN_DECLS

/**
 * hs_mileage_rate_on:
 * @date: the day of the drive
 * @ret_stale: (out): %TRUE if the last row was taken for a day in a later year: a newer rate may hold
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Returns: (transfer none): the rate that held on @date, or %NULL if it is before the first row
 */
const HsMileageRate *hs_mileage_rate_on (const HsReference *reference, HsDate date, gboolean *ret_stale,
                                         GError **error);

/**
 * hs_mileage_cents:
 * @centicents: hundredths of a cent a mile
 * @miles: miles × 10^@decimals, 0 or more
 * @decimals: 0 to %HS_DECIMAL_MOST
 * @ret_cents: (out): rounded once, halves up; untouched on failure
 *
 * Whole numbers all the way: 37.4 miles at 72.5 cents are 2711.5 and so 2712 cents, which floating point would miss.
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE if it is too large to be money
 */
gboolean hs_mileage_cents (gint64 centicents, gint64 miles, guint decimals, gint64 *ret_cents, GError **error);

G_END_DECLS
