// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Fits one more call into an accepted day: every position is driven, at the leave time and in the order as they stand.
 * Positions that break something are offered too, after the others, with what they break; it refuses only days, plans
 * and calls that make no sense. */

#include "hs-squeeze.h"

#include "hs-plan-drive.h"
#include "hs-plan-error.h"
#include "hs-plan-why.h"
#include "hs-plan-words.h"

#include <string.h>

/* No start is offered more than a day after the van gets there. */
#define LATEST_MINUTE (24 * 60)

typedef struct
{
  const HsSqueezeClock *clock;
  HsDay *day;
  HsPlan *before;
  guint call;
  guint order[HS_DAY_MAX_STOPS];
  guint n;
  gint32 leave;
  gint32 late_before[HS_DAY_MAX_STOPS];
} HsSqueeze;

static void
squeeze_break_free (gpointer data)
{
  HsSqueezeBreak *entry = data;

  g_free (entry->id);
  g_free (entry->why);
  g_free (entry);
}

static void
squeeze_offer_free (gpointer data)
{
  HsSqueezeOffer *offer = data;

  g_free (offer->after_id);
  g_ptr_array_unref (offer->breaks);
  g_free (offer);
}

/* The check names the new call as the last stop; its caller knows it as "call". */
static gboolean
check_enlarged (const HsDay *day, guint call, GError **error)
{
  g_autofree char *path = g_strdup_printf ("stops[%u]", call);
  g_autoptr (GError) local = NULL;

  if (hs_day_check (day, &local))
    return TRUE;
  if (g_str_has_prefix (local->message, path))
    g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "call%s", local->message + strlen (path));
  else
    g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

static gboolean
enlarge (const HsDay *day, const HsDayStop *call, HsDay **ret_day, GError **error)
{
  g_autoptr (HsDay) copy = NULL;
  HsDayStop *added;
  guint index;

  if (!hs_day_check (day, error))
    return FALSE;
  copy = hs_day_copy (day);
  index = hs_day_add_stop (copy, call->id, call->kind, call->place, call->service_seconds);
  added = g_ptr_array_index (copy->stops, index);
  added->shut = call->shut;
  added->after = call->after;
  if (call->spans != NULL && call->spans->len > 0)
    g_array_append_vals (added->spans, call->spans->data, call->spans->len);
  if (!check_enlarged (copy, index, error))
    return FALSE;
  *ret_day = g_steal_pointer (&copy);
  return TRUE;
}

static void
add_break (HsSqueezeOffer *offer, int stop, const char *id, gint32 late_seconds, char *why)
{
  HsSqueezeBreak *entry = g_new0 (HsSqueezeBreak, 1);

  entry->stop = stop;
  entry->id = g_strdup (id);
  entry->late_seconds = late_seconds;
  entry->why = why;
  g_ptr_array_add (offer->breaks, entry);
}

static char *
why_stop (const HsDay *day, const HsDayStop *stop, const HsPlanStop *driven)
{
  g_autofree char *length = hs_words_length (driven->late_seconds);
  g_autofree char *start = hs_why_clock (day, driven->start_seconds);
  g_autofree char *end = hs_why_clock (day, driven->window.to_seconds);

  if (stop->kind == HS_DAY_STOP_COUNTER)
    return g_strdup_printf ("%s too late at %s, which shuts at %s", length, stop->id, end);
  return g_strdup_printf ("%s late: work starts at %s, promised by %s", length, start, end);
}

static void
add_late (const HsSqueeze *squeeze, HsSqueezeOffer *offer, const HsPlan *plan)
{
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *driven = hs_plan_get_stop (plan, k);
      const HsDayStop *stop = hs_day_get_stop (squeeze->day, driven->stop);

      if (driven->late_seconds > squeeze->late_before[driven->stop])
        add_break (offer, (int) driven->stop, stop->id, driven->late_seconds, why_stop (squeeze->day, stop, driven));
    }
}

/* A break that can't be had any more, in the planner's own words. */
static void
add_rest (const HsSqueeze *squeeze, HsSqueezeOffer *offer, const HsPlan *plan)
{
  for (guint k = 0; k < plan->broken->len; k++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (plan, k);

      if (broken->stop == HS_DAY_BREAK && broken->late_seconds > squeeze->before->break_late_seconds)
        add_break (offer, HS_DAY_BREAK, "break", broken->late_seconds, g_strdup (broken->why));
    }
}

