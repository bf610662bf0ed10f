// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where the map of a machine lies, and keeping that place tidy; with and without a router. */

#include "hs-roads.h"

#include <glib/gstdio.h>

char *
hs_roads_dup_folder (const char *data_folder)
{
  return g_build_filename (data_folder, "halfshaft", "roads", NULL);
}

void
hs_roads_sweep (const char *folder)
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
