// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Reads one day of one van, or of all, out of the book: the promised calls, the counters that their parts send the van
 * to, areas and drives, the owner's rules. Reads only; refuses a van and settings that the book does not have.
 */

#include "hs-day-facts.h"

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-day-drives.h"
#include "hs-day-source.h"
#include "hs-decimal.h"
#include "hs-geo.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-road-op.h"
#include "hs-settings-op.h"
#include "hs-supplier-row.h"
#include "hs-travel-op.h"
#include "hs-vehicle-name.h"
#include "hs-vehicle-row.h"
#include "hs-visit-row.h"

#include <string.h>

typedef struct
{
  HsBook *book;
  HsStore *store;
  HsDayFacts *facts;
  gboolean first_van;
  GPtrArray *keep;
  const char *extra_area;
  const HsDayInstead *instead;
  GPtrArray *suppliers;
  HsCounterHours *hours;
} HsLoad;

/* Where @letter is in @vans, or -1. */
static int
find_letter (const GPtrArray *vans, const char *letter)
{
  for (guint i = 0; letter != NULL && i < vans->len; i++)
    if (g_ascii_strcasecmp (((const HsVanRow *) g_ptr_array_index (vans, i))->letter, letter) == 0)
      return (int) i;
  return -1;
}

HsVanRow *
hs_day_find_van (HsBook *book, const char *letter, GError **error)
{
  g_autoptr (GPtrArray) vans = NULL;
  int at;

  if (!hs_van_row_list (hs_book_get_store (book), &vans, error))
    return NULL;
  at = find_letter (vans, letter != NULL ? letter : hs_book_get_van (book));
  if (at < 0 && letter == NULL && vans->len > 0)
    at = 0;
  if (at >= 0)
    return hs_van_row_copy (g_ptr_array_index (vans, (guint) at));
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND, "The book has no van “%s”", letter != NULL ? letter : "A");
  return NULL;
}

static gboolean
is_kept (const HsLoad *load, const char *id)
{
  return load->keep != NULL && g_ptr_array_find_with_equal_func (load->keep, id, g_str_equal, NULL);
}

/* Settings --------------------------------------------------------------------------------------------------------- */

static gboolean
load_clock (HsLoad *load, const char *key, int *ret_minutes, GError **error)
{
  g_autofree char *text = hs_settings_dup_of_van (load->book, load->facts->van, key, error);

  if (text == NULL)
    return FALSE;
  if (*text == '\0')
    return TRUE;
  if (hs_clock_parse (text, ret_minutes, error))
    return TRUE;
  g_prefix_error (error, "%s: ", key);
  return FALSE;
}

static gboolean
load_break (HsLoad *load, HsDayRules *rules, GError **error)
{
  g_autofree char *minutes = hs_settings_dup_of_van (load->book, load->facts->van, "break_minutes", error);

  return minutes != NULL && hs_decimal_parse (minutes, 0, &rules->break_minutes, error)
         && load_clock (load, "break_from", &rules->break_from, error)
         && load_clock (load, "break_to", &rules->break_to, error);
}

static gboolean
check_rules (const HsDayRules *rules, GError **error)
{
  if (rules->leave_from > rules->leave_to)
    {
      g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                   "leave_from lies after leave_to: set one of them so that the van can leave");
      return FALSE;
    }
  if (rules->break_minutes > 0 && rules->break_to - rules->break_from < rules->break_minutes)
    {
      g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                   "A break of %d min does not fit between break_from and break_to: set one of the three",
                   (int) rules->break_minutes);
      return FALSE;
    }
  return TRUE;
}

static gboolean
load_rules (HsLoad *load, HsDayRules *rules, GError **error)
{
  HsBook *book = load->book;
  gint64 spare_minutes = 0;

  rules->base_area = hs_settings_dup (book, "base_area", error);
  if (rules->base_area == NULL || !load_clock (load, "leave_from", &rules->leave_from, error)
      || !load_clock (load, "leave_to", &rules->leave_to, error)
      || !load_clock (load, "home_by", &rules->home_by, error) || !load_break (load, rules, error)
      || !hs_settings_get_int (book, "spare_minutes", &spare_minutes, error)
      || !hs_settings_get_int (book, "minute_cents", &rules->minute_cents, error)
      || !hs_settings_get_int (book, "mile_cents", &rules->mile_cents, error))
    return FALSE;
  rules->spare_seconds = 60 * spare_minutes;
  return check_rules (rules, error);
}

