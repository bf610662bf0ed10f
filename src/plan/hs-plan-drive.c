// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Drives an order stop by stop from a leave time: each stop starts as soon as it may, late ones at once. Nothing is
 * chosen here but the place of the break, and nothing is refused. */

#include "hs-plan-drive.h"

#include "hs-plan-why.h"

static HsPlan *
plan_new (void)
{
  HsPlan *plan = g_new0 (HsPlan, 1);

  plan->stops = g_array_new (FALSE, TRUE, sizeof (HsPlanStop));
  plan->broken = g_ptr_array_new_with_free_func (hs_why_free);
  plan->spare_seconds = HS_PLAN_NO_LIMIT;
  plan->break_after = HS_PLAN_NO_BREAK;
  return plan;
}

void
hs_plan_free (HsPlan *plan)
{
  if (plan == NULL)
    return;
  g_array_unref (plan->stops);
  g_ptr_array_unref (plan->broken);
  g_free (plan);
}

const HsPlanStop *
hs_plan_get_stop (const HsPlan *plan, guint position)
{
  return &g_array_index (plan->stops, HsPlanStop, position);
}

const HsPlanBroken *
hs_plan_get_broken (const HsPlan *plan, guint index)
{
  return g_ptr_array_index (plan->broken, index);
}

/* The span that @start lies in, or the last one. */
static HsDaySpan
window_at (const HsDayStop *stop, gint64 start)
{
  HsDaySpan spans[HS_DAY_MAX_SPANS];
  guint n = hs_frame_merge_spans (stop, spans);

  for (guint i = 0; i < n; i++)
    if (start >= spans[i].from_seconds && start <= spans[i].to_seconds)
      return spans[i];
  return n == 0 ? (HsDaySpan){ 0, 0 } : spans[n - 1];
}

/* FALSE where it leaves less than the frame's spare; it starts all the same. */
static gboolean
start_at (const HsFrame *frame, guint i, gint64 arrive, gint64 *ret_start, gint64 *ret_late)
{
  if (hs_frame_start (frame, i, arrive, ret_start, ret_late))
    return TRUE;
  *ret_start = arrive;
  *ret_late = MAX (0, arrive - frame->stops[i].last);
  return FALSE;
}

/* With nothing to stop at, only a van that is out already has to come home. */
static gboolean
moves (const HsFrame *frame)
{
  return frame->n > 0 || frame->day->under_way;
}

/* How late the break is, had at home at @home. */
static gint64
break_late (const HsFrame *frame, gint64 leave, gint64 home)
{
  return frame->n > 0 && leave < frame->rested_from ? MAX (0, home - frame->break_last) : 0;
}

/* Choosing a place for the break ----------------------------------------------------------------------------------- */

static gint64
slack_at (const HsFrame *frame, guint i, gint64 start)
{
  const HsDayStop *stop = hs_day_get_stop (frame->day, frame->stops[i].day_stop);

  return stop->kind == HS_DAY_STOP_CALL && stop->spans->len > 0 ? window_at (stop, start).to_seconds - start
                                                                : HS_PLAN_NO_LIMIT;
}

static void
measure_stop (const HsFrame *frame, guint from, guint i, gint64 *time, HsDriven *driven)
{
  gint64 start;
  gint64 late;

  if (!start_at (frame, i, *time + hs_frame_seconds (frame, from, i), &start, &late))
    driven->stingy++;
  driven->broken += late > 0;
  driven->late += late;
  driven->spare = MIN (driven->spare, slack_at (frame, i, start));
  *time = start + frame->stops[i].service;
}

gboolean
hs_drive_measure (const HsFrame *frame, const guint *order, gint64 leave, int break_after, HsDriven *ret_driven)
{
  HsDriven driven = { .spare = HS_PLAN_NO_LIMIT };
  gint64 time = leave;
  guint at = frame->n;

  for (int k = -1; k < (int) frame->n; k++)
    {
      if (k >= 0)
        {
          measure_stop (frame, at, order[k], &time, &driven);
          at = order[k];
        }
      if (k != break_after)
        continue;
      if (time > frame->break_last)
        return FALSE;
      time = MAX (time, frame->break_first) + frame->break_seconds;
    }
  if (moves (frame))
    time += hs_frame_seconds (frame, at, frame->n + 1);
  if (break_after == HS_PLAN_NO_BREAK && break_late (frame, leave, time) > 0)
    {
      driven.broken++;
      driven.late += break_late (frame, leave, time);
    }
  driven.home = time;
  driven.home_late = MAX (0, time - frame->home_by);
  *ret_driven = driven;
  return TRUE;
}

