// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* States are told apart by all that they are made of, and what is said to be sure to come never exceeds what comes in
 * any way of going on. */

#include "hs-solve-ahead.h"

#include "plan-text-day.h"

/* States ----------------------------------------------------------------------------------------------------------- */

static void
test_states (void)
{
  static const HsState keys[] = {
    { 0, 0, 0, 0, 0 }, { 1, 0, 0, 0, 0 }, { 0, 1, 0, 0, 0 }, { 0, 0, 1, 0, 0 }, { 0, 0, 0, 1, 0 }, { 0, 0, 0, 0, 1 },
  };
  HsStates states = { 0 };

  for (guint round = 0; round < 2; round++)
    for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
      {
        gboolean is_new = FALSE;
        HsState *state = hs_states_find (&states, &keys[i], &is_new);

        g_assert_cmpint (is_new, ==, round == 0);
        g_assert_cmpuint (state->first, ==, round == 0 ? 0 : 100 + i);
        state->first = 100 + i;
      }
  g_assert_cmpuint (states.states->len, ==, G_N_ELEMENTS (keys));
  hs_states_clear (&states);
  g_assert_null (states.states);
  hs_states_clear (&states);
}

static void
test_many_states (void)
{
  HsStates states = { 0 };

  for (guint round = 0; round < 2; round++)
    for (guint i = 0; i < 5000; i++)
      {
        const HsStep step = { .stock = i % 7, .seen = i % 11, .last = i % 13, .van = i % 2 };
        HsState key = hs_state_of (i / 1001, &step);
        gboolean is_new;
        HsState *state = hs_states_find (&states, &key, &is_new);

        g_assert_cmpuint (state->calls, ==, i / 1001);
        g_assert_cmpuint (state->stock, ==, i % 7);
        g_assert_cmpuint (state->seen, ==, i % 11);
        g_assert_cmpuint (state->last, ==, i % 13);
        g_assert_cmpuint (state->van, ==, i % 2);
        if (is_new)
          g_assert_cmpuint (state->first, ==, HS_STATES_NONE);
        else
          g_assert_cmpuint (state->first, ==, state->calls * 1000 + state->last);
        state->first = (guint32) state->calls * 1000 + state->last;
        g_assert_false (is_new && round > 0);
      }
  hs_states_clear (&states);
}

/* What comes ------------------------------------------------------------------------------------------------------- */

#define DAY "minutes 0 10 20 / 10 0 10 / 20 10 0; miles 0 4 8 / 4 0 4 / 8 4 0; cost 100 50; "

/* @first: served at once; @looks: whether all can still be kept; @floor: in cents, from then on */
typedef struct
{
  const char *name;
  const char *day;
  guint allowed;
  gboolean looks;
  guint missed;
  gint32 late_minutes;
  const char *home;
  gint64 floor_cents;
} Look;

static const Look looks[] = {
  /* A from 08:10 to 08:30, B from 08:40 to 09:00, home at 09:20: 80 minutes and 16 miles. */
  { "nothing-waits", DAY "van a 0 0 08:00-17:00 until 08:00; call A 1 20; call B 2 20", 0, TRUE, 0, 0, "09:20",
    8000 + 800 },
  /* B can't begin before 09:00: home at 09:40. */
  { "waits", DAY "van a 0 0 08:00-17:00 until 08:00; call A 1 20; call B 2 20 09:00-10:00", 0, TRUE, 0, 0, "09:40",
    10000 + 800 },
  { "too-late", DAY "van a 0 0 08:00-17:00 until 08:00; call A 1 20; call B 2 20 08:00-08:30", 0, FALSE, 0, 0, "", 0 },
  { "late", DAY "van a 0 0 08:00-17:00 until 08:00; call A 1 20; call B 2 20 08:00-08:30", 1, TRUE, 1, 10, "09:20",
    8000 + 800 },
  { "not-home-in-time", DAY "van a 0 0 08:00-09:15 until 08:00; call A 1 20; call B 2 20", 0, FALSE, 0, 0, "", 0 },
  /* The next van may do it; this one is home at 08:40. */
  { "another-van", DAY "van a 0 0 08:00-17:00 until 08:00; van b 2 2 08:00-17:00; call A 1 20; call B 2 20 08:00-08:30",
    0, TRUE, 0, 0, "08:40", 4000 + 400 + 2000 },
  { "another-van-too-late", DAY "van a 0 0 08:00-17:00 until 08:00; van b 2 2 09:00-17:00; call A 1 20; "
    "call B 2 20 08:00-08:30", 0, FALSE, 0, 0, "", 0 },
};

