// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The window that every other one is measured against: an AdwApplicationWindow with a label in it. */

#include "hs-paint-meter.h"

#include <adwaita.h>

static void
on_activate (GApplication *application, gpointer data)
{
  GtkWidget *window = adw_application_window_new (GTK_APPLICATION (application));

  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), gtk_label_new ("bare"));
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  hs_paint_meter_start (GTK_WINDOW (window));
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) application
      = adw_application_new ("org.halfshaft.Bare", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (application, "activate", G_CALLBACK (on_activate), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
