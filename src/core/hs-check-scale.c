// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which part of a check's scale is worth drawing. For gauges, wherever they stand. Refuses a scale without a limit. */

#include "hs-check.h"

#include <math.h>

#include "hs-decimal.h"

static double
unscaled (const HsCheck *check, gint64 value)
{
  return (double) value / (double) hs_decimal_power (check->decimals);
}

/* Between which values something is decided: the ends of all bands but those that are outside on both sides, as a dead
 * cell's or a reversed lead's. @all: those too. */
static gboolean
get_limits (const HsCheck *check, const GArray *bands, gboolean all, double *ret_low, double *ret_high)
{
  double low = INFINITY, high = -INFINITY;

  for (guint i = 0; i < bands->len; i++)
    {
      const HsCheckBand *band = &g_array_index (bands, HsCheckBand, i);

      if (!all && band->verdict == HS_VERDICT_OUTSIDE)
        continue;
      if (band->low != G_MININT64)
        low = MIN (low, unscaled (check, band->low)), high = MAX (high, unscaled (check, band->low));
      if (band->high != G_MAXINT64)
        low = MIN (low, unscaled (check, band->high)), high = MAX (high, unscaled (check, band->high));
    }
  *ret_low = low;
  *ret_high = high;
  return isfinite (low);
}

static void
get_decades (double low, double high, const double *shown, double *ret_from, double *ret_to)
{
  double least = low > 0 ? low : high;
  gboolean known = shown != NULL && *shown > 0;

  *ret_from = MIN (least / 5, known ? *shown / 1.5 : INFINITY);
  *ret_to = MAX (high * 20, known ? *shown * 1.5 : 0);
}

gboolean
hs_check_get_scale (const HsCheck *check, const GArray *bands, const double *shown, double *ret_from, double *ret_to)
{
  double low, high, room;

  if (!get_limits (check, bands, FALSE, &low, &high) && !get_limits (check, bands, TRUE, &low, &high))
    return FALSE;
  if (check->log_scale && high > 0)
    {
      get_decades (low, high, shown, ret_from, ret_to);
      return TRUE;
    }
  room = high > low ? (high - low) * 0.6 : MAX (fabs (high) * 0.5, 1);
  *ret_from = MAX (low - room, unscaled (check, check->least));
  *ret_to = MIN (high + room, unscaled (check, check->most));
  if (shown != NULL)
    {
      double most = *ret_to - *ret_from;

      *ret_from = MAX (MIN (*ret_from, *shown - room * 0.1), *ret_from - most);
      *ret_to = MIN (MAX (*ret_to, *shown + room * 0.1), *ret_to + most);
    }
  return *ret_to > *ret_from;
}
