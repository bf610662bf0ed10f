// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_in_sight_follow:
 *
 * Whatever gets the focus in @window is scrolled into sight, with the line around it, and no list hangs open from what
 * is out of sight.
 */
void hs_in_sight_follow (GtkWindow *window);

G_END_DECLS
