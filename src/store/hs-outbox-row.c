// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The queue of what is posted: a row is written in the transaction of what it tells of, so that neither is there
 * without the other. One message a job, the newest; an old one would only be overtaken. */

#include "hs-outbox-row.h"

#include "hs-table.h"

static const HsColumn outbox_columns[] = {
  HS_TEXT (HsOutboxRow, id),
  HS_TEXT (HsOutboxRow, job_id),
  HS_INT (HsOutboxRow, revision),
  HS_TEXT_OR (HsOutboxRow, state, "waiting"),
  HS_INT (HsOutboxRow, queued_at),
  HS_INT_OR (HsOutboxRow, tries, 0),
  HS_INT (HsOutboxRow, tried_at),
  HS_INT (HsOutboxRow, next_at),
  HS_TEXT (HsOutboxRow, ended),
  HS_INT (HsOutboxRow, status),
  HS_TEXT (HsOutboxRow, said),
  HS_INT (HsOutboxRow, sent_at),
  HS_INT (HsOutboxRow, sent_revision),
  HS_TEXT (HsOutboxRow, body), /* last: a glance ends before it */
};

static const HsTable outbox_table = {
  HS_TABLE (HsOutboxRow, "outbox", "message to the endpoint", outbox_columns),
  .unlogged = TRUE,
};

/* With photos a message is megabytes long, and a day without signal leaves many. */
static const HsTable glance_table = {
  .name = "outbox", .what = "message to the endpoint", .size = sizeof (HsOutboxRow), .columns = outbox_columns,
  .n_columns = G_N_ELEMENTS (outbox_columns) - 1, .unlogged = TRUE,
};

/* Written so that the index is used, which has nothing of what was sent. */
#define UNSENT "state IN ('waiting', 'parked')"
#define WAITS UNSENT " AND state = 'waiting'"

static const HsColumn queue_columns[] = {
  HS_TEXT (HsOutboxQueueRow, id),
  HS_INT (HsOutboxQueueRow, paused_at),
  HS_INT (HsOutboxQueueRow, hold_until),
  HS_INT_OR (HsOutboxQueueRow, tries, 0),
  HS_TEXT (HsOutboxQueueRow, ended),
  HS_INT (HsOutboxQueueRow, status),
  HS_TEXT (HsOutboxQueueRow, said),
};

static const HsTable queue_table = {
  HS_TABLE (HsOutboxQueueRow, "outbox_queue", "queue of messages", queue_columns),
  .unlogged = TRUE,
};

static const HsColumn device_columns[] = {
  HS_TEXT (HsPostDeviceRow, id),
  HS_TEXT (HsPostDeviceRow, name),
  HS_INT (HsPostDeviceRow, since),
};

static const HsTable device_table = {
  HS_TABLE (HsPostDeviceRow, "post_device", "machine that posts", device_columns),
};

HS_DEFINE_ROW (HsOutboxRow, hs_outbox_row, outbox_table)
HS_DEFINE_ROW (HsOutboxQueueRow, hs_outbox_queue_row, queue_table)
HS_DEFINE_ROW (HsPostDeviceRow, hs_post_device_row, device_table)

gboolean
hs_post_device_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &device_table, (GDestroyNotify) hs_post_device_row_free, ret_rows, error, "ORDER BY seq",
                        "");
}

gboolean
hs_post_device_row_is_on (HsStore *store, gboolean *ret_on, GError **error)
{
  g_autoptr (HsSql) query = NULL;
  gint64 on = 0;

  *ret_on = FALSE;
  if (store->device == NULL)
    return TRUE;
  query = hs_sql_new (store, error, "SELECT EXISTS (SELECT 1 FROM post_device WHERE id = ?1)", "t", store->device);
  if (!hs_sql_one_int (query, 0, &on, error))
    return FALSE;
  *ret_on = on == 1;
  return TRUE;
}

/* A book that comes back from a backup has forgotten revisions that the endpoint knows; the clock has not. */
static gint64
next_revision (HsStore *store, const HsOutboxRow *before)
{
  return MAX (MAX (store->now, 1), before == NULL ? 1 : before->revision + 1);
}

