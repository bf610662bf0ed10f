// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is concluded before a search: nothing that a tour needs is taken away, and what follows by hand is found. */

#include "hs-tsptw-frame.h"

#include "tsptw-orders.h"

#define NONE HS_TSPTW_NO_LEG

/* One conclusion of a problem with three stops, all legs 10 unless said. */
typedef struct
{
  const char *name;
  gint64 windows[4][2];
  gint64 from[4];
  gint64 to[4];
} Tightened;

static void
set_all_legs (gint64 *legs, guint n, gint64 leg)
{
  for (guint i = 0; i < n * n; i++)
    legs[i] = i % (n + 1) == 0 ? 0 : leg;
}

static void
test_tightened (gconstpointer data)
{
  const Tightened *row = data;
  gint64 legs[16];
  g_autoptr (HsTsptw) problem = NULL;
  g_autoptr (HsTsptwFrame) frame = NULL;

  set_all_legs (legs, 4, 10);
  problem = tsptw_orders_problem (4, legs, row->windows);
  frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
  g_assert_true (frame->possible);
  for (guint i = 1; i < 4; i++)
    {
      g_assert_cmpint (frame->from[i], ==, row->from[i]);
      g_assert_cmpint (frame->to[i], ==, row->to[i]);
    }
}

/* The times at which a stop can really be served. */
static const Tightened tightened[] = {
  /* No stop before 10, and 10 from home. */
  { "home", { { 0, 40 }, { 0, 40 }, { 0, 40 }, { 0, 40 } }, { 0, 10, 10, 10 }, { 0, 30, 30, 30 } },
  /* 3 comes last, and the vehicle waits there until 90. */
  { "last", { { 0, 200 }, { 0, 20 }, { 0, 20 }, { 90, 100 } }, { 0, 10, 10, 90 }, { 0, 20, 20, 90 } },
  /* 1 ends before one could come from 2, which then begins 10 after it. */
  { "push", { { 0, 300 }, { 30, 34 }, { 25, 80 }, { 200, 220 } }, { 0, 30, 40, 200 }, { 0, 30, 40, 200 } },
  /* Leaving at 50 moves all begins. */
  { "leave", { { 50, 90 }, { 0, 150 }, { 0, 150 }, { 0, 150 } }, { 50, 60, 60, 60 }, { 0, 80, 80, 80 } },
  /* Both others begin too late for coming from them to 3. */
  { "first", { { 0, 200 }, { 20, 30 }, { 20, 30 }, { 10, 25 } }, { 0, 20, 20, 10 }, { 0, 30, 30, 10 } },
};

typedef struct
{
  const char *name;
  gint64 windows[4][2];
  HsTsptwPair asked;
  HsTsptwPair implied[4];
  guint n_implied;
} Ordered;

/* Exactly these pairs, also what comes after what comes after. */
static void
test_ordered (gconstpointer data)
{
  const Ordered *row = data;
  gint64 legs[16];
  g_autoptr (HsTsptw) problem = NULL;
  g_autoptr (HsTsptwFrame) frame = NULL;
  guint count = 0;

  set_all_legs (legs, 4, 10);
  problem = tsptw_orders_problem (4, legs, row->windows);
  if (row->asked.first != 0)
    hs_tsptw_add_before (problem, row->asked.first, row->asked.then);
  frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
  for (guint a = 0; a < 4; a++)
    for (guint b = 0; b < 4; b++)
      {
        g_assert_cmpint (hs_set_has (hs_tsptw_frame_after (frame, a), b), ==,
                         hs_set_has (hs_tsptw_frame_before (frame, b), a));
        count += hs_set_has (hs_tsptw_frame_after (frame, a), b);
      }
  g_assert_cmpint (count, ==, row->n_implied);
  for (guint i = 0; i < row->n_implied; i++)
    {
      g_assert_true (hs_set_has (hs_tsptw_frame_after (frame, row->implied[i].first), row->implied[i].then));
      g_assert_cmpint (frame->drive[row->implied[i].then * 4 + row->implied[i].first], ==, HS_TSPTW_FAR);
    }
}

static const Ordered ordered[] = {
  { "none", { { 0, 200 }, { 0, 100 }, { 0, 100 }, { 0, 100 } }, { 0, 0 }, { { 0, 0 } }, 0 },
  { "asked", { { 0, 200 }, { 0, 100 }, { 0, 100 }, { 0, 100 } }, { 2, 1 }, { { 2, 1 } }, 1 },
  { "window", { { 0, 200 }, { 0, 30 }, { 21, 100 }, { 0, 100 } }, { 0, 0 }, { { 1, 2 } }, 1 },
  { "just-not", { { 0, 200 }, { 0, 30 }, { 20, 100 }, { 0, 100 } }, { 0, 0 }, { { 0, 0 } }, 0 },
  { "chain", { { 0, 300 }, { 0, 30 }, { 21, 100 }, { 0, 200 } }, { 2, 3 }, { { 1, 2 }, { 2, 3 }, { 1, 3 } }, 3 },
  { "line", { { 0, 300 }, { 0, 20 }, { 40, 50 }, { 80, 90 } }, { 0, 0 }, { { 1, 2 }, { 2, 3 }, { 1, 3 } }, 3 },
};

