// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Canceled, nobody there, gone on arrival: each with its fee and its reason, taken back as one step. */

#include "hs-board.h"
#include "hs-call-off.h"
#include "hs-chain-op.h"
#include "hs-choice-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-repair-op.h"
#include "hs-settings-op.h"
#include "hs-undo.h"
#include "ops-site.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW

static void
test_ways (void)
{
  static const struct
  {
    const char *how;
    gint64 fee_cents;
    const char *job;
    const char *line;
  } rows[] = {
    { "canceled", 0, "job WHERE stage = 'called_off' AND called_off_how = 'canceled' AND called_off_why = 'sold it'",
      NULL },
    { "cancelled", HS_FEE_AS_SET, "job WHERE called_off_how = 'canceled'",
      "line WHERE kind = 'call_out' AND what = 'Called off: canceled' AND price_cents = 1500 AND tax_cents = 0" },
    { "no_show", HS_FEE_AS_SET, "job WHERE called_off_how = 'no_show'",
      "line WHERE what = 'Called off: no-show' AND price_cents = 4000" },
    { "gone on arrival", HS_FEE_AS_SET, "job WHERE called_off_how = 'gone_on_arrival'",
      "line WHERE what = 'Called off: gone on arrival' AND price_cents = 6000" },
    { "gone_on_arrival", 2500, "job WHERE called_off_how = 'gone_on_arrival'", "line WHERE price_cents = 2500" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_settings_set (site.book, "canceled_fee_cents", "1500", NOW, NULL));
      g_assert_true (hs_settings_set (site.book, "no_show_fee_cents", "4000", NOW, NULL));
      g_assert_true (hs_settings_set (site.book, "gone_on_arrival_fee_cents", "6000", NOW, NULL));
      hs_job_call_off (site.book, site.job_id, rows[i].how, rows[i].fee_cents, "sold it", NOW, &error);
      g_assert_no_error (error);
      hs_ops_test_one (site.test, rows[i].job);
      if (rows[i].line != NULL)
        hs_ops_test_one (site.test, rows[i].line);
      g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, rows[i].line != NULL);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *how;
    gint64 fee_cents;
    const char *reason;
    const char *said;
  } rows[] = {
    { NULL, 0, "sold it", "canceled, no-show or gone on arrival?" },
    { "forgotten", 0, "sold it", "forgotten" },
    { "canceled", -2, "sold it", "not less than nothing" },
    { "canceled", 0, NULL, "Why was it called off?" },
    { "canceled", 0, "  ", "Why was it called off?" },
  };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_false (hs_job_call_off (site.book, site.job_id, rows[i].how, rows[i].fee_cents, rows[i].reason, NOW,
                                       &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  ops_site_arrive (&site, "2026-03-10T08:40");
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NOW + 9000, NULL));
  g_assert_false (hs_job_call_off (site.book, site.job_id, "canceled", 500, "sold it", NOW + 9100, &error));
  hs_ops_test_refused (&error, "A job cannot go from");
  hs_ops_test_one (site.test, "job WHERE stage = 'proven' AND called_off_how IS NULL");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 0);
}

/* One step; the job stands where it stood and owes nothing. */
static void
test_undo (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsUndoStep) step = NULL;

  ops_site_arrive (&site, "2026-03-10T08:40");
  g_assert_true (hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "nobody there", NOW + 9000, NULL));
  hs_ops_test_one (site.test, "visit WHERE left_at IS NOT NULL");
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW + 9100, &step, NULL));
  g_assert_cmpstr (step->what, ==, "called off: gone on arrival");
  hs_ops_test_one (site.test, "job WHERE stage = 'on_site' AND called_off_how IS NULL AND called_off_why IS NULL");
  hs_ops_test_one (site.test, "visit WHERE left_at IS NULL");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 0);
}

/* Called off another way after it was back on the road, the first fee goes. */
static void
test_again (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);

  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 1500, "no time", NOW, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW + 60, NULL));
  g_assert_true (hs_job_call_off (site.book, site.job_id, "no_show", 4000, "nobody there", NOW + 9000, NULL));
  hs_ops_test_one (site.test, "job WHERE called_off_how = 'no_show' AND called_off_why = 'nobody there'");
  hs_ops_test_one (site.test, "line WHERE price_cents = 4000");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 1);
}

