// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What pages ask and write, on the demo book: every argument arrives where it belongs. */

#include "hs-ask.h"
#include "hs-deed.h"
#include "hs-demo.h"
#include "hs-draft.h"
#include "model-book.h"

static const HsDate tuesday = 20522; /* 2026-03-10 */

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
}

static char *
job_id (ModelBook *book, const char *number)
{
  return model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", number));
}

static void
test_board (ModelBook *book, gconstpointer data)
{
  HsBoardShot *shot = model_ask (book->ledger, hs_ask_board, NULL);
  guint promised = 0;

  g_assert_cmpint (shot->today, ==, tuesday);
  g_assert_nonnull (shot->plan);
  for (guint i = 0; i < shot->board->rows->len; i++)
    promised += ((HsBoardRow *) g_ptr_array_index (shot->board->rows, i))->stage == HS_STAGE_PROMISED;
  g_assert_cmpuint (promised, ==, 6);
  hs_board_shot_free (shot);
  hs_board_shot_free (NULL);
}

static void
test_day (ModelBook *book, gconstpointer data)
{
  HsDayPlan *plan = model_ask (book->ledger, hs_ask_day, g_variant_new ("(ib)", tuesday, TRUE));

  g_assert_cmpint (plan->cost_cents, ==, 76439);
  g_assert_cmpint (plan->stops->len, ==, 8);
  hs_day_plan_free (plan);
}

static void
test_run_and_tick (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsPartsRun) run = model_ask (book->ledger, hs_ask_run, g_variant_new ("(i)", tuesday));
  g_autoptr (HsPartsRun) after = NULL;
  Outcome outcome = { FALSE };
  HsRunCounter *counter;

  g_assert_cmpuint (run->counters->len, ==, 2);
  counter = g_ptr_array_index (run->counters, 0);
  hs_deed_tick (book->ledger, tuesday, "pick_up", ((HsRunRow *) g_ptr_array_index (counter->pick_up, 0))->id, TRUE,
                outcome_cb, &outcome);
  settle (book, &outcome);
  after = model_ask (book->ledger, hs_ask_run, g_variant_new ("(i)", tuesday));
  counter = g_ptr_array_index (after->counters, 0);
  g_assert_true (((HsRunRow *) g_ptr_array_index (counter->pick_up, 0))->ticked);
}

static void
test_find_and_history (ModelBook *book, gconstpointer data)
{
  g_autoptr (GPtrArray) hits = model_ask (book->ledger, hs_ask_find, g_variant_new ("(su)", "0121", 10));
  g_autoptr (HsHistory) history = NULL;

  g_assert_cmpuint (hits->len, ==, 1);
  history = model_ask (book->ledger, hs_ask_history,
                       g_variant_new ("(s)", ((HsHit *) g_ptr_array_index (hits, 0))->vehicle_id));
  g_assert_cmpstr (history->plate, ==, "TDM 8816");
  g_assert_cmpint (history->battery->age_months, ==, 29);
}

static void
test_money (ModelBook *book, gconstpointer data)
{
  g_autoptr (GPtrArray) unpaid = model_ask (book->ledger, hs_ask_money, g_variant_new ("(bu)", TRUE, 50));

  g_assert_cmpuint (unpaid->len, ==, 1);
  g_assert_cmpint (((HsMoneyRow *) g_ptr_array_index (unpaid, 0))->total_cents, ==, 36163);
}

static void
test_offers (ModelBook *book, gconstpointer data)
{
  g_autoptr (GPtrArray) offers = model_ask (book->ledger, hs_ask_offers,
                                            g_variant_new ("(isiiib)", tuesday, "O", 40, 540, 1020, FALSE));
  HsOffer *best = g_ptr_array_index (offers, 0);

  g_assert_cmpint (best->adds_seconds, ==, 44 * 60);
  g_assert_cmpint (best->adds_cents, ==, 7086);
  g_assert_cmpstr (best->after, ==, "A-0022");
}

