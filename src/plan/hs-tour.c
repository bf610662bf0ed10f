// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The cheapest round: what a problem is, and how the parts of the solver work together. */

#include "hs-tour.h"

#include "hs-plan-error.h"
#include "hs-tour-branch.h"
#include "hs-tour-label.h"

#include <string.h>

#define FIRST_KICKS 100
#define FIRST_WORK 2000000
#define MORE_KICKS 200
#define MOST_NODES 10000000
#define MOST_BYTES ((gsize) 450 << 20)
#define FEW_BYTES ((gsize) 100 << 20)
#define TINY 8
#define PLACE_STEPS 600
#define PLACE_WORK G_GUINT64_CONSTANT (4000000000)
#define MOST_PLACES 400
#define FIRST_WIDTH 50
#define FEW_NODES 25

HsTourProblem *
hs_tour_problem_new (guint n)
{
  HsTourProblem *problem = g_new0 (HsTourProblem, 1);

  problem->n = n;
  problem->costs = g_new0 (gint32, (gsize) n * n);
  problem->orders = g_array_new (FALSE, FALSE, sizeof (HsTourOrder));
  return problem;
}

void
hs_tour_problem_free (HsTourProblem *problem)
{
  if (problem == NULL)
    return;
  g_free (problem->costs);
  g_array_unref (problem->orders);
  g_free (problem);
}

void
hs_tour_problem_set_cost (HsTourProblem *problem, guint from, guint to, gint32 cost)
{
  problem->costs[(gsize) from * problem->n + to] = cost;
}

void
hs_tour_problem_add_order (HsTourProblem *problem, guint earlier, guint later)
{
  HsTourOrder order = { earlier, later };

  g_array_append_val (problem->orders, order);
}

gint64
hs_tour_problem_cost (const HsTourProblem *problem, const guint *order)
{
  guint n = problem->n;
  gint64 cost = 0;

  for (guint i = 0; i < n && n > 1; i++)
    cost += problem->costs[(gsize) order[i] * n + order[(i + 1) % n]];
  return cost;
}

static gboolean G_GNUC_PRINTF (2, 3)
refuse (GError **error, const char *message, ...)
{
  g_autofree char *reason = NULL;
  va_list arguments;

  va_start (arguments, message);
  reason = g_strdup_vprintf (message, arguments);
  va_end (arguments);
  g_set_error_literal (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, reason);
  return FALSE;
}

static gboolean
check_costs (const HsTourProblem *problem, GError **error)
{
  guint n = problem->n;

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        gint32 cost = problem->costs[(gsize) i * n + j];

        if (i != j && (cost < 0 || cost > HS_TOUR_MAX_COST))
          return refuse (error, "the leg from node %u to node %u is not from 0 to %d", i + 1, j + 1, HS_TOUR_MAX_COST);
      }
  return TRUE;
}

/* Takes away, again and again, the nodes that wait for nothing; what stays is a ring. */
static gboolean
check_no_ring (const HsTourProblem *problem, GError **error)
{
  guint n = problem->n;
  guint n_orders = problem->orders->len;
  g_autofree guint *waits = g_new0 (guint, n);
  g_autofree guint *first = g_new0 (guint, n + 1);
  g_autofree guint *later = g_new (guint, n_orders + 1);
  g_autofree guint *ready = g_new (guint, n);
  guint n_ready = 0;

  for (guint k = 0; k < n_orders; k++)
    {
      const HsTourOrder *order = &g_array_index (problem->orders, HsTourOrder, k);

      waits[order->later]++;
      first[order->earlier + 1]++;
    }
  for (guint i = 0; i < n; i++)
    {
      first[i + 1] += first[i];
      if (waits[i] == 0)
        ready[n_ready++] = i;
    }
  for (guint k = 0; k < n_orders; k++)
    {
      const HsTourOrder *order = &g_array_index (problem->orders, HsTourOrder, k);

      later[first[order->earlier]++] = order->later;
    }
  for (guint k = 0; k < n_ready; k++)
    for (guint i = ready[k] == 0 ? 0 : first[ready[k] - 1]; i < first[ready[k]]; i++)
      if (--waits[later[i]] == 0)
        ready[n_ready++] = later[i];
  for (guint i = 0; i < n; i++)
    if (waits[i] > 0)
      return refuse (error, "node %u is in, or behind, a ring of nodes that must each come before the next", i + 1);
  return TRUE;
}