static void
add_home (const HsSqueeze *squeeze, HsSqueezeOffer *offer)
{
  gint32 limit = MAX (squeeze->day->home_by_seconds, squeeze->before->home_seconds);
  g_autofree char *home = hs_why_clock (squeeze->day, offer->home_seconds);
  g_autofree char *asked = hs_why_clock (squeeze->day, squeeze->day->home_by_seconds);
  g_autofree char *late = hs_words_length (offer->home_seconds - squeeze->day->home_by_seconds);

  if (offer->home_seconds > limit)
    add_break (offer, HS_DAY_NO_STOP, "home", offer->home_seconds - squeeze->day->home_by_seconds,
               g_strdup_printf ("home only at %s, %s after the %s that was set", home, late, asked));
}

/* What the new call must come after but, put there, does not. */
static void
add_parts (const HsSqueeze *squeeze, HsSqueezeOffer *offer)
{
  const HsDayStop *call = hs_day_get_stop (squeeze->day, squeeze->call);
  guint64 missing = call->after;

  for (guint k = 0; k < offer->position; k++)
    missing &= ~HS_FRAME_BIT (squeeze->order[k]);
  for (; missing != 0; missing &= missing - 1)
    {
      const HsDayStop *first = hs_day_get_stop (squeeze->day, (guint) __builtin_ctzll (missing));

      add_break (offer, (int) squeeze->call, call->id, 0, g_strdup_printf ("it needs %s first", first->id));
    }
}

static gint32
away_seconds (const HsPlan *plan)
{
  return plan->home_seconds - plan->leave_seconds;
}

/* With a clock the break is where it is best. */
static HsPlan *
drive (const HsSqueeze *squeeze, const guint *order, guint n_order, int break_after)
{
  const HsSqueezeClock *clock = squeeze->clock;

  return clock != NULL ? clock->drive (squeeze->day, order, n_order, squeeze->leave, clock->user_data)
                       : hs_plan_drive (squeeze->day, order, n_order, squeeze->leave, break_after);
}

static HsPlan *
drive_with_call (const HsSqueeze *squeeze, guint position, int break_after)
{
  guint order[HS_DAY_MAX_STOPS];

  memcpy (order, squeeze->order, position * sizeof *order);
  order[position] = squeeze->call;
  memcpy (order + position + 1, squeeze->order + position, (squeeze->n - position) * sizeof *order);
  return drive (squeeze, order, squeeze->n + 1, break_after);
}

static HsSqueezeOffer *
offer_new (const HsSqueeze *squeeze, guint position, const HsPlan *plan)
{
  HsSqueezeOffer *offer = g_new0 (HsSqueezeOffer, 1);

  offer->position = position;
  offer->after = position == 0 ? HS_DAY_NO_STOP : (int) squeeze->order[position - 1];
  offer->after_id = position == 0 ? NULL : g_strdup (hs_day_get_stop (squeeze->day, squeeze->order[position - 1])->id);
  offer->break_after = plan->break_after;
  offer->arrive_seconds = hs_plan_get_stop (plan, position)->arrive_seconds;
  offer->start_seconds = hs_plan_get_stop (plan, position)->start_seconds;
  offer->home_seconds = plan->home_seconds;
  offer->adds_seconds = away_seconds (plan) - away_seconds (squeeze->before);
  offer->adds_millimiles = plan->drive_millimiles - squeeze->before->drive_millimiles;
  offer->adds_units = plan->cost_units - squeeze->before->cost_units;
  offer->adds_cents = hs_cost_cents (offer->adds_units);
  offer->spare_seconds = plan->spare_seconds;
  offer->breaks = g_ptr_array_new_with_free_func (squeeze_break_free);
  add_parts (squeeze, offer);
  add_late (squeeze, offer, plan);
  add_rest (squeeze, offer, plan);
  add_home (squeeze, offer);
  return offer;
}

