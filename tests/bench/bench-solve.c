// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long days of one or several vans take, as one JSON object. Days are invented so that they can be kept: the vans
 * are driven at random first, and windows are laid around that. Times are of the processor, so that a busy machine does
 * not count. "growth" is how it grows with the number of calls and the width of the windows.
 *
 * HS_SOLVE_LONG=SECONDS looks besides for better plans of the days that no proof was found for, with that much time
 * for each of three seeds, and tells how far those of ten seconds are from the best then known:
 * "worst_over_best_permille". */

#include "hs-solve.h"

#include <math.h>
#include <sys/resource.h>
#include <time.h>

#define LIMIT_SECONDS 10
#define MOST_DAYS 20
#define LONG_SEEDS 3
/* As the command has it. */
#define WORK_A_SECOND 4e8
#define SIDE 20.0

/* Calls, counters that sell everything at prices of their own, vans, width of the windows, minutes of work. */
typedef struct
{
  const char *name;
  guint calls;
  guint counters;
  guint vans;
  gint32 window_minutes;
  gint32 work_from;
  gint32 work_to;
  guint days;
} Shape;

static const Shape shapes[] = {
  { "twelve_four_counters", 12, 4, 1, 240, 15, 40, 20 },
  { "twelve_four_counters_wide", 12, 4, 1, 480, 15, 40, 20 },
  { "twenty_two_hours", 20, 0, 1, 120, 10, 20, 20 },
  { "twenty_two_hours_four_counters", 20, 4, 1, 120, 10, 20, 20 },
  { "twelve_three_vans", 12, 2, 3, 120, 20, 60, 10 },
  { "forty_three_vans", 40, 2, 3, 120, 15, 30, 5 },
};

static double
cpu_seconds (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double) now.tv_sec + (double) now.tv_nsec / 1e9;
}

static gboolean
is_over (gpointer data)
{
  return cpu_seconds () >= *(const double *) data;
}

static void
set_legs (HsProblem *problem, GRand *rand)
{
  guint n = problem->n_places;
  g_autofree double *x = g_new (double, n);
  g_autofree double *y = g_new (double, n);

  for (guint i = 0; i < n; i++)
    {
      x[i] = g_rand_double_range (rand, 0, SIDE);
      y[i] = g_rand_double_range (rand, 0, SIDE);
    }
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        double way = hypot (x[i] - x[j], y[i] - y[j]);

        hs_problem_set_leg (problem, i, j, (gint32) (way * 84) + (i == j ? 0 : 120), (gint64) (way * 600));
      }
}

static void
add_counters (HsProblem *problem, const Shape *shape, GRand *rand)
{
  const HsDaySpan hours[] = { { 27000, 45000 }, { 47700, 79200 } };

  for (guint c = 0; c < shape->counters; c++)
    {
      g_autofree char *id = g_strdup_printf ("K%u", c);
      HsCounter *counter = hs_problem_add_counter (problem, id, shape->calls + 1 + c, 480);

      g_array_append_vals (counter->hours, hours, G_N_ELEMENTS (hours));
      for (guint part = 0; part < problem->parts->len; part++)
        hs_counter_sell (counter, part, g_rand_int_range (rand, 10, 60) * 100);
    }
}

static HsProblem *
invent (const Shape *shape, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  HsProblem *problem = hs_problem_new (shape->calls + shape->counters + 1);
  gint32 time[HS_PROBLEM_MAX_VANS];
  guint at[HS_PROBLEM_MAX_VANS] = { 0 };

  set_legs (problem, rand);
  problem->minute_cents = 160;
  problem->mile_cents = 42;
  for (guint v = 0; v < shape->vans; v++)
    time[v] = 7 * 3600 + 2400;
  for (guint i = 0; i < shape->calls; i++)
    {
      g_autofree char *id = g_strdup_printf ("C%02u", i);
      HsCall *call = hs_problem_add_call (problem, id, i + 1,
                                          60 * g_rand_int_range (rand, shape->work_from, shape->work_to + 1));
      guint v = i % shape->vans;
      HsDaySpan window;

      time[v] += g_array_index (problem->drive_seconds, gint32, at[v] * problem->n_places + i + 1);
      window.from_seconds = MAX (27000, time[v] - g_rand_int_range (rand, 0, shape->window_minutes * 60 + 1));
      window.to_seconds = window.from_seconds + shape->window_minutes * 60;
      g_array_append_val (call->windows, window);
      if (shape->counters > 0 && g_rand_boolean (rand))
        {
          g_autofree char *name = g_strdup_printf ("part %d", g_rand_int_range (rand, 0, 4));
          guint part = hs_problem_part (problem, name);

          g_array_append_val (call->needs, part);
        }
      time[v] += call->service_seconds;
      at[v] = i + 1;
    }
  add_counters (problem, shape, rand);
  for (guint v = 0; v < shape->vans; v++)
    {
      g_autofree char *id = g_strdup_printf ("V%u", v);
      HsVan *van = hs_problem_add_van (problem, id);

      van->leave_from_seconds = 27000;
      van->leave_to_seconds = 12 * 3600;
      van->home_by_seconds = 30 * 3600;
    }
  return problem;
}

