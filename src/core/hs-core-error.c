// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The error domain of the core layer, and the one way to refuse a value in a sentence of its own. */

#include "hs-core-error.h"

G_DEFINE_QUARK (hs-core-error-quark, hs_core_error)

gboolean
hs_core_bad_value (GError **error, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list args;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, message);
  return FALSE;
}
