// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The photos of a job, for machines and for people; a picture that the book does not have is said so. */

#include "hs-photo-out.h"

#include "hs-photo-op.h"
#include "hs-words.h"

#include <glib/gi18n.h>

static void
write_instant (HsJsonOut *out, const char *name, HsInstant at)
{
  g_autofree char *text = at == HS_INSTANT_NONE ? NULL : hs_instant_format (at);
  hs_json_out_string (out, name, text);
}

static void
write_card (HsJsonOut *out, const HsPhotoCard *card)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_integer (out, "number", card->number);
  hs_json_out_string (out, "id", card->id);
  hs_json_out_string (out, "name", card->name);
  hs_json_out_string (out, "words", card->words);
  hs_json_out_string (out, "phase", card->phase);
  hs_json_out_string (out, "finding_id", card->finding_id);
  hs_json_out_string (out, "finding", card->finding);
  if (card->visit > 0)
    hs_json_out_integer (out, "visit", card->visit);
  else
    hs_json_out_null (out, "visit");
  hs_json_out_string (out, "media_type", card->media_type);
  hs_json_out_string (out, "sha256", card->file_id);
  hs_json_out_integer (out, "bytes", card->bytes);
  hs_json_out_integer (out, "width", card->width);
  hs_json_out_integer (out, "height", card->height);
  write_instant (out, "taken_at", card->taken_at);
  write_instant (out, "added_at", card->added_at);
  hs_json_out_boolean (out, "missing", card->missing);
  hs_json_out_end_object (out);
}

static void
print_card (HsCli *cli, const HsPhotoCard *card)
{
  g_autofree char *number = g_strdup_printf ("%u", card->number);
  g_autofree char *column = hs_cli_pad (number, -3);
  g_autofree char *at = hs_cli_clock_text (cli, card->taken_at != HS_INSTANT_NONE ? card->taken_at : card->added_at);
  g_autofree char *what = hs_cli_one_line (card->words != NULL ? card->words : card->name);
  g_autofree char *finding = hs_cli_one_line (card->finding);
  hs_cli_print ("%s  %s  %s  %s%s%s%s\n", column, at, _(hs_words_label (HS_WORDS_PHASE, card->phase)),
                what, card->finding != NULL ? " · " : "", finding,
                card->missing ? _(" (the picture is missing)") : "");
}

void
hs_photo_out_write (HsJsonOut *out, const char *name, GPtrArray *photos)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; i < photos->len; i++)
    write_card (out, g_ptr_array_index (photos, i));
  hs_json_out_end_array (out);
}

void
hs_photo_out_print (HsCli *cli, const char *title, GPtrArray *photos)
{
  for (guint i = 0; i < photos->len; i++)
    {
      g_autofree char *padded = *title != '\0' ? hs_cli_pad (i == 0 ? title : "", 10) : g_strdup ("");
      hs_cli_print ("%s%s", padded, *title != '\0' ? " " : "");
      print_card (cli, g_ptr_array_index (photos, i));
    }
}
