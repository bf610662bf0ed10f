// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Letting a shared day stand, what is refused, and taking it back. The day is that of two calls at nine of van A, one
 * at Quayside and one at Highcroft, and one of van B at Highcroft at 09:35: shared, van B takes A-0002. */

#include "hs-day-plan.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-log-row.h"
#include "hs-ops-error.h"
#include "hs-plan-row.h"
#include "hs-van-row.h"
#include "ops-share.h"

#define J(number, area, from, to, minutes) \
  number ",555-0122,a,repair,promised," area "," SHARE_DAY "," from "," to "," #minutes "\n"

static OpsTown *
filled_town (void)
{
  OpsTown *town = share_town ();

  ops_town_add (town, "jobs",
                SHARE_JOBS J ("A-0001", "Q", "09:00", "09:00", 30) J ("A-0002", "H", "09:00", "09:00", 30)
                J ("B-0001", "H", "09:35", "09:35", 30));
  ops_town_add (town, "needs", SHARE_NEEDS "A-0001,PAD-3316,1,,\n");
  ops_town_add (town, "stock", SHARE_STOCK "A,PAD-3316,1,1,\nB,PAD-3316,1,1,\n");
  return town;
}

/* The letter of the van that has a job. */
static char *
van_of (OpsTown *town, const char *number)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autofree char *id = ops_town_job (town, number);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVanRow) van = NULL;
  g_autoptr (GError) error = NULL;

  hs_job_row_load (store, id, &job, &error);
  g_assert_no_error (error);
  hs_van_row_load (store, job->van_id, &van, &error);
  g_assert_no_error (error);
  return g_strdup (van->letter);
}

static void
assert_van (OpsTown *town, const char *number, const char *letter)
{
  g_autofree char *van = van_of (town, number);

  g_assert_cmpstr (van, ==, letter);
}

/* The order that stands: "08:51 A-0001 A-0002 =09:39", or "none" where none was accepted. */
static char *
standing (OpsTown *town, const char *van)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDayPlan) plan
      = hs_day_plan_standing (town->book, ops_town_day (SHARE_DAY), van, HS_INSTANT_NONE, &error);
  GString *text = g_string_new (NULL);
  int leave, home;

  g_assert_no_error (error);
  if (!plan->accepted)
    return g_string_free (g_string_assign (text, "none"), FALSE);
  hs_instant_to_local (hs_book_get_zone (town->book), plan->leave, NULL, &leave);
  hs_instant_to_local (hs_book_get_zone (town->book), plan->home, NULL, &home);
  g_string_append_printf (text, "%02d:%02d", leave / 3600, leave / 60 % 60);
  for (guint i = 0; i < plan->stops->len; i++)
    g_string_append_printf (text, " %s", ((HsPlannedStop *) g_ptr_array_index (plan->stops, i))->id);
  g_string_append_printf (text, " =%02d:%02d", home / 3600, home / 60 % 60);
  return g_string_free (text, FALSE);
}

static void
assert_standing (OpsTown *town, const char *of_a, const char *of_b)
{
  g_autofree char *a = standing (town, "A");
  g_autofree char *b = standing (town, "B");

  g_assert_cmpstr (a, ==, of_a);
  g_assert_cmpstr (b, ==, of_b);
}

static void
accept (OpsTown *town, const HsSharePlan *plan)
{
  g_autoptr (GError) error = NULL;
  gboolean done = hs_share_accept (town->book, plan, ops_town_now (town), &error);

  g_assert_no_error (error);
  g_assert_true (done);
}

/* (transfer full): "A-0001 B>A; " of the calls that went back. */
static char *
take_back (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) back = hs_share_take_back (town->book, ops_town_day (SHARE_DAY), ops_town_now (town), &error);
  GString *text = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < back->len; i++)
    {
      const HsShareMove *move = g_ptr_array_index (back, i);

      g_string_append_printf (text, "%s %s>%s; ", move->number, move->from, move->to);
    }
  return g_string_free (text, FALSE);
}

