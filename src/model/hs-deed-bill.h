// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-square.h"

G_BEGIN_DECLS

/* What is written on a job's bill; see hs-deed.h. */

/* hs_deed_price: @goodwill: (nullable): why nothing is charged: answers nothing. */
void hs_deed_price (HsLedger *ledger, const char *job_id, const char *goodwill, GAsyncReadyCallback callback,
                    gpointer user_data);

/* hs_deed_set_minutes: of the visit of which the labor clock has none: answers nothing. */
void hs_deed_set_minutes (HsLedger *ledger, const char *job_id, int minutes, GAsyncReadyCallback callback,
                          gpointer user_data);

/* hs_ask_square: (s): id of a job; answers an #HsSquareOutlook. */
gpointer hs_ask_square (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_block_place: (sums): id of a job, a stage, a reason (nullable): answers where that is mended what stands
 * against the move, as hs_job_block_place() has it, empty for nowhere (transfer full, g_free()). */
gpointer hs_ask_block_place (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_square: squares the job up and freezes its invoice: answers nothing. */
void hs_deed_square (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_pay: @how: as hs_payment_add() takes it: answers nothing. */
void hs_deed_pay (HsLedger *ledger, const char *job_id, gint64 cents, const char *how, GAsyncReadyCallback callback,
                  gpointer user_data);

G_END_DECLS
