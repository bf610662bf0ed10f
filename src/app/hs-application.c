// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The application: options, keys, the main menu's acts. It holds no business data; pages come from the fill
 * function. */

#include "hs-application.h"

#include <glib/gi18n.h>

#include "hs-compat-about.h"
#include "hs-paint-meter.h"
#include "hs-shots.h"
#include "hs-theme.h"

struct _HsApplication
{
  AdwApplication parent_instance;
  HsApplicationFill fill;
  gpointer user_data;
  gboolean demo;
  char *book;
  char *now;
  char *shots;
  gboolean measure;
};

G_DEFINE_FINAL_TYPE (HsApplication, hs_application, ADW_TYPE_APPLICATION)

static const struct
{
  const char *action;
  const char *accels[3];
} keys[] = {
  { "app.help", { "F1" } },
  { "win.where-was-i", { "F2" } },
  { "win.call-slip", { "F3", "<Ctrl>n" } },
  { "win.next-stage", { "F4" } },
  { "win.squeeze-in", { "F5" } },
  { "win.work-out", { "<Ctrl>equal" } },
  { "win.why", { "F6" } },
  { "win.customer", { "F7" } },
  { "win.lock", { "F8" } },
  { "win.side", { "F9" } },
  { "win.menu", { "Menu", "<Shift>F1" } },
  { "win.go-to", { "F11" } },
  { "win.fullscreen", { "<Shift>F11" } },
  { "win.print", { "F12", "<Ctrl>p" } },
  { "win.search", { "<Ctrl>f" } },
  { "win.find-next", { "<Ctrl>g" } },
  { "win.undo", { "F10", "<Ctrl>z" } },
  { "win.redo", { "<Shift><Ctrl>z" } },
  { "win.back", { "<Alt>Left" } },
  { "win.show-help-overlay", { "<Ctrl>question" } },
  { "win.show-page('jobs')", { "<Ctrl>1" } },
  { "win.show-page('today')", { "<Ctrl>2" } },
  { "win.show-page('parts')", { "<Ctrl>3" } },
  { "win.show-page('vehicles')", { "<Ctrl>4" } },
  { "win.show-page('money')", { "<Ctrl>5" } },
  { "window.close", { "<Ctrl>w" } },
  { "app.quit", { "<Ctrl>q" } },
};

static GtkWindow *
top_window (HsApplication *self)
{
  return gtk_application_get_active_window (GTK_APPLICATION (self));
}

static void
quit (GSimpleAction *action,
      GVariant      *parameter,
      gpointer       data)
{
  g_application_quit (data);
}

static void
about (GSimpleAction *action,
       GVariant      *parameter,
       gpointer       data)
{
  if (top_window (data) != NULL)
    hs_compat_about_present (top_window (data));
}

static void
help (GSimpleAction *action,
      GVariant      *parameter,
      gpointer       data)
{
  if (top_window (data) != NULL)
    gtk_widget_activate_action (GTK_WIDGET (top_window (data)), "win.show-help-overlay", NULL);
}

static const GActionEntry actions[] = {
  { "quit", quit },
  { "about", about },
  { "help", help },
};

static void
hs_application_startup (GApplication *application)
{
  G_APPLICATION_CLASS (hs_application_parent_class)->startup (application);
  hs_theme_install (gdk_display_get_default ());
  g_action_map_add_action_entries (G_ACTION_MAP (application), actions, G_N_ELEMENTS (actions), application);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (application), keys[i].action, keys[i].accels);
}

static GtkWindow *
new_window (HsApplication *self)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_local ();
  g_autoptr (HsClock) clock = hs_clock_new (zone);
  GtkWindow *window = GTK_WINDOW (hs_window_new (GTK_APPLICATION (self), clock));

  self->fill (self, HS_WINDOW (window), self->user_data);
  return window;
}

static void
hs_application_activate (GApplication *application)
{
  HsApplication *self = HS_APPLICATION (application);
  GtkWindow *window = top_window (self);

  if (window == NULL)
    window = new_window (self);
  if (self->measure)
    hs_paint_meter_start (window);
  gtk_window_present (window);
  if (self->shots != NULL)
    hs_shots_start (HS_WINDOW (window), self->shots);
}

