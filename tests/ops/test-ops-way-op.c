// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* On the way, on the demo morning. Its plan: leave 08:31, Larch 08:38 to 08:46, A-0021 at Old Market 08:49 for 60 min,
 * A-0022 at Quayside 09:55. */

#include "hs-way-op.h"

#include "hs-hand-off-op.h"
#include "hs-job-life.h"
#include "hs-store-error.h"
#include "ops-share.h"

#include <string.h>

#define DAY "2026-03-10"

static HsWay *
way_at (OpsTown *town, const char *number, const char *clock)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autofree char *when = g_strconcat (DAY "T", clock, NULL);
  g_autoptr (GError) error = NULL;
  HsWay *way = hs_way_load (town->book, job, ops_town_at (town, when), &error);

  g_assert_no_error (error);
  return way;
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

static OpsTown *
morning (void)
{
  OpsTown *town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add_morning (town);
  plan = hs_day_plan_make (town->book, ops_town_day (DAY), NULL, HS_INSTANT_NONE, &error);
  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  return town;
}

/* Out at 08:31: by way of the counter, there at 08:49; once the counter is left it comes first no more. */
static void
test_by_way_of_a_counter (void)
{
  g_autoptr (OpsTown) town = morning ();
  g_autoptr (HsWay) out = NULL, past = NULL;

  move (town, "A-0021", HS_STAGE_ROLLING, "08:31");
  out = way_at (town, "A-0021", "08:32");
  g_assert_cmpint (out->view->tag->stage, ==, HS_STAGE_ROLLING);
  g_assert_nonnull (out->stop);
  g_assert_cmpint (out->stop->arrive, ==, ops_town_at (town, DAY "T08:49"));
  g_assert_cmpuint (out->before->len, ==, 1);
  g_assert_nonnull (strstr (((const HsPlannedStop *) g_ptr_array_index (out->before, 0))->id, "Larch"));
  g_assert_null (out->ring);
  past = way_at (town, "A-0021", "08:47");
  g_assert_cmpuint (past->before->len, ==, 0);
}

/* Late out: the end of her promise comes near, then it is past. */
static void
test_ring (void)
{
  g_autoptr (OpsTown) town = morning ();
  g_autoptr (HsWay) way = NULL;
  HsInstant late, end;
  g_autofree char *clock = NULL;

  move (town, "A-0021", HS_STAGE_ROLLING, "08:31");
  way = way_at (town, "A-0021", "08:32");
  end = way->stop->window_to;
  g_assert_cmpint (end, !=, HS_INSTANT_NONE);
  g_clear_pointer (&way, hs_way_free);
  for (int before = 5; before >= -5; before -= 10)
    {
      g_autoptr (HsWay) near = NULL;
      g_autofree char *job = ops_town_job (town, "A-0021");
      g_autoptr (GError) error = NULL;

      late = end - before * 60;
      near = hs_way_load (town->book, job, late, &error);
      g_assert_no_error (error);
      g_assert_nonnull (near->ring);
      g_assert_nonnull (strstr (near->ring, before > 0 ? "before the promise ends" : "late"));
    }
}

/* No stop of today: what is known of the job, and no time. */
static void
test_not_of_today (void)
{
  g_autoptr (OpsTown) town = morning ();
  g_autofree char *job = ops_town_job (town, "A-0021");
  g_autoptr (GError) error = NULL;
  g_autoptr (HsWay) way = hs_way_load (town->book, job, ops_town_at (town, "2026-03-12T09:00"), &error);

  g_assert_no_error (error);
  g_assert_null (way->stop);
  g_assert_cmpuint (way->before->len, ==, 0);
  g_assert_cmpstr (way->view->tag->number, ==, "A-0021");
}

/* The second van's call stands in the second van's plan: its window begins at 09:35, and it is there in time. */
static void
test_second_van (void)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsWay) way = NULL;
  g_autoptr (HsHandOff) hand_off = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *job = NULL;

  ops_town_add (town, "jobs",
                SHARE_JOBS "A-0001,555-0122,a,repair,promised,Q," SHARE_DAY ",09:00,09:00,30\n"
                "B-0001,555-0122,a,repair,promised,H," SHARE_DAY ",09:35,09:35,30\n");
  job = ops_town_job (town, "B-0001");
  way = way_at (town, "B-0001", "06:45");
  g_assert_cmpstr (way->plan->van, ==, "B");
  g_assert_nonnull (way->stop);
  g_assert_cmpint (way->stop->arrive, <=, ops_town_at (town, DAY "T09:35"));
  hand_off = hs_hand_off_load (town->book, job, ops_town_now (town), &error);
  g_assert_no_error (error);
  g_assert_cmpint (hand_off->arrive, ==, way->stop->arrive);
}

static void
test_not_there (void)
{
  g_autoptr (OpsTown) town = morning ();
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_way_load (town->book, "no-such-job", ops_town_now (town), &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/way/by-way-of-a-counter", test_by_way_of_a_counter);
  g_test_add_func ("/way/ring", test_ring);
  g_test_add_func ("/way/not-of-today", test_not_of_today);
  g_test_add_func ("/way/second-van", test_second_van);
  g_test_add_func ("/way/not-there", test_not_there);
  return g_test_run ();
}
