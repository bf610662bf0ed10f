// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How many pieces to keep in the van so that one is nearly always there, from how many were used. Says nothing about
 * parts that were never used: for those it is one or none, by what a second trip costs. */

#include "hs-stock.h"

#include <math.h>

/* Weights smaller than this against the largest one change no digit. */
#define NEGLIGIBLE 1e-20

/* Walks over the Poisson weights, each told as a share of the largest one, from where they begin to count: e^-demand
 * itself is too small to be a number when the demand is large. */
typedef struct
{
  double demand;
  double total;
  gint64 at;
  double weight;
} Walk;

static void
walk_start (Walk *walk, double demand)
{
  gint64 peak = (gint64) floor (demand);
  double weight = 1;

  walk->demand = demand;
  walk->total = 1;
  walk->at = peak;
  for (gint64 n = peak + 1; (weight *= demand / (double) n) > NEGLIGIBLE; n++)
    walk->total += weight;
  weight = 1;
  for (; walk->at > 0 && weight > NEGLIGIBLE; walk->at--)
    {
      weight *= (double) walk->at / demand;
      walk->total += weight;
    }
  walk->weight = weight;
}

static void
walk_step (Walk *walk)
{
  walk->at++;
  walk->weight *= walk->demand / (double) walk->at;
}

gint64
hs_stock_keep (double demand, double service)
{
  Walk walk;
  double sum;

  g_return_val_if_fail (demand >= 0 && demand <= HS_STOCK_MOST_DEMAND && service < 1, 0);
  if (service <= 0)
    return 0;
  walk_start (&walk, demand);
  /* Beyond the last weight that counts every service below 1 is reached. */
  for (sum = walk.weight; sum < service * walk.total && (walk.weight > NEGLIGIBLE || (double) walk.at < demand);
       sum += walk.weight)
    walk_step (&walk);
  return walk.at;
}

double
hs_stock_service (double demand, gint64 n)
{
  Walk walk;
  double sum;

  g_return_val_if_fail (demand >= 0 && demand <= HS_STOCK_MOST_DEMAND, 0);
  walk_start (&walk, demand);
  if (n < walk.at)
    return 0;
  sum = walk.weight;
  while (walk.at < n && (walk.weight > NEGLIGIBLE || (double) walk.at < demand))
    {
      walk_step (&walk);
      sum += walk.weight;
    }
  return MIN (sum / walk.total, 1);
}
