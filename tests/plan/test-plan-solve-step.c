// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One step stands for all leave times at once: against driving off at each minute of the day. */

#include "hs-solve-step.h"

#include "plan-text-day.h"

#define NEVER G_MAXINT32
#define BREAK 99
#define MAX_WAYS 512

static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
static const HsSolveTerms open_terms = HS_SOLVE_TERMS_OPEN;

/* @rested: when a van that had its break before leaving may leave; 0 where it can't */
static const struct
{
  const char *van;
  gboolean flat;
  gint32 ready;
  gint32 leave_max;
  gint32 rested;
} begins[] = {
  { "van a 0 0 08:00-17:00", FALSE, 8 * 60, 17 * 60, 0 },
  { "van a 0 0 08:00-17:00 until 09:00", FALSE, 8 * 60, 9 * 60, 0 },
  { "van a 0 0 08:00-17:00 until 20:00", FALSE, 8 * 60, 17 * 60, 0 },
  { "van a 0 0 08:00-17:00 until 09:00", TRUE, 8 * 60, 8 * 60, 0 },
  { "van a 0 0 08:00-17:00 break 30 11:30-13:30", FALSE, 8 * 60, 17 * 60, 12 * 60 },
  { "van a 0 0 08:00-17:00 until 12:00 break 30 11:30-13:30", FALSE, 8 * 60, 12 * 60, 12 * 60 },
  { "van a 0 0 08:00-17:00 until 11:59 break 30 11:30-13:30", FALSE, 8 * 60, 12 * 60 - 1, 0 },
  { "van a 0 0 08:00-17:00 break 30 06:00-07:00", FALSE, 8 * 60, 17 * 60, 8 * 60 },
  { "van a 0 0 08:00-17:00 break 30 07:30-09:00", TRUE, 8 * 60, 8 * 60, 8 * 60 },
};

static void
test_begin (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (begins); i++)
    {
      g_autofree char *day = g_strconcat ("minutes 0;", begins[i].van, NULL);
      g_autoptr (HsProblem) problem = text_day (day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      HsStep steps[2];
      guint n = hs_step_begin (frame, begins[i].flat ? &open_terms : &strict, 0, steps);

      g_assert_cmpuint (n, ==, begins[i].rested > 0 ? 2 : 1);
      g_assert_cmpint (steps[0].ready, ==, begins[i].ready * 60);
      g_assert_cmpint (steps[0].leave_max, ==, begins[i].leave_max * 60);
      g_assert_cmpuint (steps[0].seen, ==, 0);
      g_assert_cmpint (steps[0].drive, ==, begins[i].flat ? -HS_SOLVE_FAR : 0);
      g_assert_cmpuint (steps[0].last, ==, hs_solve_frame_start (frame, 0));
      if (n == 2)
        {
          g_assert_cmpint (steps[1].ready, ==, begins[i].rested * 60);
          g_assert_cmpuint (steps[1].seen, ==, HS_SOLVE_HAD_BREAK);
        }
    }
}

/* Four calls with one to three windows each, two counters with a lunch, one van with a break; all in whole minutes. */
static HsProblem *
random_day (GRand *rand)
{
  HsProblem *problem = text_day ("minutes 0 0 0 0 / 0 0 0 0 / 0 0 0 0 / 0 0 0 0; cost 160 42; "
                                 "van a 0 1 08:00-15:00 break 30 10:00-12:00; "
                                 "call A 0 10; call B 1 10; call C 2 10; call D 3 10; "
                                 "counter E 1 5 08:00-10:00 11:00-15:00; counter F 2 20 09:00-11:30 12:00-15:00");
  HsVan *van = g_ptr_array_index (problem->vans, 0);

  for (guint i = 0; i < 4; i++)
    for (guint j = 0; j < 4; j++)
      hs_problem_set_leg (problem, i, j, 60 * g_rand_int_range (rand, 0, 40), 100 * g_rand_int_range (rand, 0, 200));
  for (guint i = 0; i < 4; i++)
    {
      HsCall *call = g_ptr_array_index (problem->calls, i);

      call->service_seconds = 60 * g_rand_int_range (rand, 0, 50);
      for (gint32 n = g_rand_int_range (rand, 0, 4); n > 0; n--)
        {
          gint32 from = g_rand_int_range (rand, 8 * 60, 14 * 60);
          HsDaySpan window = { from * 60, (from + g_rand_int_range (rand, 0, 120)) * 60 };

          g_array_append_val (call->windows, window);
        }
    }
  if (g_rand_boolean (rand))
    van->break_seconds = 0;
  if (g_rand_boolean (rand))
    van->leave_to_seconds = 60 * g_rand_int_range (rand, 8 * 60, 12 * 60);
  return problem;
}

