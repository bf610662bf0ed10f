// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The machine's clock put back on a visit: nothing is guessed, nothing is left out without a word, and the minutes are
 * typed. 60.00 for the call-out with 30 min, then 24.00 for each started 15. */

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-repair-op.h"
#include "hs-square.h"
#include "hs-undo.h"
#include "hs-visit-view.h"
#include "ops-choice.h"

#define MINUTES(n) (OPS_CHOICE_NOW + 60 * (n))

/* @unclocked_at: HS_INSTANT_NONE: the minutes of all visits are known. */
static void
assert_bill (OpsChoice *job, HsInstant now, HsInstant unclocked_at, gint64 minutes, gint64 net_cents)
{
  g_autoptr (HsJobView) view = ops_choice_view_at (job, now);

  g_assert_cmpint (view->unclocked_at, ==, unclocked_at);
  g_assert_cmpint (view->clock_minutes, ==, minutes);
  g_assert_cmpint (view->net_cents, ==, net_cents);
}

static void
move (OpsChoice *job, HsStage to, HsInstant at)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_move_stage (job->book, job->job, to, to == HS_STAGE_PROVEN ? "customer gone" : NULL, at,
                                    &error));
  g_assert_no_error (error);
}

static void
set_minutes (OpsChoice *job, gint64 minutes, HsInstant now)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_visit_set_minutes (job->book, job->job, minutes, now, &error));
  g_assert_no_error (error);
}

static void
price_refused (OpsChoice *job, HsInstant now, const char *said)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_job_price (job->book, job->job, NULL, now, &error));
  hs_ops_test_refused (&error, said);
}

/* What is said before, and then. */
static void
square_refused (OpsChoice *job, HsInstant now, const char *said)
{
  g_autoptr (HsSquareOutlook) outlook = hs_square_outlook_load (job->book, job->job, now, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (strstr (outlook->refusal, said));
  g_assert_cmpstr (outlook->place, ==, "bill");
  g_assert_false (outlook->may_price);
  g_assert_false (hs_job_square (job->book, job->job, now, &error));
  hs_ops_test_refused (&error, said);
  g_assert_cmpint (hs_ops_test_count (job->test, "invoice"), ==, 0);
}

/* It arrived at 06:45, and then the clock stands at 05:45. */
static void
test_reversed (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const char *said = "A-0001: the visit began at 06:45 on 2026-03-10, and this machine's clock was put back since";
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 50000, "Teo", "phone", MINUTES (0), NULL));
  assert_bill (&job, MINUTES (0), HS_INSTANT_NONE, 0, 0);
  assert_bill (&job, MINUTES (-60), OPS_CHOICE_NOW, 0, 0);
  price_refused (&job, MINUTES (-60), said);
  move (&job, HS_STAGE_PROVEN, MINUTES (-60));
  square_refused (&job, MINUTES (-60), said);
  square_refused (&job, MINUTES (-1), "Type them on the bill.");
  /* 20 min past the thirty are two quarters. The clock runs on from there. */
  set_minutes (&job, 50, MINUTES (-60));
  assert_bill (&job, MINUTES (-60), HS_INSTANT_NONE, 50, 6000 + 2 * 2400);
  assert_bill (&job, MINUTES (-49), HS_INSTANT_NONE, 61, 6000 + 3 * 2400);
  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (-60), &error));
  hs_ops_test_one (job.test, "line WHERE what = 'Call-out and 50 min on site' AND price_cents = 10800");
  g_assert_true (hs_job_square (job.book, job.job, MINUTES (-55), &error));
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "invoice WHERE net_cents = 10800");
}

/* No minutes are minutes as well. */
static void
test_none (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();

  set_minutes (&job, 0, MINUTES (-60));
  assert_bill (&job, MINUTES (-60), HS_INSTANT_NONE, 0, 0);
  assert_bill (&job, MINUTES (-50), HS_INSTANT_NONE, 10, 6000);
}

