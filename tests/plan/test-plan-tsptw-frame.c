// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is concluded from windows and legs before a search: nothing that some tour needs is taken away, and a way
 * through it forward or backward meets the same tours. Every order of small problems is driven. */

#include "hs-tsptw-way.h"
#include "tsptw-trial.h"

#define MAX_STOPS 6

static const TsptwShape shapes[] = {
  { "wide", 5, 20, 60, 60, FALSE, FALSE, FALSE, 0, 0 },
  { "narrow", 5, 20, 10, 60, FALSE, TRUE, FALSE, 0, 0 },
  { "anywhere", 5, 20, 80, 100, TRUE, FALSE, FALSE, 0, 0 },
  { "legs-anyhow", 5, 30, 60, 60, FALSE, TRUE, TRUE, 10, 0 },
  { "orders", 5, 20, 60, 100, FALSE, TRUE, FALSE, 0, 2 },
  { "many-orders", 5, 20, 120, 100, TRUE, TRUE, TRUE, 15, 4 },
};

typedef void (*OrderFunc) (const HsTsptw *problem, const guint16 *order, gpointer data);

static void
for_orders (const HsTsptw *problem, guint16 *order, guint fixed, OrderFunc func, gpointer data)
{
  if (fixed + 1 >= problem->n_nodes)
    {
      func (problem, order, data);
      return;
    }
  for (guint i = fixed; i + 1 < problem->n_nodes; i++)
    {
      guint16 stop = order[i];

      order[i] = order[fixed];
      order[fixed] = stop;
      for_orders (problem, order, fixed + 1, func, data);
      order[fixed] = order[i];
      order[i] = stop;
    }
}

static void
for_all_orders (const HsTsptw *problem, OrderFunc func, gpointer data)
{
  guint16 order[MAX_STOPS];

  for (guint i = 0; i + 1 < problem->n_nodes; i++)
    order[i] = (guint16) (i + 1);
  for_orders (problem, order, 0, func, data);
}

/* When it is home, driving @order in the frame's windows over the frame's legs; −1 if that can't be. */
static gint64
drive_frame (const HsTsptwFrame *frame, const guint16 *order, gint64 leave, gint64 *starts)
{
  gint64 clock = leave;
  guint at = 0;

  for (guint k = 0; k + 1 < frame->n; k++)
    {
      gint64 leg = frame->drive[at * frame->n + order[k]];

      at = order[k];
      if (leg >= HS_TSPTW_FAR || clock + leg > frame->to[at])
        return -1;
      clock = MAX (clock + leg, frame->from[at]);
      starts[k] = clock;
    }
  clock += frame->drive[at * frame->n];
  return frame->drive[at * frame->n] < HS_TSPTW_FAR && clock <= frame->home_by ? clock : -1;
}

static void
assert_order_of_sets (const HsTsptwFrame *frame, const guint16 *order)
{
  for (guint i = 0; i + 1 < frame->n; i++)
    for (guint k = i + 1; k + 1 < frame->n; k++)
      {
        g_assert_false (hs_set_has (hs_tsptw_frame_before (frame, order[i]), order[k]));
        g_assert_false (hs_set_has (hs_tsptw_frame_after (frame, order[k]), order[i]));
      }
}

static void
assert_near (const HsTsptwFrame *frame, const guint16 *order, const gint64 *starts)
{
  for (guint i = 0; i + 1 < frame->n; i++)
    for (guint k = i + 1; k + 1 < frame->n; k++)
      g_assert_cmpint (starts[k] - starts[i], >=, frame->near[order[i] * frame->n + order[k]]);
}

/* @home: the makespan that the frame must still allow */
static void
check_order (const HsTsptw *problem, const guint16 *order, gpointer data)
{
  const HsTsptwFrame *frame = data;
  gint64 home = tsptw_trial_drive (problem, HS_TSPTW_MAKESPAN, order);
  gint64 starts[MAX_STOPS];

  if (home < 0 || home > frame->home_by)
    return;
  g_assert_true (frame->possible);
  g_assert_cmpint (drive_frame (frame, order, frame->from[0], starts), ==, home);
  assert_order_of_sets (frame, order);
  assert_near (frame, order, starts);
}

/* The least time away over all leave times, which the frame must allow as well. */
static void
check_free_order (const HsTsptw *problem, const guint16 *order, gpointer data)
{
  const HsTsptwFrame *frame = data;
  gint64 away = tsptw_trial_drive (problem, HS_TSPTW_DURATION, order);
  gint64 starts[MAX_STOPS];
  gint64 least = -1;

  if (away < 0)
    return;
  g_assert_true (frame->possible);
  for (gint64 leave = frame->from[0]; leave <= frame->to[0]; leave++)
    {
      gint64 home = drive_frame (frame, order, leave, starts);

      if (home >= 0 && (least < 0 || home - leave < least))
        least = home - leave;
    }
  g_assert_cmpint (least, ==, away);
}