/* Calls ------------------------------------------------------------------------------------------------------------ */

static void
set_position (HsDayCall *call, double latitude, double longitude)
{
  call->has_position = TRUE;
  call->latitude = latitude;
  call->longitude = longitude;
}

/* Where the job says that it is; else where its customer is, unless the job is in another area or street. */
static void
place_call (HsDayCall *call, const HsJobRow *job, const HsCustomerRow *customer)
{
  HsGeo geo;

  if (job->street != NULL && hs_geo_is_meant (job->street) && hs_geo_parse (job->street, &geo, NULL))
    set_position (call, geo.latitude, geo.longitude);
  else if ((job->area_id == NULL || g_strcmp0 (job->area_id, customer->area_id) == 0)
           && (job->street == NULL || g_strcmp0 (job->street, customer->street) == 0)
           && !isnan (customer->lat) && !isnan (customer->lon))
    set_position (call, customer->lat, customer->lon);
}

static gboolean
fill_customer (HsLoad *load, HsDayCall *call, const HsJobRow *job, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (!hs_customer_row_load (load->store, job->customer_id, &customer, error))
    return FALSE;
  place_call (call, job, customer);
  call->customer = g_strdup (customer->name);
  if (call->access_note == NULL)
    call->access_note = g_strdup (customer->access_note);
  return TRUE;
}

static gboolean
fill_vehicle (HsLoad *load, HsDayCall *call, const char *vehicle_id, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (vehicle_id == NULL)
    return TRUE;
  if (!hs_vehicle_row_load (load->store, vehicle_id, &vehicle, error))
    return FALSE;
  call->plate = g_strdup (vehicle->plate);
  call->vehicle = hs_vehicle_name (vehicle);
  call->high_voltage = vehicle->high_voltage;
  return TRUE;
}

static gboolean
add_call (HsLoad *load, const HsJobRow *job, HsStage stage, GError **error)
{
  HsDayCall *call = hs_day_call_new ();

  g_ptr_array_add (load->facts->calls, call);
  call->job_id = g_strdup (job->id);
  call->number = g_strdup (job->number);
  call->area = g_strdup (job->area_id);
  call->words = g_strdup (job->words);
  call->access_note = g_strdup (job->access_note);
  call->van_id = g_strdup (job->van_id);
  call->stage = stage;
  call->window_from = job->window_from;
  call->window_to = job->window_to;
  call->assumed = job->guess_seconds == HS_INT_NONE || job->guess_seconds == 0;
  if (!call->assumed)
    call->service_seconds = job->guess_seconds;
  return fill_customer (load, call, job, error) && fill_vehicle (load, call, job->vehicle_id, error);
}

/* What was called off is not driven to, nor was it, unless somebody got there; also once its fee is squared up. */
static gboolean
find_driven (HsLoad *load, const HsJobRow *job, HsStage stage, gboolean *ret_driven, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;

  *ret_driven = stage > HS_STAGE_PROMISED && stage <= HS_STAGE_CALLED_OFF && is_kept (load, job->id);
  if (!*ret_driven || !hs_job_row_is_called_off (job))
    return TRUE;
  if (!hs_visit_row_list_of (load->store, job->id, &visits, error))
    return FALSE;
  *ret_driven = FALSE;
  for (guint i = 0; i < visits->len; i++)
    *ret_driven |= ((HsVisitRow *) g_ptr_array_index (visits, i))->arrived_at != HS_INSTANT_NONE;
  return TRUE;
}

static gboolean
load_job (HsLoad *load, const HsJobRow *job, GError **error)
{
  gboolean driven;
  HsStage stage;

  if (!hs_stage_parse (job->stage, &stage, error))
    return FALSE;
  if (job->van_id == NULL && !load->first_van)
    return TRUE;
  if (stage == HS_STAGE_PENCILED)
    g_ptr_array_add (load->facts->penciled, g_strdup (job->number));
  if (!find_driven (load, job, stage, &driven, error))
    return FALSE;
  return !(driven || stage == HS_STAGE_PROMISED) || add_call (load, job, stage, error);
}

static int
compare_calls (gconstpointer a, gconstpointer b)
{
  const HsDayCall *left = *(HsDayCall *const *) a;
  const HsDayCall *right = *(HsDayCall *const *) b;
  HsInstant left_from = left->window_from != HS_INSTANT_NONE ? left->window_from : G_MAXINT64;
  HsInstant right_from = right->window_from != HS_INSTANT_NONE ? right->window_from : G_MAXINT64;

  if (left_from != right_from)
    return left_from < right_from ? -1 : 1;
  return strcmp (left->number, right->number);
}

