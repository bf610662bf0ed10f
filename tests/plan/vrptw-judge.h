// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw.h"

/* A judge of many-customer plans that uses nothing of the planner but its plain data: whether a plan can be driven,
 * what it costs, and, for few customers, the best that there is, found by trying everything. */

/* Drives every route with the straight lines in floating point and checks loads, windows, that each customer is served
 * or named once, and that the plan's own cost is theirs; stops the test otherwise. */
void judge_plan (const HsVrptw *problem, const HsVrptwPlan *plan);

/* Most customers served, and among those plans the least distance, or the fewest vans and then the least distance. */
typedef struct
{
  guint served;
  guint vans;
  gint64 cost;
} Verdict;

/* Up to 8 customers. */
Verdict judge_best (const HsVrptw *problem, HsVrptwAim aim);

/* A problem of whole units around a home in the middle: @width is how wide windows are on average, 0: as wide as can
 * be; @tight lets some customers be out of reach and loads be more than the vans can take. */
HsVrptw *judge_random (GRand *rand, guint n, guint width, gboolean tight);
