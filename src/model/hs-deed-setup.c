// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of setting a book up. Places and drives go the way of an imported file of one row, so that one rule judges
 * both; only the file's name and row are left out of what is said. */

#include "hs-deed-setup.h"

#include "hs-import.h"
#include "hs-ops-error.h"

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

/* One row of RFC 4180 under its header. */
static GBytes *
hs_deed_row (const char *header, const char *const *fields)
{
  GString *text = g_string_new (header);

  for (gsize i = 0; fields[i] != NULL; i++)
    {
      g_string_append (text, i == 0 ? "\n\"" : ",\"");
      for (const char *at = fields[i]; *at != '\0'; at++)
        {
          if (*at == '"')
            g_string_append_c (text, '"');
          g_string_append_c (text, *at);
        }
      g_string_append_c (text, '"');
    }
  g_string_append_c (text, '\n');
  return g_string_free_to_bytes (text);
}

static gpointer
hs_deed_row_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *kind, *header;
  g_autofree const char **fields = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (HsImportReport) report = NULL;
  g_autoptr (GError) refused = NULL;

  g_variant_get (args, "(&s&s^a&s)", &kind, &header, &fields);
  bytes = hs_deed_row (header, fields);
  if (hs_import (book, kind, "", bytes, HS_IMPORT_NONE, now, &report, &refused))
    return NULL;
  /* ":2: FIELD: reason": there is only this row. */
  if (report != NULL && report->faults->len > 0)
    {
      const char *fault = g_ptr_array_index (report->faults, 0);
      const char *tail = strstr (fault, ": ");

      g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, tail != NULL ? tail + 2 : fault);
    }
  else
    g_propagate_error (error, g_steal_pointer (&refused));
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