static gboolean
load_calls (HsLoad *load, GError **error)
{
  g_autoptr (GPtrArray) jobs = NULL;

  if (!hs_job_row_list_day (load->store, load->facts->day, load->facts->van_id, &jobs, error))
    return FALSE;
  for (guint i = 0; i < jobs->len; i++)
    if (!load_job (load, g_ptr_array_index (jobs, i), error))
      return FALSE;
  g_ptr_array_sort (load->facts->calls, compare_calls);
  return TRUE;
}

/* Counters --------------------------------------------------------------------------------------------------------- */

/* Whether a need is, or might be, fetched there. */
static gboolean
has_part (const HsDayFacts *facts, const char *supplier_id)
{
  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);

      if (need->source == HS_DAY_SOURCE_COUNTER && g_str_equal (need->supplier_id, supplier_id))
        return TRUE;
      for (guint k = 0; k < need->offers->len; k++)
        if (g_str_equal (((const HsDayOffer *) g_ptr_array_index (need->offers, k))->supplier_id, supplier_id))
          return TRUE;
    }
  return FALSE;
}

static void
add_counter (HsLoad *load, const HsSupplierRow *supplier)
{
  HsDayCounter *counter = hs_day_counter_new ();

  counter->supplier_id = g_strdup (supplier->id);
  counter->name = g_strdup (supplier->name);
  counter->area = g_strdup (supplier->area_id);
  counter->stop_seconds = supplier->stop_seconds;
  counter->apart = hs_counter_hours_fill (load->hours, supplier->id, counter->spans, &counter->shut, &counter->words);
  g_ptr_array_add (load->facts->counters, counter);
}

static int
compare_counters (gconstpointer a, gconstpointer b)
{
  const HsDayCounter *left = *(HsDayCounter *const *) a;
  const HsDayCounter *right = *(HsDayCounter *const *) b;

  return strcmp (left->name, right->name);
}

static void
choose_counters (HsLoad *load)
{
  for (guint i = 0; i < load->suppliers->len; i++)
    {
      const HsSupplierRow *supplier = g_ptr_array_index (load->suppliers, i);

      if (has_part (load->facts, supplier->id) || is_kept (load, supplier->id))
        add_counter (load, supplier);
    }
  g_ptr_array_sort (load->facts->counters, compare_counters);
  hs_day_facts_want (load->facts);
}

/* Areas and roads -------------------------------------------------------------------------------------------------- */

static gboolean
load_areas (HsLoad *load, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_area_row_list (load->store, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAreaRow *row = g_ptr_array_index (rows, i);
      HsDayArea *area = hs_day_area_new ();

      area->code = g_strdup (row->id);
      area->name = g_strdup (row->name);
      area->signal = g_strdup (row->signal);
      area->has_position = !isnan (row->lat) && !isnan (row->lon);
      area->latitude = area->has_position ? row->lat : 0;
      area->longitude = area->has_position ? row->lon : 0;
      g_ptr_array_add (load->facts->areas, area);
    }
  return TRUE;
}

/* A position that the base or a new call stands at is an area for this day, whether or not the book has it as one. */
static void
add_position (HsDayFacts *facts, const char *text)
{
  HsDayArea *area;
  HsGeo geo;

  if (text == NULL || hs_day_facts_find_area (facts, text) != NULL || !hs_geo_is_meant (text)
      || !hs_geo_parse (text, &geo, NULL))
    return;
  area = hs_day_area_new ();
  area->code = g_strdup (text);
  area->name = hs_geo_format (geo.latitude, geo.longitude);
  area->has_position = TRUE;
  area->latitude = geo.latitude;
  area->longitude = geo.longitude;
  g_ptr_array_add (facts->areas, area);
}

/* The position of a call is a place of the day, in its area if it has one. */
static void
add_spot (HsDayFacts *facts, HsDayCall *call)
{
  g_autofree char *position = hs_geo_format (call->latitude, call->longitude);
  const HsDayArea *area = hs_day_facts_find_area (facts, call->area);
  HsDayArea *spot;

  if (area != NULL && area->has_position && area->latitude == call->latitude && area->longitude == call->longitude)
    return;
  call->spot = call->area != NULL ? g_strdup_printf ("%s@%s", call->area, position) : g_strdup (position);
  if (call->area == NULL)
    call->area = g_strdup (position);
  if (hs_day_facts_find_area (facts, call->spot) != NULL)
    return;
  spot = hs_day_area_new ();
  spot->code = g_strdup (call->spot);
  spot->name = area != NULL ? g_strdup_printf ("%s (%s)", area->name, position) : g_strdup (position);
  spot->within = area != NULL ? g_strdup (call->area) : NULL;
  spot->has_position = TRUE;
  spot->latitude = call->latitude;
  spot->longitude = call->longitude;
  g_ptr_array_add (facts->areas, spot);
}

