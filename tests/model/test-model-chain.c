// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of the why-chain on the demo book: every argument arrives where it belongs, a refusal is the rule's own
 * sentence and leaves nothing behind, and what the page shows is read in one go. */

#include <string.h>

#include "hs-ask.h"
#include "hs-deed-chain.h"
#include "hs-deed.h"
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

/* Waits; the answer, or the refusal, which must say @words (nullable). */
static gpointer
settle (ModelBook *book, Outcome *outcome, const char *words)
{
  hs_ledger_wait (book->ledger);
  g_assert_true (outcome->done);
  if (words == NULL)
    g_assert_no_error (outcome->error);
  else
    {
      g_assert_nonnull (outcome->error);
      if (strstr (outcome->error->message, words) == NULL)
        g_error ("“%s” does not say “%s”", outcome->error->message, words);
    }
  g_clear_error (&outcome->error);
  return outcome->answer;
}

static char *
job_id (ModelBook *book, const char *number)
{
  return model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", number));
}

static HsJobShot *
load (ModelBook *book, const char *id)
{
  return model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", id));
}

static char *
extend (ModelBook *book, const char *job, const char *effect, const HsFindingEntry *cause, const HsBecauseEntry *link,
        const char *words)
{
  Outcome outcome = { FALSE };

  hs_deed_extend_chain (book->ledger, job, effect, cause, link, outcome_cb, &outcome);
  return settle (book, &outcome, words);
}

/* All the fields of a cause and its link. */
static void
test_extend (ModelBook *book, gconstpointer data)
{
  g_autofree char *job = job_id (book, "A-0024");
  const HsFindingEntry cause = { .place = "fuse box", .what = "draw while parked", .sure = "suspected",
                                 .ended = "outside_told", .cause = "accessory" };
  const HsFindingEntry said = { .what = "tracker plugged in", .role = "customer_said", .said_by = "Wilhelmina" };
  g_autofree char *draw = extend (book, job, NULL, &cause,
                                  &(HsBecauseEntry){ .how = "over night", .proof = "warm fuse", .kind = "seen" }, NULL);
  g_autofree char *tracker = extend (book, job, draw, &said, &(HsBecauseEntry){ .proof = "since fall", .kind = "said" },
                                     NULL);
  HsJobShot *shot = load (book, job);
  const HsChain *chain = shot->why->chain->chain;
  const HsChainFinding *finding = hs_chain_find (chain, draw);

  g_assert_cmpuint (hs_chain_get_n_findings (chain), ==, 3);
  g_assert_cmpstr (hs_chain_get_finding (chain, 0)->what, ==, "flat every week");
  g_assert_cmpstr (finding->what, ==, "draw while parked");
  g_assert_cmpstr (finding->place, ==, "fuse box");
  g_assert_cmpint (finding->sure, ==, HS_CHAIN_SUSPECTED);
  g_assert_cmpint (finding->end, ==, HS_CHAIN_OUTSIDE_TOLD);
  g_assert_cmpstr (hs_chain_find (chain, tracker)->said_by, ==, "Wilhelmina");
  g_assert_cmpint (hs_chain_find (chain, tracker)->role, ==, HS_CHAIN_CUSTOMER_SAID);
  g_assert_cmpstr (hs_chain_get_link (chain, 0)->how, ==, "over night");
  g_assert_cmpstr (hs_chain_get_link (chain, 0)->proof, ==, "warm fuse");
  g_assert_cmpint (hs_chain_get_link (chain, 0)->by, ==, HS_CHAIN_BY_EYE);
  g_assert_cmpint (hs_chain_get_link (chain, 1)->by, ==, HS_CHAIN_BY_WORD);
  /* Told when the end was settled; nobody was told of the others. */
  g_assert_cmpuint (shot->why->told_at->len, ==, 3);
  g_assert_cmpint (g_array_index (shot->why->told_at, HsInstant, 0), ==, HS_INSTANT_NONE);
  g_assert_cmpint (g_array_index (shot->why->told_at, HsInstant, 1), ==, hs_ledger_get_now (book->ledger));
  g_assert_cmpstr (shot->why->offers->customer, ==, "Wilhelmina Sorrel");
  hs_job_shot_free (shot);
}

/* A reading of the job proves; what the rules refuse leaves the chain as it was. */
static void
test_reading_and_refusals (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    HsFindingEntry cause;
    HsBecauseEntry link;
    const char *words;
  } rows[] = {
    { { .what = "worn" }, { .kind = "seen" }, "flat every week ← worn needs a proof" },
    { { .what = "worn" }, { .kind = "reading" }, "Which reading shows it?" },
    { { .what = "" }, { .kind = "seen", .proof = "x" }, "A finding needs words" },
    { { .what = "starter", .role = "ruled_out" }, { .kind = "said", .proof = "x" }, "Words alone rule nothing out" },
  };
  g_autofree char *job = job_id (book, "A-0024");
  HsReadingEntry entry = { .check = "sleeping_draw", .text = "0.31", .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) reading = NULL;
  g_autofree char *draw = NULL;
  Outcome outcome = { FALSE };
  HsJobShot *shot;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_null (extend (book, job, NULL, &rows[i].cause, &rows[i].link, rows[i].words));
  shot = load (book, job);
  g_assert_cmpuint (hs_chain_get_n_findings (shot->why->chain->chain), ==, 0);
  hs_job_shot_free (shot);
  hs_deed_add_reading (book->ledger, job, &entry, outcome_cb, &outcome);
  reading = settle (book, &outcome, NULL);
  draw = extend (book, job, NULL, &(HsFindingEntry){ .what = "draw" },
                 &(HsBecauseEntry){ .kind = "reading", .reading_id = reading->id }, NULL);
  shot = load (book, job);
  g_assert_cmpint (hs_chain_find (shot->why->chain->chain, draw)->sure, ==, HS_CHAIN_PROVEN);
  g_assert_cmpuint (shot->why->offers->readings->len, ==, 1);
  hs_job_shot_free (shot);
}

