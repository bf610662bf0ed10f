// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"

G_BEGIN_DECLS

/* One van and the calls it serves in a given order (private to this layer): the best counters and the best moment for
 * the break are put in between. */

#define HS_DRIVE_MAX_STOPS (HS_PROBLEM_MAX_CALLS + HS_PROBLEM_MAX_COUNTERS + 1)

/* @stops: nodes, and %HS_PATH_BREAK */
typedef struct
{
  guint n_stops;
  guint8 stops[HS_DRIVE_MAX_STOPS];
  HsClose close;
} HsDrive;

/* FALSE if the order can't be driven under @terms. Keeps up to 64 ways at a time, so that with very many counters it
 * may miss the very best one, but what it gives can be driven. @ret_drive may be %NULL; then it is up to 8 ways, and
 * only counters that sell something needed or shorten a way. */
gboolean hs_solve_drive (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, const guint8 *calls,
                         guint n_calls, HsClose *ret_close, HsDrive *ret_drive);

/**
 * HsInsert: what it would cost to put a call into the order at one place.
 * @fits: whether it can be driven
 */
typedef struct
{
  gboolean fits;
  HsClose close;
} HsInsert;

/* Tries @call at the places @first to @last of the order (0: before all), into @ret_inserts, which has room for
 * n_calls + 1; hs_solve_drive () may find lower costs. */
void hs_solve_drive_insert (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, const guint8 *calls,
                            guint n_calls, guint call, guint first, guint last, HsInsert *ret_inserts);

/* The counters at which it may be of use to @van to stop: those that sell what calls need that it may serve and has not
 * on board for all of them, those by way of which some leg is shorter, and, where a break is to be had, all. */
guint32 hs_solve_drive_useful (const HsSolveFrame *frame, guint van);

/** HsOrders: who serves what in which order. */
typedef struct
{
  guint n[HS_PROBLEM_MAX_VANS];
  guint8 calls[HS_PROBLEM_MAX_VANS][HS_PROBLEM_MAX_CALLS];
} HsOrders;

void hs_solve_orders_read (const HsSolveFrame *frame, const HsPath *path, HsOrders *ret_orders);

/* Drives them all. FALSE, with @path and @score spoiled, if one can't be driven under @terms. */
gboolean hs_solve_orders_write (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsOrders *orders,
                                HsPath *path, HsScore *score);

G_END_DECLS
