// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One more call on the demo morning: a 40 min call in Old Market between 09:00 and 17:00 fits best after A-0022. */

#include "hs-day-plan.h"
#include "hs-ops-error.h"
#include "ops-town.h"

#include <string.h>

#define MORNING "2026-03-10"

static GPtrArray *
squeeze (OpsTown *town, const char *area, int minutes, int from, int to, gboolean replan)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *offers = hs_day_squeeze (town->book, ops_town_day (MORNING), NULL, area, 60 * minutes, from, to, replan,
                                      HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return offers;
}

static const HsOffer *
offer_at (GPtrArray *offers, guint i)
{
  g_assert_cmpuint (i, <, offers->len);
  return g_ptr_array_index (offers, i);
}

static void
test_seventh_call (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) offers = NULL;
  const HsOffer *best;
  const HsOffer *last = NULL;

  ops_town_add_morning (town);
  offers = squeeze (town, "O", 40, 540, 1020, FALSE);
  g_assert_cmpuint (offers->len, ==, 9);
  best = offer_at (offers, 0);
  g_assert_cmpstr (best->after, ==, "A-0022");
  ops_town_assert_clock (town, best->start, "10:41");
  ops_town_assert_clock (town, best->home, "17:04");
  g_assert_cmpint (best->adds_seconds, ==, 44 * 60);
  g_assert_cmpint (best->adds_millimiles, ==, 1100);
  g_assert_cmpint (best->adds_cents, ==, 7086);
  g_assert_cmpuint (best->breaks->len, ==, 0);
  g_assert_false (best->replanned);
  for (guint i = 0; i < offers->len; i++)
    if (g_strcmp0 (offer_at (offers, i)->after, "A-0021") == 0)
      last = offer_at (offers, i);
  g_assert_nonnull (last);
  g_assert_cmpint (last->adds_cents, ==, 6914);
  g_assert_cmpuint (last->breaks->len, ==, 1);
  g_assert_cmpstr (((HsBrokenPromise *) g_ptr_array_index (last->breaks, 0))->id, ==, "A-0022");
  g_assert_cmpint (((HsBrokenPromise *) g_ptr_array_index (last->breaks, 0))->late_seconds, ==, 8 * 60);
}

/* Unbroken ones come first, each part by what it adds. */
static void
test_order (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) offers = NULL;
  gboolean broken = FALSE;

  ops_town_add_morning (town);
  offers = squeeze (town, "O", 40, 540, 1020, TRUE);
  g_assert_cmpuint (offers->len, ==, 10);
  for (guint i = 0; i < offers->len; i++)
    {
      const HsOffer *offer = offer_at (offers, i);

      g_assert_false (broken && offer->breaks->len == 0);
      if (i > 0 && broken == (offer->breaks->len > 0))
        g_assert_cmpint (offer->adds_cents, >=, offer_at (offers, i - 1)->adds_cents);
      broken = offer->breaks->len > 0;
    }
}

static void
test_replanned (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) offers = NULL;
  const HsOffer *anew = NULL;

  ops_town_add_morning (town);
  offers = squeeze (town, "O", 40, 540, 1020, TRUE);
  for (guint i = 0; i < offers->len; i++)
    if (offer_at (offers, i)->replanned)
      anew = offer_at (offers, i);
  g_assert_nonnull (anew);
  g_assert_cmpuint (anew->breaks->len, ==, 0);
  g_assert_cmpint (anew->start, >=, ops_town_at (town, "2026-03-10T09:00"));
  g_assert_cmpint (anew->start, <=, ops_town_at (town, "2026-03-10T17:00"));
}

/* Order and leave of the plan that the owner accepted are kept. */
static void
test_on_standing (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add_morning (town);
  plan = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  plan->leave -= 5 * 60;
  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  offers = squeeze (town, "O", 40, 540, 1020, FALSE);
  ops_town_assert_clock (town, offer_at (offers, 0)->start, "10:36");
}

/* The figures of the plan's own test: straight after A-0022 work may start from 10:41 to 11:39, as far as that was
 * asked for. */
static void
test_free (void)
{
  static const struct
  {
    int from;
    int to;
    const char *free_from;
    const char *free_to;
  } rows[] = {
    { 540, 1020, "10:41", "11:39" },
    { 660, 1020, "11:00", "11:39" },
    { 600, 690, "10:41", "11:30" },
    { 699, 1020, "11:39", "11:39" },
    { 700, 1020, NULL, NULL },
    { 480, 640, NULL, NULL },
  };
  g_autoptr (OpsTown) town = ops_town_new ();

  ops_town_add_morning (town);
  for (guint row = 0; row < G_N_ELEMENTS (rows); row++)
    {
      g_autoptr (GPtrArray) offers = squeeze (town, "O", 40, rows[row].from, rows[row].to, FALSE);
      guint seen = 0;

      for (guint i = 0; i < offers->len; i++)
        {
          const HsOffer *offer = offer_at (offers, i);

          g_assert_null (offer->van);
          g_assert_cmpint (offer->leave, ==, HS_INSTANT_NONE);
          if (g_strcmp0 (offer->after, "A-0022") != 0)
            continue;
          seen++;
          g_assert_cmpint (offer->free_from == HS_INSTANT_NONE, ==, rows[row].free_from == NULL);
          g_assert_cmpint (offer->free_to == HS_INSTANT_NONE, ==, rows[row].free_from == NULL);
          if (rows[row].free_from == NULL)
            continue;
          ops_town_assert_clock (town, offer->free_from, rows[row].free_from);
          ops_town_assert_clock (town, offer->free_to, rows[row].free_to);
        }
      g_assert_cmpuint (seen, ==, 1);
    }
}

