// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Chooses where the parts of a day are bought. It makes a problem of the day with each counter that might have
 * something, has it solved, and reads the choice off what was bought where. Use it before a day is built for good.
 * Quantities count: two of a part cost twice the price.
 */

#include "hs-day-choose.h"

#include "hs-decimal.h"

/* Enough for the days of one van, and done in a second or so. */
#define MAX_LABELS 1000000

/* @needs: (element-type guint): the need that each part of @problem stands for, or %NO_NEED for what is fetched at a
 * counter that the owner named.
 * @counters: (element-type guint): the stop of the day behind each of the problem's
 * @without: (nullable): the counter that is left out */
typedef struct
{
  HsProblem *problem;
  GArray *needs;
  GArray *counters;
  const char *without;
} Choice;

#define NO_NEED G_MAXUINT

static void
choice_clear (Choice *choice)
{
  g_clear_pointer (&choice->problem, hs_problem_free);
  g_clear_pointer (&choice->needs, g_array_unref);
  g_clear_pointer (&choice->counters, g_array_unref);
}

static void
add_spans (GArray *to, const HsDayStop *stop)
{
  const HsDaySpan always = { 0, HS_DAY_NO_HOME_BY };

  if (stop->spans->len > 0)
    g_array_append_vals (to, stop->spans->data, stop->spans->len);
  else if (stop->kind == HS_DAY_STOP_COUNTER && !stop->shut)
    g_array_append_val (to, always);
}

static void
add_van (Choice *choice, const HsDay *day)
{
  HsVan *van = hs_problem_add_van (choice->problem, "van");

  van->start = day->start_place;
  van->end = day->end_place;
  van->leave_from_seconds = day->leave_from_seconds;
  van->leave_to_seconds = day->leave_to_seconds;
  van->home_by_seconds = day->home_by_seconds;
}

static HsCounter *
find_counter (const Choice *choice, const HsDayBuild *build, const char *supplier_id)
{
  for (guint i = 0; i < choice->counters->len; i++)
    {
      const HsDayCounter *counter
          = g_array_index (build->refs, HsDayStopRef, g_array_index (choice->counters, guint, i)).counter;

      if (g_str_equal (counter->supplier_id, supplier_id))
        return g_ptr_array_index (choice->problem->counters, i);
    }
  return NULL;
}

static gint64
price_of (const HsDayNeed *need, gint64 unit_cents)
{
  gint64 cents = 0;

  if (unit_cents < 0 || !hs_ratio_half_up (unit_cents, need->quantity_milli, 1000, &cents))
    return 0;
  return cents;
}

static void
need_part (Choice *choice, HsCall *call, const char *name, guint need)
{
  guint part = hs_problem_part (choice->problem, name);

  for (guint i = 0; i < call->needs->len; i++)
    if (g_array_index (call->needs, guint, i) == part)
      return;
  g_array_append_val (call->needs, part);
  if (part == choice->needs->len)
    g_array_append_val (choice->needs, need);
}

/* A counter that the day can't stop at sells nothing; one that is left out on purpose leaves its parts wanting. */
static void
offer_part (Choice *choice, const HsDayBuild *build, HsCall *call, const char *name, guint need,
            const char *supplier_id, gint64 cents)
{
  HsCounter *counter = find_counter (choice, build, supplier_id);

  if (counter == NULL && g_strcmp0 (supplier_id, choice->without) != 0)
    return;
  need_part (choice, call, name, need);
  if (counter != NULL)
    hs_counter_sell (counter, hs_problem_part (choice->problem, name), cents);
}

/* A need with a counter of its own is a token that only this counter has, for nothing: there is no choice in it. */
static void
add_need (Choice *choice, const HsDayBuild *build, HsCall *call, guint index)
{
  const HsDayNeed *need = g_ptr_array_index (build->facts->needs, index);
  g_autofree char *name = g_strdup_printf ("%u", index);

  if (need->source == HS_DAY_SOURCE_COUNTER && need->offers->len == 0)
    offer_part (choice, build, call, need->supplier_id, NO_NEED, need->supplier_id, 0);
  for (guint i = 0; need->source == HS_DAY_SOURCE_COUNTER && i < need->offers->len; i++)
    {
      const HsDayOffer *offer = g_ptr_array_index (need->offers, i);

      offer_part (choice, build, call, name, index, offer->supplier_id, price_of (need, offer->unit_cents));
    }
}

static void
add_calls (Choice *choice, const HsDayBuild *build)
{
  const HsDayFacts *facts = build->facts;

  for (guint i = 0; i < build->refs->len; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (build->day, i);
      HsCall *call;

      if (stop->kind != HS_DAY_STOP_CALL)
        continue;
      call = hs_problem_add_call (choice->problem, stop->id, stop->place, stop->service_seconds);
      add_spans (call->windows, stop);
      for (guint k = 0; k < facts->needs->len; k++)
        if (g_ptr_array_index (facts->calls, ((HsDayNeed *) g_ptr_array_index (facts->needs, k))->call)
            == g_array_index (build->refs, HsDayStopRef, i).call)
          add_need (choice, build, call, k);
    }
}

