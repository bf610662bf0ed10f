// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was found on a job, and why it failed: a chain of findings with a proof on each link. The file refuses
 * rings, links between jobs, links without a proof, and hearsay that counts as proven. */

#include "hs-finding-row.h"

#include "hs-table.h"

static const HsColumn finding_columns[] = {
  HS_TEXT (HsFindingRow, id),
  HS_TEXT (HsFindingRow, job_id),
  HS_TEXT (HsFindingRow, place),
  HS_TEXT (HsFindingRow, what),
  HS_TEXT (HsFindingRow, role),
  HS_TEXT_OR (HsFindingRow, sure, "suspected"),
  HS_TEXT (HsFindingRow, weight),
  HS_TEXT (HsFindingRow, ended),
  HS_INT (HsFindingRow, entered_at),
  HS_TEXT (HsFindingRow, cause),
  HS_TEXT (HsFindingRow, said_by),
  HS_INT (HsFindingRow, told_at),
};

static const HsTable finding_table = {
  HS_TABLE (HsFindingRow, "finding", "finding", finding_columns),
};

static const HsColumn because_columns[] = {
  HS_TEXT (HsBecauseRow, id),
  HS_TEXT (HsBecauseRow, job_id),
  HS_TEXT (HsBecauseRow, effect_id),
  HS_TEXT (HsBecauseRow, cause_id),
  HS_TEXT (HsBecauseRow, how),
  HS_TEXT (HsBecauseRow, proof),
  HS_TEXT_OR (HsBecauseRow, proof_kind, "said"),
  HS_TEXT (HsBecauseRow, reading_id),
  HS_TEXT (HsBecauseRow, photo_id),
};

static const HsTable because_table = {
  HS_TABLE (HsBecauseRow, "because", "link", because_columns),
};

HS_DEFINE_ROW (HsFindingRow, hs_finding_row, finding_table)
HS_DEFINE_ROW (HsBecauseRow, hs_because_row, because_table)

gboolean
hs_finding_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &finding_table, (GDestroyNotify) hs_finding_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_because_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &because_table, (GDestroyNotify) hs_because_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}
