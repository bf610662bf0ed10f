// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsDropPlace:
 *
 * Where a drop is measured, in the order of %HS_DROP_PLACES and of %HS_WORDS_DROP_PLACE.
 */
typedef enum
{
  HS_DROP_CONNECTION,
  HS_DROP_SHORT_CABLE,
  HS_DROP_CABLE,
  HS_DROP_MECHANICAL_SWITCH,
  HS_DROP_SOLENOID_SWITCH,
  HS_DROP_MAGNETIC_SWITCH,
  HS_DROP_GROUND,
  HS_DROP_STARTER_POSITIVE,
  HS_DROP_STARTER_NEGATIVE,
  HS_DROP_CHARGING_POSITIVE,
  HS_DROP_CHARGING_NEGATIVE,
} HsDropPlace;

#define HS_N_DROP_PLACES (HS_DROP_CHARGING_NEGATIVE + 1)

/* As HsCalcKey.choices; each is the id of its limit's condition in the catalog. */
#define HS_DROP_PLACES                                                                                                 \
  "connection|short-cable|cable|mechanical-switch|solenoid-switch|magnetic-switch|ground|starter-positive|"            \
  "starter-negative|charging-positive|charging-negative"

/* hs_drop_milliohms: the resistance that loses @volts at @amps, which are not 0. */
double hs_drop_milliohms (double volts, double amps);

/* On any path for heavy current at most this is lost: 0.20 V per 100 A (US Army TM 10-3930-671-24 p. F-303). */
#define HS_DROP_HEAVY_MILLIOHMS 2

/* From here on current is heavy. */
#define HS_DROP_HEAVY_AMPS 100

/**
 * hs_drop_is_heavy:
 * @volts: lost, × 10^%HS_DECIMAL_MOST, 0 or more
 * @amps: carried, scaled alike
 *
 * Whether a drop deserves a closer look though the place as a whole keeps its limit: above 0.20 V per 100 A, on the
 * starter's sides always, elsewhere from 100 A on. Compared exactly: 0.36 V at 180 A is not above.
 *
 * Returns: %TRUE if it does
 */
gboolean hs_drop_is_heavy (HsDropPlace place, gint64 volts, gint64 amps);

G_END_DECLS