static gboolean
is_unsent (const HsOutboxRow *row)
{
  return g_str_equal (row->state, "waiting") || g_str_equal (row->state, "parked");
}

static gboolean
replace (HsStore *store, const char *job_id, HsOutboxRow *before, GError **error)
{
  g_autoptr (HsOutboxRow) row = hs_outbox_row_new ();

  hs_row_set (&row->job_id, job_id);
  row->revision = next_revision (store, before);
  row->queued_at = before != NULL && is_unsent (before) ? before->queued_at : store->now;
  row->tried_at = before != NULL && is_unsent (before) ? before->tried_at : HS_INSTANT_NONE;
  if (before != NULL)
    {
      row->sent_at = before->sent_at;
      row->sent_revision = before->sent_revision;
      if (!hs_outbox_row_delete (store, before->id, error))
        return FALSE;
    }
  return hs_outbox_row_save (store, row, error);
}

gboolean
hs_outbox_row_queue (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (HsOutboxRow) before = NULL;
  gboolean on = FALSE;

  if (!hs_post_device_row_is_on (store, &on, error))
    return FALSE;
  if (!on)
    return TRUE;
  return hs_store_may_change (store, error) && hs_outbox_row_find (store, job_id, &before, error)
         && replace (store, job_id, before, error);
}

/* A revision is no earlier than when it was queued. The joins are crossed so that they begin at the job: begun at the
 * log they would read all of it once a job. */
#define SINCE " AND change_log.at > outbox.revision"

gboolean
hs_outbox_row_queue_all (HsStore *store, guint *ret_n_jobs, GError **error)
{
  g_autoptr (GPtrArray) ids = NULL;
  g_autoptr (HsSql) query = hs_sql_new (
    store, error,
    "SELECT job.id FROM job LEFT JOIN outbox ON outbox.job_id = job.id"
    " WHERE outbox.id IS NULL OR outbox.state = 'dropped' OR (outbox.state = 'sent' AND ("
    "  EXISTS (SELECT 1 FROM change_log WHERE tbl = 'job' AND row_id = job.id AND field = 'stage'" SINCE ")"
    "  OR EXISTS (SELECT 1 FROM payment CROSS JOIN change_log ON tbl = 'payment' AND row_id = payment.id"
    "             WHERE payment.job_id = job.id" SINCE ")"
    "  OR EXISTS (SELECT 1 FROM invoice CROSS JOIN change_log ON tbl = 'invoice' AND row_id = invoice.id"
    "             WHERE invoice.job_id = job.id" SINCE ")))"
    " ORDER BY job.seq", "");

  if (!hs_sql_texts (query, &ids, error))
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    if (!hs_outbox_row_queue (store, g_ptr_array_index (ids, i), error))
      return FALSE;
  *ret_n_jobs = ids->len;
  return TRUE;
}

/* In its old place: what is told changes, not when it happened. */
static gboolean
remake (HsStore *store, const HsOutboxRow *row, GError **error)
{
  g_autofree char *key = g_uuid_string_random ();
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "UPDATE outbox SET id = ?2, revision = ?3, body = NULL WHERE id = ?1", "tti",
                                        row->id, key, next_revision (store, row));

  return hs_sql_run (query, error);
}

gboolean
hs_outbox_row_remake (HsStore *store, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_store_may_change (store, error)
      || !hs_table_list (store, &glance_table, (GDestroyNotify) hs_outbox_row_free, &rows, error,
                         "WHERE " UNSENT " AND body IS NOT NULL ORDER BY seq", ""))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    if (!remake (store, g_ptr_array_index (rows, i), error))
      return FALSE;
  return TRUE;
}

