// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Goes through the orders of one van's stops by their ids and takes the first that is worth what the plan is worth. An
 * order is left as soon as what is still to be driven and done makes it dearer than that. */

#include "hs-solve-ties.h"

#include <string.h>

#define MAX_WAYS 64
/* Some ten milliseconds for all vans. */
#define MAX_TRIES 30000

/* @order: all stops that there could be, by id; @rest: what each call and the way home take at least */
typedef struct
{
  const HsSolveFrame *frame;
  const HsSolveTerms *terms;
  guint van;
  HsClose target;
  guint n_order;
  guint8 order[HS_PROBLEM_MAX_CALLS + HS_PROBLEM_MAX_COUNTERS + 1];
  guint n_left;
  gboolean left[HS_PROBLEM_MAX_CALLS];
  gint64 rest[HS_PROBLEM_MAX_CALLS];
  gint64 rest_left;
  guint n_stops;
  guint8 stops[HS_EXACT_MAX_STOPS];
  guint *tries;
} Ties;

static const char *
stop_id (const HsSolveFrame *frame, guint8 stop)
{
  if (stop == HS_PATH_BREAK)
    return "break";
  if (stop >= frame->n_calls)
    return hs_problem_get_counter (frame->problem, frame->nodes[stop].index)->id;
  return hs_problem_get_call (frame->problem, frame->nodes[stop].index)->id;
}

static int
compare_stops (gconstpointer a, gconstpointer b, gpointer frame)
{
  return strcmp (stop_id (frame, *(const guint8 *) a), stop_id (frame, *(const guint8 *) b));
}

/* Keeps @step unless what is still to come makes it dearer than the target, or another is at least as good. */
static guint
add_step (const Ties *ties, const HsStep *step, HsStep *ways, guint n_ways)
{
  gint64 least = step->units + step->drive * ties->frame->second_units + ties->rest_left;
  guint n_kept = 0;

  if (least > ties->target.units || step->broken > ties->target.broken || step->late > ties->target.late)
    return n_ways;
  for (guint i = 0; i < n_ways; i++)
    if (hs_step_dominates (&ways[i], step) && ways[i].seen == step->seen && ways[i].stock == step->stock)
      return n_ways;
  for (guint i = 0; i < n_ways; i++)
    if (!hs_step_dominates (step, &ways[i]) || ways[i].seen != step->seen || ways[i].stock != step->stock)
      ways[n_kept++] = ways[i];
  if (n_kept < MAX_WAYS)
    ways[n_kept++] = *step;
  return n_kept;
}

/* All ways to go on from @ways to @stop. */
static guint
spread (const Ties *ties, const HsStep *ways, guint n_ways, guint8 stop, HsStep *ret_ways)
{
  HsStep next[HS_STEP_MAX_NEXT];
  guint n_all = 0;

  for (guint i = 0; i < n_ways; i++)
    {
      guint n;

      if (stop == HS_PATH_BREAK)
        n = hs_step_break (ties->frame, &ways[i], next);
      else if (stop >= ties->frame->n_calls)
        n = hs_step_counter (ties->frame, &ways[i], stop - ties->frame->n_calls, next);
      else
        n = hs_step_call (ties->frame, ties->terms, &ways[i], stop, next);
      for (guint k = 0; k < n; k++)
        n_all = add_step (ties, &next[k], ret_ways, n_all);
    }
  return n_all;
}

/* The best way home; FALSE if there is none. */
static gboolean
close_best (const Ties *ties, const HsStep *ways, guint n_ways, HsClose *ret_close)
{
  gboolean found = FALSE;
  HsClose close;

  for (guint i = 0; i < n_ways; i++)
    if (hs_step_close (ties->frame, ties->terms, &ways[i], &close)
        && (!found || hs_step_compare_closes (&close, ret_close) < 0))
      {
        *ret_close = close;
        found = TRUE;
      }
  return found;
}

static void
set_left (Ties *ties, guint8 stop, gboolean left)
{
  if (stop >= ties->frame->n_calls)
    return;
  ties->left[stop] = left;
  ties->n_left = left ? ties->n_left + 1 : ties->n_left - 1;
  ties->rest_left += left ? ties->rest[stop] : -ties->rest[stop];
}

