// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Local improvement: from any round to one that none of its moves makes better, each move tried here the plain way. */

#include "hs-tour-search.h"

#include "tour-judge.h"

#include <string.h>

/* Up to here every node is near every other one, so that no move is left out. */
#define MOST 11

/* A round through all nodes that keeps the orders, drawn anew: always any node that may come next. */
static void
draw_round (const HsTourFrame *frame, GRand *rand, guint16 *ret_order)
{
  guint n = frame->n;
  g_autofree guint8 *done = g_new0 (guint8, n);

  ret_order[0] = 0;
  done[0] = 1;
  for (guint k = 1; k < n;)
    {
      guint j = (guint) g_rand_int_range (rand, 1, (gint32) n);
      gboolean ready = !done[j];

      for (guint i = 1; i < n; i++)
        ready = ready && (done[i] || !hs_tour_frame_is_before (frame, i, j));
      if (!ready)
        continue;
      done[j] = 1;
      ret_order[k++] = (guint16) j;
    }
}

static void
take_round (HsTourSearch *search, const guint16 *order)
{
  guint n = search->frame->n;

  memcpy (search->tour, order, n * sizeof *order);
  for (guint i = 0; i < n; i++)
    search->at[order[i]] = (guint16) i;
  search->cost = hs_tour_frame_round (search->frame, order);
}

static void
improve (HsTourSearch *search)
{
  for (guint i = 0; i < search->frame->n; i++)
    hs_tour_queue_add (search, i);
  if (search->frame->symmetric)
    hs_tour_improve_alike (search);
  else
    hs_tour_improve_stretches (search);
}

/* The round as it stands, turned so that node 0 comes first. */
static void
read_round (const HsTourSearch *search, guint16 *ret_order)
{
  guint n = search->frame->n;

  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpuint (search->at[search->tour[i]], ==, i);
      ret_order[i] = search->tour[(search->at[0] + i) % n];
    }
}

/* After an improvement: still a round, its cost kept count of, no worse, and nothing left to do. */
static gint64
check_improved (const HsTourProblem *problem, HsTourSearch *search, gint64 before)
{
  g_autofree guint16 *order = g_new (guint16, problem->n);

  read_round (search, order);
  tour_check_round (problem, order);
  g_assert_cmpint (search->cost, ==, tour_add_up (problem, order));
  g_assert_cmpint (search->cost, <=, before);
  g_assert_cmpint (hs_tour_queue_take (search), ==, -1);
  return search->cost;
}

/* 2-opt: every stretch turned round. */
static void
check_no_turn (const HsTourProblem *problem, const guint16 *order, gint64 cost)
{
  guint n = problem->n;
  guint16 turned[MOST];

  for (guint from = 1; from < n; from++)
    for (guint to = from; to < n; to++)
      {
        for (guint i = 0; i < n; i++)
          turned[i] = order[i < from || i > to ? i : from + to - i];
        g_assert_cmpint (tour_add_up (problem, turned), >=, cost);
      }
}

/* Or-opt: @length nodes from @from on, put behind the @to-th of the others, either way round. Counts if the new leg of
 * either of its ends is shorter than what taking it out frees: only such moves are looked for. */
static void
check_no_place (const HsTourProblem *problem, const guint16 *order, gint64 cost, guint from, guint length,
                gboolean turned)
{
  guint n = problem->n;
  guint rest = n - length;
  guint16 others[MOST];
  guint16 moved[MOST];
  guint first = order[turned ? (from + length - 1) % n : from];
  guint last = order[turned ? from : (from + length - 1) % n];
  gint64 freed = problem->costs[order[(from + n - 1) % n] * n + order[from]]
                 + problem->costs[order[(from + length - 1) % n] * n + order[(from + length) % n]]
                 - problem->costs[order[(from + n - 1) % n] * n + order[(from + length) % n]];

  for (guint i = 0; i < rest; i++)
    others[i] = order[(from + length + i) % n];
  for (guint to = 0; to < rest; to++)
    {
      guint c = others[to];
      guint d = others[(to + 1) % rest];
      guint at = 0;

      if (problem->costs[c * n + first] >= freed && problem->costs[last * n + d] >= freed)
        continue;
      for (guint i = 0; i < rest; i++)
        {
          moved[at++] = others[i];
          for (guint k = 0; k < length && i == to; k++)
            moved[at++] = order[(from + (turned ? length - 1 - k : k)) % n];
        }
      g_assert_cmpint (tour_add_up (problem, moved), >=, cost);
    }
}