gboolean
hs_tour_problem_check (const HsTourProblem *problem, GError **error)
{
  if (problem->n < 1 || problem->n > HS_TOUR_MAX_NODES)
    return refuse (error, "there must be 1 to %d nodes", HS_TOUR_MAX_NODES);
  for (guint i = 0; i < problem->orders->len; i++)
    {
      const HsTourOrder *order = &g_array_index (problem->orders, HsTourOrder, i);

      if (order->earlier >= problem->n || order->later >= problem->n)
        return refuse (error, "an order names a node that does not exist");
      if (order->later == 0)
        return refuse (error, "node %u can't come before node 1, where the round starts", order->earlier + 1);
    }
  return check_costs (problem, error) && check_no_ring (problem, error);
}

/* Whether dynamic programming proved it; its bound counts in any case. */
static gboolean
prove_by_labels (HsTourLabels *labels, HsTour *tour)
{
  gboolean proven = hs_tour_labels_run (labels);

  tour->bound = MAX (tour->bound, labels->floor);
  tour->states += labels->states;
  labels->states = 0;
  return proven;
}

/* First a few states of each layer, then more and more, until nothing is left out. */
static void
prove_ordered (HsTourSearch *search, const HsTourTree *tree, HsTour *tour)
{
  g_autoptr (HsTourPlaces) places = hs_tour_places_new (search->frame);
  HsTourLabels labels = { search, tree, NULL, FIRST_WIDTH, MOST_BYTES, .floor = 0 };
  guint64 n = search->frame->n;

  if (n <= MOST_PLACES)
    {
      hs_tour_places_climb (places, search, (guint) MIN (PLACE_STEPS, PLACE_WORK / (n * n * n)));
      tour->bound = MAX (tour->bound, (places->bound + HS_TOUR_SCALE - 1) / HS_TOUR_SCALE);
      labels.places = places;
    }
  while (!prove_by_labels (&labels, tour) && !search->cut && !labels.full)
    {
      labels.width *= 4;
      hs_tour_search_restart (search);
      hs_tour_search_run (search, (guint64) FIRST_KICKS * search->frame->n, tour->bound);
    }
}

static void
prove_free (HsTourSearch *search, HsTourBranch *branch, HsTour *tour)
{
  HsTourLabels labels = { search, branch->tree, .most_bytes = FEW_BYTES };

  if (search->frame->n <= FEW_NODES && prove_by_labels (&labels, tour))
    return;
  if (hs_tour_branch_run (branch))
    tour->bound = search->best_cost;
  else
    tour->bound = MAX (tour->bound, branch->open);
  tour->states += branch->nodes;
}

/* A better round takes more legs out, and without those the search sees better. */
static void
prove (HsTourSearch *search, HsTour *tour)
{
  const HsTourFrame *frame = search->frame;
  g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
  HsTourBranch branch = { search, tree, .most_nodes = MOST_NODES };
  gboolean better = TRUE;

  tree->give_up = search->give_up;
  tree->user_data = search->user_data;
  while (better)
    {
      gint64 root = hs_tour_branch_root (&branch);

      tour->bound = MAX (tour->bound, root);
      if (tour->bound >= search->best_cost)
        return;
      hs_tour_search_reprice (search, tree);
      better = hs_tour_search_run (search, (guint64) MORE_KICKS * frame->n, tour->bound) && !search->cut;
    }
  if (frame->ordered)
    prove_ordered (search, tree, tour);
  else
    prove_free (search, &branch, tour);
}

static HsTour *
make_tour (const HsTourSearch *search, const HsTour *said)
{
  HsTour *tour = g_memdup2 (said, sizeof *said);

  tour->n = search->frame->n;
  tour->cost = search->best_cost;
  tour->bound = MIN (tour->bound, tour->cost);
  tour->status = tour->bound == tour->cost ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND;
  tour->order = g_new (guint, tour->n);
  for (guint i = 0; i < tour->n; i++)
    tour->order[i] = search->best[i];
  return tour;
}

gboolean
hs_tour_solve (const HsTourProblem *problem, const HsTourHow *how, HsTour **ret_tour, GError **error)
{
  g_autoptr (HsTourFrame) frame = NULL;
  g_autoptr (HsTourSearch) search = NULL;
  HsTour said = { .bound = 0 };

  if (!hs_tour_problem_check (problem, error))
    return FALSE;
  frame = hs_tour_frame_new (problem);
  search = hs_tour_search_new (frame, how);
  hs_tour_search_run (search, MIN ((guint64) FIRST_KICKS * frame->n, FIRST_WORK / frame->n), 0);
  if (frame->n <= TINY)
    {
      HsTourLabels labels = { search, .most_bytes = MOST_BYTES };

      prove_by_labels (&labels, &said);
    }
  else
    prove (search, &said);
  *ret_tour = make_tour (search, &said);
  return TRUE;
}

void
hs_tour_free (HsTour *tour)
{
  if (tour == NULL)
    return;
  g_free (tour->order);
  g_free (tour);
}
