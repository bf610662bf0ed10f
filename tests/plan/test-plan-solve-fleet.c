// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The floor under what a day costs: never above the best that trying everything finds, mostly close to it; and the
 * plans put together are plans. */

#include "hs-solve-fleet.h"

#include "hs-solve-large.h"
#include "plan-text-day.h"
#include "random-day.h"
#include "solve-trial.h"

#define WORK 2000000000
#define PATIENT { NULL, NULL, 1000000, FALSE, FALSE, 0 }

static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;

static const RandomKind kinds[] = {
  { "calls-alone", 150, 5, 0, 1, 5, 300, 0, TRUE },
  { "counters", 150, 4, 2, 1, 5, 300, 0, TRUE },
  { "three-counters", 40, 3, 3, 1, 5, 300, 0, TRUE },
  { "no-metric", 150, 4, 2, 1, 5, 300, 0, FALSE },
  { "breaks", 150, 4, 1, 1, 5, 300, 80, TRUE },
  { "two-vans", 150, 4, 1, 2, 5, 240, 30, TRUE },
  { "two-vans-no-metric", 80, 4, 1, 2, 5, 240, 30, FALSE },
  { "three-vans", 80, 4, 0, 3, 5, 200, 20, TRUE },
};

/* The floor of a day that can be kept, from any plan of it; FALSE if none was found. */
static gboolean
find_floor (const HsProblem *problem, gint64 *ret_floor, HsScore *ret_score)
{
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsExact exact = PATIENT;
  HsPath path = { 0 };
  HsScore before;

  hs_solve_frame_trim (frame, problem->spare_seconds);
  *ret_score = (HsScore) HS_SCORE_WORST;
  *ret_floor = 0;
  if (!hs_solve_large (&exact, frame, &strict, 20, 1, ret_score, &path))
    return FALSE;
  before = *ret_score;
  g_assert_cmpint (hs_solve_fleet (&exact, frame, &strict, WORK, ret_score, &path, ret_floor, NULL), ==,
                   hs_score_compare (ret_score, &before) < 0);
  text_assert_score (frame, ret_score, &path);
  return TRUE;
}

static void
test_kind (gconstpointer data)
{
  const RandomKind *kind = data;
  guint n_days = 0;
  guint n_met = 0;

  for (guint32 seed = 0; seed < kind->days; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = random_day (rand, kind);
      Trial best = trial_best (problem);
      HsScore score;
      gint64 floor;

      if (best.missed > 0 || best.spare < problem->spare_seconds || !find_floor (problem, &floor, &score))
        continue;
      g_assert_cmpint (floor, <=, best.units);
      g_assert_cmpint (score.units, >=, best.units);
      n_days++;
      n_met += floor == best.units;
    }
  g_test_message ("%s: %u days, %u met", kind->name, n_days, n_met);
  g_assert_cmpuint (n_days, >=, 8);
  g_assert_cmpuint (2 * n_met, >=, n_days);
}

/* A floor that is known already is only raised, and one that nothing is known of stays. */
static void
test_raises (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 20 / 10 0 10 / 20 10 0; cost 100 0; van a 0 0 08:00-17:00; "
                                            "van b 2 2 08:00-17:00; call A 1 30; call B 2 30");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  const gint64 cost = (30 + 30 + 20) * 100 * HS_COST_UNITS;
  static const struct
  {
    gint64 before;
    gboolean cut;
    gint64 after;
  } rows[] = {
    { 0, FALSE, (30 + 30 + 20) * 100 * HS_COST_UNITS },
    { 5, TRUE, 5 },
    { 0, TRUE, 0 },
    { (30 + 30 + 20) * 100 * HS_COST_UNITS, TRUE, (30 + 30 + 20) * 100 * HS_COST_UNITS },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsExact exact = PATIENT;
      HsPath path = { 0 };
      HsScore score = HS_SCORE_WORST;
      gint64 floor = rows[i].before;

      g_assert_true (hs_solve_large (&exact, frame, &strict, 50, 1, &score, &path));
      exact.cut = rows[i].cut;
      g_assert_cmpint (score.units, ==, cost);
      hs_solve_fleet (&exact, frame, &strict, WORK, &score, &path, &floor, NULL);
      g_assert_cmpint (floor, ==, rows[i].after);
    }
}

/* A poor plan is replaced by one put together of the trips that came up, and that is told. */
static void
note_path (const HsPath *path, gpointer data)
{
  *(HsPath *) data = *path;
}

static void
test_puts_together (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 30 30 / 30 0 55 / 30 55 0; cost 100 0; van a 1 1 08:00-17:00; "
                                            "van b 2 2 08:00-17:00; call A 1 30; call B 2 30");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  HsPath told = { 0 };
  HsExact exact = { .max_labels = 1000, .found = note_path, .found_data = &told };
  HsOrders poor = { { 1, 1 }, { { 1 }, { 0 } } };
  HsPath path;
  HsScore score;
  gint64 floor = 0;

  g_assert_true (hs_solve_orders_write (frame, &strict, &poor, &path, &score));
  g_assert_true (hs_solve_fleet (&exact, frame, &strict, WORK, &score, &path, &floor, NULL));
  g_assert_cmpint (score.units, ==, 60 * 100 * HS_COST_UNITS);
  g_assert_cmpint (floor, ==, score.units);
  g_assert_cmpuint (told.n_stops, ==, path.n_stops);
  text_assert_score (frame, &score, &path);
}

