// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The repair as the window reads and writes it: parts that a job wants, each deed and its refusal, and the proof sheet.
 */

#include "hs-ask.h"
#include "hs-deed-choice.h"
#include "hs-deed-repair.h"
#include "hs-deed.h"
#include "model-book.h"

#include <libintl.h>
#include <string.h>

static const HsTongue english = { gettext, ngettext };

typedef struct
{
  gboolean done;
  char *message;
  char *answer;
} Outcome;

static void
outcome_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Outcome *outcome = data;
  g_autoptr (GError) error = NULL;

  outcome->done = hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &outcome->answer, &error);
  outcome->message = error != NULL ? g_strdup (error->message) : NULL;
}

static char *
id_of (ModelBook *book, const char *number)
{
  return model_ask (book->ledger, hs_ask_job_number, g_variant_new ("(s)", number));
}

static HsJobShot *
shot_of (ModelBook *book, const char *job_id)
{
  return model_ask (book->ledger, hs_ask_job, g_variant_new ("(s)", job_id));
}

/* Waits for a deed; @said: %NULL if it is done, else what it is refused with. */
static void
expect (ModelBook *book, Outcome *outcome, const char *said)
{
  hs_ledger_wait (book->ledger);
  g_assert_cmpstr (said == NULL ? outcome->message : NULL, ==, NULL);
  g_assert_true (outcome->done == (said == NULL));
  g_assert_true (said == NULL || strstr (outcome->message, said) != NULL);
  g_clear_pointer (&outcome->message, g_free);
  outcome->done = FALSE;
}

/* The battery that A-0022 wants is in the van; the starter of A-0021 is not. */
static void
test_needs (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *job;
    const char *name;
    gboolean in_van;
  } rows[] = {
    { "A-0022", "battery 55 Ah", TRUE },
    { "A-0021", "starter", FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = id_of (book, rows[i].job);
      HsJobShot *shot = shot_of (book, id);
      const HsRepairNeed *need = g_ptr_array_index (shot->repair->needs, 0);

      g_assert_nonnull (strstr (need->name, rows[i].name));
      g_assert_cmpint (need->in_van, ==, rows[i].in_van);
      g_assert_cmpuint (strlen (need->number), >, 0);
      hs_job_shot_free (shot);
    }
}

static void
agree (ModelBook *book, const char *job_id)
{
  const HsChoiceLineEntry line = { .kind = "part", .what = "Heater relay", .cost_cents = 500,
                                   .price_cents = HS_INT_NONE };
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  Outcome outcome = { FALSE, NULL, NULL };
  g_autofree char *choice = NULL;

  hs_deed_add_choice (book->ledger, job_id, &(HsChoiceEntry) { .wording = "New relay" }, outcome_cb, &outcome);
  expect (book, &outcome, NULL);
  choice = g_steal_pointer (&outcome.answer);
  hs_deed_add_choice_line (book->ledger, choice, &line, outcome_cb, &outcome);
  expect (book, &outcome, NULL);
  g_clear_pointer (&outcome.answer, g_free);
  answer.choice = "yes";
  answer.by = "Rue Abernant";
  answer.means = "phone";
  hs_deed_decide (book->ledger, choice, &answer, outcome_cb, &outcome);
  expect (book, &outcome, NULL);
}

/* First what the job wants, then what its bill has, then all that the van carries, each once. */
static void
test_offers (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = id_of (book, "A-0022");
  g_autoptr (GString) said = g_string_new (NULL);
  HsJobShot *shot;
  guint n_battery = 0;

  agree (book, id);
  shot = shot_of (book, id);
  for (guint i = 0; i < shot->repair->needs->len; i++)
    {
      const HsRepairNeed *need = g_ptr_array_index (shot->repair->needs, i);

      n_battery += g_strcmp0 (need->number, "BW-55") == 0;
      if (i < 2)
        g_string_append_printf (said, "%u %s %s; ", need->from, need->number != NULL ? need->number : "-", need->name);
      else
        g_assert_true (need->from == HS_REPAIR_FROM_VAN && need->in_van && need->number != NULL);
    }
  g_assert_cmpstr (said->str, ==, "0 BW-55 battery 55 Ah flooded, Brackwater; 1 - Heater relay; ");
  g_assert_cmpuint (n_battery, ==, 1);
  g_assert_cmpuint (shot->repair->needs->len, >, 5);
  hs_job_shot_free (shot);
}

