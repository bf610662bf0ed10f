// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days whose drives hang on the hour: what is proposed (sharing calls, choosing counters) is what the plan says once it
 * is accepted, to the second; and it heeds the hours where that changes who goes or what is bought where. */

#include "hs-day-others.h"
#include "ops-share.h"

#define JOB(number, area, from, to, minutes) \
  number ",555-0122,a,repair,promised," area "," SHARE_DAY "," from "," to "," #minutes "\n"

static const char *const clocks[] = { "08:00", "12:00", "17:00" };

/* @n trips from @from to @to in the morning, at midday and in the afternoon. */
static void
add_trips (GString *csv, char from, char to, guint n, const int *minutes)
{
  for (guint k = 0; k < G_N_ELEMENTS (clocks); k++)
    for (guint day = 1; day <= n; day++)
      g_string_append_printf (csv, "%c,%c,2026-02-%02uT%s,%d,3.0\n", from, to, day, clocks[k], minutes[k]);
}

static GString *
new_trips (void)
{
  return g_string_new ("from,to,left,minutes,miles\n");
}

/* Every way of the town, each with its own minutes by the hour, of one to six trips each. */
static void
add_any_trips (OpsTown *town, GRand *random)
{
  g_autoptr (GString) csv = new_trips ();

  for (const char *from = "TQOHFS"; *from != '\0'; from++)
    for (const char *to = "TQOHFS"; *to != '\0'; to++)
      {
        const int minutes[] = { g_rand_int_range (random, 5, 45), g_rand_int_range (random, 5, 45),
                                g_rand_int_range (random, 5, 45) };

        if (*from != *to)
          add_trips (csv, *from, *to, (guint) g_rand_int_range (random, 1, 7), minutes);
      }
  ops_town_add (town, "trips", csv->str);
}

static void
add_any_jobs (OpsTown *town, GRand *random, guint n)
{
  g_autoptr (GString) csv = g_string_new (SHARE_JOBS);

  for (guint i = 1; i <= n; i++)
    {
      int from = 7 + g_rand_int_range (random, 0, 8);

      g_string_append_printf (csv, "A-%04u,555-0122,a,repair,promised,%c," SHARE_DAY ",%02d:00,%02d:00,%d\n", i,
                              "TQOHFS"[g_rand_int_range (random, 0, 6)], from, from + g_rand_int_range (random, 1, 5),
                              10 * g_rand_int_range (random, 1, 7));
    }
  ops_town_add (town, "jobs", csv->str);
}

static HsDayPlan *
standing (OpsTown *town, const char *van)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_standing (town->book, ops_town_day (SHARE_DAY), van, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return plan;
}

/* Sharing ---------------------------------------------------------------------------------------------------------- */

static void
assert_stands (OpsTown *town, const HsShareRoute *route)
{
  g_autoptr (HsDayPlan) plan = standing (town, route->van);
  guint at = 0;

  g_assert_cmpint (plan->leave, ==, route->leave);
  g_assert_cmpint (plan->home, ==, route->home);
  g_assert_cmpint (plan->drive_seconds, ==, route->leave == HS_INSTANT_NONE ? 0 : route->drive_seconds);
  for (guint i = 0; i < route->stops->len; i++)
    {
      const HsShareStop *stop = g_ptr_array_index (route->stops, i);
      const HsPlannedStop *planned;

      if (stop->kind == HS_SHARE_BREAK)
        continue;
      planned = g_ptr_array_index (plan->stops, at++);
      g_assert_cmpstr (planned->row_id, ==, stop->row_id);
      g_assert_cmpint (planned->arrive, ==, stop->arrive);
      g_assert_cmpint (planned->start, ==, stop->start);
      g_assert_cmpint (planned->depart, ==, stop->depart);
    }
  g_assert_cmpuint (plan->stops->len, ==, at);
}

static gboolean
leaves_out (const HsSharePlan *plan)
{
  for (guint i = 0; i < plan->broken->len; i++)
    if (((const HsBrokenPromise *) g_ptr_array_index (plan->broken, i))->late_seconds < 0)
      return TRUE;
  return FALSE;
}

static void
test_shared (void)
{
  GRand *random = g_rand_new_with_seed (11);
  guint accepted = 0;

  for (guint n = 0; n < 20; n++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (HsSharePlan) plan = NULL;
      g_autoptr (GError) error = NULL;

      add_any_trips (town, random);
      add_any_jobs (town, random, 5);
      plan = share_at (town, "06:00");
      if (plan->moves->len == 0 || leaves_out (plan))
        continue;
      hs_share_accept (town->book, plan, ops_town_at (town, SHARE_DAY "T06:00"), &error);
      g_assert_no_error (error);
      for (guint i = 0; i < plan->routes->len; i++)
        assert_stands (town, g_ptr_array_index (plan->routes, i));
      accepted++;
    }
  g_assert_cmpuint (accepted, >=, 8);
  g_rand_free (random);
}

