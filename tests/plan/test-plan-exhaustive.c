// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Thousands of small random days, each planned by the planner and by plain trial of every order, every leave time on
 * the grid of the day's numbers, every span a stop could start in and every place for the break. The trial shares no
 * code with the planner. */

#include "hs-plan.h"

#include <string.h>

#define MAX_STOPS 7
#define DAYS 6000

/* One way of driving the day, and all that it is judged by. */
typedef struct
{
  guint n;
  guint order[MAX_STOPS];
  gint64 arrive[MAX_STOPS];
  gint64 start[MAX_STOPS];
  gint64 late[MAX_STOPS];
  gint64 slack[MAX_STOPS];
  gboolean owes;
  int break_after;
  gint64 break_start;
  gint64 break_late;
  guint broken;
  gint64 late_sum;
  gint64 home_late;
  gint64 spare;
  gint64 leave;
  gint64 home;
  gint64 drive;
  gint64 millimiles;
} Way;

typedef struct
{
  const HsDay *day;
  gint64 grid;
  guint64 in_play;
  guint n;
  gboolean locks;
  Way best;
  gboolean found;
} Trial;

static gint64
leg_seconds (const HsDay *day, guint from, guint to)
{
  return g_array_index (day->drive_seconds, gint32, from * day->n_places + to);
}

static gint64
leg_millimiles (const HsDay *day, guint from, guint to)
{
  return g_array_index (day->drive_millimiles, gint64, from * day->n_places + to);
}

/* In 1/60000 of a cent. */
static gint64
way_cost (const HsDay *day, const Way *way)
{
  return (way->home - way->leave) * day->minute_cents * 1000 + way->millimiles * day->mile_cents * 60;
}

static int
compare_ids (const HsDay *day, const Way *a, const Way *b)
{
  for (guint k = 0; k < a->n; k++)
    {
      int sign = strcmp (hs_day_get_stop (day, a->order[k])->id, hs_day_get_stop (day, b->order[k])->id);

      if (sign != 0)
        return sign;
    }
  if (a->break_after != b->break_after)
    return a->break_after == HS_PLAN_NO_BREAK || (b->break_after != HS_PLAN_NO_BREAK && a->break_after > b->break_after)
               ? -1
               : 1;
  for (guint k = 0; k < a->n; k++)
    if (a->start[k] != b->start[k])
      return a->start[k] < b->start[k] ? -1 : 1;
  return 0;
}

#define LESS(a, b)             \
  if ((a) != (b))              \
    return (a) < (b) ? -1 : 1;

static int
compare_ways (const HsDay *day, const Way *a, const Way *b)
{
  gint64 asked = day->spare_seconds;

  LESS (a->broken, b->broken);
  LESS (a->late_sum, b->late_sum);
  LESS (a->home_late, b->home_late);
  LESS (MIN (b->spare, asked), MIN (a->spare, asked));
  LESS (way_cost (day, a), way_cost (day, b));
  LESS (a->home, b->home);
  LESS (b->leave, a->leave);
  return compare_ids (day, a, b);
}

static void
try_home (Trial *trial, Way way, gint64 time, guint place)
{
  const HsDay *day = trial->day;

  way.home = time + leg_seconds (day, place, day->end_place);
  way.drive += leg_seconds (day, place, day->end_place);
  way.millimiles += leg_millimiles (day, place, day->end_place);
  way.home_late = MAX (0, way.home - day->home_by_seconds);
  if (way.owes && way.home + day->break_seconds > day->break_span.to_seconds)
    {
      way.break_late = way.home + day->break_seconds - day->break_span.to_seconds;
      way.broken++;
      way.late_sum += way.break_late;
    }
  if (trial->found && compare_ways (day, &way, &trial->best) >= 0)
    return;
  trial->best = way;
  trial->found = TRUE;
}

static void try_next (Trial *trial, const Way *way, guint64 done, gint64 time, guint place);

