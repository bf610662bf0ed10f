// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-post-op.h"

G_BEGIN_DECLS

/**
 * HsPostNet:
 * @send: sends one message and waits for how it ends; called in a worker thread
 * @store_secret: puts the secret of an origin into the keyring, %NULL takes it out; called in a worker thread
 *
 * The network as the program wires it in; this layer knows none.
 */
typedef struct
{
  void (*send) (const HsPostParcel *parcel, GCancellable *cancellable, HsPostReply *ret_reply);
  gboolean (*store_secret) (const char *origin, const char *secret, GError **error);
} HsPostNet;

/* hs_post_net_install: @net: (nullable): stays for good; %NULL, as at the start: built without posting. */
void hs_post_net_install (const HsPostNet *net);
const HsPostNet *hs_post_net_get (void);

/**
 * HsPoster:
 *
 * Sends what waits for the owner's endpoint beside everything else that goes on: in a thread and over a connection to
 * the book of its own, so that neither the window nor the ledger's worker ever waits for a network. There is one for
 * each ledger. It lives by the true time, also in a book with a clock of its own.
 *
 * #HsPoster::changed: what it shows.
 */
#define HS_TYPE_POSTER (hs_poster_get_type ())
G_DECLARE_FINAL_TYPE (HsPoster, hs_poster, HS, POSTER, GObject)

/* hs_poster_of: (transfer none): the ledger's; it is made when first asked for, and looks for work from then on. */
HsPoster *hs_poster_of (HsLedger *ledger);

/* hs_poster_stop: ends a message that is under way; for the end of the program. It is sent again with the next one. */
void hs_poster_stop (HsPoster *self);

/* hs_poster_is_busy: a message may be under way. */
gboolean hs_poster_is_busy (HsPoster *self);

/* hs_poster_wants_owner: something is parked, the whole queue is paused, or it was tried in vain for a day. Nothing is
 * to be said when all is well. */
gboolean hs_poster_wants_owner (HsPoster *self);

/* hs_poster_get_overview: (transfer none) (nullable): as it was last read, without the list; %NULL before. */
const HsPostOverview *hs_poster_get_overview (HsPoster *self);

/* hs_poster_get_trouble: (transfer none) (nullable): why the book could not be read or written for it. */
const char *hs_poster_get_trouble (HsPoster *self);

G_END_DECLS
