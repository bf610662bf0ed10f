// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The parts of the search with one vehicle and windows: what a frame takes away no tour needs; what a bound says no
 * tour falls below; narrow and local searches answer with tours in time; middling problems agree with a plain search
 * over sets of stops. */

#include "hs-tsptw-beam.h"
#include "hs-tsptw-bound.h"
#include "hs-tsptw-local.h"

#include "tsptw-trial.h"

#define ROUNDS 40

static const TsptwShape small_shape = { "small", 7, 20, 60, 0, FALSE, TRUE, FALSE, 0, 1 };
static const TsptwShape middle_shape = { "middle", 12, 30, 120, 0, FALSE, FALSE, FALSE, 0, 0 };

/* Orders that keep every rule, by trying all. */
typedef void (*TourFunc) (const HsTsptw *problem, const guint16 *order, gpointer data);

static guint
for_each_tour (const HsTsptw *problem, guint16 *order, guint fixed, TourFunc func, gpointer data)
{
  guint count = 0;

  if (fixed + 1 == problem->n_nodes)
    {
      if (tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, order) < 0)
        return 0;
      func (problem, order, data);
      return 1;
    }
  for (guint i = fixed; i + 1 < problem->n_nodes; i++)
    {
      guint16 stop = order[i];

      order[i] = order[fixed];
      order[fixed] = stop;
      count += for_each_tour (problem, order, fixed + 1, func, data);
      order[fixed] = order[i];
      order[i] = stop;
    }
  return count;
}

static guint
each_tour (const HsTsptw *problem, TourFunc func, gpointer data)
{
  guint16 order[HS_TSPTW_MAX_NODES];

  for (guint i = 0; i + 1 < problem->n_nodes; i++)
    order[i] = (guint16) (i + 1);
  return for_each_tour (problem, order, 0, func, data);
}

/* Each leg of a tour is still there, each time within its window, each order kept. */
static void
check_tour_in_frame (const HsTsptw *problem, const guint16 *order, gpointer data)
{
  const HsTsptwFrame *frame = data;
  guint n = frame->n;
  gint64 clock = problem->from[0];

  for (guint i = 0; i < n; i++)
    {
      guint from = i == 0 ? 0 : order[i - 1];
      guint to = i == n - 1 ? 0 : order[i];

      g_assert_cmpint (frame->drive[from * n + to], ==, problem->drive[from * n + to]);
      clock += problem->drive[from * n + to];
      if (to == 0)
        break;
      clock = MAX (clock, problem->from[to]);
      g_assert_cmpint (clock, >=, frame->from[to]);
      g_assert_cmpint (clock, <=, frame->to[to]);
      for (guint j = 0; j < i; j++)
        {
          g_assert_false (hs_set_has (hs_tsptw_frame_before (frame, order[j]), to));
          g_assert_cmpint (frame->near[order[j] * n + to], <=, clock - frame->from[order[j]]);
        }
    }
  g_assert_cmpint (clock, <=, frame->home_by);
}

static void
test_frame_keeps_all_tours (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  guint tours = 0;
  guint dropped = 0;

  for (guint round = 0; round < ROUNDS; round++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &small_shape);
      g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
      guint found;

      found = each_tour (problem, check_tour_in_frame, frame);
      if (found > 0)
        g_assert_true (frame->possible);
      tours += found;
      for (guint i = 0; i < frame->n * frame->n; i++)
        dropped += frame->drive[i] >= HS_TSPTW_FAR;
    }
  g_assert_cmpint (tours, >, ROUNDS);
  g_assert_cmpint (dropped, >, ROUNDS * small_shape.stops * 2);
}

/* Hand-made: 1 must come before 2 since 2 ends before 1 can follow it, and then 0→2 and 1→0 are gone. */
static void
test_frame_orders (void)
{
  g_autoptr (HsTsptw) problem = hs_tsptw_new (3);
  g_autoptr (HsTsptwFrame) frame = NULL;
  g_autoptr (HsTsptwFrame) late = NULL;

  for (guint i = 0; i < 9; i++)
    problem->drive[i] = i % 4 == 0 ? 0 : 10;
  problem->to[0] = 100;
  problem->to[1] = 30;
  problem->from[2] = 25;
  problem->to[2] = 60;
  frame = hs_tsptw_frame_new (problem, 100, FALSE);
  g_assert_true (frame->possible);
  g_assert_true (hs_set_has (hs_tsptw_frame_after (frame, 1), 2));
  g_assert_true (hs_set_has (hs_tsptw_frame_before (frame, 2), 1));
  g_assert_cmpint (frame->drive[0 * 3 + 2], >=, HS_TSPTW_FAR);
  g_assert_cmpint (frame->drive[1 * 3 + 0], >=, HS_TSPTW_FAR);
  g_assert_cmpint (frame->drive[1 * 3 + 2], ==, 10);
  g_assert_cmpint (frame->from[1], ==, 10);
  g_assert_cmpint (frame->to[1], ==, 10);
  g_assert_cmpint (frame->from[2], ==, 25);
  late = hs_tsptw_frame_new (problem, 34, FALSE);
  g_assert_false (late->possible);
}

