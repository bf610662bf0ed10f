// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsCompression:
 * @lowest: which cylinder is lowest, from 0
 * @highest: which is highest
 * @lowest_percent: lowest of highest
 * @neighbors_low: two cylinders that were given one after the other are below 75 % of the highest
 * @least_75: 75 % of the highest
 * @least_70: 70 % of it
 *
 * How alike the cylinders of one engine are.
 */
typedef struct
{
  gsize lowest;
  gsize highest;
  double lowest_percent;
  gboolean neighbors_low;
  double least_75;
  double least_70;
} HsCompression;

/**
 * hs_compression_compare:
 * @values: (array length=n): × 10^%HS_DECIMAL_MOST, in any one unit, in the order of the cylinders of a bank
 * @n: two or more
 * @ret_compression: (out): untouched on failure
 *
 * The lowest is at least 75 % of the highest (maker manuals 1992, 1997, 2012), or at least 70 % with none below
 * 100 psi (690 kPa) (another maker, 2006: 1035 kPa gives 725).
 *
 * Returns: %FALSE if there are fewer than two, one is below zero, or all are 0
 */
gboolean hs_compression_compare (const gint64 *values, gsize n, HsCompression *ret_compression);

/* The least that any cylinder may have beside the 70 % rule, as printed. */
#define HS_COMPRESSION_LEAST_PSI 100
#define HS_COMPRESSION_LEAST_KPA 690

/**
 * HsWetTest:
 * @HS_WET_RINGS: oil seals it: rings, pistons, bore
 * @HS_WET_VALVES: oil changes nothing: valves, seats, camshaft; with a low neighbor the head gasket
 * @HS_WET_UNCLEAR: a little more
 *
 * What 15 ml of oil in the low cylinder tell.
 */
typedef enum
{
  HS_WET_RINGS,
  HS_WET_VALVES,
  HS_WET_UNCLEAR,
} HsWetTest;

/* hs_compression_wet: rises by 10 % or more of the dry value: rings; by less than 5 %: valves. That it rises or does
 * not is in maker manuals; how much counts as rising is common practice. Both scaled alike, @dry above 0. */
HsWetTest hs_compression_wet (gint64 dry, gint64 wet);

/* hs_cooling_lost: pressure at the start less that at the end; none below 0: a warming system may rise. */
double hs_cooling_lost (double start, double end);

G_END_DECLS
