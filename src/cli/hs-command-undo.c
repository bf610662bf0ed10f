// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `undo`: takes back the last step of a job, does it again, or lists the steps. */

#include "hs-cli.h"

#include "hs-job-op.h"
#include "hs-undo.h"

#include <glib/gi18n.h>

static void
write_instant (HsJsonOut *out, const char *name, HsInstant at)
{
  g_autofree char *text = at == HS_INSTANT_NONE ? NULL : hs_instant_format (at);
  if (text == NULL)
    hs_json_out_null (out, name);
  else
    hs_json_out_string (out, name, text);
}

static void
write_step (HsJsonOut *out, const HsUndoStep *step)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "what", step->what);
  write_instant (out, "at", step->at);
  write_instant (out, "undone_at", step->undone_at);
  hs_json_out_string (out, "clock_kept", step->kept);
  hs_json_out_end_object (out);
}

static void
print_step (HsCli *cli, const HsUndoStep *step)
{
  g_autofree char *clock = hs_cli_clock_text (cli, step->at);
  g_autofree char *what = hs_cli_one_line (step->what);
  hs_cli_print ("%s  %s%s\n", clock, what, step->undone_at == HS_INSTANT_NONE ? "" : _(" (undone)"));
}

static gboolean
list_steps (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) steps = NULL;
  if (!hs_undo_list (hs_book_get_store (cli->book), job_id, &steps, error))
    return FALSE;
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; i < steps->len; i++)
    if (cli->json)
      write_step (out, g_ptr_array_index (steps, i));
    else
      print_step (cli, g_ptr_array_index (steps, i));
  hs_json_out_end_array (out);
  if (cli->json)
    hs_cli_print_json (out);
  else if (steps->len == 0)
    hs_cli_print ("%s\n", _("nothing to undo"));
  return TRUE;
}

static gboolean
turn (HsCli *cli, const char *job_id, gboolean again, GError **error)
{
  HsStore *store = hs_book_get_store (cli->book);
  g_autoptr (HsUndoStep) step = NULL;
  if (again ? !hs_undo_again (store, job_id, cli->now, &step, error)
            : !hs_undo_last (store, job_id, cli->now, &step, error))
    return FALSE;
  if (!cli->json)
    {
      g_autofree char *what = hs_cli_one_line (step->what);
      hs_cli_print (again ? _("done again: %s\n") : _("undone: %s\n"), what);
      if (step->kept != NULL)
        hs_cli_print (_("The labor clock of what is squared up stays as it is: %s\n"), step->kept);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  write_step (out, step);
  hs_cli_print_json (out);
  return TRUE;
}

gboolean
hs_command_undo (HsCli *cli, char **words, GError **error)
{
  gboolean list = FALSE;
  gboolean again = FALSE;
  const GOptionEntry entries[] = {
    { "list", 0, 0, G_OPTION_ARG_NONE, &list, NULL, NULL },
    { "again", 0, 0, G_OPTION_ARG_NONE, &again, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 1, 1, &left, error))
    return FALSE;
  if (list && again)
    return hs_cli_usage (error, _("--list and --again do not go together"));
  if (!hs_cli_open_book (cli, list ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL)
    return FALSE;
  return list ? list_steps (cli, job_id, error) : turn (cli, job_id, again, error);
}
