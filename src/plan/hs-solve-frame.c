// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Turns a problem into the arrays that the search runs on. Nothing is decided here. */

#include "hs-solve-frame.h"

#include <stdlib.h>

#define DAY_SECONDS (24 * 3600)

static int
compare_starts (gconstpointer a, gconstpointer b)
{
  const HsStart *left = a;
  const HsStart *right = b;

  if (left->first != right->first)
    return left->first < right->first ? -1 : 1;
  return left->last < right->last ? -1 : left->last > right->last;
}

/* Each span as the times at which a stop of @inside seconds may start, by when they begin. */
static void
fill_starts (HsNode *node, const GArray *spans, gint32 inside)
{
  node->last = -HS_SOLVE_FAR;
  for (guint i = 0; i < spans->len; i++)
    {
      const HsDaySpan *span = &g_array_index (spans, HsDaySpan, i);

      if (span->to_seconds - inside < span->from_seconds)
        continue;
      node->all[node->n_all++] = (HsStart){ span->from_seconds, span->to_seconds - inside };
      node->last = MAX (node->last, span->to_seconds - inside);
    }
  qsort (node->all, node->n_all, sizeof (HsStart), compare_starts);
}

static gint32
whole_day (const HsProblem *problem)
{
  gint32 last = DAY_SECONDS;

  for (guint v = 0; v < problem->vans->len; v++)
    last = MAX (last, hs_problem_get_van (problem, v)->home_by_seconds);
  return last;
}

static void
fill_call (HsSolveFrame *frame, HsNode *node, guint index)
{
  const HsCall *call = hs_problem_get_call (frame->problem, index);

  node->index = index;
  node->place = call->place;
  node->service = call->service_seconds;
  node->n_needs = call->needs->len;
  for (guint k = 0; k < call->needs->len; k++)
    node->needs[k] = g_array_index (call->needs, guint, k);
  for (guint v = 0; v < frame->n_vans; v++)
    if (hs_problem_may_serve (frame->problem, v, index))
      node->vans |= 1u << v;
  fill_starts (node, call->windows, 0);
  if (call->windows->len == 0)
    {
      node->all[0] = (HsStart){ 0, whole_day (frame->problem) };
      node->last = node->all[0].last;
      node->n_all = 1;
    }
}

static void
fill_counter (HsSolveFrame *frame, HsNode *node, guint index)
{
  const HsCounter *counter = hs_problem_get_counter (frame->problem, index);

  node->index = index;
  node->place = counter->place;
  node->service = counter->service_seconds;
  node->vans = (1u << frame->n_vans) - 1;
  fill_starts (node, counter->hours, counter->service_seconds);
}

static guint
place_of (const HsSolveFrame *frame, guint node)
{
  const HsVan *van;

  if (node < frame->n_nodes)
    return frame->nodes[node].place;
  van = hs_problem_get_van (frame->problem, (node - frame->n_nodes) / 2);
  return (node - frame->n_nodes) % 2 == 0 ? van->start : van->end;
}

/* Shortest ways from place to place, whatever lies between, for what can be reached at all. */
static GArray *
close_places (const HsProblem *problem)
{
  guint n = problem->n_places;
  GArray *places = g_array_copy (problem->drive_seconds);
  gint32 *reach = (gint32 *) places->data;

  for (guint k = 0; k < n; k++)
    for (guint i = 0; i < n; i++)
      for (guint j = 0; j < n; j++)
        reach[i * n + j] = MIN (reach[i * n + j], reach[i * n + k] + reach[k * n + j]);
  return places;
}

static void
fill_legs (HsSolveFrame *frame)
{
  const HsProblem *problem = frame->problem;
  guint n = problem->n_places;
  guint cells = frame->dim * frame->dim;

  frame->seconds = g_new (gint32, cells);
  frame->units = g_new (gint64, cells);
  frame->reach = g_new (gint32, cells);
  for (guint i = 0; i < frame->dim; i++)
    for (guint j = 0; j < frame->dim; j++)
      {
        guint cell = place_of (frame, i) * n + place_of (frame, j);

        frame->seconds[i * frame->dim + j] = g_array_index (problem->drive_seconds, gint32, cell);
        frame->units[i * frame->dim + j] = g_array_index (problem->drive_millimiles, gint64, cell)
                                           * problem->mile_cents * (HS_COST_UNITS / 1000);
        frame->reach[i * frame->dim + j] = i == j ? 0 : g_array_index (frame->place_reach, gint32, cell);
      }
}

