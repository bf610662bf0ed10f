// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Walls around paper: put before every source of the layer (-include), so that the database and the screen stop the
 * compiler. Pango brings gio along; that none of it is used here is for the source nets to see. */

#pragma once

#include <glib.h>

#pragma GCC poison sqlite3 sqlite3_stmt GtkWidget GdkDisplay JsonNode GFile
