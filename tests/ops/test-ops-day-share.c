// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sharing the calls of a day between two vans: sums done by hand. Drives in minutes and miles: Tannery Row to Quayside
 * 9 and 3.1, to Old Market 7 and 2.4, to Highcroft 12 and 5.0, to the Foundry estate 8 and 2.9, to Sedge End 21 and
 * 11.2; Quayside to Old Market 6 and 1.9; Quayside to Highcroft 15 and 6.1; Foundry to Sedge End 16 and 8.1. */

#include "ops-share.h"

#include "hs-job-op.h"
#include "hs-need-row.h"
#include "hs-ops-error.h"
#include "hs-parts-run.h"

#define J(number, area, from, to, minutes) \
  number ",555-0122,a,repair,promised," area "," SHARE_DAY "," from "," to "," #minutes "\n"

typedef struct
{
  const char *name;
  const char *jobs;
  const char *needs;
  const char *stock;
  const char *routes;
  gint64 minutes;
  gint64 millimiles;
  gint64 cents;
  gint64 standing_minutes;
  gint64 standing_cents;
  const char *mended;
  const char *parts;
} Row;

static const Row rows[] = {
  /* Two at nine: van A alone is at the second at 09:45, and sooner home from Quayside. 12 + 30 + 15 + 30 + 9 = 96 min
   * and 14.2 mi, van B 12 + 30 + 12 = 54 min and 10.0 mi: 240.00 and 10.164. Van B goes to Highcroft anyway: 12 + 30 +
   * 5 + 30 + 12 = 89 min and 11.3 mi, van A 9 + 30 + 9 = 48 min and 6.2 mi: 219.20 and 7.35. */
  { "relieved", J ("A-0001", "Q", "09:00", "09:00", 30) J ("A-0002", "H", "09:00", "09:00", 30)
    J ("B-0001", "H", "09:35", "09:35", 30), NULL, NULL,
    "A 08:51 A-0001@09:00 =09:39 | B 08:48 +A-0002@09:00 B-0001@09:35 =10:17", 137, 17500, 22655, 150, 25016,
    "A-0001: kept instead of 45 min late", "" },
  /* Crosswise each van drives 96 min and 14.2 mi: 307.20 and 11.928. One van for all four: 9 + 30 + 4 + 30 + 15 + 30 +
   * 5 + 30 + 12 = 165 min and 3.1 + 1.0 + 6.1 + 1.3 + 5.0 = 16.5 mi, 264.00 and 6.93. Either van will do. */
  { "one-is-enough", J ("A-0001", "Q", "08:00", "15:00", 30) J ("A-0002", "H", "08:00", "15:00", 30)
    J ("B-0001", "Q", "08:00", "15:00", 30) J ("B-0002", "H", "08:00", "15:00", 30), NULL, NULL, NULL, 165, 16500,
    27093, 192, 31913, "", "" },
  /* Van A waits at Highcroft: 111 min and 14.2 mi. Van B keeps two of its three: Quayside at 09:34, Highcroft at 10:35,
   * and the other there at 11:10, 105 min late (106 the other way round): 147 min and 15.5 mi; 412.80 and 12.474.
   * Shared: 9 + 30 + 4 + 30 + 9 = 82 min and 7.2 mi, 12 + 30 + 5 + 30 + 5 + 30 + 12 = 124 min and 12.6 mi; 329.60 and
   * 8.316. The other way round more calls would change vans. */
  { "side-by-side", J ("A-0001", "Q", "09:00", "09:00", 30) J ("A-0002", "H", "10:00", "10:00", 30)
    J ("B-0001", "H", "09:25", "09:25", 30) J ("B-0002", "Q", "09:34", "09:34", 30)
    J ("B-0003", "H", "10:35", "10:35", 30), NULL, NULL,
    "A 08:51 A-0001@09:00 +B-0002@09:34 =10:13 | B 09:13 B-0001@09:25 +A-0002@10:00 B-0003@10:35 =11:17", 206, 19800,
    33792, 258, 42527, "B-0001: kept instead of 105 min late", "" },
  /* Van A would have to buy the pads: 8 + 10 + 11 + 30 + 9 = 68 min, 10.0 mi and 27.00. Van B has them: 48 min and
   * 6.2 mi, 76.80 and 2.604. */
  { "goes-with-the-part", J ("A-0001", "Q", "09:00", "12:00", 30), "A-0001,PAD-3316,1,,\n", "B,PAD-3316,1,1,\n",
    "A stays | B 08:51 +A-0001@09:00 =09:39", 48, 6200, 7940, 68, 14000, "",
    "A-0001: rear pads: from what van B has instead of " SHARE_K },
  /* Both want two of what each van has two of; van B drives by already, but there is not enough for both on it. Apart:
   * 48 min and 6.2 mi each. Together: 82 min and 7.2 mi, and 54.00 for two pads and the way by the counter. */
  { "not-enough-on-board", J ("A-0001", "Q", "09:00", "12:00", 30) J ("B-0001", "Q", "09:00", "12:00", 30),
    "A-0001,PAD-3316,2,,\nB-0001,PAD-3316,2,,\n", "A,PAD-3316,2,1,\nB,PAD-3316,2,1,\n",
    "A 08:51 A-0001@09:00 =09:39 | B 08:51 B-0001@09:00 =09:39", 96, 12400, 15881, 96, 15881, "", "" },
  /* With four on board one van does both: 131.20 and 3.024. */
  { "enough-on-board", J ("A-0001", "Q", "09:00", "12:00", 30) J ("B-0001", "Q", "09:00", "12:00", 30),
    "A-0001,PAD-3316,2,,\nB-0001,PAD-3316,2,,\n", "A,PAD-3316,2,1,\nB,PAD-3316,4,1,\n", NULL, 82, 7200, 13422, 96,
    15881, "", "A-0001: rear pads: from what van B has instead of what van A has" },
  /* Nobody sells it, van B has it: she is served by van B or without. */
  { "only-there", J ("A-0001", "Q", "09:00", "12:00", 30), "A-0001,NONE-1,1,,\n", "B,NONE-1,1,1,\n",
    "A stays | B 08:51 +A-0001@09:00 =09:39", 48, 6200, 7940, 48, 7940, "",
    "A-0001: gearbox mount: from what van B has instead of nowhere" },
  { "nobody-has-it", J ("A-0001", "Q", "09:00", "12:00", 30), "A-0001,NONE-1,1,,\n", NULL,
    "A 08:51 A-0001@09:00 =09:39 | B stays", 48, 6200, 7940, 48, 7940, "", "" },
};