/* A book named on the command line, or picked in a file manager; another one gets a window of its own. */
static void
hs_application_open (GApplication  *application,
                     GFile        **files,
                     int            n_files,
                     const char    *hint)
{
  HsApplication *self = HS_APPLICATION (application);

  for (int i = 0; i < n_files; i++)
    {
      char *path = g_file_get_path (files[i]);
      gboolean shown = top_window (self) != NULL && g_strcmp0 (path, self->book) == 0;

      g_free (self->book);
      self->book = path;
      if (!shown)
        gtk_window_present (new_window (self));
    }
  g_application_activate (application);
}

static int
hs_application_handle_local_options (GApplication *application,
                                     GVariantDict *options)
{
  HsApplication *self = HS_APPLICATION (application);

  if (g_variant_dict_contains (options, "version"))
    {
      g_print ("Halfshaft " HS_VERSION "\n");
      return 0;
    }
  g_variant_dict_lookup (options, "demo", "b", &self->demo);
  g_variant_dict_lookup (options, "book", "^ay", &self->book);
  g_variant_dict_lookup (options, "now", "s", &self->now);
  g_variant_dict_lookup (options, "shots", "^ay", &self->shots);
  g_variant_dict_lookup (options, "measure", "b", &self->measure);
  /* Another book, another clock or a set of pictures is never handed to a process that runs already. */
  if (self->demo || self->book != NULL || self->now != NULL || self->shots != NULL)
    g_application_set_flags (application, g_application_get_flags (application) | G_APPLICATION_NON_UNIQUE);
  return -1;
}

static void
hs_application_finalize (GObject *object)
{
  HsApplication *self = HS_APPLICATION (object);

  g_free (self->book);
  g_free (self->now);
  g_free (self->shots);
  G_OBJECT_CLASS (hs_application_parent_class)->finalize (object);
}

static void
hs_application_class_init (HsApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_application_finalize;
  application_class->startup = hs_application_startup;
  application_class->activate = hs_application_activate;
  application_class->open = hs_application_open;
  application_class->handle_local_options = hs_application_handle_local_options;
}

static void
hs_application_init (HsApplication *self)
{
  static const GOptionEntry entries[] = {
    { "demo", 0, 0, G_OPTION_ARG_NONE, NULL, N_("Open the demo business on its own clock"), NULL },
    { "book", 'b', 0, G_OPTION_ARG_FILENAME, NULL, N_("Open this book"), N_("FILE") },
    { "now", 0, 0, G_OPTION_ARG_STRING, NULL, N_("Start the clock at this time (ISO 8601)"), N_("TIME") },
    { "shots", 0, 0, G_OPTION_ARG_FILENAME, NULL, N_("Save a picture of every view and quit"), N_("FOLDER") },
    { "measure", 0, 0, G_OPTION_ARG_NONE, NULL, N_("Print what opening the window costs and quit"), NULL },
    { "version", 0, 0, G_OPTION_ARG_NONE, NULL, N_("Print the version and quit"), NULL },
    { NULL },
  };

  g_application_add_main_option_entries (G_APPLICATION (self), entries);
}

HsApplication *
hs_application_new (HsApplicationFill fill,
                    gpointer          user_data)
{
  HsApplication *self;

  g_return_val_if_fail (fill != NULL, NULL);

  self = g_object_new (HS_TYPE_APPLICATION, "application-id", HS_APP_ID, "resource-base-path",
                       "/org/halfshaft/Halfshaft", "flags", G_APPLICATION_HANDLES_OPEN, NULL);
  self->fill = fill;
  self->user_data = user_data;
  return self;
}

const char *
hs_application_get_book (HsApplication *self)
{
  g_return_val_if_fail (HS_IS_APPLICATION (self), NULL);

  return self->book;
}

gboolean
hs_application_get_demo (HsApplication *self)
{
  g_return_val_if_fail (HS_IS_APPLICATION (self), FALSE);

  return self->demo;
}

const char *
hs_application_get_now (HsApplication *self)
{
  g_return_val_if_fail (HS_IS_APPLICATION (self), NULL);

  return self->now;
}

const char *
hs_application_get_shots (HsApplication *self)
{
  g_return_val_if_fail (HS_IS_APPLICATION (self), NULL);

  return self->shots;
}
