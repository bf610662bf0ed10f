// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a repair disturbed and whether it was looked after again. The file refuses to say the same twice of a job. */

#include "hs-disturbed-row.h"

#include "hs-table.h"

static const HsColumn disturbed_columns[] = {
  HS_TEXT (HsDisturbedRow, id),
  HS_TEXT (HsDisturbedRow, job_id),
  HS_TEXT (HsDisturbedRow, what),
  HS_TEXT (HsDisturbedRow, check_id),
  HS_INT (HsDisturbedRow, done_at),
  HS_TEXT (HsDisturbedRow, done_words),
};

static const HsTable disturbed_table = {
  HS_TABLE (HsDisturbedRow, "disturbed", "disturbed place", disturbed_columns),
};

HS_DEFINE_ROW (HsDisturbedRow, hs_disturbed_row, disturbed_table)

gboolean
hs_disturbed_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &disturbed_table, (GDestroyNotify) hs_disturbed_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}
