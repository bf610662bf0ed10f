// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"
#include "hs-solve-bound.h"
#include "hs-solve-step.h"

G_BEGIN_DECLS

/* The search over (calls done, counters seen, where the van is), van after van, stop after stop (private to this
 * layer). Of two ways to the same state only those are kept that are not worse in everything. Whole: what it finds is
 * the best, and finding nothing proves that there is nothing. Narrow: it keeps a few of the most promising ways and
 * proves nothing, but is quick. */

#define HS_EXACT_MAX_CALLS 60
#define HS_EXACT_MAX_STOPS (HS_PROBLEM_MAX_CALLS + 2 * HS_PROBLEM_MAX_COUNTERS * HS_PROBLEM_MAX_VANS)

/* What a stop of a path can be besides a node: a break, or the end of a van's day. */
#define HS_PATH_BREAK 254
#define HS_PATH_CLOSE 255

/**
 * HsPath: a whole plan in the order in which it was made: the stops of the first van, %HS_PATH_CLOSE, and so on.
 * @leave, @home: one a van
 */
typedef struct
{
  guint n_stops;
  guint8 stops[HS_EXACT_MAX_STOPS];
  gint32 leave[HS_PROBLEM_MAX_VANS];
  gint32 home[HS_PROBLEM_MAX_VANS];
} HsPath;

/**
 * HsScore: how good a whole plan is; less is better, in this order.
 * @missed: calls late or not served
 * @dropped: calls not served
 * @homes: sum of the times at which vans are home
 * @leaves: sum of the times at which they leave; more is better
 * @stops: calls, counters and breaks on the way
 */
typedef struct
{
  guint missed;
  guint dropped;
  gint64 late;
  gint64 units;
  gint64 homes;
  gint64 leaves;
  guint stops;
} HsScore;

#define HS_SCORE_WORST                                                                                    \
  { G_MAXUINT16, G_MAXUINT16, G_MAXINT64 / 4, HS_SOLVE_NO_UNITS, G_MAXINT64, G_MININT64, G_MAXUINT16 }

int hs_score_compare (const HsScore *a, const HsScore *b);

/* Told of a path that is better than the best so far. */
typedef void (*HsPathFound) (const HsPath *path, gpointer data);

/**
 * HsExact: a search over its lifetime.
 * @give_up: (nullable): asked now and then
 * @max_labels: a run ends when it has kept so many
 * @cut: it was told to give up, and every further run will end at once
 * @full: the last run ended because of @max_labels
 * @reached_percent: how much of the way the last run had come when it was full
 * @states: states kept so far, over all runs
 * @found: (nullable): told of each better path as soon as it is found
 */
struct _HsExact
{
  HsPlanGiveUp give_up;
  gpointer user_data;
  gsize max_labels;
  gboolean cut;
  gboolean full;
  guint reached_percent;
  guint64 states;
  HsPathFound found;
  gpointer found_data;
};

/* Whether it is time to stop. */
gboolean hs_exact_gives_up (HsExact *exact);

/**
 * hs_exact_run:
 * @bound: (nullable): for the costs; without it only time and promises cut the search
 * @width: keep so many ways a bucket; 0: all
 * @best: the best known so far and what comes out; only what is better is looked for
 * @ret_floor: (out) (optional): no plan under the terms costs less than this, whether the search was cut or not
 *
 * Returns: whether a better path was found
 */
gboolean hs_exact_run (HsExact *exact, const HsSolveFrame *frame, const HsSolveBound *bound,
                       const HsSolveTerms *terms, guint width, HsScore *best, HsPath *path, gint64 *ret_floor);

G_END_DECLS
