// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-time.h"

G_BEGIN_DECLS

/* Longer than this nobody is made to wait; it also keeps sums in range. */
#define HS_RETRY_AFTER_MOST_SECONDS (366 * (gint64) HS_SECONDS_PER_DAY)

/**
 * hs_http_date_parse:
 * @text: RFC 9110, 5.6.7: `Sun, 06 Nov 1994 08:49:37 GMT`, or one of the two old forms `Sunday, 06-Nov-94 08:49:37 GMT`
 *   and `Sun Nov  6 08:49:37 1994`
 * @now: a year of two digits that would lie more than 50 years ahead of it is of the century before
 * @ret_instant: (out): untouched on failure
 *
 * The name of the weekday is not held against the date.
 */
gboolean hs_http_date_parse (const char *text, HsInstant now, HsInstant *ret_instant);

/**
 * hs_retry_after_parse:
 * @text: (nullable): value of the header Retry-After, RFC 9110, 10.2.3: whole seconds or a date
 * @now: when the answer came
 *
 * Returns: when to come again, at most %HS_RETRY_AFTER_MOST_SECONDS from @now; %HS_INSTANT_NONE if @text is neither
 */
HsInstant hs_retry_after_parse (const char *text, HsInstant now);

G_END_DECLS
