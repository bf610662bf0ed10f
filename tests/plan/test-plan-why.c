// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days that cannot be kept: the words for each, and that the best order still comes out. */

#include "hs-plan-why.h"

#include "plan-morning.h"

#include <string.h>

#define MAX_SMALL 6

typedef struct
{
  const char *id;
  HsDayStopKind kind;
  gint32 minutes;
  gint32 from;
  gint32 to;
  guint64 after;
} SmallStop;

typedef struct
{
  const char *name;
  gint32 home_by;
  SmallStop stops[MAX_SMALL];
  const char *broken[MAX_SMALL];
  guint in_order;
} SmallDay;

#define CALL HS_DAY_STOP_CALL
#define COUNTER HS_DAY_STOP_COUNTER
#define SHUT (-1)
#define LATE_HOME CLOCK (23, 0)

/* One place, 12 min from start to stop and 10 min from stop to stop; leaving at 08:00 and not later than 09:00. */
static const SmallDay days[] = {
  { "alone",
    LATE_HOME,
    { { "A-1", CALL, 30, CLOCK (7, 0), CLOCK (8, 5), 0 } },
    { "A-1 420: even as the first stop it is 08:12 before work can start; the promise ends 08:05" },
    1 },
  { "counter opens too late",
    LATE_HOME,
    { { "Larch & Weir", COUNTER, 8, CLOCK (9, 0), CLOCK (12, 0), 0 },
      { "A-1", CALL, 30, CLOCK (8, 0), CLOCK (9, 0), 1 } },
    { "A-1 1080: even straight after Larch & Weir (opens at 09:00) it is 09:18 before work can start; the promise "
      "ends 09:00" },
    2 },
  { "counter shuts too early",
    LATE_HOME,
    { { "Kingpost", COUNTER, 20, CLOCK (7, 0), CLOCK (8, 20), 0 } },
    { "Kingpost 720: even as the first stop it is 08:12 before the stop can start; it takes 20 min and the counter "
      "shuts at 08:20" },
    1 },
  { "two promises",
    LATE_HOME,
    { { "A-1", CALL, 60, CLOCK (8, 0), CLOCK (9, 0), 0 },
      { "A-2", CALL, 60, CLOCK (8, 0), CLOCK (9, 0), 0 },
      { "A-3", CALL, 60, CLOCK (8, 0), CLOCK (22, 0), 0 } },
    { "A-2 1320: A-2 and A-1 can't both be met" },
    3 },
  { "too much",
    LATE_HOME,
    { { "A-1", CALL, 60, CLOCK (8, 0), CLOCK (9, 30), 0 },
      { "A-2", CALL, 60, CLOCK (8, 0), CLOCK (9, 30), 0 },
      { "A-3", CALL, 60, CLOCK (8, 0), CLOCK (9, 30), 0 } },
    { "A-3 3720: A-3, A-1 and A-2 can't all be met" },
    3 },
  { "shut all day",
    LATE_HOME,
    { { "Larch & Weir", COUNTER, 8, SHUT, SHUT, 0 }, { "A-1", CALL, 30, CLOCK (8, 0), CLOCK (9, 0), 1 } },
    { "Larch & Weir 0: Larch & Weir does not open on this day",
      "A-1 0: its parts cannot be had first: Larch & Weir does not open on this day" },
    1 },
  { "never open for long enough",
    LATE_HOME,
    { { "Kingpost", COUNTER, 90, CLOCK (8, 0), CLOCK (9, 0), 0 } },
    { "Kingpost 0: Kingpost is never open for the 1 h 30 min that the stop takes" },
    0 },
  { "ring",
    LATE_HOME,
    { { "A-1", CALL, 30, CLOCK (8, 0), CLOCK (12, 0), 2 },
      { "A-2", CALL, 30, CLOCK (8, 0), CLOCK (12, 0), 1 },
      { "A-3", CALL, 30, CLOCK (8, 0), CLOCK (12, 0), 1 } },
    { "A-1 0: it and A-2 are each set to come before the other",
      "A-2 0: it and A-1 are each set to come before the other" },
    3 },
  { "long ring",
    LATE_HOME,
    { { "A-1", CALL, 30, CLOCK (8, 0), CLOCK (12, 0), 4 },
      { "A-2", CALL, 30, CLOCK (8, 0), CLOCK (12, 0), 1 },
      { "A-3", CALL, 30, CLOCK (8, 0), CLOCK (12, 0), 2 } },
    { "A-1 0: it and A-2 are each set to come before the other",
      "A-2 0: it and A-1 are each set to come before the other",
      "A-3 0: it and A-1 are each set to come before the other" },
    3 },
  { "before itself",
    LATE_HOME,
    { { "A-1", CALL, 30, CLOCK (8, 0), CLOCK (12, 0), 1 } },
    { "A-1 0: it is set to come before itself" },
    1 },
  { "home",
    CLOCK (9, 0),
    { { "A-1", CALL, 60, CLOCK (8, 0), CLOCK (12, 0), 0 } },
    { "home 1440: home only at 09:24, 24 min after the 09:00 that was set" },
    1 },
  { "past midnight",
    CLOCK (24, 0),
    { { "A-1", CALL, 60, CLOCK (23, 30), CLOCK (23, 50), 0 } },
    { "home 2520: home only at 00:42 the next day, 42 min after the 00:00 the next day that was set" },
    1 },
  { "too much, and one that has nothing to do with it",
    LATE_HOME,
    { { "A-0", CALL, 60, CLOCK (8, 0), CLOCK (22, 0), 0 },
      { "A-1", CALL, 60, CLOCK (8, 0), CLOCK (9, 30), 0 },
      { "A-2", CALL, 60, CLOCK (8, 0), CLOCK (9, 30), 0 },
      { "A-3", CALL, 60, CLOCK (8, 0), CLOCK (9, 30), 0 } },
    { "A-3 3720: A-3, A-1 and A-2 can't all be met" },
    4 },
  { "too much for four",
    LATE_HOME,
    { { "A-1", CALL, 60, CLOCK (8, 0), CLOCK (10, 50), 0 },
      { "A-2", CALL, 60, CLOCK (8, 0), CLOCK (10, 50), 0 },
      { "A-3", CALL, 60, CLOCK (8, 0), CLOCK (10, 50), 0 },
      { "A-4", CALL, 60, CLOCK (8, 0), CLOCK (10, 50), 0 } },
    { "A-4 3120: A-4, A-1, A-2 and A-3 can't all be met" },
    4 },
  /* A-6 can start by 08:50 with one short call before it and is over at 11:02, or 11:22 with that: by 11:30 there is
   * room for one more short call, by 12:00 for one long one. Without it all is done at 11:12. */
  { "three are fewer than four",
    LATE_HOME,
    { { "A-1", CALL, 50, CLOCK (8, 0), CLOCK (12, 0), 0 },
      { "A-2", CALL, 50, CLOCK (8, 0), CLOCK (12, 0), 0 },
      { "A-3", CALL, 10, CLOCK (8, 0), CLOCK (11, 30), 0 },
      { "A-4", CALL, 10, CLOCK (8, 0), CLOCK (11, 30), 0 },
      { "A-5", CALL, 10, CLOCK (8, 0), CLOCK (11, 30), 0 },
      { "A-6", CALL, 160, CLOCK (8, 0), CLOCK (8, 50), 0 } },
    { "A-6 8520: A-6, A-1 and A-2 can't all be met" },
    6 },
  { "two that are late are not in each other's way",
    LATE_HOME,
    { { "A-1", CALL, 30, CLOCK (8, 0), CLOCK (9, 0), 0 },
      { "A-2", CALL, 30, CLOCK (8, 0), CLOCK (9, 0), 0 },
      { "X-1", CALL, 60, CLOCK (8, 0), CLOCK (9, 0), 0 },
      { "X-2", CALL, 60, CLOCK (8, 0), CLOCK (9, 0), 0 } },
    { "X-1 1920: X-1, A-1 and A-2 can't all be met", "X-2 6120: X-2, A-1 and A-2 can't all be met" },
    4 },
};

