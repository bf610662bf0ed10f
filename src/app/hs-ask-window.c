// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One question with the key that does it and Esc. Enter, which a hand presses out of habit, does nothing; the cursor is
 * on the key that leaves, for Space acts on what has it. */

#include "hs-ask-window.h"

#include "hs-key-button.h"
#include "hs-pad-key.h"
#include "hs-window.h"

struct _HsAskWindow
{
  AdwWindow parent_instance;

  GtkLabel *body;
  HsKeyButton *act;
};

enum
{
  AGREED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsAskWindow, hs_ask_window, ADW_TYPE_WINDOW)

static void
act_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_object_ref (widget);
  gtk_window_close (GTK_WINDOW (widget));
  g_signal_emit (widget, signals[AGREED], 0);
  g_object_unref (widget);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static gboolean
key_cb (HsAskWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (sign == '1')
    act_action (GTK_WIDGET (self), NULL, NULL);
  return sign == '1' || sign == '\n' ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static void
hs_ask_window_class_init (HsAskWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HS_TYPE_KEY_BUTTON);
  signals[AGREED] = g_signal_new ("agreed", HS_TYPE_ASK_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-ask-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsAskWindow, body);
  gtk_widget_class_bind_template_child (widget_class, HsAskWindow, act);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "ask.act", NULL, act_action);
  gtk_widget_class_install_action (widget_class, "ask.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "ask.close", NULL);
}

static void
hs_ask_window_init (HsAskWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsAskWindow *
hs_ask_window_present (GtkWindow *parent, const char *question, const char *body, const char *act)
{
  HsAskWindow *self;

  g_return_val_if_fail (GTK_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (question != NULL && body != NULL && act != NULL, NULL);

  self = g_object_new (HS_TYPE_ASK_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, "title", question,
                       NULL);
  gtk_label_set_label (self->body, body);
  hs_key_button_set_text (self->act, act);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
