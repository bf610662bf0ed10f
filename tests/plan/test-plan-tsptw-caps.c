// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A search that may keep only a few paths at a time goes through small problems as otherwise only through large ones,
 * limit by limit. What it proves is compared with trying every order at every leave time. */

#include "hs-tsptw-caps.h"

#include "tsptw-orders.h"

#define LONGEST_LEG 12
#define PROBLEMS 60

static const HsTsptwCaps rows[] = {
  { 100, 3000000, 100, 10, 2, 0, 0, 0, 0, FALSE },
  { 40, 3000000, 40, 10, 2, 0, 0, 0, 0, FALSE },
  { 100, 60, 100, 10, 2, 0, 0, 0, 0, FALSE },
  { 100, 3000000, 100, 10, 2, 0, 0, 0, 0, TRUE },
  { 10, 3000000, 10, 10, 1, 0, 0, 0, 0, FALSE, 100000 },
};

static const HsTsptwObjective objectives[] = { HS_TSPTW_TRAVEL, HS_TSPTW_MAKESPAN, HS_TSPTW_DURATION };

/* Legs are short and windows far apart, so that most of the time away is waited. */
static HsTsptw *
make_problem (GRand *rand)
{
  guint n = (guint) g_rand_int_range (rand, 6, 9);
  HsTsptw *problem = hs_tsptw_new (n);

  for (guint i = 0; i < n * n; i++)
    problem->drive[i] = g_rand_int_range (rand, 1, LONGEST_LEG + 1);
  problem->to[0] = 20 * LONGEST_LEG;
  for (guint i = 1; i < n; i++)
    {
      problem->from[i] = g_rand_int_range (rand, 0, 8 * LONGEST_LEG);
      problem->to[i] = problem->from[i] + g_rand_int_range (rand, LONGEST_LEG, 12 * LONGEST_LEG);
    }
  return problem;
}

typedef struct
{
  gint64 least[G_N_ELEMENTS (objectives)];
  gint64 first_leave;
} Least;

static void
take_least (const TsptwTour *tour, gpointer data)
{
  Least *least = data;

  for (guint i = 0; i < G_N_ELEMENTS (objectives); i++)
    if (objectives[i] == HS_TSPTW_DURATION || tour->start[0] == least->first_leave)
      least->least[i] = MIN (least->least[i], tsptw_orders_cost (tour, objectives[i]));
}

static Least
try_all (const HsTsptw *problem)
{
  Least least = { .first_leave = problem->from[0] };

  for (guint i = 0; i < G_N_ELEMENTS (objectives); i++)
    least.least[i] = G_MAXINT64;
  tsptw_orders_each (problem, TRUE, take_least, &least);
  return least;
}

static void
check (const HsTsptw *problem, HsTsptwObjective objective, const HsTsptwAnswer *answer, gint64 least)
{
  if (answer->found)
    {
      g_assert_cmpint (tsptw_trial_drive (problem, objective, answer->order), ==, answer->cost);
      g_assert_cmpint (answer->cost, >=, least);
    }
  if (answer->status == HS_PLAN_IMPOSSIBLE)
    g_assert_cmpint (least, ==, G_MAXINT64);
  else if (answer->status == HS_PLAN_OPTIMAL)
    g_assert_cmpint (answer->cost, ==, least);
  else
    g_assert_cmpint (answer->bound, <=, least);
}

/* Every problem with each row of caps. */
static void
test_seed (gconstpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (GPOINTER_TO_UINT (data));
  guint proven[G_N_ELEMENTS (rows)] = { 0 };
  guint driven[G_N_ELEMENTS (rows)] = { 0 };

  for (guint i = 0; i < PROBLEMS; i++)
    {
      g_autoptr (HsTsptw) problem = make_problem (rand);
      Least least = try_all (problem);

      for (guint row = 0; row < G_N_ELEMENTS (rows); row++)
        for (guint o = 0; o < G_N_ELEMENTS (objectives); o++)
          {
            HsTsptwHow how = { NULL, NULL, 1, objectives[o] };
            HsTsptwAnswer answer;

            g_assert_true (hs_tsptw_solve_capped (problem, &how, &rows[row], &answer, NULL));
            check (problem, objectives[o], &answer, least.least[o]);
            proven[row] += answer.status != HS_PLAN_BEST_FOUND;
            if (objectives[o] == HS_TSPTW_TRAVEL)
              driven[row] += answer.status != HS_PLAN_BEST_FOUND;
          }
    }
  for (guint row = 0; row < G_N_ELEMENTS (rows); row++)
    {
      g_assert_cmpint (proven[row], >, PROBLEMS);
      if (rows[row].few_paths > 0)
        g_assert_cmpint (driven[row], ==, PROBLEMS);
    }
}

/* Twenty stops at any time of a morning, then three that open at noon, all as far from each other and from home: nobody
 * is home before noon and three legs, which no two of them alone say. Of what comes before noon there are far too many
 * orders to try. */
static void
test_home_by_noon (void)
{
  enum { STOPS = 23, LEG = 20, NOON = 600 };
  static const HsTsptwCaps caps = { 5000, 60000, 5000, 5000, 2, 40, 40, 0, 0, TRUE };
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  g_autoptr (HsTsptw) problem = hs_tsptw_new (STOPS + 1);
  HsTsptwHow how = { NULL, NULL, 1, HS_TSPTW_MAKESPAN };
  HsTsptwAnswer answer;

  for (guint i = 0; i <= STOPS; i++)
    for (guint j = 0; j <= STOPS; j++)
      problem->drive[i * (STOPS + 1) + j] = g_rand_int_range (rand, LEG / 2, LEG + 1);
  for (guint i = 0; i <= STOPS; i++)
    for (guint late = STOPS - 2; late <= STOPS; late++)
      problem->drive[i * (STOPS + 1) + late] = problem->drive[late * (STOPS + 1) + i] = LEG;
  for (guint i = 0; i <= STOPS; i++)
    {
      problem->from[i] = i < STOPS - 2 ? 0 : NOON;
      problem->to[i] = i > 0 && i < STOPS - 2 ? NOON - LEG : 2 * NOON;
    }
  g_assert_true (hs_tsptw_solve_capped (problem, &how, &caps, &answer, NULL));
  g_assert_cmpint (answer.status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (answer.cost, ==, NOON + 3 * LEG);
  g_assert_cmpint (tsptw_trial_drive (problem, HS_TSPTW_MAKESPAN, answer.order), ==, answer.cost);
}

int
main (int argc, char **argv)
{
  /* Among the problems of these seeds are some in which the first limit of driving within which there is a tour is
   * below what the best one drives. */
  static const guint seeds[] = { 9, 14, 61 };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (seeds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tsptw-caps/seed-%u", seeds[i]);

      g_test_add_data_func (path, GUINT_TO_POINTER (seeds[i]), test_seed);
    }
  g_test_add_func ("/tsptw-caps/home-by-noon", test_home_by_noon);
  return g_test_run ();
}
