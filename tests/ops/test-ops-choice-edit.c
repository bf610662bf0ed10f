// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Options of a choice: their lines at the book's rates, their words, and what is refused of both. The sums are worked
 * out by hand in the comments of ops-choice.h. */

#include "hs-job-life.h"
#include "hs-undo.h"
#include "ops-choice.h"

static const HsChoice *
find (const HsJobChoices *choices, const char *wording)
{
  for (guint i = 0; i < choices->choices->len; i++)
    if (g_str_equal (((const HsChoice *) g_ptr_array_index (choices->choices, i))->wording, wording))
      return g_ptr_array_index (choices->choices, i);
  g_assert_not_reached ();
}

/* What was told on A-0013, in its order, with the difference and what coming back would cost. */
static void
test_prices (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *cure = ops_choice_add_cure (&job);
  g_autoptr (HsJobChoices) choices = ops_choice_load (&job);
  const HsChoice *first = hs_job_choices_find (choices, 1);
  const HsChoice *second = hs_job_choices_find (choices, 2);

  g_assert_cmpuint (choices->choices->len, ==, 2);
  g_assert_cmpstr (first->id, ==, cure);
  g_assert_cmpstr (first->rank, ==, "best");
  g_assert_cmpint (first->price_cents, ==, 52094);
  g_assert_cmpint (first->less_cents, ==, 0);
  g_assert_cmpint (first->in_all_cents, ==, 0);
  g_assert_cmpstr (second->id, ==, belt);
  g_assert_cmpstr (second->rank, ==, "enough");
  g_assert_cmpint (second->price_cents, ==, 15379);
  g_assert_cmpint (second->less_cents, ==, 36715);
  g_assert_cmpint (second->in_all_cents, ==, 67473);
  g_assert_cmpuint (second->lines->len, ==, 3);
  g_assert_null (hs_job_choices_find (choices, 0));
  g_assert_null (hs_job_choices_find (choices, 3));
}

