// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The parts of the search: labels say at every leave time what driving says; a label that beats another really does;
 * bounds are the least of all orders; moves keep parts first; ties go to the first by ids. */

#include "hs-plan-tune.h"

#include "plan-morning.h"

#include <string.h>

#define SMALL 5

/* Five stops, random legs, one or two windows each, on a grid of one second. */
static HsDay *
random_day (GRand *rand)
{
  HsDay *day = hs_day_new (SMALL + 1);

  for (guint from = 0; from <= SMALL; from++)
    for (guint to = 0; to <= SMALL; to++)
      hs_day_set_leg (day, from, to, g_rand_int_range (rand, 0, 9), g_rand_int_range (rand, 0, 9) * 100);
  day->start_place = SMALL;
  day->end_place = SMALL;
  day->leave_from_seconds = 10;
  day->leave_to_seconds = 40;
  day->home_by_seconds = 500;
  day->minute_cents = 160;
  day->mile_cents = 42;
  for (guint i = 0; i < SMALL; i++)
    {
      char id[2] = { "dbaec"[i], '\0' };
      gint32 from = g_rand_int_range (rand, 5, 50);
      gint32 to = from + g_rand_int_range (rand, 0, 30);

      hs_day_add_stop (day, id, i < 2 ? HS_DAY_STOP_COUNTER : HS_DAY_STOP_CALL, i, g_rand_int_range (rand, 0, 6));
      hs_day_add_span (day, i, from, to + 6);
      hs_day_add_span (day, i, to + g_rand_int_range (rand, 8, 20), 120);
    }
  hs_day_add_after (day, 3, 0);
  return day;
}

static void
shuffle (GRand *rand, guint *order)
{
  for (guint i = 0; i < SMALL; i++)
    order[i] = i;
  for (guint i = SMALL - 1; i > 0; i--)
    {
      guint j = (guint) g_rand_int_range (rand, 0, (gint32) i + 1);
      guint swap = order[i];

      order[i] = order[j];
      order[j] = swap;
    }
}

static gint64
least_away (const HsDay *day, const guint *order, gint64 *ret_home, gint64 *ret_leave)
{
  gint64 least = G_MAXINT64;

  for (gint32 leave = day->leave_from_seconds; leave <= day->leave_to_seconds; leave++)
    {
      g_autoptr (HsPlan) plan = NULL;

      g_assert_true (hs_plan_drive_order (day, order, SMALL, leave, &plan, NULL));
      if (plan->broken->len > 0 || plan->cost_units >= least)
        continue;
      least = plan->cost_units;
      *ret_home = plan->home_seconds;
      *ret_leave = leave;
    }
  return least;
}

/* One order, all leave times: the label's finish is the cheapest drive. */
static void
test_drive (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  guint in_time = 0;

  for (guint round = 0; round < 400; round++)
    {
      g_autoptr (HsDay) day = random_day (rand);
      g_autoptr (HsFrame) frame = hs_frame_new (day, 31);
      HsTerms terms = { 10, 40, FALSE, 0, 0, 0 };
      HsFinish finish = HS_FINISH_WORST;
      gint64 home = 0;
      gint64 leave = 0;
      guint order[SMALL];
      gint64 least;
      gboolean found;

      shuffle (rand, order);
      least = least_away (day, order, &home, &leave);
      hs_frame_trim (frame, 0);
      found = hs_label_drive (frame, &terms, order, &finish);
      g_assert_cmpint (found, ==, least < G_MAXINT64);
      if (!found)
        continue;
      in_time++;
      g_assert_cmpint (finish.units, ==, least);
      g_assert_cmpint (finish.home, ==, home);
      g_assert_cmpint (finish.leave, ==, leave);
    }
  g_assert_cmpuint (in_time, >, 50);
}

/* Free at max (L + drive, ready) when leaving at L. */
static gint64
free_at (const HsLabel *label, gint64 leave)
{
  return MAX (leave + label->drive, label->ready);
}