/* Whether a stop at node @at is a short cut somewhere, in time or in miles. */
static gboolean
is_short_cut (const HsSolveFrame *frame, guint at)
{
  for (guint i = 0; i < frame->dim; i++)
    for (guint j = 0; j < frame->dim; j++)
      if (i != at && j != at
          && (hs_solve_frame_seconds (frame, i, at) + frame->nodes[at].service + hs_solve_frame_seconds (frame, at, j)
                  < hs_solve_frame_seconds (frame, i, j)
              || hs_solve_frame_units (frame, i, at) + hs_solve_frame_units (frame, at, j)
                     < hs_solve_frame_units (frame, i, j)))
        return TRUE;
  return FALSE;
}

static void
fill_short_cuts (HsSolveFrame *frame)
{
  for (guint c = 0; c < frame->n_counters; c++)
    if (is_short_cut (frame, frame->n_calls + c))
      frame->short_cuts |= 1u << c;
}

static void
fill_sellers (HsSolveFrame *frame, HsPart *part, guint index)
{
  for (guint c = 0; c < frame->n_counters; c++)
    {
      gint64 cents = hs_counter_cents (hs_problem_get_counter (frame->problem, c), index);
      guint at = part->n_sellers;

      if (cents == HS_PROBLEM_NOT_SOLD || frame->nodes[frame->n_calls + c].n_all == 0)
        continue;
      for (; at > 0 && part->units[at - 1] > cents * HS_COST_UNITS; at--)
        {
          part->sellers[at] = part->sellers[at - 1];
          part->units[at] = part->units[at - 1];
        }
      part->sellers[at] = c;
      part->units[at] = cents * HS_COST_UNITS;
      part->n_sellers++;
    }
}

static guint
bits_for (guint count)
{
  guint bits = 1;

  while (count >> bits != 0)
    bits++;
  return bits;
}

/* Which units on board have to be counted: those that more calls want than there are. A count takes no more bits than
 * there are units, of which a van carries %HS_PROBLEM_MAX_UNITS at most: all counts have room in 64 bits. */
static void
fill_stock (HsSolveFrame *frame, guint van, const guint *wanted)
{
  const HsVan *it = hs_problem_get_van (frame->problem, van);
  guint shift = 0;

  for (guint k = 0; k < it->carries->len; k++)
    frame->parts[g_array_index (it->carries, guint, k)].carried[van]++;
  for (guint p = 0; p < frame->problem->parts->len; p++)
    {
      HsPart *part = &frame->parts[p];
      guint bits = bits_for (part->carried[van]);

      part->counted[van] = part->carried[van] > 0 && part->carried[van] < wanted[p];
      if (!part->counted[van])
        continue;
      part->shift[van] = shift;
      part->mask[van] = (G_GUINT64_CONSTANT (1) << bits) - 1;
      shift += bits;
    }
}

static void
fill_parts (HsSolveFrame *frame)
{
  guint n = frame->problem->parts->len;
  g_autofree guint *wanted = g_new0 (guint, n + 1);

  frame->parts = g_new0 (HsPart, n + 1);
  for (guint i = 0; i < frame->n_calls; i++)
    for (guint k = 0; k < frame->nodes[i].n_needs; k++)
      wanted[frame->nodes[i].needs[k]]++;
  for (guint p = 0; p < n; p++)
    fill_sellers (frame, &frame->parts[p], p);
  for (guint v = 0; v < frame->n_vans; v++)
    fill_stock (frame, v, wanted);
}

/* Takes over @place_reach. */
static HsSolveFrame *
new_frame (const HsProblem *problem, const guint *calls, guint n_calls, GArray *place_reach)
{
  HsSolveFrame *frame = g_new0 (HsSolveFrame, 1);

  frame->place_reach = place_reach;
  frame->problem = problem;
  frame->n_calls = n_calls;
  frame->n_counters = problem->counters->len;
  frame->n_vans = problem->vans->len;
  frame->n_nodes = frame->n_calls + frame->n_counters;
  frame->dim = frame->n_nodes + 2 * frame->n_vans;
  frame->nodes = g_new0 (HsNode, frame->n_nodes + 1);
  frame->second_units = problem->minute_cents * (HS_COST_UNITS / 60);
  for (guint i = 0; i < n_calls; i++)
    fill_call (frame, &frame->nodes[i], calls[i]);
  for (guint c = 0; c < frame->n_counters; c++)
    fill_counter (frame, &frame->nodes[n_calls + c], c);
  fill_legs (frame);
  fill_short_cuts (frame);
  fill_parts (frame);
  hs_solve_frame_trim (frame, 0);
  return frame;
}