/* The first second from @time on at which @stop may start; NEVER. Counters are stops 4 and 5. */
static gint32
start_of (const HsProblem *problem, guint stop, gint32 time, gint32 *ret_service)
{
  const HsVan *van = hs_problem_get_van (problem, 0);
  const GArray *spans = NULL;
  gint32 best = NEVER;
  gint32 inside = 0;

  if (stop == BREAK)
    {
      *ret_service = van->break_seconds;
      time = MAX (time, van->break_span.from_seconds);
      return time + van->break_seconds <= van->break_span.to_seconds ? time : NEVER;
    }
  spans = stop < 4 ? hs_problem_get_call (problem, stop)->windows : hs_problem_get_counter (problem, stop - 4)->hours;
  *ret_service = stop < 4 ? hs_problem_get_call (problem, stop)->service_seconds
                          : hs_problem_get_counter (problem, stop - 4)->service_seconds;
  inside = stop < 4 ? 0 : *ret_service;
  if (stop < 4 && spans->len == 0)
    return time;
  for (guint i = 0; i < spans->len; i++)
    {
      const HsDaySpan *span = &g_array_index (spans, HsDaySpan, i);
      gint32 start = MAX (time, span->from_seconds);

      if (start + inside <= span->to_seconds)
        best = MIN (best, start);
    }
  return best;
}

static guint
place_of (const HsProblem *problem, guint stop, guint before)
{
  if (stop == BREAK)
    return before;
  return stop < 4 ? hs_problem_get_call (problem, stop)->place : hs_problem_get_counter (problem, stop - 4)->place;
}

/* When the van is free after @stops, having left at @leave; NEVER if that can't be. */
static gint32
drive_off (const HsProblem *problem, const guint *stops, guint n, gint32 leave, guint *ret_place, gint64 *ret_miles)
{
  gint32 time = leave;
  guint place = 0;

  *ret_miles = 0;
  for (guint k = 0; k < n; k++)
    {
      guint to = place_of (problem, stops[k], place);
      guint cell = place * problem->n_places + to;
      gint32 service = 0;

      if (stops[k] != BREAK)
        {
          time += g_array_index (problem->drive_seconds, gint32, cell);
          *ret_miles += g_array_index (problem->drive_millimiles, gint64, cell);
        }
      time = start_of (problem, stops[k], time, &service);
      if (time == NEVER)
        return NEVER;
      time += service;
      place = to;
    }
  *ret_place = place;
  return time;
}

static guint
take_stop (const HsSolveFrame *frame, const HsStep *step, guint stop, HsStep *ret_next)
{
  if (stop == BREAK)
    return hs_step_break (frame, step, ret_next);
  return stop < 4 ? hs_step_call (frame, &strict, step, stop, ret_next)
                  : hs_step_counter (frame, step, stop - 4, ret_next);
}

/* All continuations of a van that leaves at any time through @stops. */
static guint
walk (const HsSolveFrame *frame, const guint *stops, guint n, HsStep *ret_steps)
{
  HsStep next[MAX_WAYS];
  guint n_steps = hs_step_begin (frame, &strict, 0, ret_steps);

  for (guint k = 0; k < n; k++)
    {
      guint n_next = 0;

      for (guint s = 0; s < n_steps; s++)
        {
          g_assert_cmpuint (n_next + HS_STEP_MAX_NEXT, <, MAX_WAYS);
          n_next += take_stop (frame, &ret_steps[s], stops[k], &next[n_next]);
        }
      n_steps = n_next;
      for (guint s = 0; s < n_steps; s++)
        ret_steps[s] = next[s];
    }
  return n_steps;
}

