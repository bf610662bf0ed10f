// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-window.h"

G_BEGIN_DECLS

/** What a book is set to, its places and the drives between them: all that a first day wants. Each field is written as
 * it is left; Esc shuts it. */
#define HS_TYPE_SET_UP_WINDOW (hs_set_up_window_get_type ())
G_DECLARE_FINAL_TYPE (HsSetUpWindow, hs_set_up_window, HS, SET_UP_WINDOW, AdwWindow)

/** hs_set_up_window_present: Returns: (transfer none): the window, shown */
HsSetUpWindow *hs_set_up_window_present (HsWindow *parent, HsLedger *ledger);

/** hs_set_up_window_show_posting: goes to where posting is set up. */
void hs_set_up_window_show_posting (HsSetUpWindow *self);

/** hs_set_up_window_get_entry: (transfer none) (nullable): the field of a setting's key, or of `place_code`,
 * `place_name`, `place_position`, `counter_name`, `counter_place`, `drive_from`, `drive_to`, `drive_minutes`,
 * `drive_miles`. */
GtkEditable *hs_set_up_window_get_entry (HsSetUpWindow *self, const char *name);

G_END_DECLS
