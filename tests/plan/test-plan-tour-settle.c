// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What follows at once from decided legs: by hand, and never more than what every round that keeps to them has. */

#include "hs-tour-branch.h"

#include "tour-judge.h"

#include <string.h>

#define FREE HS_TOUR_LEG_FREE
#define FORCED HS_TOUR_LEG_FORCED
#define OUT HS_TOUR_LEG_OUT

typedef struct
{
  guint tail;
  guint head;
  HsTourLegState state;
} Decided;

static guint
find_leg (const HsTourTree *tree, guint tail, guint head)
{
  for (guint a = 0; a < tree->n_legs; a++)
    if ((tree->legs[a].tail == tail && tree->legs[a].head == head)
        || (tree->target == 2 && tree->legs[a].tail == head && tree->legs[a].head == tail))
      return a;
  g_assert_not_reached ();
}

/* All legs cost 1 both ways, or, where the direction is to count, one of them costs more. */
static HsTourFrame *
plain_frame (guint n, gboolean alike)
{
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (n);

  for (guint i = 0; i < n * n; i++)
    problem->costs[i] = 1;
  if (!alike)
    hs_tour_problem_set_cost (problem, 0, 1, 2);
  return hs_tour_frame_new (problem);
}

/* @then: what must be decided behind it; 0 → 0 ends a list. */
typedef struct
{
  const char *what;
  guint n;
  gboolean alike;
  Decided given[6];
  gboolean possible;
  Decided then[6];
} Row;

static const Row rows[] = {
  { "nothing is known", 5, TRUE, { { 0, 0, FREE } }, TRUE, { { 1, 2, FREE }, { 0, 4, FREE } } },
  { "two legs at a node are all it has", 5, TRUE, { { 2, 1, FORCED }, { 2, 3, FORCED } }, TRUE,
    { { 2, 0, OUT }, { 2, 4, OUT }, { 1, 3, OUT }, { 1, 0, FREE } } },
  { "three legs at a node", 5, TRUE, { { 2, 1, FORCED }, { 2, 3, FORCED }, { 2, 4, FORCED } }, FALSE,
    { { 0, 0, FREE } } },
  { "two usable legs are both needed", 5, TRUE, { { 4, 0, OUT }, { 4, 1, OUT } }, TRUE,
    { { 4, 2, FORCED }, { 4, 3, FORCED }, { 2, 3, OUT } } },
  { "one usable leg is too few", 5, TRUE, { { 4, 0, OUT }, { 4, 1, OUT }, { 4, 2, OUT } }, FALSE,
    { { 0, 0, FREE } } },
  { "a path's ends are not joined", 6, TRUE, { { 0, 1, FORCED }, { 1, 2, FORCED }, { 2, 3, FORCED } }, TRUE,
    { { 0, 3, OUT }, { 0, 4, FREE }, { 3, 5, FREE } } },
  { "a path over all nodes is closed", 4, TRUE, { { 0, 1, FORCED }, { 1, 2, FORCED }, { 2, 3, FORCED } }, TRUE,
    { { 0, 3, FORCED } } },
  { "a ring that leaves nodes out", 6, TRUE, { { 0, 1, FORCED }, { 1, 2, FORCED }, { 2, 0, FORCED } }, FALSE,
    { { 0, 0, FREE } } },
  { "three places have one round", 3, TRUE, { { 0, 0, FREE } }, TRUE,
    { { 0, 1, FORCED }, { 1, 2, FORCED }, { 0, 2, FORCED } } },
  { "one way in and one way out", 5, FALSE, { { 1, 2, FORCED } }, TRUE,
    { { 1, 3, OUT }, { 1, 0, OUT }, { 0, 2, OUT }, { 4, 2, OUT }, { 2, 1, OUT }, { 2, 3, FREE } } },
  { "two ways into a node", 5, FALSE, { { 1, 2, FORCED }, { 3, 2, FORCED } }, FALSE, { { 0, 0, FREE } } },
  { "two ways out of a node", 5, FALSE, { { 1, 2, FORCED }, { 1, 3, FORCED } }, FALSE, { { 0, 0, FREE } } },
  { "the way home is not yet", 6, FALSE, { { 0, 1, FORCED }, { 1, 2, FORCED } }, TRUE,
    { { 2, 0, OUT }, { 2, 3, FREE }, { 3, 0, FREE } } },
  { "two paths meet", 6, FALSE, { { 1, 2, FORCED }, { 3, 4, FORCED }, { 2, 3, FORCED } }, TRUE,
    { { 4, 1, OUT }, { 4, 0, FREE }, { 4, 5, FREE } } },
  { "the last way out", 4, FALSE, { { 3, 0, OUT }, { 3, 1, OUT } }, TRUE,
    { { 3, 2, FORCED }, { 0, 2, OUT }, { 2, 3, OUT } } },
  { "no way out", 4, FALSE, { { 3, 0, OUT }, { 3, 1, OUT }, { 3, 2, OUT } }, FALSE, { { 0, 0, FREE } } },
  { "no way in", 4, FALSE, { { 0, 3, OUT }, { 1, 3, OUT }, { 2, 3, OUT } }, FALSE, { { 0, 0, FREE } } },
  { "a round is done", 4, FALSE, { { 0, 2, FORCED }, { 2, 1, FORCED }, { 1, 3, FORCED } }, TRUE,
    { { 3, 0, FORCED }, { 3, 2, OUT }, { 0, 3, OUT } } },
  { "two rings", 4, FALSE, { { 0, 1, FORCED }, { 1, 0, FORCED } }, FALSE, { { 0, 0, FREE } } },
};

