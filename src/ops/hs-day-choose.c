// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Chooses where the parts of a day are bought. It makes a problem of the day with each counter that might have
 * something, has it solved, and reads the choice off what was bought where. Use it before a day is built for good.
 */

#include "hs-day-choose.h"

#include "hs-day-settle.h"

/* Enough for the days of one van that are driven, and done in half a second on those that are not: what is asked of the
 * book must not wait for a proof. Counted and not timed, so that the same day has the same answer. */
#define MAX_LABELS 300000
#define MAX_ASKS 2000

typedef struct
{
  guint asks;
  gboolean spent;
} Patience;

static gboolean
is_enough (gpointer data)
{
  Patience *patience = data;

  patience->spent = patience->spent || ++patience->asks > MAX_ASKS;
  return patience->asks > MAX_ASKS;
}

static gboolean
is_spent (gpointer data)
{
  return ((const Patience *) data)->spent;
}

static void
ask_anew (const HsSolution *solution, gpointer patience)
{
  ((Patience *) patience)->asks = 0;
}

static gboolean
solve (const HsProblem *problem, gpointer patience, HsSolution **ret_solution, GError **error)
{
  const HsSolveHow how = { .seed = 1, .max_labels = MAX_LABELS, .give_up = is_enough, .user_data = patience };

  ((Patience *) patience)->asks = 0;
  return hs_day_problem_solve (problem, &how, ask_anew, ret_solution, error);
}

/* Each drive at its hour, as the plan will have it. A day that takes all patience is searched once. */
static gboolean
settle (const HsDayProblem *problem, HsSolution **ret_solution, GError **error)
{
  Patience patience = { 0, FALSE };
  const HsDay *rules[] = { problem->build->day };
  const HsDaySettle how
      = { .problem = problem, .rules = rules, .solve = solve, .give_up = is_spent, .user_data = &patience };

  return hs_day_settle (&how, ret_solution, error);
}

static void
take_offer (HsDayNeed *need, const char *supplier_id)
{
  for (guint i = 0; i < need->offers->len; i++)
    {
      const HsDayOffer *offer = g_ptr_array_index (need->offers, i);

      if (!g_str_equal (offer->supplier_id, supplier_id))
        continue;
      g_free (need->supplier_id);
      need->supplier_id = g_strdup (supplier_id);
      need->unit_cents = offer->unit_cents;
      return;
    }
}

static void
take_choice (HsDayFacts *facts, const HsDayProblem *problem, const HsSolution *solution)
{
  for (guint i = 0; i < solution->bought->len; i++)
    {
      const HsBought *bought = &g_array_index (solution->bought, HsBought, i);
      guint need = hs_day_problem_find_need (problem, bought->part, bought->call);

      if (need != HS_DAY_NO_NEED)
        take_offer (g_ptr_array_index (facts->needs, need),
                    hs_day_problem_counter_of (problem, bought->counter)->supplier_id);
    }
}

static HsDayProblem *
problem_new (const HsDayBuild *build, const char *without)
{
  HsDayProblem *problem = hs_day_problem_new (build, without, FALSE);

  hs_day_problem_add_van (problem, "van", build->day);
  hs_day_problem_add_calls (problem);
  return problem;
}

static gboolean
has_choice (const HsDayFacts *facts)
{
  for (guint i = 0; i < facts->needs->len; i++)
    if (((HsDayNeed *) g_ptr_array_index (facts->needs, i))->offers->len > 1)
      return TRUE;
  return FALSE;
}

gboolean
hs_day_choose_anew (HsDayFacts *facts, const char *extra_area, GError **error)
{
  if (has_choice (facts))
    {
      g_autoptr (HsDayBuild) build = hs_day_build (facts, extra_area, error);
      g_autoptr (HsDayProblem) problem = NULL;
      g_autoptr (HsSolution) solution = NULL;

      if (build == NULL)
        return FALSE;
      problem = problem_new (build, NULL);
      if (!settle (problem, &solution, error))
        return FALSE;
      take_choice (facts, problem, solution);
      facts->unproven_choice = !solution->proven;
    }
  hs_day_facts_want (facts);
  hs_day_facts_drop_unwanted (facts, NULL);
  return TRUE;
}

gboolean
hs_day_choose_without (const HsDayBuild *build, const char *supplier_id, HsDayProblem **ret_problem,
                       HsSolution **ret_solution, GError **error)
{
  g_autoptr (HsDayProblem) problem = problem_new (build, supplier_id);

  if (!settle (problem, ret_solution, error))
    return FALSE;
  if (ret_problem != NULL)
    *ret_problem = g_steal_pointer (&problem);
  return TRUE;
}

/* The cheapest of the counters that come before @job_id in @rows; %NULL if none of them has it. */
static const HsDayOffer *
best_offer (const HsDayNeed *need, GPtrArray *rows, const char *job_id)
{
  const HsDayOffer *best = NULL;

  for (guint i = 0; i < rows->len && !g_str_equal (g_ptr_array_index (rows, i), job_id); i++)
    for (guint k = 0; k < need->offers->len; k++)
      {
        const HsDayOffer *offer = g_ptr_array_index (need->offers, k);

        if (g_str_equal (offer->supplier_id, g_ptr_array_index (rows, i))
            && (best == NULL || offer->unit_cents < best->unit_cents))
          best = offer;
      }
  return best;
}

void
hs_day_choose_kept (HsDayFacts *facts, GPtrArray *rows)
{
  for (guint i = 0; i < facts->needs->len; i++)
    {
      HsDayNeed *need = g_ptr_array_index (facts->needs, i);
      const HsDayCall *call = g_ptr_array_index (facts->calls, need->call);
      const HsDayOffer *offer = best_offer (need, rows, call->job_id);

      if (offer != NULL)
        take_offer (need, offer->supplier_id);
    }
  hs_day_facts_want (facts);
  hs_day_facts_drop_unwanted (facts, rows);
}
