// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Loads the style sheet and, by AdwStyleManager, the token sheet of the moment: paper, asphalt, sun or night.
 *
 * Use it once at start. libadwaita 1.2 has no media queries in CSS, hence the two providers. */

#include "hs-theme.h"

#include <adwaita.h>

#include "hs-app-resources.h"
#include "hs-data-resources.h"
#include "hs-flow-layout.h"

#define LOOK "/org/halfshaft/Halfshaft/look/"

static void
load_tokens (AdwStyleManager *manager,
             GParamSpec      *pspec,
             GtkCssProvider  *tokens)
{
  gboolean dark = adw_style_manager_get_dark (manager);

  if (adw_style_manager_get_high_contrast (manager))
    gtk_css_provider_load_from_resource (tokens, dark ? LOOK "tokens-night.css" : LOOK "tokens-sun.css");
  else
    gtk_css_provider_load_from_resource (tokens, dark ? LOOK "tokens-dark.css" : LOOK "tokens-light.css");
}

void
hs_theme_install (GdkDisplay *display)
{
  AdwStyleManager *manager;
  g_autoptr (GtkCssProvider) style = NULL;
  g_autoptr (GtkCssProvider) tokens = NULL;

  g_return_if_fail (GDK_IS_DISPLAY (display));

  if (g_object_get_data (G_OBJECT (display), "hs-theme") != NULL)
    return;
  g_object_set_data (G_OBJECT (display), "hs-theme", GINT_TO_POINTER (1));
  hs_app_register_resource ();
  hs_data_register_resource ();
  g_type_ensure (HS_TYPE_FLOW_LAYOUT); /* which most templates name */
  gtk_icon_theme_add_resource_path (gtk_icon_theme_get_for_display (display), "/org/halfshaft/Halfshaft/icons");

  style = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (style, LOOK "style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (style),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);

  tokens = gtk_css_provider_new ();
  manager = adw_style_manager_get_for_display (display);
  g_signal_connect_object (manager, "notify::dark", G_CALLBACK (load_tokens), tokens, 0);
  g_signal_connect_object (manager, "notify::high-contrast", G_CALLBACK (load_tokens), tokens, 0);
  load_tokens (manager, NULL, tokens);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (tokens),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
}