static void
assert_taken_back (OpsTown *town, const char *moves)
{
  g_autofree char *back = take_back (town);

  g_assert_cmpstr (back, ==, moves);
}

static void
assert_cannot_take_back (OpsTown *town, const char *said)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) back = hs_share_take_back (town->book, ops_town_day (SHARE_DAY), ops_town_now (town), &error);

  g_assert_null (back);
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_cmpstr (error->message, ==, said);
}

#define NOTHING "No shared calls of this day were accepted: there is nothing to take back"

static gboolean
can_take_back (OpsTown *town, HsDate day)
{
  gboolean can = -1;
  g_autoptr (GError) error = NULL;

  hs_share_can_take_back (town->book, day, &can, &error);
  g_assert_no_error (error);
  return can;
}

static void
test_accept (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");
  g_autofree char *job = ops_town_job (town, "A-0002");
  g_autoptr (GPtrArray) log = NULL;
  const HsLogRow *last;

  accept (town, plan);
  assert_van (town, "A-0001", "A");
  assert_van (town, "A-0002", "B");
  assert_van (town, "B-0001", "B");
  assert_standing (town, "08:51 A-0001 =09:39", "08:48 A-0002 B-0001 =10:17");
  /* It stands in the log of changes like any other. */
  g_assert_true (hs_log_row_list_of (hs_book_get_store (town->book), "job", job, &log, NULL));
  last = g_ptr_array_index (log, log->len - 1);
  for (guint i = log->len; i > 0 && g_strcmp0 (last->field, "van_id") != 0; i--)
    last = g_ptr_array_index (log, i - 1);
  g_assert_cmpstr (last->field, ==, "van_id");
  g_assert_cmpstr (last->act, ==, "changed");
  g_assert_cmpstr (last->became, ==, ((HsShareMove *) g_ptr_array_index (plan->moves, 0))->to_id);
}