static HsDay *
make_day (const SmallDay *small)
{
  HsDay *day = hs_day_new (2);

  hs_day_set_leg (day, 0, 1, 12 * 60, 5000);
  hs_day_set_leg (day, 1, 0, 12 * 60, 5000);
  hs_day_set_leg (day, 1, 1, 10 * 60, 3000);
  day->leave_from_seconds = CLOCK (8, 0);
  day->leave_to_seconds = CLOCK (9, 0);
  day->home_by_seconds = small->home_by;
  day->minute_cents = 160;
  day->mile_cents = 42;
  for (guint i = 0; i < MAX_SMALL && small->stops[i].id != NULL; i++)
    {
      const SmallStop *stop = &small->stops[i];

      hs_day_add_stop (day, stop->id, stop->kind, 1, stop->minutes * 60);
      ((HsDayStop *) g_ptr_array_index (day->stops, i))->after = stop->after;
      if (stop->from == SHUT)
        ((HsDayStop *) g_ptr_array_index (day->stops, i))->shut = TRUE;
      else
        hs_day_add_span (day, i, stop->from, stop->to);
    }
  return day;
}

static gboolean
stands_in (const HsPlan *plan, const HsDay *day, const char *expected)
{
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (plan, i);
      const char *id = broken->stop == HS_DAY_NO_STOP ? "home" : hs_day_get_stop (day, (guint) broken->stop)->id;
      g_autofree char *text = g_strdup_printf ("%s %d: %s", id, broken->late_seconds, broken->why);

      if (strcmp (text, expected) == 0)
        return TRUE;
      g_test_message ("%s", text);
    }
  return FALSE;
}

