// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsModelError:
 * @HS_MODEL_ERROR_CLOSED: no book is open
 * @HS_MODEL_ERROR_LOST: the book's file was moved, removed or replaced while it was open
 *
 * The codes that a caller acts on; the message says the rest, in words for the owner.
 */
typedef enum
{
  HS_MODEL_ERROR_CLOSED,
  HS_MODEL_ERROR_LOST,
} HsModelError;

#define HS_MODEL_ERROR (hs_model_error_quark ())
GQuark hs_model_error_quark (void);

G_END_DECLS
