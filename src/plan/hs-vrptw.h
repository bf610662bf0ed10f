// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"

G_BEGIN_DECLS

/* Many customers, vans that are all alike, loads and windows: the vehicle routing problem with time windows as the
 * public sets have it. One place is home to all vans; a leg takes as long as it is far. hs_vrptw_read () fills one in
 * from a public file, hs_vrptw_solve () plans it.
 *
 * All numbers are whole: times, distances and loads count millionths of the file's unit (%HS_VRPTW_DECIMALS places). A
 * leg is the straight line rounded up to the next millionth, so that what is in time here is in time in exact
 * arithmetic too, and no detour is ever shorter than the straight way. A sum of k legs is above the exact one by less
 * than k millionths. */

#define HS_VRPTW_DECIMALS 6
#define HS_VRPTW_MAX_CUSTOMERS 1000

/**
 * HsVrptwStop:
 * @x, @y: where it is
 * @demand: what it takes of a van's capacity
 * @ready: earliest start of service; a van that is early waits
 * @due: latest start of service
 * @service: how long service takes
 *
 * For home (stop 0), @ready is the earliest leave, @due the latest return, @demand and @service are 0.
 */
typedef struct
{
  gint64 x;
  gint64 y;
  gint64 demand;
  gint64 ready;
  gint64 due;
  gint64 service;
} HsVrptwStop;

/**
 * HsVrptw:
 * @name: as the file calls it
 * @n: number of customers; stops 1 … n
 * @vans: how many vans there are
 * @capacity: of each van
 * @stops: (array): n + 1 stops, home first
 * @legs: (array): n + 1 by n + 1, symmetric, 0 on the diagonal, set by hs_vrptw_measure ()
 *
 * Free with hs_vrptw_free ().
 */
typedef struct
{
  char *name;
  guint n;
  guint vans;
  gint64 capacity;
  HsVrptwStop *stops;
  gint64 *legs;
} HsVrptw;

/**
 * HsVrptwAim:
 * @HS_VRPTW_DISTANCE: least distance with at most as many vans as there are
 * @HS_VRPTW_VEHICLES: fewest vans, then least distance
 */
typedef enum
{
  HS_VRPTW_DISTANCE,
  HS_VRPTW_VEHICLES,
} HsVrptwAim;

/**
 * HsVrptwHow:
 * @give_up: (nullable): asked every few hundred rounds whether to stop
 * @used: (nullable): how much of the time allowed is used, 0 … 1; asked as often. The search cools by rounds, or by
 *   this when the rounds would not be done in time
 * @user_data: for both
 * @seed: same problem, seed and rounds → same answer, as long as neither @give_up nor @used cuts in
 * @rounds: how many rounds of taking out and putting back; 0: as many as %HS_VRPTW_ROUNDS
 */
typedef struct
{
  HsPlanGiveUp give_up;
  double (*used) (gpointer user_data);
  gpointer user_data;
  guint32 seed;
  guint64 rounds;
  HsVrptwAim aim;
} HsVrptwHow;

#define HS_VRPTW_ROUNDS 200000

/**
 * HsVrptwPlan:
 * @status: %HS_PLAN_IMPOSSIBLE: proven that not every customer can be served
 * @cost: distance of all routes
 * @bound: no plan that serves as many customers, and for %HS_VRPTW_VEHICLES with as few vans, is shorter; 0: none known
 * @routes: (element-type GArray of guint): the customers of each van in order, none empty; ordered by their first
 *   customer
 * @unserved: (element-type guint): customers that are left out, in order. Those of a plan that is only
 *   %HS_PLAN_BEST_FOUND might yet find room
 * @states: rounds done, or sets of customers looked at
 */
typedef struct
{
  HsPlanStatus status;
  gint64 cost;
  gint64 bound;
  GPtrArray *routes;
  GArray *unserved;
  guint64 states;
} HsVrptwPlan;

/**
 * hs_vrptw_new:
 * @n: number of customers
 *
 * One van without capacity; all stops at the origin with nothing to do; legs are 0.
 *
 * Returns: (transfer full): the problem
 */
HsVrptw *hs_vrptw_new (guint n);

/**
 * hs_vrptw_free:
 * @problem: (nullable) (transfer full): a problem
 */
void hs_vrptw_free (HsVrptw *problem);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsVrptw, hs_vrptw_free)

/**
 * hs_vrptw_measure:
 *
 * Sets the legs from where the stops are: the straight line, rounded up.
 */
void hs_vrptw_measure (HsVrptw *problem);

/* hs_vrptw_leg: from stop @from to stop @to. */
static inline gint64
hs_vrptw_leg (const HsVrptw *problem, guint from, guint to)
{
  return problem->legs[(gsize) from * (problem->n + 1) + to];
}

/**
 * hs_vrptw_solve:
 * @ret_plan: (out) (transfer full): the plan
 *
 * Plans the routes. Up to %HS_VRPTW_EXACT_CUSTOMERS customers the answer is proven, unless it is told to give up;
 * above that it is the best found, with a lower bound. Serving more customers always comes first. Being told to give
 * up at once still leaves a plan that can be driven.
 *
 * Fails with %HS_PLAN_ERROR_BAD_DAY when the problem is not one (hs_vrptw_check ()).
 */
gboolean hs_vrptw_solve (const HsVrptw *problem, const HsVrptwHow *how, HsVrptwPlan **ret_plan, GError **error);

#define HS_VRPTW_EXACT_CUSTOMERS 12

/**
 * hs_vrptw_rounds:
 * @n: number of customers
 *
 * Returns: how many rounds an ordinary machine can be trusted to do in @seconds; few customers need fewer
 */
guint64 hs_vrptw_rounds (guint n, double seconds);

/**
 * hs_vrptw_check:
 * @error: names the stop and what is wrong with it
 *
 * Whether sizes, signs and windows make a problem: 1 van or more, up to %HS_VRPTW_MAX_CUSTOMERS customers, nothing
 * below zero, no number beyond %HS_VRPTW_MOST, no window that ends before it starts.
 */
gboolean hs_vrptw_check (const HsVrptw *problem, GError **error);

/* A million units. */
#define HS_VRPTW_MOST G_GINT64_CONSTANT (1000000000000)

/* hs_vrptw_get_route: (transfer none): the customers of route @index. */
const GArray *hs_vrptw_get_route (const HsVrptwPlan *plan, guint index);

/**
 * hs_vrptw_plan_free:
 * @plan: (nullable) (transfer full): a plan
 */
void hs_vrptw_plan_free (HsVrptwPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsVrptwPlan, hs_vrptw_plan_free)

G_END_DECLS
