// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of parts, their prices at the counters, and the stock of the vans. A quantity in a file is what was counted;
 * the difference to the book is kept as a count. Refuses a van that the book does not have.
 */

#include "hs-import-row.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"
#include "hs-stock-row.h"

enum
{
  PART_NUMBER,
  PART_NAME,
  PART_KIND,
  PART_MONTHS,
  PART_MILES,
  PART_DEPOSIT,
};

static const HsImportColumn part_columns[] = {
  [PART_NUMBER] = { "number", HS_IMPORT_TEXT, TRUE },
  [PART_NAME] = { "name", HS_IMPORT_TEXT, TRUE },
  [PART_KIND] = { "kind", HS_IMPORT_TEXT },
  [PART_MONTHS] = { "warranty_months", HS_IMPORT_WHOLE, FALSE, 0, 1200 },
  [PART_MILES] = { "warranty_miles", HS_IMPORT_THOUSANDTHS, FALSE, 0, G_GINT64_CONSTANT (10000000000) },
  [PART_DEPOSIT] = { "core_deposit", HS_IMPORT_MONEY },
};

static gboolean
fill_part (HsImportRun *run, HsPartRow *part)
{
  const HsImportValue *values = run->values;
  gboolean changed = hs_import_set_text (&part->number, &values[PART_NUMBER]);

  changed |= hs_import_set_text (&part->name, &values[PART_NAME]);
  changed |= hs_import_set_text (&part->kind, &values[PART_KIND]);
  changed |= hs_import_set_number (&part->warranty_months, &values[PART_MONTHS]);
  changed |= hs_import_set_number (&part->warranty_millimiles, &values[PART_MILES]);
  changed |= hs_import_set_number (&part->core_deposit_cents, &values[PART_DEPOSIT]);
  return changed;
}

static HsImportOutcome
save_part (HsImportRun *run)
{
  g_autoptr (HsPartRow) part = NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  if (!hs_import_claim (run, PART_NUMBER, g_strdup (run->values[PART_NUMBER].text)))
    return HS_IMPORT_BAD;
  is_new = !hs_part_row_find (run->store, run->values[PART_NUMBER].text, &part, &error);
  if (!hs_import_only_missing (run, PART_NUMBER, &error))
    return HS_IMPORT_BAD;
  if (is_new)
    part = hs_part_row_new ();
  changed = fill_part (run, part);
  if (changed)
    hs_part_row_save (run->store, part, &error);
  return hs_import_outcome (run, is_new, changed, error);
}

const HsImportKind hs_import_parts = { "parts", part_columns, G_N_ELEMENTS (part_columns), save_part };

enum
{
  PRICE_SUPPLIER,
  PRICE_PART,
  PRICE_COST,
  PRICE_SEEN_ON,
};

static const HsImportColumn price_columns[] = {
  [PRICE_SUPPLIER] = { "supplier", HS_IMPORT_TEXT, TRUE },
  [PRICE_PART] = { "part", HS_IMPORT_TEXT, TRUE },
  [PRICE_COST] = { "cost", HS_IMPORT_MONEY, TRUE },
  [PRICE_SEEN_ON] = { "seen_on", HS_IMPORT_DATE },
};

/* The price of that counter and day; without a day the newest of that counter. */
static const HsPriceRow *
pick_price (GPtrArray *prices, const char *supplier_id, const HsImportValue *day)
{
  const HsPriceRow *picked = NULL;

  for (guint i = 0; i < prices->len; i++)
    {
      const HsPriceRow *price = g_ptr_array_index (prices, i);

      if (!g_str_equal (price->supplier_id, supplier_id))
        continue;
      if (day->given ? price->seen_on == (HsDate) day->number : picked == NULL || price->seen_on >= picked->seen_on)
        picked = price;
    }
  return picked;
}

static HsImportOutcome
save_price_row (HsImportRun *run, const char *supplier_id, const char *part_id, const HsPriceRow *known)
{
  const HsImportValue *day = &run->values[PRICE_SEEN_ON];
  gint64 cost_cents = run->values[PRICE_COST].number;
  HsDate seen_on = day->given ? (HsDate) day->number : run->today;
  gboolean is_new = known == NULL || known->seen_on != seen_on;
  g_autoptr (HsPriceRow) price = NULL;
  GError *error = NULL;

  if (known != NULL && known->cost_cents == cost_cents)
    return HS_IMPORT_UNCHANGED;
  price = is_new ? hs_price_row_new () : hs_price_row_copy (known);
  hs_row_set (&price->supplier_id, supplier_id);
  hs_row_set (&price->part_id, part_id);
  price->seen_on = seen_on;
  price->cost_cents = cost_cents;
  hs_price_row_save (run->store, price, &error);
  return hs_import_outcome (run, is_new, TRUE, error);
}

