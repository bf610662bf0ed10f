// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-page.h"

G_BEGIN_DECLS

/**
 * On the way: one large line over everything, where to, and when she is there. It asks nothing. It goes when the job is
 * driven to no more; Esc puts it away.
 */
#define HS_TYPE_WAY_WINDOW (hs_way_window_get_type ())
G_DECLARE_FINAL_TYPE (HsWayWindow, hs_way_window, HS, WAY_WINDOW, AdwWindow)

/** hs_way_window_present: @page: in the window that it covers. Returns: (transfer none): the window, shown. */
HsWayWindow *hs_way_window_present (HsPage *page, const char *job_id, const char *number);

/** hs_way_window_is_shown: the job was read. */
gboolean hs_way_window_is_shown (HsWayWindow *self);

G_END_DECLS
