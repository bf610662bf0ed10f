// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What lies in the vans. A move is written down and changes the stock with it. */

#include "hs-stock-row.h"

#include "hs-table.h"

static const HsColumn stock_columns[] = {
  HS_TEXT (HsStockRow, id),
  HS_TEXT (HsStockRow, van_id),
  HS_TEXT (HsStockRow, part_id),
  HS_INT_OR (HsStockRow, quantity_milli, 0),
  HS_INT_OR (HsStockRow, keep_milli, 0),
  HS_TEXT (HsStockRow, bin),
};

static const HsTable stock_table = {
  HS_TABLE (HsStockRow, "stock", "stock", stock_columns),
};

static const HsColumn move_columns[] = {
  HS_TEXT (HsStockMoveRow, id),
  HS_TEXT (HsStockMoveRow, van_id),
  HS_TEXT (HsStockMoveRow, part_id),
  HS_INT (HsStockMoveRow, quantity_milli),
  HS_TEXT (HsStockMoveRow, why),
  HS_TEXT (HsStockMoveRow, job_id),
  HS_INT (HsStockMoveRow, cost_cents),
  HS_INT (HsStockMoveRow, at),
};

/* @ret_row: an empty one, not in the book, if the van never carried the part. */
static gboolean
find_stock (HsStore *store, const HsStockMoveRow *move, HsStockRow **ret_row, GError **error)
{
  HsStockRow *stock = NULL;

  if (!hs_table_find (store, &stock_table, (gpointer *) &stock, error, "WHERE van_id = ?1 AND part_id = ?2", "tt",
                      move->van_id, move->part_id))
    return FALSE;
  if (stock == NULL)
    {
      stock = hs_stock_row_new ();
      hs_row_set (&stock->van_id, move->van_id);
      hs_row_set (&stock->part_id, move->part_id);
    }
  *ret_row = stock;
  return TRUE;
}

/* The stock that a move is the first of is part of its step and goes with it; what it holds only follows the move. */
static gboolean
move_before_save (HsStore *store, gconstpointer old, gpointer row, GError **error)
{
  g_autoptr (HsStockRow) stock = NULL;

  return find_stock (store, row, &stock, error) && (stock->id != NULL || hs_stock_row_save (store, stock, error));
}

/* The stock of a van follows a move: by its difference if it was changed, back if it was removed. */
static gboolean
shift_stock (HsStore *store, const HsStockMoveRow *move, gint64 sign, GError **error)
{
  g_autoptr (HsStockRow) stock = NULL;

  if (!find_stock (store, move, &stock, error))
    return FALSE;
  stock->quantity_milli += sign * move->quantity_milli;
  return hs_stock_row_save (store, stock, error);
}

static gboolean
move_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  return (old == NULL || shift_stock (store, old, -1, error)) && (row == NULL || shift_stock (store, row, 1, error));
}

static const HsTable move_table = {
  HS_TABLE (HsStockMoveRow, "stock_move", "stock move", move_columns),
  .before_save = move_before_save,
  .after_change = move_after_change,
};

HS_DEFINE_ROW (HsStockRow, hs_stock_row, stock_table)
HS_DEFINE_ROW (HsStockMoveRow, hs_stock_move_row, move_table)

gboolean
hs_stock_row_list (HsStore *store, const char *van_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &stock_table, (GDestroyNotify) hs_stock_row_free, ret_rows, error,
                        "WHERE ?1 IS NULL OR van_id = ?1 ORDER BY seq", "t", van_id);
}

gboolean
hs_stock_row_find (HsStore *store, const char *van_id, const char *part_id, HsStockRow **ret_row, GError **error)
{
  return hs_table_need (store, &stock_table, (gpointer *) ret_row, error, part_id,
                        "WHERE van_id = ?1 AND part_id = ?2", "tt", van_id, part_id);
}

gboolean
hs_stock_move_row_list_of (HsStore *store, const char *part_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &move_table, (GDestroyNotify) hs_stock_move_row_free, ret_rows, error,
                        "WHERE part_id = ?1 ORDER BY seq", "t", part_id);
}
