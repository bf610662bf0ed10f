// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days too large for plain trial: twelve stops against a table over sets written here, larger ones against a checker
 * that only drives; then what an answer must hold whatever the day: empty days, giving up, the same answer twice. */

#include "hs-plan.h"

#include "hs-plan-error.h"
#include "plan-morning.h"

#include <string.h>

#define TWELVE 12
#define SETS (1u << TWELVE)
#define NEVER (G_MAXINT64 / 4)

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

/* Every stop at a place of its own; place n is the base. */
static HsDay *
scattered_day (GRand *rand, guint n, gint32 window_minutes)
{
  HsDay *day = hs_day_new (n + 1);

  for (guint from = 0; from <= n; from++)
    for (guint to = 0; to <= n; to++)
      hs_day_set_leg (day, from, to, g_rand_int_range (rand, 2, 40) * 60, g_rand_int_range (rand, 5, 200) * 100);
  day->start_place = n;
  day->end_place = n;
  day->leave_from_seconds = CLOCK (7, 0);
  day->leave_to_seconds = CLOCK (9, 0);
  day->home_by_seconds = CLOCK (200, 0);
  day->minute_cents = 160;
  day->mile_cents = 42;
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("S%03u", (i * 37 + 5) % 101);
      gint32 from = CLOCK (8, 0) + g_rand_int_range (rand, 0, 300) * 60;

      hs_day_add_stop (day, id, HS_DAY_STOP_CALL, i, g_rand_int_range (rand, 5, 40) * 60);
      if (window_minutes > 0)
        hs_day_add_span (day, i, from, from + window_minutes * 60);
    }
  return day;
}

/* When work at a stop with at most one window starts; NEVER once it is over. */
static gint64
start_in_window (const HsDayStop *stop, gint64 arrive)
{
  const HsDaySpan *span;

  if (stop->spans->len == 0)
    return arrive;
  span = &g_array_index (stop->spans, HsDaySpan, 0);
  return arrive > span->to_seconds ? NEVER : MAX (arrive, span->from_seconds);
}

/* The earliest home when leaving at @leave, over all orders: least time for each set and last stop. */
static gint64
earliest_home (const HsDay *day, gint64 leave, gint64 *table)
{
  gint64 home = NEVER;

  for (guint cell = 0; cell < SETS * TWELVE; cell++)
    table[cell] = NEVER;
  for (guint set = 0; set < SETS; set++)
    for (guint last = 0; last < TWELVE; last++)
      {
        gint64 time = set == 0 ? leave : table[set * TWELVE + last];

        if (time >= NEVER || (set == 0 && last > 0))
          continue;
        for (guint i = 0; i < TWELVE; i++)
          {
            const HsDayStop *stop = hs_day_get_stop (day, i);
            gint64 start = start_in_window (stop, time + leg_seconds (day, set == 0 ? day->start_place : last, i));
            gint64 *cell = &table[(set | 1u << i) * TWELVE + i];

            if ((set >> i & 1) == 0 && (stop->after & ~(guint64) set) == 0 && start < NEVER)
              *cell = MIN (*cell, start + stop->service_seconds);
          }
      }
  for (guint last = 0; last < TWELVE; last++)
    if (table[(SETS - 1) * TWELVE + last] < NEVER)
      home = MIN (home, table[(SETS - 1) * TWELVE + last] + leg_seconds (day, last, day->end_place));
  return home;
}

/* Time is all that costs here, so the least of home − leave over the minutes of leaving is the least cost. */
static void
test_twelve_by_time (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  g_autofree gint64 *table = g_new (gint64, SETS * TWELVE);
  guint in_time = 0;

  for (guint round = 0; round < 12; round++)
    {
      g_autoptr (HsDay) day = scattered_day (rand, TWELVE, 200 + 40 * (gint32) round);
      g_autoptr (HsPlan) plan = NULL;
      gint64 least = NEVER;

      day->mile_cents = 0;
      day->leave_to_seconds = CLOCK (7, 30);
      hs_day_add_after (day, 3, 8);
      hs_day_add_after (day, 5, 8);
      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      for (gint64 leave = CLOCK (7, 0); leave <= CLOCK (7, 30); leave += 60)
        {
          gint64 home = earliest_home (day, leave, table);

          if (home < NEVER)
            least = MIN (least, home - leave);
        }
      g_assert_true (plan->proven);
      g_assert_cmpint (plan->status == HS_PLAN_OPTIMAL, ==, least < NEVER);
      if (least == NEVER)
        continue;
      in_time++;
      g_assert_cmpint (plan->home_seconds - plan->leave_seconds, ==, least);
      g_assert_cmpint (plan->cost_cents, ==, least / 60 * 160);
    }
  g_assert_cmpuint (in_time, >=, 3);
}

