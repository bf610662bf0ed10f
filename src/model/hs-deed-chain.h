// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chain-op.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* Why it failed, step by step, and the questions that are asked again. Deeds as in hs-deed.h; what the rules refuse
 * comes back as their sentence. */

/* hs_deed_extend_chain: @effect_id: (nullable): the complaint; @cause, @link: strings are copied; answers the new
 * finding's id (transfer full, g_free()). */
void hs_deed_extend_chain (HsLedger *ledger, const char *job_id, const char *effect_id, const HsFindingEntry *cause,
                           const HsBecauseEntry *link, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_add_because: a finding that is there is the cause; @effect_id: (nullable): the complaint of @job_id; answers
 * the cause's id (transfer full, g_free()). */
void hs_deed_add_because (HsLedger *ledger, const char *job_id, const char *effect_id, const char *cause_id,
                          const HsBecauseEntry *link, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_take_back_link: as hs_chain_take_back(): answers nothing. */
void hs_deed_take_back_link (HsLedger *ledger, const char *link_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_remove_finding: answers nothing. */
void hs_deed_remove_finding (HsLedger *ledger, const char *finding_id, GAsyncReadyCallback callback,
                             gpointer user_data);

/* hs_deed_settle_end: @ended: (nullable): opens it again: answers nothing. */
void hs_deed_settle_end (HsLedger *ledger, const char *finding_id, const char *ended, GAsyncReadyCallback callback,
                         gpointer user_data);

/* hs_deed_call_finding: @sure: `suspected`, `proven`, `not_known`: answers nothing. */
void hs_deed_call_finding (HsLedger *ledger, const char *finding_id, const char *sure, GAsyncReadyCallback callback,
                           gpointer user_data);

/* hs_deed_add_answer: @said_by: (nullable): as hs_answer_add(): answers nothing. */
void hs_deed_add_answer (HsLedger *ledger, const char *job_id, const char *question, const char *text,
                         const char *said_by, GAsyncReadyCallback callback, gpointer user_data);

G_END_DECLS
