// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* hs_relay_coil_amps: what a coil of @ohms draws at @volts. */
double hs_relay_coil_amps (double volts, double ohms);

/* Coils of usual 12 V relays (relay note; relay data sheet with 75 ohm): 150 to 200 mA. */
#define HS_RELAY_COIL_LEAST_OHMS 60
#define HS_RELAY_COIL_MOST_OHMS 80

/* One 12 V type has pulled in at 8 V or less (relay data sheet). */
#define HS_RELAY_PICK_UP_VOLTS 8

/* hs_relay_new_contact_volts: what a new contact loses at @amps: 50 mV at 10 A (relay data sheet). */
double hs_relay_new_contact_volts (double amps);

/**
 * hs_relay_terminal:
 * @number: `30`, `85`, `86`, `87`, `87a`
 *
 * What the number on a relay's pin means (relay note citing DIN 72552).
 *
 * Returns: (transfer none) (nullable): one sentence, %NULL for another number
 */
const char *hs_relay_terminal (const char *number);

/* As HsCalcKey.choices. */
#define HS_RELAY_TERMINALS "30|85|86|87|87a"

G_END_DECLS
