// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plans a day in four questions, each settled before the next is asked: how much can be kept at all; how much spare can
 * be had with that; which order and leave time is then cheapest; which of those comes first by ids. The first two need
 * no leave time (leaving first thing is never worse for them), so they run on plain times; only the third carries
 * arrival as a function of leaving. */

#include "hs-plan.h"

#include "hs-plan-error.h"
#include "hs-plan-tune.h"
#include "hs-plan-why.h"

#include <string.h>

typedef struct
{
  HsSearch search;
  HsFrame *frame;
  HsBound *bound;
  HsTerms terms;
  HsFinish finish;
  guint order[HS_DAY_MAX_STOPS];
} HsSolve;

static HsPlan *
plan_new (void)
{
  HsPlan *plan = g_new0 (HsPlan, 1);

  plan->stops = g_array_new (FALSE, TRUE, sizeof (HsPlanStop));
  plan->broken = g_ptr_array_new_with_free_func (hs_why_free);
  plan->spare_seconds = HS_PLAN_NO_LIMIT;
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
  gint64 start = arrive;
  gint64 late = 0;

  if (!hs_frame_start (frame, i, arrive, &start, &late))
    late = MAX (0, arrive - frame->stops[i].last);
  stop.arrive_seconds = (gint32) arrive;
  stop.start_seconds = (gint32) start;
  stop.depart_seconds = (gint32) (start + source->service_seconds);
  stop.wait_seconds = (gint32) (start - arrive);
  stop.drive_seconds = (gint32) hs_frame_seconds (frame, from, i);
  stop.drive_millimiles = g_array_index (day->drive_millimiles, gint64, cell);
  stop.window = window_at (source, start);
  stop.late_seconds = (gint32) late;
  stop.slack_seconds = HS_PLAN_NO_LIMIT;
  if (source->kind == HS_DAY_STOP_CALL && source->spans->len > 0)
    stop.slack_seconds = (gint32) (stop.window.to_seconds - start);
  plan->spare_seconds = MIN (plan->spare_seconds, stop.slack_seconds);
  plan->drive_seconds += stop.drive_seconds;
  plan->drive_millimiles += stop.drive_millimiles;
  plan->wait_seconds += stop.wait_seconds;
  g_array_append_val (plan->stops, stop);
  return stop.depart_seconds;
}

/* Drives a whole order under the frame's spare; fills everything but status, broken and states. */
static void
drive_order (HsPlan *plan, const HsFrame *frame, const guint *order, gint64 leave)
{
  const HsDay *day = frame->day;
  gint64 time = leave;
  guint at = frame->n;

  plan->leave_seconds = (gint32) leave;
  for (guint k = 0; k < frame->n; k++)
    {
      time = drive_stop (plan, frame, at, order[k], time);
      at = order[k];
    }
  if (frame->n > 0)
    {
      guint place = hs_day_get_stop (day, frame->stops[at].day_stop)->place;

      time += hs_frame_seconds (frame, at, frame->n + 1);
      plan->drive_seconds += (gint32) hs_frame_seconds (frame, at, frame->n + 1);
      plan->drive_millimiles += g_array_index (day->drive_millimiles, gint64, place * day->n_places + day->end_place);
    }
  plan->home_seconds = (gint32) time;
  plan->cost_units = (time - leave) * frame->second_units
                     + plan->drive_millimiles * day->mile_cents * (HS_COST_UNITS / 1000);
  plan->cost_cents = (plan->cost_units + HS_COST_UNITS / 2) / HS_COST_UNITS;
}

static char *
why_home (const HsPlan *plan, const HsDay *day)
{
  g_autofree char *home = hs_why_clock (day, plan->home_seconds);
  g_autofree char *asked = hs_why_clock (day, day->home_by_seconds);

  return g_strdup_printf ("home only at %s; the day should end by %s", home, asked);
}

static void
add_home (HsPlan *plan, const HsDay *day)
{
  if (plan->stops->len > 0 && plan->home_seconds > day->home_by_seconds)
    hs_why_add (plan->broken, HS_DAY_NO_STOP, plan->home_seconds - day->home_by_seconds, why_home (plan, day));
}

