// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the keys of the window do: forward to the page, or open what lies over every page.
 *
 * Use the action names of the table in .ui files and key hints. A page that does not know an action leaves the key
 * without effect; nothing is beeped or flashed. */

#include "hs-window-private.h"

#include <glib/gi18n.h>

#include "hs-go-window.h"
#include "hs-help-overlay.h"
#include "hs-pad-key.h"

typedef struct
{
  const char *window_action;
  const char *page_action;
} Forward;

static const Forward forwards[] = {
  { "win.next-stage", "page.next-stage" },
  { "win.why", "page.why" },
  { "win.customer", "page.customer" },
  { "win.lock", "page.lock" },
  { "win.side", "page.side" },
  { "win.print", "page.print" },
  { "win.find-next", "page.find-next" },
  { "win.replan", "page.replan" },
  { "win.next-van", "page.next-van" },
  { "win.share", "page.share" },
  { "win.accept", "page.accept" },
  { "win.next-day", "page.next-day" },
  { "win.previous-day", "page.previous-day" },
  { "win.tick", "page.tick" },
  { "win.open", "page.open" },
  { "win.clear", "page.clear" },
};

/* Keys without a modifier that act on the page also while the focus is elsewhere. Behind whatever has the focus: a
 * field keeps its =. */
static const struct
{
  guint keyval;
  const char *action;
} bare_keys[] = {
  { GDK_KEY_equal, "win.work-out" },     { GDK_KEY_KP_Equal, "win.work-out" },
  { GDK_KEY_minus, "win.unsent" },       { GDK_KEY_KP_Subtract, "win.unsent" },
  { GDK_KEY_0, "win.replan" },           { GDK_KEY_KP_0, "win.replan" },
  { GDK_KEY_asterisk, "win.next-van" },  { GDK_KEY_KP_Multiply, "win.next-van" },
  { GDK_KEY_slash, "win.share" },        { GDK_KEY_KP_Divide, "win.share" },
  { GDK_KEY_period, "win.accept" },      { GDK_KEY_KP_Decimal, "win.accept" },
  { GDK_KEY_plus, "win.tick" },          { GDK_KEY_KP_Add, "win.tick" },
  { GDK_KEY_Page_Down, "win.next-day" }, { GDK_KEY_KP_Page_Down, "win.next-day" },
  { GDK_KEY_Page_Up, "win.previous-day" }, { GDK_KEY_KP_Page_Up, "win.previous-day" },
};

static gboolean
activate_on_page (HsWindow   *self,
                  const char *action)
{
  GtkWidget *page = hs_window_get_visible_page (self);
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (self));

  if (page == NULL)
    return FALSE;
  if (focus != NULL && gtk_widget_is_ancestor (focus, page) && gtk_widget_activate_action (focus, action, NULL))
    return TRUE;
  return gtk_widget_activate_action (page, action, NULL);
}

static void
forward (GtkWidget  *widget,
         const char *name,
         GVariant   *parameter)
{
  for (guint i = 0; i < G_N_ELEMENTS (forwards); i++)
    if (g_str_equal (forwards[i].window_action, name))
      activate_on_page (HS_WINDOW (widget), forwards[i].page_action);
}

/* From the bars of the window the arrows go onto the lines of a page that has such. Caught on their way down, since the
 * window itself would only move the focus along the bar. */
static gboolean
arrow_cb (HsWindow        *self,
          guint            keyval,
          guint            keycode,
          GdkModifierType  state)
{
  GtkWidget *page = hs_window_get_visible_page (self);
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (self));
  gboolean down = keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down;

  if ((!down && keyval != GDK_KEY_Up && keyval != GDK_KEY_KP_Up) || page == NULL
      || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (focus != NULL
      && (gtk_widget_is_ancestor (focus, page) || gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) != NULL))
    return GDK_EVENT_PROPAGATE;
  return gtk_widget_activate_action (page, down ? "page.next-line" : "page.previous-line", NULL);
}

/* A digit that nobody took, pressed with the focus in the bars or nowhere, is for a page that begins to look for
 * something by digits. */
static gboolean
digit_cb (HsWindow        *self,
          guint            keyval,
          guint            keycode,
          GdkModifierType  state)
{
  GtkWidget *page = hs_window_get_visible_page (self);
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (self));
  char sign[2] = { hs_pad_key_sign (keyval), '\0' };

  if (!g_ascii_isdigit (*sign) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || page == NULL)
    return GDK_EVENT_PROPAGATE;
  if (focus != NULL
      && (gtk_widget_is_ancestor (focus, page) || gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) != NULL))
    return GDK_EVENT_PROPAGATE;
  return gtk_widget_activate_action (page, "page.type", "s", sign);
}

