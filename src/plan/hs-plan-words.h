// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Times as the owner reads them in a sentence (private to this layer). */

/* (transfer full): a clock that shows @seconds since the midnight that the day starts with: "09:12", "00:30 the next
 * day", "23:30 the day before". Seconds are left out. */
char *hs_words_clock (gint64 seconds);

/* (transfer full): "8 min", "1 h 5 min", "40 s"; begun minutes count. */
char *hs_words_length (gint64 seconds);

G_END_DECLS
