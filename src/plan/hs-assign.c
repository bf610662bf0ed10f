// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The cheapest assignment: row after row gets a column, by the shortest way over what is assigned already. Use it for
 * bounds of any engine. It refuses nothing. */

#include "hs-assign.h"

#define NONE G_MAXUINT

/* @reach: how far each column is from the row that is to be assigned, and @from: by way of which row
 * @done: whether that is settled */
typedef struct
{
  const gint64 *cost;
  guint n;
  gint64 *row_price;
  gint64 *column_price;
  guint *row_of;
  guint *column_of;
  gint64 *reach;
  guint *from;
  gboolean *done;
} Assign;

/* Reaches on from @row, which itself is @length away; the nearest column that is not done yet, or NONE. */
static guint
reach_on (Assign *assign, guint row, gint64 length)
{
  const gint64 *cost = assign->cost + (gsize) row * assign->n;
  gint64 base = length - assign->row_price[row];
  gint64 least = G_MAXINT64;
  guint nearest = NONE;

  for (guint j = 0; j < assign->n; j++)
    {
      if (assign->done[j])
        continue;
      if (cost[j] != HS_ASSIGN_NEVER && base + cost[j] - assign->column_price[j] < assign->reach[j])
        {
          assign->reach[j] = base + cost[j] - assign->column_price[j];
          assign->from[j] = row;
        }
      if (assign->reach[j] < least)
        {
          least = assign->reach[j];
          nearest = j;
        }
    }
  return nearest;
}

/* Prices move so that what is assigned stays cheapest. */
static void
move_prices (Assign *assign, guint row, gint64 length)
{
  assign->row_price[row] += length;
  for (guint j = 0; j < assign->n; j++)
    if (assign->done[j])
      {
        assign->row_price[assign->row_of[j]] += length - assign->reach[j];
        assign->column_price[j] -= length - assign->reach[j];
      }
}

/* Gives every column on the way to @column the row that it was reached from. */
static void
assign_back (Assign *assign, guint row, guint column)
{
  while (column != NONE)
    {
      guint by = assign->from[column];
      guint before = by == row ? NONE : assign->column_of[by];

      assign->row_of[column] = by;
      assign->column_of[by] = column;
      column = before;
    }
}

static gboolean
assign_row (Assign *assign, guint row)
{
  guint now = row;
  gint64 length = 0;

  for (guint j = 0; j < assign->n; j++)
    {
      assign->reach[j] = G_MAXINT64;
      assign->done[j] = FALSE;
    }
  for (;;)
    {
      guint column = reach_on (assign, now, length);

      if (column == NONE)
        return FALSE;
      length = assign->reach[column];
      if (assign->row_of[column] == NONE)
        {
          move_prices (assign, row, length);
          assign_back (assign, row, column);
          return TRUE;
        }
      assign->done[column] = TRUE;
      now = assign->row_of[column];
    }
}

gboolean
hs_assign (const gint64 *cost, guint n, HsPlanGiveUp give_up, gpointer user_data, gint64 *ret_row_prices,
           gint64 *ret_column_prices)
{
  g_autofree guint *row_of = g_new (guint, n);
  g_autofree guint *column_of = g_new (guint, n);
  g_autofree gint64 *reach = g_new (gint64, n);
  g_autofree guint *from = g_new (guint, n);
  g_autofree gboolean *done = g_new (gboolean, n);
  Assign assign = { cost, n, ret_row_prices, ret_column_prices, row_of, column_of, reach, from, done };

  for (guint i = 0; i < n; i++)
    {
      ret_row_prices[i] = ret_column_prices[i] = 0;
      row_of[i] = column_of[i] = NONE;
    }
  for (guint row = 0; row < n; row++)
    if ((give_up != NULL && give_up (user_data)) || !assign_row (&assign, row))
      return FALSE;
  return TRUE;
}
