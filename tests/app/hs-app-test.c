// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the window tests share: a start, waiting, showing, keys, finding. */

#include "hs-app-test.h"
#include "hs-shots.h"

#include <adwaita.h>

#include "hs-key-button.h"
#include "hs-theme.h"

void
hs_app_test_init (int    *argc,
                  char ***argv)
{
  gtk_test_init (argc, argv, NULL);
  adw_init ();
  /* Why the cursor does not blink: config/gtk-4.0/settings.ini. */
  g_object_set (gtk_settings_get_default (), "gtk-font-name", "Cantarell 11", "gtk-enable-animations", FALSE,
                "gtk-cursor-blink", FALSE, "gtk-xft-dpi", 96 * 1024, "gtk-decoration-layout", ":close", NULL);
  hs_theme_install (gdk_display_get_default ());
}

GtkWindow *
hs_app_test_show (GtkWidget *widget,
                  int        width,
                  int        height)
{
  GtkWindow *window = GTK_IS_WINDOW (widget) ? GTK_WINDOW (widget) : GTK_WINDOW (gtk_window_new ());

  if (!GTK_IS_WINDOW (widget))
    gtk_window_set_child (window, widget);
  gtk_window_set_default_size (window, width, height);
  gtk_window_present (window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  hs_app_test_wait (gtk_widget_get_width (widget) > 0);
  return window;
}

static gboolean
shortcuts_take (GtkWidget       *widget,
                guint            keyval,
                GdkModifierType  modifiers,
                gboolean         let_go)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      gboolean taken = FALSE;

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, modifiers, &taken);
      if (taken && let_go)
        g_signal_emit_by_name (controller, "key-released", keyval, 0, modifiers);
      if (taken)
        return TRUE;
    }
  return FALSE;
}

static gboolean
press_key (GtkWidget       *widget,
           guint            keyval,
           GdkModifierType  modifiers,
           gboolean         let_go)
{
  for (GtkWidget *at = widget; at != NULL; at = gtk_widget_get_parent (at))
    if (shortcuts_take (at, keyval, modifiers, let_go))
      return TRUE;
  return FALSE;
}

gboolean
hs_app_test_key (GtkWidget       *widget,
                 guint            keyval,
                 GdkModifierType  modifiers)
{
  return press_key (widget, keyval, modifiers, TRUE);
}

gboolean
hs_app_test_hold_key (GtkWidget *widget,
                      guint      keyval)
{
  return press_key (widget, keyval, 0, FALSE);
}

GtkWidget *
hs_app_test_find (GtkWidget *widget,
                  GType      type)
{
  if (g_type_is_a (G_OBJECT_TYPE (widget), type))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = hs_app_test_find (child, type);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
hs_app_test_says (GtkWidget  *widget,
                  const char *text)
{
  if (!gtk_widget_get_visible (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (hs_app_test_says (child, text))
      return TRUE;
  return FALSE;
}

gboolean
hs_app_test_says_part (GtkWidget  *widget,
                       const char *text)
{
  if (!gtk_widget_get_visible (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (hs_app_test_says_part (child, text))
      return TRUE;
  return FALSE;
}

GtkWidget *
hs_app_test_label (GtkWidget  *widget,
                   const char *text)
{
  GtkWidget *found = NULL;

  if (!gtk_widget_get_visible (widget))
    return NULL;
  if (GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = hs_app_test_label (child, text);
  return found;
}

GtkWidget *
hs_app_test_button (GtkWidget  *widget,
                    const char *text)
{
  GtkWidget *label = hs_app_test_label (widget, text);

  return label != NULL ? gtk_widget_get_ancestor (label, HS_TYPE_KEY_BUTTON) : NULL;
}

GtkWidget *
hs_app_test_window (GType type)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (G_TYPE_CHECK_INSTANCE_TYPE (window, type))
        return window;
    }
  return NULL;
}

void
hs_app_test_frames (void)
{
  for (guint i = 0; i < 400; i++)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
}

void
hs_app_test_picture (GtkWidget  *widget,
                     const char *name)
{
  const char *folder = g_getenv ("HS_TEST_PICTURES");
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;

  if (folder == NULL)
    return;
  hs_app_test_frames ();
  path = g_strdup_printf ("%s/%s.png", folder, name);
  hs_shots_save (widget, path, &error);
  g_assert_no_error (error);
}
