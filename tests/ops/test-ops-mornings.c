// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Invented mornings: rows of a town that nobody has seen go in as import files, come out as a plan, and stand beside a
 * plain trial of every order, every opening span and every minute of leaving. They share no code. */

#include "hs-day-plan.h"
#include "hs-import.h"
#include "hs-settings-op.h"
#include "ops-town.h"

#include <string.h>

#define DAY "2026-06-17"
#define MORNINGS 40
#define MOST_STOPS 6
#define LAST_MINUTE 1440

typedef struct
{
  char id[32];
  int area;
  int minutes;
  int spans[2][2];
  int n_spans;
  gboolean counter;
  int after;
} Stop;

typedef struct
{
  int n_areas;
  int minutes[5][5];
  int tenths[5][5];
  int n_stops;
  int n_counters;
  Stop stops[MOST_STOPS];
  int leave_from;
  int leave_to;
  int spare;
  gint64 minute_cents;
  gint64 mile_cents;
} Morning;

typedef struct
{
  gboolean found;
  int spare;
  gint64 cost;
  int home;
  int leave;
  int order[MOST_STOPS];
  int n_order;
} Best;

/* Making one up ---------------------------------------------------------------------------------------------------- */

static void
invent_roads (Morning *morning, GRand *rand)
{
  for (int a = 0; a < morning->n_areas; a++)
    for (int b = a; b < morning->n_areas; b++)
      {
        morning->minutes[a][b] = morning->minutes[b][a] = g_rand_int_range (rand, 3, 26);
        morning->tenths[a][b] = morning->tenths[b][a] = g_rand_int_range (rand, 5, 130);
      }
}

static void
invent_counter (Morning *morning, GRand *rand, int i)
{
  Stop *stop = &morning->stops[i];

  g_snprintf (stop->id, sizeof stop->id, "Counter %c", "XYZ"[i]);
  stop->counter = TRUE;
  stop->after = -1;
  stop->area = g_rand_int_range (rand, 0, morning->n_areas);
  stop->minutes = g_rand_int_range (rand, 4, 16);
  stop->n_spans = g_rand_int_range (rand, 1, 3);
  stop->spans[0][0] = g_rand_int_range (rand, 420, 540);
  stop->spans[0][1] = g_rand_int_range (rand, 600, 760);
  stop->spans[1][0] = stop->spans[0][1] + g_rand_int_range (rand, 20, 60);
  stop->spans[1][1] = stop->spans[1][0] + g_rand_int_range (rand, 100, 240);
}

static void
invent_call (Morning *morning, GRand *rand, int i)
{
  Stop *stop = &morning->stops[i];

  g_snprintf (stop->id, sizeof stop->id, "A-%04d", 30 + g_rand_int_range (rand, 0, 9) * 10 + i);
  stop->counter = FALSE;
  stop->area = g_rand_int_range (rand, 0, morning->n_areas);
  stop->minutes = g_rand_int_range (rand, 20, 80);
  stop->n_spans = 1;
  stop->spans[0][0] = g_rand_int_range (rand, 460, 700);
  stop->spans[0][1] = stop->spans[0][0] + g_rand_int_range (rand, 15, 200);
  stop->after = i % 2 == 0 ? g_rand_int_range (rand, 0, morning->n_counters) : -1;
}

static Morning
invent (GRand *rand)
{
  Morning morning = { .n_areas = g_rand_int_range (rand, 3, 6), .n_counters = 2 };

  morning.n_stops = g_rand_int_range (rand, 4, MOST_STOPS + 1);
  morning.leave_from = g_rand_int_range (rand, 420, 460);
  morning.leave_to = morning.leave_from + g_rand_int_range (rand, 30, 120);
  morning.spare = g_rand_int_range (rand, 0, 50);
  morning.minute_cents = g_rand_int_range (rand, 50, 250);
  morning.mile_cents = g_rand_int_range (rand, 20, 90);
  invent_roads (&morning, rand);
  for (int i = 0; i < morning.n_stops; i++)
    if (i < morning.n_counters)
      invent_counter (&morning, rand, i);
    else
      invent_call (&morning, rand, i);
  return morning;
}

/* Into a book ------------------------------------------------------------------------------------------------------ */

static void
import_places (OpsTown *town, const Morning *morning)
{
  g_autoptr (GString) areas = g_string_new ("code,name\n");
  g_autoptr (GString) travel = g_string_new ("from,to,minutes,miles\n");

  for (int a = 0; a < morning->n_areas; a++)
    {
      g_string_append_printf (areas, "P%d,Place %d\n", a, a);
      for (int b = a; b < morning->n_areas; b++)
        g_string_append_printf (travel, "P%d,P%d,%d,%d.%d\n", a, b, morning->minutes[a][b], morning->tenths[a][b] / 10,
                                morning->tenths[a][b] % 10);
    }
  ops_town_add (town, "areas", areas->str);
  ops_town_add (town, "travel", travel->str);
}

