// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the customer answers: who, how, when, which risk; what a yes does to the bill and to the rest of its group, who
 * has to be called, and that all of it can be taken back. */

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-signature.h"
#include "hs-undo.h"
#include "ops-choice.h"

#define RISK "New belt will be wetted again; expect the lamp back within weeks"

static void
undo (OpsChoice *job)
{
  g_autoptr (GError) error = NULL;

  hs_undo_last (hs_book_get_store (job->book), job->job, OPS_CHOICE_NOW, NULL, &error);
  g_assert_no_error (error);
}

static GBytes *
sign (gboolean with_stroke)
{
  g_autoptr (HsSignature) signature = hs_signature_new (400, 100);

  hs_signature_begin (signature, 10, 50);
  if (with_stroke)
    hs_signature_move (signature, 200, 20);
  return hs_signature_to_bytes (signature);
}

/* A-0013: the belt alone; the pump is declined by it, with the risk that was told, and the bill is that of the belt. */
static void
test_cheaper (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *cure = ops_choice_add_cure (&job);
  g_autofree char *belt = ops_choice_add_belt (&job);
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;

  answer.choice = "yes";
  answer.by = " Teo Calloway ";
  answer.means = "in person";
  ops_choice_refused (&job, belt, &answer,
                      "“Belt only” leaves out “Water pump, belt and coolant”. Say in one sentence");
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 0);
  answer.risk = RISK;
  g_assert_true (hs_choice_decide (job.book, belt, &answer, OPS_CHOICE_NOW, NULL));
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt only' AND choice = 'yes' AND decided_by = 'Teo Calloway'"
                             " AND means = 'in_person' AND decided_at = 1773139500");
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt only' AND risk_told = '" RISK "'");
  hs_ops_test_one (job.test, "advice WHERE wording LIKE 'Water pump%' AND choice = 'no' AND decided_by = 'Teo Calloway'"
                             " AND risk_told = '" RISK "' AND decided_at = 1773139500 AND chase_on IS NULL");
  hs_ops_test_one (job.test, "line WHERE kind = 'part' AND what = 'drive belt' AND cost_cents = 2400"
                             " AND price_cents = 4240 AND tax_cents = 339");
  hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 4800 AND quantity_milli = 60000");
  hs_ops_test_one (job.test, "line WHERE kind = 'call_out' AND price_cents = 6000");
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 3);
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 0);
  undo (&job);
  g_assert_cmpint (hs_ops_test_count (job.test, "advice WHERE choice = 'open' AND decided_by IS NULL"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 0);
}

/* Who takes the better one declines nothing that could hurt. */
static void
test_better (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *cure = ops_choice_add_cure (&job);

  ops_choice_answer (&job, cure, "yes", NULL);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt only' AND choice = 'no'"
                             " AND risk_told = 'none: “Water pump, belt and coolant” was picked'");
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 5);

  /* Another mind: the pump off the bill, the belt on it. */
  ops_choice_answer (&job, belt, "yes", RISK);
  hs_ops_test_one (job.test, "advice WHERE choice = 'yes' AND wording = 'Belt only'");
  hs_ops_test_one (job.test, "advice WHERE choice = 'no' AND wording LIKE 'Water pump%'");
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 3);
  ops_choice_answer (&job, belt, "open", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 0);
  hs_ops_test_one (job.test, "advice WHERE choice = 'open' AND decided_at IS NULL AND means IS NULL");
}

/* Four beside each other: each that is left keeps what was told of it; the better one was told of by what was picked,
 * of the lesser one nothing was, so it needs its risk when it is asked about again. */
