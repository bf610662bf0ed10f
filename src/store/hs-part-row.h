// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsPartRow:
 * @number: the counter's
 * @kind: (nullable): `battery`, `starter` …
 * @warranty_months: or %HS_INT_NONE
 * @warranty_millimiles: or %HS_INT_NONE
 * @core_deposit_cents: 0: none
 */
typedef struct
{
  char *id;
  char *number;
  char *name;
  char *kind;
  gint64 warranty_months;
  gint64 warranty_millimiles;
  gint64 core_deposit_cents;
} HsPartRow;

HS_DECLARE_ROW (HsPartRow, hs_part_row)
gboolean hs_part_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/* hs_part_row_find: by number, exactly; %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_part_row_find (HsStore *store, const char *number, HsPartRow **ret_row, GError **error);

/**
 * HsPriceRow:
 * @seen_on: or %HS_DATE_NONE
 *
 * What one part costs at one counter, and when that was seen.
 */
typedef struct
{
  char *id;
  char *supplier_id;
  char *part_id;
  gint64 cost_cents;
  HsDate seen_on;
} HsPriceRow;

HS_DECLARE_ROW (HsPriceRow, hs_price_row)

/* hs_price_row_list_latest: the price seen last at each counter that lists the part, cheapest first. */
gboolean hs_price_row_list_latest (HsStore *store, const char *part_id, GPtrArray **ret_rows, GError **error);

/* hs_price_row_list_of: all prices of a part, oldest first. */
gboolean hs_price_row_list_of (HsStore *store, const char *part_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
