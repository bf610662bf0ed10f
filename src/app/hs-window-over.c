// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Windows that lie over the window or over each other: no larger than what they lie over, and when they go, the cursor
 * is where it was. */

#include "hs-window-private.h"

#include "hs-ink.h"

#define LARGE_TEXT 1.5 /* times the usual size */

/* What lies over a window, and what had the focus there when it came. */
typedef struct
{
  GtkWidget *beneath; /* weak */
  GtkWidget *had_focus; /* weak */
} Over;

static void
over_free (gpointer data)
{
  Over *over = data;

  g_clear_weak_pointer (&over->beneath);
  g_clear_weak_pointer (&over->had_focus);
  g_free (over);
}

/* The cursor is where it was, unless it was led to somewhere on the page meanwhile. */
void
hs_window_give_back (GtkWindow *beneath, GtkWidget *had_focus)
{
  GtkWidget *page = HS_IS_WINDOW (beneath) ? hs_window_get_visible_page (HS_WINDOW (beneath)) : GTK_WIDGET (beneath);
  GtkWidget *focus = gtk_window_get_focus (beneath);

  if (page == NULL || (focus != NULL && gtk_widget_get_mapped (focus) && gtk_widget_is_ancestor (focus, page)))
    return;
  if (had_focus == NULL || gtk_widget_get_root (had_focus) != GTK_ROOT (beneath) || !gtk_widget_get_mapped (had_focus)
      || !gtk_widget_grab_focus (had_focus))
    gtk_widget_child_focus (page, GTK_DIR_TAB_FORWARD);
}

static void
let_go_cb (GtkWindow *window, Over *over)
{
  gtk_window_set_transient_for (window, NULL);
  if (over->beneath != NULL && over->had_focus != NULL && gtk_widget_get_mapped (over->beneath))
    hs_window_give_back (GTK_WINDOW (over->beneath), over->had_focus);
}

void
hs_window_fit_over (GtkWindow *over)
{
  Over *place;
  GtkWidget *beneath;
  int width, height;

  g_return_if_fail (GTK_IS_WINDOW (over));

  beneath = GTK_WIDGET (gtk_window_get_transient_for (over));
  gtk_window_get_default_size (over, &width, &height);
  if (beneath != NULL && gtk_widget_get_width (beneath) > 0)
    gtk_window_set_default_size (over, MIN (width, gtk_widget_get_width (beneath)),
                                 MIN (height, gtk_widget_get_height (beneath)));
  /* A header bar knows no second line for its title. */
  if (hs_ink_unit (GTK_WIDGET (over)) > LARGE_TEXT)
    gtk_widget_add_css_class (GTK_WIDGET (over), "large-text");
  /* Closed, it may outlive what it lay over, as long as an answer is on its way to it; GTK would keep the pointer. */
  place = g_new0 (Over, 1);
  g_set_weak_pointer (&place->beneath, beneath);
  if (beneath != NULL)
    g_set_weak_pointer (&place->had_focus, gtk_window_get_focus (GTK_WINDOW (beneath)));
  g_object_set_data_full (G_OBJECT (over), "hs-over", place, over_free);
  g_signal_connect (over, "unrealize", G_CALLBACK (let_go_cb), place);
}
