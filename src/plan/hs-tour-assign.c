// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The cheapest assignment of a next node to every node, by shortest augmenting paths; only its prices are of use. */

#include "hs-tour-tree.h"

#include <string.h>

#define FAR (G_GINT64_CONSTANT (1) << 50)

typedef struct
{
  const HsTourFrame *frame;
  guint n;
  gint64 *row_price;
  gint64 *column_price;
  int *row_of;
  gint64 *reach;
  int *from;
  guint8 *done;
} Assign;

/* Legs that nobody can use are only very dear, so that there always is an assignment. */
static inline gint64
slack (const Assign *assign, guint row, guint column)
{
  gint32 cost = hs_tour_frame_cost (assign->frame, row, column);

  return (cost == HS_TOUR_NO_LEG ? FAR : cost) - assign->row_price[row] - assign->column_price[column];
}

/* Shortest way from a free @row to a free column over what is assigned; the prices follow. */
static void
assign_row (Assign *assign, guint row)
{
  guint n = assign->n;
  guint now = row;
  gint64 length = 0;
  int column = -1;

  for (guint j = 0; j < n; j++)
    {
      assign->reach[j] = G_MAXINT64;
      assign->from[j] = (int) row;
      assign->done[j] = 0;
    }
  for (;;)
    {
      column = -1;
      for (guint j = 0; j < n; j++)
        {
          gint64 way;

          if (assign->done[j])
            continue;
          way = length + slack (assign, now, j);
          if (way < assign->reach[j])
            {
              assign->reach[j] = way;
              assign->from[j] = (int) now;
            }
          if (column < 0 || assign->reach[j] < assign->reach[column])
            column = (int) j;
        }
      length = assign->reach[column];
      if (assign->row_of[column] < 0)
        break;
      assign->done[column] = 1;
      now = (guint) assign->row_of[column];
    }
  assign->row_price[row] += length;
  for (guint j = 0; j < n; j++)
    if (assign->done[j])
      {
        assign->row_price[assign->row_of[j]] += length - assign->reach[j];
        assign->column_price[j] -= length - assign->reach[j];
      }
  while (column >= 0)
    {
      guint by = (guint) assign->from[column];
      int next = -1;

      for (guint j = 0; by != row && next < 0; j++)
        if (assign->row_of[j] == (int) by)
          next = (int) j;
      assign->row_of[column] = (int) by;
      column = next;
    }
}

void
hs_tour_tree_assign (HsTourTree *tree)
{
  guint n = tree->n;
  g_autofree gint64 *row_price = g_new0 (gint64, n);
  g_autofree gint64 *column_price = g_new0 (gint64, n);
  g_autofree gint64 *reach = g_new (gint64, n);
  g_autofree int *row_of = g_new (int, n);
  g_autofree int *from = g_new (int, n);
  g_autofree guint8 *done = g_new (guint8, n);
  Assign assign = { tree->frame, n, row_price, column_price, row_of, reach, from, done };

  memset (row_of, 0xff, n * sizeof *row_of);
  for (guint i = 0; i < n; i++)
    if (tree->give_up == NULL || i % 16 != 0 || !tree->give_up (tree->user_data))
      assign_row (&assign, i);
    else
      return;
  for (guint i = 0; i < n; i++)
    {
      tree->prices[i] = -row_price[i] * HS_TOUR_SCALE;
      tree->prices[n + i] = -column_price[i] * HS_TOUR_SCALE;
    }
}
