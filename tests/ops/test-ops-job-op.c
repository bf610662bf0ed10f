// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Moving a job from stage to stage, its visits and the labor clock, and why a move is refused. */

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-visit-row.h"

#include <string.h>

#define MINUTE 60

/* A promised job of a known vehicle. */
static char *
start (HsOpsTest *test)
{
  GError *error = NULL;
  char *id;

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate,day,window_from,window_to\n"
                         "A-0001,555-0115,hums,TDM 5508,2026-03-10,08:00,10:00\n",
                         1, 0, 0);
  id = hs_job_find (test->book, "A-0001", &error);
  g_assert_no_error (error);
  return id;
}

static void
move (HsOpsTest *test, const char *id, HsStage to, int minutes)
{
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (test->book, id, to, NULL, HS_OPS_TEST_NOW + minutes * MINUTE, &error);
  g_assert_no_error (error);
}

static void
refuse (HsOpsTest *test, const char *id, HsStage to, const char *said)
{
  gint64 seen = hs_ops_test_count (test, "change_log");
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_job_move_stage (test->book, id, to, NULL, HS_OPS_TEST_NOW + 600 * MINUTE, &error));
  g_assert_nonnull (error);
  if (strstr (error->message, said) == NULL)
    g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, said));
  g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, seen);
}

static gint64
labor (HsOpsTest *test, const char *id, int minutes)
{
  gint64 seconds = -1;

  g_assert_true (hs_visit_seconds (test->book, id, HS_OPS_TEST_NOW + minutes * MINUTE, &seconds, NULL));
  return seconds / MINUTE;
}

