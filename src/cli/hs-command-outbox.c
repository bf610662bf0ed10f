// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `outbox`: what is not posted yet, since when and why; tries it again, drops it, or shows the message itself. */

#include "hs-cli.h"

#include "hs-cli-post.h"
#include "hs-job-op.h"
#include "hs-post-op.h"

#include <glib/gi18n.h>

/* More lines nobody reads; how many there are is said. A program that asks gets all. */
#define MOST_LISTED 1000

static void
write_instant (HsJsonOut *out, const char *name, HsInstant at)
{
  g_autofree char *text = at == HS_INSTANT_NONE ? NULL : hs_instant_format (at);

  hs_json_out_string (out, name, text);
}

static void
write_unsent (HsJsonOut *out, const HsPostUnsent *unsent)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "job", unsent->number);
  hs_json_out_string (out, "id", unsent->job_id);
  hs_json_out_string (out, "customer", unsent->customer);
  hs_json_out_integer (out, "revision", unsent->revision);
  hs_json_out_string (out, "state", unsent->parked ? "parked" : "waiting");
  write_instant (out, "since", unsent->since);
  hs_json_out_integer (out, "tries", unsent->tries);
  write_instant (out, "next_at", unsent->next_at);
  hs_json_out_string (out, "why", unsent->why);
  hs_json_out_string (out, "said", unsent->said);
  hs_json_out_end_object (out);
}

static void
write_overview (const HsPostOverview *overview)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();

  hs_json_out_begin_object (out, NULL);
  hs_json_out_boolean (out, "on", overview->on);
  write_instant (out, "paused_at", overview->paused_at);
  write_instant (out, "hold_until", overview->hold_until);
  hs_json_out_string (out, "why", overview->why);
  hs_json_out_string (out, "said", overview->said);
  hs_json_out_integer (out, "waiting", overview->sums.waiting);
  hs_json_out_integer (out, "parked", overview->sums.parked);
  hs_json_out_begin_array (out, "unsent");
  for (guint i = 0; i < overview->unsent->len; i++)
    write_unsent (out, g_ptr_array_index (overview->unsent, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static char *
dup_moment (HsCli *cli, HsInstant at)
{
  return hs_instant_format_local (hs_book_get_zone (cli->book), at);
}

static void
print_unsent (HsCli *cli, const HsPostUnsent *unsent)
{
  g_autofree char *since = dup_moment (cli, unsent->since);
  g_autofree char *said = hs_cli_one_line (unsent->said);

  hs_cli_print (unsent->parked ? _("%s  parked, since %s") : _("%s  waits, since %s"), unsent->number, since);
  if (unsent->why != NULL)
    hs_cli_print ("  %s", unsent->why);
  hs_cli_print ("%s%s\n", *said == '\0' ? "" : "  ", said);
}

static void
print_queue (HsCli *cli, const HsPostOverview *overview)
{
  g_autofree char *said = hs_cli_one_line (overview->said);
  g_autofree char *until = NULL;

  if (!hs_cli_post_is_built_in ())
    hs_cli_print ("%s\n", _("this build does not post"));
  else if (!overview->on)
    hs_cli_print ("%s\n", _("posting is off on this machine"));
  if (overview->paused_at != HS_INSTANT_NONE)
    hs_cli_print (_("paused: %s\n"), overview->why);
  else if (overview->hold_until != HS_INSTANT_NONE && overview->hold_until > cli->now)
    {
      until = dup_moment (cli, overview->hold_until);
      hs_cli_print (_("held until %s: %s\n"), until, overview->why);
    }
  else
    return;
  if (*said != '\0')
    hs_cli_print ("  %s\n", said);
}

static gboolean
show (HsCli *cli, GError **error)
{
  static const HsTongue tongue = { gettext, ngettext };
  g_autoptr (HsPostOverview) overview = hs_post_overview_load (cli->book, cli->json ? G_MAXUINT : MOST_LISTED, &tongue,
                                                               error);
  gint64 more;

  if (overview == NULL)
    return FALSE;
  if (cli->json)
    {
      write_overview (overview);
      return TRUE;
    }
  print_queue (cli, overview);
  for (guint i = 0; i < overview->unsent->len; i++)
    print_unsent (cli, g_ptr_array_index (overview->unsent, i));
  more = overview->sums.waiting + overview->sums.parked - overview->unsent->len;
  if (more > 0)
    hs_cli_print (ngettext ("and %d more\n", "and %d more\n", (gulong) more), (int) more);
  if (overview->unsent->len == 0)
    hs_cli_print ("%s\n", _("nothing waits to be posted"));
  return TRUE;
}

static gboolean
print_body (HsCli *cli, const char *job_id, GError **error)
{
  g_autofree char *body = hs_post_preview (cli->book, job_id, cli->now, error);

  g_autofree char *harmless = NULL;

  if (body == NULL)
    return FALSE;
  harmless = hs_json_out_harmless (body);
  hs_cli_print ("%s\n", harmless);
  return TRUE;
}

gboolean
hs_command_outbox (HsCli *cli, char **words, GError **error)
{
  gboolean retry = FALSE;
  gboolean drop = FALSE;
  gboolean body = FALSE;
  const GOptionEntry entries[] = {
    { "retry", 0, 0, G_OPTION_ARG_NONE, &retry, NULL, NULL },
    { "drop", 0, 0, G_OPTION_ARG_NONE, &drop, NULL, NULL },
    { "body", 0, 0, G_OPTION_ARG_NONE, &body, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  g_autofree char *job_id = NULL;

  if (!hs_cli_parse (words, entries, 0, 1, &left, error))
    return FALSE;
  if (retry + drop + body > 1)
    return hs_cli_usage (error, _("one of --retry, --drop and --body at a time"));
  if (left[0] == NULL ? drop || body : !(retry || drop || body))
    return hs_cli_usage (error, _("a job goes with --retry, --drop or --body, and --drop and --body with a job"));
  if (!hs_cli_open_book (cli, retry || drop ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  if (left[0] != NULL && (job_id = hs_job_find (cli->book, left[0], error)) == NULL)
    return FALSE;
  if (retry)
    return hs_post_retry (cli->book, job_id, cli->now, error);
  if (drop)
    return hs_post_drop (cli->book, job_id, cli->now, error);
  return body ? print_body (cli, job_id, error) : show (cli, error);
}
