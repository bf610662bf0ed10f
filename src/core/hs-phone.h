// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * hs_phone_digits:
 * @text: a phone number as it was typed
 *
 * What two spellings of one number have in common: a `+` if the first sign was one, then the digits.
 *
 * Returns: (transfer full): e.g. `5550121`, `+12025550123`
 */
char *hs_phone_digits (const char *text);

/**
 * hs_phone_check:
 * @text: a phone number as it was typed
 *
 * Accepts digits with blanks, dots, dashes, slashes, parentheses, a leading `+` and an extension behind `x` or `ext`.
 * Numbers of more than 15 digits are accepted (ITU-T E.164 says 15, longer national numbers exist).
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE for letters or fewer than three digits
 */
gboolean hs_phone_check (const char *text, GError **error);

/**
 * hs_phone_last_four:
 *
 * Returns: (transfer full): the last four digits without an extension, fewer if there are fewer
 */
char *hs_phone_last_four (const char *text);

/* hs_phone_is_long: more than the 15 digits of E.164: worth a second look, kept as typed. */
gboolean hs_phone_is_long (const char *text);

G_END_DECLS
