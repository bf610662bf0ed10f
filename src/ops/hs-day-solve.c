// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Takes a day from the book through the planner. Use it where a day is planned anew (locked stops keep their place
 * number) or where the order that the owner accepted is timed on today's rows. That order holds while its stops are
 * those of the day. Once the day has begun, what is done is behind, and only what is ahead is planned. Calls promised
 * since are put into it where they cost least and make nobody late, as they were offered on the phone. Where it no
 * longer fits, the day is planned anew.
 */

#include "hs-day-solve.h"

#include "hs-day-choose.h"
#include "hs-day-hours.h"
#include "hs-day-ring.h"
#include "hs-plan-row.h"

void
hs_day_standing_free (HsDayStanding *standing)
{
  if (standing == NULL)
    return;
  g_free (standing->id);
  g_ptr_array_unref (standing->rows);
  g_array_unref (standing->locked);
  g_free (standing);
}

void
hs_day_solved_free (HsDaySolved *solved)
{
  if (solved == NULL)
    return;
  g_clear_pointer (&solved->ring, g_ptr_array_unref);
  hs_plan_free (solved->plan);
  hs_day_past_free (solved->past);
  hs_day_build_free (solved->build);
  hs_day_facts_free (solved->facts);
  hs_day_standing_free (solved->standing);
  g_free (solved);
}

static HsDayStanding *
standing_new (const HsPlanRow *plan, GPtrArray *stops)
{
  HsDayStanding *standing = g_new0 (HsDayStanding, 1);

  standing->id = g_strdup (plan->id);
  standing->leave_at = plan->leave_at;
  standing->rows = g_ptr_array_new_with_free_func (g_free);
  standing->locked = g_array_new (FALSE, TRUE, sizeof (gboolean));
  for (guint i = 0; i < stops->len; i++)
    {
      const HsPlanStopRow *stop = g_ptr_array_index (stops, i);

      g_ptr_array_add (standing->rows, g_strdup (stop->job_id != NULL ? stop->job_id : stop->supplier_id));
      g_array_append_val (standing->locked, stop->locked);
    }
  return standing;
}

static gboolean
load_standing (HsStore *store, const char *van_id, HsDate day, HsDayStanding **ret_standing, GError **error)
{
  g_autoptr (HsPlanRow) plan = NULL;
  g_autoptr (GPtrArray) stops = NULL;

  if (!hs_plan_row_find (store, van_id, day, &plan, error))
    return FALSE;
  *ret_standing = NULL;
  if (plan == NULL)
    return TRUE;
  if (!hs_plan_stop_row_list_of (store, plan->id, &stops, error))
    return FALSE;
  *ret_standing = standing_new (plan, stops);
  return TRUE;
}

static const char *
ref_row_id (const HsDayStopRef *ref)
{
  return ref->call != NULL ? ref->call->job_id : ref->counter->supplier_id;
}

const char *
hs_day_solved_row_id (const HsDaySolved *solved, guint stop)
{
  return ref_row_id (&g_array_index (solved->build->refs, HsDayStopRef, stop));
}

/* An accepted order may lead to a counter that has come to be shut. */
static gboolean
is_shut (const HsDaySolved *solved, guint stop)
{
  for (guint i = 0; i < solved->plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (solved->plan, i);

      if (broken->stop == (int) stop && broken->late_seconds == 0
          && hs_day_get_stop (solved->build->day, stop)->kind == HS_DAY_STOP_COUNTER)
        return TRUE;
    }
  return FALSE;
}

gboolean
hs_day_solved_reaches (const HsDaySolved *solved, const char *supplier_id)
{
  for (guint i = 0; solved->past != NULL && i < solved->past->stops->len; i++)
    if (g_str_equal (ref_row_id (&g_array_index (solved->past->stops, HsPastStop, i).ref), supplier_id))
      return TRUE;
  for (guint i = 0; i < solved->plan->stops->len; i++)
    {
      guint stop = hs_plan_get_stop (solved->plan, i)->stop;

      if (g_str_equal (hs_day_solved_row_id (solved, stop), supplier_id))
        return !is_shut (solved, stop);
    }
  return FALSE;
}

static int
find_stop (const HsDayBuild *build, const char *row_id)
{
  for (guint i = 0; i < build->refs->len; i++)
    if (g_str_equal (ref_row_id (&g_array_index (build->refs, HsDayStopRef, i)), row_id))
      return (int) i;
  return -1;
}

gboolean
hs_day_solved_is_locked (const HsDaySolved *solved, const char *row_id)
{
  guint row;

  return solved->standing != NULL
         && g_ptr_array_find_with_equal_func (solved->standing->rows, row_id, g_str_equal, &row)
         && g_array_index (solved->standing->locked, gboolean, row);
}

