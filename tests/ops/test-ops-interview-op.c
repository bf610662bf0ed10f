// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The questions of a job and their answers; a time parked beside the draw that was measured. */

#include "hs-core-error.h"
#include "hs-interview-op.h"
#include "hs-job-life.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-undo.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job_id;
} Site;

static Site
site_start (const char *group)
{
  Site site = { .test = hs_ops_test_open () };

  hs_ops_test_fill (site.test);
  hs_ops_test_import_ok (site.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0115,flat,TDM 5508,2026-03-10\n", 1, 0, 0);
  site.book = site.test->book;
  site.job_id = hs_job_find (site.book, "A-0001", NULL);
  g_assert_true (hs_job_set_group (site.book, site.job_id, group, NOW, NULL));
  return site;
}

static void
site_clear (Site *site)
{
  hs_ops_test_close (site->test);
  g_free (site->job_id);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Site, site_clear)

static GPtrArray *
load (Site *site)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *lines = hs_job_interview_load (site->book, site->job_id, &error);

  g_assert_no_error (error);
  return lines;
}

static const HsAnswerLine *
line_of (GPtrArray *lines, const char *words)
{
  for (guint i = 0; i < lines->len; i++)
    {
      const HsAnswerLine *line = g_ptr_array_index (lines, i);

      if (g_strcmp0 (line->id, words) == 0 || g_str_equal (line->words, words))
        return line;
    }
  return NULL;
}

/* "id" for the phone, "(id)" only again, "+" behind where it is asked twice. */
static void
test_lines (void)
{
  static const struct
  {
    const char *group;
    const char *lines;
  } rows[] = {
    { "drains",
      "dash_lamps last_ran parked+ boosted+ (other_hands) lately+ battery_which (topped_up) (left_on) (towed) "
      "(flooded) spot key_holder says_yes pays_how" },
    { "overheats",
      "(parked) (boosted) (other_hands) (lately) belt_noise coolant_ground heater still_driving topped_up+ (left_on) "
      "(towed) (flooded) spot key_holder says_yes pays_how" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Site) site = site_start (rows[i].group);
      g_autoptr (GPtrArray) lines = load (&site);
      g_autoptr (GString) told = g_string_new (NULL);

      for (guint k = 0; k < lines->len; k++)
        {
          const HsAnswerLine *line = g_ptr_array_index (lines, k);

          g_string_append_printf (told, k > 0 ? " %s%s%s" : "%s%s%s", line->phone ? "" : "(", line->id,
                                  line->phone ? (line->again ? "+" : "") : ")");
          g_assert_null (line->answer);
          g_assert_null (line->fits);
        }
      g_assert_cmpstr (told->str, ==, rows[i].lines);
    }
}

/* By id, by words, by words of an older list; a digit spelled out; a second answer takes the place of the first. */
static void
test_answers (void)
{
  static const struct
  {
    const char *question;
    const char *text;
    const char *by;
    const char *id;
    const char *answer;
  } rows[] = {
    { "dash_lamps", "2", "Teo", "dash_lamps", "dim" },
    { "Dash lamps?", "none at all", NULL, "dash_lamps", "none at all" },
    { "Has anyone tried to start it or charge it?", "a neighbor, with a booster", "Teo", "boosted",
      "a neighbor, with a booster" },
    { "lately", " tow bar ", "Teo", "lately", "tow bar" },
    { "What color is the smoke?", "blue", "Teo", "What color is the smoke?", "blue" },
  };
  g_auto (Site) site = site_start ("drains");
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) lines = NULL;
      const HsAnswerLine *line;

      g_assert_true (hs_answer_add (site.book, site.job_id, rows[i].question, rows[i].text, rows[i].by,
                                    NOW + (HsInstant) i, &error));
      g_assert_no_error (error);
      lines = load (&site);
      line = line_of (lines, rows[i].id);
      g_assert_cmpstr (line->answer, ==, rows[i].answer);
      g_assert_cmpstr (line->said_by, ==, rows[i].by);
      g_assert_cmpint (line->at, ==, NOW + (HsInstant) i);
    }
  g_assert_cmpint (hs_ops_test_count (site.test, "asked"), ==, 4);
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 0);
}

/* Answers that were kept in words of an older list. */
static void
test_older (void)
{
  g_auto (Site) site = site_start ("drains");
  g_autoptr (GPtrArray) lines = NULL;
  g_autoptr (GPtrArray) newer = NULL;

  g_assert_true (hs_asked_add (site.book, site.job_id, "Accessory fitted lately?", "no", NOW, NULL));
  g_assert_true (hs_asked_add (site.book, site.job_id, "Any wash or rain?", "rain", NOW, NULL));
  g_assert_true (hs_asked_add (site.book, site.job_id, "Key lamp or padlock lamp flashing? Is there a second key?",
                               "no", NOW, NULL));
  lines = load (&site);
  g_assert_cmpstr (line_of (lines, "lately")->answer, ==, "no");
  g_assert_cmpstr (line_of (lines, "Any wash or rain?")->answer, ==, "rain");
  g_assert_cmpstr (line_of (lines, "key_lamp")->answer, ==, "no");
  g_assert_false (line_of (lines, "key_lamp")->phone);
  g_assert_true (hs_answer_add (site.book, site.job_id, "lately", "tow bar", NULL, NOW, NULL));
  newer = load (&site);
  g_assert_cmpstr (line_of (newer, "lately")->answer, ==, "tow bar");
  g_assert_cmpint (hs_ops_test_count (site.test, "asked"), ==, 3);
}

