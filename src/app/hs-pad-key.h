// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_pad_key_sign:
 * @keyval: a key of the number pad or the same sign on the main keys
 *
 * Returns: 0–9, `.`, `/`, `*`, `-`, `+`, a line feed for Enter, a backspace; NUL for a key that a number pad lacks
 */
char hs_pad_key_sign (guint keyval);

/** hs_pad_key_is_text: whether a field of @window has the cursor, so that a sign is text there and acts nowhere. */
gboolean hs_pad_key_is_text (GtkWindow *window);

G_END_DECLS
