// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Closing a job: the ceiling, the proof, choices without an answer, the day by which it is due, and being paid. */

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <string.h>

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *id;
} Bill;

/* At the vehicle of Nadira Quell, who pays within 14 days. */
static Bill
bill_start (void)
{
  Bill bill = { .test = hs_ops_test_open () };

  bill.book = bill.test->book;
  hs_ops_test_fill (bill.test);
  g_assert_true (hs_settings_set (bill.book, "tax_percent", "8", HS_OPS_TEST_NOW, NULL));
  hs_ops_test_import_ok (bill.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0117,flat,TDM 7717,2026-03-10\n", 1, 0, 0);
  bill.id = hs_job_find (bill.book, "A-0001", NULL);
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_ROLLING, NULL, HS_OPS_TEST_NOW - 600, NULL));
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_ON_SITE, NULL, HS_OPS_TEST_NOW, NULL));
  return bill;
}

static void
bill_clear (Bill *bill)
{
  hs_ops_test_close (bill->test);
  g_free (bill->id);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bill, bill_clear)

static HsInstant
at (int minutes)
{
  return HS_OPS_TEST_NOW + 60 * minutes;
}

/* A battery of 74.00 on 35 min: 84.00 + 117.60 + 9.41 = 211.01. */
static void
battery (Bill *bill)
{
  HsInstallEntry entry = { .what = "battery 60 Ah", .cost_cents = 7400, .why = "due", .maker = "Brackwater" };
  g_autofree char *id = hs_part_install (bill->book, bill->id, &entry, at (10), NULL);

  g_assert_nonnull (id);
  g_assert_true (hs_job_price (bill->book, bill->id, NULL, at (35), NULL));
}

static void
prove (Bill *bill)
{
  HsReadingEntry entry = { .check = "battery_rest", .text = "12.68", .phase = "after", .at = at (34) };
  g_autoptr (HsReadingResult) result = hs_reading_add (bill->book, bill->id, &entry, at (34), NULL);

  g_assert_nonnull (result);
  g_assert_true (hs_job_move_stage (bill->book, bill->id, HS_STAGE_PROVEN, NULL, at (35), NULL));
}

static void
say_yes (Bill *bill, gint64 cents, int minutes)
{
  g_autoptr (GError) error = NULL;

  hs_go_ahead_add (bill->book, bill->id, cents, "Nadira", "phone", at (minutes), &error);
  g_assert_no_error (error);
}

static void
refuse (Bill *bill, const char *said)
{
  gint64 seen = hs_ops_test_count (bill->test, "change_log");
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_job_square (bill->book, bill->id, at (35), &error));
  hs_ops_test_refused (&error, said);
  g_assert_cmpint (hs_ops_test_count (bill->test, "change_log"), ==, seen);
  hs_ops_test_one (bill->test, "job WHERE stage <> 'squared'");
}

static void
accept (Bill *bill)
{
  g_autoptr (GError) error = NULL;

  hs_job_square (bill->book, bill->id, at (35), &error);
  g_assert_no_error (error);
  hs_ops_test_one (bill->test, "job WHERE stage = 'squared'");
}

/* A yes up to 200.00 and charges of 211.01: short by 11.01; a yes up to 220.00 lets it go, and both stay. */
static void
test_ceiling (void)
{
  g_auto (Bill) bill = bill_start ();

  battery (&bill);
  prove (&bill);
  say_yes (&bill, 20000, 5);
  refuse (&bill, "11.01");
  say_yes (&bill, 22000, 30);
  accept (&bill);
  hs_ops_test_one (bill.test, "invoice WHERE total_cents = 21101 AND net_cents = 20160 AND tax_cents = 941");
  hs_ops_test_one (bill.test, "go_ahead WHERE ceiling_cents = 20000");
  hs_ops_test_one (bill.test, "go_ahead WHERE ceiling_cents = 22000");
  g_assert_cmpint (hs_ops_test_count (bill.test, "go_ahead"), ==, 2);
}

