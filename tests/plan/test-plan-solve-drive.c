// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calls in a given order: which counters and when the break are put in between, and that no order is missed. */

#include "hs-solve-drive.h"

#include "hs-solve-write.h"
#include "plan-text-day.h"

#define LINE4 "minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; cost 100 0; "
#define VAN "van a 0 0 08:00-17:00; "
#define SHOPS "counter C 1 10 08:00-12:00 sells x=500; counter D 3 5 08:00-17:00 sells x=100,y=100; "

/* @order: calls by id; @path: NULL if it can't be driven */
static const struct
{
  const char *day;
  HsSolveTerms terms;
  const char *order;
  const char *path;
  const char *leave;
  const char *home;
  gint64 cents;
  gint32 late;
} rows[] = {
  { LINE4 VAN "call A 1 30 09:00-10:00", HS_SOLVE_TERMS_STRICT, "A", "A", "08:50", "09:40", 5000, 0 },
  { LINE4 VAN "call A 1 30 09:00-10:00; call B 2 10 09:00-10:00", HS_SOLVE_TERMS_STRICT, "B A", "B A", "08:40", "10:00",
    8000, 0 },
  { LINE4 VAN "call A 1 30 09:00-09:10; call B 2 10 09:00-10:00", HS_SOLVE_TERMS_STRICT, "B A", NULL, "", "", 0, 0 },
  { LINE4 VAN "call A 1 30 09:00-09:10; call B 2 10 09:00-10:00", { FALSE, 1, 0, 600, 600 }, "B A", "B A", "08:40",
    "10:00", 8000, 10 },
  { LINE4 VAN "call A 1 30 09:00-09:10; call B 2 10 09:00-10:00", HS_SOLVE_TERMS_STRICT, "A B", "A B", "08:50", "10:10",
    8000, 0 },
  { LINE4 "van a 0 0 08:00-08:49; call A 1 30", HS_SOLVE_TERMS_STRICT, "A", NULL, "", "", 0, 0 },
  { LINE4 "van a 0 0 08:00-08:50; call A 1 30", HS_SOLVE_TERMS_STRICT, "A", "A", "08:00", "08:50", 5000, 0 },
  /* 40 min more would not pay for 400 cents. */
  { LINE4 VAN "call A 1 30 needs x; " SHOPS, HS_SOLVE_TERMS_STRICT, "A", "C A", "08:00", "09:00", 6500, 0 },
  { LINE4 VAN "call A 1 30 needs y; " SHOPS, HS_SOLVE_TERMS_STRICT, "A", "D A", "08:00", "09:35", 9600, 0 },
  /* Having to go there anyway, it buys the other there, too. */
  { LINE4 VAN "call A 1 30 needs y,x; " SHOPS, HS_SOLVE_TERMS_STRICT, "A", "D A", "08:00", "09:35", 9700, 0 },
  { LINE4 VAN "call A 1 30 08:20-08:30 needs x; call B 3 10 needs y; " SHOPS, HS_SOLVE_TERMS_STRICT, "A B", "C A D B",
    "08:00", "09:55", 11500 + 600, 0 },
  /* Only what the calls may need is looked at: nothing is bought that is on board. */
  { LINE4 "van a 0 0 08:00-17:00 carries x; call A 1 30 needs x; " SHOPS, HS_SOLVE_TERMS_STRICT, "A", "A", "08:00",
    "08:50", 5000, 0 },
  { LINE4 "van a 0 0 08:00-17:00 carries x; call A 1 30 needs x; call B 1 30 needs x; " SHOPS, HS_SOLVE_TERMS_STRICT,
    "A B", "C A B", "08:00", "09:30", 9500, 0 },
  { LINE4 VAN "call A 1 30 needs z; " SHOPS, HS_SOLVE_TERMS_STRICT, "A", NULL, "", "", 0, 0 },
  { LINE4 "van a 0 0 13:00-17:00; call A 1 30 needs x; counter C 1 10 08:00-12:00 sells x=500", HS_SOLVE_TERMS_STRICT,
    "A", NULL, "", "", 0, 0 },
  { LINE4 "van a 0 0 08:00-17:00 break 30 11:30-13:30; call A 1 60 11:00-11:00; call B 2 60 12:45-13:30",
    HS_SOLVE_TERMS_STRICT, "A B", "A break B", "10:50", "14:05", 19500, 0 },
  { LINE4 "van a 0 0 08:00-17:00 break 30 11:30-13:30; call A 1 60 11:00-11:00; call B 2 60 12:20-12:30",
    HS_SOLVE_TERMS_STRICT, "A B", NULL, "", "", 0, 0 },
  { LINE4 "van a 0 0 08:00-17:00 break 30 11:30-13:30; call A 1 60 10:50-10:50; call B 2 50 12:00-12:00",
    HS_SOLVE_TERMS_STRICT, "A B", "A B break", "10:40", "13:40", 18000, 0 },
  /* A counter that sells nothing of use is a short cut. */
  { "minutes 0 60 10 / 60 0 60 / 10 10 0; cost 100 0; " VAN "call A 1 30; counter C 2 5 08:00-17:00 sells x=1",
    HS_SOLVE_TERMS_STRICT, "A", "C A", "08:00", "09:55", 11500, 0 },
  /* Where it is of use later, it is not spent before. */
  { "minutes 0 30 100 5 / 30 0 100 5 / 10 100 0 5 / 5 5 5 0; cost 100 0; " VAN
    "call A 1 10; call B 2 10; counter C 3 0 08:00-17:00 sells x=1",
    HS_SOLVE_TERMS_STRICT, "A B", "A C B", "08:00", "09:10", 7000, 0 },
  /* As the place for the break, it is not spent before either. */
  { "minutes 0 60 100 30 / 60 0 150 90 / 100 150 0 60 / 30 90 60 0; cost 100 0; "
    "van a 0 0 08:00-17:00 until 08:00 break 30 12:00-12:30; call A 1 30 10:00-10:00; call B 2 30 13:30-13:30; "
    "counter C 3 0 08:00-17:00 sells x=1",
    HS_SOLVE_TERMS_STRICT, "A B", "A C break B", "08:00", "15:40", 46000, 0 },
  { LINE4 VAN "call A 1 30", HS_SOLVE_TERMS_STRICT, "", "", "08:00", "08:00", 0, 0 },
};

