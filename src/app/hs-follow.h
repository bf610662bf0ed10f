// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_follow_fill:
 * @entry: a field of its own, in a window
 * @stored: what the book has
 *
 * Shows @stored, unless @entry has the cursor and something else was typed in since the last time.
 */
void hs_follow_fill (GtkEditable *entry, const char *stored);

/* hs_follow_is_touched: whether it says anything else than hs_follow_fill() was last told. A field that is left
 * untouched is not to be stored: the book may not have answered yet, or have something newer. */
gboolean hs_follow_is_touched (GtkEditable *entry);

G_END_DECLS
