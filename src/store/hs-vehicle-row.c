// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Vehicles, who owns and owned them, and the plates they had. A vehicle keeps its history when its owner or plate
 * changes. */

#include "hs-vehicle-row.h"

#include "hs-ident.h"
#include "hs-search-index.h"
#include "hs-table.h"

static const HsColumn vehicle_columns[] = {
  HS_TEXT (HsVehicleRow, id),
  HS_TEXT (HsVehicleRow, plate),
  HS_TEXT (HsVehicleRow, plate_state),
  HS_TEXT (HsVehicleRow, plate_key),
  HS_TEXT (HsVehicleRow, vin),
  HS_TEXT (HsVehicleRow, make),
  HS_TEXT (HsVehicleRow, model),
  HS_INT (HsVehicleRow, year),
  HS_TEXT (HsVehicleRow, engine),
  HS_TEXT (HsVehicleRow, fuel),
  HS_TEXT (HsVehicleRow, battery_place),
  HS_TEXT (HsVehicleRow, battery_size),
  HS_TEXT (HsVehicleRow, battery_kind),
  HS_REAL (HsVehicleRow, battery_ah),
  HS_INT (HsVehicleRow, battery_cca),
  HS_FLAG (HsVehicleRow, stop_start),
  HS_FLAG (HsVehicleRow, needs_coding),
  HS_FLAG (HsVehicleRow, high_voltage),
  HS_REAL (HsVehicleRow, wheel_torque_nm),
  HS_TEXT_OR (HsVehicleRow, odometer_unit, "mi"),
  HS_TEXT (HsVehicleRow, note),
};

static const HsColumn ownership_columns[] = {
  HS_TEXT (HsOwnershipRow, id),
  HS_TEXT (HsOwnershipRow, vehicle_id),
  HS_TEXT (HsOwnershipRow, customer_id),
  HS_DATE (HsOwnershipRow, from_date),
  HS_DATE (HsOwnershipRow, to_date),
};

static const HsColumn old_plate_columns[] = {
  HS_TEXT (HsOldPlateRow, id),
  HS_TEXT (HsOldPlateRow, vehicle_id),
  HS_TEXT (HsOldPlateRow, plate),
  HS_TEXT (HsOldPlateRow, plate_state),
  HS_DATE (HsOldPlateRow, until),
};

static gboolean
vehicle_before_save (HsStore *store, gconstpointer old, gpointer row, GError **error)
{
  HsVehicleRow *vehicle = row;

  g_free (vehicle->plate_key);
  vehicle->plate_key = vehicle->plate == NULL ? NULL : hs_plate_normalize (vehicle->plate);
  return TRUE;
}

static gboolean
vehicle_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  hs_search_index_vehicle (store, ((const HsVehicleRow *) (row != NULL ? row : old))->id);
  return TRUE;
}

static gboolean
ownership_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  const HsOwnershipRow *rows[] = { old, row };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i] != NULL)
      {
        hs_search_index_vehicle (store, rows[i]->vehicle_id);
        hs_search_index_customer (store, rows[i]->customer_id);
      }
  return TRUE;
}

static gboolean
old_plate_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  const HsOldPlateRow *rows[] = { old, row };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i] != NULL)
      hs_search_index_vehicle (store, rows[i]->vehicle_id);
  return TRUE;
}

static const HsTable vehicle_table = {
  HS_TABLE (HsVehicleRow, "vehicle", "vehicle", vehicle_columns),
  .before_save = vehicle_before_save,
  .after_change = vehicle_after_change,
};

static const HsTable ownership_table = {
  HS_TABLE (HsOwnershipRow, "ownership", "ownership", ownership_columns),
  .after_change = ownership_after_change,
};

static const HsTable old_plate_table = {
  HS_TABLE (HsOldPlateRow, "old_plate", "old plate", old_plate_columns),
  .after_change = old_plate_after_change,
};

HS_DEFINE_ROW (HsVehicleRow, hs_vehicle_row, vehicle_table)
HS_DEFINE_ROW (HsOwnershipRow, hs_ownership_row, ownership_table)
HS_DEFINE_ROW (HsOldPlateRow, hs_old_plate_row, old_plate_table)

gboolean
hs_vehicle_row_list_by_plate (HsStore *store, const char *plate, GPtrArray **ret_rows, GError **error)
{
  g_autofree char *key = hs_plate_normalize (plate);

  return hs_table_list (store, &vehicle_table, (GDestroyNotify) hs_vehicle_row_free, ret_rows, error,
                        "WHERE plate_key = ?1 ORDER BY seq", "t", key);
}

gboolean
hs_vehicle_row_list_owned (HsStore *store, const char *customer_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &vehicle_table, (GDestroyNotify) hs_vehicle_row_free, ret_rows, error,
                        "JOIN ownership o ON o.vehicle_id = vehicle.id WHERE o.customer_id = ?1 AND o.to_date IS NULL"
                        " ORDER BY vehicle.seq", "t", customer_id);
}

gboolean
hs_ownership_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &ownership_table, (GDestroyNotify) hs_ownership_row_free, ret_rows, error,
                        "WHERE vehicle_id = ?1 ORDER BY to_date IS NOT NULL, to_date DESC, seq DESC",
                        "t", vehicle_id);
}

gboolean
hs_ownership_row_present (HsStore *store, const char *vehicle_id, HsOwnershipRow **ret_row, GError **error)
{
  return hs_table_find (store, &ownership_table, (gpointer *) ret_row, error,
                        "WHERE vehicle_id = ?1 AND to_date IS NULL", "t", vehicle_id);
}

gboolean
hs_ownership_row_hand_over (HsStore *store, const char *vehicle_id, const char *customer_id, HsDate on, GError **error)
{
  g_autoptr (HsOwnershipRow) old = NULL;
  g_autoptr (HsOwnershipRow) next = hs_ownership_row_new ();

  if (!hs_ownership_row_present (store, vehicle_id, &old, error))
    return FALSE;
  if (old != NULL)
    {
      old->to_date = on;
      if (!hs_ownership_row_save (store, old, error))
        return FALSE;
    }
  hs_row_set (&next->vehicle_id, vehicle_id);
  hs_row_set (&next->customer_id, customer_id);
  next->from_date = on;
  return hs_ownership_row_save (store, next, error);
}

gboolean
hs_old_plate_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &old_plate_table, (GDestroyNotify) hs_old_plate_row_free, ret_rows, error,
                        "WHERE vehicle_id = ?1 ORDER BY until, seq", "t", vehicle_id);
}