static void
add_spots (HsDayFacts *facts)
{
  for (guint i = 0; i < facts->calls->len; i++)
    if (((HsDayCall *) g_ptr_array_index (facts->calls, i))->has_position)
      add_spot (facts, g_ptr_array_index (facts->calls, i));
}

static gboolean
load_roads (HsLoad *load, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_travel_row_list (load->store, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsTravelRow *row = g_ptr_array_index (rows, i);
      HsDayRoad *road = hs_day_road_new ();

      road->from = g_strdup (row->from_id);
      road->to = g_strdup (row->to_id);
      road->seconds = row->seconds;
      road->millimiles = row->millimiles;
      road->samples = (guint) row->samples;
      g_ptr_array_add (load->facts->roads, road);
    }
  return TRUE;
}

static gboolean
load_trips (HsLoad *load, HsBook *book, GError **error)
{
  g_autoptr (GPtrArray) trips = NULL;

  if (!hs_own_trip_list (book, &trips, error))
    return FALSE;
  g_ptr_array_unref (load->facts->trips);
  load->facts->trips = g_steal_pointer (&trips);
  return TRUE;
}

static gboolean
load_shorts (HsLoad *load, GError **error)
{
  g_autoptr (GPtrArray) shorts = NULL;

  if (load->facts->van_id == NULL)
    return TRUE;
  if (!hs_day_short_load (load->store, load->facts->van_id, &shorts, error))
    return FALSE;
  g_ptr_array_unref (load->facts->shorts);
  load->facts->shorts = g_steal_pointer (&shorts);
  return TRUE;
}

static GPtrArray *
used_areas (const HsLoad *load)
{
  GPtrArray *codes = g_ptr_array_new ();

  g_ptr_array_add (codes, load->facts->rules.base_area);
  if (load->extra_area != NULL)
    g_ptr_array_add (codes, (char *) load->extra_area);
  for (guint i = 0; i < load->facts->calls->len; i++)
    {
      const HsDayCall *call = g_ptr_array_index (load->facts->calls, i);

      if (call->area != NULL)
        g_ptr_array_add (codes, call->area);
      if (call->spot != NULL)
        g_ptr_array_add (codes, call->spot);
    }
  for (guint i = 0; i < load->facts->counters->len; i++)
    if (((HsDayCounter *) g_ptr_array_index (load->facts->counters, i))->area != NULL)
      g_ptr_array_add (codes, ((HsDayCounter *) g_ptr_array_index (load->facts->counters, i))->area);
  return codes;
}

static gboolean
locate_area (HsLoad *load, HsDayArea *area, GError **error)
{
  double latitude, longitude;

  if (area == NULL || area->has_position)
    return TRUE;
  if (!hs_customer_row_middle (load->store, area->code, &latitude, &longitude, error))
    return FALSE;
  area->has_position = !isnan (latitude);
  area->latitude = area->has_position ? latitude : 0;
  area->longitude = area->has_position ? longitude : 0;
  return TRUE;
}

static void
add_driven (HsLoad *load, const HsRoadBook *roads, const HsDayArea *from, const HsDayArea *to)
{
  HsTravelPair pair;
  HsDayRoad *road;

  if (from == NULL || to == NULL || from == to || !from->has_position || !to->has_position
      || !hs_road_book_find (roads, from->latitude, from->longitude, to->latitude, to->longitude, &pair))
    return;
  road = hs_day_road_new ();
  road->from = g_strdup (from->code);
  road->to = g_strdup (to->code);
  road->seconds = pair.seconds;
  road->millimiles = pair.millimiles;
  road->source = HS_TRAVEL_ROADS;
  g_ptr_array_add (load->facts->roads, road);
}

