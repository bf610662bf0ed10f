// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Notes by model: where the fuse is, the knack, the counter's name for the part, what to beware of. */

#include "hs-model-note-row.h"

#include "hs-table.h"

static const HsColumn model_note_columns[] = {
  HS_TEXT (HsModelNoteRow, id),
  HS_TEXT (HsModelNoteRow, make),
  HS_TEXT (HsModelNoteRow, model),
  HS_INT (HsModelNoteRow, year_from),
  HS_INT (HsModelNoteRow, year_to),
  HS_TEXT (HsModelNoteRow, topic),
  HS_TEXT (HsModelNoteRow, words),
  HS_TEXT (HsModelNoteRow, job_id),
  HS_INT (HsModelNoteRow, at),
};

static const HsTable model_note_table = {
  HS_TABLE (HsModelNoteRow, "model_note", "note on a model", model_note_columns),
};

HS_DEFINE_ROW (HsModelNoteRow, hs_model_note_row, model_note_table)

gboolean
hs_model_note_row_list_of (HsStore *store, const char *make, const char *model, gint64 year, GPtrArray **ret_rows,
                           GError **error)
{
  return hs_table_list (store, &model_note_table, (GDestroyNotify) hs_model_note_row_free, ret_rows, error,
                        "WHERE make = ?1 COLLATE NOCASE AND model = ?2 COLLATE NOCASE"
                        " AND (?3 IS NULL OR (ifnull (year_from, ?3) <= ?3 AND ifnull (year_to, ?3) >= ?3))"
                        " ORDER BY topic <> 'caution', seq DESC", "tti", make, model, year);
}