static void
fill (OpsTown *town, const Row *row)
{
  g_autofree char *jobs = g_strconcat (SHARE_JOBS, row->jobs, NULL);
  g_autofree char *needs = row->needs != NULL ? g_strconcat (SHARE_NEEDS, row->needs, NULL) : NULL;
  g_autofree char *stock = row->stock != NULL ? g_strconcat (SHARE_STOCK, row->stock, NULL) : NULL;

  ops_town_add (town, "jobs", jobs);
  if (needs != NULL)
    ops_town_add (town, "needs", needs);
  if (stock != NULL)
    ops_town_add (town, "stock", stock);
}

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autofree char *routes = NULL, *mended = NULL, *parts = NULL;

  fill (town, row);
  plan = share_at (town, "06:45");
  routes = share_routes (town, plan);
  mended = share_promises (plan->mended);
  parts = share_notes (plan->parts);
  if (row->routes != NULL)
    g_assert_cmpstr (routes, ==, row->routes);
  g_assert_cmpint (plan->total.seconds, ==, row->minutes * 60);
  g_assert_cmpint (plan->total.millimiles, ==, row->millimiles);
  g_assert_cmpint (plan->total.cents, ==, row->cents);
  g_assert_cmpint (plan->standing.seconds, ==, row->standing_minutes * 60);
  g_assert_cmpint (plan->standing.cents, ==, row->standing_cents);
  g_assert_cmpstr (mended, ==, row->mended);
  g_assert_cmpstr (parts, ==, row->parts);
  g_assert_cmpuint (plan->worse->len, ==, 0);
  g_assert_true (plan->proven);
  g_assert_cmpint (plan->bound_cents, ==, row->cents);
  g_assert_cmpint (hs_share_plan_gap_cents (plan), ==, 0);
}

