// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The bound over places: where a node may stand against every round, walks against every walk, and never above the
 * cheapest round. */

#include "hs-tour-places.h"

#include "tour-judge.h"

#include <string.h>

#define MOST 8

typedef struct
{
  guint n;
  guint first[MOST];
  guint last[MOST];
} Stands;

static void
stand (const guint16 *order, gint64 cost, gpointer data)
{
  Stands *stands = data;

  for (guint place = 0; place < stands->n; place++)
    {
      stands->first[order[place]] = MIN (stands->first[order[place]], place);
      stands->last[order[place]] = MAX (stands->last[order[place]], place);
    }
}

/* The earliest and the latest place at which any round visits a node. */
static void
test_where (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 1);

  for (guint trial = 0; trial < 80; trial++)
    {
      guint n = 2 + trial % (MOST - 1);
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 10);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourPlaces) places = hs_tour_places_new (frame);
      Stands stands = { n, { 0 }, { 0 } };

      for (guint j = 0; j < n; j++)
        stands.first[j] = n;
      tour_each_round (problem, stand, &stands);
      for (guint j = 0; j < n; j++)
        {
          g_assert_cmpuint (places->first[j], ==, stands.first[j]);
          g_assert_cmpuint (places->last[j], ==, stands.last[j]);
        }
    }
  g_rand_free (rand);
}

/* The least weight home from @node at @place, all walks tried. */
static gint64
walk_home (const HsTourPlaces *places, guint place, guint node)
{
  guint n = places->n;
  gint32 home = hs_tour_frame_cost (places->frame, node, 0);
  gint64 least = HS_TOUR_NO_WALK;

  if (place < places->first[node] || place > places->last[node])
    return HS_TOUR_NO_WALK;
  if (place == n - 1)
    return home == HS_TOUR_NO_LEG ? HS_TOUR_NO_WALK : home * (gint64) HS_TOUR_SCALE;
  for (guint j = 1; j < n; j++)
    {
      gint32 cost = hs_tour_frame_cost (places->frame, node, j);
      gint64 rest;

      if (cost == HS_TOUR_NO_LEG)
        continue;
      rest = walk_home (places, place + 1, j);
      if (rest < HS_TOUR_NO_WALK)
        least = MIN (least, rest + cost * (gint64) HS_TOUR_SCALE + places->prices[j]);
    }
  return least;
}

static void
set_prices (HsTourPlaces *places, GRand *rand, gint32 most)
{
  for (guint j = 1; j < places->n; j++)
    places->prices[j] = g_rand_int_range (rand, -most, most + 1) * (gint64) HS_TOUR_SCALE;
}

static HsTourSearch *
search_new (const HsTourFrame *frame, guint *left)
{
  HsTourHow how = { left == NULL ? NULL : tour_give_up_after, left, 1 };

  return hs_tour_search_new (frame, &how);
}

static void
test_walks (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 11);

  for (guint trial = 0; trial < 60; trial++)
    {
      guint n = 2 + trial % 5;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 30);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourPlaces) places = hs_tour_places_new (frame);
      g_autoptr (HsTourSearch) search = search_new (frame, NULL);
      gint64 bound;

      set_prices (places, rand, trial % 3 * 10);
      hs_tour_places_climb (places, search, 0);
      for (guint place = 0; place < n; place++)
        for (guint j = 0; j < n; j++)
          g_assert_cmpint (places->rest[place * n + j], ==, walk_home (places, place, j));
      bound = walk_home (places, 0, 0);
      for (guint j = 1; j < n; j++)
        bound -= places->prices[j];
      g_assert_cmpint (places->bound, ==, bound);
      g_assert_cmpint (places->bound, <=, tour_cheapest (problem) * HS_TOUR_SCALE);
    }
  g_rand_free (rand);
}

/* What a climb may do: raise the bound, never above the cheapest round; the walks then belong to the prices. */
static void
test_climb (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 21);
  guint higher = 0;

  for (guint trial = 0; trial < 60; trial++)
    {
      guint n = 3 + trial % 9;
      g_autoptr (HsTourProblem) problem = tour_random (rand, n, kind, 100);
      g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
      g_autoptr (HsTourPlaces) places = hs_tour_places_new (frame);
      g_autoptr (HsTourSearch) search = search_new (frame, NULL);
      g_autofree gint64 *rest = NULL;
      gint64 begin;
      gint64 end;

      set_prices (places, rand, trial % 2 * 20);
      hs_tour_places_climb (places, search, 0);
      begin = places->bound;
      hs_tour_places_climb (places, search, 5 + 3 * trial);
      end = places->bound;
      g_assert_cmpint (end, >=, begin);
      g_assert_cmpint (end, <=, tour_cheapest (problem) * HS_TOUR_SCALE);
      higher += end > begin;
      rest = g_memdup2 (places->rest, n * n * sizeof *rest);
      hs_tour_places_climb (places, search, 0);
      g_assert_cmpint (places->bound, ==, end);
      g_assert_cmpmem (places->rest, n * n * sizeof *rest, rest, n * n * sizeof *rest);
      g_assert_cmpint (places->prices[0], ==, 0);
    }
  g_assert_cmpuint (higher, >, 20);
  g_rand_free (rand);
}

