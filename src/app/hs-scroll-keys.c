// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Keys that scroll a window which is only read. Not for one with fields: those have the same keys for themselves. */

#include "hs-scroll-keys.h"

static const struct
{
  guint keyval, pad_keyval;
  GtkScrollType scroll;
} keys[] = {
  { GDK_KEY_Down, GDK_KEY_KP_Down, GTK_SCROLL_STEP_DOWN },
  { GDK_KEY_Up, GDK_KEY_KP_Up, GTK_SCROLL_STEP_UP },
  { GDK_KEY_Page_Down, GDK_KEY_KP_Page_Down, GTK_SCROLL_PAGE_DOWN },
  { GDK_KEY_Page_Up, GDK_KEY_KP_Page_Up, GTK_SCROLL_PAGE_UP },
  { GDK_KEY_End, GDK_KEY_KP_End, GTK_SCROLL_END },
  { GDK_KEY_Home, GDK_KEY_KP_Home, GTK_SCROLL_START },
};

static gboolean
key_cb (GtkScrolledWindow *scroller, guint keyval, guint keycode, GdkModifierType state)
{
  gboolean scrolled;

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keyval == keys[i].keyval || keyval == keys[i].pad_keyval)
      {
        g_signal_emit_by_name (scroller, "scroll-child", keys[i].scroll, FALSE, &scrolled);
        return GDK_EVENT_STOP;
      }
  return GDK_EVENT_PROPAGATE;
}

void
hs_scroll_keys_install (GtkWidget *window, GtkScrolledWindow *scroller)
{
  GtkEventController *controller = gtk_event_controller_key_new ();

  g_return_if_fail (GTK_IS_WIDGET (window));
  g_return_if_fail (GTK_IS_SCROLLED_WINDOW (scroller));

  /* On their way down: a row would take the arrows for the next row, a button for the next button. */
  gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_CAPTURE);
  g_signal_connect_object (controller, "key-pressed", G_CALLBACK (key_cb), scroller, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (window, controller);
}