static guint
read_order (const HsSolveFrame *frame, const char *text, guint8 *ret_calls)
{
  HsPath path;

  text_path (frame, text, "", &path);
  for (guint k = 0; k < path.n_stops; k++)
    ret_calls[k] = path.stops[k];
  return path.n_stops;
}

static void
test_rows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProblem) problem = text_day (rows[i].day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autofree char *words = NULL;
      guint8 calls[8];
      guint n = read_order (frame, rows[i].order, calls);
      HsPath path = { 0 };
      HsClose close;
      HsClose alone;
      HsDrive drive;
      gboolean driven = hs_solve_drive (frame, &rows[i].terms, 0, calls, n, &close, &drive);

      g_assert_cmpint (driven, ==, rows[i].path != NULL);
      g_assert_cmpint (hs_solve_drive (frame, &rows[i].terms, 0, calls, n, &alone, NULL), ==, driven);
      if (!driven)
        continue;
      for (guint k = 0; k < drive.n_stops; k++)
        path.stops[path.n_stops++] = drive.stops[k];
      words = text_path_words (frame, &path);
      g_assert_cmpstr (words, ==, rows[i].path);
      g_assert_cmpint (close.leave, ==, text_clock (rows[i].leave));
      g_assert_cmpint (close.home, ==, text_clock (rows[i].home));
      g_assert_cmpint (close.units, ==, rows[i].cents * HS_COST_UNITS);
      g_assert_cmpint (close.late, ==, rows[i].late * 60);
      g_assert_cmpint (drive.close.units, ==, close.units);
      g_assert_cmpint (alone.units, ==, close.units);
      g_assert_cmpint (alone.leave, ==, close.leave);
    }
}

