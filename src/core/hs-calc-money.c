// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for money, dates and stock. */

#include "hs-calc-private.h"

const HsCalc hs_calc_money[] = {
  HS_CALC_SHELF_END,
};
