// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What it about costs more to put a call into an order: what comes before a place and what comes after are each summed
 * up once. */

#include "hs-solve-screen.h"

/* Free at @ready at the earliest; free at t it costs max (@flat, @slope + t × second). */
typedef struct
{
  gint32 ready;
  gint64 flat;
  gint64 slope;
} Before;

/* Arriving at t, @last at the latest, it is home at max (@home, t + @rest); @units: miles. */
typedef struct
{
  gint32 last;
  gint32 home;
  gint32 rest;
  gint64 units;
} After;

static Before
begin (const HsSolveFrame *frame, guint van)
{
  const HsVan *it = hs_problem_get_van (frame->problem, van);
  gint64 slope = -MIN (it->leave_to_seconds, it->home_by_seconds) * frame->second_units;

  return (Before){ it->leave_from_seconds, MAX (0, slope + it->leave_from_seconds * frame->second_units), slope };
}

/* FALSE where @call is too late after @before, which ends at node @from. */
static gboolean
go_on (const HsSolveFrame *frame, const Before *before, guint from, guint call, Before *ret_next)
{
  const HsNode *node = &frame->nodes[call];
  gint32 leg = hs_solve_frame_seconds (frame, from, call);
  gint64 units = hs_solve_frame_units (frame, from, call);
  guint k = 0;

  if (before->ready + leg > node->open_last)
    return FALSE;
  while (before->ready + leg > node->open[k].last)
    k++;
  ret_next->ready = MAX (before->ready + leg, node->open[k].first) + node->service;
  ret_next->slope
      = MAX (before->slope, before->flat - (gint64) (node->open_last - leg) * frame->second_units) + units;
  ret_next->flat = MAX (before->flat + units + (gint64) (leg + node->service) * frame->second_units,
                        ret_next->slope + ret_next->ready * frame->second_units);
  return TRUE;
}

/* From arriving at @call on, when the next stop, at node @to, is @after. */
static After
lead_back (const HsSolveFrame *frame, const After *after, guint call, guint to)
{
  const HsNode *node = &frame->nodes[call];
  gint32 away = node->service + hs_solve_frame_seconds (frame, call, to);

  if (node->open[0].first + away > after->last)
    return (After){ -HS_SOLVE_FAR, 0, 0, 0 };
  return (After){
    .last = MIN (node->open_last, after->last - away),
    .home = MAX (after->home, node->open[0].first + away + after->rest),
    .rest = away + after->rest,
    .units = after->units + hs_solve_frame_units (frame, call, to),
  };
}

/* The whole, with the best time between. */
static gint64
join (const HsSolveFrame *frame, const Before *before, guint from, const After *after, guint to)
{
  gint32 leg = hs_solve_frame_seconds (frame, from, to);
  gint64 second = frame->second_units;
  gint64 free = before->ready;

  if (before->ready + leg > after->last)
    return HS_SCREEN_NEVER;
  if (second > 0)
    free = CLAMP ((before->flat - before->slope) / second, before->ready, after->last - leg);
  return MAX (before->flat, before->slope + free * second)
         + second * (MAX (after->home, free + leg + after->rest) - free) + hs_solve_frame_units (frame, from, to)
         + after->units;
}

static guint
node_at (const HsSolveFrame *frame, guint van, const guint8 *calls, guint n_calls, guint at)
{
  if (at == 0)
    return hs_solve_frame_start (frame, van);
  return at <= n_calls ? calls[at - 1] : hs_solve_frame_end (frame, van);
}

void
hs_solve_screen (const HsSolveFrame *frame, guint van, const guint8 *calls, guint n_calls, guint call, guint first,
                 guint last, gint64 *ret_more)
{
  After after[HS_PROBLEM_MAX_CALLS + 1];
  Before before = begin (frame, van);
  gint64 base = HS_SCREEN_NEVER;
  guint end = hs_solve_frame_end (frame, van);

  after[n_calls] = (After){ hs_problem_get_van (frame->problem, van)->home_by_seconds, -HS_SOLVE_FAR, 0, 0 };
  for (guint k = n_calls; k-- > 0;)
    after[k] = lead_back (frame, &after[k + 1], calls[k], node_at (frame, van, calls, n_calls, k + 2));
  if (n_calls == 0)
    base = 0;
  else
    base = join (frame, &before, hs_solve_frame_start (frame, van), &after[0], calls[0]);
  for (guint at = 0; at <= last; at++)
    {
      guint from = node_at (frame, van, calls, n_calls, at);
      gint64 whole = HS_SCREEN_NEVER;
      Before next;

      if (at >= first && go_on (frame, &before, from, call, &next))
        whole = join (frame, &next, call, &after[at], at < n_calls ? calls[at] : end);
      ret_more[at] = whole == HS_SCREEN_NEVER || base == HS_SCREEN_NEVER ? HS_SCREEN_NEVER : whole - base;
      if (at < last && !go_on (frame, &before, from, calls[at], &before))
        {
          for (guint k = at + 1; k <= last; k++)
            ret_more[k] = HS_SCREEN_NEVER;
          return;
        }
    }
}
