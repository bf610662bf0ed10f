// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days made by hand, without a book: what becomes numbers, what is left out and why, days on which the clocks change,
 * and an invented morning beside a plain trial of every order and every minute of leaving. */

#include "hs-day-build.h"

#include "hs-ops-error.h"
#include "hs-plan.h"

#include <string.h>

typedef struct
{
  const char *from;
  const char *to;
  int minutes;
  gint64 millimiles;
} Road;

typedef struct
{
  const char *number;
  const char *area;
  int from;
  int to;
  int minutes;
  const char *counter;
} Call;

typedef struct
{
  const char *name;
  const char *area;
  int minutes;
  int spans[4];
} Counter;

static const Road town_roads[] = {
  { "T", "T", 4, 1000 },   { "T", "Q", 9, 3100 },  { "T", "O", 7, 2400 },   { "T", "H", 12, 5000 },
  { "T", "F", 8, 2900 },   { "T", "S", 21, 11200 }, { "Q", "Q", 4, 1000 },  { "Q", "O", 6, 1900 },
  { "Q", "H", 15, 6100 },  { "Q", "F", 11, 4000 }, { "Q", "S", 24, 12600 }, { "O", "O", 3, 800 },
  { "O", "H", 10, 4200 },  { "O", "F", 9, 3200 },  { "O", "S", 20, 10400 }, { "H", "H", 5, 1300 },
  { "H", "F", 14, 5600 },  { "H", "S", 17, 8700 }, { "F", "F", 4, 1100 },   { "F", "S", 16, 8100 },
  { "S", "S", 6, 2000 },
};

static const Counter town_counters[] = {
  { "Kingpost", "F", 10, { 450, 1080 } },
  { "Larch", "O", 8, { 480, 750, 795, 1020 } },
};

static void
add_area (HsDayFacts *facts, const char *code)
{
  HsDayArea *area = hs_day_area_new ();

  area->code = g_strdup (code);
  area->name = g_strdup_printf ("Area %s", code);
  g_ptr_array_add (facts->areas, area);
}

static void
add_road (HsDayFacts *facts, const Road *source)
{
  HsDayRoad *road = hs_day_road_new ();

  road->from = g_strdup (source->from);
  road->to = g_strdup (source->to);
  road->seconds = source->minutes * 60;
  road->millimiles = source->millimiles;
  road->samples = 8;
  g_ptr_array_add (facts->roads, road);
}

static void
add_counter (HsDayFacts *facts, const Counter *source)
{
  HsDayCounter *counter = hs_day_counter_new ();

  counter->supplier_id = g_strdup (source->name);
  counter->name = g_strdup (source->name);
  counter->area = g_strdup (source->area);
  counter->stop_seconds = source->minutes * 60;
  for (guint i = 0; i + 1 < G_N_ELEMENTS (source->spans); i += 2)
    for (int weekday = 1; weekday <= 7; weekday++)
      {
        HsOpenSpan span = { weekday, source->spans[i], source->spans[i + 1] };

        if (span.shuts_minutes > 0)
          g_array_append_val (counter->spans, span);
      }
  g_ptr_array_add (facts->counters, counter);
}

static void
add_need (HsDayFacts *facts, guint call, HsDaySource source, const char *supplier)
{
  HsDayNeed *need = hs_day_need_new ();

  need->call = call;
  need->part = g_strdup ("rear pads");
  need->number = g_strdup ("PAD-1");
  need->state = g_strdup ("wanted");
  need->source = source;
  need->supplier_id = g_strdup (supplier);
  g_ptr_array_add (facts->needs, need);
}

static void
add_call (HsDayFacts *facts, const Call *source)
{
  HsDayCall *call = hs_day_call_new ();

  call->job_id = g_strdup (source->number);
  call->number = g_strdup (source->number);
  call->area = g_strdup (source->area);
  call->service_seconds = source->minutes * 60;
  if (source->from >= 0)
    call->window_from = hs_instant_from_local (facts->zone, facts->day, source->from);
  if (source->to >= 0)
    call->window_to = hs_instant_from_local (facts->zone, facts->day, source->to);
  g_ptr_array_add (facts->calls, call);
  if (source->counter != NULL)
    add_need (facts, facts->calls->len - 1, HS_DAY_SOURCE_COUNTER, source->counter);
}

