// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-post-wire.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/* Wires the network to the queue, in a build that posts; hs-cli-post-off.c stands in for it in one that does not. */

gboolean hs_cli_post_is_built_in (void);

/* hs_cli_post_send: as HsPostWorks.send; @seconds: how long a message may take; @over: (nullable): breaks it off. */
void hs_cli_post_send (guint seconds, const HsPostParcel *parcel, GCancellable *over, HsPostReply *ret_reply);

/* hs_cli_post_store_secret: into the keyring; %NULL takes it out. */
gboolean hs_cli_post_store_secret (const char *origin, const char *secret, GError **error);

G_END_DECLS
