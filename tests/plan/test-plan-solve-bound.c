// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the rest of a day costs at the least: small days exactly, as far as no window has to be kept; larger ones never
 * too much. Held against going on in every way. */

#include "hs-solve-bound.h"

#include "hs-solve.h"
#include "plan-text-day.h"

/* @idle: counters that sell nothing, which make the day a large one */
typedef struct
{
  const char *name;
  guint days;
  guint calls;
  guint counters;
  guint vans;
  guint idle;
} Kind;

static void
add_counters (HsProblem *problem, GRand *rand, const Kind *kind)
{
  const HsDaySpan whole = { 0, 24 * 3600 };

  for (guint c = 0; c < kind->counters + kind->idle; c++)
    {
      g_autofree char *id = g_strdup_printf ("counter %u", c);
      HsCounter *counter = hs_problem_add_counter (problem, id, (guint) g_rand_int_range (rand, 0, 4),
                                                   60 * g_rand_int_range (rand, 1, 15));

      g_array_append_val (counter->hours, whole);
      for (guint part = 0; c < kind->counters && part < problem->parts->len; part++)
        if (c == 0 || g_rand_boolean (rand))
          hs_counter_sell (counter, part, g_rand_int_range (rand, 0, 3000));
    }
}

/* Any windows, any legs; a van that carries a part carries enough of it. */
static HsProblem *
random_day (GRand *rand, const Kind *kind)
{
  HsProblem *problem = text_day ("minutes 0 0 0 0 / 0 0 0 0 / 0 0 0 0 / 0 0 0 0; cost 160 42");

  for (guint i = 0; i < 4; i++)
    for (guint j = 0; j < 4; j++)
      hs_problem_set_leg (problem, i, j, g_rand_int_range (rand, 0, 2400), g_rand_int_range (rand, 0, 20000));
  if (kind->counters > 0)
    {
      hs_problem_part (problem, "x");
      hs_problem_part (problem, "y");
    }
  for (guint v = 0; v < kind->vans; v++)
    {
      g_autofree char *id = g_strdup_printf ("van %u", v);
      HsVan *van = hs_problem_add_van (problem, id);
      guint part = 0;

      van->start = (guint) g_rand_int_range (rand, 0, 4);
      van->end = (guint) g_rand_int_range (rand, 0, 4);
      for (guint k = 0; problem->parts->len > 0 && g_rand_boolean (rand) && k < 20; k++)
        g_array_append_val (van->carries, part);
    }
  for (guint i = 0; i < kind->calls; i++)
    {
      g_autofree char *id = g_strdup_printf ("call %u", i);
      HsCall *call = hs_problem_add_call (problem, id, (guint) g_rand_int_range (rand, 0, 4),
                                          60 * g_rand_int_range (rand, 0, 60));
      gint32 from = 60 * g_rand_int_range (rand, 8 * 60, 12 * 60);
      HsDaySpan window = { from, from + 60 * g_rand_int_range (rand, 60, 300) };
      guint part = (guint) g_rand_int_range (rand, 0, 4);

      g_array_append_val (call->windows, window);
      if (part < problem->parts->len)
        g_array_append_val (call->needs, part);
      if (g_rand_int_range (rand, 0, 4) == 0)
        call->van = g_rand_int_range (rand, 0, (gint32) kind->vans);
    }
  add_counters (problem, rand, kind);
  return problem;
}

/* Where a van stands: what is done, what it has seen, at which place it is, whether it has left yet. */
typedef struct
{
  guint van;
  guint place;
  gboolean left;
  guint calls;
  guint seen;
} Stand;

/* All in 1/3000 of a cent. */
typedef struct
{
  const HsProblem *problem;
  guint n_counters;
  gboolean miles_only;
} Trial;

#define NONE HS_SOLVE_NO_UNITS

static gint64
leg_cost (const Trial *trial, guint from, guint to)
{
  guint cell = from * trial->problem->n_places + to;
  gint64 miles = g_array_index (trial->problem->drive_millimiles, gint64, cell) * trial->problem->mile_cents * 3;
  gint64 time = g_array_index (trial->problem->drive_seconds, gint32, cell) * trial->problem->minute_cents * 50;

  return miles + (trial->miles_only ? 0 : time);
}

static gint64
work_cost (const Trial *trial, gint32 seconds)
{
  return trial->miles_only ? 0 : seconds * trial->problem->minute_cents * 50;
}