/* The fee alone, without a go-ahead and without a proof; the invoice says why, and it is owed and paid. */
static void
test_squared (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_call_off (site.book, site.job_id, "no_show", 4000, "nobody there", NOW, NULL));
  g_assert_false (hs_job_price (site.book, site.job_id, NULL, NOW + 10, &error));
  hs_ops_test_refused (&error, "is called off; only its fee is charged");
  hs_job_square (site.book, site.job_id, NOW + 60, &error);
  g_assert_no_error (error);
  hs_ops_test_one (site.test, "invoice WHERE total_cents = 4000 AND tax_cents = 0"
                              " AND frozen LIKE '%called off: nobody there%'");
  hs_ops_test_one (site.test, "job WHERE stage = 'squared' AND called_off_how = 'no_show' AND owed_cents = 4000");
  g_assert_true (hs_payment_add (site.book, site.job_id, 4000, "card", NOW + 90, &error));
  hs_ops_test_one (site.test, "job WHERE owed_cents = 0");
}

/* Off the road nothing is measured or left to be proven; taken up again, it is. */
static void
test_not_measured (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  HsReadingEntry entry = { .check = "battery_rest", .keyed = "1242", .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) refused = NULL, taken = NULL;

  g_assert_true (hs_job_call_off (site.book, site.job_id, "no_show", 0, "nobody there", NOW, NULL));
  refused = hs_reading_add (site.book, site.job_id, &entry, NOW + 10, &error);
  g_assert_null (refused);
  hs_ops_test_refused (&error, "was called off; nothing is measured on it. Take it up again first, by its stage.");
  g_assert_cmpint (hs_ops_test_count (site.test, "reading"), ==, 0);
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_CALLED_IN, NULL, NOW + 20, NULL));
  taken = hs_reading_add (site.book, site.job_id, &entry, NOW + 30, &error);
  g_assert_no_error (error);
  g_assert_nonnull (taken);
}

/* Without a fee there is nothing to square up, and the job stays called off. */
static void
test_no_fee (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 0, "sold it", NOW, NULL));
  g_assert_false (hs_job_square (site.book, site.job_id, NOW + 60, &error));
  hs_ops_test_refused (&error, "has no price yet");
  hs_ops_test_one (site.test, "job WHERE stage = 'called_off'");
}

/* What was said yes to and not put in is not charged; what was put in is, by the usual rules. */
static void
test_bill (void)
{
  const HsChoiceEntry entry = { .wording = "Battery" };
  const HsChoiceLineEntry line = { .kind = "labor", .minutes = 60, .cost_cents = HS_INT_NONE,
                                   .price_cents = HS_INT_NONE };
  const HsInstallEntry part = { .what = "fuse", .cost_cents = 400, .why = "due" };
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;
  g_autofree char *choice = NULL;
  g_autofree char *fuse = NULL;

  g_assert_true (hs_settings_set (site.book, "tax_percent", "8", NOW, NULL));
  ops_site_arrive (&site, "2026-03-10T08:40");
  choice = hs_choice_add (site.book, site.job_id, &entry, &line, 1, NOW, &error);
  answer.choice = "yes";
  answer.by = "Teo";
  answer.means = "phone";
  g_assert_true (hs_choice_decide (site.book, choice, &answer, NOW, &error));
  fuse = hs_part_install (site.book, site.job_id, &part, NOW, &error);
  g_assert_no_error (error);
  g_assert_true (hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "drove off", NOW + 9000, &error));
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 2);
  hs_ops_test_one (site.test, "line WHERE kind = 'part' AND what = 'fuse' AND price_cents = 800 AND tax_cents = 64");
  g_assert_false (hs_job_square (site.book, site.job_id, NOW + 9060, &error));
  hs_ops_test_refused (&error, "the go-ahead covers 0.00: short by");
  g_assert_true (hs_go_ahead_add (site.book, site.job_id, 900, "Teo", "phone", NOW + 9070, NULL));
  g_assert_true (hs_job_square (site.book, site.job_id, NOW + 9080, &error));
  hs_ops_test_one (site.test, "invoice WHERE net_cents = 6800 AND tax_cents = 64 AND total_cents = 6864");
}

static char *
put_in (OpsSite *site, const char *what)
{
  const HsInstallEntry part = { .what = what, .cost_cents = 400, .why = "due" };
  g_autoptr (GError) error = NULL;
  char *id = hs_part_install (site->book, site->job_id, &part, NOW + 60, &error);

  g_assert_no_error (error);
  return id;
}

