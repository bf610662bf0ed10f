// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What a telephone's camera takes over from a code on the screen, as URIs. */

/**
 * hs_hand_off_tel:
 * @phone: (nullable): a number as it was typed
 *
 * RFC 3966: digits alone, with the plus of an international number in front. A number without it is dialed as the
 * telephone does where it is.
 *
 * Returns: (transfer full) (nullable): `tel:+15550121`; %NULL if there is no digit
 */
char *hs_hand_off_tel (const char *phone);

/**
 * hs_hand_off_sms:
 * @phone: (nullable): as for hs_hand_off_tel()
 * @text: what to say; UTF-8
 *
 * RFC 5724: the text is a query, so that all but the unreserved signs of RFC 3986 are written as %XX.
 *
 * Returns: (transfer full) (nullable): `sms:5550121?body=I%20am%20late`
 */
char *hs_hand_off_sms (const char *phone, const char *text);

G_END_DECLS