static void
test_words (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      g_autoptr (HsDay) day = make_day (&days[i]);
      g_autoptr (HsPlan) plan = NULL;
      g_autoptr (GError) error = NULL;
      guint expected = 0;

      g_test_message ("%s", days[i].name);
      hs_plan_solve (day, NULL, NULL, &plan, &error);
      g_assert_no_error (error);
      g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
      g_assert_true (plan->proven);
      for (; expected < MAX_SMALL && days[i].broken[expected] != NULL; expected++)
        g_assert_true (stands_in (plan, day, days[i].broken[expected]));
      g_assert_cmpuint (plan->broken->len, ==, expected);
      g_assert_cmpuint (plan->stops->len, ==, days[i].in_order);
    }
}

/* A day that has a name of its own is named, in a copy too. */
static void
test_named_day (void)
{
  g_autoptr (HsDay) day = make_day (&days[5]);
  g_autoptr (HsDay) copy = NULL;
  g_autoptr (HsPlan) plan = NULL;

  g_assert_cmpstr (days[5].name, ==, "shut all day");
  hs_day_shut_stop (day, 0, "2026-07-03: Founders' Day");
  copy = hs_day_copy (day);
  hs_day_shut_stop (day, 0, NULL);
  g_assert_true (hs_plan_solve (copy, NULL, NULL, &plan, NULL));
  g_assert_cmpuint (plan->broken->len, ==, 2);
  g_assert_true (stands_in (plan, copy, "Larch & Weir 0: Larch & Weir does not open on 2026-07-03: Founders' Day"));
  g_assert_true (stands_in (plan, copy,
                            "A-1 0: its parts cannot be had first: Larch & Weir does not open on 2026-07-03: "
                            "Founders' Day"));
}

/* The ring is cut, what hangs on it still comes after. */
static void
test_ring_order (void)
{
  g_autoptr (HsDay) day = make_day (&days[7]);
  g_autoptr (HsPlan) plan = NULL;
  guint at[3];

  g_assert_cmpstr (days[7].name, ==, "ring");
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (guint k = 0; k < 3; k++)
    at[hs_plan_get_stop (plan, k)->stop] = k;
  g_assert_cmpuint (at[0], <, at[2]);
}

/* On the demo morning two calls on opposite sides promised for the same half hour. */
static void
test_demo_conflict (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;
  HsDaySpan noon = { CLOCK (12, 0), CLOCK (12, 30) };
  const HsPlanBroken *broken;

  g_array_index (hs_day_get_stop (day, A23)->spans, HsDaySpan, 0) = noon;
  g_array_index (hs_day_get_stop (day, A25)->spans, HsDaySpan, 0) = noon;
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->stops->len, ==, MORNING_STOPS);
  g_assert_cmpuint (plan->broken->len, ==, 1);
  broken = hs_plan_get_broken (plan, 0);
  g_assert_true (broken->stop == A23 || broken->stop == A25);
  g_assert_cmpint (broken->late_seconds, >, 0);
  g_assert_cmpint (plan->spare_seconds, ==, -broken->late_seconds);
  g_assert_cmpstr (broken->why, ==,
                   broken->stop == A23 ? "A-0023 and A-0025 can't both be met"
                                       : "A-0025 and A-0023 can't both be met");
}

