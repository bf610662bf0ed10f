// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why not otherwise: each call of the demo morning first, each counter left out, with sums done by hand. */

#include "hs-day-others.h"

#include "hs-day-solve.h"
#include "ops-town.h"

#define DAY "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"
#define R "Ridgeback Salvage Yard"
#define JOBS "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
#define NEEDS "job,part,quantity,supplier,quoted\n"
#define PRICES "supplier,part,cost,seen_on\n"

static GPtrArray *
ask (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *others = hs_day_others (town->book, ops_town_day (DAY), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return others;
}

static const HsDayOther *
find (GPtrArray *others, HsDayOtherKind kind, const char *id)
{
  for (guint i = 0; i < others->len; i++)
    {
      const HsDayOther *other = g_ptr_array_index (others, i);

      if (other->kind == kind && g_str_equal (other->id, id))
        return other;
    }
  return NULL;
}

/* Every call but the first one of the plan is asked about, in the order of the plan, then both counters. A-0023 may
 * not start before 11:00, when A-0021's window is over; so it is with all later ones. */
static void
test_morning (void)
{
  static const char *const order[] = { "A-0022", "A-0023", "A-0025", "A-0024", "A-0026", L, K };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) others = NULL;

  ops_town_add_morning (town);
  others = ask (town);
  g_assert_cmpuint (others->len, ==, G_N_ELEMENTS (order));
  for (guint i = 0; i < others->len; i++)
    {
      const HsDayOther *other = g_ptr_array_index (others, i);

      g_assert_cmpstr (other->id, ==, order[i]);
      g_assert_cmpint (other->kind, ==, i < 5 ? HS_DAY_OTHER_FIRST : HS_DAY_OTHER_WITHOUT);
      if (i > 0)
        g_assert_cmpuint (other->breaks->len, >, 0);
    }
}

/* Quayside then Old Market or the other way round; both windows are wide. Quayside first: 9 + 30 + 6 + 30 + 7 = 82 min
 * and 3.1 + 1.9 + 2.4 = 7.4 mi, whichever way: the tables are the same both ways. With Highcroft as the third: Q, O, H
 * is 9 + 6 + 10 + 12 = 37 min and 3.1 + 1.9 + 4.2 + 5.0 = 14.2 mi; H first (H, O, Q) is as much; O first (O, Q, H) is
 * 7 + 6 + 15 + 12 = 40 min and 2.4 + 1.9 + 6.1 + 5.0 = 15.4 mi: 3 min and 1.2 mi more, 5.30 (5.304). */
static void
test_first (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) others = NULL;
  const HsDayOther *other;

  ops_town_add (town, "jobs",
                JOBS "A-0001,555-0122,a,repair,promised,Q," DAY ",08:00,15:00,30\n"
                     "A-0002,555-0111,b,repair,promised,O," DAY ",08:00,15:00,30\n"
                     "A-0003,555-0114,c,repair,promised,H," DAY ",08:00,15:00,30\n");
  others = ask (town);
  g_assert_cmpuint (others->len, ==, 2);
  other = find (others, HS_DAY_OTHER_FIRST, "A-0002");
  g_assert_cmpint (other->adds_seconds, ==, 180);
  g_assert_cmpint (other->adds_millimiles, ==, 1200);
  g_assert_cmpint (other->adds_cents, ==, 530);
  g_assert_cmpuint (other->breaks->len, ==, 0);
}

/* By Kingpost 145.32 and 27.00; by Ridgeback 159.05 and 20.00 (see the test of choosing): what Kingpost saves is 6.72
 * (6.724), 8 min and 2.2 mi. */
static void
test_without (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) others = NULL;
  const HsDayOther *other;

  ops_town_add (town, "prices", PRICES R ",PAD-3316,20.00,2026-03-01\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,S," DAY ",10:00,15:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\n");
  others = ask (town);
  g_assert_cmpuint (others->len, ==, 1);
  other = find (others, HS_DAY_OTHER_WITHOUT, K);
  g_assert_cmpint (other->adds_seconds, ==, 480);
  g_assert_cmpint (other->adds_millimiles, ==, 2200);
  g_assert_cmpint (other->adds_cents, ==, 672);
  g_assert_cmpuint (other->breaks->len, ==, 0);
}

/* Nobody else has it: the call is lost. */
static void
test_only_one (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) others = NULL;
  const HsDayOther *other;

  ops_town_add (town, "prices", PRICES R ",FF-1011,1.00,2026-03-01\n");
  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,F," DAY ",10:00,15:00,30\n");
  ops_town_add (town, "needs", NEEDS "A-0001,PAD-3316,1,,\nA-0001,FF-1011,1,,\n");
  others = ask (town);
  other = find (others, HS_DAY_OTHER_WITHOUT, K);
  g_assert_nonnull (other);
  g_assert_cmpuint (other->breaks->len, ==, 1);
  g_assert_cmpstr (((HsBrokenPromise *) g_ptr_array_index (other->breaks, 0))->id, ==, "A-0001");
}

static void
test_empty (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) others = ask (town);
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (others->len, ==, 0);
  g_assert_null (hs_day_others (town->book, ops_town_day (DAY), "Z", HS_INSTANT_NONE, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-others/morning", test_morning);
  g_test_add_func ("/ops/day-others/first", test_first);
  g_test_add_func ("/ops/day-others/without", test_without);
  g_test_add_func ("/ops/day-others/only-one", test_only_one);
  g_test_add_func ("/ops/day-others/empty", test_empty);
  return g_test_run ();
}
