// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was told and picked as it is read back: the order of groups, words of ranks, labor by the minute, what a yes
 * would bring, and an owner's mind that changed. */

#include "hs-job-life.h"
#include "hs-settings-op.h"
#include "ops-choice.h"

static char *
offer (OpsChoice *job, const char *group, const char *rank, const char *wording, gint64 price_cents)
{
  const HsChoiceEntry entry = { .group = group, .rank = rank, .wording = wording, .risk = "a risk" };
  const HsChoiceLineEntry line = { .kind = "sundry", .cost_cents = HS_INT_NONE, .price_cents = price_cents };
  g_autoptr (GError) error = NULL;
  char *id = hs_choice_add (job->book, job->job, &entry, &line, 1, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  return id;
}

static void
assert_choice (const HsJobChoices *job, guint number, const char *wording, const char *rank, gint64 less, gint64 in_all)
{
  const HsChoice *choice = hs_job_choices_find (job, number);

  g_assert_cmpuint (choice->number, ==, number);
  g_assert_cmpstr (choice->wording, ==, wording);
  g_assert_cmpstr (choice->rank, ==, rank);
  g_assert_cmpint (choice->less_cents, ==, less);
  g_assert_cmpint (choice->in_all_cents, ==, in_all);
}

/* Alone first, then group by group, each by rank; a dearer one below the first saves nothing. */
static void
test_order (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *a = offer (&job, "hose", "least", "Tape", 500);
  g_autofree char *b = offer (&job, "belt", "2", "Belt", 4000);
  g_autofree char *c = offer (&job, "hose", "1", "New hose", 9000);
  g_autofree char *d = offer (&job, NULL, NULL, "Lamp", 300);
  g_autofree char *e = offer (&job, "belt", "best", "Belt kit", 3000);
  g_autofree char *f = offer (&job, "belt", "7", "Belt one day", 1000);
  g_autoptr (HsJobChoices) choices = ops_choice_load (&job);

  g_assert_cmpuint (choices->choices->len, ==, 6);
  assert_choice (choices, 1, "Lamp", NULL, 0, 0);
  assert_choice (choices, 2, "Belt kit", "best", 0, 0);
  assert_choice (choices, 3, "Belt", "enough", 0, 0);
  assert_choice (choices, 4, "Belt one day", NULL, 2000, 4000);
  assert_choice (choices, 5, "New hose", "best", 0, 0);
  assert_choice (choices, 6, "Tape", "least", 8500, 9500);
  g_assert_cmpstr (choices->customer, ==, "Teo Calloway");
  g_assert_false (choices->squared);
}

/* One whose place nobody said stands before those that cost less, and is not called by a rank; a new one without a
 * price comes last, so that the digits of the others stay. */
static void
test_place (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *a = offer (&job, "hose", "best", "New hose", 9000);
  g_autofree char *b = offer (&job, "hose", "least", "Tape", 500);
  g_autofree char *c = offer (&job, "hose", NULL, "Not priced", 0);
  g_autofree char *d = offer (&job, "hose", NULL, "Sleeve", 2000);
  g_autofree char *e = offer (&job, "hose", NULL, "Silicone", 9500);
  g_autoptr (HsJobChoices) choices = ops_choice_load (&job);

  assert_choice (choices, 1, "Silicone", NULL, 0, 0);
  assert_choice (choices, 2, "New hose", "best", 500, 18500);
  assert_choice (choices, 3, "Sleeve", NULL, 7500, 11500);
  assert_choice (choices, 4, "Tape", "least", 9000, 10000);
  assert_choice (choices, 5, "Not priced", NULL, 9500, 9500);
}

/* Two groups picked stand on one bill; what a yes would bring counts the other group as it stands. */
static void
test_two_groups (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *hose = offer (&job, "hose", "best", "New hose", 9000);
  g_autofree char *tape = offer (&job, "hose", "least", "Tape", 500);
  g_autofree char *belt = offer (&job, "belt", "best", "Belt", 4000);
  g_autoptr (HsJobChoices) first = NULL;
  g_autoptr (HsJobChoices) both = NULL;

  ops_choice_answer (&job, tape, "yes", NULL);
  first = ops_choice_load (&job);
  g_assert_cmpint (hs_job_choices_find (first, 1)->would_cents, ==, 4500);
  g_assert_cmpint (hs_job_choices_find (first, 2)->would_cents, ==, 9000);
  g_assert_cmpint (hs_job_choices_find (first, 3)->would_cents, ==, 500);
  ops_choice_answer (&job, belt, "yes", NULL);
  both = ops_choice_load (&job);
  g_assert_cmpint (both->room->used_cents, ==, 4500);
  g_assert_cmpint (hs_job_choices_find (both, 2)->would_cents, ==, 13000);
  g_assert_cmpstr (both->room_words, ==, "The job comes to 45.00 and nobody gave a go-ahead yet.");
}

/* The over-run that the owner allows is room, too. */
static void
test_overrun (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *hose = offer (&job, NULL, NULL, "New hose", 9000);
  g_autoptr (HsJobChoices) tight = NULL;
  g_autoptr (HsJobChoices) wide = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 8500, "Teo", "email", OPS_CHOICE_NOW, NULL));
  tight = ops_choice_load (&job);
  g_assert_cmpint (hs_job_choices_find (tight, 1)->would_short_cents, ==, 500);
  g_assert_true (hs_settings_set (job.book, "overrun_cents", "500", OPS_CHOICE_NOW, NULL));
  wide = ops_choice_load (&job);
  g_assert_cmpint (hs_job_choices_find (wide, 1)->would_short_cents, ==, 0);
  ops_choice_answer (&job, hose, "yes", NULL);
}

static void
test_no_such_job (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_job_choices_load (job.book, "nothing", OPS_CHOICE_NOW, &error));
  g_assert_nonnull (error);
  hs_job_choices_free (NULL);
  hs_go_ahead_room_free (NULL);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/choice-load/order", test_order);
  g_test_add_func ("/choice-load/place", test_place);
  g_test_add_func ("/choice-load/two-groups", test_two_groups);
  g_test_add_func ("/choice-load/overrun", test_overrun);
  g_test_add_func ("/choice-load/no-such-job", test_no_such_job);
  return g_test_run ();
}