static void
check_no_move (const HsTourProblem *problem, const guint16 *order, gint64 cost)
{
  guint n = problem->n;

  check_no_turn (problem, order, cost);
  for (guint from = 0; from < n; from++)
    for (guint length = 1; length <= 3 && length + 2 < n; length++)
      {
        check_no_place (problem, order, cost, from, length, FALSE);
        check_no_place (problem, order, cost, from, length, TRUE);
      }
}

static gboolean
keeps_orders (const HsTourFrame *frame, const guint16 *order)
{
  for (guint i = 1; i < frame->n; i++)
    for (guint k = i + 1; k < frame->n; k++)
      if (hs_tour_frame_is_before (frame, order[k], order[i]))
        return FALSE;
  return TRUE;
}

/* Every two neighboring stretches exchanged, if orders let them. */
static void
check_no_exchange (const HsTourFrame *frame, const HsTourProblem *problem, const guint16 *order, gint64 cost)
{
  guint n = problem->n;

  for (guint i = 1; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      for (guint k = j + 1; k <= n; k++)
        {
          guint16 changed[MOST];

          memcpy (changed, order, n * sizeof *order);
          memcpy (&changed[i], &order[j], (k - j) * sizeof *order);
          memcpy (&changed[i + k - j], &order[i], (j - i) * sizeof *order);
          if (keeps_orders (frame, changed))
            g_assert_cmpint (tour_add_up (problem, changed), >=, cost);
        }
}

static void
test_best_around (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);
  guint better = 0;

  for (guint trial = 0; trial < 150; trial++)
    {
      guint n = 5 + trial % (MOST - 4);
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, trial % 3 == 0 ? 9 : 1000);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      HsTourHow how = { NULL, NULL, trial };
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);
      guint16 order[MOST];
      gint64 before;
      gint64 last;

      draw_round (frame, rand, order);
      take_round (search, order);
      last = before = search->cost;
      for (gboolean more = TRUE; more;)
        {
          improve (search);
          more = check_improved (problem, search, last) < last;
          last = search->cost;
        }
      better += last < before;
      read_round (search, order);
      if (frame->symmetric)
        check_no_move (problem, order, last);
      else
        check_no_exchange (frame, problem, order, last);
    }
  g_assert_cmpuint (better, >, kind == TOUR_WAY_WITH_ORDERS ? 60 : 100);
  g_rand_free (rand);
}

/* With many nodes, where only the near ones count, and at costs that nearly fill their type. */
static void
test_many_nodes (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 11);

  for (guint trial = 0; trial < 12; trial++)
    {
      guint n = 40 + 31 * trial % 170;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, trial % 2 == 0 ? 500 : HS_TOUR_MAX_COST);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      HsTourHow how = { NULL, NULL, trial };
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);
      g_autofree guint16 *order = g_new (guint16, n);
      gint64 before;

      draw_round (frame, rand, order);
      take_round (search, order);
      before = search->cost;
      improve (search);
      g_assert_cmpint (check_improved (problem, search, before), <, before);
    }
  g_rand_free (rand);
}

