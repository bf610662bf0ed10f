// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Invented days of two vans against a plain trial of everything: each call with each van, each order, the counter at
 * each place or not at all, each minute of leaving. The trial shares nothing with the planner. All calls of a day may
 * want pads; the counter sells them, and a van may have some. */

#include "ops-share.h"

#include <string.h>

#define PLACES 6
#define MAX_CALLS 5
#define PAD_CENTS 2700
#define NEVER G_MAXINT64

static const char codes[] = "TQOHFS";
static const int minutes[PLACES][PLACES] = {
  { 4, 9, 7, 12, 8, 21 }, { 9, 4, 6, 15, 11, 24 }, { 7, 6, 3, 10, 9, 20 },
  { 12, 15, 10, 5, 14, 17 }, { 8, 11, 9, 14, 4, 16 }, { 21, 24, 20, 17, 16, 6 },
};
static const int tenths[PLACES][PLACES] = {
  { 10, 31, 24, 50, 29, 112 }, { 31, 10, 19, 61, 40, 126 }, { 24, 19, 8, 42, 32, 104 },
  { 50, 61, 42, 13, 56, 87 }, { 29, 40, 32, 56, 11, 81 }, { 112, 126, 104, 87, 81, 20 },
};

typedef struct
{
  int place;
  int from;
  int to;
  int work;
  gboolean needs;
  guint van;
} Call;

typedef struct
{
  guint n;
  Call calls[MAX_CALLS];
  int pads[2];
  int leave_from[2];
  int leave_to[2];
  int home_by[2];
} Day;

/* The stop at the counter among the calls. */
#define COUNTER MAX_CALLS
#define COUNTER_PLACE 4
#define COUNTER_OPENS (7 * 60 + 30)
#define COUNTER_SHUTS (18 * 60)

/* What one order costs in tenths of a cent, the miles counted in tenths; %NEVER if something is not kept. */
static gint64
drive (const Day *day, guint van, const guint *order, guint n, int leave)
{
  int at = 0, time = leave, miles = 0, pads = day->pads[van], bought = 0;
  gboolean seen = FALSE;

  for (guint i = 0; i < n; i++)
    {
      const Call *call = order[i] < MAX_CALLS ? &day->calls[order[i]] : NULL;
      int to = call != NULL ? call->place : COUNTER_PLACE;

      time += minutes[at][to];
      miles += tenths[at][to];
      at = to;
      if (call == NULL)
        {
          time = MAX (time, COUNTER_OPENS) + 10;
          if (time > COUNTER_SHUTS)
            return NEVER;
          seen = TRUE;
          continue;
        }
      time = MAX (time, call->from);
      if (time > call->to || (call->needs && pads == 0 && !seen))
        return NEVER;
      if (call->needs && pads > 0)
        pads--;
      else if (call->needs)
        bought++;
      time += call->work;
    }
  time += minutes[at][0];
  miles += tenths[at][0];
  if (time > day->home_by[van])
    return NEVER;
  return (time - leave) * G_GINT64_CONSTANT (1600) + miles * 42 + bought * PAD_CENTS * G_GINT64_CONSTANT (10);
}

static gint64
best_leave (const Day *day, guint van, const guint *order, guint n)
{
  gint64 best = NEVER;

  for (int leave = day->leave_from[van]; leave <= day->leave_to[van]; leave++)
    best = MIN (best, drive (day, van, order, n, leave));
  return best;
}

/* A counter that nobody wants anything of is not in the day. */
static gboolean
has_counter (const Day *day)
{
  for (guint i = 0; i < day->n; i++)
    if (day->calls[i].needs)
      return TRUE;
  return FALSE;
}

/* The best of all orders that go on from @order; @left: the calls still to be put in; once by the counter. */
static gint64
best_order (const Day *day, guint van, guint *order, guint n, guint left, gboolean seen)
{
  gint64 best = NEVER;

  if (left == 0)
    best = n == 0 ? 0 : best_leave (day, van, order, n);
  for (guint i = 0; i < day->n; i++)
    if ((left >> i & 1) != 0)
      {
        order[n] = i;
        best = MIN (best, best_order (day, van, order, n + 1, left & ~(1u << i), seen));
      }
  if (!seen && left != 0)
    {
      order[n] = COUNTER;
      best = MIN (best, best_order (day, van, order, n + 1, left, TRUE));
    }
  return best;
}

static gint64
best_of (const Day *day, guint van, guint calls)
{
  guint order[MAX_CALLS + 1];

  return best_order (day, van, order, 0, calls, !has_counter (day));
}

/* In cents, rounded once, half up; %NEVER if no two vans can keep everything. */
static gint64
best_day (const Day *day)
{
  guint all = (1u << day->n) - 1;
  gint64 best = NEVER;

  for (guint a = 0; a <= all; a++)
    {
      gint64 first = best_of (day, 0, a);
      gint64 second = first == NEVER ? NEVER : best_of (day, 1, all & ~a);

      if (second != NEVER)
        best = MIN (best, first + second);
    }
  return best == NEVER ? NEVER : (best + 5) / 10;
}

/* The same for the calls as they are. */
static gint64
best_apart (const Day *day)
{
  gint64 sum = 0;

  for (guint v = 0; v < 2; v++)
    {
      guint calls = 0;
      gint64 best;

      for (guint i = 0; i < day->n; i++)
        calls |= day->calls[i].van == v ? 1u << i : 0;
      best = best_of (day, v, calls);
      if (best == NEVER)
        return NEVER;
      sum += best;
    }
  return (sum + 5) / 10;
}

