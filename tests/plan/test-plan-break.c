// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The break of one van's day, on a day small enough to reckon by hand: ten minutes out, A at nine for an hour, B at
 * half past twelve for an hour, ten minutes home at 13:40. */

#include "hs-plan-drive.h"
#include "hs-plan-error.h"
#include "hs-squeeze.h"

#define CLOCK(hour, minute) (((hour) * 60 + (minute)) * 60)

static HsDay *
two_calls (int from_minute, int to_minute)
{
  HsDay *day = hs_day_new (2);

  hs_day_set_leg (day, 0, 1, 600, 5000);
  hs_day_set_leg (day, 1, 0, 600, 5000);
  day->leave_from_seconds = CLOCK (8, 0);
  day->leave_to_seconds = CLOCK (9, 30);
  day->minute_cents = 100;
  hs_day_add_stop (day, "A", HS_DAY_STOP_CALL, 1, 3600);
  hs_day_add_span (day, 0, CLOCK (9, 0), CLOCK (9, 0));
  hs_day_add_stop (day, "B", HS_DAY_STOP_CALL, 1, 3600);
  hs_day_add_span (day, 1, CLOCK (12, 30), CLOCK (12, 30));
  day->break_seconds = 30 * 60;
  day->break_span = (HsDaySpan){ from_minute * 60, to_minute * 60 };
  return day;
}

static void
test_placed (void)
{
  static const struct
  {
    int from;
    int to;
    int after;
    int start;
    int home;
    int broken;
    int late_minutes;
    const char *why;
  } rows[] = {
    /* Free from ten on; the gap to B takes it. */
    { 11 * 60, 14 * 60, 0, 11 * 60, 13 * 60 + 40, HS_DAY_NO_STOP, 0, NULL },
    { 9 * 60 + 30, 14 * 60, 0, 10 * 60, 13 * 60 + 40, HS_DAY_NO_STOP, 0, NULL },
    /* Only after B: home half an hour later. */
    { 13 * 60, 14 * 60, 1, 13 * 60 + 30, 14 * 60 + 10, HS_DAY_NO_STOP, 0, NULL },
    /* At home at 13:40, or before leaving at 08:50. */
    { 13 * 60, 14 * 60 + 10, HS_PLAN_NO_BREAK, 0, 13 * 60 + 40, HS_DAY_NO_STOP, 0, NULL },
    { 8 * 60, 10 * 60, HS_PLAN_NO_BREAK, 0, 13 * 60 + 40, HS_DAY_NO_STOP, 0, NULL },
    /* Straight before B would make it 45 min late; at home it is 55 min late itself. */
    { 12 * 60 + 45, 13 * 60 + 15, 0, 12 * 60 + 45, 14 * 60 + 25, 1, 45, "B and the break can't both be met" },
    /* While A is being mended. */
    { 9 * 60 + 10, 9 * 60 + 45, HS_PLAN_NO_BREAK, 0, 13 * 60 + 40, HS_DAY_BREAK, 265,
      "no break of 30 min between 09:10 and 09:45" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDay) day = two_calls (rows[i].from, rows[i].to);
      g_autoptr (HsPlan) plan = NULL;

      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      g_assert_cmpint (plan->break_after, ==, rows[i].after);
      g_assert_cmpint (plan->break_start_seconds, ==, rows[i].start * 60);
      g_assert_cmpint (plan->leave_seconds, ==, CLOCK (8, 50));
      g_assert_cmpint (plan->home_seconds, ==, rows[i].home * 60);
      g_assert_cmpint (plan->cost_cents, ==, (rows[i].home - (8 * 60 + 50)) * 100);
      g_assert_cmpuint (plan->broken->len, ==, rows[i].why != NULL);
      g_assert_cmpint (plan->status, ==, rows[i].why != NULL ? HS_PLAN_IMPOSSIBLE : HS_PLAN_OPTIMAL);
      if (rows[i].why == NULL)
        continue;
      g_assert_cmpint (hs_plan_get_broken (plan, 0)->stop, ==, rows[i].broken);
      g_assert_cmpint (hs_plan_get_broken (plan, 0)->late_seconds, ==, rows[i].late_minutes * 60);
      g_assert_cmpstr (hs_plan_get_broken (plan, 0)->why, ==, rows[i].why);
    }
}

/* A van at home rests before it leaves; one under way at ten has only what is left of the day. */
static void
test_under_way (void)
{
  g_autoptr (HsDay) day = two_calls (8 * 60, 13 * 60);
  g_autoptr (HsPlan) plan = NULL;
  const guint order[] = { 1 };

  day->leave_from_seconds = day->leave_to_seconds = CLOCK (10, 0);
  day->start_place = 1;
  g_assert_true (hs_plan_drive_order (day, order, 1, CLOCK (10, 0), &plan, NULL));
  g_assert_cmpint (plan->break_after, ==, HS_PLAN_NO_BREAK);
  g_clear_pointer (&plan, hs_plan_free);
  day->under_way = TRUE;
  g_assert_true (hs_plan_drive_order (day, order, 1, CLOCK (10, 0), &plan, NULL));
  g_assert_cmpint (plan->break_after, ==, HS_PLAN_BREAK_FIRST);
  g_assert_cmpint (plan->break_start_seconds, ==, CLOCK (10, 0));
  g_assert_cmpint (plan->break_end_seconds, ==, CLOCK (10, 30));
  g_assert_cmpint (hs_plan_get_stop (plan, 0)->start_seconds, ==, CLOCK (12, 30));
  g_assert_cmpint (plan->wait_seconds, ==, 2 * 3600);
}

