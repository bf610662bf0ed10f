// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-window.h"

G_BEGIN_DECLS

/** What is not posted to the owner's endpoint yet, since when and why, and what can be done about it. */
#define HS_TYPE_UNSENT_WINDOW (hs_unsent_window_get_type ())
G_DECLARE_FINAL_TYPE (HsUnsentWindow, hs_unsent_window, HS, UNSENT_WINDOW, AdwWindow)

HsUnsentWindow *hs_unsent_window_present (HsWindow *parent, HsLedger *ledger);

/** hs_unsent_window_get_items: (transfer none): the rows that are there, an #HsItems of #HsPostUnsent. */
GListModel *hs_unsent_window_get_items (HsUnsentWindow *self);

/** hs_unsent_window_get_address: (transfer none): the field of the address. */
GtkEditable *hs_unsent_window_get_address (HsUnsentWindow *self);

G_END_DECLS
