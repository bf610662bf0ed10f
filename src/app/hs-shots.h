// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-window.h"

G_BEGIN_DECLS

/**
 * hs_shots_save:
 * @widget: a widget that has been drawn at least once
 * @path: where the PNG goes
 *
 * Returns: whether the picture of the widget's present content is on disk
 */
gboolean hs_shots_save (GtkWidget *widget, const char *path, GError **error);

/**
 * hs_shots_start:
 * @window: a presented window
 * @folder: made if missing
 *
 * Saves every view light, dark and 360 px wide into @folder as VIEW-light.png, VIEW-dark.png and VIEW-360.png, then
 * closes the application. A picture that cannot be saved is named on the error stream.
 */
void hs_shots_start (HsWindow *window, const char *folder);

G_END_DECLS