static void
test_dominates (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);
  guint beaten = 0;

  for (guint round = 0; round < 20000; round++)
    {
      HsLabel label[2];
      gboolean better = TRUE;

      for (guint k = 0; k < 2; k++)
        {
          gint64 drive = g_rand_int_range (rand, 0, 8);
          gint64 ready = g_rand_int_range (rand, 0, 16);

          label[k] = (HsLabel){ .drive = drive,
                                .ready = MAX (drive, ready),
                                .leave_max = g_rand_int_range (rand, 0, 10),
                                .units = g_rand_int_range (rand, 0, 3),
                                .broken = (guint) g_rand_int_range (rand, 0, 2) };
        }
      for (gint64 leave = 0; leave <= label[1].leave_max; leave++)
        better &= leave <= label[0].leave_max && free_at (&label[0], leave) <= free_at (&label[1], leave);
      better &= label[0].units <= label[1].units && label[0].broken <= label[1].broken;
      g_assert_cmpint (hs_label_dominates (&label[0], &label[1]), ==, better);
      beaten += better;
    }
  g_assert_cmpuint (beaten, >, 200);
}

static void
test_compare (void)
{
  static const HsFinish rising[] = {
    { 0, 0, 0, 5, 5, 5 }, { 0, 0, 0, 5, 5, 4 }, { 0, 0, 0, 5, 6, 9 }, { 0, 0, 0, 6, 1, 9 },
    { 0, 0, 1, 1, 1, 9 }, { 0, 1, 0, 1, 1, 9 }, { 1, 0, 0, 1, 1, 9 }, HS_FINISH_WORST,
  };

  for (guint i = 0; i < G_N_ELEMENTS (rising); i++)
    for (guint j = 0; j < G_N_ELEMENTS (rising); j++)
      {
        int sign = hs_finish_compare (&rising[i], &rising[j]);

        g_assert_cmpint (sign < 0, ==, i < j);
        g_assert_cmpint (sign > 0, ==, i > j);
      }
}

typedef struct
{
  const HsFrame *frame;
  gint64 seconds;
  gint64 units;
  gint64 both;
} Least;

static void
try_rest (Least *least, guint64 done, guint last, gint64 seconds, gint64 units)
{
  const HsFrame *frame = least->frame;

  if (done == frame->all)
    {
      seconds += hs_frame_seconds (frame, last, SMALL + 1);
      units += hs_frame_units (frame, last, SMALL + 1);
      least->seconds = MIN (least->seconds, seconds);
      least->units = MIN (least->units, units);
      least->both = MIN (least->both, units + seconds * frame->second_units);
      return;
    }
  for (guint i = 0; i < SMALL; i++)
    if ((done >> i & 1) == 0 && (frame->stops[i].after & ~done) == 0)
      try_rest (least, done | HS_FRAME_BIT (i), i,
                seconds + hs_frame_seconds (frame, last, i) + frame->stops[i].service,
                units + hs_frame_units (frame, last, i));
}

static void
test_bound (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint round = 0; round < 20; round++)
    {
      g_autoptr (HsDay) day = random_day (rand);
      g_autoptr (HsFrame) frame = hs_frame_new (day, 31);
      g_autoptr (HsBound) bound = hs_bound_new (frame);

      for (guint64 done = 1; done <= frame->all; done++)
        for (guint last = 0; last < SMALL; last++)
          {
            Least least = { frame, G_MAXINT64, G_MAXINT64, G_MAXINT64 };

            if ((done >> last & 1) == 0 || ((done >> 3 & 1) != 0 && (done & 1) == 0))
              continue;
            try_rest (&least, done, last, 0, 0);
            g_assert_cmpint (hs_bound_seconds (bound, frame, done, last), ==, least.seconds);
            g_assert_cmpint (hs_bound_units (bound, frame, done, last), ==, least.units);
            g_assert_cmpint (hs_bound_both (bound, frame, done, last), ==, least.both);
          }
    }
  hs_bound_free (NULL);
}

