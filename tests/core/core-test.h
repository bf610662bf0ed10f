// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the tests of this layer share: how a refusal is looked at. */

#include "hs-core-error.h"

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