/* What stands is compared with at its hours, too: the day of one van, timed as the plan says. */
static void
test_compared (void)
{
  GRand *random = g_rand_new_with_seed (12);

  for (guint n = 0; n < 5; n++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (HsSharePlan) plan = NULL;
      g_autoptr (HsDayPlan) now = NULL;

      add_any_trips (town, random);
      add_any_jobs (town, random, 4);
      share_accept_order (town, "A");
      now = standing (town, "A");
      plan = share_at (town, "06:00");
      g_assert_cmpint (plan->standing.seconds, ==, now->home - now->leave);
      g_assert_cmpint (plan->standing.cents, ==, now->cost_cents);
      g_assert_cmpint (plan->standing.millimiles, ==, now->millimiles);
    }
  g_rand_free (random);
}

/* Two calls at nine. By the figures of the day van A could do both, 9 min to Quayside and 6 on to Old Market; but at
 * that hour it takes half an hour from one to the other, and the second is only in time with another van. */
static void
test_who (void)
{
  static const int jam[] = { 30, 6, 6 };
  g_autoptr (OpsTown) town = share_town ();
  g_autoptr (GString) csv = new_trips ();
  g_autoptr (HsSharePlan) plan = NULL;

  add_trips (csv, 'Q', 'O', 5, jam);
  add_trips (csv, 'O', 'Q', 5, jam);
  ops_town_add (town, "trips", csv->str);
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:30", "08:40", 10)
                                  JOB ("A-0002", "O", "08:50", "09:00", 10));
  plan = share_at (town, "06:00");
  g_assert_cmpuint (plan->broken->len, ==, 0);
  g_assert_cmpuint (plan->moves->len, ==, 1);
}

static gboolean
at_once (gpointer user_data)
{
  return TRUE;
}

/* Three calls at one minute for two vans: one is late or left out. Who has no time to search does not know that it must
 * be so. */
static void
test_no_time (void)
{
  static const int jam[] = { 30, 6, 6 };

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (GString) csv = new_trips ();
      g_autoptr (HsShareCase) of = NULL;
      g_autoptr (HsSharePlan) plan = NULL;
      g_autoptr (GError) error = NULL;
      const HsShareHow how = { .seed = 1, .give_up = i == 0 ? at_once : NULL };

      add_trips (csv, 'Q', 'O', 5, jam);
      ops_town_add (town, "trips", csv->str);
      ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "Q", "08:30", "08:30", 60)
                                      JOB ("A-0002", "O", "08:30", "08:30", 60)
                                      JOB ("A-0003", "H", "08:30", "08:30", 60));
      of = share_case (town, "06:00");
      plan = hs_share_solve (of, &how, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (plan->broken->len, ==, 1);
      g_assert_cmpint (plan->status, ==, i == 0 ? HS_PLAN_BEST_FOUND : HS_PLAN_IMPOSSIBLE);
      if (i == 0)
        g_assert_false (plan->proven);
    }
}

/* Counters --------------------------------------------------------------------------------------------------------- */

/* A part that Kingpost, at the Foundry, and Larch & Weir, at Old Market, both have, for a call at Old Market. Kingpost
 * is 20.00 cheaper, but the way there is jammed in the morning. */
static OpsTown *
town_with_choice (const int *to_foundry)
{
  OpsTown *town = ops_town_new ();
  g_autoptr (GString) csv = new_trips ();

  add_trips (csv, 'T', 'F', 5, to_foundry);
  ops_town_add (town, "trips", csv->str);
  ops_town_add (town, "prices", "supplier,part,cost,seen_on\nKingpost Parts Counter,PAD-3316,27.00,2026-03-09\n"
                                "Larch & Weir Auto Electrical,PAD-3316,47.00,2026-03-09\n");
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "O", "08:00", "09:30", 30));
  ops_town_add (town, "needs", SHARE_NEEDS "A-0001,PAD-3316,1,,\n");
  ops_town_set (town, "leave_from", "07:30");
  ops_town_set (town, "leave_to", "09:00");
  return town;
}