static void
test_own_risk (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *cure = ops_choice_add_cure (&job);
  const HsChoiceEntry wait = { .wording = "Wait", .group = "cure", .rank = "least", .risk = "the lamp stays on" };
  const HsChoiceEntry dress = { .wording = "Belt dressing", .group = "cure", .rank = "least" };
  g_autofree char *waits = hs_choice_add (job.book, job.job, &wait, NULL, 0, OPS_CHOICE_NOW, NULL);
  g_autofree char *dresses = hs_choice_add (job.book, job.job, &dress, NULL, 0, OPS_CHOICE_NOW, NULL);
  const HsChoiceAnswer no = { .choice = "no", .by = "Teo", .means = "phone", .call_on = HS_DATE_NONE,
                              .ceiling_cents = HS_INT_NONE };
  g_autoptr (HsJobChoices) choices = NULL;

  ops_choice_answer (&job, belt, "yes", RISK);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt only' AND choice = 'yes' AND risk_told = '" RISK "'");
  hs_ops_test_one (job.test, "advice WHERE wording = 'Wait' AND choice = 'no' AND risk_told = 'the lamp stays on'");
  hs_ops_test_one (job.test, "advice WHERE wording LIKE 'Water pump%' AND choice = 'no' AND risk_told = '" RISK "'");
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt dressing' AND choice = 'no'"
                             " AND risk_told = 'none: “Belt only” was picked'");
  choices = ops_choice_load (&job);
  g_assert_true (hs_job_choices_find (choices, 4)->no_risk);
  g_assert_false (hs_job_choices_find (choices, 2)->no_risk);
  ops_choice_refused (&job, dresses, &no, "Which risk was told?");
  ops_choice_answer (&job, dresses, "open", NULL);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt dressing' AND choice = 'open' AND risk_told IS NULL");
}

static char *
add_graded (OpsChoice *job, const char *wording, const char *rank, const char *risk)
{
  const HsChoiceEntry entry = { .wording = wording, .group = "cure", .rank = rank, .risk = risk };

  return hs_choice_add (job->book, job->job, &entry, NULL, 0, OPS_CHOICE_NOW, NULL);
}

/* What was told of the better one by a pick goes with that pick: with the next one, taken back between or not, it is
 * told anew, and a sentence of its own or one that was signed stays. */
static void
test_told_by_pick (void)
{
  for (guint opened = 0; opened < 2; opened++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autofree char *best = add_graded (&job, "Best", "best", NULL);
      g_autofree char *kept = add_graded (&job, "Kept", "best", "R1");
      g_autofree char *enough = add_graded (&job, "Enough", "enough", "R2");
      g_autofree char *least = add_graded (&job, "Least", "least", "R3");
      const char *all[] = { best, kept, enough, least };

      ops_choice_answer (&job, least, "yes", NULL);
      hs_ops_test_one (job.test, "advice WHERE wording = 'Best' AND choice = 'no' AND risk_told = 'R3'");
      for (guint i = 0; opened && i < G_N_ELEMENTS (all); i++)
        ops_choice_answer (&job, all[i], "open", NULL);
      hs_ops_test_one (job.test, opened ? "advice WHERE wording = 'Best' AND risk_told IS NULL"
                                        : "advice WHERE wording = 'Best' AND risk_told = 'R3'");
      ops_choice_answer (&job, enough, "yes", NULL);
      hs_ops_test_one (job.test, "advice WHERE wording = 'Best' AND choice = 'no' AND risk_told = 'R2'");
      hs_ops_test_one (job.test, "advice WHERE wording = 'Kept' AND choice = 'no' AND risk_told = 'R1'");
      hs_ops_test_one (job.test, "advice WHERE wording = 'Enough' AND choice = 'yes' AND risk_told = 'R2'");
      hs_ops_test_one (job.test, "advice WHERE wording = 'Least' AND choice = 'no' AND risk_told = 'R3'");
    }
}

/* Without ranks nothing says which of them lent its words: what a pick told of the others is told anew by the next one
 * all the same, also of the one that is picked then, and a sentence of its own stays. */
