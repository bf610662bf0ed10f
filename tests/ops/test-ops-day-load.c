// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a day knows of its book: which calls, where each part comes from, which counters, which rules; and when the plan
 * that stands no longer fits. */

#include "hs-day-facts.h"

#include "hs-day-solve.h"
#include "hs-job-row.h"
#include "hs-need-row.h"
#include "hs-ops-error.h"
#include "ops-town.h"

#include <string.h>

#define MORNING "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"
#define JOBS "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
#define NEEDS "job,part,quantity,sure_percent,supplier,quoted\n"

static HsDayFacts *
load (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsVanRow) van = hs_day_find_van (town->book, NULL, &error);
  HsDayFacts *facts = hs_day_facts_load (town->book, ops_town_day (MORNING), van, NULL, NULL, NULL, &error);

  g_assert_no_error (error);
  return facts;
}

static const HsDayNeed *
need_of (const HsDayFacts *facts, const char *number, const char *part)
{
  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);
      const HsDayCall *call = g_ptr_array_index (facts->calls, need->call);

      if (g_str_equal (call->number, number) && g_str_equal (need->number, part))
        return need;
    }
  return NULL;
}

static void
set_state (OpsTown *town, const char *number, const char *state)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autofree char *job = ops_town_job (town, number);
  g_autoptr (GPtrArray) needs = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, ops_town_now (town), &error));
  g_assert_true (hs_need_row_list_of (store, job, &needs, &error));
  for (guint i = 0; i < needs->len; i++)
    {
      HsNeedRow *need = g_ptr_array_index (needs, i);

      hs_row_set (&need->state, state);
      hs_need_row_save (store, need, &error);
      g_assert_no_error (error);
    }
  g_assert_true (hs_store_commit (store, &error));
}

static void
set_stage (OpsTown *town, const char *number, const char *stage, const char *day)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, ops_town_now (town), &error));
  g_assert_true (hs_job_row_find (store, number, &job, &error));
  hs_row_set (&job->stage, stage);
  job->day = ops_town_day (day);
  hs_job_row_save (store, job, &error);
  g_assert_no_error (error);
  g_assert_true (hs_store_commit (store, &error));
}

/* Calls ------------------------------------------------------------------------------------------------------------ */

static void
test_calls (void)
{
  static const char *const order[] = { "A-0021", "A-0022", "A-0025", "A-0023", "A-0024", "A-0026" };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayFacts) facts = NULL;
  const HsDayCall *call;

  ops_town_add_morning (town);
  facts = load (town);
  g_assert_cmpuint (facts->calls->len, ==, G_N_ELEMENTS (order));
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    g_assert_cmpstr (((HsDayCall *) g_ptr_array_index (facts->calls, i))->number, ==, order[i]);
  call = g_ptr_array_index (facts->calls, 0);
  g_assert_cmpint (call->service_seconds, ==, 3600);
  g_assert_false (call->assumed);
  ops_town_assert_clock (town, call->window_from, "08:00");
  ops_town_assert_clock (town, call->window_to, "10:00");
  g_assert_true (((HsDayCall *) g_ptr_array_index (facts->calls, 5))->high_voltage);
  g_assert_cmpint (facts->ends_at - facts->starts_at, ==, HS_SECONDS_PER_DAY);
}

static void
test_rules (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayFacts) facts = NULL;

  ops_town_set (town, "home_by", "18:30");
  ops_town_set (town, "spare_minutes", "15");
  ops_town_set (town, "minute_cents", "123");
  ops_town_set (town, "mile_cents", "45");
  ops_town_set (town, "hop_minutes", "7");
  ops_town_set (town, "hop_miles", "0.6");
  ops_town_set (town, "long_kmh", "90");
  facts = load (town);
  g_assert_cmpstr (facts->rules.base_area, ==, "T");
  g_assert_cmpint (facts->rules.leave_from, ==, 450);
  g_assert_cmpint (facts->rules.leave_to, ==, 570);
  g_assert_cmpint (facts->rules.home_by, ==, 1110);
  g_assert_cmpint (facts->rules.spare_seconds, ==, 900);
  g_assert_cmpint (facts->rules.minute_cents, ==, 123);
  g_assert_cmpint (facts->rules.mile_cents, ==, 45);
  g_assert_cmpint (facts->travel.hop_seconds, ==, 420);
  g_assert_cmpint (facts->travel.hop_millimiles, ==, 600);
  g_assert_cmpint (facts->travel.long_kmh, ==, 90);
  g_assert_cmpint (facts->travel.medium_kmh, ==, 40);
}

/* Parts ------------------------------------------------------------------------------------------------------------ */

