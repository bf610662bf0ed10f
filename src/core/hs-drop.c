// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Voltage drop over a part of a circuit that carries its current: its resistance, and whether it is much for the
 * current though the limit of its place is kept. The limits by place stand in the catalog of checks. */

#include "hs-drop.h"

#include "hs-decimal.h"

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
