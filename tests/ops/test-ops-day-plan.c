// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The demo morning planned from a book, and days that go wrong. Figures of the morning are those of the reference
 * arithmetic: leave 08:31, home 16:20, 81 min, 33.3 mi, 35 min to spare, 764.39. */

#include "hs-day-plan.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "ops-town.h"

#include <string.h>

#define MORNING "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"
#define JOBS "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
#define NEEDS "job,part,quantity,supplier,quoted\n"

static HsDayPlan *
make (OpsTown *town, const char *day, const char *van)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_make (town->book, ops_town_day (day), van, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return plan;
}

static HsDayPlan *
standing (OpsTown *town, const char *day)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_standing (town->book, ops_town_day (day), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return plan;
}

static void
accept (OpsTown *town, const HsDayPlan *plan)
{
  g_autoptr (GError) error = NULL;

  hs_day_plan_accept (town->book, plan, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static void
lock (OpsTown *town, const char *day, const char *stop, gboolean locked)
{
  g_autoptr (GError) error = NULL;

  hs_day_plan_lock (town->book, ops_town_day (day), NULL, stop, locked, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static const HsPlannedStop *
stop_at (const HsDayPlan *plan, guint i)
{
  g_assert_cmpuint (i, <, plan->stops->len);
  return g_ptr_array_index (plan->stops, i);
}

static void
assert_order (const HsDayPlan *plan, const char *const *order)
{
  g_assert_cmpuint (plan->stops->len, ==, g_strv_length ((char **) order));
  for (guint i = 0; i < plan->stops->len; i++)
    g_assert_cmpstr (stop_at (plan, i)->id, ==, order[i]);
}

static const HsBrokenPromise *
find_broken (const HsDayPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, i);

      if (g_str_equal (broken->id, id))
        return broken;
    }
  return NULL;
}

static void
assert_why (const HsDayPlan *plan, const char *id, gint64 late_seconds, const char *words)
{
  const HsBrokenPromise *broken = find_broken (plan, id);

  g_assert_nonnull (broken);
  g_test_message ("%s: %s", id, broken->why);
  g_assert_cmpint (broken->late_seconds, ==, late_seconds);
  g_assert_nonnull (strstr (broken->why, words));
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
}

static const char *const morning_order[]
    = { L, "A-0021", "A-0022", K, "A-0023", "A-0025", "A-0024", "A-0026", NULL };

static void
test_morning (void)
{
  static const char *const arrive[] = { "08:38", "08:49", "09:55", "10:46", "11:00", "12:31", "13:48", "15:23" };
  static const char *const start[] = { "08:38", "08:49", "09:55", "10:46", "11:00", "12:31", "13:48", "15:23" };
  static const int spare[] = { -1, 71, 35, -1, 120, 209, 102, 127 };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add_morning (town);
  plan = make (town, MORNING, NULL);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  assert_order (plan, morning_order);
  ops_town_assert_clock (town, plan->leave, "08:31");
  ops_town_assert_clock (town, plan->home, "16:20");
  g_assert_cmpint (plan->drive_seconds, ==, 81 * 60);
  g_assert_cmpint (plan->millimiles, ==, 33300);
  g_assert_cmpint (plan->spare_seconds, ==, 35 * 60);
  g_assert_cmpstr (plan->spare_at, ==, "A-0022");
  g_assert_cmpint (plan->cost_cents, ==, 76439);
  g_assert_cmpint (plan->home_drive_seconds, ==, 12 * 60);
  g_assert_false (plan->accepted);
  g_assert_cmpuint (plan->broken->len, ==, 0);
  g_assert_cmpstr (plan->van, ==, "A");
  for (guint i = 0; i < plan->stops->len; i++)
    {
      ops_town_assert_clock (town, stop_at (plan, i)->arrive, arrive[i]);
      ops_town_assert_clock (town, stop_at (plan, i)->start, start[i]);
      g_assert_cmpint (stop_at (plan, i)->spare_seconds, ==, spare[i] < 0 ? -1 : spare[i] * 60);
    }
}

static void
test_words (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add_morning (town);
  plan = make (town, MORNING, "A");
  g_assert_true (stop_at (plan, 0)->is_counter);
  g_assert_cmpstr (stop_at (plan, 0)->note, ==,
                   "pick up 1 · also short: 1 × battery clamp");
  g_assert_cmpstr (stop_at (plan, 3)->note, ==,
                   "pick up 3 · also short: 1 × battery 55 Ah flooded");
  g_assert_cmpstr (stop_at (plan, 1)->plate, ==, "TDM 1315");
  g_assert_cmpstr (stop_at (plan, 1)->vehicle, ==, "Orsane Merle 2015");
  g_assert_cmpstr (stop_at (plan, 1)->customer, ==, "Marguerite Stane");
  g_assert_cmpstr (stop_at (plan, 1)->words, ==, "one click, no crank");
  g_assert_cmpstr (stop_at (plan, 1)->note, ==, "starter from " L);
  g_assert_cmpstr (stop_at (plan, 2)->note, ==, "battery 55 Ah flooded in the van");
  g_assert_cmpstr (stop_at (plan, 5)->note, ==, "fuel filter from " K " · no signal");
  /* Safety first, where the words are cut last. */
  g_assert_cmpstr (stop_at (plan, 7)->note, ==,
                   "high voltage: safety list first · battery 45 Ah AGM from " K " · patchy signal");
  g_assert_cmpuint (plan->spans->len, ==, 3);
  ops_town_assert_clock (town, ((HsCounterSpan *) g_ptr_array_index (plan->spans, 1))->shuts, "12:30");
}

/* An 8 min stop at Larch: arriving 12:22 is served, 12:23 waits for the end of the lunch closing. */
static void
test_lunch (void)
{
  static const char *const rows[][3]
      = { { "12:14", "12:21", "12:21" }, { "12:15", "12:22", "12:22" }, { "12:16", "12:23", "13:15" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add (town, "jobs", JOBS "A-0001,555-0122,no crank,repair,promised,O," MORNING ",08:00,17:00,30\n");
      ops_town_add (town, "needs", NEEDS "A-0001,ST-1315,1," L ",118.00\n");
      ops_town_set (town, "leave_to", rows[i][0]);
      ops_town_set (town, "leave_from", rows[i][0]);
      plan = make (town, MORNING, NULL);
      g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
      ops_town_assert_clock (town, stop_at (plan, 0)->arrive, rows[i][1]);
      ops_town_assert_clock (town, stop_at (plan, 0)->start, rows[i][2]);
    }
}

static void
test_empty (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = make (town, MORNING, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpuint (plan->stops->len, ==, 0);
  g_assert_cmpint (plan->leave, ==, HS_INSTANT_NONE);
  g_assert_cmpint (plan->home, ==, HS_INSTANT_NONE);
  g_assert_cmpint (plan->cost_cents, ==, 0);
  g_assert_cmpint (plan->spare_seconds, ==, -1);
  g_assert_null (plan->spare_at);
  g_assert_false (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
}

static void
test_other_stages (void)
{
  static const char *const only[] = { "A-0001", NULL };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "jobs",
                JOBS "A-0001,555-0122,a,repair,promised,O," MORNING ",08:00,10:00,30\n"
                     "A-0002,555-0121,b,repair,penciled,Q," MORNING ",08:00,10:00,30\n"
                     "A-0003,555-0115,c,repair,called_in,O," MORNING ",,,30\n"
                     "A-0004,555-0114,d,repair,promised,H,2026-03-11,08:00,10:00,30\n");
  plan = make (town, MORNING, NULL);
  assert_order (plan, only);
  g_assert_cmpuint (plan->penciled->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (plan->penciled, 0), ==, "A-0002");
}

static void
test_no_area (void)
{
  static const char *const only[] = { "A-0002", NULL };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "areas", "code,name,signal\nX,Far Moor,none\n");
  ops_town_add (town, "customers", "name,phone,kind,area\nAda Lorn,555-0150,private,\n");
  ops_town_add (town, "jobs",
                JOBS "A-0001,555-0150,a,repair,promised,," MORNING ",08:00,10:00,30\n"
                     "A-0002,555-0121,b,repair,promised,Q," MORNING ",08:00,10:00,\n"
                     "A-0003,555-0115,c,repair,promised,X," MORNING ",08:00,10:00,30\n");
  plan = make (town, MORNING, NULL);
  assert_order (plan, only);
  assert_why (plan, "A-0001", -1, "has no area");
  assert_why (plan, "A-0003", -1, "No drive between Tannery Row and Far Moor is known");
  g_assert_cmpstr (stop_at (plan, 0)->note, ==, "60 min assumed");
  g_assert_cmpint (stop_at (plan, 0)->depart - stop_at (plan, 0)->start, ==, 3600);
}

/* The customers of an area say where it lies, if a call in it does not. */
static void
test_guess (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "areas", "code,name,signal\nX,Far Moor,none\n");
  ops_town_add (town, "customers",
                "name,phone,kind,area,lat,lon\nAda Lorn,555-0150,private,X,41.05,-73.0\n"
                "Bo Lorn,555-0151,private,X,41.15,-73.0\nCy Lorn,555-0152,private,T,41.0,-73.0\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,X," MORNING ",08:00,10:00,30\n");
  plan = make (town, MORNING, NULL);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_true (stop_at (plan, 0)->guess);
  g_assert_cmpint (stop_at (plan, 0)->drive_seconds, >, 1290);
  g_assert_cmpint (stop_at (plan, 0)->drive_seconds, <, 1310);
}

static void
test_sources (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  /* One battery in the van: the earlier window gets it, the later one goes by way of the counter. */
  ops_town_add (town, "stock", "van,part,quantity,keep\nA,BW-45,1,1\n");
  ops_town_add (town, "jobs",
                JOBS "A-0002,555-0111,b,repair,promised,F," MORNING ",08:00,10:00,30\n"
                     "A-0001,555-0122,a,repair,promised,F," MORNING ",08:30,11:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,BW-45,1,,\nA-0002,BW-45,1,,\n");
  plan = make (town, MORNING, NULL);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpuint (plan->stops->len, ==, 3);
  for (guint i = 0; i < plan->stops->len; i++)
    {
      if (g_str_equal (stop_at (plan, i)->id, "A-0002"))
        g_assert_cmpstr (stop_at (plan, i)->note, ==, "battery 45 Ah flooded in the van");
      if (g_str_equal (stop_at (plan, i)->id, "A-0001"))
        g_assert_cmpstr (stop_at (plan, i)->note, ==, "battery 45 Ah flooded from " K);
    }
}

static void
test_nobody_sells (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add_morning (town);
  ops_town_add (town, "needs", NEEDS "A-0024,NONE-1,1,,\n");
  plan = make (town, MORNING, NULL);
  assert_order (plan, morning_order);
  assert_why (plan, "A-0024", 0, "No counter lists gearbox mount (NONE-1), and the van has none");
  ops_town_assert_clock (town, plan->leave, "08:31");
}

static void
test_shut_counter (void)
{
  static const char *const only[] = { "A-0001", NULL };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  /* A Sunday: nobody is open. */
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,O,2026-03-15,08:00,12:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,ST-1315,1," L ",118.00\n");
  plan = make (town, "2026-03-15", NULL);
  assert_order (plan, only);
  g_assert_nonnull (find_broken (plan, L));
  g_assert_cmpstr (((HsPlannedStop *) g_ptr_array_index (plan->stops, 0))->note, ==,
                   "starter can't be had today: " L " is not open");
  g_assert_nonnull (find_broken (plan, "A-0001"));
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
}

static void
test_supplier_without_area (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "suppliers", "name,area,stop_minutes\nHollow Lane Spares,,5\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,O," MORNING ",08:00,12:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,NONE-1,1,Hollow Lane Spares,9.00\n");
  plan = make (town, MORNING, NULL);
  assert_why (plan, "Hollow Lane Spares", -1, "Hollow Lane Spares has no area");
  assert_why (plan, "A-0001", 0, "comes from Hollow Lane Spares, which cannot be planned");
}

static void
test_impossible (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "jobs",
                JOBS "A-0001,555-0122,a,repair,promised,O," MORNING ",08:00,08:30,60\n"
                     "A-0002,555-0119,b,repair,promised,S," MORNING ",08:00,08:30,60\n");
  plan = make (town, MORNING, NULL);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->stops->len, ==, 2);
  g_assert_cmpuint (plan->broken->len, ==, 1);
  g_assert_cmpint (((HsBrokenPromise *) g_ptr_array_index (plan->broken, 0))->late_seconds, >, 0);
}