static void
test_deeds (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = id_of (book, "A-0022");
  Outcome outcome = { FALSE, NULL, NULL };
  const HsFittedPart *part;
  HsJobShot *shot;

  hs_deed_fit (book->ledger, id, NULL, "BW-55", TRUE, FALSE, outcome_cb, &outcome);
  expect (book, &outcome, NULL);
  hs_deed_set_part (book->ledger, outcome.answer, "why", "due", FALSE, outcome_cb, &outcome);
  g_autofree char *part_id = g_steal_pointer (&outcome.answer);
  expect (book, &outcome, NULL);
  hs_deed_set_part (book->ledger, part_id, "months", "two", FALSE, outcome_cb, &outcome);
  expect (book, &outcome, "not a whole number");
  hs_deed_disturb (book->ledger, id, "battery", outcome_cb, &outcome);
  expect (book, &outcome, "is on the list already");
  hs_deed_say (book->ledger, id, "unproved", "dark", outcome_cb, &outcome);
  expect (book, &outcome, NULL);
  hs_deed_say (book->ledger, id, "safe", "perhaps", outcome_cb, &outcome);
  expect (book, &outcome, "perhaps");
  hs_deed_say (book->ledger, id, "odometer", "far", outcome_cb, &outcome);
  expect (book, &outcome, "far");
  shot = shot_of (book, id);
  part = g_ptr_array_index (shot->repair->repair->parts, 0);
  g_assert_cmpstr (part->number, ==, "BW-55");
  g_assert_cmpstr (part->why, ==, "due");
  g_assert_cmpstr (shot->repair->repair->unproved_why, ==, "dark");
  g_assert_cmpint (((HsRepairNeed *) g_ptr_array_index (shot->repair->needs, 0))->from, ==, HS_REPAIR_FROM_VAN);
  const HsAfterLine *line = g_ptr_array_index (shot->repair->repair->looks, 0);
  hs_deed_tick_look (book->ledger, line->id, TRUE, outcome_cb, &outcome);
  expect (book, &outcome, NULL);
  hs_deed_remove_look (book->ledger, line->id, outcome_cb, &outcome);
  expect (book, &outcome, NULL);
  hs_deed_remove_part (book->ledger, part_id, outcome_cb, &outcome);
  expect (book, &outcome, NULL);
  hs_job_shot_free (shot);
  shot = shot_of (book, id);
  g_assert_cmpuint (shot->repair->repair->parts->len, ==, 0);
  g_assert_cmpint (((HsRepairNeed *) g_ptr_array_index (shot->repair->needs, 0))->from, ==, HS_REPAIR_FROM_NEED);
  g_assert_cmpuint (shot->repair->repair->looks->len, ==, 3);
  hs_job_shot_free (shot);
}

static void
test_proof (ModelBook *book, gconstpointer data)
{
  g_autofree char *id = id_of (book, "A-0013");
  HsProofSheet *sheet = model_ask (book->ledger, hs_ask_proof,
                                   g_variant_new ("(st)", id, (guint64) GPOINTER_TO_SIZE (&english)));

  g_assert_cmpstr (sheet->number, ==, "A-0013");
  g_assert_cmpuint (sheet->declined->len, ==, 1);
  hs_proof_sheet_free (sheet);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/repair/needs", ModelBook, NULL, model_book_open, test_needs, model_book_close);
  g_test_add ("/repair/offers", ModelBook, NULL, model_book_open, test_offers, model_book_close);
  g_test_add ("/repair/deeds", ModelBook, NULL, model_book_open, test_deeds, model_book_close);
  g_test_add ("/repair/proof", ModelBook, NULL, model_book_open, test_proof, model_book_close);
  return g_test_run ();
}