/* How much can be kept at all. */
static void
solve_keeping (HsSolve *solve)
{
  HsFrame *frame = solve->frame;
  HsFinish best = HS_FINISH_WORST;

  hs_frame_trim (frame, -HS_FRAME_FAR);
  solve->terms = (HsTerms) HS_TERMS_OPEN (frame->day->leave_from_seconds, frame->day->leave_from_seconds);
  solve->terms.flat = TRUE;
  if (!hs_tune_begin (frame, solve->order))
    {
      hs_frame_unlock (frame);
      hs_tune_begin (frame, solve->order);
    }
  hs_label_drive (frame, &solve->terms, solve->order, &best);
  hs_tune_order (&solve->search, frame, &solve->terms, &best, solve->order);
  if (best.broken > 0 || best.home_late > 0)
    hs_search_run (&solve->search, frame, solve->bound, &solve->terms, &best, solve->order);
  if (solve->search.bit)
    hs_tune_order (&solve->search, frame, &solve->terms, &best, solve->order);
  if (best.broken == 0 && best.home_late == 0)
    solve->search.bit = FALSE;
  solve->terms.broken = best.broken;
  solve->terms.late = best.late;
  solve->terms.home_late = best.home_late;
}

/* The least slack of an order that leaves first thing, when it is driven under the frame's spare. */
static gint64
spare_of (const HsSolve *solve, const guint *order)
{
  HsPlan *plan = plan_new ();
  gint64 spare;

  drive_order (plan, solve->frame, order, solve->terms.leave_from);
  spare = plan->spare_seconds;
  hs_plan_free (plan);
  return spare;
}

/* A yes is sure even when the budget bit on the way to it; a no is not. */
static gboolean
can_spare (HsSolve *solve, gint64 spare, guint *order)
{
  HsFinish finish = HS_FINISH_WORST;
  gboolean bit = solve->search.bit;

  hs_frame_trim (solve->frame, spare);
  if (hs_label_drive (solve->frame, &solve->terms, order, &finish))
    return TRUE;
  if (!hs_search_run (&solve->search, solve->frame, solve->bound, &solve->terms, &finish, order))
    return FALSE;
  solve->search.bit = bit;
  return TRUE;
}

/* How much spare can be had: the asked one, or else the most, by halving; what can be spared is monotone. */
static void
solve_spare (HsSolve *solve)
{
  gint64 high = solve->frame->day->spare_seconds;
  gint64 low = MIN (spare_of (solve, solve->order), high);
  guint trial[HS_DAY_MAX_STOPS];

  memcpy (trial, solve->order, sizeof trial);
  if (low < high && can_spare (solve, high, trial))
    {
      memcpy (solve->order, trial, sizeof trial);
      low = high;
    }
  while (high - low > 1)
    {
      gint64 middle = low + (high - low) / 2;

      memcpy (trial, solve->order, sizeof trial);
      if (can_spare (solve, middle, trial))
        {
          memcpy (solve->order, trial, sizeof trial);
          low = MIN (spare_of (solve, trial), high - 1);
        }
      else
        {
          high = middle;
        }
    }
  hs_frame_trim (solve->frame, low);
}

/* Which order and leave time is cheapest. */
static void
solve_cost (HsSolve *solve)
{
  HsFinish best = HS_FINISH_WORST;

  solve->terms.flat = FALSE;
  solve->terms.leave_to = solve->frame->day->leave_to_seconds;
  hs_label_drive (solve->frame, &solve->terms, solve->order, &best);
  hs_tune_order (&solve->search, solve->frame, &solve->terms, &best, solve->order);
  hs_search_run (&solve->search, solve->frame, solve->bound, &solve->terms, &best, solve->order);
  if (solve->search.bit)
    hs_tune_order (&solve->search, solve->frame, &solve->terms, &best, solve->order);
  solve->finish = best;
}

static void
add_late (HsSolve *solve, HsPlan *plan, guint64 in_play)
{
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);

      if (stop->late_seconds > 0)
        hs_why_add (plan->broken, (int) stop->stop, stop->late_seconds,
                    hs_why_late (&solve->search, solve->frame->day, in_play, stop->stop));
    }
}

