// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The proof sheet as values and words: what ops gathers and a page shows. Judges nothing but whether all of it is good.
 */

#include "hs-proof-sheet.h"

static void
change_free (HsProofChange *change)
{
  g_free (change->name);
  g_free (change->place);
  g_free (change->limit);
  g_free (change->source);
  g_free (change->before.text);
  g_free (change->before.word);
  g_free (change->after.text);
  g_free (change->after.word);
  g_free (change);
}

static void
line_free (HsProofLine *line)
{
  g_free (line->what);
  g_free (line->figure);
  g_ptr_array_unref (line->more);
  g_free (line);
}

HsProofSheet *
hs_proof_sheet_new (void)
{
  HsProofSheet *sheet = g_new0 (HsProofSheet, 1);

  sheet->changes = g_ptr_array_new_with_free_func ((GDestroyNotify) change_free);
  sheet->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) line_free);
  sheet->declined = g_ptr_array_new_with_free_func ((GDestroyNotify) line_free);
  sheet->why = g_ptr_array_new_with_free_func (g_free);
  sheet->looked_after = g_ptr_array_new_with_free_func (g_free);
  sheet->open = g_ptr_array_new_with_free_func (g_free);
  return sheet;
}

void
hs_proof_sheet_free (HsProofSheet *sheet)
{
  if (sheet == NULL)
    return;
  char **const texts[] = { &sheet->business, &sheet->number, &sheet->day,      &sheet->plate, &sheet->vehicle,
                           &sheet->owner,    &sheet->tried,  &sheet->odometer, &sheet->safe,  &sheet->complaint,
                           &sheet->unproved_why, &sheet->paper_size };
  GPtrArray *const lists[] = { sheet->changes, sheet->why, sheet->parts, sheet->declined, sheet->looked_after,
                               sheet->open };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free (*texts[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    g_ptr_array_unref (lists[i]);
  g_free (sheet);
}

HsProofChange *
hs_proof_sheet_add_change (HsProofSheet *sheet)
{
  HsProofChange *change = g_new0 (HsProofChange, 1);

  g_ptr_array_add (sheet->changes, change);
  return change;
}

HsProofLine *
hs_proof_line_add (GPtrArray *lines, const char *what, const char *figure)
{
  HsProofLine *line = g_new0 (HsProofLine, 1);

  line->what = g_strdup (what);
  line->figure = g_strdup (figure);
  line->more = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (lines, line);
  return line;
}

/* Bytes of a name without its ending; a system takes 255. */
#define MOST_NAME 80

static void
add_dash (GString *name)
{
  if (name->len > 0 && name->str[name->len - 1] != '-')
    g_string_append_c (name, '-');
}

/* Letters and digits as they are, accents taken off; a dash for all else, never two. */
static void
add_safe (GString *name, const char *text)
{
  g_autofree char *folded = text != NULL ? g_utf8_normalize (text, -1, G_NORMALIZE_NFKD) : NULL;

  for (const char *at = folded; at != NULL && *at != '\0' && name->len < MOST_NAME; at++)
    if (g_ascii_isalnum (*at))
      g_string_append_c (name, *at);
    else if (g_ascii_isspace (*at) || g_ascii_ispunct (*at))
      add_dash (name);
  add_dash (name);
}

char *
hs_proof_sheet_dup_file_name (const HsProofSheet *sheet)
{
  g_autoptr (GString) name = g_string_new (NULL);

  add_safe (name, sheet->number);
  add_safe (name, sheet->plate);
  add_safe (name, sheet->vehicle);
  while (name->len > 0 && name->str[name->len - 1] == '-')
    g_string_truncate (name, name->len - 1);
  if (name->len == 0)
    g_string_append (name, "before-and-after");
  g_string_append (name, ".pdf");
  return g_string_free (g_steal_pointer (&name), FALSE);
}

gboolean
hs_proof_sheet_is_good (const HsProofSheet *sheet)
{
  gboolean tested = sheet->tried != NULL;

  if (sheet->unproved_why != NULL)
    return FALSE;
  for (guint i = 0; i < sheet->changes->len; i++)
    {
      const HsProofValue *after = &((const HsProofChange *) g_ptr_array_index (sheet->changes, i))->after;

      if (after->text != NULL && (after->verdict == HS_VERDICT_OUTSIDE || after->do_not_drive))
        return FALSE;
      tested |= after->text != NULL;
    }
  return tested;
}
