// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What putting in a call about costs: exactly what driving says where no errands come between, and never more. */

#include "hs-solve-screen.h"

#include "hs-solve-drive.h"
#include "plan-text-day.h"

#include <string.h>

static const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;

/* The busy day with or without parts, breaks and second windows. */
static HsProblem *
new_day (guint32 seed, gboolean errands)
{
  HsProblem *problem = text_busy_day (12, seed);

  if (!errands)
    ((HsVan *) g_ptr_array_index (problem->vans, 0))->break_seconds = 0;
  for (guint i = 0; i < problem->calls->len; i++)
    {
      HsCall *call = g_ptr_array_index (problem->calls, i);
      HsDaySpan window = g_array_index (call->windows, HsDaySpan, 0);

      if (!errands)
        g_array_set_size (call->needs, 0);
      window.from_seconds += 7200 + 3600 * (i % 3);
      window.to_seconds += 7200 + 3600 * (i % 3);
      if (errands && i % 2 == 0)
        g_array_append_val (call->windows, window);
      else
        g_array_index (call->windows, HsDaySpan, 0).to_seconds += 5400;
    }
  return problem;
}

/* Puts the calls one after another where they cost least, and compares all places on the way. */
static guint
compare_places (const HsSolveFrame *frame, guint van, gboolean errands)
{
  guint8 calls[HS_PROBLEM_MAX_CALLS];
  guint n = 0;
  guint n_fit = 0;
  HsClose now = { 0 };

  for (guint call = 0; call < frame->n_calls; call++)
    {
      HsInsert inserts[HS_PROBLEM_MAX_CALLS + 1];
      gint64 more[HS_PROBLEM_MAX_CALLS + 1];
      guint best = 0;

      hs_solve_drive_insert (frame, &strict, van, calls, n, call, 0, n, inserts);
      hs_solve_screen (frame, van, calls, n, call, 0, n, more);
      for (guint at = 0; at <= n; at++)
        {
          if (!errands)
            g_assert_cmpint (inserts[at].fits, ==, more[at] != HS_SCREEN_NEVER);
          else if (inserts[at].fits)
            g_assert_cmpint (more[at], !=, HS_SCREEN_NEVER);
          if (!inserts[at].fits)
            continue;
          if (!errands)
            g_assert_cmpint (more[at], ==, inserts[at].close.units - (n == 0 ? 0 : now.units));
          n_fit++;
          if (!inserts[best].fits || inserts[at].close.units < inserts[best].close.units)
            best = at;
        }
      if (!inserts[best].fits)
        continue;
      memmove (calls + best + 1, calls + best, n - best);
      calls[best] = (guint8) call;
      now = inserts[best].close;
      n++;
    }
  return n_fit;
}

static void
test_places (gconstpointer data)
{
  gboolean errands = GPOINTER_TO_INT (data);
  guint n_fit = 0;

  for (guint32 seed = 0; seed < 40; seed++)
    {
      g_autoptr (HsProblem) problem = new_day (seed, errands);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);

      for (guint van = 0; van < 2; van++)
        n_fit += compare_places (frame, van, errands);
    }
  g_assert_cmpuint (n_fit, >, 500);
}

/* Only the places that are asked for are touched. */
static void
test_range (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 20 / 10 0 10 / 20 10 0; cost 100 0; van a 0 0 08:00-17:00; "
                                            "call A 1 30; call B 2 30; call C 1 30");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  static const guint8 order[] = { 0, 1 };
  gint64 more[3] = { 7, 7, 7 };

  hs_solve_screen (frame, 0, order, 2, 2, 1, 1, more);
  g_assert_cmpint (more[2], ==, 7);
  g_assert_cmpint (more[1], ==, 30 * 100 * HS_COST_UNITS);
  hs_solve_screen (frame, 0, order, 2, 2, 2, 2, more);
  g_assert_cmpint (more[2], ==, 30 * 100 * HS_COST_UNITS);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/plan/solve-screen/plain", GINT_TO_POINTER (FALSE), test_places);
  g_test_add_data_func ("/plan/solve-screen/errands", GINT_TO_POINTER (TRUE), test_places);
  g_test_add_func ("/plan/solve-screen/range", test_range);
  return g_test_run ();
}
