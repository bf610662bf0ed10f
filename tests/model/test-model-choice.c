// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Deeds of choices on the demo book: every argument arrives where it belongs, and the question of the customer tells
 * what the owner's does without what is not for the customer. */

#include "hs-ask-customer.h"
#include "hs-ask.h"
#include "hs-deed-choice.h"
#include "hs-signature.h"
#include "model-book.h"

#include <string.h>

typedef struct
{
  gboolean done;
  gpointer answer;
  GError *error;
} Outcome;

static void
outcome_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Outcome *outcome = data;

  hs_ledger_task_finish (HS_LEDGER (source), result, &outcome->answer, &outcome->error);
  outcome->done = TRUE;
}

static gpointer
settle (ModelBook *book, Outcome *outcome)
{
  gpointer answer;

  hs_ledger_wait (book->ledger);
  g_assert_true (outcome->done);
  g_assert_no_error (outcome->error);
  answer = outcome->answer;
  *outcome = (Outcome) { FALSE };
  return answer;
}

static char *
job_id (ModelBook *book, const char *number)
{
  return model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", number));
}

static HsJobShot *
ask_job (ModelBook *book, const char *id)
{
  return model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
}

static void
test_options (ModelBook *book, gconstpointer data)
{
  const HsChoiceEntry entry = { .group = "g", .rank = "enough", .wording = "Belt", .risk = "squeals" };
  const HsChoiceEntry other = { .wording = "New belt", .rank = "least" };
  const HsChoiceLineEntry line = { .kind = "part", .what = "belt", .quantity_milli = 2000, .cost_cents = 1000,
                                   .price_cents = 4100 };
  g_autofree char *job = job_id (book, "A-0021");
  g_autofree char *id = NULL;
  Outcome outcome = { FALSE };
  HsJobShot *shot;
  const HsChoice *choice;
  const HsChoiceLine *kept;

  hs_deed_add_choice (book->ledger, job, &entry, outcome_cb, &outcome);
  id = settle (book, &outcome);
  g_assert_nonnull (id);
  hs_deed_change_choice (book->ledger, id, &other, outcome_cb, &outcome);
  settle (book, &outcome);
  hs_deed_add_choice_line (book->ledger, id, &line, outcome_cb, &outcome);
  settle (book, &outcome);
  shot = ask_job (book, job);
  choice = hs_job_choices_find (shot->choices, 1);
  g_assert_cmpstr (choice->wording, ==, "New belt");
  g_assert_cmpstr (choice->group, ==, "g");
  g_assert_cmpstr (choice->rank, ==, "least");
  g_assert_cmpstr (choice->risk, ==, "squeals");
  kept = g_ptr_array_index (choice->lines, 0);
  g_assert_cmpint (kept->quantity_milli, ==, 2000);
  g_assert_cmpint (kept->cost_cents, ==, 2000);
  g_assert_cmpint (kept->price_cents, ==, 4100);
  hs_deed_remove_choice_line (book->ledger, kept->id, outcome_cb, &outcome);
  hs_job_shot_free (shot);
  settle (book, &outcome);
  hs_deed_remove_choice (book->ledger, id, outcome_cb, &outcome);
  settle (book, &outcome);
  shot = ask_job (book, job);
  g_assert_cmpuint (shot->choices->choices->len, ==, 0);
  hs_job_shot_free (shot);
}

static GBytes *
sign (void)
{
  g_autoptr (HsSignature) signature = hs_signature_new (300, 100);

  hs_signature_begin (signature, 1, 2);
  hs_signature_move (signature, 200, 90);
  return hs_signature_to_bytes (signature);
}

