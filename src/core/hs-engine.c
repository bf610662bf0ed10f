// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Engine tests with a gauge: compression dry and wet, and the pressure that a cooling system holds. Compares cylinders
 * with each other; what one engine must reach is its maker's figure. */

#include "hs-engine.h"

static gboolean
can_compare (const gint64 *values, gsize n)
{
  gint64 most = 0;

  for (gsize i = 0; i < n; i++)
    {
      if (values[i] < 0)
        return FALSE;
      most = MAX (most, values[i]);
    }
  return n >= 2 && most > 0;
}

/* value < 0.75 × highest: the three quarters are rounded up, which no whole number can tell apart. */
static gboolean
is_below_75 (gint64 value, gint64 highest)
{
  return value < highest - highest / 4;
}

gboolean
hs_compression_compare (const gint64 *values, gsize n, HsCompression *ret_compression)
{
  HsCompression found = { 0 };

  if (!can_compare (values, n))
    return FALSE;
  for (gsize i = 1; i < n; i++)
    {
      found.lowest = values[i] < values[found.lowest] ? i : found.lowest;
      found.highest = values[i] > values[found.highest] ? i : found.highest;
    }
  for (gsize i = 1; i < n; i++)
    if (is_below_75 (values[i - 1], values[found.highest]) && is_below_75 (values[i], values[found.highest]))
      found.neighbors_low = TRUE;
  found.lowest_percent = (double) values[found.lowest] / (double) values[found.highest] * 100;
  found.least_75 = (double) values[found.highest] * 0.75;
  found.least_70 = (double) values[found.highest] * 0.70;
  *ret_compression = found;
  return TRUE;
}

HsWetTest
hs_compression_wet (gint64 dry, gint64 wet)
{
  gint64 rise = wet - dry;

  if (rise >= dry / 10)
    return HS_WET_RINGS;
  return rise < dry / 20 ? HS_WET_VALVES : HS_WET_UNCLEAR;
}

double
hs_cooling_lost (double start, double end)
{
  return MAX (start - end, 0);
}
