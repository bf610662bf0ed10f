// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw.h"

G_BEGIN_DECLS

/* What no plan can do without (private to this layer). */

/* hs_vrptw_least_vans: no fewer vans can serve all: by load, and by customers of whom no two can share a route. */
guint hs_vrptw_least_vans (const HsVrptw *problem);

/* hs_vrptw_least_distance: no plan that serves all with @least_vans vans or more is shorter: the cheapest way to give
 * every customer a next one that a van in time can go on to. 0: none known, as there are too many customers, no such
 * way, or it was told to give up. */
gint64 hs_vrptw_least_distance (const HsVrptw *problem, guint least_vans, HsPlanGiveUp give_up, gpointer user_data);

G_END_DECLS