/* Join, settle, open, call, take back and remove, each with its refusal. */
static void
test_steps (ModelBook *book, gconstpointer data)
{
  const HsBecauseEntry seen = { .kind = "seen", .proof = "x" };
  g_autofree char *job = job_id (book, "A-0024");
  g_autofree char *worn = extend (book, job, NULL, &(HsFindingEntry){ .what = "worn" }, &seen, NULL);
  g_autofree char *dim = extend (book, job, NULL, &(HsFindingEntry){ .what = "lamps dim" }, &seen, NULL);
  g_autofree char *joined = NULL;
  Outcome join = { FALSE }, ring = { FALSE }, settled = { FALSE }, opened = { FALSE }, call = { FALSE };
  Outcome back = { FALSE }, remove = { FALSE }, unknown = { FALSE };
  HsJobShot *shot;

  hs_deed_add_because (book->ledger, job, dim, worn, &seen, outcome_cb, &join);
  joined = settle (book, &join, NULL);
  g_assert_cmpstr (joined, ==, worn);
  hs_deed_add_because (book->ledger, job, worn, dim, &seen, outcome_cb, &ring);
  settle (book, &ring, "leads back to itself");
  hs_deed_settle_end (book->ledger, worn, "cured", outcome_cb, &settled);
  settle (book, &settled, NULL);
  hs_deed_call_finding (book->ledger, worn, "suspected", outcome_cb, &call);
  settle (book, &call, NULL);
  shot = load (book, job);
  g_assert_cmpint (hs_chain_find (shot->why->chain->chain, worn)->end, ==, HS_CHAIN_CURED);
  g_assert_cmpint (hs_chain_find (shot->why->chain->chain, worn)->sure, ==, HS_CHAIN_SUSPECTED);
  g_assert_cmpuint (hs_chain_get_n_links (shot->why->chain->chain), ==, 3);
  g_assert_null (shot->why->chain->open);
  hs_deed_take_back_link (book->ledger, hs_chain_get_link (shot->why->chain->chain, 2)->id, outcome_cb, &back);
  settle (book, &back, NULL);
  hs_job_shot_free (shot);
  hs_deed_settle_end (book->ledger, worn, NULL, outcome_cb, &opened);
  settle (book, &opened, NULL);
  hs_deed_remove_finding (book->ledger, worn, outcome_cb, &remove);
  settle (book, &remove, "is linked");
  hs_deed_remove_finding (book->ledger, "nobody", outcome_cb, &unknown);
  settle (book, &unknown, "no such finding");
  shot = load (book, job);
  g_assert_cmpuint (hs_chain_get_n_links (shot->why->chain->chain), ==, 2);
  g_assert_nonnull (shot->why->chain->open);
  hs_job_shot_free (shot);
}

static const HsAnswerLine *
line_of (const HsChainShot *why, const char *id)
{
  for (guint i = 0; i < why->answers->len; i++)
    if (g_strcmp0 (((HsAnswerLine *) g_ptr_array_index (why->answers, i))->id, id) == 0)
      return g_ptr_array_index (why->answers, i);
  return NULL;
}

static void
test_answer (ModelBook *book, gconstpointer data)
{
  g_autofree char *job = job_id (book, "A-0024");
  Outcome outcome = { FALSE }, empty = { FALSE };
  HsJobShot *shot;

  hs_deed_add_answer (book->ledger, job, "parked", "7", "Wilhelmina", outcome_cb, &outcome);
  settle (book, &outcome, NULL);
  hs_deed_add_answer (book->ledger, job, "parked", " ", NULL, outcome_cb, &empty);
  settle (book, &empty, "needs an answer");
  shot = load (book, job);
  g_assert_cmpstr (line_of (shot->why, "parked")->answer, ==, "7 days");
  g_assert_cmpstr (line_of (shot->why, "parked")->said_by, ==, "Wilhelmina");
  g_assert_cmpint (line_of (shot->why, "parked")->verdict, ==, HS_PARKED_CANNOT_TELL);
  hs_job_shot_free (shot);
}

/* Why a job may not be tested good; nothing stands against one that is, or is squared. */
static void
test_not_yet (ModelBook *book, gconstpointer data)
{
  g_autofree char *open = job_id (book, "A-0024");
  g_autofree char *past = job_id (book, "A-0013");
  HsJobShot *shot = load (book, open);

  g_assert_nonnull (shot->why->not_yet);
  g_assert_cmpint (shot->why->stage, ==, HS_STAGE_PROMISED);
  hs_job_shot_free (shot);
  shot = load (book, past);
  g_assert_null (shot->why->not_yet);
  g_assert_cmpint (shot->why->stage, ==, HS_STAGE_SQUARED);
  g_assert_cmpuint (shot->why->chain->sentences->len, ==, 6);
  hs_job_shot_free (shot);
}

#define ADD(name, func) g_test_add (name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/chain/extend", test_extend);
  ADD ("/chain/reading-and-refusals", test_reading_and_refusals);
  ADD ("/chain/steps", test_steps);
  ADD ("/chain/answer", test_answer);
  ADD ("/chain/not-yet", test_not_yet);
  return g_test_run ();
}
