// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A call that came to nothing stays one when its fee is squared up: nobody drives there again, and it is no repair. */

#include "hs-board.h"
#include "hs-call-off.h"
#include "hs-choice-op.h"
#include "hs-history.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-repair-op.h"
#include "ops-share.h"

#include <string.h>

#define JOBS "number,customer_phone,words,plate,kind,stage,area,day,window_from,window_to,minutes\n"
#define CALLED_OFF JOBS "A-0100,555-0122,no crank,TDM 1315,repair,promised,O,2026-03-09,08:00,10:00,30\n"
#define DAY ops_town_day (SHARE_DAY)

static void
call_off (OpsTown *town, const char *number)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autoptr (GError) error = NULL;

  hs_job_call_off (town->book, job, "canceled", 4000, "sold it", ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
square (OpsTown *town, const char *number)
{
  g_autofree char *job = ops_town_job (town, number);
  g_autoptr (GError) error = NULL;

  hs_job_square (town->book, job, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static char *
say_going (OpsTown *town)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDayPlan) plan = hs_day_plan_standing (town->book, DAY, "A", ops_town_now (town), &error);

  g_assert_no_error (error);
  g_string_append_printf (text, "%" G_GINT64_FORMAT, plan->leave);
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      g_string_append_printf (text, " %s", stop->id);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* The morning's A-0021 and its counter are off the road, and stay so. */
static void
test_plan (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *accepted = NULL;
  g_autofree char *off = NULL;
  g_autofree char *squared = NULL;

  ops_town_add_morning (town);
  share_accept_order (town, "A");
  accepted = say_going (town);
  g_assert_nonnull (strstr (accepted, "A-0021"));
  g_assert_nonnull (strstr (accepted, "Larch & Weir"));
  call_off (town, "A-0021");
  off = say_going (town);
  g_assert_null (strstr (off, "A-0021"));
  g_assert_null (strstr (off, "Larch & Weir"));
  square (town, "A-0021");
  squared = say_going (town);
  g_assert_cmpstr (squared, ==, off);
}

/* Who found nobody was there all the same: it is 21 minutes home from Sedge End, so the other van has the next call;
 * with the fee squared up and while it still stands on the bill. */
static void
test_share (gconstpointer squared)
{
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (HsSharePlan) plan = NULL;
  g_autofree char *routes = NULL;
  g_autofree char *job = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "jobs",
                SHARE_JOBS "A-0001,555-0119,rattle,repair,promised,S," SHARE_DAY ",08:30,10:00,60\n"
                           "A-0002,555-0111,squeak,repair,promised,Q," SHARE_DAY ",09:20,09:30,30\n");
  share_accept_order (town, "A");
  job = ops_town_job (town, "A-0001");
  hs_job_move_stage (town->book, job, HS_STAGE_ROLLING, NULL, ops_town_at (town, SHARE_DAY "T08:25"), &error);
  g_assert_no_error (error);
  hs_job_move_stage (town->book, job, HS_STAGE_ON_SITE, NULL, ops_town_at (town, SHARE_DAY "T08:55"), &error);
  g_assert_no_error (error);
  hs_job_call_off (town->book, job, "gone_on_arrival", 4000, "drove off", ops_town_at (town, SHARE_DAY "T09:05"),
                   &error);
  g_assert_no_error (error);
  if (squared != NULL)
    square (town, "A-0001");
  plan = share_at (town, "09:10");
  routes = share_routes (town, plan);
  g_assert_cmpstr (routes, ==, "A 09:10 =09:31 | B 09:11 +A-0002@09:20 =09:59");
}

/* Nothing was repaired, so nothing is to be read after it; only a part that was put in says why the old one went. */
static void
test_nothing_to_prove (void)
{
  const HsInstallEntry part = { .what = "fuse", .cost_cents = 400 };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *job = NULL;
  g_autofree char *fuse = NULL;
  g_autoptr (HsRepair) off = NULL;
  g_autoptr (HsRepair) squared = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "jobs", CALLED_OFF);
  job = ops_town_job (town, "A-0100");
  fuse = hs_part_install (town->book, job, &part, ops_town_now (town), &error);
  g_assert_no_error (error);
  call_off (town, "A-0100");
  off = hs_repair_load (town->book, job, NULL, ops_town_now (town), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (off->missing->len, ==, 1);
  g_assert_cmpint (((HsProveItem *) g_ptr_array_index (off->missing, 0))->kind, ==, HS_PROVE_PART_WHY);
  g_assert_true (hs_part_remove (town->book, fuse, ops_town_now (town), &error));
  square (town, "A-0100");
  squared = hs_repair_load (town->book, job, NULL, ops_town_now (town), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (squared->missing->len, ==, 0);
  g_assert_cmpuint (squared->n_must, ==, 0);
}

/* A day later the vehicle is no comeback, and what was declined for the call is nothing to weigh. */
static void
test_no_comeback (void)
{
  const HsAdviceEntry declined = { .wording = "Starter", .choice = "no", .by = "Marguerite", .means = "phone",
                                   .risk = "may not start", .price_cents = 20000 };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *earlier = NULL;
  g_autofree char *job = NULL;
  g_autofree char *advice = NULL;
  g_autoptr (HsBoard) board = NULL;
  g_autoptr (HsJobChoices) choices = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "jobs",
                CALLED_OFF "A-0101,555-0122,again,TDM 1315,repair,promised,O,2026-03-10,08:00,10:00,30\n");
  earlier = ops_town_job (town, "A-0100");
  job = ops_town_job (town, "A-0101");
  advice = hs_advice_add (town->book, earlier, &declined, ops_town_now (town), &error);
  g_assert_no_error (error);
  call_off (town, "A-0100");
  square (town, "A-0100");
  board = hs_board_load (town->book, NULL, ops_town_now (town), &error);
  g_assert_no_error (error);
  for (guint i = 0; i < board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (board->rows, i);

      if (g_str_equal (row->number, "A-0101"))
        g_assert_null (row->act);
    }
  choices = hs_job_choices_load (town->book, job, ops_town_now (town), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (choices->declined->len, ==, 0);
}

/* What the owner before called off is not told, with its fee as little as without. */
static void
test_owner_before (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *vehicle = NULL;
  g_autoptr (HsHistory) history = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "jobs", CALLED_OFF);
  call_off (town, "A-0100");
  square (town, "A-0100");
  ops_town_sell (town, "TDM 1315", "555-0118", "2026-03-10");
  vehicle = ops_town_vehicle (town, "TDM 1315");
  history = hs_history_load (town->book, vehicle, ops_town_now (town), &error);
  g_assert_no_error (error);
  for (guint i = 0; i < history->entries->len; i++)
    g_assert_null (((HsHistoryEntry *) g_ptr_array_index (history->entries, i))->job_id);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/called-off/plan", test_plan);
  g_test_add_data_func ("/called-off/share", NULL, test_share);
  g_test_add_data_func ("/called-off/share-squared", "squared", test_share);
  g_test_add_func ("/called-off/nothing-to-prove", test_nothing_to_prove);
  g_test_add_func ("/called-off/no-comeback", test_no_comeback);
  g_test_add_func ("/called-off/owner-before", test_owner_before);
  return g_test_run ();
}
