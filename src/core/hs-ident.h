// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * hs_plate_normalize:
 * @plate: as it was typed
 *
 * What two spellings of one plate have in common: capitals and digits, nothing between them (`tdm-8816` → `TDM8816`).
 *
 * Returns: (transfer full): empty if there is no letter or digit in it
 */
char *hs_plate_normalize (const char *plate);

/**
 * hs_vin_normalize:
 * @vin: as it was typed or scanned
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Capitals and digits without blanks and dashes. 17 signs without I, O and Q are a full VIN (ISO 3779); fewer are
 * accepted as a chassis number of an old vehicle or a known ending.
 *
 * Returns: (transfer full): or %NULL for more than 17 signs, other signs, or I, O, Q in 17
 */
char *hs_vin_normalize (const char *vin, GError **error);

/**
 * hs_vin_tail:
 *
 * Returns: (transfer full): the last @n signs of the VIN as capitals and digits, all of it if it is shorter
 */
char *hs_vin_tail (const char *vin, guint n);

/* The last job number of a van. */
#define HS_JOB_NUMBER_LAST 999999

/**
 * hs_job_number_format:
 * @letter: the van, `A` to `Z`
 * @number: 1 to %HS_JOB_NUMBER_LAST
 *
 * Returns: (transfer full): `A-0021`; four digits at least
 */
char *hs_job_number_format (char letter, int number);

/**
 * hs_job_number_parse:
 * @text: `A-0021`; also `a21`, `A 21`
 * @ret_letter: (out) (optional): capital
 * @ret_number: (out) (optional)
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Returns: %TRUE if @text is a job number; outputs are untouched if not
 */
gboolean hs_job_number_parse (const char *text, char *ret_letter, int *ret_number, GError **error);

G_END_DECLS