static void
test_told_without_ranks (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *one = add_graded (&job, "One", NULL, "R1");
  g_autofree char *two = add_graded (&job, "Two", NULL, NULL);
  g_autofree char *three = add_graded (&job, "Three", NULL, NULL);
  const HsChoiceAnswer yes = { .choice = "yes", .by = "Teo", .means = "phone", .call_on = HS_DATE_NONE,
                               .ceiling_cents = HS_INT_NONE };

  ops_choice_answer (&job, one, "yes", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "advice WHERE choice = 'no' AND risk_told = 'R1'"), ==, 2);
  ops_choice_refused (&job, two, &yes, "“Two” leaves out “Three”. Say in one sentence");
  hs_ops_test_one (job.test, "advice WHERE wording = 'One' AND choice = 'yes'");
  ops_choice_answer (&job, two, "yes", "R2");
  hs_ops_test_one (job.test, "advice WHERE wording = 'One' AND choice = 'no' AND risk_told = 'R1'");
  hs_ops_test_one (job.test, "advice WHERE wording = 'Two' AND choice = 'yes' AND risk_told = 'R2'");
  hs_ops_test_one (job.test, "advice WHERE wording = 'Three' AND choice = 'no' AND risk_told = 'R2'");
  ops_choice_answer (&job, three, "open", NULL);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Three' AND choice = 'open' AND risk_told IS NULL");
  ops_choice_answer (&job, three, "yes", "R3");
  hs_ops_test_one (job.test, "advice WHERE wording = 'One' AND choice = 'no' AND risk_told = 'R1'");
  hs_ops_test_one (job.test, "advice WHERE wording = 'Two' AND choice = 'no' AND risk_told = 'R2'");
  hs_ops_test_one (job.test, "advice WHERE wording = 'Three' AND choice = 'yes' AND risk_told = 'R3'");
}

/* The same words may be typed of two; where the best is picked, both keep them. What was signed, or put off, stays as
 * it was told. */
static void
test_same_words (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *best = add_graded (&job, "Best", "best", NULL);
  g_autofree char *enough = add_graded (&job, "Enough", "enough", "R");
  g_autofree char *least = add_graded (&job, "Least", "least", "R");
  g_autoptr (GBytes) signature = sign (TRUE);
  const HsChoiceAnswer no = { .choice = "no", .by = "Teo", .risk = "R", .call_on = HS_DATE_NONE,
                              .ceiling_cents = HS_INT_NONE, .signature = signature };
  const HsChoiceAnswer yes = { .choice = "yes", .by = "Teo", .means = "phone", .risk = "R2", .call_on = HS_DATE_NONE,
                               .ceiling_cents = HS_INT_NONE };

  ops_choice_answer (&job, best, "yes", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "advice WHERE choice = 'no' AND risk_told = 'R'"), ==, 2);
  ops_choice_answer (&job, best, "open", NULL);
  g_assert_true (hs_choice_decide (job.book, best, &no, OPS_CHOICE_NOW, NULL));
  g_assert_true (hs_choice_decide (job.book, enough, &yes, OPS_CHOICE_NOW, NULL));
  hs_ops_test_one (job.test, "advice WHERE wording = 'Best' AND choice = 'no' AND risk_told = 'R'"
                             " AND length (signature) > 4");
  ops_choice_answer (&job, best, "open", NULL);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Best' AND choice = 'open' AND risk_told = 'R'");
  ops_choice_answer (&job, best, "later", NULL);
  ops_choice_answer (&job, enough, "yes", NULL);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Best' AND choice = 'later' AND risk_told = 'R'");
}

/* A yes alone leaves what stands in no group, or in another one, to be asked. */
static void
test_groups_apart (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *hose = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Hose", .group = "hose" },
                                         NULL, 0, OPS_CHOICE_NOW, NULL);
  g_autofree char *lamp = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Lamp" }, NULL, 0,
                                         OPS_CHOICE_NOW, NULL);

  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "advice WHERE choice = 'open'"), ==, 2);
  ops_choice_answer (&job, lamp, "yes", NULL);
  hs_ops_test_one (job.test, "advice WHERE choice = 'open' AND wording = 'Hose'");
}

