// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Once a repair is written down: nothing is looked for, what proves it is told in the sentences of "Before and after",
 * and no advice of before stays. */

#include "hs-chain-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "ops-next.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW

static char *
name_cause (OpsNext *site, const char *cause)
{
  g_autoptr (GError) error = NULL;
  char *finding = hs_job_name_cause (site->book, site->job_id, NULL, cause, TRUE, "seen", NOW, &error);

  g_assert_no_error (error);
  return finding;
}

static void
install (OpsNext *site, const HsInstallEntry *entry)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *part = hs_part_install (site->book, site->job_id, entry, NOW, &error);

  g_assert_no_error (error);
}

static void
assert_waits (const HsJobNext *next, const char *cause, const char *said)
{
  g_assert_cmpstr (next->nothing, ==, said);
  g_assert_cmpuint (next->lines->len, ==, 0);
  g_assert_null (hs_job_next_check (next));
  g_assert_null (next->battery);
  g_assert_cmpstr (((const HsNextCause *) g_ptr_array_index (next->causes, 0))->id, ==, cause);
  g_assert_cmpint (ops_next_cause (next, cause)->standing, ==, HS_NEXT_REPAIRED);
}

/* Called cured, or a part put in because of it: each says that it was repaired. While it is only proven, the repair is
 * what comes next. What proves it is asked for until it was read. */
static void
test_repaired (void)
{
  static const char *const ways[] = { "cured", "part" };

  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_auto (OpsNext) site = ops_next_start (NULL, "drains");
      g_autofree char *finding = NULL;
      g_autoptr (HsJobNext) proven = NULL;
      g_autoptr (HsJobNext) repaired = NULL;
      g_autoptr (HsJobNext) read = NULL;

      ops_next_read (&site, "charging", "12.10", "before");
      ops_next_read (&site, "battery_rest", "11.95", "before");
      finding = name_cause (&site, "a");
      proven = ops_next_ask (&site);
      g_assert_null (proven->nothing);
      g_assert_nonnull (proven->battery);
      g_assert_cmpstr (((const HsNextLine *) g_ptr_array_index (proven->lines, 0))->id, ==, "a");
      if (i == 0)
        g_assert_true (hs_finding_settle (site.book, finding, "cured", NOW, NULL));
      else
        install (&site, &(HsInstallEntry) { .what = "lead", .why_finding_id = finding });
      repaired = ops_next_ask (&site);
      assert_waits (repaired, "a", "Repaired: Battery. What proves it: Take a reading after the repair, or say why it "
                                   "could not be tested. Read again: Charging, 12.10 V was outside before. Try the "
                                   "complaint again, five times or more.");
      ops_next_read (&site, "charging", "14.20", "after");
      read = ops_next_ask (&site);
      assert_waits (read, "a",
                    "Repaired: Battery. What proves it: Try the complaint again, five times or more.");
    }
}

/* A complaint that stays takes it back: what is left is looked for again. */
static void
test_stays (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autofree char *finding = name_cause (&site, "a");
  g_autoptr (HsJobNext) next = NULL;

  g_assert_true (hs_finding_settle (site.book, finding, "cured", NOW, NULL));
  ops_next_read (&site, "tried_again", "3 of 5", "after");
  next = ops_next_ask (&site);
  g_assert_null (next->nothing);
  g_assert_cmpuint (next->lines->len, >, 0);
}

/* One cause is repaired and another proven and not: that one comes next. */
static void
test_one_of_two (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autofree char *first = name_cause (&site, "a");
  g_autofree char *second = name_cause (&site, "b");
  g_autoptr (HsJobNext) next = NULL;

  g_assert_true (hs_finding_settle (site.book, first, "cured", NOW, NULL));
  next = ops_next_ask (&site);
  g_assert_null (next->nothing);
  g_assert_cmpstr (((const HsNextLine *) g_ptr_array_index (next->lines, 0))->id, ==, "b");
}

/* A new battery is the repair of a worn one although nobody named it; nobody is told to charge or replace it. */
static void
test_new_battery (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "will_not_start");
  g_autoptr (HsJobNext) before = NULL;
  g_autoptr (HsJobNext) after = NULL;

  ops_next_read (&site, "battery_rest", "11.95", "before");
  before = ops_next_ask (&site);
  g_assert_nonnull (before->battery);
  g_assert_cmpint (ops_next_cause (before, "battery_worn")->standing, !=, HS_NEXT_REPAIRED);
  install (&site, &(HsInstallEntry) { .what = "battery", .battery_kind = "flooded", .why = "due" });
  after = ops_next_ask (&site);
  g_assert_true (g_str_has_prefix (after->nothing, "Repaired: Battery"));
  g_assert_cmpint (ops_next_cause (after, "battery_worn")->standing, ==, HS_NEXT_REPAIRED);
  g_assert_cmpuint (after->lines->len, ==, 0);
  g_assert_null (after->battery);
}

/* Tested good, nothing is looked for, whatever was found. */
static void
test_proven (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (HsJobNext) next = NULL;
  g_autoptr (GError) error = NULL;

  ops_next_read (&site, "battery_rest", "11.95", "before");
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW, &error));
  ops_next_read (&site, "charging", "14.20", "after");
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, NULL, NOW, &error));
  next = ops_next_ask (&site);
  g_assert_cmpstr (next->nothing, ==, "Tested good: nothing is left to look for.");
  g_assert_cmpuint (next->lines->len, ==, 0);
  g_assert_null (next->battery);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-proof/repaired", test_repaired);
  g_test_add_func ("/next-proof/stays", test_stays);
  g_test_add_func ("/next-proof/one-of-two", test_one_of_two);
  g_test_add_func ("/next-proof/new-battery", test_new_battery);
  g_test_add_func ("/next-proof/proven", test_proven);
  return g_test_run ();
}