static void
test_by_hand (void)
{
  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      const Row *row = &rows[r];
      g_autoptr (HsTourFrame) frame = plain_frame (row->n, row->alike);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);

      g_test_message ("%s", row->what);
      for (guint k = 0; k < G_N_ELEMENTS (row->given) && row->given[k].state != FREE; k++)
        tree->state[find_leg (tree, row->given[k].tail, row->given[k].head)] = (guint8) row->given[k].state;
      g_assert_cmpint (hs_tour_branch_settle (tree), ==, row->possible);
      for (guint k = 0; k < G_N_ELEMENTS (row->then) && row->then[k].tail != row->then[k].head; k++)
        g_assert_cmpint (tree->state[find_leg (tree, row->then[k].tail, row->then[k].head)], ==, row->then[k].state);
    }
}

typedef struct
{
  const HsTourTree *tree;
  const guint8 *before;
  guint n_kept;
} Kept;

static void
still_kept (const guint16 *order, gint64 cost, gpointer data)
{
  Kept *kept = data;

  if (!tour_keeps_state (kept->tree, kept->before, order))
    return;
  g_assert_true (tour_keeps_state (kept->tree, kept->tree->state, order));
  kept->n_kept++;
}

static void
test_every_round (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);
  guint impossible = 0;
  guint drawn = 0;

  for (guint trial = 0; trial < 400; trial++)
    {
      guint n = 3 + trial % 5;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 10);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      g_autofree guint8 *before = NULL;
      Kept kept = { tree, NULL, 0 };

      for (guint a = 0; a < tree->n_legs; a++)
        {
          gint32 draw = g_rand_int_range (rand, 0, 100);

          tree->state[a] = draw < 8 ? FORCED : draw < 8 + (gint32) trial % 30 ? OUT : FREE;
        }
      kept.before = before = g_memdup2 (tree->state, tree->n_legs);
      if (hs_tour_branch_settle (tree))
        {
          tour_each_round (problem, still_kept, &kept);
          drawn += memcmp (before, tree->state, tree->n_legs) != 0;
        }
      else
        {
          impossible++;
          g_assert_cmpint (tour_cheapest_with (problem, tree, before), ==, G_MAXINT64);
        }
    }
  g_assert_cmpuint (impossible, >, 40);
  g_assert_cmpuint (drawn, >, 40);
  g_rand_free (rand);
}

/* Said once more, nothing new follows. */
static void
test_once (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 31);

  for (guint trial = 0; trial < 100; trial++)
    {
      g_autoptr (HsTourProblem) problem = tour_random (rand, 12, kind, 10);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourTree) tree = hs_tour_tree_new (frame);
      g_autofree guint8 *once = NULL;

      for (guint a = 0; a < tree->n_legs; a++)
        tree->state[a] = g_rand_int_range (rand, 0, 100) < (gint32) trial ? OUT : FREE;
      if (!hs_tour_branch_settle (tree))
        continue;
      once = g_memdup2 (tree->state, tree->n_legs);
      g_assert_true (hs_tour_branch_settle (tree));
      g_assert_cmpmem (once, tree->n_legs, tree->state, tree->n_legs);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tour-settle/by-hand", test_by_hand);
  tour_add_test ("/tour-settle/every-round", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_every_round);
  tour_add_test ("/tour-settle/once", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_once);
  return g_test_run ();
}
