// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-road-maker.h"

G_BEGIN_DECLS

/* Wires the roads into the window, which knows of no router. */

/* hs_road_wiring_get: the works, with the map in this device's data folder. */
const HsRoadWorks *hs_road_wiring_get (void);

/* hs_road_wiring_install: installs them where the program was built with roads. */
void hs_road_wiring_install (void);

G_END_DECLS
