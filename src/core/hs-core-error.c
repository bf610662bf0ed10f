// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The error domain of the core layer, and the two ways to refuse in a sentence of its own. */

#include "hs-core-error.h"

G_DEFINE_QUARK (hs-core-error-quark, hs_core_error)

static gboolean
set_error (GError **error, HsCoreError code, const char *format, va_list args) G_GNUC_PRINTF (3, 0);

static gboolean
set_error (GError **error, HsCoreError code, const char *format, va_list args)
{
  g_autofree char *message = g_strdup_vprintf (format, args);

  g_set_error_literal (error, HS_CORE_ERROR, (int) code, message);
  return FALSE;
}

gboolean
hs_core_bad_value (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  set_error (error, HS_CORE_ERROR_BAD_VALUE, format, args);
  va_end (args);
  return FALSE;
}

gboolean
hs_core_refuse (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  set_error (error, HS_CORE_ERROR_REFUSED, format, args);
  va_end (args);
  return FALSE;
}