/* Two stops that can only be left for each other, but for the last moment, are still home in time. */
static void
test_frame_ends_with_the_day (void)
{
  g_autoptr (HsTsptw) problem = hs_tsptw_new (3);
  g_autoptr (HsTsptwFrame) frame = NULL;

  for (guint i = 0; i < 9; i++)
    problem->drive[i] = i % 4 == 0 ? 0 : 1;
  for (guint i = 0; i < 3; i++)
    problem->to[i] = 100000;
  frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
  frame->home_by = 500;
  hs_tsptw_frame_tighten (frame);
  g_assert_true (frame->possible);
  for (guint i = 1; i < 3; i++)
    g_assert_cmpint (frame->to[i], <=, 499);
}

static void
test_sets (void)
{
  guint64 a[2] = { 0, 0 };
  guint64 b[2] = { 0, 0 };

  hs_set_add (a, 3);
  hs_set_add (a, 70);
  g_assert_true (hs_set_has (a, 70) && hs_set_has (a, 3) && !hs_set_has (a, 6));
  hs_set_add (b, 70);
  g_assert_true (hs_set_is_within (b, a, 2) && !hs_set_is_within (a, b, 2));
  g_assert_true (hs_set_meets (a, b, 2) && !hs_set_equals (a, b, 2));
  hs_set_remove (a, 3);
  g_assert_true (hs_set_equals (a, b, 2));
  hs_set_remove (a, 70);
  g_assert_false (hs_set_meets (a, b, 2));
  g_assert_cmpint (hs_set_words (64), ==, 1);
  g_assert_cmpint (hs_set_words (65), ==, 2);
}

/* What a way says is missed from a node at a time can't be reached in time by any way there. */
static void
test_way_missed (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  guint missed_at_all = 0;

  for (guint round = 0; round < ROUNDS; round++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &middle_shape);
      g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
      g_autoptr (HsTsptwWay) way = hs_tsptw_way_new (frame, FALSE);
      guint n = frame->n;

      for (guint node = 1; node < n; node++)
        for (gint64 time = frame->from[node]; time <= frame->to[node]; time += 7)
          for (guint other = 1; other < n; other++)
            {
              const guint64 *missed = hs_tsptw_way_missed (way, node, time);
              gboolean is_missed = missed != NULL && hs_set_has (missed, other);
              gboolean comes_before = hs_set_has (hs_tsptw_frame_before (frame, node), other);

              if (other == node || comes_before)
                continue;
              g_assert_cmpint (is_missed, ==, time + frame->near[node * n + other] > frame->to[other]);
              missed_at_all += is_missed;
            }
    }
  g_assert_cmpint (missed_at_all, >, ROUNDS);
}

/* Cost by a plain search over sets: for each set and last stop all pairs of time and cost that nothing beats. */
typedef struct
{
  gint64 time;
  gint64 cost;
} Pair;

static void
add_pair (GArray **list, gint64 time, gint64 cost)
{
  if (*list == NULL)
    *list = g_array_new (FALSE, FALSE, sizeof (Pair));
  for (guint i = (*list)->len; i-- > 0;)
    {
      Pair *pair = &g_array_index (*list, Pair, i);

      if (pair->time <= time && pair->cost <= cost)
        return;
      if (pair->time >= time && pair->cost >= cost)
        g_array_remove_index_fast (*list, i);
    }
  g_array_append_val (*list, ((Pair){ time, cost }));
}

static gint64
search_plainly (const HsTsptw *problem, gint64 leave, gboolean by_time)
{
  guint n = problem->n_nodes;
  guint stops = n - 1;
  gsize size = ((gsize) 1 << stops) * n;
  GArray **lists = g_new0 (GArray *, size);
  gint64 least = -1;

  add_pair (&lists[0], leave, 0);
  for (gsize at = 0; at < size; at++)
    for (guint i = 0; lists[at] != NULL && i < lists[at]->len; i++)
      {
        Pair pair = g_array_index (lists[at], Pair, i);
        gsize set = at / n;
        guint last = at % n;

        if (set == ((gsize) 1 << stops) - 1)
          {
            gint64 home = pair.time + problem->drive[last * n];
            gint64 cost = by_time ? home : pair.cost + problem->drive[last * n];

            if (home <= problem->to[0] && (least < 0 || cost < least))
              least = cost;
          }
        for (guint to = 1; to < n; to++)
          {
            gint64 leg = problem->drive[last * n + to];
            gint64 time = MAX (pair.time + leg, problem->from[to]);

            if (((set >> (to - 1)) & 1) == 0 && time <= problem->to[to])
              add_pair (&lists[(set | ((gsize) 1 << (to - 1))) * n + to], time, by_time ? 0 : pair.cost + leg);
          }
      }
  for (gsize at = 0; at < size; at++)
    if (lists[at] != NULL)
      g_array_unref (lists[at]);
  g_free (lists);
  return least;
}

