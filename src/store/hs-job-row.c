// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Jobs: the one row that everything of a call hangs on. The store counts their revisions; the file refuses to close one
 * without proof, answers and go-ahead, and to touch one that is squared. */

#include "hs-job-row.h"

#include "hs-money-row.h"
#include "hs-outbox-row.h"
#include "hs-search-index.h"
#include "hs-table.h"
#include "hs-text.h"

static const HsColumn job_columns[] = {
  HS_TEXT (HsJobRow, id),
  HS_TEXT (HsJobRow, number),
  HS_TEXT (HsJobRow, van_id),
  HS_TEXT (HsJobRow, worker_id),
  HS_TEXT (HsJobRow, customer_id),
  HS_TEXT (HsJobRow, vehicle_id),
  HS_TEXT_OR (HsJobRow, kind, "repair"),
  HS_TEXT_OR (HsJobRow, stage, "called_in"),
  HS_TEXT (HsJobRow, complaint_group),
  HS_TEXT (HsJobRow, words),
  HS_INT (HsJobRow, called_at),
  HS_TEXT (HsJobRow, area_id),
  HS_TEXT (HsJobRow, street),
  HS_TEXT (HsJobRow, access_note),
  HS_DATE (HsJobRow, day),
  HS_INT (HsJobRow, window_from),
  HS_INT (HsJobRow, window_to),
  HS_TEXT (HsJobRow, zone),
  HS_INT (HsJobRow, guess_seconds),
  HS_TEXT (HsJobRow, follows_job_id),
  HS_TEXT (HsJobRow, return_why),
  HS_TEXT (HsJobRow, unproved_why),
  HS_TEXT (HsJobRow, turned_away_why),
  HS_TEXT (HsJobRow, called_off_why),
  HS_TEXT (HsJobRow, safe_to_drive),
  HS_TEXT (HsJobRow, note),
  HS_INT_QUIET (HsJobRow, owed_cents, 0),
  HS_INT_QUIET (HsJobRow, rev, 1),
  HS_INT_QUIET (HsJobRow, changed_at, HS_INT_NONE),
  HS_TEXT (HsJobRow, saw_it),
  HS_TEXT (HsJobRow, called_off_how),
};

static const HsTable job_table;

/* Revision, stamp and what is owed are the store's own; they move only if something else did. */
static gboolean
job_before_save (HsStore *store, gconstpointer old, gpointer row, GError **error)
{
  const HsJobRow *before = old;
  HsJobRow *job = row;
  gboolean changed = before == NULL || hs_table_differs (&job_table, old, row);

  job->owed_cents = before == NULL ? 0 : before->owed_cents;
  job->rev = before == NULL ? 1 : before->rev + (changed ? 1 : 0);
  job->changed_at = changed ? store->now : before->changed_at;
  return TRUE;
}

/* Taking a call or moving it to another vehicle counts as having seen the vehicle. A new stage is posted. */
static gboolean
job_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  const HsJobRow *before = old;
  const HsJobRow *job = row;

  if (job != NULL && (before == NULL || g_strcmp0 (before->vehicle_id, job->vehicle_id) != 0))
    hs_search_index_seen (store, job->vehicle_id);
  if (job == NULL || (before != NULL && g_strcmp0 (before->stage, job->stage) == 0))
    return TRUE;
  return store->bulk || hs_outbox_row_queue (store, job->id, error);
}

static const HsTable job_table = {
  HS_TABLE (HsJobRow, "job", "job", job_columns),
  .before_save = job_before_save,
  .after_change = job_after_change,
};

HS_DEFINE_ROW (HsJobRow, hs_job_row, job_table)

gboolean
hs_job_row_find (HsStore *store, const char *number, HsJobRow **ret_row, GError **error)
{
  return hs_table_need (store, &job_table, (gpointer *) ret_row, error, number,
                        "WHERE number = ?1", "t", number);
}

gboolean
hs_job_row_move (HsStore *store, const char *job_id, HsStage to, const char *reason, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  if (reason != NULL && to == HS_STAGE_CALLED_OFF)
    hs_row_set (&job->called_off_why, reason);
  else if (reason != NULL && to == HS_STAGE_TURNED_AWAY)
    hs_row_set (&job->turned_away_why, reason);
  else if (reason != NULL && (to == HS_STAGE_PROVEN || to == HS_STAGE_SQUARED))
    hs_row_set (&job->unproved_why, reason);
  /* Back on the road it is not called off any more; squared up it was. */
  if (to != HS_STAGE_CALLED_OFF && to != HS_STAGE_SQUARED)
    hs_row_set (&job->called_off_how, NULL);
  hs_row_set (&job->stage, hs_stage_id (to));
  return hs_job_row_save (store, job, error);
}