static void
test_two_vans (void)
{
  static const char *const in_a[] = { "A-0001", NULL };
  static const char *const in_b[] = { "B-0001", NULL };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) first = NULL;
  g_autoptr (HsDayPlan) second = NULL;
  g_autoptr (HsDayPlan) none = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_set (town, "vans", "A,B");
  ops_town_add (town, "jobs",
                JOBS "A-0001,555-0122,a,repair,promised,O," MORNING ",08:00,12:00,30\n"
                     "B-0001,555-0119,b,repair,promised,S," MORNING ",08:00,12:00,30\n");
  first = make (town, MORNING, "A");
  second = make (town, MORNING, "b");
  assert_order (first, in_a);
  assert_order (second, in_b);
  g_assert_cmpstr (second->van, ==, "B");
  g_assert_cmpstr (first->next_van, ==, "B");
  g_assert_cmpstr (second->next_van, ==, "A");
  none = hs_day_plan_make (town->book, ops_town_day (MORNING), "C", HS_INSTANT_NONE, &error);
  g_assert_null (none);
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
}

/* Whose day is meant where no van is named: the first's, until one is set that the book has. */
static void
test_own_van (void)
{
  static const struct
  {
    const char *set;
    const char *van;
  } rows[] = { { NULL, "A" }, { "B", "B" }, { "b", "B" }, { "Q", "A" }, { NULL, "A" } };
  g_autoptr (OpsTown) town = ops_town_new ();

  ops_town_add_morning (town);
  ops_town_set (town, "vans", "A,B");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDayPlan) plan = NULL;

      hs_book_set_van (town->book, rows[i].set);
      g_assert_cmpstr (hs_book_get_van (town->book), ==, rows[i].set);
      plan = make (town, MORNING, NULL);
      g_assert_cmpstr (plan->van, ==, rows[i].van);
      /* Calls of no van in particular stay the first one's. */
      g_assert_cmpuint (plan->stops->len, ==, g_str_equal (rows[i].van, "A") ? 8 : 0);
    }
}

