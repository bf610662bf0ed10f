// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsPlanRow:
 * @leave_at: from base
 * @home_at: or %HS_INSTANT_NONE
 *
 * The plan of a day that the owner accepted; one a van and day.
 */
typedef struct
{
  char *id;
  char *van_id;
  HsDate day;
  HsInstant leave_at;
  HsInstant home_at;
  HsInstant accepted_at;
} HsPlanRow;

HS_DECLARE_ROW (HsPlanRow, hs_plan_row)

/**
 * hs_plan_row_find:
 * @ret_row: (out) (nullable): %NULL if none was accepted
 */
gboolean hs_plan_row_find (HsStore *store, const char *van_id, HsDate day, HsPlanRow **ret_row, GError **error);

/**
 * HsPlanStopRow:
 * @position: from 0
 * @job_id: (nullable): of a call
 * @supplier_id: (nullable): of a counter; exactly one of the two is there
 * @locked: keeps its place when the day is planned anew
 */
typedef struct
{
  char *id;
  char *plan_id;
  gint64 position;
  char *job_id;
  char *supplier_id;
  gboolean locked;
  HsInstant arrive_at;
  HsInstant start_at;
  HsInstant depart_at;
} HsPlanStopRow;

HS_DECLARE_ROW (HsPlanStopRow, hs_plan_stop_row)

/* hs_plan_stop_row_list_of: in order. */
gboolean hs_plan_stop_row_list_of (HsStore *store, const char *plan_id, GPtrArray **ret_rows, GError **error);

/**
 * hs_plan_row_accept:
 * @plan: its van and day say which plan it replaces
 * @stops: (element-type HsPlanStopRow): in order; ids, plan ids and positions are filled in
 *
 * Puts a plan in the place of the one that stood for that van and day.
 */
gboolean hs_plan_row_accept (HsStore *store, HsPlanRow *plan, GPtrArray *stops, GError **error);

/**
 * HsTickRow:
 * @kind: `pick_up`, `drop_off`, `return`, `restock`
 * @row_id: id of the need, core, return or stock row
 */
typedef struct
{
  char *id;
  HsDate day;
  char *kind;
  char *row_id;
  HsInstant at;
} HsTickRow;

HS_DECLARE_ROW (HsTickRow, hs_tick_row)
gboolean hs_tick_row_list (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error);

/* hs_tick_row_put: ticks a row off or takes the tick away; doing it twice is no error. */
gboolean hs_tick_row_put (HsStore *store, HsDate day, const char *kind, const char *row_id, gboolean ticked,
                          GError **error);

G_END_DECLS
