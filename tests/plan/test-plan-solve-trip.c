// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The trip that is worth most to one van, against driving every order of every choice of calls. */

#include "hs-solve-trip.h"

#include "plan-text-day.h"
#include "random-day.h"

#define WORK 2000000000
#define PATIENT { NULL, NULL, 1000000, FALSE, FALSE, 0 }

static const RandomKind kinds[] = {
  { "calls-alone", 60, 5, 0, 1, 5, 240, 0, TRUE },
  { "counters", 60, 4, 2, 1, 5, 300, 0, TRUE },
  { "no-metric", 60, 4, 2, 1, 5, 300, 0, FALSE },
  { "breaks", 60, 4, 1, 1, 5, 300, 80, TRUE },
  { "breaks-no-metric", 60, 4, 2, 1, 5, 300, 80, FALSE },
  { "two-vans", 40, 4, 1, 2, 5, 300, 30, TRUE },
};

typedef struct
{
  const HsSolveFrame *frame;
  const gint64 *prizes;
  guint van;
  guint8 calls[HS_PROBLEM_MAX_CALLS];
  gint64 least;
} Trying;

static void
try_orders (Trying *trying, guint n, gint64 prize)
{
  const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  HsClose close;
  HsDrive drive;

  if (n > 0 && hs_solve_drive (trying->frame, &strict, trying->van, trying->calls, n, &close, &drive))
    trying->least = MIN (trying->least, close.units - prize);
  for (guint i = 0; i < trying->frame->n_calls; i++)
    {
      gboolean had = FALSE;

      for (guint k = 0; k < n; k++)
        had = had || trying->calls[k] == i;
      if (had)
        continue;
      trying->calls[n] = (guint8) i;
      try_orders (trying, n + 1, prize + trying->prizes[i]);
    }
}

/* That what is said to come of a trip does. */
static void
assert_trips (const HsSolveFrame *frame, const gint64 *prizes, const GArray *found, gint64 below)
{
  for (guint i = 0; i < found->len; i++)
    {
      const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
      const HsTrip *trip = &g_array_index (found, HsTrip, i);
      gint64 over = trip->units;
      HsClose close;
      HsDrive drive;

      g_assert_cmpuint (trip->n_calls, >, 0);
      for (guint k = 0; k < trip->n_calls; k++)
        over -= prizes[trip->calls[k]];
      g_assert_cmpint (trip->over, ==, over);
      g_assert_cmpint (trip->over, <, below);
      g_assert_true (hs_solve_drive (frame, &strict, trip->van, trip->calls, trip->n_calls, &close, &drive));
      g_assert_cmpint (close.units, <=, trip->units);
    }
}

static void
assert_least (const HsSolveFrame *frame, guint van, const gint64 *prizes)
{
  g_autoptr (HsTrips) all = hs_solve_trips_new (frame, frame->n_calls, WORK);
  g_autoptr (HsTrips) few = hs_solve_trips_new (frame, 1, WORK);
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HsTrip));
  g_autoptr (GArray) others = g_array_new (FALSE, FALSE, sizeof (HsTrip));
  Trying trying = { frame, prizes, van };
  HsExact exact = PATIENT;
  gint64 least = 1;

  try_orders (&trying, 0, 0);
  g_assert_true (hs_solve_trips_run (all, &exact, van, prizes, 0, HS_TRIPS_WHOLE, &least, found));
  g_assert_cmpint (least, ==, trying.least);
  assert_trips (frame, prizes, found, 0);
  g_assert_cmpint (found->len > 0, ==, least < 0);
  g_assert_true (hs_solve_trips_run (few, &exact, van, prizes, 0, HS_TRIPS_WHOLE, &least, others));
  g_assert_cmpint (least, <=, trying.least);
  for (HsTripsCare care = HS_TRIPS_HASTY; care < HS_TRIPS_WHOLE; care++)
    {
      g_array_set_size (found, 0);
      g_assert_true (hs_solve_trips_run (all, &exact, van, prizes, -3000, care, &least, found));
      g_assert_cmpint (least, >=, trying.least);
      assert_trips (frame, prizes, found, -3000);
    }
}

static void
test_kind (gconstpointer data)
{
  const RandomKind *kind = data;
  guint n_worth = 0;

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
        assert_least (frame, van, prizes);
      n_worth++;
    }
  g_assert_cmpuint (n_worth, ==, kind->days);
}

