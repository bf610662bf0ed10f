// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Loads and saves the plain structs of this layer by a list of their columns. Changes write only the fields that
 * differ, so that the file's rules see what really changes, and go into the log of changes. It refuses changes
 * outside a transaction. Names of tables and columns are constants of the program; values are always bound. */

#include "hs-table.h"

#include <string.h>

#include "hs-change-log.h"
#include "hs-undo-private.h"

static gpointer
field_of (gconstpointer row, const HsColumn *column)
{
  return (guint8 *) row + column->offset;
}

static const char *
id_of (const HsTable *table, gconstpointer row)
{
  return *(char **) field_of (row, &table->columns[0]);
}

static void
set_default (gpointer row, const HsColumn *column)
{
  gpointer field = field_of (row, column);

  switch (column->type)
    {
    case HS_COLUMN_TEXT:
      *(char **) field = g_strdup (column->text_default);
      break;
    case HS_COLUMN_INT:
      *(gint64 *) field = column->int_default;
      break;
    case HS_COLUMN_FLAG:
      *(gboolean *) field = column->int_default != 0;
      break;
    case HS_COLUMN_REAL:
      *(double *) field = HS_REAL_NONE;
      break;
    case HS_COLUMN_BYTES:
      break;
    default:
      *(HsDate *) field = HS_DATE_NONE;
      break;
    }
}

gpointer
hs_table_new (const HsTable *table)
{
  gpointer row = g_malloc0 (table->size);

  for (guint i = 0; i < table->n_columns; i++)
    set_default (row, &table->columns[i]);
  return row;
}

void
hs_table_free (const HsTable *table, gpointer row)
{
  for (guint i = 0; row != NULL && i < table->n_columns; i++)
    if (table->columns[i].type == HS_COLUMN_TEXT)
      g_free (*(char **) field_of (row, &table->columns[i]));
    else if (table->columns[i].type == HS_COLUMN_BYTES)
      g_clear_pointer ((GBytes **) field_of (row, &table->columns[i]), g_bytes_unref);
  g_free (row);
}

gpointer
hs_table_copy (const HsTable *table, gconstpointer row)
{
  gpointer copy = g_memdup2 (row, table->size);

  for (guint i = 0; i < table->n_columns; i++)
    if (table->columns[i].type == HS_COLUMN_TEXT)
      {
        char **field = field_of (copy, &table->columns[i]);

        *field = g_strdup (*field);
      }
    else if (table->columns[i].type == HS_COLUMN_BYTES)
      {
        GBytes **field = field_of (copy, &table->columns[i]);

        *field = *field == NULL ? NULL : g_bytes_ref (*field);
      }
  return copy;
}

/* The text of a field as the log shows it, %NULL if there is nothing. */
static char *
dup_as_text (gconstpointer row, const HsColumn *column)
{
  gpointer field = field_of (row, column);
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  switch (column->type)
    {
    case HS_COLUMN_TEXT:
      return g_strdup (*(char **) field);
    case HS_COLUMN_INT:
      return *(gint64 *) field == HS_INT_NONE ? NULL : g_strdup_printf ("%" G_GINT64_FORMAT, *(gint64 *) field);
    case HS_COLUMN_FLAG:
      return g_strdup (*(gboolean *) field ? "1" : "0");
    case HS_COLUMN_REAL:
      return isnan (*(double *) field) ? NULL : g_strdup (g_ascii_dtostr (digits, sizeof digits, *(double *) field));
    case HS_COLUMN_BYTES:
      return *(GBytes **) field == NULL ? NULL
                                        : g_strdup_printf ("%" G_GSIZE_FORMAT " bytes",
                                                           g_bytes_get_size (*(GBytes **) field));
    default:
      return *(HsDate *) field == HS_DATE_NONE ? NULL : hs_date_format (*(HsDate *) field);
    }
}

static gboolean
is_same (const HsColumn *column, gconstpointer one, gconstpointer other)
{
  gpointer a = field_of (one, column);
  gpointer b = field_of (other, column);

  switch (column->type)
    {
    case HS_COLUMN_TEXT:
      return g_strcmp0 (*(char **) a, *(char **) b) == 0;
    case HS_COLUMN_INT:
      return *(gint64 *) a == *(gint64 *) b;
    case HS_COLUMN_FLAG:
      return !*(gboolean *) a == !*(gboolean *) b;
    case HS_COLUMN_REAL:
      return (isnan (*(double *) a) && isnan (*(double *) b)) || *(double *) a == *(double *) b;
    case HS_COLUMN_BYTES:
      return *(GBytes **) a == *(GBytes **) b
             || (*(GBytes **) a != NULL && *(GBytes **) b != NULL && g_bytes_equal (*(GBytes **) a, *(GBytes **) b));
    default:
      return *(HsDate *) a == *(HsDate *) b;
    }
}