static Day
invent_day (guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  Day day = { .n = 2 + seed % (MAX_CALLS - 1) };

  for (guint i = 0; i < day.n; i++)
    {
      int from = 8 * 60 + 15 * g_rand_int_range (rand, 0, 12);

      day.calls[i] = (Call){ g_rand_int_range (rand, 1, PLACES), from, from + 15 * g_rand_int_range (rand, 0, 14),
                             15 + 15 * g_rand_int_range (rand, 0, 4), g_rand_int_range (rand, 0, 3) == 0,
                             (guint) g_rand_int_range (rand, 0, 2) };
    }
  for (guint v = 0; v < 2; v++)
    {
      day.pads[v] = g_rand_int_range (rand, 0, 2);
      day.leave_from[v] = 7 * 60 + 30 * g_rand_int_range (rand, 0, 4);
      day.leave_to[v] = day.leave_from[v] + 60;
      day.home_by[v] = g_rand_int_range (rand, 0, 3) == 0 ? 12 * 60 : 24 * 60;
    }
  return day;
}

static void
set_clock (OpsTown *town, guint van, const char *key, int clock)
{
  g_autofree char *name = g_strdup_printf ("%c.%s", "AB"[van], key);
  g_autofree char *value = g_strdup_printf ("%02d:%02d", clock / 60, clock % 60);

  ops_town_set (town, name, value);
}

static void
fill_vans (OpsTown *town, const Day *day)
{
  g_autoptr (GString) stock = g_string_new (SHARE_STOCK);

  for (guint v = 0; v < 2; v++)
    {
      set_clock (town, v, "leave_from", day->leave_from[v]);
      set_clock (town, v, "leave_to", day->leave_to[v]);
      if (day->home_by[v] < 24 * 60)
        set_clock (town, v, "home_by", day->home_by[v]);
      g_string_append_printf (stock, "%c,PAD-3316,%d,1,\n", "AB"[v], day->pads[v]);
    }
  ops_town_add (town, "stock", stock->str);
}

static void
fill_calls (OpsTown *town, const Day *day)
{
  g_autoptr (GString) jobs = g_string_new (SHARE_JOBS);
  g_autoptr (GString) needs = g_string_new (SHARE_NEEDS);

  for (guint i = 0; i < day->n; i++)
    {
      const Call *call = &day->calls[i];

      g_string_append_printf (jobs, "%c-%04u,555-0122,a,repair,promised,%c," SHARE_DAY ",%02d:%02d,%02d:%02d,%d\n",
                              "AB"[call->van], i + 1, codes[call->place], call->from / 60, call->from % 60,
                              call->to / 60, call->to % 60, call->work);
      if (call->needs)
        g_string_append_printf (needs, "%c-%04u,PAD-3316,1,,\n", "AB"[call->van], i + 1);
    }
  ops_town_add (town, "jobs", jobs->str);
  if (needs->len > strlen (SHARE_NEEDS))
    ops_town_add (town, "needs", needs->str);
}

/* What the proposal says is driven once more by the rules of the trial. */
static gint64
drive_proposal (const Day *day, OpsTown *town, const HsSharePlan *plan)
{
  gint64 sum = 0;

  for (guint v = 0; v < 2; v++)
    {
      const HsShareRoute *route = g_ptr_array_index (plan->routes, v);
      guint order[MAX_CALLS + 1];
      int seconds;

      for (guint i = 0; i < route->stops->len; i++)
        {
          const HsShareStop *stop = g_ptr_array_index (route->stops, i);

          order[i] = stop->kind == HS_SHARE_COUNTER ? COUNTER : (guint) g_ascii_strtoull (stop->id + 2, NULL, 10) - 1;
        }
      if (route->leave == HS_INSTANT_NONE)
        continue;
      hs_instant_to_local (hs_book_get_zone (town->book), route->leave, NULL, &seconds);
      g_assert_cmpint (seconds % 60, ==, 0);
      g_assert_cmpint (drive (day, v, order, route->stops->len, seconds / 60), !=, NEVER);
      sum += drive (day, v, order, route->stops->len, seconds / 60);
    }
  return (sum + 5) / 10;
}

static void
test_days (void)
{
  guint kept = 0, moved = 0, broken = 0, compared = 0;

  for (guint32 seed = 1; seed <= 48; seed++)
    {
      Day day = invent_day (seed);
      gint64 best = best_day (&day);
      gint64 apart = best_apart (&day);
      g_autoptr (OpsTown) town = share_town ();
      g_autoptr (HsSharePlan) plan = NULL;

      fill_vans (town, &day);
      fill_calls (town, &day);
      plan = share_at (town, "06:45");
      g_test_message ("day %u: %" G_GINT64_FORMAT, seed, best);
      g_assert_true (plan->proven);
      if (best == NEVER)
        {
          /* Something breaks, unless it is only that somebody comes home late. */
          if (day.home_by[0] == 24 * 60 && day.home_by[1] == 24 * 60)
            g_assert_cmpuint (plan->broken->len, >, 0);
          broken += plan->broken->len > 0;
          continue;
        }
      g_assert_cmpuint (plan->broken->len, ==, 0);
      g_assert_cmpint (plan->total.cents, ==, best);
      g_assert_cmpint (drive_proposal (&day, town, plan), ==, best);
      if (apart != NEVER)
        g_assert_cmpint (plan->standing.cents, >=, best);
      compared += apart != NEVER && plan->standing.cents == apart;
      moved += plan->moves->len > 0;
      kept++;
    }
  g_assert_cmpuint (kept, >, 20);
  g_assert_cmpuint (moved, >, 10);
  g_assert_cmpuint (broken, >, 1);
  g_assert_cmpuint (compared, >, 5);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/share-trial/days", test_days);
  return g_test_run ();
}
