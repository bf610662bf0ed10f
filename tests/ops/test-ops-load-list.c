// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a van is loaded with before it leaves. A second trip is 38 min at 1.60 and 9 mi at 0.42, 64.58; a starter at
 * 118.00 that goes back at 15 % and 6 min, 27.30: worth it above 27.30 ÷ 91.88 = 29.7 %. */

#include "hs-job-row.h"
#include "hs-load-list.h"
#include "ops-town.h"

#include <string.h>

#define MORNING "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"
#define NEEDS "job,part,quantity,sure_percent,supplier,quoted\n"

static HsPartsRun *
run_of (OpsTown *town, const char *van)
{
  g_autoptr (GError) error = NULL;
  HsPartsRun *run = hs_parts_run_make (town->book, ops_town_day (MORNING), van, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return run;
}

static const HsLoadRow *
find_row (const HsPartsRun *run, HsLoadKind kind, const char *number)
{
  for (guint i = 0; i < run->load_list->len; i++)
    {
      const HsLoadRow *row = g_ptr_array_index (run->load_list, i);

      if (row->kind == kind && g_strcmp0 (row->number, number) == 0)
        return row;
    }
  return NULL;
}

static void
test_morning (void)
{
  static const struct
  {
    HsLoadKind kind;
    const char *number;
    const char *job;
    const char *supplier;
    double quantity;
    gint64 vain_cents;
    gint64 trip_cents;
  } rows[] = {
    { HS_LOAD_ON_BOARD, "BW-55", "A-0022", NULL, 1, 0, 6458 },
    { HS_LOAD_FROM_BASE, "ALT-9912", NULL, L, 1, -1, -1 },
    { HS_LOAD_GIVE_BACK, "GP-20D", NULL, K, 3, -1, -1 },
    { HS_LOAD_BRING, "ST-1315", "A-0021", L, 1, 2730, 6458 },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;

  ops_town_add_morning (town);
  run = run_of (town, NULL);
  g_assert_cmpuint (run->load_list->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsLoadRow *row = g_ptr_array_index (run->load_list, i);

      g_assert_cmpint (row->kind, ==, rows[i].kind);
      g_assert_cmpstr (row->number, ==, rows[i].number);
      g_assert_cmpstr (row->job_number, ==, rows[i].job);
      g_assert_cmpstr (row->supplier, ==, rows[i].supplier);
      g_assert_cmpfloat (row->quantity, ==, rows[i].quantity);
      g_assert_cmpint (row->vain_cents, ==, rows[i].vain_cents);
      g_assert_cmpint (row->trip_cents, ==, rows[i].trip_cents);
    }
  g_assert_cmpstr (find_row (run, HS_LOAD_FROM_BASE, "ALT-9912")->why, ==,
                   "brings back 45.00, take from base, due Apr 25");
}

/* 0.38 × 64.58 − 0.62 × 27.30 = 7.61. */
static void
test_weighed (void)
{
  static const struct
  {
    int sure;
    HsLoadKind kind;
    gint64 gain_cents;
    const char *says;
  } cases[] = {
    { 38, HS_LOAD_BRING, 761, "bringing it saves 7.61 on average" },
    { 30, HS_LOAD_BRING, 26, "bringing it saves 0.26 on average" },
    { 29, HS_LOAD_LEAVE, -65, "bringing it costs 0.65 on average" },
    { 0, HS_LOAD_LEAVE, -2730, "for nothing it costs 27.30, left behind a second trip, 64.58" },
    { 99, HS_LOAD_BRING, 6366, "99 % sure, worth it above 29.7 %" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autofree char *csv = g_strdup_printf (NEEDS "A-0021,ST-1315,1,%d," L ",118.00\n", cases[i].sure);
      g_autoptr (HsPartsRun) run = NULL;
      const HsLoadRow *row;

      ops_town_add_morning (town);
      ops_town_add (town, "needs", csv);
      run = run_of (town, NULL);
      row = find_row (run, cases[i].kind, "ST-1315");
      g_assert_nonnull (row);
      g_assert_cmpint (row->sure_percent, ==, cases[i].sure);
      g_assert_cmpint (row->line_permille, ==, 297);
      g_assert_cmpint (row->gain_cents, ==, cases[i].gain_cents);
      g_test_message ("%s", row->why);
      g_assert_nonnull (strstr (row->why, cases[i].says));
    }
}

/* The owner's own figures decide: a second trip round the corner is no reason to bring anything. */
static void
test_settings (void)
{
  static const struct
  {
    const char *key;
    const char *value;
    HsLoadKind kind;
    int line;
  } cases[] = {
    { "second_trip_minutes", "20", HS_LOAD_LEAVE, 433 },
    { "second_trip_miles", "0", HS_LOAD_BRING, 310 },
    { "return_minutes", "30", HS_LOAD_LEAVE, 504 },
    { "minute_cents", "0", HS_LOAD_LEAVE, 824 },
    { "mile_cents", "0", HS_LOAD_BRING, 310 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsPartsRun) run = NULL;

      ops_town_add_morning (town);
      ops_town_set (town, cases[i].key, cases[i].value);
      run = run_of (town, NULL);
      g_assert_nonnull (find_row (run, cases[i].kind, "ST-1315"));
      g_assert_cmpint (find_row (run, cases[i].kind, "ST-1315")->line_permille, ==, cases[i].line);
    }
}

/* Neither a price that nobody knows nor a world without costs is weighed. */
static void
test_unweighed (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) unknown = NULL;
  g_autoptr (HsPartsRun) free_of_cost = NULL;

  ops_town_add_morning (town);
  ops_town_add (town, "needs", NEEDS "A-0021,NONE-1,1,20," L ",\n");
  unknown = run_of (town, NULL);
  g_assert_nonnull (find_row (unknown, HS_LOAD_BRING, "NONE-1"));
  g_assert_cmpint (find_row (unknown, HS_LOAD_BRING, "NONE-1")->line_permille, ==, -1);
  g_assert_nonnull (strstr (find_row (unknown, HS_LOAD_BRING, "NONE-1")->why, "its price is not known"));
  ops_town_add (town, "needs", NEEDS "A-0023,PAD-3316,1,50," K ",27.00\n");
  ops_town_set (town, "minute_cents", "0");
  ops_town_set (town, "mile_cents", "0");
  free_of_cost = run_of (town, NULL);
  g_assert_nonnull (strstr (find_row (free_of_cost, HS_LOAD_BRING, "PAD-3316")->why, "neither way costs anything"));
}

static void
set_group (OpsTown *town, const char *number, const char *group)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (GError) error = NULL;
  g_autofree char *id = ops_town_job (town, number);
  g_autoptr (HsJobRow) job = NULL;

  g_assert_true (hs_job_row_load (store, id, &job, &error));
  hs_row_set (&job->complaint_group, group);
  hs_store_begin (store, ops_town_now (town), &error);
  hs_job_row_save (store, job, &error);
  hs_store_commit (store, &error);
  g_assert_no_error (error);
}

/* In the order of the plan: A-0021, then A-0025; a booked service asks for none. */
static void
test_tools (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;
  const HsLoadRow *first, *second;

  ops_town_add_morning (town);
  set_group (town, "A-0025", "overheats");
  set_group (town, "A-0021", "will_not_start");
  set_group (town, "A-0023", "upkeep");
  run = run_of (town, NULL);
  first = g_ptr_array_index (run->load_list, 0);
  second = g_ptr_array_index (run->load_list, 1);
  g_assert_cmpint (first->kind, ==, HS_LOAD_TOOL);
  g_assert_cmpstr (first->job_number, ==, "A-0021");
  g_assert_nonnull (strstr (first->what, "scan tool"));
  g_assert_cmpstr (second->job_number, ==, "A-0025");
  g_assert_nonnull (strstr (second->what, "coolant"));
  g_assert_cmpint (((HsLoadRow *) g_ptr_array_index (run->load_list, 2))->kind, ==, HS_LOAD_ON_BOARD);
}

/* Each van has its own list, and its needs say which van they are for and which other has them. */
static void
test_vans (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) one = NULL;
  g_autoptr (HsPartsRun) a = NULL;
  g_autoptr (HsPartsRun) b = NULL;
  const HsRunRow *row;

  ops_town_add_morning (town);
  one = run_of (town, NULL);
  g_assert_null (((HsRunRow *) g_ptr_array_index (one->from_van, 0))->van);
  ops_town_set (town, "vans", "A,B");
  ops_town_add (town, "stock", "van,part,quantity,keep\nB,ST-1315,1,0\nB,PAD-3316,0,2\n");
  a = run_of (town, "A");
  b = run_of (town, "B");
  g_assert_cmpuint (b->load_list->len, ==, 0);
  g_assert_cmpstr (((HsRunRow *) g_ptr_array_index (a->from_van, 0))->van, ==, "A");
  row = g_ptr_array_index (((HsRunCounter *) g_ptr_array_index (a->counters, 0))->pick_up, 0);
  g_assert_cmpstr (row->number, ==, "ST-1315");
  g_assert_cmpstr (row->van, ==, "A");
  g_assert_cmpstr (row->note, ==, "38 % sure, van B has it");
  row = g_ptr_array_index (((HsRunCounter *) g_ptr_array_index (a->counters, 1))->pick_up, 0);
  g_assert_cmpstr (row->number, ==, "PAD-3316");
  g_assert_null (row->note);
}

static void
test_ids (void)
{
  g_assert_cmpstr (hs_load_kind_id (HS_LOAD_TOOL), ==, "tool");
  g_assert_cmpstr (hs_load_kind_id (HS_LOAD_GIVE_BACK), ==, "give_back");
  g_assert_cmpstr (hs_load_kind_id (HS_LOAD_LEAVE), ==, "leave");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/load-list/morning", test_morning);
  g_test_add_func ("/ops/load-list/weighed", test_weighed);
  g_test_add_func ("/ops/load-list/settings", test_settings);
  g_test_add_func ("/ops/load-list/unweighed", test_unweighed);
  g_test_add_func ("/ops/load-list/tools", test_tools);
  g_test_add_func ("/ops/load-list/vans", test_vans);
  g_test_add_func ("/ops/load-list/ids", test_ids);
  return g_test_run ();
}
