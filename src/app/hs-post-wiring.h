// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-poster.h"

G_BEGIN_DECLS

/* hs_post_wiring_install: wires the network into the window, which knows of none; only in a build that posts. */
void hs_post_wiring_install (void);

G_END_DECLS
