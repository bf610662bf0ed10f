// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-frame.h"

G_BEGIN_DECLS

#define HS_SCREEN_NEVER G_MAXINT64

/* What it about costs more to put @call into an order of kept promises at the places @first to @last (0: before all;
 * private to this layer), into @ret_more, which has room for n_calls + 1; %HS_SCREEN_NEVER where it can't be driven.
 * Stops for parts and breaks are left out, several windows of a call count as one from the first to the last. Where
 * there is none of these it is exact. Takes no longer for many places than for one. */
void hs_solve_screen (const HsSolveFrame *frame, guint van, const guint8 *calls, guint n_calls, guint call, guint first,
                      guint last, gint64 *ret_more);

G_END_DECLS
