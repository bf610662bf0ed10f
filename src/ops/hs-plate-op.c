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

#define MOST_DIGITS 2

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

/* @said: (nullable): the figure that was written and is none of them. */
static gboolean
refuse_several (HsStore *store, GPtrArray *vehicles, const char *plate, const char *said, GError **error)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < MIN (vehicles->len, MOST_NAMED); i++)
    if (!describe (store, g_ptr_array_index (vehicles, i), i + 1, text, error))
      return FALSE;
  if (said != NULL)
    return hs_ops_refuse (error, "There is no “%s”; “%s” is: %s. Write its figure behind the plate: “%s/1”, or “%s/0” "
                                 "for none of these.", said, plate, text->str, plate, plate);
  return hs_ops_refuse (error, "Which “%s”? %s. Write its figure behind the plate: “%s/1”, or “%s/0” for none of "
                               "these.", plate, text->str, plate, plate);
}

/* "TDM 1315/2": the figure, and the plate without it; %FALSE where there is none. */
static gboolean
split_figure (const char *plate, char **ret_bare, guint64 *ret_figure)
{
  const char *slash = strrchr (plate, '/');

  if (slash == NULL || slash[1] == '\0' || strlen (slash + 1) > MOST_DIGITS
      || strspn (slash + 1, "0123456789") != strlen (slash + 1))
    return FALSE;
  *ret_bare = g_strstrip (g_strndup (plate, (gsize) (slash - plate)));
  *ret_figure = g_ascii_strtoull (slash + 1, NULL, 10);
  return **ret_bare != '\0';
}

/* The one of @vehicles that the figure behind the plate means; 0 means none of them. */
static gboolean
take_figure (HsStore *store, GPtrArray *vehicles, const char *plate, const char *bare, guint64 figure,
             HsVehicleRow **ret_vehicle, GError **error)
{
  if (figure > vehicles->len)
    return refuse_several (store, vehicles, bare, plate, error);
  *ret_vehicle = figure > 0 ? hs_vehicle_row_copy (g_ptr_array_index (vehicles, figure - 1)) : NULL;
  return TRUE;
}

static gboolean
take_plate (HsStore *store, GPtrArray *vehicles, const char *plate, const HsPlateHint *hint, HsVehicleRow **ret_vehicle,
            GError **error)
{
  const HsVehicleRow *only = NULL;

  if (vehicles->len == 1)
    only = g_ptr_array_index (vehicles, 0);
  else if (vehicles->len > 1 && !find_only (store, vehicles, hint, &only, error))
    return FALSE;
  if (vehicles->len > 1 && only == NULL)
    return refuse_several (store, vehicles, plate, NULL, error);
  *ret_vehicle = only != NULL ? hs_vehicle_row_copy (only) : NULL;
  return TRUE;
}

gboolean
hs_plate_find_vehicle (HsStore *store, const char *plate, const HsPlateHint *hint, HsVehicleRow **ret_vehicle,
                       GError **error)
{
  g_autoptr (GPtrArray) vehicles = NULL;
  g_autofree char *bare = NULL;
  guint64 figure;

  if (split_figure (plate, &bare, &figure))
    {
      if (!hs_vehicle_row_list_by_plate (store, bare, &vehicles, error))
        return FALSE;
      if (vehicles->len > 0)
        return take_figure (store, vehicles, plate, bare, figure, ret_vehicle, error);
      g_clear_pointer (&vehicles, g_ptr_array_unref);
    }
  return hs_vehicle_row_list_by_plate (store, plate, &vehicles, error)
         && take_plate (store, vehicles, plate, hint, ret_vehicle, error);
}

char *
hs_plate_dup_bare (const char *plate, GError **error)
{
  g_autofree char *bare = NULL;
  guint64 figure;

  if (!split_figure (plate, &bare, &figure))
    return g_strdup (plate);
  if (figure == 0)
    return g_steal_pointer (&bare);
  hs_ops_refuse (error, "No vehicle of this book has “%s”, so there is no “%s”. Write the plate without the figure.",
                 bare, plate);
  return NULL;
}