static gboolean
day_has_begun (const HsDayFacts *facts)
{
  for (guint i = 0; i < facts->calls->len; i++)
    if (((HsDayCall *) g_ptr_array_index (facts->calls, i))->stage != HS_STAGE_PROMISED)
      return TRUE;
  return FALSE;
}

/* The accepted order as indexes of the day, without calls promised since; %NULL where its stops are no longer on it,
 * unless the day has begun: then it goes on without them. */
static GArray *
standing_order (const HsDaySolved *solved)
{
  g_autoptr (GArray) order = g_array_new (FALSE, FALSE, sizeof (guint));
  gboolean begun = day_has_begun (solved->facts);

  if (solved->standing->rows->len > solved->build->refs->len && !begun)
    return NULL;
  for (guint i = 0; i < solved->standing->rows->len; i++)
    {
      int stop = find_stop (solved->build, g_ptr_array_index (solved->standing->rows, i));
      guint index = (guint) stop;
      const HsDayCounter *counter;

      if (stop < 0 && begun)
        continue;
      if (stop < 0)
        return NULL;
      counter = g_array_index (solved->build->refs, HsDayStopRef, index).counter;
      if (counter != NULL && !counter->wanted && !begun)
        return NULL;
      g_array_append_val (order, index);
    }
  return g_steal_pointer (&order);
}

/* The first place in @order that is still ahead of the van and behind all that @stop has to come after. */
static guint
first_free_place (const HsDaySolved *solved, const GArray *order, guint stop)
{
  guint64 after = hs_day_get_stop (solved->build->day, stop)->after;
  guint first = 0;

  for (guint i = 0; i < order->len; i++)
    {
      guint before = g_array_index (order, guint, i);
      const HsDayCall *call = g_array_index (solved->build->refs, HsDayStopRef, before).call;

      if ((after & ((guint64) 1 << before)) != 0 || (call != NULL && call->stage != HS_STAGE_PROMISED))
        first = i + 1;
    }
  return first;
}

/* Puts @stop where it costs least and makes nobody late who was not; %FALSE in @ret_fits if there is no such place. */
static gboolean
insert_cheapest (const HsDaySolved *solved, GArray *order, guint stop, gint32 leave, gboolean *ret_fits, GError **error)
{
  HsDayBuild *build = solved->build;
  g_autoptr (HsPlan) before = NULL;
  gint64 least = G_MAXINT64;
  guint best = 0;

  if (!hs_day_hours_drive (build, (const guint *) (gpointer) order->data, order->len, leave, &before, error))
    return FALSE;
  for (guint at = first_free_place (solved, order, stop); at <= order->len; at++)
    {
      g_autoptr (GArray) tried = g_array_copy (order);
      g_autoptr (HsPlan) plan = NULL;

      g_array_insert_val (tried, at, stop);
      if (!hs_day_hours_drive (build, (const guint *) (gpointer) tried->data, tried->len, leave, &plan, error))
        return FALSE;
      if (plan->broken->len > before->broken->len || plan->cost_units >= least)
        continue;
      least = plan->cost_units;
      best = at;
    }
  *ret_fits = least != G_MAXINT64;
  if (*ret_fits)
    g_array_insert_val (order, best, stop);
  return TRUE;
}

static gboolean
is_new (const HsDaySolved *solved, guint stop)
{
  return !g_ptr_array_find_with_equal_func (solved->standing->rows, hs_day_solved_row_id (solved, stop), g_str_equal,
                                            NULL);
}

/* A counter that new calls need would change the way of the whole day, and is no matter of one place; but a day that
 * has begun stays, and so it comes last. */
static void
append_new_counters (const HsDaySolved *solved, GArray *order, gboolean *ret_fit)
{
  for (guint i = 0; i < solved->build->refs->len; i++)
    {
      if (g_array_index (solved->build->refs, HsDayStopRef, i).counter == NULL || !is_new (solved, i))
        continue;
      *ret_fit = day_has_begun (solved->facts);
      g_array_append_val (order, i);
    }
}

/* Calls promised since the order was accepted find their place in it. */
static gboolean
squeeze_new_calls (const HsDaySolved *solved, GArray *order, gint32 leave, gboolean *ret_fit, GError **error)
{
  *ret_fit = TRUE;
  append_new_counters (solved, order, ret_fit);
  for (guint i = 0; *ret_fit && i < solved->build->refs->len; i++)
    {
      if (g_array_index (solved->build->refs, HsDayStopRef, i).call == NULL || !is_new (solved, i))
        continue;
      if (!insert_cheapest (solved, order, i, leave, ret_fit, error))
        return FALSE;
      if (*ret_fit || !day_has_begun (solved->facts))
        continue;
      *ret_fit = TRUE;
      g_array_append_val (order, i);
    }
  return TRUE;
}

