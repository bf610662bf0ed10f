// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Ways out of days that can't be kept, worked out by hand. From Tannery Row it is 9 min to Quayside, 12 to Highcroft
 * and 21 to Sedge End; from Quayside to Highcroft 15. */

#include "hs-day-mend.h"

#include "hs-job-op.h"
#include "ops-share.h"

#define JOB(number, area, from, to, minutes) \
  number ",555-0122,a,repair,promised," area "," SHARE_DAY "," from "," to "," #minutes "\n"

/* (transfer full): "A-0001: what; A-0002: what" */
static char *
mends_at (OpsTown *town, const char *van, gboolean anew, const char *clock)
{
  g_autofree char *when = clock != NULL ? g_strconcat (SHARE_DAY "T", clock, NULL) : NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) mends
      = hs_day_mends (town->book, ops_town_day (SHARE_DAY), van, anew,
                      when != NULL ? ops_town_at (town, when) : HS_INSTANT_NONE, &error);
  GString *text = g_string_new (NULL);

  g_assert_no_error (error);
  for (guint i = 0; i < mends->len; i++)
    {
      const HsDayMend *mend = g_ptr_array_index (mends, i);

      g_string_append_printf (text, "%s%s: %s", i > 0 ? "; " : "", mend->id, mend->what);
    }
  return g_string_free (text, FALSE);
}

static void
test_ways_out (void)
{
  static const struct
  {
    const char *jobs;
    const char *clock;
    const char *home_by;
    const char *mends;
  } rows[] = {
    /* Nothing is broken. */
    { JOB ("A-0001", "Q", "09:00", "10:00", 30), NULL, "24:00", "" },
    /* Two at nine: 30 min of work and 15 of driving from one to the other. Highcroft first is sooner home. */
    { JOB ("A-0001", "Q", "09:00", "09:00", 30) JOB ("A-0002", "H", "09:00", "09:00", 30), NULL, "24:00",
      "A-0001: van B can take A-0001: work starts at 09:00; A-0001: drop A-0002; "
      "A-0001: move A-0001 45 minutes later" },
    /* So it is while van B has its own at nine. */
    { JOB ("A-0001", "Q", "09:00", "09:00", 30) JOB ("A-0002", "H", "09:00", "09:00", 30)
      "B-0001,555-0122,a,repair,promised,S," SHARE_DAY ",09:00,09:00,30\n", NULL, "24:00",
      "A-0001: drop A-0002; A-0001: move A-0001 45 minutes later" },
    /* Leaving at 07:00 any van is there at 07:12, 7 min late; at 06:55 it is too late to start 7 min earlier. */
    { JOB ("A-0001", "H", "06:30", "07:05", 30), NULL, "24:00",
      "A-0001: move A-0001 7 minutes later; A-0001: start 7 minutes earlier" },
    { JOB ("A-0001", "H", "06:30", "07:05", 30), "06:50", "24:00",
      "A-0001: move A-0001 7 minutes later; A-0001: start 7 minutes earlier" },
    { JOB ("A-0001", "H", "06:30", "07:05", 30), "06:55", "24:00", "A-0001: move A-0001 7 minutes later" },
    /* Home at 10:21. */
    { JOB ("A-0001", "S", "09:30", "09:30", 30), NULL, "10:00", "home: drop A-0001" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autofree char *jobs = g_strconcat (SHARE_JOBS, rows[i].jobs, NULL);
      g_autofree char *mends = NULL;

      ops_town_set (town, "home_by", rows[i].home_by);
      ops_town_add (town, "jobs", jobs);
      mends = mends_at (town, "A", TRUE, rows[i].clock);
      g_assert_cmpstr (mends, ==, rows[i].mends);
    }
}

static OpsTown *
lone_town (void)
{
  OpsTown *town = ops_town_new ();

  ops_town_set (town, "leave_from", "07:00");
  ops_town_set (town, "leave_to", "11:00");
  ops_town_set (town, "spare_minutes", "0");
  return town;
}

/* Whether another plan stands than the one of the day planned anew. */
static gboolean
has_other (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDayPlan) plan
      = hs_day_plan_make (town->book, ops_town_day (SHARE_DAY), "A", HS_INSTANT_NONE, &error);
  g_autoptr (HsDayPlan) other = NULL;

  g_assert_no_error (error);
  g_assert_true (hs_day_plan_find_other (town->book, plan, HS_INSTANT_NONE, &other, &error));
  g_assert_true (other == NULL || other->accepted);
  return other != NULL;
}