/* What is fixed ---------------------------------------------------------------------------------------------------- */

/* Writes a need's state as its counter would. */
static void
set_need (OpsTown *town, const char *number, const char *state)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autofree char *job = ops_town_job (town, number);
  g_autoptr (GPtrArray) needs = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_need_row_list_of (store, job, &needs, &error));
  g_assert_true (hs_store_begin (store, ops_town_now (town), &error));
  for (guint i = 0; i < needs->len; i++)
    {
      hs_row_set (&((HsNeedRow *) g_ptr_array_index (needs, i))->state, state);
      g_assert_true (hs_need_row_save (store, g_ptr_array_index (needs, i), &error));
    }
  g_assert_true (hs_store_commit (store, &error));
  g_assert_no_error (error);
}

static void
tick_need (OpsTown *town, const char *number)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autofree char *job = ops_town_job (town, number);
  g_autoptr (GPtrArray) needs = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_need_row_list_of (store, job, &needs, &error));
  hs_parts_run_tick (town->book, ops_town_day (SHARE_DAY), "pick_up", ((HsNeedRow *) g_ptr_array_index (needs, 0))->id,
                     TRUE, ops_town_now (town), &error);
  g_assert_no_error (error);
}

/* "relieved", whose A-0002 wants pads. */
static void
fill_pads (OpsTown *town, const char *needs)
{
  Row row = rows[0];

  row.needs = needs;
  fill (town, &row);
}

/* Loaded pads keep A-0002 with van A; then A-0001 goes over, which is as good in time: B Quayside 09:00, 15 min to
 * Highcroft at 09:45, 10 late. So B-0001 is the one that changes, too. */
static void
test_loaded (void)
{
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (HsSharePlan) plan = NULL;
      g_autofree char *routes = NULL, *stays = NULL;

      fill_pads (town, i == 0 ? "A-0002,PAD-3316,1,,\n" : "A-0002,PAD-3316,1," SHARE_K ",27.00\n");
      if (i == 0)
        set_need (town, "A-0002", "in_the_van");
      else
        tick_need (town, "A-0002");
      plan = share_at (town, "06:45");
      routes = share_routes (town, plan);
      stays = share_notes (plan->stays);
      g_assert_cmpstr (stays, ==, "A-0002: stays with van A: rear pads is in that van already");
      if (i == 0)
        g_assert_cmpstr (routes, ==, "A 08:48 A-0002@09:00 +B-0001@09:35 =10:17 | B 08:51 +A-0001@09:00 =09:39");
    }
}

/* What the counter has laid aside for her is not moved, but said: van B, which takes her over, has to fetch it. Van B:
 * 8 + 10 + 14 + 30 + 5 + 30 + 12 = 109 min and 2.9 + 5.6 + 1.3 + 5.0 = 14.8 mi. */