/* A fuse of 8.00 on the house stays on the house; one that was put in afterwards was not given, nor is the fee. */
static void
test_goodwill (void)
{
  static const struct
  {
    gboolean before;
    gboolean after;
    const char *invoice;
    const char *goodwill; /* NULL: none */
  } rows[] = {
    { TRUE, FALSE, "invoice WHERE net_cents = 6000 AND tax_cents = 0",
      "line WHERE kind = 'goodwill' AND price_cents = -800 AND tax_cents = -64" },
    { TRUE, TRUE, "invoice WHERE net_cents = 6800 AND tax_cents = 64",
      "line WHERE kind = 'goodwill' AND price_cents = -800 AND tax_cents = -64" },
    { FALSE, TRUE, "invoice WHERE net_cents = 6800 AND tax_cents = 64", NULL },
    { FALSE, FALSE, "invoice WHERE net_cents = 6000 AND tax_cents = 0", NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autofree char *before = NULL;
      g_autofree char *after = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_settings_set (site.book, "tax_percent", "8", NOW, NULL));
      ops_site_arrive (&site, "2026-03-10T08:40");
      before = rows[i].before ? put_in (&site, "fuse") : NULL;
      g_assert_true (hs_job_price (site.book, site.job_id, "my mistake", NOW + 90, NULL));
      after = rows[i].after ? put_in (&site, "lamp") : NULL;
      hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "drove off", NOW + 9000, &error);
      g_assert_no_error (error);
      g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE kind = 'goodwill' AND price_cents < 0"), ==,
                       rows[i].goodwill != NULL);
      if (rows[i].goodwill != NULL)
        hs_ops_test_one (site.test, rows[i].goodwill);
      g_assert_true (hs_go_ahead_add (site.book, site.job_id, 864, "Teo", "phone", NOW + 9070, NULL));
      hs_job_square (site.book, site.job_id, NOW + 9080, &error);
      g_assert_no_error (error);
      hs_ops_test_one (site.test, rows[i].invoice);
      g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE kind = 'goodwill'"), ==, rows[i].goodwill != NULL);
    }
}

static void
say_yes (OpsSite *site, const char *wording, const char *part, gint64 discount_cents)
{
  const HsChoiceEntry entry = { .wording = wording };
  const HsChoiceLineEntry lines[] = {
    { .kind = "discount", .what = wording, .cost_cents = HS_INT_NONE, .price_cents = discount_cents },
    { .kind = "labor", .what = wording, .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .what = part, .cost_cents = 400, .price_cents = HS_INT_NONE },
  };
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) error = NULL;
  g_autofree char *id = hs_choice_add (site->book, site->job_id, &entry, lines, G_N_ELEMENTS (lines), NOW, &error);

  g_assert_no_error (error);
  answer.choice = "yes";
  answer.by = "Teo";
  answer.means = "phone";
  hs_choice_decide (site->book, id, &answer, NOW, &error);
  g_assert_no_error (error);
}

/* A discount goes with its option and is never more than what stays of it; taken up again, each yes is whole. */
static void
test_yes_again (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *fuse = NULL;
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, "2026-03-10T08:40");
  say_yes (&site, "Fuses", "fuse", 900);
  say_yes (&site, "Lights", "lamp", 300);
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 6);
  fuse = put_in (&site, "fuse");
  hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "drove off", NOW + 9000, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 3);
  hs_ops_test_one (site.test, "line WHERE what = 'fuse' AND price_cents = 800");
  hs_ops_test_one (site.test, "line WHERE kind = 'discount' AND what = 'Fuses' AND price_cents = -800");
  hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW + 9060, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 6);
  g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE kind = 'labor'"), ==, 2);
  hs_ops_test_one (site.test, "line WHERE what = 'fuse' AND price_cents = 800 AND installed_part_id IS NOT NULL");
  hs_ops_test_one (site.test, "line WHERE kind = 'discount' AND what = 'Fuses' AND price_cents = -900");
  hs_ops_test_one (site.test, "line WHERE kind = 'discount' AND what = 'Lights' AND price_cents = -300");
  hs_ops_test_one (site.test, "line WHERE what = 'lamp' AND installed_part_id IS NULL");
}

/* With nothing done there is nothing to say yes to: the yes is asked for again once the job is taken up, and then comes
 * with its lines, taxed at the rate of that day. */