/* Whether none of the calls left is out of reach already; asked only where nothing may be late. */
static gboolean
is_hopeful (const Ties *ties, const HsStep *ways, guint n_ways)
{
  if (ties->target.broken > 0 || ties->terms->missed > 0)
    return TRUE;
  for (guint i = 0; i < ties->n_order; i++)
    {
      guint8 call = ties->order[i];
      gboolean reached = call >= ties->frame->n_calls || !ties->left[call];

      for (guint k = 0; k < n_ways && !reached; k++)
        reached = ways[k].ready + hs_solve_frame_reach (ties->frame, ways[k].last, call)
                  <= ties->frame->nodes[call].open_last;
      if (!reached)
        return FALSE;
    }
  return TRUE;
}

/* Completes the order in @stops; FALSE if it can't be done at the price of the target, or the tries are used up. */
static gboolean
descend (Ties *ties, const HsStep *ways, guint n_ways)
{
  HsStep next[MAX_WAYS];
  HsClose close;

  if (ties->n_left == 0 && close_best (ties, ways, n_ways, &close)
      && hs_step_compare_closes (&close, &ties->target) <= 0)
    {
      ties->target = close;
      return TRUE;
    }
  for (guint i = 0; i < ties->n_order && *ties->tries > 0; i++)
    {
      guint8 stop = ties->order[i];
      guint n;

      if (stop < ties->frame->n_calls && !ties->left[stop])
        continue;
      --*ties->tries;
      set_left (ties, stop, FALSE);
      ties->stops[ties->n_stops++] = stop;
      n = spread (ties, ways, n_ways, stop, next);
      if (n > 0 && is_hopeful (ties, next, n) && descend (ties, next, n))
        return TRUE;
      ties->n_stops--;
      set_left (ties, stop, TRUE);
    }
  return FALSE;
}

/* The cheapest way to get to @to from anywhere that this van could be. */
static gint64
least_leg (const Ties *ties, guint to)
{
  const HsSolveFrame *frame = ties->frame;
  guint start = hs_solve_frame_start (frame, ties->van);
  gint64 least = HS_SOLVE_NO_UNITS;

  for (guint from = 0; from <= frame->n_nodes; from++)
    {
      guint node = from < frame->n_nodes ? from : start;

      if (node != to)
        least = MIN (least, hs_solve_frame_units (frame, node, to)
                                + hs_solve_frame_seconds (frame, node, to) * frame->second_units);
    }
  return least;
}

static void
collect (Ties *ties, const guint8 *stops, guint n_stops)
{
  const HsSolveFrame *frame = ties->frame;

  ties->rest_left = least_leg (ties, hs_solve_frame_end (frame, ties->van));
  for (guint i = 0; i < n_stops; i++)
    if (stops[i] < frame->n_calls)
      {
        ties->rest[stops[i]] = least_leg (ties, stops[i]) + frame->nodes[stops[i]].service * frame->second_units;
        ties->order[ties->n_order++] = stops[i];
        set_left (ties, stops[i], TRUE);
      }
  for (guint k = 0; k < frame->n_counters; k++)
    ties->order[ties->n_order++] = (guint8) (frame->n_calls + k);
  if (memchr (stops, HS_PATH_BREAK, n_stops) != NULL)
    ties->order[ties->n_order++] = HS_PATH_BREAK;
  g_qsort_with_data (ties->order, (gint) ties->n_order, sizeof *ties->order, compare_stops, (gpointer) frame);
}

/* What the stops are worth as they stand. */
static gboolean
rate (Ties *ties, const guint8 *stops, guint n_stops)
{
  HsStep ways[2][MAX_WAYS];
  guint n_ways = hs_step_begin (ties->frame, ties->terms, ties->van, ways[0]);
  gint64 rest = ties->rest_left;

  ties->target = (HsClose){ HS_SOLVE_NO_UNITS, 0, 0, G_MAXINT32, G_MAXUINT16 };
  ties->rest_left = 0;
  for (guint i = 0; i < n_stops; i++)
    n_ways = spread (ties, ways[i % 2], n_ways, stops[i], ways[(i + 1) % 2]);
  ties->rest_left = rest;
  return close_best (ties, ways[n_stops % 2], n_ways, &ties->target);
}

/* Leaves out a break that could as well be had before leaving or at home: that is where it belongs. The van then leaves
 * as it must for that. */
