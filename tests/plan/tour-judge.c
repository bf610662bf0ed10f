// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tries everything, on small rounds, the plain way. */

#include "tour-judge.h"

#define MOST_LISTED 9
#define MOST_SETS 14

static void
add_random_orders (HsTourProblem *problem, GRand *rand)
{
  guint n = problem->n;
  guint n_orders = (guint) g_rand_int_range (rand, 1, (gint32) n + 2);
  guint turn = (guint) g_rand_int_range (rand, 0, (gint32) n);

  /* An order always leads from a lower place of a turned numbering to a higher one, so that there never is a ring. */
  for (guint k = 0; k < n_orders; k++)
    {
      guint a = (guint) g_rand_int_range (rand, 1, (gint32) n);
      guint b = (guint) g_rand_int_range (rand, 1, (gint32) n);

      if ((a + turn) % n < (b + turn) % n)
        hs_tour_problem_add_order (problem, a, b);
    }
}

static void
add_end (HsTourProblem *problem, GRand *rand)
{
  guint n = problem->n;

  for (guint k = 0; k < n; k++)
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

HsTourProblem *
tour_random (GRand *rand, guint n, TourKind kind, gint32 most)
{
  HsTourProblem *problem = hs_tour_problem_new (n);

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < i; j++)
      {
        gint32 cost = g_rand_int_range (rand, 0, most + 1);

        hs_tour_problem_set_cost (problem, i, j, cost);
        hs_tour_problem_set_cost (problem, j, i, kind == TOUR_ALIKE ? cost : g_rand_int_range (rand, 0, most + 1));
      }
  if (kind == TOUR_ORDERED && n > 2)
    add_random_orders (problem, rand);
  if (kind == TOUR_WAY_WITH_ORDERS && n > 2)
    add_end (problem, rand);
  return problem;
}

gint64
tour_add_up (const HsTourProblem *problem, const guint16 *order)
{
  guint n = problem->n;
  gint64 cost = 0;

  for (guint i = 0; i < n && n > 1; i++)
    cost += problem->costs[order[i] * n + order[i + 1 < n ? i + 1 : 0]];
  return cost;
}

void
tour_check_round (const HsTourProblem *problem, const guint16 *order)
{
  guint n = problem->n;
  g_autofree guint *at = g_new0 (guint, n);

  g_assert_cmpuint (order[0], ==, 0);
  for (guint i = 1; i < n; i++)
    {
      g_assert_cmpuint (order[i], <, n);
      g_assert_cmpuint (order[i], >, 0);
      g_assert_cmpuint (at[order[i]], ==, 0);
      at[order[i]] = i;
    }
  for (guint k = 0; k < problem->orders->len; k++)
    {
      const HsTourOrder *rule = &g_array_index (problem->orders, HsTourOrder, k);

      g_assert_cmpuint (at[rule->earlier], <, at[rule->later]);
    }
}

/* Each node's nodes that must come before it, as bits; node 0 is always there. */
static void
fill_waits (const HsTourProblem *problem, guint *waits)
{
  for (guint i = 0; i < problem->n; i++)
    waits[i] = 1;
  for (guint k = 0; k < problem->orders->len; k++)
    {
      const HsTourOrder *rule = &g_array_index (problem->orders, HsTourOrder, k);

      waits[rule->later] |= 1u << rule->earlier;
    }
}

typedef struct
{
  const HsTourProblem *problem;
  guint waits[MOST_LISTED];
  guint16 order[MOST_LISTED];
  TourEach each;
  gpointer data;
} Listing;

static void
list_from (Listing *listing, guint fixed, guint done)
{
  guint n = listing->problem->n;

  if (fixed == n)
    {
      listing->each (listing->order, tour_add_up (listing->problem, listing->order), listing->data);
      return;
    }
  for (guint j = 1; j < n; j++)
    {
      if ((done >> j & 1) != 0 || (listing->waits[j] & ~done) != 0)
        continue;
      listing->order[fixed] = (guint16) j;
      list_from (listing, fixed + 1, done | 1u << j);
    }
}

