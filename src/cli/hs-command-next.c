// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `next`: what may be behind a job's complaint, and what to check next, from what was read, said and found. */

#include "hs-cli.h"

#include "hs-job-next.h"
#include "hs-job-op.h"

#include <glib/gi18n.h>

/* More than this is left to --json. */
#define MOST_LINES 6

static void
write_texts (HsJsonOut *out, const char *name, char **texts)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; texts != NULL && texts[i] != NULL; i++)
    hs_json_out_string (out, NULL, texts[i]);
  hs_json_out_end_array (out);
}

static void
write_cause (HsJsonOut *out, const HsNextCause *cause)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "cause", cause->id);
  hs_json_out_string (out, "name", cause->name);
  hs_json_out_real (out, "weight", cause->weight);
  hs_json_out_string (out, "standing", hs_next_standing_id (cause->standing));
  hs_json_out_string (out, "words", hs_next_standing_word (cause->standing));
  write_texts (out, "for", cause->speaks_for);
  write_texts (out, "against", cause->speaks_against);
  hs_json_out_string (out, "source", cause->source);
  hs_json_out_string (out, "own", cause->own);
  hs_json_out_string (out, "repair", cause->repair);
  hs_json_out_real (out, "repair_minutes", cause->repair_minutes);
  hs_json_out_string (out, "reading", cause->reading_id);
  hs_json_out_end_object (out);
}

static void
write_line (HsJsonOut *out, const HsNextLine *line)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, line->is_check ? "check" : "repair", line->id);
  hs_json_out_string (out, "name", line->name);
  hs_json_out_real (out, "expected_minutes", line->expected_minutes);
  hs_json_out_real (out, "minutes", line->minutes);
  write_texts (out, "tells", line->tells);
  hs_json_out_string (out, "source", line->source);
  if (line->is_check)
    {
      hs_json_out_string (out, "caution", line->caution);
      hs_json_out_boolean (out, "again", line->again);
    }
  hs_json_out_end_object (out);
}

static void
write_lines (HsJsonOut *out, const char *name, const HsJobNext *next, gboolean checks)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; i < next->lines->len; i++)
    {
      const HsNextLine *line = g_ptr_array_index (next->lines, i);

      if (line->is_check == checks)
        write_line (out, line);
    }
  hs_json_out_end_array (out);
}

static void
write_offers (HsJsonOut *out, const HsJobNext *next)
{
  hs_json_out_begin_array (out, "offers");
  for (guint i = 0; i < next->offers->len; i++)
    {
      const HsNextOffer *offer = g_ptr_array_index (next->offers, i);

      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "check", offer->check);
      hs_json_out_string (out, "name", offer->name);
      hs_json_out_string (out, "why", offer->why);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
print_json (const HsJobNext *next)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  const HsNextLine *first = next->lines->len > 0 ? g_ptr_array_index (next->lines, 0) : NULL;
  g_autofree char *step = NULL;

  if (first != NULL)
    step = g_strdup_printf (first->is_check ? "check %s" : "repair %s", first->id);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "group", next->group);
  write_texts (out, "groups", next->groups);
  write_texts (out, "models", next->models);
  hs_json_out_string (out, "name", next->name);
  hs_json_out_string (out, "note", next->note);
  hs_json_out_string (out, "nothing", next->nothing);
  hs_json_out_string (out, "trouble", next->trouble);
  hs_json_out_string (out, "battery", next->battery);
  hs_json_out_boolean (out, "exact", next->exact);
  hs_json_out_string (out, "first", step);
  if (next->list_minutes >= 0)
    hs_json_out_real (out, "list_minutes", next->list_minutes);
  else
    hs_json_out_null (out, "list_minutes");
  hs_json_out_real (out, "repairs_only_minutes", next->repairs_minutes);
  hs_json_out_begin_array (out, "causes");
  for (guint i = 0; i < next->causes->len; i++)
    write_cause (out, g_ptr_array_index (next->causes, i));
  hs_json_out_end_array (out);
  write_lines (out, "checks", next, TRUE);
  write_lines (out, "repairs", next, FALSE);
  write_offers (out, next);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_line (const HsNextLine *line)
{
  g_autofree char *tells = line->tells != NULL ? g_strjoinv (" · ", line->tells) : NULL;

  hs_cli_print (line->is_check ? "%8.0f  %s\n" : _("%8.0f  repair: %s\n"), line->expected_minutes,
                hs_cli_data (line->name));
  if (line->again)
    hs_cli_print ("          %s\n", _("there is power again"));
  if (tells != NULL && *tells != '\0')
    hs_cli_print ("          %s\n", tells);
  if (line->caution != NULL)
    hs_cli_print (_("          caution: %s\n"), hs_cli_data (line->caution));
}

