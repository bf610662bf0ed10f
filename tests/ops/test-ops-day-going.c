// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The demo morning as it really goes: on time, late on site, late on the road, late in leaving. Its plan: leave 08:31,
 * Larch 08:38, A-0021 at Old Market 08:49 for 60 min, A-0022 at Quayside 09:55 for 40 min, Kingpost 10:46 for 10 min,
 * A-0023 11:00 for 75 min, A-0025 12:31 for 60 min, A-0024 13:48 for 90 min, A-0026 15:23 for 45 min, home 16:20. */

#include "hs-day-plan.h"

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "ops-town.h"

#include <string.h>

#define DAY "2026-03-10"
#define LAST_STOPS 8

typedef struct
{
  const char *number;
  HsStage stage;
  const char *clock;
} Move;

static void
move (OpsTown *town, const Move *to)
{
  g_autofree char *job = ops_town_job (town, to->number);
  g_autofree char *when = g_strconcat (DAY "T", to->clock, NULL);
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (town->book, job, to->stage, to->stage == HS_STAGE_WAITING_YES ? "asks her mother" : NULL,
                     ops_town_at (town, when), &error);
  g_assert_no_error (error);
}

static HsDayPlan *
going (OpsTown *town, const char *clock)
{
  g_autofree char *when = g_strconcat (strchr (clock, 'T') != NULL ? "" : DAY "T", clock, NULL);
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_standing (town->book, ops_town_day (DAY), NULL, ops_town_at (town, when), &error);

  g_assert_no_error (error);
  return plan;
}

static const HsPlannedStop *
stop_at (const HsDayPlan *plan, guint i)
{
  g_assert_cmpuint (plan->stops->len, ==, LAST_STOPS);
  return g_ptr_array_index (plan->stops, i);
}

