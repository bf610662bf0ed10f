// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The safety list of a visit: what it asks, how it is answered, and that high voltage is not touched before. */

#include "hs-chain-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-safety-op.h"
#include "hs-undo.h"
#include "hs-visit-row.h"
#include "ops-site.h"

#include <string.h>

#define ARRIVED "2026-03-10T08:40"
#define DONE "traffic=done slope=done alone=done jacking=done battery_acid=done closed_garage=done"
#define REFUSED \
  "traffic=refused slope=refused alone=refused jacking=refused battery_acid=refused closed_garage=refused"
#define NOW (hs_ops_test_at (ARRIVED) + 60)

static HsSafetySheet *
load (OpsSite *site)
{
  g_autoptr (GError) error = NULL;
  HsSafetySheet *sheet = hs_safety_sheet_load (site->book, site->job_id, &error);

  g_assert_no_error (error);
  return sheet;
}

/* "traffic=done slope", with the answers behind the ids. */
static void
check_lines (OpsSite *site, const char *wanted)
{
  g_autoptr (HsSafetySheet) sheet = load (site);
  g_autoptr (GString) told = g_string_new (NULL);

  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      g_string_append_printf (told, "%s%s%s%s", i > 0 ? " " : "", line->id, line->answer != NULL ? "=" : "",
                              line->answer != NULL ? line->answer : "");
      g_assert_cmpint (line->at != HS_INSTANT_NONE, ==, line->answer != NULL);
    }
  g_assert_cmpstr (told->str, ==, wanted);
}

static void
answer (OpsSite *site, const char *item, const char *word, const char *why)
{
  g_autoptr (GError) error = NULL;

  hs_safety_answer (site->book, site->job_id, item, word, why, NOW, &error);
  g_assert_no_error (error);
}

static gboolean
measure (OpsSite *site, GError **error)
{
  HsReadingEntry entry = { .check = "battery_rest", .keyed = "1242", .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) result = hs_reading_add (site->book, site->job_id, &entry, NOW, error);

  return result != NULL;
}

static gboolean
find (OpsSite *site, const char *role, GError **error)
{
  HsFindingEntry entry = { .what = "a loose clamp", .role = role };
  g_autofree char *id = hs_finding_add (site->book, site->job_id, &entry, NOW, error);

  return id != NULL;
}

/* As it came into books before it was refused. */
static void
hold_as_not_here (OpsSite *site, const char *item)
{
  HsStore *store = hs_book_get_store (site->book);
  g_autoptr (HsSafetySheet) sheet = load (site);
  g_autoptr (HsSafetyRow) row = NULL;

  g_assert_true (hs_store_begin (store, NOW, NULL));
  g_assert_true (hs_safety_row_find (store, sheet->visit_id, item, &row, NULL));
  hs_row_set (&row->answer, "not_here");
  g_assert_true (hs_store_end (store, hs_safety_row_save (store, row, NULL), NULL));
}

static void
test_by_group (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);

  check_lines (&site, "traffic slope alone jacking battery_acid closed_garage");
  g_assert_true (hs_job_set_group (site.book, site.job_id, "brakes", NOW, NULL));
  check_lines (&site, "traffic slope alone jacking");
}

/* The complaint is told after the list was gone through: what it brings is open, what was answered stays. */
static void
test_grows (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsSafetySheet) sheet = NULL;
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  answer (&site, "jacking", "not_here", NULL);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, NULL));
  g_assert_true (hs_job_set_group (site.book, site.job_id, "overheats", NOW, NULL));
  check_lines (&site, "traffic=done slope=done alone=done coolant closed_garage=done jacking=not_here "
                      "battery_acid=done");
  sheet = load (&site);
  g_assert_cmpuint (sheet->n_open, ==, 1);
  /* Nobody who said that all was safe has looked at it. */
  for (guint end = HS_SAFETY_SAFE; end <= HS_SAFETY_MOVED; end++)
    {
      g_assert_false (hs_safety_finish (site.book, site.job_id, (HsSafetyEnd) end, NULL, NOW, &error));
      hs_ops_test_refused (&error, "Answer by itself: “Hot coolant, fan”. It came to the list after it was gone");
    }
  answer (&site, "coolant", "done", NULL);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_MOVED, NULL, NOW, NULL));
  check_lines (&site, "traffic=done slope=done alone=done coolant=done closed_garage=done jacking=not_here "
                      "battery_acid=done");
}