static void
test_refused (void)
{
  static const struct
  {
    HsChoiceAnswer answer;
    const char *said;
  } rows[] = {
    { { .choice = "perhaps", .by = "Teo", .ceiling_cents = HS_INT_NONE, .call_on = HS_DATE_NONE }, "perhaps" },
    { { .choice = "yes", .by = "Teo", .means = "pigeon", .ceiling_cents = HS_INT_NONE, .call_on = HS_DATE_NONE },
      "pigeon" },
    { { .choice = "yes", .by = " ", .ceiling_cents = HS_INT_NONE, .call_on = HS_DATE_NONE }, "Who decided?" },
    { { .choice = "no", .ceiling_cents = HS_INT_NONE, .call_on = HS_DATE_NONE }, "Who decided?" },
    { { .choice = "no", .by = "Teo", .means = "text", .ceiling_cents = HS_INT_NONE, .call_on = HS_DATE_NONE },
      "Which risk was told? Say in one sentence what may happen without “Belt only”" },
    { { .choice = "later", .by = "Teo", .means = "phone", .risk = " ", .ceiling_cents = HS_INT_NONE,
        .call_on = HS_DATE_NONE },
      "Which risk was told?" },
    { { .choice = "yes", .by = "Teo", .ceiling_cents = HS_INT_NONE, .call_on = HS_DATE_NONE },
      "How did the answer come? Say in person, by phone" },
    { { .choice = "no", .by = "Teo", .means = " ", .risk = "x", .ceiling_cents = HS_INT_NONE,
        .call_on = HS_DATE_NONE },
      "How did the answer come?" },
    { { .choice = "no", .by = "Teo", .means = "signed_on_screen", .risk = "x", .ceiling_cents = HS_INT_NONE,
        .call_on = HS_DATE_NONE },
      "There is no signature yet" },
    { { .choice = "later", .by = "Teo", .means = "phone", .risk = "x", .ceiling_cents = HS_INT_NONE, .call_on = 1 },
      "not after today" },
    { { .choice = "no", .by = "Teo", .means = "phone", .risk = "x", .ceiling_cents = 5000, .call_on = HS_DATE_NONE },
      "goes with a yes" },
    { { .choice = "yes", .by = "Teo", .means = "phone", .ceiling_cents = -1, .call_on = HS_DATE_NONE },
      "less than nothing" },
    { { .choice = "yes", .by = "Teo", .means = "signed_on_screen", .ceiling_cents = HS_INT_NONE,
        .call_on = HS_DATE_NONE },
      "There is no signature yet" },
    { { .choice = "yes", .by = "Teo", .means = "signed_on_screen", .ceiling_cents = 20000, .call_on = HS_DATE_NONE },
      "There is no signature yet" },
  };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    ops_choice_refused (&job, belt, &rows[i].answer, rows[i].said);
  hs_ops_test_one (job.test, "advice WHERE choice = 'open' AND risk_told IS NULL");
  g_assert_cmpint (hs_ops_test_count (job.test, "go_ahead"), ==, 0);
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 0);
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 0);
}

/* A no that was signed keeps its signature, without a go-ahead; the next answer has its own or none. */
static void
test_signed_no (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (GBytes) signature = sign (TRUE);
  g_autoptr (GBytes) dot = sign (FALSE);
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (HsJobChoices) signed_no = NULL;
  g_autoptr (HsJobChoices) opened = NULL;

  answer.choice = "no";
  answer.by = "Teo";
  answer.risk = RISK;
  answer.signature = dot;
  ops_choice_refused (&job, belt, &answer, "The signature is blank");
  answer.signature = signature;
  answer.means = "phone";
  ops_choice_refused (&job, belt, &answer, "not with one by phone");
  answer.means = NULL;
  g_assert_true (hs_choice_decide (job.book, belt, &answer, OPS_CHOICE_NOW, NULL));
  signed_no = ops_choice_load (&job);
  g_assert_cmpstr (hs_job_choices_find (signed_no, 1)->means, ==, "signed_on_screen");
  g_assert_true (g_bytes_equal (hs_job_choices_find (signed_no, 1)->signature, signature));
  g_assert_cmpuint (signed_no->go_aheads->len, ==, 0);
  ops_choice_answer (&job, belt, "later", RISK);
  undo (&job);
  hs_ops_test_one (job.test, "advice WHERE choice = 'no' AND length (signature) > 4");
  answer = HS_CHOICE_ANSWER_NONE;
  answer.choice = "open";
  g_assert_true (hs_choice_decide (job.book, belt, &answer, OPS_CHOICE_NOW, NULL));
  opened = ops_choice_load (&job);
  g_assert_null (hs_job_choices_find (opened, 1)->signature);
}

