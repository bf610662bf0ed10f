// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-post-wire.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * HsPostSender:
 *
 * Sends one message at a time to the owner's endpoint and waits for its answer. It follows nobody who sends on, keeps
 * no cookies, unpacks nothing, answers no request for a password, and lets no certificate pass that does not hold. It
 * belongs to one thread.
 */
typedef struct _HsPostSender HsPostSender;

/* How long a small message may take, from looking up the host to the end of the answer, and how long nothing may move
 * with a large one. */
#define HS_POST_SECONDS 60

/* hs_post_sender_new: @seconds 0: %HS_POST_SECONDS. */
HsPostSender *hs_post_sender_new (guint seconds);
void hs_post_sender_free (HsPostSender *sender);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPostSender, hs_post_sender_free)

/**
 * hs_post_sender_send:
 * @cancellable: (nullable): ends it from another thread
 * @ret_reply: (out caller-allocates): how it ended
 *
 * Of the answer no more than %HS_POST_PROBLEM_BYTES is read.
 */
void hs_post_sender_send (HsPostSender *sender, const HsPostParcel *parcel, GCancellable *cancellable,
                          HsPostReply *ret_reply);

G_END_DECLS