/* Open all day: the cheapest round over both rates, by the table of Held and Karp. */
static gint64
cheapest_round (const HsDay *day, gint64 *table)
{
  gint64 least = NEVER;

#define LEG(from, to) (leg_seconds (day, from, to) * 160 * 50 + leg_millimiles (day, from, to) * 42 * 3)
  for (guint cell = 0; cell < SETS * TWELVE; cell++)
    table[cell] = NEVER;
  for (guint i = 0; i < TWELVE; i++)
    table[(1u << i) * TWELVE + i] = LEG (day->start_place, i);
  for (guint set = 1; set < SETS; set++)
    for (guint last = 0; last < TWELVE; last++)
      for (guint i = 0; i < TWELVE; i++)
        {
          gint64 *cell = &table[(set | 1u << i) * TWELVE + i];

          if ((set >> last & 1) != 0 && (set >> i & 1) == 0)
            *cell = MIN (*cell, table[set * TWELVE + last] + LEG (last, i));
        }
  for (guint last = 0; last < TWELVE; last++)
    least = MIN (least, table[(SETS - 1) * TWELVE + last] + LEG (last, day->end_place));
#undef LEG
  for (guint i = 0; i < TWELVE; i++)
    least += hs_day_get_stop (day, i)->service_seconds * G_GINT64_CONSTANT (8000);
  return least;
}

static void
test_twelve_open (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (21);
  g_autofree gint64 *table = g_new (gint64, SETS * TWELVE);

  for (guint round = 0; round < 5; round++)
    {
      g_autoptr (HsDay) day = scattered_day (rand, TWELVE, 0);
      g_autoptr (HsPlan) plan = NULL;

      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
      g_assert_cmpint (plan->cost_units, ==, cheapest_round (day, table));
      g_assert_cmpint (plan->leave_seconds, ==, CLOCK (7, 0));
      g_assert_cmpint (plan->spare_seconds, ==, HS_PLAN_NO_LIMIT);
      g_assert_cmpint (plan->states, >=, 12);
      g_assert_cmpint (plan->states, <, 200000);
    }
}

/* Drives the plan's order with the day's tables and nothing of the planner. */
static void
assert_drivable (const HsDay *day, const HsPlan *plan)
{
  gint64 time = plan->leave_seconds;
  guint place = day->start_place;
  guint64 done = 0;
  gint64 miles = 0;

  g_assert_cmpuint (plan->stops->len, ==, day->stops->len);
  g_assert_cmpint (plan->leave_seconds, >=, day->leave_from_seconds);
  g_assert_cmpint (plan->leave_seconds, <=, day->leave_to_seconds);
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *driven = hs_plan_get_stop (plan, k);
      const HsDayStop *stop = hs_day_get_stop (day, driven->stop);
      gint64 arrive = time + leg_seconds (day, place, stop->place);
      gint64 start = start_in_window (stop, arrive);

      g_assert_cmpuint (done >> driven->stop & 1, ==, 0);
      g_assert_cmpuint (stop->after & ~done, ==, 0);
      g_assert_cmpint (driven->arrive_seconds, ==, arrive);
      g_assert_cmpint (driven->start_seconds, ==, start == NEVER ? arrive : start);
      g_assert_cmpint (driven->late_seconds > 0, ==, start == NEVER);
      miles += leg_millimiles (day, place, stop->place);
      time = driven->start_seconds + stop->service_seconds;
      done |= G_GUINT64_CONSTANT (1) << driven->stop;
      place = stop->place;
    }
  g_assert_cmpint (plan->home_seconds, ==, time + leg_seconds (day, place, day->end_place));
  g_assert_cmpint (plan->drive_millimiles, ==, miles + leg_millimiles (day, place, day->end_place));
}