/* At each minute of leaving, the best of the continuations is free just when driving off says. */
static void
assert_free (const HsProblem *problem, const guint *stops, guint n, const HsStep *steps, guint n_steps)
{
  const HsVan *van = hs_problem_get_van (problem, 0);

  for (gint32 leave = van->leave_from_seconds; leave <= van->leave_to_seconds; leave += 60)
    {
      guint place = 0;
      gint64 miles = 0;
      gint32 free_at = drive_off (problem, stops, n, leave, &place, &miles);
      gint32 best = NEVER;

      for (guint s = 0; s < n_steps; s++)
        {
          if (leave <= steps[s].leave_max)
            best = MIN (best, MAX (steps[s].ready, leave + steps[s].drive));
          if (free_at != NEVER)
            g_assert_cmpint (steps[s].units, ==, miles * 42 * 3);
        }
      g_assert_cmpint (best, ==, free_at);
    }
}

static void
test_free (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  guint n_walked = 0;

  for (guint day = 0; day < 400; day++)
    {
      g_autoptr (HsProblem) problem = random_day (rand);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      guint stops[6] = { 0, 1, 2, 3, 4, 5 };
      HsStep steps[MAX_WAYS];

      ((HsVan *) g_ptr_array_index (problem->vans, 0))->break_seconds = 0;
      for (guint i = 6; i > 1; i--)
        {
          guint j = (guint) g_rand_int_range (rand, 0, (gint32) i);
          guint swap = stops[i - 1];

          stops[i - 1] = stops[j];
          stops[j] = swap;
        }
      for (guint n = 1; n <= 4; n++)
        {
          guint n_steps = walk (frame, stops, n, steps);

          assert_free (problem, stops, n, steps, n_steps);
          n_walked += n_steps > 1;
        }
    }
  g_assert_cmpuint (n_walked, >, 50);
}

/* Home at its best: every leave time is tried, with the break owed unless it can be had at home. */
static gboolean
best_close (const HsProblem *problem, const guint *stops, guint n, gboolean has_break, HsClose *ret_close)
{
  const HsVan *van = hs_problem_get_van (problem, 0);
  gboolean found = FALSE;

  for (gint32 leave = van->leave_from_seconds; leave <= van->leave_to_seconds; leave += 60)
    {
      guint place = 0;
      gint64 miles = 0;
      gint32 home = drive_off (problem, stops, n, leave, &place, &miles);
      gint64 units;

      if (home == NEVER)
        continue;
      home += g_array_index (problem->drive_seconds, gint32, place * problem->n_places + van->end);
      miles += g_array_index (problem->drive_millimiles, gint64, place * problem->n_places + van->end);
      units = miles * 42 * 3 + (home - leave) * 160 * 50;
      if (home > van->home_by_seconds)
        continue;
      if (van->break_seconds > 0 && !has_break && leave < van->break_span.from_seconds + van->break_seconds
          && home > van->break_span.to_seconds - van->break_seconds)
        continue;
      if (found && (units > ret_close->units || (units == ret_close->units && home > ret_close->home)))
        continue;
      *ret_close = (HsClose){ units, leave, home, 0, 0 };
      found = TRUE;
    }
  return found;
}

static gboolean
close_all (const HsSolveFrame *frame, const HsStep *steps, guint n_steps, HsClose *ret_close)
{
  gboolean found = FALSE;

  for (guint s = 0; s < n_steps; s++)
    {
      HsClose close;

      if (!hs_step_close (frame, &strict, &steps[s], &close))
        continue;
      if (found && (close.units == ret_close->units ? close.home > ret_close->home : close.units > ret_close->units))
        continue;
      if (!found || close.units < ret_close->units || close.home < ret_close->home || close.leave > ret_close->leave)
        *ret_close = close;
      found = TRUE;
    }
  return found;
}