static gboolean
is_better (const HsDriven *a, const HsDriven *b, HsDriveAim aim)
{
  if (a->broken != b->broken)
    return a->broken < b->broken;
  if (a->late != b->late)
    return a->late < b->late;
  if (a->home_late != b->home_late)
    return a->home_late < b->home_late;
  if (a->stingy != b->stingy)
    return a->stingy < b->stingy;
  if (aim == HS_DRIVE_FOR_SPARE && a->spare != b->spare)
    return a->spare > b->spare;
  return a->home < b->home;
}

int
hs_drive_place_break (const HsFrame *frame, const guint *order, gint64 leave, int first, HsDriveAim aim,
                      HsDriven *ret_driven)
{
  int best = HS_PLAN_NO_BREAK;

  hs_drive_measure (frame, order, leave, best, ret_driven);
  if (frame->break_seconds == 0 || leave >= frame->rested_from || frame->n == 0)
    return best;
  for (int k = first; k < (int) frame->n; k++)
    {
      HsDriven driven;

      if (!hs_drive_measure (frame, order, leave, k, &driven) || is_better (ret_driven, &driven, aim)
          || (best == HS_PLAN_NO_BREAK && !is_better (&driven, ret_driven, aim)))
        continue;
      *ret_driven = driven;
      best = k;
    }
  return best;
}

/* The plan --------------------------------------------------------------------------------------------------------- */

/* Drives one leg of the plan; returns when the stop is done. */
static gint64
drive_stop (HsPlan *plan, const HsFrame *frame, guint from, guint i, gint64 time)
{
  const HsDay *day = frame->day;
  const HsDayStop *source = hs_day_get_stop (day, frame->stops[i].day_stop);
  guint from_place = from < frame->n ? hs_day_get_stop (day, frame->stops[from].day_stop)->place : day->start_place;
  guint cell = from_place * day->n_places + source->place;
  HsPlanStop stop = { frame->stops[i].day_stop };
  gint64 arrive = time + hs_frame_seconds (frame, from, i);
  gint64 start;
  gint64 late;

  start_at (frame, i, arrive, &start, &late);
  stop.arrive_seconds = (gint32) arrive;
  stop.start_seconds = (gint32) start;
  stop.depart_seconds = (gint32) (start + source->service_seconds);
  stop.wait_seconds = (gint32) (start - arrive);
  stop.drive_seconds = (gint32) hs_frame_seconds (frame, from, i);
  stop.drive_millimiles = g_array_index (day->drive_millimiles, gint64, cell);
  stop.window = window_at (source, start);
  stop.late_seconds = (gint32) late;
  stop.slack_seconds = (gint32) slack_at (frame, i, start);
  plan->spare_seconds = MIN (plan->spare_seconds, stop.slack_seconds);
  plan->drive_seconds += stop.drive_seconds;
  plan->drive_millimiles += stop.drive_millimiles;
  plan->wait_seconds += stop.wait_seconds;
  g_array_append_val (plan->stops, stop);
  return stop.depart_seconds;
}

static gint64
drive_break (HsPlan *plan, const HsFrame *frame, gint64 time)
{
  gint64 start = MAX (time, frame->break_first);

  plan->break_start_seconds = (gint32) start;
  plan->break_end_seconds = (gint32) (start + frame->break_seconds);
  plan->wait_seconds += (gint32) (start - time);
  return plan->break_end_seconds;
}

static gint64
drive_home (HsPlan *plan, const HsFrame *frame, guint at, gint64 time)
{
  const HsDay *day = frame->day;
  guint place = at < frame->n ? hs_day_get_stop (day, frame->stops[at].day_stop)->place : day->start_place;
  gint64 leg = hs_frame_seconds (frame, at, frame->n + 1);

  plan->drive_seconds += (gint32) leg;
  plan->drive_millimiles += g_array_index (day->drive_millimiles, gint64, place * day->n_places + day->end_place);
  return time + leg;
}

HsPlan *
hs_drive_plan (const HsFrame *frame, const guint *order, gint64 leave, int break_after)
{
  HsPlan *plan = plan_new ();
  gint64 time = leave;
  guint at = frame->n;

  plan->leave_seconds = (gint32) leave;
  plan->break_after = break_after;
  if (break_after == HS_PLAN_BREAK_FIRST)
    time = drive_break (plan, frame, time);
  for (guint k = 0; k < frame->n; k++)
    {
      time = drive_stop (plan, frame, at, order[k], time);
      at = order[k];
      if (break_after == (int) k)
        time = drive_break (plan, frame, time);
    }
  if (moves (frame))
    time = drive_home (plan, frame, at, time);
  if (break_after == HS_PLAN_NO_BREAK)
    plan->break_late_seconds = (gint32) break_late (frame, leave, time);
  plan->home_seconds = (gint32) time;
  plan->cost_units = (time - leave) * frame->second_units
                     + plan->drive_millimiles * frame->day->mile_cents * (HS_COST_UNITS / 1000);
  plan->cost_cents = hs_cost_cents (plan->cost_units);
  return plan;
}