/* Later is two weeks unless a day is named, a no is called about only if one is; another answer calls nobody. */
static void
test_calls (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;

  ops_choice_answer (&job, belt, "later", RISK);
  hs_ops_test_one (job.test, "chase WHERE kind = 'declined_work' AND due_on = '2026-03-24' AND done_on IS NULL"
                             " AND job_id IS NOT NULL AND customer_id IS NOT NULL AND vehicle_id IS NOT NULL");
  hs_ops_test_one (job.test, "advice WHERE chase_on = '2026-03-24' AND choice = 'later'");
  answer.choice = "later";
  answer.by = "Teo";
  answer.means = "phone";
  hs_date_parse ("2026-04-01", &answer.call_on, NULL);
  g_assert_true (hs_choice_decide (job.book, belt, &answer, OPS_CHOICE_NOW, NULL));
  hs_ops_test_one (job.test, "chase WHERE due_on = '2026-04-01'");
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 1);
  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 0);
  hs_ops_test_one (job.test, "advice WHERE chase_on IS NULL");
  answer.choice = "no";
  g_assert_true (hs_choice_decide (job.book, belt, &answer, OPS_CHOICE_NOW, NULL));
  hs_ops_test_one (job.test, "chase WHERE due_on = '2026-04-01'");
  undo (&job);
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 0);
}

/* Two things put off to one day are one call, and it stays while one of them waits for it. */
static void
test_one_call (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *hose = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Hose" }, NULL, 0,
                                         OPS_CHOICE_NOW, NULL);
  g_autofree char *lamp = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Lamp" }, NULL, 0,
                                         OPS_CHOICE_NOW, NULL);

  ops_choice_answer (&job, hose, "later", "may burst");
  ops_choice_answer (&job, lamp, "later", "dark");
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 1);
  ops_choice_answer (&job, hose, "yes", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 1);
  ops_choice_answer (&job, lamp, "yes", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "chase"), ==, 0);
}

/* Story 14 where it hurts least: a pick that would pass the yes is refused by how much, and goes with a new yes. */
static void
test_ceiling (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_go_ahead_add (job.book, job.job, 15000, "Teo Calloway", "phone", OPS_CHOICE_NOW, NULL));
  answer.choice = "yes";
  answer.by = "Teo Calloway";
  answer.means = "phone";
  ops_choice_refused (&job, belt, &answer, "The job comes to 153.79 and the go-ahead by Teo Calloway covers 150.00: "
                                           "short by 3.79");
  hs_ops_test_one (job.test, "advice WHERE choice = 'open'");
  answer.ceiling_cents = 15378;
  ops_choice_refused (&job, belt, &answer, "short by 0.01");
  g_assert_cmpint (hs_ops_test_count (job.test, "go_ahead"), ==, 1);
  answer.ceiling_cents = 15379;
  g_assert_true (hs_choice_decide (job.book, belt, &answer, OPS_CHOICE_NOW, &error));
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "go_ahead WHERE ceiling_cents = 15379 AND means = 'phone' AND by_whom = 'Teo Calloway'");
  /* The answer is a step, the yes to a sum is not. */
  undo (&job);
  hs_ops_test_one (job.test, "advice WHERE choice = 'open'");
  g_assert_cmpint (hs_ops_test_count (job.test, "go_ahead"), ==, 2);
}

/* What a yes would bring the job to is said before it is given: over the clock, instead of what was picked, and once
 * for a part that is on already. */
static void
test_would (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *cure = ops_choice_add_cure (&job);
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (HsJobChoices) open = ops_choice_load (&job);
  g_autoptr (HsJobChoices) picked = NULL;

  g_assert_cmpint (hs_job_choices_find (open, 1)->would_cents, ==, 52094);
  g_assert_cmpint (hs_job_choices_find (open, 1)->would_short_cents, ==, 52094);
  g_assert_true (hs_go_ahead_add (job.book, job.job, 20000, "Teo Calloway", "phone", OPS_CHOICE_NOW, NULL));
  ops_choice_answer (&job, belt, "yes", RISK);
  picked = ops_choice_load (&job);
  g_assert_cmpint (hs_job_choices_find (picked, 1)->would_cents, ==, 52094);
  g_assert_cmpint (hs_job_choices_find (picked, 1)->would_short_cents, ==, 32094);
  g_assert_cmpint (hs_job_choices_find (picked, 2)->would_cents, ==, 15379);
  g_assert_cmpint (hs_job_choices_find (picked, 2)->would_short_cents, ==, 0);
}