/* With the break here, and without. */
static void
try_rest (Trial *trial, const Way *way, guint64 done, gint64 time, guint place)
{
  const HsDay *day = trial->day;
  gint64 start = MAX (time, day->break_span.from_seconds);
  Way rested = *way;

  try_next (trial, way, done, time, place);
  if (!way->owes || start + day->break_seconds > day->break_span.to_seconds)
    return;
  rested.owes = FALSE;
  rested.break_after = (int) way->n - 1;
  rested.break_start = start;
  try_next (trial, &rested, done, start + day->break_seconds, place);
}

static void
try_start (Trial *trial, Way way, guint64 done, guint i, gint64 start, gint64 late, gint64 slack)
{
  const HsDayStop *stop = hs_day_get_stop (trial->day, i);

  way.start[way.n] = start;
  way.late[way.n] = late;
  way.slack[way.n] = slack;
  way.broken += late > 0;
  way.late_sum += late;
  way.spare = MIN (way.spare, slack);
  way.n++;
  try_rest (trial, &way, done | (G_GUINT64_CONSTANT (1) << i), start + stop->service_seconds, stop->place);
}

static void
try_stop (Trial *trial, const Way *way, guint64 done, gint64 time, guint place, guint i)
{
  const HsDay *day = trial->day;
  const HsDayStop *stop = hs_day_get_stop (day, i);
  gboolean is_call = stop->kind == HS_DAY_STOP_CALL;
  gint64 inside = is_call ? 0 : stop->service_seconds;
  gint64 arrive = time + leg_seconds (day, place, stop->place);
  gint64 last = G_MININT64;
  Way at = *way;

  at.order[at.n] = i;
  at.arrive[at.n] = arrive;
  at.drive += leg_seconds (day, place, stop->place);
  at.millimiles += leg_millimiles (day, place, stop->place);
  if (stop->spans->len == 0)
    {
      try_start (trial, at, done, i, arrive, 0, HS_PLAN_NO_LIMIT);
      return;
    }
  for (guint k = 0; k < stop->spans->len; k++)
    {
      const HsDaySpan *span = &g_array_index (stop->spans, HsDaySpan, k);
      gint64 start = MAX (arrive, span->from_seconds);

      if (span->from_seconds + inside > span->to_seconds)
        continue;
      last = MAX (last, span->to_seconds - inside);
      if (start + inside <= span->to_seconds)
        try_start (trial, at, done, i, start, 0, is_call ? span->to_seconds - start : HS_PLAN_NO_LIMIT);
    }
  if (arrive > last)
    try_start (trial, at, done, i, arrive, arrive - last, is_call ? last - arrive : HS_PLAN_NO_LIMIT);
}

/* Whether a lock speaks against stop @i in the place after @n others. */
static gboolean
is_locked_out (const Trial *trial, guint i, guint n)
{
  guint number = hs_day_get_stop (trial->day, i)->number;

  if (!trial->locks)
    return FALSE;
  if (number > 0)
    return number != n + 1;
  for (guint j = 0; j < trial->day->stops->len; j++)
    if ((trial->in_play >> j & 1) != 0 && hs_day_get_stop (trial->day, j)->number == n + 1)
      return TRUE;
  return FALSE;
}

static void
try_next (Trial *trial, const Way *way, guint64 done, gint64 time, guint place)
{
  if (way->n == trial->n)
    {
      try_home (trial, *way, time, place);
      return;
    }
  for (guint i = 0; i < trial->day->stops->len; i++)
    {
      guint64 bit = G_GUINT64_CONSTANT (1) << i;

      if ((trial->in_play & bit) == 0 || (done & bit) != 0)
        continue;
      if ((hs_day_get_stop (trial->day, i)->after & trial->in_play & ~done) != 0 || is_locked_out (trial, i, way->n))
        continue;
      try_stop (trial, way, done, time, place, i);
    }
}

