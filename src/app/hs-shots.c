// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Pictures of every view, for the contact sheet and for a machine without a screen.
 *
 * Use it from the command line. Each step changes one thing (page, sheet or width), waits for the layout to settle and
 * renders the window's own content; no screen is grabbed. */

#include "hs-shots.h"

#include <glib/gstdio.h>

#define SETTLE_MS 500

typedef struct
{
  const char *suffix;
  AdwColorScheme scheme;
  int width;
  int height;
} Mode;

static const Mode modes[] = {
  { "light", ADW_COLOR_SCHEME_FORCE_LIGHT, 1280, 800 },
  { "dark", ADW_COLOR_SCHEME_FORCE_DARK, 1280, 800 },
  { "1024x600", ADW_COLOR_SCHEME_FORCE_LIGHT, 1024, 600 },
  { "360", ADW_COLOR_SCHEME_FORCE_LIGHT, 360, 800 },
};

/* What is shown: a view, then an action with its text on it, if there is one. */
static const struct
{
  const char *name;
  const char *page;
  const char *action;
  const char *text;
} shots[] = {
  { "jobs", "jobs", NULL, NULL },
  { "today", "today", NULL, NULL },
  { "parts", "parts", NULL, NULL },
  { "vehicles", "vehicles", "page.find", "0121" },
  { "money", "money", NULL, NULL },
  { "call", "jobs", "win.open-number", "A-0021/call" },
  { "findings", "jobs", "win.open-number", "A-0014/findings" },
  { "why", "jobs", "win.open-number", "A-0013/why" },
  { "photos", "jobs", "win.open-number", "A-0021/photos" },
  { "choices", "jobs", "win.open-number", "A-0013/choices" },
  { "bill", "jobs", "win.open-number", "A-0014/bill" },
  { "after", "jobs", "win.open-number", "A-0014/after" },
};

typedef struct
{
  HsWindow *window; /* (nullable): weak: whoever looks on may shut it */
  char *folder;
  guint step;
  gboolean prepared;
} Tour;

gboolean
hs_shots_save (GtkWidget   *widget,
               const char  *path,
               GError     **error)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (widget));

  gdk_paintable_snapshot (paintable, snapshot, width, height);
  node = gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
  if (node == NULL || renderer == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: the window has drawn nothing yet", path);
      return FALSE;
    }
  texture = gsk_renderer_render_texture (renderer, node, &GRAPHENE_RECT_INIT (0, 0, width, height));
  if (!gdk_texture_save_to_png (texture, path))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_FAILED, "%s: the picture cannot be written", path);
      return FALSE;
    }
  return TRUE;
}

static void
prepare (Tour *tour)
{
  const Mode *mode = &modes[tour->step / G_N_ELEMENTS (shots)];
  guint shot = tour->step % G_N_ELEMENTS (shots);

  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), mode->scheme);
  gtk_window_set_default_size (GTK_WINDOW (tour->window), mode->width, mode->height);
  hs_window_show_page (tour->window, shots[shot].page);
  if (shots[shot].action != NULL)
    gtk_widget_activate_action (hs_window_get_visible_page (tour->window), shots[shot].action, "s", shots[shot].text);
}

static void
take (Tour *tour)
{
  g_autofree char *name = g_strdup_printf ("%s-%s.png", shots[tour->step % G_N_ELEMENTS (shots)].name,
                                           modes[tour->step / G_N_ELEMENTS (shots)].suffix);
  g_autofree char *path = g_build_filename (tour->folder, name, NULL);
  g_autoptr (GError) error = NULL;

  if (!hs_shots_save (GTK_WIDGET (tour->window), path, &error))
    g_printerr ("%s\n", error->message);
}

static void
tour_free (Tour *tour)
{
  g_clear_weak_pointer (&tour->window);
  g_free (tour->folder);
  g_free (tour);
}

static gboolean
advance (gpointer data)
{
  Tour *tour = data;

  if (tour->window == NULL || !gtk_widget_get_mapped (GTK_WIDGET (tour->window)))
    return G_SOURCE_REMOVE;
  if (tour->prepared)
    {
      take (tour);
      tour->step++;
    }
  tour->prepared = TRUE;
  if (tour->step < G_N_ELEMENTS (modes) * G_N_ELEMENTS (shots))
    {
      prepare (tour);
      return G_SOURCE_CONTINUE;
    }
  gtk_window_destroy (GTK_WINDOW (tour->window));
  return G_SOURCE_REMOVE;
}

void
hs_shots_start (HsWindow   *window,
                const char *folder)
{
  Tour *tour;

  g_return_if_fail (HS_IS_WINDOW (window));

  g_mkdir_with_parents (folder, 0777);
  tour = g_new0 (Tour, 1);
  g_set_weak_pointer (&tour->window, window);
  tour->folder = g_strdup (folder);
  g_timeout_add_full (G_PRIORITY_LOW, SETTLE_MS, advance, tour, (GDestroyNotify) tour_free);
}