static void
test_chosen (void)
{
  static const struct
  {
    int to_foundry[3];
    const char *counter;
  } rows[] = {
    { { 8, 8, 8 }, "Kingpost Parts Counter" },
    { { 40, 8, 8 }, "Larch & Weir Auto Electrical" },
    { { 8, 40, 40 }, "Kingpost Parts Counter" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = town_with_choice (rows[i].to_foundry);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsDayPlan) plan
          = hs_day_plan_make (town->book, ops_town_day (SHARE_DAY), NULL, HS_INSTANT_NONE, &error);
      g_autoptr (HsDayPlan) kept = NULL;

      g_assert_no_error (error);
      g_assert_cmpuint (plan->stops->len, ==, 2);
      g_assert_cmpstr (((HsPlannedStop *) g_ptr_array_index (plan->stops, 0))->id, ==, rows[i].counter);
      hs_day_plan_accept (town->book, plan, ops_town_at (town, SHARE_DAY "T06:00"), &error);
      g_assert_no_error (error);
      kept = standing (town, NULL);
      g_assert_cmpint (kept->home, ==, plan->home);
      g_assert_cmpint (kept->cost_cents, ==, plan->cost_cents);
    }
}

/* What the day would be without the counter is told at its hours: without Larch & Weir by way of the jam. Kingpost: 40
 * + 10 + 9 to Old Market + 30 + 7 home = 96 min and, of trips and table, 3.0 + 3.2 + 2.4 mi. Larch & Weir: 7 + 8 + 3 +
 * 30 + 7 = 55 min. */
static void
test_without (void)
{
  static const int jam[] = { 40, 8, 8 };
  g_autoptr (OpsTown) town = town_with_choice (jam);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) others
      = hs_day_others (town->book, ops_town_day (SHARE_DAY), NULL, HS_INSTANT_NONE, &error);
  const HsDayOther *other;

  g_assert_no_error (error);
  g_assert_cmpuint (others->len, ==, 1);
  other = g_ptr_array_index (others, 0);
  g_assert_cmpstr (other->id, ==, "Larch & Weir Auto Electrical");
  g_assert_cmpint (other->adds_seconds, ==, (96 - 55) * 60);
}

/* "Why not this one first?" is answered at the hours, too: the way to Highcroft takes 40 min in the morning and 12
 * later, so that it comes last: 9 + 60 + 15 + 60 + 12 = 156 min. First: 40 + 60 + 15 + 60 + 9 = 184 min. */
static void
test_first (void)
{
  static const int jam[] = { 40, 12, 12 };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GString) csv = new_trips ();
  g_autoptr (GPtrArray) others = NULL;
  g_autoptr (GError) error = NULL;
  const HsDayOther *other;

  add_trips (csv, 'T', 'H', 5, jam);
  ops_town_add (town, "trips", csv->str);
  ops_town_add (town, "jobs", SHARE_JOBS JOB ("A-0001", "H", "07:30", "18:00", 60)
                                  JOB ("A-0002", "Q", "07:30", "18:00", 60));
  ops_town_set (town, "leave_from", "07:30");
  ops_town_set (town, "leave_to", "08:00");
  others = hs_day_others (town->book, ops_town_day (SHARE_DAY), NULL, HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (others->len, ==, 1);
  other = g_ptr_array_index (others, 0);
  g_assert_cmpstr (other->id, ==, "A-0001");
  g_assert_cmpint (other->adds_seconds, ==, (184 - 156) * 60);
}

/* Squeezing in ----------------------------------------------------------------------------------------------------- */

static GPtrArray *
squeeze (OpsTown *town, const char *area, int from, int to)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *offers = hs_day_squeeze (town->book, ops_town_day (SHARE_DAY), "A", area, 30 * 60, 60 * from, 60 * to,
                                      TRUE, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return offers;
}

static void
promise (OpsTown *town, const char *area, int from, int to)
{
  g_autofree char *csv = g_strdup_printf (SHARE_JOBS "N-0001,555-0122,a,repair,promised,%s," SHARE_DAY ",%02d:00,"
                                          "%02d:00,30\n", area, from, to);

  ops_town_add (town, "jobs", csv);
}

static const HsPlannedStop *
find_new (const HsDayPlan *plan, const char **ret_before)
{
  *ret_before = NULL;
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (g_str_equal (stop->id, "N-0001"))
        return stop;
      *ret_before = stop->id;
    }
  return NULL;
}

/* Drawn days of three calls, accepted; one more call is asked about, and promised as it was asked: then the plan is the
 * best offer, where it breaks nothing. */