static void
read_after (HsOpsTest *test, const char *id)
{
  HsReadingEntry entry
      = { .check = "starts_good", .text = "5 of 5", .phase = "after", .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) result = hs_reading_add (test->book, id, &entry, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  g_assert_nonnull (result);
}

static void
test_next (void)
{
  g_assert_cmpint (hs_job_next_stage (HS_STAGE_CALLED_IN), ==, HS_STAGE_PENCILED);
  g_assert_cmpint (hs_job_next_stage (HS_STAGE_PROMISED), ==, HS_STAGE_ROLLING);
  g_assert_cmpint (hs_job_next_stage (HS_STAGE_ROLLING), ==, HS_STAGE_ON_SITE);
  g_assert_cmpint (hs_job_next_stage (HS_STAGE_PROVEN), ==, HS_STAGE_SQUARED);
  g_assert_cmpint (hs_job_next_stage (HS_STAGE_SQUARED), ==, HS_STAGE_SQUARED);
  g_assert_cmpint (hs_job_next_stage (HS_STAGE_CALLED_OFF), ==, HS_STAGE_CALLED_OFF);
}

static void
test_one_visit (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (GPtrArray) visits = NULL;

  g_assert_cmpint (labor (test, id, 0), ==, 0);
  move (test, id, HS_STAGE_ROLLING, 10);
  g_assert_cmpint (labor (test, id, 15), ==, 0);
  move (test, id, HS_STAGE_ON_SITE, 20);
  g_assert_cmpint (labor (test, id, 50), ==, 30);
  g_assert_true (hs_visit_drive (test->book, id, 600, 2500, HS_OPS_TEST_NOW, NULL));
  g_assert_true (hs_visit_row_list_of (hs_book_get_store (test->book), id, &visits, NULL));
  g_assert_cmpuint (visits->len, ==, 1);
  const HsVisitRow *visit = g_ptr_array_index (visits, 0);
  g_assert_cmpint (visit->rolling_at, ==, HS_OPS_TEST_NOW + 10 * MINUTE);
  g_assert_cmpint (visit->arrived_at, ==, HS_OPS_TEST_NOW + 20 * MINUTE);
  g_assert_cmpint (visit->left_at, ==, HS_INSTANT_NONE);
  g_assert_cmpint (visit->drive_seconds, ==, 600);
  g_assert_cmpint (visit->drive_millimiles, ==, 2500);
}

/* Waiting for a part is not sold as labor, whether the van stays or comes again. */
static void
test_waiting (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  move (test, id, HS_STAGE_ROLLING, 0);
  move (test, id, HS_STAGE_ON_SITE, 10);
  move (test, id, HS_STAGE_WAITING_PART, 30);
  g_assert_cmpint (labor (test, id, 60), ==, 20);
  move (test, id, HS_STAGE_ON_SITE, 60);
  g_assert_cmpint (labor (test, id, 70), ==, 30);
  move (test, id, HS_STAGE_WAITING_YES, 70);
  move (test, id, HS_STAGE_ROLLING, 200);
  g_assert_cmpint (labor (test, id, 300), ==, 30);
  move (test, id, HS_STAGE_ON_SITE, 220);
  g_assert_cmpint (labor (test, id, 225), ==, 35);
  g_assert_cmpint (hs_ops_test_count (test, "visit"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (test, "visit WHERE left_at IS NULL"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "pause WHERE to_at IS NULL"), ==, 0);
}

static void
test_pause (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_visit_pause (test->book, id, HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_clear_error (&error);
  move (test, id, HS_STAGE_ROLLING, 0);
  g_assert_false (hs_visit_resume (test->book, id, HS_OPS_TEST_NOW, NULL));
  move (test, id, HS_STAGE_ON_SITE, 10);
  g_assert_true (hs_visit_pause (test->book, id, HS_OPS_TEST_NOW + 20 * MINUTE, &error));
  g_assert_true (hs_visit_pause (test->book, id, HS_OPS_TEST_NOW + 25 * MINUTE, &error));
  g_assert_cmpint (labor (test, id, 40), ==, 10);
  g_assert_true (hs_visit_resume (test->book, id, HS_OPS_TEST_NOW + 50 * MINUTE, &error));
  g_assert_no_error (error);
  g_assert_cmpint (labor (test, id, 60), ==, 20);
  g_assert_cmpint (hs_ops_test_count (test, "pause"), ==, 1);
}

/* Turned round on the way: the visit never was. */
static void
test_back (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  move (test, id, HS_STAGE_ROLLING, 0);
  move (test, id, HS_STAGE_PROMISED, 5);
  g_assert_cmpint (hs_ops_test_count (test, "visit"), ==, 0);
  move (test, id, HS_STAGE_ROLLING, 60);
  move (test, id, HS_STAGE_ON_SITE, 70);
  move (test, id, HS_STAGE_PROMISED, 90);
  g_assert_cmpint (hs_ops_test_count (test, "visit WHERE left_at IS NOT NULL"), ==, 1);
  g_assert_cmpint (labor (test, id, 500), ==, 20);
}

static void
test_called_off (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (GError) error = NULL;

  move (test, id, HS_STAGE_ROLLING, 0);
  refuse (test, id, HS_STAGE_CALLED_OFF, "");
  g_assert_true (hs_job_move_stage (test->book, id, HS_STAGE_CALLED_OFF, "gone on arrival",
                                    HS_OPS_TEST_NOW + 10 * MINUTE, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (test, "job WHERE called_off_why = 'gone on arrival'"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "visit WHERE left_at IS NULL"), ==, 0);
}

static void
test_promise_needs_day (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = NULL;

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words\nA-0001,555-0115,hums\n", 1, 0, 0);
  id = hs_job_find (test->book, "A-0001", NULL);
  refuse (test, id, HS_STAGE_PROMISED, "give it a day and a window first");
}

static void
test_proof (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (GError) error = NULL;

  refuse (test, id, HS_STAGE_PROVEN, "");
  move (test, id, HS_STAGE_ROLLING, 0);
  move (test, id, HS_STAGE_ON_SITE, 10);
  refuse (test, id, HS_STAGE_PROVEN, "");
  refuse (test, id, HS_STAGE_SQUARED, "");
  g_assert_true (hs_job_move_stage (test->book, id, HS_STAGE_PROVEN, "customer drove off", HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (test, "job WHERE unproved_why = 'customer drove off'"), ==, 1);
}

static void
test_proof_by_reading (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  move (test, id, HS_STAGE_ROLLING, 0);
  move (test, id, HS_STAGE_ON_SITE, 10);
  read_after (test, id);
  move (test, id, HS_STAGE_PROVEN, 30);
  refuse (test, id, HS_STAGE_SQUARED, "price");
  move (test, id, HS_STAGE_ON_SITE, 40);
  g_assert_cmpint (labor (test, id, 50), ==, 40);
}

static void
test_group (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_set_group (test->book, id, "charging_lamp", HS_OPS_TEST_NOW, &error));
  g_assert_cmpint (hs_ops_test_count (test, "job WHERE complaint_group = 'charging_lamp'"), ==, 1);
  g_assert_false (hs_job_set_group (test->book, id, "ghosts", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
}

static void
test_drive_refused (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  g_assert_false (hs_visit_drive (test->book, id, 60, 100, HS_OPS_TEST_NOW, NULL));
  move (test, id, HS_STAGE_ROLLING, 0);
  g_assert_false (hs_visit_drive (test->book, id, -1, 100, HS_OPS_TEST_NOW, NULL));
  g_assert_false (hs_visit_drive (test->book, id, 60, -1, HS_OPS_TEST_NOW, NULL));
  g_assert_true (hs_visit_drive (test->book, id, 60, 100, HS_OPS_TEST_NOW, NULL));
}

/* A job that is under way is not changed from a file, and an old file does not pull it back. */
static void
test_import_under_way (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = start (test);

  move (test, id, HS_STAGE_ROLLING, 0);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate,stage,day,window_from,window_to\n"
                         "A-0001,555-0115,hums,TDM 5508,promised,2026-03-10,08:00,10:00\n",
                         0, 0, 1);
  hs_ops_test_import_bad (test, "jobs", "number,customer_phone,words\nA-0001,555-0115,roars\n",
                          "jobs.csv:2: number: A-0001 is past its promise (Rolling); change it on its page\n");
  g_assert_cmpint (hs_ops_test_count (test, "job WHERE stage = 'rolling'"), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/next", test_next);
  g_test_add_func ("/job/one-visit", test_one_visit);
  g_test_add_func ("/job/waiting", test_waiting);
  g_test_add_func ("/job/pause", test_pause);
  g_test_add_func ("/job/back", test_back);
  g_test_add_func ("/job/called-off", test_called_off);
  g_test_add_func ("/job/promise-needs-day", test_promise_needs_day);
  g_test_add_func ("/job/proof", test_proof);
  g_test_add_func ("/job/proof-by-reading", test_proof_by_reading);
  g_test_add_func ("/job/group", test_group);
  g_test_add_func ("/job/drive-refused", test_drive_refused);
  g_test_add_func ("/job/import-under-way", test_import_under_way);
  return g_test_run ();
}
