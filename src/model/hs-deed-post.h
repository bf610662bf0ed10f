// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-post-op.h"

G_BEGIN_DECLS

/* What the owner asks and does about posting. Deeds as in hs-deed.h; where to and how are settings: hs_deed_set(). */

/* hs_ask_unsent: (ut): how many at most, and where the #HsTongue is that says why, which has to live as long, or 0;
 * answers an #HsPostOverview. */
gpointer hs_ask_unsent (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_post_switch: whether this machine posts; answers nothing. */
void hs_deed_post_switch (HsLedger *ledger, gboolean on, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_post_all: queues every job that was never posted as it is; answers how many, as an integer in a pointer. */
void hs_deed_post_all (HsLedger *ledger, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_post_retry: @job_id: (nullable): of what is to be tried now; %NULL: all. Answers nothing. */
void hs_deed_post_retry (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_post_drop: what is unsent of a job is never sent. Logged; answers nothing. */
void hs_deed_post_drop (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data);

/**
 * hs_deed_keep_secret:
 * @secret: (nullable): for the endpoint whose address the book has; copied; %NULL: the one that is kept goes
 *
 * Puts the secret into the keyring, in a thread of its own: a keyring may ask the owner to unlock it first. The book
 * does not see it. Once it is there the queue may go on. Finish it with hs_deed_keep_secret_finish().
 */
void hs_deed_keep_secret (HsLedger *ledger, const char *secret, GAsyncReadyCallback callback, gpointer user_data);
gboolean hs_deed_keep_secret_finish (HsLedger *ledger, GAsyncResult *result, GError **error);

G_END_DECLS
