// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Times of day of a day's drives. Use it wherever a day of the book is planned or driven in an order. It looks for the
 * hours by trying, which ends: after a while the hours at which a place may be left only grow.
 */

#include "hs-day-hours.h"

#include "hs-day-drives.h"

#include <string.h>

/* Orders that are tried before the best of them has to do. */
#define MAX_ROUNDS 4

/* An order timed so often has not settled by itself. */
#define MAX_EXACT_ROUNDS 12

/* Clock times, as minutes, at which one time of day ends and the next begins, as hs_travel_band () has them. */
static const int borders[] = { 6 * 60, 9 * 60 + 30, 15 * 60, 19 * 60 };

/* An order, and when it is left for: at the best time in a span, or at a given one. */
typedef struct
{
  HsDayBuild *build;
  const GArray *order;
  gboolean leave_is_given;
  HsDaySpan leave;
} Timing;

/* The best so far. */
typedef struct
{
  HsPlan *plan;
  HsDaySpan leave;
} Best;

static GArray *
order_of (const HsPlan *plan)
{
  GArray *order = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < plan->stops->len; i++)
    g_array_append_val (order, hs_plan_get_stop (plan, i)->stop);
  return order;
}

static gboolean
same_order (const GArray *a, const GArray *b)
{
  return a->len == b->len && (a->len == 0 || memcmp (a->data, b->data, a->len * sizeof (guint)) == 0);
}

/* When the van leaves each place ----------------------------------------------------------------------------------- */

static int
band_at (const HsDayBuild *build, gint32 seconds)
{
  int of_day;

  hs_instant_to_local (build->facts->zone, build->facts->starts_at + seconds, NULL, &of_day);
  return hs_travel_band (of_day);
}

static void
leave_at (const HsDayBuild *build, guint8 *left, guint place, gint32 seconds)
{
  left[place] |= (guint8) (1u << band_at (build, seconds));
}

void
hs_day_hours_add (const HsDayBuild *build, const HsPlan *plan, guint8 *left)
{
  if (plan->stops->len > 0 || build->day->under_way)
    leave_at (build, left, build->day->start_place,
              plan->break_after == HS_PLAN_BREAK_FIRST ? MAX (plan->leave_seconds, plan->break_end_seconds)
                                                       : plan->leave_seconds);
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, i);
      gint32 leaves = plan->break_after == (int) i ? MAX (stop->depart_seconds, plan->break_end_seconds)
                                                   : stop->depart_seconds;

      leave_at (build, left, hs_day_get_stop (build->day, stop->stop)->place, leaves);
    }
}

static guint8 *
left_in (const HsDayBuild *build, const HsPlan *plan)
{
  guint8 *left = g_new0 (guint8, build->places->len);

  hs_day_hours_add (build, plan, left);
  return left;
}

/* Whether all of @now is in @left. */
static gboolean
holds (const HsDayBuild *build, const guint8 *left, const guint8 *now)
{
  for (guint i = 0; i < build->places->len; i++)
    if ((now[i] & ~left[i]) != 0)
      return FALSE;
  return TRUE;
}

/* One order -------------------------------------------------------------------------------------------------------- */

/* The drives to begin with. */
static void
begin (HsDayBuild *build)
{
  g_autofree guint8 *nowhere = g_new0 (guint8, build->places->len);

  hs_day_drives_set (build, nowhere);
}

/* At the drives that the day has now. */
static gboolean
drive (const Timing *timing, HsPlan **ret_plan, GError **error)
{
  const GArray *order = timing->order;
  g_autoptr (HsDay) day = NULL;

  if (timing->leave_is_given)
    return hs_plan_drive_order (timing->build->day, (const guint *) (gconstpointer) order->data, order->len,
                                timing->leave.from_seconds, ret_plan, error);
  day = hs_day_copy (timing->build->day);
  for (guint i = 0; i < day->stops->len; i++)
    hs_day_lock_stop (day, i, 0);
  for (guint i = 0; i < order->len; i++)
    hs_day_lock_stop (day, g_array_index (order, guint, i), i + 1);
  day->leave_from_seconds = timing->leave.from_seconds;
  day->leave_to_seconds = timing->leave.to_seconds;
  return hs_plan_solve (day, NULL, NULL, ret_plan, error);
}

/* Sets the drives to the hours of @plan and drives it again until they are. */
static gboolean
time_order (const Timing *timing, HsPlan **plan, GError **error)
{
  HsDayBuild *build = timing->build;
  g_autofree guint8 *left = left_in (build, *plan);

  for (guint round = 0;; round++)
    {
      g_autofree guint8 *now = NULL;
      g_autoptr (HsPlan) timed = NULL;

      hs_day_drives_set (build, left);
      if (!drive (timing, &timed, error))
        return FALSE;
      hs_plan_free (*plan);
      *plan = g_steal_pointer (&timed);
      now = left_in (build, *plan);
      if (round < MAX_EXACT_ROUNDS ? memcmp (left, now, build->places->len) == 0 : holds (build, left, now))
        return TRUE;
      for (guint i = 0; round + 1 >= MAX_EXACT_ROUNDS && i < build->places->len; i++)
        now[i] |= left[i];
      g_free (left);
      left = g_steal_pointer (&now);
    }
}