/* Says which locks could not be kept. */
static void
add_unlocked (HsPlan *plan, const HsDay *day)
{
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);
      guint number = hs_day_get_stop (day, stop->stop)->number;

      if (number > 0 && number != k + 1)
        hs_why_add (plan->broken, (int) stop->stop, 0,
                    g_strdup_printf ("locked as stop %u, which does not go with what must come before it; "
                                     "planned without locks",
                                     number));
    }
}

static void
solve_stops (HsSolve *solve, HsPlan *plan, guint64 in_play)
{
  hs_frame_lock (solve->frame);
  solve->bound = hs_bound_new (solve->frame);
  solve_keeping (solve);
  solve_spare (solve);
  solve_cost (solve);
  hs_ties_settle (&solve->search, solve->frame, solve->bound, &solve->finish, solve->order);
  plan->proven = !solve->search.cut && !solve->search.bit;
  drive_order (plan, solve->frame, solve->order, solve->finish.leave);
  plan->states = solve->search.states;
  add_late (solve, plan, in_play);
  add_unlocked (plan, solve->frame->day);
  add_home (plan, solve->frame->day);
  hs_bound_free (solve->bound);
}

gboolean
hs_plan_solve (const HsDay *day, HsPlanGiveUp give_up, gpointer user_data, HsPlan **ret_plan, GError **error)
{
  HsSolve solve = { .search = { give_up, user_data } };
  HsPlan *plan;
  guint64 in_play;

  if (!hs_day_check (day, error))
    return FALSE;
  plan = plan_new ();
  in_play = hs_why_in_play (day, plan->broken);
  solve.frame = hs_frame_new (day, in_play);
  plan->proven = TRUE;
  if (solve.frame->n > 0)
    solve_stops (&solve, plan, in_play);
  else
    drive_order (plan, solve.frame, NULL, day->leave_from_seconds);
  plan->status = plan->broken->len > 0 ? HS_PLAN_IMPOSSIBLE : plan->proven ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND;
  hs_frame_free (solve.frame);
  *ret_plan = plan;
  return TRUE;
}

static gboolean
check_order (const HsDay *day, const guint *order, guint n_order, guint64 *ret_in_play, GError **error)
{
  guint64 in_play = 0;

  if (!hs_day_check (day, error))
    return FALSE;
  for (guint k = 0; k < n_order; k++)
    {
      if (order[k] >= day->stops->len || (in_play & HS_FRAME_BIT (order[k])) != 0)
        {
          g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "order[%u]: %s", k,
                       order[k] >= day->stops->len ? "no such stop" : "stands twice in the order");
          return FALSE;
        }
      in_play |= HS_FRAME_BIT (order[k]);
    }
  *ret_in_play = in_play;
  return TRUE;
}

static void
add_minutes_late (HsPlan *plan, const HsDay *day)
{
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);
      g_autofree char *length = hs_why_length (stop->late_seconds);

      if (stop->late_seconds > 0)
        hs_why_add (plan->broken, (int) stop->stop, stop->late_seconds, g_strdup_printf ("%s late", length));
    }
  add_home (plan, day);
}

gboolean
hs_plan_drive_order (const HsDay *day, const guint *order, guint n_order, gint32 leave_seconds, HsPlan **ret_plan,
                     GError **error)
{
  g_autoptr (HsFrame) frame = NULL;
  guint inner[HS_DAY_MAX_STOPS];
  HsPlan *plan;
  guint64 in_play;

  if (!check_order (day, order, n_order, &in_play, error))
    return FALSE;
  frame = hs_frame_new (day, in_play);
  for (guint k = 0; k < n_order; k++)
    for (guint i = 0; i < frame->n; i++)
      if (frame->stops[i].day_stop == order[k])
        inner[k] = i;
  plan = plan_new ();
  drive_order (plan, frame, inner, leave_seconds);
  add_minutes_late (plan, day);
  plan->status = plan->broken->len > 0 ? HS_PLAN_IMPOSSIBLE : HS_PLAN_BEST_FOUND;
  *ret_plan = plan;
  return TRUE;
}
