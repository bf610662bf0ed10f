// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Rolling off while the owner is still at another vehicle: A-0021 of the demo morning, reached at 08:49. */

#include "hs-roll-op.h"

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-undo-op.h"
#include "hs-van-row.h"
#include "ops-town.h"

#define DAY "2026-03-10T"

static void
move (OpsTown *town, const char *number, HsStage to, const char *reason, const char *clock)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (town->book, job, to, reason, ops_town_at (town, clock), &error);
  g_assert_no_error (error);
}

static OpsTown *
at_the_vehicle (void)
{
  OpsTown *town = ops_town_new_accepted ();

  move (town, "A-0021", HS_STAGE_ROLLING, NULL, DAY "08:31");
  move (town, "A-0021", HS_STAGE_ON_SITE, NULL, DAY "08:49");
  return town;
}

/* Minutes of the labor clock of A-0021 at 11:00. */
static int
clock_at_eleven (OpsTown *town)
{
  g_autofree char *job = ops_town_job (town, "A-0021");
  gint64 seconds;

  g_assert_true (hs_visit_seconds (town->book, job, ops_town_at (town, DAY "11:00"), &seconds, NULL));
  return (int) (seconds / 60);
}

static char *
stage_of (OpsTown *town, const char *number)
{
  g_autoptr (HsJobRow) job = NULL;

  g_assert_true (hs_job_row_find (hs_book_get_store (town->book), number, &job, NULL));
  return g_strdup (job->stage);
}

static gboolean
roll (OpsTown *town, const char *number, gboolean leave, const char *clock, GError **error)
{
  g_autofree char *job = ops_town_job (town, number);

  return hs_roll (town->book, job, NULL, leave, ops_town_at (town, clock), error);
}

#define ASSERT_STAGE(town, number, stage)                                      \
  G_STMT_START                                                                 \
  {                                                                            \
    g_autofree char *found = stage_of (town, number);                          \
    g_assert_cmpstr (found, ==, stage);                                        \
  }                                                                            \
  G_STMT_END

/* Told before: which, whose, and what the clock shows. */
static void
test_told (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autofree char *job = ops_town_job (town, "A-0022");
  g_autoptr (HsRollOutlook) outlook = hs_roll_outlook_load (town->book, job, ops_town_at (town, DAY "09:51"), NULL);
  const HsRollLeft *left;

  g_assert_cmpuint (outlook->left->len, ==, 1);
  g_assert_false (hs_roll_outlook_is_clear (outlook));
  left = g_ptr_array_index (outlook->left, 0);
  g_assert_cmpstr (left->number, ==, "A-0021");
  g_assert_cmpstr (left->who, ==, "Marguerite Stane");
  g_assert_cmpint (left->seconds, ==, 62 * 60);
}

static void
test_refused (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autoptr (GError) error = NULL;

  g_assert_false (roll (town, "A-0022", FALSE, DAY "09:51", &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_LEAVES_OPEN);
  g_assert_cmpstr (error->message, ==,
                   "A-0021, Marguerite Stane, is still at the vehicle and its labor clock runs. Finish it first, or"
                   " leave it open and stop its clock.");
  ASSERT_STAGE (town, "A-0022", "promised");
  g_assert_cmpint (clock_at_eleven (town), ==, 131);
}

/* 62 minutes, and no more; one step brings both back. Gone back to, the first visit is over when its clock stopped. */
static void
test_left_open (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autoptr (HsTakenBack) taken = NULL;
  g_autoptr (HsTakenBack) again = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (roll (town, "A-0022", TRUE, DAY "09:51", &error));
  ASSERT_STAGE (town, "A-0021", "on_site");
  ASSERT_STAGE (town, "A-0022", "rolling");
  g_assert_cmpint (clock_at_eleven (town), ==, 62);
  taken = hs_take_back (town->book, 0, 0, ops_town_at (town, DAY "09:52"), &error);
  g_assert_cmpstr (taken->number, ==, "A-0022");
  g_assert_cmpstr (taken->what, ==, "rolling, labor clock stopped: A-0021");
  ASSERT_STAGE (town, "A-0022", "promised");
  g_assert_cmpint (clock_at_eleven (town), ==, 131);
  again = hs_do_again (town->book, ops_town_at (town, DAY "09:53"), &error);
  g_assert_nonnull (again);
  g_assert_cmpint (clock_at_eleven (town), ==, 62);
  /* Its clock stands: nobody is asked a second time. */
  move (town, "A-0022", HS_STAGE_PROMISED, NULL, DAY "09:54");
  g_assert_true (roll (town, "A-0023", FALSE, DAY "10:00", &error));
  move (town, "A-0021", HS_STAGE_ROLLING, NULL, DAY "10:30");
  move (town, "A-0021", HS_STAGE_ON_SITE, NULL, DAY "10:40");
  g_assert_cmpint (clock_at_eleven (town), ==, 82);
}

/* Left without a question: tested good, waiting, its clock stopped by hand, or the job that rolls itself. */
static void
test_no_fault (void)
{
  static const struct
  {
    HsStage to;
    const char *reason, *rolls;
    gint minutes;
  } rows[] = {
    { HS_STAGE_PROVEN, "the customer had to go", "A-0022", 62 },
    { HS_STAGE_WAITING_PART, NULL, "A-0022", 51 },
    { HS_STAGE_ON_SITE, NULL, "A-0021", 62 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = at_the_vehicle ();
      g_autofree char *job = ops_town_job (town, rows[i].rolls);
      g_autoptr (HsRollOutlook) outlook = NULL;
      g_autoptr (GError) error = NULL;

      if (rows[i].to != HS_STAGE_ON_SITE)
        move (town, "A-0021", rows[i].to, rows[i].reason, DAY "09:40");
      outlook = hs_roll_outlook_load (town->book, job, ops_town_at (town, DAY "09:51"), NULL);
      g_assert_cmpuint (outlook->left->len, ==, 0);
      g_assert_true (roll (town, rows[i].rolls, FALSE, DAY "09:51", &error));
      g_assert_no_error (error);
      g_assert_cmpint (clock_at_eleven (town), ==, rows[i].minutes);
    }
}

static void
test_stopped_by_hand (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autofree char *job = ops_town_job (town, "A-0021");
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_visit_pause (town->book, job, ops_town_at (town, DAY "09:00"), NULL));
  g_assert_true (roll (town, "A-0022", FALSE, DAY "09:51", &error));
  g_assert_cmpint (clock_at_eleven (town), ==, 11);
}

static void
give_to_second_van (OpsTown *town, const char *number)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVanRow) van = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_set (town, "vans", "A,B");

  g_assert_true (hs_job_row_find (store, number, &job, NULL));
  g_assert_true (hs_van_row_find (store, "B", &van, NULL));
  g_assert_true (hs_store_begin (store, ops_town_now (town), NULL));
  hs_row_set (&job->van_id, van->id);
  g_assert_true (hs_store_end (store, hs_job_row_save (store, job, &error), &error));
  g_assert_no_error (error);
}

