// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is still to come of a day, against going on in every way from every stop. */

#include "hs-solve-outlook.h"

#include "plan-text-day.h"
#include "random-day.h"

#define ROOM 4000000
#define NEVER G_MAXINT64
#define PATIENT { NULL, NULL, 1000000, FALSE, FALSE, 0 }

static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;

static const RandomKind kinds[] = {
  { "calls-alone", 100, 5, 0, 1, 5, 240, 0, TRUE },
  { "narrow", 100, 5, 1, 1, 5, 90, 0, TRUE },
  { "counters", 60, 4, 2, 1, 5, 300, 0, TRUE },
  { "no-metric", 60, 4, 2, 1, 5, 300, 0, FALSE },
  { "breaks", 60, 4, 1, 1, 5, 300, 80, TRUE },
  { "breaks-no-metric", 30, 3, 2, 1, 5, 300, 80, FALSE },
  { "two-vans", 40, 4, 1, 2, 5, 300, 30, TRUE },
  { "nights", 40, 4, 1, 1, 5, 240, 50, TRUE, FALSE, TRUE },
};

/* @slack: how far it may be below the truth; -1: it need not be near
 * @n_asked, @n_near: how often it was asked, and was to be near */
typedef struct
{
  const HsSolveFrame *frame;
  const HsOutlook *outlook;
  const gint64 *prizes;
  gint64 slack;
  guint n_asked;
  guint n_near;
} Trying;

static gint64 least_from (Trying *trying, const HsStep *step, guint64 calls);

static gint64
least_of (Trying *trying, const HsStep *next, guint n, guint64 calls)
{
  gint64 least = HS_SOLVE_NO_UNITS;

  for (guint k = 0; k < n; k++)
    least = MIN (least, least_from (trying, &next[k], calls));
  return least;
}

/* What the day costs at least that goes on with one more stop after @step, over the prizes of the calls that come. */
static gint64
least_after (Trying *trying, const HsStep *step, guint64 calls)
{
  const HsSolveFrame *frame = trying->frame;
  HsStep next[HS_STEP_MAX_NEXT];
  gint64 least = HS_SOLVE_NO_UNITS;
  guint n;

  for (guint i = 0; i < frame->n_calls; i++)
    {
      gint64 one;

      if ((calls >> i & 1) != 0)
        continue;
      n = hs_step_call (frame, &strict, step, i, next);
      one = least_of (trying, next, n, calls | G_GUINT64_CONSTANT (1) << i);
      if (one < HS_SOLVE_NO_UNITS)
        least = MIN (least, one - trying->prizes[i]);
    }
  for (guint c = 0; c < frame->n_counters; c++)
    {
      n = hs_step_counter (frame, step, c, next);
      least = MIN (least, least_of (trying, next, n, calls));
    }
  n = hs_step_break (frame, step, next);
  return MIN (least, least_of (trying, next, n, calls));
}

static gint64
least_from (Trying *trying, const HsStep *step, guint64 calls)
{
  gint64 least = least_after (trying, step, calls);
  gint64 said = hs_solve_outlook_least (trying->outlook, step->last, &calls, step->seen, step->ready,
                                        hs_step_flat (trying->frame, step), hs_step_slope (trying->frame, step));
  HsClose close;

  if (hs_step_close (trying->frame, &strict, step, &close))
    least = MIN (least, close.units);
  g_assert_cmpint (said, <=, least);
  trying->n_asked++;
  if (trying->slack >= 0 && least < HS_SOLVE_NO_UNITS)
    {
      g_assert_cmpint (said, >=, least - trying->slack);
      trying->n_near++;
    }
  return least;
}

/* The best trip of at least one stop. */
static gint64
least_trip (Trying *trying, guint van)
{
  HsStep begin[2];
  guint n = hs_step_begin (trying->frame, &strict, van, begin);
  gint64 least = HS_SOLVE_NO_UNITS;

  for (guint b = 0; b < n; b++)
    least = MIN (least, least_after (trying, &begin[b], 0));
  return least;
}

/* Units on board that are counted count as enough; but for that only the seconds of a step are lost, and only where
 * there is waiting, for all times of these days are whole steps. */
static gint64
slack_of (const HsSolveFrame *frame, const HsOutlook *outlook, guint van)
{
  gint64 stops = frame->n_nodes + 2;

  for (guint p = 0; p < frame->problem->parts->len; p++)
    if (frame->parts[p].counted[van])
      return -1;
  return stops * hs_solve_outlook_width (outlook) * frame->second_units + stops * HS_COST_UNITS;
}