gboolean
hs_outbox_row_renew (HsStore *store, HsOutboxRow *row, GError **error)
{
  g_autofree char *key = g_uuid_string_random ();
  gint64 revision = next_revision (store, row);
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "UPDATE outbox SET id = ?2, revision = ?3, body = NULL, tries = 0 WHERE id = ?1", "tti", row->id,
                      key, revision);
  if (!hs_sql_run (query, error))
    return FALSE;
  hs_row_set (&row->id, key);
  hs_row_set (&row->body, NULL);
  row->revision = revision;
  row->tries = 0;
  return TRUE;
}

gboolean
hs_outbox_row_find (HsStore *store, const char *job_id, HsOutboxRow **ret_row, GError **error)
{
  return hs_table_find (store, &outbox_table, (gpointer *) ret_row, error, "WHERE job_id = ?1", "t", job_id);
}

gboolean
hs_outbox_row_find_key (HsStore *store, const char *id, HsOutboxRow **ret_row, GError **error)
{
  return hs_table_find (store, &outbox_table, (gpointer *) ret_row, error, "WHERE id = ?1", "t", id);
}

gboolean
hs_outbox_row_next (HsStore *store, HsInstant now, HsOutboxRow **ret_row, GError **error)
{
  return hs_table_find (store, &outbox_table, (gpointer *) ret_row, error,
                        "WHERE " WAITS " AND ifnull (next_at, ?1) <= ?1 ORDER BY seq LIMIT 1", "i", now);
}

gboolean
hs_outbox_row_list_unsent (HsStore *store, guint limit, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &glance_table, (GDestroyNotify) hs_outbox_row_free, ret_rows, error,
                        "WHERE " UNSENT " ORDER BY state, seq LIMIT ?1", "i", (gint64) limit);
}

gboolean
hs_outbox_sums_load (HsStore *store, HsOutboxSums *ret_sums, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "SELECT (SELECT count (*) FROM outbox WHERE " WAITS "),"
                                        " (SELECT count (*) FROM outbox WHERE " UNSENT " AND state = 'parked'),"
                                        " min (ifnull (next_at, 0)), max (tried_at), max (tries)"
                                        " FROM outbox WHERE " WAITS, "");
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  ret_sums->waiting = hs_sql_int (query, 0);
  ret_sums->parked = hs_sql_int (query, 1);
  ret_sums->soonest = hs_sql_int (query, 2);
  ret_sums->tried_at = hs_sql_int (query, 3);
  ret_sums->most_tries = ret_sums->waiting == 0 ? 0 : hs_sql_int (query, 4);
  return TRUE;
}

gboolean
hs_outbox_row_follow_clock (HsStore *store, HsInstant now, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "UPDATE outbox SET next_at = NULL, tried_at = ?1 WHERE " WAITS " AND tried_at > ?1", "i",
                      now);
  return hs_sql_run (query, error);
}

gboolean
hs_outbox_row_clear_silence (HsStore *store, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "UPDATE outbox SET next_at = NULL WHERE " WAITS " AND next_at IS NOT NULL"
                      " AND (ended IN ('unreachable', 'timed_out', 'bad_reply') OR status IN (502, 504))", "");
  return hs_sql_run (query, error);
}

gboolean
hs_outbox_row_let_go (HsStore *store, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "UPDATE outbox SET tried_at = NULL WHERE " WAITS " AND next_at IS NULL"
                      " AND tried_at IS NOT NULL", "");
  return hs_sql_run (query, error);
}

gboolean
hs_outbox_row_release (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "UPDATE outbox SET state = 'waiting', next_at = NULL WHERE " UNSENT
                      " AND (?1 IS NULL OR job_id = ?1)", "t", job_id);
  return hs_sql_run (query, error);
}

gboolean
hs_outbox_queue_row_get (HsStore *store, HsOutboxQueueRow **ret_row, GError **error)
{
  HsOutboxQueueRow *row = NULL;

  if (!hs_table_find (store, &queue_table, (gpointer *) &row, error, "LIMIT 1", ""))
    return FALSE;
  if (row == NULL)
    {
      row = hs_outbox_queue_row_new ();
      hs_row_set (&row->id, "queue");
    }
  *ret_row = row;
  return TRUE;
}