/* A fuse of 8.00 after the pricing: the tax of 125.60 is 10.05, on the invoice as on the bill before. */
static void
test_part_afterwards (void)
{
  const HsInstallEntry fuse = { .what = "fuse", .cost_cents = 400, .why = "due" };
  g_auto (Bill) bill = bill_start ();
  g_autofree char *id = NULL;

  battery (&bill);
  id = hs_part_install (bill.book, bill.id, &fuse, at (34), NULL);
  g_assert_nonnull (id);
  prove (&bill);
  say_yes (&bill, 21964, 5);
  refuse (&bill, "0.01");
  say_yes (&bill, 21965, 30);
  accept (&bill);
  hs_ops_test_one (bill.test, "invoice WHERE total_cents = 21965 AND net_cents = 20960 AND tax_cents = 1005");
  hs_ops_test_one (bill.test, "line WHERE what = 'fuse' AND price_cents = 800 AND tax_cents = 64");
  hs_ops_test_one (bill.test, "job WHERE owed_cents = 21965");
}

/* To the cent, and a later lower yes counts. */
static void
test_ceiling_edges (void)
{
  static const struct
  {
    gint64 first;
    gint64 second;
    const char *said; /* NULL: accepted */
  } rows[] = {
    { 21101, -1, NULL },      { 21100, -1, "0.01" },   { 22000, 20000, "11.01" },
    { 0, 21101, NULL },       { 22000, 21101, NULL },  { 21101, 0, "211.01" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bill) bill = bill_start ();

      battery (&bill);
      prove (&bill);
      say_yes (&bill, rows[i].first, 5);
      if (rows[i].second >= 0)
        say_yes (&bill, rows[i].second, 6);
      if (rows[i].said == NULL)
        accept (&bill);
      else
        refuse (&bill, rows[i].said);
    }
}

