// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Readings that are words: kept as words, judged, shown before and after, brought in from files and not twice, and kept
 * where this version does not know them. */

#include "hs-board.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"

#include <string.h>

static HsOpsTest *
start (char **ret_job)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "vehicles", "plate,owner_phone,fuel\nTDM 4409,555-0115,gas\n", 1, 0, 0);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,clicks,TDM 4409\n", 1,
                         0, 0);
  *ret_job = hs_job_find (test->book, "A-0001", NULL);
  return test;
}

static HsReadingResult *
add (HsOpsTest *test, const char *job, HsReadingEntry entry)
{
  GError *error = NULL;
  HsReadingResult *result;

  entry.at = HS_INSTANT_NONE;
  result = hs_reading_add (test->book, job, &entry, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  return result;
}

static void
test_stored (void)
{
  static const struct
  {
    HsReadingEntry entry;
    const char *answer;
    const char *verdict;
    const char *word;
    const char *then; /* the first, or NULL */
  } rows[] = {
    { { .check = "key_turn", .keyed = "3" }, "fast clicks", "outside", "outside", "battery_rest" },
    { { .check = "key_turn", .keyed = "7", .phase = "after" }, "starts", "within", "within", "starts_good" },
    { { .check = "key_turn", .text = "One click" }, "one click", "outside", "outside", "battery_rest" },
    { { .check = "dash_lamps", .keyed = "1" }, "bright, stay bright", "within", "within", "starter_control" },
    { { .check = "trouble_codes", .keyed = "p0562, u0100" }, "P0562 U0100", "watch", "look them up", NULL },
    { { .check = "trouble_codes", .keyed = "0", .phase = "after" }, "none", "within", "within", NULL },
    { { .check = "battery_code", .text = " C5 " }, "C5", "within", "noted", NULL },
  };
  g_autofree char *job = NULL;
  g_autoptr (HsOpsTest) test = start (&job);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsReadingResult) result = add (test, job, rows[i].entry);
      g_autofree char *where = g_strdup_printf ("reading WHERE check_id = '%s' AND answer = '%s' AND value IS NULL",
                                                rows[i].entry.check, rows[i].answer);

      g_assert_cmpstr (result->answer, ==, rows[i].answer);
      g_assert_cmpstr (result->value_text, ==, rows[i].answer);
      g_assert_cmpstr (result->verdict, ==, rows[i].verdict);
      g_assert_cmpstr (result->word, ==, rows[i].word);
      g_assert_cmpstr (result->then == NULL ? NULL : result->then[0], ==, rows[i].then);
      g_assert_cmpstr (result->whose, ==, "catalog");
      g_assert_cmpstr (result->sure, !=, "");
      g_assert_false (result->has_value);
      hs_ops_test_one (test, where);
    }
}

/* Before and after stand side by side, as for numbers. */
static void
test_before_and_after (void)
{
  static const char *const phases[] = { "before", "after" };
  static const char *const answers[] = { "silent", "starts" };
  g_autofree char *job = NULL;
  g_autoptr (HsOpsTest) test = start (&job);
  g_autoptr (HsReadingResult) before
      = add (test, job, (HsReadingEntry) { .check = "key_turn", .keyed = "1" });
  g_autoptr (HsReadingResult) after
      = add (test, job, (HsReadingEntry) { .check = "key_turn", .keyed = "7", .phase = "after" });

  for (gsize i = 0; i < G_N_ELEMENTS (phases); i++)
    {
      g_autoptr (GPtrArray) sheet = hs_job_sheet (test->book, job, phases[i], HS_OPS_TEST_NOW, NULL);

      g_assert_cmpuint (sheet->len, ==, 1);
      g_assert_cmpstr (((HsReadingResult *) g_ptr_array_index (sheet, 0))->value_text, ==, answers[i]);
    }
}

