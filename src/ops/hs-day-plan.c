// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The day in words and instants: planned anew, or as the owner accepted it. Use it for everything that shows a day.
 * Making and showing only read; accepting and locking write the plan that stands, one a van and day.
 */

#include "hs-day-plan.h"

#include "hs-day-ring.h"
#include "hs-day-shut.h"
#include "hs-decimal.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"
#include "hs-plan-row.h"
#include "hs-say.h"

static void
also_short_free (gpointer data)
{
  HsAlsoShort *also = data;

  g_free (also->part);
  g_free (also->number);
  g_free (also);
}

static void
planned_stop_free (gpointer data)
{
  HsPlannedStop *stop = data;

  g_free (stop->id);
  g_free (stop->row_id);
  g_free (stop->area);
  g_free (stop->plate);
  g_free (stop->vehicle);
  g_free (stop->customer);
  g_free (stop->words);
  g_free (stop->note);
  g_ptr_array_unref (stop->also_short);
  g_free (stop);
}

static void
counter_span_free (gpointer data)
{
  HsCounterSpan *span = data;

  g_free (span->supplier);
  g_free (span);
}

void
hs_day_plan_free (HsDayPlan *plan)
{
  if (plan == NULL)
    return;
  g_free (plan->van_id);
  g_free (plan->van);
  g_free (plan->next_van);
  g_free (plan->spare_at);
  g_ptr_array_unref (plan->stops);
  g_ptr_array_unref (plan->broken);
  g_ptr_array_unref (plan->ring);
  g_ptr_array_unref (plan->spans);
  g_ptr_array_unref (plan->shut);
  g_ptr_array_unref (plan->penciled);
  g_free (plan);
}

static HsDayPlan *
day_plan_new (const HsDaySolved *solved)
{
  HsDayPlan *plan = g_new0 (HsDayPlan, 1);

  plan->day = solved->facts->day;
  plan->van_id = g_strdup (solved->facts->van_id);
  plan->van = g_strdup (solved->facts->van);
  plan->next_van = g_strdup (solved->facts->next_van);
  plan->leave = HS_INSTANT_NONE;
  plan->home = HS_INSTANT_NONE;
  plan->home_by = HS_INSTANT_NONE;
  plan->break_from = HS_INSTANT_NONE;
  plan->break_to = HS_INSTANT_NONE;
  plan->spare_seconds = -1;
  plan->asked_spare_seconds = solved->facts->rules.spare_seconds;
  plan->accepted = solved->accepted;
  plan->stops = g_ptr_array_new_with_free_func (planned_stop_free);
  plan->broken = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  plan->ring = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_day_ring_free);
  plan->spans = g_ptr_array_new_with_free_func (counter_span_free);
  plan->shut = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_shut_part_free);
  plan->penciled = g_ptr_array_new_with_free_func (g_free);
  return plan;
}

/* Notes ------------------------------------------------------------------------------------------------------------ */

static void G_GNUC_PRINTF (2, 3)
add_note (GString *note, const char *format, ...)
{
  va_list args;

  if (note->len > 0)
    g_string_append (note, " · ");
  va_start (args, format);
  g_string_append_vprintf (note, format, args);
  va_end (args);
}

static gboolean
is_left_out (const HsDaySolved *solved, const char *id)
{
  for (guint i = 0; i < solved->build->left_out->len; i++)
    if (g_str_equal (((const HsBrokenPromise *) g_ptr_array_index (solved->build->left_out, i))->id, id))
      return TRUE;
  return FALSE;
}

static void
note_counter (GString *note, const HsDaySolved *solved, const HsDayNeed *need, const char *part)
{
  const HsDayCounter *counter = hs_day_facts_find_counter (solved->facts, need->supplier_id);

  if (hs_day_solved_reaches (solved, need->supplier_id))
    add_note (note, "%s from %s", part, counter->name);
  else
    add_note (note, "%s can't be had today: %s is not %s", part, counter->name,
              is_left_out (solved, counter->name) ? "on the way" : "open");
}

