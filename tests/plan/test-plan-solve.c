// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days worked out by hand: what counts in which order, ties, vans, breaks, midnight, counters, parts. */

#include "hs-solve.h"

#include "answer-check.h"
#include "hs-plan-error.h"
#include "plan-text-day.h"

/* @spare_minutes: ANY where there is no call */
typedef struct
{
  const char *name;
  const char *day;
  HsPlanStatus status;
  const char *routes;
  gint64 cost_cents;
  gint32 spare_minutes;
  const char *bought;
  const char *broken;
  const char *unserved;
} Row;

#define ANY G_MAXINT32

/* Places on a line, ten minutes and a mile from one to the next; nothing between two stops at one place. */
#define LINE2 "minutes 0 10 / 10 0; "
#define LINE3 "minutes 0 10 20 / 10 0 10 / 20 10 0; "
#define LINE4 "minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; "
/* Half an hour from each of three places to each other. */
#define EVEN3 "minutes 0 30 30 / 30 0 30 / 30 30 0; "
#define EVEN4 "minutes 0 30 30 30 / 30 0 30 30 / 30 30 0 30 / 30 30 30 0; "
/* Cheap around one way, dear around the other. */
#define RING "minutes 0 10 20 / 20 0 10 / 10 20 0; cost 100 0; van a 0 0 08:00-17:00; " \
             "call A 1 60 09:00-11:00; call B 2 60 09:00-10:20; "