static void
test_close (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);
  guint n_home = 0;
  guint n_out = 0;

  for (guint day = 0; day < 1500; day++)
    {
      g_autoptr (HsProblem) problem = random_day (rand);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      guint from = (guint) g_rand_int_range (rand, 0, 6);
      gboolean has_break = hs_problem_get_van (problem, 0)->break_seconds > 0 && g_rand_boolean (rand);
      guint stops[3] = { from, has_break ? BREAK : (from + 1) % 6, (from + 2) % 6 };
      HsStep steps[MAX_WAYS];
      HsClose close = { 0, 0, 0, 0, 0 };
      HsClose best = { 0, 0, 0, 0, 0 };
      gboolean home = best_close (problem, stops, 3, has_break, &best);

      g_assert_cmpint (close_all (frame, steps, walk (frame, stops, 3, steps), &close), ==, home);
      g_assert_cmpint (close.units, ==, best.units);
      g_assert_cmpint (close.home, ==, best.home);
      g_assert_cmpint (close.leave, ==, best.leave);
      n_home += home;
      n_out += !home;
    }
  g_assert_cmpuint (n_home, >, 300);
  g_assert_cmpuint (n_out, >, 100);
}

/* A ten minutes away, promised until 08:05; then 20 min of work. @late and @each in minutes. */
static const struct
{
  guint missed;
  gint64 late;
  gint32 each;
  gboolean broken_before;
  gboolean had;
} lates[] = {
  { 1, 5, 5, FALSE, TRUE },    { 0, 5, 5, FALSE, FALSE },   { 1, 4, 5, FALSE, FALSE },
  { 1, 5, 4, FALSE, FALSE },   { 9, 999, 999, FALSE, TRUE }, { 1, 99, 5, TRUE, FALSE },
  { 2, 7, 5, TRUE, FALSE },    { 2, 8, 5, TRUE, TRUE },
};

static void
test_late (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 / 10 0; van a 0 0 08:00-17:00; call A 1 20 07:00-08:05");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);

  for (guint i = 0; i < G_N_ELEMENTS (lates); i++)
    for (guint flat = 0; flat < 2; flat++)
      {
        HsSolveTerms terms = { flat == 1, lates[i].missed, 0, lates[i].late * 60, lates[i].each * 60 };
        HsStep begin[2];
        HsStep next[HS_STEP_MAX_NEXT];
        HsClose close;

        hs_step_begin (frame, &terms, 0, begin);
        begin[0].broken = lates[i].broken_before;
        begin[0].late = lates[i].broken_before ? 180 : 0;
        g_assert_cmpuint (hs_step_call (frame, &terms, &begin[0], 0, next), ==, lates[i].had);
        if (!lates[i].had)
          continue;
        g_assert_cmpint (next->late, ==, begin[0].late + 300);
        g_assert_cmpuint (next->broken, ==, begin[0].broken + 1u);
        g_assert_cmpint (next->ready, ==, text_clock ("08:30"));
        g_assert_cmpint (next->leave_max, ==, text_clock ("08:00"));
        g_assert_true (hs_step_close (frame, &terms, next, &close));
        g_assert_cmpint (close.home, ==, text_clock ("08:40"));
        g_assert_cmpint (close.late, ==, next->late);
        g_assert_cmpuint (close.broken, ==, next->broken);
      }
}

/* Behind a wait, a late stop lets the van leave as late as the wait allows. */
static void
test_late_after_wait (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 / 10 0; cost 1 0; van a 0 0 08:00-17:00; "
                                            "call A 1 20 09:00-10:00; call B 1 20 08:00-09:05");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsSolveTerms terms = { FALSE, 1, 0, 900, 900 };
  HsStep begin[2];
  HsStep at[HS_STEP_MAX_NEXT];
  HsStep next[HS_STEP_MAX_NEXT];
  HsClose close;

  hs_step_begin (frame, &terms, 0, begin);
  g_assert_cmpuint (hs_step_call (frame, &terms, &begin[0], 0, at), ==, 1);
  g_assert_cmpuint (hs_step_call (frame, &terms, &at[0], 1, next), ==, 1);
  g_assert_cmpint (next->late, ==, 15 * 60);
  g_assert_true (hs_step_close (frame, &terms, next, &close));
  g_assert_cmpint (close.leave, ==, text_clock ("08:50"));
  g_assert_cmpint (close.home, ==, text_clock ("09:50"));
  g_assert_cmpint (close.units, ==, 60 * HS_COST_UNITS);
}