/* A counter that was stopped at for nothing may be missing later: as a short cut, or as the place for the break. */
static void
test_spends_no_counter (void)
{
  static const struct
  {
    const char *day;
    gint64 minutes;
  } rows[] = {
    { "minutes 0 30 100 5 / 30 0 100 5 / 10 100 0 5 / 5 5 5 0; cost 1 0; van a 0 0 08:00-17:00; "
      "call A 1 10 08:00-08:40; call B 2 10 08:50-12:00; call D 0 0; counter C 3 0 08:00-17:00 sells x=1",
      70 },
    { "minutes 0 60 100 30 / 60 0 150 90 / 100 150 0 60 / 30 90 60 0; cost 1 0; "
      "van a 0 0 08:00-17:00 until 08:00 break 30 12:00-12:30; call D 1 5 10:00-10:00; "
      "call A 1 25 10:05-10:05; call B 2 30 13:30-13:30; counter C 3 0 08:00-17:00 sells x=1",
      460 },
  };
  const gint64 prizes[] = { 1000 * HS_COST_UNITS, 1000 * HS_COST_UNITS, 1000 * HS_COST_UNITS };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProblem) problem = text_day (rows[i].day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsTrips) trips = hs_solve_trips_new (frame, 3, WORK);
      g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HsTrip));
      HsExact exact = PATIENT;
      gint64 least;

      g_assert_true (hs_solve_trips_run (trips, &exact, 0, prizes, 0, HS_TRIPS_WHOLE, &least, found));
      g_assert_cmpint (least, ==, (rows[i].minutes - 3000) * HS_COST_UNITS);
    }
}

/* Two calls far from each other's memory: first served in turns, then not any more. */
static void
test_remind (void)
{
  g_autoptr (HsProblem) problem = text_day (
      "minutes 0 1 1 / 1 0 1 / 1 1 0; cost 1 0; van a 0 0 08:00-09:00; call A 1 5; call B 2 5");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsTrips) trips = hs_solve_trips_new (frame, 0, WORK);
  const gint64 prizes[] = { 3000000, 3000000 };
  HsExact exact = PATIENT;
  gint64 least;

  for (guint turn = 0; turn < 20; turn++)
    {
      g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HsTrip));
      gboolean reminded = FALSE;

      g_assert_true (hs_solve_trips_run (trips, &exact, 0, prizes, 0, HS_TRIPS_WHOLE, &least, found));
      if (turn == 0)
        g_assert_cmpint (least, <, -3 * 3000000);
      for (guint i = 0; i < found->len; i++)
        reminded |= hs_solve_trips_remind (trips, &g_array_index (found, HsTrip, i));
      g_assert_cmpint (reminded, ==, turn == 0);
      if (!reminded)
        break;
    }
  g_assert_cmpint (least, ==, (1 + 5 + 1 + 5 + 1) * HS_COST_UNITS - 6000000);
}

static gboolean
give_up (gpointer data)
{
  (*(guint *) data)++;
  return TRUE;
}

/* Told to stop, it says so and sets nothing. */
static void
test_cut (void)
{
  g_autoptr (HsProblem) problem = text_busy_day (40, 3);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsTrips) trips = hs_solve_trips_new (frame, 40, WORK);
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HsTrip));
  gint64 prizes[40];
  guint asked = 0;
  HsExact exact = { give_up, &asked, 1000000, FALSE, FALSE, 0 };
  gint64 least = 77;

  for (guint i = 0; i < 40; i++)
    prizes[i] = 20000 * HS_COST_UNITS;
  g_assert_false (hs_solve_trips_run (trips, &exact, 0, prizes, 0, HS_TRIPS_WHOLE, &least, found));
  g_assert_cmpuint (asked, ==, 1);
  g_assert_cmpint (least, ==, 77);
  g_assert_cmpuint (found->len, ==, 0);
}

/* So does a search that has compared as much as it may, over all runs. */
static void
test_work (void)
{
  g_autoptr (HsProblem) problem = text_busy_day (12, 3);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  gint64 prizes[12];
  guint n_runs[2] = { 0 };

  for (guint i = 0; i < 12; i++)
    prizes[i] = 20000 * HS_COST_UNITS;
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (HsTrips) trips = hs_solve_trips_new (frame, 12, i == 0 ? 5 : 50000000);
      g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HsTrip));
      HsExact exact = PATIENT;
      gint64 least = 77;

      while (n_runs[i] < 100000
             && hs_solve_trips_run (trips, &exact, 0, prizes, 0, HS_TRIPS_WHOLE, &least, found))
        n_runs[i]++;
      g_assert_false (exact.cut);
      g_assert_cmpint (least == 77, ==, n_runs[i] == 0);
    }
  g_assert_cmpuint (n_runs[0], ==, 0);
  g_assert_cmpuint (n_runs[1], >, 0);
  g_assert_cmpuint (n_runs[1], <, 100000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-trip/%s", kinds[i].name);

      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  g_test_add_func ("/plan/solve-trip/spends-no-counter", test_spends_no_counter);
  g_test_add_func ("/plan/solve-trip/remind", test_remind);
  g_test_add_func ("/plan/solve-trip/cut", test_cut);
  g_test_add_func ("/plan/solve-trip/work", test_work);
  return g_test_run ();
}
