// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `handover`: whether the vehicle is safe to drive and what its odometer showed, and how long each part is covered. */

#include "hs-cli.h"

#include "hs-decimal.h"
#include "hs-job-op.h"
#include "hs-repair-out.h"

#include <glib/gi18n.h>

static gboolean
write_down (HsCli *cli, const char *job_id, const char *safe, const char *odometer, GError **error)
{
  g_autoptr (GError) local = NULL;
  gint64 value = 0;
  if (odometer != NULL && !hs_decimal_parse (odometer, 0, &value, &local))
    return hs_cli_usage (error, "--odometer: %s", local->message);
  return (safe == NULL || hs_job_set_safe (cli->book, job_id, safe, cli->now, error))
         && (odometer == NULL || hs_job_leave (cli->book, job_id, value, cli->now, error));
}

gboolean
hs_command_handover (HsCli *cli, char **words, GError **error)
{
  g_autofree char *safe = NULL;
  g_autofree char *odometer = NULL;
  const GOptionEntry entries[] = {
    { "safe", 0, 0, G_OPTION_ARG_STRING, &safe, NULL, NULL },
    { "odometer", 0, 0, G_OPTION_ARG_STRING, &odometer, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  g_autofree char *job_id = NULL;
  if (!hs_cli_parse (words, entries, 1, 1, &left, error)
      || !hs_cli_open_book (cli, safe != NULL || odometer != NULL ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  job_id = hs_job_find (cli->book, left[0], error);
  return job_id != NULL && write_down (cli, job_id, safe, odometer, error)
         && hs_repair_out_show (cli, job_id, error);
}
