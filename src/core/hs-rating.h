// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Ratings of starter batteries and what a tester loads them with. Every conversion between standards is an estimate:
 * they are different tests. Amps throughout. */

/* hs_rating_load_amps: half the CCA for 15 s (carmaker workshop manuals). */
double hs_rating_load_amps (double cca);

/* hs_rating_load_amps_by_tens: one maker's table: the half, rounded down to 10 A: 770 CCA → 380 A. */
double hs_rating_load_amps_by_tens (double cca);

/* hs_rating_load_amps_by_hours: 3 × Ah, at most 500 A (US Army TM 5-3805-263-14&P-2). */
double hs_rating_load_amps_by_hours (double amp_hours);

/**
 * HsRatingSpan:
 * @low: smallest of the figures that sources give
 * @high: largest
 */
typedef struct
{
  double low;
  double high;
} HsRatingSpan;

/**
 * hs_rating_sae_of_din:
 *
 * SAE ≈ 1.5 × DIN + 40 (a battery maker's sheet), or × 1.67 to 1.7 by older factors; above 400 A they part.
 *
 * Returns: both ends
 */
HsRatingSpan hs_rating_sae_of_din (double din);

/* hs_rating_en_of_sae: EN1 is 0.92 to 1.0 of the SAE rating; sources conflict. */
HsRatingSpan hs_rating_en_of_sae (double sae);

/* hs_rating_sae_of_en: the other way. */
HsRatingSpan hs_rating_sae_of_en (double en);

/* hs_rating_sae_of_ca: CA or MCA (at 0 °C) × 0.77 to 0.80. */
HsRatingSpan hs_rating_sae_of_ca (double ca);

/* hs_rating_ca_of_sae: CCA × 1.25 to 1.30. */
HsRatingSpan hs_rating_ca_of_sae (double sae);

/**
 * hs_rating_charging_volts:
 * @volts: wanted at 25 °C
 * @celsius: of the battery
 *
 * −3 mV/°C a cell, −18 mV/°C for six (battery-education text; a web note's own rows give 16.8 to 18.0).
 *
 * Returns: wanted at @celsius
 */
double hs_rating_charging_volts (double volts, double celsius);

/**
 * HsTrayFit:
 * @HS_TRAY_FITS: no side is larger than the tray's
 * @HS_TRAY_TOO_LARGE: some side is
 * @HS_TRAY_MEASURE: lists of this group size disagree: measure
 */
typedef enum
{
  HS_TRAY_FITS,
  HS_TRAY_TOO_LARGE,
  HS_TRAY_MEASURE,
} HsTrayFit;

/**
 * HsRatingGroup:
 * @id: BCI group size, `35`, `47`
 * @length: mm, largest
 * @width: mm
 * @height: mm
 * @measure: lists disagree about it
 */
typedef struct
{
  const char *id;
  int length;
  int width;
  int height;
  gboolean measure;
} HsRatingGroup;

/* hs_rating_group: (nullable): by its number, also with an `R` behind it (reversed posts). */
const HsRatingGroup *hs_rating_group (const char *id);

/* hs_rating_group_ids: (transfer full): all of them, "24, 27 …". */
char *hs_rating_group_ids (void);

/* hs_rating_tray_fit: the tray's largest sides in mm, length, width, height. Posts and hold-down are not looked at. */
HsTrayFit hs_rating_tray_fit (const HsRatingGroup *group, double length, double width, double height);

G_END_DECLS
