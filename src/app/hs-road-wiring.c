// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The roads as the window uses them. Only this file of the app knows them; it belongs to the program, not to the
 * library of its pages. */

#include "hs-road-wiring.h"

#include "hs-roads.h"

static char *
dup_folder (void)
{
  return hs_roads_dup_folder (g_get_user_data_dir ());
}

static gpointer
open_roads (const char *folder, GError **error)
{
  return hs_roads_open (folder, error);
}

static void
close_roads (gpointer map)
{
  hs_roads_close (map);
}

static HsRoadSource
source_of (gpointer map)
{
  return (HsRoadSource) { HS_ROADS_PROFILE, hs_roads_get_stamp (map), hs_roads_drive, map };
}

const HsRoadWorks *
hs_road_wiring_get (void)
{
  static const HsRoadWorks works = {
    .dup_folder = dup_folder,
    .dup_splitter = hs_roads_dup_splitter,
    .take_map = hs_roads_take_map,
    .sweep = hs_roads_sweep,
    .has_map = hs_roads_has_map,
    .open = open_roads,
    .close = close_roads,
    .source = source_of,
  };

  return &works;
}

void
hs_road_wiring_install (void)
{
  if (hs_roads_are_built_in ())
    hs_road_works_install (hs_road_wiring_get ());
}
