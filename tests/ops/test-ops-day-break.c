// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The demo morning with a break of half an hour between 12:00 and 13:30. Without it the plan is: A-0023 11:00 to 12:15,
 * A-0025 12:31 to 13:31, A-0024 13:48, A-0026 15:23, home 16:20, and nowhere a wait. So the break begins after A-0023,
 * at 12:15, and all that follows is half an hour later. Hours that belong to one van alone are here too. */

#include "hs-day-plan.h"

#include "hs-job-op.h"
#include "hs-settings-op.h"
#include "hs-visit-row.h"
#include "ops-town.h"

#include <string.h>

#define DAY "2026-03-10"
#define LAST_STOPS 8

static void
set (OpsTown *town, const char *key, const char *value)
{
  g_autoptr (GError) error = NULL;

  hs_settings_set (town->book, key, value, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static OpsTown *
town_with_break (void)
{
  OpsTown *town = ops_town_new ();

  ops_town_add_morning (town);
  set (town, "break_minutes", "30");
  set (town, "break_from", "12:00");
  set (town, "break_to", "13:30");
  return town;
}

static HsDayPlan *
make (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_make (town->book, ops_town_day (DAY), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return plan;
}

static const HsPlannedStop *
stop_at (const HsDayPlan *plan, guint i)
{
  g_assert_cmpuint (plan->stops->len, ==, LAST_STOPS);
  return g_ptr_array_index (plan->stops, i);
}

static void
test_planned (void)
{
  g_autoptr (OpsTown) town = town_with_break ();
  g_autoptr (HsDayPlan) plan = make (town);
  g_autoptr (HsDayPlan) without = NULL;

  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpstr (stop_at (plan, 4)->id, ==, "A-0023");
  ops_town_assert_clock (town, stop_at (plan, 4)->break_from, "12:15");
  ops_town_assert_clock (town, stop_at (plan, 4)->break_to, "12:45");
  ops_town_assert_clock (town, plan->break_from, "12:15");
  ops_town_assert_clock (town, stop_at (plan, 5)->arrive, "13:01");
  ops_town_assert_clock (town, plan->leave, "08:31");
  ops_town_assert_clock (town, plan->home, "16:50");
  set (town, "break_minutes", "0");
  without = make (town);
  g_assert_cmpint (without->break_from, ==, HS_INSTANT_NONE);
  g_assert_cmpint (stop_at (without, 4)->break_from, ==, HS_INSTANT_NONE);
  ops_town_assert_clock (town, without->home, "16:20");
  g_assert_cmpint (plan->cost_cents - without->cost_cents, ==, 30 * 160);
}

/* No break of an hour in half an hour. */
static void
test_refused (void)
{
  g_autoptr (OpsTown) town = town_with_break ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (GError) error = NULL;

  set (town, "break_minutes", "60");
  set (town, "break_to", "12:30");
  plan = hs_day_plan_make (town->book, ops_town_day (DAY), NULL, HS_INSTANT_NONE, &error);
  g_assert_null (plan);
  g_assert_cmpstr (error->message, ==,
                   "A break of 60 min does not fit between break_from and break_to: set one of the three");
}

static void
move (OpsTown *town, const char *number, HsStage stage, const char *clock)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autofree char *when = g_strconcat (DAY "T", clock, NULL);
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (town->book, job, stage, NULL, ops_town_at (town, when), &error);
  g_assert_no_error (error);
}

static void
reach_third (OpsTown *town)
{
  move (town, "A-0021", HS_STAGE_ON_SITE, "08:49");
  move (town, "A-0022", HS_STAGE_ON_SITE, "09:55");
  move (town, "A-0023", HS_STAGE_ON_SITE, "11:00");
}

static void
leave (OpsTown *town, const char *number, const char *clock)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autofree char *job = ops_town_job (town, number);
  g_autofree char *when = g_strconcat (DAY "T", clock, NULL);
  g_autoptr (GPtrArray) visits = NULL;
  HsVisitRow *visit;

  g_assert_true (hs_visit_row_list_of (store, job, &visits, NULL));
  visit = g_ptr_array_index (visits, visits->len - 1);
  visit->left_at = ops_town_at (town, when);
  g_assert_true (hs_store_begin (store, visit->left_at, NULL));
  g_assert_true (hs_store_end (store, hs_visit_row_save (store, visit, NULL), NULL));
}

/* A-0021 and A-0022 are done, and she got to A-0023 at 11:00: when she left it and set out for A-0025 (NULL: not yet),
 * what the clock shows, when the break begins (NULL: none on the road), when A-0025 starts and the day ends. */
static const struct
{
  const char *left;
  const char *rolling;
  const char *now;
  const char *break_from;
  const char *next;
  const char *home;
} days[] = {
  { NULL, NULL, "12:00", "12:15", "13:01", "16:50" },
  { NULL, NULL, "12:30", "12:30", "13:16", "17:05" },
  /* It began when she was done, and is half over. */
  { "12:15", NULL, "12:30", "12:15", "13:01", "16:50" },
  { "12:25", NULL, "12:30", "12:25", "13:11", "17:00" },
  /* Done before it may begin; nothing to do but to wait for it. */
  { "11:40", NULL, "11:50", "12:00", "12:46", "16:35" },
  /* She drove on at 12:50: it is behind her. */
  { "12:15", "12:50", "12:55", "12:15", "13:06", "16:55" },
  /* It should have been over at 12:50, but she is still there at 14:00. */
  { "12:20", NULL, "14:00", "12:20", "14:16", "18:05" },
  /* Still at A-0023 at 13:10: too late for it, and so it is had at home. */
  { NULL, NULL, "13:10", NULL, "13:26", "17:15" },
};

static void
test_going (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      g_autoptr (OpsTown) town = town_with_break ();
      g_autoptr (HsDayPlan) plan = make (town);
      g_autoptr (GError) error = NULL;
      g_autofree char *now = g_strconcat (DAY "T", days[i].now, NULL);

      g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
      reach_third (town);
      if (days[i].left != NULL)
        leave (town, "A-0023", days[i].left);
      if (days[i].rolling != NULL)
        move (town, "A-0025", HS_STAGE_ROLLING, days[i].rolling);
      g_clear_pointer (&plan, hs_day_plan_free);
      plan = hs_day_plan_standing (town->book, ops_town_day (DAY), NULL, ops_town_at (town, now), &error);
      g_assert_no_error (error);
      g_test_message ("%u: at %s", i, days[i].now);
      if (days[i].break_from != NULL)
        ops_town_assert_clock (town, plan->break_from, days[i].break_from);
      else
        g_assert_cmpint (plan->break_from, ==, HS_INSTANT_NONE);
      ops_town_assert_clock (town, stop_at (plan, 5)->start, days[i].next);
      ops_town_assert_clock (town, plan->home, days[i].home);
    }
}

