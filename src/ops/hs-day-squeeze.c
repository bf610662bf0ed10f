// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Where one more call fits into a day. Leave time and order of the plan that stands are kept; a day timed anew is a
 * separate offer. Reads only. Refuses an area that the book does not know and a window that ends before it starts.
 */

#include "hs-day-plan.h"

#include "hs-day-drives.h"
#include "hs-day-hours.h"
#include "hs-day-solve.h"
#include "hs-ops-error.h"
#include "hs-squeeze.h"

#include <string.h>

/* The id that the new call has while it is only asked about. */
#define SQUEEZE_ID "new call"

typedef struct
{
  const char *area;
  gint64 service_seconds;
  int window_from;
  int window_to;
  gboolean replan;
  gboolean names_van;
  HsInstant now;
} HsSqueezeAsked;

void
hs_offer_free (HsOffer *offer)
{
  if (offer == NULL)
    return;
  g_free (offer->van);
  g_free (offer->after);
  g_ptr_array_unref (offer->breaks);
  g_free (offer);
}

static HsOffer *
offer_new (const char *after)
{
  HsOffer *offer = g_new0 (HsOffer, 1);

  offer->after = g_strdup (after);
  offer->leave = offer->free_from = offer->free_to = HS_INSTANT_NONE;
  offer->breaks = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  return offer;
}

/* In whole minutes, so that what is said on the phone holds; within what was asked for, and not into the next day. */
static void
set_free (HsOffer *offer, const HsDayFacts *facts, const HsSqueezeOffer *source, const HsSqueezeAsked *asked)
{
  HsInstant asked_from = facts->starts_at + hs_day_build_seconds (facts, asked->window_from);
  HsInstant asked_to = facts->starts_at + hs_day_build_seconds (facts, asked->window_to);
  HsInstant from = MAX (facts->starts_at + (source->free_from_seconds + 59) / 60 * 60, asked_from);
  HsInstant to = MIN (facts->starts_at + source->free_to_seconds / 60 * 60, MIN (asked_to, facts->ends_at));

  if (source->free_from_seconds < 0 || from > to)
    return;
  offer->free_from = from;
  offer->free_to = to;
}

/* On a day that has begun, first of what is ahead comes after the last of what is behind. */
static const char *
behind_id (const HsDaySolved *solved)
{
  const HsDayPast *past = solved->past;
  const HsDayStopRef *last;

  if (past == NULL || past->stops->len == 0)
    return NULL;
  last = &g_array_index (past->stops, HsPastStop, past->stops->len - 1).ref;
  return last->call != NULL ? last->call->number : last->counter->name;
}

static HsOffer *
offer_from_squeeze (const HsDaySolved *solved, const HsSqueezeOffer *source, const HsSqueezeAsked *asked)
{
  HsOffer *offer = offer_new (source->after_id != NULL ? source->after_id : behind_id (solved));

  offer->start = solved->facts->starts_at + source->start_seconds;
  offer->home = solved->facts->starts_at + source->home_seconds;
  offer->adds_seconds = source->adds_seconds;
  offer->adds_millimiles = source->adds_millimiles;
  offer->adds_cents = source->adds_cents;
  set_free (offer, solved->facts, source, asked);
  for (guint i = 0; i < source->breaks->len; i++)
    {
      const HsSqueezeBreak *broken = g_ptr_array_index (source->breaks, i);

      g_ptr_array_add (offer->breaks, hs_broken_promise_new (broken->id, broken->late_seconds, broken->why));
    }
  return offer;
}

static const char *
stop_id (const HsDaySolved *solved, guint stop)
{
  return stop < solved->build->day->stops->len ? hs_day_get_stop (solved->build->day, stop)->id : SQUEEZE_ID;
}

static gint64
away_seconds (const HsPlan *plan)
{
  return plan->home_seconds - plan->leave_seconds;
}

