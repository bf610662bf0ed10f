// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days whose drives hang on the hour. Every plan is driven once more by the clock here, leg by leg, from the minutes
 * that the case says, without the tables of the planner. */

#include "hs-day-drives.h"
#include "hs-day-hours.h"
#include "hs-day-plan.h"
#include "ops-town.h"

#define HOUR 3600
#define TRIPS 5

/* Minutes of a drive that is begun from 06:00 to 09:30, to 15:00, to 19:00, in the night. */
typedef struct
{
  char from;
  char to;
  int minutes[HS_TRAVEL_N_BANDS];
} Leg;

typedef struct
{
  const char *number;
  const char *area;
  int from;
  int to;
  int minutes;
} Call;

typedef struct
{
  const Leg *legs;
  guint n_legs;
  int leave_from;
  int leave_to;
  int spare;
  guint trips;
} Case;

static void
add_trips (HsDayFacts *facts, const Leg *leg, guint n)
{
  char from[] = { leg->from, '\0' }, to[] = { leg->to, '\0' };

  for (int band = 0; band < HS_TRAVEL_N_BANDS; band++)
    for (guint k = 0; k < n; k++)
      g_ptr_array_add (facts->trips, hs_own_trip_new (from, to, band, 60 * leg->minutes[band], 2000));
}

static HsDayFacts *
facts_of (const Case *of, const Call *calls, guint n_calls)
{
  g_autoptr (GTimeZone) utc = g_time_zone_new_utc ();
  HsDayFacts *facts = hs_day_facts_new (utc, hs_date_from_ymd (2026, 3, 10));

  facts->rules.base_area = g_strdup ("T");
  facts->rules.leave_from = of->leave_from;
  facts->rules.leave_to = of->leave_to;
  facts->rules.spare_seconds = 60 * of->spare;
  facts->rules.minute_cents = 100;
  facts->rules.mile_cents = 0;
  for (const char *code = "TABC"; *code != '\0'; code++)
    {
      HsDayArea *area = hs_day_area_new ();

      area->code = g_strndup (code, 1);
      area->name = g_strdup_printf ("Area %c", *code);
      g_ptr_array_add (facts->areas, area);
    }
  for (guint i = 0; i < of->n_legs; i++)
    add_trips (facts, &of->legs[i], of->trips);
  for (guint i = 0; i < n_calls; i++)
    {
      HsDayCall *call = hs_day_call_new ();

      call->job_id = g_strdup (calls[i].number);
      call->number = g_strdup (calls[i].number);
      call->area = g_strdup (calls[i].area);
      call->window_from = facts->starts_at + 60 * calls[i].from;
      call->window_to = facts->starts_at + 60 * calls[i].to;
      call->service_seconds = 60 * calls[i].minutes;
      g_ptr_array_add (facts->calls, call);
    }
  return facts;
}

static HsDayBuild *
build_of (const HsDayFacts *facts)
{
  g_autoptr (GError) error = NULL;
  HsDayBuild *build = hs_day_build (facts, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (build->left_out->len, ==, 0);
  return build;
}

static HsPlan *
plan_plainly (const HsDayBuild *build)
{
  g_autoptr (GError) error = NULL;
  HsPlan *plan = NULL;

  hs_plan_solve (build->day, NULL, NULL, &plan, &error);
  g_assert_no_error (error);
  return plan;
}

static HsPlan *
settle (HsDayBuild *build)
{
  g_autoptr (GError) error = NULL;
  HsPlan *plan = plan_plainly (build);

  g_assert_true (hs_day_hours_settle (build, &plan, &error));
  g_assert_no_error (error);
  return plan;
}

static void
assert_order (const HsDayBuild *build, const HsPlan *plan, const char *const *order)
{
  g_assert_cmpuint (plan->stops->len, ==, g_strv_length ((char **) order));
  for (guint i = 0; i < plan->stops->len; i++)
    g_assert_cmpstr (hs_day_get_stop (build->day, hs_plan_get_stop (plan, i)->stop)->id, ==, order[i]);
}

static gint32
leg_seconds (const Case *of, const char *from, const char *to, gint32 leaves)
{
  int band = leaves < 6 * HOUR ? 3 : leaves < 9 * HOUR + 1800 ? 0 : leaves < 15 * HOUR ? 1 : leaves < 19 * HOUR ? 2 : 3;

  for (guint i = 0; i < of->n_legs; i++)
    if (of->legs[i].from == *from && of->legs[i].to == *to)
      return 60 * of->legs[i].minutes[band];
  g_assert_not_reached ();
}

/* Each leg as long as the clock has it. */
static void
assert_at_hours (const Case *of, const HsDayBuild *build, const HsPlan *plan)
{
  const char *place = "T";
  gint32 leaves = plan->leave_seconds;

  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, i);
      const char *next = g_array_index (build->refs, HsDayStopRef, stop->stop).call->area;

      g_assert_cmpint (stop->drive_seconds, ==, leg_seconds (of, place, next, leaves));
      g_assert_cmpint (stop->arrive_seconds, ==, leaves + stop->drive_seconds);
      leaves = stop->depart_seconds;
      place = next;
    }
  g_assert_cmpint (plan->home_seconds, ==, leaves + leg_seconds (of, place, "T", leaves));
}