/* While an item of a list that was begun is open the job is not tested good, whatever was read, and it is named; what
 * comes to the list of a job that is keeps it from being squared up. Called off or waiting it may be at any time. */
static void
test_blocks (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  answer (&site, "traffic", "done", NULL);
  g_assert_false (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NOW, &error));
  g_assert_nonnull (strstr (error->message, "“Level, chocked”, “Alone, dark, dogs”, “Jack and stands”, "
                                            "“Acid, hydrogen”, "
                                            "“Closed garage”. Answer each by itself, or refuse the work and say why."));
  g_clear_error (&error);
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_WAITING_PART, NULL, NOW, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW, NULL));
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, NULL));
  g_assert_true (hs_job_set_group (site.book, site.job_id, "overheats", NOW, NULL));
  g_assert_false (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NOW, &error));
  g_assert_nonnull (strstr (error->message, "not done: “Hot coolant, fan”."));
  g_clear_error (&error);
  answer (&site, "coolant", "refused", "cap too hot");
  g_assert_false (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NOW, &error));
  g_assert_nonnull (strstr (error->message, "not done: “Hot coolant, fan” (not so)."));
  g_clear_error (&error);
  answer (&site, "coolant", "done", NULL);
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NOW, &error));
  g_assert_no_error (error);
  g_assert_true (hs_job_set_group (site.book, site.job_id, "will_not_start", NOW, NULL));
  g_assert_false (hs_job_check_move (site.book, site.job_id, HS_STAGE_SQUARED, NULL, &error));
  g_assert_nonnull (strstr (error->message, "not done: “Fuel pressure”."));
  answer (&site, "fuel", "not_here", NULL);
  g_clear_error (&error);
  hs_job_check_move (site.book, site.job_id, HS_STAGE_SQUARED, NULL, &error);
  g_assert_true (error == NULL || strstr (error->message, "safety") == NULL);
}

/* A list that nobody began, of a job that is typed up later, keeps nothing back. */
static void
test_blocks_not (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);

  ops_site_arrive (&site, ARRIVED);
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NOW, NULL));
}

/* One key for whoever looked: all that is left is done. */
static void
test_safe_here (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsSafetySheet) before = load (&site);
  g_autoptr (HsSafetySheet) after = NULL;

  g_assert_null (before->visit_id);
  g_assert_cmpuint (before->n_open, ==, 6);
  ops_site_arrive (&site, ARRIVED);
  answer (&site, "alone", "not_here", NULL);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, "ignored", NOW, NULL));
  check_lines (&site, "traffic=done slope=done alone=not_here jacking=done battery_acid=done closed_garage=done");
  after = load (&site);
  g_assert_cmpstr (after->note, ==, "safe here");
  g_assert_cmpuint (after->n_open, ==, 0);
  hs_ops_test_one (site.test, "visit WHERE safe_note = 'safe here'");
}

static void
test_ends (void)
{
  static const struct
  {
    HsSafetyEnd end;
    const char *why;
    const char *note;
    const char *lines;
  } rows[] = {
    { HS_SAFETY_SAFE, NULL, "safe here", DONE },
    { HS_SAFETY_MOVED, NULL, "moved", DONE },
    { HS_SAFETY_MOVED, "into the yard", "moved: into the yard", DONE },
    { HS_SAFETY_MOVED, "  ", "moved", DONE },
    { HS_SAFETY_REFUSED, "on a blind bend", "refused because on a blind bend", REFUSED },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (HsSafetySheet) sheet = NULL;

      ops_site_arrive (&site, ARRIVED);
      g_assert_true (hs_safety_finish (site.book, site.job_id, rows[i].end, rows[i].why, NOW, NULL));
      check_lines (&site, rows[i].lines);
      sheet = load (&site);
      g_assert_cmpstr (sheet->note, ==, rows[i].note);
      hs_ops_test_one (site.test, "undo_step WHERE what LIKE 'safety: %'");
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *item;
    const char *answer;
    const char *why;
    const char *said;
  } rows[] = {
    { "weather", "done", NULL, "The safety list has no “weather”. It has: ready_lamp, orange" },
    { NULL, "done", NULL, "The safety list has no “”" },
    { "traffic", "perhaps", NULL, "perhaps" },
    { "traffic", "refused", NULL, "Traffic: refused because of what?" },
    { "traffic", "refused", " ", "Traffic: refused because of what?" },
  };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_safety_answer (site.book, site.job_id, "traffic", "done", NULL, NOW, &error));
  hs_ops_test_refused (&error, "Nobody has arrived yet");
  g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, &error));
  hs_ops_test_refused (&error, "Nobody has arrived yet");
  ops_site_arrive (&site, ARRIVED);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_false (hs_safety_answer (site.book, site.job_id, rows[i].item, rows[i].answer, rows[i].why, NOW,
                                        &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, NULL, NOW, &error));
  hs_ops_test_refused (&error, "Refused because of what?");
  g_assert_false (hs_safety_finish (site.book, "no-such-job", HS_SAFETY_SAFE, NULL, NOW, &error));
  g_clear_error (&error);
  g_assert_cmpint (hs_ops_test_count (site.test, "safety"), ==, 0);
}