/* What the book has kept of drives over roads between the areas of the day. */
static gboolean
load_driven (HsLoad *load, HsBook *book, GError **error)
{
  g_autoptr (HsRoadBook) roads = hs_road_book_load (book, error);
  g_autoptr (GPtrArray) codes = used_areas (load);

  if (roads == NULL)
    return FALSE;
  if (hs_road_book_is_empty (roads))
    return TRUE;
  for (guint i = 0; i < codes->len; i++)
    if (!locate_area (load, (HsDayArea *) hs_day_facts_find_area (load->facts, g_ptr_array_index (codes, i)), error))
      return FALSE;
  for (guint i = 0; i < codes->len; i++)
    for (guint j = 0; j < codes->len; j++)
      add_driven (load, roads, hs_day_facts_find_area (load->facts, g_ptr_array_index (codes, i)),
                  hs_day_facts_find_area (load->facts, g_ptr_array_index (codes, j)));
  return TRUE;
}

/* An area without a position of its own lies amid its customers; asked only where a road has to be guessed. */
static gboolean
locate_areas (HsLoad *load, GError **error)
{
  g_autoptr (GPtrArray) codes = used_areas (load);

  for (guint i = 0; i < codes->len; i++)
    for (guint j = 0; j < codes->len; j++)
      {
        const char *a = g_ptr_array_index (codes, i);
        const char *b = g_ptr_array_index (codes, j);

        if (g_str_equal (a, b) || hs_day_drives_known (load->facts, a, b))
          continue;
        if (!locate_area (load, (HsDayArea *) hs_day_facts_find_area (load->facts, a), error))
          return FALSE;
      }
  return TRUE;
}

static void
buy_instead (HsDayFacts *facts, const HsDayInstead *instead)
{
  for (guint i = 0; i < facts->needs->len; i++)
    {
      HsDayNeed *need = g_ptr_array_index (facts->needs, i);

      if (!g_str_equal (need->id, instead->need_id))
        continue;
      g_free (need->supplier_id);
      need->source = HS_DAY_SOURCE_COUNTER;
      need->supplier_id = g_strdup (instead->supplier_id);
      need->unit_cents = instead->unit_cents;
      g_ptr_array_set_size (need->offers, 0);
    }
}

static gboolean
load_counters (HsLoad *load, GError **error)
{
  if (!hs_supplier_row_list (load->store, &load->suppliers, error))
    return FALSE;
  load->hours = hs_counter_hours_load (load->store, load->facts->day, error);
  if (load->hours == NULL || !hs_day_load_needs (load->store, load->facts, load->suppliers, load->hours, error))
    return FALSE;
  if (load->instead != NULL)
    buy_instead (load->facts, load->instead);
  return TRUE;
}

static gboolean
load_all (HsLoad *load, HsBook *book, GError **error)
{
  if (!load_rules (load, &load->facts->rules, error)
      || !hs_travel_rules_load (book, &load->facts->travel, error) || !load_calls (load, error)
      || !load_counters (load, error))
    return FALSE;
  choose_counters (load);
  if (!load_areas (load, error) || !load_roads (load, error) || !load_trips (load, book, error)
      || !load_shorts (load, error))
    return FALSE;
  add_spots (load->facts);
  add_position (load->facts, load->facts->rules.base_area);
  add_position (load->facts, load->extra_area);
  return load_driven (load, book, error) && locate_areas (load, error);
}

static void
load_clear (HsLoad *load)
{
  g_clear_pointer (&load->suppliers, g_ptr_array_unref);
  g_clear_pointer (&load->hours, hs_counter_hours_free);
}

HsDayFacts *
hs_day_facts_load (HsBook *book, HsDate day, const HsVanRow *van, GPtrArray *keep, const char *extra_area,
                   const HsDayInstead *instead, GError **error)
{
  g_autoptr (HsDayFacts) facts = hs_day_facts_new (hs_book_get_zone (book), day);
  g_autoptr (GPtrArray) vans = NULL;
  HsLoad load = { book, hs_book_get_store (book), facts, FALSE, keep, extra_area, instead };
  gboolean loaded;
  guint at;

  if (!hs_van_row_list (load.store, &vans, error))
    return NULL;
  at = van != NULL ? (guint) MAX (0, find_letter (vans, van->letter)) : 0;
  load.first_van = at == 0;
  facts->van_id = van != NULL ? g_strdup (van->id) : NULL;
  facts->van = van != NULL ? g_strdup (van->letter) : NULL;
  if (van != NULL && vans->len > 1)
    facts->next_van = g_strdup (((const HsVanRow *) g_ptr_array_index (vans, (at + 1) % vans->len))->letter);
  loaded = load_all (&load, book, error);
  load_clear (&load);
  return loaded ? g_steal_pointer (&facts) : NULL;
}