static void
test_large (void)
{
  static const struct
  {
    guint stops;
    gint32 window_minutes;
  } rows[] = { { 13, 0 }, { 14, 600 }, { 16, 900 }, { 20, 0 }, { 20, 120 }, { 30, 2000 }, { 62, 0 }, { 64, 300 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (64);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDay) day = scattered_day (rand, rows[i].stops, rows[i].window_minutes);
      g_autoptr (HsPlan) plan = NULL;

      hs_day_add_after (day, 1, 6);
      hs_day_add_after (day, 2, 1);
      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      assert_drivable (day, plan);
      g_assert_cmpint (plan->status == HS_PLAN_IMPOSSIBLE, ==, plan->broken->len > 0);
      g_assert_false (plan->status == HS_PLAN_OPTIMAL && !plan->proven);
    }
}

typedef struct
{
  guint asked;
  guint patience;
} Patience;

static gboolean
lose_patience (gpointer user_data)
{
  Patience *patience = user_data;

  return ++patience->asked > patience->patience;
}

/* However soon it is told to stop, there is an order to drive, parts first; only the proof is missing. */
static void
test_give_up (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint patience = 0; patience < 40; patience = 2 * patience + 1)
    for (gint32 window = 0; window <= 300; window += 100)
      {
        g_autoptr (HsDay) day = scattered_day (rand, 18, window);
        g_autoptr (HsPlan) plan = NULL;
        Patience told = { 0, patience };

        hs_day_add_after (day, 0, 17);
        day->spare_seconds = 1200;
        g_assert_true (hs_plan_solve (day, lose_patience, &told, &plan, NULL));
        g_assert_cmpuint (told.asked, ==, patience + 1);
        g_assert_false (plan->proven);
        g_assert_cmpint (plan->status, !=, HS_PLAN_OPTIMAL);
        assert_drivable (day, plan);
      }
}

static void
test_same_twice (void)
{
  static const guint sizes[] = { 1, 6, 11, 14, 26 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (HsDay) day = scattered_day (rand, sizes[i], sizes[i] % 2 == 0 ? 0 : 700);
      g_autoptr (HsPlan) once = NULL;
      g_autoptr (HsPlan) twice = NULL;

      g_assert_true (hs_plan_solve (day, NULL, NULL, &once, NULL));
      g_assert_true (hs_plan_solve (day, NULL, NULL, &twice, NULL));
      g_assert_cmpmem (once->stops->data, once->stops->len * sizeof (HsPlanStop), twice->stops->data,
                       twice->stops->len * sizeof (HsPlanStop));
      g_assert_cmpint (once->states, ==, twice->states);
      g_assert_cmpint (once->cost_units, ==, twice->cost_units);
      g_assert_cmpint (once->leave_seconds, ==, twice->leave_seconds);
    }
}

static void
test_empty (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;

  g_ptr_array_set_size (day->stops, 0);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpuint (plan->stops->len, ==, 0);
  g_assert_cmpint (plan->leave_seconds, ==, CLOCK (7, 30));
  g_assert_cmpint (plan->home_seconds, ==, CLOCK (7, 30));
  g_assert_cmpint (plan->cost_cents, ==, 0);
  g_assert_cmpint (plan->drive_millimiles, ==, 0);
  g_assert_cmpint (plan->spare_seconds, ==, HS_PLAN_NO_LIMIT);
  hs_plan_free (NULL);
}

/* Reached at 09:55 in a window that ends 10:00: with 30 min asked, the afternoon window is the one to keep. */
static void
test_waits_for_spare (void)
{
  static const struct
  {
    gint32 spare_minutes;
    gint32 start;
    gint32 slack;
  } rows[] = {
    { 0, CLOCK (9, 55), 5 * 60 },
    { 5, CLOCK (9, 55), 5 * 60 },
    { 30, CLOCK (14, 0), 120 * 60 },
    { 240, CLOCK (14, 0), 120 * 60 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDay) day = hs_day_new (1);
      g_autoptr (HsPlan) plan = NULL;

      hs_day_set_leg (day, 0, 0, 55 * 60, 0);
      hs_day_add_stop (day, "A-1", HS_DAY_STOP_CALL, 0, 600);
      hs_day_add_span (day, 0, CLOCK (14, 0), CLOCK (16, 0));
      hs_day_add_span (day, 0, CLOCK (9, 0), CLOCK (9, 40));
      hs_day_add_span (day, 0, CLOCK (9, 40), CLOCK (10, 0));
      day->leave_from_seconds = day->leave_to_seconds = CLOCK (9, 0);
      day->spare_seconds = rows[i].spare_minutes * 60;
      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      g_assert_cmpint (hs_plan_get_stop (plan, 0)->start_seconds, ==, rows[i].start);
      g_assert_cmpint (plan->spare_seconds, ==, rows[i].slack);
      g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
    }
}