/* A chain leaves one walk, which is the round: the bound is exact without any price. */
static void
test_chain (void)
{
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (6);
  g_autoptr (HsTourFrame) frame = NULL;
  g_autoptr (HsTourPlaces) places = NULL;
  g_autoptr (HsTourSearch) search = NULL;

  for (guint i = 0; i < 6; i++)
    for (guint j = 0; j < 6; j++)
      hs_tour_problem_set_cost (problem, i, j, (gint32) (10 * i + j));
  for (guint i = 1; i < 5; i++)
    hs_tour_problem_add_order (problem, i, i + 1);
  frame = hs_tour_frame_new (problem);
  places = hs_tour_places_new (frame);
  search = search_new (frame, NULL);
  hs_tour_places_climb (places, search, 0);
  /* 0 → 1 → … → 5 → 0: 1 + 12 + 23 + 34 + 45 + 50. */
  g_assert_cmpint (places->bound, ==, 165 * HS_TOUR_SCALE);
  g_assert_cmpint (places->rest[3 * 6 + 3], ==, (34 + 45 + 50) * HS_TOUR_SCALE);
  g_assert_cmpint (places->rest[3 * 6 + 4], ==, HS_TOUR_NO_WALK);
}

/* Without orders, two nodes near each other and far from the third: the cheapest walk goes to and fro between the two,
 * which prices for visits can mend. */
static void
test_to_and_fro (void)
{
  static const gint32 costs[16] = { 0, 1, 1, 9, 1, 0, 1, 9, 1, 1, 0, 9, 9, 9, 9, 0 };
  g_autoptr (HsTourProblem) problem = hs_tour_problem_new (4);
  g_autoptr (HsTourFrame) frame = NULL;
  g_autoptr (HsTourPlaces) places = NULL;
  g_autoptr (HsTourSearch) search = NULL;

  memcpy (problem->costs, costs, sizeof costs);
  frame = hs_tour_frame_new (problem);
  places = hs_tour_places_new (frame);
  search = search_new (frame, NULL);
  hs_tour_places_climb (places, search, 0);
  g_assert_cmpint (places->bound, ==, 4 * HS_TOUR_SCALE);
  hs_tour_places_climb (places, search, 400);
  g_assert_cmpint (places->bound, >, 19 * HS_TOUR_SCALE);
  g_assert_cmpint (places->bound, <=, 20 * HS_TOUR_SCALE);
}

static void
test_cut (gconstpointer data)
{
  TourKind kind = (TourKind) GPOINTER_TO_UINT (data);
  GRand *rand = g_rand_new_with_seed (kind + 31);
  g_autoptr (HsTourProblem) problem = tour_random (rand, 11, kind, 100);
  g_autoptr (HsTourFrame) frame = hs_tour_frame_new (problem);
  gint64 least = tour_cheapest (problem);

  for (guint asks = 0; asks < 20; asks++)
    {
      guint left = G_MAXUINT;
      g_autoptr (HsTourPlaces) places = hs_tour_places_new (frame);
      g_autoptr (HsTourSearch) search = search_new (frame, &left);

      left = asks;
      hs_tour_places_climb (places, search, 100);
      g_assert_cmpint (places->bound, <=, least * HS_TOUR_SCALE);
      /* Asked first of all: then no price has moved yet. */
      for (guint j = 0; j < 11 && asks == 0; j++)
        g_assert_cmpint (places->prices[j], ==, 0);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  tour_add_test ("/tour-places/where", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_where);
  tour_add_test ("/tour-places/walks", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_walks);
  tour_add_test ("/tour-places/climb", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_climb);
  g_test_add_func ("/tour-places/chain", test_chain);
  g_test_add_func ("/tour-places/to-and-fro", test_to_and_fro);
  tour_add_test ("/tour-places/cut", TOUR_ALIKE, TOUR_WAY_WITH_ORDERS, test_cut);
  hs_tour_places_free (NULL);
  return g_test_run ();
}
