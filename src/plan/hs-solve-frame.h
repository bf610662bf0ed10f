// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-problem.h"

G_BEGIN_DECLS

/* A problem as the search sees it (private to this layer): only the calls in play, windows turned into the times at
 * which a stop may start, legs from stop to stop, money as whole numbers, parts as who sells what for how much.
 *
 * Nodes: calls 0 … n_calls − 1, counters from n_calls on, then start and end of each van. Money is counted in
 * %HS_COST_UNITS a cent. */

#define HS_SOLVE_FAR (1 << 28)
#define HS_SOLVE_NO_UNITS (G_GINT64_CONSTANT (1) << 60)
#define HS_SOLVE_HAD_BREAK (1u << 31)

/* The first and the last second at which a stop may start. */
typedef struct
{
  gint32 first;
  gint32 last;
} HsStart;

/* @all: as promised; @open: with the spare that is asked taken off. */
typedef struct
{
  guint index;
  guint place;
  gint32 service;
  guint32 vans;
  guint n_needs;
  guint needs[HS_PROBLEM_MAX_UNITS];
  guint n_all;
  HsStart all[HS_DAY_MAX_SPANS];
  guint n_open;
  HsStart open[HS_DAY_MAX_SPANS];
  gint32 open_last;
  gint32 last;
} HsNode;

/* A part: its counters, cheapest first, and whether each van has none, enough for all, or must count. */
typedef struct
{
  guint n_sellers;
  guint sellers[HS_PROBLEM_MAX_COUNTERS];
  gint64 units[HS_PROBLEM_MAX_COUNTERS];
  guint carried[HS_PROBLEM_MAX_VANS];
  gboolean counted[HS_PROBLEM_MAX_VANS];
  guint shift[HS_PROBLEM_MAX_VANS];
  guint64 mask[HS_PROBLEM_MAX_VANS];
} HsPart;

/* @place_reach: (element-type gint32): shortest ways from place to place
 * @short_cuts: the counters by way of which some leg is shorter, in time or in miles */
typedef struct
{
  const HsProblem *problem;
  guint n_calls;
  guint n_counters;
  guint n_vans;
  guint n_nodes;
  guint dim;
  HsNode *nodes;
  HsPart *parts;
  GArray *place_reach;
  gint32 *seconds;
  gint64 *units;
  gint32 *reach;
  gint64 second_units;
  gint32 spare;
  guint32 short_cuts;
} HsSolveFrame;

/* A frame of the calls in @calls (indexes in the problem). */
HsSolveFrame *hs_solve_frame_new (const HsProblem *problem, const guint *calls, guint n_calls);

/* The same for a problem with the tables of that of @like, sooner. */
HsSolveFrame *hs_solve_frame_new_like (const HsSolveFrame *like, const HsProblem *problem, const guint *calls,
                                       guint n_calls);
void hs_solve_frame_free (HsSolveFrame *frame);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSolveFrame, hs_solve_frame_free)

/* Asks for @spare seconds before the end of the window in which a call starts; 0 trims nothing. */
void hs_solve_frame_trim (HsSolveFrame *frame, gint32 spare);

static inline guint
hs_solve_frame_start (const HsSolveFrame *frame, guint van)
{
  return frame->n_nodes + 2 * van;
}

static inline guint
hs_solve_frame_end (const HsSolveFrame *frame, guint van)
{
  return frame->n_nodes + 2 * van + 1;
}

static inline gint32
hs_solve_frame_seconds (const HsSolveFrame *frame, guint from, guint to)
{
  return frame->seconds[from * frame->dim + to];
}

static inline gint64
hs_solve_frame_units (const HsSolveFrame *frame, guint from, guint to)
{
  return frame->units[from * frame->dim + to];
}

static inline gint32
hs_solve_frame_reach (const HsSolveFrame *frame, guint from, guint to)
{
  return frame->reach[from * frame->dim + to];
}

/* Whether @van, having been at the counters @a, may do whatever it could having been at @b: it has been to all of
 * those, and to no other that could be of use again, as a short cut or as the place for a break that is still owed. */
static inline gboolean
hs_solve_frame_serves (const HsSolveFrame *frame, guint van, guint32 a, guint32 b)
{
  gboolean owes = (a & HS_SOLVE_HAD_BREAK) == 0 && hs_problem_get_van (frame->problem, van)->break_seconds > 0;

  return a == b || ((b & ~a) == 0 && !owes && (a & ~b & frame->short_cuts) == 0);
}

/* What the parts of call @i cost on @van that has been at the counters @seen and has used up @stock of what it carries;
 * %HS_SOLVE_NO_UNITS if one is not to be had. */
gint64 hs_solve_frame_buy (const HsSolveFrame *frame, guint van, guint i, guint32 seen, guint64 *stock);

/* Whether two vans can do exactly the same at the same cost. */
gboolean hs_solve_frame_alike (const HsSolveFrame *frame, guint a, guint b);

G_END_DECLS
