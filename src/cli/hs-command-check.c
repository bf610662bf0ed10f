// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `check`: without words, whether the book is whole; with a check and a value, the verdict without storing it. */

#include "hs-cli.h"

#include "hs-history.h"
#include "hs-job-op.h"
#include "hs-photo-op.h"
#include "hs-reading-out.h"

#include <glib/gi18n.h>

/* Which limits are in use, so that a change is never unseen. */
static void
print_catalog (const HsCatalog *catalog)
{
  if (catalog->file == NULL || catalog->trouble != NULL)
    {
      hs_cli_print (_("List of checks: as it is built in.\n"));
      return;
    }
  hs_cli_print (_("List of checks: as it is built in, with %s:\n"), catalog->file);
  for (guint i = 0; catalog->changes[i] != NULL; i++)
    hs_cli_print ("  %s\n", catalog->changes[i]);
  if (catalog->changes[0] == NULL)
    hs_cli_print ("  %s\n", _("nothing in it is new or other"));
}

static void
write_catalog (HsJsonOut *out, const HsCatalog *catalog)
{
  hs_json_out_begin_object (out, "catalog");
  hs_json_out_string (out, "file", catalog->file);
  hs_json_out_boolean (out, "in_use", catalog->file != NULL && catalog->trouble == NULL);
  hs_json_out_string (out, "trouble", catalog->trouble);
  hs_json_out_begin_array (out, "changes");
  for (guint i = 0; catalog->changes[i] != NULL; i++)
    hs_json_out_string (out, NULL, catalog->changes[i]);
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

/* A photo that lost its picture is no fault of the file; it may come from a copy without photos. */
static void
print_photos (guint n_photos, GPtrArray *faults)
{
  if (n_photos == 0)
    return;
  if (faults->len == 0)
    hs_cli_print (ngettext ("%u photo, as it was added.\n", "%u photos, as they were added.\n", n_photos), n_photos);
  for (guint i = 0; i < faults->len; i++)
    {
      const HsPhotoFault *fault = g_ptr_array_index (faults, i);
      g_autofree char *name = hs_cli_one_line (fault->name);
      hs_cli_print (_("Photo %u of %s (%s): its picture is missing or damaged. Add it again.\n"), fault->number,
                    fault->job, name);
    }
}

static void
write_photos (HsJsonOut *out, guint n_photos, GPtrArray *faults)
{
  hs_json_out_begin_object (out, "photos");
  hs_json_out_integer (out, "count", n_photos);
  hs_json_out_begin_array (out, "missing");
  for (guint i = 0; i < faults->len; i++)
    {
      const HsPhotoFault *fault = g_ptr_array_index (faults, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "job", fault->job);
      hs_json_out_integer (out, "number", fault->number);
      hs_json_out_string (out, "name", fault->name);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static gboolean
check_book (HsCli *cli, GError **error)
{
  g_autoptr (GPtrArray) faults = NULL;
  guint n_photos;
  if (!hs_cli_open_book (cli, HS_BOOK_READ, error) || !hs_store_check (hs_book_get_store (cli->book), TRUE, error)
      || !hs_photo_check (cli->book, &n_photos, &faults, error))
    return FALSE;
  if (!cli->json)
    {
      hs_cli_print (_("%s is whole.\n"), cli->book_path);
      print_photos (n_photos, faults);
      print_catalog (hs_book_get_catalog (cli->book));
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "book", cli->book_path);
  hs_json_out_boolean (out, "whole", TRUE);
  write_photos (out, n_photos, faults);
  write_catalog (out, hs_book_get_catalog (cli->book));
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
  g_autofree char *conditions = NULL;
  const GOptionEntry entries[] = {
    { "plate", 0, 0, G_OPTION_ARG_STRING, &plate, NULL, NULL },
    { "unit", 0, 0, G_OPTION_ARG_STRING, &unit, NULL, NULL },
    { "conditions", 0, 0, G_OPTION_ARG_STRING, &conditions, NULL, NULL },
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
                           .conditions = conditions, .at = HS_INSTANT_NONE };
  return judge (cli, &entry, plate, error);
}