/* What can't be done at all. */
static void
test_refused (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 / 10 0; "
                                            "van a 0 0 08:00-17:00 carries y break 30 11:30-13:30; "
                                            "van b 1 1 08:00-17:00; call A 1 20 van b; call B 1 20 needs x,y; "
                                            "call C 1 20 skills s; counter D 0 5 08:00-12:00 sells x=500; "
                                            "counter E 0 5");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsStep begin[2];
  HsStep shop[HS_STEP_MAX_NEXT];
  HsStep next[HS_STEP_MAX_NEXT];

  hs_step_begin (frame, &strict, 0, begin);
  g_assert_cmpuint (hs_step_call (frame, &strict, &begin[0], 0, next), ==, 0);
  g_assert_cmpuint (hs_step_call (frame, &strict, &begin[0], 1, next), ==, 0);
  g_assert_cmpuint (hs_step_call (frame, &strict, &begin[0], 2, next), ==, 0);
  g_assert_cmpuint (hs_step_counter (frame, &begin[0], 1, next), ==, 0);
  g_assert_cmpuint (hs_step_break (frame, &begin[0], next), ==, 0);
  g_assert_cmpuint (hs_step_counter (frame, &begin[0], 0, shop), ==, 1);
  g_assert_cmpuint (shop[0].seen, ==, 1);
  g_assert_cmpuint (hs_step_counter (frame, &shop[0], 0, next), ==, 0);
  g_assert_cmpuint (hs_step_call (frame, &strict, &shop[0], 1, next), ==, 1);
  g_assert_cmpint (next[0].units, ==, 500 * HS_COST_UNITS);
  g_assert_cmpuint (hs_step_break (frame, &next[0], shop), ==, 1);
  g_assert_cmpuint (shop[0].seen, ==, 1 | HS_SOLVE_HAD_BREAK);
  g_assert_cmpint (shop[0].ready, ==, text_clock ("12:00"));
  g_assert_cmpuint (hs_step_break (frame, &shop[0], next), ==, 0);
  hs_step_begin (frame, &strict, 1, begin);
  begin[0].last = 0;
  g_assert_cmpuint (hs_step_break (frame, &begin[0], next), ==, 0);
}

/* A van that does not move is home when it may leave, and free. */
static void
test_stays (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 / 10 0; cost 9 9; "
                                            "van a 0 1 08:00-17:00 break 60 09:00-10:00");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsStep begin[2];
  HsClose close;

  hs_step_begin (frame, &strict, 0, begin);
  begin[0].units = 77;
  g_assert_true (hs_step_close (frame, &strict, &begin[0], &close));
  g_assert_cmpint (close.units, ==, 77);
  g_assert_cmpint (close.leave, ==, text_clock ("08:00"));
  g_assert_cmpint (close.home, ==, text_clock ("08:00"));
}

/* Each row is better than { units 10, ready 100, drive 50, leave_max 60, late 3, broken 2 } in one thing and worse in
 * none: it dominates and is not dominated. */
static const HsStep better[] = {
  { .units = 9, .ready = 100, .drive = 50, .leave_max = 60, .late = 3, .broken = 2 },
  { .units = 10, .ready = 99, .drive = 50, .leave_max = 60, .late = 3, .broken = 2 },
  { .units = 10, .ready = 100, .drive = 49, .leave_max = 60, .late = 3, .broken = 2 },
  { .units = 10, .ready = 100, .drive = 50, .leave_max = 61, .late = 3, .broken = 2 },
  { .units = 10, .ready = 100, .drive = 50, .leave_max = 60, .late = 2, .broken = 2 },
  { .units = 10, .ready = 100, .drive = 50, .leave_max = 60, .late = 3, .broken = 1 },
};