gboolean
hs_job_row_is_called_off (const HsJobRow *job)
{
  if (g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    return job->called_off_how != NULL;
  return g_str_equal (job->stage, hs_stage_id (HS_STAGE_CALLED_OFF));
}

static gboolean
is_written (const char *text)
{
  return !hs_text_is_blank (text);
}

gboolean
hs_job_row_facts (HsStore *store, const char *job_id, HsStageFacts *ret_facts, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsSql) query = NULL;
  HsJobSums sums = { 0 };
  gboolean row;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_job_sums_load (store, job_id, &sums, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "SELECT EXISTS (SELECT 1 FROM reading"
                      " WHERE job_id = ?1 AND phase = 'after' AND not_measured_why IS NULL),"
                      " (SELECT count (*) FROM installed_part WHERE job_id = ?1 AND replaced_why IS NULL),"
                      " (SELECT count (*) FROM advice WHERE job_id = ?1 AND choice = 'open'),"
                      " (SELECT ifnull (sum (l.price_cents + l.tax_cents), 0) FROM line l JOIN job j ON j.id = l.job_id"
                      "  WHERE j.id = ?1 AND j.called_off_how IS NOT NULL AND l.kind = 'call_out')", "t", job_id);
  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  *ret_facts = (HsStageFacts) {
    .has_after_reading = hs_sql_int (query, 0) == 1,
    .has_unproven_reason = is_written (job->unproved_why),
    .parts_without_reason = (guint) hs_sql_int (query, 1),
    .open_choices = (guint) hs_sql_int (query, 2),
    .charges_cents = sums.price_cents + sums.tax_cents - hs_sql_int (query, 3),
    .ceiling_cents = sums.ceiling_cents,
    .has_leaving_reason = is_written (job->called_off_why) || is_written (job->turned_away_why),
  };
  return TRUE;
}

gboolean
hs_job_row_list_day (HsStore *store, HsDate day, const char *van_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &job_table, (GDestroyNotify) hs_job_row_free, ret_rows, error,
                        "WHERE day = ?1 AND (?2 IS NULL OR van_id IS NULL OR van_id = ?2)"
                        " ORDER BY window_from NULLS LAST, number", "dt", day, van_id);
}

gboolean
hs_job_row_list_of_vehicle (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &job_table, (GDestroyNotify) hs_job_row_free, ret_rows, error,
                        "WHERE vehicle_id = ?1 ORDER BY seq DESC", "t", vehicle_id);
}

gboolean
hs_job_row_list_of_customer (HsStore *store, const char *customer_id, guint limit, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &job_table, (GDestroyNotify) hs_job_row_free, ret_rows, error,
                        "WHERE customer_id = ?1 ORDER BY seq DESC LIMIT ?2", "ti", customer_id, (gint64) limit);
}

gboolean
hs_job_row_ids (HsStore *store, const char *stage, GPtrArray **ret_ids, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (stage == NULL)
    query = hs_sql_new (store, error, "SELECT id FROM job ORDER BY seq DESC", "");
  else
    query = hs_sql_new (store, error, "SELECT id FROM job WHERE stage = ?1 ORDER BY seq DESC", "t", stage);
  return hs_sql_texts (query, ret_ids, error);
}

/* SQLite counts a whole table by its pages, but what has a stage row by row; open jobs are few. */
gboolean
hs_job_row_count_closed (HsStore *store, guint64 *ret_count, GError **error)
{
  g_autoptr (GString) sql = g_string_new ("SELECT (SELECT count(*) FROM job)"
                                          " - (SELECT count(*) FROM job WHERE stage IN (");
  g_autoptr (HsSql) query = NULL;
  gint64 count = 0;

  for (guint i = 0, n = 0; i < HS_N_STAGES; i++)
    if (hs_stage_is_open (i))
      g_string_append_printf (sql, "%s'%s'", n++ > 0 ? ", " : "", hs_stage_id (i));
  g_string_append (sql, "))");
  query = hs_sql_new (store, error, sql->str, "");
  if (!hs_sql_one_int (query, 0, &count, error))
    return FALSE;
  *ret_count = (guint64) count;
  return TRUE;
}

gboolean
hs_job_row_count (HsStore *store, HsStage stage, guint64 *ret_count, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "SELECT count (*) FROM job WHERE stage = ?1", "t",
                                        hs_stage_id (stage));
  gint64 count = 0;

  if (!hs_sql_one_int (query, 0, &count, error))
    return FALSE;
  *ret_count = (guint64) count;
  return TRUE;
}
