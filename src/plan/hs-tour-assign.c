// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The cheapest assignment of a next node to every node; only its prices are of use. */

#include "hs-assign.h"
#include "hs-tour-tree.h"

#define FAR (G_GINT64_CONSTANT (1) << 50)

/* Legs that nobody can use are only very dear, so that there always is an assignment. */
static gint64 *
copy_costs (const HsTourFrame *frame)
{
  gsize cells = (gsize) frame->n * frame->n;
  gint64 *costs = g_new (gint64, cells);

  for (gsize cell = 0; cell < cells; cell++)
    costs[cell] = frame->costs[cell] == HS_TOUR_NO_LEG ? FAR : frame->costs[cell];
  return costs;
}

void
hs_tour_tree_assign (HsTourTree *tree)
{
  guint n = tree->n;
  g_autofree gint64 *costs = copy_costs (tree->frame);
  g_autofree gint64 *row_prices = g_new (gint64, n);
  g_autofree gint64 *column_prices = g_new (gint64, n);

  if (!hs_assign (costs, n, tree->give_up, tree->user_data, row_prices, column_prices))
    return;
  for (guint i = 0; i < n; i++)
    {
      tree->prices[i] = -row_prices[i] * HS_TOUR_SCALE;
      tree->prices[n + i] = -column_prices[i] * HS_TOUR_SCALE;
    }
}