/* The latest answer counts, none takes it back, and undo brings the one before. */
static void
test_again (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);

  ops_site_arrive (&site, ARRIVED);
  answer (&site, "traffic", "refused", "a blind bend");
  hs_ops_test_one (site.test, "safety WHERE item = 'traffic' AND answer = 'refused' AND why = 'a blind bend'");
  answer (&site, "traffic", "done", "left over");
  hs_ops_test_one (site.test, "safety WHERE item = 'traffic' AND answer = 'done' AND why IS NULL");
  answer (&site, "traffic", NULL, NULL);
  answer (&site, "traffic", NULL, NULL);
  check_lines (&site, "traffic slope alone jacking battery_acid closed_garage");
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  check_lines (&site, "traffic=done slope alone jacking battery_acid closed_garage");
}

static void
check_not_so (OpsSite *site, guint wanted)
{
  g_autoptr (HsSafetySheet) sheet = load (site);

  g_assert_cmpuint (sheet->n_not_so, ==, wanted);
}

/* What is not so keeps the place from being safe, also moved, until it is answered anew; each is a step to take back.
 * Refused as a whole, the work is not done at all, and what was not so keeps its words. */
static void
test_not_so (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  answer (&site, "traffic", "not_so", NULL);
  answer (&site, "slope", "not so", "on a soft verge");
  check_lines (&site, "traffic=refused slope=refused alone jacking battery_acid closed_garage");
  hs_ops_test_one (site.test, "safety WHERE item = 'traffic' AND why = 'not so'");
  hs_ops_test_one (site.test, "safety WHERE item = 'slope' AND why = 'on a soft verge'");
  check_not_so (&site, 2);
  for (guint end = HS_SAFETY_SAFE; end <= HS_SAFETY_MOVED; end++)
    {
      g_assert_false (hs_safety_finish (site.book, site.job_id, (HsSafetyEnd) end, NULL, NOW, &error));
      hs_ops_test_refused (&error, "Not so on the safety list: “Traffic”, “Level, chocked”. Do not go on here. Put it "
                                   "right and answer it anew, or refuse the work and say why.");
    }
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  check_not_so (&site, 1);
  answer (&site, "traffic", "done", NULL);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, NULL));
  answer (&site, "traffic", "not_so", NULL);
  g_assert_false (hs_job_check_move (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", &error));
  g_assert_nonnull (strstr (error->message, "“Traffic” (not so)."));
  g_clear_error (&error);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "lorries", NOW, NULL));
  check_not_so (&site, 0);
  hs_ops_test_one (site.test, "safety WHERE item = 'traffic' AND answer = 'refused' AND why = 'not so'");
  g_assert_true (hs_job_check_move (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NULL));
}

/* A place that was refused and is safe now: what went along with the work is answered, what was not so is not. */
static void
test_safe_after_all (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  answer (&site, "traffic", "not_so", NULL);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "lorries", NOW, NULL));
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "lorries pass", NOW, NULL));
  hs_ops_test_one (site.test, "safety WHERE item = 'slope' AND why = 'lorries pass'");
  g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_MOVED, NULL, NOW, &error));
  hs_ops_test_refused (&error, "Not so on the safety list: “Traffic”. Do not go on here.");
  answer (&site, "traffic", "done", NULL);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_MOVED, NULL, NOW, NULL));
  check_lines (&site, DONE);
}

/* Nor is high voltage: what was refused along with the work is answered one by one, each before the rest is done. */
static void
test_high_voltage_after_all (void)
{
  static const char *const items[] = { "ready_lamp", "orange", "twelve_volts" };
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "no gloves", NOW, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      for (guint end = HS_SAFETY_SAFE; end <= HS_SAFETY_MOVED; end++)
        {
          g_assert_false (hs_safety_finish (site.book, site.job_id, (HsSafetyEnd) end, NULL, NOW, &error));
          hs_ops_test_refused (&error, "by itself; it is not done along with the rest.");
        }
      g_assert_cmpint (hs_ops_test_count (site.test, "safety WHERE answer = 'done'"), ==, (int) i);
      answer (&site, items[i], "done", NULL);
    }
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, NULL));
  check_lines (&site, "ready_lamp=done orange=done twelve_volts=done " DONE);
}

