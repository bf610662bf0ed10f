// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_help_overlay_new:
 *
 * Returns: (transfer floating): the window that lists every key
 */
GtkWindow *hs_help_overlay_new (void);

/** hs_help_overlay_present: shows the keys over @parent. */
void hs_help_overlay_present (GtkWindow *parent);

G_END_DECLS