/* One row: what has happened, what the clock shows, when A-0022 and A-0023 start and the day ends. */
static const struct
{
  Move moves[3];
  const char *now;
  const char *second;
  const char *third;
  const char *home;
  guint broken;
} days[] = {
  /* Nothing has happened and nothing should have. */
  { { { NULL } }, "08:00", "09:55", "11:00", "16:20", 0 },
  /* Still at base at 08:40: everything 9 min later, for A-0023 was to start just when its window opens. */
  { { { NULL } }, "08:40", "10:04", "11:09", "16:29", 0 },
  /* On site as planned. */
  { { { "A-0021", HS_STAGE_ROLLING, "08:46" }, { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "09:10", "09:55", "11:00",
    "16:20", 0 },
  /* Still there at 10:20; A-0022 is reached at 10:26. */
  { { { "A-0021", HS_STAGE_ROLLING, "08:46" }, { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "10:20", "10:26", "11:31",
    "16:51", 0 },
  /* Still there at 10:30: A-0022 at 10:36, 6 min after its promise. */
  { { { "A-0021", HS_STAGE_ROLLING, "08:46" }, { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "10:30", "10:36", "11:41",
    "17:01", 1 },
  /* Under way to A-0022 since 09:49; at 10:05 the van must be nearly there. */
  { { { "A-0021", HS_STAGE_ON_SITE, "08:49" }, { "A-0021", HS_STAGE_WAITING_YES, "09:49" },
      { "A-0022", HS_STAGE_ROLLING, "09:49" } }, "10:05", "10:05", "11:10", "16:30", 0 },
};

static void
test_days (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsDayPlan) plan = NULL;

      for (guint k = 0; k < G_N_ELEMENTS (days[i].moves) && days[i].moves[k].number != NULL; k++)
        move (town, &days[i].moves[k]);
      plan = going (town, days[i].now);
      g_test_message ("%u: at %s", i, days[i].now);
      g_assert_true (plan->accepted);
      ops_town_assert_clock (town, stop_at (plan, 2)->start, days[i].second);
      ops_town_assert_clock (town, stop_at (plan, 4)->start, days[i].third);
      ops_town_assert_clock (town, plan->home, days[i].home);
      g_assert_cmpuint (plan->broken->len, ==, days[i].broken);
    }
}

/* Tested good at 09:10, or waiting for a yes or a part there: what was planned to be done there is not ahead any more.
 * A-0022 opens at 08:30, so it starts on arriving, 6 min after the clock. Still at it, the sixty minutes run to
 * 09:49. */
static void
test_done_early (void)
{
  static const struct
  {
    HsStage stage;
    const char *now;
    const char *second;
  } rows[] = {
    { HS_STAGE_ON_SITE, "09:12", "09:55" },
    { HS_STAGE_PROVEN, "09:12", "09:18" },
    { HS_STAGE_PROVEN, "09:30", "09:36" },
    { HS_STAGE_WAITING_YES, "09:12", "09:18" },
    { HS_STAGE_SQUARED, "09:12", "09:18" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autofree char *job = ops_town_job (town, "A-0021");
      g_autoptr (HsDayPlan) plan = NULL;
      g_autoptr (GError) error = NULL;
      gboolean proven = rows[i].stage == HS_STAGE_PROVEN || rows[i].stage == HS_STAGE_SQUARED;

      move (town, &(Move){ "A-0021", HS_STAGE_ROLLING, "08:46" });
      move (town, &(Move){ "A-0021", HS_STAGE_ON_SITE, "08:49" });
      if (rows[i].stage == HS_STAGE_WAITING_YES)
        move (town, &(Move){ "A-0021", HS_STAGE_WAITING_YES, "09:10" });
      if (proven)
        hs_job_move_stage (town->book, job, HS_STAGE_PROVEN, "dark", ops_town_at (town, DAY "T09:10"), &error);
      if (rows[i].stage == HS_STAGE_SQUARED)
        {
          g_assert_true (hs_job_price (town->book, job, "a friend", ops_town_at (town, DAY "T09:10"), &error));
          g_assert_true (hs_job_square (town->book, job, ops_town_at (town, DAY "T09:11"), &error));
        }
      g_assert_no_error (error);
      plan = going (town, rows[i].now);
      g_test_message ("%u", i);
      ops_town_assert_clock (town, stop_at (plan, 2)->start, rows[i].second);
    }
}

/* Which promise breaks first, and whom to ring. */
static void
test_ring (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (HsDayPlan) plan = NULL;
  const HsBrokenPromise *broken;

  move (town, &(Move){ "A-0021", HS_STAGE_ON_SITE, "08:49" });
  plan = going (town, "10:30");
  broken = g_ptr_array_index (plan->broken, 0);
  g_assert_cmpstr (broken->id, ==, "A-0022");
  g_assert_cmpint (broken->late_seconds, ==, 360);
  g_assert_nonnull (strstr (broken->why, "; ring Rue Abernant, 555-0121"));
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
}

/* A-0022 is promised until 10:30. More than ten minutes before that nobody is rung, after it the broken promise says
 * whom; before the day has begun there is no one to ring from the road. */
static void
test_ring_in_the_last_minutes (void)
{
  static const struct
  {
    Move moves[3];
    const char *now;
    int spare; /* minutes; -1: nobody is rung */
    const char *why;
  } rows[] = {
    { { { NULL } }, "09:04", -1, NULL },
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "09:10", -1, NULL },
    /* Six minutes to Quayside: there at 10:20, 10:21, 10:30. */
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "10:14", -1, NULL },
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "10:15", 9, "arrives 9 min before the promise ends" },
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "10:24", 0, "arrives just as the promise ends" },
    /* Driven to since 10:23: there at 10:29, and when it is later than that, any moment. */
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" }, { "A-0021", HS_STAGE_WAITING_YES, "10:20" },
        { "A-0022", HS_STAGE_ROLLING, "10:23" } }, "10:24", 1, "arrives 1 min before the promise ends" },
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" }, { "A-0021", HS_STAGE_WAITING_YES, "10:20" },
        { "A-0022", HS_STAGE_ROLLING, "10:23" } }, "10:30", 0, "arrives just as the promise ends" },
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" }, { "A-0021", HS_STAGE_WAITING_YES, "10:20" },
        { "A-0022", HS_STAGE_ROLLING, "10:23" } }, "10:31", -1, NULL },
    /* There is no one to ring any more. */
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" }, { "A-0021", HS_STAGE_WAITING_YES, "10:20" },
        { "A-0022", HS_STAGE_ON_SITE, "10:29" } }, "10:29", -1, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsDayPlan) plan = NULL;
      const HsDayRing *ring;

      for (guint k = 0; k < G_N_ELEMENTS (rows[i].moves) && rows[i].moves[k].number != NULL; k++)
        move (town, &rows[i].moves[k]);
      plan = going (town, rows[i].now);
      g_test_message ("%u: at %s", i, rows[i].now);
      g_assert_cmpuint (plan->ring->len, ==, rows[i].spare >= 0 ? 1 : 0);
      if (rows[i].spare < 0)
        continue;
      ring = g_ptr_array_index (plan->ring, 0);
      g_assert_cmpstr (ring->id, ==, "A-0022");
      g_assert_cmpstr (ring->who, ==, "Rue Abernant");
      g_assert_cmpstr (ring->phone, ==, "555-0121");
      g_assert_cmpint (ring->spare_seconds, ==, rows[i].spare * 60);
      g_assert_cmpstr (ring->why, ==, rows[i].why);
      g_assert_cmpuint (plan->broken->len, ==, 0);
    }
}