/* Loads the day's rows, chooses where to buy and makes numbers of it all. */
static gboolean
prepare (HsDaySolved *solved, HsBook *book, HsDate day, const HsVanRow *van, GPtrArray *keep, const char *extra_area,
         GError **error)
{
  g_clear_pointer (&solved->build, hs_day_build_free);
  g_clear_pointer (&solved->facts, hs_day_facts_free);
  solved->facts = hs_day_facts_load (book, day, van, keep, extra_area, solved->instead, error);
  if (solved->facts == NULL)
    return FALSE;
  if (keep != NULL)
    hs_day_choose_kept (solved->facts, keep);
  else if (!hs_day_choose_anew (solved->facts, extra_area, error))
    return FALSE;
  solved->build = hs_day_build (solved->facts, extra_area, error);
  return solved->build != NULL;
}

static void
lock_positions (HsDaySolved *solved)
{
  for (guint i = 0; solved->standing != NULL && i < solved->standing->rows->len; i++)
    {
      int stop = find_stop (solved->build, g_ptr_array_index (solved->standing->rows, i));

      if (stop >= 0 && g_array_index (solved->standing->locked, gboolean, i))
        hs_day_lock_stop (solved->build->day, (guint) stop, MIN (i + 1, solved->build->refs->len));
    }
}

static gboolean
is_of_day (const HsDaySolved *solved, HsInstant now)
{
  return now != HS_INSTANT_NONE && now >= solved->facts->starts_at && now < solved->facts->ends_at;
}

/* Nobody leaves before now. */
static void
start_now (HsDaySolved *solved, HsInstant now)
{
  HsDay *day = solved->build->day;

  if (!is_of_day (solved, now))
    return;
  day->leave_from_seconds = MAX (day->leave_from_seconds, (gint32) (now - solved->facts->starts_at));
  day->leave_to_seconds = MAX (day->leave_to_seconds, day->leave_from_seconds);
}

static gboolean
solve_fresh (HsDaySolved *solved, HsBook *book, HsDate day, const HsVanRow *van, const char *extra_area,
             HsInstant now, GError **error)
{
  if (!prepare (solved, book, day, van, NULL, extra_area, error))
    return FALSE;
  lock_positions (solved);
  start_now (solved, now);
  return hs_plan_solve (solved->build->day, NULL, NULL, &solved->plan, error)
         && hs_day_hours_settle (solved->build, &solved->plan, error);
}

/* The plan of what is ahead, in the order in which it stands. */
static gboolean
drive_ahead (HsDaySolved *solved, gint32 leave, GError **error)
{
  const HsDay *day = solved->build->day;
  guint order[HS_DAY_MAX_STOPS];

  for (guint i = 0; i < day->stops->len; i++)
    order[i] = i;
  g_clear_pointer (&solved->plan, hs_plan_free);
  return hs_day_hours_drive (solved->build, order, day->stops->len, leave, &solved->plan, error);
}

static const HsPlanStop *
find_first_call (const HsDaySolved *solved)
{
  for (guint i = 0; i < solved->plan->stops->len; i++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (solved->plan, i);

      if (g_array_index (solved->build->refs, HsDayStopRef, stop->stop).call != NULL)
        return stop;
    }
  return NULL;
}

/* Under way the van is put back to where it came from, as late as it must have been so that it is not there yet. A
 * counter that is still shut may take up what is added, and so it is added until it shows. */
static gboolean
drive_under_way (HsDaySolved *solved, HsInstant now, GError **error)
{
  HsDay *day = solved->build->day;
  gint32 seconds = (gint32) (now - solved->facts->starts_at);

  for (guint tries = 0; tries < 8; tries++)
    {
      const HsPlanStop *call;

      if (!drive_ahead (solved, day->leave_from_seconds, error))
        return FALSE;
      call = find_first_call (solved);
      if (call == NULL || call->arrive_seconds >= seconds)
        break;
      day->leave_from_seconds = day->leave_to_seconds += seconds - call->arrive_seconds;
    }
  return TRUE;
}

/* Cuts off what is behind, and drives the rest. */
static gboolean
go_on (HsDaySolved *solved, HsBook *book, HsInstant now, GError **error)
{
  if (!is_of_day (solved, now))
    return TRUE;
  if (!hs_day_past_cut (solved->build, solved->plan, hs_book_get_store (book), now, &solved->past, error))
    return FALSE;
  if (solved->past == NULL)
    return TRUE;
  if (solved->past->under_way)
    return drive_under_way (solved, now, error);
  return drive_ahead (solved, solved->past->time_seconds, error);
}

