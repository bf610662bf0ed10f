// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is said of the battery beside the next check: recharge or replace, and a draw that no new one cures. */

#include "hs-demo.h"
#include "hs-job-op.h"
#include "ops-next.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW
#define WAYS \
  "Recharge it and test it again: about 35 min. Or replace it: about 25 min, and about 180.00 for the battery " \
  "(authors' guess)."

/* Nothing is said while nothing is wrong; a low one may be charged or replaced, with what the models say of both. */
static void
test_ways (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    const char *phase;
    const char *said;
  } rows[] = {
    { "battery_rest", "12.60", "before", NULL },
    { "battery_rest", "12.30", "before", WAYS },
    { "battery_rest", "11.95", "during", WAYS },
    { "battery_rest", "11.95", "after", NULL },
    { "battery_rest", "*no power yet", "before", NULL },
    { "charging", "12.10", "before", NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsNext) site = ops_next_start (NULL, "drains");
      g_autoptr (HsJobNext) next = NULL;

      g_test_message ("%s %s %s", rows[i].check, rows[i].text, rows[i].phase);
      ops_next_read (&site, rows[i].check, rows[i].text, rows[i].phase);
      next = ops_next_ask (&site);
      g_assert_cmpstr (next->battery, ==, rows[i].said);
    }
}

/* A later reading of the same check takes an earlier one's place; a good one of another makes no bad one good. */
static void
test_latest (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) low = NULL;
  g_autoptr (HsJobNext) charged = NULL;

  ops_next_read (&site, "battery_rest", "11.95", "before");
  ops_next_read (&site, "charging", "14.20", "before");
  low = ops_next_ask (&site);
  g_assert_cmpstr (low->battery, ==, WAYS);
  ops_next_read (&site, "battery_rest", "12.60", "during");
  charged = ops_next_ask (&site);
  g_assert_null (charged->battery);
}

/* Without a model that has both there is nothing to say in minutes. */
static void
test_no_models (void)
{
  static const char *const ids[] = { "will_not_start_silent", "will_not_start_clicks" };
  g_auto (GStrv) parts = g_strsplit (ops_next_models, "@", 2);
  g_autofree char *plain = g_strjoinv ("", parts);
  g_autoptr (GString) models = g_string_new ("{\"models\": [");

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      g_autofree char *id = g_strdup_printf ("\"id\": \"%s\"", ids[i]);
      g_auto (GStrv) halves = g_strsplit (plain + strlen ("{\"models\": ["), "\"id\": \"drains\"", 2);
      g_autofree char *one = g_strjoinv (id, halves);

      g_string_append_printf (models, "%s%.*s", i > 0 ? ", " : "", (int) (strlen (one) - 2), one);
    }
  g_string_append (models, "]}");
  g_auto (OpsNext) site = ops_next_start (models->str, "drains");
  g_autoptr (HsJobNext) next = NULL;

  ops_next_read (&site, "battery_rest", "11.95", "before");
  next = ops_next_ask (&site);
  g_assert_null (next->trouble);
  g_assert_null (next->battery);
}

/* A draw of a vehicle of which no battery is on record: only what is certain. */
static void
test_draw_alone (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) small = NULL;
  g_autoptr (HsJobNext) large = NULL;

  ops_next_read (&site, "sleeping_draw", "0.024", "before");
  small = ops_next_ask (&site);
  g_assert_null (small->battery);
  ops_next_read (&site, "sleeping_draw", "0.310", "before");
  large = ops_next_ask (&site);
  g_assert_cmpstr (large->battery, ==, "Replacing it would not cure a draw of 0.310 A.");
}

/* --- The demo's V06 ---------------------------------------------------------------------------------------------- */

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job_id;
} Demo;

static Demo
demo_start (void)
{
  Demo demo = { .test = hs_ops_test_folder () };
  g_autoptr (GError) error = NULL;

  demo.book = demo.test->book = hs_demo_make (demo.test->path, &demo.test->user, &error);
  g_assert_no_error (error);
  demo.job_id = hs_job_find (demo.book, "A-0024", &error);
  g_assert_no_error (error);
  g_assert_true (hs_job_set_group (demo.book, demo.job_id, "drains", hs_demo_get_now (), &error));
  return demo;
}

static void
demo_clear (Demo *demo)
{
  hs_ops_test_close (demo->test);
  g_free (demo->job_id);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Demo, demo_clear)

static char *
battery_after (Demo *demo, const char *check, const char *keyed, const char **ret_note)
{
  HsReadingEntry entry = { .check = check, .keyed = keyed, .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) read = hs_reading_add (demo->book, demo->job_id, &entry, hs_demo_get_now (), &error);
  g_autoptr (HsJobNext) next = NULL;

  g_assert_no_error (error);
  *ret_note = g_intern_string (read->note);
  next = hs_job_next_load (demo->book, demo->job_id, NULL, hs_demo_get_now (), &error);
  g_assert_no_error (error);
  return g_strdup (next->battery);
}

/* Story 20: 60 Ah with 40 % to use: 0.31 A are 3.2 days, 0.024 A 41.7; the cover ended 17 days ago, and replacing it
 * for 211.01 would not cure it. */
static void
test_story_20 (void)
{
  g_auto (Demo) demo = demo_start ();
  const char *note;
  g_autofree char *draw = battery_after (&demo, "sleeping_draw", "310", &note);
  g_autofree char *low = NULL;
  g_autofree char *cured = NULL;

  g_assert_cmpstr (note, ==, "3.2 days to no-start");
  g_assert_cmpstr (draw, ==,
                   "The battery's cover ended 17 days ago, on February 21. Replacing it (211.01) would not cure a draw "
                   "of 0.310 A (3.2 days to no-start).");
  low = battery_after (&demo, "battery_rest", "1231", &note);
  g_assert_true (g_str_has_suffix (low, "(3.2 days to no-start). Recharge it and test it again: about 35 min."));
  cured = battery_after (&demo, "sleeping_draw", "24", &note);
  g_assert_cmpstr (note, ==, "41.7 days to no-start");
  g_assert_null (strstr (cured, "would not cure"));
}

/* What another owner paid is not told. */
static void
test_other_owner (void)
{
  g_auto (Demo) demo = demo_start ();
  const char *note;
  g_autofree char *said = NULL;

  hs_ops_test_run (demo.test,
                   "UPDATE job SET customer_id = (SELECT id FROM customer WHERE id <> (SELECT customer_id FROM"
                   " job WHERE number = 'A-0024') LIMIT 1) WHERE number = 'A-0024'");
  said = battery_after (&demo, "sleeping_draw", "310", &note);
  g_assert_nonnull (strstr (said, "ended 17 days ago"));
  g_assert_nonnull (strstr (said, "Replacing it would not cure"));
  g_assert_null (strstr (said, "211.01"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-battery/ways", test_ways);
  g_test_add_func ("/next-battery/latest", test_latest);
  g_test_add_func ("/next-battery/no-models", test_no_models);
  g_test_add_func ("/next-battery/draw-alone", test_draw_alone);
  g_test_add_func ("/next-battery/story-20", test_story_20);
  g_test_add_func ("/next-battery/other-owner", test_other_owner);
  return g_test_run ();
}