static gboolean
is_ever_open (const HsDayStop *stop)
{
  if (stop->spans->len == 0)
    return !stop->shut;
  for (guint k = 0; k < stop->spans->len; k++)
    {
      const HsDaySpan *span = &g_array_index (stop->spans, HsDaySpan, k);

      if (stop->kind == HS_DAY_STOP_CALL || span->from_seconds + stop->service_seconds <= span->to_seconds)
        return TRUE;
    }
  return FALSE;
}

/* Whether no break can be had before @leave. */
static gboolean
owes_break (const HsDay *day, gint64 leave)
{
  gint64 from = day->break_span.from_seconds;
  gint64 begun = MAX (day->leave_from_seconds, from);

  if (day->break_seconds == 0)
    return FALSE;
  if (!day->under_way)
    return leave < from + day->break_seconds;
  return begun + day->break_seconds > day->break_span.to_seconds || leave < begun + day->break_seconds;
}

static void
try_leaves (Trial *trial)
{
  const HsDay *day = trial->day;

  for (gint64 leave = day->leave_from_seconds; leave <= day->leave_to_seconds; leave += trial->grid)
    {
      Way way = { 0 };

      way.leave = leave;
      way.owes = owes_break (day, leave);
      way.break_after = HS_PLAN_NO_BREAK;
      way.spare = HS_PLAN_NO_LIMIT;
      if (trial->n > 0)
        {
          try_next (trial, &way, 0, leave, day->start_place);
          continue;
        }
      way.home = leave;
      if (day->under_way)
        {
          way.drive = leg_seconds (day, day->start_place, day->end_place);
          way.millimiles = leg_millimiles (day, day->start_place, day->end_place);
          way.home = leave + way.drive;
        }
      trial->best = way;
      return;
    }
}

static void
try_all (Trial *trial)
{
  for (guint i = 0; i < trial->day->stops->len; i++)
    if (is_ever_open (hs_day_get_stop (trial->day, i)))
      {
        trial->in_play |= G_GUINT64_CONSTANT (1) << i;
        trial->n++;
      }
  trial->locks = TRUE;
  try_leaves (trial);
  if (trial->found || trial->n == 0)
    return;
  trial->locks = FALSE;
  try_leaves (trial);
}

/* Every number of a random day is a whole number of grid steps. */
static gint32
steps (GRand *rand, int from, int to, gint64 grid)
{
  return (gint32) (g_rand_int_range (rand, from, to + 1) * grid);
}

static void
random_legs (HsDay *day, GRand *rand, gint64 grid)
{
  int longest = g_rand_int_range (rand, 2, 13);
  gboolean same = g_rand_int_range (rand, 0, 4) == 0;

  for (guint from = 0; from < day->n_places; from++)
    for (guint to = 0; to < day->n_places; to++)
      {
        gint32 seconds = steps (rand, 0, longest, grid);

        hs_day_set_leg (day, from, to, seconds, same ? seconds * 10 : g_rand_int_range (rand, 0, 30) * 100);
      }
}

static void
random_spans (HsDay *day, GRand *rand, guint stop, gint64 grid)
{
  int n = g_rand_int_range (rand, 0, 8);
  int from = g_rand_int_range (rand, 0, 50);

  n = n == 0 ? 0 : n < 5 ? 1 : n < 7 ? 2 : 3;
  for (int k = 0; k < n; k++)
    {
      int to = from + g_rand_int_range (rand, 0, n == 1 ? 60 : 25);

      hs_day_add_span (day, stop, (gint32) (from * grid), (gint32) (to * grid));
      from = to + g_rand_int_range (rand, 1, 15);
    }
}

