// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `visit`: the visits of a job with its labor clock, which can be stopped and started here. */

#include "hs-cli.h"

#include "hs-arrive-out.h"
#include "hs-job-op.h"

#include <glib/gi18n.h>

static void
print_stamp (HsCli *cli, const char *word, HsInstant at)
{
  g_autofree char *clock = at != HS_INSTANT_NONE ? hs_cli_clock_text (cli, at) : NULL;
  if (clock != NULL)
    hs_cli_print ("  %s %s", word, clock);
}

static void
print_view (HsCli *cli, guint number, const HsVisitView *view)
{
  g_autofree char *note = hs_cli_one_line (view->safe_note);
  hs_cli_print ("%u", number);
  print_stamp (cli, _("rolling"), view->rolling_at);
  print_stamp (cli, _("arrived"), view->arrived_at);
  print_stamp (cli, _("left"), view->left_at);
  if (view->arrived_at != HS_INSTANT_NONE)
    hs_cli_print (_("  %d min on the clock"), hs_cli_minutes (view->seconds));
  print_stamp (cli, _("stopped at"), view->paused_at);
  hs_cli_print (view->safe_note != NULL ? "  %s\n" : "%s\n", note);
}

static gboolean
show_visits (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) views = hs_visit_view_list (cli->book, job_id, cli->now, error);
  if (views == NULL)
    return FALSE;
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; i < views->len; i++)
    if (cli->json)
      hs_visit_out_write (out, NULL, g_ptr_array_index (views, i));
    else
      print_view (cli, i + 1, g_ptr_array_index (views, i));
  hs_json_out_end_array (out);
  if (cli->json)
    hs_cli_print_json (out);
  else if (views->len == 0)
    hs_cli_print ("%s\n", _("no visit yet"));
  return TRUE;
}

static gboolean
read_minutes (const char *text, gint64 *ret_minutes, GError **error)
{
  guint64 minutes;
  if (text == NULL)
    return hs_cli_usage (error, _("how many minutes? say the number"));
  if (!g_ascii_string_to_unsigned (text, 10, 0, G_MAXINT32, &minutes, NULL))
    return hs_cli_usage (error, _("“%s” are no minutes; say a whole number, 0 for none"), text);
  *ret_minutes = (gint64) minutes;
  return TRUE;
}

gboolean
hs_command_visit (HsCli *cli, char **words, GError **error)
{
  g_auto (GStrv) left = NULL;
  gint64 minutes = 0;
  if (!hs_cli_parse (words, NULL, 1, 3, &left, error))
    return FALSE;
  gboolean set = g_strcmp0 (left[1], "minutes") == 0;
  gboolean pause = g_strcmp0 (left[1], "pause") == 0;
  gboolean resume = g_strcmp0 (left[1], "resume") == 0;
  if (left[1] != NULL && !pause && !resume && !set)
    return hs_cli_usage (error, _("“%s” is neither pause nor resume nor minutes"), left[1]);
  if (set && !read_minutes (left[2], &minutes, error))
    return FALSE;
  if (left[1] != NULL && !set && left[2] != NULL)
    return hs_cli_usage (error, _("“%s” is one word too many"), left[2]);
  if (!hs_cli_open_book (cli, left[1] == NULL ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || (pause && !hs_visit_pause (cli->book, job_id, cli->now, error))
      || (resume && !hs_visit_resume (cli->book, job_id, cli->now, error))
      || (set && !hs_visit_set_minutes (cli->book, job_id, minutes, cli->now, error)))
    return FALSE;
  return show_visits (cli, job_id, error);
}
