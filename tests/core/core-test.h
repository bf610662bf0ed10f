// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the tests of this layer share: how a refusal is looked at, and days by name. */

#include "hs-core-error.h"
#include "hs-date.h"

#include <string.h>

/* The call must have failed with @code, and its message must hold @words; the error is cleared for the next row. */
static inline void
assert_refused (gboolean accepted, GError **error, HsCoreError code, const char *words)
{
  g_assert_false (accepted);
  g_assert_error (*error, HS_CORE_ERROR, (int) code);
  if (strstr ((*error)->message, words) == NULL)
    g_error ("“%s” does not say “%s”", (*error)->message, words);
  g_clear_error (error);
}

static inline void
assert_bad_value (gboolean accepted, GError **error, const char *words)
{
  assert_refused (accepted, error, HS_CORE_ERROR_BAD_VALUE, words);
}

/* The day that @text names; nothing is none. */
static inline HsDate
day (const char *text)
{
  HsDate date = HS_DATE_NONE;
  g_autoptr (GError) error = NULL;

  g_assert_true (*text == '\0' || hs_date_parse (text, &date, &error));
  g_assert_no_error (error);
  return date;
}