/* Without a reading afterwards it is not tested good; with a reason it is, and the invoice says so. */
static void
test_unproved (void)
{
  g_auto (Bill) bill = bill_start ();
  g_autoptr (GError) error = NULL;
  g_autofree char *frozen = NULL;

  battery (&bill);
  say_yes (&bill, 22000, 5);
  refuse (&bill, "");
  g_assert_false (hs_job_move_stage (bill.book, bill.id, HS_STAGE_PROVEN, NULL, at (35), &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_false (hs_job_move_stage (bill.book, bill.id, HS_STAGE_PROVEN, "  ", at (35), &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_true (hs_job_move_stage (bill.book, bill.id, HS_STAGE_PROVEN, "customer drove off", at (35), &error));
  accept (&bill);
  frozen = hs_ops_test_id (bill.test, "SELECT frozen FROM invoice");
  g_assert_nonnull (strstr (frozen, "\"not_proven_because\":\"customer drove off\""));
}

/* A reading before or during the work proves nothing. */
static void
test_wrong_phase (void)
{
  static const char *const phases[] = { "before", "during" };
  g_auto (Bill) bill = bill_start ();

  for (gsize i = 0; i < G_N_ELEMENTS (phases); i++)
    {
      HsReadingEntry entry = { .check = "battery_rest", .text = "12.68", .phase = phases[i], .at = at (20) };
      g_autoptr (HsReadingResult) result = hs_reading_add (bill.book, bill.id, &entry, at (20), NULL);

      g_assert_nonnull (result);
      g_assert_false (hs_job_move_stage (bill.book, bill.id, HS_STAGE_PROVEN, NULL, at (35), NULL));
    }
  prove (&bill);
  hs_ops_test_one (bill.test, "job WHERE stage = 'proven' AND unproved_why IS NULL");
}

/* Every recommendation wants an answer: yes, no or later will do. */
static void
test_choices (void)
{
  static const struct
  {
    const char *choice;
    gboolean accepted;
  } rows[] = { { "yes", TRUE }, { "no", TRUE }, { "later", TRUE }, { "open", FALSE } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bill) bill = bill_start ();
      HsAdviceEntry advice = { .wording = "New clamps",
                               .choice = rows[i].choice,
                               .price_cents = 4000,
                               .risk = "May come loose",
                               .by = "Nadira",
                               .means = "in_person",
                               .at = at (20),
                               .chase_on = HS_DATE_NONE };
      g_autofree char *id = hs_advice_add (bill.book, bill.id, &advice, at (20), NULL);
      g_autofree char *frozen = NULL;

      g_assert_nonnull (id);
      battery (&bill);
      prove (&bill);
      say_yes (&bill, 22000, 5);
      if (!rows[i].accepted)
        {
          refuse (&bill, "");
          continue;
        }
      accept (&bill);
      frozen = hs_ops_test_id (bill.test, "SELECT frozen FROM invoice");
      g_assert_nonnull (strstr (frozen, "\"wording\":\"New clamps\",\"price\":\"40.00\""));
      g_assert_nonnull (strstr (frozen, "\"risk\":\"May come loose\""));
    }
}

/* Due after the customer's days, by the calendar of the wall. */
static void
test_due (void)
{
  static const struct
  {
    const char *terms;
    const char *squared_at;
    const char *issued_on;
    const char *due_on;
  } rows[] = {
    { "0", "2026-03-10T12:00", "2026-03-10", "2026-03-10" },
    { "14", "2026-03-10T12:00", "2026-03-10", "2026-03-24" },
    { "30", "2026-03-10T23:59", "2026-03-10", "2026-04-09" },
    { "1", "2026-03-31T23:30", "2026-03-31", "2026-04-01" },
    { "365", "2027-03-10T00:30", "2027-03-10", "2028-03-09" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bill) bill = bill_start ();
      g_autofree char *terms = g_strdup_printf ("name,phone,terms_days\nNadira Quell,555-0117,%s\n", rows[i].terms);
      g_autofree char *found = g_strdup_printf ("invoice WHERE issued_on = '%s' AND due_on = '%s' "
                                                "AND number = 'A-0001'",
                                                rows[i].issued_on, rows[i].due_on);

      g_assert_true (hs_ops_test_import (bill.test, "customers", terms, NULL, NULL));
      battery (&bill);
      prove (&bill);
      say_yes (&bill, 22000, 5);
      g_assert_true (hs_job_square (bill.book, bill.id, hs_ops_test_at (rows[i].squared_at), NULL));
      hs_ops_test_one (bill.test, found);
    }
}

/* 2.7 % and 0.10 of a card payment are kept; of any other way nothing. */
static void
test_ways_to_pay (void)
{
  static const struct
  {
    const char *how;
    const char *id;
    gint64 cents;
    gint64 fee;
  } rows[] = {
    { "card", "card", 10000, 280 },     { "card", "card", 50, 11 },  { NULL, "cash", 1000, 0 },
    { "Cash", "cash", 1000, 0 },        { "cheque", "check", 51, 0 }, { "bank transfer", "transfer", 1000, 0 },
    { "on account", "account", 1000, 0 }, { "card", "card", 7000, 199 },
  };
  g_auto (Bill) bill = bill_start ();
  gint64 owed = 21101;

  battery (&bill);
  prove (&bill);
  say_yes (&bill, 22000, 5);
  accept (&bill);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *paid = g_strdup_printf ("payment WHERE how = '%s' AND cents = %d AND fee_cents = %d "
                                               "AND seq = (SELECT max(seq) FROM payment)",
                                               rows[i].id, (int) rows[i].cents, (int) rows[i].fee);
      g_autofree char *left = NULL;
      g_autoptr (GError) error = NULL;

      hs_payment_add (bill.book, bill.id, rows[i].cents, rows[i].how, at (40), &error);
      g_assert_no_error (error);
      hs_ops_test_one (bill.test, paid);
      owed -= rows[i].cents;
      left = g_strdup_printf ("job WHERE owed_cents = %d", (int) owed);
      hs_ops_test_one (bill.test, left);
    }
  g_assert_cmpint (owed, ==, 0);
  g_assert_false (hs_payment_add (bill.book, bill.id, 1, "cash", at (41), NULL));
}

/* Squaring ends the visit, books the paper work and forgets what was being typed, but not where the owner is. */
static void
test_what_else (void)
{
  g_auto (Bill) bill = bill_start ();
  g_autoptr (HsWhere) where = NULL;

  g_assert_true (hs_settings_set (bill.book, "paper_minutes", "12", HS_OPS_TEST_NOW, NULL));
  g_assert_true (hs_where_save (bill.book, bill.id, "bill", "cash", "21", at (34), NULL));
  battery (&bill);
  prove (&bill);
  say_yes (&bill, 22000, 5);
  accept (&bill);
  hs_ops_test_one (bill.test, "visit WHERE paper_seconds = 720 AND left_at - arrived_at = 2100");
  where = hs_where_load (bill.book, NULL);
  g_assert_cmpstr (where->job_id, ==, bill.id);
  g_assert_cmpstr (where->page, ==, "bill");
  g_assert_cmpstr (where->text, ==, "");
}

/* The handed-over text has each kind of reading in words, and no cost. */
static void
test_frozen_readings (void)
{
  static const char *const rows[][3] = {
    { "glow_plug", "over range", "\"value\":\"over range\"" },
    { "starts_good", "4 of 5", "\"value\":\"4 of 5\"" },
    { "sleeping_draw", "0.022", "\"value\":\"0.022\"" },
  };
  g_auto (Bill) bill = bill_start ();
  HsReadingEntry none = { .check = "cranking", .keyed = "*", .why_not = "no key here", .at = at (2) };
  g_autoptr (HsReadingResult) missing = hs_reading_add (bill.book, bill.id, &none, at (2), NULL);
  g_autofree char *frozen = NULL;

  g_assert_nonnull (missing);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsReadingEntry entry = { .check = rows[i][0], .text = rows[i][1], .at = at (3) };
      g_autoptr (HsReadingResult) result = hs_reading_add (bill.book, bill.id, &entry, at (3), NULL);

      g_assert_nonnull (result);
    }
  battery (&bill);
  prove (&bill);
  say_yes (&bill, 22000, 5);
  accept (&bill);
  frozen = hs_ops_test_id (bill.test, "SELECT frozen FROM invoice");
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_nonnull (strstr (frozen, rows[i][2]));
  g_assert_nonnull (strstr (frozen, "\"value\":\"no key here\""));
  g_assert_nonnull (strstr (frozen, "\"price\":\"117.60\",\"tax\":\"9.41\""));
  g_assert_null (strstr (frozen, "74.00"));
}

/* @data: the same job in another book, held by another program. */
static gpointer
pay_elsewhere (gpointer data)
{
  const Bill *other = data;
  GError *error = NULL;

  g_assert_false (hs_payment_add (other->book, other->id, 21101, "card", at (41), &error));
  return error;
}

/* Window and command line take the same money: the later one sees that it is paid. */
static void
test_paid_twice (void)
{
  g_auto (Bill) bill = bill_start ();
  HsStore *store = hs_book_get_store (bill.book);
  Bill other = { bill.test, hs_book_open (bill.test->path, HS_BOOK_WRITE, &bill.test->user, NULL), bill.id };
  GThread *thread;
  GError *error = NULL;

  battery (&bill);
  prove (&bill);
  say_yes (&bill, 22000, 5);
  accept (&bill);
  g_assert_true (hs_store_begin (store, at (40), &error));
  g_assert_true (hs_payment_add (bill.book, bill.id, 21101, "cash", at (40), &error));
  thread = g_thread_new ("other", pay_elsewhere, &other);
  g_usleep (300 * 1000);
  g_assert_true (hs_store_commit (store, &error));
  error = g_thread_join (thread);
  hs_book_close (other.book);
  hs_ops_test_refused (&error, "A-0001 owes 0.00, not more.");
  hs_ops_test_one (bill.test, "payment WHERE how = 'cash' AND cents = 21101");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/square/ceiling", test_ceiling);
  g_test_add_func ("/square/part-afterwards", test_part_afterwards);
  g_test_add_func ("/square/ceiling-edges", test_ceiling_edges);
  g_test_add_func ("/square/unproved", test_unproved);
  g_test_add_func ("/square/wrong-phase", test_wrong_phase);
  g_test_add_func ("/square/choices", test_choices);
  g_test_add_func ("/square/due", test_due);
  g_test_add_func ("/square/ways-to-pay", test_ways_to_pay);
  g_test_add_func ("/square/paid-twice", test_paid_twice);
  g_test_add_func ("/square/what-else", test_what_else);
  g_test_add_func ("/square/frozen-readings", test_frozen_readings);
  return g_test_run ();
}
