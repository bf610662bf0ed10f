// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Where each part of a day comes from. A need with a supplier of its own goes there. One without takes the van's stock
 * while some is free, in the order of the calls; then the counter that is cheapest and open on that day, until a plan
 * chooses another of those that are; then the cheapest that is shut, so that the plan can say so; then nowhere. Reads
 * only.
 */

#include "hs-day-source.h"

#include "hs-need-row.h"
#include "hs-part-row.h"
#include "hs-stock-row.h"
#include "hs-supplier-row.h"

#include <string.h>

typedef struct
{
  HsStore *store;
  HsDayFacts *facts;
  GPtrArray *suppliers;
  const HsCounterHours *hours;
  GPtrArray *stock;
} HsSources;

static const HsSupplierRow *
find_supplier (const HsSources *sources, const char *id)
{
  for (guint i = 0; i < sources->suppliers->len; i++)
    {
      const HsSupplierRow *supplier = g_ptr_array_index (sources->suppliers, i);

      if (g_str_equal (supplier->id, id))
        return supplier;
    }
  return NULL;
}

/* Open before shut, then cheaper, then by name. */
static gboolean
is_better_counter (const HsSources *sources, const HsPriceRow *price, const HsPriceRow *best)
{
  gboolean open, best_open;

  if (best == NULL)
    return TRUE;
  open = hs_counter_hours_is_open (sources->hours, price->supplier_id);
  best_open = hs_counter_hours_is_open (sources->hours, best->supplier_id);
  if (open != best_open)
    return open;
  if (price->cost_cents != best->cost_cents)
    return price->cost_cents < best->cost_cents;
  return strcmp (find_supplier (sources, price->supplier_id)->name, find_supplier (sources, best->supplier_id)->name)
         < 0;
}

static gboolean
take_from_counter (HsSources *sources, HsDayNeed *need, GError **error)
{
  g_autoptr (GPtrArray) prices = NULL;
  const HsPriceRow *best = NULL;

  if (!hs_price_row_list_latest (sources->store, need->part_id, &prices, error))
    return FALSE;
  for (guint i = 0; i < prices->len; i++)
    {
      const HsPriceRow *price = g_ptr_array_index (prices, i);
      gboolean fits = need->supplier_id == NULL || g_str_equal (need->supplier_id, price->supplier_id);

      if (fits && is_better_counter (sources, price, best))
        best = price;
      if (need->supplier_id == NULL && hs_counter_hours_is_open (sources->hours, price->supplier_id))
        hs_day_need_offer (need, price->supplier_id, need->unit_cents >= 0 ? need->unit_cents : price->cost_cents);
    }
  if (best != NULL && need->unit_cents < 0)
    need->unit_cents = best->cost_cents;
  if (best != NULL && need->supplier_id == NULL)
    need->supplier_id = g_strdup (best->supplier_id);
  need->source = need->supplier_id != NULL ? HS_DAY_SOURCE_COUNTER : HS_DAY_SOURCE_NOWHERE;
  return TRUE;
}

gboolean
hs_day_source_take (GPtrArray *stock, const HsDayNeed *need)
{
  for (guint i = 0; i < stock->len; i++)
    {
      HsStockRow *row = g_ptr_array_index (stock, i);

      if (!g_str_equal (row->part_id, need->part_id) || row->quantity_milli < need->quantity_milli)
        continue;
      row->quantity_milli -= need->quantity_milli;
      return TRUE;
    }
  return FALSE;
}

static gboolean
add_need (HsSources *sources, const HsNeedRow *row, guint call, GError **error)
{
  g_autoptr (HsPartRow) part = NULL;
  HsDayNeed *need;

  if (!hs_part_row_load (sources->store, row->part_id, &part, error))
    return FALSE;
  need = hs_day_need_new ();
  g_ptr_array_add (sources->facts->needs, need);
  need->id = g_strdup (row->id);
  need->call = call;
  need->part_id = g_strdup (row->part_id);
  need->part = g_strdup (part->name);
  need->number = g_strdup (part->number);
  need->quantity_milli = row->quantity_milli;
  need->sure_percent = (int) row->sure_percent;
  need->state = g_strdup (row->state);
  need->supplier_id = g_strdup (row->supplier_id);
  need->unit_cents = row->quoted_cents != HS_INT_NONE ? row->quoted_cents : -1;
  need->core_deposit_cents = part->core_deposit_cents;
  need->source = HS_DAY_SOURCE_VAN;
  if (g_str_equal (row->state, "in_the_van")
      || (need->supplier_id == NULL && hs_day_source_take (sources->stock, need)))
    return TRUE;
  return take_from_counter (sources, need, error);
}

static gboolean
is_wanted (const char *state)
{
  static const char *const states[] = { "wanted", "asked_for", "laid_aside", "in_the_van", NULL };

  return g_strv_contains (states, state);
}

static gboolean
add_needs (HsSources *sources, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_need_row_list_day (sources->store, sources->facts->day, &rows, error))
    return FALSE;
  for (guint call = 0; call < sources->facts->calls->len; call++)
    {
      const HsDayCall *owner = g_ptr_array_index (sources->facts->calls, call);

      for (guint i = 0; i < rows->len; i++)
        {
          const HsNeedRow *row = g_ptr_array_index (rows, i);

          if (g_str_equal (row->job_id, owner->job_id) && is_wanted (row->state)
              && !add_need (sources, row, call, error))
            return FALSE;
        }
    }
  return TRUE;
}

gboolean
hs_day_load_needs (HsStore *store, HsDayFacts *facts, GPtrArray *suppliers, const HsCounterHours *hours,
                   GError **error)
{
  g_autoptr (GPtrArray) stock = NULL;
  HsSources sources = { store, facts, suppliers, hours, NULL };

  if (facts->van_id == NULL)
    stock = g_ptr_array_new ();
  else if (!hs_stock_row_list (store, facts->van_id, &stock, error))
    return FALSE;
  sources.stock = stock;
  return add_needs (&sources, error);
}
