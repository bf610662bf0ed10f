// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsPostError:
 * @HS_POST_ERROR_NO_SECRET: there is none, or it may not be used; the message says what to do
 *
 * The codes that a caller acts on.
 */
typedef enum
{
  HS_POST_ERROR_NO_SECRET,
} HsPostError;

#define HS_POST_ERROR (hs_post_error_quark ())
GQuark hs_post_error_quark (void);

G_END_DECLS
