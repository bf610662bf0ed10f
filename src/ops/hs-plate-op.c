// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which vehicle a plate is of. Use it wherever a plate is typed that is to name a vehicle of the book. Refuses to
 * choose between two that nothing tells apart: the wrong one's battery and history would be told. */

#include "hs-plate-op.h"

#include "hs-customer-row.h"
#include "hs-ops-private.h"
#include "hs-text.h"
#include "hs-vehicle-name.h"

#include <string.h>

/* Their owners and makes are read out: more than a digit's worth are no choice. */
#define MOST_NAMED 9

static gboolean
owns (HsStore *store, const HsVehicleRow *vehicle, const char *customer_id, gboolean *ret_owns, GError **error)
{
  g_autoptr (HsOwnershipRow) present = NULL;

  if (!hs_ownership_row_present (store, vehicle->id, &present, error))
    return FALSE;
  *ret_owns = present != NULL && g_strcmp0 (present->customer_id, customer_id) == 0;
  return TRUE;
}

static gboolean
is_of_make (const HsVehicleRow *vehicle, const char *make)
{
  g_autofree char *wanted = g_utf8_casefold (make, -1);
  g_autofree char *is = g_utf8_casefold (vehicle->make != NULL ? vehicle->make : "", -1);

  return g_str_equal (wanted, is);
}

/* @ret_only: (nullable): the one that the caller owns, or that is of the make; %NULL if none or several are. */
static gboolean
find_only (HsStore *store, GPtrArray *vehicles, const HsPlateHint *hint, const HsVehicleRow **ret_only, GError **error)
{
  guint n_owned = 0, n_made = 0;
  const HsVehicleRow *owned = NULL, *made = NULL;

  for (guint i = 0; i < vehicles->len; i++)
    {
      const HsVehicleRow *vehicle = g_ptr_array_index (vehicles, i);
      gboolean is_owner = FALSE;

      if (g_strcmp0 (vehicle->id, hint->vehicle_id) == 0)
        {
          *ret_only = vehicle;
          return TRUE;
        }
      if (hint->customer_id != NULL && !owns (store, vehicle, hint->customer_id, &is_owner, error))
        return FALSE;
      if (is_owner && n_owned++ == 0)
        owned = vehicle;
      if (!hs_text_is_blank (hint->make) && is_of_make (vehicle, hint->make) && n_made++ == 0)
        made = vehicle;
    }
  *ret_only = n_owned == 1 ? owned : n_made == 1 ? made : NULL;
  return TRUE;
}

static gboolean
describe (HsStore *store, const HsVehicleRow *vehicle, guint digit, GString *text, GError **error)
{
  g_autofree char *name = hs_vehicle_name (vehicle);
  g_autoptr (HsOwnershipRow) present = NULL;
  g_autoptr (HsCustomerRow) owner = NULL;

  if (!hs_ownership_row_present (store, vehicle->id, &present, error)
      || (present != NULL && !hs_customer_row_load (store, present->customer_id, &owner, error)))
    return FALSE;
  g_string_append_printf (text, "%s%u %s, %s", digit > 1 ? "; " : "", digit,
                          hs_text_is_blank (name) ? "of no known make" : name,
                          owner != NULL ? owner->name : "no owner known");
  return TRUE;
}

static gboolean
refuse_several (HsStore *store, GPtrArray *vehicles, const char *plate, GError **error)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < MIN (vehicles->len, MOST_NAMED); i++)
    if (!describe (store, g_ptr_array_index (vehicles, i), i + 1, text, error))
      return FALSE;
  return hs_ops_refuse (error, "Which “%s”? %s. Write its figure behind the plate: “%s/1”.", plate, text->str, plate);
}

/* "TDM 1315/2": the second of those that share the plate. */
static gboolean
find_nth (HsStore *store, const char *plate, GPtrArray **ret_vehicles, guint *ret_nth, GError **error)
{
  const char *slash = strrchr (plate, '/');
  g_autofree char *bare = slash != NULL ? g_strndup (plate, (gsize) (slash - plate)) : NULL;

  *ret_nth = 0;
  *ret_vehicles = g_ptr_array_new ();
  if (slash == NULL || !g_ascii_isdigit (slash[1]) || slash[2] != '\0')
    return TRUE;
  g_clear_pointer (ret_vehicles, g_ptr_array_unref);
  *ret_nth = (guint) g_ascii_digit_value (slash[1]);
  return hs_vehicle_row_list_by_plate (store, bare, ret_vehicles, error);
}

gboolean
hs_plate_find_vehicle (HsStore *store, const char *plate, const HsPlateHint *hint, HsVehicleRow **ret_vehicle,
                       GError **error)
{
  g_autoptr (GPtrArray) vehicles = NULL, shared = NULL;
  const HsVehicleRow *only = NULL;
  guint nth = 0;

  if (!hs_vehicle_row_list_by_plate (store, plate, &vehicles, error))
    return FALSE;
  if (vehicles->len == 1)
    only = g_ptr_array_index (vehicles, 0);
  else if (vehicles->len > 1 && !find_only (store, vehicles, hint, &only, error))
    return FALSE;
  if (vehicles->len > 1 && only == NULL)
    return refuse_several (store, vehicles, plate, error);
  if (vehicles->len == 0 && !find_nth (store, plate, &shared, &nth, error))
    return FALSE;
  if (shared != NULL && shared->len > 1 && nth >= 1 && nth <= shared->len)
    only = g_ptr_array_index (shared, nth - 1);
  *ret_vehicle = only != NULL ? hs_vehicle_row_copy (only) : NULL;
  return TRUE;
}
