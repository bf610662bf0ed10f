// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A quick hand does not wait for the book. Use it where Enter or a digit leads on only when the book has answered: what
 * is keyed meanwhile belongs to the next field, not to this one, and is pressed there. It refuses to hold keys that
 * open or shut something: those act at once. */

#include "hs-late-keys.h"

#include "hs-pad-key.h"

#define KEYS_KEY "hs-late-keys"
#define MOST_KEYS 64

struct _HsLateKeys
{
  GtkWidget *widget; /* owns us */
  GArray *waiting;   /* guint: key values */
  gboolean holds;
  void (*press) (GtkWidget *widget, guint keyval);
};

static void
late_keys_free (gpointer data)
{
  HsLateKeys *self = data;

  g_array_unref (self->waiting);
  g_free (self);
}

/* A hand that leans on the pad must not fill the memory. */
static gboolean
take (HsLateKeys *self, guint keyval)
{
  if (!self->holds || (hs_pad_key_sign (keyval) == '\0' && gdk_keyval_to_unicode (keyval) < 32))
    return FALSE;
  if (self->waiting->len < MOST_KEYS)
    g_array_append_val (self->waiting, keyval);
  return TRUE;
}

static gboolean
key_cb (HsLateKeys *self, guint keyval, guint keycode, GdkModifierType state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  return take (self, keyval) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

HsLateKeys *
hs_late_keys_new (GtkWidget *widget)
{
  HsLateKeys *self = g_new0 (HsLateKeys, 1);
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->widget = widget;
  self->waiting = g_array_new (FALSE, FALSE, sizeof (guint));
  g_object_set_data_full (G_OBJECT (widget), KEYS_KEY, self, late_keys_free);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (widget, keys);
  return self;
}

void
hs_late_keys_set_press (HsLateKeys *self, void (*press) (GtkWidget *widget, guint keyval))
{
  g_return_if_fail (self != NULL);

  self->press = press;
}

void
hs_late_keys_hold (HsLateKeys *self)
{
  g_return_if_fail (self != NULL);

  self->holds = TRUE;
}

/* Whether something on the way up waits for the book too. */
static gboolean
next_takes (GtkWidget *focus, guint keyval)
{
  for (GtkWidget *at = focus; at != NULL; at = gtk_widget_get_parent (at))
    {
      HsLateKeys *keys = g_object_get_data (G_OBJECT (at), KEYS_KEY);

      if (keys != NULL && take (keys, keyval))
        return TRUE;
    }
  return FALSE;
}

static void
press_in_text (GtkWidget *text, guint keyval)
{
  char sign = hs_pad_key_sign (keyval);
  char letter[7] = { 0 };

  if (sign == '\n')
    g_signal_emit_by_name (text, "activate");
  else if (sign == '\b')
    g_signal_emit_by_name (text, "backspace");
  else
    {
      g_unichar_to_utf8 (gdk_keyval_to_unicode (keyval), letter);
      gtk_editable_delete_selection (GTK_EDITABLE (text));
      g_signal_emit_by_name (text, "insert-at-cursor", letter);
    }
}

void
hs_late_keys_release (HsLateKeys *self)
{
  g_autoptr (GArray) waiting = NULL;
  GtkRoot *root;

  g_return_if_fail (self != NULL);

  self->holds = FALSE;
  if (self->waiting->len == 0)
    return;
  waiting = g_steal_pointer (&self->waiting);
  self->waiting = g_array_new (FALSE, FALSE, sizeof (guint));
  root = gtk_widget_get_root (self->widget);
  for (guint i = 0; root != NULL && i < waiting->len; i++)
    {
      guint keyval = g_array_index (waiting, guint, i);
      GtkWidget *focus = gtk_root_get_focus (root);

      if (focus == NULL || next_takes (focus, keyval))
        continue;
      if (GTK_IS_TEXT (focus))
        press_in_text (focus, keyval);
      else if (hs_pad_key_sign (keyval) == '\n')
        gtk_widget_activate (focus);
      else if (self->press != NULL)
        self->press (self->widget, keyval);
    }
}

void
hs_late_keys_drop (HsLateKeys *self)
{
  g_return_if_fail (self != NULL);

  self->holds = FALSE;
  g_array_set_size (self->waiting, 0);
}
