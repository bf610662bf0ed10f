// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The accepted order as the day really goes. Use it where today is shown. It changes nothing in the order: whether
 * another would now be better is asked by planning anew.
 */

#include "hs-day-going.h"

#include "hs-customer-row.h"
#include "hs-day-solve.h"
#include "hs-job-row.h"
#include "hs-visit-row.h"

/* The planner counts in 1/3000 of a cent. */
#define UNITS_PER_CENT 3000

/* Where the day stands. @past: stops of the order that have begun, and counters before them; @under_way: the last of
 * them is not reached yet; @place, @time: from where and when the rest is driven; @leave: when the van left; @rested:
 * the break is behind, or on since @break_start. */
typedef struct
{
  const HsDaySolved *solved;
  HsStore *store;
  HsInstant now;
  GArray *stamps;
  guint past;
  gboolean under_way;
  guint place;
  gint32 time;
  gint32 leave;
  gboolean rested;
  gint32 break_start;
} Going;

/* Instants of a stop's visit on this day, or %HS_INSTANT_NONE. */
typedef struct
{
  HsInstant rolling;
  HsInstant arrived;
  HsInstant left;
} Stamps;

static gint32
since_start (const Going *going, HsInstant instant)
{
  return (gint32) (instant - going->solved->facts->starts_at);
}

static gboolean
is_of_day (const Going *going, const HsVisitRow *visit)
{
  HsInstant from = visit->rolling_at != HS_INSTANT_NONE ? visit->rolling_at : visit->arrived_at;

  return from != HS_INSTANT_NONE && from >= going->solved->facts->starts_at && from < going->solved->facts->ends_at;
}

static gboolean
load_stamps (Going *going, guint position, GError **error)
{
  Stamps stamps = { HS_INSTANT_NONE, HS_INSTANT_NONE, HS_INSTANT_NONE };
  guint stop = hs_plan_get_stop (going->solved->plan, position)->stop;
  const HsDayCall *call = g_array_index (going->solved->build->refs, HsDayStopRef, stop).call;
  g_autoptr (GPtrArray) visits = NULL;

  if (call != NULL && !hs_visit_row_list_of (going->store, call->job_id, &visits, error))
    return FALSE;
  for (guint i = 0; visits != NULL && i < visits->len; i++)
    {
      const HsVisitRow *visit = g_ptr_array_index (visits, i);

      if (is_of_day (going, visit))
        stamps = (Stamps){ visit->rolling_at, visit->arrived_at, visit->left_at };
    }
  if (stamps.rolling != HS_INSTANT_NONE || stamps.arrived != HS_INSTANT_NONE)
    going->past = position + 1;
  g_array_append_val (going->stamps, stamps);
  return TRUE;
}

static const Stamps *
stamps_of (const Going *going, guint position)
{
  return &g_array_index (going->stamps, Stamps, position);
}

static guint
place_of (const Going *going, guint position)
{
  const HsDay *day = going->solved->build->day;

  return hs_day_get_stop (day, hs_plan_get_stop (going->solved->plan, position)->stop)->place;
}

static gint32
service_of (const Going *going, guint position)
{
  const HsDay *day = going->solved->build->day;

  return hs_day_get_stop (day, hs_plan_get_stop (going->solved->plan, position)->stop)->service_seconds;
}

static gint32
leg_seconds (const HsDay *day, guint from, guint to)
{
  return g_array_index (day->drive_seconds, gint32, from * day->n_places + to);
}

static gint64
leg_millimiles (const HsDay *day, guint from, guint to)
{
  return g_array_index (day->drive_millimiles, gint64, from * day->n_places + to);
}

/* Sets where the rest begins. Under way, the van is put back to where it came from, as late as it must have been. */
static void
find_van (Going *going)
{
  const HsDay *day = going->solved->build->day;
  const HsPlan *plan = going->solved->plan;
  const Stamps *last = going->past > 0 ? stamps_of (going, going->past - 1) : NULL;
  gint32 now = since_start (going, going->now);
  gint32 leg;

  going->leave = plan->leave_seconds;
  going->place = day->start_place;
  if (going->past > 0 && stamps_of (going, 0)->rolling != HS_INSTANT_NONE)
    going->leave = since_start (going, stamps_of (going, 0)->rolling);
  if (last == NULL)
    {
      going->leave = going->time = MAX (now, plan->leave_seconds);
      return;
    }
  going->under_way = last->arrived == HS_INSTANT_NONE;
  if (going->under_way)
    {
      going->past--;
      going->place = going->past > 0 ? place_of (going, going->past - 1) : day->start_place;
      leg = leg_seconds (day, going->place, place_of (going, going->past));
      going->time = MAX (since_start (going, last->rolling), now - leg);
      return;
    }
  going->place = place_of (going, going->past - 1);
  going->time = now;
  if (last->left == HS_INSTANT_NONE)
    going->time = MAX (now, since_start (going, last->arrived) + service_of (going, going->past - 1));
}

