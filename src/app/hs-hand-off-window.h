// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-page.h"

G_BEGIN_DECLS

/**
 * From the laptop to the telephone: a code that its camera takes over. A digit chooses what it holds: the number to
 * call, a text that is written already, the place. `+` and `−` move the time in the text.
 */
#define HS_TYPE_HAND_OFF_WINDOW (hs_hand_off_window_get_type ())
G_DECLARE_FINAL_TYPE (HsHandOffWindow, hs_hand_off_window, HS, HAND_OFF_WINDOW, AdwWindow)

/**
 * hs_hand_off_window_present:
 * @over: the window over which it lies
 * @job_id: (nullable): whose call it is; %NULL: of a number alone
 * @phone: (nullable): the number that stands in the slip, before the book's
 *
 * Returns: (transfer none): the window, shown
 */
HsHandOffWindow *hs_hand_off_window_present (GtkWindow *over, HsLedger *ledger, const char *job_id,
                                             const char *phone);

/** hs_hand_off_window_choose: @nth: from 0 among what there is. Returns: whether there are so many. */
gboolean hs_hand_off_window_choose (HsHandOffWindow *self, guint nth);

/** hs_hand_off_window_get_text: (transfer none) (nullable): what the code holds, letter for letter. */
const char *hs_hand_off_window_get_text (HsHandOffWindow *self);

G_END_DECLS
