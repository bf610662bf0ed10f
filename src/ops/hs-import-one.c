// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of a row that was typed. It goes the way of a file of one row and refuses what that would refuse.
 */

#include "hs-import.h"

#include "hs-ops-error.h"

#include <string.h>

/* One row of RFC 4180 under its header. */
static GBytes *
make_file (const char *header, const char *const *fields)
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

gboolean
hs_import_one (HsBook *book, const char *kind, const char *header, const char *const *fields, HsInstant now,
               GError **error)
{
  g_autoptr (GBytes) bytes = make_file (header, fields);
  g_autoptr (HsImportReport) report = NULL;
  g_autoptr (GError) refused = NULL;

  if (hs_import (book, kind, "", bytes, HS_IMPORT_NONE, now, &report, &refused))
    return TRUE;
  /* ":2: FIELD: reason": there is only this row. */
  if (report != NULL && report->faults->len > 0)
    {
      const char *fault = g_ptr_array_index (report->faults, 0);
      const char *tail = strstr (fault, ": ");

      g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, tail != NULL ? tail + 2 : fault);
    }
  else
    g_propagate_error (error, g_steal_pointer (&refused));
  return FALSE;
}
