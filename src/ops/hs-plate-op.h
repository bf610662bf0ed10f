// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-row.h"
#include "hs-vehicle-row.h"

G_BEGIN_DECLS

/**
 * HsPlateHint: what else is known of the vehicle whose plate was read.
 * @vehicle_id: (nullable): the one that the job has already
 * @customer_id: (nullable): who called
 * @make: (nullable): as it was told
 */
typedef struct
{
  const char *vehicle_id;
  const char *customer_id;
  const char *make;
} HsPlateHint;

/**
 * hs_plate_find_vehicle:
 * @plate: as it was read; behind it, after a slash, which of the vehicles with that plate is meant: `TDM 1315/2`, or
 *   `TDM 1315/0` for none of them
 * @ret_vehicle: (out) (nullable): %NULL if no vehicle has the plate, or none of those that have it is meant
 * @error: return location; a plate of several vehicles is a question that names them all, with the figure that
 *   answers it, and so is a figure that is none of theirs
 *
 * Plates repeat from state to state. Of several vehicles the one is taken that the job has, that the caller owns or
 * that is of the make that was told; never simply the first.
 */
gboolean hs_plate_find_vehicle (HsStore *store, const char *plate, const HsPlateHint *hint, HsVehicleRow **ret_vehicle,
                                GError **error);

/* hs_plate_dup_bare: the plate that is written for a vehicle that hs_plate_find_vehicle () does not find: without its
 * figure. Refuses a figure that chooses among none. */
char *hs_plate_dup_bare (const char *plate, GError **error);

G_END_DECLS
