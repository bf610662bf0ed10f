// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the book refuses, told by the window that asked; and by the one beneath, if that was shut before the answer.
 * Use it in every window that writes and can be shut at any moment. It refuses to lose a refusal: what was not stored
 * and what was typed for it are read out together. */

#include "hs-refusal.h"

#include <glib/gi18n.h>

#include "hs-window.h"

#define BENEATH_KEY "hs-refusal-beneath"
#define TYPED_KEY "hs-refusal-typed"

static void
free_ref (gpointer data)
{
  g_weak_ref_clear (data);
  g_free (data);
}

void
hs_refusal_say (GtkLabel *label, const char *text)
{
  g_return_if_fail (GTK_IS_LABEL (label));

  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL);
}

void
hs_refusal_expect (GtkWindow *window, const char *typed)
{
  GtkWindow *beneath = window;
  GWeakRef *ref;

  g_return_if_fail (GTK_IS_WINDOW (window));

  while (beneath != NULL && !HS_IS_WINDOW (beneath))
    beneath = gtk_window_get_transient_for (beneath);
  g_object_set_data_full (G_OBJECT (window), TYPED_KEY, g_strdup (typed), g_free);
  if (beneath == NULL)
    return;
  ref = g_new0 (GWeakRef, 1);
  g_weak_ref_init (ref, beneath);
  g_object_set_data_full (G_OBJECT (window), BENEATH_KEY, ref, free_ref);
}

static void
tell_beneath (GtkWindow *window, const char *text)
{
  GWeakRef *ref = g_object_get_data (G_OBJECT (window), BENEATH_KEY);
  g_autoptr (GObject) beneath = ref != NULL ? g_weak_ref_get (ref) : NULL;
  const char *typed = g_object_get_data (G_OBJECT (window), TYPED_KEY);
  gboolean says_typed = typed != NULL && *typed != '\0';
  /* Translators: why it was refused, and then what had been typed. */
  g_autofree char *both = says_typed ? g_strdup_printf (_("Not stored: %s Typed was “%s”."), text, typed)
                                     : g_strdup_printf (_("Not stored: %s"), text);

  if (beneath != NULL)
    hs_window_refuse (HS_WINDOW (beneath), both);
}

gboolean
hs_refusal_late (GtkWindow *window, const char *text)
{
  g_return_val_if_fail (GTK_IS_WINDOW (window), FALSE);

  if (gtk_widget_get_visible (GTK_WIDGET (window)))
    return FALSE;
  if (text != NULL)
    tell_beneath (window, text);
  return TRUE;
}