/* What is not so and what was refused along with the work are told apart by their words, so they never have the same:
 * neither is the work refused in the words of an item, nor is an item then answered in the words of the work. */
static void
test_same_words (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, " Not so ", NOW, &error));
  hs_ops_test_refused (&error, "“Not so” is no reason. Refused because of what? A few words will do.");
  answer (&site, "traffic", "not_so", NULL);
  answer (&site, "slope", "not_so", "a soft verge");
  g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "a soft verge", NOW, &error));
  hs_ops_test_refused (&error, "“Level, chocked” has these words already. Say in other words why the work is refused.");
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "lorries", NOW, NULL));
  g_assert_false (hs_safety_answer (site.book, site.job_id, "alone", "not_so", "lorries", NOW, &error));
  hs_ops_test_refused (&error, "Alone, dark, dogs: the work was refused in these words. Say in others what is not so.");
  check_lines (&site, REFUSED);
  g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, &error));
  hs_ops_test_refused (&error, "Not so on the safety list: “Traffic”, “Level, chocked”.");
}

/* What is not so of a high-voltage vehicle keeps the findings shut. */
static void
test_high_voltage_not_so (void)
{
  static const char *const items[] = { "ready_lamp", "orange", "twelve_volts" };
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    answer (&site, items[i], "done", NULL);
  g_assert_true (measure (&site, NULL));
  answer (&site, "orange", "not_so", NULL);
  g_assert_false (measure (&site, &error));
  hs_ops_test_refused (&error, "Not so on the safety list: “Orange cables”. Do not go on here.");
  answer (&site, "orange", "done", NULL);
  g_assert_true (measure (&site, NULL));
}

/* Refused by itself, each of them opens nothing: not with the others done, neither safe nor moved. */
static void
test_high_voltage_refused (void)
{
  static const char *const items[] = { "ready_lamp", "orange", "twelve_volts" };
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    answer (&site, items[i], "done", NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      answer (&site, items[i], "refused", "no gloves");
      g_assert_false (measure (&site, &error));
      hs_ops_test_refused (&error, "Not so on the safety list: ");
      g_assert_false (find (&site, "seen", &error));
      hs_ops_test_refused (&error, "Not so on the safety list: ");
      for (guint end = HS_SAFETY_SAFE; end <= HS_SAFETY_MOVED; end++)
        {
          g_assert_false (hs_safety_finish (site.book, site.job_id, (HsSafetyEnd) end, NULL, NOW, &error));
          hs_ops_test_refused (&error, "Not so on the safety list: ");
        }
      answer (&site, items[i], "done", NULL);
    }
  g_assert_cmpint (hs_ops_test_count (site.test, "reading"), ==, 0);
}

/* One answer for what was read down to a line: nothing below it, and nothing that was answered before. */
static void
test_down_to (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_safety_answer_down_to (site.book, site.job_id, "alone", NOW, &error));
  hs_ops_test_refused (&error, "Nobody has arrived yet");
  ops_site_arrive (&site, ARRIVED);
  g_assert_false (hs_safety_answer_down_to (site.book, site.job_id, "weather", NOW, &error));
  hs_ops_test_refused (&error, "The safety list has no “weather”");
  g_assert_false (hs_safety_answer_down_to (site.book, site.job_id, "fuel", NOW, &error));
  hs_ops_test_refused (&error, "The safety list of this visit does not ask “fuel”.");
  check_lines (&site, "traffic slope alone jacking battery_acid closed_garage");
  answer (&site, "slope", "not_so", NULL);
  g_assert_true (hs_safety_answer_down_to (site.book, site.job_id, "alone", NOW, NULL));
  check_lines (&site, "traffic=done slope=refused alone=done jacking battery_acid closed_garage");
  g_assert_true (hs_safety_answer_down_to (site.book, site.job_id, "closed_garage", NOW, NULL));
  check_lines (&site, "traffic=done slope=refused alone=done jacking=done battery_acid=done closed_garage=done");
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  check_lines (&site, "traffic=done slope=refused alone=done jacking battery_acid closed_garage");
}