static const Row rows[] = {
  { "no-calls", LINE2 "cost 160 42; van a 0 0 08:00-17:00", HS_PLAN_OPTIMAL, "", 0, ANY, "", "", "" },
  { "one-call", LINE2 "miles 0 5 / 5 0; cost 160 42; van a 0 0 08:00-17:00; call A 1 30 09:00-10:00", HS_PLAN_OPTIMAL,
    "a 08:50 A@09:00 =09:40", 50 * 160 + 10 * 42, 60, "", "", "" },
  { "whole-day", LINE2 "cost 100 0; van a 0 0 08:00-17:00; call A 1 30", HS_PLAN_OPTIMAL, "a 08:00 A@08:10 =08:50",
    5000, 24 * 60 - (8 * 60 + 10), "", "", "" },
  { "elsewhere-at-night", LINE3 "cost 100 0; van a 0 2 08:00-17:00; call A 1 30", HS_PLAN_OPTIMAL,
    "a 08:00 A@08:10 =08:50", 5000, 24 * 60 - (8 * 60 + 10), "", "", "" },
  { "two-windows", LINE2 "cost 100 0; van a 0 0 10:00-17:00; call A 1 30 08:00-09:00 11:00-12:00", HS_PLAN_OPTIMAL,
    "a 10:50 A@11:00 =11:40", 5000, 60, "", "", "" },

  /* Money rounds once, half up: 1:30 at 1 cent a minute, 0.5 miles twice at 1 cent. */
  { "half-up", "minutes 0 0:45 / 0:45 0; cost 1 0; van a 0 0 08:00-17:00; call A 1 0 09:00-09:00", HS_PLAN_OPTIMAL,
    "a 08:59:15 A@09:00 =09:00:45", 2, 0, "", "", "" },
  { "below-half", "minutes 0 0:44 / 0:45 0; cost 1 0; van a 0 0 08:00-17:00; call A 1 0 09:00-09:00", HS_PLAN_OPTIMAL,
    "a 08:59:16 A@09:00 =09:00:45", 1, 0, "", "", "" },

  /* One 80 min late before two 10 min late each. */
  { "kept-before-late", EVEN4 "cost 100 0; van a 0 0 08:00-17:00; call A 1 10 08:30-08:30; call B 2 10 09:00-09:00; "
    "call C 3 10 09:40-09:40", HS_PLAN_IMPOSSIBLE, "a 08:00 A@08:30 C@09:40 B@10:20 =11:00", 18000, -80, "", "B 80",
    "" },
  /* A first makes B 50 min late; B first makes A 70 min late. */
  { "least-late", EVEN3 "cost 100 0; van a 0 0 08:00-17:00; call A 1 30 08:30-08:30; call B 2 30 08:40-08:40",
    HS_PLAN_IMPOSSIBLE, "a 08:00 A@08:30 B@09:30 =10:30", 15000, -50, "", "B 50", "" },
  /* Late beats not served, whatever it costs. */
  { "late-before-dropped", LINE2 "cost 9999 0; van a 0 0 08:00-17:00; call A 1 30 07:00-08:00", HS_PLAN_IMPOSSIBLE,
    "a 08:00 A@08:10 =08:50", 50 * 9999, -10, "", "A 10", "" },
  /* Either fits before 10:00, not both; B is the cheaper one. */
  { "home-limit", EVEN3 "cost 100 0; van a 0 0 08:00-10:00; call A 1 60; call B 2 20", HS_PLAN_IMPOSSIBLE,
    "a 08:00 B@08:30 =09:20", 8000, 24 * 60 - (8 * 60 + 30), "", "", "A 0" },
  { "home-to-the-second", EVEN3 "cost 100 0; van a 0 0 08:00-10:50; call A 1 60 08:00-09:00; call B 2 20",
    HS_PLAN_OPTIMAL, "a 08:00 A@08:30 B@10:00 =10:50", 17000, 30, "", "", "" },

  { "spare-0", RING, HS_PLAN_OPTIMAL, "a 08:50 A@09:00 B@10:10 =11:20", 15000, 10, "", "", "" },
  { "spare-just-had", RING "spare 10", HS_PLAN_OPTIMAL, "a 08:50 A@09:00 B@10:10 =11:20", 15000, 10, "", "", "" },
  { "spare-before-money", RING "spare 30", HS_PLAN_OPTIMAL, "a 08:40 B@09:00 A@10:20 =11:40", 18000, 40, "", "", "" },
  { "spare-not-to-be-had", RING "spare 60", HS_PLAN_OPTIMAL, "a 08:40 B@09:00 A@10:20 =11:40", 18000, 40, "", "", "" },
  /* Ready at 08:10 with only 20 min left; the second window leaves an hour. */
  { "spare-waits", LINE2 "cost 100 0; spare 30; van a 0 0 08:00-17:00 until 08:00; call A 1 30 08:00-08:30 09:00-10:00",
    HS_PLAN_OPTIMAL, "a 08:00 A@09:00 =09:40", 10000, 60, "", "", "" },

  /* Time is free: home early, and leaving late. */
  { "leave-late", LINE2 "van a 0 0 08:00-17:00; call A 1 30 09:00-10:00", HS_PLAN_OPTIMAL, "a 08:50 A@09:00 =09:40", 0,
    60, "", "", "" },
  { "leave-by", LINE2 "cost 100 0; van a 0 0 08:00-17:00 until 08:30; call A 1 30 09:00-10:00", HS_PLAN_OPTIMAL,
    "a 08:30 A@09:00 =09:40", 7000, 60, "", "", "" },
  /* Waiting at home rather than between the calls; A is put off as long as its window allows. */
  { "no-idle", LINE2 "cost 100 0; van a 0 0 08:00-17:00; call A 1 30 08:00-09:00; call B 1 30 10:00-11:00",
    HS_PLAN_OPTIMAL, "a 08:50 A@09:00 B@10:00 =10:40", 11000, 0, "", "", "" },

  { "side-by-side", LINE4 "cost 100 0; van a 0 0 08:00-17:00; van b 3 3 08:00-17:00; call A 1 30 09:00-09:00; "
    "call B 2 30 09:00-09:00", HS_PLAN_OPTIMAL, "a 08:50 A@09:00 =09:40 | b 08:50 B@09:00 =09:40", 10000, 0, "", "",
    "" },
  { "kept-for-a-van", LINE4 "cost 100 0; van a 0 0 08:00-17:00; van b 3 3 08:00-17:00; call A 1 30 09:00-09:00 van b; "
    "call B 2 30 09:00-09:00", HS_PLAN_OPTIMAL, "a 08:40 B@09:00 =09:50 | b 08:40 A@09:00 =09:50", 14000, 0, "", "",
    "" },
  { "skilled-van", LINE4 "cost 100 0; van a 0 0 08:00-17:00 skills gas; van b 3 3 08:00-17:00 skills gas,diesel; "
    "call A 1 30 09:00-09:00 skills gas,diesel; call B 2 30 09:00-09:00", HS_PLAN_OPTIMAL,
    "a 08:40 B@09:00 =09:50 | b 08:40 A@09:00 =09:50", 14000, 0, "", "", "" },
  { "one-van-stays", LINE4 "cost 100 0; van a 0 0 08:00-17:00; van b 3 3 08:00-17:00; call A 1 30 08:00-08:15; "
    "call B 1 30 08:00-09:00", HS_PLAN_OPTIMAL, "a 08:00 A@08:10 B@08:40 =09:20", 8000, 5, "", "", "" },
  { "second-van-alone", LINE4 "cost 100 0; van a 0 0 08:00-17:00; van b 3 3 08:00-17:00; call B 2 30", HS_PLAN_OPTIMAL,
    "b 08:00 B@08:10 =08:50", 5000, 24 * 60 - (8 * 60 + 10), "", "", "" },

  { "break-at-the-stop", LINE2 "cost 100 0; van a 0 0 08:00-18:00 break 30 11:30-13:30; call A 1 120 10:00-10:00; "
    "call B 1 60 12:30-12:45", HS_PLAN_OPTIMAL, "a 09:50 A@10:00 break@12:00 B@12:30 =13:40", 23000, 0, "", "", "" },
  { "break-before-leaving", LINE2 "cost 100 0; van a 0 0 08:00-18:00 break 30 11:30-13:30; call A 1 60 13:00-13:00",
    HS_PLAN_OPTIMAL, "a 12:50 A@13:00 =14:10", 8000, 0, "", "", "" },
  { "break-at-home", LINE2 "cost 100 0; van a 0 0 08:00-18:00 break 30 11:30-13:30; call A 1 60 10:00-10:00",
    HS_PLAN_OPTIMAL, "a 09:50 A@10:00 =11:10", 8000, 0, "", "", "" },
  /* Home at 13:00 to the second leaves just time for it; a minute of work more does not. */
  { "break-just-at-home", LINE2 "cost 100 0; van a 0 0 08:00-18:00 break 30 11:30-13:30; call A 1 170 10:00-10:00",
    HS_PLAN_OPTIMAL, "a 09:50 A@10:00 =13:00", 19000, 0, "", "", "" },
  { "break-just-not-at-home", LINE2 "cost 100 0; van a 0 0 08:00-18:00 break 30 11:30-13:30; call A 1 171 10:00-10:00",
    HS_PLAN_OPTIMAL, "a 09:50 A@10:00 break@12:51 =13:31", 22100, 0, "", "", "" },
  /* No break can be had around that promise: it is kept late, after the break, or else not at all. */
  { "break-first", LINE2 "cost 100 0; van a 0 0 08:00-18:00 break 60 12:00-13:00; call A 1 120 11:00-11:00",
    HS_PLAN_IMPOSSIBLE, "a 13:00 A@13:10 =15:20", 14000, -130, "", "A 130", "" },
  { "break-has-no-room", LINE2 "cost 100 0; van a 0 0 08:00-15:19 break 60 12:00-13:00; call A 1 120 11:00-11:00",
    HS_PLAN_IMPOSSIBLE, "", 0, ANY, "", "", "A 0" },

  { "past-midnight", LINE2 "cost 100 0; van a 0 0 20:00-26:00; call A 1 60 23:30-24:30; call B 1 30 25:00-25:30",
    HS_PLAN_OPTIMAL, "a 23:50 A@24:00 B@25:00 =25:40", 11000, 30, "", "", "" },
  { "whole-day-past-midnight", LINE2 "cost 100 0; van a 0 0 24:30-26:00; call A 1 30", HS_PLAN_OPTIMAL,
    "a 24:30 A@24:40 =25:20", 5000, 80, "", "", "" },

  /* There it takes an hour, though by way of place 1 it would be 20 min; only a stop there may use that. */
  { "legs-as-tabled", "minutes 0 10 60 / 10 0 10 / 10 10 0; cost 100 0; van a 0 0 08:00-17:00; call A 2 30",
    HS_PLAN_OPTIMAL, "a 08:00 A@09:00 =09:40", 10000, 15 * 60, "", "", "" },
  { "stop-as-short-cut", "minutes 0 10 60 / 10 0 10 / 10 10 0; cost 100 0; van a 0 0 08:00-17:00; call A 2 30; "
    "counter C 1 0 08:00-17:00", HS_PLAN_OPTIMAL, "a 08:00 C@08:10 A@08:20 =09:00", 6000, 24 * 60 - (8 * 60 + 20), "",
    "", "" },

  /* At 11:55 a stop of 10 min would run into lunch. */
  { "lunch", LINE3 "cost 100 0; van a 0 0 11:45-17:00; call A 2 30 12:00-15:00 needs x; "
    "counter C 1 10 08:00-12:00 12:45-17:00 sells x=500", HS_PLAN_OPTIMAL, "a 12:35 C@12:45 A@13:05 =13:55", 8500, 115,
    "x C 500", "", "" },
  { "just-before-lunch", LINE3 "cost 100 0; van a 0 0 11:40-17:00; call A 2 30 12:00-15:00 needs x; "
    "counter C 1 10 08:00-12:00 12:45-17:00 sells x=500", HS_PLAN_OPTIMAL, "a 11:40 C@11:50 A@12:10 =13:00", 8500, 170,
    "x C 500", "", "" },
  { "near-counter", LINE3 "cost 100 0; van a 0 0 08:00-17:00; call A 1 30 needs x; "
    "counter C 1 5 08:00-17:00 sells x=500; counter D 2 5 08:00-17:00 sells x=100", HS_PLAN_OPTIMAL,
    "a 08:00 C@08:10 A@08:15 =08:55", 6000, 24 * 60 - (8 * 60 + 15), "x C 500", "", "" },
  { "cheap-counter", LINE3 "cost 10 0; van a 0 0 08:00-17:00; call A 1 30 needs x; "
    "counter C 1 5 08:00-17:00 sells x=500; counter D 2 5 08:00-17:00 sells x=100", HS_PLAN_OPTIMAL,
    "a 08:00 D@08:20 A@08:35 =09:15", 850, 24 * 60 - (8 * 60 + 35), "x D 100", "", "" },
  /* One unit on board for two calls. */
  { "one-on-board", LINE2 "cost 100 0; van a 0 0 08:00-17:00 carries x; call A 1 30 08:10-08:10 needs x; "
    "call B 1 30 08:40-09:30 needs x; counter C 1 5 08:00-17:00 sells x=500", HS_PLAN_OPTIMAL,
    "a 08:00 A@08:10 C@08:40 B@08:45 =09:25", 9000, 0, "x C 500", "", "" },
  { "two-on-board", LINE2 "cost 100 0; van a 0 0 08:00-17:00 carries x,x; call A 1 30 08:10-08:10 needs x; "
    "call B 1 30 08:40-09:30 needs x; counter C 1 5 08:00-17:00 sells x=500", HS_PLAN_OPTIMAL,
    "a 08:00 A@08:10 B@08:40 =09:20", 8000, 0, "", "", "" },
  /* A call that wants two of it, one on board. */
  { "two-units-for-one-call", LINE2 "cost 100 0; van a 0 0 08:00-17:00 carries x; call A 1 30 needs x,x; "
    "counter C 1 5 08:00-17:00 sells x=500", HS_PLAN_OPTIMAL, "a 08:00 C@08:10 A@08:15 =08:55", 6000,
    24 * 60 - (8 * 60 + 15), "x C 500", "", "" },
  /* The van that has it on board goes, though the other one stands nearer: 70 min against 55 and the price. */
  { "goes-with-the-part", LINE4 "cost 100 0; van a 0 0 08:00-17:00; van b 3 3 08:00-17:00 carries x; "
    "call A 1 30 needs x; counter C 1 5 08:00-17:00 sells x=1600", HS_PLAN_OPTIMAL, "b 08:00 A@08:20 =09:10", 7000,
    24 * 60 - (8 * 60 + 20), "", "", "" },
  { "buys-the-part", LINE4 "cost 100 0; van a 0 0 08:00-17:00; van b 3 3 08:00-17:00 carries x; "
    "call A 1 30 needs x; counter C 1 5 08:00-17:00 sells x=1400", HS_PLAN_OPTIMAL, "a 08:00 C@08:10 A@08:15 =08:55",
    6900, 24 * 60 - (8 * 60 + 15), "x C 1400", "", "" },
  /* What one van buys does not help the other. */
  { "each-van-buys", LINE4 "cost 100 0; van a 0 0 08:00-17:00; van b 3 3 08:00-17:00; call A 1 30 09:00-09:00 needs x; "
    "call B 2 30 09:00-09:00 needs x; counter C 1 5 08:00-17:00 sells x=100", HS_PLAN_OPTIMAL,
    "a 08:45 C@08:55 A@09:00 =09:40 | b 08:25 C@08:45 B@09:00 =09:40", 13200, 0, "x C 100, x C 100", "", "" },
  { "nobody-sells", LINE2 "cost 100 0; van a 0 0 08:00-17:00; call A 1 30 needs x; call B 1 30; "
    "counter C 1 5 08:00-17:00 sells y=1", HS_PLAN_IMPOSSIBLE, "a 08:00 B@08:10 =08:50", 5000, 24 * 60 - (8 * 60 + 10),
    "", "", "A 0" },
  { "sold-too-late", LINE2 "cost 100 0; van a 0 0 08:00-17:00; call A 1 30 08:00-09:00 needs x; "
    "counter C 1 5 10:00-17:00 sells x=7", HS_PLAN_IMPOSSIBLE, "a 09:50 C@10:00 A@10:05 =10:45", 5507, -65, "x C 7",
    "A 65", "" },
};

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (HsProblem) problem = text_day (row->day);
  g_autoptr (HsSolution) solution = text_solve (problem, FALSE);
  g_autofree char *routes = text_routes (problem, solution);
  g_autofree char *bought = text_bought (problem, solution);
  g_autofree char *broken = text_troubles (problem, solution->broken);
  g_autofree char *unserved = text_troubles (problem, solution->unserved);

  g_assert_cmpstr (routes, ==, row->routes);
  g_assert_cmpstr (bought, ==, row->bought);
  g_assert_cmpstr (broken, ==, row->broken);
  g_assert_cmpstr (unserved, ==, row->unserved);
  g_assert_cmpint (solution->cost_cents, ==, row->cost_cents);
  g_assert_cmpint (solution->bound_cents, ==, row->cost_cents);
  g_assert_cmpint (solution->status, ==, row->status);
  g_assert_true (solution->proven);
  g_assert_cmpint (solution->spare_seconds, ==, row->spare_minutes == ANY ? HS_PLAN_NO_LIMIT : row->spare_minutes * 60);
}

