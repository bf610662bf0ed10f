// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-op.h"
#include "hs-ledger.h"
#include "hs-own-limit.h"

G_BEGIN_DECLS

/* What a page writes, each one transaction of the ops layer in the worker thread. All end with
 * hs_ledger_task_finish (); "answers" says what that gives. Nothing typed is thrown away here: a page keeps its text
 * until its callback says that the book has it. */

/* hs_deed_move_stage: @reason: (nullable): answers the fee for having been called off that went off the bill
 * (transfer full, nullable, g_free()). On site is hs_arrive() without leaving anything. Nobody tests a job good at
 * the vehicle whose safety list nobody began: %HS_OPS_ERROR_UNREAD, see hs_safety_check_read(). */
void hs_deed_move_stage (HsLedger *ledger, const char *job_id, HsStage to, const char *reason,
                         GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_go: @to: rolling or on site, as hs_roll() or hs_arrive(): answers what hs_deed_move_stage() does. */
void hs_deed_go (HsLedger *ledger, const char *job_id, HsStage to, const char *reason, gboolean leave,
                 GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_take_call: answers the job's id (transfer full, g_free()). */
void hs_deed_take_call (HsLedger *ledger, const HsCallSlip *slip, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_tell_reading: @text: (nullable): nobody knows: answers nothing. */
void hs_deed_tell_reading (HsLedger *ledger, const char *reading_id, const char *condition, const char *text,
                           GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_add_reading: @entry: strings are copied: answers an HsReadingResult (transfer full). */
void hs_deed_add_reading (HsLedger *ledger, const char *job_id, const HsReadingEntry *entry,
                          GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_note_finding: what was worked out or seen, in words: answers nothing. */
void hs_deed_note_finding (HsLedger *ledger, const char *job_id, const char *what, GAsyncReadyCallback callback,
                           gpointer user_data);

/* hs_deed_set_limit: @entry: strings are copied: answers nothing. */
void hs_deed_set_limit (HsLedger *ledger, const HsOwnLimitEntry *entry, GAsyncReadyCallback callback,
                        gpointer user_data);

/* hs_deed_clear_limit: the maker's or the owner's limit of @check for a vehicle: answers nothing. */
void hs_deed_clear_limit (HsLedger *ledger, const char *vehicle_id, const char *check, gboolean maker,
                          GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_set_group: answers nothing. */
void hs_deed_set_group (HsLedger *ledger, const char *job_id, const char *group, GAsyncReadyCallback callback,
                        gpointer user_data);

/* hs_deed_lock_stop: answers nothing. */
void hs_deed_lock_stop (HsLedger *ledger, HsDate day, const char *stop_id, gboolean locked,
                        GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_accept_plan: plans @day anew and lets that plan stand: answers nothing. */
void hs_deed_accept_plan (HsLedger *ledger, HsDate day, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_show_van: whose day this window shows from now on: answers nothing. Nothing is written. */
void hs_deed_show_van (HsLedger *ledger, const char *letter, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_tick: a row of the parts run; @list as in hs_parts_run_tick(): answers nothing. */
void hs_deed_tick (HsLedger *ledger, HsDate day, const char *list, const char *row_id, gboolean done,
                   GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_save_where: quiet; @job_id, @page, @field, @text: (nullable): answers nothing. */
void hs_deed_save_where (HsLedger *ledger, const char *job_id, const char *page, const char *field, const char *text,
                         GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_visit_where, hs_deed_leave_where: quiet, as hs_where_visit() and hs_where_leave(): answer nothing. */
void hs_deed_visit_where (HsLedger *ledger, const char *job_id, const char *page, const char *field,
                          GAsyncReadyCallback callback, gpointer user_data);
void hs_deed_leave_where (HsLedger *ledger, const char *job_id, gboolean worked, GAsyncReadyCallback callback,
                          gpointer user_data);

G_END_DECLS
