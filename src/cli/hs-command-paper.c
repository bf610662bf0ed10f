// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `paper`: writes a page of a job as a PDF file. A file that is there already is not overwritten unless asked. */

#include "hs-cli.h"

#include "hs-job-op.h"
#include "hs-paper.h"
#include "hs-proof-load.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

#define BEFORE_AFTER "before-after"

typedef struct
{
  char *file;
  char *size;
  gboolean force;
} Asked;

static gboolean
check_size (const Asked *asked, GError **error)
{
  if (asked->size == NULL || g_ascii_strcasecmp (asked->size, "A4") == 0
      || g_ascii_strcasecmp (asked->size, "letter") == 0)
    return TRUE;
  return hs_cli_usage (error, _("--size: there is no paper “%s”; write letter or A4"), asked->size);
}

static gboolean
write_file (const Asked *asked, GBytes *bytes, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (asked->file);
  g_autoptr (GFileOutputStream) stream
      = asked->force ? g_file_replace (file, NULL, FALSE, G_FILE_CREATE_NONE, NULL, error)
                     : g_file_create (file, G_FILE_CREATE_NONE, NULL, error);
  return stream != NULL
         && g_output_stream_write_all (G_OUTPUT_STREAM (stream), g_bytes_get_data (bytes, NULL),
                                       g_bytes_get_size (bytes), NULL, NULL, error)
         && g_output_stream_close (G_OUTPUT_STREAM (stream), NULL, error);
}

static void
tell (HsCli *cli, const Asked *asked, const HsPaper *paper)
{
  if (!cli->json)
    {
      guint n = hs_paper_get_n_pages (paper);
      hs_cli_print (ngettext ("Wrote %u page to %s\n", "Wrote %u pages to %s\n", n), n, asked->file);
      return;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "file", asked->file);
  hs_json_out_string (out, "title", hs_paper_get_title (paper));
  hs_json_out_integer (out, "pages", hs_paper_get_n_pages (paper));
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static gboolean
print_proof (HsCli *cli, const char *number, const Asked *asked, GError **error)
{
  const HsTongue tongue = { gettext, ngettext };
  if (!hs_cli_open_book (cli, HS_BOOK_READ, error) || !check_size (asked, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, number, error);
  if (job_id == NULL)
    return FALSE;
  g_autoptr (HsProofSheet) sheet = hs_proof_sheet_load (cli->book, job_id, &tongue, cli->now, error);
  if (sheet == NULL)
    return FALSE;
  const char *size = asked->size != NULL ? asked->size : sheet->paper_size;
  g_autoptr (HsPaper) paper = hs_paper_proof_new (sheet, hs_paper_size_parse (size), &tongue);
  g_autofree char *made_at = hs_instant_format (cli->now);
  g_autoptr (GBytes) bytes = hs_paper_dup_pdf (paper, made_at, error);
  if (bytes == NULL || !write_file (asked, bytes, error))
    return FALSE;
  tell (cli, asked, paper);
  return TRUE;
}

gboolean
hs_command_paper (HsCli *cli, char **words, GError **error)
{
  Asked asked = { 0 };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &asked.file, NULL, NULL },
    { "size", 0, 0, G_OPTION_ARG_STRING, &asked.size, NULL, NULL },
    { "force", 0, 0, G_OPTION_ARG_NONE, &asked.force, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  gboolean done = hs_cli_parse (words, entries, 2, 2, &left, error);
  if (done && !g_str_equal (left[1], BEFORE_AFTER))
    done = hs_cli_usage (error, _("there is no page “%s”; there is: before-after"), left[1]);
  if (done && asked.file == NULL)
    done = hs_cli_usage (error, _("say where to: -o FILE"));
  done = done && print_proof (cli, left[0], &asked, error);
  g_free (asked.file);
  g_free (asked.size);
  return done;
}
