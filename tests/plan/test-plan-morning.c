// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The demo morning: the figures of the owner's day, and a plain trial in whole minutes that counts its orders. */

#include "hs-plan.h"

#include "plan-morning.h"

typedef struct
{
  guint orders;
  guint on_time;
} Count;

/* When the stop starts if reached at @minute, in minutes; a shut counter waits for its afternoon. */
static int
start_minute (const MorningStop *stop, int minute)
{
  int inside = stop->kind == HS_DAY_STOP_COUNTER ? stop->minutes : 0;

  for (guint k = 0; k < 2 && stop->spans[k].to_seconds > 0; k++)
    if (minute <= stop->spans[k].to_seconds / 60 - inside)
      return MAX (minute, stop->spans[k].from_seconds / 60);
  return minute;
}

static gboolean
is_late (const MorningStop *stop, int start)
{
  int end = stop->spans[stop->spans[1].to_seconds > 0 ? 1 : 0].to_seconds / 60;

  return start + (stop->kind == HS_DAY_STOP_COUNTER ? stop->minutes : 0) > end;
}

static void
count_orders (Count *count, guint done, guint place, int minute, gboolean late)
{
  if (done == (1u << MORNING_STOPS) - 1)
    {
      count->orders++;
      count->on_time += !late;
      return;
    }
  for (guint i = 0; i < MORNING_STOPS; i++)
    {
      const MorningStop *stop = &morning_stops[i];
      int start = start_minute (stop, minute + morning_minutes[place][stop->place]);

      if ((done >> i & 1) != 0 || (stop->needs >= 0 && (done >> stop->needs & 1) == 0))
        continue;
      count_orders (count, done | 1u << i, stop->place, start + stop->minutes, late || is_late (stop, start));
    }
}

static void
test_count (void)
{
  Count count = { 0, 0 };

  count_orders (&count, 0, TANNERY_ROW, 7 * 60 + 30, FALSE);
  g_assert_cmpuint (count.orders, ==, 5040);
  g_assert_cmpuint (count.on_time, ==, 72);
}

typedef struct
{
  guint stop;
  gint32 arrive;
  gint32 start;
  gint32 depart;
} Row;

static void
assert_rows (const HsPlan *plan, const Row *rows, guint n)
{
  g_assert_cmpuint (plan->stops->len, ==, n);
  for (guint k = 0; k < n; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);

      g_assert_cmpuint (stop->stop, ==, rows[k].stop);
      g_assert_cmpint (stop->arrive_seconds, ==, rows[k].arrive);
      g_assert_cmpint (stop->start_seconds, ==, rows[k].start);
      g_assert_cmpint (stop->depart_seconds, ==, rows[k].depart);
    }
}

/* Driven by hand from the table of areas: leave 08:31, 7 min to Old Market, and so on. */
static void
test_thirty_spare (void)
{
  static const Row rows[] = {
    { LARCH, CLOCK (8, 38), CLOCK (8, 38), CLOCK (8, 46) },
    { A21, CLOCK (8, 49), CLOCK (8, 49), CLOCK (9, 49) },
    { A22, CLOCK (9, 55), CLOCK (9, 55), CLOCK (10, 35) },
    { KINGPOST, CLOCK (10, 46), CLOCK (10, 46), CLOCK (10, 56) },
    { A23, CLOCK (11, 0), CLOCK (11, 0), CLOCK (12, 15) },
    { A25, CLOCK (12, 31), CLOCK (12, 31), CLOCK (13, 31) },
    { A24, CLOCK (13, 48), CLOCK (13, 48), CLOCK (15, 18) },
    { A26, CLOCK (15, 23), CLOCK (15, 23), CLOCK (16, 8) },
  };
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (GError) error = NULL;

  hs_plan_solve (day, NULL, NULL, &plan, &error);
  g_assert_no_error (error);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_true (plan->proven);
  assert_rows (plan, rows, G_N_ELEMENTS (rows));
  g_assert_cmpint (plan->leave_seconds, ==, CLOCK (8, 31));
  g_assert_cmpint (plan->home_seconds, ==, CLOCK (16, 20));
  g_assert_cmpint (plan->drive_seconds, ==, 81 * 60);
  g_assert_cmpint (plan->drive_millimiles, ==, 33300);
  g_assert_cmpint (plan->wait_seconds, ==, 0);
  g_assert_cmpint (plan->spare_seconds, ==, 35 * 60);
  g_assert_cmpint (plan->cost_cents, ==, 76439);
  g_assert_cmpint (plan->states, >, 0);
  g_assert_cmpuint (plan->broken->len, ==, 0);
}