static void
test_laid_aside (void)
{
  static const char *const states[][2] = { { "laid_aside", "laid aside" }, { "asked_for", "asked for" } };

  for (guint i = 0; i < G_N_ELEMENTS (states); i++)
    for (guint named = 0; named < 2; named++)
      {
        g_autoptr (OpsTown) town = share_town ();
        g_autoptr (HsSharePlan) plan = NULL;
        g_autofree char *routes = NULL, *parts = NULL, *said = NULL;

        fill_pads (town, named ? "A-0002,PAD-3316,1," SHARE_K ",27.00\n" : "A-0002,PAD-3316,1,,\n");
        set_need (town, "A-0002", states[i][0]);
        plan = share_at (town, "06:45");
        routes = share_routes (town, plan);
        parts = share_notes (plan->parts);
        said = g_strdup_printf (named ? "A-0002: rear pads, %s at " SHARE_K ": van B has to pick it up"
                                      : "A-0002: rear pads, %s: van B gets it from " SHARE_K, states[i][1]);
        g_assert_cmpstr (routes, ==, "A 08:51 A-0001@09:00 =09:39 | B 08:28 K@08:36 +A-0002@09:00 B-0001@09:35 =10:17");
        g_assert_cmpstr (parts, ==, said);
        g_assert_cmpint (plan->total.seconds, ==, (48 + 109) * 60);
        g_assert_cmpint (plan->total.cents, ==, 157 * 160 + 882 + (named ? 0 : 2700));
      }
}

/* Old Market is locked as the first stop of van A. Best is Quayside, Old Market, Highcroft: 9 + 6 + 10 + 12 + 90 = 127
 * min and 14.2 mi, 209.164. With Old Market first: 7 + 6 + 15 + 12 + 90 = 130 min and 15.4 mi, 214.468. */
static void
test_locked (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *stays = NULL;
  const HsShareRoute *route;

  ops_town_add (town, "jobs", SHARE_JOBS J ("A-0002", "O", "08:00", "15:00", 30));
  share_accept_order (town, "A");
  hs_day_plan_lock (town->book, ops_town_day (SHARE_DAY), "A", "A-0002", TRUE, ops_town_now (town), &error);
  g_assert_no_error (error);
  ops_town_add (town, "jobs",
                SHARE_JOBS J ("B-0001", "Q", "08:00", "15:00", 30) J ("B-0003", "H", "08:00", "15:00", 30));
  plan = share_at (town, "06:45");
  stays = share_notes (plan->stays);
  g_assert_cmpstr (stays, ==, "A-0002: stays with van A: it is locked in its order");
  route = g_ptr_array_index (plan->routes, 0);
  g_assert_cmpuint (route->stops->len, ==, 3);
  g_assert_cmpstr (((HsShareStop *) g_ptr_array_index (route->stops, 0))->id, ==, "A-0002");
  g_assert_true (((HsShareStop *) g_ptr_array_index (route->stops, 0))->locked);
  g_assert_cmpint (plan->total.seconds, ==, 130 * 60);
  g_assert_cmpint (plan->total.millimiles, ==, 15400);
  g_assert_cmpint (plan->total.cents, ==, 21447);
  g_assert_false (plan->proven);
  g_assert_cmpint (plan->status, ==, HS_PLAN_BEST_FOUND);
  g_assert_cmpint (hs_share_plan_gap_cents (plan), ==, 21447 - 20916);
}

/* A lock that holds anyway takes nothing away from the proof. */
static void
test_locked_in_place (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *routes = NULL;

  ops_town_add (town, "jobs",
                SHARE_JOBS J ("A-0001", "Q", "09:00", "09:00", 30) J ("A-0002", "Q", "09:34", "09:34", 30));
  share_accept_order (town, "A");
  hs_day_plan_lock (town->book, ops_town_day (SHARE_DAY), "A", "A-0002", TRUE, ops_town_now (town), &error);
  g_assert_no_error (error);
  plan = share_at (town, "06:45");
  routes = share_routes (town, plan);
  g_assert_cmpstr (routes, ==, "A 08:51 A-0001@09:00 A-0002@09:34 =10:13 | B stays");
  g_assert_true (plan->proven);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (hs_share_plan_gap_cents (plan), ==, 0);
}

/* Under way -------------------------------------------------------------------------------------------------------- */