/* Orders ----------------------------------------------------------------------------------------------------------- */

/* The road to A is jammed in the morning: by the all-day figures A goes first, by the clock B does. */
static void
test_order (void)
{
  static const Leg legs[] = { { 'T', 'A', { 40, 10, 10, 10 } }, { 'A', 'T', { 10, 10, 10, 10 } },
                              { 'T', 'B', { 10, 10, 10, 10 } }, { 'B', 'T', { 10, 10, 10, 10 } },
                              { 'A', 'B', { 10, 10, 10, 10 } }, { 'B', 'A', { 10, 10, 10, 10 } } };
  static const Call calls[] = { { "1", "A", 420, 1080, 60 }, { "2", "B", 420, 1080, 60 } };
  static const char *const plainly[] = { "1", "2", NULL }, *const by_hours[] = { "2", "1", NULL };
  const Case of = { legs, G_N_ELEMENTS (legs), 480, 480, 0, TRIPS };
  g_autoptr (HsDayFacts) facts = facts_of (&of, calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = build_of (facts);
  g_autoptr (HsPlan) before = plan_plainly (build);
  g_autoptr (HsPlan) plan = NULL;

  g_assert_true (hs_day_drives_tell_hours (build));
  assert_order (build, before, plainly);
  plan = settle (build);
  assert_order (build, plan, by_hours);
  assert_at_hours (&of, build, plan);
  g_assert_cmpint (plan->home_seconds, ==, 10 * HOUR + 1800);
  g_assert_cmpint (plan->cost_cents, ==, 15000);
  /* No drive could be any faster. */
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_true (plan->proven);
}

/* Each order is the better one at the hours of the other: A to B and B to A are slow while A, or B, comes first. */
static void
test_turns (void)
{
  static const struct
  {
    int a_to_b;
    int b_to_a;
    const char *first;
  } cases[] = { { 60, 50, "2" }, { 50, 60, "1" }, { 90, 20, "2" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Leg legs[] = { { 'T', 'A', { 10, 10, 10, 10 } }, { 'A', 'T', { 10, 10, 10, 10 } },
                           { 'T', 'B', { 10, 10, 10, 10 } }, { 'B', 'T', { 10, 10, 10, 10 } },
                           { 'A', 'B', { cases[i].a_to_b, 10, 10, 10 } },
                           { 'B', 'A', { cases[i].b_to_a, 10, 10, 10 } } };
      static const Call calls[] = { { "1", "A", 420, 1080, 60 }, { "2", "B", 420, 1080, 60 } };
      const Case of = { legs, G_N_ELEMENTS (legs), 480, 480, 0, TRIPS };
      g_autoptr (HsDayFacts) facts = facts_of (&of, calls, G_N_ELEMENTS (calls));
      g_autoptr (HsDayBuild) build = build_of (facts);
      g_autoptr (HsPlan) plan = settle (build);

      g_assert_cmpstr (hs_day_get_stop (build->day, hs_plan_get_stop (plan, 0)->stop)->id, ==, cases[i].first);
      assert_at_hours (&of, build, plan);
      g_assert_cmpint (plan->drive_seconds, ==, 60 * (20 + MIN (cases[i].a_to_b, cases[i].b_to_a)));
      g_assert_cmpint (plan->status, ==, HS_PLAN_BEST_FOUND);
      g_assert_false (plan->proven);
    }
}

/* Leaving ---------------------------------------------------------------------------------------------------------- */

static void
test_leave (void)
{
  static const Leg legs[] = { { 'T', 'A', { 40, 10, 10, 10 } }, { 'A', 'T', { 10, 10, 10, 10 } } };
  static const struct
  {
    int window_from;
    int window_to;
    int leave_to;
    int leave;
    int away;
  } cases[] = {
    { 540, 550, 570, 500, 80 },   /* in time only if the jam is reckoned with */
    { 575, 660, 570, 570, 50 },   /* the jam is over a little later */
    { 575, 660, 569, 535, 80 },   /* and cannot be waited for here */
    { 660, 720, 720, 650, 50 },   /* far from it */
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Call call = { "1", "A", cases[i].window_from, cases[i].window_to, 30 };
      const Case of = { legs, G_N_ELEMENTS (legs), 450, cases[i].leave_to, 0, TRIPS };
      g_autoptr (HsDayFacts) facts = facts_of (&of, &call, 1);
      g_autoptr (HsDayBuild) build = build_of (facts);
      g_autoptr (HsPlan) plan = settle (build);

      assert_at_hours (&of, build, plan);
      g_assert_cmpuint (plan->broken->len, ==, 0);
      g_assert_cmpint (plan->leave_seconds, ==, 60 * cases[i].leave);
      g_assert_cmpint (plan->home_seconds - plan->leave_seconds, ==, 60 * cases[i].away);
    }
}

/* By the all-day figures it is in time; by the clock it can't be, and the plan says so. */
static void
test_broken (void)
{
  static const Leg legs[] = { { 'T', 'A', { 40, 10, 10, 10 } }, { 'A', 'T', { 10, 10, 10, 10 } } };
  static const Call call = { "1", "A", 350, 490, 30 };
  const Case of = { legs, G_N_ELEMENTS (legs), 465, 570, 0, TRIPS };
  g_autoptr (HsDayFacts) facts = facts_of (&of, &call, 1);
  g_autoptr (HsDayBuild) build = build_of (facts);
  g_autoptr (HsPlan) before = plan_plainly (build);
  g_autoptr (HsPlan) plan = NULL;

  g_assert_cmpuint (before->broken->len, ==, 0);
  plan = settle (build);
  g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (plan->broken->len, ==, 1);
  g_assert_cmpint (hs_plan_get_broken (plan, 0)->late_seconds, ==, 15 * 60);
  assert_at_hours (&of, build, plan);
}

/* The way back takes 30 min from 09:30 to 15:00, and 10 else. A plan that keeps its promise leaves from 11:00 to 12:00,
 * and nothing is better; or it may leave from 10:00 to 16:00, and who knows. */
static void
test_proven (void)
{
  static const Leg legs[] = { { 'T', 'A', { 10, 10, 10, 10 } }, { 'A', 'T', { 10, 30, 10, 10 } } };
  static const struct
  {
    int window_from;
    int window_to;
    HsPlanStatus status;
  } cases[] = { { 600, 660, HS_PLAN_OPTIMAL }, { 540, 900, HS_PLAN_BEST_FOUND } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Call call = { "1", "A", cases[i].window_from, cases[i].window_to, 60 };
      const Case of = { legs, G_N_ELEMENTS (legs), 480, 600, 0, TRIPS };
      g_autoptr (HsDayFacts) facts = facts_of (&of, &call, 1);
      g_autoptr (HsDayBuild) build = build_of (facts);
      g_autoptr (HsPlan) plan = settle (build);

      assert_at_hours (&of, build, plan);
      g_assert_cmpint (plan->status, ==, cases[i].status);
      g_assert_cmpint (plan->proven, ==, cases[i].status == HS_PLAN_OPTIMAL);
    }
}

/* Done at A at 08:30, the van has its break there at 10:00 before it goes on to B, and leaves at another hour. */
static void
test_rested (void)
{
  static const Leg legs[] = {
    { 'T', 'A', { 10, 10, 10, 10 } }, { 'A', 'B', { 40, 10, 10, 10 } }, { 'B', 'T', { 10, 10, 10, 10 } },
    { 'T', 'B', { 10, 10, 10, 10 } }, { 'B', 'A', { 10, 10, 10, 10 } }, { 'A', 'T', { 10, 10, 10, 10 } },
  };
  static const Call calls[] = { { "1", "A", 480, 480, 30 }, { "2", "B", 660, 660, 30 } };
  const Case of = { legs, G_N_ELEMENTS (legs), 440, 480, 0, TRIPS };
  g_autoptr (HsDayFacts) facts = facts_of (&of, calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = NULL;
  g_autoptr (HsPlan) plan = NULL;
  g_autofree guint8 *left = NULL;
  g_autofree guint8 *may = NULL;
  guint at_a;

  facts->rules.break_minutes = 30;
  facts->rules.break_from = 600;
  facts->rules.break_to = 645;
  build = build_of (facts);
  plan = settle (build);
  g_assert_cmpuint (plan->broken->len, ==, 0);
  g_assert_cmpint (plan->break_after, ==, 0);
  g_assert_cmpint (plan->break_end_seconds, ==, 10 * HOUR + 1800);
  left = g_new0 (guint8, build->places->len);
  may = g_new0 (guint8, build->places->len);
  hs_day_hours_add (build, plan, left);
  hs_day_hours_may_leave (build, build->day, TRUE, may);
  at_a = (guint) hs_day_build_place (build, "A");
  g_assert_cmpuint (left[at_a], ==, 1u << 1);
  g_assert_cmpuint (may[at_a], ==, 1u << 0 | 1u << 1);
  for (guint i = 0; i < build->places->len; i++)
    g_assert_cmpuint (left[i] & ~may[i], ==, 0);
}

/* Few trips ------------------------------------------------------------------------------------------------------- */

/* All day the drive is 10 min; in the rush, in which it took 40, each trip from the second on counts a fourth of the
 * difference. */
static void
test_few (void)
{
  static const Leg legs[] = { { 'T', 'A', { 40, 10, 10, 10 } }, { 'A', 'T', { 10, 10, 10, 10 } } };
  static const Call call = { "1", "A", 450, 1080, 30 };
  static const int seconds[] = { 600, 1050, 1500, 1950, 2400, 2400 };

  for (guint i = 0; i < G_N_ELEMENTS (seconds); i++)
    {
      const Case of = { legs, 2, 480, 480, 0, i + 1 };
      g_autoptr (HsDayFacts) facts = facts_of (&of, &call, 1);
      g_autoptr (HsDayBuild) build = build_of (facts);
      g_autoptr (HsPlan) plan = settle (build);
      HsTravelLeg leg = hs_travel_get_leg (build->travel, 0, 1);

      g_assert_cmpint (hs_day_drives_tell_hours (build), ==, i > 0);
      g_assert_cmpint (plan->home_seconds, ==, 60 * (480 + 30 + 10) + seconds[i]);
      g_assert_cmpint (leg.seconds, ==, seconds[i]);
      g_assert_cmpuint (leg.trips, ==, 8 * (i + 1));
    }
}

/* What does not count ------------------------------------------------------------------------------------------ */

/* No time of day makes a difference; but out and back do. */
static void
test_even (void)
{
  static const Leg legs[] = { { 'T', 'A', { 10, 10, 10, 10 } }, { 'A', 'T', { 30, 30, 30, 30 } } };
  static const Call call = { "1", "A", 450, 1080, 30 };
  const Case of = { legs, 2, 450, 570, 0, 2 * TRIPS };
  g_autoptr (HsDayFacts) facts = facts_of (&of, &call, 1);
  g_autoptr (HsDayBuild) build = build_of (facts);
  g_autoptr (HsPlan) before = plan_plainly (build);
  g_autoptr (HsPlan) plan = settle (build);

  g_assert_false (hs_day_drives_tell_hours (build));
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (plan->cost_units, ==, before->cost_units);
  g_assert_cmpint (plan->leave_seconds, ==, before->leave_seconds);
  g_assert_cmpint (plan->home_seconds - plan->leave_seconds, ==, 60 * (10 + 30 + 30));
  assert_at_hours (&of, build, plan);
}

/* A place that is left twice, in the rush and after it, has the longer drive both times. */
static void
test_left_twice (void)
{
  static const Leg legs[] = { { 'T', 'A', { 10, 10, 10, 10 } }, { 'A', 'T', { 40, 20, 30, 10 } },
                              { 'A', 'A', { 5, 5, 5, 5 } } };
  static const Call calls[] = { { "1", "A", 480, 490, 30 }, { "2", "A", 600, 610, 30 } };
  const Case of = { legs, G_N_ELEMENTS (legs), 450, 480, 0, TRIPS };
  g_autoptr (HsDayFacts) facts = facts_of (&of, calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = build_of (facts);
  g_autoptr (HsPlan) plan = settle (build);
  const HsPlanStop *last = hs_plan_get_stop (plan, 1);

  g_assert_cmpint (last->depart_seconds, >=, 10 * HOUR);
  g_assert_cmpint (plan->home_seconds, ==, last->depart_seconds + 40 * 60);
}

static void
test_set (void)
{
  static const Leg legs[] = { { 'T', 'A', { 40, 10, 20, 15 } }, { 'A', 'T', { 10, 10, 10, 10 } } };
  static const struct
  {
    guint8 left;
    int minutes;
  } cases[] = { { 1, 40 }, { 2, 10 }, { 4, 20 }, { 8, 15 }, { 6, 20 }, { 15, 40 }, { 10, 15 }, { 0, 10 } };
  static const Call call = { "1", "A", 450, 1080, 30 };
  const Case of = { legs, 2, 450, 570, 0, TRIPS };
  g_autoptr (HsDayFacts) facts = facts_of (&of, &call, 1);
  g_autoptr (HsDayBuild) build = build_of (facts);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const guint8 left[] = { cases[i].left, 0 };

      hs_day_drives_set (build, left);
      g_assert_cmpint (hs_travel_get_leg (build->travel, 0, 1).seconds, ==, 60 * cases[i].minutes);
      g_assert_cmpint (g_array_index (build->day->drive_seconds, gint32, 1), ==, 60 * cases[i].minutes);
      g_assert_cmpint (hs_travel_get_leg (build->travel, 1, 0).seconds, ==, 600);
    }
}

/* Chance -------------------------------------------------------------------------------------------------------- */

/* No drive is shorter than the clock has it. */
static void
assert_not_shorter (const Case *of, const HsDayBuild *build, const HsPlan *plan)
{
  const char *place = "T";
  gint32 leaves = plan->leave_seconds;

  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, i);
      const char *next = g_array_index (build->refs, HsDayStopRef, stop->stop).call->area;

      g_assert_cmpint (stop->drive_seconds, >=, leg_seconds (of, place, next, leaves));
      leaves = stop->depart_seconds;
      place = next;
    }
  g_assert_cmpint (plan->home_seconds, >=, leaves + leg_seconds (of, place, "T", leaves));
}

/* The plan without hours, driven by the clock, breaks no fewer promises; and where it breaks as few and keeps the
 * spare, which is none here, it costs no less. */
static void
assert_not_worse (HsDayBuild *build, const HsPlan *before, const HsPlan *plan)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) order = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (HsPlan) driven = NULL;

  for (guint i = 0; i < before->stops->len; i++)
    g_array_append_val (order, hs_plan_get_stop (before, i)->stop);
  hs_day_hours_drive (build, (const guint *) (gpointer) order->data, order->len, before->leave_seconds, &driven,
                      &error);
  g_assert_no_error (error);
  g_assert_cmpuint (plan->broken->len, <=, driven->broken->len);
  if (driven->broken->len == 0)
    g_assert_cmpint (plan->cost_units, <=, driven->cost_units);
}

