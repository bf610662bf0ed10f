// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"
#include "hs-problem.h"

G_BEGIN_DECLS

/* Plans a day of one or several vans: who serves which call, in which order, at which counters what is bought on the
 * way, when each van leaves. Small days are proven; for larger ones the answer says how far it may be from the best.
 *
 * What counts, in this order: most promises kept; fewest calls not served at all; least lateness; the asked spare, or
 * else as much of it as can be had; cheapest (compared before rounding); home earliest; leave latest; fewest stops;
 * ids of the stops in order, van after van. With several vans home and leave count as sums.
 *
 * On days too large to be gone through whole, and where more plans are worth the same than can be gone through in a
 * moment, ids settle less: which of the vans that are alike in everything has which trip, and the order of a van's
 * stops, as long as its orders can be gone through in a moment. The answer is the same in whatever order vans, calls,
 * counters and parts are written down; its lists are in the order of ids. Only where the search is cut by @give_up may
 * it differ, as it may from run to run. */

typedef enum
{
  HS_ROUTE_CALL,
  HS_ROUTE_COUNTER,
  HS_ROUTE_BREAK,
} HsRouteStopKind;

/**
 * HsRouteStop:
 * @index: of the call or counter in the problem; 0 for a break
 * @slack_seconds: how much later it could start in the span in which it starts; below zero for a late call
 */
typedef struct
{
  HsRouteStopKind kind;
  guint index;
  gint32 arrive_seconds;
  gint32 start_seconds;
  gint32 depart_seconds;
  gint32 slack_seconds;
} HsRouteStop;

/**
 * HsRoute: one van's day; a van that stays has none.
 * @stops: (element-type HsRouteStop)
 */
typedef struct
{
  guint van;
  gint32 leave_seconds;
  gint32 home_seconds;
  gint32 drive_seconds;
  gint64 drive_millimiles;
  gint32 wait_seconds;
  GArray *stops;
} HsRoute;

/** HsBought: a unit of @part bought at @counter for @call. */
typedef struct
{
  guint part;
  guint counter;
  guint van;
  guint call;
  gint64 cents;
} HsBought;

/**
 * HsTrouble: a call that is late or not served.
 * @late_seconds: 0 for one that is not served
 * @why: plain words, with the smallest set of other calls that it conflicts with
 * @conflicts: (element-type guint): those calls
 * @mends: (element-type utf8): what would keep all promises of that set
 */
typedef struct
{
  guint call;
  gint32 late_seconds;
  char *why;
  GArray *conflicts;
  GPtrArray *mends;
} HsTrouble;

/* hs_trouble_new: (transfer full): without reasons; for the lists of a solution, which free it. */
HsTrouble *hs_trouble_new (guint call, gint32 late_seconds);

/**
 * HsSolution:
 * @status: %HS_PLAN_IMPOSSIBLE: it is proven that not every call can be served in time
 * @proven: nothing better exists in any respect; of days too large to be gone through whole: nothing that keeps as
 *   much and costs less
 * @cost_units: in 1/3000 of a cent; @cost_cents is it rounded once, half up
 * @bound_cents: no plan that keeps as much costs less
 * @spare_seconds: least over all served calls of window end − start; %HS_PLAN_NO_LIMIT without calls
 * @states: how many states the search kept
 *
 * Free with hs_solution_free ().
 */
typedef struct
{
  HsPlanStatus status;
  gboolean proven;
  gint64 cost_units;
  gint64 cost_cents;
  gint64 bound_cents;
  gint32 spare_seconds;
  guint64 states;
  GPtrArray *routes;
  GArray *bought;
  GPtrArray *unserved;
  GPtrArray *broken;
} HsSolution;

/**
 * HsSolveFound:
 * @solution: (transfer none): the plan, without reasons; its bound is 0 while it is not yet asked what the day costs
 *
 * Told of each plan that is better than all before it, while the search goes on. It must not change anything that the
 * search looks at.
 */
typedef void (*HsSolveFound) (const HsSolution *solution, gpointer user_data);

/**
 * HsSolveHow:
 * @give_up: (nullable): asked now and then whether to stop with the best so far
 * @seed: of the random numbers that larger days are searched with
 * @explain: whether to search for reasons and mends
 * @searched_enough: (nullable): asked, with @user_data, instead of @give_up until the plan stands, so that time is left
 *   for reasons; it has to say yes wherever @give_up does
 * @max_labels: a whole search ends when it has kept so many states; 0: as many as fit in 560 MB
 * @max_work: how many ways of trips are compared for the bound of days too large to be gone through whole, some 800
 *   million in a second; 0: 4000 million
 * @found: (nullable): told, with @user_data, of each better plan, and at last of the one that stands, with its proof
 *   and before reasons are searched; the answer is the same with and without it
 */
typedef struct
{
  HsPlanGiveUp give_up;
  gpointer user_data;
  guint32 seed;
  gboolean explain;
  gsize max_labels;
  HsPlanGiveUp searched_enough;
  HsSolveFound found;
  guint64 max_work;
} HsSolveHow;

/**
 * hs_solve:
 * @how: how long, and from which seed
 * @ret_solution: (out) (transfer full): the plan
 *
 * Fails with %HS_PLAN_ERROR_BAD_DAY only when hs_problem_check () does; a day that can't be kept is an answer.
 */
gboolean hs_solve (const HsProblem *problem, const HsSolveHow *how, HsSolution **ret_solution, GError **error);

const HsRoute *hs_solution_get_route (const HsSolution *solution, guint index);
const HsTrouble *hs_solution_get_broken (const HsSolution *solution, guint index);
const HsTrouble *hs_solution_get_unserved (const HsSolution *solution, guint index);

/* hs_solution_copy: (transfer full): a copy that shares nothing. */
HsSolution *hs_solution_copy (const HsSolution *solution);

/* hs_solution_set_late: says how late @call is; 0: in time. Reasons and mends that are known for it stay. */
void hs_solution_set_late (HsSolution *solution, guint call, gint32 late_seconds);

/**
 * hs_solution_free:
 * @solution: (nullable) (transfer full): a solution
 */
void hs_solution_free (HsSolution *solution);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSolution, hs_solution_free)

G_END_DECLS
