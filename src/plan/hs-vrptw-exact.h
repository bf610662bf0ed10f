// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw.h"

G_BEGIN_DECLS

/* Proof for few customers (private to this layer). */

/**
 * hs_vrptw_exact:
 * @problem: up to %HS_VRPTW_EXACT_CUSTOMERS customers
 * @ret_plan: (out) (transfer full): the best plan there is: most customers served, then the aim
 *
 * Returns: %FALSE if it was told to give up
 */
gboolean hs_vrptw_exact (const HsVrptw *problem, const HsVrptwHow *how, HsVrptwPlan **ret_plan);

G_END_DECLS