/* The order that was accepted goes to Quayside first; then Highcroft wants to be first, and another order does it. */
static void
test_anew (void)
{
  g_autoptr (OpsTown) town = lone_town ();
  g_autofree char *standing = NULL, *anew = NULL;

  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:00", "08:30", 30)
                                  JOB ("A-0002", "H", "09:00", "11:00", 30));
  g_assert_false (has_other (town));
  share_accept_order (town, "A");
  g_assert_false (has_other (town));
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:00", "11:00", 30)
                                  JOB ("A-0002", "H", "08:00", "08:30", 30));
  standing = mends_at (town, "A", FALSE, NULL);
  anew = mends_at (town, "A", TRUE, NULL);
  g_assert_true (has_other (town));
  g_assert_cmpstr (standing, ==, "A-0002: plan the day anew: another order keeps every promise");
  g_assert_cmpstr (anew, ==, "");
}

/* A book with one van has nobody else to ask. */
static void
test_alone (void)
{
  g_autoptr (OpsTown) town = lone_town ();
  g_autofree char *mends = NULL;

  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "09:00", "09:00", 30)
                                  JOB ("A-0002", "H", "09:00", "09:00", 30));
  mends = mends_at (town, "A", TRUE, NULL);
  g_assert_cmpstr (mends, ==, "A-0001: drop A-0002; A-0001: move A-0001 45 minutes later");
}

/* An hour from one to the other in the morning, either way, and 5 min later in the day. At the hours of the plan the
 * other order looks as if it kept both. */
static void
test_jammed (void)
{
  static const char *const clocks[] = { "08:00", "12:00", "17:00" };
  g_autoptr (OpsTown) town = lone_town ();
  g_autoptr (GString) trips = g_string_new ("from,to,left,minutes,miles\n");
  g_autofree char *fresh = NULL, *standing = NULL;

  for (guint k = 0; k < G_N_ELEMENTS (clocks); k++)
    for (guint day = 1; day <= 5; day++)
      g_string_append_printf (trips, "Q,O,2026-02-%02uT%s,%d,2.0\nO,Q,2026-02-%02uT%s,%d,2.0\n", day, clocks[k],
                              k == 0 ? 60 : 5, day, clocks[k], k == 0 ? 60 : 5);
  ops_town_add (town, "trips", trips->str);
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:30", "09:15", 15)
                                  JOB ("A-0002", "O", "08:30", "09:15", 15));
  fresh = mends_at (town, "A", TRUE, NULL);
  g_assert_null (strstr (fresh, "another order"));
  share_accept_order (town, "A");
  standing = mends_at (town, "A", FALSE, NULL);
  g_assert_null (strstr (standing, "another order"));
}

typedef struct
{
  const char *legs;
  const char *clock;
  int minutes;
} Drives;

/* Five trips of each kind on days before. */
static void
add_trips (OpsTown *town, const Drives *drives, guint n)
{
  g_autoptr (GString) trips = g_string_new ("from,to,left,minutes,miles\n");

  for (guint k = 0; k < n; k++)
    for (guint day = 1; day <= 5; day++)
      g_string_append_printf (trips, "%s,2026-02-%02uT%s,%d,2.0\n", drives[k].legs, day, drives[k].clock,
                              drives[k].minutes);
  ops_town_add (town, "trips", trips->str);
}

static void
assert_mends (OpsTown *town, gboolean anew, const char *wanted)
{
  g_autofree char *mends = mends_at (town, "A", anew, NULL);

  g_assert_cmpstr (mends, ==, wanted);
}

/* An hour between Quayside and Old Market in the morning, 5 min later. One of two calls at eight is 45 min late, and is
 * so in either order; Quayside first is home 2 min sooner. What was reckoned at the hours of the plan found no way
 * out, for the way back is at 5 min in it. */
