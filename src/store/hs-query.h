// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store-private.h"

G_BEGIN_DECLS

/**
 * HsQuery:
 *
 * One prepared statement while it is used. The only way of this layer to talk to SQLite: values are always bound.
 * Statements are kept for the next use of the same SQL.
 */
typedef struct
{
  HsStore *store;
  sqlite3_stmt *stmt;
} HsQuery;

/**
 * hs_query_new:
 * @types: one letter for each value: `t` const char *, `i` gint64 (instants too), `r` double, `d` HsDate; a value that
 *   is not there is bound as NULL
 *
 * Returns: (transfer full): ready for hs_query_step(), or %NULL
 */
HsQuery *hs_query_new (HsStore *store, GError **error, const char *sql, const char *types, ...);
void hs_query_free (HsQuery *query);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsQuery, hs_query_free)

/* hs_query_bind_list: all values of @types from the first on. */
gboolean hs_query_bind_list (HsQuery *query, const char *types, va_list values, GError **error);
gboolean hs_query_bind_text (HsQuery *query, int index, const char *text, GError **error);
gboolean hs_query_bind_int (HsQuery *query, int index, gint64 value, GError **error);
gboolean hs_query_bind_real (HsQuery *query, int index, double value, GError **error);
gboolean hs_query_bind_date (HsQuery *query, int index, HsDate date, GError **error);

/* hs_query_step: @ret_row says whether there is one; %FALSE on an error. */
gboolean hs_query_step (HsQuery *query, gboolean *ret_row, GError **error);

/* hs_query_run: a statement without rows, or of which nobody wants them; %NULL passes on an error of hs_query_new(). */
gboolean hs_query_run (HsQuery *query, GError **error);

/* Columns from 0: NULL comes as %NULL, %HS_INT_NONE, %HS_REAL_NONE, %HS_DATE_NONE. */
const char *hs_query_text (HsQuery *query, int column);
gint64 hs_query_int (HsQuery *query, int column);
double hs_query_real (HsQuery *query, int column);
HsDate hs_query_date (HsQuery *query, int column);

/* hs_query_one_int: the first column of the one row that comes; @otherwise if none comes. */
gboolean hs_query_one_int (HsQuery *query, gint64 otherwise, gint64 *ret_value, GError **error);

/* hs_query_texts: (element-type utf8): the first column of all rows. */
gboolean hs_query_texts (HsQuery *query, GPtrArray **ret_texts, GError **error);

G_END_DECLS
