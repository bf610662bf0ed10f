// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Draws conclusions from windows and legs until nothing more follows. */

#include "hs-tsptw-frame.h"

/* Stopping early is always right, and two stops that push each other on second by second would take forever. (What
 * follows from the depot's own times is drawn at once.) */
#define MAX_ROUNDS 40

static gint64 *
leg_of (const HsTsptwFrame *frame, guint from, guint to)
{
  return &frame->drive[from * frame->n + to];
}

static gint64
near_of (const HsTsptwFrame *frame, guint from, guint to)
{
  return frame->near[from * frame->n + to];
}

/* The way home counts as a leg to node 0, which no stop lies behind. */
static void
find_near (HsTsptwFrame *frame)
{
  guint n = frame->n;

  memcpy (frame->near, frame->drive, n * n * sizeof (gint64));
  for (guint via = 1; via < n; via++)
    for (guint from = 0; from < n; from++)
      {
        gint64 first = near_of (frame, from, via);
        gint64 *row = &frame->near[from * n];
        const gint64 *then = &frame->near[via * n];

        if (first >= HS_TSPTW_FAR || from == via)
          continue;
        for (guint to = 0; to < n; to++)
          row[to] = MIN (row[to], first + then[to]);
      }
  for (guint i = 0; i < n; i++)
    frame->near[i * n + i] = 0;
}

static gboolean
put_before (HsTsptwFrame *frame, guint first, guint then)
{
  if (hs_set_has (hs_tsptw_frame_after (frame, first), then))
    return FALSE;
  hs_set_add (frame->after + first * frame->words, then);
  hs_set_add (frame->before + then * frame->words, first);
  return TRUE;
}

/* What comes after something that comes after it. */
static gboolean
chain_orders (HsTsptwFrame *frame)
{
  gboolean changed = FALSE;

  for (guint middle = 1; middle < frame->n; middle++)
    for (guint first = 1; first < frame->n; first++)
      {
        guint64 *after = frame->after + first * frame->words;
        const guint64 *behind = hs_tsptw_frame_after (frame, middle);

        if (!hs_set_has (after, middle) || hs_set_is_within (behind, after, frame->words))
          continue;
        for (guint then = 1; then < frame->n; then++)
          if (hs_set_has (behind, then))
            changed |= put_before (frame, first, then);
      }
  return changed;
}

static gboolean
find_orders (HsTsptwFrame *frame)
{
  gboolean changed = FALSE;

  for (guint a = 1; a < frame->n; a++)
    for (guint b = 1; b < frame->n; b++)
      if (a != b && frame->from[b] + near_of (frame, b, a) > frame->to[a])
        changed |= put_before (frame, a, b);
  changed |= chain_orders (frame);
  for (guint a = 1; a < frame->n; a++)
    if (hs_set_has (hs_tsptw_frame_after (frame, a), a))
      frame->possible = FALSE;
  return changed;
}

/* Whether a stop that comes before or after both ends of the leg still can. */
static gboolean
leaves_room (const HsTsptwFrame *frame, guint from, guint to, gint64 leg)
{
  gint64 reached = MAX (frame->from[to], frame->from[from] + leg);

  for (guint other = 1; other < frame->n; other++)
    {
      if (other == from || other == to)
        continue;
      if (from != 0 && hs_set_has (hs_tsptw_frame_before (frame, to), other)
          && MAX (frame->from[from], frame->from[other] + near_of (frame, other, from)) + leg > frame->to[to])
        return FALSE;
      if ((from == 0 || hs_set_has (hs_tsptw_frame_after (frame, from), other))
          && reached + near_of (frame, to, other) > frame->to[other])
        return FALSE;
    }
  return TRUE;
}

static gboolean
can_hold (const HsTsptwFrame *frame, guint from, guint to, gint64 leg)
{
  if (to == 0)
    {
      for (guint i = 0; i < frame->words; i++)
        if (hs_tsptw_frame_after (frame, from)[i] != 0)
          return FALSE;
      return frame->from[from] + leg <= frame->home_by;
    }
  if (frame->from[from] + leg > frame->to[to])
    return FALSE;
  if (from == 0)
    {
      for (guint i = 0; i < frame->words; i++)
        if (hs_tsptw_frame_before (frame, to)[i] != 0)
          return FALSE;
      return leaves_room (frame, from, to, leg);
    }
  return !hs_set_has (hs_tsptw_frame_before (frame, from), to)
         && !hs_set_meets (hs_tsptw_frame_after (frame, from), hs_tsptw_frame_before (frame, to), frame->words)
         && leaves_room (frame, from, to, leg);
}

static gboolean
drop_legs (HsTsptwFrame *frame)
{
  gboolean changed = FALSE;

  for (guint from = 0; from < frame->n; from++)
    for (guint to = 0; to < frame->n; to++)
      if (*leg_of (frame, from, to) < HS_TSPTW_FAR && !can_hold (frame, from, to, *leg_of (frame, from, to)))
        {
          *leg_of (frame, from, to) = HS_TSPTW_FAR;
          changed = TRUE;
        }
  return changed;
}

