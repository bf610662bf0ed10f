// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* How long a battery lasts, and what an empty one says about what drained it. Amps, amp-hours (20 h rating), hours. */

/* Hours of the rating that is on the label. */
#define HS_DRAIN_RATED_HOURS 20

/* Share of a full battery that may be gone before it no longer starts: 0.4 at 25 °C (GM bulletin). */
#define HS_DRAIN_USUAL_SHARE 0.4

/* hs_drain_days: Ah × share / A / 24; @amps above 0. Below the 20 h rate no Peukert correction is due. */
double hs_drain_days (double amp_hours, double share, double amps);

/* hs_drain_amps: the steady draw that takes a battery to no-start in @days: Ah × share / (days × 24); @days above 0. */
double hs_drain_amps (double amp_hours, double share, double days);

/**
 * hs_drain_hours:
 * @amp_hours: 20 h rating
 * @exponent: Peukert's: flooded 1.2 to 1.3, AGM 1.05 to 1.15
 * @amps: above 0
 *
 * t = H × (C / (I × H))^k with H = 20 h. The form without H is off by H^(k − 1) for a battery that is rated in 20 h.
 *
 * Returns: hours until it is empty
 */
double hs_drain_hours (double amp_hours, double exponent, double amps);

/**
 * hs_drain_amp_hours_at_25:
 * @reserve_minutes: reserve capacity: minutes at 25 A and 80 °F to 10.5 V
 *
 * Returns: amp-hours given at 25 A: minutes × 25 / 60
 */
double hs_drain_amp_hours_at_25 (double reserve_minutes);

/* hs_drain_amp_hours_of_reserve: about the 20 h rating: minutes × 0.6 (GM bulletin); an estimate. */
double hs_drain_amp_hours_of_reserve (double reserve_minutes);

/* hs_drain_amp_hours_of_reserve_other: another rule, minutes / 2 + 16; a weak source; an estimate. */
double hs_drain_amp_hours_of_reserve_other (double reserve_minutes);

/* hs_drain_amp_hours_by_peukert: the 20 h rating that lasts @reserve_minutes at 25 A; an estimate. */
double hs_drain_amp_hours_by_peukert (double reserve_minutes, double exponent);

/* hs_drain_maker_milliamps: one maker's limit of 2001: minutes of reserve capacity / 4. */
double hs_drain_maker_milliamps (double reserve_minutes);

G_END_DECLS