static void
test_reading (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = job_id (book, "A-0022");
  HsReadingEntry entry = { .check = "battery_rest", .keyed = "1242", .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) judged = NULL;
  g_autoptr (HsReadingResult) stored = NULL;
  Outcome outcome = { FALSE }, group = { FALSE };
  HsJobShot *shot;

  hs_deed_set_group (book->ledger, id, "will_not_start", outcome_cb, &group);
  settle (book, &group);
  judged = model_ask (book->ledger, hs_ask_judge,
                      g_variant_new ("(ssssms)", id, "before", "battery_rest", "1242", NULL));
  g_assert_cmpstr (judged->value_text, ==, "12.42 V");
  hs_deed_add_reading (book->ledger, id, &entry, outcome_cb, &outcome);
  settle (book, &outcome);
  stored = outcome.answer;
  g_assert_cmpstr (stored->verdict, ==, "within");
  g_assert_cmpstr (stored->phase, ==, "before");

  shot = model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
  g_assert_cmpstr (shot->view->tag->number, ==, "A-0022");
  g_assert_cmpint (shot->battery->age_months, ==, 29);
  g_assert_nonnull (shot->vehicle_id);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpuint (shot->sheets[i]->len, >, 0);
  hs_job_shot_free (shot);
  hs_job_shot_free (NULL);
}

/* 12.42 V is within by the catalog and under a limit of the owner's of 12.50 V. */
static void
test_limit (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = job_id (book, "A-0022");
  HsJobShot *before = model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
  g_autofree char *vehicle = g_strdup (before->vehicle_id);
  HsOwnLimitEntry entry = { .vehicle_id = vehicle, .check = "battery_rest", .low = "12.50", .source = "measured" };
  HsOwnLimitEntry bad = { .vehicle_id = vehicle, .check = "battery_rest", .low = "12.50" };
  Outcome set = { FALSE }, refused = { FALSE }, clear = { FALSE };
  g_autoptr (HsReadingResult) judged = NULL;
  HsJobShot *shot;

  g_assert_cmpuint (before->limits->len, ==, 0);
  hs_job_shot_free (before);
  hs_deed_set_limit (book->ledger, &entry, outcome_cb, &set);
  hs_deed_set_limit (book->ledger, &bad, outcome_cb, &refused);
  settle (book, &set);
  g_assert_nonnull (refused.error);
  g_clear_error (&refused.error);
  shot = model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
  g_assert_cmpuint (shot->limits->len, ==, 1);
  g_assert_cmpstr (((HsOwnLimit *) g_ptr_array_index (shot->limits, 0))->text, ==, "12.50 V or more");
  hs_job_shot_free (shot);
  judged = model_ask (book->ledger, hs_ask_judge,
                      g_variant_new ("(ssssms)", id, "before", "battery_rest", "1242", NULL));
  g_assert_cmpstr (judged->verdict, ==, "outside");
  g_assert_cmpstr (judged->whose, ==, "owner");
  hs_deed_clear_limit (book->ledger, vehicle, "battery_rest", FALSE, outcome_cb, &clear);
  settle (book, &clear);
  shot = model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
  g_assert_cmpuint (shot->limits->len, ==, 0);
  hs_job_shot_free (shot);
}

static void
test_call (ModelBook *book, gconstpointer data)
{
  HsCallSlip slip = { .phone = "555-0115", .words = "clicks, won't turn over", .area = "O", .day = tuesday,
                      .window_from = 540, .window_to = 1020, .minutes = 40 };
  g_autofree char *id = NULL;
  g_autoptr (HsJobView) view = NULL;
  Outcome outcome = { FALSE };
  HsJobShot *shot;

  hs_deed_take_call (book->ledger, &slip, outcome_cb, &outcome);
  settle (book, &outcome);
  id = outcome.answer;
  shot = model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
  g_assert_cmpstr (shot->view->tag->customer, ==, "Teo Calloway");
  g_assert_cmpstr (shot->view->tag->words, ==, "clicks, won't turn over");
  g_assert_cmpint (shot->view->tag->minutes, ==, 40);
  g_assert_cmpint (shot->view->tag->day, ==, tuesday);
  hs_job_shot_free (shot);
}

