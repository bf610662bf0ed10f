// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `disturbed`: what the repair disturbed, and the list that is gone through because of it before leaving. Alone it
 * shows the list and what can be picked. */

#include "hs-cli.h"

#include "hs-job-op.h"
#include "hs-repair-out.h"
#include "hs-text.h"

#include <glib/gi18n.h>

typedef struct
{
  char *found;
  gboolean done, open, remove;
} Asked;

/* Its number in the list as it is shown, or its words. */
static const HsAfterLine *
find_line (const HsRepair *repair, const char *text)
{
  g_autofree char *wanted = hs_text_fold (text);
  guint64 number;
  if (g_ascii_string_to_unsigned (wanted, 10, 1, G_MAXUINT, &number, NULL))
    return number <= repair->looks->len ? g_ptr_array_index (repair->looks, (guint) number - 1) : NULL;
  for (guint i = 0; i < repair->looks->len; i++)
    {
      const HsAfterLine *line = g_ptr_array_index (repair->looks, i);
      g_autofree char *what = hs_text_fold (line->what);
      if (g_str_equal (what, wanted))
        return line;
    }
  return NULL;
}

static gboolean
alter_line (HsCli *cli, const char *job_id, const char *text, const Asked *asked, GError **error)
{
  g_autoptr (HsRepair) repair = hs_repair_load (cli->book, job_id, NULL, cli->now, error);
  const HsAfterLine *line;
  if (repair == NULL)
    return FALSE;
  line = find_line (repair, text);
  if (line == NULL)
    return hs_cli_usage (error, _("there is no line “%s” on the list of this job"), text);
  if (asked->remove)
    return hs_disturbed_remove (cli->book, line->id, cli->now, error);
  return hs_disturbed_tick (cli->book, line->id, !asked->open, asked->found, cli->now, error);
}

/* What can be picked, each with its number. */
static gboolean
print_places (GError **error)
{
  g_autoptr (HsAfterList) list = hs_data_load_after (error);
  const HsAfterPlace *place;
  if (list == NULL)
    return FALSE;
  hs_cli_print ("%s\n", _("What can be picked by its number:"));
  for (guint i = 0; (place = hs_after_list_get_nth (list, i)) != NULL; i++)
    hs_cli_print ("  %2u  %s\n", i + 1, place->name);
  return TRUE;
}

static gboolean
run (HsCli *cli, char **left, const Asked *asked, GError **error)
{
  gboolean alters = asked->done || asked->open || asked->remove || asked->found != NULL;
  g_autofree char *job_id = NULL;
  if (left[1] == NULL && alters)
    return hs_cli_usage (error, _("say which line: by its number in the list, or by its words"));
  if (!hs_cli_open_book (cli, left[1] != NULL ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL)
    return FALSE;
  if (alters && !alter_line (cli, job_id, left[1], asked, error))
    return FALSE;
  if (!alters && left[1] != NULL && !hs_disturbed_add (cli->book, job_id, left[1], cli->now, NULL, error))
    return FALSE;
  return hs_repair_out_show (cli, job_id, error) && (cli->json || left[1] != NULL || print_places (error));
}

gboolean
hs_command_disturbed (HsCli *cli, char **words, GError **error)
{
  Asked asked = { 0 };
  const GOptionEntry entries[] = {
    { "done", 0, 0, G_OPTION_ARG_NONE, &asked.done, NULL, NULL },
    { "found", 0, 0, G_OPTION_ARG_STRING, &asked.found, NULL, NULL },
    { "open", 0, 0, G_OPTION_ARG_NONE, &asked.open, NULL, NULL },
    { "remove", 0, 0, G_OPTION_ARG_NONE, &asked.remove, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  gboolean done = hs_cli_parse (words, entries, 1, 2, &left, error);
  if (done && asked.done + asked.open + asked.remove > 1)
    done = hs_cli_usage (error, _("one at a time: --done, --open or --remove"));
  done = done && run (cli, left, &asked, error);
  g_free (asked.found);
  return done;
}
