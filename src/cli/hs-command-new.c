// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `new` and `demo`: make a book. Neither ever overwrites. */

#include "hs-cli.h"

#include "hs-demo.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

/* The machine's zone, if it has a name that another machine knows too. */
static char *
dup_machine_zone (void)
{
  g_autoptr (GTimeZone) local = g_time_zone_new_local ();
  const char *id = g_time_zone_get_identifier (local);
  g_autoptr (GTimeZone) same = id != NULL ? g_time_zone_new_identifier (id) : NULL;
  return g_strdup (same != NULL ? id : "UTC");
}

/* The file may be named by the command's word or by --book. */
static const char *
pick_path (HsCli *cli, char **words)
{
  return words[0] != NULL ? words[0] : cli->book_path;
}

static gboolean
make_folder (const char *path, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  if (g_mkdir_with_parents (folder, 0700) == 0)
    return TRUE;
  g_set_error (error, G_FILE_ERROR, g_file_error_from_errno (errno), _("%s cannot be made: %s"), folder,
               g_strerror (errno));
  return FALSE;
}

static void
say_made (HsCli *cli, const char *path)
{
  if (!cli->json)
    {
      hs_cli_print (_("Made %s\n"), path);
      return;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "book", path);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

gboolean
hs_command_new (HsCli *cli, char **words, GError **error)
{
  g_autofree char *zone = NULL;
  const GOptionEntry entries[] = {
    { "zone", 0, 0, G_OPTION_ARG_STRING, &zone, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 0, 1, &left, error))
    return FALSE;
  const char *path = pick_path (cli, left);
  if (zone == NULL)
    zone = dup_machine_zone ();
  if (!make_folder (path, error))
    return FALSE;

  HsBookUser user = hs_cli_user ();
  cli->book = hs_book_new (path, zone, &user, error);
  if (cli->book == NULL)
    return FALSE;
  say_made (cli, path);
  return TRUE;
}

gboolean
hs_command_demo (HsCli *cli, char **words, GError **error)
{
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, NULL, 0, 1, &left, error))
    return FALSE;
  const char *path = pick_path (cli, left);
  if (!make_folder (path, error))
    return FALSE;

  HsBookUser user = hs_cli_user ();
  cli->book = hs_demo_make (path, &user, error);
  if (cli->book == NULL)
    return FALSE;
  say_made (cli, path);
  return TRUE;
}
