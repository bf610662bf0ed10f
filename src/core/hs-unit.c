// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Units of the wrench, the gauge and the jug, with the exact factors between them. */

#include "hs-unit.h"

#include "hs-core-error.h"

static const HsUnit units[] = {
  { "lbfft", "lbf·ft", "torque", HS_UNIT_NM_PER_LBFFT, 0 },
  { "lbfin", "lbf·in", "torque", HS_UNIT_NM_PER_LBFIN, 0 },
  { "kgfm", "kgf·m", "torque", 9.80665, 0 },
  { "nm", "N·m", "torque", 1, 0 },
  { "psi", "psi", "pressure", HS_UNIT_KPA_PER_PSI, 0 },
  { "bar", "bar", "pressure", HS_UNIT_KPA_PER_BAR, 0 },
  { "kpa", "kPa", "pressure", 1, 0 },
  { "inch", "in", "length", 25.4, 0 },
  { "mm", "mm", "length", 1, 0 },
  { "mile", "mi", "distance", 1.609344, 0 },
  { "km", "km", "distance", 1, 0 },
  { "gal", "gal (US)", "volume", 3.785411784, 0 },
  { "qt", "qt (US)", "volume", 0.946352946, 0 },
  { "liter", "L", "volume", 1, 0 },
  { "fahrenheit", "°F", "temperature", 1 / 1.8, 32 },
  { "celsius", "°C", "temperature", 1, 0 },
};

const HsUnit *
hs_unit_get_nth (guint nth)
{
  return nth < G_N_ELEMENTS (units) ? &units[nth] : NULL;
}

const HsUnit *
hs_unit_lookup (const char *id)
{
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_str_equal (units[i].id, id))
      return &units[i];
  return NULL;
}

gboolean
hs_unit_convert (double value, const HsUnit *from, const HsUnit *to, double *ret_value, GError **error)
{
  if (!g_str_equal (from->quantity, to->quantity))
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s is a %s and %s is a %s: one cannot be the other",
                   from->name, from->quantity, to->name, to->quantity);
      return FALSE;
    }
  *ret_value = (value - from->zero) * from->factor / to->factor + to->zero;
  return TRUE;
}
