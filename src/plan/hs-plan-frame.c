// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Turns a checked day into what the search works on. It refuses nothing: counters that never open are left out by
 * whoever says which stops are in play, rings of precedence are cut open here and explained elsewhere. */

#include "hs-plan-frame.h"

#include <stdlib.h>
#include <string.h>

static int
compare_spans (const void *a, const void *b)
{
  const HsDaySpan *left = a;
  const HsDaySpan *right = b;

  if (left->from_seconds != right->from_seconds)
    return left->from_seconds < right->from_seconds ? -1 : 1;
  return 0;
}

guint
hs_frame_merge_spans (const HsDayStop *stop, HsDaySpan *ret_spans)
{
  guint n = 0;

  if (stop->spans->len == 0)
    return 0;
  memcpy (ret_spans, stop->spans->data, stop->spans->len * sizeof (HsDaySpan));
  qsort (ret_spans, stop->spans->len, sizeof (HsDaySpan), compare_spans);
  for (guint i = 1; i < stop->spans->len; i++)
    if (ret_spans[i].from_seconds <= ret_spans[n].to_seconds)
      ret_spans[n].to_seconds = MAX (ret_spans[n].to_seconds, ret_spans[i].to_seconds);
    else
      ret_spans[++n] = ret_spans[i];
  return n + 1;
}

static gint32
service_inside (const HsDayStop *stop)
{
  return stop->kind == HS_DAY_STOP_COUNTER ? stop->service_seconds : 0;
}

gboolean
hs_frame_is_open (const HsDayStop *stop)
{
  HsDaySpan spans[HS_DAY_MAX_SPANS];
  guint n = hs_frame_merge_spans (stop, spans);

  if (n == 0)
    return !stop->shut;
  for (guint i = 0; i < n; i++)
    if (spans[i].to_seconds - service_inside (stop) >= spans[i].from_seconds)
      return TRUE;
  return FALSE;
}

void
hs_frame_before (const HsDay *day, guint64 *ret_before)
{
  guint n = day->stops->len;

  for (guint i = 0; i < n; i++)
    ret_before[i] = hs_day_get_stop (day, i)->after;
  for (guint via = 0; via < n; via++)
    for (guint i = 0; i < n; i++)
      if ((ret_before[i] & HS_FRAME_BIT (via)) != 0)
        ret_before[i] |= ret_before[via];
}

static void
fill_ranges (HsFrameStop *stop, const HsDayStop *source)
{
  HsDaySpan spans[HS_DAY_MAX_SPANS];
  guint n = hs_frame_merge_spans (source, spans);

  for (guint i = 0; i < n; i++)
    {
      HsFrameRange range = { spans[i].from_seconds, spans[i].to_seconds - service_inside (source) };

      if (range.last >= range.first)
        stop->ranges[stop->n_ranges++] = range;
    }
  if (stop->n_ranges == 0)
    stop->ranges[stop->n_ranges++] = (HsFrameRange){ -HS_FRAME_FAR, HS_FRAME_FAR };
  stop->last = stop->ranges[stop->n_ranges - 1].last;
}

static void
fill_stops (HsFrame *frame, guint64 in_play)
{
  guint64 before[HS_DAY_MAX_STOPS];
  guint index_of[HS_DAY_MAX_STOPS];

  hs_frame_before (frame->day, before);
  for (guint i = 0; i < frame->day->stops->len; i++)
    if ((in_play & HS_FRAME_BIT (i)) != 0)
      {
        index_of[i] = frame->n;
        frame->stops[frame->n++].day_stop = i;
      }
  for (guint k = 0; k < frame->n; k++)
    {
      HsFrameStop *stop = &frame->stops[k];
      const HsDayStop *source = hs_day_get_stop (frame->day, stop->day_stop);

      stop->is_call = source->kind == HS_DAY_STOP_CALL;
      stop->service = source->service_seconds;
      fill_ranges (stop, source);
      for (guint j = 0; j < frame->day->stops->len; j++)
        if ((source->after & in_play & HS_FRAME_BIT (j)) != 0 && (before[j] & HS_FRAME_BIT (stop->day_stop)) == 0
            && j != stop->day_stop)
          stop->after |= HS_FRAME_BIT (index_of[j]);
    }
}

