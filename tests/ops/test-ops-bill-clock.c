// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One sum wherever it is shown: the bill, the customer's page, the options and the go-ahead count what the clock adds
 * to what is on the bill, and nothing is squared up before that is on it. */

#include "hs-board.h"
#include "hs-chain-op.h"
#include "hs-customer-shot.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-repair-op.h"
#include "hs-undo.h"
#include "ops-choice.h"

#define MINUTES(n) (OPS_CHOICE_NOW + 60 * (n))

/* A fuse of 4.00 without any work: 8.00, and 0.64 tax. */
static char *
pick_fuse (OpsChoice *job)
{
  const HsChoiceEntry entry = { .wording = "Main fuse" };
  const HsChoiceLineEntry line = { .what = "fuse", .cost_cents = 400, .price_cents = HS_INT_NONE };
  g_autoptr (GError) error = NULL;
  char *id = hs_choice_add (job->book, job->job, &entry, &line, 1, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  ops_choice_answer (job, id, "yes", NULL);
  return id;
}

static HsJobView *
view_at (OpsChoice *job, HsInstant now)
{
  g_autoptr (GError) error = NULL;
  HsJobView *view = hs_job_view_load (job->book, job->job, now, &error);

  g_assert_no_error (error);
  return view;
}

/* All four say the same; @clock of it is what the clock adds. */
static void
assert_sum (OpsChoice *job, HsInstant now, gint64 net, gint64 tax, gint64 clock)
{
  g_autoptr (HsJobView) view = view_at (job, now);
  g_autoptr (HsCustomerShot) shot = hs_customer_shot_load (job->book, job->job, now, NULL);
  g_autoptr (HsJobChoices) choices = hs_job_choices_load (job->book, job->job, now, NULL);
  g_autoptr (HsGoAheadRoom) room = hs_go_ahead_check (job->book, job->job, NULL, 0, now, NULL);

  g_assert_cmpint (view->net_cents, ==, net);
  g_assert_cmpint (view->tax_cents, ==, tax);
  g_assert_cmpint (view->clock_cents, ==, clock);
  g_assert_cmpint (shot->total_cents, ==, net + tax);
  g_assert_cmpint (choices->room->total_cents, ==, net + tax);
  g_assert_cmpint (room->used_cents, ==, net + tax);
}

/* 8.64 of parts and a call-out of 60.00 are 68.64 before and after the job is priced. */
static void
test_picked (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *fuse = pick_fuse (&job);
  g_autoptr (HsJobView) view = NULL;

  assert_sum (&job, MINUTES (0), 800, 64, 0);
  assert_sum (&job, MINUTES (10), 6800, 64, 6000);
  view = view_at (&job, MINUTES (10));
  g_assert_cmpint (view->clock_minutes, ==, 10);
  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (10), NULL));
  assert_sum (&job, MINUTES (10), 6800, 64, 0);
  /* The clock goes on, and the quarter hour after the first thirty minutes with it. */
  assert_sum (&job, MINUTES (31), 9200, 64, 2400);
}

/* What an option says of the work counts until the clock is past it. */
static void
test_expected (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);

  ops_choice_answer (&job, belt, "yes", NULL);
  assert_sum (&job, MINUTES (60), 15040, 339, 0);
  assert_sum (&job, MINUTES (61), 17440, 339, 2400);
}

static void
prove (OpsChoice *job, HsInstant now)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job->book, job->job, 50000, "Teo", "phone", now, NULL));
  hs_job_move_stage (job->book, job->job, HS_STAGE_PROVEN, "the customer drove off", now, &error);
  g_assert_no_error (error);
}

static void
test_square (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *fuse = pick_fuse (&job);
  g_autoptr (GError) error = NULL;

  prove (&job, MINUTES (20));
  g_assert_false (hs_job_square (job.book, job.job, MINUTES (20), &error));
  hs_ops_test_refused (&error, "by the clock 60.00 more is not on the bill. Price it first");
  hs_ops_test_one (job.test, "job WHERE stage = 'proven'");
  g_assert_cmpint (hs_ops_test_count (job.test, "invoice"), ==, 0);
  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (20), NULL));
  /* Tested good and priced: what the customer was told stays, however long the talk is. */
  assert_sum (&job, MINUTES (90), 6800, 64, 0);
  g_assert_true (hs_job_square (job.book, job.job, MINUTES (90), &error));
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "invoice WHERE net_cents = 6800 AND tax_cents = 64");
  assert_sum (&job, MINUTES (200), 6800, 64, 0);
}

/* A price from before the end of the work does not stand once the clock went past it; undo brings it back. */
static void
test_priced_too_early (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *fuse = pick_fuse (&job);

  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (10), NULL));
  prove (&job, MINUTES (50));
  g_assert_cmpint (hs_ops_test_count (job.test, "line WHERE kind = 'labor'"), ==, 0);
  assert_sum (&job, MINUTES (50), 800 + 6000 + 4800, 64, 10800);
  g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, MINUTES (51), NULL, NULL));
  hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 6000");
}

/* What is given for nothing stays so, and what is called off runs up nothing. */
static void
test_stands_still (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_auto (OpsChoice) off = ops_choice_start ();

  g_assert_true (hs_job_price (job.book, job.job, "an old friend", MINUTES (10), NULL));
  assert_sum (&job, MINUTES (200), 0, 0, 0);
  assert_sum (&off, MINUTES (40), 8400, 0, 8400);
  g_assert_true (hs_job_move_stage (off.book, off.job, HS_STAGE_CALLED_OFF, "gone", MINUTES (40), NULL));
  assert_sum (&off, MINUTES (50), 0, 0, 0);
}

static void
assert_cure (OpsChoice *job, HsChainCure cure)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobChain) chain = hs_job_chain_load (job->book, job->job, &error);

  g_assert_no_error (error);
  g_assert_cmpint (hs_chain_get_cure (chain->chain, hs_chain_get_finding (chain->chain, 0)), ==, cure);
}

/* A yes is no work: nothing is repaired before the part is put in, or the work of it priced. */
static void
test_yes_is_no_work (void)
{
  const HsFindingEntry slips = { .what = "belt slips", .role = "cause", .sure = "proven", .ended = "cured" };
  const HsInstallEntry belt = { .what = "drive belt", .cost_cents = 2400, .why = "due" };

  for (guint priced = 0; priced < 2; priced++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autofree char *choice = ops_choice_add_belt (&job);
      g_autofree char *part = NULL;
      g_autoptr (GError) error = NULL;

      g_free (hs_finding_add (job.book, job.job, &slips, MINUTES (1), &error));
      g_assert_no_error (error);
      assert_cure (&job, HS_CHAIN_CURE_MEANT);
      ops_choice_answer (&job, choice, "yes", NULL);
      assert_cure (&job, HS_CHAIN_CURE_MEANT);
      if (priced)
        g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (20), NULL));
      else
        part = hs_part_install (job.book, job.job, &belt, MINUTES (20), &error);
      g_assert_no_error (error);
      assert_cure (&job, HS_CHAIN_CURE_UNTESTED);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bill-clock/picked", test_picked);
  g_test_add_func ("/bill-clock/expected", test_expected);
  g_test_add_func ("/bill-clock/square", test_square);
  g_test_add_func ("/bill-clock/priced-too-early", test_priced_too_early);
  g_test_add_func ("/bill-clock/stands-still", test_stands_still);
  g_test_add_func ("/bill-clock/yes-is-no-work", test_yes_is_no_work);
  return g_test_run ();
}
