// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Names for those who hear the window. Use these where GTK makes a widget itself and leaves it nameless; all else
 * is named in its template. */

#include "hs-spoken.h"

void
hs_spoken_name (GtkWidget *widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
hs_spoken_name_item (GtkListItem *item, const char *name)
{
  GtkWidget *child = gtk_list_item_get_child (item);

  if (child != NULL && gtk_widget_get_parent (child) != NULL)
    hs_spoken_name (gtk_widget_get_parent (child), name);
}

void
hs_spoken_name_drop_down (GtkDropDown *drop_down, const char *name)
{
  GtkWidget *button = gtk_widget_get_first_child (GTK_WIDGET (drop_down));

  hs_spoken_name (GTK_WIDGET (drop_down), name);
  if (GTK_IS_TOGGLE_BUTTON (button))
    hs_spoken_name (button, name);
}

static void
tell_pages (GtkStack *stack)
{
  GtkWidget *shown = gtk_stack_get_visible_child (stack);

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (stack)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    gtk_accessible_update_state (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_STATE_HIDDEN,
                                 child != shown || !gtk_widget_get_visible (child), -1);
}

void
hs_spoken_stack (GtkStack *stack)
{
  g_autoptr (GtkSelectionModel) pages = gtk_stack_get_pages (stack);

  g_signal_connect (stack, "notify::visible-child", G_CALLBACK (tell_pages), NULL);
  g_signal_connect_object (pages, "items-changed", G_CALLBACK (tell_pages), stack, G_CONNECT_SWAPPED);
  /* The stack keeps no model of its own alive. */
  g_object_set_data_full (G_OBJECT (stack), "hs-spoken-pages", g_steal_pointer (&pages), g_object_unref);
  tell_pages (stack);
}
