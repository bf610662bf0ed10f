// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One more call: the seventh of the demo morning by its figures, and random ones against driving each order again. */

#include "hs-squeeze.h"

#include "hs-plan-error.h"
#include "plan-morning.h"

#include <string.h>

static HsDayStop
old_market_call (GArray *spans)
{
  HsDaySpan all_day = { CLOCK (9, 0), CLOCK (17, 0) };

  g_array_append_val (spans, all_day);
  return (HsDayStop){ (char *) "A-0027", HS_DAY_STOP_CALL, OLD_MARKET, 40 * 60, FALSE, spans, 0 };
}

static const HsSqueezeOffer *
get_offer (GPtrArray *offers, guint index)
{
  return g_ptr_array_index (offers, index);
}

static const HsSqueezeBreak *
get_break (const HsSqueezeOffer *offer, guint index)
{
  return g_ptr_array_index (offer->breaks, index);
}

static const HsSqueezeOffer *
find_offer (GPtrArray *offers, const char *after_id)
{
  for (guint i = 0; i < offers->len; i++)
    if (g_strcmp0 (get_offer (offers, i)->after_id, after_id) == 0)
      return get_offer (offers, i);
  return NULL;
}

static void
test_seventh_call (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  HsDayStop call = old_market_call (spans);
  const HsSqueezeOffer *best;
  const HsSqueezeOffer *cheap;

  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
  g_assert_cmpuint (offers->len, ==, 9);
  best = get_offer (offers, 0);
  g_assert_cmpstr (best->after_id, ==, "A-0022");
  g_assert_cmpint (best->after, ==, A22);
  g_assert_cmpint (best->start_seconds, ==, CLOCK (10, 41));
  g_assert_cmpint (best->home_seconds, ==, CLOCK (17, 4));
  g_assert_cmpint (best->adds_seconds, ==, 44 * 60);
  g_assert_cmpint (best->adds_millimiles, ==, 1100);
  g_assert_cmpint (best->adds_cents, ==, 7086);
  g_assert_cmpuint (best->breaks->len, ==, 0);
  cheap = find_offer (offers, "A-0021");
  g_assert_cmpint (cheap->adds_cents, ==, 6914);
  g_assert_cmpuint (cheap->breaks->len, ==, 1);
  g_assert_cmpstr (get_break (cheap, 0)->id, ==, "A-0022");
  g_assert_cmpint (get_break (cheap, 0)->stop, ==, A22);
  g_assert_cmpint (get_break (cheap, 0)->late_seconds, ==, 8 * 60);
  g_assert_cmpstr (get_break (cheap, 0)->why, ==, "8 min late: work starts at 10:38, promised by 10:30");
  for (guint i = 1; i < offers->len; i++)
    {
      gboolean broke = get_offer (offers, i - 1)->breaks->len > 0;
      gboolean breaks = get_offer (offers, i)->breaks->len > 0;

      g_assert_false (broke && !breaks);
      if (broke == breaks)
        g_assert_cmpint (get_offer (offers, i - 1)->adds_units, <=, get_offer (offers, i)->adds_units);
    }
}

static void
test_ends_of_the_day (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  HsDayStop call = old_market_call (spans);
  const HsSqueezeOffer *offer;

  day->home_by_seconds = CLOCK (16, 30);
  call.after = G_GUINT64_CONSTANT (1) << KINGPOST;
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
  offer = find_offer (offers, "A-0023");
  g_assert_cmpstr (get_break (offer, offer->breaks->len - 1)->id, ==, "home");
  g_assert_cmpint (get_break (offer, offer->breaks->len - 1)->late_seconds, ==, offer->home_seconds - CLOCK (16, 30));
  offer = find_offer (offers, NULL);
  g_assert_cmpint (offer->after, ==, HS_DAY_NO_STOP);
  g_assert_cmpuint (offer->position, ==, 0);
  g_assert_cmpint (get_break (offer, 0)->stop, ==, MORNING_STOPS);
  g_assert_cmpstr (get_break (offer, 0)->why, ==, "it needs Kingpost Parts Counter first");
}

