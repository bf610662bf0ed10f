// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-choice-op.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* What is told and picked, and go-aheads. Deeds as in hs-deed.h; all strings are copied. */

/* hs_deed_add_choice: answers the option's id (transfer full, g_free()). */
void hs_deed_add_choice (HsLedger *ledger, const char *job_id, const HsChoiceEntry *entry,
                         GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_change_choice: answers nothing. */
void hs_deed_change_choice (HsLedger *ledger, const char *choice_id, const HsChoiceEntry *entry,
                            GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_remove_choice: answers nothing. */
void hs_deed_remove_choice (HsLedger *ledger, const char *choice_id, GAsyncReadyCallback callback,
                            gpointer user_data);

/* hs_deed_add_choice_line: answers nothing. */
void hs_deed_add_choice_line (HsLedger *ledger, const char *choice_id, const HsChoiceLineEntry *line,
                              GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_remove_choice_line: answers nothing. */
void hs_deed_remove_choice_line (HsLedger *ledger, const char *line_id, GAsyncReadyCallback callback,
                                 gpointer user_data);

/* hs_deed_decide: answers nothing. */
void hs_deed_decide (HsLedger *ledger, const char *choice_id, const HsChoiceAnswer *answer,
                     GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_give_go_ahead: answers nothing. */
void hs_deed_give_go_ahead (HsLedger *ledger, const char *job_id, const HsGoAheadEntry *entry,
                            GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_follow: @job_id is the return visit to @earlier_id: answers nothing. */
void hs_deed_follow (HsLedger *ledger, const char *job_id, const char *earlier_id, const char *why,
                     GAsyncReadyCallback callback, gpointer user_data);

G_END_DECLS