static HsOffer *
offer_from_replan (const HsDaySolved *solved, const HsPlan *plan)
{
  guint n = solved->build->day->stops->len;
  const char *after = behind_id (solved);
  HsOffer *offer;
  guint at = 0;

  while (at < plan->stops->len && hs_plan_get_stop (plan, at)->stop != n)
    after = stop_id (solved, hs_plan_get_stop (plan, at++)->stop);
  offer = offer_new (after);
  offer->replanned = TRUE;
  offer->leave = solved->facts->starts_at + plan->leave_seconds;
  offer->start = at < plan->stops->len ? solved->facts->starts_at + hs_plan_get_stop (plan, at)->start_seconds
                                       : HS_INSTANT_NONE;
  offer->home = solved->facts->starts_at + plan->home_seconds;
  offer->adds_seconds = away_seconds (plan) - away_seconds (solved->plan);
  offer->adds_millimiles = plan->drive_millimiles - solved->plan->drive_millimiles;
  offer->adds_cents = hs_cost_cents (plan->cost_units - solved->plan->cost_units);
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsPlanBroken *broken = hs_plan_get_broken (plan, i);
      const char *id = broken->stop == HS_DAY_NO_STOP ? "home"
                       : broken->stop == HS_DAY_BREAK ? "break" : stop_id (solved, (guint) broken->stop);

      g_ptr_array_add (offer->breaks, hs_broken_promise_new (id, broken->late_seconds, broken->why));
    }
  return offer;
}

/* The day, with the one stop that is asked about; its place is one of the day's. */
static HsDay *
day_with_call (const HsDaySolved *solved, const char *area, gint64 service_seconds, int window_from, int window_to)
{
  HsDay *day = hs_day_copy (solved->build->day);
  guint stop = hs_day_add_stop (day, SQUEEZE_ID, HS_DAY_STOP_CALL, (guint) hs_day_build_place (solved->build, area),
                                (gint32) service_seconds);

  hs_day_add_span (day, stop, hs_day_build_seconds (solved->facts, window_from),
                   hs_day_build_seconds (solved->facts, window_to));
  return day;
}

/* Hours ------------------------------------------------------------------------------------------------------------ */

/* The days asked about were checked, and so there is always an answer. */
static HsPlan *
drive_at_hours (HsDay *day, const guint *order, guint n_order, gint32 leave_seconds, gpointer view)
{
  HsDayBuild build = *(HsDayBuild *) view;
  HsPlan *plan = NULL;

  build.day = day;
  if (!hs_day_hours_drive (&build, order, n_order, leave_seconds, &plan, NULL))
    g_assert_not_reached ();
  return plan;
}

static HsPlan *
solve_at_hours (HsDay *day, gpointer view)
{
  HsDayBuild build = *(HsDayBuild *) view;
  HsPlan *plan = NULL;

  build.day = day;
  if (!hs_plan_solve (day, NULL, NULL, &plan, NULL) || !hs_day_hours_settle (&build, &plan, NULL))
    g_assert_not_reached ();
  return plan;
}

static gboolean
have_same_hours (HsDay *day, const HsPlan *a, const HsPlan *b, gpointer view)
{
  HsDayBuild build = *(HsDayBuild *) view;
  g_autofree guint8 *left = g_new0 (guint8, build.places->len);
  g_autofree guint8 *right = g_new0 (guint8, build.places->len);

  build.day = day;
  hs_day_hours_add (&build, a, left);
  hs_day_hours_add (&build, b, right);
  return memcmp (left, right, build.places->len) == 0;
}

static gboolean
find_offers (const HsDaySolved *solved, const HsPlan *plan, const HsDayStop *call, GPtrArray **ret_offers,
             GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (solved->build, hs_day_copy (solved->build->day));
  const HsSqueezeClock clock = { drive_at_hours, solve_at_hours, have_same_hours, view };

  return hs_squeeze_offers (solved->build->day, plan, call,
                            hs_day_drives_tell_hours (solved->build) ? &clock : NULL, ret_offers, error);
}

/* The day timed anew ----------------------------------------------------------------------------------------------- */

/* What may be promised in its place when all others keep theirs: the order of @plan without the call, driven, and the
 * call put back where it was. */
static gboolean
find_replanned_free (HsOffer *offer, const HsDaySolved *solved, const HsPlan *plan, const HsDayStop *call,
                     const HsSqueezeAsked *asked, GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (solved->build, hs_day_copy (solved->build->day));
  g_autoptr (HsPlan) others = NULL;
  g_autoptr (GPtrArray) squeezed = NULL;
  guint order[HS_DAY_MAX_STOPS];
  guint n = 0;
  guint position = 0;

  for (guint i = 0; i < plan->stops->len; i++)
    if (hs_plan_get_stop (plan, i)->stop == solved->build->day->stops->len)
      position = i;
    else
      order[n++] = hs_plan_get_stop (plan, i)->stop;
  if (n == plan->stops->len)
    return TRUE;
  if (!hs_day_hours_drive (view, order, n, plan->leave_seconds, &others, error)
      || !find_offers (solved, others, call, &squeezed, error))
    return FALSE;
  for (guint i = 0; i < squeezed->len; i++)
    if (((const HsSqueezeOffer *) g_ptr_array_index (squeezed, i))->position == position)
      set_free (offer, solved->facts, g_ptr_array_index (squeezed, i), asked);
  return TRUE;
}

