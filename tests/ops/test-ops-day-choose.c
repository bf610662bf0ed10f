// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which counter the parts come from: sums done by hand, and invented mornings in which each need is sent to each
 * counter in turn, the day planned each time with that one way, and the cheapest of them all taken. */

#include "hs-day-choose.h"
#include "hs-day-plan.h"
#include "hs-day-solve.h"
#include "hs-settings-op.h"
#include "ops-town.h"

#include <time.h>

#define DAY "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"
#define R "Ridgeback Salvage Yard"
#define JOBS "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
#define NEEDS "job,part,quantity,supplier,quoted\n"
#define PRICES "supplier,part,cost,seen_on\n"

static HsDayPlan *
make (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_make (town->book, ops_town_day (DAY), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return plan;
}

static HsDaySolved *
solve (OpsTown *town, HsDaySolveHow how)
{
  g_autoptr (GError) error = NULL;
  HsDaySolved *solved = hs_day_solve (town->book, ops_town_day (DAY), NULL, how, NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return solved;
}

static guint
count_counters (const HsDayPlan *plan)
{
  guint n = 0;

  for (guint i = 0; i < plan->stops->len; i++)
    n += ((const HsPlannedStop *) g_ptr_array_index (plan->stops, i))->is_counter;
  return n;
}

static void
assert_stops_at (const HsDayPlan *plan, const char *const *counters)
{
  g_assert_cmpuint (count_counters (plan), ==, g_strv_length ((char **) counters));
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (stop->is_counter && !g_strv_contains (counters, stop->id))
        g_error ("%s", stop->id);
    }
}

/* One call at Sedge End. By Kingpost: 8 + 10 + 16 + 30 + 21 = 85 min and 2.9 + 8.1 + 11.2 = 22.2 mi, 145.32 and the
 * part at 27.00. By Ridgeback, next to the call: 21 + 15 + 6 + 30 + 21 = 93 min and 11.2 + 2.0 + 11.2 = 24.4 mi, 159.05
 * (159.048) and the part. At 13.25 both are within a cent: 172.298 against 172.32; at 13.28 Kingpost is cheaper. */
static void
test_way_and_price (void)
{
  static const struct
  {
    const char *day;
    const char *price;
    const char *counter;
  } rows[] = {
    { DAY, "27.00", K }, { DAY, "13.28", K }, { DAY, "13.25", R }, { DAY, "0.00", R },
    /* Ridgeback is shut on Mondays. */
    { "2026-03-09", "0.00", K },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autofree char *prices = g_strdup_printf (PRICES R ",PAD-3316,%s,2026-03-01\n", rows[i].price);
      g_autofree char *jobs = g_strdup_printf (JOBS "A-0001,555-0122,a,repair,promised,S,%s,10:00,15:00,30\n",
                                               rows[i].day);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add (town, "prices", prices);
      ops_town_add (town, "jobs", jobs);
      ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\n");
      plan = hs_day_plan_make (town->book, ops_town_day (rows[i].day), NULL, HS_INSTANT_NONE, &error);
      g_assert_no_error (error);
      g_test_message ("%s for %s", rows[i].price, rows[i].day);
      g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
      assert_stops_at (plan, (const char *const[]){ rows[i].counter, NULL });
    }
}

/* Two of a part cost twice: 8.00 more a piece is 16.00 more for two, and more than the 13.73 that the way saves. */
static void
test_quantity (void)
{
  static const struct
  {
    const char *quantity;
    const char *counter;
  } rows[] = { { "1", K }, { "2", R } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autofree char *needs = g_strdup_printf (NEEDS "A-0001,PAD-3316,%s,,\n", rows[i].quantity);
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add (town, "prices", PRICES R ",PAD-3316,19.00,2026-03-01\n");
      ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,S," DAY ",10:00,15:00,30\n");
      ops_town_add (town, "needs", needs);
      plan = make (town);
      assert_stops_at (plan, (const char *const[]){ rows[i].counter, NULL });
    }
}

/* Each part has a cheaper counter of its own (27.00 against 28.00, 118.00 against 120.00), but one stop for both is
 * cheaper than two, and the way by Kingpost is 2 min and 1.6 mi shorter than by Larch: 3.87 against 1.00. */
static void
test_one_stop (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "prices", PRICES K ",ST-1315,120.00,2026-03-09\n" L ",PAD-3316,28.00,2026-03-09\n");
  ops_town_add (town, "jobs",
                JOBS "A-0001,555-0122,a,repair,promised,F," DAY ",09:00,15:00,30\n"
                     "A-0002,555-0111,b,repair,promised,F," DAY ",09:00,15:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\nA-0002,ST-1315,1,,\n");
  plan = make (town);
  assert_stops_at (plan, (const char *const[]){ K, NULL });
}

