// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsSettingRow:
 * @id: the key
 * @value: its text
 *
 * What travels with a book: rates, tax, zone. Keys and their rules belong to the operations.
 */
typedef struct
{
  char *id;
  char *value;
} HsSettingRow;

HS_DECLARE_ROW (HsSettingRow, hs_setting_row)

/* hs_setting_row_list: all, by key. */
gboolean hs_setting_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/**
 * hs_setting_row_get:
 * @ret_value: (out) (transfer full) (nullable): %NULL if the key is not set
 */
gboolean hs_setting_row_get (HsStore *store, const char *key, char **ret_value, GError **error);

/* hs_setting_row_put: @value %NULL takes the key away. */
gboolean hs_setting_row_put (HsStore *store, const char *key, const char *value, GError **error);

G_END_DECLS
