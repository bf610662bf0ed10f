// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Wires the roads of this machine's map to the operations, which know of no map. */

#include "hs-cli-roads.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

static char *
roads_folder (void)
{
  return hs_roads_dup_folder (g_get_user_data_dir ());
}

gboolean
hs_cli_roads_make (const char *extract, GError **error)
{
  g_autofree char *folder = roads_folder ();

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      int code = errno;

      g_set_error (error, G_FILE_ERROR, (int) g_file_error_from_errno (code), _("%s cannot be made: %s"), folder,
                   g_strerror (code));
      return FALSE;
    }
  if (!hs_roads_make_map (extract, folder, error))
    return FALSE;
  hs_roads_sweep (folder);
  return TRUE;
}

HsRoads *
hs_cli_roads_open (GError **error)
{
  g_autofree char *folder = roads_folder ();

  return hs_roads_open (folder, error);
}

HsRoadSource
hs_cli_roads_source (HsRoads *roads)
{
  return (HsRoadSource) { HS_ROADS_PROFILE, hs_roads_get_stamp (roads), hs_roads_drive, roads };
}
