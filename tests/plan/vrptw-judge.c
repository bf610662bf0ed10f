// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#include "vrptw-judge.h"

#include <math.h>

#define MILLION 1000000.0
#define UNIT G_GINT64_CONSTANT (1000000)
#define MOST 8
/* What rounding up may add to a route's length, and floating point to its times. */
#define CLOSE 0.001

static double
straight (const HsVrptw *problem, guint from, guint to)
{
  const HsVrptwStop *a = &problem->stops[from];
  const HsVrptwStop *b = &problem->stops[to];

  return hypot ((double) (a->x - b->x), (double) (a->y - b->y)) / MILLION;
}

static double
judge_route (const HsVrptw *problem, const GArray *route, guint *times_served)
{
  double now = problem->stops[0].ready / MILLION;
  double length = 0;
  gint64 load = 0;
  guint here = 0;

  g_assert_cmpuint (route->len, >, 0);
  for (guint i = 0; i < route->len; i++)
    {
      guint next = g_array_index (route, guint, i);
      const HsVrptwStop *stop;

      g_assert_cmpuint (next, >=, 1);
      g_assert_cmpuint (next, <=, problem->n);
      stop = &problem->stops[next];
      times_served[next]++;
      length += straight (problem, here, next);
      load += stop->demand;
      now = fmax (now + straight (problem, here, next), stop->ready / MILLION);
      g_assert_cmpfloat (now, <=, stop->due / MILLION + 1e-9);
      now += stop->service / MILLION;
      here = next;
    }
  g_assert_cmpint (load, <=, problem->capacity);
  g_assert_cmpfloat (now + straight (problem, here, 0), <=, problem->stops[0].due / MILLION + 1e-9);
  return length + straight (problem, here, 0);
}

void
judge_plan (const HsVrptw *problem, const HsVrptwPlan *plan)
{
  g_autofree guint *times_served = g_new0 (guint, problem->n + 1);
  double length = 0;
  guint before = 0;

  g_assert_cmpuint (plan->routes->len, <=, problem->vans);
  for (guint r = 0; r < plan->routes->len; r++)
    {
      const GArray *route = g_ptr_array_index (plan->routes, r);

      length += judge_route (problem, route, times_served);
      g_assert_cmpuint (g_array_index (route, guint, 0), >, before);
      before = g_array_index (route, guint, 0);
    }
  for (guint i = 0; i < plan->unserved->len; i++)
    times_served[g_array_index (plan->unserved, guint, i)]++;
  for (guint stop = 1; stop <= problem->n; stop++)
    g_assert_cmpuint (times_served[stop], ==, 1);
  g_assert_cmpfloat_with_epsilon (plan->cost / MILLION, length, CLOSE);
  g_assert_cmpint (plan->bound, <=, plan->cost);
  if (plan->status == HS_PLAN_OPTIMAL)
    {
      g_assert_cmpuint (plan->unserved->len, ==, 0);
      g_assert_cmpint (plan->bound, ==, plan->cost);
    }
}

/* The best of all plans that go on from here: every customer in turn is next on this van, or the van goes home and the
 * next leaves; those never chosen stay unserved. */
typedef struct
{
  const HsVrptw *problem;
  HsVrptwAim aim;
  gboolean done[MOST + 1];
  Verdict best;
} Trial;

static gboolean
beats (const Verdict *a, const Verdict *b, HsVrptwAim aim)
{
  if (a->served != b->served)
    return a->served > b->served;
  if (aim == HS_VRPTW_VEHICLES && a->vans != b->vans)
    return a->vans < b->vans;
  return a->cost < b->cost;
}

static gint64
leg_of (const HsVrptw *problem, guint from, guint to)
{
  return problem->legs[from * (problem->n + 1) + to];
}

/* @first: the first customer of this van; later vans start with a higher one, as the order of vans is all one. */
static void
try_on (Trial *trial, Verdict sofar, guint here, gint64 now, gint64 load, guint first)
{
  const HsVrptw *problem = trial->problem;

  if (here == 0 || now + leg_of (problem, here, 0) <= problem->stops[0].due)
    {
      Verdict home = sofar;

      home.cost += here == 0 ? 0 : leg_of (problem, here, 0);
      if (beats (&home, &trial->best, trial->aim))
        trial->best = home;
      if (here != 0 && sofar.vans < problem->vans)
        for (guint next = first + 1; next <= problem->n; next++)
          if (!trial->done[next])
            try_on (trial, home, 0, 0, 0, next);
    }
  for (guint next = 1; next <= problem->n; next++)
    {
      const HsVrptwStop *stop = &problem->stops[next];
      gint64 leave = here == 0 ? problem->stops[0].ready : now;
      gint64 start = MAX (leave + leg_of (problem, here, next), stop->ready);

      if (trial->done[next] || (here == 0 && next != first) || load + stop->demand > problem->capacity
          || start > stop->due)
        continue;
      trial->done[next] = TRUE;
      try_on (trial,
              (Verdict){ sofar.served + 1, sofar.vans + (here == 0), sofar.cost + leg_of (problem, here, next) }, next,
              start + stop->service, load + stop->demand, first);
      trial->done[next] = FALSE;
    }
}

Verdict
judge_best (const HsVrptw *problem, HsVrptwAim aim)
{
  Trial trial = { problem, aim, { FALSE }, { 0, 0, 0 } };

  g_assert_cmpuint (problem->n, <=, MOST);
  for (guint first = 1; first <= problem->n; first++)
    try_on (&trial, (Verdict){ 0, 0, 0 }, 0, 0, 0, first);
  return trial.best;
}

static gint64
whole (GRand *rand, gint32 least, gint32 most)
{
  return g_rand_int_range (rand, least, most + 1) * UNIT;
}

static void
random_stop (GRand *rand, HsVrptw *problem, guint index, guint width, gboolean tight)
{
  HsVrptwStop *stop = &problem->stops[index];
  gint64 horizon = problem->stops[0].due;
  gint64 leg;
  gint64 last;

  stop->x = whole (rand, 0, 100);
  stop->y = whole (rand, 0, 100);
  stop->demand = whole (rand, 0, 30);
  stop->service = whole (rand, 0, 12);
  leg = (gint64) ceil (hypot (stop->x / MILLION - 50, stop->y / MILLION - 50)) * UNIT;
  last = horizon - leg - stop->service;
  if (tight)
    last += whole (rand, -20, 20);
  stop->due = MAX (last, 0);
  if (width > 0)
    {
      gint64 from = MIN (leg, stop->due) + whole (rand, 0, 1000) * MAX (stop->due - leg, 0) / (1000 * UNIT);

      stop->ready = MIN (from, stop->due);
      stop->due = MIN (stop->due, stop->ready + whole (rand, 0, 2 * (gint32) width));
    }
}

HsVrptw *
judge_random (GRand *rand, guint n, guint width, gboolean tight)
{
  HsVrptw *problem = hs_vrptw_new (n);

  problem->vans = tight ? (guint) g_rand_int_range (rand, 1, 4) : n;
  problem->capacity = whole (rand, 30, 120);
  problem->stops[0].x = 50 * UNIT;
  problem->stops[0].y = 50 * UNIT;
  problem->stops[0].due = whole (rand, 200, 400);
  for (guint i = 1; i <= n; i++)
    random_stop (rand, problem, i, width, tight);
  hs_vrptw_measure (problem);
  return problem;
}
