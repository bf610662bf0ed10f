// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of customers and their vehicles. A customer is known by the digits of the phone, a vehicle by its plate. A
 * vehicle that comes with another owner's phone changes hands on the day of the import. Refuses a VIN that cannot be
 * one and an owner that the book does not have.
 */

#include "hs-customer-row.h"
#include "hs-ident.h"
#include "hs-import-row.h"
#include "hs-ops-private.h"
#include "hs-vehicle-row.h"

enum
{
  CUSTOMER_NAME,
  CUSTOMER_PHONE,
  CUSTOMER_KIND,
  CUSTOMER_EMAIL,
  CUSTOMER_STREET,
  CUSTOMER_AREA,
  CUSTOMER_LAT,
  CUSTOMER_LON,
  CUSTOMER_REACH_FROM,
  CUSTOMER_REACH_TO,
  CUSTOMER_TERMS,
  CUSTOMER_NOTE,
};

#define DEGREE G_GINT64_CONSTANT (10000000)

static const HsImportColumn customer_columns[] = {
  [CUSTOMER_NAME] = { "name", HS_IMPORT_TEXT, TRUE },
  [CUSTOMER_PHONE] = { "phone", HS_IMPORT_PHONE, TRUE },
  [CUSTOMER_KIND] = { "kind", HS_IMPORT_WORD, .words = HS_WORDS_CUSTOMER_KIND },
  [CUSTOMER_EMAIL] = { "email", HS_IMPORT_TEXT },
  [CUSTOMER_STREET] = { "street", HS_IMPORT_TEXT },
  [CUSTOMER_AREA] = { "area", HS_IMPORT_TEXT },
  [CUSTOMER_LAT] = { "lat", HS_IMPORT_DEGREES, FALSE, -90 * DEGREE, 90 * DEGREE },
  [CUSTOMER_LON] = { "lon", HS_IMPORT_DEGREES, FALSE, -180 * DEGREE, 180 * DEGREE },
  [CUSTOMER_REACH_FROM] = { "reach_from", HS_IMPORT_CLOCK },
  [CUSTOMER_REACH_TO] = { "reach_to", HS_IMPORT_CLOCK },
  [CUSTOMER_TERMS] = { "terms_days", HS_IMPORT_WHOLE, FALSE, 0, 3650 },
  [CUSTOMER_NOTE] = { "note", HS_IMPORT_TEXT },
};

static gboolean
fill_customer (HsImportRun *run, HsCustomerRow *customer, const char *area_id)
{
  const HsImportValue *values = run->values;
  gboolean changed = hs_import_set_text (&customer->name, &values[CUSTOMER_NAME]);

  changed |= hs_import_set_word (&customer->kind, &values[CUSTOMER_KIND]);
  changed |= hs_import_set_text (&customer->email, &values[CUSTOMER_EMAIL]);
  changed |= hs_import_set_text (&customer->street, &values[CUSTOMER_STREET]);
  changed |= hs_import_set_id (&customer->area_id, area_id);
  changed |= hs_import_set_degrees (&customer->lat, &values[CUSTOMER_LAT]);
  changed |= hs_import_set_degrees (&customer->lon, &values[CUSTOMER_LON]);
  changed |= hs_import_set_number (&customer->reach_from_minutes, &values[CUSTOMER_REACH_FROM]);
  changed |= hs_import_set_number (&customer->reach_to_minutes, &values[CUSTOMER_REACH_TO]);
  changed |= hs_import_set_number (&customer->terms_days, &values[CUSTOMER_TERMS]);
  changed |= hs_import_set_text (&customer->note, &values[CUSTOMER_NOTE]);
  return changed;
}

static gboolean
save_phone (HsImportRun *run, const char *customer_id, GError **error)
{
  g_autoptr (HsPhoneRow) phone = hs_phone_row_new ();

  hs_row_set (&phone->customer_id, customer_id);
  hs_row_set (&phone->shown, run->values[CUSTOMER_PHONE].text);
  return hs_phone_row_save (run->store, phone, error);
}

static gboolean
check_customer (HsImportRun *run)
{
  const HsImportValue *from = &run->values[CUSTOMER_REACH_FROM];
  const HsImportValue *to = &run->values[CUSTOMER_REACH_TO];

  if (from->given && to->given && to->number < from->number)
    hs_import_fault (run, CUSTOMER_REACH_TO, "%s is before reach_from, %s", to->text, from->text);
  if (run->values[CUSTOMER_LAT].given != run->values[CUSTOMER_LON].given)
    hs_import_fault (run, run->values[CUSTOMER_LAT].given ? CUSTOMER_LON : CUSTOMER_LAT,
                     "a place needs both lat and lon");
  hs_import_claim (run, CUSTOMER_PHONE, g_strdup (run->values[CUSTOMER_PHONE].word));
  return !run->row_bad;
}