gboolean
hs_table_differs (const HsTable *table, gconstpointer one, gconstpointer other)
{
  for (guint i = 0; i < table->n_columns; i++)
    if (!table->columns[i].quiet && !is_same (&table->columns[i], one, other))
      return TRUE;
  return FALSE;
}

static gboolean
bind_field (HsSql *query, int index, gconstpointer row, const HsColumn *column, GError **error)
{
  gpointer field = field_of (row, column);

  switch (column->type)
    {
    case HS_COLUMN_TEXT:
      return hs_sql_bind_text (query, index, *(char **) field, error);
    case HS_COLUMN_INT:
      return hs_sql_bind_int (query, index, *(gint64 *) field, error);
    case HS_COLUMN_FLAG:
      return hs_sql_bind_int (query, index, *(gboolean *) field ? 1 : 0, error);
    case HS_COLUMN_REAL:
      return hs_sql_bind_real (query, index, *(double *) field, error);
    case HS_COLUMN_BYTES:
      return hs_sql_bind_bytes (query, index, *(GBytes **) field, error);
    default:
      return hs_sql_bind_date (query, index, *(HsDate *) field, error);
    }
}

static void
read_field (HsSql *query, int index, gpointer row, const HsColumn *column)
{
  gpointer field = field_of (row, column);

  switch (column->type)
    {
    case HS_COLUMN_TEXT:
      *(char **) field = g_strdup (hs_sql_text (query, index));
      break;
    case HS_COLUMN_INT:
      *(gint64 *) field = hs_sql_int (query, index);
      break;
    case HS_COLUMN_FLAG:
      *(gboolean *) field = hs_sql_int (query, index) == 1;
      break;
    case HS_COLUMN_REAL:
      *(double *) field = hs_sql_real (query, index);
      break;
    case HS_COLUMN_BYTES:
      *(GBytes **) field = hs_sql_dup_bytes (query, index);
      break;
    default:
      *(HsDate *) field = hs_sql_date (query, index);
      break;
    }
}

static char *
select_sql (const HsTable *table, const char *tail)
{
  GString *sql = g_string_new ("SELECT ");

  for (guint i = 0; i < table->n_columns; i++)
    g_string_append_printf (sql, "%s%s.%s", i == 0 ? "" : ", ", table->name, table->columns[i].name);
  g_string_append_printf (sql, " FROM %s %s", table->name, tail);
  return g_string_free (sql, FALSE);
}

static char *
insert_sql (const HsTable *table)
{
  GString *sql = g_string_new (NULL);

  g_string_append_printf (sql, "INSERT INTO %s (", table->name);
  for (guint i = 0; i < table->n_columns; i++)
    g_string_append_printf (sql, "%s%s", i == 0 ? "" : ", ", table->columns[i].name);
  g_string_append (sql, ", seq) VALUES (?1");
  for (guint i = 1; i < table->n_columns; i++)
    g_string_append_printf (sql, ", ?%u", i + 1);
  g_string_append_printf (sql, ", (SELECT ?%u WHERE NOT EXISTS (SELECT 1 FROM %s WHERE seq = ?%u)))",
                          table->n_columns + 1, table->name, table->n_columns + 1);
  return g_string_free (sql, FALSE);
}

static char *
update_sql (const HsTable *table, gconstpointer old, gconstpointer row)
{
  GString *sql = g_string_new (NULL);
  const char *comma = "";

  g_string_append_printf (sql, "UPDATE %s SET ", table->name);
  for (guint i = 1; i < table->n_columns; i++)
    if (!is_same (&table->columns[i], old, row))
      {
        g_string_append_printf (sql, "%s%s = ?%u", comma, table->columns[i].name, i + 1);
        comma = ", ";
      }
  g_string_append (sql, " WHERE id = ?1");
  return g_string_free (sql, FALSE);
}

