// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-road-op.h"
#include "hs-roads.h"

G_BEGIN_DECLS

/* The map of this machine: it lies in the data folder, not in the book. */

/* hs_cli_roads_make: makes the map from @extract in the place of the one before. */
gboolean hs_cli_roads_make (const char *extract, GError **error);

/* hs_cli_roads_open: (nullable): the map; %NULL with @error if there is none. */
HsRoads *hs_cli_roads_open (GError **error);

/* hs_cli_roads_source: @roads as the operations want it; @roads must stay. */
HsRoadSource hs_cli_roads_source (HsRoads *roads);

G_END_DECLS