/* Legs that are not there, and one that only skips a stop that has to lie between. */
static void
test_legs (void)
{
  static const gint64 windows[4][2] = { { 0, 300 }, { 0, 20 }, { 40, 50 }, { 80, 90 } };
  static const gboolean kept[16] = {
    FALSE, TRUE, FALSE, FALSE,
    FALSE, FALSE, TRUE, FALSE,
    FALSE, FALSE, FALSE, TRUE,
    TRUE, FALSE, FALSE, FALSE,
  };
  gint64 legs[16];
  g_autoptr (HsTsptw) problem = NULL;
  g_autoptr (HsTsptwFrame) frame = NULL;

  set_all_legs (legs, 4, 10);
  problem = tsptw_orders_problem (4, legs, windows);
  frame = hs_tsptw_frame_new (problem, 300, FALSE);
  for (guint i = 0; i < 16; i++)
    g_assert_cmpint (frame->drive[i], ==, kept[i] ? 10 : HS_TSPTW_FAR);
  g_assert_cmpint (frame->near[0 * 4 + 3], ==, 30);
  g_assert_cmpint (frame->near[1 * 4 + 0], ==, 30);
  g_assert_cmpint (frame->near[3 * 4 + 1], >=, HS_TSPTW_FAR);
}

static void
test_impossible (void)
{
  static const struct
  {
    gint64 leg;
    gint64 windows[4][2];
    HsTsptwPair asked[3];
  } rows[] = {
    { 10, { { 0, 200 }, { 0, 9 }, { 0, 99 }, { 0, 99 } }, { { 0, 0 } } },
    { 10, { { 0, 39 }, { 39, 39 }, { 0, 39 }, { 0, 39 } }, { { 0, 0 } } },
    { 10, { { 0, 200 }, { 50, 55 }, { 50, 55 }, { 0, 99 } }, { { 0, 0 } } },
    { 10, { { 0, 200 }, { 0, 99 }, { 0, 99 }, { 0, 99 } }, { { 1, 2 }, { 2, 1 } } },
    { 10, { { 0, 200 }, { 0, 99 }, { 0, 99 }, { 0, 99 } }, { { 1, 2 }, { 2, 3 }, { 3, 1 } } },
    { 10, { { 0, 200 }, { 0, 30 }, { 60, 99 }, { 0, 99 } }, { { 2, 1 } } },
    { NONE, { { 0, 200 }, { 0, 99 }, { 0, 99 }, { 0, 99 } }, { { 0, 0 } } },
    { 10, { { 100, 139 }, { 0, 99 }, { 0, 139 }, { 0, 139 } }, { { 0, 0 } } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (guint freely = 0; freely < 2; freely++)
      {
        gint64 legs[16];
        g_autoptr (HsTsptw) problem = NULL;
        g_autoptr (HsTsptwFrame) frame = NULL;

        g_test_message ("row %u", i);
        set_all_legs (legs, 4, rows[i].leg);
        problem = tsptw_orders_problem (4, legs, rows[i].windows);
        for (guint j = 0; j < 3 && rows[i].asked[j].first != 0; j++)
          hs_tsptw_add_before (problem, rows[i].asked[j].first, rows[i].asked[j].then);
        g_assert_cmpint (tsptw_orders_each (problem, TRUE, NULL, NULL), ==, 0);
        frame = hs_tsptw_frame_new (problem, problem->to[0], freely);
        g_assert_false (frame->possible);
      }
}

typedef struct
{
  const HsTsptwFrame *frame;
  guint held;
} Hold;

/* Every window, leg, order and shortest way of the frame lets this tour through. */
static void
hold (const TsptwTour *tour, gpointer data)
{
  Hold *held = data;
  const HsTsptwFrame *frame = held->frame;
  guint n = tour->n;

  if (tour->start[n] > frame->home_by)
    return;
  held->held++;
  g_assert_true (frame->possible);
  g_assert_cmpint (tour->start[0], >=, frame->from[0]);
  g_assert_cmpint (tour->start[0], <=, frame->to[0]);
  for (guint i = 0; i < n; i++)
    {
      guint a = tour->stops[i];

      g_assert_cmpint (frame->drive[a * n + tour->stops[i + 1]], ==, tour->driven[i + 1] - tour->driven[i]);
      if (i > 0)
        {
          g_assert_cmpint (tour->start[i], >=, frame->from[a]);
          g_assert_cmpint (tour->start[i], <=, frame->to[a]);
        }
      for (guint j = i + 1; j <= n; j++)
        {
          guint b = tour->stops[j];

          if (i > 0 || j < n)
            g_assert_cmpint (frame->near[a * n + b], <=, tour->driven[j] - tour->driven[i]);
          if (i > 0 && j < n)
            g_assert_false (hs_set_has (hs_tsptw_frame_before (frame, a), b));
        }
    }
}

static void
test_random (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (31 + shape->stops);
  guint tours = 0;
  guint tighter = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_trial_make (rand, shape);

      for (guint freely = 0; freely < 2; freely++)
        {
          gint64 home_by = problem->to[0] - g_rand_int_range (rand, 0, 2) * g_rand_int_range (rand, 0, shape->side + 1);
          g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, home_by, freely);
          Hold held = { frame, 0 };

          tsptw_orders_each (problem, freely, hold, &held);
          g_assert_true (held.held == 0 || frame->possible);
          tours += held.held;
          frame->home_by = MAX (home_by - shape->side, 0);
          hs_tsptw_frame_tighten (frame);
          held.held = 0;
          tsptw_orders_each (problem, freely, hold, &held);
          for (guint node = 1; node < frame->n; node++)
            tighter += frame->from[node] > problem->from[node] || frame->to[node] < problem->to[node];
        }
    }
  g_assert_cmpint (tours, >, shape->problems);
  g_assert_cmpint (tighter, >, shape->problems);
}