/* High voltage is not among what was read down to a line. */
static void
test_high_voltage_down_to (void)
{
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  g_assert_true (hs_safety_answer_down_to (site.book, site.job_id, "ready_lamp", NOW, NULL));
  g_assert_false (hs_safety_answer_down_to (site.book, site.job_id, "traffic", NOW, &error));
  hs_ops_test_refused (&error, "High voltage: answer “Orange cables” by itself");
  g_assert_cmpint (hs_ops_test_count (site.test, "safety"), ==, 1);
}

static void
check_read (OpsSite *site, HsStage to, gboolean read)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (hs_safety_check_read (site->book, site->job_id, to, &error), ==, read);
  if (read)
    g_assert_no_error (error);
  else
    g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_UNREAD);
}

/* Who is at the vehicle is told that nobody began the list; passed, that is held with the visit and the job moves.
 * Gone through after all it is as any other. */
static void
test_pass (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsSafetySheet) sheet = NULL;
  g_autoptr (GError) error = NULL;

  check_read (&site, HS_STAGE_PROVEN, TRUE);
  g_assert_false (hs_safety_pass (site.book, site.job_id, NOW, &error));
  hs_ops_test_refused (&error, "Nobody has arrived yet");
  ops_site_arrive (&site, ARRIVED);
  check_read (&site, HS_STAGE_WAITING_PART, TRUE);
  check_read (&site, HS_STAGE_PROVEN, FALSE);
  g_assert_true (hs_safety_pass (site.book, site.job_id, NOW, NULL));
  check_read (&site, HS_STAGE_PROVEN, TRUE);
  sheet = load (&site);
  g_assert_cmpstr (sheet->note, ==, "not gone through");
  g_assert_cmpuint (sheet->n_open, ==, 6);
  hs_ops_test_one (site.test, "change_log WHERE became LIKE '%not gone through%'");
  g_assert_true (hs_job_check_move (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NULL));
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, NULL));
  check_lines (&site, DONE);
}

/* Begun, it is not passed; of high voltage it never is. */
static void
test_pass_not (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_auto (OpsSite) hybrid = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  answer (&site, "traffic", "not_so", NULL);
  check_read (&site, HS_STAGE_PROVEN, TRUE);
  g_assert_false (hs_safety_pass (site.book, site.job_id, NOW, &error));
  hs_ops_test_refused (&error, "The safety list of this visit is begun.");
  ops_site_arrive (&hybrid, ARRIVED);
  check_read (&hybrid, HS_STAGE_PROVEN, FALSE);
  g_assert_false (hs_safety_pass (hybrid.book, hybrid.job_id, NOW, &error));
  hs_ops_test_refused (&error, "High voltage: its safety list is not passed.");
}

/* Each visit has its own list. */
static void
test_each_visit (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_WAITING_PART, NULL, NOW + 600, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ROLLING, NULL, NOW + 7200, NULL));
  g_assert_false (hs_safety_answer (site.book, site.job_id, "traffic", "done", NULL, NOW + 7300, &error));
  hs_ops_test_refused (&error, "That visit is over");
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW + 8000, NULL));
  check_lines (&site, "traffic slope alone jacking battery_acid closed_garage");
  g_assert_cmpint (hs_ops_test_count (site.test, "safety"), ==, 6);
}

/* Nothing is measured or found on a high-voltage vehicle before its own items are answered on this visit; what is only
 * told may be written down at any time. */
static void
test_high_voltage_gate (void)
{
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  g_assert_false (measure (&site, &error));
  hs_ops_test_refused (&error, "A-0001 is a high-voltage vehicle, and nobody has arrived yet");
  g_assert_false (find (&site, "seen", &error));
  hs_ops_test_refused (&error, "nobody has arrived yet");
  g_assert_true (find (&site, "customer_said", NULL));
  g_assert_true (find (&site, "complaint", NULL));
  ops_site_arrive (&site, ARRIVED);
  g_assert_false (measure (&site, &error));
  hs_ops_test_refused (&error, "“Ready lamp, key” is not done yet on this visit");
  answer (&site, "traffic", "done", NULL);
  answer (&site, "ready_lamp", "done", NULL);
  answer (&site, "orange", "done", NULL);
  g_assert_false (find (&site, "cause", &error));
  hs_ops_test_refused (&error, "“12 V side only” is not done yet");
  g_assert_cmpint (hs_ops_test_count (site.test, "reading"), ==, 0);
  answer (&site, "twelve_volts", "done", NULL);
  g_assert_true (measure (&site, &error));
  g_assert_true (find (&site, "cause", &error));
  g_assert_no_error (error);
}

