// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `import`: one CSV file into the book, whole or not at all. */

#include "hs-cli.h"

#include "hs-import.h"

#include <glib/gi18n.h>
#include <stdio.h>

static void
print_report (HsCli *cli, const char *kind, const HsImportReport *report)
{
  if (!cli->json)
    {
      if (report->rows > 0 && report->added == 0 && report->changed == 0)
        hs_cli_print (_("%s: nothing new; the book already holds all of it (%u)\n"), kind, (guint) report->rows);
      else
        hs_cli_print (_("%s: %u added, %u changed, %u already there\n"), kind, (guint) report->added,
                      (guint) report->changed, (guint) report->unchanged);
      return;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "kind", kind);
  hs_json_out_integer (out, "rows", (gint64) report->rows);
  hs_json_out_integer (out, "added", (gint64) report->added);
  hs_json_out_integer (out, "changed", (gint64) report->changed);
  hs_json_out_integer (out, "unchanged", (gint64) report->unchanged);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_lines (const GPtrArray *lines)
{
  for (guint i = 0; i < lines->len; i++)
    hs_cli_complain (g_ptr_array_index (lines, i));
}

static gboolean
check_kind (const char *kind, GError **error)
{
  const char *const *kinds = hs_import_get_kinds ();
  if (g_strv_contains (kinds, kind))
    return TRUE;
  g_autofree char *known = g_strjoinv (", ", (char **) kinds);
  return hs_cli_usage (error, _("there is no kind “%s”; the kinds are %s"), kind, known);
}

gboolean
hs_command_import (HsCli *cli, char **words, GError **error)
{
  gboolean ignore_unknown = FALSE;
  const GOptionEntry entries[] = {
    { "ignore-unknown", 0, 0, G_OPTION_ARG_NONE, &ignore_unknown, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 2, 2, &left, error) || !check_kind (left[0], error))
    return FALSE;

  g_autofree char *content = NULL;
  gsize length = 0;
  if (!g_file_get_contents (left[1], &content, &length, error) || !hs_cli_open_book (cli, HS_BOOK_WRITE, error))
    return FALSE;
  g_autoptr (GBytes) bytes = g_bytes_new_take (g_steal_pointer (&content), length);
  g_autofree char *name = g_path_get_basename (left[1]);
  g_autoptr (HsImportReport) report = NULL;
  HsImportFlags flags = ignore_unknown ? HS_IMPORT_IGNORE_UNKNOWN : HS_IMPORT_NONE;
  gboolean done = hs_import (cli->book, left[0], name, bytes, flags, cli->now, &report, error);
  if (done)
    print_report (cli, left[0], report);
  if (report != NULL)
    print_lines (done ? report->notes : report->faults);
  return done;
}
