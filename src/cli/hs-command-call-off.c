// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `call-off`: a job that comes to nothing, with its fee and its reason. */

#include "hs-cli.h"

#include "hs-call-off.h"
#include "hs-job-op.h"
#include "hs-money.h"

#include <glib/gi18n.h>

static gboolean
read_fee (HsCli *cli, const char *how, const char *text, gint64 *ret_cents, GError **error)
{
  if (text == NULL)
    return hs_call_off_fee (cli->book, how, ret_cents, error);
  return hs_money_parse (text, hs_book_get_currency (cli->book), ret_cents, error);
}

gboolean
hs_command_call_off (HsCli *cli, char **words, GError **error)
{
  g_autofree char *fee = NULL;
  g_autofree char *reason = NULL;
  const GOptionEntry entries[] = {
    { "fee", 0, 0, G_OPTION_ARG_STRING, &fee, NULL, NULL },
    { "reason", 0, 0, G_OPTION_ARG_STRING, &reason, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  gint64 cents;
  if (!hs_cli_parse (words, entries, 2, 2, &left, error) || !hs_cli_open_book (cli, HS_BOOK_WRITE, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || !read_fee (cli, left[1], fee, &cents, error)
      || !hs_job_call_off (cli->book, job_id, left[1], cents, reason, cli->now, error))
    return FALSE;
  g_autofree char *owed = hs_cli_money_text (cli, cents);
  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "stage", hs_stage_id (HS_STAGE_CALLED_OFF));
      hs_json_out_integer (out, "fee_cents", cents);
      hs_json_out_end_object (out);
      hs_cli_print_json (out);
    }
  else if (cents > 0)
    hs_cli_print (_("called off; the fee is %s\n"), owed);
  else
    hs_cli_print ("%s\n", _("called off; no fee"));
  return TRUE;
}