HsSolveFrame *
hs_solve_frame_new (const HsProblem *problem, const guint *calls, guint n_calls)
{
  return new_frame (problem, calls, n_calls, close_places (problem));
}

HsSolveFrame *
hs_solve_frame_new_like (const HsSolveFrame *like, const HsProblem *problem, const guint *calls, guint n_calls)
{
  return new_frame (problem, calls, n_calls, g_array_ref (like->place_reach));
}

void
hs_solve_frame_free (HsSolveFrame *frame)
{
  if (frame == NULL)
    return;
  g_array_unref (frame->place_reach);
  g_free (frame->nodes);
  g_free (frame->parts);
  g_free (frame->seconds);
  g_free (frame->units);
  g_free (frame->reach);
  g_free (frame);
}

/* What is left of the spans of @node when @cut is taken off each end, those that overlap or touch joined. */
static void
trim_node (HsNode *node, gint32 cut)
{
  node->n_open = 0;
  node->open_last = -HS_SOLVE_FAR;
  for (guint k = 0; k < node->n_all; k++)
    {
      HsStart start = { node->all[k].first, node->all[k].last - cut };

      if (start.first > start.last)
        continue;
      if (node->n_open > 0 && start.first <= node->open[node->n_open - 1].last + 1)
        node->open[node->n_open - 1].last = MAX (node->open[node->n_open - 1].last, start.last);
      else
        node->open[node->n_open++] = start;
      node->open_last = MAX (node->open_last, start.last);
    }
}

void
hs_solve_frame_trim (HsSolveFrame *frame, gint32 spare)
{
  frame->spare = MAX (spare, 0);
  for (guint i = 0; i < frame->n_nodes; i++)
    trim_node (&frame->nodes[i], i < frame->n_calls ? frame->spare : 0);
}

gint64
hs_solve_frame_buy (const HsSolveFrame *frame, guint van, guint i, guint32 seen, guint64 *stock)
{
  const HsNode *node = &frame->nodes[i];
  gint64 units = 0;

  for (guint k = 0; k < node->n_needs; k++)
    {
      const HsPart *part = &frame->parts[node->needs[k]];
      guint s = 0;

      if (part->counted[van] && ((*stock >> part->shift[van]) & part->mask[van]) < part->carried[van])
        {
          *stock += G_GUINT64_CONSTANT (1) << part->shift[van];
          continue;
        }
      if (part->carried[van] > 0 && !part->counted[van])
        continue;
      while (s < part->n_sellers && (seen >> part->sellers[s] & 1) == 0)
        s++;
      if (s == part->n_sellers)
        return HS_SOLVE_NO_UNITS;
      units += part->units[s];
    }
  return units;
}

gboolean
hs_solve_frame_alike (const HsSolveFrame *frame, guint a, guint b)
{
  const HsVan *one = hs_problem_get_van (frame->problem, a);
  const HsVan *other = hs_problem_get_van (frame->problem, b);

  if (one->start != other->start || one->end != other->end || one->leave_from_seconds != other->leave_from_seconds
      || one->leave_to_seconds != other->leave_to_seconds || one->home_by_seconds != other->home_by_seconds
      || one->break_seconds != other->break_seconds)
    return FALSE;
  if (one->break_seconds > 0
      && (one->break_span.from_seconds != other->break_span.from_seconds
          || one->break_span.to_seconds != other->break_span.to_seconds))
    return FALSE;
  for (guint p = 0; p < frame->problem->parts->len; p++)
    if (frame->parts[p].carried[a] != frame->parts[p].carried[b])
      return FALSE;
  for (guint i = 0; i < frame->n_calls; i++)
    if ((frame->nodes[i].vans >> a & 1) != (frame->nodes[i].vans >> b & 1))
      return FALSE;
  return TRUE;
}
