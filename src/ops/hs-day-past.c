// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Cuts what has begun off an accepted order, so that what is ahead can be driven, planned anew and squeezed into like
 * any other day. It changes nothing in the order of what is ahead.
 */

#include "hs-day-past.h"

#include "hs-visit-row.h"

/* Instants of a stop's visit on this day, or %HS_INSTANT_NONE. */
typedef struct
{
  HsInstant rolling;
  HsInstant arrived;
  HsInstant left;
} Stamps;

/* A stop of the accepted order, with its stamps. */
typedef struct
{
  HsPlanStop timed;
  Stamps stamps;
} Step;

/* @steps: the accepted order, but the calls that have begun come first, in the order in which they did, each with the
 * counters that the order had before it; @begun: how many steps these are; @break_after: the step that the break
 * follows; @order: what is ahead, as stops of the build. */
typedef struct
{
  HsDayBuild *build;
  const HsPlan *plan;
  HsStore *store;
  HsInstant now;
  GArray *steps;
  guint begun;
  int break_after;
  HsDayPast *past;
  GArray *order;
} Cut;

void
hs_day_past_free (HsDayPast *past)
{
  if (past == NULL)
    return;
  for (guint i = 0; i < past->stops->len; i++)
    g_array_unref (g_array_index (past->stops, HsPastStop, i).spans);
  g_array_unref (past->stops);
  g_free (past);
}

/* Seconds and places ----------------------------------------------------------------------------------------------- */

static gint32
since_start (const Cut *cut, HsInstant instant)
{
  return (gint32) (instant - cut->build->facts->starts_at);
}

static const Step *
step_at (const Cut *cut, guint position)
{
  return &g_array_index (cut->steps, Step, position);
}

static guint
stop_at (const Cut *cut, guint position)
{
  return step_at (cut, position)->timed.stop;
}

static const HsDayStopRef *
ref_at (const Cut *cut, guint position)
{
  return &g_array_index (cut->build->refs, HsDayStopRef, stop_at (cut, position));
}

static const HsDayStop *
source_at (const Cut *cut, guint position)
{
  return hs_day_get_stop (cut->build->day, stop_at (cut, position));
}

/* Stamps ----------------------------------------------------------------------------------------------------------- */

static const Stamps *
stamps_at (const Cut *cut, guint position)
{
  return &step_at (cut, position)->stamps;
}

static HsInstant
begin_of (const Stamps *stamps)
{
  return stamps->rolling != HS_INSTANT_NONE ? stamps->rolling : stamps->arrived;
}

static gboolean
has_begun (const Cut *cut, guint position)
{
  return begin_of (stamps_at (cut, position)) != HS_INSTANT_NONE;
}

static gboolean
is_of_day (const Cut *cut, const HsVisitRow *visit)
{
  HsInstant from = visit->rolling_at != HS_INSTANT_NONE ? visit->rolling_at : visit->arrived_at;

  return from != HS_INSTANT_NONE && from >= cut->build->facts->starts_at && from < cut->build->facts->ends_at;
}

static gboolean
load_step (Cut *cut, const HsPlanStop *timed, GError **error)
{
  Step step = { *timed, { HS_INSTANT_NONE, HS_INSTANT_NONE, HS_INSTANT_NONE } };
  const HsDayCall *call = g_array_index (cut->build->refs, HsDayStopRef, timed->stop).call;
  g_autoptr (GPtrArray) visits = NULL;

  if (call != NULL && !hs_visit_row_list_of (cut->store, call->job_id, &visits, error))
    return FALSE;
  for (guint i = 0; visits != NULL && i < visits->len; i++)
    {
      const HsVisitRow *visit = g_ptr_array_index (visits, i);

      if (is_of_day (cut, visit))
        step.stamps = (Stamps){ visit->rolling_at, visit->arrived_at, visit->left_at };
    }
  g_array_append_val (cut->steps, step);
  return TRUE;
}

/* The step of @steps that began first of those not @taken; its length if none has. */
static guint
first_begun (const GArray *steps, const gboolean *taken)
{
  guint first = steps->len;

  for (guint i = 0; i < steps->len; i++)
    {
      HsInstant begin = begin_of (&g_array_index (steps, Step, i).stamps);

      if (taken[i] || begin == HS_INSTANT_NONE)
        continue;
      if (first == steps->len || begin < begin_of (&g_array_index (steps, Step, first).stamps))
        first = i;
    }
  return first;
}