/* What is over keeps its real times, and the figures are of the whole day, with all its miles. Nobody stamped Larch:
 * for A-0021 at 08:47 it was left at 08:44, begun at 08:36, and base left at 08:29. */
static void
test_past (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (HsDayPlan) plan = NULL;

  move (town, &(Move){ "A-0021", HS_STAGE_ROLLING, "08:44" });
  move (town, &(Move){ "A-0021", HS_STAGE_ON_SITE, "08:47" });
  plan = going (town, "08:50");
  ops_town_assert_clock (town, stop_at (plan, 0)->arrive, "08:36");
  ops_town_assert_clock (town, stop_at (plan, 0)->depart, "08:44");
  ops_town_assert_clock (town, stop_at (plan, 1)->arrive, "08:47");
  ops_town_assert_clock (town, stop_at (plan, 1)->depart, "09:47");
  ops_town_assert_clock (town, stop_at (plan, 2)->start, "09:53");
  g_assert_cmpint (plan->millimiles, ==, 33300);
  /* A-0023 waits until 11:00 all the same: home is as planned. 16:20 − 08:29 = 471 min, 753.60 and 13.99. */
  ops_town_assert_clock (town, plan->home, "16:20");
  ops_town_assert_clock (town, plan->leave, "08:29");
  g_assert_cmpint (plan->cost_cents, ==, 76759);
}

/* Another day, and a day without an accepted order, are as they were. */
static void
test_not_going (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (OpsTown) fresh = ops_town_new ();
  g_autoptr (HsDayPlan) other = going (town, "2026-03-09T12:00");
  g_autoptr (HsDayPlan) later = going (town, "2026-03-11T12:00");
  g_autoptr (HsDayPlan) none = going (fresh, "12:00");
  g_autoptr (GError) error = NULL;

  ops_town_assert_clock (town, other->leave, "08:31");
  ops_town_assert_clock (town, later->home, "16:20");
  g_assert_cmpuint (none->stops->len, ==, 0);
  g_assert_null (hs_day_plan_standing (town->book, ops_town_day (DAY), "Z", ops_town_now (town), &error));
  g_assert_nonnull (error);
}

static const HsPlannedStop *
find_stop (const HsDayPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->stops->len; i++)
    if (g_str_equal (((const HsPlannedStop *) g_ptr_array_index (plan->stops, i))->id, id))
      return g_ptr_array_index (plan->stops, i);
  g_assert_not_reached ();
}

/* The ids of the stops, the first letters of a counter's name. */
static char *
order_of (const HsDayPlan *plan)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      g_string_append_printf (text, "%s%.6s", i > 0 ? " " : "", stop->id);
    }
  return g_string_free (text, FALSE);
}

/* Before and after Larch opens at 08:00: on the way to A-0021 it is still ahead. */
static void
test_rolling (void)
{
  static const struct
  {
    const char *rolling;
    const char *now;
    const char *counter;
    const char *first;
    const char *home;
  } rows[] = {
    /* There at 06:52, and nothing to do until 08:00. */
    { "06:45", "06:46", "06:52", "08:11", "16:20" },
    { "08:31", "08:32", "08:38", "08:49", "16:20" },
    /* She should be at A-0021 at 08:49 and is not: all is 6 min later. */
    { "08:31", "08:55", "08:44", "08:55", "16:26" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsDayPlan) plan = NULL;

      move (town, &(Move){ "A-0021", HS_STAGE_ROLLING, rows[i].rolling });
      plan = going (town, rows[i].now);
      ops_town_assert_clock (town, stop_at (plan, 0)->arrive, rows[i].counter);
      ops_town_assert_clock (town, stop_at (plan, 1)->start, rows[i].first);
      ops_town_assert_clock (town, plan->home, rows[i].home);
      ops_town_assert_clock (town, plan->leave, rows[i].rolling);
    }
}

/* Larch is on the way to A-0021, from 06:52 or 08:38 to 08:08 or 08:46; on the way to A-0022 there is nothing, and what
 * comes after that is Kingpost. */