/* Another van is at its own vehicle meanwhile. */
static void
test_other_van (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autofree char *job = ops_town_job (town, "A-0022");
  g_autoptr (HsRollOutlook) outlook = NULL;
  g_autoptr (GError) error = NULL;

  give_to_second_van (town, "A-0022");
  outlook = hs_roll_outlook_load (town->book, job, ops_town_at (town, DAY "09:51"), NULL);
  g_assert_cmpuint (outlook->left->len, ==, 0);
  g_assert_true (roll (town, "A-0022", FALSE, DAY "09:51", &error));
  g_assert_cmpint (clock_at_eleven (town), ==, 131);
}

/* What the stages refuse is refused in their words, and stops no clock. */
static void
test_refused_by_the_stages (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autoptr (GError) error = NULL;

  move (town, "A-0022", HS_STAGE_ROLLING, NULL, DAY "09:00");
  g_assert_false (roll (town, "A-0022", TRUE, DAY "09:51", &error));
  g_assert_nonnull (error);
  g_assert_null (g_strstr_len (error->message, -1, "A-0021"));
  g_assert_cmpint (clock_at_eleven (town), ==, 131);
  g_clear_error (&error);
  g_assert_false (hs_roll (town->book, "nobody", NULL, TRUE, ops_town_now (town), &error));
  g_assert_nonnull (error);
}

static gboolean
arrive (OpsTown *town, const char *number, gboolean leave, const char *clock, GError **error)
{
  g_autofree char *job = ops_town_job (town, number);

  return hs_arrive (town->book, job, "they came over", leave, ops_town_at (town, clock), error);
}