static void
test_chance (void)
{
  static const char ends[][2] = { { 'T', 'A' }, { 'T', 'B' }, { 'T', 'C' }, { 'A', 'B' }, { 'A', 'C' }, { 'B', 'C' } };
  GRand *random = g_rand_new_with_seed (7);

  for (guint n = 0; n < 150; n++)
    {
      Leg legs[2 * G_N_ELEMENTS (ends)];
      Call calls[] = { { "1", "A", 0, 0, 0 }, { "2", "B", 0, 0, 0 }, { "3", "C", 0, 0, 0 } };
      const Case of = { legs, G_N_ELEMENTS (legs), 420 + 15 * g_rand_int_range (random, 0, 8), 600, 0, TRIPS };
      g_autoptr (HsDayFacts) facts = NULL;
      g_autoptr (HsDayBuild) build = NULL;
      g_autoptr (HsPlan) before = NULL;
      g_autoptr (HsPlan) plan = NULL;

      for (guint i = 0; i < G_N_ELEMENTS (legs); i++)
        {
          legs[i] = (Leg) { ends[i / 2][i % 2], ends[i / 2][1 - i % 2], { 0 } };
          for (guint band = 0; band < HS_TRAVEL_N_BANDS; band++)
            legs[i].minutes[band] = g_rand_int_range (random, 5, 70);
        }
      for (guint i = 0; i < G_N_ELEMENTS (calls); i++)
        {
          calls[i].from = 480 + 15 * g_rand_int_range (random, 0, 20);
          calls[i].to = calls[i].from + 30 * g_rand_int_range (random, 1, 8);
          calls[i].minutes = 10 * g_rand_int_range (random, 2, 9);
        }
      facts = facts_of (&of, calls, G_N_ELEMENTS (calls));
      build = build_of (facts);
      before = plan_plainly (build);
      plan = settle (build);
      assert_not_shorter (&of, build, plan);
      assert_not_worse (build, before, plan);
    }
  g_rand_free (random);
}