static void
assert_least (const HsSolveFrame *frame, guint van, const gint64 *prizes, gsize max_cells, gboolean near, Trying *sums)
{
  g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, van, NULL, 0, max_cells);
  HsExact exact = PATIENT;
  guint visits[HS_PROBLEM_MAX_CALLS];
  Trying trying = { frame, outlook, prizes, -1, 0, 0 };
  gint64 least;
  gint64 said;

  if (outlook == NULL)
    return;
  g_assert_cmpuint (hs_solve_outlook_cells (outlook), <=, max_cells + 1);
  g_assert_true (hs_solve_outlook_fill (outlook, &exact, prizes));
  if (near)
    trying.slack = slack_of (frame, outlook, van);
  least = least_trip (&trying, van);
  said = hs_solve_outlook_root (outlook, visits);
  g_assert_cmpint (said, <=, least);
  if (trying.slack >= 0 && least < HS_SOLVE_NO_UNITS)
    g_assert_cmpint (said, >=, least - trying.slack);
  for (guint i = 0; i < frame->n_calls; i++)
    g_assert_cmpuint (visits[i], <=, near ? 1 : 100);
  sums->n_asked += trying.n_asked;
  sums->n_near += trying.n_near;
}

/* A minute that lasts 37 seconds: a drive is no whole number of steps then. */
#define ODD(seconds) ((seconds) / 60 * 37)

static void
make_odd_spans (GArray *spans)
{
  for (guint i = 0; i < spans->len; i++)
    {
      HsDaySpan *span = &g_array_index (spans, HsDaySpan, i);

      *span = (HsDaySpan){ ODD (span->from_seconds), ODD (span->to_seconds) };
    }
}

static void
make_odd (HsProblem *problem)
{
  for (guint i = 0; i < problem->drive_seconds->len; i++)
    g_array_index (problem->drive_seconds, gint32, i) = ODD (g_array_index (problem->drive_seconds, gint32, i));
  for (guint v = 0; v < problem->vans->len; v++)
    {
      HsVan *van = g_ptr_array_index (problem->vans, v);

      van->leave_from_seconds = ODD (van->leave_from_seconds);
      van->leave_to_seconds = ODD (van->leave_to_seconds);
      van->home_by_seconds = ODD (van->home_by_seconds);
      van->break_seconds = ODD (van->break_seconds);
      van->break_span = (HsDaySpan){ ODD (van->break_span.from_seconds), ODD (van->break_span.to_seconds) };
    }
  for (guint i = 0; i < problem->calls->len; i++)
    {
      HsCall *call = g_ptr_array_index (problem->calls, i);

      call->service_seconds = ODD (call->service_seconds);
      make_odd_spans (call->windows);
    }
  for (guint c = 0; c < problem->counters->len; c++)
    {
      HsCounter *counter = g_ptr_array_index (problem->counters, c);

      counter->service_seconds = ODD (counter->service_seconds);
      make_odd_spans (counter->hours);
    }
}

static void
assert_odd_least (HsProblem *problem, const gint64 *prizes, Trying *sums)
{
  g_autoptr (HsSolveFrame) frame = NULL;

  make_odd (problem);
  frame = text_frame (problem);
  for (guint van = 0; van < problem->vans->len; van++)
    {
      assert_least (frame, van, prizes, ROOM, FALSE, sums);
      assert_least (frame, van, prizes, 3000, FALSE, sums);
    }
}

static void
test_kind (gconstpointer data)
{
  const RandomKind *kind = data;
  Trying all = { NULL };
  Trying few = { NULL };
  Trying odd = { NULL };

  for (guint32 seed = 0; seed < kind->days; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = random_day (rand, kind);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      gint64 prizes[HS_PROBLEM_MAX_CALLS];

      hs_solve_frame_trim (frame, problem->spare_seconds);
      for (guint i = 0; i < frame->n_calls; i++)
        prizes[i] = (gint64) g_rand_int_range (rand, -500, 30000) * HS_COST_UNITS;
      for (guint van = 0; van < kind->vans; van++)
        {
          assert_least (frame, van, prizes, ROOM, TRUE, &all);
          assert_least (frame, van, prizes, 3000, FALSE, &few);
        }
      assert_odd_least (problem, prizes, &odd);
    }
  g_assert_cmpuint (all.n_asked, >, 1000);
  g_assert_cmpuint (all.n_near, >, 200);
  g_assert_cmpuint (few.n_asked, >, 200);
  g_assert_cmpuint (odd.n_asked, >, 1000);
}