/* Nobody waits without need: behind 2, which is served at 5, 1 is reached at 6 and never later. */
static void
test_long_windows (void)
{
  static const gint64 windows[3][2] = { { 0, HS_TSPTW_MAX_VALUE }, { 0, HS_TSPTW_MAX_VALUE - 2 }, { 5, 5 } };
  static const gint64 legs[9] = { 0, 1, 1, 1, 0, 1, 1, 1, 0 };
  g_autoptr (HsTsptw) problem = tsptw_orders_problem (3, legs, windows);
  g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, HS_TSPTW_MAX_VALUE, FALSE);

  g_assert_true (frame->possible);
  g_assert_cmpint (frame->from[1], ==, 1);
  g_assert_cmpint (frame->to[1], ==, 6);
  g_assert_cmpint (frame->drive[0 * 3 + 2], ==, 1);
}

/* More nodes than one word of a set holds: a line of windows orders all of them. */
static void
test_many (void)
{
  static const guint sizes[] = { 2, 63, 64, 65, 128, 129, 256, 257, 512 };

  for (guint size = 0; size < G_N_ELEMENTS (sizes); size++)
    {
      guint n = sizes[size];
      g_autoptr (HsTsptw) problem = hs_tsptw_new (n);
      g_autoptr (HsTsptwFrame) frame = NULL;

      for (guint i = 0; i < n * n; i++)
        problem->drive[i] = 3;
      for (guint i = 1; i < n; i++)
        problem->from[i] = problem->to[i] = 10 * i;
      problem->to[0] = 10 * n;
      frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
      g_assert_true (frame->possible);
      g_assert_cmpint (frame->words, ==, (n + 63) / 64);
      for (guint i = 1; i < n; i++)
        for (guint j = 1; j < n; j++)
          {
            g_assert_cmpint (hs_set_has (hs_tsptw_frame_after (frame, i), j), ==, i < j);
            g_assert_cmpint (frame->drive[i * n + j], ==, j == i + 1 ? 3 : HS_TSPTW_FAR);
          }
    }
}

int
main (int argc, char **argv)
{
  static const TsptwShape shapes[] = {
    { "wide", 5, 20, 60, 60, TRUE, FALSE, FALSE, 0, 0 },
    { "narrow", 6, 20, 30, 60, FALSE, FALSE, FALSE, 0, 0 },
    { "asymmetric", 5, 20, 60, 60, TRUE, TRUE, FALSE, 0, 0 },
    { "no-triangle", 5, 20, 60, 60, TRUE, TRUE, TRUE, 0, 0 },
    { "missing-legs", 5, 15, 80, 60, FALSE, TRUE, TRUE, 20, 0 },
    { "orders", 5, 20, 100, 60, FALSE, TRUE, TRUE, 0, 2 },
    { "legs-of-nothing", 5, 1, 6, 60, TRUE, TRUE, TRUE, 0, 0 },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tightened); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw-follow/tightened/%s", tightened[i].name);

      g_test_add_data_func (path, &tightened[i], test_tightened);
    }
  for (guint i = 0; i < G_N_ELEMENTS (ordered); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw-follow/ordered/%s", ordered[i].name);

      g_test_add_data_func (path, &ordered[i], test_ordered);
    }
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw-follow/random/%s", shapes[i].name);

      g_test_add_data_func (path, &shapes[i], test_random);
    }
  g_test_add_func ("/tsptw-follow/legs", test_legs);
  g_test_add_func ("/tsptw-follow/impossible", test_impossible);
  g_test_add_func ("/tsptw-follow/long-windows", test_long_windows);
  g_test_add_func ("/tsptw-follow/many", test_many);
  return g_test_run ();
}