static void
test_answer (ModelBook *book, gconstpointer data)
{
  const HsChoiceEntry entry = { .wording = "Strap", .risk = "no crank" };
  const HsChoiceLineEntry line = { .kind = "labor", .minutes = 30, .cost_cents = HS_INT_NONE,
                                   .price_cents = HS_INT_NONE };
  g_autofree char *job = job_id (book, "A-0021");
  g_autofree char *id = NULL;
  g_autoptr (GBytes) signature = sign ();
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  Outcome outcome = { FALSE };
  HsJobShot *shot;
  const HsGoAhead *yes;

  hs_deed_add_choice (book->ledger, job, &entry, outcome_cb, &outcome);
  id = settle (book, &outcome);
  hs_deed_add_choice_line (book->ledger, id, &line, outcome_cb, &outcome);
  settle (book, &outcome);
  answer.choice = "later";
  answer.by = "Marguerite Stane";
  answer.means = "text";
  answer.risk = "will not crank again";
  answer.call_on = 20540;
  hs_deed_decide (book->ledger, id, &answer, outcome_cb, &outcome);
  settle (book, &outcome);
  shot = ask_job (book, job);
  g_assert_cmpstr (hs_job_choices_find (shot->choices, 1)->choice, ==, "later");
  g_assert_cmpstr (hs_job_choices_find (shot->choices, 1)->means, ==, "text");
  g_assert_cmpstr (hs_job_choices_find (shot->choices, 1)->risk, ==, "will not crank again");
  g_assert_cmpint (hs_job_choices_find (shot->choices, 1)->call_on, ==, 20540);
  g_assert_null (hs_job_choices_find (shot->choices, 1)->signature);
  hs_job_shot_free (shot);
  answer.means = NULL;
  answer.signature = signature;
  hs_deed_decide (book->ledger, id, &answer, outcome_cb, &outcome);
  settle (book, &outcome);
  shot = ask_job (book, job);
  g_assert_true (g_bytes_equal (hs_job_choices_find (shot->choices, 1)->signature, signature));
  hs_job_shot_free (shot);
  answer = HS_CHOICE_ANSWER_NONE;
  answer.choice = "yes";
  answer.by = "Marguerite Stane";
  answer.means = "signed_on_screen";
  answer.ceiling_cents = 5000;
  answer.signature = signature;
  answer.at = 1773140000;
  hs_deed_decide (book->ledger, id, &answer, outcome_cb, &outcome);
  settle (book, &outcome);
  shot = ask_job (book, job);
  yes = g_ptr_array_index (shot->choices->go_aheads, 0);
  g_assert_cmpint (yes->ceiling_cents, ==, 5000);
  g_assert_true (g_bytes_equal (yes->signature, signature));
  g_assert_cmpint (yes->at, ==, 1773140000);
  g_assert_cmpint (shot->choices->room->used_cents, ==, 4800);
  hs_job_shot_free (shot);
}

static void
test_go_ahead (ModelBook *book, gconstpointer data)
{
  g_autofree char *job = job_id (book, "A-0021");
  g_autoptr (GBytes) signature = sign ();
  Outcome outcome = { FALSE };
  HsJobShot *shot;

  hs_deed_give_go_ahead (book->ledger, job, &(HsGoAheadEntry) { 15000, "Marguerite", "phone", NULL, 0 }, outcome_cb,
                         &outcome);
  settle (book, &outcome);
  hs_deed_give_go_ahead (book->ledger, job, &(HsGoAheadEntry) { 16000, "Marguerite", NULL, signature, 7 }, outcome_cb,
                         &outcome);
  settle (book, &outcome);
  shot = ask_job (book, job);
  g_assert_cmpuint (shot->choices->go_aheads->len, ==, 2);
  g_assert_cmpstr (((HsGoAhead *) g_ptr_array_index (shot->choices->go_aheads, 0))->means, ==, "phone");
  g_assert_cmpint (((HsGoAhead *) g_ptr_array_index (shot->choices->go_aheads, 1))->at, ==, 7);
  g_assert_nonnull (((HsGoAhead *) g_ptr_array_index (shot->choices->go_aheads, 1))->signature);
  hs_job_shot_free (shot);
  hs_deed_give_go_ahead (book->ledger, job, &(HsGoAheadEntry) { -1, "Marguerite", "phone", NULL, 0 }, outcome_cb,
                         &outcome);
  hs_ledger_wait (book->ledger);
  g_assert_nonnull (strstr (outcome.error->message, "less than nothing"));
  g_clear_error (&outcome.error);
}

static void
test_customer_and_follow (ModelBook *book, gconstpointer data)
{
  g_autofree char *job = job_id (book, "A-0013");
  g_autofree char *return_visit = job_id (book, "A-0025");
  g_autofree char *earlier = job_id (book, "A-0016");
  g_autoptr (HsCustomerShot) shot = model_ask (book->ledger, hs_ask_customer, g_variant_new ("(s)", job));
  Outcome outcome = { FALSE };
  HsJobShot *after;

  g_assert_cmpstr (shot->number, ==, "A-0013");
  g_assert_cmpuint (shot->choices->len, ==, 2);
  hs_deed_follow (book->ledger, return_visit, earlier, "cause_missed", outcome_cb, &outcome);
  settle (book, &outcome);
  after = ask_job (book, return_visit);
  g_assert_cmpstr (after->view->follows_number, ==, "A-0016");
  g_assert_cmpstr (after->view->return_why, ==, "cause_missed");
  hs_job_shot_free (after);
}

#define ADD(name, func) g_test_add (name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/choice/options", test_options);
  ADD ("/choice/answer", test_answer);
  ADD ("/choice/go-ahead", test_go_ahead);
  ADD ("/choice/customer-and-follow", test_customer_and_follow);
  return g_test_run ();
}
