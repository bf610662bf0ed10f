// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The plan of a day that the owner accepted, with its stops in order, and what was ticked off at the counters. */

#include "hs-plan-row.h"

#include "hs-table.h"

static const HsColumn plan_columns[] = {
  HS_TEXT (HsPlanRow, id),
  HS_TEXT (HsPlanRow, van_id),
  HS_DATE (HsPlanRow, day),
  HS_INT (HsPlanRow, leave_at),
  HS_INT (HsPlanRow, home_at),
  HS_INT (HsPlanRow, accepted_at),
};

static const HsTable plan_table = {
  HS_TABLE (HsPlanRow, "day_plan", "plan", plan_columns),
};

static const HsColumn stop_columns[] = {
  HS_TEXT (HsPlanStopRow, id),
  HS_TEXT (HsPlanStopRow, plan_id),
  HS_INT (HsPlanStopRow, position),
  HS_TEXT (HsPlanStopRow, job_id),
  HS_TEXT (HsPlanStopRow, supplier_id),
  HS_FLAG (HsPlanStopRow, locked),
  HS_INT (HsPlanStopRow, arrive_at),
  HS_INT (HsPlanStopRow, start_at),
  HS_INT (HsPlanStopRow, depart_at),
};

static const HsTable stop_table = {
  HS_TABLE (HsPlanStopRow, "day_stop", "stop", stop_columns),
};

static const HsColumn tick_columns[] = {
  HS_TEXT (HsTickRow, id),
  HS_DATE (HsTickRow, day),
  HS_TEXT (HsTickRow, kind),
  HS_TEXT (HsTickRow, row_id),
  HS_INT (HsTickRow, at),
};

static const HsTable tick_table = {
  HS_TABLE (HsTickRow, "tick", "tick", tick_columns),
};

HS_DEFINE_ROW (HsPlanRow, hs_plan_row, plan_table)
HS_DEFINE_ROW (HsPlanStopRow, hs_plan_stop_row, stop_table)
HS_DEFINE_ROW (HsTickRow, hs_tick_row, tick_table)

gboolean
hs_plan_row_find (HsStore *store, const char *van_id, HsDate day, HsPlanRow **ret_row, GError **error)
{
  return hs_table_find (store, &plan_table, (gpointer *) ret_row, error,
                        "WHERE van_id = ?1 AND day = ?2", "td", van_id, day);
}

gboolean
hs_plan_stop_row_list_of (HsStore *store, const char *plan_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &stop_table, (GDestroyNotify) hs_plan_stop_row_free, ret_rows, error,
                        "WHERE plan_id = ?1 ORDER BY position", "t", plan_id);
}

static gboolean
drop_stops (HsStore *store, const char *plan_id, GError **error)
{
  g_autoptr (GPtrArray) stops = NULL;

  if (!hs_plan_stop_row_list_of (store, plan_id, &stops, error))
    return FALSE;
  for (guint i = 0; i < stops->len; i++)
    if (!hs_plan_stop_row_delete (store, ((HsPlanStopRow *) stops->pdata[i])->id, error))
      return FALSE;
  return TRUE;
}

static gboolean
add_stop (HsStore *store, const HsPlanRow *plan, HsPlanStopRow *stop, guint position, GError **error)
{
  hs_row_set (&stop->id, NULL);
  hs_row_set (&stop->plan_id, plan->id);
  stop->position = position;
  return hs_plan_stop_row_save (store, stop, error);
}

gboolean
hs_plan_row_accept (HsStore *store, HsPlanRow *plan, GPtrArray *stops, GError **error)
{
  g_autoptr (HsPlanRow) old = NULL;

  if (!hs_store_may_change (store, error) || !hs_plan_row_find (store, plan->van_id, plan->day, &old, error))
    return FALSE;
  if (old != NULL && !drop_stops (store, old->id, error))
    return FALSE;
  hs_row_set (&plan->id, old == NULL ? NULL : old->id);
  plan->accepted_at = hs_store_get_now (store);
  if (!hs_plan_row_save (store, plan, error))
    return FALSE;
  for (guint i = 0; i < stops->len; i++)
    if (!add_stop (store, plan, stops->pdata[i], i, error))
      return FALSE;
  return TRUE;
}

gboolean
hs_tick_row_list (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &tick_table, (GDestroyNotify) hs_tick_row_free, ret_rows, error,
                        "WHERE day = ?1 ORDER BY seq", "d", day);
}

gboolean
hs_tick_row_put (HsStore *store, HsDate day, const char *kind, const char *row_id, gboolean ticked, GError **error)
{
  g_autoptr (HsTickRow) tick = NULL;

  if (!hs_table_find (store, &tick_table, (gpointer *) &tick, error, "WHERE day = ?1 AND kind = ?2 AND row_id = ?3",
                      "dtt", day, kind, row_id))
    return FALSE;
  if (!ticked)
    return tick == NULL ? hs_store_may_change (store, error) : hs_tick_row_delete (store, tick->id, error);
  if (tick != NULL)
    return hs_store_may_change (store, error);
  tick = hs_tick_row_new ();
  tick->day = day;
  hs_row_set (&tick->kind, kind);
  hs_row_set (&tick->row_id, row_id);
  tick->at = hs_store_get_now (store);
  return hs_tick_row_save (store, tick, error);
}
