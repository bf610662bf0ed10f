// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `note`: what is known of the model of a job's vehicle, and what was learned of it now. */

#include "hs-cli.h"

#include "hs-job-op.h"
#include "hs-model-note-op.h"

#include <glib/gi18n.h>

typedef struct
{
  char *topic, *years;
  int remove;
} Asked;

static void
write_note (HsJsonOut *out, const HsModelNote *note)
{
  g_autofree char *at = hs_instant_format (note->at);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "topic", note->topic);
  hs_json_out_string (out, "words", note->words);
  hs_json_out_string (out, "years", note->years);
  hs_json_out_string (out, "job", note->number);
  hs_json_out_string (out, "at", at);
  hs_json_out_end_object (out);
}

static void
print_note (guint number, const HsModelNote *note)
{
  g_autofree char *words = hs_cli_one_line (note->words);
  hs_cli_print (note->years != NULL ? "%u  %s: %s (%s)\n" : "%u  %s: %s\n", number, note->topic_word, words,
                note->years);
}

static gboolean
show_notes (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) notes = hs_model_note_list (cli->book, job_id, error);
  if (notes == NULL)
    return FALSE;
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; i < notes->len; i++)
    if (cli->json)
      write_note (out, g_ptr_array_index (notes, i));
    else
      print_note (i + 1, g_ptr_array_index (notes, i));
  hs_json_out_end_array (out);
  if (cli->json)
    hs_cli_print_json (out);
  else if (notes->len == 0)
    hs_cli_print ("%s\n", _("no note on this model"));
  return TRUE;
}

/* Notes are named by the number that they are listed under. */
static gboolean
remove_note (HsCli *cli, const char *job_id, int number, GError **error)
{
  g_autoptr (GPtrArray) notes = hs_model_note_list (cli->book, job_id, error);
  if (notes == NULL)
    return FALSE;
  if (number < 1 || (guint) number > notes->len)
    return hs_cli_usage (error, _("there is no note %d on this model"), number);
  const HsModelNote *note = g_ptr_array_index (notes, number - 1);
  return hs_model_note_remove (cli->book, job_id, note->id, cli->now, error);
}

static gboolean
change (HsCli *cli, const char *job_id, const char *words, const Asked *asked, GError **error)
{
  if (asked->remove != 0)
    return remove_note (cli, job_id, asked->remove, error);
  HsModelNoteEntry entry = { .topic = asked->topic, .words = words, .years = asked->years };
  g_autofree char *id = hs_model_note_add (cli->book, job_id, &entry, cli->now, error);
  return id != NULL;
}

gboolean
hs_command_note (HsCli *cli, char **words, GError **error)
{
  Asked asked = { 0 };
  const GOptionEntry entries[] = {
    { "topic", 0, 0, G_OPTION_ARG_STRING, &asked.topic, NULL, NULL },
    { "years", 0, 0, G_OPTION_ARG_STRING, &asked.years, NULL, NULL },
    { "remove", 0, 0, G_OPTION_ARG_INT, &asked.remove, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  gboolean parsed = hs_cli_parse (words, entries, 1, 2, &left, error);
  g_autofree char *topic = asked.topic;
  g_autofree char *years = asked.years;
  if (!parsed)
    return FALSE;
  if (left[1] != NULL && asked.remove != 0)
    return hs_cli_usage (error, _("a note is written or removed, not both"));
  if (left[1] == NULL && (topic != NULL || years != NULL))
    return hs_cli_usage (error, _("the note's words are missing"));
  gboolean writes = left[1] != NULL || asked.remove != 0;
  if (!hs_cli_open_book (cli, writes ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || (writes && !change (cli, job_id, left[1], &asked, error)))
    return FALSE;
  return show_notes (cli, job_id, error);
}
