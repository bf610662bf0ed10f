// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-frame.h"

G_BEGIN_DECLS

/* What the rest of a day costs at the very least (private to this layer), if all calls are served. Small days: exactly
 * what it would cost if no window had to be kept, for every set of calls done and counters seen. Larger ones: the dual
 * values of the assignment relaxation (each stop has one before it and one after it). */

typedef struct _HsSolveBound HsSolveBound;
typedef struct _HsExact HsExact;

/**
 * HsRest:
 * @units: driving, work, miles and parts
 * @mile_units: miles and parts alone
 *
 * Both are %HS_SOLVE_NO_UNITS where the rest can't be done at all.
 */
typedef struct
{
  gint64 units;
  gint64 mile_units;
} HsRest;

/* For the windows of @frame as they are trimmed now. */
HsSolveBound *hs_solve_bound_new (const HsSolveFrame *frame);

/* The dual values alone, whatever the size. */
HsSolveBound *hs_solve_bound_new_quick (const HsSolveFrame *frame);
void hs_solve_bound_free (HsSolveBound *bound);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSolveBound, hs_solve_bound_free)

/* Up to 60 calls: the rest for @van at node @last with @calls done by anybody and @seen by this van. */
HsRest hs_solve_bound_rest (const HsSolveBound *bound, guint64 calls, guint32 seen, guint van, guint last);

/* The least that call @i costs in parts on @van after @seen; all that is on board counts as enough. */
gint64 hs_solve_bound_parts (const HsSolveFrame *frame, guint van, guint i, guint32 seen);

/* Looks closer, for a frame of one van, with the help of a prize for each call, which should be about what it costs to
 * serve. That takes some tenths of a second. FALSE if it can't be done. */
gboolean hs_solve_bound_look (HsSolveBound *bound, HsExact *exact, const gint64 *prizes);

/* What the whole day costs at least that goes on from node @last, as in hs_solve_outlook_least (); 0 if there was no
 * closer look. */
gint64 hs_solve_bound_outlook (const HsSolveBound *bound, guint64 calls, guint32 seen, guint last, gint32 ready,
                               gint64 flat, gint64 slope);

/* The whole day, nobody having left yet; of any size. */
gint64 hs_solve_bound_root (const HsSolveBound *bound);

G_END_DECLS
