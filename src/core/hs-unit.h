// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsUnit:
 * @id: `lbfft`, `nm`, `psi` …
 * @name: as it is shown: `lbf·ft`
 * @quantity: `torque`, `pressure`, `length`, `distance`, `volume`, `temperature`: only alike ones convert
 * @factor: × @factor is the quantity's own unit: N·m, kPa, mm, km, liter, °C
 * @zero: taken off before: 32 for °F
 *
 * One unit. Factors are exact: 0.45359237 kg, 9.80665 m/s², 0.0254 m, 231 cubic inches (NIST SP 811).
 */
typedef struct
{
  const char *id;
  const char *name;
  const char *quantity;
  double factor;
  double zero;
} HsUnit;

/* As HsCalcKey.choices. */
#define HS_UNITS "lbfft|lbfin|kgfm|nm|psi|bar|kpa|inch|mm|mile|km|gal|qt|liter|fahrenheit|celsius"

#define HS_UNIT_NM_PER_LBFFT 1.3558179483314004
#define HS_UNIT_NM_PER_LBFIN (HS_UNIT_NM_PER_LBFFT / 12)
#define HS_UNIT_KPA_PER_PSI 6.894757293168361
#define HS_UNIT_KPA_PER_BAR 100.0

/* hs_unit_lookup: (transfer none) (nullable) */
const HsUnit *hs_unit_lookup (const char *id);

/* hs_unit_get_nth: (transfer none) (nullable): in the order of %HS_UNITS. */
const HsUnit *hs_unit_get_nth (guint nth);

/**
 * hs_unit_convert:
 * @ret_value: (out): @value of @from in @to; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE if the two measure different things
 */
gboolean hs_unit_convert (double value, const HsUnit *from, const HsUnit *to, double *ret_value, GError **error);

G_END_DECLS