static void
fill_legs (HsFrame *frame)
{
  const HsDay *day = frame->day;
  guint nodes = frame->n + 2;
  g_autofree guint *place = g_new (guint, nodes);

  for (guint i = 0; i < frame->n; i++)
    place[i] = hs_day_get_stop (day, frame->stops[i].day_stop)->place;
  place[frame->n] = day->start_place;
  place[frame->n + 1] = day->end_place;
  frame->seconds = g_new (gint64, nodes * nodes);
  frame->units = g_new (gint64, nodes * nodes);
  for (guint i = 0; i < nodes; i++)
    for (guint j = 0; j < nodes; j++)
      {
        guint cell = place[i] * day->n_places + place[j];

        frame->seconds[i * nodes + j] = g_array_index (day->drive_seconds, gint32, cell);
        frame->units[i * nodes + j]
            = g_array_index (day->drive_millimiles, gint64, cell) * day->mile_cents * (HS_COST_UNITS / 1000);
      }
}

/* The least time from being free at one node to reaching another, by way of any stops: the tables need not obey the
 * triangle inequality. */
static void
fill_reach (HsFrame *frame)
{
  guint nodes = frame->n + 2;

  frame->reach = g_memdup2 (frame->seconds, nodes * nodes * sizeof (gint64));
  for (guint via = 0; via < frame->n; via++)
    for (guint i = 0; i < nodes; i++)
      for (guint j = 0; j < nodes; j++)
        {
          gint64 detour = frame->reach[i * nodes + via] + frame->stops[via].service + frame->reach[via * nodes + j];

          frame->reach[i * nodes + j] = MIN (frame->reach[i * nodes + j], detour);
        }
}

static void
fill_ids (HsFrame *frame)
{
  frame->by_id = g_new (guint, MAX (frame->n, 1));
  for (guint i = 0; i < frame->n; i++)
    {
      guint rank = 0;

      for (guint j = 0; j < frame->n; j++)
        rank += strcmp (hs_day_get_stop (frame->day, frame->stops[j].day_stop)->id,
                        hs_day_get_stop (frame->day, frame->stops[i].day_stop)->id)
                < 0;
      frame->stops[i].id_rank = rank;
      frame->by_id[rank] = i;
    }
}

static void
fill_break (HsFrame *frame)
{
  const HsDay *day = frame->day;

  if (day->break_seconds == 0)
    {
      hs_frame_drop_break (frame);
      return;
    }
  frame->break_seconds = day->break_seconds;
  frame->break_first = day->break_span.from_seconds;
  frame->break_last = day->break_span.to_seconds - day->break_seconds;
  if (!day->under_way)
    frame->rested_from = MAX (day->leave_from_seconds, frame->break_first + day->break_seconds);
  else if (day->leave_from_seconds <= frame->break_last)
    frame->rested_from = MAX (day->leave_from_seconds, frame->break_first) + day->break_seconds;
  else
    frame->rested_from = HS_FRAME_FAR;
}

void
hs_frame_drop_break (HsFrame *frame)
{
  frame->break_seconds = 0;
  frame->rested_from = -HS_FRAME_FAR;
}

HsFrame *
hs_frame_new (const HsDay *day, guint64 in_play)
{
  HsFrame *frame = g_new0 (HsFrame, 1);

  frame->day = day;
  frame->stops = g_new0 (HsFrameStop, day->stops->len + 1);
  frame->second_units = day->minute_cents * (HS_COST_UNITS / 60);
  frame->home_by = day->home_by_seconds;
  fill_stops (frame, in_play);
  for (guint i = 0; i < frame->n; i++)
    frame->all |= HS_FRAME_BIT (i);
  fill_legs (frame);
  fill_reach (frame);
  fill_ids (frame);
  fill_break (frame);
  hs_frame_trim (frame, -HS_FRAME_FAR);
  return frame;
}