static void
test_bad_day (void)
{
  g_autoptr (HsProblem) problem = text_day (LINE2 "van a 0 5 08:00-17:00");
  HsSolveHow how = { NULL, NULL, 1, TRUE };
  HsSolution *solution = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_solve (problem, &how, &solution, &error));
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
  g_assert_cmpstr (error->message, ==, "vans[0].end: no such place");
  g_assert_null (solution);
}

static gboolean
count_down (gpointer data)
{
  guint *left = data;

  if (*left == 0)
    return TRUE;
  (*left)--;
  return FALSE;
}

/* Whenever it is told to stop, what it has is an answer; asked later it is not a worse one. */
static void
test_give_up (void)
{
  static const guint sizes[] = { 0, 1, 9, 14, 70, 200 };

  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (guint asks = 0; asks < 40; asks = asks * 2 + 1)
      {
        g_autoptr (HsProblem) problem = text_busy_day (sizes[s], sizes[s]);
        g_autoptr (HsSolution) solution = NULL;
        g_autoptr (GError) error = NULL;
        g_autofree char *fault = NULL;
        guint left = asks;
        HsSolveHow how = { count_down, &left, 1, TRUE };

        g_assert_true (hs_solve (problem, &how, &solution, &error));
        fault = answer_fault (problem, solution);
        g_assert_cmpstr (fault, ==, NULL);
        for (guint k = 0; k < solution->unserved->len; k++)
          g_assert_nonnull (hs_solution_get_unserved (solution, k)->why);
        for (guint k = 0; k < solution->broken->len; k++)
          g_assert_nonnull (hs_solution_get_broken (solution, k)->why);
        if (sizes[s] >= 14)
          g_assert_cmpint (solution->status, !=, HS_PLAN_OPTIMAL);
        if (sizes[s] >= 14)
          g_assert_false (solution->proven);
      }
}