/* Begun at another vehicle without having rolled: the same question, and one clock that runs. */
static void
test_arrives (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autofree char *job = ops_town_job (town, "A-0022");
  g_autoptr (HsRollOutlook) outlook = hs_arrive_outlook_load (town->book, job, ops_town_at (town, DAY "09:51"), NULL);
  g_autoptr (HsTakenBack) taken = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (outlook->left->len, ==, 1);
  g_assert_cmpstr (((const HsRollLeft *) g_ptr_array_index (outlook->left, 0))->number, ==, "A-0021");
  g_assert_cmpuint (outlook->breaks->len + outlook->shut->len, ==, 0);
  g_assert_false (arrive (town, "A-0022", FALSE, DAY "09:51", &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_LEAVES_OPEN);
  g_clear_error (&error);
  ASSERT_STAGE (town, "A-0022", "promised");
  g_assert_cmpint (clock_at_eleven (town), ==, 131);
  g_assert_true (arrive (town, "A-0022", TRUE, DAY "09:51", &error));
  ASSERT_STAGE (town, "A-0022", "on_site");
  ASSERT_STAGE (town, "A-0021", "on_site");
  g_assert_cmpint (clock_at_eleven (town), ==, 62);
  taken = hs_take_back (town->book, 0, 0, ops_town_at (town, DAY "09:52"), &error);
  g_assert_cmpstr (taken->what, ==, "at the vehicle, labor clock stopped: A-0021");
  ASSERT_STAGE (town, "A-0022", "promised");
  g_assert_cmpint (clock_at_eleven (town), ==, 131);
}

/* Nothing to ask: the usual way by rolling, what is tested good, and a job that the stages let nobody begin. */
static void
test_arrives_without_fault (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autofree char *job = ops_town_job (town, "A-0021");
  g_autoptr (HsRollOutlook) outlook = hs_arrive_outlook_load (town->book, job, ops_town_at (town, DAY "09:51"), NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_roll_outlook_is_clear (outlook));
  g_assert_false (arrive (town, "A-0021", TRUE, DAY "09:30", &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  move (town, "A-0021", HS_STAGE_PROVEN, "the customer had to go", DAY "09:40");
  g_assert_true (arrive (town, "A-0022", FALSE, DAY "09:51", &error));
  g_assert_cmpint (clock_at_eleven (town), ==, 62);
}

static void
square (OpsTown *town, const char *number, const char *clock)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autoptr (GError) error = NULL;

  hs_job_price (town->book, job, "looked at once more", ops_town_at (town, clock), &error);
  g_assert_no_error (error);
  hs_job_square (town->book, job, ops_town_at (town, clock), &error);
  g_assert_no_error (error);
}

/* What was left is squared up afterwards, which is the usual order. The roll is taken back and done again, and what is
 * squared up stays as it is: 62 minutes to the roll and 10 from testing it good to squaring it up. */
static void
test_squared_since (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autoptr (HsTakenBack) taken = NULL;
  g_autoptr (HsTakenBack) again = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (roll (town, "A-0022", TRUE, DAY "09:51", &error));
  move (town, "A-0021", HS_STAGE_PROVEN, "the customer had to go", DAY "10:10");
  square (town, "A-0021", DAY "10:20");
  g_assert_cmpint (clock_at_eleven (town), ==, 72);
  taken = hs_take_back (town->book, 0, 0, ops_town_at (town, DAY "10:21"), &error);
  g_assert_no_error (error);
  g_assert_cmpstr (taken->number, ==, "A-0022");
  g_assert_cmpstr (taken->kept, ==, "A-0021");
  ASSERT_STAGE (town, "A-0022", "promised");
  ASSERT_STAGE (town, "A-0021", "squared");
  g_assert_cmpint (clock_at_eleven (town), ==, 72);
  again = hs_do_again (town->book, ops_town_at (town, DAY "10:22"), &error);
  g_assert_no_error (error);
  g_assert_cmpstr (again->kept, ==, "A-0021");
  ASSERT_STAGE (town, "A-0022", "rolling");
  g_assert_cmpint (clock_at_eleven (town), ==, 72);
}

/* Taken back first, squared up then: what is done again stops no clock that was billed. */
static void
test_squared_between (void)
{
  g_autoptr (OpsTown) town = at_the_vehicle ();
  g_autoptr (HsTakenBack) taken = NULL;
  g_autoptr (HsTakenBack) again = NULL;
  g_autoptr (GError) error = NULL;

  move (town, "A-0021", HS_STAGE_PROVEN, "the customer had to go", DAY "09:40");
  g_assert_true (roll (town, "A-0022", FALSE, DAY "09:51", &error));
  taken = hs_take_back (town->book, 0, 0, ops_town_at (town, DAY "09:52"), &error);
  g_assert_null (taken->kept);
  square (town, "A-0021", DAY "09:56");
  g_assert_cmpint (clock_at_eleven (town), ==, 67);
  again = hs_do_again (town->book, ops_town_at (town, DAY "09:57"), &error);
  g_assert_no_error (error);
  g_assert_cmpstr (again->kept, ==, "A-0021");
  ASSERT_STAGE (town, "A-0022", "rolling");
  g_assert_cmpint (clock_at_eleven (town), ==, 67);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/roll-leave/told", test_told);
  g_test_add_func ("/ops/roll-leave/refused", test_refused);
  g_test_add_func ("/ops/roll-leave/left-open", test_left_open);
  g_test_add_func ("/ops/roll-leave/no-fault", test_no_fault);
  g_test_add_func ("/ops/roll-leave/stopped-by-hand", test_stopped_by_hand);
  g_test_add_func ("/ops/roll-leave/other-van", test_other_van);
  g_test_add_func ("/ops/roll-leave/refused-by-the-stages", test_refused_by_the_stages);
  g_test_add_func ("/ops/roll-leave/arrives", test_arrives);
  g_test_add_func ("/ops/roll-leave/arrives-without-fault", test_arrives_without_fault);
  g_test_add_func ("/ops/roll-leave/squared-since", test_squared_since);
  g_test_add_func ("/ops/roll-leave/squared-between", test_squared_between);
  return g_test_run ();
}
