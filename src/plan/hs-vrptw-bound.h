// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw.h"

G_BEGIN_DECLS

/* What no plan can do without (private to this layer). */

/* hs_vrptw_least_vans: no fewer vans can serve all: by load, and by customers of whom no two can share a route. */
guint hs_vrptw_least_vans (const HsVrptw *problem);

G_END_DECLS
