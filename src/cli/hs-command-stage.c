// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `stage`: what is still to do before a job is tested good, moving it to a stage, and why it could not be proven. */

#include "hs-cli.h"

#include "hs-job-op.h"
#include "hs-repair-out.h"

#include <glib/gi18n.h>

/* Without a stage the reason is written down alone; an empty one takes it away. */
static gboolean
write_down (HsCli *cli, const char *job_id, const char *stage, const char *because, GError **error)
{
  g_autoptr (GError) local = NULL;
  HsStage to;
  if (stage == NULL)
    return because == NULL || hs_job_set_unproved (cli->book, job_id, because, cli->now, error);
  if (!hs_stage_parse (stage, &to, &local))
    return hs_cli_usage (error, "%s", local->message);
  return hs_job_move_stage (cli->book, job_id, to, because, cli->now, error);
}

gboolean
hs_command_stage (HsCli *cli, char **words, GError **error)
{
  g_autofree char *because = NULL;
  const GOptionEntry entries[] = {
    { "because", 0, 0, G_OPTION_ARG_STRING, &because, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  g_autofree char *job_id = NULL;
  if (!hs_cli_parse (words, entries, 1, 2, &left, error)
      || !hs_cli_open_book (cli, left[1] != NULL || because != NULL ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  job_id = hs_job_find (cli->book, left[0], error);
  return job_id != NULL && write_down (cli, job_id, left[1], because, error)
         && hs_repair_out_show (cli, job_id, error);
}