static void
print_lines (const HsJobNext *next)
{
  if (next->lines->len == 0)
    return;
  hs_cli_print (_("\nNext, by expected minutes until the complaint is gone:\n"));
  for (guint i = 0; i < next->lines->len && i < MOST_LINES; i++)
    print_line (g_ptr_array_index (next->lines, i));
  if (next->list_minutes >= 0)
    hs_cli_print (_("%8.0f  the rest of the list in its order, then repairs\n"), next->list_minutes);
  hs_cli_print (_("%8.0f  repairs alone, in their best order\n"), next->repairs_minutes);
}

static void
print_evidence (const char *heading, char **texts)
{
  for (guint i = 0; texts != NULL && texts[i] != NULL; i++)
    {
      g_autofree char *text = hs_cli_one_line (texts[i]);

      hs_cli_print ("              %s %s\n", heading, text);
    }
}

static void
print_cause (const HsNextCause *cause)
{
  g_autofree char *word = hs_cli_pad (hs_cli_data (hs_next_standing_word (cause->standing)), 13);

  hs_cli_print ("%s %s (%s%s%s)\n", word, hs_cli_data (cause->name), hs_cli_data (cause->source),
                cause->own != NULL ? "; " : "", cause->own != NULL ? cause->own : "");
  print_evidence (_("for:"), cause->speaks_for);
  print_evidence (_("against:"), cause->speaks_against);
}

static void
print_text (const HsJobNext *next)
{
  if (next->trouble != NULL)
    hs_cli_print ("%s\n", next->trouble);
  if (next->name != NULL)
    hs_cli_print ("%s\n", hs_cli_data (next->name));
  if (next->nothing != NULL)
    hs_cli_print ("%s\n", next->nothing);
  for (guint i = 0; i < next->causes->len; i++)
    print_cause (g_ptr_array_index (next->causes, i));
  print_lines (next);
  if (next->battery != NULL)
    hs_cli_print ("%s\n", next->battery);
  for (guint i = 0; i < next->offers->len; i++)
    {
      const HsNextOffer *offer = g_ptr_array_index (next->offers, i);

      hs_cli_print ("%s: %s\n", hs_cli_data (offer->name), offer->why);
    }
  for (guint i = 1; next->groups[0] != NULL && next->groups[i] != NULL; i++)
    hs_cli_print (_("Another complaint of this job: --group %s\n"), next->groups[i]);
}

typedef struct
{
  char *group;
  char *also;
  char *is_it;
  char *is_not;
  char *seen;
} Asked;

static void
asked_clear (Asked *asked)
{
  g_free (asked->group);
  g_free (asked->also);
  g_free (asked->is_it);
  g_free (asked->is_not);
  g_free (asked->seen);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

static gboolean
write_down (HsCli *cli, const Asked *asked, const char *job_id, GError **error)
{
  const char *cause = asked->is_it != NULL ? asked->is_it : asked->is_not;
  g_autofree char *finding = NULL;

  if (asked->also != NULL && !hs_job_add_symptom (cli->book, job_id, asked->also, cli->now, error))
    return FALSE;
  if (cause == NULL)
    return TRUE;
  finding = hs_job_name_cause (cli->book, job_id, asked->group, cause, asked->is_it != NULL, asked->seen, cli->now,
                               error);
  return finding != NULL;
}

gboolean
hs_command_next (HsCli *cli, char **words, GError **error)
{
  g_auto (Asked) asked = { 0 };
  const GOptionEntry entries[] = {
    { "group", 0, 0, G_OPTION_ARG_STRING, &asked.group, NULL, NULL },
    { "also", 0, 0, G_OPTION_ARG_STRING, &asked.also, NULL, NULL },
    { "is", 0, 0, G_OPTION_ARG_STRING, &asked.is_it, NULL, NULL },
    { "not", 0, 0, G_OPTION_ARG_STRING, &asked.is_not, NULL, NULL },
    { "seen", 0, 0, G_OPTION_ARG_STRING, &asked.seen, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  g_autofree char *job_id = NULL;
  g_autoptr (HsJobNext) next = NULL;
  gboolean writes;

  if (!hs_cli_parse (words, entries, 1, 1, &left, error))
    return FALSE;
  if (asked.is_it != NULL && asked.is_not != NULL)
    return hs_cli_usage (error, _("a cause is it or it is not: --is or --not"));
  if (asked.seen != NULL && asked.is_it == NULL && asked.is_not == NULL)
    return hs_cli_usage (error, _("--seen is what shows a cause: it goes with --is or --not"));
  writes = asked.also != NULL || asked.is_it != NULL || asked.is_not != NULL;
  if (!hs_cli_open_book (cli, writes ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || !write_down (cli, &asked, job_id, error))
    return FALSE;
  next = hs_job_next_load (cli->book, job_id, asked.group != NULL ? asked.group : asked.also, cli->now, error);
  if (next == NULL)
    return FALSE;
  if (cli->json)
    print_json (next);
  else
    print_text (next);
  return TRUE;
}