/* A visit that was over at a moment before it began took no time by its stamps; the one after it has its own. */
static void
test_over (void)
{
  static const struct
  {
    gint64 minutes, in_all, net_cents;
  } rows[] = { { 140, 160, 6000 + 9 * 2400 }, { 0, 20, 6000 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      HsInstant next = MINUTES (24 * 60);
      const char *said = "A-0001: the visit began and ended at 06:45 on 2026-03-10.";

      g_assert_true (hs_go_ahead_add (job.book, job.job, 50000, "Teo", "phone", MINUTES (0), NULL));
      move (&job, HS_STAGE_PROMISED, MINUTES (-60));
      move (&job, HS_STAGE_ON_SITE, next);
      assert_bill (&job, next + 20 * 60, OPS_CHOICE_NOW, 20, 6000);
      price_refused (&job, next + 20 * 60, said);
      move (&job, HS_STAGE_PROVEN, next + 20 * 60);
      square_refused (&job, next + 20 * 60, said);
      set_minutes (&job, rows[i].minutes, next + 20 * 60);
      assert_bill (&job, next + 20 * 60, HS_INSTANT_NONE, rows[i].in_all, rows[i].net_cents);
    }
}

/* What happens on the visit that arrived at 0: `p`auses, `r`esumes, `l`eaves. */
static void
do_step (OpsChoice *job, char step, HsInstant at)
{
  g_autoptr (GError) error = NULL;

  if (step == 'l')
    move (job, HS_STAGE_PROMISED, at);
  else if (step == 'p')
    hs_visit_pause (job->book, job->job, at, &error);
  else
    hs_visit_resume (job->book, job->job, at, &error);
  g_assert_no_error (error);
}

static void
assert_visit (OpsChoice *job, HsInstant now, gint64 minutes, gint64 paused, guint n_pauses)
{
  g_autoptr (GPtrArray) visits = hs_visit_view_list (job->book, job->job, now, NULL);
  const HsVisitView *visit = g_ptr_array_index (visits, 0);

  g_assert_cmpint (visit->seconds, ==, 60 * minutes);
  g_assert_cmpint (visit->paused_seconds, ==, 60 * paused);
  g_assert_cmpuint (visit->n_pauses, ==, n_pauses);
}

/* A clock that was put back shows where one stamp is before the one that it comes after, also once it goes right again.
 * Two at the same second are two presses, and a visit that was closed in a pause was over when that began. */
static void
test_stamps (void)
{
  static const struct
  {
    const char *steps;
    int at[4];
    gint64 now;
    gboolean known;
    gint64 minutes, paused;
    guint n_pauses;
    gint64 net_cents;
  } rows[] = {
    { "pr", { 41, -9 }, 101, FALSE, 0, 0, 1, 0 },
    { "pr", { 41, 6 }, 101, FALSE, 0, 0, 1, 0 },
    { "prl", { 41, 6, 101 }, 101, FALSE, 0, 0, 1, 0 },
    { "pr", { -39, -29 }, 56, FALSE, 0, 0, 1, 0 },
    { "p", { -9 }, -9, FALSE, 0, 0, 1, 0 },
    { "p", { -9 }, 131, FALSE, 0, 0, 1, 0 },
    { "prp", { 20, 30, 25 }, 100, FALSE, 0, 0, 2, 0 },
    { "prl", { 30, 60, 40 }, 200, FALSE, 0, 0, 1, 0 },
    { "pr", { 30, 60 }, 40, FALSE, 0, 0, 1, 0 },
    { "l", { -1 }, 200, FALSE, 0, 0, 0, 0 },
    { "pl", { 41, 6 }, 200, TRUE, 41, 0, 1, 6000 + 2400 },
    { "prpl", { 10, 20, 51, 60 }, 200, TRUE, 41, 10, 2, 6000 + 2400 },
    { "pr", { 10, 10 }, 20, TRUE, 20, 0, 1, 6000 },
    { "pr", { 0, 5 }, 20, TRUE, 15, 5, 1, 6000 },
    { "p", { 10 }, 20, TRUE, 10, 10, 1, 6000 },
    { "l", { 0 }, 200, TRUE, 0, 0, 0, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      HsInstant now = MINUTES (rows[i].now);
      HsInstant unclocked_at = rows[i].known ? HS_INSTANT_NONE : OPS_CHOICE_NOW;

      g_test_message ("row %u", i);
      for (guint k = 0; rows[i].steps[k] != '\0'; k++)
        do_step (&job, rows[i].steps[k], MINUTES (rows[i].at[k]));
      assert_bill (&job, now, unclocked_at, rows[i].minutes, rows[i].net_cents);
      assert_visit (&job, now, rows[i].minutes, rows[i].paused, rows[i].n_pauses);
      if (rows[i].known)
        continue;
      price_refused (&job, now, "so the minutes at the vehicle are not known");
      set_minutes (&job, 50, now);
      assert_bill (&job, now, HS_INSTANT_NONE, 50, 6000 + 2 * 2400);
      g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, now, NULL, NULL));
      assert_bill (&job, now, OPS_CHOICE_NOW, 0, 0);
    }
}

/* One that was left in the second in which it arrived took none, and is in nobody's way. */
static void
test_no_length (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  HsInstant next = MINUTES (24 * 60);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 50000, "Teo", "phone", MINUTES (0), NULL));
  move (&job, HS_STAGE_PROMISED, MINUTES (0));
  move (&job, HS_STAGE_ON_SITE, next);
  move (&job, HS_STAGE_PROVEN, next + 20 * 60);
  g_assert_true (hs_job_price (job.book, job.job, NULL, next + 20 * 60, &error));
  g_assert_true (hs_job_square (job.book, job.job, next + 20 * 60, &error));
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "invoice WHERE net_cents = 6000");
}