/* Shared once more there is nothing to change, and that may be accepted, too. */
static void
test_twice (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");
  g_autoptr (HsSharePlan) again = NULL;
  g_autoptr (GError) error = NULL;

  accept (town, plan);
  g_assert_false (hs_share_accept (town->book, plan, ops_town_now (town), &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  again = share_at (town, "06:45");
  g_assert_cmpuint (again->moves->len, ==, 0);
  g_assert_cmpint (again->total.cents, ==, again->standing.cents);
  accept (town, again);
  assert_standing (town, "08:51 A-0001 =09:39", "08:48 A-0002 B-0001 =10:17");
}

/* A van that has nothing left to do has no order either. */
static void
test_emptied (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autoptr (HsPlanRow) row = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "jobs",
                SHARE_JOBS J ("A-0001", "Q", "09:00", "09:00", 30) J ("B-0001", "Q", "09:34", "09:34", 30)
                J ("B-0002", "Q", "10:08", "10:08", 30));
  share_accept_order (town, "A");
  plan = share_at (town, "06:45");
  accept (town, plan);
  assert_standing (town, "none", "08:51 A-0001 B-0001 B-0002 =10:47");
  hs_plan_row_find (hs_book_get_store (town->book), ((HsShareRoute *) g_ptr_array_index (plan->routes, 0))->van_id,
                    plan->day, &row, &error);
  g_assert_no_error (error);
  g_assert_null (row);
  assert_taken_back (town, "A-0001 B>A; ");
  assert_standing (town, "08:51 A-0001 =09:39", "none");
}

/* What has begun stays in front of its van's order. */
static void
test_under_way (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autoptr (HsDayPlan) going = NULL;
  g_autofree char *job = NULL;
  g_autoptr (GError) error = NULL;
  HsInstant now = ops_town_at (town, SHARE_DAY "T09:10");

  ops_town_add (town, "jobs",
                SHARE_JOBS J ("A-0001", "O", "09:00", "10:00", 60) J ("A-0002", "Q", "09:30", "09:45", 30));
  job = ops_town_job (town, "A-0001");
  hs_job_move_stage (town->book, job, HS_STAGE_ROLLING, NULL, ops_town_at (town, SHARE_DAY "T08:46"), &error);
  hs_job_move_stage (town->book, job, HS_STAGE_ON_SITE, NULL, ops_town_at (town, SHARE_DAY "T08:55"), &error);
  plan = share_at (town, "09:10");
  hs_share_accept (town->book, plan, now, &error);
  g_assert_no_error (error);
  assert_van (town, "A-0001", "A");
  assert_van (town, "A-0002", "B");
  going = hs_day_plan_standing (town->book, ops_town_day (SHARE_DAY), "A", now, &error);
  g_assert_no_error (error);
  g_assert_true (going->accepted);
  g_assert_cmpuint (going->stops->len, ==, 1);
  ops_town_assert_clock (town, going->leave, "08:46");
  ops_town_assert_clock (town, going->home, "10:02");
}

/* What may happen between sharing and accepting -------------------------------------------------------------------- */

typedef void (*Change) (OpsTown *town);

static void
change_price (OpsTown *town)
{
  ops_town_add (town, "prices", "supplier,part,cost,seen_on\n" SHARE_K ",PAD-3316,28.00,2026-03-10\n");
}

static void
change_window (OpsTown *town)
{
  ops_town_add (town, "jobs", SHARE_JOBS J ("A-0001", "Q", "09:00", "09:15", 30));
}

static void
add_call (OpsTown *town)
{
  ops_town_add (town, "jobs", SHARE_JOBS J ("A-0003", "Q", "13:00", "15:00", 30));
}

static void
accept_order (OpsTown *town)
{
  share_accept_order (town, "A");
}

static void
call_off (OpsTown *town)
{
  g_autofree char *job = ops_town_job (town, "B-0001");
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (town->book, job, HS_STAGE_CALLED_OFF, "sold it", ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
start_rolling (OpsTown *town)
{
  g_autofree char *job = ops_town_job (town, "A-0001");
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (town->book, job, HS_STAGE_ROLLING, NULL, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
use_stock (OpsTown *town)
{
  ops_town_add (town, "stock", SHARE_STOCK "A,PAD-3316,0,1,\n");
}

static void
change_rate (OpsTown *town)
{
  ops_town_set (town, "mile_cents", "43");
}

static void
change_hours (OpsTown *town)
{
  ops_town_set (town, "B.leave_to", "10:30");
}

static void
learn_road (OpsTown *town)
{
  ops_town_add (town, "travel", "from,to,minutes,miles\nQ,H,16,6.1\n");
}

static void
work_longer (OpsTown *town)
{
  ops_town_add (town, "jobs", SHARE_JOBS J ("A-0001", "Q", "09:00", "09:00", 31));
}

static void
move_house (OpsTown *town)
{
  ops_town_add (town, "jobs", SHARE_JOBS J ("B-0001", "F", "09:35", "09:35", 30));
}

static void
need_two (OpsTown *town)
{
  ops_town_add (town, "needs", SHARE_NEEDS "A-0001,PAD-3316,2,,\n");
}

static void
come_home_sooner (OpsTown *town)
{
  ops_town_set (town, "B.home_by", "17:00");
}

static void
have_a_break (OpsTown *town)
{
  ops_town_set (town, "break_minutes", "20");
}

/* Longer in the evening, when nobody drives: what is driven at nine stays as it was. */
static void
drive_in_the_evening (OpsTown *town)
{
  static const char *const clocks[] = { "08:00", "12:00", "20:00" };
  g_autoptr (GString) trips = g_string_new ("from,to,left,minutes,miles\n");

  for (guint i = 0; i < G_N_ELEMENTS (clocks); i++)
    for (guint day = 1; day <= 5; day++)
      g_string_append_printf (trips, "Q,H,2026-02-%02uT%s,%d,6.1\n", day, clocks[i], i == 2 ? 25 : 15);
  ops_town_add (town, "trips", trips->str);
}

static void
lock_a_stop (OpsTown *town)
{
  g_autoptr (GError) error = NULL;

  hs_day_plan_lock (town->book, ops_town_day (SHARE_DAY), "A", "A-0002", TRUE, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
free_a_stop (OpsTown *town)
{
  g_autoptr (GError) error = NULL;

  hs_day_plan_lock (town->book, ops_town_day (SHARE_DAY), "B", "B-0001", FALSE, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
accept_locked (OpsTown *town)
{
  g_autoptr (GError) error = NULL;

  share_accept_order (town, "B");
  hs_day_plan_lock (town->book, ops_town_day (SHARE_DAY), "B", "B-0001", TRUE, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
fetch (OpsTown *town)
{
  ops_town_add (town, "needs", SHARE_NEEDS "B-0001,FF-1011,1," SHARE_K ",21.00\n");
}

static void
keep_a_holiday (OpsTown *town)
{
  ops_town_add (town, "holidays", "supplier,date,opens,shuts,words\n" SHARE_K "," SHARE_DAY ",,,Founders' Day\n");
}

/* @before: (nullable): how the day was when the calls were shared */
static const struct
{
  const char *name;
  Change before;
  Change change;
} changes[] = {
  { "work", NULL, work_longer },
  { "area", NULL, move_house },
  { "quantity", NULL, need_two },
  { "home-by", NULL, come_home_sooner },
  { "break", NULL, have_a_break },
  { "trips", NULL, drive_in_the_evening },
  { "lock", accept_order, lock_a_stop },
  { "unlock", accept_locked, free_a_stop },
  { "holiday", fetch, keep_a_holiday },
  { "price", NULL, change_price },
  { "window", NULL, change_window },
  { "one-more", NULL, add_call },
  { "order", NULL, accept_order },
  { "called-off", NULL, call_off },
  { "rolling", NULL, start_rolling },
  { "stock", NULL, use_stock },
  { "rate", NULL, change_rate },
  { "hours", NULL, change_hours },
  { "road", NULL, learn_road },
};

/* Nothing at all is written then. */
static void
test_changed (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autoptr (OpsTown) town = filled_town ();
      g_autoptr (HsSharePlan) plan = NULL;
      g_autofree char *before = NULL, *after = NULL;
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", changes[i].name);
      if (changes[i].before != NULL)
        changes[i].before (town);
      plan = share_at (town, "06:45");
      changes[i].change (town);
      before = standing (town, "A");
      g_assert_false (hs_share_accept (town->book, plan, ops_town_now (town), &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
      g_assert_cmpstr (error->message, ==,
                       "The day has changed since the calls were shared. Nothing was changed: share them again");
      after = standing (town, "A");
      g_assert_cmpstr (before, ==, after);
      assert_van (town, "A-0002", "A");
    }
}

/* Other days, other parts, and the hour are no reason to refuse. */
static void
test_unchanged (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "jobs", SHARE_JOBS "A-0009,555-0122,a,repair,promised,Q,2026-03-11,09:00,10:00,30\n");
  ops_town_add (town, "prices", "supplier,part,cost,seen_on\n" SHARE_K ",FF-1011,22.00,2026-03-10\n");
  g_assert_true (hs_share_accept (town->book, plan, ops_town_at (town, SHARE_DAY "T08:20"), &error));
  g_assert_no_error (error);
  assert_van (town, "A-0002", "B");
}

static void
assert_not_accepted (OpsTown *town, const char *said)
{
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_share_accept (town->book, plan, ops_town_now (town), &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_cmpstr (error->message, ==, said);
}

/* The owner named a counter that is shut on Tuesdays. */
static void
test_refused (void)
{
  g_autoptr (OpsTown) empty = share_town ();
  g_autoptr (OpsTown) town = filled_town ();

  assert_not_accepted (empty, "There is nothing to share: no call of this day is still ahead");
  ops_town_add (town, "suppliers",
                "name,area,phone,return_days,restock_percent,core_days,stop_minutes\nTinsel Glass,F,555-0149,,,,10\n");
  ops_town_add (town, "hours", "supplier,weekday,opens,shuts\nTinsel Glass,sat,08:00,12:00\n");
  ops_town_add (town, "needs", SHARE_NEEDS "B-0001,FF-1011,1,Tinsel Glass,9.00\n");
  assert_not_accepted (town, "B-0001 would be served by nobody: give it another window or another day, then share the "
                             "calls again");
}

/* Taking back ------------------------------------------------------------------------------------------------------ */

static void
test_take_back (void)
{
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (OpsTown) town = filled_town ();
      g_autoptr (HsSharePlan) plan = NULL, again = NULL;
      g_autofree char *a = NULL;

      if (i == 1)
        share_accept_order (town, "A");
      a = standing (town, "A");
      plan = share_at (town, "06:45");
      g_assert_false (can_take_back (town, plan->day));
      accept (town, plan);
      g_assert_true (can_take_back (town, plan->day));
      g_assert_false (can_take_back (town, plan->day + 1));
      assert_taken_back (town, "A-0002 B>A; ");
      assert_van (town, "A-0002", "A");
      assert_standing (town, a, "none");
      g_assert_cmpstr (a, ==, i == 0 ? "none" : "08:48 A-0002 A-0001 =10:24");
      /* And then it can be shared and accepted as before; but it cannot be taken back twice. */
      g_assert_false (can_take_back (town, plan->day));
      assert_cannot_take_back (town, NOTHING);
      again = share_at (town, "06:45");
      g_assert_cmpint (again->total.cents, ==, plan->total.cents);
      accept (town, again);
    }
}

/* The lock and the times at the stops of the order before come back as they were. */
static void
test_take_back_locked (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  HsStore *store = hs_book_get_store (town->book);
  g_autofree char *van_id = NULL;
  g_autoptr (HsSharePlan) plan = NULL;
  g_autoptr (HsPlanRow) was = NULL, is = NULL;
  g_autoptr (GPtrArray) stops_were = NULL, stops = NULL;
  g_autoptr (HsVanRow) van = NULL;
  g_autoptr (GError) error = NULL;

  share_accept_order (town, "A");
  hs_van_row_find (store, "A", &van, &error);
  hs_plan_row_find (store, van->id, ops_town_day (SHARE_DAY), &was, &error);
  hs_plan_stop_row_list_of (store, was->id, &stops_were, &error);
  g_assert_no_error (error);
  hs_store_begin (store, ops_town_now (town), &error);
  ((HsPlanStopRow *) g_ptr_array_index (stops_were, 1))->locked = TRUE;
  hs_plan_stop_row_save (store, g_ptr_array_index (stops_were, 1), &error);
  hs_store_commit (store, &error);
  g_assert_no_error (error);
  plan = share_at (town, "06:45");
  accept (town, plan);
  g_free (take_back (town));
  hs_plan_row_find (store, van->id, ops_town_day (SHARE_DAY), &is, &error);
  hs_plan_stop_row_list_of (store, is->id, &stops, &error);
  g_assert_no_error (error);
  g_assert_cmpint (is->leave_at, ==, was->leave_at);
  g_assert_cmpint (is->home_at, ==, was->home_at);
  g_assert_cmpuint (stops->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const HsPlanStopRow *before = g_ptr_array_index (stops_were, i), *stop = g_ptr_array_index (stops, i);

      g_assert_cmpstr (stop->job_id, ==, before->job_id);
      g_assert_cmpstr (stop->supplier_id, ==, before->supplier_id);
      g_assert_cmpint (stop->locked, ==, i == 1);
      g_assert_cmpint (stop->arrive_at, ==, before->arrive_at);
      g_assert_cmpint (stop->start_at, ==, before->start_at);
      g_assert_cmpint (stop->depart_at, ==, before->depart_at);
    }
}

/* What was accepted twice is taken back in two steps, and the book may have been shut in between. */
static void
test_steps (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  g_autoptr (HsSharePlan) first = share_at (town, "06:45"), second = NULL;

  accept (town, first);
  ops_town_add (town, "jobs", SHARE_JOBS J ("A-0003", "Q", "13:00", "15:00", 30));
  second = share_at (town, "06:45");
  accept (town, second);
  ops_town_reopen (town);
  /* The call of the afternoon is in no order again; van A, whose it was, would drive to it last. */
  assert_taken_back (town, "A-0003 B>A; ");
  assert_standing (town, "08:51 A-0001 A-0003 =13:39", "08:48 A-0002 B-0001 =10:17");
  ops_town_reopen (town);
  assert_taken_back (town, "A-0002 B>A; ");
  assert_standing (town, "none", "none");
  assert_cannot_take_back (town, NOTHING);
}

static void
test_gone_on (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");
  g_autofree char *job = ops_town_job (town, "A-0002");
  g_autoptr (GError) error = NULL;

  accept (town, plan);
  hs_job_move_stage (town->book, job, HS_STAGE_ROLLING, NULL, ops_town_now (town), &error);
  g_assert_no_error (error);
  assert_cannot_take_back (town, "A-0002 has gone on since the calls were shared, so that cannot be taken back");
  assert_van (town, "A-0002", "B");
  g_assert_true (can_take_back (town, plan->day));
}

/* An order accepted later is not thrown away. */
static void
test_other_order (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");

  accept (town, plan);
  ops_town_add (town, "jobs", SHARE_JOBS J ("A-0003", "Q", "13:00", "15:00", 30));
  share_accept_order (town, "A");
  assert_cannot_take_back (town,
                           "Another order was accepted since the calls were shared, so that cannot be taken back");
  assert_van (town, "A-0002", "B");
}

/* What was driven is not rewritten. */
static void
test_over (void)
{
  g_autoptr (OpsTown) town = filled_town ();
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");
  g_autoptr (GPtrArray) back = NULL;
  g_autoptr (GError) error = NULL;

  accept (town, plan);
  back = hs_share_take_back (town->book, plan->day, ops_town_at (town, "2026-03-11T00:00"), &error);
  g_assert_null (back);
  g_assert_cmpstr (error->message, ==, "This day is over: its calls were driven");
  assert_van (town, "A-0002", "B");
  g_clear_error (&error);
  back = hs_share_take_back (town->book, plan->day, ops_town_at (town, SHARE_DAY "T23:59"), &error);
  g_assert_no_error (error);
}

/* The log can hold anything: another program wrote it. */
static void
test_garbled (void)
{
  static const char *const texts[] = { "", "()", "([], [])", "([('a', 'b', 'c', 'd')], [('x', nothing, 3)])" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (OpsTown) town = filled_town ();
      HsStore *store = hs_book_get_store (town->book);
      g_autoptr (GError) error = NULL;

      hs_store_begin (store, ops_town_now (town), &error);
      hs_log_row_add_deed (store, "day_share", SHARE_DAY, "added", texts[i], &error);
      hs_store_commit (store, &error);
      g_assert_no_error (error);
      if (i == 2)
        assert_taken_back (town, "");
      else
        assert_cannot_take_back (town, "What stood before the calls were shared can no longer be read, so that cannot "
                                       "be taken back: plan each van anew");
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/share-accept/accept", test_accept);
  g_test_add_func ("/ops/share-accept/twice", test_twice);
  g_test_add_func ("/ops/share-accept/emptied", test_emptied);
  g_test_add_func ("/ops/share-accept/under-way", test_under_way);
  g_test_add_func ("/ops/share-accept/changed", test_changed);
  g_test_add_func ("/ops/share-accept/unchanged", test_unchanged);
  g_test_add_func ("/ops/share-accept/refused", test_refused);
  g_test_add_func ("/ops/share-accept/take-back", test_take_back);
  g_test_add_func ("/ops/share-accept/take-back-locked", test_take_back_locked);
  g_test_add_func ("/ops/share-accept/steps", test_steps);
  g_test_add_func ("/ops/share-accept/over", test_over);
  g_test_add_func ("/ops/share-accept/garbled", test_garbled);
  g_test_add_func ("/ops/share-accept/gone-on", test_gone_on);
  g_test_add_func ("/ops/share-accept/other-order", test_other_order);
  return g_test_run ();
}