static void
test_imported (void)
{
  static const char file[] = "job,check,value,phase,at\nA-0001,key_turn,fast clicks,before,2026-03-09T10:00\n"
                             "A-0001,trouble_codes,\"P0562, U0100\",before,2026-03-09T10:01\n"
                             "A-0001,trouble_codes,none,after,2026-03-09T11:00\n";
  g_autofree char *job = NULL;
  g_autoptr (HsOpsTest) test = start (&job);

  hs_ops_test_import_ok (test, "readings", file, 3, 0, 0);
  hs_ops_test_import_ok (test, "readings", file, 0, 0, 3);
  hs_ops_test_one (test, "reading WHERE answer = 'P0562 U0100' AND unit = 'codes'");
  hs_ops_test_import_ok (test, "readings",
                         "job,check,value,phase,at\nA-0001,key_turn,silent,before,2026-03-09T10:00\n", 1, 0, 0);
  hs_ops_test_import_bad (test, "readings", "job,check,value\nA-0001,key_turn,hums\n",
                          "readings.csv:2: value: Key turned to start: “hums” is no answer; there are: 1 silent, "
                          "2 one click, 3 fast clicks, 4 turns slowly, 5 starter spins alone, "
                          "6 turns well, does not start, 7 starts\n");
}

/* An answer that this version does not have stands as it was written; so do conditions that it does not know. */
static void
test_strange (void)
{
  g_autofree char *job = NULL;
  g_autoptr (HsOpsTest) test = start (&job);
  g_autoptr (HsReadingResult) known = add (test, job, (HsReadingEntry) { .check = "key_turn", .keyed = "1" });
  g_autoptr (HsReadingResult) rest
      = add (test, job, (HsReadingEntry) { .check = "charging", .keyed = "1420", .conditions = "engine:raised" });
  g_autoptr (GPtrArray) sheet = NULL;
  const HsReadingResult *odd, *volts;

  hs_ops_test_run (test, "UPDATE reading SET answer = 'hums' WHERE check_id = 'key_turn';"
                         "UPDATE reading SET conditions = 'moon:full; engine:off; x' WHERE check_id = 'charging'");
  sheet = hs_job_sheet (test->book, job, "before", HS_OPS_TEST_NOW, NULL);
  g_assert_cmpuint (sheet->len, ==, 2);
  odd = g_ptr_array_index (sheet, 0);
  volts = g_ptr_array_index (sheet, 1);
  g_assert_cmpstr (odd->value_text, ==, "hums");
  g_assert_cmpstr (odd->answer, ==, "hums");
  g_assert_cmpstr (odd->verdict, ==, "cannot_tell");
  g_assert_nonnull (strstr (odd->why, "does not know this answer to “key_turn”"));
  g_assert_cmpstr (volts->word, ==, "not running");
}

/* The place of a drop may be said as the place of the reading; what is written beside it outranks it. */
static void
test_place (void)
{
  static const struct
  {
    const char *place;
    const char *conditions;
    const char *verdict;
  } rows[] = {
    { "starter-positive", NULL, "within" },
    { "ground", NULL, "outside" },
    { "trunk", NULL, "cannot_tell" },
    { NULL, "place:starter-positive", "within" },
    { "ground", "place:starter-positive", "within" },
  };
  g_autofree char *job = NULL;
  g_autoptr (HsOpsTest) test = start (&job);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsReadingResult) result
          = add (test, job, (HsReadingEntry) { .check = "drop", .keyed = "31", .place = rows[i].place,
                                               .conditions = rows[i].conditions });

      g_assert_cmpstr (result->verdict, ==, rows[i].verdict);
      g_assert_cmpstr (result->place, ==, rows[i].place);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading-answer/stored", test_stored);
  g_test_add_func ("/reading-answer/before-and-after", test_before_and_after);
  g_test_add_func ("/reading-answer/imported", test_imported);
  g_test_add_func ("/reading-answer/strange", test_strange);
  g_test_add_func ("/reading-answer/place", test_place);
  return g_test_run ();
}