static void
test_dominates (void)
{
  const HsStep base = { .units = 10, .ready = 100, .drive = 50, .leave_max = 60, .late = 3, .broken = 2 };
  HsStep waits = base;

  g_assert_true (hs_step_dominates (&base, &base));
  for (guint i = 0; i < G_N_ELEMENTS (better); i++)
    {
      g_assert_true (hs_step_dominates (&better[i], &base));
      g_assert_false (hs_step_dominates (&base, &better[i]));
    }
  /* Longer under way, but free at the same second whenever it leaves. */
  waits.drive = 40;
  waits.ready = 110;
  g_assert_true (hs_step_dominates (&base, &waits));
  waits.ready = 109;
  g_assert_false (hs_step_dominates (&base, &waits));
}

/* Against { units 100, ready 100, drive 50, leave_max 60 } where a second costs 2: 200 as it stands, 100 + 2 × (home -
 * 60) at home. */
static const struct
{
  HsStep step;
  gboolean beats;
} beating[] = {
  /* Dearer miles, made good by less driving and a later leave. */
  { { .units = 101, .ready = 100, .drive = 49, .leave_max = 61, .late = 3, .broken = 2 }, TRUE },
  { { .units = 101, .ready = 100, .drive = 50, .leave_max = 61, .late = 3, .broken = 2 }, FALSE },
  { { .units = 102, .ready = 100, .drive = 48, .leave_max = 61, .late = 3, .broken = 2 }, FALSE },
  /* More driving and an earlier leave, made good by cheaper miles. */
  { { .units = 97, .ready = 100, .drive = 51, .leave_max = 59, .late = 3, .broken = 2 }, TRUE },
  { { .units = 98, .ready = 100, .drive = 51, .leave_max = 60, .late = 3, .broken = 2 }, FALSE },
  { { .units = 98, .ready = 100, .drive = 50, .leave_max = 59, .late = 3, .broken = 2 }, FALSE },
  /* Short driving is of no use to who has to wait anyway. */
  { { .units = 99, .ready = 100, .drive = 1, .leave_max = 50, .late = 3, .broken = 2 }, FALSE },
  { { .units = 10, .ready = 101, .drive = 10, .leave_max = 70, .late = 3, .broken = 2 }, FALSE },
  { { .units = 10, .ready = 100, .drive = 10, .leave_max = 70, .late = 4, .broken = 2 }, FALSE },
  { { .units = 10, .ready = 100, .drive = 10, .leave_max = 70, .late = 3, .broken = 3 }, FALSE },
  { { .units = 100, .ready = 100, .drive = 50, .leave_max = 60, .late = 3, .broken = 2 }, FALSE },
};

static void
test_beats (void)
{
  const HsSolveFrame frame = { .second_units = 2 };
  const HsStep base = { .units = 100, .ready = 100, .drive = 50, .leave_max = 60, .late = 3, .broken = 2 };

  for (guint i = 0; i < G_N_ELEMENTS (beating); i++)
    {
      g_test_message ("row %u", i);
      g_assert_cmpint (hs_step_beats (&frame, &beating[i].step, &base), ==, beating[i].beats);
      g_assert_false (beating[i].beats && hs_step_beats (&frame, &base, &beating[i].step));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-step/begin", test_begin);
  g_test_add_func ("/plan/solve-step/free", test_free);
  g_test_add_func ("/plan/solve-step/close", test_close);
  g_test_add_func ("/plan/solve-step/late", test_late);
  g_test_add_func ("/plan/solve-step/late-after-wait", test_late_after_wait);
  g_test_add_func ("/plan/solve-step/refused", test_refused);
  g_test_add_func ("/plan/solve-step/stays", test_stays);
  g_test_add_func ("/plan/solve-step/dominates", test_dominates);
  g_test_add_func ("/plan/solve-step/beats", test_beats);
  return g_test_run ();
}
