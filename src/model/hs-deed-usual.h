// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-usual.h"

G_BEGIN_DECLS

/* Usual jobs for the window; see hs-usual.h. */

/* hs_ask_usual: no arguments; answers a #GPtrArray of #HsUsual. */
gpointer hs_ask_usual (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_agree_usual: answers nothing. */
void hs_deed_agree_usual (HsLedger *ledger, const char *job_id, guint nth, const char *means,
                          GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_answer_usual_safe: arguments as of hs_usual_answer_safe(); answers nothing. */
void hs_deed_answer_usual_safe (HsLedger *ledger, const char *job_id, const char *item, const char *answer,
                                HsSafetyEnd end, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_finish_usual_safe: arguments as of hs_usual_finish_safe(); answers nothing. */
void hs_deed_finish_usual_safe (HsLedger *ledger, const char *job_id, HsSafetyEnd end, const char *why,
                                GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_finish_usual: @end: strings are copied: answers an HsJobView (transfer full) of the squared job. */
void hs_deed_finish_usual (HsLedger *ledger, const char *job_id, const HsUsualEnd *end, GAsyncReadyCallback callback,
                           gpointer user_data);

G_END_DECLS
