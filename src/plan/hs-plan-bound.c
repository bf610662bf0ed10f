// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Bounds on the rest of a day: what is left costs at least this, windows forgotten. Up to DENSE_STOPS stops it is the
 * exact least over all orders that put parts first, by set; above, the cheapest way into each stop that is left. */

#include "hs-plan-search.h"

#define DENSE_STOPS 14

typedef gint64 (*HsLegCost) (const HsFrame *frame, guint from, guint to);

static gint64
leg_seconds (const HsFrame *frame, guint from, guint to)
{
  return hs_frame_seconds (frame, from, to) + (to < frame->n ? frame->stops[to].service : 0);
}

static gint64
leg_units (const HsFrame *frame, guint from, guint to)
{
  return hs_frame_units (frame, from, to);
}

static gint64
leg_both (const HsFrame *frame, guint from, guint to)
{
  return leg_seconds (frame, from, to) * frame->second_units + hs_frame_units (frame, from, to);
}

static gint64
least_rest (const HsFrame *frame, const gint64 *rest, guint64 done, guint last, HsLegCost cost)
{
  gint64 least = G_MAXINT64;

  if (done == frame->all)
    return cost (frame, last, frame->n + 1);
  for (guint64 left = frame->all & ~done; left != 0; left &= left - 1)
    {
      guint i = (guint) __builtin_ctzll (left);
      gint64 beyond;

      if ((frame->stops[i].after & ~done) != 0)
        continue;
      beyond = rest[(done | HS_FRAME_BIT (i)) * frame->n + i];
      if (beyond < G_MAXINT64)
        least = MIN (least, beyond + cost (frame, last, i));
    }
  return least;
}

static gint64 *
dense_rest (const HsFrame *frame, HsLegCost cost)
{
  gint64 *rest = g_new (gint64, (frame->all + 1) * frame->n);

  for (guint64 done = frame->all; done > 0; done--)
    for (guint last = 0; last < frame->n; last++)
      rest[done * frame->n + last] = (done & HS_FRAME_BIT (last)) != 0
                                         ? least_rest (frame, rest, done, last, cost)
                                         : G_MAXINT64;
  return rest;
}

static gint64
least_into (const HsFrame *frame, guint to, HsLegCost cost)
{
  gint64 least = G_MAXINT64;

  for (guint from = 0; from <= frame->n; from++)
    if (from != to)
      least = MIN (least, cost (frame, from, to));
  return least;
}

HsBound *
hs_bound_new (const HsFrame *frame)
{
  HsBound *bound = g_new0 (HsBound, 1);

  bound->n = frame->n;
  for (guint i = 0; i <= frame->n; i++)
    {
      guint node = i < frame->n ? i : frame->n + 1;

      bound->in_seconds[i] = least_into (frame, node, leg_seconds);
      bound->in_units[i] = least_into (frame, node, leg_units);
    }
  if (frame->n > 0 && frame->n <= DENSE_STOPS)
    {
      bound->seconds = dense_rest (frame, leg_seconds);
      bound->units = dense_rest (frame, leg_units);
      bound->both = dense_rest (frame, leg_both);
    }
  return bound;
}

void
hs_bound_free (HsBound *bound)
{
  if (bound == NULL)
    return;
  g_free (bound->seconds);
  g_free (bound->units);
  g_free (bound->both);
  g_free (bound);
}

static gint64
sum_into (const HsBound *bound, const gint64 *into, guint64 left)
{
  gint64 sum = into[bound->n];

  for (; left != 0; left &= left - 1)
    sum += into[__builtin_ctzll (left)];
  return sum;
}

/* Nothing bounds the day before its first stop: the tables start there. */
gint64
hs_bound_seconds (const HsBound *bound, const HsFrame *frame, guint64 done, guint last)
{
  if (bound->seconds != NULL && done != 0)
    return bound->seconds[done * bound->n + last];
  return sum_into (bound, bound->in_seconds, frame->all & ~done);
}

gint64
hs_bound_units (const HsBound *bound, const HsFrame *frame, guint64 done, guint last)
{
  if (bound->units != NULL && done != 0)
    return bound->units[done * bound->n + last];
  return sum_into (bound, bound->in_units, frame->all & ~done);
}

gint64
hs_bound_both (const HsBound *bound, const HsFrame *frame, guint64 done, guint last)
{
  if (bound->both != NULL && done != 0)
    return bound->both[done * bound->n + last];
  return sum_into (bound, bound->in_seconds, frame->all & ~done) * frame->second_units
         + sum_into (bound, bound->in_units, frame->all & ~done);
}
