// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Walls around the model: put before every source of the layer (-include), so that the database and the screen stop the
 * compiler. */

#pragma once

#include <gio/gio.h>
#include <glib.h>

#pragma GCC poison sqlite3 sqlite3_stmt GtkWidget GdkDisplay