/* The owner has said which counter; a cheaper one changes nothing. */
static void
test_named (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "prices", PRICES L ",PAD-3316,1.00,2026-03-09\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,O," DAY ",10:00,15:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1," K ",\n");
  plan = make (town);
  assert_stops_at (plan, (const char *const[]){ K, NULL });
}

/* Larch is next door and cheap, but opens at 08:00, and the work has to start by 08:10. Kingpost opens at 07:30. */
static void
test_hours (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_add (town, "prices", PRICES L ",PAD-3316,1.00,2026-03-09\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,O," DAY ",07:50,08:10,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\n");
  ops_town_set (town, "spare_minutes", "0");
  plan = make (town);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  assert_stops_at (plan, (const char *const[]){ K, NULL });
}

/* Being home late is worse than any way, but better than a promise not kept. */
static void
test_home_late (void)
{
  static const struct
  {
    const char *home_by;
    HsPlanStatus status;
  } rows[] = { { "16:30", HS_PLAN_OPTIMAL }, { "15:20", HS_PLAN_IMPOSSIBLE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add (town, "prices", PRICES L ",PAD-3316,1.00,2026-03-09\n");
      ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,F," DAY ",15:00,16:00,30\n");
      ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\n");
      ops_town_set (town, "home_by", rows[i].home_by);
      plan = make (town);
      g_assert_cmpint (plan->status, ==, rows[i].status);
      assert_stops_at (plan, (const char *const[]){ L, NULL });
    }
}

/* That she will be home late is no reason not to weigh the way: Ridgeback is the cheapest, but far off. */
static void
test_home_late_by_the_way (void)
{
  static const char *const home_by[] = { "12:00", "10:20" };

  for (guint i = 0; i < G_N_ELEMENTS (home_by); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add (town, "prices", PRICES R ",PAD-3316,1.00,2026-03-09\n");
      ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,F," DAY ",10:00,11:00,30\n");
      ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\n");
      ops_town_set (town, "home_by", home_by[i]);
      plan = make (town);
      assert_stops_at (plan, (const char *const[]){ K, NULL });
    }
}

static const HsDayNeed *
only_need (const HsDaySolved *solved)
{
  g_assert_cmpuint (solved->facts->needs->len, ==, 1);
  return g_ptr_array_index (solved->facts->needs, 0);
}

/* What was accepted keeps its counter when another becomes cheaper, and takes that counter's price of today. */
static void
test_kept (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (HsDaySolved) kept = NULL;
  g_autoptr (HsDaySolved) anew = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,S," DAY ",10:00,15:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\n");
  plan = make (town);
  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  ops_town_add (town, "prices", PRICES R ",PAD-3316,1.00,2026-03-10\n" K ",PAD-3316,28.00,2026-03-10\n");
  kept = solve (town, HS_DAY_STANDING);
  g_assert_true (kept->accepted);
  g_assert_cmpstr (hs_day_facts_find_counter (kept->facts, only_need (kept)->supplier_id)->name, ==, K);
  g_assert_cmpint (only_need (kept)->unit_cents, ==, 2800);
  anew = solve (town, HS_DAY_FRESH);
  g_assert_cmpstr (hs_day_facts_find_counter (anew->facts, only_need (anew)->supplier_id)->name, ==, R);
  g_assert_cmpint (only_need (anew)->unit_cents, ==, 100);
}

/* The cost of the whole day with its parts; and without the only counter that it goes to. */
static void
test_without (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDaySolved) solved = NULL;
  g_autoptr (HsSolution) with = NULL;
  g_autoptr (HsSolution) without = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "prices", PRICES R ",PAD-3316,20.00,2026-03-01\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,S," DAY ",10:00,15:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\n");
  solved = solve (town, HS_DAY_FRESH);
  g_assert_true (hs_day_choose_without (solved->build, NULL, NULL, &with, &error));
  g_assert_cmpint (with->cost_cents, ==, 14532 + 2700);
  g_assert_true (hs_day_choose_without (solved->build, only_need (solved)->supplier_id, NULL, &without, &error));
  g_assert_cmpint (without->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (without->unserved->len, ==, 1);
}

