// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Everything there is, for few customers: the shortest route through each set of customers by labels over (set, last),
 * of which only those stay that are not both longer and later than another; then the cheapest way to cut the customers
 * into so many sets. */

#include "hs-vrptw-exact.h"

#include "hs-vrptw-answer.h"

#define NEVER (G_MAXINT64 / 4)
#define BIT(i) (1u << (i))

/* Driven so far, and when service at the last customer starts; @from: the label before, or -1. */
typedef struct
{
  gint64 cost;
  gint64 start;
  gint32 from;
  guint32 stop;
} Label;

/* Labels of (set, last) are those from first[set × n + last] up to the next first. */
typedef struct
{
  const HsVrptw *problem;
  guint n;
  guint n_sets;
  GArray *labels;
  gint32 *first;
  gint64 *route_cost;
  gint32 *route_end;
  gint64 *best;
  guint32 *piece;
} Exact;

static Exact *
exact_new (const HsVrptw *problem)
{
  Exact *exact = g_new0 (Exact, 1);
  guint n = problem->n;
  gsize n_sets = BIT (n);

  exact->problem = problem;
  exact->n = n;
  exact->n_sets = (guint) n_sets;
  exact->labels = g_array_new (FALSE, FALSE, sizeof (Label));
  exact->first = g_new0 (gint32, n_sets * n + 1);
  exact->route_cost = g_new (gint64, n_sets);
  exact->route_end = g_new (gint32, n_sets);
  exact->best = g_new (gint64, n_sets * (n + 1));
  exact->piece = g_new0 (guint32, n_sets * (n + 1));
  return exact;
}

static void
exact_free (Exact *exact)
{
  g_array_unref (exact->labels);
  g_free (exact->first);
  g_free (exact->route_cost);
  g_free (exact->route_end);
  g_free (exact->best);
  g_free (exact->piece);
  g_free (exact);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Exact, exact_free)

static const Label *
get_label (const Exact *exact, gint32 index)
{
  return &g_array_index (exact->labels, Label, index);
}

/* Adds a label unless one from @first on is as short and as early; drops those that it beats. */
static void
add_label (Exact *exact, gint32 first, const Label *label)
{
  guint kept = (guint) first;

  for (guint i = (guint) first; i < exact->labels->len; i++)
    {
      Label other = *get_label (exact, (gint32) i);

      if (other.cost <= label->cost && other.start <= label->start)
        return;
      if (label->cost <= other.cost && label->start <= other.start)
        continue;
      g_array_index (exact->labels, Label, kept++) = other;
    }
  g_array_set_size (exact->labels, kept);
  g_array_append_val (exact->labels, *label);
}

/* Drives on from a stop left at @free_at to @stop. */
static void
extend (Exact *exact, gint32 first, gint32 from, guint from_stop, gint64 free_at, gint64 cost, guint stop)
{
  const HsVrptwStop *there = &exact->problem->stops[stop];
  gint64 leg = hs_vrptw_leg (exact->problem, from_stop, stop);
  Label label = { cost + leg, MAX (free_at + leg, there->ready), from, stop };

  if (label.start <= there->due)
    add_label (exact, first, &label);
}

static void
fill_labels (Exact *exact, guint set, guint last)
{
  gint32 first = (gint32) exact->labels->len;
  guint rest = set & ~BIT (last);

  exact->first[set * exact->n + last] = first;
  if (rest == 0)
    extend (exact, first, -1, 0, exact->problem->stops[0].ready, 0, last + 1);
  for (guint before = 0; before < exact->n; before++)
    {
      gsize at = rest * exact->n + before;

      if (!(rest & BIT (before)))
        continue;
      for (gint32 i = exact->first[at]; i < exact->first[at + 1]; i++)
        {
          Label label = *get_label (exact, i);

          extend (exact, first, i, label.stop, label.start + exact->problem->stops[label.stop].service, label.cost,
                  last + 1);
        }
    }
}

/* The shortest way home after all of @set. */
static void
close_routes (Exact *exact, guint set)
{
  const HsVrptw *problem = exact->problem;

  for (gint32 i = exact->first[set * exact->n]; i < (gint32) exact->labels->len; i++)
    {
      const Label *label = get_label (exact, i);
      gint64 leg = hs_vrptw_leg (problem, label->stop, 0);

      if (label->start + problem->stops[label->stop].service + leg > problem->stops[0].due
          || label->cost + leg >= exact->route_cost[set])
        continue;
      exact->route_cost[set] = label->cost + leg;
      exact->route_end[set] = i;
    }
}