/* One step of a SELECT over all columns; *ret_row is %NULL behind the last row. */
static gboolean
next_row (HsSql *query, const HsTable *table, gpointer *ret_row, GError **error)
{
  gboolean found;

  if (!hs_sql_step (query, &found, error))
    return FALSE;
  *ret_row = found ? g_malloc0 (table->size) : NULL;
  for (guint i = 0; found && i < table->n_columns; i++)
    read_field (query, (int) i, *ret_row, &table->columns[i]);
  return TRUE;
}

static HsSql *
select_rows (HsStore *store, const HsTable *table, const char *tail, const char *types, va_list values, GError **error)
{
  g_autofree char *sql = select_sql (table, tail);
  g_autoptr (HsSql) query = hs_sql_new (store, error, sql, "");

  if (query == NULL || !hs_sql_bind_list (query, types, values, error))
    return NULL;
  return g_steal_pointer (&query);
}

static gboolean
find (HsStore *store, const HsTable *table, gpointer *ret_row, GError **error, const char *tail, const char *types,
      va_list values)
{
  g_autoptr (HsSql) query = select_rows (store, table, tail, types, values, error);

  return query != NULL && next_row (query, table, ret_row, error);
}

gboolean
hs_table_find (HsStore *store, const HsTable *table, gpointer *ret_row, GError **error, const char *tail,
               const char *types, ...)
{
  va_list values;
  gboolean done;

  va_start (values, types);
  done = find (store, table, ret_row, error, tail, types, values);
  va_end (values);
  return done;
}

gboolean
hs_table_need (HsStore *store, const HsTable *table, gpointer *ret_row, GError **error, const char *called,
               const char *tail, const char *types, ...)
{
  gpointer row = NULL;
  va_list values;
  gboolean done;

  va_start (values, types);
  done = find (store, table, &row, error, tail, types, values);
  va_end (values);
  if (done && row == NULL)
    g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND, "There is no %s “%s” in the book", table->what,
                 called != NULL ? called : "");
  if (row == NULL)
    return FALSE;
  *ret_row = row;
  return TRUE;
}

gboolean
hs_table_load (HsStore *store, const HsTable *table, const char *id, gpointer *ret_row, GError **error)
{
  return hs_table_need (store, table, ret_row, error, id, "WHERE id = ?1", "t", id);
}

gboolean
hs_table_list (HsStore *store, const HsTable *table, GDestroyNotify free_row, GPtrArray **ret_rows, GError **error,
               const char *tail, const char *types, ...)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (free_row);
  g_autoptr (HsSql) query = NULL;
  gpointer row = NULL;
  va_list values;

  va_start (values, types);
  query = select_rows (store, table, tail, types, values, error);
  va_end (values);
  do
    {
      if (query == NULL || !next_row (query, table, &row, error))
        return FALSE;
      if (row != NULL)
        g_ptr_array_add (rows, row);
    }
  while (row != NULL);
  *ret_rows = g_steal_pointer (&rows);
  return TRUE;
}

/* @seq: %HS_INT_NONE for the next one, as if it were taken. */
static gboolean
insert_row (HsStore *store, const HsTable *table, gconstpointer row, gint64 seq, GError **error)
{
  g_autofree char *sql = insert_sql (table);
  g_autoptr (HsSql) query = hs_sql_new (store, error, sql, "");

  for (guint i = 0; query != NULL && i < table->n_columns; i++)
    if (!bind_field (query, (int) i + 1, row, &table->columns[i], error))
      return FALSE;
  if (query == NULL || !hs_sql_bind_int (query, (int) table->n_columns + 1, seq, error) || !hs_sql_run (query, error))
    return FALSE;
  if (table->unlogged)
    return TRUE;
  hs_undo_record (store, table, NULL, row, sqlite3_last_insert_rowid (store->db));
  return hs_change_log_add (store, table->name, id_of (table, row), "added", NULL, NULL, NULL, error);
}

