// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `reading`: stores what was keyed and says the verdict. "1242" has its check's decimals implied, "/" is over range,
 * "*" could not be measured. What the check is not likely to show is kept with --sure only. */

#include "hs-cli.h"

#include "hs-job-next.h"
#include "hs-job-op.h"
#include "hs-reading-out.h"

#include <glib/gi18n.h>

static gboolean
read_instant (HsCli *cli, const char *text, HsInstant *ret_at, GError **error)
{
  *ret_at = HS_INSTANT_NONE;
  g_autoptr (GError) local = NULL;
  if (text == NULL || hs_instant_parse (text, hs_book_get_zone (cli->book), ret_at, &local))
    return TRUE;
  return hs_cli_usage (error, "--at: %s", local->message);
}
/* Nobody can be asked here: the refusal says how such a figure is kept all the same. */
static void
say_sure (HsCli *cli, const HsReadingEntry *entry, GError **error)
{
  const HsCheck *check = hs_checks_lookup (hs_book_get_checks (cli->book), entry->check);
  g_autoptr (GError) unlikely = NULL;
  HsReading reading;

  if (error == NULL || check == NULL || entry->sure || hs_check_read_pad (check, entry->keyed, &reading, &unlikely)
      || !hs_check_read_pad_sure (check, entry->keyed, &reading, NULL))
    return;
  /* Another fault of the same line is not kept by it. */
  if (!g_str_equal (unlikely->message, (*error)->message))
    return;
  g_autofree char *message = g_strdup_printf (_("%s. If the meter does show it, --sure keeps it"), (*error)->message);
  GError *longer = g_error_new_literal ((*error)->domain, (*error)->code, message);
  g_clear_error (error);
  g_propagate_error (error, longer);
}

/* What is best next with all that is known, and how that goes with what this reading suggests. */
static gboolean
print_best (HsCli *cli, const char *job_id, const HsReadingResult *result, GError **error)
{
  static const HsTongue tongue = { gettext, ngettext };
  if (g_strcmp0 (result->phase, "after") == 0)
    return TRUE;
  g_autoptr (HsJobNext) next = hs_job_next_load (cli->book, job_id, NULL, cli->now, error);
  if (next == NULL)
    return FALSE;
  g_autofree char *beside
    = hs_job_next_beside (next, hs_book_get_checks (cli->book), (const char *const *) result->then, &tongue);
  const HsNextLine *best = next->lines->len > 0 ? g_ptr_array_index (next->lines, 0) : NULL;
  if (best == NULL)
    return TRUE;
  g_autofree char *title = hs_cli_pad (_("best next"), 12);
  g_autofree char *named = best->is_check ? NULL : g_strdup_printf (_("Repair: %s"), hs_cli_data (best->name));
  hs_cli_print (_("    %s %s, %.0f min until fixed\n"), title, named != NULL ? named : hs_cli_data (best->name),
                best->expected_minutes);
  if (beside != NULL)
    hs_cli_print ("    %s\n", beside);
  return TRUE;
}

static gboolean
store_reading (HsCli *cli, const char *number, HsReadingEntry *entry, const char *at, GError **error)
{
  if (!hs_cli_open_book (cli, HS_BOOK_WRITE, error) || !read_instant (cli, at, &entry->at, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, number, error);
  if (job_id == NULL)
    return FALSE;
  g_autoptr (HsReadingResult) result = hs_reading_add (cli->book, job_id, entry, cli->now, error);
  if (result == NULL)
    {
      say_sure (cli, entry, error);
      return FALSE;
    }
  if (!cli->json)
    {
      hs_reading_out_print (result);
      return print_best (cli, job_id, result, error);
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_reading_out_write (out, NULL, result);
  hs_cli_print_json (out);
  return TRUE;
}

gboolean
hs_command_reading (HsCli *cli, char **words, GError **error)
{
  g_autofree char *phase = NULL;
  g_autofree char *place = NULL;
  g_autofree char *unit = NULL;
  g_autofree char *conditions = NULL;
  g_autofree char *why_not = NULL;
  g_autofree char *at = NULL;
  gboolean sure = FALSE;
  const GOptionEntry entries[] = {
    { "phase", 0, 0, G_OPTION_ARG_STRING, &phase, NULL, NULL },
    { "place", 0, 0, G_OPTION_ARG_STRING, &place, NULL, NULL },
    { "unit", 0, 0, G_OPTION_ARG_STRING, &unit, NULL, NULL },
    { "conditions", 0, 0, G_OPTION_ARG_STRING, &conditions, NULL, NULL },
    { "why-not", 0, 0, G_OPTION_ARG_STRING, &why_not, NULL, NULL },
    { "at", 0, 0, G_OPTION_ARG_STRING, &at, NULL, NULL },
    { "sure", 0, 0, G_OPTION_ARG_NONE, &sure, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 3, 3, &left, error))
    return FALSE;
  HsReadingEntry entry = {
    .check = left[1], .keyed = left[2], .unit = unit, .phase = phase != NULL ? phase : "before", .place = place,
    .conditions = conditions, .why_not = why_not, .sure = sure,
  };
  return store_reading (cli, left[0], &entry, at, error);
}