void
hs_frame_unlock (HsFrame *frame)
{
  frame->n_locked = 0;
  for (guint i = 0; i < frame->n; i++)
    frame->stops[i].number = 0;
}

gboolean
hs_frame_lock (HsFrame *frame)
{
  for (guint k = 0; k < HS_DAY_MAX_STOPS; k++)
    frame->locked_at[k] = -1;
  for (guint i = 0; i < frame->n; i++)
    {
      guint number = hs_day_get_stop (frame->day, frame->stops[i].day_stop)->number;

      if (number == 0)
        continue;
      if (number > frame->n || frame->locked_at[number - 1] >= 0)
        {
          hs_frame_unlock (frame);
          return FALSE;
        }
      frame->stops[i].number = number;
      frame->locked_at[number - 1] = (int) i;
      frame->n_locked++;
    }
  return TRUE;
}

void
hs_frame_free (HsFrame *frame)
{
  if (frame == NULL)
    return;
  g_free (frame->stops);
  g_free (frame->by_id);
  g_free (frame->seconds);
  g_free (frame->units);
  g_free (frame->reach);
  g_free (frame);
}

void
hs_frame_trim (HsFrame *frame, gint64 spare)
{
  frame->spare = spare;
  for (guint i = 0; i < frame->n; i++)
    {
      HsFrameStop *stop = &frame->stops[i];
      gint64 cut = stop->is_call && stop->last < HS_FRAME_FAR ? MAX (spare, 0) : 0;

      stop->n_open = 0;
      stop->open_last = -HS_FRAME_FAR;
      for (guint k = 0; k < stop->n_ranges; k++)
        if (stop->ranges[k].first <= stop->ranges[k].last - cut)
          {
            stop->open[stop->n_open++] = (HsFrameRange){ stop->ranges[k].first, stop->ranges[k].last - cut };
            stop->open_last = stop->ranges[k].last - cut;
          }
    }
}

/* A call that is @late seconds late has a slack of −@late. */
static gboolean
may_be_late (const HsFrame *frame, const HsFrameStop *stop, gint64 late)
{
  return !stop->is_call || stop->forgiving || late <= -frame->spare;
}

gboolean
hs_frame_start (const HsFrame *frame, guint i, gint64 arrival, gint64 *ret_start, gint64 *ret_late)
{
  const HsFrameStop *stop = &frame->stops[i];

  for (guint k = 0; k < stop->n_open; k++)
    if (arrival <= stop->open[k].last)
      {
        *ret_start = MAX (arrival, stop->open[k].first);
        *ret_late = 0;
        return TRUE;
      }
  if (arrival <= stop->last || !may_be_late (frame, stop, arrival - stop->last))
    return FALSE;
  *ret_start = arrival;
  *ret_late = stop->forgiving ? 0 : arrival - stop->last;
  return TRUE;
}

gboolean
hs_frame_doom (const HsFrame *frame, guint64 done, guint node, gint64 time, guint *broken, gint64 *late)
{
  const gint64 *reach = &frame->reach[node * (frame->n + 2)];

  for (guint64 left = frame->all & ~done; left != 0; left &= left - 1)
    {
      guint i = (guint) __builtin_ctzll (left);
      const HsFrameStop *stop = &frame->stops[i];
      gint64 arrival = time + reach[i];

      if (arrival <= stop->open_last || stop->forgiving)
        continue;
      if (stop->is_call && (frame->spare > 0 || arrival - stop->last > -frame->spare))
        return FALSE;
      if (arrival <= stop->last)
        continue;
      *broken += 1;
      *late += arrival - stop->last;
    }
  return TRUE;
}