/* NONE where a part is neither on board nor sold at a counter that was seen. */
static gint64
parts_cost (const Trial *trial, const Stand *stand, const HsCall *call)
{
  const HsVan *van = hs_problem_get_van (trial->problem, stand->van);
  gint64 sum = 0;

  for (guint k = 0; k < call->needs->len; k++)
    {
      guint part = g_array_index (call->needs, guint, k);
      gint64 best = NONE;

      for (guint c = 0; c < van->carries->len; c++)
        if (g_array_index (van->carries, guint, c) == part)
          best = 0;
      for (guint c = 0; best != 0 && c < trial->n_counters; c++)
        {
          gint64 cents = hs_counter_cents (hs_problem_get_counter (trial->problem, c), part);

          if ((stand->seen >> c & 1) != 0 && cents != HS_PROBLEM_NOT_SOLD)
            best = MIN (best, cents * 3000);
        }
      if (best == NONE)
        return NONE;
      sum += best;
    }
  return sum;
}

static gint64 go_on (const Trial *trial, const Stand *stand);

static gint64
go_to_call (const Trial *trial, const Stand *stand, guint i)
{
  const HsCall *call = hs_problem_get_call (trial->problem, i);
  Stand next = { stand->van, call->place, TRUE, stand->calls | 1u << i, stand->seen };
  gint64 parts = parts_cost (trial, stand, call);
  gint64 rest;

  if (parts == NONE || !hs_problem_may_serve (trial->problem, stand->van, i))
    return NONE;
  rest = go_on (trial, &next);
  return rest == NONE ? NONE
                      : leg_cost (trial, stand->place, call->place) + work_cost (trial, call->service_seconds) + parts
                            + rest;
}

static gint64
go_to_counter (const Trial *trial, const Stand *stand, guint c)
{
  const HsCounter *counter = hs_problem_get_counter (trial->problem, c);
  Stand next = { stand->van, counter->place, TRUE, stand->calls, stand->seen | 1u << c };
  gint64 rest = go_on (trial, &next);

  return rest == NONE ? NONE
                      : leg_cost (trial, stand->place, counter->place)
                            + work_cost (trial, counter->service_seconds) + rest;
}

static gint64
go_home (const Trial *trial, const Stand *stand)
{
  guint end = hs_problem_get_van (trial->problem, stand->van)->end;
  Stand next = { stand->van + 1, 0, FALSE, stand->calls, 0 };
  gint64 rest;

  if (next.van == trial->problem->vans->len)
    rest = stand->calls == (1u << trial->problem->calls->len) - 1 ? 0 : NONE;
  else
    {
      next.place = hs_problem_get_van (trial->problem, next.van)->start;
      rest = go_on (trial, &next);
    }
  return rest == NONE ? NONE : rest + (stand->left ? leg_cost (trial, stand->place, end) : 0);
}

/* The least that it costs from here, every way tried. */
static gint64
go_on (const Trial *trial, const Stand *stand)
{
  gint64 best = go_home (trial, stand);

  for (guint i = 0; i < trial->problem->calls->len; i++)
    if ((stand->calls >> i & 1) == 0)
      best = MIN (best, go_to_call (trial, stand, i));
  for (guint c = 0; c < trial->n_counters; c++)
    if ((stand->seen >> c & 1) == 0)
      best = MIN (best, go_to_counter (trial, stand, c));
  return best;
}

static void
assert_rest (const HsProblem *problem, const HsSolveBound *bound, const Kind *kind, const Stand *stand, guint last)
{
  Trial trial = { problem, kind->counters, FALSE };
  Trial miles = { problem, kind->counters, TRUE };
  HsRest rest = hs_solve_bound_rest (bound, stand->calls, stand->seen, stand->van, last);
  gint64 units = go_on (&trial, stand);
  gint64 mile_units = go_on (&miles, stand);

  if (kind->idle == 0)
    {
      g_assert_cmpint (rest.units, ==, units);
      g_assert_cmpint (rest.mile_units, ==, mile_units);
    }
  g_assert_cmpint (rest.units, <=, units);
  g_assert_cmpint (rest.mile_units, <=, mile_units);
  g_assert_cmpint (rest.units, >=, 0);
}

/* Every state of the day: each van at each stop of each set of stops, and about to leave. */
static void
assert_states (const HsProblem *problem, const HsSolveFrame *frame, const HsSolveBound *bound, const Kind *kind)
{
  for (guint v = 0; v < kind->vans; v++)
    for (guint calls = 0; calls < 1u << kind->calls; calls++)
      {
        Stand fresh = { v, hs_problem_get_van (problem, v)->start, FALSE, calls, 0 };

        assert_rest (problem, bound, kind, &fresh, hs_solve_frame_start (frame, v));
        for (guint seen = 0; seen < 1u << kind->counters; seen++)
          for (guint last = 0; last < kind->calls + kind->counters; last++)
            {
              Stand stand = { v, frame->nodes[last].place, TRUE, calls, seen };

              if (((calls | seen << kind->calls) >> last & 1) != 0)
                assert_rest (problem, bound, kind, &stand, last);
            }
      }
}

