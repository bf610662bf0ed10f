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
  return g_build_filename (g_get_user_data_dir (), "halfshaft", "roads", NULL);
}

/* Nothing is lost if some of it stays. */
static void
sweep (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (hs_roads_is_left_over (folder, name))
        (void) g_unlink (path);
    }
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
  sweep (folder);
  return TRUE;
}

HsRoads *
hs_cli_roads_open (GError **error)
{
  g_autofree char *folder = roads_folder ();

  return hs_roads_open (folder, error);
}

static gboolean
drive (gpointer data, double from_latitude, double from_longitude, double to_latitude, double to_longitude,
       gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles, GError **error)
{
  return hs_roads_drive (data, from_latitude, from_longitude, to_latitude, to_longitude, ret_found, ret_seconds,
                         ret_millimiles, error);
}

HsRoadSource
hs_cli_roads_source (HsRoads *roads)
{
  return (HsRoadSource) { HS_ROADS_PROFILE, hs_roads_get_stamp (roads), drive, roads };
}