/* A circle whose round crosses itself, or has a place put elsewhere: both are mended in one go. */
static void
test_by_hand (void)
{
  static const struct
  {
    guint n;
    guint16 order[9];
  } rows[] = {
    { 6, { 0, 1, 4, 3, 2, 5 } },
    { 8, { 0, 1, 2, 6, 5, 4, 3, 7 } },
    { 8, { 0, 1, 2, 4, 5, 6, 3, 7 } },
    { 9, { 0, 3, 4, 5, 6, 1, 2, 7, 8 } },
    { 9, { 0, 1, 2, 3, 7, 6, 4, 5, 8 } },
    { 9, { 0, 8, 7, 6, 5, 4, 3, 1, 2 } },
  };

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      guint n = rows[r].n;
      g_autoptr (HsTourProblem) problem = hs_tour_problem_new (n);
      g_autoptr (HsTourFrame) frame = NULL;
      g_autoptr (HsTourSearch) search = NULL;
      HsTourHow how = { NULL, NULL, 1 };

      for (guint i = 0; i < n; i++)
        for (guint j = 0; j < n; j++)
          hs_tour_problem_set_cost (problem, i, j, 7 * (gint32) MIN ((i + n - j) % n, (j + n - i) % n));
      frame = hs_tour_frame_new (problem);
      search = hs_tour_search_new (frame, &how);
      take_round (search, rows[r].order);
      g_assert_cmpint (search->cost, >, 7 * n);
      improve (search);
      g_assert_cmpint (check_improved (problem, search, search->cost), ==, 7 * n);
    }
}

/* The exchange itself, also across the place where the round is cut open. */
static void
test_exchange (void)
{
  static const struct
  {
    guint from;
    guint middle;
    guint to;
    guint16 wanted[6];
  } rows[] = {
    { 1, 2, 3, { 0, 2, 1, 3, 4, 5 } },
    { 1, 3, 6, { 0, 3, 4, 5, 1, 2 } },
    { 0, 1, 6, { 1, 2, 3, 4, 5, 0 } },
    { 2, 5, 6, { 0, 1, 5, 2, 3, 4 } },
    { 4, 5, 7, { 4, 1, 2, 3, 5, 0 } },
    { 5, 7, 9, { 2, 5, 0, 3, 4, 1 } },
    { 3, 3, 5, { 0, 1, 2, 3, 4, 5 } },
  };
  static const guint16 begin[6] = { 0, 1, 2, 3, 4, 5 };
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (6);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  HsTourHow how = { NULL, NULL, 1 };
  g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);

  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      take_round (search, begin);
      hs_tour_exchange (search, rows[r].from, rows[r].middle, rows[r].to);
      g_assert_cmpmem (search->tour, sizeof begin, rows[r].wanted, sizeof begin);
      for (guint i = 0; i < 6; i++)
        g_assert_cmpuint (search->at[search->tour[i]], ==, i);
    }
}

/* First in, first out; each node only once, until it has been taken. */
static void
test_queue (void)
{
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (4);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  HsTourHow how = { NULL, NULL, 1 };
  g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);

  g_assert_cmpint (hs_tour_queue_take (search), ==, -1);
  for (guint turn = 0; turn < 5; turn++)
    {
      static const guint added[] = { 2, 0, 2, 3, 0, 1, 3 };
      static const int wanted[] = { 2, 0, 3, 1, -1, -1 };

      for (guint i = 0; i < G_N_ELEMENTS (added); i++)
        hs_tour_queue_add (search, added[i]);
      for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
        g_assert_cmpint (hs_tour_queue_take (search), ==, wanted[i]);
      hs_tour_queue_add (search, turn % 4);
      g_assert_cmpint (hs_tour_queue_take (search), ==, (int) turn % 4);
    }
}

/* Told to stop in the middle of it: still a round, its cost kept count of. */
static void
test_cut (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 21);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 300, kind, 10000);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  g_autofree guint16 *order = g_new (guint16, 300);

  draw_round (frame, rand, order);
  for (guint asks = 0; asks < 3; asks++)
    {
      guint left = G_MAXUINT;
      HsTourHow how = { tour_give_up_after, &left, 1 };
      g_autoptr (HsTourSearch) search = hs_tour_search_new (frame, &how);
      gint64 before;

      take_round (search, order);
      before = search->cost;
      left = asks;
      improve (search);
      check_improved (problem, search, before);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-moves/best-around", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_best_around);
  tour_add_test ("/tour-moves/many-nodes", TOUR_ALIKE, TOUR_ORDERED, test_many_nodes);
  g_test_add_func ("/tour-moves/by-hand", test_by_hand);
  g_test_add_func ("/tour-moves/exchange", test_exchange);
  g_test_add_func ("/tour-moves/queue", test_queue);
  tour_add_test ("/tour-moves/cut", TOUR_ALIKE, TOUR_ORDERED, test_cut);
  return g_test_run ();
}