static const Kind kinds[] = {
  { "one-call", 100, 1, 0, 1, 0 },        { "calls", 60, 5, 0, 1, 0 },         { "counters", 60, 3, 2, 1, 0 },
  { "two-vans", 30, 3, 1, 2, 0 },         { "three-vans", 30, 3, 0, 3, 0 },    { "large-two-calls", 60, 2, 0, 1, 16 },
  { "large-calls", 60, 5, 0, 1, 15 },     { "large-counters", 60, 3, 2, 1, 14 }, { "large-two-vans", 30, 3, 1, 2, 15 },
  { "large-three-vans", 30, 3, 0, 3, 16 },
};

static void
test_kind (gconstpointer data)
{
  const Kind *kind = data;
  guint n_positive = 0;

  for (guint32 seed = 0; seed < kind->days; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = random_day (rand, kind);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
      Trial trial = { problem, kind->counters, FALSE };
      Stand start = { 0, hs_problem_get_van (problem, 0)->start, FALSE, 0, 0 };
      gint64 root = hs_solve_bound_root (bound);

      assert_states (problem, frame, bound, kind);
      g_assert_cmpint (root, <=, go_on (&trial, &start));
      if (kind->idle == 0)
        g_assert_cmpint (root, ==, go_on (&trial, &start));
      n_positive += root > 0;
    }
  g_assert_cmpuint (n_positive, >, kind->days / 2);
}

/* With windows, a break and a late start in the way the day can only get dearer. */
static void
test_root_below_plan (void)
{
  static const Kind kind = { "plans", 0, 4, 2, 2, 0 };
  guint n_planned = 0;

  for (guint32 seed = 0; seed < 60; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = random_day (rand, &kind);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
      g_autoptr (HsSolveBound) quick = hs_solve_bound_new_quick (frame);
      g_autoptr (HsSolution) solution = text_solve (problem, FALSE);

      if (solution->status != HS_PLAN_OPTIMAL)
        continue;
      g_assert_cmpint (hs_solve_bound_root (bound), <=, solution->cost_units);
      g_assert_cmpint (hs_solve_bound_root (quick), <=, solution->cost_units);
      n_planned++;
    }
  g_assert_cmpuint (n_planned, >, 20);
}

/* Out 10 min and 2 miles, 30 min of work, back 20 min and 3 miles, at 100 and 10 cents: 60 min and 5 miles. With
 * sixteen counters and two vans the day is a large one. */
static void
test_by_hand (void)
{
  static const char *const days[] = {
    "minutes 0 10 / 20 0; miles 0 2 / 3 0; cost 100 10; van a 0 0 08:00-17:00; call A 1 30",
    "minutes 0 10 / 20 0; miles 0 2 / 3 0; cost 100 10; van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; "
    "call A 1 30; counter B 1 1; counter C 1 1; counter D 1 1; counter E 1 1; counter F 1 1; counter G 1 1; "
    "counter H 1 1; counter I 1 1; counter J 1 1; counter K 1 1; counter L 1 1; counter M 1 1; counter N 1 1; "
    "counter O 1 1; counter P 1 1; counter Q 1 1",
  };

  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      g_autoptr (HsProblem) problem = text_day (days[i]);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
      g_autoptr (HsSolveBound) quick = hs_solve_bound_new_quick (frame);
      HsRest home = hs_solve_bound_rest (bound, 1, 0, 0, 0);

      g_assert_cmpint (hs_solve_bound_root (bound), ==, 6050 * HS_COST_UNITS);
      g_assert_cmpint (hs_solve_bound_root (quick), ==, 6050 * HS_COST_UNITS);
      g_assert_cmpint (home.units, ==, 2030 * HS_COST_UNITS);
      g_assert_cmpint (home.mile_units, ==, 30 * HS_COST_UNITS);
    }
  hs_solve_bound_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-bound/%s", kinds[i].name);

      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  g_test_add_func ("/plan/solve-bound/root-below-plan", test_root_below_plan);
  g_test_add_func ("/plan/solve-bound/by-hand", test_by_hand);
  return g_test_run ();
}
