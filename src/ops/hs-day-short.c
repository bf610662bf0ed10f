// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Keep-levels of a van's stock. Use it where a day or its parts run is shown. What today's calls will take out of the
 * van is not counted: they may not need it. Reads only.
 */

#include "hs-day-short.h"

#include "hs-decimal.h"
#include "hs-part-row.h"
#include "hs-stock-row.h"
#include "hs-supplier-row.h"

#include <string.h>

static void
lister_free (gpointer data)
{
  HsDayLister *lister = data;

  g_free (lister->supplier_id);
  g_free (lister->supplier);
  g_free (lister);
}

HsDayShort *
hs_day_short_new (void)
{
  HsDayShort *lack = g_new0 (HsDayShort, 1);

  lack->listers = g_ptr_array_new_with_free_func (lister_free);
  return lack;
}

void
hs_day_short_free (HsDayShort *lack)
{
  if (lack == NULL)
    return;
  g_free (lack->stock_id);
  g_free (lack->part);
  g_free (lack->number);
  g_ptr_array_unref (lack->listers);
  g_free (lack);
}

static gboolean
comes_before (const HsDayLister *a, const HsDayLister *b)
{
  if (a->cost_cents != b->cost_cents)
    return a->cost_cents < b->cost_cents;
  return strcmp (a->supplier, b->supplier) < 0;
}

void
hs_day_short_list (HsDayShort *lack, const char *supplier_id, const char *supplier, gint64 cost_cents)
{
  HsDayLister *lister = g_new0 (HsDayLister, 1);
  guint at = 0;

  lister->supplier_id = g_strdup (supplier_id);
  lister->supplier = g_strdup (supplier);
  lister->cost_cents = cost_cents;
  while (at < lack->listers->len && !comes_before (lister, g_ptr_array_index (lack->listers, at)))
    at++;
  g_ptr_array_insert (lack->listers, (int) at, lister);
}

static gboolean
add_listers (HsDayShort *lack, HsStore *store, const char *part_id, GError **error)
{
  g_autoptr (GPtrArray) prices = NULL;

  if (!hs_price_row_list_latest (store, part_id, &prices, error))
    return FALSE;
  for (guint i = 0; i < prices->len; i++)
    {
      const HsPriceRow *price = g_ptr_array_index (prices, i);
      g_autoptr (HsSupplierRow) supplier = NULL;

      if (!hs_supplier_row_load (store, price->supplier_id, &supplier, error))
        return FALSE;
      hs_day_short_list (lack, price->supplier_id, supplier->name, price->cost_cents);
    }
  return TRUE;
}

static gboolean
add_short (GPtrArray *shorts, HsStore *store, const HsStockRow *stock, GError **error)
{
  gint64 left = MAX (0, stock->quantity_milli);
  g_autoptr (HsPartRow) part = NULL;
  HsDayShort *lack;

  if (stock->keep_milli <= left)
    return TRUE;
  if (!hs_part_row_load (store, stock->part_id, &part, error))
    return FALSE;
  lack = hs_day_short_new ();
  g_ptr_array_add (shorts, lack);
  lack->stock_id = g_strdup (stock->id);
  lack->part = g_strdup (part->name);
  lack->number = g_strdup (part->number);
  lack->quantity_milli = stock->keep_milli - left;
  lack->left_milli = left;
  lack->keep_milli = stock->keep_milli;
  lack->core_deposit_cents = part->core_deposit_cents;
  return add_listers (lack, store, stock->part_id, error);
}

gboolean
hs_day_short_load (HsStore *store, const char *van_id, GPtrArray **ret_shorts, GError **error)
{
  g_autoptr (GPtrArray) shorts = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_day_short_free);
  g_autoptr (GPtrArray) stock = NULL;

  if (!hs_stock_row_list (store, van_id, &stock, error))
    return FALSE;
  for (guint i = 0; i < stock->len; i++)
    if (!add_short (shorts, store, g_ptr_array_index (stock, i), error))
      return FALSE;
  *ret_shorts = g_steal_pointer (&shorts);
  return TRUE;
}

const HsDayLister *
hs_day_short_choose (const HsDayShort *lack, gboolean (*stops_there) (const char *supplier_id, gpointer user_data),
                     gpointer user_data)
{
  for (guint i = 0; i < lack->listers->len; i++)
    {
      const HsDayLister *lister = g_ptr_array_index (lack->listers, i);

      if (stops_there (lister->supplier_id, user_data))
        return lister;
    }
  return NULL;
}

gint64
hs_day_short_cents (const HsDayShort *lack, gint64 unit_cents)
{
  gint64 cents;

  if (unit_cents < 0 || !hs_ratio_half_up (unit_cents, lack->quantity_milli, 1000, &cents))
    return -1;
  return cents;
}