static gboolean
enough (gpointer data)
{
  return TRUE;
}

static gboolean
never (gpointer data)
{
  return FALSE;
}

/* A day of eight vans that is known to be kept: every call has four minutes around the time at which some van would
 * be there. There are more calls than can be gone through whole. */
static HsProblem *
kept_day (GRand *rand, const char *more)
{
  g_autoptr (GString) day = g_string_new ("minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; cost 160 42");
  gint32 now[HS_PROBLEM_MAX_VANS];
  int at[HS_PROBLEM_MAX_VANS];

  for (guint v = 0; v < HS_PROBLEM_MAX_VANS; v++)
    {
      now[v] = 8 * 60;
      at[v] = (int) v % 4;
      g_string_append_printf (day, "; van v%u %d %d 08:00-20:00", v, at[v], at[v]);
    }
  for (guint i = 0; i <= HS_EXACT_MAX_CALLS; i++)
    {
      guint v = i % HS_PROBLEM_MAX_VANS;
      int to = g_rand_int_range (rand, 0, 4);
      gint32 work = g_rand_int_range (rand, 20, 50);

      now[v] += 10 * ABS (to - at[v]);
      g_string_append_printf (day, "; call A%02u %d %d %02d:%02d-%02d:%02d", i, to, work, (now[v] - 2) / 60,
                              (now[v] - 2) % 60, (now[v] + 2) / 60, (now[v] + 2) % 60);
      now[v] += work;
      at[v] = to;
      g_assert_cmpint (now[v] + 30, <=, 20 * 60);
    }
  g_string_append (day, more);
  return text_day (day->str);
}

