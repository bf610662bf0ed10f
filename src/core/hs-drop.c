// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Voltage drop over a part of a circuit that carries its current: its resistance, and whether it is much for the
 * current though the limit of its place is kept. The limits by place stand in the catalog of checks. */

#include "hs-drop.h"

#include "hs-decimal.h"

static const struct
{
  const char *id;
  const char *check;
} places[] = {
  [HS_DROP_CONNECTION] = { "connection", "drop_joint" },
  [HS_DROP_SHORT_CABLE] = { "short-cable", "drop_cable" },
  [HS_DROP_CABLE] = { "cable", "drop_cable" },
  [HS_DROP_MECHANICAL_SWITCH] = { "mechanical-switch", "drop_switch" },
  [HS_DROP_SOLENOID_SWITCH] = { "solenoid-switch", "drop_switch" },
  [HS_DROP_MAGNETIC_SWITCH] = { "magnetic-switch", "drop_switch" },
  [HS_DROP_GROUND] = { "ground", "drop_ground" },
  [HS_DROP_STARTER_POSITIVE] = { "starter-positive", "drop_feed" },
  [HS_DROP_STARTER_NEGATIVE] = { "starter-negative", "drop_ground" },
  [HS_DROP_CHARGING_POSITIVE] = { "charging-positive", "drop_charging_feed" },
  [HS_DROP_CHARGING_NEGATIVE] = { "charging-negative", "drop_charging_ground" },
};

const char *
hs_drop_place_id (HsDropPlace place)
{
  return places[place].id;
}

const char *
hs_drop_check (HsDropPlace place)
{
  return places[place].check;
}

double
hs_drop_milliohms (double volts, double amps)
{
  return volts / amps * 1000;
}

gboolean
hs_drop_is_heavy (HsDropPlace place, gint64 volts, gint64 amps)
{
  gboolean starter = place == HS_DROP_STARTER_POSITIVE || place == HS_DROP_STARTER_NEGATIVE;

  if (amps <= 0 || (!starter && amps < HS_DROP_HEAVY_AMPS * hs_decimal_power (HS_DECIMAL_MOST)))
    return FALSE;
  /* Whole numbers: above amps / 500 is the same as above its whole part. */
  return volts > amps / (1000 / HS_DROP_HEAVY_MILLIOHMS);
}