void
tour_each_round (const HsTourProblem *problem, TourEach each, gpointer data)
{
  Listing listing = { problem, .each = each, .data = data };

  g_assert_cmpuint (problem->n, <=, MOST_LISTED);
  fill_waits (problem, listing.waits);
  list_from (&listing, 1, 1);
}

void
tour_first_round (const HsTourProblem *problem, guint16 *ret_order)
{
  guint n = problem->n;
  g_autofree guint *waits = g_new (guint, n);
  guint done = 1;

  fill_waits (problem, waits);
  ret_order[0] = 0;
  for (guint k = 1; k < n; k++)
    {
      guint next = 1;

      while ((done >> next & 1) != 0 || (waits[next] & ~done) != 0)
        next++;
      ret_order[k] = (guint16) next;
      done |= 1u << next;
    }
}

gint64
tour_cheapest (const HsTourProblem *problem)
{
  guint n = problem->n;
  guint n_sets = 1u << n;
  guint waits[MOST_SETS];
  g_autofree gint64 *least = NULL;
  gint64 best = G_MAXINT64;

  g_assert_cmpuint (n, <=, MOST_SETS);
  if (n == 1)
    return 0;
  fill_waits (problem, waits);
  least = g_new (gint64, (gsize) n_sets * n);
  for (gsize i = 0; i < (gsize) n_sets * n; i++)
    least[i] = G_MAXINT64;
  least[n] = 0;
  for (guint set = 1; set < n_sets; set += 2)
    for (guint i = 0; i < n; i++)
      for (guint j = 1; j < n && least[set * n + i] < G_MAXINT64; j++)
        {
          gint64 *then = &least[(set | 1u << j) * n + j];

          if ((set >> j & 1) == 0 && (waits[j] & ~set) == 0)
            *then = MIN (*then, least[set * n + i] + problem->costs[i * n + j]);
        }
  for (guint i = 1; i < n; i++)
    if (least[(n_sets - 1) * n + i] < G_MAXINT64)
      best = MIN (best, least[(n_sets - 1) * n + i] + problem->costs[i * n]);
  return best;
}

gboolean
tour_uses_leg (const HsTourTree *tree, guint leg, const guint16 *order)
{
  guint n = tree->n;
  guint tail = tree->legs[leg].tail;
  guint head = tree->legs[leg].head;

  for (guint i = 0; i < n; i++)
    {
      guint from = order[i];
      guint to = order[i + 1 < n ? i + 1 : 0];

      if ((from == tail && to == head) || (tree->target == 2 && from == head && to == tail))
        return TRUE;
    }
  return FALSE;
}

gboolean
tour_keeps_state (const HsTourTree *tree, const guint8 *state, const guint16 *order)
{
  for (guint a = 0; a < tree->n_legs; a++)
    if (state[a] != HS_TOUR_LEG_FREE && tour_uses_leg (tree, a, order) != (state[a] == HS_TOUR_LEG_FORCED))
      return FALSE;
  return TRUE;
}

typedef struct
{
  const HsTourTree *tree;
  const guint8 *state;
  gint64 best;
} Keeping;

static void
keep_cheapest (const guint16 *order, gint64 cost, gpointer data)
{
  Keeping *keeping = data;

  if (cost < keeping->best && tour_keeps_state (keeping->tree, keeping->state, order))
    keeping->best = cost;
}

gint64
tour_cheapest_with (const HsTourProblem *problem, const HsTourTree *tree, const guint8 *state)
{
  Keeping keeping = { tree, state, G_MAXINT64 };

  tour_each_round (problem, keep_cheapest, &keeping);
  return keeping.best;
}

gboolean
tour_give_up_after (gpointer data)
{
  guint *left = data;

  if (*left == 0)
    return TRUE;
  (*left)--;
  return FALSE;
}

void
tour_add_test (const char *part, TourKind first, TourKind last, GTestDataFunc test)
{
  static const char *const names[] = { "alike", "one-way", "ordered", "way-with-orders" };

  for (guint kind = first; kind <= last; kind++)
    {
      g_autofree char *path = g_strconcat (part, "/", names[kind], NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (kind), test);
    }
}
