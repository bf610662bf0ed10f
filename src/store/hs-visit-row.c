// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The comings and goings of a job with the pauses of its labor clock, what was made safe on arriving, and the questions
 * of the call. */

#include "hs-visit-row.h"

#include "hs-table.h"

static const HsColumn visit_columns[] = {
  HS_TEXT (HsVisitRow, id),
  HS_TEXT (HsVisitRow, job_id),
  HS_INT (HsVisitRow, rolling_at),
  HS_INT (HsVisitRow, arrived_at),
  HS_INT (HsVisitRow, left_at),
  HS_INT (HsVisitRow, drive_seconds),
  HS_INT (HsVisitRow, drive_millimiles),
  HS_INT (HsVisitRow, paper_seconds),
  HS_TEXT (HsVisitRow, safe_note),
};

static const HsTable visit_table = {
  HS_TABLE (HsVisitRow, "visit", "visit", visit_columns),
};

static const HsColumn pause_columns[] = {
  HS_TEXT (HsPauseRow, id),
  HS_TEXT (HsPauseRow, visit_id),
  HS_INT (HsPauseRow, from_at),
  HS_INT (HsPauseRow, to_at),
  HS_TEXT (HsPauseRow, why),
};

static const HsTable pause_table = {
  HS_TABLE (HsPauseRow, "pause", "pause", pause_columns),
};

static const HsColumn safety_columns[] = {
  HS_TEXT (HsSafetyRow, id),
  HS_TEXT (HsSafetyRow, visit_id),
  HS_TEXT (HsSafetyRow, item),
  HS_TEXT (HsSafetyRow, answer),
  HS_TEXT (HsSafetyRow, why),
  HS_INT (HsSafetyRow, at),
};

static const HsTable safety_table = {
  HS_TABLE (HsSafetyRow, "safety", "answer to the safety list", safety_columns),
};

static const HsColumn asked_columns[] = {
  HS_TEXT (HsAskedRow, id),
  HS_TEXT (HsAskedRow, job_id),
  HS_TEXT (HsAskedRow, question),
  HS_TEXT (HsAskedRow, answer),
  HS_TEXT (HsAskedRow, said_by),
  HS_INT (HsAskedRow, at),
};

static const HsTable asked_table = {
  HS_TABLE (HsAskedRow, "asked", "answer", asked_columns),
};

HS_DEFINE_ROW (HsVisitRow, hs_visit_row, visit_table)
HS_DEFINE_ROW (HsPauseRow, hs_pause_row, pause_table)
HS_DEFINE_ROW (HsSafetyRow, hs_safety_row, safety_table)
HS_DEFINE_ROW (HsAskedRow, hs_asked_row, asked_table)

gboolean
hs_visit_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &visit_table, (GDestroyNotify) hs_visit_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_visit_row_list_during (HsStore *store, HsInstant from, HsInstant to, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &visit_table, (GDestroyNotify) hs_visit_row_free, ret_rows, error,
                        "WHERE ifnull (rolling_at, arrived_at) < ?2 AND (left_at IS NULL OR left_at > ?1) ORDER BY seq",
                        "ii", from, to);
}

gboolean
hs_pause_row_list_of (HsStore *store, const char *visit_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &pause_table, (GDestroyNotify) hs_pause_row_free, ret_rows, error,
                        "WHERE visit_id = ?1 ORDER BY seq", "t", visit_id);
}

gboolean
hs_safety_row_list_of (HsStore *store, const char *visit_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &safety_table, (GDestroyNotify) hs_safety_row_free, ret_rows, error,
                        "WHERE visit_id = ?1 ORDER BY seq", "t", visit_id);
}

gboolean
hs_safety_row_find (HsStore *store, const char *visit_id, const char *item, HsSafetyRow **ret_row, GError **error)
{
  return hs_table_find (store, &safety_table, (gpointer *) ret_row, error, "WHERE visit_id = ?1 AND item = ?2", "tt",
                        visit_id, item);
}

gboolean
hs_asked_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &asked_table, (GDestroyNotify) hs_asked_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}