static gboolean
add_replanned (GPtrArray *offers, const HsDaySolved *solved, const HsDay *enlarged, const HsSqueezeAsked *asked,
               GError **error)
{
  g_autoptr (HsDayBuild) view = hs_day_build_view (solved->build, hs_day_copy (enlarged));
  const HsDayStop *call = hs_day_get_stop (enlarged, enlarged->stops->len - 1);
  g_autoptr (HsPlan) plan = NULL;
  HsOffer *offer;

  if (!hs_plan_solve (view->day, NULL, NULL, &plan, error) || !hs_day_hours_settle (view, &plan, error))
    return FALSE;
  offer = offer_from_replan (solved, plan);
  g_ptr_array_add (offers, offer);
  return offer->breaks->len > 0 || find_replanned_free (offer, solved, plan, call, asked, error);
}

/* Offers ----------------------------------------------------------------------------------------------------------- */

static int
compare_offers (gconstpointer a, gconstpointer b)
{
  const HsOffer *left = *(HsOffer *const *) a;
  const HsOffer *right = *(HsOffer *const *) b;

  if ((left->breaks->len == 0) != (right->breaks->len == 0))
    return left->breaks->len == 0 ? -1 : 1;
  if (left->adds_cents != right->adds_cents)
    return left->adds_cents < right->adds_cents ? -1 : 1;
  return left->replanned - right->replanned;
}

static gboolean
check_squeeze (gint64 service_seconds, int window_from, int window_to, GError **error)
{
  if (window_to < window_from)
    g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                         "The window ends before it starts: give the earlier time first");
  else if (service_seconds < 0 || service_seconds > HS_SECONDS_PER_DAY)
    g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                         "The work takes between 0 minutes and a day: give its minutes anew");
  else
    return TRUE;
  return FALSE;
}

/* The offers of one van. */
static gboolean
squeeze_van (GPtrArray *offers, HsBook *book, HsDate day, const char *van, const HsSqueezeAsked *asked, GError **error)
{
  g_autoptr (HsDaySolved) solved = hs_day_solve (book, day, van, HS_DAY_STANDING, asked->area, asked->now, error);
  g_autoptr (HsDay) enlarged = NULL;
  g_autoptr (GPtrArray) squeezed = NULL;
  const HsDayStop *call;
  guint first = offers->len;

  if (solved == NULL)
    return FALSE;
  enlarged = day_with_call (solved, asked->area, asked->service_seconds, asked->window_from, asked->window_to);
  call = hs_day_get_stop (enlarged, enlarged->stops->len - 1);
  if (!find_offers (solved, solved->plan, call, &squeezed, error))
    return FALSE;
  for (guint i = 0; i < squeezed->len; i++)
    g_ptr_array_add (offers, offer_from_squeeze (solved, g_ptr_array_index (squeezed, i), asked));
  if (asked->replan && !add_replanned (offers, solved, enlarged, asked, error))
    return FALSE;
  for (guint i = first; asked->names_van && i < offers->len; i++)
    ((HsOffer *) g_ptr_array_index (offers, i))->van = g_strdup (solved->facts->van);
  return TRUE;
}

GPtrArray *
hs_day_squeeze (HsBook *book, HsDate day, const char *van, const char *area, gint64 service_seconds, int window_from,
                int window_to, gboolean replan, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) vans = NULL;
  g_autoptr (GPtrArray) offers = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_offer_free);
  HsSqueezeAsked asked = { area, service_seconds, window_from, window_to, replan, FALSE, now };

  if (!check_squeeze (service_seconds, window_from, window_to, error)
      || !hs_van_row_list (hs_book_get_store (book), &vans, error))
    return NULL;
  asked.names_van = vans->len > 1;
  if ((van != NULL || vans->len == 0) && !squeeze_van (offers, book, day, van, &asked, error))
    return NULL;
  for (guint i = 0; van == NULL && i < vans->len; i++)
    if (!squeeze_van (offers, book, day, ((HsVanRow *) g_ptr_array_index (vans, i))->letter, &asked, error))
      return NULL;
  g_ptr_array_sort (offers, compare_offers);
  return g_steal_pointer (&offers);
}
