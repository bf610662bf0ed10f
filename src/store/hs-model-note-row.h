// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsModelNoteRow:
 * @year_from: first year it holds for, or %HS_INT_NONE
 * @year_to: last one, or %HS_INT_NONE
 * @topic: `place` (where something is), `knack`, `part_name` (as the counter calls it), `caution`
 * @job_id: (nullable): on which it was learned
 *
 * What was learned of a model, for the next one that comes. It outlives its job and is never frozen.
 */
typedef struct
{
  char *id;
  char *make;
  char *model;
  gint64 year_from;
  gint64 year_to;
  char *topic;
  char *words;
  char *job_id;
  HsInstant at;
} HsModelNoteRow;

HS_DECLARE_ROW (HsModelNoteRow, hs_model_note_row)

/**
 * hs_model_note_row_list_of:
 * @year: of the vehicle, or %HS_INT_NONE: notes of all years
 *
 * The notes on a model, cautions first, then the newest first. Upper and lower case of A to Z are the same.
 */
gboolean hs_model_note_row_list_of (HsStore *store, const char *make, const char *model, gint64 year,
                                    GPtrArray **ret_rows, GError **error);

G_END_DECLS
