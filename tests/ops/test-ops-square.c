// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is told before a job is squared up, held against what squaring up then does, and where each refusal leads. */

#include "hs-call-off.h"
#include "hs-choice-op.h"
#include "hs-job-life.h"
#include "hs-settings-op.h"
#include "hs-square.h"
#include "ops-repair.h"

#include <string.h>

#define LATER (NOW + 2400)

static HsSquareOutlook *
look (Bay *bay)
{
  g_autoptr (GError) error = NULL;
  HsSquareOutlook *outlook = hs_square_outlook_load (bay->book, bay->job, LATER, &error);

  g_assert_no_error (error);
  return outlook;
}

/* Whatever the outlook says, squaring up says as well. */
static void
check_refused (Bay *bay, const char *said, const char *place)
{
  g_autoptr (HsSquareOutlook) outlook = look (bay);
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (outlook->refusal);
  g_assert_nonnull (strstr (outlook->refusal, said));
  g_assert_cmpstr (outlook->place, ==, place);
  g_assert_false (hs_job_square (bay->book, bay->job, LATER, &error));
  g_assert_cmpstr (error->message, ==, outlook->refusal);
}

static void
prove (Bay *bay)
{
  bay_read (bay, "battery_rest", "12.66", "after", NULL);
  g_assert_true (hs_job_move_stage (bay->book, bay->job, HS_STAGE_PROVEN, "drove off", LATER, NULL));
}

/* 40 min on site are 84.00; a relay that cost 50.00 sells for 84.00 with 6.72 of tax. Each thing that stands against it
 * leads to where it is mended, one after the other. */
static void
test_in_turn (void)
{
  const HsAdviceEntry pads
      = { .wording = "Front pads", .choice = "open", .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE };
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsSquareOutlook) bare = NULL;
  g_autoptr (HsSquareOutlook) ready = NULL;
  g_autofree char *part = NULL;
  g_autofree char *choice = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_settings_set (bay.book, "tax_percent", "8", NOW, NULL));
  prove (&bay);
  bare = look (&bay);
  g_assert_true (bare->no_work && bare->may_price);
  g_assert_cmpint (bare->minutes, ==, 40);
  g_assert_cmpint (bare->work_cents, ==, 8400);
  check_refused (&bay, "has no price yet; price it first", "bill");
  part = bay_fit (&bay, &(HsInstallEntry) { .what = "relay", .why = "due" });
  choice = hs_advice_add (bay.book, bay.job, &pads, LATER, NULL);
  check_refused (&bay, "1 recommendation has no answer yet", "choices");
  g_assert_true (hs_choice_decide (bay.book, choice, &(HsChoiceAnswer) { .choice = "no", .by = "Teo", .means = "phone",
                                                                         .risk = "squeals on",
                                                                         .call_on = HS_DATE_NONE,
                                                                         .ceiling_cents = HS_INT_NONE },
                                   LATER, &error));
  g_assert_no_error (error);
  g_assert_true (hs_go_ahead_add (bay.book, bay.job, 20000, "Teo", "phone", LATER, NULL));
  check_refused (&bay, "“relay” on the bill of A-0001 has no price yet", "bill");
  g_assert_true (hs_part_set (bay.book, part, "cost", "50", LATER, NULL));
  check_refused (&bay, "by the clock 84.00 more is not on the bill", "bill");
  g_assert_true (hs_job_price (bay.book, bay.job, NULL, LATER, NULL));
  ready = look (&bay);
  g_assert_null (ready->refusal);
  g_assert_null (ready->place);
  g_assert_false (ready->no_work || ready->may_price);
  g_assert_cmpint (ready->net_cents, ==, 16800);
  g_assert_cmpint (ready->tax_cents, ==, 672);
  g_assert_cmpuint (ready->n_yes, ==, 0);
  g_assert_cmpuint (ready->n_no, ==, 1);
  g_assert_cmpstr (ready->unproved_why, ==, "drove off");
  g_assert_nonnull (ready->repair);
  g_assert_true (hs_job_square (bay.book, bay.job, LATER, NULL));
  hs_ops_test_one (bay.test, "invoice WHERE net_cents = 16800 AND tax_cents = 672");
}

/* Of a call that was called off only the fee is there; nothing of its work is missing. */
static void
test_called_off (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsSquareOutlook) outlook = NULL;

  g_assert_true (hs_job_call_off (bay.book, bay.job, "no_show", 4000, "nobody there", LATER, NULL));
  outlook = look (&bay);
  g_assert_null (outlook->refusal);
  g_assert_false (outlook->no_work || outlook->may_price);
  g_assert_null (outlook->repair);
  g_assert_cmpint (outlook->net_cents, ==, 4000);
}

/* On the house: no call-out is missing there. */
static void
test_given (void)
{
  g_auto (Bay) bay = bay_start ();
  g_autoptr (HsSquareOutlook) outlook = NULL;

  prove (&bay);
  g_assert_true (hs_job_price (bay.book, bay.job, "our own work", LATER, NULL));
  outlook = look (&bay);
  g_assert_null (outlook->refusal);
  g_assert_false (outlook->no_work || outlook->may_price);
  g_assert_cmpint (outlook->net_cents + outlook->tax_cents, ==, 0);
}

static void
test_places (void)
{
  static const struct
  {
    HsStageWhyNot why_not;
    const char *place;
  } rows[] = {
    { HS_STAGE_NO_PROOF, "read-after" },      { HS_STAGE_COMPLAINT_STAYS, "why" },
    { HS_STAGE_OPEN_END, "why" },             { HS_STAGE_PART_WITHOUT_REASON, "after" },
    { HS_STAGE_OPEN_CHOICE, "choices" },      { HS_STAGE_OVER_CEILING, "choices" },
    { HS_STAGE_MAY_MOVE, NULL },              { HS_STAGE_SAME, NULL },
    { HS_STAGE_SHUT_FOR_GOOD, NULL },         { HS_STAGE_NO_SUCH_MOVE, NULL },
    { HS_STAGE_NO_LEAVING_REASON, NULL },     { HS_STAGE_OPEN_SAFETY, "safety" },
  };
  g_auto (Bay) bay = bay_start ();
  HsStageWhyNot why_not = HS_STAGE_SAME;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpstr (hs_job_block_place (rows[i].why_not), ==, rows[i].place);
  g_assert_true (hs_job_why_not (bay.book, bay.job, HS_STAGE_PROVEN, NULL, &why_not, NULL));
  g_assert_cmpint (why_not, ==, HS_STAGE_NO_PROOF);
  g_assert_true (hs_job_why_not (bay.book, bay.job, HS_STAGE_PROVEN, "dark", &why_not, NULL));
  g_assert_cmpint (why_not, ==, HS_STAGE_MAY_MOVE);
  g_assert_false (hs_job_why_not (bay.book, "nobody", HS_STAGE_PROVEN, NULL, &why_not, NULL));
  g_assert_null (hs_square_outlook_load (bay.book, "nobody", LATER, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/square/in-turn", test_in_turn);
  g_test_add_func ("/square/called-off", test_called_off);
  g_test_add_func ("/square/given", test_given);
  g_test_add_func ("/square/places", test_places);
  return g_test_run ();
}
