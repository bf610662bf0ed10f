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

  if (offer->home_seconds > limit)
    add_break (offer, HS_DAY_NO_STOP, "home", offer->home_seconds - squeeze->day->home_by_seconds,
               g_strdup_printf ("home only at %s; the day should end by %s", home, asked));
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

static HsSqueezeOffer *
squeeze_try (const HsSqueeze *squeeze, guint position, int break_after)
{
  g_autoptr (HsPlan) plan = NULL;
  HsSqueezeOffer *offer = g_new0 (HsSqueezeOffer, 1);
  guint order[HS_DAY_MAX_STOPS];

  memcpy (order, squeeze->order, position * sizeof *order);
  order[position] = squeeze->call;
  memcpy (order + position + 1, squeeze->order + position, (squeeze->n - position) * sizeof *order);
  plan = hs_plan_drive (squeeze->day, order, squeeze->n + 1, squeeze->leave, break_after);
  offer->position = position;
  offer->after = position == 0 ? HS_DAY_NO_STOP : (int) order[position - 1];
  offer->after_id = position == 0 ? NULL : g_strdup (hs_day_get_stop (squeeze->day, order[position - 1])->id);
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

/* The offer with the call starting at @start and at no other time. */
static HsSqueezeOffer *
squeeze_start_at (HsSqueeze *squeeze, guint position, gint32 start, int break_after)
{
  HsDayStop *call = g_ptr_array_index (squeeze->day->stops, squeeze->call);
  GArray *asked = g_steal_pointer (&call->spans);
  HsSqueezeOffer *offer;

  call->spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  hs_day_add_span (squeeze->day, squeeze->call, start, start);
  offer = squeeze_try (squeeze, position, break_after);
  g_array_unref (call->spans);
  call->spans = asked;
  return offer;
}

static gboolean
squeeze_may_start (HsSqueeze *squeeze, guint position, gint32 start, int break_after)
{
  HsSqueezeOffer *offer = squeeze_start_at (squeeze, position, start, break_after);
  gboolean may = offer->breaks->len == 0 && offer->start_seconds == start && offer->break_after == break_after;

  squeeze_offer_free (offer);
  return may;
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

/* A van with nothing else to do may leave for it as early as it can. */
static gint32
earliest_arrival (HsSqueeze *squeeze, const HsSqueezeOffer *offer)
{
  g_autoptr (HsPlan) plan = NULL;

  if (squeeze->n > 0)
    return offer->arrive_seconds;
  squeeze->leave = squeeze->day->leave_from_seconds;
  plan = hs_plan_drive (squeeze->day, &squeeze->call, 1, squeeze->leave, HS_PLAN_NO_BREAK);
  return hs_plan_get_stop (plan, 0)->arrive_seconds;
}

static void
squeeze_find_free (HsSqueeze *squeeze, HsSqueezeOffer *offer)
{
  gint32 arrive = earliest_arrival (squeeze, offer);
  gint32 minutes = squeeze_free_minutes (squeeze, offer->position, arrive, HS_PLAN_NO_BREAK);
  int first = squeeze->day->under_way ? HS_PLAN_BREAK_FIRST : 0;

  for (int k = first; squeeze->day->break_seconds > 0 && k <= (int) squeeze->n; k++)
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
  if (!hs_plan_solve (squeeze->day, NULL, NULL, &alone, error))
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
  if (!hs_plan_drive_order (day, squeeze->order, squeeze->n, plan->leave_seconds, &squeeze->before, error))
    return FALSE;
  for (guint k = 0; k < squeeze->n; k++)
    squeeze->late_before[squeeze->order[k]] = hs_plan_get_stop (squeeze->before, k)->late_seconds;
  return find_leave (squeeze, error);
}

gboolean
hs_squeeze_offers (const HsDay *day, const HsPlan *plan, const HsDayStop *call, GPtrArray **ret_offers, GError **error)
{
  HsSqueeze squeeze = { NULL };
  g_autoptr (GPtrArray) offers = g_ptr_array_new_with_free_func (squeeze_offer_free);
  gboolean ok = squeeze_begin (&squeeze, day, plan, call, error);

  for (guint position = 0; ok && position <= squeeze.n; position++)
    {
      HsSqueezeOffer *offer = squeeze_try (&squeeze, position, HS_PLAN_PLACE_BREAK);

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

gboolean
hs_squeeze_replan (const HsDay *day, const HsDayStop *call, HsPlanGiveUp give_up, gpointer user_data,
                   HsPlan **ret_plan, GError **error)
{
  g_autoptr (HsDay) enlarged = NULL;

  if (!enlarge (day, call, &enlarged, error))
    return FALSE;
  return hs_plan_solve (enlarged, give_up, user_data, ret_plan, error);
}
