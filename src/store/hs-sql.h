// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store-private.h"

G_BEGIN_DECLS

/**
 * HsSql:
 *
 * One prepared statement while it is used. The only way of this layer to talk to SQLite: values are always bound.
 * Statements are kept for the next use of the same SQL.
 */
typedef struct
{
  HsStore *store;
  sqlite3_stmt *stmt;
} HsSql;

/**
 * hs_sql_new:
 * @types: one letter for each value: `t` const char *, `i` gint64 (instants too), `r` double, `d` HsDate; a value that
 *   is not there is bound as NULL
 *
 * Returns: (transfer full): ready for hs_sql_step(), or %NULL
 */
HsSql *hs_sql_new (HsStore *store, GError **error, const char *sql, const char *types, ...);
void hs_sql_free (HsSql *query);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSql, hs_sql_free)

/* hs_sql_bind_list: all values of @types from the first on. */
gboolean hs_sql_bind_list (HsSql *query, const char *types, va_list values, GError **error);
gboolean hs_sql_bind_text (HsSql *query, int index, const char *text, GError **error);
gboolean hs_sql_bind_int (HsSql *query, int index, gint64 value, GError **error);
gboolean hs_sql_bind_real (HsSql *query, int index, double value, GError **error);
gboolean hs_sql_bind_bytes (HsSql *query, int index, GBytes *bytes, GError **error);
gboolean hs_sql_bind_date (HsSql *query, int index, HsDate date, GError **error);

/* hs_sql_step: @ret_row says whether there is one; %FALSE on an error. */
gboolean hs_sql_step (HsSql *query, gboolean *ret_row, GError **error);

/* hs_sql_run: a statement without rows, or of which nobody wants them; %NULL passes on an error of hs_sql_new(). */
gboolean hs_sql_run (HsSql *query, GError **error);

/* Columns from 0: NULL comes as %NULL, %HS_INT_NONE, %HS_REAL_NONE, %HS_DATE_NONE. */
const char *hs_sql_text (HsSql *query, int column);
gint64 hs_sql_int (HsSql *query, int column);
double hs_sql_real (HsSql *query, int column);
HsDate hs_sql_date (HsSql *query, int column);

/* hs_sql_dup_bytes: (transfer full): a BLOB; NULL comes as %NULL. */
GBytes *hs_sql_dup_bytes (HsSql *query, int column);

/* hs_sql_one_int: the first column of the one row that comes; @otherwise if none comes. */
gboolean hs_sql_one_int (HsSql *query, gint64 otherwise, gint64 *ret_value, GError **error);

/**
 * hs_sql_rows:
 * @query: %NULL passes on an error of hs_sql_new()
 * @read: makes a row of the one that the query stands on
 * @ret_rows: (out) (transfer full): what @read made, freed by @free_row
 */
gboolean hs_sql_rows (HsSql *query, gpointer (*read) (HsSql *query), GDestroyNotify free_row, GPtrArray **ret_rows,
                      GError **error);

/* hs_sql_texts: (element-type utf8): the first column of all rows. */
gboolean hs_sql_texts (HsSql *query, GPtrArray **ret_texts, GError **error);

G_END_DECLS