/* Given orders ------------------------------------------------------------------------------------------------- */

static void
test_drive (void)
{
  static const Leg legs[] = { { 'T', 'A', { 40, 10, 15, 10 } }, { 'A', 'T', { 12, 14, 50, 16 } },
                              { 'T', 'B', { 10, 22, 10, 10 } }, { 'B', 'T', { 30, 11, 33, 10 } },
                              { 'A', 'B', { 25, 10, 45, 10 } }, { 'B', 'A', { 10, 35, 21, 10 } } };
  static const Call calls[] = { { "1", "A", 360, 1380, 90 }, { "2", "B", 360, 1380, 200 } };
  static const guint orders[][2] = { { 0, 1 }, { 1, 0 } };
  const Case of = { legs, G_N_ELEMENTS (legs), 360, 1200, 0, TRIPS };
  g_autoptr (HsDayFacts) facts = facts_of (&of, calls, G_N_ELEMENTS (calls));
  g_autoptr (HsDayBuild) build = build_of (facts);

  for (guint i = 0; i < G_N_ELEMENTS (orders); i++)
    for (int leave = 360; leave <= 1080; leave += 15)
      {
        g_autoptr (GError) error = NULL;
        g_autoptr (HsPlan) plan = NULL;

        hs_day_hours_drive (build, orders[i], 2, 60 * leave, &plan, &error);
        g_assert_no_error (error);
        g_assert_cmpint (plan->leave_seconds, ==, 60 * leave);
        assert_at_hours (&of, build, plan);
      }
}