static void
test_yes_meanwhile (void)
{
  const HsChoiceEntry entry = { .wording = "Lights" };
  const HsChoiceLineEntry line = { .what = "lamp", .cost_cents = 400, .price_cents = HS_INT_NONE };
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *choice = NULL;
  g_autoptr (GError) error = NULL;

  answer.choice = "yes";
  answer.by = "Teo";
  answer.means = "phone";
  g_assert_true (hs_settings_set (site.book, "tax_percent", "8", NOW, NULL));
  ops_site_arrive (&site, "2026-03-10T08:40");
  choice = hs_choice_add (site.book, site.job_id, &entry, &line, 1, NOW, &error);
  g_assert_no_error (error);
  g_assert_true (hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "drove off", NOW + 9000, &error));
  g_assert_false (hs_choice_decide (site.book, choice, &answer, NOW + 9010, &error));
  hs_ops_test_refused (&error, "A-0001 is called off; take it up again before “Lights” is done.");
  hs_ops_test_one (site.test, "advice WHERE choice = 'open'");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 1);
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW + 9060, &error));
  g_assert_true (hs_choice_decide (site.book, choice, &answer, NOW + 9070, &error));
  hs_ops_test_one (site.test, "line WHERE what = 'lamp' AND price_cents = 800 AND tax_cents = 64");
  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 1500, "sold it", NOW + 9080, &error));
  hs_ops_test_one (site.test, "line WHERE kind = 'call_out'");
  g_assert_true (hs_settings_set (site.book, "tax_percent", "10", NOW, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW + 9090, &error));
  hs_ops_test_one (site.test, "advice WHERE choice = 'yes'");
  hs_ops_test_one (site.test, "line WHERE what = 'lamp' AND price_cents = 800 AND tax_cents = 80");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 1);
  g_assert_no_error (error);
}

/* The fee pays for no work: what was found is not cured by it. */
static void
test_no_work (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsJobChain) chain = NULL;
  g_autofree char *id = NULL;
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, "2026-03-10T08:40");
  id = hs_finding_add (site.book, site.job_id, &(HsFindingEntry) { .what = "fuse blown", .role = "seen" }, NOW,
                       &error);
  g_assert_no_error (error);
  hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "drove off", NOW + 9000, &error);
  g_assert_no_error (error);
  chain = hs_job_chain_load (site.book, site.job_id, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_chain_get_cure (chain->chain, hs_chain_get_finding (chain->chain, 0)), ==,
                   HS_CHAIN_CURE_MEANT);
}

/* The reason why it was turned away once is none for calling it off, so that an invoice can always say why. */
static void
test_without_reason (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_TURNED_AWAY, "too far", NOW - 9000, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW - 8000, NULL));
  g_assert_false (hs_job_move_stage (site.book, site.job_id, HS_STAGE_CALLED_OFF, NULL, NOW, &error));
  g_assert_nonnull (strstr (error->message, "A job that is called off needs a reason"));
  hs_ops_test_one (site.test, "job WHERE stage = 'promised' AND called_off_why IS NULL");
}

/* Taken up again it carries no fee, and is no call that was called off. */
static void
test_taken_up (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);

  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 1500, "no time", NOW, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW + 60, NULL));
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 0);
  hs_ops_test_one (site.test, "job WHERE stage = 'promised' AND called_off_how IS NULL");
}

/* The board asks for the fee until it is squared up; a call without one is over. */
static void
test_board (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsBoard) with_fee = NULL;
  g_autoptr (HsBoard) without = NULL;

  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 1500, "no time", NOW, NULL));
  with_fee = hs_board_load (site.book, NULL, NOW + 60, NULL);
  g_assert_cmpuint (with_fee->rows->len, ==, 1);
  g_assert_cmpstr (((HsBoardRow *) g_ptr_array_index (with_fee->rows, 0))->act, ==, "Square up the fee");
  g_assert_cmpuint (with_fee->settled, ==, 0);
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW + 90, NULL, NULL));
  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 0, "no time", NOW + 91, NULL));
  without = hs_board_load (site.book, NULL, NOW + 99, NULL);
  g_assert_cmpuint (without->rows->len, ==, 0);
  g_assert_cmpuint (without->settled, ==, 1);
}

static void
test_fee (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;
  gint64 cents = -1;

  g_assert_true (hs_call_off_fee (site.book, "no_show", &cents, NULL));
  g_assert_cmpint (cents, ==, 0);
  g_assert_true (hs_settings_set (site.book, "no_show_fee_cents", "4000", NOW, NULL));
  g_assert_true (hs_call_off_fee (site.book, "no_show", &cents, NULL));
  g_assert_cmpint (cents, ==, 4000);
  g_assert_false (hs_call_off_fee (site.book, "forgotten", &cents, &error));
  hs_ops_test_refused (&error, "forgotten");
  g_assert_false (hs_settings_set (site.book, "no_show_fee_cents", "-1", NOW, &error));
  g_clear_error (&error);
}

