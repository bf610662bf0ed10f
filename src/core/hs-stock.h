// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The largest demand that hs_stock_keep() takes. */
#define HS_STOCK_MOST_DEMAND 1e9

/**
 * hs_stock_keep:
 * @demand: pieces expected to be used until new ones are there, 0 to %HS_STOCK_MOST_DEMAND
 * @service: share of restocking times that should end without running out, 0 or more and less than 1
 *
 * The smallest n with P(use ≤ n) ≥ @service where use is Poisson distributed: parts fail one by one and independently.
 *
 * Returns: n
 */
gint64 hs_stock_keep (double demand, double service);

/* hs_stock_service: P(use ≤ n): the share of restocking times that n pieces last through. */
double hs_stock_service (double demand, gint64 n);

G_END_DECLS
