// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What would mend a day, as the owner reads it. All (transfer full). */

/* hs_mend_drop: leaving out the call @id. */
char *hs_mend_drop (const char *id);

/* hs_mend_move: a promise of @id that ends @minutes later. */
char *hs_mend_move (const char *id, int minutes);

/* hs_mend_start: leaving @minutes earlier. */
char *hs_mend_start (int minutes);

G_END_DECLS