/* The best of the orders ------------------------------------------------------------------------------------------- */

static gint64
total_late (const HsPlan *plan)
{
  gint64 late = 0;

  for (guint i = 0; i < plan->broken->len; i++)
    late += hs_plan_get_broken (plan, i)->late_seconds;
  return late;
}

/* Promises kept, then lateness, then the spare that is asked for, then cost, then the earliest home. */
static gboolean
is_better (const HsDay *day, const HsPlan *a, const HsPlan *b)
{
  gint32 spare_a = MIN (a->spare_seconds, day->spare_seconds);
  gint32 spare_b = MIN (b->spare_seconds, day->spare_seconds);

  if (a->broken->len != b->broken->len)
    return a->broken->len < b->broken->len;
  if (total_late (a) != total_late (b))
    return total_late (a) < total_late (b);
  if (spare_a != spare_b)
    return spare_a > spare_b;
  if (a->cost_units != b->cost_units)
    return a->cost_units < b->cost_units;
  return a->home_seconds < b->home_seconds;
}

static gboolean
was_tried (const GPtrArray *tried, const GArray *order)
{
  for (guint i = 0; i < tried->len; i++)
    if (same_order (g_ptr_array_index (tried, i), order))
      return TRUE;
  return FALSE;
}

/* Times @order at its own hours, left for in @leave and first tried about @like, and keeps it if it is best. */
static gboolean
try_span (HsDayBuild *build, const GArray *order, HsDaySpan leave, gint32 like, Best *best, GError **error)
{
  const Timing timing = { build, order, FALSE, leave };
  g_autoptr (HsPlan) plan = NULL;

  begin (build);
  if (!hs_plan_drive_order (build->day, (const guint *) (gconstpointer) order->data, order->len,
                            CLAMP (like, leave.from_seconds, leave.to_seconds), &plan, error)
      || !time_order (&timing, &plan, error))
    return FALSE;
  if (best->plan != NULL && !is_better (build->day, plan, best->plan))
    return TRUE;
  hs_plan_free (best->plan);
  *best = (Best) { g_steal_pointer (&plan), leave };
  return TRUE;
}

/* Leaving in the same time of day does not change the first drive, leaving in another may: each has its turn. */
static gboolean
try_order (HsDayBuild *build, const GArray *order, gint32 like, Best *best, GError **error)
{
  const HsDay *day = build->day;
  HsDaySpan leave = { day->leave_from_seconds, day->leave_to_seconds };

  for (guint i = 0; i < G_N_ELEMENTS (borders); i++)
    {
      gint32 border = hs_day_build_seconds (build->facts, borders[i]);

      if (border <= leave.from_seconds || border > day->leave_to_seconds)
        continue;
      leave.to_seconds = MAX (leave.from_seconds, border - 60);
      if (!try_span (build, order, leave, like, best, error))
        return FALSE;
      leave = (HsDaySpan) { border, day->leave_to_seconds };
    }
  return try_span (build, order, leave, like, best, error);
}

/* A plan that is as good as the best would be with each drive at its fastest is the best; of others nobody knows. */
static gboolean
prove (const HsDayBuild *build, HsPlan *plan, GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (build, hs_day_copy (build->day));
  g_autofree guint8 *left = g_new0 (guint8, build->places->len);
  g_autoptr (HsPlan) floor = NULL;

  hs_day_hours_may_leave (build, build->day, plan->broken->len == 0, left);
  hs_day_drives_set_fastest (view, left);
  if (!hs_plan_solve (view->day, NULL, NULL, &floor, error))
    return FALSE;
  plan->proven = floor->proven && !is_better (build->day, floor, plan);
  if (plan->status != HS_PLAN_IMPOSSIBLE)
    plan->status = plan->proven ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND;
  return TRUE;
}

/* Where the day at the hours of the best comes out as the best itself, its reasons are those of the whole day. */
static gboolean
take_best (HsDayBuild *build, Best *best, HsPlan **plan, GError **error)
{
  g_autoptr (GArray) order = order_of (best->plan);
  g_autoptr (GArray) order_again = NULL;
  g_autofree guint8 *left = NULL;
  g_autofree guint8 *left_again = NULL;
  g_autoptr (HsPlan) again = NULL;
  const Timing timing = { build, order, FALSE, best->leave };

  if (!time_order (&timing, &best->plan, error) || !hs_plan_solve (build->day, NULL, NULL, &again, error))
    return FALSE;
  left = left_in (build, best->plan);
  left_again = left_in (build, again);
  order_again = order_of (again);
  hs_plan_free (*plan);
  *plan = same_order (order, order_again) && memcmp (left, left_again, build->places->len) == 0
            ? g_steal_pointer (&again) : g_steal_pointer (&best->plan);
  return prove (build, *plan, error);
}