/* Through the book ----------------------------------------------------------------------------------------------- */

static void
add_rush (OpsTown *town)
{
  g_autoptr (GString) csv = g_string_new ("from,to,left,minutes,miles\n");

  for (int day = 2; day <= 6; day++)
    g_string_append_printf (csv, "T,Q,2026-03-%02dT08:00,31,3.1\nT,Q,2026-03-%02dT10:00,9,3.1\n"
                                 "T,Q,2026-03-%02dT12:00,9,3.1\n", day, day, day);
  ops_town_add (town, "trips", csv->str);
}

/* The plan knows the rush, is accepted with it, and stands as it was accepted. */
static void
test_book (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (OpsTown) town = ops_town_new ();
  HsDate day = ops_town_day ("2026-03-10");
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (HsDayPlan) standing = NULL;
  const HsPlannedStop *stop;

  add_rush (town);
  ops_town_set (town, "leave_to", "09:00");
  ops_town_add (town, "jobs",
                "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
                "A-0001,555-0121,a,repair,promised,Q,2026-03-10,08:30,10:30,30\n");
  plan = hs_day_plan_make (town->book, day, NULL, HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  stop = g_ptr_array_index (plan->stops, 0);
  g_assert_cmpint (stop->drive_seconds, ==, 31 * 60);
  g_assert_cmpint (stop->leg.source, ==, HS_TRAVEL_OWN);
  g_assert_cmpint (plan->home_drive_seconds, ==, 9 * 60);
  /* It has to leave in the rush. */
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  hs_day_plan_accept (town->book, plan, ops_town_now (town), &error);
  g_assert_no_error (error);
  standing = hs_day_plan_standing (town->book, day, NULL, HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  g_assert_true (standing->accepted);
  g_assert_cmpint (standing->leave, ==, plan->leave);
  g_assert_cmpint (standing->home, ==, plan->home);
  g_assert_cmpint (standing->cost_cents, ==, plan->cost_cents);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-hours/order", test_order);
  g_test_add_func ("/ops/day-hours/turns", test_turns);
  g_test_add_func ("/ops/day-hours/leave", test_leave);
  g_test_add_func ("/ops/day-hours/broken", test_broken);
  g_test_add_func ("/ops/day-hours/proven", test_proven);
  g_test_add_func ("/ops/day-hours/rested", test_rested);
  g_test_add_func ("/ops/day-hours/few", test_few);
  g_test_add_func ("/ops/day-hours/even", test_even);
  g_test_add_func ("/ops/day-hours/left-twice", test_left_twice);
  g_test_add_func ("/ops/day-hours/set", test_set);
  g_test_add_func ("/ops/day-hours/chance", test_chance);
  g_test_add_func ("/ops/day-hours/drive", test_drive);
  g_test_add_func ("/ops/day-hours/book", test_book);
  return g_test_run ();
}
