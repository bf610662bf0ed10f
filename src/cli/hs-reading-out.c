// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A reading with its verdict, as JSON and as text. */

#include "hs-reading-out.h"

#include "hs-cli.h"
#include "hs-verdict.h"

#include <glib/gi18n.h>

static void
write_ids (HsJsonOut *out, const char *name, char **ids)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; ids != NULL && ids[i] != NULL; i++)
    hs_json_out_string (out, NULL, ids[i]);
  hs_json_out_end_array (out);
}

void
hs_reading_out_write (HsJsonOut *out, const char *name, const HsReadingResult *result)
{
  hs_json_out_begin_object (out, name);
  hs_json_out_string (out, "check", result->check);
  hs_json_out_string (out, "name", result->name);
  hs_json_out_string (out, "phase", result->phase);
  hs_json_out_string (out, "place", result->place);
  if (result->has_value)
    hs_json_out_real (out, "value", result->value);
  else
    hs_json_out_null (out, "value");
  hs_json_out_string (out, "unit", result->unit);
  hs_json_out_string (out, "text", result->value_text);
  hs_json_out_string (out, "answer", result->answer);
  hs_json_out_string (out, "verdict", result->verdict);
  hs_json_out_string (out, "word", result->word);
  hs_json_out_string (out, "note", result->note);
  hs_json_out_string (out, "why", result->why);
  hs_json_out_string (out, "limit", result->limit);
  hs_json_out_string (out, "source", result->source);
  hs_json_out_string (out, "sure", result->sure);
  hs_json_out_string (out, "whose", result->whose);
  hs_json_out_string (out, "next", result->next);
  write_ids (out, "then", result->then);
  write_ids (out, "wanted", result->wanted);
  hs_json_out_string (out, "caution", result->caution);
  g_autofree char *at = result->at != HS_INSTANT_NONE ? hs_instant_format (result->at) : NULL;
  hs_json_out_string (out, "at", at);
  hs_json_out_end_object (out);
}

static void
print_line (const char *title, const char *text)
{
  if (text != NULL && *text != '\0')
    {
      g_autofree char *padded = hs_cli_pad (title, 12);
      hs_cli_print ("    %s %s\n", padded, text);
    }
}

void
hs_reading_out_print (const HsReadingResult *result)
{
  static const HsTongue tongue = { gettext, ngettext };
  hs_cli_print ("%s%s%s, %s: %s", hs_cli_data (result->name), result->place != NULL ? ", " : "",
                result->place != NULL ? result->place : "", result->phase, hs_cli_data (result->value_text));
  if (result->word != NULL)
    hs_cli_print ("  [%s]", hs_verdict_word_in (result->word, &tongue));
  if (result->note != NULL)
    hs_cli_print ("  %s", result->note);
  hs_cli_print ("\n");
  print_line (_("why"), hs_cli_data (result->why));
  print_line (_("limit"), hs_cli_data (result->limit));
  g_autofree char *source = result->source != NULL ? hs_verdict_source_text (result->source, result->sure) : NULL;
  print_line (_("who says so"), source);
  print_line (_("next"), hs_cli_data (result->next));
  g_autofree char *then = result->then != NULL ? g_strjoinv (", ", result->then) : NULL;
  print_line (_("then check"), then);
  print_line (_("caution"), hs_cli_data (result->caution));
}