static guint
drop_idle_break (Ties *ties, const guint8 *stops, guint n_stops, HsPath *settled, guint8 *ret_stops)
{
  HsClose with;
  guint n = 0;

  for (guint i = 0; i < n_stops; i++)
    if (stops[i] != HS_PATH_BREAK)
      ret_stops[n++] = stops[i];
  if (n < n_stops && rate (ties, stops, n_stops))
    {
      with = ties->target;
      if (rate (ties, ret_stops, n) && hs_step_compare_closes (&ties->target, &with) <= 0)
        {
          settled->leave[ties->van] = ties->target.leave;
          settled->home[ties->van] = ties->target.home;
          return n;
        }
    }
  memcpy (ret_stops, stops, n_stops);
  return n_stops;
}

/* One van, at the end of @settled: with @stops, or with others that are as good. */
static void
settle_van (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, const guint8 *stops, guint n_stops,
            guint *tries, HsPath *settled)
{
  g_autofree Ties *ties = g_new0 (Ties, 1);
  guint8 kept[G_N_ELEMENTS (settled->stops)];
  HsStep begin[2];

  ties->frame = frame;
  ties->terms = terms;
  ties->van = van;
  ties->tries = tries;
  n_stops = drop_idle_break (ties, stops, n_stops, settled, kept);
  stops = kept;
  collect (ties, stops, n_stops);
  if (ties->n_left > 0 && rate (ties, stops, n_stops)
      && descend (ties, begin, hs_step_begin (frame, terms, van, begin)))
    {
      stops = ties->stops;
      n_stops = ties->n_stops;
      settled->leave[van] = ties->target.leave;
      settled->home[van] = ties->target.home;
    }
  memcpy (settled->stops + settled->n_stops, stops, n_stops);
  settled->n_stops += n_stops;
}

/* One van's day: its stops in a path. */
typedef struct
{
  const guint8 *stops;
  guint n;
  gint32 leave;
  gint32 home;
} Trip;

/* Who stays comes after who goes. */
static gboolean
comes_before (const HsSolveFrame *frame, const Trip *a, const Trip *b)
{
  for (guint k = 0; k < MIN (a->n, b->n); k++)
    {
      int order = strcmp (stop_id (frame, a->stops[k]), stop_id (frame, b->stops[k]));

      if (order != 0)
        return order < 0;
    }
  return a->n > 0 && (b->n == 0 || a->n < b->n);
}

/* Gives trips of vans that are alike to those whose ids come first: of two such vans the one whose id is ahead gets the
 * trip that is ahead. */
static void
deal_out (const HsSolveFrame *frame, Trip *trips)
{
  for (guint round = 1; round < frame->n_vans; round++)
    for (guint v = 0; v < frame->n_vans; v++)
      for (guint w = 0; w < frame->n_vans; w++)
        if (strcmp (hs_problem_get_van (frame->problem, v)->id, hs_problem_get_van (frame->problem, w)->id) < 0
            && comes_before (frame, &trips[w], &trips[v]) && hs_solve_frame_alike (frame, v, w))
          {
            Trip swap = trips[v];

            trips[v] = trips[w];
            trips[w] = swap;
          }
}

static void
settle_vans (const HsSolveFrame *frame, HsPath *path)
{
  const HsPath before = *path;
  Trip trips[HS_PROBLEM_MAX_VANS] = { { 0 } };
  guint at = 0;

  for (guint v = 0; v < frame->n_vans; v++)
    {
      trips[v] = (Trip){ before.stops + at, 0, before.leave[v], before.home[v] };
      for (; at < before.n_stops && before.stops[at] != HS_PATH_CLOSE; at++)
        trips[v].n++;
      at = MIN (at + 1, before.n_stops);
    }
  deal_out (frame, trips);
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

void
hs_solve_ties_settle (const HsSolveFrame *frame, const HsSolveTerms *terms, HsPath *path)
{
  HsPath settled = *path;
  guint tries = MAX_TRIES;
  guint van = 0;
  guint from = 0;

  settled.n_stops = 0;
  for (guint i = 0; i <= path->n_stops; i++)
    if ((i == path->n_stops || path->stops[i] == HS_PATH_CLOSE) && van < frame->n_vans)
      {
        settle_van (frame, terms, van++, path->stops + from, i - from, &tries, &settled);
        if (i < path->n_stops)
          settled.stops[settled.n_stops++] = HS_PATH_CLOSE;
        from = i + 1;
      }
  *path = settled;
  settle_vans (frame, path);
}
