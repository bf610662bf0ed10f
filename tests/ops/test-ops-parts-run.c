// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The parts run of the demo morning: at Kingpost 160.00 and 18.00 to pay, 36.00 and 46.50 back; at Larch 118.00 and
 * 45.00 to pay, 45.00 back. */

#include "hs-job-op.h"
#include "hs-load-list.h"
#include "hs-ops-error.h"
#include "hs-parts-run.h"
#include "hs-store.h"
#include "ops-town.h"

#include <string.h>

#define MORNING "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"

static HsPartsRun *
run_of (OpsTown *town, const char *day)
{
  g_autoptr (GError) error = NULL;
  HsPartsRun *run = hs_parts_run_make (town->book, ops_town_day (day), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return run;
}

static const HsRunCounter *
counter_of (const HsPartsRun *run, const char *supplier)
{
  for (guint i = 0; i < run->counters->len; i++)
    {
      const HsRunCounter *counter = g_ptr_array_index (run->counters, i);

      if (g_str_equal (counter->supplier, supplier))
        return counter;
    }
  return NULL;
}

static const HsRunRow *
find_row (GPtrArray *rows, const char *number)
{
  for (guint i = 0; i < rows->len; i++)
    if (g_strcmp0 (((HsRunRow *) g_ptr_array_index (rows, i))->number, number) == 0)
      return g_ptr_array_index (rows, i);
  return NULL;
}

typedef struct
{
  const char *number;
  double quantity;
  gint64 cents;
  gint64 deposit_cents;
  const char *job_number;
  const char *last_day;
  const char *note;
} Row;

static void
assert_rows (GPtrArray *rows, const Row *expected, guint n_expected)
{
  g_assert_cmpuint (rows->len, ==, n_expected);
  for (guint i = 0; i < n_expected; i++)
    {
      const HsRunRow *row = find_row (rows, expected[i].number);

      g_assert_nonnull (row);
      g_assert_cmpfloat (row->quantity, ==, expected[i].quantity);
      g_assert_cmpint (row->cents, ==, expected[i].cents);
      g_assert_cmpint (row->deposit_cents, ==, expected[i].deposit_cents);
      g_assert_cmpstr (row->job_number, ==, expected[i].job_number);
      g_assert_cmpstr (row->note, ==, expected[i].note);
      g_assert_false (row->ticked);
      if (expected[i].last_day != NULL)
        g_assert_cmpint (row->last_day, ==, ops_town_day (expected[i].last_day));
      else
        g_assert_cmpint (row->last_day, ==, HS_DATE_NONE);
    }
}

static void
test_kingpost (void)
{
  static const Row pick_up[] = {
    { "PAD-3316", 1, 2700, 0, "A-0023", NULL, NULL },
    { "FF-1011", 1, 2100, 0, "A-0025", NULL, NULL },
    { "CP-45A", 1, 11200, 1800, "A-0026", NULL, NULL },
  };
  static const Row drop_off[] = {
    { "BW-45", 1, 1800, 0, NULL, "2026-03-12", "2 days left, Mar 12" },
    { "CP-45A", 1, 1800, 0, NULL, "2026-03-29", "due Mar 29" },
  };
  static const Row maybe[]
      = { { "BW-55", 1, 1800, 0, "A-0022", "2026-04-16", "if it comes off on the way, due Apr 16" } };
  static const Row give_back[] = { { "GP-20D", 3, 4650, 0, NULL, "2026-03-11", "bought Feb 9, last day tomorrow" } };
  static const Row restock[] = { { "BW-55", 1, 6200, 1800, NULL, NULL, "1 left, keep 2" } };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;
  const HsRunCounter *counter;

  ops_town_add_morning (town);
  run = run_of (town, MORNING);
  counter = counter_of (run, K);
  g_assert_nonnull (counter);
  g_assert_cmpuint (counter->stop_number, ==, 4);
  ops_town_assert_clock (town, counter->arrive, "10:46");
  g_assert_cmpint (counter->stop_seconds, ==, 600);
  assert_rows (counter->pick_up, pick_up, G_N_ELEMENTS (pick_up));
  assert_rows (counter->drop_off, drop_off, G_N_ELEMENTS (drop_off));
  assert_rows (counter->maybe, maybe, G_N_ELEMENTS (maybe));
  assert_rows (counter->give_back, give_back, G_N_ELEMENTS (give_back));
  assert_rows (counter->restock, restock, G_N_ELEMENTS (restock));
  g_assert_cmpint (counter->pick_up_cents, ==, 16000);
  g_assert_cmpint (counter->deposit_cents, ==, 1800);
  g_assert_cmpint (counter->drop_off_cents, ==, 3600);
  g_assert_cmpint (counter->give_back_cents, ==, 4650);
}

static void
test_larch (void)
{
  static const Row pick_up[] = { { "ST-1315", 1, 11800, 4500, "A-0021", NULL, "38 % sure" } };
  static const Row drop_off[]
      = { { "ALT-9912", 1, 4500, 0, NULL, "2026-04-25", "take from base, due Apr 25" } };
  static const Row restock[] = { { "CLAMP-P", 1, 900, 0, NULL, NULL, "3 left, keep 4" } };
  static const Row from_van[] = { { "BW-55", 1, 6200, 0, "A-0022", NULL, "90 % sure, shelf 1" } };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;
  const HsRunCounter *counter;

  ops_town_add_morning (town);
  run = run_of (town, MORNING);
  g_assert_cmpuint (run->counters->len, ==, 2);
  counter = g_ptr_array_index (run->counters, 0);
  g_assert_cmpstr (counter->supplier, ==, L);
  g_assert_cmpuint (counter->stop_number, ==, 1);
  assert_rows (counter->pick_up, pick_up, G_N_ELEMENTS (pick_up));
  assert_rows (counter->drop_off, drop_off, G_N_ELEMENTS (drop_off));
  assert_rows (counter->restock, restock, G_N_ELEMENTS (restock));
  assert_rows (run->from_van, from_van, G_N_ELEMENTS (from_van));
  g_assert_cmpuint (counter->maybe->len, ==, 0);
  g_assert_cmpuint (counter->give_back->len, ==, 0);
  g_assert_cmpint (counter->pick_up_cents, ==, 11800);
  g_assert_cmpint (counter->deposit_cents, ==, 4500);
  g_assert_cmpint (counter->drop_off_cents, ==, 4500);
  g_assert_cmpint (run->coming_back_cents, ==, 12750);
  g_assert_cmpint (run->parts_cents, ==, 27800);
  g_assert_cmpint (run->deposits_cents, ==, 6300);
  g_assert_cmpuint (run->nowhere->len, ==, 0);
  g_assert_cmpuint (run->elsewhere->len, ==, 0);
}

/* A core on a vehicle whose job comes after the counter, or not today, is no maybe. */
static void
test_maybe (void)
{
  static const char cores[] = "supplier,part,deposit,paid_on,job,where_now\n"
                              "Kingpost Parts Counter,CP-45A,18.00,2026-03-02,A-0026,on_the_vehicle\n"
                              "Kingpost Parts Counter,BW-45,18.00,2026-03-03,,on_the_vehicle\n";
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;
  g_autoptr (HsPartsRun) more = NULL;

  ops_town_add_morning (town);
  ops_town_add (town, "cores", cores);
  run = run_of (town, MORNING);
  g_assert_cmpuint (counter_of (run, K)->maybe->len, ==, 1);
  /* The van's own battery goes on at A-0022: the core that was paid for it may come off there. */
  ops_town_add (town, "needs", "job,part,quantity,supplier\nA-0022,BW-45,1,\n");
  more = run_of (town, MORNING);
  g_assert_cmpuint (counter_of (more, K)->maybe->len, ==, 2);
  g_assert_cmpstr (find_row (counter_of (more, K)->maybe, "BW-45")->job_number, ==, "A-0022");
  g_assert_cmpint (counter_of (more, K)->drop_off_cents, ==, 3600);
}

static void
test_elsewhere (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;

  ops_town_add_morning (town);
  ops_town_add (town, "returns",
                "supplier,part,quantity,amount,bought_on,last_day\n"
                "Ridgeback Salvage Yard,GP-20D,1,9.00,2026-03-01,2026-03-09\n");
  ops_town_add (town, "stock", "van,part,quantity,keep\nA,NONE-1,0,1\n");
  run = run_of (town, MORNING);
  g_assert_cmpuint (run->elsewhere->len, ==, 2);
  g_assert_cmpstr (find_row (run->elsewhere, "GP-20D")->supplier, ==, "Ridgeback Salvage Yard");
  g_assert_cmpstr (find_row (run->elsewhere, "GP-20D")->note, ==, "bought Mar 1, overdue since Mar 9");
  g_assert_cmpstr (find_row (run->elsewhere, "GP-20D")->list, ==, "return");
  g_assert_null (find_row (run->elsewhere, "NONE-1")->supplier);
  g_assert_cmpint (find_row (run->elsewhere, "NONE-1")->cents, ==, -1);
  g_assert_cmpint (run->coming_back_cents, ==, 12750);
}

/* A day without promises has no counters; what could go back waits elsewhere. */
static void
test_empty_day (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;

  ops_town_add_morning (town);
  run = run_of (town, "2026-03-11");
  g_assert_cmpuint (run->counters->len, ==, 0);
  g_assert_cmpuint (run->elsewhere->len, ==, 6);
  g_assert_cmpstr (find_row (run->elsewhere, "GP-20D")->note, ==, "bought Feb 9, last day today");
  g_assert_cmpstr (find_row (run->elsewhere, "CLAMP-P")->supplier, ==, L);
}

/* A counter that is shut still shows what was to be picked up there, without a stop. */
static void
test_shut (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;

  ops_town_add (town, "jobs",
                "number,customer_phone,words,stage,area,day,window_from,window_to,minutes\n"
                "A-0001,555-0122,no crank,promised,O,2026-03-15,08:00,12:00,30\n");
  ops_town_add (town, "needs",
                "job,part,quantity,supplier,quoted\nA-0001,ST-1315,2," L ",118.00\nA-0001,NONE-1,1,,\n");
  run = run_of (town, "2026-03-15");
  g_assert_cmpuint (run->counters->len, ==, 1);
  g_assert_cmpuint (counter_of (run, L)->stop_number, ==, 0);
  g_assert_cmpint (counter_of (run, L)->arrive, ==, HS_INSTANT_NONE);
  g_assert_cmpint (counter_of (run, L)->pick_up_cents, ==, 23600);
  g_assert_cmpint (counter_of (run, L)->deposit_cents, ==, 9000);
  g_assert_cmpuint (run->nowhere->len, ==, 1);
  g_assert_cmpint (find_row (run->nowhere, "NONE-1")->cents, ==, -1);
}

static void
tick (OpsTown *town, const char *list, const char *row_id, gboolean done)
{
  g_autoptr (GError) error = NULL;

  hs_parts_run_tick (town->book, ops_town_day (MORNING), list, row_id, done, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
test_ticks (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) before = NULL;
  g_autoptr (HsPartsRun) after = NULL;
  g_autoptr (HsPartsRun) again = NULL;
  g_autoptr (GError) error = NULL;
  const HsRunCounter *counter;

  ops_town_add_morning (town);
  before = run_of (town, MORNING);
  counter = counter_of (before, K);
  tick (town, "pick_up", find_row (counter->pick_up, "PAD-3316")->id, TRUE);
  tick (town, "drop_off", find_row (counter->drop_off, "BW-45")->id, TRUE);
  tick (town, "maybe", find_row (counter->maybe, "BW-55")->id, TRUE);
  tick (town, "return", find_row (counter->give_back, "GP-20D")->id, TRUE);
  tick (town, "restock", find_row (counter->restock, "BW-55")->id, TRUE);
  tick (town, "restock", find_row (counter->restock, "BW-55")->id, TRUE);
  after = run_of (town, MORNING);
  counter = counter_of (after, K);
  g_assert_true (find_row (counter->pick_up, "PAD-3316")->ticked);
  g_assert_false (find_row (counter->pick_up, "FF-1011")->ticked);
  g_assert_true (find_row (counter->drop_off, "BW-45")->ticked);
  g_assert_true (find_row (counter->maybe, "BW-55")->ticked);
  g_assert_true (find_row (counter->give_back, "GP-20D")->ticked);
  g_assert_true (find_row (counter->restock, "BW-55")->ticked);
  tick (town, "pick_up", find_row (counter->pick_up, "PAD-3316")->id, FALSE);
  again = run_of (town, MORNING);
  g_assert_false (find_row (counter_of (again, K)->pick_up, "PAD-3316")->ticked);
  g_assert_false (hs_parts_run_tick (town->book, ops_town_day (MORNING), "pick_up", "no such row", TRUE,
                                     ops_town_now (town), &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_false (hs_parts_run_tick (town->book, ops_town_day (MORNING), "basket", "x", TRUE, ops_town_now (town),
                                     &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
}

/* Larch keeps a holiday: nothing is paid there, and what is left is Kingpost's. Nobody else lists the starter. */
static void
check_holiday (gboolean accepts)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;
  const HsRunCounter *larch;
  const HsLoadRow *starter = NULL;

  ops_town_add_morning (town);
  if (accepts)
    {
      g_autoptr (HsDayPlan) plan = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, NULL);

      g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), NULL));
    }
  ops_town_add (town, "holidays", "supplier,date,opens,shuts,words\n" L "," MORNING ",,,Founders' Day\n");
  run = run_of (town, MORNING);
  g_assert_cmpint (run->parts_cents, ==, 16000);
  g_assert_cmpint (run->deposits_cents, ==, 1800);
  g_assert_null (counter_of (run, K)->why_not);
  larch = counter_of (run, L);
  g_assert_cmpuint (larch->stop_number, ==, 0);
  g_assert_cmpuint (larch->pick_up->len, ==, 1);
  g_assert_cmpstr (larch->why_not, ==,
                   L " does not open on " MORNING ": Founders' Day; it opens again on Mar 11, 08:00");
  for (guint i = 0; i < run->load_list->len; i++)
    if (g_strcmp0 (((HsLoadRow *) g_ptr_array_index (run->load_list, i))->number, "ST-1315") == 0)
      starter = g_ptr_array_index (run->load_list, i);
  g_assert_nonnull (starter);
  g_assert_cmpint (starter->kind, ==, HS_LOAD_LEAVE);
  g_assert_cmpint (starter->gain_cents, ==, 0);
  g_assert_cmpstr (starter->why, ==, "it can't be had today: " L " does not open on " MORNING ": Founders' Day; "
                                     "it opens again on Mar 11, 08:00");
}

/* So it is in a plan made anew, and in one that was accepted before the holiday was known. */
static void
test_on_a_holiday (void)
{
  check_holiday (FALSE);
  check_holiday (TRUE);
}

/* At A-0021 from 07:40 to 08:40, before Larch had opened: then 3 min to Larch for 8 min, 6 min to A-0022 for 40 min
 * and 11 min to Kingpost. */
static void
test_going (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (HsPartsRun) run = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *job = NULL;

  ops_town_add_morning (town);
  plan = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, &error);
  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  job = ops_town_job (town, "A-0021");
  g_assert_true (hs_job_move_stage (town->book, job, HS_STAGE_ON_SITE, NULL, ops_town_at (town, MORNING "T07:40"),
                                    &error));
  run = hs_parts_run_make (town->book, ops_town_day (MORNING), NULL, ops_town_at (town, MORNING "T07:45"), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (run->counters->len, ==, 2);
  g_assert_cmpuint (counter_of (run, L)->stop_number, ==, 2);
  ops_town_assert_clock (town, counter_of (run, L)->arrive, "08:43");
  g_assert_cmpuint (counter_of (run, K)->stop_number, ==, 4);
  ops_town_assert_clock (town, counter_of (run, K)->arrive, "09:48");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/parts-run/kingpost", test_kingpost);
  g_test_add_func ("/ops/parts-run/larch", test_larch);
  g_test_add_func ("/ops/parts-run/maybe", test_maybe);
  g_test_add_func ("/ops/parts-run/elsewhere", test_elsewhere);
  g_test_add_func ("/ops/parts-run/empty-day", test_empty_day);
  g_test_add_func ("/ops/parts-run/shut", test_shut);
  g_test_add_func ("/ops/parts-run/ticks", test_ticks);
  g_test_add_func ("/ops/parts-run/going", test_going);
  g_test_add_func ("/ops/parts-run/on-a-holiday", test_on_a_holiday);
  return g_test_run ();
}