static void
test_keeps_tours (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  guint n_narrowed = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, shape);
      gint64 home_by = i % 3 == 0 ? problem->to[0] - g_rand_int_range (rand, 0, 60) : G_MAXINT64;
      g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, home_by, FALSE);
      g_autoptr (HsTsptwFrame) whenever = hs_tsptw_frame_new (problem, G_MAXINT64, TRUE);

      g_assert_cmpint (frame->home_by, <=, MIN (home_by, problem->to[0]));
      for_all_orders (problem, check_order, frame);
      for_all_orders (problem, check_free_order, whenever);
      for (guint node = 1; node < frame->n; node++)
        {
          g_assert_cmpint (frame->from[node], >=, problem->from[node]);
          g_assert_cmpint (frame->to[node], <=, problem->to[node]);
          n_narrowed += frame->from[node] > problem->from[node] || frame->to[node] < problem->to[node];
        }
    }
  g_assert_cmpuint (n_narrowed, >, shape->problems);
}

/* Where the way is at the depot again, in its own time; −1 if it can't be driven. Stops that are still to come are
 * never among those that it says are missed. */
static gint64
drive_way (const HsTsptwWay *way, const guint16 *order, gboolean feasible)
{
  gint64 clock = way->start;
  guint at = 0;

  for (guint k = 0; k + 1 < way->n; k++)
    {
      const HsTsptwStep *step = NULL;
      const guint64 *missed;

      for (guint s = way->first_step[at]; s < way->first_step[at + 1]; s++)
        {
          g_assert_true (s == way->first_step[at] || way->steps[s - 1].limit >= way->steps[s].limit);
          if (way->steps[s].to == order[k])
            step = &way->steps[s];
        }
      if (step == NULL || clock > step->limit)
        return -1;
      at = order[k];
      clock = MAX (clock + step->drive, way->from[at]);
      missed = hs_tsptw_way_missed (way, at, clock);
      for (guint later = k + 1; feasible && missed != NULL && later + 1 < way->n; later++)
        g_assert_false (hs_set_has (missed, order[later]));
    }
  return way->home[at] < HS_TSPTW_FAR && clock + way->home[at] <= way->end ? clock + way->home[at] : -1;
}

typedef struct
{
  const HsTsptwFrame *frame;
  HsTsptwWay *forward;
  HsTsptwWay *backward;
  guint n_feasible;
} Ways;

static void
check_ways (const HsTsptw *problem, const guint16 *order, gpointer data)
{
  Ways *ways = data;
  gint64 home = tsptw_trial_drive (problem, HS_TSPTW_MAKESPAN, order);
  guint16 reversed[MAX_STOPS];
  guint n_stops = problem->n_nodes - 1;

  for (guint k = 0; k < n_stops; k++)
    reversed[k] = order[n_stops - 1 - k];
  if (home >= 0)
    {
      g_assert_cmpint (drive_way (ways->forward, order, TRUE), ==, home);
      g_assert_cmpint (drive_way (ways->backward, reversed, TRUE), >=, 0);
      ways->n_feasible++;
      return;
    }
  /* An order asked for is no matter of legs and windows. */
  if (problem->before->len > 0)
    return;
  g_assert_cmpint (drive_way (ways->forward, order, FALSE), ==, -1);
  g_assert_cmpint (drive_way (ways->backward, reversed, FALSE), ==, -1);
}

static void
test_ways (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (32);
  guint n_feasible = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, shape);
      g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, G_MAXINT64, FALSE);
      g_autoptr (HsTsptwWay) forward = NULL;
      g_autoptr (HsTsptwWay) backward = NULL;
      Ways ways = { frame, NULL, NULL, 0 };

      if (!frame->possible)
        continue;
      forward = ways.forward = hs_tsptw_way_new (frame, FALSE);
      backward = ways.backward = hs_tsptw_way_new (frame, TRUE);
      for_all_orders (problem, check_ways, &ways);
      n_feasible += ways.n_feasible;
    }
  g_assert_cmpuint (n_feasible, >, shape->problems / 2);
}

/* Two stops, all legs 10; worked out by hand: windows must be drawn in at least that far. @before: 1 if stop 1 must
 * come first, 2 if stop 2, 0 if neither */