static void
note_needs (GString *note, const HsDaySolved *solved, const HsDayCall *call)
{
  const HsDayFacts *facts = solved->facts;

  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);
      g_autofree char *part = hs_say_part (need->part);

      if (g_ptr_array_index (facts->calls, need->call) != call)
        continue;
      if (need->source == HS_DAY_SOURCE_VAN)
        add_note (note, "%s in the van", part);
      else if (need->source == HS_DAY_SOURCE_COUNTER)
        note_counter (note, solved, need, part);
      else
        add_note (note, "%s from nowhere", part);
    }
}

static char *
call_note (const HsDaySolved *solved, const HsDayCall *call)
{
  GString *note = g_string_new (NULL);
  const HsDayArea *area = hs_day_facts_find_area (solved->facts, call->area);

  /* A place that is short cuts what comes last, and this must not be cut. */
  if (call->high_voltage)
    add_note (note, "high voltage: safety list first");
  note_needs (note, solved, call);
  if (area != NULL && g_strcmp0 (area->signal, "none") == 0)
    add_note (note, "no signal");
  if (area != NULL && g_strcmp0 (area->signal, "patchy") == 0)
    add_note (note, "patchy signal");
  if (call->assumed)
    add_note (note, "%d min assumed", HS_DAY_ASSUMED_SECONDS / 60);
  return g_string_free (note, note->len == 0);
}

static char *
counter_note (const HsDaySolved *solved, const HsDayCounter *counter)
{
  const HsDayFacts *facts = solved->facts;
  GString *note = g_string_new (NULL);
  guint wanted = 0;

  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);

      wanted += need->source == HS_DAY_SOURCE_COUNTER && g_str_equal (need->supplier_id, counter->supplier_id);
    }
  if (!hs_day_solved_reaches (solved, counter->supplier_id))
    add_note (note, "not open today");
  else if (wanted > 0)
    add_note (note, "pick up %u", wanted);
  if (counter->apart && !counter->shut && counter->words != NULL)
    add_note (note, "other hours: %s", counter->words);
  else if (counter->apart && !counter->shut)
    add_note (note, "other hours on this day");
  else if (counter->spans->len == 0)
    add_note (note, "hours not known");
  return g_string_free (note, note->len == 0);
}

/* Stops ------------------------------------------------------------------------------------------------------------ */

static void
describe_call (HsPlannedStop *stop, const HsDaySolved *solved, const HsDayCall *call)
{
  stop->area = g_strdup (call->area);
  stop->plate = g_strdup (call->plate);
  stop->vehicle = g_strdup (call->vehicle);
  stop->customer = g_strdup (call->customer);
  stop->words = g_strdup (call->words);
  stop->note = call_note (solved, call);
  stop->stage = call->stage;
  stop->window_from = call->window_from;
  stop->window_to = call->window_to;
  if (call->window_to != HS_INSTANT_NONE)
    stop->spare_seconds = call->window_to - stop->start;
}

static void
add_stop (HsDayPlan *plan, const HsDaySolved *solved, const HsDayStopRef *ref, const HsPlanStop *timed,
          guint from_place, guint place)
{
  HsInstant begin = solved->facts->starts_at;
  HsPlannedStop *stop = g_new0 (HsPlannedStop, 1);
  HsTravelLeg leg;

  stop->is_counter = ref->counter != NULL;
  stop->id = g_strdup (ref->call != NULL ? ref->call->number : ref->counter->name);
  stop->row_id = g_strdup (ref->call != NULL ? ref->call->job_id : ref->counter->supplier_id);
  stop->arrive = begin + timed->arrive_seconds;
  stop->start = begin + timed->start_seconds;
  stop->depart = begin + timed->depart_seconds;
  stop->wait_seconds = timed->wait_seconds;
  stop->drive_seconds = timed->drive_seconds;
  stop->drive_millimiles = timed->drive_millimiles;
  stop->window_from = HS_INSTANT_NONE;
  stop->window_to = HS_INSTANT_NONE;
  stop->spare_seconds = -1;
  stop->stage = HS_STAGE_PROMISED;
  stop->also_short = g_ptr_array_new_with_free_func (also_short_free);
  stop->break_from = HS_INSTANT_NONE;
  stop->break_to = HS_INSTANT_NONE;
  leg = hs_travel_get_leg (solved->build->travel, from_place, place);
  stop->guess = leg.guess;
  stop->leg = leg;
  stop->locked = hs_day_solved_is_locked (solved, stop->row_id);
  g_ptr_array_add (plan->stops, stop);
  if (ref->call != NULL)
    {
      describe_call (stop, solved, ref->call);
      return;
    }
  stop->area = g_strdup (ref->counter->area);
  stop->note = counter_note (solved, ref->counter);
}

