// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The plain structs that hold what the book knows about a day. hs-day-load.c fills them, hs-day-build.c reads them;
 * tests fill them by hand. Nothing here asks the book or refuses anything.
 */

#include "hs-day-facts.h"

static void
call_free (gpointer data)
{
  HsDayCall *call = data;

  g_free (call->job_id);
  g_free (call->number);
  g_free (call->area);
  g_free (call->plate);
  g_free (call->vehicle);
  g_free (call->customer);
  g_free (call->words);
  g_free (call->access_note);
  g_free (call->van_id);
  g_free (call->spot);
  g_free (call);
}

static void
offer_free (gpointer data)
{
  HsDayOffer *offer = data;

  g_free (offer->supplier_id);
  g_free (offer);
}

static void
need_free (gpointer data)
{
  HsDayNeed *need = data;

  g_free (need->id);
  g_free (need->part_id);
  g_free (need->part);
  g_free (need->number);
  g_free (need->state);
  g_free (need->supplier_id);
  g_ptr_array_unref (need->offers);
  g_free (need);
}

static void
counter_free (gpointer data)
{
  HsDayCounter *counter = data;

  g_free (counter->supplier_id);
  g_free (counter->name);
  g_free (counter->area);
  g_array_unref (counter->spans);
  g_free (counter->words);
  g_free (counter);
}

static void
area_free (gpointer data)
{
  HsDayArea *area = data;

  g_free (area->code);
  g_free (area->name);
  g_free (area->signal);
  g_free (area->within);
  g_free (area);
}

static void
road_free (gpointer data)
{
  HsDayRoad *road = data;

  g_free (road->from);
  g_free (road->to);
  g_free (road);
}

HsDayCall *
hs_day_call_new (void)
{
  HsDayCall *call = g_new0 (HsDayCall, 1);

  call->stage = HS_STAGE_PROMISED;
  call->window_from = HS_INSTANT_NONE;
  call->window_to = HS_INSTANT_NONE;
  call->service_seconds = HS_DAY_ASSUMED_SECONDS;
  return call;
}

HsDayNeed *
hs_day_need_new (void)
{
  HsDayNeed *need = g_new0 (HsDayNeed, 1);

  need->quantity_milli = 1000;
  need->sure_percent = 100;
  need->unit_cents = -1;
  need->offers = g_ptr_array_new_with_free_func (offer_free);
  return need;
}

void
hs_day_need_offer (HsDayNeed *need, const char *supplier_id, gint64 unit_cents)
{
  HsDayOffer *offer = g_new0 (HsDayOffer, 1);

  offer->supplier_id = g_strdup (supplier_id);
  offer->unit_cents = unit_cents;
  g_ptr_array_add (need->offers, offer);
}

HsDayCounter *
hs_day_counter_new (void)
{
  HsDayCounter *counter = g_new0 (HsDayCounter, 1);

  counter->wanted = TRUE;
  counter->spans = g_array_new (FALSE, TRUE, sizeof (HsOpenSpan));
  return counter;
}

HsDayArea *
hs_day_area_new (void)
{
  return g_new0 (HsDayArea, 1);
}

HsDayRoad *
hs_day_road_new (void)
{
  return g_new0 (HsDayRoad, 1);
}

HsDayFacts *
hs_day_facts_new (GTimeZone *zone, HsDate day)
{
  HsDayFacts *facts = g_new0 (HsDayFacts, 1);

  facts->day = day;
  facts->zone = g_time_zone_ref (zone);
  facts->starts_at = hs_instant_from_local (zone, day, 0);
  facts->ends_at = hs_instant_from_local (zone, day, HS_MINUTES_PER_DAY);
  facts->travel = (HsTravelRules) HS_TRAVEL_RULES_INIT;
  facts->rules.leave_to = HS_MINUTES_PER_DAY;
  facts->rules.home_by = HS_MINUTES_PER_DAY;
  facts->calls = g_ptr_array_new_with_free_func (call_free);
  facts->needs = g_ptr_array_new_with_free_func (need_free);
  facts->counters = g_ptr_array_new_with_free_func (counter_free);
  facts->areas = g_ptr_array_new_with_free_func (area_free);
  facts->roads = g_ptr_array_new_with_free_func (road_free);
  facts->trips = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_own_trip_free);
  facts->shorts = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_day_short_free);
  facts->penciled = g_ptr_array_new_with_free_func (g_free);
  return facts;
}