static void
move (OpsTown *town, const char *number, HsStage to, const char *clock)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autofree char *when = g_strconcat (SHARE_DAY "T", clock, NULL);
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (town->book, job, to, NULL, ops_town_at (town, when), &error);
  g_assert_no_error (error);
}

/* Van A is at Old Market since 08:55, for an hour; then it would be at Quayside at 10:01, 16 min late, and home at
 * 10:40: 45 min and 5.0 mi, 74.10. Van B has not left; it may leave at 09:21: 48 min and 6.2 mi, and van A goes home: 7
 * min and 2.4 mi; 88.00 and 3.612. Still rolling, which takes 7 min: at 09:10 it should have been there at 08:53, so it
 * will be there now, until 10:10. */
static void
test_under_way (void)
{
  for (guint rolling = 0; rolling < 2; rolling++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (HsSharePlan) plan = NULL;
      g_autofree char *routes = NULL, *mended = NULL;

      ops_town_add (town, "jobs",
                    SHARE_JOBS J ("A-0001", "O", "09:00", "10:00", 60) J ("A-0002", "Q", "09:30", "09:45", 30));
      share_accept_order (town, "A");
      move (town, "A-0001", HS_STAGE_ROLLING, "08:46");
      if (!rolling)
        move (town, "A-0001", HS_STAGE_ON_SITE, "08:55");
      plan = share_at (town, "09:10");
      routes = share_routes (town, plan);
      mended = share_promises (plan->mended);
      g_assert_cmpstr (routes, ==, rolling ? "A 10:10 =10:17 | B 09:21 +A-0002@09:30 =10:09"
                                           : "A 09:55 =10:02 | B 09:21 +A-0002@09:30 =10:09");
      g_assert_cmpstr (mended, ==, rolling ? "A-0002: kept instead of 31 min late"
                                           : "A-0002: kept instead of 16 min late");
      g_assert_true (((HsShareRoute *) g_ptr_array_index (plan->routes, 0))->begun);
      g_assert_cmpint (plan->total.seconds, ==, 55 * 60);
      g_assert_cmpint (plan->total.cents, ==, 9161);
      g_assert_cmpint (plan->standing.seconds, ==, 45 * 60);
      g_assert_cmpint (plan->standing.cents, ==, 7410);
      g_assert_cmpint (plan->total.spare_seconds, ==, 15 * 60);
      g_assert_true (plan->proven);
    }
}

/* Van A has one mount, and the call that it is at uses it up: there is none for the next one, so van B goes with its
 * own. Where the call needs none, van A goes on: it is there at 10:01. */
static void
test_used_up (void)
{
  for (guint used = 0; used < 2; used++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (HsSharePlan) plan = NULL;
      g_autofree char *routes = NULL;

      ops_town_add (town, "jobs",
                    SHARE_JOBS J ("A-0001", "O", "09:00", "10:00", 60) J ("A-0002", "Q", "09:30", "12:00", 30));
      ops_town_add (town, "needs", used ? SHARE_NEEDS "A-0001,NONE-1,1,,\nA-0002,NONE-1,1,,\n"
                                        : SHARE_NEEDS "A-0002,NONE-1,1,,\n");
      ops_town_add (town, "stock", SHARE_STOCK "A,NONE-1,1,1,\nB,NONE-1,1,1,\n");
      share_accept_order (town, "A");
      move (town, "A-0001", HS_STAGE_ROLLING, "08:46");
      move (town, "A-0001", HS_STAGE_ON_SITE, "08:55");
      plan = share_at (town, "09:10");
      routes = share_routes (town, plan);
      g_assert_cmpstr (routes, ==, used ? "A 09:55 =10:02 | B 09:21 +A-0002@09:30 =10:09"
                                        : "A 09:55 A-0002@10:01 =10:40 | B stays");
    }
}

