// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What stands for each van before its calls are shared: what it has begun, and the order of what is still ahead, driven
 * over the same tables as the proposal, so that both can be compared. Reads only.
 */

#include "hs-share-private.h"

#include "hs-day-hours.h"
#include "hs-job-row.h"
#include "hs-plan-row.h"
#include "hs-visit-row.h"

/* The past --------------------------------------------------------------------------------------------------------- */

static const HsDayCall *
find_call (const HsShareCase *self, const char *job_id)
{
  for (guint i = 0; i < self->facts->calls->len; i++)
    {
      const HsDayCall *call = g_ptr_array_index (self->facts->calls, i);

      if (g_str_equal (call->job_id, job_id))
        return call;
    }
  return NULL;
}

static guint
place_of (const HsShareCase *self, const HsDayCall *call)
{
  int place = call != NULL ? hs_day_build_place (self->build, hs_day_call_place (call)) : -1;

  return place >= 0 ? (guint) place : self->build->day->start_place;
}

static HsInstant
visit_begin (const HsVisitRow *visit)
{
  return visit->rolling_at != HS_INSTANT_NONE ? visit->rolling_at : visit->arrived_at;
}

static gint32
drive_seconds (const HsShareCase *self, guint from, guint to, HsInstant at)
{
  return hs_day_hours_leg (self->build, from, to, (gint32) (at - self->facts->starts_at)).seconds;
}

/* Goes on from the visit that began last. A van that is still rolling gets there as soon as it can, and then works. */
static void
take_visit (HsShareCase *self, HsShareVan *van, const HsDayCall *call, const HsVisitRow *visit, HsInstant now)
{
  HsInstant starts = self->facts->starts_at;
  guint place = place_of (self, call);
  guint from = van->begun ? van->place : self->build->day->start_place;
  gint64 service = call != NULL ? call->service_seconds : HS_DAY_ASSUMED_SECONDS;
  HsPlanStopRow *row = hs_plan_stop_row_new ();
  HsInstant arrive = visit->arrived_at;
  HsInstant depart = visit->left_at;

  if (arrive == HS_INSTANT_NONE)
    arrive = MAX (now, visit->rolling_at + drive_seconds (self, from, place, visit->rolling_at));
  if (depart == HS_INSTANT_NONE)
    depart = MAX (now, arrive + service);
  if (!van->begun)
    van->rolled_at = visit_begin (visit);
  hs_row_set (&row->job_id, visit->job_id);
  row->arrive_at = row->start_at = arrive;
  row->depart_at = depart;
  g_ptr_array_add (van->past, row);
  van->begun = TRUE;
  van->place = place;
  van->time = (gint32) (MAX (now, depart) - starts);
}

static int
compare_visits (gconstpointer a, gconstpointer b)
{
  HsInstant left = visit_begin (*(HsVisitRow *const *) a);
  HsInstant right = visit_begin (*(HsVisitRow *const *) b);

  return left < right ? -1 : left > right;
}

/* Adds the latest visit of @job on this day. */
static gboolean
add_visit (const HsShareCase *self, HsStore *store, const HsJobRow *job, GPtrArray *all, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;
  const HsVisitRow *last = NULL;

  if (!hs_visit_row_list_of (store, job->id, &visits, error))
    return FALSE;
  for (guint i = 0; i < visits->len; i++)
    {
      const HsVisitRow *visit = g_ptr_array_index (visits, i);

      if (visit_begin (visit) != HS_INSTANT_NONE && visit_begin (visit) >= self->facts->starts_at
          && visit_begin (visit) < self->facts->ends_at)
        last = visit;
    }
  if (last != NULL)
    g_ptr_array_add (all, hs_visit_row_copy (last));
  return TRUE;
}

static gboolean
is_of_van (const HsShareCase *self, const HsJobRow *job, guint v)
{
  const HsShareVan *van = g_ptr_array_index (self->vans, v);

  return job->van_id != NULL ? g_str_equal (job->van_id, van->id) : v == 0;
}

gboolean
hs_share_case_find_past (HsShareCase *self, HsBook *book, GPtrArray *jobs, HsInstant now, GError **error)
{
  if (now < self->facts->starts_at)
    return TRUE;
  for (guint v = 0; v < self->vans->len; v++)
    {
      HsShareVan *van = g_ptr_array_index (self->vans, v);
      g_autoptr (GPtrArray) visits = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_visit_row_free);

      for (guint i = 0; i < jobs->len; i++)
        if (is_of_van (self, g_ptr_array_index (jobs, i), v)
            && !add_visit (self, hs_book_get_store (book), g_ptr_array_index (jobs, i), visits, error))
          return FALSE;
      g_ptr_array_sort (visits, compare_visits);
      for (guint i = 0; i < visits->len; i++)
        {
          const HsVisitRow *visit = g_ptr_array_index (visits, i);

          take_visit (self, van, find_call (self, visit->job_id), visit, now);
        }
    }
  return TRUE;
}