static void
random_stop (HsDay *day, GRand *rand, guint i, gint64 grid)
{
  g_autofree char *id = g_strdup_printf ("%c%u", "QACZB"[g_rand_int_range (rand, 0, 5)], (i * 5 + 3) % 7);
  HsDayStopKind kind = g_rand_int_range (rand, 0, 3) == 0 ? HS_DAY_STOP_COUNTER : HS_DAY_STOP_CALL;
  guint place = (guint) g_rand_int_range (rand, 0, (int) day->n_places);

  hs_day_add_stop (day, id, kind, place, steps (rand, 0, 8, grid));
  random_spans (day, rand, i, grid);
  if (kind == HS_DAY_STOP_COUNTER && hs_day_get_stop (day, i)->spans->len == 0 && g_rand_boolean (rand))
    ((HsDayStop *) g_ptr_array_index (day->stops, i))->shut = TRUE;
  if (i > 0 && g_rand_int_range (rand, 0, 3) == 0)
    hs_day_add_after (day, i, (guint) g_rand_int_range (rand, 0, (int) i));
  if (g_rand_int_range (rand, 0, 8) == 0)
    hs_day_lock_stop (day, i, (guint) g_rand_int_range (rand, 1, 7));
}

static void
random_break (HsDay *day, GRand *rand, gint64 grid)
{
  gint32 from = steps (rand, 0, 60, grid);

  if (g_rand_int_range (rand, 0, 5) < 3)
    return;
  day->break_seconds = steps (rand, 1, 12, grid);
  day->break_span = (HsDaySpan){ from, from + day->break_seconds + steps (rand, 0, 30, grid) };
  day->under_way = g_rand_int_range (rand, 0, 4) == 0;
}

static HsDay *
random_day (GRand *rand, gint64 *ret_grid)
{
  static const gint64 grids[] = { 1, 7, 60, 300, 450 };
  static const gint64 minute_rates[] = { 160, 160, 97, 1, 0 };
  static const gint64 mile_rates[] = { 42, 42, 33, 0 };
  gint64 grid = grids[g_rand_int_range (rand, 0, G_N_ELEMENTS (grids))];
  HsDay *day = hs_day_new ((guint) g_rand_int_range (rand, 1, 7));
  guint n = (guint) g_rand_int_range (rand, 0, 28);

  n = n < 1 ? 0 : n < 3 ? 1 : n < 6 ? 2 : n < 11 ? 3 : n < 17 ? 4 : n < 22 ? 5 : n < 26 ? 6 : 7;
  random_legs (day, rand, grid);
  day->start_place = (guint) g_rand_int_range (rand, 0, (int) day->n_places);
  day->end_place = (guint) g_rand_int_range (rand, 0, (int) day->n_places);
  day->leave_from_seconds = steps (rand, 0, 20, grid);
  day->leave_to_seconds = day->leave_from_seconds + steps (rand, 0, n < 7 ? 20 : 8, grid);
  day->home_by_seconds = steps (rand, g_rand_int_range (rand, 0, 3) == 0 ? 30 : 100, 140, grid);
  day->minute_cents = minute_rates[g_rand_int_range (rand, 0, G_N_ELEMENTS (minute_rates))];
  day->mile_cents = mile_rates[g_rand_int_range (rand, 0, G_N_ELEMENTS (mile_rates))];
  day->spare_seconds = g_rand_boolean (rand) ? 0 : steps (rand, 0, 30, grid);
  for (guint i = 0; i < n; i++)
    random_stop (day, rand, i, grid);
  random_break (day, rand, grid);
  *ret_grid = grid;
  return day;
}

