// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-sql.h"
#include "hs-row.h"

G_BEGIN_DECLS

typedef enum
{
  HS_COLUMN_TEXT,
  HS_COLUMN_INT,
  HS_COLUMN_FLAG,
  HS_COLUMN_REAL,
  HS_COLUMN_DATE,
  HS_COLUMN_BYTES,
} HsColumnType;

/*
 * One column and the field of the struct that holds it. text_default and int_default are what a new row has. A quiet
 * column stays out of the log of changes (what the store works out by itself). Bytes are a GBytes; the log tells only
 * how many there are.
 */
typedef struct
{
  const char *name;
  HsColumnType type;
  gsize offset;
  const char *text_default;
  gint64 int_default;
  gboolean quiet;
} HsColumn;

/**
 * HsTable:
 * @name: in the file
 * @what: one of it in messages: "customer"
 * @size: of the struct
 * @columns: (array length=n_columns): the first one is the id
 * @unlogged: stays out of the log of changes
 * @before_save: (nullable): fills in what the store works out; @old is %NULL for a new row
 * @after_change: (nullable): looks after what hangs on the row; @old is %NULL for a new row, @row for a removed one
 *
 * How a struct and a table belong together.
 */
typedef struct
{
  const char *name;
  const char *what;
  gsize size;
  const HsColumn *columns;
  guint n_columns;
  gboolean unlogged;
  gboolean (*before_save) (HsStore *store, gconstpointer old, gpointer row, GError **error);
  gboolean (*after_change) (HsStore *store, gconstpointer old, gconstpointer row, GError **error);
} HsTable;

#define HS_TEXT(Type, field) { #field, HS_COLUMN_TEXT, G_STRUCT_OFFSET (Type, field), NULL, 0, FALSE }
#define HS_TEXT_OR(Type, field, otherwise) \
  { #field, HS_COLUMN_TEXT, G_STRUCT_OFFSET (Type, field), otherwise, 0, FALSE }
#define HS_INT(Type, field) { #field, HS_COLUMN_INT, G_STRUCT_OFFSET (Type, field), NULL, HS_INT_NONE, FALSE }
#define HS_INT_OR(Type, field, otherwise) \
  { #field, HS_COLUMN_INT, G_STRUCT_OFFSET (Type, field), NULL, otherwise, FALSE }
#define HS_INT_QUIET(Type, field, otherwise) \
  { #field, HS_COLUMN_INT, G_STRUCT_OFFSET (Type, field), NULL, otherwise, TRUE }
#define HS_FLAG(Type, field) { #field, HS_COLUMN_FLAG, G_STRUCT_OFFSET (Type, field), NULL, FALSE, FALSE }
#define HS_FLAG_OR(Type, field, otherwise) \
  { #field, HS_COLUMN_FLAG, G_STRUCT_OFFSET (Type, field), NULL, otherwise, FALSE }
#define HS_REAL(Type, field) { #field, HS_COLUMN_REAL, G_STRUCT_OFFSET (Type, field), NULL, 0, FALSE }
#define HS_DATE(Type, field) { #field, HS_COLUMN_DATE, G_STRUCT_OFFSET (Type, field), NULL, 0, FALSE }

#define HS_BYTES(Type, field) { #field, HS_COLUMN_BYTES, G_STRUCT_OFFSET (Type, field), NULL, 0, FALSE }

#define HS_TABLE(Type, table, words, fields) \
  .name = table, .what = words, .size = sizeof (Type), .columns = fields, .n_columns = G_N_ELEMENTS (fields)

gpointer hs_table_new (const HsTable *table);
void hs_table_free (const HsTable *table, gpointer row);
gpointer hs_table_copy (const HsTable *table, gconstpointer row);
gboolean hs_table_load (HsStore *store, const HsTable *table, const char *id, gpointer *ret_row, GError **error);
gboolean hs_table_save (HsStore *store, const HsTable *table, gpointer row, GError **error);
gboolean hs_table_delete (HsStore *store, const HsTable *table, const char *id, GError **error);

/* hs_table_find: the first row that @tail picks; @ret_row is %NULL if there is none. */
gboolean hs_table_find (HsStore *store, const HsTable *table, gpointer *ret_row, GError **error, const char *tail,
                        const char *types, ...);

/* hs_table_need: like hs_table_find(), but %HS_STORE_ERROR_NOT_FOUND names what was looked for as @called. */
gboolean hs_table_need (HsStore *store, const HsTable *table, gpointer *ret_row, GError **error, const char *called,
                        const char *tail, const char *types, ...);

/**
 * hs_table_list:
 * @free_row: the free function of the rows
 * @tail: what stands behind the FROM: `WHERE job_id = ?1 ORDER BY seq`
 */
gboolean hs_table_list (HsStore *store, const HsTable *table, GDestroyNotify free_row, GPtrArray **ret_rows,
                        GError **error, const char *tail, const char *types, ...);

/* hs_table_differs: a column that is not quiet is not the same in both. */
gboolean hs_table_differs (const HsTable *table, gconstpointer one, gconstpointer other);

/* hs_table_put_back: adds a row that was there before, in its old place (@seq) if that is free; needs a transaction. */
gboolean hs_table_put_back (HsStore *store, const HsTable *table, gpointer row, gint64 seq, GError **error);

void hs_table_set_id (const HsTable *table, gpointer row, const char *id);

/* A field as a GVariant (texts as byte strings, for they may be any bytes), %NULL if there is nothing. */
GVariant *hs_table_field_get (gconstpointer row, const HsColumn *column);
void hs_table_field_set (gpointer row, const HsColumn *column, GVariant *value);
gboolean hs_table_field_is (gconstpointer row, const HsColumn *column, GVariant *value);

/* HS_DEFINE_ROW: what HS_DECLARE_ROW() promises, by a table; and prefix_get_table() for who works on any table. */
#define HS_DEFINE_ROW(Type, prefix, table) \
  const HsTable *prefix##_get_table (void); \
  const HsTable *prefix##_get_table (void) { return &(table); } \
  Type *prefix##_new (void) { return hs_table_new (&(table)); } \
  void prefix##_free (Type *row) { hs_table_free (&(table), row); } \
  Type *prefix##_copy (const Type *row) { return hs_table_copy (&(table), row); } \
  gboolean prefix##_load (HsStore *store, const char *id, Type **ret_row, GError **error) \
  { return hs_table_load (store, &(table), id, (gpointer *) ret_row, error); } \
  gboolean prefix##_save (HsStore *store, Type *row, GError **error) \
  { return hs_table_save (store, &(table), row, error); } \
  gboolean prefix##_delete (HsStore *store, const char *id, GError **error) \
  { return hs_table_delete (store, &(table), id, error); }

G_END_DECLS
