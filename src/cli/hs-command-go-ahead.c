// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `go-ahead`: shows how far the customer's yes goes, writes a new one down, or says what a line would bring it to. */

#include "hs-choice-out.h"

#include "hs-job-op.h"
#include "hs-money.h"

#include <glib/gi18n.h>

static gboolean
show (HsCli *cli, const char *job_id, const char *kind, gint64 net_cents, GError **error)
{
  g_autoptr (HsJobChoices) job = hs_job_choices_load (cli->book, job_id, cli->now, error);
  g_autoptr (HsGoAheadRoom) room = NULL;
  if (job == NULL)
    return FALSE;
  room = hs_go_ahead_check (cli->book, job_id, kind, net_cents, cli->now, error);
  if (room == NULL)
    return FALSE;
  g_autofree char *words = hs_go_ahead_room_say (cli->book, room);
  if (!cli->json)
    {
      hs_choice_out_print_go_aheads (cli, job);
      hs_cli_print ("%s\n", words);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_choice_out_write_room (out, NULL, job, room, words);
  hs_cli_print_json (out);
  return TRUE;
}

static gboolean
read_cents (HsCli *cli, const char *text, gint64 *ret_cents, GError **error)
{
  g_autoptr (GError) local = NULL;
  if (hs_money_parse (text, hs_book_get_currency (cli->book), ret_cents, &local))
    return TRUE;
  return hs_cli_usage (error, "%s", local->message);
}

static gboolean
give (HsCli *cli, const char *job_id, const char *ceiling, const char *by, const char *means, GError **error)
{
  HsGoAheadEntry entry = { .by = by, .means = means };
  return read_cents (cli, ceiling, &entry.ceiling_cents, error)
         && hs_go_ahead_give (cli->book, job_id, &entry, cli->now, error);
}

gboolean
hs_command_go_ahead (HsCli *cli, char **words, GError **error)
{
  g_autofree char *by = NULL, *means = NULL, *would = NULL, *kind = NULL;
  gint64 net_cents = 0;
  const GOptionEntry entries[] = {
    { "by", 0, 0, G_OPTION_ARG_STRING, &by, NULL, NULL },
    { "means", 0, 0, G_OPTION_ARG_STRING, &means, NULL, NULL },
    { "would", 0, 0, G_OPTION_ARG_STRING, &would, NULL, NULL },
    { "kind", 0, 0, G_OPTION_ARG_STRING, &kind, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 1, 2, &left, error))
    return FALSE;
  if (left[1] != NULL && would != NULL)
    return hs_cli_usage (error, _("--would asks, a ceiling is written down; name one of them"));
  if (left[1] == NULL && (by != NULL || means != NULL))
    return hs_cli_usage (error, _("up to how much? name the ceiling"));
  if (left[1] != NULL && by != NULL && means == NULL)
    return hs_cli_usage (error, _("how did the yes come? say so with --means: in_person, phone, text or email"));
  if (would == NULL && kind != NULL)
    return hs_cli_usage (error, _("--kind goes with --would"));
  if (!hs_cli_open_book (cli, left[1] == NULL ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || (would != NULL && !read_cents (cli, would, &net_cents, error)))
    return FALSE;
  if (left[1] != NULL && !give (cli, job_id, left[1], by, means, error))
    return FALSE;
  return show (cli, job_id, would == NULL ? NULL : kind != NULL ? kind : "part", net_cents, error);
}