/* A search that ends too soon says of no day that it is impossible: neither of one that has the asked spare nor of one
 * that can only be kept without. */
static void
test_claims (void)
{
  static const char *const more[] = { "", "; spare 600" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);
  guint n_hurt[2] = { 0 };

  for (guint n = 0; n < 20; n++)
    {
      g_autoptr (HsProblem) problem = kept_day (rand, more[n % 2]);
      g_autoptr (HsSolution) solution = NULL;
      HsSolveHow how = { enough, NULL, 1, FALSE };

      g_assert_true (hs_solve (problem, &how, &solution, NULL));
      g_assert_cmpint (solution->status, ==, HS_PLAN_BEST_FOUND);
      g_assert_false (solution->proven);
      n_hurt[n % 2] += solution->broken->len + solution->unserved->len > 0;
    }
  g_assert_cmpuint (n_hurt[0], >, 5);
  g_assert_cmpuint (n_hurt[1], >, 5);
}

/* A search that is over at once still has its reasons: A can be met and B can be met, but not both. */
static void
test_time_for_reasons (void)
{
  static const HsPlanGiveUp give_ups[] = { never, enough };

  for (guint i = 0; i < G_N_ELEMENTS (give_ups); i++)
    {
      g_autoptr (HsProblem) problem = text_day ("minutes 0 10 / 10 0; van a 0 0 08:00-20:00; "
                                                "call B 1 60 09:00-09:10; call C 1 60 09:00-09:10");
      g_autoptr (HsSolution) solution = NULL;
      HsSolveHow how = { give_ups[i], NULL, 1, TRUE, 0, enough };

      g_assert_true (hs_solve (problem, &how, &solution, NULL));
      g_assert_cmpuint (solution->broken->len + solution->unserved->len, ==, 1);
      if (solution->broken->len > 0)
        g_assert_cmpuint (hs_solution_get_broken (solution, 0)->conflicts->len, ==, i == 0 ? 1 : 0);
      else
        g_assert_cmpuint (hs_solution_get_unserved (solution, 0)->conflicts->len, ==, i == 0 ? 1 : 0);
    }
}

