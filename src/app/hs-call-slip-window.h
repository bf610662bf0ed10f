// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-draft.h"
#include "hs-job-op.h"
#include "hs-ledger.h"
#include "hs-window.h"

G_BEGIN_DECLS

/** A call slip over anything: F3 opens it, Esc or F3 shuts it and the cursor is where it was. */
#define HS_TYPE_CALL_SLIP_WINDOW (hs_call_slip_window_get_type ())
G_DECLARE_FINAL_TYPE (HsCallSlipWindow, hs_call_slip_window, HS, CALL_SLIP_WINDOW, AdwWindow)

/**
 * hs_call_slip_window_present:
 *
 * Opens a blank slip, or the one that was interrupted before it became a job. One that is open already comes forward.
 *
 * Returns: (transfer none): the slip
 */
HsCallSlipWindow *hs_call_slip_window_present (HsWindow *parent, HsLedger *ledger, HsDraft *draft);

/** hs_call_slip_window_propose: @slip: its area, day, window and minutes go into the fields; what is not there (%NULL,
 * %HS_DATE_NONE, −1, 0) leaves them as they are. A call that is not written down yet goes to its van. */
void hs_call_slip_window_propose (HsCallSlipWindow *self, const HsCallSlip *slip);

/* hs_call_slip_window_go: @field: (nullable): to where somebody was interrupted, as drafts call it. */
void hs_call_slip_window_go (HsCallSlipWindow *self, const char *field);

G_END_DECLS
