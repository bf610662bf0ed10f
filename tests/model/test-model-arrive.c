// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is asked and written on arriving, on the demo book: every argument arrives where it belongs. */

#include "hs-ask.h"
#include "hs-ask-arrive.h"
#include "hs-deed.h"
#include "hs-deed-arrive.h"
#include "model-book.h"

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

static void
settle (ModelBook *book, Outcome *outcome)
{
  hs_ledger_wait (book->ledger);
  g_assert_true (outcome->done);
  g_assert_no_error (outcome->error);
  outcome->done = FALSE;
}

static void
refused (ModelBook *book, Outcome *outcome, const char *said)
{
  hs_ledger_wait (book->ledger);
  g_assert_true (outcome->done);
  g_assert_nonnull (outcome->error);
  g_assert_nonnull (strstr (outcome->error->message, said));
  g_clear_error (&outcome->error);
  outcome->done = FALSE;
}

static char *
job_id (ModelBook *book, const char *number)
{
  return model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", number));
}

static HsArrival *
ask (ModelBook *book, const char *id)
{
  return model_ask (book->ledger, hs_ask_arrival, g_variant_new ("(s)", id));
}

static void
arrive (ModelBook *book, const char *id)
{
  Outcome outcome = { FALSE };

  hs_deed_move_stage (book->ledger, id, HS_STAGE_ROLLING, NULL, outcome_cb, &outcome);
  settle (book, &outcome);
  hs_deed_move_stage (book->ledger, id, HS_STAGE_ON_SITE, NULL, outcome_cb, &outcome);
  settle (book, &outcome);
}

static void
test_safety (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = job_id (book, "A-0026");
  g_autoptr (HsArrival) before = ask (book, id);
  g_autoptr (HsArrival) answered = NULL;
  g_autoptr (HsArrival) after = NULL;
  Outcome outcome = { FALSE };

  g_assert_true (before->safety->high_voltage);
  g_assert_null (before->safety->visit_id);
  g_assert_null (hs_arrival_open_visit (before));
  hs_deed_answer_safety (book->ledger, id, "orange", "done", NULL, outcome_cb, &outcome);
  refused (book, &outcome, "Nobody has arrived yet");
  arrive (book, id);
  hs_deed_finish_safety (book->ledger, id, HS_SAFETY_SAFE, NULL, outcome_cb, &outcome);
  refused (book, &outcome, "by itself");
  hs_deed_answer_safety (book->ledger, id, "orange", "not_here", NULL, outcome_cb, &outcome);
  refused (book, &outcome, "it always applies");
  hs_deed_answer_safety (book->ledger, id, "orange", "done", NULL, outcome_cb, &outcome);
  settle (book, &outcome);
  hs_deed_answer_safety (book->ledger, id, "traffic", "refused", "a blind bend", outcome_cb, &outcome);
  settle (book, &outcome);
  answered = ask (book, id);
  g_assert_cmpuint (answered->safety->n_high_voltage_open, ==, 2);
  g_assert_cmpstr (((HsSafetyLine *) g_ptr_array_index (answered->safety->lines, 3))->why, ==, "a blind bend");
  hs_deed_answer_safety (book->ledger, id, "orange", NULL, NULL, outcome_cb, &outcome);
  settle (book, &outcome);
  hs_deed_finish_safety (book->ledger, id, HS_SAFETY_REFUSED, "no gloves", outcome_cb, &outcome);
  settle (book, &outcome);
  after = ask (book, id);
  g_assert_cmpstr (after->safety->note, ==, "refused because no gloves");
  g_assert_cmpuint (after->safety->n_open, ==, 0);
}

static void
test_clock (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = job_id (book, "A-0021");
  g_autoptr (HsArrival) runs = NULL;
  g_autoptr (HsArrival) stands = NULL;
  Outcome outcome = { FALSE };

  hs_deed_run_clock (book->ledger, id, FALSE, outcome_cb, &outcome);
  refused (book, &outcome, "The labor clock does not run");
  arrive (book, id);
  runs = ask (book, id);
  g_assert_true (hs_visit_view_runs (hs_arrival_open_visit (runs)));
  hs_deed_run_clock (book->ledger, id, FALSE, outcome_cb, &outcome);
  settle (book, &outcome);
  stands = ask (book, id);
  g_assert_false (hs_visit_view_runs (hs_arrival_open_visit (stands)));
  hs_deed_run_clock (book->ledger, id, TRUE, outcome_cb, &outcome);
  settle (book, &outcome);
}

