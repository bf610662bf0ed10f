// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Starts the app and wires what the other rooms offer into the window. */

#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <locale.h>

#include "hs-application.h"
#include "hs-road-maker.h"
#include "hs-roads.h"
#include "hs-shop.h"

static char *
dup_road_folder (void)
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

static gboolean
drive (gpointer data, double from_latitude, double from_longitude, double to_latitude, double to_longitude,
       gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles, GError **error)
{
  return hs_roads_drive (data, from_latitude, from_longitude, to_latitude, to_longitude, ret_found, ret_seconds,
                         ret_millimiles, error);
}

static HsRoadSource
source_of (gpointer map)
{
  return (HsRoadSource) { HS_ROADS_PROFILE, hs_roads_get_stamp (map), drive, map };
}

static const HsRoadWorks works = {
  .dup_folder = dup_road_folder,
  .dup_splitter = hs_roads_dup_splitter,
  .take_map = hs_roads_take_map,
  .sweep = sweep,
  .has_map = hs_roads_has_map,
  .open = open_roads,
  .close = close_roads,
  .source = source_of,
};

int
main (int   argc,
      char *argv[])
{
  g_autoptr (HsApplication) application = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, HS_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_application_name ("Halfshaft");

  if (hs_roads_are_built_in ())
    hs_road_works_install (&works);
  application = hs_application_new (hs_shop_fill, NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
