// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Draw and time: days to no-start, the draw behind a flat battery, run time by Peukert's law, and reserve capacity
 * turned into amp-hours. Arguments are in range; a caller checks. */

#include "hs-drain.h"

#include <math.h>

#define RESERVE_AMPS 25
#define HOURS_A_DAY 24

double
hs_drain_days (double amp_hours, double share, double amps)
{
  return amp_hours * share / amps / HOURS_A_DAY;
}

double
hs_drain_amps (double amp_hours, double share, double days)
{
  return amp_hours * share / (days * HOURS_A_DAY);
}

double
hs_drain_hours (double amp_hours, double exponent, double amps)
{
  return HS_DRAIN_RATED_HOURS * pow (amp_hours / (amps * HS_DRAIN_RATED_HOURS), exponent);
}

double
hs_drain_amp_hours_at_25 (double reserve_minutes)
{
  return reserve_minutes * RESERVE_AMPS / 60;
}

double
hs_drain_amp_hours_of_reserve (double reserve_minutes)
{
  return reserve_minutes * 0.6;
}

double
hs_drain_amp_hours_of_reserve_other (double reserve_minutes)
{
  return reserve_minutes / 2 + 16;
}

double
hs_drain_amp_hours_by_peukert (double reserve_minutes, double exponent)
{
  double rated_hours = reserve_minutes / 60 / HS_DRAIN_RATED_HOURS;

  return HS_DRAIN_RATED_HOURS * RESERVE_AMPS * pow (rated_hours, 1 / exponent);
}

double
hs_drain_maker_milliamps (double reserve_minutes)
{
  return reserve_minutes / 4;
}
