// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store.h"

G_BEGIN_DECLS

/**
 * HS_DECLARE_ROW:
 * @Type: a plain struct that holds one row of the book; its first field is `char *id`
 * @prefix: e.g. `hs_customer_row`
 *
 * Declares what every kind of row has:
 *
 * - `Type *prefix_new (void)`: all fields not there (%NULL, %HS_INT_NONE, %HS_REAL_NONE, %HS_DATE_NONE,
 *   %HS_INSTANT_NONE), but for those that the schema gives a default.
 * - `void prefix_free (Type *row)`: accepts %NULL. There is an autoptr.
 * - `Type *prefix_copy (const Type *row)`
 * - `gboolean prefix_load (HsStore *store, const char *id, Type **ret_row, GError **error)`: by id;
 *   %HS_STORE_ERROR_NOT_FOUND.
 * - `gboolean prefix_save (HsStore *store, Type *row, GError **error)`: adds the row if its id is %NULL (a new id is
 *   filled in) or not in the book yet, else changes the fields that differ. %HS_STORE_ERROR_REFUSED with the rule that
 *   the book keeps. Needs a transaction.
 * - `gboolean prefix_delete (HsStore *store, const char *id, GError **error)`: %HS_STORE_ERROR_NOT_FOUND,
 *   %HS_STORE_ERROR_REFUSED while something names it. Needs a transaction.
 *
 * Strings belong to the row: change one with g_free() and g_strdup(), or hs_row_set().
 */
#define HS_DECLARE_ROW(Type, prefix) \
  Type *prefix##_new (void); \
  void prefix##_free (Type *row); \
  Type *prefix##_copy (const Type *row); \
  gboolean prefix##_load (HsStore *store, const char *id, Type **ret_row, GError **error); \
  gboolean prefix##_save (HsStore *store, Type *row, GError **error); \
  gboolean prefix##_delete (HsStore *store, const char *id, GError **error); \
  G_DEFINE_AUTOPTR_CLEANUP_FUNC (Type, prefix##_free)

/* hs_row_set: gives a text field of a row a copy of @text (or %NULL). */
void hs_row_set (char **field, const char *text);

/*
 * Lists are GPtrArrays of rows (or of id strings, where the name says ids) that own what they hold. ret_ arrays are set
 * on success only, possibly empty.
 */

G_END_DECLS
