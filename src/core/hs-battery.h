// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsBatteryKind:
 *
 * In the order of %HS_WORDS_BATTERY_KIND.
 */
typedef enum
{
  HS_BATTERY_FLOODED,
  HS_BATTERY_EFB,
  HS_BATTERY_AGM,
  HS_BATTERY_LITHIUM,
  HS_BATTERY_UNKNOWN,
} HsBatteryKind;

#define HS_N_BATTERY_KINDS (HS_BATTERY_UNKNOWN + 1)

/* hs_battery_kind_id: (transfer none): `flooded`, `EFB`, `AGM`, `lithium`, `unknown`. */
const char *hs_battery_kind_id (HsBatteryKind kind);
const char *hs_battery_kind_label (HsBatteryKind kind);
gboolean hs_battery_kind_parse (const char *text, HsBatteryKind *ret_kind, GError **error);

/**
 * HsBatteryCharge:
 * @known: a figure can be given
 * @at_most: there is no figure, only "at most @per_mille"
 * @per_mille: state of charge, 0 to 1000, rounded, halves up
 * @as_flooded: read from the flooded table because the kind has none of its own (EFB)
 * @over_full: above the top of the table: surface charge, or another kind than it says
 *
 * State of charge from volts at rest; never better than ±10 % from volts alone.
 */
typedef struct
{
  gboolean known;
  gboolean at_most;
  int per_mille;
  gboolean as_flooded;
  gboolean over_full;
} HsBatteryCharge;

/**
 * hs_battery_charge:
 * @millivolts: of a 12 V battery at rest, surface charge removed
 *
 * Straight line between the rows of the table: flooded 11.89 V = 0, 12.06 = 25, 12.24 = 50, 12.45 = 75, 12.65 = 100 %
 * (battery-maker table at 80 °F); AGM 12.0 V = 25, 12.3 = 50, 12.6 = 75, 12.8 = 100 %, below 12.0 V at most 25 % and
 * no number. Lithium has no such table, and an unknown kind none that can be chosen: @known is %FALSE.
 *
 * Returns: the charge
 */
HsBatteryCharge hs_battery_charge (HsBatteryKind kind, gint64 millivolts);

/* From volts alone a state of charge is never surer than this, in percent of a full charge. */
#define HS_BATTERY_CHARGE_SURE_PERCENT 10

/**
 * hs_battery_charge_percent:
 * @volts: of a 12 V battery at rest, surface charge removed
 * @ret_percent: (out): 0 to 100, unrounded; untouched on failure
 *
 * The tables of hs_battery_charge(), for what is worked out further.
 *
 * Returns: %FALSE if the kind has no table, or the table no figure
 */
gboolean hs_battery_charge_percent (HsBatteryKind kind, double volts, double *ret_percent);

/* hs_battery_army_percent: of a flooded battery at rest by a coarse table: 11.7 V or less 0 %, 12.0 25, 12.2 50,
 * 12.4 75, 12.6 or more 100 (US Army TM 5-3805-262-20 p. 5-142), straight lines between. */
double hs_battery_army_percent (double volts);

/* hs_battery_charge_text: (transfer full) (nullable): "71 %", "at most 25 %", or %NULL if nothing can be said. */
char *hs_battery_charge_text (const HsBatteryCharge *charge);

/**
 * hs_battery_days_to_no_start:
 * @capacity_milliamp_hours: 20 h rating
 * @usable_percent: share that may be gone before it no longer starts, usually 40
 * @draw_milliamps: with all asleep
 * @ret_tenths_of_days: (out): Ah × share / (A × 24), rounded to a tenth of a day, halves up; untouched on failure
 *
 * Returns: %FALSE if there is no draw, no capacity or no share, or the sum does not fit
 */
gboolean hs_battery_days_to_no_start (gint64 capacity_milliamp_hours, gint64 usable_percent, gint64 draw_milliamps,
                                      gint64 *ret_tenths_of_days);

/**
 * hs_battery_strength_per_mille:
 * @measured_cca: amps as the tester shows them
 * @rated_cca: amps on the label, same rating standard
 *
 * Returns: measured / rated × 1000, rounded, halves up; −1 if nothing can be said
 */
gint64 hs_battery_strength_per_mille (gint64 measured_cca, gint64 rated_cca);

/* hs_battery_is_named: whether the name of a part means a battery ("AGM battery 70 Ah"), and not what belongs to one
 * ("battery cable"). */
gboolean hs_battery_is_named (const char *part);

/* From this temperature down a discharged battery may be frozen (US Army TM 5-4210-230-14&P-1). */
#define HS_BATTERY_FREEZES_CELSIUS (-7)

/* hs_battery_may_be_frozen: flat (25 % or less) and as cold as that; do not charge or jump it, thaw it first. */
gboolean hs_battery_may_be_frozen (const HsBatteryCharge *charge, int celsius);

G_END_DECLS
