// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-solve.h"

G_BEGIN_DECLS

/* Who is reached later than this before the end of a promise is rung. */
#define HS_DAY_RING_SECONDS 600

HsDayRing *hs_day_ring_copy (const HsDayRing *ring);
void hs_day_ring_free (HsDayRing *ring);

/**
 * hs_day_ring_fill:
 * @solved: a plan of this very day
 * @begun: something of the day has begun
 *
 * Adds whom to ring to what can't be kept, and on a day that has begun sets @solved->ring.
 */
gboolean hs_day_ring_fill (HsDaySolved *solved, HsStore *store, gboolean begun, GError **error);

G_END_DECLS
