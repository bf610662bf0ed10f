// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Walls around the command line: put before every source of it (-include), so that the database and the screen stop the
 * compiler. */

#pragma once

#include <glib.h>

#pragma GCC poison sqlite3 sqlite3_stmt GtkWidget GdkDisplay