/* Returns where the van is after it. */
static guint
add_past (HsDayPlan *plan, const HsDaySolved *solved)
{
  guint place = 0;

  for (guint i = 0; solved->past != NULL && i < solved->past->stops->len; i++)
    {
      const HsPastStop *stop = &g_array_index (solved->past->stops, HsPastStop, i);

      add_stop (plan, solved, &stop->ref, &stop->timed, place, stop->place);
      place = stop->place;
    }
  return place;
}

static void
add_stops (HsDayPlan *plan, const HsDaySolved *solved)
{
  const HsDay *day = solved->build->day;
  guint place = add_past (plan, solved);

  for (guint i = 0; i < solved->plan->stops->len; i++)
    {
      const HsPlanStop *timed = hs_plan_get_stop (solved->plan, i);

      add_stop (plan, solved, &g_array_index (solved->build->refs, HsDayStopRef, timed->stop), timed, place,
                hs_day_get_stop (day, timed->stop)->place);
      place = hs_day_get_stop (day, timed->stop)->place;
      if (timed->slack_seconds == solved->plan->spare_seconds && plan->spare_at == NULL
          && timed->slack_seconds != HS_PLAN_NO_LIMIT)
        plan->spare_at = g_strdup (hs_day_get_stop (day, timed->stop)->id);
    }
  if (plan->stops->len > 0)
    plan->home_drive_seconds = hs_day_leg_seconds (day, place, day->end_place);
}

static HsPlannedStop *
find_counter_stop (const HsDayPlan *plan, const char *supplier_id)
{
  for (guint i = 0; i < plan->stops->len; i++)
    {
      HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (stop->is_counter && g_str_equal (stop->row_id, supplier_id))
        return stop;
    }
  return NULL;
}

static gboolean
stops_there (const char *supplier_id, gpointer plan)
{
  return find_counter_stop (plan, supplier_id) != NULL;
}

static void
name_short (HsPlannedStop *stop)
{
  GString *note = g_string_new (stop->note);

  for (guint i = 0; i < stop->also_short->len; i++)
    {
      const HsAlsoShort *also = g_ptr_array_index (stop->also_short, i);
      g_autofree char *quantity = hs_decimal_format_short (also->quantity_milli, 3);
      g_autofree char *part = hs_say_part (also->part);

      if (i == 0)
        add_note (note, "also short: %s × %s", quantity, part);
      else
        g_string_append_printf (note, ", %s × %s", quantity, part);
    }
  g_free (stop->note);
  stop->note = g_string_free (note, note->len == 0);
}

/* What the van is short of, at the counters where it stops anyway. */
static void
add_shorts (HsDayPlan *plan, const GPtrArray *shorts)
{
  for (guint i = 0; i < shorts->len; i++)
    {
      const HsDayShort *lack = g_ptr_array_index (shorts, i);
      const HsDayLister *lister = hs_day_short_choose (lack, stops_there, plan);
      HsAlsoShort *also;

      if (lister == NULL)
        continue;
      also = g_new0 (HsAlsoShort, 1);
      also->part = g_strdup (lack->part);
      also->number = g_strdup (lack->number);
      also->quantity_milli = lack->quantity_milli;
      also->cents = hs_day_short_cents (lack, lister->cost_cents);
      also->left_milli = lack->left_milli;
      also->keep_milli = lack->keep_milli;
      g_ptr_array_add (find_counter_stop (plan, lister->supplier_id)->also_short, also);
    }
  for (guint i = 0; i < plan->stops->len; i++)
    name_short (g_ptr_array_index (plan->stops, i));
}