/* Plans the day at the hours of the best so far. */
static gboolean
plan_again (HsDayBuild *build, const Best *best, HsPlan **plan, GError **error)
{
  g_autofree guint8 *left = left_in (build, best->plan);
  g_autoptr (HsPlan) again = NULL;

  hs_day_drives_set (build, left);
  if (!hs_plan_solve (build->day, NULL, NULL, &again, error))
    return FALSE;
  hs_plan_free (*plan);
  *plan = g_steal_pointer (&again);
  return TRUE;
}

/* Tries the order of @plan and what comes out when the day is planned at its hours, until that was tried already. */
static gboolean
try_orders (HsDayBuild *build, HsPlan **plan, Best *best, GError **error)
{
  g_autoptr (GPtrArray) tried = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);

  for (guint round = 0; round < MAX_ROUNDS; round++)
    {
      GArray *order = order_of (*plan);

      if (was_tried (tried, order))
        {
          g_array_unref (order);
          return TRUE;
        }
      g_ptr_array_add (tried, order);
      if (!try_order (build, order, (*plan)->leave_seconds, best, error) || !plan_again (build, best, plan, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_day_hours_settle (HsDayBuild *build, HsPlan **plan, GError **error)
{
  Best best = { NULL, { 0, 0 } };
  gboolean settled;

  if (!hs_day_drives_tell_hours (build) || (*plan)->stops->len == 0)
    return TRUE;
  settled = try_orders (build, plan, &best, error) && take_best (build, &best, plan, error);
  hs_plan_free (best.plan);
  return settled;
}

gboolean
hs_day_hours_drive (HsDayBuild *build, const guint *order, guint n_order, gint32 leave_seconds, HsPlan **ret_plan,
                    GError **error)
{
  g_autoptr (GArray) driven = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (HsPlan) plan = NULL;
  Timing timing = { build, driven, TRUE, { leave_seconds, leave_seconds } };

  g_array_append_vals (driven, order, n_order);
  if (hs_day_drives_tell_hours (build))
    begin (build);
  if (!drive (&timing, &plan, error)
      || (hs_day_drives_tell_hours (build) && (n_order > 0 || build->day->under_way)
          && !time_order (&timing, &plan, error)))
    return FALSE;
  *ret_plan = g_steal_pointer (&plan);
  return TRUE;
}

gboolean
hs_day_hours_time (HsDayBuild *build, const guint *order, guint n_order, gint32 like_seconds, HsPlan **ret_plan,
                   GError **error)
{
  g_autoptr (GArray) driven = g_array_new (FALSE, FALSE, sizeof (guint));
  Best best = { NULL, { 0, 0 } };
  gboolean timed;

  g_return_val_if_fail (hs_day_drives_tell_hours (build), FALSE);
  g_array_append_vals (driven, order, n_order);
  timed = try_order (build, driven, like_seconds, &best, error);
  if (timed)
    *ret_plan = g_steal_pointer (&best.plan);
  hs_plan_free (best.plan);
  return timed;
}

/* No time of day begins or ends between full half hours. */
static void
leave_between (const HsDayBuild *build, guint8 *left, guint place, gint32 from, gint32 to)
{
  for (gint32 at = from; at < to; at = (at / 1800 + 1) * 1800)
    leave_at (build, left, place, at);
  leave_at (build, left, place, to);
}

/* A van that is done from @from to @to leaves at once, or when it has had its break, for which it may have to wait. */
static void
leave_done (const HsDayBuild *build, const HsDay *day, guint8 *left, guint place, gint32 from, gint32 to)
{
  gint32 first = day->break_span.from_seconds;

  leave_between (build, left, place, from, to);
  if (day->break_seconds > 0)
    leave_between (build, left, place, MAX (from, first) + day->break_seconds, MAX (to, first) + day->break_seconds);
}

void
hs_day_hours_may_leave (const HsDayBuild *build, const HsDay *day, gboolean kept, guint8 *left)
{
  leave_done (build, day, left, day->start_place, day->leave_from_seconds, day->leave_to_seconds);
  for (guint i = 0; i < day->stops->len; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (day, i);

      if (!kept || stop->spans->len == 0)
        left[stop->place] = (1u << HS_TRAVEL_N_BANDS) - 1;
      for (guint k = 0; k < stop->spans->len; k++)
        {
          const HsDaySpan *span = &g_array_index (stop->spans, HsDaySpan, k);

          leave_done (build, day, left, stop->place, span->from_seconds + stop->service_seconds,
                      span->to_seconds + stop->service_seconds);
        }
    }
}

HsTravelLeg
hs_day_hours_leg (const HsDayBuild *build, guint from, guint to, gint32 leave_seconds)
{
  const HsTravel *travel
      = hs_day_drives_tell_hours (build) ? build->hours[band_at (build, leave_seconds)] : build->travel;

  return hs_travel_get_leg (travel, from, to);
}