static void
test_identify (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    HsIdentifyField field;
    const char *text;
    const char *why;
    const char *said;
    HsIdentified how;
  } rows[] = {
    { HS_IDENTIFY_PLATE, "tdm 1315", NULL, NULL, HS_IDENTIFIED_AGREES },
    { HS_IDENTIFY_PLATE, "TDM 1351", NULL, "On record it carries", 0 },
    { HS_IDENTIFY_VIN, "042788", NULL, NULL, HS_IDENTIFIED_WRITTEN },
    { HS_IDENTIFY_VIN, "042789", NULL, "another vehicle", 0 },
    { HS_IDENTIFY_VIN, "042789", "a slip", NULL, HS_IDENTIFIED_CORRECTED },
    { HS_IDENTIFY_ODOMETER, "lots", NULL, "whole number", 0 },
    { HS_IDENTIFY_ODOMETER, "104500", NULL, NULL, HS_IDENTIFIED_AGREES },
    { HS_IDENTIFY_SAW_IT, "no", NULL, NULL, HS_IDENTIFIED_AGREES },
    { HS_IDENTIFY_SAW_IT, "so so", NULL, "so so", 0 },
  };
  g_autofree char *id = job_id (book, "A-0021");
  g_autoptr (HsArrival) arrival = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Outcome outcome = { FALSE };

      hs_deed_identify (book->ledger, id, rows[i].field, rows[i].text, rows[i].why, outcome_cb, &outcome);
      if (rows[i].said != NULL)
        {
          refused (book, &outcome, rows[i].said);
          continue;
        }
      settle (book, &outcome);
      g_assert_cmpint (GPOINTER_TO_INT (outcome.answer), ==, rows[i].how);
    }
  arrival = ask (book, id);
  g_assert_cmpstr (arrival->identity->vin, ==, "042789");
  g_assert_cmpint (arrival->identity->odometer, ==, 104500);
  g_assert_cmpstr (arrival->identity->saw_it, ==, "no");
}

static void
test_answer_and_note (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = job_id (book, "A-0021");
  g_autoptr (HsInterview) interview = model_ask (book->ledger, hs_ask_interview, NULL);
  g_autoptr (HsArrival) arrival = NULL;
  g_autoptr (HsArrival) after = NULL;
  const HsAnswerLine *answered = NULL;
  const HsModelNote *note;
  Outcome outcome = { FALSE };

  g_assert_nonnull (hs_interview_find (interview, "key_holder"));
  hs_deed_answer (book->ledger, id, "key_holder", "the neighbor", "Marguerite", outcome_cb, &outcome);
  settle (book, &outcome);
  hs_deed_note_model (book->ledger, id, "place", "fuses under the seat", "2015-", outcome_cb, &outcome);
  settle (book, &outcome);
  hs_deed_note_model (book->ledger, id, NULL, "", NULL, outcome_cb, &outcome);
  refused (book, &outcome, "a few words");
  arrival = ask (book, id);
  for (guint i = 0; i < arrival->questions->len; i++)
    if (g_strcmp0 (((HsAnswerLine *) g_ptr_array_index (arrival->questions, i))->id, "key_holder") == 0)
      answered = g_ptr_array_index (arrival->questions, i);
  g_assert_cmpstr (answered->answer, ==, "the neighbor");
  g_assert_cmpstr (answered->said_by, ==, "Marguerite");
  g_assert_cmpuint (arrival->notes->len, ==, 1);
  note = g_ptr_array_index (arrival->notes, 0);
  g_assert_cmpstr (note->topic, ==, "place");
  g_assert_cmpstr (note->years, ==, "from 2015");
  hs_deed_drop_note (book->ledger, id, note->id, outcome_cb, &outcome);
  settle (book, &outcome);
  after = ask (book, id);
  g_assert_cmpuint (after->notes->len, ==, 0);
}

static void
test_call_off (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = job_id (book, "A-0021");
  g_autofree HsCallOffFees *fees = model_ask (book->ledger, hs_ask_call_off_fees, NULL);
  HsJobShot *shot;
  Outcome outcome = { FALSE };

  for (gsize i = 0; i < G_N_ELEMENTS (fees->cents); i++)
    g_assert_cmpint (fees->cents[i], ==, 0);
  hs_deed_call_off (book->ledger, id, "no_show", 4000, "", outcome_cb, &outcome);
  refused (book, &outcome, "Why was it called off?");
  hs_deed_call_off (book->ledger, id, "no_show", 4000, "nobody there", outcome_cb, &outcome);
  settle (book, &outcome);
  shot = model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
  g_assert_cmpint (shot->view->tag->stage, ==, HS_STAGE_CALLED_OFF);
  g_assert_cmpint (shot->view->net_cents, ==, 4000);
  g_assert_nonnull (shot->arrival);
  hs_job_shot_free (shot);
}

#define ADD(name, func) g_test_add ("/model-arrive/" name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("safety", test_safety);
  ADD ("clock", test_clock);
  ADD ("identify", test_identify);
  ADD ("answer-and-note", test_answer_and_note);
  ADD ("call-off", test_call_off);
  return g_test_run ();
}
