// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw.h"

G_BEGIN_DECLS

/**
 * hs_tsptw_read:
 * @text, @length: the file's bytes
 * @ret_problem: (out) (transfer full): the problem
 *
 * Reads the number of nodes, the table of legs row by row, then "from to" for each node. `#` begins a comment that ends
 * with the line; empty lines are skipped. A row may go on over several lines. What follows the two numbers of a window
 * on its line is skipped, since public files keep notes there. Behind the last window nothing may stand but the mark
 * 999, with which some public files end; what follows it is skipped. Decimals are kept exactly: the problem's numbers
 * are scaled by a power of ten, the same for all.
 *
 * Refuses anything else with %HS_PLAN_ERROR_BAD_DAY, the line's number, the field and the reason.
 */
gboolean hs_tsptw_read (const char *text, gsize length, HsTsptw **ret_problem, GError **error);

G_END_DECLS