static void
test_next (void)
{
  static const struct
  {
    Move moves[3];
    const char *now;
    guint next;
  } rows[] = {
    { { { NULL } }, "08:00", 0 },
    { { { "A-0021", HS_STAGE_ROLLING, "06:45" } }, "06:46", 0 },
    { { { "A-0021", HS_STAGE_ROLLING, "06:45" } }, "08:07", 0 },
    { { { "A-0021", HS_STAGE_ROLLING, "06:45" } }, "08:09", 2 },
    { { { "A-0021", HS_STAGE_ROLLING, "08:31" } }, "08:32", 0 },
    { { { "A-0021", HS_STAGE_ROLLING, "08:31" } }, "08:47", 2 },
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" } }, "08:50", 2 },
    { { { "A-0021", HS_STAGE_ON_SITE, "08:49" }, { "A-0021", HS_STAGE_WAITING_YES, "09:49" },
        { "A-0022", HS_STAGE_ROLLING, "09:49" } }, "09:50", 3 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsDayPlan) plan = NULL;
      g_autofree char *when = g_strconcat (DAY "T", rows[i].now, NULL);

      for (guint k = 0; k < G_N_ELEMENTS (rows[i].moves) && rows[i].moves[k].number != NULL; k++)
        move (town, &rows[i].moves[k]);
      plan = going (town, rows[i].now);
      g_test_message ("%u: at %s", i, rows[i].now);
      g_assert_cmpuint (hs_day_plan_next (plan, ops_town_at (town, when)), ==, rows[i].next);
    }
}

/* Reached before Larch opened: the starter is missing, and Larch is still ahead. */
static void
test_shut (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autofree char *order = NULL;
  const HsBrokenPromise *broken;

  move (town, &(Move){ "A-0021", HS_STAGE_ROLLING, "07:30" });
  move (town, &(Move){ "A-0021", HS_STAGE_ON_SITE, "07:40" });
  plan = going (town, "07:45");
  order = order_of (plan);
  g_assert_true (g_str_has_prefix (order, "A-0021 Larch "));
  g_assert_cmpuint (plan->broken->len, ==, 1);
  broken = g_ptr_array_index (plan->broken, 0);
  g_assert_cmpstr (broken->id, ==, "A-0021");
  g_assert_nonnull (strstr (broken->why, "was not picked up: Larch & Weir Auto Electrical was still shut"));
  g_assert_true (g_str_has_prefix (broken->why, "it is being done without its part, and the plan does not come back"));
}

/* A-0022 is taken before A-0021: that is still ahead, and so is its counter no more, for it lay before A-0022. */
static void
test_passed_over (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autofree char *order = NULL;

  move (town, &(Move){ "A-0022", HS_STAGE_ROLLING, "08:40" });
  move (town, &(Move){ "A-0022", HS_STAGE_ON_SITE, "08:55" });
  plan = going (town, "09:00");
  order = order_of (plan);
  g_assert_true (g_str_has_prefix (order, "Larch  A-0022 A-0021 Kingpo A-0023 "));
  /* 40 min there, 6 min to Old Market. */
  ops_town_assert_clock (town, find_stop (plan, "A-0021")->start, "09:41");
}

static HsDayPlan *
anew (OpsTown *town, const char *clock)
{
  g_autofree char *when = g_strconcat (DAY "T", clock, NULL);
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_make (town->book, ops_town_day (DAY), NULL, ops_town_at (town, when), &error);

  g_assert_no_error (error);
  return plan;
}

/* Planned anew at ten, at A-0021 and an hour late: it starts from there, and what is done stays. Accepting it changes
 * nothing of that. */
static void
test_anew (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (HsDayPlan) after = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *order = NULL;
  g_autofree char *kept = NULL;

  move (town, &(Move){ "A-0021", HS_STAGE_ON_SITE, "09:50" });
  plan = anew (town, "10:00");
  g_assert_false (plan->accepted);
  order = order_of (plan);
  g_assert_true (g_str_has_prefix (order, "Larch  A-0021 "));
  ops_town_assert_clock (town, stop_at (plan, 1)->arrive, "09:50");
  /* Done there at 10:50, and A-0022 was promised by 10:30. */
  g_assert_cmpint (stop_at (plan, 2)->arrive, >, stop_at (plan, 1)->depart);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpstr (((HsBrokenPromise *) g_ptr_array_index (plan->broken, 0))->id, ==, "A-0022");
  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  after = going (town, "10:00");
  kept = order_of (after);
  g_assert_true (after->accepted);
  g_assert_cmpstr (kept, ==, order);
  g_assert_cmpint (after->home, ==, plan->home);
}

