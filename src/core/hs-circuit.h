// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * hs_circuit_surge_amps:
 * @source_volts: of what is connected: another vehicle, a pack, a charger
 * @battery_volts: of the battery it is connected to; below zero if the leads are swapped
 * @milliohms: of the whole loop, both inner resistances, leads and clamps; above 0
 *
 * What drives a current is the difference of both voltages, what holds it back is only the resistance:
 * I = (source − battery) / R. Reversed, both voltages add: (12.6 + 12.0) V over 24 mΩ are 1025 A.
 *
 * Returns: amps into the battery; below zero if it flows out of it
 */
double hs_circuit_surge_amps (double source_volts, double battery_volts, double milliohms);

/* Bolted main fuses of cars, amps: 80 and 150 in one carmaker's compact of 2013. */
#define HS_CIRCUIT_MAIN_FUSE_LEAST 80
#define HS_CIRCUIT_MAIN_FUSE_MOST 150

/* More than this is no 12 V source: no alternator of a 12 V vehicle is let above it. */
#define HS_CIRCUIT_12_VOLT_MOST 16

/* hs_circuit_share_percent: @amps of @rated amps, in percent. */
double hs_circuit_share_percent (double amps, double rated);

G_END_DECLS
