// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `stage`: what is still to do before a job is tested good, moving it to a stage, and why it could not be proven. */

#include "hs-cli.h"

#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-repair-out.h"
#include "hs-roll-op.h"

#include <glib/gi18n.h>

static gboolean
refuse_leave (GError **error)
{
  return hs_cli_usage (error, _("--leave-open goes with the stages rolling and on_site alone"));
}

gboolean
hs_cli_move_stage (HsCli *cli, const char *job_id, HsStage to, const char *reason, gboolean leave, GError **error)
{
  g_autoptr (GError) local = NULL;
  if (to != HS_STAGE_ROLLING && to != HS_STAGE_ON_SITE)
    return leave ? refuse_leave (error) : hs_job_move_stage (cli->book, job_id, to, reason, cli->now, error);
  if ((to == HS_STAGE_ROLLING ? hs_roll : hs_arrive) (cli->book, job_id, reason, leave, cli->now, &local))
    return TRUE;
  if (g_error_matches (local, HS_OPS_ERROR, HS_OPS_ERROR_LEAVES_OPEN))
    g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_LEAVES_OPEN,
                 to == HS_STAGE_ROLLING ? _("%s --leave-open does that and rolls.")
                                        : _("%s --leave-open does that and begins here."),
                 local->message);
  else
    g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

/* Without a stage the reason is written down alone; an empty one takes it away. */
static gboolean
write_down (HsCli *cli, const char *job_id, const char *stage, const char *because, gboolean leave, GError **error)
{
  g_autoptr (GError) local = NULL;
  HsStage to;
  if (stage == NULL && leave)
    return refuse_leave (error);
  if (stage == NULL)
    return because == NULL || hs_job_set_unproved (cli->book, job_id, because, cli->now, error);
  if (!hs_stage_parse (stage, &to, &local))
    return hs_cli_usage (error, "%s", local->message);
  return hs_cli_move_stage (cli, job_id, to, because, leave, error);
}

gboolean
hs_command_stage (HsCli *cli, char **words, GError **error)
{
  g_autofree char *because = NULL;
  gboolean leave = FALSE;
  const GOptionEntry entries[] = {
    { "because", 0, 0, G_OPTION_ARG_STRING, &because, NULL, NULL },
    { "leave-open", 0, 0, G_OPTION_ARG_NONE, &leave, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  g_autofree char *job_id = NULL;
  if (!hs_cli_parse (words, entries, 1, 2, &left, error)
      || !hs_cli_open_book (cli, left[1] != NULL || because != NULL ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  job_id = hs_job_find (cli->book, left[0], error);
  return job_id != NULL && write_down (cli, job_id, left[1], because, leave, error)
         && hs_repair_out_show (cli, job_id, error);
}