static gboolean
fill_set (Exact *exact, guint set)
{
  gint64 load = 0;
  gboolean fits;

  for (guint i = 0; i < exact->n; i++)
    if (set & BIT (i))
      load += exact->problem->stops[i + 1].demand;
  fits = load <= exact->problem->capacity;
  exact->route_cost[set] = NEVER;
  for (guint last = 0; last < exact->n; last++)
    if (fits && (set & BIT (last)))
      fill_labels (exact, set, last);
    else
      exact->first[set * exact->n + last] = (gint32) exact->labels->len;
  close_routes (exact, set);
  exact->first[(set + 1) * exact->n] = (gint32) exact->labels->len;
  return fits;
}

static gboolean
fill_routes (Exact *exact, const HsVrptwHow *how)
{
  for (guint set = 1; set < exact->n_sets; set++)
    {
      if (set % 64 == 0 && how->give_up != NULL && how->give_up (how->user_data))
        return FALSE;
      fill_set (exact, set);
    }
  return TRUE;
}

/* The shortest way to serve each set with so many vans: the one that takes the lowest customer, and the rest. */
static void
cut_sets (Exact *exact, guint vans)
{
  gsize n_sets = exact->n_sets;

  for (guint set = 0; set < n_sets; set++)
    exact->best[set] = set == 0 ? 0 : NEVER;
  for (guint k = 1; k <= vans; k++)
    for (guint set = 0; set < n_sets; set++)
      {
        guint lowest = set & -set;
        gint64 *best = &exact->best[k * n_sets + set];

        *best = NEVER;
        for (guint piece = set; piece != 0; piece = (piece - 1) & set)
          {
            gint64 cost = exact->route_cost[piece] + exact->best[(k - 1) * n_sets + (set & ~piece)];

            if (!(piece & lowest) || cost >= *best)
              continue;
            *best = cost;
            exact->piece[k * n_sets + set] = piece;
          }
      }
}

static guint
count_bits (guint set)
{
  guint count = 0;

  for (; set != 0; set &= set - 1)
    count++;
  return count;
}

/* Most customers; then shortest or fewest vans; then fewest vans; then the lowest set. */
static void
choose (const Exact *exact, guint vans, HsVrptwAim aim, guint *ret_vans, guint *ret_set)
{
  guint most = 0;
  guint best_vans = 0;
  guint best_set = 0;
  gint64 least = 0;

  for (guint k = 1; k <= vans; k++)
    for (guint set = 1; set < exact->n_sets; set++)
      {
        gint64 cost = exact->best[(gsize) k * exact->n_sets + set];
        guint served = count_bits (set);
        gboolean same_vans = aim == HS_VRPTW_DISTANCE || k == best_vans;

        if (cost >= NEVER || served < most || (served == most && !(same_vans && cost < least)))
          continue;
        most = served;
        best_vans = k;
        best_set = set;
        least = cost;
      }
  *ret_vans = best_vans;
  *ret_set = best_set;
}

static void
add_route (const Exact *exact, guint set, HsVrptwPlan *plan)
{
  guint32 stops[HS_VRPTW_EXACT_CUSTOMERS];
  guint count = count_bits (set);
  guint at = count;

  for (gint32 i = exact->route_end[set]; i >= 0; i = get_label (exact, i)->from)
    stops[--at] = get_label (exact, i)->stop;
  hs_vrptw_answer_add (plan, stops, count);
}

gboolean
hs_vrptw_exact (const HsVrptw *problem, const HsVrptwHow *how, HsVrptwPlan **ret_plan)
{
  g_autoptr (Exact) exact = exact_new (problem);
  HsVrptwPlan *plan;
  guint vans = MIN (problem->vans, problem->n);
  guint set;

  if (!fill_routes (exact, how))
    return FALSE;
  cut_sets (exact, vans);
  choose (exact, vans, how->aim, &vans, &set);
  plan = hs_vrptw_answer_new ();
  plan->status = set == exact->n_sets - 1 ? HS_PLAN_OPTIMAL : HS_PLAN_IMPOSSIBLE;
  for (; set != 0; vans--)
    {
      guint piece = exact->piece[(gsize) vans * exact->n_sets + set];

      add_route (exact, piece, plan);
      set &= ~piece;
    }
  hs_vrptw_answer_close (problem, plan);
  plan->bound = plan->cost;
  plan->states = exact->labels->len;
  *ret_plan = plan;
  return TRUE;
}