/* Pauses are not counted twice: what is typed is without them. One that lasts goes on. */
static void
test_pauses (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();

  g_assert_true (hs_visit_pause (job.book, job.job, MINUTES (10), NULL));
  g_assert_true (hs_visit_resume (job.book, job.job, MINUTES (30), NULL));
  g_assert_true (hs_visit_pause (job.book, job.job, MINUTES (40), NULL));
  set_minutes (&job, 20, MINUTES (-60));
  assert_bill (&job, MINUTES (-60), HS_INSTANT_NONE, 20, 6000);
  assert_bill (&job, MINUTES (100), HS_INSTANT_NONE, 20, 6000);
  g_assert_true (hs_visit_resume (job.book, job.job, MINUTES (-50), NULL));
  assert_bill (&job, MINUTES (100), HS_INSTANT_NONE, 170, 6000 + 10 * 2400);
}

/* Priced while the clock went right, put back before it tested good: whether that price is too low nobody knows. */
static void
test_priced_before (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();

  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (10), NULL));
  assert_bill (&job, MINUTES (-60), OPS_CHOICE_NOW, 0, 6000);
  move (&job, HS_STAGE_PROVEN, MINUTES (-60));
  g_assert_cmpint (hs_ops_test_count (job.test, "line WHERE kind = 'labor'"), ==, 0);
  assert_bill (&job, MINUTES (-60), OPS_CHOICE_NOW, 0, 0);
  set_minutes (&job, 45, MINUTES (-60));
  assert_bill (&job, MINUTES (-60), HS_INSTANT_NONE, 45, 8400);
}

/* Where no minute is charged nobody is asked: an option with the call-out is the price of the visit; on the house;
 * called off. */
static void
test_not_charged (void)
{
  g_auto (OpsChoice) agreed = ops_choice_start ();
  g_auto (OpsChoice) given = ops_choice_start ();
  g_auto (OpsChoice) off = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&agreed);

  ops_choice_answer (&agreed, belt, "yes", NULL);
  assert_bill (&agreed, MINUTES (-60), HS_INSTANT_NONE, 0, 15040);
  g_assert_true (hs_job_price (agreed.book, agreed.job, NULL, MINUTES (-60), NULL));
  g_assert_true (hs_job_price (given.book, given.job, "an old friend", MINUTES (-60), NULL));
  hs_ops_test_one (given.test, "line WHERE what = 'Call-out and work on site'");
  assert_bill (&given, MINUTES (-60), HS_INSTANT_NONE, 0, 0);
  g_assert_true (hs_job_move_stage (off.book, off.job, HS_STAGE_CALLED_OFF, "gone", MINUTES (-60), NULL));
  assert_bill (&off, MINUTES (-60), HS_INSTANT_NONE, 0, 0);
}

/* What was squared up was paid for as it stands: an option with the call-out of 60.00, and 90 min of 144.00. */
static void
test_squared (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry lines[] = {
    { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .minutes = 90, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
  };
  g_autofree char *strap = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Strap" }, lines, 2,
                                          OPS_CHOICE_NOW, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 50000, "Teo", "phone", MINUTES (0), NULL));
  ops_choice_answer (&job, strap, "yes", NULL);
  g_assert_true (hs_job_price (job.book, job.job, NULL, MINUTES (-10), NULL));
  move (&job, HS_STAGE_PROVEN, MINUTES (-10));
  g_assert_true (hs_job_square (job.book, job.job, MINUTES (-10), &error));
  g_assert_no_error (error);
  g_assert_false (hs_visit_set_minutes (job.book, job.job, 50, MINUTES (-10), &error));
  hs_ops_test_refused (&error, "A-0001 is squared up; the minutes of its visits stay as they are.");
  hs_ops_test_one (job.test, "visit WHERE left_at = arrived_at");
}

static void
test_refused (void)
{
  static const struct
  {
    gint64 minutes;
    HsInstant now;
    const char *said;
  } rows[] = {
    { -1, MINUTES (-60), "from 0 to 10080" },
    { 10081, MINUTES (-60), "from 0 to 10080" },
    { 50, MINUTES (0), "A-0001 has the minutes of every visit" },
    { 50, MINUTES (20), "A-0001 has the minutes of every visit" },
  };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_false (hs_visit_set_minutes (job.book, job.job, rows[i].minutes, rows[i].now, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  g_assert_false (hs_visit_set_minutes (job.book, "nothing", 50, MINUTES (-60), &error));
  g_assert_nonnull (error);
  set_minutes (&job, 10080, MINUTES (-60));
  g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, MINUTES (-59), NULL, NULL));
  assert_bill (&job, MINUTES (-60), OPS_CHOICE_NOW, 0, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/visit-minutes/reversed", test_reversed);
  g_test_add_func ("/visit-minutes/none", test_none);
  g_test_add_func ("/visit-minutes/over", test_over);
  g_test_add_func ("/visit-minutes/stamps", test_stamps);
  g_test_add_func ("/visit-minutes/no-length", test_no_length);
  g_test_add_func ("/visit-minutes/pauses", test_pauses);
  g_test_add_func ("/visit-minutes/priced-before", test_priced_before);
  g_test_add_func ("/visit-minutes/not-charged", test_not_charged);
  g_test_add_func ("/visit-minutes/squared", test_squared);
  g_test_add_func ("/visit-minutes/refused", test_refused);
  return g_test_run ();
}