static void
say_yes_to (OpsSite *site, const HsChoiceLineEntry *lines, guint n_lines)
{
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) error = NULL;
  g_autofree char *id = hs_choice_add (site->book, site->job_id, &(HsChoiceEntry) { .wording = "Alternator" }, lines,
                                       n_lines, NOW, &error);

  g_assert_no_error (error);
  answer.choice = "yes";
  answer.by = "Teo";
  answer.means = "phone";
  hs_choice_decide (site->book, id, &answer, NOW, &error);
  g_assert_no_error (error);
}

static const HsChoiceLineEntry alternator[] = {
  { .what = "alternator", .cost_cents = 400, .price_cents = HS_INT_NONE },
  { .kind = "core_deposit", .what = "alternator core", .cost_cents = HS_INT_NONE, .price_cents = 4500 },
  { .kind = "labor", .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
};

/* The deposit on the old one stays with the part that was put in, and goes with one that was not. */
static void
test_core_deposit (void)
{
  for (guint in = 0; in < 2; in++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autofree char *part = NULL;
      g_autofree char *other = NULL;
      g_autoptr (GError) error = NULL;

      ops_site_arrive (&site, "2026-03-10T08:40");
      say_yes_to (&site, alternator, G_N_ELEMENTS (alternator));
      part = put_in (&site, in == 1 ? "alternator" : "fuse");
      hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "drove off", NOW + 9000, &error);
      g_assert_no_error (error);
      g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE kind = 'core_deposit'"), ==, in);
      g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE price_cents = 4500"), ==, in);
      g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE what = 'alternator'"), ==, in);
      g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE kind = 'labor'"), ==, 0);
    }
}

static gint64
net_of (OpsSite *site)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobView) view = hs_job_view_load (site->book, site->job_id, NOW + 9600, &error);

  g_assert_no_error (error);
  return view->net_cents + view->tax_cents;
}

/* On the house it is again when it is taken up: the work alone, and a yes with its lines. A fuse that was put in
 * afterwards was not given, and is not given by this. */
static void
test_goodwill_again (void)
{
  for (guint i = 0; i < 4; i++)
    {
      gboolean yes = i & 1;
      gboolean fuse = i & 2;
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autofree char *part = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_settings_set (site.book, "tax_percent", "8", NOW, NULL));
      ops_site_arrive (&site, "2026-03-10T08:40");
      if (yes)
        say_yes_to (&site, alternator, G_N_ELEMENTS (alternator));
      g_assert_true (hs_job_price (site.book, site.job_id, "my mistake", NOW + 90, NULL));
      part = fuse ? put_in (&site, "fuse") : NULL;
      hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 0, "drove off", NOW + 120, &error);
      g_assert_no_error (error);
      g_assert_cmpint (net_of (&site), ==, fuse ? 864 : 0);
      hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW + 180, &error);
      g_assert_no_error (error);
      g_assert_cmpint (hs_ops_test_count (site.test, "line WHERE kind = 'core_deposit'"), ==, yes);
      g_assert_cmpint (net_of (&site), ==, fuse ? 864 : 0);
    }
}

/* On the house was what stood there; a yes that came after it is charged, before it is called off and after it is taken
 * up, however often. */
static void
test_goodwill_not_more (void)
{
  static const HsChoiceLineEntry lamp[] = { { .what = "lamp", .cost_cents = 400, .price_cents = HS_INT_NONE } };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_settings_set (site.book, "tax_percent", "8", NOW, NULL));
  ops_site_arrive (&site, "2026-03-10T08:40");
  say_yes_to (&site, alternator, G_N_ELEMENTS (alternator));
  g_assert_true (hs_job_price (site.book, site.job_id, "my mistake", NOW + 90, NULL));
  say_yes_to (&site, lamp, G_N_ELEMENTS (lamp));
  g_assert_cmpint (net_of (&site), ==, 864);
  for (int again = 0; again < 2; again++)
    {
      hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 0, "drove off", NOW + 120, &error);
      g_assert_no_error (error);
      g_assert_cmpint (net_of (&site), ==, 0);
      hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW + 180, &error);
      g_assert_no_error (error);
      g_assert_cmpint (net_of (&site), ==, 864);
    }
  /* Given anew, all of it is. */
  g_assert_true (hs_job_price (site.book, site.job_id, "my mistake", NOW + 190, NULL));
  g_assert_cmpint (net_of (&site), ==, 0);
  g_assert_true (hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 0, "drove off", NOW + 200, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW + 210, NULL));
  g_assert_cmpint (net_of (&site), ==, 0);
}