/* @after: among all stops of the day. */
static void
put_break (HsDayPlan *plan, const HsDaySolved *solved, int after, gint32 start, gint32 end)
{
  HsPlannedStop *stop;

  plan->break_from = solved->facts->starts_at + start;
  plan->break_to = solved->facts->starts_at + end;
  if (after < 0)
    return;
  stop = g_ptr_array_index (plan->stops, (guint) after);
  stop->break_from = plan->break_from;
  stop->break_to = plan->break_to;
}

static void
add_break (HsDayPlan *plan, const HsDaySolved *solved)
{
  const HsDayPast *past = solved->past;
  int behind = past != NULL ? (int) past->stops->len : 0;

  if (past != NULL && past->break_after != HS_PLAN_NO_BREAK)
    put_break (plan, solved, past->break_after, past->break_start_seconds, past->break_end_seconds);
  else if (solved->plan->break_after != HS_PLAN_NO_BREAK)
    put_break (plan, solved, behind + solved->plan->break_after, solved->plan->break_start_seconds,
               solved->plan->break_end_seconds);
}

static void
add_counter_spans (HsDayPlan *plan, const HsDayFacts *facts, const char *name, const GArray *spans)
{
  for (guint i = 0; i < spans->len; i++)
    {
      const HsDaySpan *open = &g_array_index (spans, HsDaySpan, i);
      HsCounterSpan *span = g_new0 (HsCounterSpan, 1);

      span->supplier = g_strdup (name);
      span->opens = facts->starts_at + open->from_seconds;
      span->shuts = facts->starts_at + open->to_seconds;
      g_ptr_array_add (plan->spans, span);
    }
}

/* Opening hours of every counter of the day, also of one that is left out. */
static void
add_spans (HsDayPlan *plan, const HsDaySolved *solved)
{
  const HsDay *day = solved->build->day;

  for (guint i = 0; solved->past != NULL && i < solved->past->stops->len; i++)
    {
      const HsPastStop *stop = &g_array_index (solved->past->stops, HsPastStop, i);

      if (stop->ref.counter != NULL)
        add_counter_spans (plan, solved->facts, stop->ref.counter->name, stop->spans);
    }
  for (guint i = 0; i < day->stops->len; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (day, i);

      if (stop->kind == HS_DAY_STOP_COUNTER)
        add_counter_spans (plan, solved->facts, stop->id, stop->spans);
    }
}

static void
copy_broken (GPtrArray *to, GPtrArray *from)
{
  for (guint i = 0; i < from->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (from, i);

      g_ptr_array_add (to, hs_broken_promise_new (broken->id, broken->late_seconds, broken->why));
    }
}

static void
add_broken (HsDayPlan *plan, const HsDaySolved *solved)
{
  for (guint i = 0; i < solved->plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (solved->plan, i);

      g_ptr_array_add (plan->broken, hs_day_solved_broken (solved, broken->stop, broken->late_seconds, broken->why));
    }
  copy_broken (plan->broken, solved->build->nowhere);
  copy_broken (plan->broken, solved->build->left_out);
}

static void
add_ring (HsDayPlan *plan, const HsDaySolved *solved)
{
  for (guint i = 0; solved->ring != NULL && i < solved->ring->len; i++)
    g_ptr_array_add (plan->ring, hs_day_ring_copy (g_ptr_array_index (solved->ring, i)));
}

/* Of the whole day, what is behind it included; rounded once, half up. */
static void
set_figures (HsDayPlan *plan, const HsDaySolved *solved)
{
  const HsDay *day = solved->build->day;
  const HsDayPast *past = solved->past;
  gint32 leave = past != NULL ? past->leave_seconds : solved->plan->leave_seconds;

  plan->leave = solved->facts->starts_at + leave;
  plan->home = solved->facts->starts_at + solved->plan->home_seconds;
  plan->drive_seconds = solved->plan->drive_seconds + (past != NULL ? past->drive_seconds : 0);
  plan->millimiles = solved->plan->drive_millimiles + (past != NULL ? past->drive_millimiles : 0);
  plan->cost_cents = hs_cost_cents (hs_cost_units (solved->plan->home_seconds - leave, day->minute_cents,
                                                   plan->millimiles, day->mile_cents));
  if (day->home_by_seconds < HS_DAY_NO_HOME_BY)
    {
      plan->home_by = solved->facts->starts_at + day->home_by_seconds;
      plan->home_late_seconds = MAX (0, plan->home - plan->home_by);
    }
  if (solved->plan->spare_seconds != HS_PLAN_NO_LIMIT)
    plan->spare_seconds = solved->plan->spare_seconds;
}