static void
assert_same_stops (const HsDayPlan *plan, const HsDayPlan *other)
{
  g_assert_cmpuint (plan->stops->len, ==, other->stops->len);
  for (guint i = 0; i < plan->stops->len; i++)
    g_assert_cmpstr (((const HsPlannedStop *) g_ptr_array_index (plan->stops, i))->id, ==,
                     ((const HsPlannedStop *) g_ptr_array_index (other->stops, i))->id);
}

/* Calls all over town with all day long, each of a part that every counter has: more ways than are gone through. */
static void
add_wide_day (OpsTown *town, guint n_calls)
{
  static const char *const at[] = { K, L, R };
  static const char *const numbers[] = { "PAD-3316", "FF-1011", "GP-20D", "ST-1315", "ALT-9912", "CLAMP-P" };
  g_autoptr (GString) jobs = g_string_new (JOBS);
  g_autoptr (GString) needs = g_string_new (NEEDS);
  g_autoptr (GString) prices = g_string_new (PRICES);

  for (guint i = 0; i < n_calls; i++)
    {
      g_string_append_printf (jobs, "A-00%02u,555-0122,a,repair,promised,%c," DAY ",08:00,%u:00,%u\n", i + 1,
                              "QOHFS"[i % 5], 16 + i % 3, 5 + i % 3);
      for (guint k = 0; k < 1 + i % 3; k++)
        g_string_append_printf (needs, "A-00%02u,%s,1,,\n", i + 1, numbers[(i + k) % G_N_ELEMENTS (numbers)]);
    }
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    for (guint c = 0; c < G_N_ELEMENTS (at); c++)
      g_string_append_printf (prices, "%s,%s,%u.00,2026-03-10\n", at[c], numbers[i], 20 + 7 * ((i * 5 + c * 3) % 7));
  ops_town_add (town, "prices", prices->str);
  ops_town_add (town, "jobs", jobs->str);
  ops_town_add (town, "needs", needs->str);
}

/* A choice that was not gone through whole is not called proven, nor is the day that rests on it. It ends by count,
 * after a second of the processor or so, and is the same each time. */
static void
test_not_proven (void)
{
  static const struct
  {
    guint calls;
    gboolean proven;
  } rows[] = { { 3, TRUE }, { 9, TRUE }, { 20, FALSE }, { 40, FALSE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDaySolved) solved = NULL;
      g_autoptr (HsDayPlan) plan = NULL;
      g_autoptr (HsDayPlan) again = NULL;
      clock_t began;

      add_wide_day (town, rows[i].calls);
      began = clock ();
      solved = solve (town, HS_DAY_FRESH);
      g_test_message ("%u calls: %.3f s", rows[i].calls, (double) (clock () - began) / CLOCKS_PER_SEC);
      g_assert_cmpfloat ((double) (clock () - began) / CLOCKS_PER_SEC, <, 6.0);
      g_assert_cmpint (solved->facts->unproven_choice, ==, !rows[i].proven);
      plan = hs_day_solved_describe (solved);
      g_assert_cmpint (plan->proven, ==, rows[i].proven);
      g_assert_cmpint (plan->status, ==, rows[i].proven ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND);
      again = make (town);
      assert_same_stops (plan, again);
    }
}

