// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Renders the drawn widgets with invented values, one PNG a sheet, to be looked at beside the design.
 *
 * gallery FOLDER [SHEET…]: without sheets, all. It is not a test: it shows, the tests measure. */

#include <adwaita.h>
#include <glib/gstdio.h>

#include "gallery-sheets.h"
#include "hs-shots.h"
#include "hs-theme.h"

static void
spin (guint milliseconds)
{
  gint64 end = g_get_monotonic_time () + milliseconds * 1000;

  while (g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (2000);
}

static void
show_sheet (const Sheet *sheet,
            const char  *folder,
            gboolean     dark)
{
  g_autofree char *name = g_strdup_printf ("%s-%s.png", sheet->name, dark ? "dark" : "light");
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  GtkWindow *window = sheet->create ();

  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      dark ? ADW_COLOR_SCHEME_FORCE_DARK : ADW_COLOR_SCHEME_FORCE_LIGHT);
  gtk_window_set_default_size (window, sheet->width, sheet->height);
  gtk_window_present (window);
  spin (500);
  if (!hs_shots_save (GTK_WIDGET (window), path, &error))
    g_printerr ("%s\n", error->message);
  gtk_window_destroy (window);
  spin (50);
}

static gboolean
wanted (const char *name,
        int         argc,
        char      **argv)
{
  for (int i = 2; i < argc; i++)
    if (g_str_equal (argv[i], name))
      return TRUE;
  return argc <= 2;
}

int
main (int   argc,
      char *argv[])
{
  gboolean big = g_strcmp0 (g_getenv ("HS_BIG"), "1") == 0;

  if (argc < 2)
    return 2;
  gtk_init ();
  adw_init ();
  g_object_set (gtk_settings_get_default (), "gtk-font-name", "Cantarell 11", "gtk-enable-animations", FALSE,
                "gtk-decoration-layout", ":close",
                "gtk-xft-dpi", (big ? 2 : 1) * 96 * 1024, NULL);
  hs_theme_install (gdk_display_get_default ());
  g_mkdir_with_parents (argv[1], 0777);
  for (const Sheet *sheet = gallery_sheets; sheet->name != NULL; sheet++)
    if (wanted (sheet->name, argc, argv))
      {
        show_sheet (sheet, argv[1], FALSE);
        show_sheet (sheet, argv[1], TRUE);
      }
  return 0;
}
