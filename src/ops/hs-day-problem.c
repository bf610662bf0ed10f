// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Makes a problem for hs_solve () of a built day. Use it where counters are chosen for one van and where calls are
 * shared among several. Quantities count: two of a part cost twice the price.
 */

#include "hs-day-problem.h"

#include "hs-day-source.h"
#include "hs-decimal.h"
#include "hs-stock-row.h"

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
add_counters (HsDayProblem *self)
{
  const HsDayBuild *build = self->build;

  for (guint i = 0; i < build->refs->len && self->counters->len < HS_PROBLEM_MAX_COUNTERS; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (build->day, i);
      const HsDayCounter *counter = g_array_index (build->refs, HsDayStopRef, i).counter;

      if (counter == NULL || g_strcmp0 (counter->supplier_id, self->without) == 0)
        continue;
      add_spans (hs_problem_add_counter (self->problem, stop->id, stop->place, stop->service_seconds)->hours, stop);
      g_array_append_val (self->counters, i);
    }
}

HsDayProblem *
hs_day_problem_new (const HsDayBuild *build, const char *without, gboolean pooled)
{
  HsDayProblem *self = g_new0 (HsDayProblem, 1);
  const HsDay *day = build->day;

  self->build = build;
  self->without = without;
  self->pooled = pooled;
  self->problem = hs_problem_new (day->n_places);
  self->calls = g_array_new (FALSE, FALSE, sizeof (guint));
  self->counters = g_array_new (FALSE, FALSE, sizeof (guint));
  self->carried = g_hash_table_new (NULL, NULL);
  for (guint i = 0; i < day->n_places * day->n_places; i++)
    hs_problem_set_leg (self->problem, i / day->n_places, i % day->n_places,
                        g_array_index (day->drive_seconds, gint32, i),
                        g_array_index (day->drive_millimiles, gint64, i));
  self->problem->minute_cents = day->minute_cents;
  self->problem->mile_cents = day->mile_cents;
  self->problem->spare_seconds = day->spare_seconds;
  add_counters (self);
  return self;
}

void
hs_day_problem_free (HsDayProblem *self)
{
  if (self == NULL)
    return;
  hs_problem_free (self->problem);
  g_array_unref (self->calls);
  g_array_unref (self->counters);
  g_hash_table_unref (self->carried);
  g_free (self);
}

HsVan *
hs_day_problem_add_van (HsDayProblem *self, const char *id, const HsDay *day)
{
  HsVan *van = hs_problem_add_van (self->problem, id);

  van->start = day->start_place;
  van->end = day->end_place;
  van->leave_from_seconds = day->leave_from_seconds;
  van->leave_to_seconds = day->leave_to_seconds;
  /* Who can't even leave before having to be home goes nowhere. */
  van->home_by_seconds = MAX (day->home_by_seconds, day->leave_from_seconds);
  van->break_seconds = day->break_seconds;
  van->break_span = day->break_span;
  return van;
}

/* Parts ------------------------------------------------------------------------------------------------------------ */

static const HsDayNeed *
get_need (const HsDayProblem *self, guint need)
{
  return g_ptr_array_index (self->build->facts->needs, need);
}

/* Whether there are prices to choose from, or might be a van's stock. */
static gboolean
is_open (const HsDayProblem *self, const HsDayNeed *need)
{
  if (need->source == HS_DAY_SOURCE_COUNTER)
    return need->offers->len > 0;
  return self->pooled && need->source == HS_DAY_SOURCE_NOWHERE && need->supplier_id == NULL;
}

char *
hs_day_problem_token (const HsDayProblem *self, guint index)
{
  const HsDayNeed *need = get_need (self, index);
  GString *token;

  if (!self->pooled)
    return g_strdup_printf ("%u", index);
  token = g_string_new (need->part_id);
  g_string_append_printf (token, " %" G_GINT64_FORMAT, need->quantity_milli);
  for (guint i = 0; i < need->offers->len; i++)
    {
      const HsDayOffer *offer = g_ptr_array_index (need->offers, i);

      g_string_append_printf (token, " %s %" G_GINT64_FORMAT, offer->supplier_id, offer->unit_cents);
    }
  return g_string_free (token, FALSE);
}