#define LINE "minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; cost 1 0; van a 0 0 08:00-17:00"

/* What is still to come after @at, free at @ready, away since then; money in cents. */
static const struct
{
  const char *day;
  guint at;
  guint64 memory;
  guint32 seen;
  const char *ready;
  gint64 cents;
} rows[] = {
  /* Home; a call worth less than the way is left out. */
  { LINE "; call A 1 30; call B 3 1", 0, 1, 0, "09:00", 10 },
  /* On to B: 10 there, 20 of work, 20 home, and 100 for it. */
  { LINE "; call A 1 30; call B 2 20", 0, 1, 0, "09:00", 10 + 20 + 20 - 100 },
  /* B has been done. */
  { LINE "; call A 1 30; call B 2 20", 0, 3, 0, "09:00", 10 },
  /* Too late for B. */
  { LINE "; call A 1 30; call B 2 20 08:00-09:09", 0, 1, 0, "09:00", 10 },
  /* 20 of waiting for it, all but a second. */
  { LINE "; call A 1 30; call B 2 20 09:30-10:00", 0, 1, 0, "09:00", 10 + 20 + 20 + 20 - 100 },
  /* Its part is bought at C, on the way. */
  { LINE "; call A 1 30; call B 3 10 needs x; counter C 2 5 08:00-17:00 sells x=7", 0, 1, 0, "09:00",
    10 + 5 + 10 + 10 + 30 + 7 - 100 },
  /* C is shut. */
  { LINE "; call A 1 30; call B 3 10 needs x; counter C 2 5 08:00-09:14 sells x=7", 0, 1, 0, "09:00", 10 },
  /* The van has been at C. */
  { LINE "; call A 1 30; call B 3 10 needs x; counter C 2 5 08:00-09:14 sells x=7", 0, 1, 1, "09:00",
    20 + 10 + 30 + 7 - 100 },
  /* The break is still owed, for it would be too late for it at home, and had. */
  { LINE " break 30 12:00-13:00; call A 1 30; call B 2 20", 0, 3, 0, "12:25", 30 + 10 },
  { LINE " break 30 12:00-13:00; call A 1 30; call B 2 20", 0, 3, HS_SOLVE_HAD_BREAK, "12:25", 10 },
  /* It can't be had any more. */
  { LINE " break 30 12:00-13:00; call A 1 30; call B 2 20", 0, 3, 0, "12:31", NEVER },
  { LINE "; call A 1 30; call B 2 20", 0, 3, 0, "16:51", NEVER },
};

static void
test_rows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProblem) problem = text_day (rows[i].day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, 0, NULL, 0, ROOM);
      const gint64 prizes[] = { 100 * HS_COST_UNITS, 100 * HS_COST_UNITS };
      gint32 ready = text_clock (rows[i].ready);
      HsExact exact = PATIENT;
      gint64 least;

      g_test_message ("row %u", i);
      g_assert_true (hs_solve_outlook_fill (outlook, &exact, i == 0 ? (gint64[]){ 0, 40 * HS_COST_UNITS } : prizes));
      least = hs_solve_outlook_least (outlook, rows[i].at, &rows[i].memory, rows[i].seen, ready, 0,
                                      -ready * frame->second_units);
      if (rows[i].cents == NEVER)
        {
          g_assert_cmpint (least, ==, HS_SOLVE_NO_UNITS);
          continue;
        }
      g_assert_cmpint (least, <=, rows[i].cents * HS_COST_UNITS);
      g_assert_cmpint (least, >,
                       rows[i].cents * HS_COST_UNITS - hs_solve_outlook_width (outlook) * frame->second_units);
    }
}

/* A van that may leave later need not wait. */
static void
test_leaves_later (void)
{
  g_autoptr (HsProblem) problem = text_day (LINE "; call A 1 30; call B 2 20 09:30-10:00");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, 0, NULL, 0, ROOM);
  const gint64 prizes[] = { 0, 100 * HS_COST_UNITS };
  gint32 ready = text_clock ("09:00");
  guint64 memory = 1;
  HsExact exact = PATIENT;

  g_assert_true (hs_solve_outlook_fill (outlook, &exact, prizes));
  for (gint32 later = 0; later <= 1800; later += 600)
    {
      gint64 least = hs_solve_outlook_least (outlook, 0, &memory, 0, ready, 0, -(ready + later) * frame->second_units);
      gint64 true_least = (10 + MAX (0, 1200 - later) / 60 + 20 + 20 - 100) * HS_COST_UNITS;

      g_assert_cmpint (least, <=, true_least);
      g_assert_cmpint (least, >, true_least - hs_solve_outlook_width (outlook) * frame->second_units);
    }
}

