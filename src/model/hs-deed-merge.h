// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-call-merge.h"
#include "hs-call-name.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* hs_deed_merge_call: @slip, @was: as for hs_call_merge(), strings are copied: answers a #GPtrArray of #HsCallClash
 * (transfer full). What was typed on the call's page is settled with it. */
void hs_deed_merge_call (HsLedger *ledger, const HsCallSlip *slip, const HsCallSlip *was, GAsyncReadyCallback callback,
                         gpointer user_data);

/* hs_ask_call_name: (s): id of a job; answers an #HsCallName, or %NULL without an error. */
gpointer hs_ask_call_name (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_take_call_name: the customer is called what the caller of that job said; answers nothing. */
void hs_deed_take_call_name (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_ask_callers: (sums): words, how many at most, and the slip's job if there is one; answers as hs_ask_find(). */
gpointer hs_ask_callers (HsBook *book, GVariant *args, HsInstant now, GError **error);

G_END_DECLS