static void
test_timed_windows (void)
{
  static const Drives drives[] = { { "Q,O", "08:00", 60 }, { "O,Q", "08:00", 60 }, { "Q,O", "12:00", 5 },
                                   { "O,Q", "12:00", 5 }, { "Q,O", "17:00", 5 }, { "O,Q", "17:00", 5 } };
  g_autoptr (OpsTown) town = lone_town ();

  add_trips (town, drives, G_N_ELEMENTS (drives));
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:00", "08:30", 15)
                                  JOB ("A-0002", "O", "08:00", "08:30", 15));
  assert_mends (town, TRUE, "A-0002: drop A-0001; A-0002: move A-0002 45 minutes later");
}

/* 40 min to Quayside, but an hour in the night: leaving at 06:10 it is 20 min late, and has to leave at 05:30 to be
 * there at 06:30. A minute before it leaves it is too late for that. */
static void
test_timed_start (void)
{
  static const Drives drives[] = { { "T,Q", "05:00", 60 }, { "T,Q", "08:00", 40 }, { "T,Q", "12:00", 40 },
                                   { "T,Q", "17:00", 40 } };
  g_autoptr (OpsTown) town = lone_town ();
  g_autofree char *late = NULL;

  ops_town_set (town, "leave_from", "06:10");
  add_trips (town, drives, G_N_ELEMENTS (drives));
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "05:30", "06:30", 15));
  assert_mends (town, TRUE, "A-0001: move A-0001 20 minutes later; A-0001: start 40 minutes earlier");
  late = mends_at (town, "A", TRUE, "06:09");
  g_assert_cmpstr (late, ==, "A-0001: move A-0001 20 minutes later");
}

/* Done at Quayside at 08:45, and until 09:30 the drive home takes an hour: home at 09:45, 5 min late. */
static void
test_timed_home (void)
{
  static const Drives drives[] = { { "Q,T", "08:00", 60 }, { "Q,T", "12:00", 20 }, { "Q,T", "17:00", 20 } };
  g_autoptr (OpsTown) town = lone_town ();

  ops_town_set (town, "home_by", "09:40");
  add_trips (town, drives, G_N_ELEMENTS (drives));
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:30", "08:30", 15));
  assert_mends (town, TRUE, "home: drop A-0001");
}

/* Five min from Quayside to Old Market but for the middle of the day, when it is an hour. The order that stands comes
 * to Quayside too late. Quayside first would keep all calls, but then the van is at Old Market from 11:45 to 11:55 and
 * at home at 12:02, and the break of 30 min before noon, which begins at 11 at the earliest, is had nowhere: with it
 * Old Market would be 40 min late. */
static void
test_late_break (void)
{
  static const Drives drives[] = { { "Q,O", "08:00", 5 }, { "O,Q", "08:00", 5 }, { "Q,O", "12:00", 60 },
                                   { "O,Q", "12:00", 60 }, { "Q,O", "17:00", 5 }, { "O,Q", "17:00", 5 } };
  g_autoptr (OpsTown) town = lone_town ();

  ops_town_set (town, "break_minutes", "30");
  ops_town_set (town, "break_from", "11:00");
  ops_town_set (town, "break_to", "12:00");
  add_trips (town, drives, G_N_ELEMENTS (drives));
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0003", "O", "07:00", "08:00", 15)
                                  JOB ("A-0002", "O", "08:00", "08:30", 10)
                                  JOB ("A-0001", "Q", "10:30", "10:45", 15));
  share_accept_order (town, "A");
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0002", "O", "10:50", "11:50", 10));
  assert_mends (town, FALSE, "break: drop A-0001; break: drop A-0002");
}

/* At Quayside 50 min late: done there at 09:50, at Highcroft at 10:05, and that was promised until 10:00. Nobody can
 * start earlier any more, whether or not drives are told by the hour. */
