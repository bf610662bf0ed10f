// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-window.h"

G_BEGIN_DECLS

/**
 * HsGoWindow:
 *
 * Every view, and what else a job's page leads to, under a digit each: one key and a digit go anywhere.
 */
#define HS_TYPE_GO_WINDOW (hs_go_window_get_type ())
G_DECLARE_FINAL_TYPE (HsGoWindow, hs_go_window, HS, GO_WINDOW, AdwWindow)

/* hs_go_window_present: over @parent. */
void hs_go_window_present (HsWindow *parent);

G_END_DECLS
