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
