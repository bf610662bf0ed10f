// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for engine, brakes, tires and torque. */

#include "hs-calc-private.h"

const HsCalc hs_calc_wheels[] = {
  HS_CALC_SHELF_END,
};
