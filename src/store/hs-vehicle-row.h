// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsVehicleRow:
 * @plate: (nullable): as it is written
 * @plate_state: (nullable): state or country of the plate
 * @plate_key: the plate for comparing; hs_vehicle_row_save() fills it
 * @year: or %HS_INT_NONE
 * @fuel: (nullable): id of the fuel
 * @battery_kind: (nullable): what belongs in it
 * @battery_ah: ampere hours, or %HS_REAL_NONE
 * @battery_cca: cold cranking amperes, or %HS_INT_NONE
 * @wheel_torque_nm: newton meters, or %HS_REAL_NONE
 * @odometer_unit: `mi` or `km`
 */
typedef struct
{
  char *id;
  char *plate;
  char *plate_state;
  char *plate_key;
  char *vin;
  char *make;
  char *model;
  gint64 year;
  char *engine;
  char *fuel;
  char *battery_place;
  char *battery_size;
  char *battery_kind;
  double battery_ah;
  gint64 battery_cca;
  gboolean stop_start;
  gboolean needs_coding;
  gboolean high_voltage;
  double wheel_torque_nm;
  char *odometer_unit;
  char *note;
} HsVehicleRow;

HS_DECLARE_ROW (HsVehicleRow, hs_vehicle_row)

/* hs_vehicle_row_list_by_plate: those with this plate now, spaces, marks and letter case ignored; oldest first. */
gboolean hs_vehicle_row_list_by_plate (HsStore *store, const char *plate, GPtrArray **ret_rows, GError **error);

/* hs_vehicle_row_list_owned: vehicles that a customer owns now. */
gboolean hs_vehicle_row_list_owned (HsStore *store, const char *customer_id, GPtrArray **ret_rows, GError **error);

/**
 * HsOwnershipRow:
 * @from_date: or %HS_DATE_NONE when not known
 * @to_date: %HS_DATE_NONE: owns it now
 */
typedef struct
{
  char *id;
  char *vehicle_id;
  char *customer_id;
  HsDate from_date;
  HsDate to_date;
} HsOwnershipRow;

HS_DECLARE_ROW (HsOwnershipRow, hs_ownership_row)

/* hs_ownership_row_list_of: of a vehicle, the present owner first, then the latest to leave. */
gboolean hs_ownership_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error);

/**
 * hs_ownership_row_present:
 * @ret_row: (out) (nullable): %NULL if nobody owns it
 */
gboolean hs_ownership_row_present (HsStore *store, const char *vehicle_id, HsOwnershipRow **ret_row, GError **error);

/* hs_ownership_row_hand_over: ends the present ownership on @on and starts one of @customer_id that day. */
gboolean hs_ownership_row_hand_over (HsStore *store, const char *vehicle_id, const char *customer_id, HsDate on,
                                     GError **error);

/**
 * HsOldPlateRow:
 * @until: its last day, or %HS_DATE_NONE
 */
typedef struct
{
  char *id;
  char *vehicle_id;
  char *plate;
  char *plate_state;
  HsDate until;
} HsOldPlateRow;

HS_DECLARE_ROW (HsOldPlateRow, hs_old_plate_row)
gboolean hs_old_plate_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