/* A counter that sells nothing of use is a place to have the break at, where there is time before B and not after A. */
static void
test_break_at_counter (void)
{
  g_autoptr (HsProblem) problem
      = text_day (LINE4 "van a 0 0 08:00-17:00 break 30 11:30-13:30; call A 1 60 10:15-10:15; "
                        "call B 3 60 12:10-12:15; counter C 3 5 08:00-17:00 sells x=1");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  static const guint8 order[] = { 0, 1 };
  static const guint8 stops[] = { 0, 2, HS_PATH_BREAK, 1 };
  HsClose close;
  HsDrive drive;

  g_assert_true (hs_solve_drive (frame, &strict, 0, order, 2, &close, &drive));
  g_assert_cmpmem (drive.stops, drive.n_stops, stops, sizeof stops);
  g_assert_cmpint (close.leave, ==, text_clock ("10:05"));
  g_assert_cmpint (close.home, ==, text_clock ("13:40"));
  g_assert_cmpuint (hs_solve_drive_useful (frame, 0), ==, 1);
}

/* Puts the next of @order in every place; keeps the best score of all orders. */
static void
try_orders (const HsSolveFrame *frame, const HsSolveTerms *terms, guint8 *order, guint n, HsScore *best)
{
  HsClose close;
  HsClose quick;
  HsDrive drive;
  HsScore score;
  gboolean driven;

  if (n < frame->n_calls)
    {
      for (guint at = n; at < frame->n_calls; at++)
        {
          guint8 swap = order[n];

          order[n] = order[at];
          order[at] = swap;
          try_orders (frame, terms, order, n + 1, best);
          order[at] = order[n];
          order[n] = swap;
        }
      return;
    }
  driven = hs_solve_drive (frame, terms, 0, order, n, &close, &drive);
  /* Asked for the costs alone it may overlook a way, but makes none up. */
  if (hs_solve_drive (frame, terms, 0, order, n, &quick, NULL))
    {
      g_assert_true (driven);
      g_assert_cmpint (quick.broken, >=, close.broken);
      g_assert_true (quick.broken > close.broken || quick.late > close.late || quick.units >= close.units);
    }
  if (!driven)
    return;
  score = (HsScore){ close.broken, 0, close.late, close.units, close.home, close.leave, drive.n_stops };
  if (hs_score_compare (&score, best) < 0)
    *best = score;
}

/* Whether some counter on the way sells nothing to anybody: the search over sets may go there only to have the break
 * nearer to the next call. */
static gboolean
stops_for_nothing (const HsSolveFrame *frame, const HsPath *path)
{
  g_autoptr (HsSolution) solution = hs_solution_new ();
  guint n_counters = 0;
  guint32 used = 0;

  hs_solution_write (solution, frame, path);
  for (guint k = 0; k < path->n_stops; k++)
    n_counters += path->stops[k] >= frame->n_calls && path->stops[k] < frame->n_nodes;
  for (guint b = 0; b < solution->bought->len; b++)
    used |= 1u << g_array_index (solution->bought, HsBought, b).counter;
  return (guint) __builtin_popcount (used) < n_counters;
}

/* The best of all orders is what the search over sets finds, which puts stops in by other means; it may stop once more
 * for nothing. */
static void
test_orders (void)
{
  guint n_found = 0;

  for (guint32 seed = 0; seed < 150; seed++)
    {
      g_autoptr (HsProblem) problem = text_busy_day (4, seed);
      g_autoptr (HsSolveFrame) frame = NULL;
      HsSolveTerms terms = { FALSE, seed % 2 == 0 ? 0 : 4, 0, seed % 2 == 0 ? 0 : 90000, seed % 2 == 0 ? 0 : 90000 };
      HsExact exact = { NULL, NULL, 1000000, FALSE, FALSE, 0 };
      HsScore best = HS_SCORE_WORST;
      HsScore whole = HS_SCORE_WORST;
      HsPath path = { 0 };
      guint8 order[] = { 0, 1, 2, 3 };
      gboolean found;

      g_ptr_array_set_size (problem->vans, 1);
      frame = text_frame (problem);
      try_orders (frame, &terms, order, 0, &best);
      found = hs_exact_run (&exact, frame, NULL, &terms, 0, &whole, &path, NULL);
      g_assert_cmpint (found, ==, best.missed != G_MAXUINT16);
      g_assert_cmpint (hs_score_compare (&best, &whole), >=, 0);
      if (!found || stops_for_nothing (frame, &path))
        continue;
      best.stops = whole.stops;
      g_assert_cmpint (hs_score_compare (&best, &whole), ==, 0);
      n_found++;
    }
  g_assert_cmpuint (n_found, >, 50);
}

