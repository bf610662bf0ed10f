// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The cheapest assignment against every one that there is, and its prices against what prices have to be. */

#include "hs-assign.h"

#define MAX_N 6
#define NEVER HS_ASSIGN_NEVER

typedef struct
{
  const gint64 *cost;
  guint n;
  gboolean taken[MAX_N];
  gint64 least;
} Trial;

static void
try_rows (Trial *trial, guint row, gint64 sum)
{
  if (row == trial->n)
    {
      trial->least = MIN (trial->least, sum);
      return;
    }
  for (guint j = 0; j < trial->n; j++)
    {
      gint64 cost = trial->cost[row * trial->n + j];

      if (trial->taken[j] || cost == NEVER)
        continue;
      trial->taken[j] = TRUE;
      try_rows (trial, row + 1, sum + cost);
      trial->taken[j] = FALSE;
    }
}

/* What all assignments cost at least; %NEVER if there is none. */
static gint64
least_of (const gint64 *cost, guint n)
{
  Trial trial = { cost, n, { FALSE }, NEVER };

  try_rows (&trial, 0, 0);
  return trial.least;
}

static gint64
sum_of (const gint64 *rows, const gint64 *columns, guint n)
{
  gint64 sum = 0;

  for (guint i = 0; i < n; i++)
    sum += rows[i] + columns[i];
  return sum;
}

static void
assert_assigned (const gint64 *cost, guint n)
{
  gint64 least = least_of (cost, n);
  gint64 rows[MAX_N];
  gint64 columns[MAX_N];

  g_assert_cmpint (hs_assign (cost, n, NULL, NULL, rows, columns), ==, least != NEVER);
  if (least == NEVER)
    return;
  g_assert_cmpint (sum_of (rows, columns, n), ==, least);
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      g_assert_cmpint (rows[i] + columns[j], <=, cost[i * n + j]);
}

static void
test_rows (void)
{
  static const struct
  {
    guint n;
    gint64 cost[9];
    gint64 least;
  } rows[] = {
    { 0, { 0 }, 0 },
    { 1, { 7 }, 7 },
    { 1, { NEVER }, NEVER },
    { 2, { 1, 2, 2, 9 }, 4 },
    { 2, { 1, NEVER, 1, NEVER }, NEVER },
    { 3, { 0, 0, 0, 0, 0, 0, 0, 0, 0 }, 0 },
    { 3, { 4, 1, 3, 2, 0, 5, 3, 2, 2 }, 5 },
    { 3, { NEVER, 1, NEVER, NEVER, NEVER, 2, 3, NEVER, NEVER }, 6 },
    { 3, { NEVER, 1, 2, NEVER, 3, 4, 5, 6, 7 }, 10 },
    { 3, { NEVER, 1, 2, NEVER, 3, 4, NEVER, 6, 7 }, NEVER },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpint (least_of (rows[i].cost, rows[i].n), ==, rows[i].least);
      assert_assigned (rows[i].cost, rows[i].n);
    }
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  guint n_assigned = 0;

  for (guint round = 0; round < 3000; round++)
    {
      guint n = (guint) g_rand_int_range (rand, 1, MAX_N + 1);
      gint32 most = round % 3 == 0 ? 3 : 1000;
      gint64 cost[MAX_N * MAX_N];

      for (guint i = 0; i < n * n; i++)
        cost[i] = g_rand_int_range (rand, 0, 10) < 4 ? NEVER : g_rand_int_range (rand, 0, most);
      assert_assigned (cost, n);
      n_assigned += least_of (cost, n) != NEVER;
    }
  g_assert_cmpuint (n_assigned, >, 500);
  g_assert_cmpuint (n_assigned, <, 2500);
}

/* As large as costs may be. */
static void
test_large (void)
{
  const gint64 most = (G_GINT64_CONSTANT (1) << 61) / 3;
  const gint64 cost[] = { most, 0, most, 0, most, most, most, most, most };

  assert_assigned (cost, 3);
}

static gboolean
count_down (gpointer data)
{
  return (*(guint *) data)-- == 0;
}

static void
test_give_up (void)
{
  static const gint64 cost[] = { 1, 2, 3, 4 };
  gint64 rows[2];
  gint64 columns[2];

  for (guint asks = 0; asks < 4; asks++)
    {
      guint left = asks;

      g_assert_cmpint (hs_assign (cost, 2, count_down, &left, rows, columns), ==, asks >= 2);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/assign/rows", test_rows);
  g_test_add_func ("/plan/assign/random", test_random);
  g_test_add_func ("/plan/assign/large", test_large);
  g_test_add_func ("/plan/assign/give-up", test_give_up);
  return g_test_run ();
}
