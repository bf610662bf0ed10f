// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The least cost of columns that cover rows: revised simplex with a dense inverse of the basis.
 *
 * Right sides are shifted by a little, each by another little, so that no pivot stands still. What the shift does to
 * the value does not matter: prices stay prices. */

#include "hs-solve-master.h"

#include <math.h>
#include <string.h>

#define SHIFT 1e-4
#define TINY 1e-9
#define LEAST_PIVOT 1e-7
#define RENEW_EVERY 150

/* Pivots for each row, in one call. */
#define PIVOTS_EACH 200

/* @first: of its rows in the list of all rows */
typedef struct
{
  double cost;
  guint first;
  guint n_rows;
  double sign;
} Column;

/* @basis: the column of each row; @values: how much of it is taken
 * Columns: one artificial or slack for each row, one surplus for each row to be covered, then those that were added. */
struct _HsMaster
{
  guint n_cover;
  guint n;
  guint n_own;
  GArray *columns;
  GArray *rows;
  double *sides;
  double *inverse;
  guint *basis;
  double *values;
  double *prices;
  double *step;
  guint since_renewed;
};

static void
add_column (HsMaster *master, double cost, double sign, const guint16 *rows, guint n_rows)
{
  Column column = { cost, master->rows->len, n_rows, sign };

  g_array_append_vals (master->rows, rows, n_rows);
  g_array_append_val (master->columns, column);
}

static const Column *
get_column (const HsMaster *master, guint index)
{
  return &g_array_index (master->columns, Column, index);
}

static const guint16 *
rows_of (const HsMaster *master, const Column *column)
{
  return &g_array_index (master->rows, guint16, column->first);
}

HsMaster *
hs_master_new (guint n_cover, guint n_rows, const guint *limits, double missing_cost)
{
  HsMaster *master = g_new0 (HsMaster, 1);

  master->n_cover = n_cover;
  master->n = n_rows;
  master->n_own = n_rows + n_cover;
  master->columns = g_array_new (FALSE, FALSE, sizeof (Column));
  master->rows = g_array_new (FALSE, FALSE, sizeof (guint16));
  master->sides = g_new (double, n_rows + 1);
  master->inverse = g_new0 (double, (gsize) n_rows * n_rows + 1);
  master->basis = g_new (guint, n_rows + 1);
  master->values = g_new (double, n_rows + 1);
  master->prices = g_new0 (double, n_rows + 1);
  master->step = g_new0 (double, n_rows + 1);
  for (guint16 i = 0; i < n_rows; i++)
    {
      double little = 0.5 + 0.5 * fmod (0.6180339887498949 * (i + 1), 1.0);

      add_column (master, i < n_cover ? missing_cost : 0, 1, &i, 1);
      master->sides[i] = (i < n_cover ? 1 : limits[i - n_cover]) + SHIFT * little;
      master->inverse[(gsize) i * n_rows + i] = 1;
      master->basis[i] = i;
      master->values[i] = master->sides[i];
    }
  for (guint16 i = 0; i < n_cover; i++)
    add_column (master, 0, -1, &i, 1);
  return master;
}

void
hs_master_free (HsMaster *master)
{
  if (master == NULL)
    return;
  g_array_unref (master->columns);
  g_array_unref (master->rows);
  g_free (master->sides);
  g_free (master->inverse);
  g_free (master->basis);
  g_free (master->values);
  g_free (master->prices);
  g_free (master->step);
  g_free (master);
}

void
hs_master_add (HsMaster *master, double cost, const guint16 *rows, guint n_rows)
{
  add_column (master, cost, 1, rows, n_rows);
}

static void
fill_prices (HsMaster *master)
{
  guint n = master->n;

  memset (master->prices, 0, n * sizeof (double));
  for (guint i = 0; i < n; i++)
    {
      double cost = get_column (master, master->basis[i])->cost;

      for (guint j = 0; j < n && cost != 0; j++)
        master->prices[j] += cost * master->inverse[(gsize) i * n + j];
    }
}

/* The column that promises most; that of the basis promise nothing. */
static gboolean
find_column (const HsMaster *master, guint *ret_index)
{
  double least = -1e-6;

  for (guint c = 0; c < master->columns->len; c++)
    {
      const Column *column = get_column (master, c);
      const guint16 *rows = rows_of (master, column);
      double over = column->cost;

      for (guint k = 0; k < column->n_rows; k++)
        over -= column->sign * master->prices[rows[k]];
      if (over < least)
        {
          least = over;
          *ret_index = c;
        }
    }
  return least < -1e-6;
}

