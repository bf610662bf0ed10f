// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Keep-levels in the day's plan: named where the day stops anyway, at the cheapest such counter, and never a reason to
 * drive anywhere. */

#include "hs-day-plan.h"
#include "hs-day-short.h"
#include "hs-stock-row.h"
#include "hs-van-row.h"
#include "ops-town.h"

#define MORNING "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"
#define R "Ridgeback Salvage Yard"
#define STOCK "van,part,quantity,keep\n"
#define PRICES "supplier,part,cost,seen_on\n"

static HsDayPlan *
make (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return plan;
}

static const HsPlannedStop *
find_stop (const HsDayPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->stops->len; i++)
    if (g_str_equal (((HsPlannedStop *) g_ptr_array_index (plan->stops, i))->id, id))
      return g_ptr_array_index (plan->stops, i);
  return NULL;
}

static const HsAlsoShort *
find_short (const HsDayPlan *plan, const char *counter, const char *number)
{
  const HsPlannedStop *stop = find_stop (plan, counter);

  for (guint i = 0; stop != NULL && i < stop->also_short->len; i++)
    if (g_str_equal (((HsAlsoShort *) g_ptr_array_index (stop->also_short, i))->number, number))
      return g_ptr_array_index (stop->also_short, i);
  return NULL;
}

/* The demo morning: 1 of 2 big batteries, 3 of 4 pairs of clamps. */
static void
test_morning (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  const HsAlsoShort *battery, *clamp;

  ops_town_add_morning (town);
  plan = make (town);
  battery = find_short (plan, K, "BW-55");
  clamp = find_short (plan, L, "CLAMP-P");
  g_assert_nonnull (battery);
  g_assert_cmpstr (battery->part, ==, "battery 55 Ah flooded, Brackwater");
  g_assert_cmpint (battery->quantity_milli, ==, 1000);
  g_assert_cmpint (battery->left_milli, ==, 1000);
  g_assert_cmpint (battery->keep_milli, ==, 2000);
  g_assert_cmpint (battery->cents, ==, 6200);
  g_assert_nonnull (clamp);
  g_assert_cmpint (clamp->cents, ==, 900);
  g_assert_null (find_short (plan, K, "BW-45"));
  g_assert_cmpuint (find_stop (plan, K)->also_short->len, ==, 1);
  g_assert_cmpuint (find_stop (plan, L)->also_short->len, ==, 1);
  g_assert_cmpuint (find_stop (plan, "A-0021")->also_short->len, ==, 0);
}

/* However short the van is, the day stays what it was: same stops, same cost, also where a cheaper counter is not on
 * the way. */
static void
test_never_a_stop (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) before = NULL;
  g_autoptr (HsDayPlan) after = NULL;

  ops_town_add_morning (town);
  before = make (town);
  ops_town_add (town, "prices", PRICES R ",BW-55,1.00,2026-03-02\n" R ",NONE-1,5.00,2026-03-02\n");
  ops_town_add (town, "stock", STOCK "A,BW-55,1,10\nA,NONE-1,0,3\n");
  after = make (town);
  g_assert_cmpint (after->cost_cents, ==, before->cost_cents);
  g_assert_cmpint (after->cost_cents, ==, 76439);
  g_assert_cmpuint (after->stops->len, ==, before->stops->len);
  g_assert_null (find_stop (after, R));
  g_assert_cmpint (find_short (after, K, "BW-55")->quantity_milli, ==, 9000);
  g_assert_cmpint (find_short (after, K, "BW-55")->left_milli, ==, 1000);
  g_assert_cmpint (find_short (after, K, "BW-55")->cents, ==, 55800);
  g_assert_null (find_short (after, K, "NONE-1"));
  g_assert_null (find_short (after, L, "NONE-1"));
}