/* Putting a call into an order at each place costs what the order with it there costs, up to what few ways overlook; on
 * a day without counters just that. */
static void
test_insert (void)
{
  const HsSolveTerms terms[] = { HS_SOLVE_TERMS_STRICT, { FALSE, 4, 0, 90000, 90000 } };
  guint n_fits = 0;

  for (guint32 seed = 0; seed < 120; seed++)
    {
      g_autoptr (HsProblem) problem = text_busy_day (4, seed);
      const HsSolveTerms *asked = &terms[seed / 2 % 2];
      const guint8 order[] = { 2, 0, 1 };
      g_autoptr (HsSolveFrame) frame = NULL;
      HsInsert inserts[4] = { { TRUE, { 0 } }, { FALSE, { 0 } }, { FALSE, { 0 } }, { FALSE, { 0 } } };
      guint first = seed % 3;

      if (seed % 2 == 0)
        {
          g_ptr_array_set_size (problem->counters, 0);
          for (guint i = 0; i < 4; i++)
            g_array_set_size (hs_problem_get_call (problem, i)->needs, 0);
        }
      frame = text_frame (problem);
      hs_solve_drive_insert (frame, asked, 0, order, 3, 3, first, 3, inserts);
      for (guint at = first; at <= 3; at++)
        {
          guint8 whole[4];
          HsClose close = { 0, 0, 0, 0, 0 };
          HsDrive drive;
          gboolean driven;

          for (guint k = 0; k < 4; k++)
            whole[k] = k < at ? order[k] : k == at ? 3 : order[k - 1];
          driven = hs_solve_drive (frame, asked, 0, whole, 4, &close, &drive);
          g_assert_true (driven || !inserts[at].fits);
          if (seed % 2 == 0)
            g_assert_cmpint (inserts[at].fits, ==, driven);
          if (!inserts[at].fits)
            continue;
          n_fits++;
          g_assert_cmpint (inserts[at].close.broken, >=, close.broken);
          if (inserts[at].close.broken == close.broken && inserts[at].close.late == close.late)
            g_assert_cmpint (inserts[at].close.units, >=, close.units);
          if (seed % 2 == 0)
            g_assert_cmpint (inserts[at].close.units, ==, close.units);
        }
    }
  g_assert_cmpuint (n_fits, >, 100);
}

/* Before a place that can't be got to, nothing after it fits; places before @first are not touched. */
static void
test_insert_ends (void)
{
  g_autoptr (HsProblem) problem = text_day (LINE4 VAN "call A 1 30 08:00-08:05; call B 1 30 09:00-10:00; "
                                            "call X 2 10 09:00-12:00");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  const guint8 order[] = { 1, 0 };
  const guint8 alone[] = { 1 };
  HsInsert inserts[3] = { { TRUE, { 7, 7, 7, 7, 7 } }, { TRUE, { 0 } }, { TRUE, { 0 } } };

  hs_solve_drive_insert (frame, &strict, 0, order, 2, 2, 1, 2, inserts);
  g_assert_cmpint (inserts[0].close.units, ==, 7);
  g_assert_false (inserts[1].fits);
  g_assert_false (inserts[2].fits);
  hs_solve_drive_insert (frame, &strict, 0, alone, 1, 2, 0, 1, inserts);
  /* X first: 20 + 10 + 10 + 30 + 10 min; B first: 10 + 30 + 10 + 10 + 20. */
  g_assert_true (inserts[0].fits && inserts[1].fits);
  g_assert_cmpint (inserts[0].close.units, ==, 8000 * HS_COST_UNITS);
  g_assert_cmpint (inserts[1].close.units, ==, 8000 * HS_COST_UNITS);
  g_assert_cmpint (inserts[0].close.home, ==, text_clock ("10:00"));
  g_assert_cmpint (inserts[1].close.home, ==, text_clock ("10:10"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-drive/rows", test_rows);
  g_test_add_func ("/plan/solve-drive/orders", test_orders);
  g_test_add_func ("/plan/solve-drive/insert", test_insert);
  g_test_add_func ("/plan/solve-drive/insert-ends", test_insert_ends);
  g_test_add_func ("/plan/solve-drive/break-at-counter", test_break_at_counter);
  return g_test_run ();
}
