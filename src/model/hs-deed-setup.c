// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of setting a book up. Places and drives go the way of an imported file of one row, so that one rule judges
 * both; only the file's name and row are left out of what is said. */

#include "hs-deed-setup.h"

#include "hs-import.h"

gpointer
hs_ask_settings (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_settings_list (book, error);
}

static gpointer
hs_deed_set_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *key, *value;

  g_variant_get (args, "(&s&s)", &key, &value);
  hs_settings_set (book, key, value, now, error);
  return NULL;
}

void
hs_deed_set (HsLedger *ledger, const char *key, const char *value, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_set_func, g_variant_new ("(ss)", key, value), NULL, FALSE, callback,
                         user_data);
}

static gpointer
hs_deed_row_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *kind, *header;
  g_autofree const char **fields = NULL;

  g_variant_get (args, "(&s&s^a&s)", &kind, &header, &fields);
  hs_import_one (book, kind, header, fields, now, error);
  return NULL;
}

void
hs_deed_add_place (HsLedger *ledger, const char *code, const char *name, const char *position,
                   GAsyncReadyCallback callback, gpointer user_data)
{
  const char *fields[] = { code, name, position != NULL ? position : "", NULL };

  hs_ledger_write_async (ledger, hs_deed_row_func, g_variant_new ("(ss^as)", "areas", "code,name,position", fields),
                         NULL, FALSE, callback, user_data);
}

void
hs_deed_place_counter (HsLedger *ledger, const char *name, const char *place, GAsyncReadyCallback callback,
                       gpointer user_data)
{
  const char *fields[] = { name, place, NULL };

  hs_ledger_write_async (ledger, hs_deed_row_func, g_variant_new ("(ss^as)", "suppliers", "name,area", fields), NULL,
                         FALSE, callback, user_data);
}

void
hs_deed_add_drive (HsLedger *ledger, const char *from, const char *to, const char *minutes, const char *miles,
                   GAsyncReadyCallback callback, gpointer user_data)
{
  const char *fields[] = { from, to, minutes, miles, NULL };

  hs_ledger_write_async (ledger, hs_deed_row_func, g_variant_new ("(ss^as)", "travel", "from,to,minutes,miles", fields),
                         NULL, FALSE, callback, user_data);
}
