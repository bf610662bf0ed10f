// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsCoreError:
 * @HS_CORE_ERROR_BAD_VALUE: text or a number that cannot be read as what was asked
 * @HS_CORE_ERROR_REFUSED: a rule of the trade or of the book forbids it
 *
 * The codes that a caller acts on; the message says the rest, in words for the owner.
 */
typedef enum
{
  HS_CORE_ERROR_BAD_VALUE,
  HS_CORE_ERROR_REFUSED,
} HsCoreError;

#define HS_CORE_ERROR (hs_core_error_quark ())
GQuark hs_core_error_quark (void);

/* hs_core_bad_value: sets %HS_CORE_ERROR_BAD_VALUE with what was wrong. Returns: %FALSE, to be handed on. */
gboolean hs_core_bad_value (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_core_refuse: sets %HS_CORE_ERROR_REFUSED with the rule and what to do. Returns: %FALSE, to be handed on. */
gboolean hs_core_refuse (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

G_END_DECLS
