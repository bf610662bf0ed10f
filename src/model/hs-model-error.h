// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsModelError:
 * @HS_MODEL_ERROR_CLOSED: the book was closed while the answer was on its way
 *
 * The codes that a caller acts on; the message says the rest, in words for the owner.
 */
typedef enum
{
  HS_MODEL_ERROR_CLOSED,
} HsModelError;

#define HS_MODEL_ERROR (hs_model_error_quark ())
GQuark hs_model_error_quark (void);

G_END_DECLS
