// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The small linear program: values known by hand, and that prices and shares prove each other right. */

#include "hs-solve-master.h"

#include <math.h>

#define MISSING 1000
#define MAX_COLUMNS 40

/* @columns: rows of each, -1 ends it; rows from @n_cover on are limited to one */
typedef struct
{
  const char *name;
  guint n_cover;
  guint n_rows;
  guint n_columns;
  double costs[5];
  int columns[5][4];
  double value;
} Row;

static const Row rows[] = {
  { "nothing", 0, 1, 0, { 0 }, { { 0 } }, 0 },
  { "missing", 2, 2, 1, { 5 }, { { 0, -1 } }, MISSING + 5 },
  { "cheaper of two", 1, 1, 2, { 5, 3 }, { { 0, -1 }, { 0, -1 } }, 3 },
  { "one for both", 2, 2, 3, { 4, 4, 7 }, { { 0, -1 }, { 1, -1 }, { 0, 1, -1 } }, 7 },
  { "each for itself", 2, 2, 3, { 3, 3, 7 }, { { 0, -1 }, { 1, -1 }, { 0, 1, -1 } }, 6 },
  /* Each pair costs 2: half of each is enough. */
  { "halves", 3, 3, 3, { 2, 2, 2 }, { { 0, 1, -1 }, { 1, 2, -1 }, { 0, 2, -1 } }, 3 },
  /* Only one column may be taken, so the dear one that does it all. */
  { "one van", 2, 3, 3, { 3, 3, 9 }, { { 0, 2, -1 }, { 1, 2, -1 }, { 0, 1, 2, -1 } }, 9 },
  /* A row that stands twice counts twice. */
  { "twice", 1, 1, 2, { 5, 8 }, { { 0, -1 }, { 0, 0, -1 } }, 4 },
};

static void
add (HsMaster *master, double cost, const int *column)
{
  guint16 list[4];
  guint n = 0;

  for (; column[n] >= 0; n++)
    list[n] = (guint16) column[n];
  hs_master_add (master, cost, list, n);
}

/* What prices are worth all together, which is the value of the program. */
static double
worth (const double *prices, guint n_rows)
{
  double sum = 0;

  for (guint i = 0; i < n_rows; i++)
    sum += prices[i];
  return sum;
}

static void
test_rows (void)
{
  static const guint limits[] = { 1, 1 };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Row *row = &rows[i];
      g_autoptr (HsMaster) master = hs_master_new (row->n_cover, row->n_rows, limits, MISSING);
      double prices[4];
      double value = 0;

      g_test_message ("%s", row->name);
      for (guint c = 0; c < row->n_columns; c++)
        add (master, row->costs[c], row->columns[c]);
      g_assert_true (hs_master_solve (master, prices));
      g_assert_cmpfloat_with_epsilon (worth (prices, row->n_rows), row->value, 1e-6);
      for (guint c = 0; c < row->n_columns; c++)
        value += row->costs[c] * hs_master_get_share (master, c);
      if (row->value < MISSING)
        g_assert_cmpfloat_with_epsilon (value, row->value, 0.01);
    }
}

typedef struct
{
  guint n_rows;
  double costs[MAX_COLUMNS];
  guint16 rows[MAX_COLUMNS][8];
  guint n[MAX_COLUMNS];
} Columns;

static void
fill_columns (Columns *columns, GRand *rand, guint n_cover)
{
  for (guint c = 0; c < MAX_COLUMNS; c++)
    {
      columns->n[c] = 0;
      columns->costs[c] = g_rand_int_range (rand, 10, 60);
      for (guint16 i = 0; i < n_cover && columns->n[c] < 7; i++)
        if (g_rand_int_range (rand, 0, 4) == 0)
          columns->rows[c][columns->n[c]++] = i;
      columns->rows[c][columns->n[c]++] = (guint16) n_cover;
    }
}

static double
covered (const HsMaster *master, const Columns *columns, guint n_known, guint16 row)
{
  double sum = 0;

  for (guint c = 0; c < n_known; c++)
    for (guint k = 0; k < columns->n[c]; k++)
      sum += columns->rows[c][k] == row ? hs_master_get_share (master, c) : 0;
  return sum;
}

/* No column is cheaper than its rows are worth, and those taken cost what all rows are worth: neither can be better. */
static void
assert_optimal (HsMaster *master, const Columns *columns, guint n_known, guint n_cover, guint limit)
{
  double prices[20];
  double value = 0;
  double used = 0;
  double missing = n_cover;

  g_assert_true (hs_master_solve (master, prices));
  for (guint i = 0; i <= n_cover; i++)
    g_assert_true (i < n_cover ? prices[i] >= 0 : prices[i] <= 0);
  for (guint c = 0; c < n_known; c++)
    {
      double over = columns->costs[c];

      for (guint k = 0; k < columns->n[c]; k++)
        over -= prices[columns->rows[c][k]];
      g_assert_cmpfloat (over, >=, -1e-5);
      value += columns->costs[c] * hs_master_get_share (master, c);
      used += hs_master_get_share (master, c);
    }
  g_assert_cmpfloat (used, <=, limit + 0.01);
  for (guint i = 0; i < n_cover; i++)
    missing -= MIN (1, covered (master, columns, n_known, (guint16) i));
  if (missing < 0.01)
    g_assert_cmpfloat_with_epsilon (worth (prices, n_cover) + prices[n_cover] * limit, value, 0.2);
}

static void
test_random (void)
{
  for (guint32 seed = 0; seed < 200; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      guint n_cover = (guint) g_rand_int_range (rand, 1, 12);
      guint limit = (guint) g_rand_int_range (rand, 2, 9);
      g_autoptr (HsMaster) master = hs_master_new (n_cover, n_cover + 1, &limit, MISSING);
      Columns columns;

      fill_columns (&columns, rand, n_cover);
      for (guint c = 0; c < MAX_COLUMNS; c++)
        {
          hs_master_add (master, columns.costs[c], columns.rows[c], columns.n[c]);
          if (c % 8 == 7)
            assert_optimal (master, &columns, c + 1, n_cover, limit);
        }
    }
}

/* What must not be taken any more is not. */
static void
test_forbid (void)
{
  static const guint16 both[] = { 0, 1 };
  g_autoptr (HsMaster) master = hs_master_new (2, 2, NULL, MISSING);
  double prices[2];

  hs_master_add (master, 3, both, 2);
  hs_master_add (master, 5, both, 2);
  g_assert_true (hs_master_solve (master, prices));
  g_assert_cmpfloat_with_epsilon (hs_master_get_share (master, 0), 1, 0.01);
  hs_master_forbid (master, 0);
  g_assert_true (hs_master_solve (master, prices));
  g_assert_cmpfloat_with_epsilon (hs_master_get_share (master, 0), 0, 0.01);
  g_assert_cmpfloat_with_epsilon (hs_master_get_share (master, 1), 1, 0.01);
  g_assert_cmpfloat_with_epsilon (prices[0] + prices[1], 5, 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-master/rows", test_rows);
  g_test_add_func ("/plan/solve-master/random", test_random);
  g_test_add_func ("/plan/solve-master/forbid", test_forbid);
  return g_test_run ();
}