/* An order with the break where it can't be, and where it is bad. */
static void
test_asked_for (void)
{
  g_autoptr (HsDay) day = two_calls (11 * 60, 14 * 60);
  static const guint order[] = { 0, 1 };
  static const struct
  {
    int asked;
    int after;
    int home;
  } rows[] = {
    { HS_PLAN_PLACE_BREAK, 0, CLOCK (13, 40) },
    { 0, 0, CLOCK (13, 40) },
    { 1, 1, CLOCK (14, 10) },
    { HS_PLAN_NO_BREAK, HS_PLAN_NO_BREAK, CLOCK (13, 40) },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsPlan) plan = hs_plan_drive (day, order, 2, CLOCK (8, 50), rows[i].asked);

      g_assert_cmpint (plan->break_after, ==, rows[i].after);
      g_assert_cmpint (plan->home_seconds, ==, rows[i].home);
      g_assert_cmpint (plan->break_late_seconds, ==, rows[i].after == HS_PLAN_NO_BREAK ? 10 * 60 : 0);
    }
  day->break_span.to_seconds = CLOCK (11, 45);
  {
    g_autoptr (HsPlan) plan = hs_plan_drive (day, order, 2, CLOCK (8, 50), 1);

    g_assert_cmpint (plan->break_after, ==, HS_PLAN_NO_BREAK);
  }
}

/* One more hour at ten, straight after A. The break is at 11:00 at the earliest, and B at 12:30 cannot wait: with the
 * break behind it the new call may start until 11:00. Four hours there leave no time for it before B. */
static void
test_squeezed (void)
{
  g_autoptr (HsDay) day = two_calls (11 * 60, 13 * 60);
  g_autoptr (HsPlan) plan = NULL;
  static const struct
  {
    int minutes;
    gint32 free_to;
    guint n_breaks;
  } rows[] = {
    { 60, CLOCK (11, 0), 0 },
    { 120, CLOCK (10, 0), 0 },
    { 130, -1, 1 },
  };

  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsDayStop call = { (char *) "C", HS_DAY_STOP_CALL, 1, rows[i].minutes * 60, FALSE, NULL, 0, 0 };
      g_autoptr (GPtrArray) offers = NULL;
      const HsSqueezeOffer *between = NULL;

      g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
      for (guint k = 0; k < offers->len; k++)
        if (((HsSqueezeOffer *) g_ptr_array_index (offers, k))->position == 1)
          between = g_ptr_array_index (offers, k);
      g_assert_nonnull (between);
      g_assert_cmpint (between->start_seconds, ==, CLOCK (10, 0));
      g_assert_cmpint (between->free_to_seconds, ==, rows[i].free_to);
      g_assert_cmpuint (between->breaks->len, ==, rows[i].n_breaks);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    gint32 seconds;
    HsDaySpan span;
    const char *message;
  } rows[] = {
    { -1, { 0, 100 }, "break_seconds: is below zero" },
    { G_MAXINT32, { 0, 100 }, "break_seconds: is too large" },
    { 60, { 100, 0 }, "break_span: ends before it starts" },
    { 60, { 0, G_MAXINT32 }, "break_span: lies outside the day" },
    { 61, { 0, 60 }, "break_span: is shorter than the break" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDay) day = two_calls (0, 0);
      g_autoptr (GError) error = NULL;

      day->break_seconds = rows[i].seconds;
      day->break_span = rows[i].span;
      g_assert_false (hs_day_check (day, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, rows[i].message);
    }
}

/* A from nine to ten, B at half past twelve for half an hour, C from one to 13:40 for half an hour, D at three.
 * Before B the break takes nothing from C's 40 min of spare, behind B it leaves 10; home is the same, and the later
 * place is taken then. */
static void
test_aim (void)
{
  g_autoptr (HsDay) day = two_calls (10 * 60, 13 * 60 + 30);
  const guint order[] = { 0, 1, 2, 3 };
  g_autoptr (HsFrame) frame = NULL;
  HsDriven driven;

  g_array_set_size (hs_day_get_stop (day, 0)->spans, 0);
  g_array_set_size (hs_day_get_stop (day, 1)->spans, 0);
  hs_day_add_span (day, 0, CLOCK (9, 0), CLOCK (10, 30));
  ((HsDayStop *) g_ptr_array_index (day->stops, 1))->service_seconds = 1800;
  hs_day_add_span (day, 1, CLOCK (12, 30), CLOCK (13, 30));
  hs_day_add_stop (day, "C", HS_DAY_STOP_CALL, 1, 1800);
  hs_day_add_span (day, 2, CLOCK (13, 0), CLOCK (13, 40));
  hs_day_add_stop (day, "D", HS_DAY_STOP_CALL, 1, 1800);
  hs_day_add_span (day, 3, CLOCK (15, 0), CLOCK (16, 0));
  frame = hs_frame_new (day, 15);
  g_assert_cmpint (hs_drive_place_break (frame, order, CLOCK (8, 50), 0, HS_DRIVE_FOR_SPARE, &driven), ==, 0);
  g_assert_cmpint (driven.spare, ==, 40 * 60);
  g_assert_cmpint (hs_drive_place_break (frame, order, CLOCK (8, 50), 0, HS_DRIVE_FOR_HOME, &driven), ==, 1);
  g_assert_cmpint (driven.spare, ==, 10 * 60);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/break/placed", test_placed);
  g_test_add_func ("/plan/break/under-way", test_under_way);
  g_test_add_func ("/plan/break/asked-for", test_asked_for);
  g_test_add_func ("/plan/break/squeezed", test_squeezed);
  g_test_add_func ("/plan/break/aim", test_aim);
  g_test_add_func ("/plan/break/refused", test_refused);
  return g_test_run ();
}
