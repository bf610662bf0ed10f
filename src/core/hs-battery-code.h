// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-date.h"

G_BEGIN_DECLS

/**
 * HsBatteryCode:
 * @months: (element-type HsDate): first days of the months that the code can mean in the newest possible decade, in
 *   order; one if it is unambiguous
 * @older: (element-type HsDate): the same codes in earlier decades, newest first
 * @scheme: how it was read, in words
 *
 * When a battery was made, by the code stamped into its case or stuck on it.
 */
typedef struct
{
  GArray *months;
  GArray *older;
  const char *scheme;
} HsBatteryCode;

/**
 * hs_battery_code_parse:
 * @text: `C5`, `5C`, `24C`, `03/25`, `0325`; blanks and case do not matter
 * @today: nothing is made later; in 1950 or later
 * @ret_code: (out caller-allocates): hs_battery_code_clear() when done; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * A letter is a month, a digit the last one of the year. Some makers skip I (A Jan … H Aug, J Sep … M Dec; technician
 * training module), some do not (A Jan … L Dec): from I to M the letter alone does not tell, and both months are given.
 * The newest year that is not in the future counts; ten and twenty years before are given as older.
 *
 * Returns: %FALSE if no scheme reads it
 */
gboolean hs_battery_code_parse (const char *text, HsDate today, HsBatteryCode *ret_code, GError **error);

void hs_battery_code_clear (HsBatteryCode *code);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HsBatteryCode, hs_battery_code_clear)

G_END_DECLS