/* Two counters of the day list it: it is named once, where it is cheapest. */
static void
test_cheapest (void)
{
  static const struct
  {
    const char *price;
    const char *at;
    const char *not_at;
    gint64 cents;
  } cases[] = { { "61.99", L, K, 6199 }, { "62.00", K, L, 6200 }, { "62.01", K, L, 6200 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autofree char *csv = g_strdup_printf (PRICES L ",BW-55,%s,2026-03-02\n", cases[i].price);
      g_autoptr (HsDayPlan) plan = NULL;

      ops_town_add_morning (town);
      ops_town_add (town, "prices", csv);
      plan = make (town);
      g_assert_null (find_short (plan, cases[i].not_at, "BW-55"));
      g_assert_nonnull (find_short (plan, cases[i].at, "BW-55"));
      g_assert_cmpint (find_short (plan, cases[i].at, "BW-55")->cents, ==, cases[i].cents);
    }
}

/* Each van has its own levels. */
static void
test_other_van (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;

  ops_town_set (town, "vans", "A,B");
  ops_town_add_morning (town);
  ops_town_add (town, "stock", STOCK "A,BW-55,2,2\nA,CLAMP-P,4,4\nB,BW-45,0,5\n");
  plan = make (town);
  g_assert_cmpuint (find_stop (plan, K)->also_short->len, ==, 0);
  g_assert_cmpuint (find_stop (plan, L)->also_short->len, ==, 0);
  g_assert_cmpstr (find_stop (plan, K)->note, ==, "pick up 3");
}

static void
set_stock (OpsTown *town, const char *van_id, gint64 quantity_milli)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  HsStockRow *row;

  g_assert_true (hs_stock_row_list (store, van_id, &rows, &error));
  row = g_ptr_array_index (rows, 0);
  row->quantity_milli = quantity_milli;
  hs_store_begin (store, ops_town_now (town), &error);
  hs_stock_row_save (store, row, &error);
  hs_store_commit (store, &error);
  g_assert_no_error (error);
}

/* A count that fell below zero leaves nothing, not less than nothing. */
static void
test_below_zero (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) vans = NULL;
  g_autoptr (GPtrArray) shorts = NULL;
  const HsDayShort *lack;
  const char *van_id;

  ops_town_add (town, "stock", STOCK "A,BW-55,3,2\nA,NONE-1,0,1\nA,BW-45,1,1\nA,CP-45A,5,0\n");
  g_assert_true (hs_van_row_list (hs_book_get_store (town->book), &vans, &error));
  van_id = ((HsVanRow *) g_ptr_array_index (vans, 0))->id;
  set_stock (town, van_id, -3000);
  g_assert_true (hs_day_short_load (hs_book_get_store (town->book), van_id, &shorts, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (shorts->len, ==, 2);
  lack = g_ptr_array_index (shorts, 0);
  g_assert_cmpstr (lack->number, ==, "BW-55");
  g_assert_cmpint (lack->left_milli, ==, 0);
  g_assert_cmpint (lack->quantity_milli, ==, 2000);
  g_assert_cmpuint (lack->listers->len, ==, 1);
  lack = g_ptr_array_index (shorts, 1);
  g_assert_cmpstr (lack->number, ==, "NONE-1");
  g_assert_cmpuint (lack->listers->len, ==, 0);
}

static gboolean
is_not (const char *supplier_id, gpointer shut)
{
  return g_strcmp0 (supplier_id, shut) != 0;
}

static void
test_choosing (void)
{
  g_autoptr (HsDayShort) lack = hs_day_short_new ();

  g_assert_null (hs_day_short_choose (lack, is_not, NULL));
  hs_day_short_list (lack, "1", "Middling", 300);
  hs_day_short_list (lack, "2", "Zeal", 200);
  hs_day_short_list (lack, "3", "Able", 200);
  hs_day_short_list (lack, "4", "Dear", 400);
  g_assert_cmpstr (hs_day_short_choose (lack, is_not, NULL)->supplier, ==, "Able");
  g_assert_cmpstr (hs_day_short_choose (lack, is_not, (gpointer) "3")->supplier, ==, "Zeal");
  lack->quantity_milli = 1500;
  g_assert_cmpint (hs_day_short_cents (lack, 333), ==, 500);
  g_assert_cmpint (hs_day_short_cents (lack, -1), ==, -1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-short/morning", test_morning);
  g_test_add_func ("/ops/day-short/never-a-stop", test_never_a_stop);
  g_test_add_func ("/ops/day-short/cheapest", test_cheapest);
  g_test_add_func ("/ops/day-short/other-van", test_other_van);
  g_test_add_func ("/ops/day-short/below-zero", test_below_zero);
  g_test_add_func ("/ops/day-short/choosing", test_choosing);
  return g_test_run ();
}
