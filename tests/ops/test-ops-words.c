// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The sentences that the board, a job's page and a vehicle's history say about what is seldom there: parts laid aside,
 * a battery without cover, choices without an answer, a doubted odometer, a swap. */

#include "hs-board.h"
#include "hs-desk-op.h"
#include "hs-history.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"

#include <string.h>

static HsOpsTest *
start (char **ret_id)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate,stage,day\n"
                         "A-0001,555-0115,hums,TDM 5508,promised,2026-03-10\n",
                         1, 0, 0);
  *ret_id = hs_job_find (test->book, "A-0001", NULL);
  return test;
}

static HsJobView *
view_of (HsOpsTest *test, const char *id)
{
  GError *error = NULL;
  HsJobView *view = hs_job_view_load (test->book, id, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  return view;
}

static HsHistory *
history_of (HsOpsTest *test)
{
  g_autofree char *vehicle = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 5508'");
  GError *error = NULL;
  HsHistory *history = hs_history_load (test->book, vehicle, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  return history;
}

static const HsHistoryEntry *
entry_of (const HsHistory *history, HsHistoryKind kind)
{
  for (guint i = 0; i < history->entries->len; i++)
    {
      const HsHistoryEntry *entry = g_ptr_array_index (history->entries, i);

      if (entry->kind == kind)
        return entry;
    }
  return NULL;
}

/* What a needed part waits for, by its state, its certainty and its counter. */
static void
test_needs (void)
{
  static const struct
  {
    const char *row;
    const char *state;
    const char *waits_for;
    const char *note;
    const char *act;
  } rows[] = {
    { "A-0001,GP-20D,100,", "wanted", "glow plug", NULL, NULL },
    { "A-0001,GP-20D,100,Larch & Weir", "wanted", "glow plug, Larch & Weir", NULL, NULL },
    { "A-0001,GP-20D,100,Larch & Weir", "laid_aside", "glow plug, Larch & Weir, laid aside", NULL, NULL },
    { "A-0001,GP-20D,100,Larch & Weir", "asked_for", "glow plug, Larch & Weir, asked for", NULL, NULL },
    { "A-0001,GP-20D,38,Larch & Weir", "laid_aside", "glow plug, Larch & Weir, 38 % sure", NULL,
      "Bring the glow plug: 38 % sure" },
    { "A-0001,GP-20D,100,Larch & Weir", "in_the_van", NULL, "In the van: glow plug", NULL },
    { "A-0001,GP-20D,100,", "installed", NULL, NULL, NULL },
    { "A-0001,GP-20D,100,", "dropped", NULL, NULL, NULL },
    { "A-0001,GP-20D,100,", "going_back", NULL, NULL, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = NULL;
      g_autoptr (HsOpsTest) test = start (&id);
      g_autofree char *csv = g_strdup_printf ("job,part,sure_percent,supplier\n%s\n", rows[i].row);
      g_autofree char *sql = g_strdup_printf ("UPDATE need SET state = '%s'", rows[i].state);
      g_autoptr (HsJobView) view = NULL;

      hs_ops_test_import_ok (test, "needs", csv, 1, 0, 0);
      hs_ops_test_run (test, sql);
      view = view_of (test, id);
      g_assert_cmpstr (view->tag->waits_for, ==, rows[i].waits_for);
      g_assert_cmpstr (view->tag->note, ==, rows[i].note);
      g_assert_cmpstr (view->tag->act, ==, rows[i].act);
      g_assert_true (view->tag->attention == (rows[i].act != NULL));
    }
}

/* The battery in it, with its age in whole months and its cover if it has one; Oct 5 is 156 days ago: no year. */
static void
test_battery (void)
{
  static const struct
  {
    const char *row;
    const char *note;
  } rows[] = {
    { "2023-10-05,24", "Battery in it: 29 months, cover ended Oct 5" },
    { "2025-10-05,24", "Battery in it: 5 months, covered until Oct 5, 2027" },
    { "2023-10-05,", "Battery in it: 29 months" },
    { "2026-02-10,", "Battery in it: 1 month" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = NULL;
      g_autoptr (HsOpsTest) test = start (&id);
      g_autofree char *csv
          = g_strdup_printf ("plate,what,known_by,date,warranty_months\nTDM 5508,battery,receipt,%s\n", rows[i].row);
      g_autoptr (HsJobView) view = NULL;

      hs_ops_test_import_ok (test, "installed", csv, 1, 0, 0);
      view = view_of (test, id);
      g_assert_cmpstr (view->tag->note, ==, rows[i].note);
    }
}

/* A choice in each of its four states: on the job's page, on the tag and in the history. */
static void
test_choices (void)
{
  static const struct
  {
    const char *choice;
    HsDate chase_on;
    const char *page;
    const char *history; /* NULL: not told there */
    const char *act;
  } rows[] = {
    { "open", HS_DATE_NONE, "New clamps, 40.00: no answer yet", "New clamps: no answer yet",
      "Ask Teo Calloway to pick: no answer yet" },
    { "no", HS_DATE_NONE, "New clamps, 40.00: no by Teo, phone, Mar 10, 06:45; told: May come loose",
      "New clamps: declined", NULL },
    { "later", HS_DATE_NONE, "New clamps, 40.00: later by Teo, phone, Mar 10, 06:45; told: May come loose",
      "New clamps: put off", NULL },
    { "later", 20546, /* 2026-04-03 */
      "New clamps, 40.00: later by Teo, phone, Mar 10, 06:45; told: May come loose; call on Apr 3",
      "New clamps: put off, call on Apr 3", NULL },
    { "yes", HS_DATE_NONE, "New clamps, 40.00: yes by Teo, phone, Mar 10, 06:45; told: May come loose", NULL, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gboolean open = g_str_equal (rows[i].choice, "open");
      g_autofree char *id = NULL;
      g_autoptr (HsOpsTest) test = start (&id);
      HsAdviceEntry advice = { .wording = "New clamps",
                               .choice = rows[i].choice,
                               .price_cents = 4000,
                               .risk = open ? NULL : "May come loose",
                               .by = open ? NULL : "Teo",
                               .means = open ? NULL : "phone",
                               .at = open ? HS_INSTANT_NONE : HS_OPS_TEST_NOW,
                               .chase_on = rows[i].chase_on };
      g_autofree char *added = hs_advice_add (test->book, id, &advice, HS_OPS_TEST_NOW, NULL);
      g_autoptr (HsJobView) view = view_of (test, id);
      g_autoptr (HsHistory) history = history_of (test);
      const HsHistoryEntry *entry = entry_of (history, HS_HISTORY_JOB);

      g_assert_nonnull (added);
      g_assert_cmpuint (view->advice->len, ==, 1);
      g_assert_cmpstr (g_ptr_array_index (view->advice, 0), ==, rows[i].page);
      g_assert_cmpstr (view->tag->act, ==, rows[i].act);
      g_assert_cmpuint (entry->advice->len, ==, rows[i].history != NULL);
      if (rows[i].history != NULL)
        g_assert_cmpstr (g_ptr_array_index (entry->advice, 0), ==, rows[i].history);
    }
}

/* What was put on: with maker, place, cover, and whether it stands in for another. */
static void
test_installed (void)
{
  g_autofree char *id = NULL;
  g_autoptr (HsOpsTest) test = start (&id);
  HsInstallEntry first = { .what = "battery 44 Ah", .maker = "Brackwater", .warranty_months = 24, .why = "due" };
  HsInstallEntry swap = { .what = "battery 44 Ah", .warranty_swap = TRUE, .why = "due" };
  HsInstallEntry relay = { .what = "relay", .place = "left box", .why = "none_before" };
  g_autofree char *one = hs_part_install (test->book, id, &first, HS_OPS_TEST_NOW - 86400, NULL);
  g_autofree char *two = hs_part_install (test->book, id, &swap, HS_OPS_TEST_NOW, NULL);
  g_autofree char *three = hs_part_install (test->book, id, &relay, HS_OPS_TEST_NOW, NULL);
  g_autoptr (HsJobView) view = view_of (test, id);
  g_autoptr (HsHistory) history = history_of (test);
  const HsHistoryEntry *entry = entry_of (history, HS_HISTORY_JOB);

  g_assert_true (one != NULL && two != NULL && three != NULL);
  g_assert_cmpuint (view->installed->len, ==, 3);
  g_assert_cmpstr (g_ptr_array_index (view->installed, 0), ==,
                   "battery 44 Ah, Brackwater, under the hood, 24 months' cover");
  g_assert_cmpstr (g_ptr_array_index (view->installed, 1), ==,
                   "battery 44 Ah, under the hood, 24 months' cover, warranty swap");
  g_assert_cmpstr (g_ptr_array_index (view->installed, 2), ==, "relay, left box");
  g_assert_cmpstr (g_ptr_array_index (entry->parts, 0), ==, "battery 44 Ah, Brackwater");
  g_assert_cmpstr (g_ptr_array_index (entry->parts, 1), ==, "battery 44 Ah (warranty swap)");
  g_assert_cmpint (history->battery->installed_on, ==, hs_date_from_ymd (2026, 3, 10));
  g_assert_cmpint (history->battery->warranty_until, ==, hs_date_from_ymd (2028, 3, 9));
}

static void
test_odometer (void)
{
  static const struct
  {
    gint64 value;
    const char *doubted;
    const char *title;
    const char *detail;
  } rows[] = {
    { 7, "engine changed", "Odometer 7 mi", "Doubted: engine changed" },
    { 999, NULL, "Odometer 999 mi", NULL },
    { 1000, NULL, "Odometer 1,000 mi", NULL },
    { 94400, NULL, "Odometer 94,400 mi", NULL },
    { 1234567, NULL, "Odometer 1,234,567 mi", NULL },
    { 12, "cluster changed", "Odometer 12 mi", "Doubted: cluster changed" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = NULL;
      g_autoptr (HsOpsTest) test = start (&id);
      g_autofree char *vehicle = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 5508'");
      g_autoptr (HsHistory) history = NULL;
      const HsHistoryEntry *entry;

      g_assert_true (hs_odometer_add (test->book, vehicle, id, hs_date_from_ymd (2026, 3, 9), rows[i].value,
                                      rows[i].doubted, HS_OPS_TEST_NOW, NULL));
      history = history_of (test);
      entry = entry_of (history, HS_HISTORY_ODOMETER);
      g_assert_cmpstr (entry->title, ==, rows[i].title);
      g_assert_cmpstr (entry->detail, ==, rows[i].detail);
      g_assert_cmpint (entry->day, ==, hs_date_from_ymd (2026, 3, 9));
    }
}

/* A vehicle that nobody owned yet gets its first owner; handed on, the sale stands in the history. */
static void
test_first_owner (void)
{
  g_autofree char *id = NULL;
  g_autoptr (HsOpsTest) test = start (&id);
  g_autofree char *vehicle = hs_ops_test_id (test, "SELECT id FROM vehicle WHERE plate = 'TDM 5508'");
  g_autofree char *teo = hs_ops_test_id (test, "SELECT id FROM customer WHERE name = 'Teo Calloway'");
  g_autofree char *nadira = hs_ops_test_id (test, "SELECT id FROM customer WHERE name = 'Nadira Quell'");
  g_autoptr (HsHistory) history = NULL;
  g_autoptr (GError) error = NULL;

  hs_ops_test_run (test, "DELETE FROM ownership");
  history = history_of (test);
  g_assert_null (history->customer);
  g_clear_pointer (&history, hs_history_free);
  hs_owner_change (test->book, vehicle, teo, hs_date_from_ymd (2024, 1, 2), HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  hs_ops_test_one (test, "ownership WHERE from_date = '2024-01-02' AND to_date IS NULL");
  history = history_of (test);
  g_assert_cmpstr (history->customer, ==, "Teo Calloway");
  g_assert_null (entry_of (history, HS_HISTORY_OWNER));
  g_clear_pointer (&history, hs_history_free);
  hs_owner_change (test->book, vehicle, nadira, hs_date_from_ymd (2025, 8, 17), HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  history = history_of (test);
  g_assert_cmpstr (history->customer, ==, "Nadira Quell");
  g_assert_cmpstr (history->phone, ==, "555-0117");
  g_assert_cmpstr (entry_of (history, HS_HISTORY_OWNER)->title, ==, "New owner: Nadira Quell");
  g_assert_cmpint (entry_of (history, HS_HISTORY_OWNER)->day, ==, hs_date_from_ymd (2025, 8, 17));
  g_assert_cmpint (entry_of (history, HS_HISTORY_JOB)->total_cents, ==, -1);
}

/* What was typed where, by job and field. What is given up is no longer asked for; its page stays the place. */
static void
test_where (void)
{
  static const struct
  {
    const char *page;
    const char *field;
    const char *text;
    const char *now_page;
    const char *now_field;
    const char *now_text; /* NULL: nowhere */
  } steps[] = {
    { "findings", "battery_rest", "12", "findings", "battery_rest", "12" },
    { "findings", "battery_rest", "124", "findings", "battery_rest", "124" },
    { "call", "words", "one cli", "call", "words", "one cli" },
    { "call", "words", NULL, "call", "words", "" },
    { "call", NULL, NULL, "call", HS_WHERE_HERE, "" },
    { "findings", NULL, NULL, "call", HS_WHERE_HERE, "" },
    { NULL, NULL, NULL, NULL, NULL, NULL },
  };
  g_autofree char *id = NULL;
  g_autoptr (HsOpsTest) test = start (&id);

  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      g_autoptr (HsWhere) where = NULL;
      g_autoptr (GError) error = NULL;

      hs_where_save (test->book, id, steps[i].page, steps[i].field, steps[i].text, HS_OPS_TEST_NOW + (HsInstant) i,
                     &error);
      g_assert_no_error (error);
      where = hs_where_load (test->book, &error);
      g_assert_no_error (error);
      g_assert_true ((where != NULL) == (steps[i].now_text != NULL));
      if (where == NULL)
        continue;
      g_assert_cmpstr (where->page, ==, steps[i].now_page);
      g_assert_cmpstr (where->field, ==, steps[i].now_field);
      g_assert_cmpstr (where->text, ==, steps[i].now_text);
      g_assert_cmpstr (where->job_number, ==, "A-0001");
    }
}

/* Where the owner is keeps what is half typed there; a job that is left is no interruption, unless something is, and
 * one that was only looked at leaves the place before it. */
static void
test_visits (void)
{
  static const struct
  {
    const char *visit_page, *visit_field; /* NULL: left */
    gboolean worked;
    const char *page, *field, *text;
  } steps[] = {
    { "bill", HS_WHERE_HERE, FALSE, "bill", HS_WHERE_HERE, "" },
    { "findings", "battery_rest", FALSE, "findings", "battery_rest", "12" },
    { NULL, NULL, TRUE, "findings", "battery_rest", "12" },
    { "bill", HS_WHERE_HERE, FALSE, "bill", HS_WHERE_HERE, "" },
    { NULL, NULL, TRUE, "bill", HS_WHERE_LEFT HS_WHERE_HERE, "" },
    { NULL, NULL, TRUE, "bill", HS_WHERE_LEFT HS_WHERE_HERE, "" },
    { "call", "words", FALSE, "call", "words", "" },
    { NULL, NULL, FALSE, "findings", "battery_rest", "12" },
  };
  g_autofree char *id = NULL;
  g_autoptr (HsOpsTest) test = start (&id);

  g_assert_true (hs_where_save (test->book, id, "findings", "battery_rest", "12", HS_OPS_TEST_NOW, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      HsInstant now = HS_OPS_TEST_NOW + (HsInstant) i;
      g_autoptr (HsWhere) where = NULL;

      if (steps[i].visit_page != NULL)
        g_assert_true (hs_where_visit (test->book, id, steps[i].visit_page, steps[i].visit_field, now, NULL));
      else
        g_assert_true (hs_where_leave (test->book, id, steps[i].worked, now, NULL));
      where = hs_where_load (test->book, NULL);
      g_assert_cmpstr (where->page, ==, steps[i].page);
      g_assert_cmpstr (where->field, ==, steps[i].field);
      g_assert_cmpstr (where->text, ==, steps[i].text);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/needs", test_needs);
  g_test_add_func ("/words/battery", test_battery);
  g_test_add_func ("/words/choices", test_choices);
  g_test_add_func ("/words/installed", test_installed);
  g_test_add_func ("/words/odometer", test_odometer);
  g_test_add_func ("/words/first-owner", test_first_owner);
  g_test_add_func ("/words/where", test_where);
  g_test_add_func ("/words/visits", test_visits);
  return g_test_run ();
}