static void
append_clock (GString *csv, int minutes)
{
  g_string_append_printf (csv, "%02d:%02d", minutes / 60, minutes % 60);
}

static void
import_counters (OpsTown *town, const Morning *morning)
{
  g_autoptr (GString) suppliers = g_string_new ("name,area,stop_minutes\n");
  g_autoptr (GString) hours = g_string_new ("supplier,weekday,opens,shuts\n");
  g_autoptr (GString) parts = g_string_new ("number,name\n");

  for (int i = 0; i < morning->n_counters; i++)
    {
      const Stop *stop = &morning->stops[i];

      g_string_append_printf (suppliers, "%s,P%d,%d\n", stop->id, stop->area, stop->minutes);
      g_string_append_printf (parts, "N-%d,part %d\n", i, i);
      for (int k = 0; k < stop->n_spans; k++)
        {
          g_string_append_printf (hours, "%s,wed,", stop->id);
          append_clock (hours, stop->spans[k][0]);
          g_string_append_c (hours, ',');
          append_clock (hours, stop->spans[k][1]);
          g_string_append_c (hours, '\n');
        }
    }
  ops_town_add (town, "suppliers", suppliers->str);
  ops_town_add (town, "hours", hours->str);
  ops_town_add (town, "parts", parts->str);
}

static void
import_calls (OpsTown *town, const Morning *morning)
{
  g_autoptr (GString) jobs
      = g_string_new ("number,customer_phone,words,stage,area,day,window_from,window_to,minutes\n");
  g_autoptr (GString) needs = g_string_new ("job,part,quantity,supplier\n");

  for (int i = morning->n_counters; i < morning->n_stops; i++)
    {
      const Stop *stop = &morning->stops[i];

      g_string_append_printf (jobs, "%s,555-0122,call %d,promised,P%d," DAY ",", stop->id, i, stop->area);
      append_clock (jobs, stop->spans[0][0]);
      g_string_append_c (jobs, ',');
      append_clock (jobs, stop->spans[0][1]);
      g_string_append_printf (jobs, ",%d\n", stop->minutes);
      if (stop->after >= 0)
        g_string_append_printf (needs, "%s,N-%d,1,%s\n", stop->id, stop->after, morning->stops[stop->after].id);
    }
  ops_town_add (town, "jobs", jobs->str);
  ops_town_add (town, "needs", needs->str);
}

static void
set_number (OpsTown *town, const char *key, gint64 number)
{
  g_autofree char *text = g_strdup_printf ("%" G_GINT64_FORMAT, number);

  ops_town_set (town, key, text);
}

static void
set_clock (OpsTown *town, const char *key, int minutes)
{
  g_autofree char *text = hs_clock_format (minutes);

  ops_town_set (town, key, text);
}

static OpsTown *
book_of (const Morning *morning)
{
  OpsTown *town = ops_town_new ();

  import_places (town, morning);
  import_counters (town, morning);
  import_calls (town, morning);
  ops_town_set (town, "base_area", "P0");
  set_clock (town, "leave_to", morning->leave_to);
  set_clock (town, "leave_from", morning->leave_from);
  set_number (town, "spare_minutes", morning->spare);
  set_number (town, "minute_cents", morning->minute_cents);
  set_number (town, "mile_cents", morning->mile_cents);
  return town;
}

/* Plain trial ------------------------------------------------------------------------------------------------------ */

static gboolean
is_wanted (const Morning *morning, int i)
{
  if (!morning->stops[i].counter)
    return TRUE;
  for (int k = morning->n_counters; k < morning->n_stops; k++)
    if (morning->stops[k].after == i)
      return TRUE;
  return FALSE;
}

/* When a stop starts if reached at @time; -1 if it no longer can. */
static int
start_of (const Stop *stop, int time)
{
  int inside = stop->counter ? stop->minutes : 0;

  for (int k = 0; k < stop->n_spans; k++)
    if (MAX (time, stop->spans[k][0]) + inside <= stop->spans[k][1])
      return MAX (time, stop->spans[k][0]);
  return -1;
}

/* By the ids of the stops in order. */
static gboolean
comes_first (const Morning *morning, const Best *trial, const Best *best)
{
  for (int k = 0; k < trial->n_order; k++)
    {
      int sign = strcmp (morning->stops[trial->order[k]].id, morning->stops[best->order[k]].id);

      if (sign != 0)
        return sign < 0;
    }
  return FALSE;
}