static void
watch_keys (HsWindow            *self,
            GtkPropagationPhase  phase,
            GCallback            pressed)
{
  GtkEventController *controller = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (controller, phase);
  g_signal_connect_object (controller, "key-pressed", pressed, self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

void
hs_window_watch_keys (HsWindow *self)
{
  watch_keys (self, GTK_PHASE_CAPTURE, G_CALLBACK (arrow_cb));
  watch_keys (self, GTK_PHASE_BUBBLE, G_CALLBACK (digit_cb));
}

static void
undo (GtkWidget  *widget,
      const char *name,
      GVariant   *parameter)
{
  hs_window_undo (HS_WINDOW (widget));
}

static void
redo (GtkWidget  *widget,
      const char *name,
      GVariant   *parameter)
{
  hs_window_redo (HS_WINDOW (widget));
}

static void
menu (GtkWidget  *widget,
      const char *name,
      GVariant   *parameter)
{
  hs_window_open_menu (HS_WINDOW (widget));
}

static void
call_slip (GtkWidget  *widget,
           const char *name,
           GVariant   *parameter)
{
  g_signal_emit_by_name (widget, "call-slip");
}

static void
squeeze_in (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  g_signal_emit_by_name (widget, "squeeze-in");
}

static void
work_out (GtkWidget  *widget,
          const char *name,
          GVariant   *parameter)
{
  g_signal_emit_by_name (widget, "work-out");
}

static void
unsent (GtkWidget  *widget,
        const char *name,
        GVariant   *parameter)
{
  g_signal_emit_by_name (widget, "unsent");
}

static void
where_was_i (GtkWidget  *widget,
             const char *name,
             GVariant   *parameter)
{
  g_signal_emit_by_name (widget, "where-was-i");
}

static void
search (GtkWidget  *widget,
        const char *name,
        GVariant   *parameter)
{
  hs_window_show_page (HS_WINDOW (widget), "vehicles");
  activate_on_page (HS_WINDOW (widget), "page.search");
}

static void
show_page (GtkWidget  *widget,
           const char *name,
           GVariant   *parameter)
{
  hs_window_show_page (HS_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

static void
back (GtkWidget  *widget,
      const char *name,
      GVariant   *parameter)
{
  hs_window_close_job (HS_WINDOW (widget));
}

static void
fullscreen (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  if (gtk_window_is_fullscreen (GTK_WINDOW (widget)))
    gtk_window_unfullscreen (GTK_WINDOW (widget));
  else
    gtk_window_fullscreen (GTK_WINDOW (widget));
}

static void
go_to (GtkWidget  *widget,
       const char *name,
       GVariant   *parameter)
{
  hs_go_window_present (HS_WINDOW (widget));
}

static void
show_keys (GtkWidget  *widget,
           const char *name,
           GVariant   *parameter)
{
  hs_help_overlay_present (HS_WINDOW (widget));
}

void
hs_window_install_actions (GtkWidgetClass *widget_class)
{
  GType type = G_TYPE_FROM_CLASS (widget_class);

  g_signal_new ("call-slip", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_signal_new ("squeeze-in", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_signal_new ("work-out", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_signal_new ("unsent", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_signal_new ("where-was-i", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  for (guint i = 0; i < G_N_ELEMENTS (forwards); i++)
    gtk_widget_class_install_action (widget_class, forwards[i].window_action, NULL, forward);
  gtk_widget_class_install_action (widget_class, "win.undo", NULL, undo);
  gtk_widget_class_install_action (widget_class, "win.redo", NULL, redo);
  gtk_widget_class_install_action (widget_class, "win.menu", NULL, menu);
  gtk_widget_class_install_action (widget_class, "win.call-slip", NULL, call_slip);
  gtk_widget_class_install_action (widget_class, "win.squeeze-in", NULL, squeeze_in);
  gtk_widget_class_install_action (widget_class, "win.work-out", NULL, work_out);
  gtk_widget_class_install_action (widget_class, "win.unsent", NULL, unsent);
  gtk_widget_class_install_action (widget_class, "win.where-was-i", NULL, where_was_i);
  gtk_widget_class_install_action (widget_class, "win.search", NULL, search);
  gtk_widget_class_install_action (widget_class, "win.show-page", "s", show_page);
  gtk_widget_class_install_action (widget_class, "win.back", NULL, back);
  gtk_widget_class_install_action (widget_class, "win.go-to", NULL, go_to);
  gtk_widget_class_install_action (widget_class, "win.fullscreen", NULL, fullscreen);
  gtk_widget_class_install_action (widget_class, "win.show-help-overlay", NULL, show_keys);
  for (guint i = 0; i < G_N_ELEMENTS (bare_keys); i++)
    gtk_widget_class_add_binding_action (widget_class, bare_keys[i].keyval, 0, bare_keys[i].action, NULL);
  /* Where it is a shifted key. */
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_plus, GDK_SHIFT_MASK, "win.tick", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_asterisk, GDK_SHIFT_MASK, "win.next-van", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_slash, GDK_SHIFT_MASK, "win.share", NULL);
}
