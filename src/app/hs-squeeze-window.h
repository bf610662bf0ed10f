// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-draft.h"
#include "hs-ledger.h"
#include "hs-window.h"

G_BEGIN_DECLS

/** Where one more call fits a day: place, minutes and a window in, offers out, cheapest first. F5 opens it over
 * anything, Esc or F5 shuts it. */
#define HS_TYPE_SQUEEZE_WINDOW (hs_squeeze_window_get_type ())
G_DECLARE_FINAL_TYPE (HsSqueezeWindow, hs_squeeze_window, HS, SQUEEZE_WINDOW, AdwWindow)

/**
 * hs_squeeze_window_present:
 * @day: the day to fit the call into
 *
 * An offer that is activated opens the call slip with its van and its free window, cut to the window that was asked
 * for; where it has none, with the hour from its start on. F3 away from the offers takes what was typed.
 *
 * Returns: (transfer none): the window; one that is open already comes forward
 */
HsSqueezeWindow *hs_squeeze_window_present (HsWindow *parent, HsLedger *ledger, HsDraft *draft, HsDate day);

/** hs_squeeze_window_fill: @area: name or code; @from, @to: as keyed. */
void hs_squeeze_window_fill (HsSqueezeWindow *self, const char *area, const char *minutes, const char *from,
                             const char *to);

G_END_DECLS