/* What is still ahead ---------------------------------------------------------------------------------------------- */

static int
find_stop (const HsShareCase *self, const char *row_id)
{
  for (guint i = 0; i < self->build->refs->len; i++)
    if (g_str_equal (hs_share_case_row_id (self, i), row_id))
      return (int) i;
  return -1;
}

static gboolean
is_past (const HsShareVan *van, const char *row_id)
{
  for (guint i = 0; i < van->past->len; i++)
    if (g_strcmp0 (((HsPlanStopRow *) g_ptr_array_index (van->past, i))->job_id, row_id) == 0)
      return TRUE;
  return FALSE;
}

static void
drop_counters (const HsShareCase *self, GArray *order)
{
  for (guint i = order->len; i > 0; i--)
    if (g_array_index (self->build->refs, HsDayStopRef, g_array_index (order, guint, i - 1)).counter != NULL)
      g_array_remove_index (order, i - 1);
}

/* What has not begun; counters before the last that has were passed. Returns how many stops of the order were. */
static guint
take_order (HsShareCase *self, HsShareVan *van, const HsDaySolved *solved)
{
  guint passed = 0;

  for (guint i = 0; i < solved->plan->stops->len; i++)
    {
      const char *row_id = hs_day_solved_row_id (solved, hs_plan_get_stop (solved->plan, i)->stop);
      int stop = find_stop (self, row_id);
      guint at = (guint) stop;

      if (is_past (van, row_id))
        {
          drop_counters (self, van->order);
          passed = i + 1;
        }
      else if (stop >= 0)
        g_array_append_val (van->order, at);
    }
  return passed;
}

/* Nobody stamps a break: one that the order had before a stop that has begun is had. */
static gboolean
has_rested (const HsDaySolved *solved, guint passed)
{
  const HsDay *day = solved->build->day;

  if (solved->plan->break_after == HS_PLAN_NO_BREAK)
    return solved->plan->leave_seconds >= day->break_span.from_seconds + day->break_seconds;
  return solved->accepted && solved->plan->break_after + 1 < (int) passed;
}

/* A break that is still ahead of a van that is under way; one that was missed is no longer asked for. */
static void
shift_break (HsDay *day, gboolean rested, gint32 time)
{
  day->break_span.from_seconds = MAX (day->break_span.from_seconds, time);
  if (!rested && day->break_span.to_seconds - day->break_span.from_seconds >= day->break_seconds)
    return;
  day->break_seconds = 0;
  day->break_span = (HsDaySpan){ 0, 0 };
}

/* The rules that hold for one van, and from where it goes on. */
static void
set_rules (HsShareCase *self, HsShareVan *van, const HsDaySolved *solved, guint passed, gint32 now)
{
  const HsDay *own = solved->build->day;
  HsDay *day = hs_day_copy (self->build->day);

  van->day = day;
  van->rules = (HsShareRules){ own->leave_from_seconds, own->leave_to_seconds, own->home_by_seconds, own->break_seconds,
                               own->break_span.from_seconds, own->break_span.to_seconds };
  day->leave_from_seconds = MAX (own->leave_from_seconds, now);
  day->leave_to_seconds = MAX (own->leave_to_seconds, now);
  day->home_by_seconds = own->home_by_seconds;
  day->break_seconds = own->break_seconds;
  day->break_span = own->break_span;
  van->leave = MAX (solved->plan->leave_seconds, now);
  if (!van->begun)
    return;
  day->start_place = van->place;
  day->leave_from_seconds = day->leave_to_seconds = van->leave = van->time;
  day->under_way = TRUE;
  if (day->break_seconds > 0)
    shift_break (day, has_rested (solved, passed), van->time);
}

gboolean
hs_share_case_meet (HsShareCase *self, HsBook *book, HsInstant now, GError **error)
{
  for (guint v = 0; v < self->vans->len; v++)
    {
      HsShareVan *van = g_ptr_array_index (self->vans, v);
      g_autoptr (HsDaySolved) solved
          = hs_day_solve (book, self->facts->day, van->letter, HS_DAY_STANDING, NULL, HS_INSTANT_NONE, error);

      if (solved == NULL)
        return FALSE;
      set_rules (self, van, solved, take_order (self, van, solved),
                 (gint32) MAX (0, now - self->facts->starts_at));
      van->standing = g_steal_pointer (&solved->standing);
      for (guint i = 0; i < van->past->len; i++)
        {
          HsPlanStopRow *row = g_ptr_array_index (van->past, i);

          row->locked = hs_share_case_is_locked (van, row->job_id);
        }
    }
  return TRUE;
}

/* Driving ---------------------------------------------------------------------------------------------------------- */

