// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calls are driven to where they are. A hundredth of a degree of latitude is 1,110.35 m there: × 1.4 at 30 km/h 187 s;
 * nine hundredths are long enough for × 1.3 at 40 km/h, 1169 s. */

#include "hs-day-drives.h"
#include "hs-day-plan.h"
#include "hs-job-row.h"
#include "hs-van-row.h"
#include "hs-day-solve.h"
#include "ops-town.h"

#define MORNING "2026-03-10"
#define AREAS "code,name,position\n"
#define CUSTOMERS "name,phone,kind,area,lat,lon\n"
#define JOBS "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
#define TRIPS "from,to,left,minutes,miles\n"

/* A base X, and Ada 0.01° north of Bo in Y, whose middle is 0.09° north of Ada. */
static OpsTown *
two_in_one_area (const char *areas)
{
  OpsTown *town = ops_town_new ();

  ops_town_add (town, "areas", areas);
  ops_town_set (town, "base_area", "X");
  ops_town_add (town, "customers",
                CUSTOMERS "Ada Lorn,555-0150,private,Y,40.03,-75.0\nBo Lorn,555-0151,private,Y,40.02,-75.0\n"
                          "Cy Lorn,555-0152,private,Y,,\n");
  return town;
}

static void
add_jobs (OpsTown *town, const char *second)
{
  g_autofree char *csv = g_strdup_printf (JOBS "A-0001,555-0150,a,repair,promised,Y," MORNING ",08:00,09:00,30\n"
                                               "A-0002,%s,b,repair,promised,Y," MORNING ",09:30,12:00,30\n", second);

  ops_town_add (town, "jobs", csv);
}

static HsDayPlan *
make (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return plan;
}

static const HsPlannedStop *
stop_at (const HsDayPlan *plan, guint i)
{
  g_assert_cmpuint (i, <, plan->stops->len);
  return g_ptr_array_index (plan->stops, i);
}

#define PLACED AREAS "X,Far Moor,\"40.0, -75.0\"\nY,Near Moor,\"40.12, -75.0\"\n"
#define UNPLACED AREAS "X,Far Moor,\"40.0, -75.0\"\nY,Near Moor,\n"

/* Each leg goes to the customer, not to the middle of the area; the hop between two of them is the way between them. */
static void
test_own_positions (void)
{
  static const char *const areas[] = { PLACED, UNPLACED };

  for (guint i = 0; i < G_N_ELEMENTS (areas); i++)
    {
      g_autoptr (OpsTown) town = two_in_one_area (areas[i]);
      g_autoptr (HsDayPlan) plan = NULL;

      add_jobs (town, "555-0151");
      plan = make (town);
      g_assert_cmpuint (plan->stops->len, ==, 2);
      g_assert_cmpint (stop_at (plan, 0)->drive_seconds, ==, 560);
      g_assert_cmpint (stop_at (plan, 1)->drive_seconds, ==, 187);
      g_assert_cmpint (plan->home_drive_seconds, ==, 373);
      g_assert_cmpstr (stop_at (plan, 0)->area, ==, "Y");
      g_assert_true (stop_at (plan, 0)->guess);
      g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
    }
}

/* A customer without a position is at the middle of the area: 0.12° away, and 0.09° from Ada. */
static void
test_middle (void)
{
  g_autoptr (OpsTown) town = two_in_one_area (PLACED);
  g_autoptr (HsDayPlan) plan = NULL;

  add_jobs (town, "555-0152");
  plan = make (town);
  g_assert_cmpint (stop_at (plan, 0)->drive_seconds, ==, 560);
  g_assert_cmpint (stop_at (plan, 1)->drive_seconds, ==, 1169);
}

/* An area of which nothing is known but its customers: between one of them and the rest it is a hop. */
static void
test_hop (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "areas", AREAS "Y,Near Moor,\n");
  ops_town_add (town, "travel", "from,to,minutes,miles\nT,Y,20,9.0\n");
  ops_town_add (town, "customers",
                CUSTOMERS "Ada Lorn,555-0150,private,Y,40.03,-75.0\nCy Lorn,555-0152,private,Y,,\n");
  ops_town_set (town, "hop_minutes", "6");
  add_jobs (town, "555-0152");
  plan = make (town);
  g_assert_cmpuint (plan->stops->len, ==, 2);
  g_assert_cmpint (stop_at (plan, 0)->drive_seconds, ==, 1200);
  g_assert_cmpint (stop_at (plan, 1)->drive_seconds, ==, 360);
  g_assert_true (stop_at (plan, 1)->guess);
  g_assert_cmpint (plan->home_drive_seconds, ==, 1200);
}

/* What the owner says of the areas goes before the straight line between the positions. */
static void
test_table (void)
{
  g_autoptr (OpsTown) town = two_in_one_area (PLACED);
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "travel", "from,to,minutes,miles\nX,Y,21,8.0\nY,Y,4,1.0\n");
  add_jobs (town, "555-0151");
  plan = make (town);
  g_assert_cmpint (stop_at (plan, 0)->drive_seconds, ==, 21 * 60);
  g_assert_cmpint (stop_at (plan, 0)->leg.source, ==, HS_TRAVEL_TABLED);
  g_assert_cmpint (stop_at (plan, 1)->drive_seconds, ==, 4 * 60);
  g_assert_cmpint (plan->home_drive_seconds, ==, 21 * 60);
  g_assert_cmpint (plan->millimiles, ==, 17000);
}

