// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-sharing.h"
#include "hs-window.h"

G_BEGIN_DECLS

/** Who should take which call: the best so far while it is searched, the proof when it comes, accepting and undoing. */
#define HS_TYPE_SHARE_WINDOW (hs_share_window_get_type ())
G_DECLARE_FINAL_TYPE (HsShareWindow, hs_share_window, HS, SHARE_WINDOW, AdwWindow)

/** hs_share_window_present: over @parent, for @day; the search begins at once. (transfer none) */
HsShareWindow *hs_share_window_present (GtkWindow *parent, HsLedger *ledger, HsDate day);

/** hs_share_window_get_sharing: (transfer none): what it shows. */
HsSharing *hs_share_window_get_sharing (HsShareWindow *self);


G_END_DECLS