static void
test_clock_change (void)
{
  static const struct
  {
    const char *day;
    const char *leave;
    const char *home;
  } rows[] = { { "2026-03-08", "07:53", "09:37" }, { "2026-11-01", "07:53", "09:37" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autofree char *jobs = g_strdup_printf (JOBS "A-0001,555-0122,a,repair,promised,O,%s,08:00,10:00,90\n",
                                               rows[i].day);
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add (town, "jobs", jobs);
      plan = make (town, rows[i].day, NULL);
      g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
      ops_town_assert_clock (town, plan->leave, rows[i].leave);
      ops_town_assert_clock (town, stop_at (plan, 0)->start, "08:00");
      ops_town_assert_clock (town, plan->home, rows[i].home);
      g_assert_cmpint (stop_at (plan, 0)->spare_seconds, ==, 7200);
    }
}

/* 24:00 is no limit, not a limit at midnight. */
static void
test_no_limit (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add_morning (town);
  ops_town_set (town, "home_by", "24:00");
  ops_town_add (town, "jobs",
                JOBS "A-0029,555-0122,late,repair,promised,O," MORNING ",23:30,24:00,60\n");
  plan = make (town, MORNING, NULL);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (plan->broken->len, ==, 0);
  ops_town_assert_clock (town, plan->home, "00:37");
}

static void
test_settings (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) none = NULL;
  g_autoptr (HsDayPlan) late = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add_morning (town);
  ops_town_set (town, "home_by", "14:00");
  late = make (town, MORNING, NULL);
  g_assert_cmpint (late->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_nonnull (find_broken (late, "home"));
  ops_town_set (town, "leave_to", "07:00");
  none = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, &error);
  g_assert_null (none);
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "leave_from"));
}

