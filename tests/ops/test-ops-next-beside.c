// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What one reading suggests beside what is best next: never two answers without a word on why. */

#include "ops-next.h"

static char *
same (const char *text)
{
  return (char *) text;
}

static char *
same_of (const char *one, const char *many, gulong n)
{
  return (char *) (n == 1 ? one : many);
}

static const HsTongue english = { same, same_of };

static void
assert_beside (OpsNext *site, const char *const *then, const char *said)
{
  g_autoptr (HsJobNext) next = ops_next_ask (site);
  g_autofree char *beside = hs_job_next_beside (next, hs_book_get_checks (site->book), then, &english);

  g_assert_cmpstr (beside, ==, said);
}

/* At the start the belt is best with 27.25 minutes. The volts first: 4, then for low (0.675 and 0.05) the repairs, 14.5
 * + 1.5, for fine (0.075 and 0.2) the belt, 0.55 + 2.35 + 5.775: 28.675. */
static void
test_start (void)
{
  static const char *const belt[] = { "battery_rest", "belt", NULL };
  static const char *const volts[] = { "battery_rest", "charging", NULL };
  static const char *const foreign[] = { "charging", NULL };
  static const char *const none[] = { NULL };
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");

  assert_beside (&site, belt, "That is best next with all that is known, too.");
  assert_beside (&site, volts,
                 "This reading alone asks for “Battery at rest” next; with all that is known “Belt” is sooner done: "
                 "27 min until fixed, not 29.");
  assert_beside (&site, foreign,
                 "This reading alone asks for “Charging” next. That check is not compared here; of those that are, "
                 "“Belt” is best next: 27 min until fixed.");
  assert_beside (&site, none, NULL);
  assert_beside (&site, NULL, NULL);
}

/* After low volts the repair is best: 20 + 30/14.5 = 22.07; the belt first: (1.45 + 12.4 + 3.6)/0.725 = 24.07. What was
 * read is not suggested any more. */
static void
test_read (void)
{
  static const char *const belt[] = { "battery_rest", "belt", NULL };
  static const char *const volts[] = { "battery_rest", NULL };
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");

  ops_next_read (&site, "battery_rest", "11.95", "before");
  assert_beside (&site, belt,
                 "This reading alone asks for “Belt” next; with all that is known “Repair: Replace it” is sooner done: "
                 "22 min until fixed, not 24.");
  assert_beside (&site, volts, NULL);
  ops_next_read (&site, "belt", "*cannot be reached", "before");
  assert_beside (&site, belt, NULL);
}

/* A few seconds apart is as good. The charging volts, as good a check as the belt and a tenth of a minute dearer. */
static void
test_as_good (void)
{
  static const char *const charging[] = { "charging", NULL };
  g_auto (GStrv) halves = g_strsplit (ops_next_models, "{\"id\": \"belt\"", 2);
  g_autofree char *more
    = g_strconcat (halves[0],
                   "{\"id\": \"charging\", \"minutes\": 2.1, \"results\": [\"low\", \"fine\"], \"source\": \"s\","
                   " \"from\": {\"cuts\": [13]}, \"p\": {\"a\": [0.1, 0.9], \"b\": [0.9, 0.1]}}, {\"id\": \"belt\"",
                   halves[1], NULL);
  g_auto (GStrv) parts = g_strsplit (more, "@", 2);
  g_autofree char *models = g_strjoinv ("", parts);
  g_auto (OpsNext) site = ops_next_start (models, "drains");

  assert_beside (&site, charging,
                 "This reading alone asks for “Charging” next; with all that is known “Belt” is as good.");
}

/* Where nothing is best next there is nothing to put beside. */
static void
test_nothing (void)
{
  static const char *const belt[] = { "belt", NULL };
  g_auto (OpsNext) site = ops_next_start (NULL, "upkeep");

  assert_beside (&site, belt, NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-beside/start", test_start);
  g_test_add_func ("/next-beside/read", test_read);
  g_test_add_func ("/next-beside/as-good", test_as_good);
  g_test_add_func ("/next-beside/nothing", test_nothing);
  return g_test_run ();
}
