// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-identify-op.h"
#include "hs-ledger.h"
#include "hs-safety-op.h"

G_BEGIN_DECLS

/* What is written on arriving; deeds as in hs-deed.h. */

/* hs_deed_answer_safety: @answer: `done`, `not_here`, `not_so`, %NULL takes it back; @why: (nullable). Answers
 * nothing. */
void hs_deed_answer_safety (HsLedger *ledger, const char *job_id, const char *item, const char *answer,
                            const char *why, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_answer_safety_down_to: hs_safety_answer_down_to(). Answers nothing. */
void hs_deed_answer_safety_down_to (HsLedger *ledger, const char *job_id, const char *item,
                                    GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_pass_safety: hs_safety_pass(). Answers nothing. */
void hs_deed_pass_safety (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_finish_safety: @why: (nullable): answers nothing. */
void hs_deed_finish_safety (HsLedger *ledger, const char *job_id, HsSafetyEnd end, const char *why,
                            GAsyncReadyCallback callback, gpointer user_data);

/**
 * HsIdentifyField: what is held against the record.
 * @HS_IDENTIFY_SAW_IT: `yes`, `no`, or nothing
 */
typedef enum
{
  HS_IDENTIFY_PLATE,
  HS_IDENTIFY_VIN,
  HS_IDENTIFY_ODOMETER,
  HS_IDENTIFY_SAW_IT,
} HsIdentifyField;

/* hs_deed_identify: @why: (nullable): the reason for what does not agree; answers how a plate or a VIN came out, an
 * HsIdentified in a pointer. */
void hs_deed_identify (HsLedger *ledger, const char *job_id, HsIdentifyField field, const char *text, const char *why,
                       GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_answer: @question: its id or words; @said_by: (nullable): answers nothing. */
void hs_deed_answer (HsLedger *ledger, const char *job_id, const char *question, const char *text,
                     const char *said_by, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_run_clock: starts or stops the labor clock: answers nothing. */
void hs_deed_run_clock (HsLedger *ledger, const char *job_id, gboolean run, GAsyncReadyCallback callback,
                        gpointer user_data);

/* hs_deed_note_model: @topic, @years: (nullable): answers nothing. */
void hs_deed_note_model (HsLedger *ledger, const char *job_id, const char *topic, const char *words,
                         const char *years, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_drop_note: answers nothing. */
void hs_deed_drop_note (HsLedger *ledger, const char *job_id, const char *note_id, GAsyncReadyCallback callback,
                        gpointer user_data);

/* hs_deed_call_off: @fee_cents: 0: none: answers nothing. */
void hs_deed_call_off (HsLedger *ledger, const char *job_id, const char *how, gint64 fee_cents, const char *reason,
                       GAsyncReadyCallback callback, gpointer user_data);

G_END_DECLS