/* Too many calls to be gone through whole, and too long ones for one van: that not all can be kept is not proven. */
static void
test_no_claim_of_large_days (void)
{
  g_autoptr (GString) day = g_string_new ("minutes 0 10 / 10 0; cost 160 42; van a 0 0 08:00-17:00");
  g_autoptr (HsProblem) problem = NULL;
  g_autoptr (HsSolution) solution = NULL;
  guint left = 500;
  HsSolveHow how = { count_down, &left, 1, FALSE };

  for (guint i = 0; i <= HS_EXACT_MAX_CALLS; i++)
    g_string_append_printf (day, "; call A%u 1 60", i);
  problem = text_day (day->str);
  g_assert_true (hs_solve (problem, &how, &solution, NULL));
  g_assert_cmpuint (solution->unserved->len, >, 0);
  g_assert_cmpint (solution->status, ==, HS_PLAN_BEST_FOUND);
  g_assert_false (solution->proven);
}

/* What is asked for so long that it is not asked any more is what would have come out anyway. */
static void
test_no_hurry (void)
{
  g_autoptr (HsProblem) problem = text_busy_day (6, 3);
  g_autoptr (HsSolution) patient = text_solve (problem, FALSE);
  g_autoptr (HsSolution) other = NULL;
  g_autofree char *routes = text_routes (problem, patient);
  g_autofree char *other_routes = NULL;
  guint left = G_MAXUINT;
  HsSolveHow how = { count_down, &left, 77, TRUE };

  g_assert_true (hs_solve (problem, &how, &other, NULL));
  other_routes = text_routes (problem, other);
  g_assert_cmpstr (routes, ==, other_routes);
  g_assert_true (patient->proven);
  g_assert_cmpuint (patient->states, >, 6);
}

/* What was told: how often, what the last one was worth, and whether anything about it was wrong. */
typedef struct
{
  const HsProblem *problem;
  guint told;
  guint missed;
  guint unserved;
  gint64 late;
  gint32 spare;
  gint64 units;
  char *routes;
  gboolean stands;
  gboolean proven;
  guint left;
} Told;

static gboolean
tell_give_up (gpointer data)
{
  return count_down (&((Told *) data)->left);
}

static void
told (const HsSolution *solution, gpointer data)
{
  Told *all = data;
  g_autofree char *fault = answer_fault (all->problem, solution);
  guint missed = solution->broken->len + solution->unserved->len;
  gint32 spare = MIN (solution->spare_seconds, all->problem->spare_seconds);
  gint64 late = 0;

  g_assert_cmpstr (fault, ==, NULL);
  for (guint i = 0; i < solution->broken->len; i++)
    late += hs_solution_get_broken (solution, i)->late_seconds;
  if (all->told > 0)
    {
      gint64 was[] = { all->missed, all->unserved, all->late, -all->spare, all->units };
      gint64 is[] = { missed, solution->unserved->len, late, -spare, solution->cost_units };
      guint k = 0;

      while (k < G_N_ELEMENTS (is) && is[k] == was[k])
        k++;
      /* Only the one that stands may be told again. */
      g_assert_true (k < G_N_ELEMENTS (is) ? is[k] < was[k] : !all->stands);
      all->stands = k == G_N_ELEMENTS (is);
    }
  g_assert_cmpint (solution->bound_cents, <=, solution->cost_cents);
  g_assert_false (all->proven);
  all->told++;
  all->missed = missed;
  all->unserved = solution->unserved->len;
  all->late = late;
  all->spare = spare;
  all->units = solution->cost_units;
  all->proven = solution->proven;
  g_free (all->routes);
  all->routes = text_routes (all->problem, solution);
}

/* Each plan that is told is an answer and better than the one before; the last is the one that comes out; and nothing
 * comes out otherwise for being told. */