/* @gap: how far it may be from the best, in parts of a thousand. */
typedef struct
{
  double seconds;
  guint64 states;
  gboolean proven;
  guint missed;
  gint64 cents;
  double gap;
} Result;

static Result
solve_for (const Shape *shape, guint32 day, double limit_seconds, guint32 seed)
{
  g_autoptr (HsProblem) problem = invent (shape, day);
  g_autoptr (HsSolution) solution = NULL;
  double begun = cpu_seconds ();
  double end = begun + limit_seconds;
  const HsSolveHow how = { .give_up = is_over, .user_data = &end, .seed = seed,
                           .max_work = (guint64) (limit_seconds * WORK_A_SECOND) };

  if (!hs_solve (problem, &how, &solution, NULL))
    g_error ("the invented day is no day");
  return (Result){
    cpu_seconds () - begun,
    solution->states,
    solution->proven,
    solution->broken->len + solution->unserved->len,
    solution->cost_cents,
    1000.0 * (double) (solution->cost_cents - solution->bound_cents) / (double) MAX (1, solution->cost_cents),
  };
}

static Result
solve_once (const Shape *shape, guint32 day)
{
  return solve_for (shape, day, LIMIT_SECONDS, 1);
}

/* over_best: how far @result is above the best that a longer search finds, in parts of a thousand. */
static double
over_best (const Shape *shape, guint32 day, const Result *result, double limit_seconds)
{
  gint64 best = result->cents;

  for (guint32 seed = 1; seed <= LONG_SEEDS && !result->proven; seed++)
    {
      Result other = solve_for (shape, day, limit_seconds, seed);

      if (other.missed <= result->missed)
        best = MIN (best, other.cents);
    }
  return 1000.0 * (double) (result->cents - best) / (double) best;
}

static int
compare_results (const void *a, const void *b)
{
  const Result *left = a;
  const Result *right = b;

  return left->seconds < right->seconds ? -1 : left->seconds > right->seconds;
}

static void
measure (const Shape *shape)
{
  const char *longer = g_getenv ("HS_SOLVE_LONG");
  Result results[MOST_DAYS];
  guint proven = 0;
  guint missed = 0;
  double gap = 0;
  double over = 0;

  for (guint i = 0; i < shape->days; i++)
    {
      results[i] = solve_once (shape, i + 1);
      proven += results[i].proven;
      missed += results[i].missed;
      gap = MAX (gap, results[i].gap);
      if (longer != NULL)
        over = MAX (over, over_best (shape, i + 1, &results[i], g_ascii_strtod (longer, NULL)));
    }
  qsort (results, shape->days, sizeof *results, compare_results);
  g_print ("\"%s\":{\"days\":%u,\"proven\":%u,\"missed\":%u,\"median_ms\":%.1f,\"worst_ms\":%.1f,"
           "\"worst_gap_permille\":%.1f",
           shape->name, shape->days, proven, missed, 1e3 * results[shape->days / 2].seconds,
           1e3 * results[shape->days - 1].seconds, gap);
  if (longer != NULL)
    g_print (",\"worst_over_best_permille\":%.1f", over);
  g_print ("},\n");
}

static void
measure_growth (void)
{
  static const gint32 widths[] = { 60, 120, 240, 480 };

  g_print ("\"growth\":[");
  for (guint w = 0; w < G_N_ELEMENTS (widths); w++)
    for (guint n = 4; n <= 24; n += 4)
      {
        const Shape shape = { "", n, 2, 1, widths[w], 10, 20, 5 };
        Result results[5];
        guint proven = 0;

        for (guint i = 0; i < shape.days; i++)
          {
            results[i] = solve_once (&shape, 100 + i);
            proven += results[i].proven;
          }
        qsort (results, shape.days, sizeof *results, compare_results);
        g_print ("%s\n{\"calls\":%u,\"window_minutes\":%d,\"median_ms\":%.2f,\"states\":%u,\"proven\":%u}",
                 w + n == 4 ? "" : ",", n, widths[w], 1e3 * results[2].seconds, (guint) results[2].states, proven);
      }
  g_print ("],\n");
}

int
main (void)
{
  struct rusage usage;

  g_print ("{");
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    measure (&shapes[i]);
  measure_growth ();
  getrusage (RUSAGE_SELF, &usage);
  g_print ("\"most_memory_mib\":%ld}\n", usage.ru_maxrss / 1024);
  return 0;
}