/* An answer that was taken back leaves the one before it. */
static void
test_undo (void)
{
  static const char *const left[] = { "dim", NULL };
  g_auto (Site) site = site_start ("drains");
  HsStore *store = hs_book_get_store (site.book);

  g_assert_true (hs_answer_add (site.book, site.job_id, "dash_lamps", "2", "Teo", NOW, NULL));
  g_assert_true (hs_answer_add (site.book, site.job_id, "dash_lamps", "3", "Teo", NOW + 1, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (left); i++)
    {
      g_autoptr (HsUndoStep) step = NULL;
      g_autoptr (GPtrArray) lines = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_undo_last (store, site.job_id, NOW + 2, &step, &error));
      g_assert_no_error (error);
      g_assert_cmpstr (step->what, ==, "answer: Dash lamps?");
      lines = load (&site);
      g_assert_cmpstr (line_of (lines, "dash_lamps")->answer, ==, left[i]);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *question;
    const char *text;
    const char *words;
  } rows[] = {
    { "dash_lamps", "9", "“Dash lamps?” has the answers 1 to 3" },
    { "dash_lamps", " ", "“Dash lamps?” needs an answer" },
    { "Smoke?", NULL, "“Smoke?” needs an answer" },
    { " ", "x", "both need words" },
  };
  g_auto (Site) site = site_start ("drains");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hs_answer_add (site.book, site.job_id, rows[i].question, rows[i].text, "Teo", NOW, &error));
      g_assert_nonnull (strstr (error->message, rows[i].words));
    }
  g_assert_cmpint (hs_ops_test_count (site.test, "asked"), ==, 0);
  g_assert_null (hs_job_interview_load (site.book, "nobody", NULL));
  g_assert_false (hs_answer_add (site.book, "nobody", "parked", "x", NULL, NOW, NULL));
}

/* A battery of 60 Ah: at 0.31 A it starts no more after 3.2 days, at 0.024 A after 41.7. */
static void
test_fits (void)
{
  static const struct
  {
    const char *answer;
    const char *draw;
    const char *phase;
    double ah;
    HsParkedVerdict verdict;
    const char *words;
  } rows[] = {
    { "10 days", "0.31", "before", 60, HS_PARKED_FITS, "gone after 3.2 days" },
    { "2 days", "0.31", "before", 60, HS_PARKED_DOES_NOT_FIT, "would take 3.2 days" },
    { "10", "0.024", "during", 60, HS_PARKED_DOES_NOT_FIT, "would take 41.7 days" },
    { "10 days", "0.31", "after", 60, HS_PARKED_CANNOT_TELL, "no sleeping draw was measured" },
    { "10 days", NULL, "before", 60, HS_PARKED_CANNOT_TELL, "no sleeping draw was measured" },
    { "10 days", "over range", "before", 60, HS_PARKED_CANNOT_TELL, "no sleeping draw was measured" },
    { "10 days", "0.31", "before", 0, HS_PARKED_CANNOT_TELL, "amp-hours are not known" },
    { "since Friday", "0.31", "before", 60, HS_PARKED_CANNOT_TELL, "names no time" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Site) site = site_start ("drains");
      HsReadingEntry reading = { .check = "sleeping_draw", .text = rows[i].draw, .phase = rows[i].phase, .at = NOW };
      g_autofree char *sql = g_strdup_printf ("UPDATE vehicle SET battery_ah = nullif (%d.0, 0)", (int) rows[i].ah);
      g_autoptr (HsReadingResult) result = NULL;
      g_autoptr (GPtrArray) lines = NULL;
      const HsAnswerLine *line;

      hs_ops_test_run (site.test, sql);
      if (rows[i].draw != NULL)
        {
          result = hs_reading_add (site.book, site.job_id, &reading, NOW, NULL);
          g_assert_nonnull (result);
        }
      g_assert_true (hs_answer_add (site.book, site.job_id, "parked", rows[i].answer, "Teo", NOW, NULL));
      lines = load (&site);
      line = line_of (lines, "parked");
      g_test_message ("%s", line->fits);
      g_assert_cmpint (line->verdict, ==, rows[i].verdict);
      g_assert_nonnull (strstr (line->fits, rows[i].words));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/interview-op/lines", test_lines);
  g_test_add_func ("/interview-op/answers", test_answers);
  g_test_add_func ("/interview-op/older", test_older);
  g_test_add_func ("/interview-op/undo", test_undo);
  g_test_add_func ("/interview-op/refused", test_refused);
  g_test_add_func ("/interview-op/fits", test_fits);
  return g_test_run ();
}
