// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Prepare, bind, step: the one place where this layer meets SQLite's statements. Every value is bound, every result is
 * looked at, and a statement goes back into the store's cache when its user is done. */

#include "hs-sql.h"

static gboolean
prepare (HsStore *store, const char *sql, sqlite3_stmt **ret_stmt, GError **error)
{
  g_autofree char *key = NULL;
  sqlite3_stmt *stmt = NULL;
  int rc;

  if (g_hash_table_steal_extended (store->statements, sql, (gpointer *) &key, (gpointer *) ret_stmt))
    return TRUE;
  rc = sqlite3_prepare_v3 (store->db, sql, -1, SQLITE_PREPARE_PERSISTENT, &stmt, NULL);
  if (rc != SQLITE_OK)
    return hs_store_fail (store, rc, error);
  *ret_stmt = stmt;
  return TRUE;
}

static gboolean
bound (HsSql *query, int rc, GError **error)
{
  return rc == SQLITE_OK || hs_store_fail (query->store, rc, error);
}

HsSql *
hs_sql_new (HsStore *store, GError **error, const char *sql, const char *types, ...)
{
  g_autoptr (HsSql) query = g_new0 (HsSql, 1);
  va_list values;
  gboolean done;

  query->store = store;
  if (!prepare (store, sql, &query->stmt, error))
    return NULL;
  va_start (values, types);
  done = hs_sql_bind_list (query, types, values, error);
  va_end (values);
  return done ? g_steal_pointer (&query) : NULL;
}

void
hs_sql_free (HsSql *query)
{
  if (query == NULL)
    return;
  if (query->stmt != NULL)
    {
      char *sql = g_strdup (sqlite3_sql (query->stmt));

      /* The result repeats what the last step said; it has been looked at there. */
      (void) sqlite3_reset (query->stmt);
      (void) sqlite3_clear_bindings (query->stmt);
      g_hash_table_replace (query->store->statements, sql, query->stmt);
    }
  g_free (query);
}

gboolean
hs_sql_bind_list (HsSql *query, const char *types, va_list values, GError **error)
{
  gboolean done = TRUE;

  for (int i = 0; done && types[i] != '\0'; i++)
    switch (types[i])
      {
      case 't':
        done = hs_sql_bind_text (query, i + 1, va_arg (values, const char *), error);
        break;
      case 'i':
        done = hs_sql_bind_int (query, i + 1, va_arg (values, gint64), error);
        break;
      case 'r':
        done = hs_sql_bind_real (query, i + 1, va_arg (values, double), error);
        break;
      default:
        done = hs_sql_bind_date (query, i + 1, (HsDate) va_arg (values, int), error);
        break;
      }
  return done;
}

gboolean
hs_sql_bind_text (HsSql *query, int index, const char *text, GError **error)
{
  return bound (query, sqlite3_bind_text (query->stmt, index, text, -1, SQLITE_TRANSIENT), error);
}

gboolean
hs_sql_bind_int (HsSql *query, int index, gint64 value, GError **error)
{
  if (value == HS_INT_NONE)
    return bound (query, sqlite3_bind_null (query->stmt, index), error);
  return bound (query, sqlite3_bind_int64 (query->stmt, index, value), error);
}

gboolean
hs_sql_bind_real (HsSql *query, int index, double value, GError **error)
{
  if (isnan (value))
    return bound (query, sqlite3_bind_null (query->stmt, index), error);
  return bound (query, sqlite3_bind_double (query->stmt, index, value), error);
}

gboolean
hs_sql_bind_bytes (HsSql *query, int index, GBytes *bytes, GError **error)
{
  gsize size = 0;
  const void *data = bytes == NULL ? NULL : g_bytes_get_data (bytes, &size);

  if (bytes == NULL)
    return bound (query, sqlite3_bind_null (query->stmt, index), error);
  if (size == 0)
    return bound (query, sqlite3_bind_zeroblob (query->stmt, index, 0), error);
  return bound (query, sqlite3_bind_blob64 (query->stmt, index, data, size, SQLITE_TRANSIENT), error);
}

gboolean
hs_sql_bind_date (HsSql *query, int index, HsDate date, GError **error)
{
  g_autofree char *text = date == HS_DATE_NONE ? NULL : hs_date_format (date);

  return hs_sql_bind_text (query, index, text, error);
}

gboolean
hs_sql_step (HsSql *query, gboolean *ret_row, GError **error)
{
  int rc = sqlite3_step (query->stmt);

  if (rc != SQLITE_ROW && rc != SQLITE_DONE)
    return hs_store_fail (query->store, rc, error);
  *ret_row = rc == SQLITE_ROW;
  return TRUE;
}

gboolean
hs_sql_run (HsSql *query, GError **error)
{
  gboolean row = TRUE;

  if (query == NULL)
    return FALSE;
  while (row)
    if (!hs_sql_step (query, &row, error))
      return FALSE;
  return TRUE;
}

const char *
hs_sql_text (HsSql *query, int column)
{
  return (const char *) sqlite3_column_text (query->stmt, column);
}

gint64
hs_sql_int (HsSql *query, int column)
{
  if (sqlite3_column_type (query->stmt, column) == SQLITE_NULL)
    return HS_INT_NONE;
  return sqlite3_column_int64 (query->stmt, column);
}

double
hs_sql_real (HsSql *query, int column)
{
  if (sqlite3_column_type (query->stmt, column) == SQLITE_NULL)
    return HS_REAL_NONE;
  return sqlite3_column_double (query->stmt, column);
}

GBytes *
hs_sql_dup_bytes (HsSql *query, int column)
{
  const void *data;

  if (sqlite3_column_type (query->stmt, column) == SQLITE_NULL)
    return NULL;
  data = sqlite3_column_blob (query->stmt, column);
  return g_bytes_new (data, (gsize) sqlite3_column_bytes (query->stmt, column));
}

HsDate
hs_sql_date (HsSql *query, int column)
{
  const char *text = hs_sql_text (query, column);
  HsDate date = HS_DATE_NONE;

  /* The file checks its dates; one that is none all the same reads as not there. */
  if (text != NULL)
    (void) hs_date_parse (text, &date, NULL);
  return date;
}

gboolean
hs_sql_one_int (HsSql *query, gint64 otherwise, gint64 *ret_value, GError **error)
{
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  *ret_value = row ? hs_sql_int (query, 0) : otherwise;
  return TRUE;
}

gboolean
hs_sql_rows (HsSql *query, gpointer (*read) (HsSql *query), GDestroyNotify free_row, GPtrArray **ret_rows,
             GError **error)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (free_row);
  gboolean row;

  if (query == NULL)
    return FALSE;
  for (;;)
    {
      if (!hs_sql_step (query, &row, error))
        return FALSE;
      if (!row)
        break;
      g_ptr_array_add (rows, read (query));
    }
  *ret_rows = g_steal_pointer (&rows);
  return TRUE;
}

static gpointer
read_text (HsSql *query)
{
  return g_strdup (hs_sql_text (query, 0));
}

gboolean
hs_sql_texts (HsSql *query, GPtrArray **ret_texts, GError **error)
{
  return hs_sql_rows (query, read_text, g_free, ret_texts, error);
}
