// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the customer sees: this vehicle, its readings, the choices and what is asked for them. No figure of what things
 * cost us, no number to call, and nobody else's name is anywhere in it. */

#include "hs-customer-shot.h"

#include "hs-chain-op.h"
#include "hs-job-op.h"
#include "ops-choice.h"
#include "ops-demo.h"

#include <string.h>

/* Everything in a shot, one text a line. */
static char *
spell (const HsCustomerShot *shot)
{
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_append_printf (text, "%s\n%s\n%s\n%s\n%s\n", shot->number, shot->plate, shot->vehicle, shot->words,
                          shot->signer);
  for (guint i = 0; i < shot->readings->len; i++)
    {
      const HsCustomerReading *reading = g_ptr_array_index (shot->readings, i);

      g_string_append_printf (text, "%s|%s|%s|%s|%s|%s|%s\n", reading->name, reading->place, reading->before,
                              reading->before_word, reading->before_note, reading->after, reading->after_word);
    }
  for (guint i = 0; i < shot->why->len; i++)
    g_string_append_printf (text, "%s\n", (const char *) g_ptr_array_index (shot->why, i));
  for (guint i = 0; i < shot->choices->len; i++)
    {
      const HsCustomerChoice *choice = g_ptr_array_index (shot->choices, i);

      g_string_append_printf (text, "%u|%s|%s|%s|%" G_GINT64_FORMAT "|%s\n", choice->number, choice->rank,
                              choice->wording, choice->risk, choice->asked_cents, choice->choice);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static HsCustomerShot *
load_demo (const char *number)
{
  g_autofree char *job = ops_demo_job (number);
  g_autoptr (GError) error = NULL;
  HsCustomerShot *shot
      = hs_customer_shot_load (ops_demo_book (), job, hs_ops_test_at ("2026-03-10T06:45"), &error);

  g_assert_no_error (error);
  return shot;
}

static void
test_story (void)
{
  g_autoptr (HsCustomerShot) shot = load_demo ("A-0013");
  g_autofree char *text = spell (shot);

  g_test_message ("%s", text);
  g_assert_cmpstr (shot->number, ==, "A-0013");
  g_assert_cmpstr (shot->plate, ==, "TDM 6613");
  g_assert_cmpstr (shot->words, ==, "battery lamp, slow crank");
  g_assert_cmpint (shot->total_cents, ==, 15379);
  g_assert_cmpint (shot->ceiling_cents, ==, 15379);
  g_assert_cmpint (shot->short_cents, ==, 0);
  g_assert_false (shot->may_sign);
  g_assert_nonnull (strstr (text, "|Water pump, belt and coolant|New belt will be wetted again"));
  g_assert_nonnull (strstr (text, "|52094|no\n"));
  g_assert_nonnull (strstr (text, "2|enough|Belt only|"));
  g_assert_nonnull (strstr (text, "|15379|yes\n"));
  g_assert_nonnull (strstr (text, "12.30 V|not charging"));
  g_assert_nonnull (strstr (text, "|14.08 V|within"));
  g_assert_nonnull (strstr (text, "The reason for “battery lamp, slow crank”"));
}

/* Of every past job of the demo: what its parts cost, and everybody else in the book. */
static void
test_leaks_nothing (void)
{
  static const char *const costs[] = { "24.00", "88.00", "27.00", "132.50", "118.00", "62.00", "131.00", "74.00" };
  static const char *const people[] = { "Ottoline Mabry", "Pascoe Drennan", "Fennimore", "Wilhelmina", "Calloway",
                                        "Hark",           "Nadira",         "Pellam",    "Lorna",      "Vickery",
                                        "Abernant",       "Stane",          "Milo",      "Dara" };

  for (guint number = 1; number <= 20; number++)
    {
      g_autofree char *name = g_strdup_printf ("A-%04u", number);
      g_autoptr (HsCustomerShot) shot = load_demo (name);
      g_autofree char *text = spell (shot);

      g_assert_null (strstr (text, "555-"));
      for (gsize i = 0; i < G_N_ELEMENTS (costs); i++)
        g_assert_null (strstr (text, costs[i]));
      for (gsize i = 0; i < G_N_ELEMENTS (people); i++)
        if (strstr (shot->signer, people[i]) == NULL && strstr (text, people[i]) != NULL)
          g_error ("%s tells its customer %s of %s:\n%s", name, shot->signer, people[i], text);
    }
}

static char *
say (OpsChoice *job, const char *effect_id, const char *said_by, const char *what)
{
  const HsFindingEntry entry = { .what = what, .role = "customer_said", .said_by = said_by };
  const HsBecauseEntry link = { .kind = "said", .proof = "on the phone" };
  g_autoptr (GError) error = NULL;
  char *id = hs_chain_extend (job->book, job->job, effect_id, &entry, &link, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  return id;
}

/* What a neighbor says is told, not that it was the neighbor; the customer's own words keep the name. */
static void
test_who_said_it (void)
{
  static const struct
  {
    const char *said_by;
    const char *what;
    const char *told;
  } rows[] = {
    { "Nadira Quell", "topped up with water", "somebody says: “topped up with water”" },
    { "Teo Calloway", "topped up with water", "Teo Calloway says: “topped up with water”" },
    { "Mrs Calloway", "topped up with water", "Mrs Calloway says: “topped up with water”" },
    { "Teo", "topped up with water", "Teo says: “topped up with water”" },
    /* A neighbor of the same name is somebody else. */
    { "Bram Calloway", "topped up with water", "somebody says: “topped up with water”" },
    { "Mr", "topped up with water", "somebody says: “topped up with water”" },
    /* A short name is no part of other words. */
    { "Al", "Also Alfa, éAl and Alé; Al knows", "somebody says: “Also Alfa, éAl and Alé; somebody knows”" },
    /* What somebody is, is no name, and the words of the trade mean the part. */
    { "driver", "the driver door stuck", "driver says: “the driver door stuck”" },
    { "Driver", "Driver side was warm", "Driver says: “Driver side was warm”" },
    { "the driver", "the driver door stuck", "the driver says: “the driver door stuck”" },
    { "A neighbor", "smelled fuel", "A neighbor says: “smelled fuel”" },
    { "the tow operator", "would not shift", "the tow operator says: “would not shift”" },
    { "driver Nadira Quell", "the driver door stuck", "somebody says: “the driver door stuck”" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autofree char *id = say (&job, NULL, rows[i].said_by, rows[i].what);
      g_autoptr (HsCustomerShot) shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
      g_autofree char *text = spell (shot);

      g_test_message ("%s", text);
      g_assert_nonnull (strstr (text, rows[i].told));
    }
}

/* Nothing of a long name is left over where somebody else has its first half. */
static void
test_names_within_names (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *one = say (&job, NULL, "Ann", "it was warm");
  g_autofree char *other = say (&job, one, "Ann Pellam", "no fan ran");
  g_autoptr (HsCustomerShot) shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  g_autofree char *text = spell (shot);

  g_test_message ("%s", text);
  g_assert_nonnull (strstr (text, "somebody says: “it was warm”"));
  g_assert_nonnull (strstr (text, "somebody says: “no fan ran”"));
  g_assert_null (strstr (text, "Pellam"));
}

static void
read (OpsChoice *job, const char *keyed, const char *phase)
{
  const HsReadingEntry entry = { .check = "charging", .text = keyed, .phase = phase, .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) result = hs_reading_add (job->book, job->job, &entry, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
}

/* One row a check: the last one before, the last one after; what was read on the way fills a gap only. */
static void
test_readings (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autoptr (HsCustomerShot) shot = NULL;
  g_autoptr (HsCustomerShot) bare = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  const HsCustomerReading *reading;

  g_assert_cmpuint (bare->readings->len, ==, 0);
  g_assert_cmpint (bare->ceiling_cents, ==, HS_INT_NONE);
  g_assert_true (bare->may_sign);
  read (&job, "12.30", "before");
  read (&job, "12.40", "before");
  read (&job, "13.00", "during");
  read (&job, "14.10", "after");
  shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  g_assert_cmpuint (shot->readings->len, ==, 1);
  reading = g_ptr_array_index (shot->readings, 0);
  g_assert_cmpstr (reading->before, ==, "12.40 V");
  g_assert_cmpstr (reading->before_verdict, ==, "outside");
  g_assert_cmpstr (reading->after, ==, "14.10 V");
  g_assert_cmpstr (reading->after_verdict, ==, "within");
}

/* What is said of an option names nobody else either. */
static void
test_names_in_options (void)
{
  const HsChoiceEntry entry = { .wording = "Hose, as Bram Calloway wants it", .risk = "Bram Calloway saw it burst" };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *said = say (&job, NULL, "Bram Calloway", "it was warm");
  g_autofree char *hose = hs_choice_add (job.book, job.job, &entry, NULL, 0, OPS_CHOICE_NOW, NULL);
  g_autoptr (HsCustomerShot) shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  const HsCustomerChoice *choice = g_ptr_array_index (shot->choices, 0);

  g_assert_cmpstr (choice->wording, ==, "Hose, as somebody wants it");
  g_assert_cmpstr (choice->risk, ==, "somebody saw it burst");
}

/* Who is known by one common word only has no name: the word means the thing where an option has it. */
static void
test_words_in_options (void)
{
  static const struct
  {
    const char *by;
    const char *wording;
    const char *told;
    const char *says;
  } rows[] = {
    { "driver", "Window, driver door", "Window, driver door", "driver says: “it was warm”" },
    { "Driver", "driver door; Driver asks", "driver door; Driver asks", "Driver says: “it was warm”" },
    { "the driver", "as the driver wants", "as the driver wants", "the driver says: “it was warm”" },
    { "Fleet Manager", "for the Fleet Manager", "for the Fleet Manager", "Fleet Manager says: “it was warm”" },
    { "ana pell", "Window, as ana pell wants", "Window, as somebody wants", "somebody says: “it was warm”" },
    { "Ánna", "Window, as Ánna wants", "Window, as somebody wants", "somebody says: “it was warm”" },
    { "ánna", "Window, as ánna wants", "Window, as ánna wants", "somebody says: “it was warm”" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsChoiceEntry entry = { .wording = rows[i].wording, .risk = rows[i].wording };
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autofree char *said = say (&job, NULL, rows[i].by, "it was warm");
      g_autofree char *id = hs_choice_add (job.book, job.job, &entry, NULL, 0, OPS_CHOICE_NOW, NULL);
      g_autoptr (HsCustomerShot) shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
      const HsCustomerChoice *choice = g_ptr_array_index (shot->choices, 0);
      g_autofree char *text = spell (shot);

      g_assert_cmpstr (choice->wording, ==, rows[i].told);
      g_assert_cmpstr (choice->risk, ==, rows[i].told);
      /* What was said stays without its speaker, unless that is no name. */
      g_assert_nonnull (strstr (text, rows[i].says));
    }
}

/* Who decided stands with a choice at the end of the chain; if it was somebody else, that is nobody's business. */
static void
test_who_decided (void)
{
  const HsFindingEntry pump = { .what = "pump seal", .role = "cause", .ended = "chosen" };
  const HsBecauseEntry seen = { .kind = "seen", .proof = "drips" };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *cause = hs_chain_extend (job.book, job.job, NULL, &pump, &seen, OPS_CHOICE_NOW, NULL);
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (HsCustomerShot) shot = NULL;
  g_autofree char *text = NULL;

  answer.choice = "yes";
  answer.by = "Ann Calloway";
  answer.means = "phone";
  g_assert_true (hs_choice_decide (job.book, belt, &answer, OPS_CHOICE_NOW, NULL));
  shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  text = spell (shot);
  g_assert_nonnull (strstr (text, "the customer's choice: Belt only, somebody"));
  g_assert_null (strstr (text, "Ann"));
}

/* Charging is within from 13.50 to 14.70 V, watched from 13.00 and to 15.50, outside beyond; both are on it. */
static void
test_scale (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autoptr (HsCustomerShot) shot = NULL;
  const HsCustomerScale *scale;
  const HsCustomerBand *band;

  read (&job, "12.30", "before");
  read (&job, "14.10", "after");
  shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  scale = ((HsCustomerReading *) g_ptr_array_index (shot->readings, 0))->scale;
  g_assert_nonnull (scale);
  g_assert_cmpfloat (scale->now, ==, 14.10);
  g_assert_true (scale->has_before);
  g_assert_cmpfloat (scale->before, ==, 12.30);
  g_assert_cmpfloat (scale->from, <, 13.00);
  g_assert_cmpfloat (scale->to, >, 15.50);
  g_assert_cmpuint (scale->bands->len, ==, 5);
  band = &g_array_index (scale->bands, HsCustomerBand, 2);
  g_assert_cmpint (band->verdict, ==, HS_VERDICT_WITHIN);
  g_assert_cmpfloat (band->to, ==, 14.70);
  g_assert_cmpstr (band->limit, ==, "14.7");
  band = &g_array_index (scale->bands, HsCustomerBand, 4);
  g_assert_cmpint (band->verdict, ==, HS_VERDICT_OUTSIDE);
  g_assert_cmpfloat (band->to, ==, scale->to);
  g_assert_null (band->limit);
}

/* What was read once has one needle, what is no number none. */
static void
test_scale_once (void)
{
  const HsReadingEntry starts = { .check = "starts_good", .text = "5 of 5", .phase = "after", .at = HS_INSTANT_NONE };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (HsCustomerShot) shot = NULL;
  const HsCustomerReading *reading;

  read (&job, "12.10", "before");
  read (&job, "12.30", "before");
  result = hs_reading_add (job.book, job.job, &starts, OPS_CHOICE_NOW, NULL);
  shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  reading = g_ptr_array_index (shot->readings, 0);
  g_assert_false (reading->scale->has_before);
  g_assert_cmpfloat (reading->scale->now, ==, 12.30);
  g_assert_null (((HsCustomerReading *) g_ptr_array_index (shot->readings, 1))->scale);
}

/* The needles stand where the words say, whatever was taken again and in whatever order. */
static void
test_scale_again (void)
{
  static const struct
  {
    const char *reads[3][2];
  } rows[] = {
    { { { "11.90", "before" }, { "12.40", "after" }, { "12.60", "after" } } },
    { { { "12.40", "before" }, { "12.60", "after" }, { "11.90", "before" } } },
    { { { "12.60", "after" }, { "11.90", "before" } } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autoptr (HsCustomerShot) shot = NULL;
      const HsCustomerReading *reading;

      for (guint j = 0; j < G_N_ELEMENTS (rows[i].reads) && rows[i].reads[j][0] != NULL; j++)
        read (&job, rows[i].reads[j][0], rows[i].reads[j][1]);
      shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
      reading = g_ptr_array_index (shot->readings, 0);
      g_assert_cmpstr (reading->before, ==, "11.90 V");
      g_assert_cmpstr (reading->after, ==, "12.60 V");
      g_assert_true (reading->scale->has_before);
      g_assert_cmpfloat (reading->scale->before, ==, 11.90);
      g_assert_cmpfloat (reading->scale->now, ==, 12.60);
    }
}

static void
test_choices (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (HsCustomerShot) shot = NULL;
  const HsCustomerChoice *choice;

  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_true (hs_go_ahead_give (job.book, job.job, &(HsGoAheadEntry) { 15000, "Teo", "phone", NULL, 0 },
                                   OPS_CHOICE_NOW, NULL));
  shot = hs_customer_shot_load (job.book, job.job, OPS_CHOICE_NOW, NULL);
  choice = g_ptr_array_index (shot->choices, 0);
  g_assert_cmpstr (choice->id, ==, belt);
  g_assert_cmpuint (choice->number, ==, 1);
  g_assert_cmpint (choice->would_cents, ==, 15379);
  g_assert_cmpint (choice->would_short_cents, ==, 379);
  g_assert_cmpint (shot->total_cents, ==, 15379);
  g_assert_cmpint (shot->ceiling_cents, ==, 15000);
  g_assert_cmpint (shot->short_cents, ==, 379);
  g_assert_cmpstr (shot->signer, ==, "Teo Calloway");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/customer-shot/story", test_story);
  g_test_add_func ("/customer-shot/leaks-nothing", test_leaks_nothing);
  g_test_add_func ("/customer-shot/who-said-it", test_who_said_it);
  g_test_add_func ("/customer-shot/names-within-names", test_names_within_names);
  g_test_add_func ("/customer-shot/readings", test_readings);
  g_test_add_func ("/customer-shot/names-in-options", test_names_in_options);
  g_test_add_func ("/customer-shot/words-in-options", test_words_in_options);
  g_test_add_func ("/customer-shot/who-decided", test_who_decided);
  g_test_add_func ("/customer-shot/scale", test_scale);
  g_test_add_func ("/customer-shot/scale-once", test_scale_once);
  g_test_add_func ("/customer-shot/scale-again", test_scale_again);
  g_test_add_func ("/customer-shot/choices", test_choices);
  return ops_demo_run ();
}
