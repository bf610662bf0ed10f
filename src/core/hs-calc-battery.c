// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for batteries. */

#include "hs-calc-private.h"

const HsCalc hs_calc_battery[] = {
  HS_CALC_SHELF_END,
};
