// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw.h"

G_BEGIN_DECLS

/* Writing a plan down (private to this layer). */

/* A plan without routes that leaves nobody out. */
HsVrptwPlan *hs_vrptw_answer_new (void);

/* Adds a route of @count customers, one or more. */
void hs_vrptw_answer_add (HsVrptwPlan *plan, const guint32 *stops, guint count);

/* Once all routes are there: orders them, sums the distance up, and names those that are left out. */
void hs_vrptw_answer_close (const HsVrptw *problem, HsVrptwPlan *plan);

G_END_DECLS