/* The day driven with the call starting at @start and at no other time; %NULL if that breaks something. */
static HsPlan *
drive_start_at (HsSqueeze *squeeze, guint position, gint32 start, int break_after)
{
  HsDayStop *call = g_ptr_array_index (squeeze->day->stops, squeeze->call);
  GArray *asked = g_steal_pointer (&call->spans);
  g_autoptr (HsPlan) plan = NULL;
  HsSqueezeOffer *offer;
  gboolean may;

  call->spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  hs_day_add_span (squeeze->day, squeeze->call, start, start);
  plan = drive_with_call (squeeze, position, break_after);
  offer = offer_new (squeeze, position, plan);
  may = offer->breaks->len == 0 && offer->start_seconds == start
        && (squeeze->clock != NULL || offer->break_after == break_after);
  squeeze_offer_free (offer);
  g_array_unref (call->spans);
  call->spans = asked;
  return may ? g_steal_pointer (&plan) : NULL;
}

static gboolean
squeeze_may_start (HsSqueeze *squeeze, guint position, gint32 start, int break_after)
{
  g_autoptr (HsPlan) plan = drive_start_at (squeeze, position, start, break_after);

  return plan != NULL;
}

/* For how many minutes after getting there the call may start, or -1. With the break in one place, a later start makes
 * nothing that follows earlier, so that the starts that break nothing are one stretch. */
static gint32
squeeze_free_minutes (HsSqueeze *squeeze, guint position, gint32 arrive, int break_after)
{
  gint32 low = 0;
  gint32 high = LATEST_MINUTE;

  if (!squeeze_may_start (squeeze, position, arrive, break_after))
    return -1;
  while (high - low > 1)
    {
      gint32 middle = low + (high - low) / 2;

      if (squeeze_may_start (squeeze, position, arrive + middle * 60, break_after))
        low = middle;
      else
        high = middle;
    }
  return low;
}

/* Whether nothing that follows is driven at another hour, and the break is in the same place. */
static gboolean
is_alike (const HsSqueeze *squeeze, const HsPlan *a, const HsPlan *b)
{
  return a->break_after == b->break_after
         && squeeze->clock->same_hours (squeeze->day, a, b, squeeze->clock->user_data);
}

/* The last of the minutes from @low on that break nothing. A later start may be home earlier when a jam is over: only
 * between starts that are driven alike nothing can go wrong. */
static gint32
last_free (HsSqueeze *squeeze, guint position, gint32 arrive, gint32 low, gint32 high, const HsPlan *at_low)
{
  g_autoptr (HsPlan) at_high = drive_start_at (squeeze, position, arrive + high * 60, HS_PLAN_PLACE_BREAK);
  g_autoptr (HsPlan) at_middle = NULL;
  gint32 middle = low + (high - low) / 2;
  gint32 last;

  if (at_high != NULL && is_alike (squeeze, at_low, at_high))
    return high;
  if (middle == low)
    return at_high != NULL ? high : low;
  last = last_free (squeeze, position, arrive, low, middle, at_low);
  if (last < middle)
    return last;
  at_middle = drive_start_at (squeeze, position, arrive + middle * 60, HS_PLAN_PLACE_BREAK);
  return last_free (squeeze, position, arrive, middle, high, at_middle);
}

/* @arrive: a whole minute, as those are that are promised. */
static gint32
squeeze_free_by_clock (HsSqueeze *squeeze, guint position, gint32 arrive)
{
  g_autoptr (HsPlan) at_once = drive_start_at (squeeze, position, arrive, HS_PLAN_PLACE_BREAK);

  return at_once != NULL ? last_free (squeeze, position, arrive, 0, LATEST_MINUTE, at_once) : -1;
}

/* A van with nothing else to do may leave for it as early as it can. */
static gint32
earliest_arrival (HsSqueeze *squeeze, const HsSqueezeOffer *offer)
{
  g_autoptr (HsPlan) plan = NULL;

  if (squeeze->n > 0)
    return offer->arrive_seconds;
  squeeze->leave = squeeze->day->leave_from_seconds;
  plan = drive (squeeze, &squeeze->call, 1, HS_PLAN_NO_BREAK);
  return hs_plan_get_stop (plan, 0)->arrive_seconds;
}

