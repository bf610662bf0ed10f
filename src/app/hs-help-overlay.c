// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The window of keys. GtkShortcutsWindow is deprecated in later GTK, so this file is the only one that knows it. */

#include "hs-help-overlay.h"

GtkWindow *
hs_help_overlay_new (void)
{
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource ("/org/halfshaft/Halfshaft/ui/hs-help-overlay.ui");

  return GTK_WINDOW (gtk_builder_get_object (builder, "help_overlay"));
}

void
hs_help_overlay_present (GtkWindow *parent)
{
  GtkWindow *overlay;

  g_return_if_fail (GTK_IS_WINDOW (parent));

  overlay = hs_help_overlay_new ();
  gtk_window_set_transient_for (overlay, parent);
  gtk_window_set_modal (overlay, TRUE);
  gtk_window_present (overlay);
}