static void
assert_stops (const HsDay *day, const HsPlan *plan, const Way *way)
{
  gint64 time = way->leave;
  gint64 wait = 0;

  g_assert_cmpuint (plan->stops->len, ==, way->n);
  for (guint k = 0; k < way->n; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);
      const HsDayStop *source = hs_day_get_stop (day, way->order[k]);

      g_assert_cmpuint (stop->stop, ==, way->order[k]);
      g_assert_cmpint (stop->arrive_seconds, ==, way->arrive[k]);
      g_assert_cmpint (stop->start_seconds, ==, way->start[k]);
      g_assert_cmpint (stop->wait_seconds, ==, way->start[k] - way->arrive[k]);
      g_assert_cmpint (stop->drive_seconds, ==, way->arrive[k] - time);
      g_assert_cmpint (stop->depart_seconds, ==, way->start[k] + source->service_seconds);
      g_assert_cmpint (stop->slack_seconds, ==, way->slack[k]);
      g_assert_cmpint (stop->late_seconds, ==, way->late[k]);
      time = stop->depart_seconds;
      wait += stop->wait_seconds;
      if (way->break_after != (int) k)
        continue;
      g_assert_cmpint (plan->break_start_seconds, ==, way->break_start);
      g_assert_cmpint (plan->break_end_seconds, ==, way->break_start + day->break_seconds);
      wait += way->break_start - time;
      time = plan->break_end_seconds;
    }
  g_assert_cmpint (plan->wait_seconds, ==, wait);
}

static const HsPlanBroken *
find_broken (const HsPlan *plan, int stop)
{
  for (guint i = 0; i < plan->broken->len; i++)
    if (hs_plan_get_broken (plan, i)->stop == stop)
      return hs_plan_get_broken (plan, i);
  return NULL;
}

/* Each late stop, each stop that never opens and each that hangs on one is named; nothing else is. */
static void
assert_broken (const Trial *trial, const HsPlan *plan)
{
  const Way *way = &trial->best;
  guint expected = way->home_late > 0;

  for (guint k = 0; k < way->n; k++)
    if (way->late[k] > 0)
      g_assert_nonnull (find_broken (plan, (int) way->order[k]));
  for (guint i = 0; i < trial->day->stops->len; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (trial->day, i);
      gboolean lost = (trial->in_play & (G_GUINT64_CONSTANT (1) << i)) == 0 || (stop->after & ~trial->in_play) != 0;

      g_assert_false (lost && find_broken (plan, (int) i) == NULL);
      expected += lost;
    }
  if (way->break_late > 0)
    g_assert_cmpint (find_broken (plan, HS_DAY_BREAK)->late_seconds, ==, way->break_late);
  expected += way->broken;
  for (guint k = 0; k < way->n; k++)
    {
      guint number = hs_day_get_stop (trial->day, way->order[k])->number;

      expected += number > 0 && number != k + 1;
    }
  g_assert_cmpuint (plan->broken->len, ==, expected);
  for (guint i = 0; i < plan->broken->len; i++)
    g_assert_cmpint ((int) strlen (hs_plan_get_broken (plan, i)->why), >, 5);
  if (way->home_late > 0)
    g_assert_cmpint (find_broken (plan, HS_DAY_NO_STOP)->late_seconds, ==, way->home_late);
  g_assert_cmpint (plan->status, ==, expected > 0 ? HS_PLAN_IMPOSSIBLE : HS_PLAN_OPTIMAL);
}

static void
assert_same (const Trial *trial, const HsPlan *plan)
{
  const Way *way = &trial->best;

  g_assert_true (plan->proven);
  g_assert_cmpint (plan->leave_seconds, ==, way->leave);
  g_assert_cmpint (plan->home_seconds, ==, way->home);
  g_assert_cmpint (plan->break_after, ==, way->break_after);
  g_assert_cmpint (plan->break_late_seconds, ==, way->break_late);
  assert_stops (trial->day, plan, way);
  g_assert_cmpint (plan->drive_seconds, ==, way->drive);
  g_assert_cmpint (plan->drive_millimiles, ==, way->millimiles);
  g_assert_cmpint (plan->spare_seconds, ==, way->spare);
  g_assert_cmpint (plan->cost_units * 20, ==, way_cost (trial->day, way));
  g_assert_cmpint (plan->cost_cents, ==, (way_cost (trial->day, way) + 30000) / 60000);
  assert_broken (trial, plan);
}