void
hs_day_facts_free (HsDayFacts *facts)
{
  if (facts == NULL)
    return;
  g_free (facts->van_id);
  g_free (facts->van);
  g_free (facts->next_van);
  g_free (facts->rules.base_area);
  g_time_zone_unref (facts->zone);
  g_ptr_array_unref (facts->calls);
  g_ptr_array_unref (facts->needs);
  g_ptr_array_unref (facts->counters);
  g_ptr_array_unref (facts->areas);
  g_ptr_array_unref (facts->roads);
  g_ptr_array_unref (facts->trips);
  g_ptr_array_unref (facts->shorts);
  g_ptr_array_unref (facts->penciled);
  g_free (facts);
}

const char *
hs_day_call_place (const HsDayCall *call)
{
  return call->spot != NULL ? call->spot : call->area;
}

const HsDayArea *
hs_day_facts_find_area (const HsDayFacts *facts, const char *code)
{
  for (guint i = 0; code != NULL && i < facts->areas->len; i++)
    {
      const HsDayArea *area = g_ptr_array_index (facts->areas, i);

      if (g_str_equal (area->code, code))
        return area;
    }
  return NULL;
}

const HsDayCounter *
hs_day_facts_find_counter (const HsDayFacts *facts, const char *supplier_id)
{
  for (guint i = 0; supplier_id != NULL && i < facts->counters->len; i++)
    {
      const HsDayCounter *counter = g_ptr_array_index (facts->counters, i);

      if (g_str_equal (counter->supplier_id, supplier_id))
        return counter;
    }
  return NULL;
}

static gboolean
joins (const char *from, const char *to, const char *a, const char *b)
{
  return (g_str_equal (from, a) && g_str_equal (to, b)) || (g_str_equal (from, b) && g_str_equal (to, a));
}

gboolean
hs_day_facts_know_road (const HsDayFacts *facts, const char *a, const char *b)
{
  for (guint i = 0; i < facts->roads->len; i++)
    {
      const HsDayRoad *road = g_ptr_array_index (facts->roads, i);

      if (joins (road->from, road->to, a, b))
        return TRUE;
    }
  for (guint i = 0; i < facts->trips->len; i++)
    {
      const HsOwnTrip *trip = g_ptr_array_index (facts->trips, i);

      if (joins (trip->from, trip->to, a, b))
        return TRUE;
    }
  return FALSE;
}

static gboolean
sends_there (const HsDayFacts *facts, const char *supplier_id)
{
  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);

      if (need->source == HS_DAY_SOURCE_COUNTER && g_str_equal (need->supplier_id, supplier_id))
        return TRUE;
    }
  return FALSE;
}

void
hs_day_facts_want (HsDayFacts *facts)
{
  for (guint i = 0; i < facts->counters->len; i++)
    {
      HsDayCounter *counter = g_ptr_array_index (facts->counters, i);

      counter->wanted = sends_there (facts, counter->supplier_id);
    }
}

void
hs_day_facts_drop_unwanted (HsDayFacts *facts, GPtrArray *keep)
{
  for (guint i = facts->counters->len; i > 0; i--)
    {
      const HsDayCounter *counter = g_ptr_array_index (facts->counters, i - 1);

      if (!counter->wanted
          && (keep == NULL || !g_ptr_array_find_with_equal_func (keep, counter->supplier_id, g_str_equal, NULL)))
        g_ptr_array_remove_index (facts->counters, i - 1);
    }
}
