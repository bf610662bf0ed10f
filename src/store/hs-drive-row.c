// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Drives to jobs, read off the stamps of the visits. Whether the van really came straight from where it was before is
 * for the caller to judge. */

#include "hs-drive-row.h"

#include "hs-sql.h"

/* The columns in the order of read_drive(). */
#define DRIVES \
  "WITH stay AS (" \
  " SELECT v.job_id, j.area_id, v.rolling_at, v.arrived_at, v.left_at," \
  "  lag (j.area_id) OVER day AS before_id, lag (v.arrived_at) OVER day AS before_at," \
  "  lag (v.left_at) OVER day AS before_left_at" \
  " FROM visit v JOIN job j ON j.id = v.job_id WHERE v.arrived_at IS NOT NULL" \
  " WINDOW day AS (PARTITION BY ifnull (j.van_id, (SELECT id FROM van ORDER BY letter LIMIT 1))" \
  "                ORDER BY v.arrived_at, v.seq))" \
  "SELECT s.job_id, s.area_id, s.rolling_at, s.arrived_at, s.before_id, s.before_at, s.before_left_at," \
  " EXISTS (SELECT 1 FROM day_stop t JOIN day_stop b ON b.plan_id = t.plan_id AND b.position = t.position - 1" \
  "         WHERE t.job_id = s.job_id AND b.supplier_id IS NOT NULL)" \
  " FROM stay s WHERE s.rolling_at IS NOT NULL AND s.area_id IS NOT NULL ORDER BY s.arrived_at, s.job_id"

void
hs_drive_row_free (HsDriveRow *row)
{
  if (row == NULL)
    return;
  g_free (row->job_id);
  g_free (row->to_id);
  g_free (row->before_id);
  g_free (row);
}

static gpointer
read_drive (HsSql *query)
{
  HsDriveRow *row = g_new0 (HsDriveRow, 1);

  row->job_id = g_strdup (hs_sql_text (query, 0));
  row->to_id = g_strdup (hs_sql_text (query, 1));
  row->rolling_at = hs_sql_int (query, 2);
  row->arrived_at = hs_sql_int (query, 3);
  row->before_id = g_strdup (hs_sql_text (query, 4));
  row->before_at = hs_sql_int (query, 5);
  row->before_left_at = hs_sql_int (query, 6);
  row->by_counter = hs_sql_int (query, 7) != 0;
  return row;
}

gboolean
hs_drive_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, DRIVES, "");

  return hs_sql_rows (query, read_drive, (GDestroyNotify) hs_drive_row_free, ret_rows, error);
}