/* The fee goes off the bill when the call is taken up, and the step says so. */
static void
test_fee_told (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsUndoStep) step = NULL;
  gint64 cents = -1;

  g_assert_true (hs_call_off_charged (site.book, site.job_id, &cents, NULL));
  g_assert_cmpint (cents, ==, 0);
  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 4000, "sold it", NOW, NULL));
  g_assert_true (hs_call_off_charged (site.book, site.job_id, &cents, NULL));
  g_assert_cmpint (cents, ==, 4000);
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW + 60, NULL));
  g_assert_true (hs_call_off_charged (site.book, site.job_id, &cents, NULL));
  g_assert_cmpint (cents, ==, 0);
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW + 70, &step, NULL));
  g_assert_cmpstr (step->what, ==, "stage: Time given, without the fee of 40.00");
  hs_ops_test_one (site.test, "line WHERE kind = 'call_out' AND price_cents = 4000");
}

/* Nothing is squared up by the words alone that it was on the house. */
static void
test_goodwill_without_fee (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, "2026-03-10T08:40");
  g_assert_true (hs_job_price (site.book, site.job_id, "my mistake", NOW + 90, NULL));
  g_assert_true (hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 0, "drove off", NOW + 120, NULL));
  g_assert_false (hs_job_square (site.book, site.job_id, NOW + 130, &error));
  hs_ops_test_refused (&error, "has no price yet");
}

/* Only moved off the road, a bill is taken off as well, and is never squared up without proof. */
static void
test_plain_move (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *fuse = NULL;
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, "2026-03-10T08:40");
  say_yes_to (&site, alternator, G_N_ELEMENTS (alternator));
  g_assert_true (hs_go_ahead_add (site.book, site.job_id, 50000, "Teo", "phone", NOW + 10, NULL));
  hs_job_move_stage (site.book, site.job_id, HS_STAGE_CALLED_OFF, "sold it", NOW + 60, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 0);
  g_assert_false (hs_job_square (site.book, site.job_id, NOW + 70, &error));
  hs_ops_test_refused (&error, "has no price yet");
  hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW + 80, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 3);
  fuse = put_in (&site, "fuse");
  hs_job_move_stage (site.book, site.job_id, HS_STAGE_CALLED_OFF, "sold it", NOW + 90, &error);
  g_assert_no_error (error);
  hs_ops_test_one (site.test, "line WHERE what = 'fuse'");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 1);
  g_assert_false (hs_job_square (site.book, site.job_id, NOW + 99, &error));
  hs_ops_test_refused (&error, "A-0001 does not say how it was called off. Take it up again");
  hs_ops_test_one (site.test, "job WHERE stage = 'called_off'");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/call-off/ways", test_ways);
  g_test_add_func ("/call-off/refused", test_refused);
  g_test_add_func ("/call-off/undo", test_undo);
  g_test_add_func ("/call-off/not-measured", test_not_measured);
  g_test_add_func ("/call-off/again", test_again);
  g_test_add_func ("/call-off/fee", test_fee);
  g_test_add_func ("/call-off/squared", test_squared);
  g_test_add_func ("/call-off/no-fee", test_no_fee);
  g_test_add_func ("/call-off/bill", test_bill);
  g_test_add_func ("/call-off/goodwill", test_goodwill);
  g_test_add_func ("/call-off/yes-again", test_yes_again);
  g_test_add_func ("/call-off/core-deposit", test_core_deposit);
  g_test_add_func ("/call-off/goodwill-again", test_goodwill_again);
  g_test_add_func ("/call-off/goodwill-not-more", test_goodwill_not_more);
  g_test_add_func ("/call-off/fee-told", test_fee_told);
  g_test_add_func ("/call-off/goodwill-without-fee", test_goodwill_without_fee);
  g_test_add_func ("/call-off/plain-move", test_plain_move);
  g_test_add_func ("/call-off/yes-meanwhile", test_yes_meanwhile);
  g_test_add_func ("/call-off/no-work", test_no_work);
  g_test_add_func ("/call-off/without-reason", test_without_reason);
  g_test_add_func ("/call-off/taken-up", test_taken_up);
  g_test_add_func ("/call-off/board", test_board);
  return g_test_run ();
}