/* What stands ------------------------------------------------------------------------------------------------------ */

static void
test_standing (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) fresh = NULL;
  g_autoptr (HsDayPlan) kept = NULL;
  g_autoptr (HsDayPlan) changed = NULL;

  ops_town_add_morning (town);
  fresh = standing (town, MORNING);
  g_assert_false (fresh->accepted);
  accept (town, fresh);
  /* A longer job moves what follows, and neither leave nor order. */
  ops_town_add (town, "jobs",
                JOBS "A-0022,555-0121,slow crank; how old is my battery?,repair,promised,Q," MORNING
                     ",08:30,10:30,50\n");
  kept = standing (town, MORNING);
  g_assert_true (kept->accepted);
  assert_order (kept, morning_order);
  ops_town_assert_clock (town, kept->leave, "08:31");
  ops_town_assert_clock (town, stop_at (kept, 3)->arrive, "10:56");
  /* A promise that fits nowhere on the way: the day is planned anew. */
  ops_town_add (town, "jobs", JOBS "A-0027,555-0115,e,repair,promised,O," MORNING ",08:00,08:20,10\n");
  changed = standing (town, MORNING);
  g_assert_false (changed->accepted);
  g_assert_cmpuint (changed->stops->len, ==, 9);
}

/* Story 7 goes on: what was offered on the phone is what the day then is, by the same leave time, and a lock stays. */
static void
test_standing_squeezed (void)
{
  static const char *const order[] = { L, "A-0021", "A-0022", "A-0027", K, "A-0023", "A-0025", "A-0024", "A-0026",
                                       NULL };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) fresh = NULL;
  g_autoptr (HsDayPlan) squeezed = NULL;
  g_autoptr (HsDayPlan) more = NULL;

  ops_town_add_morning (town);
  fresh = make (town, MORNING, NULL);
  accept (town, fresh);
  lock (town, MORNING, "A-0023", TRUE);
  ops_town_add (town, "jobs", JOBS "A-0027,555-0115,e,repair,promised,O," MORNING ",09:00,17:00,40\n");
  squeezed = standing (town, MORNING);
  g_assert_true (squeezed->accepted);
  assert_order (squeezed, order);
  ops_town_assert_clock (town, squeezed->leave, "08:31");
  ops_town_assert_clock (town, stop_at (squeezed, 3)->start, "10:41");
  ops_town_assert_clock (town, squeezed->home, "17:04");
  g_assert_cmpint (squeezed->cost_cents, ==, 76439 + 7086);
  g_assert_cmpuint (squeezed->broken->len, ==, 0);
  g_assert_true (stop_at (squeezed, 5)->locked);
  /* A part that only another counter has is no matter of one place. */
  ops_town_add (town, "jobs", JOBS "A-0028,555-0111,f,repair,promised,Q," MORNING ",09:00,17:00,10\n");
  ops_town_add (town, "needs", NEEDS "A-0028,PAD-3316,1,Ridgeback Salvage Yard,20.00\n");
  more = standing (town, MORNING);
  g_assert_false (more->accepted);
  g_assert_cmpuint (more->stops->len, ==, 11);
}