/* Half a cent rounds up, once, over minutes and miles together: 15 s and 500 thousandths at 1 make 0.25 + 0.5. */
static void
test_rounding (void)
{
  static const struct
  {
    gint32 seconds;
    gint64 millimiles;
    gint64 cents;
  } rows[] = {
    { 0, 0, 0 }, { 15, 249, 0 }, { 15, 250, 1 }, { 15, 500, 1 }, { 30, 0, 1 }, { 29, 0, 0 }, { 60, 499, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDay) day = hs_day_new (2);
      g_autoptr (HsPlan) plan = NULL;

      hs_day_set_leg (day, 0, 1, rows[i].seconds, rows[i].millimiles);
      hs_day_add_stop (day, "A-1", HS_DAY_STOP_CALL, 1, 0);
      day->minute_cents = 1;
      day->mile_cents = 1;
      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      g_assert_cmpint (plan->cost_cents, ==, rows[i].cents);
    }
}

static void
test_bad_order (void)
{
  static const guint twice[] = { 1, 2, 1 };
  static const guint unknown[] = { 1, 8 };
  g_autoptr (HsDay) day = morning_day (0);
  g_autoptr (GError) error = NULL;
  HsPlan *plan = NULL;

  g_assert_false (hs_plan_drive_order (day, twice, 3, CLOCK (8, 0), &plan, &error));
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
  g_assert_cmpstr (error->message, ==, "order[2]: stands twice in the order");
  g_clear_error (&error);
  g_assert_false (hs_plan_drive_order (day, unknown, 2, CLOCK (8, 0), &plan, &error));
  g_assert_cmpstr (error->message, ==, "order[1]: no such stop");
  g_assert_null (plan);
}

/* A given order is driven past a counter that is shut all day, which is told of it and of the call that needs it; not
 * where the counter is not in the order. */
static void
test_order_with_shut_counter (void)
{
  static const guint order[] = { 0, 1 };
  g_autoptr (HsDay) day = hs_day_new (2);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (HsPlan) without = NULL;

  hs_day_set_leg (day, 0, 1, 600, 0);
  hs_day_add_stop (day, "Larch", HS_DAY_STOP_COUNTER, 1, 300);
  hs_day_add_stop (day, "A-1", HS_DAY_STOP_CALL, 1, 0);
  hs_day_add_after (day, 1, 0);
  hs_day_shut_stop (day, 0, "2026-03-10");
  g_assert_true (hs_plan_drive_order (day, order, 2, CLOCK (8, 0), &plan, NULL));
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpint (hs_plan_get_stop (plan, 1)->start_seconds, ==, CLOCK (8, 15));
  g_assert_cmpuint (plan->broken->len, ==, 2);
  g_assert_cmpstr (hs_plan_get_broken (plan, 0)->why, ==, "Larch does not open on 2026-03-10");
  g_assert_cmpint (hs_plan_get_broken (plan, 1)->stop, ==, 1);
  g_assert_cmpstr (hs_plan_get_broken (plan, 1)->why, ==,
                   "its parts cannot be had first: Larch does not open on 2026-03-10");
  g_assert_true (hs_plan_drive_order (day, order + 1, 1, CLOCK (8, 0), &without, NULL));
  g_assert_cmpint (without->status, ==, HS_PLAN_BEST_FOUND);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/plan/twelve-by-time", test_twelve_by_time);
  g_test_add_func ("/plan/plan/twelve-open", test_twelve_open);
  g_test_add_func ("/plan/plan/large", test_large);
  g_test_add_func ("/plan/plan/give-up", test_give_up);
  g_test_add_func ("/plan/plan/same-twice", test_same_twice);
  g_test_add_func ("/plan/plan/empty", test_empty);
  g_test_add_func ("/plan/plan/waits-for-spare", test_waits_for_spare);
  g_test_add_func ("/plan/plan/rounding", test_rounding);
  g_test_add_func ("/plan/plan/bad-order", test_bad_order);
  g_test_add_func ("/plan/plan/order-with-shut-counter", test_order_with_shut_counter);
  return g_test_run ();
}