static void
test_sources (void)
{
  static const struct
  {
    const char *number;
    const char *part;
    HsDaySource source;
    const char *counter;
    gint64 unit_cents;
  } rows[] = {
    { "A-0021", "ST-1315", HS_DAY_SOURCE_COUNTER, L, 11800 },
    { "A-0022", "BW-55", HS_DAY_SOURCE_VAN, NULL, 6200 },
    { "A-0023", "PAD-3316", HS_DAY_SOURCE_COUNTER, K, 2700 },
    { "A-0026", "CP-45A", HS_DAY_SOURCE_COUNTER, K, 11200 },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayFacts) facts = NULL;

  ops_town_add_morning (town);
  facts = load (town);
  g_assert_cmpuint (facts->needs->len, ==, 5);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsDayNeed *need = need_of (facts, rows[i].number, rows[i].part);
      const HsDayCounter *counter;

      g_assert_nonnull (need);
      counter = hs_day_facts_find_counter (facts, need->supplier_id);
      g_assert_cmpint (need->source, ==, rows[i].source);
      g_assert_cmpstr (counter != NULL ? counter->name : NULL, ==, rows[i].counter);
      g_assert_cmpint (need->unit_cents, ==, rows[i].unit_cents);
    }
  g_assert_cmpuint (facts->counters->len, ==, 2);
}

/* Two in the van: who comes first takes what fits; nobody gets half a need. */
static void
test_allotment (void)
{
  static const struct
  {
    const char *needs;
    HsDaySource first;
    HsDaySource second;
  } rows[] = {
    { NEEDS "A-0001,BW-45,1,100,,\nA-0002,BW-45,1,100,,\n", HS_DAY_SOURCE_VAN, HS_DAY_SOURCE_VAN },
    { NEEDS "A-0001,BW-45,2,100,,\nA-0002,BW-45,1,100,,\n", HS_DAY_SOURCE_VAN, HS_DAY_SOURCE_COUNTER },
    { NEEDS "A-0001,BW-45,3,100,,\nA-0002,BW-45,2,100,,\n", HS_DAY_SOURCE_COUNTER, HS_DAY_SOURCE_VAN },
    { NEEDS "A-0001,BW-45,1,100," K ",\nA-0002,BW-45,2,100,,\n", HS_DAY_SOURCE_COUNTER, HS_DAY_SOURCE_VAN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDayFacts) facts = NULL;

      ops_town_add (town, "stock", "van,part,quantity,keep\nA,BW-45,2,2\n");
      ops_town_add (town, "jobs",
                    JOBS "A-0002,555-0111,b,repair,promised,F," MORNING ",09:00,10:00,30\n"
                         "A-0001,555-0122,a,repair,promised,F," MORNING ",08:30,11:00,30\n");
      ops_town_add (town, "needs", rows[i].needs);
      facts = load (town);
      g_assert_cmpint (need_of (facts, "A-0001", "BW-45")->source, ==, rows[i].first);
      g_assert_cmpint (need_of (facts, "A-0002", "BW-45")->source, ==, rows[i].second);
    }
}

static void
test_states (void)
{
  static const struct
  {
    const char *state;
    gboolean wanted;
    HsDaySource source;
  } rows[] = {
    { "wanted", TRUE, HS_DAY_SOURCE_COUNTER },    { "asked_for", TRUE, HS_DAY_SOURCE_COUNTER },
    { "laid_aside", TRUE, HS_DAY_SOURCE_COUNTER }, { "in_the_van", TRUE, HS_DAY_SOURCE_VAN },
    { "going_back", FALSE, HS_DAY_SOURCE_VAN },   { "dropped", FALSE, HS_DAY_SOURCE_VAN },
    { "installed", FALSE, HS_DAY_SOURCE_VAN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDayFacts) facts = NULL;
      const HsDayNeed *need;

      ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,F," MORNING ",08:30,11:00,30\n");
      ops_town_add (town, "needs", NEEDS "A-0001,ST-1315,1,40," L ",118.00\n");
      set_state (town, "A-0001", rows[i].state);
      facts = load (town);
      need = need_of (facts, "A-0001", "ST-1315");
      g_assert_cmpint (need != NULL, ==, rows[i].wanted);
      g_assert_cmpuint (facts->counters->len, ==, need != NULL && need->source == HS_DAY_SOURCE_COUNTER ? 1 : 0);
      if (need != NULL)
        g_assert_cmpint (need->source, ==, rows[i].source);
    }
}

