// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-frame.h"

G_BEGIN_DECLS

/* How a van gets on, one stop at a time (private to this layer). Where a step stands depends on when the van left: free
 * at max (@ready, leave + @drive) for each leave up to @leave_max. So one step stands for all leave times at once, and
 * the best one is chosen at the end. All of it is exact whole-number arithmetic. */

/* One step can have several continuations: one a window. */
#define HS_STEP_MAX_NEXT HS_DAY_MAX_SPANS

/**
 * HsSolveTerms: what a plan has to keep.
 * @flat: leaving first thing and nothing costs: all that is asked is what can be kept
 * @missed: at most so many calls late or not served
 * @dropped: at most so many not served
 * @late: at most so many seconds late in all
 * @late_each: at most so many seconds late at one call
 */
typedef struct
{
  gboolean flat;
  guint missed;
  guint dropped;
  gint64 late;
  gint32 late_each;
} HsSolveTerms;

#define HS_SOLVE_TERMS_STRICT { FALSE, 0, 0, 0, 0 }
#define HS_SOLVE_TERMS_OPEN { TRUE, G_MAXUINT16, G_MAXUINT16, G_MAXINT32, G_MAXINT32 }

/**
 * HsStep:
 * @units: miles and parts so far, and the whole of the vans that are home
 * @stock: how many counted units are used up
 * @ready: free at this second when leaving early enough
 * @drive: seconds between leaving and being free when leaving late
 * @leave_max: latest leave that keeps all windows so far
 * @late: seconds late in all
 * @broken: calls late
 * @seen: counters this van has been at, and whether it had its break
 * @last: node it is at
 * @van: whose day it is
 */
typedef struct
{
  gint64 units;
  guint64 stock;
  gint32 ready;
  gint32 drive;
  gint32 leave_max;
  gint32 late;
  guint32 seen;
  guint16 broken;
  guint8 last;
  guint8 van;
} HsStep;

/**
 * HsClose: a van that is home again.
 * @units: with its time away
 * @late, @broken: as in #HsStep
 */
typedef struct
{
  gint64 units;
  gint32 leave;
  gint32 home;
  gint32 late;
  guint broken;
} HsClose;

/* A van at its start, in one or two ways: leaving at any time, or only after its break. Returns how many. */
guint hs_step_begin (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, HsStep *ret_steps);

/* Continues @step by one stop into @ret_next (room for %HS_STEP_MAX_NEXT); returns in how many ways, 0 if it can't be.
 * A break is taken at the same place. */
guint hs_step_call (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsStep *step, guint call,
                    HsStep *ret_next);
guint hs_step_counter (const HsSolveFrame *frame, const HsStep *step, guint counter, HsStep *ret_next);
guint hs_step_break (const HsSolveFrame *frame, const HsStep *step, HsStep *ret_next);

/* Brings the van home at the best leave time: cheapest, then home earliest, then leave latest. A van that has not
 * moved costs nothing. FALSE if it can't be home in time; without its break that is early enough to have it at home. */
gboolean hs_step_close (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsStep *step, HsClose *ret_close);

/* Fewest broken, then least late, cheapest, home earliest, leave latest: below 0 where @a is better. */
static inline int
hs_step_compare_closes (const HsClose *a, const HsClose *b)
{
  if (a->broken != b->broken)
    return a->broken < b->broken ? -1 : 1;
  if (a->late != b->late)
    return a->late < b->late ? -1 : 1;
  if (a->units != b->units)
    return a->units < b->units ? -1 : 1;
  if (a->home != b->home)
    return a->home < b->home ? -1 : 1;
  return a->leave == b->leave ? 0 : a->leave > b->leave ? -1 : 1;
}

/* Whether @a is at least as good as @b whatever comes after; both of one van, at one place, with the same done. */
static inline gboolean
hs_step_dominates (const HsStep *a, const HsStep *b)
{
  return a->ready <= b->ready && a->units <= b->units && a->leave_max >= b->leave_max && a->broken <= b->broken
         && a->late <= b->late && (a->drive <= b->drive || b->leave_max + a->drive <= b->ready);
}

/* What a van that is where @step says has cost at the least; later it is max (this + driving and work, home + slope),
 * all in units. */
static inline gint64
hs_step_flat (const HsSolveFrame *frame, const HsStep *step)
{
  return step->units + MAX (step->drive, step->ready - step->leave_max) * frame->second_units;
}

static inline gint64
hs_step_slope (const HsSolveFrame *frame, const HsStep *step)
{
  return step->units - step->leave_max * frame->second_units;
}

/* Whether @a ends cheaper than @b whatever comes after; both as above. What comes after adds the same driving, work,
 * miles and parts to both, and brings @a home no later. With D for that driving and work, home at h, a plan costs, but
 * for the same miles and parts, the largest of flat + D, slope + h and, for each stop that must start by l and is
 * reached after d, flat + d + h - l; all three are less for @a. */
static inline gboolean
hs_step_beats (const HsSolveFrame *frame, const HsStep *a, const HsStep *b)
{
  return a->ready <= b->ready && a->broken <= b->broken && a->late <= b->late
         && hs_step_flat (frame, a) < hs_step_flat (frame, b) && hs_step_slope (frame, a) < hs_step_slope (frame, b);
}

G_END_DECLS
