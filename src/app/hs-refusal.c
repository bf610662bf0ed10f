// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the book refuses, told by the window that asked; and by the one beneath, if that was shut before the answer.
 * Use it in every window that writes and can be shut at any moment. It refuses to lose a refusal: what was not stored
 * and what was typed for it are read out together. */

#include "hs-refusal.h"

#include <glib/gi18n.h>

#include "hs-window.h"

struct _HsRefusal
{
  GtkWindow *window;
  GWeakRef beneath;
  char *typed;
};

void
hs_refusal_say (GtkLabel *label, const char *text)
{
  g_return_if_fail (GTK_IS_LABEL (label));

  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL);
}

HsRefusal *
hs_refusal_expect (GtkWindow *window, const char *typed)
{
  GtkWindow *beneath = window;
  HsRefusal *self;

  g_return_val_if_fail (GTK_IS_WINDOW (window), NULL);

  while (beneath != NULL && !HS_IS_WINDOW (beneath))
    beneath = gtk_window_get_transient_for (beneath);
  self = g_new0 (HsRefusal, 1);
  self->window = g_object_ref (window);
  g_weak_ref_init (&self->beneath, beneath);
  self->typed = g_strdup (typed);
  return self;
}

gpointer
hs_refusal_get_window (HsRefusal *self)
{
  g_return_val_if_fail (self != NULL, NULL);

  return self->window;
}

void
hs_refusal_free (HsRefusal *self)
{
  g_weak_ref_clear (&self->beneath);
  g_clear_object (&self->window);
  g_free (self->typed);
  g_free (self);
}

static void
tell_beneath (HsRefusal *self, const char *text)
{
  g_autoptr (GObject) beneath = g_weak_ref_get (&self->beneath);
  gboolean says_typed = self->typed != NULL && *self->typed != '\0';
  /* Translators: why it was refused, and then what had been typed. */
  g_autofree char *both = says_typed ? g_strdup_printf (_("Not stored: %s Typed was “%s”."), text, self->typed)
                                     : g_strdup_printf (_("Not stored: %s"), text);

  if (beneath != NULL)
    hs_window_refuse (HS_WINDOW (beneath), both);
}

gboolean
hs_refusal_late (HsRefusal *self, const char *text)
{
  g_return_val_if_fail (self != NULL, FALSE);

  if (gtk_widget_get_visible (GTK_WIDGET (self->window)))
    return FALSE;
  if (text != NULL)
    tell_beneath (self, text);
  return TRUE;
}
