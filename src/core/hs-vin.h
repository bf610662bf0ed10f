// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-reference.h"

G_BEGIN_DECLS

#define HS_VIN_LENGTH 17

/* Vehicles from this model year on have that many signs (49 CFR 565); before it makers wrote fewer. */
#define HS_VIN_FIRST_YEAR 1981

/* The functions below take a VIN as hs_vin_read() gives it back. */

/* How many texts hs_vin_suggest() gives at most. */
#define HS_VIN_MOST_SUGGESTIONS 5

/* Stands for a check digit that cannot be read. */
#define HS_VIN_UNREADABLE '?'

/**
 * hs_vin_read:
 * @text: as it was typed or scanned; letter case, blanks and dashes make no difference
 * @ret_vin: (out) (transfer full): 17 capitals and digits; position 9 may be %HS_VIN_UNREADABLE; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE: the length, the character, or what to read instead of I, O, Q
 *
 * For hs_vin_normalize() of hs-ident.h a short chassis number is good enough; here it has to be a whole VIN (49 CFR
 * 565.13, ISO 3779).
 *
 * Returns: %TRUE if @text is a VIN by its form
 */
gboolean hs_vin_read (const char *text, char **ret_vin, GError **error);

/* hs_vin_sum: letters and digits times the weights of their places, 49 CFR 565.15 tables III and IV. */
guint hs_vin_sum (const char *vin);

/* hs_vin_check_digit: `0` to `9` or `X`: what position 9 should be, whatever it is; 49 CFR 565.15 table V. */
char hs_vin_check_digit (const char *vin);

/* hs_vin_needs_check_digit: whether the region it was made in prescribes one: North America or China. */
gboolean hs_vin_needs_check_digit (const char *vin);

/**
 * HsVinCheck:
 * @HS_VIN_VALID: position 9 is what it should be
 * @HS_VIN_WRONG: it is not, and the region prescribes it: something was misread
 * @HS_VIN_NOT_USED: it is not, but outside North America and China it need not be (ISO 3779)
 */
typedef enum
{
  HS_VIN_VALID,
  HS_VIN_WRONG,
  HS_VIN_NOT_USED,
} HsVinCheck;

HsVinCheck hs_vin_check (const char *vin);

/* hs_vin_check_id: (transfer none): `valid`, `wrong`, `not_used`. */
const char *hs_vin_check_id (HsVinCheck check);

/* hs_vin_region: (transfer none): "North America", "Europe" …, by the first character (ISO 3780); "" for 0. */
const char *hs_vin_region (const char *vin);

/* hs_vin_country: (transfer none): by the first two characters, ISO 3780; "" if it is not known here. */
const char *hs_vin_country (const char *vin);

/**
 * hs_vin_dup_wmi:
 *
 * Returns: (transfer full): positions 1 to 3, and with a 9 in the third also 12 to 14 (49 CFR 565.15(a))
 */
char *hs_vin_dup_wmi (const char *vin);

/**
 * HsVinEra:
 * @HS_VIN_ERA_EARLY: position 7 is a digit: 1980 to 2009
 * @HS_VIN_ERA_LATE: position 7 is a letter: 2010 to 2039
 * @HS_VIN_ERA_OPEN: position 7 does not tell for this vehicle
 */
typedef enum
{
  HS_VIN_ERA_EARLY,
  HS_VIN_ERA_LATE,
  HS_VIN_ERA_OPEN,
} HsVinEra;

/**
 * hs_vin_era:
 * @type: what the maker's identifier stands for
 *
 * Position 7 tells the era of cars and multipurpose vehicles for North America (49 CFR 565.15(b); Federal Register of
 * 2008-04-30): those built there, and those from elsewhere whose check digit is right. It does so for light trucks
 * too, but an identifier does not say how heavy a truck is, so a truck's era stays open.
 */
HsVinEra hs_vin_era (const char *vin, HsMakerType type);

/**
 * hs_vin_years:
 * @newest: the newest model year that can be on the road: next year
 * @ret_years: (out) (array fixed-size=2): model years, the earlier first
 *
 * The year code of position 10 comes back every 30 years. A later year beyond @newest is dropped while the earlier one
 * is possible.
 *
 * Returns: how many: 0 if position 10 holds no year (0, U, Z), 2 if it can be either
 */
guint hs_vin_years (const char *vin, HsVinEra era, int newest, gint64 ret_years[2]);

/**
 * hs_vin_suggest:
 * @reference: (nullable): makers: a reading whose maker is known comes first
 *
 * What may have been meant: one character taken for one that looks like it, or two neighbors swapped, wherever the
 * check digit then is right. Nothing for a VIN whose check digit is right. If it is not used, only a first character
 * that makes it a known maker's VIN of a region that prescribes one: S typed for 5.
 *
 * Returns: (transfer full) (array zero-terminated=1): at most %HS_VIN_MOST_SUGGESTIONS, the likeliest first
 */
char **hs_vin_suggest (const char *vin, const HsReference *reference);

G_END_DECLS