static void
test_trips (void)
{
  g_autoptr (OpsTown) town = two_in_one_area (PLACED);
  g_autoptr (GString) csv = g_string_new (TRIPS);
  g_autoptr (HsDayPlan) plan = NULL;

  for (int day = 1; day <= 5; day++)
    g_string_append_printf (csv, "X,Y,2026-03-%02dT11:00,17,7.0\n", day);
  ops_town_add (town, "trips", csv->str);
  add_jobs (town, "555-0151");
  plan = make (town);
  g_assert_cmpint (stop_at (plan, 0)->drive_seconds, ==, 17 * 60);
  g_assert_cmpint (stop_at (plan, 0)->leg.source, ==, HS_TRAVEL_OWN);
  g_assert_cmpint (stop_at (plan, 1)->drive_seconds, ==, 187);
  g_assert_cmpint (plan->home_drive_seconds, ==, 17 * 60);
}

static void
set_street (OpsTown *town, const char *number, const char *street, const char *area)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (GError) error = NULL;
  g_autofree char *id = ops_town_job (town, number);
  g_autoptr (HsJobRow) job = NULL;

  g_assert_true (hs_job_row_load (store, id, &job, &error));
  hs_row_set (&job->street, street);
  hs_row_set (&job->area_id, area);
  hs_store_begin (store, ops_town_now (town), &error);
  hs_job_row_save (store, job, &error);
  hs_store_commit (store, &error);
  g_assert_no_error (error);
}

/* The place of the job itself goes before its customer's; elsewhere the customer's says nothing. */
static void
test_street (void)
{
  static const struct
  {
    const char *street;
    const char *area;
    int seconds;
  } cases[] = {
    { "geo:40.01,-75.0", "Y", 187 },
    { "40.02, -75.0", "Y", 373 },
    { NULL, "Y", 560 },
    { "12 Elsewhere Lane", "Y", 1559 },
    { "geo:95,0", "Y", 1559 },
    { NULL, NULL, 560 },
    { "geo:40.01,-75.0", NULL, 187 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (OpsTown) town = two_in_one_area (PLACED);
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add (town, "jobs", JOBS "A-0001,555-0150,a,repair,promised,Y," MORNING ",08:00,12:00,30\n");
      set_street (town, "A-0001", cases[i].street, cases[i].area);
      plan = make (town);
      g_test_message ("%u: %d s", i, (int) stop_at (plan, 0)->drive_seconds);
      g_assert_cmpint (stop_at (plan, 0)->drive_seconds, ==, cases[i].seconds);
    }
}

/* The order goes by the positions: of three in one area the two that are neighbors are done one after the other. */
static void
test_order (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "areas", PLACED);
  ops_town_set (town, "base_area", "X");
  ops_town_add (town, "customers",
                CUSTOMERS "Ada Lorn,555-0150,private,Y,40.05,-75.0\nBo Lorn,555-0151,private,Y,40.01,-74.9\n"
                          "Cy Lorn,555-0152,private,Y,40.06,-75.0\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0150,a,repair,promised,Y," MORNING ",07:00,16:00,30\n"
                                   "A-0002,555-0151,b,repair,promised,Y," MORNING ",07:00,16:00,30\n"
                                   "A-0003,555-0152,c,repair,promised,Y," MORNING ",07:00,16:00,30\n");
  plan = make (town);
  g_assert_cmpuint (plan->stops->len, ==, 3);
  g_assert_cmpstr (stop_at (plan, 1)->id, !=, "A-0002");
}

/* Two calls at one position are one place, and so is one at the very middle of its area. */
static void
test_places (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDaySolved) solved = NULL;

  ops_town_add (town, "areas", PLACED);
  ops_town_set (town, "base_area", "X");
  ops_town_add (town, "customers",
                CUSTOMERS "Ada Lorn,555-0150,private,Y,40.05,-75.0\nBo Lorn,555-0151,private,Y,40.05,-75.0\n"
                          "Cy Lorn,555-0152,private,Y,40.12,-75.0\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0150,a,repair,promised,Y," MORNING ",07:00,16:00,30\n"
                                   "A-0002,555-0151,b,repair,promised,Y," MORNING ",07:00,16:00,30\n"
                                   "A-0003,555-0152,c,repair,promised,Y," MORNING ",07:00,16:00,30\n");
  solved = hs_day_solve (town->book, ops_town_day (MORNING), NULL, HS_DAY_FRESH, NULL, HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (solved->build->places->len, ==, 3);
  g_assert_cmpint (hs_day_build_place (solved->build, "Y"), >=, 0);
  g_assert_cmpint (hs_day_build_place (solved->build, "Y@40.05000,-75.00000"), >=, 0);
  g_assert_true (hs_day_drives_known (solved->facts, "Y", "Y@40.05000,-75.00000"));
  g_assert_false (hs_day_drives_known (solved->facts, "S", "Y@40.05000,-75.00000"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-spots/own-positions", test_own_positions);
  g_test_add_func ("/ops/day-spots/middle", test_middle);
  g_test_add_func ("/ops/day-spots/hop", test_hop);
  g_test_add_func ("/ops/day-spots/table", test_table);
  g_test_add_func ("/ops/day-spots/trips", test_trips);
  g_test_add_func ("/ops/day-spots/street", test_street);
  g_test_add_func ("/ops/day-spots/order", test_order);
  g_test_add_func ("/ops/day-spots/places", test_places);
  return g_test_run ();
}
