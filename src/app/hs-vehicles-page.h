// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"

G_BEGIN_DECLS

/** Vehicles: search as you type, the battery in it now, its history. Digits typed anywhere on it search. */
#define HS_TYPE_VEHICLES_PAGE (hs_vehicles_page_get_type ())
G_DECLARE_FINAL_TYPE (HsVehiclesPage, hs_vehicles_page, HS, VEHICLES_PAGE, HsPage)

G_END_DECLS