static void
take_step (Cut *cut, const GArray *steps, guint i, gboolean *taken)
{
  if (taken[i])
    return;
  taken[i] = TRUE;
  if (cut->plan->break_after == (int) i)
    cut->break_after = (int) cut->steps->len;
  g_array_append_val (cut->steps, g_array_index (steps, Step, i));
}

/* Puts the steps into the order in which they began. */
static void
sort_steps (Cut *cut)
{
  g_autoptr (GArray) steps = g_steal_pointer (&cut->steps);
  g_autofree gboolean *taken = g_new0 (gboolean, steps->len + 1);

  cut->steps = g_array_new (FALSE, FALSE, sizeof (Step));
  cut->break_after = cut->plan->break_after;
  for (guint next = first_begun (steps, taken); next < steps->len; next = first_begun (steps, taken))
    {
      for (guint i = 0; i < next; i++)
        if (g_array_index (cut->build->refs, HsDayStopRef, g_array_index (steps, Step, i).timed.stop).counter != NULL)
          take_step (cut, steps, i, taken);
      take_step (cut, steps, next, taken);
      cut->begun = cut->steps->len;
    }
  for (guint i = 0; i < steps->len; i++)
    take_step (cut, steps, i, taken);
}

/* What is behind --------------------------------------------------------------------------------------------------- */

/* The next call of the order that has begun. */
static guint
next_begun (const Cut *cut, guint position)
{
  while (!has_begun (cut, position))
    position++;
  return position;
}

static gboolean
was_shut_until (const HsDayStop *counter, gint32 seconds)
{
  gint32 first = G_MAXINT32;

  for (guint i = 0; i < counter->spans->len; i++)
    first = MIN (first, g_array_index (counter->spans, HsDaySpan, i).from_seconds);
  return counter->spans->len > 0 && first + counter->service_seconds > seconds;
}

static gboolean
is_behind (const Cut *cut, guint position)
{
  const Stamps *next;

  if (position >= cut->begun)
    return FALSE;
  if (ref_at (cut, position)->call != NULL)
    return has_begun (cut, position) && (!cut->past->under_way || position + 1 < cut->begun);
  next = stamps_at (cut, next_begun (cut, position));
  return next->arrived != HS_INSTANT_NONE
         && !was_shut_until (source_at (cut, position), since_start (cut, next->arrived));
}

/* A call with the times that are known; what is not known is as planned, but not after what came next. */
static HsPlanStop
past_call (const Cut *cut, guint position, gint32 before, gboolean is_last)
{
  HsPlanStop stop = step_at (cut, position)->timed;
  const Stamps *stamps = stamps_at (cut, position);

  if (stamps->arrived != HS_INSTANT_NONE)
    stop.arrive_seconds = stop.start_seconds = since_start (cut, stamps->arrived);
  stop.arrive_seconds = MIN (stop.arrive_seconds, before);
  stop.start_seconds = MIN (stop.start_seconds, before);
  stop.depart_seconds = stamps->left != HS_INSTANT_NONE ? since_start (cut, stamps->left) : stop.depart_seconds;
  if (stamps->left == HS_INSTANT_NONE && is_last)
    stop.depart_seconds = cut->past->time_seconds;
  stop.depart_seconds = CLAMP (stop.depart_seconds, stop.start_seconds, MAX (stop.start_seconds, before));
  if (stop.slack_seconds != HS_PLAN_NO_LIMIT)
    stop.slack_seconds = stop.window.to_seconds - stop.start_seconds;
  return stop;
}

/* Nobody stamps a counter: it was left in time for what came next. */
static HsPlanStop
past_counter (const Cut *cut, guint position, gint32 before, guint next_place)
{
  HsPlanStop stop = step_at (cut, position)->timed;
  const HsDayStop *source = source_at (cut, position);

  stop.depart_seconds = before - hs_day_leg_seconds (cut->build->day, source->place, next_place);
  stop.arrive_seconds = stop.start_seconds = stop.depart_seconds - source->service_seconds;
  return stop;
}