HsDayPlan *
hs_day_solved_describe (const HsDaySolved *solved)
{
  HsDayPlan *plan = day_plan_new (solved);

  add_stops (plan, solved);
  add_shorts (plan, solved->facts->shorts);
  add_break (plan, solved);
  add_spans (plan, solved);
  add_broken (plan, solved);
  add_ring (plan, solved);
  plan->proven = solved->plan->proven && !solved->facts->unproven_choice;
  plan->status = solved->plan->status;
  if (plan->broken->len > 0)
    plan->status = HS_PLAN_IMPOSSIBLE;
  else if (plan->status == HS_PLAN_OPTIMAL && !plan->proven)
    plan->status = HS_PLAN_BEST_FOUND;
  plan->states = solved->plan->states;
  for (guint i = 0; i < solved->facts->penciled->len; i++)
    g_ptr_array_add (plan->penciled, g_strdup (g_ptr_array_index (solved->facts->penciled, i)));
  if (plan->stops->len > 0)
    set_figures (plan, solved);
  return plan;
}

static HsDayPlan *
solve_and_describe (HsBook *book, HsDate day, const char *van, HsDaySolveHow how, HsInstant now, GError **error)
{
  g_autoptr (HsDaySolved) solved = hs_day_solve (book, day, van, how, NULL, now, error);
  g_autoptr (HsDayPlan) plan = solved != NULL ? hs_day_solved_describe (solved) : NULL;

  if (plan == NULL || !hs_day_shut_fill (plan, solved, hs_book_get_store (book), error))
    return NULL;
  return g_steal_pointer (&plan);
}

HsDayPlan *
hs_day_plan_make (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error)
{
  return solve_and_describe (book, day, van, HS_DAY_FRESH, now, error);
}

HsDayPlan *
hs_day_plan_standing (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error)
{
  return solve_and_describe (book, day, van, HS_DAY_STANDING, now, error);
}

static const HsPlannedStop *
stop_of (const HsDayPlan *plan, guint i)
{
  return g_ptr_array_index (plan->stops, i);
}

static gboolean
is_same (const HsDayPlan *plan, const HsDayPlan *other)
{
  if (plan->leave != other->leave || plan->stops->len != other->stops->len)
    return FALSE;
  for (guint i = 0; i < plan->stops->len; i++)
    if (!g_str_equal (stop_of (plan, i)->row_id, stop_of (other, i)->row_id))
      return FALSE;
  return TRUE;
}

gboolean
hs_day_plan_find_other (HsBook *book, const HsDayPlan *plan, HsInstant now, HsDayPlan **ret_other, GError **error)
{
  g_autoptr (HsPlanRow) row = NULL;
  g_autoptr (HsDayPlan) other = NULL;

  if (!hs_plan_row_find (hs_book_get_store (book), plan->van_id, plan->day, &row, error))
    return FALSE;
  *ret_other = NULL;
  if (row == NULL)
    return TRUE;
  other = hs_day_plan_standing (book, plan->day, plan->van, now, error);
  if (other == NULL)
    return FALSE;
  if (other->accepted && !is_same (plan, other))
    *ret_other = g_steal_pointer (&other);
  return TRUE;
}

guint
hs_day_plan_next (const HsDayPlan *plan, HsInstant now)
{
  guint behind = 0;
  guint next;

  for (guint i = 0; i < plan->stops->len; i++)
    if (!stop_of (plan, i)->is_counter && stop_of (plan, i)->stage != HS_STAGE_PROMISED)
      behind = i + 1;
  if (behind == 0 || stop_of (plan, behind - 1)->stage != HS_STAGE_ROLLING)
    return behind;
  next = behind - 1;
  while (next > 0 && stop_of (plan, next - 1)->is_counter)
    next--;
  while (next < behind - 1 && stop_of (plan, next)->depart <= now)
    next++;
  return next < behind - 1 ? next : behind;
}

