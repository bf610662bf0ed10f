// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The parts of the counters and what they cost there. */

#include "hs-part-row.h"

#include "hs-table.h"

static const HsColumn part_columns[] = {
  HS_TEXT (HsPartRow, id),
  HS_TEXT (HsPartRow, number),
  HS_TEXT (HsPartRow, name),
  HS_TEXT (HsPartRow, kind),
  HS_INT (HsPartRow, warranty_months),
  HS_INT (HsPartRow, warranty_millimiles),
  HS_INT_OR (HsPartRow, core_deposit_cents, 0),
};

static const HsTable part_table = {
  HS_TABLE (HsPartRow, "part", "part", part_columns),
};

static const HsColumn price_columns[] = {
  HS_TEXT (HsPriceRow, id),
  HS_TEXT (HsPriceRow, supplier_id),
  HS_TEXT (HsPriceRow, part_id),
  HS_INT (HsPriceRow, cost_cents),
  HS_DATE (HsPriceRow, seen_on),
};

static const HsTable price_table = {
  HS_TABLE (HsPriceRow, "price", "price", price_columns),
};

HS_DEFINE_ROW (HsPartRow, hs_part_row, part_table)
HS_DEFINE_ROW (HsPriceRow, hs_price_row, price_table)

gboolean
hs_part_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &part_table, (GDestroyNotify) hs_part_row_free, ret_rows, error,
                        "ORDER BY seq", "");
}

gboolean
hs_part_row_find (HsStore *store, const char *number, HsPartRow **ret_row, GError **error)
{
  return hs_table_need (store, &part_table, (gpointer *) ret_row, error, number,
                        "WHERE number = ?1", "t", number);
}

gboolean
hs_price_row_list_latest (HsStore *store, const char *part_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &price_table, (GDestroyNotify) hs_price_row_free, ret_rows, error,
                        "WHERE part_id = ?1 AND NOT EXISTS (SELECT 1 FROM price later"
                        " WHERE later.part_id = price.part_id AND later.supplier_id = price.supplier_id"
                        " AND ifnull (later.seen_on, '') > ifnull (price.seen_on, '')) ORDER BY cost_cents, seq",
                        "t", part_id);
}

gboolean
hs_price_row_list_of (HsStore *store, const char *part_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &price_table, (GDestroyNotify) hs_price_row_free, ret_rows, error,
                        "WHERE part_id = ?1 ORDER BY seen_on, seq", "t", part_id);
}