static void
add_past (Cut *cut)
{
  HsDayPast *past = cut->past;
  gint32 before = past->time_seconds;
  guint next_place = past->place;

  for (guint i = cut->begun; i > 0; i--)
    {
      HsPastStop stop = { *ref_at (cut, i - 1), source_at (cut, i - 1)->place, { 0 }, NULL };

      if (!is_behind (cut, i - 1))
        continue;
      if (stop.ref.call != NULL)
        stop.timed = past_call (cut, i - 1, before, past->stops->len == 0);
      else
        stop.timed = past_counter (cut, i - 1, before, next_place);
      stop.timed.wait_seconds = stop.timed.start_seconds - stop.timed.arrive_seconds;
      stop.timed.late_seconds = 0;
      before = stop.timed.arrive_seconds;
      next_place = stop.place;
      stop.spans = g_array_ref (source_at (cut, i - 1)->spans);
      g_array_prepend_val (past->stops, stop);
    }
}

/* Drives between past stops, and when the first of them was left for. */
static void
measure_past (Cut *cut)
{
  const HsDay *day = cut->build->day;
  HsDayPast *past = cut->past;
  guint place = day->start_place;

  for (guint i = 0; i < past->stops->len; i++)
    {
      HsPastStop *stop = &g_array_index (past->stops, HsPastStop, i);

      stop->timed.drive_seconds = hs_day_leg_seconds (day, place, stop->place);
      stop->timed.drive_millimiles = hs_day_leg_millimiles (day, place, stop->place);
      past->drive_seconds += stop->timed.drive_seconds;
      past->drive_millimiles += stop->timed.drive_millimiles;
      if (i == 0)
        past->leave_seconds = MIN (past->leave_seconds, stop->timed.arrive_seconds - stop->timed.drive_seconds);
      place = stop->place;
    }
}

/* Where the van is ------------------------------------------------------------------------------------------------- */

static guint
last_place (const Cut *cut)
{
  for (guint i = cut->begun; i > 0; i--)
    if (is_behind (cut, i - 1))
      return source_at (cut, i - 1)->place;
  return cut->build->day->start_place;
}

/* It tests good, or waits for somebody: there is nothing more to be done there now. */
static gboolean
is_done_there (const Cut *cut)
{
  const HsDayCall *call = ref_at (cut, cut->begun - 1)->call;

  return call != NULL && call->stage > HS_STAGE_ON_SITE;
}

static void
find_van (Cut *cut)
{
  HsDayPast *past = cut->past;
  gint32 now = since_start (cut, cut->now);
  const Stamps *last = cut->begun > 0 ? stamps_at (cut, cut->begun - 1) : NULL;
  const Stamps *first = last != NULL ? stamps_at (cut, next_begun (cut, 0)) : NULL;

  past->leave_seconds = past->time_seconds = MAX (now, cut->plan->leave_seconds);
  past->place = cut->build->day->start_place;
  if (last == NULL)
    return;
  past->under_way = last->arrived == HS_INSTANT_NONE;
  past->place = last_place (cut);
  if (past->under_way)
    past->time_seconds = since_start (cut, last->rolling);
  else if (last->left != HS_INSTANT_NONE || is_done_there (cut))
    past->time_seconds = now;
  else
    past->time_seconds
        = MAX (now, since_start (cut, last->arrived) + source_at (cut, cut->begun - 1)->service_seconds);
  past->leave_seconds = since_start (cut, first->rolling != HS_INSTANT_NONE ? first->rolling : first->arrived);
}

/* The break -------------------------------------------------------------------------------------------------------- */

static void
put_break (Cut *cut, int after, gint32 start)
{
  guint index = 0;

  for (int i = 0; i < after; i++)
    index += is_behind (cut, (guint) i);
  cut->past->break_after = after < 0 ? HS_PLAN_BREAK_FIRST : (int) index;
  cut->past->break_start_seconds = start;
  cut->past->break_end_seconds = start + cut->build->day->break_seconds;
}

/* Nobody stamps a break: one that the plan has before a stop that has begun is had, and one after a stop that is left
 * begins then. */
static void
find_break (Cut *cut)
{
  const HsDay *day = cut->build->day;
  HsDayPast *past = cut->past;
  int after = cut->break_after;
  const Stamps *left = after >= 0 && after + 1 == (int) cut->begun ? stamps_at (cut, (guint) after) : NULL;
  gint32 start;

  past->break_after = HS_PLAN_NO_BREAK;
  if (after == HS_PLAN_NO_BREAK)
    {
      past->rested = cut->plan->leave_seconds >= day->break_span.from_seconds + day->break_seconds;
      return;
    }
  past->rested = after + 1 < (int) cut->begun;
  if (past->rested)
    put_break (cut, after, cut->plan->break_start_seconds);
  if (past->rested || past->under_way || left == NULL || left->left == HS_INSTANT_NONE)
    return;
  start = MAX (since_start (cut, left->left), day->break_span.from_seconds);
  if (start > since_start (cut, cut->now))
    return;
  past->rested = TRUE;
  past->time_seconds = MAX (past->time_seconds, start + day->break_seconds);
  put_break (cut, after, start);
}