/* Nobody stamps a break: one that the plan has before a stop that has begun is had, and one after a stop that is left
 * begins then. */
static void
find_break (Going *going)
{
  const HsDay *day = going->solved->build->day;
  const HsPlan *plan = going->solved->plan;
  int after = plan->break_after;
  const Stamps *left = after >= 0 && after + 1 == (int) going->past ? stamps_of (going, (guint) after) : NULL;

  going->break_start = plan->break_start_seconds;
  if (after == HS_PLAN_NO_BREAK)
    going->rested = plan->leave_seconds >= day->break_span.from_seconds + day->break_seconds;
  else
    going->rested = after + 1 < (int) going->past + going->under_way;
  if (going->rested || going->under_way || left == NULL || left->left == HS_INSTANT_NONE)
    return;
  going->break_start = MAX (since_start (going, left->left), day->break_span.from_seconds);
  if (going->break_start > since_start (going, going->now))
    return;
  going->rested = TRUE;
  going->time = MAX (going->time, going->break_start + day->break_seconds);
}

/* The rest of the order, driven from where the van is; with nothing left, only the way home. */
static gboolean
drive_rest (const Going *going, HsPlan **ret_rest, GError **error)
{
  const HsPlan *plan = going->solved->plan;
  g_autoptr (HsDay) day = hs_day_copy (going->solved->build->day);
  g_autofree guint *order = g_new (guint, plan->stops->len + 1);
  guint n = 0;

  for (guint i = going->past; i < plan->stops->len; i++)
    order[n++] = hs_plan_get_stop (plan, i)->stop;
  day->start_place = going->place;
  day->leave_from_seconds = day->leave_to_seconds = going->time;
  day->under_way = going->past > 0 || going->under_way;
  if (going->rested)
    day->break_seconds = 0;
  if (!hs_plan_drive_order (day, order, n, going->time, ret_rest, error))
    return FALSE;
  if (n == 0)
    {
      (*ret_rest)->home_seconds = going->time + leg_seconds (day, going->place, day->end_place);
      (*ret_rest)->drive_seconds = leg_seconds (day, going->place, day->end_place);
      (*ret_rest)->drive_millimiles = leg_millimiles (day, going->place, day->end_place);
    }
  return TRUE;
}

/* A past stop with the times that are known. What is not known stays as planned, but not after what came next. */
static HsPlanStop
past_stop (const Going *going, guint position, gint32 before)
{
  HsPlanStop stop = *hs_plan_get_stop (going->solved->plan, position);
  const Stamps *stamps = stamps_of (going, position);

  if (stamps->arrived != HS_INSTANT_NONE)
    stop.arrive_seconds = stop.start_seconds = since_start (going, stamps->arrived);
  stop.arrive_seconds = MIN (stop.arrive_seconds, before);
  stop.start_seconds = MIN (stop.start_seconds, before);
  stop.depart_seconds = stamps->left != HS_INSTANT_NONE ? since_start (going, stamps->left) : stop.depart_seconds;
  if (stamps->arrived != HS_INSTANT_NONE && stamps->left == HS_INSTANT_NONE && position + 1 == going->past)
    stop.depart_seconds = going->time;
  stop.depart_seconds = CLAMP (stop.depart_seconds, stop.start_seconds, MAX (stop.start_seconds, before));
  stop.wait_seconds = stop.start_seconds - stop.arrive_seconds;
  stop.late_seconds = 0;
  if (stop.slack_seconds != HS_PLAN_NO_LIMIT)
    stop.slack_seconds = stop.window.to_seconds - stop.start_seconds;
  return stop;
}

