// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsCoreRow:
 * @job_id: (nullable): %NULL: bought for stock
 * @paid_on: the clock starts with the purchase
 * @due_on: or %HS_DATE_NONE if the supplier sets no day
 * @where_now: `on_the_vehicle`, `in_the_van`, `at_base`, `handed_in`, `credited`, `customer_kept_it`,
 *   `lost`
 * @charged_cents: to the customer who kept the old unit
 *
 * A core deposit and where the old unit is. The way it went stands in the log of changes.
 */
typedef struct
{
  char *id;
  char *supplier_id;
  char *part_id;
  char *job_id;
  gint64 deposit_cents;
  HsDate paid_on;
  HsDate due_on;
  char *where_now;
  HsDate handed_in_on;
  HsDate credited_on;
  char *credit_ref;
  gint64 charged_cents;
} HsCoreRow;

HS_DECLARE_ROW (HsCoreRow, hs_core_row)

/* hs_core_row_list: by day due; @open_only: neither credited, kept nor lost. */
gboolean hs_core_row_list (HsStore *store, gboolean open_only, GPtrArray **ret_rows, GError **error);

/**
 * HsReturnRow:
 * @quantity_milli: thousandths
 * @amount_cents: of the whole row
 * @last_day: or %HS_DATE_NONE
 * @handed_in_on: %HS_DATE_NONE: still here
 *
 * Parts that go back to a counter.
 */
typedef struct
{
  char *id;
  char *supplier_id;
  char *part_id;
  char *job_id;
  gint64 quantity_milli;
  gint64 amount_cents;
  HsDate bought_on;
  HsDate last_day;
  HsDate handed_in_on;
  HsDate credited_on;
  char *credit_ref;
} HsReturnRow;

HS_DECLARE_ROW (HsReturnRow, hs_return_row)

/* hs_return_row_list: by last day; @open_only: not handed in. */
gboolean hs_return_row_list (HsStore *store, gboolean open_only, GPtrArray **ret_rows, GError **error);

G_END_DECLS
