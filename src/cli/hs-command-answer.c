// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `answer`: what is asked about a job, with its answers, and one answer written down as what somebody said. */

#include "hs-cli.h"

#include "hs-interview-op.h"
#include "hs-job-op.h"

#include <glib/gi18n.h>

/* In the order of HsParkedVerdict. */
static const char *const fits_ids[] = { "fits", "does_not_fit", "cannot_tell" };

static void
write_line (HsJsonOut *out, const HsAnswerLine *line)
{
  g_autofree char *at = line->at != HS_INSTANT_NONE ? hs_instant_format (line->at) : NULL;
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "id", line->id);
  hs_json_out_string (out, "question", line->words);
  hs_json_out_boolean (out, "phone", line->phone);
  hs_json_out_boolean (out, "again", line->again);
  hs_json_out_begin_array (out, "answers");
  for (guint i = 0; line->answers != NULL && line->answers[i] != NULL; i++)
    hs_json_out_string (out, NULL, line->answers[i]);
  hs_json_out_end_array (out);
  hs_json_out_string (out, "decides", line->decides);
  hs_json_out_string (out, "answer", line->answer);
  hs_json_out_string (out, "said_by", line->said_by);
  hs_json_out_string (out, "at", at);
  hs_json_out_string (out, "fits", line->fits != NULL ? fits_ids[line->verdict] : NULL);
  hs_json_out_string (out, "fits_why", line->fits);
  hs_json_out_end_object (out);
}

static void
print_line (const HsAnswerLine *line)
{
  g_autofree char *id = hs_cli_pad (line->id != NULL ? line->id : "", 15);
  g_autofree char *answer = hs_cli_one_line (line->answer);
  hs_cli_print ("%s %s\n", id, line->words);
  if (line->answer != NULL)
    hs_cli_print (line->said_by != NULL ? "    “%s”, %s\n" : "    “%s”\n", answer, line->said_by);
  for (guint i = 0; line->answer == NULL && line->answers != NULL && line->answers[i] != NULL; i++)
    hs_cli_print ("    %u %s\n", i + 1, line->answers[i]);
  if (line->fits != NULL)
    hs_cli_print ("    %s\n", line->fits);
}

static gboolean
show_answers (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) lines = hs_job_interview_load (cli->book, job_id, error);
  if (lines == NULL)
    return FALSE;
  if (!cli->json)
    {
      for (guint i = 0; i < lines->len; i++)
        print_line (g_ptr_array_index (lines, i));
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; i < lines->len; i++)
    write_line (out, g_ptr_array_index (lines, i));
  hs_json_out_end_array (out);
  hs_cli_print_json (out);
  return TRUE;
}

gboolean
hs_command_answer (HsCli *cli, char **words, GError **error)
{
  g_autofree char *by = NULL;
  const GOptionEntry entries[] = {
    { "by", 0, 0, G_OPTION_ARG_STRING, &by, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 1, 3, &left, error))
    return FALSE;
  if (left[1] != NULL && left[2] == NULL)
    return hs_cli_usage (error, _("the answer is missing"));
  if (!hs_cli_open_book (cli, left[1] == NULL ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || (left[1] != NULL && !hs_answer_add (cli->book, job_id, left[1], left[2], by, cli->now, error)))
    return FALSE;
  return show_answers (cli, job_id, error);
}
