// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Parts that are bought where it is shut: by the plan the van stands before the door, or it does not go there at all,
 * since the counter does not open on the day. Said wherever somebody is about to drive. A counter whose hours nobody
 * knows is taken to be open.
 */

#include "hs-day-shut.h"

#include "hs-counter-hours.h"
#include "hs-say.h"

void
hs_shut_part_free (HsShutPart *part)
{
  g_free (part->supplier_id);
  g_free (part->supplier);
  g_free (part->part);
  g_free (part->job_id);
  g_free (part->number);
  g_free (part);
}

/* The stop at a counter; its index is before @behind for one that is behind the van. */
static guint
find_stop (const HsDayPlan *plan, const char *supplier_id)
{
  guint at = 0;

  for (; at < plan->stops->len; at++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, at);

      if (stop->is_counter && g_str_equal (stop->row_id, supplier_id))
        break;
    }
  return at;
}

/* The first opening on the day itself that ends after @from; %HS_INSTANT_NONE if there is none. */
static HsInstant
opens_on_day (const HsDayPlan *plan, const char *supplier, HsInstant from)
{
  HsInstant first = HS_INSTANT_NONE;

  for (guint i = 0; i < plan->spans->len; i++)
    {
      const HsCounterSpan *span = g_ptr_array_index (plan->spans, i);

      if (g_str_equal (span->supplier, supplier) && span->shuts > from
          && (first == HS_INSTANT_NONE || span->opens < first))
        first = span->opens;
    }
  return first;
}

static gboolean
opens_on_weekday (const HsDayPlan *plan, const HsDayCounter *counter)
{
  for (guint i = 0; i < counter->spans->len; i++)
    if (g_array_index (counter->spans, HsOpenSpan, i).weekday == hs_date_weekday (plan->day))
      return TRUE;
  return FALSE;
}

static gboolean
opens_later (const HsDayPlan *plan, const HsDaySolved *solved, HsStore *store, const HsDayCounter *counter,
             HsInstant *ret_opens, GError **error)
{
  HsDate day;
  int minutes;

  if (!hs_counter_hours_find_next (store, counter->supplier_id, plan->day, &day, &minutes, error))
    return FALSE;
  *ret_opens = day != HS_DATE_NONE ? hs_instant_from_local (solved->facts->zone, day, minutes) : HS_INSTANT_NONE;
  return TRUE;
}

/* Whether the plan stands there before a shut door, or does not go there because nobody opens it. */
static gboolean
look_at (const HsDayPlan *plan, const HsDaySolved *solved, HsStore *store, const HsDayCounter *counter,
         gboolean *ret_shut, HsInstant *ret_opens, GError **error)
{
  guint at = find_stop (plan, counter->supplier_id);
  const HsPlannedStop *stop = at < plan->stops->len ? g_ptr_array_index (plan->stops, at) : NULL;
  guint behind = solved->past != NULL ? solved->past->stops->len : 0;

  *ret_shut = FALSE;
  *ret_opens = HS_INSTANT_NONE;
  if ((stop != NULL && at < behind) || (counter->spans->len == 0 && !counter->shut))
    return TRUE;
  if (stop != NULL)
    *ret_opens = opens_on_day (plan, counter->name, stop->start);
  if (*ret_opens != HS_INSTANT_NONE)
    {
      *ret_shut = *ret_opens - stop->arrive >= HS_DAY_SHUT_SECONDS;
      return TRUE;
    }
  *ret_shut = stop != NULL || !opens_on_weekday (plan, counter);
  return !*ret_shut || opens_later (plan, solved, store, counter, ret_opens, error);
}

gboolean
hs_day_shut_fill (HsDayPlan *plan, const HsDaySolved *solved, HsStore *store, GError **error)
{
  const HsDayFacts *facts = solved->facts;

  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);
      const HsDayCall *call = g_ptr_array_index (facts->calls, need->call);
      const HsDayCounter *counter;
      HsShutPart *part;
      HsInstant opens;
      gboolean shut;

      if (need->source != HS_DAY_SOURCE_COUNTER || call->stage > HS_STAGE_ROLLING)
        continue;
      counter = hs_day_facts_find_counter (facts, need->supplier_id);
      if (!look_at (plan, solved, store, counter, &shut, &opens, error))
        return FALSE;
      if (!shut)
        continue;
      part = g_new0 (HsShutPart, 1);
      part->supplier_id = g_strdup (counter->supplier_id);
      part->supplier = g_strdup (counter->name);
      part->part = hs_say_part (need->part);
      part->job_id = g_strdup (call->job_id);
      part->number = g_strdup (call->number);
      part->opens = opens;
      g_ptr_array_add (plan->shut, part);
    }
  return TRUE;
}
