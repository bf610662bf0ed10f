// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What an installed part costs and sells for: known from the catalog, asked where it was typed, never silently nothing.
 * The prices are worked out by the bands in words: first 10.00 at ×2.0, next 40.00 at ×1.6, next 100.00 at ×1.4. */

#include "hs-board.h"
#include "hs-choice-op.h"
#include "hs-settings-op.h"
#include "ops-repair.h"

#include <string.h>

#define LATER (NOW + 1800)

/* Proven, agreed to up to 500.00 and priced. */
static void
finish (Bay *bay, const char *goodwill)
{
  g_autoptr (GError) error = NULL;

  bay_read (bay, "battery_rest", "12.66", "after", NULL);
  g_assert_true (hs_job_move_stage (bay->book, bay->job, HS_STAGE_PROVEN, "drove off", LATER, &error));
  g_assert_no_error (error);
  g_assert_true (hs_go_ahead_add (bay->book, bay->job, 50000, "Teo", "phone", LATER, NULL));
  g_assert_true (hs_job_price (bay->book, bay->job, goodwill, LATER, NULL));
}

static void
refuse_square (Bay *bay, const char *said)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_job_square (bay->book, bay->job, LATER, &error));
  hs_ops_test_refused (&error, said);
  g_assert_cmpint (hs_ops_test_count (bay->test, "invoice"), ==, 0);
}

/* By the page's own words, and as the after pane has it. */
static void
check_unpriced (Bay *bay, const char *what)
{
  g_autoptr (HsJobView) view = hs_job_view_load (bay->book, bay->job, LATER, NULL);
  g_autoptr (HsRepair) repair = bay_load (bay);
  g_autofree char *line = what != NULL ? g_strdup_printf ("%s\tno price yet", what) : NULL;
  guint n = 0;

  g_assert_cmpstr (view->unpriced, ==, what);
  for (guint i = 0; i < view->lines->len; i++)
    n += strstr (g_ptr_array_index (view->lines, i), "no price yet") != NULL;
  g_assert_cmpuint (n, ==, what != NULL);
  g_assert_true (what == NULL || g_ptr_array_find_with_equal_func (view->lines, line, g_str_equal, NULL));
  n = 0;
  for (guint i = 0; i < repair->parts->len; i++)
    n += ((const HsFittedPart *) g_ptr_array_index (repair->parts, i))->unpriced;
  g_assert_cmpuint (n, ==, what != NULL);
}

/* Nobody said what it cost: the bill says so, squaring up names it, and its cost brings its price. */
static void
test_typed (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autofree char *id = bay_fit (&bay, &(HsInstallEntry) { .what = "heater relay", .why = "due" });
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_settings_set (bay.book, "tax_percent", "8", NOW, NULL));
  finish (&bay, NULL);
  check_unpriced (&bay, "heater relay");
  refuse_square (&bay, "“heater relay” on the bill of A-0001 has no price yet. Write down what it cost, 0 where "
                       "nothing is charged for it.");
  g_assert_true (hs_part_set (bay.book, id, "cost", "50.00", LATER, &error));
  check_unpriced (&bay, NULL);
  hs_ops_test_one (bay.test, "line WHERE what = 'heater relay' AND cost_cents = 5000 AND price_cents = 8400"
                             " AND tax_cents = 672");
  hs_job_square (bay.book, bay.job, LATER, &error);
  g_assert_no_error (error);
  hs_ops_test_one (bay.test, "invoice WHERE net_cents = 14400 AND tax_cents = 672");
}

/* The owner of the vehicle brought it: 0 is an answer, stands in words on the bill and survives another pricing. */
static void
test_not_charged (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autofree char *id = bay_fit (&bay, &(HsInstallEntry) { .what = "heater relay", .why = "due" });
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_part_set (bay.book, id, "cost", "0", NOW, &error));
  g_assert_no_error (error);
  finish (&bay, NULL);
  check_unpriced (&bay, NULL);
  hs_ops_test_one (bay.test, "line WHERE what = 'heater relay: not charged' AND price_cents = 0 AND tax_cents = 0");
  /* Charged after all, and then not known. */
  g_assert_true (hs_part_set (bay.book, id, "cost", "10", NOW, &error));
  hs_ops_test_one (bay.test, "line WHERE what = 'heater relay' AND kind = 'part' AND price_cents = 2000");
  g_assert_true (hs_part_set (bay.book, id, "cost", " ", NOW, &error));
  check_unpriced (&bay, "heater relay");
  g_assert_true (hs_part_set (bay.book, id, "cost", "0", NOW, &error));
  g_assert_true (hs_job_square (bay.book, bay.job, LATER, &error));
  hs_ops_test_one (bay.test, "invoice WHERE net_cents = 6000 AND frozen LIKE '%heater relay: not charged%'");
}

