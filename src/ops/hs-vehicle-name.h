// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vehicle-row.h"

G_BEGIN_DECLS

/* hs_vehicle_name: (transfer full): "Vostle Crag 2016" from what is known of it; empty if nothing is. */
char *hs_vehicle_name (const HsVehicleRow *vehicle);

G_END_DECLS
