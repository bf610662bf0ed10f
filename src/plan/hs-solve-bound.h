// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-frame.h"

G_BEGIN_DECLS

/* What the rest of a day costs at the very least (private to this layer), if all calls are served. Small days: exactly
 * what it would cost if no window had to be kept, for every set of calls done and counters seen. Larger ones: the dual
 * values of the assignment relaxation (each stop has one before it and one after it). */

typedef struct _HsSolveBound HsSolveBound;

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

/* The whole day, nobody having left yet; of any size. */
gint64 hs_solve_bound_root (const HsSolveBound *bound);

G_END_DECLS