static guint
part_of (const HsDayProblem *self, guint need)
{
  g_autofree char *token = hs_day_problem_token (self, need);

  return hs_problem_part (self->problem, token);
}

static gboolean
is_ahead (const HsDayProblem *self, const HsDayNeed *need)
{
  return ((const HsDayCall *) g_ptr_array_index (self->build->facts->calls, need->call))->stage == HS_STAGE_PROMISED;
}

void
hs_day_problem_add_stock (HsDayProblem *self, HsVan *van, GPtrArray *stock)
{
  g_return_if_fail (self->pooled);

  for (guint i = 0; i < self->build->facts->needs->len && van->carries->len < HS_PROBLEM_MAX_UNITS; i++)
    if (is_ahead (self, get_need (self, i)) && is_open (self, get_need (self, i))
        && hs_day_source_take (stock, get_need (self, i)))
      {
        guint part = part_of (self, i);

        g_array_append_val (van->carries, part);
        g_hash_table_add (self->carried, GUINT_TO_POINTER (part));
      }
}

static HsCounter *
find_counter (const HsDayProblem *self, const char *supplier_id)
{
  for (guint i = 0; i < self->counters->len; i++)
    if (g_str_equal (hs_day_problem_counter_of (self, i)->supplier_id, supplier_id))
      return g_ptr_array_index (self->problem->counters, i);
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

/* Sells @part there. One that is left out on purpose leaves its parts wanting; any other that can't be stopped at does
 * not count. Returns whether the part is to be asked for. */
static gboolean
offer_part (HsDayProblem *self, guint part, const char *supplier_id, gint64 cents)
{
  HsCounter *counter = find_counter (self, supplier_id);

  if (counter != NULL)
    hs_counter_sell (counter, part, cents);
  return counter != NULL || g_strcmp0 (supplier_id, self->without) == 0;
}

/* A token that only this counter has, for nothing: there is no choice in it, and one is enough for all needs. */
static void
add_named (HsDayProblem *self, HsCall *call, const HsDayNeed *need)
{
  guint part;

  if (find_counter (self, need->supplier_id) == NULL && g_strcmp0 (need->supplier_id, self->without) != 0)
    return;
  part = hs_problem_part (self->problem, need->supplier_id);
  offer_part (self, part, need->supplier_id, 0);
  for (guint i = 0; i < call->needs->len; i++)
    if (g_array_index (call->needs, guint, i) == part)
      return;
  g_array_append_val (call->needs, part);
}

static void
add_need (HsDayProblem *self, HsCall *call, guint index)
{
  const HsDayNeed *need = get_need (self, index);
  gboolean asked = FALSE;
  guint part;

  if (need->source == HS_DAY_SOURCE_COUNTER && need->offers->len == 0)
    add_named (self, call, need);
  if (!is_open (self, need))
    return;
  part = part_of (self, index);
  for (guint i = 0; i < need->offers->len; i++)
    {
      const HsDayOffer *offer = g_ptr_array_index (need->offers, i);

      asked |= offer_part (self, part, offer->supplier_id, price_of (need, offer->unit_cents));
    }
  if (asked || g_hash_table_contains (self->carried, GUINT_TO_POINTER (part)))
    g_array_append_val (call->needs, part);
}

guint
hs_day_problem_find_need (const HsDayProblem *self, guint part, guint call)
{
  const HsDayFacts *facts = self->build->facts;
  const char *name = g_ptr_array_index (self->problem->parts, part);

  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = get_need (self, i);
      g_autofree char *token = NULL;

      if (!is_open (self, need) || g_ptr_array_index (facts->calls, need->call) != hs_day_problem_call_of (self, call))
        continue;
      token = hs_day_problem_token (self, i);
      if (g_str_equal (token, name))
        return i;
    }
  return HS_DAY_NO_NEED;
}

/* Calls ------------------------------------------------------------------------------------------------------------ */