static void
test_stage_lock_accept_group (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = job_id (book, "A-0021");
  g_autoptr (HsDayPlan) plan = NULL;
  Outcome move = { FALSE }, refused = { FALSE }, accept = { FALSE }, lock = { FALSE }, group = { FALSE };
  HsJobShot *shot;
  gboolean locked = FALSE;

  hs_deed_accept_plan (book->ledger, tuesday, outcome_cb, &accept);
  hs_deed_lock_stop (book->ledger, tuesday, "A-0022", TRUE, outcome_cb, &lock);
  hs_deed_set_group (book->ledger, id, "will_not_start", outcome_cb, &group);
  hs_deed_move_stage (book->ledger, id, HS_STAGE_SQUARED, NULL, outcome_cb, &refused);
  hs_deed_move_stage (book->ledger, id, HS_STAGE_ROLLING, NULL, outcome_cb, &move);
  settle (book, &accept);
  settle (book, &lock);
  settle (book, &group);
  settle (book, &move);
  g_assert_nonnull (refused.error);
  g_clear_error (&refused.error);

  shot = model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
  g_assert_cmpint (shot->view->tag->stage, ==, HS_STAGE_ROLLING);
  g_assert_cmpstr (shot->view->group, ==, "will_not_start");
  hs_job_shot_free (shot);
  plan = model_ask (book->ledger, hs_ask_day, g_variant_new ("(ib)", tuesday, FALSE));
  g_assert_true (plan->accepted);
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (g_strcmp0 (stop->id, "A-0022") == 0)
        locked = stop->locked;
    }
  g_assert_true (locked);
}

static void
saved_cb (HsDraft *draft, gpointer data)
{
  (*(int *) data)++;
}

static gboolean
is_saved (gpointer data)
{
  return *(int *) data > 0;
}

static char *
draft_of (ModelBook *book, const char *job, const char *page, const char *field)
{
  g_autoptr (GPtrArray) drafts = model_ask (book->ledger, hs_ask_drafts, g_variant_new ("(ms)", job));

  for (guint i = 0; i < drafts->len; i++)
    {
      const HsWhere *draft = g_ptr_array_index (drafts, i);

      if (g_str_equal (draft->page, page) && g_str_equal (draft->field, field))
        return g_strdup (draft->text);
    }
  return NULL;
}

static void
assert_draft (ModelBook *book, const char *job, const char *page, const char *field, const char *text)
{
  g_autofree char *found = draft_of (book, job, page, field);

  g_assert_cmpstr (found, ==, text);
}

/* What is stored is no draft any more, and not a moment earlier; the place stays. */
static void
test_draft_of_stored_reading (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsDraft) draft = hs_draft_new (book->ledger);
  g_autofree char *id = job_id (book, "A-0021");
  HsReadingEntry entry = { .check = "battery_rest", .keyed = "x", .phase = "after", .at = HS_INSTANT_NONE };
  Outcome refused = { FALSE }, stored = { FALSE };

  hs_draft_note (draft, id, "findings", "battery_rest", "12");
  hs_draft_note (draft, id, "findings", "battery_rest/after", "1264");
  hs_draft_flush (draft);
  hs_deed_add_reading (book->ledger, id, &entry, outcome_cb, &refused);
  hs_ledger_wait (book->ledger);
  g_assert_nonnull (refused.error);
  g_clear_error (&refused.error);
  assert_draft (book, id, "findings", "battery_rest/after", "1264");
  entry.keyed = "1264";
  hs_deed_add_reading (book->ledger, id, &entry, outcome_cb, &stored);
  settle (book, &stored);
  hs_reading_result_free (stored.answer);
  assert_draft (book, id, "findings", "battery_rest/after", "");
  assert_draft (book, id, "findings", "battery_rest", "12");
}

static void
test_draft_of_taken_call (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsDraft) draft = hs_draft_new (book->ledger);
  HsCallSlip slip = { .words = "hums", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 };
  Outcome refused = { FALSE }, taken = { FALSE }, again = { FALSE };
  g_autofree char *id = NULL;

  hs_draft_note (draft, NULL, "slip", "words", "hums");
  hs_draft_flush (draft);
  hs_deed_take_call (book->ledger, &slip, outcome_cb, &refused);
  hs_ledger_wait (book->ledger);
  g_assert_nonnull (refused.error);
  g_clear_error (&refused.error);
  assert_draft (book, NULL, "slip", "words", "hums");
  slip.phone = "555-0190";
  hs_deed_take_call (book->ledger, &slip, outcome_cb, &taken);
  settle (book, &taken);
  id = taken.answer;
  assert_draft (book, NULL, "slip", "words", NULL);
  hs_draft_note (draft, id, "call", "street", "9 Coble Walk");
  hs_draft_note (draft, id, "findings", "battery_rest", "12");
  hs_draft_flush (draft);
  slip.job_id = id;
  slip.street = "9 Coble Walk";
  hs_deed_take_call (book->ledger, &slip, outcome_cb, &again);
  settle (book, &again);
  g_free (again.answer);
  assert_draft (book, id, "call", "street", "");
  assert_draft (book, id, "findings", "battery_rest", "12");
}