/* The rest of a day that has begun, in a better order where there is one; who is under way gets there first. */
static gboolean
plan_ahead (HsDaySolved *solved, GError **error)
{
  HsDay *day = solved->build->day;

  for (guint i = 0; solved->past->under_way && i < day->stops->len; i++)
    {
      hs_day_lock_stop (day, i, i + 1);
      if (hs_day_get_stop (day, i)->kind == HS_DAY_STOP_CALL)
        break;
    }
  solved->accepted = FALSE;
  g_clear_pointer (&solved->plan, hs_plan_free);
  return hs_plan_solve (day, NULL, NULL, &solved->plan, error)
         && hs_day_hours_settle (solved->build, &solved->plan, error);
}

/* Sets @solved->accepted and the plan where the accepted order still fits. */
static gboolean
solve_standing (HsDaySolved *solved, HsBook *book, HsDate day, const HsVanRow *van, const char *extra_area,
                GError **error)
{
  g_autoptr (GArray) order = NULL;
  g_autoptr (HsPlan) old = NULL;
  gboolean fit;
  gint32 leave;

  if (!prepare (solved, book, day, van, solved->standing->rows, extra_area, error))
    return FALSE;
  order = standing_order (solved);
  if (order == NULL || order->len == 0)
    return TRUE;
  lock_positions (solved);
  leave = (gint32) (solved->standing->leave_at - solved->facts->starts_at);
  if (!hs_day_hours_drive (solved->build, (const guint *) (gpointer) order->data, order->len, leave, &old, error)
      || !squeeze_new_calls (solved, order, leave, &fit, error))
    return FALSE;
  if (!fit)
    return TRUE;
  solved->accepted = TRUE;
  return hs_day_hours_drive (solved->build, (const guint *) (gpointer) order->data, order->len, leave, &solved->plan,
                             error);
}

static gboolean
has_begun (const HsDaySolved *solved)
{
  return solved->past != NULL && (solved->past->stops->len > 0 || solved->past->under_way);
}

/* The accepted order, and on a day that has begun what is left of it; without a plan where it no longer fits. */
static gboolean
solve_accepted (HsDaySolved *solved, HsBook *book, HsDate day, const HsVanRow *van, const char *extra_area,
                HsInstant now, GError **error)
{
  if (solved->standing == NULL)
    return TRUE;
  return solve_standing (solved, book, day, van, extra_area, error)
         && (solved->plan == NULL || go_on (solved, book, now, error));
}

static gboolean
solve_anew (HsDaySolved *solved, HsBook *book, HsDate day, const HsVanRow *van, const char *extra_area, HsInstant now,
            GError **error)
{
  if (has_begun (solved))
    return plan_ahead (solved, error);
  g_clear_pointer (&solved->plan, hs_plan_free);
  g_clear_pointer (&solved->past, hs_day_past_free);
  solved->accepted = FALSE;
  return solve_fresh (solved, book, day, van, extra_area, now, error);
}

static HsDaySolved *
solve (const HsDayAsk *ask, const char *extra_area, const HsDayInstead *instead, GError **error)
{
  HsBook *book = ask->book;
  g_autoptr (HsDaySolved) solved = g_new0 (HsDaySolved, 1);
  g_autoptr (HsVanRow) row = hs_day_find_van (book, ask->van, error);

  solved->instead = instead;
  if (row == NULL || !load_standing (hs_book_get_store (book), row->id, ask->day, &solved->standing, error))
    return NULL;
  if ((ask->how == HS_DAY_STANDING || ask->now != HS_INSTANT_NONE)
      && !solve_accepted (solved, book, ask->day, row, extra_area, ask->now, error))
    return NULL;
  if ((ask->how == HS_DAY_FRESH || solved->plan == NULL)
      && !solve_anew (solved, book, ask->day, row, extra_area, ask->now, error))
    return NULL;
  if (is_of_day (solved, ask->now)
      && !hs_day_ring_fill (solved, hs_book_get_store (book), has_begun (solved), error))
    return NULL;
  solved->instead = NULL;
  return g_steal_pointer (&solved);
}

HsDaySolved *
hs_day_solve (HsBook *book, HsDate day, const char *van, HsDaySolveHow how, const char *extra_area, HsInstant now,
              GError **error)
{
  const HsDayAsk ask = { book, day, van, how, now };

  return solve (&ask, extra_area, NULL, error);
}

HsDaySolved *
hs_day_solve_instead (const HsDayAsk *ask, const HsDayInstead *instead, GError **error)
{
  return solve (ask, NULL, instead, error);
}

HsBrokenPromise *
hs_day_solved_broken (const HsDaySolved *solved, int stop, gint64 late_seconds, const char *why)
{
  if (stop == HS_DAY_NO_STOP)
    return hs_broken_promise_new ("home", late_seconds, why);
  if (stop == HS_DAY_BREAK)
    return hs_broken_promise_new ("break", late_seconds, why);
  return hs_broken_promise_new (hs_day_get_stop (solved->build->day, (guint) stop)->id, late_seconds, why);
}
