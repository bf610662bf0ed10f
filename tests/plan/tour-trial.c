// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Random problems of rounds, and every round that they allow; nothing of the solver is used. */

#include "tour-trial.h"

HsTourProblem *
tour_trial_problem (GRand *rand, guint n, TourKind kind, gint32 most)
{
  HsTourProblem *problem = hs_tour_problem_new (n);
  guint n_orders = kind < TOUR_ORDERED ? 0 : (guint) g_rand_int_range (rand, 1, (gint32) n + 2);

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < i; j++)
      {
        gint32 cost = g_rand_int_range (rand, 0, most + 1);

        hs_tour_problem_set_cost (problem, i, j, cost);
        hs_tour_problem_set_cost (problem, j, i, kind == TOUR_ALIKE ? cost : g_rand_int_range (rand, 0, most + 1));
      }
  /* Orders follow a hidden numbering, so that there never is a ring. */
  for (guint k = 0; k < n_orders && n > 2; k++)
    {
      guint a = (guint) g_rand_int_range (rand, 1, (gint32) n);
      guint b = (guint) g_rand_int_range (rand, 1, (gint32) n);

      if (a * 7 % 11 < b * 7 % 11)
        hs_tour_problem_add_order (problem, a, b);
    }
  if (kind == TOUR_WAY)
    {
      g_array_set_size (problem->orders, 0);
      for (guint k = 0; k < n && n > 2; k++)
        {
          guint a = (guint) g_rand_int_range (rand, 1, (gint32) n);
          guint b = (guint) g_rand_int_range (rand, 1, (gint32) n);

          if (a < b)
            hs_tour_problem_add_order (problem, a, b);
        }
      for (guint i = 1; i + 1 < n; i++)
        hs_tour_problem_add_order (problem, i, n - 1);
      hs_tour_problem_set_cost (problem, n - 1, 0, 0);
    }
  return problem;
}

gboolean
tour_trial_keeps_orders (const HsTourProblem *problem, const guint *order)
{
  guint at[HS_TOUR_MAX_NODES];

  for (guint i = 0; i < problem->n; i++)
    at[order[i]] = i;
  for (guint k = 0; k < problem->orders->len; k++)
    {
      const HsTourOrder *rule = &g_array_index (problem->orders, HsTourOrder, k);

      if (at[rule->earlier] >= at[rule->later])
        return FALSE;
    }
  return TRUE;
}

/* The cost of the closed round, added up here. */
gint64
tour_trial_add_up (const HsTourProblem *problem, const guint *order)
{
  gint64 cost = 0;

  for (guint i = 0; i < problem->n && problem->n > 1; i++)
    {
      guint from = order[i];
      guint to = order[i + 1 < problem->n ? i + 1 : 0];

      g_assert_cmpuint (from, !=, to);
      cost += problem->costs[from * problem->n + to];
    }
  return cost;
}

static void
try_orders (const HsTourProblem *problem, guint *order, guint fixed, TourTrialFunc func, gpointer data)
{
  if (fixed == problem->n)
    {
      if (tour_trial_keeps_orders (problem, order))
        func (problem, order, data);
      return;
    }
  for (guint i = fixed; i < problem->n; i++)
    {
      guint swap = order[fixed];

      order[fixed] = order[i];
      order[i] = swap;
      try_orders (problem, order, fixed + 1, func, data);
      order[i] = order[fixed];
      order[fixed] = swap;
    }
}

void
tour_trial_each (const HsTourProblem *problem, TourTrialFunc func, gpointer data)
{
  guint order[TOUR_TRIAL_MOST];

  for (guint i = 0; i < problem->n; i++)
    order[i] = i;
  try_orders (problem, order, 1, func, data);
}

static void
keep_cheapest (const HsTourProblem *problem, const guint *order, gpointer data)
{
  gint64 *best = data;

  *best = MIN (*best, tour_trial_add_up (problem, order));
}

gint64
tour_trial_cheapest (const HsTourProblem *problem)
{
  gint64 best = G_MAXINT64;

  tour_trial_each (problem, keep_cheapest, &best);
  return best;
}