static void
test_squeezed (void)
{
  GRand *random = g_rand_new_with_seed (13);
  guint squeezed = 0;

  for (guint n = 0; n < 20; n++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (GPtrArray) offers = NULL;
      g_autoptr (HsDayPlan) before = NULL, after = NULL;
      const char area[] = { "TQOHFS"[g_rand_int_range (random, 0, 6)], '\0' };
      int from = g_rand_int_range (random, 7, 12), to = from + g_rand_int_range (random, 2, 7);
      const HsPlannedStop *stop;
      const HsOffer *best;
      const char *follows;

      add_any_trips (town, random);
      add_any_jobs (town, random, 3);
      share_accept_order (town, "A");
      before = standing (town, "A");
      offers = squeeze (town, area, from, to);
      best = g_ptr_array_index (offers, 0);
      if (best->replanned)
        best = g_ptr_array_index (offers, 1);
      if (best->breaks->len > 0 || best->replanned)
        continue;
      promise (town, area, from, to);
      after = standing (town, "A");
      stop = find_new (after, &follows);
      g_assert_true (after->accepted);
      g_assert_cmpstr (follows, ==, best->after);
      g_assert_cmpint (stop->start, ==, best->start);
      g_assert_cmpint (after->home, ==, best->home);
      g_assert_cmpint ((after->home - after->leave) - (before->home - before->leave), ==, best->adds_seconds);
      g_assert_cmpint (after->millimiles - before->millimiles, ==, best->adds_millimiles);
      squeezed++;
    }
  g_assert_cmpuint (squeezed, >=, 8);
  g_rand_free (random);
}

/* A day without calls is planned for the new one: leaving when the plan then leaves. */
static void
test_squeezed_alone (void)
{
  GRand *random = g_rand_new_with_seed (14);

  for (guint n = 0; n < 6; n++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (GPtrArray) offers = NULL;
      g_autoptr (HsDayPlan) after = NULL;
      const HsOffer *best;

      add_any_trips (town, random);
      offers = squeeze (town, "H", 8 + (int) n % 3, 11);
      best = g_ptr_array_index (offers, 0);
      g_assert_cmpuint (best->breaks->len, ==, 0);
      promise (town, "H", 8 + (int) n % 3, 11);
      after = standing (town, "A");
      g_assert_cmpint (((HsPlannedStop *) g_ptr_array_index (after->stops, 0))->start, ==, best->start);
      g_assert_cmpint (after->home, ==, best->home);
      g_assert_cmpint (after->home - after->leave, ==, best->adds_seconds);
    }
  g_rand_free (random);
}

/* Each minute that is offered on the phone can be promised: the plan then breaks nothing. */
static void
test_free (void)
{
  GRand *random = g_rand_new_with_seed (15);
  guint promised = 0;

  for (guint n = 0; n < 6; n++)
    {
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (GPtrArray) offers = NULL;
      const HsOffer *best;
      HsInstant step;

      add_any_trips (town, random);
      add_any_jobs (town, random, 2);
      share_accept_order (town, "A");
      offers = squeeze (town, "O", 7, 18);
      best = g_ptr_array_index (offers, 0);
      if (best->replanned || best->free_from == HS_INSTANT_NONE)
        continue;
      step = MAX (60, (best->free_to - best->free_from) / 300 * 60);
      for (HsInstant at = best->free_from; at <= best->free_to; at += step)
        {
          int minutes = (int) ((at - ops_town_at (town, SHARE_DAY "T00:00")) / 60);
          g_autoptr (GError) error = NULL;
          g_autoptr (GPtrArray) at_minute
              = hs_day_squeeze (town->book, ops_town_day (SHARE_DAY), "A", "O", 30 * 60, minutes, minutes, FALSE,
                                HS_INSTANT_NONE, &error);
          gboolean kept = FALSE;

          g_assert_no_error (error);
          for (guint i = 0; i < at_minute->len; i++)
            {
              const HsOffer *offer = g_ptr_array_index (at_minute, i);

              kept = kept || (g_strcmp0 (offer->after, best->after) == 0 && offer->breaks->len == 0
                              && offer->start == at);
            }
          g_assert_true (kept);
          promised++;
        }
    }
  g_assert_cmpuint (promised, >=, 10);
  g_rand_free (random);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/hours-kept/shared", test_shared);
  g_test_add_func ("/ops/hours-kept/compared", test_compared);
  g_test_add_func ("/ops/hours-kept/who", test_who);
  g_test_add_func ("/ops/hours-kept/no-time", test_no_time);
  g_test_add_func ("/ops/hours-kept/chosen", test_chosen);
  g_test_add_func ("/ops/hours-kept/without", test_without);
  g_test_add_func ("/ops/hours-kept/first", test_first);
  g_test_add_func ("/ops/hours-kept/squeezed", test_squeezed);
  g_test_add_func ("/ops/hours-kept/squeezed-alone", test_squeezed_alone);
  g_test_add_func ("/ops/hours-kept/free", test_free);
  return g_test_run ();
}