/* What stands ------------------------------------------------------------------------------------------------------ */

static GPtrArray *
stop_rows (const HsDayPlan *plan)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_plan_stop_row_free);

  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);
      HsPlanStopRow *row = hs_plan_stop_row_new ();

      hs_row_set (stop->is_counter ? &row->supplier_id : &row->job_id, stop->row_id);
      row->locked = stop->locked;
      row->arrive_at = stop->arrive;
      row->start_at = stop->start;
      row->depart_at = stop->depart;
      g_ptr_array_add (rows, row);
    }
  return rows;
}

gboolean
hs_day_plan_accept (HsBook *book, const HsDayPlan *plan, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsPlanRow) row = hs_plan_row_new ();
  g_autoptr (GPtrArray) stops = stop_rows (plan);

  if (plan->stops->len == 0)
    {
      g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                           "There is nothing to accept: no call is promised for this day");
      return FALSE;
    }
  hs_row_set (&row->van_id, plan->van_id);
  row->day = plan->day;
  row->leave_at = plan->leave;
  row->home_at = plan->home;
  row->accepted_at = now;
  return hs_store_begin (store, now, error)
         && hs_store_end (store, hs_plan_row_accept (store, row, stops, error), error);
}

/* A job without a van is the first one's. */
static const HsVanRow *
find_van (GPtrArray *vans, const char *van_id)
{
  for (guint i = 0; i < vans->len; i++)
    if (g_strcmp0 (((const HsVanRow *) g_ptr_array_index (vans, i))->id, van_id) == 0)
      return g_ptr_array_index (vans, i);
  return vans->len > 0 ? g_ptr_array_index (vans, 0) : NULL;
}

gboolean
hs_day_plan_begin (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) vans = NULL;
  g_autoptr (HsPlanRow) standing = NULL;
  g_autoptr (HsDayPlan) plan = NULL;
  const HsVanRow *van;
  HsDate today;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_van_row_list (store, &vans, error))
    return FALSE;
  hs_instant_to_local (hs_book_get_zone (book), now, &today, NULL);
  van = find_van (vans, job->van_id);
  if (job->day != today || van == NULL)
    return TRUE;
  if (!hs_plan_row_find (store, van->id, today, &standing, error))
    return FALSE;
  if (standing == NULL)
    plan = hs_day_plan_make (book, today, van->letter, now, NULL);
  return plan == NULL || plan->stops->len == 0 || hs_day_plan_accept (book, plan, now, error);
}

HsDayPlan *
hs_day_plan_of_job (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) vans = NULL;
  const HsVanRow *van;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_van_row_list (store, &vans, error))
    return NULL;
  van = find_van (vans, job->van_id);
  return hs_day_plan_standing (book, hs_ops_today (book, now), van != NULL ? van->letter : NULL, now, error);
}

guint
hs_day_plan_find_stop (const HsDayPlan *plan, const char *job_id)
{
  guint at = 0;

  for (; at < plan->stops->len; at++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, at);

      if (!stop->is_counter && g_strcmp0 (stop->row_id, job_id) == 0)
        break;
    }
  return at;
}

static gboolean
lock_stop (HsBook *book, HsDate day, const char *van, const char *stop_id, gboolean locked, HsInstant now,
           GError **error)
{
  g_autoptr (HsDayPlan) plan = hs_day_plan_standing (book, day, van, HS_INSTANT_NONE, error);

  if (plan == NULL)
    return FALSE;
  for (guint i = 0; i < plan->stops->len; i++)
    {
      HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);

      if (!g_str_equal (stop->id, stop_id))
        continue;
      stop->locked = locked;
      return hs_day_plan_accept (book, plan, now, error);
    }
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND, "The plan of the day has no stop “%s”", stop_id);
  return FALSE;
}

gboolean
hs_day_plan_lock (HsBook *book, HsDate day, const char *van, const char *stop_id, gboolean locked, HsInstant now,
                  GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, lock_stop (book, day, van, stop_id, locked, now, error), error);
}
