// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Walls around the store: put before every source of the layer (-include), so that a header which it must not use stops
 * the compiler. Their folders lie on include paths that every program has. */

#pragma once

#include <glib.h>
#include <sqlite3.h>

#pragma GCC poison GObject GFile GSettings GApplication GTypeInstance JsonNode GtkWidget