static void
test_found (void)
{
  static const struct
  {
    guint calls;
    gsize max_labels;
    guint least_told;
  } days[] = { { 0, 0, 1 }, { 1, 0, 1 }, { 6, 0, 3 }, { 9, 0, 3 }, { 14, 20000, 4 }, { 70, 20000, 2 } };

  for (guint d = 0; d < G_N_ELEMENTS (days); d++)
    {
      g_autoptr (HsProblem) problem = text_busy_day (days[d].calls, days[d].calls);
      g_autoptr (HsSolution) quiet = NULL;
      g_autoptr (HsSolution) loud = NULL;
      Told none = { .problem = problem, .left = 3000 };
      Told all = { .problem = problem, .left = 3000 };
      HsSolveHow how = { tell_give_up, &none, 5, FALSE, days[d].max_labels };
      g_autofree char *routes = NULL;
      g_autofree char *loud_routes = NULL;

      g_assert_true (hs_solve (problem, &how, &quiet, NULL));
      how.user_data = &all;
      how.found = told;
      g_assert_true (hs_solve (problem, &how, &loud, NULL));
      routes = text_routes (problem, quiet);
      loud_routes = text_routes (problem, loud);
      g_assert_cmpstr (routes, ==, loud_routes);
      g_assert_cmpuint (quiet->states, ==, loud->states);
      g_assert_cmpint (quiet->bound_cents, ==, loud->bound_cents);
      g_assert_cmpuint (none.left, ==, all.left);
      g_assert_cmpstr (all.routes, ==, routes);
      g_assert_cmpint (all.units, ==, loud->cost_units);
      g_assert_true (all.proven == loud->proven);
      g_assert_cmpuint (all.told, >=, days[d].least_told);
      g_free (all.routes);
    }
}

/* Everything as dear and as far as a day may have it: no sum runs over. */
static void
test_extremes (void)
{
  static const guint sizes[] = { 1, 5, 14, 70, 200 };

  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    {
      g_autoptr (HsProblem) problem = text_busy_day (sizes[s], s);
      g_autoptr (HsSolution) solution = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *fault = NULL;
      guint left = 30;
      HsSolveHow how = { count_down, &left, 1, FALSE };

      problem->minute_cents = problem->mile_cents = 10000000;
      for (guint cell = 0; cell < 16; cell++)
        g_array_index (problem->drive_millimiles, gint64, cell) = 100000000;
      for (guint c = 0; c < problem->counters->len; c++)
        hs_counter_sell (g_ptr_array_index (problem->counters, c), 0, 10000000);
      g_assert_true (hs_solve (problem, &how, &solution, &error));
      g_assert_no_error (error);
      fault = answer_fault (problem, solution);
      g_assert_cmpstr (fault, ==, NULL);
      /* At least one leg there and one back, 100,000 miles each. */
      if (solution->routes->len > 0)
        g_assert_cmpint (solution->cost_cents, >, 2 * G_GINT64_CONSTANT (1000000000000));
      g_assert_cmpint (solution->bound_cents, >=, 0);
    }
}

/* Forty calls for three vans, in an order that can just be driven, but that four of them are due at one minute. */
static HsProblem *
tight_day (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);
  HsProblem *problem = hs_problem_new (41);

  for (guint from = 0; from <= 40; from++)
    for (guint to = 0; to <= 40; to++)
      hs_problem_set_leg (problem, from, to, from == to ? 0 : 60 * (10 + (from * 7 + to * 7) % 11), 1000);
  problem->minute_cents = 160;
  for (guint v = 0; v < 3; v++)
    {
      g_autofree char *id = g_strdup_printf ("v%u", v);
      HsVan *van = hs_problem_add_van (problem, id);

      van->leave_from_seconds = 7 * 3600;
      van->home_by_seconds = 24 * 3600;
    }
  for (guint i = 0; i < 40; i++)
    {
      g_autofree char *id = g_strdup_printf ("C%02u", i);
      HsCall *call = hs_problem_add_call (problem, id, i + 1, 1200);
      gint32 from = 8 * 3600 + (gint32) (i / 3) * 40 * 60 - 60 * g_rand_int_range (rand, 0, 30);
      HsDaySpan window = { from, from + 2400 };

      g_array_append_val (call->windows, window);
    }
  for (guint i = 0; i < 4; i++)
    g_array_index (hs_problem_get_call (problem, i)->windows, HsDaySpan, 0) = (HsDaySpan){ 28800, 28800 };
  return problem;
}

/* Where the time is over while it is still tried to keep all, what came nearest to that is not forgotten. */
static void
test_cut_while_keeping (void)
{
  for (guint32 seed = 1; seed <= 8; seed++)
    {
      g_autoptr (HsProblem) problem = tight_day ();
      g_autoptr (HsSolution) solution = NULL;
      guint left = 20000;
      HsSolveHow how = { count_down, &left, seed, FALSE };

      g_assert_true (hs_solve (problem, &how, &solution, NULL));
      g_assert_cmpuint (left, ==, 0);
      g_assert_cmpuint (solution->broken->len + solution->unserved->len, <=, 2);
    }
}

