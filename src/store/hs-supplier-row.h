// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsSupplierRow:
 * @return_days: how long parts go back, or %HS_INT_NONE
 * @restock_basis_points: hundredths of a percent kept on a return
 * @core_days: how long a core may stay out, or %HS_INT_NONE
 * @stop_seconds: how long a stop at the counter takes
 */
typedef struct
{
  char *id;
  char *name;
  char *area_id;
  char *phone;
  char *account;
  char *terms;
  gint64 return_days;
  gint64 restock_basis_points;
  gint64 core_days;
  gint64 stop_seconds;
  char *note;
} HsSupplierRow;

HS_DECLARE_ROW (HsSupplierRow, hs_supplier_row)

/* hs_supplier_row_list: in the order in which they were added. */
gboolean hs_supplier_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/* hs_supplier_row_find: by name, exactly; %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_supplier_row_find (HsStore *store, const char *name, HsSupplierRow **ret_row, GError **error);

/**
 * HsHoursRow:
 * @weekday: 1 = Monday … 7 = Sunday
 * @opens_minutes: of the day
 * @shuts_minutes: of the day
 */
typedef struct
{
  char *id;
  char *supplier_id;
  gint64 weekday;
  gint64 opens_minutes;
  gint64 shuts_minutes;
} HsHoursRow;

HS_DECLARE_ROW (HsHoursRow, hs_hours_row)

/* hs_hours_row_list_of: by weekday and opening; @supplier_id %NULL: of all suppliers. */
gboolean hs_hours_row_list_of (HsStore *store, const char *supplier_id, GPtrArray **ret_rows, GError **error);

/**
 * HsCounterDayRow: a day on which the hours of the week do not hold
 * @supplier_id: (nullable): %NULL: all counters but those with a row of their own for that day
 * @opens_minutes, @shuts_minutes: of the day; both %HS_INT_NONE: shut
 * @words: (nullable): why, "Founders' Day"
 */
typedef struct
{
  char *id;
  char *supplier_id;
  HsDate on_date;
  gint64 opens_minutes;
  gint64 shuts_minutes;
  char *words;
} HsCounterDayRow;

HS_DECLARE_ROW (HsCounterDayRow, hs_counter_day_row)

/* hs_counter_day_row_list_on: what is said of @day, first of all counters, then of each; shut before hours. */
gboolean hs_counter_day_row_list_on (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error);

/* hs_counter_day_row_list_from: what is said of @day and later ones, day by day, each in that order. */
gboolean hs_counter_day_row_list_from (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error);

/**
 * HsSupplierBillRow:
 * @ref: (nullable): the supplier's own number
 */
typedef struct
{
  char *id;
  char *supplier_id;
  char *ref;
  HsDate on_date;
  gint64 cents;
  HsDate due_on;
  HsDate paid_on;
} HsSupplierBillRow;

HS_DECLARE_ROW (HsSupplierBillRow, hs_supplier_bill_row)
gboolean hs_supplier_bill_row_list_of (HsStore *store, const char *supplier_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