/* At 09:25 van B is there at 09:34, when it can't have left before. */
static void
test_not_before_now (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autofree char *routes = NULL;

  ops_town_add (town, "jobs", SHARE_JOBS J ("B-0002", "Q", "09:30", "09:45", 30));
  plan = share_at (town, "09:25");
  routes = share_routes (town, plan);
  g_assert_cmpstr (routes, ==, "A stays | B 09:25 B-0002@09:34 =10:13");
}

/* What holds for one van alone. Van B may leave at 09:25, so that A is home earlier; A has to be home by ten. */
static void
test_own_rules (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL, other = NULL;
  g_autofree char *routes = NULL, *other_routes = NULL;

  ops_town_add (town, "jobs", SHARE_JOBS J ("B-0002", "Q", "09:30", "09:45", 30));
  ops_town_set (town, "B.leave_from", "09:25");
  plan = share_at (town, "06:45");
  routes = share_routes (town, plan);
  g_assert_cmpstr (routes, ==, "A 09:21 +B-0002@09:30 =10:09 | B stays");
  ops_town_set (town, "A.home_by", "10:00");
  other = share_at (town, "06:45");
  other_routes = share_routes (town, other);
  g_assert_cmpstr (other_routes, ==, "A stays | B 09:25 B-0002@09:34 =10:13");
}

/* A break of half an hour between 11:30 and 13:30: it can be had neither before leaving nor at home. The van works at
 * Quayside 10:00 to 12:00, rests, goes 4 min on and waits 6: 9 + 120 + 40 + 60 + 9 = 238 min and 7.2 mi. Under way
 * since 09:51 the break is still ahead. */
static void
test_break (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL, later = NULL;
  g_autofree char *routes = NULL, *later_routes = NULL;

  ops_town_set (town, "break_minutes", "30");
  ops_town_set (town, "break_from", "11:30");
  ops_town_set (town, "break_to", "13:30");
  ops_town_add (town, "jobs",
                SHARE_JOBS J ("B-0001", "Q", "10:00", "10:00", 120) J ("B-0002", "Q", "12:40", "12:45", 60));
  plan = share_at (town, "06:45");
  routes = share_routes (town, plan);
  g_assert_cmpstr (routes, ==, "A stays | B 09:51 B-0001@10:00 break@12:00 B-0002@12:40 =13:49");
  g_assert_cmpint (plan->total.seconds, ==, 238 * 60);
  g_assert_cmpint (plan->total.cents, ==, 238 * 160 + 302);
  g_assert_cmpint (plan->standing.cents, ==, plan->total.cents);
  share_accept_order (town, "B");
  move (town, "B-0001", HS_STAGE_ROLLING, "09:51");
  move (town, "B-0001", HS_STAGE_ON_SITE, "10:00");
  later = share_at (town, "11:50");
  later_routes = share_routes (town, later);
  g_assert_cmpstr (later_routes, ==, "A stays | B 12:00 break@12:00 B-0002@12:40 =13:49");
  g_assert_cmpint (later->total.seconds, ==, 109 * 60);
  g_assert_cmpint (later->standing.seconds, ==, 109 * 60);
}

/* Searching -------------------------------------------------------------------------------------------------------- */

typedef struct
{
  guint asked;
  guint found;
  gint64 last_cents;
} Watch;

static gboolean
give_up_at_once (gpointer data)
{
  ((Watch *) data)->asked++;
  return TRUE;
}

static void
found (HsSharePlan *plan, gpointer data)
{
  Watch *watch = data;

  watch->found++;
  watch->last_cents = plan->total.cents;
  g_assert_cmpuint (plan->routes->len, ==, 2);
  hs_share_plan_free (plan);
}

