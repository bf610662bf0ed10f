// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for who a vehicle is and what its codes say. */

#include "hs-calc-private.h"

const HsCalc hs_calc_identity[] = {
  HS_CALC_SHELF_END,
};
