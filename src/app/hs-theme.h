// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_theme_install:
 * @display: a display, after adw_init()
 *
 * Puts the look on every window of @display and keeps the token sheet in step with dark and high contrast. Calling it
 * again for the same display does nothing.
 */
void hs_theme_install (GdkDisplay *display);

G_END_DECLS