/* The break among all stops of the day. */
static void
put_break (const Going *going, HsPlan *rest)
{
  const HsPlan *plan = going->solved->plan;

  if (rest->break_after != HS_PLAN_NO_BREAK)
    rest->break_after += (int) going->past;
  if (!going->rested || plan->break_after == HS_PLAN_NO_BREAK)
    return;
  rest->break_after = plan->break_after;
  rest->break_start_seconds = going->break_start;
  rest->break_end_seconds = going->break_start + going->solved->build->day->break_seconds;
}

/* Puts what is past before what is left; the figures are those of the whole day. */
static void
put_together (const Going *going, HsPlan *rest)
{
  const HsDay *day = going->solved->build->day;
  gint32 before = going->time;
  guint place = day->start_place;

  for (guint i = going->past; i > 0; i--)
    {
      HsPlanStop stop = past_stop (going, i - 1, before);

      before = stop.arrive_seconds;
      g_array_prepend_val (rest->stops, stop);
    }
  for (guint i = 0; i < going->past; i++)
    {
      rest->drive_seconds += leg_seconds (day, place, place_of (going, i));
      rest->drive_millimiles += leg_millimiles (day, place, place_of (going, i));
      place = place_of (going, i);
    }
  put_break (going, rest);
  rest->leave_seconds = going->leave;
  if (rest->stops->len > 0)
    rest->leave_seconds = MIN (going->leave, hs_plan_get_stop (rest, 0)->arrive_seconds);
  rest->cost_units = (gint64) (rest->home_seconds - rest->leave_seconds) * day->minute_cents * (UNITS_PER_CENT / 60)
                     + rest->drive_millimiles * day->mile_cents * (UNITS_PER_CENT / 1000);
  rest->cost_cents = (rest->cost_units + UNITS_PER_CENT / 2) / UNITS_PER_CENT;
}

static gboolean
add_phone (Going *going, HsPlanBroken *broken, GError **error)
{
  const HsDayCall *call;
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) phones = NULL;
  g_autofree char *why = g_steal_pointer (&broken->why);

  if (broken->stop >= 0)
    call = g_array_index (going->solved->build->refs, HsDayStopRef, broken->stop).call;
  else
    call = NULL;
  if (call != NULL
      && (!hs_job_row_load (going->store, call->job_id, &job, error)
          || !hs_phone_row_list_of (going->store, job->customer_id, &phones, error)))
    return FALSE;
  if (phones != NULL && phones->len > 0)
    broken->why = g_strdup_printf ("%s; ring %s, %s", why, call->customer,
                                   ((HsPhoneRow *) g_ptr_array_index (phones, 0))->shown);
  else
    broken->why = g_steal_pointer (&why);
  return TRUE;
}

static gboolean
go_on (Going *going, HsPlan **ret_plan, GError **error)
{
  g_autoptr (HsPlan) rest = NULL;

  find_van (going);
  find_break (going);
  if (!drive_rest (going, &rest, error))
    return FALSE;
  put_together (going, rest);
  for (guint i = 0; i < rest->broken->len; i++)
    if (!add_phone (going, g_ptr_array_index (rest->broken, i), error))
      return FALSE;
  *ret_plan = g_steal_pointer (&rest);
  return TRUE;
}

static gboolean
is_under_way (const Going *going)
{
  return going->past > 0 || since_start (going, going->now) > going->solved->plan->leave_seconds;
}

HsDayPlan *
hs_day_plan_going (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error)
{
  g_autoptr (HsDaySolved) solved = hs_day_solve (book, day, van, HS_DAY_STANDING, NULL, error);
  g_autoptr (GArray) stamps = g_array_new (FALSE, FALSE, sizeof (Stamps));
  Going going = { solved, hs_book_get_store (book), now, stamps };
  HsPlan *plan = NULL;

  if (solved == NULL)
    return NULL;
  if (!solved->accepted || now < solved->facts->starts_at || now >= solved->facts->ends_at)
    return hs_day_solved_describe (solved);
  for (guint i = 0; i < solved->plan->stops->len; i++)
    if (!load_stamps (&going, i, error))
      return NULL;
  if (!is_under_way (&going))
    return hs_day_solved_describe (solved);
  if (!go_on (&going, &plan, error))
    return NULL;
  hs_plan_free (solved->plan);
  solved->plan = plan;
  return hs_day_solved_describe (solved);
}
