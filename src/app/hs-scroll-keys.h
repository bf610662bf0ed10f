// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_scroll_keys_install:
 * @window: the window whose keys are meant
 * @scroller: what is read in it
 *
 * ↓, ↑, PgDn, PgUp, Home and End in @window scroll @scroller, wherever the focus is. For windows that are read, and
 * whose only buttons lie beside what is read.
 */
void hs_scroll_keys_install (GtkWidget *window, GtkScrolledWindow *scroller);

G_END_DECLS
