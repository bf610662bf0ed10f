// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where to. A digit goes there at once; Esc stays. */

#include "hs-go-window.h"

#include <glib/gi18n.h>

#include "hs-key-button.h"
#include "hs-pad-key.h"

struct _HsGoWindow
{
  AdwWindow parent_instance;

  GtkBox *ways;

  HsWindow *home; /* weak */
};

G_DEFINE_FINAL_TYPE (HsGoWindow, hs_go_window, ADW_TYPE_WINDOW)

static GtkWidget *
find_way (HsGoWindow *self, guint nth)
{
  GtkWidget *way = gtk_widget_get_first_child (GTK_WIDGET (self->ways));

  while (way != NULL && nth-- > 0)
    way = gtk_widget_get_next_sibling (way);
  return way;
}

/* Shut first, so that what opens next lies over the window itself. */
static void
go_cb (HsGoWindow *self, GtkWidget *button)
{
  g_autofree char *action = g_strdup (g_object_get_data (G_OBJECT (button), "action"));
  g_autofree char *view = g_strdup (g_object_get_data (G_OBJECT (button), "view"));
  HsWindow *home = self->home;

  gtk_window_close (GTK_WINDOW (self));
  if (home == NULL)
    return;
  if (view != NULL)
    hs_window_show_page (home, view);
  else if (g_str_has_prefix (action, "page."))
    gtk_widget_activate_action (hs_window_get_visible_page (home), action, NULL);
  else
    gtk_widget_activate_action (GTK_WIDGET (home), action, NULL);
}

static void
add_way (HsGoWindow *self, guint digit, const char *text, const char *view, const char *action)
{
  g_autofree char *key = g_strdup_printf ("%u", digit);
  GtkWidget *button = hs_key_button_new (key, text, NULL);

  hs_key_button_set_row (HS_KEY_BUTTON (button));
  g_object_set_data_full (G_OBJECT (button), "view", g_strdup (view), g_free);
  g_object_set_data_full (G_OBJECT (button), "action", g_strdup (action), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (go_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->ways, button);
}

static gboolean
key_cb (HsGoWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);
  GtkWidget *way = sign >= '1' && sign <= '9' ? find_way (self, (guint) (sign - '1')) : NULL;

  if (keyval == GDK_KEY_Escape || keyval == GDK_KEY_F11)
    gtk_window_close (GTK_WINDOW (self));
  else if (way != NULL)
    go_cb (self, way);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
hs_go_window_dispose (GObject *object)
{
  g_clear_weak_pointer (&HS_GO_WINDOW (object)->home);
  G_OBJECT_CLASS (hs_go_window_parent_class)->dispose (object);
}

static void
hs_go_window_class_init (HsGoWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_go_window_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-go-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsGoWindow, ways);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
}

static void
hs_go_window_init (HsGoWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
fill (HsGoWindow *self)
{
  g_autoptr (GtkSelectionModel) views = hs_window_dup_views (self->home);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (views));

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GObject) item = g_list_model_get_item (G_LIST_MODEL (views), i);
      GtkStackPage *page = GTK_STACK_PAGE (item);

      add_way (self, i + 1, gtk_stack_page_get_title (page), gtk_stack_page_get_name (page), NULL);
    }
  /* What is there always keeps its digit. */
  add_way (self, n + 1, _("Set Up This Book"), NULL, "win.set-up");
  if (hs_window_get_job (self->home) != NULL)
    add_way (self, n + 2, _("Where the Job Goes"), NULL, "page.stages");
}

void
hs_go_window_present (HsWindow *parent)
{
  HsGoWindow *self;

  g_return_if_fail (HS_IS_WINDOW (parent));

  self = g_object_new (HS_TYPE_GO_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->home, parent);
  fill (self);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_child_focus (GTK_WIDGET (self->ways), GTK_DIR_TAB_FORWARD);
}
