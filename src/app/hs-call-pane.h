// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/** A job's call: the slip's fields, what is asked on the phone, the vehicle held against the record, the visits with
 * the labor clock, and what is known of the model. F9 goes to the questions and back. */
#define HS_TYPE_CALL_PANE (hs_call_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsCallPane, hs_call_pane, HS, CALL_PANE, HsJobPane)

/** hs_call_pane_go_on: it is safe there: the cursor goes to what comes next in a visit, the vehicle and then what is
 * still to be asked. */
void hs_call_pane_go_on (HsCallPane *self);

G_END_DECLS