static void
test_draft (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsDraft) draft = hs_draft_new (book->ledger);
  g_autofree char *id = job_id (book, "A-0021");
  g_autoptr (HsWhere) where = NULL, later = NULL;
  gint64 start = g_get_monotonic_time ();
  int n_saved = 0;

  g_signal_connect (draft, "saved", G_CALLBACK (saved_cb), &n_saved);
  hs_draft_note (draft, id, "findings", "battery_rest", "1");
  hs_draft_note (draft, id, "findings", "battery_rest", "12");
  hs_draft_note (draft, id, "findings", "battery_rest", "124");
  model_wait (is_saved, &n_saved);
  g_assert_cmpint (g_get_monotonic_time () - start, <, G_USEC_PER_SEC);
  g_assert_cmpint (n_saved, ==, 1);
  where = model_ask (book->ledger, hs_ask_where, NULL);
  g_assert_cmpstr (where->job_number, ==, "A-0021");
  g_assert_cmpstr (where->page, ==, "findings");
  g_assert_cmpstr (where->field, ==, "battery_rest");
  g_assert_cmpstr (where->text, ==, "124");

  hs_draft_note (draft, id, "findings", "battery_strength", "");
  hs_draft_flush (draft);
  hs_ledger_wait (book->ledger);
  later = model_ask (book->ledger, hs_ask_where, NULL);
  g_assert_cmpstr (later->field, ==, "battery_strength");
}

static const char *
draft_text (GPtrArray *drafts, const char *field)
{
  for (guint i = 0; i < drafts->len; i++)
    {
      const HsWhere *draft = g_ptr_array_index (drafts, i);

      if (g_strcmp0 (draft->page, "slip") == 0 && g_strcmp0 (draft->field, field) == 0)
        return draft->text;
    }
  return NULL;
}

/* Fields typed faster than the wait: each of them reaches the book. */
static void
test_draft_of_each_field (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *field;
    const char *text;
  } rows[] = { { "phone", "5550188" }, { "name", "Jude Penhale" }, { "plate", "ZZ 4" }, { "street", "9 Coble Walk" } };
  g_autoptr (HsDraft) draft = hs_draft_new (book->ledger);
  g_autoptr (GPtrArray) drafts = NULL, later = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    hs_draft_note (draft, NULL, "slip", rows[i].field, rows[i].text);
  g_assert_false (hs_draft_is_kept (draft));
  hs_draft_flush (draft);
  hs_ledger_wait (book->ledger);
  g_assert_true (hs_draft_is_kept (draft));
  drafts = model_ask (book->ledger, hs_ask_drafts, g_variant_new ("(ms)", NULL));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpstr (draft_text (drafts, rows[i].field), ==, rows[i].text);

  /* Forgotten with the one that was still waiting. */
  hs_draft_note (draft, NULL, "slip", "minutes", "40");
  hs_draft_forget (draft, NULL, "slip");
  hs_draft_flush (draft);
  hs_ledger_wait (book->ledger);
  later = model_ask (book->ledger, hs_ask_drafts, g_variant_new ("(ms)", NULL));
  g_assert_cmpuint (later->len, ==, 0);
}

#define ADD(name, func) g_test_add (name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/ask/board", test_board);
  ADD ("/ask/day", test_day);
  ADD ("/deed/run-and-tick", test_run_and_tick);
  ADD ("/ask/find-and-history", test_find_and_history);
  ADD ("/ask/money", test_money);
  ADD ("/ask/offers", test_offers);
  ADD ("/deed/reading", test_reading);
  ADD ("/deed/draft-of-stored-reading", test_draft_of_stored_reading);
  ADD ("/deed/draft-of-taken-call", test_draft_of_taken_call);
  ADD ("/deed/limit", test_limit);
  ADD ("/deed/call", test_call);
  ADD ("/deed/stage-lock-accept-group", test_stage_lock_accept_group);
  ADD ("/draft", test_draft);
  ADD ("/draft/each-field", test_draft_of_each_field);
  return g_test_run ();
}