static gboolean
count_down (gpointer data)
{
  guint *left = data;

  return *left == 0 || --*left == 0;
}

/* Cut at any moment it leaves a plan, and a floor that is none too high. */
static void
test_cut (void)
{
  gint64 last = 0;

  for (guint asks = 1; asks < 400; asks = asks * 3 + 1)
    {
      g_autoptr (HsProblem) problem = text_day (
          "minutes 0 9 7 8 / 9 0 6 5 / 7 6 0 4 / 8 5 4 0; cost 160 42; van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; "
          "call A 1 30 08:00-10:00; call B 2 30 09:00-11:00; call C 3 40 08:30-10:00; call D 1 20 12:00-14:00; "
          "call E 2 45 13:00-15:00; call F 3 15 10:00-12:00");
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      HsExact patient = PATIENT;
      HsExact exact = { count_down, &asks, 1000000, FALSE, FALSE, 0 };
      HsPath path = { 0 };
      HsPath best_path;
      HsScore score = HS_SCORE_WORST;
      HsScore best = HS_SCORE_WORST;
      gint64 floor = 0;
      guint kept = asks;

      g_assert_true (hs_exact_run (&patient, frame, NULL, &strict, 0, &best, &best_path, NULL));
      g_assert_true (hs_solve_large (&patient, frame, &strict, 5, 1, &score, &path));
      hs_solve_fleet (&exact, frame, &strict, WORK, &score, &path, &floor, NULL);
      asks = kept;
      text_assert_score (frame, &score, &path);
      g_assert_cmpint (floor, <=, best.units);
      last = floor;
    }
  g_assert_cmpint (last, >, 0);
}

/* Two vans that differ in one thing only; what the second one can do for less is not overlooked for being like the
 * first. @poor: a plan that begins with, mostly of the first van alone */
static const struct
{
  const char *name;
  const char *day;
  const char *poor;
} others[] = {
  { "start", "van a 0 1 08:00-17:00; van b 1 1 08:00-17:00; call A 1 30", "A" },
  { "end", "van a 1 0 08:00-17:00; van b 1 1 08:00-17:00; call A 1 30", "A" },
  { "leave-from", "van a 0 0 08:40-17:00; van b 0 0 08:00-17:00; call A 2 10 09:00-09:05; "
    "call B 2 10 08:00-08:30 12:00-12:30", "A B" },
  { "leave-to", "van a 0 0 08:00-17:00 until 08:00; van b 0 0 08:00-17:00; call A 1 30 12:00-12:30", "A" },
  { "home-by", "van a 0 0 08:00-12:00 until 11:50; van b 0 0 08:00-17:00 until 11:50; call A 1 30 11:00-11:15; "
    "call B 1 10 08:00-08:10 12:00-12:30", "B A" },
  { "break-length", "van a 0 0 08:00-17:00 break 120 12:00-14:00; van b 0 0 08:00-17:00 break 30 12:00-14:00; "
    "call A 2 60 11:00-11:00; call B 2 60 12:30-13:00 15:00-15:30", "A break B" },
  { "break-from", "van a 0 0 08:00-17:00 break 30 12:30-14:00; van b 0 0 08:00-17:00 break 30 12:00-14:00; "
    "call A 2 60 11:00-11:00; call B 2 70 12:30-12:30 15:00-15:30", "A break B" },
  { "break-to", "van a 0 0 08:00-17:00 break 30 12:00-12:40; van b 0 0 08:00-17:00 break 30 12:00-14:00; "
    "call A 2 20 11:30-11:40; call B 2 60 12:00-12:05 15:00-15:30", "A break B" },
  { "carries", "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00 carries x; call A 1 30 needs x; "
    "counter C 1 5 08:00-17:00 sells x=500", "C A" },
  { "may-serve", "van a 0 0 08:00-17:00; van b 0 0 08:00-17:00; call A 2 30 12:00-12:30 van b; "
    "call B 1 30 11:00-11:30 16:00-16:20 van b", "/ A B" },
};

static void
test_other (gconstpointer data)
{
  guint row = GPOINTER_TO_UINT (data);
  g_autofree char *day = g_strconcat ("minutes 0 10 20 / 10 0 10 / 20 10 0; cost 100 0; ", others[row].day, NULL);
  g_autoptr (HsProblem) problem = text_day (day);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  Trial best = trial_best (problem);
  HsExact exact = PATIENT;
  HsOrders poor;
  HsPath path;
  HsScore score;
  gint64 floor = 0;

  hs_solve_frame_trim (frame, 0);
  text_path (frame, others[row].poor, "08:00 08:00", &path);
  hs_solve_orders_read (frame, &path, &poor);
  g_assert_true (hs_solve_orders_write (frame, &strict, &poor, &path, &score));
  g_assert_cmpint (score.units, >, best.units);
  hs_solve_fleet (&exact, frame, &strict, WORK, &score, &path, &floor, NULL);
  g_assert_cmpint (floor, <=, best.units);
  g_assert_cmpint (score.units, ==, best.units);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-fleet/%s", kinds[i].name);

      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  g_test_add_func ("/plan/solve-fleet/raises", test_raises);
  g_test_add_func ("/plan/solve-fleet/puts-together", test_puts_together);
  g_test_add_func ("/plan/solve-fleet/cut", test_cut);
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-fleet/other-%s", others[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_other);
    }
  return g_test_run ();
}
