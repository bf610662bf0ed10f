// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw.h"

G_BEGIN_DECLS

/**
 * hs_vrptw_read:
 * @bytes: (array length=length): a file in the text format of Solomon's sets
 * @error: "line 12, READY TIME: …"
 * @ret_problem: (out) (transfer full): the problem, measured and checked
 *
 * The format: a line with the name; `VEHICLE`, a line of column names, a line with the number of vans and their
 * capacity; `CUSTOMER`, a line of column names, and one line a stop: customer number (counted from 0, which is home),
 * x, y, demand, ready time, due date, service time. Blank lines, tabs, spaces and line ends of all kinds are all one.
 * Numbers are decimals with up to six places, read exactly; only x and y may be below zero.
 *
 * Fails with %HS_PLAN_ERROR_BAD_DAY, naming line, field and reason.
 */
gboolean hs_vrptw_read (const char *bytes, gsize length, HsVrptw **ret_problem, GError **error);

G_END_DECLS
