// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Starts the app and wires what the other rooms offer into the window. */

#include <glib/gi18n.h>
#include <locale.h>

#include "hs-application.h"
#ifdef HS_WITH_POST
#include "hs-post-wiring.h"
#endif
#include "hs-road-wiring.h"
#include "hs-shop.h"

int
main (int   argc,
      char *argv[])
{
  g_autoptr (HsApplication) application = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, HS_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_application_name ("Halfshaft");

  hs_road_wiring_install ();
#ifdef HS_WITH_POST
  hs_post_wiring_install ();
#endif
  application = hs_application_new (hs_shop_fill, NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