/* The order may be the best of all, and other counters better still; and the other way round. */
static void
test_proven_both (void)
{
  static const struct
  {
    gboolean order;
    gboolean choice;
    gboolean both;
    HsPlanStatus status;
  } rows[] = {
    { TRUE, TRUE, TRUE, HS_PLAN_OPTIMAL },
    { TRUE, FALSE, FALSE, HS_PLAN_BEST_FOUND },
    { FALSE, TRUE, FALSE, HS_PLAN_BEST_FOUND },
    { FALSE, FALSE, FALSE, HS_PLAN_BEST_FOUND },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDaySolved) solved = NULL;

  add_wide_day (town, 3);
  solved = solve (town, HS_DAY_FRESH);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDayPlan) plan = NULL;

      solved->plan->proven = rows[i].order;
      solved->plan->status = rows[i].order ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND;
      solved->facts->unproven_choice = !rows[i].choice;
      plan = hs_day_solved_describe (solved);
      g_assert_cmpint (plan->proven, ==, rows[i].both);
      g_assert_cmpint (plan->status, ==, rows[i].status);
    }
}

/* Mornings --------------------------------------------------------------------------------------------------------- */

#define MORNINGS 24
#define N_NEEDS 3

static const char *const counters[] = { K, L, R };
static const char *const parts[] = { "PAD-3316", "FF-1011", "GP-20D" };

typedef struct
{
  int windows[N_NEEDS][2];
  char areas[N_NEEDS];
  int prices[N_NEEDS][3];
} Morning;

static Morning
invent (GRand *rand)
{
  Morning morning;

  for (int i = 0; i < N_NEEDS; i++)
    {
      morning.areas[i] = "QOHFS"[g_rand_int_range (rand, 0, 5)];
      morning.windows[i][0] = g_rand_int_range (rand, 9 * 60, 13 * 60);
      morning.windows[i][1] = morning.windows[i][0] + g_rand_int_range (rand, 60, 240);
      for (int c = 0; c < 3; c++)
        morning.prices[i][c] = g_rand_int_range (rand, 1000, 4000);
    }
  return morning;
}

static OpsTown *
settle (const Morning *morning)
{
  OpsTown *town = ops_town_new ();
  g_autoptr (GString) jobs = g_string_new (JOBS);
  g_autoptr (GString) needs = g_string_new (NEEDS);
  g_autoptr (GString) prices = g_string_new (PRICES);

  for (int i = 0; i < N_NEEDS; i++)
    {
      g_string_append_printf (jobs, "A-000%d,555-0122,a,repair,promised,%c," DAY ",%02d:%02d,%02d:%02d,30\n", i + 1,
                              morning->areas[i], morning->windows[i][0] / 60, morning->windows[i][0] % 60,
                              morning->windows[i][1] / 60, morning->windows[i][1] % 60);
      g_string_append_printf (needs, "A-000%d,%s,1,,\n", i + 1, parts[i]);
      for (int c = 0; c < 3; c++)
        g_string_append_printf (prices, "%s,%s,%d.%02d,2026-03-10\n", counters[c], parts[i],
                                morning->prices[i][c] / 100, morning->prices[i][c] % 100);
    }
  ops_town_add (town, "prices", prices->str);
  ops_town_add (town, "jobs", jobs->str);
  ops_town_add (town, "needs", needs->str);
  return town;
}