/* What is ahead ---------------------------------------------------------------------------------------------------- */

static void
add_ahead (Cut *cut, guint position)
{
  guint stop = stop_at (cut, position);

  g_array_append_val (cut->order, stop);
}

/* On the way to a call come its counters, then it. */
static gboolean
is_on_way (const Cut *cut, guint position)
{
  return cut->past->under_way && position < cut->begun && next_begun (cut, position) + 1 == cut->begun
         && (position + 1 == cut->begun || ref_at (cut, position)->counter != NULL);
}

static void
find_ahead (Cut *cut)
{
  for (guint i = 0; i < cut->steps->len; i++)
    if (is_on_way (cut, i))
      add_ahead (cut, i);
  for (guint i = 0; i < cut->steps->len; i++)
    if (!is_on_way (cut, i) && !is_behind (cut, i))
      add_ahead (cut, i);
}

/* How it stands with a call that lacks its part. */
static const char *
say_lacking (HsStage stage)
{
  if (stage == HS_STAGE_ROLLING)
    return "";
  return stage == HS_STAGE_ON_SITE ? "it is being done without its part, and the plan does not come back to it: "
                                   : "it was left without its part, and the plan does not come back to it: ";
}

/* What a call that was reached lacks because its counter was shut. */
static void
add_missing (Cut *cut)
{
  const HsDayFacts *facts = cut->build->facts;

  for (guint i = 0; i < cut->begun; i++)
    for (guint k = 0; k < facts->needs->len; k++)
      {
        const HsDayNeed *need = g_ptr_array_index (facts->needs, k);
        const HsDayCounter *counter = ref_at (cut, i)->counter;
        const HsDayCall *call = g_ptr_array_index (facts->calls, need->call);
        g_autofree char *why = NULL;

        if (counter == NULL || is_behind (cut, i) || is_on_way (cut, i) || need->source != HS_DAY_SOURCE_COUNTER
            || !g_str_equal (need->supplier_id, counter->supplier_id) || call->stage == HS_STAGE_PROMISED
            || call->stage == HS_STAGE_CALLED_OFF)
          continue;
        why = g_strdup_printf ("%s%s (%s) was not picked up: %s was still shut", say_lacking (call->stage), need->part,
                               need->number, counter->name);
        g_ptr_array_add (cut->build->nowhere, hs_broken_promise_new (call->number, 0, why));
      }
}

/* The day from where the van is. */
static void
cut_day (Cut *cut)
{
  HsDay *day;

  hs_day_build_keep (cut->build, cut->order, cut->past->stops->len);
  day = cut->build->day;
  day->start_place = cut->past->place;
  day->leave_from_seconds = day->leave_to_seconds = cut->past->time_seconds;
  day->under_way = cut->begun > 0;
  if (cut->past->rested)
    day->break_seconds = 0;
}

static void
do_cut (Cut *cut)
{
  find_van (cut);
  find_break (cut);
  add_past (cut);
  measure_past (cut);
  find_ahead (cut);
  add_missing (cut);
  cut_day (cut);
}

gboolean
hs_day_past_cut (HsDayBuild *build, const HsPlan *plan, HsStore *store, HsInstant now, HsDayPast **ret_past,
                 GError **error)
{
  g_autoptr (GArray) order = g_array_new (FALSE, FALSE, sizeof (guint));
  Cut cut = { .build = build, .plan = plan, .store = store, .now = now, .order = order };
  gboolean loaded = TRUE;

  cut.steps = g_array_new (FALSE, FALSE, sizeof (Step));
  for (guint i = 0; loaded && i < plan->stops->len; i++)
    loaded = load_step (&cut, hs_plan_get_stop (plan, i), error);
  sort_steps (&cut);
  *ret_past = NULL;
  if (loaded && (cut.begun > 0 || since_start (&cut, now) > plan->leave_seconds))
    {
      cut.past = *ret_past = g_new0 (HsDayPast, 1);
      cut.past->stops = g_array_new (FALSE, TRUE, sizeof (HsPastStop));
      do_cut (&cut);
    }
  g_array_unref (cut.steps);
  return loaded;
}