static HsImportOutcome
save_customer (HsImportRun *run)
{
  g_autoptr (GPtrArray) known = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;
  g_autofree char *area_id = NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  if (!check_customer (run) | !hs_import_find_area (run, CUSTOMER_AREA, &area_id))
    return HS_IMPORT_BAD;
  if (!hs_customer_row_list_by_phone (run->store, run->values[CUSTOMER_PHONE].text, &known, &error))
    return hs_import_fault_error (run, CUSTOMER_PHONE, error);
  is_new = known->len == 0;
  customer = is_new ? hs_customer_row_new () : hs_customer_row_copy (g_ptr_array_index (known, 0));
  changed = fill_customer (run, customer, area_id);
  if (changed && hs_customer_row_save (run->store, customer, &error) && is_new)
    save_phone (run, customer->id, &error);
  return hs_import_outcome (run, is_new, changed, error);
}

const HsImportKind hs_import_customers
    = { "customers", customer_columns, G_N_ELEMENTS (customer_columns), save_customer };

enum
{
  VEHICLE_PLATE,
  VEHICLE_OWNER_PHONE,
  VEHICLE_STATE,
  VEHICLE_VIN,
  VEHICLE_MAKE,
  VEHICLE_MODEL,
  VEHICLE_YEAR,
  VEHICLE_ENGINE,
  VEHICLE_FUEL,
  VEHICLE_BATTERY_PLACE,
  VEHICLE_BATTERY_KIND,
  VEHICLE_BATTERY_AH,
  VEHICLE_BATTERY_CCA,
  VEHICLE_HIGH_VOLTAGE,
  VEHICLE_NOTE,
};

static const HsImportColumn vehicle_columns[] = {
  [VEHICLE_PLATE] = { "plate", HS_IMPORT_PLATE, TRUE },
  [VEHICLE_OWNER_PHONE] = { "owner_phone", HS_IMPORT_PHONE, TRUE },
  [VEHICLE_STATE] = { "plate_state", HS_IMPORT_TEXT },
  [VEHICLE_VIN] = { "vin", HS_IMPORT_TEXT },
  [VEHICLE_MAKE] = { "make", HS_IMPORT_TEXT },
  [VEHICLE_MODEL] = { "model", HS_IMPORT_TEXT },
  [VEHICLE_YEAR] = { "year", HS_IMPORT_WHOLE, FALSE, 1885, 2200 },
  [VEHICLE_ENGINE] = { "engine", HS_IMPORT_TEXT },
  [VEHICLE_FUEL] = { "fuel", HS_IMPORT_WORD, .words = HS_WORDS_FUEL },
  [VEHICLE_BATTERY_PLACE] = { "battery_place", HS_IMPORT_TEXT },
  [VEHICLE_BATTERY_KIND] = { "battery_kind", HS_IMPORT_WORD, .words = HS_WORDS_BATTERY_KIND },
  [VEHICLE_BATTERY_AH] = { "battery_ah", HS_IMPORT_THOUSANDTHS, FALSE, 1, 10000 * 1000 },
  [VEHICLE_BATTERY_CCA] = { "battery_cca", HS_IMPORT_WHOLE, FALSE, 1, 100000 },
  [VEHICLE_HIGH_VOLTAGE] = { "high_voltage", HS_IMPORT_YES_NO },
  [VEHICLE_NOTE] = { "note", HS_IMPORT_TEXT },
};

/* The vehicle of this plate and, if one is given, of this state; a known one without a state takes it on. */
static HsVehicleRow *
pick_vehicle (HsImportRun *run, GPtrArray *vehicles)
{
  const HsImportValue *state = &run->values[VEHICLE_STATE];
  const HsVehicleRow *stateless = NULL;

  for (guint i = 0; i < vehicles->len; i++)
    {
      const HsVehicleRow *vehicle = g_ptr_array_index (vehicles, i);

      if (vehicle->plate_state == NULL)
        stateless = vehicle;
      else if (state->given && g_ascii_strcasecmp (vehicle->plate_state, state->text) == 0)
        return hs_vehicle_row_copy (vehicle);
    }
  if (stateless == NULL && !state->given && vehicles->len == 1)
    stateless = g_ptr_array_index (vehicles, 0);
  if (stateless == NULL && !state->given && vehicles->len > 1)
    hs_import_fault (run, VEHICLE_STATE, "%u vehicles have the plate %s; say which state", vehicles->len,
                     run->values[VEHICLE_PLATE].text);
  return stateless == NULL ? NULL : hs_vehicle_row_copy (stateless);
}

static gboolean
set_vin (HsImportRun *run, HsVehicleRow *vehicle)
{
  GError *error = NULL;
  g_autofree char *vin = NULL;

  if (!run->values[VEHICLE_VIN].given)
    return FALSE;
  vin = hs_vin_normalize (run->values[VEHICLE_VIN].text, &error);
  if (vin != NULL)
    return hs_import_set_id (&vehicle->vin, vin);
  hs_import_fault_error (run, VEHICLE_VIN, error);
  return FALSE;
}