static gint64
cost_with_parts (const HsPlan *plan, const HsDayFacts *facts)
{
  gint64 cents = plan->cost_cents;

  for (guint i = 0; i < facts->needs->len; i++)
    cents += ((const HsDayNeed *) g_ptr_array_index (facts->needs, i))->unit_cents;
  return cents;
}

/* Sends each need of the loaded morning to the counter that @way says for it. */
static void
send_needs (HsDayFacts *facts, const Morning *morning, int way)
{
  for (guint i = 0; i < facts->needs->len; i++)
    {
      HsDayNeed *need = g_ptr_array_index (facts->needs, i);
      const HsDayCall *call = g_ptr_array_index (facts->calls, need->call);
      int part = call->number[5] - '1';
      int counter = part == 0 ? way % 3 : part == 1 ? way / 3 % 3 : way / 9;

      for (guint c = 0; c < facts->counters->len; c++)
        {
          const HsDayCounter *at = g_ptr_array_index (facts->counters, c);

          if (!g_str_equal (at->name, counters[counter]))
            continue;
          g_free (need->supplier_id);
          need->supplier_id = g_strdup (at->supplier_id);
          need->unit_cents = morning->prices[part][counter];
        }
    }
  hs_day_facts_want (facts);
  hs_day_facts_drop_unwanted (facts, NULL);
}

static gint64
cheapest_of_all (OpsTown *town, const Morning *morning)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsVanRow) van = hs_day_find_van (town->book, NULL, &error);
  gint64 least = G_MAXINT64;

  for (int way = 0; way < 27; way++)
    {
      g_autoptr (HsDayFacts) facts = hs_day_facts_load (town->book, ops_town_day (DAY), van, NULL, NULL, NULL, &error);
      g_autoptr (HsDayBuild) build = NULL;
      g_autoptr (HsPlan) plan = NULL;

      g_assert_no_error (error);
      send_needs (facts, morning, way);
      build = hs_day_build (facts, NULL, &error);
      g_assert_no_error (error);
      g_assert_true (hs_plan_solve (build->day, NULL, NULL, &plan, &error));
      if (plan->status == HS_PLAN_OPTIMAL)
        least = MIN (least, cost_with_parts (plan, facts));
    }
  return least;
}

static void
test_mornings (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260310);
  guint kept = 0;

  for (guint i = 0; i < MORNINGS; i++)
    {
      Morning morning = invent (rand);
      g_autoptr (OpsTown) town = settle (&morning);
      g_autoptr (HsDaySolved) solved = solve (town, HS_DAY_FRESH);
      gint64 least = cheapest_of_all (town, &morning);

      g_test_message ("morning %u", i);
      g_assert_cmpint (solved->plan->status == HS_PLAN_OPTIMAL, ==, least != G_MAXINT64);
      if (least == G_MAXINT64)
        continue;
      g_assert_cmpint (cost_with_parts (solved->plan, solved->facts), ==, least);
      kept++;
    }
  g_assert_cmpuint (kept, >, MORNINGS / 2);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-choose/way-and-price", test_way_and_price);
  g_test_add_func ("/ops/day-choose/quantity", test_quantity);
  g_test_add_func ("/ops/day-choose/one-stop", test_one_stop);
  g_test_add_func ("/ops/day-choose/named", test_named);
  g_test_add_func ("/ops/day-choose/hours", test_hours);
  g_test_add_func ("/ops/day-choose/home-late", test_home_late);
  g_test_add_func ("/ops/day-choose/home-late-by-the-way", test_home_late_by_the_way);
  g_test_add_func ("/ops/day-choose/kept", test_kept);
  g_test_add_func ("/ops/day-choose/without", test_without);
  g_test_add_func ("/ops/day-choose/not-proven", test_not_proven);
  g_test_add_func ("/ops/day-choose/proven-both", test_proven_both);
  g_test_add_func ("/ops/day-choose/mornings", test_mornings);
  return g_test_run ();
}
