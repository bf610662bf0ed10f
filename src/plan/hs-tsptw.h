// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"

G_BEGIN_DECLS

/* One vehicle, one window a stop: the traveling salesman problem with time windows, as public test problems put it.
 * All numbers are whole; a file with decimals is scaled (see hs-tsptw-read.h). Stops are nodes 1 and up; node 0 is
 * the depot, left once and reached once, last.
 *
 * A stop must be reached no later than its window ends; who comes early waits until it begins. Legs are driven as
 * tabled, also where a detour over another stop would be shorter. */

#define HS_TSPTW_MAX_NODES 512

/* A leg that can't be driven. */
#define HS_TSPTW_NO_LEG G_MAXINT64

/* Nothing in a problem is larger, so that sums over a tour stay exact. */
#define HS_TSPTW_MAX_VALUE G_GINT64_CONSTANT (1000000000000000)

/**
 * HsTsptwObjective:
 * @HS_TSPTW_TRAVEL: sum of the legs; the depot is left when its window begins
 * @HS_TSPTW_MAKESPAN: when the depot is reached again; it is left when its window begins
 * @HS_TSPTW_DURATION: from leaving the depot, at any time in its window, until it is reached again
 */
typedef enum
{
  HS_TSPTW_TRAVEL,
  HS_TSPTW_MAKESPAN,
  HS_TSPTW_DURATION,
} HsTsptwObjective;

/** HsTsptwPair: @first is served before @then. */
typedef struct
{
  guint first;
  guint then;
} HsTsptwPair;

/**
 * HsTsptw:
 * @decimals: numbers here are the file's times 10^@decimals
 * @drive: @n_nodes rows of legs from one node; %HS_TSPTW_NO_LEG: none
 * @from, @to: the windows; the depot's end is when the vehicle must be back
 * @before: (element-type HsTsptwPair): orders that are asked for
 *
 * Free with hs_tsptw_free ().
 */
typedef struct
{
  guint n_nodes;
  guint decimals;
  gint64 *drive;
  gint64 *from;
  gint64 *to;
  GArray *before;
} HsTsptw;

/** hs_tsptw_new: @n_nodes from 1 to %HS_TSPTW_MAX_NODES; legs of 0, windows from 0 to 0. */
HsTsptw *hs_tsptw_new (guint n_nodes);

void hs_tsptw_free (HsTsptw *problem);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptw, hs_tsptw_free)

/** hs_tsptw_get_drive: the leg between two nodes. */
gint64 hs_tsptw_get_drive (const HsTsptw *problem, guint from, guint to);

/** hs_tsptw_add_before: asks that @first is served before @then; both stops, not the depot. */
void hs_tsptw_add_before (HsTsptw *problem, guint first, guint then);

/**
 * hs_tsptw_check:
 *
 * Refuses values below zero or above %HS_TSPTW_MAX_VALUE, windows that end before they begin, and orders of nodes that
 * are not there, with %HS_PLAN_ERROR_BAD_DAY and the field.
 */
gboolean hs_tsptw_check (const HsTsptw *problem, GError **error);

/**
 * hs_tsptw_drive_order:
 * @order: the stops, `n_nodes − 1` of them
 * @ret_cost: (out): in the objective
 *
 * Returns: whether the order keeps every window and uses only legs that are there; orders asked for are not looked at
 */
gboolean hs_tsptw_drive_order (const HsTsptw *problem, HsTsptwObjective objective, const guint16 *order,
                               gint64 *ret_cost);

/**
 * HsTsptwHow:
 * @give_up: (nullable): asked now and then whether to stop with the best so far
 * @seed: of the random numbers; with the same seed an answer that was not cut is the same
 */
typedef struct
{
  HsPlanGiveUp give_up;
  gpointer user_data;
  guint32 seed;
  HsTsptwObjective objective;
} HsTsptwHow;

/**
 * HsTsptwAnswer:
 * @status: %HS_PLAN_IMPOSSIBLE only when it is proven that no tour keeps all windows
 * @found: whether there is a tour; without one @cost says nothing
 * @bound: no tour costs less
 * @order: the stops in order, without the depot, `n_nodes − 1` of them
 * @states: how many states the search kept
 */
typedef struct
{
  HsPlanStatus status;
  gboolean found;
  gint64 cost;
  gint64 bound;
  guint16 order[HS_TSPTW_MAX_NODES];
  guint64 states;
} HsTsptwAnswer;

/**
 * hs_tsptw_solve:
 * @ret_answer: (out caller-allocates): the best tour found, and how good one can be
 *
 * Fails only when hs_tsptw_check () does.
 */
gboolean hs_tsptw_solve (const HsTsptw *problem, const HsTsptwHow *how, HsTsptwAnswer *ret_answer, GError **error);

G_END_DECLS