/* Nobody has accepted anything, and it is 09:20: the day starts now. A-0021 is then reached at 09:38. */
static void
test_late_and_unplanned (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (HsDayPlan) early = NULL;

  ops_town_add_morning (town);
  early = going (town, "06:45");
  ops_town_assert_clock (town, early->leave, "08:31");
  plan = going (town, "09:20");
  g_assert_false (plan->accepted);
  ops_town_assert_clock (town, plan->leave, "09:20");
  ops_town_assert_clock (town, find_stop (plan, "A-0021")->start, "09:38");
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_nonnull (strstr (((HsBrokenPromise *) g_ptr_array_index (plan->broken, 0))->why, "; ring "));
}

/* The first call that begins fixes the plan, so that nothing of the day is lost. */
static void
test_fixed (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autofree char *order = NULL;

  ops_town_add_morning (town);
  move (town, &(Move){ "A-0021", HS_STAGE_ROLLING, "08:31" });
  plan = going (town, "08:33");
  g_assert_true (plan->accepted);
  order = order_of (plan);
  g_assert_cmpstr (order, ==, "Larch  A-0021 A-0022 Kingpo A-0023 A-0025 A-0024 A-0026");
  ops_town_assert_clock (town, plan->home, "16:20");
}

/* One more call while she is at A-0021: no offer is before what has begun, nor before 09:49; the first is after it. */
static void
test_squeezed (void)
{
  g_autoptr (OpsTown) town = ops_town_new_accepted ();
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GError) error = NULL;
  guint first = 0;

  move (town, &(Move){ "A-0021", HS_STAGE_ON_SITE, "08:49" });
  offers = hs_day_squeeze (town->book, ops_town_day (DAY), NULL, "O", 40 * 60, 8 * 60, 17 * 60, FALSE,
                           ops_town_at (town, DAY "T09:00"), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (offers->len, ==, 7);
  for (guint i = 0; i < offers->len; i++)
    {
      const HsOffer *offer = g_ptr_array_index (offers, i);

      g_assert_nonnull (offer->after);
      first += g_str_equal (offer->after, "A-0021");
      g_assert_cmpint (offer->start, >=, ops_town_at (town, DAY "T09:49"));
      g_assert_true (offer->free_from == HS_INSTANT_NONE || offer->free_from <= offer->free_to);
      g_assert_true (offer->free_to == HS_INSTANT_NONE || offer->free_to <= ops_town_at (town, "2026-03-11T00:00"));
    }
  g_assert_cmpuint (first, ==, 1);
}

/* A counter that shuts for the day after the order was accepted: what stands says so, before and on the way. */
static void
test_shut_since (void)
{
  static const struct
  {
    const char *clock;
    gboolean rolls;
  } rows[] = {
    { "06:50", FALSE },
    { "08:35", TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Move rolling = { "A-0021", HS_STAGE_ROLLING, "08:31" };
      g_autoptr (OpsTown) town = ops_town_new_accepted ();
      g_autoptr (HsDayPlan) plan = NULL;
      const char *why = NULL;

      ops_town_add (town, "holidays", "supplier,date,opens,shuts,words\n"
                                      "Kingpost Parts Counter," DAY ",,,Founders' Day\n");
      if (rows[i].rolls)
        move (town, &rolling);
      plan = going (town, rows[i].clock);
      for (guint k = 0; k < plan->broken->len; k++)
        {
          const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, k);

          g_test_message ("%s: %s", broken->id, broken->why);
          if (g_str_equal (broken->id, "Kingpost Parts Counter"))
            why = broken->why;
        }
      g_assert_cmpstr (why, ==, "Kingpost Parts Counter does not open on " DAY ": Founders' Day");
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-going/days", test_days);
  g_test_add_func ("/ops/day-going/done-early", test_done_early);
  g_test_add_func ("/ops/day-going/ring", test_ring);
  g_test_add_func ("/ops/day-going/ring-in-the-last-minutes", test_ring_in_the_last_minutes);
  g_test_add_func ("/ops/day-going/past", test_past);
  g_test_add_func ("/ops/day-going/not-going", test_not_going);
  g_test_add_func ("/ops/day-going/rolling", test_rolling);
  g_test_add_func ("/ops/day-going/next", test_next);
  g_test_add_func ("/ops/day-going/shut", test_shut);
  g_test_add_func ("/ops/day-going/shut-since", test_shut_since);
  g_test_add_func ("/ops/day-going/passed-over", test_passed_over);
  g_test_add_func ("/ops/day-going/anew", test_anew);
  g_test_add_func ("/ops/day-going/late-and-unplanned", test_late_and_unplanned);
  g_test_add_func ("/ops/day-going/fixed", test_fixed);
  g_test_add_func ("/ops/day-going/squeezed", test_squeezed);
  return g_test_run ();
}