/* A call that pushes a counter past its shutter, and is itself too late at the end. */
static void
test_shut_counter (void)
{
  g_autoptr (HsDay) day = hs_day_new (1);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  HsDaySpan early = { CLOCK (8, 0), CLOCK (8, 5) };
  HsDayStop call = { (char *) "B", HS_DAY_STOP_CALL, 0, 3600, FALSE, spans, 0 };
  const HsSqueezeOffer *offer;

  g_array_append_val (spans, early);
  hs_day_add_stop (day, "Counter", HS_DAY_STOP_COUNTER, 0, 600);
  hs_day_add_span (day, 0, CLOCK (8, 0), CLOCK (8, 30));
  day->leave_from_seconds = day->leave_to_seconds = CLOCK (8, 0);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
  offer = find_offer (offers, NULL);
  g_assert_cmpstr (get_break (offer, 0)->why, ==, "40 min too late at Counter, which shuts at 08:30");
  offer = find_offer (offers, "Counter");
  g_assert_cmpstr (get_break (offer, 0)->id, ==, "B");
  g_assert_cmpint (get_break (offer, 0)->late_seconds, ==, 5 * 60);
}

static void
test_replan (void)
{
  g_autoptr (HsDay) day = morning_day (0);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (HsPlan) replanned = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  HsDayStop call = old_market_call (spans);
  g_autoptr (HsDay) enlarged = hs_day_copy (day);
  guint added = hs_day_add_stop (enlarged, call.id, call.kind, call.place, call.service_seconds);

  for (guint k = 0; k < spans->len; k++)
    hs_day_add_span (enlarged, added, g_array_index (spans, HsDaySpan, k).from_seconds,
                     g_array_index (spans, HsDaySpan, k).to_seconds);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_true (hs_plan_solve (enlarged, NULL, NULL, &replanned, NULL));
  g_assert_cmpint (replanned->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpuint (replanned->stops->len, ==, MORNING_STOPS + 1);
  g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
  for (guint i = 0; i < offers->len; i++)
    if (get_offer (offers, i)->breaks->len == 0)
      g_assert_cmpint (replanned->cost_units, <=, plan->cost_units + get_offer (offers, i)->adds_units);
  g_assert_cmpuint (day->stops->len, ==, MORNING_STOPS);
}

/* Each offer of random calls against an order put together and driven here. */
static void
test_driven_again (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;

  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (guint round = 0; round < 200; round++)
    {
      g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
      g_autoptr (GPtrArray) offers = NULL;
      HsDaySpan span = { g_rand_int_range (rand, CLOCK (7, 0), CLOCK (12, 0)), 0 };
      HsDayStop call = { (char *) "A-0027", HS_DAY_STOP_CALL, (guint) g_rand_int_range (rand, 0, 6),
                         g_rand_int_range (rand, 0, 7200), FALSE, spans, 0 };
      g_autoptr (HsDay) enlarged = hs_day_copy (day);

      span.to_seconds = span.from_seconds + g_rand_int_range (rand, 0, 20000);
      g_array_append_val (spans, span);
      hs_day_add_stop (enlarged, call.id, call.kind, call.place, call.service_seconds);
      hs_day_add_span (enlarged, MORNING_STOPS, span.from_seconds, span.to_seconds);
      g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
      g_assert_cmpuint (offers->len, ==, MORNING_STOPS + 1);
      for (guint i = 0; i < offers->len; i++)
        {
          const HsSqueezeOffer *offer = get_offer (offers, i);
          g_autoptr (HsPlan) driven = NULL;
          guint order[MORNING_STOPS + 1];
          guint n = 0;

          for (guint k = 0; k <= MORNING_STOPS; k++)
            order[k] = k == offer->position ? MORNING_STOPS : hs_plan_get_stop (plan, n++)->stop;
          g_assert_true (hs_plan_drive_order (enlarged, order, n + 1, plan->leave_seconds, &driven, NULL));
          g_assert_cmpint (offer->home_seconds, ==, driven->home_seconds);
          g_assert_cmpint (offer->adds_seconds, ==, driven->home_seconds - plan->home_seconds);
          g_assert_cmpint (offer->adds_millimiles, ==, driven->drive_millimiles - plan->drive_millimiles);
          g_assert_cmpint (offer->adds_units, ==, driven->cost_units - plan->cost_units);
          g_assert_cmpint (offer->start_seconds, ==, hs_plan_get_stop (driven, offer->position)->start_seconds);
          g_assert_cmpint (offer->spare_seconds, ==, driven->spare_seconds);
          g_assert_cmpuint (offer->breaks->len, ==, driven->broken->len);
        }
    }
}

/* After A-0022 the van is at Old Market at 10:41. Started at s, with 40 min of work, 9 min to Kingpost, 10 min there
 * and 4 min on, A-0023 starts at s + 63 min (by 13:00), A-0025 at s + 154 (by 16:00), A-0024 at s + 231 (by 15:30),
 * A-0026 at s + 326 (by 17:30): s is 11:39 at the latest. What was asked for does not matter. */
static void
test_free (void)
{
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;

  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (int asked = 9; asked <= 15; asked += 2)
    {
      g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
      HsDaySpan span = { CLOCK (asked, 0), CLOCK (asked, 0) };
      HsDayStop call = { (char *) "A-0027", HS_DAY_STOP_CALL, OLD_MARKET, 40 * 60, FALSE, spans, 0 };
      g_autoptr (GPtrArray) offers = NULL;
      const HsSqueezeOffer *offer;

      g_array_append_val (spans, span);
      g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
      offer = find_offer (offers, "A-0022");
      g_assert_cmpint (offer->free_from_seconds, ==, CLOCK (10, 41));
      g_assert_cmpint (offer->free_to_seconds, ==, CLOCK (11, 39));
      /* Straight after A-0021 nothing fits: A-0022 would be late. */
      offer = find_offer (offers, "A-0021");
      g_assert_cmpint (offer->free_from_seconds, ==, -1);
      g_assert_cmpint (offer->free_to_seconds, ==, -1);
      g_assert_cmpint (g_array_index (spans, HsDaySpan, 0).from_seconds, ==, span.from_seconds);
    }
}

static gboolean
may_start (const HsDay *day, const HsPlan *plan, const HsDayStop *call, guint position, gint32 start)
{
  g_autoptr (HsDay) enlarged = hs_day_copy (day);
  g_autoptr (HsPlan) driven = NULL;
  guint order[MORNING_STOPS + 1];
  guint n = 0;

  hs_day_add_stop (enlarged, call->id, call->kind, call->place, call->service_seconds);
  hs_day_add_span (enlarged, MORNING_STOPS, start, start);
  for (guint k = 0; k <= MORNING_STOPS; k++)
    order[k] = k == position ? MORNING_STOPS : hs_plan_get_stop (plan, n++)->stop;
  g_assert_true (hs_plan_drive_order (enlarged, order, n + 1, plan->leave_seconds, &driven, NULL));
  return driven->broken->len == 0;
}

/* Each minute around what is said to be free, driven here. */
static void
test_free_minutes (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  g_autoptr (HsDay) day = morning_day (0);
  g_autoptr (HsPlan) plan = NULL;
  guint seen[2] = { 0, 0 };

  day->home_by_seconds = CLOCK (18, 0);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (guint round = 0; round < 20; round++)
    {
      g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
      g_autoptr (GPtrArray) offers = NULL;
      HsDayStop call = { (char *) "A-0027", HS_DAY_STOP_CALL, (guint) g_rand_int_range (rand, 0, 6),
                         g_rand_int_range (rand, 0, 3600), FALSE, spans, 0 };

      g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
      for (guint i = 0; i < offers->len; i++)
        {
          const HsSqueezeOffer *offer = get_offer (offers, i);

          for (gint32 minute = 0; minute < 600; minute += 7)
            {
              gint32 start = offer->arrive_seconds + minute * 60;
              gboolean expected = may_start (day, plan, &call, offer->position, start);

              g_assert_cmpint (offer->free_from_seconds >= 0 && start <= offer->free_to_seconds, ==, expected);
              seen[expected]++;
            }
        }
    }
  g_assert_cmpuint (seen[FALSE], >, 100);
  g_assert_cmpuint (seen[TRUE], >, 100);
}

/* A van that stays at home leaves for the call when it is best: at 08:50 for 09:00, away for 50 min. It could be there
 * from 07:40 on, ten minutes after it may leave. One that is out has only to go on from where it is. */
static void
test_idle (void)
{
  g_autoptr (HsDay) day = hs_day_new (2);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  HsDaySpan span = { CLOCK (9, 0), CLOCK (17, 0) };
  HsDayStop call = { (char *) "C", HS_DAY_STOP_CALL, 1, 30 * 60, FALSE, spans, 0, 0 };
  g_autoptr (GPtrArray) offers = NULL;
  const HsSqueezeOffer *offer;

  hs_day_set_leg (day, 0, 1, 600, 5000);
  hs_day_set_leg (day, 1, 0, 600, 5000);
  day->leave_from_seconds = CLOCK (7, 30);
  day->leave_to_seconds = CLOCK (9, 30);
  day->minute_cents = 100;
  g_array_append_val (spans, span);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
  g_assert_cmpuint (offers->len, ==, 1);
  offer = get_offer (offers, 0);
  g_assert_cmpint (offer->start_seconds, ==, CLOCK (9, 0));
  g_assert_cmpint (offer->adds_seconds, ==, 50 * 60);
  g_assert_cmpint (offer->adds_cents, ==, 5000);
  g_assert_cmpint (offer->free_from_seconds, ==, CLOCK (7, 40));
  g_clear_pointer (&offers, g_ptr_array_unref);
  g_clear_pointer (&plan, hs_plan_free);

  day->under_way = TRUE;
  day->start_place = 1;
  day->leave_from_seconds = day->leave_to_seconds = CLOCK (10, 0);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_cmpint (plan->home_seconds, ==, CLOCK (10, 10));
  g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
  offer = get_offer (offers, 0);
  g_assert_cmpint (offer->start_seconds, ==, CLOCK (10, 0));
  g_assert_cmpint (offer->adds_seconds, ==, 30 * 60);
  g_assert_cmpint (offer->free_from_seconds, ==, CLOCK (10, 0));
}

static void
test_refused (void)
{
  static const struct
  {
    const char *id;
    guint place;
    HsDaySpan span;
    guint64 after;
    const char *message;
  } rows[] = {
    { "A-0021", 0, { 0, 1 }, 0, "call.id: stands twice in the day" },
    { "", 0, { 0, 1 }, 0, "call.id: is missing" },
    { "N", 6, { 0, 1 }, 0, "call.place: no such place" },
    { "N", 0, { 2, 1 }, 0, "call.spans[0]: ends before it starts" },
    { "N", 0, { 0, 1 }, G_GUINT64_CONSTANT (1) << 20, "call.after[20]: no such stop" },
  };
  g_autoptr (HsDay) day = morning_day (30);
  g_autoptr (HsPlan) plan = NULL;

  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
      g_autoptr (GError) error = NULL;
      HsDayStop call = { (char *) rows[i].id, HS_DAY_STOP_CALL, rows[i].place, 60, FALSE, spans, rows[i].after };
      GPtrArray *offers = NULL;

      g_array_append_val (spans, rows[i].span);
      g_assert_false (hs_squeeze_offers (day, plan, &call, NULL, &offers, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_cmpstr (error->message, ==, rows[i].message);
      g_assert_null (offers);
    }
}

static void
test_empty_day (void)
{
  g_autoptr (HsDay) day = morning_day (0);
  g_autoptr (HsPlan) plan = NULL;
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  HsDayStop call = old_market_call (spans);

  g_ptr_array_set_size (day->stops, 0);
  g_assert_true (hs_plan_solve (day, NULL, NULL, &plan, NULL));
  g_assert_true (hs_squeeze_offers (day, plan, &call, NULL, &offers, NULL));
  g_assert_cmpuint (offers->len, ==, 1);
  g_assert_null (get_offer (offers, 0)->after_id);
  g_assert_cmpint (get_offer (offers, 0)->adds_millimiles, ==, 4800);
  g_assert_cmpint (get_offer (offers, 0)->start_seconds, ==, CLOCK (9, 0));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/squeeze/seventh-call", test_seventh_call);
  g_test_add_func ("/plan/squeeze/ends-of-the-day", test_ends_of_the_day);
  g_test_add_func ("/plan/squeeze/shut-counter", test_shut_counter);
  g_test_add_func ("/plan/squeeze/replan", test_replan);
  g_test_add_func ("/plan/squeeze/driven-again", test_driven_again);
  g_test_add_func ("/plan/squeeze/free", test_free);
  g_test_add_func ("/plan/squeeze/free-minutes", test_free_minutes);
  g_test_add_func ("/plan/squeeze/idle", test_idle);
  g_test_add_func ("/plan/squeeze/refused", test_refused);
  g_test_add_func ("/plan/squeeze/empty-day", test_empty_day);
  return g_test_run ();
}