/* What is behind the van stays behind it: a call that rings on the way never comes before one that has begun. */
static void
test_standing_squeezed_on_the_way (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) fresh = NULL;
  g_autoptr (HsDayPlan) squeezed = NULL;
  g_autofree char *job = NULL;
  g_autoptr (GError) error = NULL;
  guint at = G_MAXUINT, begun = G_MAXUINT;

  ops_town_add_morning (town);
  fresh = make (town, MORNING, NULL);
  accept (town, fresh);
  job = ops_town_job (town, "A-0023");
  hs_job_move_stage (town->book, job, HS_STAGE_ROLLING, NULL, ops_town_at (town, "2026-03-10T10:50"), &error);
  g_assert_no_error (error);
  ops_town_add (town, "jobs", JOBS "A-0027,555-0115,e,repair,promised,O," MORNING ",09:00,18:00,10\n");
  squeezed = standing (town, MORNING);
  g_assert_true (squeezed->accepted);
  for (guint i = 0; i < squeezed->stops->len; i++)
    {
      at = g_str_equal (stop_at (squeezed, i)->id, "A-0027") ? i : at;
      begun = g_str_equal (stop_at (squeezed, i)->id, "A-0023") ? i : begun;
    }
  g_assert_cmpuint (at, >, begun);
  g_assert_cmpuint (at, <, squeezed->stops->len);
}