static const HsOffer *
find_replanned (GPtrArray *offers)
{
  for (guint i = 0; i < offers->len; i++)
    if (offer_at (offers, i)->replanned)
      return offer_at (offers, i);
  g_assert_not_reached ();
}

/* A day timed anew says when to leave and what may be promised: both ends of it can be kept. */
static void
test_replanned_free (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) before = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  const HsOffer *anew;
  HsInstant ends[2];

  ops_town_add_morning (town);
  before = hs_day_plan_make (town->book, ops_town_day (MORNING), NULL, HS_INSTANT_NONE, NULL);
  offers = squeeze (town, "O", 40, 540, 1020, TRUE);
  anew = find_replanned (offers);
  g_assert_cmpint (anew->home - anew->leave, ==, before->home - before->leave + anew->adds_seconds);
  g_assert_cmpint (anew->free_from, >=, ops_town_at (town, MORNING "T09:00"));
  g_assert_cmpint (anew->free_from, <=, anew->start);
  g_assert_cmpint (anew->start, <=, anew->free_to);
  g_assert_cmpint (anew->free_to, <=, ops_town_at (town, MORNING "T17:00"));
  ends[0] = anew->free_from;
  ends[1] = anew->free_to;
  for (guint i = 0; i < 2; i++)
    {
      int minute = (int) (ends[i] - ops_town_at (town, MORNING "T00:00")) / 60;
      g_autoptr (GPtrArray) there = squeeze (town, "O", 40, minute, minute, TRUE);

      g_assert_cmpuint (find_replanned (there)->breaks->len, ==, 0);
      g_assert_cmpint (find_replanned (there)->start, ==, ends[i]);
    }
}

/* The second van has nothing to do: it is offered too, and cheaper than the first where that has to be late. */
static void
test_each_van (void)
{
  static const struct
  {
    const char *van;
    guint a;
    guint b;
  } rows[] = { { NULL, 9, 1 }, { "A", 9, 0 }, { "B", 0, 1 } };
  g_autoptr (OpsTown) town = ops_town_new ();

  ops_town_add_morning (town);
  ops_town_set (town, "vans", "A,B");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) offers = hs_day_squeeze (town->book, ops_town_day (MORNING), rows[i].van, "O", 40 * 60, 540,
                                                     1020, FALSE, HS_INSTANT_NONE, &error);
      guint a = 0;
      guint b = 0;

      g_assert_no_error (error);
      for (guint k = 0; k < offers->len; k++)
        if (g_str_equal (offer_at (offers, k)->van, "A"))
          a++;
        else
          b++;
      g_assert_cmpuint (a, ==, rows[i].a);
      g_assert_cmpuint (b, ==, rows[i].b);
      if (b > 0)
        g_assert_cmpuint (offer_at (offers, offers->len - 1)->breaks->len, ==, a > 0 ? 1 : 0);
    }
}

static void
test_empty_day (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) offers = squeeze (town, "O", 40, 480, 1020, FALSE);

  g_assert_cmpuint (offers->len, ==, 1);
  g_assert_null (offer_at (offers, 0)->after);
  g_assert_cmpuint (offer_at (offers, 0)->breaks->len, ==, 0);
  g_assert_cmpint (offer_at (offers, 0)->adds_millimiles, ==, 4800);
}

static void
test_refused (void)
{
  static const struct
  {
    const char *area;
    int minutes;
    int from;
    int to;
    int code;
    const char *words;
  } rows[] = {
    { "ZZ", 40, 540, 1020, HS_OPS_ERROR_NOT_FOUND, "ZZ" },
    { "X", 40, 540, 1020, HS_OPS_ERROR_REFUSED, "Far Moor" },
    { "O", 40, 1020, 540, HS_OPS_ERROR_REFUSED, "ends before it starts" },
    { "O", -1, 540, 1020, HS_OPS_ERROR_REFUSED, "minutes" },
    { "O", 1441, 540, 1020, HS_OPS_ERROR_REFUSED, "minutes" },
  };
  g_autoptr (OpsTown) town = ops_town_new ();

  ops_town_add_morning (town);
  ops_town_add (town, "areas", "code,name,signal\nX,Far Moor,none\n");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_day_squeeze (town->book, ops_town_day (MORNING), NULL, rows[i].area, 60 * rows[i].minutes,
                                     rows[i].from, rows[i].to, FALSE, HS_INSTANT_NONE, &error));
      g_assert_error (error, HS_OPS_ERROR, rows[i].code);
      g_assert_nonnull (strstr (error->message, rows[i].words));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-squeeze/seventh-call", test_seventh_call);
  g_test_add_func ("/ops/day-squeeze/order", test_order);
  g_test_add_func ("/ops/day-squeeze/replanned", test_replanned);
  g_test_add_func ("/ops/day-squeeze/on-standing", test_on_standing);
  g_test_add_func ("/ops/day-squeeze/free", test_free);
  g_test_add_func ("/ops/day-squeeze/replanned-free", test_replanned_free);
  g_test_add_func ("/ops/day-squeeze/each-van", test_each_van);
  g_test_add_func ("/ops/day-squeeze/empty-day", test_empty_day);
  g_test_add_func ("/ops/day-squeeze/refused", test_refused);
  return g_test_run ();
}
