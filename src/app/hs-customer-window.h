// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"
#include "hs-signature-pad.h"

G_BEGIN_DECLS

/**
 * The page that is turned round to the customer: this vehicle's readings, why it failed, the options and what is asked
 * for them, and a box to sign in. It is made of an #HsCustomerShot and nothing else, which holds neither what things
 * cost nor anybody else. A digit picks, Enter asks who and writes it down, Esc turns back to where the cursor was.
 */
#define HS_TYPE_CUSTOMER_WINDOW (hs_customer_window_get_type ())
G_DECLARE_FINAL_TYPE (HsCustomerWindow, hs_customer_window, HS, CUSTOMER_WINDOW, AdwWindow)

/** hs_customer_window_present: @over: the window that it covers. Returns: (transfer none): gone once it is shut. */
HsCustomerWindow *hs_customer_window_present (GtkWindow *over, HsLedger *ledger, const char *job_id);

/** hs_customer_window_pick: as a digit. */
void hs_customer_window_pick (HsCustomerWindow *self, guint number);
HsSignaturePad *hs_customer_window_get_pad (HsCustomerWindow *self);

/** hs_customer_window_is_shown: the job was read. */
gboolean hs_customer_window_is_shown (HsCustomerWindow *self);

G_END_DECLS