/* One line alone, at 8 % on parts; what is HS_INT_NONE comes of the book. */
static void
test_line_prices (void)
{
  static const struct
  {
    HsChoiceLineEntry line;
    const char *kind;
    const char *what;
    gint64 cost_cents;
    gint64 price_cents;
    gint64 tax_cents;
  } rows[] = {
    /* 50.00 → 84.00, 51.00 → 85.40, 118.00 → 179.20. */
    { { .what = "hose", .cost_cents = 5000, .price_cents = HS_INT_NONE }, "part", "hose", 5000, 8400, 672 },
    { { .what = "hose", .cost_cents = 5100, .price_cents = HS_INT_NONE }, "part", "hose", 5100, 8540, 683 },
    { { .what = "starter", .cost_cents = 11800, .price_cents = HS_INT_NONE }, "part", "starter", 11800, 17920, 1434 },
    /* By the piece: four plugs of 15.50 sell for 28.80 each, not as one part of 62.00. */
    { { .what = "plug", .quantity_milli = 4000, .cost_cents = 1550, .price_cents = HS_INT_NONE }, "part", "plug", 6200,
      11520, 922 },
    { { .what = "hose", .quantity_milli = 500, .cost_cents = 1000, .price_cents = HS_INT_NONE }, "part", "hose", 500,
      1000, 80 },
    /* The counter's price: 62.00 → 20.00 + 64.00 + 16.80. */
    { { .part_number = "BW-55", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "part",
      "battery 55 Ah flooded", 6200, 10080, 806 },
    { { .kind = "part", .what = "BW-55", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "part",
      "battery 55 Ah flooded", 6200, 10080, 806 },
    { { .part_number = "BW-55", .what = "battery", .cost_cents = 6500, .price_cents = 9900 }, "part", "battery", 6500,
      9900, 792 },
    { { .what = "own price", .kind = "part", .cost_cents = HS_INT_NONE, .price_cents = 1250 }, "part", "own price", 0,
      1250, 100 },
    { { .minutes = 15, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "labor", "labor", 0, 2400, 0 },
    { { .minutes = 16, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "labor", "labor", 0, 4800, 0 },
    { { .kind = "labor", .what = "fixed", .cost_cents = HS_INT_NONE, .price_cents = 9900 }, "labor", "fixed", 0, 9900,
      0 },
    { { .kind = "call out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "call_out", "call-out", 0, 6000,
      0 },
    { { .kind = "core_deposit", .cost_cents = HS_INT_NONE, .price_cents = 1800 }, "core_deposit", "core deposit", 0,
      1800, 0 },
    { { .kind = "discount", .cost_cents = HS_INT_NONE, .price_cents = 1000 }, "discount", "discount", 0, -1000, 0 },
    { { .kind = "sundry", .what = "disposal", .cost_cents = HS_INT_NONE, .price_cents = 350 }, "sundry", "disposal", 0,
      350, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsChoice) job = ops_choice_start ();
      g_autoptr (GError) error = NULL;
      g_autofree char *id = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "It" }, &rows[i].line, 1,
                                           OPS_CHOICE_NOW, &error);
      g_autoptr (HsJobChoices) choices = NULL;
      const HsChoiceLine *line;

      g_assert_no_error (error);
      choices = ops_choice_load (&job);
      line = g_ptr_array_index (hs_job_choices_find (choices, 1)->lines, 0);
      g_assert_cmpstr (line->kind, ==, rows[i].kind);
      g_assert_cmpstr (line->what, ==, rows[i].what);
      g_assert_cmpint (line->cost_cents, ==, rows[i].cost_cents);
      g_assert_cmpint (line->price_cents, ==, rows[i].price_cents);
      g_assert_cmpint (line->tax_cents, ==, rows[i].tax_cents);
      g_assert_cmpint (line->minutes, ==, rows[i].line.minutes);
      g_assert_cmpint (line->part_number != NULL, ==,
                       rows[i].line.part_number != NULL || g_strcmp0 (rows[i].line.what, "BW-55") == 0);
      g_assert_cmpint (hs_job_choices_find (choices, 1)->price_cents, ==, rows[i].price_cents + rows[i].tax_cents);
    }
}

/* 40 and 40 minutes are six started quarters, not three and three; a call-out covers the first thirty of them. The tax
 * of 0.31 and 0.32 is 0.05, not 0.02 + 0.03. */
static void
test_rounded_once (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  HsChoiceLineEntry line = HS_CHOICE_LINE_NONE;
  g_autofree char *id
      = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "It" }, NULL, 0, OPS_CHOICE_NOW, NULL);
  g_autofree char *call_out = NULL;
  static const gint64 sums[] = { 7200, 14400, 6000 + 9600, 6000 + 9600 + 31 + 2, 6000 + 9600 + 63 + 5 };
  guint step = 0;

  for (guint i = 0; i < 5; i++)
    {
      g_autofree char *line_id = NULL;
      g_autoptr (HsJobChoices) choices = NULL;
      g_autoptr (GError) error = NULL;

      line = HS_CHOICE_LINE_NONE;
      line.minutes = i < 2 ? 40 : 0;
      line.kind = i == 2 ? "call_out" : i > 2 ? "part" : NULL;
      line.what = i > 2 ? "clip" : NULL;
      line.price_cents = i == 3 ? 31 : i == 4 ? 32 : HS_INT_NONE;
      line_id = hs_choice_line_add (job.book, id, &line, OPS_CHOICE_NOW, &error);
      g_assert_no_error (error);
      choices = ops_choice_load (&job);
      g_assert_cmpint (hs_job_choices_find (choices, 1)->price_cents, ==, sums[step++]);
    }
}

/* Nothing of a refused option or line is written, and the sentence says what to do. */
static void
test_line_refused (void)
{
  static const struct
  {
    HsChoiceLineEntry line;
    const char *said;
  } rows[] = {
    { { .kind = "bribe", .cost_cents = HS_INT_NONE, .price_cents = 100 }, "bribe" },
    { { .kind = "part", .what = "hose", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
      "What does “hose” cost? Write its cost" },
    { { .part_number = "GP-20D", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "“glow plug” cost?" },
    { { .part_number = "XX-1", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "no part XX-1" },
    { { .kind = "part", .cost_cents = 100, .price_cents = HS_INT_NONE }, "Which part is it?" },
    { { .what = "hose", .cost_cents = -1, .price_cents = HS_INT_NONE }, "less than nothing" },
    { { .what = "hose", .cost_cents = 100, .price_cents = -1 }, "write a discount" },
    { { .what = "hose", .cost_cents = 100, .quantity_milli = -1, .price_cents = HS_INT_NONE }, "More than none" },
    { { .kind = "labor", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "How many minutes" },
    { { .minutes = -5, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "How many minutes" },
    { { .minutes = 10081, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "1 to 10080" },
    { { .minutes = 20, .cost_cents = HS_INT_NONE, .price_cents = 500 }, "write one of them" },
    { { .kind = "sundry", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }, "What is the price of “sundry”?" },
    { { .kind = "sundry", .cost_cents = HS_INT_NONE, .price_cents = -1 }, "write a discount" },
    { { .what = "gold", .cost_cents = G_MAXINT64 / 2, .price_cents = HS_INT_NONE, .quantity_milli = 9000 }, "" },
  };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *id
      = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "It" }, NULL, 0, OPS_CHOICE_NOW, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_choice_line_add (job.book, id, &rows[i].line, OPS_CHOICE_NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
      g_assert_null (hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Other" }, &rows[i].line, 1,
                                    OPS_CHOICE_NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  g_assert_cmpint (hs_ops_test_count (job.test, "advice"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (job.test, "advice_line"), ==, 0);
}

static void
test_option_refused (void)
{
  static const struct
  {
    HsChoiceEntry entry;
    const char *said;
  } rows[] = {
    { { .wording = " " }, "needs words" },
    { { 0 }, "needs words" },
    { { .wording = "It", .rank = "top" }, "best" },
    { { .wording = "It", .rank = "0" }, "1 to 99" },
    { { .wording = "It", .rank = "100" }, "1 to 99" },
    { { .wording = "It", .rank = "1x" }, "1x" },
    { { .wording = "It", .finding_id = "nothing" }, "" },
  };
  g_auto (OpsChoice) job = ops_choice_start ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_choice_add (job.book, job.job, &rows[i].entry, NULL, 0, OPS_CHOICE_NOW, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  g_assert_cmpint (hs_ops_test_count (job.test, "advice"), ==, 0);
}

/* What is not named stays, an empty text takes away, and a step takes it all back. */
static void
test_change (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (GError) error = NULL;

  hs_choice_change (job.book, belt, &(HsChoiceEntry) { .risk = " Wet again in weeks ", .rank = "3" }, OPS_CHOICE_NOW,
                    &error);
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt only' AND option_group = 'cure' AND rank = 3"
                             " AND risk_told = 'Wet again in weeks' AND price_cents = 15379");
  hs_choice_change (job.book, belt, &(HsChoiceEntry) { .risk = "", .rank = "", .wording = "Belt" }, OPS_CHOICE_NOW,
                    &error);
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt' AND rank IS NULL AND risk_told IS NULL");
  g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, OPS_CHOICE_NOW, NULL, &error));
  hs_ops_test_one (job.test, "advice WHERE wording = 'Belt only' AND rank = 3");
  g_assert_false (hs_choice_change (job.book, belt, &(HsChoiceEntry) { .wording = "" }, OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, "needs words");
}

static void
test_remove (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *cure = ops_choice_add_cure (&job);
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (HsJobChoices) choices = ops_choice_load (&job);
  const HsChoiceLine *coolant = g_ptr_array_index (find (choices, "Water pump, belt and coolant")->lines, 4);
  g_autoptr (GError) error = NULL;

  /* Without the coolant: 276.00 + 179.60, tax 14.368. */
  hs_choice_line_remove (job.book, coolant->id, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  hs_ops_test_one (job.test, "advice WHERE price_cents = 27600 + 17960 + 1437");
  hs_choice_remove (job.book, cure, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (job.test, "advice"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (job.test, "advice_line"), ==, 3);
  for (guint i = 0; i < 2; i++)
    g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, OPS_CHOICE_NOW, NULL, &error));
  hs_ops_test_one (job.test, "advice WHERE price_cents = 52094");
  g_assert_cmpint (hs_ops_test_count (job.test, "advice_line"), ==, 8);
}

/* What was answered is not changed under the customer's hand. */
static void
test_answered_stays (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  HsChoiceLineEntry line = HS_CHOICE_LINE_NONE;
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autoptr (HsJobChoices) choices = ops_choice_load (&job);
  const char *line_id = ((HsChoiceLine *) g_ptr_array_index (find (choices, "Belt only")->lines, 0))->id;
  g_autoptr (GError) error = NULL;

  line.minutes = 15;
  ops_choice_answer (&job, belt, "yes", NULL);
  g_assert_false (hs_choice_change (job.book, belt, &(HsChoiceEntry) { .wording = "X" }, OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, "“Belt only” was answered with yes. Take the answer back first");
  g_assert_false (hs_choice_remove (job.book, belt, OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, "Take the answer back first");
  g_assert_null (hs_choice_line_add (job.book, belt, &line, OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, "Take the answer back first");
  g_assert_false (hs_choice_line_remove (job.book, line_id, OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, "Take the answer back first");
  ops_choice_answer (&job, belt, "open", NULL);
  g_assert_true (hs_choice_line_remove (job.book, line_id, OPS_CHOICE_NOW, &error));
  /* Without a call-out 60 min are four quarters. */
  hs_ops_test_one (job.test, "advice WHERE price_cents = 9600 + 4240 + 339");
}

/* The same question: the new one goes into the group of the other, which has the other's words if it had none. A step
 * takes both back. */
static void
test_beside (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *lamp = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Lamp" }, NULL, 0,
                                         OPS_CHOICE_NOW, NULL);
  g_autofree char *kit = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Kit", .beside = belt }, NULL,
                                        0, OPS_CHOICE_NOW, NULL);
  g_autofree char *bulb = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Bulb", .beside = lamp },
                                         NULL, 0, OPS_CHOICE_NOW, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (kit);
  g_assert_nonnull (bulb);
  hs_ops_test_one (job.test, "advice WHERE wording = 'Kit' AND option_group = 'cure'");
  g_assert_cmpint (hs_ops_test_count (job.test, "advice WHERE option_group = 'Lamp'"), ==, 2);
  g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, OPS_CHOICE_NOW, NULL, NULL));
  hs_ops_test_one (job.test, "advice WHERE wording = 'Lamp' AND option_group IS NULL");
  /* What was answered stays; in a group it can still be stood beside. */
  ops_choice_answer (&job, lamp, "yes", NULL);
  ops_choice_answer (&job, belt, "yes", "wet again");
  g_assert_null (hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Bulb", .beside = lamp }, NULL, 0,
                                OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, "“Lamp” was answered with yes. Take the answer back first");
  g_assert_cmpint (hs_ops_test_count (job.test, "advice WHERE wording = 'Bulb'"), ==, 0);
  g_free (bulb);
  bulb = hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Tape", .beside = belt }, NULL, 0,
                        OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  g_assert_null (hs_choice_add (job.book, job.job, &(HsChoiceEntry) { .wording = "Bulb", .beside = "nothing" }, NULL, 0,
                                OPS_CHOICE_NOW, &error));
  g_assert_nonnull (error);
}

/* A line that was sent twice is there once; the second time is no step, and no other option's. */
static void
test_line_once (void)
{
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  HsChoiceLineEntry line = { .id = "b5e0", .kind = "sundry", .what = "grease", .cost_cents = HS_INT_NONE,
                             .price_cents = 300 };
  g_autofree char *first = hs_choice_line_add (job.book, belt, &line, OPS_CHOICE_NOW, NULL);
  g_autofree char *again = hs_choice_line_add (job.book, belt, &line, OPS_CHOICE_NOW, NULL);

  g_assert_cmpstr (first, ==, "b5e0");
  g_assert_cmpstr (again, ==, "b5e0");
  hs_ops_test_one (job.test, "advice_line WHERE what = 'grease'");
  hs_ops_test_one (job.test, "advice WHERE price_cents = 15379 + 300");
  g_assert_true (hs_undo_last (hs_book_get_store (job.book), job.job, OPS_CHOICE_NOW, NULL, NULL));
  g_assert_cmpint (hs_ops_test_count (job.test, "advice_line WHERE what = 'grease'"), ==, 0);
}

/* Sent again with something else in it, nothing of it is taken silently for what is there. */
static void
test_line_other (void)
{
  const HsChoiceLineEntry sent[] = {
    { .id = "b5e0", .kind = "sundry", .what = "grease", .cost_cents = HS_INT_NONE, .price_cents = 300 },
    { .id = "b5e1", .kind = "part", .what = "hose", .cost_cents = 1000, .price_cents = HS_INT_NONE },
    { .id = "b5e2", .kind = "labor", .what = "fit", .minutes = 40, .cost_cents = HS_INT_NONE,
      .price_cents = HS_INT_NONE },
  };
  const HsChoiceLineEntry others[] = {
    { .id = "b5e0", .kind = "sundry", .what = "grease", .cost_cents = HS_INT_NONE, .price_cents = 450 },
    { .id = "b5e0", .kind = "sundry", .what = "oil", .cost_cents = HS_INT_NONE, .price_cents = 300 },
    { .id = "b5e0", .kind = "labor", .what = "grease", .cost_cents = HS_INT_NONE, .price_cents = 300 },
    { .id = "b5e1", .kind = "part", .what = "hose", .cost_cents = 1200, .price_cents = HS_INT_NONE },
    { .id = "b5e1", .kind = "part", .what = "hose", .cost_cents = 500, .quantity_milli = 2000,
      .price_cents = HS_INT_NONE },
    { .id = "b5e1", .part_number = "BW-55", .what = "hose", .cost_cents = 1000, .price_cents = HS_INT_NONE },
    { .id = "b5e2", .kind = "labor", .what = "fit", .minutes = 45, .cost_cents = HS_INT_NONE,
      .price_cents = HS_INT_NONE },
  };
  g_auto (OpsChoice) job = ops_choice_start ();
  g_autofree char *belt = ops_choice_add_belt (&job);
  g_autofree char *arrived = NULL;

  for (guint again = 0; again < 2; again++)
    for (guint i = 0; i < G_N_ELEMENTS (sent); i++)
      {
        g_autofree char *id = hs_choice_line_add (job.book, belt, &sent[i], OPS_CHOICE_NOW, NULL);

        g_assert_cmpstr (id, ==, sent[i].id);
      }
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *id = hs_choice_line_add (job.book, belt, &others[i], OPS_CHOICE_NOW, &error);

      g_assert_null (id);
      hs_ops_test_refused (&error, "of “Belt only” was written down otherwise before. Open the option again, look at "
                                   "the line, and write it anew if it is wrong.");
    }
  g_assert_cmpint (hs_ops_test_count (job.test, "advice_line"), ==, 6);
  hs_ops_test_one (job.test, "advice_line WHERE what = 'grease' AND price_cents = 300");
  /* An answer that came between is no reason to refuse what has arrived. */
  ops_choice_answer (&job, belt, "yes", NULL);
  arrived = hs_choice_line_add (job.book, belt, &sent[0], OPS_CHOICE_NOW, NULL);
  g_assert_cmpstr (arrived, ==, "b5e0");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/choice-edit/prices", test_prices);
  g_test_add_func ("/choice-edit/line-prices", test_line_prices);
  g_test_add_func ("/choice-edit/rounded-once", test_rounded_once);
  g_test_add_func ("/choice-edit/line-refused", test_line_refused);
  g_test_add_func ("/choice-edit/option-refused", test_option_refused);
  g_test_add_func ("/choice-edit/change", test_change);
  g_test_add_func ("/choice-edit/remove", test_remove);
  g_test_add_func ("/choice-edit/answered-stays", test_answered_stays);
  g_test_add_func ("/choice-edit/beside", test_beside);
  g_test_add_func ("/choice-edit/line-once", test_line_once);
  g_test_add_func ("/choice-edit/line-other", test_line_other);
  return g_test_run ();
}