/* A stop is reached no earlier than over its quickest leg in, and no later than its latest leg in allows. */
static gboolean
tighten_in (HsTsptwFrame *frame, guint node)
{
  gint64 earliest = HS_TSPTW_FAR;
  gint64 latest = 0;
  gboolean changed;

  for (guint other = 0; other < frame->n; other++)
    {
      gint64 leg = *leg_of (frame, other, node);

      if (leg >= HS_TSPTW_FAR)
        continue;
      earliest = MIN (earliest, frame->from[other] + leg);
      latest = MAX (latest, frame->to[other] + leg);
    }
  earliest = MAX (earliest, frame->from[0] + near_of (frame, 0, node));
  for (guint other = 1; other < frame->n; other++)
    if (hs_set_has (hs_tsptw_frame_before (frame, node), other))
      earliest = MAX (earliest, frame->from[other] + near_of (frame, other, node));
  latest = MAX (latest, frame->from[node]);
  changed = earliest > frame->from[node] || latest < frame->to[node];
  frame->from[node] = MIN (MAX (frame->from[node], earliest), HS_TSPTW_FAR);
  frame->to[node] = MAX (MIN (frame->to[node], latest), -HS_TSPTW_FAR);
  return changed;
}

/* It is left no later than its latest leg out allows. */
static gboolean
tighten_out (HsTsptwFrame *frame, guint node)
{
  gint64 latest = -1;
  gboolean changed;

  for (guint other = 0; other < frame->n; other++)
    {
      gint64 leg = *leg_of (frame, node, other);

      if (leg < HS_TSPTW_FAR)
        latest = MAX (latest, (other == 0 ? frame->home_by : frame->to[other]) - leg);
    }
  latest = MIN (latest, frame->home_by - near_of (frame, node, 0));
  for (guint other = 1; other < frame->n; other++)
    if (hs_set_has (hs_tsptw_frame_after (frame, node), other))
      latest = MIN (latest, frame->to[other] - near_of (frame, node, other));
  changed = latest < frame->to[node];
  frame->to[node] = MAX (MIN (frame->to[node], latest), -HS_TSPTW_FAR);
  return changed;
}

static gboolean
tighten_windows (HsTsptwFrame *frame)
{
  gboolean changed = FALSE;

  for (guint node = 1; node < frame->n; node++)
    {
      changed |= tighten_in (frame, node);
      changed |= tighten_out (frame, node);
      if (frame->from[node] > frame->to[node])
        frame->possible = FALSE;
    }
  return changed;
}

void
hs_tsptw_frame_tighten (HsTsptwFrame *frame)
{
  gboolean changed = TRUE;

  find_near (frame);
  for (guint round = 0; changed && frame->possible && round < MAX_ROUNDS; round++)
    {
      changed = find_orders (frame);
      changed |= drop_legs (frame);
      changed |= tighten_windows (frame);
    }
  find_near (frame);
}

static void
copy_legs (HsTsptwFrame *frame, const HsTsptw *problem)
{
  for (guint from = 0; from < frame->n; from++)
    for (guint to = 0; to < frame->n; to++)
      {
        gint64 leg = hs_tsptw_get_drive (problem, from, to);
        gboolean useful = from != to && leg <= frame->home_by;

        if (useful && to != 0)
          useful = problem->from[from] + leg <= problem->to[to];
        *leg_of (frame, from, to) = useful ? leg : HS_TSPTW_FAR;
      }
}

HsTsptwFrame *
hs_tsptw_frame_new (const HsTsptw *problem, gint64 home_by, gboolean leave_freely)
{
  HsTsptwFrame *frame = g_new0 (HsTsptwFrame, 1);
  guint n = problem->n_nodes;

  frame->n = n;
  frame->words = hs_set_words (n);
  frame->drive = g_new (gint64, n * n);
  frame->near = g_new (gint64, n * n);
  frame->from = g_memdup2 (problem->from, n * sizeof (gint64));
  frame->to = g_memdup2 (problem->to, n * sizeof (gint64));
  frame->before = g_new0 (guint64, n * frame->words);
  frame->after = g_new0 (guint64, n * frame->words);
  frame->home_by = MIN (home_by, problem->to[0]);
  frame->possible = TRUE;
  if (!leave_freely)
    frame->to[0] = frame->from[0];
  copy_legs (frame, problem);
  for (guint i = 0; i < problem->before->len; i++)
    {
      const HsTsptwPair *pair = &g_array_index (problem->before, HsTsptwPair, i);

      put_before (frame, pair->first, pair->then);
    }
  hs_tsptw_frame_tighten (frame);
  return frame;
}

void
hs_tsptw_frame_free (HsTsptwFrame *frame)
{
  if (frame == NULL)
    return;
  g_free (frame->drive);
  g_free (frame->near);
  g_free (frame->from);
  g_free (frame->to);
  g_free (frame->before);
  g_free (frame->after);
  g_free (frame);
}
