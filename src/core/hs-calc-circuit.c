// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for circuits: drops, cables, fuses. */

#include "hs-calc-private.h"

const HsCalc hs_calc_circuit[] = {
  HS_CALC_SHELF_END,
};