static char *
install (OpsChoice *job, const HsInstallEntry *entry)
{
  g_autoptr (GError) error = NULL;
  char *id = hs_part_install (job->book, job->job, entry, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  return id;
}

/* The part that was picked is charged once, at the agreed price, whichever comes first: the yes or the wrench. */
static void
test_charged_once (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *installed = NULL;
  g_autoptr (GError) error = NULL;

  ops_choice_answer (&job, belt, "yes", NULL);
  installed = install (&job, &(HsInstallEntry) { .what = "Drive  Belt", .cost_cents = 2650, .why = "due" });
  hs_ops_test_one (job.test, "line WHERE installed_part_id IS NOT NULL AND advice_line_id IS NOT NULL"
                             " AND cost_cents = 2650 AND price_cents = 4240 AND tax_cents = 339");
  g_assert_cmpint (hs_ops_test_count (job.test, "line WHERE kind = 'part'"), ==, 1);

  /* What is on the vehicle cannot be declined any more. */
  ops_choice_refused (&job, belt, &(HsChoiceAnswer) { .choice = "open", .ceiling_cents = HS_INT_NONE },
                      "“drive belt” of “Belt only” is on the vehicle already");

  /* Pricing leaves the agreed price of the part and of the work. */
  g_assert_true (hs_job_price (job.book, job.job, NULL, OPS_CHOICE_NOW + 75 * 60, &error));
  hs_ops_test_one (job.test, "line WHERE kind = 'part' AND price_cents = 4240");
  hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 4800");
  hs_ops_test_one (job.test, "line WHERE kind = 'labor' AND price_cents = 0");
  g_assert_cmpint (hs_ops_test_count (job.test, "line"), ==, 4);
}

static void
test_installed_first (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *installed
      = install (&job, &(HsInstallEntry) { .what = "drive belt", .cost_cents = 2400, .why = "due" });
  g_autofree char *other = install (&job, &(HsInstallEntry) { .what = "clip", .cost_cents = 100, .why = "due" });
  g_autoptr (HsJobChoices) would = NULL;

  would = ops_choice_load (&job);
  g_assert_cmpint (hs_job_choices_find (would, 1)->would_cents, ==, 10800 + 4240 + 200 + 355);
  ops_choice_answer (&job, belt, "yes", NULL);
  hs_ops_test_one (job.test, "line WHERE what = 'drive belt' AND installed_part_id IS NOT NULL"
                             " AND advice_line_id IS NOT NULL AND price_cents = 4240 AND tax_cents = 339");
  /* 44.40 at 8 % is 3.552 over both. */
  hs_ops_test_one (job.test, "line WHERE what = 'clip' AND price_cents = 200 AND tax_cents = 16");
  g_assert_cmpint (hs_ops_test_count (job.test, "line WHERE kind = 'part'"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (job.test, "need"), ==, 0);
}

/* A part of the catalog is needed from the yes on, once, and no more without it, unless the counter knows of it. */
static void
test_needs (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  const HsChoiceLineEntry lines[] = {
    { .part_number = "BW-55", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .part_number = "GP-20D", .quantity_milli = 4000, .cost_cents = 1550, .price_cents = HS_INT_NONE },
  };
  g_autofree char *id = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Battery and plugs" }, lines, 2,
                                       OPS_CHOICE_NOW, NULL);

  hs_ops_test_import_ok (job.test, "needs", "job,part\nA-0001,BW-55\n", 1, 0, 0);
  ops_choice_answer (&job, id, "yes", NULL);
  hs_ops_test_one (job.test, "need WHERE quantity_milli = 4000 AND quoted_cents = 1550 AND state = 'wanted'"
                             " AND advice_line_id IS NOT NULL AND sure_percent = 100");
  g_assert_cmpint (hs_ops_test_count (job.test, "need"), ==, 2);
  ops_choice_answer (&job, id, "open", NULL);
  g_assert_cmpint (hs_ops_test_count (job.test, "need"), ==, 1);
  ops_choice_answer (&job, id, "yes", NULL);
  hs_ops_test_run (job.test, "UPDATE need SET state = 'laid_aside'");
  ops_choice_answer (&job, id, "no", "none starts");
  g_assert_cmpint (hs_ops_test_count (job.test, "need WHERE state = 'laid_aside' AND advice_line_id IS NULL"), ==, 2);
}

/* Squared up, nothing of it moves; before that, an open one stands in the way. */
static void
test_squared (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *lamp = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Lamp" }, NULL, 0,
                                         OPS_CHOICE_NOW, NULL);
  HsInstant later = OPS_CHOICE_NOW + 60 * 60;
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) error = NULL;

  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_true (hs_go_ahead_add (job.book, job.job, 15379, "Teo", "phone", OPS_CHOICE_NOW, NULL));
  g_assert_true (hs_job_move_stage (job.book, job.job, HS_STAGE_PROVEN, "the customer drove off", later, &error));
  g_assert_true (hs_job_price (job.book, job.job, NULL, later, &error));
  g_assert_false (hs_job_square (job.book, job.job, later, &error));
  hs_ops_test_refused (&error, "1 recommendation has no answer yet. Write down yes, no or later.");
  ops_choice_answer (&job, lamp, "later", "dark");
  g_assert_true (hs_job_square (job.book, job.job, later, &error));
  g_assert_no_error (error);
  answer.choice = "open";
  ops_choice_refused (&job, lamp, &answer, "squared up");
  answer.choice = "yes";
  answer.by = "Teo";
  answer.means = "phone";
  ops_choice_refused (&job, belt, &answer, "squared up");
  g_assert_null (hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "More" }, NULL, 0, later, &error));
  hs_ops_test_refused (&error, "squared up");
  g_assert_false (hs_go_ahead_add (job.book, job.job, 30000, "Teo", "phone", later, &error));
  hs_ops_test_refused (&error, "squared up");
}

