// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsFuseBody:
 * @HS_FUSE_MINI: small blade, type F, 10.9 × 3.6 × 16.3 mm
 * @HS_FUSE_REGULAR: blade, type C, 19.1 × 5.1 × 18.5 mm
 * @HS_FUSE_MAXI: large blade, type E, 29.2 × 8.5 × 34.3 mm
 * @HS_FUSE_TORPEDO: old ceramic fuse, DIN 72581-1
 *
 * Families of plug-in fuses; blades are ISO 8820-3.
 */
typedef enum
{
  HS_FUSE_MINI,
  HS_FUSE_REGULAR,
  HS_FUSE_MAXI,
  HS_FUSE_TORPEDO,
} HsFuseBody;

#define HS_N_FUSE_BODIES (HS_FUSE_TORPEDO + 1)

/* As HsCalcKey.choices, in the order of #HsFuseBody. */
#define HS_FUSE_BODIES "mini|regular|maxi|torpedo"

/**
 * HsFuse:
 * @milliamps: rating, 7500 for 7.5 A
 * @colors: the usual color, then with | between what other charts call it: "orange|amber"
 * @milliohms: typical resistance when cold, ±15 %; 0 = none is known
 * @seen: @milliohms agrees with a published reading, it is not only remembered
 *
 * One rating of a family.
 */
typedef struct
{
  HsFuseBody body;
  int milliamps;
  const char *colors;
  double milliohms;
  gboolean seen;
} HsFuse;

/* What a usual meter shows at least on its millivolt range. */
#define HS_FUSE_METER_MILLIVOLTS 0.1

/* hs_fuse_body_text: (transfer none): type and outline, "Regular blade, type C, 19.1 × 5.1 × 18.5 mm" (outlines:
 * secondary text; types, 32 or 58 V and 1000 A to break: scope of ISO 8820-3:2015). */
const char *hs_fuse_body_text (HsFuseBody body);

/* hs_fuse_get_nth: (transfer none) (nullable): by family and rating; %NULL behind the last. */
const HsFuse *hs_fuse_get_nth (guint nth);

/* hs_fuse_lookup: (transfer none) (nullable): %NULL if the family has no such rating. */
const HsFuse *hs_fuse_lookup (HsFuseBody body, int milliamps);

/* hs_fuse_dup_ratings: (transfer full): "0.5, 1, 2, 3 … 40", in amps; with a @color (any case, gray or grey) only those
 * that may have it, empty if none has. */
char *hs_fuse_dup_ratings (HsFuseBody body, const char *color);

/**
 * hs_fuse_draw_milliamps:
 * @fuse: with a known resistance
 * @millivolts: across its two test points
 *
 * Millivolts divided by the resistance of the cold fuse. Agrees with two published readings: regular 10 A, 1 mV is
 * 130 mA (training site); mini 15 A, 1.0 mV is 218 mA and 0.1 mV is 22 mA (trade magazine, June 2017).
 *
 * Returns: milliamps, or NaN if no resistance is known
 */
double hs_fuse_draw_milliamps (const HsFuse *fuse, double millivolts);

/**
 * HsFuseOpening:
 * @least_seconds: it may already open after
 * @most_seconds: it has opened by then; −1 if it may hold for good
 *
 * How long a blade fuse holds.
 */
typedef struct
{
  double least_seconds;
  double most_seconds;
} HsFuseOpening;

/**
 * hs_fuse_opening:
 * @share: current as a share of the rating, 2 = twice
 *
 * The gates of a blade fuse, as steps: up to 110 % 100 h or more, 135 % 0.75 to 600 s, 200 % 0.15 to 5 s,
 * 350 % 0.04 to 0.5 s, 600 % 0.02 to 0.1 s (ISO 8820-3 and SAE J1284 as remembered, not verified). The row at or below
 * @share says how long it may last at most, the row at or above it how soon it may open; above 600 % at once.
 *
 * Returns: the times
 */
HsFuseOpening hs_fuse_opening (double share);

G_END_DECLS
