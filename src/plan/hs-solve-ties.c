// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Looks through whole plans first, and where that leads to no end through the days of single vans. */

#include "hs-solve-ties.h"

#include "hs-solve-first.h"

#include <string.h>

/* Whole days took up to four million, most less than a hundred thousand; each is some tenths of a microsecond. Then
 * some ten milliseconds for single vans. */
#define MAX_TRIES 10000000
#define MAX_VAN_TRIES 30000
/* For more stops than these a bound of the small kind takes longer than it saves. */
#define MAX_BOUND_NODES 13

/* One van's day: its stops in a path. */
typedef struct
{
  const guint8 *stops;
  guint n;
  gint32 leave;
  gint32 home;
} Trip;

/* @ret_trips: one a van, with stops of @path */
static void
read_trips (const HsSolveFrame *frame, const HsPath *path, Trip *ret_trips)
{
  guint at = 0;

  for (guint v = 0; v < frame->n_vans; v++)
    {
      ret_trips[v] = (Trip){ path->stops + at, 0, path->leave[v], path->home[v] };
      for (; at < path->n_stops && path->stops[at] != HS_PATH_CLOSE; at++)
        ret_trips[v].n++;
      at = MIN (at + 1, path->n_stops);
    }
}

/* @path: not the one that the stops of @trips are of */
static void
write_trips (const HsSolveFrame *frame, const Trip *trips, HsPath *path)
{
  path->n_stops = 0;
  for (guint v = 0; v < frame->n_vans; v++)
    {
      if (v > 0)
        path->stops[path->n_stops++] = HS_PATH_CLOSE;
      memcpy (path->stops + path->n_stops, trips[v].stops, trips[v].n);
      path->n_stops += trips[v].n;
      path->leave[v] = trips[v].leave;
      path->home[v] = trips[v].home;
    }
}

/* Leaves out stops at counters, and breaks, without which the plan is worth as much: a break belongs before leaving or
 * at home. */
static void
drop_idle_stops (const HsSolveFrame *frame, const HsSolveTerms *terms, HsPath *path)
{
  HsScore known;

  if (!hs_solve_first_rate (frame, terms, path, &known))
    return;
  for (guint i = path->n_stops; i-- > 0;)
    {
      HsPath without = *path;
      HsScore score;

      if (path->stops[i] < frame->n_calls || path->stops[i] == HS_PATH_CLOSE)
        continue;
      without.n_stops--;
      memmove (without.stops + i, path->stops + i + 1, path->n_stops - i - 1);
      if (!hs_solve_first_rate (frame, terms, &without, &score) || hs_score_compare (&score, &known) >= 0)
        continue;
      *path = without;
      known = score;
    }
}

/* Who stays comes after who goes. */
static gboolean
comes_before (const HsSolveFrame *frame, const Trip *a, const Trip *b)
{
  for (guint k = 0; k < MIN (a->n, b->n); k++)
    {
      int order = hs_solve_first_compare_stops (frame, a->stops[k], b->stops[k]);

      if (order != 0)
        return order < 0;
    }
  return a->n > b->n;
}

/* Gives trips of vans that are alike to those whose ids come first: of two such vans the one whose id is ahead gets the
 * trip that is ahead. */
static void
deal_out (const HsSolveFrame *frame, HsPath *path)
{
  const HsPath before = *path;
  Trip trips[HS_PROBLEM_MAX_VANS];

  read_trips (frame, &before, trips);
  for (guint round = 1; round < frame->n_vans; round++)
    for (guint v = 0; v < frame->n_vans; v++)
      for (guint w = v + 1; w < frame->n_vans; w++)
        if (comes_before (frame, &trips[w], &trips[v]) && hs_solve_frame_alike (frame, v, w))
          {
            Trip swap = trips[v];

            trips[v] = trips[w];
            trips[w] = swap;
          }
  write_trips (frame, trips, path);
}

static guint
list_calls (const HsSolveFrame *frame, const Trip *trip, guint8 *ret_nodes)
{
  guint n = 0;

  for (guint i = 0; i < frame->n_calls; i++)
    if (memchr (trip->stops, (int) i, trip->n) != NULL)
      ret_nodes[n++] = (guint8) i;
  return n;
}