static void
squeeze_find_free (HsSqueeze *squeeze, HsSqueezeOffer *offer)
{
  gint32 earliest = earliest_arrival (squeeze, offer);
  gint32 arrive = squeeze->clock != NULL ? (earliest + 59) / 60 * 60 : earliest;
  gint32 minutes = squeeze->clock != NULL
                     ? squeeze_free_by_clock (squeeze, offer->position, arrive)
                     : squeeze_free_minutes (squeeze, offer->position, arrive, HS_PLAN_NO_BREAK);
  int first = squeeze->day->under_way ? HS_PLAN_BREAK_FIRST : 0;

  for (int k = first; squeeze->clock == NULL && squeeze->day->break_seconds > 0 && k <= (int) squeeze->n; k++)
    minutes = MAX (minutes, squeeze_free_minutes (squeeze, offer->position, arrive, k));
  offer->free_from_seconds = minutes < 0 ? -1 : arrive;
  offer->free_to_seconds = minutes < 0 ? -1 : arrive + minutes * 60;
}

static int
compare_offers (gconstpointer a, gconstpointer b)
{
  const HsSqueezeOffer *left = *(HsSqueezeOffer *const *) a;
  const HsSqueezeOffer *right = *(HsSqueezeOffer *const *) b;

  if ((left->breaks->len > 0) != (right->breaks->len > 0))
    return left->breaks->len > 0 ? 1 : -1;
  if (left->adds_units != right->adds_units)
    return left->adds_units < right->adds_units ? -1 : 1;
  return left->position < right->position ? -1 : 1;
}

/* The leave time of the plan stands; a van with nothing else to do leaves when it is best for the call. */
static gboolean
find_leave (HsSqueeze *squeeze, GError **error)
{
  g_autoptr (HsPlan) alone = NULL;

  squeeze->leave = squeeze->before->leave_seconds;
  if (squeeze->n > 0 || squeeze->day->under_way)
    return TRUE;
  if (squeeze->clock != NULL)
    alone = squeeze->clock->solve (squeeze->day, squeeze->clock->user_data);
  else if (!hs_plan_solve (squeeze->day, NULL, NULL, &alone, error))
    return FALSE;
  squeeze->leave = alone->leave_seconds;
  return TRUE;
}

static gboolean
squeeze_begin (HsSqueeze *squeeze, const HsDay *day, const HsPlan *plan, const HsDayStop *call, GError **error)
{
  if (!enlarge (day, call, &squeeze->day, error))
    return FALSE;
  squeeze->call = day->stops->len;
  squeeze->n = plan->stops->len;
  if (squeeze->n > day->stops->len)
    {
      g_set_error_literal (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "order: has more stops than the day");
      return FALSE;
    }
  for (guint k = 0; k < squeeze->n; k++)
    squeeze->order[k] = hs_plan_get_stop (plan, k)->stop;
  squeeze->leave = plan->leave_seconds;
  if (squeeze->clock != NULL)
    squeeze->before = drive (squeeze, squeeze->order, squeeze->n, HS_PLAN_PLACE_BREAK);
  else if (!hs_plan_drive_order (day, squeeze->order, squeeze->n, squeeze->leave, &squeeze->before, error))
    return FALSE;
  for (guint k = 0; k < squeeze->n; k++)
    squeeze->late_before[squeeze->order[k]] = hs_plan_get_stop (squeeze->before, k)->late_seconds;
  return find_leave (squeeze, error);
}

gboolean
hs_squeeze_offers (const HsDay *day, const HsPlan *plan, const HsDayStop *call, const HsSqueezeClock *clock,
                   GPtrArray **ret_offers, GError **error)
{
  HsSqueeze squeeze = { clock };
  g_autoptr (GPtrArray) offers = g_ptr_array_new_with_free_func (squeeze_offer_free);
  gboolean ok = squeeze_begin (&squeeze, day, plan, call, error);

  for (guint position = 0; ok && position <= squeeze.n; position++)
    {
      g_autoptr (HsPlan) driven = drive_with_call (&squeeze, position, HS_PLAN_PLACE_BREAK);
      HsSqueezeOffer *offer = offer_new (&squeeze, position, driven);

      squeeze_find_free (&squeeze, offer);
      g_ptr_array_add (offers, offer);
    }
  hs_day_free (squeeze.day);
  hs_plan_free (squeeze.before);
  if (!ok)
    return FALSE;
  g_ptr_array_sort (offers, compare_offers);
  *ret_offers = g_steal_pointer (&offers);
  return TRUE;
}
