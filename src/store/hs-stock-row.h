// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsStockRow:
 * @quantity_milli: thousandths in the van now
 * @keep_milli: thousandths to keep
 * @bin: (nullable): where
 */
typedef struct
{
  char *id;
  char *van_id;
  char *part_id;
  gint64 quantity_milli;
  gint64 keep_milli;
  char *bin;
} HsStockRow;

HS_DECLARE_ROW (HsStockRow, hs_stock_row)

/* hs_stock_row_list: @van_id %NULL: of all vans. */
gboolean hs_stock_row_list (HsStore *store, const char *van_id, GPtrArray **ret_rows, GError **error);

/* hs_stock_row_find: %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_stock_row_find (HsStore *store, const char *van_id, const char *part_id, HsStockRow **ret_row,
                            GError **error);

/**
 * HsStockMoveRow:
 * @quantity_milli: signed thousandths
 * @why: `bought`, `installed`, `returned`, `moved_van`, `count_fix`, `scrapped`
 *
 * hs_stock_move_row_save() also changes the stock of that van, adding its row if there is none.
 */
typedef struct
{
  char *id;
  char *van_id;
  char *part_id;
  gint64 quantity_milli;
  char *why;
  char *job_id;
  gint64 cost_cents;
  HsInstant at;
} HsStockMoveRow;

HS_DECLARE_ROW (HsStockMoveRow, hs_stock_move_row)
gboolean hs_stock_move_row_list_of (HsStore *store, const char *part_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
