// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What the density of a lead-acid battery's electrolyte says. Specific gravity is a plain number, 1.265 when full. */

/* hs_acid_fahrenheit: degrees Celsius × 1.8 + 32. */
double hs_acid_fahrenheit (double celsius);

/**
 * hs_acid_gravity_at_80_fahrenheit:
 * @gravity: as the hydrometer shows it
 * @fahrenheit: of the electrolyte
 *
 * SG80 = SG + 0.004 × (°F − 80) / 10 (battery-maker table; US Army TM 5-3820-256-24-4 prints 1.250 at 20 °F as 1.226).
 *
 * Returns: the gravity it would have at 80 °F (26.7 °C)
 */
double hs_acid_gravity_at_80_fahrenheit (double gravity, double fahrenheit);

/**
 * hs_acid_volts_of_gravity:
 * @gravity: at 80 °F
 *
 * V ≈ 6 × (SG + 0.84): a cross-check to ±0.08 V for six cells at rest, no more (from memory).
 */
double hs_acid_volts_of_gravity (double gravity);

/**
 * hs_acid_volts_at_80_fahrenheit:
 * @volts: at rest, as read
 * @fahrenheit: of the battery
 *
 * One battery maker's table moves volts at rest by 0.024 V for 10 °F, as if they followed the hydrometer. Other sources
 * differ by 3 to 20 times, so this is never applied unless the owner asks for it.
 *
 * Returns: what the maker's table would have at 80 °F
 */
double hs_acid_volts_at_80_fahrenheit (double volts, double fahrenheit);

/* Spread between two cells of a fully charged battery: above the first it is unserviceable by TM 9-6140-200-14 ¶4-7,
 * above the second by TM 5-3740-214-14. A cell below the third is to be replaced by TM 5-3740-214-14. */
#define HS_ACID_SPREAD_WATCH 0.025
#define HS_ACID_SPREAD_OUTSIDE 0.050
#define HS_ACID_LEAST_CELL 1.150

/**
 * hs_acid_spread:
 * @cells: (array length=n_cells): gravity of each cell × 10^9, one or more
 * @ret_least: (out) (optional): the weakest cell, scaled alike
 *
 * Returns: the largest less the smallest, scaled alike
 */
gint64 hs_acid_spread (const gint64 *cells, gsize n_cells, gint64 *ret_least);

/**
 * hs_acid_freezes_at_percent:
 * @percent: state of charge, 0 to 100
 *
 * Straight line between the rows of US Army TM 5-3820-256-24-4 Table 2: 100 % −59.5 °C, 75 % −37.2, 50 % −26.1,
 * 25 % −15.0, 0 % −9.4. A discharged battery may freeze already at −7 °C (TM 5-4210-230-14&P-1).
 *
 * Returns: degrees Celsius
 */
double hs_acid_freezes_at_percent (double percent);

/* hs_acid_freezes_at_gravity: the same table by gravity at 80 °F; 1.120 is 0 %, 1.265 is 100 %, clamped. */
double hs_acid_freezes_at_gravity (double gravity);

/* hs_acid_percent_of_gravity: state of charge by gravity at 80 °F, the same table read the other way. */
double hs_acid_percent_of_gravity (double gravity);

/**
 * hs_acid_lost_a_day:
 * @fahrenheit: where it stands
 * @ret_lost: (out): gravity lost a day, the first ten days; untouched on failure
 *
 * 0.0025 at 100 °F, 0.001 at 80 °F, 0.0003 at 50 °F (US Army TM 9-6140-200-14), straight lines between.
 *
 * Returns: %FALSE outside 50 to 100 °F, for which the manual has no row
 */
gboolean hs_acid_lost_a_day (double fahrenheit, double *ret_lost);

/**
 * hs_acid_cranking_percent:
 * @fahrenheit: of a full battery
 * @ret_percent: (out): of the cranking power it has at 80 °F; untouched on failure
 *
 * 100 % at 80 °F, 65 % at 30 °F, 40 % at 0 °F (US Army TM 5-1185), straight lines between.
 *
 * Returns: %FALSE below 0 °F
 */
gboolean hs_acid_cranking_percent (double fahrenheit, double *ret_percent);

G_END_DECLS
