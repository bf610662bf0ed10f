// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-call-merge.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* hs_deed_merge_call: @slip, @was: as for hs_call_merge(), strings are copied: answers a #GPtrArray of #HsCallClash
 * (transfer full). What was typed on the call's page is settled with it. */
void hs_deed_merge_call (HsLedger *ledger, const HsCallSlip *slip, const HsCallSlip *was, GAsyncReadyCallback callback,
                         gpointer user_data);

G_END_DECLS
