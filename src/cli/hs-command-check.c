// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `check`: without words, whether the book is whole; with a check and a value, the verdict without storing it. */

#include "hs-cli.h"

#include "hs-history.h"
#include "hs-job-op.h"
#include "hs-reading-out.h"

#include <glib/gi18n.h>

static gboolean
check_book (HsCli *cli, GError **error)
{
  if (!hs_cli_open_book (cli, HS_BOOK_READ, error) || !hs_store_check (hs_book_get_store (cli->book), TRUE, error))
    return FALSE;
  if (!cli->json)
    {
      hs_cli_print (_("%s is whole.\n"), cli->book_path);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "book", cli->book_path);
  hs_json_out_boolean (out, "whole", TRUE);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
  return TRUE;
}

static gboolean
judge (HsCli *cli, const HsReadingEntry *entry, const char *plate, GError **error)
{
  if (!hs_cli_open_book (cli, HS_BOOK_READ, error))
    return FALSE;
  g_autofree char *vehicle_id = plate != NULL ? hs_history_find_vehicle (cli->book, plate, cli->now, error) : NULL;
  if (plate != NULL && vehicle_id == NULL)
    return FALSE;
  g_autoptr (HsReadingResult) result = hs_reading_judge (cli->book, vehicle_id, entry, cli->now, error);
  if (result == NULL)
    return FALSE;
  if (!cli->json)
    {
      hs_reading_out_print (result);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_reading_out_write (out, NULL, result);
  hs_cli_print_json (out);
  return TRUE;
}

gboolean
hs_command_check (HsCli *cli, char **words, GError **error)
{
  g_autofree char *plate = NULL;
  g_autofree char *unit = NULL;
  const GOptionEntry entries[] = {
    { "plate", 0, 0, G_OPTION_ARG_STRING, &plate, NULL, NULL },
    { "unit", 0, 0, G_OPTION_ARG_STRING, &unit, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 0, 2, &left, error))
    return FALSE;
  if (left[0] == NULL)
    return check_book (cli, error);
  if (left[1] == NULL)
    return hs_cli_usage (error, _("a value is missing"));
  HsReadingEntry entry = { .check = left[0], .keyed = left[1], .unit = unit, .phase = "before",
                           .at = HS_INSTANT_NONE };
  return judge (cli, &entry, plate, error);
}