void
hs_day_problem_add_calls (HsDayProblem *self)
{
  const HsDayBuild *build = self->build;

  for (guint i = 0; i < build->refs->len; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (build->day, i);
      const HsDayCall *of = g_array_index (build->refs, HsDayStopRef, i).call;
      HsCall *call;

      if (of == NULL || of->stage != HS_STAGE_PROMISED)
        continue;
      call = hs_problem_add_call (self->problem, stop->id, stop->place, stop->service_seconds);
      g_array_append_val (self->calls, i);
      add_spans (call->windows, stop);
      for (guint k = 0; k < build->facts->needs->len; k++)
        if (g_ptr_array_index (build->facts->calls, get_need (self, k)->call) == of)
          add_need (self, call, k);
    }
}

const HsDayCall *
hs_day_problem_call_of (const HsDayProblem *self, guint call)
{
  return g_array_index (self->build->refs, HsDayStopRef, g_array_index (self->calls, guint, call)).call;
}

const HsDayCounter *
hs_day_problem_counter_of (const HsDayProblem *self, guint counter)
{
  return g_array_index (self->build->refs, HsDayStopRef, g_array_index (self->counters, guint, counter)).counter;
}

/* Comparing -------------------------------------------------------------------------------------------------------- */

static gint64
total_late (const HsSolution *solution)
{
  gint64 late = 0;

  for (guint i = 0; i < solution->broken->len; i++)
    late += hs_solution_get_broken (solution, i)->late_seconds;
  return late;
}

gboolean
hs_day_problem_keeps_more (const HsSolution *a, const HsSolution *b)
{
  guint missed_a = a->broken->len + a->unserved->len;
  guint missed_b = b->broken->len + b->unserved->len;

  if (missed_a != missed_b)
    return missed_a < missed_b;
  if (a->unserved->len != b->unserved->len)
    return a->unserved->len < b->unserved->len;
  return total_late (a) < total_late (b);
}

/* Solving ---------------------------------------------------------------------------------------------------------- */

static gboolean
must_be_home (const HsProblem *problem)
{
  for (guint v = 0; v < problem->vans->len; v++)
    if (hs_problem_get_van (problem, v)->home_by_seconds < HS_DAY_NO_HOME_BY)
      return TRUE;
  return FALSE;
}

/* The same day with vans that may come home at any time. */
static gboolean
solve_late (const HsProblem *problem, const HsSolveHow *how, HsSolution **ret_solution, GError **error)
{
  HsProblem late = *problem;
  gboolean solved;

  late.vans = g_ptr_array_new_with_free_func (g_free);
  for (guint v = 0; v < problem->vans->len; v++)
    {
      HsVan *van = g_memdup2 (hs_problem_get_van (problem, v), sizeof (HsVan));

      van->home_by_seconds = HS_DAY_NO_HOME_BY;
      g_ptr_array_add (late.vans, van);
    }
  solved = hs_solve (&late, how, ret_solution, error);
  g_ptr_array_unref (late.vans);
  return solved;
}

/* What breaks so that vans are home in time has to break only where coming home late, which is allowed, is known to
 * keep no more. */
static void
doubt (HsSolution *solution, const HsSolution *late)
{
  if (late == NULL || late->status != HS_PLAN_IMPOSSIBLE)
    solution->status = HS_PLAN_BEST_FOUND;
  if (late == NULL || !late->proven)
    {
      solution->proven = FALSE;
      solution->bound_cents = 0;
    }
}

gboolean
hs_day_problem_solve (const HsProblem *problem, const HsSolveHow *how, HsSolveFound again, HsSolution **ret_solution,
                      GError **error)
{
  g_autoptr (HsSolution) solution = NULL;
  g_autoptr (HsSolution) late = NULL;

  if (!hs_solve (problem, how, &solution, error))
    return FALSE;
  if (solution->broken->len + solution->unserved->len > 0 && must_be_home (problem))
    {
      if (again != NULL)
        again (solution, how->user_data);
      if ((how->give_up == NULL || !how->give_up (how->user_data)) && !solve_late (problem, how, &late, error))
        return FALSE;
      doubt (solution, late);
    }
  if (late != NULL && hs_day_problem_keeps_more (late, solution))
    *ret_solution = g_steal_pointer (&late);
  else
    *ret_solution = g_steal_pointer (&solution);
  return TRUE;
}