/* A part of the catalog costs what was quoted for the job, else what the cheapest counter asked last. */
static void
test_known (void)
{
  static const struct
  {
    const char *prices;
    gint64 quoted_cents; /* 0: not */
    gint64 said_cents;
    gboolean swap;
    gint64 cost_cents;
    gint64 price_cents;
  } rows[] = {
    { "supplier,part,cost\nKingpost Parts Counter,BW-55,62.00\nLarch & Weir,BW-55,50.00\n", 0, 0, FALSE, 5000, 8400 },
    { "supplier,part,cost\nKingpost Parts Counter,BW-55,50.00\n", 6200, 0, FALSE, 6200, 10080 },
    { "supplier,part,cost\nKingpost Parts Counter,BW-55,50.00\n", 6200, 1000, FALSE, 1000, 2000 },
    { "supplier,part,cost\nKingpost Parts Counter,BW-55,50.00\n", 0, 0, TRUE, 0, 0 },
    { NULL, 0, 0, FALSE, 0, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      const HsInstallEntry old = { .what = "battery", .battery_kind = "flooded", .why = "due", .cost_cents = 100 };
      const HsInstallEntry entry = { .part_number = "BW-55", .why = "due", .cost_cents = rows[i].said_cents,
                                     .warranty_swap = rows[i].swap };
      g_autofree char *before = rows[i].swap ? bay_fit (&bay, &old) : NULL;
      g_autofree char *quote = g_strdup_printf ("UPDATE need SET quoted_cents = %d", (int) rows[i].quoted_cents);
      g_autofree char *line = g_strdup_printf ("line WHERE what = 'battery 55 Ah flooded' AND cost_cents = %d AND "
                                               "price_cents = %d", (int) rows[i].cost_cents,
                                               (int) rows[i].price_cents);
      g_autofree char *id = NULL;

      if (rows[i].prices != NULL)
        hs_ops_test_import_ok (bay.test, "prices", rows[i].prices, i == 0 ? 2 : 1, 0, 0);
      if (rows[i].quoted_cents > 0)
        hs_ops_test_run (bay.test, quote);
      id = bay_fit (&bay, &entry);
      hs_ops_test_one (bay.test, line);
      check_unpriced (&bay, rows[i].cost_cents == 0 && !rows[i].swap ? "battery 55 Ah flooded" : NULL);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *text;
    const char *said;
  } rows[] = {
    { "much", "What “relay” cost: amount in USD: “much” is not a number" },
    { "-1", "What “relay” cost is not less than nothing" },
    { "1.234", "What “relay” cost: " },
    { "99999999999999999999", "What “relay” cost: " },
  };
  g_auto (Bay) bay = bay_start ();
  g_autofree char *id = bay_fit (&bay, &(HsInstallEntry) { .what = "relay", .cost_cents = 500 });
  gint64 seen = hs_ops_test_count (bay.test, "change_log");
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_false (hs_part_set (bay.book, id, "cost", rows[i].text, NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  hs_ops_test_run (bay.test, "DELETE FROM line");
  g_assert_false (hs_part_set (bay.book, id, "cost", "5", NOW, &error));
  hs_ops_test_refused (&error, "“relay” has no line on the bill");
  g_assert_cmpint (hs_ops_test_count (bay.test, "change_log"), ==, seen);
}

/* All is on the house: its price is added, and taken off with the rest. */
static void
test_given (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autofree char *id = bay_fit (&bay, &(HsInstallEntry) { .what = "relay", .why = "due" });
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_settings_set (bay.book, "tax_percent", "8", NOW, NULL));
  finish (&bay, "our own work");
  check_unpriced (&bay, NULL);
  g_assert_true (hs_part_set (bay.book, id, "cost", "50", LATER, &error));
  hs_ops_test_one (bay.test, "line WHERE kind = 'goodwill' AND price_cents = -14400 AND tax_cents = -672");
  hs_job_square (bay.book, bay.job, LATER, &error);
  g_assert_no_error (error);
  hs_ops_test_one (bay.test, "invoice WHERE net_cents = 0 AND tax_cents = 0");
}

/* What the customer said yes to keeps its price, whatever it turns out to cost. */
static void
test_agreed (void)
{
  const HsChoiceLineEntry line = { .what = "relay", .cost_cents = 1000, .price_cents = HS_INT_NONE };
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_auto (Bay) bay = bay_start ();
  g_autoptr (GError) error = NULL;
  g_autofree char *choice
      = hs_choice_add (bay.book, bay.job, &(HsChoiceEntry) { .wording = "New relay" }, &line, 1, NOW, &error);
  g_autofree char *id = NULL;

  answer.choice = "yes";
  answer.by = "Teo";
  answer.means = "phone";
  g_assert_true (hs_choice_decide (bay.book, choice, &answer, NOW, &error));
  id = bay_fit (&bay, &(HsInstallEntry) { .what = "Relay", .why = "due" });
  g_assert_cmpint (hs_ops_test_count (bay.test, "line"), ==, 1);
  g_assert_true (hs_part_set (bay.book, id, "cost", "50", NOW, &error));
  hs_ops_test_one (bay.test, "line WHERE what = 'relay' AND cost_cents = 5000 AND price_cents = 2000");
  check_unpriced (&bay, NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bill-part/typed", test_typed);
  g_test_add_func ("/bill-part/not-charged", test_not_charged);
  g_test_add_func ("/bill-part/known", test_known);
  g_test_add_func ("/bill-part/refused", test_refused);
  g_test_add_func ("/bill-part/given", test_given);
  g_test_add_func ("/bill-part/agreed", test_agreed);
  return g_test_run ();
}
