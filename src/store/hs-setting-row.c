// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The settings that travel with a book, as plain texts by key. What a key means and which values it takes is for the
 * operations to say. */

#include "hs-setting-row.h"

#include "hs-table.h"

static const HsColumn setting_columns[] = {
  HS_TEXT (HsSettingRow, id),
  HS_TEXT (HsSettingRow, value),
};

static const HsTable setting_table = {
  HS_TABLE (HsSettingRow, "setting", "setting", setting_columns),
};

HS_DEFINE_ROW (HsSettingRow, hs_setting_row, setting_table)

gboolean
hs_setting_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &setting_table, (GDestroyNotify) hs_setting_row_free, ret_rows, error,
                        "ORDER BY id", "");
}

gboolean
hs_setting_row_get (HsStore *store, const char *key, char **ret_value, GError **error)
{
  g_autoptr (HsSettingRow) row = NULL;

  if (!hs_table_find (store, &setting_table, (gpointer *) &row, error, "WHERE id = ?1", "t", key))
    return FALSE;
  *ret_value = row == NULL ? NULL : g_steal_pointer (&row->value);
  return TRUE;
}

gboolean
hs_setting_row_put (HsStore *store, const char *key, const char *value, GError **error)
{
  g_autoptr (HsSettingRow) row = hs_setting_row_new ();
  g_autofree char *old = NULL;

  if (value == NULL)
    return hs_setting_row_get (store, key, &old, error) && (old == NULL || hs_setting_row_delete (store, key, error));
  hs_row_set (&row->id, key);
  hs_row_set (&row->value, value);
  return hs_setting_row_save (store, row, error);
}
