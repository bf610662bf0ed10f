// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsBrakePads:
 * @thinnest: which one, from 0
 * @spread: thickest less thinnest, scaled like the values
 *
 * Linings of one axle.
 */
typedef struct
{
  gsize thinnest;
  gint64 spread;
} HsBrakePads;

/* hs_brake_pads: of @n (1 or more) thicknesses. */
HsBrakePads hs_brake_pads (const gint64 *values, gsize n);

/* Inner and outer, or left and right, further apart than this: slides or caliper (common practice). */
#define HS_BRAKE_SPREAD_MM 2

/* What the rules print, mm: UK inspection, a lining or pad insecure or below 1.5 mm at any point (testers' manual
 * 3.5(f) as quoted); US vehicles over 10,000 lb, 1/32 in over the fastener and 1/16 in of a bonded lining or a pad
 * (49 CFR 570.59(c)); up to 10,000 lb 1/32 in (49 CFR 570.5, from memory). */
#define HS_BRAKE_UK_MM 1.5
#define HS_BRAKE_US_MM 0.79375
#define HS_BRAKE_US_HEAVY_BONDED_MM 1.5875

/**
 * HsBrakeFluid:
 * @id: `dot3` …
 * @name: as it is printed on the cap
 * @dry_celsius: a new one boils at that or above
 * @wet_celsius: one that has taken up water may not boil below
 * @official: the wet figure was read in the regulation's own interpretation
 *
 * A grade of 49 CFR 571.116.
 */
typedef struct
{
  const char *id;
  const char *name;
  int dry_celsius;
  int wet_celsius;
  gboolean official;
} HsBrakeFluid;

/* As HsCalcKey.choices. */
#define HS_BRAKE_FLUIDS "dot3|dot4|dot5|dot5.1"

/* hs_brake_fluid_get_nth: (transfer none) (nullable): in the order of %HS_BRAKE_FLUIDS. */
const HsBrakeFluid *hs_brake_fluid_get_nth (guint nth);

G_END_DECLS