static const struct
{
  gint64 from[3];
  gint64 to[3];
  gint64 home_by;
  gboolean possible;
  guint before;
  gint64 earliest[3];
  gint64 latest[3];
} narrow[] = {
  /* Either may be first: from 10 on, and in time for the other and home, by 80 and 80. */
  { { 0, 0, 0 }, { 100, 100, 100 }, 100, TRUE, 0, { 0, 10, 10 }, { 0, 90, 90 } },
  /* Stop 1 ends at 15, so that it is first; stop 2 is then not before 20. */
  { { 0, 0, 0 }, { 100, 15, 100 }, 100, TRUE, 1, { 0, 10, 20 }, { 0, 15, 90 } },
  { { 0, 0, 30 }, { 100, 35, 40 }, 100, TRUE, 1, { 0, 10, 30 }, { 0, 30, 40 } },
  { { 0, 50, 0 }, { 100, 60, 55 }, 100, TRUE, 2, { 0, 50, 10 }, { 0, 60, 50 } },
  { { 0, 0, 0 }, { 100, 9, 100 }, 100, FALSE, 0, { 0 }, { 0 } },
  { { 0, 0, 0 }, { 100, 15, 15 }, 100, FALSE, 0, { 0 }, { 0 } },
  { { 0, 0, 0 }, { 29, 100, 100 }, 100, FALSE, 0, { 0 }, { 0 } },
  { { 0, 0, 0 }, { 100, 100, 100 }, 29, FALSE, 0, { 0 }, { 0 } },
  { { 0, 0, 0 }, { 100, 100, 100 }, 30, TRUE, 0, { 0, 10, 10 }, { 0, 20, 20 } },
};

static void
test_by_hand (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (narrow); i++)
    {
      g_autoptr (HsTsptw) problem = hs_tsptw_new (3);
      g_autoptr (HsTsptwFrame) frame = NULL;

      for (guint node = 0; node < 3; node++)
        {
          problem->from[node] = narrow[i].from[node];
          problem->to[node] = narrow[i].to[node];
          for (guint to = 0; to < 3; to++)
            problem->drive[node * 3 + to] = 10;
        }
      frame = hs_tsptw_frame_new (problem, narrow[i].home_by, FALSE);
      g_assert_cmpint (frame->possible, ==, narrow[i].possible);
      if (!frame->possible)
        continue;
      g_assert_cmpint (hs_set_has (hs_tsptw_frame_before (frame, 2), 1), ==, narrow[i].before == 1);
      g_assert_cmpint (hs_set_has (hs_tsptw_frame_before (frame, 1), 2), ==, narrow[i].before == 2);
      for (guint node = 1; node < 3; node++)
        {
          g_assert_cmpint (frame->from[node], <=, MAX (narrow[i].earliest[node], narrow[i].from[node]));
          g_assert_cmpint (frame->from[node], >=, narrow[i].earliest[node]);
          g_assert_cmpint (frame->to[node], <=, narrow[i].latest[node]);
        }
    }
}

static void
test_sets (void)
{
  static const guint sizes[] = { 1, 63, 64, 65, 128, 200, 256, 257, 448, 449, 512 };
  static const guint words[] = { 1, 1, 1, 2, 2, 4, 4, 5, 7, 8, 8 };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      guint64 set[HS_SET_MAX_WORDS] = { 0 };
      guint64 whole[HS_SET_MAX_WORDS] = { 0 };
      guint last = sizes[i] - 1;

      g_assert_cmpuint (hs_set_words (sizes[i]), ==, words[i]);
      for (guint node = 0; node < sizes[i]; node++)
        hs_set_add (whole, node);
      g_assert_false (hs_set_meets (set, whole, words[i]));
      g_assert_true (hs_set_is_within (set, whole, words[i]));
      hs_set_add (set, last);
      g_assert_true (hs_set_has (set, last));
      g_assert_true (hs_set_meets (set, whole, words[i]));
      g_assert_true (hs_set_is_within (set, whole, words[i]));
      g_assert_cmpint (hs_set_equals (set, whole, words[i]), ==, last == 0);
      hs_set_remove (whole, last);
      g_assert_false (hs_set_is_within (set, whole, words[i]));
      g_assert_false (hs_set_meets (set, whole, words[i]));
      hs_set_remove (set, last);
      g_assert_false (hs_set_has (set, last));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *keeps = g_strdup_printf ("/tsptw-frame/keeps-tours/%s", shapes[i].name);
      g_autofree char *ways = g_strdup_printf ("/tsptw-frame/ways/%s", shapes[i].name);

      g_test_add_data_func (keeps, &shapes[i], test_keeps_tours);
      g_test_add_data_func (ways, &shapes[i], test_ways);
    }
  g_test_add_func ("/tsptw-frame/by-hand", test_by_hand);
  g_test_add_func ("/tsptw-frame/sets", test_sets);
  return g_test_run ();
}
