// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Ohm's law where it matters at the roadside: what a wrong or stiff source drives through a battery, and what share of
 * its rating an alternator gives. */

#include "hs-circuit.h"

double
hs_circuit_surge_amps (double source_volts, double battery_volts, double milliohms)
{
  return (source_volts - battery_volts) / (milliohms / 1000);
}

double
hs_circuit_share_percent (double amps, double rated)
{
  return amps / rated * 100;
}
