// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The log of changes: what every row was and became, when, and by whom. Written by the store itself with each change;
 * the file refuses to alter it. */

#include "hs-log-row.h"

#include "hs-change-log.h"
#include "hs-sql.h"

#define COLUMNS "SELECT seq, at, who, tbl, row_id, act, field, was, became FROM change_log "

gboolean
hs_change_log_add (HsStore *store, const char *table, const char *row_id, const char *act, const char *field,
                   const char *was, const char *became, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (store->bulk)
    return TRUE;
  query = hs_sql_new (store, error,
                      "INSERT INTO change_log (at, who, tbl, row_id, act, field, was, became)"
                      " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)", "ittttttt",
                      store->now, store->who, table, row_id, act, field, was, became);
  return hs_sql_run (query, error);
}

static gpointer
read_row (HsSql *query)
{
  HsLogRow *row = g_new0 (HsLogRow, 1);

  row->seq = hs_sql_int (query, 0);
  row->at = hs_sql_int (query, 1);
  row->who = g_strdup (hs_sql_text (query, 2));
  row->table = g_strdup (hs_sql_text (query, 3));
  row->row_id = g_strdup (hs_sql_text (query, 4));
  row->act = g_strdup (hs_sql_text (query, 5));
  row->field = g_strdup (hs_sql_text (query, 6));
  row->was = g_strdup (hs_sql_text (query, 7));
  row->became = g_strdup (hs_sql_text (query, 8));
  return row;
}

void
hs_log_row_free (HsLogRow *row)
{
  if (row == NULL)
    return;
  g_free (row->who);
  g_free (row->table);
  g_free (row->row_id);
  g_free (row->act);
  g_free (row->field);
  g_free (row->was);
  g_free (row->became);
  g_free (row);
}

gboolean
hs_log_row_add_override (HsStore *store, const char *table, const char *row_id, const char *field, const char *why,
                         GError **error)
{
  return hs_change_log_add (store, table, row_id, "changed", field, NULL, why, error);
}

gboolean
hs_log_row_add_deed (HsStore *store, const char *deed, const char *id, const char *act, const char *became,
                     GError **error)
{
  return hs_change_log_add (store, deed, id, act, NULL, NULL, became, error);
}

gboolean
hs_log_row_next_step (HsStore *store, gint64 *ret_seq, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "SELECT seq + 1 FROM sqlite_sequence WHERE name = 'undo_step'",
                                        "");

  return hs_sql_one_int (query, 1, ret_seq, error);
}

gboolean
hs_log_row_list_of (HsStore *store, const char *table, const char *row_id, GPtrArray **ret_rows, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, COLUMNS "WHERE tbl = ?1 AND row_id = ?2 ORDER BY seq", "tt",
                                        table, row_id);

  return hs_sql_rows (query, read_row, (GDestroyNotify) hs_log_row_free, ret_rows, error);
}

gboolean
hs_log_row_list (HsStore *store, gint64 after, guint limit, GPtrArray **ret_rows, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, COLUMNS "WHERE seq > ?1 ORDER BY seq LIMIT ?2", "ii", after,
                                        (gint64) limit);

  return hs_sql_rows (query, read_row, (GDestroyNotify) hs_log_row_free, ret_rows, error);
}