/* The last of the rows above, in words: 17:15 is 4 h 15 min after 13:00, when the break could begin at the latest. */
static void
test_broken (void)
{
  g_autoptr (OpsTown) town = town_with_break ();
  g_autoptr (HsDayPlan) plan = make (town);
  g_autoptr (GError) error = NULL;
  const HsBrokenPromise *broken;

  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  reach_third (town);
  g_clear_pointer (&plan, hs_day_plan_free);
  plan = hs_day_plan_standing (town->book, ops_town_day (DAY), NULL, ops_town_at (town, DAY "T13:10"), &error);
  g_assert_no_error (error);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->broken->len, ==, 1);
  broken = g_ptr_array_index (plan->broken, 0);
  g_assert_cmpstr (broken->id, ==, "break");
  g_assert_cmpint (broken->late_seconds, ==, 255 * 60);
  g_assert_cmpstr (broken->why, ==, "no break of 30 min between 12:00 and 13:30");
}

/* The helper's van may have hours of its own; what is not set for it is as for all. */
static void
test_one_van (void)
{
  g_autoptr (OpsTown) town = town_with_break ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autofree char *own = NULL;
  g_autofree char *general = NULL;

  set (town, "A.break_minutes", "45");
  set (town, "A.leave_from", "8:40");
  plan = make (town);
  ops_town_assert_clock (town, plan->break_from, "12:24");
  ops_town_assert_clock (town, plan->break_to, "13:09");
  ops_town_assert_clock (town, plan->leave, "08:40");
  own = hs_settings_dup_of_van (town->book, "A", "break_minutes", NULL);
  general = hs_settings_dup_of_van (town->book, "B", "break_minutes", NULL);
  g_assert_cmpstr (own, ==, "45");
  g_assert_cmpstr (general, ==, "30");
  set (town, "A.break_minutes", " ");
  set (town, "A.leave_from", "");
  g_clear_pointer (&plan, hs_day_plan_free);
  plan = make (town);
  ops_town_assert_clock (town, plan->leave, "08:31");
  ops_town_assert_clock (town, plan->break_to, "12:45");
}

static void
test_one_van_listed (void)
{
  static const struct
  {
    const char *key;
    const char *value;
    const char *said;
  } rows[] = {
    { "Z.home_by", "17:00", "Z.home_by: the book has no van Z." },
    { "A.home_by", "five", "home_by: " },
    { "A.spare_minutes", "5", "There is no setting “A.spare_minutes”." },
    { "A.", "5", "There is no setting “A.”." },
  };
  g_autoptr (OpsTown) town = town_with_break ();
  g_autoptr (GPtrArray) before = hs_settings_list (town->book, NULL);
  g_autoptr (GPtrArray) after = NULL;
  g_autofree char *unset = NULL;
  const HsSetting *own;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_settings_set (town->book, rows[i].key, rows[i].value, ops_town_now (town), &error));
      g_assert_true (g_str_has_prefix (error->message, rows[i].said));
    }
  set (town, "vans", "A,B");
  set (town, "B.home_by", "17:00");
  after = hs_settings_list (town->book, NULL);
  g_assert_cmpuint (after->len, ==, before->len + 6);
  own = g_ptr_array_index (after, before->len + 2);
  g_assert_cmpstr (own->key, ==, "B.home_by");
  g_assert_cmpstr (own->value, ==, "17:00");
  g_assert_true (g_str_has_prefix (own->help, "van B: when to be home"));
  own = g_ptr_array_index (after, before->len);
  g_assert_cmpstr (own->key, ==, "B.leave_from");
  g_assert_cmpstr (own->value, ==, "");
  g_assert_true (own->is_default);
  unset = hs_settings_dup (town->book, "B.leave_from", NULL);
  g_assert_cmpstr (unset, ==, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-break/planned", test_planned);
  g_test_add_func ("/ops/day-break/refused", test_refused);
  g_test_add_func ("/ops/day-break/going", test_going);
  g_test_add_func ("/ops/day-break/broken", test_broken);
  g_test_add_func ("/ops/day-break/one-van", test_one_van);
  g_test_add_func ("/ops/day-break/one-van-listed", test_one_van_listed);
  return g_test_run ();
}