static void
test_look (gconstpointer data)
{
  const Look *row = data;
  const HsSolveTerms terms = { FALSE, row->allowed, 0, 36000, 36000 };
  g_autoptr (HsProblem) problem = text_day (row->day);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (frame);
  HsStep begin[2];
  HsStep next[HS_STEP_MAX_NEXT];
  HsAhead ahead;
  HsState state;
  HsRest rest;
  guint missed = 0;
  gint64 late = 0;
  gint32 home;

  hs_ahead_init (&ahead, frame, bound, &terms);
  g_assert_cmpuint (ahead.all, ==, 3);
  hs_step_begin (frame, &terms, 0, begin);
  g_assert_cmpuint (hs_step_call (frame, &terms, begin, 0, next), ==, 1);
  g_assert_cmpint (hs_ahead_look (&ahead, next, 1, &missed, &late, &home), ==, row->looks);
  if (!row->looks)
    return;
  g_assert_cmpuint (missed, ==, row->missed);
  g_assert_cmpint (late, ==, 60 * row->late_minutes);
  g_assert_cmpint (home, ==, text_clock (row->home));
  state = hs_state_of (1, next);
  rest = hs_ahead_rest (&ahead, &state);
  g_assert_cmpint (hs_ahead_floor (&ahead, next, &rest, home), ==, row->floor_cents * HS_COST_UNITS);
}

/* The least of everything over all ways of going on from a step of a day with one van. */
typedef struct
{
  gint64 units;
  gint64 home;
  guint broken;
  gint64 late;
} Least;

static void
take_least (Least *least, const Least *other)
{
  least->units = MIN (least->units, other->units);
  least->home = MIN (least->home, other->home);
  least->broken = MIN (least->broken, other->broken);
  least->late = MIN (least->late, other->late);
}

static Least least_from (const HsAhead *ahead, const HsStep *step, guint64 calls, guint *n_steps);

static void
take_all (const HsAhead *ahead, const HsStep *next, guint n, guint64 calls, guint *n_steps, Least *least)
{
  for (guint k = 0; k < n; k++)
    {
      Least one = least_from (ahead, &next[k], calls, n_steps);

      take_least (least, &one);
    }
}

static Least
least_from (const HsAhead *ahead, const HsStep *step, guint64 calls, guint *n_steps)
{
  const HsSolveFrame *frame = ahead->frame;
  const HsState state = hs_state_of (calls, step);
  HsRest rest = ahead->bound != NULL ? hs_ahead_rest (ahead, &state) : (HsRest){ 0, 0 };
  Least least = { HS_SOLVE_NO_UNITS, G_MAXINT32, G_MAXUINT, G_MAXINT64 };
  HsStep next[HS_STEP_MAX_NEXT];
  guint missed = step->broken;
  gint64 late = step->late;
  gint32 home;
  HsClose close;

  for (guint i = 0; i < frame->n_calls; i++)
    if ((calls >> i & 1) == 0)
      take_all (ahead, next, hs_step_call (frame, ahead->terms, step, i, next), calls | G_GUINT64_CONSTANT (1) << i,
                n_steps, &least);
  for (guint c = 0; c < frame->n_counters; c++)
    take_all (ahead, next, hs_step_counter (frame, step, c, next), calls, n_steps, &least);
  take_all (ahead, next, hs_step_break (frame, step, next), calls, n_steps, &least);
  if (calls == ahead->all && hs_step_close (frame, ahead->terms, step, &close))
    take_least (&least, &(Least){ close.units, close.home, close.broken, close.late });
  if (least.units == HS_SOLVE_NO_UNITS)
    return least;
  ++*n_steps;
  g_assert_true (hs_ahead_look (ahead, step, calls, &missed, &late, &home));
  g_assert_cmpuint (missed, <=, least.broken);
  g_assert_cmpint (late, <=, least.late);
  g_assert_cmpint (home, <=, least.home);
  g_assert_cmpint (hs_ahead_floor (ahead, step, &rest, home), <=, least.units);
  return least;
}

static void
test_never_too_much (void)
{
  guint n_steps = 0;

  for (guint32 seed = 0; seed < 60; seed++)
    {
      const HsSolveTerms terms = { FALSE, seed % 2 == 0 ? 0 : 3, 0, 90000, 90000 };
      g_autoptr (HsProblem) problem = text_busy_day (3, seed);
      g_autoptr (HsSolveFrame) frame = NULL;
      g_autoptr (HsSolveBound) bound = NULL;
      HsStep begin[2];
      HsAhead ahead;
      guint n;

      g_ptr_array_set_size (problem->vans, 1);
      frame = text_frame (problem);
      bound = seed % 5 == 4 ? NULL : seed % 5 == 3 ? hs_solve_bound_new_quick (frame) : hs_solve_bound_new (frame);
      hs_ahead_init (&ahead, frame, bound, &terms);
      n = hs_step_begin (frame, &terms, 0, begin);
      for (guint k = 0; k < n; k++)
        least_from (&ahead, &begin[k], 0, &n_steps);
    }
  g_assert_cmpuint (n_steps, >, 1000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-ahead/states", test_states);
  g_test_add_func ("/plan/solve-ahead/many-states", test_many_states);
  for (guint i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-ahead/%s", looks[i].name);

      g_test_add_data_func (path, &looks[i], test_look);
    }
  g_test_add_func ("/plan/solve-ahead/never-too-much", test_never_too_much);
  return g_test_run ();
}