/* What was given for nothing stays so: 42.40 was taxed with 3.39, and only the 20.00 that came since are: 1.60. */
static void
test_goodwill_stays (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  const HsChoiceEntry entry = { .wording = "Wiper blade" };
  const HsChoiceLineEntry line = { .what = "wiper blade", .cost_cents = 1000, .price_cents = 2000 };
  g_autoptr (GError) error = NULL;
  g_autofree char *wiper = NULL;

  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_true (hs_job_price (job.book, job.job, "our own slip", OPS_CHOICE_NOW, &error));
  hs_ops_test_one (job.test, "line WHERE kind = 'goodwill' AND tax_cents = -339");
  wiper = hs_choice_add (job.book, job.job, &entry, &line, 1, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  ops_choice_answer (&job, wiper, "yes", NULL);
  hs_ops_test_one (job.test, "line WHERE kind = 'part' AND price_cents = 2000 AND tax_cents = 160");
  hs_ops_test_one (job.test, "line WHERE kind = 'goodwill' AND tax_cents = -339");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/choice-decide/cheaper", test_cheaper);
  g_test_add_func ("/choice-decide/better", test_better);
  g_test_add_func ("/choice-decide/own-risk", test_own_risk);
  g_test_add_func ("/choice-decide/told-by-pick", test_told_by_pick);
  g_test_add_func ("/choice-decide/told-without-ranks", test_told_without_ranks);
  g_test_add_func ("/choice-decide/same-words", test_same_words);
  g_test_add_func ("/choice-decide/groups-apart", test_groups_apart);
  g_test_add_func ("/choice-decide/refused", test_refused);
  g_test_add_func ("/choice-decide/calls", test_calls);
  g_test_add_func ("/choice-decide/signed-no", test_signed_no);
  g_test_add_func ("/choice-decide/one-call", test_one_call);
  g_test_add_func ("/choice-decide/ceiling", test_ceiling);
  g_test_add_func ("/choice-decide/would", test_would);
  g_test_add_func ("/choice-decide/charged-once", test_charged_once);
  g_test_add_func ("/choice-decide/installed-first", test_installed_first);
  g_test_add_func ("/choice-decide/needs", test_needs);
  g_test_add_func ("/choice-decide/goodwill-stays", test_goodwill_stays);
  g_test_add_func ("/choice-decide/squared", test_squared);
  return g_test_run ();
}
