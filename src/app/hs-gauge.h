// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * HsGaugeBand:
 * @HS_GAUGE_BAND_WITHIN: blank with a rail
 * @HS_GAUGE_BAND_WATCH: hatched one way
 * @HS_GAUGE_BAND_OUTSIDE: hatched both ways
 * @HS_GAUGE_BAND_NOT_JUDGED: dots
 */
typedef enum
{
  HS_GAUGE_BAND_WITHIN,
  HS_GAUGE_BAND_WATCH,
  HS_GAUGE_BAND_OUTSIDE,
  HS_GAUGE_BAND_NOT_JUDGED,
} HsGaugeBand;

/** A reading on its limits: bands with their words, a needle now and before, ticks of the makers. Role meter. */
#define HS_TYPE_GAUGE (hs_gauge_get_type ())
G_DECLARE_FINAL_TYPE (HsGauge, hs_gauge, HS, GAUGE, GtkWidget)

GtkWidget *hs_gauge_new (void);

/**
 * hs_gauge_set_scale:
 * @from: left end, in the reading's unit
 * @to: right end; more than @from
 * @logarithmic: for limits that span decades; both ends must then be positive
 *
 * Starts anew: bands, ticks, makers and needles are forgotten.
 */
void hs_gauge_set_scale (HsGauge *self, double from, double to, gboolean logarithmic);

/** hs_gauge_add_band: @word: (nullable): what is written in it; from the last band's end (or the left end) to @to. */
void hs_gauge_add_band (HsGauge *self, HsGaugeBand kind, double to, const char *word);

/** hs_gauge_add_tick: @text: how the value below the band is written. */
void hs_gauge_add_tick (HsGauge *self, double value, const char *text);

/** hs_gauge_add_maker: a tick above the band: what one maker allows. */
void hs_gauge_add_maker (HsGauge *self, double value);

/**
 * hs_gauge_set_needle:
 * @known: whether there is a reading now
 * @value: the reading, in the scale's unit; beyond the ends it stands at the end
 * @text: (nullable): how it is spoken, for example “0.31 A, outside”
 */
void hs_gauge_set_needle (HsGauge *self, gboolean known, double value, const char *text);

/** hs_gauge_set_before: the hollow needle of the reading before the repair. */
void hs_gauge_set_before (HsGauge *self, gboolean known, double value);

/** hs_gauge_get_needle: @ret_value: (out): where the needle stands. Returns: whether there is one. */
gboolean hs_gauge_get_needle (HsGauge *self, double *ret_value);

/** hs_gauge_get_before: the same of the hollow needle. */
gboolean hs_gauge_get_before (HsGauge *self, double *ret_value);

/** hs_gauge_set_compact: one tick text in three, no makers’ word: for a narrow window. */
void hs_gauge_set_compact (HsGauge *self, gboolean compact);

/**
 * hs_gauge_get_fraction:
 *
 * Returns: where @value stands between the ends, 0 to 1
 */
double hs_gauge_get_fraction (HsGauge *self, double value);

G_END_DECLS
