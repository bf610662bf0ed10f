// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `safety`: the safety list of a job's latest visit, one item of it answered, or how it came out. */

#include "hs-cli.h"

#include "hs-arrive-out.h"
#include "hs-job-op.h"

#include <glib/gi18n.h>

/* In the order of HsSafetyEnd. */
static const char *const ends[] = { "safe", "moved", "refused" };

static void
print_line (const HsSafetyLine *line)
{
  const char *word = line->not_so ? "not_so" : line->answer;
  g_autofree char *id = hs_cli_pad (line->id, 14);
  g_autofree char *answer = hs_cli_pad (word != NULL ? word : "–", 9);
  g_autofree char *why = hs_cli_one_line (line->why);
  hs_cli_print ("%s %s %s\n", id, answer, hs_cli_data (line->words));
  if (line->why != NULL)
    hs_cli_print ("    “%s”\n", why);
  if (line->answer == NULL || line->not_so)
    hs_cli_print ("    %s\n", hs_cli_data (line->caution));
}

static void
print_sheet (const HsSafetySheet *sheet)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    print_line (g_ptr_array_index (sheet->lines, i));
  if (sheet->n_not_so > 0)
    hs_cli_print ("%s\n", _("Do not go on here: put right what is not so and answer it anew, or refuse the work and "
                            "say why."));
  if (sheet->note != NULL)
    {
      g_autofree char *note = hs_cli_one_line (sheet->note);
      hs_cli_print ("%s\n", note);
    }
  else if (sheet->visit_id == NULL)
    hs_cli_print ("%s\n", _("nobody has arrived yet"));
  hs_cli_print ("%s\n", _("The vehicle's maker, local codes and licensed practice come first."));
}

static gboolean
show_sheet (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (HsSafetySheet) sheet = hs_safety_sheet_load (cli->book, job_id, error);
  if (sheet == NULL)
    return FALSE;
  if (!cli->json)
    {
      print_sheet (sheet);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_safety_out_write (out, NULL, sheet);
  hs_cli_print_json (out);
  return TRUE;
}

static gboolean
answer (HsCli *cli, const char *job_id, char **left, const char *why, GError **error)
{
  gboolean open = g_strcmp0 (left[2], "open") == 0;
  if (left[2] != NULL)
    return hs_safety_answer (cli->book, job_id, left[1], open ? NULL : left[2], why, cli->now, error);
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (g_ascii_strcasecmp (left[1], ends[i]) == 0)
      return hs_safety_finish (cli->book, job_id, (HsSafetyEnd) i, why, cli->now, error);
  return hs_cli_usage (error, _("“%s” is neither safe, moved nor refused; an item needs an answer behind it"), left[1]);
}

gboolean
hs_command_safety (HsCli *cli, char **words, GError **error)
{
  g_autofree char *why = NULL;
  const GOptionEntry entries[] = {
    { "why", 0, 0, G_OPTION_ARG_STRING, &why, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 1, 3, &left, error))
    return FALSE;
  if (!hs_cli_open_book (cli, left[1] == NULL ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || (left[1] != NULL && !answer (cli, job_id, left, why, error)))
    return FALSE;
  return show_sheet (cli, job_id, error);
}