/* Legs and work of ten days are a day that nobody can drive, and said so. */
static void
test_ten_days (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 14400 / 14400 0; cost 100 0; van a 0 0 08:00-17:00; "
                                            "call A 1 14400; call B 0 14400; call C 1 10 08:00-09:00");
  g_autoptr (HsSolution) solution = text_solve (problem, TRUE);
  g_autofree char *unserved = text_troubles (problem, solution->unserved);

  g_assert_cmpint (solution->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpuint (solution->routes->len, ==, 0);
  g_assert_cmpstr (unserved, ==, "A 0, B 0, C 0");
  for (guint k = 0; k < 3; k++)
    g_assert_cmpstr (hs_solution_get_unserved (solution, k)->why, ==,
                     "even as the only call no van can serve it and be home in time");
}

/* Sixteen calls all over the place, most of the day long, with parts from two counters: proven although the search may
 * keep only few states at a time, and its bound takes little work. */
static HsProblem *
wide_day (guint32 seed)
{
  static const char *const parts[] = { "u", "v", "w" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  HsProblem *problem = text_day ("minutes 0 0 / 0 0; cost 160 42; van a 0 0 07:00-24:00 until 12:00");
  gint32 x[19];
  gint32 y[19];

  problem->n_places = 19;
  g_array_set_size (problem->drive_seconds, 19 * 19);
  g_array_set_size (problem->drive_millimiles, 19 * 19);
  for (guint i = 0; i < 19; i++)
    {
      x[i] = g_rand_int_range (rand, 0, 1500);
      y[i] = g_rand_int_range (rand, 0, 1500);
    }
  for (guint i = 0; i < 19 * 19; i++)
    {
      gint32 way = ABS (x[i / 19] - x[i % 19]) + ABS (y[i / 19] - y[i % 19]);

      hs_problem_set_leg (problem, i / 19, i % 19, way + (way == 0 ? 0 : 120), way * 7);
    }
  for (guint i = 0; i < 16; i++)
    {
      g_autofree char *id = g_strdup_printf ("call %02u", i);
      HsCall *call = hs_problem_add_call (problem, id, i + 1, 60 * g_rand_int_range (rand, 10, 20));
      gint32 from = 7 * 3600 + 900 * g_rand_int_range (rand, 0, 20);
      const HsDaySpan window = { from, from + 8 * 3600 };
      guint part = hs_problem_part (problem, parts[i % 3]);

      g_array_append_val (call->windows, window);
      if (i % 2 == 0)
        g_array_append_val (call->needs, part);
    }
  for (guint c = 0; c < 2; c++)
    {
      HsCounter *counter = hs_problem_add_counter (problem, c == 0 ? "K" : "L", 17 + c, 480);
      const HsDaySpan hours[] = { { 27000, 45000 }, { 47700, 79200 } };

      g_array_append_vals (counter->hours, hours, 2);
      for (guint part = 0; part < problem->parts->len; part++)
        hs_counter_sell (counter, part, g_rand_int_range (rand, 10, 60) * 100);
    }
  return problem;
}

static void
test_wide_windows (void)
{
  g_autoptr (HsProblem) problem = wide_day (1);
  const HsSolveHow how = { .seed = 1, .max_labels = 3000000, .max_work = 300000000 };
  g_autoptr (HsSolution) solution = NULL;

  g_assert_true (hs_solve (problem, &how, &solution, NULL));
  g_assert_cmpint (solution->status, ==, HS_PLAN_OPTIMAL);
  g_assert_cmpint (solution->bound_cents, ==, solution->cost_cents);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve/%s", rows[i].name);

      g_test_add_data_func (path, &rows[i], test_row);
    }
  g_test_add_func ("/plan/solve/bad-day", test_bad_day);
  g_test_add_func ("/plan/solve/give-up", test_give_up);
  g_test_add_func ("/plan/solve/time-for-reasons", test_time_for_reasons);
  g_test_add_func ("/plan/solve/claims", test_claims);
  g_test_add_func ("/plan/solve/no-claim-of-large-days", test_no_claim_of_large_days);
  g_test_add_func ("/plan/solve/no-hurry", test_no_hurry);
  g_test_add_func ("/plan/solve/found", test_found);
  g_test_add_func ("/plan/solve/extremes", test_extremes);
  g_test_add_func ("/plan/solve/cut-while-keeping", test_cut_while_keeping);
  g_test_add_func ("/plan/solve/ten-days", test_ten_days);
  g_test_add_func ("/plan/solve/wide-windows", test_wide_windows);
  return g_test_run ();
}