static HsTsptwAnswer
solve (const HsTsptw *problem, HsTsptwObjective objective)
{
  HsTsptwHow how = { NULL, NULL, 1, objective };
  HsTsptwAnswer answer;

  g_assert_true (hs_tsptw_solve (problem, &how, &answer, NULL));
  g_assert_cmpint (answer.status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (tsptw_trial_drive (problem, objective, answer.order), ==, answer.cost);
  return answer;
}

static void
test_middling (void)
{
  static const TsptwShape shapes[] = {
    { "wide", 12, 40, 250, 0, FALSE, FALSE, FALSE, 0, 0 },
    { "asymmetric", 12, 30, 150, 0, FALSE, TRUE, FALSE, 0, 0 },
    { "no-triangle", 12, 30, 150, 0, FALSE, TRUE, TRUE, 0, 0 },
    { "open", 10, 40, 2000, 0, FALSE, FALSE, FALSE, 0, 0 },
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);

  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    for (guint round = 0; round < 12; round++)
      {
        g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &shapes[i]);

        g_assert_cmpint (solve (problem, HS_TSPTW_TRAVEL).cost, ==, search_plainly (problem, 0, FALSE));
        g_assert_cmpint (solve (problem, HS_TSPTW_MAKESPAN).cost, ==, search_plainly (problem, 0, TRUE));
      }
}

static void
test_middling_duration (void)
{
  static const TsptwShape shape = { "duration", 9, 30, 150, 0, FALSE, FALSE, FALSE, 0, 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (18);

  for (guint round = 0; round < 10; round++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &shape);
      gint64 least = -1;

      for (gint64 leave = 0; leave <= problem->to[0]; leave++)
        {
          gint64 home = search_plainly (problem, leave, TRUE);

          if (home < 0)
            break;
          if (least < 0 || home - leave < least)
            least = home - leave;
        }
      g_assert_cmpint (solve (problem, HS_TSPTW_DURATION).cost, ==, least);
    }
}

/* No bound, at any prices and with any memory, is above the best tour; with more memory it does not fall. */
static void
test_bound_holds (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (44);

  for (guint round = 0; round < ROUNDS; round++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &middle_shape);
      g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
      g_autoptr (HsTsptwWay) forward = hs_tsptw_way_new (frame, FALSE);
      g_autoptr (HsTsptwWay) backward = hs_tsptw_way_new (frame, TRUE);
      g_autoptr (HsTsptwBound) bound = hs_tsptw_bound_new (frame, 1024);
      gint64 best = search_plainly (problem, 0, FALSE);
      gint64 last = -HS_TSPTW_FAR;

      bound->target = best * 1024;
      bound->aim = bound->target;
      bound->max_labels = bound->enough_labels = 1000000;
      for (guint level = 0; level < 4; level++)
        {
          HsTsptwBoundEnd end;

          hs_tsptw_bound_deepen (bound, frame, 2 * level);
          end = hs_tsptw_bound_improve (bound, forward, backward, 8);
          g_assert_cmpint (end, !=, HS_TSPTW_BOUND_PROVEN);
          g_assert_cmpint (bound->units, <=, best * 1024);
          g_assert_cmpint (bound->units, >=, last);
          last = bound->units;
        }
      g_assert_cmpint (last, >, best * 1024 / 2);
      bound->target = best * 1024 - 1;
      hs_tsptw_bound_back_to_best (bound);
      for (guint i = 0; i < 2; i++)
        {
          g_autoptr (HsTsptwPass) pass
              = hs_tsptw_bound_climb (bound, i == 0 ? forward : backward, i == 0 ? backward : forward, best * 1024);

          g_assert_true (pass->complete && pass->last != 0);
          g_assert_cmpint (pass->cost + hs_tsptw_bound_sum (bound), <=, best * 1024);
        }
    }
}

