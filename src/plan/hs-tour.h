// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan.h"

G_BEGIN_DECLS

/* The cheapest round through all places, with nothing to wait for: legs may differ both ways, and some places may have
 * to come before others. A one-way trip is a round whose last leg back is free. */

#define HS_TOUR_MAX_NODES 2000
#define HS_TOUR_MAX_COST 1000000000

/**
 * HsTourOrder: @later may only be reached after @earlier, both counted from node 0, where the round starts.
 */
typedef struct
{
  guint earlier;
  guint later;
} HsTourOrder;

/**
 * HsTourProblem:
 * @n: number of nodes; the round starts and ends at node 0
 * @costs: (array): n × n, row = from, 0 to %HS_TOUR_MAX_COST; the diagonal does not count
 * @orders: (element-type HsTourOrder): what must come before what
 */
typedef struct
{
  guint n;
  gint32 *costs;
  GArray *orders;
} HsTourProblem;

/**
 * hs_tour_problem_new:
 * @n: 1 to %HS_TOUR_MAX_NODES
 *
 * Returns: (transfer full): a problem with all legs free
 */
HsTourProblem *hs_tour_problem_new (guint n);

/**
 * hs_tour_problem_free:
 * @problem: (nullable) (transfer full): a problem
 */
void hs_tour_problem_free (HsTourProblem *problem);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTourProblem, hs_tour_problem_free)

/** hs_tour_problem_set_cost: that way only. */
void hs_tour_problem_set_cost (HsTourProblem *problem, guint from, guint to, gint32 cost);

/** hs_tour_problem_add_order: says that @earlier comes before @later. */
void hs_tour_problem_add_order (HsTourProblem *problem, guint earlier, guint later);

/**
 * hs_tour_problem_cost:
 * @order: (array length=n): nodes in the order of the round
 *
 * Returns: the cost of the closed round
 */
gint64 hs_tour_problem_cost (const HsTourProblem *problem, const guint *order);

/**
 * hs_tour_problem_check:
 *
 * Whether there is a round: costs in range, orders between nodes that exist, none before node 0, no ring of orders.
 * Fails with %HS_PLAN_ERROR_BAD_DAY and names what is wrong.
 */
gboolean hs_tour_problem_check (const HsTourProblem *problem, GError **error);

/**
 * HsTour:
 * @status: %HS_PLAN_OPTIMAL if nothing cheaper exists, else %HS_PLAN_BEST_FOUND
 * @cost: of the closed round
 * @bound: no round costs less
 * @order: (array length=n): the nodes, node 0 first
 * @states: how many states and branches the proof looked at
 */
typedef struct
{
  HsPlanStatus status;
  gint64 cost;
  gint64 bound;
  guint n;
  guint *order;
  guint64 states;
} HsTour;

/**
 * HsTourHow:
 * @give_up: (nullable): asked now and then whether to stop with the best so far
 * @seed: of the random numbers of the search
 */
typedef struct
{
  HsPlanGiveUp give_up;
  gpointer user_data;
  guint32 seed;
} HsTourHow;

/**
 * hs_tour_solve:
 * @ret_tour: (out) (transfer full): the round
 *
 * Searches, then tries to prove: small ones and those with orders by dynamic programming over sets of nodes, others
 * by branching over the Lagrangian bound of Held and Karp (1-trees). Where neither ends, it goes on searching
 * until a fixed amount of work is done or @how says to give up. Fails only as hs_tour_problem_check () does.
 */
gboolean hs_tour_solve (const HsTourProblem *problem, const HsTourHow *how, HsTour **ret_tour, GError **error);

/**
 * hs_tour_free:
 * @tour: (nullable) (transfer full): a round
 */
void hs_tour_free (HsTour *tour);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTour, hs_tour_free)

G_END_DECLS