static gboolean
is_better (const Morning *morning, const Best *trial, const Best *best)
{
  int spare = MIN (trial->spare, morning->spare);
  int best_spare = MIN (best->spare, morning->spare);

  if (!best->found || spare != best_spare)
    return !best->found || spare > best_spare;
  if (trial->cost != best->cost)
    return trial->cost < best->cost;
  if (trial->home != best->home)
    return trial->home < best->home;
  if (trial->leave != best->leave)
    return trial->leave > best->leave;
  return comes_first (morning, trial, best);
}

static void
drive (const Morning *morning, const int *order, int n, int leave, Best *best)
{
  Best trial = { TRUE, LAST_MINUTE, 0, leave, leave };
  int tenths = 0;
  int at = 0;

  for (int k = 0; k < n; k++)
    {
      const Stop *stop = &morning->stops[order[k]];
      int start;

      trial.home += morning->minutes[at][stop->area];
      tenths += morning->tenths[at][stop->area];
      start = start_of (stop, trial.home);
      if (start < 0)
        return;
      if (!stop->counter)
        trial.spare = MIN (trial.spare, stop->spans[0][1] - start);
      trial.home = start + stop->minutes;
      trial.order[k] = order[k];
      trial.n_order = k + 1;
      at = stop->area;
    }
  trial.home += morning->minutes[at][0];
  tenths += morning->tenths[at][0];
  trial.cost = 10 * morning->minute_cents * (trial.home - leave) + morning->mile_cents * tenths;
  if (is_better (morning, &trial, best))
    *best = trial;
}

static void
try_orders (const Morning *morning, int *order, int n, int wanted, Best *best)
{
  if (n == wanted)
    {
      for (int leave = morning->leave_from; leave <= morning->leave_to; leave++)
        drive (morning, order, n, leave, best);
      return;
    }
  for (int i = 0; i < morning->n_stops; i++)
    {
      gboolean used = FALSE;
      gboolean ready = morning->stops[i].counter || morning->stops[i].after < 0;

      for (int k = 0; k < n; k++)
        {
          used = used || order[k] == i;
          ready = ready || order[k] == morning->stops[i].after;
        }
      if (used || !ready || !is_wanted (morning, i))
        continue;
      order[n] = i;
      try_orders (morning, order, n + 1, wanted, best);
    }
}

static Best
try_all (const Morning *morning)
{
  Best best = { FALSE };
  int order[MOST_STOPS];
  int wanted = 0;

  for (int i = 0; i < morning->n_stops; i++)
    wanted += is_wanted (morning, i);
  try_orders (morning, order, 0, wanted, &best);
  return best;
}

/* ------------------------------------------------------------------------------------------------------------------ */

static void
assert_same (OpsTown *town, const Morning *morning, const Best *best, const HsDayPlan *plan)
{
  HsInstant midnight = ops_town_at (town, DAY "T00:00");

  if (!best->found)
    {
      g_assert_cmpint (plan->status, ==, HS_PLAN_IMPOSSIBLE);
      g_assert_cmpuint (plan->broken->len, >, 0);
      return;
    }
  g_assert_cmpint (plan->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (plan->cost_cents, ==, (best->cost + 5) / 10);
  g_assert_cmpint (plan->home - midnight, ==, 60 * best->home);
  g_assert_cmpint (plan->leave - midnight, ==, 60 * best->leave);
  g_assert_cmpint (plan->spare_seconds, ==, 60 * best->spare);
  g_assert_cmpuint (plan->stops->len, ==, best->n_order);
  for (int k = 0; k < best->n_order; k++)
    g_assert_cmpstr (((HsPlannedStop *) g_ptr_array_index (plan->stops, k))->id, ==, morning->stops[best->order[k]].id);
}

/* One minute less spare than asked is chosen only when no order has it all; so both kinds have to come up. */
static void
test_invented (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (617);
  guint kept = 0;
  guint broken = 0;

  for (guint number = 0; number < MORNINGS; number++)
    {
      Morning morning = invent (rand);
      Best best = try_all (&morning);
      g_autoptr (OpsTown) town = book_of (&morning);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsDayPlan) plan = hs_day_plan_make (town->book, ops_town_day (DAY), NULL, HS_INSTANT_NONE, &error);

      g_assert_no_error (error);
      g_test_message ("morning %u: %d stops, %s", number, morning.n_stops, best.found ? "can be kept" : "cannot");
      assert_same (town, &morning, &best, plan);
      kept += best.found;
      broken += !best.found;
    }
  g_assert_cmpuint (kept, >, 5);
  g_assert_cmpuint (broken, >, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/mornings/invented", test_invented);
  return g_test_run ();
}