/* Clocks that are put forward show it. */
static void
test_clock (void)
{
  g_autoptr (HsDay) day = hs_day_new (1);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_autofree char *next = NULL;

  day->change_seconds = CLOCK (2, 0);
  day->change_by_seconds = 3600;
  before = hs_why_clock (day, CLOCK (2, 0) - 1);
  after = hs_why_clock (day, CLOCK (2, 0));
  next = hs_why_clock (day, CLOCK (23, 0));
  g_assert_cmpstr (before, ==, "01:59");
  g_assert_cmpstr (after, ==, "03:00");
  g_assert_cmpstr (next, ==, "00:00 the next day");
}

/* Random days ------------------------------------------------------------------------------------------------------ */

/* Whether all of @set can be started in time from @at on, by trying every order; leaves are not held back. */
static gboolean
all_in_time (const SmallDay *small, guint set, gint32 at, gboolean is_first)
{
  if (set == 0)
    return TRUE;
  for (guint i = 0; i < MAX_SMALL; i++)
    {
      gint32 start = MAX (at + (is_first ? 12 : 10) * 60, small->stops[i].from);

      if ((set >> i & 1) != 0 && start <= small->stops[i].to
          && all_in_time (small, set & ~(1u << i), start + small->stops[i].minutes * 60, FALSE))
        return TRUE;
    }
  return FALSE;
}

/* How many of @kept must stand beside @stop before not all can be in time. */
static guint
fewest_beside (const SmallDay *small, guint kept, guint stop)
{
  guint fewest = MAX_SMALL;

  for (guint set = 0; set < 1u << MAX_SMALL; set++)
    if ((set & ~kept) == 0 && !all_in_time (small, set | 1u << stop, CLOCK (8, 0), TRUE))
      fewest = MIN (fewest, (guint) __builtin_popcount (set));
  return fewest;
}

static guint
count_names (const char *why)
{
  guint n = 0;

  for (const char *at = strstr (why, "A-"); at != NULL; at = strstr (at + 1, "A-"))
    n++;
  return n;
}

/* Checks every reason of a plan; returns how many named three or more. */
static guint
check_reasons (const SmallDay *small, const HsPlan *plan)
{
  guint kept = 0;
  guint n_large = 0;

  for (guint k = 0; k < plan->stops->len; k++)
    if (hs_plan_get_stop (plan, k)->late_seconds == 0)
      kept |= 1u << hs_plan_get_stop (plan, k)->stop;
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (plan, i);
      guint fewest = fewest_beside (small, kept, (guint) broken->stop);

      g_test_message ("%s", broken->why);
      if (fewest == 0)
        g_assert_true (g_str_has_prefix (broken->why, "even as the first stop"));
      else
        g_assert_cmpuint (count_names (broken->why), ==, fewest + 1);
      n_large += fewest >= 2;
    }
  return n_large;
}

/* No reason names more than it takes; with what it takes tried out here, order by order. */
static void
test_fewest (void)
{
  static const char *const ids[MAX_SMALL] = { "A-1", "A-2", "A-3", "A-4", "A-5", "A-6" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  guint n_large = 0;

  for (guint n = 0; n < 400; n++)
    {
      SmallDay small = { .home_by = LATE_HOME };
      g_autoptr (HsDay) day = NULL;
      g_autoptr (HsPlan) plan = NULL;

      for (guint i = 0; i < MAX_SMALL; i++)
        {
          gint32 from = CLOCK (8, 0) + g_rand_int_range (rand, 0, 4) * 1800;

          small.stops[i] = (SmallStop){ ids[i], CALL, 10 * g_rand_int_range (rand, 1, 14), from,
                                        from + g_rand_int_range (rand, 2, 16) * 900, 0 };
        }
      day = make_day (&small);
      g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
      n_large += check_reasons (&small, plan);
    }
  g_assert_cmpuint (n_large, >=, 40);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/why/words", test_words);
  g_test_add_func ("/plan/why/named-day", test_named_day);
  g_test_add_func ("/plan/why/ring-order", test_ring_order);
  g_test_add_func ("/plan/why/demo-conflict", test_demo_conflict);
  g_test_add_func ("/plan/why/clock", test_clock);
  g_test_add_func ("/plan/why/fewest", test_fewest);
  return g_test_run ();
}