static void
print_day (const Trial *trial)
{
  const HsDay *day = trial->day;
  const Way *way = &trial->best;

  g_test_message ("grid %d leave %d-%d home by %d rates %d %d spare %d from %u to %u", (int) trial->grid,
                  day->leave_from_seconds, day->leave_to_seconds, day->home_by_seconds, (int) day->minute_cents,
                  (int) day->mile_cents, day->spare_seconds, day->start_place, day->end_place);
  g_test_message ("  break %d in %d-%d under way %d", day->break_seconds, day->break_span.from_seconds,
                  day->break_span.to_seconds, day->under_way);
  g_test_message ("  trial: break after %d", way->break_after);
  for (guint k = 0; k < way->n; k++)
    g_test_message ("  trial: %u start %d late %d", way->order[k], (int) way->start[k], (int) way->late[k]);
  g_test_message ("  trial: leave %d home %d spare %d cost %" G_GINT64_FORMAT, (int) way->leave, (int) way->home,
                  (int) way->spare, way_cost (day, way) / 60000);
}

static void
print_plan (const HsPlan *plan)
{
  g_test_message ("  plan: break after %d", plan->break_after);
  for (guint k = 0; k < plan->stops->len; k++)
    g_test_message ("  plan: %u start %d late %d", hs_plan_get_stop (plan, k)->stop,
                    hs_plan_get_stop (plan, k)->start_seconds, hs_plan_get_stop (plan, k)->late_seconds);
  g_test_message ("  plan: leave %d home %d spare %d cost %" G_GINT64_FORMAT, plan->leave_seconds, plan->home_seconds,
                  plan->spare_seconds, plan->cost_cents);
}

static gboolean
is_other (const HsPlan *plan, const Way *way)
{
  for (guint k = 0; k < MIN (plan->stops->len, way->n); k++)
    if (hs_plan_get_stop (plan, k)->stop != way->order[k])
      return TRUE;
  return plan->home_seconds != way->home || plan->leave_seconds != way->leave || plan->stops->len != way->n
         || plan->break_after != way->break_after;
}

static gboolean
has_lock (const Trial *trial)
{
  for (guint k = 0; k < trial->best.n; k++)
    if (hs_day_get_stop (trial->day, trial->best.order[k])->number > 0)
      return TRUE;
  return FALSE;
}

static void
test_every_order (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260310);
  guint impossible = 0;
  guint short_of_spare = 0;
  guint locked = 0;
  guint unlocked = 0;
  guint rested = 0;
  guint unrested = 0;

  for (guint number = 0; number < DAYS; number++)
    {
      g_autoptr (HsPlan) plan = NULL;
      g_autoptr (GError) error = NULL;
      gint64 grid = 1;
      g_autoptr (HsDay) day = random_day (rand, &grid);
      Trial trial = { day, grid };

      try_all (&trial);
      hs_plan_solve (day, NULL, NULL, &plan, &error);
      g_assert_no_error (error);
      if (is_other (plan, &trial.best))
        {
          g_test_message ("day %u", number);
          print_day (&trial);
          print_plan (plan);
        }
      assert_same (&trial, plan);
      locked += trial.locks && has_lock (&trial);
      unlocked += !trial.locks;
      rested += trial.best.break_after >= 0;
      unrested += trial.best.break_late > 0;
      impossible += plan->status == HS_PLAN_IMPOSSIBLE;
      short_of_spare += plan->status == HS_PLAN_OPTIMAL && plan->spare_seconds < day->spare_seconds;
    }
  g_test_message ("%u impossible, %u short of spare, of %u", impossible, short_of_spare, DAYS);
  g_assert_cmpuint (impossible, >, 300);
  g_assert_cmpuint (DAYS - impossible, >, 300);
  g_assert_cmpuint (short_of_spare, >, 50);
  g_assert_cmpuint (locked, >, 300);
  g_assert_cmpuint (unlocked, >, 50);
  g_assert_cmpuint (rested, >, 300);
  g_assert_cmpuint (unrested, >, 50);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/exhaustive/every-order", test_every_order);
  return g_test_run ();
}