/* An item of high voltage always applies; one held as not applying is open. */
static void
test_high_voltage_applies (void)
{
  static const char *const items[] = { "ready_lamp", "orange", "twelve_volts" };
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_assert_false (hs_safety_answer (site.book, site.job_id, items[i], "not_here", NULL, NOW, &error));
      hs_ops_test_refused (&error, "on a high-voltage vehicle it always applies");
    }
  answer (&site, "slope", "not_here", NULL);
  g_assert_cmpint (hs_ops_test_count (site.test, "safety"), ==, 1);
  answer (&site, "ready_lamp", "done", NULL);
  answer (&site, "orange", "done", NULL);
  answer (&site, "twelve_volts", "done", NULL);
  g_assert_true (measure (&site, NULL));
  hold_as_not_here (&site, "orange");
  g_assert_false (measure (&site, &error));
  hs_ops_test_refused (&error, "“Orange cables” is not done yet");
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "no gloves on board", NOW, NULL));
  hs_ops_test_one (site.test, "safety WHERE item = 'orange' AND answer = 'refused' AND why = 'no gloves on board'");
}

/* The gate closes again with the next visit. */
static void
test_gate_each_visit (void)
{
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_REFUSED, "no gloves on board", NOW, NULL));
  g_assert_true (measure (&site, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_WAITING_PART, NULL, NOW + 600, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ROLLING, NULL, NOW + 7200, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW + 8000, NULL));
  g_assert_false (measure (&site, &error));
  hs_ops_test_refused (&error, "Answer its safety list first");
}

/* "Safe here" does not answer for the high voltage. */
static void
test_high_voltage_by_itself (void)
{
  static const char *const items[] = { "ready_lamp", "orange", "twelve_volts" };
  g_auto (OpsSite) site = ops_site_start (TRUE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, &error));
      hs_ops_test_refused (&error, "by itself");
      g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_MOVED, NULL, NOW, &error));
      hs_ops_test_refused (&error, "by itself");
      answer (&site, items[i], "done", NULL);
    }
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, &error));
  check_lines (&site, "ready_lamp=done orange=done twelve_volts=done " DONE);
}

/* Squared up, the list stays as it was answered. */
static void
test_frozen (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, ARRIVED);
  ops_site_square (&site, NOW);
  g_assert_false (hs_safety_finish (site.book, site.job_id, HS_SAFETY_SAFE, NULL, NOW, &error));
  hs_ops_test_refused (&error, "That visit is over");
  g_assert_cmpint (hs_ops_test_count (site.test, "safety"), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/safety-op/by-group", test_by_group);
  g_test_add_func ("/safety-op/grows", test_grows);
  g_test_add_func ("/safety-op/blocks", test_blocks);
  g_test_add_func ("/safety-op/blocks-not", test_blocks_not);
  g_test_add_func ("/safety-op/safe-here", test_safe_here);
  g_test_add_func ("/safety-op/ends", test_ends);
  g_test_add_func ("/safety-op/refused", test_refused);
  g_test_add_func ("/safety-op/again", test_again);
  g_test_add_func ("/safety-op/not-so", test_not_so);
  g_test_add_func ("/safety-op/safe-after-all", test_safe_after_all);
  g_test_add_func ("/safety-op/high-voltage-not-so", test_high_voltage_not_so);
  g_test_add_func ("/safety-op/high-voltage-after-all", test_high_voltage_after_all);
  g_test_add_func ("/safety-op/high-voltage-refused", test_high_voltage_refused);
  g_test_add_func ("/safety-op/same-words", test_same_words);
  g_test_add_func ("/safety-op/down-to", test_down_to);
  g_test_add_func ("/safety-op/high-voltage-down-to", test_high_voltage_down_to);
  g_test_add_func ("/safety-op/pass", test_pass);
  g_test_add_func ("/safety-op/pass-not", test_pass_not);
  g_test_add_func ("/safety-op/each-visit", test_each_visit);
  g_test_add_func ("/safety-op/high-voltage-gate", test_high_voltage_gate);
  g_test_add_func ("/safety-op/high-voltage-applies", test_high_voltage_applies);
  g_test_add_func ("/safety-op/gate-each-visit", test_gate_each_visit);
  g_test_add_func ("/safety-op/high-voltage-by-itself", test_high_voltage_by_itself);
  g_test_add_func ("/safety-op/frozen", test_frozen);
  return g_test_run ();
}