static void
add_counters (Choice *choice, const HsDayBuild *build)
{
  for (guint i = 0; i < build->refs->len && choice->counters->len < HS_PROBLEM_MAX_COUNTERS; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (build->day, i);
      const HsDayCounter *counter = g_array_index (build->refs, HsDayStopRef, i).counter;

      if (counter == NULL || g_strcmp0 (counter->supplier_id, choice->without) == 0)
        continue;
      add_spans (hs_problem_add_counter (choice->problem, stop->id, stop->place, stop->service_seconds)->hours, stop);
      g_array_append_val (choice->counters, i);
    }
}

static Choice
choice_new (const HsDayBuild *build, const char *without)
{
  const HsDay *day = build->day;
  Choice choice = {
    hs_problem_new (day->n_places),
    g_array_new (FALSE, FALSE, sizeof (guint)),
    g_array_new (FALSE, FALSE, sizeof (guint)),
    without,
  };

  for (guint i = 0; i < day->n_places * day->n_places; i++)
    hs_problem_set_leg (choice.problem, i / day->n_places, i % day->n_places,
                        g_array_index (day->drive_seconds, gint32, i),
                        g_array_index (day->drive_millimiles, gint64, i));
  choice.problem->minute_cents = day->minute_cents;
  choice.problem->mile_cents = day->mile_cents;
  choice.problem->spare_seconds = day->spare_seconds;
  add_van (&choice, day);
  add_counters (&choice, build);
  add_calls (&choice, build);
  return choice;
}

static gint64
total_late (const HsSolution *solution)
{
  gint64 late = 0;

  for (guint i = 0; i < solution->broken->len; i++)
    late += hs_solution_get_broken (solution, i)->late_seconds;
  return late;
}

/* Whether @a keeps more than @b. */
static gboolean
keeps_more (const HsSolution *a, const HsSolution *b)
{
  guint missed_a = a->broken->len + a->unserved->len;
  guint missed_b = b->broken->len + b->unserved->len;

  if (missed_a != missed_b)
    return missed_a < missed_b;
  if (a->unserved->len != b->unserved->len)
    return a->unserved->len < b->unserved->len;
  return total_late (a) < total_late (b);
}

/* Home in time, unless promises can only be kept by coming home late: the owner would rather. */
static gboolean
solve (HsProblem *problem, HsSolution **ret_solution, GError **error)
{
  const HsSolveHow how = { .seed = 1, .max_labels = MAX_LABELS };
  HsVan *van = g_ptr_array_index (problem->vans, 0);
  g_autoptr (HsSolution) solution = NULL;
  g_autoptr (HsSolution) later = NULL;

  if (!hs_solve (problem, &how, &solution, error))
    return FALSE;
  if (van->home_by_seconds < HS_DAY_NO_HOME_BY && solution->broken->len + solution->unserved->len > 0)
    {
      van->home_by_seconds = HS_DAY_NO_HOME_BY;
      if (!hs_solve (problem, &how, &later, error))
        return FALSE;
    }
  if (later != NULL && keeps_more (later, solution))
    *ret_solution = g_steal_pointer (&later);
  else
    *ret_solution = g_steal_pointer (&solution);
  return TRUE;
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
take_choice (HsDayFacts *facts, const HsDayBuild *build, const Choice *choice, const HsSolution *solution)
{
  for (guint i = 0; i < solution->bought->len; i++)
    {
      const HsBought *bought = &g_array_index (solution->bought, HsBought, i);
      guint need = g_array_index (choice->needs, guint, bought->part);
      guint ref = g_array_index (choice->counters, guint, bought->counter);

      if (need != NO_NEED)
        take_offer (g_ptr_array_index (facts->needs, need),
                    g_array_index (build->refs, HsDayStopRef, ref).counter->supplier_id);
    }
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
      g_autoptr (HsSolution) solution = NULL;
      Choice choice;
      gboolean solved;

      if (build == NULL)
        return FALSE;
      choice = choice_new (build, NULL);
      solved = solve (choice.problem, &solution, error);
      if (solved)
        take_choice (facts, build, &choice, solution);
      choice_clear (&choice);
      if (!solved)
        return FALSE;
    }
  hs_day_facts_want (facts);
  hs_day_facts_drop_unwanted (facts, NULL);
  return TRUE;
}

gboolean
hs_day_choose_without (const HsDayBuild *build, const char *supplier_id, HsSolution **ret_solution, GError **error)
{
  Choice choice = choice_new (build, supplier_id);
  gboolean solved = solve (choice.problem, ret_solution, error);

  choice_clear (&choice);
  return solved;
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