static void
test_begun (void)
{
  static const HsStage stages[] = { HS_STAGE_ROLLING, HS_STAGE_ON_SITE };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) fresh = NULL;
  g_autoptr (HsDayPlan) kept = NULL;
  g_autofree char *job = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add_morning (town);
  job = ops_town_job (town, "A-0021");
  fresh = make (town, MORNING, NULL);
  accept (town, fresh);
  for (guint i = 0; i < G_N_ELEMENTS (stages); i++)
    {
      hs_job_move_stage (town->book, job, stages[i], NULL, ops_town_at (town, "2026-03-10T08:50"), &error);
      g_assert_no_error (error);
    }
  kept = standing (town, MORNING);
  g_assert_true (kept->accepted);
  assert_order (kept, morning_order);
}

static void
test_lock (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) fresh = NULL;
  g_autoptr (HsDayPlan) kept = NULL;
  g_autoptr (HsDayPlan) freed = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add_morning (town);
  fresh = make (town, MORNING, NULL);
  /* The owner drives to A-0024 before A-0025 today, and keeps it there. */
  {
    gpointer sixth = g_ptr_array_steal_index (fresh->stops, 6);

    g_ptr_array_insert (fresh->stops, 5, sixth);
  }
  accept (town, fresh);
  lock (town, MORNING, "A-0024", TRUE);
  kept = make (town, MORNING, NULL);
  g_assert_cmpstr (stop_at (kept, 5)->id, ==, "A-0024");
  g_assert_true (stop_at (kept, 5)->locked);
  g_assert_false (stop_at (kept, 4)->locked);
  g_assert_cmpint (kept->cost_cents, >, 76439);
  lock (town, MORNING, "A-0024", FALSE);
  freed = make (town, MORNING, NULL);
  assert_order (freed, morning_order);
  g_assert_false (hs_day_plan_lock (town->book, ops_town_day (MORNING), NULL, "A-9999", TRUE, ops_town_now (town),
                                    &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
}

/* Locking a call before the counter that has its part cannot be kept, and is said. */
static void
test_lock_against_parts (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (HsDayPlan) anew = NULL;

  ops_town_add_morning (town);
  plan = make (town, MORNING, NULL);
  {
    gpointer first = g_ptr_array_steal_index (plan->stops, 1);

    g_ptr_array_insert (plan->stops, 0, first);
    ((HsPlannedStop *) first)->locked = TRUE;
  }
  accept (town, plan);
  anew = make (town, MORNING, NULL);
  assert_order (anew, morning_order);
  assert_why (anew, "A-0021", 0, "locked as stop 1");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-plan/morning", test_morning);
  g_test_add_func ("/ops/day-plan/words", test_words);
  g_test_add_func ("/ops/day-plan/lunch", test_lunch);
  g_test_add_func ("/ops/day-plan/empty", test_empty);
  g_test_add_func ("/ops/day-plan/other-stages", test_other_stages);
  g_test_add_func ("/ops/day-plan/no-area", test_no_area);
  g_test_add_func ("/ops/day-plan/guess", test_guess);
  g_test_add_func ("/ops/day-plan/sources", test_sources);
  g_test_add_func ("/ops/day-plan/nobody-sells", test_nobody_sells);
  g_test_add_func ("/ops/day-plan/shut-counter", test_shut_counter);
  g_test_add_func ("/ops/day-plan/supplier-without-area", test_supplier_without_area);
  g_test_add_func ("/ops/day-plan/impossible", test_impossible);
  g_test_add_func ("/ops/day-plan/two-vans", test_two_vans);
  g_test_add_func ("/ops/day-plan/own-van", test_own_van);
  g_test_add_func ("/ops/day-plan/clock-change", test_clock_change);
  g_test_add_func ("/ops/day-plan/no-limit", test_no_limit);
  g_test_add_func ("/ops/day-plan/settings", test_settings);
  g_test_add_func ("/ops/day-plan/standing", test_standing);
  g_test_add_func ("/ops/day-plan/standing/squeezed", test_standing_squeezed);
  g_test_add_func ("/ops/day-plan/standing/squeezed-on-the-way", test_standing_squeezed_on_the_way);
  g_test_add_func ("/ops/day-plan/begun", test_begun);
  g_test_add_func ("/ops/day-plan/lock", test_lock);
  g_test_add_func ("/ops/day-plan/lock-against-parts", test_lock_against_parts);
  return g_test_run ();
}