/* 469 min at 1.60 and 33.3 mi at 0.42 make 764.386; five cents less buys a tighter day. */
static void
test_no_spare (void)
{
  g_autoptr (HsDay) day = morning_day (0);
  g_autoptr (HsPlan) plan = NULL;

  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_cmpint (plan->cost_cents, ==, 76434);
  g_assert_cmpint (plan->spare_seconds, ==, 23 * 60);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
}

/* More spare than there is: the most there is, which 1 s more than it does not have. */
static void
test_most_spare (void)
{
  g_autoptr (HsDay) day = morning_day (600);
  g_autoptr (HsPlan) most = NULL;
  g_autoptr (HsPlan) again = NULL;
  g_autoptr (HsPlan) beyond = NULL;

  g_assert_true (hs_plan_solve (day, NULL, NULL, &most, NULL));
  g_assert_cmpint (most->spare_seconds, >=, 35 * 60);
  g_assert_cmpint (most->spare_seconds, <, 600 * 60);
  day->spare_seconds = most->spare_seconds;
  g_assert_true (hs_plan_solve (day, NULL, NULL, &again, NULL));
  g_assert_cmpint (again->cost_units, ==, most->cost_units);
  g_assert_cmpint (again->spare_seconds, ==, most->spare_seconds);
  day->spare_seconds += 1;
  g_assert_true (hs_plan_solve (day, NULL, NULL, &beyond, NULL));
  g_assert_cmpint (beyond->spare_seconds, ==, most->spare_seconds);
  g_assert_cmpint (beyond->cost_units, ==, most->cost_units);
}

static void
test_stretch_of_leave_times (void)
{
  static const guint order[] = { LARCH, A21, A22, KINGPOST, A23, A25, A24, A26 };
  g_autoptr (HsDay) day = morning_day (30);

  for (gint32 minute = 30; minute <= 37; minute++)
    {
      g_autoptr (HsPlan) plan = NULL;

      g_assert_true (hs_plan_drive_order (day, order, G_N_ELEMENTS (order), CLOCK (8, minute), &plan, NULL));
      g_assert_cmpint (plan->home_seconds, ==, MAX (CLOCK (16, 20), CLOCK (15, 49 + minute)));
      g_assert_cmpint (plan->cost_cents == 76439 && plan->spare_seconds >= 30 * 60, ==, minute >= 31 && minute <= 36);
    }
}

static void
test_lunch (void)
{
  static const struct
  {
    gint32 there;
    gint32 served;
  } rows[] = {
    { CLOCK (7, 50), CLOCK (8, 0) },       { CLOCK (8, 0), CLOCK (8, 0) },         { CLOCK (12, 22), CLOCK (12, 22) },
    { CLOCK (12, 22) + 1, CLOCK (13, 15) }, { CLOCK (12, 23), CLOCK (13, 15) },     { CLOCK (13, 14), CLOCK (13, 15) },
    { CLOCK (13, 15), CLOCK (13, 15) },    { CLOCK (16, 52), CLOCK (16, 52) },
  };
  static const guint larch[] = { LARCH };
  g_autoptr (HsDay) day = morning_day (0);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsPlan) plan = NULL;

      g_assert_true (hs_plan_drive_order (day, larch, 1, rows[i].there - 7 * 60, &plan, NULL));
      g_assert_cmpint (hs_plan_get_stop (plan, 0)->arrive_seconds, ==, rows[i].there);
      g_assert_cmpint (hs_plan_get_stop (plan, 0)->start_seconds, ==, rows[i].served);
      g_assert_cmpint (hs_plan_get_stop (plan, 0)->late_seconds, ==, 0);
    }
}

/* Whatever the day looks like, no stop at Larch begins while it could not be finished before the shutter. */
static void
test_no_stop_at_lunch (void)
{
  for (gint32 minutes = 0; minutes <= 240; minutes += 5)
    {
      g_autoptr (HsDay) day = morning_day (0);
      g_autoptr (HsPlan) plan = NULL;

      day->leave_from_seconds += minutes * 60;
      day->leave_to_seconds += minutes * 60;
      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      for (guint k = 0; k < plan->stops->len; k++)
        {
          const HsPlanStop *stop = hs_plan_get_stop (plan, k);

          if (stop->stop == LARCH)
            g_assert_false (stop->start_seconds > CLOCK (12, 22) && stop->start_seconds < CLOCK (13, 15));
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/morning/count", test_count);
  g_test_add_func ("/plan/morning/thirty-spare", test_thirty_spare);
  g_test_add_func ("/plan/morning/no-spare", test_no_spare);
  g_test_add_func ("/plan/morning/most-spare", test_most_spare);
  g_test_add_func ("/plan/morning/stretch-of-leave-times", test_stretch_of_leave_times);
  g_test_add_func ("/plan/morning/lunch", test_lunch);
  g_test_add_func ("/plan/morning/no-stop-at-lunch", test_no_stop_at_lunch);
  return g_test_run ();
}