static gboolean
drive_van (const HsShareCase *self, HsShareVan *van, GError **error)
{
  g_autoptr (HsDayBuild) view = NULL;

  if (van->order->len == 0 && !van->begun)
    return TRUE;
  view = hs_day_build_view (self->build, hs_day_copy (van->day));
  return hs_day_hours_drive (view, (const guint *) (gpointer) van->order->data, van->order->len, van->leave,
                             &van->plan, error);
}

/* Parts ------------------------------------------------------------------------------------------------------------ */

/* @seen: counters passed; @left: of what is on board */
typedef struct
{
  HsShareCase *self;
  guint seen;
  GArray *left;
  gint64 cents;
} Buyer;

static gboolean
take_carried (Buyer *buyer, guint part)
{
  for (guint i = 0; i < buyer->left->len; i++)
    if (g_array_index (buyer->left, guint, i) == part)
      {
        g_array_remove_index (buyer->left, i);
        return TRUE;
      }
  return FALSE;
}

/* On board, else the cheapest of the counters passed, else the cheapest of all. */
static guint
buy_part (Buyer *buyer, guint part)
{
  const HsProblem *problem = buyer->self->problem->problem;
  gint64 cents = 0;
  guint best = HS_SHARE_NOWHERE;
  gboolean best_seen = FALSE;

  if (take_carried (buyer, part))
    return HS_SHARE_STOCK;
  for (guint c = 0; c < problem->counters->len; c++)
    {
      gint64 price = hs_counter_cents (hs_problem_get_counter (problem, c), part);
      gboolean seen = (buyer->seen >> c & 1) != 0;

      if (price == HS_PROBLEM_NOT_SOLD || (best != HS_SHARE_NOWHERE && best_seen && !seen)
          || (best != HS_SHARE_NOWHERE && best_seen == seen && price >= cents))
        continue;
      best = c;
      best_seen = seen;
      cents = price;
    }
  buyer->cents += cents;
  return best;
}

static void
serve_call (Buyer *buyer, guint index)
{
  HsShareCase *self = buyer->self;
  const HsCall *call = hs_problem_get_call (self->problem->problem, index);

  for (guint k = 0; k < call->needs->len; k++)
    {
      guint part = g_array_index (call->needs, guint, k);
      guint need = hs_day_problem_find_need (self->problem, part, index);
      guint from = buy_part (buyer, part);

      if (need != HS_DAY_NO_NEED)
        g_array_index (self->was, guint, need) = from;
    }
}

static gint64
buy_parts (HsShareCase *self, const HsShareVan *van, guint v)
{
  Buyer buyer = { self, 0, g_array_copy (hs_problem_get_van (self->problem->problem, v)->carries), 0 };

  for (guint i = 0; i < van->order->len; i++)
    {
      guint stop = g_array_index (van->order, guint, i);
      int call = hs_share_call_index (self, stop);

      if (call >= 0)
        serve_call (&buyer, (guint) call);
      for (guint c = 0; c < self->problem->counters->len; c++)
        if (g_array_index (self->problem->counters, guint, c) == stop)
          buyer.seen |= 1u << c;
    }
  g_array_unref (buyer.left);
  return buyer.cents;
}

/* Sums ------------------------------------------------------------------------------------------------------------- */

static void
note_lateness (HsShareCase *self, const HsPlan *plan)
{
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlanStop *timed = hs_plan_get_stop (plan, i);
      int call = hs_share_call_index (self, timed->stop);

      if (call < 0)
        continue;
      g_array_index (self->late, gint32, call) = MAX (0, timed->late_seconds);
      self->standing.spare_seconds = MIN (self->standing.spare_seconds, timed->slack_seconds);
    }
}

gboolean
hs_share_case_stand (HsShareCase *self, GError **error)
{
  const gint32 unserved = HS_SHARE_UNSERVED;
  const guint nowhere = HS_SHARE_NOWHERE;
  gint64 units = 0;

  for (guint i = 0; i < self->problem->calls->len; i++)
    g_array_append_val (self->late, unserved);
  for (guint i = 0; i < self->facts->needs->len; i++)
    g_array_append_val (self->was, nowhere);
  self->standing.spare_seconds = HS_PLAN_NO_LIMIT;
  for (guint v = 0; v < self->vans->len; v++)
    {
      HsShareVan *van = g_ptr_array_index (self->vans, v);

      if (!drive_van (self, van, error))
        return FALSE;
      if (van->plan == NULL)
        continue;
      self->standing.seconds += van->plan->home_seconds - van->plan->leave_seconds;
      self->standing.millimiles += van->plan->drive_millimiles;
      units += van->plan->cost_units + buy_parts (self, van, v) * HS_COST_UNITS;
      note_lateness (self, van->plan);
    }
  self->standing.cents = hs_cost_cents (units);
  return TRUE;
}
