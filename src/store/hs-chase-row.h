// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsChaseRow:
 * @kind: `declined_work`, `aging_battery`, `upkeep_due`, `unpaid`, `retorque`, `how_is_it_running`,
 *   `core_deposit`, `part_return`
 * @done_on: %HS_DATE_NONE: still to call
 *
 * Somebody to call.
 */
typedef struct
{
  char *id;
  char *kind;
  char *vehicle_id;
  char *customer_id;
  char *job_id;
  HsDate due_on;
  HsDate done_on;
  char *outcome;
} HsChaseRow;

HS_DECLARE_ROW (HsChaseRow, hs_chase_row)

/* hs_chase_row_list_due: still to call, due on @day or before; %HS_DATE_NONE: all. Longest due first. */
gboolean hs_chase_row_list_due (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error);

/* hs_chase_row_find_open: @ret_row: (out) (nullable): of those still to call the first about @job_id, of @kind, due on
 * @day. One call that is still to be made is not listed twice. */
gboolean hs_chase_row_find_open (HsStore *store, const char *job_id, const char *kind, HsDate day, HsChaseRow **ret_row,
                                 GError **error);

/**
 * HsTripRow:
 * @millimiles: thousandths of a mile
 * @seconds: or %HS_INT_NONE
 * @purpose: `job`, `parts`, `supplies`, `private`, `other_business`
 * @left_at: or %HS_INSTANT_NONE
 */
typedef struct
{
  char *id;
  char *van_id;
  HsDate on_date;
  char *from_area_id;
  char *to_area_id;
  gint64 odometer_start;
  gint64 odometer_end;
  gint64 millimiles;
  gint64 seconds;
  char *purpose;
  char *job_id;
  HsInstant left_at;
} HsTripRow;

HS_DECLARE_ROW (HsTripRow, hs_trip_row)

/* hs_trip_row_list: from one day to another, both included. */
gboolean hs_trip_row_list (HsStore *store, HsDate from, HsDate to, GPtrArray **ret_rows, GError **error);

/* hs_trip_row_list_timed: all that say from where to where, and how long it took, by date. */
gboolean hs_trip_row_list_timed (HsStore *store, GPtrArray **ret_rows, GError **error);

G_END_DECLS