static gboolean
set_flag (gboolean *field, gboolean value)
{
  if (!*field == !value)
    return FALSE;
  *field = value;
  return TRUE;
}

/* A hybrid or electric vehicle has high voltage aboard unless the file says otherwise. */
static gboolean
set_high_voltage (HsImportRun *run, HsVehicleRow *vehicle, gboolean is_new)
{
  const HsImportValue *value = &run->values[VEHICLE_HIGH_VOLTAGE];

  if (value->given)
    return set_flag (&vehicle->high_voltage, value->number != 0);
  if (is_new && (g_strcmp0 (vehicle->fuel, "hybrid") == 0 || g_strcmp0 (vehicle->fuel, "electric") == 0))
    return set_flag (&vehicle->high_voltage, TRUE);
  return FALSE;
}

static gboolean
set_battery (HsImportRun *run, HsVehicleRow *vehicle)
{
  gboolean changed = hs_import_set_text (&vehicle->battery_place, &run->values[VEHICLE_BATTERY_PLACE]);

  changed |= hs_import_set_word (&vehicle->battery_kind, &run->values[VEHICLE_BATTERY_KIND]);
  changed |= hs_import_set_number (&vehicle->battery_cca, &run->values[VEHICLE_BATTERY_CCA]);
  changed |= hs_import_set_thousandths (&vehicle->battery_ah, &run->values[VEHICLE_BATTERY_AH]);
  return changed;
}

static gboolean
fill_vehicle (HsImportRun *run, HsVehicleRow *vehicle, gboolean is_new)
{
  const HsImportValue *values = run->values;
  gboolean changed = is_new;

  if (is_new)
    hs_row_set (&vehicle->plate, values[VEHICLE_PLATE].text);
  if (vehicle->plate_state == NULL)
    changed |= hs_import_set_text (&vehicle->plate_state, &values[VEHICLE_STATE]);
  changed |= set_vin (run, vehicle);
  changed |= hs_import_set_text (&vehicle->make, &values[VEHICLE_MAKE]);
  changed |= hs_import_set_text (&vehicle->model, &values[VEHICLE_MODEL]);
  changed |= hs_import_set_number (&vehicle->year, &values[VEHICLE_YEAR]);
  changed |= hs_import_set_text (&vehicle->engine, &values[VEHICLE_ENGINE]);
  changed |= hs_import_set_word (&vehicle->fuel, &values[VEHICLE_FUEL]);
  changed |= set_battery (run, vehicle);
  changed |= set_high_voltage (run, vehicle, is_new);
  changed |= hs_import_set_text (&vehicle->note, &values[VEHICLE_NOTE]);
  return changed;
}

/* Tells whether the vehicle changed hands; the first owner of a new one is no change. */
static gboolean
set_owner (HsImportRun *run, const char *vehicle_id, const char *customer_id, GError **error)
{
  g_autoptr (HsOwnershipRow) present = NULL;
  g_autoptr (HsOwnershipRow) first = NULL;

  if (!hs_ownership_row_present (run->store, vehicle_id, &present, error))
    return FALSE;
  if (present != NULL && g_str_equal (present->customer_id, customer_id))
    return FALSE;
  if (present != NULL)
    return hs_ownership_row_hand_over (run->store, vehicle_id, customer_id, run->today, error);
  first = hs_ownership_row_new ();
  hs_row_set (&first->vehicle_id, vehicle_id);
  hs_row_set (&first->customer_id, customer_id);
  first->from_date = run->today;
  return hs_ownership_row_save (run->store, first, error);
}

static char *
vehicle_key (HsImportRun *run)
{
  g_autofree char *state = g_ascii_strup (run->values[VEHICLE_STATE].text, -1);

  return g_strdup_printf ("%s\n%s", run->values[VEHICLE_PLATE].word, state);
}

static HsImportOutcome
save_vehicle (HsImportRun *run)
{
  g_autoptr (GPtrArray) known = NULL;
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autofree char *owner_id = NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  if (!hs_import_claim (run, VEHICLE_PLATE, vehicle_key (run))
      | !hs_import_find_customer (run, VEHICLE_OWNER_PHONE, &owner_id))
    return HS_IMPORT_BAD;
  if (!hs_vehicle_row_list_by_plate (run->store, run->values[VEHICLE_PLATE].text, &known, &error))
    return hs_import_fault_error (run, VEHICLE_PLATE, error);
  vehicle = pick_vehicle (run, known);
  is_new = vehicle == NULL;
  if (is_new)
    vehicle = hs_vehicle_row_new ();
  changed = fill_vehicle (run, vehicle, is_new);
  if (run->row_bad)
    return HS_IMPORT_BAD;
  if (!changed || hs_vehicle_row_save (run->store, vehicle, &error))
    changed |= set_owner (run, vehicle->id, owner_id, &error);
  return hs_import_outcome (run, is_new, changed, error);
}

const HsImportKind hs_import_vehicles
    = { "vehicles", vehicle_columns, G_N_ELEMENTS (vehicle_columns), save_vehicle };
