// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Walls around core and plan: names that only a forbidden header or a forbidden call would use.
 *
 * The build puts this file before every source of the two layers (-include). It first takes in the headers
 * they may use, then poisons the rest, so that gio, gobject, SQLite, the environment and calls that depend on
 * the locale stop the compiler. Their headers lie on include paths that every GLib program has, so the
 * include path alone cannot keep them out.
 */

#pragma once

#include <errno.h>
#include <float.h>
#include <glib.h>
#include <inttypes.h>
#include <limits.h>
#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#pragma GCC poison GObject GFile GSettings GApplication GTypeInstance
#pragma GCC poison sqlite3 sqlite3_stmt JsonNode GtkWidget
#pragma GCC poison fopen getenv g_getenv setlocale strtod strtof atof sscanf g_strtod
#pragma GCC poison g_get_real_time g_get_monotonic_time g_date_time_new_now_local g_date_time_new_now_utc
#pragma GCC poison g_random_int g_random_double g_random_int_range g_file_get_contents g_file_set_contents