/* The day of one van with the calls @nodes of @frame, at the times at which they may start there; @one: the same
 * problem with no other van. */
static HsSolveFrame *
frame_of_van (const HsSolveFrame *frame, const HsProblem *one, const guint8 *nodes, guint n_nodes)
{
  guint calls[HS_PROBLEM_MAX_CALLS];
  HsSolveFrame *small;

  for (guint k = 0; k < n_nodes; k++)
    calls[k] = frame->nodes[nodes[k]].index;
  small = hs_solve_frame_new_like (frame, one, calls, n_nodes);
  for (guint k = 0; k < n_nodes; k++)
    {
      small->nodes[k] = frame->nodes[nodes[k]];
      small->nodes[k].vans = 1;
    }
  return small;
}

/* From @frame to the frame of one van and back: counters and breaks are the same in both. */
static guint8
to_small (const HsSolveFrame *frame, const guint8 *nodes, guint n_nodes, guint8 stop)
{
  guint8 k = 0;

  if (stop >= frame->n_nodes)
    return stop;
  if (stop >= frame->n_calls)
    return (guint8) (stop - frame->n_calls + n_nodes);
  while (nodes[k] != stop)
    k++;
  return k;
}

static guint8
to_large (const HsSolveFrame *frame, const guint8 *nodes, guint n_nodes, guint8 stop)
{
  if (stop >= HS_PATH_BREAK)
    return stop;
  return stop < n_nodes ? nodes[stop] : (guint8) (stop - n_nodes + frame->n_calls);
}

/* Puts the stops of @trip into the first order; @ret_stops: room for as many as a path has. */
static void
settle_trip (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, guint *tries, Trip *trip,
             guint8 *ret_stops)
{
  HsProblem one = *frame->problem;
  g_autoptr (GPtrArray) vans = g_ptr_array_new ();
  g_autoptr (HsSolveFrame) small = NULL;
  g_autoptr (HsSolveBound) bound = NULL;
  guint8 nodes[HS_PROBLEM_MAX_CALLS];
  guint n_nodes = list_calls (frame, trip, nodes);
  HsPath path = { trip->n, { 0 }, { trip->leave }, { trip->home } };

  if (n_nodes == 0 || n_nodes > HS_EXACT_MAX_CALLS || *tries == 0)
    return;
  g_ptr_array_add (vans, (gpointer) hs_problem_get_van (frame->problem, van));
  one.vans = vans;
  small = frame_of_van (frame, &one, nodes, n_nodes);
  bound = small->n_nodes > MAX_BOUND_NODES ? hs_solve_bound_new_quick (small) : hs_solve_bound_new (small);
  for (guint k = 0; k < trip->n; k++)
    path.stops[k] = to_small (frame, nodes, n_nodes, trip->stops[k]);
  if (!hs_solve_first_find (NULL, small, bound, terms, tries, &path))
    return;
  for (guint k = 0; k < path.n_stops; k++)
    ret_stops[k] = to_large (frame, nodes, n_nodes, path.stops[k]);
  *trip = (Trip){ ret_stops, path.n_stops, path.leave[0], path.home[0] };
}

static void
settle_trips (const HsSolveFrame *frame, const HsSolveTerms *terms, HsPath *path)
{
  const HsPath before = *path;
  Trip trips[HS_PROBLEM_MAX_VANS];
  guint8 stops[HS_PROBLEM_MAX_VANS][HS_EXACT_MAX_STOPS];
  guint tries = MAX_VAN_TRIES;

  read_trips (frame, &before, trips);
  for (guint v = 0; v < frame->n_vans; v++)
    settle_trip (frame, terms, v, &tries, &trips[v], stops[v]);
  write_trips (frame, trips, path);
}

void
hs_solve_ties_settle (HsExact *exact, const HsSolveFrame *frame, const HsSolveBound *bound, const HsSolveTerms *terms,
                      gboolean is_best, HsPath *path)
{
  guint tries = MAX_TRIES;

  if (is_best && hs_solve_first_find (exact, frame, bound, terms, &tries, path))
    return;
  drop_idle_stops (frame, terms, path);
  settle_trips (frame, terms, path);
  deal_out (frame, path);
}
