// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The about window. AdwAboutWindow is deprecated in libadwaita 1.6, so this file is the only one that knows it. */

#include "hs-compat-about.h"

#include <adwaita.h>
#include <glib/gi18n.h>

void
hs_compat_about_present (GtkWindow *parent)
{
  const char *developers[] = { "The Halfshaft authors", NULL };

  g_return_if_fail (GTK_IS_WINDOW (parent));

  adw_show_about_window (parent,
                         "application-name", "Halfshaft",
                         "application-icon", HS_APP_ID,
                         "version", HS_VERSION,
                         "developer-name", "The Halfshaft authors",
                         "developers", developers,
                         "comments", _("Runs the day of a one-van repair business"),
                         "license-type", GTK_LICENSE_GPL_3_0,
                         "translator-credits", _("translator-credits"),
                         NULL);
}