static HsDayFacts *
town (const char *day, const Call *calls, gsize n_calls)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier ("America/New_York");
  HsDate date;
  HsDayFacts *facts;

  g_assert_nonnull (zone);
  g_assert_true (hs_date_parse (day, &date, NULL));
  facts = hs_day_facts_new (zone, date);
  facts->rules = (HsDayRules) { g_strdup ("T"), 450, 570, 1440, 1800, 160, 42 };
  for (const char *code = "TQOHFS"; *code != '\0'; code++)
    {
      char name[] = { *code, '\0' };

      add_area (facts, name);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (town_roads); i++)
    add_road (facts, &town_roads[i]);
  for (gsize i = 0; i < G_N_ELEMENTS (town_counters); i++)
    add_counter (facts, &town_counters[i]);
  for (gsize i = 0; i < n_calls; i++)
    add_call (facts, &calls[i]);
  return facts;
}

static HsDayBuild *
build_ok (const HsDayFacts *facts)
{
  g_autoptr (GError) error = NULL;
  HsDayBuild *build = hs_day_build (facts, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (hs_day_check (build->day, &error));
  return build;
}

static HsPlan *
solve (const HsDayBuild *build)
{
  g_autoptr (GError) error = NULL;
  HsPlan *plan = NULL;

  g_assert_true (hs_plan_solve (build->day, NULL, NULL, &plan, &error));
  g_assert_no_error (error);
  return plan;
}

static const HsBrokenPromise *
find_broken (GPtrArray *list, const char *id)
{
  for (guint i = 0; i < list->len; i++)
    if (g_str_equal (((HsBrokenPromise *) g_ptr_array_index (list, i))->id, id))
      return g_ptr_array_index (list, i);
  return NULL;
}

static const Call morning_calls[] = {
  { "A-0021", "O", 480, 600, 60, "Larch" },  { "A-0022", "Q", 510, 630, 40, NULL },
  { "A-0023", "F", 660, 780, 75, "Kingpost" }, { "A-0024", "H", 780, 930, 90, NULL },
  { "A-0025", "S", 540, 960, 60, "Kingpost" }, { "A-0026", "H", 870, 1050, 45, "Kingpost" },
};

static void
test_morning (void)
{
  static const char *const order[]
      = { "Larch", "A-0021", "A-0022", "Kingpost", "A-0023", "A-0025", "A-0024", "A-0026" };
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", morning_calls, G_N_ELEMENTS (morning_calls));
  g_autoptr (HsDayBuild) build = build_ok (facts);
  g_autoptr (HsPlan) plan = solve (build);

  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpuint (plan->stops->len, ==, G_N_ELEMENTS (order));
  for (guint i = 0; i < plan->stops->len; i++)
    g_assert_cmpstr (hs_day_get_stop (build->day, hs_plan_get_stop (plan, i)->stop)->id, ==, order[i]);
  g_assert_cmpint (plan->leave_seconds, ==, (8 * 60 + 31) * 60);
  g_assert_cmpint (plan->home_seconds, ==, (16 * 60 + 20) * 60);
  g_assert_cmpint (plan->drive_seconds, ==, 81 * 60);
  g_assert_cmpint (plan->drive_millimiles, ==, 33300);
  g_assert_cmpint (plan->spare_seconds, ==, 35 * 60);
  g_assert_cmpint (plan->cost_cents, ==, 76439);
}

static void
test_no_calls (void)
{
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", NULL, 0);
  g_autoptr (HsDayBuild) build = NULL;
  g_autoptr (HsPlan) plan = NULL;

  g_ptr_array_set_size (facts->counters, 0);
  build = build_ok (facts);
  plan = solve (build);
  g_assert_cmpuint (plan->stops->len, ==, 0);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
}

static void
test_left_out (void)
{
  static const Call calls[] = {
    { "A-0001", NULL, 480, 600, 30, NULL },
    { "A-0002", "Q", 480, 600, 30, NULL },
    { "A-0003", "X", 480, 600, 30, NULL },
    { "A-0004", "O", 600, 480, 30, NULL },
  };
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;
  g_autoptr (HsPlan) plan = NULL;

  add_area (facts, "X");
  g_free (((HsDayCounter *) g_ptr_array_index (facts->counters, 0))->area);
  ((HsDayCounter *) g_ptr_array_index (facts->counters, 0))->area = NULL;
  build = build_ok (facts);
  g_assert_cmpuint (build->left_out->len, ==, 4);
  g_assert_cmpstr (find_broken (build->left_out, "A-0001")->why, ==,
                   "A-0001 has no area: say where the vehicle stands, then plan again");
  g_assert_cmpint (find_broken (build->left_out, "A-0001")->late_seconds, ==, -1);
  g_assert_cmpstr (find_broken (build->left_out, "A-0003")->why, ==,
                   "No drive between Area T and Area X is known: enter its minutes and miles, then plan again");
  g_assert_cmpstr (find_broken (build->left_out, "A-0004")->why, ==,
                   "The window of A-0004 ends before it starts: give it a new one");
  g_assert_cmpstr (find_broken (build->left_out, "Kingpost")->why, ==,
                   "Kingpost has no area: say where the counter is, then plan again");
  plan = solve (build);
  g_assert_cmpuint (plan->stops->len, ==, 2);
}

/* 70 calls and two counters, and room for 64 stops. */
static void
test_too_many (void)
{
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", NULL, 0);
  g_autoptr (HsDayBuild) build = NULL;

  for (guint i = 1; i <= 70; i++)
    {
      g_autofree char *number = g_strdup_printf ("A-%04u", i);
      const Call call = { number, "Q", 480, 600, 30, NULL };

      add_call (facts, &call);
    }
  build = build_ok (facts);
  g_assert_cmpuint (build->day->stops->len, ==, 64);
  g_assert_cmpuint (build->left_out->len, ==, 8);
  g_assert_cmpstr (find_broken (build->left_out, "A-0065")->why, ==,
                   "A-0065 is more than the 64 stops that a day can have");
  g_assert_cmpint (find_broken (build->left_out, "A-0065")->late_seconds, ==, -1);
}

static void
test_other_day (void)
{
  static const Call calls[] = { { "A-0001", "Q", 480, 600, 30, NULL } };
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;

  ((HsDayCall *) g_ptr_array_index (facts->calls, 0))->window_from += 2 * HS_SECONDS_PER_DAY;
  ((HsDayCall *) g_ptr_array_index (facts->calls, 0))->window_to += 2 * HS_SECONDS_PER_DAY;
  build = build_ok (facts);
  g_assert_cmpstr (find_broken (build->left_out, "A-0001")->why, ==,
                   "The window of A-0001 is not on this day: give it a new one");
}

/* X is known from the base but not from Q: one of both goes, and the pair is named. */
static void
test_missing_pair (void)
{
  static const Call calls[] = { { "A-0001", "Q", -1, -1, 30, NULL }, { "A-0002", "X", -1, -1, 30, NULL } };
  static const Road road = { "X", "T", 10, 4000 };
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;

  g_ptr_array_set_size (facts->counters, 0);
  add_area (facts, "X");
  add_road (facts, &road);
  build = build_ok (facts);
  g_assert_cmpuint (build->left_out->len, ==, 1);
  g_assert_cmpstr (((HsBrokenPromise *) g_ptr_array_index (build->left_out, 0))->why, ==,
                   "No drive between Area Q and Area X is known: enter its minutes and miles, then plan again");
  g_assert_cmpuint (build->day->stops->len, ==, 1);
}

static void
test_guess (void)
{
  static const Call calls[] = { { "A-0001", "X", -1, -1, 30, NULL } };
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;
  HsDayArea *area;
  gint64 meters;

  g_ptr_array_set_size (facts->counters, 0);
  add_area (facts, "X");
  for (guint i = 0; i < facts->areas->len; i++)
    {
      area = g_ptr_array_index (facts->areas, i);
      area->has_position = g_str_equal (area->code, "T") || g_str_equal (area->code, "X");
      area->latitude = g_str_equal (area->code, "X") ? 41.1 : 41.0;
      area->longitude = -73.0;
    }
  build = build_ok (facts);
  g_assert_cmpuint (build->left_out->len, ==, 0);
  g_assert_cmpuint (build->travel->legs[1].guess, ==, 1);
  /* A tenth of a degree of latitude is 11.12 km: × 1.3 at 40 km/h is 21.7 min, 9.0 miles. */
  meters = (gint64) (build->travel->legs[1].seconds * 40.0 / 3.6);
  g_assert_cmpint (meters, >, 14400);
  g_assert_cmpint (meters, <, 14500);
  g_assert_cmpint (build->travel->legs[1].millimiles, >, 8950);
  g_assert_cmpint (build->travel->legs[1].millimiles, <, 9020);
}

static void
test_base (void)
{
  static const char *const bases[] = { NULL, "", "ZZ" };

  for (guint i = 0; i < G_N_ELEMENTS (bases); i++)
    {
      g_autoptr (HsDayFacts) facts = town ("2026-03-10", NULL, 0);
      g_autoptr (GError) error = NULL;

      g_free (facts->rules.base_area);
      facts->rules.base_area = g_strdup (bases[i]);
      g_assert_null (hs_day_build (facts, NULL, &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
      g_assert_nonnull (strstr (error->message, "base_area"));
    }
}

static void
test_extra (void)
{
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", morning_calls, G_N_ELEMENTS (morning_calls));
  g_autoptr (HsDayBuild) known = NULL;
  g_autoptr (GError) error = NULL;

  add_area (facts, "X");
  known = hs_day_build (facts, "T", &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_day_build_place (known, "T"), ==, 0);
  g_assert_cmpint (hs_day_build_place (known, "X"), ==, -1);
  g_assert_null (hs_day_build (facts, "X", &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_nonnull (strstr (error->message, "Area X"));
  g_clear_error (&error);
  g_assert_null (hs_day_build (facts, "nowhere", &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
}

static void
test_nowhere (void)
{
  static const Call calls[] = { { "A-0001", "Q", -1, -1, 30, NULL }, { "A-0002", "O", -1, -1, 30, "Kingpost" } };
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;

  add_need (facts, 0, HS_DAY_SOURCE_NOWHERE, NULL);
  add_need (facts, 0, HS_DAY_SOURCE_VAN, NULL);
  g_free (((HsDayCounter *) g_ptr_array_index (facts->counters, 0))->area);
  ((HsDayCounter *) g_ptr_array_index (facts->counters, 0))->area = NULL;
  build = build_ok (facts);
  g_assert_cmpuint (build->nowhere->len, ==, 2);
  g_assert_cmpstr (find_broken (build->nowhere, "A-0001")->why, ==,
                   "No counter lists rear pads (PAD-1), and the van has none");
  g_assert_cmpint (find_broken (build->nowhere, "A-0001")->late_seconds, ==, 0);
  g_assert_cmpstr (find_broken (build->nowhere, "A-0002")->why, ==,
                   "rear pads (PAD-1) comes from Kingpost, which cannot be planned");
  g_assert_cmpuint (build->day->stops->len, ==, 3);
}

static void
test_shut (void)
{
  static const Call calls[] = { { "A-0001", "Q", 480, 600, 30, "Larch" } };
  static const Counter sunday_only = { "Larch", "O", 8, { 480, 750 } };
  g_autoptr (HsDayFacts) facts = town ("2026-03-10", calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;
  g_autoptr (HsPlan) plan = NULL;
  HsDayCounter *counter;

  g_ptr_array_set_size (facts->counters, 0);
  add_counter (facts, &sunday_only);
  counter = g_ptr_array_index (facts->counters, 0);
  g_array_set_size (counter->spans, 1);
  g_array_index (counter->spans, HsOpenSpan, 0).weekday = 7;
  build = build_ok (facts);
  g_assert_true (hs_day_get_stop (build->day, 1)->shut);
  plan = solve (build);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_array_set_size (counter->spans, 0);
  hs_day_build_free (build);
  build = build_ok (facts);
  g_assert_false (hs_day_get_stop (build->day, 1)->shut);
}

typedef struct
{
  const char *day;
  int minutes;
  int elapsed;
} Clock;

/* On 2026-03-08 clocks go from 02:00 to 03:00, on 2026-11-01 back from 02:00 to 01:00. */
static void
test_clock_change (void)
{
  static const Clock rows[] = {
    { "2026-03-07", 480, 480 }, { "2026-03-08", 60, 60 },   { "2026-03-08", 180, 120 },  { "2026-03-08", 480, 420 },
    { "2026-03-08", 1440, 1380 }, { "2026-11-01", 30, 30 }, { "2026-11-01", 120, 180 }, { "2026-11-01", 480, 540 },
    { "2026-11-01", 1440, 1500 },
  };
  static const Call calls[] = { { "A-0001", "O", 480, 600, 60, NULL } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsDayFacts) facts = town (rows[i].day, NULL, 0);

      g_assert_cmpint (hs_day_build_seconds (facts, rows[i].minutes), ==, 60 * rows[i].elapsed);
    }
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (HsDayFacts) facts = town (i == 0 ? "2026-03-08" : "2026-11-01", calls, G_N_ELEMENTS (calls));
      g_autoptr (HsDayBuild) build = NULL;
      g_autoptr (HsPlan) plan = NULL;
      int shift = i == 0 ? -3600 : 3600;

      g_ptr_array_set_size (facts->counters, 0);
      build = build_ok (facts);
      plan = solve (build);
      g_assert_cmpint (build->day->change_by_seconds, ==, -shift);
      g_assert_cmpint (build->day->change_seconds, ==, 7200);
      /* Every leave without a wait costs the same; the earliest home wins: 07:53, 7 min of driving, 08:00. */
      g_assert_cmpint (plan->leave_seconds, ==, 473 * 60 + shift);
      g_assert_cmpint (plan->home_seconds, ==, (540 + 7) * 60 + shift);
    }
}

/* Sentences about a day with a clock change show what the clocks show. */
static void
test_clock_words (void)
{
  static const Call calls[] = { { "A-0001", "S", 420, 440, 60, NULL } };
  g_autoptr (HsDayFacts) facts = town ("2026-03-08", calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;
  g_autoptr (HsPlan) plan = NULL;

  g_ptr_array_set_size (facts->counters, 0);
  build = build_ok (facts);
  plan = solve (build);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_nonnull (strstr (hs_plan_get_broken (plan, 0)->why, "07:20"));
}

/* An invented morning beside plain trial -------------------------------------------------------------------------- */

#define TRIAL_STOPS 7

typedef struct
{
  int place;
  int from;
  int to;
  int minutes;
  gboolean counter;
  int after;
} TrialStop;

/* Places: 0 base, then Q O H F S. Counters need not touch two spans here. */
static const TrialStop trial_stops[TRIAL_STOPS] = {
  { 4, 450, 1080, 10, TRUE, -1 }, { 2, 500, 760, 12, TRUE, -1 },  { 1, 480, 640, 35, FALSE, -1 },
  { 3, 600, 720, 50, FALSE, 0 },  { 5, 560, 900, 70, FALSE, 1 },  { 2, 780, 960, 45, FALSE, 0 },
  { 4, 540, 700, 25, FALSE, -1 },
};

static const Call trial_calls[] = {
  { "C3", "Q", 480, 640, 35, NULL },       { "C4", "H", 600, 720, 50, "Kingpost" },
  { "C5", "S", 560, 900, 70, "Larch" },    { "C6", "O", 780, 960, 45, "Kingpost" },
  { "C7", "F", 540, 700, 25, NULL },
};

static const Counter trial_counters[] = {
  { "Kingpost", "F", 10, { 450, 1080 } },
  { "Larch", "O", 12, { 500, 760 } },
};

typedef struct
{
  gint64 cost_hundredths;
  int home;
  int leave;
  int spare;
} TrialBest;

static const Road *
trial_road (int from, int to)
{
  char a = "TQOHFS"[from];
  char b = "TQOHFS"[to];

  for (guint i = 0; i < G_N_ELEMENTS (town_roads); i++)
    if ((town_roads[i].from[0] == a && town_roads[i].to[0] == b)
        || (town_roads[i].from[0] == b && town_roads[i].to[0] == a))
      return &town_roads[i];
  g_assert_not_reached ();
}

static void
trial_order (const int *order, int leave, TrialBest *best)
{
  int at = 0;
  int time = leave;
  int spare = G_MAXINT;
  gint64 millimiles = 0;
  gint64 cost;

  for (int k = 0; k < TRIAL_STOPS; k++)
    {
      const TrialStop *stop = &trial_stops[order[k]];

      time += trial_road (at, stop->place)->minutes;
      millimiles += trial_road (at, stop->place)->millimiles;
      time = MAX (time, stop->from);
      if (time + (stop->counter ? stop->minutes : 0) > stop->to)
        return;
      if (!stop->counter)
        spare = MIN (spare, stop->to - time);
      time += stop->minutes;
      at = stop->place;
    }
  time += trial_road (at, 0)->minutes;
  millimiles += trial_road (at, 0)->millimiles;
  cost = (time - leave) * 16000 + millimiles * 42 * 100 / 1000;
  if (spare < 30 || cost > best->cost_hundredths)
    return;
  if (cost == best->cost_hundredths && (time > best->home || (time == best->home && leave <= best->leave)))
    return;
  *best = (TrialBest) { cost, time, leave, spare };
}

static void
trial_all (int *order, int n, TrialBest *best)
{
  if (n == TRIAL_STOPS)
    {
      for (int leave = 450; leave <= 570; leave++)
        trial_order (order, leave, best);
      return;
    }
  for (int i = 0; i < TRIAL_STOPS; i++)
    {
      gboolean used = FALSE;
      gboolean ready = trial_stops[i].after < 0;

      for (int k = 0; k < n; k++)
        {
          used = used || order[k] == i;
          ready = ready || order[k] == trial_stops[i].after;
        }
      if (used || !ready)
        continue;
      order[n] = i;
      trial_all (order, n + 1, best);
    }
}

static void
test_other_morning (void)
{
  g_autoptr (HsDayFacts) facts = town ("2026-05-20", NULL, 0);
  g_autoptr (HsDayBuild) build = NULL;
  g_autoptr (HsPlan) plan = NULL;
  TrialBest best = { G_MAXINT64, 0, 0, 0 };
  int order[TRIAL_STOPS];

  g_ptr_array_set_size (facts->counters, 0);
  for (guint i = 0; i < G_N_ELEMENTS (trial_counters); i++)
    add_counter (facts, &trial_counters[i]);
  for (guint i = 0; i < G_N_ELEMENTS (trial_calls); i++)
    add_call (facts, &trial_calls[i]);
  build = build_ok (facts);
  plan = solve (build);
  trial_all (order, 0, &best);
  g_assert_cmpint (best.home, >, 0);
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (plan->home_seconds, ==, 60 * best.home);
  g_assert_cmpint (plan->leave_seconds, ==, 60 * best.leave);
  g_assert_cmpint (plan->spare_seconds, ==, 60 * best.spare);
  g_assert_cmpint (plan->cost_cents, ==, (best.cost_hundredths + 50) / 100);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-build/morning", test_morning);
  g_test_add_func ("/ops/day-build/no-calls", test_no_calls);
  g_test_add_func ("/ops/day-build/left-out", test_left_out);
  g_test_add_func ("/ops/day-build/too-many", test_too_many);
  g_test_add_func ("/ops/day-build/other-day", test_other_day);
  g_test_add_func ("/ops/day-build/missing-pair", test_missing_pair);
  g_test_add_func ("/ops/day-build/guess", test_guess);
  g_test_add_func ("/ops/day-build/base", test_base);
  g_test_add_func ("/ops/day-build/extra", test_extra);
  g_test_add_func ("/ops/day-build/nowhere", test_nowhere);
  g_test_add_func ("/ops/day-build/shut", test_shut);
  g_test_add_func ("/ops/day-build/clock-change", test_clock_change);
  g_test_add_func ("/ops/day-build/clock-words", test_clock_words);
  g_test_add_func ("/ops/day-build/other-morning", test_other_morning);
  return g_test_run ();
}