static void
test_begun (void)
{
  static const Drives drives[] = { { "Q,O", "08:00", 60 }, { "Q,O", "12:00", 5 }, { "Q,O", "17:00", 5 } };

  for (guint timed = 0; timed < 2; timed++)
    {
      g_autoptr (OpsTown) town = lone_town ();
      g_autoptr (GError) error = NULL;
      g_autofree char *job = NULL, *mends = NULL;

      if (timed > 0)
        add_trips (town, drives, G_N_ELEMENTS (drives));
      ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:00", "08:30", 30)
                                      JOB ("A-0002", "H", "09:30", "10:00", 30));
      share_accept_order (town, "A");
      job = ops_town_job (town, "A-0001");
      hs_job_move_stage (town->book, job, HS_STAGE_ON_SITE, NULL, ops_town_at (town, SHARE_DAY "T09:20"), &error);
      g_assert_no_error (error);
      mends = mends_at (town, "A", FALSE, "09:21");
      g_assert_cmpstr (mends, ==, "A-0002: move A-0002 5 minutes later");
    }
}

/* Larch keeps a holiday. The starter that it has for A-0021 is 38 % sure; in the second row Kingpost lists it, too. By
 * way of Ridgeback, which opens at nine at Sedge End, the van comes too late to Quayside or to Old Market. */
static void
test_on_a_holiday (void)
{
  static const struct
  {
    const char *prices;
    gboolean accepts;
    const char *mends;
  } rows[] = {
    { NULL, FALSE, "A-0021: give it another day: Larch & Weir Auto Electrical opens again on Mar 11; "
                   "A-0021: go without starter: that it is needed is only 38 % sure" },
    { "supplier,part,cost,seen_on\nKingpost Parts Counter,ST-1315,121.00,2026-03-01\n", FALSE,
      "A-0021: buy starter at Kingpost Parts Counter, which lists it at 121.00" },
    { "supplier,part,cost,seen_on\nKingpost Parts Counter,ST-1315,121.00,2026-03-01\n"
      "Ridgeback Salvage Yard,ST-1315,90.00,2026-03-01\n", FALSE,
      "A-0021: buy starter at Kingpost Parts Counter, which lists it at 121.00" },
    { "supplier,part,cost,seen_on\nRidgeback Salvage Yard,ST-1315,90.00,2026-03-01\n", FALSE,
      "A-0021: give it another day: Larch & Weir Auto Electrical opens again on Mar 11; "
      "A-0021: go without starter: that it is needed is only 38 % sure" },
    { "supplier,part,cost,seen_on\nKingpost Parts Counter,ST-1315,121.00,2026-03-01\n", TRUE,
      "A-0021: buy starter at Kingpost Parts Counter, which lists it at 121.00" },
    { NULL, TRUE, "A-0021: give it another day: Larch & Weir Auto Electrical opens again on Mar 11; "
                  "A-0021: go without starter: that it is needed is only 38 % sure" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autofree char *mends = NULL;

      ops_town_add_morning (town);
      if (rows[i].accepts)
        share_accept_order (town, "A");
      if (rows[i].prices != NULL)
        ops_town_add (town, "prices", rows[i].prices);
      ops_town_add (town, "holidays", "supplier,date,opens,shuts,words\n"
                                      "Larch & Weir Auto Electrical," SHARE_DAY ",,,Founders' Day\n");
      mends = mends_at (town, NULL, !rows[i].accepts, NULL);
      g_assert_cmpstr (mends, ==, rows[i].mends);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-mend/ways-out", test_ways_out);
  g_test_add_func ("/ops/day-mend/anew", test_anew);
  g_test_add_func ("/ops/day-mend/alone", test_alone);
  g_test_add_func ("/ops/day-mend/jammed", test_jammed);
  g_test_add_func ("/ops/day-mend/timed-windows", test_timed_windows);
  g_test_add_func ("/ops/day-mend/timed-start", test_timed_start);
  g_test_add_func ("/ops/day-mend/timed-home", test_timed_home);
  g_test_add_func ("/ops/day-mend/late-break", test_late_break);
  g_test_add_func ("/ops/day-mend/begun", test_begun);
  g_test_add_func ("/ops/day-mend/on-a-holiday", test_on_a_holiday);
  return g_test_run ();
}
