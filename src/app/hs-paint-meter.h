// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_paint_meter_start:
 * @window: a window that is about to be presented
 *
 * For benchmarks: prints one JSON object with the processor time until the window's first paint, and the processor time
 * and resident memory once it has settled (what the pages asked of the book is drawn), then closes the window.
 */
void hs_paint_meter_start (GtkWindow *window);

G_END_DECLS