/* An exact search is right with and without the ends of paths, forward and backward. */
static void
test_pass_exact (void)
{
  static const gint64 no_prize[HS_TSPTW_MAX_NODES] = { 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);

  for (guint round = 0; round < ROUNDS; round++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &middle_shape);
      g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
      g_autoptr (HsTsptwWay) forward = hs_tsptw_way_new (frame, FALSE);
      g_autoptr (HsTsptwWay) backward = hs_tsptw_way_new (frame, TRUE);
      gint64 best = search_plainly (problem, 0, FALSE);
      HsTsptwAsk ask = { .scale = 1, .prize = no_prize, .budget = HS_TSPTW_FAR, .max_labels = 1000000 };
      g_autoptr (HsTsptwPass) there = hs_tsptw_pass_run (forward, &ask);
      g_autoptr (HsTsptwPass) back = hs_tsptw_pass_run (backward, &ask);
      g_autoptr (HsTsptwTails) tails = hs_tsptw_pass_make_tails (back);
      guint16 order[HS_TSPTW_MAX_NODES];

      g_assert_true (there->complete && back->complete);
      g_assert_cmpint (there->cost, ==, best);
      g_assert_cmpint (back->cost, ==, best);
      g_assert_cmpint (hs_tsptw_pass_trace (back, order, G_N_ELEMENTS (order)), ==, middle_shape.stops);
      g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, order), ==, best);
      ask.tails = tails;
      for (gint64 slack = -1; slack <= 0; slack++)
        {
          g_autoptr (HsTsptwPass) led = NULL;

          ask.budget = best + slack;
          led = hs_tsptw_pass_run (forward, &ask);
          g_assert_true (led->complete);
          g_assert_cmpint (led->last != 0, ==, slack == 0);
          g_assert_cmpint (led->n_labels, <=, there->n_labels);
          g_assert_cmpint (hs_tsptw_beam_run (forward, &ask, 50, order), ==, slack == 0);
        }
      g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_TRAVEL, order), ==, best);
    }
}

/* Full at once, it says so. */
static void
test_pass_full (void)
{
  static const gint64 no_prize[HS_TSPTW_MAX_NODES] = { 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &middle_shape);
  g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
  g_autoptr (HsTsptwWay) forward = hs_tsptw_way_new (frame, FALSE);
  HsTsptwAsk ask = { .scale = 1, .prize = no_prize, .budget = HS_TSPTW_FAR, .max_labels = 10 };
  g_autoptr (HsTsptwPass) pass = hs_tsptw_pass_run (forward, &ask);

  g_assert_false (pass->complete);
  g_assert_false (pass->cut);
  g_assert_cmpint (pass->n_labels, <, 10 + problem->n_nodes);
}

/* Local search ends in a tour in time that the judge costs alike, and starting from a better one keeps it. */
static void
test_local (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint round = 0; round < ROUNDS; round++)
    for (guint objective = 0; objective < 3; objective++)
      {
        g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, &middle_shape);
        HsTsptwHow how = { NULL, NULL, round, (HsTsptwObjective) objective };
        g_autoptr (HsTsptwFrame) frame
            = hs_tsptw_frame_new (problem, problem->to[0], objective == HS_TSPTW_DURATION);
        g_autoptr (HsTsptwLocal) local = hs_tsptw_local_new (problem, frame, &how);
        HsTsptwAnswer best = solve (problem, how.objective);
        guint16 order[HS_TSPTW_MAX_NODES];
        gint64 cost;

        g_assert_true (hs_tsptw_local_run (local, 30));
        g_assert_true (hs_tsptw_local_get_best (local, order, &cost));
        g_assert_cmpint (tsptw_trial_drive (problem, how.objective, order), ==, cost);
        g_assert_cmpint (cost, >=, best.cost);
        hs_tsptw_local_start_from (local, best.order);
        g_assert_true (hs_tsptw_local_get_best (local, order, &cost));
        g_assert_cmpint (cost, ==, best.cost);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tsptw-parts/sets", test_sets);
  g_test_add_func ("/tsptw-parts/frame-keeps-all-tours", test_frame_keeps_all_tours);
  g_test_add_func ("/tsptw-parts/frame-orders", test_frame_orders);
  g_test_add_func ("/tsptw-parts/frame-ends-with-the-day", test_frame_ends_with_the_day);
  g_test_add_func ("/tsptw-parts/way-missed", test_way_missed);
  g_test_add_func ("/tsptw-parts/pass-exact", test_pass_exact);
  g_test_add_func ("/tsptw-parts/pass-full", test_pass_full);
  g_test_add_func ("/tsptw-parts/bound-holds", test_bound_holds);
  g_test_add_func ("/tsptw-parts/local", test_local);
  g_test_add_func ("/tsptw-parts/middling", test_middling);
  g_test_add_func ("/tsptw-parts/middling-duration", test_middling_duration);
  return g_test_run ();
}
