// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The AWG sizes taken, as numbers: 1/0 is 0, 2/0 is −1, 3/0 is −2, 4/0 is −3. */
#define HS_CABLE_AWG_THICKEST (-3)
#define HS_CABLE_AWG_THINNEST 30

/**
 * hs_cable_awg_parse:
 * @text: `20` … `1`, `1/0` … `4/0`, also `0`, `00`, `000`, `0000`
 * @ret_awg: (out): as above; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Returns: %TRUE if there is such a size
 */
gboolean hs_cable_awg_parse (const char *text, int *ret_awg, GError **error);

/* hs_cable_awg_diameter_mm: of the bare copper: 0.127 × 92^((36 − n) / 39) (ASTM B258). */
double hs_cable_awg_diameter_mm (int awg);

/* hs_cable_awg_mm2: its area, π d² / 4. */
double hs_cable_awg_mm2 (int awg);

/* Copper at 20 °C, ohm mm² per meter: 1/58 (IEC 1913, 100 % IACS). */
#define HS_CABLE_COPPER (1.0 / 58.0)

/* hs_cable_milliohms_per_meter: of solid copper of that area at 20 °C. */
double hs_cable_milliohms_per_meter (double mm2);

/**
 * hs_cable_class5_milliohms_per_meter:
 * @micro_mm2: area in millionths of a mm², 2.5 mm² is 2500000: only sizes that stand in the table
 * @tinned: strands of tinned copper
 *
 * The most that a fine-stranded cable may have at 20 °C: IEC 60228 class 5, 0.5 to 120 mm², tinned to 35 mm².
 *
 * Returns: milliohms per meter, 0 if the table does not have that size
 */
double hs_cable_class5_milliohms_per_meter (gint64 micro_mm2, gboolean tinned);

/* hs_cable_warm: the resistance at @celsius of what has @milliohms at 20 °C: × (1 + 0.00393 (T − 20)). */
double hs_cable_warm (double milliohms, double celsius);

/* hs_cable_drop_volts: what is lost on @meters of conductor, out and back counted, at @amps. */
double hs_cable_drop_volts (double milliohms_per_meter, double meters, double amps);

G_END_DECLS
