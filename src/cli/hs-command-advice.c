// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `advice`: shows what was told and picked, writes an option down with its lines, changes it, or writes the customer's
 * answer down. */

#include "hs-choice-out.h"

#include "hs-decimal.h"
#include "hs-job-op.h"
#include "hs-money.h"

#include <glib/gi18n.h>
#include <string.h>

#define MOST_LINES 40

typedef struct
{
  HsCli *cli;
  char *job_id;
  HsJobChoices *job;
  char *group, *rank, *wording, *risk, *answer, *by, *means, *call_on, *ceiling, *earlier, *why;
  char **labor, **parts, **sundries, **discounts;
  gboolean call_out;
  gboolean remove;
  gint without;
  HsChoiceLineEntry lines[MOST_LINES];
  guint n_lines;
  GPtrArray *texts; /* that the lines point to */
} Asked;

static void
asked_clear (Asked *asked)
{
  char **texts[] = { &asked->job_id, &asked->group, &asked->rank,    &asked->wording, &asked->risk,    &asked->answer,
                     &asked->by,     &asked->means, &asked->call_on, &asked->ceiling, &asked->earlier, &asked->why };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_clear_pointer (texts[i], g_free);
  g_strfreev (asked->labor);
  g_strfreev (asked->parts);
  g_strfreev (asked->sundries);
  g_strfreev (asked->discounts);
  g_clear_pointer (&asked->job, hs_job_choices_free);
  g_clear_pointer (&asked->texts, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

static gboolean
load (Asked *asked, GError **error)
{
  g_clear_pointer (&asked->job, hs_job_choices_free);
  asked->job = hs_job_choices_load (asked->cli->book, asked->job_id, asked->cli->now, error);
  return asked->job != NULL;
}

static gboolean
show (Asked *asked, GError **error)
{
  if (!load (asked, error))
    return FALSE;
  if (!asked->cli->json)
    {
      hs_choice_out_print (asked->cli, asked->job);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_choice_out_write (out, asked->job);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
  return TRUE;
}

/* Lines ------------------------------------------------------------------------------------------------------------ */

static gboolean
read_money (const Asked *asked, const char *option, const char *text, gint64 *ret_cents, GError **error)
{
  g_autoptr (GError) local = NULL;
  if (hs_money_parse (text, hs_book_get_currency (asked->cli->book), ret_cents, &local))
    return TRUE;
  return hs_cli_usage (error, "--%s: %s", option, local->message);
}

static HsChoiceLineEntry *
new_line (Asked *asked, GError **error)
{
  if (asked->n_lines == MOST_LINES)
    {
      hs_cli_usage (error, _("at most %d lines at a time"), MOST_LINES);
      return NULL;
    }
  asked->lines[asked->n_lines] = HS_CHOICE_LINE_NONE;
  return &asked->lines[asked->n_lines++];
}

static char *
keep (Asked *asked, char *text)
{
  g_ptr_array_add (asked->texts, g_strstrip (text));
  return text;
}

/* "drive belt=24.00", "BW-55", "plug=15.50x4": a part of the catalog by its number, else in words. */
static gboolean
read_part (Asked *asked, const char *text, GError **error)
{
  HsChoiceLineEntry *line = new_line (asked, error);
  const char *equals = strrchr (text, '=');
  g_autofree char *cost = equals == NULL ? NULL : g_strdup (equals + 1);
  char *times = cost == NULL ? NULL : strchr (cost, 'x');
  char *what = keep (asked, equals == NULL ? g_strdup (text) : g_strndup (text, (gsize) (equals - text)));
  g_autoptr (GError) local = NULL;
  if (line == NULL)
    return FALSE;
  line->kind = "part";
  line->what = what;
  if (times != NULL && !hs_decimal_parse (times + 1, 3, &line->quantity_milli, &local))
    return hs_cli_usage (error, "--part: %s", local->message);
  if (times != NULL)
    *times = '\0';
  return cost == NULL || *cost == '\0' || read_money (asked, "part", cost, &line->cost_cents, error);
}

/* "60", or "pump and belt=165". */
static gboolean
read_labor (Asked *asked, const char *text, GError **error)
{
  HsChoiceLineEntry *line = new_line (asked, error);
  const char *equals = strrchr (text, '=');
  g_autoptr (GError) local = NULL;
  if (line == NULL)
    return FALSE;
  line->kind = "labor";
  if (equals != NULL)
    line->what = keep (asked, g_strndup (text, (gsize) (equals - text)));
  return hs_decimal_parse (equals == NULL ? text : equals + 1, 0, &line->minutes, &local)
         || hs_cli_usage (error, "--labor: %s", local->message);
}

static gboolean
read_priced (Asked *asked, const char *option, const char *text, GError **error)
{
  HsChoiceLineEntry *line = new_line (asked, error);
  const char *equals = strrchr (text, '=');
  if (line == NULL)
    return FALSE;
  if (equals == NULL)
    return hs_cli_usage (error, _("--%s wants WORDS=PRICE"), option);
  line->kind = option;
  line->what = keep (asked, g_strndup (text, (gsize) (equals - text)));
  return read_money (asked, option, equals + 1, &line->price_cents, error);
}

static gboolean
read_lines (Asked *asked, GError **error)
{
  HsChoiceLineEntry *line = asked->call_out ? new_line (asked, error) : NULL;
  if (line != NULL)
    line->kind = "call_out";
  for (guint i = 0; asked->labor != NULL && asked->labor[i] != NULL; i++)
    if (!read_labor (asked, asked->labor[i], error))
      return FALSE;
  for (guint i = 0; asked->parts != NULL && asked->parts[i] != NULL; i++)
    if (!read_part (asked, asked->parts[i], error))
      return FALSE;
  for (guint i = 0; asked->sundries != NULL && asked->sundries[i] != NULL; i++)
    if (!read_priced (asked, "sundry", asked->sundries[i], error))
      return FALSE;
  for (guint i = 0; asked->discounts != NULL && asked->discounts[i] != NULL; i++)
    if (!read_priced (asked, "discount", asked->discounts[i], error))
      return FALSE;
  return TRUE;
}

/* Options ---------------------------------------------------------------------------------------------------------- */

static HsChoiceEntry
entry_of (const Asked *asked, const char *wording)
{
  return (HsChoiceEntry){ .group = asked->group, .rank = asked->rank, .wording = wording, .risk = asked->risk };
}

static gboolean
answer (Asked *asked, const HsChoice *choice, GError **error)
{
  HsChoiceAnswer given = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) local = NULL;
  if (asked->by != NULL && asked->means == NULL && strcmp (asked->answer, "open") != 0)
    return hs_cli_usage (error, _("how did the answer come? say so with --means: in_person, phone, text or email"));
  given.choice = asked->answer;
  given.by = asked->by;
  given.means = asked->means;
  given.risk = asked->risk;
  if (asked->call_on != NULL && !hs_date_parse (asked->call_on, &given.call_on, &local))
    return hs_cli_usage (error, "--call-on: %s", local->message);
  if (asked->ceiling != NULL && !read_money (asked, "ceiling", asked->ceiling, &given.ceiling_cents, error))
    return FALSE;
  return hs_choice_decide (asked->cli->book, choice->id, &given, asked->cli->now, error);
}

static gboolean
take_line_away (Asked *asked, const HsChoice *choice, GError **error)
{
  const HsChoiceLine *line;
  if (asked->without < 1 || (guint) asked->without > choice->lines->len)
    return hs_cli_usage (error, _("there is no line %d in it"), asked->without);
  line = g_ptr_array_index (choice->lines, (guint) asked->without - 1);
  return hs_choice_line_remove (asked->cli->book, line->id, asked->cli->now, error);
}

static gboolean
change (Asked *asked, const HsChoice *choice, GError **error)
{
  HsChoiceEntry entry = entry_of (asked, asked->wording);
  gboolean worded = entry.group != NULL || entry.rank != NULL || entry.wording != NULL || entry.risk != NULL;
  if (!worded && asked->n_lines == 0 && asked->without == 0)
    return hs_cli_usage (error, _("say what about it: --answer, new words or lines, --without or --remove"));
  if (worded && !hs_choice_change (asked->cli->book, choice->id, &entry, asked->cli->now, error))
    return FALSE;
  if (asked->without != 0 && !take_line_away (asked, choice, error))
    return FALSE;
  for (guint i = 0; i < asked->n_lines; i++)
    {
      g_autofree char *id
          = hs_choice_line_add (asked->cli->book, choice->id, &asked->lines[i], asked->cli->now, error);
      if (id == NULL)
        return FALSE;
    }
  return TRUE;
}

static gboolean
add (Asked *asked, const char *wording, GError **error)
{
  HsChoiceEntry entry = entry_of (asked, wording);
  g_autofree char *id = NULL;
  if (asked->remove || asked->answer != NULL || asked->without != 0)
    return hs_cli_usage (error, _("there is no option “%s”; name it by its number"), wording);
  id = hs_choice_add (asked->cli->book, asked->job_id, &entry, asked->lines, asked->n_lines, asked->cli->now, error);
  return id != NULL;
}

/* advice JOB OPTION: an option by its number, or a new one in words. */
static gboolean
one_option (Asked *asked, const char *text, GError **error)
{
  gint64 number;
  gboolean counted = hs_decimal_parse (text, 0, &number, NULL);
  const HsChoice *choice
      = counted && number > 0 && number <= G_MAXUINT ? hs_job_choices_find (asked->job, (guint) number) : NULL;
  if (!read_lines (asked, error))
    return FALSE;
  if (choice == NULL && counted)
    return hs_cli_usage (error, _("there is no option %s on this job"), text);
  if (choice == NULL)
    return add (asked, text, error);
  if (asked->remove)
    return hs_choice_remove (asked->cli->book, choice->id, asked->cli->now, error);
  return asked->answer != NULL ? answer (asked, choice, error) : change (asked, choice, error);
}

static gboolean
follow (Asked *asked, GError **error)
{
  g_autofree char *earlier_id = hs_job_find (asked->cli->book, asked->earlier, error);
  return earlier_id != NULL
         && hs_job_follow (asked->cli->book, asked->job_id, earlier_id,
                           asked->why != NULL ? asked->why : "declined_earlier", asked->cli->now, error);
}

static gboolean
run (Asked *asked, char **left, GError **error)
{
  gboolean writes = left[1] != NULL || asked->earlier != NULL;
  if (!hs_cli_open_book (asked->cli, writes ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  asked->job_id = hs_job_find (asked->cli->book, left[0], error);
  if (asked->job_id == NULL || !load (asked, error))
    return FALSE;
  if (left[1] != NULL && !one_option (asked, left[1], error))
    return FALSE;
  if (asked->earlier != NULL && !follow (asked, error))
    return FALSE;
  return show (asked, error);
}

gboolean
hs_command_advice (HsCli *cli, char **words, GError **error)
{
  g_auto (Asked) asked = { .cli = cli, .texts = g_ptr_array_new_with_free_func (g_free) };
  const GOptionEntry entries[] = {
    { "group", 0, 0, G_OPTION_ARG_STRING, &asked.group, NULL, NULL },
    { "rank", 0, 0, G_OPTION_ARG_STRING, &asked.rank, NULL, NULL },
    { "wording", 0, 0, G_OPTION_ARG_STRING, &asked.wording, NULL, NULL },
    { "risk", 0, 0, G_OPTION_ARG_STRING, &asked.risk, NULL, NULL },
    { "call-out", 0, 0, G_OPTION_ARG_NONE, &asked.call_out, NULL, NULL },
    { "labor", 0, 0, G_OPTION_ARG_STRING_ARRAY, &asked.labor, NULL, NULL },
    { "part", 0, 0, G_OPTION_ARG_STRING_ARRAY, &asked.parts, NULL, NULL },
    { "sundry", 0, 0, G_OPTION_ARG_STRING_ARRAY, &asked.sundries, NULL, NULL },
    { "discount", 0, 0, G_OPTION_ARG_STRING_ARRAY, &asked.discounts, NULL, NULL },
    { "without", 0, 0, G_OPTION_ARG_INT, &asked.without, NULL, NULL },
    { "answer", 0, 0, G_OPTION_ARG_STRING, &asked.answer, NULL, NULL },
    { "by", 0, 0, G_OPTION_ARG_STRING, &asked.by, NULL, NULL },
    { "means", 0, 0, G_OPTION_ARG_STRING, &asked.means, NULL, NULL },
    { "call-on", 0, 0, G_OPTION_ARG_STRING, &asked.call_on, NULL, NULL },
    { "ceiling", 0, 0, G_OPTION_ARG_STRING, &asked.ceiling, NULL, NULL },
    { "remove", 0, 0, G_OPTION_ARG_NONE, &asked.remove, NULL, NULL },
    { "follows", 0, 0, G_OPTION_ARG_STRING, &asked.earlier, NULL, NULL },
    { "why", 0, 0, G_OPTION_ARG_STRING, &asked.why, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  return hs_cli_parse (words, entries, 1, 2, &left, error) && run (&asked, left, error);
}