/* Twenty-six calls, all over the town and at any time. */
static void
fill_many (OpsTown *town)
{
  g_autoptr (GString) jobs = g_string_new (SHARE_JOBS);

  for (guint i = 0; i < 26; i++)
    g_string_append_printf (jobs, "%c-%04u,555-0122,a,repair,promised,%c," SHARE_DAY ",%02u:00,%02u:00,%u\n",
                            "AB"[i % 2], i + 1, "QOHFS"[i % 5], 8 + i % 3, 11 + i % 6, 15 + 5 * (i % 4));
  ops_town_add (town, "jobs", jobs->str);
}

static guint
count_stops (const HsSharePlan *plan)
{
  guint n = 0;

  for (guint i = 0; i < plan->routes->len; i++)
    n += ((const HsShareRoute *) g_ptr_array_index (plan->routes, i))->stops->len;
  return n;
}

/* Told of what is found on the way, and given what there is when it is enough. */
static void
test_watched (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsShareCase) of = NULL;
  g_autoptr (HsSharePlan) patient = NULL, hasty = NULL;
  g_autoptr (GError) error = NULL;
  Watch watch = { 0 }, other = { 0 };
  const HsShareHow how = { NULL, found, &watch, 1 };
  const HsShareHow at_once = { give_up_at_once, NULL, &other, 1 };

  fill_many (town);
  of = share_case (town, "06:45");
  patient = hs_share_solve (of, &how, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (watch.found, >, 1);
  g_assert_cmpuint (count_stops (patient), ==, 26);
  g_assert_cmpint (watch.last_cents, ==, patient->total.cents);
  hasty = hs_share_solve (of, &at_once, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (other.asked, >, 0);
  g_assert_cmpuint (count_stops (hasty) + hasty->broken->len, >=, 26);
  g_assert_false (hasty->proven);
  g_assert_cmpint (hasty->bound_cents, <=, patient->total.cents);
}

/* Five trips to Highcroft in the morning of 14 min, five at noon of 30. The promise at nine is driven to at the fastest
 * hour, and nothing is better; the one at 10:45 is driven to in 30 min, and all that is known is that the best is no
 * cheaper than with 14 min, 16 × 1.60 less. */
static void
test_hours (void)
{
  static const struct
  {
    const char *job;
    const char *routes;
    gboolean proven;
    HsPlanStatus status;
    gint64 gap_cents;
  } days[] = {
    { SHARE_JOBS J ("A-0002", "H", "09:00", "09:00", 30), "A 08:46 A-0002@09:00 =", TRUE, HS_PLAN_OPTIMAL, 0 },
    { SHARE_JOBS J ("A-0002", "H", "10:45", "10:45", 30), "A 10:15 A-0002@10:45 =", FALSE, HS_PLAN_BEST_FOUND, 2560 },
  };

  for (guint k = 0; k < G_N_ELEMENTS (days); k++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (GString) trips = g_string_new ("from,to,left,minutes,miles,van,purpose\n");
      g_autoptr (HsSharePlan) plan = NULL;
      g_autofree char *routes = NULL;

      for (guint i = 0; i < 5; i++)
        g_string_append_printf (trips, "T,H,2026-03-0%uT08:20,14,5.0,A,job\nT,H,2026-03-0%uT12:20,30,5.0,A,job\n",
                                i + 2, i + 2);
      ops_town_add (town, "trips", trips->str);
      ops_town_add (town, "jobs", days[k].job);
      plan = share_at (town, "06:45");
      routes = share_routes (town, plan);
      g_assert_true (g_str_has_prefix (routes, days[k].routes));
      g_assert_cmpint (plan->proven, ==, days[k].proven);
      g_assert_cmpint (plan->status, ==, days[k].status);
      g_assert_cmpint (hs_share_plan_gap_cents (plan), ==, days[k].gap_cents);
    }
}

/* What can't be shared --------------------------------------------------------------------------------------------- */

static void
assert_refused (OpsTown *town, const char *day, const char *said)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_share_case_load (town->book, ops_town_day (day), ops_town_now (town), &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_cmpstr (error->message, ==, said);
}

static void
test_refused (void)
{
  g_autoptr (OpsTown) one = ops_town_new ();
  g_autoptr (OpsTown) town = share_town ();

  assert_refused (one, SHARE_DAY, "The book has only one van, so there is nobody to share the calls with: add a van "
                                  "first");
  assert_refused (town, "2026-03-09", "This day is over: its calls were driven");
  ops_town_set (town, "vans", "A,B,C,D,E,F,G,H,I");
  assert_refused (town, SHARE_DAY, "The book has 9 vans; calls can be shared among 8 at most");
}

static void
test_nothing (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = share_at (town, "06:45");
  g_autofree char *routes = share_routes (town, plan);

  g_assert_cmpstr (routes, ==, "A stays | B stays");
  g_assert_cmpint (plan->total.cents, ==, 0);
  g_assert_cmpint (plan->standing.cents, ==, 0);
}

/* Home by 09:40 would leave A-0002 to nobody in time; the owner rather comes home late. */
static void
test_home_late (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autofree char *routes = NULL;

  ops_town_set (town, "home_by", "09:40");
  fill (town, &rows[0]);
  plan = share_at (town, "06:45");
  routes = share_routes (town, plan);
  g_assert_cmpstr (routes, ==, rows[0].routes);
  g_assert_cmpuint (plan->broken->len, ==, 0);
}

static gboolean
count_down (gpointer left)
{
  guint *asks = left;

  if (*asks == 0)
    return TRUE;
  --*asks;
  return FALSE;
}

/* Being home by ten is the owner's wish, and home at 10:21 keeps the promise: whenever the search ends, nobody may say
 * that it is proven impossible. */
static void
test_home_late_cut (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsShareCase) of = NULL;
  guint kept = 0;

  ops_town_set (town, "home_by", "10:00");
  ops_town_add (town, "jobs", SHARE_JOBS J ("A-0001", "S", "09:30", "09:30", 30));
  of = share_case (town, "06:45");
  for (guint asks = 0; asks < 100; asks++)
    {
      guint left = asks;
      const HsShareHow how = { .seed = 1, .give_up = count_down, .user_data = &left };
      g_autoptr (GError) error = NULL;
      g_autoptr (HsSharePlan) plan = hs_share_solve (of, &how, &error);

      g_assert_no_error (error);
      g_assert_cmpint (plan->status, !=, HS_PLAN_IMPOSSIBLE);
      g_assert_false (plan->proven && plan->broken->len > 0);
      kept += plan->broken->len == 0;
    }
  g_assert_cmpuint (kept, >, 0);
  g_assert_cmpuint (kept, <, 100);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/ops/day-share/%s", rows[i].name);

      g_test_add_data_func (path, &rows[i], test_row);
    }
  g_test_add_func ("/ops/day-share/loaded", test_loaded);
  g_test_add_func ("/ops/day-share/laid-aside", test_laid_aside);
  g_test_add_func ("/ops/day-share/locked", test_locked);
  g_test_add_func ("/ops/day-share/locked-in-place", test_locked_in_place);
  g_test_add_func ("/ops/day-share/under-way", test_under_way);
  g_test_add_func ("/ops/day-share/used-up", test_used_up);
  g_test_add_func ("/ops/day-share/not-before-now", test_not_before_now);
  g_test_add_func ("/ops/day-share/own-rules", test_own_rules);
  g_test_add_func ("/ops/day-share/break", test_break);
  g_test_add_func ("/ops/day-share/watched", test_watched);
  g_test_add_func ("/ops/day-share/hours", test_hours);
  g_test_add_func ("/ops/day-share/refused", test_refused);
  g_test_add_func ("/ops/day-share/nothing", test_nothing);
  g_test_add_func ("/ops/day-share/home-late", test_home_late);
  g_test_add_func ("/ops/day-share/home-late-cut", test_home_late_cut);
  return g_test_run ();
}
