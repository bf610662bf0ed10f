// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The repair of a job, as JSON and as text: parts with their cover, what is looked after, what is still to do. */

#include "hs-repair-out.h"

#include <glib/gi18n.h>

static void
write_whole (HsJsonOut *out, const char *name, gint64 value)
{
  if (value == HS_INT_NONE || value < 0)
    hs_json_out_null (out, name);
  else
    hs_json_out_integer (out, name, value);
}

static void
write_instant (HsJsonOut *out, const char *name, HsInstant instant)
{
  g_autofree char *text = instant != HS_INSTANT_NONE ? hs_instant_format (instant) : NULL;
  hs_json_out_string (out, name, text);
}

static void
write_part (HsJsonOut *out, const HsFittedPart *part)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "what", part->what);
  hs_json_out_string (out, "number", part->number);
  hs_json_out_string (out, "place", part->place);
  hs_json_out_string (out, "serial", part->serial);
  hs_json_out_string (out, "date_code", part->date_stamp);
  hs_json_out_string (out, "made", part->made);
  hs_json_out_string (out, "maker", part->maker);
  hs_json_out_string (out, "bill", part->bill);
  write_whole (out, "odometer", part->odometer);
  write_whole (out, "months", part->months);
  if (part->millimiles == HS_INT_NONE)
    hs_json_out_null (out, "miles");
  else
    hs_cli_json_miles (out, "miles", part->millimiles);
  hs_json_out_string (out, "why", part->why);
  hs_json_out_string (out, "why_said", part->why_said);
  hs_json_out_string (out, "old_part", part->old_part);
  hs_json_out_boolean (out, "warranty_swap", part->swap);
  hs_json_out_string (out, "cover", part->cover);
  hs_cli_json_date (out, "cover_from", part->cover_from);
  hs_cli_json_date (out, "cover_until", part->cover_until);
  write_whole (out, "cover_odometer", part->cover_odometer);
  hs_cli_json_date (out, "cover_expected", part->cover_expected);
  hs_json_out_end_object (out);
}

static void
write_look (HsJsonOut *out, const HsAfterLine *line)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "what", line->what);
  hs_json_out_string (out, "place", line->place);
  hs_json_out_string (out, "check", line->check);
  hs_json_out_string (out, "caution", line->caution);
  hs_json_out_string (out, "source", line->source);
  write_instant (out, "done_at", line->done_at);
  hs_json_out_string (out, "done_words", line->done_words);
  hs_json_out_end_object (out);
}

static void
write_missing (HsJsonOut *out, const HsProveItem *item)
{
  const HsTongue tongue = { gettext, ngettext };
  g_autofree char *said = hs_prove_say (item, &tongue);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "kind", hs_prove_id (item->kind));
  hs_json_out_boolean (out, "must", item->must);
  hs_json_out_string (out, "said", said);
  hs_json_out_string (out, "check", item->check);
  hs_json_out_string (out, "place", item->place);
  hs_json_out_end_object (out);
}

void
hs_repair_out_write (HsJsonOut *out, const HsRepair *repair)
{
  hs_json_out_begin_array (out, "parts");
  for (guint i = 0; i < repair->parts->len; i++)
    write_part (out, g_ptr_array_index (repair->parts, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "disturbed");
  for (guint i = 0; i < repair->looks->len; i++)
    write_look (out, g_ptr_array_index (repair->looks, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "missing");
  for (guint i = 0; i < repair->missing->len; i++)
    write_missing (out, g_ptr_array_index (repair->missing, i));
  hs_json_out_end_array (out);
  hs_json_out_string (out, "try_check", repair->try_check);
  hs_json_out_string (out, "tried", repair->tried);
  if (repair->tried != NULL)
    hs_json_out_boolean (out, "tried_good", repair->tried_good);
  else
    hs_json_out_null (out, "tried_good");
  hs_json_out_string (out, "not_proven_because", repair->unproved_why);
  hs_json_out_string (out, "safe_to_drive", repair->safe);
}

static void
print_line (const char *title, const char *text)
{
  g_autofree char *padded = hs_cli_pad (title, 10);
  g_autofree char *line = text != NULL ? hs_cli_one_line (text) : NULL;
  if (line != NULL && *line != '\0')
    hs_cli_print ("%s %s\n", padded, line);
}

static void
print_part (const HsFittedPart *part)
{
  g_autofree char *head = hs_cli_join (part->what, part->maker, part->place);
  g_autofree char *number = hs_cli_join (part->serial, part->date_stamp, part->made);
  print_line (_("installed"), head);
  if (part->serial != NULL || part->date_stamp != NULL)
    print_line ("", number);
  print_line ("", part->why_said != NULL ? part->why_said : _("nobody said why the old one went"));
  if (part->old_part != NULL)
    {
      /* Translators: what became of the part that was replaced. */
      g_autofree char *old = g_strdup_printf (_("old part: %s"),
                                              hs_words_label (HS_WORDS_OLD_PART, part->old_part));
      print_line ("", old);
    }
  print_line ("", part->cover);
}

static void
print_look (HsCli *cli, guint number, const HsAfterLine *line)
{
  g_autofree char *at = line->done_at != HS_INSTANT_NONE ? hs_cli_clock_text (cli, line->done_at) : g_strdup ("–");
  g_autofree char *words = line->done_words != NULL ? g_strconcat (": ", line->done_words, NULL) : g_strdup ("");
  g_autofree char *text = g_strdup_printf ("%u  %s  %s%s", number, at, hs_cli_data (line->what), words);
  print_line (number == 1 ? _("look after") : "", text);
}

static void
print_missing (const HsRepair *repair)
{
  const HsTongue tongue = { gettext, ngettext };
  for (guint i = 0; i < repair->missing->len; i++)
    {
      const HsProveItem *item = g_ptr_array_index (repair->missing, i);
      g_autofree char *said = hs_prove_say (item, &tongue);
      g_autofree char *text = g_strconcat (item->must ? "▌ " : "  ", said, NULL);
      print_line (i == 0 ? _("still to do") : "", text);
    }
}

void
hs_repair_out_print (HsCli *cli, const HsRepair *repair)
{
  for (guint i = 0; i < repair->parts->len; i++)
    print_part (g_ptr_array_index (repair->parts, i));
  for (guint i = 0; i < repair->looks->len; i++)
    print_look (cli, i + 1, g_ptr_array_index (repair->looks, i));
  print_line (_("tried"), repair->tried);
  print_line (_("not proven"), repair->unproved_why);
  if (repair->safe != NULL)
    print_line (_("safe"), hs_words_label (HS_WORDS_SAFE_TO_DRIVE, repair->safe));
  print_missing (repair);
}

gboolean
hs_repair_out_show (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (HsRepair) repair = hs_repair_load (cli->book, job_id, NULL, cli->now, error);
  if (repair == NULL)
    return FALSE;
  if (!cli->json)
    {
      hs_repair_out_print (cli, repair);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_repair_out_write (out, repair);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
  return TRUE;
}