static HsImportOutcome
save_price (HsImportRun *run)
{
  const HsImportValue *values = run->values;
  g_autofree char *supplier_id = NULL;
  g_autofree char *part_id = NULL;
  g_autoptr (GPtrArray) prices = NULL;
  GError *error = NULL;

  if (!hs_import_find_supplier (run, PRICE_SUPPLIER, &supplier_id) | !hs_import_find_part (run, PRICE_PART, &part_id))
    return HS_IMPORT_BAD;
  if (!hs_import_claim (run, PRICE_COST,
                        g_strdup_printf ("%s\n%s\n%s", supplier_id, part_id, values[PRICE_SEEN_ON].text)))
    return HS_IMPORT_BAD;
  if (!hs_price_row_list_of (run->store, part_id, &prices, &error))
    return hs_import_fault_error (run, PRICE_PART, error);
  return save_price_row (run, supplier_id, part_id, pick_price (prices, supplier_id, &values[PRICE_SEEN_ON]));
}

const HsImportKind hs_import_prices = { "prices", price_columns, G_N_ELEMENTS (price_columns), save_price };

enum
{
  STOCK_VAN,
  STOCK_PART,
  STOCK_QUANTITY,
  STOCK_KEEP,
  STOCK_BIN,
};

#define MOST_PIECES G_GINT64_CONSTANT (1000000000)

static const HsImportColumn stock_columns[] = {
  [STOCK_VAN] = { "van", HS_IMPORT_TEXT, TRUE },
  [STOCK_PART] = { "part", HS_IMPORT_TEXT, TRUE },
  [STOCK_QUANTITY] = { "quantity", HS_IMPORT_THOUSANDTHS, TRUE, 0, MOST_PIECES },
  [STOCK_KEEP] = { "keep", HS_IMPORT_THOUSANDTHS, FALSE, 0, MOST_PIECES },
  [STOCK_BIN] = { "bin", HS_IMPORT_TEXT },
};

static gboolean
count_stock (HsImportRun *run, const HsStockRow *stock, GError **error)
{
  g_autoptr (HsStockMoveRow) move = hs_stock_move_row_new ();

  hs_row_set (&move->van_id, stock->van_id);
  hs_row_set (&move->part_id, stock->part_id);
  hs_row_set (&move->why, "count_fix");
  move->quantity_milli = run->values[STOCK_QUANTITY].number - stock->quantity_milli;
  move->at = run->now;
  return hs_stock_move_row_save (run->store, move, error);
}

static HsImportOutcome
save_stock_row (HsImportRun *run, const char *van_id, const char *part_id)
{
  const HsImportValue *values = run->values;
  g_autoptr (HsStockRow) stock = NULL;
  GError *error = NULL;
  gboolean is_new, changed, counted;

  is_new = !hs_stock_row_find (run->store, van_id, part_id, &stock, &error);
  if (is_new && !hs_ops_is_not_found (error))
    return hs_import_fault_error (run, STOCK_PART, error);
  g_clear_error (&error);
  if (is_new)
    stock = hs_stock_row_new ();
  changed = hs_import_set_id (&stock->van_id, van_id);
  changed |= hs_import_set_id (&stock->part_id, part_id);
  changed |= hs_import_set_number (&stock->keep_milli, &values[STOCK_KEEP]);
  changed |= hs_import_set_text (&stock->bin, &values[STOCK_BIN]);
  counted = stock->quantity_milli != values[STOCK_QUANTITY].number;
  if ((!changed || hs_stock_row_save (run->store, stock, &error)) && counted)
    count_stock (run, stock, &error);
  return hs_import_outcome (run, is_new, changed || counted, error);
}

static HsImportOutcome
save_stock (HsImportRun *run)
{
  g_autoptr (HsVanRow) van = NULL;
  g_autofree char *part_id = NULL;
  GError *error = NULL;

  if (!hs_import_find_part (run, STOCK_PART, &part_id))
    return HS_IMPORT_BAD;
  if (!hs_ops_van (run->book, run->values[STOCK_VAN].text, &van, &error))
    return hs_import_fault_error (run, STOCK_VAN, error);
  if (!hs_import_claim (run, STOCK_QUANTITY, g_strdup_printf ("%s\n%s", van->id, part_id)))
    return HS_IMPORT_BAD;
  return save_stock_row (run, van->id, part_id);
}

const HsImportKind hs_import_stock = { "stock", stock_columns, G_N_ELEMENTS (stock_columns), save_stock };