static gboolean
log_fields (HsStore *store, const HsTable *table, gconstpointer old, gconstpointer row, GError **error)
{
  for (guint i = 1; !table->unlogged && i < table->n_columns; i++)
    {
      const HsColumn *column = &table->columns[i];
      g_autofree char *was = dup_as_text (old, column);
      g_autofree char *became = row == NULL ? NULL : dup_as_text (row, column);

      if (column->quiet || g_strcmp0 (was, became) == 0)
        continue;
      if (!hs_change_log_add (store, table->name, id_of (table, old), row == NULL ? "removed" : "changed",
                              column->name, was, became, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
update_row (HsStore *store, const HsTable *table, gconstpointer old, gconstpointer row, GError **error)
{
  g_autofree char *sql = update_sql (table, old, row);
  g_autoptr (HsSql) query = hs_sql_new (store, error, sql, "t", id_of (table, row));

  for (guint i = 1; query != NULL && i < table->n_columns; i++)
    if (!is_same (&table->columns[i], old, row) && !bind_field (query, (int) i + 1, row, &table->columns[i], error))
      return FALSE;
  if (!hs_sql_run (query, error))
    return FALSE;
  hs_undo_record (store, table, old, row, 0);
  return log_fields (store, table, old, row, error);
}

/* What follows from a change follows from taking it back too, so it is not noted. */
static gboolean
follow (HsStore *store, const HsTable *table, gconstpointer old, gconstpointer row, GError **error)
{
  gboolean done;

  if (table->after_change == NULL)
    return TRUE;
  store->following++;
  done = table->after_change (store, old, row, error);
  store->following--;
  return done;
}

static gboolean
save_over (HsStore *store, const HsTable *table, gconstpointer old, gpointer row, GError **error)
{
  if (table->before_save != NULL && !table->before_save (store, old, row, error))
    return FALSE;
  if (old != NULL && !hs_table_differs (table, old, row))
    return TRUE;
  if (old != NULL ? !update_row (store, table, old, row, error) : !insert_row (store, table, row, HS_INT_NONE, error))
    return FALSE;
  return follow (store, table, old, row, error);
}

gboolean
hs_table_put_back (HsStore *store, const HsTable *table, gpointer row, gint64 seq, GError **error)
{
  return hs_store_may_change (store, error)
         && (table->before_save == NULL || table->before_save (store, NULL, row, error))
         && insert_row (store, table, row, seq, error) && follow (store, table, NULL, row, error);
}

gboolean
hs_table_save (HsStore *store, const HsTable *table, gpointer row, GError **error)
{
  char **id = field_of (row, &table->columns[0]);
  gpointer old = NULL;
  gboolean done;

  if (!hs_store_may_change (store, error))
    return FALSE;
  if (*id == NULL)
    *id = g_uuid_string_random ();
  else if (!hs_table_find (store, table, &old, error, "WHERE id = ?1", "t", *id))
    return FALSE;
  done = save_over (store, table, old, row, error);
  hs_table_free (table, old);
  return done;
}

static gboolean
find_seq (HsStore *store, const HsTable *table, const char *id, gint64 *ret_seq, GError **error)
{
  g_autofree char *sql = g_strconcat ("SELECT seq FROM ", table->name, " WHERE id = ?1", NULL);
  g_autoptr (HsSql) query = hs_sql_new (store, error, sql, "t", id);

  return hs_sql_one_int (query, 0, ret_seq, error);
}

static gboolean
delete_row (HsStore *store, const HsTable *table, gconstpointer old, GError **error)
{
  g_autofree char *sql = g_strconcat ("DELETE FROM ", table->name, " WHERE id = ?1", NULL);
  g_autoptr (HsSql) query = NULL;
  gint64 seq = 0;

  if (!find_seq (store, table, id_of (table, old), &seq, error))
    return FALSE;
  query = hs_sql_new (store, error, sql, "t", id_of (table, old));
  if (!hs_sql_run (query, error))
    return FALSE;
  if (!table->unlogged)
    hs_undo_record (store, table, old, NULL, seq);
  return log_fields (store, table, old, NULL, error) && follow (store, table, old, NULL, error);
}

gboolean
hs_table_delete (HsStore *store, const HsTable *table, const char *id, GError **error)
{
  gpointer old = NULL;
  gboolean done;

  if (!hs_store_may_change (store, error) || !hs_table_load (store, table, id, &old, error))
    return FALSE;
  done = delete_row (store, table, old, error);
  hs_table_free (table, old);
  return done;
}

void
hs_row_set (char **field, const char *text)
{
  char *copy = g_strdup (text);

  g_free (*field);
  *field = copy;
}

void
hs_table_set_id (const HsTable *table, gpointer row, const char *id)
{
  hs_row_set (field_of (row, &table->columns[0]), id);
}