/* What each basic column loses for one of column @index. */
static void
fill_step (HsMaster *master, guint index)
{
  const Column *column = get_column (master, index);
  const guint16 *rows = rows_of (master, column);
  guint n = master->n;

  for (guint i = 0; i < n; i++)
    {
      const double *row = &master->inverse[(gsize) i * n];

      master->step[i] = 0;
      for (guint k = 0; k < column->n_rows; k++)
        master->step[i] += column->sign * row[rows[k]];
    }
}

static gboolean
find_row (const HsMaster *master, guint *ret_row)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < master->n; i++)
    {
      double ratio;

      if (master->step[i] < LEAST_PIVOT)
        continue;
      ratio = MAX (master->values[i], 0) / master->step[i];
      if (ratio < least)
        {
          least = ratio;
          *ret_row = i;
        }
    }
  return least < G_MAXDOUBLE;
}

/* Makes row @row of the inverse that of a column with @step: the same in all. */
static void
eliminate (double *inverse, guint n, const double *step, guint row)
{
  double *pivot = &inverse[(gsize) row * n];

  for (guint j = 0; j < n; j++)
    pivot[j] /= step[row];
  for (guint i = 0; i < n; i++)
    {
      double *at = &inverse[(gsize) i * n];

      if (i == row || fabs (step[i]) < TINY)
        continue;
      for (guint j = 0; j < n; j++)
        at[j] -= step[i] * pivot[j];
    }
}

static void
fill_values (HsMaster *master)
{
  for (guint i = 0; i < master->n; i++)
    {
      master->values[i] = 0;
      for (guint j = 0; j < master->n; j++)
        master->values[i] += master->inverse[(gsize) i * master->n + j] * master->sides[j];
    }
}

/* Builds the inverse anew: the columns of the basis go in one after the other, each in the free row where it stands out
 * most. FALSE if they do not make a basis. */
static gboolean
renew (HsMaster *master)
{
  guint n = master->n;
  g_autofree guint *old = g_memdup2 (master->basis, n * sizeof (guint));
  g_autofree gboolean *taken = g_new0 (gboolean, n);

  memset (master->inverse, 0, (gsize) n * n * sizeof (double));
  for (guint i = 0; i < n; i++)
    master->inverse[(gsize) i * n + i] = 1;
  for (guint k = 0; k < n; k++)
    {
      guint row = n;

      fill_step (master, old[k]);
      for (guint i = 0; i < n; i++)
        if (!taken[i] && (row == n || fabs (master->step[i]) > fabs (master->step[row])))
          row = i;
      if (fabs (master->step[row]) < LEAST_PIVOT)
        return FALSE;
      eliminate (master->inverse, n, master->step, row);
      taken[row] = TRUE;
      master->basis[row] = old[k];
    }
  fill_values (master);
  master->since_renewed = 0;
  return TRUE;
}

static void
pivot (HsMaster *master, guint row, guint index)
{
  double ratio = MAX (master->values[row], 0) / master->step[row];

  for (guint i = 0; i < master->n; i++)
    master->values[i] -= ratio * master->step[i];
  master->values[row] = ratio;
  eliminate (master->inverse, master->n, master->step, row);
  master->basis[row] = index;
  master->since_renewed++;
}

gboolean
hs_master_solve (HsMaster *master, double *ret_prices)
{
  gboolean sound = TRUE;
  gboolean done = FALSE;

  for (guint left = PIVOTS_EACH * master->n; left > 0 && sound && !done; left--)
    {
      guint index = 0;
      guint row = 0;

      if (master->since_renewed >= RENEW_EVERY)
        sound = renew (master);
      if (!sound)
        break;
      fill_prices (master);
      done = !find_column (master, &index);
      if (done)
        break;
      fill_step (master, index);
      sound = find_row (master, &row);
      if (sound)
        pivot (master, row, index);
    }
  for (guint i = 0; i < master->n; i++)
    ret_prices[i] = i < master->n_cover ? MAX (master->prices[i], 0) : MIN (master->prices[i], 0);
  return done;
}

void
hs_master_forbid (HsMaster *master, guint index)
{
  Column *column = &g_array_index (master->columns, Column, master->n_own + index);

  column->cost = master->n_cover == 0 ? column->cost : get_column (master, 0)->cost;
}

double
hs_master_get_share (const HsMaster *master, guint index)
{
  for (guint i = 0; i < master->n; i++)
    if (master->basis[i] == master->n_own + index)
      return MAX (master->values[i], 0);
  return 0;
}
