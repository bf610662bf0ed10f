// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * HsScan: tells a VIN scanner, which types like a keyboard, from a hand: 17 signs, none of them long after the one
 * before, then Enter.
 */
typedef struct _HsScan HsScan;

HsScan *hs_scan_new (void);
void hs_scan_free (HsScan *self);

/**
 * hs_scan_feed:
 * @focus: (nullable): what the key goes to
 * @milliseconds: when
 *
 * For every key, before what has the focus sees it.
 *
 * Returns: (transfer full) (nullable): what was scanned, at its Enter; the entry that had the focus then says again
 *   what it said before, and the Enter is not for it
 */
char *hs_scan_feed (HsScan *self, GtkWidget *focus, guint keyval, gint64 milliseconds);

G_END_DECLS