/* Without tables the bound may be low, never high. */
static void
test_bound_from_base (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);

  for (guint round = 0; round < 50; round++)
    {
      g_autoptr (HsDay) day = random_day (rand);
      g_autoptr (HsFrame) frame = hs_frame_new (day, 31);
      g_autoptr (HsBound) bound = hs_bound_new (frame);
      Least least = { frame, G_MAXINT64, G_MAXINT64, G_MAXINT64 };

      try_rest (&least, 0, SMALL, 0, 0);
      g_assert_cmpint (hs_bound_seconds (bound, frame, 0, SMALL), <=, least.seconds);
      g_assert_cmpint (hs_bound_units (bound, frame, 0, SMALL), <=, least.units);
      g_assert_cmpint (hs_bound_both (bound, frame, 0, SMALL), <=, least.both);
    }
}

/* Moving stops about never puts a call before its parts, and what it reports is what driving says. */
static void
test_tune (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);

  for (guint round = 0; round < 100; round++)
    {
      g_autoptr (HsDay) day = random_day (rand);
      g_autoptr (HsFrame) frame = hs_frame_new (day, 31);
      HsSearch search = { NULL };
      HsTerms terms = HS_TERMS_OPEN (10, 40);
      HsFinish best = HS_FINISH_WORST;
      HsFinish begun = HS_FINISH_WORST;
      HsFinish driven = HS_FINISH_WORST;
      guint order[HS_DAY_MAX_STOPS];
      guint64 done = 0;

      g_assert_true (hs_tune_begin (frame, order));
      g_assert_true (hs_label_drive (frame, &terms, order, &begun));
      hs_tune_order (&search, frame, &terms, &best, order);
      g_assert_cmpint (hs_finish_compare (&best, &begun), <=, 0);
      g_assert_true (hs_label_drive (frame, &terms, order, &driven));
      g_assert_cmpint (hs_finish_compare (&best, &driven), ==, 0);
      for (guint k = 0; k < SMALL; k++)
        {
          g_assert_cmpuint (frame->stops[order[k]].after & ~done, ==, 0);
          done |= HS_FRAME_BIT (order[k]);
        }
      g_assert_cmpuint (done, ==, frame->all);
    }
}

/* All stops are at one place: every order is as good, so ids decide; then with a after e. */
static void
test_ties (void)
{
  g_autoptr (HsDay) day = hs_day_new (1);
  g_autoptr (HsPlan) plan = NULL;

  hs_day_set_leg (day, 0, 0, 60, 1000);
  for (guint i = 0; i < SMALL; i++)
    {
      char id[2] = { "dbaec"[i], '\0' };

      hs_day_add_stop (day, id, HS_DAY_STOP_CALL, 0, 60);
    }
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (guint k = 0; k < SMALL; k++)
    g_assert_cmpint (hs_day_get_stop (day, hs_plan_get_stop (plan, k)->stop)->id[0], ==, "abcde"[k]);
  g_clear_pointer (&plan, hs_plan_free);
  hs_day_add_after (day, 2, 3);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (guint k = 0; k < SMALL; k++)
    g_assert_cmpint (hs_day_get_stop (day, hs_plan_get_stop (plan, k)->stop)->id[0], ==, "bcdea"[k]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/search/drive", test_drive);
  g_test_add_func ("/plan/search/dominates", test_dominates);
  g_test_add_func ("/plan/search/compare", test_compare);
  g_test_add_func ("/plan/search/bound", test_bound);
  g_test_add_func ("/plan/search/bound-from-base", test_bound_from_base);
  g_test_add_func ("/plan/search/tune", test_tune);
  g_test_add_func ("/plan/search/ties", test_ties);
  return g_test_run ();
}
