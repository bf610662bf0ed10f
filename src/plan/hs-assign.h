// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"

G_BEGIN_DECLS

/* The cheapest assignment of a column to every row, for bounds (private to this layer): its prices say what every round
 * of next nodes costs at least. */

#define HS_ASSIGN_NEVER G_MAXINT64

/**
 * hs_assign:
 * @cost: (array): n × n, row after row, from 0 to 2^61 ÷ @n; %HS_ASSIGN_NEVER where the row can't have the column
 * @give_up: (nullable): asked before each row
 * @ret_row_prices, @ret_column_prices: (out): room for @n each; no cost is below the price of its row and that of its
 *   column together, and all prices together are what the cheapest assignment costs
 *
 * By shortest augmenting paths over prices (H. W. Kuhn 1955; J. Munkres 1957), in n³ steps. All numbers are whole, so
 * that the bound holds exactly.
 *
 * Returns: whether there is an assignment and time to find it; if not, the prices are of no use
 */
gboolean hs_assign (const gint64 *cost, guint n, HsPlanGiveUp give_up, gpointer user_data, gint64 *ret_row_prices,
                    gint64 *ret_column_prices);

G_END_DECLS