/* What is not remembered may come again, and is served again. */
static void
test_near (void)
{
  g_autoptr (HsProblem) problem
      = text_day ("minutes 0 1 1 / 1 0 1 / 1 1 0; cost 1 0; van a 0 0 08:00-09:00; call A 1 5; call B 2 5");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  const gint64 prizes[] = { 1000 * HS_COST_UNITS, 1000 * HS_COST_UNITS };
  const guint64 none[] = { 0, 0 };
  const guint64 both[] = { 3, 3 };
  HsExact exact = PATIENT;

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, 0, i == 0 ? none : both, 1, ROOM);
      guint visits[2];
      gint64 least;

      g_assert_true (hs_solve_outlook_fill (outlook, &exact, prizes));
      least = hs_solve_outlook_root (outlook, visits);
      g_assert_cmpint (visits[0] + visits[1] > 2, ==, i == 0);
      if (i == 1)
        g_assert_cmpint (least, ==, (1 + 5 + 1 + 5 + 1 - 2000) * HS_COST_UNITS);
    }
}

/* B is reached in time only by who has the break at C, from where it is 25 min: from A it is 60. Home after B at
 * 13:35. So it is however little room there is for the table. */
static void
test_break_place (void)
{
  g_autoptr (HsProblem) problem
      = text_day ("minutes 0 30 30 30 / 30 0 30 60 / 30 30 0 25 / 30 60 25 0; cost 1 0; "
                  "van a 0 0 08:00-17:00 break 30 12:00-12:45; call A 1 30; call B 3 10 12:40-13:00; "
                  "counter C 2 40 08:00-17:00 sells x=7");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  const gint64 prizes[] = { 0, 1000 * HS_COST_UNITS };
  gint32 ready = text_clock ("10:00");
  guint64 memory = 1;
  guint n_made = 0;

  g_assert_cmpuint (frame->short_cuts, ==, 0);
  for (gsize max_cells = 100; max_cells < ROOM; max_cells += max_cells / 4)
    {
      g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, 0, NULL, 0, max_cells);
      HsExact exact = PATIENT;

      if (outlook == NULL)
        continue;
      g_assert_true (hs_solve_outlook_fill (outlook, &exact, prizes));
      g_assert_cmpint (hs_solve_outlook_least (outlook, 0, &memory, 0, ready, 0, -ready * frame->second_units), <=,
                       (215 - 1000) * HS_COST_UNITS);
      n_made++;
    }
  g_assert_cmpuint (n_made, >, 10);
}

static gboolean
give_up (gpointer data)
{
  (*(guint *) data)++;
  return TRUE;
}

/* Where it can't be done it says so. */
static void
test_refuses (void)
{
  g_autoptr (HsProblem) timeless = text_day (LINE "; call A 1 30; call B 1 0");
  g_autoptr (HsSolveFrame) timeless_frame = text_frame (timeless);
  g_autoptr (HsProblem) problem = text_busy_day (12, 1);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, 0, NULL, 0, ROOM);
  gint64 prizes[12] = { 0 };
  guint asked = 0;
  HsExact exact = { give_up, &asked, 1000000, FALSE, FALSE, 0 };

  hs_problem_set_leg (timeless, 1, 1, 0, 0);
  g_assert_null (hs_solve_outlook_new (timeless_frame, 0, NULL, 0, ROOM));
  g_assert_null (hs_solve_outlook_new (frame, 0, NULL, 0, 10));
  g_assert_false (hs_solve_outlook_fill (outlook, &exact, prizes));
  g_assert_cmpuint (asked, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-outlook/%s", kinds[i].name);

      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  g_test_add_func ("/plan/solve-outlook/rows", test_rows);
  g_test_add_func ("/plan/solve-outlook/leaves-later", test_leaves_later);
  g_test_add_func ("/plan/solve-outlook/near", test_near);
  g_test_add_func ("/plan/solve-outlook/break-place", test_break_place);
  g_test_add_func ("/plan/solve-outlook/refuses", test_refuses);
  return g_test_run ();
}