/* What a counter of its own does not list has no price; a quote is better than a list. */
static void
test_prices (void)
{
  static const struct
  {
    const char *need;
    gint64 unit_cents;
  } rows[] = {
    { "A-0001,PAD-3316,1,100," K ",\n", 2700 },
    { "A-0001,PAD-3316,1,100," K ",25.50\n", 2550 },
    { "A-0001,PAD-3316,1,100," L ",\n", -1 },
    { "A-0001,PAD-3316,1,100,,\n", 2700 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autofree char *needs = g_strconcat (NEEDS, rows[i].need, NULL);
      g_autoptr (HsDayFacts) facts = NULL;

      ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,F," MORNING ",08:30,11:00,30\n");
      ops_town_add (town, "needs", needs);
      facts = load (town);
      g_assert_cmpint (need_of (facts, "A-0001", "PAD-3316")->unit_cents, ==, rows[i].unit_cents);
    }
}

/* What stands ------------------------------------------------------------------------------------------------------ */

static HsDaySolved *
solve (OpsTown *town, HsDaySolveHow how)
{
  g_autoptr (GError) error = NULL;
  HsDaySolved *solved = hs_day_solve (town->book, ops_town_day (MORNING), NULL, how, NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return solved;
}

static void
accept (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDayPlan) plan = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
}

/* One row: what happens after the plan was accepted, and whether it still stands. */
static const struct
{
  const char *number;
  const char *stage;
  const char *day;
  const char *need_state;
  gboolean stands;
} changes[] = {
  { "A-0023", "promised", MORNING, "laid_aside", TRUE },
  { "A-0021", "promised", MORNING, "in_the_van", FALSE },
  { "A-0021", "rolling", MORNING, "in_the_van", TRUE },
  { "A-0021", "on_site", MORNING, NULL, TRUE },
  { "A-0021", "waiting_part", MORNING, NULL, TRUE },
  { "A-0021", "promised", "2026-03-11", NULL, FALSE },
  { "A-0021", "penciled", MORNING, NULL, FALSE },
  { "A-0021", "called_in", MORNING, NULL, FALSE },
};

static void
test_stands (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDaySolved) solved = NULL;

      ops_town_add_morning (town);
      accept (town);
      set_stage (town, changes[i].number, changes[i].stage, changes[i].day);
      if (changes[i].need_state != NULL)
        set_state (town, changes[i].number, changes[i].need_state);
      solved = solve (town, HS_DAY_STANDING);
      g_test_message ("%u: %s to %s", i, changes[i].number, changes[i].stage);
      g_assert_cmpint (solved->accepted, ==, changes[i].stands);
      g_assert_nonnull (solved->standing);
      if (changes[i].stands)
        g_assert_cmpuint (solved->plan->stops->len, ==, 8);
    }
}

/* Planning anew ignores what stands, but for the locks; a plan of another van or day does not matter. */
static void
test_fresh (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDaySolved) none = NULL;
  g_autoptr (HsDaySolved) fresh = NULL;
  g_autoptr (HsDaySolved) other = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add_morning (town);
  none = solve (town, HS_DAY_STANDING);
  g_assert_false (none->accepted);
  g_assert_null (none->standing);
  accept (town);
  fresh = solve (town, HS_DAY_FRESH);
  g_assert_false (fresh->accepted);
  g_assert_nonnull (fresh->standing);
  g_assert_cmpuint (fresh->standing->rows->len, ==, 8);
  other = hs_day_solve (town->book, ops_town_day ("2026-03-11"), NULL, HS_DAY_STANDING, NULL, HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  g_assert_null (other->standing);
  g_assert_cmpuint (other->plan->stops->len, ==, 0);
}

static void
test_van (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsVanRow) first = NULL;
  g_autoptr (HsVanRow) second = NULL;
  g_autoptr (HsVanRow) none = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_set (town, "vans", "A,B");
  first = hs_day_find_van (town->book, NULL, &error);
  second = hs_day_find_van (town->book, "b", &error);
  g_assert_no_error (error);
  g_assert_cmpstr (first->letter, ==, "A");
  g_assert_cmpstr (second->letter, ==, "B");
  none = hs_day_find_van (town->book, "Q", &error);
  g_assert_null (none);
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
  g_assert_nonnull (strstr (error->message, "Q"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-load/calls", test_calls);
  g_test_add_func ("/ops/day-load/rules", test_rules);
  g_test_add_func ("/ops/day-load/sources", test_sources);
  g_test_add_func ("/ops/day-load/allotment", test_allotment);
  g_test_add_func ("/ops/day-load/states", test_states);
  g_test_add_func ("/ops/day-load/prices", test_prices);
  g_test_add_func ("/ops/day-load/stands", test_stands);
  g_test_add_func ("/ops/day-load/fresh", test_fresh);
  g_test_add_func ("/ops/day-load/van", test_van);
  return g_test_run ();
}
