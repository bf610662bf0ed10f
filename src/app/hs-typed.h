// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What is keyed into a field in a hurry, with one thumb and no colon. */

/** hs_typed_clock: @text: (nullable): "9", "09", "930", "0930", "9:30" are times of day; "24:00" is its end.
 * Returns: minutes of the day, 0 … 1440; −1 for nothing and for what is no time */
int hs_typed_clock (const char *text);

/** hs_typed_minutes: @text: (nullable): digits alone.
 * Returns: 1 … 10080, a week; 0 for nothing typed; −1 for what is no such number */
int hs_typed_minutes (const char *text);

G_END_DECLS
