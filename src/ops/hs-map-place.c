// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The places of a book for a map. Reads only. What has no position is not there; nothing is refused.
 */

#include "hs-map-place.h"

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-geo.h"
#include "hs-settings-op.h"
#include "hs-supplier-row.h"

#include <math.h>

typedef struct
{
  HsStore *store;
  GPtrArray *places;
  GHashTable *by_code; /* code → HsMapPlace of that area, borrowed */
  GError **error;
} Chart;

void
hs_map_place_free (HsMapPlace *place)
{
  if (place == NULL)
    return;
  g_free (place->code);
  g_free (place->name);
  g_free (place);
}

static HsMapPlace *
add (Chart *chart, HsMapKind kind, const char *code, const char *name, double latitude, double longitude)
{
  HsMapPlace *place = g_new0 (HsMapPlace, 1);

  place->kind = kind;
  place->code = g_strdup (code);
  place->name = g_strdup (name);
  place->latitude = latitude;
  place->longitude = longitude;
  g_ptr_array_add (chart->places, place);
  return place;
}

static gboolean
add_areas (Chart *chart, const char *base)
{
  g_autoptr (GPtrArray) areas = NULL;

  if (!hs_area_row_list (chart->store, &areas, chart->error))
    return FALSE;
  for (guint i = 0; i < areas->len; i++)
    {
      const HsAreaRow *area = g_ptr_array_index (areas, i);
      double latitude = area->lat, longitude = area->lon;
      HsMapKind kind = g_strcmp0 (area->id, base) == 0 ? HS_MAP_BASE : HS_MAP_AREA;

      if (isnan (latitude) && !hs_customer_row_middle (chart->store, area->id, &latitude, &longitude, chart->error))
        return FALSE;
      if (!isnan (latitude) && !isnan (longitude))
        g_hash_table_insert (chart->by_code, g_strdup (area->id),
                             add (chart, kind, area->id, area->name, latitude, longitude));
    }
  return TRUE;
}

static gboolean
add_counters (Chart *chart)
{
  g_autoptr (GPtrArray) suppliers = NULL;

  if (!hs_supplier_row_list (chart->store, &suppliers, chart->error))
    return FALSE;
  for (guint i = 0; i < suppliers->len; i++)
    {
      const HsSupplierRow *supplier = g_ptr_array_index (suppliers, i);
      HsMapPlace *area = supplier->area_id == NULL ? NULL : g_hash_table_lookup (chart->by_code, supplier->area_id);

      if (area == NULL)
        continue;
      add (chart, HS_MAP_COUNTER, area->code, supplier->name, area->latitude, area->longitude);
      if (area->kind != HS_MAP_AREA || !g_str_equal (area->name, area->code))
        continue;
      g_hash_table_replace (chart->by_code, g_strdup (area->code),
                            g_ptr_array_index (chart->places, chart->places->len - 1));
      g_ptr_array_remove (chart->places, area);
    }
  return TRUE;
}

static gboolean
add_customers (Chart *chart)
{
  g_autoptr (GPtrArray) customers = NULL;

  if (!hs_customer_row_list (chart->store, &customers, chart->error))
    return FALSE;
  for (guint i = 0; i < customers->len; i++)
    {
      const HsCustomerRow *customer = g_ptr_array_index (customers, i);
      g_autofree char *code = NULL;

      if (isnan (customer->lat) || isnan (customer->lon))
        continue;
      code = hs_geo_format (customer->lat, customer->lon);
      add (chart, HS_MAP_CUSTOMER, code, customer->name, customer->lat, customer->lon);
    }
  return TRUE;
}

GPtrArray *
hs_map_places (HsBook *book, GError **error)
{
  g_autoptr (GPtrArray) places = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_map_place_free);
  g_autoptr (GHashTable) by_code = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *base = hs_settings_dup (book, "base_area", error);
  Chart chart = { hs_book_get_store (book), places, by_code, error };

  if (base == NULL || !add_areas (&chart, base) || !add_counters (&chart) || !add_customers (&chart))
    return NULL;
  return g_steal_pointer (&places);
}
