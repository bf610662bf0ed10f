// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/** hs_demo_make: writes the demo business into a new book at @path, through the operations that a person uses. */
HsBook *hs_demo_make (const char *path, const HsBookUser *user, GError **error);

/** hs_demo_get_now: the demo's clock at its start: Tuesday 2026-03-10, 06:45 in its zone. */
HsInstant hs_demo_get_now (void);

G_END_DECLS
